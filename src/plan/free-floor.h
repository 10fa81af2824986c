/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The free floor of a room between its finished walls and what is drawn standing on it, and the
 * largest circle that fits there. Knows shapes only; nothing of whether a rule asks for it. */
#pragma once

#include "plan/faces.h"

/* Diameter of a circular turning space, ADA 2010 304.3.1, with 304.2 and 304.4 as quoted in full in
 * the trade press. */
#define DRY_TURNING_DIAMETER (60 * DRY_INCH)

typedef struct {
  DryRegion floor;    /* of the context's arena; empty when the room has no outline */
  DryLength wanted;   /* diameter asked for */
  DryLength diameter; /* of the largest circle found, within 1/16 in under the true largest; 0 = no
                         floor */
  DryPoint centre;    /* of it: the place farthest from all edges */
  gboolean fits;      /* the circle asked for lies wholly on the floor round `centre` */
  DryWorking working; /* of `diameter` */
} DryFreeFloor;

/* The free floor: the outline less the finish of its walls, added walls, the tub or a pan with a
 * curb, seats built up from the floor and fixed glass. A pan without a curb (1/2 in at most) and
 * not known to slope more than 1:48, seats that fold and doors of glass leave it free. What nobody
 * drew (toilet, vanity, cabinets) is not taken off. Lengths in nanometres, in the room's own
 * coordinates. */
DryFreeFloor dry_free_floor_reckon (const DryPlanContext *context, const DryFaces *faces,
                                    DryLength wanted);

/* The place on `floor` farthest from all its edges and how far that is: within 1/32 in under the
 * true value, exact where the floor's edges are level and upright and two across from each other
 * decide. FALSE when the floor is empty. */
gboolean dry_free_floor_farthest (const DryRegion *floor, DryPoint *at, DryLength *clear);
