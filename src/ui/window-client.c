/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Turns the window into what a client may see, and back: full screen, without header, panels and
 * board, and with no act on what nobody sees. The view itself is client-view.c. */
#include "ui/window-private.h"

#include <glib/gi18n.h>

#include "ui/client-view.h"

/* What may be done while the client looks on. */
static const char *const allowed[] = {"undo",       "redo",        "save",      "close",
                                      "fullscreen", "show-client", "shortcuts", NULL};

void
dry_window_hold_actions (DryWindow *self)
{
  g_auto (GStrv) names = NULL;

  if (!self->showing)
    return;
  names = g_action_group_list_actions (G_ACTION_GROUP (self));
  for (guint i = 0; names[i] != NULL; i++) {
    GAction *action = g_action_map_lookup_action (G_ACTION_MAP (self), names[i]);

    if (!G_IS_SIMPLE_ACTION (action) || g_strv_contains (allowed, names[i]) ||
        !g_action_get_enabled (action))
      continue;
    g_simple_action_set_enabled (G_SIMPLE_ACTION (action), FALSE);
    g_ptr_array_add (self->held, g_object_ref (action));
  }
}

/* Those that nobody else switches on and off are as they were; the others are looked at anew. */
static void
release_actions (DryWindow *self)
{
  for (guint i = 0; i < self->held->len; i++)
    g_simple_action_set_enabled (self->held->pdata[i], TRUE);
  g_clear_pointer (&self->held, g_ptr_array_unref);
  dry_window_update_actions (self);
}

static void
show_client (DryWindow *self)
{
  GtkWidget *view = gtk_stack_get_child_by_name (self->pages, "client");

  dry_canvas_cancel (self->canvas);
  if (view == NULL) {
    view = dry_client_view_new (self->session, self->settings);
    gtk_stack_add_named (self->pages, view, "client");
  }
  self->showing = TRUE;
  self->held = g_ptr_array_new_with_free_func (g_object_unref);
  self->was_full = gtk_window_is_fullscreen (GTK_WINDOW (self));
  dry_window_hold_actions (self);
  gtk_widget_set_visible (self->header, FALSE);
  gtk_stack_set_visible_child_name (self->pages, "client");
  if (!self->was_full)
    g_action_group_change_action_state (G_ACTION_GROUP (self), "fullscreen",
                                        g_variant_new_boolean (TRUE));
  dry_client_view_begin (DRY_CLIENT_VIEW (view));
}

static void
leave_client (DryWindow *self)
{
  dry_client_view_end (DRY_CLIENT_VIEW (gtk_stack_get_child_by_name (self->pages, "client")));
  self->showing = FALSE;
  gtk_widget_set_visible (self->header, TRUE);
  gtk_stack_set_visible_child_name (self->pages, "desk");
  if (!self->was_full)
    g_action_group_change_action_state (G_ACTION_GROUP (self), "fullscreen",
                                        g_variant_new_boolean (FALSE));
  release_actions (self);
  gtk_widget_grab_focus (GTK_WIDGET (self->canvas));
}

static void
on_show_client (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  DryWindow *self = data;

  if (self->showing)
    leave_client (self);
  else
    show_client (self);
}

void
dry_window_add_client_actions (DryWindow *self)
{
  static const GActionEntry entries[] = {{.name = "show-client", .activate = on_show_client}};

  g_action_map_add_action_entries (G_ACTION_MAP (self), entries, G_N_ELEMENTS (entries), self);
}
