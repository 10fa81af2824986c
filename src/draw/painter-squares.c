/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Notes what the painter paints in the squares somebody keeps, ring by ring: of a wall of tiles
 * only the ones that moved count. Whatever changes a pixel must be in the print. */
#include "draw/painter-private.h"

#include <math.h>

static guint64
print_of_double (guint64 print, double value)
{
  union {
    double value;
    guint64 bits;
  } as = {value};

  return dry_print_mix (print, as.bits);
}

/* All but the places. */
static guint64
print_of_pen (const DryPainter *self, const DryPrimitive *item)
{
  guint64 print = dry_print_mix (item->kind, (guint64) item->stroke << 32 | item->fill);

  print = dry_print_mix (print, (guint64) item->pen << 24 | (guint64) item->dash << 16 |
                                    (guint64) item->hatch << 8 | (guint64) (item->closed != 0));
  if (item->fill != DRY_INK_NONE)
    print = print_of_double (print, item->fill_alpha);
  if (item->hatch != DRY_HATCH_NONE) /* hatches hang on the drawing, not on the piece */
    print = dry_print_place (print, self->transform.x, self->transform.y);
  return print;
}

/* What reaches beyond what can be seen may be cut there, and a dash begins at the cut. */
static guint64
print_of_window (const DryPainter *self, const DryPrimitive *item, const DryBox *box, guint64 print)
{
  const DryBox *w = &self->window;

  if (item->dash == DRY_DASH_SOLID ||
      (box->x0 >= w->x0 && box->y0 >= w->y0 && box->x1 <= w->x1 && box->y1 <= w->y1))
    return print;
  return dry_print_place (dry_print_place (print, w->x0, w->y0), w->x1, w->y1);
}

static void
note_box (DryPainter *self, const DryPrimitive *item, DryBox box, guint64 print)
{
  /* A sharp corner's mitre reaches five line widths out, Cairo's limit being ten halves. */
  double pen = self->style->pens[MIN ((guint) item->pen, 6)];
  double margin = 1.5 + (item->stroke != DRY_INK_NONE ? 5 * dry_painter_mm (self, pen) : 0);

  dry_squares_note (self->squares, box.x0 - margin, box.y0 - margin, box.x1 + margin,
                    box.y1 + margin, print_of_window (self, item, &box, print));
}

static void
note_ring (DryPainter *self, const DryPrimitive *item, guint64 print, guint start, guint end)
{
  DryBox box = {G_MAXDOUBLE, G_MAXDOUBLE, -G_MAXDOUBLE, -G_MAXDOUBLE};

  for (guint i = start; i < end; i++) {
    double x, y;

    dry_painter_place (self, item->points[i], &x, &y);
    box = (DryBox){MIN (box.x0, x), MIN (box.y0, y), MAX (box.x1, x), MAX (box.y1, y)};
    print = dry_print_place (print, x, y);
  }
  if (end > start)
    note_box (self, item, box, print);
}

void
dry_painter_note_shape (DryPainter *self, const DryPrimitive *item)
{
  guint64 print;
  guint start = 0;

  if (self->squares == NULL || item->n_points == 0)
    return;
  print = print_of_pen (self, item);
  if (item->kind == DRY_PRIMITIVE_CIRCLE) {
    double x, y, r = dry_painter_clamp ((double) item->radius * self->transform.scale);

    dry_painter_place (self, item->points[0], &x, &y);
    print = dry_print_place (dry_print_place (print, x, y), r, 0);
    note_box (self, item, (DryBox){x - r, y - r, x + r, y + r}, print);
    return;
  }
  for (guint r = 0; r < (item->ring_ends ? item->n_rings : 1); r++) {
    guint end = item->ring_ends ? item->ring_ends[r] : item->n_points;

    note_ring (self, item, print, start, end);
    start = end;
  }
}

void
dry_painter_note_sign (DryPainter *self, const DryPrimitive *item, double x, double y, double reach)
{
  guint64 print;

  if (self->squares == NULL)
    return;
  print = dry_print_mix (item->kind, (guint64) item->mark << 32 | item->stroke);
  print = dry_print_place (print, x, y);
  dry_squares_note (self->squares, x - reach, y - reach, x + reach, y + reach, print);
}

void
dry_painter_note_letters (DryPainter *self, const DryPrimitive *item, double x, double y, double w,
                          double h, double angle)
{
  double a = angle * G_PI / 180.0, pad = dry_painter_mm (self, 1.5) + 2;
  double half_x = fabs (w / 2 * cos (a)) + fabs (h / 2 * sin (a)) + pad;
  double half_y = fabs (w / 2 * sin (a)) + fabs (h / 2 * cos (a)) + pad;
  guint64 print;

  if (self->squares == NULL)
    return;
  print = dry_print_mix (print_of_pen (self, item), g_str_hash (item->text));
  print = dry_print_mix (print, strlen (item->text) << 1 | (item->bold != 0));
  print = print_of_double (print_of_double (print, item->size), angle);
  print = dry_print_place (print, x, y);
  if (item->pen != DRY_PEN_NONE) /* a round frame */
    half_x = half_y = MAX (half_x, half_y);
  dry_squares_note (self->squares, x - half_x, y - half_y, x + half_x, y + half_y, print);
}

void
dry_painter_note_line (DryPainter *self, DryInk ink, double x0, double y0, double x1, double y1)
{
  guint64 print = dry_print_mix (7001, ink);
  const double reach = dry_painter_mm (self, 2) + 2;

  if (self->squares == NULL)
    return;
  print = dry_print_place (dry_print_place (print, x0, y0), x1, y1);
  dry_squares_note (self->squares, MIN (x0, x1) - reach, MIN (y0, y1) - reach, MAX (x0, x1) + reach,
                    MAX (y0, y1) + reach, print);
}
