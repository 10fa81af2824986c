/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The area one tile or sheet takes, by geometry, against every figure that goes by it: the count by
 * allowance, what an order covers, what is paid for. Prices are invented. */
#include <math.h>

#include "plan/cost.h"
#include "plan/rule-room.h"

#define IN(x) ((DryLength) ((x) *DRY_INCH))

/* A hexagon of side s takes 3 sqrt (3) / 2 x s^2 (geometry); from flat to flat it measures
 * s sqrt (3). Others take what the box round them takes. */
static double
exact_area (DryPattern pattern, double width, double height)
{
  double side = width / sqrt (3);

  return pattern == DRY_PATTERN_HEXAGON ? 3 * sqrt (3) / 2 * side * side : width * height;
}

typedef struct {
  DryPattern pattern;
  double width, height, joint; /* inches */
  gint across, up;             /* chips of a sheet; 0: loose */
} Sold;

static void
change_sold (DryFinish *finish, gpointer data)
{
  const Sold *sold = data;

  finish->tiled = TRUE;
  finish->tile = NULL;
  finish->pattern = sold->pattern;
  finish->tile_width = IN (sold->width);
  finish->tile_height = IN (sold->height);
  finish->joint = IN (sold->joint);
  finish->chips_across = sold->across;
  finish->chips_up = sold->up;
  finish->tiles_ordered = 200;
}

/* One area for the count by allowance, for what an order covers, and for the price of sheets. */
static void
test_area_each (void)
{
  static const Sold cases[] = {
      {DRY_PATTERN_STRAIGHT, 12, 6, 0.125, 0, 0},    {DRY_PATTERN_VERTICAL, 12, 6, 0.125, 0, 0},
      {DRY_PATTERN_OFFSET, 12, 6, 0.125, 0, 0},      {DRY_PATTERN_DIAGONAL, 6, 6, 0.125, 0, 0},
      {DRY_PATTERN_HERRINGBONE, 12, 6, 0.125, 0, 0}, {DRY_PATTERN_HEXAGON, 6, 6, 0.125, 0, 0},
      {DRY_PATTERN_HEXAGON, 8, 8, 0.25, 0, 0},       {DRY_PATTERN_HEXAGON, 2, 2, 0.125, 5, 6},
      {DRY_PATTERN_STRAIGHT, 2, 2, 0.125, 6, 6},
  };

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++) {
    const Sold *sold = &cases[i];
    g_autoptr (DryProject) project =
        rule_room_set_finish (dry_test_alcove ("foam-bands"), change_sold, (gpointer) sold);
    g_autoptr (DryPlan) plan = rule_room_plan (project);
    const DryTiling *tiling = plan->tiling;
    double joint = dry_length_to_mm (tiling->joint) / 25.4;
    double one = exact_area (sold->pattern, sold->width + joint, sold->height + joint);
    double each = one * MAX (sold->across, 1) * MAX (sold->up, 1) * 0.0254 * 0.0254;
    guint usual =
        (guint) ceil (tiling->area * (1 + dry_tile_allowance (sold->pattern)) / each - 1e-6);

    g_assert_cmpfloat_with_epsilon (tiling->area_each, each, 1e-6 * each);
    g_assert_cmpuint (dry_tiling_to_buy (tiling), ==,
                      sold->across ? tiling->n_sheets : tiling->n_tiles);
    g_assert_cmpfloat_with_epsilon (rule_room_measure (plan, "tile", "ordered-over")->number,
                                    100 * (200 * each / tiling->area - 1), 1e-3);
    g_assert_cmpstr (tiling->counts[tiling->n_counts - 1].name, ==, "By the usual allowance");
    g_assert_cmpfloat (tiling->counts[tiling->n_counts - 1].amount, ==, usual);
    /* What is sold covers what is tiled, cuts and spares more. */
    g_assert_cmpfloat (dry_tiling_to_buy (tiling) * each, >=, tiling->area);
    g_assert_cmpfloat_with_epsilon (
        dry_tile_area (&plan->context.room->finish, 0),
        exact_area (sold->pattern, sold->width, sold->height) * 0.0254 * 0.0254, 1e-8);
  }
}

/* Loose tile priced by the area is priced without its joints, a hexagon not by the box round it. */
static void
test_cost (void)
{
  static const DrySource sample = {"invented", DRY_CERTAINTY_INVENTED};
  static const DryPrice prices[] = {{"tile",
                                     NULL,
                                     "Tile",
                                     "m2",
                                     1,
                                     "m2",
                                     10000,
                                     "A",
                                     NULL,
                                     NULL,
                                     {"invented", DRY_CERTAINTY_INVENTED}}};
  DryPriceBook book = {.id = "own",
                       .name = "Own",
                       .currency = "USD",
                       .prices = (DryPrice *) prices,
                       .n_prices = G_N_ELEMENTS (prices),
                       .rate_source = sample,
                       .delivery_source = sample,
                       .disposal_source = sample};
  static const Sold sold = {DRY_PATTERN_HEXAGON, 6, 6, 0.125, 0, 0};
  g_autoptr (DryProject) project =
      rule_room_set_finish (dry_test_alcove ("foam-bands"), change_sold, (gpointer) &sold);
  g_autoptr (DryPlan) plan = rule_room_plan (project);
  const DryPlan *plans[] = {plan};
  g_autoptr (GError) error = NULL;
  g_autoptr (DrySchedule) schedule = dry_schedule_new (plans, 1, &book, "2026-12-01", &error);
  g_autoptr (DryCost) cost = NULL;
  const DryCostLine *line = NULL;

  g_assert_no_error (error);
  cost = dry_cost_new (plans, 1, schedule, &book);
  for (guint i = 0; i < cost->n; i++)
    if (cost->lines[i].group == DRY_COST_MATERIAL && g_str_equal (cost->lines[i].id, "tile"))
      line = &cost->lines[i];
  g_assert_nonnull (line);
  g_assert_cmpstr (line->unit, ==, "m2");
  g_assert_cmpfloat_with_epsilon (
      line->amount,
      plan->tiling->n_tiles * exact_area (DRY_PATTERN_HEXAGON, 6, 6) * 0.0254 * 0.0254, 1e-6);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/tile/area/each", test_area_each);
  g_test_add_func ("/tile/area/cost", test_cost);
  return g_test_run ();
}
