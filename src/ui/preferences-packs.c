/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Rows about the folder of one's own rule packs, and the dialogs of adding one.
 * What a pack must be, and where its file goes, is catalog/own-packs.h's. */
#define G_LOG_DOMAIN "drybay-ui"
#include "ui/preferences-packs.h"

#include <glib/gi18n.h>
#include <string.h>

#include "catalog/own-packs.h"
#include "plan/rule-names.h"
#include "ui/access.h"
#include "ui/toasts.h"

/* As people write it: from their home on. */
static char *
dup_shown_folder (const char *folder)
{
  g_autofree char *shown = g_filename_display_name (folder);
  g_autofree char *home = g_filename_display_name (g_get_home_dir ());
  gsize length = strlen (home);

  if (length > 1 && g_str_has_prefix (shown, home) && shown[length] == '/')
    return g_strconcat ("~", shown + length, NULL);
  return g_steal_pointer (&shown);
}

/* --- adding one --- */

static void
tell_refusal (AdwPreferencesWindow *window, const char *reason)
{
  GtkWidget *dialog =
      adw_message_dialog_new (GTK_WINDOW (window), _ ("The Rule Pack Was Not Added"), reason);

  adw_message_dialog_add_response (ADW_MESSAGE_DIALOG (dialog), "close", _ ("_Close"));
  gtk_window_present (GTK_WINDOW (dialog));
}

static void
on_replace_answer (AdwMessageDialog *dialog, const char *response, AdwPreferencesWindow *window)
{
  if (g_strcmp0 (response, "replace") == 0)
    dry_preferences_add_pack_file (window, g_object_get_data (G_OBJECT (dialog), "path"), TRUE);
}

static void
ask_replace (AdwPreferencesWindow *window, const char *path, const char *name, const char *file)
{
  g_autofree char *shown = g_filename_display_basename (file);
  GtkWidget *dialog =
      adw_message_dialog_new (GTK_WINDOW (window), _ ("Replace the Rule Pack?"), NULL);

  adw_message_dialog_format_body (
      ADW_MESSAGE_DIALOG (dialog),
      _ ("“%s” has the id of a pack that is in the folder already, as %s. Replacing it loses that "
         "file."),
      name, shown);
  adw_message_dialog_add_responses (ADW_MESSAGE_DIALOG (dialog), "cancel", _ ("_Cancel"), "replace",
                                    _ ("_Replace"), NULL);
  adw_message_dialog_set_response_appearance (ADW_MESSAGE_DIALOG (dialog), "replace",
                                              ADW_RESPONSE_DESTRUCTIVE);
  adw_message_dialog_set_close_response (ADW_MESSAGE_DIALOG (dialog), "cancel");
  g_object_set_data_full (G_OBJECT (dialog), "path", g_strdup (path), g_free);
  g_signal_connect_object (dialog, "response", G_CALLBACK (on_replace_answer), window, 0);
  gtk_window_present (GTK_WINDOW (dialog));
}

/* Escape closes the window at once, toast or no toast: the toolkit spends the key on the toast. */
static gboolean
on_key (GtkEventControllerKey *keys, guint key, guint code, GdkModifierType state, AdwToast *toast)
{
  GtkWidget *window = gtk_event_controller_get_widget (GTK_EVENT_CONTROLLER (keys));

  if (key != GDK_KEY_Escape || dry_toasts_dismiss (window, toast))
    return FALSE;
  gtk_window_close (GTK_WINDOW (window)); /* it is still coming, and would take the key */
  return TRUE;
}

static void
on_dismissed (AdwToast *toast, GtkEventController *keys)
{
  gtk_widget_remove_controller (gtk_event_controller_get_widget (keys), keys);
}

static void
show_toast (AdwPreferencesWindow *window, AdwToast *toast)
{
  GtkEventController *keys = gtk_event_controller_key_new ();

  gtk_event_controller_set_propagation_phase (keys, GTK_PHASE_CAPTURE);
  g_signal_connect_object (keys, "key-pressed", G_CALLBACK (on_key), toast, 0);
  g_signal_connect_object (toast, "dismissed", G_CALLBACK (on_dismissed), keys, 0);
  gtk_widget_add_controller (GTK_WIDGET (window), keys);
  dry_toasts_show (GTK_WIDGET (window), toast);
}

/* Toasts read Pango markup, and a pack's name may hold anything. */
static void
tell (AdwPreferencesWindow *window, const char *format, const char *name)
{
  g_autofree char *escaped = g_markup_escape_text (name, -1);
  g_autofree char *text = NULL;
  GString *whole = g_string_new (format);

  g_string_replace (whole, "%s", escaped, 1);
  text = g_string_free (whole, FALSE);
  show_toast (window, adw_toast_new (text));
}

void
dry_preferences_add_pack_file (AdwPreferencesWindow *window, const char *path, gboolean replace)
{
  g_autoptr (GError) error = NULL;
  g_autofree char *name = NULL;
  g_autofree char *file = NULL;
  DryOwnPackAnswer answer;

  if (!dry_own_packs_add (path, replace, dry_rule_names_check, &answer, &name, &file, &error)) {
    tell_refusal (window, error->message);
    return;
  }
  switch (answer) {
  case DRY_OWN_PACK_ASKS:
    ask_replace (window, path, name, file);
    break;
  case DRY_OWN_PACK_THERE:
    tell (window, _ ("“%s” is in the folder already"), name);
    break;
  case DRY_OWN_PACK_ADDED:
  default:
    tell (window, _ ("“%s” is added; it can be chosen from the next start"), name);
  }
}

static void
on_chosen (GtkNativeDialog *dialog, int response, AdwPreferencesWindow *window)
{
  g_autoptr (GFile) file = response == GTK_RESPONSE_ACCEPT
                               ? gtk_file_chooser_get_file (GTK_FILE_CHOOSER (dialog))
                               : NULL;
  g_autofree char *path = file != NULL ? g_file_get_path (file) : NULL;

  gtk_native_dialog_hide (dialog);
  if (path != NULL)
    dry_preferences_add_pack_file (window, path, FALSE);
  else if (file != NULL)
    tell_refusal (window, _ ("The file is not on this computer; copy it here first."));
  g_object_set_data (G_OBJECT (window), "chooser", NULL);
}

static void
on_add (GtkButton *button, AdwPreferencesWindow *window)
{
  GtkFileChooserNative *native = gtk_file_chooser_native_new (
      _ ("Add Rule Pack"), GTK_WINDOW (window), GTK_FILE_CHOOSER_ACTION_OPEN, _ ("_Add"), NULL);
  g_autoptr (GtkFileFilter) filter = gtk_file_filter_new ();

  gtk_file_filter_set_name (filter, _ ("Rule packs"));
  gtk_file_filter_add_pattern (filter, "*.json");
  gtk_file_chooser_add_filter (GTK_FILE_CHOOSER (native), filter);
  gtk_native_dialog_set_modal (GTK_NATIVE_DIALOG (native), TRUE);
  g_signal_connect_object (native, "response", G_CALLBACK (on_chosen), window, 0);
  /* Lives as long as it is open, and no longer than the preferences. */
  g_object_set_data_full (G_OBJECT (window), "chooser", native, g_object_unref);
  gtk_native_dialog_show (GTK_NATIVE_DIALOG (native));
}

static void
on_open_folder (GtkButton *button, AdwPreferencesWindow *window)
{
  g_autofree char *folder = dry_own_packs_dup_folder ();
  g_autoptr (GFile) file = g_file_new_for_path (folder);
  g_autofree char *uri = g_file_get_uri (file);

  g_file_make_directory_with_parents (file, NULL, NULL); /* there already, as a rule */
  gtk_show_uri (GTK_WINDOW (window), uri, GDK_CURRENT_TIME);
}

/* --- the rows --- */

static GtkWidget *
new_row (const char *title, const char *subtitle)
{
  GtkWidget *row = adw_action_row_new ();

  /* Of title and subtitle: reasons are full of “<”. */
  adw_preferences_row_set_use_markup (ADW_PREFERENCES_ROW (row), FALSE);
  adw_preferences_row_set_title (ADW_PREFERENCES_ROW (row), title);
  adw_action_row_set_subtitle (ADW_ACTION_ROW (row), subtitle);
  return row;
}

static GtkWidget *
new_folder_row (AdwPreferencesWindow *window)
{
  g_autofree char *folder = dry_own_packs_dup_folder ();
  g_autofree char *shown = dup_shown_folder (folder);
  GtkWidget *row = new_row (_ ("Rule packs of your own"), shown);
  GtkWidget *open = gtk_button_new_from_icon_name ("folder-open-symbolic");
  GtkWidget *add = gtk_button_new_with_mnemonic (_ ("_Add…"));

  gtk_widget_set_tooltip_text (open, _ ("Open the Folder"));
  dry_access_set_name (open, _ ("Open the Folder"));
  gtk_widget_add_css_class (open, "flat");
  gtk_widget_set_valign (open, GTK_ALIGN_CENTER);
  gtk_widget_set_valign (add, GTK_ALIGN_CENTER);
  g_signal_connect (open, "clicked", G_CALLBACK (on_open_folder), window);
  g_signal_connect (add, "clicked", G_CALLBACK (on_add), window);
  adw_action_row_add_suffix (ADW_ACTION_ROW (row), open);
  adw_action_row_add_suffix (ADW_ACTION_ROW (row), add);
  return row;
}

void
dry_preferences_add_packs (AdwPreferencesWindow *window, AdwPreferencesGroup *group,
                           const DryCatalog *catalog)
{
  adw_preferences_group_add (group, new_folder_row (window));
  for (guint i = 0; catalog != NULL && i < dry_catalog_get_n_left_out (catalog); i++) {
    const DryLeftOut *left = dry_catalog_get_left_out_at (catalog, i);
    g_autofree char *name = g_path_get_basename (left->file);
    g_autofree char *title = g_strdup_printf (_ ("%s is left out"), name);
    GtkWidget *row = new_row (title, left->reason);

    adw_action_row_add_prefix (ADW_ACTION_ROW (row),
                               gtk_image_new_from_icon_name ("dialog-warning-symbolic"));
    adw_preferences_group_add (group, row);
  }
}
