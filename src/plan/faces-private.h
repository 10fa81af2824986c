/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the files of the faces stage, and the framing stage, share about wall sides and rough
 * openings. Not for other stages: they read DryFace. */
#pragma once

#include "base/error.h"
#include "plan/faces.h"

/* A basin side this near a wall stands against it (setting tolerance; common practice, no source).
 */
#define DRY_FACES_TOUCH DRY_INCH
/* A basin may be drawn this far into a wall (a tub too long for its alcove) and still touch it. */
#define DRY_FACES_INTO (6 * DRY_INCH)
/* The deck round a drop-in tub fills up to this much between tub and wall; common practice, no
 * source. */
#define DRY_FACES_DECK (12 * DRY_INCH)
/* Drawn between faces of the strip that do not meet in a corner. */
#define DRY_FACES_STRIP_GAP (12 * DRY_INCH)

/* What bounds the wall toward one of its ends, as seen from the basin. */
typedef struct {
  DryLength end;      /* u of the wall's end, or of the added wall of full height before it */
  DryLength half_at;  /* u of the near side of a half wall before that end */
  DryLength half_far; /* u of its other side */
  DryLength half_top; /* its height; 0 = there is none */
} DrySideStop;

/* One side of one wall, where the wet zone reaches it. */
typedef struct {
  const DryWall *wall;
  DrySide side;
  guint order;     /* of the wall in the room, for ties */
  DryPoint origin; /* u = 0 on the plan */
  double ux, uy;   /* direction of u; the viewer's side is (uy, -ux) */
  DryLength length, height;
  DrySideStop left, right;
  guint basin_side;  /* the basin's edge it faces: 0 left end, 1 front, 2 right end, 3 back */
  gboolean parallel; /* to that edge */
  gboolean touches;  /* the basin stands against it */
  DryLength b0, b1;  /* where the basin stands */
  DryLength wet_u0, wet_u1;
  gboolean leg_left, leg_right;
  DryLength wet_top;
  double bearing; /* of the wet stretch from the basin's middle, clockwise from the back wall */
} DryWetSide;

/* Heights at the basin: from the room and the system. */
typedef struct {
  DryLength deck, flange_top, board_bottom;
} DryBasinHeights;

DryBasinHeights dry_faces_basin_heights (const DryPlanContext *context);

/* The sides the wet zone reaches, in strip order (free the array); `back` is the index of the back
 * wall, or -1. */
GArray *dry_faces_find_sides (const DryPlanContext *context, gint *back);
DryPoint dry_faces_see_point (const DryWetSide *side, DryPoint plan); /* x = u, y = out */
/* Inside angle in degrees between a side and the one met at its right end; 0..360. */
double dry_faces_angle (const DryWetSide *left, const DryWetSide *right);
/* The same for the end of a side whose neighbour is no face; 0 when nothing stands there. */
double dry_faces_end_angle (const DryPlanContext *context, const DryWetSide *side, gboolean right);
/* Where u stands nearest: the half wall before the end, else the end. */
DryLength dry_faces_near_left (const DryWetSide *side);
DryLength dry_faces_near_right (const DryWetSide *side);

/* The framed box of a built bench, on the face of its wall. */
typedef struct {
  const DryPart *part;
  DryLength u0, u1;               /* of the framing */
  DryLength top;                  /* of the framing above the floor */
  DryLength depth;                /* of the framing from the stud faces of its wall */
  gboolean open_left, open_right; /* that end stands free of a wall */
} DryBenchBox;

gboolean dry_faces_bench_box (const DryPlanContext *context, const DryWetSide *side,
                              const DryPart *part, DryBenchBox *box);

/* Fills region, cutouts and holes of `faces` items 0..n-1, whose ends are set already. */
void dry_faces_build_region (const DryPlanContext *context, const DryWetSide *sides,
                             const DryFace *faces, guint index, DryFace *face);
/* Appends ceiling, bench and niche faces to the array of DryFace. */
void dry_faces_add_small (const DryPlanContext *context, const DryWetSide *sides, guint n_sides,
                          gint back, GArray *faces);

/* Appends the caps and open ends of added walls. */
void dry_faces_add_caps (const DryPlanContext *context, const DryWetSide *sides, guint n_sides,
                         GArray *faces);

/* The rough opening of a niche, and an opening as seen on a side of its wall. */
DryRect dry_faces_niche_rough (const DryPlanContext *context, const DryPart *niche);
DryRect dry_faces_opening_rect (const DryWall *wall, DrySide side, const DryOpening *opening);
gboolean dry_faces_is_site_built (const DryPart *niche);
