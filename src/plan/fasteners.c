/* SPDX-License-Identifier: GPL-3.0-or-later */
/* STUB, being written. */
#include "plan/fasteners.h"

const DryFasteners *
dry_fasteners_compute (const DryPlanContext *context, const DryFaces *faces,
                       const DryFraming *framing, const DryBoards *boards, GError **error)
{
  return dry_arena_alloc (context->arena, sizeof (DryFasteners));
}
