/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Stage 8, tile: where every tile of the wet faces lies, which are cut, and how many it takes.
 * Input: faces and the finish. Output: layouts on the finished plane, in face coordinates, and
 * counts with workings. Knows no boards and no prices. A tub out of level is taken to be drawn at
 * its low point: there the first course is whole, and cut down toward the high one. */
#pragma once

#include "base/json.h"
#include "plan/faces.h"

/* Cuts no wider than this are slivers whatever the tile. Common practice, no source. */
#define DRY_TILE_SLIVER (2 * DRY_INCH)
/* What the saw takes. Common practice, no source. */
#define DRY_TILE_KERF (DRY_INCH / 8)
/* No joint is narrower: ANSI A108.02-2017 4.3.8. */
#define DRY_TILE_LEAST_JOINT (DRY_INCH / 16)

typedef enum {
  DRY_TILE_WHOLE,
  DRY_TILE_CUT,    /* straight, along one or two edges: what is left fills its bounds */
  DRY_TILE_SHAPED, /* cut out at a corner or hole, or along a slope */
} DryTileCut;

/* One tile, or what is left of it. */
typedef struct {
  DryTileCut cut;
  DryRect bounds;
  const DryPoint *points; /* outline, counter-clockwise; NULL: the bounds themselves */
  guint n_points;
  __int128 area2;     /* twice, exact */
  gint32 column, row; /* which tile of the pattern it is; 0, 0 stands at the datum */
  gint32 kind;        /* index in DryTiling.kinds; -1: whole */
} DryTilePiece;

/* Cuts of one size and shape. Their number, on drawings and in lists, is the index and 1. */
typedef struct {
  DryTileCut cut;
  DryLength width, height; /* of the box round it */
  __int128 area2;
  guint count;
} DryTileKind;

/* A strip between tiles that takes no grout but sealant or a profile. */
typedef struct {
  DryPoint from, to;
} DryTileBreak;

typedef struct {
  guint face;       /* index in DryFaces */
  DryRegion region; /* tiled: to the neighbours' finished faces, finished openings taken off */
  DryPoint datum;   /* lower left corner of one whole tile of the layout */
  gboolean given_u, given_z;        /* datum set by the user, not solved */
  gboolean wraps_left, wraps_right; /* courses go on round that corner */
  gboolean whole_left, whole_right; /* that edge is open, and wished whole */
  const char *why_u, *why_z;        /* in plain words how the datum came about */
  const DryLength *upright, *level; /* middles of joints that niche edges can stand on; ascending */
  guint n_upright, n_level;
  const DryTilePiece *pieces;
  guint n_pieces, n_whole, n_cut;
  DryLength smallest;      /* narrowest side of a cut at the outer edges; 0 = none is cut */
  double smallest_share;   /* of the tile's same side; 1 = none is cut */
  double best_share;       /* what it could be with the best datum for this joint */
  double area, joint_area; /* m2: the face, and the part of it that is joints */
  DryLength left_cut, right_cut, bottom_cut, top_cut; /* at the outer edges; the tile's own size
                                                         where nothing is cut, 0 = no such edge */
  DryLength span;                                     /* width of the tiled face */
  DryLength run;              /* longest stretch of it without a movement joint */
  const DryTileBreak *breaks; /* movement joints in the field, as the rule pack's interval asks */
  guint n_breaks;
  DryLength trim;     /* length of its open edges */
  DryLength trim_cut; /* the part of it that covers cut tile, not a factory edge */
} DryTileFace;

typedef struct {
  const char *name; /* "Whole tiles", "Tiles for cuts" */
  double amount;
  DryWorking working;
} DryTileCount;

typedef struct {
  DryTileFace *faces;
  guint n_faces;
  DryPattern pattern;
  DryLength width, height; /* of the tile as it lies */
  DryLength joint;         /* used; within the finish's range the one that cuts best */
  const char *why_joint;   /* why it is not the finish's own, or NULL */
  DryLength least_joint;   /* what the facial variation asks for */
  double area, joint_area; /* m2 */
  guint n_whole, n_cut;
  const DryTileKind *kinds; /* of cuts, in the order they are met */
  guint n_kinds;
  guint n_for_cuts;     /* tiles the cuts come from, remainders used again */
  guint least_for_cuts; /* no way of cutting needs fewer; 0: not reckoned */
  guint n_spare;        /* for breakage and later repairs; sheets when on sheets */
  guint n_tiles;        /* to buy; on sheets: chips of the sheets to buy */
  guint sheet_across;   /* chips in a row of a sheet; 0: loose tile, and no sheets below */
  guint sheet_up;       /* in a column */
  guint n_whole_sheets; /* hung whole */
  guint n_part_sheets;  /* that blocks of chips are cut from, remainders used again */
  guint n_sheets;       /* to buy */
  double area_each;     /* m2 of wall that one tile or sheet, as sold, takes with its joints */
  guint box, n_boxes;   /* tiles or sheets in one, and how many; 0: not known */
  DryLength trim;       /* length of open edges, tops and sides where the tile ends */
  DryLength trim_cut;   /* the part of it that covers cut tile */
  DryLength movement;   /* length of joints that take sealant: changes of plane, at the basin */
  double smallest_share;
  gint smallest_face; /* index in `faces`, or -1 */
  DryTileCount counts[8];
  guint n_counts;
} DryTiling;

/* Errors: DRY_ERROR_CANCELLED. Without a tile chosen: no faces. */
const DryTiling *dry_tiling_compute (const DryPlanContext *context, const DryFaces *faces,
                                     GError **error);

/* The layout as a member "tile" of an open JSON object; nothing when there is no tile. */
void dry_tiling_write_json (const DryTiling *self, const DryFaces *faces, DryJsonWriter *writer);

/* What is bought of the layout, spares included: sheets when on sheets, else tiles. */
static inline guint
dry_tiling_to_buy (const DryTiling *self)
{
  return self->sheet_across > 0 ? self->n_sheets : self->n_tiles;
}

/* m2 of wall that one loose tile of the finish takes with a joint of this width, 0 for the tile
 * itself. A hexagon takes less than the box round it: its rows reach into each other. */
double dry_tile_area (const DryFinish *finish, DryLength joint);

/* Share that the trade adds to the net area for cuts and breakage, by pattern: 0.1 is 10 per cent.
 * From memory of the usual advice. */
double dry_tile_allowance (DryPattern pattern);

/* NULL when the face has no tile. */
const DryTileFace *dry_tiling_get_face (const DryTiling *self, guint face);

/* Distance of `at` to the nearest joint's middle in an ascending list; G_MAXINT64 without any. */
DryLength dry_tile_off_joint (const DryLength *lines, guint n, DryLength at);

/* The joints a layout with this datum and joint width has on the face, middles, ascending, appended
 * to the two arrays of DryLength. For trying layouts without laying every tile. */
void dry_tile_list_lines (const DryPlanContext *context, const DryFace *face, DryPoint datum,
                          DryLength joint, GArray *upright, GArray *level);
