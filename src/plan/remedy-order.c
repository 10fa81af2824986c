/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Remedies that change what is ordered and how long is waited.
 * Each sets what was told of the job to what the rule asks. */
#include <math.h>

#include "plan/remedy-private.h"

static DryProject *
set_finish (const DryRemedyWork *work, const DryFinish *finish, GError **error)
{
  return dry_edit_set_finish (work->project, work->room->id, finish, error);
}

static double
read_measure (const DryRemedyWork *work, const char *subject, const char *name)
{
  const DryMeasures *measures = work->measuring.plan->measures;

  for (guint i = 0; i < measures->n; i++) {
    const DryMeasure *measure = g_str_equal (measures->items[i].kind, subject)
                                    ? dry_subject_get (&measures->items[i], name)
                                    : NULL;
    if (measure)
      return measure->number;
  }
  return 0;
}

/* What the take-off counts, or what the rule asks over the net area if that is more, in whole
 * boxes. */
static DryProject *
order_enough (const DryRemedyWork *work, GError **error)
{
  const DryTiling *tiling = work->measuring.plan->tiling;
  DryFinish finish = work->room->finish;
  double over = 0, most = 0, now = read_measure (work, "tile", "ordered-over");
  gint counted, asked;

  dry_remedy_get_number_bounds (work, "ordered-over", &over, &most);
  counted = (gint) dry_tiling_to_buy (tiling);
  asked = (gint) ceil (finish.tiles_ordered * (100 + over) / (100 + now) - 1e-9);
  finish.tiles_ordered = MAX (counted, asked);
  if (tiling->box > 1) {
    finish.tiles_ordered += (gint) tiling->box - 1;
    finish.tiles_ordered -= finish.tiles_ordered % (gint) tiling->box;
  }
  return set_finish (work, &finish, error);
}

static double
get_hours (const DryRemedyWork *work, const char *measure, const char *system)
{
  double least = 0, most = 0;

  dry_remedy_get_number_bounds (work, measure, &least, &most);
  return MAX (least, read_measure (work, "order", system));
}

static DryProject *
wait_for_grout (const DryRemedyWork *work, GError **error)
{
  DryFinish finish = work->room->finish;

  finish.grout_after = get_hours (work, "grout-after", "system-grout-after");
  return set_finish (work, &finish, error);
}

static DryProject *
wait_for_water (const DryRemedyWork *work, GError **error)
{
  DryFinish finish = work->room->finish;

  finish.water_after = get_hours (work, "water-after", "system-water-after");
  return set_finish (work, &finish, error);
}

const DryRemedyEntry DRY_REMEDIES_OF_ORDERS[] = {
    {"tile.order-enough", DRY_ABOUT_ROOM, order_enough},
    {"order.wait-for-grout", DRY_ABOUT_ROOM, wait_for_grout},
    {"order.wait-for-water", DRY_ABOUT_ROOM, wait_for_water},
};
const guint DRY_N_REMEDIES_OF_ORDERS = G_N_ELEMENTS (DRY_REMEDIES_OF_ORDERS);
