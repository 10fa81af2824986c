/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Reads rule packs as they are written; rule-resolve.c joins them over `extends`.
 * Names of subjects, measures and edits are only checked in form: the plan knows which exist. */
#define G_LOG_DOMAIN "drybay-catalog"
#include "catalog/read.h"
#include "catalog/rule-read.h"

#define MAX_RULES      5000
#define MAX_CONDITIONS 50
#define MAX_NUMBER     1e9

static const char *const SEVERITY_WORDS[] = {"stop", "fix", "advice", NULL};
static const char *const COMPARE_WORDS[] = {"<", "<=", "==", "!=", ">=", ">", NULL};

/* The one thing on the right of a condition; fails when there is none or more than one. */
static DryLimitKind
read_limit_kind (DryJson object)
{
  static const char *const KEYS[] = {[DRY_LIMIT_NUMBER] = "value",
                                     [DRY_LIMIT_LENGTH] = "mm",
                                     [DRY_LIMIT_BOOLEAN] = "yes",
                                     [DRY_LIMIT_MEASURE] = "other"};
  DryLimitKind kind = DRY_LIMIT_NUMBER;
  guint found = 0;

  for (guint i = 0; i < G_N_ELEMENTS (KEYS); i++)
    if (dry_json_is_present (dry_json_opt (object, KEYS[i]))) {
      kind = (DryLimitKind) i;
      found++;
    }
  if (found != 1)
    dry_json_fail (object, DRY_ERROR_SCHEMA, "needs exactly one of “mm”, “value”, “yes”, “other”");
  return kind;
}

/* Of a yes/no condition only == and != make sense, and == may be left out. */
static void
read_compare (DryCondition *condition, DryJson object)
{
  DryJson is = dry_json_opt (object, "is");

  if (condition->kind != DRY_LIMIT_BOOLEAN) {
    condition->compare = (DryCompare) dry_json_choice (dry_json_get (object, "is"), COMPARE_WORDS);
    return;
  }
  condition->compare = (DryCompare) dry_json_choice_or (is, COMPARE_WORDS, DRY_COMPARE_EQUAL);
  if (condition->compare != DRY_COMPARE_EQUAL && condition->compare != DRY_COMPARE_NOT_EQUAL)
    dry_json_fail (is, DRY_ERROR_SCHEMA, "yes or no is compared with “==” or “!=” only");
}

static DryCondition
read_condition (DryJson object, DryArena *arena)
{
  DryCondition condition = {.factor = 1};
  DryJson factor = dry_json_opt (object, "factor");
  DryJson plus = dry_json_opt (object, "plus_mm");

  dry_json_only_keys (object, "measure", "is", "mm", "value", "yes", "other", "factor", "plus_mm",
                      NULL);
  condition.measure = dry_read_measure_name (dry_json_get (object, "measure"), arena);
  if (dry_json_has_failed (object.doc))
    return condition;
  condition.kind = read_limit_kind (object);
  if (dry_json_has_failed (object.doc))
    return condition;
  read_compare (&condition, object);
  if (condition.kind == DRY_LIMIT_LENGTH)
    condition.length =
        dry_json_length (dry_json_get (object, "mm"), -DRY_LENGTH_MAX, DRY_LENGTH_MAX);
  else if (condition.kind == DRY_LIMIT_NUMBER)
    condition.number = dry_json_number (dry_json_get (object, "value"), -MAX_NUMBER, MAX_NUMBER);
  else if (condition.kind == DRY_LIMIT_BOOLEAN)
    condition.number = dry_json_boolean (dry_json_get (object, "yes")) ? 1 : 0;
  else
    condition.other = dry_read_measure_name (dry_json_get (object, "other"), arena);
  if (condition.kind != DRY_LIMIT_MEASURE &&
      (dry_json_is_present (factor) || dry_json_is_present (plus)))
    dry_json_fail (object, DRY_ERROR_SCHEMA, "“factor” and “plus_mm” go with “other” only");
  condition.factor = dry_json_number_or (factor, -MAX_NUMBER, MAX_NUMBER, 1);
  condition.plus = dry_json_length_or (plus, -DRY_LENGTH_MAX, DRY_LENGTH_MAX, 0);
  return condition;
}

static const DryCondition *
read_conditions (DryJson array, guint least, guint *n_out, DryArena *arena)
{
  guint n = dry_read_count (array, least, MAX_CONDITIONS);
  DryCondition *conditions = dry_arena_new_array (arena, DryCondition, n);

  for (guint i = 0; i < n; i++)
    conditions[i] = read_condition (dry_json_item (array, i), arena);
  *n_out = n;
  return conditions;
}

static void
read_remedies (DryRule *rule, DryJson array, DryArena *arena)
{
  guint n = dry_read_count (array, 1, MAX_CONDITIONS);
  DryRemedy *remedies = dry_arena_new_array (arena, DryRemedy, n);

  for (guint i = 0; i < n; i++) {
    DryJson object = dry_json_item (array, i);
    dry_json_only_keys (object, "text", "edit", NULL);
    remedies[i].text = dry_read_text (dry_json_get (object, "text"), arena);
    remedies[i].edit = dry_read_id_or_null (dry_json_opt (object, "edit"), arena);
  }
  rule->remedies = remedies;
  rule->n_remedies = n;
}

void
dry_rule_read (DryRule *rule, DryJson object, DryArena *arena)
{
  DryJson when = dry_json_opt (object, "when");

  dry_json_only_keys (object, "id", "number", "topic", "subject", "severity", "title", "why",
                      "when", "require", "remedies", "source", "certainty", NULL);
  rule->id = dry_read_id (dry_json_get (object, "id"), arena);
  rule->number = (gint) dry_json_integer_or (dry_json_opt (object, "number"), 0, 9999, 0);
  rule->topic = dry_read_id (dry_json_get (object, "topic"), arena);
  rule->subject = dry_read_id (dry_json_get (object, "subject"), arena);
  rule->severity =
      (DrySeverity) dry_json_choice (dry_json_get (object, "severity"), SEVERITY_WORDS);
  rule->title = dry_read_text (dry_json_get (object, "title"), arena);
  rule->why = dry_read_text (dry_json_get (object, "why"), arena);
  if (dry_json_is_present (when))
    rule->when = read_conditions (when, 0, &rule->n_when, arena);
  rule->require = read_conditions (dry_json_get (object, "require"), 1, &rule->n_require, arena);
  read_remedies (rule, dry_json_get (object, "remedies"), arena);
  rule->source = dry_read_source (object, arena);
}

static gboolean
read_removal (DryRule *rule, DryJson object, DryArena *arena)
{
  DryJson off = dry_json_opt (object, "off");

  if (!dry_json_is_present (off))
    return FALSE;
  dry_json_only_keys (object, "id", "off", NULL);
  rule->id = dry_read_id (dry_json_get (object, "id"), arena);
  if (!dry_json_boolean (off))
    dry_json_fail (off, DRY_ERROR_SCHEMA, "can only be true; leave it out otherwise");
  return TRUE;
}

static void
read_rules (DryRawPack *pack, DryJson array, DryArena *arena)
{
  g_autoptr (GHashTable) seen = g_hash_table_new (g_str_hash, g_str_equal);
  guint n = dry_read_count (array, 0, MAX_RULES);
  DryRule *rules = dry_arena_new_array (arena, DryRule, n);
  gboolean *off = dry_arena_new_array (arena, gboolean, n);

  for (guint i = 0; i < n && !dry_json_has_failed (array.doc); i++) {
    DryJson object = dry_json_item (array, i);
    off[i] = read_removal (&rules[i], object, arena);
    if (!off[i])
      dry_rule_read (&rules[i], object, arena);
    if (!dry_json_has_failed (array.doc) && !g_hash_table_add (seen, (gpointer) rules[i].id))
      dry_json_fail (dry_json_get (object, "id"), DRY_ERROR_SCHEMA, "“%s” is already in this pack",
                     rules[i].id);
  }
  pack->rules = rules;
  pack->off = off;
  pack->n_rules = n;
}

/* Every rule says which pack it is of, also when another pack extends that one. */
static void
sign_rules (DryRawPack *pack, DryArena *arena)
{
  gboolean usual = g_str_equal (pack->head.jurisdiction, "none");
  const char *title = usual ? pack->head.name
                            : dry_arena_printf (arena, "%s (%s; %s)", pack->head.name,
                                                pack->head.jurisdiction, pack->head.edition);
  DryRule *rules = (DryRule *) pack->rules;

  for (guint i = 0; i < pack->n_rules; i++) {
    rules[i].pack = pack->head.id;
    rules[i].pack_title = title;
    rules[i].usual = usual;
  }
  for (guint c = 0; c < pack->n_choices; c++)
    for (guint o = 0; o < pack->choices[c].n_options; o++) {
      const DryRuleOption *option = &pack->choices[c].options[o];
      for (guint i = 0; i < option->n_rules; i++) {
        DryRule *rule = (DryRule *) &option->rules[i];
        rule->pack = pack->head.id;
        rule->pack_title = title;
        rule->usual = usual;
        rule->choice = pack->choices[c].id;
      }
    }
}

const DryRawPack *
dry_rule_pack_read (DryJson root, const char *file, DryArena *arena)
{
  DryRawPack *pack = dry_arena_new_array (arena, DryRawPack, 1);

  if (!dry_read_head (root, "drybay-rules"))
    return NULL;
  dry_json_only_keys (root, "format", "version", "note", "id", "name", "jurisdiction", "edition",
                      "language", "citations", "extends", "choices", "rules", NULL);
  dry_json_string_or (dry_json_opt (root, "note"), NULL);
  pack->file = dry_arena_strdup (arena, file);
  pack->head.file = pack->file;
  pack->head.id = dry_read_id (dry_json_get (root, "id"), arena);
  pack->head.name = dry_read_text (dry_json_get (root, "name"), arena);
  pack->head.jurisdiction = dry_read_text (dry_json_get (root, "jurisdiction"), arena);
  pack->head.edition = dry_read_text (dry_json_get (root, "edition"), arena);
  pack->head.language = dry_read_text (dry_json_get (root, "language"), arena);
  pack->head.citations = dry_json_is_present (dry_json_opt (root, "citations"))
                             ? dry_read_text (dry_json_get (root, "citations"), arena)
                             : pack->head.language;
  pack->head.extends = dry_read_id_or_null (dry_json_get (root, "extends"), arena);
  read_rules (pack, dry_json_get (root, "rules"), arena);
  if (dry_json_is_present (dry_json_opt (root, "choices")))
    dry_rule_choices_read (pack, dry_json_get (root, "choices"), arena);
  if (!dry_json_has_failed (root.doc))
    sign_rules (pack, arena);
  return dry_json_has_failed (root.doc) ? NULL : pack;
}
