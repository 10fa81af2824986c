/* SPDX-License-Identifier: GPL-3.0-or-later */
/* One rule held against one subject, for findings and for the list of all that applies.
 * Private to findings.c and rule-checks.c. */
#pragma once

#include "plan/findings.h"

/* FALSE when the subject lacks the measure, or the limit is of another kind: then the rule has
 * nothing to say. */
gboolean dry_condition_test (const DryCondition *condition, const DrySubject *subject,
                             gboolean *holds);
/* FALSE when the rule is silent: it is for another kind of subject, a condition under "when" does
 * not hold, or the subject lacks a measure. Else `failed` is the first condition broken, or NULL:
 * kept. */
gboolean dry_rule_judge (const DryRule *rule, const DrySubject *subject,
                         const DryCondition **failed);
/* Who gave the figure of `condition`; `by` for people, in the plan's arena or the rule's. */
DryAnswer dry_rule_find_answer (const DryPlanContext *context, const DryRule *rule,
                                const DryCondition *condition, const char **by);
