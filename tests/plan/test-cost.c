/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Cost: sums of lines, gaps, packs, waste, rounding, tax; and alternates against the same project
 * computed alone. Prices are invented. */
#include "plan/compare.h"

#include <string.h>

#include "cost-rig.h"
#include "plan/amounts.h"
#include "support/fixtures.h"

static const DrySource sample = {"invented", DRY_CERTAINTY_INVENTED};

static DryPlan *
make_plan (const char *system)
{
  g_autoptr (DryProject) project = dry_test_furnished_alcove (system);
  g_autoptr (GError) error = NULL;
  DryPlan *plan =
      dry_plan_new (project, dry_test_room (project), dry_test_catalog (), NULL, &error);

  g_assert_no_error (error);
  return plan;
}

static void
check_sums (const DryCost *cost)
{
  gint64 sums[DRY_N_COST_GROUPS] = {0}, total = 0;
  guint gaps = 0;

  for (guint i = 0; i < cost->n; i++) {
    const DryCostLine *line = &cost->lines[i];
    sums[line->group] += line->cost;
    total += line->cost;
    gaps += !line->priced;
    g_assert_nonnull (line->working.formula);
    g_assert_nonnull (line->working.source.text);
    if (!line->priced)
      g_assert_cmpint (line->cost, ==, 0);
    if (line->group == DRY_COST_MATERIAL && line->priced)
      g_assert_cmpint (line->cost, ==, line->packs * line->price);
  }
  g_assert_cmpint (total, ==, cost->total);
  g_assert_cmpuint (gaps, ==, cost->n_gaps);
  for (guint i = 0; i < DRY_N_COST_GROUPS; i++)
    g_assert_cmpint (sums[i], ==, cost->sum[i]);
}

static void
test_shipped_book (void)
{
  const DryPriceBook *book = dry_catalog_get_price_book (dry_test_catalog (), NULL);

  g_assert_cmpstr (book->id, ==, "sample-us");
  g_assert_true (book->invented);
  for (guint32 seed = 1; seed <= 25; seed++) {
    g_autoptr (DryProject) project = dry_test_random_project (seed);
    g_autoptr (GError) error = NULL;
    g_autoptr (DryPlan) plan =
        dry_plan_new (project, dry_test_room (project), dry_test_catalog (), NULL, &error);
    g_autoptr (DrySchedule) schedule = NULL;
    g_autoptr (DryCost) cost = cost_rig_price ((const DryPlan *const[]){plan}, 1, book, &schedule);

    check_sums (cost);
    g_assert_cmpfloat_with_epsilon (cost->hours, schedule->hours, 1e-9);
  }
}

/* A book with nothing in it: all is a gap, nothing a nought. */
static void
test_gaps (void)
{
  DryPriceBook book = {.id = "empty",
                       .name = "Empty",
                       .currency = "EUR",
                       .delivery = -1,
                       .disposal = -1,
                       .delivery_source = sample,
                       .disposal_source = sample,
                       .rate_source = sample};
  g_autoptr (DryPlan) plan = make_plan ("cement-liquid");
  g_autoptr (DrySchedule) schedule = NULL;
  g_autoptr (DryCost) cost = cost_rig_price ((const DryPlan *const[]){plan}, 1, &book, &schedule);

  check_sums (cost);
  g_assert_cmpint (cost->total, ==, 0);
  g_assert_cmpuint (cost->n_gaps, ==, cost->n);
  g_assert_cmpuint (cost->n_gaps, >, plan->takeoff->n);
}

/* Worked out by hand from the plan's amounts: 5 % waste, packs rounded up, the cheaper of two. */
static void
test_packs (void)
{
  static const DryPrice prices[] = {
      {"membrane",
       NULL,
       "Membrane",
       "L",
       3.785411784,
       "gallon",
       5000,
       "A",
       NULL,
       NULL,
       {"invented", DRY_CERTAINTY_INVENTED}},
      {"membrane",
       NULL,
       "Membrane",
       "L",
       18.92705892,
       "pail",
       20000,
       "A",
       NULL,
       NULL,
       {"invented", DRY_CERTAINTY_INVENTED}},
      {"sealant",
       "foam-bands",
       "Other system's",
       "L",
       0.3,
       "cartridge",
       1,
       "A",
       NULL,
       NULL,
       {"invented", DRY_CERTAINTY_INVENTED}},
      {"mesh-2",
       NULL,
       "By the piece",
       "pc",
       1,
       "roll",
       100,
       "A",
       NULL,
       NULL,
       {"invented", DRY_CERTAINTY_INVENTED}},
      {"screw-125",
       NULL,
       "Screw",
       "pc",
       100,
       "box",
       999,
       "A",
       NULL,
       "2026-11-30",
       {"invented", DRY_CERTAINTY_INVENTED}},
  };
  static const DryWaste waste[] = {{"membrane", 5, {"invented", DRY_CERTAINTY_INVENTED}}};
  DryPriceBook book = {.id = "own",
                       .name = "Own",
                       .currency = "USD",
                       .prices = prices,
                       .n_prices = G_N_ELEMENTS (prices),
                       .waste = waste,
                       .n_waste = 1,
                       .delivery = -1,
                       .disposal = -1,
                       .delivery_source = sample,
                       .disposal_source = sample,
                       .rate = 1001,
                       .rate_source = sample,
                       .tax_name = "Tax",
                       .tax = 7.25,
                       .tax_source = sample,
                       .markup = 10,
                       .markup_source = sample};
  g_autoptr (DryPlan) plan = make_plan ("cement-liquid");
  g_autoptr (DrySchedule) schedule = NULL;
  g_autoptr (DryCost) cost = cost_rig_price ((const DryPlan *const[]){plan}, 1, &book, &schedule);
  const DryCostLine *line = cost_rig_find (cost, DRY_COST_MATERIAL, "membrane");
  double amount = 0;
  gint64 base;

  check_sums (cost);
  for (guint i = 0; i < plan->takeoff->n; i++)
    if (g_str_equal (plan->takeoff->lines[i].id, "membrane"))
      amount = plan->takeoff->lines[i].amount * 1.05;
  g_assert_cmpfloat (amount, >, 0);
  g_assert_cmpfloat_with_epsilon (line->amount, amount, 1e-9);
  g_assert_cmpint (line->cost, ==,
                   MIN (dry_packs_for (amount, 3.785411784) * 5000,
                        dry_packs_for (amount, 18.92705892) * 20000));
  g_assert_false (
      cost_rig_find (cost, DRY_COST_MATERIAL, "sealant")->priced); /* sold for another system */
  g_assert_false (
      cost_rig_find (cost, DRY_COST_MATERIAL, "mesh-2")->priced); /* sold by another unit */
  g_assert_true (cost_rig_find (cost, DRY_COST_MATERIAL, "screw-125")->expired);
  g_assert_cmpuint (cost->n_expired, ==, 1);
  line = cost_rig_find (cost, DRY_COST_LABOR, "boards");
  g_assert_cmpint (line->cost, ==, (gint64) (line->amount * 1001 + 0.5));
  base = cost->sum[DRY_COST_MATERIAL] + cost->sum[DRY_COST_LABOR];
  g_assert_cmpint (cost->sum[DRY_COST_MARKUP], ==, (base * 10 + 50) / 100);
  base = cost->sum[DRY_COST_MATERIAL] + (cost->sum[DRY_COST_MATERIAL] * 10 + 50) / 100;
  g_assert_cmpint (cost->sum[DRY_COST_TAX], ==, (base * 725 + 5000) / 10000);
}

/* Two rooms cost what each costs, where nothing is shared: no delivery, disposal or tax. */
static void
test_additive (void)
{
  DryPriceBook book = {.id = "own",
                       .name = "Own",
                       .currency = "USD",
                       .samples = TRUE,
                       .rate = 6500,
                       .rate_source = sample,
                       .delivery = 0,
                       .disposal = 0,
                       .delivery_source = sample,
                       .disposal_source = sample};
  g_autoptr (DryPlan) a = make_plan ("cement-liquid"), b = make_plan ("foam-bands");
  const DryPlan *both[] = {a, b};
  g_autoptr (DrySchedule) first = NULL, second = NULL, together = NULL;
  g_autoptr (DryCost) one = cost_rig_price (both, 1, &book, &first);
  g_autoptr (DryCost) other = cost_rig_price (both + 1, 1, &book, &second);
  g_autoptr (DryCost) sum = cost_rig_price (both, 2, &book, &together);

  check_sums (sum);
  g_assert_cmpint (one->total + other->total, ==, sum->total);
  g_assert_cmpint (sum->total, >, 0);
}

/* --- alternates --- */

static DryProject *
with_alternates (void)
{
  static const char *const systems[] = {"cement-liquid", "foam-sealant", "mortar-bed"};
  DryProject *project = dry_test_furnished_alcove ("foam-bands");
  g_autoptr (GError) error = NULL;

  for (guint i = 0; i < G_N_ELEMENTS (systems); i++) {
    DryId id, room = dry_test_room (project);
    g_autoptr (DryProject) old = project, added = NULL, same = NULL, changed = NULL;
    DryFinish finish = dry_project_get_room (project, room)->finish;
    added = dry_edit_add_alternate (old, systems[i], NULL, &id, &error);
    same = dry_project_resolve (added, id);
    finish.system = (char *) systems[i];
    changed = dry_edit_set_finish (same, room, &finish, &error);
    project = dry_edit_set_alternate (added, id, changed, &error);
    g_assert_no_error (error);
  }
  return project;
}

static char *
plan_text (const DryPlan *plan)
{
  DryJsonWriter *writer = dry_json_writer_new ();

  dry_plan_write_json (plan, writer, NULL);
  return dry_json_writer_finish (writer, NULL);
}

static char *
cost_text (const DryCost *cost)
{
  DryJsonWriter *writer = dry_json_writer_new ();

  dry_cost_write_json (cost, writer, NULL);
  return dry_json_writer_finish (writer, NULL);
}

/* Byte by byte the same as the project that has this as its only way. */
static void
test_alternates_alone (void)
{
  g_autoptr (DryProject) project = with_alternates ();
  const DryPriceBook *book = dry_catalog_get_price_book (dry_test_catalog (), NULL);
  g_autoptr (GError) error = NULL;
  g_autoptr (DryComparison) all = dry_comparison_new (project, 0, dry_test_catalog (), book,
                                                      "2026-12-01", NULL, 0, NULL, &error);

  g_assert_no_error (error);
  g_assert_cmpuint (all->n, ==, 4);
  for (guint i = 1; i < all->n; i++) {
    const DryOption *option = &all->options[i];
    g_autoptr (DryProject) alone = dry_project_resolve (project, option->id);
    g_autoptr (DryPlan) plan =
        dry_plan_new (alone, dry_test_room (alone), dry_test_catalog (), NULL, &error);
    g_autoptr (DrySchedule) schedule = NULL;
    g_autoptr (DryCost) cost = cost_rig_price ((const DryPlan *const[]){plan}, 1, book, &schedule);
    g_autofree char *one = plan_text (plan), *other = plan_text (option->plans[0]);
    g_autofree char *cost_one = cost_text (cost), *cost_other = cost_text (option->cost);

    g_assert_cmpstr (one, ==, other);
    g_assert_cmpstr (cost_one, ==, cost_other);
    g_assert_cmpint (schedule->shower, ==, option->schedule->shower);
    g_assert_cmpuint (option->n_differences, >, 0);
    g_assert_nonnull (strstr (option->differences[0].text, "instead of"));
  }
}

static void
test_no_difference (void)
{
  g_autoptr (DryProject) base = dry_test_furnished_alcove ("foam-bands");
  g_autoptr (GError) error = NULL;
  g_autoptr (DryProject) project = dry_edit_add_alternate (base, "Same", NULL, NULL, &error);
  g_autoptr (DryComparison) all = dry_comparison_new (
      project, 0, dry_test_catalog (), dry_catalog_get_price_book (dry_test_catalog (), NULL), NULL,
      NULL, 0, NULL, &error);

  g_assert_no_error (error);
  g_assert_true (all->options[0].plans[0] == all->options[1].plans[0]); /* planned once */
  g_assert_cmpuint (all->options[1].n_differences, ==, 0);
}

static gboolean
says (const DryOption *option, const char *text)
{
  for (guint i = 0; i < option->n_differences; i++)
    if (strstr (option->differences[i].text, text))
      return TRUE;
  return FALSE;
}

/* Told between two comparisons as within one, and each difference knows what it is about. */
static void
test_between (void)
{
  g_autoptr (DryProject) one = dry_test_furnished_alcove ("foam-bands");
  g_autoptr (DryProject) other = dry_test_furnished_alcove ("cement-liquid");
  const DryPriceBook *book = dry_catalog_get_price_book (dry_test_catalog (), NULL);
  const char *const systems[] = {"cement-liquid", NULL};
  g_autoptr (DryComparison) was =
      dry_comparison_new (one, 0, dry_test_catalog (), book, "2026-12-01", systems, 0, NULL, NULL);
  g_autoptr (DryComparison) now =
      dry_comparison_new (other, 0, dry_test_catalog (), book, "2026-12-01", NULL, 0, NULL, NULL);
  g_autoptr (GArray) list =
      dry_option_list_differences (&now->options[0], &was->options[0], now->arena);
  guint seen[DRY_ABOUT_RISK + 1] = {0};

  g_assert_cmpuint (list->len, ==, was->options[1].n_differences);
  for (guint i = 0; i < list->len; i++) {
    const DryDifference *difference = &g_array_index (list, DryDifference, i);
    g_assert_cmpstr (difference->text, ==, was->options[1].differences[i].text);
    seen[difference->about]++;
  }
  for (guint about = 0; about <= DRY_ABOUT_RISK; about++)
    g_assert_cmpuint (seen[about], >, 0);
  g_assert_nonnull (strstr (g_array_index (list, DryDifference, 0).text, "instead of"));
  g_assert_cmpint (g_array_index (list, DryDifference, 0).about, ==, DRY_ABOUT_DESIGN);
}

/* A floor of mortar and no curb are said in words, and what that means for the floor. */
static void
test_floor_words (void)
{
  g_autoptr (DryProject) one = dry_test_load ("client-shower.drybay");
  const DryRoom *room = dry_project_get_room_at (one, 0);
  DryBasin basin = room->basin;
  g_autoptr (DryProject) other = NULL;
  const DryPriceBook *book = dry_catalog_get_price_book (dry_test_catalog (), NULL);
  g_autoptr (DryComparison) was = NULL, now = NULL;
  g_autoptr (GArray) list = NULL;
  GString *text = g_string_new (NULL);

  basin.site_built = !basin.site_built;
  basin.height = 0;
  other = dry_edit_set_basin (one, room->id, &basin, NULL, NULL);
  g_assert_nonnull (other);
  was = dry_comparison_new (one, 0, dry_test_catalog (), book, NULL, NULL, 0, NULL, NULL);
  now = dry_comparison_new (other, 0, dry_test_catalog (), book, NULL, NULL, 0, NULL, NULL);
  list = dry_option_list_differences (&now->options[0], &was->options[0], now->arena);
  for (guint i = 0; i < list->len; i++)
    g_string_append_printf (text, "%s\n", g_array_index (list, DryDifference, i).text);
  g_assert_nonnull (strstr (text->str, "no curb to step over"));
  g_assert_nonnull (strstr (text->str, "mortar made on site instead of a ready pan"));
  g_string_free (text, TRUE);
}

static void
test_words (void)
{
  g_autoptr (DryProject) base = dry_test_furnished_alcove ("foam-bands");
  DryId id, room = dry_test_room (base);
  g_autoptr (GError) error = NULL;
  g_autoptr (DryProject) added = dry_edit_add_alternate (base, "No niche", NULL, &id, &error);
  g_autoptr (DryProject) same = dry_project_resolve (added, id), bare = NULL, project = NULL;
  const DryRoom *value = dry_project_get_room (base, room);
  g_autoptr (DryComparison) all = NULL;
  DryId niche = 0;

  for (guint i = 0; i < value->n_parts; i++)
    if (value->parts[i].kind == DRY_PART_NICHE)
      niche = value->parts[i].id;
  bare = dry_edit_remove (same, room, niche, &error);
  g_assert_no_error (error);
  project = dry_edit_set_alternate (added, id, bare, &error);
  all = dry_comparison_new (project, room, dry_test_catalog (),
                            dry_catalog_get_price_book (dry_test_catalog (), NULL), "2026-12-01",
                            NULL, 0, NULL, &error);
  g_assert_no_error (error);
  g_assert_true (says (&all->options[1], "without the niche 12\" x 20\""));
  g_assert_true (says (&all->options[1], "blocks and studs fewer"));
  g_assert_true (says (&all->options[1], " less"));
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/cost/shipped-book", test_shipped_book);
  g_test_add_func ("/cost/gaps", test_gaps);
  g_test_add_func ("/cost/packs", test_packs);
  g_test_add_func ("/cost/additive", test_additive);
  g_test_add_func ("/compare/alternates-alone", test_alternates_alone);
  g_test_add_func ("/compare/no-difference", test_no_difference);
  g_test_add_func ("/compare/between", test_between);
  g_test_add_func ("/compare/floor-words", test_floor_words);
  g_test_add_func ("/compare/words", test_words);
  return g_test_run ();
}
