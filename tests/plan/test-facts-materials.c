/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Check values of the arithmetic of materials, each with the source it was published in or, where
 * it is plain arithmetic, the words "derived". */
#include "plan/amounts.h"

#include <math.h>

#define IN(x) ((DryLength) ((x) *25400000.0))
#define MM(x) ((DryLength) ((x) *1000000.0))

typedef struct {
  const char *source;
  double got, want, within;
} Check;

static void
run_checks (const Check *checks, guint n)
{
  for (guint i = 0; i < n; i++) {
    if (fabs (checks[i].got - checks[i].want) > checks[i].within)
      g_test_message ("%s: got %.6f, want %.6f", checks[i].source, checks[i].got, checks[i].want);
    g_assert_cmpfloat (fabs (checks[i].got - checks[i].want), <=, checks[i].within);
  }
}

/* m2 a litre to square feet a gallon. */
static double
in_ft2_per_gallon (double m2_per_litre)
{
  return m2_per_litre * DRY_LITRES_PER_GALLON / DRY_M2_PER_FT2;
}

static void
test_films (void)
{
  /* 1 lb a gallon in kg/L */
  const double density = DRY_KG_PER_LB / DRY_LITRES_PER_GALLON;
  const Check checks[] = {
      {"film constant 231 in3/gal / 0.001 in / 144, coating references",
       dry_film_ft2_per_gallon (1), 1604.17, 0.005},
      {"the same at 10 mil", dry_film_ft2_per_gallon (10), 160.417, 0.0005},
      {"65 % solids at 5 mil dry, coating references",
       in_ft2_per_gallon (dry_film_coverage (0.65, 5 * DRY_MM_PER_MIL)), 208.5, 0.1},
      {"65 % at 125 um: 5.2 m2/L, coating references", dry_film_coverage (0.65, 0.125), 5.2, 1e-9},
      {"2.8 mil dry at 35 % is 8 mil wet, estimating guide", dry_film_wet (2.8, 0.35, 0), 8, 1e-9},
      {"thinned by a quarter, estimating guide", dry_film_wet (2.8, 0.35, 0.25), 10, 1e-9},
      {"50 % solids at 1 mil, estimating guide",
       in_ft2_per_gallon (dry_film_coverage (0.5, 1 * DRY_MM_PER_MIL)), 802, 1},
      {"50 % at 2 mil", in_ft2_per_gallon (dry_film_coverage (0.5, 2 * DRY_MM_PER_MIL)), 401, 1},
      {"50 % at 4 mil", in_ft2_per_gallon (dry_film_coverage (0.5, 4 * DRY_MM_PER_MIL)), 201, 1},
      {"50 % at 5 mil", in_ft2_per_gallon (dry_film_coverage (0.5, 5 * DRY_MM_PER_MIL)), 160, 1},
      {"50 % at 8 mil", in_ft2_per_gallon (dry_film_coverage (0.5, 8 * DRY_MM_PER_MIL)), 100, 1},
      {"mils = 1604 x (lb / lb per gal) x solids / ft2, coating archive: 11 lb of 11 lb/gal, 50 %, "
       "802 ft2",
       dry_film_from_mass (11 * DRY_KG_PER_LB, 11 * density, 0.5, 802 * DRY_M2_PER_FT2) /
           DRY_MM_PER_MIL,
       1, 0.001},
      {"derived: a millimetre on a square metre is a litre", dry_film_volume (1, 1), 1, 0},
  };

  run_checks (checks, G_N_ELEMENTS (checks));
}

static void
test_beads (void)
{
  const double inch3 = 0.016387064; /* litres */
  const double cartridge = 10.1 * DRY_LITRES_PER_FLUID_OUNCE, foot = 0.3048;
  const Check checks[] = {
      {"10.1 fl oz = 18.227 in3, sealant trade page", cartridge / inch3, 18.227, 0.001},
      {"27 fl oz = 48.7 in3, sealant trade page", 27 * DRY_LITRES_PER_FLUID_OUNCE / inch3, 48.7,
       0.05},
      {"30 fl oz = 54.1 in3, sealant trade page", 30 * DRY_LITRES_PER_FLUID_OUNCE / inch3, 54.1,
       0.05},
      {"1/4 x 1/4 in: 24.3 ft a cartridge, derived",
       dry_bead_yield (IN (0.25), IN (0.25), cartridge) / foot, 24.3, 0.05},
      {"6 x 6 mm: 8.33 m per 300 mL, derived", dry_bead_yield (MM (6), MM (6), 0.3), 8.33, 0.005},
      {"triangular 1/4 in leg: 48.6 ft a cartridge, derived",
       cartridge / dry_bead_fillet_volume (IN (0.25), 1) / foot, 48.6, 0.05},
  };

  run_checks (checks, G_N_ELEMENTS (checks));
}

static void
test_grout_and_mortar (void)
{
  const Check checks[] = {
      {"300 x 300, 3, 8 mm, widely printed formula",
       dry_grout_volume_short (MM (300), MM (300), MM (3), MM (8)), 0.160, 1e-9},
      {"300 x 600, 2, 9 mm, widely printed formula",
       dry_grout_volume_short (MM (300), MM (600), MM (2), MM (9)), 0.090, 1e-9},
      {"25 mm mosaic, 3 mm joint, short formula, derived",
       dry_grout_volume_short (MM (25), MM (25), MM (3), MM (1)), 0.240, 1e-9},
      {"25 mm mosaic, 3 mm joint, exact, derived",
       dry_grout_volume_exact (MM (25), MM (25), MM (3), MM (1)), 0.203, 0.0005},
      {"1/4 in square notch leaves 1/8 in, derived",
       dry_trowel_mean_thickness_mm (dry_trowel_at (0)), 3.175, 1e-9},
      {"200 ft2 at 65 ft2 a bag are 4 bags, how-to page", (double) dry_packs_for (200.0 / 65.0, 1),
       4, 0},
  };

  run_checks (checks, G_N_ELEMENTS (checks));
  for (int a = 10; a < 700; a += 37)
    for (int joint = 1; joint < 12; joint += 2) /* derived: the short formula never understates */
      g_assert_cmpfloat (dry_grout_volume_exact (MM (a), MM (2 * a), MM (joint), MM (8)), <=,
                         dry_grout_volume_short (MM (a), MM (2 * a), MM (joint), MM (8)));
}

/* 50 lb bags: 1/4 sq 80-100 ft2, 1/4 x 3/8 60-80, 1/2 x 1/2 40-50; generic how-to pages. */
static void
test_trowels (void)
{
  static const double low[] = {80, 60, 40}, high[] = {100, 80, 50};

  for (guint i = 0; i < DRY_N_TROWELS; i++) {
    double ft2 = 50 * DRY_KG_PER_LB / dry_trowel_mass (dry_trowel_at (i)) / DRY_M2_PER_FT2;
    g_assert_cmpfloat (ft2, >=, low[i]);
    g_assert_cmpfloat (ft2, <=, high[i]);
  }
  g_assert_null (dry_trowel_at (DRY_N_TROWELS));
  g_assert_true (dry_trowel_for_tile (IN (6)) == dry_trowel_at (0));
  g_assert_true (dry_trowel_for_tile (IN (12)) == dry_trowel_at (1));
  g_assert_true (dry_trowel_for_tile (IN (24)) == dry_trowel_at (2));
}

/* Gypsum board 0.55 psf per 1/8 in, 0.008 kN/m2 per mm: ASCE 7-05 table C3-1. */
static void
test_board_mass (void)
{
  double eighth = dry_mass_from_psf (0.55);
  double half = dry_mass_at_thickness (eighth, IN (0.125), IN (0.5));
  const Check checks[] = {
      {"1/2 in board: 2.2 psf", half * DRY_M2_PER_FT2 / DRY_KG_PER_LB, 2.2, 1e-9},
      {"0.008 kN/m2 per mm", half * 9.80665 / 1000 / 12.7, 0.008, 0.0005},
  };

  run_checks (checks, G_N_ELEMENTS (checks));
  g_assert_cmpfloat (dry_mass_at_thickness (10, 0, IN (0.5)), ==, 10);
}

static void
test_spacing_and_packs (void)
{
  static const struct {
    double amount, pack;
    gint64 packs;
  } packs[] = {
      {0, 5, 0},     {-1, 5, 0},          {5, 0, 0},         {0.001, 5, 1},
      {5, 5, 1},     {5.01, 5, 2},        {3.0000001, 1, 3}, {2.9999999, 1, 3},
      {3.001, 1, 4}, {0.1 + 0.2, 0.1, 3}, {1e-9, 1, 1},      {1200, 0.3, 4000},
  };

  for (guint i = 0; i < G_N_ELEMENTS (packs); i++)
    g_assert_cmpint (dry_packs_for (packs[i].amount, packs[i].pack), ==, packs[i].packs);
  /* 8 in o.c. on a 60 in edge, 1/2 in from both ends: ANSI A108.11 as reported in trade press */
  g_assert_cmpuint (dry_spacing_count (IN (59), IN (8)), ==, 9);
  g_assert_cmpuint (dry_spacing_count (IN (8), IN (8)), ==, 2);
  g_assert_cmpuint (dry_spacing_count (0, IN (8)), ==, 1);
}

static void
test_stock (void)
{
  const DryLength five[] = {IN (60), IN (60), IN (60), IN (60), IN (60)};
  const DryLength mixed[] = {IN (14.5), IN (90), IN (14.5), IN (40), IN (40), IN (5)};

  g_assert_cmpuint (dry_stock_lengths (five, 5, IN (96)), ==, 5); /* 25 ft, yet not four of 8 ft */
  g_assert_cmpuint (dry_stock_lengths (mixed, 6, IN (96)), ==, 3);
  g_assert_cmpuint (dry_stock_lengths (NULL, 0, IN (96)), ==, 0);
}

static void
test_texts (void)
{
  g_autoptr (DryArena) arena = dry_arena_new ();

  g_assert_cmpstr (dry_number_text (arena, 7.620, 2), ==, "7.62");
  g_assert_cmpstr (dry_number_text (arena, 7.5, 3), ==, "7.5");
  g_assert_cmpstr (dry_number_text (arena, 100, 2), ==, "100");
  g_assert_cmpstr (dry_number_text (arena, 100, 0), ==, "100");
  g_assert_cmpstr (dry_number_text (arena, -0.001, 2), ==, "0");
  g_assert_cmpstr (dry_metres_text (arena, IN (300)), ==, "7.62 m");
  g_assert_cmpstr (dry_mm_text (arena, IN (0.125)), ==, "3.175 mm");
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/plan/facts/films", test_films);
  g_test_add_func ("/plan/facts/beads", test_beads);
  g_test_add_func ("/plan/facts/grout-and-mortar", test_grout_and_mortar);
  g_test_add_func ("/plan/facts/trowels", test_trowels);
  g_test_add_func ("/plan/facts/board-mass", test_board_mass);
  g_test_add_func ("/plan/facts/spacing-and-packs", test_spacing_and_packs);
  g_test_add_func ("/plan/facts/stock", test_stock);
  g_test_add_func ("/plan/facts/texts", test_texts);
  return g_test_run ();
}
