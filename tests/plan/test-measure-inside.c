/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What of a pan is left to stand in beside its benches and a cut-off corner. The values are worked
 * out by hand from the sizes; knows no rule. */
#include "plan/added-wall.h"

static DryPart
make_bench (double u, double width, double depth)
{
  return (DryPart){.kind = DRY_PART_BENCH,
                   .u = INCH (u),
                   .z = INCH (18),
                   .width = INCH (width),
                   .height = INCH (2),
                   .depth = INCH (depth)};
}

/* In square inches, and inches across. */
static void
assert_left (const DryPlan *plan, double area, double circle)
{
  g_assert_cmpfloat_with_epsilon (rule_room_measure (plan, "basin", "inside-area")->number,
                                  area * 2.54 * 2.54, 0.01);
  g_assert_cmpint (rule_room_measure (plan, "basin", "inside-circle")->length, ==, INCH (circle));
}

static void
turn (DryBasin *basin, gpointer data)
{
  basin->turned = TRUE;
}

/* What a built bench takes of a pan 60 x 34 in: of its length on an end wall, of its width on the
 * back. A seat that folds takes nothing, nor does one beyond the pan. */
static void
test_bench_in_pan (void)
{
  static const struct {
    char wall;
    double u, width, depth;
    gboolean fold;
    double area, circle; /* square inches, in */
  } rows[] = {
      {'s', 30, 20, 15, FALSE, 60 * 34, 34}, /* no wall of the pan */
      {'e', 17.6, 60, 12, FALSE, 48 * 34, 34}, {'e', 70, 20, 12, FALSE, 60 * 34, 34},
      {'e', 17.6, 60, 12, TRUE, 60 * 34, 34},  {'w', 78.4, 60, 40, FALSE, 20 * 34, 20},
      {'n', 31, 62, 15, FALSE, 60 * 19, 19},
  };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++) {
    DryPart bench = make_bench (rows[i].u, rows[i].width, rows[i].depth);
    g_autoptr (DryProject) project = rule_room_shower (INCH (60), INCH (34));
    g_autoptr (DryPlan) plan = NULL;

    bench.fold_down = rows[i].fold;
    project = rule_room_add_part (g_steal_pointer (&project), rows[i].wall, bench);
    plan = rule_room_plan (project);
    g_test_message ("row %u", i);
    g_assert_cmpint (rule_room_measure (plan, "basin", "inside-length")->length, ==, INCH (60));
    assert_left (plan, rows[i].area, rows[i].circle);
  }
}

/* Two benches take what both cover, not what the last one does; what they share counts once. */
static void
test_two_benches (void)
{
  static const struct {
    double back, end, area, circle; /* depth on the back and on the right end; square inches, in */
  } rows[] = {{12, 12, 48 * 22, 22}, {20, 12, 48 * 14, 14}, {4, 40, 20 * 30, 20}};

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++) {
    DryProject *made = rule_room_shower (INCH (60), INCH (34));
    g_autoptr (DryProject) project = NULL;
    g_autoptr (DryPlan) plan = NULL;

    made = rule_room_add_part (made, 'n', make_bench (31, 62, rows[i].back));
    project = rule_room_add_part (made, 'e', make_bench (17.6, 60, rows[i].end));
    plan = rule_room_plan (project);
    g_test_message ("row %u", i);
    assert_left (plan, rows[i].area, rows[i].circle);
  }
}

/* A circle leans into the corner beside a bench, wherever the bench stands. In a square of side 1
 * with a square of side a taken from one corner it touches two sides and that corner, and so
 * r = (1 - a) (2 - sqrt 2), by Pythagoras from its centre. */
static void
test_circle_beside_corner_bench (void)
{
  static const struct {
    double seat, width, from; /* from the left end of the finished back wall, in */
    double circle;
  } rows[] = {
      {14, 14, 0, 26 * 2 * (2 - G_SQRT2)},
      {14, 14, 26, 26 * 2 * (2 - G_SQRT2)},
      {10, 10, 30, 30 * 2 * (2 - G_SQRT2)},
      {4, 4, 0, 36 * 2 * (2 - G_SQRT2)},
      {12, 40, 0, 28},
  };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++) {
    g_autoptr (DryProject) bare = rule_room_shower (INCH (40), INCH (40)), project = NULL;
    g_autoptr (DryPlan) without = rule_room_plan (bare), plan = NULL;
    DryPart bench = make_bench (rows[i].from + rows[i].width / 2, rows[i].width, rows[i].seat);
    DryLength circle, expected = (DryLength) (MIN (rows[i].circle, 40) * (double) DRY_INCH);

    bench.u += without->context.build_up.total;
    project = rule_room_add_part (g_steal_pointer (&bare), 'n', bench);
    plan = rule_room_plan (project);
    circle = rule_room_measure (plan, "basin", "inside-circle")->length;
    g_test_message ("row %u: %" G_GINT64_FORMAT " nm", i, circle);
    g_assert_cmpint (circle, <=, expected + 1);
    g_assert_cmpint (circle, >=, expected - DRY_MM / 50);
    g_assert_cmpfloat_with_epsilon (rule_room_measure (plan, "basin", "inside-area")->number,
                                    (1600 - rows[i].width * rows[i].seat) * 2.54 * 2.54, 0.01);
  }
}

/* A bench along the left wall of a neo-angle pan leaves a neo-angle that is narrower by it. */
static void
test_bench_beside_cut (void)
{
  DryProject *made = added_wall_corner_shower ("foam-bands");
  g_autoptr (DryProject) project = rule_room_set_fields (made, "basin.corner_cut=12in");
  g_autoptr (DryPlan) without = rule_room_plan (project), plan = NULL;
  double length = (double) rule_room_measure (without, "basin", "inside-length")->length;
  double width = (double) rule_room_measure (without, "basin", "inside-width")->length;
  double cut = (double) INCH (12), depth = (double) INCH (10), circle;

  g_assert_cmpfloat_with_epsilon (rule_room_measure (without, "basin", "inside-area")->number,
                                  (length * width - cut * cut / 2) / 1e14, 0.01);
  project = rule_room_add_part (g_steal_pointer (&project), 'w', make_bench (60, 100, 10));
  plan = rule_room_plan (project);
  circle = 2 * (length + width - depth - cut) / (2 + G_SQRT2);
  circle = MIN (circle, MIN (length - depth, width));
  g_assert_cmpfloat_with_epsilon (rule_room_measure (plan, "basin", "inside-area")->number,
                                  ((length - depth) * width - cut * cut / 2) / 1e14, 0.01);
  g_assert_cmpfloat_with_epsilon (
      (double) rule_room_measure (plan, "basin", "inside-circle")->length, circle, DRY_MM / 50);
}

/* Of a wall that was put in only the side that looks at the pan is in it: a bench on the other
 * side stands in the room. */
static void
test_bench_beyond_wall (void)
{
  for (guint side = 0; side < 2; side++) {
    DryId wall = 0;
    g_autoptr (DryProject) project =
        added_wall_close (added_wall_corner_shower ("foam-bands"), 0, &wall);
    g_autoptr (DryPlan) without = rule_room_plan (project), with = NULL;
    double taken;

    project = added_wall_put_part (g_steal_pointer (&project), wall, (DrySide) side,
                                   make_bench (18, 60, 12));
    with = rule_room_plan (project);
    taken = rule_room_measure (without, "basin", "inside-area")->number -
            rule_room_measure (with, "basin", "inside-area")->number;
    if (side == DRY_SIDE_OUTSIDE)
      g_assert_cmpfloat (taken, ==, 0);
    else /* 12 in before the whole of the clear width */
      g_assert_cmpfloat (taken, >, 11 * 30 * 2.54 * 2.54);
  }
}

/* Turned, the pan's length runs out from the wall: its ends are the back and the open front, and
 * what is built on the sides takes of its width. */
static void
test_turned_pan (void)
{
  DryProject *made = rule_room_set_basin (rule_room_shower (INCH (34), INCH (60)), turn, NULL);
  g_autoptr (DryProject) project = NULL;
  g_autoptr (DryPlan) plan = NULL;
  DryLength built;

  made = rule_room_set_fields (made, "basin.length=60in basin.width=34in");
  project = rule_room_add_part (made, 'n', make_bench (17.6, 60, 15));
  plan = rule_room_plan (project);
  built = plan->context.build_up.total;
  g_assert_cmpint (built, >, 0);
  g_assert_cmpint (rule_room_measure (plan, "basin", "inside-length")->length, ==, INCH (60));
  g_assert_cmpint (rule_room_measure (plan, "basin", "inside-width")->length, ==, INCH (34));
  g_assert_cmpfloat_with_epsilon (rule_room_measure (plan, "basin", "inside-area")->number,
                                  45 * 34 * 2.54 * 2.54, 0.01);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/measure-inside/bench-in-pan", test_bench_in_pan);
  g_test_add_func ("/measure-inside/two-benches", test_two_benches);
  g_test_add_func ("/measure-inside/circle-beside-corner-bench", test_circle_beside_corner_bench);
  g_test_add_func ("/measure-inside/bench-beside-cut", test_bench_beside_cut);
  g_test_add_func ("/measure-inside/bench-beyond-wall", test_bench_beyond_wall);
  g_test_add_func ("/measure-inside/turned-pan", test_turned_pan);
  return g_test_run ();
}
