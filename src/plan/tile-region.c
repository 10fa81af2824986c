/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What of a face is tiled: from finished face to finished face, down to a joint above the basin, up
 * to a joint below the ceiling, round finished openings. Knows faces, not tiles. */
#include "plan/tile-private.h"

static void
add_rect (GArray *rects, DryLength x0, DryLength y0, DryLength x1, DryLength y1)
{
  DryRect rect = {x0, y0, x1, y1};

  if (!dry_rect_is_empty (rect))
    g_array_append_val (rects, rect);
}

/* Before a neighbour's tile; the wall boarded second leaves the joint of the corner, too. */
static void
take_off_corner (const DryPlanContext *context, const DryFaces *faces, const DryFace *face,
                 gboolean right, GArray *off)
{
  const DryFaceEnd *end = right ? &face->right : &face->left;
  DryLength back = context->build_up.total;
  DryLength top;

  if (!dry_tile_meets_inside (end))
    return;
  if (end->inset > 0)
    back += context->room->finish.joint;
  top = faces->items[end->face].wet_top;
  if (right)
    add_rect (off, end->at - back, -DRY_FOOT, face->length + DRY_FOOT, top);
  else
    add_rect (off, -DRY_FOOT, -DRY_FOOT, end->at + back, top);
}

static DryRegion
region_of_wall (const DryPlanContext *context, const DryFaces *faces, const DryFace *face)
{
  g_autoptr (GArray) on = g_array_new (FALSE, FALSE, sizeof (DryRect));
  g_autoptr (GArray) off = g_array_new (FALSE, FALSE, sizeof (DryRect));
  DryLength joint = context->room->finish.joint;
  DryRegion region = face->region;

  /* Board stops above the flange; tile comes down over it. */
  if (face->at_basin)
    add_rect (on, MAX (face->wet_u0, face->basin_u0), face->deck + joint,
              MIN (face->wet_u1, face->basin_u1), MIN (face->board_bottom, face->wet_top));
  for (guint i = 0; i < face->n_cutouts; i++) {
    const DryRect *rough = &face->cutouts[i].rough, *finish = &face->cutouts[i].finish;

    add_rect (on, MAX (rough->x0, face->wet_u0), rough->y0, MIN (rough->x1, face->wet_u1),
              MIN (rough->y1, face->wet_top));
    add_rect (off, finish->x0, finish->y0, finish->x1, finish->y1);
  }
  take_off_corner (context, faces, face, FALSE, off);
  take_off_corner (context, faces, face, TRUE, off);
  if (!face->dry_above)
    add_rect (off, -DRY_FOOT, face->wet_top - joint, face->length + DRY_FOOT,
              face->wet_top + DRY_FOOT);
  if (on->len > 0) {
    DryRegion more = dry_region_union_rects (context->arena, (const DryRect *) on->data, on->len);

    region = dry_region_union (context->arena, &region, &more);
  }
  if (off->len > 0) {
    DryRegion less = dry_region_union_rects (context->arena, (const DryRect *) off->data, off->len);

    region = dry_region_difference (context->arena, &region, &less);
  }
  return region;
}

DryRegion
dry_tile_region (const DryPlanContext *context, const DryFaces *faces, const DryFace *face)
{
  DryLength over = context->build_up.mortar + context->build_up.tile;
  DryRect inner;
  DryRegion frame;

  switch (face->kind) {
  case DRY_FACE_WALL:
    return region_of_wall (context, faces, face);
  case DRY_FACE_NICHE:
  case DRY_FACE_CEILING:
    /* Their neighbours' tile stands on every side. */
    inner = dry_rect_inflate (dry_region_bounds (&face->region), -over);
    if (dry_rect_is_empty (inner))
      return (DryRegion){0};
    frame = dry_region_from_rect (context->arena, inner);
    return dry_region_intersection (context->arena, &face->region, &frame);
  case DRY_FACE_BENCH:
  case DRY_FACE_CAP:
    break;
  }
  return face->region;
}
