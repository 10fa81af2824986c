/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The best places. Points are constant or straight between the edges of zones and the kinks of
 * joints, so the least of them lies on a crossing of such lines: those are tried, all of them. */
#include <math.h>
#include <string.h>

#include "plan/advisor-private.h"

/* --- where the least can lie --- */

static gint
compare_lengths (gconstpointer a, gconstpointer b)
{
  DryLength x = *(const DryLength *) a, y = *(const DryLength *) b;

  return (x > y) - (x < y);
}

static void
add_value (GArray *values, DryLength value, DryLength most)
{
  if (value >= 0 && value <= most)
    g_array_append_val (values, value);
}

static void
add_joint_kinks (GArray *values, const DryLength *lines, guint n, DryLength low, DryLength high,
                 DryLength tolerance, DryLength most)
{
  for (guint i = 0; i < n; i++) {
    for (gint step = -1; step <= 1; step++) {
      add_value (values, lines[i] - low + step * tolerance, most);
      add_value (values, lines[i] - high + step * tolerance, most);
    }
    add_value (values, lines[i] + DRY_TILE_SLIVER - low, most); /* there the strip is none */
    add_value (values, lines[i] - DRY_TILE_SLIVER - high, most);
  }
}

static const DryLength *
take_values (DryArena *arena, GArray *values, guint *n)
{
  guint kept = 0;

  g_array_sort (values, compare_lengths);
  for (guint i = 0; i < values->len; i++)
    if (i == 0 ||
        g_array_index (values, DryLength, i) != g_array_index (values, DryLength, kept - 1))
      g_array_index (values, DryLength, kept++) = g_array_index (values, DryLength, i);
  g_array_set_size (values, kept);
  *n = kept;
  return dry_arena_take_array (arena, values);
}

void
dry_advice_find_critical (const DryAdvice *self, DryAdviceFace *face, const GArray *standing)
{
  GArray *us = g_array_new (FALSE, FALSE, sizeof (DryLength));
  GArray *zs = g_array_new (FALSE, FALSE, sizeof (DryLength));
  DryRect finish = dry_advice_finish (self, (DryPoint){0, 0});
  DryRect body = dry_advice_body (self, (DryPoint){0, 0});
  DryLength middle = body.x0 + dry_rect_width (body) / 2;
  DryLength tolerance = self->site->options.joint_tolerance;

  add_value (us, 0, face->length);
  add_value (us, face->length, face->length);
  add_value (zs, 0, face->height);
  add_value (zs, face->height, face->height);
  for (guint i = 0; i < face->n_demands; i++)
    for (guint j = 0; j < face->demands[i].n_zones; j++) {
      DryRect r = face->demands[i].zones[j].places;
      add_value (us, r.x0, face->length);
      add_value (us, r.x1, face->length);
      add_value (zs, r.y0, face->height);
      add_value (zs, r.y1, face->height);
    }
  /* Among equals the middle of a bay, and where it stands already. */
  for (guint i = 0; i + 1 < standing->len; i++) {
    DryLength u0 = g_array_index (standing, DryStanding, i).u1;
    DryLength u1 = g_array_index (standing, DryStanding, i + 1).u0;
    add_value (us, u0 + (u1 - u0) / 2 - middle, face->length);
  }
  add_value (us, self->part->u, face->length);
  add_value (zs, self->part->z, face->height);
  if (self->part->kind == DRY_PART_NICHE) {
    add_joint_kinks (us, face->lines.upright, face->lines.n_upright, finish.x0, finish.x1,
                     tolerance, face->length);
    add_joint_kinks (zs, face->lines.level, face->lines.n_level, finish.y0, finish.y1, tolerance,
                     face->height);
  }
  face->critical_u = take_values (self->arena, us, &face->n_critical_u);
  face->critical_z = take_values (self->arena, zs, &face->n_critical_z);
}

/* --- candidates --- */

/* Places this much worse than the best of their wall are none of the five best. */
#define WORSE_MOST 40

typedef struct {
  const DryAdvice *advice; /* of this size */
  const DryAdviceFace *face;
  DryPoint at;
  double points;
  DryLength off_middle, off_height;
  DryLength elsewhere; /* 1: on another wall than it stands on */
  guint order;         /* of the size */
  DryLength joint;     /* 0: as it is */
  DryPoint shift;      /* of the tile */
} Candidate;

static DryLength
shifted (const Candidate *candidate)
{
  return ABS (candidate->shift.x) + ABS (candidate->shift.y);
}

/* Less points; then its own size, its own wall, the middle of the bay, the height it has. */
static gint
compare_candidates (gconstpointer a, gconstpointer b)
{
  const Candidate *x = a, *y = b;
  const DryLength keys[][2] = {{(DryLength) x->order, (DryLength) y->order},
                               {x->joint, y->joint},
                               {shifted (x), shifted (y)},
                               {x->elsewhere, y->elsewhere},
                               {x->off_middle, y->off_middle},
                               {x->off_height, y->off_height},
                               {(DryLength) x->face->face, (DryLength) y->face->face},
                               {x->at.x, y->at.x},
                               {x->at.y, y->at.y}};

  if (fabs (x->points - y->points) > 1e-9)
    return x->points < y->points ? -1 : 1;
  for (guint i = 0; i < G_N_ELEMENTS (keys); i++)
    if (keys[i][0] != keys[i][1])
      return keys[i][0] < keys[i][1] ? -1 : 1;
  return 0;
}

static DryLength
off_middle_of_bay (const GArray *standing, const DryAdvice *self, DryLength u)
{
  DryRect body = dry_advice_body (self, (DryPoint){u, 0});
  DryLength middle = body.x0 + dry_rect_width (body) / 2;
  DryStanding bay;

  if (!dry_measuring_bay (standing, middle, &bay))
    return DRY_LENGTH_MAX;
  return ABS (bay.u0 + (bay.u1 - bay.u0) / 2 - middle);
}

/* A place on one axis with the best shift of the tile for it. */
typedef struct {
  DryLength at, shift;
  double points;
  gboolean spare; /* least only where reach is paid by the inch; looked at last */
} Step;

static Step
step_at (const DryAdviceAxis *axis, DryLength at, DryLength low, DryLength high,
         DryLength tolerance)
{
  Step step = {.at = at};

  step.points = dry_advice_axis_best (axis, at + low, at + high, tolerance, &step.shift);
  return step;
}

static gboolean
pays_by_inch (const DryAdviceFace *face, DryLength z)
{
  for (guint i = 0; i < face->n_demands; i++)
    for (guint j = 0; j < face->demands[i].n_zones; j++) {
      const DryAdviceZone *zone = &face->demands[i].zones[j];
      if (!face->demands[i].hard && zone->per_inch > 0 && z > zone->places.y0 &&
          z < zone->places.y1)
        return TRUE;
    }
  return FALSE;
}

/* The edges of zones, and of the places where tile and edges bind each other those at which no step
 * aside is better. */
static GArray *
list_steps (const DryAdvice *self, const DryAdviceFace *face, const DryAdviceAxis *axis,
            gboolean level)
{
  DryRect finish = dry_advice_finish (self, (DryPoint){0, 0});
  DryLength low = level ? finish.y0 : finish.x0, high = level ? finish.y1 : finish.x1;
  DryLength most = level ? face->height : face->length;
  DryLength tolerance = self->site->options.joint_tolerance;
  GArray *steps = g_array_new (FALSE, FALSE, sizeof (Step));
  g_autoptr (GArray) bound = g_array_new (FALSE, FALSE, sizeof (DryLength));
  const DryLength *own = level ? face->critical_z : face->critical_u;
  guint n = level ? face->n_critical_z : face->n_critical_u;

  for (guint i = 0; i < n; i++) {
    Step step = step_at (axis, own[i], low, high, tolerance);
    g_array_append_val (steps, step);
  }
  dry_advice_axis_critical (axis, low, high, tolerance, most, bound);
  g_array_sort (bound, compare_lengths);
  for (guint i = 0; i < bound->len; i++) {
    DryLength at = g_array_index (bound, DryLength, i);
    Step step, left, right;
    if (i > 0 && at == g_array_index (bound, DryLength, i - 1))
      continue;
    step = step_at (axis, at, low, high, tolerance);
    left = step_at (axis, at - 1, low, high, tolerance);
    right = step_at (axis, at + 1, low, high, tolerance);
    step.spare = left.points <= step.points - 1e-12 || right.points <= step.points - 1e-12;
    if (left.points == step.points && right.points == step.points)
      continue;
    if (!step.spare || (level && pays_by_inch (face, at)))
      g_array_append_val (steps, step);
  }
  return steps;
}

static gint
compare_steps (gconstpointer a, gconstpointer b)
{
  const Step *x = a, *y = b;

  if (x->spare != y->spare)
    return x->spare ? 1 : -1;
  if (x->points != y->points)
    return x->points < y->points ? -1 : 1;
  return x->at < y->at ? -1 : x->at > y->at;
}

/* With the tile free, each axis has its own best shift at every place; demands tie the two. */
static void
gather_with_tile (const DryAdvice *self, const DryAdviceFace *face, guint order, DryLength joint,
                  const GArray *standing, GArray *out)
{
  const DryFace *plan_face = &self->site->plan->faces->items[face->face];
  double joint_points = dry_advice_layout_points (self->site, plan_face, joint, (DryPoint){0, 0});
  double best = G_MAXDOUBLE;
  g_autoptr (GArray) us = NULL, zs = NULL;
  DryAdviceAxis across, up;

  if (!dry_advice_axis (self->site, plan_face, joint, FALSE, &across) ||
      !dry_advice_axis (self->site, plan_face, joint, TRUE, &up))
    return;
  us = list_steps (self, face, &across, FALSE);
  zs = list_steps (self, face, &up, TRUE);
  g_array_sort (us, compare_steps);
  g_array_sort (zs, compare_steps);
  for (guint j = 0; j < zs->len; j++) {
    Step z = g_array_index (zs, Step, j);
    for (guint i = 0; i < us->len; i++) {
      Step u = g_array_index (us, Step, i);
      double tile = u.points + z.points + joint_points;
      Candidate candidate = {.advice = self,
                             .face = face,
                             .at = {u.at, z.at},
                             .elsewhere = face->wall != self->part->wall,
                             .off_height = ABS (z.at - self->part->z),
                             .order = order,
                             .joint = joint,
                             .shift = {u.shift, z.shift}};
      if (tile > best + WORSE_MOST || (z.spare && tile + DRY_POINTS_REACH > best))
        break; /* the rest of them cost more */
      candidate.points = dry_advice_reckon_demands (self, face, candidate.at);
      if (candidate.points < 0)
        continue;
      candidate.points += tile;
      candidate.off_middle = off_middle_of_bay (standing, self, u.at);
      best = MIN (best, candidate.points);
      g_array_append_val (out, candidate);
    }
  }
}

/* The same layout with other joints: places by its own lines. */
static void
gather_with_joint (const DryAdvice *self, const DryAdviceFace *face, guint order, DryLength joint,
                   const GArray *standing, GArray *out)
{
  const DryFace *plan_face = &self->site->plan->faces->items[face->face];
  DryAdviceFace other = *face;
  double joint_points = dry_advice_layout_points (self->site, plan_face, joint, (DryPoint){0, 0});

  other.lines = dry_advice_lines (self->site, self->arena, plan_face, (DryPoint){0, 0}, joint);
  dry_advice_find_critical (self, &other, standing);
  for (guint i = 0; i < other.n_critical_u; i++)
    for (guint j = 0; j < other.n_critical_z; j++) {
      Candidate candidate = {.advice = self,
                             .face = face,
                             .at = {other.critical_u[i], other.critical_z[j]},
                             .off_middle = off_middle_of_bay (standing, self, other.critical_u[i]),
                             .off_height = ABS (other.critical_z[j] - self->part->z),
                             .elsewhere = face->wall != self->part->wall,
                             .order = order,
                             .joint = joint};
      candidate.points = dry_advice_reckon (self, &other, candidate.at);
      if (candidate.points < 0)
        continue;
      candidate.points += joint_points;
      g_array_append_val (out, candidate);
    }
}

static void
gather_layouts (const DryAdvice *self, const DryAdviceFace *face, DryAdviceFreedom freedom,
                guint order, const GArray *standing, GArray *out)
{
  DryLength joints[16];
  guint n = dry_advice_joints (self->site, freedom.joint, joints);

  for (guint i = 0; self->part->kind == DRY_PART_NICHE && i < n; i++) {
    if (freedom.datum)
      gather_with_tile (self, face, order, i ? joints[i] : 0, standing, out);
    else if (i > 0)
      gather_with_joint (self, face, order, joints[i], standing, out);
  }
}

static void
gather_on_face (const DryAdvice *self, const DryAdviceFace *face, DryAdviceFreedom freedom,
                guint order, GArray *out)
{
  DryMeasuring measuring = {.context = &self->site->plan->context, .plan = self->site->plan};
  const DryWall *wall = dry_room_get_wall (self->site->plan->context.room, face->wall);
  g_autoptr (GArray) standing = dry_measuring_standing (&measuring, wall, face->side);

  for (guint i = 0; i < face->n_critical_u; i++) {
    DryLength u = face->critical_u[i], off = off_middle_of_bay (standing, self, u);
    for (guint j = 0; j < face->n_critical_z; j++) {
      Candidate candidate = {.advice = self,
                             .face = face,
                             .at = {u, face->critical_z[j]},
                             .off_middle = off,
                             .off_height = ABS (face->critical_z[j] - self->part->z),
                             .elsewhere = face->wall != self->part->wall,
                             .order = order};
      candidate.points = dry_advice_reckon (self, face, candidate.at);
      if (candidate.points >= 0)
        g_array_append_val (out, candidate);
    }
  }
  gather_layouts (self, face, freedom, order, standing, out);
}

/* --- sizes --- */

/* How far a size may change where nobody said; and what is no niche any more. */
#define SIZE_ROOM  (4 * DRY_INCH)
#define SIZE_LEAST (6 * DRY_INCH)

static void
add_size (GPtrArray *sizes, DryAdviceSite *site, const DryPart *part)
{
  g_ptr_array_add (sizes, dry_advice_for_part (site, part, NULL));
}

static void
add_catalogue_niches (GPtrArray *sizes, const DryAdvice *self)
{
  const DryCatalog *catalog = self->site->catalog;

  for (guint i = 0; i < dry_catalog_get_n_items (catalog); i++) {
    const DryItem *item = dry_catalog_get_item_at (catalog, i);
    DryPart part = *self->part;
    if (item->kind != DRY_ITEM_PART || item->part.kind != DRY_PART_NICHE ||
        item->part.body_width <= 0 ||
        (item->part.width == part.width && item->part.height == part.height))
      continue;
    part.item = (char *) item->id;
    part.width = item->part.width;
    part.height = item->part.height;
    part.depth = item->part.depth;
    part.body_width = item->part.body_width;
    part.body_height = item->part.body_height;
    part.flange = item->part.flange;
    part.site_built = FALSE;
    add_size (sizes, self->site, &part);
  }
}

static void
add_span (GArray *out, DryLength span, DryLength least, DryLength most)
{
  for (guint k = 0; k < out->len; k++)
    if (g_array_index (out, DryLength, k) == span)
      return;
  if (span >= least && span <= most && out->len < 10)
    g_array_append_val (out, span);
}

/* Lengths between the least and the most that reach from one line to another, as they are and as
 * short as the tolerance lets them be: what is smaller is in the way of less. At most ten. */
static void
gather_spans (const DryLength *lines, guint n, DryLength least, DryLength most, DryLength tolerance,
              GArray *out)
{
  for (guint i = 0; i < n; i++)
    for (guint j = i + 1; j < n && lines[j] - lines[i] - 2 * tolerance <= most; j++) {
      add_span (out, lines[j] - lines[i], least, most);
      add_span (out, lines[j] - lines[i] - 2 * tolerance, least, most);
    }
}

static void
add_built_sizes (GPtrArray *sizes, const DryAdvice *self, DryAdviceFreedom freedom)
{
  DryLength w = self->part->width, h = self->part->height;
  DryLength tolerance = self->site->options.joint_tolerance;
  DryLength w0 = freedom.width_min ? freedom.width_min : MAX (w - SIZE_ROOM, SIZE_LEAST);
  DryLength w1 = freedom.width_max ? freedom.width_max : w + SIZE_ROOM;
  DryLength h0 = freedom.height_min ? freedom.height_min : MAX (h - SIZE_ROOM, SIZE_LEAST);
  DryLength h1 = freedom.height_max ? freedom.height_max : h + SIZE_ROOM;
  g_autoptr (GArray) widths = g_array_new (FALSE, FALSE, sizeof (DryLength));
  g_autoptr (GArray) heights = g_array_new (FALSE, FALSE, sizeof (DryLength));

  for (guint i = 0; i < self->n_faces; i++) {
    gather_spans (self->faces[i].lines.upright, self->faces[i].lines.n_upright, w0, w1, tolerance,
                  widths);
    gather_spans (self->faces[i].lines.level, self->faces[i].lines.n_level, h0, h1, tolerance,
                  heights);
  }
  g_array_append_val (widths, w);
  g_array_append_val (widths, w0);
  g_array_append_val (heights, h);
  g_array_append_val (heights, h0);
  for (guint i = 0; i < widths->len; i++)
    for (guint j = 0; j < heights->len; j++) {
      DryPart part = *self->part;
      part.width = g_array_index (widths, DryLength, i);
      part.height = g_array_index (heights, DryLength, j);
      if (part.width != self->part->width || part.height != self->part->height)
        add_size (sizes, self->site, &part);
    }
}

/* --- choosing --- */

static gboolean
is_too_near (const Candidate *a, const Candidate *b)
{
  DryRect x = dry_advice_finish (a->advice, a->at), y = dry_advice_finish (b->advice, b->at);

  return a->face->wall == b->face->wall && a->face->side == b->face->side &&
         ABS (a->at.x - b->at.x) < (dry_rect_width (x) + dry_rect_width (y)) / 2 &&
         ABS (a->at.y - b->at.y) < (dry_rect_height (x) + dry_rect_height (y)) / 2;
}

static DryAdvicePlace
tell_place (const DryAdvice *self, DryArena *arena, const Candidate *candidate)
{
  DryAdvicePlace place = dry_advice_judge_layout (candidate->advice, arena, candidate->face->wall,
                                                  candidate->face->side, candidate->at,
                                                  candidate->joint, candidate->shift);
  const DryPart *part = candidate->advice->part;

  if (g_strcmp0 (part->item, self->part->item) != 0)
    place.item = dry_arena_strdup (arena, part->item);
  return place;
}

const DryAdvicePlace *
dry_advice_find_best (const DryAdvice *self, DryArena *arena, DryAdviceFreedom freedom,
                      guint wanted, guint *n)
{
  g_autoptr (GPtrArray) sizes = g_ptr_array_new_with_free_func ((GDestroyNotify) dry_advice_unref);
  g_autoptr (GArray) all = g_array_new (FALSE, FALSE, sizeof (Candidate));
  g_autoptr (GArray) chosen = g_array_new (FALSE, FALSE, sizeof (Candidate));
  GArray *places = g_array_new (FALSE, FALSE, sizeof (DryAdvicePlace));

  g_ptr_array_add (sizes, dry_advice_ref (self));
  if (freedom.size && self->part->kind == DRY_PART_NICHE) {
    if (self->part->body_width > 0)
      add_catalogue_niches (sizes, self);
    else
      add_built_sizes (sizes, self, freedom);
  }
  for (guint i = 0; i < sizes->len; i++) {
    const DryAdvice *size = sizes->pdata[i];
    for (guint f = 0; f < size->n_faces; f++)
      gather_on_face (size, &size->faces[f], freedom, i, all);
  }
  g_array_sort (all, compare_candidates);
  for (guint i = 0; i < all->len && chosen->len < wanted; i++) {
    const Candidate *candidate = &g_array_index (all, Candidate, i);
    gboolean near = FALSE;
    for (guint k = 0; k < chosen->len && !near; k++)
      near = is_too_near (candidate, &g_array_index (chosen, Candidate, k));
    if (!near)
      g_array_append_vals (chosen, candidate, 1);
  }
  for (guint i = 0; i < chosen->len; i++) {
    DryAdvicePlace place = tell_place (self, arena, &g_array_index (chosen, Candidate, i));
    g_array_append_val (places, place);
  }
  *n = places->len;
  return dry_arena_take_array (arena, places);
}

/* --- near by, for a drag --- */

gboolean
dry_advice_snap (const DryAdvice *self, const DryAdviceFace *face, DryPoint from, DryLength reach,
                 gboolean lock_z, DryPoint *out)
{
  double best = -1, best_away = 0;
  guint i0 = dry_advice_first_from (face->critical_u, face->n_critical_u, from.x - reach);
  guint j0 = dry_advice_first_from (face->critical_z, face->n_critical_z, from.y - reach);

  /* Its own coordinates count too: it may be best left alone on one axis. */
  for (guint i = i0; i <= face->n_critical_u; i++) {
    DryLength u = i < face->n_critical_u ? face->critical_u[i] : from.x;
    if (u > from.x + reach) {
      i = face->n_critical_u;
      u = from.x;
    }
    for (guint j = j0; j <= face->n_critical_z; j++) {
      DryLength z = j < face->n_critical_z ? face->critical_z[j] : from.y;
      double points, away;
      if (z > from.y + reach || lock_z) {
        j = face->n_critical_z;
        z = from.y;
      }
      points = dry_advice_reckon (self, face, (DryPoint){u, z});
      if (points < 0)
        continue;
      away = hypot ((double) (u - from.x), (double) (z - from.y));
      if (best < 0 || points < best - 1e-9 || (points < best + 1e-9 && away < best_away)) {
        best = points;
        best_away = away;
        *out = (DryPoint){u, z};
      }
    }
  }
  return best >= 0;
}
