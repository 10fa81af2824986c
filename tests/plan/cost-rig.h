/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Prices finished plans for the tests of cost, begun on 2026-12-01, and looks up a line.
 * Judges nothing; the tests do. */
#pragma once

#include "plan/cost.h"
#include "plan/plan.h"

/* Fails the test when there is no schedule. The cost borrows it and the book. */
DryCost *cost_rig_price (const DryPlan *const *plans, guint n, const DryPriceBook *book,
                         DrySchedule **schedule) G_GNUC_WARN_UNUSED_RESULT;
/* The first line of that group and id; NULL when there is none. */
const DryCostLine *cost_rig_find (const DryCost *cost, DryCostGroup group, const char *id);
