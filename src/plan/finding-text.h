/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Words for a finding: measures and limits as people of the job's country write them.
 * Private to findings.c; decides nothing. */
#pragma once

#include "plan/plan.h"

/* "18 5/8\"", "2 %", "50 degrees F", "yes"; in the arena. */
const char *dry_finding_measure_text (const DryPlanContext *context, const DryMeasure *measure);
/* All its digits: "914.400001 mm". */
const char *dry_finding_exact_text (const DryPlanContext *context, const DryMeasure *measure);
/* What a condition of `rule` asks of `measure`: "at most 16\"", "33\" to 36\"" when another
 * condition of the rule bounds the same measure on the other side; "" for yes and no. */
const char *dry_finding_limit_text (const DryPlanContext *context, const DryRule *rule,
                                    const DryCondition *condition, const DrySubject *subject);
/* The limit itself: a length or a number, the other measure put in. FALSE when that is missing. */
gboolean dry_finding_limit (const DryCondition *condition, const DrySubject *subject,
                            DryMeasure *out);
/* A measure's name in words: "stud spacing". */
const char *dry_finding_name (DryArena *arena, const char *measure);
