/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Dimension strings, letters and curves as the builder makes them, by values.
 * Draws no plan. */
#include "draw/scene-builder.h"
#include "draw/scene.h"

#define IN(x) ((DryLength) ((x) *25400000.0))

static void
open_view (DrySceneBuilder *b, gboolean metric)
{
  DryJob job = {.metric = metric, .denominator = 8};

  dry_scene_builder_init (b, &job);
  dry_scene_builder_begin_view (b, DRY_VIEW_PLAN, -1, (DryPoint){0, 0}, "test");
}

static void
check_figures (DrySceneBuilder *b, const char *wanted)
{
  g_autoptr (DryScene) scene = dry_scene_builder_finish (b);
  g_autoptr (GString) text = g_string_new (NULL);

  for (guint i = 0; i < scene->n; i++) {
    g_assert_cmpint (scene->items[i].kind, ==, DRY_PRIMITIVE_DIMENSION);
    g_string_append_printf (text, "%s%s@%u", i ? " " : "", scene->items[i].text,
                            scene->items[i].row);
  }
  g_assert_cmpstr (text->str, ==, wanted);
}

/* Stops in any order, doubles and near doubles once; nothing where there is no length. */
static void
test_chains (void)
{
  static const struct {
    double stops[5];
    guint n;
    DryToward side;
    gboolean metric;
    const char *figures;
  } cases[] = {
      {{30, 0, 60}, 3, DRY_TOWARD_UP, FALSE, "30\"@0 30\"@0"},
      {{30, 0, 60}, 3, DRY_TOWARD_LEFT, FALSE, "30\"@0 30\"@0"},
      {{0, 30, 30, 60}, 4, DRY_TOWARD_UP, FALSE, "30\"@0 30\"@0"},
      {{0, 30, 30.05, 60}, 4, DRY_TOWARD_DOWN, FALSE, "30\"@0 30\"@0"},
      {{0, 10}, 2, DRY_TOWARD_RIGHT, TRUE, "254@0"},
      {{10, 10, 10}, 3, DRY_TOWARD_UP, FALSE, ""},
      {{10}, 1, DRY_TOWARD_UP, FALSE, ""},
      {{0}, 0, DRY_TOWARD_UP, FALSE, ""},
  };

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++) {
    DrySceneBuilder b;
    DryLength stops[5];

    for (guint k = 0; k < 5; k++)
      stops[k] = IN (cases[i].stops[k]);
    open_view (&b, cases[i].metric);
    g_assert_cmpuint (dry_scene_builder_chain (&b, stops, cases[i].n, 0, cases[i].side, 0), ==, 0);
    check_figures (&b, cases[i].figures);
  }
}

/* A dimension takes the first row where nothing of its side and base line lies in its way. */
static void
test_rows (void)
{
  static const struct {
    double a, b, base;
    DryToward side;
  } second[] = {{20, 40, 0, DRY_TOWARD_UP},  /* over the first */
                {30, 50, 0, DRY_TOWARD_UP},  /* side by side */
                {0, 30, 10, DRY_TOWARD_UP},  /* another base line */
                {0, 30, 0, DRY_TOWARD_DOWN}, /* another side */
                {30, 0, 0, DRY_TOWARD_UP}};  /* over it, told from the other end */
  static const guint rows[] = {1, 0, 0, 0, 1};

  for (guint i = 0; i < G_N_ELEMENTS (second); i++) {
    DrySceneBuilder b;
    g_autoptr (DryScene) scene = NULL;

    open_view (&b, FALSE);
    dry_scene_builder_dimension (&b, (DryPoint){0, 0}, (DryPoint){IN (30), 0}, DRY_TOWARD_UP, 0);
    dry_scene_builder_dimension (&b, (DryPoint){IN (second[i].a), IN (second[i].base)},
                                 (DryPoint){IN (second[i].b), IN (second[i].base)}, second[i].side,
                                 0);
    scene = dry_scene_builder_finish (&b);
    g_assert_cmpuint (scene->items[1].row, ==, rows[i]);
  }
  {
    DrySceneBuilder b;

    open_view (&b, FALSE);
    dry_scene_builder_dimension (&b, (DryPoint){0, IN (12)}, (DryPoint){0, 0}, DRY_TOWARD_LEFT, 2);
    dry_scene_builder_dimension (&b, (DryPoint){0, 0}, (DryPoint){IN (9), 0}, DRY_TOWARD_LEFT, 0);
    /* The second spans nothing upright: nothing is written. */
    check_figures (&b, "12\"@2");
  }
}

/* Sizes carry the inch mark on both, millimetres on neither but the last. */
static void
test_sizes (void)
{
  DrySceneBuilder b;

  open_view (&b, FALSE);
  g_assert_cmpstr (dry_scene_builder_size (&b, IN (12), IN (20.5)), ==, "12\" × 20\u20041/2\"");
  g_assert_cmpstr (dry_scene_builder_length (&b, IN (0.5)), ==, "1/2\"");
  dry_scene_unref (dry_scene_builder_finish (&b));
  open_view (&b, TRUE);
  g_assert_cmpstr (dry_scene_builder_size (&b, 300 * DRY_MM, 500 * DRY_MM), ==, "300 × 500 mm");
  dry_scene_unref (dry_scene_builder_finish (&b));
  /* Without a job: inches to the sixteenth. */
  dry_scene_builder_init (&b, NULL);
  g_assert_cmpstr (dry_scene_builder_length (&b, IN (0.0625)), ==, "1/16\"");
  dry_scene_unref (dry_scene_builder_finish (&b));
}

/* What has no extent or no letters adds nothing. */
static void
test_nothing (void)
{
  const DryLook look = DRY_LOOK_LINE (DRY_INK_LINE, DRY_PEN_025);
  const guint ends[] = {1};
  const DryPoint p = {IN (1), IN (1)};
  DrySceneBuilder b;
  g_autoptr (DryScene) scene = NULL;

  open_view (&b, FALSE);
  dry_scene_builder_text (&b, p, (DryLettering){0}, "%s", "");
  dry_scene_builder_path (&b, look, &p, 1, FALSE);
  dry_scene_builder_rings (&b, look, &p, 1, ends, 1, FALSE);
  /* A view that is begun ends the one before; ending twice does no harm. */
  dry_scene_builder_begin_view (&b, DRY_VIEW_SHEET, 0, (DryPoint){IN (9), 0}, "second");
  dry_scene_builder_end_view (&b);
  dry_scene_builder_end_view (&b);
  scene = dry_scene_builder_finish (&b);
  g_assert_cmpuint (scene->n, ==, 0);
  g_assert_cmpuint (scene->n_views, ==, 2);
  /* An empty view is a point at its origin. */
  g_assert_cmpint (scene->views[1].bounds.x0, ==, IN (9));
  g_assert_cmpint (scene->views[1].bounds.x1, ==, IN (9));
}

/* A radius is no larger than the rectangle takes; none at all gives its corners. */
static void
test_round_rects (void)
{
  static const struct {
    double width, height, radius, taken;
  } cases[] = {{10, 4, 1, 1}, {10, 4, 9, 2}, {4, 10, 9, 2}, {10, 4, -1, 0}, {10, 4, 0, 0}};

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++) {
    DryPoint p[4 * DRY_CURVE_POINTS];
    DryRect r = {0, 0, IN (cases[i].width), IN (cases[i].height)};
    guint n = dry_points_round_rect (p, r, IN (cases[i].radius));

    g_assert_cmpuint (n, ==, 4 * DRY_CURVE_POINTS);
    g_assert_cmpint (p[0].x, ==, r.x1 - IN (cases[i].taken));
    g_assert_cmpint (p[0].y, ==, r.y0);
    for (guint k = 0; k < n; k++)
      g_assert_true (p[k].x >= r.x0 && p[k].x <= r.x1 && p[k].y >= r.y0 && p[k].y <= r.y1);
  }
  {
    DryPoint one[1];

    /* One point of an arc is its beginning. */
    g_assert_cmpuint (dry_points_arc (one, (DryPoint){0, 0}, 100, 100, 90, 0, 1), ==, 1);
    g_assert_cmpint (one[0].y, ==, 100);
  }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/draw/builder/chains", test_chains);
  g_test_add_func ("/draw/builder/rows", test_rows);
  g_test_add_func ("/draw/builder/sizes", test_sizes);
  g_test_add_func ("/draw/builder/nothing", test_nothing);
  g_test_add_func ("/draw/builder/round-rects", test_round_rects);
  return g_test_run ();
}
