/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The engine that holds measures against rules made by hand, and findings of whole plans: the same
 * twice, and sensible for any room. */
#include <locale.h>
#include <string.h>

#include "plan/remedy.h"
#include "plan/rule-room.h"

/* --- the engine, on hand-made rules --- */

typedef struct {
  const char *name;
  DryMeasure measure;
  DryCondition condition;
  gboolean raised;
} Comparison;

#define LENGTH(mm)                                                                                 \
  {                                                                                                \
    .name = "m", .kind = DRY_MEASURE_LENGTH, .length = (mm) *DRY_MM, .unit = ""                    \
  }
#define NUMBER(n)                                                                                  \
  {                                                                                                \
    .name = "m", .kind = DRY_MEASURE_NUMBER, .number = (n), .unit = ""                             \
  }
#define YES(n)                                                                                     \
  {                                                                                                \
    .name = "m", .kind = DRY_MEASURE_BOOLEAN, .number = (n), .unit = ""                            \
  }
#define OF_LENGTH(c, mm)                                                                           \
  {                                                                                                \
    "m", (c), DRY_LIMIT_LENGTH, 0, (mm) *DRY_MM, NULL, 1, 0                                        \
  }
#define OF_NUMBER(c, n)                                                                            \
  {                                                                                                \
    "m", (c), DRY_LIMIT_NUMBER, (n), 0, NULL, 1, 0                                                 \
  }
#define OF_YES(n)                                                                                  \
  {                                                                                                \
    "m", DRY_COMPARE_EQUAL, DRY_LIMIT_BOOLEAN, (n), 0, NULL, 1, 0                                  \
  }

static const Comparison COMPARISONS[] = {
    {"less/holds", LENGTH (9), OF_LENGTH (DRY_COMPARE_LESS, 10), FALSE},
    {"less/at-limit", LENGTH (10), OF_LENGTH (DRY_COMPARE_LESS, 10), TRUE},
    {"at-most/at-limit", LENGTH (10), OF_LENGTH (DRY_COMPARE_AT_MOST, 10), FALSE},
    {"at-most/over", LENGTH (11), OF_LENGTH (DRY_COMPARE_AT_MOST, 10), TRUE},
    {"equal", LENGTH (10), OF_LENGTH (DRY_COMPARE_EQUAL, 10), FALSE},
    {"equal/not", LENGTH (11), OF_LENGTH (DRY_COMPARE_EQUAL, 10), TRUE},
    {"not-equal", NUMBER (2), OF_NUMBER (DRY_COMPARE_NOT_EQUAL, 3), FALSE},
    {"not-equal/not", NUMBER (3), OF_NUMBER (DRY_COMPARE_NOT_EQUAL, 3), TRUE},
    {"at-least/at-limit", NUMBER (3), OF_NUMBER (DRY_COMPARE_AT_LEAST, 3), FALSE},
    {"at-least/hair-under", NUMBER (3 - 1e-12), OF_NUMBER (DRY_COMPARE_AT_LEAST, 3), FALSE},
    {"at-least/under", NUMBER (2.999), OF_NUMBER (DRY_COMPARE_AT_LEAST, 3), TRUE},
    {"greater/at-limit", NUMBER (3), OF_NUMBER (DRY_COMPARE_GREATER, 3), TRUE},
    {"yes", YES (1), OF_YES (1), FALSE},
    {"no", YES (0), OF_YES (1), TRUE},
    {"other-kind", LENGTH (5), OF_NUMBER (DRY_COMPARE_GREATER, 100), FALSE},
};

/* One subject with one measure and another "other" of 100 mm, one rule; what is found. */
static const DryFindings *
judge (DryPlanContext *context, DryMeasure measure, const DryRule *rule)
{
  static const DryJob JOB = {.denominator = 16};
  static DryRulePack pack;
  DryMeasure measures[] = {
      measure, {.name = "other", .kind = DRY_MEASURE_LENGTH, .length = 100 * DRY_MM, .unit = ""}};
  DrySubject subject = {.kind = "thing", .object = 7, .face = -1, .name = "The thing"};
  DryMeasures all = {&subject, 1};
  g_autoptr (GError) error = NULL;
  const DryFindings *findings;

  subject.measures = measures;
  subject.n_measures = G_N_ELEMENTS (measures);
  pack = (DryRulePack){.id = "p", .rules = rule, .n_rules = 1};
  context->job = &JOB;
  context->rules = &pack;
  findings = dry_findings_compute (context, &all, &error);
  g_assert_no_error (error);
  return findings;
}

static DryRule
make_rule (const DryCondition *require, guint n)
{
  static const DryRemedy REMEDY = {"Do better", NULL};

  return (DryRule){.id = "r",
                   .topic = "t",
                   .subject = "thing",
                   .severity = DRY_SEVERITY_FIX,
                   .title = "It is bad",
                   .why = "because",
                   .require = require,
                   .n_require = n,
                   .remedies = &REMEDY,
                   .n_remedies = 1,
                   .source = {"a source", DRY_CERTAINTY_INVENTED}};
}

static void
test_comparison (gconstpointer data)
{
  const Comparison *row = data;
  g_autoptr (DryArena) arena = dry_arena_new ();
  DryPlanContext context = {.arena = arena};
  DryRule rule = make_rule (&row->condition, 1);

  g_assert_cmpuint (judge (&context, row->measure, &rule)->n, ==, row->raised);
}

static void
test_silence (void)
{
  g_autoptr (DryArena) arena = dry_arena_new ();
  DryPlanContext context = {.arena = arena};
  DryCondition require = OF_LENGTH (DRY_COMPARE_LESS, 1), lacking = require, when = require;
  DryMeasure measure = LENGTH (5);
  DryRule rule = make_rule (&require, 1);

  g_assert_cmpuint (judge (&context, measure, &rule)->n, ==, 1);
  /* A condition under `when` that does not hold. */
  rule.when = &when;
  rule.n_when = 1;
  g_assert_cmpuint (judge (&context, measure, &rule)->n, ==, 0);
  /* One that holds. */
  when.compare = DRY_COMPARE_GREATER;
  g_assert_cmpuint (judge (&context, measure, &rule)->n, ==, 1);
  /* A measure the subject lacks, under `when` and under `require`. */
  when.measure = "nothing";
  g_assert_cmpuint (judge (&context, measure, &rule)->n, ==, 0);
  lacking.measure = "nothing";
  rule = make_rule (&lacking, 1);
  g_assert_cmpuint (judge (&context, measure, &rule)->n, ==, 0);
  /* Another kind of subject. */
  rule = make_rule (&require, 1);
  rule.subject = "nobody";
  g_assert_cmpuint (judge (&context, measure, &rule)->n, ==, 0);
}

static void
test_other_measure (void)
{
  g_autoptr (DryArena) arena = dry_arena_new ();
  DryPlanContext context = {.arena = arena};
  /* m >= other / 2 + 10 mm = 60 mm */
  DryCondition require = {"m", DRY_COMPARE_AT_LEAST, DRY_LIMIT_MEASURE, 0, 0, "other",
                          0.5, 10 * DRY_MM};
  DryMeasure good = LENGTH (60), bad = LENGTH (59);
  DryRule rule = make_rule (&require, 1);

  g_assert_cmpuint (judge (&context, good, &rule)->n, ==, 0);
  g_assert_cmpuint (judge (&context, bad, &rule)->n, ==, 1);
}

static void
test_words (void)
{
  g_autoptr (DryArena) arena = dry_arena_new ();
  DryPlanContext context = {.arena = arena};
  DryCondition band[] = {
      {"m", DRY_COMPARE_AT_LEAST, DRY_LIMIT_LENGTH, 0, 33 * DRY_INCH, NULL, 1, 0},
      {"m", DRY_COMPARE_AT_MOST, DRY_LIMIT_LENGTH, 0, 36 * DRY_INCH, NULL, 1, 0}};
  DryMeasure high = {.name = "m",
                     .kind = DRY_MEASURE_LENGTH,
                     .length = 37 * DRY_INCH,
                     .unit = "",
                     .how = "with a rule"};
  DryMeasure hair = high;
  DryRule rule = make_rule (band, 2);
  const DryFinding *finding = judge (&context, high, &rule)->items;

  g_assert_cmpstr (finding->id, ==, "r/7");
  g_assert_cmpstr (finding->measured, ==, "37\"");
  g_assert_cmpstr (finding->required, ==, "33\" to 36\"");
  g_assert_cmpstr (finding->message, ==, "It is bad: 37\" measured, 33\" to 36\" asked for.");
  g_assert_cmpstr (finding->working.formula, ==, "m = 37\" (with a rule); must be 33\" to 36\"");
  g_assert_cmpuint (finding->working.n_inputs, ==, 1);
  {
    DryCondition no_studs = {"studs-cut", DRY_COMPARE_EQUAL, DRY_LIMIT_NUMBER, 0, 0, NULL, 1, 0};
    DryMeasure one = {.name = "studs-cut", .kind = DRY_MEASURE_NUMBER, .number = 1, .unit = ""};
    DryRule count = make_rule (&no_studs, 1);

    finding = judge (&context, one, &count)->items;
    g_assert_cmpstr (finding->message, ==, "It is bad (studs cut: 1; none allowed).");
  }
  /* One nanometre over does not read like the limit. */
  hair.length = 36 * DRY_INCH + 1;
  g_assert_cmpstr (judge (&context, hair, &rule)->items->measured, ==, "914.400001 mm");
}

/* --- whole plans --- */

static void
test_same_twice (void)
{
  g_autoptr (DryProject) project = dry_test_furnished_alcove ("cement-liquid");
  g_autoptr (DryPlan) a = rule_room_plan (project);
  g_autoptr (DryPlan) b = NULL;
  g_autofree char *locale = g_strdup (setlocale (LC_ALL, NULL));

  setlocale (LC_ALL, "de_DE.UTF-8");
  b = rule_room_plan (project);
  setlocale (LC_ALL, locale);
  g_assert_cmpuint (a->findings->n, ==, b->findings->n);
  for (guint i = 0; i < a->findings->n; i++) {
    g_assert_cmpstr (a->findings->items[i].id, ==, b->findings->items[i].id);
    g_assert_cmpstr (a->findings->items[i].message, ==, b->findings->items[i].message);
  }
  rule_room_check_findings (a);
}

/* Any room at all: complete findings, and every remedy that is an edit gives a sound project or an
 * error with a sentence. */
static void
test_any_room (void)
{
  for (guint32 seed = 1; seed <= 40; seed++) {
    g_autoptr (DryProject) project = dry_test_random_project (seed);
    DryId room = dry_project_get_room_at (project, 0)->id;
    g_autoptr (DryPlan) plan = rule_room_plan (project);

    rule_room_check_findings (plan);
    for (guint i = 0; i < plan->findings->n; i++) {
      const DryFinding *finding = &plan->findings->items[i];
      for (guint r = 0; r < finding->rule->n_remedies; r++) {
        g_autoptr (GError) error = NULL;
        g_autoptr (DryProject) better =
            dry_remedy_apply (project, room, plan, finding, &finding->rule->remedies[r], &error);
        g_assert_true ((better != NULL) != (error != NULL));
        if (!finding->rule->remedies[r].edit)
          g_assert_error (error, DRY_ERROR, DRY_ERROR_UNSUPPORTED);
      }
    }
  }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  for (guint i = 0; i < G_N_ELEMENTS (COMPARISONS); i++) {
    g_autofree char *path = g_strdup_printf ("/findings/compare/%s", COMPARISONS[i].name);
    g_test_add_data_func (path, &COMPARISONS[i], test_comparison);
  }
  g_test_add_func ("/findings/silence", test_silence);
  g_test_add_func ("/findings/other-measure", test_other_measure);
  g_test_add_func ("/findings/words", test_words);
  g_test_add_func ("/findings/same-twice", test_same_twice);
  g_test_add_func ("/findings/any-room", test_any_room);
  return g_test_run ();
}
