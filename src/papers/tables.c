/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The take-off and the order of work as tables with their workings as foot lines.
 * Nothing is reckoned here; every number comes from the plan. */
#include "papers/papers-private.h"

char *
dry_papers_source (const DrySource *source)
{
  const char *certainty = dry_certainty_to_text (source->certainty);

  if (!source->text || !*source->text)
    return NULL;
  if (source->certainty == DRY_CERTAINTY_PUBLISHED || strstr (source->text, certainty))
    return g_strdup (source->text);
  return g_strdup_printf ("%s (%s)", source->text, certainty);
}

char *
dry_papers_working (const DryWorking *working)
{
  g_autofree char *source = dry_papers_source (&working->source);

  if (!working->formula || !*working->formula)
    return NULL;
  return source ? g_strdup_printf ("%s   Source: %s", working->formula, source)
                : g_strdup (working->formula);
}

char *
dry_papers_part_name (const DryPlan *plan, const DryPart *part)
{
  char *name = dry_room_dup_part_name (plan->context.room, part);

  name[0] = g_ascii_toupper (name[0]);
  return name;
}

char *
dry_papers_money (const DryPapers *papers, gint64 minor)
{
  char mark = papers->decimal == ',' ? ',' : '.';

  if (minor == 0)
    return NULL;
  return g_strdup_printf ("%s%" G_GINT64_FORMAT "%c%02d", minor < 0 ? "-" : "", ABS (minor) / 100,
                          mark, (int) (ABS (minor) % 100));
}

static const char *
name_group (const char *group)
{
  static const char *const names[][2] = {
      {"sheets", "Sheets"},   {"fasteners", "Fasteners"},
      {"joints", "Joints"},   {"membrane", "Membrane"},
      {"framing", "Framing"}, {"tile", "Tile"},
      {"floor", "Floor"},     {"on-hand", "On hand, not bought"}};

  for (guint i = 0; i < G_N_ELEMENTS (names); i++)
    if (g_strcmp0 (group, names[i][0]) == 0)
      return names[i][1];
  return group ? group : "";
}

static void
add_takeoff_line (DryFlow *flow, const DryTable *table, const DryTakeoffLine *line)
{
  g_autofree char *amount = dry_flow_number (flow->papers, line->amount, 2);
  g_autofree char *need = g_strdup_printf ("%s %s", amount, line->unit ? line->unit : "");
  g_autofree char *buy = g_strdup_printf ("%" G_GINT64_FORMAT " × %s", line->packs,
                                          line->pack_name ? line->pack_name : "");
  g_autofree char *price = dry_papers_money (flow->papers, line->price);
  g_autofree char *cost = dry_papers_money (flow->papers, line->cost);
  g_autofree char *foot = dry_papers_working (&line->working);
  const char *cells[] = {line->name, need, buy,
                         price           ? price
                         : line->on_hand ? "on hand"
                                         : "no price",
                         cost ? cost : "–"};

  dry_flow_table_row (flow, table, cells, FALSE, foot, 0);
}

void
dry_papers_add_takeoff (DryFlow *flow)
{
  static const DryColumn columns[] = {{"Item", 0.38, DRY_ALIGN_LEFT},
                                      {"Need", 0.15, DRY_ALIGN_RIGHT},
                                      {"Buy", 0.23, DRY_ALIGN_LEFT},
                                      {"A pack", 0.12, DRY_ALIGN_RIGHT},
                                      {"Cost", 0.12, DRY_ALIGN_RIGHT}};
  const DryTable table = {columns, G_N_ELEMENTS (columns)};
  const DryTakeoff *takeoff = flow->plan->takeoff;
  const char *group = NULL;
  g_autofree char *total = NULL, *mass = NULL, *gap = NULL;

  dry_flow_begin (flow, "Take-off");
  dry_flow_text (
      flow, dry_type_small, 0,
      "Packs are rounded up. Prices are invented samples: put in your own before you quote.");
  dry_flow_skip (flow, 1);
  dry_flow_table_head (flow, &table);
  for (guint i = 0; i < takeoff->n; i++) {
    const DryTakeoffLine *line = &takeoff->lines[i];
    if (g_strcmp0 (group, line->group) != 0)
      dry_flow_table_group (flow, &table, name_group (line->group));
    group = line->group;
    add_takeoff_line (flow, &table, line);
  }
  total = dry_papers_money (flow->papers, takeoff->cost);
  if (takeoff->n_unpriced > 0)
    gap = g_strdup_printf ("%u line%s without a price %s not in the sum.", takeoff->n_unpriced,
                           takeoff->n_unpriced == 1 ? "" : "s",
                           takeoff->n_unpriced == 1 ? "is" : "are");
  dry_flow_table_row (
      flow, &table,
      (const char *[]){"Sum of priced lines (sample prices)", "", "", "", total ? total : "–"},
      TRUE, gap, 0);
  dry_flow_table_end (flow);
  mass = dry_papers_mass (flow, takeoff->mass);
  if (takeoff->mass > 0) {
    g_autofree char *text = g_strdup_printf ("The board hung weighs about %s.", mass);
    dry_flow_text (flow, dry_type_small, 0, text);
  }
}

char *
dry_papers_mass (const DryFlow *flow, double kg)
{
  g_autofree char *metric = dry_flow_number (flow->papers, kg, kg < 10 ? 1 : 0);
  g_autofree char *pounds = dry_flow_number (flow->papers, kg / 0.45359237, 0);

  return flow->plan->context.job->metric ? g_strdup_printf ("%s kg", metric)
                                         : g_strdup_printf ("%s lb (%s kg)", pounds, metric);
}

char *
dry_papers_area (const DryFlow *flow, double m2)
{
  g_autofree char *metric = dry_flow_number (flow->papers, m2, 2);
  g_autofree char *feet = dry_flow_number (flow->papers, m2 / (0.3048 * 0.3048), 1);

  return flow->plan->context.job->metric ? g_strdup_printf ("%s m²", metric)
                                         : g_strdup_printf ("%s ft² (%s m²)", feet, metric);
}

static char *
write_hours (const DryPapers *papers, double least, double most)
{
  g_autofree char *a = dry_flow_number (papers, least, 1);
  g_autofree char *b = dry_flow_number (papers, most, 1);

  if (most <= 0)
    return g_strdup ("–");
  return least == most ? g_strdup_printf ("%s h", a) : g_strdup_printf ("%s to %s h", a, b);
}

void
dry_papers_add_order (DryFlow *flow)
{
  static const DryColumn columns[] = {{"", 0.05, DRY_ALIGN_RIGHT},
                                      {"Step", 0.57, DRY_ALIGN_LEFT},
                                      {"Hands-on", 0.12, DRY_ALIGN_RIGHT},
                                      {"Then wait", 0.16, DRY_ALIGN_RIGHT},
                                      {"Hold", 0.10, DRY_ALIGN_LEFT}};
  const DryTable table = {columns, G_N_ELEMENTS (columns)};
  const DryOrder *order = flow->plan->order;
  g_autofree char *sum = NULL, *all = write_hours (flow->papers, order->hours, order->hours);
  g_autofree char *until =
      write_hours (flow->papers, order->hours_to_tile_min, order->hours_to_tile_max);

  dry_flow_begin (flow, "Order of work");
  dry_flow_table_head (flow, &table);
  for (guint i = 0; i < order->n; i++) {
    const DryStep *step = &order->items[i];
    g_autofree char *number = g_strdup_printf ("%u", i + 1);
    g_autofree char *hours = write_hours (flow->papers, step->hours, step->hours);
    g_autofree char *wait = write_hours (flow->papers, step->wait_min, step->wait_max);
    g_autofree char *foot = dry_papers_working (&step->working);
    const char *cells[] = {number, step->text, hours, wait, step->hold ? "HOLD" : ""};
    dry_flow_table_row (flow, &table, cells, step->hold, foot, 1);
  }
  dry_flow_table_end (flow);
  sum = g_strdup_printf (
      "One installer's hands-on time is about %s; with the waits, tiling can start "
      "about %s of running hours after the first step. HOLD: nothing goes on "
      "before the inspection or test has passed.",
      all, until);
  dry_flow_text (flow, dry_type_small, 0, sum);
}
