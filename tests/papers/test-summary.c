/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the chapters of the crew's papers say of a room: facts, findings, cautions, tables, legends.
 * Read from their pages before they become a file; layout is looked at elsewhere. */
#include <string.h>

#include "papers/papers-private.h"
#include "plan/rule-room.h"
#include "texts.h"

typedef struct {
  DryPapers *papers;
  DryFlow flow;
} Pages;

static void
open_pages (Pages *self, const DryPlan *plan)
{
  const DryPaperOptions options = {.paper = DRY_PAPER_LETTER, .decimal = '.'};

  self->papers = dry_papers_new_empty (NULL, 0, &options);
  dry_flow_init (&self->flow, self->papers, plan);
}

static void
close_pages (Pages *self)
{
  dry_flow_clear (&self->flow);
  dry_papers_free (self->papers);
}

/* How many texts of the chapter hold `text`. */
static guint
count_in (void (*add) (DryFlow *flow), const DryPlan *plan, const char *text)
{
  Pages pages;
  guint n;

  open_pages (&pages, plan);
  dry_flow_begin (&pages.flow, "Here"); /* for chapters that open no page of their own */
  add (&pages.flow);
  n = dry_test_count_texts (pages.papers, text);
  close_pages (&pages);
  return n;
}

/* --- facts --- */

static void
check_facts (DryProject *project, const char *has, const char *lacks)
{
  g_autoptr (DryPlan) plan = rule_room_plan (project);

  dry_project_unref (project);
  g_test_message ("%s, not %s", has, lacks);
  g_assert_cmpuint (count_in (dry_papers_add_summary, plan, has), >=, 1);
  if (lacks)
    g_assert_cmpuint (count_in (dry_papers_add_summary, plan, lacks), ==, 0);
}

static void
change_job (DryJob *job, gpointer data)
{
  const DryJob *as = data;

  job->metric = as->metric;
  job->year_built = as->year_built;
  if (as->client)
    job->client = as->client;
  if (as->note)
    job->note = as->note;
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
take_name_off (DryRoom *room, gpointer data)
{
  room->name = (char *) "";
}

static DryProject *
without_basin (void)
{
  DryProject *project = dry_test_alcove ("foam-bands");
  DryId room = dry_test_room (project);
  g_autoptr (GError) error = NULL;
  DryProject *bare =
      dry_edit_remove (project, room, dry_project_get_room (project, room)->basin.id, &error);

  g_assert_no_error (error);
  dry_project_unref (project);
  return bare;
}

static void
test_facts (void)
{
  DryJob metric = {.metric = TRUE, .year_built = 1990, .client = (char *) "A. Client"};
  DryJob noted = {.note = (char *) "Dog in the yard."};
  DryWetZone low = {.height = INCH (72), .past = INCH (2), .leg = TRUE};

#define ALCOVE dry_test_alcove ("foam-bands")
  check_facts (ALCOVE, "tub 60\" × 30\", rim 15\"", "Client");
  check_facts (ALCOVE, "to the ceiling", "Dog in the yard.");
  check_facts (ALCOVE, ", joint ", "not chosen yet");
  check_facts (ALCOVE, "year unknown", "built 1990");
  check_facts (ALCOVE, "°F while working", "°C while working");
  check_facts (rule_room_set_basin (ALCOVE, make_pan, NULL), "curb 4\"", ", rim ");
  check_facts (rule_room_set_wet (ALCOVE, low), "72\"", "to the ceiling");
  check_facts (rule_room_set_job (ALCOVE, change_job, &metric), "°C while working",
               "°F while working");
  check_facts (rule_room_set_job (ALCOVE, change_job, &metric), "built 1990", "year unknown");
  check_facts (rule_room_set_job (ALCOVE, change_job, &metric), "A. Client", NULL);
  check_facts (rule_room_set_job (ALCOVE, change_job, &metric), " m²", " ft² (");
  check_facts (rule_room_set_job (ALCOVE, change_job, &noted), "Dog in the yard.", NULL);
  check_facts (rule_room_set_finish (ALCOVE, take_tile_off, NULL), "not chosen yet", NULL);
  check_facts (rule_room_set_room (ALCOVE, take_name_off, NULL), "Room", NULL);
  check_facts (without_basin (), "none yet", "tub 60");
#undef ALCOVE
}

/* One sheet is a sheet, several are sheets, and before anything is cut there are none. */
static void
test_sheets (void)
{
  static const struct {
    guint n;
    const char *text;
  } cases[] = {{0, "pieces from 0 sheets"}, {1, "pieces from 1 sheet,"}};
  g_autoptr (DryProject) project = dry_test_alcove ("foam-bands");
  g_autoptr (DryPlan) plan = rule_room_plan (project);

  g_assert_cmpuint (plan->boards->cutting->n_sheets, >, 1);
  g_assert_cmpuint (count_in (dry_papers_add_cut_sheets, plan, "Sheet 1 of"), ==, 1);
  for (guint i = 0; i < G_N_ELEMENTS (cases); i++) {
    DryPlan own = *plan;
    DryBoards boards = *plan->boards;
    DryCutting cutting = *plan->boards->cutting;

    cutting.n_sheets = cases[i].n;
    boards.cutting = cases[i].n > 0 ? &cutting : NULL;
    own.boards = &boards;
    g_assert_cmpuint (count_in (dry_papers_add_cut_sheets, &own, "Sheet 1 of"), ==, cases[i].n);
    if (cases[i].n > 0)
      g_assert_cmpuint (count_in (dry_papers_add_summary, &own, cases[i].text), ==, 1);
    if (cases[i].n == 1)
      g_assert_cmpuint (count_in (dry_papers_add_cut_sheets, &own, "1 sheet: "), ==, 1);
  }
}

/* A sheet from the job's own stock says so; one used whole has no cuts to list; a piece turned on
 * it, cut from another's opening, or no board at all is told as what it is. */
static void
test_cut_sheet (void)
{
  g_autoptr (DryProject) project = dry_test_alcove ("foam-bands");
  g_autoptr (DryPlan) plan = rule_room_plan (project);
  DryPlan own = *plan;
  DryBoards boards = *plan->boards;
  DryCutting cutting = *plan->boards->cutting;
  DryStock stock = {.id = "own", .width = INCH (48), .height = INCH (96), .count = 1};
  DryPiece pieces[] = {{"spare", INCH (48), INCH (90), TRUE}, {"patch", INCH (10), INCH (9), TRUE}};
  DryPlacement places[] = {{0, {0, 0, INCH (48), INCH (90)}, TRUE, -1},
                           {1, {INCH (5), INCH (5), INCH (15), INCH (14)}, FALSE, 0}};
  DryRect opening = {INCH (4), INCH (4), INCH (16), INCH (16)};
  DrySheetLayout layout = {0, places, 2, NULL, 0, NULL, 0};

  stock.on_hand = TRUE;
  pieces[0].openings = &opening;
  pieces[0].n_openings = 1;
  cutting.stock = &stock;
  cutting.pieces = pieces;
  cutting.n_pieces = 2;
  cutting.sheets = &layout;
  cutting.n_sheets = 1;
  boards.cutting = &cutting;
  own.boards = &boards;
  g_assert_cmpuint (
      count_in (dry_papers_add_cut_sheets, &own, "Sheet 1 of 1: 48\" × 96\", on hand"), ==, 1);
  g_assert_cmpuint (count_in (dry_papers_add_cut_sheets, &own, "No cut: the sheet is used whole."),
                    ==, 1);
  g_assert_cmpuint (count_in (dry_papers_add_cut_sheets, &own,
                              "turned on the sheet; cut out as on its elevation"),
                    ==, 1);
  g_assert_cmpuint (count_in (dry_papers_add_cut_sheets, &own, "from the opening of spare"), ==, 1);
}

/* --- findings and cautions --- */

/* Why, remedies, source and who asked: each where the rule has it, a stop behind the reason. */
static void
test_findings (void)
{
  static const DryRemedy remedies[] = {{"Move it", NULL}, {"Leave it out", NULL}};
  static const struct {
    DryRule rule;
    DryFinding finding;
    const char *head, *more;
  } cases[] = {
      {{.why = "It leaks", .remedies = remedies, .n_remedies = 2, .source = {"a book", 0}},
       {.where = "Back wall", .message = "Too low."},
       "Back wall: Too low.",
       "It leaks. Remedy: Move it; or: Leave it out\nSource: a book"},
      {{.why = "It leaks.", .remedies = remedies, .n_remedies = 1},
       {.where = "", .message = "Too low.", .answered_by = "the pack"},
       "Too low.",
       "It leaks. Remedy: Move it. Asked by: the pack"},
      {{.remedies = remedies, .n_remedies = 1},
       {.message = "Too low.", .answered_by = ""},
       "Too low.",
       "Remedy: Move it"},
      {{.why = "It leaks"}, {.message = "Too low."}, "Too low.", "It leaks."},
      {{.why = ""}, {.message = "Nothing more."}, "Nothing more.", NULL},
  };
  g_autoptr (DryProject) project = dry_test_alcove ("foam-bands");
  g_autoptr (DryPlan) plan = rule_room_plan (project);

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++) {
    DryFinding finding = cases[i].finding;
    DryFindings findings = {.items = &finding, .n = 1, .count = {0, 1, 0}};
    DryPlan own = *plan;

    finding.rule = &cases[i].rule;
    finding.severity = DRY_SEVERITY_FIX;
    own.findings = &findings;
    g_assert_cmpuint (count_in (dry_papers_add_findings, &own, cases[i].head), ==, 1);
    g_assert_cmpuint (count_in (dry_papers_add_findings, &own, "Fix before tiling"), ==, 1);
    g_assert_cmpuint (count_in (dry_papers_add_findings, &own, "Stop: must not"), ==, 0);
    if (cases[i].more)
      g_assert_cmpuint (count_in (dry_papers_add_findings, &own, cases[i].more), ==, 1);
    else
      g_assert_cmpuint (count_in (dry_papers_add_findings, &own, "Remedy"), ==, 0);
  }
  {
    const DryFindings none = {0};
    DryPlan own = *plan;

    own.findings = &none;
    g_assert_cmpuint (count_in (dry_papers_add_findings, &own, "find nothing in this plan"), ==, 1);
  }
}

/* The largest sheet's weight is told where the board's mass is known. */
static void
test_lifting (void)
{
  g_autoptr (DryProject) project = dry_test_alcove ("foam-bands");
  g_autoptr (DryPlan) plan = rule_room_plan (project);
  DrySystem system = *plan->context.system;
  DryPlan own = *plan;

  own.context.system = &system;
  g_assert_cmpuint (count_in (dry_papers_add_cautions, &own, "The largest sheet of this board"), ==,
                    1);
  system.mass.value = 0;
  g_assert_cmpuint (count_in (dry_papers_add_cautions, &own, "The largest sheet of this board"), ==,
                    0);
  g_assert_cmpuint (count_in (dry_papers_add_cautions, &own, "bags of mortar up the stairs"), ==,
                    1);
  system = *plan->context.system;
  system.n_sheets = 0;
  g_assert_cmpuint (count_in (dry_papers_add_cautions, &own, "bags of mortar up the stairs"), ==,
                    1);
}

/* --- tables --- */

/* What has no price says so and is counted below the sum; what the job has is on hand; a group of
 * no name of ours keeps its own. */
static void
test_takeoff (void)
{
  static const DryTakeoffLine lines[] = {
      {.id = "a",
       .group = "sheets",
       .name = "Board",
       .unit = "pc",
       .packs = 2,
       .price = 150,
       .cost = 300,
       .pack_name = "sheet"},
      {.id = "b", .group = "on-hand", .name = "Rest", .unit = "pc", .packs = 1, .on_hand = TRUE},
      {.id = "c", .group = "oddments", .name = "Pin", .packs = 1},
      {.id = "d", .group = NULL, .name = "Tack", .packs = 1},
      {.id = "e",
       .group = "tile",
       .name = "Return",
       .unit = "pc",
       .packs = 1,
       .price = -5,
       .cost = -1205,
       .working = {"2 x 3", NULL, 0, {"by count", DRY_CERTAINTY_PUBLISHED}}},
  };
  static const struct {
    guint unpriced;
    const char *gap;
  } gaps[] = {{0, NULL},
              {1, "1 line without a price is not in the sum."},
              {2, "2 lines without a price are not in the sum."}};
  g_autoptr (DryProject) project = dry_test_alcove ("foam-bands");
  g_autoptr (DryPlan) plan = rule_room_plan (project);

  for (guint i = 0; i < G_N_ELEMENTS (gaps); i++) {
    DryTakeoff takeoff = {.lines = (DryTakeoffLine *) lines,
                          .n = G_N_ELEMENTS (lines),
                          .n_unpriced = gaps[i].unpriced,
                          .cost = i == 0 ? 0 : 300,
                          .mass = i == 0 ? 0 : 5};
    DryPlan own = *plan;
#define SAYS(text) count_in (dry_papers_add_takeoff, &own, text)

    own.takeoff = &takeoff;
    g_assert_cmpuint (SAYS ("2 × sheet"), ==, 1);
    g_assert_cmpuint (SAYS ("on hand"), ==, 1);
    g_assert_cmpuint (SAYS ("no price"), ==, 2);
    g_assert_cmpuint (SAYS ("oddments"), ==, 1);
    g_assert_cmpuint (SAYS ("On hand, not bought"), ==, 1);
    g_assert_cmpuint (SAYS ("-12.05"), ==, 1);
    g_assert_cmpuint (SAYS ("-0.05"), ==, 1);
    g_assert_cmpuint (SAYS ("2 x 3   Source: by count"), ==, 1);
    g_assert_cmpuint (SAYS ("not in the sum"), ==, gaps[i].gap ? 1 : 0);
    if (gaps[i].gap)
      g_assert_cmpuint (SAYS (gaps[i].gap), ==, 1);
    g_assert_cmpuint (SAYS ("The board hung weighs about"), ==, takeoff.mass > 0 ? 1 : 0);
#undef SAYS
  }
}

/* A working without a source stands by itself; a source that is not published says how certain it
 * is, once. */
static void
test_workings (void)
{
  static const struct {
    DryWorking working;
    const char *text;
  } cases[] = {
      {{NULL, NULL, 0, {"x", 0}}, NULL},
      {{"", NULL, 0, {"x", 0}}, NULL},
      {{"1 + 1", NULL, 0, {NULL, DRY_CERTAINTY_PUBLISHED}}, "1 + 1"},
      {{"1 + 1", NULL, 0, {"", DRY_CERTAINTY_PUBLISHED}}, "1 + 1"},
      {{"1 + 1", NULL, 0, {"a code", DRY_CERTAINTY_PUBLISHED}}, "1 + 1   Source: a code"},
      {{"1 + 1", NULL, 0, {"common practice, no source", DRY_CERTAINTY_COMMON_PRACTICE}},
       "1 + 1   Source: common practice, no source"},
      {{"1 + 1", NULL, 0, {"a sample", DRY_CERTAINTY_INVENTED}},
       "1 + 1   Source: a sample (invented)"},
  };

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++) {
    g_autofree char *text = dry_papers_working (&cases[i].working);

    g_assert_cmpstr (text, ==, cases[i].text);
  }
}

/* Waits between two lengths, of one, or none; holds are marked. Without an order of work the
 * inspector has no sheet. */
static void
test_order (void)
{
  static const DryStep steps[] = {
      {.id = "a", .text = "Hang.", .hours = 2, .wait_min = 1, .wait_max = 2},
      {.id = "b", .text = "Wait.", .wait_min = 3, .wait_max = 3, .hold = TRUE}};
  g_autoptr (DryProject) project = dry_test_alcove ("foam-bands");
  g_autoptr (DryPlan) plan = rule_room_plan (project);
  DryOrder order = {.items = (DryStep *) steps, .n = 2, .hours = 2};
  DryPlan own = *plan;

  own.order = &order;
  g_assert_cmpuint (count_in (dry_papers_add_order, &own, "1 to 2 h"), ==, 1);
  g_assert_cmpuint (count_in (dry_papers_add_order, &own, "3 h"), ==, 1);
  g_assert_cmpuint (count_in (dry_papers_add_order, &own, "–"), >=, 1);
  g_assert_cmpuint (count_in (dry_papers_add_inspection, &own, "For the inspector"), >=, 1);
  order.n = 0;
  g_assert_cmpuint (count_in (dry_papers_add_inspection, &own, "For the inspector"), ==, 0);
}

/* --- legends --- */

static void
test_legends (void)
{
  DryPart pipe = {.kind = DRY_PART_PIPE,
                  .u = INCH (10),
                  .z = INCH (20),
                  .width = INCH (2),
                  .height = INCH (30),
                  .depth = INCH (2)};
  g_autoptr (DryProject) plain = dry_test_alcove ("foam-bands");
  g_autoptr (DryProject) piped = rule_room_add_part (dry_project_ref (plain), 'e', pipe);
  g_autoptr (DryPlan) without = rule_room_plan (plain);
  g_autoptr (DryPlan) with = rule_room_plan (piped);
  DrySystem system = *without->context.system;
  DryJoints none = {0};
  DryPlan own = *without;

  g_assert_cmpuint (count_in (dry_papers_add_faces, without, "hidden in the wall"), ==, 0);
  g_assert_cmpuint (count_in (dry_papers_add_faces, with, "hidden in the wall"), ==, 1);
  own.context.system = &system;
  own.joints = &none;
  g_assert_cmpuint (count_in (dry_papers_add_faces, &own, "bead of sealant"), ==, 0);
  system.treatments[DRY_JOINT_SEAM].kind = DRY_TREAT_MESH;
  g_assert_cmpuint (count_in (dry_papers_add_faces, &own, "mesh in mortar"), >=, 1);
  system.treatments[DRY_JOINT_SEAM].kind = DRY_TREAT_BEAD;
  g_assert_cmpuint (count_in (dry_papers_add_faces, &own, "mesh in mortar"), ==, 0);
}

/* Only holes are sealed by a bead: the wall with the fittings shows it. */
static void
test_bead_at_holes (void)
{
  g_autoptr (DryProject) project = dry_test_furnished_alcove ("foam-bands");
  g_autoptr (DryPlan) plan = rule_room_plan (project);
  DrySystem system = *plan->context.system;
  DryJoints none = {0};
  DryPlan own = *plan;

  own.context.system = &system;
  own.joints = &none;
  system.treatments[DRY_JOINT_PENETRATION].kind = DRY_TREAT_BEAD;
  g_assert_cmpuint (count_in (dry_papers_add_faces, &own, "bead of sealant"), ==, 1);
  system.treatments[DRY_JOINT_PENETRATION].kind = DRY_TREAT_GASKET;
  g_assert_cmpuint (count_in (dry_papers_add_faces, &own, "bead of sealant"), ==, 0);
}

/* --- the water's way --- */

static void
test_water (void)
{
  DryWaterBreak breaks[] = {{.text = "open corner", .n = 1, .face = -1},
                            {.text = "no band", .n = 3, .face = -1}};
  g_autoptr (DryProject) project = dry_test_alcove ("foam-bands");
  g_autoptr (DryPlan) plan = rule_room_plan (project);
  DryWater water = *plan->water;
  DryPlan own = *plan;

  own.water = &water;
  water.closed = TRUE;
  water.n_breaks = 0;
  g_assert_cmpuint (count_in (dry_papers_add_water, &own, "Closed: every drop"), >=, 1);
  water.closed = FALSE;
  water.breaks = breaks;
  water.n_breaks = 2;
  g_assert_cmpuint (count_in (dry_papers_add_water, &own, "Closed: every drop"), ==, 0);
  g_assert_cmpuint (count_in (dry_papers_add_water, &own, "Break: no band (3 places)"), ==, 1);
  water.n_paths = 0;
  g_assert_cmpuint (count_in (dry_papers_add_water, &own, "Break"), ==, 0);
  own.water = NULL;
  g_assert_cmpuint (count_in (dry_papers_add_water, &own, "Water"), ==, 0);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/summary/facts", test_facts);
  g_test_add_func ("/summary/sheets", test_sheets);
  g_test_add_func ("/summary/cut-sheet", test_cut_sheet);
  g_test_add_func ("/summary/findings", test_findings);
  g_test_add_func ("/summary/lifting", test_lifting);
  g_test_add_func ("/summary/takeoff", test_takeoff);
  g_test_add_func ("/summary/workings", test_workings);
  g_test_add_func ("/summary/order", test_order);
  g_test_add_func ("/summary/legends", test_legends);
  g_test_add_func ("/summary/bead-at-holes", test_bead_at_holes);
  g_test_add_func ("/summary/water", test_water);
  return g_test_run ();
}
