/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Wished seams and boards on hand in the document: edits, what they refuse, the file, and that they
 * go with their wall. Lays out no boards. */
#include <string.h>

#include "base/error.h"
#include "project/file.h"
#include "support/fixtures.h"

#define IN(x) ((DryLength) ((x) *25400000.0))

static DryProject *
add_seam (const DryProject *project, char wall, gboolean level, DryLength at, DryLength through,
          DryId *id)
{
  g_autoptr (GError) error = NULL;
  DrySeamWish seam = {
      .wall = dry_test_wall (project, wall), .level = level, .at = at, .through = through};
  DryProject *result = dry_edit_set_seam (project, dry_test_room (project), &seam, id, &error);

  g_assert_no_error (error);
  return result;
}

static void
test_seams_set (void)
{
  g_autoptr (DryProject) old = dry_project_new ();
  g_autofree char *before = dry_project_to_text (old, NULL);
  g_autofree char *after = NULL;
  g_autoptr (GError) error = NULL;
  DryId room = dry_test_room (old), id = 0, second = 0;
  g_autoptr (DryProject) one = add_seam (old, 'n', FALSE, IN (24), IN (60), &id);
  g_autoptr (DryProject) two = add_seam (one, 'n', TRUE, IN (48), IN (10), &second);
  g_autoptr (DryProject) moved = NULL, removed = NULL, cleared = NULL;
  DrySeamWish seam;

  g_assert_cmpuint (id, ==, dry_project_get_next_id (old));
  g_assert_cmpuint (second, ==, id + 1);
  seam = *dry_room_get_seam (dry_test_first_room (two), id);
  seam.at = IN (32);
  moved = dry_edit_set_seam (two, room, &seam, NULL, &error);
  g_assert_no_error (error);
  g_assert_cmpuint (dry_test_first_room (moved)->n_seams, ==, 2);
  g_assert_cmpint (dry_room_get_seam (dry_test_first_room (moved), id)->at, ==, IN (32));
  g_assert_cmpint (dry_room_get_seam (dry_test_first_room (two), id)->at, ==, IN (24));
  removed = dry_edit_remove (moved, room, id, &error);
  g_assert_no_error (error);
  g_assert_cmpuint (dry_test_first_room (removed)->n_seams, ==, 1);
  g_assert_null (dry_room_get_seam (dry_test_first_room (removed), id));
  cleared = dry_edit_clear_seams (moved, room, dry_test_wall (old, 'n'), DRY_SIDE_INSIDE, &error);
  g_assert_no_error (error);
  g_assert_cmpuint (dry_test_first_room (cleared)->n_seams, ==, 0);
  after = dry_project_to_text (old, NULL);
  g_assert_cmpstr (before, ==, after);
}

static void
test_seams_refused (void)
{
  static const struct {
    DrySeamWish seam;
    gint code;
    const char *words;
  } rows[] = {
      {{.wall = 999}, DRY_ERROR_REFERENCE, "Bathroom, wished seam 1: the room has no wall 999."},
      {{.wall = 2, .side = DRY_SIDE_OUTSIDE}, DRY_ERROR_REFERENCE, "has only an inside"},
      {{.wall = 2, .at = G_MAXINT64}, DRY_ERROR_LIMIT, "at is more than"},
      {{.id = 77, .wall = 2}, DRY_ERROR_REFERENCE, "no wished seam 77 to replace"},
  };
  g_autoptr (DryProject) project = dry_project_new ();

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++) {
    g_autoptr (GError) error = NULL;

    g_assert_null (
        dry_edit_set_seam (project, dry_test_room (project), &rows[i].seam, NULL, &error));
    g_assert_error (error, DRY_ERROR, rows[i].code);
    if (strstr (error->message, rows[i].words) == NULL)
      g_error ("\"%s\" lacks \"%s\"", error->message, rows[i].words);
  }
}

static void
test_seams_with_walls (void)
{
  g_autoptr (DryProject) old = dry_project_new ();
  g_autoptr (GError) error = NULL;
  DryId room = dry_test_room (old), left = 0, level = 0, upright = 0;
  g_autoptr (DryProject) one = add_seam (old, 'n', FALSE, IN (40), IN (60), &upright);
  g_autoptr (DryProject) two = add_seam (one, 'n', TRUE, IN (48), IN (50), &level);
  g_autoptr (DryProject) three = add_seam (two, 'n', FALSE, IN (16), IN (60), &left);
  g_autoptr (DryProject) split = NULL, slid = NULL, gone = NULL, copy = NULL;
  g_autoptr (DryRoom) other = dry_room_copy (dry_test_first_room (three));
  DryId wall = dry_test_wall (old, 'n'), added = 0, second = 0;

  /* A corner in the wall: what lies to its right goes to the new wall and is measured from it. */
  split = dry_edit_insert_corner (three, room, wall, IN (30), &added, &error);
  g_assert_no_error (error);
  g_assert_cmpuint (dry_room_get_seam (dry_test_first_room (split), left)->wall, ==, wall);
  g_assert_cmpuint (dry_room_get_seam (dry_test_first_room (split), upright)->wall, !=, wall);
  g_assert_cmpint (dry_room_get_seam (dry_test_first_room (split), upright)->at, ==, IN (10));
  g_assert_cmpint (dry_room_get_seam (dry_test_first_room (split), level)->through, ==, IN (20));
  g_assert_cmpint (dry_room_get_seam (dry_test_first_room (split), level)->at, ==, IN (48));
  /* The left end slides a foot out: seams stay where they are in the room. */
  slid = dry_edit_move_wall (three, room, dry_test_wall (old, 'w'), -IN (12), &error);
  g_assert_no_error (error);
  g_assert_cmpint (dry_room_get_seam (dry_test_first_room (slid), upright)->at, ==, IN (52));
  g_assert_cmpint (dry_room_get_seam (dry_test_first_room (slid), level)->through, ==, IN (62));
  /* The wall goes, its seams go. */
  gone = dry_edit_remove (split, room, wall, &error);
  g_assert_no_error (error);
  g_assert_null (dry_room_get_seam (dry_test_first_room (gone), left));
  /* A second room like it has seams of its own. */
  other->id = 0;
  copy = dry_edit_set_room (three, other, &second, &error);
  g_assert_no_error (error);
  g_assert_cmpuint (dry_project_get_room (copy, second)->n_seams, ==, 3);
  g_assert_null (dry_room_get_seam (dry_project_get_room (copy, second), upright));
}

static void
test_on_hand (void)
{
  g_autoptr (DryProject) old = dry_project_new ();
  g_autoptr (GError) error = NULL;
  DryId room = dry_test_room (old);
  DryOnHand board = {.system = (char *) "foam-bands",
                     .width = IN (20),
                     .height = IN (30),
                     .count = 1,
                     .note = (char *) ""};
  g_autoptr (DryProject) one = dry_edit_set_on_hand (old, room, 0, &board, &error);
  g_autoptr (DryProject) two = NULL, three = NULL, four = NULL;

  g_assert_no_error (error);
  g_assert_null (dry_test_first_room (one)->on_hand[0].note);
  /* The same again only counts up. */
  two = dry_edit_set_on_hand (one, room, 1, &board, &error);
  g_assert_no_error (error);
  g_assert_cmpuint (dry_test_first_room (two)->n_on_hand, ==, 1);
  g_assert_cmpint (dry_test_first_room (two)->on_hand[0].count, ==, 2);
  board.height = IN (31);
  three = dry_edit_set_on_hand (two, room, 1, &board, &error);
  g_assert_no_error (error);
  g_assert_cmpuint (dry_test_first_room (three)->n_on_hand, ==, 2);
  four = dry_edit_remove_on_hand (three, room, 0, &error);
  g_assert_no_error (error);
  g_assert_cmpuint (dry_test_first_room (four)->n_on_hand, ==, 1);
  g_assert_cmpint (dry_test_first_room (four)->on_hand[0].height, ==, IN (31));
  g_assert_null (dry_edit_remove_on_hand (four, room, 1, &error));
  g_assert_error (error, DRY_ERROR, DRY_ERROR_REFERENCE);
  g_clear_error (&error);
  board.count = 0;
  g_assert_null (dry_edit_set_on_hand (four, room, 1, &board, &error));
  g_assert_error (error, DRY_ERROR, DRY_ERROR_LIMIT);
}

static void
test_file (void)
{
  g_autoptr (DryProject) old = dry_project_new ();
  g_autofree char *plain = dry_project_to_text (old, NULL);
  g_autoptr (DryProject) one = add_seam (old, 'n', FALSE, IN (24), IN (60), NULL);
  g_autoptr (DryProject) two = add_seam (one, 'e', TRUE, IN (48), IN (10), NULL);
  DryOnHand board = {.board = IN (0.5), .width = IN (20), .height = IN (30), .count = 3};
  g_autoptr (GError) error = NULL;
  g_autoptr (DryProject) three = dry_edit_set_on_hand (two, dry_test_room (old), 0, &board, &error);
  g_autofree char *text = dry_project_to_text (three, NULL), *again = NULL;
  g_autoptr (DryProject) read = NULL;

  /* Who wishes nothing has a file like before. */
  g_assert_null (strstr (plain, "\"seams\""));
  g_assert_null (strstr (plain, "\"on_hand\""));
  g_assert_nonnull (strstr (text, "\"direction\": \"level\""));
  read = dry_project_from_text (text, strlen (text), "test", &error);
  g_assert_no_error (error);
  again = dry_project_to_text (read, NULL);
  g_assert_cmpstr (text, ==, again);
  g_assert_cmpuint (dry_test_first_room (read)->n_seams, ==, 2);
  g_assert_true (dry_test_first_room (read)->seams[1].level);
  g_assert_cmpint (dry_test_first_room (read)->seams[1].at, ==, IN (48));
  g_assert_cmpint (dry_test_first_room (read)->on_hand[0].count, ==, 3);
  g_assert_cmpint (dry_test_first_room (read)->on_hand[0].board, ==, IN (0.5));
}

static void
test_file_refused (void)
{
  static const struct {
    const char *from, *to;
    gint code;
  } rows[] = {
      {"\"direction\": \"upright\"", "\"direction\": \"slanted\"", DRY_ERROR_SCHEMA},
      {"\"through\": 1524", "\"thru\": 1524", DRY_ERROR_SCHEMA},
      {"\"count\": 3", "\"count\": 0", DRY_ERROR_LIMIT},
      {"\"width\": 508", "\"width\": 0", DRY_ERROR_GEOMETRY},
  };
  g_autoptr (DryProject) old = dry_project_new ();
  g_autoptr (DryProject) one = add_seam (old, 'n', FALSE, IN (24), IN (60), NULL);
  DryOnHand board = {.width = IN (20), .height = IN (30), .count = 3};
  g_autoptr (DryProject) two = dry_edit_set_on_hand (one, dry_test_room (old), 0, &board, NULL);
  g_autofree char *text = dry_project_to_text (two, NULL);

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++) {
    g_auto (GStrv) parts = g_strsplit (text, rows[i].from, 2);
    g_autofree char *bad = g_strjoinv (rows[i].to, parts);
    g_autoptr (GError) error = NULL;

    g_assert_cmpuint (g_strv_length (parts), ==, 2);
    g_assert_null (dry_project_from_text (bad, strlen (bad), "test", &error));
    g_assert_nonnull (error);
    g_test_message ("%s", error->message);
    g_assert_cmpint (error->domain, ==, DRY_ERROR);
  }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/boards/seams-set", test_seams_set);
  g_test_add_func ("/boards/seams-refused", test_seams_refused);
  g_test_add_func ("/boards/seams-with-walls", test_seams_with_walls);
  g_test_add_func ("/boards/on-hand", test_on_hand);
  g_test_add_func ("/boards/file", test_file);
  g_test_add_func ("/boards/file-refused", test_file_refused);
  return g_test_run ();
}
