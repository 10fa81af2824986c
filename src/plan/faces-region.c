/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What of a wall face is boarded: the wet stretch above the basin, legs to the floor, less half
 * walls, boards of neighbours, openings, niches and benches. Knows nothing of pieces or framing. */
#include "plan/faces-private.h"

#include <math.h>

DryBasinHeights
dry_faces_basin_heights (const DryPlanContext *context)
{
  const DryBasin *basin = &context->room->basin;
  const DrySystem *system = context->system;
  DryBasinHeights heights = {.deck = basin->height, .flange_top = basin->height + basin->flange};
  DryLength datum = system->basin_datum == DRY_DATUM_DECK ? heights.deck : heights.flange_top;

  heights.board_bottom = MAX (datum + system->basin_gap.value, 0);
  return heights;
}

gboolean
dry_faces_is_site_built (const DryPart *niche)
{
  return niche->site_built || niche->body_width <= 0;
}

DryRect
dry_faces_niche_rough (const DryPlanContext *context, const DryPart *niche)
{
  DryRect rect = dry_part_rect (niche);
  DryLength width, height;

  if (dry_faces_is_site_built (niche))
    return dry_rect_inflate (rect, context->build_up.total);
  width = niche->body_width;
  height = niche->body_height > 0 ? niche->body_height : dry_rect_height (rect);
  /* The box stands behind the middle of what is seen of it. */
  rect.x0 += (dry_rect_width (rect) - width) / 2;
  rect.y0 += (dry_rect_height (rect) - height) / 2;
  rect.x1 = rect.x0 + width;
  rect.y1 = rect.y0 + height;
  return rect;
}

DryRect
dry_faces_opening_rect (const DryWall *wall, DrySide side, const DryOpening *opening)
{
  DryLength u = opening->u;

  if (side == DRY_SIDE_OUTSIDE)
    u = dry_wall_length (wall) - u - opening->width;
  return (DryRect){u, opening->z, u + opening->width, opening->z + opening->height};
}

gboolean
dry_faces_bench_box (const DryPlanContext *context, const DryWetSide *side, const DryPart *part,
                     DryBenchBox *box)
{
  DryLength build_up = context->build_up.total, half = part->width / 2;
  DryLength lo = dry_faces_near_left (side), hi = dry_faces_near_right (side);

  if (part->kind != DRY_PART_BENCH || part->fold_down || part->wall != side->wall->id ||
      part->side != side->side)
    return FALSE;
  *box = (DryBenchBox){.part = part, .u0 = part->u - half, .u1 = part->u - half + part->width};
  box->open_left = box->u0 - lo > DRY_FACES_TOUCH;
  box->open_right = hi - box->u1 > DRY_FACES_TOUCH;
  box->u0 = box->open_left ? box->u0 + build_up : lo;
  box->u1 = box->open_right ? box->u1 - build_up : hi;
  box->top = part->z - build_up;
  box->depth = part->depth - build_up;
  return box->u1 > box->u0 && box->top > 0 && box->depth > 0;
}

/* A growing list of rectangles. */
static void
add_rect (GArray *rects, DryLength x0, DryLength y0, DryLength x1, DryLength y1)
{
  DryRect rect = {x0, y0, x1, y1};

  if (!dry_rect_is_empty (rect))
    g_array_append_val (rects, rect);
}

/* Board that comes down to the floor stands off it by the bead that closes the gap: it must not
 * drink from the floor, and a full sheet would not stand up under a ceiling of its own height. */
static DryLength
reckon_floor_gap (const DryPlanContext *context)
{
  const DryTreatment *floor = &context->system->treatments[DRY_JOINT_FLOOR];

  return floor->kind == DRY_TREAT_BEAD ? floor->width : 0;
}

static void
lay_wet_rects (const DryPlanContext *context, const DryWetSide *side, const DryFace *face,
               GArray *rects)
{
  DryLength leg_top = MIN (face->board_bottom, face->wet_top), gap = reckon_floor_gap (context);

  if (!side->touches) { /* beside the basin, not at it: the board comes down to the floor */
    add_rect (rects, face->wet_u0, context->room->wet.leg ? gap : face->board_bottom, face->wet_u1,
              face->wet_top);
    return;
  }
  add_rect (rects, face->wet_u0, face->board_bottom, face->wet_u1, face->wet_top);
  if (face->leg_left)
    add_rect (rects, MAX (face->wet_u0, dry_faces_near_left (side)), gap, side->b0, leg_top);
  if (face->leg_right)
    add_rect (rects, side->b1, gap, MIN (face->wet_u1, dry_faces_near_right (side)), leg_top);
}

/* Half walls standing at the face, and the boards of neighbours hung before it. */
static void
take_off_neighbours (const DryWetSide *sides, const DryFace *faces, const DryWetSide *side,
                     const DryFace *face, GArray *rects)
{
  DryLength near_left = dry_faces_near_left (side), near_right = dry_faces_near_right (side);

  if (side->left.half_top)
    add_rect (rects, -DRY_FOOT, -DRY_FOOT, near_left, side->left.half_top);
  if (side->right.half_top)
    add_rect (rects, near_right, -DRY_FOOT, side->length + DRY_FOOT, side->right.half_top);
  if (face->left.inset > 0)
    add_rect (rects, near_left, -DRY_FOOT, near_left + face->left.inset,
              sides[face->left.face].wet_top);
  if (face->right.inset > 0)
    add_rect (rects, near_right - face->right.inset, -DRY_FOOT, near_right,
              sides[face->right.face].wet_top);
}

/* Benches of this wall, and those of a neighbour that reach the common corner. */
static void
take_off_benches (const DryPlanContext *context, const DryWetSide *sides, const DryFace *face,
                  guint index, GArray *rects)
{
  const DryRoom *room = context->room;
  const DryWetSide *side = &sides[index];
  DryLength lo = dry_faces_near_left (side), hi = dry_faces_near_right (side);
  DryBenchBox box;

  for (guint i = 0; i < room->n_parts; i++) {
    const DryPart *part = &room->parts[i];

    if (dry_faces_bench_box (context, side, part, &box))
      add_rect (rects, box.u0, -DRY_FOOT, box.u1, box.top);
    else if (face->left.face >= 0 &&
             dry_faces_bench_box (context, &sides[face->left.face], part, &box) && !box.open_right)
      add_rect (rects, lo, -DRY_FOOT, lo + box.depth, box.top);
    else if (face->right.face >= 0 &&
             dry_faces_bench_box (context, &sides[face->right.face], part, &box) && !box.open_left)
      add_rect (rects, hi - box.depth, -DRY_FOOT, hi, box.top);
  }
}

static gboolean
overlaps_any (const GArray *rects, DryRect rect)
{
  for (guint i = 0; i < rects->len; i++)
    if (dry_rect_overlaps (g_array_index (rects, DryRect, i), rect))
      return TRUE;
  return FALSE;
}

static void
add_cutout (const DryFace *face, const GArray *wet, DryCutout cutout, GArray *cutouts)
{
  DryRect whole = {0, 0, face->length, face->height};

  cutout.rough = dry_rect_intersect (cutout.rough, whole);
  if (!dry_rect_is_empty (cutout.rough) && overlaps_any (wet, cutout.rough))
    g_array_append_val (cutouts, cutout);
}

static GArray *
find_cutouts (const DryPlanContext *context, const DryFace *face, const GArray *wet)
{
  const DryRoom *room = context->room;
  const DryWall *wall = dry_room_get_wall (room, face->wall);
  GArray *cutouts = g_array_new (FALSE, TRUE, sizeof (DryCutout));

  for (guint i = 0; i < room->n_openings; i++) {
    const DryOpening *opening = &room->openings[i];
    DryRect rect;

    if (opening->wall != face->wall)
      continue;
    /* An opening is given from framing to framing: rough and drawn are one. */
    rect = dry_faces_opening_rect (wall, face->side, opening);
    add_cutout (face, wet,
                (DryCutout){opening->kind == DRY_OPENING_WINDOW ? DRY_CUT_WINDOW : DRY_CUT_DOOR,
                            opening->id, rect, rect},
                cutouts);
  }
  for (guint i = 0; i < room->n_parts; i++) {
    const DryPart *part = &room->parts[i];

    if (part->kind == DRY_PART_NICHE && part->wall == face->wall && part->side == face->side)
      add_cutout (face, wet,
                  (DryCutout){DRY_CUT_NICHE, part->id, dry_faces_niche_rough (context, part),
                              dry_part_rect (part)},
                  cutouts);
  }
  return cutouts;
}

static gboolean
is_in_cutout (const GArray *cutouts, DryRect rect)
{
  for (guint i = 0; i < cutouts->len; i++) {
    DryRect rough = g_array_index (cutouts, DryCutout, i).rough;

    if (rect.x0 >= rough.x0 && rect.y0 >= rough.y0 && rect.x1 <= rough.x1 && rect.y1 <= rough.y1)
      return TRUE;
  }
  return FALSE;
}

static GArray *
find_holes (const DryPlanContext *context, const DryFace *face, const GArray *wet,
            const GArray *cutouts)
{
  const DryRoom *room = context->room;
  GArray *holes = g_array_new (FALSE, TRUE, sizeof (DryHole));

  for (guint i = 0; i < room->n_parts; i++) {
    const DryPart *part = &room->parts[i];
    DryHole hole = {part->id, {part->u, part->z}, part->hole};
    DryRect rect = dry_rect_inflate ((DryRect){part->u, part->z, part->u, part->z}, part->hole / 2);

    if (part->wall != face->wall || part->side != face->side || part->hole <= 0 ||
        part->kind < DRY_PART_VALVE || part->kind > DRY_PART_HAND_SHOWER)
      continue;
    if (overlaps_any (wet, rect) && !is_in_cutout (cutouts, rect))
      g_array_append_val (holes, hole);
  }
  return holes;
}

void
dry_faces_build_region (const DryPlanContext *context, const DryWetSide *sides,
                        const DryFace *faces, guint index, DryFace *face)
{
  g_autoptr (GArray) wet = g_array_new (FALSE, FALSE, sizeof (DryRect));
  g_autoptr (GArray) off = g_array_new (FALSE, FALSE, sizeof (DryRect));
  const DryWetSide *side = &sides[index];
  GArray *cutouts, *holes;

  lay_wet_rects (context, side, face, wet);
  take_off_neighbours (sides, faces, side, face, off);
  take_off_benches (context, sides, face, index, off);
  cutouts = find_cutouts (context, face, wet);
  holes = find_holes (context, face, wet, cutouts);
  for (guint i = 0; i < cutouts->len; i++)
    g_array_append_val (off, g_array_index (cutouts, DryCutout, i).rough);

  face->region = dry_region_union_rects (context->arena, (const DryRect *) wet->data, wet->len);
  if (off->len) {
    DryRegion gone = dry_region_union_rects (context->arena, (const DryRect *) off->data, off->len);

    face->region = dry_region_difference (context->arena, &face->region, &gone);
  }
  face->n_cutouts = cutouts->len;
  face->cutouts = dry_arena_take_array (context->arena, cutouts);
  face->n_holes = holes->len;
  face->holes = dry_arena_take_array (context->arena, holes);
}
