/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Joins rule packs over `extends`: the extended pack's rules first, own ones over them by id.
 * It works on packs already read; errors name the file and id as the reader's do. */
#define G_LOG_DOMAIN "drybay-catalog"
#include "base/error.h"
#include "catalog/rule-read.h"

typedef enum { UNTOUCHED, UNDER_WAY, DONE } State;

typedef struct {
  const DryRawPack *const *raw;
  DryRulePack *packs;
  State *states;
  guint n;
  DryArena *arena;
  gint culprit; /* the first pack that failed, or -1 */
} Resolver;

static gint
find_pack (const Resolver *self, const char *id)
{
  for (guint i = 0; i < self->n; i++)
    if (g_str_equal (self->raw[i]->head.id, id))
      return (gint) i;
  return -1;
}

static gint
find_rule (const GArray *rules, const char *id)
{
  for (guint i = 0; i < rules->len; i++)
    if (g_str_equal (g_array_index (rules, DryRule, i).id, id))
      return (gint) i;
  return -1;
}

/* Lays the pack's own rules over those in `rules`: replaced in place, taken out, or added. */
static gboolean
lay_over (GArray *rules, const DryRawPack *raw, GError **error)
{
  for (guint i = 0; i < raw->n_rules; i++) {
    gint at = find_rule (rules, raw->rules[i].id);
    if (raw->off[i] && at < 0) {
      g_set_error (error, DRY_ERROR, DRY_ERROR_REFERENCE,
                   "%s: rules[%u].id: there is no rule “%s” in what this pack extends", raw->file,
                   i, raw->rules[i].id);
      return FALSE;
    }
    if (raw->off[i])
      g_array_remove_index (rules, (guint) at);
    else if (at >= 0)
      g_array_index (rules, DryRule, at) = raw->rules[i];
    else
      g_array_append_val (rules, raw->rules[i]);
  }
  return TRUE;
}

static gboolean
states_rule (const DryRawPack *raw, const char *id)
{
  for (guint i = 0; i < raw->n_rules; i++)
    if (g_str_equal (raw->rules[i].id, id))
      return TRUE;
  return FALSE;
}

/* A rule the pack states itself settles the choice of the pack below that it came from. */
static gboolean
is_settled (const DryRuleChoice *choice, const DryRawPack *raw)
{
  for (guint i = 0; i < raw->n_choices; i++)
    if (g_str_equal (raw->choices[i].id, choice->id))
      return TRUE;
  for (guint o = 0; o < choice->n_options; o++)
    for (guint r = 0; r < choice->options[o].n_rules; r++)
      if (states_rule (raw, choice->options[o].rules[r].id))
        return TRUE;
  return FALSE;
}

/* What the pack states itself is left for lay_over() to replace or take out. */
static void
settle_rules (GArray *rules, const char *choice, const DryRawPack *raw)
{
  for (guint i = rules->len; i-- > 0;) {
    const DryRule *rule = &g_array_index (rules, DryRule, i);
    if (g_strcmp0 (rule->choice, choice) == 0 && !states_rule (raw, rule->id))
      g_array_remove_index (rules, i);
  }
}

/* Inherited choices that still stand, then own ones; the usual option's rules of the own ones are
 * laid into `rules`. */
static void
lay_choices (GArray *choices, GArray *rules, const DryRulePack *below, const DryRawPack *raw)
{
  for (guint i = 0; below && i < below->n_choices; i++) {
    if (is_settled (&below->choices[i], raw))
      settle_rules (rules, below->choices[i].id, raw);
    else
      g_array_append_val (choices, below->choices[i]);
  }
  for (guint i = 0; i < raw->n_choices; i++) {
    const DryRuleChoice *choice = &raw->choices[i];
    const DryRuleOption *usual = &choice->options[choice->usual];

    /* Where an option's rule takes an inherited one's place, that one goes, whatever is picked. */
    for (guint o = 0; o < choice->n_options; o++)
      for (guint r = 0; r < choice->options[o].n_rules; r++) {
        gint at = find_rule (rules, choice->options[o].rules[r].id);
        if (at >= 0)
          g_array_remove_index (rules, (guint) at);
      }
    g_array_append_vals (rules, usual->rules, usual->n_rules);
    g_array_append_val (choices, *choice);
  }
}

static gboolean resolve_pack (Resolver *self, guint index, GError **error);

/* Copies the resolved rules of the pack that `raw` extends into `rules`. */
static gboolean
start_from_extended (Resolver *self, const DryRawPack *raw, GArray *rules, GError **error)
{
  const char *extends = raw->head.extends;
  gint below;

  if (!extends)
    return TRUE;
  below = find_pack (self, extends);
  if (below < 0) {
    g_set_error (error, DRY_ERROR, DRY_ERROR_REFERENCE, "%s: extends: there is no rule pack “%s”",
                 raw->file, extends);
    return FALSE;
  }
  if (self->states[below] == UNDER_WAY) {
    g_set_error (error, DRY_ERROR, DRY_ERROR_REFERENCE,
                 "%s: extends: “%s” extends this pack in turn, in a circle", raw->file, extends);
    return FALSE;
  }
  if (!resolve_pack (self, (guint) below, error))
    return FALSE;
  g_array_append_vals (rules, self->packs[below].rules, self->packs[below].n_rules);
  return TRUE;
}

static gboolean
join_pack (Resolver *self, guint index, GError **error)
{
  const DryRawPack *raw = self->raw[index];
  DryRulePack *pack = &self->packs[index];
  g_autoptr (GArray) rules = NULL;
  GArray *choices;
  gint below = -1;

  if (self->states[index] == DONE)
    return TRUE;
  self->states[index] = UNDER_WAY;
  rules = g_array_new (FALSE, FALSE, sizeof (DryRule));
  if (!start_from_extended (self, raw, rules, error))
    return FALSE;
  if (raw->head.extends)
    below = find_pack (self, raw->head.extends);
  choices = g_array_new (FALSE, FALSE, sizeof (DryRuleChoice));
  lay_choices (choices, rules, below >= 0 ? &self->packs[below] : NULL, raw);
  *pack = raw->head;
  pack->n_choices = choices->len;
  pack->choices = dry_arena_take_array (self->arena, choices);
  if (!lay_over (rules, raw, error))
    return FALSE;
  pack->n_rules = rules->len;
  pack->rules = dry_arena_take_array (self->arena, g_steal_pointer (&rules));
  self->states[index] = DONE;
  return TRUE;
}

static gboolean
resolve_pack (Resolver *self, guint index, GError **error)
{
  gboolean ok = join_pack (self, index, error);

  if (!ok && self->culprit < 0)
    self->culprit = (gint) index;
  return ok;
}

const DryRulePack *
dry_rule_packs_resolve (const DryRawPack *const *packs, guint n_packs, DryArena *arena,
                        guint *culprit, GError **error)
{
  g_autofree State *states = g_new0 (State, n_packs + 1);
  Resolver self = {
      packs, dry_arena_new_array (arena, DryRulePack, n_packs + 1), states, n_packs, arena, -1};

  for (guint i = 0; i < n_packs; i++)
    if (!resolve_pack (&self, i, error)) {
      if (culprit)
        *culprit = (guint) self.culprit;
      return NULL;
    }
  return self.packs;
}
