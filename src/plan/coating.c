/* SPDX-License-Identifier: GPL-3.0-or-later */
/* STUB, being written. */
#include "plan/coating.h"

const DryCoating *
dry_coating_compute (const DryPlanContext *context, const DryFaces *faces, const DryBoards *boards,
                     const DryFasteners *fasteners, const DryJoints *joints, GError **error)
{
  return dry_arena_alloc (context->arena, sizeof (DryCoating));
}
