/* SPDX-License-Identifier: GPL-3.0-or-later */
/* One application a test program, one session and one window a test.
 * What a panel keeps of its session is found out when the desk is cleared. */
#include "desk.h"

#include "support/fixtures.h"

static DryApplication *application;

gboolean
dry_desk_is_row (GtkWidget *widget, gconstpointer title)
{
  return ADW_IS_PREFERENCES_ROW (widget) &&
         g_strcmp0 (adw_preferences_row_get_title (ADW_PREFERENCES_ROW (widget)), title) == 0;
}

gboolean
dry_desk_is_any_row (GtkWidget *widget, gconstpointer unused)
{
  return ADW_IS_PREFERENCES_ROW (widget);
}

gboolean
dry_desk_is_label (GtkWidget *widget, gconstpointer text)
{
  return GTK_IS_LABEL (widget) && g_strcmp0 (gtk_label_get_text (GTK_LABEL (widget)), text) == 0;
}

static void
on_asked (GSimpleAction *action, GVariant *target, gpointer data)
{
  DryDesk *desk = data;

  g_free (desk->opened);
  desk->opened = g_strdup_printf ("%s %s", g_action_get_name (G_ACTION (action)),
                                  target != NULL ? g_variant_get_string (target, NULL) : "");
}

void
dry_desk_set_up (DryDesk *desk, gconstpointer data)
{
  const GActionEntry entries[] = {
      {.name = "new", .activate = on_asked},
      {.name = "open", .activate = on_asked},
      {.name = "open-path", .activate = on_asked, .parameter_type = "s"},
      {.name = "open-demo", .activate = on_asked, .parameter_type = "s"}};
  g_autoptr (GSimpleActionGroup) actions = g_simple_action_group_new ();

  desk->session = dry_session_new (dry_test_catalog ());
  dry_session_open_project (desk->session, dry_test_furnished_alcove ("foam-bands"), NULL);
  desk->window = adw_application_window_new (GTK_APPLICATION (application));
  gtk_window_set_default_size (GTK_WINDOW (desk->window), 900, 700);
  g_action_map_add_action_entries (G_ACTION_MAP (actions), entries, G_N_ELEMENTS (entries), desk);
  gtk_widget_insert_action_group (desk->window, "win", G_ACTION_GROUP (actions));
}

void
dry_desk_tear_down (DryDesk *desk, gconstpointer data)
{
  gtk_window_destroy (GTK_WINDOW (desk->window));
  dry_test_settle ();
  g_assert_finalize_object (desk->session); /* no panel keeps it */
  g_free (desk->opened);
}

void
dry_desk_show (DryDesk *desk, GtkWidget *panel)
{
  adw_application_window_set_content (ADW_APPLICATION_WINDOW (desk->window), panel);
  gtk_window_present (GTK_WINDOW (desk->window));
  DRY_TEST_WAIT_FOR (gtk_widget_get_mapped (panel));
  dry_test_settle ();
}

const DryPart *
dry_desk_find_part (DrySession *session, DryPartKind kind)
{
  const DryRoom *room = dry_session_get_room (session);

  for (guint i = 0; i < room->n_parts; i++)
    if (room->parts[i].kind == kind)
      return &room->parts[i];
  g_assert_not_reached ();
}

void
dry_desk_type_into (GtkWidget *row, const char *text)
{
  GtkWidget *entry = dry_test_require (row, GTK_TYPE_ENTRY);

  gtk_editable_set_text (GTK_EDITABLE (entry), text);
  g_signal_emit_by_name (entry, "activate");
}

DryApplication *
dry_desk_get_application (void)
{
  return application;
}

gboolean
dry_desk_begin (int *argc, char ***argv)
{
  g_test_init (argc, argv, NULL);
  application = dry_application_new ();
  g_application_set_flags (G_APPLICATION (application), G_APPLICATION_NON_UNIQUE);
  return g_application_register (G_APPLICATION (application), NULL, NULL);
}

int
dry_desk_run (void)
{
  int result = g_test_run ();

  g_object_unref (application);
  return result;
}
