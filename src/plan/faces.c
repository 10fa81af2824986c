/* SPDX-License-Identifier: GPL-3.0-or-later */
/* STUB, being written. */
#include "plan/faces.h"

const DryFaces *
dry_faces_compute (const DryPlanContext *context, GError **error)
{
  return dry_arena_alloc (context->arena, sizeof (DryFaces));
}
