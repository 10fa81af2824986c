/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Holds every subject's measures against every rule for its kind and writes down what fails.
 * Knows no rule and no kind of subject by name: both are data. */
#include "plan/findings.h"

#include <string.h>

#include "plan/finding-judge.h"
#include "plan/finding-text.h"

static void
add_inputs (const DryPlanContext *context, GArray *inputs, const DryCondition *conditions, guint n,
            const DrySubject *subject)
{
  for (guint i = 0; i < n; i++) {
    const char *names[] = {conditions[i].measure, conditions[i].other};
    for (guint k = 0; k < G_N_ELEMENTS (names); k++) {
      const DryMeasure *measure = names[k] ? dry_subject_get (subject, names[k]) : NULL;
      DryInput input;
      gboolean known = FALSE;

      if (!measure)
        continue;
      input.name = dry_finding_name (context->arena, measure->name);
      input.value = dry_finding_measure_text (context, measure);
      for (guint j = 0; j < inputs->len && !known; j++)
        known = strcmp (g_array_index (inputs, DryInput, j).name, input.name) == 0;
      if (!known)
        g_array_append_val (inputs, input);
    }
  }
}

static DryWorking
show_working (const DryPlanContext *context, const DryRule *rule, const DryCondition *failed,
              const DrySubject *subject, const char *required)
{
  const DryMeasure *measure = dry_subject_get (subject, failed->measure);
  GArray *inputs = g_array_new (FALSE, FALSE, sizeof (DryInput));
  const char *name = dry_finding_name (context->arena, failed->measure);
  const char *value = dry_finding_measure_text (context, measure);
  DryWorking working = {.source = rule->source};

  if (!*required)
    required = (failed->number != 0) == (failed->compare == DRY_COMPARE_EQUAL) ? "yes" : "no";
  working.formula = dry_arena_printf (context->arena, "%s = %s%s%s%s; must be %s", name, value,
                                      measure->how ? " (" : "", measure->how ? measure->how : "",
                                      measure->how ? ")" : "", required);
  add_inputs (context, inputs, rule->when, rule->n_when, subject);
  add_inputs (context, inputs, rule->require, rule->n_require, subject);
  working.n_inputs = inputs->len;
  working.inputs = dry_arena_take_array (context->arena, inputs);
  return working;
}

/* Rounded for reading, a value just past its limit may look like the limit: then say it exactly. */
static const char *
write_measured (const DryPlanContext *context, const DryMeasure *measure, const DryMeasure *limit)
{
  const char *text = dry_finding_measure_text (context, measure);

  if (measure->kind == DRY_MEASURE_BOOLEAN)
    return "";
  if ((measure->length != limit->length || measure->number != limit->number) &&
      strcmp (text, dry_finding_measure_text (context, limit)) == 0)
    return dry_finding_exact_text (context, measure);
  return text;
}

/* And when the value said exactly looks like the limit rounded, the limit is said exactly too. */
static const char *
write_required (const DryPlanContext *context, const char *required, const char *measured,
                const DryMeasure *measure, const DryMeasure *limit)
{
  const char *rounded = dry_finding_measure_text (context, limit);
  gsize n = strlen (required), tail = strlen (rounded);

  if ((measure->length == limit->length && measure->number == limit->number) ||
      strcmp (measured, rounded) != 0 || !g_str_has_suffix (required, rounded))
    return required;
  return dry_arena_printf (context->arena, "%.*s%s", (int) (n - tail), required,
                           dry_finding_exact_text (context, limit));
}

/* A count, a share or a year means nothing without its name. */
static const char *
write_message (const DryPlanContext *context, const DryRule *rule, const DryMeasure *measure,
               const DryFinding *finding)
{
  if (!*finding->measured)
    return dry_arena_printf (context->arena, "%s.", rule->title);
  if (measure->kind == DRY_MEASURE_NUMBER && (!measure->unit || !*measure->unit))
    return dry_arena_printf (context->arena, "%s (%s: %s; %s %s).", rule->title,
                             dry_finding_name (context->arena, measure->name), finding->measured,
                             finding->required,
                             strcmp (finding->required, "none") == 0 ? "allowed" : "asked for");
  return dry_arena_printf (context->arena, "%s: %s measured, %s asked for.", rule->title,
                           finding->measured, finding->required);
}

const char *
dry_answer_to_text (DryAnswer answer)
{
  static const char *const WORDS[] = {[DRY_ANSWER_WISH] = "project",
                                      [DRY_ANSWER_PACK] = "pack",
                                      [DRY_ANSWER_SYSTEM] = "system",
                                      [DRY_ANSWER_CUSTOM] = "custom"};

  return WORDS[CLAMP ((gint) answer, 0, DRY_ANSWER_CUSTOM)];
}

static void
add_finding (const DryPlanContext *context, GArray *findings, const DryRule *rule,
             const DryCondition *failed, const DrySubject *subject)
{
  DryFinding finding = {
      .rule = rule,
      .severity = rule->severity,
      .object = subject->object,
      .face = subject->face,
      .place = subject->place,
      .where = subject->name,
      .required = dry_finding_limit_text (context, rule, failed, subject),
  };
  DryMeasure limit;

  dry_finding_limit (failed, subject, &limit);
  finding.measured = write_measured (context, dry_subject_get (subject, failed->measure), &limit);
  finding.required = write_required (context, finding.required, finding.measured,
                                     dry_subject_get (subject, failed->measure), &limit);
  finding.message =
      write_message (context, rule, dry_subject_get (subject, failed->measure), &finding);
  finding.working = show_working (context, rule, failed, subject, finding.required);
  finding.answer = dry_rule_find_answer (context, rule, failed, &finding.answered_by);
  g_array_append_val (findings, finding);
}

static gint
compare_findings (gconstpointer a, gconstpointer b)
{
  const DryFinding *first = a, *second = b;
  const gint64 keys[][2] = {
      {first->severity, second->severity},         {first->face, second->face},
      {first->place.x0, second->place.x0},         {first->place.y0, second->place.y0},
      {first->rule->number, second->rule->number},
  };
  gint order;

  for (guint i = 0; i < G_N_ELEMENTS (keys); i++)
    if (keys[i][0] != keys[i][1])
      return keys[i][0] < keys[i][1] ? -1 : 1;
  if ((order = strcmp (first->rule->id, second->rule->id)) != 0)
    return order;
  return first->object < second->object ? -1 : first->object > second->object;
}

/* Ids tell rule and object; what has no object, or is seen twice, is told by face and count. */
static void
name_findings (const DryPlanContext *context, GArray *findings)
{
  g_autoptr (GHashTable) taken = g_hash_table_new (g_str_hash, g_str_equal);

  for (guint i = 0; i < findings->len; i++) {
    DryFinding *finding = &g_array_index (findings, DryFinding, i);
    const char *base =
        finding->object || finding->face < 0
            ? dry_arena_printf (context->arena, "%s/%u", finding->rule->id, finding->object)
            : dry_arena_printf (context->arena, "%s/face-%d", finding->rule->id, finding->face);

    finding->id = base;
    for (guint n = 2; !g_hash_table_add (taken, (gpointer) finding->id); n++)
      finding->id = dry_arena_printf (context->arena, "%s-%u", base, n);
  }
}

const DryFindings *
dry_findings_compute (const DryPlanContext *context, const DryMeasures *measures, GError **error)
{
  GArray *findings = g_array_new (FALSE, TRUE, sizeof (DryFinding));
  DryFindings *self = dry_arena_alloc (context->arena, sizeof (DryFindings));

  for (guint i = 0; i < measures->n; i++) {
    const DrySubject *subject = &measures->items[i];
    for (guint j = 0; j < context->rules->n_rules; j++) {
      const DryRule *rule = &context->rules->rules[j];
      const DryCondition *failed = NULL;
      if (dry_rule_judge (rule, subject, &failed) && failed)
        add_finding (context, findings, rule, failed, subject);
    }
  }
  g_array_sort (findings, compare_findings);
  name_findings (context, findings);
  self->n = findings->len;
  for (guint i = 0; i < findings->len; i++)
    self->count[CLAMP ((gint) g_array_index (findings, DryFinding, i).severity, 0, 2)]++;
  self->items = dry_arena_take_array (context->arena, findings);
  return self;
}
