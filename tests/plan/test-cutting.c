/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Tests of the nesting engine: small known optima, random lists against an independent checker, and
 * the lower bound against brute force. */
#include <string.h>

#include "layout-checker.h"

#define IN DRY_INCH

static const DryStock STOCK_3X5[] = {{"3x5", 36 * IN, 60 * IN, 0, -1}};
static const DryStock STOCK_4X8[] = {{"4x8", 48 * IN, 96 * IN, 0, -1}};
static const DryStock STOCK_BOTH[] = {{"3x5", 36 * IN, 60 * IN, 1200, -1},
                                      {"4x8", 48 * IN, 96 * IN, 3000, -1}};

static const DryCutting *
compute_checked (DryArena *arena, const DryStock *stock, guint n_stock, const DryPiece *pieces,
                 guint n_pieces, DryLength kerf, guint effort)
{
  const DryCutting *cutting =
      dry_cutting_compute (arena, stock, n_stock, pieces, n_pieces, kerf, effort);
  g_autofree char *problem = dry_check_cutting (cutting, kerf);
  g_assert_cmpstr (problem, ==, NULL);
  return cutting;
}

/* --- known optima --- */

typedef struct {
  const char *what;
  const DryStock *stock;
  guint n_stock;
  DryLength kerf;
  guint n_sheets;
  gboolean proven;
  DryPiece pieces[14];
} Known;

static const Known KNOWN[] = {
    {"nothing", STOCK_3X5, 1, 0, 0, TRUE, {{NULL}}},
    {"a whole sheet", STOCK_3X5, 1, IN / 8, 1, TRUE, {{"a", 36 * IN, 60 * IN, FALSE}}},
    {"a whole sheet, turned", STOCK_3X5, 1, IN / 8, 1, TRUE, {{"a", 60 * IN, 36 * IN, TRUE}}},
    {"two halves without kerf",
     STOCK_3X5,
     1,
     0,
     1,
     TRUE,
     {{"a", 36 * IN, 30 * IN, FALSE}, {"b", 36 * IN, 30 * IN, FALSE}}},
    {"two halves, the kerf parts them",
     STOCK_3X5,
     1,
     IN / 8,
     2,
     TRUE,
     {{"a", 36 * IN, 30 * IN, FALSE}, {"b", 36 * IN, 30 * IN, FALSE}}},
    {"three across 4x8",
     STOCK_4X8,
     1,
     0,
     1,
     TRUE,
     {{"a", 48 * IN, 32 * IN, TRUE}, {"b", 32 * IN, 48 * IN, TRUE}, {"c", 48 * IN, 32 * IN, TRUE}}},
    /* An alcove in halves: 10944 in2 of 4608 in2 sheets, so three at least. */
    {"an alcove in rows",
     STOCK_4X8,
     1,
     0,
     3,
     TRUE,
     {{"b1", 60 * IN, 48 * IN, TRUE},
      {"b2", 60 * IN, 32 * IN, TRUE},
      {"a1", 32 * IN, 48 * IN, TRUE},
      {"a2", 32 * IN, 48 * IN, TRUE},
      {"c1", 32 * IN, 48 * IN, TRUE},
      {"c2", 32 * IN, 48 * IN, TRUE}}},
    /* More than half of the sheet both ways: every one needs its own, area says two. */
    {"loners",
     STOCK_3X5,
     1,
     0,
     3,
     TRUE,
     {{"a", 20 * IN, 31 * IN, FALSE},
      {"b", 20 * IN, 31 * IN, FALSE},
      {"c", 20 * IN, 31 * IN, FALSE}}},
    {"fewest before cheapest: one 4x8, not two 3x5",
     STOCK_BOTH,
     2,
     0,
     1,
     TRUE,
     {{"a", 36 * IN, 48 * IN, TRUE}, {"b", 48 * IN, 48 * IN, TRUE}}},
    {"cheaper of equal number: the 3x5",
     STOCK_BOTH,
     2,
     0,
     1,
     TRUE,
     {{"a", 36 * IN, 30 * IN, TRUE}, {"b", 36 * IN, 30 * IN, TRUE}}},
};

static void
test_known (void)
{
  for (guint i = 0; i < G_N_ELEMENTS (KNOWN); i++) {
    const Known *k = &KNOWN[i];
    g_autoptr (DryArena) arena = dry_arena_new ();
    guint n = 0;
    while (n < G_N_ELEMENTS (k->pieces) && k->pieces[n].name != NULL)
      n++;
    const DryCutting *cutting =
        compute_checked (arena, k->stock, k->n_stock, k->pieces, n, k->kerf, 0);
    g_test_message ("%s: %u sheets, bound %u", k->what, cutting->n_sheets, cutting->lower_bound);
    g_assert_cmpuint (cutting->n_sheets, ==, k->n_sheets);
    g_assert_cmpint (cutting->proven, ==, k->proven);
    g_assert_cmpuint (cutting->n_unplaced, ==, 0);
  }
}

static void
test_price (void)
{
  g_autoptr (DryArena) arena = dry_arena_new ();
  const DryPiece pieces[] = {{"a", 36 * IN, 30 * IN, TRUE}, {"b", 36 * IN, 30 * IN, TRUE}};
  const DryCutting *cutting = compute_checked (arena, STOCK_BOTH, 2, pieces, 2, 0, 0);
  g_assert_cmpuint (cutting->sheets[0].stock, ==, 0);
}

static void
test_too_large (void)
{
  g_autoptr (DryArena) arena = dry_arena_new ();
  const DryPiece pieces[] = {
      {"wide", 61 * IN, 10 * IN, TRUE}, {"ok", 10 * IN, 10 * IN, TRUE}, {"flat", 0, IN, TRUE}};
  const DryCutting *cutting = compute_checked (arena, STOCK_3X5, 1, pieces, 3, 0, 0);
  g_assert_cmpuint (cutting->n_sheets, ==, 1);
  g_assert_cmpuint (cutting->n_unplaced, ==, 2);
  g_assert_cmpuint (cutting->unplaced[0], ==, 0);
  g_assert_cmpuint (cutting->unplaced[1], ==, 2);
  cutting = compute_checked (arena, NULL, 0, pieces, 3, 0, 0);
  g_assert_cmpuint (cutting->n_unplaced, ==, 3);
}

static void
test_short_of_sheets (void)
{
  g_autoptr (DryArena) arena = dry_arena_new ();
  const DryStock stock[] = {{"3x5", 36 * IN, 60 * IN, 0, 1}};
  const DryPiece pieces[] = {{"a", 36 * IN, 60 * IN, TRUE}, {"b", 36 * IN, 60 * IN, TRUE}};
  const DryCutting *cutting = compute_checked (arena, stock, 1, pieces, 2, 0, 0);
  g_assert_cmpuint (cutting->n_sheets, ==, 1);
  g_assert_cmpuint (cutting->n_unplaced, ==, 1);
  g_assert_false (cutting->proven);
}

static void
test_offcuts (void)
{
  g_autoptr (DryArena) arena = dry_arena_new ();
  /* 36x60 less 31x40, kerf 1/8: a strip 4-7/8 wide is no offcut, 36 x 19-7/8 is one. */
  const DryPiece pieces[] = {{"a", 31 * IN, 40 * IN, FALSE}};
  const DryCutting *cutting = compute_checked (arena, STOCK_3X5, 1, pieces, 1, IN / 8, 0);
  g_assert_cmpuint (cutting->sheets[0].n_offcuts, ==, 1);
  const DryRect *offcut = &cutting->sheets[0].offcuts[0];
  g_assert_cmpint (dry_rect_width (*offcut), ==, 36 * IN);
  g_assert_cmpint (dry_rect_height (*offcut), ==, 20 * IN - IN / 8);
  g_assert_cmpfloat_with_epsilon (cutting->waste, 1 - 31.0 * 40 / (36 * 60), 1e-12);
}

/* --- random lists --- */

typedef struct {
  DryStock stock[3];
  guint n_stock;
  DryPiece pieces[60];
  guint n_pieces;
  DryLength kerf;
} List;

static void
make_list (guint32 seed, List *list)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (seed);
  static const DryLength SIZES[][2] = {{36, 60}, {48, 96}, {48, 48}, {24, 48}, {32, 48}};
  list->n_stock = (guint) g_rand_int_range (rand, 1, 4);
  for (guint i = 0; i < list->n_stock; i++) {
    guint size = (guint) g_rand_int_range (rand, 0, G_N_ELEMENTS (SIZES));
    list->stock[i] =
        (DryStock){"s", SIZES[size][0] * IN, SIZES[size][1] * IN,
                   g_rand_boolean (rand) ? g_rand_int_range (rand, 500, 4000) : 0,
                   g_rand_int_range (rand, 0, 4) == 0 ? g_rand_int_range (rand, 0, 4) : -1};
  }
  list->n_pieces = (guint) g_rand_int_range (rand, 0, g_rand_boolean (rand) ? 12 : 60);
  gboolean whole = g_rand_boolean (rand);
  for (guint i = 0; i < list->n_pieces; i++) {
    DryLength step = whole ? 4 * IN : DRY_INCH_64;
    gint most = whole ? 13 : 52 * 64;
    list->pieces[i] =
        (DryPiece){"p", g_rand_int_range (rand, 1, most) * step,
                   g_rand_int_range (rand, 1, most) * step, g_rand_int_range (rand, 0, 4) != 0};
  }
  list->kerf = g_rand_boolean (rand) ? 0 : g_rand_int_range (rand, 1, 17) * DRY_INCH_64;
}

static gboolean
same_cutting (const DryCutting *a, const DryCutting *b)
{
  if (a->n_sheets != b->n_sheets || a->lower_bound != b->lower_bound ||
      a->n_unplaced != b->n_unplaced)
    return FALSE;
  for (guint i = 0; i < a->n_sheets; i++) {
    const DrySheetLayout *left = &a->sheets[i], *right = &b->sheets[i];
    if (left->stock != right->stock || left->n_placements != right->n_placements)
      return FALSE;
    for (guint j = 0; j < left->n_placements; j++)
      if (left->placements[j].piece != right->placements[j].piece ||
          left->placements[j].turned != right->placements[j].turned ||
          memcmp (&left->placements[j].rect, &right->placements[j].rect, sizeof (DryRect)) != 0)
        return FALSE;
  }
  return TRUE;
}

static void
test_random (void)
{
  guint sheets = 0, bound = 0, proven = 0;
  const guint n_lists = g_test_quick () ? 400 : 4000;
  for (guint32 seed = 1; seed <= n_lists; seed++) {
    List list;
    make_list (seed, &list);
    g_autoptr (DryArena) arena = dry_arena_new ();
    const DryCutting *a =
        compute_checked (arena, list.stock, list.n_stock, list.pieces, list.n_pieces, list.kerf, 0);
    if (seed % 8 == 0)
      g_assert_true (
          same_cutting (a, dry_cutting_compute (arena, list.stock, list.n_stock, list.pieces,
                                                list.n_pieces, list.kerf, 0)));
    sheets += a->n_sheets;
    bound += a->lower_bound;
    proven += a->proven;
  }
  g_test_message ("%u sheets, bound %u, %u of %u proven", sheets, bound, proven, n_lists);
}

/* More effort never ends worse: the search keeps its best. */
static void
test_effort (void)
{
  for (guint32 seed = 1; seed <= 40; seed++) {
    List list;
    make_list (seed, &list);
    g_autoptr (DryArena) arena = dry_arena_new ();
    const DryCutting *little =
        compute_checked (arena, list.stock, list.n_stock, list.pieces, list.n_pieces, list.kerf, 1);
    const DryCutting *much = compute_checked (arena, list.stock, list.n_stock, list.pieces,
                                              list.n_pieces, list.kerf, 200000);
    g_assert_true (much->n_unplaced < little->n_unplaced ||
                   (much->n_unplaced == little->n_unplaced && much->n_sheets <= little->n_sheets));
  }
}

/* --- brute force --- */

/* Can these pieces (bits of `set`) be cut from a rectangle w x h? All sizes in small whole units,
 * kerf zero: tries every first cut and every share of the pieces between the two parts. */
static gboolean
can_cut (const gint (*size)[2], guint set, gint w, gint h, gboolean turn)
{
  if (set == 0)
    return TRUE;
  gint area = 0;
  for (guint i = 0; i < 8; i++)
    if (set & (1u << i))
      area += size[i][0] * size[i][1];
  if (area > w * h)
    return FALSE;
  if ((set & (set - 1)) == 0) {
    guint i = (guint) g_bit_nth_lsf (set, -1);
    return (size[i][0] <= w && size[i][1] <= h) || (turn && size[i][1] <= w && size[i][0] <= h);
  }
  guint low = set & (~set + 1); /* its lowest piece stays in the first part, by symmetry */
  for (guint part = (set - 1) & set; part > 0; part = (part - 1) & set) {
    if (!(part & low))
      continue;
    for (gint x = 1; x < w; x++)
      if (can_cut (size, part, x, h, turn) && can_cut (size, set & ~part, w - x, h, turn))
        return TRUE;
    for (gint y = 1; y < h; y++)
      if (can_cut (size, part, w, y, turn) && can_cut (size, set & ~part, w, h - y, turn))
        return TRUE;
  }
  return FALSE;
}

static guint
find_fewest (const gint (*size)[2], guint n, gint w, gint h, gboolean turn)
{
  guint fewest[32];
  gboolean fits[32];
  for (guint set = 0; set < (1u << n); set++)
    fits[set] = can_cut (size, set, w, h, turn);
  fewest[0] = 0;
  for (guint set = 1; set < (1u << n); set++) {
    fewest[set] = n + 1;
    for (guint part = set; part > 0; part = (part - 1) & set)
      if (fits[part])
        fewest[set] = MIN (fewest[set], 1 + fewest[set & ~part]);
  }
  return fewest[(1u << n) - 1];
}

static void
test_brute_force (void)
{
  guint same = 0, total = 0;
  for (guint32 seed = 1; seed <= 300; seed++) {
    g_autoptr (GRand) rand = g_rand_new_with_seed (seed);
    gint w = g_rand_int_range (rand, 4, 7), h = g_rand_int_range (rand, 4, 9);
    guint n = (guint) g_rand_int_range (rand, 2, 6);
    gboolean turn = g_rand_boolean (rand);
    gint size[8][2];
    DryPiece pieces[8];
    for (guint i = 0; i < n; i++) {
      size[i][0] = g_rand_int_range (rand, 1, w + 1);
      size[i][1] = g_rand_int_range (rand, 1, h + 1);
      pieces[i] = (DryPiece){"p", size[i][0] * IN, size[i][1] * IN, turn};
    }
    DryStock stock = {"s", w * IN, h * IN, 0, -1};
    g_autoptr (DryArena) arena = dry_arena_new ();
    const DryCutting *cutting = compute_checked (arena, &stock, 1, pieces, n, 0, 0);
    guint fewest = find_fewest ((const gint (*)[2]) size, n, w, h, turn);
    g_assert_cmpuint (cutting->lower_bound, <=, fewest);
    g_assert_cmpuint (cutting->n_sheets, ==, fewest);
    same += cutting->lower_bound == fewest;
    total++;
  }
  g_test_message ("bound met the optimum in %u of %u", same, total);
}

/* --- sheets cut up at random: the optimum is known --- */

typedef struct {
  DryPiece pieces[400];
  guint n;
  gboolean coarse; /* lengths of a saw, not of a computer */
} CutUp;

/* Cuts the rectangle in two until its parts are small, so that they fill it and its kerfs exactly.
 */
static void
cut_up (GRand *rand, CutUp *self, DryLength w, DryLength h, DryLength kerf, guint depth)
{
  gboolean vertical = w > h;
  DryLength whole = vertical ? w : h, least = 4 * IN;
  if (depth == 0 || whole <= 2 * least + kerf || self->n + 2 > G_N_ELEMENTS (self->pieces)) {
    self->pieces[self->n++] = (DryPiece){"p", w, h, g_rand_int_range (rand, 0, 4) != 0};
    return;
  }
  DryLength at = least + (DryLength) (g_rand_double (rand) * (double) (whole - 2 * least - kerf));
  if (self->coarse)
    at -= at % DRY_INCH_64;
  cut_up (rand, self, vertical ? at : w, vertical ? h : at, kerf, depth - 1);
  cut_up (rand, self, vertical ? w - at - kerf : w, vertical ? h : h - at - kerf, kerf, depth - 1);
}

static void
test_bound_on_cut_up_sheets (void)
{
  guint sheets = 0, live = 0, best = 0, bound = 0;
  for (guint32 seed = 1; seed <= 60; seed++) {
    g_autoptr (GRand) rand = g_rand_new_with_seed (seed);
    CutUp list = {.coarse = seed % 4 != 0};
    DryLength kerf = g_rand_boolean (rand) ? 0 : IN / 8;
    guint n_sheets = (guint) g_rand_int_range (rand, 1, 7);
    for (guint i = 0; i < n_sheets; i++)
      cut_up (rand, &list, 48 * IN, 96 * IN, kerf, (guint) g_rand_int_range (rand, 0, 5));
    g_autoptr (DryArena) arena = dry_arena_new ();
    const DryCutting *quick = compute_checked (arena, STOCK_4X8, 1, list.pieces, list.n, kerf, 0);
    const DryCutting *improved =
        dry_cutting_improve (arena, STOCK_4X8, 1, list.pieces, list.n, kerf, 4000000, 1, NULL);
    g_autofree char *problem = dry_check_cutting (improved, kerf);
    g_assert_cmpstr (problem, ==, NULL);
    g_assert_cmpuint (quick->lower_bound, <=, n_sheets);
    g_assert_cmpuint (improved->lower_bound, <=, n_sheets);
    g_assert_cmpuint (improved->lower_bound, >=, quick->lower_bound);
    g_assert_cmpuint (improved->n_sheets, <=, quick->n_sheets);
    sheets += n_sheets;
    live += quick->n_sheets;
    best += improved->n_sheets;
    bound += improved->lower_bound;
  }
  g_test_message ("%u sheets cut up, %u live, %u improved, bound %u", sheets, live, best, bound);
}

/* --- improving --- */

static void
test_improve (void)
{
  for (guint32 seed = 1; seed <= (g_test_quick () ? 60 : 600); seed++) {
    List list;
    make_list (seed, &list);
    g_autoptr (DryArena) arena = dry_arena_new ();
    const DryCutting *live =
        compute_checked (arena, list.stock, list.n_stock, list.pieces, list.n_pieces, list.kerf, 0);
    const DryCutting *best[2];
    for (guint i = 0; i < 2; i++)
      best[i] = dry_cutting_improve (arena, list.stock, list.n_stock, list.pieces, list.n_pieces,
                                     list.kerf, 1000000, 1 + seed % 3, NULL);
    g_autofree char *problem = dry_check_cutting (best[0], list.kerf);
    g_assert_cmpstr (problem, ==, NULL);
    g_assert_true (same_cutting (best[0], best[1]));
    g_assert_true (best[0]->n_unplaced < live->n_unplaced ||
                   (best[0]->n_unplaced == live->n_unplaced &&
                    (best[0]->n_unplaced > 0 || best[0]->n_bought <= live->n_bought)));
    g_assert_cmpuint (best[0]->lower_bound, >=, live->lower_bound);
  }
}

/* Cancelled before it begins, it gives the live answer. */
static void
test_cancel (void)
{
  g_autoptr (GCancellable) cancellable = g_cancellable_new ();
  g_cancellable_cancel (cancellable);
  List list;
  make_list (7, &list);
  g_autoptr (DryArena) arena = dry_arena_new ();
  const DryCutting *live =
      compute_checked (arena, list.stock, list.n_stock, list.pieces, list.n_pieces, list.kerf, 0);
  const DryCutting *same =
      dry_cutting_improve (arena, list.stock, list.n_stock, list.pieces, list.n_pieces, list.kerf,
                           G_MAXUINT64, 2, cancellable);
  g_assert_cmpuint (same->n_sheets, ==, live->n_sheets);
}

static void
test_on_hand (void)
{
  const DryStock stock[] = {{"4x8", 48 * IN, 96 * IN, 3000, -1},
                            {"left over", 30 * IN, 40 * IN, 0, 2, TRUE}};
  const DryPiece pieces[] = {
      {"a", 28 * IN, 39 * IN, TRUE}, {"b", 30 * IN, 40 * IN, FALSE}, {"c", 48 * IN, 90 * IN, TRUE}};
  for (guint n = 0; n <= 3; n++) {
    g_autoptr (DryArena) arena = dry_arena_new ();
    const DryCutting *cutting = compute_checked (arena, stock, 2, pieces, n, IN / 8, 0);
    g_assert_cmpuint (cutting->n_sheets, ==, n);
    g_assert_cmpuint (cutting->n_bought, ==, n == 3);
    g_assert_cmpint (cutting->cost, ==, n == 3 ? 3000 : 0);
    g_assert_true (cutting->proven);
  }
}

/* Stock that is none is passed over; of sheets of one size the cheaper is bought, of equal ones the
 * first; a piece of no size is told as not placed. */
static void
test_odd_stock (void)
{
  static const struct {
    const char *what;
    DryStock stock[3];
    const char *cut; /* the sheet the piece of 30 x 60 in comes from; NULL: from none */
  } CASES[] = {
      {"no width", {{"a", 0, 96 * IN, 1, -1}, {"b", 48 * IN, 96 * IN, 9, -1}}, "b"},
      {"no height", {{"a", 48 * IN, 0, 1, -1}, {"b", 48 * IN, 96 * IN, 9, -1}}, "b"},
      {"sold out", {{"a", 48 * IN, 96 * IN, 1, 0}, {"b", 48 * IN, 96 * IN, 9, -1}}, "b"},
      {"none on hand", {{"a", 48 * IN, 96 * IN, 0, 0, TRUE}, {"b", 48 * IN, 96 * IN, 9, -1}}, "b"},
      {"any number on hand",
       {{"a", 48 * IN, 96 * IN, 0, -1, TRUE}, {"b", 48 * IN, 96 * IN, 9, -1}},
       "b"},
      {"on hand first", {{"a", 48 * IN, 96 * IN, 9, -1}, {"b", 48 * IN, 96 * IN, 0, 1, TRUE}}, "b"},
      {"cheaper", {{"a", 48 * IN, 96 * IN, 9, -1}, {"b", 48 * IN, 96 * IN, 8, -1}}, "b"},
      {"cheaper first", {{"a", 48 * IN, 96 * IN, 8, -1}, {"b", 48 * IN, 96 * IN, 9, -1}}, "a"},
      {"alike", {{"a", 48 * IN, 96 * IN, 9, -1}, {"b", 48 * IN, 96 * IN, 9, -1}}, "a"},
      {"too low", {{"a", 48 * IN, 59 * IN, 9, -1}, {"b", 29 * IN, 96 * IN, 9, -1}}, NULL},
  };
  for (guint i = 0; i < G_N_ELEMENTS (CASES); i++) {
    g_autoptr (DryArena) arena = dry_arena_new ();
    const DryPiece pieces[] = {{"p", 30 * IN, 60 * IN, FALSE},
                               {"nothing", 0, 60 * IN, FALSE},
                               {"flat", 30 * IN, 0, FALSE}};
    const DryCutting *cutting = dry_cutting_compute (arena, CASES[i].stock, 2, pieces, 3, 0, 0);
    const char *cut = cutting->n_sheets > 0 ? CASES[i].stock[cutting->sheets[0].stock].id : NULL;
    if (g_strcmp0 (cut, CASES[i].cut) != 0)
      g_error ("%s: cut from %s", CASES[i].what, cut ? cut : "nothing");
    g_assert_cmpuint (cutting->n_unplaced, ==, CASES[i].cut ? 2 : 3);
  }
}

/* A search with next to no effort, and one with more than it needs: never worse than the live
 * answer, never below the bound, and every piece placed. */
static void
test_improve_efforts (void)
{
  static const guint64 EFFORTS[] = {1, 3, 4, 50, 1000, 200000, G_GUINT64_CONSTANT (400000000)};
  DryStock stock[] = {{"a", 48 * IN, 96 * IN, 9600, -1}, {"b", 36 * IN, 60 * IN, 4600, -1}};
  DryPiece pieces[30];
  for (guint i = 0; i < G_N_ELEMENTS (pieces); i++)
    pieces[i] = (DryPiece){"p", 30 * IN, 30 * IN, TRUE};
  for (guint kinds = 1; kinds <= 2; kinds++)
    for (guint i = 0; i < G_N_ELEMENTS (EFFORTS); i++) {
      g_autoptr (DryArena) arena = dry_arena_new ();
      const DryCutting *live =
          dry_cutting_compute (arena, stock, kinds, pieces, G_N_ELEMENTS (pieces), 0, 0);
      const DryCutting *cutting = dry_cutting_improve (
          arena, stock, kinds, pieces, G_N_ELEMENTS (pieces), 0, EFFORTS[i], 1, NULL);
      g_autofree char *wrong = dry_check_cutting (cutting, 0);
      g_assert_cmpstr (wrong, ==, NULL);
      g_assert_cmpuint (cutting->n_unplaced, ==, 0);
      g_assert_cmpuint (cutting->n_bought, <=, live->n_bought);
      g_assert_cmpuint (cutting->lower_bound, <=, cutting->n_bought);
      if (kinds == 1 && i + 1 == G_N_ELEMENTS (EFFORTS)) /* 3 on a sheet, which area denies */
        g_assert_true (cutting->proven);
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/plan/cutting/known", test_known);
  g_test_add_func ("/plan/cutting/price", test_price);
  g_test_add_func ("/plan/cutting/too-large", test_too_large);
  g_test_add_func ("/plan/cutting/short-of-sheets", test_short_of_sheets);
  g_test_add_func ("/plan/cutting/offcuts", test_offcuts);
  g_test_add_func ("/plan/cutting/random", test_random);
  g_test_add_func ("/plan/cutting/effort", test_effort);
  g_test_add_func ("/plan/cutting/brute-force", test_brute_force);
  g_test_add_func ("/plan/cutting/bound-on-cut-up-sheets", test_bound_on_cut_up_sheets);
  g_test_add_func ("/plan/cutting/improve", test_improve);
  g_test_add_func ("/plan/cutting/cancel", test_cancel);
  g_test_add_func ("/plan/cutting/on-hand", test_on_hand);
  g_test_add_func ("/plan/cutting/odd-stock", test_odd_stock);
  g_test_add_func ("/plan/cutting/improve-efforts", test_improve_efforts);
  return g_test_run ();
}
