/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The picture of where a part may stand: legal stretches of every face, hatched. Where those are is
 * the advisor's business. */
#include "ui/canvas-advice.h"

#include <math.h>

#include "ui/canvas-mark.h"

/* The stretch of wall that the part covers when it stands anywhere in the band. */
static void
add_swept (DryCanvas *self, cairo_t *cr, const DryAdvice *advice, DryRect band, DryPoint origin)
{
  DryPart part = *dry_advice_get_part (advice);
  DryRect rect;
  DrySpot a, b;

  part.u = band.x0;
  part.z = band.y0;
  rect = dry_part_rect (&part);
  a = dry_mark_spot (self,
                     (DryPoint){origin.x + rect.x0, origin.y + rect.y1 + dry_rect_height (band)});
  b = dry_mark_spot (self,
                     (DryPoint){origin.x + rect.x1 + dry_rect_width (band), origin.y + rect.y0});
  cairo_rectangle (cr, a.x, a.y, MAX (b.x - a.x, 1), MAX (b.y - a.y, 1));
}

static void
hatch_clip (cairo_t *cr, double gap, gboolean rising)
{
  double x0, y0, x1, y1;

  cairo_clip_extents (cr, &x0, &y0, &x1, &y1);
  for (double k = floor ((x0 - (y1 - y0)) / gap) * gap; k <= x1 + (y1 - y0); k += gap) {
    cairo_move_to (cr, k, rising ? y1 : y0);
    cairo_line_to (cr, k + (y1 - y0), rising ? y0 : y1);
  }
  cairo_stroke (cr);
}

/* Legal stretches are hatched one way; where nothing at all speaks against it, both ways. */
static void
paint_face (DryCanvas *self, cairo_t *cr, const DryAdvice *advice, const DryAdviceFace *face,
            GdkRGBA colour)
{
  gint view = dry_canvas_find_view (self, FALSE, face->wall, face->side);
  DryPoint o;

  if (view < 0)
    return;
  o = self->scene->views[view].origin;
  for (guint pass = 0; pass < 2; pass++) {
    const DryRect *bands = pass ? face->best : face->legal;
    guint n = pass ? face->n_best : face->n_legal;

    if (n == 0)
      continue;
    cairo_save (cr);
    for (guint i = 0; i < n; i++)
      add_swept (self, cr, advice, bands[i], o);
    cairo_set_source_rgba (cr, colour.red, colour.green, colour.blue, 0.10);
    cairo_fill_preserve (cr);
    cairo_clip (cr);
    cairo_set_source_rgba (cr, colour.red, colour.green, colour.blue, 0.55);
    cairo_set_line_width (cr, 1);
    hatch_clip (cr, 8, pass == 0);
    cairo_restore (cr);
  }
}

cairo_surface_t *
dry_advice_picture (DryCanvas *self, const DryAdvice *advice, int width, int height)
{
  int factor = gtk_widget_get_scale_factor (GTK_WIDGET (self));
  cairo_surface_t *image =
      cairo_image_surface_create (CAIRO_FORMAT_ARGB32, width * factor, height * factor);
  GdkRGBA colour = dry_mark_accent (self, 1);
  cairo_t *cr;

  cairo_surface_set_device_scale (image, factor, factor);
  cr = cairo_create (image);
  for (guint i = 0; i < dry_advice_get_n_faces (advice); i++)
    paint_face (self, cr, advice, dry_advice_get_face_at (advice, i), colour);
  cairo_destroy (cr);
  return image;
}
