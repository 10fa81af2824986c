/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The check of a room finds each thing that is wrong with it and says where it stands: every row is
 * a whole room with one change. */
#include "project/room-check.h"

#include <string.h>

#include "base/error.h"
#include "project/file.h"

#include "full-room.h"

/* --- changes --- */

CHANGE (wall_twice, room->walls[1].id = room->walls[0].id)
CHANGE (opening_like_part, room->openings[0].id = room->parts[0].id)
CHANGE (opening_like_wall, room->openings[0].id = room->walls[4].id)
CHANGE (opening_nowhere, room->openings[0].wall = 9999)
CHANGE (basin_like_opening, room->basin.id = room->openings[0].id)
CHANGE (basin_nowhere, room->basin.wall = 9999)
CHANGE (basin_none, room->basin.id = 0)
CHANGE (seam_twice, room->seams[1].id = room->seams[0].id)
CHANGE (seam_nowhere, room->seams[1].wall = 9999)
CHANGE (no_id, room->id = 0)
CHANGE (wall_no_id, room->walls[4].id = 0)
CHANGE (two_walls, room->n_outline = 2)
CHANGE (more_outline, room->n_outline = room->n_walls + 1)
CHANGE (added_first, room->walls[1].added = TRUE)
CHANGE (outline_last, room->walls[4].added = FALSE)
CHANGE (too_many_walls, room->n_walls = DRY_MAX_WALLS + 1)
CHANGE (too_many_openings, room->n_openings = DRY_MAX_PARTS + 1)
CHANGE (too_many_parts, room->n_parts = DRY_MAX_PARTS + 1)
CHANGE (too_many_seams, room->n_seams = DRY_MAX_SEAMS + 1)
CHANGE (too_many_boards, room->n_on_hand = DRY_MAX_SEAMS + 1)
CHANGE (counter, for (guint i = 0; i < 4; i++) room->walls[i].start.x *= -1)
CHANGE (crossing, room->walls[0].start = (DryPoint){IN (90), IN (50)})
CHANGE (no_length, room->walls[4].end = room->walls[4].start)
CHANGE (glass_flat, room->parts[1].kind = DRY_PART_GLASS; room->parts[1].depth = 0)
CHANGE (bench_flat, room->parts[1].kind = DRY_PART_BENCH; room->parts[1].depth = 0)
CHANGE (opening_flat, room->openings[0].width = 0)
CHANGE (seam_high, room->seams[1].at = G_MAXINT64)
CHANGE (board_none, room->on_hand[0].count = 0)
CHANGE (basin_flat, room->basin.length = 0)
CHANGE (tile_narrow, room->finish.tile_width = IN (0.1))
CHANGE (tile_low, room->finish.tile_height = IN (0.1))
CHANGE (tile_none, room->finish.tiled = TRUE; room->finish.tile_width = 0)
CHANGE (tile_no_height, room->finish.tiled = TRUE; room->finish.tile_height = 0)
CHANGE (tile_narrow_bare, room->finish.tiled = FALSE; room->finish.tile_width = 1)
CHANGE (tile_low_bare, room->finish.tiled = FALSE; room->finish.tile_height = 1)
CHANGE (joists, room->joist_spacing = IN (1))
CHANGE (joists_least, room->joist_spacing = IN (2))
CHANGE (wet_below, room->wet.height = -1)
CHANGE (bare, room->finish.tiled = FALSE; room->finish.tile_width = room->finish.tile_height = 0)
CHANGE (kept_good, room->unknown = g_strdup ("{\"later\": 1}"))
CHANGE (kept_known, room->unknown = g_strdup ("{\"later\": 1, \"walls\": 1}"))
CHANGE (kept_list, room->unknown = g_strdup ("[1]"))
CHANGE (kept_text, room->unknown = g_strdup ("later"))
CHANGE (name_long, g_free (room->name); room->name = g_strnfill (4097, 'a'))
CHANGE (name_bytes, g_free (room->name); room->name = g_strdup ("\xff"))
CHANGE (stud_low, room->walls[0].found_studs = g_new0 (DryLength, 1);
        room->walls[0].found_studs[0] = -DRY_LENGTH_MAX; room->walls[0].n_found_studs = 1)
CHANGE (studs_many, room->walls[0].found_studs = g_new0 (DryLength, 1001);
        room->walls[0].n_found_studs = 1001)
CHANGE (start_high, room->walls[0].start.y = DRY_LENGTH_MAX + 1)

static void
test_room_check (void)
{
  static const struct {
    Change change;
    gint code; /* -1: nothing is wrong */
    const char *list;
    gint index;
    const char *words;
  } ROWS[] = {
      {no_id, DRY_ERROR_REFERENCE, NULL, -1, "id must not be 0"},
      {wall_no_id, DRY_ERROR_REFERENCE, "added_walls", 0, "id must not be 0"},
      {wall_twice, DRY_ERROR_REFERENCE, "walls", 1, "used twice"},
      {opening_like_part, DRY_ERROR_REFERENCE, "parts", 0, "used twice"},
      {opening_like_wall, DRY_ERROR_REFERENCE, "openings", 0, "used twice"},
      {basin_like_opening, DRY_ERROR_REFERENCE, "basin", -1, "used twice"},
      {seam_twice, DRY_ERROR_REFERENCE, "seams", 1, "used twice"},
      {two_walls, DRY_ERROR_GEOMETRY, "walls", -1, "has 2 walls"},
      {more_outline, DRY_ERROR_GEOMETRY, "walls", -1, "has 6 walls"},
      {added_first, DRY_ERROR_GEOMETRY, "walls", 1, "come first"},
      {outline_last, DRY_ERROR_GEOMETRY, "added_walls", 0, "come first"},
      {too_many_walls, DRY_ERROR_LIMIT, "walls", -1, "257 walls"},
      {too_many_openings, DRY_ERROR_LIMIT, "openings", -1, "2001 openings"},
      {too_many_parts, DRY_ERROR_LIMIT, "parts", -1, "2001 parts"},
      {too_many_seams, DRY_ERROR_LIMIT, "seams", -1, "501 wished seams"},
      {too_many_boards, DRY_ERROR_LIMIT, "on_hand", -1, "501 rows"},
      {counter, DRY_ERROR_GEOMETRY, "walls", -1, "clockwise"},
      {crossing, DRY_ERROR_GEOMETRY, "walls", -1, "crosses"},
      {no_length, DRY_ERROR_GEOMETRY, "added_walls", 0, "no length"},
      {start_high, DRY_ERROR_LIMIT, "walls", 0, "start is more than"},
      {stud_low, DRY_ERROR_GEOMETRY, "walls", 0, "found_studs"},
      {studs_many, DRY_ERROR_LIMIT, "walls", 0, "holds 1001 places"},
      {opening_flat, DRY_ERROR_GEOMETRY, "openings", 0, "width must be more than zero"},
      {opening_nowhere, DRY_ERROR_REFERENCE, "openings", 0, "no wall 9999"},
      {basin_flat, DRY_ERROR_GEOMETRY, "basin", -1, "length must be more than zero"},
      {basin_nowhere, DRY_ERROR_REFERENCE, "basin", -1, "no wall 9999"},
      {glass_flat, DRY_ERROR_GEOMETRY, "parts", 1, "depth of a"},
      {bench_flat, DRY_ERROR_GEOMETRY, "parts", 1, "depth of a"},
      {seam_high, DRY_ERROR_LIMIT, "seams", 1, "at is more than"},
      {seam_nowhere, DRY_ERROR_REFERENCE, "seams", 1, "no wall 9999"},
      {board_none, DRY_ERROR_LIMIT, "on_hand", 0, "count must be from 1"},
      {tile_narrow, DRY_ERROR_GEOMETRY, "finish", -1, "tile_width must be at least 5 mm"},
      {tile_low, DRY_ERROR_GEOMETRY, "finish", -1, "tile_height must be at least 5 mm"},
      {tile_none, DRY_ERROR_GEOMETRY, "finish", -1, "tile_width must be at least 5 mm"},
      {tile_no_height, DRY_ERROR_GEOMETRY, "finish", -1, "tile_height must be at least 5 mm"},
      {tile_narrow_bare, DRY_ERROR_GEOMETRY, "finish", -1, "tile_width must be at least 5 mm"},
      {tile_low_bare, DRY_ERROR_GEOMETRY, "finish", -1, "tile_height must be at least 5 mm"},
      {joists, DRY_ERROR_GEOMETRY, NULL, -1, "joist_spacing"},
      {wet_below, DRY_ERROR_GEOMETRY, "wet", -1, "height must not be negative"},
      {kept_known, DRY_ERROR_SCHEMA, NULL, -1, "no JSON object of unknown fields"},
      {kept_list, DRY_ERROR_SCHEMA, NULL, -1, "no JSON object of unknown fields"},
      {kept_text, DRY_ERROR_SCHEMA, NULL, -1, "no JSON object of unknown fields"},
      {name_long, DRY_ERROR_LIMIT, NULL, -1, "name is longer than 4096 bytes"},
      {name_bytes, DRY_ERROR_TEXT, NULL, -1, "name is not UTF-8"},
      {bare, -1, NULL, -1, NULL},
      {joists_least, -1, NULL, -1, NULL},
      {kept_good, -1, NULL, -1, NULL},
      {basin_none, -1, NULL, -1, NULL},
  };
  g_autoptr (DryProject) old = full_room_new ();

  for (guint i = 0; i < G_N_ELEMENTS (ROWS); i++) {
    DryRoom *room = dry_room_copy (dry_project_get_room_at (old, 0));
    DryRoom whole = *room; /* its counts, so that all of it can be freed */
    DryProblem problem = {0};
    gboolean good;

    ROWS[i].change (room);
    good = dry_room_check (room, &problem);
    g_test_message ("row %u: %s", i, good ? "good" : problem.message);
    g_assert_true (good == (ROWS[i].code == -1));
    if (!good) {
      g_assert_cmpint (problem.code, ==, ROWS[i].code);
      g_assert_cmpstr (problem.list, ==, ROWS[i].list);
      g_assert_cmpint (problem.index, ==, ROWS[i].index);
      g_assert_nonnull (strstr (problem.message, ROWS[i].words));
    }
    dry_problem_clear (&problem);
    room->n_walls = whole.n_walls;
    room->n_openings = whole.n_openings;
    room->n_parts = whole.n_parts;
    room->n_seams = whole.n_seams;
    room->n_on_hand = whole.n_on_hand;
    dry_room_free (room);
  }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/room-check/rows", test_room_check);
  return g_test_run ();
}
