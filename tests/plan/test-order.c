/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The order of work for each kind of system: which steps, in which order, what is waited for. */
#include "rig.h"

static gint
place_of (const DryOrder *order, const char *id)
{
  for (guint i = 0; i < order->n; i++)
    if (g_str_equal (order->items[i].id, id))
      return (gint) i;
  return -1;
}

static void
check_sums (const DryOrder *order)
{
  double hours = 0, least = 0, most = 0;

  for (guint i = 0; i < order->n; i++) {
    const DryStep *step = &order->items[i];
    g_assert_nonnull (step->text);
    g_assert_nonnull (step->working.formula);
    g_assert_nonnull (step->working.source.text);
    g_assert_cmpfloat (step->hours, >=, 0);
    g_assert_cmpfloat (step->wait_min, <=, step->wait_max);
    hours += step->hours;
    least += step->hours + step->wait_min;
    most += step->hours + step->wait_max;
  }
  g_assert_cmpfloat_with_epsilon (order->hours, hours, 1e-9);
  g_assert_cmpfloat_with_epsilon (order->hours_to_tile_min, least, 1e-9);
  g_assert_cmpfloat_with_epsilon (order->hours_to_tile_max, most, 1e-9);
  if (order->n)
    g_assert_cmpstr (order->items[order->n - 1].id, ==, "tile");
}

static void
set_up_tub_wall (Rig *rig)
{
  rig_set_up (rig);
  DryFace *face = rig_add_face (rig, 48, 96);
  face->at_basin = TRUE;
  face->basin_u1 = IN (48);
  face->deck = IN (15);
  face->flange_top = face->board_bottom = IN (16);
  rig->room.basin = (DryBasin){.id = 3, .kind = DRY_BASIN_TUB};
  rig_add_studs (rig, 0, 0.75, 15.5, 4);
  rig_add_board (rig, 0, 0, 16, 23.9375, 96);
  rig_add_board (rig, 0, 24.0625, 16, 48, 96);
}

static void
check_sequence (const DryOrder *order, const char *const *ids)
{
  gint last = -1;

  for (guint i = 0; ids[i]; i++) {
    gint at = place_of (order, ids[i]);
    if (at <= last)
      g_test_message ("step %s", ids[i]);
    g_assert_cmpint (at, >, last);
    last = at;
  }
}

static void
test_liquid (void)
{
  static const char *const ids[] = {
      "protect", "framing", "rough-inspection", "boards", "basin-gap", "joints",
      "coat-1",  "coat-2",  "inspection",       "tile",   NULL};
  Rig rig;

  set_up_tub_wall (&rig);
  rig.waits[rig.system.n_waits++] = (DryWait){"joints", "to the first coat", 4, 24, {0}};
  rig.system.cover_fasteners = TRUE; /* by the coat, so no step of the joints */
  rig_compute (&rig);
  check_sums (rig.order);
  check_sequence (rig.order, ids);
  const DryStep *joints = &rig.order->items[place_of (rig.order, "joints")];
  g_assert_cmpfloat (joints->wait_min, ==, 4);
  g_assert_cmpfloat (joints->wait_max, ==, 24);
  g_assert_null (strstr (joints->text, "fastener"));
  const DryStep *first = &rig.order->items[place_of (rig.order, "coat-1")];
  const DryStep *second = &rig.order->items[place_of (rig.order, "coat-2")];
  g_assert_cmpfloat (first->wait_min, ==, 2);
  g_assert_cmpfloat (first->wait_max, ==, 4);
  g_assert_cmpfloat (second->wait_min, ==, 12);
  g_assert_cmpfloat (second->wait_max, ==, 24);
  g_assert_cmpint (place_of (rig.order, "flood-test"), ==, -1); /* a tub needs none */
  g_assert_true (rig.order->items[place_of (rig.order, "inspection")].hold);
  /* all of the system's hours are given out: an hour a square metre, half an hour to protect */
  g_assert_cmpfloat_with_epsilon (rig.order->hours, rig.coating->board_area + 0.5, 1e-9);
  rig_tear_down (&rig);
}

/* Flood test: at least 15 min (IPC 312.9 / IRC P2503.6), a day by UPC practice (408.7.1), started
 * at least 24 h after the membrane (ASTM D5957-98(2021) 5.3). */
static void
test_pan (void)
{
  Rig rig;

  set_up_tub_wall (&rig);
  rig.room.basin.kind = DRY_BASIN_PAN;
  rig_compute (&rig);
  check_sums (rig.order);
  gint test = place_of (rig.order, "flood-test");
  g_assert_cmpint (test, >, place_of (rig.order, "coat-2"));
  g_assert_cmpint (test, <, place_of (rig.order, "inspection"));
  g_assert_true (rig.order->items[test].hold);
  g_assert_cmpfloat (rig.order->items[test].wait_min, ==, 0.25);
  g_assert_cmpfloat (rig.order->items[test].wait_max, ==, 24);
  g_assert_cmpfloat (rig.order->items[test - 1].wait_min, ==, 24);
  rig_tear_down (&rig);
}

static void
test_bands (void)
{
  Rig rig;

  set_up_tub_wall (&rig);
  rig.system.membrane = DRY_MEMBRANE_NONE;
  rig.system.coats = 0;
  rig.system.cover_fasteners = TRUE;
  rig.system.cover_product = "band";
  rig.job.year_built = 1950;
  rig_compute (&rig);
  check_sums (rig.order);
  g_assert_cmpint (place_of (rig.order, "coat-1"), ==, -1);
  g_assert_cmpfloat (rig.order->items[place_of (rig.order, "joints")].wait_min, ==, 12);
  g_assert_cmpfloat_with_epsilon (rig.order->hours, rig.coating->board_area + 0.5, 1e-9);
  g_assert_nonnull (strstr (rig.order->items[place_of (rig.order, "joints")].text, "fastener"));
  /* an old house is tested for lead and asbestos first */
  g_assert_nonnull (strstr (rig.order->items[0].text, "asbestos"));
  rig_tear_down (&rig);
}

static void
test_floated_and_empty (void)
{
  static const char *const ids[] = {"protect", "lath",   "scratch-coat", "float-coat", "basin-gap",
                                    "coat-1",  "coat-2", "tile",         NULL};
  Rig rig;

  set_up_tub_wall (&rig);
  rig.boards.n = 0;
  rig.system.n_sheets = 0;
  rig.waits[0] = (DryWait){"cure", "to the membrane", 24, 168, {0}};
  rig.face_items[0].region =
      dry_region_from_rect (rig.arena, (DryRect){0, IN (16), IN (48), IN (96)});
  rig_compute (&rig);
  check_sums (rig.order);
  check_sequence (rig.order, ids);
  g_assert_cmpfloat (rig.order->items[place_of (rig.order, "float-coat")].wait_max, ==, 168);
  /* the system's hours are given out once, but for the 8 % of joints that this lone wall lacks */
  g_assert_cmpfloat_with_epsilon (rig.order->hours, 0.92 * rig.coating->wet_area + 0.5, 1e-9);
  g_assert_cmpfloat_with_epsilon (rig.takeoff->mass, rig.coating->wet_area * 10, 1e-9);
  rig.faces.n = 0;
  rig_compute (&rig);
  g_assert_cmpuint (rig.order->n, ==, 0);
  g_assert_cmpfloat (rig.order->hours_to_tile_max, ==, 0);
  rig_tear_down (&rig);
}

/* Every piece of wood the plan asks for takes a quarter of an hour, found ones none; a stud cut for
 * a niche counts once, though some of it stays above and below. */
static void
test_framing_hours (void)
{
  Rig rig;

  set_up_tub_wall (&rig);
  rig_cut (&rig, 0, DRY_CUT_NICHE, 9, 26, 48, 38, 62);
  DryMember *header = rig_add_member (&rig, 0, DRY_MEMBER_HEADER, 17, 62, 47, 63.5);
  DryMember *sill = rig_add_member (&rig, 0, DRY_MEMBER_SILL, 17, 46.5, 47, 48);
  DryMember *side = rig_add_member (&rig, 0, DRY_MEMBER_TRIMMER, 24.5, 48, 26, 62);
  DryMember *block = rig_add_member (&rig, 0, DRY_MEMBER_BLOCKING, 1.5, 30, 15.5, 33.5);
  DryMember *stud = rig_add_member (&rig, 0, DRY_MEMBER_STUD, 10, 1.5, 11.5, 93);
  DryMember *above = rig_add_member (&rig, 0, DRY_MEMBER_CRIPPLE, 31, 63.5, 32.5, 93);
  DryMember *below = rig_add_member (&rig, 0, DRY_MEMBER_CRIPPLE, 31, 1.5, 32.5, 46.5);
  DryMember *window = rig_add_member (&rig, 0, DRY_MEMBER_CRIPPLE, 40, 1.5, 41.5, 46.5);
  header->added = sill->added = side->added = block->added = stud->added = TRUE;
  above->object = below->object = 9;
  window->object = 8;
  rig.blocking_items[rig.boards.n_blocking++] =
      (DryMember){0, DRY_MEMBER_BLOCKING, {IN (1.5), IN (70), IN (15.5), IN (73.5)}, TRUE};
  rig.boards.blocking = rig.blocking_items;
  rig_compute (&rig);
  check_sums (rig.order);
  const DryStep *step = &rig.order->items[place_of (rig.order, "framing")];
  g_assert_cmpfloat_with_epsilon (step->hours, 7 * 0.25, 1e-9);
  g_assert_cmpstr (step->working.formula, ==, "(1 + 1 + 2 + 1 + 1 + 1) x 0.25 h = 1.75 h");
  rig_tear_down (&rig);
}

static void
check_random (const DryPlan *plan, guint32 seed)
{
  g_test_message ("seed %u, %s", seed, plan->context.system->id);
  guint added = plan->boards->n_blocking;
  check_sums (plan->order);
  for (guint i = 0; i < plan->framing->n; i++)
    added += plan->framing->items[i].added;
  for (guint i = 0; i < plan->order->n; i++)
    if (g_str_equal (plan->order->items[i].id, "framing"))
      g_assert_cmpfloat (plan->order->items[i].hours, >=, added * 0.25);
}

/* The film must stand the water of the flood test as well as the tile: the longer wait of the two
 * holds, and one that is told shorter at most than at least is as long as the least. */
static void
test_flood_wait (void)
{
  static const struct {
    DryWait flood;
    double least, most;
    const char *id;
  } CASES[] = {
      {{"flood-test", "to the flood test", 24, 72, {0}}, 24, 72, "flood-test"},
      {{"flood-test", "to the flood test", 2, 4, {0}}, 12, 24, "tile"},
      {{"flood-test", "to the flood test", 36, 6, {0}}, 36, 36, "flood-test"},
      {{"other", "no wait of this name", 90, 90, {0}}, 12, 24, "tile"},
  };

  for (guint i = 0; i < G_N_ELEMENTS (CASES); i++) {
    Rig rig;
    set_up_tub_wall (&rig);
    rig.room.basin.kind = DRY_BASIN_PAN;
    rig.waits[2] = CASES[i].flood;
    rig_compute (&rig);
    const DryStep *coat = &rig.order->items[place_of (rig.order, "flood-test") - 1];
    g_assert_cmpfloat (coat->wait_min, ==, CASES[i].least);
    g_assert_cmpfloat (coat->wait_max, ==, CASES[i].most);
    g_assert_cmpstr (coat->wait->id, ==, CASES[i].id);
    rig_tear_down (&rig);
  }
}

/* A wait whose most is less than its least takes the least; a rate without a source is common
 * practice; a treatment without a name is as the system says. */
static void
test_gaps_of_systems (void)
{
  Rig rig;

  set_up_tub_wall (&rig);
  rig.waits[1].hours_max = 6;
  rig.system.hours.source = (DrySource){0};
  rig.system.treatments[DRY_JOINT_BASIN].name = NULL;
  rig_compute (&rig);
  const DryStep *gap = &rig.order->items[place_of (rig.order, "basin-gap")];
  const DryStep *coat = &rig.order->items[place_of (rig.order, "coat-2")];
  g_assert_cmpfloat (coat->wait_min, ==, 12);
  g_assert_cmpfloat (coat->wait_max, ==, 12);
  g_assert_nonnull (strstr (gap->text, "as the system says"));
  g_assert_cmpint (coat->working.source.certainty, ==, DRY_CERTAINTY_COMMON_PRACTICE);
  g_assert_nonnull (coat->working.source.text);
  rig_tear_down (&rig);
}

static void
test_random (void)
{
  rig_for_random_plans (40, check_random);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/plan/order/liquid", test_liquid);
  g_test_add_func ("/plan/order/pan", test_pan);
  g_test_add_func ("/plan/order/bands", test_bands);
  g_test_add_func ("/plan/order/floated-and-empty", test_floated_and_empty);
  g_test_add_func ("/plan/order/framing-hours", test_framing_hours);
  g_test_add_func ("/plan/order/flood-wait", test_flood_wait);
  g_test_add_func ("/plan/order/gaps-of-systems", test_gaps_of_systems);
  g_test_add_func ("/plan/order/random", test_random);
  return g_test_run ();
}
