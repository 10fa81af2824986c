/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The ledger on a virtual screen, alone: rows that keep still, sort and step, and what its buttons
 * do to the session. */
#include <string.h>

#include "desk.h"
#include "plan/remedy-weigh.h"
#include "support/fixtures.h"
#include "ui/ledger-list.h"
#include "ui/ledger-pages.h"
#include "ui/ledger-sheets.h"
#include "ui/ledger.h"
#include "ui/symbol.h"

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
test_ledger_keeps_still (DryDesk *desk, gconstpointer data)
{
  GtkWidget *ledger = dry_ledger_new (desk->session), *list, *row = NULL, *focus;
  DryId niche = dry_desk_find_part (desk->session, DRY_PART_NICHE)->id;
  const DryPart *part;
  GtkAdjustment *scroll;
  const DryPlan *plan;

  DRY_TEST_WAIT_FOR (dry_session_get_plan (desk->session) != NULL);
  dry_desk_show (desk, ledger);
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

  part = dry_desk_find_part (desk->session, DRY_PART_NICHE);
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

/* Pictures of sheets may be of the plan before for a while: one whose sheet is gone opens nothing.
 * The window once fell over it. */
static void
test_ledger_sheet_gone (DryDesk *desk, gconstpointer data)
{
  GtkWidget *sheets = dry_ledger_sheets_new (desk->session), *picture;
  GListModel *windows = gtk_window_get_toplevels ();
  DryFinish finish;
  g_autoptr (GError) error = NULL;
  guint n;

  DRY_TEST_WAIT_FOR (dry_session_get_plan (desk->session) != NULL);
  dry_desk_show (desk, sheets);
  dry_ledger_sheets_fill (DRY_LEDGER_SHEETS (sheets));
  picture = dry_test_require (sheets, GTK_TYPE_BUTTON);
  n = g_list_model_get_n_items (windows);
  finish = dry_project_get_room_at (dry_session_get_project (desk->session), 0)->finish;
  finish.system = (char *) "mortar-bed";
  dry_session_apply (desk->session,
                     dry_edit_set_finish (dry_session_get_project (desk->session),
                                          dry_session_get_room_id (desk->session), &finish, &error),
                     "System", NULL, NULL);
  g_assert_no_error (error);
  DRY_TEST_WAIT_FOR (dry_session_get_plan (desk->session)->boards->cutting == NULL ||
                     dry_session_get_plan (desk->session)->boards->cutting->n_sheets == 0);
  g_signal_emit_by_name (picture, "clicked");
  g_assert_cmpuint (g_list_model_get_n_items (windows), ==, n);
}

static const char *
first_title (GtkWidget *list)
{
  GtkWidget *row = dry_test_find (list, is_foldable, NULL);

  return adw_preferences_row_get_title (ADW_PREFERENCES_ROW (row));
}

static void
test_ledger_sorts (DryDesk *desk, gconstpointer data)
{
  GtkWidget *ledger = dry_ledger_new (desk->session), *list, *sort;
  const DryTakeoff *takeoff;
  const DryTakeoffLine *dearest;
  g_autofree char *table = NULL, *first = NULL;
  g_auto (GStrv) lines = NULL;

  DRY_TEST_WAIT_FOR (dry_session_get_plan (desk->session) != NULL);
  dry_desk_show (desk, ledger);
  open_page (ledger, "takeoff");
  list = dry_test_find (ledger, is_list, NULL);
  sort = dry_test_require (ledger, GTK_TYPE_DROP_DOWN);
  g_assert_nonnull (dry_test_find (list, dry_desk_is_label, "Sheets")); /* a heading */
  gtk_drop_down_set_selected (GTK_DROP_DOWN (sort), DRY_SORT_COST);
  takeoff = dry_session_get_plan (desk->session)->takeoff;
  dearest = &takeoff->lines[0];
  for (guint i = 1; i < takeoff->n; i++)
    if (takeoff->lines[i].cost > dearest->cost)
      dearest = &takeoff->lines[i];
  g_assert_cmpstr (first_title (list), ==, dearest->name);
  g_assert_null (dry_test_find (list, dry_desk_is_label, "Sheets"));

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
test_ledger_long_list (DryDesk *desk, gconstpointer data)
{
  GtkWidget *list = dry_ledger_list_new ("Many", "None"), *box, *more;

  g_signal_connect (list, "more", G_CALLBACK (fill_many), NULL);
  fill_many (DRY_LEDGER_LIST (list));
  dry_desk_show (desk, list);
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
test_ledger_steps (DryDesk *desk, gconstpointer data)
{
  g_autofree char *path = g_test_build_filename (G_TEST_DIST, "cases", "02-old-house.drybay", NULL);
  GtkWidget *ledger = dry_ledger_new (desk->session), *list;
  const DryFindings *findings;

  g_assert_true (dry_session_open_path (desk->session, path, NULL));
  DRY_TEST_WAIT_FOR (!dry_session_is_busy (desk->session) &&
                     dry_session_get_plan (desk->session) != NULL);
  findings = dry_session_get_plan (desk->session)->findings;
  g_assert_cmpuint (findings->n, >, 2);
  dry_desk_show (desk, ledger);
  open_page (ledger, "findings");
  list = dry_test_find (ledger, is_list, NULL);
  g_assert_nonnull (dry_test_find (list, dry_desk_is_label, "Stop: must not be built so"));
  gtk_widget_child_focus (dry_test_find (list, is_foldable, NULL), GTK_DIR_TAB_FORWARD);
  for (gint i = 0; i < (gint) findings->n; i++) {
    press_enter (list);
    g_assert_cmpint (dry_session_get_selected_finding (desk->session), ==, i);
  }
  press_enter (list); /* the last one: stays */
  g_assert_cmpint (dry_session_get_selected_finding (desk->session), ==, (gint) findings->n - 1);
  g_assert_cmpuint (dry_test_collect (list, is_unfolded, NULL, NULL), ==, 0);
}

static gboolean
is_unfit_symbol (GtkWidget *widget, gconstpointer unused)
{
  return GTK_IS_IMAGE (widget) &&
         gtk_image_get_storage_type (GTK_IMAGE (widget)) == GTK_IMAGE_PAINTABLE &&
         !GTK_IS_SYMBOLIC_PAINTABLE (gtk_image_get_paintable (GTK_IMAGE (widget)));
}

static gboolean
is_file_image (GtkWidget *widget, gconstpointer unused)
{
  return GTK_IS_IMAGE (widget) &&
         gtk_image_get_storage_type (GTK_IMAGE (widget)) == GTK_IMAGE_GICON &&
         G_IS_FILE_ICON (gtk_image_get_gicon (GTK_IMAGE (widget)));
}

static guchar
brightest (GdkPaintable *symbol, GdkRGBA color)
{
  GtkSnapshot *snapshot = gtk_snapshot_new ();
  g_autoptr (GskRenderer) renderer = gsk_cairo_renderer_new ();
  g_autoptr (GdkTexture) texture = NULL;
  GskRenderNode *node;
  guchar pixels[16 * 16 * 4] = {0}, most = 0;

  gtk_symbolic_paintable_snapshot_symbolic (GTK_SYMBOLIC_PAINTABLE (symbol), snapshot, 16, 16,
                                            &color, 1);
  node = gtk_snapshot_free_to_node (snapshot);
  g_assert_true (gsk_renderer_realize (renderer, NULL, NULL));
  texture = gsk_renderer_render_texture (renderer, node, &GRAPHENE_RECT_INIT (0, 0, 16, 16));
  gdk_texture_download (texture, pixels, 64);
  for (guint i = 0; i < sizeof pixels; i++)
    if (i % 4 == 2) /* red of the machine's little-endian ARGB */
      most = MAX (most, pixels[i]);
  gsk_renderer_unrealize (renderer);
  gsk_render_node_unref (node);
  return most;
}

/* A symbol is as red, or as light on dark, as the text beside it: none is a picture from a file. */
static void
test_ledger_symbols (DryDesk *desk, gconstpointer data)
{
  GtkWidget *ledger = dry_ledger_new (desk->session);
  g_autofree char *path = g_test_build_filename (G_TEST_DIST, "cases", "02-old-house.drybay", NULL);
  GdkPaintable *symbol = dry_symbol_get ("drybay-stop-symbolic");

  g_assert_true (dry_session_open_path (desk->session, path, NULL));
  dry_desk_show (desk, ledger);
  DRY_TEST_WAIT_FOR (dry_session_get_plan (desk->session) != NULL);
  open_page (ledger, "findings");
  g_assert_null (dry_test_find (ledger, is_unfit_symbol, NULL));
  g_assert_null (dry_test_find (ledger, is_file_image, NULL));
  g_assert_true (dry_symbol_get ("drybay-stop-symbolic") == symbol); /* read once */
  g_assert_cmpuint (brightest (symbol, (GdkRGBA){0, 0, 0, 1}), ==, 0);
  g_assert_cmpuint (brightest (symbol, (GdkRGBA){1, 0, 0, 1}), >, 240);
}

static gboolean
is_total (GtkWidget *widget, gconstpointer data)
{
  return gtk_widget_has_css_class (widget, "ledger-total");
}

/* Totals at whole length are a line of 800 pixels and more; narrower, they take a second one. */
static void
test_ledger_narrow (DryDesk *desk, gconstpointer data)
{
  GtkWidget *ledger = dry_ledger_new (desk->session), *total = NULL;
  int least, whole, low, high;

  DRY_TEST_WAIT_FOR (dry_session_get_plan (desk->session) != NULL);
  dry_desk_show (desk, ledger);
  g_assert_cmpuint (dry_test_collect (ledger, is_total, NULL, &total), ==, 5);
  gtk_widget_measure (ledger, GTK_ORIENTATION_HORIZONTAL, -1, &least, &whole, NULL, NULL);
  g_assert_cmpint (least, <=, 600);
  gtk_widget_measure (total, GTK_ORIENTATION_HORIZONTAL, -1, &least, &whole, NULL, NULL);
  gtk_widget_measure (total, GTK_ORIENTATION_VERTICAL, whole, &low, NULL, NULL, NULL);
  gtk_widget_measure (total, GTK_ORIENTATION_VERTICAL, whole * 2 / 3, &high, NULL, NULL, NULL);
  g_assert_cmpint (high, >, low);
}

/* --- remedies --- */

static gboolean
is_remedy (GtkWidget *widget, gconstpointer label)
{
  return GTK_IS_BUTTON (widget) && gtk_widget_get_mapped (widget) &&
         (label == NULL ? gtk_button_get_label (GTK_BUTTON (widget)) != NULL
                        : g_strcmp0 (gtk_button_get_label (GTK_BUTTON (widget)), label) == 0);
}

static gboolean
is_text_with (GtkWidget *widget, gconstpointer part)
{
  return GTK_IS_LABEL (widget) && gtk_widget_get_mapped (widget) &&
         strstr (gtk_label_get_text (GTK_LABEL (widget)), part) != NULL;
}

static const DryFinding *
find_finding (DrySession *session, const char *rule)
{
  const DryFindings *findings = dry_session_get_plan (session)->findings;

  for (guint i = 0; i < findings->n; i++)
    if (g_str_equal (findings->items[i].rule->id, rule))
      return &findings->items[i];
  return NULL;
}

static gboolean
is_planned (DrySession *session)
{
  return !dry_session_is_busy (session) && dry_session_get_plan (session) != NULL &&
         dry_session_get_plan (session)->project == dry_session_get_project (session);
}

static void
wish_seam (DrySession *session, DryLength at)
{
  DrySeamWish seam = {.wall = dry_test_wall (dry_session_get_project (session), 'n'),
                      .at = at,
                      .through = 60 * DRY_INCH};
  GError *error = NULL;
  DryProject *project = dry_edit_set_seam (dry_session_get_project (session),
                                           dry_session_get_room_id (session), &seam, NULL, &error);

  dry_session_apply (session, project, "Seam", NULL, error);
  DRY_TEST_WAIT_FOR (is_planned (session));
}

static GtkWidget *
unfold_finding (GtkWidget *ledger, const DryFinding *finding)
{
  GtkWidget *list, *row;

  open_page (ledger, "findings");
  list = dry_test_find (ledger, is_list, NULL);
  row = dry_test_find (list, dry_desk_is_row, finding->message);
  g_assert_true (ADW_IS_EXPANDER_ROW (row));
  adw_expander_row_set_expanded (ADW_EXPANDER_ROW (row), TRUE);
  return row;
}

/* An unfolded finding shows what each remedy costs, the best of them first; one click does it, one
 * undo takes it back. */
static void
test_ledger_remedies (DryDesk *desk, gconstpointer data)
{
  GtkWidget *ledger = dry_ledger_new (desk->session), *row;
  const DryProject *before;
  const DryFinding *finding;
  g_autoptr (DryRemedyWeights) weights = NULL;
  GtkWidget *first = NULL;

  DRY_TEST_WAIT_FOR (is_planned (desk->session));
  wish_seam (desk->session, 37 * DRY_INCH);
  before = dry_session_get_project (desk->session);
  finding = find_finding (desk->session, "wish-off-stud");
  g_assert_nonnull (finding);
  dry_desk_show (desk, ledger);
  row = unfold_finding (ledger, finding);
  DRY_TEST_WAIT_FOR (dry_test_find (row, is_text_with, "Costs nothing") != NULL ||
                     dry_test_find (row, is_text_with, "Adds ") != NULL ||
                     dry_test_find (row, is_text_with, "Saves ") != NULL);
  weights = dry_remedy_weigh (dry_session_get_plan (desk->session), finding, NULL, NULL);
  g_assert_cmpuint (dry_test_collect (row, is_remedy, NULL, &first), ==, 2);
  g_assert_cmpstr (gtk_button_get_label (GTK_BUTTON (first)), ==, weights->items[0].remedy->text);

  g_signal_emit_by_name (dry_test_find (row, is_remedy, weights->items[1].remedy->text), "clicked");
  DRY_TEST_WAIT_FOR (is_planned (desk->session));
  g_assert_true (
      dry_project_equal (dry_session_get_project (desk->session), weights->items[1].project));
  g_assert_null (find_finding (desk->session, "wish-off-stud"));
  dry_session_undo (desk->session);
  g_assert_true (dry_session_get_project (desk->session) == before);
}

/* What was weighed for another design is shown only until it was weighed for this one, and nothing
 * is weighed while something is dragged. */
static void
test_ledger_remedies_follow (DryDesk *desk, gconstpointer data)
{
  GtkWidget *ledger = dry_ledger_new (desk->session), *row;
  const DryFinding *finding;
  const DryPart *niche;

  DRY_TEST_WAIT_FOR (is_planned (desk->session));
  wish_seam (desk->session, 37 * DRY_INCH);
  dry_desk_show (desk, ledger);
  /* A drag is under way: the button is there, no cost comes. */
  niche = dry_desk_find_part (desk->session, DRY_PART_NICHE);
  dry_session_preview (desk->session, dry_edit_move_part (dry_session_get_project (desk->session),
                                                          dry_session_get_room_id (desk->session),
                                                          niche->id, niche->wall, niche->side,
                                                          niche->u + DRY_INCH, niche->z, NULL));
  DRY_TEST_WAIT_FOR (is_planned (desk->session));
  finding = find_finding (desk->session, "wish-off-stud");
  row = unfold_finding (ledger, finding);
  for (guint i = 0; i < 4; i++)
    dry_test_settle ();
  g_assert_cmpuint (dry_test_collect (row, is_remedy, NULL, NULL), ==, 2);
  g_assert_null (dry_test_find (row, is_text_with, "Costs nothing"));
  g_assert_null (dry_test_find (row, is_text_with, "Adds "));
  g_assert_null (dry_test_find (row, is_text_with, "Saves "));
  dry_session_preview (desk->session, NULL);
  DRY_TEST_WAIT_FOR (dry_test_find (row, is_text_with, "Costs nothing") != NULL ||
                     dry_test_find (row, is_text_with, "Adds ") != NULL ||
                     dry_test_find (row, is_text_with, "Saves ") != NULL);
}

static void
test_units_stay_with_numbers (G_GNUC_UNUSED DryDesk *desk, G_GNUC_UNUSED gconstpointer data)
{
  static const struct {
    const char *text, *bound;
  } rows[] = {
      {"tile after 12 to 24 h", "tile after 12\u00a0to 24\u00a0h"},
      {"3/4\" · 9.0 lb/ft²", "3/4\" · 9.0\u00a0lb/ft²"},
      {"2 d 15 h later, 4 findings more", "2\u00a0d 15\u00a0h later, 4\u00a0findings more"},
      {"12 ½, 7 - 3", "12\u00a0½, 7 - 3"},
      {" 5", " 5"},
      {"5 ", "5\u00a0"},
      {"", ""},
  };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++) {
    g_autofree char *bound = dry_text_bind_units (rows[i].text);

    g_assert_cmpstr (bound, ==, rows[i].bound);
  }
}

int
main (int argc, char *argv[])
{
  if (!dry_desk_begin (&argc, &argv))
    return 99;
  DRY_DESK_ADD ("/ui/ledger/units-stay-with-numbers", test_units_stay_with_numbers);
  DRY_DESK_ADD ("/ui/ledger/keeps-still", test_ledger_keeps_still);
  DRY_DESK_ADD ("/ui/ledger/sheet-gone", test_ledger_sheet_gone);
  DRY_DESK_ADD ("/ui/ledger/sorts", test_ledger_sorts);
  DRY_DESK_ADD ("/ui/ledger/steps", test_ledger_steps);
  DRY_DESK_ADD ("/ui/ledger/long-list", test_ledger_long_list);
  DRY_DESK_ADD ("/ui/ledger/symbols", test_ledger_symbols);
  DRY_DESK_ADD ("/ui/ledger/narrow", test_ledger_narrow);
  DRY_DESK_ADD ("/ui/ledger/remedies", test_ledger_remedies);
  DRY_DESK_ADD ("/ui/ledger/remedies-follow", test_ledger_remedies_follow);
  return dry_desk_run ();
}
