/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The goal-driven search: given so many sheets, ruin some of them and recreate, until every item
 * has found its place. Counts work, never time, and may be stopped and gone on with anywhere. */
#define G_LOG_DOMAIN "plan"

#include <stdlib.h>

#include "plan/nest-private.h"

/* Values found by trying on the published lists (docs/cutting.md). */
#define FIRST_CYCLE   G_GUINT64_CONSTANT (2000000) /* work units from hot to cold; then twice */
#define LONGEST_CYCLE G_GUINT64_CONSTANT (32000000)
#define HOT           0.1 /* of an item's mean area: how much worse is taken */
#define STAGES        16
#define COOLING       0.783 /* from stage to stage: a fiftieth in the end */
#define BLINK         0.01  /* share of places overlooked */
#define MOST_RUINED   4     /* sheets */
#define WHOLE         0.3   /* chance that a sheet is ruined wholly, not a part of it */
#define EMPTIER       0.5   /* chance that of two sheets the emptier is ruined */
#define MOST_NOISE    0.4   /* in the order of recreation */
#define NEW_KIND      0.1   /* chance that a sheet is swapped for one of another kind */
#define MOST_POOLED   300   /* items */
#define WELL_FILLED   1.03  /* of what sheets must hold on the average to reach the goal */
#define COVER_SHARE   5     /* one in so many work units of a cycle goes to covering */

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
  DryPool *pool; /* NULL: the sheets are not alike, or too many items */
  double full;   /* area used that makes a sheet worth keeping in the pool */
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
  dry_pool_free (self->pool);
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

static guint
find_emptier (const DryTrees *trees, guint a, guint b)
{
  const DryTree *left = &trees->trees[a], *right = &trees->trees[b];
  return right->area - right->used > left->area - left->used ? b : a;
}

static void
ruin (DryGoalSearch *self)
{
  DryTrees *trees = self->trees;
  const DryNestProblem *problem = trees->problem;
  guint many = 1 + dry_nest_random (&self->random) % MOST_RUINED;
  for (guint i = 0; i < many; i++) {
    guint at = dry_nest_random (&self->random) % trees->n_trees;
    if (draw (&self->random) < EMPTIER)
      at = find_emptier (trees, at, dry_nest_random (&self->random) % trees->n_trees);
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
begin_cycle (DryGoalSearch *self, gboolean anew)
{
  DryTrees *trees = self->trees;
  if (!anew && self->pool != NULL &&
      dry_pool_cover (self->pool, trees, self->cycle / COVER_SHARE, &self->random))
    return;
  dry_trees_clear (trees, self->kinds, self->n_kinds);
  recreate (self);
  dry_trees_keep (trees);
  self->now = sum_left_out (trees);
  self->begin = trees->work;
  self->end = trees->work + self->cycle;
  self->cycle = MIN (2 * self->cycle, LONGEST_CYCLE);
}

static void
set_pool (DryGoalSearch *self)
{
  const DryNestProblem *problem = self->trees->problem;
  if (problem->n_sheets != 1 || problem->n_items > MOST_POOLED || self->n_kinds == 0)
    return;
  if (self->pool == NULL)
    self->pool = dry_pool_new (problem->n_items);
  self->full = WELL_FILLED * self->mean_area * problem->n_items / self->n_kinds;
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
  self->cycle = FIRST_CYCLE;
  set_pool (self);
  begin_cycle (self, TRUE);
}

/* Every sheet touched by this step. */
static void
fill_pool (DryGoalSearch *self)
{
  const DryTrees *trees = self->trees;
  for (guint i = 0; i < trees->n_touched; i++) {
    const DryTree *tree = &trees->trees[trees->touched[i]];
    if (tree->used >= self->full)
      dry_pool_offer (self->pool, tree);
  }
}

/* By stages, so that nothing but multiplication is needed, which is the same on every machine. */
static void
cool (DryGoalSearch *self)
{
  guint64 stage = (self->trees->work - self->begin) * STAGES / (self->end - self->begin);
  self->heat = HOT * self->mean_area;
  for (guint64 i = 0; i < MIN (stage, STAGES); i++)
    self->heat *= COOLING;
}

/* About -ln of a number drawn from 0..1: straight between the powers of two. */
static double
draw_patience (guint64 *random)
{
  double number = (dry_nest_random (random) + 1.0) / 4294967296.0, halvings = 0;
  while (number <= 0.5) {
    number *= 2;
    halvings += 1;
  }
  return 0.6931471805599453 * (halvings + 2 * (1 - number));
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
  if (next <= self->now || next < self->now + self->heat * draw_patience (&self->random)) {
    self->now = next;
    if (self->pool != NULL)
      fill_pool (self);
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
      begin_cycle (self, FALSE);
    else
      step (self);
  }
  *spent += trees->work - start;
  return trees->n_left_out == 0;
}
