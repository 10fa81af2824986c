/* SPDX-License-Identifier: GPL-3.0-or-later */
/* From a parsed file of data/rules to a pack as written, and from all packs as written to packs
 * with the rules of those they extend. Knows the form of rules; nothing of what they measure. */
#pragma once

#include "base/json.h"
#include "catalog/rule.h"

/* A pack as its file has it, before those it extends are known. */
typedef struct {
  DryRulePack head; /* rules and n_rules are still empty */
  const char *file;
  const DryRule *rules;
  const gboolean *off; /* of each rule: takes the one of that id out */
  guint n_rules;
  const DryRuleChoice *choices; /* own ones */
  guint n_choices;
} DryRawPack;

/* One rule as written, without what only its pack knows. */
void dry_rule_read (DryRule *rule, DryJson object, DryArena *arena);
/* The member "choices" of a pack into `pack`; fails on an option named twice or a usual one that is
 * not there. */
void dry_rule_choices_read (DryRawPack *pack, DryJson array, DryArena *arena);

/* Reads a whole rule file. NULL after a failure. */
const DryRawPack *dry_rule_pack_read (DryJson root, const char *file, DryArena *arena);

/* Resolves `extends`: entry i of the answer is packs[i] with the rules of the packs below it, its
 * own ones over them by id. NULL with an error for an unknown pack, a circle, or a rule switched
 * off that is not there; `culprit` (or NULL) is then the pack that has it. */
const DryRulePack *dry_rule_packs_resolve (const DryRawPack *const *packs, guint n_packs,
                                           DryArena *arena, guint *culprit, GError **error);
