/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Remedies a finding offers as one-click edits, by the names rules use for them.
 * Each is made of the edits of the document; docs/measures.md lists the names. */
#pragma once

#include "plan/plan.h"

/* Applies `remedy` of `finding` (both of `plan`, the plan of `room` of `project`). A new project,
 * or NULL with DRY_ERROR_UNSUPPORTED (no such edit, or none given), DRY_ERROR_REFERENCE (what it
 * would change is gone) or DRY_ERROR_GEOMETRY (it cannot be done here: a sentence says why). */
DryProject *dry_remedy_apply (const DryProject *project, DryId room, const DryPlan *plan,
                              const DryFinding *finding, const DryRemedy *remedy,
                              GError **error) G_GNUC_WARN_UNUSED_RESULT;
/* TRUE for names dry_remedy_apply() knows. */
gboolean dry_remedy_is_known (const char *edit);
/* All known names in order, NULL-ended; constant. */
const char *const *dry_remedy_names (void);
