/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A cost while its lines are gathered; shared by cost.c and cost-lines.c. */
#pragma once

#include "plan/cost.h"

typedef struct {
  DryArena *arena;
  const DryPlan *const *plans;
  guint n_plans;
  const DrySchedule *schedule;
  const DryPriceBook *book;
  const char *date; /* first day, or NULL */
  GArray *lines;    /* DryCostLine */
  double disposal_mass;
} DryCosting;

/* Half a hundredth and more is rounded up, away from nothing. */
gint64 dry_cost_round (double hundredths);
const char *dry_costing_number (const DryCosting *self, double value, int decimals);
void dry_costing_add (DryCosting *self, DryCostLine line);
gint64 dry_costing_sum (const DryCosting *self, DryCostGroup group);

void dry_costing_add_material (DryCosting *self, guint room);
void dry_costing_add_labor (DryCosting *self);
void dry_costing_add_hire (DryCosting *self);
void dry_costing_add_delivery (DryCosting *self);
void dry_costing_add_disposal (DryCosting *self);
