/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Proposal, change order, order list and schedule: what they say of choices, prices and days, read
 * back from their pages or from the file. Prices are invented. */
#include <glib/gstdio.h>
#include <string.h>

#include "papers/client-private.h"
#include "plan/rule-room.h"
#include "texts.h"

static const DryPaperOptions options = {.paper = DRY_PAPER_LETTER, .decimal = '.'};

/* --- pieces --- */

static void
test_money (void)
{
  static const struct {
    gint64 hundredths;
    char decimal;
    const char *currency, *text;
  } cases[] = {{0, '.', NULL, "0.00"},
               {5, '.', "USD", "0.05 USD"},
               {-5, '.', NULL, "-0.05"},
               {123456, '.', "USD", "1,234.56 USD"},
               {-123456789, ',', "EUR", "-1.234.567,89 EUR"},
               {99999, '.', NULL, "999.99"},
               {100000, ',', NULL, "1.000,00"}};

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++) {
    const DryPaperOptions own = {.paper = DRY_PAPER_A4, .decimal = cases[i].decimal};
    g_autoptr (DryPapers) papers = dry_papers_new (NULL, 0, &own);
    g_autofree char *text = dry_client_money (papers, cases[i].hundredths, cases[i].currency);

    g_assert_cmpstr (text, ==, cases[i].text);
  }
}

/* Prices that are samples, missing or run out are told where they are, in the right number. */
static void
test_notes (void)
{
  static const struct {
    guint gaps, samples, expired;
    const char *has, *lacks;
  } cases[] = {
      {0, 0, 0, NULL, "rice"},
      {0, 3, 0, "invented samples: no quote.", "not in the sum"},
      {1, 0, 0, "1 line without a price is not in the sum.", "samples"},
      {2, 0, 0, "2 lines without a price are not in the sum.", "samples"},
      {0, 0, 1, "1 price is not valid on the first day of work.", "sum"},
      {0, 1, 2, "no quote. 2 prices are not valid on the first day of work.", "sum"},
  };
  g_autoptr (DryProject) project = dry_test_alcove ("foam-bands");
  g_autoptr (DryPlan) plan = rule_room_plan (project);

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++) {
    const DryCost cost = {
        .n_gaps = cases[i].gaps, .n_samples = cases[i].samples, .n_expired = cases[i].expired};
    DryFlow flow;
    g_autoptr (DryPapers) papers = dry_client_open (&flow, plan, &options);

    dry_flow_begin (&flow, "Price");
    dry_client_sample_note (&flow, &cost);
    if (cases[i].has)
      g_assert_cmpuint (dry_test_count_texts (papers, cases[i].has), ==, 1);
    g_assert_cmpuint (dry_test_count_texts (papers, cases[i].lacks), ==,
                      g_str_equal (cases[i].lacks, "rice") ? 1 : 0); /* the title itself */
    dry_flow_clear (&flow);
  }
}

/* A fact without a value is left out, and so is the picture of a room with nothing to show. */
static void
test_left_out (void)
{
  DryProject *project = dry_test_alcove ("foam-bands");
  DryId room = dry_test_room (project);
  g_autoptr (DryProject) bare =
      dry_edit_remove (project, room, dry_project_get_room (project, room)->basin.id, NULL);
  g_autoptr (DryPlan) with = rule_room_plan (project), without = rule_room_plan (bare);
  DryFlow flow;
  g_autoptr (DryPapers) papers = dry_client_open (&flow, with, &options);
  double y;

  dry_project_unref (project);
  dry_flow_begin (&flow, "Proposal");
  dry_client_fact (&flow, "Nothing", NULL);
  dry_client_fact (&flow, "Empty", "");
  dry_client_fact (&flow, "Something", "here");
  g_assert_cmpuint (dry_test_count_texts (papers, "Nothing"), ==, 0);
  g_assert_cmpuint (dry_test_count_texts (papers, "Empty"), ==, 0);
  g_assert_cmpuint (dry_test_count_texts (papers, "Something"), ==, 1);
  y = flow.y;
  dry_client_picture (&flow, without, 60);
  g_assert_cmpfloat (flow.y, ==, y);
  dry_client_picture (&flow, with, 60);
  g_assert_cmpfloat (flow.y, >, y);
  dry_flow_clear (&flow);
}

/* --- whole papers --- */

static char *
make_path (void)
{
  g_autofree char *folder = g_dir_make_tmp ("drybay-client-XXXXXX", NULL);

  return g_build_filename (folder, "paper.pdf", NULL);
}

/* What the file says; NULL, and the test skipped, without a reader. Takes the file away. */
static char *
read_back (const char *path)
{
  g_autofree char *folder = g_path_get_dirname (path);
  char *text = dry_test_run ("pdftotext", "-layout", path);

  dry_test_collapse (text);
  dry_test_remove_tree (folder);
  if (!text)
    g_test_skip ("pdftotext is not installed");
  return text;
}

static void
check_says (const char *text, const char *has, gboolean wanted)
{
  if ((strstr (text, has) != NULL) != wanted)
    g_test_fail_printf ("“%s” is %s", has, wanted ? "missing" : "there");
}

static const DryPriceBook *
get_book (void)
{
  return dry_catalog_get_price_book_at (dry_test_catalog (), 0);
}

static DrySchedule *
schedule_of (const DryPlan *const *plans, guint n, const char *start)
{
  g_autoptr (GError) error = NULL;
  DrySchedule *schedule = dry_schedule_new (plans, n, get_book (), start, &error);

  g_assert_no_error (error);
  return schedule;
}

static void
name_client (DryJob *job, gpointer data)
{
  job->client = (char *) "A. Client";
}

static void
take_tile_off (DryFinish *finish, gpointer data)
{
  finish->tiled = FALSE;
}

static void
make_pan (DryBasin *basin, gpointer data)
{
  basin->kind = DRY_BASIN_PAN;
  basin->height = INCH (4);
}

static void
check_proposal (DryProject *project, gboolean prices, const char *has, const char *lacks)
{
  g_autoptr (DryPlan) plan = rule_room_plan (project);
  const DryPlan *plans[] = {plan};
  g_autoptr (DrySchedule) schedule = schedule_of (plans, 1, "2026-12-01");
  g_autoptr (DryCost) cost = dry_cost_new (plans, 1, schedule, get_book ());
  g_autofree char *path = make_path (), *text = NULL;
  g_autoptr (GError) error = NULL;

  dry_project_unref (project);
  g_assert_true (
      dry_papers_write_proposal (plans, 1, cost, schedule, prices, &options, path, &error));
  g_assert_no_error (error);
  text = read_back (path);
  if (!text)
    return;
  check_says (text, has, TRUE);
  check_says (text, lacks, FALSE);
}

static void
test_proposal (void)
{
  DryPart bench = {.kind = DRY_PART_BENCH,
                   .label = (char *) "corner seat",
                   .u = INCH (80),
                   .z = INCH (18),
                   .width = INCH (20),
                   .height = INCH (2),
                   .depth = INCH (14)};
  DryPart pipe = {.kind = DRY_PART_PIPE,
                  .label = (char *) "old pipe",
                  .u = INCH (10),
                  .z = INCH (20),
                  .width = INCH (2),
                  .height = INCH (30)};
  DryProject *project = dry_test_alcove ("foam-bands");
  DryId room = dry_test_room (project);
  DryProject *bare =
      dry_edit_remove (project, room, dry_project_get_room (project, room)->basin.id, NULL);

  check_proposal (bare, FALSE, "Not included", "Tub, 60");
#define ALCOVE dry_test_furnished_alcove ("foam-bands")
  check_proposal (project, FALSE, "Tub, 60\" × 30\"", "A. Client");
  check_proposal (ALCOVE, FALSE, "niche 12\" × 20\", valve, spout, shower head", "for 1,");
  check_proposal (ALCOVE, TRUE, "As drawn and listed here, for ", "As drawn and listed here.");
  check_proposal (rule_room_set_job (ALCOVE, name_client, NULL), FALSE, "For A. Client", "Total");
  check_proposal (rule_room_set_finish (ALCOVE, take_tile_off, NULL), FALSE, "not chosen yet",
                  "\", joint ");
  check_proposal (rule_room_set_basin (ALCOVE, make_pan, NULL), FALSE, "Shower pan, 60", "Tub, 60");
  check_proposal (rule_room_add_part (rule_room_add_part (ALCOVE, 'w', bench), 'e', pipe), FALSE,
                  "corner seat 20\" × 2\"", "old pipe");
#undef ALCOVE
}

/* A first shower nobody can reckon says why; work that dries slowly has a second day. */
static void
test_when (void)
{
  static const struct {
    gint64 tile, shower, longest; /* days after the start; -1 = not known */
    const char *has, *lacks;
  } cases[] = {{3, 5, 5, "Tile is set from", "if everything dries slowly"},
               {3, 5, 9, "if everything dries slowly", "no membrane is known"},
               {-1, -1, -1, "no membrane is known", "Tile is set from"}};
  g_autoptr (DryProject) project = dry_test_alcove ("foam-bands");
  g_autoptr (DryPlan) plan = rule_room_plan (project);
  const DryPlan *plans[] = {plan};
  g_autoptr (DrySchedule) schedule = schedule_of (plans, 1, "2026-12-01");
  g_autoptr (DryCost) cost = dry_cost_new (plans, 1, schedule, get_book ());

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++) {
    DrySchedule own = *schedule;
    g_autofree char *path = make_path (), *text = NULL;
    gint64 day = 24 * 60;

    own.tile_start = cases[i].tile < 0 ? -1 : own.start + cases[i].tile * day;
    own.shower = cases[i].shower < 0 ? -1 : own.start + cases[i].shower * day;
    own.shower_longest = cases[i].longest < 0 ? -1 : own.start + cases[i].longest * day;
    own.missing = "no membrane is known";
    g_assert_true (dry_papers_write_proposal (plans, 1, cost, &own, FALSE, &options, path, NULL));
    text = read_back (path);
    if (!text)
      return;
    check_says (text, cases[i].has, TRUE);
    check_says (text, cases[i].lacks, FALSE);
  }
}

/* Equal packs of several rooms are one line; each supplier has its sum; what has no price is asked
 * for. */
static void
test_order (void)
{
  DryCostLine lines[] = {
      {.id = "a",
       .name = "Alpha",
       .unit = "pc",
       .packs = 2,
       .price = 100,
       .cost = 200,
       .priced = TRUE,
       .supplier = "North yard",
       .pack = 1,
       .pack_name = "box"},
      {.id = "a",
       .name = "Alpha",
       .unit = "pc",
       .packs = 3,
       .price = 100,
       .cost = 300,
       .priced = TRUE,
       .supplier = "North yard",
       .pack = 1,
       .pack_name = "box"},
      {.id = "a",
       .name = "Alpha",
       .unit = "pc",
       .packs = 1,
       .price = 90,
       .cost = 90,
       .priced = TRUE,
       .supplier = "South yard",
       .pack = 1,
       .pack_name = "box"},
      {.id = "b",
       .name = "Beta",
       .unit = "pc",
       .packs = 4,
       .price = 50,
       .cost = 200,
       .priced = TRUE},
      {.id = "c", .name = "Gamma", .unit = "m", .packs = 6},
      {.group = DRY_COST_LABOR, .id = "d", .name = "Delta", .unit = "h", .cost = 999}};
  DryPriceBook book = *get_book ();
  DryCost cost = {.book = &book, .lines = lines, .n = G_N_ELEMENTS (lines), .total = 790};
  g_autoptr (DryProject) project = dry_test_alcove ("foam-bands");
  g_autoptr (DryPlan) plan = rule_room_plan (project);
  const DryPlan *plans[] = {plan};
  g_autofree char *path = make_path (), *text = NULL;
  static const char *const words[] = {
      "North yard", "South yard", "Any supplier", "No price: ask for one", "5 × box", "1 × box",
      "4 × pc",     "5.00",       "no price"};

  g_assert_true (dry_papers_write_order (plans, 1, &cost, &options, path, NULL));
  text = read_back (path);
  if (!text)
    return;
  for (guint i = 0; i < G_N_ELEMENTS (words); i++)
    check_says (text, words[i], TRUE);
  check_says (text, "Delta", FALSE);
  check_says (text, "2 × box", FALSE);
}

/* From the project to another system: what changes, in words, money and days; to itself: nothing.
 */
static void
test_change_order (void)
{
  static const char *const systems[] = {"cement-liquid", NULL};
  g_autoptr (DryProject) project = dry_test_furnished_alcove ("foam-bands");
  g_autoptr (GError) error = NULL;
  g_autoptr (DryComparison) both = dry_comparison_new (project, 0, dry_test_catalog (), get_book (),
                                                       "2026-12-01", systems, 0, NULL, &error);

  g_assert_no_error (error);
  g_assert_cmpuint (both->n, ==, 2);
  for (guint i = 0; i < 3; i++) {
    g_autofree char *path = make_path (), *text = NULL;

    both->options[1].note = i == 2 ? "As spoken of." : NULL;
    if (i == 2)
      both->options[1].days_to_shower = 0;
    g_assert_true (dry_papers_write_change_order (both, i > 0 ? 1 : 0, &options, path, &error));
    g_assert_no_error (error);
    text = read_back (path);
    if (!text)
      return;
    check_says (text, "What changes Nothing.", i == 0);
    check_says (text, "As changed", TRUE);
    check_says (text, "First shower ", i < 2);
    check_says (text, "As spoken of.", i == 2);
    check_says (text, "The work is changed as written here", TRUE);
  }
}

/* Several rooms are told apart, one has no need; without a date days are counted; cold is warned
 * of, and what is not known is a dash. */
static void
test_schedule (void)
{
  g_autoptr (DryProject) project = dry_test_load ("two-bath-house.drybay");
  g_autoptr (DryPlan) hall = NULL, main_bath = NULL;
  const DryPlan *plans[2];

  hall = dry_plan_new (project, dry_project_get_room_at (project, 0)->id, dry_test_catalog (), NULL,
                       NULL);
  main_bath = dry_plan_new (project, dry_project_get_room_at (project, 1)->id, dry_test_catalog (),
                            NULL, NULL);
  plans[0] = hall;
  plans[1] = main_bath;
  for (guint n = 1; n <= 2; n++) {
    g_autoptr (DrySchedule) schedule = schedule_of (plans, n, "2026-12-01");
    DrySchedule own = *schedule;
    g_autofree char *path = make_path (), *text = NULL;

    if (n == 2) {
      own.too_cold = TRUE;
      own.tile_start = own.shower = -1;
    }
    g_assert_true (dry_papers_write_schedule (&own, plans, n, &options, path, NULL));
    text = read_back (path);
    if (!text)
      return;
    check_says (text, "Hall bath: ", n == 2);
    check_says (text, "Main bath: ", n == 2);
    check_says (text, "Too cold: below 10 °C", n == 2);
    check_says (text, "2026-12-01", TRUE);
  }
}

/* A folder that is not there is an error of the file for every paper. */
static void
test_no_folder (void)
{
  g_autoptr (DryProject) project = dry_test_alcove ("foam-bands");
  g_autoptr (DryPlan) plan = rule_room_plan (project);
  const DryPlan *plans[] = {plan};
  g_autoptr (DrySchedule) schedule = schedule_of (plans, 1, "2026-12-01");
  g_autoptr (DryCost) cost = dry_cost_new (plans, 1, schedule, get_book ());
  const char *path = "/no-such-folder/paper.pdf";
  g_autoptr (GError) error = NULL;

  g_assert_false (
      dry_papers_write_proposal (plans, 1, cost, schedule, TRUE, &options, path, &error));
  g_assert_error (error, DRY_ERROR, DRY_ERROR_FILE);
  g_clear_error (&error);
  g_assert_false (dry_papers_write_order (plans, 1, cost, &options, path, &error));
  g_assert_error (error, DRY_ERROR, DRY_ERROR_FILE);
  g_clear_error (&error);
  g_assert_false (dry_papers_write_schedule (schedule, plans, 1, &options, path, &error));
  g_assert_error (error, DRY_ERROR, DRY_ERROR_FILE);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/client-papers/money", test_money);
  g_test_add_func ("/client-papers/notes", test_notes);
  g_test_add_func ("/client-papers/left-out", test_left_out);
  g_test_add_func ("/client-papers/proposal", test_proposal);
  g_test_add_func ("/client-papers/when", test_when);
  g_test_add_func ("/client-papers/order", test_order);
  g_test_add_func ("/client-papers/change-order", test_change_order);
  g_test_add_func ("/client-papers/schedule", test_schedule);
  g_test_add_func ("/client-papers/no-folder", test_no_folder);
  return g_test_run ();
}
