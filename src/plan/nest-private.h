/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Inside of the goal-driven search: sheets as slicing trees, shared by the nest-*.c files. A tree
 * says only what lies beside or above what; places follow from it, so nothing here knows a rest. */
#pragma once

#include "plan/cutting-private.h"

#define DRY_TREE_NONE (-1)

/* Scaled to 32 bits: see dry_trees_new(). */
typedef struct {
  gint32 side[2]; /* width, height, swollen by the kerf */
  gboolean may_turn;
  double area;
} DryTreeItem;

/* A leaf holds an item; any other node lays `right` beside (`upright`) or above `left`. `width` and
 * `height` are what the contents take at least, `room_*` what they might grow to if everything else
 * on the sheet kept to its least: so all slack of a sheet is on offer at every node. */
typedef struct {
  gint32 width, height, room_width, room_height;
  gint32 left, right, parent; /* of the sheet's nodes */
  gint32 item;                /* leaf: the item, else DRY_TREE_NONE */
  guint8 upright, turned;
} DryTreeNode;

/* Of four nodes side by side, so that four are asked at once: what is asked of nodes by far the
 * most. The last of a tree's may hold nodes that are none; nothing fits there. */
typedef gint32 DryFour __attribute__ ((vector_size (16), aligned (4)));
typedef struct {
  DryFour beside, above; /* slack: room less own size */
  DryFour room_width, room_height;
} DryTreeRooms;

typedef struct {
  DryTreeNode *nodes, *saved;
  DryTreeRooms *rooms;    /* of the nodes, as measured last */
  guint n_nodes, n_saved; /* 2 x items - 1 */
  guint capacity;
  gint32 root, saved_root;
  guint kind, saved_kind; /* of the problem's sheets */
  gint32 width, height;
  double used, saved_used; /* area of the items */
  double area;
  gint32 most_beside, most_above; /* largest slack at any node */
  gboolean is_saved;
} DryTree;

/* What is asked first of every tree, close together in memory. */
typedef struct {
  double left;                    /* area of the sheet that no item takes */
  gint32 most_beside, most_above; /* as in the tree; -1 when it is bare */
} DryTreeHead;

/* A try at a goal: so many sheets, the items on them, and the items left out. */
typedef struct {
  const DryNestProblem *problem;
  DryTreeItem *items;
  gint32 (*sheet_size)[2]; /* of each kind, scaled */
  DryTree *trees;
  DryTreeHead *heads;
  guint n_trees, max_trees;
  gint32 *tree_of; /* item -> tree or DRY_TREE_NONE */
  guint32 *left_out;
  guint n_left_out;
  guint32 *touched; /* trees saved since the last keep or undo */
  guint n_touched;
  guint32 *saved_left_out;
  guint n_saved_left_out;
  gint32 *stack;
  guint64 work;
} DryTrees;

#define DRY_N_MEASURES 5

/* How one recreation judges places. */
typedef struct {
  guint measure; /* which of the judgements */
  guint32 blink; /* a place in 2^32/blink is overlooked */
} DryTreeTaste;

/* nest-tree.c */
DryTrees *dry_trees_new (const DryNestProblem *problem) G_GNUC_WARN_UNUSED_RESULT;
void dry_trees_free (DryTrees *self);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (DryTrees, dry_trees_free)
/* Empties everything: `n` bare sheets of the kinds given, all items left out. */
void dry_trees_clear (DryTrees *self, const guint *kinds, guint n);
/* Puts the item where `taste` likes it best; FALSE when it goes nowhere. */
gboolean dry_trees_insert (DryTrees *self, guint item, const DryTreeTaste *taste, guint64 *random);
/* Takes out everything below the node; the items go to `out`. */
void dry_trees_take_out (DryTrees *self, guint tree, gint32 node, guint32 *out, guint *n_out);
void dry_trees_set_kind (DryTrees *self, guint tree, guint kind);
/* Between two of these everything can be undone. */
void dry_trees_keep (DryTrees *self);
void dry_trees_undo (DryTrees *self);

/* Fills the bare tree with a copy of these nodes, less the items that are placed elsewhere. */
void dry_trees_put (DryTrees *self, guint tree, const DryTreeNode *nodes, guint n_nodes,
                    gint32 root);

/* nest-pool.c: well filled sheets, all of one kind. */
typedef struct _DryPool DryPool;
DryPool *dry_pool_new (guint n_items) G_GNUC_WARN_UNUSED_RESULT;
void dry_pool_free (DryPool *self);
void dry_pool_offer (DryPool *self, const DryTree *tree);
/* Fills the trees anew from the stored sheets, the fewest items left out; TRUE when none is. Spends
 * at most `units`; FALSE and nothing changed when there are too few sheets to choose from. */
gboolean dry_pool_cover (DryPool *self, DryTrees *trees, guint64 units, guint64 *random);

/* --- nest-goal.c --- */

/* What a try must reach: every item placed, on sheets whose cost stays below `cost_below`. */
typedef struct {
  double cost_below;
} DryGoal;

/* A search under way: may be stopped after any number of work units and gone on with. */
typedef struct _DryGoalSearch DryGoalSearch;
DryGoalSearch *dry_goal_search_new (const DryNestProblem *problem,
                                    guint seed) G_GNUC_WARN_UNUSED_RESULT;
void dry_goal_search_free (DryGoalSearch *self);
/* Begins anew with these sheets, none of them cut yet. */
void dry_goal_search_set (DryGoalSearch *self, const guint *kinds, guint n_kinds, DryGoal goal);
/* TRUE once every item is placed. Stops after about `units`; what was spent is added to `spent`. */
gboolean dry_goal_search_run (DryGoalSearch *self, guint64 units, guint64 *spent);
const DryTrees *dry_goal_search_get_trees (const DryGoalSearch *self);

/* nest-write.c: the trees as cut trees with exact places; empties `state` first. */
void dry_trees_write (const DryTrees *self, DryNestState *state);

/* nest-prove.c: tries everything with the largest items. An answer with `most` sheets costing
 * `money` is known. */
typedef struct {
  guint sheets;         /* no answer buys fewer */
  gboolean is_cheapest; /* none with `most` costs less than `money` */
  guint64 spent;        /* work units */
} DryNestProof;

DryNestProof dry_nest_prove (const DryNestProblem *problem, guint lower_bound, guint most,
                             double money, guint64 effort, GCancellable *cancellable);

/* nest-columns.c: `lower_bound`, raised by column generation within `effort` work units; `best` is
 * an answer. Nothing is done where sheets are on hand. Adds what it took to `spent`. */
guint dry_nest_bound_columns (const DryNestProblem *problem, guint lower_bound,
                              const DryNestState *best, guint64 effort, GCancellable *cancellable,
                              guint64 *spent);

/* nest-improve.c: betters `best`, which holds an answer, until `lower_bound` is reached and nothing
 * is cheaper, or the effort of each thread is spent. Returns the lower bound, raised by proofs. */
guint dry_nest_improve (const DryNestProblem *problem, guint lower_bound, guint64 effort,
                        guint n_threads, GCancellable *cancellable, DryNestState *best);
