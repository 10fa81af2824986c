/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Outlines, lines and chips as GTK render nodes, in the colours of desktop and drawing.
 * Knows no project: callers say what stands where. */
#include "ui/canvas-mark.h"

#include <math.h>

#define FOOT_TOOLS 220 /* width of layers and zoom at the right */

GdkRGBA
dry_mark_colour (DryColour colour, double alpha)
{
  return (GdkRGBA){(float) colour.r, (float) colour.g, (float) colour.b, (float) alpha};
}

static GdkRGBA
lookup (DryCanvas *self, const char *name, GdkRGBA otherwise)
{
  GdkRGBA colour;

  if (gtk_style_context_lookup_color (gtk_widget_get_style_context (GTK_WIDGET (self)), name,
                                      &colour))
    return colour;
  return otherwise;
}

GdkRGBA
dry_mark_accent (DryCanvas *self, float alpha)
{
  GdkRGBA colour = lookup (self, "accent_color", (GdkRGBA){0.11f, 0.44f, 0.85f, 1});

  colour.alpha = alpha;
  return colour;
}

DrySpot
dry_mark_spot (DryCanvas *self, DryPoint at)
{
  DrySpot spot;

  dry_canvas_to_device (self, at, &spot.x, &spot.y);
  return spot;
}

static cairo_t *
begin_overlay (GtkSnapshot *snapshot, const DrySpot *spots, guint n, double margin)
{
  double x0 = spots[0].x, y0 = spots[0].y, x1 = x0, y1 = y0;

  for (guint i = 1; i < n; i++) {
    x0 = MIN (x0, spots[i].x);
    y0 = MIN (y0, spots[i].y);
    x1 = MAX (x1, spots[i].x);
    y1 = MAX (y1, spots[i].y);
  }
  return gtk_snapshot_append_cairo (snapshot, &GRAPHENE_RECT_INIT ((float) (x0 - margin),
                                                                   (float) (y0 - margin),
                                                                   (float) (x1 - x0 + 2 * margin),
                                                                   (float) (y1 - y0 + 2 * margin)));
}

void
dry_mark_shape (DryCanvas *self, GtkSnapshot *snapshot, const DryShape *shape, GdkRGBA colour,
                double pen, float fill)
{
  DrySpot spots[4];
  cairo_t *cr;

  for (guint i = 0; i < 4; i++)
    spots[i] = dry_mark_spot (self, shape->points[i]);
  cr = begin_overlay (snapshot, spots, 4, pen + 2);
  for (guint i = 0; i < 4; i++)
    cairo_line_to (cr, spots[i].x, spots[i].y);
  cairo_close_path (cr);
  gdk_cairo_set_source_rgba (cr, &colour);
  if (fill > 0) {
    cairo_set_source_rgba (cr, colour.red, colour.green, colour.blue, fill);
    cairo_fill_preserve (cr);
    gdk_cairo_set_source_rgba (cr, &colour);
  }
  cairo_set_line_width (cr, pen);
  cairo_set_line_join (cr, CAIRO_LINE_JOIN_ROUND);
  cairo_stroke (cr);
  cairo_destroy (cr);
}

void
dry_mark_line (GtkSnapshot *snapshot, DrySpot from, DrySpot to, GdkRGBA colour, double pen,
               gboolean dashed)
{
  DrySpot spots[2] = {from, to};
  cairo_t *cr = begin_overlay (snapshot, spots, 2, pen + 1);

  if (dashed)
    cairo_set_dash (cr, (double[]){5, 4}, 2, 0);
  gdk_cairo_set_source_rgba (cr, &colour);
  cairo_set_line_width (cr, pen);
  cairo_move_to (cr, from.x, from.y);
  cairo_line_to (cr, to.x, to.y);
  cairo_stroke (cr);
  cairo_destroy (cr);
}

void
dry_mark_chip_size (DryCanvas *self, const char *text, double *width, double *height)
{
  g_autoptr (PangoLayout) layout = gtk_widget_create_pango_layout (GTK_WIDGET (self), text);
  int w, h;

  pango_layout_get_pixel_size (layout, &w, &h);
  *width = w + 14;
  *height = h + 4;
}

DrySpot
dry_mark_foot (DryCanvas *self, guint line)
{
  double width = gtk_widget_get_width (GTK_WIDGET (self)),
         height = gtk_widget_get_height (GTK_WIDGET (self));

  return (DrySpot){(width - FOOT_TOOLS) / 2, height - 24 - 28 * (double) line};
}

/* A rounded label centred on a spot and kept inside the canvas. */
static void
add_rounded (cairo_t *cr, double x, double y, double width, double height, double radius)
{
  cairo_new_sub_path (cr);
  cairo_arc (cr, x + width - radius, y + radius, radius, -G_PI / 2, 0);
  cairo_arc (cr, x + width - radius, y + height - radius, radius, 0, G_PI / 2);
  cairo_arc (cr, x + radius, y + height - radius, radius, G_PI / 2, G_PI);
  cairo_arc (cr, x + radius, y + radius, radius, G_PI, 3 * G_PI / 2);
  cairo_close_path (cr);
}

/* Two soft steps instead of a blurred shadow, and no clip: chips move with every step of a drag,
 * and both cost more than all the rest of it. */
static void
paint_ground (GtkSnapshot *snapshot, float x, float y, float width, float height,
              const GdkRGBA *ground, GdkRGBA edge)
{
  double radius = MIN ((double) height / 2, 12);
  cairo_t *cr = gtk_snapshot_append_cairo (
      snapshot, &GRAPHENE_RECT_INIT (x - 3, y - 2, width + 6, height + 6));

  cairo_set_source_rgba (cr, 0, 0, 0, 0.05);
  add_rounded (cr, x - 1.5, y - 0.5, width + 3, height + 3, radius + 1.5);
  cairo_fill (cr);
  cairo_set_source_rgba (cr, 0, 0, 0, 0.10);
  add_rounded (cr, x - 0.5, y + 0.5, width + 1, height + 1, radius + 0.5);
  cairo_fill (cr);
  gdk_cairo_set_source_rgba (cr, ground);
  add_rounded (cr, x, y, width, height, radius);
  cairo_fill (cr);
  if (edge.alpha > 0) {
    gdk_cairo_set_source_rgba (cr, &edge);
    cairo_set_line_width (cr, 1);
    add_rounded (cr, x + 0.5, y + 0.5, width - 1, height - 1, radius - 0.5);
    cairo_stroke (cr);
  }
  cairo_destroy (cr);
}

void
dry_mark_chip (DryCanvas *self, GtkSnapshot *snapshot, DrySpot at, const char *text,
               DryChipKind kind)
{
  g_autoptr (PangoLayout) layout = gtk_widget_create_pango_layout (GTK_WIDGET (self), text);
  g_autoptr (PangoAttrList) attributes = pango_attr_list_new ();
  const DryStyle *style = dry_screen_style ();
  GdkRGBA ground = dry_mark_colour (style->inks[DRY_INK_PAPER], 0.94);
  GdkRGBA ink = dry_mark_colour (style->inks[DRY_INK_TEXT], 1);
  int w, h, limit = gtk_widget_get_width (GTK_WIDGET (self)) - 32;
  float x, y, width, height;

  if (kind != DRY_CHIP_QUIET) {
    ground =
        lookup (self, kind == DRY_CHIP_ACCENT ? "accent_bg_color" : "warning_bg_color", ground);
    ink = lookup (self, kind == DRY_CHIP_ACCENT ? "accent_fg_color" : "warning_fg_color", ink);
  }
  pango_attr_list_insert (attributes, pango_attr_font_features_new ("tnum=1"));
  pango_attr_list_insert (attributes, pango_attr_scale_new (kind == DRY_CHIP_QUIET ? 0.86 : 0.92));
  pango_layout_set_attributes (layout, attributes);
  pango_layout_get_pixel_size (layout, &w, &h);
  if (w > limit) {
    pango_layout_set_width (layout, MAX (limit, 80) * PANGO_SCALE);
    pango_layout_get_pixel_size (layout, &w, &h);
  }
  width = (float) w + 14;
  height = (float) h + 4;
  x = (float) CLAMP (at.x - width / 2, 8,
                     MAX (8, gtk_widget_get_width (GTK_WIDGET (self)) - width - 8));
  y = (float) CLAMP (at.y - height / 2, 8,
                     MAX (8, gtk_widget_get_height (GTK_WIDGET (self)) - height - 8));
  x = floorf (x);
  y = floorf (y);
  paint_ground (snapshot, x, y, width, height, &ground,
                kind == DRY_CHIP_QUIET ? dry_mark_colour (style->inks[DRY_INK_TEXT], 0.25)
                                       : (GdkRGBA){0, 0, 0, 0});
  gtk_snapshot_save (snapshot);
  gtk_snapshot_translate (snapshot, &GRAPHENE_POINT_INIT (x + 7, y + 2));
  gtk_snapshot_append_layout (snapshot, layout, &ink);
  gtk_snapshot_restore (snapshot);
}

void
dry_mark_group (DryCanvas *self, GtkSnapshot *snapshot,
                void (*draw) (DryCanvas *self, GtkSnapshot *snapshot))
{
  GtkSnapshot *group = gtk_snapshot_new ();
  GskRenderNode *node;

  draw (self, group);
  node = gtk_snapshot_free_to_node (group);
  if (node == NULL)
    return;
  gtk_snapshot_append_node (snapshot, node);
  gsk_render_node_unref (node);
}
