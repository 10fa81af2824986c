/* SPDX-License-Identifier: GPL-3.0-or-later */
/* STUB, being written. */
#include "plan/joints.h"

const DryJoints *
dry_joints_compute (const DryPlanContext *context, const DryFaces *faces, const DryBoards *boards,
                    GError **error)
{
  return dry_arena_alloc (context->arena, sizeof (DryJoints));
}
