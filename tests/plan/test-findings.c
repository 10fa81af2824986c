/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The engine that holds measures against rules, and the remedies that are edits: applying one makes
 * its finding vanish. Rules and measures of the first half are made by hand. */
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

/* --- remedies --- */

static void
change_job_pack (DryJob *job, gpointer data)
{
  job->rule_pack = (char *) "us-residential";
}

static void
change_pack_to (DryJob *job, gpointer data)
{
  job->rule_pack = data;
}

static DryProject *
start (const char *system)
{
  return rule_room_set_job (dry_test_alcove (system), change_job_pack, NULL);
}

static DryPart
make_niche (double u, double z, double width)
{
  return (DryPart){.kind = DRY_PART_NICHE,
                   .u = INCH (u),
                   .z = INCH (z),
                   .width = INCH (width),
                   .height = INCH (14),
                   .depth = INCH (3),
                   .site_built = TRUE,
                   .pitch = 0.021};
}

static DryPart
make_ready_niche (double u)
{
  DryPart part = make_niche (u, 48, 12);

  part.site_built = FALSE;
  part.body_width = INCH (14);
  part.body_height = INCH (16);
  part.flange = INCH (1);
  return part;
}

static DryPart
make_fitting (DryPartKind kind, double u, double z, double hole)
{
  return (DryPart){.kind = kind,
                   .u = INCH (u),
                   .z = INCH (z),
                   .width = INCH (hole + 1),
                   .height = INCH (hole + 1),
                   .hole = INCH (hole),
                   .flow_lpm = 6.8};
}

static DryPart
make_bench (double z, double depth)
{
  return (DryPart){.kind = DRY_PART_BENCH,
                   .u = INCH (20),
                   .z = INCH (z),
                   .width = INCH (20),
                   .height = INCH (2),
                   .depth = INCH (depth),
                   .pitch = 0.021};
}

static DryPart
make_glass (double width)
{
  return (DryPart){.kind = DRY_PART_GLASS,
                   .u = INCH (40),
                   .z = INCH (5),
                   .width = INCH (width),
                   .height = INCH (70),
                   .depth = INCH (0.375),
                   .hinged = TRUE};
}

static DryProject *
room_bar (void)
{
  DryPart bar = make_fitting (DRY_PART_GRAB_BAR, 30, 40, 0);

  bar.width = INCH (24);
  bar.height = INCH (1.25);
  return rule_room_add_part (start ("foam-bands"), 'n', bar);
}

static void
change_length (DryBasin *basin, gpointer data)
{
  basin->length = *(DryLength *) data;
}

static DryProject *
room_long_tub (void)
{
  DryLength length = INCH (60.75);

  return rule_room_set_basin (start ("foam-bands"), change_length, &length);
}

static DryProject *
room_short_tub (void)
{
  DryLength length = INCH (59);

  return rule_room_set_basin (start ("foam-bands"), change_length, &length);
}

static void
change_flange (DryBasin *basin, gpointer data)
{
  basin->flange_thickness = INCH (0.125);
}

static DryProject *
room_proud_flange (void)
{
  return rule_room_set_basin (start ("foam-bands"), change_flange, NULL);
}

static void
change_no_flange (DryBasin *basin, gpointer data)
{
  basin->flange = 0;
}

static DryProject *
room_no_flange (void)
{
  DryProject *project = rule_room_set_basin (start ("foam-bands"), change_no_flange, NULL);

  return rule_room_add_part (project, 'e', make_fitting (DRY_PART_SHOWER_HEAD, 8, 76, 1));
}

static DryProject *
room_bench (double z, double depth)
{
  return rule_room_add_part (rule_room_shower (INCH (40), INCH (40)), 'n', make_bench (z, depth));
}

static DryProject *
room_low_bench (void)
{
  return room_bench (14, 15);
}

static DryProject *
room_deep_bench (void)
{
  return room_bench (18, 20);
}

static void
change_thick_board (DryFinish *finish, gpointer data)
{
  finish->board = INCH (0.7);
}

static DryProject *
room_odd_board (void)
{
  return rule_room_set_finish (start ("foam-bands"), change_thick_board, NULL);
}

static void
change_lining (DryWall *wall, gpointer data)
{
  wall->lining = INCH (0.625);
}

static DryProject *
room_thick_lining (void)
{
  return rule_room_set_wall (start ("glass-mat-liquid"), 'e', change_lining, NULL);
}

static DryProject *
room_valve_on_stud (void)
{
  return rule_room_add_part (start ("foam-bands"), 'e', make_fitting (DRY_PART_VALVE, 22, 40, 3));
}

static DryProject *
room_high_valve (void)
{
  DryProject *project =
      rule_room_add_part (start ("foam-bands"), 'e', make_fitting (DRY_PART_SHOWER_HEAD, 8, 76, 1));

  return rule_room_add_part (project, 'e', make_fitting (DRY_PART_VALVE, 8, 52, 3));
}

static DryProject *
room_high_tub_valve (void)
{
  return rule_room_add_part (start ("foam-bands"), 'e', make_fitting (DRY_PART_VALVE, 8, 40, 3));
}

static DryProject *
room_narrow_door (void)
{
  return rule_room_add_part (rule_room_shower (INCH (40), INCH (40)), 'e', make_glass (20));
}

static DryProject *
room_entry_head (void)
{
  DryPart head = make_fitting (DRY_PART_SHOWER_HEAD, 8, 76, 1);

  head.toward_entry = TRUE;
  return rule_room_add_part (start ("foam-bands"), 'e', head);
}

static DryProject *
room_niche_over_bench (void)
{
  DryPart bench = make_bench (18, 15);

  bench.fold_down = TRUE;
  return rule_room_add_part (
      rule_room_add_part (rule_room_shower (INCH (48), INCH (48)), 'n', bench), 'n',
      make_niche (24, 45, 10));
}

static DryProject *
room_high_niche (void)
{
  return rule_room_add_part (start ("foam-bands"), 'n', make_niche (24, 66, 12));
}

static DryProject *
room_low_clear_niche (void)
{
  DryPart niche = make_niche (24, 48, 12);

  niche.height = INCH (6);
  return rule_room_add_part (start ("foam-bands"), 'n', niche);
}

static DryProject *
room_deep_niche (void)
{
  DryPart niche = make_niche (24, 48, 12);

  niche.depth = INCH (4);
  return rule_room_add_part (start ("foam-bands"), 'n', niche);
}

static DryProject *
room_flat_niche (void)
{
  DryPart niche = make_niche (24, 48, 12);

  niche.pitch = 0;
  return rule_room_add_part (start ("foam-bands"), 'n', niche);
}

static DryProject *
room_niche_on_stud (void)
{
  return rule_room_add_part (start ("foam-bands"), 'n', make_niche (32, 48, 12));
}

static DryProject *
room_ready_niche_on_stud (void)
{
  return rule_room_add_part (start ("foam-bands"), 'n', make_ready_niche (30));
}

static void
change_bearing (DryWall *wall, gpointer data)
{
  wall->bearing = TRUE;
}

static DryProject *
room_bearing_niche (void)
{
  return rule_room_set_wall (room_niche_on_stud (), 'n', change_bearing, NULL);
}

static DryProject *
room_vent_bay (void)
{
  DryPart vent = {.kind = DRY_PART_VENT,
                  .u = INCH (22),
                  .width = INCH (3),
                  .height = INCH (96),
                  .depth = INCH (3)};

  return rule_room_add_part (
      rule_room_add_part (start ("foam-bands"), 'n', make_niche (24, 48, 12)), 'n', vent);
}

static DryProject *
room_window (void)
{
  DryOpening window = {.kind = DRY_OPENING_WINDOW,
                       .u = INCH (20),
                       .z = INCH (44),
                       .width = INCH (24),
                       .height = INCH (30),
                       .wooden_jamb = TRUE};

  return rule_room_add_opening (start ("foam-bands"), 'n', window);
}

static void
change_high_curb (DryBasin *basin, gpointer data)
{
  basin->height = INCH (10);
}

static DryProject *
room_high_curb (void)
{
  return rule_room_set_basin (rule_room_shower (INCH (40), INCH (40)), change_high_curb, NULL);
}

static void
change_low_curb (DryBasin *basin, gpointer data)
{
  basin->height = INCH (1.5);
}

static DryProject *
room_low_curb (void)
{
  return rule_room_set_basin (rule_room_shower (INCH (40), INCH (40)), change_low_curb, NULL);
}

static DryProject *
room_low_spout (void)
{
  return rule_room_add_part (start ("foam-bands"), 'e', make_fitting (DRY_PART_SPOUT, 8, 17, 1));
}

static void
change_half_bond (DryFinish *finish, gpointer data)
{
  finish->tiled = TRUE;
  finish->tile = NULL;
  finish->tile_width = INCH (24);
  finish->tile_height = INCH (12);
  finish->tile_thickness = INCH (0.3125);
  finish->joint = INCH (0.03125);
  finish->pattern = DRY_PATTERN_OFFSET;
  finish->offset = 0.5;
}

static DryProject *
room_half_bond (void)
{
  return rule_room_set_finish (start ("foam-bands"), change_half_bond, NULL);
}

static void
change_straight (DryFinish *finish, gpointer data)
{
  finish->tiled = TRUE;
  finish->pattern = DRY_PATTERN_STRAIGHT;
  finish->tile_width = INCH (24);
  finish->tile_height = INCH (12);
}

static void
change_start (DryWall *wall, gpointer data)
{
  wall->tile_set = TRUE;
  wall->tile_from = INCH (4);
}

static DryProject *
room_narrow_cut (void)
{
  return rule_room_set_wall (rule_room_set_finish (start ("foam-bands"), change_straight, NULL),
                             'n', change_start, NULL);
}

static void
change_outside (DryWall *wall, gpointer data)
{
  wall->exterior = TRUE;
  wall->air_barrier = FALSE;
  wall->vapour_barrier = TRUE;
}

static DryProject *
room_outside (void)
{
  return rule_room_set_wall (start ("foam-bands"), 'n', change_outside, NULL);
}

static void
change_spacing (DryWall *wall, gpointer data)
{
  wall->stud_spacing = INCH (24);
  wall->first_stud = INCH (24);
}

static DryProject *
room_wide_studs (void)
{
  return rule_room_set_wall (start ("foam-bands"), 'n', change_spacing, NULL);
}

static void
change_found (DryWall *wall, gpointer data)
{
  static DryLength studs[] = {INCH (17.9), INCH (36.5), INCH (45)};

  wall->found_studs = studs;
  wall->n_found_studs = G_N_ELEMENTS (studs);
}

static DryProject *
room_found_studs (void)
{
  return rule_room_set_wall (start ("foam-bands"), 'n', change_found, NULL);
}

static DryProject *
room_no_leg (void)
{
  return rule_room_set_wet (start ("foam-bands"), (DryWetZone){.past = INCH (2)});
}

static DryProject *
room_short_past (void)
{
  return rule_room_set_wet (start ("foam-bands"), (DryWetZone){.past = INCH (1), .leg = TRUE});
}

static void
change_joists (DryRoom *room, gpointer data)
{
  room->joist_spacing = INCH (24);
}

static DryProject *
room_tiled_ceiling (void)
{
  DryWetZone wet = {.past = INCH (2), .leg = TRUE, .ceiling = TRUE};

  return rule_room_set_room (rule_room_set_wet (start ("fibre-cement"), wet), change_joists, NULL);
}

static DryProject *
room_low_wet (void)
{
  DryProject *project =
      rule_room_add_part (start ("foam-bands"), 'e', make_fitting (DRY_PART_SHOWER_HEAD, 8, 78, 1));

  return rule_room_set_wet (project,
                            (DryWetZone){.height = INCH (70), .past = INCH (2), .leg = TRUE});
}

static DryProject *
wish_upright_seam (double u, double z)
{
  g_autoptr (DryProject) project = start ("cement-liquid");
  DrySeamWish seam = {.wall = dry_test_wall (project, 'n'), .at = INCH (u), .through = INCH (z)};

  return dry_edit_set_seam (project, dry_test_room (project), &seam, NULL, NULL);
}

static DryProject *
room_seam_off_stud (void)
{
  return wish_upright_seam (37, 60);
}

static DryProject *
room_seam_off_board (void)
{
  return wish_upright_seam (37, 5);
}

/* Rooms told in words: pan or tub, pack, fields. */
static DryProject *
room_told (gboolean pan, const char *pack, const char *words)
{
  DryProject *project = pan ? rule_room_shower (INCH (40), INCH (40)) : start ("foam-bands");

  project = rule_room_set_job (project, change_pack_to, (gpointer) pack);
  return rule_room_set_fields (project, words);
}

#define TOLD(name, pan, pack, words)                                                               \
  static DryProject *name (void)                                                                   \
  {                                                                                                \
    return room_told (pan, pack, words);                                                           \
  }

TOLD (room_level_curb, TRUE, "us-residential", "basin.site_built=1")
TOLD (room_flat_liner, TRUE, "us-residential",
      "basin.site_built=1 basin.liner=1 basin.liner_turn_up=1in")
TOLD (room_clamped, TRUE, "us-residential", "basin.site_built=1 basin.clamping_drain=1")
TOLD (room_flat_floor, TRUE, "australia", "basin.floor_slope=0.01")
TOLD (room_steep_floor, TRUE, "us-residential", "basin.floor_slope=0.05")
TOLD (room_no_dam, TRUE, "us-residential", "basin.height=0.5in")
TOLD (room_half_wall, FALSE, "us-residential", "wall.e.height=60in")
TOLD (room_steam, FALSE, "us-residential", "room.steam=1")
TOLD (room_wrong_mortar, FALSE, "us-residential", "finish.tiled=1 finish.mortar_kind=2")
TOLD (room_mortar_gap, FALSE, "us-residential", "finish.basin_gap_mortar=1")
TOLD (room_unguarded, FALSE, "germany", "")

static DryProject *
room_screwed_glass (void)
{
  DryPart glass = make_glass (24);

  glass.screwed_down = TRUE;
  return rule_room_add_part (rule_room_shower (INCH (40), INCH (40)), 'e', glass);
}

static const struct {
  const char *edit, *rule;
  DryProject *(*build) (void);
} REMEDIES[] = {
    {"finish.cut-guard", "cut-guard", room_unguarded},
    {"finish.gap-sealant", "gap-mortar-band", room_mortar_gap},
    {"finish.system-mortar", "mortar-kind", room_wrong_mortar},
    {"glass.bond-channel", "track-screwed", room_screwed_glass},
    {"pan.bonding-flange", "clamping-drain", room_clamped},
    {"pan.pitch-curb", "curb-pitch", room_level_curb},
    {"pan.plan-dam", "curbless-dam", room_no_dam},
    {"pan.pre-slope", "pre-slope", room_flat_liner},
    {"pan.slope", "floor-slope-low", room_flat_floor},
    {"pan.slope", "floor-slope-high", room_steep_floor},
    {"pan.turn-up", "liner-turn-up", room_flat_liner},
    {"pan.weeps-open", "weeps-open", room_flat_liner},
    {"pan.wrap-curb", "curb-wrap", room_level_curb},
    {"room.protect-floor", "curbless-floor", room_no_dam},
    {"room.slope-ceiling", "steam-ceiling", room_steam},
    {"wall.pitch-cap", "cap-pitch", room_half_wall},
    {"bar.to-height", "grab-bar-height", room_bar},
    {"basin.close-walls", "opening-too-wide", room_short_tub},
    {"basin.fur-flange", "flange-proud", room_proud_flange},
    {"basin.no-shower", "no-flange", room_no_flange},
    {"basin.open-walls", "opening-too-small", room_long_tub},
    {"bench.fold-down", "bench-crowds", room_low_bench},
    {"bench.to-depth", "bench-depth", room_deep_bench},
    {"bench.to-height", "bench-height", room_low_bench},
    {"finish.flush-board", "lining-step", room_thick_lining},
    {"finish.usual-board", "board-thickness", room_odd_board},
    {"fitting.off-stud", "valve-on-stud", room_valve_on_stud},
    {"glass.door-width", "shower-door-width", room_narrow_door},
    {"glass.safety-glass", "glass-not-safety", room_narrow_door},
    {"head.turn-away", "head-aims-at-entry", room_entry_head},
    {"niche.above-bench", "niche-over-bench", room_niche_over_bench},
    {"niche.raise-into-reach", "niche-height", room_high_niche},
    {"niche.taller", "niche-clear-height", room_low_clear_niche},
    {"niche.to-cavity", "niche-too-deep", room_deep_niche},
    {"niche.to-clear-bay", "niche-cuts-stud", room_niche_on_stud},
    {"niche.to-clear-bay", "niche-misses-bay", room_ready_niche_on_stud},
    {"niche.to-clear-bay", "niche-cuts-bearing-stud", room_bearing_niche},
    {"niche.to-clear-bay", "hidden-in-niche-bay", room_vent_bay},
    {"opening.line-jamb", "window-wooden", room_window},
    {"opening.safety-glass", "window-not-safety", room_window},
    {"opening.slope-sill", "window-sill-flat", room_window},
    {"pan.curb", "curb-high", room_high_curb},
    {"pan.curb", "curb-low", room_low_curb},
    {"part.pitch", "niche-floor-pitch", room_flat_niche},
    {"seam.let-plan-choose", "wish-off-stud", room_seam_off_stud},
    {"seam.let-plan-choose", "wish-off-board", room_seam_off_board},
    {"seam.to-stud", "wish-off-stud", room_seam_off_stud},
    {"spout.raise", "spout-height", room_low_spout},
    {"tile.free-start", "cut-half", room_narrow_cut},
    {"tile.joint-eighth", "joint-least", room_half_bond},
    {"tile.joint-eighth", "joint-running-bond", room_half_bond},
    {"tile.offset-third", "offset-pattern", room_half_bond},
    {"valve.to-reach", "valve-height", room_high_valve},
    {"valve.to-reach", "tub-valve-height", room_high_tub_valve},
    {"wall.air-barrier", "air-barrier", room_outside},
    {"wall.closer-studs", "stud-spacing", room_wide_studs},
    {"wall.closer-studs", "stud-spacing", room_found_studs},
    {"wall.remove-vapour-barrier", "two-barriers", room_outside},
    {"wet.leg", "no-leg", room_no_leg},
    {"wet.no-ceiling", "ceiling-framing", room_tiled_ceiling},
    {"wet.past-2in", "wet-past", room_short_past},
    {"wet.to-ceiling", "head-above-wet-wall", room_low_wet},
    {"wet.to-height", "wet-wall-height", room_low_wet},
};

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
  const char *edit = REMEDIES[GPOINTER_TO_UINT (data)].edit;
  const char *rule = REMEDIES[GPOINTER_TO_UINT (data)].rule;
  g_autoptr (DryProject) project = REMEDIES[GPOINTER_TO_UINT (data)].build ();
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
    for (guint i = 0; i < G_N_ELEMENTS (REMEDIES); i++)
      tried |= strcmp (REMEDIES[i].edit, *name) == 0;
    if (!tried || !dry_remedy_is_known (*name))
      g_error ("Remedy “%s” is not tried, or not known", *name);
  }
}

static void
test_remedy_refuses (void)
{
  g_autoptr (DryProject) project =
      rule_room_add_part (start ("foam-bands"), 'n', make_niche (30, 48, 30));
  g_autoptr (DryPlan) plan = rule_room_plan (project);
  const DryFinding *finding = rule_room_find (plan, "niche-cuts-stud");
  g_autoptr (GError) error = NULL;

  g_assert_nonnull (finding);
  g_assert_null (dry_remedy_apply (project, dry_test_room (project), plan, finding,
                                   &finding->rule->remedies[0], &error));
  g_assert_error (error, DRY_ERROR, DRY_ERROR_GEOMETRY);
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
  for (guint i = 0; i < G_N_ELEMENTS (REMEDIES); i++) {
    g_autofree char *path =
        g_strdup_printf ("/remedies/%s/%s-%u", REMEDIES[i].edit, REMEDIES[i].rule, i);
    g_test_add_data_func (path, GUINT_TO_POINTER (i), test_remedy);
  }
  g_test_add_func ("/remedies/names", test_remedy_names);
  g_test_add_func ("/remedies/refuses", test_remedy_refuses);
  return g_test_run ();
}
