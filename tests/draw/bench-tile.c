/* SPDX-License-Identifier: GPL-3.0-or-later */
/* How long the tile stage takes by itself, and one step of a drag with tile on the walls: the niche
 * moved, planned and laid out as a scene. Prints medians and 95th percentiles for several tiles; a
 * person compares, no limit is asserted. */
#include "draw/drawings.h"
#include "support/fixtures.h"

#define ROUNDS 100

static const struct {
  const char *name;
  DryPattern pattern;
  double width, height, offset; /* inches */
} TILES[] = {
    {"3 x 6 offset", DRY_PATTERN_OFFSET, 6, 3, 0.5},
    {"3 x 6 straight", DRY_PATTERN_STRAIGHT, 6, 3, 0},
    {"12 x 24 third", DRY_PATTERN_OFFSET, 24, 12, 0.33},
    {"3 x 6 herringbone", DRY_PATTERN_HERRINGBONE, 6, 3, 0},
    {"6 x 6 diagonal", DRY_PATTERN_DIAGONAL, 6, 6, 0},
    {"2 hexagon", DRY_PATTERN_HEXAGON, 2, 2, 0},
};

static int
compare (const void *a, const void *b)
{
  gint64 x = *(const gint64 *) a, y = *(const gint64 *) b;

  return (x > y) - (x < y);
}

static void
print_times (const char *what, gint64 times[ROUNDS])
{
  qsort (times, ROUNDS, sizeof (gint64), compare);
  g_print ("  %-12s median %6.2f ms, 95 %% under %6.2f ms\n", what,
           (double) times[ROUNDS / 2] / 1000, (double) times[ROUNDS * 95 / 100] / 1000);
}

static DryProject *
make_tiled (const DryProject *from, guint t)
{
  const DryRoom *room = dry_project_get_room_at (from, 0);
  g_autoptr (GError) error = NULL;
  DryFinish finish = room->finish;
  DryProject *project;

  finish.tiled = TRUE;
  finish.tile = NULL;
  finish.tile_width = (DryLength) (TILES[t].width * DRY_INCH);
  finish.tile_height = (DryLength) (TILES[t].height * DRY_INCH);
  finish.tile_thickness = 5 * DRY_INCH / 16;
  finish.joint = DRY_INCH / 8;
  finish.mortar = DRY_INCH / 8;
  finish.pattern = TILES[t].pattern;
  finish.offset = TILES[t].offset;
  project = dry_edit_set_finish (from, room->id, &finish, &error);
  g_assert_no_error (error);
  return project;
}

static gint64
time_stage (const DryPlan *plan)
{
  DryPlanContext context = plan->context;
  gint64 start;

  context.arena = dry_arena_new ();
  start = g_get_monotonic_time ();
  g_assert_nonnull (dry_tiling_compute (&context, plan->faces, NULL));
  start = g_get_monotonic_time () - start;
  dry_arena_unref (context.arena);
  return start;
}

static void
time_tile (guint t)
{
  g_autoptr (DryProject) alcove = dry_test_furnished_alcove ("foam-bands");
  g_autoptr (DryProject) project = make_tiled (alcove, t);
  DryId room = dry_test_room (project);
  const DryPart *niche = dry_test_niche (dry_project_get_room (project, room));
  gint64 stage[ROUNDS], plans[ROUNDS], drags[ROUNDS];
  guint n_tiles = 0;

  for (guint i = 0; i < ROUNDS; i++) {
    g_autoptr (GError) error = NULL;
    gint64 start = g_get_monotonic_time (), planned;
    g_autoptr (DryProject) moved =
        dry_edit_move_part (project, room, niche->id, niche->wall, niche->side,
                            niche->u + (DryLength) (i % 40) * DRY_INCH / 8, niche->z, &error);
    g_autoptr (DryPlan) plan = dry_plan_new (moved, room, dry_test_catalog (), NULL, &error);
    g_autoptr (DryScene) scene = NULL;

    g_assert_no_error (error);
    planned = g_get_monotonic_time ();
    scene = dry_drawing_board (plan);
    plans[i] = planned - start;
    drags[i] = g_get_monotonic_time () - start;
    stage[i] = time_stage (plan);
    n_tiles = plan->tiling->n_tiles;
  }
  g_print ("%s, %u tiles\n", TILES[t].name, n_tiles);
  print_times ("tile stage", stage);
  print_times ("plan", plans);
  print_times ("drag step", drags);
}

int
main (void)
{
  for (guint t = 0; t < G_N_ELEMENTS (TILES); t++)
    time_tile (t);
  return 0;
}
