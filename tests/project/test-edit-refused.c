/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What edits refuse: rooms and objects that are not there, ids that lead astray, more than may be;
 * and what stands just inside that. */
#include "base/error.h"
#include <string.h>
#include "project/alternate.h"
#include "project/file.h"
#include "support/fixtures.h"

#include "full-room.h"

static void
test_no_room (void)
{
  g_autoptr (DryProject) p = full_room_new ();
  const DryRoom *room = dry_test_first_room (p);
  DryPoint corners[] = {{0, 0}, {0, IN (90)}, {IN (90), 0}};
  DryId wall = room->walls[0].id;
  GError *error = NULL;
  const DryId no = 9999;

#define REFUSED(call) dry_test_refused (call, &error, DRY_ERROR_REFERENCE, "no room 9999")
  REFUSED (dry_edit_set_basin (p, no, &room->basin, NULL, &error));
  REFUSED (dry_edit_set_wet_zone (p, no, &room->wet, &error));
  REFUSED (dry_edit_set_finish (p, no, &room->finish, &error));
  REFUSED (dry_edit_set_part (p, no, &room->parts[0], NULL, &error));
  REFUSED (dry_edit_set_opening (p, no, &room->openings[0], NULL, &error));
  REFUSED (dry_edit_set_seam (p, no, &room->seams[0], NULL, &error));
  REFUSED (dry_edit_clear_seams (p, no, wall, DRY_SIDE_INSIDE, &error));
  REFUSED (dry_edit_set_on_hand (p, no, 0, &room->on_hand[0], &error));
  REFUSED (dry_edit_remove_on_hand (p, no, 0, &error));
  REFUSED (dry_edit_set_wall (p, no, &room->walls[0], NULL, &error));
  REFUSED (dry_edit_remove (p, no, wall, &error));
  REFUSED (dry_edit_remove_room (p, no, &error));
  REFUSED (dry_edit_set_outline (p, no, corners, 3, &error));
  REFUSED (dry_edit_move_corner (p, no, wall, corners[0], &error));
  REFUSED (dry_edit_insert_corner (p, no, wall, IN (9), NULL, &error));
  REFUSED (dry_edit_set_widths (p, no, wall, IN (9), 0, IN (9), &error));
  REFUSED (dry_edit_move_wall (p, no, wall, IN (9), &error));
  REFUSED (dry_edit_move_part (p, no, room->parts[0].id, wall, DRY_SIDE_INSIDE, 0, 0, &error));
  REFUSED (dry_edit_move_basin (p, no, wall, 0, 0, FALSE, &error));
#undef REFUSED
}

static void
test_no_object (void)
{
  g_autoptr (DryProject) p = full_room_new ();
  DryId room = dry_test_room (p);
  DryPoint far[] = {{0, 0}, {0, IN (90)}, {DRY_LENGTH_MAX + 1, 0}};
  DryPoint high[] = {{0, 0}, {0, -DRY_LENGTH_MAX - 1}, {IN (90), 0}};
  DryWall wall = dry_test_first_room (p)->walls[0];
  DryOnHand board = {.width = IN (20), .height = IN (30), .count = 1};
  GError *error = NULL;

  wall.id = 9999;
  dry_test_refused (dry_edit_set_wall (p, room, &wall, NULL, &error), &error, DRY_ERROR_REFERENCE,
                    "no wall 9999");
  dry_test_refused (dry_edit_clear_seams (p, room, 9999, DRY_SIDE_INSIDE, &error), &error,
                    DRY_ERROR_REFERENCE, "no wall 9999");
  dry_test_refused (dry_edit_set_on_hand (p, room, 2, &board, &error), &error, DRY_ERROR_REFERENCE,
                    "no board on hand 2");
  dry_test_refused (dry_edit_move_corner (p, room, 9999, far[0], &error), &error,
                    DRY_ERROR_REFERENCE, "no wall 9999");
  dry_test_refused (dry_edit_move_part (p, room, dry_test_first_room (p)->openings[0].id, 9999,
                                        DRY_SIDE_INSIDE, 0, 0, &error),
                    &error, DRY_ERROR_REFERENCE, "no wall 9999");
  dry_test_refused (dry_edit_set_outline (p, room, far, 3, &error), &error, DRY_ERROR_LIMIT,
                    "Corner 3 is more than 1 km away");
  dry_test_refused (dry_edit_set_outline (p, room, high, 3, &error), &error, DRY_ERROR_LIMIT,
                    "Corner 2 is more than 1 km away");
}

/* --- ids --- */

CHANGE (wall_twice, room->walls[1].id = room->walls[0].id)
CHANGE (opening_like_part, room->openings[0].id = room->parts[0].id)
CHANGE (opening_nowhere, room->openings[0].wall = 9999)
CHANGE (opening_on_nothing, room->openings[0].wall = 0)
CHANGE (basin_like_opening, room->basin.id = room->openings[0].id)
CHANGE (basin_nowhere, room->basin.wall = 9999)
CHANGE (part_like_basin, room->parts[0].id = room->basin.id)
CHANGE (part_nowhere, room->parts[0].wall = 9999)
CHANGE (seam_like_part, room->seams[0].id = room->parts[0].id)
CHANGE (seam_twice, room->seams[1].id = room->seams[0].id)
CHANGE (seam_nowhere, room->seams[1].wall = 9999)
CHANGE (wall_unknown, room->walls[4].id = 9999)
CHANGE (opening_unknown, room->openings[0].id = 9999)
CHANGE (part_unknown, room->parts[0].id = 9999)
CHANGE (seam_unknown, room->seams[1].id = 9999)
CHANGE (basin_unknown, room->basin.id = 9999)
CHANGE (basin_none, room->basin.id = 0)
CHANGE (all_new, room->openings[0].id = room->parts[0].id = room->seams[0].id = room->basin.id = 0)

/* A room that is added brings ids of its own, which must lead somewhere within it; one that is put
 * in the place of another has that one's ids. NULL: it is taken. */
static void
test_room_ids (void)
{
  static const struct {
    Change change;
    const char *added, *replaced;
  } ROWS[] = {
      {wall_twice, "id %u is used twice", "used twice"},
      {opening_like_part, "is used twice", "is used twice"},
      {opening_nowhere, "there is no wall 9999", "no wall 9999"},
      {opening_on_nothing, "there is no wall 0", "no wall 0"},
      {basin_like_opening, "is used twice", "is used twice"},
      {basin_nowhere, "there is no wall 9999", "no wall 9999"},
      {part_like_basin, "is used twice", "is used twice"},
      {part_nowhere, "there is no wall 9999", "no wall 9999"},
      {seam_like_part, "is used twice", "is used twice"},
      {seam_twice, "is used twice", "is used twice"},
      {seam_nowhere, "there is no wall 9999", "no wall 9999"},
      {wall_unknown, NULL, "no object 9999"},
      {opening_unknown, NULL, "no object 9999"},
      {part_unknown, NULL, "no object 9999"},
      {seam_unknown, NULL, "no object 9999"},
      {basin_unknown, NULL, "no object 9999"},
      {basin_none, NULL, NULL},
      {all_new, NULL, NULL},
  };
  g_autoptr (DryProject) old = full_room_new ();

  for (guint i = 0; i < G_N_ELEMENTS (ROWS); i++)
    for (guint add = 0; add < 2; add++) {
      g_autoptr (DryRoom) room = dry_room_copy (dry_test_first_room (old));
      g_autoptr (DryProject) new = NULL;
      g_autoptr (GError) error = NULL;
      const char *wanted = add ? ROWS[i].added : ROWS[i].replaced;
      g_autofree char *words =
          wanted != NULL && strstr (wanted, "%u") != NULL
              ? g_strdup_printf ("id %u is used twice", dry_test_first_room (old)->walls[0].id)
              : g_strdup (wanted);

      ROWS[i].change (room);
      if (add)
        room->id = 0;
      new = dry_edit_set_room (old, room, NULL, &error);
      g_test_message ("row %u, add %u: %s", i, add, error != NULL ? error->message : "taken");
      g_assert_true ((new == NULL) == (words != NULL));
      if (words != NULL) {
        g_assert_error (error, DRY_ERROR, DRY_ERROR_REFERENCE);
        g_assert_nonnull (strstr (error->message, words));
      } else {
        const DryRoom *got = dry_project_get_room_at (new, add);

        g_assert_cmpuint (got->n_parts, ==, room->n_parts);
        g_assert_cmpuint (got->n_seams, ==, 2);
        g_assert_true ((got->basin.id == 0) == (room->basin.id == 0));
        for (guint j = 0; j < got->n_parts; j++)
          g_assert_cmpuint (got->parts[j].id, >, 0);
      }
    }
}

/* The last number is never given out, and when the others are there is an end. */
static void
test_out_of_ids (void)
{
  g_autoptr (DryProject) base = full_room_new ();
  gsize length;
  g_autofree char *text = dry_project_to_text (base, &length);
  g_autofree char *from = g_strdup_printf ("\"next_id\": %u", dry_project_get_next_id (base));
  g_auto (GStrv) parts = g_strsplit (text, from, 2);
  g_autofree char *late = g_strjoinv ("\"next_id\": 4294967294", parts);
  g_autoptr (DryProject) old = dry_project_from_text (late, strlen (late), "late", NULL);
  g_autoptr (DryProject) last = NULL, beside = NULL;
  DryId room = dry_test_room (old), id;
  DryPart part = dry_test_first_room (old)->parts[0];
  GError *error = NULL;

  part.id = 0;
  last = dry_edit_set_part (old, room, &part, &id, &error);
  g_assert_no_error (error);
  g_assert_cmpuint (id, ==, 4294967294);
  dry_test_refused (dry_edit_set_part (last, room, &part, &id, &error), &error, DRY_ERROR_LIMIT,
                    "used up all its object numbers");
  dry_test_refused (dry_edit_add_alternate (last, "A", NULL, &id, &error), &error, DRY_ERROR_LIMIT,
                    "used up all its object numbers");
  beside = dry_edit_add_alternate (old, "A", NULL, &id, &error);
  g_assert_no_error (error);
  g_assert_cmpuint (id, ==, 4294967294);
}

static void
test_most_rooms (void)
{
  g_autoptr (DryProject) project = dry_project_new ();
  g_autoptr (DryRoom) room = dry_room_copy (dry_test_first_room (project));
  GError *error = NULL;

  room->id = 0;
  while (dry_project_get_n_rooms (project) < DRY_MAX_ROOMS) {
    DryProject *more = dry_edit_set_room (project, room, NULL, &error);

    g_assert_no_error (error);
    dry_project_unref (project);
    project = more;
  }
  dry_test_refused (dry_edit_set_room (project, room, NULL, &error), &error, DRY_ERROR_LIMIT,
                    "at most 2000 rooms");
}

/* --- boards --- */

/* The same board counts up; one that differs in anything is a row of its own, and so is one that
 * would be too many. */
static void
test_same_board (void)
{
  const DryOnHand like = {.system = (char *) "foam-bands",
                          .board = IN (0.5),
                          .width = IN (20),
                          .height = IN (30),
                          .count = 2,
                          .note = (char *) "attic"};
  DryOnHand others[] = {like, like, like, like, like, like, like, like};
  g_autoptr (DryProject) old = dry_project_new ();
  DryId room = dry_test_room (old);
  g_autoptr (DryProject) one = dry_edit_set_on_hand (old, room, 0, &like, NULL);

  others[1].width = IN (21);
  others[2].height = IN (31);
  others[3].board = IN (0.25);
  others[4].system = NULL;
  others[5].note = (char *) "shed";
  others[6].note = NULL;
  others[7].count = DRY_MAX_COUNT - 1;
  for (guint i = 0; i < G_N_ELEMENTS (others); i++) {
    g_autoptr (GError) error = NULL;
    g_autoptr (DryProject) two = dry_edit_set_on_hand (one, room, 1, &others[i], &error);
    g_autoptr (DryProject) same = NULL;

    g_assert_no_error (error);
    g_assert_cmpuint (dry_test_first_room (two)->n_on_hand, ==, i == 0 ? 1 : 2);
    g_assert_cmpint (dry_test_first_room (two)->on_hand[0].count, ==, i == 0 ? 4 : 2);
    if (i == 7)
      continue;
    /* And once more, which finds the row that is there now. */
    same = dry_edit_set_on_hand (two, room, i == 0 ? 1 : 2, &others[i], &error);
    g_assert_no_error (error);
    g_assert_cmpuint (dry_test_first_room (same)->n_on_hand, ==, i == 0 ? 1 : 2);
    g_assert_cmpint (dry_test_first_room (same)->on_hand[i == 0 ? 0 : 1].count, ==, i == 0 ? 6 : 4);
  }
}

/* A row is replaced as it is, even by one like another; and the first of several can go. */
static void
test_replace_board (void)
{
  g_autoptr (DryProject) p = full_room_new ();
  DryId room = dry_test_room (p);
  DryOnHand board = {.width = IN (40), .height = IN (50), .count = 7, .note = (char *) "x"};
  g_autoptr (DryProject) two = dry_edit_set_on_hand (p, room, 1, &board, NULL);
  g_autoptr (DryProject) same = dry_edit_set_on_hand (two, room, 0, &board, NULL);
  g_autoptr (DryProject) one = dry_edit_remove_on_hand (same, room, 0, NULL);

  g_assert_cmpuint (dry_test_first_room (same)->n_on_hand, ==, 2);
  g_assert_cmpint (dry_test_first_room (same)->on_hand[0].count, ==, 7);
  g_assert_cmpint (dry_test_first_room (same)->on_hand[1].count, ==, 7);
  g_assert_cmpuint (dry_test_first_room (one)->n_on_hand, ==, 1);
  g_assert_cmpstr (dry_test_first_room (one)->on_hand[0].note, ==, "x");
}

/* A bench that stands on the floor is at least a nanometre and at most the wall high; one that
 * folds down hangs, and keeps within the wall as other parts do. */
static void
test_move_bench (void)
{
  static const struct {
    gboolean fold_down;
    double z, moved;
  } ROWS[] = {{FALSE, 18, 18}, {FALSE, 500, 96}, {TRUE, 18, 18}, {TRUE, 500, 96}, {TRUE, -5, 2}};
  g_autoptr (DryProject) old = dry_project_new ();
  DryId room = dry_test_room (old), north = dry_test_wall (old, 'n'), id;
  DryPart bench = {.kind = DRY_PART_BENCH,
                   .wall = north,
                   .u = IN (30),
                   .z = IN (18),
                   .width = IN (24),
                   .height = IN (2),
                   .depth = IN (15)};

  for (guint i = 0; i < G_N_ELEMENTS (ROWS); i++) {
    g_autoptr (GError) error = NULL;
    g_autoptr (DryProject) with = NULL, moved = NULL;

    bench.fold_down = ROWS[i].fold_down;
    with = dry_edit_set_part (old, room, &bench, &id, &error);
    moved = dry_edit_move_part (with, room, id, north, DRY_SIDE_INSIDE, IN (30), IN (ROWS[i].z),
                                &error);
    g_assert_no_error (error);
    g_assert_cmpint (dry_test_first_room (moved)->parts[0].z, ==, IN (ROWS[i].moved));
  }
  bench.fold_down = FALSE;
  {
    g_autoptr (DryProject) with = dry_edit_set_part (old, room, &bench, &id, NULL);
    g_autoptr (DryProject) moved =
        dry_edit_move_part (with, room, id, north, DRY_SIDE_INSIDE, IN (30), IN (-9), NULL);

    g_assert_cmpint (dry_test_first_room (moved)->parts[0].z, ==, 1);
  }
}

/* A copy on the outside of a half wall keeps clear of the opening in it, seen from there. */
static void
test_duplicate_outside (void)
{
  g_autoptr (DryProject) p = full_room_new ();
  DryId room = dry_test_room (p), half = dry_test_first_room (p)->walls[4].id, id, copy;
  DryOpening hatch = {.wall = half, .u = IN (18), .z = IN (10), .width = IN (8), .height = IN (8)};
  DryPart hook = {.kind = DRY_PART_NICHE,
                  .wall = half,
                  .side = DRY_SIDE_OUTSIDE,
                  .u = IN (20),
                  .z = IN (10),
                  .width = IN (4),
                  .height = IN (4),
                  .depth = IN (2)};
  g_autoptr (DryProject) open = dry_edit_set_opening (p, room, &hatch, NULL, NULL);
  g_autoptr (DryProject) hung = dry_edit_set_part (open, room, &hook, &id, NULL);
  g_autoptr (GError) error = NULL;
  g_autoptr (DryProject) twice = dry_edit_duplicate (hung, room, id, &copy, &error);
  g_autoptr (DryProject) thrice = NULL;

  /* From outside the hatch spans 4 to 12 of 30. The hook spans 18 to 22: a copy to its right at 26,
   * and then one to its left at 14, just clear of the hatch. */
  g_assert_no_error (error);
  g_assert_cmpint (dry_room_get_part (dry_test_first_room (twice), copy)->u, ==, IN (26));
  thrice = dry_edit_duplicate (twice, room, id, &copy, &error);
  g_assert_no_error (error);
  g_assert_cmpint (dry_room_get_part (dry_test_first_room (thrice), copy)->u, ==, IN (14));
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/edit-refused/no-room", test_no_room);
  g_test_add_func ("/edit-refused/no-object", test_no_object);
  g_test_add_func ("/edit-refused/room-ids", test_room_ids);
  g_test_add_func ("/edit-refused/out-of-ids", test_out_of_ids);
  g_test_add_func ("/edit-refused/most-rooms", test_most_rooms);
  g_test_add_func ("/edit-refused/same-board", test_same_board);
  g_test_add_func ("/edit-refused/replace-board", test_replace_board);
  g_test_add_func ("/edit-refused/move-bench", test_move_bench);
  g_test_add_func ("/edit-refused/duplicate-outside", test_duplicate_outside);
  return g_test_run ();
}
