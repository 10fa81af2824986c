/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Parts of the plan's JSON, shared by plan-json.c (what is built) and plan-json-amounts.c (what it
 * takes and what is found). */
#pragma once

#include "plan/plan.h"

void dry_plan_json_point (DryJsonWriter *writer, const char *key, DryPoint p);
void dry_plan_json_rect (DryJsonWriter *writer, const char *key, DryRect r);

void dry_plan_json_holding (DryJsonWriter *writer, const DryPlan *self);
void dry_plan_json_quantities (DryJsonWriter *writer, const DryPlan *self);
void dry_plan_json_judgement (DryJsonWriter *writer, const DryPlan *self);
