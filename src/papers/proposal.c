/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The client's proposal: what it will look like, what was chosen, every cut that will be seen, when
 * it is done, what it costs if wished, what is not in it, cautions, and where to sign. */
#include "papers/client-private.h"

static char *
write_basin (const DryFlow *flow, const DryPlan *plan)
{
  const DryBasin *basin = &plan->context.room->basin;
  g_autofree char *l = dry_flow_length (flow->papers, plan, basin->length);
  g_autofree char *w = dry_flow_length (flow->papers, plan, basin->width);

  if (!basin->id)
    return NULL;
  return g_strdup_printf ("%s, %s × %s", basin->kind == DRY_BASIN_TUB ? "Tub" : "Shower pan", l, w);
}

static char *
write_tile (const DryFlow *flow, const DryPlan *plan)
{
  const DryFinish *finish = &plan->context.room->finish;
  const DryItem *item =
      finish->tile ? dry_catalog_get_item (plan->context.catalog, finish->tile) : NULL;
  g_autofree char *w = dry_flow_length (flow->papers, plan, finish->tile_width);
  g_autofree char *h = dry_flow_length (flow->papers, plan, finish->tile_height);
  g_autofree char *joint = dry_flow_length (flow->papers, plan, finish->joint);

  if (!finish->tiled)
    return g_strdup ("not chosen yet");
  return g_strdup_printf ("%s%s%s × %s, joint %s", item ? item->name : "", item ? ": " : "", w, h,
                          joint);
}

/* "niche 12 x 20, valve, spout" */
static char *
write_parts (const DryFlow *flow, const DryPlan *plan)
{
  static const char *const names[] = {"niche",       "valve",    "spout", "shower head",
                                      "hand shower", "grab bar", "bench", "glass"};
  const DryRoom *room = plan->context.room;
  GString *out = g_string_new (NULL);

  for (guint i = 0; i < room->n_parts; i++) {
    const DryPart *part = &room->parts[i];
    g_autofree char *w = dry_flow_length (flow->papers, plan, part->width);
    g_autofree char *h = dry_flow_length (flow->papers, plan, part->height);
    if ((guint) part->kind >= G_N_ELEMENTS (names))
      continue;
    g_string_append_printf (out, "%s%s", out->len ? ", " : "",
                            part->label ? part->label : names[part->kind]);
    if (part->kind == DRY_PART_NICHE || part->kind == DRY_PART_GLASS ||
        part->kind == DRY_PART_BENCH)
      g_string_append_printf (out, " %s × %s", w, h);
  }
  return g_string_free (out, out->len == 0);
}

static void
add_choice (DryFlow *flow, const DryPlan *plan)
{
  g_autofree char *basin = write_basin (flow, plan), *tile = write_tile (flow, plan);
  g_autofree char *parts = write_parts (flow, plan);
  g_autofree char *area = dry_papers_area (flow, plan->coating->wet_area);

  dry_client_fact (flow, "Tub or shower", basin);
  dry_client_fact (flow, "Tile", tile);
  dry_client_fact (flow, "Built in", parts);
  dry_client_fact (flow, "Behind the tile", plan->context.system->name);
  dry_client_fact (flow, "Tiled wet wall", area);
}

static void
add_rooms (DryFlow *flow, const DryPlan *const *plans, guint n_plans)
{
  for (guint i = 0; i < n_plans; i++) {
    flow->plan = plans[i];
    if (i > 0)
      dry_flow_begin (flow, "Proposal");
    dry_flow_text (flow, (DryType){12, FALSE, DRY_INK_TEXT_FAINT, DRY_ALIGN_LEFT}, 0,
                   dry_flow_room_name (plans[i]));
    dry_flow_skip (flow, 1);
    dry_client_picture (flow, plans[i], 95);
    add_choice (flow, plans[i]);
    dry_proposal_add_cuts (flow, plans[i]);
  }
}

static void
add_time (DryFlow *flow, const DrySchedule *schedule)
{
  DrySchedule *texts = (DrySchedule *) schedule; /* its arena keeps the texts */
  g_autofree char *ready = NULL;

  dry_flow_heading (flow, "When", 20);
  dry_client_fact (flow, "Work begins", dry_schedule_day (texts, schedule->start));
  if (schedule->tile_start >= 0)
    dry_client_fact (flow, "Tile is set from", dry_schedule_day (texts, schedule->tile_start));
  if (schedule->shower >= 0)
    ready = schedule->shower_longest > schedule->shower
                ? g_strdup_printf ("%s; if everything dries slowly, %s",
                                   dry_schedule_day (texts, schedule->shower),
                                   dry_schedule_day (texts, schedule->shower_longest))
                : g_strdup (dry_schedule_day (texts, schedule->shower));
  dry_client_fact (flow, "First shower", ready ? ready : schedule->missing);
  dry_flow_text (flow, dry_type_small, 0,
                 "Inspections, deliveries and what is found behind the old walls may move these "
                 "days. Nothing is covered before its inspection or test has passed.");
}

static void
add_price (DryFlow *flow, const DryCost *cost)
{
  static const char *const names[] = {
      "Material", "Labor", "Tools hired", "Delivery", "Disposal", "Overhead and profit", "Tax"};
  static const DryColumn columns[] = {{"", 0.75, DRY_ALIGN_LEFT}, {"", 0.25, DRY_ALIGN_RIGHT}};
  const DryTable table = {columns, G_N_ELEMENTS (columns)};
  g_autofree char *total = dry_client_money (flow->papers, cost->total, cost->book->currency);

  dry_flow_heading (flow, "Price", 40);
  for (guint i = 0; i < DRY_N_COST_GROUPS; i++) {
    g_autofree char *sum = dry_client_money (flow->papers, cost->sum[i], NULL);
    const char *cells[] = {names[i], sum};
    if (cost->sum[i] != 0)
      dry_flow_table_row (flow, &table, cells, FALSE, NULL, 0);
  }
  dry_flow_table_row (flow, &table, (const char *[]){"Total", total}, TRUE, NULL, 0);
  dry_flow_table_end (flow);
  dry_client_sample_note (flow, cost);
}

static void
add_exclusions (DryFlow *flow)
{
  static const char *const texts[] = {
      ("Rot, mold or damage found when the walls are opened, and work that local code then asks "
       "for."),
      "Moving pipes, drains or wires beyond what is drawn; a licensed trade does them.",
      "Permits and the inspector's fees, unless they stand in the price.",
      "Furniture, mirrors, paint and floors outside the wet area.",
      "Changes made after signing: they are written as a change order first.",
  };

  dry_flow_heading (flow, "Not included", 12);
  for (guint i = 0; i < G_N_ELEMENTS (texts); i++) {
    g_autofree char *line = g_strdup_printf ("–  %s", texts[i]);
    dry_flow_text (flow, dry_type_body, 0, line);
  }
}

gboolean
dry_papers_write_proposal (const DryPlan *const *plans, guint n_plans, const DryCost *cost,
                           const DrySchedule *schedule, gboolean prices,
                           const DryPaperOptions *options, const char *path, GError **error)
{
  DryFlow flow;
  const DryJob *job = plans[0]->context.job;
  g_autofree char *agreed = NULL;

  dry_client_open (&flow, plans[0], options);
  dry_flow_begin (&flow, "Proposal");
  dry_flow_text (&flow, dry_type_title, 0, job->title);
  if (job->client) {
    g_autofree char *to = g_strdup_printf ("For %s", job->client);
    dry_flow_text (&flow, dry_type_body, 0, to);
  }
  add_rooms (&flow, plans, n_plans);
  add_time (&flow, schedule);
  if (prices)
    add_price (&flow, cost);
  add_exclusions (&flow);
  dry_papers_add_cautions (&flow);
  if (prices) {
    g_autofree char *total = dry_client_money (flow.papers, cost->total, cost->book->currency);

    agreed = g_strdup_printf ("As drawn and listed here, for %s.", total);
  } else {
    agreed = g_strdup ("As drawn and listed here.");
  }
  dry_client_sign (&flow, agreed);
  return dry_client_close (&flow, "Proposal for a wet area", path, error);
}
