/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Finds a price book: in the catalogue by its id, or in a file by its ending.
 * Errors name the file and the place in it. */
#include "cli/book-option.h"

#include <string.h>

#include "papers/sheet-files.h"

static gboolean
has_ending (const char *path, const char *ending)
{
  gsize n = strlen (path), e = strlen (ending);

  return n > e && g_ascii_strcasecmp (path + n - e, ending) == 0;
}

static gboolean
is_book_file (const char *text)
{
  return has_ending (text, ".json") || has_ending (text, ".csv") || has_ending (text, ".xlsx");
}

const DryPriceBook *
dry_cli_read_book (const char *path, DryArena *arena, GError **error)
{
  g_autofree char *text = NULL, *shown = g_filename_display_name (path);
  g_autoptr (DryRows) rows = NULL;
  gsize length;

  if (!g_file_get_contents (path, &text, &length, error))
    return NULL;
  if (has_ending (path, ".json"))
    return dry_price_book_from_text (text, length, shown, arena, error);
  rows = has_ending (path, ".csv") ? dry_rows_from_csv (text, length, error)
                                   : dry_rows_from_xlsx (text, length, error);
  if (!rows) {
    g_prefix_error (error, "%s: ", shown);
    return NULL;
  }
  return dry_price_book_from_rows (rows, shown, arena, error);
}

const DryPriceBook *
dry_cli_choose_book (const DryCatalog *catalog, const DryJob *job, const char *text,
                     DryArena *arena, GError **error)
{
  const char *id = text ? text : job->prices;
  const DryPriceBook *book;
  g_autoptr (GString) names = NULL;

  if (text && is_book_file (text))
    return dry_cli_read_book (text, arena, error);
  book = dry_catalog_get_price_book (catalog, id);
  if (book)
    return book;
  names = g_string_new (NULL);
  for (guint i = 0; i < dry_catalog_get_n_price_books (catalog); i++)
    g_string_append_printf (names, "%s%s", i ? ", " : "",
                            dry_catalog_get_price_book_at (catalog, i)->id);
  g_set_error (error, DRY_ERROR, DRY_ERROR_REFERENCE,
               "The catalogue holds no price book “%s”; it has: %s", id ? id : "", names->str);
  return NULL;
}

const DryPriceBook *
dry_cli_choose_book_for (const GPtrArray *plans, const char *text, DryArena *arena, GError **error)
{
  const DryPlanContext *context = &((const DryPlan *) plans->pdata[0])->context;

  return dry_cli_choose_book (context->catalog, context->job, text, arena, error);
}
