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
/* GTK 4.8 gives a button whose label marks a key a name that holds the label twice, once with the
 * mark; and a toast's closing button and the search button of the shortcuts none. From here on each
 * is named properly when it is seen.
 * Call it once, before the first button is made. */
void dry_access_install (void);
/* The list a group of rows is made of. */
void dry_access_name_lists (GtkWidget *root, const char *name);

G_END_DECLS
