/* SPDX-License-Identifier: GPL-3.0-or-later */
/* All that applies to a plan, kept or not: what each rule requires and what is planned, side by
 * side, for an inspector. Made when asked for, from a finished plan; findings are those not kept.
 */
#pragma once

#include "plan/plan.h"

typedef struct {
  const DryRule *rule;
  DryAnswer answer;
  const char *answered_by;
  const char *measure;            /* what is held against the rule: "stud spacing" */
  const char *where;              /* one subject's name, or "4 places" */
  const char *required, *planned; /* "at most 16\"", "16\"", "14 1/2\" to 16\""; "yes" */
  guint n_places, n_broken;
} DryCheck;

typedef struct {
  DryArena *arena; /* owned */
  DryCheck *items; /* by topic as the packs have them, then in the packs' order */
  guint n;
} DryChecks;

/* One check for each rule that is not silent and each measure it bounds. Points into the plan. */
DryChecks *dry_checks_new (const DryPlan *plan);
void dry_checks_free (DryChecks *self);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (DryChecks, dry_checks_free)

/* For an inspector: asked by a pack with a jurisdiction, by the project's pick or by the system;
 * of a pack that asks on nobody's behalf, everything. */
gboolean dry_check_is_official (const DryPlan *plan, const DryCheck *check);
