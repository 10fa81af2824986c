/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The long search among layouts of seams, on faces that are nothing but lists of pieces: what is
 * given up for what, and the bound for any boards. It knows no wall. */
#include "plan/nest-layouts.h"

#include "layout-choice.h"

#define IN     DRY_INCH
#define EFFORT DRY_CUTTING_SECOND

static void
choose_on (LayoutChoice *self, guint least, guint64 effort, GCancellable *cancellable)
{
  dry_nest_choose_on (self->pointers, self->layouts, self->n, 0, least, effort, cancellable,
                      self->chosen);
}

/* --- what is given up for what --- */

static void
choose_of_two (LayoutChoice *self)
{
  choose_on (self, 1, EFFORT, NULL);
}

static void
test_one_face (void)
{
  layout_choice_check_ways (choose_of_two);
}

/* Where a price is not known money decides nothing: what is there stays. */
static void
test_unknown_price (void)
{
  static const DryStock STOCK[] = {{"4x8", 48 * IN, 96 * IN, 0, -1},
                                   {"3x5", 36 * IN, 60 * IN, 4600, -1}};
  static const LayoutWay WAYS[] = {{0, 9, {FULL (30)}}, {0, 9, {{"p", 30 * IN, 60 * IN, FALSE}}}};
  LayoutChoice choice = {0};
  layout_choice_add_face (&choice, STOCK, G_N_ELEMENTS (STOCK), WAYS, 2);
  choose_on (&choice, 1, EFFORT, NULL);
  g_assert_cmpuint (layout_choice_get_way (&choice, 0), ==, 0);
  layout_choice_clear (&choice);
}

/* --- several faces together --- */

/* Every face wide or, for more seam, narrow. All but one narrow do for nothing: only all together
 * come from one sheet. Two faces are tried in pairs, three are drawn. */
static void
test_only_together (void)
{
  static const DryStock STOCK = {"4x8", 48 * IN, 96 * IN, 0, -1};
  static const LayoutWay HALVES[] = {{0, 1, {FULL (30)}}, {0, 5, {FULL (24)}}};
  static const LayoutWay THIRDS[] = {{0, 1, {FULL (20)}}, {0, 5, {FULL (16)}}};
  for (guint n = 2; n <= 3; n++) {
    LayoutChoice choice = {0};
    for (guint i = 0; i < n; i++)
      layout_choice_add_face (&choice, &STOCK, 1, n == 2 ? HALVES : THIRDS, 2);
    choose_on (&choice, 1, EFFORT, NULL);
    for (guint i = 0; i < n; i++)
      g_assert_cmpuint (layout_choice_get_way (&choice, i), ==, 1);
    layout_choice_clear (&choice);
  }
}

/* What cannot be reached is not paid for: with the bound at two sheets, three faces are not drawn
 * from, and what is there stays. */
static void
test_bound_reached (void)
{
  static const DryStock STOCK = {"4x8", 48 * IN, 96 * IN, 0, -1};
  static const LayoutWay THIRDS[] = {{0, 1, {FULL (20)}}, {0, 5, {FULL (16)}}};
  LayoutChoice choice = {0};
  for (guint i = 0; i < 3; i++)
    layout_choice_add_face (&choice, &STOCK, 1, THIRDS, 2);
  choose_on (&choice, 2, EFFORT, NULL);
  for (guint i = 0; i < 3; i++)
    g_assert_cmpuint (layout_choice_get_way (&choice, i), ==, 0);
  layout_choice_clear (&choice);
}

/* Stopped or without effort the live choice stands; a small effort never makes it worse. */
static void
test_stopped (void)
{
  static const DryStock STOCK = {"4x8", 48 * IN, 96 * IN, 0, -1};
  static const LayoutWay HALVES[] = {{0, 1, {FULL (30)}}, {0, 5, {FULL (24)}}, {1, 0, {FULL (12)}}};
  static const guint64 EFFORTS[] = {0, 1, 1000, 62000, 70000, 130000};
  g_autoptr (GCancellable) cancelled = g_cancellable_new ();
  dry_nest_choose_on (NULL, NULL, 0, 0, 0, EFFORT, NULL, NULL); /* a room without walls to board */
  g_cancellable_cancel (cancelled);
  for (guint i = 0; i <= G_N_ELEMENTS (EFFORTS); i++) {
    gboolean whole = i < G_N_ELEMENTS (EFFORTS);
    LayoutChoice choice = {0};
    layout_choice_add_face (&choice, &STOCK, 1, HALVES, 3);
    layout_choice_add_face (&choice, &STOCK, 1, HALVES, 3);
    choose_on (&choice, 1, whole ? EFFORTS[i] : EFFORT, whole ? NULL : cancelled);
    g_assert_cmpuint (choice.chosen[0]->faults + choice.chosen[1]->faults, ==, 0);
    /* one narrow face alone is seam for nothing */
    g_assert_cmpuint (layout_choice_get_way (&choice, 0), ==, layout_choice_get_way (&choice, 1));
    if (!whole || EFFORTS[i] <= 1)
      g_assert_cmpuint (layout_choice_get_way (&choice, 0), ==, 0);
    layout_choice_clear (&choice);
  }
}

/* --- what only care finds --- */

#define MOST_PARTS 60

typedef struct {
  DryPiece pieces[MOST_PARTS];
  guint n;
} Puzzle;

static void
cut_up (GRand *rand, Puzzle *self, gint width, gint height, guint depth)
{
  gboolean upright = g_rand_boolean (rand);
  gint whole = upright ? width : height;
  if (depth == 0 || whole <= 12) {
    self->pieces[self->n++] = (DryPiece){"p", width * IN, height * IN, FALSE};
    return;
  }
  gint at = g_rand_int_range (rand, 6, whole - 5);
  cut_up (rand, self, upright ? at : width, upright ? height : at, depth - 1);
  cut_up (rand, self, upright ? width - at : width, upright ? height : height - at, depth - 1);
}

/* Whole sheets cut up: their pieces can be had from so many, which a quick look does not find. */
static void
make_puzzle (guint32 seed, guint n_sheets, guint depth, Puzzle *self)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (seed);
  self->n = 0;
  for (guint i = 0; i < n_sheets; i++)
    cut_up (rand, self, 48, 96, depth);
}

static void
add_puzzle (LayoutChoice *self, guint face, const Puzzle *puzzle, DryLength effort)
{
  DryLayout *layout = g_new0 (DryLayout, 1);
  *layout = (DryLayout){.effort = effort, .pieces = puzzle->pieces, .n_pieces = puzzle->n};
  g_ptr_array_add (self->layouts[face], layout);
}

static guint
count_with_care (const DryLayout *layout, const DryStock *stock)
{
  g_autoptr (DryArena) arena = dry_arena_new ();
  return dry_cutting_improve (arena, stock, 1, layout->pieces, layout->n_pieces, 0, EFFORT / 10, 1,
                              NULL)
      ->n_bought;
}

/* Many ways that might do with a sheet less than the live one, of which a quick nesting finds none:
 * those with the least board to cut are nested with care, and one that does is taken. */
static void
test_hopes (void)
{
  static const DryStock STOCK = {"4x8", 48 * IN, 96 * IN, 0, -1};
  static const LayoutWay LIVE = {0, 1, {FULL (40), FULL (40), FULL (40), FULL (40)}};
  static const guint32 SEEDS[] = {1,  3,  5,  19, 23, 25, 27, 31, 33, 35,
                                  37, 11, 13, 15, 17, 21, 29, 7,  9};
  Puzzle puzzles[G_N_ELEMENTS (SEEDS)];
  LayoutChoice choice = {0};
  layout_choice_add_face (&choice, &STOCK, 1, &LIVE, 1);
  for (guint i = 0; i < G_N_ELEMENTS (SEEDS); i++) {
    make_puzzle (SEEDS[i], 3, 4, &puzzles[i]);
    /* the later, the less board, but for two as large as the first */
    if (i % 8 != 5)
      puzzles[i].pieces[0].width -= (DryLength) i * IN / 8;
    add_puzzle (&choice, 0, &puzzles[i], 100 + i);
  }
  choose_on (&choice, 3, EFFORT, NULL);
  g_assert_cmpuint (layout_choice_get_way (&choice, 0), !=, 0);
  g_assert_cmpuint (count_with_care (choice.chosen[0], &STOCK), ==, 3);
  layout_choice_clear (&choice);
}

/* The live way itself is nested with care first: it does with two sheets, so that another of as
 * many but more seam is not taken for it. */
static void
test_live_with_care (void)
{
  static const DryStock STOCK = {"4x8", 48 * IN, 96 * IN, 0, -1};
  static const LayoutWay OTHER = {0, 900, {FULL (48), FULL (48)}};
  Puzzle puzzle;
  LayoutChoice choice = {0};
  make_puzzle (16, 2, 3, &puzzle);
  layout_choice_add_face (&choice, &STOCK, 1, &OTHER, 1);
  add_puzzle (&choice, 0, &puzzle, 100);
  choice.chosen[0] = g_ptr_array_index (choice.layouts[0], 1);
  choose_on (&choice, 2, EFFORT, NULL);
  g_assert_cmpuint (layout_choice_get_way (&choice, 0), ==, 1);
  layout_choice_clear (&choice);
}

/* With no time for care the same way gives place to the one that surely does with fewer. */
static void
test_live_without_care (void)
{
  static const DryStock STOCK = {"4x8", 48 * IN, 96 * IN, 0, -1};
  static const LayoutWay OTHER = {0, 900, {FULL (48), FULL (48), FULL (48)}};
  Puzzle puzzle;
  LayoutChoice choice = {0};
  make_puzzle (1, 3, 4, &puzzle);
  layout_choice_add_face (&choice, &STOCK, 1, &OTHER, 1);
  add_puzzle (&choice, 0, &puzzle, 100);
  choice.chosen[0] = g_ptr_array_index (choice.layouts[0], 1);
  choose_on (&choice, 3, 300000, NULL);
  g_assert_cmpuint (count_with_care (choice.chosen[0], &STOCK), ==, 3);
  layout_choice_clear (&choice);
}

/* --- no layout needs fewer --- */

typedef struct {
  const char *what;
  double width, height; /* of the face, in */
  double gap, kerf, min_piece;
  guint n_carriers;
  gboolean anywhere;
  gint on_hand; /* half sheets */
  guint least;
} Bound;

/* Sheets of 48 x 96 in. */
static const Bound BOUNDS[] = {
    {"nothing to board", 0, 0, 0, 0, 4, 0, FALSE, 0, 0},
    {"two sheets to the inch", 96, 96, 0, 0, 4, 2, FALSE, 0, 2},
    {"a little more than two", 97, 96, 0, 0, 4, 2, FALSE, 0, 3},
    {"two halves on hand", 97, 96, 0, 0, 4, 2, FALSE, 2, 2},
    {"more on hand than is wanted", 97, 96, 0, 0, 4, 2, FALSE, 9, 0},
    /* one seam on the only stud may take 1 in of 97: two sheets might just do */
    {"a gap on one stud", 97, 96, 1, 0, 96, 1, FALSE, 0, 2},
    /* and none where no seam can stand; a level one may take 1 in of 97 in height */
    {"no stud for a gap", 97, 96, 1, 0, 200, 0, FALSE, 0, 3},
    /* three upright seams at most, where five would do with two sheets */
    {"two of five studs at one place", 109, 96, 1, 0, 10, 5, FALSE, 0, 3},
    {"a kerf as wide as the gap", 97, 96, 0.125, 0.125, 4, 5, FALSE, 0, 3},
    {"gaps anywhere in a lining", 97, 96, 1, 0, 97, 0, TRUE, 0, 2},
    /* nothing is too narrow: gaps might be all there is */
    {"no least piece", 97, 96, 1, 0, 0, 5, FALSE, 0, 0},
};

static void
test_least_sheets (void)
{
  for (guint i = 0; i < G_N_ELEMENTS (BOUNDS); i++) {
    const Bound *bound = &BOUNDS[i];
    DryStock stock[] = {{"4x8", 48 * IN, 96 * IN, 0, -1},
                        {"3x5", 36 * IN, 60 * IN, 0, -1},
                        {"half", 24 * IN, 96 * IN, 0, bound->on_hand, TRUE}};
    DryCarrier carriers[5] = {0};
    g_autoptr (DryArena) arena = dry_arena_new ();
    DryRect rect = {0, 0, (DryLength) (bound->width * IN), (DryLength) (bound->height * IN)};
    DryFace wall = {.region = dry_region_from_rect (arena, rect)};
    DryBoardFace face = {.face = &wall,
                         .stock = stock,
                         .n_stock = bound->on_hand > 0 ? 3 : 2,
                         .bounds = rect,
                         .carriers = carriers,
                         .n_carriers = bound->n_carriers,
                         .seams_anywhere = bound->anywhere,
                         .gap = (DryLength) (bound->gap * IN),
                         .min_piece = (DryLength) (bound->min_piece * IN)};
    DryBoardFace *faces[] = {&face};
    /* of two studs at one place only one carries a seam */
    for (guint k = 0; k < bound->n_carriers; k++)
      carriers[k].at = (k < 3 ? 0 : (DryLength) k) * 16 * IN;
    guint least =
        dry_nest_least_sheets (faces, bound->width > 0 ? 1 : 0, (DryLength) (bound->kerf * IN));
    if (least != bound->least)
      g_error ("%s: at least %u sheets, not %u", bound->what, bound->least, least);
  }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/nest/layouts/one-face", test_one_face);
  g_test_add_func ("/nest/layouts/unknown-price", test_unknown_price);
  g_test_add_func ("/nest/layouts/only-together", test_only_together);
  g_test_add_func ("/nest/layouts/bound-reached", test_bound_reached);
  g_test_add_func ("/nest/layouts/stopped", test_stopped);
  g_test_add_func ("/nest/layouts/hopes", test_hopes);
  g_test_add_func ("/nest/layouts/live-with-care", test_live_with_care);
  g_test_add_func ("/nest/layouts/live-without-care", test_live_without_care);
  g_test_add_func ("/nest/layouts/least-sheets", test_least_sheets);
  return g_test_run ();
}
