/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The test projects in tests/cases must raise the warnings their job asks for, each complete.
 * Rooms are invented; the numbers are those of docs/measures.md. */
#include <string.h>

#include "plan/remedy.h"
#include "plan/rule-room.h"

/* Exactly the rules raised, apart from which thing raises them; docs/cases.md argues where that is
 * more than the job of the case says. */
typedef struct {
  const char *file;
  const char *rules[10]; /* NULL-ended, in any order */
} Case;

static const Case CASES[] = {
    {"01-alcove.drybay", {"niche-off-joint"}},
    {"02-old-house.drybay",
     {"opening-too-small", "stud-spacing", "asbestos", "lead", "lining-step"}},
    {"03-window-wall.drybay", {"window-not-safety", "window-sill-flat", "shared-stud-distance"}},
    {"04-neo-angle.drybay", {"edge-unheld"}},
    {"05-roll-in.drybay",
     {"recess-notch", "curbless-dam", "curbless-floor", "roll-in-size", "shared-stud-distance"}},
    {"06-tiled-ceiling.drybay", {"ceiling-framing"}},
    {"08-steam.drybay", {"steam-ceiling", "board-in-steam", "board-on-bench", "bench-crowds"}},
    {"10-thirty-square.drybay", {"shower-circle", "shower-narrow"}},
    {"11-bearing-outside.drybay",
     {"niche-cuts-bearing-stud", "niche-in-cold-wall", "niche-off-joint"}},
    {"12-steel-rated.drybay", {"stud-spacing", "niche-in-rated-wall", "niche-off-joint"}},
    {"13-ex-tub.drybay", {"drain-for-flow-small", "pan-drain", "shared-stud-distance"}},
    {"15-tray-uk.drybay", {"stud-spacing"}},
    {"16-pony-wall.drybay", {"cap-pitch", "glass-share", "edge-unheld", "shared-stud-distance"}},
    {"17-drop-in.drybay", {"no-flange", "shared-stud-distance"}},
    {"19-large-tile.drybay", {"plane-large-tile", "saw-short", "board-sliver"}},
    {"20-vent-bay.drybay", {"hidden-in-niche-bay", "niche-off-joint"}},
    {"20b-vent-bay-moved.drybay", {"niche-off-joint"}},
};

static gboolean
is_listed (const Case *test, const char *rule)
{
  for (guint i = 0; test->rules[i]; i++)
    if (strcmp (test->rules[i], rule) == 0)
      return TRUE;
  return FALSE;
}

static void
test_case (gconstpointer data)
{
  const Case *test = data;
  g_autoptr (DryProject) project = dry_test_load (test->file);
  g_autoptr (DryPlan) plan = rule_room_plan (project);

  for (guint i = 0; i < plan->findings->n; i++) {
    const DryFinding *finding = &plan->findings->items[i];
    if (!is_listed (test, finding->rule->id))
      g_test_fail_printf ("%s raises “%s”: %s: %s", test->file, finding->id, finding->where,
                          finding->message);
  }
  rule_room_check_findings (plan);
  for (guint i = 0; test->rules[i]; i++)
    if (!rule_room_find (plan, test->rules[i]))
      g_test_fail_printf ("%s does not raise “%s”", test->file, test->rules[i]);
}

/* --- every case under every pack and every option --- */

static void
change_pack (DryJob *job, gpointer data)
{
  job->rule_pack = data;
}

static void
change_choices (DryJob *job, gpointer data)
{
  job->choices = data;
}

/* A finding makes sense when it names measures its subject has and says what it means. */
static void
check_sense (const DryPlan *plan)
{
  rule_room_check_findings (plan);
  for (guint i = 0; i < plan->findings->n; i++) {
    const DryFinding *finding = &plan->findings->items[i];

    g_assert_nonnull (finding->answered_by);
    g_assert_cmpstr (finding->answered_by, !=, "");
    g_assert_cmpuint (finding->working.n_inputs, >, 0);
    g_assert_null (strstr (finding->message, "nan"));
    g_assert_null (strstr (finding->message, "inf "));
    g_assert_true (g_utf8_validate (finding->message, -1, NULL));
  }
}

static void
test_packs (gconstpointer data)
{
  const Case *test = data;

  for (guint p = 0; p < dry_catalog_get_n_rule_packs (dry_test_catalog ()); p++) {
    const DryRulePack *pack = dry_catalog_get_rule_pack_at (dry_test_catalog (), p);
    DryProject *project =
        rule_room_set_job (dry_test_load (test->file), change_pack, (gpointer) pack->id);

    for (guint most = 0; most < 3; most++) {
      g_autofree char *picks = NULL;
      g_autoptr (DryPlan) plan = NULL;

      for (guint c = 0; c < pack->n_choices; c++) {
        char *next = dry_rule_choice_pick (&pack->choices[c], picks,
                                           MIN (most, pack->choices[c].n_options - 1));
        g_free (picks);
        picks = next;
      }
      project = rule_room_set_job (project, change_choices, picks);
      plan = rule_room_plan (project);
      check_sense (plan);
    }
    dry_project_unref (project);
  }
}

/* --- remedies on the case set --- */

static guint
count_worse (const DryFindings *findings, DrySeverity severity)
{
  guint n = 0;

  for (guint i = 0; i < findings->n; i++)
    n += findings->items[i].severity < severity;
  return n;
}

static gboolean
has_id (const DryPlan *plan, const char *id)
{
  for (guint i = 0; i < plan->findings->n; i++)
    if (strcmp (plan->findings->items[i].id, id) == 0)
      return TRUE;
  return FALSE;
}

static void
try_remedy (const DryProject *project, const DryPlan *plan, const DryFinding *finding,
            const DryRemedy *remedy)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (DryProject) better =
      dry_remedy_apply (project, dry_test_room (project), plan, finding, remedy, &error);
  g_autoptr (DryPlan) after = NULL;

  if (!better) {
    g_assert_cmpuint (strlen (error->message), >, 10);
    return;
  }
  after = rule_room_plan (better);
  if (has_id (after, finding->id))
    g_test_fail_printf ("“%s” is still there after “%s”", finding->id, remedy->edit);
  if (count_worse (after->findings, finding->severity) >
      count_worse (plan->findings, finding->severity))
    g_test_fail_printf ("“%s” for “%s” adds something worse", remedy->edit, finding->id);
}

static void
test_remedies (gconstpointer data)
{
  const Case *test = data;

  for (guint p = 0; p < dry_catalog_get_n_rule_packs (dry_test_catalog ()); p++) {
    const DryRulePack *pack = dry_catalog_get_rule_pack_at (dry_test_catalog (), p);
    g_autoptr (DryProject) project =
        rule_room_set_job (dry_test_load (test->file), change_pack, (gpointer) pack->id);
    g_autoptr (DryPlan) plan = rule_room_plan (project);

    for (guint i = 0; i < plan->findings->n; i++) {
      const DryFinding *finding = &plan->findings->items[i];
      for (guint r = 0; r < finding->rule->n_remedies; r++)
        if (finding->rule->remedies[r].edit)
          try_remedy (project, plan, finding, &finding->rule->remedies[r]);
    }
  }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  for (guint i = 0; i < G_N_ELEMENTS (CASES); i++) {
    g_autofree char *path = g_strdup_printf ("/cases/%s", CASES[i].file);
    g_autofree char *packs = g_strdup_printf ("/cases/packs/%s", CASES[i].file);
    g_autofree char *remedies = g_strdup_printf ("/cases/remedies/%s", CASES[i].file);
    g_test_add_data_func (path, &CASES[i], test_case);
    g_test_add_data_func (packs, &CASES[i], test_packs);
    g_test_add_data_func (remedies, &CASES[i], test_remedies);
  }
  return g_test_run ();
}
