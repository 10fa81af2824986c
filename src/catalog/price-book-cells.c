/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Tables of cells as spreadsheets have them: text, numbers with a point, money with hundredths.
 * Knows nothing of price books nor of files. */
#define G_LOG_DOMAIN "drybay-catalog"
#include "catalog/price-book.h"

#include <string.h>

static void
clear_cell (gpointer cell)
{
  g_free (((DryCell *) cell)->text);
}

DryRows *
dry_rows_new (void)
{
  DryRows *self = g_new0 (DryRows, 1);

  self->rows = g_ptr_array_new_with_free_func ((GDestroyNotify) g_array_unref);
  return self;
}

void
dry_rows_free (DryRows *self)
{
  if (!self)
    return;
  g_ptr_array_unref (self->rows);
  g_free (self);
}

void
dry_rows_begin (DryRows *self)
{
  GArray *row = g_array_new (FALSE, TRUE, sizeof (DryCell));

  g_array_set_clear_func (row, clear_cell);
  g_ptr_array_add (self->rows, row);
}

static void
add_cell (DryRows *self, DryCell cell)
{
  GArray *row = g_ptr_array_index (self->rows, self->rows->len - 1);

  g_array_append_val (row, cell);
}

void
dry_rows_add_text (DryRows *self, const char *text)
{
  add_cell (self, (DryCell){g_strdup (text ? text : ""), FALSE});
}

void
dry_rows_add_number (DryRows *self, double value, gint decimals)
{
  char format[8] = "%.0f", text[G_ASCII_DTOSTR_BUF_SIZE + 320];

  format[2] = (char) ('0' + CLAMP (decimals, 0, 9));
  g_ascii_formatd (text, sizeof text, format, value);
  if (strchr (text, '.')) {
    char *end = text + strlen (text);
    while (end[-1] == '0')
      *--end = '\0';
    if (end[-1] == '.')
      *--end = '\0';
  }
  add_cell (self, (DryCell){g_strdup (text), TRUE});
}

void
dry_rows_add_money (DryRows *self, gint64 hundredths)
{
  add_cell (self,
            (DryCell){g_strdup_printf ("%s%" G_GINT64_FORMAT ".%02d", hundredths < 0 ? "-" : "",
                                       ABS (hundredths) / 100, (int) (ABS (hundredths) % 100)),
                      TRUE});
}

const char *
dry_rows_get (const DryRows *self, guint row, guint column)
{
  const GArray *cells = row < self->rows->len ? g_ptr_array_index (self->rows, row) : NULL;

  return cells && column < cells->len ? g_array_index (cells, DryCell, column).text : "";
}
