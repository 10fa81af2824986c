/* SPDX-License-Identifier: GPL-3.0-or-later */
/* STUB, being written. */
#include "plan/plan.h"

void
dry_plan_write_json (const DryPlan *self, DryJsonWriter *writer, const char *key)
{
}
