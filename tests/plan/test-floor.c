/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A floor made on site: volumes against worked examples and a plain grid, the order of its work,
 * and that a ready pan asks for none of it. */
#include "plan/floor.h"

#include <math.h>

#include "plan/amounts.h"
#include "plan/schedule.h"
#include "support/fixtures.h"

#define LITRES_PER_FT3 28.316846592

/* --- volumes --- */

/* 4 x 4 ft, 1-1/2 in at the drain and 2 in at the rim: 2.333 ft3 to a line and 2.444 ft3 to a
 * point; a derivation public among tile setters (block less wedge or pyramid), checked by
 * arithmetic. */
static void
test_worked_examples (void)
{
  double area = 16 * DRY_M2_PER_FT2;

  g_assert_cmpfloat_with_epsilon (dry_floor_volume (area, 3 * DRY_INCH / 2, 2 * DRY_INCH, TRUE) /
                                      LITRES_PER_FT3,
                                  28.0 / 12, 1e-6);
  g_assert_cmpfloat_with_epsilon (dry_floor_volume (area, 3 * DRY_INCH / 2, 2 * DRY_INCH, FALSE) /
                                      LITRES_PER_FT3,
                                  16 * (1.5 + 4) / 3 / 12, 1e-6);
}

/* Share of the way from the drain to the rim at a point of the rectangle: 0 at the drain, 1 at it.
 */
static double
share_of_way (double x, double y, double dx, double dy, double l, double w)
{
  double sx = x > dx ? (x - dx) / (l - dx) : (dx - x) / dx;
  double sy = y > dy ? (y - dy) / (w - dy) : (dy - y) / dy;

  return MAX (sx, sy);
}

static double
sum_over_grid (double l, double w, double dx, double dy, double t, double T)
{
  const guint n = 800;
  double sum = 0;

  for (guint i = 0; i < n; i++)
    for (guint j = 0; j < n; j++)
      sum += t + (T - t) * share_of_way (l * (i + 0.5) / n, w * (j + 0.5) / n, dx, dy, l, w);
  return sum / n / n;
}

static void
test_point_drain_anywhere (void)
{
  static const double drains[][2] = {{0.5, 0.5}, {0.25, 0.5}, {0.1, 0.3}, {0.8, 0.9}};

  for (guint i = 0; i < G_N_ELEMENTS (drains); i++) {
    double l = 1500, w = 900, t = 38.1, T = 60;
    double mean = sum_over_grid (l, w, drains[i][0] * l, drains[i][1] * w, t, T);

    g_assert_cmpfloat_with_epsilon (
        dry_floor_volume (1, (DryLength) (t * DRY_MM), (DryLength) (T * DRY_MM), FALSE), mean,
        mean * 1e-4);
  }
}

/* --- in a plan --- */

static DryPlan *
plan_with (const char *file, void (*change) (DryBasin *basin))
{
  g_autoptr (GError) error = NULL;
  g_autoptr (DryProject) project = dry_test_load (file), changed = NULL;
  DryId room = dry_test_room (project);
  DryBasin basin = dry_project_get_room (project, room)->basin;
  DryPlan *plan;

  change (&basin);
  changed = dry_edit_set_basin (project, room, &basin, NULL, &error);
  g_assert_no_error (error);
  plan = dry_plan_new (changed, room, dry_test_catalog (), NULL, &error);
  g_assert_no_error (error);
  return plan;
}

/* A channel along an end takes the water of the whole length, along the back that of the width, in
 * the middle from both sides; a round drain that of its farthest corner. */
static void
test_run_to_drain (void)
{
  static const struct {
    DryEnd drain;
    gboolean channel;
    double run; /* in, of a floor 48 x 36 in */
  } rows[] = {{DRY_END_LEFT, TRUE, 48},
              {DRY_END_RIGHT, TRUE, 48},
              {DRY_END_BACK, TRUE, 36},
              {DRY_END_CENTRE, TRUE, 18},
              {DRY_END_CENTRE, FALSE, 30}};

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++) {
    g_autoptr (DryProject) project = dry_test_alcove ("cement-liquid"), changed = NULL;
    DryId room = dry_test_room (project);
    DryBasin basin = dry_project_get_room (project, room)->basin;
    g_autoptr (GError) error = NULL;
    g_autoptr (DryPlan) plan = NULL;

    basin.kind = DRY_BASIN_PAN;
    basin.site_built = TRUE;
    basin.length = 48 * DRY_INCH;
    basin.width = 36 * DRY_INCH;
    basin.slope = 0.02;
    basin.drain = rows[i].drain;
    basin.linear_drain = rows[i].channel;
    changed = dry_edit_set_basin (project, room, &basin, NULL, &error);
    g_assert_no_error (error);
    plan = dry_plan_new (changed, room, dry_test_catalog (), NULL, &error);
    g_assert_no_error (error);
    g_assert_true (plan->floor->built);
    g_assert_cmpfloat_with_epsilon (dry_length_to_inches (plan->floor->run), rows[i].run, 1e-6);
    g_assert_cmpfloat_with_epsilon (dry_length_to_inches (plan->floor->fall), rows[i].run * 0.02,
                                    1e-6);
  }
}

static void
leave (DryBasin *basin)
{
}

static void
build (DryBasin *basin)
{
  basin->site_built = TRUE;
}

static void
build_on_liner (DryBasin *basin)
{
  basin->site_built = basin->liner = basin->pre_slope = basin->clamping_drain = TRUE;
}

static void
build_to_channel (DryBasin *basin)
{
  basin->site_built = basin->linear_drain = TRUE;
  basin->drain = DRY_END_BACK;
  basin->slope = 0.02;
}

static const DryTakeoffLine *
find_line (const DryPlan *plan, const char *id)
{
  for (guint i = 0; i < plan->takeoff->n; i++)
    if (g_str_equal (plan->takeoff->lines[i].id, id))
      return &plan->takeoff->lines[i];
  return NULL;
}

static gint
find_step (const DryPlan *plan, const char *id)
{
  gint found = -1;

  for (guint i = 0; i < plan->order->n; i++)
    if (g_str_equal (plan->order->items[i].id, id)) {
      g_assert_cmpint (found, ==, -1); /* each but once */
      found = (gint) i;
    }
  return found;
}

static void
test_ready_pan_has_none (void)
{
  g_autoptr (DryPlan) plan = plan_with ("16-pony-wall.drybay", leave);

  g_assert_false (plan->floor->built);
  for (guint i = 0; i < plan->takeoff->n; i++)
    g_assert_cmpstr (plan->takeoff->lines[i].group, !=, "floor");
  g_assert_cmpint (find_step (plan, "floor-bed"), ==, -1);
  g_assert_cmpint (find_step (plan, "flood-test"), >, 0);
}

static void
test_bed_under_membrane (void)
{
  g_autoptr (DryPlan) plan = plan_with ("16-pony-wall.drybay", build);
  const DryBasin *basin = &plan->context.room->basin;
  const DryFloor *floor = plan->floor;
  const DryTakeoffLine *mortar = find_line (plan, "floor-mortar");
  double l = dry_length_to_mm (basin->length), w = dry_length_to_mm (basin->width);

  g_assert_true (floor->built);
  g_assert_false (floor->liner);
  g_assert_cmpfloat_with_epsilon (floor->area, l * w / 1e6, 1e-9);
  g_assert_cmpint (basin->drain, ==, DRY_END_CENTRE);
  g_assert_cmpfloat_with_epsilon (dry_length_to_mm (floor->run), hypot (l / 2, w / 2), 0.001);
  /* IRC P2709.1: at least 1/4 in per ft */
  g_assert_cmpfloat_with_epsilon (dry_length_to_mm (floor->fall), hypot (l / 2, w / 2) / 48, 0.001);
  g_assert_cmpint (floor->drain_depth, ==, 3 * DRY_INCH / 2);
  g_assert_cmpint (floor->rim_depth, ==, 3 * DRY_INCH / 2 + floor->fall);
  g_assert_nonnull (mortar);
  g_assert_cmpint (mortar->packs, ==, (gint64) ceil (floor->volume / (0.66 * LITRES_PER_FT3)));
  g_assert_nonnull (find_line (plan, "floor-membrane"));
  g_assert_null (find_line (plan, "floor-liner"));
  g_assert_nonnull (find_line (plan, "floor-tile"));
  g_assert_cmpint (find_step (plan, "floor-bed"), <, find_step (plan, "floor-membrane"));
  g_assert_cmpint (find_step (plan, "floor-membrane"), <, find_step (plan, "flood-test"));
  g_assert_cmpint (find_step (plan, "flood-test"), <, find_step (plan, "tile"));
}

/* A liner is flooded while it can be seen: before the walls are closed and the bed covers it. */
static void
test_bed_on_liner (void)
{
  g_autoptr (DryPlan) plan = plan_with ("16-pony-wall.drybay", build_on_liner);
  g_autoptr (DryPlan) bonded = plan_with ("16-pony-wall.drybay", build);
  const DryFloor *floor = plan->floor;

  g_assert_true (floor->liner);
  g_assert_cmpint (floor->drain_depth, ==, 2 * DRY_INCH);
  g_assert_cmpfloat (floor->volume, >, bonded->floor->volume);
  g_assert_cmpint (find_step (plan, "floor-slope"), <, find_step (plan, "floor-liner"));
  g_assert_cmpint (find_step (plan, "floor-liner") + 1, ==, find_step (plan, "flood-test"));
  g_assert_cmpint (find_step (plan, "flood-test"), <, find_step (plan, "boards"));
  g_assert_cmpint (find_step (plan, "boards"), <, find_step (plan, "floor-bed"));
  g_assert_cmpint (find_step (plan, "floor-bed"), <, find_step (plan, "tile"));
  g_assert_nonnull (find_line (plan, "floor-liner"));
  g_assert_cmpfloat (plan->order->hours, >, bonded->order->hours);
}

static void
test_channel_falls_one_way (void)
{
  g_autoptr (DryPlan) plan = plan_with ("16-pony-wall.drybay", build_to_channel);
  const DryFloor *floor = plan->floor;
  double t = dry_length_to_mm (floor->drain_depth), T = dry_length_to_mm (floor->rim_depth);

  g_assert_cmpint (floor->run, ==, plan->context.room->basin.width);
  g_assert_cmpfloat_with_epsilon (dry_length_to_mm (floor->fall),
                                  dry_length_to_mm (floor->run) * 0.02, 0.001);
  g_assert_cmpfloat_with_epsilon (floor->volume, floor->area * (t + T) / 2, 1e-6);
}

static void
test_neo_angle_loses_its_corner (void)
{
  g_autoptr (DryPlan) plan = plan_with ("04-neo-angle.drybay", build);
  const DryBasin *basin = &plan->context.room->basin;
  double l = dry_length_to_mm (basin->length), w = dry_length_to_mm (basin->width);
  double cut = dry_length_to_mm (basin->corner_cut);

  g_assert_cmpfloat (cut, >, 0);
  g_assert_cmpfloat_with_epsilon (plan->floor->area, (l * w - cut * cut / 2) / 1e6, 1e-9);
}

/* What the salesperson is asked: when, and for how many hours. */
static void
test_floor_takes_days (void)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (DryPlan) ready = plan_with ("16-pony-wall.drybay", leave);
  g_autoptr (DryPlan) made = plan_with ("16-pony-wall.drybay", build);
  const DryPlan *one = ready, *other = made;
  g_autoptr (DrySchedule) before = dry_schedule_new (&one, 1, NULL, NULL, &error);
  g_autoptr (DrySchedule) after = dry_schedule_new (&other, 1, NULL, NULL, &error);

  g_assert_no_error (error);
  g_assert_cmpfloat_with_epsilon (dry_schedule_get_task (after, "set-tile")->hours -
                                      dry_schedule_get_task (before, "set-tile")->hours,
                                  1.8 * made->floor->area, 1e-6);
  g_assert_cmpint (dry_schedule_get_task (after, "floor-bed")->minutes, >, 0);
  g_assert_cmpint (dry_schedule_get_task (after, "tile")->start, >=,
                   dry_schedule_get_task (before, "tile")->start + 24 * 60);
  g_assert_cmpint (after->finish, >=, before->finish);
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/floor/run-to-drain", test_run_to_drain);
  g_test_add_func ("/plan/floor/worked-examples", test_worked_examples);
  g_test_add_func ("/plan/floor/point-drain-anywhere", test_point_drain_anywhere);
  g_test_add_func ("/plan/floor/ready-pan-has-none", test_ready_pan_has_none);
  g_test_add_func ("/plan/floor/bed-under-membrane", test_bed_under_membrane);
  g_test_add_func ("/plan/floor/bed-on-liner", test_bed_on_liner);
  g_test_add_func ("/plan/floor/channel-falls-one-way", test_channel_falls_one_way);
  g_test_add_func ("/plan/floor/neo-angle-loses-its-corner", test_neo_angle_loses_its_corner);
  g_test_add_func ("/plan/floor/floor-takes-days", test_floor_takes_days);
  return g_test_run ();
}
