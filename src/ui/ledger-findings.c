/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Words for findings. Texts of rules and workings come as they are in the pack; everything else is
 * translatable. Which remedy stands at which place is decided here alone, for words and deeds. */
#define G_LOG_DOMAIN "drybay-ui"
#include "ui/ledger-findings.h"

#include <glib/gi18n.h>

#include "plan/remedy.h"
#include "ui/ledger-entries.h"

static const struct {
  const char *icon, *name, *css;
  const char *heading;
} SEVERITIES[] = {
    [DRY_SEVERITY_STOP] = {"drybay-stop-symbolic", N_ ("Must not be built so"), "error",
                           N_ ("Stop: must not be built so")},
    [DRY_SEVERITY_FIX] = {"drybay-fix-symbolic", N_ ("Before tiling"), "warning",
                          N_ ("Fix before tiling")},
    [DRY_SEVERITY_ADVICE] = {"drybay-advice-symbolic", N_ ("Advice"), "accent", N_ ("Advice")},
};

/* --- remedies --- */

/* A remedy with a button; the others are told in words. */
static gboolean
is_act (const char *edit)
{
  return edit && dry_remedy_is_known (edit);
}

/* Those with a button, best first when they were weighed, else as the rule has them. An array of
 * DryLedgerAct, and of the edits' names when `edits` is given. */
static GArray *
list_acts (DryWeigher *weigher, const DryFinding *finding, GPtrArray *edits)
{
  const GPtrArray *weighed = dry_weigher_get (weigher, finding->id);
  const DryRule *rule = finding->rule;
  GArray *acts = g_array_new (FALSE, TRUE, sizeof (DryLedgerAct));

  for (guint i = 0; i < (weighed ? weighed->len : rule->n_remedies); i++) {
    const DryWeighed *known = weighed ? weighed->pdata[i] : NULL;
    const char *edit = known ? known->edit : rule->remedies[i].edit;
    DryLedgerAct act = {.label = known ? known->text : rule->remedies[i].text,
                        .note = known ? known->cost : NULL,
                        .refused = known && known->refused};

    if (!is_act (edit))
      continue;
    g_array_append_val (acts, act);
    if (edits)
      g_ptr_array_add (edits, (gpointer) edit);
  }
  return acts;
}

void
dry_ledger_act_on_finding (DrySession *session, DryWeigher *weigher, guint index, guint act)
{
  const DryPlan *plan = dry_session_get_plan (session);
  g_autoptr (GPtrArray) edits = g_ptr_array_new ();
  g_autoptr (GArray) acts = NULL;
  const DryFinding *finding;

  if (!plan || index >= plan->findings->n)
    return;
  finding = &plan->findings->items[index];
  acts = list_acts (weigher, finding, edits);
  for (guint i = 0; act < edits->len && i < finding->rule->n_remedies; i++) {
    const DryRemedy *remedy = &finding->rule->remedies[i];
    GError *error = NULL;
    DryProject *project;

    if (g_strcmp0 (remedy->edit, edits->pdata[act]) != 0)
      continue;
    project = dry_remedy_apply (dry_session_get_project (session),
                                dry_session_get_room_id (session), plan, finding, remedy, &error);
    dry_session_apply (session, project, remedy->text, NULL, error);
    return;
  }
}

void
dry_ledger_weigh_findings (DryWeigher *weigher, DryLedgerList *list)
{
  g_autofree const char **unfolded = dry_ledger_list_get_unfolded (list);

  dry_weigher_look_at (weigher, unfolded);
}

/* --- rows --- */

static const char *const *
list_details (DryEntries *entries, const DryFinding *finding)
{
  const DryRule *rule = finding->rule;
  GPtrArray *details = g_ptr_array_new ();
  char *source = g_strdup_printf ("%s (%s)", rule->source.text,
                                  dry_certainty_to_text (rule->source.certainty));

  for (guint i = 0; i < rule->n_remedies; i++)
    if (!is_act (rule->remedies[i].edit))
      dry_entries_add_pair (details, _ ("By hand"), rule->remedies[i].text);
  dry_entries_add_pair (details, _ ("Why"), rule->why);
  dry_entries_add_pair (details, _ ("Measured"), finding->measured);
  dry_entries_add_pair (details, _ ("Required"), finding->required);
  dry_entries_add_pair (details, _ ("Asked by"), finding->answered_by);
  dry_entries_add_pair (details, _ ("Working"), finding->working.formula);
  dry_entries_add_pair (details, _ ("Source"), dry_entries_keep (entries, source));
  return dry_entries_keep_list (entries, details);
}

static void
add_finding (DryEntries *entries, DryWeigher *weigher, const DryFinding *finding)
{
  GArray *acts = list_acts (weigher, finding, NULL);
  DryLedgerEntry entry = {
      .key = finding->id,
      .heading = _ (SEVERITIES[finding->severity].heading),
      .icon = SEVERITIES[finding->severity].icon,
      .icon_name = _ (SEVERITIES[finding->severity].name),
      .css = SEVERITIES[finding->severity].css,
      .title = finding->message,
      .subtitle = finding->where,
      .details = list_details (entries, finding),
      .n_acts = acts->len,
  };

  entry.acts =
      (const DryLedgerAct *) (gconstpointer) dry_entries_keep (entries, g_array_free (acts, FALSE));
  dry_entries_add (entries, entry);
}

void
dry_ledger_fill_findings (DrySession *session, DryWeigher *weigher, DryLedgerList *list)
{
  const DryPlan *plan = dry_session_get_plan (session);
  DryEntries entries = dry_entries_begin ();

  for (guint i = 0; plan && i < plan->findings->n; i++)
    add_finding (&entries, weigher, &plan->findings->items[i]);
  dry_entries_end (&entries, list);
}
