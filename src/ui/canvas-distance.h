/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Distances from the thing in hand or selected to what is beside it, where their lines are drawn,
 * and the edit that makes one of them exactly as long as typed. */
#pragma once

#include "ui/canvas-private.h"

G_BEGIN_DECLS

/* One side: a line from the neighbor to the thing, in scene coordinates. */
typedef struct {
  gboolean known;
  gboolean shown; /* has a place on the board now */
  DryLength distance;
  DryId neighbour; /* 0: the wall's end, floor, ceiling */
  DryPoint from, to;
} DryMeasuredSide;

typedef struct {
  DryId object;
  gint stud; /* index, or -1 */
  DryHandKind kind;
  gboolean drawn;           /* always; else only while being typed (a wall's length) */
  DryMeasuredSide sides[4]; /* by DryNeighbourSide */
} DryMeasured;

gboolean dry_canvas_measure_object (DryCanvas *self, DryMeasured *measured);
/* "Left, to the corner": what a side's distance is called. Free with g_free(). */
char *dry_canvas_name_side (DryCanvas *self, const DryMeasured *measured, DryNeighbourSide side);
/* The project in which that distance is `length`; NULL with an error when it cannot be. */
DryProject *dry_canvas_set_distance (DryCanvas *self, const DryMeasured *measured,
                                     DryNeighbourSide side, DryLength length, GError **error);
/* canvas-chips.c */
/* Where on the widget the distance of each side is written: on its line or beside the thing, where
 * least of the drawing's own letters is covered. Without width: nothing is written for that side.
 */
void dry_canvas_place_chips (DryCanvas *self, const DryMeasured *measured,
                             graphene_rect_t places[4]);
/* canvas-paint-distance.c */
void dry_canvas_paint_distances (DryCanvas *self, GtkSnapshot *snapshot);
void dry_canvas_paint_breakage (DryCanvas *self, GtkSnapshot *snapshot);

G_END_DECLS
