/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The best places against a search of every sixteenth of an inch, what the advice says of the test
 * projects, and changes that must do what they promise. */
#include <math.h>
#include <string.h>

#include "advice-rig.h"

static const char *const CASES[] = {"01-alcove.drybay",      "02-old-house.drybay",
                                    "03-window-wall.drybay", "11-bearing-outside.drybay",
                                    "20-vent-bay.drybay",    "20b-vent-bay-moved.drybay"};

static const DryPart *
find_part (const DryProject *project, DryPartKind kind)
{
  const DryRoom *room = dry_project_get_room_at (project, 0);

  for (guint i = 0; i < room->n_parts; i++)
    if (room->parts[i].kind == kind)
      return &room->parts[i];
  return NULL;
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
    DryPart niche = advice_rig_small_niche (project, i);
    g_autoptr (DryAdvice) advice = advice_rig_advise (project, &niche, NULL);

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
    DryPart niche = advice_rig_small_niche (loaded, 1);
    DryAdviceFreedom freedom = {.joint = TRUE, .datum = TRUE};
    const DryAdvicePlace *best, *fixed;
    guint n = 0;

    finish.pattern = TABLE[i].pattern;
    finish.offset = TABLE[i].offset;
    project = dry_edit_set_finish (loaded, 1, &finish, &error);
    g_assert_no_error (error);
    advice = advice_rig_advise (project, &niche, NULL);
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
  DryPart niche = advice_rig_small_niche (project, 1);
  g_autoptr (DryAdvice) advice = advice_rig_advise (project, &niche, NULL), again = NULL;
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
  again = advice_rig_advise (changed, dry_room_get_part (dry_project_get_room_at (changed, 0), id),
                             NULL);
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
    DryPart niche = advice_rig_small_niche (project, i);
    g_autoptr (DryAdvice) advice = advice_rig_advise (project, &niche, NULL);
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
  g_autoptr (DryAdvice) advice =
      advice_rig_advise (project, find_part (project, DRY_PART_NICHE), NULL);
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
    g_autoptr (DryAdvice) advice =
        advice_rig_advise (project, find_part (project, DRY_PART_NICHE), NULL);
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
    g_autoptr (DryAdvice) advice = advice_rig_advise (project, niche, NULL);
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
  advice = advice_rig_advise (project, &niche, NULL);
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
    advice = advice_rig_advise (project, &niche, &options);
    best_of (advice, arena, 1, &n);
    g_assert_cmpuint (n, ==, TABLE[i].fits ? 1 : 0);
    if (!TABLE[i].fits) {
      const DryAdviceChange *changes = dry_advice_find_changes (advice, arena, &n);
      g_assert_nonnull (find_change (changes, n, "height"));
    }
  }
}

/* --- near by --- */

static void
test_snap (void)
{
  g_autoptr (DryProject) project = dry_test_load ("01-alcove.drybay");
  DryPart niche = *find_part (project, DRY_PART_NICHE);
  g_autoptr (DryAdvice) advice = advice_rig_advise (project, &niche, NULL);
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
  g_test_add_func ("/advisor/snap", test_snap);
  return g_test_run ();
}
