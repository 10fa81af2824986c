/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Seams where the user wants them: each lies exactly there, whatever it breaks, and the engine
 * breaks no rule for it elsewhere. Random rooms with random wishes, and known alcoves. */
#include <string.h>

#include "board-case.h"
#include "plan/plan.h"
#include "support/fixtures.h"

#define IN DRY_INCH

static DryProject *
wish (DryProject *project, DryId wall, DrySide side, gboolean level, DryLength at,
      DryLength through, DryId *id)
{
  g_autoptr (GError) error = NULL;
  DrySeamWish seam = {.wall = wall, .side = side, .level = level, .at = at, .through = through};
  DryProject *wished =
      dry_edit_set_seam (project, dry_project_get_room_at (project, 0)->id, &seam, id, &error);

  g_assert_no_error (error);
  dry_project_unref (project);
  return wished;
}

static const DrySeam *
find_seam (const BoardCase *c, DryId id)
{
  for (guint i = 0; i < c->boards->n_seams; i++)
    if (c->boards->seams[i].wish == id)
      return &c->boards->seams[i];
  return NULL;
}

/* One seam may fulfil two wishes in a line. */
static const DrySeam *
find_line (const BoardCase *c, const DryWishAnswer *answer)
{
  const DrySeamWish *seam_wish = answer->wish;

  for (guint i = 0; i < c->boards->n_seams; i++) {
    const DrySeam *seam = &c->boards->seams[i];
    DryLength at = seam->vertical ? seam->from.x : seam->from.y, gap = c->system.joint_gap;
    DryLength low = seam->vertical ? seam->from.y : seam->from.x;
    DryLength high = seam->vertical ? seam->to.y : seam->to.x;
    if ((gint) seam->face == answer->face && seam->wish != 0 &&
        seam->vertical == !seam_wish->level && at == seam_wish->at &&
        seam_wish->through >= low - gap && seam_wish->through <= high + gap)
      return seam;
  }
  return NULL;
}

/* Obeyed to the nanometre, or said not to be and why. */
static void
check_wishes (const BoardCase *c, guint *obeyed)
{
  g_assert_cmpuint (c->boards->n_wishes, ==, c->context.room->n_seams);
  for (guint i = 0; i < c->boards->n_wishes; i++) {
    const DryWishAnswer *answer = &c->boards->wishes[i];
    const DrySeamWish *seam_wish = answer->wish;
    const DrySeam *seam = find_line (c, answer);

    g_assert_cmpuint (seam_wish->id, ==, c->context.room->seams[i].id);
    if (answer->state != DRY_WISH_OBEYED) {
      DryPoint p = seam_wish->level ? (DryPoint){seam_wish->through, seam_wish->at}
                                    : (DryPoint){seam_wish->at, seam_wish->through};
      gboolean on_board = FALSE;
      DryLength clear = c->system.joint_gap + 2 * DRY_MM;
      for (guint b = 0; b < c->boards->n && answer->face >= 0; b++)
        on_board = on_board || ((gint) c->boards->items[b].face == answer->face &&
                                p.x > c->boards->items[b].bounds.x0 + clear &&
                                p.x < c->boards->items[b].bounds.x1 - clear &&
                                p.y > c->boards->items[b].bounds.y0 + clear &&
                                p.y < c->boards->items[b].bounds.y1 - clear &&
                                dry_ring_contains (&c->boards->items[b].shape.outer, p) &&
                                c->boards->items[b].shape.n_holes == 0 &&
                                c->boards->items[b].shape.outer.n_points == 4);
      if (on_board)
        g_test_message ("%s at %.2f through %.2f mm: state %d",
                        seam_wish->level ? "level" : "upright", (double) seam_wish->at * 1e-6,
                        (double) seam_wish->through * 1e-6, answer->state);
      if (answer->state == DRY_WISH_OFF_BOARD)
        g_assert_false (on_board);
      continue;
    }
    (*obeyed)++;
    g_assert_nonnull (seam);
    g_assert_cmpint (seam->vertical, ==, !seam_wish->level);
    g_assert_cmpint (seam->vertical ? seam->from.x : seam->from.y, ==, seam_wish->at);
    g_assert_cmpuint (seam->face, ==, (guint) answer->face);
  }
}

static DryLength
pick (GRand *random, DryLength low, DryLength high)
{
  return low + (DryLength) (g_rand_double (random) * (double) (high - low));
}

/* A place on some wall face: on a stud, anywhere on the boards, or off them. */
static DryProject *
wish_at_random (DryProject *project, const BoardCase *plain, GRand *random)
{
  const DryFaces *faces = plain->faces;
  const DryFace *face;
  gboolean level = g_rand_boolean (random);
  DryRect r;
  DryPoint p;

  if (faces->n == 0)
    return project;
  face = &faces->items[g_rand_int_range (random, 0, (gint) faces->n)];
  if (face->kind != DRY_FACE_WALL || dry_region_is_empty (&face->region))
    return project;
  r = dry_region_bounds (&face->region);
  if (g_rand_int_range (random, 0, 8) == 0)
    r = dry_rect_inflate (r, 10 * IN);
  p = (DryPoint){pick (random, r.x0, r.x1), pick (random, r.y0, r.y1)};
  for (guint i = 0; i < plain->framing->n && !level && g_rand_boolean (random); i++) {
    const DryMember *member = &plain->framing->items[i];
    if (member->face == face->index && member->kind == DRY_MEMBER_STUD &&
        ABS (member->rect.x0 - p.x) < 12 * IN)
      p.x = (member->rect.x0 + member->rect.x1) / 2;
  }
  return wish (project, face->wall, face->side, level, level ? p.y : p.x, level ? p.x : p.y, NULL);
}

static void
test_random (void)
{
  guint n = g_test_quick () ? 150 : 1500, broken_rooms = 0, wishes = 0, obeyed = 0, near = 0;

  for (guint32 seed = 1; seed <= n; seed++) {
    g_autoptr (GRand) random = g_rand_new_with_seed (seed);
    gint count = g_rand_int_range (random, 1, 5);
    DryProject *project = dry_test_random_project (seed);
    BoardCase plain, c;
    guint broken;

    board_case_begin (&plain, dry_project_ref (project));
    board_case_compute (&plain);
    for (gint i = 0; i < count; i++)
      project = wish_at_random (project, &plain, random);
    board_case_end (&plain);
    board_case_begin (&c, project);
    board_case_compute (&c);
    broken = board_case_check (&c);
    if (broken > 0)
      g_test_message ("room %u breaks %u rules", seed, broken);
    broken_rooms += broken > 0;
    check_wishes (&c, &obeyed);
    for (guint i = 0; i < c.boards->n_wishes; i++)
      near += c.boards->wishes[i].state == DRY_WISH_TOO_NEAR;
    wishes += c.boards->n_wishes;
    board_case_end (&c);
  }
  g_test_message ("%u wishes, %u obeyed, %u too near another; %u of %u rooms broken elsewhere",
                  wishes, obeyed, near, broken_rooms, n);
  g_assert_cmpuint (obeyed, >, wishes / 2);
  g_assert_cmpuint (broken_rooms, ==, 0);
}

static void
test_same_twice (void)
{
  for (guint32 seed = 1; seed <= 20; seed++) {
    BoardCase plain, c[2];
    DryProject *project = dry_test_random_project (seed);
    g_autoptr (GRand) random = g_rand_new_with_seed (seed);

    board_case_begin (&plain, dry_project_ref (project));
    board_case_compute (&plain);
    for (guint i = 0; i < 3; i++)
      project = wish_at_random (project, &plain, random);
    board_case_end (&plain);
    board_case_begin (&c[0], dry_project_ref (project));
    board_case_begin (&c[1], project);
    for (guint i = 0; i < 2; i++)
      board_case_compute (&c[i]);
    g_assert_cmpuint (c[0].boards->n, ==, c[1].boards->n);
    for (guint i = 0; i < c[0].boards->n; i++)
      g_assert_cmpint (
          memcmp (&c[0].boards->items[i].bounds, &c[1].boards->items[i].bounds, sizeof (DryRect)),
          ==, 0);
    for (guint i = 0; i < 2; i++)
      board_case_end (&c[i]);
  }
}

/* --- the alcove: back wall 60 x 80 in, studs 16 in on center --- */

static DryProject *
make_alcove (void)
{
  DryProject *project = dry_test_alcove ("cement-liquid");

  return project;
}

/* On the stud at 32 in instead of the plan's own place: nothing is broken, no sheet more. */
static void
test_on_stud (void)
{
  DryProject *project = make_alcove ();
  DryId wall = dry_test_wall (project, 'n'), id;
  BoardCase before, c;

  board_case_begin (&before, dry_project_ref (project));
  board_case_compute (&before);
  board_case_begin (&c, wish (project, wall, DRY_SIDE_INSIDE, FALSE, 32 * IN, 60 * IN, &id));
  board_case_compute (&c);
  g_assert_cmpuint (board_case_check (&c), ==, 0);
  const DrySeam *seam = find_seam (&c, id);
  g_assert_nonnull (seam);
  g_assert_cmpint (seam->from.x, ==, 32 * IN);
  g_assert_cmpint (seam->off_stud, ==, 0);
  g_assert_cmpint (seam->member, >=, 0);
  g_assert_cmpuint (c.boards->cutting->n_sheets, ==, before.boards->cutting->n_sheets);
  board_case_end (&c);
  board_case_end (&before);
}

/* 6 in beside the stud at 32 in: obeyed, and told how far off; a stud is asked for right there.
 * Half an inch beside it the two studs stand side by side. */
static void
test_off_stud (void)
{
  static const DryLength offs[] = {6 * IN, IN / 2 + IN / 16, -6 * IN};

  for (guint i = 0; i < G_N_ELEMENTS (offs); i++) {
    DryProject *project = make_alcove ();
    DryId wall = dry_test_wall (project, 'n'), id;
    BoardCase c;

    board_case_begin (
        &c, wish (project, wall, DRY_SIDE_INSIDE, FALSE, 32 * IN + offs[i], 60 * IN, &id));
    board_case_compute (&c);
    g_assert_cmpuint (board_case_check (&c), ==, 0);
    const DrySeam *seam = find_seam (&c, id);
    g_assert_nonnull (seam);
    g_assert_cmpint (seam->from.x, ==, 32 * IN + offs[i]);
    g_assert_cmpint (seam->off_stud, ==, ABS (offs[i]));
    g_assert_cmpint (seam->stud_at, ==, 32 * IN);
    g_assert_cmpint (seam->member, ==, -1);
    g_assert_true (seam->needs_second_stud);
    g_assert_cmpuint (c.boards->n_blocking, >, 0);
    for (guint k = 0; k < c.boards->n_blocking; k++)
      for (guint m = 0; m < c.framing->n; m++)
        if (c.framing->items[m].face == c.boards->blocking[k].face &&
            c.framing->items[m].kind == DRY_MEMBER_STUD)
          g_assert_false (dry_rect_overlaps (c.framing->items[m].rect, c.boards->blocking[k].rect));
    board_case_end (&c);
  }
}

/* A level seam through the back wall at 50 in: 80 in of height above and below need no other. */
static void
test_level (void)
{
  DryProject *project = make_alcove ();
  DryId wall = dry_test_wall (project, 'n'), id;
  BoardCase c;

  board_case_begin (&c, wish (project, wall, DRY_SIDE_INSIDE, TRUE, 50 * IN, 30 * IN, &id));
  board_case_compute (&c);
  g_assert_cmpuint (board_case_check (&c), ==, 0);
  const DrySeam *seam = find_seam (&c, id);
  g_assert_nonnull (seam);
  g_assert_false (seam->vertical);
  g_assert_cmpint (seam->from.y, ==, 50 * IN);
  board_case_end (&c);
}

/* In the row above only: the row below keeps off it by a stud, and goes without where it can. */
static void
test_rows (void)
{
  DryProject *project = make_alcove ();
  DryId wall = dry_test_wall (project, 'n'), level, upright;
  BoardCase c;

  project = wish (project, wall, DRY_SIDE_INSIDE, TRUE, 50 * IN, 30 * IN, &level);
  project = wish (project, wall, DRY_SIDE_INSIDE, FALSE, 32 * IN, 70 * IN, &upright);
  board_case_begin (&c, project);
  board_case_compute (&c);
  g_assert_cmpuint (board_case_check (&c), ==, 0);
  g_assert_nonnull (find_seam (&c, level));
  const DrySeam *seam = find_seam (&c, upright);
  g_assert_nonnull (seam);
  g_assert_cmpint (seam->to.y, >, 70 * IN);
  board_case_end (&c);
}

/* Both wished in one line: four corners meet, and that is the user's. */
static void
test_four_corners (void)
{
  DryProject *project = make_alcove ();
  DryId wall = dry_test_wall (project, 'n'), ids[3];
  BoardCase c;
  guint obeyed = 0;

  project = wish (project, wall, DRY_SIDE_INSIDE, TRUE, 50 * IN, 30 * IN, &ids[0]);
  project = wish (project, wall, DRY_SIDE_INSIDE, FALSE, 32 * IN, 70 * IN, &ids[1]);
  project = wish (project, wall, DRY_SIDE_INSIDE, FALSE, 32 * IN, 30 * IN, &ids[2]);
  board_case_begin (&c, project);
  board_case_compute (&c);
  g_assert_cmpuint (board_case_check (&c), ==, 0);
  check_wishes (&c, &obeyed);
  g_assert_cmpuint (obeyed, ==, 3);
  board_case_end (&c);
}

static void
test_not_obeyed (void)
{
  static const struct {
    DryLength at, through;
    DryWishState state;
    gint face;
  } rows[] = {
      {30 * IN, 4 * IN, DRY_WISH_OFF_BOARD, 1},  /* below the rim */
      {90 * IN, 60 * IN, DRY_WISH_OFF_BOARD, 1}, /* past the end of the wall */
      {0, 60 * IN, DRY_WISH_OFF_BOARD, 1},       /* in the corner */
      {32 * IN, 60 * IN, DRY_WISH_OBEYED, 1},
  };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++) {
    DryProject *project = make_alcove ();
    DryId wall = dry_test_wall (project, 'n');
    BoardCase c;

    board_case_begin (
        &c, wish (project, wall, DRY_SIDE_INSIDE, FALSE, rows[i].at, rows[i].through, NULL));
    board_case_compute (&c);
    g_assert_cmpuint (board_case_check (&c), ==, 0);
    g_assert_cmpint (c.boards->wishes[0].state, ==, rows[i].state);
    g_assert_cmpint (c.boards->wishes[0].face, ==, rows[i].face);
    board_case_end (&c);
  }
  /* A wall that is not boarded at all. */
  DryProject *project = make_alcove ();
  DryId wall = dry_test_wall (project, 's');
  BoardCase c;
  board_case_begin (&c, wish (project, wall, DRY_SIDE_INSIDE, FALSE, 32 * IN, 60 * IN, NULL));
  board_case_compute (&c);
  g_assert_cmpint (c.boards->wishes[0].face, ==, -1);
  g_assert_cmpint (c.boards->wishes[0].state, ==, DRY_WISH_OFF_BOARD);
  board_case_end (&c);
}

/* Half a joint beside another wished seam nothing would be left between them. */
static void
test_too_near (void)
{
  DryProject *project = make_alcove ();
  DryId wall = dry_test_wall (project, 'n'), first, second;
  BoardCase c;

  project = wish (project, wall, DRY_SIDE_INSIDE, FALSE, 32 * IN, 60 * IN, &first);
  project = wish (project, wall, DRY_SIDE_INSIDE, FALSE, 32 * IN + DRY_MM / 2, 60 * IN, &second);
  board_case_begin (&c, project);
  board_case_compute (&c);
  g_assert_nonnull (find_seam (&c, first));
  g_assert_null (find_seam (&c, second));
  g_assert_cmpint (c.boards->wishes[0].state, ==, DRY_WISH_OBEYED);
  g_assert_cmpint (c.boards->wishes[1].state, ==, DRY_WISH_TOO_NEAR);
  board_case_end (&c);
}

/* Places offered to people: the middles of the studs, kept off niche corners and holes. */
static void
test_places (void)
{
  BoardCase c;

  board_case_begin (&c, make_alcove ());
  board_case_compute (&c);
  const DryFace *face = dry_faces_get_wall (c.faces, dry_test_wall (c.project, 'n'), 0);
  DryRect r = dry_region_bounds (&face->region);
  g_autoptr (GArray) places = dry_boards_list_seam_places (&c.context, face, c.framing, r.y0, r.y1);
  g_assert_cmpuint (places->len, ==, 3);
  for (guint i = 0; i < places->len; i++)
    g_assert_cmpint (g_array_index (places, DrySeamPlace, i).at, ==, (16 + 16 * i) * IN);
  board_case_end (&c);
}

/* --- on hand --- */

static DryPlan *
plan_with (DryProject *project, const DryOnHand *board)
{
  g_autoptr (GError) error = NULL;
  DryId room = dry_test_room (project);
  g_autoptr (DryProject) with = board != NULL
                                    ? dry_edit_set_on_hand (project, room, 0, board, &error)
                                    : dry_project_ref (project);
  DryPlan *plan;

  g_assert_no_error (error);
  plan = dry_plan_new (with, room, dry_test_catalog (), NULL, &error);
  g_assert_no_error (error);
  return plan;
}

static const DryTakeoffLine *
find_group (const DryPlan *plan, const char *group)
{
  for (guint i = 0; i < plan->takeoff->n; i++)
    if (strcmp (plan->takeoff->lines[i].group, group) == 0)
      return &plan->takeoff->lines[i];
  return NULL;
}

/* A whole sheet on hand is one to buy less, listed apart and free; board of another system or
 * another thickness stays where it is. */
static void
test_on_hand (void)
{
  g_autoptr (DryProject) project = make_alcove ();
  DryOnHand board = {.system = (char *) "cement-liquid",
                     .width = 48 * IN,
                     .height = 96 * IN,
                     .count = 1,
                     .note = (char *) "in the shop"};
  g_autoptr (DryPlan) before = plan_with (project, NULL);
  g_autoptr (DryPlan) after = plan_with (project, &board);
  g_autoptr (DryPlan) other = NULL, thin = NULL;
  const DryTakeoffLine *line = find_group (after, "on-hand");

  g_assert_null (find_group (before, "on-hand"));
  g_assert_cmpuint (after->boards->cutting->n_bought, <, before->boards->cutting->n_bought);
  g_assert_cmpuint (after->boards->cutting->n_bought + 1, ==, after->boards->cutting->n_sheets);
  g_assert_nonnull (line);
  g_assert_true (line->on_hand);
  g_assert_cmpint (line->packs, ==, 1);
  g_assert_cmpint (line->cost, ==, 0);
  g_assert_nonnull (strstr (line->name, "in the shop"));
  g_assert_cmpuint (after->takeoff->n_unpriced, ==, before->takeoff->n_unpriced);
  g_assert_cmpint (after->takeoff->cost, <, before->takeoff->cost);
  board.system = (char *) "foam-bands";
  other = plan_with (project, &board);
  g_assert_null (find_group (other, "on-hand"));
  board.system = NULL;
  board.board = 3 * IN;
  thin = plan_with (project, &board);
  g_assert_null (find_group (thin, "on-hand"));
  g_assert_cmpuint (thin->boards->cutting->n_bought, ==, before->boards->cutting->n_bought);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/plan/board-wishes/random", test_random);
  g_test_add_func ("/plan/board-wishes/same-twice", test_same_twice);
  g_test_add_func ("/plan/board-wishes/on-stud", test_on_stud);
  g_test_add_func ("/plan/board-wishes/off-stud", test_off_stud);
  g_test_add_func ("/plan/board-wishes/level", test_level);
  g_test_add_func ("/plan/board-wishes/rows", test_rows);
  g_test_add_func ("/plan/board-wishes/four-corners", test_four_corners);
  g_test_add_func ("/plan/board-wishes/not-obeyed", test_not_obeyed);
  g_test_add_func ("/plan/board-wishes/too-near", test_too_near);
  g_test_add_func ("/plan/board-wishes/places", test_places);
  g_test_add_func ("/plan/board-wishes/on-hand", test_on_hand);
  return g_test_run ();
}
