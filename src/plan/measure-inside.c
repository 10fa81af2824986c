/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What of a pan is left to stand in: its clear inside less built benches and a cut-off corner, and
 * the largest circle there. Sees the pan from above as a rectangle; knows no rule. */
#include "plan/basin-outline.h"
#include "plan/inscribed-circle.h"
#include "plan/measure-build.h"

/* More benches than a pan has room for. */
#define MANY_BENCHES 32

/* The clear inside with its left front corner at 0: x to the right, y to the back, as seen by
 * somebody facing the pan's wall. */
typedef struct {
  DryRect clear;
  DryRect benches[MANY_BENCHES];
  guint n_benches;
  gint cut; /* corner cut off, counter-clockwise from the back left; -1 = none */
} DryFloorInside;

/* The stretch of a wall's face that one side of the basin stands before. */
static DryStanding
project_side (const DryPoint corners[4], guint side, const DryWall *wall, DrySide face)
{
  DryLength from = dry_wall_along (wall, face, corners[side]);
  DryLength to = dry_wall_along (wall, face, corners[(side + 1) % 4]);

  return (DryStanding){MIN (from, to), MAX (from, to)};
}

/* A bench stands off the finished wall; along it, it stands where it does before the basin's side.
 * Facing a wall from the inside, its u runs to the right: to the back on the left wall, and so on
 * round. */
static DryRect
place_bench (const DryInside *inside, guint side, const DryPart *bench, DryRect clear)
{
  DryRect rect = dry_part_rect (bench);
  DryStanding before = project_side (inside->corners, side, inside->wall[side], inside->face[side]);
  gboolean upright = side == DRY_AT_LEFT || side == DRY_AT_RIGHT;
  DryLength low = upright ? inside->inset[DRY_AT_FRONT] : inside->inset[DRY_AT_LEFT];
  gboolean backwards = side == DRY_AT_RIGHT || side == DRY_AT_FRONT;
  DryLength from = (backwards ? before.u1 - rect.x1 : rect.x0 - before.u0) - low;
  DryLength to = from + dry_rect_width (rect), depth = bench->depth;

  switch ((DryBasinSide) side) {
  case DRY_AT_LEFT:
    return (DryRect){0, from, depth, to};
  case DRY_AT_RIGHT:
    return (DryRect){clear.x1 - depth, from, clear.x1, to};
  case DRY_AT_BACK:
    return (DryRect){from, clear.y1 - depth, to, clear.y1};
  case DRY_AT_FRONT:
  default:
    return (DryRect){from, 0, to, depth};
  }
}

static void
find_benches (DryMeasuring *self, const DryInside *inside, DryFloorInside *floor)
{
  const DryRoom *room = self->context->room;

  for (guint i = 0; i < room->n_parts; i++) {
    const DryPart *part = &room->parts[i];

    if (part->kind != DRY_PART_BENCH || part->fold_down)
      continue;
    for (guint side = 0; side < 4 && floor->n_benches < MANY_BENCHES; side++) {
      DryRect bench;

      if (!inside->wall[side] || inside->wall[side]->id != part->wall ||
          inside->face[side] != part->side)
        continue;
      bench = dry_rect_intersect (place_bench (inside, side, part, floor->clear), floor->clear);
      if (!dry_rect_is_empty (bench))
        floor->benches[floor->n_benches++] = bench;
    }
  }
}

static DryRegion
make_cut (DryArena *arena, const DryFloorInside *floor, DryLength leg)
{
  DryRect c = floor->clear;
  const DryPoint corners[4] = {{c.x0, c.y1}, {c.x0, c.y0}, {c.x1, c.y0}, {c.x1, c.y1}};
  DryPoint at, points[3];

  if (floor->cut < 0)
    return (DryRegion){0};
  at = corners[floor->cut];
  points[0] = at;
  points[1] = (DryPoint){at.x > c.x0 ? at.x - leg : at.x + leg, at.y};
  points[2] = (DryPoint){at.x, at.y > c.y0 ? at.y - leg : at.y + leg};
  return dry_region_from_ring (arena, points, 3);
}

void
dry_measure_inside (DryMeasuring *self, const DryInside *inside)
{
  const DryRoom *room = self->context->room;
  DryArena *arena = self->context->arena;
  gboolean turned = room->basin.turned;
  DryFloorInside floor = {.clear = {0, 0, turned ? inside->width : inside->length,
                                    turned ? inside->length : inside->width}};
  DryBasinOutline outline;
  DryRegion taken[2], whole = dry_region_from_rect (arena, floor.clear), left;
  DryLength circle;
  const char *size;

  floor.cut = dry_basin_outline (room, &outline) ? outline.cut : -1;
  find_benches (self, inside, &floor);
  taken[0] = dry_region_union_rects (arena, floor.benches, floor.n_benches);
  taken[1] = make_cut (arena, &floor, room->basin.corner_cut);
  left = floor.n_benches > 0 || floor.cut >= 0
             ? dry_region_difference_all (arena, &whole, taken, G_N_ELEMENTS (taken))
             : whole;
  circle = dry_inscribed_circle (&(DryInscribed){.clear = floor.clear,
                                                 .taken = floor.benches,
                                                 .n_taken = floor.n_benches,
                                                 .cut = floor.cut,
                                                 .leg = room->basin.corner_cut});
  size = dry_arena_printf (arena,
                           "%s x %s clear between finished walls (build-up %s), open side to the "
                           "outer edge of the curb",
                           dry_measuring_text (self, inside->length),
                           dry_measuring_text (self, inside->width),
                           dry_measuring_text (self, self->context->build_up.total));
  dry_measuring_length (self, "inside-length", MAX (inside->length, inside->width), "%s", size);
  dry_measuring_length (self, "inside-width", MIN (inside->length, inside->width), "%s", size);
  dry_measuring_length (self, "inside-circle", circle, "%s%s", size,
                        floor.n_benches ? ", beside the bench" : "");
  dry_measuring_number (self, "inside-area", (double) dry_region_area2 (&left) / 2e14, "cm2",
                        "%s%s", size, floor.n_benches ? ", less the bench" : "");
}
