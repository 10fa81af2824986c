/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Walks into composite widgets, since they offer no other way to their parts, and stands in where
 * buttons are shown. Keeps nothing. */
#define G_LOG_DOMAIN "drybay-ui"
#include "ui/access.h"

#include <glib/gi18n.h>

#include "ui/hooks.h"

typedef void (*Map) (GtkWidget *widget);

/* Of buttons that were given a name here. */
static GQuark
named_quark (void)
{
  return g_quark_from_static_string ("drybay-button-named");
}

/* Without the marks of keys: "_" before a letter; "__" stands for one that is meant. */
static char *
strip_marks (const char *label)
{
  GString *text = g_string_new (NULL);

  for (const char *p = label; *p != '\0'; p++) {
    if (*p == '_' && p[1] != '\0')
      p++;
    g_string_append_c (text, *p);
  }
  return g_string_free (text, FALSE);
}

/* Who was given a name by hand keeps it. GTK itself names a button by its label as it is written;
 * a name of ours follows the label. */
static gboolean
has_own_name (GtkWidget *widget, const char *label)
{
  GtkAccessible *accessible = GTK_ACCESSIBLE (widget);
  g_autofree char *other = NULL;

  if (!gtk_test_accessible_has_property (accessible, GTK_ACCESSIBLE_PROPERTY_LABEL) ||
      g_object_get_qdata (G_OBJECT (widget), named_quark ()) != NULL)
    return FALSE;
  if (label == NULL)
    return TRUE;
  other = gtk_test_accessible_check_property (accessible, GTK_ACCESSIBLE_PROPERTY_LABEL, label);
  return other != NULL;
}

static void
map_button (GtkWidget *widget)
{
  Map original = (Map) dry_hooks_get_original (GTK_TYPE_BUTTON);
  GtkButton *button = GTK_BUTTON (widget);
  const char *label = gtk_button_get_label (button);
  GtkWidget *parent = gtk_widget_get_parent (widget);

  original (widget);
  if (has_own_name (widget, label))
    return;
  if (label != NULL && gtk_button_get_use_underline (button)) {
    g_autofree char *name = strip_marks (label);

    dry_access_set_name (widget, name);
    g_object_set_qdata (G_OBJECT (widget), named_quark (), GINT_TO_POINTER (TRUE));
  } else if (label == NULL && parent != NULL &&
             g_str_equal (gtk_widget_get_css_name (parent), "toast")) {
    dry_access_set_name (widget, _ ("Dismiss"));
  } else if (label == NULL && GTK_IS_TOGGLE_BUTTON (widget) && !GTK_IS_MENU_BUTTON (parent) &&
             GTK_IS_SHORTCUTS_WINDOW (gtk_widget_get_root (widget))) {
    dry_access_set_name (widget, _ ("Search Shortcuts"));
  }
}

void
dry_access_install (void)
{
  dry_hooks_replace (GTK_TYPE_BUTTON, G_STRUCT_OFFSET (GtkWidgetClass, map), (gpointer) map_button);
}

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
