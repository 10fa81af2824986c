/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Check values of codes and standards, asked of the real engine in small rooms.
 * The source stands beside each value; a value passes on one side of its limit and fails on the
 * other. */
#include "plan/rule-room.h"

typedef struct {
  const char *name, *rule;
  double a, b; /* inches, gpm, per cent: as the row says */
  gboolean raised;
  DryProject *(*build) (double a, double b);
} Fact;

/* --- showers --- */

static DryProject *
build_shower (double length, double width)
{
  return rule_room_shower (INCH (length), INCH (width));
}

static DryProject *
build_benched (double depth, double folding)
{
  DryPart bench = {.kind = DRY_PART_BENCH,
                   .u = INCH (18),
                   .z = INCH (18),
                   .width = INCH (35),
                   .height = INCH (2),
                   .depth = INCH (depth),
                   .fold_down = folding > 0,
                   .pitch = 0.021};

  return rule_room_add_part (rule_room_shower (INCH (36), INCH (36)), 'n', bench);
}

static void
set_height (DryBasin *basin, gpointer data)
{
  basin->height = *(DryLength *) data;
}

static DryProject *
build_curb (double height, double unused)
{
  DryLength value = INCH (height);

  return rule_room_set_basin (rule_room_shower (INCH (36), INCH (36)), set_height, &value);
}

static DryProject *
build_curbless (double length, double width)
{
  DryLength value = DRY_INCH / 2;

  return rule_room_set_basin (rule_room_shower (INCH (length), INCH (width)), set_height, &value);
}

static void
set_recess (DryBasin *basin, gpointer data)
{
  basin->recess = *(DryLength *) data;
}

static DryProject *
build_recess (double depth, double unused)
{
  DryLength value = INCH (depth);

  return rule_room_set_basin (rule_room_shower (INCH (36), INCH (36)), set_recess, &value);
}

static void
set_drain (DryBasin *basin, gpointer data)
{
  basin->drain_diameter = *(DryLength *) data;
}

/* Head of `gpm` over a drain of `diameter`. */
static DryProject *
build_flow (double gpm, double diameter)
{
  DryLength value = INCH (diameter);
  DryPart head = {.kind = DRY_PART_SHOWER_HEAD,
                  .u = INCH (18),
                  .z = INCH (78),
                  .width = INCH (2),
                  .height = INCH (2),
                  .hole = INCH (1),
                  .flow_lpm = gpm * 3.785411784};
  DryProject *project = rule_room_shower (INCH (36), INCH (36));

  project = rule_room_add_part (project, 'e', head);
  return rule_room_set_basin (project, set_drain, &value);
}

static DryProject *
build_glass (double width, double safety)
{
  DryPart glass = {.kind = DRY_PART_GLASS,
                   .u = INCH (40),
                   .z = INCH (5),
                   .width = INCH (width),
                   .height = INCH (24),
                   .depth = INCH (0.375),
                   .safety_glass = safety > 0,
                   .hinged = TRUE};

  return rule_room_add_part (rule_room_shower (INCH (36), INCH (36)), 'e', glass);
}

/* --- tub alcove --- */

static DryProject *
add_head (DryProject *project)
{
  DryPart head = {.kind = DRY_PART_SHOWER_HEAD,
                  .u = INCH (15),
                  .z = INCH (68),
                  .width = INCH (2),
                  .height = INCH (2),
                  .hole = INCH (1),
                  .flow_lpm = 6.8};

  return rule_room_add_part (project, 'e', head);
}

static DryProject *
build_alcove (void)
{
  return rule_room_alcove ("cement-liquid", "us-residential");
}

static DryProject *
build_wet_height (double height, double unused)
{
  DryWetZone wet = {.height = INCH (height), .past = INCH (2), .leg = TRUE};

  return rule_room_set_wet (add_head (build_alcove ()), wet);
}

/* A window whose near edge is `away` in front of the tub, in the west wall; beyond 60 in the wall
 * ends, and the window stands in the south wall, 66 in from the tub. */
static DryProject *
build_window (double sill, double away)
{
  DryOpening window = {.kind = DRY_OPENING_WINDOW,
                       .z = INCH (sill),
                       .width = INCH (20),
                       .height = INCH (20),
                       .sloped_sill = TRUE};

  if (away > 60) {
    window.u = INCH (20);
    return rule_room_add_opening (build_alcove (), 's', window);
  }
  window.u = INCH (66 - away - 20);
  return rule_room_add_opening (build_alcove (), 'w', window);
}

static DryProject *
build_valve (double height, double with_head)
{
  DryPart valve = {.kind = DRY_PART_VALVE,
                   .u = INCH (8),
                   .z = INCH (height),
                   .width = INCH (6),
                   .height = INCH (6),
                   .hole = INCH (3)};
  DryProject *project = build_alcove ();

  if (with_head > 0)
    project = add_head (project);
  return rule_room_add_part (project, 'e', valve);
}

static DryProject *
build_bar (double height, double thickness)
{
  DryPart bar = {.kind = DRY_PART_GRAB_BAR,
                 .u = INCH (30),
                 .z = INCH (height),
                 .width = INCH (24),
                 .height = INCH (thickness),
                 .depth = INCH (3)};

  return rule_room_add_part (build_alcove (), 'n', bar);
}

static DryProject *
build_bench (double height, double depth)
{
  DryPart bench = {.kind = DRY_PART_BENCH,
                   .u = INCH (18),
                   .z = INCH (height),
                   .width = INCH (20),
                   .height = INCH (2),
                   .depth = INCH (depth),
                   .fold_down = TRUE,
                   .pitch = 0.021};

  return rule_room_add_part (rule_room_shower (INCH (48), INCH (48)), 'n', bench);
}

/* --- walls, tile, house --- */

static void
set_plane (DryWall *wall, gpointer data)
{
  wall->plane_error = *(DryLength *) data;
}

typedef struct {
  double width, height, joint, offset;
} Tile;

static void
set_tile (DryFinish *finish, gpointer data)
{
  const Tile *tile = data;

  finish->tiled = TRUE;
  finish->tile = NULL;
  finish->tile_width = INCH (tile->width);
  finish->tile_height = INCH (tile->height);
  finish->tile_thickness = INCH (0.3125);
  finish->joint = INCH (tile->joint);
  finish->pattern = tile->offset > 0 ? DRY_PATTERN_OFFSET : DRY_PATTERN_STRAIGHT;
  finish->offset = tile->offset;
}

static DryProject *
build_plane (double error, double side)
{
  DryLength value = INCH (error);
  Tile tile = {side, side, 0.125, 0};

  return rule_room_set_wall (rule_room_set_finish (build_alcove (), set_tile, &tile), 'n',
                             set_plane, &value);
}

static DryProject *
build_offset (double side, double per_cent)
{
  Tile tile = {side, side / 2, 0.1875, per_cent / 100};

  return rule_room_set_finish (build_alcove (), set_tile, &tile);
}

static DryProject *
build_joint (double joint, double side)
{
  Tile tile = {side, side / 2, joint, side > 15 ? 0.33 : 0};

  return rule_room_set_finish (build_alcove (), set_tile, &tile);
}

static void
set_year (DryJob *job, gpointer data)
{
  job->year_built = *(gint *) data;
}

static DryProject *
build_year (double year, double unused)
{
  gint value = (gint) year;

  return rule_room_set_job (build_alcove (), set_year, &value);
}

static void
set_barrier (DryWall *wall, gpointer data)
{
  wall->vapour_barrier = *(gboolean *) data;
}

static DryProject *
build_barrier (double there, double unused)
{
  gboolean value = there > 0;

  return rule_room_set_wall (build_alcove (), 'n', set_barrier, &value);
}

static void
set_bearing (DryWall *wall, gpointer data)
{
  wall->bearing = *(gboolean *) data;
}

/* A pipe of `diameter` across the studs of a 2x4 wall (3-1/2 in deep). */
static DryProject *
build_bore (double diameter, double bearing)
{
  gboolean value = bearing > 0;
  DryPart pipe = {.kind = DRY_PART_PIPE,
                  .u = INCH (30),
                  .z = INCH (30),
                  .width = INCH (24),
                  .height = INCH (diameter),
                  .depth = INCH (diameter)};

  return rule_room_set_wall (rule_room_add_part (build_alcove (), 'n', pipe), 'n', set_bearing,
                             &value);
}

static const Fact FACTS[] = {
    /* IRC P2708.1: 900 in2 and 30 in. */
    {"area/30x30", "shower-area", 30, 30, FALSE, build_shower},
    {"area/30x30-circle", "shower-circle", 30, 30, FALSE, build_shower},
    {"area/30x29.9", "shower-circle", 30, 29.9, TRUE, build_shower},
    {"area/40x29", "shower-circle", 40, 29, TRUE, build_shower},
    {"area/40x29-area", "shower-narrow", 40, 29, TRUE, build_shower},
    /* IRC P2708.1 exception: 25 in where 1300 in2. */
    {"exception/52x25", "shower-narrow", 52, 25, FALSE, build_shower},
    {"exception/52x25-circle", "shower-circle", 52, 25, FALSE, build_shower},
    {"exception/51x25", "shower-narrow", 51, 25, TRUE, build_shower},
    {"exception/60x24", "shower-least", 60, 24, TRUE, build_shower},
    /* IRC P2708.1: a folded seat may intrude, a built bench may not (36 - 15 = 21 in left). */
    {"bench/built", "shower-circle", 15, 0, TRUE, build_benched},
    {"bench/folding", "shower-circle", 15, 1, FALSE, build_benched},
    {"bench/built-area", "shower-area", 15, 0, TRUE, build_benched},
    /* UPC 2012 408.5: entry at least 22 in. */
    {"entry/21.5", "shower-door-width", 21.5, 1, TRUE, build_glass},
    {"entry/22", "shower-door-width", 22, 1, FALSE, build_glass},
    /* IRC 2012 R307.2: 6 ft above the floor. */
    {"wet-height/71", "wet-wall-height", 71, 0, TRUE, build_wet_height},
    {"wet-height/72", "wet-wall-height", 72, 0, FALSE, build_wet_height},
    /* IRC P2709.1, UPC 408.5: curb 2 to 9 in above the drain. */
    {"curb/1.9", "curb-low", 1.9, 0, TRUE, build_curb},
    {"curb/2", "curb-low", 2, 0, FALSE, build_curb},
    {"curb/9", "curb-high", 9, 0, FALSE, build_curb},
    {"curb/9.1", "curb-high", 9.1, 0, TRUE, build_curb},
    /* IRC 2012 R602.6: bore 40 % of a bearing stud, 60 % of another; 5/8 in left at the edge. */
    {"bore/1.40-bearing", "bore-bearing", 1.40, 1, FALSE, build_bore},
    {"bore/1.41-bearing", "bore-bearing", 1.41, 1, TRUE, build_bore},
    {"bore/2.10", "bore-partition", 2.10, 0, FALSE, build_bore},
    {"bore/2.11", "bore-partition", 2.11, 0, TRUE, build_bore},
    {"bore/2.10-edge", "bore-edge", 2.10, 0, FALSE, build_bore}, /* 0.70 in left */
    {"bore/2.26-edge", "bore-edge", 2.26, 0, TRUE, build_bore},  /* 0.62 in left */
    /* IRC 2012 R502.8.1: notch 1/6 of the depth; a 2x12 is 11.25 in deep (PS 20). */
    {"recess/1.875", "recess-deep", 1.875, 0, FALSE, build_recess},
    {"recess/1.9", "recess-deep", 1.9, 0, TRUE, build_recess},
    {"recess/any", "recess", 1, 0, TRUE, build_recess},
    /* IRC 2012 R308.4.5: sill under 60 in and within 60 in of the water. */
    {"glazing/59-at-40", "window-not-safety", 59, 40, TRUE, build_window},
    {"glazing/59-at-66", "window-not-safety", 59, 66, FALSE, build_window},
    {"glazing/65-at-40", "window-not-safety", 65, 40, FALSE, build_window},
    /* IRC 2012 R308.3.1: the higher class at any size; 24 x 24 in is 4 ft2. */
    {"glazing/panel-plain", "glass-not-safety", 24, 0, TRUE, build_glass},
    {"glazing/panel-safety", "glass-not-safety", 24, 1, FALSE, build_glass},
    /* Energy Policy Act 1992: 2.5 gpm. */
    {"flow/2.5", "head-flow", 2.5, 2, FALSE, build_flow},
    {"flow/2.6", "head-flow", 2.6, 2, TRUE, build_flow},
    /* UPC 2012 408.4: waste at least 2 in. */
    {"drain/1.5", "pan-drain", 1.8, 1.5, TRUE, build_flow},
    {"drain/2", "pan-drain", 1.8, 2, FALSE, build_flow},
    /* IRC P3201.7, from memory, not published here: 5.7 gpm on 1-1/2 in, 12.3 on 2 in. */
    {"drain/5.7-gpm", "drain-for-flow-small", 5.69, 1.5, FALSE, build_flow},
    {"drain/7.5-gpm", "drain-for-flow-small", 7.5, 1.5, TRUE, build_flow},
    {"drain/12.4-gpm", "drain-for-flow", 12.4, 2, TRUE, build_flow},
    /* ADA 608.2.2: roll-in 30 x 60 in. */
    {"roll-in/60x30", "roll-in-size", 60, 30, FALSE, build_curbless},
    {"roll-in/59x30", "roll-in-size", 59, 30, TRUE, build_curbless},
    /* ADA 609.4: 33 to 36 in. */
    {"bar/32.9", "grab-bar-height", 32.9, 1.25, TRUE, build_bar},
    {"bar/33", "grab-bar-height", 33, 1.25, FALSE, build_bar},
    {"bar/36", "grab-bar-height", 36, 1.25, FALSE, build_bar},
    {"bar/37", "grab-bar-height", 37, 1.25, TRUE, build_bar},
    /* ADA 609.2: 1-1/4 to 2 in. */
    {"bar/1-thick", "grab-bar-grip", 34, 1, TRUE, build_bar},
    {"bar/2-thick", "grab-bar-grip", 34, 2, FALSE, build_bar},
    /* ADA 610.3, NKBA: seat 17 to 19 in; ADA 610.3.1: 15 to 16 in deep. */
    {"seat/16.9", "bench-height", 16.9, 15, TRUE, build_bench},
    {"seat/17", "bench-height", 17, 15, FALSE, build_bench},
    {"seat/19", "bench-height", 19, 15, FALSE, build_bench},
    {"seat/14-deep", "bench-depth", 18, 14, TRUE, build_bench},
    {"seat/16-deep", "bench-depth", 18, 16, FALSE, build_bench},
    /* ANSI A108.02 4.1.4.3: 1/4 in in 10 ft; any edge of 15 in or more: 1/8 in. */
    {"plane/8in-0.25", "plane-tile", 0.25, 8, FALSE, build_plane},
    {"plane/8in-0.26", "plane-tile", 0.26, 8, TRUE, build_plane},
    {"plane/24in-0.125", "plane-large-tile", 0.125, 24, FALSE, build_plane},
    {"plane/24in-0.25", "plane-large-tile", 0.25, 24, TRUE, build_plane},
    {"plane/15in-0.25", "plane-large-tile", 0.25, 15, TRUE, build_plane},
    /* ANSI A108.02: offset 33 % for sides over 15 in. */
    {"offset/24in-50", "offset-pattern", 24, 50, TRUE, build_offset},
    {"offset/24in-33", "offset-pattern", 24, 33, FALSE, build_offset},
    {"offset/12in-50", "offset-pattern", 12, 50, FALSE, build_offset},
    /* ANSI A108.02-2017 4.3.8: never under 1/16 in. */
    {"joint/3-64", "joint-least", 3.0 / 64, 6, TRUE, build_joint},
    {"joint/1-16", "joint-least", 1.0 / 16, 6, FALSE, build_joint},
    /* ANSI A108.02 4.3.8.1: running bond over 15 in, 1/8 in. */
    {"joint/bond-1-16", "joint-running-bond", 1.0 / 16, 24, TRUE, build_joint},
    {"joint/bond-1-8", "joint-running-bond", 1.0 / 8, 24, FALSE, build_joint},
    /* TCNA B415 as quoted: membrane or vapour retarder, not both. */
    {"barriers/both", "two-barriers", 1, 0, TRUE, build_barrier},
    {"barriers/one", "two-barriers", 0, 0, FALSE, build_barrier},
    /* NKBA guideline 10: 38 to 48 in; at a tub without shower, rim to 33 in. */
    {"valve/36", "valve-height", 36, 1, TRUE, build_valve},
    {"valve/38", "valve-height", 38, 1, FALSE, build_valve},
    {"valve/49", "valve-height", 49, 1, TRUE, build_valve},
    {"valve/tub-33", "tub-valve-height", 33, 0, FALSE, build_valve},
    {"valve/tub-34", "tub-valve-height", 34, 0, TRUE, build_valve},
    /* 40 CFR 745: before 1978. 29 CFR 1926.1101: up to 1980. */
    {"year/1977", "lead", 1977, 0, TRUE, build_year},
    {"year/1978", "lead", 1978, 0, FALSE, build_year},
    {"year/1980", "asbestos", 1980, 0, TRUE, build_year},
    {"year/1981", "asbestos", 1981, 0, FALSE, build_year},
};

static void
test_fact (gconstpointer data)
{
  const Fact *fact = data;

  if (rule_room_is_raised (fact->build (fact->a, fact->b), fact->rule) != fact->raised)
    g_test_fail_printf ("“%s” should be %s for %g, %g", fact->rule,
                        fact->raised ? "raised" : "silent", fact->a, fact->b);
}

/* Arithmetic of IRC P2708.1: 30 x 30 is 900 in2, exactly the limit in square centimetres. */
static void
test_area (void)
{
  g_autoptr (DryProject) project = rule_room_shower (INCH (30), INCH (30));
  g_autoptr (DryPlan) plan = rule_room_plan (project);

  g_assert_cmpfloat (rule_room_measure (plan, "basin", "inside-area")->number, ==, 900 * 6.4516);
  g_assert_cmpint (rule_room_measure (plan, "basin", "inside-circle")->length, ==, 30 * DRY_INCH);
}

/* 16 in on centre leave 14-1/2 in clear: 16 - 1-1/2 (PS 20 stud). */
static void
test_bay (void)
{
  g_autoptr (DryProject) project = dry_test_furnished_alcove ("foam-bands");
  g_autoptr (DryPlan) plan = rule_room_plan (project);

  g_assert_cmpint (rule_room_measure (plan, "niche", "bay")->length, ==, INCH (14.5));
  g_assert_cmpint (rule_room_measure (plan, "wall", "stud-spacing")->length, ==, INCH (16));
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  for (guint i = 0; i < G_N_ELEMENTS (FACTS); i++) {
    g_autofree char *path = g_strdup_printf ("/facts/code/%s", FACTS[i].name);
    g_test_add_data_func (path, &FACTS[i], test_fact);
  }
  g_test_add_func ("/facts/code/area-exact", test_area);
  g_test_add_func ("/facts/code/clear-bay", test_bay);
  return g_test_run ();
}
