/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Temperatures as people write and read them, in degrees Fahrenheit or Celsius; kept in Celsius.
 * Exact arithmetic where the figures allow it; no locale but the decimal mark given. */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

double dry_temperature_to_fahrenheit (double celsius);
double dry_temperature_from_fahrenheit (double fahrenheit);

/* "48", "48 F", "9 °C", "-2.5 c": a number, at will with its unit; without one it is Fahrenheit
 * when `fahrenheit` says so. Point and comma both count as decimal mark. FALSE for anything else,
 * and below absolute zero; `celsius` is then left alone. */
gboolean dry_temperature_parse (const char *text, gboolean fahrenheit, double *celsius);

/* "48 °F", "8.89 °C": to a hundredth, without zeros at the end. Free with g_free(). */
char *dry_temperature_format (double celsius, gboolean fahrenheit, char decimal);

G_END_DECLS
