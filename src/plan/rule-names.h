/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Whether what a rule names exists: subjects, their measures and remedies. A rule with a name that
 * nothing has would be silent for ever, and nobody would know. */
#pragma once

#include "catalog/catalog.h"
#include "plan/measures.h"

typedef struct {
  const char *subject, *measure;
  DryMeasureKind kind;
} DryMeasureName;

/* All measures there are, by subject; constant. */
const DryMeasureName *dry_measure_names (guint *n);

/* FALSE with DRY_ERROR_REFERENCE: the file, the rule, and what in it nothing has. Rules of the
 * packs it extends are theirs and are not looked at. */
gboolean dry_rule_names_check (const DryRulePack *pack, GError **error);
