/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Walks into composite widgets, since they offer no other way to their parts.
 * Keeps nothing. */
#define G_LOG_DOMAIN "drybay-ui"
#include "ui/access.h"

void
dry_access_set_name (GtkWidget *widget, const char *name)
{
  gtk_accessible_update_property (GTK_ACCESSIBLE (widget), GTK_ACCESSIBLE_PROPERTY_LABEL, name, -1);
}

void
dry_access_name_lists (GtkWidget *root, const char *name)
{
  for (GtkWidget *child = gtk_widget_get_first_child (root); child;
       child = gtk_widget_get_next_sibling (child)) {
    if (GTK_IS_LIST_BOX (child))
      dry_access_set_name (child, name);
    if (!GTK_IS_LIST_BOX_ROW (child))
      dry_access_name_lists (child, name);
  }
}

void
dry_access_name_expander_row (AdwExpanderRow *row)
{
  const char *title = adw_preferences_row_get_title (ADW_PREFERENCES_ROW (row));

  dry_access_set_name (GTK_WIDGET (row), title);
  dry_access_name_lists (GTK_WIDGET (row), title);
}
