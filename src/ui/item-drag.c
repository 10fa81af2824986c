/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The type of what is dragged from the shelf, and where it goes when it is dropped on nothing.
 * What it becomes on the board is the board's business. */
#include "ui/item-drag.h"

GType
dry_item_drag_get_type (void)
{
  static gsize type = 0;

  if (g_once_init_enter (&type))
    g_once_init_leave (&type, g_boxed_type_register_static (g_intern_static_string ("DryItemDrag"),
                                                            (GBoxedCopyFunc) g_strdup,
                                                            (GBoxedFreeFunc) g_free));
  return type;
}

GdkContentProvider *
dry_item_drag_provide (const char *id)
{
  return gdk_content_provider_new_typed (DRY_TYPE_ITEM_DRAG, id);
}

const char *
dry_item_drag_get (const GValue *value)
{
  return value != NULL && G_VALUE_HOLDS (value, DRY_TYPE_ITEM_DRAG) ? g_value_get_boxed (value)
                                                                    : NULL;
}

/* Over it; a drop that nothing answers is refused by itself. */
static GdkDragAction
refuse (G_GNUC_UNUSED GtkDropTarget *target, G_GNUC_UNUSED double x, G_GNUC_UNUSED double y,
        G_GNUC_UNUSED gpointer nothing)
{
  return 0;
}

/* The board says yes, something comes up over it, and the button is let go: what is there now knows
 * nothing of drops, and GTK 4.8 ends none by itself. */
void
dry_item_drag_catch (GtkWidget *window)
{
  GtkDropTarget *target = gtk_drop_target_new (DRY_TYPE_ITEM_DRAG, GDK_ACTION_COPY);

  g_signal_connect (target, "enter", G_CALLBACK (refuse), NULL);
  g_signal_connect (target, "motion", G_CALLBACK (refuse), NULL);
  gtk_widget_add_controller (window, GTK_EVENT_CONTROLLER (target));
}
