/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Draws each kind of item with a few strokes in the text colour; sizes are the item's own, so a
 * long tub looks long. Knows the shapes of things, not where they go. */
#define G_LOG_DOMAIN "drybay-ui"
#include "ui/item-picture.h"

#include <math.h>

#define SIDE 40.0
#define EDGE 4.0

struct _DryItemPicture {
  GtkWidget parent_instance;
  const DryItem *item;
};

G_DEFINE_FINAL_TYPE (DryItemPicture, dry_item_picture, GTK_TYPE_WIDGET)

/* The largest rectangle of this proportion in the picture, centred. */
static graphene_rect_t
fit (DryLength width, DryLength height)
{
  double room = SIDE - 2 * EDGE;
  double w = (double) MAX (width, 1), h = (double) MAX (height, 1);
  double scale = room / MAX (w, h);

  w = MAX (w * scale, 5);
  h = MAX (h * scale, 5);
  return GRAPHENE_RECT_INIT ((float) ((SIDE - w) / 2), (float) ((SIDE - h) / 2), (float) w,
                             (float) h);
}

static void
round_box (cairo_t *cr, const graphene_rect_t *r, double inset, double radius)
{
  double x = r->origin.x + inset, y = r->origin.y + inset;
  double w = r->size.width - 2 * inset, h = r->size.height - 2 * inset;
  double k = MAX (MIN (radius, MIN (w, h) / 2), 0);

  if (w <= 0 || h <= 0)
    return;
  cairo_new_sub_path (cr);
  cairo_arc (cr, x + w - k, y + k, k, -G_PI_2, 0);
  cairo_arc (cr, x + w - k, y + h - k, k, 0, G_PI_2);
  cairo_arc (cr, x + k, y + h - k, k, G_PI_2, G_PI);
  cairo_arc (cr, x + k, y + k, k, G_PI, G_PI + G_PI_2);
  cairo_close_path (cr);
}

static void
line (cairo_t *cr, double x0, double y0, double x1, double y1)
{
  cairo_move_to (cr, x0, y0);
  cairo_line_to (cr, x1, y1);
}

static void
dot (cairo_t *cr, double x, double y, double radius)
{
  cairo_new_sub_path (cr);
  cairo_arc (cr, x, y, radius, 0, 2 * G_PI);
}

static void
draw_basin (cairo_t *cr, const DryBasin *basin)
{
  graphene_rect_t r = fit (basin->length, basin->width);
  double x = r.origin.x + (basin->drain == DRY_END_LEFT    ? r.size.width * 0.2
                           : basin->drain == DRY_END_RIGHT ? r.size.width * 0.8
                                                           : r.size.width * 0.5);
  double y = r.origin.y + r.size.height * (basin->drain == DRY_END_BACK ? 0.2 : 0.5);

  round_box (cr, &r, 0, 1);
  if (basin->kind == DRY_BASIN_TUB)
    round_box (cr, &r, 3, 6);
  else {
    line (cr, r.origin.x, r.origin.y, x, y);
    line (cr, r.origin.x + r.size.width, r.origin.y, x, y);
    line (cr, r.origin.x, r.origin.y + r.size.height, x, y);
    line (cr, r.origin.x + r.size.width, r.origin.y + r.size.height, x, y);
  }
  cairo_stroke (cr);
  dot (cr, x, y, 1.8);
  cairo_fill (cr);
}

static void
draw_niche (cairo_t *cr, const DryPart *part)
{
  graphene_rect_t r = fit (part->width, part->height);

  round_box (cr, &r, 0, 1);
  round_box (cr, &r, 3.5, 0.5);
  for (int i = 0; i < 4; i++) { /* the corners run back into the wall */
    double x = i & 1 ? r.origin.x + r.size.width : r.origin.x,
           y = i & 2 ? r.origin.y + r.size.height : r.origin.y;
    line (cr, x, y, x + (i & 1 ? -3.5 : 3.5), y + (i & 2 ? -3.5 : 3.5));
  }
  cairo_stroke (cr);
}

static void
draw_fitting (cairo_t *cr, DryPartKind kind)
{
  double c = SIDE / 2;

  switch (kind) {
  case DRY_PART_VALVE:
    dot (cr, c, c, 12);
    dot (cr, c, c, 3);
    line (cr, c, c + 3, c, c + 16);
    break;
  case DRY_PART_SPOUT:
    line (cr, 8, 10, 8, 26);
    cairo_move_to (cr, 8, 14);
    cairo_line_to (cr, 26, 14);
    cairo_curve_to (cr, 32, 14, 32, 20, 32, 26);
    cairo_line_to (cr, 26, 26);
    cairo_curve_to (cr, 26, 22, 25, 22, 22, 22);
    cairo_line_to (cr, 8, 22);
    break;
  case DRY_PART_SHOWER_HEAD:
    line (cr, 7, 7, 7, 15);
    cairo_move_to (cr, 7, 11);
    cairo_curve_to (cr, 18, 9, 24, 11, 26, 16);
    line (cr, 17, 20, 34, 15);
    for (int i = 0; i < 4; i++)
      line (cr, 19 + i * 4.5, 23 - i * 1.2, 21 + i * 5, 33 - i * 1.2);
    break;
  case DRY_PART_HAND_SHOWER:
  default:
    line (cr, 12, 5, 12, 35);
    dot (cr, 22, 10, 5);
    line (cr, 12, 18, 19, 13.5);
    cairo_move_to (cr, 14, 20);
    cairo_curve_to (cr, 34, 24, 30, 42, 14, 34);
    break;
  }
  cairo_stroke (cr);
}

static void
draw_bar_or_bench (cairo_t *cr, const DryPart *part)
{
  double y = SIDE / 2;

  if (part->kind == DRY_PART_GRAB_BAR) {
    dot (cr, 6, y, 3);
    dot (cr, SIDE - 6, y, 3);
    line (cr, 9, y - 1.5, SIDE - 9, y - 1.5);
    line (cr, 9, y + 1.5, SIDE - 9, y + 1.5);
  } else {
    graphene_rect_t top = GRAPHENE_RECT_INIT (5, 16, 30, 5);
    graphene_rect_t front = GRAPHENE_RECT_INIT (7, 21, 26, 13);
    round_box (cr, &top, 0, 1);
    if (part->fold_down) {
      line (cr, 10, 21, 16, 29);
      line (cr, 30, 21, 24, 29);
    } else
      round_box (cr, &front, 0, 0);
  }
  cairo_stroke (cr);
}

static void
draw_pane (cairo_t *cr, DryLength width, DryLength height, gboolean door)
{
  graphene_rect_t r = fit (width, height);
  double x = r.origin.x, y = r.origin.y, w = r.size.width, h = r.size.height;

  round_box (cr, &r, 0, 1);
  line (cr, x + w * 0.25, y + h * 0.55, x + w * 0.7, y + h * 0.2);
  line (cr, x + w * 0.35, y + h * 0.75, x + w * 0.75, y + h * 0.42);
  if (door) {
    dot (cr, x + w - 3.5, y + h / 2, 1.2);
    line (cr, x, y + h * 0.2, x + 2.5, y + h * 0.2);
    line (cr, x, y + h * 0.8, x + 2.5, y + h * 0.8);
  }
  cairo_stroke (cr);
}

static void
draw_opening (cairo_t *cr, const DryOpening *opening)
{
  graphene_rect_t r = fit (opening->width, opening->height);
  double x = r.origin.x, y = r.origin.y, w = r.size.width, h = r.size.height;

  round_box (cr, &r, 0, 0);
  if (opening->kind == DRY_OPENING_WINDOW) {
    round_box (cr, &r, 2.5, 0);
    line (cr, x + 2.5, y + h / 2, x + w - 2.5, y + h / 2);
  } else if (opening->kind == DRY_OPENING_DOOR) {
    round_box (cr, &r, 3, 0);
    dot (cr, x + w - 6, y + h / 2, 1.2);
  }
  cairo_stroke (cr);
}

static void
draw_hidden (cairo_t *cr, DryPartKind kind)
{
  static const double DASHES[] = {4, 2};

  cairo_set_dash (cr, DASHES, 2, 0);
  if (kind == DRY_PART_CABLE) {
    cairo_move_to (cr, 20, 4);
    cairo_curve_to (cr, 34, 14, 6, 26, 20, 36);
  } else {
    double half = kind == DRY_PART_VENT ? 8 : 4;
    line (cr, 20 - half, 4, 20 - half, 36);
    line (cr, 20 + half, 4, 20 + half, 36);
  }
  cairo_stroke (cr);
}

static void
draw_tile (cairo_t *cr, const DryItem *item)
{
  double module =
      (SIDE - 2 * EDGE) / MAX (1.0, round (3.0 * (double) item->tile_width /
                                           (double) MAX (item->tile_width, item->tile_height)));
  double w = item->tile_width >= item->tile_height ? (SIDE - 2 * EDGE) / 2 : module;
  double h = w * (double) item->tile_height / (double) MAX (item->tile_width, 1);

  cairo_rectangle (cr, EDGE, EDGE, SIDE - 2 * EDGE, SIDE - 2 * EDGE);
  cairo_clip_preserve (cr);
  for (double y = EDGE + h; y < SIDE - EDGE - 1; y += h)
    line (cr, EDGE, y, SIDE - EDGE, y);
  for (double x = EDGE + w; x < SIDE - EDGE - 1; x += w)
    line (cr, x, EDGE, x, SIDE - EDGE);
  cairo_stroke (cr);
}

static void
draw_item (cairo_t *cr, const DryItem *item)
{
  const DryPart *part = &item->part;

  if (item->kind == DRY_ITEM_BASIN)
    draw_basin (cr, &item->basin);
  else if (item->kind == DRY_ITEM_OPENING)
    draw_opening (cr, &item->opening);
  else if (item->kind == DRY_ITEM_TILE)
    draw_tile (cr, item);
  else if (part->kind == DRY_PART_NICHE)
    draw_niche (cr, part);
  else if (part->kind == DRY_PART_GLASS)
    draw_pane (cr, part->width, part->height, part->hinged);
  else if (part->kind == DRY_PART_GRAB_BAR || part->kind == DRY_PART_BENCH)
    draw_bar_or_bench (cr, part);
  else if (dry_part_kind_is_hidden (part->kind))
    draw_hidden (cr, part->kind);
  else
    draw_fitting (cr, part->kind);
}

static void
snapshot_item (GtkSnapshot *snapshot, const DryItem *item, const GdkRGBA *colour)
{
  cairo_t *cr = gtk_snapshot_append_cairo (snapshot, &GRAPHENE_RECT_INIT (0, 0, SIDE, SIDE));

  gdk_cairo_set_source_rgba (cr, colour);
  cairo_set_line_width (cr, 1.4);
  cairo_set_line_join (cr, CAIRO_LINE_JOIN_ROUND);
  cairo_set_line_cap (cr, CAIRO_LINE_CAP_ROUND);
  draw_item (cr, item);
  cairo_destroy (cr);
}

static void
dry_item_picture_snapshot (GtkWidget *widget, GtkSnapshot *snapshot)
{
  DryItemPicture *self = DRY_ITEM_PICTURE (widget);
  GdkRGBA colour;

  gtk_style_context_get_color (gtk_widget_get_style_context (widget), &colour);
  snapshot_item (snapshot, self->item, &colour);
}

static void
dry_item_picture_measure (GtkWidget *widget, GtkOrientation orientation, int for_size, int *minimum,
                          int *natural, int *minimum_baseline, int *natural_baseline)
{
  *minimum = *natural = (int) SIDE;
}

static void
dry_item_picture_class_init (DryItemPictureClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  widget_class->snapshot = dry_item_picture_snapshot;
  widget_class->measure = dry_item_picture_measure;
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_PRESENTATION);
}

static void
dry_item_picture_init (DryItemPicture *self)
{
  gtk_widget_set_valign (GTK_WIDGET (self), GTK_ALIGN_CENTER);
}

GtkWidget *
dry_item_picture_new (const DryItem *item)
{
  DryItemPicture *self = g_object_new (DRY_TYPE_ITEM_PICTURE, NULL);

  self->item = item;
  return GTK_WIDGET (self);
}

GdkPaintable *
dry_item_picture_make_icon (const DryItem *item, GtkWidget *widget)
{
  GtkSnapshot *snapshot = gtk_snapshot_new ();
  GdkRGBA colour;

  gtk_style_context_get_color (gtk_widget_get_style_context (widget), &colour);
  snapshot_item (snapshot, item, &colour);
  return gtk_snapshot_free_to_paintable (snapshot, &GRAPHENE_SIZE_INIT (SIDE, SIDE));
}
