/* SPDX-License-Identifier: GPL-3.0-or-later */
/* How long seven alternates of a full project take after an edit of the base, on one core: plans,
 * schedules, costs and differences. Tells the time; asserts nothing of it. */
#include "plan/compare.h"
#include "support/fixtures.h"

#define ROUNDS 40

static const char *const systems[] = {"cement-liquid", "cement-sheet",     "foam-sealant",
                                      "foam-bands",    "glass-mat-liquid", "fibre-cement",
                                      "mortar-bed"};

static DryProject *
make (void)
{
  DryProject *project = dry_test_furnished_alcove ("foam-bands");
  g_autoptr (GError) error = NULL;

  for (guint i = 0; i < G_N_ELEMENTS (systems); i++) {
    DryId id, room = dry_test_room (project);
    g_autoptr (DryProject) old = project, added = NULL, same = NULL, changed = NULL;
    DryFinish finish = dry_project_get_room (project, room)->finish;
    added = dry_edit_add_alternate (old, systems[i], NULL, &id, &error);
    same = dry_project_resolve (added, id);
    finish.system = (char *) systems[i];
    finish.joint += DRY_MM; /* never the base's own plan */
    changed = dry_edit_set_finish (same, room, &finish, &error);
    project = dry_edit_set_alternate (added, id, changed, &error);
    g_assert_no_error (error);
  }
  return project;
}

static int
compare_times (gconstpointer a, gconstpointer b)
{
  gint64 x = *(const gint64 *) a, y = *(const gint64 *) b;

  return x < y ? -1 : x > y;
}

int
main (void)
{
  g_autoptr (DryProject) project = make ();
  const DryPriceBook *book = dry_catalog_get_price_book (dry_test_catalog (), NULL);
  gint64 times[ROUNDS];

  for (guint i = 0; i < ROUNDS; i++) {
    g_autoptr (GError) error = NULL;
    DryId room = dry_test_room (project);
    DryPart part = dry_project_get_room (project, room)->parts[0];
    g_autoptr (DryProject) old = project;
    gint64 start = g_get_monotonic_time ();
    part.u += i % 2 ? DRY_INCH / 8 : -DRY_INCH / 8;
    project = dry_edit_set_part (old, room, &part, NULL, &error);
    g_assert_no_error (error);
    g_autoptr (DryComparison) all = dry_comparison_new (project, 0, dry_test_catalog (), book,
                                                        "2026-12-01", NULL, 0, NULL, &error);
    g_assert_no_error (error);
    g_assert_cmpuint (all->n, ==, 8);
    times[i] = g_get_monotonic_time () - start;
  }
  qsort (times, ROUNDS, sizeof *times, compare_times);
  g_print ("1..1\n# base and seven alternates after an edit: median %.1f ms, 95th of 100 %.1f "
           "ms\nok 1\n",
           (double) times[ROUNDS / 2] / 1000, (double) times[ROUNDS * 95 / 100] / 1000);
  return 0;
}
