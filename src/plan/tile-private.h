/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the files of the tile stage share: the tiled region, the choice of datum, laying.
 * Not for other stages: they read DryTiling. */
#pragma once

#include "plan/tile.h"

/* A stair of courses comes back to its start within as many. */
#define DRY_TILE_SHIFTS_MOST 20

/* Sizes of the tile as it lies, and how courses follow each other. */
typedef struct {
  DryPattern pattern;
  DryLength width, height; /* as it lies */
  DryLength joint;
  DryLength shifts[DRY_TILE_SHIFTS_MOST]; /* of one course after the other */
  guint n_shifts;
} DryTileModule;

DryTileModule dry_tile_module (const DryFinish *finish, DryLength joint);
static inline DryLength
dry_tile_pitch_u (const DryTileModule *self)
{
  return self->width + self->joint;
}
static inline DryLength
dry_tile_pitch_z (const DryTileModule *self)
{
  return self->height + self->joint;
}
/* From one row of tiles to the next; rows of hexagons reach into each other. */
static inline DryLength
dry_tile_row (const DryTileModule *self)
{
  return self->pattern == DRY_PATTERN_HEXAGON
             ? (DryLength) ((double) (self->width + self->joint) * 0.86602540378443865 + 0.5)
             : self->height + self->joint;
}
/* TRUE when courses and columns line up, so that edges have cuts that can be balanced. */
static inline gboolean
dry_tile_is_grid (DryPattern pattern)
{
  return pattern == DRY_PATTERN_STRAIGHT || pattern == DRY_PATTERN_OFFSET ||
         pattern == DRY_PATTERN_VERTICAL;
}
/* What is left over when `value` is divided by `module`, never negative. */
static inline DryLength
dry_tile_rest (DryLength value, DryLength module)
{
  DryLength rest = value % module;

  return rest < 0 ? rest + module : rest;
}

/* tile-region.c: what of the face is tiled. */
DryRegion dry_tile_region (const DryPlanContext *context, const DryFaces *faces,
                           const DryFace *face);

/* tile-solve.c: an edge that tile ends at. */
typedef struct {
  DryLength at;
  gboolean low; /* tile lies above or to the right of it */
} DryTileEdge;

/* What a datum gives at some edges. */
typedef struct {
  DryLength smallest; /* narrowest cut; the tile's size when none is cut */
  guint n_cut;        /* edges and courses with a cut */
} DryTileAxis;

/* The tile left at the edge, `size` when it is whole there. */
DryLength dry_tile_cut_at (DryTileEdge edge, DryLength datum, DryLength size, DryLength joint);
DryTileAxis dry_tile_judge_axis (const DryTileEdge *edges, guint n, const DryLength *shifts,
                                 guint n_shifts, DryLength datum, DryLength size, DryLength joint);
/* Negative when `a` is the better one for a tile of this size. */
gint dry_tile_compare_axes (DryTileAxis a, DryTileAxis b, DryLength size);
/* The best datum: no cut under half a tile where any datum avoids it, then the widest narrowest
 * cut, then fewest cuts. 0 <= datum < size + joint. */
DryLength dry_tile_solve_axis (const DryTileEdge *edges, guint n, const DryLength *shifts,
                               guint n_shifts, DryLength size, DryLength joint);

/* tile-datum.c: what the walls of a room are laid out from. */
typedef struct {
  const DryPlanContext *context;
  const DryFaces *faces;
  DryTiling *tiling;        /* its faces have their regions */
  const DryTileEdge *level; /* level edges of all walls */
  guint n_level;
} DryTileRoom;

typedef struct {
  DryLength level;   /* z where a course starts */
  gboolean whole;    /* a whole course stands on the basin */
  DryLength *starts; /* u where a tile starts, for each face of the tiling; others than walls: 0 */
  double share;      /* narrowest cut at an edge, of the tile's side there */
  guint n_cut;       /* edges with cuts */
} DryTileChoice;

/* Two walls meet there in an inside corner. */
static inline gboolean
dry_tile_meets_inside (const DryFaceEnd *end)
{
  return end->face >= 0 && end->angle > 0 && end->angle < 180;
}

/* The two outer edges along one axis: what is cut there is seen. Always 2. */
guint dry_tile_edges (const DryRegion *region, gboolean level, DryTileEdge out[2]);
/* The edges one level line is to suit; the caller's. */
GArray *dry_tile_level_edges (const DryTileRoom *room);
/* The joint to lay with, and the layout; `choice->starts` has room for every face. */
DryLength dry_tile_choose (const DryTileRoom *room, DryTileChoice *choice);
/* Whether that end is an open edge at which a whole tile is wished. */
gboolean dry_tile_wants_whole (const DryTileRoom *room, guint index, gboolean right);
/* Whether courses go on round the corner at that end. */
gboolean dry_tile_goes_round (const DryTileRoom *room, guint index, gboolean right);

/* tile-lay.c: the tiles of a region, in `pieces` (DryTilePiece), points in `arena`. FALSE when
 * there would be more than a drawing can tell apart. */
gboolean dry_tile_lay (DryArena *arena, const DryTileModule *module, const DryRegion *region,
                       DryPoint datum, GArray *pieces);
/* Where the tile of that column and row has its own frame, in nanometres: the corner of a diagonal
 * one, turned by 45 degrees, the middle of a hexagon. Other patterns are not asked. */
void dry_tile_origin (const DryTileModule *module, DryPoint datum, gint32 column, gint32 row,
                      double *x, double *z);
/* Area of one whole tile, twice. */
__int128 dry_tile_area2 (const DryTileModule *module);

/* tile-count.c */
void dry_tile_count (const DryPlanContext *context, const DryFaces *faces,
                     const DryTileModule *module, DryTiling *self);
/* How the room's tile is sold: what the finish says, else the catalogue. */
typedef struct {
  guint across, up, box;
  double breakage;  /* per cent */
  DrySource source; /* of the breakage */
  DrySource boxes;  /* of sheet and box */
} DryTilePacking;
DryTilePacking dry_tile_packing (const DryPlanContext *context, const DryFinish *finish);
/* Pieces cut edge to edge out of as few rectangles as may be, `kerf` lost between them: few ones by
 * the search that nests boards, many by the best fit. Pieces are put in order. */
guint dry_tile_nest_rects (const DryPlanContext *context, DryLength width, DryLength height,
                           GArray *pieces, DryLength kerf);

/* tile-kinds.c: gives every cut of the faces its kind. */
void dry_tile_find_kinds (const DryPlanContext *context, DryTiling *self);

/* tile-sheets.c: the sheets the chips of all faces take, whole and cut. */
void dry_tile_count_sheets (const DryPlanContext *context, const DryTileModule *module,
                            DryTiling *self);

/* tile-shapes.c: tiles the cuts of diagonal or hexagon tile come from, each kept where it lies in
 * its tile, which may be turned; and a bound no cutting goes below. */
guint dry_tile_nest_shapes (const DryTileModule *module, const DryTiling *self, guint *bound);
