/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The plans of many rooms at once, each on whatever processor is free. Which is computed first
 * changes nothing: a plan depends on project, room and catalogue only. */
#pragma once

#include "plan/plan.h"

/* Plans (DryPlan) of the rooms `rooms` of the project, in that order; `effort` as in
 * dry_plan_new_searched(). The error is that of the first room, in order, that has none. Blocks.
 * NULL on error. */
GPtrArray *dry_plans_new (const DryProject *project, const DryId *rooms, guint n_rooms,
                          const DryCatalog *catalog, guint64 effort, GCancellable *cancellable,
                          GError **error) G_GNUC_WARN_UNUSED_RESULT;
