/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Writes measures and limits of findings, in US customary or metric units as the job asks.
 * Knows units, not rules. */
#include "plan/finding-text.h"

#include <math.h>
#include <string.h>

#include "base/decimals.h"

/* What a number is called and scaled to where lengths are shown in inches. */
static const struct {
  const char *unit, *customary;
  double factor, plus;
} UNITS[] = {
    {"degrees C", "degrees F", 1.8, 32}, {"L/min", "gpm", 1 / 3.785411784, 0},
    {"kg", "lb", 1 / 0.45359237, 0},     {"kg/m2", "lb/ft2", 0.09290304 / 0.45359237, 0},
    {"cm2", "in2", 1 / 6.4516, 0},       {"mm", "mil", 1 / 0.0254, 0},
};

static const char *
write_number (const DryPlanContext *context, double number, const char *unit, gboolean exact)
{
  g_autofree char *text = NULL;

  for (guint i = 0; !context->job->metric && i < G_N_ELEMENTS (UNITS); i++)
    if (strcmp (unit, UNITS[i].unit) == 0) {
      number = number * UNITS[i].factor + UNITS[i].plus;
      unit = UNITS[i].customary;
      break;
    }
  text = dry_decimals_format (number, exact ? 9 : 2, '.');
  return *unit ? dry_arena_printf (context->arena, "%s %s", text, unit)
               : dry_arena_strdup (context->arena, text);
}

const char *
dry_finding_measure_text (const DryPlanContext *context, const DryMeasure *measure)
{
  if (measure->kind == DRY_MEASURE_LENGTH)
    return dry_context_length (context, measure->length);
  if (measure->kind == DRY_MEASURE_BOOLEAN)
    return measure->number != 0 ? "yes" : "no";
  return write_number (context, measure->number, measure->unit ? measure->unit : "", FALSE);
}

const char *
dry_finding_exact_text (const DryPlanContext *context, const DryMeasure *measure)
{
  g_autofree char *text = NULL;

  if (measure->kind == DRY_MEASURE_NUMBER)
    return write_number (context, measure->number, measure->unit ? measure->unit : "", TRUE);
  text = dry_length_to_mm_text (measure->length);
  return dry_arena_printf (context->arena, "%s mm", text);
}

gboolean
dry_finding_limit (const DryCondition *condition, const DrySubject *subject, DryMeasure *out)
{
  const DryMeasure *measure = dry_subject_get (subject, condition->measure);
  const DryMeasure *other;

  *out = (DryMeasure){.unit = measure && measure->unit ? measure->unit : ""};
  switch (condition->kind) {
  case DRY_LIMIT_NUMBER:
    out->kind = DRY_MEASURE_NUMBER;
    out->number = condition->number;
    return TRUE;
  case DRY_LIMIT_BOOLEAN:
    out->kind = DRY_MEASURE_BOOLEAN;
    out->number = condition->number != 0;
    return TRUE;
  case DRY_LIMIT_LENGTH:
    out->kind = DRY_MEASURE_LENGTH;
    out->length = condition->length;
    return TRUE;
  case DRY_LIMIT_MEASURE:
    break;
  }
  other = dry_subject_get (subject, condition->other);
  if (!other)
    return FALSE;
  *out = *other;
  if (condition->factor != 1) {
    out->length = (DryLength) llround ((double) other->length * condition->factor);
    out->number = other->number * condition->factor;
  }
  out->length += condition->plus;
  return TRUE;
}

static gboolean
is_lower_bound (DryCompare compare)
{
  return compare == DRY_COMPARE_AT_LEAST || compare == DRY_COMPARE_GREATER;
}

static gboolean
is_upper_bound (DryCompare compare)
{
  return compare == DRY_COMPARE_AT_MOST || compare == DRY_COMPARE_LESS;
}

static const DryCondition *
find_other_bound (const DryRule *rule, const DryCondition *condition)
{
  gboolean lower = is_lower_bound (condition->compare);

  if (!lower && !is_upper_bound (condition->compare))
    return NULL;
  for (guint i = 0; i < rule->n_require; i++) {
    const DryCondition *other = &rule->require[i];
    if (other != condition && strcmp (other->measure, condition->measure) == 0 &&
        (lower ? is_upper_bound (other->compare) : is_lower_bound (other->compare)))
      return other;
  }
  return NULL;
}

const char *
dry_finding_limit_text (const DryPlanContext *context, const DryRule *rule,
                        const DryCondition *condition, const DrySubject *subject)
{
  static const char *const WORDS[] = {
      [DRY_COMPARE_LESS] = "less than",    [DRY_COMPARE_AT_MOST] = "at most",
      [DRY_COMPARE_EQUAL] = "exactly",     [DRY_COMPARE_NOT_EQUAL] = "anything but",
      [DRY_COMPARE_AT_LEAST] = "at least", [DRY_COMPARE_GREATER] = "more than",
  };
  const DryCondition *other = find_other_bound (rule, condition);
  DryMeasure limit, bound;

  if (!dry_finding_limit (condition, subject, &limit) || limit.kind == DRY_MEASURE_BOOLEAN)
    return "";
  if (other && dry_finding_limit (other, subject, &bound)) {
    gboolean lower = is_lower_bound (condition->compare);
    return dry_arena_printf (context->arena, "%s to %s",
                             dry_finding_measure_text (context, lower ? &limit : &bound),
                             dry_finding_measure_text (context, lower ? &bound : &limit));
  }
  /* "Exactly 0" is how a machine says it. */
  if (limit.kind == DRY_MEASURE_NUMBER && limit.number == 0 &&
      (condition->compare == DRY_COMPARE_EQUAL || condition->compare == DRY_COMPARE_AT_MOST))
    return "none";
  return dry_arena_printf (context->arena, "%s %s", WORDS[condition->compare],
                           dry_finding_measure_text (context, &limit));
}

const char *
dry_finding_name (DryArena *arena, const char *measure)
{
  char *name = dry_arena_strdup (arena, measure);

  for (char *at = name; *at; at++)
    if (*at == '-')
      *at = ' ';
  return name;
}
