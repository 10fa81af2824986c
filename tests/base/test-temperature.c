/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Temperatures as typed and as shown: each unit in either kind of job, and that what is typed comes
 * back as it was. */
#include "base/temperature.h"

/* 0 °C is 32 °F, 100 °C is 212 °F; a degree Celsius is 1.8 degrees Fahrenheit (NIST SP 811, B.8).
 */
static void
test_parse (void)
{
  static const struct {
    const char *text;
    gboolean fahrenheit;
    double celsius; /* -999: refused */
  } ROWS[] = {
      {"48", TRUE, 80 / 9.0},
      {"48 F", FALSE, 80 / 9.0},
      {"48°F", FALSE, 80 / 9.0},
      {"48 °f", TRUE, 80 / 9.0},
      {"48 ° F", TRUE, 80 / 9.0},
      {"9 C", TRUE, 9},
      {"9C", TRUE, 9},
      {" 9 ", FALSE, 9},
      {"9 °C", FALSE, 9},
      {"8,9", FALSE, 8.9},
      {"8.9 c", TRUE, 8.9},
      {"212", TRUE, 100},
      {"32", TRUE, 0},
      {"-40", TRUE, -40},
      {"−40 F", FALSE, -40},
      {"+21", FALSE, 21},
      {".5 C", TRUE, 0.5},
      {"120 F", FALSE, 440 / 9.0},
      {"-273.15", FALSE, -273.15},
      {"-273.16", FALSE, -999},
      {"-460 F", FALSE, -999},
      {"", TRUE, -999},
      {"F", TRUE, -999},
      {"-", TRUE, -999},
      {"warm", TRUE, -999},
      {"48 K", TRUE, -999},
      {"48 FF", TRUE, -999},
      {"48 F 9", TRUE, -999},
      {"4 8", TRUE, -999},
      {"1.2.3", TRUE, -999},
      {"48\u00a0°F", FALSE, 80 / 9.0},
      {"48 °", TRUE, -999},
      {"-,", TRUE, -999},
      {"1e3", TRUE, -999},
      {"nan", TRUE, -999},
      {"inf", TRUE, -999},
      {"0x10", TRUE, -999},
      {"11111111111111111111111111111111111111111", TRUE, -999},
  };

  for (guint i = 0; i < G_N_ELEMENTS (ROWS); i++) {
    double celsius = -999;

    g_test_message ("“%s”", ROWS[i].text);
    g_assert_true (dry_temperature_parse (ROWS[i].text, ROWS[i].fahrenheit, &celsius) ==
                   (ROWS[i].celsius > -999));
    g_assert_cmpfloat_with_epsilon (celsius, ROWS[i].celsius, 1e-12);
  }
}

static void
test_format (void)
{
  static const struct {
    double celsius;
    gboolean fahrenheit;
    char decimal;
    const char *text;
  } ROWS[] = {
      {21, TRUE, '.', "69.8 °F"},     {21, FALSE, '.', "21 °C"},
      {80 / 9.0, TRUE, '.', "48 °F"}, {80 / 9.0, FALSE, '.', "8.89 °C"},
      {8.9, FALSE, ',', "8,9 °C"},    {0, TRUE, '.', "32 °F"},
      {-0.001, FALSE, '.', "0 °C"},   {-40, TRUE, '.', "-40 °F"},
      {100, FALSE, '.', "100 °C"},    {48.8889, TRUE, '.', "120 °F"},
  };

  for (guint i = 0; i < G_N_ELEMENTS (ROWS); i++) {
    g_autofree char *text =
        dry_temperature_format (ROWS[i].celsius, ROWS[i].fahrenheit, ROWS[i].decimal);
    g_assert_cmpstr (text, ==, ROWS[i].text);
  }
}

/* Whatever is typed to a hundredth, in either unit and kind of job, is shown again as typed. */
static void
test_round_trip (void)
{
  for (gint hundredths = -10000; hundredths <= 30000; hundredths += 7)
    for (gint fahrenheit = 0; fahrenheit < 2; fahrenheit++) {
      char number[G_ASCII_DTOSTR_BUF_SIZE];
      g_autofree char *shown = NULL;
      double typed = 0, again = 0;

      g_ascii_formatd (number, sizeof number, "%.2f", hundredths / 100.0);
      g_assert_true (dry_temperature_parse (number, fahrenheit, &typed));
      shown = dry_temperature_format (typed, fahrenheit, ',');
      g_assert_true (dry_temperature_parse (shown, !fahrenheit, &again));
      g_assert_cmpfloat_with_epsilon (again, typed, 1e-9);
    }
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/base/temperature/parse", test_parse);
  g_test_add_func ("/base/temperature/format", test_format);
  g_test_add_func ("/base/temperature/round-trip", test_round_trip);
  return g_test_run ();
}
