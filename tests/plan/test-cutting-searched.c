/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Tests of plans searched on: never worse than live, whole in every part, the same twice, stopped
 * when told; the bound for any boards never exceeds what some boards reach. */
#include <string.h>

#include "plan/cutting-standing.h"
#include "plan/plan.h"
#include "support/fixtures.h"

/* A twentieth of a second. */
#define EFFORT (DRY_CUTTING_SECOND / 20)

static DryPlan *
make_plan (const DryProject *project, guint64 effort)
{
  g_autoptr (GError) error = NULL;
  DryPlan *plan = dry_plan_new_searched (project, dry_test_room (project), dry_test_catalog (),
                                         effort, NULL, &error);
  g_assert_no_error (error);
  return plan;
}

static char *
write_plan (const DryPlan *plan)
{
  DryJsonWriter *writer = dry_json_writer_new ();
  gsize length;
  dry_plan_write_json (plan, writer, NULL);
  return dry_json_writer_finish (writer, &length);
}

static gint64
count_sheets_to_buy (const DryPlan *plan)
{
  gint64 n = 0;
  for (guint i = 0; i < plan->takeoff->n; i++)
    if (g_strcmp0 (plan->takeoff->lines[i].group, "sheets") == 0)
      n += plan->takeoff->lines[i].packs;
  return n;
}

static gint64
count_live_choice (const DryPlan *plan)
{
  return plan->boards->cutting->n_bought + 1000 * (gint64) plan->boards->cutting->n_unplaced;
}

static void
test_never_worse (void)
{
  const guint n = g_test_quick () ? 30 : 600;
  guint live_sheets = 0, sheets = 0, least = 0, fewest = 0, fewer = 0;
  for (guint32 seed = 1; seed <= n; seed++) {
    g_autoptr (DryProject) project = dry_test_random_project (seed);
    g_autoptr (DryPlan) live = make_plan (project, 0);
    g_autoptr (DryPlan) plan = make_plan (project, EFFORT);
    const DryCutting *cutting = plan->boards->cutting;
    g_assert_cmpint (count_live_choice (plan), <=, count_live_choice (live));
    g_assert_cmpuint (plan->boards->least_sheets, ==, live->boards->least_sheets);
    if (cutting->n_unplaced == 0)
      g_assert_cmpuint (plan->boards->least_sheets, <=, cutting->n_bought);
    g_assert_cmpint (count_sheets_to_buy (plan), ==, cutting->n_sheets);
    /* Every stage saw the same boards. */
    g_assert_cmpuint (cutting->n_pieces, ==, plan->boards->n);
    for (guint i = 0; i < plan->boards->n; i++)
      g_assert_cmpstr (cutting->pieces[i].name, ==, plan->boards->items[i].mark);
    live_sheets += live->boards->cutting->n_bought;
    sheets += cutting->n_bought;
    least += plan->boards->least_sheets;
    fewer += cutting->n_bought < live->boards->cutting->n_bought;
    fewest += dry_boards_get_standing (plan->boards).kind == DRY_STANDING_FEWEST;
  }
  g_test_message (
      "%u rooms: %u sheets live, %u searched (%u rooms with fewer), at least %u for any "
      "boards, %u rooms fewest possible",
      n, live_sheets, sheets, fewer, least, fewest);
}

static void
test_same_twice (void)
{
  for (guint32 seed = 1; seed <= 8; seed++) {
    g_autoptr (DryProject) project = dry_test_random_project (seed);
    g_autoptr (DryPlan) one = make_plan (project, EFFORT), two = make_plan (project, EFFORT);
    g_autofree char *a = write_plan (one), *b = write_plan (two);
    g_assert_cmpstr (a, ==, b);
  }
}

static void
test_cancelled (void)
{
  g_autoptr (DryProject) project = dry_test_random_project (3);
  g_autoptr (GCancellable) cancellable = g_cancellable_new ();
  g_autoptr (GError) error = NULL;
  g_cancellable_cancel (cancellable);
  g_assert_null (dry_plan_new_searched (project, dry_test_room (project), dry_test_catalog (),
                                        EFFORT, cancellable, &error));
  g_assert_error (error, DRY_ERROR, DRY_ERROR_CANCELLED);
}

static void
test_sayings (void)
{
  static const struct {
    DryCutting cutting;
    guint least;
    DryStandingKind kind;
    const char *text;
  } CASES[] = {
      {{0}, 0, DRY_STANDING_NONE, ""},
      {{.n_sheets = 3, .n_bought = 3, .lower_bound = 3, .proven = TRUE},
       3,
       DRY_STANDING_FEWEST,
       "fewest possible"},
      {{.n_sheets = 3, .n_bought = 3, .lower_bound = 3, .proven = TRUE},
       2,
       DRY_STANDING_BOARDS,
       "fewest for these boards; at most 1 fewer with other seams"},
      {{.n_sheets = 5, .n_bought = 5, .lower_bound = 4},
       4,
       DRY_STANDING_OPEN,
       "at most 1 sheet from the fewest"},
      {{.n_sheets = 5, .n_bought = 5, .lower_bound = 4},
       3,
       DRY_STANDING_OPEN,
       "at most 2 sheets from the fewest"},
      {{.n_sheets = 5, .n_bought = 5, .n_unplaced = 1},
       3,
       DRY_STANDING_SHORT,
       "not all pieces find a sheet"},
  };
  g_autoptr (DryArena) arena = dry_arena_new ();
  for (guint i = 0; i < G_N_ELEMENTS (CASES); i++) {
    DryBoards boards = {.cutting = &CASES[i].cutting, .least_sheets = CASES[i].least};
    DryStanding standing = dry_boards_get_standing (&boards);
    g_assert_cmpint (standing.kind, ==, CASES[i].kind);
    /* Nothing is left to search where no board is cut or no boards need fewer sheets. */
    g_assert_cmpint (dry_boards_is_settled (&boards), ==,
                     standing.kind == DRY_STANDING_NONE || standing.kind == DRY_STANDING_FEWEST);
    g_assert_cmpstr (dry_standing_to_text (standing, arena), ==, CASES[i].text);
  }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/plan/searched/never-worse", test_never_worse);
  g_test_add_func ("/plan/searched/same-twice", test_same_twice);
  g_test_add_func ("/plan/searched/cancelled", test_cancelled);
  g_test_add_func ("/plan/searched/sayings", test_sayings);
  return g_test_run ();
}
