/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The popover lists the steps back to the last save or the last act on alternates, the oldest
 * chosen: what was tried since is what one usually wants to keep. Keeps nothing between openings.
 */
#define G_LOG_DOMAIN "drybay-ui"
#include "ui/keep-alternate.h"

#include <glib/gi18n.h>

#include "project/alternate.h"
#include "ui/access.h"
#include "ui/plain-entry.h"

#define STEPS_MOST 30

typedef struct {
  DrySession *session; /* held */
  GtkWidget *button, *name, *steps, *keep;
} Keeper;

static void
free_keeper (gpointer data)
{
  Keeper *self = data;

  g_signal_handlers_disconnect_by_data (self->session, self);
  g_object_unref (self->session);
  g_free (self);
}

DryProject *
dry_keep_as_alternate (const DryProject *present, const DryProject *before, const char *name,
                       GError **error)
{
  DryId id;
  g_autoptr (DryProject) added = dry_edit_add_alternate (present, name, NULL, &id, error);
  g_autoptr (DryProject) turned = added ? dry_edit_set_alternate (added, id, before, error) : NULL;

  if (!turned)
    return NULL;
  if (dry_alternate_get_n_rooms (dry_project_get_alternate (turned, id)) == 0) {
    g_set_error (error, DRY_ERROR, DRY_ERROR_TEXT, "%s",
                 _ ("No room was changed since, so there is nothing to keep"));
    return NULL;
  }
  return dry_edit_choose_alternate (turned, id, name, error);
}

/* --- the button --- */

/* How far back one may go: not over a save, nor over what was done to the alternates. */
static guint
count_steps (DrySession *session)
{
  DryHistory *history = dry_session_get_history (session);
  guint n_now = dry_project_get_n_alternates (dry_history_get_current (history)), n = 0;

  while (n < STEPS_MOST) {
    const DryProject *project = dry_history_get_past (history, n + 1, NULL);
    if (!project || dry_project_get_n_alternates (project) != n_now)
      break;
    n++;
    if (project == dry_history_get_saved (history))
      break;
  }
  return n;
}

static void
list_steps (Keeper *self)
{
  DryHistory *history = dry_session_get_history (self->session);
  g_autoptr (GtkStringList) names = gtk_string_list_new (NULL);
  guint n = count_steps (self->session);

  for (guint i = 1; i <= n; i++) {
    const char *step;
    g_autofree char *text = NULL;
    dry_history_get_past (history, i, &step);
    /* Translators: a step of the undo list, such as "Move niche" */
    text = g_strdup_printf (_ ("Before “%s”"), step);
    gtk_string_list_append (names, text);
  }
  gtk_drop_down_set_model (GTK_DROP_DOWN (self->steps), G_LIST_MODEL (names));
  if (n > 0)
    gtk_drop_down_set_selected (GTK_DROP_DOWN (self->steps), n - 1);
}

static void
update (Keeper *self)
{
  gboolean any = count_steps (self->session) > 0;

  gtk_widget_set_sensitive (self->button, any);
  gtk_widget_set_tooltip_text (self->button,
                               any ? _ ("Keep what was changed as an alternate, and go back")
                                   : _ ("Change something first: it can then be kept beside the "
                                        "plan as it was"));
}

static void
shown_cb (GtkPopover *popover, Keeper *self)
{
  guint n = dry_project_get_n_alternates (dry_session_get_project (self->session));
  g_autofree char *name = g_strdup_printf (_ ("Alternate %u"), n + 1);

  list_steps (self);
  gtk_editable_set_text (GTK_EDITABLE (self->name), name);
  gtk_editable_select_region (GTK_EDITABLE (self->name), 0, -1);
  gtk_widget_grab_focus (self->name);
}

static void
name_changed_cb (Keeper *self)
{
  g_autofree char *name = g_strstrip (g_strdup (gtk_editable_get_text (GTK_EDITABLE (self->name))));

  gtk_widget_set_sensitive (self->keep, *name != '\0');
}

static void
keep_cb (Keeper *self)
{
  DryHistory *history = dry_session_get_history (self->session);
  guint step = gtk_drop_down_get_selected (GTK_DROP_DOWN (self->steps));
  g_autofree char *name = g_strstrip (g_strdup (gtk_editable_get_text (GTK_EDITABLE (self->name))));
  const DryProject *before =
      step == GTK_INVALID_LIST_POSITION ? NULL : dry_history_get_past (history, step + 1, NULL);
  GError *error = NULL;
  DryProject *project;

  if (!before || !*name)
    return;
  gtk_menu_button_popdown (GTK_MENU_BUTTON (self->button));
  project = dry_keep_as_alternate (dry_history_get_current (history), before, name, &error);
  if (dry_session_apply (self->session, project, _ ("Keep as Alternate"), NULL, error))
    g_signal_emit_by_name (self->session, "told", _ ("Kept as an alternate; the plan is back"),
                           _ ("Keep as Alternate"));
}

static GtkWidget *
add_labeled (GtkWidget *box, const char *text, GtkWidget *widget)
{
  GtkWidget *label = gtk_label_new (text);

  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_widget_add_css_class (label, "caption-heading");
  gtk_box_append (GTK_BOX (box), label);
  gtk_box_append (GTK_BOX (box), widget);
  dry_access_set_name (widget, text);
  return widget;
}

static GtkWidget *
build_popover (Keeper *self)
{
  GtkWidget *popover = gtk_popover_new (), *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 6);

  gtk_widget_set_size_request (box, 280, -1);
  gtk_widget_set_margin_start (box, 6);
  gtk_widget_set_margin_end (box, 6);
  gtk_widget_set_margin_top (box, 6);
  gtk_widget_set_margin_bottom (box, 6);
  self->name = add_labeled (box, _ ("Name of the alternate"), gtk_entry_new ());
  dry_plain_entry_set_up (self->name);
  self->steps = add_labeled (box, _ ("The plan goes back to"),
                             gtk_drop_down_new (G_LIST_MODEL (gtk_string_list_new (NULL)), NULL));
  self->keep = gtk_button_new_with_mnemonic (_ ("_Keep"));
  gtk_widget_add_css_class (self->keep, "suggested-action");
  gtk_widget_set_margin_top (self->keep, 6);
  gtk_box_append (GTK_BOX (box), self->keep);
  gtk_popover_set_child (GTK_POPOVER (popover), box);
  g_signal_connect (popover, "show", G_CALLBACK (shown_cb), self);
  g_signal_connect_swapped (self->name, "changed", G_CALLBACK (name_changed_cb), self);
  g_signal_connect_swapped (self->name, "activate", G_CALLBACK (keep_cb), self);
  g_signal_connect_swapped (self->keep, "clicked", G_CALLBACK (keep_cb), self);
  return popover;
}

GtkWidget *
dry_keep_alternate_new (DrySession *session)
{
  Keeper *self = g_new0 (Keeper, 1);

  self->session = g_object_ref (session);
  self->button = gtk_menu_button_new ();
  gtk_menu_button_set_label (GTK_MENU_BUTTON (self->button), _ ("Keep as Alternate"));
  dry_access_set_name (self->button, _ ("Keep what was changed as an alternate"));
  gtk_menu_button_set_popover (GTK_MENU_BUTTON (self->button), build_popover (self));
  g_object_set_data_full (G_OBJECT (self->button), "keeper", self, free_keeper);
  g_signal_connect_swapped (session, "document-changed", G_CALLBACK (update), self);
  g_signal_connect_swapped (session, "file-changed", G_CALLBACK (update), self);
  update (self);
  return self->button;
}

/* --- renaming --- */

static void
rename_cb (AdwMessageDialog *dialog, const char *response, DrySession *session)
{
  GtkWidget *entry = adw_message_dialog_get_extra_child (dialog);
  DryId id = GPOINTER_TO_UINT (g_object_get_data (G_OBJECT (dialog), "alternate"));
  const DryProject *project = dry_session_get_project (session);
  const DryAlternate *alternate = dry_project_get_alternate (project, id);
  GError *error = NULL;

  if (!alternate || !g_str_equal (response, "rename"))
    return;
  dry_session_apply (session,
                     dry_edit_rename_alternate (project, id,
                                                gtk_editable_get_text (GTK_EDITABLE (entry)),
                                                dry_alternate_get_note (alternate), &error),
                     _ ("Rename Alternate"), NULL, error);
}

void
dry_ask_alternate_name (GtkWidget *widget, DrySession *session, DryId id)
{
  const DryAlternate *alternate = dry_project_get_alternate (dry_session_get_project (session), id);
  GtkWidget *entry = gtk_entry_new (), *dialog;

  if (!alternate) {
    g_object_ref_sink (entry);
    g_object_unref (entry);
    return;
  }
  dialog = adw_message_dialog_new (GTK_WINDOW (gtk_widget_get_root (widget)),
                                   _ ("Rename the Alternate"), NULL);
  dry_plain_entry_set_up (entry);
  gtk_editable_set_text (GTK_EDITABLE (entry), dry_alternate_get_name (alternate));
  gtk_entry_set_activates_default (GTK_ENTRY (entry), TRUE);
  dry_access_set_name (entry, _ ("Name of the alternate"));
  adw_message_dialog_set_extra_child (ADW_MESSAGE_DIALOG (dialog), entry);
  adw_message_dialog_add_responses (ADW_MESSAGE_DIALOG (dialog), "cancel", _ ("_Cancel"), "rename",
                                    _ ("_Rename"), NULL);
  adw_message_dialog_set_response_appearance (ADW_MESSAGE_DIALOG (dialog), "rename",
                                              ADW_RESPONSE_SUGGESTED);
  adw_message_dialog_set_default_response (ADW_MESSAGE_DIALOG (dialog), "rename");
  adw_message_dialog_set_close_response (ADW_MESSAGE_DIALOG (dialog), "cancel");
  g_object_set_data (G_OBJECT (dialog), "alternate", GUINT_TO_POINTER (id));
  g_signal_connect_object (dialog, "response", G_CALLBACK (rename_cb), session, 0);
  gtk_window_present (GTK_WINDOW (dialog));
}
