/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What a drag from the shelf carries: the id of an item of the catalogue, as a type of its own that
 * no text entry takes for text. Knows no board and no shelf. */
#pragma once

#include <gtk/gtk.h>

G_BEGIN_DECLS

#define DRY_TYPE_ITEM_DRAG (dry_item_drag_get_type ()) /* boxed: a string */
GType dry_item_drag_get_type (void);

GdkContentProvider *dry_item_drag_provide (const char *id); /* caller's */
/* The id, borrowed of the value; NULL when it holds none. */
const char *dry_item_drag_get (const GValue *value);

/* Ends drops in the window that nothing else in it takes. */
void dry_item_drag_catch (GtkWidget *window);

G_END_DECLS
