/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Papers for the client, the supplier and the crew's calendar: proposal, change order, order list,
 * schedule. Every sum is the cost's own, to the hundredth; nothing is reckoned here. */
#pragma once

#include "papers/papers.h"
#include "plan/compare.h"

/* Drawings with tile, what is chosen, when it is done, what is left out, cautions, and where to
 * sign; the price when `prices`. All errors: DRY_ERROR_FILE. */
gboolean dry_papers_write_proposal (const DryPlan *const *plans, guint n_plans, const DryCost *cost,
                                    const DrySchedule *schedule, gboolean prices,
                                    const DryPaperOptions *options, const char *path,
                                    GError **error);
/* What is to be bought, by supplier, in packs. */
gboolean dry_papers_write_order (const DryPlan *const *plans, guint n_plans, const DryCost *cost,
                                 const DryPaperOptions *options, const char *path, GError **error);
/* Chart of the tasks and one table a day. */
gboolean dry_papers_write_schedule (const DrySchedule *schedule, const DryPlan *const *plans,
                                    guint n_plans, const DryPaperOptions *options, const char *path,
                                    GError **error);
/* What changes when the option at `index` is built instead of the first, in words and in money. */
gboolean dry_papers_write_change_order (const DryComparison *comparison, guint index,
                                        const DryPaperOptions *options, const char *path,
                                        GError **error);
