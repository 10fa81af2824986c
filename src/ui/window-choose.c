/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Asking for a file to read or to write, with a name suggested and an ending seen to, and telling
 * what came of an export. What is read or written is the caller's. */
#include "ui/window-private.h"

#include <glib/gi18n.h>
#include <string.h>

#include "ui/toasts.h"

typedef struct {
  DryWindow *window;
  DryFileChosen chosen;
  const char *ending; /* what is written ends so; NULL: as the person wrote it */
} Choice;

static void
hand_over (Choice *choice, const char *path)
{
  g_autofree char *folder = g_path_get_dirname (path);
  const char *ending = choice->ending;
  g_autofree char *whole =
      g_strconcat (path, ending != NULL && !g_str_has_suffix (path, ending) ? ending : NULL, NULL);

  if (g_utf8_validate (folder, -1, NULL))
    g_settings_set_string (choice->window->settings, "last-folder", folder);
  choice->chosen (choice->window, whole);
}

static void
on_response (GtkNativeDialog *dialog, int response, gpointer data)
{
  Choice *choice = data;
  g_autoptr (GFile) file = NULL;
  g_autofree char *path = NULL;

  gtk_native_dialog_hide (dialog);
  if (response == GTK_RESPONSE_ACCEPT)
    file = gtk_file_chooser_get_file (GTK_FILE_CHOOSER (dialog));
  path = file != NULL ? g_file_get_path (file) : NULL;
  if (path != NULL)
    hand_over (choice, path);
  g_object_unref (choice->window);
  g_free (choice);
  g_object_unref (dialog);
}

static void
add_filter (GtkFileChooser *chooser, const char *name, const char *pattern)
{
  g_autoptr (GtkFileFilter) filter = gtk_file_filter_new ();

  gtk_file_filter_set_name (filter, name);
  gtk_file_filter_add_pattern (filter, pattern);
  gtk_file_chooser_add_filter (chooser, filter);
}

/* Patterns are "*" and an ending, or "*" alone. */
static GtkFileChooser *
choose_file (DryWindow *self, const char *title, GtkFileChooserAction action, const char *accept,
             const char *filter, const char *pattern, DryFileChosen chosen)
{
  GtkFileChooserNative *native =
      gtk_file_chooser_native_new (title, GTK_WINDOW (self), action, accept, NULL);
  g_autofree char *folder = g_settings_get_string (self->settings, "last-folder");
  Choice *choice = g_new0 (Choice, 1);

  choice->window = g_object_ref (self);
  choice->chosen = chosen;
  if (action == GTK_FILE_CHOOSER_ACTION_SAVE && pattern[1] != '\0')
    choice->ending = pattern + 1;
  if (folder[0] != '\0') {
    g_autoptr (GFile) file = g_file_new_for_path (folder);

    if (g_file_query_exists (file, NULL))
      gtk_file_chooser_set_current_folder (GTK_FILE_CHOOSER (native), file, NULL);
  }
  add_filter (GTK_FILE_CHOOSER (native), filter, pattern);
  gtk_native_dialog_set_modal (GTK_NATIVE_DIALOG (native), TRUE);
  g_signal_connect (native, "response", G_CALLBACK (on_response), choice);
  return GTK_FILE_CHOOSER (native);
}

/* "Alcove refit" becomes "Alcove refit.pdf"; a slash cannot stand in a file's name. */
static void
suggest_name (DryWindow *self, GtkFileChooser *chooser, const char *ending)
{
  const char *path = dry_session_get_path (self->session);
  g_autofree char *base = NULL;
  g_autofree char *name = NULL;

  if (path != NULL) {
    base = g_filename_display_basename (path);
    if (g_str_has_suffix (base, ".drybay"))
      base[strlen (base) - strlen (".drybay")] = '\0';
  } else {
    base = g_strdup (dry_project_get_job (dry_session_get_project (self->session))->title);
    g_strdelimit (base, "/\\", '-');
  }
  name = g_strconcat (base[0] != '\0' ? base : _ ("Project"), ending, NULL);
  gtk_file_chooser_set_current_name (chooser, name);
}

void
dry_window_ask_open (DryWindow *self, DryFileChosen chosen)
{
  GtkFileChooser *chooser = choose_file (self, _ ("Open a Project"), GTK_FILE_CHOOSER_ACTION_OPEN,
                                         _ ("_Open"), _ ("Drybay projects"), "*.drybay", chosen);

  add_filter (chooser, _ ("All files"), "*");
  gtk_native_dialog_show (GTK_NATIVE_DIALOG (chooser));
}

void
dry_window_ask_save (DryWindow *self, DryFileChosen chosen)
{
  GtkFileChooser *chooser = choose_file (self, _ ("Save the Project"), GTK_FILE_CHOOSER_ACTION_SAVE,
                                         _ ("_Save"), _ ("Drybay projects"), "*.drybay", chosen);

  suggest_name (self, chooser, ".drybay");
  gtk_native_dialog_show (GTK_NATIVE_DIALOG (chooser));
}

static void
ask_export (DryWindow *self, const char *title, const char *filter, const char *pattern,
            const char *ending, DryFileChosen chosen)
{
  GtkFileChooser *chooser;

  if (dry_window_refuses_papers (self))
    return;
  chooser = choose_file (self, title, GTK_FILE_CHOOSER_ACTION_SAVE, _ ("_Export"), filter, pattern,
                         chosen);
  suggest_name (self, chooser, ending);
  gtk_native_dialog_show (GTK_NATIVE_DIALOG (chooser));
}

void
dry_window_ask_pdf (DryWindow *self, const char *title, const char *ending, DryFileChosen chosen)
{
  ask_export (self, title, _ ("PDF"), "*.pdf", ending, chosen);
}

void
dry_window_ask_drawing (DryWindow *self, DryFileChosen chosen)
{
  ask_export (self, _ ("Export the Drawing"), _ ("SVG, PNG or PDF by the name's ending"), "*",
              ".svg", chosen);
}

/* --- what came of it --- */

static void
tell_exported (DryWindow *self, const char *path)
{
  g_autofree char *name = g_filename_display_basename (path);
  g_autofree char *escaped = g_markup_escape_text (name, -1);
  g_autofree char *text = g_strdup_printf (_ ("%s exported"), escaped);
  AdwToast *toast = adw_toast_new (text);

  g_free (self->exported);
  self->exported = g_filename_to_uri (path, NULL, NULL);
  adw_toast_set_button_label (toast, _ ("_Show"));
  adw_toast_set_action_name (toast, "win.show-exported");
  dry_toasts_show (GTK_WIDGET (self->toasts), toast);
}

void
dry_window_tell_outcome (DryWindow *self, gboolean written, const char *path, const GError *error)
{
  if (written)
    tell_exported (self, path);
  else
    dry_window_tell (self, error->message);
}
