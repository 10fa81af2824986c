/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Builds the window from its template, shows the session's title and messages, remembers sizes.
 * Actions and files are in window-actions.c, window-room.c and window-files.c. */
#include "ui/window-private.h"

#include <glib/gi18n.h>

#include "ui/actions.h"
#include "ui/inspector.h"
#include "ui/later.h"
#include "ui/ledger.h"
#include "ui/shelf.h"
#include "ui/start-page.h"
#include "ui/toasts.h"

G_DEFINE_FINAL_TYPE (DryWindow, dry_window, ADW_TYPE_APPLICATION_WINDOW)

DrySession *
dry_window_get_session (DryWindow *self)
{
  return self->session;
}

DryCanvas *
dry_window_get_canvas (DryWindow *self)
{
  return self->canvas;
}

gboolean
dry_window_is_vacant (DryWindow *self)
{
  return self->vacant;
}

/* Toasts read Pango markup, and names may hold anything. */
void
dry_window_tell (DryWindow *self, const char *text)
{
  g_autofree char *escaped = g_markup_escape_text (text, -1);

  dry_toasts_show (GTK_WIDGET (self->toasts), adw_toast_new (escaped));
}

static void
on_told (DrySession *session, const char *text, const char *undo_name, DryWindow *self)
{
  g_autofree char *escaped = g_markup_escape_text (text, -1);
  AdwToast *toast;

  if (text[0] == '\0')
    return;
  toast = adw_toast_new (escaped);
  if (undo_name != NULL) {
    adw_toast_set_button_label (toast, _ ("_Undo"));
    adw_toast_set_action_name (toast, "win.undo");
  }
  dry_toasts_show (GTK_WIDGET (self->toasts), toast);
}

/* --- following the session --- */

static void
update_title (DryWindow *self)
{
  const DryJob *job = dry_project_get_job (dry_session_get_project (self->session));
  const char *newer = dry_session_get_newer_path (self->session);
  const char *path = newer != NULL ? newer : dry_session_get_path (self->session);
  gboolean saved = dry_session_is_saved (self->session);
  g_autofree char *file = path != NULL ? g_filename_display_basename (path) : NULL;
  const char *name = job->title[0] != '\0' ? job->title : file != NULL ? file : _ ("New Project");
  g_autofree char *subtitle = NULL;

  if (self->vacant) {
    adw_window_title_set_title (self->title, _ ("Drybay"));
    adw_window_title_set_subtitle (self->title, "");
    gtk_window_set_title (GTK_WINDOW (self), _ ("Drybay"));
    return;
  }
  if (file == NULL)
    subtitle = g_strdup (_ ("Not saved yet"));
  else if (newer != NULL)
    subtitle =
        g_strdup_printf (saved ? _ ("%s · for reading only") : _ ("%s · changes not saved"), file);
  else if (saved)
    subtitle = g_strdup (file);
  else
    subtitle = g_strdup_printf (_ ("%s · unsaved changes"), file);
  adw_window_title_set_title (self->title, name);
  adw_window_title_set_subtitle (self->title, subtitle);
  gtk_window_set_title (GTK_WINDOW (self), name);
}

static void
set_history_tooltip (GtkWidget *button, const char *verb, const char *step)
{
  g_autofree char *text = step != NULL ? g_strdup_printf ("%s: %s", verb, step) : g_strdup (verb);

  if (g_strcmp0 (text, gtk_widget_get_tooltip_text (button)) == 0)
    return; /* each tip asks the display where the pointer is */
  gtk_widget_set_tooltip_text (button, text);
  gtk_accessible_update_property (GTK_ACCESSIBLE (button), GTK_ACCESSIBLE_PROPERTY_LABEL, text, -1);
}

/* The menu names the step too: "Undo: Move niche". */
static void
append_step (GMenu *menu, const char *label, const char *step, const char *action,
             const char *accel)
{
  g_auto (GStrv) parts = g_strsplit (step != NULL ? step : "", "_", -1);
  g_autofree char *plain = g_strjoinv ("__", parts);
  g_autofree char *text =
      step != NULL ? g_strdup_printf ("%s: %s", label, plain) : g_strdup (label);
  g_autoptr (GMenuItem) item = g_menu_item_new (text, action);

  g_menu_item_set_attribute (item, "accel", "s", accel);
  g_menu_append_item (menu, item);
}

static void
update_history_menu (DryWindow *self, const char *undo, const char *redo)
{
  g_menu_remove_all (self->history_section);
  append_step (self->history_section, _ ("_Undo"), undo, "win.undo", "<Control>z");
  append_step (self->history_section, _ ("_Redo"), redo, "win.redo", "<Control><Shift>z");
}

static void
on_document_changed (DrySession *session, DryWindow *self)
{
  DryHistory *history = dry_session_get_history (session);

  update_title (self);
  dry_window_update_actions (self);
  dry_window_update_room_menu (self);
  set_history_tooltip (self->undo_button, _ ("Undo"), dry_history_get_undo_name (history));
  set_history_tooltip (self->redo_button, _ ("Redo"), dry_history_get_redo_name (history));
  if (g_strcmp0 (dry_history_get_undo_name (history), self->undo_name) != 0 ||
      g_strcmp0 (dry_history_get_redo_name (history), self->redo_name) != 0) {
    g_free (self->undo_name);
    g_free (self->redo_name);
    self->undo_name = g_strdup (dry_history_get_undo_name (history));
    self->redo_name = g_strdup (dry_history_get_redo_name (history));
    update_history_menu (self, self->undo_name, self->redo_name);
  }
}

static void
on_plan_changed (DrySession *session, DryWindow *self)
{
  const char *error = dry_session_get_plan_error (session);

  if (error != NULL)
    gtk_label_set_text (self->error_label, error);
  gtk_revealer_set_reveal_child (self->error_revealer, error != NULL);
}

/* The panels beside the board, once there is a project to work on. */
static void
fill_desk (DryWindow *self)
{
  if (self->ledger != NULL)
    return;
  adw_bin_set_child (self->shelf_place, dry_shelf_new (self->session, self->canvas));
  adw_bin_set_child (self->inspector_place, dry_inspector_new (self->session));
  self->ledger = dry_ledger_new (self->session);
  adw_bin_set_child (self->ledger_place, self->ledger);
  g_settings_bind (self->settings, "ledger-height", self->ledger, "drawer-height",
                   G_SETTINGS_BIND_DEFAULT);
  g_settings_bind (self->settings, "ledger", self->ledger, "open", G_SETTINGS_BIND_DEFAULT);
}

void
dry_window_leave_start (DryWindow *self)
{
  self->vacant = FALSE;
  fill_desk (self);
  gtk_stack_set_visible_child_name (self->pages, "desk");
  gtk_widget_set_visible (self->shelf_button, TRUE);
  gtk_widget_set_visible (self->inspector_button, TRUE);
  gtk_widget_set_visible (self->history_buttons, TRUE);
  gtk_widget_set_visible (self->room_button, TRUE);
  gtk_widget_set_visible (self->papers_button, TRUE);
  update_title (self);
  dry_window_update_actions (self);
}

static void
show_start (DryWindow *self)
{
  self->vacant = TRUE;
  gtk_stack_set_visible_child_name (self->pages, "start");
  gtk_widget_set_visible (self->shelf_button, FALSE);
  gtk_widget_set_visible (self->inspector_button, FALSE);
  gtk_widget_set_visible (self->history_buttons, FALSE);
  gtk_widget_set_visible (self->room_button, FALSE);
  gtk_widget_set_visible (self->papers_button, FALSE);
}

gboolean
dry_window_open_path (DryWindow *self, const char *path)
{
  g_autoptr (GError) error = NULL;

  if (!dry_session_open_path (self->session, path, &error)) {
    dry_window_tell (self, error->message);
    return FALSE;
  }
  dry_window_leave_start (self);
  gtk_widget_grab_focus (GTK_WIDGET (self->canvas));
  dry_window_offer_leftover (self, path);
  return TRUE;
}

/* --- settings --- */

static void
save_state (DryWindow *self)
{
  int width, height;

  gtk_window_get_default_size (GTK_WINDOW (self), &width, &height);
  if (!gtk_window_is_maximized (GTK_WINDOW (self)) &&
      !gtk_window_is_fullscreen (GTK_WINDOW (self)) && width >= 360 && height >= 300) {
    g_settings_set_int (self->settings, "window-width", width);
    g_settings_set_int (self->settings, "window-height", height);
  }
  g_settings_set_boolean (self->settings, "maximized", gtk_window_is_maximized (GTK_WINDOW (self)));
  g_settings_set_uint (self->settings, "layers",
                       ~dry_session_get_layers (self->session) & DRY_LAYERS_ALL);
  g_settings_set_uint (self->settings, "layers-known", DRY_N_LAYERS);
}

/* The keyboard does not go out of sight with a panel: the board gets it. */
static void
on_panel_hides (GtkRevealer *revealer, G_GNUC_UNUSED GParamSpec *spec, DryWindow *self)
{
  GtkWidget *focus = gtk_window_get_focus (GTK_WINDOW (self));

  if (!gtk_revealer_get_reveal_child (revealer) && focus != NULL &&
      gtk_widget_is_ancestor (focus, GTK_WIDGET (revealer)))
    gtk_widget_grab_focus (GTK_WIDGET (self->canvas));
}

static void
restore_state (DryWindow *self)
{
  g_autoptr (GVariant) chosen = g_settings_get_user_value (self->settings, "layers");
  guint hidden = g_settings_get_uint (self->settings, "layers");
  guint known = MIN (g_settings_get_uint (self->settings, "layers-known"), DRY_N_LAYERS);

  gtk_window_set_default_size (GTK_WINDOW (self),
                               g_settings_get_int (self->settings, "window-width"),
                               g_settings_get_int (self->settings, "window-height"));
  if (g_settings_get_boolean (self->settings, "maximized"))
    gtk_window_maximize (GTK_WINDOW (self));
  /* Before anybody chose, and for layers that came later, it is the session's own choice. */
  for (guint layer = 0; chosen != NULL && layer < known; layer++)
    dry_session_set_layer (self->session, layer, (hidden & 1u << layer) == 0);
  g_settings_bind (self->settings, "shelf", self->shelf_revealer, "reveal-child",
                   G_SETTINGS_BIND_GET);
  g_settings_bind (self->settings, "inspector", self->inspector_revealer, "reveal-child",
                   G_SETTINGS_BIND_GET);
  g_signal_connect_object (self->shelf_revealer, "notify::reveal-child",
                           G_CALLBACK (on_panel_hides), self, 0);
  g_signal_connect_object (self->inspector_revealer, "notify::reveal-child",
                           G_CALLBACK (on_panel_hides), self, 0);
}

/* Keys shared with text entries, seen only after the focused widget had its chance. */
static void
add_local_keys (DryWindow *self)
{
  GtkEventController *controller = gtk_shortcut_controller_new ();
  guint n;
  const DryActionInfo *actions = dry_actions_list (&n);

  gtk_event_controller_set_propagation_phase (controller, GTK_PHASE_BUBBLE);
  for (guint i = 0; i < n; i++) {
    if (actions[i].accel == NULL || !dry_action_is_local (&actions[i]))
      continue;
    g_auto (GStrv) accels = g_strsplit (actions[i].accel, " ", -1);

    for (guint k = 0; accels[k] != NULL; k++)
      gtk_shortcut_controller_add_shortcut (
          GTK_SHORTCUT_CONTROLLER (controller),
          gtk_shortcut_new (gtk_shortcut_trigger_parse_string (accels[k]),
                            gtk_named_action_new (actions[i].name)));
  }
  gtk_widget_add_controller (GTK_WIDGET (self), controller);
}

/* --- the object --- */

static gboolean
dry_window_close_request (GtkWindow *window)
{
  DryWindow *self = DRY_WINDOW (window);

  dry_session_end_typing (self->session);
  if (!self->may_close && dry_window_ask_before_close (self))
    return TRUE;
  save_state (self);
  return GTK_WINDOW_CLASS (dry_window_parent_class)->close_request (window);
}

static void
dry_window_dispose (GObject *object)
{
  DryWindow *self = DRY_WINDOW (object);

  if (self->session != NULL)
    g_signal_handlers_disconnect_by_data (self->session, self);
  dry_window_stop_following (self);
  if (self->settings != NULL)
    dry_window_remove_setting_actions (self);
  g_clear_object (&self->session);
  g_clear_object (&self->settings);
  g_clear_pointer (&self->exported, g_free);
  g_clear_pointer (&self->held, g_ptr_array_unref);
  g_clear_pointer (&self->rooms, g_free);
  g_clear_pointer (&self->undo_name, g_free);
  g_clear_pointer (&self->redo_name, g_free);
  G_OBJECT_CLASS (dry_window_parent_class)->dispose (object);
}

static void
dry_window_class_init (DryWindowClass *class)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (class);

  G_OBJECT_CLASS (class)->dispose = dry_window_dispose;
  GTK_WINDOW_CLASS (class)->close_request = dry_window_close_request;
  gtk_widget_class_set_template_from_resource (widget_class, DRY_RESOURCE_ROOT "/window.ui");
  gtk_widget_class_bind_template_child (widget_class, DryWindow, toasts);
  gtk_widget_class_bind_template_child (widget_class, DryWindow, header);
  gtk_widget_class_bind_template_child (widget_class, DryWindow, title);
  gtk_widget_class_bind_template_child (widget_class, DryWindow, pages);
  gtk_widget_class_bind_template_child (widget_class, DryWindow, banner_place);
  gtk_widget_class_bind_template_child (widget_class, DryWindow, packs_place);
  gtk_widget_class_bind_template_child (widget_class, DryWindow, start_place);
  gtk_widget_class_bind_template_child (widget_class, DryWindow, shelf_place);
  gtk_widget_class_bind_template_child (widget_class, DryWindow, inspector_place);
  gtk_widget_class_bind_template_child (widget_class, DryWindow, ledger_place);
  gtk_widget_class_bind_template_child (widget_class, DryWindow, board);
  gtk_widget_class_bind_template_child (widget_class, DryWindow, shelf_revealer);
  gtk_widget_class_bind_template_child (widget_class, DryWindow, inspector_revealer);
  gtk_widget_class_bind_template_child (widget_class, DryWindow, error_revealer);
  gtk_widget_class_bind_template_child (widget_class, DryWindow, error_label);
  gtk_widget_class_bind_template_child (widget_class, DryWindow, shelf_button);
  gtk_widget_class_bind_template_child (widget_class, DryWindow, inspector_button);
  gtk_widget_class_bind_template_child (widget_class, DryWindow, history_buttons);
  gtk_widget_class_bind_template_child (widget_class, DryWindow, room_button);
  gtk_widget_class_bind_template_child (widget_class, DryWindow, papers_button);
  gtk_widget_class_bind_template_child (widget_class, DryWindow, undo_button);
  gtk_widget_class_bind_template_child (widget_class, DryWindow, redo_button);
  gtk_widget_class_bind_template_child (widget_class, DryWindow, menu_button);
  gtk_widget_class_bind_template_child (widget_class, DryWindow, layers_button);
  gtk_widget_class_bind_template_child (widget_class, DryWindow, primary_menu);
  gtk_widget_class_bind_template_child (widget_class, DryWindow, papers_menu);
  gtk_widget_class_bind_template_child (widget_class, DryWindow, layers_menu);
  gtk_widget_class_bind_template_child (widget_class, DryWindow, history_section);
}

static void
dry_window_init (DryWindow *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
  dry_later_menu (self->menu_button, self->primary_menu);
  dry_later_menu (self->papers_button, self->papers_menu);
  dry_later_menu (self->layers_button, self->layers_menu);
}

static void
add_canvas (DryWindow *self)
{
  self->canvas = DRY_CANVAS (dry_canvas_new (self->session));
  gtk_accessible_update_property (GTK_ACCESSIBLE (self->canvas), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  _ ("Board: plan and walls"), -1);
  gtk_overlay_set_child (self->board, GTK_WIDGET (self->canvas));
}

/* Only when it is to be seen: a window opened with a file never shows it. */
static void
fill_start (DryWindow *self)
{
  if (adw_bin_get_child (self->start_place) == NULL)
    adw_bin_set_child (self->start_place, dry_start_page_new (self->session));
}

GtkWidget *
dry_window_new (DryApplication *application)
{
  DryWindow *self = g_object_new (DRY_TYPE_WINDOW, "application", application, NULL);

  self->settings = g_object_ref (dry_application_get_settings (application));
  self->session = dry_session_new (dry_application_get_catalog (application));
  dry_window_arm_keeper (self);
  add_canvas (self);
  restore_state (self);
  dry_window_add_actions (self);
  dry_window_add_room_actions (self);
  dry_window_add_file_actions (self);
  dry_window_add_keeping_actions (self);
  dry_window_add_help_actions (self);
  dry_window_add_client_actions (self);
  dry_window_add_client_paper_actions (self);
  dry_window_add_full_size_actions (self);
  dry_window_add_trade_actions (self);
  dry_window_follow_file (self);
  dry_window_tell_packs (self, application);
  dry_window_add_drop (self);
  add_local_keys (self);
  g_signal_connect (self->session, "told", G_CALLBACK (on_told), self);
  g_signal_connect (self->session, "document-changed", G_CALLBACK (on_document_changed), self);
  g_signal_connect (self->session, "file-changed", G_CALLBACK (on_document_changed), self);
  g_signal_connect (self->session, "plan-changed", G_CALLBACK (on_plan_changed), self);
  g_signal_connect_swapped (self->session, "selection-changed",
                            G_CALLBACK (dry_window_update_actions), self);
  g_signal_connect_swapped (self->session, "view-changed", G_CALLBACK (dry_window_update_layers),
                            self);
  g_signal_connect_swapped (self->start_place, "map", G_CALLBACK (fill_start), self);
  show_start (self);
  on_document_changed (self->session, self);
  return GTK_WIDGET (self);
}
