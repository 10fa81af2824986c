/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What a job costs: take-off and hours priced by a price book, with delivery, disposal, hire,
 * markup and tax. Every line carries its working; a price that is missing is a gap, never a nought.
 */
#pragma once

#include "plan/schedule.h"

typedef enum {
  DRY_COST_MATERIAL,
  DRY_COST_LABOR,
  DRY_COST_HIRE,
  DRY_COST_DELIVERY,
  DRY_COST_DISPOSAL,
  DRY_COST_MARKUP,
  DRY_COST_TAX,
  DRY_N_COST_GROUPS
} DryCostGroup;

/* "material", "labor", ... for files. */
const char *dry_cost_group_to_text (DryCostGroup group);

/* Room of a line that is for the whole job. */
#define DRY_COST_JOB G_MAXUINT

typedef struct {
  DryCostGroup group;
  guint room; /* index of the plan, or DRY_COST_JOB */
  const char *id, *name;
  const char *part; /* group of the take-off for material; else NULL */
  double amount;    /* in `unit`, with the book's waste */
  const char *unit; /* "pc", "m", "h", "day", "kg", "%" */
  double pack;      /* units in a pack; 1 where there are none */
  const char *pack_name;
  gint64 packs; /* rounded up; 0 where nothing is bought in packs */
  gint64 price; /* of a pack, hour, day or kg; hundredths */
  gint64 cost;  /* 0 and `priced` FALSE: a gap */
  gboolean priced;
  gboolean sample;      /* the price is an invented sample */
  gboolean expired;     /* not valid on the first day of work */
  const char *supplier; /* NULL = not told */
  DryWorking working;
} DryCostLine;

typedef struct {
  DryArena *arena; /* owned */
  const DryPriceBook *book;
  DryCostLine *lines; /* by group, then room, then as in the take-off */
  guint n;
  gint64 sum[DRY_N_COST_GROUPS]; /* of the priced lines */
  gint64 total;
  guint n_gaps, n_samples, n_expired;
  gboolean dated; /* FALSE: whether prices are still valid was not asked */
  double hours;
  double disposal_mass; /* kg */
} DryCost;

/* `schedule` is of these plans; the book must live as long. */
DryCost *dry_cost_new (const DryPlan *const *plans, guint n_plans, const DrySchedule *schedule,
                       const DryPriceBook *book) G_GNUC_WARN_UNUSED_RESULT;
void dry_cost_free (DryCost *self);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (DryCost, dry_cost_free)

void dry_cost_write_json (const DryCost *self, DryJsonWriter *writer, const char *key);
/* "1234.50", a point in any locale; in `arena`. */
const char *dry_money_text (DryArena *arena, gint64 hundredths);
/* As a table for a spreadsheet: a row a line, sums last; `plans` give the rooms' names. */
DryRows *dry_cost_to_rows (const DryCost *self,
                           const DryPlan *const *plans) G_GNUC_WARN_UNUSED_RESULT;
