/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Slopes as typed and as shown: inches a foot, per cent, ratios, angles, in either kind of job, and
 * that what is typed comes back as it was. */
#include "base/slope.h"

/* A fall of 1/4 in per ft is 1:48, 2.0833 per cent; of 1 in per ft, 1:12 (arithmetic: 12 in to the
 * foot). Tangents from math.h's own: tan 45° = 1. */
static void
test_parse (void)
{
  static const struct {
    const char *text;
    gboolean metric;
    double slope; /* -1: refused */
  } ROWS[] = {
      {"1/4 in/ft", FALSE, 1 / 48.0},
      {"1/4 in/ft", TRUE, 1 / 48.0},
      {"1/4\" per ft", FALSE, 1 / 48.0},
      {"1/4\" per foot", TRUE, 1 / 48.0},
      {"1/4 in per 12 in", FALSE, 1 / 48.0},
      {"1/4 per ft", FALSE, 1 / 48.0},
      {"1/4/ft", FALSE, 1 / 48.0},
      {"¼\"/ft", FALSE, 1 / 48.0},
      {"1/4", FALSE, 1 / 48.0},
      {"1/4\"", FALSE, 1 / 48.0},
      {" 0.25 ", FALSE, 1 / 48.0},
      {"0,25", FALSE, 1 / 48.0},
      {"1 1/2", FALSE, 1 / 8.0},
      {"2", FALSE, 1 / 6.0},
      {"2", TRUE, 0.02},
      {"2 %", FALSE, 0.02},
      {"2%", TRUE, 0.02},
      {"2,08 %", TRUE, 0.0208},
      {"2\u00a0%", TRUE, 0.02},
      {"1/2 %", TRUE, 0.005},
      {"1:48", FALSE, 1 / 48.0},
      {"1 : 48", TRUE, 1 / 48.0},
      {"1/4 : 12", FALSE, 1 / 48.0},
      {"1/4 in : 12 in", TRUE, 1 / 48.0},
      {"20 mm per m", FALSE, 0.02},
      {"20 mm/m", TRUE, 0.02},
      {"2 cm/m", TRUE, 0.02},
      {"20/m", TRUE, 0.02},
      {"20 per m", FALSE, 0.02},
      {"45°", FALSE, 1},
      {"0 °", TRUE, 0},
      {"0", FALSE, 0},
      {"0", TRUE, 0},
      {"", FALSE, -1},
      {"%", TRUE, -1},
      {"°", TRUE, -1},
      {":", FALSE, -1},
      {"1:", FALSE, -1},
      {":48", FALSE, -1},
      {"1:0", FALSE, -1},
      {"1:-48", FALSE, -1},
      {"1:2:3", FALSE, -1},
      {"-1/4", FALSE, -1},
      {"-2 %", TRUE, -1},
      {"90°", FALSE, -1},
      {"6 mm", FALSE, -1},
      {"6 mm", TRUE, -1},
      {"2 in", TRUE, -1},
      {"2\" %", TRUE, -1},
      {"2 in %", FALSE, -1},
      {"2″ %", TRUE, -1},
      {"2” : 48", TRUE, 1 / 24.0},
      {"1/4 in per", FALSE, -1},
      {"per ft", FALSE, -1},
      {"/ft", FALSE, -1},
      {"1/4 in/yard", FALSE, -1},
      {"steep", FALSE, -1},
      {"100 m per m", FALSE, 100},
      {"101 m per m", FALSE, -1},
      {"1 km per 1 mm", FALSE, -1},
      {"999 m : 0.000001 mm", FALSE, -1},
      {"nan", TRUE, -1},
      {"inf %", TRUE, -1},
      {"1e3", TRUE, -1},
      {"1111111111111111111111111111111111111111111111111111111111111111111 %", TRUE, -1},
  };

  for (guint i = 0; i < G_N_ELEMENTS (ROWS); i++) {
    double slope = -1;

    g_test_message ("“%s”", ROWS[i].text);
    g_assert_true (dry_slope_parse (ROWS[i].text, ROWS[i].metric, &slope) == (ROWS[i].slope >= 0));
    g_assert_cmpfloat_with_epsilon (slope, ROWS[i].slope, 1e-9);
  }
}

static void
test_format (void)
{
  static const struct {
    double slope;
    gboolean metric;
    char decimal;
    const char *text;
  } ROWS[] = {
      {1 / 48.0, FALSE, '.', "1/4 in/ft"},
      {0.0208, FALSE, '.', "1/4 in/ft"},
      {0.020833, TRUE, '.', "2.08 %"},
      {0.0208, TRUE, ',', "2,08 %"},
      {0.02, FALSE, '.', "0.24 in/ft"},
      {0.02, FALSE, ',', "0,24 in/ft"},
      {0.02, TRUE, '.', "2 %"},
      {1 / 6.0, FALSE, '.', "2 in/ft"},
      {0.1667, FALSE, '.', "2 in/ft"},
      {1.5 / 12, FALSE, '.', "1 1/2 in/ft"},
      {0, FALSE, '.', "0 in/ft"},
      {0, TRUE, '.', "0 %"},
      {0.00005, FALSE, '.', "0.001 in/ft"},
      {1, FALSE, '.', "12 in/ft"},
      {1e15, FALSE, '.', "12000000000000000 in/ft"},
      {1.237 / 12, FALSE, ',', "1,2370 in/ft"},
      {0.234 / 12, FALSE, ',', "15/64 in/ft"},
      {0.237 / 12, FALSE, ',', "0,237 in/ft"},
      {1.237 / 12, FALSE, '.', "1.237 in/ft"},
      {1, TRUE, '.', "100 %"},
      {13 / 64.0 / 12, FALSE, '.', "13/64 in/ft"},
  };

  for (guint i = 0; i < G_N_ELEMENTS (ROWS); i++) {
    g_autofree char *text = dry_slope_format (ROWS[i].slope, ROWS[i].metric, ROWS[i].decimal);
    double back = -1;

    g_assert_cmpstr (text, ==, ROWS[i].text);
    if (ROWS[i].slope <= 100) /* what is shown can be typed */
      g_assert_true (dry_slope_parse (text, FALSE, &back) && ABS (back - ROWS[i].slope) < 1e-4);
  }
}

/* Whatever is typed to a hundredth of a per cent or a sixty-fourth of an inch is shown as typed. */
static void
test_round_trip (void)
{
  for (int n = 0; n <= 10000; n += 7)
    for (int metric = 0; metric < 2; metric++) {
      double slope = metric ? n / 10000.0 : n / 64.0 / 12, again = -1;
      g_autofree char *shown = dry_slope_format (slope, metric, ',');
      g_autofree char *once_more = NULL;

      g_assert_true (dry_slope_parse (shown, !metric, &again));
      g_assert_cmpfloat_with_epsilon (again, slope, 1e-9);
      once_more = dry_slope_format (again, metric, ',');
      g_assert_cmpstr (once_more, ==, shown);
    }
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/base/slope/parse", test_parse);
  g_test_add_func ("/base/slope/format", test_format);
  g_test_add_func ("/base/slope/round-trip", test_round_trip);
  return g_test_run ();
}
