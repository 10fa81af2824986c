/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Letters of a scene with Pango: sized by their height on paper, hidden where they do not fit or
 * would touch letters set before. Knows nothing of what they say. */
#include "draw/painter-private.h"

#include <math.h>

/* A capital's height over the em, of the fonts asked for; letters are sized by their capitals. */
#define CAPITAL_SHARE 0.70

static void
set_font (DryPainter *self, double size_mm, gboolean bold)
{
  PangoFontDescription *font;
  double em = CLAMP (dry_painter_mm (self, size_mm) / CAPITAL_SHARE, 0.5, 2000);

  if (!self->layout) {
    cairo_font_options_t *options = cairo_font_options_create ();
    self->layout = pango_cairo_create_layout (self->cr);
    /* Metrics that do not snap to pixels: one layout at every zoom and on paper. */
    cairo_font_options_set_hint_metrics (options, CAIRO_HINT_METRICS_OFF);
    cairo_font_options_set_hint_style (options, CAIRO_HINT_STYLE_NONE);
    pango_cairo_context_set_font_options (pango_layout_get_context (self->layout), options);
    cairo_font_options_destroy (options);
    pango_layout_set_alignment (self->layout, PANGO_ALIGN_CENTER);
  }
  if (self->has_font && self->font_size == em && self->font_bold == bold)
    return;
  font = pango_font_description_new ();
  pango_font_description_set_family (font, self->style->font);
  pango_font_description_set_weight (font, bold ? PANGO_WEIGHT_BOLD : PANGO_WEIGHT_NORMAL);
  pango_font_description_set_absolute_size (font, round (em * PANGO_SCALE));
  pango_layout_set_font_description (self->layout, font);
  pango_font_description_free (font);
  self->has_font = TRUE;
  self->font_size = em;
  self->font_bold = bold;
}

void
dry_painter_shape (DryPainter *self, const char *text, double size_mm, gboolean bold, double *width,
                   double *height)
{
  PangoRectangle logical;

  set_font (self, size_mm, bold);
  pango_layout_set_text (self->layout, text, -1);
  pango_layout_get_extents (self->layout, NULL, &logical);
  *width = (double) logical.width / PANGO_SCALE;
  *height = (double) logical.height / PANGO_SCALE;
}

/* Written down where letters are really set, so that a test needs not trust the book of places. */
static void
note_shown (DryPainter *self, const DryPrimitive *item, double x, double y, double width,
            double angle)
{
  double a = angle * G_PI / 180.0, w = width / 2, h = dry_painter_mm (self, item->size) / 2;
  double half_x = fabs (w * cos (a)) + fabs (h * sin (a));
  double half_y = fabs (w * sin (a)) + fabs (h * cos (a));
  DryShownText shown = {item, x - half_x, y - half_y, x + half_x, y + half_y};

  g_array_append_val (self->shown, shown);
}

void
dry_painter_show (DryPainter *self, const DryPrimitive *item, double x, double y, double width,
                  double height, double angle)
{
  if (self->shown)
    note_shown (self, item, x, y, width, angle);
  dry_painter_note_letters (self, item, x, y, width, height, angle);
  cairo_save (self->cr);
  cairo_translate (self->cr, x, y);
  if (angle != 0)
    cairo_rotate (self->cr, -angle * G_PI / 180.0);
  cairo_move_to (self->cr, -width / 2, -height / 2);
  pango_cairo_show_layout (self->cr, self->layout);
  cairo_restore (self->cr);
  cairo_new_path (self->cr);
}

gboolean
dry_painter_take_box (DryPainter *self, DryBox box)
{
  for (guint i = 0; i < self->boxes->len; i++) {
    const DryBox *b = &g_array_index (self->boxes, DryBox, i);
    if (MAX (b->x0, box.x0) < MIN (b->x1, box.x1) && MAX (b->y0, box.y0) < MIN (b->y1, box.y1))
      return FALSE;
  }
  g_array_append_val (self->boxes, box);
  return TRUE;
}

static void
paint_frame (DryPainter *self, const DryPrimitive *item, double w, double h)
{
  cairo_t *cr = self->cr;
  double pad = dry_painter_mm (self, 0.7);

  cairo_new_path (cr);
  if (item->pen != DRY_PEN_NONE && w < h * 1.35)
    cairo_arc (cr, 0, 0, MAX (w, h) / 2 + pad * 0.4, 0, 2 * G_PI);
  else
    cairo_rectangle (cr, -w / 2 - pad, -h / 2, w + 2 * pad, h);
  if (item->fill != DRY_INK_NONE) {
    dry_painter_set_ink (self, item->fill, item->pen ? 1 : item->fill_alpha);
    cairo_fill_preserve (cr);
  }
  if (item->pen != DRY_PEN_NONE) {
    dry_painter_set_ink (self, item->stroke, 1);
    dry_painter_set_pen (self, item->pen, DRY_DASH_SOLID);
    cairo_stroke_preserve (cr);
  }
  cairo_new_path (cr);
}

void
dry_painter_text (DryPainter *self, const DryPrimitive *item)
{
  double x, y, w, h, a = item->angle * G_PI / 180.0, gap = dry_painter_mm (self, 0.8);
  double half_w, half_h;

  if (!item->text || !*item->text)
    return;
  dry_painter_place (self, item->points[0], &x, &y);
  if (x < self->window.x0 || x > self->window.x1 || y < self->window.y0 || y > self->window.y1)
    return;
  dry_painter_shape (self, item->text, item->size, item->bold, &w, &h);
  if (item->room && w + gap > (double) item->room * self->transform.scale)
    return;
  half_w = fabs (w / 2 * cos (a)) + fabs (h / 2 * sin (a));
  half_h = fabs (w / 2 * sin (a)) + fabs (h / 2 * cos (a));
  if (item->pen != DRY_PEN_NONE)
    gap += dry_painter_mm (self, 0.7);
  x += item->anchor == DRY_ANCHOR_LEFT         ? half_w + gap
       : item->anchor == DRY_ANCHOR_ABOVE_LEFT ? half_w
       : item->anchor == DRY_ANCHOR_RIGHT      ? -half_w - gap
                                               : 0;
  y += item->anchor == DRY_ANCHOR_BELOW        ? half_h + gap * 0.3
       : item->anchor == DRY_ANCHOR_ABOVE      ? -half_h - gap * 0.3
       : item->anchor == DRY_ANCHOR_ABOVE_LEFT ? -half_h - gap * 0.3
                                               : 0;
  if (item->pen != DRY_PEN_NONE) { /* the frame is part of them */
    half_w += dry_painter_mm (self, 0.5);
    half_h = MAX (half_h, half_w) * 1.05;
  }
  /* Slanted letters are given the box of their middle half, or they would clear a whole field. */
  if (fabs (sin (2 * a)) > 0.1) {
    half_w *= 0.6;
    half_h *= 0.6;
  }
  if (!dry_painter_take_box (self,
                             (DryBox){x - half_w, y - half_h * 0.8, x + half_w, y + half_h * 0.8}))
    return;
  cairo_save (self->cr);
  cairo_translate (self->cr, x, y);
  cairo_rotate (self->cr, -a);
  if (item->fill != DRY_INK_NONE || item->pen != DRY_PEN_NONE)
    paint_frame (self, item, w, h);
  cairo_restore (self->cr);
  dry_painter_set_ink (self, item->stroke, 1);
  dry_painter_show (self, item, x, y, w, h, item->angle);
}
