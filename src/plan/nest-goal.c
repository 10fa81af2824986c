/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The goal-driven search: given so many sheets, ruin some of them and recreate, until every item
 * has found its place. Counts work, never time, and may be stopped and gone on with anywhere. */
#define G_LOG_DOMAIN "plan"

#include <math.h>
#include <stdlib.h>

#include "plan/nest-private.h"

/* Values found by trying on the published lists (docs/cutting.md). */
#define FIRST_CYCLE   G_GUINT64_CONSTANT (2000000) /* work units from hot to cold */
#define LONGEST_CYCLE G_GUINT64_CONSTANT (32000000)
#define HOT           0.1  /* of an item's mean area: how much worse is taken */
#define COLD          0.02 /* of HOT */
#define BLINK         0.01 /* share of places overlooked */
#define MOST_RUINED   3    /* sheets */
#define WHOLE         0.5  /* chance that a sheet is ruined wholly, not a part of it */
#define MOST_NOISE    0.4  /* in the order of recreation */
#define NEW_KIND      0.1  /* chance that a sheet is swapped for one of another kind */

double G_P[16] = {2e6, 32e6, 0.1, 0.02, 2, 0};

typedef struct {
  double key;
  guint32 item;
} Ranked;

struct _DryGoalSearch {
  DryTrees *trees;
  DryGoal goal;
  guint *kinds;
  guint n_kinds, max_kinds;
  Ranked *list;
  double mean_area;
  double now; /* area left out */
  double heat;
  guint64 begin, end; /* of this cycle, in work units of the trees */
  guint64 cycle;
  guint64 random;
  guint count;
};

DryGoalSearch *
dry_goal_search_new (const DryNestProblem *problem, guint seed)
{
  DryGoalSearch *self = g_new0 (DryGoalSearch, 1);
  self->trees = dry_trees_new (problem);
  self->list = g_new (Ranked, problem->n_items + 1);
  for (guint i = 0; i < problem->n_items; i++)
    self->mean_area += self->trees->items[i].area / problem->n_items;
  self->random = G_GUINT64_CONSTANT (0x9E3779B97F4A7C15) * (2 * (guint64) seed + 1);
  return self;
}

void
dry_goal_search_free (DryGoalSearch *self)
{
  if (self == NULL)
    return;
  dry_trees_free (self->trees);
  g_free (self->kinds);
  g_free (self->list);
  g_free (self);
}

const DryTrees *
dry_goal_search_get_trees (const DryGoalSearch *self)
{
  return self->trees;
}

static inline double
draw (guint64 *random)
{
  return dry_nest_random (random) / 4294967296.0;
}

/* --- recreating --- */

static gint
compare_ranked (gconstpointer a, gconstpointer b)
{
  const Ranked *left = a, *right = b;
  if (left->key != right->key)
    return left->key > right->key ? -1 : 1;
  return left->item < right->item ? -1 : left->item > right->item;
}

static void
sort_ranked (Ranked *list, guint n)
{
  if (n > 24) {
    qsort (list, n, sizeof (Ranked), compare_ranked);
    return;
  }
  for (guint i = 1; i < n; i++) {
    Ranked one = list[i];
    guint j = i;
    for (; j > 0 && compare_ranked (&one, &list[j - 1]) < 0; j--)
      list[j] = list[j - 1];
    list[j] = one;
  }
}

static double
rank_item (const DryTreeItem *item, guint order)
{
  double a = item->side[0], b = item->side[1];
  switch (order) {
  case 0:
    return a * b;
  case 1:
    return MAX (a, b) * MAX (a, b);
  case 2:
    return (a + b) * (a + b);
  default:
    return MIN (a, b) * MIN (a, b);
  }
}

static void
recreate (DryGoalSearch *self)
{
  DryTrees *trees = self->trees;
  guint n = trees->n_left_out;
  guint order = dry_nest_random (&self->random) % 4;
  double noise = draw (&self->random);
  noise *= noise * MOST_NOISE;
  for (guint i = 0; i < n; i++) {
    guint32 item = trees->left_out[i];
    double key = rank_item (&trees->items[item], order) * (1 - noise * draw (&self->random));
    self->list[i] = (Ranked){key, item};
  }
  sort_ranked (self->list, n);
  DryTreeTaste taste = {dry_nest_random (&self->random) % DRY_N_MEASURES,
                        (guint32) (BLINK * 4294967295.0)};
  trees->n_left_out = 0;
  for (guint i = 0; i < n; i++)
    if (!dry_trees_insert (trees, self->list[i].item, &taste, &self->random))
      trees->left_out[trees->n_left_out++] = self->list[i].item;
}

/* --- ruining --- */

/* A kind the bare sheet might be swapped for without using up more than there are or reaching the
 * goal's cost; its own when there is none. */
static guint
draw_kind (DryGoalSearch *self, guint index)
{
  const DryNestProblem *problem = self->trees->problem;
  guint own = self->trees->trees[index].kind;
  guint kind = problem->n_on_hand +
               dry_nest_random (&self->random) % (problem->n_sheets - problem->n_on_hand);
  const DryNestSheet *sheet = &problem->sheets[kind];
  double cost = sheet->cost - problem->sheets[own].cost;
  gint count = 1;
  for (guint i = 0; i < self->trees->n_trees; i++) {
    cost += problem->sheets[self->trees->trees[i].kind].cost;
    count += self->trees->trees[i].kind == kind;
  }
  self->trees->work += self->trees->n_trees;
  if (kind == own || cost >= self->goal.cost_below || (sheet->count >= 0 && count > sheet->count))
    return own;
  return kind;
}

static void
ruin (DryGoalSearch *self)
{
  DryTrees *trees = self->trees;
  const DryNestProblem *problem = trees->problem;
  guint many = 1 + dry_nest_random (&self->random) % MOST_RUINED;
  for (guint i = 0; i < many; i++) {
    guint at = dry_nest_random (&self->random) % trees->n_trees;
    const DryTree *tree = &trees->trees[at];
    gboolean may_swap =
        problem->n_sheets - problem->n_on_hand > 1 && !problem->sheets[tree->kind].on_hand;
    gboolean swap = may_swap && draw (&self->random) < NEW_KIND;
    if (tree->root != DRY_TREE_NONE) {
      gint32 node = tree->root;
      if (!swap && draw (&self->random) > WHOLE)
        node = (gint32) (dry_nest_random (&self->random) % tree->n_nodes);
      dry_trees_take_out (trees, at, node, trees->left_out, &trees->n_left_out);
    }
    if (swap)
      dry_trees_set_kind (trees, at, draw_kind (self, at));
  }
}

/* --- running --- */

static double
sum_left_out (const DryTrees *self)
{
  double sum = 0;
  for (guint i = 0; i < self->n_left_out; i++)
    sum += self->items[self->left_out[i]].area;
  return sum;
}

static void
begin_cycle (DryGoalSearch *self)
{
  DryTrees *trees = self->trees;
  dry_trees_clear (trees, self->kinds, self->n_kinds);
  recreate (self);
  dry_trees_keep (trees);
  self->now = sum_left_out (trees);
  self->begin = trees->work;
  self->end = trees->work + self->cycle;
  self->cycle = MIN ((guint64) (G_P[4] * self->cycle), (guint64) G_P[1]);
}

void
dry_goal_search_set (DryGoalSearch *self, const guint *kinds, guint n_kinds, DryGoal goal)
{
  if (n_kinds > self->max_kinds) {
    self->kinds = g_renew (guint, self->kinds, n_kinds);
    self->max_kinds = n_kinds;
  }
  for (guint i = 0; i < n_kinds; i++)
    self->kinds[i] = kinds[i];
  self->n_kinds = n_kinds;
  self->goal = goal;
  self->cycle = (guint64) G_P[0];
  begin_cycle (self);
}

static void
cool (DryGoalSearch *self)
{
  double share = (double) (self->trees->work - self->begin) / (double) (self->end - self->begin);
  self->heat = G_P[2] * self->mean_area * pow (G_P[3], share);
}

static void
step (DryGoalSearch *self)
{
  DryTrees *trees = self->trees;
  trees->work += 10;
  if (self->count++ % 64 == 0)
    cool (self);
  ruin (self);
  recreate (self);
  double next = sum_left_out (trees);
  if (next <= self->now || next < self->now - self->heat * log (draw (&self->random) + 1e-12)) {
    self->now = next;
    dry_trees_keep (trees);
  } else {
    dry_trees_undo (trees);
  }
}

gboolean
dry_goal_search_run (DryGoalSearch *self, guint64 units, guint64 *spent)
{
  DryTrees *trees = self->trees;
  guint64 start = trees->work, limit = start + units;
  while (trees->n_left_out > 0 && self->n_kinds > 0 && trees->work < limit) {
    if (trees->work >= self->end)
      begin_cycle (self);
    else
      step (self);
  }
  *spent += trees->work - start;
  return trees->n_left_out == 0;
}
