/* SPDX-License-Identifier: GPL-3.0-or-later */
/* STUB, being written. */
#include "plan/takeoff.h"

const DryTakeoff *
dry_takeoff_compute (const DryPlanContext *context, const DryFaces *faces,
                     const DryFraming *framing, const DryBoards *boards,
                     const DryFasteners *fasteners, const DryJoints *joints,
                     const DryCoating *coating, GError **error)
{
  return dry_arena_alloc (context->arena, sizeof (DryTakeoff));
}
