/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Snapping and distances: where a thing being moved on a wall would rather stand, why, and how far
 * it is from what is round it. Pure functions of room and plan; knows no pointer and no widget. */
#pragma once

#include "plan/plan.h"

G_BEGIN_DECLS

/* A stretch of one wall's face and the rectangle being moved over it. */
typedef struct {
  const DryRoom *room;
  const DryPlan *plan; /* may be of an older project, or NULL: then only the room is asked */
  DryId wall;
  DrySide side;
  DryId moving;    /* not to be snapped to; 0 = something new */
  DryRect rect;    /* where it would stand unsnapped */
  DryLength reach; /* snaps from nearer than this */
  DryLength grid;  /* falls back to multiples of this; 0 = none */
  gboolean lock_z; /* only sideways */
} DrySnapRequest;

typedef struct {
  DryLength du, dz;     /* to be added to the rectangle */
  const char *u_reason; /* untranslated, marked with N_(); NULL when only the grid held it */
  const char *z_reason;
  DryLength u_line, z_line; /* where the reason stands, for a guide line */
} DrySnap;

DrySnap dry_snap_on_wall (const DrySnapRequest *request);

/* Sideways only, for basins: along their wall. */
DrySnap dry_snap_along (const DryRoom *room, DryId wall, DryLength from, DryLength to,
                        DryLength reach, DryLength grid);

typedef enum {
  DRY_TOWARD_SIDE_LEFT,
  DRY_TOWARD_SIDE_RIGHT,
  DRY_TOWARD_SIDE_DOWN,
  DRY_TOWARD_SIDE_UP
} DryNeighbourSide;

/* Clear distance from the rectangle to the nearest thing on each side: another part or opening, the
 * basin's deck, else corner, floor, ceiling. Negative when it overlaps. */
typedef struct {
  DryLength distance[4]; /* by DryNeighbourSide */
  DryId object[4];       /* 0 = corner, floor, ceiling or deck */
} DryNeighbours;

DryNeighbours dry_snap_neighbours (const DrySnapRequest *request);

/* The finished rectangle on a face of anything that has one there. FALSE when it has none. */
gboolean dry_snap_rect (const DryRoom *room, DryId object, DryId *wall, DrySide *side,
                        DryRect *rect);

/* The finest step of inches or millimetres that is at least `least` long. */
DryLength dry_snap_grid (gboolean metric, DryLength least);

G_END_DECLS
