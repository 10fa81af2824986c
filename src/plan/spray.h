/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Where the water of a shower head meets a wall: drops leave within a cone and fall as they fly. A
 * reckoning for choosing dry places, not of how wet a wall gets; no drag, no splashing back. */
#pragma once

#include "plan/faces.h"

/* Common practice, no source, except the force: EPA WaterSense asks of a head at least 2.0 ounces
 * (0.56 N) of spray force, from which the speed of the drops follows. */
typedef struct {
  DryLength out;     /* from the tile to the head, along the arm */
  double tilt;       /* of the head's axis below level, degrees */
  double half_angle; /* of the cone, degrees */
  double force;      /* newton */
} DrySprayShape;

DrySprayShape dry_spray_shape_default (void); /* 6 in, 45 and 12 degrees, 0.56 N */

/* Speed of the drops in m/s: force over mass flow. `flow_lpm` 0 counts as 2.0 gpm. */
double dry_spray_speed (const DrySprayShape *shape, double flow_lpm);

/* The stretch of a wall wet at one upright line `distance` m away and `aside` m beside the head's
 * axis (plan), as heights in m below the head; FALSE when the line stays dry. `low` may be
 * infinite. */
gboolean dry_spray_at (const DrySprayShape *shape, double speed, double distance, double aside,
                       double *high, double *low);

#define DRY_SPRAY_STRIP (2 * DRY_INCH)

/* Strips of the face, DRY_SPRAY_STRIP wide from u = 0, each as high as the water meets its middle
 * line, top and bottom rounded outward to 1/4 in and kept between floor and wet top; empty ones
 * left out. Appends DryRect. */
void dry_spray_on_face (const DryPlanContext *context, const DryPart *head, const DryFace *face,
                        const DrySprayShape *shape, GArray *rects);
