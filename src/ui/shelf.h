/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The shelf: parts to drag onto the board or pick by a click, in groups, with a search.
 * Shows the catalogue and hands items to the canvas; keeps no state of the document. */
#pragma once

#include <gtk/gtk.h>

#include "ui/canvas.h"

G_BEGIN_DECLS

#define DRY_TYPE_SHELF (dry_shelf_get_type ())
G_DECLARE_FINAL_TYPE (DryShelf, dry_shelf, DRY, SHELF, GtkWidget)

GtkWidget *dry_shelf_new (DrySession *session, DryCanvas *canvas);

G_END_DECLS
