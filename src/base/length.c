/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Writes lengths for people and for files; rounding happens once, before feet and fractions are
 * split off. Reading is in length-parse.c; neither looks at the locale. */
#include "base/length.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

/* Rounds a/b half away from zero; b > 0. */
static int64_t
divide_rounded (__int128 a, __int128 b)
{
  return (int64_t) (a >= 0 ? (a + b / 2) / b : -((-a + b / 2) / b));
}

static void
append_inches (GString *text, int64_t ticks, int64_t denominator)
{
  int64_t whole = ticks / denominator, part = ticks % denominator;

  while (part > 0 && part % 2 == 0) {
    part /= 2;
    denominator /= 2;
  }
  if (whole > 0 || part == 0)
    g_string_append_printf (text, "%" G_GINT64_FORMAT, whole);
  if (whole > 0 && part > 0)
    g_string_append_c (text, ' ');
  if (part > 0)
    g_string_append_printf (text, "%" G_GINT64_FORMAT "/%" G_GINT64_FORMAT, part, denominator);
  g_string_append_c (text, '"');
}

static void
append_fraction_style (GString *text, DryLength size, const DryLengthFormat *format)
{
  int64_t denominator = CLAMP (format->denominator, 1, 64);
  int64_t ticks = divide_rounded ((__int128) size * denominator, DRY_INCH);
  int64_t feet = format->style == DRY_LENGTH_FEET_INCHES ? ticks / (12 * denominator) : 0;

  if (feet > 0)
    g_string_append_printf (text, "%" G_GINT64_FORMAT "' ", feet);
  append_inches (text, ticks - feet * 12 * denominator, denominator);
}

/* size / unit with at most `decimals` places, no trailing zeros. */
static void
append_decimal (GString *text, DryLength size, int64_t unit, guint decimals, char mark)
{
  int64_t scale = 1, value, whole, part;
  guint places = decimals;

  for (guint i = 0; i < decimals; i++)
    scale *= 10;
  value = divide_rounded ((__int128) size * scale, unit);
  whole = value / scale;
  part = value % scale;
  g_string_append_printf (text, "%" G_GINT64_FORMAT, whole);
  while (places > 0 && part % 10 == 0) {
    part /= 10;
    places--;
  }
  if (places > 0)
    g_string_append_printf (text, "%c%0*" G_GINT64_FORMAT, mark, (int) places, part);
  /* "1,562" could be 1562: a fourth digit leaves one reading only. */
  if (mark == ',' && places == 3 && whole > 0 && whole < 1000)
    g_string_append_c (text, '0');
}

char *
dry_length_format (DryLength length, const DryLengthFormat *format)
{
  GString *text = g_string_new (NULL);
  char mark = format->decimal ? format->decimal : '.';
  DryLength size = llabs (length);

  switch (format->style) {
  case DRY_LENGTH_FEET_INCHES:
  case DRY_LENGTH_INCHES:
    append_fraction_style (text, size, format);
    break;
  case DRY_LENGTH_INCHES_DECIMAL:
    append_decimal (text, size, DRY_INCH, 3, mark);
    g_string_append_c (text, '"');
    break;
  case DRY_LENGTH_MM:
    append_decimal (text, size, DRY_MM, 1, mark);
    g_string_append (text, " mm");
    break;
  case DRY_LENGTH_CM:
    append_decimal (text, size, 10 * DRY_MM, 2, mark);
    g_string_append (text, " cm");
    break;
  case DRY_LENGTH_M:
    append_decimal (text, size, 1000 * DRY_MM, 3, mark);
    g_string_append (text, " m");
    break;
  default:
    g_assert_not_reached ();
  }
  /* "-0" is no length anyone measured. */
  if (length < 0 && strpbrk (text->str, "123456789"))
    g_string_prepend_c (text, '-');
  return g_string_free (text, FALSE);
}

char *
dry_length_to_mm_text (DryLength length)
{
  GString *text = g_string_new (length < 0 ? "-" : "");

  append_decimal (text, llabs (length), DRY_MM, 6, '.');
  return g_string_free (text, FALSE);
}

gboolean
dry_length_from_mm (double mm, DryLength *out)
{
  double nanometres = mm * (double) DRY_MM;

  if (!isfinite (nanometres) || fabs (nanometres) > (double) DRY_LENGTH_MAX)
    return FALSE;
  *out = llround (nanometres);
  return TRUE;
}
