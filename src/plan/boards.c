/* SPDX-License-Identifier: GPL-3.0-or-later */
/* STUB, being written. */
#include "plan/boards.h"

const DryBoards *
dry_boards_compute (const DryPlanContext *context, const DryFaces *faces, const DryFraming *framing,
                    GError **error)
{
  return dry_arena_alloc (context->arena, sizeof (DryBoards));
}
