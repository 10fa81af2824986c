/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What applies, for an inspector: every finding is among it as broken, everything else is kept, and
 * required and planned stand side by side in the job's units. */
#include <string.h>

#include "plan/rule-checks.h"
#include "plan/rule-room.h"
#include "project/file.h"

static const DryCheck *
find_check (const DryChecks *checks, const char *rule)
{
  for (guint i = 0; i < checks->n; i++)
    if (strcmp (checks->items[i].rule->id, rule) == 0)
      return &checks->items[i];
  return NULL;
}

static guint
count_findings (const DryPlan *plan, const char *rule)
{
  guint n = 0;

  for (guint i = 0; i < plan->findings->n; i++)
    n += strcmp (plan->findings->items[i].rule->id, rule) == 0;
  return n;
}

static void
compare_with_findings (const DryPlan *plan)
{
  g_autoptr (DryChecks) checks = dry_checks_new (plan);

  for (guint i = 0; i < plan->findings->n; i++) {
    const DryCheck *check = find_check (checks, plan->findings->items[i].rule->id);
    g_assert_nonnull (check);
  }
  for (guint i = 0; i < checks->n; i++) {
    const DryCheck *check = &checks->items[i];
    guint n = count_findings (plan, check->rule->id);

    g_assert_cmpuint (check->n_places, >, 0);
    g_assert_cmpuint (check->n_broken, <=, check->n_places);
    g_assert_cmpuint (check->n_broken, <=, n);
    if (check->rule->n_require == 1)
      g_assert_cmpuint (check->n_broken, ==, n);
    g_assert_cmpstr (check->required, !=, "");
    g_assert_cmpstr (check->planned, !=, "");
    g_assert_cmpstr (check->where, !=, "");
    for (guint k = i + 1; k < checks->n; k++) /* topics are not torn apart */
      if (strcmp (checks->items[k].rule->topic, check->rule->topic) == 0)
        g_assert_cmpstr (checks->items[k - 1].rule->topic, ==, check->rule->topic);
  }
}

static void
set_pack (DryJob *job, gpointer data)
{
  job->rule_pack = data;
}

/* Over all test projects and all packs. */
static void
test_cases (void)
{
  g_autofree char *folder = g_test_build_filename (G_TEST_DIST, "cases", NULL);
  g_autoptr (GDir) dir = g_dir_open (folder, 0, NULL);
  const char *name;

  g_assert_nonnull (dir);
  while ((name = g_dir_read_name (dir))) {
    g_autofree char *path = g_build_filename (folder, name, NULL);

    for (guint p = 0; p < dry_catalog_get_n_rule_packs (dry_test_catalog ()); p++) {
      const char *pack = dry_catalog_get_rule_pack_at (dry_test_catalog (), p)->id;
      g_autoptr (DryProject) project =
          rule_room_set_job (dry_project_load (path, NULL), set_pack, (gpointer) pack);
      g_autoptr (DryPlan) plan = rule_room_plan (project);
      compare_with_findings (plan);
    }
  }
}

/* Clear inside of a pan against IRC P2708.1: 900 in2; studs against the system's 16 in. */
static void
test_words (void)
{
  g_autoptr (DryProject) project =
      rule_room_set_job (rule_room_shower (INCH (40), INCH (40)), set_pack, "us-residential");
  g_autoptr (DryPlan) plan = rule_room_plan (project);
  g_autoptr (DryChecks) checks = dry_checks_new (plan);
  const DryCheck *area = find_check (checks, "shower-area");
  const DryCheck *studs = find_check (checks, "stud-spacing");
  const DryCheck *test = find_check (checks, "no-flood-test");

  g_assert_cmpstr (area->required, ==, "at least 900 in2");
  g_assert_cmpint (area->answer, ==, DRY_ANSWER_PACK);
  g_assert_true (dry_check_is_official (plan, area));
  g_assert_cmpstr (studs->required, ==, "at most 16\"");
  g_assert_cmpstr (studs->planned, ==, "16\"");
  g_assert_cmpint (studs->answer, ==, DRY_ANSWER_SYSTEM);
  g_assert_cmpuint (studs->n_broken, ==, 0);
  g_assert_cmpstr (test->required, ==, "yes");
  g_assert_cmpstr (test->planned, ==, "yes");
}

static DryPart
make_niche (DryLength depth)
{
  return (DryPart){.kind = DRY_PART_NICHE,
                   .u = 24 * DRY_INCH,
                   .z = 46 * DRY_INCH,
                   .width = 8 * DRY_INCH,
                   .height = 14 * DRY_INCH,
                   .depth = depth,
                   .site_built = TRUE,
                   .pitch = 0.021};
}

/* Two niches in walls of unlike depth: the limit is told as one that goes by the place, what is
 * planned from the least to the most; of yes and no, that there are both. */
static void
test_by_place (void)
{
  g_autoptr (DryProject) project = rule_room_set_fields (
      rule_room_alcove ("foam-bands", "us-residential"),
      "wall.n.stud_depth=5.5in wall.n.exterior=1 wall.n.air_barrier=1 wall.e.exterior=1");
  g_autoptr (DryPlan) plan = NULL;
  g_autoptr (DryChecks) checks = NULL;
  const DryCheck *depth, *rated;
  guint mixed = 0;

  project = rule_room_add_part (g_steal_pointer (&project), 'n', make_niche (5 * DRY_INCH));
  project = rule_room_add_part (g_steal_pointer (&project), 'e', make_niche (3 * DRY_INCH));
  plan = rule_room_plan (project);
  checks = dry_checks_new (plan);
  compare_with_findings (plan);
  depth = find_check (checks, "niche-too-deep");
  g_assert_nonnull (depth);
  g_assert_cmpuint (depth->n_places, ==, 2);
  g_assert_cmpuint (depth->n_broken, ==, 0);
  g_assert_cmpstr (depth->where, ==, "2 places");
  g_assert_cmpstr (depth->planned, ==, "3\" to 5\"");
  g_assert_true (g_str_has_suffix (depth->required, " and more, by place"));
  rated = find_check (checks, "niche-in-rated-wall");
  g_assert_cmpstr (rated->required, ==, "no");
  g_assert_cmpstr (rated->planned, ==, "no");
  for (guint i = 0; i < checks->n; i++)
    mixed += strcmp (checks->items[i].planned, "some yes, some no") == 0;
  g_assert_cmpuint (mixed, >, 0);
}

/* A custom of the trade is no inspector's matter, unless the pack chosen is that custom. */
static void
test_official (void)
{
  static const char *const PACKS[] = {"us-residential", "common-practice"};

  for (guint i = 0; i < G_N_ELEMENTS (PACKS); i++) {
    g_autoptr (DryProject) project =
        rule_room_set_job (rule_room_shower (INCH (40), INCH (40)), set_pack, (gpointer) PACKS[i]);
    g_autoptr (DryPlan) plan = rule_room_plan (project);
    g_autoptr (DryChecks) checks = dry_checks_new (plan);
    guint custom = 0;

    for (guint k = 0; k < checks->n; k++)
      if (checks->items[k].answer == DRY_ANSWER_CUSTOM) {
        custom++;
        g_assert_cmpint (dry_check_is_official (plan, &checks->items[k]), ==, i == 1);
      }
    g_assert_cmpuint (custom, >, 0);
  }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/checks/cases", test_cases);
  g_test_add_func ("/checks/words", test_words);
  g_test_add_func ("/checks/by-place", test_by_place);
  g_test_add_func ("/checks/official", test_official);
  return g_test_run ();
}
