/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Adds the amounts up to what is bought, in whole packs. Product lines first, then lumber and tile;
 * prices are the catalogue's invented samples and a missing one is said, never guessed. */
#include "plan/takeoff.h"

#include <string.h>

#include "plan/amounts.h"
#include "plan/takeoff-private.h"
#include "plan/cutting-standing.h"

void
dry_takeoff_add (DryTakeoffDraft *self, DryTakeoffLine line)
{
  line.packs = dry_packs_for (line.amount, line.pack);
  if (line.packs <= 0)
    return;
  line.cost = line.price * line.packs;
  g_array_append_val (self->lines, line);
}

const char *
dry_takeoff_number (const DryTakeoffDraft *self, double value, int decimals)
{
  return dry_number_text (self->context->arena, value, decimals);
}

/* --- sheets --- */

static const char *
name_of_sheet (const DryTakeoffDraft *self, const DryStock *stock)
{
  const DryPlanContext *context = self->context;
  guint row =
      stock->on_hand ? (guint) g_ascii_strtoull (stock->id + strlen ("on-hand-"), NULL, 10) : 0;

  if (row > 0) {
    const char *note = context->room->on_hand[row - 1].note;
    return dry_arena_printf (context->arena, "%s board on hand, %s × %s%s%s",
                             dry_context_length (context, context->build_up.board),
                             dry_context_length (context, stock->width),
                             dry_context_length (context, stock->height), note ? ", " : "",
                             note ? note : "");
  }
  const DrySheet *sheet = dry_system_get_sheet (context->system, stock->id);

  return dry_arena_printf (context->arena, "%s board, %s, %s",
                           dry_context_length (context, context->build_up.board),
                           sheet ? sheet->name : stock->id, context->system->name);
}

static void
add_sheets (DryTakeoffDraft *self, gboolean on_hand)
{
  const DryCutting *cutting = self->boards->cutting;
  DryArena *arena = self->context->arena;

  for (guint i = 0; cutting && i < cutting->n_stock; i++) {
    const DryStock *stock = &cutting->stock[i];
    guint n = 0, pieces = 0;
    if (stock->on_hand != on_hand)
      continue;
    for (guint j = 0; j < cutting->n_sheets; j++)
      if (cutting->sheets[j].stock == i) {
        n++;
        pieces += cutting->sheets[j].n_placements;
      }
    const char *formula = dry_arena_printf (
        arena, "%u piece%s cut from %u sheet%s; in all %s", pieces, pieces == 1 ? "" : "s", n,
        n == 1 ? "" : "s", dry_standing_to_text (dry_boards_get_standing (self->boards), arena));
    dry_takeoff_add (
        self, (DryTakeoffLine){
                  .id = stock->id,
                  .group = on_hand ? "on-hand" : "sheets",
                  .name = name_of_sheet (self, stock),
                  .amount = n,
                  .unit = "pc",
                  .pack = 1,
                  .pack_name = "sheet",
                  .price = stock->price,
                  .on_hand = on_hand,
                  .working = dry_working_new (
                      arena, (DrySource){"the cut sheets of this plan", DRY_CERTAINTY_DERIVED},
                      formula, "pieces", dry_arena_printf (arena, "%u", pieces), "waste",
                      dry_arena_printf (arena, "%s %%",
                                        dry_takeoff_number (self, cutting->waste * 100, 1)),
                      NULL)});
  }
}

/* --- products --- */

static const char *
find_group (const DrySystem *system, const DryProduct *product)
{
  if (g_strcmp0 (product->id, system->fastener) == 0 ||
      g_strcmp0 (product->id, system->washer) == 0)
    return "fasteners";
  if (g_strcmp0 (product->id, system->membrane_product) == 0 ||
      g_strcmp0 (product->id, system->mortar_product) == 0)
    return "membrane";
  for (guint i = 0; i < DRY_N_JOINT_KINDS; i++)
    if (g_strcmp0 (product->id, system->treatments[i].product) == 0 ||
        g_strcmp0 (product->id, system->treatments[i].bedding) == 0)
      return "joints";
  return product->use == DRY_USE_AREA ? "membrane" : "joints";
}

static DryWorking
work_out_product (const DryTakeoffDraft *self, const DryProduct *product, double amount)
{
  DryArena *arena = self->context->arena;
  g_autoptr (GString) formula = g_string_new (NULL);
  GArray *inputs = g_array_new (FALSE, FALSE, sizeof (DryInput));
  DryWorking working = {.source = product->source};
  double packs = product->pack > 0 ? amount / product->pack : 0;

  for (guint i = 0; i < self->coating->n; i++) {
    const DryAmount *it = &self->coating->items[i];
    if (it->product != product)
      continue;
    g_string_append_printf (formula, "%s%s", inputs->len ? " + " : "",
                            dry_takeoff_number (self, it->amount, 3));
    DryInput input = {it->purpose, it->working.formula};
    g_array_append_val (inputs, input);
  }
  if (inputs->len > 1)
    g_string_append_printf (formula, " = %s", dry_takeoff_number (self, amount, 3));
  g_string_append_printf (formula, " %s; / %s %s a pack = %s -> %" G_GINT64_FORMAT, product->unit,
                          dry_takeoff_number (self, product->pack, 3), product->unit,
                          dry_takeoff_number (self, packs, 2),
                          dry_packs_for (amount, product->pack));
  if (!working.source.text)
    working.source = (DrySource){"common practice, no source", DRY_CERTAINTY_COMMON_PRACTICE};
  working.formula = dry_arena_strdup (arena, formula->str);
  working.n_inputs = inputs->len;
  working.inputs = dry_arena_take_array (arena, inputs);
  return working;
}

static void
add_products (DryTakeoffDraft *self, const char *group)
{
  const DrySystem *system = self->context->system;

  for (guint i = 0; i < system->n_products; i++) {
    const DryProduct *product = &system->products[i];
    double amount = 0;
    if (g_strcmp0 (find_group (system, product), group) != 0)
      continue;
    for (guint j = 0; j < self->coating->n; j++)
      if (self->coating->items[j].product == product)
        amount += self->coating->items[j].amount;
    if (amount > 0)
      dry_takeoff_add (self, (DryTakeoffLine){.id = product->id,
                                              .group = group,
                                              .name = product->name,
                                              .amount = amount,
                                              .unit = product->unit,
                                              .pack = product->pack > 0 ? product->pack : 1,
                                              .pack_name = product->pack_name,
                                              .price = product->price,
                                              .working = work_out_product (self, product, amount)});
  }
}

static double
weigh_boards (const DryPlanContext *context, const DryCoating *coating)
{
  const DrySystem *system = context->system;
  DryLength usual = system->n_thicknesses ? system->thicknesses[0].value : 0;

  /* a floated wall weighs as much as its bed */
  return (system->n_sheets ? coating->board_area : coating->wet_area) *
         dry_mass_at_thickness (system->mass.value, usual, context->build_up.board);
}

const DryTakeoff *
dry_takeoff_compute (const DryPlanContext *context, const DryFaces *faces,
                     const DryFraming *framing, const DryBoards *boards,
                     const DryFasteners *fasteners, const DryJoints *joints,
                     const DryCoating *coating, const DryTiling *tiling, const DryFloor *floor,
                     GError **error)
{
  DryTakeoff *self = dry_arena_alloc (context->arena, sizeof *self);
  DryTakeoffDraft draft = {
      context,
      framing,
      boards,
      coating,
      tiling,
      floor,
      g_array_new (FALSE, TRUE, sizeof (DryTakeoffLine)),
  };

  add_sheets (&draft, FALSE);
  add_sheets (&draft, TRUE);
  add_products (&draft, "fasteners");
  add_products (&draft, "joints");
  add_products (&draft, "membrane");
  dry_takeoff_add_lumber (&draft);
  dry_takeoff_add_tile (&draft);
  dry_takeoff_add_floor (&draft);
  self->n = draft.lines->len;
  self->lines = dry_arena_take_array (context->arena, draft.lines);
  for (guint i = 0; i < self->n; i++) {
    self->cost += self->lines[i].cost;
    self->n_unpriced += self->lines[i].price == 0 && !self->lines[i].on_hand ? 1 : 0;
  }
  self->mass = weigh_boards (context, coating);
  return self;
}
