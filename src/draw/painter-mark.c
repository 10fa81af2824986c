/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Signs of paper size: screws, washers, drains, north, and findings by shape as well as colour.
 * Octagon: stop; triangle: fix before tiling; circle: advice. */
#include "draw/painter-private.h"

#include <math.h>

static void
add_polygon (cairo_t *cr, double x, double y, double r, guint n, double turn)
{
  for (guint i = 0; i < n; i++) {
    double a = turn + 2 * G_PI * i / n;
    cairo_line_to (cr, x + r * cos (a), y + r * sin (a));
  }
  cairo_close_path (cr);
}

static void
paint_stroke_of (DryPainter *self, double x, double y, double top, double bottom, double dot)
{
  cairo_t *cr = self->cr;

  dry_painter_set_ink (self, DRY_INK_PAPER, 1);
  cairo_set_line_cap (cr, CAIRO_LINE_CAP_ROUND);
  cairo_set_dash (cr, NULL, 0, 0);
  cairo_set_line_width (cr, dry_painter_mm (self, 0.55));
  cairo_move_to (cr, x, y + dry_painter_mm (self, top));
  cairo_line_to (cr, x, y + dry_painter_mm (self, bottom));
  cairo_move_to (cr, x, y + dry_painter_mm (self, dot));
  cairo_close_path (cr);
  cairo_stroke (cr);
  cairo_set_line_cap (cr, CAIRO_LINE_CAP_BUTT);
}

static void
paint_finding (DryPainter *self, const DryPrimitive *item, double x, double y)
{
  cairo_t *cr = self->cr;
  double r = dry_painter_mm (self, 2.0);

  dry_painter_take_box (self, (DryBox){x - r, y - r, x + r, y + r});
  if (item->mark == DRY_MARK_STOP)
    add_polygon (cr, x, y, r, 8, G_PI / 8);
  else if (item->mark == DRY_MARK_FIX)
    add_polygon (cr, x, y + r * 0.2, r * 1.15, 3, -G_PI / 2);
  else
    cairo_arc (cr, x, y, r * 0.92, 0, 2 * G_PI);
  dry_painter_set_ink (self, DRY_INK_PAPER, 1);
  cairo_set_line_join (cr, CAIRO_LINE_JOIN_ROUND);
  cairo_set_dash (cr, NULL, 0, 0);
  cairo_set_line_width (cr, dry_painter_mm (self, 0.7));
  cairo_stroke_preserve (cr);
  dry_painter_set_ink (self, item->stroke, 1);
  cairo_fill (cr);
  cairo_set_line_join (cr, CAIRO_LINE_JOIN_MITER);
  if (item->mark == DRY_MARK_ADVICE) /* an i, else an exclamation mark */
    paint_stroke_of (self, x, y, -0.25, 0.95, -1.0);
  else if (item->mark == DRY_MARK_FIX)
    paint_stroke_of (self, x, y, -0.75, 0.45, 1.15);
  else
    paint_stroke_of (self, x, y, -1.05, 0.2, 1.05);
}

static void
paint_north (DryPainter *self, double x, double y)
{
  cairo_t *cr = self->cr;
  double r = dry_painter_mm (self, 4);

  dry_painter_set_pen (self, DRY_PEN_025, DRY_DASH_SOLID);
  cairo_arc (cr, x, y, r, 0, 2 * G_PI);
  cairo_stroke (cr);
  cairo_move_to (cr, x, y - r);
  cairo_line_to (cr, x + r * 0.45, y + r * 0.6);
  cairo_line_to (cr, x, y + r * 0.25);
  cairo_line_to (cr, x - r * 0.45, y + r * 0.6);
  cairo_close_path (cr);
  cairo_fill (cr);
}

/* A head about as large as it is on the wall, but never too small to see nor too large to read by.
 */
static double
measure_head (const DryPainter *self, double world_mm, double least, double most)
{
  double r = world_mm * DRY_MM * self->transform.scale;

  return CLAMP (r, dry_painter_mm (self, least), dry_painter_mm (self, most));
}

static void
add_cross (cairo_t *cr, double x, double y, double r)
{
  cairo_move_to (cr, x - r, y - r);
  cairo_line_to (cr, x + r, y + r);
  cairo_move_to (cr, x - r, y + r);
  cairo_line_to (cr, x + r, y - r);
}

static void
trace_heads (DryPainter *self, const DryPrimitive *items, guint n, double r, gboolean crosses)
{
  for (guint i = 0; i < n; i++) {
    double x, y;
    dry_painter_place (self, items[i].points[0], &x, &y);
    if (x < self->window.x0 || x > self->window.x1 || y < self->window.y0 || y > self->window.y1)
      continue;
    dry_painter_note_sign (self, &items[i], x, y, r + dry_painter_mm (self, 0.3) + 1);
    if (crosses) {
      add_cross (self->cr, x, y, r);
      continue;
    }
    cairo_new_sub_path (self->cr);
    cairo_arc (self->cr, x, y, r, 0, 2 * G_PI);
  }
}

void
dry_painter_heads (DryPainter *self, const DryPrimitive *items, guint n)
{
  gboolean screws = items->mark == DRY_MARK_SCREW;
  double r = screws ? measure_head (self, 10, 0.28, 0.55) : measure_head (self, 16, 0.42, 0.85);

  cairo_new_path (self->cr);
  dry_painter_set_ink (self, items->stroke, 1);
  dry_painter_set_pen (self, DRY_PEN_018, DRY_DASH_SOLID);
  trace_heads (self, items, n, r, screws);
  cairo_stroke (self->cr);
  if (screws)
    return;
  trace_heads (self, items, n, r * 0.3, FALSE);
  cairo_fill (self->cr);
}

void
dry_painter_mark (DryPainter *self, const DryPrimitive *item)
{
  cairo_t *cr = self->cr;
  double x, y, r;

  dry_painter_place (self, item->points[0], &x, &y);
  if (x < self->window.x0 || x > self->window.x1 || y < self->window.y0 || y > self->window.y1)
    return;
  cairo_new_path (cr);
  dry_painter_note_sign (self, item, x, y, dry_painter_mm (self, 5) + 2);
  dry_painter_set_ink (self, item->stroke, 1);
  switch (item->mark) {
  case DRY_MARK_STOP:
  case DRY_MARK_FIX:
  case DRY_MARK_ADVICE:
    paint_finding (self, item, x, y);
    break;
  case DRY_MARK_CROSS:
    r = dry_painter_mm (self, 1.2);
    dry_painter_set_pen (self, DRY_PEN_018, DRY_DASH_SOLID);
    add_cross (cr, x, y, r);
    cairo_stroke (cr);
    break;
  case DRY_MARK_SCREW:
  case DRY_MARK_WASHER:
    dry_painter_heads (self, item, 1);
    break;
  case DRY_MARK_DRAIN:
    r = dry_painter_mm (self, 1.4);
    dry_painter_set_pen (self, DRY_PEN_025, DRY_DASH_SOLID);
    cairo_arc (cr, x, y, r, 0, 2 * G_PI);
    cairo_move_to (cr, x - r, y);
    cairo_line_to (cr, x + r, y);
    cairo_move_to (cr, x, y - r);
    cairo_line_to (cr, x, y + r);
    cairo_stroke (cr);
    break;
  case DRY_MARK_NORTH:
    paint_north (self, x, y);
    break;
  }
}
