/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Names for what GTK and libadwaita leave nameless: the rows and lists inside foldable rows.
 * Changes nothing that is seen. */
#pragma once

#include <adwaita.h>

G_BEGIN_DECLS

/* Screen readers say `name` for the widget. */
void dry_access_set_name (GtkWidget *widget, const char *name);
/* The foldable row itself and the list it unfolds say its title. */
void dry_access_name_expander_row (AdwExpanderRow *row);
/* The list a group of rows is made of. */
void dry_access_name_lists (GtkWidget *root, const char *name);

G_END_DECLS
