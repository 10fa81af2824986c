/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Tests of openings: what is cut out of a board or off its corner is found, and other pieces are
 * cut from it; every layout is made again, cut by cut, by an independent checker. */
#include "layout-checker.h"

#define IN DRY_INCH

/* --- openings of shapes --- */

typedef struct {
  const char *what;
  gint outer[10][2]; /* inches; ends with -1 */
  gint hole[6][2];
  gint kerf; /* sixteenths */
  guint n;
  gint openings[3][4]; /* sixteenths of an inch */
} Shape;

/* clang-format off */
static const Shape SHAPES[] = {
  {"a rectangle", {{0, 0}, {30, 0}, {30, 40}, {0, 40}, {-1}}, {{-1}}, 0, 0, {{0}}},
  {"a niche in the middle", {{0, 0}, {30, 0}, {30, 40}, {0, 40}, {-1}},
   {{8, 10}, {8, 30}, {22, 30}, {22, 10}, {-1}}, 2, 1,
   {{8 * 16 + 2, 10 * 16 + 2, 22 * 16 - 2, 30 * 16 - 2}}},
  {"an L, as beside a tub", {{0, 0}, {6, 0}, {6, 16}, {30, 16}, {30, 60}, {0, 60}, {-1}}, {{-1}}, 0, 1,
   {{6 * 16, 0, 30 * 16, 16 * 16}}},
  {"an L, sawn", {{0, 0}, {6, 0}, {6, 16}, {30, 16}, {30, 60}, {0, 60}, {-1}}, {{-1}}, 2, 1,
   {{6 * 16 + 2, 0, 30 * 16, 16 * 16 - 2}}},
  {"an L too thin to keep", {{0, 0}, {26, 0}, {26, 16}, {30, 16}, {30, 60}, {0, 60}, {-1}}, {{-1}}, 0, 0, {{0}}},
  {"a U round a window", {{0, 0}, {40, 0}, {40, 30}, {30, 30}, {30, 12}, {10, 12}, {10, 30}, {0, 30}, {-1}},
   {{-1}}, 0, 1, {{10 * 16, 12 * 16, 30 * 16, 30 * 16}}},
  /* Under a slope the largest rectangle has its corner in the middle of it. */
  {"a rake", {{0, 0}, {40, 0}, {40, 60}, {0, 20}, {-1}}, {{-1}}, 0, 1, {{0, 40 * 16, 20 * 16, 60 * 16}}},
  {"a wall out of square", {{0, 0}, {40, 0}, {39, 60}, {0, 60}, {-1}}, {{-1}}, 0, 0, {{0}}},
};
/* clang-format on */

static DryRing
make_ring (const gint (*corners)[2], DryPoint *points)
{
  guint n = 0;
  while (corners[n][0] >= 0) {
    points[n] = (DryPoint){corners[n][0] * IN, corners[n][1] * IN};
    n++;
  }
  return (DryRing){points, n};
}

static void
test_shapes (void)
{
  for (guint i = 0; i < G_N_ELEMENTS (SHAPES); i++) {
    const Shape *shape = &SHAPES[i];
    DryPoint outer[10], hole[6];
    DryRing holes[1] = {make_ring (shape->hole, hole)};
    DryPolygon polygon = {
        .outer = make_ring (shape->outer, outer), .holes = holes, .n_holes = holes[0].n_points > 0};
    g_autoptr (GArray) out = g_array_new (FALSE, FALSE, sizeof (DryRect));
    dry_cutting_list_openings (&polygon, dry_ring_bounds (&polygon.outer),
                               shape->kerf * DRY_INCH_64 * 4, out);
    g_test_message ("%s", shape->what);
    g_assert_cmpuint (out->len, ==, shape->n);
    for (guint k = 0; k < out->len; k++) {
      const DryRect *r = &g_array_index (out, DryRect, k);
      g_assert_cmpint (r->x0, ==, shape->openings[k][0] * DRY_INCH_64 * 4);
      g_assert_cmpint (r->y0, ==, shape->openings[k][1] * DRY_INCH_64 * 4);
      g_assert_cmpint (r->x1, ==, shape->openings[k][2] * DRY_INCH_64 * 4);
      g_assert_cmpint (r->y1, ==, shape->openings[k][3] * DRY_INCH_64 * 4);
    }
  }
}

/* --- pieces from openings --- */

static const DryStock STOCK[] = {{"3x5", 36 * IN, 60 * IN, 1500, -1}};

static const DryCutting *
compute_checked (DryArena *arena, const DryStock *stock, guint n_stock, const DryPiece *pieces,
                 guint n_pieces, DryLength kerf, guint64 effort)
{
  const DryCutting *cutting =
      dry_cutting_improve (arena, stock, n_stock, pieces, n_pieces, kerf, effort, 1, NULL);
  g_autofree char *problem = dry_check_cutting (cutting, kerf);
  g_assert_cmpstr (problem, ==, NULL);
  return cutting;
}

/* A whole sheet with a window in it, and linings that come from the window, and one of them from
 * the opening of another. */
static void
test_from_window (void)
{
  const DryRect window = {8 * IN, 20 * IN, 28 * IN, 44 * IN}, notch = {0, 0, 8 * IN, 10 * IN};
  for (guint turned = 0; turned < 2; turned++) {
    const DryStock stock[] = {{"s", (turned ? 60 : 36) * IN, (turned ? 36 : 60) * IN, 1500, -1}};
    const DryPiece pieces[] = {{"board", 36 * IN, 60 * IN, TRUE, &window, 1},
                               {"L", 18 * IN, 24 * IN, TRUE, &notch, 1},
                               {"little", 10 * IN, 8 * IN, TRUE}};
    g_autoptr (DryArena) arena = dry_arena_new ();
    const DryCutting *cutting = compute_checked (arena, stock, 1, pieces, 3, 0, 0);
    g_assert_cmpuint (cutting->n_sheets, ==, 1);
    g_assert_cmpuint (cutting->n_bought, ==, 1);
    g_assert_cmpint (cutting->cost, ==, 1500);
    g_assert_true (cutting->proven);
    g_assert_cmpuint (cutting->sheets[0].n_placements, ==, 3);
    for (guint i = 0; i < 3; i++) {
      const DryPlacement *place = &cutting->sheets[0].placements[i];
      g_assert_cmpint (place->inside, ==, (gint) place->piece - 1);
    }
  }
}

static void
test_unused_is_offcut (void)
{
  const DryRect window = {8 * IN, 20 * IN, 28 * IN, 44 * IN};
  const DryPiece pieces[] = {{"board", 36 * IN, 60 * IN, TRUE, &window, 1}};
  g_autoptr (DryArena) arena = dry_arena_new ();
  const DryCutting *cutting = compute_checked (arena, STOCK, 1, pieces, 1, 0, 0);
  g_assert_cmpuint (cutting->sheets[0].n_offcuts, ==, 1);
  g_assert_cmpint (cutting->sheets[0].offcuts[0].x0, ==, 8 * IN);
  g_assert_cmpint (cutting->sheets[0].offcuts[0].y1, ==, 44 * IN);
  g_assert_cmpfloat_with_epsilon (cutting->waste, 20.0 * 24 / (36 * 60), 1e-12);
}

/* The board with the opening fits no sheet: nothing may be said to come from it. */
static void
test_board_too_large (void)
{
  const DryRect window = {8 * IN, 20 * IN, 28 * IN, 44 * IN};
  const DryPiece pieces[] = {{"board", 37 * IN, 60 * IN, TRUE, &window, 1},
                             {"lining", 12 * IN, 12 * IN, TRUE}};
  g_autoptr (DryArena) arena = dry_arena_new ();
  const DryCutting *cutting = compute_checked (arena, STOCK, 1, pieces, 2, 0, 0);
  g_assert_cmpuint (cutting->n_unplaced, ==, 1);
  g_assert_cmpuint (cutting->n_sheets, ==, 1);
}

/* --- random lists --- */

typedef struct {
  DryPiece pieces[40];
  DryRect openings[40][2];
  guint n;
} List;

static void
add_piece (GRand *rand, List *self, DryLength w, DryLength h, gboolean may_turn)
{
  DryPiece *piece = &self->pieces[self->n];
  *piece = (DryPiece){"p", w, h, may_turn, self->openings[self->n], 0};
  for (guint i = 0; i < 2 && MIN (w, h) > 14 * IN; i++) {
    /* One in either half, so that they are apart. */
    DryLength x0 = g_rand_int_range (rand, 0, 4) * IN, x1 = w - g_rand_int_range (rand, 0, 4) * IN;
    DryLength half = h / 2, y0 = i * half + IN, y1 = (i + 1) * half - IN;
    if (g_rand_boolean (rand) && y1 - y0 >= 6 * IN)
      self->openings[self->n][piece->n_openings++] = (DryRect){x0, y0, x1, y1};
  }
  self->n++;
}

static void
test_random (void)
{
  const guint n_lists = g_test_quick () ? 300 : 3000;
  guint with = 0, without = 0, proven = 0, bound = 0;
  for (guint32 seed = 1; seed <= n_lists; seed++) {
    g_autoptr (GRand) rand = g_rand_new_with_seed (seed);
    static List list;
    list.n = 0;
    guint n = (guint) g_rand_int_range (rand, 1, g_rand_boolean (rand) ? 7 : 25);
    gboolean mixed = g_rand_int_range (rand, 0, 4) == 0;
    for (guint i = 0; i < n; i++)
      add_piece (rand, &list, g_rand_int_range (rand, 4, 36) * IN,
                 g_rand_int_range (rand, 4, 60) * IN, !mixed || g_rand_boolean (rand));
    DryLength kerf = g_rand_boolean (rand) ? 0 : IN / 8;
    g_autoptr (DryArena) arena = dry_arena_new ();
    const DryCutting *opened =
        compute_checked (arena, STOCK, 1, list.pieces, list.n, kerf, seed % 3 ? 0 : 400000);
    for (guint i = 0; i < list.n; i++)
      list.pieces[i].n_openings = 0;
    const DryCutting *plain = compute_checked (arena, STOCK, 1, list.pieces, list.n, kerf, 0);
    g_assert_cmpuint (opened->lower_bound, <=, plain->n_bought);
    with += opened->n_bought;
    without += plain->n_bought;
    proven += opened->proven;
    bound += opened->lower_bound;
  }
  g_test_message ("%u lists: %u sheets with openings, %u without; bound %u, %u proven", n_lists,
                  with, without, bound, proven);
  g_assert_cmpuint (with, <, without);
}

/* Sheets cut into boards whose openings are cut up in turn: the number of sheets is known. */
static void
test_bound_on_cut_up (void)
{
  guint sheets = 0, found = 0, bound = 0;
  for (guint32 seed = 1; seed <= 60; seed++) {
    g_autoptr (GRand) rand = g_rand_new_with_seed (seed);
    static List list;
    list.n = 0;
    guint n_sheets = (guint) g_rand_int_range (rand, 1, 5);
    for (guint s = 0; s < n_sheets; s++) {
      DryLength at = g_rand_int_range (rand, 20, 41) * IN;
      for (guint part = 0; part < 2; part++) {
        DryLength h = part == 0 ? at : 60 * IN - at;
        list.openings[list.n][0] = (DryRect){4 * IN, 4 * IN, 32 * IN, h - 4 * IN};
        list.pieces[list.n] = (DryPiece){"b", 36 * IN, h, TRUE, list.openings[list.n], 1};
        list.n++;
        DryLength cut = g_rand_int_range (rand, 6, 23) * IN;
        list.pieces[list.n++] = (DryPiece){"i", cut, h - 8 * IN, TRUE};
        list.pieces[list.n++] = (DryPiece){"i", 28 * IN - cut, h - 8 * IN, TRUE};
      }
    }
    g_autoptr (DryArena) arena = dry_arena_new ();
    const DryCutting *cutting = compute_checked (arena, STOCK, 1, list.pieces, list.n, 0, 2000000);
    g_assert_cmpuint (cutting->lower_bound, <=, n_sheets);
    sheets += n_sheets;
    found += cutting->n_bought;
    bound += cutting->lower_bound;
  }
  g_test_message ("%u sheets cut up, %u found, bound %u", sheets, found, bound);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/cutting/openings/shapes", test_shapes);
  g_test_add_func ("/cutting/openings/from-window", test_from_window);
  g_test_add_func ("/cutting/openings/unused", test_unused_is_offcut);
  g_test_add_func ("/cutting/openings/too-large", test_board_too_large);
  g_test_add_func ("/cutting/openings/random", test_random);
  g_test_add_func ("/cutting/openings/cut-up", test_bound_on_cut_up);
  return g_test_run ();
}
