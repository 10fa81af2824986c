/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A schedule as a calendar file (RFC 5545), for any calendar program.
 * Times are local without a zone; no clock is asked, so the same schedule gives the same bytes. */
#pragma once

#include "plan/schedule.h"

/* One event for each stretch a task is worked at, each hold and each milestone. Errors:
 * DRY_ERROR_UNSUPPORTED when the schedule has no dates. Free with g_free(). */
char *dry_schedule_to_ics (const DrySchedule *self, const DryPlan *const *plans,
                           GError **error) G_GNUC_WARN_UNUSED_RESULT;
