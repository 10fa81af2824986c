/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Tables as comma-separated values after RFC 4180, in the two ways spreadsheets write numbers.
 * Text that could run as a formula is defused on the way out and restored on the way in. */
#include <string.h>

#include "base/error.h"
#include "papers/sheet-files.h"

/* What makes a spreadsheet take text for a formula; and what would look as if it had been defused.
 */
static gboolean
is_formula (const char *text)
{
  while (*text == '\'')
    text++;
  return *text != '\0' && strchr ("=+-@\t\r", *text) != NULL;
}

static void
write_text (GString *out, const char *text, char separator)
{
  const char special[] = {separator, '"', '\r', '\n', '\0'};
  gboolean quote = strpbrk (text, special) != NULL;

  if (quote)
    g_string_append_c (out, '"');
  if (is_formula (text))
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
write_number (GString *out, const char *text, char decimal)
{
  for (; *text; text++)
    g_string_append_c (out, *text == '.' ? decimal : *text);
}

char *
dry_rows_to_csv (const DryRows *self, char decimal)
{
  GString *out = g_string_new (NULL);
  char separator = decimal == ',' ? ';' : ',';

  for (guint i = 0; i < self->rows->len; i++) {
    const GArray *row = self->rows->pdata[i];
    for (guint j = 0; j < row->len; j++) {
      const DryCell *cell = &g_array_index (row, DryCell, j);
      if (j > 0)
        g_string_append_c (out, separator);
      if (cell->number)
        write_number (out, cell->text, decimal == ',' ? ',' : '.');
      else
        write_text (out, cell->text, separator);
    }
    g_string_append (out, "\r\n");
  }
  return g_string_free (out, FALSE);
}

/* --- reading --- */

typedef struct {
  const char *at, *end;
  char separator;
  guint line;
  DryRows *rows;
} Reading;

/* Outside quotes, on the first line. */
static char
find_separator (const char *text, const char *end)
{
  guint n[3] = {0};
  gboolean quoted = FALSE;

  for (; text < end && (quoted || (*text != '\n' && *text != '\r')); text++) {
    quoted ^= *text == '"';
    for (guint i = 0; i < 3 && !quoted; i++)
      n[i] += *text == ",;\t"[i];
  }
  return n[1] > n[0] && n[1] >= n[2] ? ';' : n[2] > n[0] ? '\t' : ',';
}

static gboolean
fail (const Reading *self, GError **error, gint code, const char *why)
{
  g_set_error (error, DRY_ERROR, code, "line %u: %s", self->line, why);
  return FALSE;
}

/* One cell, the separator or line end after it left where it is. */
static gboolean
read_cell (Reading *self, GError **error)
{
  g_autoptr (GString) text = g_string_new (NULL);
  guint from = self->line;

  if (self->at < self->end && *self->at == '"') {
    self->at++;
    for (;;) {
      if (self->at == self->end) {
        self->line = from;
        return fail (self, error, DRY_ERROR_SYNTAX, "a quote is not closed");
      }
      if (*self->at == '"' && (self->at + 1 == self->end || self->at[1] != '"'))
        break;
      self->at += *self->at == '"';
      self->line += *self->at == '\n';
      g_string_append_c (text, *self->at++);
    }
    self->at++;
  }
  while (self->at < self->end && *self->at != self->separator && *self->at != '\n' &&
         *self->at != '\r')
    g_string_append_c (text, *self->at++);
  dry_rows_add_text (self->rows, text->str[0] == '\'' && is_formula (text->str + 1) ? text->str + 1
                                                                                    : text->str);
  return TRUE;
}

static gboolean
read_row (Reading *self, GError **error)
{
  guint n = 0;

  dry_rows_begin (self->rows);
  if (self->rows->rows->len > DRY_MAX_SHEET_ROWS)
    return fail (self, error, DRY_ERROR_LIMIT, "too many rows");
  for (;;) {
    if (++n > DRY_MAX_SHEET_COLUMNS)
      return fail (self, error, DRY_ERROR_LIMIT, "too many columns");
    if (!read_cell (self, error))
      return FALSE;
    if (self->at == self->end || *self->at != self->separator)
      break;
    self->at++;
  }
  if (self->at < self->end && *self->at == '\r')
    self->at++;
  if (self->at < self->end && *self->at == '\n')
    self->at++;
  self->line++;
  return TRUE;
}

DryRows *
dry_rows_from_csv (const char *text, gsize length, GError **error)
{
  g_autoptr (DryRows) rows = dry_rows_new ();
  Reading self = {text, text + length, ',', 1, rows};

  if (length > DRY_MAX_SHEET_BYTES) {
    fail (&self, error, DRY_ERROR_LIMIT, "the file is larger than 64 MB");
    return NULL;
  }
  if (!g_utf8_validate (text, (gssize) length, NULL)) {
    fail (&self, error, DRY_ERROR_SYNTAX, "the file is not UTF-8 text");
    return NULL;
  }
  if (length >= 3 && memcmp (text, "\xef\xbb\xbf", 3) == 0)
    self.at += 3;
  self.separator = find_separator (self.at, self.end);
  rows->decimal = self.separator == ';' ? ',' : '.';
  while (self.at < self.end)
    if (!read_row (&self, error))
      return NULL;
  return g_steal_pointer (&rows);
}
