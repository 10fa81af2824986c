/* SPDX-License-Identifier: GPL-3.0-or-later */
/* One drop's way: straight down a wall, over niche floors, sills and benches, to the basin, the
 * floor or a place where it stands. Works on the faces' regions; knows no joint and no system. */
#include <math.h>

#include "plan/water.h"

/* A board that ends this near above the floor or another thing meets it; the gap is a joint's. */
#define NEAR (2 * DRY_INCH)

/* No wall holds more edges over one another. */
#define MAX_CROSSINGS 128
#define MAX_STEPS     64

/* The levels at which the vertical through `u` crosses the region's outline, ascending. */
static guint
cross_region (const DryRegion *region, DryLength u, DryLength out[MAX_CROSSINGS])
{
  guint n = 0;

  for (guint p = 0; p < region->n_polygons; p++) {
    const DryPolygon *polygon = &region->polygons[p];
    for (guint r = 0; r <= polygon->n_holes; r++) {
      const DryRing *ring = r ? &polygon->holes[r - 1] : &polygon->outer;
      for (guint i = 0; i < ring->n_points && n < MAX_CROSSINGS; i++) {
        DryPoint a = ring->points[i], b = ring->points[(i + 1) % ring->n_points];
        /* Half-open, so that a corner is crossed once. */
        if ((a.x <= u) == (b.x <= u))
          continue;
        out[n++] = a.y + (DryLength) llround ((double) (b.y - a.y) * (double) (u - a.x) /
                                              (double) (b.x - a.x));
      }
    }
  }
  for (guint i = 1; i < n; i++)
    for (guint j = i; j > 0 && out[j] < out[j - 1]; j--) {
      DryLength swap = out[j];
      out[j] = out[j - 1];
      out[j - 1] = swap;
    }
  return n;
}

/* The lower end of the surface that holds `z`, or of the next one below it; FALSE when none is. */
static gboolean
find_bottom (const DryFace *face, DryLength u, DryLength z, DryLength *bottom)
{
  DryLength levels[MAX_CROSSINGS];
  guint n = cross_region (&face->region, u, levels);

  for (guint i = n / 2; i-- > 0;)
    if (levels[2 * i] < z) {
      *bottom = levels[2 * i];
      return TRUE;
    }
  return FALSE;
}

/* What lies under (u, bottom): a niche, window or door in this face. */
static const DryCutout *
find_cutout (const DryFace *face, DryLength u, DryLength bottom)
{
  for (guint i = 0; i < face->n_cutouts; i++) {
    DryRect rough = face->cutouts[i].rough;
    if (rough.x0 <= u && rough.x1 >= u && bottom >= rough.y1 - NEAR && bottom <= rough.y1 + NEAR)
      return &face->cutouts[i];
  }
  return NULL;
}

/* A built bench whose top meets the wall there. */
static const DryPart *
find_bench (const DryRoom *room, const DryFace *face, DryLength u, DryLength bottom)
{
  for (guint i = 0; i < room->n_parts; i++) {
    const DryPart *part = &room->parts[i];
    DryRect rect = dry_part_rect (part);
    if (part->kind == DRY_PART_BENCH && !part->fold_down && part->wall == face->wall &&
        part->side == face->side && rect.x0 <= u && rect.x1 >= u && bottom <= part->z + NEAR)
      return part;
  }
  return NULL;
}

typedef struct {
  const DryPlanContext *context;
  const DryFace *face;
  GArray *steps;
  DryWaterEnd end;
  DryBreakKind why;
  DryId object;
} Drop;

static void
add_step (Drop *self, DryLength u, DryLength z)
{
  DryWaterStep step = {self->face->index, {u, z}};

  g_array_append_val (self->steps, step);
}

static void
stop (Drop *self, DryBreakKind why, DryId object)
{
  self->end = DRY_WATER_STOPPED;
  self->why = why;
  self->object = object;
}

/* From a niche's or window's upper edge onto its floor, and over that out to the wall again. FALSE
 * when it ends there. */
static gboolean
pass_cutout (Drop *self, const DryCutout *cutout, DryLength u, DryLength *z)
{
  const DryRoom *room = self->context->room;
  const DryPart *niche = dry_room_get_part (room, cutout->object);
  const DryOpening *opening = dry_room_get_opening (room, cutout->object);

  if (cutout->kind == DRY_CUT_DOOR) {
    self->end = DRY_WATER_FLOOR;
    add_step (self, u, 0);
    return FALSE;
  }
  *z = cutout->rough.y0;
  add_step (self, u, *z);
  if ((niche && niche->pitch <= 0) || (opening && !opening->sloped_sill)) {
    stop (self, DRY_BREAK_PITCH, cutout->object);
    return FALSE;
  }
  return TRUE;
}

/* The surface ends at (u, bottom) and no opening is below. */
static void
come_down (Drop *self, DryLength u, DryLength bottom)
{
  const DryFace *face = self->face;
  const DryPart *bench = find_bench (self->context->room, face, u, bottom);

  if (bench && bottom > NEAR) {
    add_step (self, u, bench->z);
    if (bench->pitch <= 0)
      stop (self, DRY_BREAK_PITCH, bench->id);
    else
      self->end = DRY_WATER_BASIN;
  } else if (face->at_basin && u >= face->basin_u0 && u <= face->basin_u1) {
    add_step (self, u, MIN (face->deck, bottom));
    self->end = DRY_WATER_BASIN;
  } else if (bottom <= NEAR) {
    add_step (self, u, 0);
    self->end = DRY_WATER_FLOOR;
  } else
    stop (self, face->at_basin ? DRY_BREAK_LEG : DRY_BREAK_NOWHERE,
          face->at_basin ? face->wall : 0);
}

DryWaterPath
dry_water_trace (const DryPlanContext *context, const DryFaces *faces, guint face, DryPoint at,
                 DryBreakKind *why, DryId *object)
{
  Drop drop = {.context = context,
               .face = &faces->items[face],
               .steps = g_array_new (FALSE, FALSE, sizeof (DryWaterStep)),
               .end = DRY_WATER_STOPPED,
               .why = DRY_BREAK_NOWHERE};
  DryLength z = at.y, bottom = 0;
  DryWaterPath path = {.stop = -1};

  add_step (&drop, at.x, at.y);
  while (drop.steps->len < MAX_STEPS && find_bottom (drop.face, at.x, z, &bottom)) {
    const DryCutout *cutout = find_cutout (drop.face, at.x, bottom);

    add_step (&drop, at.x, bottom);
    if (!cutout) {
      come_down (&drop, at.x, bottom);
      break;
    }
    if (!pass_cutout (&drop, cutout, at.x, &z))
      break;
  }
  *why = drop.why;
  *object = drop.object;
  path.end = drop.end;
  path.n = drop.steps->len;
  path.steps = dry_arena_take_array (context->arena, drop.steps);
  return path;
}
