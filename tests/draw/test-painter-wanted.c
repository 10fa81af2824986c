/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What is lit up, what a clip leaves out, and shapes at the edge of what the painter takes: by the
 * pixels that come of hand-made scenes. */
#include <math.h>

#include "draw/painter.h"
#include "draw/scene-builder.h"

#define SIZE 200

/* A millimeter of the scene is a pixel, its origin the lower left corner. */
static const DryTransform form = {1e-6, 0, SIZE, 3.78};

static cairo_t *
open_image (void)
{
  cairo_surface_t *surface = cairo_image_surface_create (CAIRO_FORMAT_ARGB32, SIZE, SIZE);
  cairo_t *cr = cairo_create (surface);

  cairo_surface_destroy (surface);
  return cr;
}

/* How much of the pixel's color and cover there is: 0 = nothing painted. */
static guint32
pixel (cairo_t *cr, double x_mm, double y_mm)
{
  cairo_surface_t *surface = cairo_get_target (cr);
  const guchar *data;

  cairo_surface_flush (surface);
  data = cairo_image_surface_get_data (surface);
  data += (gssize) (SIZE - 1 - (int) y_mm) * cairo_image_surface_get_stride (surface);
  return ((const guint32 *) (const void *) data)[(int) x_mm];
}

static guint
count_ink (cairo_t *cr, int x0, int y0, int x1, int y1)
{
  guint n = 0;

  for (int y = y0; y < y1; y++)
    for (int x = x0; x < x1; x++)
      n += pixel (cr, x, y) >> 24 != 0;
  return n;
}

static DryRect
square (double x, double y, double side)
{
  return (DryRect){(DryLength) (x * 1e6), (DryLength) (y * 1e6), (DryLength) ((x + side) * 1e6),
                   (DryLength) ((y + side) * 1e6)};
}

/* Object 1: a filled square with an edge at (20, 20), one without at (120, 20), a screw at (40,
 * 150); object 2: a circle at (150, 150), and letters. */
static DryScene *
make_scene (void)
{
  DryLook filled = {.stroke = DRY_INK_LINE, .pen = DRY_PEN_050, .fill = DRY_INK_BOARD, .alpha = 1};
  DryLook plain = {.fill = DRY_INK_PAPER, .alpha = 1};
  DrySceneBuilder b;

  dry_scene_builder_init (&b, NULL);
  dry_scene_builder_begin_view (&b, DRY_VIEW_PLAN, -1, (DryPoint){0, 0}, "test");
  dry_scene_builder_tag (&b, DRY_LAYER_BOARDS, DRY_SHOWS_BOARD, 1, 0);
  dry_scene_builder_rect (&b, filled, square (20, 20, 50));
  dry_scene_builder_rect (&b, plain, square (120, 20, 50));
  dry_scene_builder_mark (&b, DRY_MARK_SCREW, DRY_INK_FASTENER,
                          (DryPoint){40 * DRY_MM, 150 * DRY_MM});
  dry_scene_builder_tag (&b, DRY_LAYER_PARTS, DRY_SHOWS_PART, 2, 0);
  dry_scene_builder_circle (&b, filled, (DryPoint){150 * DRY_MM, 150 * DRY_MM}, 25 * DRY_MM);
  dry_scene_builder_text (&b, (DryPoint){100 * DRY_MM, 100 * DRY_MM}, (DryLettering){0}, "word");
  return dry_scene_builder_finish (&b);
}

static gboolean
is_object (const DryPrimitive *item, gconstpointer data)
{
  return item->object == *(const DryId *) data;
}

/* What is wanted lights up, its screws and what has no edge of its own as well, letters never; the
 * rest stays dark. */
static void
test_wanted (void)
{
  static const struct {
    DryId object;
    gboolean boards, circle;
  } cases[] = {{1, TRUE, FALSE}, {2, FALSE, TRUE}, {3, FALSE, FALSE}};
  g_autoptr (DryScene) scene = make_scene ();

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++) {
    cairo_t *cr = open_image ();

    dry_painter_paint_wanted (cr, scene, &form, dry_style_get (DRY_STYLE_LIGHT), DRY_INK_ADVICE,
                              is_object, &cases[i].object);
    g_assert_cmpint (pixel (cr, 40, 40) != 0, ==, cases[i].boards);
    g_assert_cmpint (count_ink (cr, 115, 15, 175, 75) > 0, ==, cases[i].boards);
    g_assert_cmpint (count_ink (cr, 30, 140, 50, 160) > 0, ==, cases[i].boards);
    g_assert_cmpint (pixel (cr, 150, 150) != 0, ==, cases[i].circle);
    g_assert_cmpuint (count_ink (cr, 85, 90, 115, 110), ==, 0);
    /* Areas are a breath of ink, so that what lies in them can be read; paper is none. */
    if (cases[i].boards) {
      g_assert_cmpuint (pixel (cr, 40, 40) >> 24, <, 70);
      g_assert_cmpuint (pixel (cr, 145, 45), ==, 0);
    }
    cairo_destroy (cr);
  }
}

/* A transform nobody can paint with paints nothing. */
static void
test_bad_transforms (void)
{
  static const DryTransform bad[] = {{0, 0, 0, 3.78},           {NAN, 0, 0, 3.78},
                                     {1e-6, INFINITY, 0, 3.78}, {1e-6, 0, NAN, 3.78},
                                     {1e-6, 0, 0, 0},           {1e-6, 0, 0, 1e5}};
  const DryId object = 1;
  g_autoptr (DryScene) scene = make_scene ();

  for (guint i = 0; i < G_N_ELEMENTS (bad); i++) {
    cairo_t *cr = open_image ();
    const DryStyle *style = dry_style_get (DRY_STYLE_LIGHT);
    g_autoptr (GArray) shown = NULL;

    dry_painter_paint_wanted (cr, scene, &bad[i], style, DRY_INK_ADVICE, is_object, &object);
    dry_painter_paint_object (cr, scene, &bad[i], style, object, DRY_INK_ADVICE);
    shown = dry_painter_paint_and_tell (cr, scene, &bad[i], style, G_MAXUINT);
    g_assert_cmpuint (shown->len, ==, 0);
    g_assert_cmpuint (count_ink (cr, 0, 0, SIZE, SIZE), ==, 0);
    cairo_destroy (cr);
  }
}

/* Of an object only its shapes: no finding, joint, member or dimension that carries its id, no
 * letters, and nothing when no object is meant. */
static void
test_object (void)
{
  static const struct {
    DryLayer layer;
    DryShows shows;
    DryId object;
    gboolean lit;
  } cases[] = {{DRY_LAYER_PARTS, DRY_SHOWS_PART, 5, TRUE},
               {DRY_LAYER_PARTS, DRY_SHOWS_WALL, 5, TRUE},
               {DRY_LAYER_DIMENSIONS, DRY_SHOWS_PART, 5, FALSE},
               {DRY_LAYER_FINDINGS, DRY_SHOWS_FINDING, 5, FALSE},
               {DRY_LAYER_JOINTS, DRY_SHOWS_JOINT, 5, FALSE},
               {DRY_LAYER_STUDS, DRY_SHOWS_MEMBER, 5, FALSE},
               {DRY_LAYER_PARTS, DRY_SHOWS_PART, 6, FALSE},
               {DRY_LAYER_PARTS, DRY_SHOWS_PART, 0, FALSE}};
  const DryLook look = {.stroke = DRY_INK_LINE, .pen = DRY_PEN_050};

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++) {
    DrySceneBuilder b;
    g_autoptr (DryScene) scene = NULL;
    cairo_t *cr = open_image ();
    DryId meant = cases[i].object == 0 ? 0 : 5;

    dry_scene_builder_init (&b, NULL);
    dry_scene_builder_tag (&b, cases[i].layer, cases[i].shows, cases[i].object, 0);
    dry_scene_builder_rect (&b, look, square (20, 20, 50));
    dry_scene_builder_text (&b, (DryPoint){100 * DRY_MM, 100 * DRY_MM}, (DryLettering){0}, "word");
    scene = dry_scene_builder_finish (&b);
    dry_painter_paint_object (cr, scene, &form, dry_style_get (DRY_STYLE_LIGHT), meant,
                              DRY_INK_ADVICE);
    g_assert_cmpint (count_ink (cr, 0, 0, SIZE, SIZE) > 0, ==, cases[i].lit);
    g_assert_cmpuint (count_ink (cr, 85, 90, 115, 110), ==, 0);
    cairo_destroy (cr);
  }
}

/* What lies beyond the clip on any side is left out; what reaches into it is painted. */
static void
test_clip (void)
{
  static const struct {
    double x, y;
    gboolean seen;
  } cases[] = {{90, 90, TRUE},  {60, 90, TRUE},   {120, 90, TRUE}, {90, 60, TRUE},  {90, 120, TRUE},
               {20, 90, FALSE}, {160, 90, FALSE}, {90, 20, FALSE}, {90, 160, FALSE}};
  const DryRect clip = square (80, 80, 40);
  const DryLook look = {.stroke = DRY_INK_LINE, .pen = DRY_PEN_050};

  for (guint i = 0; i < 2 * G_N_ELEMENTS (cases); i++) {
    double x = cases[i / 2].x, y = cases[i / 2].y;
    DrySceneBuilder b;
    g_autoptr (DryScene) scene = NULL;
    cairo_t *cr = open_image ();

    dry_scene_builder_init (&b, NULL);
    if (i % 2)
      dry_scene_builder_rect (&b, look, square (x, y, 25));
    else
      dry_scene_builder_circle (
          &b, look, (DryPoint){(DryLength) ((x + 12.5) * 1e6), (DryLength) ((y + 12.5) * 1e6)},
          12500000);
    scene = dry_scene_builder_finish (&b);
    dry_painter_paint (cr, scene, &form, dry_style_get (DRY_STYLE_LIGHT), G_MAXUINT, &clip);
    g_assert_cmpint (count_ink (cr, 0, 0, SIZE, SIZE) > 0, ==, cases[i / 2].seen);
    cairo_destroy (cr);
  }
}

/* Marks each have their sign; what lies outside the window is none. */
static void
test_marks (void)
{
  static const DryMark marks[] = {DRY_MARK_SCREW,  DRY_MARK_WASHER, DRY_MARK_STOP,  DRY_MARK_FIX,
                                  DRY_MARK_ADVICE, DRY_MARK_NORTH,  DRY_MARK_DRAIN, DRY_MARK_CROSS};
  guint inks[G_N_ELEMENTS (marks)];

  for (guint i = 0; i < G_N_ELEMENTS (marks); i++)
    for (guint out = 0; out < 2; out++) {
      DrySceneBuilder b;
      g_autoptr (DryScene) scene = NULL;
      cairo_t *cr = open_image ();
      guint n;

      dry_scene_builder_init (&b, NULL);
      dry_scene_builder_mark (&b, marks[i], DRY_INK_LINE,
                              (DryPoint){(out ? 900 : 100) * DRY_MM, 100 * DRY_MM});
      scene = dry_scene_builder_finish (&b);
      dry_painter_paint (cr, scene, &form, dry_style_get (DRY_STYLE_LIGHT), G_MAXUINT, NULL);
      n = count_ink (cr, 0, 0, SIZE, SIZE);
      if (out)
        g_assert_cmpuint (n, ==, 0);
      else {
        inks[i] = n;
        g_assert_cmpuint (n, >, 0);
      }
      cairo_destroy (cr);
    }
  /* A washer is larger than its screw. */
  g_assert_cmpuint (inks[1], >, inks[0]);
}

static guint
paint_ink (const DryPrimitive *item)
{
  DryPrimitive own = *item;
  DryScene scene = {.items = &own, .n = 1};
  cairo_t *cr = open_image ();
  guint n;

  dry_painter_paint (cr, &scene, &form, dry_style_get (DRY_STYLE_LIGHT), G_MAXUINT, NULL);
  g_assert_cmpint (cairo_status (cr), ==, CAIRO_STATUS_SUCCESS);
  n = count_ink (cr, 0, 0, SIZE, SIZE);
  cairo_destroy (cr);
  return n;
}

/* A hatch alone is painted without a ground, each kind in its own way; a line of many points keeps
 * its dashes; an ink nobody knows is the drawing's black; a fill more than solid is solid. */
static void
test_looks (void)
{
  DryPoint box[4] = {{20 * DRY_MM, 20 * DRY_MM},
                     {180 * DRY_MM, 20 * DRY_MM},
                     {180 * DRY_MM, 180 * DRY_MM},
                     {20 * DRY_MM, 180 * DRY_MM}};
  DryPrimitive item = {
      .kind = DRY_PRIMITIVE_PATH, .points = box, .n_points = 4, .closed = TRUE, .fill_alpha = 1};
  guint solid, dashed;

  for (guint hatch = DRY_HATCH_NONE; hatch <= DRY_HATCH_WARNING; hatch++) {
    item.hatch = hatch;
    item.fill = DRY_INK_NONE;
    item.stroke = DRY_INK_LINE;
    item.pen = DRY_PEN_NONE;
    g_assert_cmpint (paint_ink (&item) > 0, ==, hatch != DRY_HATCH_NONE);
    g_assert_cmpuint (paint_ink (&item), <, 160 * 160);
  }
  item.hatch = DRY_HATCH_NONE;
  item.fill = DRY_N_INKS + 5;
  item.fill_alpha = 7;
  g_assert_cmpuint (paint_ink (&item), >=, 160 * 160);
  item.fill_alpha = -1;
  g_assert_cmpuint (paint_ink (&item), ==, 0);
  {
    g_autofree DryPoint *many = g_new (DryPoint, 600);

    for (guint i = 0; i < 600; i++)
      many[i] = (DryPoint){20 * DRY_MM + (DryLength) i * DRY_MM / 4, 100 * DRY_MM};
    item = (DryPrimitive){.kind = DRY_PRIMITIVE_PATH,
                          .points = many,
                          .n_points = 600,
                          .stroke = DRY_INK_LINE,
                          .pen = DRY_PEN_050};
    solid = paint_ink (&item);
    item.dash = DRY_DASH_DASHED;
    dashed = paint_ink (&item);
    g_assert_cmpuint (dashed, <, solid);
    g_assert_cmpuint (dashed, >, solid / 3);
  }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/draw/painter/wanted", test_wanted);
  g_test_add_func ("/draw/painter/wanted-bad-transforms", test_bad_transforms);
  g_test_add_func ("/draw/painter/object", test_object);
  g_test_add_func ("/draw/painter/clip", test_clip);
  g_test_add_func ("/draw/painter/marks", test_marks);
  g_test_add_func ("/draw/painter/looks", test_looks);
  return g_test_run ();
}
