/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The client's view on a virtual screen, alone: which cards there are and what they say, with and
 * without prices, what pressing and keys do, what is told of changes made meanwhile. */
#include <string.h>

#include "desk.h"
#include "project/alternate.h"
#include "support/fixtures.h"
#include "ui/client-card.h"
#include "ui/client-picture.h"
#include "ui/client-view.h"

static void
add_system (DryDesk *desk, const char *name, const char *system)
{
  const DryProject *project = dry_session_get_project (desk->session);
  DryId id, room = dry_session_get_room_id (desk->session);
  g_autoptr (DryProject) added = dry_edit_add_alternate (project, name, NULL, &id, NULL);
  g_autoptr (DryProject) same = dry_project_resolve (added, id), changed = NULL;
  DryFinish finish = dry_session_get_room (desk->session)->finish;

  finish.system = (char *) system;
  finish.sheet = NULL;
  finish.board = 0;
  changed = dry_edit_set_finish (same, room, &finish, NULL);
  dry_session_apply (desk->session, dry_edit_set_alternate (added, id, changed, NULL), name, NULL,
                     NULL);
}

static guint
count_cards (GtkWidget *view)
{
  GType type = DRY_TYPE_CLIENT_CARD;

  return dry_test_collect (view, dry_test_is_type, &type, NULL);
}

static gboolean
is_said (GtkWidget *widget, gconstpointer text)
{
  return GTK_IS_LABEL (widget) && gtk_widget_get_mapped (widget) &&
         strstr (gtk_label_get_text (GTK_LABEL (widget)), text) != NULL;
}

static gboolean
is_card_of (GtkWidget *widget, gconstpointer name)
{
  return DRY_IS_CLIENT_CARD (widget) && dry_test_find (widget, is_said, name) != NULL;
}

static gboolean
is_button (GtkWidget *widget, gconstpointer label)
{
  return GTK_IS_BUTTON (widget) &&
         g_strcmp0 (gtk_button_get_label (GTK_BUTTON (widget)), label) == 0;
}

static GtkWidget *
show_view (DryDesk *desk)
{
  GtkWidget *view = dry_client_view_new (desk->session, NULL);

  dry_desk_show (desk, view);
  dry_client_view_begin (DRY_CLIENT_VIEW (view));
  DRY_TEST_WAIT_FOR (count_cards (view) > 0);
  dry_test_settle ();
  return view;
}

static void
press (GtkWidget *view, const char *label)
{
  GtkWidget *button = dry_test_find (view, is_button, label);

  g_assert_nonnull (button);
  gtk_toggle_button_set_active (GTK_TOGGLE_BUTTON (button),
                                !gtk_toggle_button_get_active (GTK_TOGGLE_BUTTON (button)));
  dry_test_settle ();
}

static gboolean
press_key (GtkWidget *view, guint key)
{
  gboolean handled = FALSE;

  g_signal_emit_by_name (dry_test_controller (view, GTK_TYPE_EVENT_CONTROLLER_KEY), "key-pressed",
                         key, 0, 0, &handled);
  dry_test_settle ();
  return handled;
}

static void
test_cards (DryDesk *desk, gconstpointer data)
{
  GtkWidget *view, *card;

  add_system (desk, "With coats", "cement-liquid");
  view = show_view (desk);
  g_assert_cmpuint (count_cards (view), ==, 2);
  card = dry_test_find (view, is_card_of, "With coats");
  g_assert_nonnull (card);
  g_assert_nonnull (dry_test_find (card, is_said, "First shower"));
  g_assert_nonnull (dry_test_find (card, is_said, "instead of"));
  g_assert_true (gtk_toggle_button_get_active (
      GTK_TOGGLE_BUTTON (dry_test_find (view, is_card_of, "As planned"))));
  gtk_toggle_button_set_active (GTK_TOGGLE_BUTTON (card), TRUE);
  dry_test_settle ();
  g_assert_false (gtk_toggle_button_get_active (
      GTK_TOGGLE_BUTTON (dry_test_find (view, is_card_of, "As planned"))));
  /* Pressed again it stays: one picture is always shown. */
  gtk_toggle_button_set_active (GTK_TOGGLE_BUTTON (card), FALSE);
  dry_test_settle ();
  g_assert_true (gtk_toggle_button_get_active (GTK_TOGGLE_BUTTON (card)));
}

/* Without prices no sum is left anywhere, not in the differences either. */
static void
test_prices (DryDesk *desk, gconstpointer data)
{
  GtkWidget *view;

  add_system (desk, "With coats", "cement-liquid");
  view = show_view (desk);
  g_assert_null (dry_test_find (view, is_said, "USD"));
  press (view, "_Prices");
  g_assert_nonnull (dry_test_find (view, is_said, "USD"));
  g_assert_true (press_key (view, GDK_KEY_p));
  g_assert_null (dry_test_find (view, is_said, "USD"));
}

static gboolean
is_workshop (GtkWidget *widget, gconstpointer unused)
{
  static const char *const words[] = {"sheet", "screw", "seam",    " cut",
                                      "block", "stud",  "finding", "h of work"};
  const char *text = GTK_IS_LABEL (widget) && gtk_widget_get_mapped (widget)
                         ? gtk_label_get_text (GTK_LABEL (widget))
                         : "";

  for (guint i = 0; i < G_N_ELEMENTS (words); i++)
    if (strstr (text, words[i]))
      return TRUE;
  return FALSE;
}

static void
test_nothing_of_the_workshop (DryDesk *desk, gconstpointer data)
{
  GtkWidget *view;

  add_system (desk, "Coats", "cement-liquid");
  add_system (desk, "Mortar", "mortar-bed");
  view = show_view (desk);
  g_assert_null (dry_test_find (view, is_workshop, NULL));
}

/* Never more than four, and which four is the person's choice. */
static void
test_up_to_four (DryDesk *desk, gconstpointer data)
{
  static const char *const systems[] = {"cement-liquid", "cement-sheet", "foam-sealant",
                                        "mortar-bed", "fibre-cement"};
  GtkWidget *view, *check = NULL;
  GType type = GTK_TYPE_CHECK_BUTTON;

  for (guint i = 0; i < G_N_ELEMENTS (systems); i++)
    add_system (desk, systems[i], systems[i]);
  view = show_view (desk);
  g_assert_cmpuint (count_cards (view), ==, 4);
  g_assert_null (dry_test_find (view, is_card_of, "fibre-cement"));
  g_assert_cmpuint (dry_test_collect (view, dry_test_is_type, &type, &check), ==, 6);
  gtk_check_button_set_active (GTK_CHECK_BUTTON (check), FALSE); /* as planned */
  DRY_TEST_WAIT_FOR (count_cards (view) == 3);
  for (; check; check = gtk_widget_get_next_sibling (check))
    if (g_strcmp0 (gtk_check_button_get_label (GTK_CHECK_BUTTON (check)), "fibre-cement") == 0)
      break;
  g_assert_true (gtk_widget_get_sensitive (check));
  gtk_check_button_set_active (GTK_CHECK_BUTTON (check), TRUE);
  DRY_TEST_WAIT_FOR (count_cards (view) == 4);
  g_assert_nonnull (dry_test_find (view, is_card_of, "fibre-cement"));
}

/* Another tile on the way that is shown: told as a difference, in the project, and undone. */
static void
test_tile (DryDesk *desk, gconstpointer data)
{
  GtkWidget *view, *tile = NULL;
  const char *before;

  add_system (desk, "With coats", "cement-liquid");
  view = show_view (desk);
  g_assert_null (dry_test_find (view, is_said, "Changed since"));
  gtk_toggle_button_set_active (GTK_TOGGLE_BUTTON (dry_test_find (view, is_card_of, "With coats")),
                                TRUE);
  before = dry_session_get_room (desk->session)->finish.tile;
  for (guint i = 0; i < dry_catalog_get_n_items (dry_test_catalog ()) && !tile; i++) {
    const DryItem *item = dry_catalog_get_item_at (dry_test_catalog (), i);
    if (item->kind == DRY_ITEM_TILE && g_strcmp0 (item->id, before) != 0)
      tile = dry_test_find (view, is_button, item->name);
  }
  g_assert_nonnull (tile);
  g_signal_emit_by_name (tile, "clicked");
  DRY_TEST_WAIT_FOR (dry_test_find (view, is_said, "Changed since") != NULL);
  /* The alternate was changed, not the plan. */
  g_assert_cmpstr (dry_session_get_room (desk->session)->finish.tile, ==, before);
  dry_session_undo (desk->session);
  DRY_TEST_WAIT_FOR (dry_test_find (view, is_said, "Changed since") == NULL);
}

/* Arrows walk the cards; letters that are acts on the board go nowhere; Escape asks to leave. */
static void
test_keys (DryDesk *desk, gconstpointer data)
{
  GtkWidget *view, *first;

  add_system (desk, "With coats", "cement-liquid");
  view = show_view (desk);
  first = dry_test_find (view, is_card_of, "As planned");
  g_assert_true (press_key (view, GDK_KEY_Down));
  g_assert_true (gtk_widget_has_focus (first));
  g_assert_true (press_key (view, GDK_KEY_Down));
  g_assert_true (gtk_widget_has_focus (dry_test_find (view, is_card_of, "With coats")));
  g_assert_true (press_key (view, GDK_KEY_Up));
  g_assert_true (gtk_widget_has_focus (first));
  g_assert_true (press_key (view, GDK_KEY_m));
  g_assert_true (press_key (view, GDK_KEY_Delete));
  g_assert_true (press_key (view, GDK_KEY_1));
  g_assert_false (press_key (view, GDK_KEY_Tab));
  g_assert_true (press_key (view, GDK_KEY_Escape));
}

/* Fingers: no button is lower than 48. */
static gboolean
is_small (GtkWidget *widget, gconstpointer unused)
{
  return GTK_IS_BUTTON (widget) && gtk_widget_get_mapped (widget) &&
         gtk_widget_get_height (widget) < 48;
}

static void
test_touch (DryDesk *desk, gconstpointer data)
{
  GtkWidget *view;

  add_system (desk, "With coats", "cement-liquid");
  view = show_view (desk);
  g_assert_null (dry_test_find (view, is_small, NULL));
}

/* A room without tub or pan has nothing to show, and says so. */
static void
test_empty (DryDesk *desk, gconstpointer data)
{
  const DryRoom *room = dry_session_get_room (desk->session);
  GtkWidget *view;

  dry_session_apply (
      desk->session,
      dry_edit_remove (dry_session_get_project (desk->session), room->id, room->basin.id, NULL),
      "remove", NULL, NULL);
  view = show_view (desk);
  g_assert_nonnull (dry_test_find (view, is_said, "Nothing to Show Yet"));
}

int
main (int argc, char *argv[])
{
  if (!dry_desk_begin (&argc, &argv))
    return 99;
  DRY_DESK_ADD ("/ui/client/cards", test_cards);
  DRY_DESK_ADD ("/ui/client/prices", test_prices);
  DRY_DESK_ADD ("/ui/client/nothing-of-the-workshop", test_nothing_of_the_workshop);
  DRY_DESK_ADD ("/ui/client/up-to-four", test_up_to_four);
  DRY_DESK_ADD ("/ui/client/tile", test_tile);
  DRY_DESK_ADD ("/ui/client/keys", test_keys);
  DRY_DESK_ADD ("/ui/client/touch", test_touch);
  DRY_DESK_ADD ("/ui/client/empty", test_empty);
  return dry_desk_run ();
}
