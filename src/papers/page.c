/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Builds and paints pages. Text is set with Pango in absolute sizes, so measuring and painting
 * agree on every device; the scenes on a page are painted by the draw floor. */
#include "papers/page.h"

#define MM_TO_POINTS (72.0 / 25.4)

const DryType dry_type_title = {18, TRUE, DRY_INK_TEXT, DRY_ALIGN_LEFT};
const DryType dry_type_heading = {11, TRUE, DRY_INK_TEXT, DRY_ALIGN_LEFT};
const DryType dry_type_body = {9, FALSE, DRY_INK_TEXT, DRY_ALIGN_LEFT};
const DryType dry_type_strong = {9, TRUE, DRY_INK_TEXT, DRY_ALIGN_LEFT};
const DryType dry_type_small = {8, FALSE, DRY_INK_TEXT_FAINT, DRY_ALIGN_LEFT};
const DryType dry_type_number = {9, FALSE, DRY_INK_TEXT, DRY_ALIGN_RIGHT};
const DryType dry_type_fine = {7, FALSE, DRY_INK_TEXT_FAINT, DRY_ALIGN_LEFT};

const DryStyle *
dry_page_style (void)
{
  return dry_style_get (DRY_STYLE_PAPER);
}

static void
clear_item (gpointer data)
{
  DryPageItem *item = data;

  g_free (item->text);
  dry_scene_unref (item->scene);
}

DryPage *
dry_page_new (const DryPlan *plan, const char *title)
{
  DryPage *self = g_new0 (DryPage, 1);

  self->items = g_array_new (FALSE, TRUE, sizeof (DryPageItem));
  g_array_set_clear_func (self->items, clear_item);
  self->title = g_strdup (title);
  self->plan = plan;
  return self;
}

void
dry_page_free (DryPage *self)
{
  g_array_unref (self->items);
  g_free (self->title);
  g_free (self->scale);
  g_free (self);
}

void
dry_page_add_text (DryPage *self, double x, double y, double width, DryType type, const char *text)
{
  DryPageItem item = {.kind = DRY_PAGE_TEXT,
                      .x = x,
                      .y = y,
                      .width = width,
                      .type = type,
                      .tag = type.size >= 15                ? "H1"
                             : type.size >= 11 && type.bold ? "H2"
                                                            : "P",
                      .text = g_strdup (text ? text : "")};

  g_array_append_val (self->items, item);
}

void
dry_page_add_line (DryPage *self, DryInk ink, DryPen pen, double x, double y, double dx, double dy)
{
  DryPageItem item = {
      .kind = DRY_PAGE_LINE, .x = x, .y = y, .width = dx, .height = dy, .ink = ink, .pen = pen};

  g_array_append_val (self->items, item);
}

void
dry_page_add_fill (DryPage *self, DryInk ink, double alpha, double x, double y, double width,
                   double height)
{
  DryPageItem item = {.kind = DRY_PAGE_FILL,
                      .x = x,
                      .y = y,
                      .width = width,
                      .height = height,
                      .ink = ink,
                      .alpha = alpha};

  g_array_append_val (self->items, item);
}

void
dry_page_add_scene (DryPage *self, DryScene *scene, double x, double y, double ratio)
{
  DryPageItem item = {.kind = DRY_PAGE_SCENE, .scene = dry_scene_ref (scene)};
  double scale = MM_TO_POINTS / (ratio * (double) DRY_MM);

  item.transform = (DryTransform){.scale = scale,
                                  .x = x * MM_TO_POINTS - (double) scene->bounds.x0 * scale,
                                  .y = y * MM_TO_POINTS + (double) scene->bounds.y1 * scale,
                                  .paper_mm = MM_TO_POINTS};
  g_array_append_val (self->items, item);
}

static void
set_layout (PangoLayout *layout, DryType type, const char *text, double width)
{
  static const PangoAlignment alignments[] = {[DRY_ALIGN_LEFT] = PANGO_ALIGN_LEFT,
                                              [DRY_ALIGN_RIGHT] = PANGO_ALIGN_RIGHT,
                                              [DRY_ALIGN_CENTRE] = PANGO_ALIGN_CENTER};
  PangoFontDescription *font = pango_font_description_new ();

  pango_font_description_set_family (font, dry_page_style ()->font);
  pango_font_description_set_weight (font, type.bold ? PANGO_WEIGHT_BOLD : PANGO_WEIGHT_NORMAL);
  pango_font_description_set_absolute_size (font, type.size * PANGO_SCALE);
  pango_layout_set_font_description (layout, font);
  pango_font_description_free (font);
  pango_layout_set_alignment (layout, alignments[type.align]);
  pango_layout_set_wrap (layout, PANGO_WRAP_WORD_CHAR);
  pango_layout_set_width (layout, width > 0 ? (int) (width * MM_TO_POINTS * PANGO_SCALE) : -1);
  pango_layout_set_text (layout, text, -1);
}

static void
set_options (PangoContext *context)
{
  cairo_font_options_t *options = cairo_font_options_create ();

  cairo_font_options_set_hint_metrics (options, CAIRO_HINT_METRICS_OFF);
  cairo_font_options_set_hint_style (options, CAIRO_HINT_STYLE_NONE);
  pango_cairo_context_set_font_options (context, options);
  cairo_font_options_destroy (options);
}

static PangoRectangle
measure (DryType type, const char *text, double width)
{
  PangoContext *context = pango_font_map_create_context (pango_cairo_font_map_get_default ());
  PangoLayout *layout;
  PangoRectangle logical;

  set_options (context);
  layout = pango_layout_new (context);
  set_layout (layout, type, text ? text : "", width);
  pango_layout_get_extents (layout, NULL, &logical);
  g_object_unref (layout);
  g_object_unref (context);
  return logical;
}

double
dry_page_measure (DryType type, const char *text, double width)
{
  return measure (type, text, width).height / (PANGO_SCALE * MM_TO_POINTS);
}

double
dry_page_measure_width (DryType type, const char *text)
{
  return measure (type, text, 0).width / (PANGO_SCALE * MM_TO_POINTS);
}

static void
set_ink (cairo_t *cr, DryInk ink, double alpha)
{
  const DryColour *c = &dry_page_style ()->inks[ink];

  cairo_set_source_rgba (cr, c->r, c->g, c->b, alpha);
}

static void
paint_item (const DryPageItem *item, guint hidden, cairo_t *cr, PangoLayout *layout)
{
  double x = item->x * MM_TO_POINTS, y = item->y * MM_TO_POINTS;

  switch (item->kind) {
  case DRY_PAGE_TEXT:
    set_layout (layout, item->type, item->text, item->width);
    set_ink (cr, item->type.ink, 1);
    cairo_move_to (cr, x, y);
    pango_cairo_show_layout (cr, layout);
    break;
  case DRY_PAGE_LINE:
    set_ink (cr, item->ink, 1);
    cairo_set_line_width (cr, dry_page_style ()->pens[item->pen] * MM_TO_POINTS);
    cairo_move_to (cr, x, y);
    cairo_rel_line_to (cr, item->width * MM_TO_POINTS, item->height * MM_TO_POINTS);
    cairo_stroke (cr);
    break;
  case DRY_PAGE_FILL:
    set_ink (cr, item->ink, item->alpha);
    cairo_rectangle (cr, x, y, item->width * MM_TO_POINTS, item->height * MM_TO_POINTS);
    cairo_fill (cr);
    break;
  case DRY_PAGE_SCENE:
  case DRY_PAGE_MARK:
    dry_painter_paint (
        cr, item->scene, &item->transform, dry_page_style (),
        DRY_LAYERS_ALL & ~(1u << DRY_LAYER_CUTS) & ~(1u << DRY_LAYER_TURNING) & ~hidden, NULL);
    break;
  }
  cairo_new_path (cr);
}

void
dry_page_paint (const DryPage *self, cairo_t *cr, gboolean tags)
{
  PangoLayout *layout = pango_cairo_create_layout (cr);

  set_options (pango_layout_get_context (layout));
  for (guint i = 0; i < self->items->len; i++) {
    const DryPageItem *item = &g_array_index (self->items, DryPageItem, i);
    const char *tag = item->kind == DRY_PAGE_TEXT    ? item->tag
                      : item->kind == DRY_PAGE_SCENE ? "Figure"
                                                     : NULL;

    if (tags && tag)
      cairo_tag_begin (cr, tag, NULL);
    paint_item (item, self->hidden, cr, layout);
    if (tags && tag)
      cairo_tag_end (cr, tag);
  }
  g_object_unref (layout);
}
