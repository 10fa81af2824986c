/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Work that is not to be lost: taking over what a crash left, earlier versions of a file, and the
 * question when a file was changed by someone else. How it is kept is known by session and keeper.
 */
#include "ui/window-private.h"

#include <glib/gi18n.h>
#include <string.h>

#include "project/file.h"
#include "ui/leftovers.h"
#include "ui/start-page.h"
#include "ui/toasts.h"
#include "ui/versions-window.h"

void
dry_window_arm_keeper (DryWindow *self)
{
  g_autofree char *journals = dry_leftovers_dup_journals ();
  g_autofree char *versions = dry_leftovers_dup_versions ();

  dry_session_keep_in (self->session, journals, versions);
  /* What an earlier run put out of sight can be brought back no more. */
  if (g_list_length (
          gtk_application_get_windows (gtk_window_get_application (GTK_WINDOW (self)))) <= 1)
    dry_leftovers_clean ();
}

/* --- after a crash --- */

static void
on_recover (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  DryWindow *window = dry_window_find_free (data);
  g_autoptr (GError) error = NULL;

  dry_canvas_cancel (window->canvas);
  if (!dry_session_recover (window->session, g_variant_get_string (parameter, NULL), &error)) {
    dry_window_tell (window, error->message);
    return;
  }
  dry_window_leave_start (window);
  gtk_widget_grab_focus (GTK_WIDGET (window->canvas));
  dry_window_tell (window, _ ("Unsaved work is back, and can be undone step by step"));
}

static void
on_forget (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  DryWindow *self = data;
  const char *file = g_variant_get_string (parameter, NULL);
  AdwToast *toast = adw_toast_new (_ ("Unsaved work discarded"));

  dry_leftovers_forget (file);
  adw_toast_set_button_label (toast, _ ("_Undo"));
  adw_toast_set_action_name (toast, "win.bring-back-leftover");
  adw_toast_set_action_target_value (toast, parameter);
  dry_toasts_show (GTK_WIDGET (self->toasts), toast);
  dry_start_page_update (adw_bin_get_child (self->start_place));
}

static void
on_bring_back (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  DryWindow *self = data;

  dry_leftovers_bring_back (g_variant_get_string (parameter, NULL));
  dry_start_page_update (adw_bin_get_child (self->start_place));
}

/* A file opened straight away may have left unsaved work behind, too. */
void
dry_window_offer_leftover (DryWindow *self, const char *path)
{
  g_autofree char *file = dry_leftovers_find (path);
  AdwToast *toast;

  if (file == NULL || !g_utf8_validate (file, -1, NULL))
    return;
  toast = adw_toast_new (_ ("There are changes to this project that were not saved"));
  adw_toast_set_button_label (toast, _ ("_Recover"));
  adw_toast_set_action_name (toast, "win.recover");
  adw_toast_set_action_target (toast, "s", file);
  adw_toast_set_timeout (toast, 0);
  adw_toast_set_priority (toast, ADW_TOAST_PRIORITY_HIGH);
  dry_toasts_show (GTK_WIDGET (self->toasts), toast);
}

/* --- one file, one window --- */

static gboolean
same_file (const char *a, const char *b)
{
  char real_a[4096], real_b[4096];

  if (a == NULL || b == NULL)
    return FALSE;
  return strcmp (a, b) == 0 || (realpath (a, real_a) != NULL && realpath (b, real_b) != NULL &&
                                strcmp (real_a, real_b) == 0);
}

DryWindow *
dry_window_find_file (DryWindow *self, const char *path)
{
  GtkApplication *application = gtk_window_get_application (GTK_WINDOW (self));

  for (GList *link = gtk_application_get_windows (application); link != NULL; link = link->next) {
    DryWindow *other = DRY_IS_WINDOW (link->data) ? link->data : NULL;

    if (other != NULL && !other->vacant &&
        (same_file (dry_session_get_path (other->session), path) ||
         same_file (dry_session_get_newer_path (other->session), path)))
      return other;
  }
  return NULL;
}

/* --- changed by someone else --- */

static void
look_at_theirs (DryWindow *self, const char *path)
{
  DryWindow *other = dry_window_find_free (self);
  g_autoptr (GError) error = NULL;
  DryProject *project = dry_project_load (path, &error);

  if (project == NULL) {
    dry_window_tell (self, error->message);
    return;
  }
  /* Without its path: two windows must not save to one file. */
  dry_session_open_project (other->session, project, NULL);
  dry_window_leave_start (other);
}

static void
on_changed_answer (AdwMessageDialog *dialog, const char *response, DryWindow *self)
{
  g_autofree char *path = g_strdup (dry_session_get_path (self->session));
  g_autoptr (GError) error = NULL;

  if (path == NULL)
    return;
  if (g_strcmp0 (response, "replace") == 0) {
    if (!dry_session_save_over (self->session, path, &error))
      dry_window_tell (self, error->message);
  } else if (g_strcmp0 (response, "look") == 0) {
    look_at_theirs (self, path);
  } else if (g_strcmp0 (response, "elsewhere") == 0) {
    g_action_group_activate_action (G_ACTION_GROUP (self), "save-as", NULL);
  }
}

void
dry_window_ask_changed (DryWindow *self)
{
  g_autofree char *name = g_filename_display_basename (dry_session_get_path (self->session));
  GtkWidget *dialog =
      adw_message_dialog_new (GTK_WINDOW (self), _ ("The File Was Changed Elsewhere"), NULL);

  adw_message_dialog_format_body (
      ADW_MESSAGE_DIALOG (dialog),
      _ ("“%s” is not as this window read it: another program or another person saved it since. "
         "Replacing it loses what they did."),
      name);
  adw_message_dialog_add_responses (ADW_MESSAGE_DIALOG (dialog), "cancel", _ ("_Cancel"), "look",
                                    _ ("_Look at Theirs"), "replace", _ ("_Replace"), "elsewhere",
                                    _ ("_Save Elsewhere…"), NULL);
  adw_message_dialog_set_response_appearance (ADW_MESSAGE_DIALOG (dialog), "replace",
                                              ADW_RESPONSE_DESTRUCTIVE);
  adw_message_dialog_set_response_appearance (ADW_MESSAGE_DIALOG (dialog), "elsewhere",
                                              ADW_RESPONSE_SUGGESTED);
  adw_message_dialog_set_default_response (ADW_MESSAGE_DIALOG (dialog), "elsewhere");
  adw_message_dialog_set_close_response (ADW_MESSAGE_DIALOG (dialog), "cancel");
  g_signal_connect_object (dialog, "response", G_CALLBACK (on_changed_answer), self, 0);
  gtk_window_present (GTK_WINDOW (dialog));
}

/* --- earlier versions --- */

static void
on_versions (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  DryWindow *self = data;
  GtkWidget *window = dry_versions_window_new (self->session);

  gtk_window_set_transient_for (GTK_WINDOW (window), GTK_WINDOW (self));
  gtk_window_present (GTK_WINDOW (window));
}

static void
update_versions (DryWindow *self)
{
  GAction *action = g_action_map_lookup_action (G_ACTION_MAP (self), "versions");

  g_simple_action_set_enabled (G_SIMPLE_ACTION (action),
                               dry_session_get_path (self->session) != NULL);
}

void
dry_window_add_keeping_actions (DryWindow *self)
{
  static const GActionEntry entries[] = {
      {.name = "recover", .activate = on_recover, .parameter_type = "s"},
      {.name = "forget-leftover", .activate = on_forget, .parameter_type = "s"},
      {.name = "bring-back-leftover", .activate = on_bring_back, .parameter_type = "s"},
      {.name = "versions", .activate = on_versions},
  };

  g_action_map_add_action_entries (G_ACTION_MAP (self), entries, G_N_ELEMENTS (entries), self);
  g_signal_connect_object (self->session, "file-changed", G_CALLBACK (update_versions), self,
                           G_CONNECT_SWAPPED);
  update_versions (self);
}
