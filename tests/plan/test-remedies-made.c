/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What each remedy makes of rooms other than the one its finding was thought up for, and where it
 * refuses and why. Findings are made by hand; that remedies mend theirs is test-remedies.c's. */
#include <string.h>

#include "plan/added-wall.h"
#include "plan/remedy.h"

typedef struct {
  const DryProject *project;
  const char *edit;
  DryId object;
  const DryRule *rule; /* NULL: one that asks nothing */
} Case;

static DryProject *
apply (Case self, GError **error)
{
  const DryRule nothing = {.id = "made-up", .subject = "room"};
  const DryRemedy remedy = {"Do it", self.edit};
  const DryFinding finding = {.id = "made-up/1",
                              .rule = self.rule ? self.rule : &nothing,
                              .object = self.object,
                              .face = -1};
  g_autoptr (DryPlan) plan = rule_room_plan (self.project);

  return dry_remedy_apply (self.project, dry_test_room (self.project), plan, &finding, &remedy,
                           error);
}

static DryProject *
made (Case self)
{
  g_autoptr (GError) error = NULL;
  DryProject *project = apply (self, &error);

  g_assert_no_error (error);
  g_assert_nonnull (project);
  return project;
}

static void
refused (Case self, gint code, const char *why)
{
  g_autoptr (GError) error = NULL;

  dry_test_refused (apply (self, &error), &error, code, why);
}

static DryProject *
alcove (void)
{
  return rule_room_alcove ("foam-bands", "us-residential");
}

static const DryWall *
wall_of (const DryProject *project, char compass)
{
  return dry_room_get_wall (dry_test_first_room (project), dry_test_wall (project, compass));
}

static const DryPart *
last_part (const DryProject *project)
{
  return dry_room_get_part (dry_test_first_room (project), added_wall_last_part (project));
}

static DryPart
make_part (DryPartKind kind, double u, double z, double hole)
{
  return (DryPart){.kind = kind,
                   .u = INCH (u),
                   .z = INCH (z),
                   .width = INCH (6),
                   .height = INCH (6),
                   .depth = INCH (3),
                   .hole = INCH (hole),
                   .flow_lpm = 6};
}

/* --- by hand, or gone --- */

static void
test_not_there (void)
{
  static const char *const about[] = {"niche.taller", "wall.air-barrier", "opening.safety-glass",
                                      "seam.to-stud"};
  g_autoptr (DryProject) project = alcove ();
  const DryRemedy remedy = {"Do it", "wet.leg"};
  const DryRule rule = {.id = "made-up", .subject = "room"};
  const DryFinding finding = {.rule = &rule, .face = -1};
  g_autoptr (DryPlan) plan = rule_room_plan (project);
  g_autoptr (GError) error = NULL;

  refused ((Case){project, NULL, 0, NULL}, DRY_ERROR_UNSUPPORTED, "has to be done by hand");
  refused ((Case){project, "niche.to-the-moon", 0, NULL}, DRY_ERROR_UNSUPPORTED, "by hand");
  for (guint i = 0; i < G_N_ELEMENTS (about); i++)
    refused ((Case){project, about[i], 4711, NULL}, DRY_ERROR_REFERENCE, "is not there");
  dry_test_refused (
      dry_remedy_apply (project, dry_test_room (project) + 1000, plan, &finding, &remedy, &error),
      &error, DRY_ERROR_REFERENCE, "is not there");
}

/* --- studs --- */

/* Between found studs that stand too far apart others are set, evenly; those found stay. Else the
 * spacing becomes the system's, and the first stud moves up to it. */
static void
test_closer_studs (void)
{
  static DryLength found[] = {INCH (20), INCH (68)};
  g_autoptr (DryProject) project = alcove ();
  g_autoptr (DryProject) drawn = NULL, measured = NULL, even = NULL, filled = NULL;
  DryWall wall = *wall_of (project, 'e');
  DryLength last = wall.stud_width / 2, most = INCH (16);

  wall.stud_spacing = wall.first_stud = INCH (24);
  drawn = added_wall_set (dry_project_ref (project), &wall);
  even = made ((Case){drawn, "wall.closer-studs", wall.id, NULL});
  g_assert_cmpint (wall_of (even, 'e')->stud_spacing, ==, most);
  g_assert_cmpint (wall_of (even, 'e')->first_stud, ==, most);
  wall.found_studs = found;
  wall.n_found_studs = G_N_ELEMENTS (found);
  measured = added_wall_set (dry_project_ref (project), &wall);
  filled = made ((Case){measured, "wall.closer-studs", wall.id, NULL});
  /* 0 to 20 in: one between; 48 in: two; 68 in to the end at 96 in: one */
  g_assert_cmpuint (wall_of (filled, 'e')->n_found_studs, ==, 6);
  for (guint i = 0; i < 6; i++) {
    DryLength at = wall_of (filled, 'e')->found_studs[i];

    g_assert_cmpint (at - last, <=, most);
    g_assert_cmpint (at, >, last);
    last = at;
  }
  g_assert_cmpint (INCH (96) - wall.stud_width / 2 - last, <=, most);
  g_assert_cmpint (wall_of (filled, 'e')->found_studs[1], ==, INCH (20));
  g_assert_cmpint (wall_of (filled, 'e')->found_studs[4], ==, INCH (68));
}

/* --- tub and pan --- */

static void
turn (DryBasin *basin, gpointer data)
{
  basin->turned = TRUE;
  basin->length = INCH (30);
  basin->width = INCH (60);
}

/* The wall at the far end moves until the basin fits; one that was put in is moved by hand, and a
 * basin open at its end fits anyhow. */
static void
test_fit_walls (void)
{
  g_autoptr (DryProject) project = rule_room_set_fields (alcove (), "basin.length=59.5in");
  g_autoptr (DryProject) fitting = made ((Case){project, "basin.close-walls", 0, NULL});
  g_autoptr (DryProject) turned = rule_room_set_basin (alcove (), turn, NULL);
  g_autoptr (DryProject) corner = added_wall_corner_shower ("foam-bands");
  g_autoptr (DryProject) closed = added_wall_close (dry_project_ref (corner), 0, NULL);

  g_assert_cmpint (dry_wall_length (wall_of (fitting, 'n')), ==, INCH (59.5));
  refused ((Case){turned, "basin.open-walls", 0, NULL}, DRY_ERROR_GEOMETRY,
           "does not stand between two walls");
  refused ((Case){corner, "basin.open-walls", 0, NULL}, DRY_ERROR_GEOMETRY,
           "does not stand between two walls");
  refused ((Case){closed, "basin.open-walls", 0, NULL}, DRY_ERROR_GEOMETRY, "move it by hand");
}

/* Two to nine inches from drain to curb; an inch of curb at least, as a recess goes. */
static void
test_curb (void)
{
  static const struct {
    double height, recess, curb; /* 0: refused */
  } rows[] = {{1, 0, 2}, {12, 0, 9}, {4, 0, 4}, {0, 1.5, 1}, {8, 3, 6}, {4, 10, 0}};

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++) {
    g_autofree char *words =
        g_strdup_printf ("basin.height=%gin basin.recess=%gin", rows[i].height, rows[i].recess);
    g_autoptr (DryProject) project =
        rule_room_set_fields (rule_room_shower (INCH (60), INCH (34)), words);
    g_autoptr (DryProject) better = NULL;

    if (rows[i].curb == 0) {
      refused ((Case){project, "pan.curb", 0, NULL}, DRY_ERROR_GEOMETRY, "deeper than any curb");
      continue;
    }
    better = made ((Case){project, "pan.curb", 0, NULL});
    g_assert_cmpint (dry_test_first_room (better)->basin.height, ==, INCH (rows[i].curb));
  }
}

static void
test_no_shower (void)
{
  g_autoptr (DryProject) project = alcove ();
  g_autoptr (DryProject) better = NULL;

  project = rule_room_add_part (g_steal_pointer (&project), 'e',
                                make_part (DRY_PART_SHOWER_HEAD, 15, 80, 1));
  project =
      rule_room_add_part (g_steal_pointer (&project), 'e', make_part (DRY_PART_VALVE, 15, 28, 3));
  project = rule_room_add_part (g_steal_pointer (&project), 'n',
                                make_part (DRY_PART_HAND_SHOWER, 24, 60, 1));
  better = made ((Case){project, "basin.no-shower", 0, NULL});
  g_assert_cmpuint (dry_test_first_room (better)->n_parts, ==, 1);
  g_assert_cmpint (dry_test_first_room (better)->parts[0].kind, ==, DRY_PART_VALVE);
}

/* --- wet zone --- */

/* Raised by what it is short of, from whatever the rule counts; to the ceiling where that is no
 * less. */
static void
test_raise (void)
{
  static const struct {
    double height, asked, raised; /* 0: to the ceiling of 96 in */
    DryLimitKind kind;
  } rows[] = {{50, 72, 72, DRY_LIMIT_LENGTH},
              {50, 96, 0, DRY_LIMIT_LENGTH},
              {80, 72, 80, DRY_LIMIT_LENGTH},
              {50, 72, 50, DRY_LIMIT_NUMBER},
              {0, 120, 0, DRY_LIMIT_LENGTH}};

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++) {
    const DryWetZone wet = {.height = INCH (rows[i].height), .past = INCH (2), .leg = TRUE};
    const DryCondition require[] = {
        {.measure = "not-measured", .kind = DRY_LIMIT_LENGTH, .length = INCH (999)},
        {.measure = "wet-top",
         .compare = DRY_COMPARE_AT_LEAST,
         .kind = rows[i].kind,
         .length = INCH (rows[i].asked)}};
    const DryRule rule = {.id = "made-up", .subject = "wall", .require = require, .n_require = 2};
    const DryRemedy remedy = {"Raise it", "wet.to-height"};
    g_autoptr (DryProject) project = rule_room_set_wet (alcove (), wet);
    g_autoptr (DryPlan) plan = rule_room_plan (project);
    const DryFace *face =
        dry_faces_get_wall (plan->faces, dry_test_wall (project, 'e'), DRY_SIDE_INSIDE);
    const DryFinding finding = {.rule = &rule, .object = face->wall, .face = (gint) face->index};
    g_autoptr (GError) error = NULL;
    g_autoptr (DryProject) better =
        dry_remedy_apply (project, dry_test_room (project), plan, &finding, &remedy, &error);

    g_assert_no_error (error);
    g_assert_cmpint (dry_test_first_room (better)->wet.height, ==, INCH (rows[i].raised));
  }
}

/* --- tile and board --- */

/* All that was set of the layout is given up, on every wall. */
static void
test_free_start (void)
{
  g_autoptr (DryProject) project = rule_room_set_fields (
      alcove (), "finish.level_set=1 finish.level=20in finish.wrap=1 finish.whole_outer=1 "
                 "wall.n.tile_set=1 wall.n.tile_from=7in wall.e.tile_ends=2 wall.s.tile_ends=1");
  g_autoptr (DryProject) better = made ((Case){project, "tile.free-start", 0, NULL});
  const DryFinish *finish = &dry_test_first_room (better)->finish;

  g_assert_false (finish->level_set || finish->wrap || finish->whole_outer);
  g_assert_cmpint (finish->level, ==, 0);
  g_assert_false (wall_of (better, 'n')->tile_set);
  g_assert_cmpint (wall_of (better, 'n')->tile_from, ==, 0);
  g_assert_cmpint (wall_of (better, 'e')->tile_ends, ==, DRY_TILE_ENDS_AS_ROOM);
  g_assert_cmpint (wall_of (better, 's')->tile_ends, ==, DRY_TILE_ENDS_BALANCED); /* no fault */
}

/* Board as thick as the drywall beside it, within 1/16 in; plaster of 1 in has none. */
static void
test_flush_board (void)
{
  const DrySystem *system = dry_catalog_get_system (dry_test_catalog (), "foam-bands");

  for (guint i = 0; i < system->n_thicknesses; i++) {
    g_autofree char *words = g_strdup_printf ("wall.n.lining=%.4fmm",
                                              dry_length_to_mm (system->thicknesses[i].value) + 1);
    g_autoptr (DryProject) project = rule_room_set_fields (alcove (), words);
    g_autoptr (DryProject) better =
        made ((Case){project, "finish.flush-board", dry_test_wall (project, 'n'), NULL});

    g_assert_cmpint (
        ABS (dry_test_first_room (better)->finish.board - wall_of (project, 'n')->lining), <=,
        DRY_INCH / 16);
  }
  g_autoptr (DryProject) plaster = rule_room_set_fields (alcove (), "wall.n.lining=4in");
  refused ((Case){plaster, "finish.flush-board", dry_test_wall (plaster, 'n'), NULL},
           DRY_ERROR_GEOMETRY, "no board as thick as this drywall");
}

/* Whole boxes, as many as the take-off counts or the rule asks over the area. */
static void
test_order_enough (void)
{
  for (gint box = 0; box <= 12; box += 6) {
    g_autofree char *words = g_strdup_printf (
        "finish.tiled=1 finish.tile_width=6in finish.tile_height=6in finish.tiles_in_box=%d "
        "finish.tiles_ordered=5",
        box);
    const DryCondition require = {.measure = "ordered-over",
                                  .compare = DRY_COMPARE_AT_LEAST,
                                  .kind = DRY_LIMIT_NUMBER,
                                  .number = 10};
    const DryRule rule = {.id = "made-up", .subject = "tile", .require = &require, .n_require = 1};
    g_autoptr (DryProject) project = rule_room_set_fields (alcove (), words);
    g_autoptr (DryProject) better = made ((Case){project, "tile.order-enough", 0, &rule});
    g_autoptr (DryPlan) plan = rule_room_plan (better);
    gint ordered = dry_test_first_room (better)->finish.tiles_ordered;

    g_assert_cmpuint (ordered, >=, dry_tiling_to_buy (plan->tiling));
    g_assert_cmpfloat (rule_room_measure (plan, "tile", "ordered-over")->number, >=, 10 - 1e-9);
    g_assert_cmpfloat (rule_room_measure (plan, "tile", "ordered-short")->number, ==, 0);
    if (box > 1)
      g_assert_cmpint (ordered % box, ==, 0);
  }
}

/* --- niches --- */

static DryPart
make_niche (double u, double z)
{
  DryPart niche = make_part (DRY_PART_NICHE, u, z, 0);

  niche.width = INCH (10);
  niche.height = INCH (10);
  niche.depth = INCH (5);
  niche.site_built = TRUE;
  return niche;
}

/* What is sold ready-made keeps its size; what is built takes what the wall has. */
static void
test_niche_sizes (void)
{
  g_autoptr (DryProject) built = rule_room_add_part (alcove (), 'n', make_niche (24, 48));
  DryPart box = make_niche (24, 48);
  g_autoptr (DryProject) ready = NULL, taller = NULL, shallower = NULL, added = NULL, in = NULL;
  DryId wall = 0;

  box.site_built = FALSE;
  box.body_width = INCH (12);
  box.body_height = INCH (12);
  ready = rule_room_add_part (alcove (), 'n', box);
  refused ((Case){ready, "niche.taller", added_wall_last_part (ready), NULL}, DRY_ERROR_GEOMETRY,
           "choose a taller one");
  refused ((Case){ready, "niche.to-cavity", added_wall_last_part (ready), NULL}, DRY_ERROR_GEOMETRY,
           "choose a shallower one");
  taller = made ((Case){built, "niche.taller", added_wall_last_part (built), NULL});
  g_assert_cmpint (last_part (taller)->height, ==, INCH (14));
  shallower = made ((Case){built, "niche.to-cavity", added_wall_last_part (built), NULL});
  g_assert_cmpint (last_part (shallower)->depth, ==, INCH (3.5));
  /* a wall that was put in is as deep as it is said to be thick */
  added = added_wall_close (added_wall_corner_shower ("foam-bands"), 0, &wall);
  added =
      added_wall_put_part (g_steal_pointer (&added), wall, DRY_SIDE_INSIDE, make_niche (18, 48));
  {
    DryWall thick = *dry_room_get_wall (dry_test_first_room (added), wall);

    thick.thickness = INCH (4.5);
    added = added_wall_set (g_steal_pointer (&added), &thick);
  }
  in = made ((Case){added, "niche.to-cavity", added_wall_last_part (added), NULL});
  g_assert_cmpint (last_part (in)->depth, ==, INCH (4.5));
}

/* 15 in over the seat under it; a seat beside it, on another wall or one that is none are not
 * under it. */
static void
test_above_bench (void)
{
  static const struct {
    char wall;
    double u;
    gboolean under;
  } rows[] = {
      {'n', 24, TRUE}, {'n', 30, TRUE}, {'n', 45, FALSE}, {'n', 8, FALSE}, {'e', 24, FALSE}};

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++) {
    DryPart bench = make_part (DRY_PART_BENCH, rows[i].u, 18, 0);
    g_autoptr (DryProject) project = NULL, better = NULL;
    Case self;

    bench.width = INCH (16);
    bench.fold_down = TRUE;
    project = rule_room_add_part (alcove (), rows[i].wall, bench);
    project = rule_room_add_part (g_steal_pointer (&project), 'n', make_niche (24, 48));
    self = (Case){project, "niche.above-bench", added_wall_last_part (project), NULL};
    if (!rows[i].under) {
      refused (self, DRY_ERROR_GEOMETRY, "no bench under this niche");
      continue;
    }
    better = made (self);
    g_assert_cmpint (last_part (better)->z, ==, INCH (33));
  }
}

/* Onto joints by its place, its size or the start of the tile, or not at all: which tile is laid is
 * for people to say. */
static void
test_to_joints (void)
{
  static const struct {
    double u, z, width, height;
    const char *tile;
  } rows[] = {{24, 48, 10, 10, "finish.tile_width=12in finish.tile_height=12in"},
              {24, 41.3, 11, 17, "finish.tile_width=24in finish.tile_height=12in"},
              {22, 50, 7, 9.7, "finish.tile_width=4in finish.tile_height=4in"},
              {24, 44, 11, 14, "finish.tile_width=57in finish.tile_height=79in"}};
  guint refusals = 0;

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++) {
    DryPart niche = make_niche (rows[i].u, rows[i].z);
    g_autofree char *words = g_strconcat (
        "finish.tiled=1 finish.tile_thickness=8mm finish.joint=0.125in finish.mortar=3mm ",
        rows[i].tile, NULL);
    g_autoptr (DryProject) project = rule_room_set_fields (alcove (), words);
    g_autoptr (DryProject) better = NULL;
    g_autoptr (DryPlan) plan = NULL;
    g_autoptr (GError) error = NULL;

    niche.width = INCH (rows[i].width);
    niche.height = INCH (rows[i].height);
    niche.depth = INCH (3);
    project = rule_room_add_part (g_steal_pointer (&project), 'n', niche);
    better =
        apply ((Case){project, "niche.to-joints", added_wall_last_part (project), NULL}, &error);
    if (!better) {
      dry_test_refused (NULL, &error, DRY_ERROR_GEOMETRY, "choose another tile");
      refusals++;
      continue;
    }
    plan = rule_room_plan (better);
    g_assert_cmpint (rule_room_measure (plan, "niche", "off-joint")->length, <=, DRY_INCH / 8);
    g_assert_cmpint (dry_test_first_room (better)->finish.tile_width, ==,
                     dry_test_first_room (project)->finish.tile_width);
  }
  g_assert_cmpuint (refusals, >, 0);
  g_assert_cmpuint (refusals, <, G_N_ELEMENTS (rows));
}

/* --- fittings --- */

/* Beside the stud on the side it stands nearer to; nowhere when no bay takes the hole. */
static void
test_off_stud (void)
{
  g_autoptr (DryProject) wide =
      rule_room_add_part (alcove (), 'n', make_part (DRY_PART_VALVE, 32, 40, 15));

  for (gint side = -1; side <= 1; side += 2) {
    g_autoptr (DryProject) project =
        rule_room_add_part (alcove (), 'n', make_part (DRY_PART_VALVE, 32 + 0.5 * side, 40, 3));
    g_autoptr (DryProject) better =
        made ((Case){project, "fitting.off-stud", added_wall_last_part (project), NULL});

    /* half a stud and half the hole */
    g_assert_cmpint (last_part (better)->u, ==, INCH (32 + 2.25 * side));
  }
  refused ((Case){wide, "fitting.off-stud", added_wall_last_part (wide), NULL}, DRY_ERROR_GEOMETRY,
           "wide enough for the hole");
}

/* With a shower within the rule's bounds, for a bath between the rim and 33 in; a rim over that is
 * out of reach, and without a tub there is none. */
static void
test_valve_in_reach (void)
{
  static const struct {
    double z, rim;
    gboolean shower;
    double to; /* 0: refused */
  } rows[] = {{60, 15, TRUE, 48},  {20, 15, TRUE, 38},  {40, 15, TRUE, 40},
              {40, 15, FALSE, 33}, {10, 15, FALSE, 15}, {40, 34, FALSE, 0}};

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++) {
    g_autofree char *words = g_strdup_printf ("basin.height=%gin", rows[i].rim);
    g_autoptr (DryProject) project = rule_room_set_fields (alcove (), words);
    g_autoptr (DryProject) better = NULL;
    Case self;

    if (rows[i].shower)
      project = rule_room_add_part (g_steal_pointer (&project), 'e',
                                    make_part (DRY_PART_SHOWER_HEAD, 15, 80, 1));
    project = rule_room_add_part (g_steal_pointer (&project), 'e',
                                  make_part (DRY_PART_VALVE, 15, rows[i].z, 3));
    self = (Case){project, "valve.to-reach", added_wall_last_part (project), NULL};
    if (rows[i].to == 0) {
      refused (self, DRY_ERROR_GEOMETRY, "no height is in reach");
      continue;
    }
    better = made (self);
    g_assert_cmpint (last_part (better)->z, ==, INCH (rows[i].to));
  }
  g_autoptr (DryProject) pan = rule_room_add_part (rule_room_shower (INCH (60), INCH (34)), 'e',
                                                   make_part (DRY_PART_VALVE, 15, 40, 3));
  refused ((Case){pan, "valve.to-reach", added_wall_last_part (pan), NULL}, DRY_ERROR_GEOMETRY,
           "no height is in reach");
}

/* Within what its rule asks, both bounds or one that is exact. */
static void
test_into_reach (void)
{
  static const struct {
    double z, to;
    guint n;
    DryCompare compare[2];
    double limit[2];
  } rows[] = {{30, 40, 2, {DRY_COMPARE_AT_LEAST, DRY_COMPARE_AT_MOST}, {40, 48}},
              {70, 48, 2, {DRY_COMPARE_AT_LEAST, DRY_COMPARE_AT_MOST}, {40, 48}},
              {30, 44, 1, {DRY_COMPARE_EQUAL}, {44}},
              {70, 60, 0, {0}, {0}},
              {30, 36, 1, {DRY_COMPARE_NOT_EQUAL}, {44}}};

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++) {
    DryCondition require[2];
    const DryRule rule = {
        .id = "made-up", .subject = "niche", .require = require, .n_require = rows[i].n};
    g_autoptr (DryProject) project =
        rule_room_add_part (alcove (), 'n', make_niche (24, rows[i].z));
    g_autoptr (DryProject) better = NULL;

    for (guint k = 0; k < rows[i].n; k++)
      require[k] = (DryCondition){.measure = "bottom",
                                  .compare = rows[i].compare[k],
                                  .kind = DRY_LIMIT_LENGTH,
                                  .length = INCH (rows[i].limit[k])};
    better =
        made ((Case){project, "niche.raise-into-reach", added_wall_last_part (project), &rule});
    g_assert_cmpint (last_part (better)->z, ==, INCH (rows[i].to));
  }
}

static void
test_bench_depth (void)
{
  static const double rows[][2] = {{12, 15}, {15.5, 15.5}, {20, 16}};

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++) {
    DryPart bench = make_part (DRY_PART_BENCH, 24, 18, 0);
    g_autoptr (DryProject) project = NULL, better = NULL;

    bench.depth = INCH (rows[i][0]);
    project = rule_room_add_part (rule_room_shower (INCH (60), INCH (34)), 'n', bench);
    better = made ((Case){project, "bench.to-depth", added_wall_last_part (project), NULL});
    g_assert_cmpint (last_part (better)->depth, ==, INCH (rows[i][1]));
  }
}

/* Level seams lie on blocking that is set where they fall, and a wall without boards has no
 * seams. */
static void
test_seam_to_stud (void)
{
  static const struct {
    char wall;
    gboolean level;
  } rows[] = {{'n', TRUE}, {'s', FALSE}};

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++) {
    g_autoptr (DryProject) project = alcove (), wished = NULL;
    const DrySeamWish seam = {.wall = dry_test_wall (project, rows[i].wall),
                              .level = rows[i].level,
                              .at = INCH (40),
                              .through = INCH (40)};
    DryId id = 0;

    wished = dry_edit_set_seam (project, dry_test_room (project), &seam, &id, NULL);
    g_assert_nonnull (wished);
    refused ((Case){wished, "seam.to-stud", id, NULL}, DRY_ERROR_GEOMETRY, "let the plan choose");
  }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/remedies/made/not-there", test_not_there);
  g_test_add_func ("/remedies/made/closer-studs", test_closer_studs);
  g_test_add_func ("/remedies/made/fit-walls", test_fit_walls);
  g_test_add_func ("/remedies/made/curb", test_curb);
  g_test_add_func ("/remedies/made/no-shower", test_no_shower);
  g_test_add_func ("/remedies/made/raise", test_raise);
  g_test_add_func ("/remedies/made/free-start", test_free_start);
  g_test_add_func ("/remedies/made/flush-board", test_flush_board);
  g_test_add_func ("/remedies/made/order-enough", test_order_enough);
  g_test_add_func ("/remedies/made/niche-sizes", test_niche_sizes);
  g_test_add_func ("/remedies/made/above-bench", test_above_bench);
  g_test_add_func ("/remedies/made/to-joints", test_to_joints);
  g_test_add_func ("/remedies/made/off-stud", test_off_stud);
  g_test_add_func ("/remedies/made/valve-in-reach", test_valve_in_reach);
  g_test_add_func ("/remedies/made/into-reach", test_into_reach);
  g_test_add_func ("/remedies/made/bench-depth", test_bench_depth);
  g_test_add_func ("/remedies/made/seam-to-stud", test_seam_to_stud);
  return g_test_run ();
}
