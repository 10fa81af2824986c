/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Gathers the lines of a cost, adds markup and tax, and sums up: the total is the sum of its lines.
 * Rounds once a line, never a sum. */
#include "plan/cost-private.h"

#include <math.h>

#include "plan/amounts.h"

static const char *const groups[] = {"material", "labor",  "hire", "delivery",
                                     "disposal", "markup", "tax"};
G_STATIC_ASSERT (G_N_ELEMENTS (groups) == DRY_N_COST_GROUPS);

const char *
dry_cost_group_to_text (DryCostGroup group)
{
  return groups[group];
}

gint64
dry_cost_round (double hundredths)
{
  /* what is half a hundredth on paper may lie a hair below it in binary */
  return (gint64) floor (hundredths + 0.5 + 1e-7);
}

const char *
dry_money_text (DryArena *arena, gint64 hundredths)
{
  return dry_arena_printf (arena, "%s%" G_GINT64_FORMAT ".%02d", hundredths < 0 ? "-" : "",
                           ABS (hundredths) / 100, (int) (ABS (hundredths) % 100));
}

const char *
dry_costing_number (const DryCosting *self, double value, int decimals)
{
  return dry_number_text (self->arena, value, decimals);
}

void
dry_costing_add (DryCosting *self, DryCostLine line)
{
  g_array_append_val (self->lines, line);
}

gint64
dry_costing_sum (const DryCosting *self, DryCostGroup group)
{
  gint64 sum = 0;

  for (guint i = 0; i < self->lines->len; i++) {
    const DryCostLine *line = &g_array_index (self->lines, DryCostLine, i);
    sum += line->group == group ? line->cost : 0;
  }
  return sum;
}

static DryCostLine
make_percent (const DryCosting *self, DryCostGroup group, const char *id, const char *name,
              double percent, gint64 base, DrySource source)
{
  gint64 cost = dry_cost_round ((double) base * percent / 100);

  return (DryCostLine){
      .group = group,
      .room = DRY_COST_JOB,
      .id = id,
      .name = name,
      .amount = percent,
      .unit = "%",
      .pack = 1,
      .cost = cost,
      .priced = TRUE,
      .sample = source.certainty == DRY_CERTAINTY_INVENTED,
      .working = dry_working_new (
          self->arena, source,
          dry_arena_printf (self->arena, "%s %% of %s = %s", dry_costing_number (self, percent, 3),
                            dry_money_text (self->arena, base), dry_money_text (self->arena, cost)),
          NULL)};
}

/* Markup on all before it; tax on what is taxed and the markup on that. */
static void
add_markup_and_tax (DryCosting *self)
{
  const DryPriceBook *book = self->book;
  gint64 base = 0, taxed;

  for (guint group = 0; group < DRY_COST_MARKUP; group++)
    base += dry_costing_sum (self, group);
  taxed = base - (book->tax_labor ? 0 : dry_costing_sum (self, DRY_COST_LABOR));
  if (book->markup > 0)
    dry_costing_add (self, make_percent (self, DRY_COST_MARKUP, "markup", "Overhead and profit",
                                         book->markup, base, book->markup_source));
  if (!book->tax_name)
    return;
  taxed += dry_cost_round ((double) taxed * book->markup / 100);
  dry_costing_add (self, make_percent (self, DRY_COST_TAX, "tax", book->tax_name, book->tax, taxed,
                                       book->tax_source));
}

static void
sum_up (DryCost *self)
{
  for (guint i = 0; i < self->n; i++) {
    const DryCostLine *line = &self->lines[i];
    self->sum[line->group] += line->cost;
    self->total += line->cost;
    self->n_gaps += !line->priced;
    self->n_samples += line->sample;
    self->n_expired += line->expired;
    self->hours += line->group == DRY_COST_LABOR ? line->amount : 0;
  }
}

DryCost *
dry_cost_new (const DryPlan *const *plans, guint n_plans, const DrySchedule *schedule,
              const DryPriceBook *book)
{
  DryCost *self = g_new0 (DryCost, 1);
  DryArena *arena = dry_arena_new ();
  g_autofree char *date = schedule->dated ? dry_date_to_text (schedule->first_day) : NULL;
  DryCosting costing = {.arena = arena,
                        .plans = plans,
                        .n_plans = n_plans,
                        .schedule = schedule,
                        .book = book,
                        .date = date,
                        .lines = g_array_new (FALSE, TRUE, sizeof (DryCostLine))};

  for (guint i = 0; i < n_plans; i++)
    dry_costing_add_material (&costing, i);
  dry_costing_add_labor (&costing);
  dry_costing_add_hire (&costing);
  dry_costing_add_delivery (&costing);
  dry_costing_add_disposal (&costing);
  add_markup_and_tax (&costing);
  self->arena = arena;
  self->book = book;
  self->dated = schedule->dated;
  self->disposal_mass = costing.disposal_mass;
  self->n = costing.lines->len;
  self->lines = dry_arena_take_array (arena, costing.lines);
  sum_up (self);
  return self;
}

void
dry_cost_free (DryCost *self)
{
  if (!self)
    return;
  dry_arena_unref (self->arena);
  g_free (self);
}
