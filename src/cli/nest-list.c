/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Reads the list of sheets and pieces that drybay-cli nest cuts, from JSON that is already parsed.
 * Opens no file and cuts nothing. */
#include "cli/nest-list.h"

#define MAX_SHEETS 32
#define MAX_ROWS   2000
#define MAX_PIECES 2000
#define MAX_SIDE   (100000 * DRY_MM)
#define MAX_KERF   (100 * DRY_MM)
#define MAX_COUNT  1000000
#define MAX_PRICE  1000000000000

void
dry_nest_list_clear (DryNestList *self)
{
  g_clear_pointer (&self->stock, g_array_unref);
  g_clear_pointer (&self->pieces, g_array_unref);
  g_clear_pointer (&self->number, g_array_unref);
  g_clear_pointer (&self->ids, g_hash_table_unref);
}

static const char *
read_id (DryNestList *self, DryJson row)
{
  DryJson node = dry_json_get (row, "id");
  const char *id = dry_json_string (node);

  if (dry_json_has_failed (row.doc))
    return id;
  if (*id == '\0')
    dry_json_fail (node, DRY_ERROR_SCHEMA, "must not be empty");
  else if (!g_hash_table_add (self->ids, (gpointer) id))
    dry_json_fail (node, DRY_ERROR_SCHEMA, "“%s” is the id of another row too", id);
  return id;
}

static void
read_sheet (DryNestList *self, DryJson row)
{
  dry_json_only_keys (row, "id", "width", "height", "count", "price", NULL);
  DryJson price = dry_json_opt (row, "price");
  DryStock stock = {
      .id = read_id (self, row),
      .width = dry_json_length (dry_json_get (row, "width"), 1, MAX_SIDE),
      .height = dry_json_length (dry_json_get (row, "height"), 1, MAX_SIDE),
      .count = (gint) dry_json_integer_or (dry_json_opt (row, "count"), 0, MAX_COUNT, -1),
      .price = dry_json_integer_or (price, 0, MAX_PRICE, 0),
  };
  /* What costs nothing and is counted lies in the shop already. */
  stock.on_hand = dry_json_is_present (price) && stock.price == 0 && stock.count >= 0;
  g_array_append_val (self->stock, stock);
}

static gboolean
fits_some (const DryNestList *self, const DryPiece *piece)
{
  for (guint i = 0; i < self->stock->len; i++) {
    const DryStock *stock = &g_array_index (self->stock, DryStock, i);
    if (piece->width <= stock->width && piece->height <= stock->height)
      return TRUE;
    if (piece->may_turn && piece->height <= stock->width && piece->width <= stock->height)
      return TRUE;
  }
  return FALSE;
}

static void
read_piece (DryNestList *self, DryJson row, gboolean may_turn)
{
  dry_json_only_keys (row, "id", "width", "height", "count", "rotate", NULL);
  DryPiece piece = {
      .name = read_id (self, row),
      .width = dry_json_length (dry_json_get (row, "width"), 1, MAX_SIDE),
      .height = dry_json_length (dry_json_get (row, "height"), 1, MAX_SIDE),
      .may_turn = dry_json_boolean_or (dry_json_opt (row, "rotate"), may_turn),
  };
  gint64 count = dry_json_integer_or (dry_json_opt (row, "count"), 0, MAX_COUNT, 1);

  if (dry_json_has_failed (row.doc))
    return;
  if (count > 0 && !fits_some (self, &piece))
    dry_json_fail (row, DRY_ERROR_SCHEMA, "“%s” fits no sheet%s", piece.name,
                   piece.may_turn ? "" : "; it may not be rotated");
  else if (self->pieces->len + count > MAX_PIECES)
    dry_json_fail (row, DRY_ERROR_LIMIT, "more than %d pieces in all", MAX_PIECES);
  else
    for (guint i = 1; i <= count; i++) {
      g_array_append_val (self->pieces, piece);
      g_array_append_val (self->number, i);
    }
}

static void
read_rows (DryNestList *self, DryJson rows, guint most, gboolean are_pieces, gboolean may_turn)
{
  guint n = dry_json_array_length (rows);

  if (n > most)
    dry_json_fail (rows, DRY_ERROR_LIMIT, "%u rows; at most %u may be", n, most);
  g_hash_table_remove_all (self->ids);
  for (guint i = 0; i < n && !dry_json_has_failed (rows.doc); i++) {
    if (are_pieces)
      read_piece (self, dry_json_item (rows, i), may_turn);
    else
      read_sheet (self, dry_json_item (rows, i));
  }
}

gboolean
dry_nest_list_read (DryNestList *self, DryJsonDocument *document, GError **error)
{
  DryJson root = dry_json_root (document);

  self->stock = g_array_new (FALSE, TRUE, sizeof (DryStock));
  self->pieces = g_array_new (FALSE, TRUE, sizeof (DryPiece));
  self->number = g_array_new (FALSE, TRUE, sizeof (guint));
  self->ids = g_hash_table_new (g_str_hash, g_str_equal);
  dry_json_only_keys (root, "kerf", "rotate", "sheets", "pieces", NULL);
  self->kerf = dry_json_length (dry_json_get (root, "kerf"), 0, MAX_KERF);
  gboolean may_turn = dry_json_boolean (dry_json_get (root, "rotate"));
  DryJson sheets = dry_json_get (root, "sheets");
  read_rows (self, sheets, MAX_SHEETS, FALSE, FALSE);
  if (!dry_json_has_failed (document) && self->stock->len == 0)
    dry_json_fail (sheets, DRY_ERROR_SCHEMA, "a list has at least one sheet");
  read_rows (self, dry_json_get (root, "pieces"), MAX_ROWS, TRUE, may_turn);
  return dry_json_finish (document, error);
}
