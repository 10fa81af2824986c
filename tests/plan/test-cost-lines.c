/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Lines of a cost where a book says more than a price: tile by the area and by the box, a system's
 * own price, prices out of date, rates, hire, delivery, disposal, tax. Prices are invented. */
#include <math.h>
#include <string.h>

#include "plan/amounts.h"
#include "plan/cost-rig.h"
#include "plan/rule-room.h"

static const DrySource sample = {"invented", DRY_CERTAINTY_INVENTED};
static const DrySource told = {"the dealer's list, invented for the test", DRY_CERTAINTY_PUBLISHED};

#define TILED                                                                                      \
  "finish.tiled=1 finish.tile_width=6in finish.tile_height=6in finish.tile_thickness=8mm "         \
  "finish.joint=0.125in finish.mortar=3mm finish.chips_across=0 finish.chips_up=0 "

static DryPlan *
make_plan (const char *system, const char *words)
{
  g_autoptr (DryProject) project =
      rule_room_set_fields (rule_room_alcove (system, "us-residential"), words);

  return rule_room_plan (project);
}

static DryPriceBook
make_book (void)
{
  return (DryPriceBook){.id = "own",
                        .name = "Own",
                        .currency = "USD",
                        .delivery = -1,
                        .disposal = -1,
                        .delivery_source = sample,
                        .disposal_source = sample,
                        .rate_source = sample};
}

static DryCost *
price (const DryPlan *plan, const DryPriceBook *book, DrySchedule **schedule)
{
  return cost_rig_price (&plan, 1, book, schedule);
}

static double
needed (const DryPlan *plan, const char *id)
{
  for (guint i = 0; i < plan->takeoff->n; i++)
    if (g_str_equal (plan->takeoff->lines[i].id, id))
      return plan->takeoff->lines[i].amount;
  g_error ("The take-off has no %s", id);
}

/* --- tile --- */

/* A price by the square meter is told for what is bought: single tiles' faces, or whole boxes of
 * tiles or of sheets. Mosaic is priced as mosaic. */
static void
test_tile_by_area (void)
{
  static const struct {
    const char *words, *id, *says;
    double each; /* m2 of a tile or sheet; 0 = the layout's */
  } rows[] = {
      {TILED "finish.tiles_in_box=0", "tile", NULL, 0.1524 * 0.1524},
      {TILED "finish.tiles_in_box=40", "tile", "a box of 40 tiles", 0.1524 * 0.1524},
      {TILED "finish.tile_width=2in finish.tile_height=2in finish.chips_across=6 "
             "finish.chips_up=6 finish.tiles_in_box=10",
       "tile-mosaic", "a box of 10 sheets", 0},
  };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++) {
    const DryPrice prices[] = {
        {rows[i].id, NULL, "Tile", "m2", 1, "m2", 4000, "A", NULL, NULL, told}};
    DryPriceBook book = make_book ();
    g_autoptr (DryPlan) plan = make_plan ("foam-bands", rows[i].words);
    g_autoptr (DrySchedule) schedule = NULL;
    g_autoptr (DryCost) cost = NULL;
    const DryCostLine *line;
    double each = rows[i].each > 0 ? rows[i].each : plan->tiling->area_each;

    book.prices = prices;
    book.n_prices = 1;
    cost = price (plan, &book, &schedule);
    line = cost_rig_find (cost, DRY_COST_MATERIAL, "tile");
    g_test_message ("%s", line->working.formula);
    g_assert_true (line->priced && !line->sample && !line->expired);
    g_assert_cmpstr (line->unit, ==, "m2");
    g_assert_cmpfloat_with_epsilon (line->amount, needed (plan, "tile") * each, 1e-6);
    g_assert_cmpint (line->cost, ==, line->packs * line->price);
    if (rows[i].says) {
      double box = plan->tiling->box * each;
      g_assert_nonnull (strstr (line->working.formula, rows[i].says));
      g_assert_cmpint (line->packs, ==, (gint64) ceil (line->amount / box - 1e-6));
      g_assert_cmpint (line->price, ==, (gint64) (4000 * box + 0.5));
    } else
      g_assert_cmpint (line->price, ==, 4000);
  }
}

/* Priced by the piece, it is taken by the piece; another tile's price is none of its. */
static void
test_tile_by_piece (void)
{
  const DryPrice prices[] = {
      {"other-tile", NULL, "Other", "pc", 1, "tile", 1, "A", NULL, NULL, told},
      {"tile", NULL, "Tile", "pc", 1, "tile", 150, "A", NULL, NULL, told}};
  DryPriceBook book = make_book ();
  g_autoptr (DryPlan) plan = make_plan ("foam-bands", TILED);
  g_autoptr (DrySchedule) schedule = NULL;
  g_autoptr (DryCost) cost = NULL;
  const DryCostLine *line;

  book.prices = prices;
  book.n_prices = 2;
  cost = price (plan, &book, &schedule);
  line = cost_rig_find (cost, DRY_COST_MATERIAL, "tile");
  g_assert_cmpstr (line->unit, ==, "pc");
  g_assert_cmpint (line->cost, ==, (gint64) needed (plan, "tile") * 150);
}

/* --- which price --- */

/* One of the system's own comes before a cheaper one of any; a valid one before an expired cheaper
 * one; of two as good the cheaper. The first day of work is 2026-12-01. */
static void
test_which_price (void)
{
  static const struct {
    DryPrice prices[2];
    gint64 price;
    gboolean expired;
  } rows[] = {
      {{{"membrane", NULL, "Any", "L", 1, "can", 10, NULL, NULL, NULL, {"x", 0}},
        {"membrane", "cement-liquid", "Own", "L", 1, "can", 90, NULL, NULL, NULL, {"x", 0}}},
       90,
       FALSE},
      {{{"membrane", "foam-bands", "Theirs", "L", 1, "can", 10, NULL, NULL, NULL, {"x", 0}},
        {"membrane", NULL, "Any", "L", 1, "can", 90, NULL, NULL, NULL, {"x", 0}}},
       90,
       FALSE},
      {{{"membrane", NULL, "Old", "L", 1, "can", 10, NULL, NULL, "2026-11-30", {"x", 0}},
        {"membrane", NULL, "New", "L", 1, "can", 90, NULL, "2026-12-01", NULL, {"x", 0}}},
       90,
       FALSE},
      {{{"membrane", NULL, "To come", "L", 1, "can", 10, NULL, "2026-12-02", NULL, {"x", 0}},
        {"membrane", NULL, "Now", "L", 1, "can", 90, NULL, "2026-01-01", "2026-12-31", {"x", 0}}},
       90,
       FALSE},
      {{{"membrane", NULL, "Old", "L", 1, "can", 90, NULL, NULL, "2026-11-30", {"x", 0}},
        {"membrane", NULL, "Older", "L", 1, "can", 10, NULL, NULL, "2025-11-30", {"x", 0}}},
       10,
       TRUE},
      {{{"membrane", NULL, "Dear", "L", 1, "can", 90, NULL, NULL, NULL, {"x", 0}},
        {"membrane", NULL, "Cheap", "L", 1, "can", 10, NULL, NULL, NULL, {"x", 0}}},
       10,
       FALSE},
  };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    for (guint dated = 0; dated < 2; dated++) {
      DryPriceBook book = make_book ();
      g_autoptr (DryPlan) plan = make_plan ("cement-liquid", TILED);
      const DryPlan *plans[] = {plan};
      g_autoptr (GError) error = NULL;
      g_autoptr (DrySchedule) schedule =
          dry_schedule_new (plans, 1, &book, dated ? "2026-12-01" : NULL, &error);
      g_autoptr (DryCost) cost = NULL;
      const DryCostLine *line;

      g_assert_no_error (error);
      book.prices = rows[i].prices;
      book.n_prices = 2;
      cost = dry_cost_new (plans, 1, schedule, &book);
      line = cost_rig_find (cost, DRY_COST_MATERIAL, "membrane");
      g_test_message ("row %u, dated %u", i, dated);
      if (dated) {
        g_assert_cmpint (line->price, ==, rows[i].price);
        g_assert_true (line->expired == rows[i].expired);
      } else /* without a first day none is out of date */
        g_assert_cmpuint (cost->n_expired, ==, 0);
    }
}

/* --- work and hire --- */

/* A task's own rate comes before the book's; invented ones are marked, told ones are not. */
static void
test_rates (void)
{
  const DryTaskRate tasks[] = {{"boards", -1, -1, 0, 7000, told}, {"grout", -1, -1, 0, 0, told}};
  DryPriceBook book = make_book ();
  g_autoptr (DryPlan) plan = make_plan ("foam-bands", TILED);
  g_autoptr (DrySchedule) schedule = NULL, again = NULL;
  g_autoptr (DryCost) without = NULL, with = NULL;

  book.tasks = tasks;
  book.n_tasks = 2;
  without = price (plan, &book, &schedule);
  g_assert_true (cost_rig_find (without, DRY_COST_LABOR, "boards")->priced);
  g_assert_cmpint (cost_rig_find (without, DRY_COST_LABOR, "boards")->price, ==, 7000);
  g_assert_false (cost_rig_find (without, DRY_COST_LABOR, "grout")->priced);
  book.rate = 5000;
  with = price (plan, &book, &again);
  g_assert_false (cost_rig_find (with, DRY_COST_LABOR, "boards")->sample);
  g_assert_cmpint (cost_rig_find (with, DRY_COST_LABOR, "grout")->price, ==, 5000);
  g_assert_true (cost_rig_find (with, DRY_COST_LABOR, "grout")->sample);
}

/* A tool is paid for each day one of its tasks is worked at, and not at all without one. */
static void
test_hire (void)
{
  static const char *const grout[] = {"grout", NULL}, *const never[] = {"blasting", NULL};
  const DryHire hire[] = {{"mixer", "Mixer", 2500, grout, told},
                          {"drill", "Drill", 1, never, sample}};
  DryPriceBook book = make_book ();
  g_autoptr (DryPlan) plan = make_plan ("foam-bands", TILED);
  g_autoptr (DrySchedule) schedule = NULL;
  g_autoptr (DryCost) cost = NULL;
  const DryCostLine *line;

  book.hire = hire;
  book.n_hire = 2;
  cost = price (plan, &book, &schedule);
  line = cost_rig_find (cost, DRY_COST_HIRE, "mixer");
  g_assert_cmpint (line->cost, ==, 2500 * (gint64) line->amount);
  if (line->amount == 1)
    g_assert_true (g_str_has_prefix (line->working.formula, "1 day of"));
  g_assert_null (cost_rig_find (cost, DRY_COST_HIRE, "drill"));
}

/* --- the rest of a quote --- */

/* Delivery is free from a sum of material on, and what nobody priced is a gap. */
static void
test_delivery (void)
{
  static const struct {
    gint64 delivery, free_from, cost;
    gboolean priced;
  } rows[] = {
      {4000, 0, 4000, TRUE}, {4000, 1, 0, TRUE}, {4000, 100000000, 4000, TRUE}, {-1, 1, 0, FALSE}};

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++) {
    DryPriceBook book = make_book ();
    g_autoptr (DryPlan) plan = make_plan ("foam-bands", TILED);
    g_autoptr (DrySchedule) schedule = NULL;
    g_autoptr (DryCost) cost = NULL;
    const DryCostLine *line;

    book.samples = TRUE;
    book.delivery = rows[i].delivery;
    book.free_delivery = rows[i].free_from;
    cost = price (plan, &book, &schedule);
    line = cost_rig_find (cost, DRY_COST_DELIVERY, "delivery");
    g_assert_cmpint (line->cost, ==, rows[i].cost);
    g_assert_true (line->priced == rows[i].priced);
  }
}

/* Offcuts and old lining go by weight, at least the least charge. A bed of mortar has no sheets to
 * be cut: with nothing torn out there is nothing to carry off. */
static void
test_disposal (void)
{
  static const struct {
    const char *system;
    double tear_out;
    gint64 price, least;
  } rows[] = {{"cement-liquid", 10, 20, 0}, {"cement-liquid", 10, 20, 99999},
              {"cement-liquid", 0, 20, 0},  {"mortar-bed", 0, 20, 500},
              {"mortar-bed", 10, 20, 500},  {"mortar-bed", 10, -1, 500}};

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++) {
    DryPriceBook book = make_book ();
    g_autoptr (DryPlan) plan = make_plan (rows[i].system, TILED);
    g_autoptr (DrySchedule) schedule = NULL;
    g_autoptr (DryCost) cost = NULL;
    const DryCostLine *line;
    gboolean sheets = plan->context.system->n_sheets > 0;

    book.tear_out = rows[i].tear_out;
    book.disposal = rows[i].price;
    book.disposal_minimum = rows[i].least;
    cost = price (plan, &book, &schedule);
    line = cost_rig_find (cost, DRY_COST_DISPOSAL, "disposal");
    g_test_message ("row %u", i);
    if (!sheets && rows[i].tear_out == 0) {
      g_assert_null (line);
      continue;
    }
    if (!sheets)
      g_assert_cmpfloat_with_epsilon (line->amount, 10 * plan->coating->wet_area, 1e-9);
    g_assert_cmpfloat_with_epsilon (line->amount, cost->disposal_mass, 1e-9);
    if (rows[i].price < 0)
      g_assert_true (!line->priced && line->cost == 0);
    else
      g_assert_cmpint (
          line->cost, ==,
          MAX ((gint64) floor (line->amount * (double) rows[i].price + 0.5 + 1e-7), rows[i].least));
  }
}

/* Work is taxed where the book says so. */
static void
test_tax_on_work (void)
{
  DryPriceBook book = make_book ();
  g_autoptr (DryPlan) plan = make_plan ("foam-bands", TILED);

  book.samples = TRUE;
  book.rate = 6000;
  book.tax = 10;
  book.tax_name = "Tax";
  book.tax_source = sample;
  for (guint labor = 0; labor < 2; labor++) {
    g_autoptr (DrySchedule) schedule = NULL;
    g_autoptr (DryCost) cost = NULL;
    gint64 base;

    book.tax_labor = labor;
    cost = price (plan, &book, &schedule);
    base = cost->sum[DRY_COST_MATERIAL] + (labor ? cost->sum[DRY_COST_LABOR] : 0);
    g_assert_cmpint (cost->sum[DRY_COST_LABOR], >, 0);
    g_assert_cmpint (cost->sum[DRY_COST_TAX], ==, (base * 10 + 50) / 100);
  }
}

/* --- written down --- */

/* A gap has neither price nor cost, in JSON and in the table; what is invented or out of date says
 * so. */
static void
test_written_gaps (void)
{
  const DryPrice prices[] = {
      {"membrane", NULL, "Old", "L", 1, "can", 90, "A", NULL, "2020-01-01", sample}};
  DryPriceBook book = make_book ();
  g_autoptr (DryPlan) plan = make_plan ("cement-liquid", TILED);
  const DryPlan *plans[] = {plan};
  g_autoptr (DrySchedule) schedule = NULL;
  g_autoptr (DryCost) cost = NULL;
  g_autoptr (DryRows) rows = NULL;
  g_autofree char *text = NULL;
  DryJsonWriter *writer = dry_json_writer_new ();
  guint gaps = 0;

  book.prices = prices;
  book.n_prices = 1;
  cost = price (plan, &book, &schedule);
  rows = dry_cost_to_rows (cost, plans);
  for (guint i = 0; i < cost->n; i++) {
    gboolean gap = g_str_equal (dry_rows_get (rows, i + 1, 9), "no price");

    g_assert_true (gap == !cost->lines[i].priced);
    if (gap)
      g_assert_cmpstr (dry_rows_get (rows, i + 1, 8), ==, "");
    gaps += gap;
  }
  g_assert_cmpuint (gaps, ==, cost->n_gaps);
  g_assert_cmpuint (gaps, >, 0);
  dry_cost_write_json (cost, writer, NULL);
  text = dry_json_writer_finish (writer, NULL);
  g_assert_nonnull (strstr (text, "\"expired\": true"));
  g_assert_nonnull (strstr (text, "\"sample\": true"));
  g_assert_null (strstr (text, "\"invented\": true")); /* the book's own is not */
}

static void
test_money (void)
{
  static const struct {
    gint64 hundredths;
    const char *text;
  } rows[] = {{0, "0.00"}, {5, "0.05"}, {123450, "1234.50"}, {-5, "-0.05"}, {-1205, "-12.05"}};
  g_autoptr (DryArena) arena = dry_arena_new ();

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    g_assert_cmpstr (dry_money_text (arena, rows[i].hundredths), ==, rows[i].text);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/cost/tile-by-area", test_tile_by_area);
  g_test_add_func ("/cost/tile-by-piece", test_tile_by_piece);
  g_test_add_func ("/cost/which-price", test_which_price);
  g_test_add_func ("/cost/rates", test_rates);
  g_test_add_func ("/cost/hire", test_hire);
  g_test_add_func ("/cost/delivery", test_delivery);
  g_test_add_func ("/cost/disposal", test_disposal);
  g_test_add_func ("/cost/tax-on-work", test_tax_on_work);
  g_test_add_func ("/cost/written-gaps", test_written_gaps);
  g_test_add_func ("/cost/money", test_money);
  return g_test_run ();
}
