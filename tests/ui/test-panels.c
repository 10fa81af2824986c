/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The panels on a virtual screen, each alone: what they show of a session, and what typing and
 * clicking in them does to it. Widgets are found by what they say, as a person would. */
#include <adwaita.h>
#include <glib/gstdio.h>
#include <string.h>

#include "support/fixtures.h"
#include "ui/actions.h"
#include "ui/application.h"
#include "ui/canvas.h"
#include "ui/inspector.h"
#include "ui/ledger-list.h"
#include "ui/ledger-pages.h"
#include "ui/ledger.h"
#include "ui/length-row.h"
#include "ui/preferences.h"
#include "ui/scene-view.h"
#include "ui/shelf.h"
#include "ui/shortcuts.h"
#include "ui/start-page.h"
#include "ui/system-compare.h"
#include "widgets.h"

static DryApplication *application;

/* --- what is looked for --- */

static gboolean
is_row (GtkWidget *widget, gconstpointer title)
{
  return ADW_IS_PREFERENCES_ROW (widget) &&
         g_strcmp0 (adw_preferences_row_get_title (ADW_PREFERENCES_ROW (widget)), title) == 0;
}

static gboolean
is_any_row (GtkWidget *widget, gconstpointer unused)
{
  return ADW_IS_PREFERENCES_ROW (widget);
}

static gboolean
is_label (GtkWidget *widget, gconstpointer text)
{
  return GTK_IS_LABEL (widget) && g_strcmp0 (gtk_label_get_text (GTK_LABEL (widget)), text) == 0;
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

/* --- a session and a window to put one panel in --- */

typedef struct {
  DrySession *session;
  GtkWidget *window;
  char *opened; /* what the window's actions were asked for */
} Desk;

static void
on_asked (GSimpleAction *action, GVariant *target, gpointer data)
{
  Desk *desk = data;

  g_free (desk->opened);
  desk->opened = g_strdup_printf ("%s %s", g_action_get_name (G_ACTION (action)),
                                  target != NULL ? g_variant_get_string (target, NULL) : "");
}

static void
desk_set_up (Desk *desk, gconstpointer data)
{
  const GActionEntry entries[] = {
      {.name = "new", .activate = on_asked},
      {.name = "open", .activate = on_asked},
      {.name = "open-path", .activate = on_asked, .parameter_type = "s"},
      {.name = "open-demo", .activate = on_asked, .parameter_type = "s"}};
  g_autoptr (GSimpleActionGroup) actions = g_simple_action_group_new ();

  desk->session = dry_session_new (dry_test_catalog ());
  dry_session_open_project (desk->session, dry_test_furnished_alcove ("foam-bands"), NULL);
  desk->window = adw_application_window_new (GTK_APPLICATION (application));
  gtk_window_set_default_size (GTK_WINDOW (desk->window), 900, 700);
  g_action_map_add_action_entries (G_ACTION_MAP (actions), entries, G_N_ELEMENTS (entries), desk);
  gtk_widget_insert_action_group (desk->window, "win", G_ACTION_GROUP (actions));
}

static void
desk_tear_down (Desk *desk, gconstpointer data)
{
  gtk_window_destroy (GTK_WINDOW (desk->window));
  dry_test_settle ();
  g_assert_finalize_object (desk->session); /* no panel keeps it */
  g_free (desk->opened);
}

static void
desk_show (Desk *desk, GtkWidget *panel)
{
  adw_application_window_set_content (ADW_APPLICATION_WINDOW (desk->window), panel);
  gtk_window_present (GTK_WINDOW (desk->window));
  DRY_TEST_WAIT_FOR (gtk_widget_get_mapped (panel));
  dry_test_settle ();
}

static const DryPart *
find_part (DrySession *session, DryPartKind kind)
{
  const DryRoom *room = dry_session_get_room (session);

  for (guint i = 0; i < room->n_parts; i++)
    if (room->parts[i].kind == kind)
      return &room->parts[i];
  g_assert_not_reached ();
}

/* --- length row --- */

static void
count (GtkWidget *widget, gpointer counter)
{
  (*(guint *) counter)++;
}

static void
type_into (GtkWidget *row, const char *text)
{
  GtkWidget *entry = dry_test_require (row, GTK_TYPE_ENTRY);

  gtk_editable_set_text (GTK_EDITABLE (entry), text);
  g_signal_emit_by_name (entry, "activate");
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
    type_into (row, cases[i].text);
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
  type_into (row, "1270 mm");
  g_assert_cmpuint (entered, ==, 0);
  g_object_unref (row);
}

/* --- inspector --- */

static gboolean
is_section (GtkWidget *widget, gconstpointer title)
{
  return ADW_IS_EXPANDER_ROW (widget) && is_row (widget, title);
}

static void
unfold (GtkWidget *root, const char *title)
{
  GtkWidget *section = dry_test_find (root, is_section, title);

  g_assert_nonnull (section);
  adw_expander_row_set_expanded (ADW_EXPANDER_ROW (section), TRUE);
}

static void
test_inspector_nothing (Desk *desk, gconstpointer data)
{
  GtkWidget *inspector = dry_inspector_new (desk->session);
  const DryCatalog *catalog = dry_session_get_catalog (desk->session);

  desk_show (desk, inspector);
  for (guint i = 0; i < dry_catalog_get_n_systems (catalog); i++) {
    const char *name = dry_catalog_get_system_at (catalog, i)->name;

    if (dry_test_find (inspector, is_label, name) == NULL &&
        dry_test_find (inspector, is_row, name) == NULL)
      g_error ("The system \"%s\" cannot be chosen", name);
  }
  g_assert_null (dry_test_find (inspector, is_row, "Ceiling")); /* folded, and not even built */
  unfold (inspector, "Room");
  g_assert_nonnull (dry_test_find (inspector, is_row, "Ceiling"));
}

/* Every other system says what would change, and choosing it changes just that. */
static gboolean
says_change (GtkWidget *widget, gconstpointer unused)
{
  const char *text = ADW_IS_ACTION_ROW (widget) && gtk_widget_get_mapped (widget)
                         ? adw_action_row_get_subtitle (ADW_ACTION_ROW (widget))
                         : NULL;

  return text != NULL && strchr (text, '\n') != NULL;
}

static void
test_inspector_compares (Desk *desk, gconstpointer data)
{
  GtkWidget *inspector = dry_inspector_new (desk->session);
  guint n = dry_catalog_get_n_systems (dry_session_get_catalog (desk->session));

  desk_show (desk, inspector);
  DRY_TEST_WAIT_FOR (dry_test_collect (inspector, says_change, NULL, NULL) == n - 1);
}

static void
compared_cb (GObject *source, GAsyncResult *result, gpointer data)
{
  *(GArray **) data = dry_system_compare_finish (result, NULL);
}

static void
test_compare_keeps_its_word (Desk *desk, gconstpointer data)
{
  const DryCatalog *catalog = dry_session_get_catalog (desk->session);
  g_autoptr (GArray) changes = NULL;
  g_autoptr (DryPlan) present = NULL;

  DRY_TEST_WAIT_FOR (dry_session_get_plan (desk->session) != NULL);
  present = dry_plan_ref (dry_session_get_plan (desk->session));
  dry_system_compare_async (present, catalog, NULL, compared_cb, &changes);
  DRY_TEST_WAIT_FOR (changes != NULL);
  g_assert_cmpuint (changes->len, ==, dry_catalog_get_n_systems (catalog));
  for (guint i = 0; i < changes->len; i++) {
    const DrySystemChange *change = &g_array_index (changes, DrySystemChange, i);
    DryId room = present->context.room->id;
    g_autoptr (DryProject) swapped =
        dry_system_swap (present->project, room, dry_catalog_get_system_at (catalog, i)->id, NULL);
    g_autoptr (DryPlan) plan = dry_plan_new (swapped, room, catalog, NULL, NULL);

    g_assert_true (change->known);
    g_assert_cmpint (change->cost, ==, plan->takeoff->cost - present->takeoff->cost);
    g_assert_cmpint (change->findings, ==, (gint) plan->findings->n - (gint) present->findings->n);
  }
}

static void
test_inspector_tile (Desk *desk, gconstpointer data)
{
  GtkWidget *inspector = dry_inspector_new (desk->session), *row;

  desk_show (desk, inspector);
  unfold (inspector, "Tile");
  row = dry_test_find (inspector, is_row, "Tile from the catalog");
  g_assert_true (ADW_IS_COMBO_ROW (row));
  adw_combo_row_set_selected (ADW_COMBO_ROW (row), 1);
  g_assert_nonnull (dry_session_get_room (desk->session)->finish.tile);
  dry_inspector_catch_up (inspector);
  adw_combo_row_set_selected (
      ADW_COMBO_ROW (dry_test_find (inspector, is_row, "Tile from the catalog")), 2);
  dry_session_undo (desk->session);
  dry_inspector_catch_up (inspector);
  row = dry_test_find (inspector, is_row, "Tile from the catalog");
  g_assert_cmpuint (adw_combo_row_get_selected (ADW_COMBO_ROW (row)), ==, 1);
}

static void
test_inspector_part (Desk *desk, gconstpointer data)
{
  GtkWidget *inspector = dry_inspector_new (desk->session);
  DryId niche = find_part (desk->session, DRY_PART_NICHE)->id;
  g_autofree char *name = NULL;
  GtkWidget *row;
  DryLength before;

  desk_show (desk, inspector);
  dry_session_select (desk->session, niche);
  name = dry_object_name (desk->session, niche);
  dry_inspector_catch_up (inspector);
  g_assert_nonnull (dry_test_find (inspector, is_label, name));
  before = find_part (desk->session, DRY_PART_NICHE)->width;
  row = dry_test_find (inspector, is_row, "Width");
  g_assert_true (DRY_IS_LENGTH_ROW (row));
  g_assert_cmpint (dry_length_row_get_value (DRY_LENGTH_ROW (row)), ==, before);

  type_into (row, "13 1/2\"");
  g_assert_cmpint (find_part (desk->session, DRY_PART_NICHE)->width, ==, 27 * DRY_INCH / 2);
  g_assert_nonnull (dry_history_get_undo_name (dry_session_get_history (desk->session)));
  dry_session_undo (desk->session);
  g_assert_cmpint (find_part (desk->session, DRY_PART_NICHE)->width, ==, before);
  dry_inspector_catch_up (inspector);
  row = dry_test_find (inspector, is_row, "Width");
  g_assert_cmpint (dry_length_row_get_value (DRY_LENGTH_ROW (row)), ==, before);
}

/* Rows come and go with the selection; nothing may be left over from the thing before. */
static void
test_inspector_every_object (Desk *desk, gconstpointer data)
{
  GtkWidget *inspector = dry_inspector_new (desk->session);
  const DryRoom *room = dry_session_get_room (desk->session);
  g_autoptr (GArray) ids = g_array_new (FALSE, FALSE, sizeof (DryId));

  desk_show (desk, inspector);
  for (guint i = 0; i < room->n_parts; i++)
    g_array_append_val (ids, room->parts[i].id);
  for (guint i = 0; i < room->n_walls; i++)
    g_array_append_val (ids, room->walls[i].id);
  g_array_append_val (ids, room->basin.id);
  for (guint i = 0; i < ids->len; i++) {
    DryId id = g_array_index (ids, DryId, i);
    g_autofree char *name = dry_object_name (desk->session, id);

    dry_session_select (desk->session, id);
    dry_inspector_catch_up (inspector);
    g_assert_nonnull (dry_test_find (inspector, is_label, name));
    g_assert_cmpuint (dry_test_collect (inspector, is_any_row, NULL, NULL), >, 1);
    g_assert_null (dry_test_find (inspector, is_row, "Ceiling"));
    dry_act_delete (desk->session, id); /* walls refuse: then they stay shown */
    dry_session_undo (desk->session);
  }
  dry_session_select (desk->session, 0);
  dry_inspector_catch_up (inspector);
  unfold (inspector, "Room");
  g_assert_nonnull (dry_test_find (inspector, is_row, "Ceiling"));
}

/* --- ledger --- */

static gboolean
is_list (GtkWidget *widget, gconstpointer unused)
{
  return DRY_IS_LEDGER_LIST (widget) && gtk_widget_get_mapped (widget);
}

static gboolean
is_unfolded (GtkWidget *widget, gconstpointer unused)
{
  return ADW_IS_EXPANDER_ROW (widget) && adw_expander_row_get_expanded (ADW_EXPANDER_ROW (widget));
}

static gboolean
is_foldable (GtkWidget *widget, gconstpointer unused)
{
  return ADW_IS_EXPANDER_ROW (widget);
}

static gboolean
has_page (GtkWidget *widget, gconstpointer name)
{
  return GTK_IS_STACK (widget) && gtk_stack_get_child_by_name (GTK_STACK (widget), name) != NULL;
}

static void
open_page (GtkWidget *ledger, const char *name)
{
  GtkWidget *pages;

  g_object_set (ledger, "open", TRUE, NULL);
  pages = dry_test_find (ledger, has_page, name);
  g_assert_nonnull (pages);
  gtk_stack_set_visible_child_name (GTK_STACK (pages), name);
  DRY_TEST_WAIT_FOR (dry_test_find (ledger, is_list, NULL) != NULL);
  DRY_TEST_WAIT_FOR (dry_test_find (ledger, is_foldable, NULL) != NULL);
  dry_test_settle ();
}

/* A plan that changes a few rows leaves focus, scrolling and what is unfolded where they were. */
static void
test_ledger_keeps_still (Desk *desk, gconstpointer data)
{
  GtkWidget *ledger = dry_ledger_new (desk->session), *list, *row = NULL, *focus;
  DryId niche = find_part (desk->session, DRY_PART_NICHE)->id;
  const DryPart *part;
  GtkAdjustment *scroll;
  const DryPlan *plan;

  DRY_TEST_WAIT_FOR (dry_session_get_plan (desk->session) != NULL);
  desk_show (desk, ledger);
  open_page (ledger, "takeoff");
  list = dry_test_find (ledger, is_list, NULL);
  dry_test_collect (list, is_foldable, NULL, &row);
  adw_expander_row_set_expanded (ADW_EXPANDER_ROW (row), TRUE);
  gtk_widget_child_focus (row, GTK_DIR_TAB_FORWARD);
  dry_test_settle ();
  dry_test_settle ();
  focus = gtk_root_get_focus (GTK_ROOT (desk->window));
  g_assert_true (gtk_widget_is_ancestor (focus, row));
  scroll = gtk_scrolled_window_get_vadjustment (
      GTK_SCROLLED_WINDOW (dry_test_require (list, GTK_TYPE_SCROLLED_WINDOW)));
  gtk_adjustment_set_value (scroll, 30);

  part = find_part (desk->session, DRY_PART_NICHE);
  plan = dry_session_get_plan (desk->session);
  dry_session_apply (desk->session,
                     dry_edit_move_part (dry_session_get_project (desk->session),
                                         dry_session_get_room_id (desk->session), niche, part->wall,
                                         part->side, part->u + DRY_INCH, part->z, NULL),
                     "Move", NULL, NULL);
  DRY_TEST_WAIT_FOR (dry_session_get_plan (desk->session) != plan);
  dry_test_settle ();
  g_assert_true (gtk_root_get_focus (GTK_ROOT (desk->window)) == focus);
  g_assert_cmpuint (dry_test_collect (list, is_unfolded, NULL, NULL), ==, 1);
  g_assert_cmpfloat (gtk_adjustment_get_value (scroll), ==, 30);
}

static const char *
first_title (GtkWidget *list)
{
  GtkWidget *row = dry_test_find (list, is_foldable, NULL);

  return adw_preferences_row_get_title (ADW_PREFERENCES_ROW (row));
}

static void
test_ledger_sorts (Desk *desk, gconstpointer data)
{
  GtkWidget *ledger = dry_ledger_new (desk->session), *list, *sort;
  const DryTakeoff *takeoff;
  const DryTakeoffLine *dearest;
  g_autofree char *table = NULL, *first = NULL;
  g_auto (GStrv) lines = NULL;

  DRY_TEST_WAIT_FOR (dry_session_get_plan (desk->session) != NULL);
  desk_show (desk, ledger);
  open_page (ledger, "takeoff");
  list = dry_test_find (ledger, is_list, NULL);
  sort = dry_test_require (ledger, GTK_TYPE_DROP_DOWN);
  g_assert_nonnull (dry_test_find (list, is_label, "Sheets")); /* a heading */
  gtk_drop_down_set_selected (GTK_DROP_DOWN (sort), DRY_SORT_COST);
  takeoff = dry_session_get_plan (desk->session)->takeoff;
  dearest = &takeoff->lines[0];
  for (guint i = 1; i < takeoff->n; i++)
    if (takeoff->lines[i].cost > dearest->cost)
      dearest = &takeoff->lines[i];
  g_assert_cmpstr (first_title (list), ==, dearest->name);
  g_assert_null (dry_test_find (list, is_label, "Sheets"));

  table = dry_ledger_copy_takeoff (desk->session, DRY_SORT_COST);
  lines = g_strsplit (table, "\n", -1);
  g_assert_cmpuint (g_strv_length (lines), ==, takeoff->n + 2);
  for (guint i = 0; i <= takeoff->n; i++) {
    g_auto (GStrv) cells = g_strsplit (lines[i], "\t", -1);
    g_assert_cmpuint (g_strv_length (cells), ==, 7);
    if (i == 1)
      g_assert_cmpstr (cells[1], ==, dearest->name);
  }
}

static void
press_enter (GtkWidget *list)
{
  gboolean taken = FALSE;
  g_autoptr (GListModel) controllers = gtk_widget_observe_controllers (list);

  for (guint i = 0; i < g_list_model_get_n_items (controllers); i++) {
    g_autoptr (GObject) controller = g_list_model_get_item (controllers, i);
    if (GTK_IS_EVENT_CONTROLLER_KEY (controller))
      g_signal_emit_by_name (controller, "key-pressed", GDK_KEY_Return, 36, 0, &taken);
  }
  g_assert_true (taken);
}

/* A large room has more findings than rows can be built for at once: by hundreds, and as far as one
 * that is chosen elsewhere. */
#define N_MANY 450

static void
fill_many (DryLedgerList *list)
{
  DryLedgerEntry entries[N_MANY] = {0};
  g_autoptr (GPtrArray) keys = g_ptr_array_new_with_free_func (g_free);

  for (guint i = 0; i < N_MANY; i++) {
    g_ptr_array_add (keys, g_strdup_printf ("%u", i));
    entries[i].key = entries[i].title = keys->pdata[i];
  }
  dry_ledger_list_set_entries (list, entries, N_MANY);
}

static guint
count_rows (GtkWidget *box)
{
  guint n = 0;

  while (gtk_list_box_get_row_at_index (GTK_LIST_BOX (box), (int) n) != NULL)
    n++;
  return n;
}

static void
test_ledger_long_list (Desk *desk, gconstpointer data)
{
  GtkWidget *list = dry_ledger_list_new ("Many", "None"), *box, *more;

  g_signal_connect (list, "more", G_CALLBACK (fill_many), NULL);
  fill_many (DRY_LEDGER_LIST (list));
  desk_show (desk, list);
  box = dry_test_require (list, GTK_TYPE_LIST_BOX);
  g_assert_cmpuint (count_rows (box), ==, 100);
  more = gtk_widget_get_next_sibling (box);
  g_assert_true (gtk_widget_get_visible (more));
  g_signal_emit_by_name (more, "clicked");
  g_assert_cmpuint (count_rows (box), ==, 200);
  g_assert_true (gtk_widget_get_visible (more));
  dry_ledger_list_show (DRY_LEDGER_LIST (list), 380);
  g_assert_cmpuint (count_rows (box), ==, N_MANY);
  g_assert_false (gtk_widget_get_visible (more));
  dry_ledger_list_show (DRY_LEDGER_LIST (list), G_MAXUINT);
}

/* Enter goes to the finding, Enter again to the next; the place is what the board shows. */
static void
test_ledger_steps (Desk *desk, gconstpointer data)
{
  g_autofree char *path = g_test_build_filename (G_TEST_DIST, "cases", "02-old-house.drybay", NULL);
  GtkWidget *ledger = dry_ledger_new (desk->session), *list;
  const DryFindings *findings;

  g_assert_true (dry_session_open_path (desk->session, path, NULL));
  DRY_TEST_WAIT_FOR (!dry_session_is_busy (desk->session) &&
                     dry_session_get_plan (desk->session) != NULL);
  findings = dry_session_get_plan (desk->session)->findings;
  g_assert_cmpuint (findings->n, >, 2);
  desk_show (desk, ledger);
  open_page (ledger, "findings");
  list = dry_test_find (ledger, is_list, NULL);
  g_assert_nonnull (dry_test_find (list, is_label, "Stop: must not be built so"));
  gtk_widget_child_focus (dry_test_find (list, is_foldable, NULL), GTK_DIR_TAB_FORWARD);
  for (gint i = 0; i < (gint) findings->n; i++) {
    press_enter (list);
    g_assert_cmpint (dry_session_get_selected_finding (desk->session), ==, i);
  }
  press_enter (list); /* the last one: stays */
  g_assert_cmpint (dry_session_get_selected_finding (desk->session), ==, (gint) findings->n - 1);
  g_assert_cmpuint (dry_test_collect (list, is_unfolded, NULL, NULL), ==, 0);
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
test_shelf (Desk *desk, gconstpointer data)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 0);
  DryCanvas *canvas = DRY_CANVAS (dry_canvas_new (desk->session));
  GtkWidget *shelf = dry_shelf_new (desk->session, canvas);
  GtkEditable *search;
  GtkWidget *item = NULL;
  guint all;

  gtk_box_append (GTK_BOX (box), shelf);
  gtk_box_append (GTK_BOX (box), GTK_WIDGET (canvas));
  gtk_widget_set_hexpand (GTK_WIDGET (canvas), TRUE);
  desk_show (desk, box);
  open_groups (shelf);
  all = dry_test_collect (shelf, is_shown_item, NULL, NULL);
  g_assert_cmpuint (all, ==, dry_catalog_get_n_items (dry_session_get_catalog (desk->session)));

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
test_start_samples (Desk *desk, gconstpointer data)
{
  static const char *const files[] = {"alcove-refit.drybay", "client-shower.drybay",
                                      "two-bath-house.drybay"};
  GtkWidget *page = dry_start_page_new (desk->session);

  desk_show (desk, page);
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
test_start_leaving (Desk *desk, gconstpointer data)
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
test_start_recent (Desk *desk, gconstpointer data)
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
  desk_show (desk, page);
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
  GtkWidget *row = dry_test_find (window, is_row, title);

  if (!ADW_IS_COMBO_ROW (row))
    g_error ("There is no choice called \"%s\"", title);
  return ADW_COMBO_ROW (row);
}

static void
test_preferences (Desk *desk, gconstpointer data)
{
  GSettings *settings = dry_application_get_settings (application);
  AdwStyleManager *style = adw_style_manager_get_default ();
  GtkWidget *window;
  guint n;

  desk_show (desk, gtk_label_new ("parent"));
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
test_shortcuts (Desk *desk, gconstpointer data)
{
  guint n_actions, n;
  const DryActionInfo *actions = dry_actions_list (&n_actions);
  GtkWidget *window;

  desk_show (desk, gtk_label_new ("parent"));
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

#define ADD(path, test)                                                                            \
  g_test_add ("/ui/panels/" path, Desk, NULL, desk_set_up, test, desk_tear_down)

int
main (int argc, char *argv[])
{
  int result;

  g_test_init (&argc, &argv, NULL);
  application = dry_application_new ();
  g_application_set_flags (G_APPLICATION (application), G_APPLICATION_NON_UNIQUE);
  if (!g_application_register (G_APPLICATION (application), NULL, NULL))
    return 99;

  g_test_add_func ("/ui/panels/length-row/reads", test_length_row);
  g_test_add_func ("/ui/panels/length-row/same", test_length_row_same);
  ADD ("inspector/nothing-selected", test_inspector_nothing);
  ADD ("inspector/part", test_inspector_part);
  ADD ("inspector/every-object", test_inspector_every_object);
  ADD ("inspector/compares", test_inspector_compares);
  ADD ("inspector/keeps-its-word", test_compare_keeps_its_word);
  ADD ("inspector/tile", test_inspector_tile);
  ADD ("ledger/keeps-still", test_ledger_keeps_still);
  ADD ("ledger/sorts", test_ledger_sorts);
  ADD ("ledger/steps", test_ledger_steps);
  ADD ("ledger/long-list", test_ledger_long_list);
  ADD ("shelf", test_shelf);
  ADD ("start/samples", test_start_samples);
  ADD ("start/leaving", test_start_leaving);
  ADD ("start/recent", test_start_recent);
  ADD ("preferences", test_preferences);
  ADD ("shortcuts", test_shortcuts);
  g_test_add_func ("/ui/panels/keys-differ", test_keys_differ);
  result = g_test_run ();
  g_object_unref (application);
  return result;
}
