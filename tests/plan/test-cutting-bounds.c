/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Every lower bound of the nesting engine against sheets cut up at random, whose number is known:
 * it may be weak, never above; and on lists where area and pairs say too little column generation
 * must say more. */
#include "plan/nest-private.h"

#define IN     DRY_INCH
#define EFFORT G_GUINT64_CONSTANT (20000000)

typedef struct {
  DryPiece pieces[120];
  guint n;
  gboolean turn, fine; /* lengths to the nanometre, not to the inch */
} List;

static void
cut_up (GRand *rand, List *self, DryLength w, DryLength h, DryLength kerf, guint depth)
{
  gboolean vertical = g_rand_boolean (rand);
  DryLength whole = vertical ? w : h, least = 3 * IN;
  if (depth == 0 || whole <= 2 * least + kerf || self->n + 2 > G_N_ELEMENTS (self->pieces)) {
    self->pieces[self->n++] = g_rand_boolean (rand) && self->turn
                                  ? (DryPiece){"p", h, w, TRUE}
                                  : (DryPiece){"p", w, h, self->turn};
    return;
  }
  DryLength at = least + (DryLength) (g_rand_double (rand) * (double) (whole - 2 * least - kerf));
  if (!self->fine)
    at = MAX (at - at % IN, least);
  cut_up (rand, self, vertical ? at : w, vertical ? h : at, kerf, depth - 1);
  cut_up (rand, self, vertical ? w - at - kerf : w, vertical ? h : h - at - kerf, kerf, depth - 1);
}

/* No offcuts at all: one sheet fewer would not hold the area, so the number is the fewest. */
static void
test_never_above (void)
{
  guint sheets = 0, columns = 0, functions = 0;
  const guint n_lists = g_test_quick () ? 150 : 1500;
  for (guint32 seed = 1; seed <= n_lists; seed++) {
    g_autoptr (GRand) rand = g_rand_new_with_seed (seed);
    List list = {.turn = seed % 3 != 0, .fine = seed % 2};
    DryStock stock[2] = {{"a", 48 * IN, 96 * IN, 0, -1}, {"b", 36 * IN, 60 * IN, 0, -1}};
    guint n_stock = seed % 5 ? 1 : 2, n_sheets = (guint) g_rand_int_range (rand, 1, 9);
    DryLength kerf = seed % 4 ? 0 : IN / 8;
    for (guint i = 0; i < n_sheets; i++) {
      const DryStock *sheet = &stock[g_rand_int_range (rand, 0, (gint) n_stock)];
      cut_up (rand, &list, sheet->width, sheet->height, kerf,
              (guint) g_rand_int_range (rand, 0, 4));
    }
    g_autoptr (DryNestProblem) problem =
        dry_nest_problem_new (stock, n_stock, list.pieces, list.n, kerf, NULL);
    g_autoptr (DryNestState) state = dry_nest_state_new (problem);
    dry_nest_search (problem, 0, 2000, FALSE, state);
    guint deep = dry_nest_lower_bound (problem, DRY_NEST_DEEP);
    guint64 spent;
    guint bound = dry_nest_bound_columns (problem, 0, state, EFFORT, NULL, &spent);
    g_assert_cmpuint (dry_nest_lower_bound (problem, DRY_NEST_QUICK), <=, n_sheets);
    g_assert_cmpuint (dry_nest_lower_bound (problem, DRY_NEST_LIVE), <=, n_sheets);
    g_assert_cmpuint (deep, <=, n_sheets);
    g_assert_cmpuint (bound, <=, n_sheets);
    sheets += n_sheets;
    functions += deep;
    columns += bound;
  }
  g_test_message ("%u lists of %u sheets: functions say %u, columns %u", n_lists, sheets, functions,
                  columns);
}

/* Pieces of 30 x 30 on 48 x 96: area says 5.1 a sheet, cutting gives 3. */
static void
test_says_more (void)
{
  DryPiece pieces[30];
  DryStock stock = {"a", 48 * IN, 96 * IN, 0, -1};
  for (guint i = 0; i < G_N_ELEMENTS (pieces); i++)
    pieces[i] = (DryPiece){"p", 30 * IN, 30 * IN, TRUE};
  g_autoptr (DryNestProblem) problem =
      dry_nest_problem_new (&stock, 1, pieces, G_N_ELEMENTS (pieces), 0, NULL);
  g_autoptr (DryNestState) state = dry_nest_state_new (problem);
  dry_nest_search (problem, 0, 20000, FALSE, state);
  guint64 spent;
  g_assert_cmpuint (dry_nest_state_score (state).sheets, ==, 10);
  g_assert_cmpuint (dry_nest_bound_columns (problem, 0, state, EFFORT, NULL, &spent), ==, 10);
}

/* Stopped early, or before it began, it says what was known. */
static void
test_stopped (void)
{
  DryPiece pieces[30];
  DryStock stock = {"a", 48 * IN, 96 * IN, 0, -1};
  g_autoptr (GCancellable) cancellable = g_cancellable_new ();
  for (guint i = 0; i < G_N_ELEMENTS (pieces); i++)
    pieces[i] = (DryPiece){"p", (20 + i) * IN, 30 * IN, TRUE};
  g_autoptr (DryNestProblem) problem =
      dry_nest_problem_new (&stock, 1, pieces, G_N_ELEMENTS (pieces), 0, NULL);
  g_autoptr (DryNestState) state = dry_nest_state_new (problem);
  dry_nest_search (problem, 0, 20000, FALSE, state);
  guint64 spent;
  g_assert_cmpuint (dry_nest_bound_columns (problem, 2, state, 0, NULL, &spent), ==, 2);
  g_cancellable_cancel (cancellable);
  g_assert_cmpuint (dry_nest_bound_columns (problem, 3, state, EFFORT, cancellable, &spent), ==, 3);
}

/* Nothing is claimed where the columns say nothing: no pieces, more than there is room for, boards
 * on hand, sheets or pieces thinner than what is counted in. */
static void
test_columns_silent (void)
{
  static const struct {
    const char *what;
    guint n;
    DryLength width, sheet_width;
    gboolean on_hand;
  } CASES[] = {{"no pieces", 0, 30 * IN, 48 * IN, FALSE},
               {"too many", 251, 30 * IN, 48 * IN, FALSE},
               {"on hand", 20, 30 * IN, 48 * IN, TRUE},
               {"thin strips", 40, IN / 3, 48 * IN, FALSE},
               {"thin sheets", 20, IN / 3, IN / 2, FALSE}};
  for (guint i = 0; i < G_N_ELEMENTS (CASES); i++) {
    g_autofree DryPiece *pieces = g_new0 (DryPiece, CASES[i].n + 1);
    DryStock stock[] = {{"a", CASES[i].sheet_width, 97 * IN + 1, 0, -1},
                        {"b", 48 * IN, 60 * IN, 0, 1, TRUE}};
    for (guint k = 0; k < CASES[i].n; k++)
      pieces[k] = (DryPiece){"p", CASES[i].width, 31 * IN + 7 * k, FALSE};
    g_autoptr (DryNestProblem) problem =
        dry_nest_problem_new (stock, CASES[i].on_hand ? 2 : 1, pieces, CASES[i].n, 0, NULL);
    g_autoptr (DryNestState) state = dry_nest_state_new (problem);
    dry_nest_search (problem, 0, 2000, FALSE, state);
    guint64 spent = 7;
    guint bound = dry_nest_bound_columns (problem, 1, state, EFFORT, NULL, &spent);
    if (bound != 1)
      g_error ("%s: %u sheets are claimed", CASES[i].what, bound);
  }
}

/* Strips thinner than a cell among whole pieces: they are left out, the others are still told. */
static void
test_columns_some_thin (void)
{
  DryPiece pieces[40];
  DryStock stock = {"a", 48 * IN, 96 * IN + 1, 0, -1};
  for (guint i = 0; i < G_N_ELEMENTS (pieces); i++)
    pieces[i] =
        i < 30 ? (DryPiece){"p", 30 * IN, 30 * IN, TRUE} : (DryPiece){"p", IN / 3, 40 * IN, TRUE};
  g_autoptr (DryNestProblem) problem =
      dry_nest_problem_new (&stock, 1, pieces, G_N_ELEMENTS (pieces), 0, NULL);
  g_autoptr (DryNestState) state = dry_nest_state_new (problem);
  dry_nest_search (problem, 0, 50000, FALSE, state);
  guint64 spent;
  guint bound = dry_nest_bound_columns (problem, 0, state, EFFORT, NULL, &spent);
  g_assert_cmpuint (bound, >=, 8);
  g_assert_cmpuint (bound, <=, 10);
}

/* A proof says what was known where it cannot begin, is cut short, or the list is too long for it;
 * with time it says the truth: five pieces of 30 in go on five sheets of 48 in. */
static void
test_prove (void)
{
  static const struct {
    guint n, least;
    guint64 effort;
    guint proven;
  } CASES[] = {{0, 0, EFFORT, 0}, {5, 2, 0, 2},       {5, 2, 1, 2},     {5, 2, 40, 2},
               {5, 2, EFFORT, 5}, {61, 9, EFFORT, 9}, {8, 1, EFFORT, 8}};
  for (guint i = 0; i < G_N_ELEMENTS (CASES); i++) {
    g_autofree DryPiece *pieces = g_new0 (DryPiece, CASES[i].n + 1);
    DryStock stock = {"a", 48 * IN, 96 * IN, 500, -1};
    for (guint k = 0; k < CASES[i].n; k++)
      pieces[k] = (DryPiece){"p", 30 * IN, 60 * IN, FALSE};
    g_autoptr (DryNestProblem) problem =
        dry_nest_problem_new (&stock, 1, pieces, CASES[i].n, 0, NULL);
    DryNestProof proof = dry_nest_prove (problem, CASES[i].least, CASES[i].n, 500.0 * CASES[i].n,
                                         CASES[i].effort, NULL);
    g_assert_cmpuint (proof.sheets, >=, CASES[i].least);
    g_assert_cmpuint (proof.sheets, <=, CASES[i].n);
    if (CASES[i].effort == EFFORT || CASES[i].effort == 0)
      g_assert_cmpuint (proof.sheets, ==, CASES[i].proven);
  }
}

/* A proof that is stopped proves nothing it did not know. */
static void
test_prove_cancelled (void)
{
  DryPiece pieces[12];
  DryStock stock = {"a", 48 * IN, 96 * IN, 500, -1};
  g_autoptr (GCancellable) cancellable = g_cancellable_new ();
  g_cancellable_cancel (cancellable);
  for (guint i = 0; i < G_N_ELEMENTS (pieces); i++)
    pieces[i] = (DryPiece){"p", 30 * IN, 60 * IN, FALSE};
  g_autoptr (DryNestProblem) problem =
      dry_nest_problem_new (&stock, 1, pieces, G_N_ELEMENTS (pieces), 0, NULL);
  DryNestProof proof = dry_nest_prove (problem, 4, 12, 6000, EFFORT, cancellable);
  g_assert_cmpuint (proof.sheets, ==, 4);
  g_assert_false (proof.is_cheapest);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/cutting/bounds/never-above", test_never_above);
  g_test_add_func ("/cutting/bounds/says-more", test_says_more);
  g_test_add_func ("/cutting/bounds/stopped", test_stopped);
  g_test_add_func ("/cutting/bounds/columns-silent", test_columns_silent);
  g_test_add_func ("/cutting/bounds/columns-some-thin", test_columns_some_thin);
  g_test_add_func ("/cutting/bounds/prove", test_prove);
  g_test_add_func ("/cutting/bounds/prove-cancelled", test_prove_cancelled);
  return g_test_run ();
}
