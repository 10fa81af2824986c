/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Choices of rule packs: reads them, and puts the rules of the picked options in place.
 * A choice is where sources disagree; this file does not know which of them is right. */
#define G_LOG_DOMAIN "drybay-catalog"
#include <string.h>

#include "catalog/read.h"
#include "catalog/rule-read.h"

#define MAX_CHOICES 100
#define MAX_OPTIONS 20

static void
read_option (DryRuleOption *option, DryJson object, DryArena *arena)
{
  DryJson array = dry_json_get (object, "rules");
  guint n = dry_read_count (array, 0, MAX_OPTIONS);
  DryRule *rules = dry_arena_new_array (arena, DryRule, n);

  dry_json_only_keys (object, "id", "title", "source", "certainty", "rules", NULL);
  option->id = dry_read_id (dry_json_get (object, "id"), arena);
  option->title = dry_read_text (dry_json_get (object, "title"), arena);
  option->source = dry_read_source (object, arena);
  for (guint i = 0; i < n && !dry_json_has_failed (array.doc); i++)
    dry_rule_read (&rules[i], dry_json_item (array, i), arena);
  option->rules = rules;
  option->n_rules = n;
}

static gint
find_option (const DryRuleChoice *choice, const char *id, gsize length)
{
  for (guint i = 0; i < choice->n_options; i++)
    if (strlen (choice->options[i].id) == length &&
        strncmp (choice->options[i].id, id, length) == 0)
      return (gint) i;
  return -1;
}

static void
read_choice (DryRuleChoice *choice, DryJson object, const char *pack, DryArena *arena)
{
  DryJson array = dry_json_get (object, "options");
  guint n = dry_read_count (array, 2, MAX_OPTIONS);
  DryRuleOption *options = dry_arena_new_array (arena, DryRuleOption, n);
  const char *usual;
  gint found;

  dry_json_only_keys (object, "id", "title", "why", "usual", "options", NULL);
  choice->id = dry_read_id (dry_json_get (object, "id"), arena);
  choice->title = dry_read_text (dry_json_get (object, "title"), arena);
  choice->why = dry_read_text (dry_json_get (object, "why"), arena);
  choice->pack = pack;
  choice->options = options;
  for (guint i = 0; i < n && !dry_json_has_failed (array.doc); i++) {
    DryJson item = dry_json_item (array, i);
    read_option (&options[i], item, arena);
    if (!dry_json_has_failed (array.doc) &&
        find_option (choice, options[i].id, strlen (options[i].id)) >= 0)
      dry_json_fail (dry_json_get (item, "id"), DRY_ERROR_SCHEMA,
                     "“%s” is already an option of this choice", options[i].id);
    choice->n_options = i + 1;
  }
  usual = dry_read_id (dry_json_get (object, "usual"), arena);
  if (dry_json_has_failed (array.doc))
    return;
  found = find_option (choice, usual, strlen (usual));
  if (found < 0)
    dry_json_fail (dry_json_get (object, "usual"), DRY_ERROR_REFERENCE,
                   "“%s” is no option of this choice", usual);
  choice->usual = (guint) MAX (0, found);
}

void
dry_rule_choices_read (DryRawPack *pack, DryJson array, DryArena *arena)
{
  guint n = dry_read_count (array, 0, MAX_CHOICES);
  DryRuleChoice *choices = dry_arena_new_array (arena, DryRuleChoice, n);

  for (guint i = 0; i < n && !dry_json_has_failed (array.doc); i++) {
    DryJson object = dry_json_item (array, i);

    read_choice (&choices[i], object, pack->head.id, arena);
    for (guint j = 0; j < i && !dry_json_has_failed (array.doc); j++)
      if (g_str_equal (choices[j].id, choices[i].id))
        dry_json_fail (dry_json_get (object, "id"), DRY_ERROR_SCHEMA,
                       "“%s” is already a choice of this pack", choices[i].id);
  }
  pack->choices = choices;
  pack->n_choices = n;
}

/* --- picking --- */

const DryRuleChoice *
dry_rule_pack_get_choice (const DryRulePack *self, const char *id)
{
  for (guint i = 0; i < self->n_choices; i++)
    if (g_str_equal (self->choices[i].id, id))
      return &self->choices[i];
  return NULL;
}

/* The next word "choice=option" at `*at`; FALSE at the end. */
static gboolean
next_pick (const char **at, const char **choice, gsize *n_choice, const char **option,
           gsize *n_option)
{
  for (;;) {
    gsize length, equals;

    *at += strspn (*at, " ");
    length = strcspn (*at, " ");
    if (length == 0)
      return FALSE;
    equals = strcspn (*at, "= ");
    *choice = *at;
    *n_choice = equals;
    *option = *at + equals + 1;
    *n_option = equals < length ? length - equals - 1 : 0;
    *at += length;
    if (equals < length)
      return TRUE;
  }
}

guint
dry_rule_choice_get_picked (const DryRuleChoice *self, const char *picks)
{
  const char *at = picks ? picks : "", *choice, *option;
  guint picked = self->usual;
  gsize n_choice, n_option;

  while (next_pick (&at, &choice, &n_choice, &option, &n_option)) {
    gint found = find_option (self, option, n_option);
    if (strlen (self->id) == n_choice && strncmp (self->id, choice, n_choice) == 0 && found >= 0)
      picked = (guint) found;
  }
  return picked;
}

char *
dry_rule_choice_pick (const DryRuleChoice *self, const char *picks, guint option)
{
  GString *out = g_string_new (NULL);
  const char *at = picks ? picks : "", *choice, *word;
  gsize n_choice, n_word;

  while (next_pick (&at, &choice, &n_choice, &word, &n_word))
    if (strlen (self->id) != n_choice || strncmp (self->id, choice, n_choice) != 0)
      g_string_append_printf (out, "%s%.*s=%.*s", out->len ? " " : "", (int) n_choice, choice,
                              (int) n_word, word);
  if (option != self->usual && option < self->n_options)
    g_string_append_printf (out, "%s%s=%s", out->len ? " " : "", self->id,
                            self->options[option].id);
  return g_string_free (out, out->len == 0);
}

static void
replace_rules (GArray *rules, const DryRuleChoice *choice, const DryRuleOption *option)
{
  guint at = rules->len;

  for (guint i = rules->len; i-- > 0;)
    if (g_strcmp0 (g_array_index (rules, DryRule, i).choice, choice->id) == 0) {
      g_array_remove_index (rules, i);
      at = i;
    }
  for (guint i = 0; i < option->n_rules; i++) {
    DryRule rule = option->rules[i];
    rule.wished = TRUE;
    g_array_insert_val (rules, at + i, rule);
  }
}

const DryRulePack *
dry_rule_pack_apply (const DryRulePack *self, const char *picks, DryArena *arena)
{
  GArray *rules = NULL;
  DryRulePack *answer;

  for (guint i = 0; picks && i < self->n_choices; i++) {
    guint picked = dry_rule_choice_get_picked (&self->choices[i], picks);
    if (picked == self->choices[i].usual)
      continue;
    if (!rules) {
      rules = g_array_sized_new (FALSE, FALSE, sizeof (DryRule), self->n_rules + 8);
      g_array_append_vals (rules, self->rules, self->n_rules);
    }
    replace_rules (rules, &self->choices[i], &self->choices[i].options[picked]);
  }
  if (!rules)
    return self;
  answer = dry_arena_new_array (arena, DryRulePack, 1);
  *answer = *self;
  answer->n_rules = rules->len;
  answer->rules = dry_arena_take_array (arena, rules);
  return answer;
}
