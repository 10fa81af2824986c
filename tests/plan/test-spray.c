/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The flight of drops against directions tried one by one, and which walls of a room a head wets.
 * Heads, rooms and flows are invented. */
#include "plan/spray.h"

#include <math.h>

#include "site.h"

#define STEP    1e-4 /* radians */
#define GRAVITY 9.81

/* Every direction in the cone whose bearing leads to the line, tried in small steps. */
static gboolean
try_all (const DrySprayShape *shape, double speed, double distance, double aside, double *high,
         double *low)
{
  double run = hypot (distance, aside), tilt = shape->tilt * G_PI / 180;
  double most = cos (shape->half_angle * G_PI / 180);
  gboolean any = FALSE;

  *high = INFINITY;
  *low = -INFINITY;
  for (double angle = -G_PI / 2 + STEP; angle < G_PI / 2; angle += STEP) {
    double along = cos (angle) * cos (tilt) * distance / run + sin (angle) * sin (tilt);
    double time = run / (speed * cos (angle));
    double fall = run * tan (angle) + GRAVITY * time * time / 2;
    if (along < most)
      continue;
    any = TRUE;
    *high = MIN (*high, fall);
    *low = MAX (*low, fall);
  }
  return any;
}

/* Heads straight down, tilted, level and turned up, narrow and wide, weak and strong. */
static void
test_against_all (void)
{
  static const double TILTS[] = {-20, 0, 45, 80, 90}, HALVES[] = {6, 20, 60},
                      SPEEDS[] = {1, 4.4, 9};
  static const double DISTANCES[] = {0.3, 1, 1.5}, ASIDES[] = {0, 0.2, -0.4};
  guint wet = 0, dry = 0;

  for (guint i = 0; i < 5 * 3 * 3 * 3 * 3; i++) {
    DrySprayShape shape = {.tilt = TILTS[i % 5], .half_angle = HALVES[i / 5 % 3], .force = 0.56};
    double speed = SPEEDS[i / 15 % 3], distance = DISTANCES[i / 45 % 3], aside = ASIDES[i / 135];
    double high, low, all_high, all_low;
    gboolean is_wet = dry_spray_at (&shape, speed, distance, aside, &high, &low);
    g_assert_cmpint (is_wet, ==, try_all (&shape, speed, distance, aside, &all_high, &all_low));
    wet += is_wet;
    dry += !is_wet;
    if (!is_wet)
      continue;
    g_assert_cmpfloat (high, <=, all_high + 1e-9);
    g_assert_cmpfloat_with_epsilon (high, all_high, 0.01 + 0.002 * fabs (high));
    /* Straight down, or nearly so, the water runs down the wall as far as it goes. */
    if (shape.tilt + shape.half_angle >= 90)
      g_assert_true (isinf (low));
    else if (!isinf (low))
      g_assert_cmpfloat_with_epsilon (low, all_low, 0.01 + 0.01 * fabs (low));
  }
  g_assert_cmpuint (wet, >, 50);
  g_assert_cmpuint (dry, >, 50);
}

/* Nothing flies to where it stands, behind itself, or without force. */
static void
test_nowhere (void)
{
  static const struct {
    double speed, distance, aside;
  } CASES[] = {{4, 0, 0}, {4, 0, 1}, {4, -1, 0}, {0, 1, 0}};
  DrySprayShape shape = dry_spray_shape_default ();
  double high, low;

  for (guint i = 0; i < G_N_ELEMENTS (CASES); i++)
    g_assert_false (
        dry_spray_at (&shape, CASES[i].speed, CASES[i].distance, CASES[i].aside, &high, &low));
  /* A head whose flow is not known counts as one of 2.0 gpm; more flow of one force is slower. */
  g_assert_cmpfloat_with_epsilon (dry_spray_speed (&shape, 0), dry_spray_speed (&shape, 7.570824),
                                  1e-12);
  g_assert_cmpfloat (dry_spray_speed (&shape, 9), <, dry_spray_speed (&shape, 0));
}

static GArray *
spray (const Site *site, const DryPart *head, const DryFace *face, const DrySprayShape *shape)
{
  GArray *rects = g_array_new (FALSE, FALSE, sizeof (DryRect));

  dry_spray_on_face (&site->context, head, face, shape, rects);
  for (guint i = 0; i < rects->len; i++) {
    DryRect rect = g_array_index (rects, DryRect, i);
    g_assert_cmpint (rect.x0, >=, face->wet_u0);
    g_assert_cmpint (rect.x1, <=, face->wet_u1);
    g_assert_cmpint (rect.x1 - rect.x0, <=, DRY_SPRAY_STRIP);
    g_assert_cmpint (rect.y0, >=, 0);
    g_assert_cmpint (rect.y1, <=, face->wet_top);
    g_assert_cmpint (rect.y0 % (DRY_INCH / 4), ==, 0);
    if (i > 0)
      g_assert_cmpint (rect.x0, >=, g_array_index (rects, DryRect, i - 1).x1);
  }
  return rects;
}

/* A head in the right end wall, 15 in from the corner and 80 in up: the wall across is wet about
 * its line and below it, its own wall never. */
static void
test_across (void)
{
  DrySprayShape shape = dry_spray_shape_default ();
  Site site;
  const DryPart *head;

  site_set_up_alcove (&site);
  head = site_add_part (&site, DRY_PART_SHOWER_HEAD, 1, 15, 80, 4, 4, 6);
  site_compute (&site);
  g_autoptr (GArray) across = spray (&site, head, site_face (&site, 3), &shape);
  g_autoptr (GArray) own = spray (&site, head, site_face (&site, 1), &shape);
  g_assert_cmpuint (own->len, ==, 0);
  g_assert_cmpuint (across->len, >, 0);
  for (guint i = 0; i < across->len; i++) {
    DryRect rect = g_array_index (across, DryRect, i);
    g_assert_cmpint (rect.y1, <, IN (80));
    g_assert_cmpint (ABS (rect.x0 - IN (81)), <=, IN (15)); /* 96 - 15 */
  }
  site_tear_down (&site);
}

/* A wide head that throws level wets the wall across up to the top of what is wet at all, and one
 * straight above wets it down to the floor. */
static void
test_top_and_floor (void)
{
  DrySprayShape wide = {.out = IN (6), .tilt = 0, .half_angle = 60, .force = 2};
  DrySprayShape rain = {.out = IN (30), .tilt = 90, .half_angle = 45, .force = 0.56};
  Site site;
  const DryPart *head;

  site_set_up_alcove (&site);
  site.room.wet.height = IN (72);
  head = site_add_part (&site, DRY_PART_SHOWER_HEAD, 1, 15, 66, 4, 4, 6);
  site_compute (&site);
  g_autoptr (GArray) high = spray (&site, head, site_face (&site, 3), &wide);
  g_autoptr (GArray) low = spray (&site, head, site_face (&site, 0), &rain);
  g_assert_cmpuint (high->len, >, 0);
  for (guint i = 0; i < high->len; i++)
    g_assert_cmpint (g_array_index (high, DryRect, i).y1, ==, IN (72));
  g_assert_cmpuint (low->len, >, 0);
  for (guint i = 0; i < low->len; i++)
    g_assert_cmpint (g_array_index (low, DryRect, i).y0, ==, 0);
  site_tear_down (&site);
}

/* Of a partition the side that looks at the head is wet, the other is not; a head that hangs on a
 * wall that is gone wets nothing. */
static void
test_from_behind (void)
{
  DrySprayShape shape = dry_spray_shape_default ();
  static const double corners[] = {0, 96, 120, 96, 120, 0, 0, 0};
  Site site;
  DryPart *head;

  site_set_up (&site, corners, 4);
  site_add_wall (&site, 60, 96, 60, 60, 0);
  head = site_add_part (&site, DRY_PART_SHOWER_HEAD, 3, 81, 80, 4, 4, 6);
  site_compute (&site);
  DryFace face = *site_face (&site, 4);
  g_autoptr (GArray) front = spray (&site, head, &face, &shape);
  g_assert_cmpuint (front->len, >, 0);
  face.side = face.side == DRY_SIDE_INSIDE ? DRY_SIDE_OUTSIDE : DRY_SIDE_INSIDE;
  g_autoptr (GArray) back = spray (&site, head, &face, &shape);
  g_assert_cmpuint (back->len, ==, 0);
  head->wall = 99;
  face.side = site_face (&site, 4)->side;
  g_autoptr (GArray) lost = spray (&site, head, &face, &shape);
  g_assert_cmpuint (lost->len, ==, 0);
  head->wall = site.walls[3].id;
  face.wall = 0; /* a ceiling is no wall */
  g_autoptr (GArray) above = spray (&site, head, &face, &shape);
  g_assert_cmpuint (above->len, ==, 0);
  site_tear_down (&site);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/spray/against-all", test_against_all);
  g_test_add_func ("/spray/nowhere", test_nowhere);
  g_test_add_func ("/spray/across", test_across);
  g_test_add_func ("/spray/top-and-floor", test_top_and_floor);
  g_test_add_func ("/spray/from-behind", test_from_behind);
  return g_test_run ();
}
