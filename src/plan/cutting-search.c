/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The search of the nesting engine: insertion under many orders and rules, the best kept, then ruin
 * and recreate. Counts work, never time, so that the same list gives the same answer everywhere. */
#define G_LOG_DOMAIN "plan"

#include <stdlib.h>

#include "plan/cutting-private.h"

typedef enum {
  ORDER_AREA,
  ORDER_LONG_SIDE,
  ORDER_SHORT_SIDE,
  ORDER_PERIMETER,
  ORDER_HEIGHT,
  ORDER_WIDTH,
  ORDER_RANDOM,
  N_ORDERS,
} Order;

typedef struct {
  guint item;
  double key, second;
} Keyed;

static gint
compare_keyed (gconstpointer a, gconstpointer b)
{
  const Keyed *left = a, *right = b;
  if (left->key != right->key)
    return left->key > right->key ? -1 : 1;
  if (left->second != right->second)
    return left->second > right->second ? -1 : 1;
  return left->item < right->item ? -1 : left->item > right->item;
}

static void
sort_items (const DryNestProblem *problem, Keyed *list, guint n, Order order, guint64 *random)
{
  for (guint i = 0; i < n; i++) {
    const DryNestItem *item = &problem->items[list[i].item];
    double width = (double) item->width, height = (double) item->height;
    double key = width * height;
    list[i].second = MAX (width, height);
    switch (order) {
    case ORDER_LONG_SIDE:
      key = MAX (width, height);
      list[i].second = MIN (width, height);
      break;
    case ORDER_SHORT_SIDE:
      key = MIN (width, height);
      break;
    case ORDER_PERIMETER:
      key = width + height;
      break;
    case ORDER_HEIGHT:
      key = height;
      list[i].second = width;
      break;
    case ORDER_WIDTH:
      key = width;
      list[i].second = height;
      break;
    case ORDER_RANDOM:
      key = (double) dry_nest_random (random);
      break;
    case ORDER_AREA:
    case N_ORDERS:
      break;
    }
    list[i].key = key;
  }
  qsort (list, n, sizeof (Keyed), compare_keyed);
}

typedef struct {
  const DryNestProblem *problem;
  guint lower_bound;
  guint effort, work;
  gboolean tidy_up; /* go on for better offcuts once the count is proven */
  guint64 random;
  DryNestState *best, *now, *trial;
  DryNestScore best_score, now_score;
  gboolean any;
  Keyed *list;
} Search;

static gboolean
is_settled (const Search *self)
{
  if (!self->any || self->best_score.missing > 0)
    return FALSE;
  return self->best_score.sheets <= self->lower_bound &&
         self->best_score.cost <= self->problem->cheapest * self->lower_bound * (1 + 1e-12);
}

static void
keep_if_best (Search *self, const DryNestState *state, const DryNestScore *score)
{
  if (self->any && !dry_nest_score_is_better (score, &self->best_score))
    return;
  dry_nest_state_copy (self->best, state);
  self->best_score = *score;
  self->any = TRUE;
}

/* One insertion run of all items, in one order, under one set of rules. */
static void
run_once (Search *self, Order order, const DryNestRules *rules)
{
  guint n = self->problem->n_items;
  for (guint i = 0; i < n; i++)
    self->list[i].item = i;
  sort_items (self->problem, self->list, n, order, &self->random);
  dry_nest_state_clear (self->trial);
  for (guint i = 0; i < n; i++)
    dry_nest_state_insert (self->trial, self->list[i].item, rules, &self->random, &self->work);
  DryNestScore score = dry_nest_state_score (self->trial);
  keep_if_best (self, self->trial, &score);
}

/* Rules that do well on board lists, the best first; the other pairs follow from the search. */
static const DryNestRules START_RULES[] = {
    {DRY_FIT_AREA, DRY_SPLIT_BIG, DRY_STAND_ANY},
    {DRY_FIT_SHORT, DRY_SPLIT_SHORT, DRY_STAND_ANY},
    {DRY_FIT_LOW, DRY_SPLIT_ROWS, DRY_STAND_LYING},
    {DRY_FIT_LOW, DRY_SPLIT_COLUMNS, DRY_STAND_UPRIGHT},
    {DRY_FIT_AREA, DRY_SPLIT_SHORT, DRY_STAND_ANY},
    {DRY_FIT_AREA, DRY_SPLIT_ROWS, DRY_STAND_UPRIGHT},
    {DRY_FIT_AREA, DRY_SPLIT_COLUMNS, DRY_STAND_LYING},
    {DRY_FIT_SHORT, DRY_SPLIT_BIG, DRY_STAND_ANY},
    {DRY_FIT_LONG, DRY_SPLIT_LONG, DRY_STAND_ANY},
    {DRY_FIT_AREA, DRY_SPLIT_EVEN, DRY_STAND_ANY},
    {DRY_FIT_SHORT, DRY_SPLIT_ROWS, DRY_STAND_ANY},
    {DRY_FIT_SHORT, DRY_SPLIT_COLUMNS, DRY_STAND_ANY},
};

static void
run_starts (Search *self)
{
  guint n_kinds = MIN (self->problem->n_sheets, 4);
  guint limit = self->effort / 2;
  for (guint r = 0; r < G_N_ELEMENTS (START_RULES); r++)
    for (guint order = 0; order < ORDER_RANDOM; order++)
      for (guint kind = 0; kind < n_kinds; kind++) {
        if (self->any && (is_settled (self) || self->work >= limit))
          return;
        DryNestRules rules = START_RULES[r];
        rules.kind = kind;
        run_once (self, (Order) order, &rules);
      }
}

/* --- ruin and recreate --- */

static void
take_out (Search *self, guint item, guint *n)
{
  if (self->trial->leaf_of[item] == DRY_NEST_NONE)
    return;
  dry_nest_state_remove (self->trial, item);
  self->list[(*n)++].item = item;
}

static gint
find_root (const DryNestState *state, guint item)
{
  gint node = state->leaf_of[item];
  while (node != DRY_NEST_NONE && state->nodes[node].parent != DRY_NEST_NONE)
    node = state->nodes[node].parent;
  return node;
}

static void
empty_sheet (Search *self, guint sheet, guint *n)
{
  gint root = self->trial->roots[sheet];
  for (guint i = 0; i < self->problem->n_items; i++)
    if (self->trial->leaf_of[i] != DRY_NEST_NONE && find_root (self->trial, i) == root)
      take_out (self, i, n);
  self->work += self->problem->n_items;
}

/* The sheet with the least in it: the one to do away with. */
static guint
find_emptiest (const DryNestState *state)
{
  guint emptiest = 0;
  double least = G_MAXDOUBLE;
  for (guint s = 0; s < state->n_open; s++) {
    double used = 0;
    for (guint i = 0; i < state->problem->n_items; i++)
      if (find_root (state, i) == state->roots[s])
        used += (double) state->problem->items[i].width * (double) state->problem->items[i].height;
    if (used < least) {
      least = used;
      emptiest = s;
    }
  }
  return emptiest;
}

static guint
ruin (Search *self)
{
  guint n = 0, n_items = self->problem->n_items;
  g_assert (n_items > 0); /* dry_cutting_search() */
  for (guint i = 0; i < n_items; i++)
    if (self->trial->leaf_of[i] == DRY_NEST_NONE)
      self->list[n++].item = i;

  guint mode = dry_nest_random (&self->random) % 4;
  if (self->trial->n_open > 1 && mode == 0) {
    empty_sheet (self, find_emptiest (self->trial), &n);
    self->work += n_items;
  }
  if (self->trial->n_open > 0 && mode <= 2)
    empty_sheet (self, dry_nest_random (&self->random) % self->trial->n_open, &n);
  if (self->trial->n_open > 2 && mode == 1)
    empty_sheet (self, dry_nest_random (&self->random) % self->trial->n_open, &n);
  guint more = 1 + dry_nest_random (&self->random) % (2 + n_items / 6);
  for (guint i = 0; i < more; i++)
    take_out (self, dry_nest_random (&self->random) % n_items, &n);
  dry_nest_state_drop_empty (self->trial);
  return n;
}

static void
recreate (Search *self, guint n)
{
  DryNestRules rules = {
      .fit = (DryNestFit) (dry_nest_random (&self->random) % DRY_N_FITS),
      .split = (DryNestSplit) (dry_nest_random (&self->random) % DRY_N_SPLITS),
      .stand = DRY_STAND_ANY,
      .kind = dry_nest_random (&self->random) % self->problem->n_sheets,
      .blink = 24,
  };
  Order order = (Order) (dry_nest_random (&self->random) % N_ORDERS);
  sort_items (self->problem, self->list, n, order, &self->random);
  for (guint i = 0; i < n; i++)
    dry_nest_state_insert (self->trial, self->list[i].item, &rules, &self->random, &self->work);
}

/* Equal counts, and not much untidier: taken, the less willingly the later. */
static gboolean
is_acceptable (Search *self, const DryNestScore *score)
{
  if (!dry_nest_score_is_better (&self->now_score, score))
    return TRUE;
  if (score->missing != self->now_score.missing || score->sheets != self->now_score.sheets ||
      score->cost > self->now_score.cost)
    return FALSE;
  double late = (double) self->work / (double) self->effort;
  double chance = dry_nest_random (&self->random) / 4294967296.0;
  return self->now_score.tidiness - score->tidiness < 0.25 * (1 - MIN (late, 1)) * chance;
}

static void
run_ruins (Search *self, guint limit, gboolean until_settled)
{
  dry_nest_state_copy (self->now, self->best);
  self->now_score = self->best_score;
  while (self->work < limit && !(until_settled && is_settled (self))) {
    dry_nest_state_copy (self->trial, self->now);
    self->work += 8 + self->problem->n_items / 2;
    recreate (self, ruin (self));
    DryNestScore score = dry_nest_state_score (self->trial);
    if (!is_acceptable (self, &score))
      continue;
    DryNestState *other = self->now;
    self->now = self->trial;
    self->trial = other;
    self->now_score = score;
    keep_if_best (self, self->now, &score);
  }
}

void
dry_nest_search (const DryNestProblem *problem, guint lower_bound, guint effort, gboolean tidy_up,
                 DryNestState *best)
{
  dry_nest_state_clear (best);
  if (problem->n_items == 0)
    return;
  g_autoptr (DryNestState) now = dry_nest_state_new (problem);
  g_autoptr (DryNestState) trial = dry_nest_state_new (problem);
  g_autofree Keyed *list = g_new (Keyed, problem->n_items);
  Search self = {
      .problem = problem,
      .lower_bound = lower_bound,
      .effort = MAX (effort, 1),
      .random = G_GUINT64_CONSTANT (0x9E3779B97F4A7C15),
      .best = best,
      .now = now,
      .trial = trial,
      .list = list,
  };
  run_starts (&self);
  run_ruins (&self, effort, TRUE);
  if (tidy_up && is_settled (&self))
    run_ruins (&self, MIN (effort, self.work + effort / 8), FALSE);
}
