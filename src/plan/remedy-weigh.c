/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Applies each remedy to a copy, plans that and tells the difference from the plan there is.
 * Knows no remedy by name; it only compares plans. */
#include "plan/remedy-weigh.h"

#include <math.h>
#include <string.h>

#include "plan/amounts.h"

static gint
count_cut (const DryPlan *plan)
{
  double cut = 0;

  for (guint i = 0; i < plan->measures->n; i++) {
    const DryMeasure *measure = dry_subject_get (&plan->measures->items[i], "studs-cut");
    cut += measure ? measure->number : 0;
  }
  return (gint) cut;
}

static guint
count_sheets (const DryPlan *plan)
{
  return plan->boards->cutting ? plan->boards->cutting->n_sheets : 0;
}

static gboolean
has_finding (const DryPlan *plan, const char *id)
{
  for (guint i = 0; i < plan->findings->n; i++)
    if (strcmp (plan->findings->items[i].id, id) == 0)
      return TRUE;
  return FALSE;
}

static void
append_part (GString *text, double by, const char *one, const char *many, gint decimals)
{
  char number[G_ASCII_DTOSTR_BUF_SIZE], format[8] = "%.0f";

  format[2] = (char) ('0' + decimals);
  g_ascii_formatd (number, sizeof number, format, fabs (by));
  if (g_ascii_strtod (number, NULL) == 0)
    return;
  g_string_append_printf (text, "%s%s %s %s", text->len ? ", " : "", number,
                          strcmp (number, "1") == 0 ? one : many, by > 0 ? "more" : "less");
}

static const char *
tell (DryArena *arena, const DryRemedyWeight *weight)
{
  g_autoptr (GString) text = g_string_new (NULL);

  append_part (text, weight->studs_cut, "stud cut", "studs cut", 0);
  append_part (text, weight->members, "piece of framing", "pieces of framing", 0);
  append_part (text, weight->sheets, "sheet", "sheets", 0);
  append_part (text, weight->hours, "hour of work", "hours of work", 1);
  append_part (text, weight->days, "day until tiling", "days until tiling", 1);
  append_part (text, (double) weight->money / 100, "in material", "in material", 2);
  for (guint i = 0; i < 3; i++) {
    static const char *const ONE[] = {"stop", "thing to fix", "advice"};
    static const char *const MANY[] = {"stops", "things to fix", "pieces of advice"};
    if (weight->found[i] > 0)
      append_part (text, weight->found[i], ONE[i], MANY[i], 0);
  }
  return text->len ? dry_arena_strdup (arena, text->str) : "costs nothing";
}

static void
compare_plans (DryRemedyWeight *weight, const DryPlan *before, const DryPlan *after,
               const DryFinding *finding)
{
  weight->mends = !has_finding (after, finding->id);
  for (guint i = 0; i < 3; i++)
    weight->found[i] = (gint) after->findings->count[i] - (gint) before->findings->count[i];
  weight->studs_cut = count_cut (after) - count_cut (before);
  weight->members = (gint) (after->framing->n + after->boards->n_blocking) -
                    (gint) (before->framing->n + before->boards->n_blocking);
  weight->sheets = (gint) count_sheets (after) - (gint) count_sheets (before);
  weight->hours = after->order->hours - before->order->hours;
  weight->days = (after->order->hours_to_tile_min - before->order->hours_to_tile_min) / 24;
  weight->money = after->takeoff->cost - before->takeoff->cost;
  weight->priced = after->takeoff->n_unpriced == before->takeoff->n_unpriced;
}

static gboolean
weigh_one (DryRemedyWeight *weight, DryArena *arena, const DryPlan *before, DryId room,
           const DryPlan *plan, const DryFinding *finding, GCancellable *cancellable,
           GError **error)
{
  g_autoptr (GError) refusal = NULL;
  g_autoptr (DryPlan) after = NULL;

  weight->by_hand = weight->remedy->edit == NULL;
  weight->text = "by hand";
  if (weight->by_hand)
    return TRUE;
  weight->project = dry_remedy_apply (plan->project, room, plan, finding, weight->remedy, &refusal);
  if (!weight->project) {
    weight->refused = dry_arena_strdup (arena, refusal->message);
    weight->text = weight->refused;
    return TRUE;
  }
  after = dry_plan_new (weight->project, room, plan->context.catalog, cancellable, error);
  if (!after)
    return FALSE;
  compare_plans (weight, before, after, finding);
  weight->text = tell (arena, weight);
  return TRUE;
}

static gint
rank (const DryRemedyWeight *weight)
{
  return weight->refused ? 3 : weight->by_hand ? 2 : weight->mends ? 0 : 1;
}

/* What is worse to live with comes before what costs. */
static gint
compare_weights (gconstpointer a, gconstpointer b)
{
  const DryRemedyWeight *x = a, *y = b;
  const double keys[][2] = {
      {rank (x), rank (y)},
      {x->found[0], y->found[0]},
      {x->found[1], y->found[1]},
      {x->studs_cut, y->studs_cut},
      {(double) x->money, (double) y->money},
      {x->days, y->days},
      {x->hours, y->hours},
      {x->members, y->members},
      {x->found[2], y->found[2]},
  };

  for (guint i = 0; i < G_N_ELEMENTS (keys); i++)
    if (fabs (keys[i][0] - keys[i][1]) > 1e-9)
      return keys[i][0] < keys[i][1] ? -1 : 1;
  return x->remedy < y->remedy ? -1 : x->remedy > y->remedy;
}

DryRemedyWeights *
dry_remedy_weigh (const DryPlan *plan, const DryFinding *finding, GCancellable *cancellable,
                  GError **error)
{
  g_autoptr (DryRemedyWeights) self = g_new0 (DryRemedyWeights, 1);
  g_autoptr (DryPlan) live = NULL;
  DryId room = plan->context.room->id;

  self->arena = dry_arena_new ();
  /* Like with like: against a plan that was searched on for fewer sheets every remedy, planned
   * live, would seem to cost what only the search had saved. */
  if (plan->context.effort > 0) {
    live = dry_plan_new (plan->project, room, plan->context.catalog, cancellable, error);
    if (!live)
      return NULL;
  }
  self->n = finding->rule->n_remedies;
  self->items = dry_arena_alloc (self->arena, sizeof (DryRemedyWeight) * self->n);
  for (guint i = 0; i < self->n; i++) {
    self->items[i].remedy = &finding->rule->remedies[i];
    if (!weigh_one (&self->items[i], self->arena, live ? live : plan, room, plan, finding,
                    cancellable, error))
      return NULL;
  }
  qsort (self->items, self->n, sizeof (DryRemedyWeight), compare_weights);
  return g_steal_pointer (&self);
}

void
dry_remedy_weights_free (DryRemedyWeights *self)
{
  if (!self)
    return;
  for (guint i = 0; i < self->n; i++)
    g_clear_pointer (&self->items[i].project, dry_project_unref);
  dry_arena_unref (self->arena);
  g_free (self);
}
