/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Reads and writes slopes; the lengths in them are read as everywhere else.
 * It does not know what falls, nor how much it should. */
#include "base/slope.h"

#include <math.h>
#include <string.h>

#include "base/decimals.h"
#include "base/length.h"

#define MAX_LETTERS 64
#define SIXTY_FOUR  64
#define STEEPEST    100   /* rise over run, hardly less than upright */
#define NEAR_INCH   0.001 /* in per ft: 0.0208, as a file may have it, is 1/4 in per ft */

/* --- reading --- */

/* A number of its own: what stands before a sign for per cent or degrees, or on a side of a ratio.
 * It is read as so many millimetres: fractions, either decimal mark, six places. */
static gboolean
read_number (const char *text, double *value)
{
  static const char *const MARKS[] = {"\"", "'", "′", "″", "’", "”"}; /* feet and inches */
  DryLength length;

  for (guint i = 0; i < G_N_ELEMENTS (MARKS); i++)
    if (strstr (text, MARKS[i]) != NULL)
      return FALSE;
  for (const char *c = text; *c != '\0'; c++)
    if (g_ascii_isalpha (*c))
      return FALSE;
  if (!dry_length_parse (text, DRY_UNIT_MM, &length, NULL))
    return FALSE;
  *value = dry_length_to_mm (length);
  return TRUE;
}

static gboolean
read_length (const char *text, DryUnit bare_unit, double *mm)
{
  DryLength length;

  if (!dry_length_parse (text, bare_unit, &length, NULL))
    return FALSE;
  *mm = dry_length_to_mm (length);
  return TRUE;
}

/* "48" to 1, "12 in" to "1/4 in": both sides numbers or both lengths, a bare one in inches. */
static gboolean
read_ratio (const char *rise, const char *run, double *slope)
{
  double up, along;

  if (!(read_number (rise, &up) && read_number (run, &along)) &&
      !(read_length (rise, DRY_UNIT_INCH, &up) && read_length (run, DRY_UNIT_INCH, &along)))
    return FALSE;
  if (along <= 0)
    return FALSE;
  *slope = up / along;
  return TRUE;
}

/* "ft" is one foot, "12 in" as many inches. A bare rise is in inches a foot, in millimetres a
 * metre. */
static gboolean
read_fall (const char *rise, const char *run, double *slope)
{
  g_autofree char *whole =
      g_ascii_isdigit (run[0]) ? g_strdup (run) : g_strconcat ("1 ", run, NULL);
  DryLength along;
  double up;

  if (!dry_length_parse (whole, DRY_UNIT_FOOT, &along, NULL) || along <= 0)
    return FALSE;
  if (!read_length (rise, along % DRY_INCH == 0 ? DRY_UNIT_INCH : DRY_UNIT_MM, &up))
    return FALSE;
  *slope = up / dry_length_to_mm (along);
  return TRUE;
}

static gboolean
read_bare (const char *text, gboolean metric, double *slope)
{
  double value;

  if (metric) {
    if (!read_number (text, &value))
      return FALSE;
    *slope = value / 100;
    return TRUE;
  }
  return strpbrk (text, "mM") == NULL && read_fall (text, "ft", slope); /* millimetres of what? */
}

/* Cuts the text in two at `at`, where `between` stands; NULL: nowhere. The second half, or NULL;
 * both without space around. */
static char *
split (char *text, char *at, const char *between)
{
  if (at == NULL)
    return NULL;
  *at = '\0';
  g_strchomp (text);
  return g_strstrip (at + strlen (between));
}

static gboolean
read_any (char *plain, gboolean metric, double *slope)
{
  char *after;

  if (g_str_has_suffix (plain, "%")) {
    plain[strlen (plain) - 1] = '\0';
    return read_bare (g_strchomp (plain), TRUE, slope);
  }
  if (g_str_has_suffix (plain, "°")) {
    plain[strlen (plain) - strlen ("°")] = '\0';
    if (!read_number (g_strchomp (plain), slope) || *slope >= 90)
      return FALSE;
    *slope = tan (*slope * G_PI / 180);
    return TRUE;
  }
  if ((after = split (plain, strchr (plain, ':'), ":")) != NULL)
    return read_ratio (plain, after, slope);
  if ((after = split (plain, strstr (plain, " per "), " per ")) != NULL)
    return read_fall (plain, after, slope);
  if ((after = strrchr (plain, '/')) != NULL && g_ascii_isalpha (*g_strchug (after + 1)))
    return read_fall (plain, split (plain, after, "/"), slope);
  return read_bare (plain, metric, slope);
}

gboolean
dry_slope_parse (const char *text, gboolean metric, double *slope)
{
  g_auto (GStrv) pieces = g_strsplit (text, "\u00a0", -1);
  g_autofree char *plain = g_strjoinv (" ", pieces);
  double read = 0;

  if (strlen (plain) > MAX_LETTERS || !read_any (g_strstrip (plain), metric, &read) ||
      !isfinite (read) || read < 0 || read > STEEPEST)
    return FALSE;
  *slope = read;
  return TRUE;
}

/* --- writing --- */

char *
dry_slope_format (double slope, gboolean metric, char decimal)
{
  double inches = slope * 12, rounded = round (inches * SIXTY_FOUR) / SIXTY_FOUR;
  DryLengthFormat format = {DRY_LENGTH_INCHES, SIXTY_FOUR, decimal};
  g_autofree char *text = NULL;

  if (metric) {
    text = dry_decimals_format (slope * 100, 2, decimal);
    return g_strconcat (text, " %", NULL);
  }
  if (fabs (inches - rounded) > NEAR_INCH || (rounded == 0 && inches > 0) ||
      fabs (slope) > STEEPEST) {
    text = dry_decimals_format (inches, 3, decimal);
    return g_strconcat (text, " in/ft", NULL);
  }
  text = dry_length_format ((DryLength) (rounded * SIXTY_FOUR) * DRY_INCH_64, &format);
  return g_strconcat (g_strdelimit (text, "\"", ' '), "in/ft", NULL);
}
