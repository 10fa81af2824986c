/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Stage 4, cutting: nests rectangles (bounding boxes of boards) into sheets by edge-to-edge cuts.
 * Knows kerf, rotation and several sheet sizes; knows nothing of walls. Always gives a lower bound.
 */
#pragma once

#include <gio/gio.h>

#include "base/arena.h"
#include "base/geometry.h"

typedef struct {
  const char *id;
  DryLength width, height;
  gint64 price;     /* minor units; 0 = unknown, then area decides */
  gint count;       /* on hand or for sale; -1 = any number */
  gboolean on_hand; /* already paid for: used first, not counted as bought; needs a count */
} DryStock;

typedef struct {
  const char *name; /* where it goes: "B2" */
  DryLength width, height;
  gboolean may_turn;
  /* Rectangles within it that are not board: cut out for a niche or window, or off a corner. From
   * its lower left corner, as it hangs; less what the blade takes round them. Other pieces may be
   * cut from them. */
  const DryRect *openings;
  guint n_openings;
} DryPiece;

typedef struct {
  guint piece;
  DryRect rect; /* on the sheet, origin at its lower left */
  gboolean turned;
  gint inside; /* the piece from whose opening it is cut; -1: none */
} DryPlacement;

/* One cut, edge to edge across the rectangle `of`. */
typedef struct {
  DryRect of;
  gboolean vertical;
  DryLength at; /* x or y of the kept side of the cut, on the sheet */
  guint depth;  /* 0 first */
  gint inside;  /* the piece whose opening is cut up; -1: the sheet */
} DryCut;

typedef struct {
  guint stock;
  const DryPlacement *placements;
  guint n_placements;
  const DryCut *cuts; /* in the order made */
  guint n_cuts;
  const DryRect *offcuts; /* left over, largest first, those worth keeping */
  guint n_offcuts;
} DrySheetLayout;

typedef struct {
  const DryStock *stock;
  guint n_stock;
  const DryPiece *pieces;
  guint n_pieces;
  const DrySheetLayout *sheets;
  guint n_sheets;
  guint lower_bound;     /* no layout of these pieces buys fewer */
  gboolean proven;       /* n_bought == lower_bound and nothing left over for want of sheets */
  const guint *unplaced; /* pieces larger than every sheet */
  guint n_unplaced;
  double waste;   /* share of the sheets' area not in pieces, 0..1 */
  guint n_bought; /* sheets that were not on hand */
  gint64 cost;    /* of those, minor units; -1 = the price of one of them is not known */
} DryCutting;

/* Smaller offcuts and openings are swept up: common practice, no source. */
#define DRY_MIN_OFFCUT (6 * DRY_INCH)

/* Appends the openings (DryRect) of a piece of this shape, from the lower left of `bounds`: the
 * largest rectangles outside of it, none smaller than an offcut worth keeping, less `kerf` on the
 * sides where they are cut out. Of a taper the largest that its midpoint gives. */
void dry_cutting_list_openings (const DryPolygon *shape, DryRect bounds, DryLength kerf,
                                GArray *out);

/* The sheet the piece of this name is cut from: its number from 1; 0 when it is cut from none, or
 * nothing is cut (`self` NULL). */
guint dry_cutting_find_sheet (const DryCutting *self, const char *piece);

/* Deterministic; effort bounded by `effort` work units (0 = the default for live use, about 1 ms).
 */
const DryCutting *dry_cutting_compute (DryArena *arena, const DryStock *stock, guint n_stock,
                                       const DryPiece *pieces, guint n_pieces, DryLength kerf,
                                       guint effort);

/* One second of search on one processor of a small machine of 2026, in work units. */
#define DRY_CUTTING_SECOND G_GUINT64_CONSTANT (155000000)

/* As dry_cutting_compute(), then goes on, in rounds of every thread, until the fewest and cheapest
 * are proven or every thread has spent `effort` work units. Without effort it is
 * the live answer. It depends on `effort` and `n_threads` only, never on the clock, and is never
 * worse than the live one. Once `cancellable` (may be NULL) is cancelled the best so far is given.
 * Blocks: for a worker. */
const DryCutting *dry_cutting_improve (DryArena *arena, const DryStock *stock, guint n_stock,
                                       const DryPiece *pieces, guint n_pieces, DryLength kerf,
                                       guint64 effort, guint n_threads, GCancellable *cancellable);
