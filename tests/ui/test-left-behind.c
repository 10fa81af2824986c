/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What is opened and closed again leaves nothing behind: doing it three times more leaves less than
 * three objects more of each type. The first may set up what is kept for good, and one may
 * just be moving. */
#include "desk.h"
#include "objects.h"
#include "support/fixtures.h"
#include "ui/canvas-private.h"
#include "ui/later.h"
#include "ui/ledger.h"
#include "ui/window.h"

#define TIMES 3

typedef void (*Act) (DryDesk *desk, gpointer data);

static void
assert_leaves_nothing (DryDesk *desk, Act act, gpointer data)
{
  g_autoptr (GHashTable) before = NULL;
  g_autofree char *grown = NULL;

  act (desk, data);
  act (desk, data);
  before = dry_objects_snapshot ();
  for (int i = 0; i < TIMES; i++)
    act (desk, data);
  grown = dry_objects_grown (before, TIMES);
  g_assert_cmpstr (grown, ==, NULL);
}

/* --- the ledger --- */

static gboolean
is_total (GtkWidget *widget, gconstpointer unused)
{
  return GTK_IS_BUTTON (widget) && gtk_widget_has_css_class (widget, "ledger-total");
}

static void
open_and_close_ledger (DryDesk *desk, gpointer button)
{
  for (int i = 0; i < 2; i++) {
    g_signal_emit_by_name (button, "clicked");
    dry_test_settle ();
    dry_test_settle ();
    dry_test_settle ();
  }
}

static void
test_left_behind_ledger (DryDesk *desk, gconstpointer data)
{
  GtkWidget *ledger = dry_ledger_new (desk->session), *button;

  DRY_TEST_WAIT_FOR (dry_session_get_plan (desk->session) != NULL);
  dry_desk_show (desk, ledger);
  button = dry_test_find (ledger, is_total, NULL);
  g_assert_nonnull (button);
  assert_leaves_nothing (desk, open_and_close_ledger, button);
}

/* --- the board's menu --- */

static void
open_and_close_menu (DryDesk *desk, gpointer data)
{
  DryCanvas *canvas = data;

  dry_canvas_popup_menu (canvas, 300, 300);
  DRY_TEST_WAIT_FOR (gtk_widget_get_mapped (canvas->menu));
  gtk_widget_child_focus (canvas->menu, GTK_DIR_TAB_FORWARD);
  dry_test_settle ();
  g_assert_true (gtk_widget_is_ancestor (
      gtk_root_get_focus (gtk_widget_get_root (GTK_WIDGET (canvas))), canvas->menu));
  gtk_popover_popdown (GTK_POPOVER (canvas->menu));
  DRY_TEST_WAIT_FOR (!dry_canvas_has_menu_open (canvas));
  dry_test_settle ();
}

static void
test_left_behind_board_menu (DryDesk *desk, gconstpointer data)
{
  GtkWidget *canvas = dry_canvas_new (desk->session);
  int menus;

  DRY_TEST_WAIT_FOR (dry_session_get_plan (desk->session) != NULL);
  dry_desk_show (desk, canvas);
  assert_leaves_nothing (desk, open_and_close_menu, canvas);
  menus = dry_objects_count ("GMenu");
  open_and_close_menu (desk, canvas);
  g_assert_cmpint (dry_objects_count ("GMenu"), ==, menus);
}

/* --- the menu of a button --- */

static GMenuModel *
make_nested_menu (void)
{
  g_autoptr (GMenu) section = g_menu_new (), submenu = g_menu_new (), inner = g_menu_new ();
  GMenu *menu = g_menu_new ();

  g_menu_append (inner, "Inside", "win.undo");
  g_menu_append_section (submenu, NULL, G_MENU_MODEL (inner));
  g_menu_append_submenu (section, "More", G_MENU_MODEL (submenu));
  g_menu_append_section (menu, NULL, G_MENU_MODEL (section));
  return G_MENU_MODEL (menu);
}

/* The menu is given anew while its popover is there, and another is opened after. */
static void
open_new_menu (DryDesk *desk, gpointer button)
{
  for (int i = 0; i < 2; i++) {
    g_autoptr (GMenuModel) menu = make_nested_menu ();

    dry_later_menu (button, menu);
    gtk_menu_button_popup (button);
    dry_test_settle ();
    g_assert_true (gtk_widget_get_mapped (GTK_WIDGET (gtk_menu_button_get_popover (button))));
    gtk_menu_button_popdown (button);
    dry_test_settle ();
  }
}

static void
test_left_behind_button_menu (DryDesk *desk, gconstpointer data)
{
  GtkWidget *button = gtk_menu_button_new ();
  int menus = dry_objects_count ("GMenu");

  dry_desk_show (desk, button);
  assert_leaves_nothing (desk, open_new_menu, button);
  g_assert_cmpint (dry_objects_count ("GMenu"), ==, menus + 4);
  dry_desk_show (desk, gtk_label_new ("Nothing"));
  dry_test_settle ();
  g_assert_cmpint (dry_objects_count ("GMenu"), ==, menus);
}

/* --- the board's menu, once more --- */

/* One that is still open elsewhere moves; none that was closed takes it away. */
static void
test_left_behind_second_menu (DryDesk *desk, gconstpointer data)
{
  GtkWidget *canvas = dry_canvas_new (desk->session);

  DRY_TEST_WAIT_FOR (dry_session_get_plan (desk->session) != NULL);
  dry_desk_show (desk, canvas);
  for (int i = 0; i < 3; i++) {
    dry_canvas_popup_menu (DRY_CANVAS (canvas), 300 - 50 * i, 300);
    if (i == 1)
      gtk_popover_popdown (GTK_POPOVER (DRY_CANVAS (canvas)->menu));
    else
      DRY_TEST_WAIT_FOR (gtk_widget_get_mapped (DRY_CANVAS (canvas)->menu));
  }
  dry_test_settle ();
  g_assert_true (dry_canvas_has_menu_open (DRY_CANVAS (canvas)));
  g_assert_true (gtk_widget_get_mapped (DRY_CANVAS (canvas)->menu));
}

/* --- a popover with the focus in it, hidden and taken away before the next frame --- */

static void
hide_and_take_away (DryDesk *desk, gpointer place)
{
  GtkWidget *popover = gtk_popover_new ();

  gtk_popover_set_child (GTK_POPOVER (popover), gtk_button_new_with_label ("In it"));
  gtk_widget_set_parent (popover, place);
  gtk_popover_popup (GTK_POPOVER (popover));
  DRY_TEST_WAIT_FOR (gtk_widget_get_mapped (popover));
  gtk_widget_child_focus (popover, GTK_DIR_TAB_FORWARD);
  g_assert_true (gtk_widget_is_ancestor (gtk_root_get_focus (GTK_ROOT (desk->window)), popover));
  gtk_popover_popdown (GTK_POPOVER (popover));
  gtk_widget_unparent (popover);
  dry_test_settle ();
  dry_test_settle ();
}

static void
test_left_behind_popover (DryDesk *desk, gconstpointer data)
{
  GtkWidget *place = gtk_button_new_with_label ("Place");

  dry_desk_show (desk, place);
  assert_leaves_nothing (desk, hide_and_take_away, place);
}

/* --- a panel with the focus in it, hidden, emptied and taken away before the next frame --- */

static void
hide_and_empty (DryDesk *desk, gpointer place)
{
  GtkWidget *panel = gtk_box_new (GTK_ORIENTATION_VERTICAL, 0);
  GtkWidget *row = gtk_button_new_with_label ("In it");

  gtk_box_append (GTK_BOX (panel), row);
  gtk_box_append (place, panel);
  DRY_TEST_WAIT_FOR (gtk_widget_get_mapped (row));
  g_assert_true (gtk_widget_grab_focus (row));
  gtk_widget_set_child_visible (panel, FALSE);
  gtk_box_remove (GTK_BOX (panel), row);
  gtk_box_remove (place, panel);
  dry_test_settle ();
  dry_test_settle ();
}

static void
test_left_behind_panel (DryDesk *desk, gconstpointer data)
{
  GtkWidget *place = gtk_box_new (GTK_ORIENTATION_VERTICAL, 0);

  dry_desk_show (desk, place);
  assert_leaves_nothing (desk, hide_and_empty, place);
}

/* --- what listens to the settings --- */

static gulong
find_listener (gpointer scrolled)
{
  return g_signal_handler_find (
      gtk_settings_get_default (), G_SIGNAL_MATCH_ID | G_SIGNAL_MATCH_DETAIL | G_SIGNAL_MATCH_DATA,
      g_signal_lookup ("notify", GTK_TYPE_SETTINGS),
      g_quark_from_static_string ("gtk-overlay-scrolling"), NULL, NULL, scrolled);
}

/* Told of a change, what is freed would end the program. */
static void
test_left_behind_settings (DryDesk *desk, gconstpointer data)
{
  GtkWidget *scrolled = gtk_scrolled_window_new ();
  gpointer place = scrolled;
  gboolean overlay;

  dry_desk_show (desk, scrolled);
  g_assert_cmpuint (find_listener (place), !=, 0);
  g_object_add_weak_pointer (G_OBJECT (scrolled), (gpointer *) &scrolled);
  dry_desk_show (desk, gtk_label_new ("Nothing"));
  DRY_TEST_WAIT_FOR (scrolled == NULL);
  g_assert_cmpuint (find_listener (place), ==, 0);

  g_object_get (gtk_settings_get_default (), "gtk-overlay-scrolling", &overlay, NULL);
  g_object_set (gtk_settings_get_default (), "gtk-overlay-scrolling", !overlay, NULL);
  g_object_set (gtk_settings_get_default (), "gtk-overlay-scrolling", overlay, NULL);
}

/* --- what is dragged --- */

static void
drag_and_let_go (DryDesk *desk, gpointer data)
{
  GdkSurface *surface = gtk_native_get_surface (GTK_NATIVE (desk->window));
  GdkSeat *seat = gdk_display_get_default_seat (gdk_surface_get_display (surface));
  g_autoptr (GdkContentProvider) text = gdk_content_provider_new_typed (G_TYPE_STRING, "a part");
  g_autoptr (GdkDrag) drag =
      gdk_drag_begin (surface, gdk_seat_get_pointer (seat), text, GDK_ACTION_COPY, 5, 5);
  GtkDragIcon *icon;

  g_assert_nonnull (drag);
  icon = GTK_DRAG_ICON (gtk_drag_icon_get_for_drag (drag));
  gtk_drag_icon_set_child (icon, gtk_label_new ("A part"));
  DRY_TEST_WAIT_FOR (gtk_widget_get_mapped (GTK_WIDGET (icon)));
  dry_test_settle ();
  g_object_add_weak_pointer (G_OBJECT (drag), &data);
  data = drag;
  gdk_drag_drop_done (drag, TRUE);
  g_clear_object (&drag);
  DRY_TEST_WAIT_FOR (data == NULL);
  dry_test_settle ();
}

static void
test_left_behind_drag (DryDesk *desk, gconstpointer data)
{
  dry_desk_show (desk, gtk_label_new ("Where it comes from"));
  assert_leaves_nothing (desk, drag_and_let_go, NULL);
}

/* --- a window --- */

static void
open_and_close_window (DryDesk *desk, gpointer data)
{
  GtkWidget *window = dry_window_new (dry_desk_get_application ()), *button;
  DrySession *session = dry_window_get_session (DRY_WINDOW (window));

  gtk_window_present (GTK_WINDOW (window));
  g_assert_true (dry_window_open_path (DRY_WINDOW (window), data));
  DRY_TEST_WAIT_FOR (gtk_widget_get_mapped (window) && dry_session_get_plan (session) != NULL);
  button = dry_test_find (window, is_total, NULL);
  open_and_close_ledger (desk, button);
  open_and_close_menu (desk, dry_window_get_canvas (DRY_WINDOW (window)));
  gtk_window_destroy (GTK_WINDOW (window));
  for (int i = 0; i < 8; i++)
    dry_test_settle ();
}

static void
test_left_behind_window (DryDesk *desk, gconstpointer data)
{
  g_autofree char *path =
      g_test_build_filename (G_TEST_DIST, "..", "data", "demo", "alcove-refit.drybay", NULL);

  assert_leaves_nothing (desk, open_and_close_window, path);
}

int
main (int argc, char *argv[])
{
  if (!dry_desk_begin (&argc, &argv))
    return 99;
  DRY_DESK_ADD ("/ui/left-behind/ledger", test_left_behind_ledger);
  DRY_DESK_ADD ("/ui/left-behind/board-menu", test_left_behind_board_menu);
  DRY_DESK_ADD ("/ui/left-behind/button-menu", test_left_behind_button_menu);
  DRY_DESK_ADD ("/ui/left-behind/second-menu", test_left_behind_second_menu);
  DRY_DESK_ADD ("/ui/left-behind/popover", test_left_behind_popover);
  DRY_DESK_ADD ("/ui/left-behind/panel", test_left_behind_panel);
  DRY_DESK_ADD ("/ui/left-behind/settings", test_left_behind_settings);
  DRY_DESK_ADD ("/ui/left-behind/drag", test_left_behind_drag);
  DRY_DESK_ADD ("/ui/left-behind/window", test_left_behind_window);
  return dry_desk_run ();
}
