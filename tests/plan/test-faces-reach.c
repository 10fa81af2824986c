/* SPDX-License-Identifier: GPL-3.0-or-later */
/* How far the wet zone reaches on which walls, in rooms with partitions, half walls, islands and
 * corners that are none. Figures are geometry of invented rooms, in inches. */

#include "checks.h"
#include "site.h"

/* The wet walls in strip order, each by its place in the room: "3:62-96 0:0-60 1:0-34"; the other
 * side of an added wall is marked: "4o:0-36". */
static char *
describe (const Site *site)
{
  GString *text = g_string_new (NULL);

  for (guint i = 0; i < site->faces->n; i++) {
    const DryFace *face = &site->faces->items[i];
    if (face->kind != DRY_FACE_WALL)
      continue;
    g_string_append_printf (
        text, "%s%u%s:%g-%g", text->len ? " " : "", dry_room_find_wall (&site->room, face->wall),
        face->side == DRY_SIDE_OUTSIDE ? "o" : "", (double) face->wet_u0 / (double) DRY_INCH,
        (double) face->wet_u1 / (double) DRY_INCH);
  }
  return g_string_free (text, FALSE);
}

/* A room 120 x 96 in with the tub in its north-west corner. */
static void
set_up_wide (Site *site)
{
  static const double corners[] = {0, 96, 120, 96, 120, 0, 0, 0};

  site_set_up (site, corners, 4);
}

static void
set_up_wall_gone (Site *site)
{
  site_set_up_alcove (site);
  site->room.basin.wall = 99;
}

static void
set_up_no_width (Site *site)
{
  site_set_up_alcove (site);
  site->room.basin.width = 0;
}

static void
set_up_no_ceiling (Site *site)
{
  site_set_up_alcove (site);
  site->room.ceiling = 0;
}

/* A partition that was drawn with both its ends in one place. */
static void
set_up_no_length (Site *site)
{
  set_up_wide (site);
  site_add_wall (site, 80, 50, 80, 50, 0);
}

static void
set_up_two_half_walls (Site *site)
{
  set_up_wide (site);
  site_add_wall (site, 80, 96, 80, 60, 36);
  site_add_wall (site, 60, 96, 60, 60, 40);
}

/* The same, the near one first. */
static void
set_up_near_half_wall_first (Site *site)
{
  set_up_wide (site);
  site_add_wall (site, 60, 96, 60, 60, 40);
  site_add_wall (site, 80, 96, 80, 60, 36);
}

/* In the other corner, so that the half walls stand on its left. */
static void
set_up_left_half_walls (Site *site)
{
  set_up_wide (site);
  site->room.basin.along = IN (60);
  site_add_wall (site, 36.5, 96, 36.5, 60, 36);
  site_add_wall (site, 56.5, 96, 56.5, 60, 40);
}

static void
set_up_left_near_first (Site *site)
{
  set_up_wide (site);
  site->room.basin.along = IN (60);
  site_add_wall (site, 56.5, 96, 56.5, 60, 40);
  site_add_wall (site, 36.5, 96, 36.5, 60, 36);
}

/* A half wall behind a full one is not seen. */
static void
set_up_half_behind_full (Site *site)
{
  set_up_wide (site);
  site_add_wall (site, 60, 96, 60, 60, 0);
  site_add_wall (site, 80, 96, 80, 60, 40);
}

static void
set_up_left_half_behind_full (Site *site)
{
  set_up_wide (site);
  site->room.basin.along = IN (60);
  site_add_wall (site, 56.5, 96, 56.5, 60, 0);
  site_add_wall (site, 36.5, 96, 36.5, 60, 40);
}

/* A wall as low as the tub's rim has no board. */
static void
set_up_low_wall (Site *site)
{
  set_up_wide (site);
  site_add_wall (site, 60, 96, 60, 60, 15);
}

/* A partition that stands at the next room's piece of a wall: beyond the end of the tub's. */
static void
set_up_wall_beyond (Site *site)
{
  static const double corners[] = {0, 96, 60, 96, 60, 100, 120, 100, 120, 0, 0, 0};

  site_set_up (site, corners, 6);
  site_add_wall (site, 90, 100, 90, 60, 0);
}

/* A partition that leans away from the tub by 3 in on every 4: what counts is where it stands
 * within an inch of the studs. */
static void
set_up_leaning_out (Site *site)
{
  set_up_wide (site);
  site_add_wall (site, 60.5, 96, 87.5, 60, 0);
}

/* Drawn from its free end: its other side, 3-1/2 in before the line, looks at the tub. */
static void
set_up_leaning_out_reversed (Site *site)
{
  set_up_wide (site);
  site_add_wall (site, 87.5, 60, 60.5, 96, 0);
}

/* Toward the tub, at the end of a wet zone of 40 in. */
static void
set_up_leaning_in (Site *site)
{
  set_up_wide (site);
  site->room.wet.past = IN (40);
  site_add_wall (site, 98, 96, 71, 60, 0);
}

static void
set_up_leaning_in_reversed (Site *site)
{
  set_up_wide (site);
  site->room.wet.past = IN (40);
  site_add_wall (site, 71, 60, 98, 96, 0);
}

/* In the middle of the room, away from every wall, with a wet zone of 30 in round it. */
static void
set_up_island (Site *site)
{
  set_up_wide (site);
  site->room.basin.along = IN (30);
  site->room.basin.away = IN (24);
  site->room.wet.past = IN (30);
}

/* A pan 36 x 36 between two end walls of unlike length, out from its own wall: it stands against
 * both; the one it stands against longer is the back. */
static void
set_up_between_ends (Site *site)
{
  static const double corners[] = {0, 96, 36, 96, 36, 60, 60, 60, 60, 0, 0, 0};

  site_set_up (site, corners, 6);
  site->room.basin.kind = DRY_BASIN_PAN;
  site->room.basin.length = site->room.basin.width = IN (36);
  site->room.basin.height = IN (4);
  site->room.basin.away = IN (20);
}

/* A corner of the outline in the middle of the tub's straight wall. */
static void
set_up_straight_corner (Site *site)
{
  static const double corners[] = {0, 96, 40, 96, 120, 96, 120, 0, 0, 0};

  site_set_up (site, corners, 5);
}

/* The tub hangs on the inner side of an added wall; its other side is another room's. */
static void
set_up_on_added_wall (Site *site)
{
  set_up_wide (site);
  site_add_wall (site, 20, 60, 100, 60, 0);
  site->room.basin.wall = site->walls[4].id;
  site->room.basin.along = IN (10);
}

static const struct {
  const char *what;
  void (*set_up) (Site *site);
  const char *walls;
  const char *back; /* its name is "Back wall"; by its place in the room */
} CASES[] = {
    {"alcove", site_set_up_alcove, "3:64-96 0:0-60 1:0-32", "0"},
    {"wall-gone", set_up_wall_gone, "", ""},
    {"no-width", set_up_no_width, "", ""},
    {"no-ceiling", set_up_no_ceiling, "", ""},
    {"no-length", set_up_no_length, "3:64-96 0:0-62", "0"},
    {"two-half-walls", set_up_two_half_walls, "3:64-96 0:0-63.5 5:0-32", "0"},
    {"near-half-wall-first", set_up_near_half_wall_first, "3:64-96 0:0-63.5 4:0-32", "0"},
    {"left-half-walls", set_up_left_half_walls, "5o:4-36 0:56.5-120 1:0-32", "0"},
    {"left-near-first", set_up_left_near_first, "4o:4-36 0:56.5-120 1:0-32", "0"},
    {"half-behind-full", set_up_half_behind_full, "3:64-96 0:0-60 4:0-32", "0"},
    {"left-half-behind-full", set_up_left_half_behind_full, "4o:4-36 0:60-120 1:0-32", "0"},
    {"low-wall", set_up_low_wall, "3:64-96 0:0-63.5", "0"},
    {"wall-beyond", set_up_wall_beyond, "5:64-96 0:0-60", "0"},
    /* 60-1/2 + 0.6 u = 62 where the zone ends */
    {"leaning-out", set_up_leaning_out, "3:64-96 0:0-60.5 4:0-2.5", "0"},
    /* its corner is at 57.7, 2.1 in off: an inch off it is at 60-1/2 - 2.8 / 2.1 */
    {"leaning-out-reversed", set_up_leaning_out_reversed, "3:64-96 0:0-59.1667 4o:0-7.16667", "0"},
    {"leaning-in", set_up_leaning_in, "3:26-96 0:0-97.25 4:0-45", "0"},
    /* from 95.2, 2.1 in behind the studs, 3.1 in out of the wall's line: 95.2 - 3.1 * 3 / 4 */
    {"leaning-in-reversed", set_up_leaning_in_reversed, "3:26-96 0:0-92.875 4o:0-45", "0"},
    {"island", set_up_island, "3:12-96 0:0-120 1:0-84", "0"},
    {"between-ends", set_up_between_ends, "5:38-78 1:18-36 2:0-2", "5"},
    {"straight-corner", set_up_straight_corner, "4:64-96 0:0-40 1:0-22", "0"},
    {"on-added-wall", set_up_on_added_wall, "4:8-72", "4"},
};

/* The wall named "Back wall" by its place in the room; "" when none is. */
static char *
find_back (const Site *site)
{
  for (guint i = 0; i < site->faces->n; i++)
    if (g_str_equal (site->faces->items[i].name, "Back wall"))
      return g_strdup_printf ("%u", dry_room_find_wall (&site->room, site->faces->items[i].wall));
  return g_strdup ("");
}

static void
test_case (gconstpointer data)
{
  guint i = GPOINTER_TO_UINT (data);
  g_autofree char *walls = NULL, *back = NULL;
  Site site;

  CASES[i].set_up (&site);
  site_compute (&site);
  walls = describe (&site);
  back = find_back (&site);
  g_assert_cmpstr (walls, ==, CASES[i].walls);
  g_assert_cmpstr (back, ==, CASES[i].back);
  check_faces (&site.context, site.faces);
  check_framing (&site.context, site.faces, site.framing);
  site_tear_down (&site);
}

/* Where one straight wall was drawn in two pieces the edge between them is no corner. */
static void
test_straight (void)
{
  Site site;

  set_up_straight_corner (&site);
  site_compute (&site);
  g_assert_cmpfloat (site_face (&site, 0)->right.angle, ==, 180);
  g_assert_cmpfloat (site_face (&site, 1)->left.angle, ==, 180);
  g_assert_cmpfloat_with_epsilon (site_face (&site, 0)->left.angle, 90, 1e-9);
  site_tear_down (&site);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  for (guint i = 0; i < G_N_ELEMENTS (CASES); i++) {
    g_autofree char *path = g_strdup_printf ("/faces-reach/%s", CASES[i].what);
    g_test_add_data_func (path, GUINT_TO_POINTER (i), test_case);
  }
  g_test_add_func ("/faces-reach/straight", test_straight);
  return g_test_run ();
}
