/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Writing demands down as open zones of places, and those every kind of part is asked: within the
 * boarded wall, off other parts. Knows no points but those it is handed. */
#include "plan/advisor-private.h"

#include "plan/faces-private.h"

#define FAR DRY_LENGTH_MAX

const char *
dry_advice_text (DryAdviceWork *self, DryLength length)
{
  return dry_context_length (self->context, length);
}

void
dry_advice_add_zone (DryAdviceWork *self, DryRect places, double fixed, const char *what)
{
  DryAdviceZone zone = {.places = places, .fixed = fixed, .what = what};

  if (places.x0 < places.x1 && places.y0 < places.y1)
    g_array_append_val (self->zones, zone);
}

/* `shape` at place p covers (p.x + x0, p.x + x1): it reaches into the obstacle where p is strictly
 * between obstacle.x0 - x1 and obstacle.x1 - x0. */
void
dry_advice_keep_off (DryAdviceWork *self, DryRect shape, DryRect obstacle, double fixed,
                     const char *what)
{
  DryRect places = {obstacle.x0 - shape.x1, obstacle.y0 - shape.y1, obstacle.x1 - shape.x0,
                    obstacle.y1 - shape.y0};

  dry_advice_add_zone (self, places, fixed, what);
}

void
dry_advice_keep_in_range (DryAdviceWork *self, DryRect where, DryAdviceRange range, double fixed,
                          double per_inch, const char *what)
{
  if (range.has_low) {
    DryAdviceZone zone = {{where.x0, where.y0, where.x1, MIN (where.y1, range.low)},
                          fixed,
                          per_inch,
                          DRY_ADVICE_EDGE_ABOVE,
                          what};
    if (!dry_rect_is_empty (zone.places))
      g_array_append_val (self->zones, zone);
  }
  if (range.has_high) {
    DryAdviceZone zone = {{where.x0, MAX (where.y0, range.high), where.x1, where.y1},
                          fixed,
                          per_inch,
                          DRY_ADVICE_EDGE_BELOW,
                          what};
    if (!dry_rect_is_empty (zone.places))
      g_array_append_val (self->zones, zone);
  }
}

void
dry_advice_forbid_face (DryAdviceWork *self, double fixed, const char *what)
{
  dry_advice_add_zone (self, (DryRect){-FAR, -FAR, FAR, FAR}, fixed, what);
}

void
dry_advice_end_demand (DryAdviceWork *self, DryAdviceKind kind, gboolean hard, gboolean sums,
                       const DryRule *rule, const char *else_source)
{
  DryAdviceDemand demand = {.kind = kind, .hard = hard, .sums = sums, .n_zones = self->zones->len};

  demand.zones = dry_arena_copy (self->context->arena, self->zones->data,
                                 self->zones->len * sizeof (DryAdviceZone));
  g_array_set_size (self->zones, 0);
  demand.source = rule ? rule->source : (DrySource){else_source, DRY_CERTAINTY_COMMON_PRACTICE};
  demand.rule = rule ? rule->id : NULL;
  g_array_append_val (self->demands, demand);
}

/* --- within the boarded wall --- */

static gboolean
is_boarded (const DryFace *face, DryPoint at)
{
  for (guint i = 0; i < face->n_cutouts; i++)
    if (dry_rect_contains (face->cutouts[i].rough, at))
      return TRUE; /* other things stand there; that is asked elsewhere */
  return dry_region_contains (&face->region, at);
}

static void
gather_cuts (const DryFace *face, GArray *x, GArray *y)
{
  DryLength ends[] = {0, face->length}, tops[] = {0, face->height};

  g_array_append_vals (x, ends, 2);
  g_array_append_vals (y, tops, 2);
  for (guint i = 0; i < face->region.n_polygons; i++) {
    const DryPolygon *polygon = &face->region.polygons[i];
    for (guint r = 0; r <= polygon->n_holes; r++) {
      const DryRing *ring = r ? &polygon->holes[r - 1] : &polygon->outer;
      for (guint p = 0; p < ring->n_points; p++) {
        g_array_append_val (x, ring->points[p].x);
        g_array_append_val (y, ring->points[p].y);
      }
    }
  }
}

static gint
compare_lengths (gconstpointer a, gconstpointer b)
{
  DryLength x = *(const DryLength *) a, y = *(const DryLength *) b;

  return (x > y) - (x < y);
}

/* The boarded region is cut at all its corners into cells; those outside it are kept off. Inside
 * the board of a neighbour that was hung first nothing may stand either: the end studs ask more. */
static void
keep_off_bare_cells (DryAdviceWork *self, DryRect shape)
{
  const DryFace *face = self->face;
  g_autoptr (GArray) x = g_array_new (FALSE, FALSE, sizeof (DryLength));
  g_autoptr (GArray) y = g_array_new (FALSE, FALSE, sizeof (DryLength));

  gather_cuts (face, x, y);
  g_array_sort (x, compare_lengths);
  g_array_sort (y, compare_lengths);
  for (guint j = 0; j + 1 < y->len; j++) {
    DryLength y0 = g_array_index (y, DryLength, j), y1 = g_array_index (y, DryLength, j + 1);
    for (guint i = 0; i + 1 < x->len && y0 < y1; i++) {
      DryLength x0 = g_array_index (x, DryLength, i), x1 = g_array_index (x, DryLength, i + 1);
      guint k = i + 1;
      if (x0 >= x1 || is_boarded (face, (DryPoint){(x0 + x1) / 2, (y0 + y1) / 2}))
        continue;
      for (; k + 1 < x->len; k++) { /* joined along the row */
        DryLength next = g_array_index (x, DryLength, k + 1);
        if (next > x1 && is_boarded (face, (DryPoint){(x1 + next) / 2, (y0 + y1) / 2}))
          break;
        x1 = MAX (x1, next);
      }
      i = k - 1;
      dry_advice_keep_off (self, shape, (DryRect){x0, y0, x1, y1}, 0,
                           "the part of the wall that is not boarded");
    }
  }
}

void
dry_advice_demand_boarded (DryAdviceWork *self, DryRect shape)
{
  const DryFace *face = self->face;
  DryLength built = self->context->build_up.total;

  keep_off_bare_cells (self, shape);
  dry_advice_add_zone (self, (DryRect){-FAR, -FAR, -shape.x0, FAR}, 0, "the end of the wall");
  dry_advice_add_zone (self, (DryRect){face->length - shape.x1, -FAR, FAR, FAR}, 0,
                       "the end of the wall");
  dry_advice_add_zone (self, (DryRect){-FAR, -FAR, FAR, -shape.y0}, 0, "the floor");
  dry_advice_add_zone (self, (DryRect){-FAR, face->height - shape.y1, FAR, FAR}, 0,
                       "the top of the wall");
  if (face->left.face >= 0)
    dry_advice_add_zone (self, (DryRect){-FAR, -FAR, built - self->finish.x0, FAR}, 0,
                         "the tile of the wall at the left corner");
  if (face->right.face >= 0)
    dry_advice_add_zone (self, (DryRect){face->length - built - self->finish.x1, -FAR, FAR, FAR}, 0,
                         "the tile of the wall at the right corner");
  dry_advice_end_demand (self, DRY_ADVICE_BOARDED, TRUE, FALSE,
                         dry_advice_rule (self, "niche", "in-board"), "common practice, no source");
}

/* --- other parts --- */

static const char *
name_opening (const DryOpening *opening)
{
  return opening->kind == DRY_OPENING_WINDOW ? "the window" : "the door";
}

void
dry_advice_demand_parts (DryAdviceWork *self, const char *subject, DryRect shape)
{
  const DryRoom *room = self->context->room;
  const DryRule *rule = dry_advice_rule (self, subject, "overlaps");

  for (guint i = 0; i < room->n_parts; i++) {
    const DryPart *other = &room->parts[i];
    if (other->wall == self->face->wall && other->side == self->face->side &&
        !dry_part_kind_is_hidden (other->kind))
      dry_advice_keep_off (self, shape, dry_part_rect (other), 0,
                           dry_arena_printf (self->context->arena, "the %s",
                                             dry_measuring_part_name (&self->measuring, other)));
  }
  for (guint i = 0; i < room->n_openings; i++) {
    const DryOpening *other = &room->openings[i];
    if (other->wall == self->face->wall)
      dry_advice_keep_off (self, shape,
                           dry_faces_opening_rect (self->wall, self->face->side, other), 0,
                           name_opening (other));
  }
  dry_advice_end_demand (self, DRY_ADVICE_PARTS, TRUE, FALSE, rule, "common practice, no source");
}

void
dry_advice_demand_near (DryAdviceWork *self, DryRect shape, DryLength room_left)
{
  const DryRoom *room = self->context->room;
  DryRect wide = dry_rect_inflate (shape, room_left);

  for (guint i = 0; i < room->n_parts; i++) {
    const DryPart *other = &room->parts[i];
    if (other->wall == self->face->wall && other->side == self->face->side &&
        !dry_part_kind_is_hidden (other->kind))
      dry_advice_keep_off (self, wide, dry_part_rect (other), DRY_POINTS_NEAR,
                           dry_arena_printf (self->context->arena, "the %s",
                                             dry_measuring_part_name (&self->measuring, other)));
  }
  for (guint i = 0; i < room->n_openings; i++)
    if (room->openings[i].wall == self->face->wall)
      dry_advice_keep_off (
          self, wide, dry_faces_opening_rect (self->wall, self->face->side, &room->openings[i]),
          DRY_POINTS_NEAR, name_opening (&room->openings[i]));
  dry_advice_end_demand (self, DRY_ADVICE_NEAR, dry_advice_is_hard (self, DRY_ADVICE_NEAR, NULL),
                         FALSE, NULL,
                         "common practice, no source: 2 in of wall between a niche or bar and what "
                         "stands beside it leaves room for the tile and the band");
}

void
dry_advice_demand_wall (DryAdviceWork *self)
{
  const DryRule *rule = NULL;

  if (self->part->kind == DRY_PART_VALVE)
    rule = dry_advice_rule (self, "valve", "exterior-wall");
  if (self->wall->exterior)
    dry_advice_forbid_face (self, DRY_POINTS_OUTSIDE, "an outside wall");
  if (self->wall->plumbing && self->part->kind == DRY_PART_NICHE)
    dry_advice_forbid_face (self, DRY_POINTS_PLUMBING, "the wall with the pipes");
  dry_advice_end_demand (self, DRY_ADVICE_WALL, dry_advice_is_hard (self, DRY_ADVICE_WALL, rule),
                         TRUE, rule,
                         "common practice, no source: niches stand best in an inner wall without "
                         "pipes");
}

DryRect
dry_advice_hidden_rect (const DryAdviceWork *self, const DryPart *hidden)
{
  DryRect rect = dry_part_rect (hidden);
  DryLength length = self->face->length;

  if (hidden->side == self->face->side)
    return rect;
  return (DryRect){length - rect.x1, rect.y0, length - rect.x0, rect.y1};
}
