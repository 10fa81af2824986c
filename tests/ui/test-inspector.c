/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The inspector on a virtual screen, alone: what it shows of a session, and what typing and
 * clicking in it does to it. */
#include <string.h>

#include "desk.h"
#include "support/fixtures.h"
#include "ui/actions.h"
#include "ui/inspector.h"
#include "ui/length-row.h"
#include "ui/system-compare.h"

static gboolean
is_section (GtkWidget *widget, gconstpointer title)
{
  return ADW_IS_EXPANDER_ROW (widget) && dry_desk_is_row (widget, title);
}

static void
unfold (GtkWidget *root, const char *title)
{
  GtkWidget *section = dry_test_find (root, is_section, title);

  g_assert_nonnull (section);
  adw_expander_row_set_expanded (ADW_EXPANDER_ROW (section), TRUE);
}

static void
test_inspector_nothing (DryDesk *desk, gconstpointer data)
{
  GtkWidget *inspector = dry_inspector_new (desk->session);
  const DryCatalog *catalog = dry_session_get_catalog (desk->session);

  dry_desk_show (desk, inspector);
  for (guint i = 0; i < dry_catalog_get_n_systems (catalog); i++) {
    const char *name = dry_catalog_get_system_at (catalog, i)->name;

    if (dry_test_find (inspector, dry_desk_is_label, name) == NULL &&
        dry_test_find (inspector, dry_desk_is_row, name) == NULL)
      g_error ("The system \"%s\" cannot be chosen", name);
  }
  g_assert_null (
      dry_test_find (inspector, dry_desk_is_row, "Ceiling")); /* folded, and not even built */
  unfold (inspector, "Room");
  g_assert_nonnull (dry_test_find (inspector, dry_desk_is_row, "Ceiling"));
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
test_inspector_compares (DryDesk *desk, gconstpointer data)
{
  GtkWidget *inspector = dry_inspector_new (desk->session);
  guint n = dry_catalog_get_n_systems (dry_session_get_catalog (desk->session));

  dry_desk_show (desk, inspector);
  DRY_TEST_WAIT_FOR (dry_test_collect (inspector, says_change, NULL, NULL) == n - 1);
}

static void
compared_cb (GObject *source, GAsyncResult *result, gpointer data)
{
  *(GArray **) data = dry_system_compare_finish (result, NULL);
}

static void
test_compare_keeps_its_word (DryDesk *desk, gconstpointer data)
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
test_inspector_tile (DryDesk *desk, gconstpointer data)
{
  GtkWidget *inspector = dry_inspector_new (desk->session), *row;

  dry_desk_show (desk, inspector);
  unfold (inspector, "Tile");
  row = dry_test_find (inspector, dry_desk_is_row, "Tile from the catalog");
  g_assert_true (ADW_IS_COMBO_ROW (row));
  adw_combo_row_set_selected (ADW_COMBO_ROW (row), 1);
  g_assert_nonnull (dry_session_get_room (desk->session)->finish.tile);
  dry_inspector_catch_up (inspector);
  adw_combo_row_set_selected (
      ADW_COMBO_ROW (dry_test_find (inspector, dry_desk_is_row, "Tile from the catalog")), 2);
  dry_session_undo (desk->session);
  dry_inspector_catch_up (inspector);
  row = dry_test_find (inspector, dry_desk_is_row, "Tile from the catalog");
  g_assert_cmpuint (adw_combo_row_get_selected (ADW_COMBO_ROW (row)), ==, 1);
}

static gboolean
says_required (GtkWidget *widget, gconstpointer text)
{
  const char *subtitle =
      ADW_IS_ACTION_ROW (widget) ? adw_action_row_get_subtitle (ADW_ACTION_ROW (widget)) : NULL;

  return subtitle != NULL && strstr (subtitle, text) != NULL;
}

/* What applies, with required and planned: filled while it is unfolded, and with every plan. */
static void
test_inspector_checks (DryDesk *desk, gconstpointer data)
{
  GtkWidget *inspector = dry_inspector_new (desk->session);
  g_autofree char *path = g_test_build_filename (G_TEST_DIST, "cases", "05-roll-in.drybay", NULL);
  DryJob job;

  g_assert_true (dry_session_open_path (desk->session, path, NULL));
  dry_desk_show (desk, inspector);
  DRY_TEST_WAIT_FOR (!dry_session_is_busy (desk->session) &&
                     dry_session_get_plan (desk->session) != NULL);
  unfold (inspector, "Job");
  g_assert_null (dry_test_find (inspector, says_required, "Required: at least 60\""));
  unfold (inspector, "What applies");
  DRY_TEST_WAIT_FOR (dry_test_find (inspector, says_required,
                                    "Required: at least 60\"\nPlanned: 58 1/8\"") != NULL);
  g_assert_nonnull (dry_test_find (inspector, says_required, "NEC 2011 404.4"));
  job = *dry_project_get_job (dry_session_get_project (desk->session));
  job.rule_pack = (char *) "germany";
  dry_session_apply (desk->session,
                     dry_edit_set_job (dry_session_get_project (desk->session), &job, NULL),
                     "Rules", NULL, NULL);
  DRY_TEST_WAIT_FOR (dry_test_find (inspector, says_required, "NEC 2011 404.4") == NULL);
  g_assert_nonnull (dry_test_find (inspector, says_required, "DIN 18534"));
}

static void
test_inspector_part (DryDesk *desk, gconstpointer data)
{
  GtkWidget *inspector = dry_inspector_new (desk->session);
  DryId niche = dry_desk_find_part (desk->session, DRY_PART_NICHE)->id;
  g_autofree char *name = NULL;
  GtkWidget *row;
  DryLength before;

  dry_desk_show (desk, inspector);
  dry_session_select (desk->session, niche);
  name = dry_object_name (desk->session, niche);
  dry_inspector_catch_up (inspector);
  g_assert_nonnull (dry_test_find (inspector, dry_desk_is_label, name));
  before = dry_desk_find_part (desk->session, DRY_PART_NICHE)->width;
  row = dry_test_find (inspector, dry_desk_is_row, "Width");
  g_assert_true (DRY_IS_LENGTH_ROW (row));
  g_assert_cmpint (dry_length_row_get_value (DRY_LENGTH_ROW (row)), ==, before);

  dry_desk_type_into (row, "13 1/2\"");
  g_assert_cmpint (dry_desk_find_part (desk->session, DRY_PART_NICHE)->width, ==,
                   27 * DRY_INCH / 2);
  g_assert_nonnull (dry_history_get_undo_name (dry_session_get_history (desk->session)));
  dry_session_undo (desk->session);
  g_assert_cmpint (dry_desk_find_part (desk->session, DRY_PART_NICHE)->width, ==, before);
  dry_inspector_catch_up (inspector);
  row = dry_test_find (inspector, dry_desk_is_row, "Width");
  g_assert_cmpint (dry_length_row_get_value (DRY_LENGTH_ROW (row)), ==, before);
}

/* Rows come and go with the selection; nothing may be left over from the thing before. */
static void
test_inspector_every_object (DryDesk *desk, gconstpointer data)
{
  GtkWidget *inspector = dry_inspector_new (desk->session);
  const DryRoom *room = dry_session_get_room (desk->session);
  g_autoptr (GArray) ids = g_array_new (FALSE, FALSE, sizeof (DryId));

  dry_desk_show (desk, inspector);
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
    g_assert_nonnull (dry_test_find (inspector, dry_desk_is_label, name));
    g_assert_cmpuint (dry_test_collect (inspector, dry_desk_is_any_row, NULL, NULL), >, 1);
    g_assert_null (dry_test_find (inspector, dry_desk_is_row, "Ceiling"));
    dry_act_delete (desk->session, id); /* walls refuse: then they stay shown */
    dry_session_undo (desk->session);
  }
  dry_session_select (desk->session, 0);
  dry_inspector_catch_up (inspector);
  unfold (inspector, "Room");
  g_assert_nonnull (dry_test_find (inspector, dry_desk_is_row, "Ceiling"));
}

/* --- temperatures --- */

static GtkSpinButton *
find_spin (GtkWidget *inspector, const char *title)
{
  GtkWidget *row = dry_test_find (inspector, dry_desk_is_row, title);

  g_assert_nonnull (row);
  return GTK_SPIN_BUTTON (dry_test_require (row, GTK_TYPE_SPIN_BUTTON));
}

static void
type_with_unit (GtkSpinButton *spin, const char *text)
{
  gtk_editable_set_text (GTK_EDITABLE (spin), text);
  gtk_spin_button_update (spin);
}

static void
set_metric (DrySession *session, gboolean metric)
{
  DryJob job = *dry_project_get_job (dry_session_get_project (session));
  GError *error = NULL;
  DryProject *next;

  job.metric = metric;
  next = dry_edit_set_job (dry_session_get_project (session), &job, &error);
  dry_session_apply (session, next, "Units", NULL, error);
  dry_test_settle ();
}

static void
test_temperatures (DryDesk *desk, gconstpointer data)
{
  static const struct {
    const char *typed;
    gboolean metric;
    const char *shown;
    double celsius;
  } ROWS[] = {
      {"48 F", FALSE, "48 °F", 80 / 9.0},  {"48", TRUE, "48 °C", 48},
      {"48 F", TRUE, "8.89 °C", 80 / 9.0}, {"9 C", FALSE, "48.2 °F", 9},
      {"48", FALSE, "48 °F", 80 / 9.0},    {"9 C", TRUE, "9 °C", 9},
      {"warm", TRUE, "9 °C", 9},           {"500", FALSE, "122 °F", 50}, /* the most there is */
  };
  GtkWidget *inspector = dry_inspector_new (desk->session);
  const DryJob *job;
  GtkSpinButton *spin;
  const DryProject *before;

  dry_desk_show (desk, inspector);
  unfold (inspector, "Job");
  spin = find_spin (inspector, "Room temperature");
  for (guint i = 0; i < G_N_ELEMENTS (ROWS); i++) {
    set_metric (desk->session, ROWS[i].metric);
    type_with_unit (spin, ROWS[i].typed);
    job = dry_project_get_job (dry_session_get_project (desk->session));
    g_assert_cmpstr (gtk_editable_get_text (GTK_EDITABLE (spin)), ==, ROWS[i].shown);
  }
  /* Leaving a row, and other units, change nothing that is kept. */
  type_with_unit (spin, "47.984 F");
  before = dry_session_get_project (desk->session);
  gtk_spin_button_update (spin);
  g_assert_true (before == dry_session_get_project (desk->session));
  set_metric (desk->session, TRUE);
  g_assert_cmpstr (gtk_editable_get_text (GTK_EDITABLE (spin)), ==, "8.88 °C");
  set_metric (desk->session, FALSE);
  job = dry_project_get_job (dry_session_get_project (desk->session));
  g_assert_cmpfloat_with_epsilon (job->temperature, 15.984 / 1.8, 1e-12);
  /* One step is one degree of the unit shown. */
  type_with_unit (spin, "70");
  gtk_spin_button_spin (spin, GTK_SPIN_STEP_FORWARD, 0);
  g_assert_cmpstr (gtk_editable_get_text (GTK_EDITABLE (spin)), ==, "71 °F");
}

/* Nothing measured is no 32 °F. */
static void
test_temperature_unknown (DryDesk *desk, gconstpointer data)
{
  static const char *const NONE[] = {"", "0", "not measured"};
  GtkWidget *inspector = dry_inspector_new (desk->session);
  GtkSpinButton *spin;

  dry_desk_show (desk, inspector);
  set_metric (desk->session, FALSE);
  unfold (inspector, "Room");
  spin = find_spin (inspector, "Hottest water at the shower");
  for (guint i = 0; i < G_N_ELEMENTS (NONE); i++) {
    type_with_unit (spin, "120");
    g_assert_cmpfloat_with_epsilon (dry_session_get_room (desk->session)->hot_water, 440 / 9.0,
                                    1e-12);
    g_assert_cmpstr (gtk_editable_get_text (GTK_EDITABLE (spin)), ==, "120 °F");
    type_with_unit (spin, NONE[i]);
    g_assert_cmpfloat_with_epsilon (dry_session_get_room (desk->session)->hot_water, 0, 1e-12);
    g_assert_cmpstr (gtk_editable_get_text (GTK_EDITABLE (spin)), ==, "not measured");
  }
}

/* --- slopes --- */

static void
test_slopes (DryDesk *desk, gconstpointer data)
{
  static const struct {
    const char *typed;
    gboolean metric;
    const char *shown;
    double slope;
  } ROWS[] = {
      {"1/4 in per ft", FALSE, "1/4 in/ft", 1 / 48.0},
      {"2 %", FALSE, "0.24 in/ft", 0.02},
      {"3/8", FALSE, "3/8 in/ft", 3 / 96.0},
      {"2", TRUE, "2 %", 0.02},
      {"1:48", TRUE, "2.08 %", 1 / 48.0},
      {"steep", TRUE, "2.08 %", 1 / 48.0},
      {"45°", TRUE, "20 %", 0.2}, /* the most there is */
  };
  GtkWidget *inspector = dry_inspector_new (desk->session);
  DryId niche = dry_desk_find_part (desk->session, DRY_PART_NICHE)->id;
  const DryProject *before;
  GtkSpinButton *spin;

  dry_desk_show (desk, inspector);
  dry_session_select (desk->session, niche);
  dry_inspector_catch_up (inspector);
  spin = find_spin (inspector, "Pitch of the floor");
  for (guint i = 0; i < G_N_ELEMENTS (ROWS); i++) {
    set_metric (desk->session, ROWS[i].metric);
    type_with_unit (spin, ROWS[i].typed);
    g_assert_cmpstr (gtk_editable_get_text (GTK_EDITABLE (spin)), ==, ROWS[i].shown);
    g_assert_cmpfloat_with_epsilon (dry_desk_find_part (desk->session, DRY_PART_NICHE)->pitch,
                                    ROWS[i].slope, 1e-9);
  }
  /* A file may have it rounded: it is shown as what was meant, and kept as it is. */
  set_metric (desk->session, FALSE);
  gtk_spin_button_set_value (spin, 0.0208);
  g_assert_cmpstr (gtk_editable_get_text (GTK_EDITABLE (spin)), ==, "1/4 in/ft");
  before = dry_session_get_project (desk->session);
  gtk_spin_button_update (spin);
  g_assert_true (before == dry_session_get_project (desk->session));
  /* One step is 1/16 in per ft, or half a per cent. */
  gtk_spin_button_spin (spin, GTK_SPIN_STEP_FORWARD, 0);
  g_assert_cmpstr (gtk_editable_get_text (GTK_EDITABLE (spin)), ==, "5/16 in/ft");
  set_metric (desk->session, TRUE);
  type_with_unit (spin, "2");
  gtk_spin_button_spin (spin, GTK_SPIN_STEP_BACKWARD, 0);
  g_assert_cmpstr (gtk_editable_get_text (GTK_EDITABLE (spin)), ==, "1.5 %");
}

int
main (int argc, char *argv[])
{
  if (!dry_desk_begin (&argc, &argv))
    return 99;
  DRY_DESK_ADD ("/ui/inspector/nothing-selected", test_inspector_nothing);
  DRY_DESK_ADD ("/ui/inspector/part", test_inspector_part);
  DRY_DESK_ADD ("/ui/inspector/every-object", test_inspector_every_object);
  DRY_DESK_ADD ("/ui/inspector/compares", test_inspector_compares);
  DRY_DESK_ADD ("/ui/inspector/keeps-its-word", test_compare_keeps_its_word);
  DRY_DESK_ADD ("/ui/inspector/tile", test_inspector_tile);
  DRY_DESK_ADD ("/ui/inspector/checks", test_inspector_checks);
  DRY_DESK_ADD ("/ui/inspector/temperatures", test_temperatures);
  DRY_DESK_ADD ("/ui/inspector/temperature-unknown", test_temperature_unknown);
  DRY_DESK_ADD ("/ui/inspector/slopes", test_slopes);
  return dry_desk_run ();
}
