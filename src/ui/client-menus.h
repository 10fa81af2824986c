/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The client view's two menus: the catalogue's tiles to try, and which of the ways are shown. Large
 * rows for fingers; what is done with an answer is the view's. */
#pragma once

#include <gtk/gtk.h>

#include "plan/compare.h"
#include "ui/session.h"

G_BEGIN_DECLS

typedef void (*DryTileChosen) (const DryItem *item, gpointer data);
typedef void (*DryChoiceChanged) (DryId option, gboolean wanted, gpointer data);

/* Fills the menu button `button` with every tile of the catalogue, which must live as long. */
void dry_client_tile_fill (GtkWidget *button, const DryCatalog *catalog, DryTileChosen chosen,
                           gpointer data);
/* Tiles the room shown with `item`: in the alternate, or in the plan for 0. One undo step. */
void dry_client_set_tile (DrySession *session, DryId alternate, const DryItem *item);

void dry_client_choice_init (GtkWidget *button, DryChoiceChanged changed, gpointer data);
/* A check for each option; `told` (DryId) are checked, or the first `most` when it is empty. With
 * `most` checked no more can be. Hidden when there is nothing to choose from. */
void dry_client_choice_fill (GtkWidget *button, const DryComparison *comparison, const GArray *told,
                             guint most);

G_END_DECLS
