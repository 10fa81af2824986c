/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The worker without a window: the live plan first, then one with fewer sheets where there is one;
 * the newest project always wins. */
#include "plan/cutting-standing.h"
#include "support/fixtures.h"
#include "ui/worker.h"

#define SERIAL_FIRST 7
static const guint64 EFFORTS[] = {DRY_CUTTING_SECOND / 20, 0};

typedef struct {
  DryPlan *live, *searched;
  guint n_live, n_searched, serial;
} Box;

static void
answered_cb (const DryReply *answer, gpointer data)
{
  Box *box = data;

  g_assert_no_error (answer->error);
  g_assert_nonnull (answer->scene);
  box->serial = answer->serial;
  if (answer->searched) {
    box->n_searched++;
    g_clear_pointer (&box->searched, dry_plan_unref);
    box->searched = dry_plan_ref (answer->plan);
  } else {
    box->n_live++;
    g_clear_pointer (&box->live, dry_plan_unref);
    box->live = dry_plan_ref (answer->plan);
  }
}

static void
box_clear (Box *box)
{
  g_clear_pointer (&box->live, dry_plan_unref);
  g_clear_pointer (&box->searched, dry_plan_unref);
}

G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (Box, box_clear)

static gboolean
stop_cb (gpointer data)
{
  *(gboolean *) data = TRUE;
  return G_SOURCE_REMOVE;
}

/* Until `count` is `n`, or so long. */
static void
wait_for (const guint *count, guint n, guint ms)
{
  gboolean over = FALSE;
  guint timer = g_timeout_add (ms, stop_cb, &over);

  while (*count < n && !over)
    g_main_context_iteration (NULL, TRUE);
  if (!over)
    g_source_remove (timer);
}

static DryPlan *
make_plan (const DryProject *project, guint64 effort)
{
  return dry_plan_new_searched (project, dry_test_room (project), dry_test_catalog (), effort, NULL,
                                NULL);
}

/* A room in which the live plan buys a sheet too many. */
static DryProject *
find_room (gboolean fewer)
{
  for (guint32 seed = 1; seed < 400; seed++) {
    g_autoptr (DryProject) project = dry_test_random_project (seed);
    g_autoptr (DryPlan) live = make_plan (project, 0), plan = make_plan (project, EFFORTS[0]);

    if (fewer ? plan->boards->cutting->n_bought < live->boards->cutting->n_bought
              : dry_boards_is_settled (live->boards))
      return g_steal_pointer (&project);
  }
  g_error ("no such room");
}

static void
test_fewer_sheets (void)
{
  g_autoptr (DryProject) project = find_room (TRUE);
  g_auto (Box) box = {0};
  g_autoptr (DryWorker) worker = dry_worker_new (dry_test_catalog (), answered_cb, &box);

  dry_worker_set_efforts (worker, EFFORTS);
  dry_worker_request (worker, project, dry_test_room (project), SERIAL_FIRST);
  wait_for (&box.n_searched, 1, 30000);
  g_assert_cmpuint (box.n_live, ==, 1);
  g_assert_cmpuint (box.n_searched, ==, 1);
  g_assert_cmpuint (box.serial, ==, SERIAL_FIRST);
  g_assert_true (box.searched->project == box.live->project);
  g_assert_cmpuint (box.searched->boards->cutting->n_bought, <,
                    box.live->boards->cutting->n_bought);
  /* What is bought follows. */
  g_assert_cmpint (box.searched->takeoff->cost, !=, box.live->takeoff->cost);

  /* The same from a plan that was there before. */
  dry_worker_search (worker, box.live, SERIAL_FIRST + 1);
  wait_for (&box.n_searched, 2, 30000);
  g_assert_cmpuint (box.n_live, ==, 1);
  g_assert_cmpuint (box.n_searched, ==, 2);
  g_assert_cmpuint (box.serial, ==, SERIAL_FIRST + 1);
}

static void
test_settled (void)
{
  g_autoptr (DryProject) project = find_room (FALSE);
  g_auto (Box) box = {0};
  g_autoptr (DryWorker) worker = dry_worker_new (dry_test_catalog (), answered_cb, &box);

  dry_worker_request (worker, project, dry_test_room (project), SERIAL_FIRST);
  wait_for (&box.n_searched, 1, 600);
  g_assert_cmpuint (box.n_live, ==, 1);
  g_assert_cmpuint (box.n_searched, ==, 0);
}

/* A search of an hour gives way to the next project, and to the end of the worker. */
static void
test_gives_way (void)
{
  static const guint64 LONG[] = {3600 * DRY_CUTTING_SECOND, 0};
  g_autoptr (DryProject) project = find_room (TRUE), next = find_room (FALSE);
  g_auto (Box) box = {0};
  g_autoptr (DryWorker) worker = dry_worker_new (dry_test_catalog (), answered_cb, &box);

  dry_worker_set_efforts (worker, LONG);
  dry_worker_request (worker, project, dry_test_room (project), 1);
  wait_for (&box.n_live, 1, 30000);
  wait_for (&box.n_searched, 1, 400); /* time for the search to begin */
  dry_worker_request (worker, next, dry_test_room (next), 2);
  wait_for (&box.n_live, 2, 30000);
  g_assert_cmpuint (box.n_live, ==, 2);
  g_assert_cmpuint (box.serial, ==, 2);
  dry_worker_request (worker, project, dry_test_room (project), 3);
  wait_for (&box.n_live, 3, 30000);
  wait_for (&box.n_searched, 1, 400);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/worker/fewer-sheets", test_fewer_sheets);
  g_test_add_func ("/worker/settled", test_settled);
  g_test_add_func ("/worker/gives-way", test_gives_way);
  return g_test_run ();
}
