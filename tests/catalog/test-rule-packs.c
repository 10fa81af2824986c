/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Reading rule packs, and joining them over "extends".
 * The packs here are made up for the test; the shipped ones are judged where findings are. */
#include "scratch.h"

#include <string.h>

#define HEAD(id, extends)                                                                          \
  "{\"format\": \"drybay-rules\", \"version\": 1, \"id\": \"" id                                   \
  "\", \"name\": \"n\", \"jurisdiction\": \"none\", \"edition\": \"test\", \"language\": \"en\", " \
  "\"extends\": " extends ", \"rules\": ["
#define RULE_WITH(id, title, extra, require)                                                       \
  "{\"id\": \"" id "\", \"topic\": \"t\", \"subject\": \"wall\", \"severity\": \"fix\", "          \
  "\"title\": \"" title "\", \"why\": \"w\", " extra "\"require\": [" require                      \
  "], \"remedies\": [{\"text\": \"do\", \"edit\": \"wall.do\"}], "                                 \
  "\"source\": \"s\", \"certainty\": \"memory\"}"
#define YES               "{\"measure\": \"m\", \"yes\": true}"
#define RULE(id, title)   RULE_WITH (id, title, "", YES)
#define ONE_RULE(require) HEAD ("p", "null") RULE_WITH ("r", "t", "", require) "]}"

static DryCatalog *
load_packs (GError **error, const char *first, ...)
{
  g_autoptr (Scratch) scratch = scratch_new ();
  const char *text = first;
  va_list arguments;

  va_start (arguments, first);
  for (guint i = 0; text; i++, text = va_arg (arguments, const char *)) {
    g_autofree char *name = g_strdup_printf ("pack-%u.json", i);
    scratch_write (scratch, "rules", name, text, -1);
  }
  va_end (arguments);
  return scratch_load (scratch, error);
}

static const char *
list_rules (const DryRulePack *pack, GString *out)
{
  g_string_truncate (out, 0);
  for (guint i = 0; i < pack->n_rules; i++)
    g_string_append_printf (out, "%s%s=%s@%s", i ? " " : "", pack->rules[i].id,
                            pack->rules[i].title, pack->rules[i].pack);
  return out->str;
}

/* Own rules replace in place, take out, and come after; packs may be read in any order. */
static void
test_extends (void)
{
  g_autoptr (GString) text = g_string_new (NULL);
  g_autoptr (GError) error = NULL;
  g_autoptr (DryCatalog) catalog = load_packs (
      &error,
      HEAD ("city", "\"state\"")
          RULE ("b", "city") ",{\"id\": \"c\", \"off\": true}," RULE ("e", "city") "]}",
      HEAD ("state", "\"base\"") RULE ("d", "state") "," RULE ("a", "state") "]}",
      HEAD ("base", "null") RULE ("a", "base") "," RULE ("b", "base") "," RULE ("c", "base") "]}",
      NULL);

  g_assert_no_error (error);
  g_assert_cmpuint (dry_catalog_get_n_rule_packs (catalog), ==, 3);
  g_assert_cmpstr (list_rules (dry_catalog_get_rule_pack (catalog, "base"), text), ==,
                   "a=base@base b=base@base c=base@base");
  g_assert_cmpstr (list_rules (dry_catalog_get_rule_pack (catalog, "state"), text), ==,
                   "a=state@state b=base@base c=base@base d=state@state");
  g_assert_cmpstr (list_rules (dry_catalog_get_rule_pack (catalog, "city"), text), ==,
                   "a=state@state b=city@city d=state@state e=city@city");
  g_assert_cmpstr (dry_catalog_get_rule_pack (catalog, "city")->extends, ==, "state");
  g_assert_null (dry_catalog_get_rule_pack (catalog, "base")->extends);
  g_assert_null (dry_catalog_get_rule_pack (catalog, "town"));
}

#define CHOICE(id, usual)                                                                          \
  "{\"id\": \"" id "\", \"title\": \"t\", \"why\": \"w\", \"usual\": \"" usual                     \
  "\", \"options\": [{\"id\": \"low\", \"title\": \"l\", \"source\": \"s\", "                      \
  "\"certainty\": \"memory\", \"rules\": [" RULE (                                                 \
      "a", "low") "]}, "                                                                           \
                  "{\"id\": \"none\", \"title\": \"n\", \"source\": \"s\", \"certainty\": "        \
                  "\"memory\", \"rules\": []}, {\"id\": \"high\", \"title\": \"h\", "              \
                  "\"source\": \"s\", \"certainty\": \"memory\", \"rules\": [" RULE (              \
                      "a", "high") "," RULE ("z", "high") "]}]}"
#define WITH_CHOICE(id, extends, choice)                                                           \
  "{\"format\": \"drybay-rules\", \"version\": 1, \"id\": \"" id                                   \
  "\", \"name\": \"n\", \"jurisdiction\": \"X\", \"edition\": \"test\", \"language\": \"en\", "    \
  "\"citations\": \"de\", \"extends\": " extends ", \"choices\": [" choice "], \"rules\": ["

/* The usual option stands until another is picked; words that fit nothing count for nothing; a pack
 * above that states the rule itself settles the matter. */
static void
test_choices (void)
{
  g_autoptr (GString) text = g_string_new (NULL);
  g_autoptr (GError) error = NULL;
  g_autoptr (DryArena) arena = dry_arena_new ();
  g_autoptr (DryCatalog) catalog =
      load_packs (&error, WITH_CHOICE ("p", "\"base\"", CHOICE ("k", "low")) RULE ("b", "p") "]}",
                  HEAD ("base", "null") RULE ("a", "base") "," RULE ("c", "base") "]}",
                  HEAD ("above", "\"p\"") RULE ("d", "above") "]}",
                  HEAD ("firm", "\"p\"") RULE ("a", "firm") "]}",
                  HEAD ("off", "\"p\"") "{\"id\": \"a\", \"off\": true}]}", NULL);
  const DryRulePack *pack;
  static const struct {
    const char *picks, *rules, *again;
    guint option;
  } ROWS[] = {
      {NULL, "c=base@base a=low@p b=p@p", NULL, 0},
      {"k=low", "c=base@base a=low@p b=p@p", NULL, 0},
      {"k=none", "c=base@base b=p@p", "k=none", 1},
      {"k=high", "c=base@base a=high@p z=high@p b=p@p", "k=high", 2},
      {"  x=1  k=high   y=2 ", "c=base@base a=high@p z=high@p b=p@p", "x=1 y=2 k=high", 2},
      {"k=highest kk=high k", "c=base@base a=low@p b=p@p", "kk=high", 0},
      {"k=none k=high", "c=base@base a=high@p z=high@p b=p@p", "k=high", 2},
      {"", "c=base@base a=low@p b=p@p", NULL, 0},
  };

  g_assert_no_error (error);
  pack = dry_catalog_get_rule_pack (catalog, "p");
  g_assert_cmpstr (pack->citations, ==, "de");
  g_assert_cmpuint (pack->n_choices, ==, 1);
  for (guint i = 0; i < G_N_ELEMENTS (ROWS); i++) {
    g_autofree char *again = NULL;
    g_assert_cmpstr (list_rules (dry_rule_pack_apply (pack, ROWS[i].picks, arena), text), ==,
                     ROWS[i].rules);
    g_assert_cmpuint (dry_rule_choice_get_picked (&pack->choices[0], ROWS[i].picks), ==,
                      ROWS[i].option);
    again = dry_rule_choice_pick (&pack->choices[0], ROWS[i].picks, ROWS[i].option);
    g_assert_cmpstr (again, ==, ROWS[i].again);
  }
  g_assert_true (dry_rule_pack_apply (pack, "k=high", arena)->rules[1].wished);
  g_assert_false (pack->rules[1].wished);
  g_assert_cmpuint (dry_catalog_get_rule_pack (catalog, "above")->n_choices, ==, 1);
  g_assert_cmpstr (list_rules (dry_rule_pack_apply (dry_catalog_get_rule_pack (catalog, "above"),
                                                    "k=none", arena),
                               text),
                   ==, "c=base@base b=p@p d=above@above");
  g_assert_cmpuint (dry_catalog_get_rule_pack (catalog, "firm")->n_choices, ==, 0);
  g_assert_cmpstr (list_rules (dry_catalog_get_rule_pack (catalog, "firm"), text), ==,
                   "c=base@base a=firm@firm b=p@p");
  g_assert_cmpstr (list_rules (dry_catalog_get_rule_pack (catalog, "off"), text), ==,
                   "c=base@base b=p@p");
}

#define TWO_OPTIONS(first, first_rules, second, second_rules)                                      \
  "{\"id\": \"k\", \"title\": \"t\", \"why\": \"w\", \"usual\": \"low\", \"options\": [{\"id\": "  \
  "\"" first                                                                                       \
  "\", \"title\": \"l\", \"source\": \"s\", \"certainty\": \"memory\", \"rules\": [" first_rules   \
  "]}, {\"id\": \"" second "\", \"title\": \"h\", \"source\": \"s\", \"certainty\": \"memory\", "  \
  "\"rules\": [" second_rules "]}]}"

/* Two choices picked at once, one with an option that is not there; and an answer that is none. */
static void
test_two_choices (void)
{
  g_autoptr (GString) text = g_string_new (NULL);
  g_autoptr (GError) error = NULL;
  g_autoptr (DryArena) arena = dry_arena_new ();
  g_autoptr (DryCatalog) catalog = load_packs (
      &error,
      WITH_CHOICE ("p", "null",
                   TWO_OPTIONS ("low", RULE ("x", "low"), "high",
                                RULE ("x", "high")) ","
                                                    "{\"id\": \"m\", \"title\": \"t\", \"why\": "
                                                    "\"w\", \"usual\": \"no\", \"options\": ["
                                                    "{\"id\": \"no\", \"title\": \"n\", "
                                                    "\"source\": \"s\", \"certainty\": \"memory\", "
                                                    "\"rules\": []}, {\"id\": \"yes\", \"title\": "
                                                    "\"y\", \"source\": \"s\", \"certainty\": "
                                                    "\"memory\", \"rules\": [" RULE (
                                                        "y", "yes") "]}]}") RULE ("b", "p") "]}",
      NULL);
  const DryRulePack *pack;
  g_autofree char *none = NULL, *both = NULL;

  g_assert_no_error (error);
  pack = dry_catalog_get_rule_pack (catalog, "p");
  g_assert_cmpuint (pack->n_choices, ==, 2);
  g_assert_true (dry_rule_pack_get_choice (pack, "m") == &pack->choices[1]);
  g_assert_null (dry_rule_pack_get_choice (pack, "n"));
  g_assert_cmpstr (list_rules (dry_rule_pack_apply (pack, "m=yes k=high", arena), text), ==,
                   "x=high@p b=p@p y=yes@p");
  g_assert_true (dry_rule_pack_apply (pack, "m=no k=low", arena) == pack);
  none = dry_rule_choice_pick (&pack->choices[0], "m=yes k=high", 99);
  g_assert_cmpstr (none, ==, "m=yes");
  both = dry_rule_choice_pick (&pack->choices[0], "m=yes k=low", 1);
  g_assert_cmpstr (both, ==, "m=yes k=high");
}

static void
test_bad_choices (void)
{
  static const struct {
    const char *choice, *part;
  } ROWS[] = {
      {CHOICE ("k", "lower"), "choices[0].usual: “lower”"},
      {CHOICE ("k", "low") "," CHOICE ("k", "low"), "choices[1].id: “k”"},
      {"{\"id\": \"k\", \"title\": \"t\", \"why\": \"w\", \"usual\": \"a\", \"options\": []}",
       "choices[0].options"},
      {TWO_OPTIONS ("low", "", "low", ""), "choices[0].options[1].id: “low”"},
      {TWO_OPTIONS ("low", "7", "high", ""), "choices[0].options[0].rules[0]"},
      {TWO_OPTIONS ("low", "{}, 7", "high", ""), "choices[0].options[0].rules[0]"},
      {TWO_OPTIONS ("Low", "", "high", ""), "choices[0].options[0].id"},
      {"7, " CHOICE ("k", "low"), "choices[0]"},
      {CHOICE ("j", "low") ", 7, " CHOICE ("k", "low"), "choices[1]"},
  };

  for (guint i = 0; i < G_N_ELEMENTS (ROWS); i++) {
    g_autofree char *pack = g_strdup_printf (
        "{\"format\": \"drybay-rules\", \"version\": 1, \"id\": \"p\", \"name\": \"n\", "
        "\"jurisdiction\": \"X\", \"edition\": \"e\", \"language\": \"en\", \"extends\": null, "
        "\"choices\": [%s], \"rules\": []}",
        ROWS[i].choice);
    g_autoptr (GError) error = NULL;
    g_autoptr (DryCatalog) catalog = load_packs (&error, pack, NULL);

    g_assert_null (catalog);
    if (!strstr (error->message, ROWS[i].part))
      g_test_fail_printf ("“%s” does not tell “%s”", error->message, ROWS[i].part);
  }
}

static void
test_conditions (void)
{
  static const char WHEN[] = "\"number\": 19, \"when\": [{\"measure\": \"wet\", \"yes\": false}, "
                             "{\"measure\": \"n\", \"is\": \">\", \"value\": -2.5}], ";
  g_autofree char *text = g_strconcat (
      HEAD ("p", "null") "{\"id\": \"r\", \"topic\": \"t\", \"subject\": \"s\", \"severity\": "
                         "\"stop\", \"title\": \"t\", \"why\": \"w\", ",
      WHEN,
      "\"require\": [{\"measure\": \"bottom\", \"is\": \"<=\", \"mm\": 406.4}, "
      "{\"measure\": \"a_b.c\", \"is\": \"!=\", \"other\": \"d\", \"factor\": 0.5, \"plus_mm\": "
      "-6.35}, {\"measure\": \"e\", \"is\": \"!=\", \"yes\": true}], \"remedies\": [{\"text\": "
      "\"do\"}], \"source\": \"s\", \"certainty\": \"published\"}]}",
      NULL);
  g_autoptr (GError) error = NULL;
  g_autoptr (DryCatalog) catalog = load_packs (&error, text, NULL);
  const DryRule *rule;

  g_assert_no_error (error);
  rule = &dry_catalog_get_rule_pack (catalog, "p")->rules[0];
  g_assert_cmpint (rule->number, ==, 19);
  g_assert_cmpint (rule->severity, ==, DRY_SEVERITY_STOP);
  g_assert_cmpint (rule->source.certainty, ==, DRY_CERTAINTY_PUBLISHED);
  g_assert_cmpuint (rule->n_when, ==, 2);
  g_assert_cmpint (rule->when[0].kind, ==, DRY_LIMIT_BOOLEAN);
  g_assert_cmpint (rule->when[0].compare, ==, DRY_COMPARE_EQUAL);
  g_assert_cmpfloat_with_epsilon (rule->when[0].number, 0, 1e-12);
  g_assert_cmpint (rule->when[1].compare, ==, DRY_COMPARE_GREATER);
  g_assert_cmpfloat_with_epsilon (rule->when[1].number, -2.5, 1e-12);
  g_assert_cmpuint (rule->n_require, ==, 3);
  g_assert_cmpint (rule->require[0].kind, ==, DRY_LIMIT_LENGTH);
  g_assert_cmpint (rule->require[0].compare, ==, DRY_COMPARE_AT_MOST);
  g_assert_cmpint (rule->require[0].length, ==, 16 * DRY_INCH);
  g_assert_cmpfloat_with_epsilon (rule->require[0].factor, 1, 1e-12);
  g_assert_cmpint (rule->require[1].kind, ==, DRY_LIMIT_MEASURE);
  g_assert_cmpstr (rule->require[1].other, ==, "d");
  g_assert_cmpfloat_with_epsilon (rule->require[1].factor, 0.5, 1e-12);
  g_assert_cmpint (rule->require[1].plus, ==, -DRY_INCH / 4);
  g_assert_cmpint (rule->require[2].compare, ==, DRY_COMPARE_NOT_EQUAL);
  g_assert_cmpfloat_with_epsilon (rule->require[2].number, 1, 1e-12);
  g_assert_cmpuint (rule->n_remedies, ==, 1);
  g_assert_null (rule->remedies[0].edit);
}

static void
test_refusals (void)
{
  static const struct {
    const char *text, *other;
    int code;
    const char *path, *reason;
  } ROWS[] = {
      {ONE_RULE (""), NULL, DRY_ERROR_SCHEMA, "rules[0].require", "at least 1"},
      {ONE_RULE ("{\"measure\": \"m\"}"), NULL, DRY_ERROR_SCHEMA, "rules[0].require[0]",
       "exactly one"},
      {ONE_RULE ("{\"measure\": \"m\", \"is\": \"<\", \"mm\": 1, \"value\": 1}"), NULL,
       DRY_ERROR_SCHEMA, "rules[0].require[0]", "exactly one"},
      {ONE_RULE ("{\"measure\": \"m\", \"is\": \"=<\", \"mm\": 1}"), NULL, DRY_ERROR_SCHEMA,
       "rules[0].require[0].is", ""},
      {ONE_RULE ("{\"measure\": \"m\", \"mm\": 1}"), NULL, DRY_ERROR_SCHEMA, "rules[0].require[0]",
       "is"},
      {ONE_RULE ("{\"measure\": \"m\", \"is\": \"<\", \"yes\": true}"), NULL, DRY_ERROR_SCHEMA,
       "rules[0].require[0].is", "yes or no"},
      {ONE_RULE ("{\"measure\": \"m\", \"is\": \"<\", \"mm\": 1, \"factor\": 2}"), NULL,
       DRY_ERROR_SCHEMA, "rules[0].require[0]", "other"},
      {ONE_RULE ("{\"measure\": \"m\", \"is\": \"<\", \"value\": 1, \"plus_mm\": 2}"), NULL,
       DRY_ERROR_SCHEMA, "rules[0].require[0]", "other"},
      {HEAD ("p", "null") "7, " RULE ("r", "t") "]}", NULL, DRY_ERROR_SCHEMA, "rules[0]", "object"},
      {ONE_RULE ("{\"measure\": \"M\", \"yes\": true}"), NULL, DRY_ERROR_SCHEMA,
       "rules[0].require[0].measure", ""},
      {ONE_RULE ("{\"measure\": \"m\", \"yes\": 1}"), NULL, DRY_ERROR_SCHEMA,
       "rules[0].require[0].yes", ""},
      {HEAD ("p", "null") RULE ("r", "t") "," RULE ("r", "t") "]}", NULL, DRY_ERROR_SCHEMA,
       "rules[1].id", "already"},
      {HEAD ("p", "null") RULE_WITH ("r", "t", "\"level\": 1, ", YES) "]}", NULL, DRY_ERROR_SCHEMA,
       "rules[0]", "level"},
      {HEAD ("p", "null") RULE_WITH ("r", " ", "", YES) "]}", NULL, DRY_ERROR_SCHEMA,
       "rules[0].title", "empty"},
      {HEAD ("p", "null") "{\"id\": \"r\", \"off\": false}]}", NULL, DRY_ERROR_SCHEMA,
       "rules[0].off", ""},
      {HEAD ("p", "null") "{\"id\": \"r\", \"off\": true}]}", NULL, DRY_ERROR_REFERENCE,
       "rules[0].id", "“r”"},
      {HEAD ("p", "\"q\"") "]}", NULL, DRY_ERROR_REFERENCE, "extends", "“q”"},
      {HEAD ("p", "\"p\"") "]}", NULL, DRY_ERROR_REFERENCE, "extends", "circle"},
      {HEAD ("p", "\"q\"") "]}", HEAD ("q", "\"p\"") "]}", DRY_ERROR_REFERENCE, "extends",
       "circle"},
      {HEAD ("p", "null") "]}", HEAD ("p", "null") "]}", DRY_ERROR_SCHEMA, "id", "already"},
      {HEAD ("p", "0") "]}", NULL, DRY_ERROR_SCHEMA, "extends", ""},
      {"[]", NULL, DRY_ERROR_SCHEMA, "", ""},
      {"{}", NULL, DRY_ERROR_SCHEMA, "", "format"},
  };

  for (guint i = 0; i < G_N_ELEMENTS (ROWS); i++) {
    g_autoptr (GError) error = NULL;
    g_autoptr (DryCatalog) catalog = load_packs (&error, ROWS[i].text, ROWS[i].other, NULL);
    g_assert_null (catalog);
    g_assert_error (error, DRY_ERROR, ROWS[i].code);
    g_test_message ("row %u: %s", i, error->message);
    g_assert_nonnull (strstr (error->message, "rules/pack-"));
    g_assert_nonnull (strstr (error->message, ROWS[i].path));
    g_assert_nonnull (strstr (error->message, ROWS[i].reason));
  }
}

/* A chain as long as the folder allows resolves without deep trouble. */
static void
test_long_chain (void)
{
  g_autoptr (Scratch) scratch = scratch_new ();
  g_autoptr (GError) error = NULL;
  g_autoptr (DryCatalog) catalog = NULL;

  for (guint i = 0; i < 200; i++) {
    g_autofree char *name = g_strdup_printf ("p%03u.json", i);
    g_autofree char *below = i < 199 ? g_strdup_printf ("\"p%u\"", i + 1) : g_strdup ("null");
    g_autofree char *text =
        g_strdup_printf (HEAD ("p%u", "%s") RULE ("r%u", "t") "]}", i, below, i);
    scratch_write (scratch, "rules", name, text, -1);
  }
  catalog = scratch_load (scratch, &error);
  g_assert_no_error (error);
  g_assert_cmpuint (dry_catalog_get_rule_pack (catalog, "p0")->n_rules, ==, 200);
  g_assert_cmpstr (dry_catalog_get_rule_pack (catalog, "p0")->rules[0].id, ==, "r199");
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/catalog/rule-packs/extends", test_extends);
  g_test_add_func ("/catalog/rule-packs/choices", test_choices);
  g_test_add_func ("/catalog/rule-packs/two-choices", test_two_choices);
  g_test_add_func ("/catalog/rule-packs/bad-choices", test_bad_choices);
  g_test_add_func ("/catalog/rule-packs/conditions", test_conditions);
  g_test_add_func ("/catalog/rule-packs/refusals", test_refusals);
  g_test_add_func ("/catalog/rule-packs/long-chain", test_long_chain);
  return g_test_run ();
}
