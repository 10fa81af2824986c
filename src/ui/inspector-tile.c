/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A choice of the catalogue's tiles; sizes typed by hand show as a size of one's own. The sizes
 * themselves are ordinary fields (inspector-tables.c). */
#define G_LOG_DOMAIN "drybay-ui"
#include "ui/inspector-tile.h"

#include <adwaita.h>
#include <glib/gi18n.h>

/* The item whose id and sizes the finish has; NULL: typed by hand. */
static const DryItem *
find_tile (DrySession *session, const DryFinish *finish)
{
  const DryCatalog *catalog = dry_session_get_catalog (session);

  for (guint i = 0; finish->tile && i < dry_catalog_get_n_items (catalog); i++) {
    const DryItem *item = dry_catalog_get_item_at (catalog, i);

    if (item->kind == DRY_ITEM_TILE && g_str_equal (item->id, finish->tile))
      return item->tile_width == finish->tile_width && item->tile_height == finish->tile_height
                 ? item
                 : NULL;
  }
  return NULL;
}

char *
dry_tile_describe (DrySession *session)
{
  const DryRoom *room = dry_session_get_room (session);
  const DryItem *item = room ? find_tile (session, &room->finish) : NULL;
  g_autofree char *width = NULL, *height = NULL;

  if (!room || !room->finish.tiled)
    return g_strdup (_ ("No tile yet"));
  if (item)
    return g_strdup (item->name);
  width = dry_session_format_length (session, room->finish.tile_width);
  height = dry_session_format_length (session, room->finish.tile_height);
  return g_strdup_printf ("%s × %s", width, height);
}

static void
chosen_cb (AdwComboRow *row, GParamSpec *pspec, DrySession *session)
{
  GPtrArray *items = g_object_get_data (G_OBJECT (row), "items");
  const DryRoom *room = dry_session_get_room (session);
  guint index = adw_combo_row_get_selected (row);
  const DryItem *item = index > 0 && index <= items->len ? items->pdata[index - 1] : NULL;
  g_autofree char *step = NULL;
  GError *error = NULL;
  DryProject *project;
  DryFinish finish;

  if (!room || !item || (room->finish.tiled && find_tile (session, &room->finish) == item))
    return;
  finish = dry_item_lay_tile (item, &room->finish);
  step = g_strdup_printf (_ ("Tile with %s"), item->name);
  project = dry_edit_set_finish (dry_session_get_project (session), room->id, &finish, &error);
  dry_session_apply (session, project, step, NULL, error);
}

static void
show_tile (GtkWidget *row)
{
  DrySession *session = g_object_get_data (G_OBJECT (row), "session");
  GPtrArray *items = g_object_get_data (G_OBJECT (row), "items");
  const DryRoom *room = dry_session_get_room (session);
  guint index = 0;

  if (!room)
    return;
  if (room->finish.tiled && g_ptr_array_find (items, find_tile (session, &room->finish), &index))
    index++;
  else
    index = 0;
  g_signal_handlers_block_by_func (row, chosen_cb, session);
  adw_combo_row_set_selected (ADW_COMBO_ROW (row), index);
  g_signal_handlers_unblock_by_func (row, chosen_cb, session);
}

GtkWidget *
dry_tile_row_new (DrySession *session)
{
  const DryCatalog *catalog = dry_session_get_catalog (session);
  g_autoptr (GtkStringList) names = gtk_string_list_new (NULL);
  GPtrArray *items = g_ptr_array_new ();
  GtkWidget *row = adw_combo_row_new ();

  gtk_string_list_append (names, _ ("A size of your own"));
  for (guint i = 0; i < dry_catalog_get_n_items (catalog); i++) {
    const DryItem *item = dry_catalog_get_item_at (catalog, i);

    if (item->kind != DRY_ITEM_TILE)
      continue;
    g_ptr_array_add (items, (gpointer) item);
    gtk_string_list_append (names, item->name);
  }
  adw_preferences_row_set_use_markup (ADW_PREFERENCES_ROW (row), FALSE);
  adw_preferences_row_set_title (ADW_PREFERENCES_ROW (row), _ ("Tile from the catalog"));
  adw_combo_row_set_use_subtitle (ADW_COMBO_ROW (row), TRUE);
  adw_combo_row_set_model (ADW_COMBO_ROW (row), G_LIST_MODEL (names));
  g_object_set_data_full (G_OBJECT (row), "items", items, (GDestroyNotify) g_ptr_array_unref);
  g_object_set_data_full (G_OBJECT (row), "session", g_object_ref (session), g_object_unref);
  g_signal_connect (row, "notify::selected", G_CALLBACK (chosen_cb), session);
  g_signal_connect_object (session, "document-changed", G_CALLBACK (show_tile), row,
                           G_CONNECT_SWAPPED);
  show_tile (row);
  return row;
}
