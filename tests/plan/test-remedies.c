/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Remedies that are edits: applying one makes its finding vanish, or it refuses with a reason; and
 * what they are said to cost is what the plans say. */
#include <string.h>

#include "plan/remedy-rooms.h"
#include "plan/remedy-weigh.h"

static const DryFinding *
find_id (const DryPlan *plan, const char *id)
{
  for (guint i = 0; i < plan->findings->n; i++)
    if (strcmp (plan->findings->items[i].id, id) == 0)
      return &plan->findings->items[i];
  return NULL;
}

static void
test_remedy (gconstpointer data)
{
  const char *edit = REMEDY_CASES[GPOINTER_TO_UINT (data)].edit;
  const char *rule = REMEDY_CASES[GPOINTER_TO_UINT (data)].rule;
  g_autoptr (DryProject) project = REMEDY_CASES[GPOINTER_TO_UINT (data)].build ();
  g_autoptr (DryPlan) plan = rule_room_plan (project), after = NULL;
  g_autoptr (DryProject) better = NULL;
  g_autoptr (GError) error = NULL;
  const DryFinding *finding = rule_room_find (plan, rule);
  const DryRemedy *remedy = NULL;

  if (!finding) {
    g_test_fail_printf ("“%s” is not raised", rule);
    return;
  }
  for (guint i = 0; i < finding->rule->n_remedies && !remedy; i++)
    if (g_strcmp0 (finding->rule->remedies[i].edit, edit) == 0)
      remedy = &finding->rule->remedies[i];
  g_assert_nonnull (remedy);
  better = dry_remedy_apply (project, dry_test_room (project), plan, finding, remedy, &error);
  if (!better) {
    g_test_fail_printf ("“%s” refused: %s", edit, error->message);
    return;
  }
  g_assert_false (dry_project_equal (project, better));
  after = rule_room_plan (better);
  if (find_id (after, finding->id))
    g_test_fail_printf ("“%s” is still raised: %s", finding->id,
                        find_id (after, finding->id)->message);
}

static void
check_edits (const DryRule *rule)
{
  for (guint r = 0; r < rule->n_remedies; r++)
    if (rule->remedies[r].edit && !dry_remedy_is_known (rule->remedies[r].edit))
      g_error ("“%s” names an edit “%s” that is not known", rule->id, rule->remedies[r].edit);
}

/* Every edit a rule names is known, every known edit is named by a rule and tried above. */
static void
test_remedy_names (void)
{
  for (guint p = 0; p < dry_catalog_get_n_rule_packs (dry_test_catalog ()); p++) {
    const DryRulePack *pack = dry_catalog_get_rule_pack_at (dry_test_catalog (), p);

    for (guint i = 0; i < pack->n_rules; i++)
      check_edits (&pack->rules[i]);
    for (guint c = 0; c < pack->n_choices; c++)
      for (guint o = 0; o < pack->choices[c].n_options; o++)
        for (guint i = 0; i < pack->choices[c].options[o].n_rules; i++)
          check_edits (&pack->choices[c].options[o].rules[i]);
  }
  g_assert_false (dry_remedy_is_known ("niche.to-the-moon"));
  g_assert_false (dry_remedy_is_known (NULL));
  for (const char *const *name = dry_remedy_names (); *name; name++) {
    gboolean tried = FALSE;
    for (guint i = 0; i < REMEDY_N_CASES; i++)
      tried |= strcmp (REMEDY_CASES[i].edit, *name) == 0;
    if (!tried || !dry_remedy_is_known (*name))
      g_error ("Remedy “%s” is not tried, or not known", *name);
  }
}

static void
test_remedy_refuses (void)
{
  g_autoptr (DryProject) project = remedy_room_refusing ();
  g_autoptr (DryPlan) plan = rule_room_plan (project);
  const DryFinding *finding = rule_room_find (plan, "niche-cuts-stud");
  g_autoptr (GError) error = NULL;

  g_assert_nonnull (finding);
  g_assert_null (dry_remedy_apply (project, dry_test_room (project), plan, finding,
                                   &finding->rule->remedies[0], &error));
  g_assert_error (error, DRY_ERROR, DRY_ERROR_GEOMETRY);
}

/* --- what they cost --- */

/* Against a plan that was searched on for fewer sheets a remedy costs what it costs against the
 * live one, not what only the search had saved; and the best comes first. */
static void
test_weights (void)
{
  for (guint i = 0; i < REMEDY_N_CASES; i++) {
    g_autoptr (DryProject) project = REMEDY_CASES[i].build ();
    DryId room = dry_test_room (project);
    g_autoptr (DryPlan) live = rule_room_plan (project);
    g_autoptr (DryPlan) searched = dry_plan_new_searched (project, room, dry_test_catalog (),
                                                          DRY_CUTTING_SECOND / 20, NULL, NULL);
    const DryFinding *finding = rule_room_find (live, REMEDY_CASES[i].rule);
    const DryFinding *same = rule_room_find (searched, REMEDY_CASES[i].rule);
    g_autoptr (DryRemedyWeights) a = NULL, b = NULL;

    if (!finding || !same || g_strcmp0 (finding->id, same->id) != 0)
      continue;
    a = dry_remedy_weigh (live, finding, NULL, NULL);
    b = dry_remedy_weigh (searched, same, NULL, NULL);
    g_assert_cmpuint (a->n, ==, b->n);
    for (guint k = 0; k < a->n; k++) {
      g_assert_cmpstr (a->items[k].remedy->text, ==, b->items[k].remedy->text);
      g_assert_cmpstr (a->items[k].text, ==, b->items[k].text);
      g_assert_cmpint (a->items[k].sheets, ==, b->items[k].sheets);
      g_assert_cmpint (a->items[k].money, ==, b->items[k].money);
    }
    for (guint k = 1; k < a->n; k++) {
      g_assert_false (a->items[k - 1].refused && !a->items[k].refused);
      g_assert_false (!a->items[k - 1].mends && a->items[k].mends);
    }
  }
}

static void
test_weigh_cancelled (void)
{
  g_autoptr (DryProject) project = REMEDY_CASES[0].build ();
  g_autoptr (DryPlan) plan = rule_room_plan (project);
  g_autoptr (GCancellable) cancellable = g_cancellable_new ();
  g_autoptr (GError) error = NULL;
  const DryFinding *finding = rule_room_find (plan, REMEDY_CASES[0].rule);

  g_cancellable_cancel (cancellable);
  g_assert_null (dry_remedy_weigh (plan, finding, cancellable, &error));
  g_assert_error (error, DRY_ERROR, DRY_ERROR_CANCELLED);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  for (guint i = 0; i < REMEDY_N_CASES; i++) {
    g_autofree char *path =
        g_strdup_printf ("/remedies/%s/%s-%u", REMEDY_CASES[i].edit, REMEDY_CASES[i].rule, i);
    g_test_add_data_func (path, GUINT_TO_POINTER (i), test_remedy);
  }
  g_test_add_func ("/remedies/names", test_remedy_names);
  g_test_add_func ("/remedies/refuses", test_remedy_refuses);
  g_test_add_func ("/remedies/weights", test_weights);
  g_test_add_func ("/remedies/weigh-cancelled", test_weigh_cancelled);
  return g_test_run ();
}
