/* SPDX-License-Identifier: GPL-3.0-or-later */
/* STUB, being written. */
#include "plan/order.h"

const DryOrder *
dry_order_compute (const DryPlanContext *context, const DryFaces *faces, const DryBoards *boards,
                   const DryJoints *joints, const DryCoating *coating, GError **error)
{
  return dry_arena_alloc (context->arena, sizeof (DryOrder));
}
