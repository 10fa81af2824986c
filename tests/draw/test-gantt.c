/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The chart of a schedule: a bar or a mark for each task, in its row, over its days; and the
 * client's picture, which shows nothing of the workshop. */
#include "draw/drawings.h"
#include "support/fixtures.h"

static DryPlan *
make_plan (void)
{
  g_autoptr (DryProject) project = dry_test_furnished_alcove ("cement-liquid");
  g_autoptr (GError) error = NULL;
  DryPlan *plan =
      dry_plan_new (project, dry_test_room (project), dry_test_catalog (), NULL, &error);

  g_assert_no_error (error);
  return plan;
}

/* Left edges of what each task is drawn as, by index; G_MAXINT64 where nothing is. */
static DryLength *
find_left_edges (const DryScene *scene, guint n)
{
  DryLength *left = g_new (DryLength, n);

  for (guint i = 0; i < n; i++)
    left[i] = G_MAXINT64;
  for (guint i = 0; i < scene->n; i++) {
    const DryPrimitive *item = &scene->items[i];
    if (item->kind != DRY_PRIMITIVE_PATH || !item->closed || item->index < 0 || item->fill == 0)
      continue;
    for (guint j = 0; j < item->n_points; j++)
      left[item->index] = MIN (left[item->index], item->points[j].x);
  }
  return left;
}

static void
test_chart (void)
{
  g_autoptr (DryPlan) plan = make_plan ();
  g_autoptr (GError) error = NULL;
  g_autoptr (DrySchedule) schedule =
      dry_schedule_new ((const DryPlan *const[]){plan}, 1, NULL, "2026-12-01", &error);
  g_autoptr (DryScene) scene = NULL;
  g_autofree DryLength *left = NULL;

  g_assert_no_error (error);
  scene = dry_drawing_gantt (schedule, plan->context.job, 0, schedule->n);
  left = find_left_edges (scene, schedule->n);
  for (guint i = 0; i < schedule->n; i++) {
    g_test_message ("%s", schedule->tasks[i].id);
    g_assert_cmpint (left[i], <, G_MAXINT64);
    if (i > 0 && schedule->tasks[i].kind != DRY_TASK_MILESTONE &&
        schedule->tasks[i - 1].kind != DRY_TASK_MILESTONE &&
        schedule->tasks[i].start > schedule->tasks[i - 1].start)
      g_assert_cmpint (left[i], >, left[i - 1]);
  }
  for (guint i = 0; i < scene->n; i++)
    for (guint j = 0; j < scene->items[i].n_points; j++) {
      g_assert_cmpint (scene->items[i].points[j].x, >=, scene->bounds.x0);
      g_assert_cmpint (scene->items[i].points[j].x, <=, scene->bounds.x1);
      g_assert_cmpint (scene->items[i].points[j].y, >=, scene->bounds.y0);
    }
}

static void
test_pieces_of_a_chart (void)
{
  g_autoptr (DryPlan) plan = make_plan ();
  g_autoptr (GError) error = NULL;
  g_autoptr (DrySchedule) schedule =
      dry_schedule_new ((const DryPlan *const[]){plan}, 1, NULL, NULL, &error);
  g_autoptr (DryScene) some = dry_drawing_gantt (schedule, plan->context.job, 4, 3);
  g_autoptr (DryScene) none = dry_drawing_gantt (schedule, plan->context.job, schedule->n, 5);

  for (guint i = 0; i < some->n; i++)
    g_assert_true (some->items[i].index < 0 ||
                   (some->items[i].index >= 4 && some->items[i].index < 7));
  g_assert_cmpuint (none->n, >, 0); /* days without tasks, and no crash */
}

static void
test_client (void)
{
  g_autoptr (DryPlan) plan = make_plan ();
  g_autoptr (DryScene) scene = dry_drawing_client (plan);
  guint tile = 0, parts = 0;

  for (guint i = 0; i < scene->n; i++) {
    const DryPrimitive *item = &scene->items[i];
    tile += item->layer == DRY_LAYER_TILE;
    parts += item->layer == DRY_LAYER_PARTS;
    g_assert_true (item->layer != DRY_LAYER_STUDS && item->layer != DRY_LAYER_BOARDS &&
                   item->layer != DRY_LAYER_FASTENERS && item->layer != DRY_LAYER_JOINTS &&
                   item->layer != DRY_LAYER_HIDDEN && item->layer != DRY_LAYER_FINDINGS &&
                   item->layer != DRY_LAYER_DIMENSIONS);
  }
  g_assert_cmpuint (tile, >, 0);
  g_assert_cmpuint (parts, >, 0);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/gantt/chart", test_chart);
  g_test_add_func ("/gantt/pieces", test_pieces_of_a_chart);
  g_test_add_func ("/client/nothing-of-the-workshop", test_client);
  return g_test_run ();
}
