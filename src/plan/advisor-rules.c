/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Reads out of the rule pack what it asks of a place: the rules of the part's own subject whose
 * conditions the facts meet. Knows no rule by name. */
#include "plan/advisor-private.h"

#include <math.h>
#include <string.h>

#include "plan/finding-text.h"

static void
add_fact (DryAdviceWork *self, DryMeasure fact)
{
  for (guint i = 0; i < self->facts->len; i++)
    if (strcmp (g_array_index (self->facts, DryMeasure, i).name, fact.name) == 0) {
      g_array_index (self->facts, DryMeasure, i) = fact;
      return;
    }
  g_array_append_val (self->facts, fact);
}

void
dry_advice_fact_length (DryAdviceWork *self, const char *name, DryLength value)
{
  add_fact (self, (DryMeasure){.name = name, .kind = DRY_MEASURE_LENGTH, .length = value});
}

void
dry_advice_fact_number (DryAdviceWork *self, const char *name, double value)
{
  add_fact (self, (DryMeasure){.name = name, .kind = DRY_MEASURE_NUMBER, .number = value});
}

void
dry_advice_fact_yes (DryAdviceWork *self, const char *name, gboolean value)
{
  add_fact (self, (DryMeasure){.name = name, .kind = DRY_MEASURE_BOOLEAN, .number = value ? 1 : 0});
}

static gboolean
compare (DryCompare how, double a, double b)
{
  switch (how) {
  case DRY_COMPARE_LESS:
    return a < b;
  case DRY_COMPARE_AT_MOST:
    return a <= b;
  case DRY_COMPARE_EQUAL:
    return a == b;
  case DRY_COMPARE_NOT_EQUAL:
    return a != b;
  case DRY_COMPARE_AT_LEAST:
    return a >= b;
  case DRY_COMPARE_GREATER:
    return a > b;
  }
  return FALSE;
}

/* Lengths below 1 km are whole doubles, so one comparison does for both. */
static gboolean
holds (const DryCondition *condition, const DrySubject *subject)
{
  const DryMeasure *measure = dry_subject_get (subject, condition->measure);
  DryMeasure limit;
  gboolean length;

  if (!measure || !dry_finding_limit (condition, subject, &limit) || limit.kind != measure->kind)
    return FALSE;
  length = measure->kind == DRY_MEASURE_LENGTH;
  return compare (condition->compare, length ? (double) measure->length : measure->number,
                  length ? (double) limit.length : limit.number);
}

static DrySubject
make_subject (const DryAdviceWork *self)
{
  return (DrySubject){.measures = (const DryMeasure *) (gconstpointer) self->facts->data,
                      .n_measures = self->facts->len};
}

static gboolean
applies (const DryAdviceWork *self, const DryRule *rule, const char *subject)
{
  DrySubject facts = make_subject (self);

  if (strcmp (rule->subject, subject) != 0)
    return FALSE;
  for (guint i = 0; i < rule->n_when; i++)
    if (!holds (&rule->when[i], &facts))
      return FALSE;
  return TRUE;
}

static gboolean
asks_of (const DryRule *rule, const char *measure)
{
  for (guint i = 0; i < rule->n_require; i++)
    if (strcmp (rule->require[i].measure, measure) == 0)
      return TRUE;
  return FALSE;
}

const DryRule *
dry_advice_rule (const DryAdviceWork *self, const char *subject, const char *measure)
{
  const DryRulePack *pack = self->context->rules;
  const DryRule *found = NULL;

  for (guint i = 0; i < pack->n_rules; i++) {
    const DryRule *rule = &pack->rules[i];
    if (asks_of (rule, measure) && applies (self, rule, subject) &&
        (!found || rule->severity < found->severity))
      found = rule;
  }
  return found;
}

static void
take_bound (DryAdviceRange *range, const DryCondition *condition, DryLength limit)
{
  gboolean strict =
      condition->compare == DRY_COMPARE_LESS || condition->compare == DRY_COMPARE_GREATER;

  if (condition->compare != DRY_COMPARE_AT_MOST && condition->compare != DRY_COMPARE_LESS) {
    DryLength low = limit + (strict ? 1 : 0);
    range->low = range->has_low ? MAX (range->low, low) : low;
    range->has_low = TRUE;
  }
  if (condition->compare != DRY_COMPARE_AT_LEAST && condition->compare != DRY_COMPARE_GREATER) {
    DryLength high = limit - (strict ? 1 : 0);
    range->high = range->has_high ? MIN (range->high, high) : high;
    range->has_high = TRUE;
  }
}

DryAdviceRange
dry_advice_range (const DryAdviceWork *self, const char *subject, const char *measure)
{
  const DryRulePack *pack = self->context->rules;
  DrySubject facts = make_subject (self);
  DryAdviceRange range = {0};

  for (guint i = 0; i < pack->n_rules; i++) {
    const DryRule *rule = &pack->rules[i];
    if (!asks_of (rule, measure) || !applies (self, rule, subject))
      continue;
    for (guint j = 0; j < rule->n_require; j++) {
      const DryCondition *condition = &rule->require[j];
      DryMeasure limit;
      if (strcmp (condition->measure, measure) != 0 ||
          condition->compare == DRY_COMPARE_NOT_EQUAL ||
          !dry_finding_limit (condition, &facts, &limit) || limit.kind != DRY_MEASURE_LENGTH)
        continue;
      take_bound (&range, condition, limit.length);
      if (!range.rule || rule->severity < range.rule->severity)
        range.rule = rule;
    }
  }
  range.any = range.has_low || range.has_high;
  return range;
}

gboolean
dry_advice_is_hard (const DryAdviceWork *self, DryAdviceKind kind, const DryRule *rule)
{
  if (self->advice->site->options.must & (1u << kind))
    return TRUE;
  return rule && rule->severity != DRY_SEVERITY_ADVICE;
}
