/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Catalogue files, price tables and cutting lists from anywhere: read or refused with words.
 * Opens no file: each entry does what the catalogue's loader does with the bytes of one. */
#include <string.h>

#include "catalog/item-read.h"
#include "catalog/price-book.h"
#include "catalog/rule-read.h"
#include "catalog/system-read.h"
#include "cli/nest-list.h"
#include "fuzz/entries.h"
#include "papers/sheet-files.h"

static DryJsonDocument *
parse (const guint8 *data, gsize size)
{
  g_autofree char *copy = fuzz_copy (data, size);
  GError *error = NULL;
  DryJsonDocument *document = dry_json_document_new (copy, size, "fuzz", &error);

  fuzz_one_of (document != NULL, error);
  return document;
}

/* TRUE when the reader had nothing to complain of. */
static gboolean
finish (DryJsonDocument *document)
{
  GError *error = NULL;
  gboolean done = dry_json_finish (document, &error);

  fuzz_one_of (done, error);
  return done;
}

void
fuzz_items (const guint8 *data, gsize size)
{
  g_autoptr (DryArena) arena = dry_arena_new ();
  g_autoptr (DryJsonDocument) document = parse (data, size);
  g_autoptr (GArray) items = NULL;

  if (document == NULL)
    return;
  items = dry_items_read (dry_json_root (document), arena);
  g_assert_nonnull (items);
  if (finish (document))
    for (guint i = 0; i < items->len; i++)
      g_assert_nonnull (g_array_index (items, DryItem, i).id);
}

void
fuzz_system (const guint8 *data, gsize size)
{
  g_autoptr (DryArena) arena = dry_arena_new ();
  g_autoptr (DryJsonDocument) document = parse (data, size);
  const DrySystem *system;

  if (document == NULL)
    return;
  system = dry_system_read (dry_json_root (document), "fuzz", arena);
  if (finish (document)) {
    g_assert_nonnull (system);
    g_assert_null (dry_system_get_product (system, ""));
  }
}

void
fuzz_rules (const guint8 *data, gsize size)
{
  g_autoptr (DryArena) arena = dry_arena_new ();
  g_autoptr (DryJsonDocument) document = parse (data, size);
  const DryRawPack *pack;
  const DryRulePack *resolved;
  GError *error = NULL;

  if (document == NULL)
    return;
  pack = dry_rule_pack_read (dry_json_root (document), "fuzz", arena);
  if (!finish (document))
    return;
  g_assert_nonnull (pack);
  resolved = dry_rule_packs_resolve (&pack, 1, arena, NULL, &error);
  fuzz_one_of (resolved != NULL, error);
}

/* A book that is taken is written and read as the same bytes. */
void
fuzz_prices (const guint8 *data, gsize size)
{
  g_autofree char *copy = fuzz_copy (data, size);
  g_autoptr (DryArena) arena = dry_arena_new ();
  g_autofree char *text = NULL, *again = NULL;
  gsize length, again_length;
  const DryPriceBook *book;
  GError *error = NULL;

  book = dry_price_book_from_text (copy, size, "fuzz", arena, &error);
  fuzz_one_of (book != NULL, error);
  if (book == NULL)
    return;
  text = dry_price_book_to_text (book, &length);
  book = dry_price_book_from_text (text, length, "again", arena, &error);
  g_assert_no_error (error);
  again = dry_price_book_to_text (book, &again_length);
  g_assert_cmpmem (text, length, again, again_length);
}

/* Bytes with a workbook's mark are one, all others are a table of separated values. */
void
fuzz_sheet (const guint8 *data, gsize size)
{
  g_autofree char *copy = fuzz_copy (data, size);
  g_autoptr (DryArena) arena = dry_arena_new ();
  g_autoptr (DryRows) rows = NULL;
  GError *error = NULL;
  const DryPriceBook *book;

  if (size > 1 && memcmp (data, "PK", 2) == 0)
    rows = dry_rows_from_xlsx (copy, size, &error);
  else
    rows = dry_rows_from_csv (copy, size, &error);
  fuzz_one_of (rows != NULL, error);
  if (rows == NULL)
    return;
  error = NULL;
  book = dry_price_book_from_rows (rows, "fuzz", arena, &error);
  fuzz_one_of (book != NULL, error);
}

void
fuzz_nest (const guint8 *data, gsize size)
{
  g_auto (DryNestList) list = {0};
  g_autoptr (DryJsonDocument) document = parse (data, size);
  GError *error = NULL;
  gboolean read;

  if (document == NULL)
    return;
  read = dry_nest_list_read (&list, document, &error);
  fuzz_one_of (read, error);
  g_assert_true (!read || (list.stock->len > 0 && list.pieces->len == list.number->len));
}
