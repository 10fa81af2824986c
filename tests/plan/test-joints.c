/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Joints of hand-made walls against what a person sees, and on random rooms the rule that every
 * stretch of every boundary is exactly one joint. */
#include <math.h>

#include "plan/joint-runs.h"
#include "plan/outline.h"
#include "rig.h"

static DryLength
sum_kind (const DryJoints *joints, gint board, DryJointKind kind)
{
  DryLength sum = 0;

  for (guint i = 0; i < joints->n; i++)
    if (joints->items[i].kind == kind && (board < 0 || joints->items[i].board == board))
      sum += joints->items[i].length;
  return sum;
}

/* Stretches of a board follow its edges without gap or overlap. */
static void
check_board (const DryJoints *joints, const DryBoard *board, gint index)
{
  g_autoptr (GArray) edges = dry_outline_edges (&board->shape);
  DryLength perimeter = 0, joined = 0;
  guint at = 0;

  for (guint i = 0; i < edges->len; i++) {
    const DryOutlineEdge *edge = &g_array_index (edges, DryOutlineEdge, i);
    DryPoint reached = edge->from;
    gboolean straight = edge->from.x == edge->to.x || edge->from.y == edge->to.y;
    DryLength on_edge = 0;
    perimeter += dry_point_distance (edge->from, edge->to);
    while (reached.x != edge->to.x || reached.y != edge->to.y) {
      while (at < joints->n && joints->items[at].board != index)
        at++;
      g_assert_cmpuint (at, <, joints->n);
      const DryJoint *joint = &joints->items[at++];
      g_assert_cmpint (joint->from.x, ==, reached.x);
      g_assert_cmpint (joint->from.y, ==, reached.y);
      g_assert_cmpint (joint->length, >, 0);
      on_edge += joint->length;
      reached = joint->to;
    }
    if (straight)
      g_assert_cmpint (on_edge, ==, dry_point_distance (edge->from, edge->to));
    else
      g_assert_cmpint (ABS (on_edge - dry_point_distance (edge->from, edge->to)), <=, 20);
    joined += on_edge;
  }
  g_assert_cmpint (ABS (joined - perimeter), <=, 100);
  for (; at < joints->n; at++) /* what is left of this board are its pipes */
    if (joints->items[at].board == index)
      g_assert_cmpint (joints->items[at].kind, ==, DRY_JOINT_PENETRATION);
}

static void
check_totals (const DryJoints *joints)
{
  DryLength total[DRY_N_JOINT_KINDS] = {0};

  for (guint i = 0; i < joints->n; i++)
    if (joints->items[i].counted)
      total[joints->items[i].kind] += joints->items[i].length;
  for (guint i = 0; i < DRY_N_JOINT_KINDS; i++)
    g_assert_cmpint (total[i], ==, joints->total[i]);
  for (guint i = 0; i < joints->n_runs; i++)
    g_assert_cmpuint (joints->runs[i].order, ==, i + 1);
}

static void
check_rig (Rig *rig)
{
  rig_compute (rig);
  for (guint i = 0; i < rig->boards.n; i++)
    check_board (rig->joints, &rig->board_items[i], (gint) i);
  check_totals (rig->joints);
}

static DryFace *
put_tub (DryFace *face, double u0, double u1)
{
  face->at_basin = TRUE;
  face->basin_u0 = IN (u0);
  face->basin_u1 = IN (u1);
  face->deck = IN (15);
  face->flange_top = IN (16);
  face->board_bottom = IN (16);
  return face;
}

/* Back wall of two boards over a tub, an end wall with a leg beside the apron. */
static void
test_alcove (void)
{
  static const DryPoint leg[] = {
      {IN (0.625), IN (16)}, {IN (30), IN (16)}, {IN (30), 0},
      {IN (32), 0},          {IN (32), IN (96)}, {IN (0.625), IN (96)},
  };
  Rig rig;

  rig_set_up (&rig);
  put_tub (rig_add_face (&rig, 60, 96), 0, 60);
  DryFace *end = put_tub (rig_add_face (&rig, 96, 96), 0, 30);
  rig_join (&rig, 0, 1, 0.625);
  rig.face_items[0].left = (DryFaceEnd){.face = -1, .angle = 90};
  end->region = dry_region_from_ring (rig.arena, leg, G_N_ELEMENTS (leg));
  end->dry_right = end->leg_right = TRUE;
  rig_add_board (&rig, 0, 0, 16, 29.9375, 95.875);
  rig_add_board (&rig, 0, 30.0625, 16, 60, 95.875);
  DryBoard *board = rig_add_board (&rig, 1, 0.625, 0, 32, 95.875);
  DryRegion cut = dry_region_from_rect (rig.arena, (DryRect){0, 0, IN (100), IN (95.875)});
  board->shape = dry_region_intersection (rig.arena, &end->region, &cut).polygons[0];
  check_rig (&rig);

  g_assert_cmpint (rig.joints->total[DRY_JOINT_SEAM], ==, IN (79.875));
  g_assert_cmpint (sum_kind (rig.joints, -1, DRY_JOINT_SEAM), ==, 2 * IN (79.875));
  /* corner seen from both walls, counted once */
  g_assert_cmpint (rig.joints->total[DRY_JOINT_INSIDE_CORNER], ==, IN (79.875));
  g_assert_cmpint (sum_kind (rig.joints, 2, DRY_JOINT_INSIDE_CORNER), ==, IN (79.875));
  /* along the tub: back wall less the seam, end wall, and down the leg */
  g_assert_cmpint (sum_kind (rig.joints, 2, DRY_JOINT_BASIN), ==, IN (29.375 + 16));
  g_assert_cmpint (rig.joints->total[DRY_JOINT_BASIN], ==, IN (59.875 + 29.375 + 16));
  g_assert_cmpint (rig.joints->total[DRY_JOINT_FLOOR], ==, IN (2));
  /* drywall: beside the end wall, and where no wet wall meets the back wall's left end */
  g_assert_cmpint (sum_kind (rig.joints, 2, DRY_JOINT_DRYWALL), ==, IN (95.875));
  g_assert_cmpint (sum_kind (rig.joints, 0, DRY_JOINT_DRYWALL), ==, IN (79.875));
  g_assert_cmpint (rig.joints->total[DRY_JOINT_CEILING], ==, IN (59.875 + 31.375));
  g_assert_cmpint (rig.joints->total[DRY_JOINT_FREE], ==, 0);
  rig_tear_down (&rig);
}

/* An added wall stands 60 in along a wall of 108: the corner is there, not at the wall's end, and
 * is no edge to drywall on either side. The corner's band laps onto the bottom one. */
static void
test_corner_within_wall (void)
{
  Rig rig;

  rig_set_up (&rig);
  put_tub (rig_add_face (&rig, 108, 96), 0, 60);
  put_tub (rig_add_face (&rig, 40, 96), 0, 40);
  rig_join (&rig, 0, 1, 0.625);
  rig.face_items[0].right.at = IN (60);
  rig.face_items[0].region =
      dry_region_from_rect (rig.arena, (DryRect){0, IN (16), IN (60), IN (96)});
  rig.face_items[1].region =
      dry_region_from_rect (rig.arena, (DryRect){IN (0.625), IN (16), IN (40), IN (96)});
  rig_add_board (&rig, 0, 0, 16, 60, 96);
  rig_add_board (&rig, 1, 0.625, 16, 40, 96);
  check_rig (&rig);
  g_assert_cmpint (rig.joints->total[DRY_JOINT_INSIDE_CORNER], ==, IN (80));
  g_assert_cmpint (sum_kind (rig.joints, 1, DRY_JOINT_INSIDE_CORNER), ==, IN (80));
  g_assert_cmpint (rig.joints->total[DRY_JOINT_DRYWALL], ==, 0);
  for (guint i = 0; i < rig.joints->n_runs; i++)
    if (rig.joints->runs[i].kind == DRY_JOINT_INSIDE_CORNER)
      g_assert_cmpint (rig.joints->runs[i].length, ==, IN (80 + 2));
  rig_tear_down (&rig);
}

/* A built bench 36 in along and 18 in high stands in the middle of a wall, its box cut out of the
 * board: a change of plane on three sides, no edge to drywall, and the bench's to buy. */
static void
test_bench_on_wall (void)
{
  static const DryPoint round[] = {
      {0, 0},       {IN (13), 0}, {IN (13), IN (17)}, {IN (47), IN (17)},
      {IN (47), 0}, {IN (60), 0}, {IN (60), IN (96)}, {0, IN (96)},
  };
  DryPart bench = {.id = 7,
                   .kind = DRY_PART_BENCH,
                   .wall = 1,
                   .u = IN (30),
                   .z = IN (18),
                   .width = IN (36),
                   .height = IN (2),
                   .depth = IN (15)};
  Rig rig;

  rig_set_up (&rig);
  rig.room.parts = &bench;
  rig.room.n_parts = 1;
  rig_add_face (&rig, 60, 96);
  rig.face_items[0].region = dry_region_from_ring (rig.arena, round, G_N_ELEMENTS (round));
  rig_add_board (&rig, 0, 0, 0, 60, 96)->shape = rig.face_items[0].region.polygons[0];
  check_rig (&rig);
  g_assert_cmpint (sum_kind (rig.joints, 0, DRY_JOINT_INSIDE_CORNER), ==, IN (17 + 34 + 17));
  g_assert_cmpint (rig.joints->total[DRY_JOINT_INSIDE_CORNER], ==, 0);
  g_assert_cmpint (rig.joints->total[DRY_JOINT_DRYWALL], ==, 0);
  g_assert_cmpint (rig.joints->total[DRY_JOINT_FLOOR], ==, IN (26));
  rig_tear_down (&rig);
}

/* A half wall 42 in high, 3 1/2 in thick, 60 in along: below its top a corner, above it the board
 * goes on over the half wall, stands on its top, and ends at drywall. Top and open end of the half
 * wall are turned. */
static void
test_half_wall (void)
{
  static const DryPoint back[] = {
      {0, IN (16)},         {IN (60), IN (16)},   {IN (60), IN (42)},
      {IN (63.5), IN (42)}, {IN (63.5), IN (96)}, {0, IN (96)},
  };
  Rig rig;

  rig_set_up (&rig);
  put_tub (rig_add_face (&rig, 108, 96), 0, 60);
  put_tub (rig_add_face (&rig, 32, 42), 0, 32);
  rig_join (&rig, 0, 1, 0.625);
  rig.face_items[0].right.at = IN (60);
  rig.face_items[0].dry_right = TRUE;
  rig.face_items[0].region = dry_region_from_ring (rig.arena, back, G_N_ELEMENTS (back));
  rig_add_board (&rig, 0, 0, 16, 63.5, 96)->shape = rig.face_items[0].region.polygons[0];
  rig_add_board (&rig, 1, 0.625, 16, 32, 42);
  check_rig (&rig);
  /* the corner, and the back wall's board on the half wall's top */
  g_assert_cmpint (sum_kind (rig.joints, 0, DRY_JOINT_INSIDE_CORNER), ==, IN (26 + 3.5));
  g_assert_cmpint (rig.joints->total[DRY_JOINT_DRYWALL], ==, IN (54));
  g_assert_cmpint (rig.joints->total[DRY_JOINT_OUTSIDE_CORNER], ==, IN (31.375 + 26));
  rig_tear_down (&rig);
}

/* A niche cut into three boards: every edge of the opening is niche, the rest seam or free. */
static void
test_niche (void)
{
  Rig rig;
  guint runs = 0, laps = 0;

  rig_set_up (&rig);
  rig_add_face (&rig, 60, 96);
  rig_add_board (&rig, 0, 0, 0, 24, 96);
  rig_add_board (&rig, 0, 24.125, 0, 60, 57.9375);
  rig_add_board (&rig, 0, 24.125, 58.0625, 60, 96);
  rig_cut (&rig, 0, DRY_CUT_NICHE, 5, 30, 48, 42, 68);
  check_rig (&rig);
  g_assert_cmpint (rig.joints->total[DRY_JOINT_NICHE], ==, IN (2 * 12 + 2 * (20 - 0.125)));
  /* upright, and both stretches of the level one */
  g_assert_cmpint (rig.joints->total[DRY_JOINT_SEAM], ==, IN (96 + 5.875 + 18));
  for (guint i = 0; i < rig.joints->n_runs; i++)
    if (rig.joints->runs[i].kind == DRY_JOINT_NICHE) {
      runs++;
      laps += dry_joint_runs_count_laps (rig.joints, &rig.faces, i);
    }
  g_assert_cmpuint (runs, ==, 4); /* four sides */
  /* one lap at each corner of the niche, and none where a seam ends under the band: that one is
   * laid before */
  g_assert_cmpuint (laps, ==, 4);
  rig_tear_down (&rig);
}

static void
test_pipes (void)
{
  Rig rig;

  rig_set_up (&rig);
  rig_add_face (&rig, 60, 96);
  rig_add_board (&rig, 0, 0, 0, 29.9375, 96);
  rig_add_board (&rig, 0, 30.0625, 0, 60, 96);
  rig_drill (&rig, 0, 10, 40, 3);
  rig_drill (&rig, 0, 30, 60, 1); /* on the seam: in both boards, sealed once */
  rig_drill (&rig, 1, 30, 60, 1);
  check_rig (&rig);
  g_assert_cmpint (rig.joints->total[DRY_JOINT_PENETRATION], ==,
                   llround (G_PI * (double) IN (3)) + llround (G_PI * (double) IN (1)));
  rig_tear_down (&rig);
}

/* Bottom first, corners over it, then seams; each lap is counted on the run laid later. */
static void
test_order_of_laying (void)
{
  Rig rig;

  rig_set_up (&rig);
  put_tub (rig_add_face (&rig, 60, 96), 0, 60);
  put_tub (rig_add_face (&rig, 32, 96), 0, 32);
  rig_join (&rig, 0, 1, 0.625);
  rig_add_board (&rig, 0, 0, 16, 29.9375, 96);
  rig_add_board (&rig, 0, 30.0625, 16, 60, 96);
  rig_add_board (&rig, 1, 0.625, 16, 32, 96);
  check_rig (&rig);
  g_assert_cmpuint (rig.joints->n_runs, ==, 4);
  const DryRun *runs = rig.joints->runs;
  g_assert_cmpint (runs[0].kind, ==, DRY_JOINT_BASIN);
  g_assert_cmpint (runs[1].kind, ==, DRY_JOINT_BASIN);
  g_assert_cmpint (runs[2].kind, ==, DRY_JOINT_INSIDE_CORNER);
  g_assert_cmpint (runs[3].kind, ==, DRY_JOINT_SEAM);
  g_assert_cmpint (runs[0].length, ==, IN (60)); /* run through over the seam's gap */
  g_assert_cmpint (runs[1].length, ==, IN (31.375 + 2));
  g_assert_cmpint (runs[2].length, ==, IN (80 + 2));
  g_assert_cmpint (runs[3].length, ==, IN (80 + 2));
  rig_tear_down (&rig);
}

/* A wall floated in place has joints all the same, only no boards. */
static void
test_floated (void)
{
  Rig rig;

  rig_set_up (&rig);
  rig.system.n_sheets = 0;
  put_tub (rig_add_face (&rig, 60, 96), 0, 60);
  rig.face_items[0].region =
      dry_region_from_rect (rig.arena, (DryRect){0, IN (16), IN (60), IN (96)});
  rig_compute (&rig);
  check_totals (rig.joints);
  g_assert_cmpint (rig.joints->total[DRY_JOINT_BASIN], ==, IN (60));
  g_assert_cmpint (rig.joints->total[DRY_JOINT_CEILING], ==, IN (60));
  for (guint i = 0; i < rig.joints->n; i++)
    g_assert_cmpint (rig.joints->items[i].board, ==, -1);
  rig_tear_down (&rig);
}

/* Boards staggered round one upright seam, so that now one side counts it and now the other: still
 * one seam and one run, along the middle of the gap. */
static void
test_staggered_seam (void)
{
  Rig rig;

  rig_set_up (&rig);
  rig_add_face (&rig, 60, 96);
  rig_add_board (&rig, 0, 0, 0, 29.9375, 39.9375);
  rig_add_board (&rig, 0, 30.0625, 0, 60, 59.9375);
  rig_add_board (&rig, 0, 0, 40.0625, 29.9375, 96);
  rig_add_board (&rig, 0, 30.0625, 60.0625, 60, 96);
  check_rig (&rig);
  g_assert_cmpuint (rig.joints->n_runs, ==, 3);
  g_assert_cmpint (rig.joints->runs[0].from.x, ==, IN (30));
  g_assert_cmpint (rig.joints->runs[0].to.x, ==, IN (30));
  g_assert_cmpint (rig.joints->runs[0].length, ==, IN (96));
  g_assert_cmpint (rig.joints->runs[1].from.y, ==, IN (40));
  g_assert_cmpint (rig.joints->runs[1].length, ==, IN (29.9375 + 2)); /* laps on the upright one */
  rig_tear_down (&rig);
}

/* Two faces of a niche have one corner between them; where each is one board it is one joint. */
static void
check_niche_corners (const DryPlan *plan)
{
  g_autofree guint *boards = g_new0 (guint, plan->faces->n + 1);

  for (guint i = 0; i < plan->boards->n; i++)
    boards[plan->boards->items[i].face]++;
  for (guint i = 0; i < plan->joints->n; i++)
    for (guint j = 0; j < i; j++) {
      const DryJoint *a = &plan->joints->items[i], *b = &plan->joints->items[j];
      if (a->other_face < 0 || plan->faces->items[a->face].kind != DRY_FACE_NICHE ||
          boards[a->face] > 1 || boards[a->other_face] > 1)
        continue;
      g_assert_false (a->face == b->face && a->other_face == b->other_face);
      if (a->face == (guint) b->other_face && a->other_face == (gint) b->face)
        g_assert_true (a->counted != b->counted);
    }
}

static void
check_random (const DryPlan *plan, guint32 seed)
{
  g_test_message ("seed %u, %s: %u joints", seed, plan->context.system->id, plan->joints->n);
  for (guint i = 0; i < plan->boards->n; i++)
    check_board (plan->joints, &plan->boards->items[i], (gint) i);
  check_totals (plan->joints);
  check_niche_corners (plan);
  for (guint i = 0; i < plan->joints->n; i++) {
    const DryJoint *joint = &plan->joints->items[i];
    g_assert_cmpint (joint->kind, <, DRY_N_JOINT_KINDS);
    if (joint->other_board >= 0)
      g_assert_cmpuint ((guint) joint->other_board, <, plan->boards->n);
  }
}

/* What a wall makes with its cap and ends is bought on the wall, what cap and end make with each
 * other on the cap. */
static void
check_caps (const DryPlan *plan, guint32 seed)
{
  DryLength tops = 0, caps = 0;

  check_random (plan, seed);
  for (guint i = 0; i < plan->joints->n; i++) {
    const DryJoint *joint = &plan->joints->items[i];
    const DryFace *face = &plan->faces->items[joint->face];
    gboolean level = joint->from.y == joint->to.y;
    if (face->kind == DRY_FACE_CAP && joint->kind == DRY_JOINT_OUTSIDE_CORNER) {
      gboolean cap = g_str_has_suffix (face->name, "cap");
      g_assert_true (joint->counted == (cap && !level));
      caps += cap && level ? joint->length : 0;
    } else if (face->kind == DRY_FACE_WALL && joint->kind == DRY_JOINT_OUTSIDE_CORNER && level) {
      g_assert_true (joint->counted);
      tops += joint->length;
    }
  }
  g_assert_true ((caps > 0) == (tops > 0));
}

static void
test_walled (void)
{
  rig_for_walled_plans (60, check_caps);
}

/* Where the studs beyond the wet wall are bare there is no drywall to meet: edges beside, below and
 * above are free. */
static void
test_bare_studs (void)
{
  for (guint lined = 0; lined < 2; lined++) {
    Rig rig;
    rig_set_up (&rig);
    rig.wall.lining = lined ? IN (0.5) : 0;
    rig_add_face (&rig, 60, 96);
    rig.face_items[0].region =
        dry_region_from_rect (rig.arena, (DryRect){IN (10), IN (20), IN (50), IN (72)});
    rig.face_items[0].dry_left = rig.face_items[0].dry_right = rig.face_items[0].dry_above = TRUE;
    rig_add_board (&rig, 0, 10, 20, 50, 72);
    check_rig (&rig);
    g_assert_cmpint (rig.joints->total[DRY_JOINT_DRYWALL], ==, lined ? IN (2 * 40 + 2 * 52) : 0);
    g_assert_cmpint (rig.joints->total[DRY_JOINT_FREE], ==, lined ? 0 : IN (2 * 40 + 2 * 52));
    rig_tear_down (&rig);
  }
}

/* A bench on a wall that is not wet, or one that folds down, covers no board of this one. */
static void
test_bench_elsewhere (void)
{
  for (guint folds = 0; folds < 2; folds++) {
    DryPart bench = {.id = 7,
                     .kind = DRY_PART_BENCH,
                     .wall = folds ? 1 : 77,
                     .u = IN (30),
                     .z = IN (18),
                     .width = IN (36),
                     .height = IN (2),
                     .depth = IN (15),
                     .fold_down = folds};
    Rig rig;
    rig_set_up (&rig);
    rig.room.parts = &bench;
    rig.room.n_parts = 1;
    rig_add_face (&rig, 60, 96);
    rig_add_board (&rig, 0, 0, 0, 60, 96);
    check_rig (&rig);
    g_assert_cmpint (rig.joints->total[DRY_JOINT_INSIDE_CORNER], ==, 0);
    g_assert_cmpint (rig.joints->total[DRY_JOINT_FLOOR], ==, IN (60));
    rig_tear_down (&rig);
  }
}

/* Round a window's opening, and along a ceiling that is tiled too. */
static void
test_window_and_ceiling (void)
{
  Rig rig;

  rig_set_up (&rig);
  rig_add_face (&rig, 60, 96);
  rig_add_board (&rig, 0, 0, 0, 60, 96);
  rig_cut (&rig, 0, DRY_CUT_WINDOW, 5, 20, 40, 44, 76);
  check_rig (&rig);
  g_assert_cmpint (rig.joints->total[DRY_JOINT_OPENING], ==, IN (2 * 24 + 2 * 36));
  g_assert_cmpint (rig.joints->total[DRY_JOINT_CEILING], ==, IN (60));
  rig_tear_down (&rig);

  rig_set_up (&rig);
  rig_add_face (&rig, 60, 96);
  DryFace *ceiling = rig_add_face (&rig, 60, 32);
  ceiling->kind = DRY_FACE_CEILING;
  ceiling->wall = 0;
  for (guint i = 0; i < 4; i++)
    ceiling->edges[i] = i == 3 ? DRY_JOINT_INSIDE_CORNER : DRY_JOINT_DRYWALL;
  rig_add_board (&rig, 0, 0, 0, 60, 96);
  rig_add_board (&rig, 1, 0, 0, 60, 32);
  check_rig (&rig);
  g_assert_cmpint (rig.joints->total[DRY_JOINT_CEILING], ==, 0);
  g_assert_cmpint (sum_kind (rig.joints, 0, DRY_JOINT_INSIDE_CORNER), ==, IN (60));
  g_assert_cmpint (sum_kind (rig.joints, 1, DRY_JOINT_DRYWALL), ==, IN (60 + 2 * 32));
  rig_tear_down (&rig);
}

/* Two walls that meet pointing into the room are turned about; where the second is not boarded so
 * low, the first alone is turned there. */
static void
test_outside_corner (void)
{
  Rig rig;

  rig_set_up (&rig);
  rig_add_face (&rig, 60, 96);
  rig_add_face (&rig, 40, 96);
  rig_join (&rig, 0, 1, 0);
  rig.face_items[0].right.angle = rig.face_items[1].left.angle = 270;
  rig.face_items[1].region =
      dry_region_from_rect (rig.arena, (DryRect){0, IN (16), IN (40), IN (96)});
  rig_add_board (&rig, 0, 0, 0, 60, 96);
  rig_add_board (&rig, 1, 0, 16, 40, 96);
  check_rig (&rig);
  g_assert_cmpint (sum_kind (rig.joints, 0, DRY_JOINT_OUTSIDE_CORNER), ==, IN (96));
  g_assert_cmpint (sum_kind (rig.joints, 1, DRY_JOINT_OUTSIDE_CORNER), ==, IN (80));
  g_assert_cmpint (rig.joints->total[DRY_JOINT_INSIDE_CORNER], ==, 0);
  rig_tear_down (&rig);
}

/* A built bench that runs into the corner stands before the wall beside it too, as deep as it is: a
 * change of plane there, at either end of its wall. One that ends an inch before does not. */
static void
test_bench_in_corner (void)
{
  static const struct {
    DryId wall;
    double u;
    gboolean covers;
  } CASES[] = {{1, 50, TRUE}, {2, 10, TRUE}, {1, 40, FALSE}, {2, 20, FALSE}};

  for (guint i = 0; i < G_N_ELEMENTS (CASES); i++) {
    guint beside = CASES[i].wall == 1 ? 1 : 0;
    /* 15 in of it cut out, 18 in high, at the corner */
    const DryPoint right[] = {{IN (15), 0}, {IN (60), 0}, {IN (60), IN (96)},
                              {0, IN (96)}, {0, IN (18)}, {IN (15), IN (18)}};
    const DryPoint left[] = {
        {0, 0},      {IN (45), 0}, {IN (45), IN (18)}, {IN (60), IN (18)}, {IN (60), IN (96)},
        {0, IN (96)}};
    DryPart bench = {.id = 7,
                     .kind = DRY_PART_BENCH,
                     .wall = CASES[i].wall,
                     .u = IN (CASES[i].u),
                     .z = IN (18),
                     .width = IN (20),
                     .height = IN (2),
                     .depth = IN (15)};
    Rig rig;
    rig_set_up (&rig);
    rig.room.parts = &bench;
    rig.room.n_parts = 1;
    rig_add_face (&rig, 60, 96);
    rig_add_face (&rig, 60, 96)->wall = 2;
    rig_join (&rig, 0, 1, 0);
    rig.face_items[beside].region = dry_region_from_ring (rig.arena, beside ? right : left, 6);
    rig_add_board (&rig, beside, 0, 0, 60, 96)->shape = rig.face_items[beside].region.polygons[0];
    check_rig (&rig);
    DryLength turned = 0;
    for (guint k = 0; k < rig.joints->n; k++)
      if (rig.joints->items[k].object == 7)
        turned += rig.joints->items[k].length;
    g_assert_cmpint (turned, ==, CASES[i].covers ? IN (15 + 18) : 0);
    rig_tear_down (&rig);
  }
}

static void
test_random (void)
{
  rig_for_random_plans (60, check_random);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/plan/joints/bench-on-wall", test_bench_on_wall);
  g_test_add_func ("/plan/joints/corner-within-wall", test_corner_within_wall);
  g_test_add_func ("/plan/joints/half-wall", test_half_wall);
  g_test_add_func ("/plan/joints/alcove", test_alcove);
  g_test_add_func ("/plan/joints/niche", test_niche);
  g_test_add_func ("/plan/joints/pipes", test_pipes);
  g_test_add_func ("/plan/joints/order-of-laying", test_order_of_laying);
  g_test_add_func ("/plan/joints/staggered-seam", test_staggered_seam);
  g_test_add_func ("/plan/joints/floated", test_floated);
  g_test_add_func ("/plan/joints/walled", test_walled);
  g_test_add_func ("/plan/joints/bare-studs", test_bare_studs);
  g_test_add_func ("/plan/joints/bench-elsewhere", test_bench_elsewhere);
  g_test_add_func ("/plan/joints/window-and-ceiling", test_window_and_ceiling);
  g_test_add_func ("/plan/joints/outside-corner", test_outside_corner);
  g_test_add_func ("/plan/joints/bench-in-corner", test_bench_in_corner);
  g_test_add_func ("/plan/joints/random", test_random);
  return g_test_run ();
}
