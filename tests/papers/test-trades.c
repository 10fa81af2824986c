/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Sheets by trade: the same thing has the same height for every trade, and that of the plan; every
 * cover states the same datum; each trade has the pages it needs and not the others'. */
#include <string.h>

#include "base/error.h"
#include "papers/papers-private.h"
#include "papers/trades.h"
#include "support/fixtures.h"
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

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/trades/cases", test_cases);
  g_test_add_func ("/trades/random-rooms", test_random_rooms);
  g_test_add_func ("/trades/covers", test_covers);
  g_test_add_func ("/trades/pages", test_pages_by_trade);
  g_test_add_func ("/trades/words", test_words);
  return g_test_run ();
}
