/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Sheets as slicing trees, and the pool of well filled ones: whatever is put in, taken out or
 * undone, each item is on one sheet or left out, and what is written can be sawn. Knows the inside
 * of the nesting engine, no wall. */
#include <string.h>

#include "layout-checker.h"
#include "plan/nest-private.h"

#define IN DRY_INCH

static DryNestProblem *
make_problem (const DryStock *stock, guint n_stock, const DryPiece *pieces, guint n)
{
  return dry_nest_problem_new (stock, n_stock, pieces, n, 0, NULL);
}

/* Equal squares of 10 in, two of which fill a sheet. */
static DryNestProblem *
make_squares (guint n)
{
  g_autofree DryPiece *pieces = g_new0 (DryPiece, n);
  DryStock stock = {"a", 20 * IN, 10 * IN, 0, -1};
  for (guint i = 0; i < n; i++)
    pieces[i] = (DryPiece){"p", 10 * IN, 10 * IN, FALSE};
  return make_problem (&stock, 1, pieces, n);
}

/* Every item once, on a sheet or left out; areas as noted; nothing beyond the edge of its sheet. */
static void
check_trees (const DryTrees *trees)
{
  guint n = trees->problem->n_items;
  g_autofree guint *seen = g_new0 (guint, n + 1);
  for (guint t = 0; t < trees->n_trees; t++) {
    const DryTree *tree = &trees->trees[t];
    double used = 0;
    for (guint i = 0; i < tree->n_nodes; i++) {
      gint32 item = tree->nodes[i].item;
      if (item < 0)
        continue;
      seen[item]++;
      used += trees->items[item].area;
      g_assert_cmpint (trees->tree_of[item], ==, (gint32) t);
    }
    g_assert_cmpfloat (used, ==, tree->used);
    g_assert_cmpint (tree->root == DRY_TREE_NONE, ==, tree->n_nodes == 0);
    if (tree->root != DRY_TREE_NONE) {
      g_assert_cmpint (tree->nodes[tree->root].width, <=, tree->width);
      g_assert_cmpint (tree->nodes[tree->root].height, <=, tree->height);
      g_assert_cmpint (tree->nodes[tree->root].parent, ==, DRY_TREE_NONE);
    }
  }
  for (guint i = 0; i < trees->n_left_out; i++) {
    g_assert_cmpint (trees->tree_of[trees->left_out[i]], ==, DRY_TREE_NONE);
    seen[trees->left_out[i]]++;
  }
  for (guint i = 0; i < n; i++)
    g_assert_cmpuint (seen[i], ==, 1);
}

/* As cuts of a saw, by a checker that knows no tree. */
static void
check_written (const DryTrees *trees, const DryStock *stock, guint n_stock, const DryPiece *pieces,
               guint n)
{
  g_autoptr (DryArena) arena = dry_arena_new ();
  g_autoptr (DryNestState) state = dry_nest_state_new (trees->problem);
  g_auto (DryNestOpenings) openings = {0};
  DryCutting *cutting = dry_arena_alloc (arena, sizeof (DryCutting));
  cutting->stock = stock;
  cutting->n_stock = n_stock;
  cutting->pieces = pieces;
  cutting->n_pieces = n;
  dry_trees_write (trees, state);
  dry_nest_write (arena, state, &openings, cutting, g_array_new (FALSE, FALSE, sizeof (guint)));
  g_autofree char *wrong = dry_check_cutting (cutting, 0);
  g_assert_cmpstr (wrong, ==, NULL);
  g_assert_cmpuint (cutting->n_unplaced, ==, trees->n_left_out);
}

static void
insert_left_out (DryTrees *trees, const DryTreeTaste *taste, guint64 *random)
{
  guint n = trees->n_left_out;
  g_autofree guint32 *items = g_new (guint32, n + 1);
  memcpy (items, trees->left_out, sizeof (guint32) * n);
  trees->n_left_out = 0;
  for (guint i = 0; i < n; i++)
    if (!dry_trees_insert (trees, items[i], taste, random))
      trees->left_out[trees->n_left_out++] = items[i];
}

/* Boards of a bathroom put in by every taste, branches sawn off again, undone now and then, sheets
 * swapped for larger ones. */
static void
test_in_and_out (void)
{
  DryStock stock[] = {{"large", 48 * IN, 96 * IN, 0, -1}, {"small", 36 * IN, 60 * IN, 0, -1}};
  DryPiece pieces[24];
  const guint kinds[] = {0, 1, 1, 1};
  for (guint32 seed = 1; seed <= 40; seed++) {
    g_autoptr (GRand) rand = g_rand_new_with_seed (seed);
    guint64 random = seed * G_GUINT64_CONSTANT (0x9E3779B97F4A7C15);
    for (guint i = 0; i < G_N_ELEMENTS (pieces); i++)
      pieces[i] = (DryPiece){"p", g_rand_int_range (rand, 4, 36) * IN,
                             g_rand_int_range (rand, 4, 60) * IN, g_rand_boolean (rand)};
    g_autoptr (DryNestProblem) problem =
        make_problem (stock, G_N_ELEMENTS (stock), pieces, G_N_ELEMENTS (pieces));
    g_autoptr (DryTrees) trees = dry_trees_new (problem);
    dry_trees_clear (trees, kinds, G_N_ELEMENTS (kinds));
    for (guint round = 0; round < 60; round++) {
      DryTreeTaste taste = {round % DRY_N_MEASURES, round % 3 ? G_MAXUINT32 / 100 : 0};
      insert_left_out (trees, &taste, &random);
      check_trees (trees);
      check_written (trees, stock, G_N_ELEMENTS (stock), pieces, G_N_ELEMENTS (pieces));
      guint n_left = trees->n_left_out;
      dry_trees_keep (trees);
      guint at = (guint) g_rand_int_range (rand, 0, G_N_ELEMENTS (kinds));
      const DryTree *tree = &trees->trees[at];
      if (tree->root == DRY_TREE_NONE)
        continue;
      gint32 node = round % 4 ? g_rand_int_range (rand, 0, (gint) tree->n_nodes) : tree->root;
      dry_trees_take_out (trees, at, node, trees->left_out, &trees->n_left_out);
      g_assert_cmpuint (trees->n_left_out, >, n_left);
      check_trees (trees);
      if (tree->root == DRY_TREE_NONE)
        dry_trees_set_kind (trees, at, 1 - tree->kind);
      if (round % 5 == 0) {
        dry_trees_undo (trees);
        g_assert_cmpuint (trees->n_left_out, ==, n_left);
      }
      check_trees (trees);
    }
  }
}

/* A sheet with this one item on it, whatever else is known of the item. */
static void
put_leaf (DryTrees *trees, guint at, guint item)
{
  const DryTreeNode leaf = {.width = trees->items[item].side[0],
                            .height = trees->items[item].side[1],
                            .left = DRY_TREE_NONE,
                            .right = DRY_TREE_NONE,
                            .parent = DRY_TREE_NONE,
                            .item = (gint32) item};
  dry_trees_put (trees, at, &leaf, 1, 0);
}

/* A place that is looked for, and none overlooked: a piece goes where it leaves the least over, on
 * the sheet that has that room, turned when it may. */
static void
test_smallest_room (void)
{
  static const struct {
    DryLength width, height;
    gboolean may_turn, fits;
    gint32 tree;
  } CASES[] = {
      {12 * IN, 20 * IN, FALSE, TRUE, 1},  /* beside what is on the small sheet */
      {20 * IN, 12 * IN, TRUE, TRUE, 1},   /* there too, when turned */
      {20 * IN, 12 * IN, FALSE, TRUE, 0},  /* not turned: above on the large one */
      {50 * IN, 70 * IN, FALSE, FALSE, 0}, /* larger than what is left of either */
  };
  DryStock stock[] = {{"large", 60 * IN, 96 * IN, 0, -1}, {"small", 24 * IN, 20 * IN, 0, -1}};
  const guint kinds[] = {0, 1};
  for (guint i = 0; i < G_N_ELEMENTS (CASES); i++) {
    DryPiece pieces[] = {{"on large", 60 * IN, 40 * IN, FALSE},
                         {"on small", 12 * IN, 20 * IN, FALSE},
                         {"p", CASES[i].width, CASES[i].height, CASES[i].may_turn}};
    guint64 random = 1;
    const DryTreeTaste taste = {0, 0};
    g_autoptr (DryNestProblem) problem = make_problem (stock, 2, pieces, 3);
    g_autoptr (DryTrees) trees = dry_trees_new (problem);
    dry_trees_clear (trees, kinds, 2);
    put_leaf (trees, 0, 0);
    put_leaf (trees, 1, 1);
    check_trees (trees);
    g_assert_cmpint (dry_trees_insert (trees, 2, &taste, &random), ==, CASES[i].fits);
    if (CASES[i].fits)
      g_assert_cmpint (trees->tree_of[2], ==, CASES[i].tree);
  }
}

/* --- the pool --- */

/* A sheet with these squares in a row; two in the problems here, three or more where it only is to
 * be refused. */
static void
offer_row (DryPool *pool, const guint *items, guint n)
{
  DryTreeNode nodes[64] = {0};
  DryTree tree = {.nodes = nodes, .n_nodes = 2 * n - 1, .root = 0};
  for (guint i = 0; i < n; i++)
    nodes[i] = (DryTreeNode){
        .width = 1, .height = 1, .left = -1, .right = -1, .parent = -1, .item = (gint32) items[i]};
  for (guint i = 1; i < n; i++) {
    guint join = n + i - 1;
    nodes[join] = (DryTreeNode){.width = (gint32) (i + 1),
                                .height = 1,
                                .left = tree.root,
                                .right = (gint32) i,
                                .parent = -1,
                                .item = DRY_TREE_NONE,
                                .upright = TRUE};
    nodes[tree.root].parent = nodes[i].parent = (gint32) join;
    tree.root = (gint32) join;
  }
  dry_pool_offer (pool, &tree);
}

static void
offer_pair (DryPool *pool, guint a, guint b)
{
  const guint items[] = {a, b};
  offer_row (pool, items, 2);
}

static DryTrees *
make_bare (const DryNestProblem *problem, guint n_sheets)
{
  DryTrees *trees = dry_trees_new (problem);
  g_autofree guint *kinds = g_new0 (guint, n_sheets + 1);
  dry_trees_clear (trees, kinds, n_sheets);
  return trees;
}

/* Among many pairs that get in each other's way the ten that hold all twenty are found, and come
 * out as a layout that can be sawn. */
static void
test_cover_found (void)
{
  g_autoptr (DryNestProblem) problem = make_squares (20);
  g_autoptr (DryTrees) trees = make_bare (problem, 10);
  DryPool *pool = dry_pool_new (20);
  guint64 random = 7;
  for (guint i = 0; i < 20; i++)
    for (guint j = i + 2; j < 20; j += 3)
      offer_pair (pool, i, j);
  for (guint i = 0; i < 20; i += 2) {
    offer_pair (pool, i, i + 1);
    offer_pair (pool, i + 1, i); /* the same sheet again */
  }
  g_assert_true (dry_pool_cover (pool, trees, G_GUINT64_CONSTANT (5000000), &random));
  g_assert_cmpuint (trees->n_left_out, ==, 0);
  check_trees (trees);
  for (guint i = 0; i < 10; i++)
    g_assert_cmpuint (trees->trees[i].n_nodes, ==, 3);
  dry_pool_free (pool);
}

/* Every stored sheet holds the same item: two of them hold three of four at most. The one that is
 * on both stays on the first only, and one is left out. */
static void
test_cover_short (void)
{
  g_autoptr (DryNestProblem) problem = make_squares (4);
  g_autoptr (DryTrees) trees = make_bare (problem, 2);
  DryPool *pool = dry_pool_new (4);
  guint64 random = 7;
  for (guint i = 1; i < 4; i++)
    offer_pair (pool, 0, i);
  g_assert_false (dry_pool_cover (pool, trees, 20000, &random));
  g_assert_cmpuint (trees->n_left_out, ==, 1);
  g_assert_cmpuint (trees->left_out[0], !=, 0);
  g_assert_cmpuint (trees->trees[0].n_nodes + trees->trees[1].n_nodes, ==, 4);
  check_trees (trees);
  dry_pool_free (pool);
}

/* A sheet all of whose items lie elsewhere comes out bare. */
static void
test_put_bare (void)
{
  g_autoptr (DryNestProblem) problem = make_squares (2);
  g_autoptr (DryTrees) trees = make_bare (problem, 2);
  put_leaf (trees, 0, 0);
  put_leaf (trees, 1, 0);
  g_assert_cmpint (trees->tree_of[0], ==, 0);
  g_assert_cmpint (trees->trees[1].root, ==, DRY_TREE_NONE);
  g_assert_cmpuint (trees->n_left_out, ==, 1);
  check_trees (trees);
}

/* Nothing is touched where there is nothing to choose from. */
static void
test_cover_refused (void)
{
  static const struct {
    const char *what;
    guint sheets, pairs;
  } CASES[] = {
      {"one sheet is no choice", 1, 2},
      {"fewer stored than wanted", 3, 2},
      {"items on no stored sheet", 2, 2},
  };
  for (guint i = 0; i < G_N_ELEMENTS (CASES); i++) {
    g_autoptr (DryNestProblem) problem = make_squares (6);
    g_autoptr (DryTrees) trees = make_bare (problem, CASES[i].sheets);
    DryPool *pool = dry_pool_new (6);
    guint64 random = 7;
    for (guint k = 0; k < CASES[i].pairs; k++)
      offer_pair (pool, 2 * k, 2 * k + 1);
    g_assert_false (dry_pool_cover (pool, trees, 100000, &random));
    g_assert_cmpuint (trees->n_left_out, ==, 6);
    check_trees (trees);
    dry_pool_free (pool);
  }
}

/* A sheet of more small pieces than are kept is not stored: what is only on it cannot be had. */
static void
test_too_many_on_one (void)
{
  guint many[17], few[16];
  g_autoptr (DryNestProblem) problem = make_squares (17);
  g_autoptr (DryTrees) trees = make_bare (problem, 2);
  DryPool *pool = dry_pool_new (17);
  guint64 random = 7;
  for (guint i = 0; i < 17; i++)
    many[i] = i;
  for (guint i = 0; i < 16; i++)
    few[i] = i;
  offer_row (pool, many, 17);
  offer_row (pool, few, 16);
  offer_row (pool, few, 15);
  g_assert_false (dry_pool_cover (pool, trees, 100000, &random)); /* the last is on none */
  g_assert_cmpuint (trees->n_left_out, ==, 17);
  dry_pool_free (pool);
}

/* A full pool forgets the oldest sheets, and only those: the pair that came first is gone, the
 * pairs that came last make the answer. */
static void
test_oldest_forgotten (void)
{
  const guint n = 200; /* 19900 pairs; 16384 are kept */
  g_autoptr (DryNestProblem) problem = make_squares (n + 2);
  g_autoptr (DryTrees) trees = make_bare (problem, (n + 2) / 2);
  DryPool *pool = dry_pool_new (n + 2);
  guint64 random = 7;
  offer_pair (pool, n, n + 1);
  for (guint i = 0; i < n; i++)
    for (guint j = i + 1; j < n; j++)
      offer_pair (pool, i, j);
  g_assert_false (dry_pool_cover (pool, trees, 1000, &random));
  g_assert_cmpuint (trees->n_left_out, ==, n + 2); /* the oldest's items are on none now */
  offer_pair (pool, n, n + 1);
  for (guint i = 0; i < n; i += 2)
    offer_pair (pool, i, i + 1);
  dry_pool_cover (pool, trees, G_GUINT64_CONSTANT (30000000), &random);
  g_assert_cmpuint (trees->n_left_out, <, (n + 2) / 4);
  g_assert_cmpint (trees->tree_of[n], ==, trees->tree_of[n + 1]);
  g_assert_cmpint (trees->tree_of[n], !=, DRY_TREE_NONE);
  check_trees (trees);
  dry_pool_free (pool);
}

/* --- the search for a goal --- */

/* More items than a pool takes, of one size that fills the sheets: found without one. No sheets at
 * all: not reached, and nothing spent on it. */
static void
test_goal_without_pool (void)
{
  g_autofree guint *kinds = g_new0 (guint, 160);
  g_autoptr (DryNestProblem) problem = make_squares (320);
  DryGoalSearch *search = dry_goal_search_new (problem, 0);
  guint64 spent = 0;
  dry_goal_search_set (search, NULL, 0, (DryGoal){G_MAXDOUBLE});
  g_assert_false (dry_goal_search_run (search, 1000, &spent));
  g_assert_cmpuint (spent, ==, 0);
  dry_goal_search_set (search, kinds, 160, (DryGoal){G_MAXDOUBLE});
  g_assert_true (dry_goal_search_run (search, G_GUINT64_CONSTANT (3000000), &spent));
  check_trees (dry_goal_search_get_trees (search));
  dry_goal_search_set (search, kinds, 150, (DryGoal){G_MAXDOUBLE});
  g_assert_false (dry_goal_search_run (search, 1000, &spent));
  g_assert_cmpuint (dry_goal_search_get_trees (search)->n_left_out, >=, 20);
  dry_goal_search_free (search);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/nest/trees/in-and-out", test_in_and_out);
  g_test_add_func ("/nest/trees/smallest-room", test_smallest_room);
  g_test_add_func ("/nest/trees/put-bare", test_put_bare);
  g_test_add_func ("/nest/pool/found", test_cover_found);
  g_test_add_func ("/nest/pool/short", test_cover_short);
  g_test_add_func ("/nest/pool/refused", test_cover_refused);
  g_test_add_func ("/nest/pool/too-many-on-one", test_too_many_on_one);
  g_test_add_func ("/nest/pool/oldest-forgotten", test_oldest_forgotten);
  g_test_add_func ("/nest/goal/without-pool", test_goal_without_pool);
  return g_test_run ();
}
