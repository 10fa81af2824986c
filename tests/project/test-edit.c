/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Edits of values and objects: what they change, what they refuse and with which words, and that
 * the project passed in is never touched. */
#include "base/error.h"
#include <string.h>
#include "project/file.h"
#include "support/fixtures.h"

#define IN(x) ((DryLength) ((x) *25400000.0))

static const DryPart niche = {.kind = DRY_PART_NICHE,
                              .u = IN (24),
                              .z = IN (48),
                              .width = IN (12),
                              .height = IN (20),
                              .depth = IN (3),
                              .site_built = TRUE};

/* --- parts --- */

static void
test_parts_added (void)
{
  g_autoptr (DryProject) old = dry_project_new ();
  g_autofree char *before = dry_project_to_text (old, NULL);
  g_autofree char *after = NULL;
  g_autoptr (DryProject) one = NULL, two = NULL;
  g_autoptr (GError) error = NULL;
  DryPart part = niche;
  DryId id = 0, first;

  part.wall = dry_test_wall (old, 'n');
  part.label = (char *) "";
  one = dry_edit_set_part (old, dry_test_room (old), &part, &id, &error);
  g_assert_no_error (error);
  first = id;
  g_assert_cmpuint (id, ==, dry_project_get_next_id (old));
  g_assert_cmpuint (dry_project_get_next_id (one), ==, id + 1);
  /* An empty label is none. */
  g_assert_null (dry_test_first_room (one)->parts[0].label);
  part.id = id;
  part.z = IN (50);
  part.label = (char *) "Soap";
  two = dry_edit_set_part (one, dry_test_room (one), &part, &id, &error);
  g_assert_no_error (error);
  g_assert_cmpuint (id, ==, first);
  g_assert_cmpuint (dry_test_first_room (two)->n_parts, ==, 1);
  g_assert_cmpstr (dry_test_first_room (two)->parts[0].label, ==, "Soap");
  g_assert_cmpint (dry_test_first_room (one)->parts[0].z, ==, IN (48));
  after = dry_project_to_text (old, NULL);
  g_assert_cmpstr (before, ==, after);
}

static void
test_parts_refused (void)
{
  static const struct {
    DryPart part;
    gint code;
    const char *words;
  } rows[] = {
      {{.width = 0}, DRY_ERROR_GEOMETRY, "Bathroom, part 1: width must be more than zero."},
      {{.width = -1}, DRY_ERROR_GEOMETRY, "width must be more than zero"},
      {{.width = 1, .height = G_MAXINT64}, DRY_ERROR_LIMIT, "height is more than 30000 mm"},
      {{.width = 1, .height = 1}, DRY_ERROR_GEOMETRY, "depth of a niche must be more than zero"},
      {{.width = 1, .height = 1, .depth = 1, .z = -1},
       DRY_ERROR_GEOMETRY,
       "z must not be negative"},
      {{.width = 1, .height = 1, .depth = 1, .u = G_MININT64},
       DRY_ERROR_GEOMETRY,
       "u is less than -1000000 mm"},
      {{.width = 1, .height = 1, .depth = 1, .wall = 99},
       DRY_ERROR_REFERENCE,
       "the room has no wall 99"},
      {{.width = 1, .height = 1, .depth = 1, .side = DRY_SIDE_OUTSIDE},
       DRY_ERROR_REFERENCE,
       "has only an inside"},
      {{.width = 1, .height = 1, .depth = 1, .kind = (DryPartKind) 77},
       DRY_ERROR_LIMIT,
       "kind must be from 0 to 10"},
      {{.width = 1, .height = 1, .depth = 1, .id = 99},
       DRY_ERROR_REFERENCE,
       "no part 99 to replace"},
      {{.width = 1, .height = 1, .depth = 1, .label = (char *) "\xff"},
       DRY_ERROR_TEXT,
       "label is not UTF-8"},
      {{.width = 1, .height = 1, .depth = 1, .pitch = 0.0 / 0.0},
       DRY_ERROR_LIMIT,
       "pitch must be from -1 to 1"},
      {{.width = 1, .height = 1, .depth = 1, .flow_lpm = 1e300}, DRY_ERROR_LIMIT, "flow"},
  };
  g_autoptr (DryProject) old = dry_project_new ();

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++) {
    DryPart part = rows[i].part;
    GError *error = NULL;

    if (part.wall == 0)
      part.wall = dry_test_wall (old, 'n');
    dry_test_refused (dry_edit_set_part (old, dry_test_room (old), &part, NULL, &error), &error,
                      rows[i].code, rows[i].words);
  }
}

/* Unwise is not refused: these are findings. */
static void
test_unwise_is_allowed (void)
{
  g_autoptr (DryProject) old = dry_project_new ();
  g_autoptr (DryProject) one = NULL, two = NULL;
  g_autoptr (GError) error = NULL;
  DryPart part = niche;

  part.wall = dry_test_wall (old, 'n');
  part.width = IN (600);
  part.height = IN (400);
  one = dry_edit_set_part (old, dry_test_room (old), &part, NULL, &error);
  g_assert_no_error (error);
  part.u = IN (-300);
  two = dry_edit_set_part (one, dry_test_room (one), &part, NULL, &error);
  g_assert_no_error (error);
  g_assert_cmpuint (dry_test_first_room (two)->n_parts, ==, 2);
}

static void
test_move_part (void)
{
  /* A niche of 12 x 20 on a wall of 60 x 96. */
  static const struct {
    double u, z, moved_u, moved_z;
  } rows[] = {
      {20, 30, 20, 30}, {2, 50, 6, 50},     {59, 50, 54, 50},   {20, -5, 20, 0},
      {20, 90, 20, 76}, {-500, -500, 6, 0}, {1e5, 1e5, 54, 76}, {6, 76, 6, 76},
  };
  g_autoptr (DryProject) old = dry_test_furnished_alcove ("foam-bands");
  DryId room = dry_test_room (old), north = dry_test_wall (old, 'n');
  DryId id = dry_test_first_room (old)->parts[0].id;
  GError *error = NULL;

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++) {
    g_autoptr (DryProject) new = dry_edit_move_part (old, room, id, north, DRY_SIDE_INSIDE,
                                                     IN (rows[i].u), IN (rows[i].z), &error);

    g_assert_no_error (error);
    g_assert_cmpint (dry_test_first_room (new)->parts[0].u, ==, IN (rows[i].moved_u));
    g_assert_cmpint (dry_test_first_room (new)->parts[0].z, ==, IN (rows[i].moved_z));
  }
  dry_test_refused (dry_edit_move_part (old, room, id, 99, DRY_SIDE_INSIDE, 0, 0, &error), &error,
                    DRY_ERROR_REFERENCE, "no wall 99");
  dry_test_refused (dry_edit_move_part (old, room, id, north, DRY_SIDE_OUTSIDE, 0, 0, &error),
                    &error, DRY_ERROR_REFERENCE, "only an inside");
  dry_test_refused (dry_edit_move_part (old, room, 99, north, DRY_SIDE_INSIDE, 0, 0, &error),
                    &error, DRY_ERROR_REFERENCE, "no part or opening 99");
}

static void
test_move_opening (void)
{
  g_autoptr (DryProject) old = dry_test_load ("two-bath-house.drybay");
  const DryRoom *room = dry_test_first_room (old);
  const DryOpening *window = &room->openings[0];
  g_autoptr (GError) error = NULL;
  g_autoptr (DryProject) far = dry_edit_move_part (old, room->id, window->id, room->walls[0].id,
                                                   DRY_SIDE_INSIDE, IN (500), IN (90), &error);
  /* On the half wall, 32 in long and 42 in high, seen from behind. */
  g_autoptr (DryProject) behind = dry_edit_move_part (old, room->id, window->id, room->walls[4].id,
                                                      DRY_SIDE_OUTSIDE, IN (2), IN (10), &error);

  g_assert_no_error (error);
  g_assert_cmpint (dry_test_first_room (far)->openings[0].u, ==, IN (84 - 24));
  g_assert_cmpint (dry_test_first_room (far)->openings[0].z, ==, IN (96 - 24));
  g_assert_cmpint (dry_test_first_room (behind)->openings[0].u, ==, IN (32 - 24 - 2));
  g_assert_cmpint (dry_test_first_room (behind)->openings[0].z, ==, IN (10));
}

static void
test_duplicate (void)
{
  g_autoptr (DryProject) old = dry_test_furnished_alcove ("foam-bands");
  DryId room = dry_test_room (old), id = dry_test_first_room (old)->parts[0].id, copy;
  g_autoptr (DryProject) one = NULL, two = NULL, three = NULL, four = NULL;
  GError *error = NULL;

  /* The niche spans 18 to 30: first to its right, two inches off, then to its left, ... */
  one = dry_edit_duplicate (old, room, id, &copy, &error);
  g_assert_no_error (error);
  g_assert_cmpint (dry_room_get_part (dry_test_first_room (one), copy)->u, ==, IN (38));
  two = dry_edit_duplicate (one, room, id, &copy, &error);
  g_assert_no_error (error);
  g_assert_cmpint (dry_room_get_part (dry_test_first_room (two), copy)->u, ==, IN (52));
  three = dry_edit_duplicate (two, room, id, &copy, &error);
  g_assert_no_error (error);
  g_assert_cmpint (dry_room_get_part (dry_test_first_room (three), copy)->u, ==, IN (10));
  /* ... and on a full wall beside it all the same. */
  four = dry_edit_duplicate (three, room, id, &copy, &error);
  g_assert_no_error (error);
  g_assert_cmpint (dry_room_get_part (dry_test_first_room (four), copy)->u, ==, IN (36));
  dry_test_refused (dry_edit_duplicate (old, room, 99, NULL, &error), &error, DRY_ERROR_REFERENCE,
                    "no part or opening 99");
  dry_test_refused (dry_edit_duplicate (old, 99, id, NULL, &error), &error, DRY_ERROR_REFERENCE,
                    "no room 99");
}

/* --- the rest of a room --- */

static void
test_basin (void)
{
  g_autoptr (DryProject) old = dry_project_new ();
  DryId room = dry_test_room (old), id;
  DryBasin basin = dry_test_first_room (old)->basin;
  g_autoptr (DryProject) moved = NULL, removed = NULL, again = NULL;
  GError *error = NULL;

  moved = dry_edit_move_basin (old, room, dry_test_wall (old, 'e'), IN (3), IN (1), TRUE, &error);
  g_assert_no_error (error);
  g_assert_true (dry_test_first_room (moved)->basin.turned);
  removed = dry_edit_remove (old, room, basin.id, &error);
  g_assert_no_error (error);
  g_assert_cmpuint (dry_test_first_room (removed)->basin.id, ==, 0);
  dry_test_refused (
      dry_edit_move_basin (removed, room, dry_test_wall (old, 'e'), 0, 0, FALSE, &error), &error,
      DRY_ERROR_REFERENCE, "no tub or pan");
  dry_test_refused (dry_edit_set_basin (removed, room, &basin, NULL, &error), &error,
                    DRY_ERROR_REFERENCE, "to replace");
  basin.id = 0;
  again = dry_edit_set_basin (removed, room, &basin, &id, &error);
  g_assert_no_error (error);
  g_assert_cmpuint (dry_test_first_room (again)->basin.id, ==, id);
  basin.height = 0;
  dry_test_refused (dry_edit_set_basin (old, room, &basin, NULL, &error), &error,
                    DRY_ERROR_GEOMETRY, "basin: height of a tub's rim");
  basin.height = IN (4);
  basin.wall = 99;
  dry_test_refused (dry_edit_set_basin (old, room, &basin, NULL, &error), &error,
                    DRY_ERROR_REFERENCE, "basin: the room has no wall 99");
}

static void
test_job_and_finish (void)
{
  g_autoptr (DryProject) old = dry_project_new ();
  DryId room = dry_test_room (old);
  DryJob job = *dry_project_get_job (old);
  DryFinish finish = dry_test_first_room (old)->finish;
  DryWetZone wet = {.height = -1};
  g_autoptr (DryProject) new = NULL;
  GError *error = NULL;

  job.title = (char *) "Größe 2";
  job.metric = 7; /* any TRUE */
  new = dry_edit_set_job (old, &job, &error);
  g_assert_no_error (error);
  g_assert_cmpstr (dry_project_get_job (new)->title, ==, "Größe 2");
  /* The rooms are shared, not copied. */
  g_assert_true (dry_test_first_room (new) == dry_test_first_room (old));
  job.denominator = 10;
  dry_test_refused (dry_edit_set_job (old, &job, &error), &error, DRY_ERROR_LIMIT,
                    "8, 16, 32 or 64");
  job.denominator = 16;
  job.temperature = 1e9;
  dry_test_refused (dry_edit_set_job (old, &job, &error), &error, DRY_ERROR_LIMIT, "temperature");
  job.temperature = 21;
  job.rule_pack = NULL;
  dry_test_refused (dry_edit_set_job (old, &job, &error), &error, DRY_ERROR_REFERENCE,
                    "rule_pack is empty");
  finish.system = NULL;
  dry_test_refused (dry_edit_set_finish (old, room, &finish, &error), &error, DRY_ERROR_REFERENCE,
                    "system is empty");
  finish.system = (char *) "foam-bands";
  finish.tile_width = 1;
  dry_test_refused (dry_edit_set_finish (old, room, &finish, &error), &error, DRY_ERROR_GEOMETRY,
                    "at least 5 mm");
  dry_test_refused (dry_edit_set_wet_zone (old, room, &wet, &error), &error, DRY_ERROR_GEOMETRY,
                    "wet: height must not be negative");
}

static void
test_walls_and_openings (void)
{
  g_autoptr (DryProject) old = dry_project_new ();
  DryId room = dry_test_room (old), id, door_id;
  DryWall wall = dry_test_first_room (old)->walls[0];
  DryWall half = {.added = TRUE,
                  .start = {IN (30), IN (50)},
                  .end = {IN (30), IN (20)},
                  .stud_width = IN (1.5),
                  .stud_depth = IN (3.5),
                  .stud_spacing = IN (16),
                  .height = IN (42)};
  DryOpening door = {.width = IN (30), .height = IN (80)};
  DryPart part = niche;
  g_autoptr (DryProject) named = NULL, added = NULL, opened = NULL, hung = NULL, bare = NULL;
  GError *error = NULL;

  wall.name = (char *) "Street side";
  wall.start = wall.end; /* an outline wall's place is not set here */
  named = dry_edit_set_wall (old, room, &wall, NULL, &error);
  g_assert_no_error (error);
  g_assert_cmpstr (dry_test_first_room (named)->walls[0].name, ==, "Street side");
  g_assert_cmpint (dry_test_first_room (named)->walls[0].start.x, ==, 0);
  wall.stud_spacing = 1;
  dry_test_refused (dry_edit_set_wall (old, room, &wall, NULL, &error), &error, DRY_ERROR_GEOMETRY,
                    "wall 1: stud_spacing is less than 50.8 mm");
  wall = dry_test_first_room (old)->walls[0];
  wall.found_studs = (DryLength[]){IN (10), IN (10)};
  wall.n_found_studs = 2;
  dry_test_refused (dry_edit_set_wall (old, room, &wall, NULL, &error), &error, DRY_ERROR_GEOMETRY,
                    "found_studs must ascend");

  added = dry_edit_set_wall (old, room, &half, &id, &error);
  g_assert_no_error (error);
  door.wall = id;
  opened = dry_edit_set_opening (added, room, &door, &door_id, &error);
  g_assert_no_error (error);
  part.wall = id;
  part.side = DRY_SIDE_OUTSIDE;
  hung = dry_edit_set_part (opened, room, &part, NULL, &error);
  g_assert_no_error (error);
  bare = dry_edit_remove (hung, room, id, &error);
  g_assert_no_error (error);
  g_assert_cmpuint (dry_test_first_room (bare)->n_walls, ==, 4);
  g_assert_cmpuint (dry_test_first_room (bare)->n_parts + dry_test_first_room (bare)->n_openings,
                    ==, 0);
  half.end = half.start;
  dry_test_refused (dry_edit_set_wall (old, room, &half, NULL, &error), &error, DRY_ERROR_GEOMETRY,
                    "added wall 1: the wall has no length");
  half.added = FALSE;
  dry_test_refused (dry_edit_set_wall (old, room, &half, NULL, &error), &error, DRY_ERROR_GEOMETRY,
                    "inserting a corner");
  door.id = 99;
  dry_test_refused (dry_edit_set_opening (old, room, &door, NULL, &error), &error,
                    DRY_ERROR_REFERENCE, "no opening 99");
  dry_test_refused (dry_edit_remove (old, room, 99, &error), &error, DRY_ERROR_REFERENCE,
                    "no object 99");
  dry_test_refused (dry_edit_remove (old, room, 0, &error), &error, DRY_ERROR_REFERENCE,
                    "no object 0");
}

static void
test_rooms (void)
{
  g_autoptr (DryProject) old = dry_test_load ("two-bath-house.drybay");
  const DryRoom *first = dry_test_first_room (old);
  g_autoptr (DryRoom) copy = dry_room_copy (first);
  g_autoptr (DryProject) added = NULL, changed = NULL, removed = NULL;
  const DryRoom *third;
  GError *error = NULL;
  DryId id;

  copy->id = 0;
  added = dry_edit_set_room (old, copy, &id, &error);
  g_assert_no_error (error);
  g_assert_cmpuint (dry_project_get_n_rooms (added), ==, 3);
  third = dry_project_get_room (added, id);
  /* New ids throughout, and what hung on a wall hangs on its copy. */
  g_assert_cmpuint (third->walls[0].id, >=, dry_project_get_next_id (old));
  g_assert_cmpuint (third->basin.wall, ==, third->walls[0].id);
  g_assert_cmpuint (third->parts[0].wall, ==, third->walls[3].id);
  /* An edit leaves the other rooms shared. */
  g_assert_true (dry_project_get_room_at (added, 1) == dry_project_get_room_at (old, 1));

  copy->id = first->id;
  copy->ceiling = IN (90);
  changed = dry_edit_set_room (old, copy, NULL, &error);
  g_assert_no_error (error);
  g_assert_cmpint (dry_test_first_room (changed)->ceiling, ==, IN (90));
  copy->parts[0].id = 9999;
  dry_test_refused (dry_edit_set_room (old, copy, NULL, &error), &error, DRY_ERROR_REFERENCE,
                    "no object 9999");
  copy->parts[0].id = copy->parts[1].id;
  dry_test_refused (dry_edit_set_room (old, copy, NULL, &error), &error, DRY_ERROR_REFERENCE,
                    "used twice");
  copy->id = 9999;
  dry_test_refused (dry_edit_set_room (old, copy, NULL, &error), &error, DRY_ERROR_REFERENCE,
                    "no room 9999");
  copy->id = 0;
  copy->parts[0].wall = 9999;
  dry_test_refused (dry_edit_set_room (old, copy, NULL, &error), &error, DRY_ERROR_REFERENCE,
                    "no wall 9999");

  removed = dry_edit_remove_room (old, first->id, &error);
  g_assert_no_error (error);
  g_assert_cmpuint (dry_project_get_n_rooms (removed), ==, 1);
  dry_test_refused (dry_edit_remove_room (removed, dry_test_first_room (removed)->id, &error),
                    &error, DRY_ERROR_LIMIT, "at least one room");
  dry_test_refused (dry_edit_remove_room (removed, 9999, &error), &error, DRY_ERROR_REFERENCE,
                    "no room 9999");
}

static void
test_part_limit (void)
{
  g_autoptr (DryProject) old = dry_project_new ();
  g_autoptr (DryRoom) room = dry_room_copy (dry_test_first_room (old));
  g_autoptr (DryProject) full = NULL;
  GError *error = NULL;
  DryPart part = niche;

  room->n_parts = DRY_MAX_PARTS;
  room->parts = g_new (DryPart, room->n_parts);
  part.wall = dry_test_wall (old, 'n');
  for (guint i = 0; i < room->n_parts; i++)
    room->parts[i] = part;
  full = dry_edit_set_room (old, room, NULL, &error);
  g_assert_no_error (error);
  dry_test_refused (dry_edit_set_part (full, room->id, &part, NULL, &error), &error,
                    DRY_ERROR_LIMIT, "parts: 2001 parts; a room may have at most 2000");
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/edit/parts-added", test_parts_added);
  g_test_add_func ("/edit/parts-refused", test_parts_refused);
  g_test_add_func ("/edit/unwise-is-allowed", test_unwise_is_allowed);
  g_test_add_func ("/edit/move-part", test_move_part);
  g_test_add_func ("/edit/move-opening", test_move_opening);
  g_test_add_func ("/edit/duplicate", test_duplicate);
  g_test_add_func ("/edit/basin", test_basin);
  g_test_add_func ("/edit/job-and-finish", test_job_and_finish);
  g_test_add_func ("/edit/walls-and-openings", test_walls_and_openings);
  g_test_add_func ("/edit/rooms", test_rooms);
  g_test_add_func ("/edit/part-limit", test_part_limit);
  return g_test_run ();
}
