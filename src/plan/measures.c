/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Runs the measuring functions of all kinds of subject in order.
 * Knows who measures what, and no rule that compares it. */
#include "plan/measures.h"

#include "plan/measure-build.h"

const DryMeasures *
dry_measures_compute (const DryPlanContext *context, const struct _DryPlan *plan, GError **error)
{
  static void (*const STEPS[]) (DryMeasuring *) = {
      dry_measure_job,    dry_measure_walls,    dry_measure_basin,          dry_measure_openings,
      dry_measure_niches, dry_measure_fittings, dry_measure_standing_parts, dry_measure_boards,
      dry_measure_joints, dry_measure_tile,
  };
  DryMeasuring measuring = {
      .context = context,
      .plan = plan,
      .subjects = g_array_new (FALSE, FALSE, sizeof (DrySubject)),
  };
  DryMeasures *self = dry_arena_alloc (context->arena, sizeof (DryMeasures));

  for (guint i = 0; i < G_N_ELEMENTS (STEPS); i++) {
    if (g_cancellable_is_cancelled (context->cancellable)) {
      g_set_error_literal (error, DRY_ERROR, DRY_ERROR_CANCELLED, "A newer plan was asked for");
      g_array_unref (measuring.subjects);
      return NULL;
    }
    STEPS[i](&measuring);
  }
  self->n = measuring.subjects->len;
  self->items = dry_arena_take_array (context->arena, measuring.subjects);
  return self;
}
