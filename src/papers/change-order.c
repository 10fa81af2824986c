/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The change order: from what is planned to an alternate, every difference in words, what it costs
 * and when it is then ready. Sums are the two costs' own. */
#include "papers/client-private.h"

static void
add_differences (DryFlow *flow, const DryOption *option)
{
  dry_flow_heading (flow, "What changes", 12);
  for (guint i = 0; i < option->n_differences; i++) {
    const DryDifference *difference = &option->differences[i];
    g_autofree char *line = g_strdup_printf ("–  %s", difference->text);
    dry_flow_text (flow, dry_type_body, 0, line);
    if (difference->why)
      dry_flow_text (flow, dry_type_small, 5, difference->why);
  }
  if (option->n_differences == 0)
    dry_flow_text (flow, dry_type_body, 0, "Nothing.");
}

static void
add_sum_row (DryFlow *flow, const DryTable *table, const char *name, gint64 was, gint64 now,
             gboolean strong)
{
  g_autofree char *a = dry_client_money (flow->papers, was, NULL);
  g_autofree char *b = dry_client_money (flow->papers, now, NULL);
  g_autofree char *by = dry_client_money (flow->papers, now - was, NULL);
  g_autofree char *sign = g_strconcat (now > was ? "+" : "", by, NULL);
  const char *cells[] = {name, a, b, sign};

  dry_flow_table_row (flow, table, cells, strong, NULL, 0);
}

static void
add_sums (DryFlow *flow, const DryCost *was, const DryCost *now)
{
  static const DryColumn columns[] = {{"", 0.40, DRY_ALIGN_LEFT},
                                      {"As planned", 0.20, DRY_ALIGN_RIGHT},
                                      {"As changed", 0.20, DRY_ALIGN_RIGHT},
                                      {"Difference", 0.20, DRY_ALIGN_RIGHT}};
  const DryTable table = {columns, G_N_ELEMENTS (columns)};
  g_autofree char *total = g_strdup_printf ("Total, %s", now->book->currency);

  dry_flow_heading (flow, "What it costs", 40);
  dry_flow_table_head (flow, &table);
  for (guint i = 0; i < DRY_N_COST_GROUPS; i++)
    if (was->sum[i] != 0 || now->sum[i] != 0)
      add_sum_row (flow, &table, dry_cost_group_to_text (i), was->sum[i], now->sum[i], FALSE);
  add_sum_row (flow, &table, total, was->total, now->total, TRUE);
  dry_flow_table_end (flow);
  dry_client_sample_note (flow, now);
}

static void
add_days (DryFlow *flow, const DryOption *was, const DryOption *now)
{
  g_autofree char *text = NULL;

  if (was->days_to_shower == 0 || now->days_to_shower == 0)
    return;
  dry_flow_heading (flow, "When", 10);
  text = g_strdup_printf ("First shower %s instead of %s.",
                          dry_schedule_day ((DrySchedule *) now->schedule, now->schedule->shower),
                          dry_schedule_day ((DrySchedule *) was->schedule, was->schedule->shower));
  dry_flow_text (flow, dry_type_body, 0, text);
}

static void
add_pictures (DryFlow *flow, const DryOption *option, const DryOption *base)
{
  for (guint i = 0; i < option->n_plans; i++) {
    if (i < base->n_plans && option->plans[i] == base->plans[i])
      continue; /* the same room */
    flow->plan = option->plans[i];
    dry_flow_heading (flow, "As changed", 74);
    dry_client_picture (flow, option->plans[i], 70);
  }
}

gboolean
dry_papers_write_change_order (const DryComparison *comparison, guint index,
                               const DryPaperOptions *options, const char *path, GError **error)
{
  const DryOption *base = &comparison->options[0], *option = &comparison->options[index];
  g_autofree char *title = g_strdup_printf ("From “%s” to “%s”", base->name, option->name);
  DryFlow flow;

  dry_client_open (&flow, option->plans[0], options);
  dry_flow_begin (&flow, "Change order");
  dry_flow_text (&flow, dry_type_heading, 0, title);
  if (option->note)
    dry_flow_text (&flow, dry_type_body, 0, option->note);
  add_differences (&flow, option);
  add_sums (&flow, base->cost, option->cost);
  add_days (&flow, base, option);
  add_pictures (&flow, option, base);
  dry_client_sign (&flow, "The work is changed as written here, and nothing else.");
  return dry_client_close (&flow, "Change order of a wet area", path, error);
}
