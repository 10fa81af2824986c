/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Reads the first sheet of a workbook: shared and inline strings, numbers, results of formulas as
 * they were saved. GLib's markup reader knows no entities of its own, so none can be smuggled in.
 */
#include <string.h>

#include "base/error.h"
#include "papers/sheet-files.h"
#include "papers/zip.h"

typedef struct {
  GPtrArray *strings; /* shared ones */
  DryRows *rows;
  GString *text; /* of the element being read; NULL outside */
  gboolean phonetic;
  char *type; /* of the cell */
  char *value;
  gint column; /* of the cell; then of the next one */
  gint next;
  char *link;   /* of the first sheet, in the workbook */
  char *target; /* of that link */
} Reading;

static const char *
local_name (const char *name)
{
  const char *colon = strrchr (name, ':');

  return colon ? colon + 1 : name;
}

static const char *
find_attribute (const char **names, const char **values, const char *name)
{
  for (guint i = 0; names[i]; i++)
    if (g_str_equal (local_name (names[i]), name))
      return values[i];
  return NULL;
}

static gboolean
fail (GError **error, gint code, const char *why)
{
  g_set_error (error, DRY_ERROR, code, "%s", why);
  return FALSE;
}

/* --- shared strings --- */

static void
strings_start (GMarkupParseContext *context, const char *element, const char **names,
               const char **values, gpointer data, GError **error)
{
  Reading *self = data;
  const char *name = local_name (element);

  if (g_str_equal (name, "si") && !self->text)
    self->text = g_string_new (NULL);
  else if (g_str_equal (name, "rPh"))
    self->phonetic = TRUE;
}

static void
strings_end (GMarkupParseContext *context, const char *element, gpointer data, GError **error)
{
  Reading *self = data;
  const char *name = local_name (element);

  if (g_str_equal (name, "rPh"))
    self->phonetic = FALSE;
  if (g_str_equal (name, "si") && self->text) {
    g_ptr_array_add (self->strings, g_string_free (self->text, FALSE));
    self->text = NULL;
  }
}

static void
strings_text (GMarkupParseContext *context, const char *text, gsize length, gpointer data,
              GError **error)
{
  Reading *self = data;

  if (self->text && !self->phonetic &&
      g_str_equal (local_name (g_markup_parse_context_get_element (context)), "t"))
    g_string_append_len (self->text, text, (gssize) length);
}

/* --- the sheet --- */

/* The column of "AB12", from 0; -1 when it is none. */
static gint
column_of (const char *reference)
{
  gint column = 0;

  for (; *reference >= 'A' && *reference <= 'Z' && column <= DRY_MAX_SHEET_COLUMNS; reference++)
    column = column * 26 + (*reference - 'A' + 1);
  return column - 1;
}

static void
sheet_start (GMarkupParseContext *context, const char *element, const char **names,
             const char **values, gpointer data, GError **error)
{
  Reading *self = data;
  const char *name = local_name (element), *value;

  if (g_str_equal (name, "rPh"))
    self->phonetic = TRUE;
  else if (g_str_equal (name, "row")) {
    guint64 row = self->rows->rows->len + 1;
    value = find_attribute (names, values, "r");
    if (value && !g_ascii_string_to_unsigned (value, 10, 1, G_MAXUINT32, &row, NULL))
      fail (error, DRY_ERROR_SYNTAX, "a row of the sheet has no number");
    else if (row > DRY_MAX_SHEET_ROWS)
      fail (error, DRY_ERROR_LIMIT, "the sheet has too many rows");
    else
      do /* rows may be left out where they are empty */
        dry_rows_begin (self->rows);
      while (self->rows->rows->len < row);
    self->next = 0;
  } else if (g_str_equal (name, "c")) {
    value = find_attribute (names, values, "r");
    self->column = value ? column_of (value) : self->next;
    value = find_attribute (names, values, "t");
    g_free (self->type);
    self->type = g_strdup (value ? value : "n");
    g_clear_pointer (&self->value, g_free);
    if (self->column < 0 || self->rows->rows->len == 0)
      fail (error, DRY_ERROR_SYNTAX, "a cell of the sheet has no place");
    else if (self->column >= DRY_MAX_SHEET_COLUMNS)
      fail (error, DRY_ERROR_LIMIT, "the sheet has too many columns");
  } else if ((g_str_equal (name, "v") || g_str_equal (name, "t")) && !self->text && !self->phonetic)
    self->text = g_string_new (NULL);
}

/* A cell's text; a number keeps its digits as they stand. */
static gboolean
finish_cell (Reading *self, GError **error)
{
  GArray *row = g_ptr_array_index (self->rows->rows, self->rows->rows->len - 1);
  const char *text = self->value ? self->value : "";
  guint64 index;

  if (g_str_equal (self->type, "s")) {
    if (!g_ascii_string_to_unsigned (text, 10, 0, G_MAXUINT32, &index, NULL) ||
        index >= self->strings->len)
      return fail (error, DRY_ERROR_SYNTAX, "a cell names a text that is not there");
    text = self->strings->pdata[index];
  }
  if ((gint) row->len > self->column)
    return fail (error, DRY_ERROR_SYNTAX, "two cells of the sheet have one place");
  while ((gint) row->len < self->column)
    dry_rows_add_text (self->rows, NULL);
  dry_rows_add_text (self->rows, text);
  self->next = self->column + 1;
  return TRUE;
}

static void
sheet_end (GMarkupParseContext *context, const char *element, gpointer data, GError **error)
{
  Reading *self = data;
  const char *name = local_name (element);

  if ((g_str_equal (name, "v") || g_str_equal (name, "t")) && self->text) {
    char *part = g_string_free (self->text, FALSE);
    self->text = NULL;
    if (self->value) { /* runs of one inline text */
      char *joined = g_strconcat (self->value, part, NULL);
      g_free (self->value);
      g_free (part);
      part = joined;
    }
    self->value = part;
  } else if (g_str_equal (name, "rPh"))
    self->phonetic = FALSE;
  else if (g_str_equal (name, "c"))
    finish_cell (self, error);
}

static void
sheet_text (GMarkupParseContext *context, const char *text, gsize length, gpointer data,
            GError **error)
{
  Reading *self = data;

  if (self->text)
    g_string_append_len (self->text, text, (gssize) length);
}

/* --- which sheet --- */

static void
book_start (GMarkupParseContext *context, const char *element, const char **names,
            const char **values, gpointer data, GError **error)
{
  Reading *self = data;

  if (!g_str_equal (local_name (element), "sheet") || self->link)
    return;
  for (guint i = 0; names[i]; i++) /* "r:id", beside "sheetId" */
    if (strchr (names[i], ':') && g_str_equal (local_name (names[i]), "id"))
      self->link = g_strdup (values[i]);
}

static void
links_start (GMarkupParseContext *context, const char *element, const char **names,
             const char **values, gpointer data, GError **error)
{
  Reading *self = data;
  const char *id = find_attribute (names, values, "Id");
  const char *target = find_attribute (names, values, "Target");

  if (self->target || !id || !target || g_strcmp0 (id, self->link) != 0)
    return;
  self->target = *target == '/' ? g_strdup (target + 1) : g_strconcat ("xl/", target, NULL);
}

static gboolean
parse (GBytes *bytes, const GMarkupParser *parser, Reading *self, GError **error)
{
  g_autoptr (GMarkupParseContext) context =
      g_markup_parse_context_new (parser, G_MARKUP_TREAT_CDATA_AS_TEXT, self, NULL);
  gsize length;
  const char *text = g_bytes_get_data (bytes, &length);
  g_autoptr (GError) why = NULL;

  if (length == 0) /* without bytes there is no pointer to them */
    text = "";
  if (length >= 3 && memcmp (text, "\xef\xbb\xbf", 3) == 0) {
    text += 3;
    length -= 3;
  }
  if (g_markup_parse_context_parse (context, text, (gssize) length, &why) &&
      g_markup_parse_context_end_parse (context, &why))
    return TRUE;
  if (self->text) {
    g_string_free (self->text, TRUE);
    self->text = NULL;
  }
  if (why->domain == DRY_ERROR)
    g_propagate_error (error, g_steal_pointer (&why));
  else
    g_set_error (error, DRY_ERROR, DRY_ERROR_SYNTAX, "the workbook is damaged: %s", why->message);
  return FALSE;
}

typedef struct {
  gconstpointer data;
  gsize length;
} Archive;

/* A part that may be missing: TRUE and nothing read. */
static gboolean
parse_part (const Archive *archive, const char *name, const GMarkupParser *parser, Reading *self,
            gboolean *found, GError **error)
{
  g_autoptr (GError) why = NULL;
  g_autoptr (GBytes) bytes =
      dry_zip_read (archive->data, archive->length, name, DRY_MAX_SHEET_BYTES, &why);

  *found = bytes != NULL;
  if (why) {
    g_propagate_error (error, g_steal_pointer (&why));
    return FALSE;
  }
  return bytes == NULL || parse (bytes, parser, self, error);
}

static gboolean
read_parts (const Archive *archive, Reading *self, GError **error)
{
  static const GMarkupParser book = {book_start, NULL, NULL, NULL, NULL};
  static const GMarkupParser links = {links_start, NULL, NULL, NULL, NULL};
  static const GMarkupParser strings = {strings_start, strings_end, strings_text, NULL, NULL};
  static const GMarkupParser sheet = {sheet_start, sheet_end, sheet_text, NULL, NULL};
  gboolean found;

  if (!parse_part (archive, "xl/workbook.xml", &book, self, &found, error))
    return FALSE;
  if (!found || !self->link)
    return fail (error, DRY_ERROR_SYNTAX, "this is no workbook with a sheet");
  if (!parse_part (archive, "xl/_rels/workbook.xml.rels", &links, self, &found, error) ||
      !parse_part (archive, "xl/sharedStrings.xml", &strings, self, &found, error))
    return FALSE;
  if (!parse_part (archive, self->target ? self->target : "xl/worksheets/sheet1.xml", &sheet, self,
                   &found, error))
    return FALSE;
  return found || fail (error, DRY_ERROR_SYNTAX, "the workbook's first sheet is not in it");
}

DryRows *
dry_rows_from_xlsx (gconstpointer data, gsize length, GError **error)
{
  Archive archive = {data, length};
  Reading self = {.strings = g_ptr_array_new_with_free_func (g_free), .rows = dry_rows_new ()};
  gboolean good = read_parts (&archive, &self, error);

  g_ptr_array_unref (self.strings);
  g_free (self.type);
  g_free (self.value);
  g_free (self.link);
  g_free (self.target);
  if (good)
    return self.rows;
  dry_rows_free (self.rows);
  return NULL;
}
