/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Edits of the outline: what stays where, what is refused, and that a rectangle stays one. */
#include "base/error.h"
#include <string.h>
#include "support/fixtures.h"

#define IN(x) ((DryLength) ((x) *25400000.0))

static void
assert_corners (const DryProject *project, const double *corners, guint n)
{
  const DryRoom *room = dry_test_first_room (project);

  g_assert_cmpuint (room->n_outline, ==, n);
  for (guint i = 0; i < n; i++) {
    g_assert_cmpint (room->walls[i].start.x, ==, IN (corners[2 * i]));
    g_assert_cmpint (room->walls[i].start.y, ==, IN (corners[2 * i + 1]));
    g_assert_cmpint (room->walls[i].end.x, ==, IN (corners[2 * ((i + 1) % n)]));
    g_assert_cmpint (room->walls[i].end.y, ==, IN (corners[2 * ((i + 1) % n) + 1]));
  }
}

static void
test_wall_length (void)
{
  static const struct {
    char wall;
    double length;
    double corners[8];
  } rows[] = {
      {'n', 66, {0, 96, 66, 96, 66, 0, 0, 0}},
      {'n', 48.5, {0, 96, 48.5, 96, 48.5, 0, 0, 0}},
      {'e', 100, {0, 96, 60, 96, 60, -4, 0, -4}},
      /* The south wall grows to the west and takes the whole west wall along. */
      {'s', 72, {-12, 96, 60, 96, 60, 0, -12, 0}},
      {'w', 90, {0, 90, 60, 90, 60, 0, 0, 0}},
  };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++) {
    g_autoptr (DryProject) old = dry_project_new ();
    g_autoptr (GError) error = NULL;
    g_autoptr (DryProject) new = dry_edit_set_wall_length (
        old, dry_test_room (old), dry_test_wall (old, rows[i].wall), IN (rows[i].length), &error);

    g_assert_no_error (error);
    assert_corners (new, rows[i].corners, 4);
  }
}

static void
test_wall_length_refused (void)
{
  g_autoptr (DryProject) old = dry_project_new ();
  DryId room = dry_test_room (old), north = dry_test_wall (old, 'n');
  GError *error = NULL;

  dry_test_refused (dry_edit_set_wall_length (old, room, north, 0, &error), &error,
                    DRY_ERROR_GEOMETRY, "longer than nothing");
  dry_test_refused (dry_edit_set_wall_length (old, room, north, G_MAXINT64, &error), &error,
                    DRY_ERROR_LIMIT, "1 km");
  dry_test_refused (dry_edit_set_wall_length (old, room, 77, DRY_INCH, &error), &error,
                    DRY_ERROR_REFERENCE, "no wall 77");
  dry_test_refused (dry_edit_set_wall_length (old, 77, north, DRY_INCH, &error), &error,
                    DRY_ERROR_REFERENCE, "no room 77");
}

static void
test_set_outline (void)
{
  g_autoptr (DryProject) old = dry_test_furnished_alcove ("foam-bands");
  DryId room = dry_test_room (old);
  const DryPoint ell[] = {
      {0, 0},       {IN (60), 0}, {IN (60), IN (96)}, {IN (30), IN (96)}, {IN (30), IN (120)},
      {0, IN (120)}};
  const DryPoint triangle[] = {{0, 0}, {0, IN (90)}, {IN (90), 0}};
  const DryPoint cross[] = {{0, 0}, {IN (60), IN (96)}, {IN (60), 0}, {0, IN (96)}};
  const DryPoint flat[] = {{0, 0}, {IN (60), 0}, {IN (30), 0}};
  const DryPoint twice[] = {{0, 0}, {0, IN (90)}, {0, IN (90)}, {IN (90), 0}};
  g_autoptr (DryProject) new = NULL, three = NULL;
  GError *error = NULL;

  /* Given counter-clockwise; stored clockwise from the same corner. */
  new = dry_edit_set_outline (old, room, ell, 6, &error);
  g_assert_no_error (error);
  assert_corners (new, (const double[]){0, 0, 0, 120, 30, 120, 30, 96, 60, 96, 60, 0}, 6);
  /* The east wall's segment is still there, so is what hangs on it. */
  g_assert_cmpint (dry_room_get_wall (dry_test_first_room (new), dry_test_wall (old, 'e'))->start.x,
                   ==, IN (60));
  g_assert_true (dry_room_get_wall (dry_test_first_room (new), dry_test_wall (old, 'e'))->plumbing);
  three = dry_edit_set_outline (old, room, triangle, 3, &error);
  g_assert_no_error (error);
  g_assert_cmpuint (dry_test_first_room (three)->n_outline, ==, 3);

  dry_test_refused (dry_edit_set_outline (old, room, cross, 4, &error), &error, DRY_ERROR_GEOMETRY,
                    "crosses or touches");
  dry_test_refused (dry_edit_set_outline (old, room, flat, 3, &error), &error, DRY_ERROR_GEOMETRY,
                    "outline");
  dry_test_refused (dry_edit_set_outline (old, room, twice, 4, &error), &error, DRY_ERROR_GEOMETRY,
                    "no length");
  dry_test_refused (dry_edit_set_outline (old, room, ell, 2, &error), &error, DRY_ERROR_GEOMETRY,
                    "from 3 to");
  dry_test_refused (dry_edit_set_outline (old, room, NULL, 100000, &error), &error, DRY_ERROR_LIMIT,
                    "not 100000");
}

static void
test_corners (void)
{
  g_autoptr (DryProject) old = dry_test_furnished_alcove ("foam-bands");
  DryId room = dry_test_room (old), east = dry_test_wall (old, 'e'), added;
  g_autoptr (DryProject) moved = NULL, split = NULL, joined = NULL;
  GError *error = NULL;

  moved = dry_edit_move_corner (old, room, east, (DryPoint){IN (64), IN (98)}, &error);
  g_assert_no_error (error);
  assert_corners (moved, (const double[]){0, 96, 64, 98, 60, 0, 0, 0}, 4);
  dry_test_refused (dry_edit_move_corner (old, room, east, (DryPoint){IN (-10), IN (-10)}, &error),
                    &error, DRY_ERROR_GEOMETRY, "outline");
  dry_test_refused (dry_edit_move_corner (old, room, east, (DryPoint){G_MAXINT64, 0}, &error),
                    &error, DRY_ERROR_LIMIT, "1 km");
  dry_test_refused (dry_edit_move_corner (old, room, east, (DryPoint){0, G_MININT64}, &error),
                    &error, DRY_ERROR_LIMIT, "1 km");

  /* Fittings at 15 in stay on the left piece or go to the right one. */
  split = dry_edit_insert_corner (old, room, east, IN (10), &added, &error);
  g_assert_no_error (error);
  assert_corners (split, (const double[]){0, 96, 60, 96, 60, 86, 60, 0, 0, 0}, 5);
  g_assert_cmpuint (dry_test_first_room (split)->walls[2].id, ==, added);
  for (guint i = 1; i < 4; i++) {
    g_assert_cmpuint (dry_test_first_room (split)->parts[i].wall, ==, added);
    g_assert_cmpint (dry_test_first_room (split)->parts[i].u, ==, IN (5));
  }
  /* Studs at 7, 23, ... run on: 13 in from the new corner. */
  g_assert_cmpint (dry_test_first_room (split)->walls[2].first_stud, ==, IN (13));
  g_assert_cmpint (dry_test_first_room (split)->walls[1].first_stud, ==, IN (7));

  joined = dry_edit_remove (split, room, east, &error);
  g_assert_no_error (error);
  assert_corners (joined, (const double[]){0, 96, 60, 96, 60, 0, 0, 0}, 4);
  g_assert_cmpuint (dry_test_first_room (joined)->n_parts, ==, 4);

  dry_test_refused (dry_edit_insert_corner (old, room, east, IN (96), NULL, &error), &error,
                    DRY_ERROR_GEOMETRY, "between the wall's ends");
  dry_test_refused (dry_edit_insert_corner (old, room, east, 0, NULL, &error), &error,
                    DRY_ERROR_GEOMETRY, "between the wall's ends");
}

static void
test_split_found_studs (void)
{
  g_autoptr (DryProject) old = dry_test_load ("02-old-house.drybay");
  DryId room = dry_test_room (old), east = dry_test_wall (old, 'e');
  g_autoptr (GError) error = NULL;
  g_autoptr (DryProject) new = dry_edit_insert_corner (old, room, east, IN (40), NULL, &error);
  const DryWall *walls = dry_test_first_room (new)->walls;

  g_assert_no_error (error);
  g_assert_cmpuint (walls[1].n_found_studs, ==, 2);
  g_assert_cmpuint (walls[2].n_found_studs, ==, 2);
  g_assert_cmpint (walls[2].found_studs[0], ==, IN (56.6875) - IN (40));
}

static void
test_remove_walls (void)
{
  const DryPoint neo[] = {
      {0, IN (38)}, {IN (38), IN (38)}, {IN (38), IN (22)}, {IN (16), 0}, {0, 0}};
  g_autoptr (DryProject) old = dry_test_furnished_alcove ("foam-bands");
  DryId room = dry_test_room (old);
  g_autoptr (DryProject) angled = NULL, square = NULL, three = NULL;
  GError *error = NULL;

  angled = dry_edit_set_outline (old, room, neo, 5, &error);
  g_assert_no_error (error);
  /* The cut-off corner becomes whole. */
  square = dry_edit_remove (angled, room, dry_test_first_room (angled)->walls[2].id, &error);
  g_assert_no_error (error);
  assert_corners (square, (const double[]){0, 38, 38, 38, 38, 0, 0, 0}, 4);
  /* Between parallel neighbours the corner where it began goes; what hung on it goes, too. */
  three = dry_edit_remove (old, room, dry_test_wall (old, 'e'), &error);
  g_assert_no_error (error);
  assert_corners (three, (const double[]){0, 96, 60, 0, 0, 0}, 3);
  g_assert_cmpuint (dry_test_first_room (three)->n_parts, ==, 1);
  g_assert_cmpuint (dry_test_first_room (three)->basin.id, !=, 0);
  dry_test_refused (dry_edit_remove (three, room, dry_test_first_room (three)->walls[0].id, &error),
                    &error, DRY_ERROR_GEOMETRY, "at least three");
}

static void
test_move_wall (void)
{
  g_autoptr (DryProject) old = dry_project_new ();
  DryId room = dry_test_room (old), north = dry_test_wall (old, 'n'), right;
  g_autoptr (DryProject) in = NULL, out = NULL, split = NULL, jog = NULL, still = NULL;
  GError *error = NULL;

  in = dry_edit_move_wall (old, room, north, IN (6), &error);
  g_assert_no_error (error);
  assert_corners (in, (const double[]){0, 90, 60, 90, 60, 0, 0, 0}, 4);
  out = dry_edit_move_wall (in, room, north, IN (-6), &error);
  g_assert_no_error (error);
  g_assert_true (dry_project_equal (out, old));
  /* A wall that runs straight on into its neighbour leaves a short wall behind. */
  split = dry_edit_insert_corner (old, room, north, IN (40), &right, &error);
  g_assert_no_error (error);
  jog = dry_edit_move_wall (split, room, right, IN (6), &error);
  g_assert_no_error (error);
  assert_corners (jog, (const double[]){0, 96, 40, 96, 40, 90, 60, 90, 60, 0, 0, 0}, 6);
  still = dry_edit_move_wall (split, room, right, 0, &error);
  g_assert_no_error (error);
  g_assert_true (dry_project_equal (still, split));
  dry_test_refused (dry_edit_move_wall (old, room, north, IN (96), &error), &error,
                    DRY_ERROR_GEOMETRY, "");
  dry_test_refused (dry_edit_move_wall (old, room, north, IN (120), &error), &error,
                    DRY_ERROR_GEOMETRY, "outline");
  dry_test_refused (dry_edit_move_wall (old, room, north, G_MININT64, &error), &error,
                    DRY_ERROR_LIMIT, "1 km");
}

/* A valve on the east wall 81 in north of the south-east corner, as in the furnished alcove: where
 * is it afterwards? */
static DryPoint
find_part (const DryProject *project, DryPartKind kind)
{
  const DryRoom *room = dry_test_first_room (project);

  for (guint i = 0; i < room->n_parts; i++)
    if (room->parts[i].kind == kind)
      return dry_wall_point (dry_room_get_wall (room, room->parts[i].wall), DRY_SIDE_INSIDE,
                             room->parts[i].u, 0);
  g_assert_not_reached ();
}

static void
test_things_keep_their_place (void)
{
  static const struct {
    char wall;
    double out;                       /* moved into the room */
    double valve_x, valve_y, basin_y; /* shifts expected */
  } rows[] = {
      {'s', 10, 0, 0, 0}, /* the front wall: nothing at the tub moves */
      {'s', -15, 0, 0, 0},
      {'n', 6, 0, -6, -6}, /* the back wall takes the tub along, and the valve with the tub */
      {'n', -6, 0, 6, 6},
      {'e', -12, 12, 0, 0}, /* its own wall takes the valve along */
      {'w', -12, 0, 0, 0},
  };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++) {
    g_autoptr (DryProject) old = dry_test_furnished_alcove ("foam-bands");
    g_autoptr (GError) error = NULL;
    g_autoptr (DryProject) new = dry_edit_move_wall (
        old, dry_test_room (old), dry_test_wall (old, rows[i].wall), IN (rows[i].out), &error);
    DryPoint was = find_part (old, DRY_PART_VALVE), is;
    DryPoint tub_was[4], tub_is[4];

    g_assert_no_error (error);
    is = find_part (new, DRY_PART_VALVE);
    g_assert_cmpint (is.x - was.x, ==, IN (rows[i].valve_x));
    g_assert_cmpint (is.y - was.y, ==, IN (rows[i].valve_y));
    g_assert_true (dry_room_basin_corners (dry_test_first_room (old), tub_was));
    g_assert_true (dry_room_basin_corners (dry_test_first_room (new), tub_is));
    g_assert_cmpint (tub_is[0].y - tub_was[0].y, ==, IN (rows[i].basin_y));
  }
}

/* Back and forth is nothing, whatever stands in the room. */
static void
test_walls_there_and_back (void)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (17);

  for (guint32 seed = 1; seed <= 60; seed++) {
    g_autoptr (DryProject) old = dry_test_random_project (seed);
    const DryRoom *room = dry_test_first_room (old);
    DryId wall = room->walls[(guint) g_rand_int_range (rand, 0, (gint) room->n_outline)].id;
    DryLength out = g_rand_int_range (rand, 1, 40) * DRY_INCH / 4;
    g_autoptr (DryProject) there = dry_edit_move_wall (old, room->id, wall, -out, NULL);
    g_autoptr (DryProject) back =
        there ? dry_edit_move_wall (there, room->id, wall, out, NULL) : NULL;

    if (!back)
      continue;
    for (guint i = 0; i < room->n_parts; i++)
      g_assert_cmpint (dry_test_first_room (back)->parts[i].u, ==, room->parts[i].u);
    g_assert_cmpint (dry_test_first_room (back)->basin.along, ==, room->basin.along);
  }
}

/* Three widths typed into the 60 x 96 in room: what stands at the depth of a tub 30 in wide is what
 * was typed, and the wall across keeps its line. */
static void
test_widths (void)
{
  static const struct {
    double back, middle, front, bow, west, east; /* in; where the side walls end, 96 in deep */
  } rows[] = {
      {60, 0, 60, 0, 0, 60},
      {60, 60, 60, 0, 0, 60},
      {60.5, 0, 60.5, 0, 0, 60.5},
      /* 1/4 in on either side 30 in deep are 0.8 in at 96 in. */
      {60, 0, 59.5, 0, 0.8, 59.2},
      {60, 59.5, 59.5, -0.25, 0.8, 59.2},
      {60, 60.25, 60, 0.25, 0, 60},
      {59.5, 59.25, 60, -0.5, -0.8, 60.3},
      /* 1520, 1515 and 1500 mm. */
      {1520 / 25.4, 1515 / 25.4, 1500 / 25.4, 5 / 25.4, 32 / 25.4, 1488 / 25.4},
  };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++) {
    g_autoptr (DryProject) old = dry_test_furnished_alcove ("foam-bands");
    g_autoptr (GError) error = NULL;
    g_autoptr (DryProject) new = NULL;
    DryId north = dry_test_wall (old, 'n'), room = dry_test_room (old);
    DryWidths widths;

    g_assert_true (dry_room_get_widths (dry_test_first_room (old), north, &widths));
    g_assert_cmpint (widths.depth, ==, IN (30));
    g_assert_cmpint (widths.front, ==, IN (60));
    new = dry_edit_set_widths (old, room, north, IN (rows[i].back), IN (rows[i].middle),
                               IN (rows[i].front), &error);
    g_assert_no_error (error);
    g_assert_true (dry_room_get_widths (dry_test_first_room (new), north, &widths));
    g_assert_cmpint (ABS (widths.back - IN (rows[i].back)), <=, 1);
    g_assert_cmpint (ABS (widths.front - IN (rows[i].front)), <=, 2);
    if (rows[i].middle > 0)
      g_assert_cmpint (ABS (widths.middle - IN (rows[i].middle)), <=, 2);
    g_assert_cmpint (
        ABS (dry_room_get_wall (dry_test_first_room (new), north)->width_bow - IN (rows[i].bow)),
        <=, 2);
    g_assert_cmpint (
        ABS (dry_room_get_wall (dry_test_first_room (new), dry_test_wall (old, 'w'))->start.x -
             IN (rows[i].west)),
        <=, 2);
    g_assert_cmpint (
        ABS (dry_room_get_wall (dry_test_first_room (new), dry_test_wall (old, 'e'))->end.x -
             IN (rows[i].east)),
        <=, 2);
    g_assert_cmpint (
        dry_room_get_wall (dry_test_first_room (new), dry_test_wall (old, 's'))->start.y, ==, 0);
  }
}

static void
test_widths_refused (void)
{
  static const double ell[] = {0, 0, 0, 96, 60, 96, 60, 40, 90, 40, 90, 0};
  g_autoptr (DryProject) old = dry_project_new ();
  g_autoptr (DryProject) six = NULL, bare = NULL;
  DryId room = dry_test_room (old), north = dry_test_wall (old, 'n');
  DryPoint corners[6];
  DryWidths widths;
  GError *error = NULL;

  for (guint i = 0; i < 6; i++)
    corners[i] = (DryPoint){IN (ell[2 * i]), IN (ell[2 * i + 1])};
  bare = dry_edit_remove (old, room, dry_test_first_room (old)->basin.id, &error);
  g_assert_no_error (error);
  six = dry_edit_set_outline (bare, room, corners, 6, &error);
  g_assert_no_error (error);
  /* Without a basin the shorter side wall is the depth; a wall with a room round its end is none.
   */
  for (guint i = 0; i < 6; i++) {
    const DryWall *wall = &dry_test_first_room (six)->walls[i];
    gboolean is_back = dry_room_get_widths (dry_test_first_room (six), wall->id, &widths);

    if (wall->start.y == IN (96) && wall->end.y == IN (96)) {
      g_assert_true (is_back);
      g_assert_cmpint (widths.depth, ==, IN (56));
    }
    if (wall->start.x == IN (60) && wall->start.y == IN (40)) {
      g_assert_false (is_back);
      dry_test_refused (dry_edit_set_widths (six, room, wall->id, IN (30), 0, IN (30), &error),
                        &error, DRY_ERROR_GEOMETRY, "two side walls");
    }
  }
  dry_test_refused (dry_edit_set_widths (old, room, north, 0, 0, IN (60), &error), &error,
                    DRY_ERROR_LIMIT, "more than nothing");
  dry_test_refused (dry_edit_set_widths (old, room, north, IN (60), 0, 0, &error), &error,
                    DRY_ERROR_LIMIT, "more than nothing");
  dry_test_refused (dry_edit_set_widths (old, room, north, IN (60), -1, IN (60), &error), &error,
                    DRY_ERROR_LIMIT, "more than nothing");
  dry_test_refused (dry_edit_set_widths (old, room, north, G_MAXINT64, 0, IN (60), &error), &error,
                    DRY_ERROR_LIMIT, "30 m");
  dry_test_refused (dry_edit_set_widths (old, room, north, IN (60), G_MAXINT64, IN (60), &error),
                    &error, DRY_ERROR_LIMIT, "30 m");
  dry_test_refused (dry_edit_set_widths (old, room, north, IN (60), 0, G_MAXINT64, &error), &error,
                    DRY_ERROR_LIMIT, "30 m");
  dry_test_refused (dry_edit_set_widths (old, room, 77, IN (60), 0, IN (60), &error), &error,
                    DRY_ERROR_REFERENCE, "no wall 77");
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/outline/wall-length", test_wall_length);
  g_test_add_func ("/outline/wall-length-refused", test_wall_length_refused);
  g_test_add_func ("/outline/set", test_set_outline);
  g_test_add_func ("/outline/corners", test_corners);
  g_test_add_func ("/outline/split-found-studs", test_split_found_studs);
  g_test_add_func ("/outline/remove-walls", test_remove_walls);
  g_test_add_func ("/outline/move-wall", test_move_wall);
  g_test_add_func ("/outline/things-keep-their-place", test_things_keep_their_place);
  g_test_add_func ("/outline/walls-there-and-back", test_walls_there_and_back);
  g_test_add_func ("/outline/widths", test_widths);
  g_test_add_func ("/outline/widths-refused", test_widths_refused);
  return g_test_run ();
}
