/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The largest circle beside what stands in a rectangle, against a grid of centres, each asked how
 * near the nearest edge is, and against values of plane geometry. */
#include "plan/inscribed-circle.h"

#include <math.h>

#define UNIT 1000000 /* a millimetre */

/* How large a circle round (x, y) may be: its radius. */
static double
ask (const DryInscribed *shape, double x, double y)
{
  double w = (double) shape->clear.x1, h = (double) shape->clear.y1, leg = (double) shape->leg;
  double r = MIN (MIN (x, w - x), MIN (y, h - y));

  for (guint i = 0; i < shape->n_taken; i++) {
    DryRect taken = shape->taken[i];
    double dx = MAX (MAX ((double) taken.x0 - x, x - (double) taken.x1), 0);
    double dy = MAX (MAX ((double) taken.y0 - y, y - (double) taken.y1), 0);
    r = MIN (r, hypot (dx, dy));
  }
  if (shape->cut >= 0) {
    double over = shape->cut >= 2 ? w - x : x;
    double up = shape->cut == 0 || shape->cut == 3 ? h - y : y;
    r = MIN (r, (over + up - leg) / G_SQRT2);
  }
  return r;
}

static void
test_against_grid (void)
{
  g_autoptr (GRand) random = g_rand_new_with_seed (11);
  guint n = g_test_quick () ? 300 : 5000;

  for (guint i = 0; i < n; i++) {
    DryRect taken[4];
    DryInscribed shape = {.clear = {0, 0, g_rand_int_range (random, 600, 2000) * (DryLength) UNIT,
                                    g_rand_int_range (random, 600, 2000) * (DryLength) UNIT},
                          .taken = taken,
                          .n_taken = (guint) g_rand_int_range (random, 0, 5),
                          .cut = g_rand_int_range (random, -1, 4),
                          .leg = g_rand_int_range (random, 50, 500) * (DryLength) UNIT};
    double step = (double) MAX (shape.clear.x1, shape.clear.y1) / 200, best = 0, circle;

    for (guint k = 0; k < shape.n_taken; k++) {
      DryLength x = (DryLength) (g_rand_double (random) * (double) shape.clear.x1);
      DryLength y = (DryLength) (g_rand_double (random) * (double) shape.clear.y1);
      DryLength w = g_rand_int_range (random, 50, 900) * (DryLength) UNIT;
      DryLength h = g_rand_int_range (random, 50, 900) * (DryLength) UNIT;
      taken[k] = dry_rect_intersect (
          (DryRect){g_rand_boolean (random) ? 0 : x, g_rand_boolean (random) ? 0 : y, x + w, y + h},
          shape.clear);
    }
    for (double x = 0; x <= (double) shape.clear.x1; x += step)
      for (double y = 0; y <= (double) shape.clear.y1; y += step)
        best = MAX (best, ask (&shape, x, y));
    circle = (double) dry_inscribed_circle (&shape) / 2;
    if (circle < best - UNIT / 1000.0 || circle > best + step)
      g_error ("case %u: radius %.4f mm, on the grid %.4f, its step %.2f", i, circle / UNIT,
               best / UNIT, step / UNIT);
  }
}

static void
test_values (void)
{
  static const DryRect seat[] = {{0, 0, 300 * (DryLength) UNIT, 300 * (DryLength) UNIT}};
  static const DryRect island[] = {{400 * (DryLength) UNIT, 400 * (DryLength) UNIT,
                                    600 * (DryLength) UNIT, 600 * (DryLength) UNIT}};
  static const DryRect full[] = {{0, 0, 1000 * (DryLength) UNIT, 1000 * (DryLength) UNIT}};
  static const struct {
    const DryRect *taken;
    gint cut;
    double leg, diameter; /* of a square of 1000 */
  } rows[] = {
      {NULL, -1, 0, 1000},
      {seat, -1, 0, 2 * 700 * (2 - G_SQRT2)},
      /* round an island: into a corner, from the island's own */
      {island, -1, 0, 2 * 400 * (2 - G_SQRT2)},
      {full, -1, 0, 0},
      {NULL, 2, 600, 2 * 1400 / (2 + G_SQRT2)},
      {NULL, 0, 100, 1000},
      /* a seat in one corner, the one across cut off: it touches a side at y = 1000 - r, the cut at
       * x = 700 + r - r sqrt 2, and the seat's corner, (x - 300)^2 + (700 - r)^2 = r^2; the root of
       * 0.171573 r^2 - 1731.370850 r + 650000 */
      {seat, 3, 300, 781.0787},
  };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++) {
    DryInscribed shape = {.clear = {0, 0, 1000 * (DryLength) UNIT, 1000 * (DryLength) UNIT},
                          .taken = rows[i].taken,
                          .n_taken = rows[i].taken != NULL,
                          .cut = rows[i].cut,
                          .leg = (DryLength) (rows[i].leg * UNIT)};

    g_test_message ("row %u", i);
    g_assert_cmpfloat_with_epsilon ((double) dry_inscribed_circle (&shape) / UNIT, rows[i].diameter,
                                    0.001);
  }
}

/* So many things that only squares are looked for: never more than fits. */
static void
test_many (void)
{
  DryRect taken[12];
  DryInscribed shape = {.clear = {0, 0, 1200 * (DryLength) UNIT, 800 * (DryLength) UNIT},
                        .taken = taken,
                        .n_taken = G_N_ELEMENTS (taken),
                        .cut = 2,
                        .leg = 100 * (DryLength) UNIT};

  for (DryLength i = 0; i < (DryLength) G_N_ELEMENTS (taken); i++)
    taken[i] = (DryRect){i * 100 * UNIT, 0, (i * 100 + 50) * UNIT, 300 * UNIT};
  g_assert_cmpint (dry_inscribed_circle (&shape), ==, 500 * (DryLength) UNIT);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/inscribed-circle/against-grid", test_against_grid);
  g_test_add_func ("/inscribed-circle/values", test_values);
  g_test_add_func ("/inscribed-circle/many", test_many);
  return g_test_run ();
}
