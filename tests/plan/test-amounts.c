/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The arithmetic of materials where it has no answer, at its edges, and numbers put into words.
 * Published figures are checked in test-facts-materials.c; this knows none. */
#include "plan/amounts.h"

#include <string.h>

/* What cannot be reckoned is 0, never a division by nothing. */
static void
test_no_answer (void)
{
  const DryLength mm = DRY_MM;

  g_assert_cmpfloat (dry_film_coverage (0.5, 0), ==, 0);
  g_assert_cmpfloat (dry_film_coverage (0.5, 0.25), ==, 2);
  g_assert_cmpfloat (dry_film_wet (0.5, 0, 0), ==, 0);
  g_assert_cmpfloat (dry_film_wet (0.5, 0.5, 0.1), ==, 1.1);
  g_assert_cmpfloat (dry_film_from_mass (3, 0, 0.5, 2), ==, 0);
  g_assert_cmpfloat (dry_film_from_mass (3, 1.5, 0.5, 0), ==, 0);
  g_assert_cmpfloat (dry_film_from_mass (3, 1.5, 0.5, 2), ==, 0.5);
  g_assert_cmpfloat (dry_film_ft2_per_gallon (0), ==, 0);
  g_assert_cmpfloat (dry_film_ft2_per_gallon (20), >, 0);
  g_assert_cmpfloat (dry_bead_yield (0, 6 * mm, 0.3), ==, 0);
  g_assert_cmpfloat_with_epsilon (dry_bead_yield (5 * mm, 6 * mm, 0.3), 10, 1e-9);
  g_assert_cmpfloat (dry_grout_volume_short (0, 100 * mm, 2 * mm, 8 * mm), ==, 0);
  g_assert_cmpfloat (dry_grout_volume_short (100 * mm, 0, 2 * mm, 8 * mm), ==, 0);
  g_assert_cmpfloat (dry_grout_volume_exact (0, 100 * mm, 2 * mm, 8 * mm), ==, 0);
  g_assert_cmpfloat (dry_grout_volume_exact (100 * mm, 0, 2 * mm, 8 * mm), ==, 0);
  /* the printed formula counts the crossings twice, so it never says less */
  g_assert_cmpfloat (dry_grout_volume_short (100 * mm, 50 * mm, 3 * mm, 8 * mm), >,
                     dry_grout_volume_exact (100 * mm, 50 * mm, 3 * mm, 8 * mm));
  /* a board of no known thickness, or none wished, weighs what the data sheet says */
  g_assert_cmpfloat (dry_mass_at_thickness (10, 0, 12 * mm), ==, 10);
  g_assert_cmpfloat (dry_mass_at_thickness (10, 12 * mm, 0), ==, 10);
  g_assert_cmpfloat (dry_mass_at_thickness (10, 12 * mm, 6 * mm), ==, 5);
}

/* --- counts --- */

static void
test_spacing (void)
{
  static const struct {
    DryLength length, spacing;
    guint n;
  } rows[] = {{0, 8, 1}, {-3, 8, 1}, {24, 0, 1}, {24, 8, 4}, {25, 8, 5}, {7, 8, 2}};

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    g_assert_cmpuint (dry_spacing_count (rows[i].length * DRY_INCH, rows[i].spacing * DRY_INCH), ==,
                      rows[i].n);
}

static void
test_packs (void)
{
  static const struct {
    double amount, pack;
    gint64 n;
  } rows[] = {{0, 5, 0},  {-1, 5, 0}, {3, 0, 0},         {1e-9, 5, 1},
              {10, 5, 2}, {11, 5, 3}, {10 + 1e-7, 5, 2}, {10.001, 5, 3}};

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    g_assert_cmpint (dry_packs_for (rows[i].amount, rows[i].pack), ==, rows[i].n);
}

/* Longest first: three lengths of 8 ft give five and two of 3 ft, and the rest stays over. */
static void
test_stock (void)
{
  const DryLength pieces[] = {3 * DRY_FOOT, 5 * DRY_FOOT, 8 * DRY_FOOT, 3 * DRY_FOOT, 5 * DRY_FOOT};

  g_assert_cmpuint (dry_stock_lengths (pieces, 5, 8 * DRY_FOOT), ==, 3);
  g_assert_cmpuint (dry_stock_lengths (pieces, 1, 8 * DRY_FOOT), ==, 1);
  g_assert_cmpuint (dry_stock_lengths (NULL, 0, 8 * DRY_FOOT), ==, 0);
}

static void
test_trowels (void)
{
  static const struct {
    DryLength side;
    guint trowel;
  } rows[] = {{4, 0}, {8, 0}, {9, 1}, {14, 1}, {15, 2}, {24, 2}};

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    g_assert_true (dry_trowel_for_tile (rows[i].side * DRY_INCH) == dry_trowel_at (rows[i].trowel));
  g_assert_null (dry_trowel_at (DRY_N_TROWELS));
}

/* --- numbers as text --- */

static void
test_texts (void)
{
  static const struct {
    double value;
    int decimals;
    const char *text;
  } rows[] = {{1.5, 2, "1.5"},  {2, 3, "2"},        {100, 0, "100"},
              {-0.001, 1, "0"}, {-1.25, 1, "-1.2"}, {1.5, -1, "2"},
              {0.5, 12, "0.5"}, {1200, 2, "1200"},  {1.0 / 3, 9, "0.333333333"}};
  g_autoptr (DryArena) arena = dry_arena_new ();

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    g_assert_cmpstr (dry_number_text (arena, rows[i].value, rows[i].decimals), ==, rows[i].text);
  g_assert_cmpstr (dry_metres_text (arena, 7620 * DRY_MM), ==, "7.62 m");
  g_assert_cmpstr (dry_mm_text (arena, DRY_INCH / 8), ==, "3.175 mm");
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/amounts/no-answer", test_no_answer);
  g_test_add_func ("/amounts/spacing", test_spacing);
  g_test_add_func ("/amounts/packs", test_packs);
  g_test_add_func ("/amounts/stock", test_stock);
  g_test_add_func ("/amounts/trowels", test_trowels);
  g_test_add_func ("/amounts/texts", test_texts);
  return g_test_run ();
}
