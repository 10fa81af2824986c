/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The schedule of whole plans: what must hold of any, and what cold, people and days off do. */
#include "plan/schedule.h"

#include <string.h>

#include "support/fixtures.h"

static DryPlan *
make_plan_with (DryProject *project)
{
  g_autoptr (GError) error = NULL;
  DryPlan *plan =
      dry_plan_new (project, dry_test_room (project), dry_test_catalog (), NULL, &error);

  g_assert_no_error (error);
  return plan;
}

static DryPlan *
make_plan (const char *system, DryJob set)
{
  g_autoptr (DryProject) project = dry_test_furnished_alcove (system);
  g_autoptr (DryProject) changed = NULL;
  g_autoptr (GError) error = NULL;
  DryJob job = *dry_project_get_job (project);

  if (set.temperature != 0)
    job.temperature = set.temperature;
  job.crew = set.crew;
  job.work_days = set.work_days;
  job.holidays = set.holidays;
  job.start = set.start ? set.start : (char *) "2026-12-01";
  changed = dry_edit_set_job (project, &job, &error);
  g_assert_no_error (error);
  return make_plan_with (changed);
}

static DrySchedule *
make (const DryPlan *plan)
{
  g_autoptr (GError) error = NULL;
  DrySchedule *schedule = dry_schedule_new (&plan, 1, NULL, NULL, &error);

  g_assert_no_error (error);
  return schedule;
}

static DrySchedule *
make_for (const char *system, DryJob set)
{
  g_autoptr (DryPlan) plan = make_plan (system, set);

  return make (plan);
}

/* --- what must hold of any --- */

static void
check_task (const DrySchedule *schedule, const DryTask *task)
{
  g_assert_cmpint (task->slack, >=, 0);
  g_assert_cmpint (task->start, <=, task->finish);
  g_assert_cmpint (task->finish, <=, task->late_finish);
  g_assert_cmpint (task->longest_start, >=, task->start);
  g_assert_cmpint (task->finish, <=, schedule->finish);
  if (task->kind == DRY_TASK_WORK) {
    g_assert_cmpint (dry_calendar_between (schedule->calendar, task->start, task->finish), ==,
                     task->minutes);
    g_assert_cmpfloat (task->minutes * task->crew, >=, task->hours * 60 - 1e-6);
    g_assert_nonnull (task->working.formula);
    g_assert_nonnull (task->working.source.text);
  }
  for (guint j = 0; j < task->n_after; j++) {
    const DryTaskLink *link = &task->after[j];
    g_assert_cmpint (schedule->tasks[link->task].finish + link->wait, <=, task->start);
    g_assert_cmpint (link->wait, <=, link->longest);
    if (link->longest > 0) {
      g_assert_nonnull (link->because);
      g_assert_nonnull (link->working.source.text);
    }
  }
}

/* One crew: no two pieces of work at a time, and nothing passes a hold. */
static void
check_crew (const DrySchedule *schedule)
{
  gint64 busy = G_MININT64;

  for (guint i = 0; i < schedule->n; i++) {
    const DryTask *task = &schedule->tasks[i];
    if (task->kind != DRY_TASK_WORK)
      continue;
    g_assert_cmpint (task->start, >=, busy);
    busy = task->finish;
  }
}

static void
check_path (const DrySchedule *schedule)
{
  if (schedule->n == 0)
    return;
  const DryTask *last = &schedule->tasks[schedule->path[schedule->n_path - 1]];
  g_assert_cmpint (last->finish, ==, schedule->finish);
  g_assert_cmpint (schedule->tasks[schedule->path[0]].start, ==, schedule->start);
  for (guint k = 0; k < schedule->n_path; k++)
    g_assert_true (schedule->tasks[schedule->path[k]].critical);
}

static void
check (const DrySchedule *schedule)
{
  double hours = 0;

  for (guint i = 0; i < schedule->n; i++) {
    check_task (schedule, &schedule->tasks[i]);
    hours += schedule->tasks[i].hours;
  }
  g_assert_cmpfloat_with_epsilon (hours, schedule->hours, 1e-9);
  check_crew (schedule);
  check_path (schedule);
}

static void
test_any_room (void)
{
  for (guint32 seed = 1; seed <= 40; seed++) {
    g_autoptr (DryProject) project = dry_test_random_project (seed);
    g_autoptr (DryPlan) plan = make_plan_with (project);
    g_autoptr (DrySchedule) schedule = make (plan);

    g_test_message ("seed %u", seed);
    check (schedule);
    g_assert_false (schedule->dated);
    g_assert_cmpfloat (schedule->hours, >=, plan->order->hours - 1e-9);
  }
}

static void
test_two_rooms (void)
{
  g_autoptr (DryPlan) a = make_plan ("cement-liquid", (DryJob){0});
  g_autoptr (DryPlan) b = make_plan ("foam-bands", (DryJob){0});
  const DryPlan *both[] = {a, b};
  g_autoptr (DrySchedule) one = make (a), other = make (b), together = NULL;
  g_autoptr (GError) error = NULL;

  together = dry_schedule_new (both, 2, NULL, NULL, &error);
  g_assert_no_error (error);
  check (together);
  g_assert_cmpuint (together->n, ==, one->n + other->n);
  g_assert_cmpfloat_with_epsilon (together->hours, one->hours + other->hours, 1e-9);
  g_assert_cmpint (together->finish, >=, MAX (one->finish, other->finish));
  /* while one room dries the other is worked at */
  g_assert_cmpint (together->finish - together->start, <,
                   one->finish - one->start + other->finish - other->start);
  g_assert_nonnull (dry_schedule_get_task (together, "2/boards"));
}

/* --- values --- */

static gint64
wait_before (const DrySchedule *schedule, const char *id)
{
  const DryTask *task = dry_schedule_get_task (schedule, id);
  gint64 wait = 0;

  g_assert_nonnull (task);
  for (guint i = 0; i < task->n_after; i++)
    wait = MAX (wait, task->after[i].wait);
  return wait;
}

/* Between coats 2 to 12 h by data/systems/cement-liquid.json: the shortest at 21 C, the longest at
 * 10 C, half between at 15.5 C. */
static void
test_temperature (void)
{
  g_autoptr (DrySchedule) warm = make_for ("cement-liquid", (DryJob){.temperature = 21});
  g_autoptr (DrySchedule) cool = make_for ("cement-liquid", (DryJob){.temperature = 15.5});
  g_autoptr (DrySchedule) cold = make_for ("cement-liquid", (DryJob){.temperature = 10});
  g_autoptr (DrySchedule) frost = make_for ("cement-liquid", (DryJob){.temperature = 4});
  g_autoptr (DrySchedule) hot = make_for ("cement-liquid", (DryJob){.temperature = 30});

  g_assert_cmpint (wait_before (warm, "coat-2"), ==, 2 * 60);
  g_assert_cmpint (wait_before (hot, "coat-2"), ==, 2 * 60);
  g_assert_cmpint (wait_before (cool, "coat-2"), ==, 7 * 60);
  g_assert_cmpint (wait_before (cold, "coat-2"), ==, 12 * 60);
  g_assert_cmpint (warm->shower, <=, cool->shower);
  g_assert_cmpint (cool->shower, <=, cold->shower);
  g_assert_cmpint (cold->shower, <=, warm->shower_longest);
  g_assert_false (cold->too_cold);
  g_assert_true (frost->too_cold);
}

static void
test_days_off (void)
{
  g_autoptr (DrySchedule) usual = make_for ("cement-liquid", (DryJob){0});
  g_autoptr (DrySchedule) holidays =
      make_for ("cement-liquid", (DryJob){.holidays = (char *) "2026-12-02/2026-12-13"});
  g_autoptr (DrySchedule) two = make_for ("cement-liquid", (DryJob){.crew = 2});
  g_autoptr (DrySchedule) fridays =
      make_for ("cement-liquid", (DryJob){.work_days = (char *) "Fri"});

  check (holidays);
  check (two);
  check (fridays);
  g_assert_cmpint (holidays->shower, >=, usual->shower + 9 * DRY_MINUTES_A_DAY);
  g_assert_cmpint (two->shower, <=, usual->shower);
  g_assert_cmpfloat_with_epsilon (two->hours, usual->hours, 1e-9);
  g_assert_cmpint (fridays->shower, >, usual->shower);
  for (guint i = 0; i < fridays->n; i++)
    if (fridays->tasks[i].kind == DRY_TASK_WORK)
      g_assert_cmpuint (dry_date_weekday (fridays->tasks[i].start / DRY_MINUTES_A_DAY), ==, 4);
}

/* Grouting 24 h after the last tile, first shower 72 h after grouting: the shipped systems' waits.
 */
static void
test_after_tile (void)
{
  g_autoptr (DrySchedule) schedule = make_for ("foam-bands", (DryJob){0});
  const DryTask *tile = dry_schedule_get_task (schedule, "set-tile");
  const DryTask *grout = dry_schedule_get_task (schedule, "grout");
  const DryTask *shower = dry_schedule_get_task (schedule, "shower");

  g_assert_cmpint (grout->start, >=, tile->finish + 24 * 60);
  g_assert_cmpint (shower->start, >=, grout->finish + 72 * 60);
  g_assert_cmpint (schedule->shower, ==, shower->start);
  g_assert_cmpint (schedule->tile_start, <=, tile->start);
  g_assert_cmpint (dry_schedule_count_days (schedule, schedule->start), ==, 1);
}

/* A tile with an edge of 15 in is grouted after three days at the earliest; one just smaller after
 * one. */
static void
test_large_tile (void)
{
  static const struct {
    DryLength side;
    gint64 hours;
  } cases[] = {{15 * DRY_INCH - 1, 24}, {15 * DRY_INCH, 72}, {48 * DRY_INCH, 72}};

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++) {
    g_autoptr (DryProject) project = dry_test_furnished_alcove ("foam-bands");
    DryId room = dry_test_room (project);
    DryFinish finish = dry_project_get_room (project, room)->finish;
    g_autoptr (DryProject) tiled = NULL;
    g_autoptr (DryPlan) plan = NULL;
    g_autoptr (DrySchedule) schedule = NULL;
    const DryTask *grout;

    finish.tiled = TRUE;
    finish.tile_width = 12 * DRY_INCH;
    finish.tile_height = cases[i].side;
    tiled = dry_edit_set_finish (project, room, &finish, NULL);
    plan = make_plan_with (tiled);
    schedule = make (plan);
    grout = dry_schedule_get_task (schedule, "grout");
    g_assert_cmpuint (grout->n_after, ==, 1);
    g_assert_cmpint (grout->after[0].wait, ==, cases[i].hours * 60);
    g_assert_cmpint (grout->after[0].longest, >=, grout->after[0].wait);
  }
}

static void
test_no_tile (void)
{
  g_autoptr (DryProject) project = dry_test_furnished_alcove ("foam-bands");
  g_autoptr (GError) error = NULL;
  DryId room = dry_test_room (project);
  DryFinish finish = dry_project_get_room (project, room)->finish;
  g_autoptr (DryProject) bare = NULL;
  g_autoptr (DryPlan) plan = NULL;
  g_autoptr (DrySchedule) schedule = NULL;

  finish.tiled = FALSE;
  bare = dry_edit_set_finish (project, room, &finish, &error);
  g_assert_no_error (error);
  plan = make_plan_with (bare);
  schedule = make (plan);
  check (schedule);
  g_assert_cmpint (schedule->shower, ==, -1);
  g_assert_cmpint (schedule->tile_start, >, 0);
  g_assert_cmpstr (schedule->missing, ==, "no tile is chosen yet");
}

/* A price book says how long things take, where it does. */
static void
test_book_hours (void)
{
  static const DryTaskRate rates[] = {
      {"set-tile", 2, 1, 4, 0, {"the firm's own", DRY_CERTAINTY_SECONDARY}},
      {"boards", 0.5, 0.25, 0, 0, {"the firm's own", DRY_CERTAINTY_SECONDARY}}};
  DryPriceBook book = {.id = "own", .name = "Own", .currency = "USD", .tasks = rates, .n_tasks = 2};
  g_autoptr (DryPlan) plan = make_plan ("foam-bands", (DryJob){.crew = 3});
  g_autoptr (GError) error = NULL;
  g_autoptr (DrySchedule) schedule =
      dry_schedule_new ((const DryPlan *const[]){plan}, 1, &book, NULL, &error);
  const DryTask *tile = dry_schedule_get_task (schedule, "set-tile");
  const DryTask *boards = dry_schedule_get_task (schedule, "boards");

  g_assert_no_error (error);
  g_assert_cmpfloat_with_epsilon (tile->hours, 2 + plan->coating->board_area, 1e-9);
  g_assert_cmpuint (tile->crew, ==, 3);
  g_assert_cmpfloat_with_epsilon (boards->hours, 0.5 + 0.25 * plan->coating->wet_area, 1e-9);
  g_assert_cmpuint (boards->crew, ==, 2);
  g_assert_cmpstr (tile->working.source.text, ==, "the firm's own");
}

/* Hours in any case, hours for each square meter, or neither: what the book leaves out of a step is
 * not counted, of a task after it the usual is taken. */
static void
test_book_parts (void)
{
  static const struct {
    double fixed, each;
    gboolean own;
  } rows[] = {{3, -1, TRUE}, {-1, 0.5, TRUE}, {3, 0.5, TRUE}, {0, 0, TRUE}, {-1, -1, FALSE}};
  g_autoptr (DryPlan) plan = make_plan ("foam-bands", (DryJob){.crew = 2});
  g_autoptr (DrySchedule) usual = make (plan);
  double area = plan->coating->board_area, wet = plan->coating->wet_area;
  double boards_usual = dry_schedule_get_task (usual, "boards")->hours;

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++) {
    const DrySource own = {"the firm's own", DRY_CERTAINTY_SECONDARY};
    const DryTaskRate rates[] = {{"grout", rows[i].fixed, rows[i].each, 0, 0, own},
                                 {"boards", rows[i].fixed, rows[i].each, 1, 0, own}};
    DryPriceBook book = {
        .id = "own", .name = "Own", .currency = "USD", .tasks = rates, .n_tasks = 2};
    g_autoptr (GError) error = NULL;
    g_autoptr (DrySchedule) schedule =
        dry_schedule_new ((const DryPlan *const[]){plan}, 1, &book, NULL, &error);
    const DryTask *grout = dry_schedule_get_task (schedule, "grout");
    const DryTask *boards = dry_schedule_get_task (schedule, "boards");

    g_assert_no_error (error);
    /* usual: 0.5 h and 0.35 h a square meter, common practice, no source */
    g_assert_cmpfloat_with_epsilon (grout->hours,
                                    (rows[i].fixed >= 0 ? rows[i].fixed : 0.5) +
                                        (rows[i].each >= 0 ? rows[i].each : 0.35) * area,
                                    1e-9);
    g_assert_cmpfloat_with_epsilon (
        boards->hours,
        rows[i].own ? MAX (rows[i].fixed, 0) + MAX (rows[i].each, 0) * wet : boards_usual, 1e-9);
    g_assert_true (g_str_equal (grout->working.source.text, own.text) == rows[i].own);
    g_assert_true (g_str_equal (boards->working.source.text, own.text) == rows[i].own);
    g_assert_cmpuint (boards->crew, ==, 1); /* the book lets one do it */
  }
}

/* Without a tub there is no wet wall, nothing to do and no date; the schedule says what is
 * missing. */
static void
test_nothing_wet (void)
{
  g_autoptr (DryProject) project = dry_test_alcove ("foam-bands");
  g_autoptr (GError) error = NULL;
  g_autoptr (DryProject) dry = dry_edit_remove (project, dry_test_room (project),
                                                dry_test_first_room (project)->basin.id, &error);
  g_autoptr (DryPlan) plan = NULL;
  g_autoptr (DrySchedule) schedule = NULL;

  g_assert_no_error (error);
  plan = make_plan_with (dry);
  schedule = make (plan);
  check (schedule);
  g_assert_cmpuint (schedule->n, ==, 0);
  g_assert_cmpstr (schedule->missing, ==, "no wet wall is planned yet");
  g_assert_cmpint (schedule->shower, ==, -1);
  g_assert_cmpint (schedule->tile_start, ==, -1);
  g_assert_cmpint (dry_schedule_count_days (schedule, schedule->start), ==, 1);
  g_assert_null (dry_schedule_get_task (schedule, "boards"));
}

/* Cement grout is sealed, epoxy is not; glass is measured only where there is some. */
static void
test_what_there_is (void)
{
  static const char *const always[] = {"set-tile", "grout", "sealant", "trim-out", "shower"};

  for (guint epoxy = 0; epoxy < 2; epoxy++)
    for (guint glass = 0; glass < 2; glass++) {
      g_autoptr (DryProject) project = dry_test_furnished_alcove ("foam-bands");
      g_autoptr (GError) error = NULL;
      DryId room = dry_test_room (project);
      DryFinish finish = dry_project_get_room (project, room)->finish;
      const DryPart pane = {.kind = DRY_PART_GLASS,
                            .wall = dry_test_wall (project, 'e'),
                            .u = 30 * DRY_INCH,
                            .z = 15 * DRY_INCH,
                            .width = 30 * DRY_INCH,
                            .height = 60 * DRY_INCH,
                            .depth = DRY_INCH * 3 / 8};
      g_autoptr (DryProject) set = NULL, changed = NULL;
      g_autoptr (DryPlan) plan = NULL;
      g_autoptr (DrySchedule) schedule = NULL;

      finish.mortar_kind = epoxy ? DRY_MORTAR_EPOXY : DRY_MORTAR_AS_SYSTEM;
      set = dry_edit_set_finish (project, room, &finish, &error);
      changed = glass ? dry_edit_set_part (set, room, &pane, NULL, &error) : dry_project_ref (set);
      g_assert_no_error (error);
      plan = make_plan_with (changed);
      schedule = make (plan);
      check (schedule);
      for (guint i = 0; i < G_N_ELEMENTS (always); i++)
        g_assert_nonnull (dry_schedule_get_task (schedule, always[i]));
      g_assert_true ((dry_schedule_get_task (schedule, "seal-grout") != NULL) == !epoxy);
      g_assert_true ((dry_schedule_get_task (schedule, "hang-glass") != NULL) == glass);
    }
}

/* A moment of a job with a date is told by it, of one without by its day. */
static void
test_moments (void)
{
  g_autoptr (DrySchedule) dated = make_for ("foam-bands", (DryJob){0});
  g_autoptr (DryProject) project = dry_test_furnished_alcove ("foam-bands");
  g_autoptr (DryPlan) plan = make_plan_with (project);
  g_autoptr (DrySchedule) undated = make (plan);

  g_assert_true (g_str_has_prefix (dry_schedule_moment (dated, dated->start), "Tue 2026-12-01 "));
  g_assert_true (g_str_has_prefix (dry_schedule_moment (undated, undated->start), "day 1, "));
  g_assert_cmpstr (dry_schedule_day (undated, undated->start + DRY_MINUTES_A_DAY), ==, "day 2");
}

static void
test_bad_start (void)
{
  g_autoptr (DryPlan) plan = make_plan ("foam-bands", (DryJob){.start = (char *) "next week"});
  g_autoptr (GError) error = NULL;

  g_assert_null (dry_schedule_new ((const DryPlan *const[]){plan}, 1, NULL, NULL, &error));
  g_assert_error (error, DRY_ERROR, DRY_ERROR_TEXT);
  g_assert_nonnull (strstr (error->message, "“next week”"));
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/schedule/any-room", test_any_room);
  g_test_add_func ("/schedule/two-rooms", test_two_rooms);
  g_test_add_func ("/schedule/temperature", test_temperature);
  g_test_add_func ("/schedule/days-off", test_days_off);
  g_test_add_func ("/schedule/after-tile", test_after_tile);
  g_test_add_func ("/schedule/large-tile", test_large_tile);
  g_test_add_func ("/schedule/no-tile", test_no_tile);
  g_test_add_func ("/schedule/book-hours", test_book_hours);
  g_test_add_func ("/schedule/book-parts", test_book_parts);
  g_test_add_func ("/schedule/nothing-wet", test_nothing_wet);
  g_test_add_func ("/schedule/what-there-is", test_what_there_is);
  g_test_add_func ("/schedule/moments", test_moments);
  g_test_add_func ("/schedule/bad-start", test_bad_start);
  return g_test_run ();
}
