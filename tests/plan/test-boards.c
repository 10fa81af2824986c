/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Tests of the boards stage: the rules of building on random rooms, known alcoves with every
 * system, and rooms made to press on one rule. */
#include <math.h>
#include <string.h>

#include "base/error.h"
#include "board-case.h"
#include "support/fixtures.h"
#include "walled.h"

#define IN DRY_INCH

/* --- random rooms --- */

static guint
count_sheets_by_area (const BoardCase *c)
{
  double area = 0, largest = 0;
  for (guint i = 0; i < c->boards->n; i++) {
    const DryRegion shape = {&c->boards->items[i].shape, 1};
    area += dry_region_area_m2 (&shape);
  }
  for (guint i = 0; i < c->system.n_sheets; i++) {
    const DrySheet *sheet = &c->system.sheets[i];
    largest = MAX (largest, (double) sheet->width * 1e-9 * (double) sheet->height * 1e-9);
  }
  return largest > 0 ? (guint) ceil (area / largest) : 0;
}

static void
test_random (void)
{
  guint broken_rooms = 0, sheets = 0, by_area = 0, n = g_test_quick () ? 150 : 1500;
  for (guint32 seed = 1; seed <= n; seed++) {
    BoardCase c;
    board_case_begin (&c, dry_test_random_project (seed));
    board_case_compute (&c);
    guint broken = board_case_check (&c);
    if (broken > 0)
      g_test_message ("room %u breaks %u rules (%s)", seed, broken, c.system.id);
    broken_rooms += broken > 0;
    sheets += c.boards->cutting->n_sheets;
    by_area += count_sheets_by_area (&c);
    board_case_end (&c);
  }
  /* Sheets come before seams. Pieces must not overlap and cannot all be nested without waste:
   * 15 in a hundred above the bare area is what the best search so far leaves. */
  g_test_message ("%u sheets, %u by area", sheets, by_area);
  g_assert_cmpuint (sheets * 1000, <=, by_area * 1150);
  g_test_message ("%u of %u rooms cannot be built by all rules", broken_rooms, n);
  /* Rooms are thrown together blindly, niches over corners and valves anywhere; yet each can be
   * built. */
  g_assert_cmpuint (broken_rooms, ==, 0);
}

static void
test_walled (void)
{
  for (guint32 seed = 1; seed <= 60; seed++) {
    BoardCase c;
    board_case_begin (&c, walled_project (seed));
    board_case_compute (&c);
    g_test_message ("room %u", seed);
    g_assert_cmpuint (board_case_check (&c), ==, 0);
    board_case_end (&c);
  }
}

static void
test_same_twice (void)
{
  for (guint32 seed = 1; seed <= 20; seed++) {
    BoardCase a, b;
    board_case_begin (&a, dry_test_random_project (seed));
    board_case_begin (&b, dry_test_random_project (seed));
    board_case_compute (&a);
    board_case_compute (&b);
    g_assert_cmpuint (a.boards->n, ==, b.boards->n);
    g_assert_cmpuint (a.boards->n_seams, ==, b.boards->n_seams);
    for (guint i = 0; i < a.boards->n; i++) {
      g_assert_cmpstr (a.boards->items[i].mark, ==, b.boards->items[i].mark);
      g_assert_cmpint (
          memcmp (&a.boards->items[i].bounds, &b.boards->items[i].bounds, sizeof (DryRect)), ==, 0);
    }
    board_case_end (&a);
    board_case_end (&b);
  }
}

/* --- alcoves --- */

static DryProject *
make_alcove (const char *system, DryLength basin_width)
{
  DryProject *project = dry_test_alcove (system);
  DryBasin basin = dry_project_get_room_at (project, 0)->basin;
  basin.width = basin_width;
  GError *error = NULL;
  DryProject *wider = dry_edit_set_basin (project, dry_test_room (project), &basin, NULL, &error);
  g_assert_no_error (error);
  dry_project_unref (project);
  return wider;
}

typedef struct {
  const char *system;
  guint n_sheets; /* fewest there can be, see below */
  guint max_boards;
} Alcove;

/* 60 x 32 tub, rim 15, ceiling 96, 2 in past with legs: back 60 x 80, ends 34 x 80 and legs: about
 * 10,300 in2, so at least three sheets of 4608 in2. Both ends stand in one piece, and the back wall
 * in two with its seam on the stud at 48 in: no level seam, no blocking. */
static const Alcove ALCOVES[] = {
    {"cement-liquid", 3, 4}, {"cement-sheet", 3, 4},     {"foam-bands", 3, 4},
    {"foam-sealant", 3, 4},  {"glass-mat-liquid", 3, 4}, {"fibre-cement", 3, 4},
};

static void
test_alcoves (void)
{
  for (guint i = 0; i < G_N_ELEMENTS (ALCOVES); i++) {
    BoardCase c;
    board_case_begin (&c, make_alcove (ALCOVES[i].system, 32 * IN));
    board_case_compute (&c);
    g_test_message ("%s: %u boards, %u seams, %u sheets", ALCOVES[i].system, c.boards->n,
                    c.boards->n_seams, c.boards->cutting->n_sheets);
    g_assert_cmpuint (board_case_check (&c), ==, 0);
    g_assert_cmpuint (c.faces->n, ==, 3);
    g_assert_cmpuint (c.boards->cutting->n_sheets, ==, ALCOVES[i].n_sheets);
    g_assert_true (c.boards->cutting->proven);
    g_assert_cmpuint (c.boards->n, <=, ALCOVES[i].max_boards);
    g_assert_cmpuint (c.boards->n_seams, ==, 1);
    g_assert_cmpuint (c.boards->n_blocking, ==, 0);
    g_assert_true (c.boards->seams[0].vertical);
    g_assert_false (c.boards->seams[0].needs_second_stud);
    board_case_end (&c);
  }
}

static void
test_mortar_bed (void)
{
  BoardCase c;
  board_case_begin (&c, make_alcove ("mortar-bed", 32 * IN));
  board_case_compute (&c);
  g_assert_cmpuint (c.faces->n, ==, 3);
  g_assert_cmpuint (board_case_check (&c), ==, 0);
  g_assert_null (c.boards->sheet);
  board_case_end (&c);
}

/* The leg beside the apron is cut in one piece with the board above it. */
static void
test_leg_in_one_piece (void)
{
  BoardCase c;
  board_case_begin (&c, make_alcove ("foam-bands", 30 * IN));
  board_case_compute (&c);
  for (guint f = 0; f < c.faces->n; f++) {
    const DryFace *face = &c.faces->items[f];
    guint legs = 0;
    for (guint i = 0; i < c.boards->n; i++) {
      const DryBoard *board = &c.boards->items[i];
      if (board->face != f || board->bounds.y0 >= face->board_bottom)
        continue;
      legs++;
      g_assert_cmpint (board->bounds.y1, >, face->board_bottom);
      g_assert_cmpuint (board->shape.outer.n_points, ==, 6);
    }
    g_assert_cmpuint (legs, ==, face->leg_left + face->leg_right);
  }
  board_case_end (&c);
}

static void
replace_back_region (BoardCase *c, DryRegion region, DryLength length)
{
  DryFaces *faces = dry_arena_copy (c->context.arena, c->faces, sizeof (DryFaces));
  faces->items = dry_arena_copy (c->context.arena, c->faces->items, sizeof (DryFace) * faces->n);
  faces->items[1].region = region;
  faces->items[1].length = MAX (length, faces->items[1].length);
  c->faces = faces;
  c->boards = dry_boards_compute (&c->context, c->faces, c->framing, NULL);
}

/* One sheet size wished: no other is bought. */
static void
test_wished_sheet (void)
{
  for (guint wish = 0; wish < 3; wish++) {
    DryProject *project = make_alcove ("cement-liquid", 32 * IN);
    DryFinish finish = dry_project_get_room_at (project, 0)->finish;
    const char *const ids[] = {"3x5", "4x8", "no such sheet"};
    finish.sheet = (char *) ids[wish];
    DryProject *wished = dry_edit_set_finish (project, dry_test_room (project), &finish, NULL);
    dry_project_unref (project);
    g_assert_nonnull (wished);
    BoardCase c;
    board_case_begin (&c, wished);
    board_case_compute (&c);
    g_assert_cmpuint (board_case_check (&c), ==, 0);
    if (wish < 2)
      g_assert_cmpstr (c.boards->sheet->id, ==, ids[wish]);
    board_case_end (&c);
  }
}

/* 3/4 in of bearing and a fastener that must stand 1 in from the edge: a second stud, the seam
 * between both, and 1 in then hits. */
static void
test_second_stud (void)
{
  BoardCase c;
  guint upright = 0;
  board_case_begin (&c, make_alcove ("foam-bands", 32 * IN));
  c.system.edge_distance.value = IN;
  c.system.edge_distance_min.value = IN;
  c.system.edge_distance_max.value = IN;
  c.system.directional = TRUE; /* boards stand, so that the back wall cannot do without */
  board_case_compute (&c);
  g_assert_cmpuint (board_case_check (&c), ==, 0);
  for (guint i = 0; i < c.boards->n_seams; i++) {
    const DrySeam *seam = &c.boards->seams[i];
    if (!seam->vertical)
      continue;
    upright++;
    g_assert_true (seam->needs_second_stud);
    g_assert_cmpint (seam->edge_distance, ==, IN);
    g_assert_cmpint (seam->bearing, ==, 3 * IN / 2 - c.system.joint_gap / 2);
  }
  g_assert_cmpuint (upright, >, 0);
  board_case_end (&c);
}

/* A smaller distance that the system allows serves before a second stud does. */
static void
test_smaller_distance (void)
{
  BoardCase c;
  board_case_begin (&c, make_alcove ("foam-bands", 32 * IN));
  c.system.edge_distance.value = IN;
  c.system.edge_distance_min.value = 3 * IN / 8;
  c.system.edge_distance_max.value = IN;
  c.system.directional = TRUE;
  c.system.joint_gap = IN / 8;
  board_case_compute (&c);
  g_assert_cmpuint (board_case_check (&c), ==, 0);
  for (guint i = 0; i < c.boards->n_seams; i++) {
    const DrySeam *seam = &c.boards->seams[i];
    if (!seam->vertical)
      continue;
    g_assert_false (seam->needs_second_stud);
    g_assert_cmpint (seam->bearing, ==, 5 * IN / 8); /* the whole sheet takes 1/16 in more */
    g_assert_cmpint (seam->edge_distance, ==, 3 * IN / 8);
  }
  board_case_end (&c);
}

/* The back wall 0 to 60 in, stud at 48 in, joint 1/8 in: a whole sheet of 48 in puts the middle of
 * the joint 1/16 in past the middle of the stud, so that the next board has 3/4 - 1/8 = 5/8 in of
 * wood: with 1/4 in of it round the screw that allows 3/8 in and no more. Where the system asks for
 * 7/16 in, the sheet is ripped and the joint stays in the middle. */
static void
test_whole_sheet (void)
{
  for (guint sixteenths = 6; sixteenths <= 7; sixteenths++) {
    BoardCase c;
    gboolean whole = sixteenths == 6;
    guint upright = 0;
    board_case_begin (&c, make_alcove ("foam-bands", 32 * IN));
    c.system.edge_distance.value = IN / 2;
    c.system.edge_distance_min.value = sixteenths * IN / 16;
    c.system.directional = TRUE;
    c.system.joint_gap = IN / 8;
    board_case_compute (&c);
    g_assert_cmpuint (board_case_check (&c), ==, 0);
    for (guint i = 0; i < c.boards->n_seams; i++) {
      const DrySeam *seam = &c.boards->seams[i];
      if (!seam->vertical)
        continue;
      upright++;
      g_assert_cmpint (seam->from.x, ==, 48 * IN + (whole ? IN / 16 : 0));
      g_assert_cmpint (seam->bearing, ==, whole ? 5 * IN / 8 : 11 * IN / 16);
    }
    g_assert_cmpuint (upright, ==, 1);
    for (guint i = 0; i < c.boards->n; i++) {
      const DryBoard *board = &c.boards->items[i];
      if (board->face == 1 && board->bounds.x0 == 0)
        g_assert_cmpint (board->bounds.x1, ==, whole ? 48 * IN : 48 * IN - IN / 16);
    }
    board_case_end (&c);
  }
}

/* The whole sheet may stand at the far end, between two seams that each give way by half, or be the
 * only way to cross the wall in so few sheets. Studs stand just where seams may. */
static void
test_whole_sheets_elsewhere (void)
{
  static const struct {
    DryLength x0, x1;
    guint n;
    DryLength at[2]; /* in sixteenths */
  } cases[] = {
      {10 * IN, 80 * IN, 1, {32 * 16 - 1}},
      {20 * IN, 108 * IN, 2, {32 * 16 - 1, 80 * 16 + 1}},
      {0, 96 * IN + IN / 8, 1, {48 * 16 + 1}},
  };
  for (guint i = 0; i < G_N_ELEMENTS (cases); i++) {
    BoardCase c;
    board_case_begin (&c, make_alcove ("foam-bands", 32 * IN));
    c.system.edge_distance.value = IN / 2;
    c.system.edge_distance_min.value = 3 * IN / 8;
    c.system.directional = TRUE;
    c.system.joint_gap = IN / 8;
    c.system.min_piece = 4 * IN;
    board_case_compute (&c);
    GArray *studs = g_array_new (FALSE, TRUE, sizeof (DryMember));
    for (guint s = 0; s < cases[i].n; s++) {
      DryLength middle = (cases[i].at[s] + 8) / 16 * IN;
      DryMember stud = {.face = 1, .kind = DRY_MEMBER_STUD};
      stud.rect = (DryRect){middle - 3 * IN / 4, 0, middle + 3 * IN / 4, 96 * IN};
      g_array_append_val (studs, stud);
    }
    DryFraming framing = {.n = studs->len};
    framing.items = dry_arena_take_array (c.context.arena, studs);
    c.framing = &framing;
    DryRect wall = {cases[i].x0, 16 * IN, cases[i].x1, 64 * IN};
    replace_back_region (&c, dry_region_from_rect (c.context.arena, wall), 112 * IN);
    guint n = 0;
    for (guint s = 0; s < c.boards->n_seams; s++) {
      const DrySeam *seam = &c.boards->seams[s];
      if (seam->face != 1)
        continue;
      g_assert_true (seam->vertical);
      g_assert_cmpint (seam->from.x, ==, cases[i].at[n++] * IN / 16);
    }
    g_assert_cmpuint (n, ==, cases[i].n);
    board_case_end (&c);
  }
}

/* Studs found where no sheet reaches from one to the next: the seam is shown as broken. */
static void
test_no_stud (void)
{
  DryProject *project = make_alcove ("foam-bands", 32 * IN);
  DryRoom *room = dry_room_copy (dry_project_get_room_at (project, 0));
  DryWall *wall = &room->walls[dry_room_find_wall (room, dry_test_wall (project, 'n'))];
  DryLength *found = g_new (DryLength, 1);
  found[0] = 2 * IN;
  g_free (wall->found_studs);
  wall->found_studs = found;
  wall->n_found_studs = 1;
  DryProject *edited = dry_edit_set_room (project, room, NULL, NULL);
  dry_room_free (room);
  dry_project_unref (project);
  g_assert_nonnull (edited);
  BoardCase c;
  board_case_begin (&c, edited);
  c.system.directional = TRUE;
  board_case_compute (&c);
  g_assert_cmpuint (board_case_check (&c), >, 0);
  guint without = 0;
  for (guint i = 0; i < c.boards->n_seams; i++)
    without += c.boards->seams[i].member < 0 && c.boards->seams[i].needs_second_stud;
  g_assert_cmpuint (without, >, 0);
  board_case_end (&c);
}

static void
test_cancelled (void)
{
  BoardCase c;
  GError *error = NULL;
  board_case_begin (&c, make_alcove ("foam-bands", 32 * IN));
  board_case_compute (&c);
  g_autoptr (GCancellable) cancellable = g_cancellable_new ();
  g_cancellable_cancel (cancellable);
  c.context.cancellable = cancellable;
  g_assert_null (dry_boards_compute (&c.context, c.faces, c.framing, &error));
  g_assert_error (error, DRY_ERROR, DRY_ERROR_CANCELLED);
  g_clear_error (&error);
  board_case_end (&c);
}

/* --- furnished: a niche and fittings --- */

static void
test_furnished (void)
{
  for (guint i = 0; i < G_N_ELEMENTS (ALCOVES); i++) {
    BoardCase c;
    board_case_begin (&c, dry_test_furnished_alcove (ALCOVES[i].system));
    board_case_compute (&c);
    g_assert_cmpuint (board_case_check (&c), ==, 0);
    guint holes = 0;
    for (guint b = 0; b < c.boards->n; b++)
      holes += c.boards->items[b].n_holes;
    g_assert_cmpuint (holes, ==, 3);
    board_case_end (&c);
  }
}

/* A niche pushed along the wall in half inches: no place may break a rule unseen. */
static void
test_niche_along_wall (void)
{
  for (guint step = 0; step <= 88; step++) {
    DryProject *project = dry_test_furnished_alcove ("cement-liquid");
    const DryRoom *room = dry_project_get_room_at (project, 0);
    guint index = 0;
    while (room->parts[index].kind != DRY_PART_NICHE)
      index++;
    DryPart *niche = dry_part_copy (&room->parts[index]);
    niche->u = 8 * IN + step * IN / 2;
    niche->z = 40 * IN + (step % 7) * 4 * IN;
    DryProject *moved = dry_edit_set_part (project, room->id, niche, NULL, NULL);
    dry_part_free (niche);
    dry_project_unref (project);
    g_assert_nonnull (moved);
    BoardCase c;
    board_case_begin (&c, moved);
    board_case_compute (&c);
    g_assert_cmpuint (board_case_check (&c), ==, 0);
    board_case_end (&c);
  }
}

/* --- odd faces --- */

/* 60 x 80 in of wall alone: two sheets whether the seam lies (60 in, with blocking) or stands on a
 * stud (80 in). It stands. */
static void
test_stands_rather_than_lies (void)
{
  BoardCase c;
  board_case_begin (&c, make_alcove ("cement-liquid", 32 * IN));
  board_case_compute (&c);
  DryFaces *faces = dry_arena_copy (c.context.arena, c.faces, sizeof (DryFaces));
  faces->items = dry_arena_copy (c.context.arena, c.faces->items, sizeof (DryFace) * faces->n);
  faces->items[0].region = faces->items[2].region = (DryRegion){0};
  c.faces = faces;
  c.boards = dry_boards_compute (&c.context, c.faces, c.framing, NULL);
  g_assert_cmpuint (board_case_check (&c), ==, 0);
  g_assert_cmpuint (c.boards->cutting->n_sheets, ==, 2);
  g_assert_cmpuint (c.boards->n_seams, ==, 1);
  g_assert_true (c.boards->seams[0].vertical);
  board_case_end (&c);
}

/* The back wall's seam on the stud at 48 in leaves 12 in. Where that is too narrow the check says
 * so, and the seam goes to another stud. */
static void
test_sliver (void)
{
  BoardCase c;
  board_case_begin (&c, make_alcove ("foam-bands", 32 * IN));
  board_case_compute (&c);
  g_assert_cmpuint (board_case_check (&c), ==, 0);
  c.system.min_piece = 13 * IN;
  g_assert_cmpuint (board_case_check (&c), ==, 1);
  board_case_compute (&c);
  g_assert_cmpuint (board_case_check (&c), ==, 0);
  board_case_end (&c);
}

/* A ceiling that falls from 96 to 80 in over the back wall. */
static void
test_sloped (void)
{
  BoardCase c;
  board_case_begin (&c, make_alcove ("cement-liquid", 32 * IN));
  board_case_compute (&c);
  const DryPoint ring[] = {{0, 16 * IN}, {60 * IN, 16 * IN}, {60 * IN, 80 * IN}, {0, 96 * IN}};
  replace_back_region (&c, dry_region_from_ring (c.context.arena, ring, 4), 0);
  g_assert_cmpuint (board_case_check (&c), ==, 0);
  double sum = 0, strips = 0;
  for (guint i = 0; i < c.boards->n; i++) {
    DryRegion shape = {&c.boards->items[i].shape, 1};
    if (c.boards->items[i].face == 1)
      sum += dry_region_area_m2 (&shape);
  }
  for (guint i = 0; i < c.boards->n_seams; i++)
    if (c.boards->seams[i].face == 1)
      strips += (double) dry_point_distance (c.boards->seams[i].from, c.boards->seams[i].to) *
                (double) c.system.joint_gap * 1e-18;
  /* Where a seam meets the slope its gap ends askew: within the square of the gap. */
  g_assert_cmpfloat_with_epsilon (sum + strips, dry_region_area_m2 (&c.faces->items[1].region),
                                  1e-4);
  board_case_end (&c);
}

/* A wall as long as a street, with studs at its near end only, must end in fair time. */
static void
test_endless_wall (void)
{
  BoardCase c;
  board_case_begin (&c, make_alcove ("cement-liquid", 32 * IN));
  board_case_compute (&c);
  DryRect wall = {0, 16 * IN, 100000 * DRY_MM, 96 * IN};
  gint64 start = g_get_monotonic_time ();
  replace_back_region (&c, dry_region_from_rect (c.context.arena, wall), wall.x1);
  g_test_message ("%u boards in %.0f ms", c.boards->n,
                  (double) (g_get_monotonic_time () - start) / 1000);
  g_assert_cmpuint (board_case_check (&c), >, 0);
  board_case_end (&c);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/plan/boards/random", test_random);
  g_test_add_func ("/plan/boards/walled", test_walled);
  g_test_add_func ("/plan/boards/same-twice", test_same_twice);
  g_test_add_func ("/plan/boards/alcoves", test_alcoves);
  g_test_add_func ("/plan/boards/mortar-bed", test_mortar_bed);
  g_test_add_func ("/plan/boards/leg-in-one-piece", test_leg_in_one_piece);
  g_test_add_func ("/plan/boards/wished-sheet", test_wished_sheet);
  g_test_add_func ("/plan/boards/second-stud", test_second_stud);
  g_test_add_func ("/plan/boards/smaller-distance", test_smaller_distance);
  g_test_add_func ("/plan/boards/whole-sheet", test_whole_sheet);
  g_test_add_func ("/plan/boards/whole-sheets-elsewhere", test_whole_sheets_elsewhere);
  g_test_add_func ("/plan/boards/no-stud", test_no_stud);
  g_test_add_func ("/plan/boards/cancelled", test_cancelled);
  g_test_add_func ("/plan/boards/furnished", test_furnished);
  g_test_add_func ("/plan/boards/niche-along-wall", test_niche_along_wall);
  g_test_add_func ("/plan/boards/stands-rather-than-lies", test_stands_rather_than_lies);
  g_test_add_func ("/plan/boards/sliver", test_sliver);
  g_test_add_func ("/plan/boards/sloped", test_sloped);
  g_test_add_func ("/plan/boards/endless-wall", test_endless_wall);
  return g_test_run ();
}
