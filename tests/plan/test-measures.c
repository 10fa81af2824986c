/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Measures and their documentation must tell the same story, and rules may only use what both know.
 * Also the measures whose value can be told by hand. */
#include <string.h>

#include "plan/rule-names.h"
#include "plan/rule-room.h"

/* --- docs/measures.md --- */

/* "niche.bottom" -> "length", "number" or "yes/no" */
static GHashTable *
read_documentation (void)
{
  g_autofree char *path = g_test_build_filename (G_TEST_DIST, "..", "docs", "measures.md", NULL);
  GHashTable *known = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, g_free);
  g_autoptr (GError) error = NULL;
  g_autofree char *text = NULL, *subject = NULL;
  g_auto (GStrv) lines = NULL;

  g_file_get_contents (path, &text, NULL, &error);
  g_assert_no_error (error);
  lines = g_strsplit (text, "\n", -1);
  for (guint i = 0; lines[i]; i++) {
    g_auto (GStrv) cells = g_strsplit (lines[i], "|", -1);

    if (g_str_has_prefix (lines[i], "##")) {
      g_free (subject);
      subject = g_str_has_prefix (lines[i], "### ") ? g_strdup (lines[i] + 4) : NULL;
    } else if (subject && g_str_has_prefix (lines[i], "| `") && g_strv_length (cells) >= 4) {
      const char *name = g_strdelimit (g_strstrip (cells[1]), "`", ' ');
      g_hash_table_insert (known, g_strdup_printf ("%s.%s", subject, g_strstrip ((char *) name)),
                           g_strdup (g_strstrip (cells[2])));
    }
  }
  return known;
}

/* --- a room with everything, twice: round a tub and round a pan --- */

static void
change_wall (DryWall *wall, gpointer data)
{
  wall->exterior = TRUE;
  wall->plane_error = wall->plumb_error = wall->square_error = DRY_INCH / 8;
  wall->lining = DRY_INCH / 2;
}

static void
change_tile (DryFinish *finish, gpointer data)
{
  finish->tiled = TRUE;
  finish->tile = data;
  finish->pattern = DRY_PATTERN_OFFSET;
  finish->offset = 0.5;
}

static void
change_year (DryJob *job, gpointer data)
{
  job->year_built = 1950;
}

static void
change_joists (DryRoom *room, gpointer data)
{
  room->joist_spacing = INCH (16);
}

static DryProject *
add_everything (DryProject *project)
{
  const char *tile = NULL;
  const DryPart parts[] = {
      {.kind = DRY_PART_NICHE,
       .u = INCH (24),
       .z = INCH (70),
       .width = INCH (11),
       .height = INCH (14),
       .depth = INCH (3),
       .site_built = TRUE},
      {.kind = DRY_PART_VALVE,
       .u = INCH (8),
       .z = INCH (40),
       .width = INCH (6),
       .height = INCH (6),
       .hole = INCH (3),
       .trim_min = INCH (1),
       .trim_max = INCH (2)},
      {.kind = DRY_PART_SPOUT,
       .u = INCH (8),
       .z = INCH (21),
       .width = INCH (3),
       .height = INCH (3),
       .hole = INCH (1)},
      {.kind = DRY_PART_SHOWER_HEAD,
       .u = INCH (8),
       .z = INCH (80),
       .width = INCH (3),
       .height = INCH (3),
       .hole = INCH (1),
       .flow_lpm = 6},
      {.kind = DRY_PART_HAND_SHOWER,
       .u = INCH (22),
       .z = INCH (60),
       .width = INCH (3),
       .height = INCH (3),
       .hole = INCH (1),
       .flow_lpm = 6},
      {.kind = DRY_PART_GRAB_BAR,
       .u = INCH (30),
       .z = INCH (34),
       .width = INCH (20),
       .height = INCH (1.25),
       .depth = INCH (3)},
      {.kind = DRY_PART_BENCH,
       .u = INCH (25),
       .z = INCH (24),
       .width = INCH (12),
       .height = INCH (2),
       .depth = INCH (15),
       .fold_down = TRUE},
      {.kind = DRY_PART_GLASS,
       .u = INCH (28),
       .z = INCH (16),
       .width = INCH (24),
       .height = INCH (60),
       .depth = INCH (0.375)},
      {.kind = DRY_PART_PIPE,
       .u = INCH (30),
       .z = INCH (20),
       .width = INCH (30),
       .height = INCH (0.75),
       .depth = INCH (0.75)},
  };
  const char places[] = "neeeennen";
  const DryOpening window = {.kind = DRY_OPENING_WINDOW,
                             .u = INCH (45),
                             .z = INCH (60),
                             .width = INCH (12),
                             .height = INCH (20)};
  const DryOpening door = {
      .kind = DRY_OPENING_DOOR, .u = INCH (15), .width = INCH (28), .height = INCH (80)};

  for (guint i = 0; i < G_N_ELEMENTS (parts); i++)
    project = rule_room_add_part (project, places[i], parts[i]);
  project = rule_room_add_opening (project, 'n', window);
  project = rule_room_add_opening (project, 's', door);
  for (const char *wall = "nesw"; *wall; wall++)
    project = rule_room_set_wall (project, *wall, change_wall, NULL);
  for (guint i = 0; i < dry_catalog_get_n_items (dry_test_catalog ()) && !tile; i++) {
    const DryItem *item = dry_catalog_get_item_at (dry_test_catalog (), i);
    if (item->kind == DRY_ITEM_TILE && item->tile_mass > 0)
      tile = item->id;
  }
  project = rule_room_set_finish (project, change_tile, (gpointer) tile);
  project = rule_room_set_room (project, change_joists, NULL);
  project = rule_room_set_fields (
      project,
      "job.saw=36in job.grinding_hours=1 room.fan_litres_per_second=25 room.toilet_side=15in "
      "room.toilet_front=21in room.light_above=8ft room.outlet_away=3ft "
      "room.hot_water_celsius=45 room.shower_front=24in room.timber_floor=1 "
      "room.floor_joist_depth=7.25in room.floor_joist_spacing=16in "
      "room.floor_joist_span=10ft room.floor_joist_megapascals=9650 room.floor_tile=2in "
      "room.floor_dcof=0.5 finish.variation=1mm finish.trim=9mm finish.mortar_coverage=95 "
      "finish.membrane_litres_used=8 finish.tiles_ordered=90 finish.niche_tolerance=5mm "
      "finish.grouted_after_hours=24 finish.showered_after_hours=72 basin.floor_slope=0.0208 "
      "basin.site_built=1 "
      "basin.liner=1 basin.liner_turn_up=3in");
  return rule_room_set_job (project, change_year, NULL);
}

static void
collect (GHashTable *produced, DryProject *project)
{
  g_autoptr (DryPlan) plan = rule_room_plan (project);

  for (guint i = 0; i < plan->measures->n; i++)
    for (guint j = 0; j < plan->measures->items[i].n_measures; j++) {
      const DryMeasure *measure = &plan->measures->items[i].measures[j];
      g_hash_table_insert (produced,
                           g_strdup_printf ("%s.%s", plan->measures->items[i].kind, measure->name),
                           measure->kind == DRY_MEASURE_LENGTH   ? (gpointer) "length"
                           : measure->kind == DRY_MEASURE_NUMBER ? (gpointer) "number"
                                                                 : (gpointer) "yes/no");
    }
  dry_project_unref (project);
}

/* One off its stud and next to a stagger, one where there is no board. */
static DryProject *
wish_seams (DryProject *project)
{
  const DrySeamWish seams[] = {
      {.level = TRUE, .at = INCH (50), .through = INCH (25)},
      {.level = TRUE, .at = INCH (50), .through = INCH (36)},
      {.level = TRUE, .at = INCH (50), .through = INCH (50)},
      {.at = INCH (32), .through = INCH (52)},
      {.at = INCH (40), .through = INCH (48)},
      {.at = INCH (32), .through = INCH (4)},
  };

  for (guint i = 0; i < G_N_ELEMENTS (seams); i++) {
    DrySeamWish seam = seams[i];
    DryProject *next;

    seam.wall = dry_test_wall (project, 'n');
    next = dry_edit_set_seam (project, dry_test_room (project), &seam, NULL, NULL);
    g_assert_nonnull (next);
    dry_project_unref (project);
    project = next;
  }
  return project;
}

static GHashTable *
produce_measures (void)
{
  static const char *const SYSTEMS[] = {"cement-liquid", "foam-bands", "glass-mat-liquid"};
  GHashTable *produced = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);

  for (guint i = 0; i < G_N_ELEMENTS (SYSTEMS); i++)
    collect (produced, add_everything (rule_room_alcove (SYSTEMS[i], "us-residential")));
  collect (produced, wish_seams (rule_room_alcove ("cement-liquid", "us-residential")));
  collect (produced, wish_seams (dry_test_furnished_alcove ("cement-liquid")));
  {
    DryPart spout = {.kind = DRY_PART_SPOUT,
                     .u = INCH (20),
                     .z = INCH (44),
                     .width = INCH (2),
                     .height = INCH (2),
                     .hole = INCH (1)};
    collect (produced, wish_seams (rule_room_add_part (
                           rule_room_alcove ("cement-liquid", "us-residential"), 'n', spout)));
  }
  collect (produced, add_everything (rule_room_shower (INCH (60), INCH (34))));
  /* Open to the room, and a half wall. */
  collect (produced, rule_room_set_fields (add_everything (rule_room_shower (INCH (60), INCH (34))),
                                           "basin.height=0.25in wall.e.height=42in"));
  collect (produced, rule_room_half_walls (40, 30, 36));
  /* Longer than any sheet, so that there are upright seams. */
  collect (produced, rule_room_shower (INCH (140), INCH (34)));
  return produced;
}

static void
test_documented (void)
{
  g_autoptr (GHashTable) known = read_documentation ();
  g_autoptr (GHashTable) produced = produce_measures ();
  GHashTableIter iter;
  gpointer name, kind;

  g_assert_cmpuint (g_hash_table_size (known), >, 150);
  g_hash_table_iter_init (&iter, produced);
  while (g_hash_table_iter_next (&iter, &name, &kind)) {
    const char *told = g_hash_table_lookup (known, name);
    if (!told || !g_str_has_prefix (told, kind))
      g_error ("%s is a %s; docs/measures.md says %s", (char *) name, (char *) kind, told);
  }
}

static void
test_produced (void)
{
  g_autoptr (GHashTable) known = read_documentation ();
  g_autoptr (GHashTable) produced = produce_measures ();
  GHashTableIter iter;
  gpointer name;

  g_hash_table_iter_init (&iter, known);
  while (g_hash_table_iter_next (&iter, &name, NULL))
    /* No shipped board says what tile it carries; a firm's may. */
    if (!g_hash_table_contains (produced, name) && strcmp (name, "tile.system-mass") != 0)
      g_error ("docs/measures.md tells of %s, which nothing produces", (char *) name);
}

/* The table that rules of a firm are checked against is the page, no more and no less. */
static void
test_names (void)
{
  static const char *const KINDS[] = {[DRY_MEASURE_LENGTH] = "length",
                                      [DRY_MEASURE_NUMBER] = "number",
                                      [DRY_MEASURE_BOOLEAN] = "yes/no"};
  g_autoptr (GHashTable) known = read_documentation ();
  g_autoptr (GError) error = NULL;
  guint n;
  const DryMeasureName *names = dry_measure_names (&n);

  g_assert_cmpuint (n, ==, g_hash_table_size (known));
  for (guint i = 0; i < n; i++) {
    g_autofree char *name = g_strdup_printf ("%s.%s", names[i].subject, names[i].measure);
    const char *told = g_hash_table_lookup (known, name);
    if (!told || !g_str_has_prefix (told, KINDS[names[i].kind]))
      g_error ("%s is a %s; docs/measures.md says %s", name, KINDS[names[i].kind], told);
  }
  for (guint i = 0; i < dry_catalog_get_n_rule_packs (dry_test_catalog ()); i++) {
    g_assert_true (
        dry_rule_names_check (dry_catalog_get_rule_pack_at (dry_test_catalog (), i), &error));
    g_assert_no_error (error);
  }
}

/* A rule with a name nothing has would be silent for ever. */
static void
test_wrong_names (void)
{
  static const struct {
    const char *subject, *measure, *other, *edit;
    DryLimitKind kind;
    const char *says; /* NULL: right */
  } CASES[] = {
      {"niche", "bottom", NULL, NULL, DRY_LIMIT_LENGTH, NULL},
      {"wall", "stud-spacing", "system-stud-spacing", "wall.closer-studs", DRY_LIMIT_MEASURE, NULL},
      {"nich", "bottom", NULL, NULL, DRY_LIMIT_LENGTH, "there is no subject “nich”"},
      {"niche", "bottum", NULL, NULL, DRY_LIMIT_LENGTH, "“niche” has no measure “bottum”"},
      {"niche", "bottom", NULL, NULL, DRY_LIMIT_NUMBER, "“bottom” is a length"},
      {"niche", "bottom", NULL, NULL, DRY_LIMIT_BOOLEAN, "“bottom” is a length"},
      {"basin", "inside-area", NULL, NULL, DRY_LIMIT_LENGTH, "“inside-area” is a number"},
      {"order", "flood-test", NULL, NULL, DRY_LIMIT_NUMBER, "“flood-test” is yes or no"},
      {"wall", "stud-spacing", "system-spacing", NULL, DRY_LIMIT_MEASURE,
       "“wall” has no measure “system-spacing”"},
      {"order", "hours-to-tile", "flood-test", NULL, DRY_LIMIT_MEASURE, "not to be compared"},
      {"niche", "bottom", NULL, "niche.to-the-moon", DRY_LIMIT_LENGTH,
       "there is no edit “niche.to-the-moon”"},
  };

  for (guint i = 0; i < G_N_ELEMENTS (CASES); i++) {
    DryCondition condition = {
        .measure = CASES[i].measure, .other = CASES[i].other, .kind = CASES[i].kind, .factor = 1};
    DryRemedy remedy = {"Do it", CASES[i].edit};
    DryRule rule = {.id = "ours",
                    .pack = "firm",
                    .subject = CASES[i].subject,
                    .require = &condition,
                    .n_require = 1,
                    .remedies = &remedy,
                    .n_remedies = 1};
    DryRule theirs = rule;
    DryRulePack pack = {.id = "firm", .file = "firm.json", .rules = &rule, .n_rules = 1};
    g_autoptr (GError) error = NULL;

    g_assert_true (dry_rule_names_check (&pack, &error) == (CASES[i].says == NULL));
    if (CASES[i].says) {
      g_assert_error (error, DRY_ERROR, DRY_ERROR_REFERENCE);
      g_assert_nonnull (strstr (error->message, "firm.json: rule “ours”: "));
      g_assert_nonnull (strstr (error->message, CASES[i].says));
    }
    /* What another pack says wrong is for that one to be told. */
    theirs.pack = "below";
    pack.rules = &theirs;
    g_assert_true (dry_rule_names_check (&pack, NULL));
  }
}

static void
check_condition (GHashTable *known, const DryRule *rule, const DryCondition *condition)
{
  static const char *const KINDS[] = {
      [DRY_LIMIT_NUMBER] = "number", [DRY_LIMIT_LENGTH] = "length", [DRY_LIMIT_BOOLEAN] = "yes/no"};
  g_autofree char *name = g_strdup_printf ("%s.%s", rule->subject, condition->measure);
  const char *kind = g_hash_table_lookup (known, name);

  if (!kind)
    g_error ("Rule “%s” uses %s, which is not documented", rule->id, name);
  if (condition->kind == DRY_LIMIT_MEASURE) {
    g_autofree char *other = g_strdup_printf ("%s.%s", rule->subject, condition->other);
    const char *other_kind = g_hash_table_lookup (known, other);
    if (!other_kind || strncmp (kind, other_kind, 6) != 0)
      g_error ("Rule “%s” compares %s with %s", rule->id, name, other);
  } else if (!g_str_has_prefix (kind, KINDS[condition->kind]))
    g_error ("Rule “%s” compares %s with a %s", rule->id, name, KINDS[condition->kind]);
}

/* A figure without a source must say so, and one from memory too. */
static void
check_source (const DrySource *source)
{
  g_assert_true (source->certainty == DRY_CERTAINTY_COMMON_PRACTICE ||
                 !strstr (source->text, "no source") || source->certainty == DRY_CERTAINTY_MEMORY);
  if (source->certainty == DRY_CERTAINTY_MEMORY)
    g_assert_nonnull (strstr (source->text, "memory"));
}

static void
check_known (GHashTable *known, const DryRule *rule)
{
  for (guint j = 0; j < rule->n_when; j++)
    check_condition (known, rule, &rule->when[j]);
  for (guint j = 0; j < rule->n_require; j++)
    check_condition (known, rule, &rule->require[j]);
  check_source (&rule->source);
}

static void
test_rules (gconstpointer data)
{
  g_autoptr (GHashTable) known = read_documentation ();
  const DryRulePack *pack = data;
  g_autoptr (GHashTable) numbers = g_hash_table_new (NULL, NULL);

  for (guint i = 0; i < pack->n_rules; i++) {
    g_hash_table_add (numbers, GINT_TO_POINTER (pack->rules[i].number));
    check_known (known, &pack->rules[i]);
  }
  for (guint c = 0; c < pack->n_choices; c++)
    for (guint o = 0; o < pack->choices[c].n_options; o++) {
      const DryRuleOption *option = &pack->choices[c].options[o];
      check_source (&option->source);
      for (guint i = 0; i < option->n_rules; i++)
        check_known (known, &option->rules[i]);
    }
  /* The warnings of the trade list that a document can trigger, 0 not among them. */
  g_hash_table_remove (numbers, GINT_TO_POINTER (0));
  g_assert_cmpuint (g_hash_table_size (numbers), >=, 40);
}

/* --- values told by hand --- */

static void
change_tub (DryBasin *basin, gpointer data)
{
  basin->length = INCH (60);
}

static void
change_lean (DryWall *wall, gpointer data)
{
  wall->plumb_error = INCH (0.96);
}

static void
test_opening (void)
{
  g_autoptr (DryProject) project =
      rule_room_set_basin (rule_room_alcove ("foam-bands", "us-residential"), change_tub, NULL);
  g_autoptr (DryPlan) plan = rule_room_plan (project);
  g_autoptr (DryPlan) leaning = NULL;

  g_assert_cmpint (rule_room_measure (plan, "basin", "opening")->length, ==, INCH (60));
  /* 0.96 in over 96 in leans 0.15 in at a rim of 15 in. */
  project = rule_room_set_wall (g_steal_pointer (&project), 'e', change_lean, NULL);
  leaning = rule_room_plan (project);
  g_assert_cmpint (rule_room_measure (leaning, "basin", "opening")->length, ==,
                   INCH (60) - INCH (0.15));
}

static void
change_tub_length (DryBasin *basin, gpointer data)
{
  basin->length = *(DryLength *) data;
}

/* The tightest of three widths is the opening and the finding says which; the rule asks a tub of
 * 60 in, respectively 1500 mm, for at least its own length. */
static void
test_three_widths (void)
{
  static const struct {
    double tub, back, middle, front; /* in */
    const char *governs;             /* NULL: all alike */
    gboolean finding;
  } rows[] = {
      {60, 60, 0, 60, NULL, FALSE},
      {60, 60.25, 60.125, 60, "at the front, governs", FALSE},
      {60, 60.25, 0, 59.75, "at the front, governs", TRUE},
      {60, 59.75, 60, 60.25, "at the back, governs", TRUE},
      {60, 60.25, 59.75, 60.25, "in the middle, governs", TRUE},
      {60, 60, 60.25, 60, "at the back, governs", FALSE},
      {1500 / 25.4, 1510 / 25.4, 1505 / 25.4, 1501 / 25.4, "at the front, governs", FALSE},
      {1500 / 25.4, 1510 / 25.4, 1505 / 25.4, 1500 / 25.4, "at the front, governs", FALSE},
      {1500 / 25.4, 1510 / 25.4, 1499 / 25.4, 1502 / 25.4, "in the middle, governs", TRUE},
  };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++) {
    double least = MIN (rows[i].back, rows[i].front);
    DryLength tub = INCH (rows[i].tub);
    g_autoptr (GError) error = NULL;
    g_autoptr (DryProject) project = rule_room_set_basin (
        rule_room_alcove ("foam-bands", "us-residential"), change_tub_length, &tub);
    g_autoptr (DryProject) typed = dry_edit_set_widths (
        project, dry_test_room (project), dry_test_wall (project, 'n'), INCH (rows[i].back),
        INCH (rows[i].middle), INCH (rows[i].front), &error);
    g_autoptr (DryPlan) plan = NULL;
    const DryMeasure *opening;

    g_assert_no_error (error);
    if (rows[i].middle > 0)
      least = MIN (least, rows[i].middle);
    plan = rule_room_plan (typed);
    opening = rule_room_measure (plan, "basin", "opening");
    g_assert_cmpint (ABS (opening->length - INCH (least)), <=, 2);
    if (rows[i].governs)
      g_assert_nonnull (strstr (opening->how, rows[i].governs));
    else
      g_assert_null (strstr (opening->how, "governs"));
    g_assert_cmpint (rule_room_find (plan, "opening-too-small") != NULL, ==, rows[i].finding);
  }
}

static void
test_niche (void)
{
  g_autoptr (DryProject) project = dry_test_furnished_alcove ("foam-bands");
  g_autoptr (DryPlan) plan = rule_room_plan (project);

  g_assert_cmpint (rule_room_measure (plan, "niche", "bottom")->length, ==, INCH (48));
  g_assert_cmpint (rule_room_measure (plan, "niche", "body")->length, ==,
                   INCH (12) + 2 * plan->context.build_up.total);
  g_assert_cmpfloat (rule_room_measure (plan, "niche", "studs-cut")->number, ==, 0);
  g_assert_cmpint (rule_room_measure (plan, "niche", "cavity")->length, ==, INCH (3.5));
  g_assert_cmpint (rule_room_measure (plan, "spout", "above-rim")->length, ==, INCH (6));
  /* Hole of 3 in round 15 in, studs at 7 and 23 in: 7-3/4 to 13-1/2 in are free. */
  g_assert_cmpint (rule_room_measure (plan, "valve", "stud-clear")->length, ==, INCH (5.75));
}

static void
test_cancelled (void)
{
  g_autoptr (DryProject) project = dry_test_furnished_alcove ("foam-bands");
  g_autoptr (DryPlan) plan = rule_room_plan (project);
  g_autoptr (GCancellable) cancellable = g_cancellable_new ();
  g_autoptr (GError) error = NULL;
  DryPlanContext context = plan->context;

  context.cancellable = cancellable;
  g_cancellable_cancel (cancellable);
  g_assert_null (dry_measures_compute (&context, plan, &error));
  g_assert_error (error, DRY_ERROR, DRY_ERROR_CANCELLED);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/measures/documented", test_documented);
  g_test_add_func ("/measures/produced", test_produced);
  g_test_add_func ("/measures/names", test_names);
  g_test_add_func ("/measures/wrong-names", test_wrong_names);
  for (guint i = 0; i < dry_catalog_get_n_rule_packs (dry_test_catalog ()); i++) {
    const DryRulePack *pack = dry_catalog_get_rule_pack_at (dry_test_catalog (), i);
    g_autofree char *path = g_strdup_printf ("/measures/rules/%s", pack->id);
    g_test_add_data_func (path, pack, test_rules);
  }
  g_test_add_func ("/measures/opening", test_opening);
  g_test_add_func ("/measures/three-widths", test_three_widths);
  g_test_add_func ("/measures/niche", test_niche);
  g_test_add_func ("/measures/cancelled", test_cancelled);
  return g_test_run ();
}
