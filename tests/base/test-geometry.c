/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Exact measures and overlay: area is conserved to the square nanometre for axis-parallel shapes.
 * The oracle for overlay is counting unit cells, independent of GEOS. */
#include "base/geometry.h"

#include <string.h>

static DryRegion
random_region (GRand *rand, DryArena *arena, gboolean cells[20][20])
{
  DryRect rects[6];
  guint n = (guint) g_rand_int_range (rand, 1, 7);

  for (guint i = 0; i < n; i++) {
    int x = g_rand_int_range (rand, 0, 18), y = g_rand_int_range (rand, 0, 18);
    int w = g_rand_int_range (rand, 1, 20 - x), h = g_rand_int_range (rand, 1, 20 - y);

    rects[i] =
        (DryRect){x * DRY_INCH_64, y * DRY_INCH_64, (x + w) * DRY_INCH_64, (y + h) * DRY_INCH_64};
    for (int cx = x; cx < x + w; cx++)
      for (int cy = y; cy < y + h; cy++)
        cells[cx][cy] = TRUE;
  }
  return dry_region_union_rects (arena, rects, n);
}

static void
assert_area (const DryRegion *region, guint n_cells)
{
  __int128 expected = (__int128) n_cells * DRY_INCH_64 * DRY_INCH_64 * 2;

  g_assert_true (dry_region_area2 (region) == expected);
}

static void
test_overlay_against_cells (void)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (3);

  for (guint i = 0; i < 400; i++) {
    g_autoptr (DryArena) arena = dry_arena_new ();
    gboolean a[20][20] = {0}, b[20][20] = {0};
    DryRegion ra = random_region (rand, arena, a), rb = random_region (rand, arena, b);
    DryRegion both = dry_region_intersection (arena, &ra, &rb);
    DryRegion either = dry_region_union (arena, &ra, &rb);
    DryRegion rest = dry_region_difference (arena, &ra, &rb);
    DryRegion left = dry_region_difference_all (arena, &ra, (DryRegion[]){both, {0}, rb}, 3);
    guint n_both = 0, n_either = 0, n_rest = 0;

    for (guint x = 0; x < 20; x++)
      for (guint y = 0; y < 20; y++) {
        n_both += a[x][y] && b[x][y];
        n_either += a[x][y] || b[x][y];
        n_rest += a[x][y] && !b[x][y];
      }
    assert_area (&both, n_both);
    assert_area (&either, n_either);
    assert_area (&rest, n_rest);
    assert_area (&left, n_rest);
  }
}

static void
test_containment_against_cells (void)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (4);

  for (guint i = 0; i < 100; i++) {
    g_autoptr (DryArena) arena = dry_arena_new ();
    gboolean a[20][20] = {0};
    DryRegion region = random_region (rand, arena, a);

    for (guint x = 0; x < 20; x++)
      for (guint y = 0; y < 20; y++) {
        DryPoint middle = {x * DRY_INCH_64 + DRY_INCH_64 / 2, y * DRY_INCH_64 + DRY_INCH_64 / 2};
        g_assert_cmpint (dry_region_contains (&region, middle), ==, a[x][y]);
      }
  }
}

static void
test_equal_regions_are_equal_arrays (void)
{
  g_autoptr (DryArena) arena = dry_arena_new ();
  DryPoint ring[] = {{10, 0}, {10, 5}, {10, 10}, {0, 10}, {0, 0}, {5, 0}};
  DryPoint turned[] = {{0, 10}, {10, 10}, {10, 0}, {0, 0}};
  DryRegion a = dry_region_from_ring (arena, ring, 6), b = dry_region_from_ring (arena, turned, 4);

  g_assert_cmpint (a.polygons[0].outer.n_points, ==, 4);
  g_assert_cmpmem (a.polygons[0].outer.points, 4 * sizeof (DryPoint), b.polygons[0].outer.points,
                   4 * sizeof (DryPoint));
}

static void
test_hole (void)
{
  g_autoptr (DryArena) arena = dry_arena_new ();
  DryRegion wall = dry_region_from_rect (arena, (DryRect){0, 0, 100, 100});
  DryRegion niche = dry_region_from_rect (arena, (DryRect){40, 40, 60, 60});
  DryRegion rest = dry_region_difference (arena, &wall, &niche);

  g_assert_cmpint (rest.n_polygons, ==, 1);
  g_assert_cmpint (rest.polygons[0].n_holes, ==, 1);
  g_assert_true (dry_region_area2 (&rest) == 2 * (10000 - 400));
  g_assert_false (dry_region_contains (&rest, (DryPoint){50, 50}));
  g_assert_true (dry_region_contains (&rest, (DryPoint){40, 50}));
}

static const struct {
  DryPoint points[5];
  guint n;
  gboolean simple;
} RINGS[] = {
    {{{0, 0}, {10, 0}, {10, 10}, {0, 10}}, 4, TRUE},
    {{{0, 0}, {10, 10}, {10, 0}, {0, 10}}, 4, FALSE}, /* bow tie */
    {{{0, 0}, {10, 0}}, 2, FALSE},
    {{{0, 0}, {0, 0}, {10, 0}, {0, 10}}, 4, FALSE},           /* zero-length edge */
    {{{0, 0}, {10, 0}, {5, 0}, {5, 10}}, 4, FALSE},           /* folds back */
    {{{0, 0}, {10, 0}, {10, 10}, {5, 0}, {0, 10}}, 5, FALSE}, /* touches itself */
    {{{0, 0}, {5, 0}, {10, 0}, {0, 10}}, 4, TRUE},            /* straight on is fine */
    /* The last corner, then the first edge's two ends, lie on another edge. */
    {{{0, 0}, {10, 0}, {10, 10}, {0, 10}, {5, 0}}, 5, FALSE},
    {{{5, 0}, {10, 10}, {0, 10}, {0, 0}, {10, 0}}, 5, FALSE},
    {{{0, 10}, {5, 0}, {10, 10}, {10, 0}, {0, 0}}, 5, FALSE},
    /* In line with an edge, and beyond its ends. */
    {{{0, 0}, {4, 0}, {4, 4}, {8, 0}, {0, 8}}, 5, FALSE},
    {{{0, 0}, {2, 2}, {5, 1}, {4, 4}, {0, 9}}, 5, TRUE},
};

static void
test_simple_rings (void)
{
  for (guint i = 0; i < G_N_ELEMENTS (RINGS); i++) {
    DryRing ring = {(DryPoint *) RINGS[i].points, RINGS[i].n};
    g_assert_cmpint (dry_ring_is_simple (&ring), ==, RINGS[i].simple);
  }
}

/* Once round a ring with a corner cut off, seen from each side. */
static void
test_ring_measures (void)
{
  DryPoint points[] = {{0, 0}, {10, 0}, {10, 6}, {6, 10}, {0, 10}};
  DryRing cut = {points, 5}, square = {(DryPoint[]){{0, 0}, {10, 0}, {10, 10}, {0, 10}}, 4};
  static const struct {
    DryPoint point;
    gboolean inside;
  } ROWS[] = {
      {{5, 5}, TRUE},   {{10, 3}, TRUE},   {{8, 8}, TRUE},   {{9, 9}, FALSE},
      {{11, 3}, FALSE}, {{-1, 10}, FALSE}, {{10, 7}, FALSE}, {{10, -1}, FALSE},
      {{6, 10}, TRUE},  {{7, 10}, FALSE},  {{12, 4}, FALSE}, /* in line with the cut, beyond it */
  };
  DryRect bounds = dry_ring_bounds (&cut);

  for (guint i = 0; i < G_N_ELEMENTS (ROWS); i++)
    g_assert_cmpint (dry_ring_contains (&cut, ROWS[i].point), ==, ROWS[i].inside);
  g_assert_true (dry_ring_is_rectilinear (&square));
  g_assert_false (dry_ring_is_rectilinear (&cut));
  g_assert_true (dry_ring_area2 (&cut) == 2 * (100 - 8));
  g_assert_cmpint (bounds.x0, ==, 0);
  g_assert_cmpint (bounds.x1, ==, 10);
  g_assert_cmpint (bounds.y1, ==, 10);
}

static void
assert_rect (DryRect r, DryLength x0, DryLength y0, DryLength x1, DryLength y1)
{
  g_assert_cmpint (r.x0, ==, x0);
  g_assert_cmpint (r.y0, ==, y0);
  g_assert_cmpint (r.x1, ==, x1);
  g_assert_cmpint (r.y1, ==, y1);
}

/* What has no area is no region, and overlay with it changes nothing. */
static void
test_nothing (void)
{
  g_autoptr (DryArena) arena = dry_arena_new ();
  DryRect flat[] = {{0, 0, 10, 0}, {5, 0, 5, 10}, {10, 0, 0, 10}, {0, 10, 10, 0}};
  DryPoint line[] = {{0, 0}, {5, 5}, {10, 10}}, bow[] = {{0, 0}, {10, 10}, {10, 0}, {0, 10}};
  DryRegion square = dry_region_from_rect (arena, (DryRect){0, 0, 10, 10}), none, same;

  for (guint i = 0; i < G_N_ELEMENTS (flat); i++) {
    none = dry_region_from_rect (arena, flat[i]);
    g_assert_true (dry_region_is_empty (&none));
  }
  none = dry_region_union_rects (arena, flat, G_N_ELEMENTS (flat));
  g_assert_true (dry_region_is_empty (&none));
  none = dry_region_from_ring (arena, bow, 4); /* its halves weigh each other out */
  g_assert_true (dry_region_is_empty (&none));
  none = dry_region_from_ring (arena, line, 3);
  g_assert_true (dry_region_is_empty (&none));
  assert_rect (dry_region_bounds (&none), 0, 0, 0, 0);
  g_assert_false (dry_region_contains (&none, (DryPoint){5, 5}));

  same = dry_region_union (arena, &square, &none);
  g_assert_true (dry_region_area2 (&same) == 200);
  same = dry_region_difference (arena, &square, &none);
  g_assert_true (dry_region_area2 (&same) == 200);
  same = dry_region_difference (arena, &none, &square);
  g_assert_true (dry_region_is_empty (&same));
  same = dry_region_intersection (arena, &none, &square);
  g_assert_true (dry_region_is_empty (&same));
  same = dry_region_intersection (arena, &square, &none);
  g_assert_true (dry_region_is_empty (&same));
}

/* Slanted shapes over each other, taken off together, leave what they leave one after the other;
 * crossings rounded to the nanometer differ by no more than that along their edges. */
static void
test_difference_all (void)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (17);

  for (guint i = 0; i < 200; i++) {
    g_autoptr (DryArena) arena = dry_arena_new ();
    DryRegion plate = dry_region_from_rect (arena, (DryRect){0, 0, 3000 * DRY_MM, 2000 * DRY_MM});
    DryRegion things[9], one_by_one = plate, together;
    guint n = (guint) g_rand_int_range (rand, 0, G_N_ELEMENTS (things) + 1);

    for (guint k = 0; k < n; k++) {
      DryPoint p[3];

      for (guint c = 0; c < 3; c++)
        p[c] = (DryPoint){g_rand_int_range (rand, -500, 3500) * DRY_MM,
                          g_rand_int_range (rand, -500, 2500) * DRY_MM};
      things[k] = dry_region_from_ring (arena, p, 3);
      one_by_one = dry_region_difference (arena, &one_by_one, &things[k]);
    }
    together = dry_region_difference_all (arena, &plate, things, n);
    g_assert_cmpfloat_with_epsilon (dry_region_area_m2 (&together),
                                    dry_region_area_m2 (&one_by_one), 1e-7);
  }
}

/* Two plates, the second with two holes, and their copy, which outlives changes of the first. */
static void
test_copy_and_bounds (void)
{
  g_autoptr (DryArena) arena = dry_arena_new ();
  DryRect plates[] = {{10, 20, 30, 40}, {50, -5, 90, 35}};
  DryRect holes[] = {{60, 0, 62, 2}, {70, 10, 75, 15}};
  DryRegion all = dry_region_union_rects (arena, plates, 2);
  DryRegion cut = dry_region_union_rects (arena, holes, 2);
  DryRegion rest = dry_region_difference (arena, &all, &cut);
  DryRegion copy = dry_region_copy (arena, &rest);
  __int128 area2 = 2 * (400 + 1600 - 4 - 25);

  g_assert_cmpuint (rest.n_polygons, ==, 2);
  assert_rect (dry_region_bounds (&rest), 10, -5, 90, 40);
  g_assert_true (dry_region_area2 (&rest) == area2);
  g_assert_cmpfloat_with_epsilon (dry_region_area_m2 (&rest), 1971e-18, 1e-30);
  g_assert_false (dry_region_contains (&rest, (DryPoint){61, 1}));
  g_assert_false (dry_region_contains (&rest, (DryPoint){72, 12}));
  g_assert_true (dry_region_contains (&rest, (DryPoint){62, 1}));
  g_assert_true (dry_region_contains (&rest, (DryPoint){20, 30}));
  g_assert_false (dry_region_contains (&rest, (DryPoint){40, 30}));
  for (guint i = 0; i < rest.n_polygons; i++) {
    DryPolygon *polygon = &rest.polygons[i];

    for (guint j = 0; j < polygon->n_holes; j++)
      memset (polygon->holes[j].points, 0, polygon->holes[j].n_points * sizeof (DryPoint));
    memset (polygon->outer.points, 0, polygon->outer.n_points * sizeof (DryPoint));
  }
  g_assert_true (dry_region_area2 (&copy) == area2);
  assert_rect (dry_region_bounds (&copy), 10, -5, 90, 40);
}

/* A polygon that crosses itself is repaired to the two triangles it is drawn as. */
static void
test_repair (void)
{
  g_autoptr (DryArena) arena = dry_arena_new ();
  DryPoint bow[] = {{0, 0}, {20, 10}, {20, 0}, {0, 30}};
  DryPolygon polygon = {.outer = {bow, 4}};
  DryRegion crossed = {&polygon, 1};
  DryRegion square = dry_region_from_rect (arena, (DryRect){-100, -100, 100, 100});
  DryRegion inside = dry_region_intersection (arena, &square, &crossed);

  g_assert_cmpuint (inside.n_polygons, ==, 2);
  g_assert_true (dry_region_contains (&inside, (DryPoint){1, 15}));
  g_assert_true (dry_region_contains (&inside, (DryPoint){19, 5}));
  g_assert_false (dry_region_contains (&inside, (DryPoint){10, 1}));
  g_assert_false (dry_region_contains (&inside, (DryPoint){15, 20}));
}

static void
test_extremes (void)
{
  g_autoptr (DryArena) arena = dry_arena_new ();
  DryLength m = DRY_LENGTH_MAX;
  DryRegion all = dry_region_from_rect (arena, (DryRect){-m, -m, m, m});
  DryRegion dot = dry_region_from_rect (arena, (DryRect){m - 1, m - 1, m, m});
  DryRegion rest = dry_region_difference (arena, &all, &dot);

  g_assert_true (dry_region_area2 (&rest) == 2 * ((__int128) 4 * m * m - 1));
  g_assert_cmpint (dry_point_distance ((DryPoint){0, 0}, (DryPoint){3 * DRY_MM, 4 * DRY_MM}), ==,
                   5 * DRY_MM);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/geometry/overlay-against-cells", test_overlay_against_cells);
  g_test_add_func ("/geometry/containment-against-cells", test_containment_against_cells);
  g_test_add_func ("/geometry/equal-regions", test_equal_regions_are_equal_arrays);
  g_test_add_func ("/geometry/hole", test_hole);
  g_test_add_func ("/geometry/simple-rings", test_simple_rings);
  g_test_add_func ("/geometry/ring-measures", test_ring_measures);
  g_test_add_func ("/geometry/nothing", test_nothing);
  g_test_add_func ("/geometry/difference-all", test_difference_all);
  g_test_add_func ("/geometry/copy-and-bounds", test_copy_and_bounds);
  g_test_add_func ("/geometry/repair", test_repair);
  g_test_add_func ("/geometry/extremes", test_extremes);
  return g_test_run ();
}
