/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Measures of the tub or pan: clear inside, opening between walls, curb, flange, drain.
 * Sizes are taken between finished walls; an open side is taken to the basin's own edge. */
#include "plan/measure-build.h"
#include "plan/outline.h"

#include <math.h>

/* The part of the pan's inside a built bench takes: as a strip off its length and its width. */
typedef struct {
  DryLength along, out;
} DryTaken;

/* The stretch of a wall's face that one side of the basin stands before. */
static DryStanding
project_side (const DryPoint corners[4], guint side, const DryWall *wall, DrySide face)
{
  DryPoint start = dry_wall_point (wall, face, 0, 0);
  double ux, uy, nx, ny, u[2];

  dry_wall_axes (wall, face, &ux, &uy, &nx, &ny);
  if (face == DRY_SIDE_OUTSIDE) {
    ux = -ux;
    uy = -uy;
  }
  for (guint i = 0; i < 2; i++) {
    DryPoint corner = corners[(side + i) % 4];
    u[i] = (double) (corner.x - start.x) * ux + (double) (corner.y - start.y) * uy;
  }
  return (DryStanding){(DryLength) llround (MIN (u[0], u[1])),
                       (DryLength) llround (MAX (u[0], u[1]))};
}

static DryTaken
find_bench (DryMeasuring *self, const DryInside *inside)
{
  const DryRoom *room = self->context->room;
  DryTaken taken = {0};

  for (guint i = 0; i < room->n_parts; i++) {
    const DryPart *part = &room->parts[i];
    for (guint side = 0; part->kind == DRY_PART_BENCH && !part->fold_down && side < 4; side++) {
      gboolean on_end = (side == DRY_AT_LEFT || side == DRY_AT_RIGHT) != room->basin.turned;
      DryRect rect = dry_part_rect (part);
      DryStanding before;
      DryLength beside;

      if (!inside->wall[side] || inside->wall[side]->id != part->wall ||
          inside->face[side] != part->side)
        continue;
      before = project_side (inside->corners, side, inside->wall[side], part->side);
      beside = MIN (rect.x1, before.u1) - MAX (rect.x0, before.u0);
      if (beside <= 0)
        continue;
      taken.along = on_end ? part->depth : beside;
      taken.out = on_end ? beside : part->depth;
    }
  }
  return taken;
}

/* Largest circle beside a bench in one corner or along one side: the wider of the two strips that
 * are left. A circle that leans into the notch diagonally is not looked for, so this errs small. */
static DryLength
fit_circle (const DryInside *inside, DryTaken taken)
{
  DryLength beside = MIN (inside->length - taken.along, inside->width);
  DryLength before = MIN (inside->length, inside->width - taken.out);

  return MAX (0, MAX (beside, before));
}

/* A neo-angle pan: the circle in the back corner touches the slanted front. With legs c cut off an
 * L x W rectangle the slant is x + y = L + W - c, and r (2 + sqrt 2) = L + W - c. */
static DryLength
fit_beside_cut (const DryInside *inside, DryLength cut)
{
  DryLength least = MIN (inside->length, inside->width);
  double r = (double) (inside->length + inside->width - cut) / (2 + G_SQRT2);

  return cut > 0 ? MAX (0, MIN (least, (DryLength) floor (2 * r))) : least;
}

static void
measure_inside (DryMeasuring *self, const DryInside *inside)
{
  DryTaken taken = find_bench (self, inside);
  DryLength least = MIN (inside->length, inside->width);
  DryLength cut = self->context->room->basin.corner_cut;
  DryLength circle = taken.along ? fit_circle (inside, taken) : fit_beside_cut (inside, cut);
  double area =
      ((double) inside->length * (double) inside->width -
       (double) MIN (taken.along, inside->length) * (double) MIN (taken.out, inside->width) -
       (double) cut * (double) cut / 2) /
      ((double) DRY_MM * (double) DRY_MM * 100);
  const char *size = dry_arena_printf (
      self->context->arena,
      "%s x %s clear between finished walls (build-up %s), open side to the "
      "outer edge of the curb",
      dry_measuring_text (self, inside->length), dry_measuring_text (self, inside->width),
      dry_measuring_text (self, self->context->build_up.total));

  dry_measuring_length (self, "inside-length", MAX (inside->length, inside->width), "%s", size);
  dry_measuring_length (self, "inside-width", least, "%s", size);
  dry_measuring_length (self, "inside-circle", circle, "%s%s", size,
                        taken.along ? ", beside the bench" : "");
  dry_measuring_number (self, "inside-area", area, "cm2", "%s%s", size,
                        taken.along ? ", less the bench" : "");
}

static void
measure_drain (DryMeasuring *self, const DryBasin *basin)
{
  const DryRoom *room = self->context->room;
  double flow = 0;

  for (guint i = 0; i < room->n_parts; i++)
    if (room->parts[i].kind == DRY_PART_SHOWER_HEAD || room->parts[i].kind == DRY_PART_HAND_SHOWER)
      flow += room->parts[i].flow_lpm;
  if (basin->drain_diameter > 0)
    dry_measuring_length (self, "drain", basin->drain_diameter, NULL);
  if (flow > 0)
    dry_measuring_number (self, "flow", flow, "L/min", "all heads at once");
}

static void
measure_edges (DryMeasuring *self, const DryBasin *basin)
{
  gboolean pan = basin->kind == DRY_BASIN_PAN;

  if (pan)
    dry_measuring_length (self, "curb-above-drain", basin->height + basin->recess,
                          "curb %s above the floor plus recess of %s",
                          dry_measuring_text (self, basin->height),
                          dry_measuring_text (self, basin->recess));
  dry_measuring_boolean (self, "curbless", dry_basin_is_curbless (basin),
                         "threshold %s above the floor", dry_measuring_text (self, basin->height));
  dry_measuring_length (self, "flange", basin->flange, NULL);
  if (basin->flange > 0)
    dry_measuring_length (self, "flange-proud", basin->flange_thickness, NULL);
  dry_measuring_length (self, "recess", basin->recess, NULL);
  dry_measuring_length (self, "rim-error", basin->rim_error, NULL);
}

/* How far the farthest corner of the basin reaches beyond the room's outline. */
static void
measure_outside (DryMeasuring *self, const DryPoint corners[4])
{
  const DryRoom *room = self->context->room;
  DryPoint *outline = g_new (DryPoint, room->n_outline);
  DryRing ring = {outline, room->n_outline};
  DryLength outside = 0;

  for (guint i = 0; i < room->n_outline; i++)
    outline[i] = room->walls[i].start;
  for (guint i = 0; i < 4; i++) {
    DryLength nearest = DRY_LENGTH_MAX;

    if (dry_ring_contains (&ring, corners[i]))
      continue;
    for (guint j = 0; j < room->n_outline; j++)
      nearest = MIN (nearest,
                     dry_outline_distance (corners[i], room->walls[j].start, room->walls[j].end));
    outside = MAX (outside, nearest);
  }
  dry_measuring_length (self, "outside-room", outside, "its farthest corner beyond the walls");
  g_free (outline);
}

/* Of three widths that differ the working names the one that governs. */
static void
measure_opening (DryMeasuring *self, const DryInside *inside)
{
  const DryWidths *widths = &inside->widths;
  DryLength least = MIN (widths->back, MIN (widths->middle, widths->front));

  if (widths->back == widths->middle && widths->back == widths->front)
    dry_measuring_length (self, "opening", inside->opening,
                          "between the stud faces at both ends, less their lean at the rim");
  else
    dry_measuring_length (
        self, "opening", inside->opening,
        "%s at the back, %s in the middle, %s at the front between stud faces, %s deep: the least, "
        "%s, governs, less the lean of the end walls at the rim",
        dry_measuring_text (self, widths->back), dry_measuring_text (self, widths->middle),
        dry_measuring_text (self, widths->front), dry_measuring_text (self, widths->depth),
        least == widths->back    ? "at the back"
        : least == widths->front ? "at the front"
                                 : "in the middle");
}

void
dry_measure_basin (DryMeasuring *self)
{
  const DryBasin *basin = &self->context->room->basin;
  gboolean pan = basin->kind == DRY_BASIN_PAN;
  DryInside inside;

  if (!dry_measuring_inside (self, &inside))
    return;
  dry_measuring_begin (self, "basin", basin->id, -1, (DryRect){0},
                       basin->label && *basin->label ? basin->label
                       : pan                         ? "The pan"
                                                     : "The tub");
  dry_measuring_boolean (self, "is-tub", !pan, NULL);
  dry_measuring_boolean (self, "is-pan", pan, NULL);
  dry_measuring_boolean (self, "drop-in", basin->drop_in, NULL);
  dry_measuring_boolean (self, "has-shower", dry_measuring_has_shower (self), NULL);
  measure_outside (self, inside.corners);
  dry_measuring_length (self, "length", basin->length, NULL);
  dry_measuring_length (self, "height", basin->height, NULL);
  if (inside.opening > 0 && !basin->drop_in)
    measure_opening (self, &inside);
  if (pan) {
    measure_inside (self, &inside);
    dry_measure_pan (self, &inside);
  }
  if (self->context->room->shower_front > 0)
    dry_measuring_length (self, "clear-before", self->context->room->shower_front, NULL);
  measure_edges (self, basin);
  measure_drain (self, basin);
  dry_measuring_end (self);
}
