/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Ticking off: nothing before what it follows, and tile not before the coat has cured, however the
 * days were planned. */
#include <string.h>

#include "plan/done.h"
#include "support/fixtures.h"

static void
test_moments (void)
{
  static const char *const bad[] = {"",
                                    "2026-12-01",
                                    "2026-12-01 16:30",
                                    "2026-02-30T10:00",
                                    "2026-12-01T24:00",
                                    "2026-12-01T10:60",
                                    "2026-12-01T1a:00",
                                    "2026-12-01T10:00Z"};
  gint64 minute;

  for (guint i = 0; i < G_N_ELEMENTS (bad); i++)
    g_assert_false (dry_moment_parse (bad[i], &minute));
  g_assert_true (dry_moment_parse ("1970-01-02T00:01", &minute));
  g_assert_cmpint (minute, ==, 1441);
  for (gint64 m = 29000000; m < 29003000; m += 7) {
    g_autofree char *text = dry_moment_to_text (m);
    g_assert_true (dry_moment_parse (text, &minute));
    g_assert_cmpint (minute, ==, m);
  }
}

static void
test_list (void)
{
  g_autofree char *one = dry_done_set (NULL, "boards", 1441);
  g_autofree char *two = dry_done_set (one, "coat-1", 2000);
  g_autofree char *again = dry_done_set (two, "boards", 3000);
  g_autofree char *without = dry_done_set (again, "boards", -1);
  g_autofree char *none = dry_done_set (without, "coat-1", -1);

  g_assert_cmpstr (one, ==, "boards=1970-01-02T00:01");
  g_assert_cmpint (dry_done_get (two, "boards"), ==, 1441);
  g_assert_cmpint (dry_done_get (two, "coat-1"), ==, 2000);
  g_assert_cmpint (dry_done_get (two, "coat"), ==, -1); /* no part of a name is a name */
  g_assert_cmpint (dry_done_get (again, "boards"), ==, 3000);
  g_assert_cmpint (dry_done_get (without, "boards"), ==, -1);
  g_assert_null (none);
  g_assert_cmpint (dry_done_get ("boards=never  = boards", "boards"), ==, -1);
}

static guint
find_task (const DrySchedule *schedule, const char *step)
{
  for (guint i = 0; i < schedule->n; i++)
    if (g_str_equal (schedule->tasks[i].step, step))
      return i;
  g_error ("There is no step %s", step);
}

/* The wait of a task for another, or 0. */
static gint64
wait_of (const DrySchedule *schedule, guint task, guint earlier)
{
  for (guint i = 0; i < schedule->tasks[task].n_after; i++)
    if (schedule->tasks[task].after[i].task == earlier)
      return schedule->tasks[task].after[i].wait;
  return 0;
}

/* The whole order, ticked off as soon as each step allows: every wait was kept, and one minute
 * before its end the next step is refused. */
static void
run_order (const char *system)
{
  g_autoptr (DryProject) project = dry_test_furnished_alcove (system);
  g_autoptr (DryPlan) plan =
      dry_plan_new (project, dry_test_room (project), dry_test_catalog (), NULL, NULL);
  g_autoptr (DrySchedule) schedule =
      dry_schedule_new ((const DryPlan *const[]){plan}, 1, NULL, "2026-12-01", NULL);
  g_autofree char *done = NULL;
  gint64 now = schedule->start;
  guint refused = 0, curing = 0;

  for (guint i = 0; i < schedule->n; i++) {
    DryTick tick = dry_done_judge (schedule, i, done, now);
    char *next;

    if (schedule->tasks[i].kind == DRY_TASK_MILESTONE)
      continue;
    if (i > 0)
      refused += dry_done_judge (schedule, schedule->n - 2, NULL, now).kind == DRY_TICK_EARLY;
    if (tick.kind == DRY_TICK_CURING) {
      curing++;
      g_assert_nonnull (tick.because);
      g_assert_nonnull (tick.first);
      g_assert_cmpint (tick.until, >, now);
      g_assert_cmpint (dry_done_judge (schedule, i, done, tick.until - 1).kind, ==,
                       DRY_TICK_CURING);
      now = tick.until;
      tick = dry_done_judge (schedule, i, done, now);
    }
    g_assert_cmpint (tick.kind, ==, DRY_TICK_FREE);
    next = dry_done_set (done, schedule->tasks[i].step, now);
    g_free (done);
    done = next;
    g_assert_cmpint (dry_done_judge (schedule, i, done, now).kind, ==, DRY_TICK_DONE);
    now++;
  }
  g_assert_cmpuint (curing, >, 0);
  g_assert_cmpuint (refused, >, 0);
  for (guint i = 0; i < schedule->n; i++)
    for (guint k = 0; k < schedule->tasks[i].n_after; k++) {
      const DryTask *task = &schedule->tasks[i], *earlier = &schedule->tasks[task->after[k].task];
      if (task->after[k].crew || task->kind == DRY_TASK_MILESTONE ||
          earlier->kind == DRY_TASK_MILESTONE)
        continue;
      g_assert_cmpint (dry_done_get (done, task->step), >=,
                       dry_done_get (done, earlier->step) + task->after[k].wait);
    }
}

static void
test_orders (void)
{
  for (guint i = 0; i < dry_catalog_get_n_systems (dry_test_catalog ()); i++)
    run_order (dry_catalog_get_system_at (dry_test_catalog (), i)->id);
}

/* What follows the second coat is refused until that has cured, and tile until all of it is done.
 */
static void
test_cure_before_tile (void)
{
  g_autoptr (DryProject) project = dry_test_furnished_alcove ("cement-liquid");
  g_autoptr (DryPlan) plan =
      dry_plan_new (project, dry_test_room (project), dry_test_catalog (), NULL, NULL);
  g_autoptr (DrySchedule) schedule =
      dry_schedule_new ((const DryPlan *const[]){plan}, 1, NULL, "2026-12-01", NULL);
  guint tile = find_task (schedule, "set-tile"), coat = find_task (schedule, "coat-2"), next = 0;
  gint64 at = schedule->start + 1000;
  g_autofree char *done = NULL;
  DryTick tick;

  for (guint i = 0; i <= coat; i++) {
    char *longer = dry_done_set (done, schedule->tasks[i].step, at);
    g_free (done);
    done = longer;
  }
  for (guint i = schedule->n; i > coat + 1; i--)
    if (wait_of (schedule, i - 1, coat) > 0)
      next = i - 1;
  g_assert_cmpuint (next, >, coat);
  tick = dry_done_judge (schedule, next, done, at + 1);
  g_assert_cmpint (tick.kind, ==, DRY_TICK_CURING);
  g_assert_true (tick.first == &schedule->tasks[coat]);
  g_assert_cmpint (tick.until, ==, at + wait_of (schedule, next, coat));
  g_assert_nonnull (tick.because);
  g_assert_cmpint (dry_done_judge (schedule, next, done, tick.until).kind, ==, DRY_TICK_FREE);
  /* A coat renewed cures anew. */
  g_free (done);
  done = NULL;
  for (guint i = 0; i <= coat; i++) {
    char *longer = dry_done_set (done, schedule->tasks[i].step, i == coat ? at + 600 : at);
    g_free (done);
    done = longer;
  }
  g_assert_cmpint (dry_done_judge (schedule, next, done, at + 1).until, ==,
                   at + 600 + wait_of (schedule, next, coat));
  if (next != tile)
    g_assert_cmpint (dry_done_judge (schedule, tile, done, tick.until + 99999).kind, ==,
                     DRY_TICK_EARLY);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/done/moments", test_moments);
  g_test_add_func ("/done/list", test_list);
  g_test_add_func ("/done/cure-before-tile", test_cure_before_tile);
  g_test_add_func ("/done/orders", test_orders);
  return g_test_run ();
}
