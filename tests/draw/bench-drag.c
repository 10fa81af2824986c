/* SPDX-License-Identifier: GPL-3.0-or-later */
/* How long a whole plan takes, and one step of a drag: the niche moved by an edit, planned and laid
 * out as a scene. Prints medians and 95th percentiles for every system; a person compares, no limit
 * is asserted. */
#include "draw/drawings.h"
#include "support/fixtures.h"

#define ROUNDS 120

static int
compare (gconstpointer a, gconstpointer b)
{
  gint64 x = *(const gint64 *) a, y = *(const gint64 *) b;

  return (x > y) - (x < y);
}

static void
print_times (const char *what, const char *system, gint64 times[ROUNDS])
{
  qsort (times, ROUNDS, sizeof (gint64), compare);
  g_print ("%-10s %-18s median %6.2f ms, 95 %% under %6.2f ms\n", what, system,
           (double) times[ROUNDS / 2] / 1000, (double) times[ROUNDS * 95 / 100] / 1000);
}

static void
time_system (const char *system)
{
  g_autoptr (DryProject) project = dry_test_furnished_alcove (system);
  const DryCatalog *catalog = dry_test_catalog ();
  DryId room = dry_test_room (project);
  const DryPart *niche = dry_test_niche (dry_project_get_room (project, room));
  gint64 plan_times[ROUNDS], drag_times[ROUNDS];

  for (guint i = 0; i < ROUNDS; i++) {
    g_autoptr (GError) error = NULL;
    gint64 start = g_get_monotonic_time (), planned;
    g_autoptr (DryPlan) plan = dry_plan_new (project, room, catalog, NULL, &error);
    g_autoptr (DryProject) moved = NULL;
    g_autoptr (DryPlan) next = NULL;
    g_autoptr (DryScene) scene = NULL;

    g_assert_no_error (error);
    planned = g_get_monotonic_time ();
    moved = dry_edit_move_part (project, room, niche->id, niche->wall, niche->side,
                                niche->u + (DryLength) i % 40 * DRY_INCH / 8, niche->z, &error);
    g_assert_no_error (error);
    next = dry_plan_new (moved, room, catalog, NULL, &error);
    scene = dry_drawing_board (next);
    plan_times[i] = planned - start;
    drag_times[i] = g_get_monotonic_time () - planned;
  }
  print_times ("plan", system, plan_times);
  print_times ("drag step", system, drag_times);
}

int
main (void)
{
  const DryCatalog *catalog = dry_test_catalog ();

  for (guint i = 0; i < dry_catalog_get_n_systems (catalog); i++)
    time_system (dry_catalog_get_system_at (catalog, i)->id);
  return 0;
}
