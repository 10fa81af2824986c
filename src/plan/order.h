/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Stage 9, order of work: the steps in sequence with hours from quantities and the system's waits.
 * A plain sequence, one after another; the calendar and critical path belong to a later stage. */
#pragma once

#include "plan/takeoff.h"

typedef struct {
  const char *id;
  const char *text;          /* what to do, in one or two sentences */
  double hours;              /* hands-on, one installer; 0 = not estimated */
  double wait_min, wait_max; /* hours to wait after it; 0 = none */
  const DryWait *wait;       /* the system's wait these are from; NULL = none of its */
  gboolean hold;             /* inspection or test: nothing goes on before it passes */
  DryWorking working;
} DryStep;

typedef struct {
  DryStep *items;
  guint n;
  double hours;                                /* hands-on in all */
  double hours_to_tile_min, hours_to_tile_max; /* hands-on plus waits until tiling can start */
} DryOrder;

const DryOrder *dry_order_compute (const DryPlanContext *context, const DryFaces *faces,
                                   const DryFraming *framing, const DryBoards *boards,
                                   const DryJoints *joints, const DryCoating *coating,
                                   const DryFloor *floor, GError **error);
