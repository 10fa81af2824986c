/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Exact measures and overlay: area is conserved to the square nanometre for axis-parallel shapes.
 * The oracle for overlay is counting unit cells, independent of GEOS. */
#include "base/geometry.h"

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
};

static void
test_simple_rings (void)
{
  for (guint i = 0; i < G_N_ELEMENTS (RINGS); i++) {
    DryRing ring = {(DryPoint *) RINGS[i].points, RINGS[i].n};
    g_assert_cmpint (dry_ring_is_simple (&ring), ==, RINGS[i].simple);
  }
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
  g_test_add_func ("/geometry/extremes", test_extremes);
  return g_test_run ();
}
