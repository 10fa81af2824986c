/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A popover whose entry scrolls out of sight, by hand or by itself within a frame: it closes, and
 * GDK is not asked for a monitor where there is none (warnings end this program). */
#include "desk.h"
#include "ui/actions.h"
#include "ui/canvas-private.h"
#include "ui/inspector.h"
#include "ui/popover-place.h"

typedef struct {
  GtkWidget *hook, *popover;
  GtkAdjustment *scroll;
} Place;

/* A tall page with the hook some way down, and its popover open. */
static Place
open_popover (DryDesk *desk)
{
  GtkWidget *scrolled = gtk_scrolled_window_new (),
            *page = gtk_box_new (GTK_ORIENTATION_VERTICAL, 0);
  Place place = {gtk_button_new_with_label ("Hook"), gtk_popover_new (), NULL};

  gtk_widget_set_size_request (place.hook, 200, 40);
  gtk_widget_set_margin_top (place.hook, 300);
  gtk_widget_set_margin_bottom (place.hook, 4000);
  gtk_box_append (GTK_BOX (page), place.hook);
  gtk_scrolled_window_set_child (GTK_SCROLLED_WINDOW (scrolled), page);
  place.scroll = gtk_scrolled_window_get_vadjustment (GTK_SCROLLED_WINDOW (scrolled));
  gtk_popover_set_child (GTK_POPOVER (place.popover), gtk_label_new ("In it"));
  gtk_widget_set_parent (place.popover, place.hook);
  dry_desk_show (desk, scrolled);
  gtk_popover_popup (GTK_POPOVER (place.popover));
  DRY_TEST_WAIT_FOR (gtk_widget_get_mapped (place.popover));
  dry_test_settle ();
  return place;
}

static void
test_popover_scrolled_by_hand (DryDesk *desk, gconstpointer data)
{
  Place place = open_popover (desk);

  gtk_adjustment_set_value (place.scroll, 50);
  dry_test_settle ();
  g_assert_true (gtk_widget_get_mapped (place.popover)); /* still in sight */
  gtk_adjustment_set_value (place.scroll, 3000);
  DRY_TEST_WAIT_FOR (!gtk_widget_get_visible (place.popover));
  gtk_widget_unparent (place.popover);
}

static gboolean
on_tick (GtkWidget *widget, GdkFrameClock *clock, gpointer data)
{
  const Place *place = data;

  gtk_adjustment_set_value (place->scroll, 3000);
  return G_SOURCE_REMOVE;
}

static void
test_popover_scrolled_in_a_frame (DryDesk *desk, gconstpointer data)
{
  Place place = open_popover (desk);

  gtk_widget_add_tick_callback (place.hook, on_tick, &place, NULL);
  DRY_TEST_WAIT_FOR (!gtk_widget_get_visible (place.popover));
  dry_test_settle ();
  g_assert_cmpfloat (gtk_adjustment_get_value (place.scroll), ==, 3000);
  gtk_adjustment_set_value (place.scroll, 0);
  dry_test_settle ();
  gtk_popover_popup (GTK_POPOVER (place.popover)); /* it opens again where it can be seen */
  DRY_TEST_WAIT_FOR (gtk_widget_get_mapped (place.popover));
  gtk_widget_unparent (place.popover);
}

/* The hook fills the screen and more: below it and above it there is no room, and GDK 4.8 makes the
 * surface one pixel high, of which GTK warns (warnings end this program). */
static void
test_popover_without_room (DryDesk *desk, gconstpointer data)
{
  Place place = open_popover (desk);

  gtk_popover_popdown (GTK_POPOVER (place.popover));
  gtk_widget_set_margin_top (place.hook, 0);
  gtk_widget_set_size_request (place.hook, 200, 6000);
  dry_test_settle (); /* as tall as that before it can be scrolled */
  gtk_adjustment_set_value (place.scroll, 2000);
  dry_test_settle ();
  gtk_popover_popup (GTK_POPOVER (place.popover));
  DRY_TEST_WAIT_FOR (!gtk_widget_get_visible (place.popover));
  dry_test_settle ();
  gtk_widget_set_size_request (place.hook, 200, 40);
  gtk_widget_set_margin_top (place.hook, 300);
  gtk_adjustment_set_value (place.scroll, 200);
  dry_test_settle ();
  gtk_popover_popup (GTK_POPOVER (place.popover));
  DRY_TEST_WAIT_FOR (gtk_widget_get_mapped (place.popover));
  dry_test_settle ();
  g_assert_true (gtk_widget_get_mapped (place.popover));
  gtk_widget_unparent (place.popover);
}

/* A panel that slides away with the keyboard in it: the keys for menus do nothing there, GDK 4.8
 * has no monitor for a menu beside the screen. */
static void
test_popover_no_menu_sliding (DryDesk *desk, gconstpointer data)
{
  GtkWidget *revealer = gtk_revealer_new (), *entry = gtk_entry_new ();
  GtkEventController *keys;
  gboolean taken = FALSE;

  gtk_revealer_set_child (GTK_REVEALER (revealer), entry);
  gtk_revealer_set_transition_type (GTK_REVEALER (revealer),
                                    GTK_REVEALER_TRANSITION_TYPE_SLIDE_RIGHT);
  gtk_revealer_set_reveal_child (GTK_REVEALER (revealer), TRUE);
  dry_desk_show (desk, revealer);
  gtk_widget_grab_focus (entry);
  keys = g_object_get_data (G_OBJECT (desk->window), "drybay-keys-bring-to-sight");
  g_assert_nonnull (keys);
  g_signal_emit_by_name (keys, "key-pressed", GDK_KEY_Menu, 0, 0, &taken);
  g_assert_false (taken);
  gtk_revealer_set_reveal_child (GTK_REVEALER (revealer), FALSE);
  g_signal_emit_by_name (keys, "key-pressed", GDK_KEY_Menu, 0, 0, &taken);
  g_assert_true (taken);
  g_signal_emit_by_name (keys, "key-pressed", GDK_KEY_a, 0, 0, &taken);
  g_assert_false (taken);
}

/* --- a panel waits --- */

static guint n_filled;

static void
fill (GtkWidget *panel)
{
  if (!dry_popover_place_wait (panel, fill))
    n_filled++;
}

static void
test_popover_panel_waits (DryDesk *desk, gconstpointer data)
{
  Place place = open_popover (desk);
  GtkWidget *page = gtk_widget_get_parent (place.hook);

  n_filled = 0;
  fill (page);
  fill (page);
  dry_test_settle ();
  g_assert_cmpuint (n_filled, ==, 0);
  gtk_popover_popdown (GTK_POPOVER (place.popover));
  DRY_TEST_WAIT_FOR (n_filled > 0);
  dry_test_settle ();
  g_assert_cmpuint (n_filled, ==, 1); /* once, however often it was asked for */
  fill (page);
  g_assert_cmpuint (n_filled, ==, 2);
  gtk_widget_unparent (place.popover);
}

/* The inspector does not move under an open list, and follows when that has closed. */
static void
test_popover_inspector_waits (DryDesk *desk, gconstpointer data)
{
  GtkWidget *inspector = dry_inspector_new (desk->session), *row, *popover = gtk_popover_new ();
  DryId niche = dry_desk_find_part (desk->session, DRY_PART_NICHE)->id;
  g_autofree char *name = dry_object_name (desk->session, niche);

  dry_desk_show (desk, inspector);
  dry_inspector_catch_up (inspector);
  row = dry_test_find (inspector, dry_desk_is_any_row, NULL);
  gtk_popover_set_child (GTK_POPOVER (popover), gtk_label_new ("In it"));
  gtk_widget_set_parent (popover, row);
  gtk_popover_popup (GTK_POPOVER (popover));
  DRY_TEST_WAIT_FOR (gtk_widget_get_mapped (popover));
  dry_session_select (desk->session, niche);
  dry_test_settle ();
  dry_test_settle ();
  g_assert_null (dry_test_find (inspector, dry_desk_is_label, name));
  g_assert_true (gtk_widget_get_mapped (popover));
  gtk_popover_popdown (GTK_POPOVER (popover));
  gtk_widget_unparent (popover);
  DRY_TEST_WAIT_FOR (dry_test_find (inspector, dry_desk_is_label, name) != NULL);
}

/* No menu of the board while a panel slides in beside it; one that is open when the panel goes, and
 * the board grows, closes. */
static void
test_popover_board_pushed (DryDesk *desk, gconstpointer data)
{
  GtkWidget *canvas = dry_canvas_new (desk->session), *panel = gtk_label_new ("Panel");
  GtkWidget *revealer = gtk_revealer_new (), *row = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 0);

  DRY_TEST_WAIT_FOR (dry_session_get_plan (desk->session) != NULL);
  gtk_widget_set_size_request (panel, 150, -1);
  gtk_revealer_set_transition_type (GTK_REVEALER (revealer),
                                    GTK_REVEALER_TRANSITION_TYPE_SLIDE_RIGHT);
  gtk_revealer_set_child (GTK_REVEALER (revealer), panel);
  gtk_box_append (GTK_BOX (row), revealer);
  gtk_box_append (GTK_BOX (row), canvas);
  dry_desk_show (desk, row);
  gtk_revealer_set_reveal_child (GTK_REVEALER (revealer), TRUE);
  dry_canvas_popup_menu (DRY_CANVAS (canvas), gtk_widget_get_width (canvas) - 2, 100);
  g_assert_false (dry_canvas_has_menu_open (DRY_CANVAS (canvas)));
  DRY_TEST_WAIT_FOR (gtk_revealer_get_child_revealed (GTK_REVEALER (revealer)));
  dry_canvas_popup_menu (DRY_CANVAS (canvas), gtk_widget_get_width (canvas) - 2, 100);
  DRY_TEST_WAIT_FOR (dry_canvas_has_menu_open (DRY_CANVAS (canvas)));
  dry_test_settle ();
  gtk_revealer_set_reveal_child (GTK_REVEALER (revealer), FALSE);
  DRY_TEST_WAIT_FOR (!dry_canvas_has_menu_open (DRY_CANVAS (canvas)));
}

int
main (int argc, char *argv[])
{
  if (!dry_desk_begin (&argc, &argv))
    return 99;
  DRY_DESK_ADD ("/ui/popover-place/scrolled-by-hand", test_popover_scrolled_by_hand);
  DRY_DESK_ADD ("/ui/popover-place/scrolled-in-a-frame", test_popover_scrolled_in_a_frame);
  DRY_DESK_ADD ("/ui/popover-place/without-room", test_popover_without_room);
  DRY_DESK_ADD ("/ui/popover-place/no-menu-sliding", test_popover_no_menu_sliding);
  DRY_DESK_ADD ("/ui/popover-place/panel-waits", test_popover_panel_waits);
  DRY_DESK_ADD ("/ui/popover-place/inspector-waits", test_popover_inspector_waits);
  DRY_DESK_ADD ("/ui/popover-place/board-pushed", test_popover_board_pushed);
  return dry_desk_run ();
}
