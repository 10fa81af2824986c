/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A room and a backer system built by hand in inches, so that faces and framing are tested against
 * figures that stand in the test and not against the shipped data. Values are invented. */
#pragma once

#include "plan/framing.h"

typedef struct {
  DryRoom room;
  DryWall walls[8];
  DryPart parts[16];
  DryOpening openings[4];
  DrySystem system;
  DryPlanContext context;
  const DryFaces *faces;
  const DryFraming *framing;
} Site;

/* Exact for eighths, sixteenths and the like. */
#define IN(x) ((DryLength) ((x) *25400000.0))

/* A tub 60 x 30 in, rim 15 in, flange 1 in, along the first wall of the outline given as x, y pairs
 * in inches, clockwise. Board 1/2 in, started 1 in above the deck, 1/8 in gap at corners, 1/4 in
 * mortar, 3/8 in tile, 1/16 in membrane. Wet to a ceiling of 96 in, 2 in past, with legs. */
void site_set_up (Site *self, const double *corners, guint n_corners);
void site_set_up_alcove (Site *self); /* 60 x 96 in */
DryPart *site_add_part (Site *self, DryPartKind kind, guint wall, double u, double z, double width,
                        double height, double depth);
DryOpening *site_add_opening (Site *self, DryOpeningKind kind, guint wall, double u, double z,
                              double width, double height);
DryWall *site_add_wall (Site *self, double x0, double y0, double x1, double y1, double height);
/* A wild room instead: angled and added walls, parts anywhere. */
void site_set_up_wild (Site *self, guint32 seed);
void site_compute (Site *self);
void site_tear_down (Site *self);
/* The face of a wall by its place in the room; fails the test when there is none. */
const DryFace *site_face (const Site *self, guint wall);
/* A face by its name; fails the test when there is none. */
const DryFace *site_find_face (const Site *self, const char *name);
/* A small face of this size in inches, and what its edges meet. */
void site_check_small (const Site *self, const char *name, double length, double height,
                       DryJointKind left, DryJointKind top, DryJointKind right,
                       DryJointKind bottom);
