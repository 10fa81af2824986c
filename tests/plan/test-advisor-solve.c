/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The best places against a search of every sixteenth of an inch, what the advice says of the test
 * projects, changes that must do what they promise, and the ranges of fittings. */
#include <math.h>
#include <string.h>

#include "plan/advisor.h"
#include "plan/rule-room.h"

static const char *const CASES[] = {"01-alcove.drybay",      "02-old-house.drybay",
                                    "03-window-wall.drybay", "11-bearing-outside.drybay",
                                    "20-vent-bay.drybay",    "20b-vent-bay-moved.drybay"};

static DryAdvice *
advise (const DryProject *project, const DryPart *part, const DryAdviceOptions *options)
{
  g_autoptr (GError) error = NULL;
  DryAdvice *advice = dry_advice_new (project, dry_project_get_room_at (project, 0)->id, part,
                                      dry_test_catalog (), options, NULL, &error);

  g_assert_no_error (error);
  return advice;
}

static const DryPart *
find_part (const DryProject *project, DryPartKind kind)
{
  const DryRoom *room = dry_project_get_room_at (project, 0);

  for (guint i = 0; i < room->n_parts; i++)
    if (room->parts[i].kind == kind)
      return &room->parts[i];
  return NULL;
}

static DryPart
small_niche (const DryProject *project, guint which)
{
  return (DryPart){.kind = DRY_PART_NICHE,
                   .wall = dry_project_get_room_at (project, 0)->walls[0].id,
                   .u = 23 * DRY_INCH + which,
                   .z = (40 + which) * DRY_INCH,
                   .width = (10 + which % 3) * DRY_INCH,
                   .height = (12 + which) * DRY_INCH,
                   .depth = 2 * DRY_INCH,
                   .body_width = which % 2 ? (11 + which % 3) * DRY_INCH : 0,
                   .body_height = which % 2 ? (13 + which) * DRY_INCH : 0,
                   .flange = which % 2 ? 2 * DRY_INCH : 0,
                   .pitch = 0.020833};
}

static DryAdvicePlace
best_of (const DryAdvice *advice, DryArena *arena, guint wanted, guint *n)
{
  const DryAdvicePlace *places =
      dry_advice_find_best (advice, arena, (DryAdviceFreedom){0}, wanted, n);

  return *n ? places[0] : (DryAdvicePlace){.points = -1};
}

static const DryAdviceReason *find_reason (const DryAdvicePlace *place, DryAdviceKind kind);
static DryAdvicePlace judge_where_it_is (const DryAdvice *advice, DryArena *arena);

/* Every place on a grid of 1/16 in, on every face: none may cost less than the best found. */
static void
compare_with_grid (const DryAdvice *advice, const char *what)
{
  g_autoptr (DryArena) arena = dry_arena_new ();
  DryLength step = DRY_INCH / 16;
  guint n = 0;
  DryAdvicePlace best = best_of (advice, arena, 1, &n);

  for (guint f = 0; f < dry_advice_get_n_faces (advice); f++) {
    const DryAdviceFace *face = dry_advice_get_face_at (advice, f);
    for (DryLength u = 0; u <= face->length; u += step)
      for (DryLength z = 30 * DRY_INCH; z <= MIN (face->height, 70 * DRY_INCH); z += step) {
        double points = dry_advice_reckon (advice, face, (DryPoint){u, z});
        if (points >= 0 && (n == 0 || points < best.points - 1e-6))
          g_error ("%s: %.4f in, %.4f in on the %s costs %.3f, the best found %.3f", what,
                   dry_length_to_inches (u), dry_length_to_inches (z), face->name, points,
                   best.points);
      }
  }
}

static void
test_grid (void)
{
  for (guint i = 0; i < G_N_ELEMENTS (CASES); i++) {
    g_autoptr (DryProject) project = dry_test_load (CASES[i]);
    DryPart niche = small_niche (project, i);
    g_autoptr (DryAdvice) advice = advise (project, &niche, NULL);

    compare_with_grid (advice, CASES[i]);
  }
}

/* Place, shift of the tile and width of its joints together: nothing on a grid of 1/16 in of place
 * or shift, nor anything thrown at random, is better than what was found. */
static void
try_layout (const DryAdvice *advice, const DryAdvicePlace *best, DryId wall, DryPoint at,
            DryLength joint, DryPoint shift)
{
  g_autoptr (DryArena) arena = dry_arena_new ();
  DryAdvicePlace place =
      dry_advice_judge_layout (advice, arena, wall, DRY_SIDE_INSIDE, at, joint, shift);

  if (place.legal && place.points < best->points - 1e-6)
    g_error (
        "at %.4f, %.4f in with the tile moved by %.4f, %.4f in and joints of %.4f in: %.3f, the "
        "best found %.3f",
        dry_length_to_inches (at.x), dry_length_to_inches (at.y), dry_length_to_inches (shift.x),
        dry_length_to_inches (shift.y), dry_length_to_inches (joint), place.points, best->points);
}

static void
search_layouts (const DryAdvice *advice, const DryAdvicePlace *best, GRand *rand)
{
  DryLength step = DRY_INCH / 16;

  for (gint i = -96; i <= 96; i++) {
    DryPoint u = {best->u + i * step, best->z}, z = {best->u, best->z + i * step};
    DryPoint du = {best->datum.x + i * step, best->datum.y};
    DryPoint dz = {best->datum.x, best->datum.y + i * step};
    try_layout (advice, best, best->wall, u, best->joint, best->datum);
    try_layout (advice, best, best->wall, z, best->joint, best->datum);
    try_layout (advice, best, best->wall, (DryPoint){best->u, best->z}, best->joint, du);
    try_layout (advice, best, best->wall, (DryPoint){best->u, best->z}, best->joint, dz);
  }
  for (guint i = 0; i < 3000; i++) {
    const DryAdviceFace *face = dry_advice_get_face_at (
        advice, (guint) g_rand_int_range (rand, 0, (gint) dry_advice_get_n_faces (advice)));
    DryPoint at = {g_rand_int_range (rand, 0, (gint) (face->length / step)) * step,
                   g_rand_int_range (rand, 36 * 16, 60 * 16) * step};
    DryPoint shift = {g_rand_int_range (rand, -200, 200) * step,
                      g_rand_int_range (rand, -100, 100) * step};
    try_layout (advice, best, face->wall, at,
                i % 3 ? 0 : DRY_INCH / 16 + (i / 3) % 4 * DRY_INCH / 32, shift);
  }
}

static void
test_layouts (void)
{
  static const struct {
    const char *file;
    DryPattern pattern;
    double offset;
  } TABLE[] = {{"01-alcove.drybay", DRY_PATTERN_STRAIGHT, 0},
               {"01-alcove.drybay", DRY_PATTERN_OFFSET, 1.0 / 3},
               {"03-window-wall.drybay", DRY_PATTERN_OFFSET, 0.5}};

  for (guint i = 0; i < G_N_ELEMENTS (TABLE); i++) {
    g_autoptr (DryProject) loaded = dry_test_load (TABLE[i].file);
    DryFinish finish = dry_project_get_room_at (loaded, 0)->finish;
    g_autoptr (GError) error = NULL;
    g_autoptr (DryProject) project = NULL;
    g_autoptr (DryArena) arena = dry_arena_new ();
    g_autoptr (GRand) rand = g_rand_new_with_seed (i);
    g_autoptr (DryAdvice) advice = NULL;
    DryPart niche = small_niche (loaded, 1);
    DryAdviceFreedom freedom = {.joint = TRUE, .datum = TRUE};
    const DryAdvicePlace *best, *fixed;
    guint n = 0;

    finish.pattern = TABLE[i].pattern;
    finish.offset = TABLE[i].offset;
    project = dry_edit_set_finish (loaded, 1, &finish, &error);
    g_assert_no_error (error);
    advice = advise (project, &niche, NULL);
    fixed = dry_advice_find_best (advice, arena, (DryAdviceFreedom){0}, 1, &n);
    g_assert_cmpuint (n, ==, 1);
    best = dry_advice_find_best (advice, arena, freedom, 1, &n);
    g_assert_cmpuint (n, ==, 1);
    g_test_message ("%s: %.2f points, %.2f with the tile as it is", TABLE[i].file, best->points,
                    fixed->points);
    g_assert_cmpfloat (best->points, <=, fixed->points + 1e-9);
    search_layouts (advice, best, rand);
  }
}

/* What was chosen is made by edits: judged anew in the changed project it costs no more than the
 * change of the tile itself. */
static void
test_apply (void)
{
  g_autoptr (DryProject) project = dry_test_load ("01-alcove.drybay");
  DryPart niche = small_niche (project, 1);
  g_autoptr (DryAdvice) advice = advise (project, &niche, NULL), again = NULL;
  g_autoptr (DryArena) arena = dry_arena_new ();
  g_autoptr (GError) error = NULL;
  g_autoptr (DryProject) changed = NULL;
  DryId id = 0;
  DryAdviceFreedom freedom = {.joint = TRUE, .datum = TRUE};
  const DryAdvicePlace *best;
  const DryAdviceReason *layout;
  DryAdvicePlace then;
  guint n = 0;

  best = dry_advice_find_best (advice, arena, freedom, 1, &n);
  g_assert_cmpuint (n, ==, 1);
  g_assert_true (best->datum.x || best->datum.y || best->joint);
  changed = dry_advice_apply (advice, project, best, &id, &error);
  g_assert_no_error (error);
  again = advise (changed, dry_room_get_part (dry_project_get_room_at (changed, 0), id), NULL);
  then = judge_where_it_is (again, arena);
  layout = find_reason (best, DRY_ADVICE_LAYOUT);
  g_assert_true (then.legal);
  g_assert_cmpfloat_with_epsilon (then.points, best->points - layout->points, 1e-6);
}

/* Places told apart: none within half a size of another, points never fall, every one legal, and
 * what the words sum to is what the search counted. */
static void
test_five (void)
{
  for (guint i = 0; i < G_N_ELEMENTS (CASES); i++) {
    g_autoptr (DryProject) project = dry_test_load (CASES[i]);
    g_autoptr (DryArena) arena = dry_arena_new ();
    DryPart niche = small_niche (project, i);
    g_autoptr (DryAdvice) advice = advise (project, &niche, NULL);
    guint n = 0;
    const DryAdvicePlace *places =
        dry_advice_find_best (advice, arena, (DryAdviceFreedom){0}, 5, &n);

    g_assert_cmpuint (n, ==, 5);
    for (guint k = 0; k < n; k++) {
      const DryAdviceFace *face = dry_advice_get_face (advice, places[k].wall, places[k].side);
      double points = dry_advice_reckon (advice, face, (DryPoint){places[k].u, places[k].z});
      g_assert_true (places[k].legal);
      g_assert_cmpfloat_with_epsilon (points, places[k].points, 1e-9);
      g_assert_true (k == 0 || places[k].points >= places[k - 1].points - 1e-9);
      for (guint j = 0; j < k; j++)
        g_assert_true (places[j].wall != places[k].wall ||
                       ABS (places[j].u - places[k].u) >= niche.width ||
                       ABS (places[j].z - places[k].z) >= niche.height);
      for (guint r = 0; r < places[k].n_reasons; r++) {
        const DryAdviceReason *reason = &places[k].reasons[r];
        g_assert_true (reason->text && *reason->text && reason->working.source.text);
        g_assert_true (reason->holds ? reason->points == 0 : !reason->hard);
      }
    }
  }
}

/* --- the test projects --- */

typedef struct {
  const char *file;
  DryAdviceKind broken[4]; /* asked for and not kept where the niche stands, -1-ended */
} Told;

static const Told TOLD[] = {
    {"11-bearing-outside.drybay", {DRY_ADVICE_STUDS, DRY_ADVICE_INSULATION, -1}},
    {"12-steel-rated.drybay", {DRY_ADVICE_RATED, -1}},
    {"20-vent-bay.drybay", {DRY_ADVICE_HIDDEN, -1}},
};

static const DryAdviceReason *
find_reason (const DryAdvicePlace *place, DryAdviceKind kind)
{
  for (guint i = 0; i < place->n_reasons; i++)
    if (place->reasons[i].kind == kind)
      return &place->reasons[i];
  return NULL;
}

static DryAdvicePlace
judge_where_it_is (const DryAdvice *advice, DryArena *arena)
{
  const DryPart *part = dry_advice_get_part (advice);

  return dry_advice_judge (advice, arena, part->wall, part->side, (DryPoint){part->u, part->z});
}

static void
test_told (gconstpointer data)
{
  const Told *test = data;
  g_autoptr (DryProject) project = dry_test_load (test->file);
  g_autoptr (DryAdvice) advice = advise (project, find_part (project, DRY_PART_NICHE), NULL);
  g_autoptr (DryArena) arena = dry_arena_new ();
  DryAdvicePlace place = judge_where_it_is (advice, arena);

  g_assert_false (place.legal);
  g_assert_cmpfloat (place.score, ==, 0);
  for (guint i = 0; (gint) test->broken[i] >= 0; i++) {
    const DryAdviceReason *reason = find_reason (&place, test->broken[i]);
    g_assert_nonnull (reason);
    g_assert_true (reason->hard);
    g_assert_false (reason->holds);
  }
}

/* Project 1 stands where it is allowed; project 20 stands legally one bay on; no wall of project 12
 * is rated but the back. */
static void
test_allowed (void)
{
  static const char *const fine[] = {"01-alcove.drybay", "20b-vent-bay-moved.drybay"};

  for (guint i = 0; i < G_N_ELEMENTS (fine); i++) {
    g_autoptr (DryProject) project = dry_test_load (fine[i]);
    g_autoptr (DryAdvice) advice = advise (project, find_part (project, DRY_PART_NICHE), NULL);
    g_autoptr (DryArena) arena = dry_arena_new ();
    DryAdvicePlace place = judge_where_it_is (advice, arena);

    g_assert_true (place.legal);
    g_assert_cmpfloat (place.score, >, 0);
  }
}

static const DryAdviceChange *
find_change (const DryAdviceChange *changes, guint n, const char *id)
{
  for (guint i = 0; i < n; i++)
    if (g_str_equal (changes[i].id, id))
      return &changes[i];
  return NULL;
}

/* The vent stands in bay 2: the nearest cure is bay 3 (or 1), the window wall's another wall.
 * Sorted, and each does what it says. */
static void
test_changes (void)
{
  for (guint i = 0; i < G_N_ELEMENTS (TOLD); i++) {
    g_autoptr (DryProject) project = dry_test_load (TOLD[i].file);
    const DryPart *niche = find_part (project, DRY_PART_NICHE);
    g_autoptr (DryAdvice) advice = advise (project, niche, NULL);
    g_autoptr (DryArena) arena = dry_arena_new ();
    guint n = 0;
    const DryAdviceChange *changes = dry_advice_find_changes (advice, arena, &n);

    g_assert_cmpuint (n, >, 0);
    for (guint k = 0; k < n; k++) {
      g_test_message ("%s: %.2f %s", TOLD[i].file, changes[k].size, changes[k].text);
      g_assert_true (changes[k].place.legal);
      g_assert_true (k == 0 || changes[k].size >= changes[k - 1].size);
    }
    if (g_str_equal (TOLD[i].file, "20-vent-bay.drybay"))
      g_assert_nonnull (find_change (changes, n, "move"));
    if (g_str_equal (TOLD[i].file, "12-steel-rated.drybay")) {
      g_assert_null (find_change (changes, n, "move")); /* the whole wall is rated */
      g_assert_nonnull (find_change (changes, n, "wall"));
    }
  }
}

/* A niche too wide for its bearing bay by 1 in is told to be 1 in narrower. */
static void
test_narrower (void)
{
  g_autoptr (DryProject) project = dry_test_load ("11-bearing-outside.drybay");
  DryPart niche = *find_part (project, DRY_PART_NICHE);
  g_autoptr (DryAdvice) advice = NULL;
  g_autoptr (DryArena) arena = dry_arena_new ();
  g_autoptr (GError) error = NULL;
  g_autoptr (DryPlan) plan = dry_plan_new (project, 1, dry_test_catalog (), NULL, &error);
  DryLength clear = 29 * DRY_INCH / 2 - 2 * plan->context.build_up.total;
  const DryAdviceChange *changes, *change;
  guint n = 0;

  niche.u = 24 * DRY_INCH; /* middle of the bay between the studs at 16 and 32 */
  niche.width = clear + DRY_INCH;
  niche.depth = 2 * DRY_INCH;
  advice = advise (project, &niche, NULL);
  changes = dry_advice_find_changes (advice, arena, &n);
  change = find_change (changes, n, "width");
  g_assert_nonnull (change);
  g_assert_cmpint (change->place.width, <=, clear);
  g_assert_cmpint (change->place.width, >, clear - DRY_INCH / 8);
}

/* The tallest bottle and an inch must go in: 11 in needs 12. */
static void
test_bottle (void)
{
  static const struct {
    double bottle, height;
    gboolean fits;
  } TABLE[] = {{11, 12, TRUE}, {11, 11.9375, FALSE}, {13, 14, TRUE}, {13.0625, 14, FALSE}};
  g_autoptr (DryProject) project = dry_test_load ("01-alcove.drybay");

  for (guint i = 0; i < G_N_ELEMENTS (TABLE); i++) {
    DryAdviceOptions options = dry_advice_options_default ();
    DryPart niche = *find_part (project, DRY_PART_NICHE);
    g_autoptr (DryAdvice) advice = NULL;
    g_autoptr (DryArena) arena = dry_arena_new ();
    guint n = 0;

    options.tallest_bottle = INCH (TABLE[i].bottle);
    niche.height = INCH (TABLE[i].height);
    advice = advise (project, &niche, &options);
    best_of (advice, arena, 1, &n);
    g_assert_cmpuint (n, ==, TABLE[i].fits ? 1 : 0);
    if (!TABLE[i].fits) {
      const DryAdviceChange *changes = dry_advice_find_changes (advice, arena, &n);
      g_assert_nonnull (find_change (changes, n, "height"));
    }
  }
}

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
  g_autoptr (DryAdvice) advice = advise (project, &part, NULL);
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
  g_autoptr (DryAdvice) advice = advise (project, &valve, NULL);
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
  DryPart niche = small_niche (project, 0);
  g_autoptr (DryAdvice) free = advise (project, &niche, &options), strict = NULL;
  DryId west = dry_test_wall (project, 'w'), east = dry_test_wall (project, 'e');
  const DryAdviceFace *a, *b;

  options.must = 1u << DRY_ADVICE_SPRAY;
  strict = advise (project, &niche, &options);
  a = dry_advice_get_face (free, west, DRY_SIDE_INSIDE);
  b = dry_advice_get_face (strict, west, DRY_SIDE_INSIDE);
  g_assert_nonnull (a);
  g_assert_true (a->n_legal != b->n_legal ||
                 memcmp (a->legal, b->legal, a->n_legal * sizeof (DryRect)));
  a = dry_advice_get_face (free, east, DRY_SIDE_INSIDE);
  b = dry_advice_get_face (strict, east, DRY_SIDE_INSIDE);
  g_assert_cmpuint (a->n_legal, ==, b->n_legal);
}

/* --- near by --- */

static void
test_snap (void)
{
  g_autoptr (DryProject) project = dry_test_load ("01-alcove.drybay");
  DryPart niche = *find_part (project, DRY_PART_NICHE);
  g_autoptr (DryAdvice) advice = advise (project, &niche, NULL);
  const DryAdviceFace *face = dry_advice_get_face (advice, niche.wall, DRY_SIDE_INSIDE);
  g_autoptr (GRand) rand = g_rand_new_with_seed (3);

  for (guint i = 0; i < 200; i++) {
    DryPoint from = {g_rand_int_range (rand, 0, 60) * DRY_INCH + 12345,
                     g_rand_int_range (rand, 30, 66) * DRY_INCH + 54321};
    DryPoint to = {0};
    DryLength reach = 2 * DRY_INCH;
    double before = dry_advice_reckon (advice, face, from);

    if (!dry_advice_snap (advice, face, from, reach, FALSE, &to)) {
      g_assert_cmpfloat (before, <, 0);
      continue;
    }
    g_assert_cmpint (ABS (to.x - from.x), <=, reach);
    g_assert_cmpint (ABS (to.y - from.y), <=, reach);
    g_assert_cmpfloat (dry_advice_reckon (advice, face, to), >=, 0);
    g_assert_true (before < 0 || dry_advice_reckon (advice, face, to) <= before + 1e-9);
    if (dry_advice_snap (advice, face, from, reach, TRUE, &to))
      g_assert_cmpint (to.y, ==, from.y);
  }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/advisor/solve/grid", test_grid);
  g_test_add_func ("/advisor/solve/five", test_five);
  g_test_add_func ("/advisor/solve/layouts", test_layouts);
  g_test_add_func ("/advisor/solve/apply", test_apply);
  for (guint i = 0; i < G_N_ELEMENTS (TOLD); i++) {
    g_autofree char *path = g_strdup_printf ("/advisor/told/%s", TOLD[i].file);
    g_test_add_data_func (path, &TOLD[i], test_told);
  }
  g_test_add_func ("/advisor/allowed", test_allowed);
  g_test_add_func ("/advisor/changes", test_changes);
  g_test_add_func ("/advisor/changes/narrower", test_narrower);
  g_test_add_func ("/advisor/bottle", test_bottle);
  for (guint i = 0; i < G_N_ELEMENTS (FITTINGS); i++) {
    g_autofree char *path =
        g_strdup_printf ("/advisor/fitting/%s", dry_part_kind_to_text (FITTINGS[i].kind));
    g_test_add_data_func (path, &FITTINGS[i], test_fitting);
  }
  g_test_add_func ("/advisor/fitting/valve-bays", test_valve_bays);
  g_test_add_func ("/advisor/fitting/trim", test_trim);
  g_test_add_func ("/advisor/spray", test_spray);
  g_test_add_func ("/advisor/spray/walls", test_spray_walls);
  g_test_add_func ("/advisor/snap", test_snap);
  return g_test_run ();
}
