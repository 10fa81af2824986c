/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Studs as found, one by one: what moving, adding and taking one out does to the wall and to
 * nothing else. No display; whatever is done, studs stay in order, apart and within their wall. */
#include "base/error.h"
#include "support/fixtures.h"
#include "ui/studs.h"

#define STUD (3 * DRY_INCH / 2)

typedef struct {
  DryProject *project;
  DryId room, wall;
} Site;

static const DryWall *
wall_of (const DryProject *project, const Site *site)
{
  return dry_room_get_wall (dry_project_get_room (project, site->room), site->wall);
}

static void
site_set_up (Site *site, gconstpointer data)
{
  site->project = dry_test_furnished_alcove ("foam-bands");
  site->room = dry_project_get_room_at (site->project, 0)->id;
  site->wall = dry_project_get_room_at (site->project, 0)->basin.wall;
}

static void
site_tear_down (Site *site, gconstpointer data)
{
  dry_project_unref (site->project);
}

/* In order, none over another, all within the wall. */
static void
check_studs (const DryWall *wall)
{
  g_autoptr (GArray) studs = dry_studs_list (wall);

  for (guint i = 0; i < studs->len; i++) {
    DryLength u = g_array_index (studs, DryLength, i);

    g_assert_cmpint (u, >=, STUD / 2);
    g_assert_cmpint (u, <=, dry_wall_length (wall) - STUD / 2);
    if (i > 0)
      g_assert_cmpint (u - g_array_index (studs, DryLength, i - 1), >=, STUD);
  }
}

/* Takes the edit's result as the project from now on. */
static void
keep (Site *site, DryProject *next, GError *error)
{
  g_assert_no_error (error);
  g_assert_nonnull (next);
  check_studs (wall_of (next, site));
  dry_project_unref (site->project);
  site->project = next;
}

static DryLength
stud_at (Site *site, guint index)
{
  g_autoptr (GArray) studs = dry_studs_list (wall_of (site->project, site));

  g_assert_cmpuint (index, <, studs->len);
  return g_array_index (studs, DryLength, index);
}

static guint
count (Site *site)
{
  g_autoptr (GArray) studs = dry_studs_list (wall_of (site->project, site));

  return studs->len;
}

static void
move (Site *site, guint index, DryLength u)
{
  GError *error = NULL;

  keep (site, dry_studs_move (site->project, site->room, site->wall, index, u, &error), error);
}

/* The first change turns a spacing into studs as found, and moves none of the others. */
static void
test_first_move (Site *site, gconstpointer data)
{
  DryLength second = stud_at (site, 1), third = stud_at (site, 2);
  guint n = count (site);

  g_assert_cmpuint (wall_of (site->project, site)->n_found_studs, ==, 0);
  move (site, 0, 14 * DRY_INCH);
  g_assert_cmpuint (wall_of (site->project, site)->n_found_studs, ==, n);
  g_assert_cmpint (stud_at (site, 0), ==, 14 * DRY_INCH);
  g_assert_cmpint (stud_at (site, 1), ==, second);
  g_assert_cmpint (stud_at (site, 2), ==, third);
}

/* A stud pushed into its neighbor stops beside it; it never passes it. */
static void
test_stops_at_neighbour (Site *site, gconstpointer data)
{
  DryLength first = stud_at (site, 0), third = stud_at (site, 2);

  move (site, 1, 2000 * DRY_INCH);
  g_assert_cmpint (stud_at (site, 1), ==, third - STUD);
  move (site, 1, -2000 * DRY_INCH);
  g_assert_cmpint (stud_at (site, 1), ==, first + STUD);
  /* And from there by small steps: it stays. */
  for (guint i = 0; i < 5; i++)
    move (site, 1, stud_at (site, 1) - DRY_INCH / 16);
  g_assert_cmpint (stud_at (site, 1), ==, first + STUD);
}

/* The outermost ones stop where they would leave the wall. */
static void
test_stays_in_wall (Site *site, gconstpointer data)
{
  DryLength length = dry_wall_length (wall_of (site->project, site));

  move (site, 0, -DRY_INCH);
  g_assert_cmpint (stud_at (site, 0), ==, STUD / 2);
  move (site, count (site) - 1, length + DRY_INCH);
  g_assert_cmpint (stud_at (site, count (site) - 1), ==, length - STUD / 2);
}

static void
test_add (Site *site, gconstpointer data)
{
  DryLength second = stud_at (site, 1), third = stud_at (site, 2);
  guint n = count (site), added = 99;
  GError *error = NULL;

  keep (site, dry_studs_add (site->project, site->room, site->wall, 1, &added, &error), error);
  g_assert_cmpuint (added, ==, 2);
  g_assert_cmpuint (count (site), ==, n + 1);
  g_assert_cmpint (stud_at (site, 2), ==, second + (third - second) / 2);
  g_assert_cmpint (stud_at (site, 3), ==, third);
}

/* With none chosen the widest bay gets it. */
static void
test_add_in_widest (Site *site, gconstpointer data)
{
  GError *error = NULL;
  guint added = 99;

  move (site, 1, stud_at (site, 1) + 5 * DRY_INCH);
  keep (site, dry_studs_add (site->project, site->room, site->wall, -1, &added, &error), error);
  g_assert_cmpuint (added, ==, 1);
}

/* Between two that stand shoulder to shoulder there is no room, and the wall stays as it was. */
static void
test_add_refused (Site *site, gconstpointer data)
{
  g_autoptr (GError) error = NULL;
  guint n, added = 99;

  move (site, 1, -DRY_INCH);
  n = count (site);
  g_assert_null (dry_studs_add (site->project, site->room, site->wall, 0, &added, &error));
  g_assert_error (error, DRY_ERROR, DRY_ERROR_GEOMETRY);
  g_assert_cmpuint (count (site), ==, n);
}

static void
test_remove (Site *site, gconstpointer data)
{
  g_autoptr (GError) refused = NULL;
  DryLength third = stud_at (site, 2);
  GError *error = NULL;
  guint n = count (site);

  keep (site, dry_studs_remove (site->project, site->room, site->wall, 1, &error), error);
  g_assert_cmpuint (count (site), ==, n - 1);
  g_assert_cmpint (stud_at (site, 1), ==, third);
  while (count (site) > 1)
    keep (site, dry_studs_remove (site->project, site->room, site->wall, 0, &error), error);
  /* None found would mean: spaced evenly. */
  g_assert_null (dry_studs_remove (site->project, site->room, site->wall, 0, &refused));
  g_assert_error (refused, DRY_ERROR, DRY_ERROR_LIMIT);
}

/* What is gone meanwhile is told, not guessed at. */
static void
test_gone (Site *site, gconstpointer data)
{
  const guint index = count (site);
  g_autoptr (GError) stud = NULL;
  g_autoptr (GError) wall = NULL;

  g_assert_null (dry_studs_move (site->project, site->room, site->wall, index, DRY_INCH, &stud));
  g_assert_error (stud, DRY_ERROR, DRY_ERROR_REFERENCE);
  g_assert_null (dry_studs_remove (site->project, site->room, 999999, 0, &wall));
  g_assert_error (wall, DRY_ERROR, DRY_ERROR_REFERENCE);
}

/* Any run of moves, additions and removals keeps the studs in order and apart. */
static void
test_any_run (Site *site, gconstpointer data)
{
  DryLength length = dry_wall_length (wall_of (site->project, site));
  g_autoptr (GRand) rand = g_rand_new_with_seed (4711);

  for (guint i = 0; i < 400; i++) {
    guint n = count (site), index = (guint) g_rand_int_range (rand, 0, (gint32) n), added;
    DryLength u = (DryLength) (g_rand_double_range (rand, -0.2, 1.2) * (double) length);
    g_autoptr (GError) error = NULL;
    DryProject *next = NULL;

    switch (g_rand_int_range (rand, 0, 4)) {
    case 0:
      next = dry_studs_add (site->project, site->room, site->wall, (gint) index, &added, &error);
      break;
    case 1:
      next = dry_studs_remove (site->project, site->room, site->wall, index, &error);
      break;
    default:
      next = dry_studs_move (site->project, site->room, site->wall, index, u, &error);
      g_assert_no_error (error); /* a move is never refused, only stopped */
    }
    g_assert_true ((next != NULL) != (error != NULL));
    if (next != NULL)
      keep (site, next, NULL);
  }
}

#define ADD(path, test) g_test_add ("/studs/" path, Site, NULL, site_set_up, test, site_tear_down)

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  ADD ("first-move", test_first_move);
  ADD ("stops-at-neighbor", test_stops_at_neighbour);
  ADD ("stays-in-wall", test_stays_in_wall);
  ADD ("add", test_add);
  ADD ("add-in-widest", test_add_in_widest);
  ADD ("add-refused", test_add_refused);
  ADD ("remove", test_remove);
  ADD ("gone", test_gone);
  ADD ("any-run", test_any_run);
  return g_test_run ();
}
