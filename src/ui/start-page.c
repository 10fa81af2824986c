/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Begins, opens or resumes a project through the window's actions, and draws the samples from their
 * own files once the page is seen. Files are read in threads: the window never waits for them. */
#define G_LOG_DOMAIN "drybay-ui"
#include "ui/start-page.h"

#include <adwaita.h>
#include <glib/gi18n.h>
#include <string.h>

#include "project/file.h"
#include "ui/application.h"
#include "ui/leftovers.h"
#include "ui/scene-view.h"

#define MIME_TYPE  "application/x-drybay+json"
#define ENDING     ".drybay"
#define MAX_RECENT 5
#define MARGIN     (10 * DRY_INCH) /* round the wet walls in a thumbnail */

static const struct {
  const char *file;
  const char *title;
  const char *use;
} SAMPLES[] = {
    {"alcove-refit.drybay", N_ ("Alcove refit"),
     N_ ("For doing it yourself: find a place for the niche and leave nothing that leaks.")},
    {"client-shower.drybay", N_ ("Walk-in shower"),
     N_ ("For showing a client: change system, tile or glass and watch what follows.")},
    {"two-bath-house.drybay", N_ ("Two-bath house"),
     N_ ("For the office: studs as surveyed, two rooms, papers the crew can build from.")},
};

struct _DryStartPage {
  GtkWidget parent_instance;
  DrySession *session;
  GtkWidget *scroller, *leftover, *recent, *samples;
  GtkFlowBox *cards;
  DrySceneView *pictures[G_N_ELEMENTS (SAMPLES)];
  gboolean drawn[G_N_ELEMENTS (SAMPLES)];
  GPtrArray *rows;           /* of recent files */
  GPtrArray *left;           /* rows of unsaved work */
  GCancellable *cancellable; /* of the work under way; NULL: none */
};

#define DRY_TYPE_START_PAGE (dry_start_page_get_type ())
G_DECLARE_FINAL_TYPE (DryStartPage, dry_start_page, DRY, START_PAGE, GtkWidget)
G_DEFINE_FINAL_TYPE (DryStartPage, dry_start_page, GTK_TYPE_WIDGET)

/* --- samples --- */

/* One picture to draw; the thread owns it while it runs. */
typedef struct {
  guint index;
  char *path;
  DryCatalog *catalog;
} Picture;

static void
free_picture (gpointer data)
{
  Picture *picture = data;

  g_free (picture->path);
  dry_catalog_unref (picture->catalog);
  g_free (picture);
}

/* A thumbnail shows the wet part of the walls; the dry rest runs out of the picture. */
static void
frame_wet_walls (DryScene *scene, const DryPlan *plan)
{
  DryRect frame = {0, 0, 0, 0};
  gboolean any = FALSE;

  for (guint i = 0; i < scene->n_views; i++) {
    const DryView *view = &scene->views[i];
    const DryFace *face =
        view->kind == DRY_VIEW_FACE && view->face >= 0 && (guint) view->face < plan->faces->n
            ? &plan->faces->items[view->face]
            : NULL;
    DryRect wet;

    if (face == NULL || face->kind != DRY_FACE_WALL || face->wet_u1 <= face->wet_u0)
      continue;
    wet = (DryRect){view->origin.x + face->wet_u0, view->origin.y, view->origin.x + face->wet_u1,
                    view->origin.y + face->height};
    if (!any)
      frame = wet;
    frame = (DryRect){MIN (frame.x0, wet.x0), MIN (frame.y0, wet.y0), MAX (frame.x1, wet.x1),
                      MAX (frame.y1, wet.y1)};
    any = TRUE;
  }
  if (any)
    scene->bounds =
        (DryRect){frame.x0 - MARGIN, frame.y0 - MARGIN, frame.x1 + MARGIN, frame.y1 + MARGIN};
}

/* A corner of what stands beside the walls would be no more than a smudge. */
static void
leave_out_small_faces (DryScene *scene, const DryPlan *plan)
{
  guint n = 0;

  for (guint i = 0; i < scene->n; i++) {
    gint view = scene->items[i].view, face = view >= 0 ? scene->views[view].face : -1;

    if (face < 0 || plan->faces->items[face].kind == DRY_FACE_WALL)
      scene->items[n++] = scene->items[i];
  }
  scene->n = n;
}

static void
draw_picture (GTask *task, gpointer source, gpointer data, GCancellable *cancellable)
{
  const Picture *picture = data;
  GError *error = NULL;
  g_autoptr (DryProject) project = dry_project_load (picture->path, &error);
  g_autoptr (DryPlan) plan = NULL;
  DryScene *scene;

  if (project != NULL)
    plan = dry_plan_new (project, dry_project_get_room_at (project, 0)->id, picture->catalog,
                         cancellable, &error);
  if (plan == NULL) {
    g_task_return_error (task, error);
    return;
  }
  scene = dry_drawing_strip (plan);
  frame_wet_walls (scene, plan); /* nobody else has it yet */
  leave_out_small_faces (scene, plan);
  g_task_return_pointer (task, scene, (GDestroyNotify) dry_scene_unref);
}

static void draw_next_picture (DryStartPage *self);

static void
on_picture_drawn (GObject *source, GAsyncResult *result, gpointer data)
{
  DryStartPage *self = DRY_START_PAGE (source);
  const Picture *picture = g_task_get_task_data (G_TASK (result));
  g_autoptr (GError) error = NULL;
  g_autoptr (DryScene) scene = g_task_propagate_pointer (G_TASK (result), &error);

  if (scene == NULL && g_task_get_cancellable (G_TASK (result)) != self->cancellable)
    return; /* called off: the page asks again when it is seen */
  if (scene == NULL)
    g_info ("%s: no picture: %s", picture->path, error->message);
  else if (self->pictures[picture->index] != NULL)
    dry_scene_view_set_scene (self->pictures[picture->index], scene);
  self->drawn[picture->index] = TRUE;
  if (g_task_get_cancellable (G_TASK (result)) == self->cancellable)
    draw_next_picture (self);
}

/* One after the other: a machine of two cores still has one for the window. */
static void
draw_next_picture (DryStartPage *self)
{
  for (guint i = 0; i < G_N_ELEMENTS (SAMPLES); i++) {
    g_autofree char *path = self->drawn[i] || self->pictures[i] == NULL
                                ? NULL
                                : dry_application_find_demo (SAMPLES[i].file);
    g_autoptr (GTask) task = NULL;
    Picture *picture;

    if (path == NULL)
      continue;
    picture = g_new0 (Picture, 1);
    picture->index = i;
    picture->path = g_steal_pointer (&path);
    picture->catalog = dry_catalog_ref (dry_session_get_catalog (self->session));
    task = g_task_new (self, self->cancellable, on_picture_drawn, NULL);
    g_task_set_task_data (task, picture, free_picture);
    g_task_run_in_thread (task, draw_picture);
    return;
  }
}

static GtkWidget *
make_label (const char *text, const char *style)
{
  GtkWidget *label = gtk_label_new (text);

  gtk_label_set_wrap (GTK_LABEL (label), TRUE);
  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_widget_add_css_class (label, style);
  gtk_widget_set_margin_start (label, 14);
  gtk_widget_set_margin_end (label, 14);
  return label;
}

static void
add_card (DryStartPage *self, guint index)
{
  GtkWidget *button = gtk_button_new ();
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 6);
  GtkWidget *picture = dry_scene_view_new (220, 168, TRUE);
  GtkWidget *frame = gtk_box_new (GTK_ORIENTATION_VERTICAL, 0);
  GtkWidget *child, *use;

  gtk_widget_set_hexpand (picture, TRUE);
  gtk_widget_add_css_class (frame, "start-picture");
  gtk_widget_set_overflow (frame, GTK_OVERFLOW_HIDDEN);
  gtk_box_append (GTK_BOX (frame), picture);
  use = make_label (_ (SAMPLES[index].use), "caption");
  gtk_widget_add_css_class (use, "dim-label");
  gtk_label_set_max_width_chars (GTK_LABEL (use), 28);
  gtk_widget_set_margin_bottom (use, 14);
  gtk_box_append (GTK_BOX (box), frame);
  gtk_box_append (GTK_BOX (box), make_label (_ (SAMPLES[index].title), "heading"));
  gtk_box_append (GTK_BOX (box), use);
  gtk_button_set_child (GTK_BUTTON (button), box);
  gtk_widget_add_css_class (button, "card");
  gtk_widget_add_css_class (button, "start-card");
  gtk_actionable_set_action_name (GTK_ACTIONABLE (button), "win.open-demo");
  gtk_actionable_set_action_target (GTK_ACTIONABLE (button), "s", SAMPLES[index].file);
  gtk_accessible_update_property (GTK_ACCESSIBLE (button), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  _ (SAMPLES[index].title), GTK_ACCESSIBLE_PROPERTY_DESCRIPTION,
                                  _ (SAMPLES[index].use), -1);
  gtk_flow_box_append (self->cards, button);
  child = gtk_widget_get_parent (button);
  gtk_widget_set_focusable (child, FALSE); /* the button inside is what the keyboard stops at */
  self->pictures[index] = DRY_SCENE_VIEW (picture);
  gtk_widget_show (self->samples);
}

/* --- recent files --- */

static gboolean
is_project (GtkRecentInfo *info)
{
  return g_strcmp0 (gtk_recent_info_get_mime_type (info), MIME_TYPE) == 0 ||
         g_str_has_suffix (gtk_recent_info_get_uri (info), ENDING);
}

static gint
compare_visits (gconstpointer a, gconstpointer b)
{
  GDateTime *first = gtk_recent_info_get_modified ((GtkRecentInfo *) a);
  GDateTime *second = gtk_recent_info_get_modified ((GtkRecentInfo *) b);

  return g_date_time_compare (second, first);
}

/* The newest first; only files of this machine, since asking a far one may take long. */
static GPtrArray *
list_recent_paths (void)
{
  GPtrArray *paths = g_ptr_array_new_with_free_func (g_free);
  GList *all = gtk_recent_manager_get_items (gtk_recent_manager_get_default ());

  all = g_list_sort (all, compare_visits);
  for (GList *link = all; link != NULL && paths->len < MAX_RECENT; link = link->next) {
    GtkRecentInfo *info = link->data;
    g_autofree char *path = is_project (info) && gtk_recent_info_is_local (info)
                                ? g_filename_from_uri (gtk_recent_info_get_uri (info), NULL, NULL)
                                : NULL;

    if (path != NULL && g_file_test (path, G_FILE_TEST_IS_REGULAR))
      g_ptr_array_add (paths, g_steal_pointer (&path));
  }
  g_list_free_full (all, (GDestroyNotify) gtk_recent_info_unref);
  return paths;
}

/* "~/Jobs/Elm Street" reads better than the whole way from the root. */
static char *
shorten_folder (const char *path)
{
  g_autofree char *folder = g_path_get_dirname (path);
  const char *home = g_get_home_dir ();
  gsize length = strlen (home);

  if (g_str_has_prefix (folder, home) && (folder[length] == '/' || folder[length] == '\0')) {
    g_autofree char *shown = g_filename_display_name (folder + length);

    return g_strconcat ("~", shown, NULL);
  }
  return g_filename_display_name (folder);
}

static char *
name_of_file (const char *path)
{
  char *name = g_filename_display_basename (path);

  if (g_str_has_suffix (name, ENDING) && strlen (name) > strlen (ENDING))
    name[strlen (name) - strlen (ENDING)] = '\0';
  return name;
}

static void
read_title (GTask *task, gpointer source, gpointer data, GCancellable *cancellable)
{
  GError *error = NULL;
  g_autoptr (DryProject) project = dry_project_load (data, &error);

  if (project == NULL)
    g_task_return_error (task, error);
  else
    g_task_return_pointer (task, g_strdup (dry_project_get_job (project)->title), g_free);
}

static void
on_title_read (GObject *source, GAsyncResult *result, gpointer data)
{
  g_autoptr (GError) error = NULL;
  g_autofree char *title = g_task_propagate_pointer (G_TASK (result), &error);
  const char *path = g_task_get_task_data (G_TASK (result));
  g_autofree char *file = name_of_file (path);
  g_autofree char *folder = shorten_folder (path);
  g_autofree char *place = NULL;

  if (title == NULL || title[0] == '\0' || g_str_equal (title, file))
    return; /* the file's name stands there already; opening a bad file tells what is wrong */
  place = g_strdup_printf ("%s · %s", file, folder);
  adw_preferences_row_set_title (ADW_PREFERENCES_ROW (source), title);
  adw_action_row_set_subtitle (ADW_ACTION_ROW (source), place);
}

static void
add_recent_row (DryStartPage *self, const char *path)
{
  GtkWidget *row = adw_action_row_new ();
  g_autofree char *name = name_of_file (path);
  g_autofree char *folder = shorten_folder (path);
  g_autoptr (GTask) task = g_task_new (row, NULL, on_title_read, NULL);

  adw_preferences_row_set_use_markup (ADW_PREFERENCES_ROW (row), FALSE);
  adw_preferences_row_set_title (ADW_PREFERENCES_ROW (row), name);
  adw_action_row_set_subtitle (ADW_ACTION_ROW (row), folder);
  adw_action_row_set_title_lines (ADW_ACTION_ROW (row), 1);
  adw_action_row_set_subtitle_lines (ADW_ACTION_ROW (row), 1);
  adw_action_row_add_suffix (ADW_ACTION_ROW (row),
                             gtk_image_new_from_icon_name ("go-next-symbolic"));
  gtk_list_box_row_set_activatable (GTK_LIST_BOX_ROW (row), TRUE);
  gtk_actionable_set_action_name (GTK_ACTIONABLE (row), "win.open-path");
  gtk_actionable_set_action_target (GTK_ACTIONABLE (row), "s", path);
  adw_preferences_group_add (ADW_PREFERENCES_GROUP (self->recent), row);
  g_ptr_array_add (self->rows, row);
  g_task_set_task_data (task, g_strdup (path), g_free);
  g_task_run_in_thread (task, read_title);
}

static void
update_recent (DryStartPage *self)
{
  g_autoptr (GPtrArray) paths = NULL;

  if (!gtk_widget_get_mapped (GTK_WIDGET (self)))
    return;
  paths = list_recent_paths ();
  for (guint i = 0; i < self->rows->len; i++)
    adw_preferences_group_remove (ADW_PREFERENCES_GROUP (self->recent), self->rows->pdata[i]);
  g_ptr_array_set_size (self->rows, 0);
  for (guint i = 0; i < paths->len; i++)
    if (g_utf8_validate (paths->pdata[i], -1, NULL)) /* an action's target is UTF-8 */
      add_recent_row (self, paths->pdata[i]);
  gtk_widget_set_visible (self->recent, self->rows->len > 0);
}

void
dry_start_page_update (GtkWidget *page)
{
  if (page != NULL)
    dry_leftovers_fill (ADW_PREFERENCES_GROUP (DRY_START_PAGE (page)->leftover),
                        DRY_START_PAGE (page)->left);
}

/* --- object --- */

static void
dry_start_page_map (GtkWidget *widget)
{
  DryStartPage *self = DRY_START_PAGE (widget);

  GTK_WIDGET_CLASS (dry_start_page_parent_class)->map (widget);
  self->cancellable = g_cancellable_new ();
  dry_start_page_update (widget);
  update_recent (self);
  draw_next_picture (self);
}

static void
call_off_work (DryStartPage *self)
{
  if (self->cancellable != NULL)
    g_cancellable_cancel (self->cancellable);
  g_clear_object (&self->cancellable);
}

static void
dry_start_page_unmap (GtkWidget *widget)
{
  /* A project was opened: its plan needs the processor more. */
  call_off_work (DRY_START_PAGE (widget));
  GTK_WIDGET_CLASS (dry_start_page_parent_class)->unmap (widget);
}

static void
dry_start_page_dispose (GObject *object)
{
  DryStartPage *self = DRY_START_PAGE (object);

  call_off_work (self);
  memset (self->pictures, 0, sizeof self->pictures);
  g_clear_pointer (&self->scroller, gtk_widget_unparent);
  g_clear_pointer (&self->rows, g_ptr_array_unref);
  g_clear_pointer (&self->left, g_ptr_array_unref);
  g_clear_object (&self->session);
  G_OBJECT_CLASS (dry_start_page_parent_class)->dispose (object);
}

static void
dry_start_page_class_init (DryStartPageClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = dry_start_page_dispose;
  widget_class->map = dry_start_page_map;
  widget_class->unmap = dry_start_page_unmap;
  gtk_widget_class_set_css_name (widget_class, "startpage");
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_GROUP);
  gtk_widget_class_set_template_from_resource (widget_class, DRY_RESOURCE_ROOT "/start-page.ui");
  gtk_widget_class_bind_template_child (widget_class, DryStartPage, scroller);
  gtk_widget_class_bind_template_child (widget_class, DryStartPage, leftover);
  gtk_widget_class_bind_template_child (widget_class, DryStartPage, recent);
  gtk_widget_class_bind_template_child (widget_class, DryStartPage, samples);
  gtk_widget_class_bind_template_child (widget_class, DryStartPage, cards);
}

static void
dry_start_page_init (DryStartPage *self)
{
  self->rows = g_ptr_array_new ();
  self->left = g_ptr_array_new ();
  gtk_widget_init_template (GTK_WIDGET (self));
}

GtkWidget *
dry_start_page_new (DrySession *session)
{
  DryStartPage *self = g_object_new (DRY_TYPE_START_PAGE, NULL);

  self->session = g_object_ref (session);
  for (guint i = 0; i < G_N_ELEMENTS (SAMPLES); i++) {
    g_autofree char *path = dry_application_find_demo (SAMPLES[i].file);

    if (path != NULL)
      add_card (self, i);
  }
  g_signal_connect_object (gtk_recent_manager_get_default (), "changed", G_CALLBACK (update_recent),
                           self, G_CONNECT_SWAPPED);
  return GTK_WIDGET (self);
}
