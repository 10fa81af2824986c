/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The lines of a cost, group by group: packs at their price, hours at their rate, days of hire,
 * delivery, disposal by weight. Knows where a price is missing and says so. */
#include "plan/cost-private.h"

#include <math.h>

#include "plan/amounts.h"

static const DrySource practice = {"common practice, no source", DRY_CERTAINTY_COMMON_PRACTICE};

/* --- material --- */

static gboolean
is_valid (const DryCosting *self, const char *from, const char *to)
{
  /* ISO dates sort as text */
  return !self->date ||
         ((!from || strcmp (from, self->date) <= 0) && (!to || strcmp (self->date, to) <= 0));
}

/* The pack that holds `amount` at least cost; one of the system's own before one of any system, a
 * valid one before an expired one. */
static const DryPrice *
find_price (const DryCosting *self, const char *id, const char *system, const char *unit,
            double amount)
{
  const DryPriceBook *book = self->book;
  const DryPrice *best = NULL;
  gint64 least = 0;
  gint best_rank = 0;

  for (guint i = 0; id && i < book->n_prices; i++) {
    const DryPrice *price = &book->prices[i];
    gint rank =
        (price->system ? 1 : 3) + (is_valid (self, price->valid_from, price->valid_to) ? 0 : 1);
    gint64 cost;
    if (!g_str_equal (price->id, id) || !g_str_equal (price->unit, unit) ||
        (price->system && !g_str_equal (price->system, system)))
      continue;
    cost = dry_packs_for (amount, price->pack) * price->price;
    if (best && (rank > best_rank || (rank == best_rank && cost >= least)))
      continue;
    best = price;
    best_rank = rank;
    least = cost;
  }
  return best;
}

static double
with_waste (const DryCosting *self, const DryTakeoffLine *from, const char **formula)
{
  const DryWaste *waste = dry_price_book_get_waste (self->book, from->group);
  double amount = from->amount * (1 + (waste ? waste->percent : 0) / 100);

  *formula = dry_arena_printf (self->arena, "%s %s", dry_costing_number (self, from->amount, 3),
                               from->unit);
  if (waste && waste->percent > 0)
    *formula = dry_arena_printf (self->arena, "%s + %s %% = %s %s", *formula,
                                 dry_costing_number (self, waste->percent, 2),
                                 dry_costing_number (self, amount, 3), from->unit);
  return amount;
}

static void
set_price (const DryCosting *self, DryCostLine *line, const DryTakeoffLine *from,
           const DryPrice *price, const char *amount)
{
  gboolean own = price != NULL;
  DrySource source =
      own ? price->source
          : (DrySource){"sample price of the catalogue, invented", DRY_CERTAINTY_INVENTED};

  line->pack = own ? price->pack : from->pack;
  line->pack_name = own ? price->pack_name : from->pack_name;
  line->price = own ? price->price : from->price;
  line->packs = dry_packs_for (line->amount, line->pack);
  line->cost = line->packs * line->price;
  line->priced = TRUE;
  line->sample = source.certainty == DRY_CERTAINTY_INVENTED;
  line->supplier = own ? price->supplier : NULL;
  line->expired =
      own ? !is_valid (self, price->valid_from ? price->valid_from : self->book->valid_from,
                       price->valid_to ? price->valid_to : self->book->valid_to)
          : FALSE;
  line->working = dry_working_new (
      self->arena, source,
      dry_arena_printf (self->arena, "%s; / %s %s a pack -> %" G_GINT64_FORMAT " x %s = %s", amount,
                        dry_costing_number (self, line->pack, 4), line->unit, line->packs,
                        dry_money_text (self->arena, line->price),
                        dry_money_text (self->arena, line->cost)),
      "need", from->working.formula, NULL);
}

/* A price by the area, told for the boxes the tile comes in: these are bought whole. */
static const DryPrice *
price_box (const DryCosting *self, const DryPrice *price, double box_area, const DryTiling *tiling,
           const char **amount)
{
  DryPrice *box = dry_arena_copy (self->arena, price, sizeof *price);
  const char *what = tiling->sheet_across > 0 ? "sheets" : "tiles";

  box->pack = box_area;
  box->price = (gint64) ((double) price->price * box_area / price->pack + 0.5);
  box->pack_name = dry_arena_printf (self->arena, "box of %u", tiling->box);
  *amount = dry_arena_printf (
      self->arena, "%s; a box of %u %s is %s m2, at %s for %s m2 %s", *amount, tiling->box, what,
      dry_costing_number (self, box_area, 4), dry_money_text (self->arena, price->price),
      dry_costing_number (self, price->pack, 4), dry_money_text (self->arena, box->price));
  return box;
}

/* Tile is counted in pieces or sheets and sold in these or by the area they cover; mosaic has a
 * price of its own. */
static const DryPrice *
find_tile_price (const DryCosting *self, const DryPlan *plan, const char *tile, DryCostLine *line,
                 const char **amount)
{
  const DryTiling *tiling = plan->tiling;
  gboolean sheets = g_strcmp0 (line->unit, "sheet") == 0;
  const char *ids[] = {tile, sheets ? "tile-mosaic" : line->id, line->id};
  const char *system = plan->context.system->id;
  const DryFinish *finish = &plan->context.room->finish;
  double each = sheets ? tiling->area_each : dry_tile_area (finish, 0);
  const DryPrice *price = NULL;

  for (guint i = 0; i < G_N_ELEMENTS (ids) && !price; i++) {
    price = find_price (self, ids[i], system, line->unit, line->amount);
    if (price || (!sheets && g_strcmp0 (line->unit, "pc") != 0))
      continue;
    price = find_price (self, ids[i], system, "m2", line->amount * each);
    if (!price)
      continue;
    *amount = dry_arena_printf (self->arena, "%s x %s m2 = %s m2", *amount,
                                dry_costing_number (self, each, 5),
                                dry_costing_number (self, line->amount * each, 3));
    if (tiling->box > 0)
      price = price_box (self, price, tiling->box * each, tiling, amount);
    line->amount *= each;
    line->unit = "m2";
  }
  return price;
}

static void
add_material (DryCosting *self, guint room, const DryTakeoffLine *from)
{
  const DryPlan *plan = self->plans[room];
  const char *system = plan->context.system->id, *amount, *tile = plan->context.room->finish.tile;
  DryCostLine line = {.group = DRY_COST_MATERIAL,
                      .room = room,
                      .id = dry_arena_strdup (self->arena, from->id),
                      .name = dry_arena_strdup (self->arena, from->name),
                      .part = from->group,
                      .unit = from->unit,
                      .pack = from->pack,
                      .pack_name = from->pack_name,
                      .packs = from->packs};
  const DryPrice *price = NULL;

  line.amount = with_waste (self, from, &amount);
  if (g_str_equal (from->id, "tile"))
    price = find_tile_price (self, plan, tile, &line, &amount);
  if (!price)
    price = find_price (self, from->id, system, from->unit, line.amount);
  if (price || (self->book->samples && from->price > 0))
    set_price (self, &line, from, price, amount);
  else {
    line.packs = dry_packs_for (line.amount, line.pack);
    line.working = dry_working_new (
        self->arena, practice,
        dry_arena_printf (self->arena, "%s; the book “%s” has no price for “%s” by the %s", amount,
                          self->book->name, from->id, from->unit),
        "need", from->working.formula, NULL);
  }
  dry_costing_add (self, line);
}

void
dry_costing_add_material (DryCosting *self, guint room)
{
  const DryTakeoff *takeoff = self->plans[room]->takeoff;

  for (guint i = 0; i < takeoff->n; i++)
    add_material (self, room, &takeoff->lines[i]);
}

/* --- labor --- */

void
dry_costing_add_labor (DryCosting *self)
{
  for (guint i = 0; i < self->schedule->n; i++) {
    const DryTask *task = &self->schedule->tasks[i];
    const DryTaskRate *own = dry_price_book_get_task (self->book, task->step);
    gint64 rate = own && own->rate > 0 ? own->rate : self->book->rate;
    DrySource source = own && own->rate > 0 ? own->source : self->book->rate_source;
    DryCostLine line = {.group = DRY_COST_LABOR,
                        .room = task->room,
                        .id = dry_arena_strdup (self->arena, task->step),
                        .name = dry_arena_strdup (self->arena, task->text),
                        .amount = task->hours,
                        .unit = "h",
                        .pack = 1,
                        .price = rate,
                        .priced = rate > 0,
                        .sample = rate > 0 && source.certainty == DRY_CERTAINTY_INVENTED};
    if (task->hours <= 0)
      continue;
    line.cost = dry_cost_round (task->hours * (double) rate);
    line.working = dry_working_new (
        self->arena, source,
        rate > 0 ? dry_arena_printf (
                       self->arena, "%s h x %s = %s", dry_costing_number (self, task->hours, 3),
                       dry_money_text (self->arena, rate), dry_money_text (self->arena, line.cost))
                 : dry_arena_printf (self->arena, "%s h; the book “%s” has no rate an hour",
                                     dry_costing_number (self, task->hours, 3), self->book->name),
        "hours", task->working.formula, NULL);
    dry_costing_add (self, line);
  }
}

/* --- hire --- */

/* Days of the calendar on which one of the tasks is worked at. */
static guint
count_days (const DryCosting *self, const DryHire *hire)
{
  const DrySchedule *schedule = self->schedule;
  g_autoptr (GHashTable) days = g_hash_table_new_full (g_int64_hash, g_int64_equal, g_free, NULL);

  for (guint i = 0; i < schedule->n; i++) {
    const DryTask *task = &schedule->tasks[i];
    if (!g_strv_contains (hire->tasks, task->step) || task->minutes == 0)
      continue;
    for (gint64 day = task->start / DRY_MINUTES_A_DAY;
         day <= (task->finish - 1) / DRY_MINUTES_A_DAY; day++)
      if (dry_calendar_works_on (schedule->calendar, day))
        g_hash_table_add (days, g_memdup2 (&day, sizeof day));
  }
  return g_hash_table_size (days);
}

void
dry_costing_add_hire (DryCosting *self)
{
  for (guint i = 0; i < self->book->n_hire; i++) {
    const DryHire *hire = &self->book->hire[i];
    guint days = count_days (self, hire);
    gint64 cost = hire->price * days;
    if (days == 0)
      continue;
    dry_costing_add (
        self, (DryCostLine){.group = DRY_COST_HIRE,
                            .room = DRY_COST_JOB,
                            .id = hire->id,
                            .name = hire->name,
                            .amount = days,
                            .unit = "day",
                            .pack = 1,
                            .price = hire->price,
                            .cost = cost,
                            .priced = TRUE,
                            .sample = hire->source.certainty == DRY_CERTAINTY_INVENTED,
                            .working = dry_working_new (
                                self->arena, hire->source,
                                dry_arena_printf (self->arena, "%u day%s of the schedule x %s = %s",
                                                  days, days == 1 ? "" : "s",
                                                  dry_money_text (self->arena, hire->price),
                                                  dry_money_text (self->arena, cost)),
                                NULL)});
  }
}

/* --- delivery and disposal --- */

void
dry_costing_add_delivery (DryCosting *self)
{
  const DryPriceBook *book = self->book;
  gint64 material = dry_costing_sum (self, DRY_COST_MATERIAL);
  gboolean free_of_charge = book->free_delivery > 0 && material >= book->free_delivery;
  DryCostLine line = {.group = DRY_COST_DELIVERY,
                      .room = DRY_COST_JOB,
                      .id = "delivery",
                      .name = "Delivery",
                      .amount = 1,
                      .unit = "pc",
                      .pack = 1,
                      .price = MAX (book->delivery, 0),
                      .priced = book->delivery >= 0,
                      .sample = book->delivery_source.certainty == DRY_CERTAINTY_INVENTED};

  line.cost = free_of_charge ? 0 : line.price;
  line.working = dry_working_new (
      self->arena, book->delivery_source,
      !line.priced ? dry_arena_printf (self->arena, "the book “%s” has no price", book->name)
      : free_of_charge
          ? dry_arena_printf (self->arena, "material %s is %s or more: free",
                              dry_money_text (self->arena, material),
                              dry_money_text (self->arena, book->free_delivery))
          : dry_arena_printf (self->arena, "1 x %s", dry_money_text (self->arena, line.price)),
      NULL);
  dry_costing_add (self, line);
}

/* kg of board cut off and of old lining torn out; `formula` says how. */
static double
weigh_waste (const DryCosting *self, const DryPlan *plan, const char **formula)
{
  const DryPlanContext *context = &plan->context;
  const DrySystem *system = context->system;
  const DryCutting *cutting = plan->boards->cutting;
  double bought = 0,
         mass = dry_mass_at_thickness (system->mass.value,
                                       system->n_thicknesses ? system->thicknesses[0].value : 0,
                                       context->build_up.board);
  double off, torn = self->book->tear_out * plan->coating->wet_area;

  for (guint i = 0; cutting && i < cutting->n_sheets; i++) {
    const DryStock *stock = &cutting->stock[cutting->sheets[i].stock];
    bought += dry_length_to_mm (stock->width) * dry_length_to_mm (stock->height) / 1e6;
  }
  off = MAX (bought - plan->coating->board_area, 0) * mass;
  *formula = dry_arena_printf (
      self->arena, "(%s - %s) m2 x %s kg/m2 + %s m2 x %s kg/m2 = %s kg",
      dry_costing_number (self, bought, 2), dry_costing_number (self, plan->coating->board_area, 2),
      dry_costing_number (self, mass, 2), dry_costing_number (self, plan->coating->wet_area, 2),
      dry_costing_number (self, self->book->tear_out, 2), dry_costing_number (self, off + torn, 1));
  return off + torn;
}

void
dry_costing_add_disposal (DryCosting *self)
{
  const DryPriceBook *book = self->book;
  const char *all = "", *one;
  DryCostLine line = {.group = DRY_COST_DISPOSAL,
                      .room = DRY_COST_JOB,
                      .id = "disposal",
                      .name = "Disposal of offcuts and old lining",
                      .unit = "kg",
                      .pack = 1,
                      .price = MAX (book->disposal, 0),
                      .priced = book->disposal >= 0,
                      .sample = book->disposal_source.certainty == DRY_CERTAINTY_INVENTED};

  for (guint i = 0; i < self->n_plans; i++) {
    line.amount += weigh_waste (self, self->plans[i], &one);
    all = i == 0 ? one : dry_arena_printf (self->arena, "%s; %s", all, one);
  }
  self->disposal_mass = line.amount;
  if (!(line.amount > 0))
    return;
  line.cost = line.priced
                  ? MAX (dry_cost_round (line.amount * (double) line.price), book->disposal_minimum)
                  : 0;
  line.working = dry_working_new (
      self->arena, book->disposal_source,
      line.priced
          ? dry_arena_printf (self->arena, "%s; x %s, at least %s = %s", all,
                              dry_money_text (self->arena, line.price),
                              dry_money_text (self->arena, book->disposal_minimum),
                              dry_money_text (self->arena, line.cost))
          : dry_arena_printf (self->arena, "%s; the book “%s” has no price", all, book->name),
      NULL);
  dry_costing_add (self, line);
}
