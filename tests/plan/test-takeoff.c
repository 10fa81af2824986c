/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What is bought: whole packs, no more and no less; prices summed, gaps said; the whole plan the
 * same bytes twice and in any locale. */
#include <locale.h>
#include <math.h>

#include "rig.h"
#include "support/fixtures.h"

static const DryTakeoffLine *
find_line (const DryTakeoff *takeoff, const char *id)
{
  for (guint i = 0; i < takeoff->n; i++)
    if (g_str_equal (takeoff->lines[i].id, id))
      return &takeoff->lines[i];
  return NULL;
}

static void
check_lines (const DryTakeoff *takeoff)
{
  gint64 cost = 0;
  guint unpriced = 0;

  for (guint i = 0; i < takeoff->n; i++) {
    const DryTakeoffLine *line = &takeoff->lines[i];
    g_assert_nonnull (line->id);
    g_assert_nonnull (line->name);
    g_assert_nonnull (line->group);
    g_assert_nonnull (line->unit);
    g_assert_nonnull (line->working.formula);
    g_assert_nonnull (line->working.source.text);
    g_assert_cmpfloat ((double) line->packs * line->pack, >=, line->amount - line->pack * 1.1e-6);
    g_assert_cmpfloat ((double) (line->packs - 1) * line->pack, <, line->amount);
    g_assert_cmpint (line->cost, ==, line->packs * line->price);
    cost += line->cost;
    unpriced += line->price == 0;
  }
  g_assert_cmpint (cost, ==, takeoff->cost);
  g_assert_cmpuint (unpriced, ==, takeoff->n_unpriced);
}

static void
set_up_wall (Rig *rig)
{
  rig_set_up (rig);
  rig_add_face (rig, 48, 96);
  rig_add_studs (rig, 0, 0.75, 15.5, 4);
  rig_add_board (rig, 0, 0, 0, 48, 96);
}

static void
test_products (void)
{
  Rig rig;

  set_up_wall (&rig);
  rig.face_items[0].dry_right = TRUE;
  rig_compute (&rig);
  check_lines (rig.takeoff);
  const DryTakeoffLine *membrane = find_line (rig.takeoff, "membrane");
  /* 32 ft2 in two coats of 0.5 L/m2: 2.97 L, one gallon */
  g_assert_cmpfloat_with_epsilon (membrane->amount, 32 * 0.09290304, 1e-9);
  g_assert_cmpint (membrane->packs, ==, 1);
  g_assert_cmpint (membrane->cost, ==, 6000);
  g_assert_cmpstr (membrane->group, ==, "membrane");
  g_assert_cmpstr (find_line (rig.takeoff, "screw")->group, ==, "fasteners");
  g_assert_cmpstr (find_line (rig.takeoff, "filler")->group, ==, "joints");
  /* the filler has no price: a gap, not a zero */
  g_assert_cmpuint (rig.takeoff->n_unpriced, ==, 1);
  /* 32 ft2 of board at 10 kg/m2 */
  g_assert_cmpfloat_with_epsilon (rig.takeoff->mass, 32 * 0.09290304 * 10, 1e-9);
  rig.context.build_up.board = IN (0.625);
  rig_compute (&rig);
  g_assert_cmpfloat_with_epsilon (rig.takeoff->mass, 32 * 0.09290304 * 12.5, 1e-9);
  rig_tear_down (&rig);
}

static void
test_sheets (void)
{
  Rig rig;

  set_up_wall (&rig);
  DryStock stock[] = {{"3x5", IN (36), IN (60), 2000, -1}};
  DryPiece pieces[] = {{"A1", IN (36), IN (60), TRUE}, {"A2", IN (30), IN (60), TRUE}};
  rig.boards.cutting = dry_cutting_compute (rig.arena, stock, 1, pieces, 2, 0, 0);
  rig_compute (&rig);
  check_lines (rig.takeoff);
  const DryTakeoffLine *sheets = find_line (rig.takeoff, "3x5");
  g_assert_cmpint (sheets->packs, ==, 2);
  g_assert_cmpint (sheets->cost, ==, 4000);
  g_assert_cmpstr (sheets->name, ==, "1/2\" board, 3 x 5 ft, Test system");
  rig_tear_down (&rig);
}

/* A plate of 40 ft is spliced from lengths of 16 ft, the longest sold; what is wider than any stock
 * is named by the widest. */
static void
test_long_lumber (void)
{
  Rig rig;
  const DryTakeoffLine *line;

  rig_set_up (&rig);
  rig_add_face (&rig, 480, 96);
  rig_add_member (&rig, 0, DRY_MEMBER_PLATE, 0, 0, 480, 1.5)->added = TRUE;
  rig_add_member (&rig, 0, DRY_MEMBER_BLOCKING, 0, 40, 14, 53)->added = TRUE;
  rig_compute (&rig);
  line = find_line (rig.takeoff, "lumber");
  g_assert_cmpstr (line->name, ==, "2x4 stud, 16 ft");
  g_assert_cmpfloat (line->amount, ==, 3);
  g_assert_nonnull (strstr (line->working.formula, "1 piece, 12.192 m in all, cut from 3 lengths"));
  g_assert_cmpstr (find_line (rig.takeoff, "lumber-2x12")->name, ==, "2x12 stud, 8 ft");
  rig_tear_down (&rig);
}

/* Lumber by the lengths it is cut from; names by dressed sizes (PS 20): 3-1/2 in is a 2x4,
 * 5-1/2 in a 2x6. */
static void
test_lumber (void)
{
  Rig rig;

  set_up_wall (&rig);
  for (guint i = 0; i < 5; i++) /* five of 60 in: one out of each 8 ft length */
    rig_add_member (&rig, 0, DRY_MEMBER_STUD, 10, 0, 11.5, 60)->added = TRUE;
  rig_add_member (&rig, 0, DRY_MEMBER_BLOCKING, 17, 40, 31, 45.5)->added = TRUE;
  rig.blocking_items[0] = (DryMember){
      .face = 0, .kind = DRY_MEMBER_BLOCKING, .rect = {IN (1), IN (30), IN (15), IN (33.5)}};
  rig.boards.n_blocking = 1;
  rig_add_member (&rig, 0, DRY_MEMBER_CLEAT, 20, 50, 32, 51.5)->added = TRUE;
  rig_add_member (&rig, 0, DRY_MEMBER_CLEAT, 20, 70, 32, 71.5)->added = TRUE;
  rig_compute (&rig);
  check_lines (rig.takeoff);
  const DryTakeoffLine *strips = find_line (rig.takeoff, "strip");
  g_assert_cmpint (strips->packs, ==, 1);
  g_assert_true (g_str_has_prefix (strips->working.formula, "2 pieces, 0.61 m in all"));
  const DryTakeoffLine *studs = find_line (rig.takeoff, "lumber");
  g_assert_cmpint (studs->packs, ==, 5);
  g_assert_cmpstr (studs->name, ==, "2x4 stud, 8 ft");
  g_assert_cmpstr (studs->working.formula, ==,
                   "6 pieces, 7.976 m in all, cut from 5 lengths of 2.438 m");
  g_assert_cmpint (find_line (rig.takeoff, "lumber-2x6")->packs, ==, 1);
  rig_tear_down (&rig);
}

/* Tile with the trade's allowance (common practice: 10 % straight, 15 % offset and diagonal),
 * mortar by the trowel, grout by the widely printed formula. */
static void
test_tile (void)
{
  static const struct {
    DryPattern pattern;
    double more;
    double share; /* of the box round a tile and its joint; a hexagon's is sqrt (3) / 2, geometry */
  } cases[] = {{DRY_PATTERN_STRAIGHT, 0.10, 1},
               {DRY_PATTERN_VERTICAL, 0.10, 1},
               {DRY_PATTERN_OFFSET, 0.15, 1},
               {DRY_PATTERN_DIAGONAL, 0.15, 1},
               {DRY_PATTERN_HEXAGON, 0.20, 0.86602540378443865}};
  const double area = 32 * 0.09290304;

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++) {
    Rig rig;
    set_up_wall (&rig);
    rig.room.finish = (DryFinish){.tiled = TRUE,
                                  .tile_width = 300 * DRY_MM,
                                  .tile_height = 300 * DRY_MM,
                                  .tile_thickness = 8 * DRY_MM,
                                  .joint = 3 * DRY_MM,
                                  .pattern = cases[i].pattern};
    rig_compute (&rig);
    check_lines (rig.takeoff);
    const DryTakeoffLine *tile = find_line (rig.takeoff, "tile");
    g_assert_cmpfloat_with_epsilon (tile->amount, area * (1 + cases[i].more), 1e-9);
    g_assert_cmpint (tile->packs, ==,
                     (gint64) ceil (area * (1 + cases[i].more) / (0.303 * 0.303 * cases[i].share)));
    /* 0.160 L/m2 at 1.75 kg/L */
    g_assert_cmpfloat_with_epsilon (find_line (rig.takeoff, "grout")->amount, area * 0.160 * 1.75,
                                    1e-9);
    /* 1/4 x 3/8 in notch: 70 ft2 a bag, 32 ft2 are less than half a bag */
    g_assert_cmpfloat_with_epsilon (find_line (rig.takeoff, "tile-mortar")->amount,
                                    32.0 / 70 * 50 * 0.45359237, 1e-9);
    rig_tear_down (&rig);
  }
}

static void
check_random (const DryPlan *plan, guint32 seed)
{
  g_test_message ("seed %u, %s: %u lines", seed, plan->context.system->id, plan->takeoff->n);
  check_lines (plan->takeoff);
}

static void
test_random (void)
{
  rig_for_random_plans (60, check_random);
}

static char *
write_plan (guint32 seed)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (DryProject) project = dry_test_random_project (seed);
  g_autoptr (DryPlan) plan =
      dry_plan_new (project, dry_test_room (project), dry_test_catalog (), NULL, &error);
  DryJsonWriter *writer = dry_json_writer_new ();

  g_assert_no_error (error);
  dry_plan_write_json (plan, writer, NULL);
  return dry_json_writer_finish (writer, NULL);
}

/* Same value, same bytes, also where the decimal mark is a comma; and it reads back strictly. */
static void
test_same_bytes (void)
{
  const char *comma = NULL;

  for (guint32 seed = 1; seed <= 20; seed++) {
    g_autoptr (GError) error = NULL;
    g_autofree char *once = write_plan (seed), *twice = write_plan (seed);
    g_assert_cmpstr (once, ==, twice);
    g_autoptr (DryJsonDocument) document =
        dry_json_document_new (once, strlen (once), "plan", &error);
    g_assert_no_error (error);
    comma = setlocale (LC_ALL, "de_DE.UTF-8");
    if (comma) {
      g_autofree char *german = write_plan (seed);
      setlocale (LC_ALL, "C.UTF-8");
      g_assert_cmpstr (once, ==, german);
    }
  }
  if (!comma)
    g_test_message ("locale de_DE.UTF-8 is not installed: compared within one locale only");
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/takeoff/long-lumber", test_long_lumber);
  g_test_add_func ("/plan/takeoff/products", test_products);
  g_test_add_func ("/plan/takeoff/sheets", test_sheets);
  g_test_add_func ("/plan/takeoff/lumber", test_lumber);
  g_test_add_func ("/plan/takeoff/tile", test_tile);
  g_test_add_func ("/plan/takeoff/random", test_random);
  g_test_add_func ("/plan/takeoff/same-bytes", test_same_bytes);
  return g_test_run ();
}
