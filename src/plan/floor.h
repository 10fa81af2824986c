/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The floor of a shower when it is made on site: fall, depth of the mortar at drain and rim,
 * volume, weight, and the sheet or membrane that keeps it tight. A ready pan or a tub has none of
 * it. */
#pragma once

#include "plan/context.h"

typedef struct {
  gboolean built; /* FALSE: nothing below holds */
  gboolean liner; /* under the bed, on a slope of its own; else a membrane on top of it */
  double slope;   /* rise/run, the job's own or the least the code asks */
  DryLength run;  /* point drain: from it to the farthest corner; channel: to the far edge */
  DryLength fall; /* of the run */
  DryLength drain_depth, rim_depth; /* of all mortar, at the drain and along the level rim */
  double area;                      /* m2, of the outline */
  double volume;                    /* litres of mortar in place */
  double mass;                      /* kg in place, damp */
  double sheet_area;                /* m2 of liner or membrane, turned up at every edge */
  DryWorking area_working, fall_working, volume_working, mass_working, sheet_working;
} DryFloor;

/* Never fails; `built` is FALSE where no floor is made on site. */
const DryFloor *dry_floor_compute (const DryPlanContext *context, GError **error);

/* Litres of a bed `least` deep at the drain and `most` along its level rim. To a channel along one
 * edge it is a wedge, A (t + T) / 2; to a point every slice from the drain is a cone's, A (t + 2T)
 * / 3, wherever the drain is and whatever the outline, as long as the drain sees all of it. */
double dry_floor_volume (double area_m2, DryLength least, DryLength most, gboolean channel);

/* In lengths from the basin's back left corner, x along its length. */
DryPoint dry_floor_drain (const DryBasin *basin, DryLength from_edge);
