/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Small faces: caps and open ends of partitions, ceilings, linings of niches, and how faces are
 * named. Figures are geometry of invented rooms, in inches. */
#include "checks.h"
#include "site.h"

static const DryJointKind in = DRY_JOINT_INSIDE_CORNER, out = DRY_JOINT_OUTSIDE_CORNER,
                          dry = DRY_JOINT_DRYWALL;

/* A room 120 x 96 in with the tub in its north-west corner. */
static void
set_up_wide (Site *site)
{
  static const double corners[] = {0, 96, 120, 96, 120, 0, 0, 0};

  site_set_up (site, corners, 4);
}

static void
finish (Site *site)
{
  check_faces (&site->context, site->faces);
  check_framing (&site->context, site->faces, site->framing);
  site_tear_down (site);
}

static gboolean
has_face (const Site *site, const char *name)
{
  for (guint i = 0; i < site->faces->n; i++)
    if (g_str_equal (site->faces->items[i].name, name))
      return TRUE;
  return FALSE;
}

/* A partition of full height that ends in the open: its end reaches the tiled ceiling, or the
 * drywall above a wet zone that stops short of it, or the ceiling as it is. */
static void
test_open_end (void)
{
  static const struct {
    gboolean ceiling;
    double wet, height;
    DryJointKind above;
  } CASES[] = {{FALSE, 0, 80, DRY_JOINT_CEILING},
               {TRUE, 0, 80, DRY_JOINT_INSIDE_CORNER},
               {FALSE, 72, 56, DRY_JOINT_DRYWALL}};

  for (guint i = 0; i < G_N_ELEMENTS (CASES); i++) {
    Site site;
    set_up_wide (&site);
    site.room.wet.ceiling = CASES[i].ceiling;
    site.room.wet.height = IN (CASES[i].wet);
    site_add_wall (&site, 60, 96, 60, 66, 0);
    site_compute (&site);
    /* 3-1/2 in of studs, board and drywall of 1/2 in each; from the tub's edge, 16 in up */
    site_check_small (&site, "Added wall, right end", 4.5, CASES[i].height, out, CASES[i].above,
                      dry, DRY_JOINT_BASIN);
    finish (&site);
  }
}

/* Drawn the other way, the end in the open is on the left of who looks at it. */
static void
test_left_end (void)
{
  Site site;

  set_up_wide (&site);
  site.room.basin.along = IN (60);
  site_add_wall (&site, 60, 66, 60, 96, 36);
  site.walls[4].name = (char *) "Screen";
  site_compute (&site);
  g_assert_true (has_face (&site, "Screen, left end") || has_face (&site, "Screen, right end"));
  g_assert_true (has_face (&site, "Screen, cap"));
  g_assert_false (has_face (&site, "Half wall, cap"));
  finish (&site);
}

/* Two half walls as high as each other meet in an L: their caps lie in one plane. The first runs
 * through over the corner, 3-1/2 in of studs and 1/2 in of drywall farther than the wet side; the
 * second is butted against it before its board, and what is between them is a seam to be kept
 * watertight. Where the second is higher, the cap of the first ends at its board. */
static void
test_half_walls_in_an_l (void)
{
  static const struct {
    double front; /* height */
    double side_cap, front_cap;
    DryJointKind side_meets, front_meets;
  } CASES[] = {
      {36, 30 - 0.625 + 4, 40 - 0.5 + 0.5, DRY_JOINT_DRYWALL, DRY_JOINT_SEAM},
      {40, 30 - 0.625 - 0.625, 40 + 0.5, DRY_JOINT_INSIDE_CORNER, DRY_JOINT_DRYWALL},
  };

  for (guint i = 0; i < G_N_ELEMENTS (CASES); i++) {
    Site site;
    set_up_wide (&site);
    site_add_wall (&site, 60, 96, 60, 66, 36);
    site_add_wall (&site, 60, 66, 20, 66, CASES[i].front);
    site.walls[4].name = (char *) "Side";
    site.walls[5].name = (char *) "Front";
    site_compute (&site);
    site_check_small (&site, "Side, cap", CASES[i].side_cap, 4.5, DRY_JOINT_INSIDE_CORNER,
                      DRY_JOINT_DRYWALL, CASES[i].side_meets, DRY_JOINT_OUTSIDE_CORNER);
    site_check_small (&site, "Front, cap", CASES[i].front_cap, 4.5, CASES[i].front_meets,
                      DRY_JOINT_DRYWALL, DRY_JOINT_OUTSIDE_CORNER, DRY_JOINT_OUTSIDE_CORNER);
    finish (&site);
  }
}

/* The end of a half wall that stands before a pan's curb goes down to the floor; with bare studs on
 * its other side it is as thick as they and one board. */
static void
test_end_to_floor (void)
{
  Site site;

  set_up_wide (&site);
  site.room.wet.past = IN (12);
  site_add_wall (&site, 60, 96, 60, 60, 42);
  site.walls[4].lining = 0;
  site_compute (&site);
  site_check_small (&site, "Half wall, right end", 4, 42, out, out, dry, DRY_JOINT_FLOOR);
  finish (&site);
}

/* Between a tub let into a deck and the wall before it there is more than the wet zone goes past:
 * the ceiling is tiled as far as that and ends in drywall. In a room as deep as tub and zone it
 * goes to the wall before it. */
static void
test_ceiling (void)
{
  static const double deep[] = {0, 96, 72, 96, 72, 52, 0, 52};
  static const double shallow[] = {0, 96, 60, 96, 60, 64, 0, 64};
  Site site;

  site_set_up (&site, deep, 4);
  site.room.basin.drop_in = TRUE;
  site.room.basin.along = site.room.basin.away = IN (6);
  site.room.wet.ceiling = TRUE;
  site_compute (&site);
  site_check_small (&site, "Ceiling", 72, 38, in, dry, in, in);
  finish (&site);

  site_set_up (&site, shallow, 4);
  site.room.wet.ceiling = TRUE;
  site_compute (&site);
  site_check_small (&site, "Ceiling", 60, 32, in, in, in, in);
  finish (&site);
}

/* A niche of no depth is no niche to line; a name of the user's is kept, an empty one is none. */
static void
test_niches (void)
{
  Site site;
  DryPart *niche;

  site_set_up_alcove (&site);
  site_add_part (&site, DRY_PART_NICHE, 0, 16, 49, 12, 12, 0)->site_built = TRUE;
  niche = site_add_part (&site, DRY_PART_NICHE, 0, 44, 49, 12, 12, 3);
  niche->site_built = TRUE;
  niche->label = (char *) "Soap";
  niche = site_add_part (&site, DRY_PART_NICHE, 3, 80, 49, 12, 12, 3);
  niche->site_built = TRUE;
  niche->label = (char *) "";
  site_compute (&site);
  g_assert_false (has_face (&site, "Niche 1, back"));
  g_assert_true (has_face (&site, "Soap, back"));
  g_assert_true (has_face (&site, "Niche 3, back"));
  g_assert_cmpuint (site.faces->n, ==, 3 + 2 * 5);
  finish (&site);
}

/* More faces than letters: marks go on with two letters, and no two are alike. */
static void
test_marks (void)
{
  Site site;

  site_set_up_alcove (&site);
  for (guint i = 0; i < 6; i++)
    site_add_part (&site, DRY_PART_NICHE, i % 2 ? 1 : 3, i % 2 ? 16 : 80, 20 + 24 * (i / 2), 10, 10,
                   3)
        ->site_built = TRUE;
  site_compute (&site);
  g_assert_cmpuint (site.faces->n, ==, 3 + 6 * 5);
  g_assert_cmpstr (site.faces->items[25].mark, ==, "Z");
  g_assert_cmpstr (site.faces->items[26].mark, ==, "AA");
  for (guint i = 0; i < site.faces->n; i++)
    for (guint j = 0; j < i; j++)
      g_assert_cmpstr (site.faces->items[i].mark, !=, site.faces->items[j].mark);
  finish (&site);
}

/* Walls go by their user's names; one left empty counts as none. */
static void
test_wall_names (void)
{
  Site site;

  site_set_up_alcove (&site);
  site.walls[0].name = (char *) "North";
  site.walls[1].name = (char *) "";
  site_compute (&site);
  g_assert_cmpstr (site_face (&site, 0)->name, ==, "North");
  g_assert_cmpstr (site_face (&site, 1)->name, ==, "Right end wall");
  finish (&site);
}

/* A corner sharper than a right angle takes more of the later board, however sharp no more than
 * four times its thickness and gap; one that is nearly flat takes none. */
static void
test_insets (void)
{
  /* the right wall of a room whose south side is moved east or west, by degrees of the corner */
  static const struct {
    double south, least, most;
  } CASES[] = {{60, 0.625, 0.625}, {45, 0.625, 1.2}, {0, 1.2, 2.5}, {90, 0.3, 0.7}};

  for (guint i = 0; i < G_N_ELEMENTS (CASES); i++) {
    const double corners[] = {0, 96, 60, 96, CASES[i].south, 36, -60, 36};
    Site site;
    site_set_up (&site, corners, 4);
    site.room.wet.past = IN (30);
    site_compute (&site);
    const DryFaceEnd *end = &site_face (&site, 1)->left;
    g_assert_cmpint (end->face, >=, 0);
    g_assert_cmpint (end->inset, >=, IN (CASES[i].least));
    g_assert_cmpint (end->inset, <=, IN (CASES[i].most));
    finish (&site);
  }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/faces-small/open-end", test_open_end);
  g_test_add_func ("/faces-small/left-end", test_left_end);
  g_test_add_func ("/faces-small/half-walls-in-an-l", test_half_walls_in_an_l);
  g_test_add_func ("/faces-small/end-to-floor", test_end_to_floor);
  g_test_add_func ("/faces-small/ceiling", test_ceiling);
  g_test_add_func ("/faces-small/niches", test_niches);
  g_test_add_func ("/faces-small/marks", test_marks);
  g_test_add_func ("/faces-small/wall-names", test_wall_names);
  g_test_add_func ("/faces-small/insets", test_insets);
  return g_test_run ();
}
