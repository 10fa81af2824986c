/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Stage 1, faces: the walls touched by the basin or its wet zone, each with the region to be
 * boarded. Input: the room. Output: faces in strip order (clockwise, corner to corner), lengths
 * exact, from stud faces. */
#pragma once

#include "plan/context.h"

typedef enum {
  DRY_FACE_WALL,
  DRY_FACE_CEILING,
  DRY_FACE_BENCH, /* top, front or end of a built bench: `edges` says what each side meets */
  DRY_FACE_NICHE, /* back, floor, top or side of a site-built niche */
  DRY_FACE_CAP,   /* top or open end of an added wall; `object` is the wall */
} DryFaceKind;

/* What stands at one end of a wall face. */
typedef struct {
  gint face; /* neighbouring face in the plan, or -1 */
  double
      angle; /* inside angle in degrees: 90 inside corner, 270 outside corner; 0 = no wall there */
  DryLength inset; /* the neighbour's board comes first and takes this much (board + corner gap);
                      the region leaves it out already, as high as the neighbour is wet */
  DryLength at; /* u where it stands: 0 or the wall's length, or the near side of an added wall */
} DryFaceEnd;

typedef enum { DRY_CUT_NICHE, DRY_CUT_WINDOW, DRY_CUT_DOOR } DryCutoutKind;

typedef struct {
  DryCutoutKind kind;
  DryId object; /* part or opening */
  DryRect
      rough; /* opening in board and framing: finish sizes +/- build-up, or the ready-made body */
  DryRect finish; /* as drawn by the user */
} DryCutout;

typedef struct {
  DryId object;
  DryPoint centre;
  DryLength diameter;
} DryHole;

typedef struct {
  guint index;
  DryFaceKind kind;
  DryId wall; /* 0 for ceilings */
  DrySide side;
  DryId object;             /* bench, niche or added wall the face belongs to, else 0 */
  const char *name;         /* "Back wall", "Left end wall", "Niche 1, floor" */
  const char *mark;         /* "A", "B", ... short, unique; boards are named after it: "B2" */
  DryLength length, height; /* of the whole wall; of the surface for the small kinds */
  DryLength strip_x;        /* where u = 0 stands on the unrolled strip */
  DryRegion region;         /* to be boarded; cut-outs taken off, holes not */
  DryLength wet_top;        /* top of the wet wall */
  DryLength wet_u0, wet_u1; /* between them the wall is wet; beyond it is dry (drywall) */
  DryFaceEnd left, right;
  gboolean dry_left, dry_right; /* the region ends against drywall, not at a corner */
  gboolean dry_above;           /* drywall above the wet top (it stops short of the ceiling) */
  /* Where the basin touches. */
  gboolean at_basin;
  DryLength basin_u0, basin_u1;
  DryLength deck; /* z of tub rim, pan edge or curb */
  DryLength flange_top;
  DryLength board_bottom;       /* z where the board starts above the basin */
  gboolean leg_left, leg_right; /* the region has a leg to the floor at that end */
  const DryCutout *cutouts;
  guint n_cutouts;
  const DryHole *holes;
  guint n_holes;
  DryJointKind
      edges[4]; /* small kinds only: what left, top, right, bottom meet. A joint between two
                   small faces, or round a niche, is told by both faces that meet in it */
} DryFace;

typedef struct {
  DryFace *items;
  guint n;
  DryLength strip_length;
} DryFaces;

/* Errors: none for a valid project; a room without basin gives no faces. Never NULL unless
 * cancelled. */
const DryFaces *dry_faces_compute (const DryPlanContext *context, GError **error);

/* The wall face showing (wall, side), or NULL. */
const DryFace *dry_faces_get_wall (const DryFaces *self, DryId wall, DrySide side);
