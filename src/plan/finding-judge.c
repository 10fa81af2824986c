/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Whether a rule applies to a subject and is kept, and who gave its figure.
 * Knows no rule and no kind of subject by name: both are data. */
#include "plan/finding-judge.h"

#include <math.h>
#include <string.h>

#include "plan/finding-text.h"

/* Numbers come from files and divisions; a hair's difference is not a finding. Lengths are exact.
 */
static gint
compare_numbers (double a, double b)
{
  if (fabs (a - b) <= 1e-9 * MAX (1, MAX (fabs (a), fabs (b))))
    return 0;
  return a < b ? -1 : 1;
}

static gint
compare_lengths (DryLength a, DryLength b)
{
  return a < b ? -1 : a > b;
}

static gboolean
judge (DryCompare compare, gint order)
{
  switch (compare) {
  case DRY_COMPARE_LESS:
    return order < 0;
  case DRY_COMPARE_AT_MOST:
    return order <= 0;
  case DRY_COMPARE_EQUAL:
    return order == 0;
  case DRY_COMPARE_NOT_EQUAL:
    return order != 0;
  case DRY_COMPARE_AT_LEAST:
    return order >= 0;
  case DRY_COMPARE_GREATER:
    return order > 0;
  }
  return FALSE;
}

gboolean
dry_condition_test (const DryCondition *condition, const DrySubject *subject, gboolean *holds)
{
  const DryMeasure *measure = dry_subject_get (subject, condition->measure);
  DryMeasure limit;

  if (!measure || !dry_finding_limit (condition, subject, &limit) || limit.kind != measure->kind)
    return FALSE;
  *holds = judge (condition->compare, measure->kind == DRY_MEASURE_LENGTH
                                          ? compare_lengths (measure->length, limit.length)
                                          : compare_numbers (measure->number, limit.number));
  return TRUE;
}

gboolean
dry_rule_judge (const DryRule *rule, const DrySubject *subject, const DryCondition **failed)
{
  gboolean holds;

  *failed = NULL;
  if (strcmp (rule->subject, subject->kind) != 0)
    return FALSE;
  for (guint i = 0; i < rule->n_when; i++)
    if (!dry_condition_test (&rule->when[i], subject, &holds) || !holds)
      return FALSE;
  for (guint i = 0; i < rule->n_require; i++) {
    if (!dry_condition_test (&rule->require[i], subject, &holds))
      return FALSE;
    if (!holds && !*failed)
      *failed = &rule->require[i];
  }
  return TRUE;
}

/* A limit that is a measure named "system-..." is the system's own figure. */
DryAnswer
dry_rule_find_answer (const DryPlanContext *context, const DryRule *rule,
                      const DryCondition *condition, const char **by)
{
  if (rule->wished) {
    *by = dry_arena_printf (context->arena, "picked for this job: %s", rule->source.text);
    return DRY_ANSWER_WISH;
  }
  if (!rule->usual) {
    *by = rule->pack_title ? rule->pack_title : "";
    return DRY_ANSWER_PACK;
  }
  if ((condition->kind == DRY_LIMIT_MEASURE && g_str_has_prefix (condition->other, "system-")) ||
      g_str_has_prefix (condition->measure, "system-")) {
    *by = context->system ? context->system->name : "";
    return DRY_ANSWER_SYSTEM;
  }
  *by = rule->pack_title ? rule->pack_title : "";
  return DRY_ANSWER_CUSTOM;
}
