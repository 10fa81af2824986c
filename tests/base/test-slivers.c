/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Overlay of slanted shapes whose edges all but touch, as a leaning wall's board makes them: an
 * answer comes, and it is the right one. The oracle is exact: points asked of each shape by itself,
 * independent of GEOS. */
#include "base/geometry.h"

#define MOST 12

typedef struct {
  DryPoint points[6];
  guint n;
} Shape;

static gboolean
is_inside (const Shape *shape, DryPoint p)
{
  DryRing ring = {(DryPoint *) shape->points, shape->n};

  return dry_ring_contains (&ring, p);
}

/* Twice the distance in which corners may have been rounded, squared into an area, is far below
 * what a grid can see: points that near an edge are left out. */
static gboolean
is_near_edge (const Shape *shape, DryPoint p)
{
  for (gint dx = -4; dx <= 4; dx += 8)
    for (gint dy = -4; dy <= 4; dy += 8)
      if (is_inside (shape, (DryPoint){p.x + dx, p.y + dy}) != is_inside (shape, p))
        return TRUE;
  return FALSE;
}

/* What the shapes leave of the first is the same, asked point by point. */
static void
assert_left (const Shape *shapes, guint n_shapes, guint n_grid)
{
  g_autoptr (DryArena) arena = dry_arena_new ();
  DryRegion regions[MOST], left;
  DryRing first = {(DryPoint *) shapes[0].points, shapes[0].n};
  DryRect bounds = dry_ring_bounds (&first);

  for (guint i = 0; i < n_shapes; i++)
    regions[i] = dry_region_from_ring (arena, shapes[i].points, shapes[i].n);
  left = dry_region_difference_all (arena, &regions[0], regions + 1, n_shapes - 1);
  for (guint k = 0; k < n_grid * n_grid; k++) {
    DryPoint p = {bounds.x0 + dry_rect_width (bounds) * (k % n_grid) / n_grid + 977,
                  bounds.y0 + dry_rect_height (bounds) * (k / n_grid) / n_grid + 1009};
    gboolean inside = is_inside (&shapes[0], p), edge = is_near_edge (&shapes[0], p);

    for (guint i = 1; i < n_shapes; i++) {
      edge |= is_near_edge (&shapes[i], p);
      inside &= !is_inside (&shapes[i], p);
    }
    if (!edge && inside != dry_region_contains (&left, p))
      g_error ("%" G_GINT64_FORMAT ", %" G_GINT64_FORMAT " is %s", p.x, p.y,
               inside ? "missing" : "left over");
  }
}

/* A board less its neighbors' edges and what is in it: the third operation left a line beside the
 * areas, and the next one refused such a mixture. Drybay ended there, for memory that did not lack.
 * (From a random sequence of edits.) */
static void
test_line_left (void)
{
  static const Shape shapes[] = {
      {{{198648045, -38125947},
        {1530716376, 19856902},
        {2513012500, 0},
        {2513012500, 1609725000},
        {266085001, 1615685101}},
       5},
      {{{2512978813, 1597025045},
        {2513012500, 1609725000},
        {266085001, 1615685101},
        {266051314, 1602985146}},
       4},
      {{{2500312500, 768350000},
        {2513012500, 768350000},
        {2513012500, 1609725000},
        {2500312500, 1609725000}},
       4},
      {{{2500312500, 0}, {2513012500, 0}, {2513012500, 768350000}, {2500312500, 768350000}}, 4},
      {{{2513012500, 0}, {2513269175, 12697406}, {1530973051, 32554308}, {1530716376, 19856902}},
       4},
      {{{198648045, -38125947},
        {1530716376, 19856902},
        {1530164088, 32544888},
        {198095757, -25437961}},
       4},
      {{{211337500, -38643381},
        {278774456, 1615167667},
        {266085001, 1615685101},
        {198648045, -38125947}},
       4},
      {{{184150000, 831850000},
        {1162050000, 831850000},
        {1162050000, 946150000},
        {184150000, 946150000}},
       4},
      {{{1389062500, 207962500},
        {1503362500, 207962500},
        {1503362500, 496887500},
        {1389062500, 496887500}},
       4},
      {{{412750000, 1501775000},
        {871537500, 1501775000},
        {871537500, 1616075000},
        {412750000, 1616075000}},
       4},
      {{{2487104500, 768350000},
        {2513012500, 768350000},
        {2513012500, 1509712498},
        {2487104500, 1509712498}},
       4},
      {{{2487104500, 0}, {2513012500, 0}, {2513012500, 768350000}, {2487104500, 768350000}}, 4},
  };

  assert_left (shapes, G_N_ELEMENTS (shapes), 200);
}

/* The sixth operation left a sliver that had got the hole of its neighbor, and lay outside of it:
 * that is no polygon. (From another sequence.) */
static void
test_hole_of_a_neighbor (void)
{
  static const Shape shapes[] = {
      {{{0, 0}, {1927225000, 0}, {1927225000, 2066925000}, {74612500, 1968500000}}, 4},
      {{{75286271, 1955817885},
        {1927898772, 2054242885},
        {1927225000, 2066925000},
        {74612500, 1968500000}},
       4},
      {{{1914525000, 1889125000},
        {1927225000, 1889125000},
        {1927225000, 2066925000},
        {1914525000, 2066925000}},
       4},
      {{{1914525000, 0}, {1927225000, 0}, {1927225000, 1889125000}, {1914525000, 1889125000}}, 4},
      {{{963612500, 0}, {1927225000, 0}, {1927225000, 12700000}, {963612500, 12700000}}, 4},
      {{{0, 0}, {963612500, 0}, {963612500, 12700000}, {0, 12700000}}, 4},
      {{{12690887, -481026}, {87303387, 1968018975}, {74612500, 1968500000}, {0, 0}}, 4},
      {{{238125000, 715962500},
        {746125000, 715962500},
        {746125000, 830262500},
        {238125000, 830262500}},
       4},
      {{{49688010, 975613271},
        {87303387, 1968018975},
        {74612500, 1968500000},
        {36997123, 976094297}},
       4},
      {{{75286271, 1955817885},
        {1801639129, 2047535004},
        {1800965358, 2060217118},
        {74612500, 1968500000}},
       4},
      {{{131288077, 1081257302},
        {1748257696, 1167163143},
        {1701093705, 2054911169},
        {84124086, 1969005328}},
       4},
  };

  assert_left (shapes, G_N_ELEMENTS (shapes), 200);
}

/* --- at random --- */

static DryLength
wobble (GRand *random, DryLength by)
{
  return g_rand_int_range (random, 0, 3) == 0
             ? 0
             : (DryLength) ((g_rand_double (random) - 0.5) * 2 * (double) by);
}

static Shape
make_rect (DryLength x0, DryLength y0, DryLength x1, DryLength y1)
{
  return (Shape){{{x0, y0}, {x1, y0}, {x1, y1}, {x0, y1}}, 4};
}

/* Along an edge, so thick on the inside of it: as the board beside it takes it. */
static Shape
make_strip (DryPoint a, DryPoint b, DryLength thick)
{
  double length = (double) MAX (dry_point_distance (a, b), 1);
  DryLength dx = (DryLength) (-(double) (b.y - a.y) / length * (double) thick);
  DryLength dy = (DryLength) ((double) (b.x - a.x) / length * (double) thick);

  return (Shape){{a, b, {b.x + dx, b.y + dy}, {a.x + dx, a.y + dy}}, 4};
}

/* Along a part of an edge, and up to the whole depth of the board: corners there are rounded. */
static Shape
make_part_strip (GRand *random, DryPoint a, DryPoint b, DryLength thick)
{
  double from = g_rand_double_range (random, 0, 0.6);
  double to = g_rand_boolean (random) ? 1 : g_rand_double_range (random, 0.6, 1);
  DryPoint p = {a.x + (DryLength) ((double) (b.x - a.x) * from),
                a.y + (DryLength) ((double) (b.y - a.y) * from)};
  DryPoint q = {a.x + (DryLength) ((double) (b.x - a.x) * to),
                a.y + (DryLength) ((double) (b.y - a.y) * to)};

  return make_strip (p, q, g_rand_boolean (random) ? thick : 20 * thick);
}

static void
test_random (void)
{
  g_autoptr (GRand) random = g_rand_new_with_seed (5);
  guint n = g_test_quick () ? 2000 : 100000;

  for (guint i = 0; i < n; i++) {
    DryLength w = 100 * DRY_INCH_64 * g_rand_int_range (random, 20, 60), h = w / 2 + DRY_INCH;
    DryLength thick = DRY_INCH_64 * g_rand_int_range (random, 16, 64), by = 2 * DRY_INCH;
    Shape shapes[MOST] = {{{{wobble (random, by), wobble (random, by)},
                            {w / 2, wobble (random, by)},
                            {w, 0},
                            {w, h},
                            {wobble (random, by), h + wobble (random, by)}},
                           5}};
    guint n_shapes = 1;

    for (guint k = 0; k < 5; k++)
      if (n_shapes < 7 && g_rand_boolean (random))
        shapes[n_shapes++] =
            make_part_strip (random, shapes[0].points[k], shapes[0].points[(k + 1) % 5], thick);
    for (guint k = 0; k < 5; k++)
      if (n_shapes < 8 && g_rand_boolean (random))
        shapes[n_shapes++] = make_strip (shapes[0].points[k], shapes[0].points[(k + 1) % 5], thick);
    shapes[n_shapes++] = make_rect (w - thick, 0, w, h / 2);
    shapes[n_shapes++] = make_rect (w - 2 * thick, 0, w, h / 2);
    shapes[n_shapes++] = make_rect (w - thick, h / 2, w, h);
    shapes[n_shapes++] = make_rect (w / 3, h - thick, w / 2, h + thick);
    assert_left (shapes, n_shapes, 12);
  }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/slivers/line-left", test_line_left);
  g_test_add_func ("/slivers/hole-of-a-neighbor", test_hole_of_a_neighbor);
  g_test_add_func ("/slivers/random", test_random);
  return g_test_run ();
}
