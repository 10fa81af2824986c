/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Command line, catalogue, settings, and the actions of no single window.
 * Pictures of the window for the README and the tests are made here too (--screenshot). */
#include "ui/application.h"

#include <glib/gi18n.h>
#include <stdlib.h>

#include "plan/rule-names.h"
#include "ui/access.h"
#include "ui/actions.h"
#include "ui/closing.h"
#include "ui/heap.h"
#include "ui/popover-place.h"
#include "ui/preferences.h"
#include "ui/screenshot.h"
#include "ui/settings.h"
#include "ui/sight.h"
#include "ui/steady.h"
#include "ui/window.h"
#include "ui/wrapping.h"

struct _DryApplication {
  AdwApplication parent_instance;
  GThread *reader; /* of the catalogue; NULL: done, see finish_catalog() */
  const DryCatalog *catalog;
  char *catalog_error;
  GSettings *settings;
  gboolean packs_told; /* the bar about packs left out was closed */
  char *screenshot;    /* path, or NULL */
  int width, height;
};

G_DEFINE_FINAL_TYPE (DryApplication, dry_application, ADW_TYPE_APPLICATION)

/* --- the catalogue --- */

/* Of the default folders; what comes after them is one's own. */
#define N_SHIPPED_FOLDERS 1

/* Read beside the toolkit's own start, which takes ten times as long. The thread has nothing but
 * the names of the folders, and hands over a value. */
typedef struct {
  char **folders;
  DryCatalog *catalog;
  GError *error;
} Reading;

static gpointer
read_catalog (gpointer data)
{
  Reading *reading = data;

  /* A firm's rule about something that nothing has would be silent for ever: such a pack is left
   * out like one that cannot be read, and told. */
  reading->catalog =
      dry_catalog_load_tolerant ((const char *const *) reading->folders, N_SHIPPED_FOLDERS,
                                 dry_rule_names_check, &reading->error);
  return reading;
}

static void
begin_catalog (DryApplication *self)
{
  Reading *reading = g_new0 (Reading, 1);

  /* The environment is looked at here: the toolkit changes it while it starts. */
  reading->folders = dry_catalog_dup_default_folders ();
  self->reader = g_thread_new ("drybay-catalog", read_catalog, reading);
}

static void
finish_catalog (DryApplication *self)
{
  g_autofree Reading *reading = NULL;

  if (self->reader == NULL)
    return;
  reading = g_thread_join (g_steal_pointer (&self->reader));
  self->catalog = reading->catalog;
  if (reading->error != NULL)
    self->catalog_error = g_strdup (reading->error->message);
  g_clear_error (&reading->error);
  g_strfreev (reading->folders);
}

const DryCatalog *
dry_application_get_catalog (DryApplication *self)
{
  finish_catalog (self);
  return self->catalog;
}

gboolean
dry_application_has_told_packs (DryApplication *self)
{
  return self->packs_told;
}

void
dry_application_note_packs_told (DryApplication *self)
{
  self->packs_told = TRUE;
}

GSettings *
dry_application_get_settings (DryApplication *self)
{
  return self->settings;
}

char *
dry_application_find_demo (const char *name)
{
  const char *wanted = g_getenv ("DRYBAY_DATA");
  const char *folders[] = {wanted, DRYBAY_PKGDATA, DRYBAY_SOURCE_DATA};

  for (guint i = 0; i < G_N_ELEMENTS (folders); i++) {
    g_autofree char *path = NULL;

    if (folders[i] == NULL || folders[i][0] == '\0')
      continue;
    path = g_build_filename (folders[i], "demo", name, NULL);
    if (g_file_test (path, G_FILE_TEST_IS_REGULAR))
      return g_steal_pointer (&path);
  }
  return NULL;
}

/* --- windows --- */

/* Without a catalogue nothing can be planned: say which file is wrong and stop there. */
static void
present_failure (DryApplication *self)
{
  GtkWidget *window = adw_application_window_new (GTK_APPLICATION (self));
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 0);
  GtkWidget *page = adw_status_page_new ();
  g_autofree char *text = g_markup_escape_text (self->catalog_error, -1);

  adw_status_page_set_icon_name (ADW_STATUS_PAGE (page), "dialog-warning-symbolic");
  adw_status_page_set_title (ADW_STATUS_PAGE (page), _ ("The Catalog Could Not Be Read"));
  adw_status_page_set_description (ADW_STATUS_PAGE (page), text);
  gtk_widget_set_vexpand (page, TRUE);
  gtk_box_append (GTK_BOX (box), adw_header_bar_new ());
  gtk_box_append (GTK_BOX (box), page);
  gtk_window_set_title (GTK_WINDOW (window), _ ("Drybay"));
  gtk_window_set_default_size (GTK_WINDOW (window), 720, 480);
  adw_application_window_set_content (ADW_APPLICATION_WINDOW (window), box);
  gtk_window_present (GTK_WINDOW (window));
}

static DryWindow *
new_window (DryApplication *self)
{
  DryWindow *window;

  if (dry_application_get_catalog (self) == NULL) {
    present_failure (self);
    return NULL;
  }
  window = DRY_WINDOW (dry_window_new (self));
  if (self->width > 0)
    gtk_window_set_default_size (GTK_WINDOW (window), self->width, self->height);
  return window;
}

static void
show_window (DryApplication *self, DryWindow *window)
{
  gtk_window_present (GTK_WINDOW (window));
  if (self->screenshot != NULL)
    dry_screenshot_take (GTK_WINDOW (window), dry_window_get_session (window), self->screenshot);
}

static void
dry_application_activate (GApplication *application)
{
  DryApplication *self = DRY_APPLICATION (application);
  GtkWindow *active = gtk_application_get_active_window (GTK_APPLICATION (self));
  DryWindow *window;

  if (active != NULL) {
    gtk_window_present (active);
    return;
  }
  window = new_window (self);
  if (window != NULL)
    show_window (self, window);
}

static void
dry_application_open (GApplication *application, GFile **files, gint n_files, const char *hint)
{
  DryApplication *self = DRY_APPLICATION (application);

  for (gint i = 0; i < n_files; i++) {
    g_autofree char *path = g_file_get_path (files[i]);
    GtkWindow *active = gtk_application_get_active_window (GTK_APPLICATION (self));
    DryWindow *window =
        active != NULL && DRY_IS_WINDOW (active) && dry_window_is_vacant (DRY_WINDOW (active))
            ? DRY_WINDOW (active)
            : new_window (self);

    if (window == NULL)
      return;
    if (path != NULL)
      dry_window_open_path (window, path);
    show_window (self, window);
  }
}

/* --- actions --- */

static void
on_quit (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  g_autoptr (GList) windows = g_list_copy (gtk_application_get_windows (GTK_APPLICATION (data)));

  /* Each window asks for its own unsaved work; the last one to go ends the program. */
  for (GList *link = windows; link != NULL; link = link->next)
    gtk_window_close (GTK_WINDOW (link->data));
}

static void
on_preferences (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  GtkWindow *parent = gtk_application_get_active_window (GTK_APPLICATION (data));

  if (parent != NULL)
    dry_preferences_present (parent);
}

static void
on_help (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  GtkWindow *parent = gtk_application_get_active_window (GTK_APPLICATION (data));

  if (parent != NULL && DRY_IS_WINDOW (parent))
    dry_window_show_help (DRY_WINDOW (parent));
  else
    gtk_show_uri (parent, "help:drybay", GDK_CURRENT_TIME);
}

static void
on_about (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  adw_show_about_window (
      gtk_application_get_active_window (GTK_APPLICATION (data)), "application-name", _ ("Drybay"),
      "application-icon", DRY_APP_ID, "version", DRYBAY_VERSION, "developer-name",
      _ ("The Drybay contributors"), "license-type", GTK_LICENSE_GPL_3_0, "comments",
      _ ("Plans the backing and waterproofing of tub and shower walls. Quantities and reminders, "
         "not permission: local code, the maker's instructions and licensed practice come first."),
      NULL);
}

static void
on_style_setting (GSettings *settings, const char *key, gpointer data)
{
  static const AdwColorScheme schemes[] = {ADW_COLOR_SCHEME_DEFAULT, ADW_COLOR_SCHEME_FORCE_LIGHT,
                                           ADW_COLOR_SCHEME_FORCE_DARK};

  adw_style_manager_set_color_scheme (
      adw_style_manager_get_default (),
      schemes[CLAMP (g_settings_get_enum (settings, "style"), 0, 2)]);
}

/* Done here and not by a resource base path: the toolkit would then also add a folder of icons, and
 * so read the whole icon theme a second time before the first frame. */
static void
add_style (void)
{
  g_autoptr (GtkCssProvider) provider = gtk_css_provider_new ();

  gtk_css_provider_load_from_resource (provider, DRY_RESOURCE_ROOT "/style.css");
  gtk_style_context_add_provider_for_display (gdk_display_get_default (),
                                              GTK_STYLE_PROVIDER (provider),
                                              GTK_STYLE_PROVIDER_PRIORITY_APPLICATION);
}

/* Keys that a text entry may want first (undo, copy, letters) are bound by the window, after the
 * focused widget; the others here. */
static void
set_accels (DryApplication *self)
{
  guint n;
  const DryActionInfo *actions = dry_actions_list (&n);

  for (guint i = 0; i < n; i++) {
    if (actions[i].accel == NULL || dry_action_is_local (&actions[i]))
      continue;
    g_auto (GStrv) accels = g_strsplit (actions[i].accel, " ", -1);

    gtk_application_set_accels_for_action (GTK_APPLICATION (self), actions[i].name,
                                           (const char *const *) accels);
  }
}

static void
dry_application_startup (GApplication *application)
{
  static const GActionEntry entries[] = {{.name = "quit", .activate = on_quit},
                                         {.name = "preferences", .activate = on_preferences},
                                         {.name = "help", .activate = on_help},
                                         {.name = "about", .activate = on_about}};
  DryApplication *self = DRY_APPLICATION (application);

  begin_catalog (self);
  G_APPLICATION_CLASS (dry_application_parent_class)->startup (application);
  dry_wrapping_install ();
  dry_steady_install ();
  dry_closing_install ();
  dry_popover_place_install ();
  dry_sight_install ();
  dry_access_install ();
  /* GTK 4.8 looks at the widget that had the focus before a label has taken it, which is gone by
   * then when the focus moved because that widget went away. It does so for this setting only. */
  g_object_set (gtk_settings_get_default (), "gtk-label-select-on-focus", FALSE, NULL);
  add_style ();
  gtk_window_set_default_icon_name (DRY_APP_ID);
  self->settings = dry_settings_new ();
  g_signal_connect (self->settings, "changed::style", G_CALLBACK (on_style_setting), NULL);
  on_style_setting (self->settings, "style", NULL);
  g_action_map_add_action_entries (G_ACTION_MAP (self), entries, G_N_ELEMENTS (entries), self);
  set_accels (self);
}

/* --- command line --- */

static gboolean
read_size (DryApplication *self, const char *text)
{
  guint64 width = 0, height = 0;
  g_auto (GStrv) parts = g_strsplit (text, "x", 2);

  if (g_strv_length (parts) != 2 ||
      !g_ascii_string_to_unsigned (parts[0], 10, 200, 10000, &width, NULL) ||
      !g_ascii_string_to_unsigned (parts[1], 10, 200, 10000, &height, NULL))
    return FALSE;
  self->width = (int) width;
  self->height = (int) height;
  return TRUE;
}

static int
dry_application_handle_local_options (GApplication *application, GVariantDict *options)
{
  DryApplication *self = DRY_APPLICATION (application);
  g_autofree char *size = NULL;

  if (g_variant_dict_contains (options, "version")) {
    g_print ("drybay %s\n", DRYBAY_VERSION);
    return EXIT_SUCCESS;
  }
  if (g_variant_dict_lookup (options, "size", "s", &size) && !read_size (self, size)) {
    g_printerr ("drybay: --size: \"%s\" is no size such as 1280x800\n", size);
    return EXIT_FAILURE;
  }
  g_variant_dict_lookup (options, "screenshot", "^ay", &self->screenshot);
  if (self->screenshot != NULL)
    g_application_set_flags (application,
                             g_application_get_flags (application) | G_APPLICATION_NON_UNIQUE);
  return -1;
}

static void
dry_application_window_removed (GtkApplication *application, GtkWindow *window)
{
  GTK_APPLICATION_CLASS (dry_application_parent_class)->window_removed (application, window);
  dry_heap_give_back ();
}

static void
dry_application_finalize (GObject *object)
{
  DryApplication *self = DRY_APPLICATION (object);

  finish_catalog (self);
  if (self->catalog != NULL)
    dry_catalog_unref ((DryCatalog *) self->catalog);
  g_clear_object (&self->settings);
  g_free (self->catalog_error);
  g_free (self->screenshot);
  G_OBJECT_CLASS (dry_application_parent_class)->finalize (object);
}

static void
dry_application_class_init (DryApplicationClass *class)
{
  GApplicationClass *application = G_APPLICATION_CLASS (class);

  G_OBJECT_CLASS (class)->finalize = dry_application_finalize;
  application->activate = dry_application_activate;
  application->open = dry_application_open;
  application->startup = dry_application_startup;
  application->handle_local_options = dry_application_handle_local_options;
  GTK_APPLICATION_CLASS (class)->window_removed = dry_application_window_removed;
}

static void
dry_application_init (DryApplication *self)
{
  const GOptionEntry options[] = {
      {"screenshot", 0, 0, G_OPTION_ARG_FILENAME, NULL,
       N_ ("Write a picture of the window to FILE and quit"), N_ ("FILE")},
      {"size", 0, 0, G_OPTION_ARG_STRING, NULL, N_ ("Size of the window, such as 1280x800"),
       N_ ("WxH")},
      {"version", 0, 0, G_OPTION_ARG_NONE, NULL, N_ ("Print the version and quit"), NULL},
      {NULL}};

  g_application_add_main_option_entries (G_APPLICATION (self), options);
  g_application_set_option_context_parameter_string (G_APPLICATION (self), _ ("[FILE…]"));
}

DryApplication *
dry_application_new (void)
{
  DryApplication *self = g_object_new (DRY_TYPE_APPLICATION, "application-id", DRY_APP_ID, "flags",
                                       G_APPLICATION_HANDLES_OPEN, NULL);

  g_application_set_resource_base_path (G_APPLICATION (self), NULL); /* see add_style() */
  return self;
}
