/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Rooms and parts as values: where faces, parts and the basin lie, deep copies, words of kinds. */
#include "project/room.h"

#include "support/fixtures.h"

#define IN(x) ((DryLength) ((x) *25400000.0))

static void
assert_point (DryPoint point, double x, double y)
{
  g_assert_cmpint (point.x, ==, IN (x));
  g_assert_cmpint (point.y, ==, IN (y));
}

/* And back again, from either side of walls at any angle, however far the point is. */
static void
test_along_wall (void)
{
  g_autoptr (GRand) random = g_rand_new_with_seed (7);

  for (guint i = 0; i < 2000; i++) {
    const DryWall wall = {.start = {g_rand_int (random) * 10, g_rand_int (random) * 10},
                          .end = {-(DryLength) g_rand_int (random) * 10, g_rand_int (random) * 10},
                          .added = TRUE,
                          .stud_depth = IN (3.5)};
    DrySide side = i % 2 ? DRY_SIDE_OUTSIDE : DRY_SIDE_INSIDE;
    DryLength u = g_rand_int (random), out = g_rand_int (random) - (DryLength) IN (60);
    DryLength back = dry_wall_along (&wall, side, dry_wall_point (&wall, side, u, out));

    g_assert_cmpint (ABS (back - u), <=, 1); /* points are whole nanometres */
  }
}

static void
test_wall_points (void)
{
  const DryWall north = {.start = {0, IN (96)}, .end = {IN (60), IN (96)}, .stud_depth = IN (3.5)};
  const DryWall pony = {.start = {IN (60), IN (96)},
                        .end = {IN (60), IN (64)},
                        .added = TRUE,
                        .stud_depth = IN (3.5)};
  double ux, uy, nx, ny;

  g_assert_cmpint (dry_wall_length (&north), ==, IN (60));
  dry_wall_axes (&north, DRY_SIDE_INSIDE, &ux, &uy, &nx, &ny);
  g_assert_true (ux == 1 && uy == 0 && nx == 0 && ny == -1);
  assert_point (dry_wall_point (&north, DRY_SIDE_INSIDE, IN (10), IN (4)), 10, 92);
  /* Going south, inside is to the west; the other face is a stud's depth behind. */
  assert_point (dry_wall_point (&pony, DRY_SIDE_INSIDE, IN (10), IN (1)), 59, 86);
  assert_point (dry_wall_point (&pony, DRY_SIDE_OUTSIDE, 0, 0), 63.5, 64);
  assert_point (dry_wall_point (&pony, DRY_SIDE_OUTSIDE, IN (10), IN (1)), 64.5, 74);
}

static void
test_basin_corners (void)
{
  g_autoptr (DryProject) project = dry_project_new ();
  g_autoptr (DryRoom) room = dry_room_copy (dry_project_get_room_at (project, 0));
  DryPoint corners[4];

  g_assert_true (dry_room_basin_corners (room, corners));
  assert_point (corners[0], 0, 96);
  assert_point (corners[1], 0, 66);
  assert_point (corners[2], 60, 66);
  assert_point (corners[3], 60, 96);
  room->basin.turned = TRUE;
  room->basin.along = IN (5);
  room->basin.away = IN (1);
  g_assert_true (dry_room_basin_corners (room, corners));
  assert_point (corners[0], 5, 95);
  assert_point (corners[2], 35, 35);
  room->basin.wall = 99;
  g_assert_false (dry_room_basin_corners (room, corners));
  room->basin.id = 0;
  g_assert_false (dry_room_basin_corners (room, corners));
}

static void
test_part_rects (void)
{
  static const struct {
    DryPart part;
    double x0, y0, x1, y1;
  } rows[] = {
      {{.kind = DRY_PART_NICHE, .u = IN (24), .z = IN (48), .width = IN (12), .height = IN (20)},
       18,
       48,
       30,
       68},
      {{.kind = DRY_PART_VALVE, .u = IN (15), .z = IN (40), .width = IN (7), .height = IN (7)},
       11.5,
       36.5,
       18.5,
       43.5},
      {{.kind = DRY_PART_GRAB_BAR,
        .u = IN (30),
        .z = IN (35),
        .width = IN (24),
        .height = IN (1.5)},
       18,
       33.5,
       42,
       35},
      {{.kind = DRY_PART_BENCH, .u = IN (20), .z = IN (18), .width = IN (36), .height = IN (2)},
       2,
       0,
       38,
       18},
      {{.kind = DRY_PART_BENCH,
        .u = IN (20),
        .z = IN (18),
        .width = IN (36),
        .height = IN (2),
        .fold_down = TRUE},
       2,
       16,
       38,
       18},
      {{.kind = DRY_PART_GLASS,
        .u = IN (30),
        .z = IN (4),
        .width = IN (34),
        .height = IN (74),
        .depth = IN (0.5)},
       29.75,
       4,
       30.25,
       78},
      {{.kind = DRY_PART_VENT, .u = IN (24), .z = 0, .width = IN (3), .height = IN (96)},
       22.5,
       0,
       25.5,
       96},
  };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++) {
    DryRect rect = dry_part_rect (&rows[i].part);

    g_assert_cmpint (rect.x0, ==, IN (rows[i].x0));
    g_assert_cmpint (rect.y0, ==, IN (rows[i].y0));
    g_assert_cmpint (rect.x1, ==, IN (rows[i].x1));
    g_assert_cmpint (rect.y1, ==, IN (rows[i].y1));
  }
}

static void
test_kind_words (void)
{
  DryPartKind kind;

  for (guint i = 0; i < DRY_N_PART_KINDS; i++) {
    g_assert_true (dry_part_kind_from_text (dry_part_kind_to_text ((DryPartKind) i), &kind));
    g_assert_cmpuint (kind, ==, i);
    g_assert_cmpstr (dry_part_kind_name ((DryPartKind) i), !=, "part");
    g_assert_cmpint (dry_part_kind_is_hidden ((DryPartKind) i), ==, i >= DRY_PART_PIPE);
  }
  g_assert_false (dry_part_kind_from_text ("mirror", &kind));
  g_assert_false (dry_part_kind_from_text (NULL, &kind));
  g_assert_null (dry_part_kind_to_text ((DryPartKind) 99));
}

static void
test_deep_copy (void)
{
  g_autoptr (DryProject) project = dry_test_load ("two-bath-house.drybay");
  const DryRoom *room = dry_project_get_room_at (project, 0);
  g_autoptr (DryRoom) copy = dry_room_copy (room);
  g_autoptr (DryPart) part = dry_part_copy (&room->parts[0]);
  const DryWall *west = &copy->walls[3];

  g_assert_cmpuint (west->n_found_studs, ==, 6);
  g_assert_true (west->found_studs != room->walls[3].found_studs);
  g_assert_true (copy->name != room->name);
  g_assert_true (copy->parts[0].item != room->parts[0].item && part->item != room->parts[0].item);
  g_assert_cmpstr (part->item, ==, room->parts[0].item);
  g_assert_true (copy->finish.system != room->finish.system);
  g_assert_null (dry_part_copy (NULL));
  g_assert_null (dry_room_copy (NULL));
}

static void
test_look_ups (void)
{
  g_autoptr (DryProject) project = dry_test_load ("two-bath-house.drybay");
  const DryRoom *room = dry_project_get_room_at (project, 0);

  g_assert_true (dry_room_get_wall (room, room->walls[4].id) == &room->walls[4]);
  g_assert_true (dry_room_get_part (room, room->parts[1].id) == &room->parts[1]);
  g_assert_true (dry_room_get_opening (room, room->openings[1].id) == &room->openings[1]);
  g_assert_null (dry_room_get_wall (room, 0));
  g_assert_null (dry_room_get_part (room, 9999));
  g_assert_null (dry_room_get_opening (room, room->parts[0].id));
  g_assert_cmpint (dry_wall_height (room, &room->walls[4]), ==, IN (42));
  g_assert_cmpint (dry_wall_height (room, &room->walls[0]), ==, IN (96));
  g_assert_null (dry_project_get_room (project, 9999));
  g_assert_null (dry_project_get_room_at (project, 2));
}

/* Numbers go by the order of the room, and count those with a word of their own. */
static void
test_part_names (void)
{
  static const struct {
    DryPartKind kind;
    char *label;
    const char *name;
  } cases[] = {
      {DRY_PART_NICHE, NULL, "niche 1"}, {DRY_PART_VALVE, NULL, "mixing valve"},
      {DRY_PART_NICHE, "Soap", "Soap"},  {DRY_PART_NICHE, "", "niche 3"},
      {DRY_PART_BENCH, "", "bench"},
  };
  DryPart parts[G_N_ELEMENTS (cases)];
  DryRoom room = {.parts = parts, .n_parts = G_N_ELEMENTS (cases)};

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    parts[i] = (DryPart){.id = i + 1, .kind = cases[i].kind, .label = cases[i].label};
  for (guint i = 0; i < G_N_ELEMENTS (cases); i++) {
    g_autofree char *name = dry_room_dup_part_name (&room, &parts[i]);

    g_assert_cmpstr (name, ==, cases[i].name);
  }
}

/* Fixtures for other floors must be what their header says. */
static void
test_fixtures (void)
{
  g_autoptr (DryProject) alcove = dry_test_alcove ("cement-liquid");
  g_autoptr (DryProject) furnished = dry_test_furnished_alcove ("foam-bands");
  const DryRoom *room = dry_project_get_room (alcove, dry_test_room (alcove));

  g_assert_cmpstr (room->finish.system, ==, "cement-liquid");
  g_assert_cmpuint (room->basin.wall, ==, dry_test_wall (alcove, 'n'));
  g_assert_true (dry_room_get_wall (room, dry_test_wall (alcove, 'e'))->plumbing);
  g_assert_cmpuint (dry_project_get_room_at (furnished, 0)->n_parts, ==, 4);
  for (guint seed = 0; seed < 300; seed++) {
    g_autoptr (DryProject) one = dry_test_random_project (seed);
    g_autoptr (DryProject) two = dry_test_random_project (seed);

    g_assert_true (dry_project_equal (one, two));
  }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/room/wall-points", test_wall_points);
  g_test_add_func ("/room/along-wall", test_along_wall);
  g_test_add_func ("/room/basin-corners", test_basin_corners);
  g_test_add_func ("/room/part-rects", test_part_rects);
  g_test_add_func ("/room/kind-words", test_kind_words);
  g_test_add_func ("/room/deep-copy", test_deep_copy);
  g_test_add_func ("/room/look-ups", test_look_ups);
  g_test_add_func ("/room/part-names", test_part_names);
  g_test_add_func ("/room/fixtures", test_fixtures);
  return g_test_run ();
}
