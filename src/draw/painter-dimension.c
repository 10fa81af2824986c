/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Dimensions: extension lines, the line with oblique ticks, and the figure above it.
 * A figure too wide for its place moves beyond an end, or above or below with a leader; it never
 * comes near another one. */
#include "draw/painter-private.h"

#include <math.h>

static void
add_segment (DryPainter *self, const DryDimension *d, double along0, double across0, double along1,
             double across1)
{
  if (d->flat)
    dry_painter_segment (self, along0, across0, along1, across1);
  else
    dry_painter_segment (self, across0, along0, across1, along1);
  if (d->flat)
    dry_painter_note_line (self, d->item->stroke, along0, across0, along1, across1);
  else
    dry_painter_note_line (self, d->item->stroke, across0, along0, across1, along1);
}

static void
paint_lines (DryPainter *self, const DryDimension *d)
{
  double gap = dry_painter_mm (self, 1.2), past = dry_painter_mm (self, 1.2);
  double tick = dry_painter_mm (self, 0.9);

  dry_painter_set_ink (self, d->item->stroke, 1);
  dry_painter_set_pen (self, DRY_PEN_013, DRY_DASH_SOLID);
  for (int i = 0; i < 2; i++) {
    double along = i == 0 ? d->a : d->b;
    add_segment (self, d, along, d->base[i] + d->out * gap, along, d->line + d->out * past);
  }
  add_segment (self, d, d->a, d->line, d->b, d->line);
  cairo_stroke (self->cr);
  dry_painter_set_pen (self, DRY_PEN_035, DRY_DASH_SOLID);
  for (int i = 0; i < 2; i++) {
    double along = i == 0 ? d->a : d->b;
    if (d->flat)
      dry_painter_segment (self, along - tick, d->line + tick, along + tick, d->line - tick);
    else
      dry_painter_segment (self, d->line - tick, along + tick, d->line + tick, along - tick);
  }
  cairo_stroke (self->cr);
}

void
dry_painter_dimension_lines (DryPainter *self)
{
  cairo_new_path (self->cr);
  for (guint i = 0; i < self->dimensions->len; i++) {
    const DryDimension *d = &g_array_index (self->dimensions, DryDimension, i);
    if (!d->gone)
      paint_lines (self, d);
  }
}

typedef enum { PLACE_WITHIN, PLACE_BEYOND, PLACE_LED } PlaceKind;

/* Sets the figure with its middle `along` and `lift` mm above the line, if nothing is near. */
static gboolean
set_figure (DryPainter *self, DryDimension *d, PlaceKind kind, double along, double lift_mm)
{
  double lift = dry_painter_mm (self, lift_mm), gap = dry_painter_mm (self, DRY_FIGURE_GAP) / 2;
  double across = d->line - lift, w, h;
  double x = d->flat ? along : across, y = d->flat ? across : along;
  double thick = dry_painter_mm (self, d->item->size * 0.58), half = d->width / 2;
  double half_x = d->flat ? half : thick, half_y = d->flat ? thick : half;
  DryBox box = {x - half_x, y - half_y, x + half_x, y + half_y};
  DryBox wide = d->flat ? (DryBox){box.x0 - gap, box.y0, box.x1 + gap, box.y1}
                        : (DryBox){box.x0, box.y0 - gap, box.x1, box.y1 + gap};

  if (x < self->window.x0 || x > self->window.x1 || y < self->window.y0 || y > self->window.y1)
    return FALSE;
  if (!dry_painter_take_box (self, wide))
    return FALSE;
  d->done = TRUE;
  if (kind != PLACE_WITHIN) {
    double near = across + (lift > 0 ? 1 : -1) * thick, middle = (d->a + d->b) / 2;
    dry_painter_set_ink (self, d->item->stroke, 1);
    dry_painter_set_pen (self, DRY_PEN_013, DRY_DASH_SOLID);
    if (kind == PLACE_BEYOND)
      add_segment (self, d, along > d->b ? d->b : d->a, d->line,
                   along > d->b ? along + half : along - half, d->line);
    else
      add_segment (self, d, middle, d->line, along, near);
    cairo_stroke (self->cr);
  }
  /* Extension lines of other rows stop at a figure. */
  cairo_rectangle (self->cr, box.x0, box.y0, box.x1 - box.x0, box.y1 - box.y0);
  dry_painter_set_ink (self, DRY_INK_PAPER, 1);
  cairo_fill (self->cr);
  dry_painter_shape (self, d->item->text, d->item->size, FALSE, &w, &h);
  dry_painter_set_ink (self, DRY_INK_TEXT, 1);
  dry_painter_show (self, d->item, x, y, w, h, d->flat ? 0 : 90);
  return TRUE;
}

static gboolean
fits (const DryPainter *self, const DryDimension *d)
{
  return d->width + dry_painter_mm (self, 1.2) <= d->b - d->a;
}

static void
set_within (DryPainter *self, DryDimension *d)
{
  double length = d->b - d->a, lift = d->item->size / 2 + DRY_FIGURE_LIFT;
  double edge = (d->width + dry_painter_mm (self, 1.2)) / 2;
  double places[3] = {(d->a + d->b) / 2, d->a + MAX (length / 4, edge),
                      d->b - MAX (length / 4, edge)};

  for (guint i = 0; i < 3; i++)
    if (set_figure (self, d, PLACE_WITHIN, places[i], lift))
      return;
}

/* No other stretch of the same line lies under the figure. */
static gboolean
is_open (const DryPainter *self, const DryDimension *d, double from, double to)
{
  double slack = dry_painter_mm (self, 1);

  for (guint i = 0; i < self->dimensions->len; i++) {
    const DryDimension *other = &g_array_index (self->dimensions, DryDimension, i);
    if (other != d && !other->gone && other->stack == d->stack &&
        fabs (other->line - d->line) < 1 && MAX (from, other->a) < MIN (to, other->b) + slack)
      return FALSE;
  }
  return TRUE;
}

static void
set_beyond (DryPainter *self, DryDimension *d)
{
  double away = dry_painter_mm (self, 1.6), lift = d->item->size / 2 + DRY_FIGURE_LIFT;

  if (is_open (self, d, d->b + 0.1, d->b + away + d->width) &&
      set_figure (self, d, PLACE_BEYOND, d->b + away + d->width / 2, lift))
    return;
  if (is_open (self, d, d->a - away - d->width, d->a - 0.1))
    set_figure (self, d, PLACE_BEYOND, d->a - away - d->width / 2, lift);
}

/* TRUE for the outermost line: beyond its ends there is a margin, above its figures none. */
static gboolean
is_last (const DryPainter *self, const DryDimension *d)
{
  for (guint i = 0; i < self->dimensions->len; i++) {
    const DryDimension *other = &g_array_index (self->dimensions, DryDimension, i);
    if (!other->gone && other->stack == d->stack && other->item->view == d->item->view &&
        other->place > d->place)
      return FALSE;
  }
  return TRUE;
}

static gboolean
set_led (DryPainter *self, DryDimension *d)
{
  double size = d->item->size, middle = (d->a + d->b) / 2;
  double lifts[2] = {size * 3 / 2 + 2 * DRY_FIGURE_LIFT, -size / 2 - DRY_FIGURE_LIFT - 0.5};
  double shifts[5] = {0, 0.35, -0.35, 0.7, -0.7};

  for (guint l = d->out < 0 && is_last (self, d); l < 2; l++)
    for (guint s = 0; s < 5; s++)
      if (set_figure (self, d, PLACE_LED, middle + shifts[s] * d->width, lifts[l]))
        return TRUE;
  return FALSE;
}

void
dry_painter_dimension_figures (DryPainter *self)
{
  GArray *all = self->dimensions;

  /* Overall sizes first, then what has its place, then what must look for one. */
  for (int turn = 0; turn < 2; turn++)
    for (guint i = 0; i < all->len; i++) {
      DryDimension *d = &g_array_index (all, DryDimension, i);
      if (d->gone || d->done || fits (self, d) != (turn == 0))
        continue;
      if (turn == 0)
        set_within (self, d);
      else if (!set_led (self, d) && is_last (self, d))
        set_beyond (self, d);
    }
}
