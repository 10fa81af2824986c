/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What advice costs: taking a niche in hand, one step of a drag with everything the advisor does in
 * it, the five best places. 3 x 6 in tile in running bond over a 60 x 96 in alcove with valve,
 * spout, head and a vent. Prints medians and 95th percentiles of processor time; asserts none. */
#include <time.h>

#include "plan/advisor.h"
#include "support/fixtures.h"

#define ROUNDS 200

/* Of this thread alone, in microseconds: other programs' work does not count. */
static gint64
now (void)
{
  struct timespec time;

  clock_gettime (CLOCK_THREAD_CPUTIME_ID, &time);
  return (gint64) time.tv_sec * 1000000 + time.tv_nsec / 1000;
}

static int
compare (gconstpointer a, gconstpointer b)
{
  gint64 x = *(const gint64 *) a, y = *(const gint64 *) b;

  return (x > y) - (x < y);
}

static void
print_times (const char *what, gint64 *times, guint n)
{
  qsort (times, n, sizeof *times, compare);
  g_print ("%-34s median %7.3f ms, 95 %% under %7.3f ms\n", what, (double) times[n / 2] / 1000,
           (double) times[n * 95 / 100] / 1000);
}

static DryProject *
make_alcove (DryId *niche)
{
  g_autoptr (DryProject) bare = dry_test_furnished_alcove ("cement-liquid");
  const DryRoom *room = dry_project_get_room_at (bare, 0);
  DryFinish finish = room->finish;
  DryPart vent = {.kind = DRY_PART_VENT,
                  .wall = dry_test_wall (bare, 'n'),
                  .u = 40 * DRY_INCH,
                  .width = 3 * DRY_INCH,
                  .height = 90 * DRY_INCH,
                  .depth = 3 * DRY_INCH};
  g_autoptr (DryProject) tiled = NULL;
  g_autoptr (GError) error = NULL;
  DryProject *project;

  finish.tiled = TRUE;
  finish.tile_width = 6 * DRY_INCH;
  finish.tile_height = 3 * DRY_INCH;
  finish.tile_thickness = 5 * DRY_INCH / 16;
  finish.joint = DRY_INCH / 8;
  finish.pattern = DRY_PATTERN_OFFSET;
  finish.offset = 0.5;
  tiled = dry_edit_set_finish (bare, room->id, &finish, &error);
  g_assert_no_error (error);
  project = dry_edit_set_part (tiled, room->id, &vent, NULL, &error);
  g_assert_no_error (error);
  room = dry_project_get_room_at (project, 0);
  for (guint i = 0; i < room->n_parts; i++)
    if (room->parts[i].kind == DRY_PART_NICHE)
      *niche = room->parts[i].id;
  return project;
}

/* As the window does it: the pull of the best place near by, the edit, and the panel's words with
 * the four places an inch away; then the plan the worker makes of it. */
static void
time_steps (const DryAdvice *advice, const DryProject *project, const DryPart *niche)
{
  const DryAdviceFace *face = dry_advice_get_face (advice, niche->wall, niche->side);
  DryId room = dry_project_get_room_at (project, 0)->id;
  gint64 steps[ROUNDS], plans[ROUNDS], both[ROUNDS];

  for (guint i = 0; i < ROUNDS; i++) {
    g_autoptr (DryArena) arena = dry_arena_new ();
    g_autoptr (GError) error = NULL;
    g_autoptr (DryProject) moved = NULL;
    g_autoptr (DryPlan) plan = NULL;
    DryPoint from = {niche->u + (DryLength) (i % 50) * DRY_INCH / 4,
                     niche->z + (DryLength) (i % 17) * DRY_INCH / 4},
             to = from;
    gint64 start = now (), middle;

    dry_advice_snap (advice, face, from, 3 * DRY_INCH / 2, FALSE, &to);
    dry_advice_judge (advice, arena, face->wall, face->side, to);
    for (gint k = 0; k < 4; k++)
      dry_advice_reckon (advice, face,
                         (DryPoint){to.x + (k < 2 ? (2 * k - 1) * DRY_INCH : 0),
                                    to.y + (k < 2 ? 0 : (2 * k - 5) * DRY_INCH)});
    middle = now ();
    moved =
        dry_edit_move_part (project, room, niche->id, face->wall, face->side, to.x, to.y, &error);
    plan = dry_plan_new (moved, room, dry_test_catalog (), NULL, &error);
    g_assert_no_error (error);
    steps[i] = middle - start;
    plans[i] = now () - middle;
    both[i] = steps[i] + plans[i];
  }
  print_times ("advice of a drag step", steps, ROUNDS);
  print_times ("edit and whole plan of the step", plans, ROUNDS);
  print_times ("drag step, all of it", both, ROUNDS);
}

int
main (void)
{
  DryId id = 0;
  g_autoptr (DryProject) project = make_alcove (&id);
  const DryRoom *room = dry_project_get_room_at (project, 0);
  const DryPart *niche = dry_room_get_part (room, id);
  gint64 begins[40], best[20], chosen[10];
  g_autoptr (DryAdvice) advice = NULL;
  g_autoptr (GError) error = NULL;

  for (guint i = 0; i < G_N_ELEMENTS (begins); i++) {
    gint64 start = now ();
    g_clear_pointer (&advice, dry_advice_unref);
    advice = dry_advice_new (project, room->id, niche, dry_test_catalog (), NULL, NULL, &error);
    g_assert_no_error (error);
    begins[i] = now () - start;
  }
  print_times ("niche taken in hand", begins, G_N_ELEMENTS (begins));
  time_steps (advice, project, niche);
  for (guint i = 0; i < G_N_ELEMENTS (best); i++) {
    g_autoptr (DryArena) arena = dry_arena_new ();
    gint64 start = now ();
    guint n;
    dry_advice_find_best (advice, arena, (DryAdviceFreedom){0}, 5, &n);
    best[i] = now () - start;
  }
  print_times ("five best places", best, G_N_ELEMENTS (best));
  for (guint i = 0; i < G_N_ELEMENTS (chosen); i++) {
    g_autoptr (DryArena) arena = dry_arena_new ();
    gint64 start = now ();
    guint n;
    dry_advice_find_best (advice, arena, (DryAdviceFreedom){.datum = TRUE}, 5, &n);
    chosen[i] = now () - start;
  }
  print_times ("five best places, tile laid for them", chosen, G_N_ELEMENTS (chosen));
  return 0;
}
