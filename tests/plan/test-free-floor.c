/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The free floor of small rooms worked out on paper, and the largest circle on it against circles
 * known from geometry and a search over a plain grid. */
#include "plan/basin-outline.h"
#include "plan/free-floor.h"

#include <string.h>

#include "plan/outline.h"
#include "plan/rule-room.h"

#define EXACT_DIAMETER (DRY_INCH / 16)

typedef struct {
  DryArena *arena;
  DryRoom room;
  DryWall walls[8];
  DryPart parts[2];
  DryJob job;
  DryPlanContext context;
} Site;

/* A room `w` by `h` inches, walls bare, clockwise from the low left corner. */
static void
set_up (Site *self, double w, double h)
{
  DryPoint corners[4] = {{0, 0}, {0, INCH (h)}, {INCH (w), INCH (h)}, {INCH (w), 0}};

  *self = (Site){.arena = dry_arena_new ()};
  for (guint i = 0; i < 4; i++)
    self->walls[i] = (DryWall){.id = i + 1, .start = corners[i], .end = corners[(i + 1) % 4]};
  self->room =
      (DryRoom){.id = 90, .walls = self->walls, .n_walls = 4, .n_outline = 4, .parts = self->parts};
  self->context = (DryPlanContext){.arena = self->arena, .job = &self->job, .room = &self->room};
}

static DryFreeFloor
reckon (Site *self)
{
  return dry_free_floor_reckon (&self->context, NULL, DRY_TURNING_DIAMETER);
}

static double
square_inches (const DryFreeFloor *free_floor)
{
  return dry_region_area_m2 (&free_floor->floor) / (0.0254 * 0.0254);
}

static void
check (Site *self, double area, double diameter, gboolean fits)
{
  DryFreeFloor answer = reckon (self);

  g_assert_cmpfloat_with_epsilon (square_inches (&answer), area, 0.01);
  g_assert_cmpint (answer.diameter, <=, INCH (diameter) + 2);
  g_assert_cmpint (answer.diameter, >=, INCH (diameter) - EXACT_DIAMETER);
  g_assert_cmpint (answer.fits, ==, fits);
  g_assert_nonnull (answer.working.formula);
  g_assert_nonnull (strstr (answer.working.inputs[1].value, "toilet"));
}

/* ADA 2010 304.3.1: 60 in at least, and 60 is enough. */
static void
test_limit (void)
{
  static const struct {
    double w, h, diameter;
    gboolean fits;
  } rooms[] = {{60, 60, 60, TRUE},  {60, 97, 60, TRUE},
               {131, 60, 60, TRUE}, {59.9375, 120, 59.9375, FALSE},
               {84, 96, 84, TRUE},  {59.999, 59.999, 59.999, FALSE}};

  for (guint i = 0; i < G_N_ELEMENTS (rooms); i++) {
    Site site;
    set_up (&site, rooms[i].w, rooms[i].h);
    check (&site, rooms[i].w * rooms[i].h, rooms[i].diameter, rooms[i].fits);
    dry_arena_unref (site.arena);
  }
}

static void
test_things (void)
{
  Site site;

  /* Drywall of 1/2 in all round: 61 in between studs is 60 in to turn in. */
  set_up (&site, 61, 100);
  for (guint i = 0; i < 4; i++)
    site.walls[i].lining = INCH (0.5);
  check (&site, 60 * 99, 60, TRUE);

  /* A tub along the upper wall; then a pan with a curb; then one without, which can be rolled on,
   * unless its floor is steeper than 1:48 (ADA 304.2). */
  dry_arena_unref (site.arena);
  set_up (&site, 60, 90);
  site.room.basin = (DryBasin){.id = 50,
                               .kind = DRY_BASIN_TUB,
                               .wall = 2,
                               .length = INCH (60),
                               .width = INCH (32),
                               .height = INCH (15)};
  check (&site, 60 * 58, 58, FALSE);
  site.room.basin.kind = DRY_BASIN_PAN;
  site.room.basin.height = INCH (0.5625);
  check (&site, 60 * 58, 58, FALSE);
  site.room.basin.height = INCH (0.5);
  check (&site, 60 * 90, 60, TRUE);
  site.room.basin.slope = 1.0 / 48;
  check (&site, 60 * 90, 60, TRUE);
  site.room.basin.slope = 1.0 / 40;
  check (&site, 60 * 58, 58, FALSE);

  /* A built seat stands on the floor, a folding one does not. */
  dry_arena_unref (site.arena);
  set_up (&site, 80, 80);
  site.room.n_parts = 1;
  site.parts[0] = (DryPart){.id = 60,
                            .kind = DRY_PART_BENCH,
                            .wall = 2,
                            .u = INCH (40),
                            .z = INCH (18),
                            .width = INCH (80),
                            .height = INCH (2),
                            .depth = INCH (16)};
  check (&site, 80 * 64, 64, TRUE);
  site.parts[0].fold_down = TRUE;
  check (&site, 80 * 80, 80, TRUE);
  /* A fixed panel splits it, a door of glass does not. */
  site.parts[0] = (DryPart){.id = 60,
                            .kind = DRY_PART_GLASS,
                            .wall = 2,
                            .u = INCH (30),
                            .width = INCH (80),
                            .height = INCH (76),
                            .depth = INCH (1)};
  check (&site, 80 * 79, 49.5, FALSE);
  site.parts[0].hinged = TRUE;
  check (&site, 80 * 80, 80, TRUE);

  /* A half wall across, 5 in thick: it takes its thickness off behind the face that looks up. */
  dry_arena_unref (site.arena);
  set_up (&site, 100, 100);
  site.walls[4] = (DryWall){.id = 5,
                            .added = TRUE,
                            .start = {0, INCH (60)},
                            .end = {INCH (100), INCH (60)},
                            .height = INCH (42),
                            .thickness = INCH (5)};
  site.room.n_walls = 5;
  {
    DryFreeFloor answer = reckon (&site);
    g_assert_cmpfloat_with_epsilon (square_inches (&answer), 100 * 95, 0.01);
    g_assert_cmpint (answer.floor.n_polygons, ==, 2);
    g_assert_true (answer.diameter == INCH (60) || answer.diameter == INCH (55));
  }
  dry_arena_unref (site.arena);
}

/* A neo-angle pan gives back the triangle of its cut, half a square of 10 in, where a corner stands
 * between two open edges, whichever that is. Drawings cut the same one: it is one outline. */
static void
test_cut_corner (void)
{
  static const struct {
    double along, away;
    gboolean walled; /* by a half wall, 5 in thick, on its right */
    gboolean cut;
    int x, y; /* the corner cut off */
  } cases[] = {
      {0, 0, FALSE, TRUE, 40, 60},   {60, 0, FALSE, TRUE, 60, 60}, {0, 60, FALSE, TRUE, 40, 40},
      {60, 60, FALSE, TRUE, 60, 40}, {0, 0, TRUE, FALSE, 0, 0},    {30, 0, TRUE, TRUE, 30, 60},
  };

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++) {
    Site site;
    DryFreeFloor answer;
    DryBasinOutline outline;
    double taken = 40 * 40 - (cases[i].cut ? 50 : 0) + (cases[i].walled ? 5 * 40 : 0);

    set_up (&site, 100, 100);
    site.room.basin = (DryBasin){.id = 50,
                                 .kind = DRY_BASIN_PAN,
                                 .wall = 2,
                                 .along = INCH (cases[i].along),
                                 .away = INCH (cases[i].away),
                                 .length = INCH (40),
                                 .width = INCH (40),
                                 .height = INCH (4),
                                 .corner_cut = INCH (10)};
    if (cases[i].walled) {
      DryLength x = INCH (cases[i].along + 40);

      site.walls[4] = (DryWall){.id = 5,
                                .added = TRUE,
                                .start = {x, INCH (100)},
                                .end = {x, INCH (60)},
                                .height = INCH (42),
                                .thickness = INCH (5)};
      site.room.n_walls = 5;
    }
    answer = reckon (&site);
    g_assert_cmpfloat_with_epsilon (square_inches (&answer), 100 * 100 - taken, 0.01);
    g_assert_true (dry_basin_outline (&site.room, &outline));
    g_assert_cmpint (outline.cut >= 0, ==, cases[i].cut);
    for (guint k = 0; cases[i].cut && k < 2; k++) {
      DryPoint p = outline.points[((guint) outline.cut + k) % outline.n];

      g_assert_cmpint (ABS (p.x - INCH (cases[i].x)) + ABS (p.y - INCH (cases[i].y)), ==,
                       INCH (10));
    }
    dry_arena_unref (site.arena);
  }
}

static void
test_nothing (void)
{
  Site site;
  DryFreeFloor answer;

  set_up (&site, 60, 32);
  site.room.basin = (DryBasin){.id = 50,
                               .kind = DRY_BASIN_TUB,
                               .wall = 2,
                               .length = INCH (60),
                               .width = INCH (32),
                               .height = INCH (15)};
  answer = reckon (&site);
  g_assert_cmpint (answer.diameter, ==, 0);
  g_assert_false (answer.fits);
  site.room.n_outline = site.room.n_walls = 0;
  answer = reckon (&site);
  g_assert_cmpint (answer.diameter, ==, 0);
  dry_arena_unref (site.arena);
}

/* --- shapes against a plain grid --- */

static void
measure_ring (const DryRing *ring, DryPoint at, DryLength *least)
{
  for (guint i = 0; i < ring->n_points; i++)
    *least = MIN (
        *least, dry_outline_distance (at, ring->points[i], ring->points[(i + 1) % ring->n_points]));
}

/* How far the nearest edge of the floor is, every edge looked at; -1 off the floor. */
static DryLength
measure_clear (const DryRegion *floor, DryPoint at)
{
  DryLength least = G_MAXINT64;

  for (guint i = 0; i < floor->n_polygons; i++) {
    measure_ring (&floor->polygons[i].outer, at, &least);
    for (guint h = 0; h < floor->polygons[i].n_holes; h++)
      measure_ring (&floor->polygons[i].holes[h], at, &least);
  }
  return dry_region_contains (floor, at) ? least : -1;
}

static DryLength
search_grid (const DryRegion *floor, DryLength step)
{
  DryRect bounds = dry_region_bounds (floor);
  DryLength most = 0;

  for (DryLength x = bounds.x0; x <= bounds.x1; x += step)
    for (DryLength y = bounds.y0; y <= bounds.y1; y += step)
      most = MAX (most, measure_clear (floor, (DryPoint){x, y}));
  return most;
}

/* A room of a random slanted outline with three rectangles out of it. */
static DryRegion
make_floor (DryArena *arena, GRand *rand)
{
  DryPoint p[5] = {
      {INCH (g_rand_double_range (rand, 0, 20)), INCH (g_rand_double_range (rand, 0, 20))},
      {INCH (g_rand_double_range (rand, 70, 120)), INCH (g_rand_double_range (rand, 0, 20))},
      {INCH (g_rand_double_range (rand, 110, 140)), INCH (50)},
      {INCH (g_rand_double_range (rand, 70, 120)), INCH (g_rand_double_range (rand, 80, 120))},
      {INCH (g_rand_double_range (rand, 0, 20)), INCH (g_rand_double_range (rand, 80, 120))}};
  DryRegion floor = dry_region_from_ring (arena, p, 5);

  for (guint i = 0; i < 3; i++) {
    DryLength x = INCH (g_rand_int_range (rand, 0, 110)),
              y = INCH (g_rand_int_range (rand, 0, 100));
    DryRegion thing =
        dry_region_from_rect (arena, (DryRect){x, y, x + INCH (g_rand_int_range (rand, 6, 40)),
                                               y + INCH (g_rand_int_range (rand, 6, 40))});
    floor = dry_region_difference (arena, &floor, &thing);
  }
  return floor;
}

/* On a grid of step s the best place is at most s/sqrt(2) from a grid point, so the true answer is
 * no more than that above the grid's; ours must not be under the grid's by more than 1/32 in, and
 * must be the distance it says. */
static void
test_grid (void)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (304);
  const DryLength step = INCH (0.5);

  for (guint i = 0; i < 40; i++) {
    DryArena *arena = dry_arena_new ();
    DryRegion floor = make_floor (arena, rand);
    DryLength clear = 0, grid = search_grid (&floor, step);
    DryPoint at;
    g_assert_true (dry_free_floor_farthest (&floor, &at, &clear));
    g_assert_cmpint (measure_clear (&floor, at), ==, clear);
    g_assert_cmpint (clear, >=, grid - DRY_INCH / 32);
    g_assert_cmpint (clear, <=, grid + (DryLength) (0.7072 * (double) step));
    /* A fine grid round our place finds nothing better than the promise either. */
    for (int x = -24; x <= 24; x++)
      for (int y = -24; y <= 24; y++)
        g_assert_cmpint (
            measure_clear (&floor, (DryPoint){at.x + x * DRY_INCH / 48, at.y + y * DRY_INCH / 48}),
            <=, clear + DRY_INCH / 32);
    dry_arena_unref (arena);
  }
}

/* An L: the circle touches both outer walls and the inner corner. With legs 60 and the corner at
 * (60, 60) in a square of 100, r satisfies (100 - r - 60) sqrt 2 ... measured from the outer corner
 * at (0, 0): (60 - r) sqrt 2 = r, r = 60 sqrt 2 / (1 + sqrt 2) = 35.147. */
static void
test_corner (void)
{
  DryArena *arena = dry_arena_new ();
  DryPoint p[6] = {{0, 0},
                   {INCH (100), 0},
                   {INCH (100), INCH (60)},
                   {INCH (60), INCH (60)},
                   {INCH (60), INCH (100)},
                   {0, INCH (100)}};
  DryRegion floor = dry_region_from_ring (arena, p, 6);
  DryLength clear;
  DryPoint at;

  g_assert_true (dry_free_floor_farthest (&floor, &at, &clear));
  g_assert_cmpint (ABS (clear - INCH (35.1472)), <, DRY_INCH / 32);
  g_assert_cmpint (ABS (at.x - at.y), <, DRY_INCH / 4);
  g_assert_cmpint (measure_clear (&floor, (DryPoint){INCH (80), INCH (80)}), ==, -1);
  dry_arena_unref (arena);
}

/* Rooms of the cases, reckoned by taking one thing after the other off the floor: square
 * millimeters and 1/64 in. */
static void
test_cases (void)
{
  static const struct {
    const char *file;
    double area, diameter;
  } cases[] = {
      {"01-alcove.drybay", 2492091.790, 3776},
      {"02-old-house.drybay", 2415709.685, 3680},
      {"03-window-wall.drybay", 2415911.297, 3776},
      {"04-neo-angle.drybay", 5064989.870, 5135.9375},
      {"05-roll-in.drybay", 3578546.270, 3776},
      {"06-tiled-ceiling.drybay", 2415911.297, 3776},
      {"08-steam.drybay", 1806880.257, 3040},
      {"10-thirty-square.drybay", 1224352.390, 1856},
      {"11-bearing-outside.drybay", 2724349.390, 3808},
      {"12-steel-rated.drybay", 2491878.887, 3776},
      {"13-ex-tub.drybay", 2339782.417, 3776},
      {"15-tray-uk.drybay", 1955402.190, 2959.622},
      {"16-pony-wall.drybay", 4635958.470, 3948.4375},
      {"17-drop-in.drybay", 2493975.657, 3808},
      {"19-large-tile.drybay", 2263705.150, 3776},
      {"20-vent-bay.drybay", 2415911.297, 3776},
      {"20b-vent-bay-moved.drybay", 2415911.297, 3776},
  };

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++) {
    g_autoptr (DryProject) project = dry_test_load (cases[i].file);
    g_autoptr (DryPlan) plan = rule_room_plan (project);
    DryFreeFloor answer = dry_free_floor_reckon (&plan->context, plan->faces, DRY_TURNING_DIAMETER);
    double area = dry_region_area_m2 (&answer.floor) * 1e6;
    double diameter = (double) answer.diameter / (double) DRY_INCH_64;

    g_assert_cmpfloat_with_epsilon (area, cases[i].area, 0.01);
    g_assert_cmpfloat_with_epsilon (diameter, cases[i].diameter, 0.001);
  }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/plan/free-floor/limit", test_limit);
  g_test_add_func ("/plan/free-floor/things", test_things);
  g_test_add_func ("/plan/free-floor/cut-corner", test_cut_corner);
  g_test_add_func ("/plan/free-floor/nothing", test_nothing);
  g_test_add_func ("/plan/free-floor/grid", test_grid);
  g_test_add_func ("/plan/free-floor/corner", test_corner);
  g_test_add_func ("/plan/free-floor/cases", test_cases);
  return g_test_run ();
}
