/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Paints a scene with Cairo: shapes in order, neighbouring strokes of one pen as one path, then
 * letters on top. Knows no plan; hatches, marks, letters and dimensions have files of their own. */
#include "draw/painter-private.h"

#include <math.h>

#define STROKES_A_LOT 32

void
dry_painter_place (const DryPainter *self, DryPoint at, double *x, double *y)
{
  dry_transform_to_device (&self->transform, at, x, y);
}

double
dry_painter_mm (const DryPainter *self, double mm)
{
  return mm * self->transform.paper_mm;
}

void
dry_painter_set_ink (DryPainter *self, DryInk ink, double alpha)
{
  const DryColour *c;

  if (self->force != DRY_INK_NONE && ink != DRY_INK_PAPER)
    ink = self->force;
  c = &self->style->inks[(guint) ink < DRY_N_INKS ? ink : DRY_INK_LINE];
  cairo_set_source_rgba (self->cr, c->r, c->g, c->b, CLAMP (alpha, 0, 1));
}

void
dry_painter_set_pen (DryPainter *self, DryPen pen, DryDash dash)
{
  double width = dry_painter_mm (self, self->style->pens[MIN ((guint) pen, 6)] + self->widen);
  double mm = self->transform.paper_mm;

  cairo_set_line_width (self->cr, MAX (width, 0.05));
  switch (dash) {
  case DRY_DASH_DASHED:
    cairo_set_dash (self->cr, (double[]){1.8 * mm, 0.9 * mm}, 2, 0);
    break;
  case DRY_DASH_CHAIN:
    cairo_set_dash (self->cr, (double[]){4 * mm, 0.8 * mm, 0.5 * mm, 0.8 * mm}, 4, 0);
    break;
  case DRY_DASH_DOTTED:
    cairo_set_dash (self->cr, (double[]){0.25 * mm, 0.75 * mm}, 2, 0);
    break;
  default:
    cairo_set_dash (self->cr, NULL, 0, 0);
  }
}

void
dry_painter_segment (DryPainter *self, double x0, double y0, double x1, double y1)
{
  /* Liang and Barsky's clipping against the window. */
  double p[4] = {x0 - x1, x1 - x0, y0 - y1, y1 - y0};
  double q[4] = {x0 - self->window.x0, self->window.x1 - x0, y0 - self->window.y0,
                 self->window.y1 - y0};
  double t0 = 0, t1 = 1;

  for (int i = 0; i < 4; i++) {
    if (p[i] == 0) {
      if (q[i] < 0)
        return;
    } else if (p[i] < 0)
      t0 = MAX (t0, q[i] / p[i]);
    else
      t1 = MIN (t1, q[i] / p[i]);
  }
  if (t0 > t1)
    return;
  cairo_move_to (self->cr, x0 + t0 * (x1 - x0), y0 + t0 * (y1 - y0));
  cairo_line_to (self->cr, x0 + t1 * (x1 - x0), y0 + t1 * (y1 - y0));
}

static void
flush_stroke (DryPainter *self)
{
  if (self->open) {
    dry_painter_set_pen (self, self->pen, self->dash);
    dry_painter_set_ink (self, self->ink, 1);
    cairo_stroke (self->cr);
  }
  self->open = FALSE;
}

static void
begin_stroke (DryPainter *self, const DryPrimitive *item)
{
  if (self->open &&
      (self->ink != item->stroke || self->pen != item->pen || self->dash != item->dash))
    flush_stroke (self);
  self->open = TRUE;
  self->ink = item->stroke;
  self->pen = item->pen;
  self->dash = item->dash;
}

/* A grid of joints is thousands of strokes in one path. Who keeps squares has them a few at a time,
 * so that a square painted anew replays only the lots that touch it; an area stays one path. */
static void
trace_path (DryPainter *self, const DryPrimitive *item, gboolean in_lots)
{
  guint start = 0, n_rings = item->ring_ends ? item->n_rings : 1;
  double x, y;

  if (item->kind == DRY_PRIMITIVE_CIRCLE) {
    double r = dry_painter_clamp ((double) item->radius * self->transform.scale);
    dry_painter_place (self, item->points[0], &x, &y);
    cairo_new_sub_path (self->cr);
    cairo_arc (self->cr, x, y, MAX (r, 0), 0, 2 * G_PI);
    cairo_close_path (self->cr);
    return;
  }
  for (guint r = 0; r < n_rings; r++) {
    guint end = item->ring_ends ? item->ring_ends[r] : item->n_points;
    for (guint i = start; i < end; i++) {
      dry_painter_place (self, item->points[i], &x, &y);
      if (i == start)
        cairo_move_to (self->cr, x, y);
      else
        cairo_line_to (self->cr, x, y);
    }
    if (item->closed)
      cairo_close_path (self->cr);
    start = end;
    if (in_lots && r % STROKES_A_LOT == STROKES_A_LOT - 1) {
      flush_stroke (self);
      begin_stroke (self, item);
    }
  }
}

/* Dashed shapes go out segment by segment, each cut to the window. */
static void
trace_dashed (DryPainter *self, const DryPrimitive *item)
{
  guint start = 0, n_rings = item->ring_ends ? item->n_rings : 1;

  for (guint r = 0; r < n_rings; r++) {
    guint end = item->ring_ends ? item->ring_ends[r] : item->n_points;
    for (guint i = start; i + (item->closed ? 0 : 1) < end; i++) {
      double x0, y0, x1, y1;
      dry_painter_place (self, item->points[i], &x0, &y0);
      dry_painter_place (self, item->points[i + 1 < end ? i + 1 : start], &x1, &y1);
      dry_painter_segment (self, x0, y0, x1, y1);
    }
    start = end;
  }
}

static gboolean
is_out_of_sight (const DryPainter *self, const DryPrimitive *item)
{
  DryLength r = item->kind == DRY_PRIMITIVE_CIRCLE ? item->radius : 0;
  DryRect b;

  if (!self->has_clip || item->n_points == 0 ||
      (item->kind != DRY_PRIMITIVE_PATH && item->kind != DRY_PRIMITIVE_CIRCLE))
    return FALSE;
  b = (DryRect){item->points[0].x, item->points[0].y, item->points[0].x, item->points[0].y};
  for (guint i = 1; i < item->n_points; i++) {
    b.x0 = MIN (b.x0, item->points[i].x);
    b.y0 = MIN (b.y0, item->points[i].y);
    b.x1 = MAX (b.x1, item->points[i].x);
    b.y1 = MAX (b.y1, item->points[i].y);
  }
  return b.x1 + r < self->clip.x0 || b.x0 - r > self->clip.x1 || b.y1 + r < self->clip.y0 ||
         b.y0 - r > self->clip.y1;
}

static void
paint_shape (DryPainter *self, const DryPrimitive *item)
{
  gboolean filled = item->fill != DRY_INK_NONE || item->hatch != DRY_HATCH_NONE;
  gboolean stroked = item->stroke != DRY_INK_NONE && item->pen != DRY_PEN_NONE;

  if (filled) {
    flush_stroke (self);
    trace_path (self, item, FALSE);
    if (item->fill != DRY_INK_NONE) {
      dry_painter_set_ink (self, item->fill, item->fill_alpha);
      cairo_fill_preserve (self->cr);
    }
    if (item->hatch != DRY_HATCH_NONE)
      dry_painter_hatch (self, item);
    cairo_new_path (self->cr);
  }
  if (stroked) {
    begin_stroke (self, item);
    if (item->dash != DRY_DASH_SOLID && item->kind == DRY_PRIMITIVE_PATH && item->n_points <= 512)
      trace_dashed (self, item);
    else
      trace_path (self, item, self->squares != NULL);
  }
  dry_painter_note_shape (self, item);
}

/* How many marks alike follow one another: a wall has hundreds of screws. */
static guint
count_heads (const DryPainter *self, guint first)
{
  const DryPrimitive *item = &self->scene->items[first];
  guint n = 1;

  while (first + n < self->scene->n && item[n].kind == DRY_PRIMITIVE_MARK &&
         item[n].mark == item->mark && item[n].stroke == item->stroke &&
         item[n].layer == item->layer && item[n].n_points > 0)
    n++;
  return n;
}

static void
paint_shapes (DryPainter *self)
{
  for (guint i = 0; i < self->scene->n; i++) {
    const DryPrimitive *item = &self->scene->items[i];
    if (!(self->layers & (1u << item->layer)) || is_out_of_sight (self, item))
      continue;
    switch (item->kind) {
    case DRY_PRIMITIVE_PATH:
    case DRY_PRIMITIVE_CIRCLE:
      paint_shape (self, item);
      break;
    case DRY_PRIMITIVE_MARK:
      flush_stroke (self);
      if (item->mark == DRY_MARK_SCREW || item->mark == DRY_MARK_WASHER) {
        guint n = count_heads (self, i);
        dry_painter_heads (self, item, n);
        i += n - 1;
      } else
        dry_painter_mark (self, item);
      break;
    default:
      break;
    }
  }
  flush_stroke (self);
  dry_painter_dimension_lines (self);
}

/* Letters that must stay come first, then marks and titles, dimensions, and what may hide. */
static void
paint_letters (DryPainter *self)
{
  for (int turn = 0; turn < 4; turn++) {
    if (turn == 2)
      dry_painter_dimension_figures (self);
    for (guint i = 0; i < self->scene->n; i++) {
      const DryPrimitive *item = &self->scene->items[i];
      if (!(self->layers & (1u << item->layer)))
        continue;
      if (item->kind == DRY_PRIMITIVE_TEXT && turn == (!item->room ? 0 : item->bold ? 1 : 3))
        dry_painter_text (self, item);
    }
  }
}

static gboolean
begin_paint (DryPainter *self, cairo_t *cr, const DryScene *scene, const DryTransform *transform,
             const DryStyle *style)
{
  DryBox *w = &self->window;
  double margin;

  *self = (DryPainter){.cr = cr, .scene = scene, .transform = *transform, .style = style};
  if (!isfinite (transform->scale) || transform->scale <= 0 || !isfinite (transform->x) ||
      !isfinite (transform->y) || !isfinite (transform->paper_mm) || transform->paper_mm <= 0 ||
      transform->paper_mm > 1e4)
    return FALSE;
  cairo_save (cr);
  cairo_set_fill_rule (cr, CAIRO_FILL_RULE_EVEN_ODD);
  cairo_set_line_cap (cr, CAIRO_LINE_CAP_BUTT);
  cairo_set_line_join (cr, CAIRO_LINE_JOIN_MITER);
  cairo_clip_extents (cr, &w->x0, &w->y0, &w->x1, &w->y1);
  /* A surface without bounds reports huge ones; nobody prints more than this. */
  w->x0 = CLAMP (w->x0, -20000, 20000);
  w->y0 = CLAMP (w->y0, -20000, 20000);
  w->x1 = CLAMP (w->x1, -20000, 20000);
  w->y1 = CLAMP (w->y1, -20000, 20000);
  margin = 4 * transform->paper_mm;
  *w = (DryBox){w->x0 - margin, w->y0 - margin, w->x1 + margin, w->y1 + margin};
  cairo_new_path (cr);
  self->boxes = g_array_sized_new (FALSE, FALSE, sizeof (DryBox), 128);
  self->dimensions = g_array_sized_new (FALSE, TRUE, sizeof (DryDimension), 64);
  return TRUE;
}

static void
end_paint (DryPainter *self)
{
  g_clear_object (&self->layout);
  g_array_unref (self->boxes);
  g_array_unref (self->dimensions);
  cairo_restore (self->cr);
}

static void
paint_all (DryPainter *self)
{
  dry_painter_lay_out_rows (self);
  paint_shapes (self);
  paint_letters (self);
}

void
dry_painter_paint (cairo_t *cr, const DryScene *scene, const DryTransform *transform,
                   const DryStyle *style, guint layers, const DryRect *clip)
{
  dry_painter_paint_squares (cr, scene, transform, style, layers, clip, NULL);
}

void
dry_painter_paint_squares (cairo_t *cr, const DryScene *scene, const DryTransform *transform,
                           const DryStyle *style, guint layers, const DryRect *clip,
                           DrySquares *squares)
{
  DryPainter self;

  if (!begin_paint (&self, cr, scene, transform, style))
    return;
  self.layers = layers;
  self.squares = squares;
  if (clip) {
    self.has_clip = TRUE;
    self.clip = *clip;
  }
  paint_all (&self);
  end_paint (&self);
}

GArray *
dry_painter_paint_and_tell (cairo_t *cr, const DryScene *scene, const DryTransform *transform,
                            const DryStyle *style, guint layers)
{
  GArray *shown = g_array_new (FALSE, FALSE, sizeof (DryShownText));
  DryPainter self;

  if (!begin_paint (&self, cr, scene, transform, style))
    return shown;
  self.layers = layers;
  self.shown = shown;
  paint_all (&self);
  end_paint (&self);
  return shown;
}

/* Areas become a breath of the ink, so what lies in them stays readable. */
static DryPrimitive
light_up (const DryPrimitive *item, double breath)
{
  DryPrimitive lit = *item;

  lit.fill_alpha = MIN (item->fill_alpha, breath);
  lit.hatch = DRY_HATCH_NONE;
  if (item->fill == DRY_INK_PAPER)
    lit.fill = DRY_INK_NONE;
  return lit;
}

void
dry_painter_paint_object (cairo_t *cr, const DryScene *scene, const DryTransform *transform,
                          const DryStyle *style, DryId object, DryInk ink)
{
  DryPainter self;

  if (object == 0 || !begin_paint (&self, cr, scene, transform, style))
    return;
  self.force = ink;
  self.widen = 0.25;
  for (guint i = 0; i < scene->n; i++) {
    const DryPrimitive *item = &scene->items[i];
    DryPrimitive lit = light_up (item, 0.10);

    if (item->object != object || item->layer == DRY_LAYER_DIMENSIONS ||
        item->shows == DRY_SHOWS_FINDING || item->shows == DRY_SHOWS_JOINT ||
        item->shows == DRY_SHOWS_MEMBER)
      continue;
    if (item->kind != DRY_PRIMITIVE_PATH && item->kind != DRY_PRIMITIVE_CIRCLE)
      continue;
    paint_shape (&self, &lit);
  }
  flush_stroke (&self);
  end_paint (&self);
}

void
dry_painter_paint_wanted (cairo_t *cr, const DryScene *scene, const DryTransform *transform,
                          const DryStyle *style, DryInk ink, DryPainterWants wants,
                          gconstpointer data)
{
  DryPainter self;

  if (!begin_paint (&self, cr, scene, transform, style))
    return;
  self.force = ink;
  self.widen = 0.3;
  for (guint i = 0; i < scene->n; i++) {
    DryPrimitive lit = light_up (&scene->items[i], 0.22);

    if (!wants (&scene->items[i], data))
      continue;
    if (lit.kind == DRY_PRIMITIVE_MARK) {
      flush_stroke (&self);
      dry_painter_mark (&self, &lit);
      continue;
    }
    if (lit.stroke == DRY_INK_NONE) {
      lit.stroke = ink;
      lit.pen = DRY_PEN_025;
    }
    paint_shape (&self, &lit);
  }
  flush_stroke (&self);
  end_paint (&self);
}
