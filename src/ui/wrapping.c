/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Keeps labels from the one way of breaking lines that Pango cannot do for every text. Knows
 * nothing of what a label says. */
#define G_LOG_DOMAIN "drybay-ui"

#include "ui/wrapping.h"

#include <string.h>

#include "ui/hooks.h"

/* Letters of a word that no line of the side panes can hold. */
#define LONG_WORD 30
#define LONG_TEXT 400 /* letters of a text in a row */

typedef void (*SetProperty) (GObject *object, guint id, const GValue *value, GParamSpec *spec);

static gboolean
has_long_word (const char *text)
{
  guint n = 0;

  for (const char *p = text; *p != '\0' && n <= LONG_WORD; p = g_utf8_next_char (p))
    n = g_unichar_isspace (g_utf8_get_char (p)) ? 0 : n + 1;
  return n > LONG_WORD;
}

/* Where the text ends but for white space. */
static const char *
find_end (const char *text)
{
  const char *end = text + strlen (text);

  while (end > text && g_unichar_isspace (g_utf8_get_char (g_utf8_prev_char (end))))
    end = g_utf8_prev_char (end);
  return end;
}

/* A space at the end of the last line sticks out of the width Pango was given, and GTK 4.8, looking
 * for the narrowest width for a height, then takes the text to need all of its line. */
static void
trim (GtkLabel *label)
{
  const char *text = gtk_label_get_label (label), *end = find_end (text);
  g_autofree char *trimmed = NULL;

  if (*end == '\0')
    return;
  trimmed = g_strndup (text, (gsize) (end - text));
  gtk_label_set_label (label, trimmed);
}

static void
choose (GtkLabel *label)
{
  trim (label);
  gtk_label_set_wrap_mode (label, has_long_word (gtk_label_get_text (label)) ? PANGO_WRAP_CHAR
                                                                             : PANGO_WRAP_WORD);
}

void
dry_wrapping_watch (GtkLabel *label)
{
  choose (label);
  if (g_signal_handler_find (label, G_SIGNAL_MATCH_FUNC, 0, 0, NULL, (gpointer) choose, NULL) == 0)
    g_signal_connect (label, "notify::label", G_CALLBACK (choose), NULL);
}

static void
set_property (GObject *object, guint id, const GValue *value, GParamSpec *spec)
{
  SetProperty original = (SetProperty) dry_hooks_get_original (GTK_TYPE_LABEL);

  original (object, id, value, spec);
  if (g_str_equal (spec->name, "wrap-mode") && g_value_get_enum (value) == PANGO_WRAP_WORD_CHAR)
    dry_wrapping_watch (GTK_LABEL (object));
}

void
dry_wrapping_install (void)
{
  dry_hooks_replace (GTK_TYPE_LABEL, G_STRUCT_OFFSET (GObjectClass, set_property),
                     (gpointer) set_property);
}

char *
dry_wrapping_shorten (const char *text)
{
  return dry_wrapping_cut (text, LONG_TEXT);
}

char *
dry_wrapping_cut (const char *text, glong most)
{
  g_autofree char *head = NULL;

  if (text == NULL || g_utf8_strlen (text, -1) <= most)
    return g_strdup (text);
  head = g_utf8_substring (text, 0, most);
  return g_strconcat (head, "…", NULL);
}
