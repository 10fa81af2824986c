/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Shelf, start page, preferences and the row for lengths on a virtual screen, each alone: what they
 * show of a session, and what typing and clicking in them does to it. */
#include <glib/gstdio.h>
#include <string.h>

#include "desk.h"
#include "support/fixtures.h"
#include "ui/actions.h"
#include "ui/canvas.h"
#include "ui/length-row.h"
#include "ui/preferences.h"
#include "ui/scene-view.h"
#include "ui/shelf.h"
#include "ui/shortcuts.h"
#include "ui/start-page.h"

/* --- length row --- */

static void
count (GtkWidget *widget, gpointer counter)
{
  (*(guint *) counter)++;
}

static void
test_length_row (void)
{
  static const struct {
    const char *text;
    DryLength value; /* -1: refused */
  } cases[] = {
      {"5' 1 1/2\"", 61 * DRY_INCH + DRY_INCH / 2},
      {"61.5\"", 61 * DRY_INCH + DRY_INCH / 2},
      {"60", 60 * DRY_INCH},
      {"1562 mm", 1562 * DRY_MM},
      {"ceiling", 0},
      {"", 0},
      {"1 in", -1},   /* below the least */
      {"101 in", -1}, /* above the greatest */
      {"wide", -1},
      {"nan", -1},
      {"1e3", -1},
  };

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++) {
    GtkWidget *row = g_object_ref_sink (dry_length_row_new ("Height"));
    guint entered = 0;

    dry_length_row_set_limits (DRY_LENGTH_ROW (row), 2 * DRY_INCH, 100 * DRY_INCH);
    dry_length_row_set_zero_text (DRY_LENGTH_ROW (row), "ceiling");
    dry_length_row_set_value (DRY_LENGTH_ROW (row), 50 * DRY_INCH);
    g_signal_connect (row, "entered", G_CALLBACK (count), &entered);
    dry_desk_type_into (row, cases[i].text);
    if (cases[i].value >= 0) {
      g_assert_cmpint (dry_length_row_get_value (DRY_LENGTH_ROW (row)), ==, cases[i].value);
      g_assert_cmpuint (entered, ==, 1);
    } else {
      g_assert_cmpint (dry_length_row_get_value (DRY_LENGTH_ROW (row)), ==, 50 * DRY_INCH);
      g_assert_cmpuint (entered, ==, 0);
      g_assert_true (gtk_widget_has_css_class (dry_test_require (row, GTK_TYPE_ENTRY),
                                               "error")); /* and says why */
      g_assert_cmpstr (adw_action_row_get_subtitle (ADW_ACTION_ROW (row)), !=, "");
    }
    g_object_unref (row);
  }
}

/* The same length in other words is no change: nothing is entered, no undo step made. */
static void
test_length_row_same (void)
{
  GtkWidget *row = g_object_ref_sink (dry_length_row_new ("Width"));
  guint entered = 0;

  dry_length_row_set_value (DRY_LENGTH_ROW (row), 50 * DRY_INCH);
  g_signal_connect (row, "entered", G_CALLBACK (count), &entered);
  dry_desk_type_into (row, "1270 mm");
  g_assert_cmpuint (entered, ==, 0);
  g_object_unref (row);
}

static gboolean
is_shown_item (GtkWidget *widget, gconstpointer unused)
{
  return gtk_widget_has_css_class (widget, "shelf-item") && gtk_widget_get_visible (widget);
}

static gboolean
has_target (GtkWidget *widget, gconstpointer text)
{
  GVariant *target = GTK_IS_ACTIONABLE (widget)
                         ? gtk_actionable_get_action_target_value (GTK_ACTIONABLE (widget))
                         : NULL;

  return target != NULL && g_variant_is_of_type (target, G_VARIANT_TYPE_STRING) &&
         g_strcmp0 (g_variant_get_string (target, NULL), text) == 0;
}

/* --- shelf --- */

/* What is in a closed group is not there at all. */
static void
open_groups (GtkWidget *root)
{
  for (GtkWidget *child = gtk_widget_get_first_child (root); child != NULL;
       child = gtk_widget_get_next_sibling (child)) {
    if (GTK_IS_EXPANDER (child))
      gtk_expander_set_expanded (GTK_EXPANDER (child), TRUE);
    open_groups (child);
  }
}

static void
test_shelf (DryDesk *desk, gconstpointer data)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 0);
  DryCanvas *canvas = DRY_CANVAS (dry_canvas_new (desk->session));
  GtkWidget *shelf = dry_shelf_new (desk->session, canvas);
  const GType group = GTK_TYPE_EXPANDER;
  GtkEditable *search;
  GtkWidget *item = NULL;
  guint all;

  gtk_box_append (GTK_BOX (box), shelf);
  gtk_box_append (GTK_BOX (box), GTK_WIDGET (canvas));
  gtk_widget_set_hexpand (GTK_WIDGET (canvas), TRUE);
  dry_desk_show (desk, box);
  DRY_TEST_WAIT_FOR (dry_test_find (shelf, dry_test_is_type, &group) != NULL); /* after a frame */
  open_groups (shelf);
  all = dry_test_collect (shelf, is_shown_item, NULL, NULL);
  g_assert_cmpuint (all, ==, dry_catalog_get_n_items (dry_session_get_catalog (desk->session)));

  dry_test_assert_no_emoji (shelf);
  search = GTK_EDITABLE (dry_test_require (shelf, GTK_TYPE_SEARCH_ENTRY));
  gtk_editable_set_text (search, "NICHE");
  DRY_TEST_WAIT_FOR (dry_test_collect (shelf, is_shown_item, NULL, NULL) < all);
  g_assert_cmpuint (dry_test_collect (shelf, is_shown_item, NULL, &item), >, 0);
  g_signal_emit_by_name (item, "clicked");
  g_assert_true (dry_canvas_cancel (canvas)); /* it was in hand */
  gtk_editable_set_text (search, "no such thing");
  DRY_TEST_WAIT_FOR (dry_test_collect (shelf, is_shown_item, NULL, NULL) == 0);
  gtk_editable_set_text (search, "");
  DRY_TEST_WAIT_FOR (dry_test_collect (shelf, is_shown_item, NULL, NULL) == all);
}

/* --- start page --- */

static gboolean
has_picture (GtkWidget *widget, gconstpointer unused)
{
  g_autoptr (GdkPaintable) paintable = NULL;
  GtkSnapshot *snapshot;
  GskRenderNode *node;
  gboolean painted;

  if (!DRY_IS_SCENE_VIEW (widget))
    return FALSE;
  snapshot = gtk_snapshot_new ();
  GTK_WIDGET_GET_CLASS (widget)->snapshot (widget, snapshot);
  node = gtk_snapshot_free_to_node (snapshot);
  painted = node != NULL;
  g_clear_pointer (&node, gsk_render_node_unref);
  return painted;
}

static void
test_start_samples (DryDesk *desk, gconstpointer data)
{
  static const char *const files[] = {"alcove-refit.drybay", "client-shower.drybay",
                                      "two-bath-house.drybay"};
  GtkWidget *page = dry_start_page_new (desk->session);

  dry_desk_show (desk, page);
  for (guint i = 0; i < G_N_ELEMENTS (files); i++) {
    g_autofree char *expected = g_strdup_printf ("open-demo %s", files[i]);
    GtkWidget *card = dry_test_find (page, has_target, files[i]);

    g_assert_true (GTK_IS_BUTTON (card));
    g_signal_emit_by_name (card, "clicked");
    g_assert_cmpstr (desk->opened, ==, expected);
  }
  DRY_TEST_WAIT_FOR (dry_test_collect (page, has_picture, NULL, NULL) == G_N_ELEMENTS (files));
}

/* Leaving while pictures are being drawn, again and again: nothing may be left hanging. */
static void
test_start_leaving (DryDesk *desk, gconstpointer data)
{
  for (guint i = 0; i < 4; i++) {
    GtkWidget *page = dry_start_page_new (desk->session);

    adw_application_window_set_content (ADW_APPLICATION_WINDOW (desk->window), page);
    gtk_window_present (GTK_WINDOW (desk->window));
    DRY_TEST_WAIT_FOR (gtk_widget_get_mapped (page));
    if (i % 2 == 1)
      dry_test_settle ();
  }
  adw_application_window_set_content (ADW_APPLICATION_WINDOW (desk->window), NULL);
  dry_test_settle ();
}

static void
remember (const char *path)
{
  g_autofree char *uri = g_filename_to_uri (path, NULL, NULL);
  GtkRecentData data = {.mime_type = (char *) "application/x-drybay+json",
                        .app_name = (char *) "Drybay",
                        .app_exec = (char *) "drybay %u"};

  g_assert_nonnull (uri);
  gtk_recent_manager_add_full (gtk_recent_manager_get_default (), uri, &data);
}

static void
test_start_recent (DryDesk *desk, gconstpointer data)
{
  g_autofree char *folder = g_dir_make_tmp ("drybay-recent-XXXXXX", NULL);
  g_autofree char *kept = g_build_filename (folder, "elm <street> & co.drybay", NULL);
  g_autofree char *gone = g_build_filename (folder, "gone.drybay", NULL);
  g_autofree char *text = g_build_filename (folder, "notes.txt", NULL);
  g_autofree char *expected = g_strdup_printf ("open-path %s", kept);
  GtkWidget *page, *row;

  g_assert_true (dry_session_save (desk->session, kept, NULL));
  g_assert_true (g_file_set_contents (text, "no project", -1, NULL));
  remember (kept);
  remember (gone);
  page = dry_start_page_new (desk->session);
  dry_desk_show (desk, page);
  DRY_TEST_WAIT_FOR (dry_test_find (page, has_target, kept) != NULL);
  row = dry_test_find (page, has_target, kept);
  g_assert_null (dry_test_find (page, has_target, gone));
  g_assert_null (dry_test_find (page, has_target, text));
  g_assert_nonnull (strstr (adw_action_row_get_subtitle (ADW_ACTION_ROW (row)), folder));
  g_assert_true (gtk_widget_activate_action (row, "win.open-path", "s", kept));
  g_assert_cmpstr (desk->opened, ==, expected);
  g_unlink (kept);
  g_unlink (text);
  g_rmdir (folder);
}

/* --- preferences --- */

static AdwComboRow *
find_combo (GtkWidget *window, const char *title)
{
  GtkWidget *row = dry_test_find (window, dry_desk_is_row, title);

  if (!ADW_IS_COMBO_ROW (row))
    g_error ("There is no choice called \"%s\"", title);
  return ADW_COMBO_ROW (row);
}

static void
test_preferences (DryDesk *desk, gconstpointer data)
{
  GSettings *settings = dry_application_get_settings (dry_desk_get_application ());
  AdwStyleManager *style = adw_style_manager_get_default ();
  GtkWidget *window;
  guint n;

  dry_desk_show (desk, gtk_label_new ("parent"));
  dry_preferences_present (GTK_WINDOW (desk->window));
  window = dry_test_find_toplevel ("DryPreferences", &n);
  dry_preferences_present (GTK_WINDOW (window));
  dry_test_find_toplevel ("DryPreferences", &n);
  g_assert_cmpuint (n, ==, 1);

  adw_combo_row_set_selected (find_combo (window, "Lengths"), 1);
  g_assert_cmpint (g_settings_get_enum (settings, "units"), ==, 1);
  g_assert_false (gtk_widget_get_sensitive (GTK_WIDGET (find_combo (window, "Smallest fraction"))));
  g_settings_set_enum (settings, "units", 0);
  g_assert_cmpuint (adw_combo_row_get_selected (find_combo (window, "Lengths")), ==, 0);
  for (guint i = 0; i < 4; i++) {
    adw_combo_row_set_selected (find_combo (window, "Smallest fraction"), i);
    g_assert_cmpint (g_settings_get_int (settings, "denominator"), ==, 8 << i);
  }
  g_settings_set_int (settings, "denominator", 12); /* by hand: shows the next finer */
  g_assert_cmpuint (adw_combo_row_get_selected (find_combo (window, "Smallest fraction")), ==, 1);

  /* The style is seen at once. */
  adw_combo_row_set_selected (find_combo (window, "Style"), 2);
  g_assert_true (adw_style_manager_get_dark (style));
  adw_combo_row_set_selected (find_combo (window, "Style"), 1);
  g_assert_false (adw_style_manager_get_dark (style));
  adw_combo_row_set_selected (find_combo (window, "Size"), 3);
  g_assert_cmpint (g_settings_get_enum (settings, "paper"), ==, 3);
  for (guint i = 0; i < dry_catalog_get_n_rule_packs (dry_test_catalog ()); i++) {
    const DryRulePack *pack = dry_catalog_get_rule_pack_at (dry_test_catalog (), i);
    g_autofree char *chosen = NULL;

    adw_combo_row_set_selected (find_combo (window, "Rules"), i);
    chosen = g_settings_get_string (settings, "rule-pack");
    g_assert_cmpstr (chosen, ==, pack->id);
  }
  g_settings_set_string (settings, "rule-pack", "no-such-pack");
  g_assert_cmpuint (adw_combo_row_get_selected (find_combo (window, "Rules")), ==,
                    GTK_INVALID_LIST_POSITION);
  {
    static const char *const keys[] = {"units", "denominator", "rule-pack", "paper", "style"};

    for (guint i = 0; i < G_N_ELEMENTS (keys); i++)
      g_settings_reset (settings, keys[i]);
  }
  gtk_window_destroy (GTK_WINDOW (window));
}

/* --- shortcuts and help --- */

static gboolean
is_shortcut_of (GtkWidget *widget, gconstpointer data)
{
  const DryActionInfo *info = data;
  g_autofree char *title = NULL;
  g_autofree char *keys = NULL;
  g_auto (GStrv) list = NULL;

  if (!GTK_IS_SHORTCUTS_SHORTCUT (widget))
    return FALSE;
  g_object_get (widget, "title", &title, "accelerator", &keys, NULL);
  if (g_strcmp0 (title, info->title) != 0 || keys == NULL)
    return FALSE;
  list = g_strsplit (info->accel, " ", -1);
  return g_str_has_prefix (keys, list[0]); /* the first of its keys, at the least */
}

static gboolean
is_bad_shortcut (GtkWidget *widget, gconstpointer unused)
{
  g_autofree char *keys = NULL;
  g_autofree char *title = NULL;
  g_auto (GStrv) list = NULL;

  if (!GTK_IS_SHORTCUTS_SHORTCUT (widget))
    return FALSE;
  g_object_get (widget, "title", &title, "accelerator", &keys, NULL);
  if (title == NULL || title[0] == '\0')
    return TRUE;
  list = g_strsplit (keys != NULL ? keys : "", " ", -1);
  for (guint i = 0; list[i] != NULL; i++) {
    guint key;
    GdkModifierType state;

    if (!gtk_accelerator_parse (list[i], &key, &state) || key == 0)
      return TRUE;
  }
  return FALSE;
}

static void
test_shortcuts (DryDesk *desk, gconstpointer data)
{
  guint n_actions, n;
  const DryActionInfo *actions = dry_actions_list (&n_actions);
  GtkWidget *window;

  dry_desk_show (desk, gtk_label_new ("parent"));
  dry_shortcuts_present (GTK_WINDOW (desk->window));
  window = dry_test_find_toplevel ("GtkShortcutsWindow", &n);
  g_assert_cmpuint (n, ==, 1);
  dry_test_settle ();
  for (guint i = 0; i < n_actions; i++)
    if (actions[i].accel != NULL && dry_test_find (window, is_shortcut_of, &actions[i]) == NULL)
      g_error ("The shortcuts window does not show %s", actions[i].name);
  g_assert_null (dry_test_find (window, is_bad_shortcut, NULL));
  gtk_window_destroy (GTK_WINDOW (window));
}

/* Two actions must not want the same key. */
static void
test_keys_differ (void)
{
  g_autoptr (GHashTable) taken = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
  guint n;
  const DryActionInfo *actions = dry_actions_list (&n);

  for (guint i = 0; i < n; i++) {
    g_auto (GStrv) list = g_strsplit (actions[i].accel != NULL ? actions[i].accel : "", " ", -1);

    for (guint k = 0; list[k] != NULL; k++) {
      guint key = 0;
      GdkModifierType state = 0;

      g_assert_true (gtk_accelerator_parse (list[k], &key, &state));
      if (!g_hash_table_insert (taken, gtk_accelerator_name (key, state),
                                (gpointer) actions[i].name))
        g_error ("%s wants %s, which another action has", actions[i].name, list[k]);
    }
  }
}

int
main (int argc, char *argv[])
{
  if (!dry_desk_begin (&argc, &argv))
    return 99;
  g_test_add_func ("/ui/panels/length-row/reads", test_length_row);
  g_test_add_func ("/ui/panels/length-row/same", test_length_row_same);
  DRY_DESK_ADD ("/ui/panels/shelf", test_shelf);
  DRY_DESK_ADD ("/ui/panels/start/samples", test_start_samples);
  DRY_DESK_ADD ("/ui/panels/start/leaving", test_start_leaving);
  DRY_DESK_ADD ("/ui/panels/start/recent", test_start_recent);
  DRY_DESK_ADD ("/ui/panels/preferences", test_preferences);
  DRY_DESK_ADD ("/ui/panels/shortcuts", test_shortcuts);
  g_test_add_func ("/ui/panels/keys-differ", test_keys_differ);
  return dry_desk_run ();
}
