/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A take-off while its lines are gathered; shared by takeoff.c, takeoff-finish.c and
 * takeoff-floor.c. */
#pragma once

#include "plan/plan.h"

typedef struct {
  const DryPlanContext *context;
  const DryFraming *framing;
  const DryBoards *boards;
  const DryCoating *coating;
  const DryTiling *tiling; /* may be NULL */
  const DryFloor *floor;   /* may be NULL */
  GArray *lines;           /* DryTakeoffLine */
} DryTakeoffDraft;

/* Rounds to packs, prices, and appends; a line of nothing is dropped. */
void dry_takeoff_add (DryTakeoffDraft *self, DryTakeoffLine line);
const char *dry_takeoff_number (const DryTakeoffDraft *self, double value, int decimals);

/* Tile mortar and grout as they are sold, for the walls or a floor; id, group and name are given.
 */
void dry_takeoff_add_tile_mortar (DryTakeoffDraft *self, DryTakeoffLine line, double kg);
void dry_takeoff_add_grout (DryTakeoffDraft *self, DryTakeoffLine line, double kg);
#define DRY_GROUT_DENSITY 1.75 /* kg/L; middle of 1.5 to 2.0, from memory */

void dry_takeoff_add_lumber (DryTakeoffDraft *self);
void dry_takeoff_add_tile (DryTakeoffDraft *self);
void dry_takeoff_add_floor (DryTakeoffDraft *self);
