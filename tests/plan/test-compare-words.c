/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What a comparison says of two designs, word for word: every kind of difference, told both ways
 * round. It knows no figure, no widget and no paper. */
#include "compare-rig.h"
#include "support/fixtures.h"

typedef void (*Change) (DryRoom *room);

static DryProject *
change_room (const DryProject *project, Change change)
{
  g_autoptr (DryRoom) room = dry_room_copy (dry_test_first_room (project));
  g_autoptr (GError) error = NULL;
  DryProject *next;

  if (change)
    change (room);
  next = dry_edit_set_room (project, room, NULL, &error);
  g_assert_no_error (error);
  return next;
}

/* --- tile, board, system --- */

static void
set_text (char **field, const char *text)
{
  g_free (*field);
  *field = g_strdup (text);
}

static void
lay_planks (DryRoom *room)
{
  set_text (&room->finish.tile, "tile-6x24");
  room->finish.tile_height = 6 * DRY_INCH;
}

static void
lay_own_tile (DryRoom *room)
{
  set_text (&room->finish.tile, NULL);
  room->finish.tile_width = 10 * DRY_INCH;
  room->finish.tile_height = 4 * DRY_INCH;
}

static void
widen_tile (DryRoom *room)
{
  room->finish.tile_width += 2 * DRY_INCH;
}

static void
raise_tile (DryRoom *room)
{
  room->finish.tile_height += 2 * DRY_INCH;
}

static void
lay_no_tile (DryRoom *room)
{
  room->finish.tiled = FALSE;
}

static void
lay_offset (DryRoom *room)
{
  room->finish.pattern = DRY_PATTERN_OFFSET;
  room->finish.offset = 0.5;
}

static void
lay_third_offset (DryRoom *room)
{
  room->finish.offset = 0.333;
}

static void
widen_joints (DryRoom *room)
{
  room->finish.joint = DRY_INCH / 4;
}

static void
thicken_board (DryRoom *room)
{
  room->finish.board = 5 * DRY_INCH / 8;
}

/* Another system has boards of its own: their thickness is no difference of this kind. */
static void
take_mortar_bed (DryRoom *room)
{
  set_text (&room->finish.system, "mortar-bed");
  room->finish.board = 0;
}

/* --- tub and pan --- */

static void
take_wider_tub (DryRoom *room)
{
  room->basin.width = 32 * DRY_INCH;
}

static void
take_pan (DryRoom *room)
{
  set_text (&room->basin.item, NULL);
  room->basin.kind = DRY_BASIN_PAN;
  room->basin.width = 36 * DRY_INCH;
  room->basin.height = 4 * DRY_INCH;
  room->basin.slope = 0.0208;
}

static void
take_no_basin (DryRoom *room)
{
  set_text (&room->basin.item, NULL);
  room->basin = (DryBasin){0};
}

static void
move_out (DryRoom *room)
{
  room->basin.away = 6 * DRY_INCH;
}

static void
move_along (DryRoom *room)
{
  room->basin.along = DRY_INCH;
}

static void
move_to_other_wall (DryRoom *room)
{
  room->basin.wall = room->walls[2].id;
}

static void
turn_basin (DryRoom *room)
{
  room->basin.turned = TRUE;
}

static void
take_curb_away (DryRoom *room)
{
  room->basin.height = DRY_INCH / 4;
}

static void
make_flush (DryRoom *room)
{
  room->basin.height = 0;
}

static void
take_no_curb (DryRoom *room)
{
  take_pan (room);
  take_curb_away (room);
}

static void
lower_curb (DryRoom *room)
{
  room->basin.height = 3 * DRY_INCH;
}

static void
raise_tub (DryRoom *room)
{
  room->basin.height = 18 * DRY_INCH;
}

static void
drain_left (DryRoom *room)
{
  room->basin.drain = DRY_END_LEFT;
}

static void
float_floor (DryRoom *room)
{
  room->basin.site_built = TRUE;
}

static void
drain_in_channel (DryRoom *room)
{
  room->basin.linear_drain = TRUE;
}

/* --- parts and walls --- */

static void
add_part (DryRoom *room, DryPart part)
{
  room->parts = g_renew (DryPart, room->parts, room->n_parts + 1);
  part.label = g_strdup (part.label);
  room->parts[room->n_parts++] = part;
}

static DryPart
make_bar (const DryRoom *room)
{
  return (DryPart){.kind = DRY_PART_GRAB_BAR,
                   .wall = room->walls[3].id,
                   .u = 60 * DRY_INCH,
                   .z = 34 * DRY_INCH,
                   .width = 18 * DRY_INCH,
                   .height = 3 * DRY_INCH / 2,
                   .depth = 3 * DRY_INCH};
}

static void
hang_bar (DryRoom *room)
{
  add_part (room, make_bar (room));
}

static void
hang_named_bar (DryRoom *room)
{
  DryPart part = make_bar (room);

  part.label = (char *) "bar for the left hand";
  add_part (room, part);
}

static DryPart *
find_niche (DryRoom *room)
{
  return (DryPart *) dry_test_niche (room);
}

static void
widen_niche (DryRoom *room)
{
  find_niche (room)->width = 10 * DRY_INCH;
}

static void
lower_niche_height (DryRoom *room)
{
  find_niche (room)->height = 16 * DRY_INCH;
}

static void
make_niche_shallow (DryRoom *room)
{
  find_niche (room)->depth = 2 * DRY_INCH;
}

static void
move_niche (DryRoom *room)
{
  find_niche (room)->u += DRY_INCH / 2;
}

static void
raise_niche (DryRoom *room)
{
  find_niche (room)->z += 2 * DRY_INCH;
}

static void
move_niche_to_end (DryRoom *room)
{
  find_niche (room)->wall = room->walls[3].id;
  find_niche (room)->u = 80 * DRY_INCH;
}

static void
add_pony_wall (DryRoom *room)
{
  DryWall wall = room->walls[0];

  wall.id = 0;
  wall.name = NULL;
  wall.found_studs = NULL;
  wall.n_found_studs = 0;
  wall.added = TRUE;
  wall.start = (DryPoint){0, 60 * DRY_INCH};
  wall.end = (DryPoint){30 * DRY_INCH, 60 * DRY_INCH};
  wall.height = 42 * DRY_INCH;
  wall.thickness = 7 * DRY_INCH / 2;
  room->walls = g_renew (DryWall, room->walls, room->n_walls + 1);
  room->walls[room->n_walls++] = wall;
}

static void
hang_bar_on_pony_wall (DryRoom *room)
{
  DryPart part = make_bar (room);

  part.wall = room->walls[room->n_walls - 1].id;
  part.u = 15 * DRY_INCH;
  add_part (room, part);
}

static void
turn_bar_round (DryRoom *room)
{
  room->parts[room->n_parts - 1].side = DRY_SIDE_OUTSIDE;
}

static void
lengthen_pony_wall (DryRoom *room)
{
  room->walls[room->n_walls - 1].end.x += 4 * DRY_INCH;
}

static void
slant_pony_wall (DryRoom *room)
{
  room->walls[room->n_walls - 1].end.y += 4 * DRY_INCH;
}

static void
move_pony_wall (DryRoom *room)
{
  room->walls[room->n_walls - 1].start.x += 4 * DRY_INCH;
}

static void
turn_pony_wall (DryRoom *room)
{
  room->walls[room->n_walls - 1].start.y += 4 * DRY_INCH;
}

/* In the same place, but it is another wall, and what hung on the old one does not hang on it. */
static void
replace_pony_wall (DryRoom *room)
{
  room->walls[room->n_walls - 1].id = 0;
}

static void
move_wall_out (DryRoom *room)
{
  room->walls[2].start.y = room->walls[1].end.y = -6 * DRY_INCH;
  room->walls[3].start.y = room->walls[2].end.y = -6 * DRY_INCH;
}

static void
move_wall_aside (DryRoom *room)
{
  room->walls[1].start.x = room->walls[0].end.x = 66 * DRY_INCH;
  room->walls[2].start.x = room->walls[1].end.x = 66 * DRY_INCH;
}

static void
wet_to_six_feet (DryRoom *room)
{
  room->wet.height = 72 * DRY_INCH;
}

#define PORCELAIN "Porcelain tile, 12 x 24 in"
#define TUB       "tub 60\" x 30\""
#define MOVED     "tub or pan in another place"
#define OTHER_END "tub or pan of another height or drain end"

static const struct {
  const char *what;
  Change before, change;
  const char *now, *back;
  Change first; /* before `before` */
} DESIGNS[] = {
    {"nothing", NULL, NULL, "", ""},
    {"planks", NULL, lay_planks, "Porcelain tile, 6 x 24 in instead of " PORCELAIN,
     PORCELAIN " instead of Porcelain tile, 6 x 24 in"},
    {"own-tile", NULL, lay_own_tile, "tile 10\" x 4\" instead of " PORCELAIN,
     PORCELAIN " instead of tile 10\" x 4\""},
    {"wider-tile", lay_own_tile, widen_tile, "tile 12\" x 4\" instead of tile 10\" x 4\"",
     "tile 10\" x 4\" instead of tile 12\" x 4\""},
    {"higher-tile", lay_own_tile, raise_tile, "tile 10\" x 6\" instead of tile 10\" x 4\"",
     "tile 10\" x 4\" instead of tile 10\" x 6\""},
    {"no-tile", NULL, lay_no_tile, "no tile instead of " PORCELAIN,
     PORCELAIN " instead of no tile"},
    {"pattern", NULL, lay_offset, "tile laid in another pattern", "tile laid in another pattern"},
    {"offset", lay_offset, lay_third_offset, "tile laid in another pattern",
     "tile laid in another pattern"},
    {"joints", NULL, widen_joints, "tile joints 1/4\" instead of 1/8\"",
     "tile joints 1/8\" instead of 1/4\""},
    {"board", NULL, thicken_board, "board 5/8\" instead of 1/2\"", "board 1/2\" instead of 5/8\""},
    {"system", thicken_board, take_mortar_bed,
     "Mortar bed on lath with liquid membrane instead of Foam board with bands in mortar",
     "Foam board with bands in mortar instead of Mortar bed on lath with liquid membrane"},
    {"wider-tub", NULL, take_wider_tub, "tub 60\" x 32\" instead of " TUB,
     TUB " instead of tub 60\" x 32\""},
    {"pan", NULL, take_pan, "pan 60\" x 36\" instead of " TUB, TUB " instead of pan 60\" x 36\""},
    {"no-basin", NULL, take_no_basin, "no tub or pan instead of " TUB,
     TUB " instead of no tub or pan"},
    {"away", NULL, move_out, MOVED, MOVED},
    {"along", take_pan, move_along, MOVED, MOVED},
    {"other-wall", NULL, move_to_other_wall, MOVED, MOVED},
    {"turned", NULL, turn_basin, MOVED, MOVED},
    {"curb", take_pan, take_curb_away, "no curb to step over", "a curb to step over"},
    {"flush", take_no_curb, make_flush, OTHER_END, OTHER_END}, /* neither has a curb */
    {"lower-curb", take_pan, lower_curb, OTHER_END, OTHER_END},
    {"higher-tub", NULL, raise_tub, OTHER_END, OTHER_END},
    {"drain-end", NULL, drain_left, OTHER_END, OTHER_END},
    {"mortar-floor", take_pan, float_floor, "floor of mortar made on site instead of a ready pan",
     "a ready pan instead of a floor of mortar made on site"},
    {"channel", take_pan, drain_in_channel, "a channel drain instead of a point drain",
     "a point drain instead of a channel"},
    {"bar", NULL, hang_bar, "with a grab bar", "without the grab bar"},
    {"named-bar", NULL, hang_named_bar, "with a bar for the left hand",
     "without the bar for the left hand"},
    {"niche-width", NULL, widen_niche, "niche 10\" x 20\" of another size",
     "niche 12\" x 20\" of another size"},
    {"niche-height", NULL, lower_niche_height, "niche 12\" x 16\" of another size",
     "niche 12\" x 20\" of another size"},
    {"niche-depth", NULL, make_niche_shallow, "niche 12\" x 20\" of another size",
     "niche 12\" x 20\" of another size"},
    {"niche-moved", NULL, move_niche, "niche 12\" x 20\" in another place",
     "niche 12\" x 20\" in another place"},
    {"niche-raised", NULL, raise_niche, "niche 12\" x 20\" in another place",
     "niche 12\" x 20\" in another place"},
    {"niche-wall", NULL, move_niche_to_end, "niche 12\" x 20\" in another place",
     "niche 12\" x 20\" in another place"},
    {"bar-side", hang_bar_on_pony_wall, turn_bar_round, "grab bar in another place",
     "grab bar in another place", add_pony_wall},
    {"pony-wall", NULL, add_pony_wall, "walls in another place", "walls in another place"},
    {"pony-length", add_pony_wall, lengthen_pony_wall, "walls in another place",
     "walls in another place"},
    {"pony-slant", add_pony_wall, slant_pony_wall, "walls in another place",
     "walls in another place"},
    {"pony-moved", add_pony_wall, move_pony_wall, "walls in another place",
     "walls in another place"},
    {"pony-turned", add_pony_wall, turn_pony_wall, "walls in another place",
     "walls in another place"},
    {"pony-replaced", add_pony_wall, replace_pony_wall, "walls in another place",
     "walls in another place"},
    {"wall-out", NULL, move_wall_out, "walls in another place", "walls in another place"},
    {"wall-aside", NULL, move_wall_aside, "walls in another place", "walls in another place"},
    {"wet-height", NULL, wet_to_six_feet, "wet wall 72\" high", "wet wall up to the ceiling"},
};

static void
test_design (gconstpointer data)
{
  guint i = GPOINTER_TO_UINT (data);
  g_autoptr (DryProject) plain = dry_test_furnished_alcove ("foam-bands");
  g_autoptr (DryProject) first = change_room (plain, DESIGNS[i].first);
  g_autoptr (DryProject) one = change_room (first, DESIGNS[i].before);
  g_autoptr (DryProject) other = change_room (one, DESIGNS[i].change);
  g_autoptr (DryComparison) was = compare_project (one, 0, NULL);
  g_autoptr (DryComparison) now = compare_project (other, 0, NULL);
  g_autofree char *forward = compare_lines (&now->options[0], &was->options[0], DRY_ABOUT_DESIGN);
  g_autofree char *back = compare_lines (&was->options[0], &now->options[0], DRY_ABOUT_DESIGN);

  g_assert_cmpstr (forward, ==, DESIGNS[i].now);
  g_assert_cmpstr (back, ==, DESIGNS[i].back);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  for (guint i = 0; i < G_N_ELEMENTS (DESIGNS); i++) {
    g_autofree char *path = g_strdup_printf ("/compare-words/design/%s", DESIGNS[i].what);
    g_test_add_data_func (path, GUINT_TO_POINTER (i), test_design);
  }
  return g_test_run ();
}
