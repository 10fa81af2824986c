/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What of a room is only sometimes there is written when it is and left out when it is not: wished
 * seams, boards on hand, sheets of mosaic, breaks, a joint that had to change, dates. */
#include <string.h>

#include "plan/rule-room.h"
#include "plan/schedule.h"

static guint
count (const char *text, const char *what)
{
  guint n = 0;

  for (const char *at = text; (at = strstr (at, what)) != NULL; at += strlen (what))
    n++;
  return n;
}

static char *
write_plan (const DryPlan *plan)
{
  DryJsonWriter *writer = dry_json_writer_new ();

  dry_plan_write_json (plan, writer, NULL);
  return dry_json_writer_finish (writer, NULL);
}

static DryProject *
put_seam (DryProject *project, DrySeamWish seam)
{
  g_autoptr (GError) error = NULL;
  DryProject *next;

  seam.wall = dry_test_wall (project, 'n');
  next = dry_edit_set_seam (project, dry_test_room (project), &seam, NULL, &error);
  g_assert_no_error (error);
  dry_project_unref (project);
  return next;
}

/* --- boards --- */

/* One seam wished where a board is, one below the rim, where none is. */
static void
test_wished_seams (void)
{
  DryProject *made = rule_room_alcove ("foam-bands", "us-residential");
  g_autoptr (DryPlan) without = rule_room_plan (made), with = NULL;
  g_autofree char *plain = write_plan (without), *wished = NULL;
  g_autoptr (DryProject) project = NULL;

  g_assert_null (strstr (plain, "\"wished_seams\""));
  g_assert_null (strstr (plain, "\"wish\": "));
  made = put_seam (made, (DrySeamWish){.level = TRUE, .at = INCH (50), .through = INCH (25)});
  project = put_seam (made, (DrySeamWish){.at = INCH (32), .through = INCH (4)});
  with = rule_room_plan (project);
  wished = write_plan (with);
  g_assert_cmpuint (count (wished, "\"state\": \"obeyed\""), ==, 1);
  g_assert_cmpuint (count (wished, "\"state\": \"off-board\""), ==, 1);
  g_assert_cmpuint (count (wished, "\"wish\": "), ==, 1);
}

/* Boards on hand are cut first, cost nothing and are named with their note; what is bought beside
 * them is not marked. */
static void
test_on_hand (void)
{
  static const struct {
    const char *note, *named; /* part of the take-off's name of it */
  } rows[] = {{NULL, "60\""}, {"behind the garage", "60\", behind the garage"}};

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++) {
    g_autoptr (DryProject) project = rule_room_alcove ("foam-bands", "us-residential");
    const DryOnHand board = {
        .width = INCH (36), .height = INCH (60), .count = 2, .note = (char *) rows[i].note};
    g_autoptr (GError) error = NULL;
    g_autoptr (DryProject) stocked =
        dry_edit_set_on_hand (project, dry_test_room (project), 0, &board, &error);
    g_autoptr (DryPlan) plan = NULL;
    g_autofree char *text = NULL;
    guint sheets = 0, lines = 0;

    g_assert_no_error (error);
    plan = rule_room_plan (stocked);
    text = write_plan (plan);
    for (guint k = 0; k < plan->boards->cutting->n_sheets; k++)
      sheets += plan->boards->cutting->stock[plan->boards->cutting->sheets[k].stock].on_hand;
    for (guint k = 0; k < plan->takeoff->n; k++) {
      const DryTakeoffLine *line = &plan->takeoff->lines[k];

      if (!line->on_hand)
        continue;
      lines++;
      g_assert_cmpint (line->cost, ==, 0);
      g_assert_true (g_str_has_suffix (line->name, rows[i].named));
    }
    g_assert_cmpuint (sheets, >, 0);
    g_assert_cmpuint (lines, ==, 1);
    g_assert_cmpuint (count (text, "\"on_hand\": true"), ==, sheets + lines);
  }
}

/* --- tile --- */

static void
test_tile (void)
{
  static const struct {
    const char *words, *has, *lacks;
  } rows[] = {
      {"finish.tiled=0", "\"cutting\"", "\"tile\": {"},
      {"finish.tile_width=12in finish.tile_height=12in", "\"tile\": {", "\"sheets\": {"},
      {"finish.tile_width=2in finish.tile_height=2in finish.chips_across=6 finish.chips_up=6",
       "\"sheets\": {", "\"why_joint\""},
      {"finish.tile_width=12in finish.tile_height=12in finish.variation=2mm", "\"why_joint\"",
       "\"sheets\": {"},
  };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++) {
    g_autofree char *words = g_strconcat (
        "finish.tiled=1 finish.tile_thickness=8mm finish.joint=0.125in finish.mortar=3mm ",
        rows[i].words, NULL);
    g_autoptr (DryProject) project =
        rule_room_set_fields (rule_room_alcove ("foam-bands", "us-residential"), words);
    g_autoptr (DryPlan) plan = rule_room_plan (project);
    g_autofree char *text = write_plan (plan);

    g_assert_nonnull (strstr (text, rows[i].has));
    g_assert_null (strstr (text, rows[i].lacks));
  }
}

/* A wall of 25 ft is tiled in stretches: the joints between them are written, and none where a face
 * is one stretch. */
static void
test_breaks (void)
{
  g_autoptr (DryProject) project = rule_room_set_fields (
      rule_room_shower (INCH (300), INCH (34)),
      "finish.tiled=1 finish.tile_width=12in finish.tile_height=12in finish.joint=0.125in");
  g_autoptr (DryPlan) plan = rule_room_plan (project);
  g_autofree char *text = write_plan (plan);
  guint breaks = 0, whole = 0;

  for (guint i = 0; i < plan->tiling->n_faces; i++) {
    breaks += plan->tiling->faces[i].n_breaks;
    whole += plan->tiling->faces[i].n_breaks == 0;
  }
  g_assert_cmpuint (breaks, >=, 2);
  g_assert_cmpuint (whole, <, plan->tiling->n_faces);
  g_assert_cmpuint (count (text, "\"movement_joints\": []"), ==, whole);
}

/* --- build-up, dates --- */

/* A thickness chosen for one system says nothing of another's board, and a bed of mortar has
 * none. */
static void
test_build_up (void)
{
  const DryCatalog *catalog = dry_test_catalog ();
  g_autoptr (DryProject) project =
      rule_room_set_fields (rule_room_alcove ("foam-bands", "us-residential"),
                            "finish.tiled=1 finish.board=15mm finish.mortar=3mm "
                            "finish.tile_thickness=8mm");
  const DryFinish *finish = &dry_test_first_room (project)->finish;
  const DrySystem *own = dry_catalog_get_system (catalog, "foam-bands");
  const DrySystem *other = dry_catalog_get_system (catalog, "cement-liquid");
  DrySystem none = *other;
  DryBuildUp up = dry_build_up_reckon (own, finish);

  g_assert_cmpint (up.board, ==, 15 * DRY_MM);
  g_assert_cmpint (up.total, ==, up.board + up.membrane + 11 * DRY_MM);
  g_assert_cmpint (dry_build_up_reckon (other, finish).board, ==, other->thicknesses[0].value);
  none.n_thicknesses = 0;
  g_assert_cmpint (dry_build_up_reckon (&none, finish).board, ==, 0);
}

/* Without tile there is no first shower, and that is said in place of a date. */
static void
test_schedule (void)
{
  for (guint tiled = 0; tiled < 2; tiled++) {
    g_autofree char *words = g_strdup_printf ("finish.tiled=%u", tiled);
    g_autoptr (DryProject) project =
        rule_room_set_fields (rule_room_alcove ("foam-bands", "us-residential"), words);
    g_autoptr (DryPlan) plan = rule_room_plan (project);
    const DryPlan *plans[] = {plan};
    g_autoptr (GError) error = NULL;
    g_autoptr (DrySchedule) schedule = dry_schedule_new (plans, 1, NULL, "2026-12-01", &error);
    DryJsonWriter *writer = dry_json_writer_new ();
    g_autofree char *text = NULL;

    g_assert_no_error (error);
    dry_schedule_write_json (schedule, writer, NULL);
    text = dry_json_writer_finish (writer, NULL);
    g_assert_true ((strstr (text, "\"missing\": \"no tile is chosen yet\"") == NULL) == tiled);
    g_assert_true ((strstr (text, "\"first_shower\": ") != NULL) == tiled ||
                   strstr (text, "\"first_shower\": null") != NULL);
    g_assert_nonnull (strstr (text, "\"dated\": true"));
  }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/plan/written/wished-seams", test_wished_seams);
  g_test_add_func ("/plan/written/on-hand", test_on_hand);
  g_test_add_func ("/plan/written/tile", test_tile);
  g_test_add_func ("/plan/written/breaks", test_breaks);
  g_test_add_func ("/plan/written/build-up", test_build_up);
  g_test_add_func ("/plan/written/schedule", test_schedule);
  return g_test_run ();
}
