/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The nesting engine against a solver that shares nothing with it: what one sheet can give is found
 * by trying every cut in whole units, and how few sheets hold all by GLPK's integer programming. */
#include <glpk.h>
#include <string.h>

#include "layout-checker.h"

#define MAX_PIECES 8
#define MAX_KINDS  3
#define MAX_SIDE   13
#define UNIT       DRY_INCH

typedef struct {
  gint n, n_kinds, kerf;
  gint size[MAX_PIECES][2];
  gboolean may_turn[MAX_PIECES];
  gint sheet[MAX_KINDS][2], count[MAX_KINDS], price[MAX_KINDS];
  gboolean on_hand[MAX_KINDS];
  gint8 known[1 << MAX_PIECES][MAX_SIDE + 1][MAX_SIDE + 1]; /* 0 not asked yet, 1 yes, -1 no */
} List;

static gboolean try_cuts (List *self, guint set, gint w, gint h);

/* Can the pieces of the set be cut from w x h? */
static gboolean
can_cut (List *self, guint set, gint w, gint h)
{
  if (set == 0)
    return TRUE;
  if (w <= 0 || h <= 0)
    return FALSE;
  gint8 *known = &self->known[set][w][h];
  if (*known == 0)
    *known = try_cuts (self, set, w, h) ? 1 : -1;
  return *known > 0;
}

static gboolean
try_cuts (List *self, guint set, gint w, gint h)
{
  if ((set & (set - 1)) == 0) {
    const gint *size = self->size[g_bit_nth_lsf (set, -1)];
    gboolean turn = self->may_turn[g_bit_nth_lsf (set, -1)];
    return (size[0] <= w && size[1] <= h) || (turn && size[1] <= w && size[0] <= h);
  }
  for (guint part = (set - 1) & set; part > 0; part = (part - 1) & set) {
    for (gint x = 1; x < w; x++)
      if (can_cut (self, part, x, h) && can_cut (self, set ^ part, w - x - self->kerf, h))
        return TRUE;
    for (gint y = 1; y < h; y++)
      if (can_cut (self, part, w, y) && can_cut (self, set ^ part, w, h - y - self->kerf))
        return TRUE;
  }
  return FALSE;
}

/* --- GLPK --- */

typedef struct {
  glp_prob *lp;
  GArray *rows;    /* gint, from 1 as GLPK wants it */
  GArray *columns; /* gint */
  GArray *values;  /* double */
  GArray *kinds;   /* gint: of each column */
} Model;

static void
add_entry (Model *self, gint row, gint column)
{
  double one = 1;
  g_array_append_val (self->rows, row);
  g_array_append_val (self->columns, column);
  g_array_append_val (self->values, one);
}

/* Rows: each piece at least once, each kind at most as often as there is, and the number bought. A
 * column is one sheet cut into one set of pieces. */
static void
build_model (Model *self, List *list)
{
  self->lp = glp_create_prob ();
  self->rows = g_array_new (FALSE, TRUE, sizeof (gint));
  self->columns = g_array_new (FALSE, TRUE, sizeof (gint));
  self->values = g_array_new (FALSE, TRUE, sizeof (double));
  self->kinds = g_array_new (FALSE, TRUE, sizeof (gint));
  g_array_set_size (self->rows, 1);
  g_array_set_size (self->columns, 1);
  g_array_set_size (self->values, 1);
  glp_add_rows (self->lp, list->n + list->n_kinds + 1);
  for (gint i = 0; i < list->n; i++)
    glp_set_row_bnds (self->lp, i + 1, GLP_LO, 1, 0);
  for (gint k = 0; k < list->n_kinds; k++)
    glp_set_row_bnds (self->lp, list->n + k + 1, list->count[k] < 0 ? GLP_FR : GLP_UP, 0,
                      list->count[k]);
  glp_set_row_bnds (self->lp, list->n + list->n_kinds + 1, GLP_FR, 0, 0);
  for (gint k = 0; k < list->n_kinds; k++)
    for (guint set = 1; set < 1u << list->n; set++) {
      if (!can_cut (list, set, list->sheet[k][0], list->sheet[k][1]))
        continue;
      gint column = glp_add_cols (self->lp, 1);
      glp_set_col_kind (self->lp, column, GLP_BV);
      g_array_append_val (self->kinds, k);
      for (gint i = 0; i < list->n; i++)
        if (set & (1u << i))
          add_entry (self, i + 1, column);
      add_entry (self, list->n + k + 1, column);
      if (!list->on_hand[k])
        add_entry (self, list->n + list->n_kinds + 1, column);
    }
  glp_load_matrix (self->lp, (gint) self->rows->len - 1, (const gint *) self->rows->data,
                   (const gint *) self->columns->data, (const double *) self->values->data);
}

static void
free_model (Model *self)
{
  glp_delete_prob (self->lp);
  g_array_unref (self->rows);
  g_array_unref (self->columns);
  g_array_unref (self->values);
  g_array_unref (self->kinds);
}

/* -1 when there is no answer. */
static gint
solve (Model *self)
{
  glp_iocp options;
  glp_init_iocp (&options);
  options.presolve = GLP_ON;
  options.msg_lev = GLP_MSG_OFF;
  gint status = glp_intopt (self->lp, &options);
  if (status == GLP_ENOPFS || status == GLP_ENODFS || glp_mip_status (self->lp) == GLP_NOFEAS)
    return -1;
  g_assert_cmpint (status, ==, 0);
  g_assert_cmpint (glp_mip_status (self->lp), ==, GLP_OPT);
  return (gint) (glp_mip_obj_val (self->lp) + 0.5);
}

/* The fewest bought, and of those the cheapest. */
static gint
find_optimum (List *list, gint *cost)
{
  Model model;
  build_model (&model, list);
  for (guint c = 0; c < model.kinds->len; c++)
    glp_set_obj_coef (model.lp, (gint) c + 1, !list->on_hand[g_array_index (model.kinds, gint, c)]);
  gint fewest = solve (&model);
  if (fewest >= 0) {
    glp_set_row_bnds (model.lp, list->n + list->n_kinds + 1, GLP_UP, 0, fewest);
    for (guint c = 0; c < model.kinds->len; c++) {
      gint kind = g_array_index (model.kinds, gint, c);
      glp_set_obj_coef (model.lp, (gint) c + 1, list->on_hand[kind] ? 0 : list->price[kind]);
    }
    *cost = solve (&model);
  }
  free_model (&model);
  return fewest;
}

/* --- lists --- */

static void
make_list (guint32 seed, List *list)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (seed);
  memset (list, 0, sizeof *list);
  list->n = g_rand_int_range (rand, 2, MAX_PIECES + 1);
  list->n_kinds = g_rand_int_range (rand, 1, MAX_KINDS + 1);
  list->kerf = g_rand_int_range (rand, 0, 2);
  gint longest = 0;
  for (gint k = 0; k < list->n_kinds; k++) {
    list->sheet[k][0] = g_rand_int_range (rand, 5, 10);
    list->sheet[k][1] = g_rand_int_range (rand, 5, MAX_SIDE + 1);
    list->price[k] = g_rand_int_range (rand, 5, 12) * list->sheet[k][0] * list->sheet[k][1];
    list->count[k] = g_rand_int_range (rand, 0, 3) == 0 ? g_rand_int_range (rand, 1, 3) : -1;
    list->on_hand[k] = k > 0 && list->count[k] > 0 && g_rand_boolean (rand);
    longest = k == 0 ? list->sheet[0][0] : longest;
  }
  gboolean large = g_rand_boolean (rand);
  for (gint i = 0; i < list->n; i++) {
    list->size[i][0] = g_rand_int_range (rand, large ? 2 : 1, longest + 1);
    list->size[i][1] = g_rand_int_range (rand, large ? 2 : 1, list->sheet[0][1] + 1);
    list->may_turn[i] = g_rand_int_range (rand, 0, 3) != 0;
  }
}

static void
convert (const List *list, DryStock *stock, DryPiece *pieces)
{
  for (gint k = 0; k < list->n_kinds; k++)
    stock[k] = (DryStock){"s",
                          list->sheet[k][0] * UNIT,
                          list->sheet[k][1] * UNIT,
                          list->on_hand[k] ? 0 : list->price[k],
                          list->count[k],
                          list->on_hand[k]};
  for (gint i = 0; i < list->n; i++)
    pieces[i] =
        (DryPiece){"p", list->size[i][0] * UNIT, list->size[i][1] * UNIT, list->may_turn[i]};
}

static const DryCutting *
check (const DryCutting *cutting, DryLength kerf)
{
  g_autofree char *problem = dry_check_cutting (cutting, kerf);
  g_assert_cmpstr (problem, ==, NULL);
  return cutting;
}

static gboolean
is_limited (const List *list)
{
  for (gint k = 0; k < list->n_kinds; k++)
    if (!list->on_hand[k] && list->count[k] >= 0)
      return TRUE;
  return FALSE;
}

static void
test_same_optimum (void)
{
  guint live = 0, n_proven = 0, n_solved = 0, n_lists = g_test_quick () ? 150 : 2000;
  g_autofree List *list = g_new (List, 1);
  for (guint32 seed = 1; seed <= n_lists; seed++) {
    make_list (seed, list);
    DryStock stock[MAX_KINDS];
    DryPiece pieces[MAX_PIECES];
    convert (list, stock, pieces);
    gint cost = 0, fewest = find_optimum (list, &cost);
    DryLength kerf = list->kerf * UNIT;
    guint n_stock = (guint) list->n_kinds, n = (guint) list->n;
    g_autoptr (DryArena) arena = dry_arena_new ();
    const DryCutting *quick =
        check (dry_cutting_compute (arena, stock, n_stock, pieces, n, kerf, 0), kerf);
    const DryCutting *best = check (
        dry_cutting_improve (arena, stock, n_stock, pieces, n, kerf, 20000000, 1, NULL), kerf);
    g_test_message ("%u: %d sheets for %d by GLPK, %u for %" G_GINT64_FORMAT " here, bounds %u, %u",
                    seed, fewest, cost, best->n_bought, best->cost, quick->lower_bound,
                    best->lower_bound);
    if (fewest < 0) {
      g_assert_cmpuint (best->n_unplaced, >, 0);
      g_assert_false (best->proven);
      continue;
    }
    n_solved++;
    g_assert_cmpuint (best->n_unplaced, ==, 0);
    g_assert_cmpuint (best->n_bought, ==, fewest);
    g_assert_cmpint (best->cost, ==, cost);
    g_assert_cmpuint (best->lower_bound, <=, fewest);
    g_assert_cmpuint (quick->lower_bound, <=, fewest);
    /* The proof takes any number of each sheet that is for sale. */
    g_assert_true (best->proven || is_limited (list));
    n_proven += best->proven;
    live += quick->n_unplaced == 0 && quick->n_bought == (guint) fewest && quick->cost == cost;
  }
  g_test_message ("%u of %u proven, the live answer was the optimum in %u", n_proven, n_solved,
                  live);
  g_assert_cmpuint (n_solved, >, n_lists / 2);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/plan/cutting/same-optimum-as-glpk", test_same_optimum);
  return g_test_run ();
}
