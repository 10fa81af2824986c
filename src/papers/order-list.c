/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The order list: packs to buy, by supplier, equal packs of several rooms taken together in the
 * list as they are priced. Sums are those of the cost's material lines. */
#include "papers/client-private.h"

/* Lines of one pack; packs and money add up, for each room buys its own. */
typedef struct {
  const DryCostLine *line;
  gint64 packs, cost;
} Item;

static const char *
supplier_of (const DryCostLine *line)
{
  return !line->priced ? "No price: ask for one" : line->supplier ? line->supplier : "Any supplier";
}

static gboolean
is_same_pack (const DryCostLine *a, const DryCostLine *b)
{
  return a->priced == b->priced && a->price == b->price && a->pack == b->pack &&
         g_strcmp0 (a->id, b->id) == 0 && g_strcmp0 (a->name, b->name) == 0 &&
         g_strcmp0 (a->supplier, b->supplier) == 0;
}

static GArray *
gather (const DryCost *cost)
{
  GArray *items = g_array_new (FALSE, TRUE, sizeof (Item));

  for (guint i = 0; i < cost->n; i++) {
    const DryCostLine *line = &cost->lines[i];
    Item *found = NULL;
    if (line->group != DRY_COST_MATERIAL)
      continue;
    for (guint j = 0; j < items->len && !found; j++)
      if (is_same_pack (g_array_index (items, Item, j).line, line))
        found = &g_array_index (items, Item, j);
    if (!found) {
      Item item = {line, 0, 0};
      g_array_append_val (items, item);
      found = &g_array_index (items, Item, items->len - 1);
    }
    found->packs += line->packs;
    found->cost += line->cost;
  }
  return items;
}

static void
add_item (DryFlow *flow, const DryTable *table, const Item *item)
{
  const DryCostLine *line = item->line;
  g_autofree char *buy = g_strdup_printf ("%" G_GINT64_FORMAT " × %s", item->packs,
                                          line->pack_name ? line->pack_name : line->unit);
  g_autofree char *price =
      line->priced ? dry_client_money (flow->papers, line->price, NULL) : g_strdup ("no price");
  g_autofree char *sum =
      line->priced ? dry_client_money (flow->papers, item->cost, NULL) : g_strdup ("–");
  const char *cells[] = {line->name, line->id, buy, price, sum, "☐"};

  dry_flow_table_row (flow, table, cells, FALSE, NULL, 0);
}

/* The sum of one supplier; marks its items done by clearing them. */
static void
add_supplier (DryFlow *flow, const DryTable *table, GArray *items, const char *supplier)
{
  gint64 sum = 0;
  g_autofree char *text = NULL;

  dry_flow_table_group (flow, table, supplier);
  for (guint i = 0; i < items->len; i++) {
    Item *item = &g_array_index (items, Item, i);
    if (!item->line || !g_str_equal (supplier_of (item->line), supplier))
      continue;
    add_item (flow, table, item);
    sum += item->cost;
    item->line = NULL;
  }
  text = dry_client_money (flow->papers, sum, NULL);
  dry_flow_table_row (flow, table, (const char *[]){"", "", "", "sum", text, ""}, TRUE, NULL, 0);
}

gboolean
dry_papers_write_order (const DryPlan *const *plans, guint n_plans, const DryCost *cost,
                        const DryPaperOptions *options, const char *path, GError **error)
{
  static const DryColumn columns[] = {
      {"Item", 0.36, DRY_ALIGN_LEFT},  {"Id", 0.14, DRY_ALIGN_LEFT},
      {"Buy", 0.22, DRY_ALIGN_LEFT},   {"A pack", 0.11, DRY_ALIGN_RIGHT},
      {"Cost", 0.12, DRY_ALIGN_RIGHT}, {"", 0.05, DRY_ALIGN_CENTRE}};
  const DryTable table = {columns, G_N_ELEMENTS (columns)};
  g_autoptr (GArray) items = gather (cost);
  g_autofree char *total = NULL, *label = NULL;
  DryFlow flow;

  dry_client_open (&flow, plans[0], options);
  dry_flow_begin (&flow, "Order list");
  dry_client_sample_note (&flow, cost);
  dry_flow_table_head (&flow, &table);
  for (guint i = 0; i < items->len; i++) {
    const DryCostLine *line = g_array_index (items, Item, i).line;
    if (line)
      add_supplier (&flow, &table, items, supplier_of (line));
  }
  total = dry_client_money (flow.papers, cost->sum[DRY_COST_MATERIAL], NULL);
  label = g_strdup_printf ("All material, %s", cost->book->currency);
  dry_flow_table_row (&flow, &table, (const char *[]){label, "", "", "", total, ""}, TRUE,
                      "before delivery, markup and tax", 0);
  dry_flow_table_end (&flow);
  return dry_client_close (&flow, "Order list of a wet area", path, error);
}
