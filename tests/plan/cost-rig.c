/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A schedule and a cost in one call, as the programs make them.
 * Knows no price. */
#include "cost-rig.h"

DryCost *
cost_rig_price (const DryPlan *const *plans, guint n, const DryPriceBook *book,
                DrySchedule **schedule)
{
  g_autoptr (GError) error = NULL;

  *schedule = dry_schedule_new (plans, n, book, "2026-12-01", &error);
  g_assert_no_error (error);
  return dry_cost_new (plans, n, *schedule, book);
}

const DryCostLine *
cost_rig_find (const DryCost *cost, DryCostGroup group, const char *id)
{
  for (guint i = 0; i < cost->n; i++)
    if (cost->lines[i].group == group && g_str_equal (cost->lines[i].id, id))
      return &cost->lines[i];
  return NULL;
}
