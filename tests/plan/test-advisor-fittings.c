/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The advisor on fittings: heights the rule pack gives, holes clear of studs, trim and what the
 * spray reaches. */
#include <math.h>
#include <string.h>

#include "advice-rig.h"

/* --- fittings: the ranges of the rule pack --- */

typedef struct {
  DryPartKind kind;
  double width, height, hole;
  double low, high; /* of the best bands: nothing broken */
  const char *source;
} Fitting;

static const Fitting FITTINGS[] = {
    {DRY_PART_VALVE, 6.5, 6.5, 3, 38, 48, "NKBA guideline 10"},
    {DRY_PART_GRAB_BAR, 16, 1.25, 0, 33, 36, "ADA 609.4"},
    {DRY_PART_SHOWER_HEAD, 2.5, 2.5, 1, 72, 84, "common practice, no source"},
    /* 4 in and more above the rim of 15 in; up to the boards' top less half of it */
    {DRY_PART_SPOUT, 2.5, 2.5, 1, 19, 95.5, "common practice, no source"},
};

static void
test_fitting (gconstpointer data)
{
  const Fitting *test = data;
  g_autoptr (DryProject) project = dry_test_furnished_alcove ("foam-bands");
  DryPart part = {.kind = test->kind,
                  .wall = dry_test_wall (project, 'n'),
                  .u = 20 * DRY_INCH,
                  .z = 40 * DRY_INCH,
                  .width = INCH (test->width),
                  .height = INCH (test->height),
                  .depth = 2 * DRY_INCH,
                  .hole = INCH (test->hole)};
  g_autoptr (DryAdvice) advice = advice_rig_advise (project, &part, NULL);
  DryLength low = G_MAXINT64, high = 0;

  for (guint f = 0; f < dry_advice_get_n_faces (advice); f++) {
    const DryAdviceFace *face = dry_advice_get_face_at (advice, f);
    for (guint i = 0; i < face->n_best; i++) {
      low = MIN (low, face->best[i].y0);
      high = MAX (high, face->best[i].y1);
    }
  }
  g_test_message ("%s", test->source);
  g_assert_cmpint (low, ==, INCH (test->low));
  g_assert_cmpint (high, ==, INCH (test->high));
}

/* A valve's 3 in hole keeps off the studs of the back wall at 16, 32 and 48: 14-1/2 in bays leave
 * 11-1/2 in to its middle. */
static void
test_valve_bays (void)
{
  g_autoptr (DryProject) project = dry_test_alcove ("foam-bands");
  DryPart valve = {.kind = DRY_PART_VALVE,
                   .wall = dry_test_wall (project, 'n'),
                   .u = 20 * DRY_INCH,
                   .z = 40 * DRY_INCH,
                   .width = INCH (6.5),
                   .height = INCH (6.5),
                   .hole = 3 * DRY_INCH};
  g_autoptr (DryAdvice) advice = advice_rig_advise (project, &valve, NULL);
  const DryAdviceFace *face = dry_advice_get_face (advice, valve.wall, DRY_SIDE_INSIDE);
  gboolean seen = FALSE;

  for (guint i = 0; i < face->n_legal; i++) {
    DryRect band = face->legal[i];
    seen |= band.x0 == INCH (18.25) && band.x1 == INCH (29.75);
    g_assert_false (band.x0 < 16 * DRY_INCH && band.x1 > 16 * DRY_INCH);
  }
  g_assert_true (seen);
}

/* Board, membrane, mortar and tile against the range a valve's trim takes; without a range nothing
 * is said. */
static void
test_trim (void)
{
  g_autoptr (DryProject) project = dry_test_alcove ("foam-bands");
  DryLength total = dry_build_up_reckon (dry_catalog_get_system (dry_test_catalog (), "foam-bands"),
                                         &dry_project_get_room_at (project, 0)->finish)
                        .total;
  const struct {
    DryLength least, most;
    gboolean raised;
  } table[] = {{total, total, FALSE},
               {total + 1, total + DRY_INCH, TRUE},
               {DRY_INCH / 4, total - 1, TRUE},
               {DRY_INCH / 4, 3 * DRY_INCH, FALSE},
               {0, 0, FALSE}};

  for (guint i = 0; i < G_N_ELEMENTS (table); i++) {
    DryPart valve = {.kind = DRY_PART_VALVE,
                     .u = 40 * DRY_INCH,
                     .z = 44 * DRY_INCH,
                     .width = 6 * DRY_INCH,
                     .height = 6 * DRY_INCH,
                     .hole = 3 * DRY_INCH,
                     .trim_min = table[i].least,
                     .trim_max = table[i].most};
    DryProject *with = rule_room_add_part (dry_project_ref (project), 'e', valve);
    g_assert_true (rule_room_is_raised (with, "valve-trim") == table[i].raised);
  }
}

/* --- spray --- */

/* Without gravity the cone meets a wall straight across at the tangents of its edges; with it
 * lower, by g t^2 / 2. Worked by hand for 4.438 m/s (0.56 N / (7.570824 / 60) kg/s), 1 m away. */
static void
test_spray (void)
{
  DrySprayShape shape = dry_spray_shape_default ();
  double speed = dry_spray_speed (&shape, 7.570824), high, low;
  double flat = 33 * G_PI / 180, steep = 57 * G_PI / 180;

  g_assert_cmpfloat_with_epsilon (speed, 4.438, 0.001);
  g_assert_true (dry_spray_at (&shape, 1e6, 1, 0, &high, &low));
  g_assert_cmpfloat_with_epsilon (high, tan (flat), 1e-6);
  g_assert_cmpfloat_with_epsilon (low, tan (steep), 1e-6);
  g_assert_true (dry_spray_at (&shape, speed, 1, 0, &high, &low));
  /* t = 1 / (4.438 cos 33) = 0.26867 s: 0.64941 + 0.35405 = 1.00346 m below the head */
  g_assert_cmpfloat_with_epsilon (high, 1.00346, 0.0005);
  g_assert_cmpfloat (low, >, high);
  g_assert_false (dry_spray_at (&shape, speed, 1, 1, &high, &low)); /* 45 degrees aside */
  g_assert_false (dry_spray_at (&shape, speed, -1, 0, &high, &low));
}

/* The head on the right end wall wets the left end wall across, not its own. */
static void
test_spray_walls (void)
{
  g_autoptr (DryProject) project = dry_test_furnished_alcove ("foam-bands");
  DryAdviceOptions options = dry_advice_options_default ();
  DryPart niche = advice_rig_small_niche (project, 0);
  g_autoptr (DryAdvice) free = advice_rig_advise (project, &niche, &options), strict = NULL;
  DryId west = dry_test_wall (project, 'w'), east = dry_test_wall (project, 'e');
  const DryAdviceFace *a, *b;

  options.must = 1u << DRY_ADVICE_SPRAY;
  strict = advice_rig_advise (project, &niche, &options);
  a = dry_advice_get_face (free, west, DRY_SIDE_INSIDE);
  b = dry_advice_get_face (strict, west, DRY_SIDE_INSIDE);
  g_assert_nonnull (a);
  g_assert_true (a->n_legal != b->n_legal ||
                 memcmp (a->legal, b->legal, a->n_legal * sizeof (DryRect)));
  a = dry_advice_get_face (free, east, DRY_SIDE_INSIDE);
  b = dry_advice_get_face (strict, east, DRY_SIDE_INSIDE);
  g_assert_cmpuint (a->n_legal, ==, b->n_legal);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  for (guint i = 0; i < G_N_ELEMENTS (FITTINGS); i++) {
    g_autofree char *path =
        g_strdup_printf ("/advisor/fitting/%s", dry_part_kind_to_text (FITTINGS[i].kind));
    g_test_add_data_func (path, &FITTINGS[i], test_fitting);
  }
  g_test_add_func ("/advisor/fitting/valve-bays", test_valve_bays);
  g_test_add_func ("/advisor/fitting/trim", test_trim);
  g_test_add_func ("/advisor/spray", test_spray);
  g_test_add_func ("/advisor/spray/walls", test_spray_walls);
  return g_test_run ();
}
