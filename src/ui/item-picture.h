/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A small line picture of a catalogue item for the shelf, in true proportion.
 * Decoration: the label beside it says what it is. */
#pragma once

#include <gtk/gtk.h>

#include "catalog/item.h"

G_BEGIN_DECLS

#define DRY_TYPE_ITEM_PICTURE (dry_item_picture_get_type ())
G_DECLARE_FINAL_TYPE (DryItemPicture, dry_item_picture, DRY, ITEM_PICTURE, GtkWidget)

/* `item` must outlive the widget (the session holds the catalogue). */
GtkWidget *dry_item_picture_new (const DryItem *item);
/* The same as a paintable, for the icon that follows a drag. */
GdkPaintable *dry_item_picture_make_icon (const DryItem *item,
                                          GtkWidget *widget) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
