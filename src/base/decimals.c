/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Writes decimal numbers. It does not know what they count. */
#include "base/decimals.h"

#include <math.h>
#include <string.h>

#define LONGEST 320 /* digits before the mark, of the largest double and some */

char *
dry_decimals_format (double value, guint places, char decimal)
{
  char format[] = "%.0f", text[LONGEST + G_ASCII_DTOSTR_BUF_SIZE], *mark, *end;
  gboolean two_readings;

  format[2] = (char) ('0' + MIN (places, 9));
  g_ascii_formatd (text, sizeof text, format, value);
  mark = strchr (text, '.');
  if (mark != NULL) {
    for (end = text + strlen (text); end[-1] == '0'; end--)
      end[-1] = '\0';
    *mark = end == mark + 1 ? '\0' : decimal;
  }
  if (strcmp (text, "-0") == 0)
    return g_strdup ("0");
  two_readings = mark != NULL && *mark == ',' && strlen (mark) == 4 && fabs (value) >= 1 &&
                 fabs (value) < 1000;
  return g_strconcat (text, two_readings ? "0" : "", NULL);
}
