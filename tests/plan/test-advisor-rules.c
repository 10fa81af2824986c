/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the advisor reads out of rules: bounds of a length from every comparison, the tightest of
 * several, and only from rules whose conditions the facts meet. The rules are made up here. */
#include "plan/advisor-private.h"

#define IN(x) ((x) *DRY_INCH)

typedef struct {
  DryPlanContext context;
  DryRulePack pack;
  DryRule rules[3];
  DryAdviceSite site;
  DryAdvice advice;
  DryAdviceWork work;
} Case;

static void
set_up (Case *self)
{
  *self = (Case){.pack = {.id = "own", .rules = self->rules}};
  self->context.rules = &self->pack;
  self->advice.site = &self->site;
  self->work.advice = &self->advice;
  self->work.context = &self->context;
  self->work.facts = g_array_new (FALSE, FALSE, sizeof (DryMeasure));
}

static void
tear_down (Case *self)
{
  g_array_unref (self->work.facts);
}

static void
add_rule (Case *self, const char *id, DrySeverity severity, const DryCondition *when,
          const DryCondition *require)
{
  self->rules[self->pack.n_rules++] = (DryRule){.id = id,
                                                .subject = "niche",
                                                .severity = severity,
                                                .when = when,
                                                .n_when = when ? 1 : 0,
                                                .require = require,
                                                .n_require = 1};
}

static DryCondition
length_of (const char *measure, DryCompare compare, DryLength limit)
{
  return (DryCondition){
      .measure = measure, .compare = compare, .kind = DRY_LIMIT_LENGTH, .length = limit};
}

/* --- bounds --- */

/* Less and more than a length leave it out by the least there is: a nanometer. */
static void
test_bounds (void)
{
  static const struct {
    DryCompare compare;
    gboolean has_low, has_high;
    DryLength low, high; /* off the limit */
  } rows[] = {
      {DRY_COMPARE_LESS, FALSE, TRUE, 0, -1},    {DRY_COMPARE_AT_MOST, FALSE, TRUE, 0, 0},
      {DRY_COMPARE_EQUAL, TRUE, TRUE, 0, 0},     {DRY_COMPARE_NOT_EQUAL, FALSE, FALSE, 0, 0},
      {DRY_COMPARE_AT_LEAST, TRUE, FALSE, 0, 0}, {DRY_COMPARE_GREATER, TRUE, FALSE, 1, 0}};

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++) {
    const DryCondition require = length_of ("bottom", rows[i].compare, IN (40));
    DryAdviceRange range;
    Case self;

    set_up (&self);
    add_rule (&self, "height", DRY_SEVERITY_FIX, NULL, &require);
    range = dry_advice_range (&self.work, "niche", "bottom");
    g_assert_true (range.any == (rows[i].has_low || rows[i].has_high));
    g_assert_true (range.has_low == rows[i].has_low && range.has_high == rows[i].has_high);
    if (range.has_low)
      g_assert_cmpint (range.low, ==, IN (40) + rows[i].low);
    if (range.has_high)
      g_assert_cmpint (range.high, ==, IN (40) + rows[i].high);
    g_assert_true ((range.rule != NULL) == range.any);
    g_assert_false (dry_advice_range (&self.work, "niche", "depth").any);
    g_assert_false (dry_advice_range (&self.work, "valve", "bottom").any);
    tear_down (&self);
  }
}

/* Of two packs' rules the tighter bound holds, whichever is read first, and the graver is named. */
static void
test_tightest (void)
{
  const DryCondition wide[] = {length_of ("bottom", DRY_COMPARE_AT_LEAST, IN (30)),
                               length_of ("bottom", DRY_COMPARE_AT_MOST, IN (60))};
  const DryCondition narrow[] = {length_of ("bottom", DRY_COMPARE_AT_LEAST, IN (36)),
                                 length_of ("bottom", DRY_COMPARE_AT_MOST, IN (48))};

  for (guint turned = 0; turned < 2; turned++)
    for (guint grave = 0; grave < 2; grave++) {
      DryAdviceRange range;
      Case self;

      set_up (&self);
      add_rule (&self, "one", grave ? DRY_SEVERITY_STOP : DRY_SEVERITY_ADVICE, NULL,
                turned ? narrow : wide);
      add_rule (&self, "two", grave ? DRY_SEVERITY_ADVICE : DRY_SEVERITY_STOP, NULL,
                turned ? wide : narrow);
      self.rules[0].n_require = self.rules[1].n_require = 2;
      range = dry_advice_range (&self.work, "niche", "bottom");
      g_assert_cmpint (range.low, ==, IN (36));
      g_assert_cmpint (range.high, ==, IN (48));
      g_assert_cmpstr (range.rule->id, ==, grave ? "one" : "two");
      g_assert_cmpstr (dry_advice_rule (&self.work, "niche", "bottom")->id, ==,
                       grave ? "one" : "two");
      tear_down (&self);
    }
}

/* A limit may be another fact and more; a number is no length, and what nobody told bounds
 * nothing. */
static void
test_other_measure (void)
{
  const DryCondition rows[] = {
      {.measure = "bay",
       .compare = DRY_COMPARE_AT_LEAST,
       .kind = DRY_LIMIT_MEASURE,
       .other = "body",
       .factor = 1,
       .plus = IN (1)},
      {.measure = "bay",
       .compare = DRY_COMPARE_AT_LEAST,
       .kind = DRY_LIMIT_MEASURE,
       .other = "nobody",
       .factor = 1},
      {.measure = "bay", .compare = DRY_COMPARE_AT_LEAST, .kind = DRY_LIMIT_NUMBER, .number = 14}};

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++) {
    DryAdviceRange range;
    Case self;

    set_up (&self);
    dry_advice_fact_length (&self.work, "body", IN (13));
    add_rule (&self, "clearance", DRY_SEVERITY_FIX, NULL, &rows[i]);
    range = dry_advice_range (&self.work, "niche", "bay");
    g_assert_true (range.any == (i == 0));
    if (range.any)
      g_assert_cmpint (range.low, ==, IN (14));
    tear_down (&self);
  }
}

/* --- conditions --- */

/* One of the three facts against a limit: which comparisons hold. */
static void
test_conditions (void)
{
  static const struct {
    double limit;
    gboolean less, at_most, equal, at_least;
  } rows[] = {
      {2, FALSE, FALSE, FALSE, TRUE}, {3, FALSE, TRUE, TRUE, TRUE}, {4, TRUE, TRUE, FALSE, FALSE}};

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++) {
    const gboolean holds[] = {
        [DRY_COMPARE_LESS] = rows[i].less,         [DRY_COMPARE_AT_MOST] = rows[i].at_most,
        [DRY_COMPARE_EQUAL] = rows[i].equal,       [DRY_COMPARE_NOT_EQUAL] = !rows[i].equal,
        [DRY_COMPARE_AT_LEAST] = rows[i].at_least, [DRY_COMPARE_GREATER] = !rows[i].at_most};
    for (guint compare = 0; compare < G_N_ELEMENTS (holds); compare++)
      for (guint length = 0; length < 2; length++) {
        const DryCondition require = length_of ("bottom", DRY_COMPARE_AT_MOST, IN (60));
        const DryCondition when = {.measure = length ? "depth" : "pitch",
                                   .compare = (DryCompare) compare,
                                   .kind = length ? DRY_LIMIT_LENGTH : DRY_LIMIT_NUMBER,
                                   .number = rows[i].limit,
                                   .length = IN ((DryLength) rows[i].limit)};
        Case self;

        set_up (&self);
        dry_advice_fact_length (&self.work, "depth", IN (9)); /* the later word counts */
        dry_advice_fact_length (&self.work, "depth", IN (3));
        dry_advice_fact_number (&self.work, "pitch", 3);
        add_rule (&self, "height", DRY_SEVERITY_FIX, &when, &require);
        g_assert_true ((dry_advice_rule (&self.work, "niche", "bottom") != NULL) == holds[compare]);
        tear_down (&self);
      }
  }
}

/* A condition on what is not known, or on a fact of another kind, is not met: the rule is silent.
 */
static void
test_unmet_conditions (void)
{
  const DryCondition rows[] = {
      {.measure = "nothing", .compare = DRY_COMPARE_EQUAL, .kind = DRY_LIMIT_BOOLEAN},
      {.measure = "depth", .compare = DRY_COMPARE_GREATER, .kind = DRY_LIMIT_NUMBER},
      {.measure = "depth",
       .compare = DRY_COMPARE_GREATER,
       .kind = DRY_LIMIT_MEASURE,
       .other = "nothing",
       .factor = 1},
      {.measure = "exterior-wall",
       .compare = DRY_COMPARE_EQUAL,
       .kind = DRY_LIMIT_BOOLEAN,
       .number = 1},
  };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++) {
    const DryCondition require = length_of ("bottom", DRY_COMPARE_AT_MOST, IN (60));
    Case self;

    set_up (&self);
    dry_advice_fact_length (&self.work, "depth", IN (3));
    dry_advice_fact_yes (&self.work, "exterior-wall", FALSE);
    add_rule (&self, "height", DRY_SEVERITY_FIX, &rows[i], &require);
    g_assert_null (dry_advice_rule (&self.work, "niche", "bottom"));
    g_assert_false (dry_advice_range (&self.work, "niche", "bottom").any);
    tear_down (&self);
  }
}

/* What only advises costs points and what is to be mended forbids; the user may ask for more. */
static void
test_hard (void)
{
  const DryRule stop = {.severity = DRY_SEVERITY_STOP}, fix = {.severity = DRY_SEVERITY_FIX};
  const DryRule advice = {.severity = DRY_SEVERITY_ADVICE};
  Case self;

  set_up (&self);
  g_assert_true (dry_advice_is_hard (&self.work, DRY_ADVICE_BAY, &stop));
  g_assert_true (dry_advice_is_hard (&self.work, DRY_ADVICE_BAY, &fix));
  g_assert_false (dry_advice_is_hard (&self.work, DRY_ADVICE_BAY, &advice));
  g_assert_false (dry_advice_is_hard (&self.work, DRY_ADVICE_BAY, NULL));
  self.site.options.must = 1u << DRY_ADVICE_BAY;
  g_assert_true (dry_advice_is_hard (&self.work, DRY_ADVICE_BAY, NULL));
  g_assert_false (dry_advice_is_hard (&self.work, DRY_ADVICE_SPRAY, NULL));
  tear_down (&self);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/advisor/rules/bounds", test_bounds);
  g_test_add_func ("/advisor/rules/tightest", test_tightest);
  g_test_add_func ("/advisor/rules/other-measure", test_other_measure);
  g_test_add_func ("/advisor/rules/conditions", test_conditions);
  g_test_add_func ("/advisor/rules/unmet", test_unmet_conditions);
  g_test_add_func ("/advisor/rules/hard", test_hard);
  return g_test_run ();
}
