/* SPDX-License-Identifier: GPL-3.0-or-later */
/* STUB, being written. */
#include "plan/findings.h"

const DryFindings *
dry_findings_compute (const DryPlanContext *context, const DryMeasures *measures, GError **error)
{
  return dry_arena_alloc (context->arena, sizeof (DryFindings));
}
