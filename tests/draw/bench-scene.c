/* SPDX-License-Identifier: GPL-3.0-or-later */
/* How long the whole board of a furnished alcove takes, from plan to scene and from scene to
 * pixels. Prints the median of many; a person compares, no limit is asserted. */
#include "draw/drawings.h"
#include "draw/painter.h"
#include "support/fixtures.h"

#define ROUNDS 200

static int
compare (gconstpointer a, gconstpointer b)
{
  gint64 x = *(const gint64 *) a, y = *(const gint64 *) b;

  return (x > y) - (x < y);
}

int
main (void)
{
  g_autoptr (DryProject) project = dry_test_furnished_alcove ("foam-bands");
  g_autoptr (GError) error = NULL;
  g_autoptr (DryPlan) plan =
      dry_plan_new (project, dry_test_room (project), dry_test_catalog (), NULL, &error);
  cairo_surface_t *surface = cairo_image_surface_create (CAIRO_FORMAT_RGB24, 1300, 900);
  cairo_t *cr = cairo_create (surface);
  gint64 scene_times[ROUNDS], paint_times[ROUNDS];

  g_assert_no_error (error);
  for (guint i = 0; i < ROUNDS; i++) {
    gint64 start = g_get_monotonic_time (), made;
    g_autoptr (DryScene) scene = dry_drawing_board (plan);
    DryTransform form = dry_transform_fit (scene, 1300, 900, 3.78);
    made = g_get_monotonic_time ();
    dry_painter_paint (cr, scene, &form, dry_style_get (DRY_STYLE_LIGHT), DRY_LAYERS_ALL, NULL);
    cairo_surface_flush (surface);
    scene_times[i] = made - start;
    paint_times[i] = g_get_monotonic_time () - made;
  }
  qsort (scene_times, ROUNDS, sizeof (gint64), compare);
  qsort (paint_times, ROUNDS, sizeof (gint64), compare);
  g_print ("scene: median %" G_GINT64_FORMAT " us (aim 1500); paint: median %" G_GINT64_FORMAT
           " us\n",
           scene_times[ROUNDS / 2], paint_times[ROUNDS / 2]);
  cairo_destroy (cr);
  cairo_surface_destroy (surface);
  return 0;
}
