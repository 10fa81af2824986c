/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Gathers the subjects of each rule and tells the range of what is planned.
 * Writes into an arena of its own: the plan may be read by other threads. */
#include "plan/rule-checks.h"

#include <string.h>

#include "plan/finding-judge.h"
#include "plan/finding-text.h"

/* What is gathered over the subjects of one rule and measure. */
typedef struct {
  const DryCondition *condition;
  const DrySubject *first;
  const DryMeasure *least, *most;
  guint n, n_broken;
  gboolean limits_differ;
} Gathered;

static gint
compare_measures (const DryMeasure *a, const DryMeasure *b)
{
  if (a->kind == DRY_MEASURE_LENGTH)
    return a->length < b->length ? -1 : a->length > b->length;
  return a->number < b->number ? -1 : a->number > b->number;
}

static gboolean
is_seen_before (const DryRule *rule, guint index)
{
  for (guint i = 0; i < index; i++)
    if (strcmp (rule->require[i].measure, rule->require[index].measure) == 0)
      return TRUE;
  return FALSE;
}

/* Both sides of a measure bounded twice count as one. */
static gboolean
is_broken (const DryRule *rule, const DrySubject *subject, const char *measure)
{
  gboolean holds;

  for (guint i = 0; i < rule->n_require; i++)
    if (strcmp (rule->require[i].measure, measure) == 0 &&
        dry_condition_test (&rule->require[i], subject, &holds) && !holds)
      return TRUE;
  return FALSE;
}

static gboolean
has_other_limit (const Gathered *self, const DrySubject *subject)
{
  DryMeasure a, b;

  return !dry_finding_limit (self->condition, self->first, &a) ||
         !dry_finding_limit (self->condition, subject, &b) || compare_measures (&a, &b) != 0;
}

static Gathered
gather (const DryPlan *plan, const DryRule *rule, const DryCondition *condition)
{
  Gathered self = {.condition = condition};

  for (guint i = 0; i < plan->measures->n; i++) {
    const DrySubject *subject = &plan->measures->items[i];
    const DryCondition *failed;
    const DryMeasure *measure;

    if (!dry_rule_judge (rule, subject, &failed))
      continue;
    measure = dry_subject_get (subject, condition->measure);
    if (!self.first)
      self.first = subject;
    self.limits_differ |= has_other_limit (&self, subject);
    if (!self.least || compare_measures (measure, self.least) < 0)
      self.least = measure;
    if (!self.most || compare_measures (measure, self.most) > 0)
      self.most = measure;
    self.n++;
    self.n_broken += is_broken (rule, subject, condition->measure);
  }
  return self;
}

static const char *
write_required (const DryPlanContext *context, const DryRule *rule, const Gathered *found)
{
  const char *text = dry_finding_limit_text (context, rule, found->condition, found->first);
  const DryCondition *condition = found->condition;

  if (found->limits_differ)
    return dry_arena_printf (context->arena, "%s and more, by place", text);
  if (*text)
    return text;
  return (condition->number != 0) == (condition->compare == DRY_COMPARE_EQUAL) ? "yes" : "no";
}

static const char *
write_planned (const DryPlanContext *context, const Gathered *found)
{
  const char *least = dry_finding_measure_text (context, found->least);
  const char *most = dry_finding_measure_text (context, found->most);

  if (strcmp (least, most) == 0)
    return least;
  if (found->least->kind == DRY_MEASURE_BOOLEAN)
    return "some yes, some no";
  return dry_arena_printf (context->arena, "%s to %s", least, most);
}

static void
add_check (const DryPlanContext *context, GArray *checks, const DryRule *rule,
           const Gathered *found)
{
  DryCheck check = {
      .rule = rule,
      .measure = dry_finding_name (context->arena, found->condition->measure),
      .where = found->n == 1 ? found->first->name
                             : dry_arena_printf (context->arena, "%u places", found->n),
      .required = write_required (context, rule, found),
      .planned = write_planned (context, found),
      .n_places = found->n,
      .n_broken = found->n_broken,
  };

  check.answer = dry_rule_find_answer (context, rule, found->condition, &check.answered_by);
  g_array_append_val (checks, check);
}

/* Topics in the order they are first met; within one the order stays. */
static DryCheck *
sort_by_topic (DryArena *arena, const GArray *checks)
{
  DryCheck *sorted = dry_arena_new_array (arena, DryCheck, checks->len);
  g_autofree gboolean *taken = g_new0 (gboolean, checks->len + 1);
  guint n = 0;

  for (guint i = 0; i < checks->len; i++)
    for (guint k = i; !taken[i] && k < checks->len; k++) {
      const DryCheck *first = &g_array_index (checks, DryCheck, i);
      const DryCheck *check = &g_array_index (checks, DryCheck, k);
      if (k != i && (taken[k] || strcmp (first->rule->topic, check->rule->topic) != 0))
        continue;
      sorted[n++] = *check;
      if (k != i)
        taken[k] = TRUE;
    }
  return sorted;
}

DryChecks *
dry_checks_new (const DryPlan *plan)
{
  DryChecks *self = g_new0 (DryChecks, 1);
  g_autoptr (GArray) checks = g_array_new (FALSE, TRUE, sizeof (DryCheck));
  DryPlanContext context = plan->context;

  self->arena = context.arena = dry_arena_new ();
  for (guint i = 0; i < context.rules->n_rules; i++) {
    const DryRule *rule = &context.rules->rules[i];

    for (guint k = 0; k < rule->n_require; k++) {
      Gathered found;
      if (is_seen_before (rule, k))
        continue;
      found = gather (plan, rule, &rule->require[k]);
      if (found.n > 0)
        add_check (&context, checks, rule, &found);
    }
  }
  self->n = checks->len;
  self->items = sort_by_topic (self->arena, checks);
  return self;
}

void
dry_checks_free (DryChecks *self)
{
  if (!self)
    return;
  dry_arena_unref (self->arena);
  g_free (self);
}

gboolean
dry_check_is_official (const DryPlan *plan, const DryCheck *check)
{
  const DryRulePack *pack = plan->context.rules;
  gboolean nobody = !pack->jurisdiction || strcmp (pack->jurisdiction, "none") == 0;

  return nobody || check->answer != DRY_ANSWER_CUSTOM;
}
