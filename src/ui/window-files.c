/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Files: new, open, save, exporting papers, printing, and the one question about unsaved work.
 * What is in a file or on a paper is known below; here are only the dialogs. */
#include "ui/item-drag.h"
#include "ui/window-private.h"

#include <glib/gi18n.h>
#include <locale.h>

#include "papers/papers.h"
#include "plan/plans.h"
#include "project/file.h"

/* --- new and open --- */

DryWindow *
dry_window_find_free (DryWindow *self)
{
  GtkWidget *window;

  if (self->vacant || (dry_session_get_path (self->session) == NULL &&
                       dry_history_get_undo_name (dry_session_get_history (self->session)) == NULL))
    return self;
  window = dry_window_new (DRY_APPLICATION (gtk_window_get_application (GTK_WINDOW (self))));
  gtk_window_present (GTK_WINDOW (window));
  return DRY_WINDOW (window);
}

static DryProject *
new_project (DryWindow *self)
{
  g_autoptr (DryProject) project = dry_project_new ();
  DryJob job = *dry_project_get_job (project);
  g_autofree char *pack = g_settings_get_string (self->settings, "rule-pack");
  DryProject *set;

  job.metric = g_settings_get_enum (self->settings, "units") == 1;
  job.denominator = g_settings_get_int (self->settings, "denominator");
  if (dry_catalog_get_rule_pack (dry_session_get_catalog (self->session), pack) != NULL)
    job.rule_pack = pack;
  set = dry_edit_set_job (project, &job, NULL);
  return set != NULL ? set : g_steal_pointer (&project);
}

static void
on_new (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  DryWindow *window = dry_window_find_free (data);

  dry_canvas_cancel (window->canvas);
  dry_session_open_project (window->session, new_project (window), NULL);
  dry_window_leave_start (window);
  gtk_widget_grab_focus (GTK_WIDGET (window->canvas));
}

static void
remember_file (const char *path)
{
  g_autoptr (GFile) file = g_file_new_for_path (path);
  g_autofree char *uri = g_file_get_uri (file);
  char *groups[] = {(char *) "drybay", NULL};
  GtkRecentData data = {.mime_type = (char *) "application/x-drybay+json",
                        .app_name = (char *) "Drybay",
                        .app_exec = (char *) "drybay %u",
                        .groups = groups};

  gtk_recent_manager_add_full (gtk_recent_manager_get_default (), uri, &data);
}

static void
open_path (DryWindow *self, const char *path)
{
  DryWindow *window = dry_window_find_file (self, path);
  g_autoptr (GError) error = NULL;
  g_autoptr (DryProject) readable = NULL;
  g_auto (DryNewer) newer = {0};

  /* Two windows on one file would write over each other. */
  if (window != NULL) {
    gtk_window_present (GTK_WINDOW (window));
    return;
  }
  /* A file that cannot be read is told here: no empty window opens for it. */
  readable = dry_project_load_newer (path, &newer, &error);
  if (readable == NULL) {
    dry_window_tell (self, error->message);
    return;
  }
  window = dry_window_find_free (self);
  dry_canvas_cancel (window->canvas);
  if (dry_window_open_path (window, path))
    remember_file (path);
}

static void
on_open (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  dry_window_ask_open (data, open_path);
}

static void
on_open_path (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  open_path (data, g_variant_get_string (parameter, NULL));
}

/* A demonstration is a copy: saving it asks for a place of the user's own. */
static void
on_open_demo (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  DryWindow *self = data;
  g_autofree char *path = dry_application_find_demo (g_variant_get_string (parameter, NULL));
  g_autoptr (GError) error = NULL;
  DryProject *project = path != NULL ? dry_project_load (path, &error) : NULL;
  DryWindow *window;

  if (project == NULL) {
    dry_window_tell (self, error != NULL ? error->message : _ ("The demonstration is missing"));
    return;
  }
  window = dry_window_find_free (self);
  dry_session_open_project (window->session, project, NULL);
  dry_window_leave_start (window);
  gtk_widget_grab_focus (GTK_WIDGET (window->canvas));
}

/* --- save --- */

static void
tell_not_saved (DryWindow *self, const GError *error)
{
  if (g_error_matches (error, DRY_ERROR, DRY_ERROR_CHANGED))
    dry_window_ask_changed (self);
  else
    dry_window_tell (self, error->message);
}

static void
save_to (DryWindow *self, const char *path)
{
  g_autoptr (GError) error = NULL;

  DryWindow *other = dry_window_find_file (self, path);

  if (other != NULL && other != self) {
    dry_window_tell (self, _ ("That file is open in another window"));
    return;
  }
  if (dry_session_save (self->session, path, &error))
    remember_file (path);
  else
    tell_not_saved (self, error);
}

static gboolean
close_later (gpointer data)
{
  gtk_window_close (GTK_WINDOW (data));
  g_object_unref (data);
  return G_SOURCE_REMOVE;
}

static void
save_and_close (DryWindow *self, const char *chosen)
{
  save_to (self, chosen);
  if (dry_session_is_saved (self->session))
    g_idle_add (close_later, g_object_ref (self));
}

static void
on_save (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  DryWindow *self = data;
  const char *path = dry_session_get_path (self->session);

  dry_canvas_cancel (self->canvas);
  if (path == NULL) {
    dry_window_ask_save (self, save_to);
    return;
  }
  g_autofree char *same = g_strdup (path);
  g_autoptr (GError) error = NULL;

  if (!dry_session_save (self->session, same, &error))
    tell_not_saved (self, error);
}

static void
on_save_as (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  dry_canvas_cancel (DRY_WINDOW (data)->canvas);
  dry_window_ask_save (data, save_to);
}

/* The dialog is still at work while it tells its answer; its parent must not go away under it. */
static void
on_close_answer (AdwMessageDialog *dialog, const char *response, DryWindow *self)
{
  const char *path = dry_session_get_path (self->session);

  if (g_strcmp0 (response, "discard") == 0) {
    self->may_close = TRUE;
    g_idle_add (close_later, g_object_ref (self));
  } else if (g_strcmp0 (response, "save") == 0) {
    g_autofree char *same = g_strdup (path);

    if (same != NULL)
      save_and_close (self, same);
    else
      dry_window_ask_save (self, save_and_close);
  }
}

gboolean
dry_window_ask_before_close (DryWindow *self)
{
  GtkWidget *dialog;

  dry_canvas_cancel (self->canvas);
  if (self->vacant || dry_session_is_saved (self->session))
    return FALSE;
  dialog = adw_message_dialog_new (GTK_WINDOW (self), _ ("Save Changes?"), NULL);
  adw_message_dialog_format_body (
      ADW_MESSAGE_DIALOG (dialog),
      _ ("“%s” has changes that are not saved. They are lost if you discard them."),
      adw_window_title_get_title (self->title));
  adw_message_dialog_add_responses (ADW_MESSAGE_DIALOG (dialog), "cancel", _ ("_Cancel"), "discard",
                                    _ ("_Discard"), "save", _ ("_Save"), NULL);
  adw_message_dialog_set_response_appearance (ADW_MESSAGE_DIALOG (dialog), "discard",
                                              ADW_RESPONSE_DESTRUCTIVE);
  adw_message_dialog_set_response_appearance (ADW_MESSAGE_DIALOG (dialog), "save",
                                              ADW_RESPONSE_SUGGESTED);
  adw_message_dialog_set_default_response (ADW_MESSAGE_DIALOG (dialog), "save");
  adw_message_dialog_set_close_response (ADW_MESSAGE_DIALOG (dialog), "cancel");
  g_signal_connect_object (dialog, "response", G_CALLBACK (on_close_answer), self, 0);
  gtk_window_present (GTK_WINDOW (dialog));
  return TRUE;
}

/* --- papers --- */

/* The one shown is taken as it is, the others are computed now. */
GPtrArray *
dry_window_collect_plans (DryWindow *self, DryId only)
{
  const DryProject *project = dry_history_get_current (dry_session_get_history (self->session));
  const DryPlan *shown = dry_session_get_plan (self->session);
  guint n = dry_project_get_n_rooms (project), n_others = 0;
  g_autofree DryId *others = g_new (DryId, n);
  g_autoptr (GPtrArray) plans = NULL;
  g_autoptr (GError) error = NULL;
  guint place = n;

  if (dry_window_refuses_papers (self))
    return NULL;
  dry_canvas_cancel (self->canvas);
  for (guint i = 0; i < n; i++) {
    DryId id = dry_project_get_room_at (project, i)->id;

    if (only != 0 && id != only)
      continue;
    if (shown != NULL && shown->project == project && shown->context.room->id == id)
      place = n_others;
    else
      others[n_others++] = id;
  }
  plans = dry_plans_new (project, others, n_others, dry_session_get_catalog (self->session),
                         DRY_PLAN_EFFORT / 5, NULL, &error);
  if (plans == NULL) {
    dry_window_tell (self, error->message);
    return NULL;
  }
  if (place < n)
    g_ptr_array_insert (plans, (gint) place, dry_plan_ref (shown));
  return g_steal_pointer (&plans);
}

DryPaperOptions
dry_window_paper_options (DryWindow *self, char **date)
{
  static const DryPaperSize sizes[] = {DRY_PAPER_LETTER, DRY_PAPER_TABLOID, DRY_PAPER_A4,
                                       DRY_PAPER_A3};
  gint choice = g_settings_get_enum (self->settings, "paper");
  g_autoptr (GDateTime) now = g_date_time_new_now_local ();

  *date = g_date_time_format (now, "%Y-%m-%d");
  return (DryPaperOptions){.paper = choice > 0 && choice <= 4
                                        ? sizes[choice - 1]
                                        : dry_paper_for_locale (setlocale (LC_MESSAGES, NULL)),
                           .date = *date,
                           .decimal = dry_session_get_length_format (self->session).decimal};
}

static void
on_show_exported (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  DryWindow *self = data;

  if (self->exported != NULL)
    gtk_show_uri (GTK_WINDOW (self), self->exported, GDK_CURRENT_TIME);
}

static void
export_papers_to (DryWindow *self, const char *path)
{
  g_autofree char *date = NULL;
  DryPaperOptions options = dry_window_paper_options (self, &date);
  g_autoptr (GPtrArray) plans = dry_window_collect_plans (self, 0);
  g_autoptr (GError) error = NULL;

  if (plans == NULL)
    return;
  dry_window_tell_outcome (
      self,
      dry_papers_write ((const DryPlan *const *) plans->pdata, plans->len, &options, path, &error),
      path, error);
}

static void
export_drawing_to (DryWindow *self, const char *chosen)
{
  gboolean known = g_str_has_suffix (chosen, ".svg") || g_str_has_suffix (chosen, ".png") ||
                   g_str_has_suffix (chosen, ".pdf");
  g_autofree char *path = known ? g_strdup (chosen) : g_strconcat (chosen, ".svg", NULL);
  g_autofree char *date = NULL;
  DryPaperOptions options = dry_window_paper_options (self, &date);
  const DryPlan *plan = dry_session_get_plan (self->session);
  g_autoptr (GError) error = NULL;

  if (plan == NULL)
    return;
  dry_window_tell_outcome (self, dry_papers_write_drawing (plan, "board", &options, path, &error),
                           path, error);
}

static void
on_export_papers (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  dry_window_ask_pdf (data, _ ("Export the Crew's Papers"), ".pdf", export_papers_to);
}

static void
on_export_drawing (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  dry_window_ask_drawing (data, export_drawing_to);
}

/* --- printing --- */

static void
on_draw_page (GtkPrintOperation *operation, GtkPrintContext *context, int page, DryPapers *papers)
{
  dry_papers_paint_page (papers, (guint) page, gtk_print_context_get_cairo_context (context));
}

static GtkPageSetup *
page_setup_for (DryPaperSize paper)
{
  GtkPageSetup *setup = gtk_page_setup_new ();
  GtkPaperSize *size;
  double width, height;

  dry_paper_size_mm (paper, &width, &height);
  size = gtk_paper_size_new_custom ("drybay", _ ("Papers"), MIN (width, height),
                                    MAX (width, height), GTK_UNIT_MM);
  gtk_page_setup_set_paper_size (setup, size);
  gtk_page_setup_set_orientation (setup, width > height ? GTK_PAGE_ORIENTATION_LANDSCAPE
                                                        : GTK_PAGE_ORIENTATION_PORTRAIT);
  gtk_paper_size_free (size);
  return setup;
}

static void
free_papers (gpointer papers)
{
  dry_papers_free (papers);
}

void
dry_window_print (DryWindow *self, DryPapers *papers)
{
  g_autoptr (GtkPrintOperation) operation = gtk_print_operation_new ();
  g_autofree char *date = NULL;
  DryPaperOptions options = dry_window_paper_options (self, &date);
  g_autoptr (GtkPageSetup) setup = page_setup_for (options.paper);
  g_autoptr (GError) error = NULL;

  gtk_print_operation_set_default_page_setup (operation, setup);
  gtk_print_operation_set_use_full_page (operation, TRUE);
  gtk_print_operation_set_unit (operation, GTK_UNIT_POINTS);
  gtk_print_operation_set_n_pages (operation, (int) dry_papers_get_n_pages (papers));
  gtk_print_operation_set_job_name (operation, adw_window_title_get_title (self->title));
  g_signal_connect (operation, "draw-page", G_CALLBACK (on_draw_page), papers);
  g_object_set_data_full (G_OBJECT (operation), "papers", papers, free_papers);
  if (gtk_print_operation_run (operation, GTK_PRINT_OPERATION_ACTION_PRINT_DIALOG,
                               GTK_WINDOW (self), &error) == GTK_PRINT_OPERATION_RESULT_ERROR)
    dry_window_tell (self, error->message);
}

static void
on_print (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  DryWindow *self = data;
  g_autofree char *date = NULL;
  DryPaperOptions options = dry_window_paper_options (self, &date);
  g_autoptr (GPtrArray) plans = dry_window_collect_plans (self, 0);

  if (plans != NULL)
    dry_window_print (self,
                      dry_papers_new ((const DryPlan *const *) plans->pdata, plans->len, &options));
}

/* --- a file dropped on the window --- */

static gboolean
on_file_dropped (GtkDropTarget *target, const GValue *value, double x, double y, DryWindow *self)
{
  GdkFileList *list = g_value_get_boxed (value);
  g_autoptr (GSList) files = list != NULL ? gdk_file_list_get_files (list) : NULL;

  for (GSList *link = files; link != NULL; link = link->next) {
    g_autofree char *path = g_file_get_path (link->data);

    if (path != NULL)
      open_path (self, path);
  }
  return files != NULL;
}

/* GTK 4.8 gives each window a target for tabs that are dropped beside their row, of which there are
 * none here. It would keep what was dropped last, and where that came from, when the window goes.
 */
static void
remove_targets_of_gtk (GtkWidget *window)
{
  g_autoptr (GListModel) controllers = gtk_widget_observe_controllers (window);

  for (guint i = g_list_model_get_n_items (controllers); i > 0; i--) {
    g_autoptr (GtkEventController) controller = g_list_model_get_item (controllers, i - 1);

    if (GTK_IS_DROP_TARGET_ASYNC (controller))
      gtk_widget_remove_controller (window, controller);
  }
}

void
dry_window_add_drop (DryWindow *self)
{
  GtkDropTarget *target = gtk_drop_target_new (GDK_TYPE_FILE_LIST, GDK_ACTION_COPY);

  remove_targets_of_gtk (GTK_WIDGET (self));
  g_signal_connect (target, "drop", G_CALLBACK (on_file_dropped), self);
  gtk_widget_add_controller (GTK_WIDGET (self), GTK_EVENT_CONTROLLER (target));
  dry_item_drag_catch (GTK_WIDGET (self));
}

void
dry_window_add_file_actions (DryWindow *self)
{
  static const GActionEntry entries[] = {
      {.name = "new", .activate = on_new},
      {.name = "open", .activate = on_open},
      {.name = "open-path", .activate = on_open_path, .parameter_type = "s"},
      {.name = "open-demo", .activate = on_open_demo, .parameter_type = "s"},
      {.name = "save", .activate = on_save},
      {.name = "save-as", .activate = on_save_as},
      {.name = "export-papers", .activate = on_export_papers},
      {.name = "export-drawing", .activate = on_export_drawing},
      {.name = "show-exported", .activate = on_show_exported},
      {.name = "print", .activate = on_print},
  };

  g_action_map_add_action_entries (G_ACTION_MAP (self), entries, G_N_ELEMENTS (entries), self);
}
