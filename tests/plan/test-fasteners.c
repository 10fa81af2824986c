/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Screws on hand-made walls against counts worked out on paper, and on random rooms against the
 * rules every screw must keep. */
#include "plan/outline.h"
#include "base/error.h"
#include "rig.h"

#define WOOD (DRY_INCH / 4)

static guint
count_row (const Rig *rig, double x, gboolean edge)
{
  guint n = 0;

  for (guint i = 0; i < rig->fasteners->n; i++)
    n += rig->fasteners->items[i].at.x == IN (x) && rig->fasteners->items[i].edge == edge;
  return n;
}

/* The rules each screw keeps, whatever the room. */
static void
check_screw (const DryFaces *faces, const DryFraming *framing, const DryBoards *boards,
             const DrySystem *system, const DryFastener *it)
{
  const DryBoard *board = &boards->items[it->board];
  const DryMember *member = dry_fasteners_get_member (framing, boards, it->member);
  DryLength least = MIN (system->edge_distance_min.value, system->edge_distance.value);
  g_autoptr (GArray) edges = dry_outline_edges (&board->shape);

  g_assert_nonnull (member);
  g_assert_cmpuint (member->face, ==, it->face);
  g_assert_cmpuint (board->face, ==, it->face);
  g_assert_true (dry_rect_contains (dry_rect_inflate (member->rect, -WOOD), it->at));
  g_assert_true (dry_outline_contains (&board->shape, it->at));
  for (guint i = 0; i < edges->len; i++) {
    const DryOutlineEdge *edge = &g_array_index (edges, DryOutlineEdge, i);
    g_assert_cmpint (dry_outline_distance (it->at, edge->from, edge->to), >=, least);
  }
  for (guint i = 0; i < board->n_holes; i++)
    g_assert_cmpint (dry_point_distance (it->at, board->holes[i].centre) + 1, >=,
                     board->holes[i].diameter / 2 + least);
  g_assert_true (it->washer == (system->washer != NULL));
  const DryFace *face = &faces->items[it->face];
  if (face->at_basin && it->at.x > face->basin_u0 && it->at.x < face->basin_u1)
    g_assert_cmpint (it->at.y, >=, face->board_bottom);
}

static void
check_screws (const DryFaces *faces, const DryFraming *framing, const DryBoards *boards,
              const DrySystem *system, const DryFasteners *fasteners)
{
  for (guint i = 0; i < fasteners->n; i++) {
    check_screw (faces, framing, boards, system, &fasteners->items[i]);
    for (guint j = 0; j < i; j++)
      if (fasteners->items[j].board == fasteners->items[i].board)
        g_assert_cmpint (dry_point_distance (fasteners->items[i].at, fasteners->items[j].at), >=,
                         DRY_INCH - 1);
  }
}

static void
check_rig (Rig *rig)
{
  rig_compute (rig);
  check_screws (&rig->faces, &rig->framing, &rig->boards, &rig->system, rig->fasteners);
}

/* 32 x 60 in panel, studs 16 in apart: 8 in o.c. and 3/8 to 5/8 in from edges (ANSI A108.11 as
 * reported in trade press). Each of three rows has ceil (59 / 8) + 1 = 9. */
static void
test_panel (void)
{
  Rig rig;

  rig_set_up (&rig);
  rig_add_face (&rig, 32, 60);
  rig_add_studs (&rig, 0, 0.75, 15.25, 3);
  rig_add_board (&rig, 0, 0, 0, 32, 60);
  check_rig (&rig);
  g_assert_cmpuint (rig.fasteners->n, ==, 27);
  g_assert_cmpuint (rig.fasteners->n_unheld, ==, 0);
  g_assert_cmpuint (count_row (&rig, 0.5, TRUE), ==, 9);
  g_assert_cmpuint (count_row (&rig, 31.5, TRUE), ==, 9);
  g_assert_cmpuint (count_row (&rig, 16, FALSE), ==, 9);
  for (guint i = 0; i < rig.fasteners->n; i++) {
    DryLength y = rig.fasteners->items[i].at.y;
    g_assert_cmpint (MIN (y, IN (60) - y), >=, IN (0.5));
  }
  rig_tear_down (&rig);
}

/* Distances along one row are even and within the spacing, for lengths on both sides of a multiple.
 */
static void
test_spacing (void)
{
  static const struct {
    double height;
    guint n;
  } cases[] = {{9, 2}, {9.0625, 3}, {17, 3}, {17.0625, 4}, {60, 9}, {95, 13}};

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++) {
    Rig rig;
    rig_set_up (&rig);
    rig_add_face (&rig, 20, 96);
    rig_add_studs (&rig, 0, 10, 16, 1);
    rig_add_board (&rig, 0, 0, 0, 20, cases[i].height);
    check_rig (&rig);
    g_assert_cmpuint (rig.fasteners->n, ==, cases[i].n);
    for (guint j = 1; j < rig.fasteners->n; j++) {
      DryLength step = 0; /* to the nearest other screw of the row */
      for (guint k = 0; k < rig.fasteners->n; k++) {
        DryLength d = ABS (rig.fasteners->items[j].at.y - rig.fasteners->items[k].at.y);
        if (d && (!step || d < step))
          step = d;
      }
      g_assert_cmpint (step, <=, IN (8));
    }
    rig_tear_down (&rig);
  }
}

/* Two boards on one 1-1/2 in stud with 1/8 in between have 11/16 in each: less 1/4 in of wood,
 * 7/16 in is the largest distance. A system that allows no less than 1 in has no screw there. */
static void
test_shared_stud (void)
{
  static const struct {
    double usual, least;
    gboolean held;
    double distance;
  } cases[] = {
      {0.5, 0.375, TRUE, 0.4375},
      {1, 0.375, TRUE, 0.4375},
      {0.375, 0.375, TRUE, 0.375},
      {1, 1, FALSE, 0},
      {0.5, 0.5, FALSE, 0},
      /* no least distance known: the usual one is the least */
      {0.5, 0, FALSE, 0},
      {0.4375, 0, TRUE, 0.4375},
  };

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++) {
    Rig rig;
    rig_set_up (&rig);
    rig.system.edge_distance.value = IN (cases[i].usual);
    rig.system.edge_distance_min.value = IN (cases[i].least);
    rig_add_face (&rig, 32, 60);
    rig_add_studs (&rig, 0, 16, 16, 1);
    rig_add_board (&rig, 0, 0, 0, 15.9375, 60);
    rig_add_board (&rig, 0, 16.0625, 0, 32, 60);
    check_rig (&rig);
    g_assert_cmpuint (rig.fasteners->n_unheld, ==, cases[i].held ? 0 : 2);
    if (cases[i].held) {
      g_assert_cmpuint (count_row (&rig, 15.9375 - cases[i].distance, TRUE), >=, 8);
      g_assert_cmpuint (count_row (&rig, 16.0625 + cases[i].distance, TRUE), >=, 8);
    } else {
      g_assert_cmpint (rig.fasteners->unheld[0].bearing, ==, IN (0.6875));
      g_assert_cmpint (rig.fasteners->unheld[0].from.x, ==, IN (15.9375));
    }
    rig_tear_down (&rig);
  }
}

/* Two butted boards on one stud, washers 1-1/4 in wide 1/2 in from either edge: level with each
 * other they would lie one on the other. They step aside, and no step in a row gets longer. */
static void
test_washers_across_seam (void)
{
  Rig rig;
  guint n = 0;

  rig_set_up (&rig);
  rig.system.washer = "washer";
  rig.system.washer_diameter = IN (1.25);
  rig.system.edge_spacing.value = rig.system.field_spacing.value = IN (12);
  rig_add_face (&rig, 32, 60);
  rig_add_studs (&rig, 0, 16, 16, 1);
  rig_add_board (&rig, 0, 0, 0, 16, 60);
  rig_add_board (&rig, 0, 16, 0, 32, 60);
  check_rig (&rig);
  g_assert_cmpuint (count_row (&rig, 15.5, TRUE), ==, 6);
  g_assert_cmpuint (count_row (&rig, 16.5, TRUE), ==, 6);
  for (guint i = 0; i < rig.fasteners->n; i++)
    for (guint j = 0; j < i; j++) {
      const DryFastener *a = &rig.fasteners->items[i], *b = &rig.fasteners->items[j];
      DryLength step = ABS (a->at.y - b->at.y);
      g_assert_cmpint (dry_point_distance (a->at, b->at), >=, IN (1.25));
      n += a->at.x == b->at.x && step <= IN (12);
    }
  g_assert_cmpuint (n, >=, 5 + 5); /* neighbors in either row */
  rig_tear_down (&rig);
}

/* A second stud added beside the shared one holds what one stud cannot. */
static void
test_second_stud (void)
{
  Rig rig;

  rig_set_up (&rig);
  rig.system.edge_distance.value = rig.system.edge_distance_min.value = IN (1);
  rig_add_face (&rig, 32, 60);
  rig_add_member (&rig, 0, DRY_MEMBER_STUD, 14.5, 0, 16, 96);
  rig_add_board (&rig, 0, 0, 0, 15.9375, 60);
  rig_add_board (&rig, 0, 16.0625, 0, 32, 60);
  rig.blocking_items[0] =
      (DryMember){.face = 0, .kind = DRY_MEMBER_STUD, .rect = {IN (16), 0, IN (17.5), IN (96)}};
  rig.boards.n_blocking = 1;
  check_rig (&rig);
  g_assert_cmpuint (rig.fasteners->n_unheld, ==, 0);
  g_assert_cmpuint (count_row (&rig, 17.0625, TRUE), ==, 9);
  for (guint i = 0; i < rig.fasteners->n; i++)
    if (rig.fasteners->items[i].board == 1)
      g_assert_cmpint (rig.fasteners->items[i].member, ==, 1); /* framing n + 0 */
  rig_tear_down (&rig);
}

/* Blocking behind a level seam gives a row along it on both boards. */
static void
test_level_seam (void)
{
  Rig rig;
  guint above = 0, below = 0;

  rig_set_up (&rig);
  rig_add_face (&rig, 16, 72);
  rig_add_board (&rig, 0, 0, 0, 16, 35.9375);
  rig_add_board (&rig, 0, 0, 36.0625, 16, 72);
  rig.blocking_items[0] = (DryMember){
      .face = 0, .kind = DRY_MEMBER_BLOCKING, .rect = {IN (0), IN (34.25), IN (16), IN (37.75)}};
  rig.boards.n_blocking = 1;
  check_rig (&rig);
  for (guint i = 0; i < rig.fasteners->n; i++) {
    below += rig.fasteners->items[i].at.y == IN (35.4375);
    above += rig.fasteners->items[i].at.y == IN (36.5625);
  }
  g_assert_cmpuint (below, ==, 3); /* 15 in in steps of at most 8 */
  g_assert_cmpuint (above, ==, 3);
  rig_tear_down (&rig);
}

/* Round a niche the trimmers and headers are screwed, and nothing is in the opening or a pipe. */
static void
test_openings (void)
{
  Rig rig;
  guint left = 0;

  rig_set_up (&rig);
  rig.system.washer = "washer";
  rig_add_face (&rig, 48, 96);
  rig_add_studs (&rig, 0, 0.75, 15.5, 4);
  rig_add_member (&rig, 0, DRY_MEMBER_HEADER, 17, 68, 31, 69.5);
  rig_add_member (&rig, 0, DRY_MEMBER_SILL, 17, 46.5, 31, 48);
  rig_add_board (&rig, 0, 0, 0, 47.25, 96);
  rig_cut (&rig, 0, DRY_CUT_NICHE, 5, 17, 48, 31, 68);
  rig_drill (&rig, 0, 32, 30, 3);
  check_rig (&rig);
  for (guint i = 0; i < rig.fasteners->n; i++) {
    const DryFastener *it = &rig.fasteners->items[i];
    left += it->edge && it->at.x == IN (16.5) && it->at.y >= IN (48) && it->at.y <= IN (68);
    g_assert_cmpint (dry_point_distance (it->at, (DryPoint){IN (32), IN (30)}), >=, IN (1.875));
  }
  g_assert_cmpuint (left, ==, 4); /* 20 in in steps of at most 8, both corners of it held */
  rig_tear_down (&rig);
}

/* No screw goes through the lip of the tub, even where the board hangs in front of it. */
static void
test_flange (void)
{
  Rig rig;

  rig_set_up (&rig);
  DryFace *face = rig_add_face (&rig, 60, 96);
  face->at_basin = TRUE;
  face->basin_u1 = IN (60);
  face->deck = IN (15);
  face->flange_top = IN (16.5);
  face->board_bottom = IN (15.25);
  rig_add_studs (&rig, 0, 0.75, 16, 4);
  rig_add_board (&rig, 0, 0, 15.25, 60, 96);
  check_rig (&rig);
  g_assert_cmpuint (rig.fasteners->n, >, 30);
  for (guint i = 0; i < rig.fasteners->n; i++)
    g_assert_cmpint (rig.fasteners->items[i].at.y, >=, IN (16.75));
  rig_tear_down (&rig);
}

/* A lining is held at its four corners: no edge of it lies loose, unless the niche leaves no room
 * behind its back. */
static void
check_lining (const DryPlan *plan, guint board)
{
  const DryBoard *it = &plan->boards->items[board];
  const DryFace *face = &plan->faces->items[it->face];
  const DryRect r = it->bounds;
  gboolean wood = FALSE;
  guint near[4] = {0};

  for (guint i = 0; i < plan->framing->n; i++)
    wood = wood || plan->framing->items[i].face == it->face;
  if (face->kind != DRY_FACE_NICHE || !wood)
    return;
  for (guint i = 0; i < plan->fasteners->n; i++) {
    DryPoint p = plan->fasteners->items[i].at;
    if (plan->fasteners->items[i].board == board)
      near[(p.x * 2 > r.x0 + r.x1) + 2 * (p.y * 2 > r.y0 + r.y1)]++;
  }
  for (guint i = 0; i < 4; i++) {
    if (near[i] == 0)
      g_test_message ("%s, corner %u of %s: %g..%g x %g..%g in", face->name, i, it->mark,
                      r.x0 / 25.4e6, r.x1 / 25.4e6, r.y0 / 25.4e6, r.y1 / 25.4e6);
    g_assert_cmpuint (near[i], >, 0);
  }
}

static void
check_random (const DryPlan *plan, guint32 seed)
{
  g_test_message ("seed %u, %s: %u screws, %u unheld", seed, plan->context.system->id,
                  plan->fasteners->n, plan->fasteners->n_unheld);
  check_screws (plan->faces, plan->framing, plan->boards, plan->context.system, plan->fasteners);
  for (guint i = 0; i < plan->boards->n; i++)
    check_lining (plan, i);
  if (plan->boards->n) /* a boarded wall hangs on something */
    g_assert_cmpuint (plan->fasteners->n, >, 0);
}

static guint n_caps;

/* Every cap and end is held. */
static void
check_walled (const DryPlan *plan, guint32 seed)
{
  check_random (plan, seed);
  for (guint i = 0; i < plan->boards->n; i++) {
    guint screws = 0;
    if (plan->faces->items[plan->boards->items[i].face].kind != DRY_FACE_CAP)
      continue;
    for (guint j = 0; j < plan->fasteners->n; j++)
      screws += plan->fasteners->items[j].board == i;
    g_assert_cmpuint (screws, >=, 4);
    n_caps++;
  }
}

static void
test_walled (void)
{
  n_caps = 0;
  rig_for_walled_plans (60, check_walled);
  g_test_message ("%u caps and ends", n_caps);
  g_assert_cmpuint (n_caps, >, 20);
}

static void
test_random (void)
{
  rig_for_random_plans (60, check_random);
}

/* A newer project stops the stages that go through every board. */
static void
test_cancelled (void)
{
  g_autoptr (GCancellable) cancelled = g_cancellable_new ();
  g_autoptr (GError) first = NULL, second = NULL;
  Rig rig;

  rig_set_up (&rig);
  rig_add_face (&rig, 60, 96);
  rig_add_studs (&rig, 0, 0.75, 16, 4);
  rig_add_board (&rig, 0, 0, 0, 30, 96);
  rig_add_board (&rig, 0, 30.125, 0, 60, 96);
  rig.context.cancellable = cancelled;
  rig_compute (&rig);
  g_cancellable_cancel (cancelled);
  g_assert_null (dry_joints_compute (&rig.context, &rig.faces, &rig.boards, &first));
  g_assert_error (first, DRY_ERROR, DRY_ERROR_CANCELLED);
  g_assert_null (
      dry_fasteners_compute (&rig.context, &rig.faces, &rig.framing, &rig.boards, &second));
  g_assert_error (second, DRY_ERROR, DRY_ERROR_CANCELLED);
  rig_tear_down (&rig);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/plan/fasteners/panel", test_panel);
  g_test_add_func ("/plan/fasteners/spacing", test_spacing);
  g_test_add_func ("/plan/fasteners/shared-stud", test_shared_stud);
  g_test_add_func ("/plan/fasteners/washers-across-seam", test_washers_across_seam);
  g_test_add_func ("/plan/fasteners/second-stud", test_second_stud);
  g_test_add_func ("/plan/fasteners/level-seam", test_level_seam);
  g_test_add_func ("/plan/fasteners/openings", test_openings);
  g_test_add_func ("/plan/fasteners/flange", test_flange);
  g_test_add_func ("/plan/fasteners/walled", test_walled);
  g_test_add_func ("/plan/fasteners/random", test_random);
  g_test_add_func ("/plan/fasteners/cancelled", test_cancelled);
  return g_test_run ();
}
