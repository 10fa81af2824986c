/* SPDX-License-Identifier: GPL-3.0-or-later */
/* How long measures, the water's way and findings take, in full projects under every pack.
 * A benchmark: prints figures and asserts nothing about them. */
#include "plan/rule-room.h"

#define RUNS 200

static void
bench_file (const char *file, const DryRulePack *pack)
{
  g_autoptr (DryProject) project = dry_test_load (file);
  g_autoptr (DryPlan) plan = rule_room_plan (project);
  double parts[3] = {0};
  guint n_subjects = 0, n_findings = 0;

  for (guint run = 0; run < RUNS; run++) {
    g_autoptr (DryArena) arena = dry_arena_new ();
    g_autoptr (GError) error = NULL;
    DryPlanContext context = plan->context;
    const DryMeasures *measures;
    gint64 t0 = g_get_monotonic_time (), t1, t2, t3;

    context.arena = arena;
    context.rules = pack;
    dry_water_compute (&context, plan->faces, plan->boards, plan->fasteners, plan->joints,
                       plan->coating, &error);
    t1 = g_get_monotonic_time ();
    measures = dry_measures_compute (&context, plan, &error);
    t2 = g_get_monotonic_time ();
    n_findings = dry_findings_compute (&context, measures, &error)->n;
    t3 = g_get_monotonic_time ();
    g_assert_no_error (error);
    n_subjects = measures->n;
    parts[0] += (double) (t1 - t0);
    parts[1] += (double) (t2 - t1);
    parts[2] += (double) (t3 - t2);
  }
  g_test_message ("%s, %s, %u rules, %u subjects, %u findings: water %.0f, measures %.0f, findings "
                  "%.0f us",
                  file, pack->id, pack->n_rules, n_subjects, n_findings, parts[0] / RUNS,
                  parts[1] / RUNS, parts[2] / RUNS);
}

static void
bench (void)
{
  static const char *const FILES[] = {"01-alcove.drybay", "02-old-house.drybay", "08-steam.drybay",
                                      "20-vent-bay.drybay"};
  static const char *const PACKS[] = {"common-practice", "us-accessible"};

  for (guint f = 0; f < G_N_ELEMENTS (FILES); f++)
    for (guint p = 0; p < G_N_ELEMENTS (PACKS); p++)
      bench_file (FILES[f], dry_catalog_get_rule_pack (dry_test_catalog (), PACKS[p]));
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/bench/findings", bench);
  return g_test_run ();
}
