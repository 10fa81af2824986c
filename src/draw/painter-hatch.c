/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Hatches of materials, drawn in paper size inside the current path.
 * The work is bounded by what can be seen, whatever the zoom. */
#include "draw/painter-private.h"

#include <math.h>

#define LINES_MOST 4000

static DryBox
find_box (DryPainter *self)
{
  DryBox b;

  cairo_path_extents (self->cr, &b.x0, &b.y0, &b.x1, &b.y1);
  b.x0 = MAX (b.x0, self->window.x0);
  b.y0 = MAX (b.y0, self->window.y0);
  b.x1 = MIN (b.x1, self->window.x1);
  b.y1 = MIN (b.y1, self->window.y1);
  return b;
}

/* Parallel lines at 45 degrees; `rise` is +1 for / and -1 for \. Their places hang on the
 * drawing, not on the piece, so that neighbours of one material match. */
static void
add_lines (DryPainter *self, DryBox b, double spacing, int rise)
{
  double step = spacing * G_SQRT2, height = b.y1 - b.y0;
  double origin =
      rise > 0 ? self->transform.x + self->transform.y : self->transform.x - self->transform.y;
  double from = rise > 0 ? b.x0 + b.y0 : b.x0 - b.y1;
  double to = rise > 0 ? b.x1 + b.y1 : b.x1 - b.y0;
  double first = ceil ((from - origin) / step), last = ceil ((to - origin) / step);

  if (!(last - first <= LINES_MOST))
    return;
  for (int k = 0; k < (int) (last - first); k++) {
    double c = origin + (first + k) * step;
    double x = rise > 0 ? c - b.y1 : c + b.y0;
    cairo_move_to (self->cr, x, rise > 0 ? b.y1 : b.y0);
    cairo_line_to (self->cr, x + height, rise > 0 ? b.y0 : b.y1);
  }
}

static void
add_dots (DryPainter *self, DryBox b, double spacing)
{
  double dot = dry_painter_mm (self, 0.12);
  double nx = ceil ((b.x1 - b.x0) / spacing), ny = ceil ((b.y1 - b.y0) / spacing);

  if (!(nx * ny < 12000))
    return;
  for (gint64 j = (gint64) floor (b.y0 / spacing); (double) j * spacing < b.y1; j++)
    for (gint64 i = (gint64) floor (b.x0 / spacing); (double) i * spacing < b.x1; i++) {
      /* A fixed shuffle: aggregate does not stand in ranks. */
      guint32 hash = (guint32) i * 2654435761u ^ (guint32) j * 2246822519u;
      double dx = (double) (hash >> 8 & 255) / 255.0, dy = (double) (hash >> 20 & 255) / 255.0;
      double x = ((double) i + 0.15 + 0.7 * dx) * spacing,
             y = ((double) j + 0.15 + 0.7 * dy) * spacing;
      cairo_new_sub_path (self->cr);
      cairo_arc (self->cr, x, y, dot * (1 + (hash & 3) * 0.35), 0, 2 * G_PI);
    }
}

/* A cut timber: both diagonals, the drafting sign for it. */
static void
add_timber (DryPainter *self, const DryPrimitive *item)
{
  double x[4], y[4];

  if (item->n_points != 4)
    return;
  for (int i = 0; i < 4; i++)
    dry_painter_place (self, item->points[i], &x[i], &y[i]);
  for (int i = 0; i < 2; i++)
    dry_painter_segment (self, x[i], y[i], x[i + 2], y[i + 2]);
}

void
dry_painter_hatch (DryPainter *self, const DryPrimitive *item)
{
  cairo_path_t *outline = cairo_copy_path (self->cr);
  DryBox b = find_box (self);
  DryInk ink = item->stroke != DRY_INK_NONE ? item->stroke : item->fill;
  double mm = self->transform.paper_mm;

  if (b.x0 < b.x1 && b.y0 < b.y1) {
    cairo_save (self->cr);
    cairo_clip (self->cr);
    dry_painter_set_ink (self, ink, item->hatch == DRY_HATCH_WARNING ? 0.6 : 0.75);
    dry_painter_set_pen (self, item->hatch == DRY_HATCH_WARNING ? DRY_PEN_050 : DRY_PEN_013,
                         DRY_DASH_SOLID);
    switch (item->hatch) {
    case DRY_HATCH_DIAGONAL:
      add_lines (self, b, 1.6 * mm, 1);
      break;
    case DRY_HATCH_CROSS:
      add_lines (self, b, 1.5 * mm, 1);
      add_lines (self, b, 1.5 * mm, -1);
      break;
    case DRY_HATCH_DOTS:
      add_dots (self, b, 1.15 * mm);
      cairo_fill (self->cr);
      break;
    case DRY_HATCH_WOOD:
      add_timber (self, item);
      break;
    case DRY_HATCH_WARNING:
      add_lines (self, b, 2.2 * mm, 1);
      break;
    default:
      break;
    }
    cairo_stroke (self->cr);
    cairo_restore (self->cr);
  }
  cairo_new_path (self->cr);
  cairo_append_path (self->cr, outline);
  cairo_path_destroy (outline);
}
