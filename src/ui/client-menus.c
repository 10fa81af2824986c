/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Popovers with a scrolled column of large buttons. Checks are filled without telling it as a
 * person's doing. */
#define G_LOG_DOMAIN "drybay-ui"
#include "ui/client-menus.h"

#include <glib/gi18n.h>

#include "project/alternate.h"

static GtkWidget *
make_column (GtkWidget *button)
{
  GtkWidget *popover = gtk_popover_new (), *scroller = gtk_scrolled_window_new ();
  GtkWidget *column = gtk_box_new (GTK_ORIENTATION_VERTICAL, 2);

  gtk_scrolled_window_set_policy (GTK_SCROLLED_WINDOW (scroller), GTK_POLICY_NEVER,
                                  GTK_POLICY_AUTOMATIC);
  gtk_scrolled_window_set_max_content_height (GTK_SCROLLED_WINDOW (scroller), 520);
  gtk_scrolled_window_set_propagate_natural_height (GTK_SCROLLED_WINDOW (scroller), TRUE);
  gtk_scrolled_window_set_child (GTK_SCROLLED_WINDOW (scroller), column);
  gtk_popover_set_child (GTK_POPOVER (popover), scroller);
  gtk_menu_button_set_popover (GTK_MENU_BUTTON (button), popover);
  return column;
}

/* --- tile --- */

typedef struct {
  const DryItem *item;
  DryTileChosen chosen;
  gpointer data;
} TileAct;

static void
tile_clicked_cb (GtkButton *button, TileAct *act)
{
  act->chosen (act->item, act->data);
}

void
dry_client_tile_fill (GtkWidget *button, const DryCatalog *catalog, DryTileChosen chosen,
                      gpointer data)
{
  GtkWidget *column = make_column (button);

  for (guint i = 0; i < dry_catalog_get_n_items (catalog); i++) {
    const DryItem *item = dry_catalog_get_item_at (catalog, i);
    GtkWidget *row, *label;
    TileAct *act;

    if (item->kind != DRY_ITEM_TILE)
      continue;
    act = g_new0 (TileAct, 1);
    *act = (TileAct){item, chosen, data};
    row = gtk_button_new_with_label (item->name);
    label = gtk_button_get_child (GTK_BUTTON (row));
    gtk_label_set_xalign (GTK_LABEL (label), 0);
    gtk_widget_add_css_class (row, "flat");
    gtk_widget_add_css_class (row, "client-tool");
    g_signal_connect_data (row, "clicked", G_CALLBACK (tile_clicked_cb), act,
                           (GClosureNotify) (void (*) (void)) g_free, 0);
    gtk_box_append (GTK_BOX (column), row);
  }
}

static DryProject *
tile_room (const DryProject *project, DryId room_id, const DryItem *item, GError **error)
{
  const DryRoom *room = dry_project_get_room (project, room_id);
  DryFinish finish = dry_item_lay_tile (item, &room->finish);

  return dry_edit_set_finish (project, room_id, &finish, error);
}

void
dry_client_set_tile (DrySession *session, DryId alternate, const DryItem *item)
{
  const DryProject *project = dry_session_get_project (session);
  DryId room = dry_session_get_room_id (session);
  /* Translators: name of a tile */
  g_autofree char *step = g_strdup_printf (_ ("Tile with %s"), item->name);
  g_autoptr (DryProject) resolved =
      alternate ? dry_project_resolve (project, alternate) : dry_project_ref (project);
  g_autoptr (DryProject) tiled = NULL;
  GError *error = NULL;

  if (!resolved || !dry_project_get_room (resolved, room))
    return;
  tiled = tile_room (resolved, room, item, &error);
  if (tiled && alternate)
    dry_session_apply (session, dry_edit_set_alternate (project, alternate, tiled, &error), step,
                       NULL, error);
  else
    dry_session_apply (session, g_steal_pointer (&tiled), step, NULL, error);
}

/* --- which are shown --- */

typedef struct {
  GtkWidget *column;
  DryChoiceChanged changed;
  gpointer data;
  gboolean filling;
} Choice;

void
dry_client_choice_init (GtkWidget *button, DryChoiceChanged changed, gpointer data)
{
  Choice *self = g_new0 (Choice, 1);

  *self = (Choice){.column = make_column (button), .changed = changed, .data = data};
  g_object_set_data_full (G_OBJECT (button), "choice", self, g_free);
}

static void
checked_cb (GtkCheckButton *check, Choice *self)
{
  DryId id = GPOINTER_TO_UINT (g_object_get_data (G_OBJECT (check), "option"));

  if (!self->filling)
    self->changed (id, gtk_check_button_get_active (check), self->data);
}

static gboolean
is_told (const GArray *told, DryId id, guint index, guint most)
{
  for (guint i = 0; i < told->len; i++)
    if (g_array_index (told, DryId, i) == id)
      return TRUE;
  return told->len == 0 && index < most;
}

/* As many checks as options, those there are used again so that the popover keeps its focus. */
static GtkWidget *
next_check (Choice *self, GtkWidget *last)
{
  GtkWidget *check =
      last ? gtk_widget_get_next_sibling (last) : gtk_widget_get_first_child (self->column);

  if (check)
    return check;
  check = gtk_check_button_new ();
  gtk_widget_add_css_class (check, "client-tool");
  g_signal_connect (check, "toggled", G_CALLBACK (checked_cb), self);
  gtk_box_append (GTK_BOX (self->column), check);
  return check;
}

void
dry_client_choice_fill (GtkWidget *button, const DryComparison *comparison, const GArray *told,
                        guint most)
{
  Choice *self = g_object_get_data (G_OBJECT (button), "choice");
  GtkWidget *check = NULL;
  guint n = 0;

  for (guint i = 0; i < comparison->n; i++)
    n += is_told (told, comparison->options[i].id, i, most);
  self->filling = TRUE;
  for (guint i = 0; i < comparison->n; i++) {
    const DryOption *option = &comparison->options[i];
    gboolean on = is_told (told, option->id, i, most);

    check = next_check (self, check);
    gtk_check_button_set_label (GTK_CHECK_BUTTON (check),
                                option->id ? option->name : _ ("As planned"));
    g_object_set_data (G_OBJECT (check), "option", GUINT_TO_POINTER (option->id));
    gtk_check_button_set_active (GTK_CHECK_BUTTON (check), on);
    /* The last one cannot be taken away, a fifth not be added. */
    gtk_widget_set_sensitive (check, on ? n > 1 : n < most);
  }
  while (check && gtk_widget_get_next_sibling (check))
    gtk_box_remove (GTK_BOX (self->column), gtk_widget_get_next_sibling (check));
  self->filling = FALSE;
  gtk_widget_set_sensitive (button, comparison->n > 1);
}
