/* SPDX-License-Identifier: GPL-3.0-or-later */
/* One row for each kept version, its picture drawn in a thread once the window is seen.
 * A version that cannot be read any more says so in its row and cannot be gone back to. */
#define G_LOG_DOMAIN "drybay-ui"
#include "ui/versions-window.h"

#include <glib/gi18n.h>
#include <string.h>

#include "project/file.h"
#include "project/versions.h"
#include "ui/application.h"
#include "ui/scene-view.h"
#include "ui/versions-compare.h"

struct _DryVersionsWindow {
  AdwWindow parent_instance;
  DrySession *session;
  GtkStack *stack;
  AdwPreferencesGroup *group;
  GCancellable *cancellable;
};

#define DRY_TYPE_VERSIONS_WINDOW (dry_versions_window_get_type ())
G_DECLARE_FINAL_TYPE (DryVersionsWindow, dry_versions_window, DRY, VERSIONS_WINDOW, AdwWindow)
G_DEFINE_FINAL_TYPE (DryVersionsWindow, dry_versions_window, ADW_TYPE_WINDOW)

/* What a row needs; its thread owns nothing else. */
typedef struct {
  char *file;
  DryCatalog *catalog;
} Look;

/* What the thread found. */
typedef struct {
  DryProject *project;
  DryScene *scene; /* NULL: the room cannot be planned */
} Sight;

static void
free_look (gpointer data)
{
  Look *look = data;

  g_free (look->file);
  dry_catalog_unref (look->catalog);
  g_free (look);
}

static void
free_sight (gpointer data)
{
  Sight *sight = data;

  dry_project_unref (sight->project);
  if (sight->scene != NULL)
    dry_scene_unref (sight->scene);
  g_free (sight);
}

static void
look_at_version (GTask *task, gpointer source, gpointer data, GCancellable *cancellable)
{
  const Look *look = data;
  GError *error = NULL;
  DryProject *project = dry_project_load (look->file, &error);
  g_autoptr (DryPlan) plan = NULL;
  Sight *sight;

  if (project == NULL) {
    g_task_return_error (task, error);
    return;
  }
  plan = dry_plan_new (project, dry_project_get_room_at (project, 0)->id, look->catalog,
                       cancellable, NULL);
  sight = g_new0 (Sight, 1);
  sight->project = project;
  sight->scene = plan != NULL ? dry_drawing_strip (plan) : NULL;
  g_task_return_pointer (task, sight, free_sight);
}

static char *
tell_project (const DryProject *project)
{
  guint n_rooms = dry_project_get_n_rooms (project), n_parts = 0;
  g_autofree char *rooms = NULL, *parts = NULL;

  for (guint i = 0; i < n_rooms; i++)
    n_parts += dry_project_get_room_at (project, i)->n_parts;
  rooms = g_strdup_printf (ngettext ("%u room", "%u rooms", n_rooms), n_rooms);
  parts = g_strdup_printf (ngettext ("%u part", "%u parts", n_parts), n_parts);
  return g_strdup_printf ("%s · %s, %s", dry_project_get_job (project)->title, rooms, parts);
}

static void
go_back (GtkWidget *button, gpointer data)
{
  DryVersionsWindow *self = DRY_VERSIONS_WINDOW (gtk_widget_get_root (button));
  DryProject *project = g_object_get_data (G_OBJECT (button), "project");
  g_autoptr (DrySession) session = g_object_ref (self->session);

  dry_session_apply (session, dry_project_ref (project), _ ("Go back to a version"), NULL, NULL);
  gtk_window_close (GTK_WINDOW (self));
}

static void
compare (GtkWidget *button, gpointer data)
{
  DryVersionsWindow *self = DRY_VERSIONS_WINDOW (gtk_widget_get_root (button));
  GtkWidget *row = gtk_widget_get_ancestor (button, ADW_TYPE_ACTION_ROW);

  dry_versions_compare (GTK_WINDOW (self), self->session,
                        g_object_get_data (G_OBJECT (button), "project"),
                        adw_preferences_row_get_title (ADW_PREFERENCES_ROW (row)));
}

static void
on_seen (GObject *source, GAsyncResult *result, gpointer data)
{
  AdwActionRow *row = ADW_ACTION_ROW (source);
  g_autoptr (GError) error = NULL;
  Sight *sight = g_task_propagate_pointer (G_TASK (result), &error);
  g_autofree char *subtitle = NULL;
  GtkWidget *button = g_object_get_data (source, "button");

  if (gtk_widget_get_root (GTK_WIDGET (row)) == NULL) {
    g_clear_pointer (&sight, free_sight);
    return; /* closed in the meantime */
  }
  if (sight == NULL) {
    adw_action_row_set_subtitle (row, error->message);
    return;
  }
  subtitle = tell_project (sight->project);
  adw_action_row_set_subtitle (row, subtitle);
  if (sight->scene != NULL)
    dry_scene_view_set_scene (g_object_get_data (source, "picture"), sight->scene);
  g_object_set_data_full (G_OBJECT (button), "project", dry_project_ref (sight->project),
                          (GDestroyNotify) dry_project_unref);
  gtk_widget_set_sensitive (button, TRUE);
  button = g_object_get_data (source, "compare");
  g_object_set_data_full (G_OBJECT (button), "project", dry_project_ref (sight->project),
                          (GDestroyNotify) dry_project_unref);
  gtk_widget_set_sensitive (button, TRUE);
  free_sight (sight);
}

/* The stamp is in universal time; people want their own. */
static char *
tell_time (const char *stamp)
{
  g_auto (GStrv) halves = g_strsplit (stamp, "T", 2);
  g_autoptr (GDateTime) universal = NULL, local = NULL;
  g_autofree char *text = NULL;

  if (g_strv_length (halves) == 2) {
    /* Two saves within a second are told apart by what follows it. */
    if (strlen (halves[1]) > 8)
      halves[1][8] = '\0';
    g_strdelimit (halves[1], "-", ':');
  }
  text = g_strv_length (halves) == 2 ? g_strdup_printf ("%sT%sZ", halves[0], halves[1]) : NULL;
  universal = text != NULL ? g_date_time_new_from_iso8601 (text, NULL) : NULL;
  local = universal != NULL ? g_date_time_to_local (universal) : NULL;
  return local != NULL ? g_date_time_format (local, "%x %X") : g_strdup (stamp);
}

static void
add_row (DryVersionsWindow *self, const DryVersion *version)
{
  GtkWidget *row = adw_action_row_new ();
  GtkWidget *picture = dry_scene_view_new (132, 84, TRUE);
  GtkWidget *button = gtk_button_new_with_mnemonic (_ ("_Go Back"));
  GtkWidget *other = gtk_button_new_with_mnemonic (_ ("_Compare"));
  g_autofree char *time = tell_time (version->stamp);
  g_autofree char *name = g_strdup_printf (_ ("Go back to %s"), time);
  g_autofree char *compared = g_strdup_printf (_ ("Compare with %s"), time);
  g_autoptr (GTask) task = g_task_new (row, self->cancellable, on_seen, NULL);
  Look *look = g_new0 (Look, 1);

  adw_preferences_row_set_use_markup (ADW_PREFERENCES_ROW (row), FALSE);
  adw_preferences_row_set_title (ADW_PREFERENCES_ROW (row), time);
  gtk_widget_set_valign (button, GTK_ALIGN_CENTER);
  gtk_widget_set_sensitive (button, FALSE);
  gtk_accessible_update_property (GTK_ACCESSIBLE (button), GTK_ACCESSIBLE_PROPERTY_LABEL, name, -1);
  gtk_widget_set_margin_top (picture, 6);
  gtk_widget_set_margin_bottom (picture, 6);
  adw_action_row_add_prefix (ADW_ACTION_ROW (row), picture);
  gtk_widget_set_valign (other, GTK_ALIGN_CENTER);
  gtk_widget_set_sensitive (other, FALSE);
  gtk_accessible_update_property (GTK_ACCESSIBLE (other), GTK_ACCESSIBLE_PROPERTY_LABEL, compared,
                                  -1);
  adw_action_row_add_suffix (ADW_ACTION_ROW (row), other);
  adw_action_row_add_suffix (ADW_ACTION_ROW (row), button);
  g_signal_connect (other, "clicked", G_CALLBACK (compare), NULL);
  g_object_set_data (G_OBJECT (row), "compare", other);
  g_signal_connect (button, "clicked", G_CALLBACK (go_back), NULL);
  g_object_set_data (G_OBJECT (row), "button", button);
  g_object_set_data (G_OBJECT (row), "picture", picture);
  adw_preferences_group_add (self->group, row);
  look->file = g_strdup (version->file);
  look->catalog = dry_catalog_ref (dry_session_get_catalog (self->session));
  g_task_set_task_data (task, look, free_look);
  g_task_run_in_thread (task, look_at_version);
}

static void
dry_versions_window_dispose (GObject *object)
{
  DryVersionsWindow *self = DRY_VERSIONS_WINDOW (object);

  g_cancellable_cancel (self->cancellable);
  g_clear_object (&self->session);
  G_OBJECT_CLASS (dry_versions_window_parent_class)->dispose (object);
}

static void
dry_versions_window_finalize (GObject *object)
{
  g_clear_object (&DRY_VERSIONS_WINDOW (object)->cancellable);
  G_OBJECT_CLASS (dry_versions_window_parent_class)->finalize (object);
}

static void
dry_versions_window_class_init (DryVersionsWindowClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = dry_versions_window_dispose;
  G_OBJECT_CLASS (klass)->finalize = dry_versions_window_finalize;
  gtk_widget_class_set_template_from_resource (widget_class,
                                               DRY_RESOURCE_ROOT "/versions-window.ui");
  gtk_widget_class_bind_template_child (widget_class, DryVersionsWindow, stack);
  gtk_widget_class_bind_template_child (widget_class, DryVersionsWindow, group);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_Escape, 0, "window.close", NULL);
}

static void
dry_versions_window_init (DryVersionsWindow *self)
{
  self->cancellable = g_cancellable_new ();
  gtk_widget_init_template (GTK_WIDGET (self));
}

GtkWidget *
dry_versions_window_new (DrySession *session)
{
  DryVersionsWindow *self = g_object_new (DRY_TYPE_VERSIONS_WINDOW, NULL);
  g_autoptr (GPtrArray) versions = dry_session_list_versions (session);

  self->session = g_object_ref (session);
  for (guint i = 0; i < versions->len; i++)
    add_row (self, versions->pdata[i]);
  gtk_stack_set_visible_child_name (self->stack, versions->len > 0 ? "list" : "none");
  return GTK_WIDGET (self);
}
