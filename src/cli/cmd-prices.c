/* SPDX-License-Identifier: GPL-3.0-or-later */
/* drybay-cli prices: a price book checked, and written in another form: JSON, CSV or XLSX.
 * The way from one form to another loses nothing. */
#include <string.h>

#include "cli/book-option.h"
#include "cli/command.h"
#include "papers/output.h"
#include "papers/sheet-files.h"

static char *output, *decimal;

static gboolean
write_book (const DryPriceBook *book, GError **error)
{
  g_autoptr (DryRows) rows = dry_price_book_to_rows (book);
  g_autofree char *text = NULL;
  gsize length;

  if (g_str_has_suffix (output, ".json"))
    text = dry_price_book_to_text (book, &length);
  else if (g_str_has_suffix (output, ".csv"))
    text = dry_rows_to_csv (rows, g_strcmp0 (decimal, "comma") == 0 ? ',' : '.');
  else if (g_str_has_suffix (output, ".xlsx")) {
    g_autoptr (GBytes) bytes = dry_rows_to_xlsx (rows, "Prices");
    return dry_output_write (output, g_bytes_get_data (bytes, NULL), g_bytes_get_size (bytes),
                             error);
  } else {
    g_set_error (error, DRY_ERROR, DRY_ERROR_UNSUPPORTED,
                 "“%s” ends in none of .json, .csv, .xlsx, so its form is not known", output);
    return FALSE;
  }
  return dry_output_write (output, text, strlen (text), error);
}

/* By id from the catalogue, or a file. */
static const DryPriceBook *
find_book (const char *name, DryCatalog *catalog, DryArena *arena, GError **error)
{
  const DryPriceBook *book = dry_catalog_get_price_book (catalog, name);

  return book ? book : dry_cli_read_book (name, arena, error);
}

static int
run (char **files)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (DryCatalog) catalog = NULL;
  g_autoptr (DryArena) arena = dry_arena_new ();
  const DryPriceBook *book;

  if (decimal && !g_str_equal (decimal, "comma") && !g_str_equal (decimal, "point")) {
    g_printerr ("drybay-cli prices: --decimal is point or comma\n");
    return DRY_EXIT_ERROR;
  }
  if (!(catalog = dry_cli_load_catalog (&error)) ||
      !(book = find_book (files[0], catalog, arena, &error)) ||
      (output && !write_book (book, &error)))
    return dry_cli_fail (error);
  if (!output)
    g_print ("%s: %s, %s%s; %u prices, %u tasks%s%s%s%s\n", book->id, book->name, book->currency,
             book->invented ? ", invented samples" : "", book->n_prices, book->n_tasks,
             book->valid_from ? ", valid from " : "", book->valid_from ? book->valid_from : "",
             book->valid_to ? " to " : "", book->valid_to ? book->valid_to : "");
  return DRY_EXIT_OK;
}

static const GOptionEntry ENTRIES[] = {
    {"output", 'o', 0, G_OPTION_ARG_FILENAME, &output, "Write it there; the ending says the form",
     "OUT.json|.csv|.xlsx"},
    {"decimal", 'd', 0, G_OPTION_ARG_STRING, &decimal,
     "point, or comma with cells apart by semicolons (CSV only)", "MARK"},
    {NULL},
};

const DryCommand dry_command_prices = {
    .name = "prices",
    .arguments = "BOOK",
    .summary = "Check a price book, or write it as JSON, CSV or XLSX",
    .details = "BOOK is the id of a price book of the catalogue, or a file of one of these forms.",
    .entries = ENTRIES,
    .takes_catalog = TRUE,
    .n_files = 1,
    .run = run,
};
