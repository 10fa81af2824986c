/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Every action of the running program can be found: in a menu or by a key, as a row of the
 * shortcuts window, and in the help. The actions are asked of the program, not read from its
 * source. */
#include <adwaita.h>
#include <string.h>

#include "support/fixtures.h"
#include "ui/actions.h"
#include "ui/application.h"
#include "ui/shortcuts.h"
#include "ui/window.h"
#include "widgets.h"

static DryApplication *application;

typedef struct {
  DryWindow *window;
  GHashTable *names; /* "win.save" */
  GHashTable *menus; /* action, with its target where it has one: label */
  GHashTable *shown; /* the same, from buttons and rows */
} Desk;

/* Acts that need an argument no person types: they hang on the rows of a list, on the answer to a
 * toast or a banner. A place in the window is still required where the value names one. */
static const struct {
  const char *name;
  const char *file; /* where the window gives it its argument */
} ASKED[] = {
    {"win.open-path", "start-page.c"},
    {"win.open-demo", "start-page.c"},
    {"win.show-exported", "window-files.c"},
    {"win.show-help-pages", "window-help.c"},
    {"win.room", "window-room.c"},
    {"win.recover", "start-page.c"},
    {"win.forget-leftover", "window-keeping.c"},
    {"win.bring-back-leftover", "window-keeping.c"},
    {"win.keep-offcut", "piece-acts.c"},
    {"win.reload-file", "window-watch.c"},
    {"win.keep-mine", "window-watch.c"},
    {"win.left-out", "window-watch.c"},
};

static const DryActionInfo *
find_info (const char *name)
{
  guint n;
  const DryActionInfo *infos = dry_actions_list (&n);

  for (guint i = 0; i < n; i++)
    if (g_str_equal (infos[i].name, name))
      return &infos[i];
  return NULL;
}

/* A row of the table names the action with its target: "win.room-form::alcove". */
static gboolean
is_in_table (const char *name)
{
  guint n;
  const DryActionInfo *infos = dry_actions_list (&n);
  g_autofree char *with_target = g_strconcat (name, "::", NULL);

  for (guint i = 0; i < n; i++)
    if (g_str_equal (infos[i].name, name) || g_str_has_prefix (infos[i].name, with_target))
      return TRUE;
  return FALSE;
}

/* --- what the program has --- */

static void
list_group (Desk *desk, const char *prefix, GActionGroup *group)
{
  g_auto (GStrv) names = g_action_group_list_actions (group);

  for (guint i = 0; names[i] != NULL; i++)
    g_hash_table_add (desk->names, g_strdup_printf ("%s.%s", prefix, names[i]));
}

/* Actions that our own widgets install for themselves. */
static void
list_class_actions (Desk *desk, GtkWidget *widget)
{
  GType owner;
  const char *name, *property;
  const GVariantType *parameter; /* GTK wants all of them */

  for (guint i = 0; gtk_widget_class_query_action (GTK_WIDGET_GET_CLASS (widget), i, &owner, &name,
                                                   &parameter, &property);
       i++)
    if (g_str_has_prefix (g_type_name (owner), "Dry"))
      g_hash_table_add (desk->names, g_strdup (name));
}

static char *
action_with_target (const char *action, GVariant *target)
{
  if (target != NULL && g_variant_is_of_type (target, G_VARIANT_TYPE_STRING))
    return g_strdup_printf ("%s::%s", action, g_variant_get_string (target, NULL));
  return g_strdup (action);
}

static void
list_menu (Desk *desk, GMenuModel *menu)
{
  for (gint i = 0; menu != NULL && i < g_menu_model_get_n_items (menu); i++) {
    static const char *const links[] = {G_MENU_LINK_SECTION, G_MENU_LINK_SUBMENU};
    g_autofree char *action = NULL;
    g_autofree char *label = NULL;
    g_autoptr (GVariant) target =
        g_menu_model_get_item_attribute_value (menu, i, G_MENU_ATTRIBUTE_TARGET, NULL);

    g_menu_model_get_item_attribute (menu, i, G_MENU_ATTRIBUTE_ACTION, "s", &action);
    g_menu_model_get_item_attribute (menu, i, G_MENU_ATTRIBUTE_LABEL, "s", &label);
    if (action != NULL)
      g_hash_table_replace (desk->menus, action_with_target (action, target),
                            g_strdup (label != NULL ? label : ""));
    for (guint k = 0; k < G_N_ELEMENTS (links); k++) {
      g_autoptr (GMenuModel) inner = g_menu_model_get_item_link (menu, i, links[k]);

      list_menu (desk, inner);
    }
  }
}

static void
list_widget (Desk *desk, GtkWidget *widget)
{
  const char *action =
      GTK_IS_ACTIONABLE (widget) ? gtk_actionable_get_action_name (GTK_ACTIONABLE (widget)) : NULL;

  list_class_actions (desk, widget);
  if (action != NULL)
    g_hash_table_add (
        desk->shown, action_with_target (
                         action, gtk_actionable_get_action_target_value (GTK_ACTIONABLE (widget))));
  if (GTK_IS_MENU_BUTTON (widget) && gtk_widget_get_mapped (widget) &&
      gtk_widget_get_sensitive (widget)) {
    gtk_menu_button_popup (GTK_MENU_BUTTON (widget)); /* its menu may be made only then */
    list_menu (desk, gtk_menu_button_get_menu_model (GTK_MENU_BUTTON (widget)));
    gtk_menu_button_popdown (GTK_MENU_BUTTON (widget));
  }
  for (GtkWidget *child = gtk_widget_get_first_child (widget); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    list_widget (desk, child);
}

static void
press (GtkWidget *widget, guint key)
{
  gboolean taken = FALSE;

  g_signal_emit_by_name (dry_test_controller (widget, GTK_TYPE_EVENT_CONTROLLER_KEY), "key-pressed",
                         key, 0, 0, &taken);
  g_assert_true (taken);
}

/* The menu of each kind of thing on the board, by the Menu key. */
static void
list_board_menus (Desk *desk)
{
  DrySession *session = dry_window_get_session (desk->window);
  const DryRoom *room = dry_session_get_room (session);
  GtkWidget *canvas = GTK_WIDGET (dry_window_get_canvas (desk->window));
  DryId objects[] = {0, room->walls[0].id, room->basin.id, room->parts[0].id};

  for (guint i = 0; i < G_N_ELEMENTS (objects); i++) {
    GtkWidget *menu;

    dry_session_select (session, objects[i]);
    press (canvas, GDK_KEY_Menu);
    menu = dry_test_require (canvas, GTK_TYPE_POPOVER_MENU);
    list_menu (desk, gtk_popover_menu_get_menu_model (GTK_POPOVER_MENU (menu)));
    gtk_popover_popdown (GTK_POPOVER (menu));
    DRY_TEST_WAIT_FOR (!gtk_widget_get_visible (menu));
  }
}

static void
desk_set_up (Desk *desk, gconstpointer data)
{
  DrySession *session;

  desk->names = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
  desk->menus = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, g_free);
  desk->shown = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
  desk->window = DRY_WINDOW (dry_window_new (application));
  gtk_window_present (GTK_WINDOW (desk->window));
  DRY_TEST_WAIT_FOR (gtk_widget_get_mapped (GTK_WIDGET (desk->window)));
  dry_test_settle ();
  list_widget (desk, GTK_WIDGET (desk->window)); /* with its start page */
  gtk_widget_activate_action (GTK_WIDGET (desk->window), "win.new", NULL);
  session = dry_window_get_session (desk->window);
  dry_session_open_project (session, dry_test_furnished_alcove ("foam-bands"), NULL);
  DRY_TEST_WAIT_FOR (!dry_session_is_busy (session));
  dry_test_settle ();
  list_widget (desk, GTK_WIDGET (desk->window));
  list_board_menus (desk);
  list_group (desk, "win", G_ACTION_GROUP (desk->window));
  list_group (desk, "app", G_ACTION_GROUP (application));
}

static void
desk_tear_down (Desk *desk, gconstpointer data)
{
  gtk_window_destroy (GTK_WINDOW (desk->window));
  g_hash_table_unref (desk->names);
  g_hash_table_unref (desk->menus);
  g_hash_table_unref (desk->shown);
  dry_test_settle ();
}

/* --- tests --- */

static gboolean
is_asked (const char *name)
{
  for (guint i = 0; i < G_N_ELEMENTS (ASKED); i++)
    if (g_str_equal (ASKED[i].name, name))
      return TRUE;
  return FALSE;
}

static void
test_all_are_listed (Desk *desk, gconstpointer data)
{
  GHashTableIter iter;
  gpointer name;

  g_assert_cmpuint (g_hash_table_size (desk->names), >, 50);
  g_hash_table_iter_init (&iter, desk->names);
  while (g_hash_table_iter_next (&iter, &name, NULL))
    if (!is_in_table (name) && !is_asked (name)) {
      g_test_message ("%s is in no table of actions: no key, no row, no page of help",
                      (char *) name);
      g_test_fail ();
    }
}

/* And nothing is told of that the program does not have. */
static void
test_listed_are_there (Desk *desk, gconstpointer data)
{
  guint n;
  const DryActionInfo *infos = dry_actions_list (&n);

  for (guint i = 0; i < n; i++) {
    g_auto (GStrv) parts = g_strsplit (infos[i].name, "::", 2);

    if (!g_hash_table_contains (desk->names, parts[0])) {
      g_test_message ("%s is told of but the program does not have it", infos[i].name);
      g_test_fail ();
    }
  }
  for (guint i = 0; i < G_N_ELEMENTS (ASKED); i++)
    if (!g_hash_table_contains (desk->names, ASKED[i].name)) {
      g_test_message ("%s is excused but the program does not have it", ASKED[i].name);
      g_test_fail ();
    }
}

/* What menus and buttons name must exist: else they are dead. */
static void
test_menus_lead_somewhere (Desk *desk, gconstpointer data)
{
  GHashTable *tables[] = {desk->menus, desk->shown};

  for (guint t = 0; t < G_N_ELEMENTS (tables); t++) {
    GHashTableIter iter;
    gpointer key;

    g_hash_table_iter_init (&iter, tables[t]);
    while (g_hash_table_iter_next (&iter, &key, NULL)) {
      g_auto (GStrv) parts = g_strsplit (key, "::", 2);

      if ((g_str_has_prefix (key, "win.") || g_str_has_prefix (key, "app.")) &&
          !g_hash_table_contains (desk->names, parts[0])) {
        g_test_message ("a menu or button names %s, which is no action", (char *) key);
        g_test_fail ();
      }
    }
  }
}

/* TRUE when a key of the application or of the window's own controllers runs the action. */
static gboolean
has_key (Desk *desk, const char *name)
{
  g_auto (GStrv) accels =
      gtk_application_get_accels_for_action (GTK_APPLICATION (application), name);
  g_autoptr (GListModel) controllers = gtk_widget_observe_controllers (GTK_WIDGET (desk->window));

  if (accels[0] != NULL)
    return TRUE;
  for (guint i = 0; i < g_list_model_get_n_items (controllers); i++) {
    g_autoptr (GtkEventController) controller = g_list_model_get_item (controllers, i);

    if (!GTK_IS_SHORTCUT_CONTROLLER (controller))
      continue;
    for (guint k = 0; k < g_list_model_get_n_items (G_LIST_MODEL (controller)); k++) {
      g_autoptr (GtkShortcut) shortcut = g_list_model_get_item (G_LIST_MODEL (controller), k);
      GtkShortcutAction *action = gtk_shortcut_get_action (shortcut);

      if (GTK_IS_NAMED_ACTION (action) &&
          g_strcmp0 (gtk_named_action_get_action_name (GTK_NAMED_ACTION (action)), name) == 0)
        return TRUE;
    }
  }
  return FALSE;
}

static void
test_menu_place_or_key (Desk *desk, gconstpointer data)
{
  guint n;
  const DryActionInfo *infos = dry_actions_list (&n);

  for (guint i = 0; i < n; i++) {
    gboolean key = has_key (desk, infos[i].name);

    if (!key && infos[i].accel != NULL) {
      g_test_message ("%s should have the key %s and does not", infos[i].name, infos[i].accel);
      g_test_fail ();
    }
    if (!key && !g_hash_table_contains (desk->menus, infos[i].name)) {
      g_test_message ("%s has neither a place in a menu nor a key", infos[i].name);
      g_test_fail ();
    }
  }
}

static gboolean
is_row_of (GtkWidget *widget, gconstpointer data)
{
  const DryActionInfo *info = data;
  g_autofree char *title = NULL;

  if (!GTK_IS_SHORTCUTS_SHORTCUT (widget))
    return FALSE;
  g_object_get (widget, "title", &title, NULL);
  return g_strcmp0 (title, info->title) == 0;
}

static void
test_row_of_shortcuts (Desk *desk, gconstpointer data)
{
  guint n;
  const DryActionInfo *infos = dry_actions_list (&n);
  GtkWidget *window;

  dry_shortcuts_present (GTK_WINDOW (desk->window));
  window = dry_test_find_toplevel ("GtkShortcutsWindow", NULL);
  g_assert_nonnull (window);
  dry_test_settle ();
  for (guint i = 0; i < n; i++)
    if (dry_test_find (window, is_row_of, &infos[i]) == NULL) {
      g_test_message ("%s (%s) has no row in the shortcuts window", infos[i].name, infos[i].title);
      g_test_fail ();
    }
  gtk_window_destroy (GTK_WINDOW (window));
}

/* --- help --- */

static const char *
name_of_key (const char *key)
{
  static const struct {
    const char *key, *name;
  } names[] = {{"comma", ","},         {"period", "."},      {"question", "?"},
               {"plus", "+"},          {"minus", "-"},       {"Page_Down", "Page Down"},
               {"Page_Up", "Page Up"}, {"bracketleft", "["}, {"bracketright", "]"}};

  for (guint i = 0; i < G_N_ELEMENTS (names); i++)
    if (g_str_equal (names[i].key, key))
      return names[i].name;
  return key;
}

/* "<Control><Shift>e" as a page writes it: keys of a combination in one keyseq. */
static char *
key_markup (const char *accel)
{
  static const struct {
    const char *prefix, *name;
  } modifiers[] = {{"<Control>", "Ctrl"}, {"<Shift>", "Shift"}, {"<Alt>", "Alt"}};
  g_autoptr (GString) text = g_string_new (NULL);
  gboolean combined = accel[0] == '<';
  g_autofree char *last = NULL;

  for (guint i = 0; i < G_N_ELEMENTS (modifiers); i++)
    if (g_str_has_prefix (accel, modifiers[i].prefix)) {
      accel += strlen (modifiers[i].prefix);
      g_string_append_printf (text, "<key>%s</key>", modifiers[i].name);
    }
  last = strlen (accel) == 1 ? g_ascii_strup (accel, -1) : g_strdup (name_of_key (accel));
  g_string_append_printf (text, "<key>%s</key>", last);
  if (combined) {
    g_string_prepend (text, "<keyseq>");
    g_string_append (text, "</keyseq>");
  }
  return g_string_free (g_steal_pointer (&text), FALSE);
}

static char *
plain_label (const char *label)
{
  g_auto (GStrv) parts = g_strsplit (label, "_", -1);
  char *plain = g_strjoinv ("", parts);
  char *dots = strstr (plain, "…");

  if (dots != NULL)
    *dots = '\0';
  return plain;
}

/* The page of each action says how it is done: by its key or by its name in the menu. */
static void
test_page_of_help (Desk *desk, gconstpointer data)
{
  guint n;
  const DryActionInfo *infos = dry_actions_list (&n);

  for (guint i = 0; i < n; i++) {
    g_autofree char *name = g_strconcat (infos[i].help, ".page", NULL);
    g_autofree char *path = g_build_filename (g_getenv ("DRYBAY_HELP"), name, NULL);
    g_auto (GStrv) accels = g_strsplit (infos[i].accel != NULL ? infos[i].accel : "", " ", -1);
    const char *label = g_hash_table_lookup (desk->menus, infos[i].name);
    g_autofree char *plain = label != NULL ? plain_label (label) : NULL;
    g_autofree char *text = NULL;
    gboolean told = FALSE;

    if (!g_file_get_contents (path, &text, NULL, NULL)) {
      g_test_message ("%s: there is no page %s", infos[i].name, path);
      g_test_fail ();
      continue;
    }
    for (guint k = 0; accels[k] != NULL && !told; k++) {
      g_autofree char *markup = key_markup (accels[k]);

      told = strstr (text, markup) != NULL;
    }
    if (plain != NULL && !told)
      told = strstr (text, plain) != NULL;
    if (!told) {
      g_test_message ("%s tells neither the key (%s) nor the name (%s) of %s", name,
                      infos[i].accel != NULL ? infos[i].accel : "none",
                      plain != NULL ? plain : "none", infos[i].name);
      g_test_fail ();
    }
  }
}

/* The keys beside the items of menus are those that work. */
static void
test_menus_show_keys (Desk *desk, gconstpointer data)
{
  const DryActionInfo *info = find_info ("win.insert-corner");
  g_autoptr (GMenu) menu = g_menu_new ();
  g_autofree char *shown = NULL;

  g_assert_nonnull (info);
  dry_actions_append (menu, "Corner", "win.insert-corner");
  dry_actions_append (menu, "Draw", "win.draw-room");
  g_assert_true (g_menu_model_get_item_attribute (G_MENU_MODEL (menu), 0, "accel", "s", &shown));
  g_assert_cmpstr (shown, ==, info->accel);
  g_assert_false (/* GTK itself shows the keys of the application */
                  g_menu_model_get_item_attribute (G_MENU_MODEL (menu), 1, "accel", "s", &shown));
}

#define ADD(path, test)                                                                            \
  g_test_add ("/ui/actions/" path, Desk, NULL, desk_set_up, test, desk_tear_down)

int
main (int argc, char *argv[])
{
  int result;

  g_test_init (&argc, &argv, NULL);
  application = dry_application_new ();
  g_application_set_flags (G_APPLICATION (application), G_APPLICATION_NON_UNIQUE);
  if (!g_application_register (G_APPLICATION (application), NULL, NULL))
    return 99;
  ADD ("all-are-listed", test_all_are_listed);
  ADD ("listed-are-there", test_listed_are_there);
  ADD ("menus-lead-somewhere", test_menus_lead_somewhere);
  ADD ("menu-place-or-key", test_menu_place_or_key);
  ADD ("row-of-shortcuts", test_row_of_shortcuts);
  ADD ("page-of-help", test_page_of_help);
  ADD ("menus-show-keys", test_menus_show_keys);
  result = g_test_run ();
  g_object_unref (application);
  return result;
}
