/* SPDX-License-Identifier: GPL-3.0-or-later */
/* An eye in the room: what it sees as a level perspective, cut by a plane before it.
 * Turns spots of the room into points of a scene; knows no walls and no looks of its own. */
#pragma once

#include "draw/scene-builder.h"

/* A spot of the room: on the plan and above the floor, nanometres. */
typedef struct {
  double x, y, z;
} DrySpot;

typedef struct {
  double x, y, z; /* where it is */
  double dx, dy;  /* where it looks: level, of length one */
  double cut;     /* how far before it the cutting plane stands; there the scale is 1:1 */
} DryEye;

/* TRUE when the eye is on the side of `at` that (nx, ny) points to. */
gboolean dry_eye_sees (const DryEye *self, DrySpot at, double nx, double ny);
/* How far before the eye a spot lies. */
double dry_eye_depth (const DryEye *self, DrySpot at);
/* A flat shape as it is seen, what is before the cutting plane cut off, into `out`, which holds
 * `n` + 2 points for a convex shape. The number of points; 0: not seen. */
guint dry_eye_project (const DryEye *self, const DrySpot *spots, guint n, DryPoint *out);
/* The part of `shape` within the convex `window`, both as points of the scene, counter-clockwise
 * or clockwise; `out` holds n + n_window points. The number of points. */
guint dry_eye_clip (const DryPoint *shape, guint n, const DryPoint *window, guint n_window,
                    DryPoint *out);
/* Adds what of the shape is seen through the window. At most 256 spots. */
void dry_eye_draw_through (const DryEye *self, DrySceneBuilder *b, DryLook look,
                           const DrySpot *spots, guint n, const DryPoint *window, guint n_window);
