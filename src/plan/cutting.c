/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Stage 4, cutting: the door to the nesting engine, live or searched on. Knows nothing of walls or
 * of where the pieces go. */
#define G_LOG_DOMAIN "plan"

#include "plan/nest-private.h"

/* Work units, about a millisecond on a small machine of 2020. */
#define LIVE_EFFORT 70000
/* For a proof, when the bounds leave it open whether one sheet less would do. */
#define LIVE_PROOF 30000
static DryCutting *
begin_answer (DryArena *arena, const DryStock *stock, guint n_stock, const DryPiece *pieces,
              guint n_pieces)
{
  DryCutting *self = dry_arena_alloc (arena, sizeof (DryCutting));
  self->stock = dry_arena_copy (arena, stock, sizeof (DryStock) * n_stock);
  self->n_stock = n_stock;
  DryPiece *copy = dry_arena_copy (arena, pieces, sizeof (DryPiece) * n_pieces);
  for (guint i = 0; i < n_pieces; i++)
    copy[i].openings =
        dry_arena_copy (arena, pieces[i].openings, sizeof (DryRect) * pieces[i].n_openings);
  self->pieces = copy;
  self->n_pieces = n_pieces;
  return self;
}

/* The live answer. Half of the effort first: a proof of it, which needs little on a list from a few
 * walls, spares the other half. */
static void
find_live (const DryNestProblem *problem, guint *lower_bound, DryNestState *state)
{
  *lower_bound = dry_nest_lower_bound (problem, DRY_NEST_LIVE);
  dry_nest_search (problem, *lower_bound, LIVE_EFFORT / 2, TRUE, state);
  DryNestScore score = dry_nest_state_score (state);
  if (score.missing == 0 && score.sheets == *lower_bound)
    return;
  if (score.missing == 0)
    *lower_bound = dry_nest_prove (problem, *lower_bound, score.sheets, 0, LIVE_PROOF, NULL).sheets;
  if (score.missing > 0 || score.sheets > *lower_bound)
    dry_nest_search (problem, *lower_bound, LIVE_EFFORT, TRUE, state);
}

const DryCutting *
dry_cutting_compute (DryArena *arena, const DryStock *stock, guint n_stock, const DryPiece *pieces,
                     guint n_pieces, DryLength kerf, guint effort)
{
  DryCutting *self = begin_answer (arena, stock, n_stock, pieces, n_pieces);
  GArray *unplaced = g_array_new (FALSE, FALSE, sizeof (guint));
  g_auto (DryNestOpenings) openings = {0};
  g_autoptr (DryNestProblem) problem =
      dry_nest_problem_new_opened (stock, n_stock, pieces, n_pieces, kerf, unplaced, &openings);
  g_autoptr (DryNestState) state = dry_nest_state_new (problem);
  if (effort > 0) {
    self->lower_bound = dry_nest_lower_bound (problem, DRY_NEST_LIVE);
    dry_nest_search (problem, self->lower_bound, effort, TRUE, state);
  } else {
    find_live (problem, &self->lower_bound, state);
  }
  return dry_nest_write (arena, state, &openings, self, unplaced);
}

const DryCutting *
dry_cutting_improve (DryArena *arena, const DryStock *stock, guint n_stock, const DryPiece *pieces,
                     guint n_pieces, DryLength kerf, guint64 effort, guint n_threads,
                     GCancellable *cancellable)
{
  DryCutting *self = begin_answer (arena, stock, n_stock, pieces, n_pieces);
  GArray *unplaced = g_array_new (FALSE, FALSE, sizeof (guint));
  g_auto (DryNestOpenings) openings = {0};
  g_autoptr (DryNestProblem) problem =
      dry_nest_problem_new_opened (stock, n_stock, pieces, n_pieces, kerf, unplaced, &openings);
  g_autoptr (DryNestState) state = dry_nest_state_new (problem);
  find_live (problem, &self->lower_bound, state);
  if (effort > 0)
    self->lower_bound =
        dry_nest_improve (problem, self->lower_bound, effort, n_threads, cancellable, state);
  return dry_nest_write (arena, state, &openings, self, unplaced);
}

DryNestEstimate
dry_cutting_estimate (const DryStock *stock, guint n_stock, const DryPiece *pieces, guint n_pieces,
                      DryLength kerf, guint most, guint effort)
{
  g_autoptr (DryNestProblem) problem =
      dry_nest_problem_new (stock, n_stock, pieces, n_pieces, kerf, NULL);
  DryNestEstimate estimate = {.missing = n_pieces - problem->n_items,
                              .lower_bound = dry_nest_lower_bound (problem, DRY_NEST_QUICK)};
  estimate.sheets = estimate.lower_bound;
  if (estimate.lower_bound > most)
    return estimate;
  g_autoptr (DryNestState) state = dry_nest_state_new (problem);
  dry_nest_search (problem, estimate.lower_bound, effort, FALSE, state);
  DryNestScore score = dry_nest_state_score (state);
  estimate.missing += score.missing;
  estimate.sheets = score.sheets;
  estimate.cost = score.cost;
  for (guint i = 0; i < state->n_open; i++) {
    const DryStock *sheet = &stock[problem->sheets[state->kinds[i]].stock];
    estimate.sheet_area += (double) sheet->width * (double) sheet->height;
  }
  return estimate;
}

guint
dry_cutting_find_sheet (const DryCutting *self, const char *piece)
{
  for (guint i = 0; self != NULL && i < self->n_sheets; i++)
    for (guint k = 0; k < self->sheets[i].n_placements; k++)
      if (g_strcmp0 (self->pieces[self->sheets[i].placements[k].piece].name, piece) == 0)
        return i + 1;
  return 0;
}
