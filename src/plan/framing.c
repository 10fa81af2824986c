/* SPDX-License-Identifier: GPL-3.0-or-later */
/* STUB, being written. */
#include "plan/framing.h"

const DryFraming *
dry_framing_compute (const DryPlanContext *context, const DryFaces *faces, GError **error)
{
  return dry_arena_alloc (context->arena, sizeof (DryFraming));
}
