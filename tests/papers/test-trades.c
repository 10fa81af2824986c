/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Sheets by trade: the same thing has the same height for every trade, and that of the plan; every
 * cover states the same datum; each trade has the pages it needs and not the others'. */
#include <string.h>

#include "base/error.h"
#include "papers/papers-private.h"
#include "papers/trades.h"
#include "plan/rule-room.h"
#include "texts.h"

/* As they stand on top of every page of theirs. */
static const char *const NAMES[DRY_N_TRADES] = {"Framer", "Rough-in", "Board hanger",
                                                "Waterproofer", "Tile setter"};

static DryPlan *
plan_of (const DryProject *project, guint room)
{
  g_autoptr (GError) error = NULL;
  DryPlan *plan = dry_plan_new (project, dry_project_get_room_at (project, room)->id,
                                dry_test_catalog (), NULL, &error);

  g_assert_no_error (error);
  return plan;
}

static DryPlan *
make_plan (void)
{
  g_autoptr (DryProject) project = dry_test_furnished_alcove ("foam-bands");

  return plan_of (project, 0);
}

static DryPapers *
make_sheets (const DryPlan *plan, guint trades)
{
  DryPaperOptions options = {.paper = DRY_PAPER_LETTER, .decimal = '.'};
  g_autoptr (GError) error = NULL;
  DryPapers *papers = dry_papers_new_trades (&plan, 1, trades, &options, &error);

  g_assert_no_error (error);
  return papers;
}

/* --- the list --- */

static gboolean
has_mark (const DryTradeMarks *marks, DryTrade trade, DryId object, DryLength u, DryLength z)
{
  for (guint i = 0; i < marks->n; i++) {
    const DryTradeMark *mark = &marks->items[i];

    if (mark->trades & 1u << trade && mark->object == object && mark->u == u && mark->z == z)
      return TRUE;
  }
  return FALSE;
}

static void
check_fittings (const DryPlan *plan, const DryTradeMarks *marks)
{
  const DryRoom *room = plan->context.room;

  for (guint i = 0; i < room->n_parts; i++) {
    const DryPart *part = &room->parts[i];

    if (part->kind < DRY_PART_VALVE || part->kind > DRY_PART_HAND_SHOWER)
      continue;
    for (DryTrade t = 0; t < DRY_N_TRADES; t++)
      g_assert_true (has_mark (marks, t, part->id, part->u, part->z));
  }
}

static void
check_faces (const DryPlan *plan, const DryTradeMarks *marks)
{
  for (guint f = 0; f < plan->faces->n; f++) {
    const DryFace *face = &plan->faces->items[f];

    if (face->kind != DRY_FACE_WALL)
      continue;
    for (DryTrade t = 0; t < DRY_N_TRADES && face->at_basin; t++)
      g_assert_true (has_mark (marks, t, plan->context.room->basin.id, face->basin_u0, face->deck));
    for (guint c = 0; c < face->n_cutouts; c++) {
      const DryCutout *cut = &face->cutouts[c];

      for (DryTrade t = DRY_TRADE_FRAMER; t <= DRY_TRADE_WATERPROOFER; t++) {
        g_assert_true (has_mark (marks, t, cut->object, cut->rough.x0, cut->rough.y0));
        g_assert_true (has_mark (marks, t, cut->object, cut->rough.x1, cut->rough.y1));
      }
      for (DryTrade t = DRY_TRADE_WATERPROOFER; t <= DRY_TRADE_SETTER; t++)
        g_assert_true (has_mark (marks, t, cut->object, cut->finish.x0, cut->finish.y0));
    }
  }
}

static void
check_added_wood (const DryPlan *plan, const DryTradeMarks *marks)
{
  for (guint i = 0; i < plan->framing->n; i++) {
    const DryMember *member = &plan->framing->items[i];

    if (member->added && plan->faces->items[member->face].kind == DRY_FACE_WALL)
      g_assert_true (
          has_mark (marks, DRY_TRADE_FRAMER, member->object, member->rect.x0, member->rect.y0));
  }
}

/* No two rows say the same of one wall and thing with another height. */
static void
check_one_height (const DryTradeMarks *marks)
{
  for (guint a = 0; a < marks->n; a++)
    for (guint b = a + 1; b < marks->n; b++) {
      const DryTradeMark *x = &marks->items[a], *y = &marks->items[b];

      if (x->object && x->object == y->object && x->face == y->face && x->u == y->u &&
          x->trades != 1u << DRY_TRADE_FRAMER && g_str_equal (x->what, y->what))
        g_assert_cmpint (x->z, ==, y->z);
    }
}

static void
check_room (const DryPlan *plan)
{
  g_autoptr (DryTradeMarks) marks = dry_trade_marks_new (plan);

  g_assert_cmpuint (marks->n, >, 0);
  check_fittings (plan, marks);
  check_faces (plan, marks);
  check_added_wood (plan, marks);
  check_one_height (marks);
}

static void
check_project (const DryProject *project)
{
  for (guint i = 0; i < dry_project_get_n_rooms (project); i++) {
    g_autoptr (DryPlan) plan = plan_of (project, i);

    check_room (plan);
  }
}

static void
test_cases (void)
{
  static const char *const names[] = {
      "01-alcove.drybay",  "03-window-wall.drybay",    "04-neo-angle.drybay",
      "05-roll-in.drybay", "08-steam.drybay",          "12-steel-rated.drybay",
      "13-ex-tub.drybay",  "15-tray-uk.drybay",        "16-pony-wall.drybay",
      "17-drop-in.drybay", "20b-vent-bay-moved.drybay"};

  for (guint i = 0; i < G_N_ELEMENTS (names); i++) {
    g_autoptr (DryProject) project = dry_test_load (names[i]);

    check_project (project);
  }
}

static void
test_random_rooms (void)
{
  for (guint32 seed = 1; seed <= 30; seed++) {
    g_autoptr (DryProject) project = dry_test_random_project (seed);

    check_project (project);
  }
}

/* --- the pages --- */

static void
test_covers (void)
{
  g_autoptr (DryPlan) plan = make_plan ();
  g_autoptr (DryPapers) all = make_sheets (plan, DRY_TRADES_ALL);
  guint sum = 0;

  g_assert_cmpuint (
      dry_test_count_texts (all, "Heights from the finished floor. Widths from the left"), ==,
      DRY_N_TRADES);
  g_assert_cmpuint (dry_test_count_texts (all, "The level line stands"), ==, DRY_N_TRADES);
  for (DryTrade t = 0; t < DRY_N_TRADES; t++) {
    g_autoptr (DryPapers) own = make_sheets (plan, 1u << t);

    g_assert_cmpuint (dry_test_count_texts (own, "The datum, the same for every trade"), ==, 1);
    g_assert_cmpuint (dry_test_count_texts (own, NAMES[t]), >=, dry_papers_get_n_pages (own));
    g_assert_cmpuint (dry_test_count_texts (own, "Cautions"), >=, 1);
    sum += dry_papers_get_n_pages (own);
  }
  g_assert_cmpuint (sum, ==, dry_papers_get_n_pages (all));
}

static void
test_pages_by_trade (void)
{
  static const struct {
    const char *text;
    gboolean on[DRY_N_TRADES]; /* framer, plumber, hanger, waterproofer, setter */
  } cases[] = {{"Cut sheet", {FALSE, FALSE, TRUE, FALSE, FALSE}},
               {"Framing, from the floor", {TRUE, FALSE, TRUE, TRUE, TRUE}},
               {"Fasteners", {FALSE, FALSE, TRUE, TRUE, FALSE}},
               {"Water's way", {FALSE, FALSE, FALSE, TRUE, FALSE}},
               {"Order of work", {FALSE, FALSE, FALSE, TRUE, FALSE}},
               {"Take the middle of the drain", {FALSE, TRUE, FALSE, FALSE, FALSE}},
               {"finished opening, lower", {FALSE, FALSE, FALSE, TRUE, TRUE}},
               {"rough opening, lower", {TRUE, TRUE, TRUE, TRUE, FALSE}},
               {", new: lower left corner", {TRUE, FALSE, FALSE, FALSE, FALSE}}};
  g_autoptr (DryPlan) plan = make_plan ();

  for (DryTrade t = 0; t < DRY_N_TRADES; t++) {
    g_autoptr (DryPapers) papers = make_sheets (plan, 1u << t);

    for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
      if ((dry_test_count_texts (papers, cases[i].text) > 0) != cases[i].on[t])
        g_test_fail_printf ("%s: “%s” is %s", NAMES[t], cases[i].text,
                            cases[i].on[t] ? "missing" : "there");
  }
}

static void
test_words (void)
{
  static const struct {
    const char *text;
    guint trades; /* 0: refused */
  } cases[] = {{"framer", 1u << DRY_TRADE_FRAMER},
               {"electrician", 1u << DRY_TRADE_PLUMBER},
               {"plumber,electrician", 1u << DRY_TRADE_PLUMBER},
               {"hanger, setter", 1u << DRY_TRADE_HANGER | 1u << DRY_TRADE_SETTER},
               {"all", DRY_TRADES_ALL},
               {"", 0},
               {"roofer", 0},
               {"framer,", 0},
               {"framer,roofer", 0}};

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++) {
    g_autoptr (GError) error = NULL;
    guint trades = 0;

    g_assert_cmpint (dry_trades_from_text (cases[i].text, &trades, &error), ==,
                     cases[i].trades != 0);
    if (cases[i].trades)
      g_assert_cmpuint (trades, ==, cases[i].trades);
    else
      g_assert_error (error, DRY_ERROR, DRY_ERROR_UNSUPPORTED);
  }
}

/* --- rooms changed by edits --- */

static guint
count_sheet (DryProject *project, guint trades, const char *text)
{
  g_autoptr (DryPlan) plan = rule_room_plan (project);
  g_autoptr (DryPapers) papers = make_sheets (plan, trades);

  dry_project_unref (project);
  return dry_test_count_texts (papers, text);
}

typedef struct {
  DryEnd drain;
  DryBasinKind kind;
  gboolean turned;
  DryLength pipe;
} DrainCase;

static void
set_drain (DryBasin *basin, gpointer data)
{
  const DrainCase *as = data;

  basin->drain = as->drain;
  basin->kind = as->kind;
  basin->turned = as->turned;
  basin->drain_diameter = as->pipe;
}

/* Which end of what the drain is at, how wide its pipe, and how far along the wall the piece
 * stands, turned or not. */
static void
test_drains (void)
{
  static const struct {
    DrainCase as;
    const char *text;
  } cases[] = {
      {{DRY_END_LEFT, DRY_BASIN_TUB, FALSE, INCH (1.5)}, "Drain: at the left end of the tub, "},
      {{DRY_END_RIGHT, DRY_BASIN_PAN, FALSE, INCH (2)}, "Drain: at the right end of the pan, "},
      {{DRY_END_CENTRE, DRY_BASIN_PAN, FALSE, INCH (2)}, ", waste pipe ø 2\"."},
      {{DRY_END_BACK, DRY_BASIN_PAN, FALSE, 0}, "the wall it stands against. The pan"},
      {{DRY_END_LEFT, DRY_BASIN_TUB, TRUE, 0}, "stands from 0\" to 30\""},
      {{DRY_END_LEFT, DRY_BASIN_TUB, FALSE, 0}, "stands from 0\" to 60\""},
  };

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++) {
    DryProject *project =
        rule_room_set_basin (dry_test_alcove ("foam-bands"), set_drain, (gpointer) &cases[i].as);

    g_assert_cmpuint (count_sheet (project, 1u << DRY_TRADE_PLUMBER, cases[i].text), ==, 1);
  }
  {
    DryProject *project = dry_test_alcove ("foam-bands");
    DryId room = dry_test_room (project);
    DryProject *bare =
        dry_edit_remove (project, room, dry_project_get_room (project, room)->basin.id, NULL);

    dry_project_unref (project);
    g_assert_cmpuint (count_sheet (dry_project_ref (bare), 1u << DRY_TRADE_PLUMBER, "Drain: "), ==,
                      0);
    g_assert_cmpuint (
        count_sheet (bare, 1u << DRY_TRADE_PLUMBER, "Nothing of this room is measured"), ==, 1);
  }
}

/* A valve that tells what its trim takes has it on the sheet; another is set by its own marks. */
static void
test_valves (void)
{
  DryPart valve = {.kind = DRY_PART_VALVE,
                   .u = INCH (15),
                   .z = INCH (44),
                   .width = INCH (6),
                   .height = INCH (6),
                   .trim_min = INCH (2),
                   .trim_max = INCH (3)};
  guint plumber = 1u << DRY_TRADE_PLUMBER;

  g_assert_cmpuint (count_sheet (rule_room_add_part (dry_test_alcove ("foam-bands"), 'e', valve),
                                 plumber, "its trim takes 2\" to 3\" from the studs"),
                    ==, 1);
  valve.trim_min = valve.trim_max = 0;
  g_assert_cmpuint (count_sheet (rule_room_add_part (dry_test_alcove ("foam-bands"), 'e', valve),
                                 plumber, "set its body by the maker's depth marks"),
                    ==, 1);
}

static void
name_wall (DryWall *wall, gpointer data)
{
  wall->name = data;
}

/* What hangs on a wall that is not boarded is listed last, under the wall's own name or its number;
 * a fitting with a hole is told by it. */
static void
test_other_walls (void)
{
  DryPart cable = {.kind = DRY_PART_CABLE,
                   .u = INCH (20),
                   .z = INCH (40),
                   .width = INCH (1),
                   .height = INCH (30)};
  DryPart valve = {.kind = DRY_PART_VALVE,
                   .u = INCH (30),
                   .z = INCH (40),
                   .width = INCH (6),
                   .height = INCH (6),
                   .hole = INCH (4)};
  static const char *const names[] = {NULL, "Entry"};

  for (guint i = 0; i < G_N_ELEMENTS (names); i++) {
    DryProject *project = rule_room_add_part (
        rule_room_add_part (dry_test_alcove ("foam-bands"), 's', cable), 's', valve);
    g_autoptr (DryPlan) plan = NULL;
    g_autoptr (DryTradeMarks) marks = NULL;
    g_autoptr (DryPapers) papers = NULL;

    project = rule_room_set_wall (project, 's', name_wall, (gpointer) names[i]);
    plan = rule_room_plan (project);
    dry_project_unref (project);
    marks = dry_trade_marks_new (plan);
    for (guint k = marks->n - 2; k < marks->n; k++) {
      g_assert_cmpint (marks->items[k].face, ==, -1);
      g_assert_cmpstr (marks->items[k].wall, ==, names[i] ? names[i] : "Wall 3");
    }
    papers = make_sheets (plan, 1u << DRY_TRADE_PLUMBER);
    g_assert_cmpuint (dry_test_count_texts (papers, "ø 4\""), ==, 1);
    g_assert_cmpuint (dry_test_count_texts (papers, "1\" × 30\""), ==, 1);
  }
}

/* Who begins while a stop is open is told so. */
static void
test_open_findings (void)
{
  static const guint counts[][3] = {{0, 0, 5}, {1, 0, 0}, {0, 2, 0}};
  g_autoptr (DryPlan) plan = make_plan ();

  for (guint i = 0; i < G_N_ELEMENTS (counts); i++) {
    DryFindings findings = {.count = {counts[i][0], counts[i][1], counts[i][2]}};
    const DryFindings *own = plan->findings;
    g_autoptr (DryPapers) papers = NULL;
    g_autofree char *text = g_strdup_printf ("Open in this plan: %u stop, %u fix before tiling",
                                             counts[i][0], counts[i][1]);

    plan->findings = &findings;
    papers = make_sheets (plan, 1u << DRY_TRADE_FRAMER);
    plan->findings = own;
    g_assert_cmpuint (dry_test_count_texts (papers, text), ==, i > 0 ? 1 : 0);
  }
}

/* A window in a wet wall is measured by its openings as a niche is. */
static void
test_window (void)
{
  const DryOpening window = {.kind = DRY_OPENING_WINDOW,
                             .u = INCH (20),
                             .z = INCH (48),
                             .width = INCH (20),
                             .height = INCH (24)};

  g_assert_cmpuint (
      count_sheet (rule_room_add_opening (dry_test_alcove ("foam-bands"), 'n', window),
                   1u << DRY_TRADE_FRAMER, "Window: rough opening, lower left"),
      ==, 1);
}

static void
test_nothing_to_write (void)
{
  g_autoptr (DryPlan) plan = make_plan ();
  const DryPlan *plans[] = {plan};
  DryPaperOptions options = {.paper = DRY_PAPER_LETTER, .decimal = '.'};
  static const struct {
    guint n, trades;
    const char *says;
  } cases[] = {{0, DRY_TRADES_ALL, "There is no room"},
               {1, 0, "No trade is named"},
               {1, 1u << DRY_N_TRADES, "No trade is named"}};

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++) {
    g_autoptr (GError) error = NULL;

    g_assert_null (dry_papers_new_trades (plans, cases[i].n, cases[i].trades, &options, &error));
    g_assert_error (error, DRY_ERROR, DRY_ERROR_UNSUPPORTED);
    g_assert_nonnull (strstr (error->message, cases[i].says));
  }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/trades/cases", test_cases);
  g_test_add_func ("/trades/random-rooms", test_random_rooms);
  g_test_add_func ("/trades/covers", test_covers);
  g_test_add_func ("/trades/pages", test_pages_by_trade);
  g_test_add_func ("/trades/drains", test_drains);
  g_test_add_func ("/trades/valves", test_valves);
  g_test_add_func ("/trades/other-walls", test_other_walls);
  g_test_add_func ("/trades/open-findings", test_open_findings);
  g_test_add_func ("/trades/window", test_window);
  g_test_add_func ("/trades/nothing-to-write", test_nothing_to_write);
  g_test_add_func ("/trades/words", test_words);
  return g_test_run ();
}
