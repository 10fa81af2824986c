/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Tasks of one room on their way into a schedule; shared by schedule.c and schedule-tasks.c. */
#pragma once

#include "plan/schedule.h"

typedef struct {
  DrySchedule *schedule;
  const DryPlan *plan;
  const DryPriceBook *book;
  guint room;
  GArray *tasks; /* DryTask; links in the order written */
} DryScheduling;

/* Below this no mortar or membrane sets (the rule pack's limit), and at this and above the shortest
 * waits hold. */
#define DRY_COLDEST 10.0
#define DRY_WARM    21.0

/* Appends the room's tasks, from protecting to the first shower. */
void dry_schedule_add_room (DryScheduling *self);
