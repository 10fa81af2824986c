/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Transforms, margins and the painter: nothing leaves the page, nothing crashes at any zoom.
 * Ink is counted on image surfaces, so a claim about what is painted can fail. */
#include <math.h>

#include "draw/drawings.h"
#include "draw/painter.h"
#include "fixture-plan.h"
#include "support/fixtures.h"

static cairo_t *
open_image (int width, int height)
{
  cairo_surface_t *surface = cairo_image_surface_create (CAIRO_FORMAT_ARGB32, width, height);
  cairo_t *cr = cairo_create (surface);

  cairo_surface_destroy (surface);
  return cr;
}

/* Pixels in the rectangle that hold any ink. */
static guint
count_ink (cairo_t *cr, int x0, int y0, int x1, int y1)
{
  cairo_surface_t *surface = cairo_get_target (cr);
  const guchar *data;
  guint n = 0;
  int stride;

  cairo_surface_flush (surface);
  data = cairo_image_surface_get_data (surface);
  stride = cairo_image_surface_get_stride (surface);
  for (int y = y0; y < y1; y++)
    for (int x = x0; x < x1; x++)
      n += ((const guint32 *) (const void *) (data + (gssize) y * stride))[x] >> 24 != 0;
  return n;
}

static void
test_round_trip (void)
{
  static const DryTransform transforms[] = {
      {1e-6, 0, 0, 3.78}, {3.2e-8, 517.25, -90, 3.78}, {2e-4, -1e5, 4e5, 2}};

  for (guint i = 0; i < G_N_ELEMENTS (transforms); i++)
    for (int step = -5; step <= 5; step++) {
      DryPoint at = {step * 7 * DRY_MM, -step * 11 * DRY_MM}, back;
      double x, y;
      dry_transform_to_device (&transforms[i], at, &x, &y);
      back = dry_transform_to_scene (&transforms[i], x, y);
      /* Doubles carry the nanometre at these sizes to within a few. */
      g_assert_cmpint (ABS (back.x - at.x), <=, 4);
      g_assert_cmpint (ABS (back.y - at.y), <=, 4);
    }
}

static void
test_bad_transforms (void)
{
  static const double bad[] = {0, -1, NAN, INFINITY, -INFINITY, 1e300, 1e-300};
  g_autoptr (DryFixture) fixture = dry_fixture_new (FALSE);
  g_autoptr (DryScene) scene = dry_drawing_board (&fixture->plan);

  for (guint i = 0; i < G_N_ELEMENTS (bad); i++) {
    DryTransform forms[4] = {{bad[i], 0, 0, 3.78},
                             {1e-7, bad[i], 0, 3.78},
                             {1e-7, 0, bad[i], 3.78},
                             {1e-7, 0, 0, bad[i]}};
    for (guint f = 0; f < 4; f++) {
      cairo_t *cr = open_image (60, 60);
      double x, y;
      DryPoint p;
      dry_transform_to_device (&forms[f], (DryPoint){DRY_LENGTH_MAX, -DRY_LENGTH_MAX}, &x, &y);
      g_assert_true (isfinite (x) && isfinite (y) && fabs (x) <= 1e6 && fabs (y) <= 1e6);
      p = dry_transform_to_scene (&forms[f], bad[i], bad[i]);
      g_assert_cmpint (ABS (p.x), <=, DRY_LENGTH_MAX);
      dry_painter_paint (cr, scene, &forms[f], dry_style_get (DRY_STYLE_LIGHT), DRY_LAYERS_ALL,
                         NULL);
      dry_painter_paint_object (cr, scene, &forms[f], dry_style_get (DRY_STYLE_LIGHT), 1,
                                DRY_INK_ADVICE);
      g_assert_cmpint (cairo_status (cr), ==, CAIRO_STATUS_SUCCESS);
      cairo_destroy (cr);
    }
  }
}

/* Far in and far out: never an error, and never so much work that a frame takes a second. */
static void
test_zooms (void)
{
  g_autoptr (DryFixture) fixture = dry_fixture_new (FALSE);
  g_autoptr (DryScene) scene = dry_drawing_board (&fixture->plan);

  for (double scale = 1e-12; scale < 1; scale *= 10) {
    DryTransform form = {scale, 200, 200, 3.78};
    cairo_t *cr = open_image (400, 400);
    gint64 start = g_get_monotonic_time ();
    dry_painter_paint (cr, scene, &form, dry_style_get (DRY_STYLE_DARK), DRY_LAYERS_ALL, NULL);
    g_assert_cmpint (cairo_status (cr), ==, CAIRO_STATUS_SUCCESS);
    g_assert_cmpint (g_get_monotonic_time () - start, <, 2 * G_USEC_PER_SEC);
    cairo_destroy (cr);
  }
}

/* A scene of impossible points, as a broken caller might hand over. */
static void
test_extreme_points (void)
{
  DryPoint points[4] = {{G_MAXINT64, G_MININT64}, {G_MININT64, 0}, {0, G_MAXINT64}, {1, 1}};
  DryPrimitive items[5] = {
      {.kind = DRY_PRIMITIVE_PATH,
       .closed = TRUE,
       .fill = DRY_INK_BOARD,
       .fill_alpha = 0.5,
       .hatch = DRY_HATCH_DIAGONAL},
      {.kind = DRY_PRIMITIVE_PATH, .dash = DRY_DASH_DOTTED},
      {.kind = DRY_PRIMITIVE_CIRCLE,
       .radius = G_MAXINT64,
       .fill = DRY_INK_WET,
       .fill_alpha = 1,
       .hatch = DRY_HATCH_DOTS},
      {.kind = DRY_PRIMITIVE_TEXT, .text = "x", .size = 2},
      {.kind = DRY_PRIMITIVE_DIMENSION, .text = "9", .size = 2, .row = 4000000000u}};
  DryScene scene = {.items = items, .n = G_N_ELEMENTS (items)};

  for (guint i = 0; i < scene.n; i++) {
    items[i].points = points;
    items[i].n_points = i < 2 ? 4 : i == 4 ? 2 : 1;
    items[i].stroke = DRY_INK_LINE;
    items[i].pen = i == 3 ? DRY_PEN_NONE : DRY_PEN_035;
  }
  for (double scale = 1e-10; scale < 1e-2; scale *= 100) {
    DryTransform form = {scale, 50, 50, 3.78};
    cairo_t *cr = open_image (100, 100);
    dry_painter_paint (cr, &scene, &form, dry_style_get (DRY_STYLE_PAPER), DRY_LAYERS_ALL, NULL);
    g_assert_cmpint (cairo_status (cr), ==, CAIRO_STATUS_SUCCESS);
    cairo_destroy (cr);
  }
}

static void
test_fit (void)
{
  static const int sizes[][2] = {{1300, 900}, {700, 1200}, {2400, 500}, {400, 400}};
  static const char *const names[] = {"board",  "plan",    "strip",  "face:B",
                                      "face:C", "sheet:1", "section"};
  g_autoptr (DryFixture) fixture = dry_fixture_new (FALSE);

  for (guint n = 0; n < G_N_ELEMENTS (names); n++) {
    g_autoptr (DryScene) scene = dry_drawing_by_name (&fixture->plan, names[n], NULL);
    for (guint i = 0; i < G_N_ELEMENTS (sizes); i++) {
      int w = sizes[i][0], h = sizes[i][1], pad = 40;
      DryTransform form = dry_transform_fit (scene, w, h, 2.5);
      cairo_t *cr = open_image (w + 2 * pad, h + 2 * pad);
      double x0, y0, x1, y1;
      dry_transform_to_device (&form, (DryPoint){scene->bounds.x0, scene->bounds.y1}, &x0, &y0);
      dry_transform_to_device (&form, (DryPoint){scene->bounds.x1, scene->bounds.y0}, &x1, &y1);
      g_assert_cmpfloat (x0, >=, 0);
      g_assert_cmpfloat (y0, >=, 0);
      g_assert_cmpfloat (x1, <=, w);
      g_assert_cmpfloat (y1, <=, h);
      /* Dimensions and letters stay within the box too: not a pixel in the border round it. */
      form.x += pad;
      form.y += pad;
      dry_painter_paint (cr, scene, &form, dry_style_get (DRY_STYLE_LIGHT), DRY_LAYERS_ALL, NULL);
      g_test_message ("%s in %d x %d", names[n], w, h);
      g_assert_cmpuint (count_ink (cr, 0, 0, w + 2 * pad, pad - 1), ==, 0);
      g_assert_cmpuint (count_ink (cr, 0, h + pad + 1, w + 2 * pad, h + 2 * pad), ==, 0);
      g_assert_cmpuint (count_ink (cr, 0, 0, pad - 1, h + 2 * pad), ==, 0);
      g_assert_cmpuint (count_ink (cr, w + pad + 1, 0, w + 2 * pad, h + 2 * pad), ==, 0);
      g_assert_cmpuint (count_ink (cr, pad, pad, w + pad, h + pad), >, 500);
      cairo_destroy (cr);
    }
  }
}

static void
test_margins (void)
{
  g_autoptr (DryFixture) fixture = dry_fixture_new (FALSE);
  g_autoptr (DryScene) scene = dry_drawing_face (&fixture->plan, 1);
  double all[4], none[4];

  dry_scene_margins (scene, DRY_LAYERS_ALL, all);
  dry_scene_margins (scene, 1u << DRY_LAYER_BOARDS, none);
  /* Two rows above (seams, whole) and at the left; one or more below and at the right. */
  for (guint i = 0; i < 4; i++)
    g_assert_cmpfloat (all[i], >, none[i] + 8);
  g_assert_cmpfloat (all[1], >, 15);
  g_assert_cmpfloat (all[0], >, 15);
}

/* Layers and clip leave out what they should. */
static void
test_layers_and_clip (void)
{
  g_autoptr (DryFixture) fixture = dry_fixture_new (FALSE);
  g_autoptr (DryScene) scene = dry_drawing_face (&fixture->plan, 1);
  const DryStyle *style = dry_style_get (DRY_STYLE_LIGHT);
  DryTransform form = dry_transform_fit (scene, 300, 300, 1.5);
  DryRect nowhere = {DRY_LENGTH_MAX - 1, DRY_LENGTH_MAX - 1, DRY_LENGTH_MAX, DRY_LENGTH_MAX};
  guint ink[4];

  for (guint i = 0; i < 4; i++) {
    cairo_t *cr = open_image (300, 300);
    if (i == 3)
      dry_painter_paint_object (cr, scene, &form, style, fixture->plan.context.room->parts[0].id,
                                DRY_INK_ADVICE);
    else
      dry_painter_paint (cr, scene, &form, style,
                         i == 0   ? DRY_LAYERS_ALL
                         : i == 1 ? 0
                                  : 1u << DRY_LAYER_BOARDS,
                         i == 2 ? &nowhere : NULL);
    ink[i] = count_ink (cr, 0, 0, 300, 300);
    cairo_destroy (cr);
  }
  g_assert_cmpuint (ink[0], >, 10000);
  g_assert_cmpuint (ink[1], ==, 0);
  g_assert_cmpuint (ink[2], ==, 0);
  g_assert_cmpuint (ink[3], >, 50);
  g_assert_cmpuint (ink[3], <, ink[0] / 4);
}

/* What small faces are is told above the first of them, at every scale. */
static guint
check_titles (const DryScene *scene, const DryTransform *form, const GArray *shown)
{
  guint n = 0;

  for (guint i = 0; i < shown->len; i++) {
    const DryShownText *title = &g_array_index (shown, DryShownText, i);
    DryRect named;
    double x, y;

    if (title->item->anchor != DRY_ANCHOR_ABOVE_LEFT)
      continue;
    named = scene->views[title->item->view].bounds;
    dry_transform_to_device (form, (DryPoint){named.x0, named.y1}, &x, &y);
    g_assert_cmpfloat (title->y1, <=, y + 0.5);
    n++;
  }
  return n;
}

/* Letters as they were really painted never touch: figures, marks, sizes, titles alike. Returns how
 * many titles were seen. */
static guint
check_letters (const DryScene *scene, double factor, const char *what)
{
  cairo_t *cr = open_image (740, 700);
  DryTransform form = dry_transform_fit (scene, 740, 700, 3.78);
  g_autoptr (GArray) shown = NULL;

  form.x = 370 + (form.x - 370) * factor;
  form.y = 350 + (form.y - 350) * factor;
  form.scale *= factor;
  /* Numbers of cuts and turning space are switched on to be read instead of the rest. */
  shown = dry_painter_paint_and_tell (cr, scene, &form, dry_style_get (DRY_STYLE_LIGHT),
                                      DRY_LAYERS_ALL & ~(1u << DRY_LAYER_CUTS) &
                                          ~(1u << DRY_LAYER_TURNING));
  for (guint i = 0; i < shown->len; i++)
    for (guint j = i + 1; j < shown->len; j++) {
      const DryShownText *a = &g_array_index (shown, DryShownText, i);
      const DryShownText *b = &g_array_index (shown, DryShownText, j);
      gboolean figures =
          a->item->kind == DRY_PRIMITIVE_DIMENSION && b->item->kind == DRY_PRIMITIVE_DIMENSION;
      /* Figures side by side keep a millimetre between them, half of it here against rounding. */
      double clear = figures ? 0.5 * 3.78 : 0;
      double across = MIN (a->x1, b->x1) - MAX (a->x0, b->x0);
      double along = MIN (a->y1, b->y1) - MAX (a->y0, b->y0);
      gboolean lying = a->item->side == DRY_TOWARD_UP || a->item->side == DRY_TOWARD_DOWN;
      if (across > (lying ? -clear : 0) && along > (lying ? 0 : -clear))
        g_test_message ("%s at %.2f: \"%s\" and \"%s\"", what, factor, a->item->text,
                        b->item->text);
      g_assert_false (across > (lying ? -clear : 0) && along > (lying ? 0 : -clear));
    }
  cairo_destroy (cr);
  return check_titles (scene, &form, shown);
}

static void
test_letters_stay_clear (void)
{
  static const double factors[] = {0.3, 0.6, 1, 1.7, 4};
  guint n = 0, titles = 0;

  for (guint32 seed = 1; seed <= 40; seed++) {
    g_autoptr (DryProject) project = dry_test_random_project (seed);
    g_autoptr (GError) error = NULL;
    g_autoptr (DryPlan) plan = dry_plan_new (project, dry_project_get_room_at (project, 0)->id,
                                             dry_test_catalog (), NULL, &error);
    g_autoptr (DryScene) board = NULL;

    g_assert_no_error (error);
    board = dry_drawing_board (plan);
    for (guint f = 0; f < G_N_ELEMENTS (factors); f++)
      titles += check_letters (board, factors[f], "board");
    for (guint i = 0; i < plan->faces->n; i += 2, n++) {
      g_autoptr (DryScene) face = dry_drawing_face (plan, i);
      check_letters (face, factors[seed % 5], "face");
    }
  }
  g_assert_cmpuint (n, >, 40);
  g_assert_cmpuint (titles, >, 40);
}

/* Where a figure of an inner row is seen, so is the outermost one of that side. */
static void
check_overall (const DryScene *scene, const GArray *shown)
{
  for (guint i = 0; i < shown->len; i++) {
    const DryPrimitive *inner = g_array_index (shown, DryShownText, i).item;
    guint last = inner->row;
    gboolean seen = FALSE;
    if (inner->kind != DRY_PRIMITIVE_DIMENSION || inner->side != DRY_TOWARD_UP)
      continue;
    for (guint j = 0; j < scene->n; j++)
      if (scene->items[j].kind == DRY_PRIMITIVE_DIMENSION && scene->items[j].side == inner->side &&
          scene->items[j].view == inner->view)
        last = MAX (last, scene->items[j].row);
    for (guint j = 0; j < shown->len && !seen; j++) {
      const DryPrimitive *other = g_array_index (shown, DryShownText, j).item;
      seen = other->kind == DRY_PRIMITIVE_DIMENSION && other->side == inner->side &&
             other->view == inner->view && other->row == last;
    }
    g_assert_true (seen);
  }
}

/* Rows go as space gets scarce, and overall sizes are the last to go. */
static void
test_rows_give_way (void)
{
  g_autoptr (DryFixture) fixture = dry_fixture_new (FALSE);
  g_autoptr (DryScene) scene = dry_drawing_board (&fixture->plan);
  guint least = G_MAXUINT, most = 0;

  for (int size = 120; size <= 1200; size += 120) {
    DryTransform form = dry_transform_fit (scene, size, size, 3.78);
    cairo_t *cr = open_image (size, size);
    g_autoptr (GArray) shown = dry_painter_paint_and_tell (
        cr, scene, &form, dry_style_get (DRY_STYLE_LIGHT), DRY_LAYERS_ALL);
    guint figures = 0;
    check_overall (scene, shown);
    for (guint i = 0; i < shown->len; i++)
      figures += g_array_index (shown, DryShownText, i).item->kind == DRY_PRIMITIVE_DIMENSION;
    least = MIN (least, figures);
    most = MAX (most, figures);
    cairo_destroy (cr);
  }
  g_assert_cmpuint (most, >, 12);
  g_assert_cmpuint (least, <, most / 2);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/draw/transform/round-trip", test_round_trip);
  g_test_add_func ("/draw/transform/bad", test_bad_transforms);
  g_test_add_func ("/draw/transform/fit", test_fit);
  g_test_add_func ("/draw/margins", test_margins);
  g_test_add_func ("/draw/painter/zooms", test_zooms);
  g_test_add_func ("/draw/painter/extreme-points", test_extreme_points);
  g_test_add_func ("/draw/painter/layers-and-clip", test_layers_and_clip);
  g_test_add_func ("/draw/painter/letters-stay-clear", test_letters_stay_clear);
  g_test_add_func ("/draw/painter/rows-give-way", test_rows_give_way);
  return g_test_run ();
}
