/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Faces: exact regions of hand-made rooms, and what must hold for any room.
 * Figures are geometry of invented rooms; each case says its arithmetic in inches. */
#include <math.h>

#include "base/error.h"
#include "support/fixtures.h"
#include "checks.h"
#include "site.h"

/* Corner of two walls in a room 120 x 96 in: the tub stands in the north-west corner. */
static void
set_up_corner (Site *site)
{
  static const double corners[] = {0, 96, 120, 96, 120, 0, 0, 0};

  site_set_up (site, corners, 4);
}

static void
set_up_turned (Site *site)
{
  set_up_corner (site);
  site->room.basin.turned = TRUE;
}

static void
set_up_no_leg (Site *site)
{
  site_set_up_alcove (site);
  site->room.wet.leg = FALSE;
}

static void
set_up_flange_datum (Site *site)
{
  site_set_up_alcove (site);
  site->system.basin_datum = DRY_DATUM_FLANGE_TOP;
  site->system.basin_gap.value = IN (0.125);
}

static void
set_up_pan (Site *site)
{
  set_up_corner (site);
  site->room.basin.kind = DRY_BASIN_PAN;
  site->room.basin.length = site->room.basin.width = IN (36);
  site->room.basin.height = IN (4);
}

static void
set_up_short_wall (Site *site)
{
  static const double corners[] = {0, 96, 60, 96, 60, 72, 100, 72, 100, 0, 0, 0};

  site_set_up (site, corners, 6);
}

static void
set_up_gap (Site *site)
{
  static const double corners[] = {0, 96, 66, 96, 66, 0, 0, 0};

  site_set_up (site, corners, 4);
}

static void
set_up_small_gap (Site *site)
{
  static const double corners[] = {0, 96, 62, 96, 62, 0, 0, 0};

  site_set_up (site, corners, 4);
}

static void
set_up_drop_in (Site *site)
{
  static const double corners[] = {0, 96, 72, 96, 72, 0, 0, 0};

  site_set_up (site, corners, 4);
  site->room.basin.drop_in = TRUE;
  site->room.basin.flange = 0;
  site->room.basin.along = site->room.basin.away = IN (6);
}

static void
set_up_half_wall (Site *site)
{
  set_up_corner (site);
  site_add_wall (site, 60, 96, 60, 60, 36);
}

static void
set_up_full_wall (Site *site)
{
  set_up_corner (site);
  site_add_wall (site, 60, 96, 60, 60, 0);
}

/* The same wall drawn the other way: its other side looks at the tub. */
static void
set_up_outside (Site *site)
{
  set_up_corner (site);
  site_add_wall (site, 63.5, 60, 63.5, 96, 0);
}

static void
set_up_low_wet (Site *site)
{
  site_set_up_alcove (site);
  site->room.wet.height = IN (72);
}

static void
set_up_high_wet (Site *site)
{
  site_set_up_alcove (site);
  site->room.wet.height = IN (120);
}

static void
set_up_half_outline (Site *site)
{
  site_set_up_alcove (site);
  site->walls[1].height = IN (40);
}

static void
set_up_window (Site *site)
{
  site_set_up_alcove (site);
  site_add_opening (site, DRY_OPENING_WINDOW, 0, 20, 50, 30, 36);
}

static void
set_up_high_window (Site *site)
{
  site_set_up_alcove (site);
  site_add_opening (site, DRY_OPENING_WINDOW, 0, 20, 70, 30, 36);
}

static void
set_up_door (Site *site)
{
  site_set_up_alcove (site);
  site_add_opening (site, DRY_OPENING_DOOR, 1, 31, 0, 30, 80);
}

static void
set_up_site_niche (Site *site)
{
  site_set_up_alcove (site);
  site_add_part (site, DRY_PART_NICHE, 0, 30, 48, 12, 20, 3.5)->site_built = TRUE;
}

static void
set_up_ready_niche (Site *site)
{
  DryPart *niche;

  site_set_up_alcove (site);
  niche = site_add_part (site, DRY_PART_NICHE, 0, 30, 48, 12, 12, 3.5);
  niche->body_width = niche->body_height = IN (14);
}

static void
set_up_huge_niche (Site *site)
{
  site_set_up_alcove (site);
  site_add_part (site, DRY_PART_NICHE, 0, 30, 48, 200, 200, 3.5)->site_built = TRUE;
}

static void
set_up_bench (Site *site)
{
  site_set_up_alcove (site);
  site->room.basin.height = IN (4);
  site_add_part (site, DRY_PART_BENCH, 1, 15, 18, 30, 2, 15);
}

static void
set_up_fold_down (Site *site)
{
  set_up_bench (site);
  site->parts[0].fold_down = TRUE;
}

/* The system closes the joint at the floor with a bead 1/4 in wide. */
static void
set_up_floor_bead (Site *site)
{
  site_set_up_alcove (site);
  site->system.treatments[DRY_JOINT_FLOOR] =
      (DryTreatment){.kind = DRY_TREAT_BEAD, .width = IN (0.25)};
}

typedef struct {
  const char *name;
  void (*set_up) (Site *site);
  guint wall, n_walls;   /* the wall looked at; wall faces in all */
  double area;           /* in2, exact in 1/256 */
  double x0, y0, x1, y1; /* bounds of the region, in */
  const char *flags;     /* l, r: leg left, right; L, R: dry left, right; T: dry above */
  double left, right;    /* insets, in */
  const char *face_name;
} Case;

static const Case cases[] = {
    /* 60 x (96 - 15 - 1) */
    {"alcove back", site_set_up_alcove, 0, 3, 60 * 80, 0, 16, 60, 96, "", 0, 0, "Back wall"},
    /* (32 - 5/8) x 80 and a leg of 2 x 16 */
    {"alcove right", site_set_up_alcove, 1, 3, 31.375 * 80 + 32, 0.625, 0, 32, 96, "rR", 0.625, 0,
     "Right end wall"},
    {"alcove left", site_set_up_alcove, 3, 3, 31.375 * 80 + 32, 64, 0, 95.375, 96, "lL", 0, 0.625,
     "Left end wall"},
    /* the leg stands off the floor: 15-3/4 of it are left */
    {"leg over a bead", set_up_floor_bead, 1, 3, 31.375 * 80 + 31.5, 0.625, 0.25, 32, 96, "rR",
     0.625, 0, "Right end wall"},
    {"no leg", set_up_no_leg, 1, 3, 31.375 * 80, 0.625, 16, 32, 96, "R", 0.625, 0,
     "Right end wall"},
    /* 15 + 1 + 1/8 */
    {"flange datum", set_up_flange_datum, 0, 3, 60 * 79.875, 0, 16.125, 60, 96, "", 0, 0,
     "Back wall"},
    {"corner back", set_up_corner, 0, 2, 62 * 80 + 32, 0, 0, 62, 96, "rR", 0, 0, "Back wall"},
    {"corner left", set_up_corner, 3, 2, 31.375 * 80 + 32, 64, 0, 95.375, 96, "lL", 0, 0.625,
     "Left end wall"},
    /* The long side stands against the west wall: that is the back wall. */
    {"turned back", set_up_turned, 3, 2, 62 * 80 + 32, 34, 0, 96, 96, "lL", 0, 0, "Back wall"},
    {"turned end", set_up_turned, 0, 2, 31.375 * 80 + 32, 0.625, 0, 32, 96, "rR", 0.625, 0,
     "Right end wall"},
    {"pan", set_up_pan, 0, 2, 38 * 91 + 10, 0, 0, 38, 96, "rR", 0, 0, "Back wall"},
    {"short wall", set_up_short_wall, 1, 3, 23.375 * 80, 0.625, 16, 24, 96, "", 0.625, 0,
     "Right end wall"},
    {"gap back", set_up_gap, 0, 2, 62 * 80 + 32, 0, 0, 62, 96, "rR", 0, 0, "Back wall"},
    /* 2 in between tub and wall: within reach, so boarded down to the floor */
    {"small gap back", set_up_small_gap, 0, 3, 62 * 80 + 32, 0, 0, 62, 96, "r", 0, 0, "Back wall"},
    {"small gap end", set_up_small_gap, 1, 3, 31.375 * 96, 0.625, 0, 32, 96, "lrR", 0.625, 0,
     "Right end wall"},
    {"drop-in back", set_up_drop_in, 0, 3, 72 * 80, 0, 16, 72, 96, "", 0, 0, "Back wall"},
    {"drop-in end", set_up_drop_in, 1, 3, 37.375 * 80 + 32, 0.625, 0, 38, 96, "rR", 0.625, 0,
     "Right end wall"},
    /* Past the half wall, 3-1/2 thick and 36 high, the wet wall goes over its whole top. */
    {"half wall back", set_up_half_wall, 0, 3, 60 * 80 + 3.5 * 60, 0, 16, 63.5, 96, "R", 0, 0,
     "Back wall"},
    {"half wall", set_up_half_wall, 4, 3, 31.375 * 20 + 32, 0.625, 0, 32, 36, "rR", 0.625, 0,
     "Right end wall"},
    {"full wall back", set_up_full_wall, 0, 3, 60 * 80, 0, 16, 60, 96, "", 0, 0, "Back wall"},
    {"full wall", set_up_full_wall, 4, 3, 31.375 * 80 + 32, 0.625, 0, 32, 96, "rR", 0.625, 0,
     "Right end wall"},
    {"other side", set_up_outside, 4, 3, 31.375 * 80 + 32, 0.625, 0, 32, 96, "rR", 0.625, 0,
     "Right end wall"},
    {"low wet zone", set_up_low_wet, 0, 3, 60 * 56, 0, 16, 60, 72, "T", 0, 0, "Back wall"},
    {"wet zone above ceiling", set_up_high_wet, 0, 3, 60 * 80, 0, 16, 60, 96, "", 0, 0,
     "Back wall"},
    {"half-height outline wall", set_up_half_outline, 1, 3, 31.375 * 24 + 32, 0.625, 0, 32, 40,
     "rR", 0.625, 0, "Right end wall"},
    {"window", set_up_window, 0, 3, 60 * 80 - 30 * 36, 0, 16, 60, 96, "", 0, 0, "Back wall"},
    {"window above the ceiling", set_up_high_window, 0, 3, 60 * 80 - 30 * 26, 0, 16, 60, 96, "", 0,
     0, "Back wall"},
    /* The door takes 1 x 80 of the strip past the tub, 16 of it of the leg. */
    {"door", set_up_door, 1, 3, 31.375 * 80 + 32 - 80, 0.625, 0, 32, 96, "rR", 0.625, 0,
     "Right end wall"},
    /* 12 x 20 and 1-3/16 of lining all round */
    {"niche, site-built", set_up_site_niche, 0, 3, 60 * 80 - 14.375 * 22.375, 0, 16, 60, 96, "", 0,
     0, "Back wall"},
    {"niche, ready-made", set_up_ready_niche, 0, 3, 60 * 80 - 14 * 14, 0, 16, 60, 96, "", 0, 0,
     "Back wall"},
    {"niche larger than its wall", set_up_huge_niche, 0, 3, 60 * 30.8125, 0, 16, 60, 46.8125, "", 0,
     0, "Back wall"},
    /* Framing of the bench: 28-13/16 x 16-13/16, 13-13/16 deep; board from 5 in up. */
    {"bench", set_up_bench, 1, 3, 31.375 * 91 + 10 - 28.1875 * 11.8125, 0.625, 0, 32, 96, "rR",
     0.625, 0, "Right end wall"},
    {"bench in the corner", set_up_bench, 0, 3, 60 * 91 - 13.8125 * 11.8125, 0, 5, 60, 96, "", 0, 0,
     "Back wall"},
    {"fold-down bench", set_up_fold_down, 1, 3, 31.375 * 91 + 10, 0.625, 0, 32, 96, "rR", 0.625, 0,
     "Right end wall"},
};

static void
test_case (gconstpointer data)
{
  const Case *c = data;
  const DryLength unit = IN (0.0625);
  const DryFace *face;
  DryRect bounds;
  guint n_walls = 0;
  Site site;

  c->set_up (&site);
  site_compute (&site);
  for (guint i = 0; i < site.faces->n; i++)
    n_walls += site.faces->items[i].kind == DRY_FACE_WALL;
  g_assert_cmpuint (n_walls, ==, c->n_walls);
  face = site_face (&site, c->wall);
  g_assert_cmpstr (face->name, ==, c->face_name);
  g_assert_true (dry_region_area2 (&face->region) ==
                 (__int128) 2 * (int64_t) (c->area * 256) * unit * unit);
  bounds = dry_region_bounds (&face->region);
  g_assert_cmpint (bounds.x0, ==, IN (c->x0));
  g_assert_cmpint (bounds.y0, ==, IN (c->y0));
  g_assert_cmpint (bounds.x1, ==, IN (c->x1));
  g_assert_cmpint (bounds.y1, ==, IN (c->y1));
  g_assert_cmpint (face->left.inset, ==, IN (c->left));
  g_assert_cmpint (face->right.inset, ==, IN (c->right));
  g_assert_cmpint (face->leg_left, ==, strchr (c->flags, 'l') != NULL);
  g_assert_cmpint (face->leg_right, ==, strchr (c->flags, 'r') != NULL);
  g_assert_cmpint (face->dry_left, ==, strchr (c->flags, 'L') != NULL);
  g_assert_cmpint (face->dry_right, ==, strchr (c->flags, 'R') != NULL);
  g_assert_cmpint (face->dry_above, ==, strchr (c->flags, 'T') != NULL);
  check_faces (&site.context, site.faces);
  check_framing (&site.context, site.faces, site.framing);
  site_tear_down (&site);
}

static void
test_strip (void)
{
  Site site;
  const DryFace *items;

  site_set_up_alcove (&site);
  site_compute (&site);
  items = site.faces->items;
  g_assert_cmpuint (site.faces->n, ==, 3);
  g_assert_cmpstr (items[0].name, ==, "Left end wall");
  g_assert_cmpstr (items[0].mark, ==, "A");
  g_assert_cmpstr (items[2].mark, ==, "C");
  g_assert_cmpint (items[0].strip_x, ==, 0);
  g_assert_cmpint (items[1].strip_x, ==, IN (96));
  g_assert_cmpint (items[2].strip_x, ==, IN (156));
  g_assert_cmpint (site.faces->strip_length, ==, IN (252));
  g_assert_cmpint (items[0].right.face, ==, 1);
  g_assert_cmpint (items[1].left.face, ==, 0);
  g_assert_cmpint (items[1].right.face, ==, 2);
  g_assert_cmpint (items[2].right.face, ==, -1);
  g_assert_cmpfloat_with_epsilon (items[1].left.angle, 90, 1e-9);
  g_assert_cmpint (items[1].deck, ==, IN (15));
  g_assert_cmpint (items[1].flange_top, ==, IN (16));
  g_assert_cmpint (items[2].basin_u1, ==, IN (30));
  g_assert_cmpint (items[2].left.at, ==, 0);
  g_assert_cmpint (items[2].right.at, ==, IN (96));
  site_tear_down (&site);
}

static void
test_corners (void)
{
  Site site;

  /* End of a wall shorter than the tub: an outside corner, no drywall in the plane. */
  set_up_short_wall (&site);
  site_compute (&site);
  g_assert_cmpfloat_with_epsilon (site_face (&site, 1)->right.angle, 270, 1e-9);
  g_assert_cmpint (site_face (&site, 1)->right.face, ==, -1);
  site_tear_down (&site);

  /* An added wall meets the back wall within its length; the strip sets them apart. */
  set_up_full_wall (&site);
  site_compute (&site);
  g_assert_cmpint (site_face (&site, 0)->right.face, ==, (gint) site_face (&site, 4)->index);
  g_assert_cmpint (site_face (&site, 4)->left.face, ==, (gint) site_face (&site, 0)->index);
  g_assert_cmpfloat_with_epsilon (site_face (&site, 0)->right.angle, 90, 1e-9);
  g_assert_cmpint (site_face (&site, 0)->right.at, ==, IN (60));
  g_assert_cmpint (site_face (&site, 4)->left.at, ==, 0);
  g_assert_cmpint (site_face (&site, 4)->strip_x, >,
                   site_face (&site, 0)->strip_x + site_face (&site, 0)->length);
  site_tear_down (&site);

  /* Nothing to board without a basin. */
  site_set_up_alcove (&site);
  site.room.basin.id = 0;
  site_compute (&site);
  g_assert_cmpuint (site.faces->n, ==, 0);
  g_assert_cmpuint (site.framing->n, ==, 0);
  site_tear_down (&site);
}

/* A wall leaving the tub's back wall at 135 degrees: wet as far as the zone 12 in past the tub. */
static void
test_angled (void)
{
  static const double corners[] = {0, 96, 60, 96, 84, 72, 84, 0, 0, 0};
  const DryFace *face;
  DryRect bounds;
  Site site;

  site_set_up (&site, corners, 5);
  site.room.wet.past = IN (12);
  site_compute (&site);
  face = site_face (&site, 1);
  bounds = dry_region_bounds (&face->region);
  g_assert_cmpstr (face->name, ==, "Right angled wall");
  g_assert_cmpfloat_with_epsilon (face->left.angle, 135, 1e-6);
  /* 12 x sqrt (2); board and gap 5/8 over sin 135 */
  g_assert_cmpfloat_with_epsilon (dry_length_to_inches (face->wet_u1), 12 * G_SQRT2, 1e-6);
  g_assert_cmpfloat_with_epsilon (dry_length_to_inches (face->left.inset), 0.625 * G_SQRT2, 1e-6);
  g_assert_cmpint (bounds.x0, ==, face->left.inset);
  g_assert_cmpint (bounds.x1, ==, face->wet_u1);
  g_assert_cmpint (bounds.y0, ==, 0);
  g_assert_cmpint (bounds.y1, ==, IN (96));
  g_assert_cmpint (dry_region_bounds (&site_face (&site, 0)->region).x1, ==, IN (60));
  check_faces (&site.context, site.faces);
  check_framing (&site.context, site.faces, site.framing);
  site_tear_down (&site);
}

static void
test_small_faces (void)
{
  const DryJointKind in = DRY_JOINT_INSIDE_CORNER, out = DRY_JOINT_OUTSIDE_CORNER;
  Site site;

  set_up_site_niche (&site);
  site_compute (&site);
  g_assert_cmpuint (site.faces->n, ==, 3 + 5);
  g_assert_cmpstr (site.faces->items[3].mark, ==, "D");
  site_check_small (&site, "Niche 1, back", 14.375, 22.375, in, in, in, in);
  site_check_small (&site, "Niche 1, floor", 14.375, 3.5, in, in, in, DRY_JOINT_NICHE);
  site_check_small (&site, "Niche 1, top", 14.375, 3.5, in, DRY_JOINT_NICHE, in, in);
  /* 22-3/8 less floor and top boards with their gaps */
  site_check_small (&site, "Niche 1, left side", 3.5, 21.125, in, in, DRY_JOINT_NICHE, in);
  site_check_small (&site, "Niche 1, right side", 3.5, 21.125, DRY_JOINT_NICHE, in, in, in);
  site_tear_down (&site);

  set_up_bench (&site);
  site_compute (&site);
  g_assert_cmpuint (site.faces->n, ==, 3 + 3);
  /* 28-13/16 less 5/8 at the wall, more 1/2 over the end; 13-13/16 less 5/8, more 1/2 */
  site_check_small (&site, "Bench 1, top", 28.6875, 13.6875, in, in, out, out);
  site_check_small (&site, "Bench 1, front", 28.6875, 11.8125, in, out, out, DRY_JOINT_BASIN);
  site_check_small (&site, "Bench 1, right end", 13.1875, 11.8125, out, out, in, DRY_JOINT_BASIN);
  site_tear_down (&site);

  set_up_fold_down (&site);
  site_compute (&site);
  g_assert_cmpuint (site.faces->n, ==, 3);
  site_tear_down (&site);

  /* 3-1/2 in thick, board 1/2 in on the wet side, drywall 1/2 in beyond; wet for 32 of its 36 in,
   * the back wall's board and gap before it. */
  set_up_half_wall (&site);
  site_compute (&site);
  g_assert_cmpuint (site.faces->n, ==, 3 + 1);
  site_check_small (&site, "Half wall, cap", 31.375, 4.5, in, DRY_JOINT_DRYWALL, DRY_JOINT_DRYWALL,
                    out);
  site_tear_down (&site);

  /* As long as the tub is wide: it ends in the open, the cap lies over the board of the end, which
   * starts on the tub (16 in). */
  set_up_corner (&site);
  site_add_wall (&site, 60, 96, 60, 66, 36);
  site_compute (&site);
  site_check_small (&site, "Half wall, cap", 29.875, 4.5, in, DRY_JOINT_DRYWALL, out, out);
  site_check_small (&site, "Half wall, right end", 4.5, 20, out, out, DRY_JOINT_DRYWALL,
                    DRY_JOINT_BASIN);
  site_tear_down (&site);

  set_up_corner (&site);
  site_add_wall (&site, 60, 96, 60, 66, 0);
  site_compute (&site);
  g_assert_cmpuint (site.faces->n, ==, 3 + 1);
  site_check_small (&site, "Added wall, right end", 4.5, 80, out, DRY_JOINT_CEILING,
                    DRY_JOINT_DRYWALL, DRY_JOINT_BASIN);
  site_tear_down (&site);

  site_set_up_alcove (&site);
  site.room.wet.ceiling = TRUE;
  site_compute (&site);
  g_assert_cmpuint (site.faces->n, ==, 4);
  site_check_small (&site, "Ceiling", 60, 32, in, DRY_JOINT_DRYWALL, in, in);
  site_tear_down (&site);
}

static void
test_holes_and_cutouts (void)
{
  const DryFace *face;
  Site site;

  site_set_up_alcove (&site);
  site_add_part (&site, DRY_PART_VALVE, 1, 15, 40, 6, 6, 0)->hole = IN (3);
  site_add_part (&site, DRY_PART_SHOWER_HEAD, 1, 15, 78, 4, 4, 0)->hole = IN (1);
  site_add_part (&site, DRY_PART_VALVE, 1, 70, 40, 6, 6, 0)->hole = IN (3); /* in the dry part */
  site_add_part (&site, DRY_PART_GRAB_BAR, 0, 30, 34, 24, 1.5, 3);
  site_add_opening (&site, DRY_OPENING_DOOR, 1, 60, 0, 30, 80);
  site_add_opening (&site, DRY_OPENING_WINDOW, 0, 5, 60, 20, 20);
  site_compute (&site);
  face = site_face (&site, 1);
  g_assert_cmpuint (face->n_holes, ==, 2);
  g_assert_cmpint (face->holes[0].centre.y, ==, IN (40));
  g_assert_cmpint (face->holes[0].diameter, ==, IN (3));
  g_assert_cmpuint (face->n_cutouts, ==, 0); /* the door is beyond the wet wall */
  face = site_face (&site, 0);
  g_assert_cmpuint (face->n_holes, ==, 0);
  g_assert_cmpuint (face->n_cutouts, ==, 1);
  g_assert_cmpint (face->cutouts[0].kind, ==, DRY_CUT_WINDOW);
  g_assert_cmpint (face->cutouts[0].rough.x1, ==, IN (25));
  site_tear_down (&site);
}

static void
test_wild_rooms (void)
{
  for (guint32 seed = 0; seed < 1500; seed++) {
    Site site;

    site_set_up_wild (&site, seed);
    site_compute (&site);
    check_faces (&site.context, site.faces);
    check_framing (&site.context, site.faces, site.framing);
    site_tear_down (&site);
  }
}

static void
test_random_projects (void)
{
  for (guint32 seed = 0; seed < 300; seed++) {
    g_autoptr (DryProject) project = dry_test_random_project (seed);
    g_autoptr (DryArena) arena = dry_arena_new ();
    const DryRoom *room = dry_project_get_room_at (project, 0);
    const DrySystem *system = dry_catalog_get_system (dry_test_catalog (), room->finish.system);
    DryPlanContext context = {.arena = arena, .room = room, .system = system};
    const DryFaces *faces;

    g_assert_nonnull (system);
    context.build_up.board = system->n_thicknesses ? system->thicknesses[0].value : IN (0.5);
    context.build_up.total = context.build_up.board + IN (0.5);
    faces = dry_faces_compute (&context, NULL);
    g_assert_cmpuint (faces->n, >, 0);
    check_faces (&context, faces);
    check_framing (&context, faces, dry_framing_compute (&context, faces, NULL));
  }
}

static void
test_cancelled (void)
{
  g_autoptr (GCancellable) cancellable = g_cancellable_new ();
  g_autoptr (GError) error = NULL;
  Site site;

  site_set_up_alcove (&site);
  site.context.cancellable = cancellable;
  g_cancellable_cancel (cancellable);
  g_assert_null (dry_faces_compute (&site.context, &error));
  g_assert_error (error, DRY_ERROR, DRY_ERROR_CANCELLED);
  site_tear_down (&site);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  for (guint i = 0; i < G_N_ELEMENTS (cases); i++) {
    g_autofree char *path = g_strdup_printf ("/faces/case/%s", cases[i].name);

    g_test_add_data_func (path, &cases[i], test_case);
  }
  g_test_add_func ("/faces/strip", test_strip);
  g_test_add_func ("/faces/corners", test_corners);
  g_test_add_func ("/faces/angled", test_angled);
  g_test_add_func ("/faces/small", test_small_faces);
  g_test_add_func ("/faces/holes-and-cutouts", test_holes_and_cutouts);
  g_test_add_func ("/faces/cancelled", test_cancelled);
  g_test_add_func ("/faces/wild-rooms", test_wild_rooms);
  g_test_add_func ("/faces/random-projects", test_random_projects);
  return g_test_run ();
}
