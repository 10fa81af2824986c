/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Lengths: every way to write one, every refusal, exactness and the round trip.
 * International foot = 0.3048 m exactly (NIST/NOAA, in force since 1959; the survey foot was
 * retired 2022-12-31). */
#include "base/error.h"
#include "base/length.h"

#include <locale.h>
#include <string.h>

static const struct {
  const char *text;
  DryUnit bare;
  DryLength nanometres;
} READINGS[] = {
    {"5' 1 1/2\"", DRY_UNIT_INCH, 1562100000},
    {"5ft 3.5in", DRY_UNIT_INCH, 1612900000},
    {"5′ 3½″", DRY_UNIT_INCH, 1612900000},
    {"5’ 3 1/2”", DRY_UNIT_INCH, 1612900000},
    {"5'3", DRY_UNIT_MM, 1600200000}, /* after feet a bare number is inches, whatever the bare unit
                                       */
    {"5'-3 1/2\"", DRY_UNIT_INCH, 1612900000},
    {"61-1/2", DRY_UNIT_INCH, 1562100000},
    {"63 1/2", DRY_UNIT_INCH, 1612900000},
    {"63½", DRY_UNIT_INCH, 1612900000},
    {"61.5\"", DRY_UNIT_MM, 1562100000},
    {"60 in.", DRY_UNIT_MM, 1524000000},
    {"1/64", DRY_UNIT_INCH, 396875},
    {".5", DRY_UNIT_INCH, 12700000},
    {"-3/4", DRY_UNIT_INCH, -19050000},
    {"−3/4", DRY_UNIT_INCH, -19050000},
    {"1562", DRY_UNIT_MM, 1562000000},
    {"1562 mm", DRY_UNIT_INCH, 1562000000},
    {"1,6 m", DRY_UNIT_INCH, 1600000000},
    {"0,625 in", DRY_UNIT_MM, 15875000},
    {"156.2cm", DRY_UNIT_INCH, 1562000000},
    {"1 m 20 cm", DRY_UNIT_INCH, 1200000000},
    {"2 METRES", DRY_UNIT_INCH, 2000000000},
    {"0.000001 mm", DRY_UNIT_INCH, 1},
    {"1/3", DRY_UNIT_INCH, 8466667}, /* no exact nanometre: nearest */
    {"1000 m", DRY_UNIT_INCH, DRY_LENGTH_MAX},
    {"5' - 3 1/2\"", DRY_UNIT_INCH, 1612900000},
    {"5' -3", DRY_UNIT_INCH, 1600200000},
    {"61 - 1/2", DRY_UNIT_INCH, 1562100000},
    {"+ 61 1 / 2", DRY_UNIT_INCH, 1562100000},
    {"5 ft. 1 1/2 in.", DRY_UNIT_MM, 1562100000},
    {"12.", DRY_UNIT_MM, 12000000},
    {"1234,567", DRY_UNIT_MM, 1234567000},
    {",625", DRY_UNIT_INCH, 15875000},
    {"0,625", DRY_UNIT_INCH, 15875000},
    {"1600,5", DRY_UNIT_MM, 1600500000},
    {"1.600", DRY_UNIT_M, 1600000000},
    {"2''", DRY_UNIT_MM, 50800000},
    {"1 metre 5 millimeters", DRY_UNIT_INCH, 1005000000},
};

static void
test_readings (void)
{
  for (guint i = 0; i < G_N_ELEMENTS (READINGS); i++) {
    g_autoptr (GError) error = NULL;
    DryLength length = 0;

    g_assert_true (dry_length_parse (READINGS[i].text, READINGS[i].bare, &length, &error));
    g_assert_no_error (error);
    g_assert_cmpint (length, ==, READINGS[i].nanometres);
  }
}

static const struct {
  const char *text, *part_of_message;
} REFUSALS[] = {
    {"60Group\tItem\tAmount\nSheets\t1/2", "“60Group Item Amount…” is not a length: "},
    {"12 and a very long story of how this room came about",
     "“12 and a very long story of how …” is not a length: "},
    {"", "no number"},
    {"wide", "number was expected"},
    {"max", "number was expected"},
    {"12 max", "no unit"},
    {"1,600.5", "two decimal marks"},
    {"1.600,5", "two decimal marks"},
    {"1,600", "thousands mark"},
    {"1.2.3", "two decimal marks"},
    {"12 mm 3", "no unit"},
    {"6 3", "two numbers"},
    {"3 ft 20 mm", "mixes"},
    {"3 in 2 ft", "order"},
    {"3 in 2 in", "order"},
    {"1//2", "denominator"},
    {"1/0", "zero"},
    {"1/99999", "finer"},
    {"1e5", "no unit"},
    {"1000.001 m", "1 km"},
    {"1234567890123456789", "too many digits"},
    {"5'", NULL}, /* fine: five feet */
    {"--5", "number was expected"},
    {"nan", "number was expected"},
    {".", "decimal mark"},
    {"5,", "decimal mark"},
    {"1/", "denominator"},
    {"1 1/", "denominator"},
    {"1 1/0", "zero"},
    {"1234567.123456789", "too many digits"},
    {"1.1234567890123456", "too many digits"},
    {"1/1234567890123456", "too many digits"},
    {"1 1234567890123456/2", "too many digits"},
    {"1-", "no unit"},
    {"1 m 5", "the last number has no unit"},
    {"5' 3' 2", "order"},
    {"5 ft 3 x", "no unit"},
    {"5 ft -", "after the dash"},
    {"5'-", "after the dash"},
    {"12 mm.5", "no unit"},
    {"5 ft 999999999999999 in", "1 km"},
    {"\xff", "UTF-8"},
};

static void
test_refusals (void)
{
  for (guint i = 0; i < G_N_ELEMENTS (REFUSALS); i++) {
    g_autoptr (GError) error = NULL;
    DryLength length = 42;
    gboolean read = dry_length_parse (REFUSALS[i].text, DRY_UNIT_INCH, &length, &error);

    g_test_message ("%s", error ? error->message : REFUSALS[i].text);
    if (!REFUSALS[i].part_of_message) {
      g_assert_true (read);
      continue;
    }
    g_assert_false (read);
    g_assert_error (error, DRY_ERROR, DRY_ERROR_TEXT);
    g_assert_nonnull (strstr (error->message, REFUSALS[i].part_of_message));
    g_assert_cmpint (length, ==, 42);
  }
}

static const struct {
  DryLength length;
  DryLengthFormat format;
  const char *text;
} WRITINGS[] = {
    {1562100000, {DRY_LENGTH_FEET_INCHES, 16, '.'}, "5' 1 1/2\""},
    {1562100000, {DRY_LENGTH_INCHES, 16, '.'}, "61 1/2\""},
    {1562100000, {DRY_LENGTH_INCHES_DECIMAL, 0, ','}, "61,5\""},
    {1562100000, {DRY_LENGTH_MM, 0, '.'}, "1562.1 mm"},
    {1562100000, {DRY_LENGTH_CM, 0, '.'}, "156.21 cm"},
    {1562100000, {DRY_LENGTH_M, 0, ','}, "1,5620 m"},
    {0, {DRY_LENGTH_FEET_INCHES, 16, '.'}, "0\""},
    {-19050000, {DRY_LENGTH_INCHES, 16, '.'}, "-3/4\""},
    {-1, {DRY_LENGTH_INCHES, 16, '.'}, "0\""},
    {1524000000, {DRY_LENGTH_FEET_INCHES, 16, '.'}, "5' 0\""},
    /* rounding comes before feet are split off: 11 63/64 in is a foot to the nearest 1/16 */
    {12 * DRY_INCH - DRY_INCH_64, {DRY_LENGTH_FEET_INCHES, 16, '.'}, "1' 0\""},
    {DRY_INCH_64, {DRY_LENGTH_INCHES, 64, '.'}, "1/64\""},
    /* No rule is without marks or finer than 1/64; no mark given is a point. */
    {DRY_INCH_64, {DRY_LENGTH_INCHES, 1024, '.'}, "1/64\""},
    {DRY_INCH / 2, {DRY_LENGTH_INCHES, 0, '.'}, "1\""},
    {1562123000, {DRY_LENGTH_M, 0, 0}, "1.562 m"},
    /* A comma and three places: only between 1 and 1000 could it be a thousands mark. */
    {562000000, {DRY_LENGTH_M, 0, ','}, "0,562 m"},
    {(DryLength) 999562 * DRY_MM, {DRY_LENGTH_M, 0, ','}, "999,5620 m"},
    {DRY_LENGTH_MAX, {DRY_LENGTH_M, 0, ','}, "1000 m"},
    {-1562100000, {DRY_LENGTH_CM, 0, ','}, "-156,21 cm"},
    {31358001800, {DRY_LENGTH_INCHES_DECIMAL, 0, ','}, "1234,567\""},
    {3135801800, {DRY_LENGTH_INCHES_DECIMAL, 0, ','}, "123,4570\""},
};

static void
test_writings (void)
{
  for (guint i = 0; i < G_N_ELEMENTS (WRITINGS); i++) {
    g_autofree char *text = dry_length_format (WRITINGS[i].length, &WRITINGS[i].format);
    g_assert_cmpstr (text, ==, WRITINGS[i].text);
  }
}

/* Whatever is written reads back as the same length, once it is on the grid it is shown on. */
static void
test_round_trip (void)
{
  static const DryLengthStyle STYLES[] = {DRY_LENGTH_FEET_INCHES, DRY_LENGTH_INCHES, DRY_LENGTH_MM,
                                          DRY_LENGTH_CM, DRY_LENGTH_M};
  g_autoptr (GRand) rand = g_rand_new_with_seed (20261125);

  for (guint i = 0; i < 20000; i++) {
    DryLengthFormat format = {STYLES[i % 5], 1 << g_rand_int_range (rand, 0, 7), i & 4 ? ',' : '.'};
    gboolean inches = format.style <= DRY_LENGTH_INCHES;
    DryLength step = inches                         ? DRY_INCH / format.denominator
                     : format.style == DRY_LENGTH_M ? DRY_MM
                                                    : DRY_MM / 10;
    DryLength length = g_rand_int_range (rand, -30000, 30000) * step, back = 0;
    g_autofree char *text = dry_length_format (length, &format);
    g_autoptr (GError) error = NULL;

    g_assert_true (dry_length_parse (text, DRY_UNIT_MM, &back, &error));
    g_assert_cmpint (back, ==, length);
  }
}

static void
test_millimetre_text (void)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (7);

  for (guint i = 0; i < 20000; i++) {
    DryLength length = (DryLength) g_rand_double_range (rand, -1e12, 1e12), back = 0;
    g_autofree char *text = dry_length_to_mm_text (length);

    g_assert_true (dry_length_from_mm (g_ascii_strtod (text, NULL), &back));
    g_assert_cmpint (back, ==, length);
  }
}

static void
test_locale (void)
{
  DryLengthFormat format = {DRY_LENGTH_MM, 0, '.'};
  g_autofree char *text = NULL;
  DryLength length = 0;

  if (!setlocale (LC_ALL, "de_DE.UTF-8")) {
    g_test_skip ("no de_DE locale here");
    return;
  }
  text = dry_length_format (1562100000, &format);
  g_assert_cmpstr (text, ==, "1562.1 mm");
  g_assert_true (dry_length_parse ("1562.1 mm", DRY_UNIT_MM, &length, NULL));
  g_assert_cmpint (length, ==, 1562100000);
  setlocale (LC_ALL, "C");
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/length/readings", test_readings);
  g_test_add_func ("/length/refusals", test_refusals);
  g_test_add_func ("/length/writings", test_writings);
  g_test_add_func ("/length/round-trip", test_round_trip);
  g_test_add_func ("/length/millimetre-text", test_millimetre_text);
  g_test_add_func ("/length/locale", test_locale);
  return g_test_run ();
}
