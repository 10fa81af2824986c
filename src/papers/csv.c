/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The take-off as comma-separated values after RFC 4180: CRLF, quotes doubled.
 * Text a spreadsheet could run as a formula gets an apostrophe; numbers stay numbers. */
#include "papers/papers.h"

static void
add_text (GString *out, const char *text)
{
  gboolean quote;

  text = text ? text : "";
  quote = strpbrk (text, "\",\r\n") != NULL;
  if (quote)
    g_string_append_c (out, '"');
  if (*text && strchr ("=+-@\t\r", *text))
    g_string_append_c (out, '\'');
  for (; *text; text++) {
    if (*text == '"')
      g_string_append_c (out, '"');
    g_string_append_c (out, *text);
  }
  if (quote)
    g_string_append_c (out, '"');
}

static void
add_number (GString *out, double value)
{
  char text[G_ASCII_DTOSTR_BUF_SIZE];

  g_string_append (out, g_ascii_formatd (text, sizeof text, "%.10g", value));
}

static void
add_money (GString *out, gint64 minor)
{
  if (minor != 0)
    g_string_append_printf (out, "%s%" G_GINT64_FORMAT ".%02d", minor < 0 ? "-" : "",
                            ABS (minor) / 100, (int) (ABS (minor) % 100));
}

char *
dry_takeoff_to_csv (const DryTakeoff *takeoff)
{
  GString *out = g_string_new ("Group,Id,Item,Amount,Unit,Pack,Pack name,Packs,Sample price,Sample "
                               "cost,Working,Source,Certainty\r\n");

  for (guint i = 0; i < takeoff->n; i++) {
    const DryTakeoffLine *line = &takeoff->lines[i];
    const char *source = line->working.source.text;

    add_text (out, line->group);
    g_string_append_c (out, ',');
    add_text (out, line->id);
    g_string_append_c (out, ',');
    add_text (out, line->name);
    g_string_append_c (out, ',');
    add_number (out, line->amount);
    g_string_append_c (out, ',');
    add_text (out, line->unit);
    g_string_append_c (out, ',');
    add_number (out, line->pack);
    g_string_append_c (out, ',');
    add_text (out, line->pack_name);
    g_string_append_printf (out, ",%" G_GINT64_FORMAT ",", line->packs);
    add_money (out, line->price);
    g_string_append_c (out, ',');
    add_money (out, line->cost);
    g_string_append_c (out, ',');
    add_text (out, line->working.formula);
    g_string_append_c (out, ',');
    add_text (out, source);
    g_string_append_c (out, ',');
    add_text (out, source ? dry_certainty_to_text (line->working.source.certainty) : "");
    g_string_append (out, "\r\n");
  }
  return g_string_free (out, FALSE);
}
