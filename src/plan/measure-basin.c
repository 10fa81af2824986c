/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Measures of the tub or pan: opening between walls, curb, flange, drain.
 * Sizes are taken between finished walls; an open side is taken to the basin's own edge. */
#include "plan/measure-build.h"
#include "plan/outline.h"

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
    dry_measure_inside (self, &inside);
    dry_measure_pan (self, &inside);
  }
  if (self->context->room->shower_front > 0)
    dry_measuring_length (self, "clear-before", self->context->room->shower_front, NULL);
  measure_edges (self, basin);
  measure_drain (self, basin);
  dry_measuring_end (self);
}
