/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Unsaved work of a process that is gone, as rows to open it by. A row says what and when, never
 * more than the journal's list tells; nothing is read in full before someone asks for it. */
#include "ui/leftovers.h"

#include <glib/gi18n.h>
#include <glib/gstdio.h>
#include <string.h>

#define FORGOTTEN ".forgotten"

static char *
dup_folder (const char *parent, const char *name)
{
  return g_build_filename (parent, "drybay", name, NULL);
}

char *
dry_leftovers_dup_journals (void)
{
  return dup_folder (g_get_user_state_dir (), "journals");
}

char *
dry_leftovers_dup_versions (void)
{
  return dup_folder (g_get_user_data_dir (), "versions");
}

static char *
tell_row (const DryLeftover *leftover)
{
  g_autoptr (GDateTime) time = g_date_time_new_from_unix_local (leftover->last_time);
  g_autofree char *when = time != NULL ? g_date_time_format (time, "%x %H:%M") : NULL;

  if (leftover->newer)
    return g_strdup_printf ("%s · %s", _ ("left by a newer Drybay, which can open it"),
                            when != NULL ? when : "");
  g_autofree char *name =
      leftover->path != NULL ? g_filename_display_basename (leftover->path) : NULL;
  g_autofree char *count = g_strdup_printf (
      ngettext ("%u change not saved", "%u changes not saved", leftover->n_unsaved),
      leftover->n_unsaved);

  return g_strdup_printf ("%s · %s · %s", name != NULL ? name : _ ("never saved"), count,
                          when != NULL ? when : "");
}

static GtkWidget *
make_forget_button (const char *file)
{
  GtkWidget *button = gtk_button_new_from_icon_name ("user-trash-symbolic");

  gtk_widget_set_valign (button, GTK_ALIGN_CENTER);
  gtk_widget_add_css_class (button, "flat");
  gtk_widget_set_tooltip_text (button, _ ("Discard"));
  gtk_accessible_update_property (GTK_ACCESSIBLE (button), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  _ ("Discard"), -1);
  gtk_actionable_set_action_name (GTK_ACTIONABLE (button), "win.forget-leftover");
  gtk_actionable_set_action_target (GTK_ACTIONABLE (button), "s", file);
  return button;
}

static GtkWidget *
make_row (const DryLeftover *leftover)
{
  GtkWidget *row = adw_action_row_new ();
  g_autofree char *subtitle = tell_row (leftover);
  gboolean titled = leftover->title != NULL && leftover->title[0] != '\0';

  adw_preferences_row_set_use_markup (ADW_PREFERENCES_ROW (row), FALSE);
  adw_preferences_row_set_title (ADW_PREFERENCES_ROW (row), leftover->newer ? _ ("Unsaved Work")
                                                            : titled        ? leftover->title
                                                                            : _ ("New Project"));
  adw_action_row_set_subtitle (ADW_ACTION_ROW (row), subtitle);
  adw_action_row_set_title_lines (ADW_ACTION_ROW (row), 1);
  adw_action_row_add_suffix (ADW_ACTION_ROW (row), make_forget_button (leftover->file));
  if (leftover->newer)
    return row;
  gtk_list_box_row_set_activatable (GTK_LIST_BOX_ROW (row), TRUE);
  gtk_actionable_set_action_name (GTK_ACTIONABLE (row), "win.recover");
  gtk_actionable_set_action_target (GTK_ACTIONABLE (row), "s", leftover->file);
  return row;
}

void
dry_leftovers_fill (AdwPreferencesGroup *group, GPtrArray *rows)
{
  g_autofree char *folder = dry_leftovers_dup_journals ();
  g_autoptr (GPtrArray) all = dry_journal_list (folder);

  for (guint i = 0; i < rows->len; i++)
    adw_preferences_group_remove (group, rows->pdata[i]);
  g_ptr_array_set_size (rows, 0);
  for (guint i = 0; i < all->len; i++) {
    const DryLeftover *leftover = all->pdata[i];
    GtkWidget *row;

    if (!g_utf8_validate (leftover->file, -1, NULL)) /* an action's target is UTF-8 */
      continue;
    row = make_row (leftover);
    adw_preferences_group_add (group, row);
    g_ptr_array_add (rows, row);
  }
  gtk_widget_set_visible (GTK_WIDGET (group), rows->len > 0);
}

char *
dry_leftovers_find (const char *path)
{
  g_autofree char *folder = dry_leftovers_dup_journals ();
  g_autoptr (GPtrArray) all = dry_journal_list (folder);
  g_autofree char *whole = g_canonicalize_filename (path, NULL);

  for (guint i = 0; i < all->len; i++) {
    const DryLeftover *leftover = all->pdata[i];
    g_autofree char *other =
        leftover->path != NULL ? g_canonicalize_filename (leftover->path, NULL) : NULL;

    if (g_strcmp0 (whole, other) == 0)
      return g_strdup (leftover->file);
  }
  return NULL;
}

void
dry_leftovers_forget (const char *file)
{
  g_autofree char *away = g_strconcat (file, FORGOTTEN, NULL);

  g_rename (file, away);
}

void
dry_leftovers_bring_back (const char *file)
{
  g_autofree char *away = g_strconcat (file, FORGOTTEN, NULL);

  g_rename (away, file);
}

void
dry_leftovers_clean (void)
{
  g_autofree char *folder = dry_leftovers_dup_journals ();
  g_autoptr (GDir) dir = g_dir_open (folder, 0, NULL);
  const char *name;

  while (dir != NULL && (name = g_dir_read_name (dir)) != NULL)
    if (g_str_has_suffix (name, FORGOTTEN)) {
      g_autofree char *file = g_build_filename (folder, name, NULL);

      g_unlink (file);
    }
}
