/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Boundaries of boards: whichever way a ring was drawn the board lies on its left, edges belong to
 * the board, distances, spans cut out of spans. Shapes are worked out by hand; knows no stage. */
#include "plan/outline.h"

#define N(points)                                                                                  \
  {                                                                                                \
    points, G_N_ELEMENTS (points)                                                                  \
  }

/* A board 10 x 8 with a hole from 2 to 5 along and 3 to 6 up, drawn either way round; two corners
 * of the board are given twice. */
static DryPoint anticlockwise[] = {{0, 0}, {10, 0}, {10, 0}, {10, 8}, {0, 8}};
static DryPoint clockwise[] = {{0, 0}, {0, 8}, {0, 8}, {10, 8}, {10, 0}};
static DryPoint hole_anticlockwise[] = {{2, 3}, {5, 3}, {5, 6}, {2, 6}};
static DryPoint hole_clockwise[] = {{2, 3}, {2, 6}, {5, 6}, {5, 3}};

static const DryRing outers[] = {N (anticlockwise), N (clockwise)};
static const DryRing holes[] = {N (hole_anticlockwise), N (hole_clockwise)};

static gboolean
is_board (DryPoint p)
{
  return p.x >= 0 && p.x <= 20 && p.y >= 0 && p.y <= 16 &&
         !(p.x > 4 && p.x < 10 && p.y > 6 && p.y < 12);
}

/* In doubled coordinates: half a step to the left of an edge is board, to the right none. */
static void
check_edge (const DryOutlineEdge *edge)
{
  DryLength dx = edge->to.x - edge->from.x, dy = edge->to.y - edge->from.y;
  DryPoint middle = {edge->from.x + edge->to.x, edge->from.y + edge->to.y};
  DryLength sx = (dx > 0) - (dx < 0), sy = (dy > 0) - (dy < 0);

  g_assert_true (dx != 0 || dy != 0);
  g_assert_true (dry_outline_edge_is_vertical (edge) == (dx == 0));
  g_assert_true (dry_outline_edge_is_horizontal (edge) == (dy == 0));
  g_assert_true (is_board ((DryPoint){middle.x - sy, middle.y + sx}));
  g_assert_false (is_board ((DryPoint){middle.x + sy, middle.y - sx}));
}

static void
test_edges (void)
{
  for (guint o = 0; o < 2; o++)
    for (guint h = 0; h < 2; h++) {
      DryPolygon shape = {outers[o], (DryRing *) &holes[h], 1};
      g_autoptr (GArray) edges = dry_outline_edges (&shape);

      g_assert_cmpuint (edges->len, ==, 8); /* none of no length */
      for (guint i = 0; i < edges->len; i++) {
        const DryOutlineEdge *edge = &g_array_index (edges, DryOutlineEdge, i);

        g_assert_true (edge->hole == (i >= 4));
        check_edge (edge);
      }
      g_assert_cmpfloat (dry_outline_area_m2 (&shape) * 1e18, ==, 80 - 9);
    }
}

/* A screw on the edge of a hole is in the board, one in the hole is not. */
static void
test_contains (void)
{
  static const struct {
    DryPoint at;
    gboolean in;
  } rows[] = {{{1, 1}, TRUE},  {{0, 4}, TRUE}, {{10, 8}, TRUE}, {{11, 4}, FALSE}, {{5, -1}, FALSE},
              {{3, 4}, FALSE}, {{2, 4}, TRUE}, {{5, 5}, TRUE},  {{3, 3}, TRUE},   {{4, 6}, TRUE},
              {{5, 6}, TRUE},  {{6, 3}, TRUE}, {{2, 2}, TRUE},  {{2, 7}, TRUE},   {{1, 3}, TRUE}};

  for (guint h = 0; h < 2; h++) {
    DryPolygon shape = {outers[h], (DryRing *) &holes[h], 1};

    for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
      g_assert_true (dry_outline_contains (&shape, rows[i].at) == rows[i].in);
  }
}

static void
test_distance (void)
{
  static const struct {
    DryPoint p, from, to;
    DryLength away;
  } rows[] = {{{5, 7}, {0, 0}, {10, 0}, 7},   {{-3, 4}, {0, 0}, {10, 0}, 5},
              {{13, -4}, {0, 0}, {10, 0}, 5}, {{3, 4}, {0, 0}, {0, 0}, 5},
              {{0, 5}, {-4, 2}, {4, 8}, 0},   {{6, 2}, {0, 0}, {10, 0}, 2}};

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    g_assert_cmpint (dry_outline_distance (rows[i].p, rows[i].from, rows[i].to), ==, rows[i].away);
}

/* Out of 0..10 and 20..30: what is left keeps its ends, a span of no length among them. */
static void
test_spans (void)
{
  static const struct {
    DryLength lo, hi;
    guint n;
    DrySpan left[4];
  } rows[] = {{12, 18, 2, {{0, 10}, {20, 30}}},
              {5, 5, 2, {{0, 10}, {20, 30}}},
              {3, 4, 3, {{0, 3}, {4, 10}, {20, 30}}},
              {-5, 4, 2, {{4, 10}, {20, 30}}},
              {8, 22, 2, {{0, 8}, {22, 30}}},
              {0, 10, 3, {{0, 0}, {10, 10}, {20, 30}}},
              {-1, 31, 0, {{0}}},
              {10, 20, 2, {{0, 10}, {20, 30}}}};

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++) {
    const DrySpan spans[] = {{0, 10}, {20, 30}};
    g_autoptr (GArray) all = g_array_new (FALSE, FALSE, sizeof (DrySpan));

    g_array_append_vals (all, spans, 2);
    dry_spans_remove (all, rows[i].lo, rows[i].hi);
    g_assert_cmpuint (all->len, ==, rows[i].n);
    for (guint k = 0; k < all->len; k++) {
      g_assert_cmpint (g_array_index (all, DrySpan, k).lo, ==, rows[i].left[k].lo);
      g_assert_cmpint (g_array_index (all, DrySpan, k).hi, ==, rows[i].left[k].hi);
    }
  }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/outline/edges", test_edges);
  g_test_add_func ("/outline/contains", test_contains);
  g_test_add_func ("/outline/distance", test_distance);
  g_test_add_func ("/outline/spans", test_spans);
  return g_test_run ();
}
