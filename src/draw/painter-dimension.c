/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Dimensions: extension lines, the line with oblique ticks, and the figure above it.
 * A figure too wide for its place moves out beside it, or is left away where that is taken. */
#include "draw/painter-private.h"

#include <math.h>

typedef struct {
  gboolean flat;  /* the dimension line runs across the page */
  double a, b;    /* its ends along itself, a < b */
  double base[2]; /* where the extension lines start, across */
  double line;    /* where it stands, across */
  double out;     /* +1 or -1: the direction away from the drawing, across */
} DimensionPlace;

static gboolean
find_place (DryPainter *self, const DryPrimitive *item, DimensionPlace *place)
{
  double x[2], y[2], row;

  if (item->n_points < 2)
    return FALSE;
  row = dry_painter_mm (self, DRY_ROW_FIRST + DRY_ROW_STEP * MIN (item->row, 40));
  for (int i = 0; i < 2; i++)
    dry_painter_place (self, item->points[i], &x[i], &y[i]);
  place->flat = item->side == DRY_TOWARD_UP || item->side == DRY_TOWARD_DOWN;
  place->out = item->side == DRY_TOWARD_UP || item->side == DRY_TOWARD_LEFT ? -1 : 1;
  {
    double *along = place->flat ? x : y, *across = place->flat ? y : x;
    gboolean swap = along[0] > along[1];
    place->a = along[swap];
    place->b = along[!swap];
    place->base[0] = across[swap];
    place->base[1] = across[!swap];
    place->line = (place->out < 0 ? MIN (across[0], across[1]) : MAX (across[0], across[1])) +
                  place->out * row;
  }
  return TRUE;
}

static void
add_segment (DryPainter *self, const DimensionPlace *place, double along0, double across0,
             double along1, double across1)
{
  if (place->flat)
    dry_painter_segment (self, along0, across0, along1, across1);
  else
    dry_painter_segment (self, across0, along0, across1, along1);
}

void
dry_painter_dimension_lines (DryPainter *self, const DryPrimitive *item)
{
  DimensionPlace p;
  double gap = dry_painter_mm (self, 1.2), past = dry_painter_mm (self, 1.2);
  double tick = dry_painter_mm (self, 0.9);

  if (!find_place (self, item, &p))
    return;
  cairo_new_path (self->cr);
  dry_painter_set_ink (self, item->stroke, 1);
  dry_painter_set_pen (self, DRY_PEN_013, DRY_DASH_SOLID);
  for (int i = 0; i < 2; i++) {
    double along = i == 0 ? p.a : p.b;
    add_segment (self, &p, along, p.base[i] + p.out * gap, along, p.line + p.out * past);
  }
  add_segment (self, &p, p.a, p.line, p.b, p.line);
  cairo_stroke (self->cr);
  dry_painter_set_pen (self, DRY_PEN_035, DRY_DASH_SOLID);
  for (int i = 0; i < 2; i++) {
    double along = i == 0 ? p.a : p.b;
    if (p.flat)
      dry_painter_segment (self, along - tick, p.line + tick, along + tick, p.line - tick);
    else
      dry_painter_segment (self, p.line - tick, along + tick, p.line + tick, along - tick);
  }
  cairo_stroke (self->cr);
}

/* Where the figure may stand along the line: within it where it fits, else beyond an end, which
 * nobody can mistake as long as it does not lie in another stretch's figure. */
static guint
list_places (const DimensionPlace *p, double width, double margin, double away, double out[3])
{
  double length = p->b - p->a, shift = width / 2 + away;

  if (width + margin <= length) {
    out[0] = (p->a + p->b) / 2;
    out[1] = p->a + MAX (length / 4, (width + margin) / 2);
    out[2] = p->b - MAX (length / 4, (width + margin) / 2);
    return 3;
  }
  out[0] = p->b + shift;
  out[1] = p->a - shift;
  return 2;
}

void
dry_painter_dimension_text (DryPainter *self, const DryPrimitive *item)
{
  DimensionPlace p;
  double w, h, lift, places[3];
  guint n;

  if (!item->text || !find_place (self, item, &p))
    return;
  dry_painter_shape (self, item->text, item->size, FALSE, &w, &h);
  /* Figures stand above the line, read from below or from the right. */
  lift = -h * 0.42 - dry_painter_mm (self, 0.3);
  n = list_places (&p, w, dry_painter_mm (self, 1.2), dry_painter_mm (self, 1.6), places);
  for (guint i = 0; i < n; i++) {
    double x = p.flat ? places[i] : p.line + lift, y = p.flat ? p.line + lift : places[i];
    double half_w = (p.flat ? w : h * 0.7) / 2, half_h = (p.flat ? h * 0.7 : w) / 2;

    if (x < self->window.x0 || x > self->window.x1 || y < self->window.y0 || y > self->window.y1)
      continue;
    if (!dry_painter_take_box (self, (DryBox){x - half_w, y - half_h, x + half_w, y + half_h}))
      continue;
    dry_painter_set_ink (self, DRY_INK_TEXT, 1);
    dry_painter_show (self, x, y, w, h, p.flat ? 0 : 90);
    return;
  }
}
