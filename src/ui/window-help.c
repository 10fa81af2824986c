/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Help: which page is about what has the focus, and how to come by it: a help viewer, or, where
 * none is installed, the folder the pages are in. Knows no page's contents. */
#include "ui/window-private.h"

#include <glib/gi18n.h>

#include "ui/toasts.h"

static gboolean
holds_focus (GtkWidget *place, GtkWidget *focus)
{
  return place != NULL && focus != NULL &&
         (focus == place || gtk_widget_is_ancestor (focus, place));
}

static const char *
page_of_selection (DryWindow *self)
{
  const DryRoom *room = dry_session_get_room (self->session);
  DryId object = dry_session_get_selection (self->session);

  if (dry_session_get_selected_finding (self->session) >= 0)
    return "findings";
  if (room == NULL || object == 0)
    return "view";
  return dry_room_get_wall (room, object) != NULL ? "room" : "placing";
}

static const char *
page_of_focus (DryWindow *self)
{
  GtkWidget *focus = gtk_root_get_focus (GTK_ROOT (self));

  if (self->vacant)
    return "first-minutes";
  if (holds_focus (GTK_WIDGET (self->canvas), focus))
    return page_of_selection (self);
  if (holds_focus (GTK_WIDGET (self->inspector_place), focus))
    return dry_session_get_selection (self->session) == 0 ? "systems" : "exact-lengths";
  if (holds_focus (GTK_WIDGET (self->ledger_place), focus))
    return "findings";
  if (holds_focus (GTK_WIDGET (self->shelf_place), focus))
    return "placing";
  return "index";
}

/* Installed, or beside the program's source when it runs from the build. */
static char *
find_pages (gboolean *installed)
{
  const char *wanted = g_getenv ("DRYBAY_HELP");
  g_autofree char *shared = g_build_filename (DRYBAY_PKGDATA, "..", "help", "C", "drybay", NULL);
  g_autofree char *source = g_build_filename (DRYBAY_SOURCE_DATA, "..", "help", "C", NULL);
  const char *folders[] = {wanted, shared, source};

  for (guint i = 0; i < G_N_ELEMENTS (folders); i++) {
    *installed = folders[i] == shared;
    if (folders[i] != NULL && g_file_test (folders[i], G_FILE_TEST_IS_DIR))
      return g_canonicalize_filename (folders[i], NULL);
  }
  return NULL;
}

static gboolean
open_viewer (DryWindow *self, const char *folder, gboolean installed, const char *page)
{
  g_autoptr (GAppInfo) app = g_app_info_get_default_for_uri_scheme ("help");
  g_autoptr (GError) error = NULL;
  g_autofree char *viewer = g_find_program_in_path ("yelp");
  g_autofree char *uri = g_strdup_printf ("help:drybay/%s", page);
  g_autofree char *name = g_strconcat (page, ".page", NULL);
  g_autofree char *path = folder != NULL ? g_build_filename (folder, name, NULL) : NULL;
  g_autoptr (GSubprocess) process = NULL;

  if (installed && app != NULL) {
    gtk_show_uri (GTK_WINDOW (self), uri, GDK_CURRENT_TIME);
    return TRUE;
  }
  if (viewer == NULL || path == NULL)
    return FALSE;
  process = g_subprocess_new (G_SUBPROCESS_FLAGS_NONE, &error, viewer, path, NULL);
  return process != NULL;
}

void
dry_window_show_help (DryWindow *self)
{
  const char *page = page_of_focus (self);
  gboolean installed = FALSE;
  g_autofree char *folder = find_pages (&installed);
  g_autofree char *text = NULL;
  g_autofree char *escaped = NULL;
  AdwToast *toast;

  if (open_viewer (self, folder, installed, page))
    return;
  if (folder == NULL) {
    dry_window_tell (self, _ ("The help pages are not installed"));
    return;
  }
  /* Translators: folder, name of the page */
  text = g_strdup_printf (
      _ ("No help viewer is installed. The pages are in %s, this one is %s.page"), folder, page);
  escaped = g_markup_escape_text (text, -1);
  toast = adw_toast_new (escaped);
  adw_toast_set_timeout (toast, 10);
  adw_toast_set_button_label (toast, _ ("_Show"));
  adw_toast_set_action_name (toast, "win.show-help-pages");
  dry_toasts_show (GTK_WIDGET (self->toasts), toast);
}

static void
on_show_pages (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  gboolean installed;
  g_autofree char *folder = find_pages (&installed);
  g_autofree char *uri = folder != NULL ? g_filename_to_uri (folder, NULL, NULL) : NULL;

  if (uri != NULL)
    gtk_show_uri (GTK_WINDOW (data), uri, GDK_CURRENT_TIME);
}

void
dry_window_add_help_actions (DryWindow *self)
{
  static const GActionEntry entries[] = {{.name = "show-help-pages", .activate = on_show_pages}};

  g_action_map_add_action_entries (G_ACTION_MAP (self), entries, G_N_ELEMENTS (entries), self);
}
