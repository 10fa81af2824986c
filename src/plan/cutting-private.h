/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Inside of the nesting engine, shared by the cutting-*.c files and by boards, which asks for quick
 * estimates. Every size in here is swollen by one kerf to the right and up, sheets too, so that a
 * cut costs nothing and pieces may touch; knows nothing of walls. */
#pragma once

#include "plan/cutting.h"

#define DRY_NEST_FREE (-1) /* leaf that can still take an item */
#define DRY_NEST_DUST (-2) /* leaf thinner than the kerf: what the blade turns to dust */
#define DRY_NEST_NONE (-1)

typedef struct {
  DryLength width, height; /* swollen by the kerf */
  gboolean may_turn;
  guint piece; /* of the caller's list */
} DryNestItem;

typedef struct {
  DryLength width, height; /* swollen by the kerf */
  double cost;             /* price, or area when some price is not known */
  gint count;              /* -1 = any number */
  guint stock;             /* of the caller's list */
  gboolean on_hand;        /* paid for: cost 0, used first, not counted */
} DryNestSheet;

/* What is to be nested: the items that fit some sheet, and the sheets, those on hand
 * first, by falling area. */
typedef struct {
  DryNestItem *items;
  guint n_items;
  DryNestSheet *sheets;
  guint n_sheets;
  guint n_on_hand; /* of them; they come first */
  DryLength kerf;
  double unit_area; /* of the largest sheet */
  double cheapest;  /* least cost of a sheet that is bought */
} DryNestProblem;

/* A rectangle of a sheet: either cut in two (`first` left or below, `second` the rest), or a leaf
 * holding an item or nothing. */
typedef struct {
  DryRect rect;
  gint parent, first, second;
  gint item;      /* leaf: index of the item, or DRY_NEST_FREE, DRY_NEST_DUST */
  gint free_at;   /* place in the list of free leaves */
  guint vertical; /* direction of the cut between first and second */
  guint turned;
} DryNestNode;

/* A whole answer: a forest of cut trees, one a sheet. Flat arrays, so a copy is a few memcpy(). */
typedef struct {
  const DryNestProblem *problem;
  DryNestNode *nodes;
  guint n_nodes, n_used, capacity;
  gint spare; /* first of the unused nodes, chained by `parent` */
  gint *free_leaves;
  guint n_free;
  gint *roots; /* of each open sheet */
  guint *kinds;
  guint n_open;
  guint *opened; /* how many of each sheet kind */
  gint *leaf_of; /* item -> leaf, or DRY_NEST_NONE */
} DryNestState;

typedef enum { DRY_FIT_AREA, DRY_FIT_SHORT, DRY_FIT_LONG, DRY_FIT_LOW, DRY_N_FITS } DryNestFit;

typedef enum {
  DRY_SPLIT_SHORT, /* cut so that the shorter remainder stays short */
  DRY_SPLIT_LONG,
  DRY_SPLIT_BIG,  /* keep the larger of the two remainders as large as can be */
  DRY_SPLIT_EVEN, /* keep both alike */
  DRY_SPLIT_ROWS, /* shelves lying */
  DRY_SPLIT_COLUMNS,
  DRY_N_SPLITS,
} DryNestSplit;

typedef enum { DRY_STAND_ANY, DRY_STAND_LYING, DRY_STAND_UPRIGHT, DRY_N_STANDS } DryNestStand;

/* How one insertion run decides. */
typedef struct {
  DryNestFit fit;
  DryNestSplit split;
  DryNestStand stand;
  guint kind;  /* sheet kind opened first */
  guint blink; /* one in so many free leaves is overlooked; 0 = none */
} DryNestRules;

/* How good an answer is; compared in this order. */
typedef struct {
  guint missing;
  guint sheets; /* bought */
  double cost;
  double tidiness; /* more is better: what is free lies together */
} DryNestScore;

/* cutting-guillotine.c: cut trees. */
DryNestState *dry_nest_state_new (const DryNestProblem *problem) G_GNUC_WARN_UNUSED_RESULT;
void dry_nest_state_free (DryNestState *self);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (DryNestState, dry_nest_state_free)
void dry_nest_state_clear (DryNestState *self);
void dry_nest_state_copy (DryNestState *self, const DryNestState *from);
/* Places the item in the best free leaf or on a new sheet; FALSE when no sheet is left for it. Adds
 * to `work` what it looked at. */
gboolean dry_nest_state_insert (DryNestState *self, guint item, const DryNestRules *rules,
                                guint64 *random, guint *work);
void dry_nest_state_remove (DryNestState *self, guint item);
void dry_nest_state_drop_empty (DryNestState *self);
DryNestScore dry_nest_state_score (const DryNestState *self);
gboolean dry_nest_score_is_better (const DryNestScore *a, const DryNestScore *b);
guint32 dry_nest_random (guint64 *state);

/* For who brings cuts of his own: a new sheet's root; the first part of a free leaf cut in two, the
 * second being the first's sibling; an item for a free leaf of its size. */
gint dry_nest_state_open (DryNestState *self, guint kind);
gint dry_nest_state_cut (DryNestState *self, gint leaf, gboolean vertical, DryLength at);
void dry_nest_state_seat (DryNestState *self, gint leaf, guint item, gboolean turned);

/* cutting-search.c: best of several rules, then ruin and recreate within `effort` work units.
 * Leaves the best answer in `best`. */
void dry_nest_search (const DryNestProblem *problem, guint lower_bound, guint effort,
                      gboolean tidy_up, DryNestState *best);

/* cutting-bound.c: no layout of the items on these sheets, guillotine or not, needs fewer sheets.
 * Quick leaves out what takes longer than the search it would spare; deep tries many more
 * functions. */
typedef enum { DRY_NEST_QUICK, DRY_NEST_LIVE, DRY_NEST_DEEP } DryNestDepth;

guint dry_nest_lower_bound (const DryNestProblem *problem, DryNestDepth depth);

/* cutting-problem.c: sorts out what fits. `unplaced` (may be NULL) takes guints. */
DryNestProblem *dry_nest_problem_new (const DryStock *stock, guint n_stock, const DryPiece *pieces,
                                      guint n_pieces, DryLength kerf,
                                      GArray *unplaced) G_GNUC_WARN_UNUSED_RESULT;
void dry_nest_problem_free (DryNestProblem *self);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (DryNestProblem, dry_nest_problem_free)

/* The openings other pieces may be cut from: sheets on hand beyond the caller's list, one each. */
typedef struct {
  guint piece, opening;
} DryNestOpening;

typedef struct {
  DryNestOpening *items;
  guint n;
} DryNestOpenings;

void dry_nest_openings_clear (DryNestOpenings *self);
G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (DryNestOpenings, dry_nest_openings_clear)
/* As dry_nest_problem_new(), with the openings of the pieces, listed in `openings`. */
DryNestProblem *dry_nest_problem_new_opened (const DryStock *stock, guint n_stock,
                                             const DryPiece *pieces, guint n_pieces, DryLength kerf,
                                             GArray *unplaced,
                                             DryNestOpenings *openings) G_GNUC_WARN_UNUSED_RESULT;

/* cutting-write.c: fills in everything but the bound, which is there already. Takes over
 * `unplaced`, the pieces larger than every sheet. */
const DryCutting *dry_nest_write (DryArena *arena, const DryNestState *state,
                                  const DryNestOpenings *openings, DryCutting *self,
                                  GArray *unplaced);

/* The quick answer boards needs many times over: how many sheets and at what cost. When it is clear
 * that more than `most` sheets are needed, the search is spared and the bound given as the number.
 */
typedef struct {
  guint missing, sheets, lower_bound;
  double cost, sheet_area; /* nm2 */
} DryNestEstimate;

DryNestEstimate dry_cutting_estimate (const DryStock *stock, guint n_stock, const DryPiece *pieces,
                                      guint n_pieces, DryLength kerf, guint most, guint effort);
