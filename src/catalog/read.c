/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Readers for the pieces all catalogue files are made of; each records its problem in the document.
 * It opens no files and keeps nothing: the caller's arena owns what comes out. */
#define G_LOG_DOMAIN "drybay-catalog"
#include "catalog/read.h"

#include <string.h>

static const DrySource NOT_GIVEN = {"not given", DRY_CERTAINTY_MEMORY};

gboolean
dry_read_head (DryJson root, const char *format)
{
  DryJson name = dry_json_get (root, "format");
  const char *found = dry_json_string (name);
  DryJson version = dry_json_get (root, "version");
  gint64 number = dry_json_integer (version, 1, G_MAXINT32);

  if (dry_json_has_failed (root.doc))
    return FALSE;
  if (!g_str_equal (found, format))
    dry_json_fail (name, DRY_ERROR_VERSION, "this is “%s”, where a “%s” is expected", found,
                   format);
  else if (number > 1)
    dry_json_fail (version, DRY_ERROR_VERSION,
                   "version %" G_GINT64_FORMAT
                   " was written for a newer Drybay; this one reads version 1",
                   number);
  return !dry_json_has_failed (root.doc);
}

/* Words of lower-case letters and digits joined by single marks out of `marks`. */
static gboolean
is_word_list (const char *text, const char *marks)
{
  gsize length = strlen (text);
  gboolean after_mark = TRUE;

  if (length == 0 || length > DRY_CATALOG_MAX_ID)
    return FALSE;
  for (const char *c = text; *c; c++) {
    gboolean is_mark = strchr (marks, *c) != NULL;
    if (is_mark ? after_mark : !(g_ascii_islower (*c) || g_ascii_isdigit (*c)))
      return FALSE;
    after_mark = is_mark;
  }
  return !after_mark;
}

static const char *
read_words (DryJson node, const char *marks, DryArena *arena)
{
  const char *text = dry_json_string (node);

  if (dry_json_has_failed (node.doc))
    return "";
  if (!is_word_list (text, marks)) {
    dry_json_fail (node, DRY_ERROR_SCHEMA,
                   "“%.64s” is no id: lower-case letters and digits in words joined by one of "
                   "“%s”, at most %d bytes",
                   text, marks, DRY_CATALOG_MAX_ID);
    return "";
  }
  return dry_arena_strdup (arena, text);
}

const char *
dry_read_id (DryJson node, DryArena *arena)
{
  return read_words (node, "-.", arena);
}

const char *
dry_read_id_or_null (DryJson node, DryArena *arena)
{
  return dry_json_is_present (node) ? dry_read_id (node, arena) : NULL;
}

const char *
dry_read_measure_name (DryJson node, DryArena *arena)
{
  return read_words (node, "-._", arena);
}

const char *
dry_read_text (DryJson node, DryArena *arena)
{
  const char *text = dry_json_string (node);

  if (dry_json_has_failed (node.doc))
    return "";
  if (text[strspn (text, " \t\r\n")] == '\0')
    dry_json_fail (node, DRY_ERROR_SCHEMA, "must not be empty");
  else if (strlen (text) > DRY_CATALOG_MAX_TEXT)
    dry_json_fail (node, DRY_ERROR_LIMIT, "longer than %d bytes", DRY_CATALOG_MAX_TEXT);
  return dry_arena_strdup (arena, text);
}

guint
dry_read_count (DryJson array, guint least, guint most)
{
  guint n = dry_json_array_length (array);

  if (dry_json_has_failed (array.doc))
    return 0;
  if (!dry_json_is_present (array))
    dry_json_fail (array, DRY_ERROR_SCHEMA, "a list was expected");
  else if (n < least)
    dry_json_fail (array, DRY_ERROR_SCHEMA, "at least %u needed, %u found", least, n);
  else if (n > most)
    dry_json_fail (array, DRY_ERROR_LIMIT, "%u entries, more than the %u allowed", n, most);
  return dry_json_has_failed (array.doc) ? 0 : n;
}

DrySource
dry_read_source (DryJson object, DryArena *arena)
{
  DrySource source = {dry_read_text (dry_json_get (object, "source"), arena), DRY_CERTAINTY_MEMORY};
  DryJson node = dry_json_get (object, "certainty");
  const char *word = dry_json_string (node);

  if (!dry_json_has_failed (object.doc) && !dry_certainty_from_text (word, &source.certainty))
    dry_json_fail (node, DRY_ERROR_SCHEMA,
                   "“%.64s” is none of “published”, “secondary”, “common practice”, "
                   "“memory”, “derived”, “invented”",
                   word);
  return source;
}

DryLengthFigure
dry_read_length_figure (DryJson object, DryLength minimum, DryLength maximum, DryArena *arena)
{
  DryLengthFigure figure;

  dry_json_only_keys (object, "mm", "source", "certainty", NULL);
  figure.value = dry_json_length (dry_json_get (object, "mm"), minimum, maximum);
  figure.source = dry_read_source (object, arena);
  return figure;
}

DryNumberFigure
dry_read_number_figure (DryJson object, double minimum, double maximum, DryArena *arena)
{
  DryNumberFigure figure;

  dry_json_only_keys (object, "value", "source", "certainty", NULL);
  figure.value = dry_json_number (dry_json_get (object, "value"), minimum, maximum);
  figure.source = dry_read_source (object, arena);
  return figure;
}

DryLengthFigure
dry_read_length_figure_or_none (DryJson object, DryLength minimum, DryLength maximum,
                                DryArena *arena)
{
  if (!dry_json_is_present (object))
    return (DryLengthFigure){0, NOT_GIVEN};
  return dry_read_length_figure (object, minimum, maximum, arena);
}

DryNumberFigure
dry_read_number_figure_or_none (DryJson object, double minimum, double maximum, DryArena *arena)
{
  if (!dry_json_is_present (object))
    return (DryNumberFigure){0, NOT_GIVEN};
  return dry_read_number_figure (object, minimum, maximum, arena);
}
