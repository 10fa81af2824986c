/* SPDX-License-Identifier: GPL-3.0-or-later */
/* JSON, lengths and slopes as text from anywhere: what is taken is written and read again as the
 * same. Knows no file format. */
#include <string.h>

#include "base/json.h"
#include "base/length.h"
#include "base/slope.h"
#include "fuzz/entries.h"

/* Printed back compactly, a value is stable: what is printed reads and prints the same. */
void
fuzz_json (const guint8 *data, gsize size)
{
  g_autofree char *copy = fuzz_copy (data, size), *once = NULL, *twice = NULL;
  g_autoptr (DryJsonDocument) document = NULL, again = NULL;
  GError *error = NULL;

  document = dry_json_document_new (copy, size, "fuzz", &error);
  fuzz_one_of (document != NULL, error);
  if (document == NULL)
    return;
  once = dry_json_to_text (dry_json_root (document));
  again = dry_json_document_new (once, strlen (once), "again", &error);
  g_assert_no_error (error);
  twice = dry_json_to_text (dry_json_root (again));
  g_assert_cmpstr (once, ==, twice);
}

static void
check_styles (DryLength length)
{
  static const DryLengthStyle styles[] = {
      DRY_LENGTH_FEET_INCHES, DRY_LENGTH_INCHES, DRY_LENGTH_INCHES_DECIMAL,
      DRY_LENGTH_MM,          DRY_LENGTH_CM,     DRY_LENGTH_M};

  for (guint i = 0; i < G_N_ELEMENTS (styles); i++) {
    DryLengthFormat format = {styles[i], 64, i % 2 == 0 ? '.' : ','};
    g_autofree char *text = dry_length_format (length, &format);
    DryLength back = 0;
    GError *error = NULL;

    /* Rounding may lead just beyond the largest length there is. */
    if (ABS (length) > DRY_LENGTH_MAX - DRY_INCH)
      continue;
    if (!dry_length_parse (text, DRY_UNIT_MM, &back, &error))
      g_error ("“%s” was written and cannot be read: %s", text, error->message);
    if (ABS (back - length) > DRY_INCH)
      g_error ("“%s” is %" G_GINT64_FORMAT ", not %" G_GINT64_FORMAT, text, back, length);
  }
}

/* Shown in either kind of job and read again it is the same to what is shown. */
static void
check_slope (const char *text, gboolean metric)
{
  double slope = -1, back = -1;

  if (!dry_slope_parse (text, metric, &slope))
    return;
  g_assert_true (slope >= 0 && slope <= 100);
  for (guint i = 0; i < 4; i++) {
    g_autofree char *shown = dry_slope_format (slope, i % 2 == 0, i < 2 ? ',' : '.');

    if (!dry_slope_parse (shown, i % 2 != 0, &back))
      g_error ("“%s” was written and cannot be read", shown);
    g_assert_true (ABS (back - slope) < 0.0001 + 1e-12);
  }
}

void
fuzz_length (const guint8 *data, gsize size)
{
  g_autofree char *text = g_strndup ((const char *) data, size);

  check_slope (text, FALSE);
  check_slope (text, TRUE);
  for (guint unit = 0; unit < 2; unit++) {
    DryUnit bare = unit == 0 ? DRY_UNIT_INCH : DRY_UNIT_MM;
    DryLength length = 0, back = 0;
    GError *error = NULL;
    gboolean read = dry_length_parse (text, bare, &length, &error);
    g_autofree char *mm = NULL;

    fuzz_one_of (read, error);
    if (!read)
      continue;
    g_assert_cmpint (ABS (length), <=, DRY_LENGTH_MAX);
    mm = dry_length_to_mm_text (length);
    g_assert_true (dry_length_parse (mm, DRY_UNIT_MM, &back, NULL));
    g_assert_cmpint (back, ==, length);
    check_styles (length);
  }
}
