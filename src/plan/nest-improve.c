/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Sets the goals: one sheet fewer as long as the bound allows it, then cheaper sheets. Runs the
 * searches of every thread in rounds, so that the answer does not depend on which is faster. */
#define G_LOG_DOMAIN "plan"

#include "plan/nest-private.h"

/* Work units between two meetings of the threads: some hundredths of a second. */
#define FIRST_TRY G_GUINT64_CONSTANT (3000000)
#define PROOF     G_GUINT64_CONSTANT (10000000)
#define COLUMNS   G_GUINT64_CONSTANT (25000000)
#define ROUND     G_GUINT64_CONSTANT (3000000)

typedef struct {
  DryGoalSearch *search;
  guint64 units, spent;
  gboolean reached;
} Runner;

typedef struct {
  const DryNestProblem *problem;
  guint lower_bound;
  Runner *runners;
  guint n_runners;
  guint64 left; /* work units of each thread */
  GCancellable *cancellable;
  DryNestState *best;
  DryNestScore score;
  GArray *kinds;        /* guint: sheets of the goal */
  gboolean is_cheapest; /* proven */
} Improver;

static gpointer
run_round (gpointer data)
{
  Runner *self = data;
  self->spent = 0;
  self->reached = dry_goal_search_run (self->search, self->units, &self->spent);
  return NULL;
}

/* The runner that reached the goal, the first in the list if there are more; else NULL. */
static Runner *
run_all (Improver *self, guint64 units)
{
  g_autofree GThread **threads = g_new0 (GThread *, self->n_runners);
  for (guint i = 0; i < self->n_runners; i++) {
    self->runners[i].units = units;
    if (i > 0)
      threads[i] = g_thread_new ("nest", run_round, &self->runners[i]);
  }
  run_round (&self->runners[0]);
  Runner *winner = NULL;
  guint64 spent = 0;
  for (guint i = 0; i < self->n_runners; i++) {
    if (threads[i] != NULL)
      g_thread_join (threads[i]);
    spent = MAX (spent, self->runners[i].spent);
    if (winner == NULL && self->runners[i].reached)
      winner = &self->runners[i];
  }
  self->left -= MIN (self->left, spent);
  return winner;
}

/* Tries to place all on the sheets of `kinds` until `reserve` units are left. */
static gboolean
reach (Improver *self, DryGoal goal, guint64 reserve)
{
  for (guint i = 0; i < self->n_runners; i++)
    dry_goal_search_set (self->runners[i].search, (const guint *) self->kinds->data,
                         self->kinds->len, goal);
  while (self->left > reserve && !g_cancellable_is_cancelled (self->cancellable)) {
    Runner *winner = run_all (self, MIN (ROUND, self->left - reserve));
    if (winner == NULL)
      continue;
    dry_trees_write (dry_goal_search_get_trees (winner->search), self->best);
    self->score = dry_nest_state_score (self->best);
    return TRUE;
  }
  return FALSE;
}

/* --- goals --- */

static guint
count_kind (const Improver *self, guint kind)
{
  guint n = 0;
  for (guint i = 0; i < self->kinds->len; i++)
    n += g_array_index (self->kinds, guint, i) == kind;
  return n;
}

static gboolean
is_left (const Improver *self, guint kind)
{
  gint count = self->problem->sheets[kind].count;
  return count < 0 || count_kind (self, kind) < (guint) count;
}

/* All on hand, as far as items can fill them. */
static void
list_on_hand (Improver *self)
{
  g_array_set_size (self->kinds, 0);
  for (guint kind = 0; kind < self->problem->n_on_hand; kind++)
    while (self->kinds->len < self->problem->n_items && is_left (self, kind))
      g_array_append_val (self->kinds, kind);
}

/* The largest there are to be bought, no more of them than an answer has: so many there are. */
static void
list_largest (Improver *self, guint n_bought)
{
  list_on_hand (self);
  guint kind = self->problem->n_on_hand;
  for (guint n = 0; n < n_bought; n++) {
    while (kind + 1 < self->problem->n_sheets && !is_left (self, kind))
      kind++;
    g_array_append_val (self->kinds, kind);
  }
}

/* The sheets of the best answer, one of them swapped for a cheaper one, by as little as can be. */
static gboolean
list_cheaper (Improver *self)
{
  list_on_hand (self);
  guint first = self->kinds->len, at = 0, swap = 0;
  for (guint i = 0; i < self->best->n_open; i++)
    if (!self->problem->sheets[self->best->kinds[i]].on_hand)
      g_array_append_val (self->kinds, self->best->kinds[i]);
  double least = G_MAXDOUBLE;
  for (guint i = first; i < self->kinds->len; i++)
    for (guint kind = self->problem->n_on_hand; kind < self->problem->n_sheets; kind++) {
      double saved = self->problem->sheets[g_array_index (self->kinds, guint, i)].cost -
                     self->problem->sheets[kind].cost;
      if (saved > 0 && saved < least && is_left (self, kind)) {
        least = saved;
        at = i;
        swap = kind;
      }
    }
  if (least < G_MAXDOUBLE)
    g_array_index (self->kinds, guint, at) = swap;
  return least < G_MAXDOUBLE;
}

/* With fewer sheets than there would be items for, any number of each kind. */
static void
place_missing (Improver *self)
{
  const DryNestProblem *problem = self->problem;
  list_on_hand (self);
  for (guint kind = problem->n_on_hand; kind < problem->n_sheets; kind++)
    while (self->kinds->len < problem->n_items && is_left (self, kind))
      g_array_append_val (self->kinds, kind);
  reach (self, (DryGoal){G_MAXDOUBLE}, self->left / 2);
}

static gboolean
is_cheapest (const Improver *self)
{
  return self->is_cheapest ||
         self->score.cost <= self->problem->cheapest * self->score.sheets * (1 + 1e-12);
}

static void
prove (Improver *self)
{
  if (self->score.sheets > self->lower_bound)
    self->lower_bound =
        MAX (self->lower_bound, dry_nest_lower_bound (self->problem, DRY_NEST_DEEP));
  if (self->score.sheets == self->lower_bound && is_cheapest (self))
    return;
  guint64 effort = MIN (PROOF, self->left / 4);
  DryNestProof proof = dry_nest_prove (self->problem, self->lower_bound, self->score.sheets,
                                       self->score.cost * (1 - 1e-12), effort, self->cancellable);
  self->lower_bound = MAX (self->lower_bound, proof.sheets);
  guint64 spent;
  self->lower_bound =
      dry_nest_bound_columns (self->problem, self->lower_bound, self->best,
                              MIN (COLUMNS, self->left / 4), self->cancellable, &spent);
  self->left -= MIN (self->left, spent);
  self->is_cheapest = proof.is_cheapest;
  self->left -= MIN (self->left, proof.spent);
}

/* As far down as the bound lets it, until `reserve` units are left. */
static void
take_sheets_off (Improver *self, guint64 reserve)
{
  while (self->score.sheets > self->lower_bound) {
    list_largest (self, self->score.sheets - 1);
    if (!reach (self, (DryGoal){G_MAXDOUBLE}, reserve))
      return;
  }
}

static void
make_cheaper (Improver *self, guint64 reserve)
{
  while (!is_cheapest (self) && list_cheaper (self))
    if (!reach (self, (DryGoal){self->score.cost * (1 - 1e-12)}, reserve))
      return;
}

/* A short try first: a proof wants a good answer to compare with. */
static void
set_goals (Improver *self)
{
  if (self->score.missing > 0)
    place_missing (self);
  if (self->score.missing > 0)
    return;
  guint64 first = MIN (FIRST_TRY, self->left / 4);
  gboolean one_price = self->problem->n_sheets - self->problem->n_on_hand <= 1;
  take_sheets_off (self, self->left - first);
  make_cheaper (self, self->left > first ? self->left - first : 0);
  prove (self);
  take_sheets_off (self, one_price ? 0 : self->left / 2);
  make_cheaper (self, 0);
}

guint
dry_nest_improve (const DryNestProblem *problem, guint lower_bound, guint64 effort, guint n_threads,
                  GCancellable *cancellable, DryNestState *best)
{
  if (problem->n_items == 0)
    return lower_bound;
  g_autofree Runner *runners = g_new0 (Runner, MAX (n_threads, 1));
  g_autoptr (GArray) kinds = g_array_new (FALSE, FALSE, sizeof (guint));
  Improver self = {
      .problem = problem,
      .lower_bound = lower_bound,
      .runners = runners,
      .n_runners = MAX (n_threads, 1),
      .left = effort,
      .cancellable = cancellable,
      .best = best,
      .score = dry_nest_state_score (best),
      .kinds = kinds,
  };
  for (guint i = 0; i < self.n_runners; i++)
    runners[i].search = dry_goal_search_new (problem, i);
  set_goals (&self);
  for (guint i = 0; i < self.n_runners; i++)
    dry_goal_search_free (runners[i].search);
  return self.lower_bound;
}
