/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Squares and their sums: where a sum stays the same the pixels do, and a small change leaves most
 * sums alone. Pictures are compared pixel by pixel, against paints that know no squares. */
#include <string.h>

#include "draw/drawings.h"
#include "draw/painter.h"
#include "fixture-plan.h"
#include "support/fixtures.h"

#define SIZE   64
#define WIDTH  (20 * SIZE)
#define HEIGHT (14 * SIZE)

typedef struct {
  cairo_surface_t *image;
  DrySquares *squares;
} Painted;

/* The image is painted without squares: noting them must not change what is painted, either. */
static Painted
paint (const DryScene *scene, const DryTransform *transform, guint layers)
{
  Painted self = {cairo_image_surface_create (CAIRO_FORMAT_RGB24, WIDTH, HEIGHT),
                  dry_squares_new (0, 0, WIDTH / SIZE, HEIGHT / SIZE, SIZE)};
  const DryStyle *style = dry_style_get (DRY_STYLE_LIGHT);
  cairo_rectangle_t area = {0, 0, WIDTH, HEIGHT};
  cairo_surface_t *record = cairo_recording_surface_create (CAIRO_CONTENT_COLOR_ALPHA, &area);
  cairo_t *cr = cairo_create (record);

  dry_painter_paint_squares (cr, scene, transform, style, layers, NULL, self.squares);
  cairo_destroy (cr);
  cr = cairo_create (self.image);
  cairo_set_source_rgb (cr, 1, 1, 1);
  cairo_paint (cr);
  cairo_set_source_surface (cr, record, 0, 0);
  cairo_paint (cr);
  cairo_destroy (cr);
  cairo_surface_flush (self.image);
  cairo_surface_destroy (record);
  return self;
}

static void
clear (Painted *self)
{
  cairo_surface_destroy (self->image);
  dry_squares_free (self->squares);
}

/* The most a channel differs by within a square. */
static int
measure_difference (const Painted *a, const Painted *b, gint column, gint row)
{
  int stride = cairo_image_surface_get_stride (a->image), most = 0;

  for (int y = row * SIZE; y < (row + 1) * SIZE; y++)
    for (int x = column * SIZE * 4; x < (column + 1) * SIZE * 4; x++)
      if (x % 4 != 3) {
        const guchar *p = cairo_image_surface_get_data (a->image) + y * stride + x;
        const guchar *q = cairo_image_surface_get_data (b->image) + y * stride + x;

        most = MAX (most, abs (*p - *q));
      }
  return most;
}

static gboolean
is_blank (const Painted *a, gint column, gint row)
{
  int stride = cairo_image_surface_get_stride (a->image);

  for (int y = row * SIZE; y < (row + 1) * SIZE; y++)
    for (int x = column * SIZE * 4; x < (column + 1) * SIZE * 4; x++)
      if (x % 4 != 3 && cairo_image_surface_get_data (a->image)[y * stride + x] != 0xff)
        return FALSE;
  return TRUE;
}

/* How many squares differ by their sums; whoever has the same must look the same. */
static guint
compare_squares (const Painted *a, const Painted *b)
{
  guint n = 0;

  for (gint r = 0; r < HEIGHT / SIZE; r++)
    for (gint c = 0; c < WIDTH / SIZE; c++) {
      guint64 sum = dry_squares_get (a->squares, c, r);

      if (sum != dry_squares_get (b->squares, c, r)) {
        n++;
        continue;
      }
      /* Strokes of one pen go out as one path: at a crossing the last bit may differ. */
      if (measure_difference (a, b, c, r) > 3)
        g_error ("square %d, %d looks different under the same sum", c, r);
      if (sum == 0)
        g_assert_true (is_blank (a, c, r));
    }
  return n;
}

static DryScene *
draw (const DryProject *project)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (DryPlan) plan =
      dry_plan_new (project, dry_test_room (project), dry_test_catalog (), NULL, &error);

  g_assert_no_error (error);
  return dry_drawing_board (plan);
}

/* Zoomed about the niche on its face. */
static DryTransform
zoom_on (const DryScene *scene, DryId object, double zoom)
{
  DryTransform at = dry_transform_fit (scene, WIDTH, HEIGHT, 3.78);

  for (guint i = 0; zoom != 1 && i < scene->n; i++) {
    const DryPrimitive *item = &scene->items[i];

    if (item->object != object || item->view < 0 || item->n_points == 0 ||
        scene->views[item->view].kind != DRY_VIEW_FACE)
      continue;
    at.scale *= zoom;
    at.x = WIDTH / 2.0 - (double) item->points[0].x * at.scale;
    at.y = HEIGHT / 2.0 + (double) item->points[0].y * at.scale;
    return at;
  }
  return at;
}

/* A niche moved bit by bit, at several zooms: equal sums are never wrong, and most stay equal. */
static void
test_moved_niche (void)
{
  static const double zooms[] = {1, 2.5, 7};
  g_autoptr (DryProject) project = dry_test_furnished_alcove ("foam-bands");
  DryId room = dry_test_room (project);
  const DryPart *niche = dry_test_niche (dry_project_get_room (project, room));
  g_autoptr (DryScene) scene = draw (project);

  for (guint z = 0; z < G_N_ELEMENTS (zooms); z++) {
    DryTransform at = zoom_on (scene, niche->id, zooms[z]);
    guint differing = 0;

    Painted before = paint (scene, &at, DRY_LAYERS_ALL);

    for (guint i = 1; i <= 6; i++) {
      g_autoptr (GError) error = NULL;
      g_autoptr (DryProject) moved =
          dry_edit_move_part (project, room, niche->id, niche->wall, niche->side,
                              niche->u + (DryLength) i * DRY_INCH / 4, niche->z, &error);
      g_autoptr (DryScene) next = NULL;

      g_assert_no_error (error);
      next = draw (moved);
      Painted after = paint (next, &at, DRY_LAYERS_ALL);

      differing += compare_squares (&before, &after);
      clear (&after);
    }
    clear (&before);
    g_test_message ("zoom %.1f: %u of %u squares differ", zooms[z], differing,
                    6 * (WIDTH / SIZE) * (HEIGHT / SIZE));
    g_assert_cmpuint (differing, >, 0);
    if (zooms[z] == 1)
      g_assert_cmpuint (differing, <, 6 * (WIDTH / SIZE) * (HEIGHT / SIZE) / 2);
  }
}

/* Layers, systems, units and places: whatever is another drawing. */
static void
test_other_drawings (void)
{
  static const char *systems[] = {"foam-sealant", "cement-liquid", "mortar-bed"};
  g_autoptr (DryProject) project = dry_test_furnished_alcove ("foam-bands");
  g_autoptr (DryScene) scene = draw (project);
  DryTransform at = dry_transform_fit (scene, WIDTH, HEIGHT, 3.78), aside = at;
  Painted first = paint (scene, &at, DRY_LAYERS_ALL), same = paint (scene, &at, DRY_LAYERS_ALL);

  g_assert_cmpuint (compare_squares (&first, &same), ==, 0);
  clear (&same);
  for (guint layer = 0; layer < DRY_N_LAYERS; layer++) {
    Painted other = paint (scene, &at, DRY_LAYERS_ALL & ~(1u << layer));

    compare_squares (&first, &other);
    clear (&other);
  }
  for (guint i = 0; i < G_N_ELEMENTS (systems); i++) {
    g_autoptr (DryProject) project2 = dry_test_furnished_alcove (systems[i]);
    g_autoptr (DryScene) other_scene = draw (project2);
    Painted other = paint (other_scene, &at, DRY_LAYERS_ALL);

    compare_squares (&first, &other);
    clear (&other);
  }
  aside.x += 0.5; /* half a pixel aside is another picture nearly everywhere */
  Painted other = paint (scene, &aside, DRY_LAYERS_ALL);

  g_assert_cmpuint (compare_squares (&first, &other), >, 40);
  clear (&other);
  clear (&first);
}

/* Sizes and places of the books themselves. */
static void
test_books (void)
{
  g_autoptr (DrySquares) self = dry_squares_new (-2, 3, 4, 2, 10);

  g_assert_true (dry_squares_holds (self, -2, 3, 4, 2));
  g_assert_false (dry_squares_holds (self, -3, 3, 4, 2));
  g_assert_false (dry_squares_holds (self, -2, 3, 5, 2));
  g_assert_cmpuint (dry_squares_get (self, 50, 50), ==, 0);
  dry_squares_note (self, -1e9, -1e9, 1e9, 29.9, 7); /* ends above the first row */
  for (gint c = -2; c < 2; c++)
    g_assert_cmpuint (dry_squares_get (self, c, 3), ==, 0);
  dry_squares_note (self, -5, 30, 0, 39, 7); /* touches column -1 and 0 */
  g_assert_cmpuint (dry_squares_get (self, -2, 3), ==, 0);
  g_assert_cmpuint (dry_squares_get (self, -1, 3), !=, 0);
  g_assert_cmpuint (dry_squares_get (self, 0, 3), !=, 0);
  g_assert_cmpuint (dry_squares_get (self, 1, 3), ==, 0);
  g_assert_cmpuint (dry_squares_get (self, 0, 4), ==, 0);
  g_assert_cmpuint (dry_print_mix (dry_print_mix (0, 1), 2), !=,
                    dry_print_mix (dry_print_mix (0, 2), 1));
  g_assert_cmpuint (dry_print_place (0, 10, 20), ==, dry_print_place (0, 10 + 1e-9, 20 - 1e-9));
  g_assert_cmpuint (dry_print_place (0, 10, 20), !=, dry_print_place (0, 10.01, 20));
  g_assert_cmpuint (dry_print_place (0, 10, 20), !=, dry_print_place (0, 20, 10));
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/draw/squares/books", test_books);
  g_test_add_func ("/draw/squares/moved-niche", test_moved_niche);
  g_test_add_func ("/draw/squares/other-drawings", test_other_drawings);
  return g_test_run ();
}
