/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Writes a scene as text, a line a primitive, so that a drawing can be compared in a test.
 * Coordinates are millimetres to the hundredth; independent of locale. */
#include "draw/scene.h"

static const char *const layer_names[DRY_N_LAYERS] = {
    "room",   "studs", "basin",    "boards",     "tile",   "coating", "joints", "fasteners",
    "hidden", "parts", "findings", "dimensions", "labels", "water",   "cuts",   "turning"};
static const char *const ink_names[DRY_N_INKS] = {
    "none",       "line",      "faint", "paper",   "wall",    "wood",      "steel",
    "board",      "board-alt", "basin", "glass",   "fitting", "band",      "sealant",
    "fastener",   "wet",       "tile",  "drywall", "pipe",    "dimension", "text",
    "text-faint", "stop",      "fix",   "advice",  "glaze",   "glaze-alt", "grout",
    "enamel",     "paint",     "floor", "metal",   "shade"};
static const char *const pen_names[] = {"0", "0.13", "0.18", "0.25", "0.35", "0.50", "0.70"};
static const char *const dash_names[] = {"solid", "dashed", "chain", "dotted"};
static const char *const hatch_names[] = {"none", "diagonal", "cross", "dots", "wood", "warning"};
static const char *const kind_names[] = {"path", "circle", "mark", "text", "dimension"};
static const char *const mark_names[] = {"screw",  "washer", "stop",  "fix",
                                         "advice", "north",  "drain", "cross"};
static const char *const anchor_names[] = {"centre", "left",  "right",
                                           "above",  "below", "above-left"};
static const char *const side_names[] = {"left", "right", "up", "down"};
static const char *const shows_names[] = {"nothing", "room",     "wall",    "basin",
                                          "part",    "opening",  "member",  "board",
                                          "joint",   "fastener", "finding", "sheet"};
static const char *const view_names[] = {"plan", "face", "sheet"};

static void
append_mm (GString *out, DryLength length)
{
  /* Whole arithmetic: hundredths of a millimetre, half away from zero. */
  int64_t unit = DRY_MM / 100;
  int64_t n = (length >= 0 ? length + unit / 2 : length - unit / 2) / unit;
  int64_t a = ABS (n);

  if (n < 0)
    g_string_append_c (out, '-');
  g_string_append_printf (out, "%" G_GINT64_FORMAT, a / 100);
  if (a % 100)
    g_string_append_printf (out, ".%02d", (int) (a % 100));
}

static void
append_point (GString *out, DryPoint p)
{
  g_string_append_c (out, ' ');
  append_mm (out, p.x);
  g_string_append_c (out, ',');
  append_mm (out, p.y);
}

static void
append_number (GString *out, const char *name, double value)
{
  char text[G_ASCII_DTOSTR_BUF_SIZE];

  g_string_append_printf (out, " %s=%s", name, g_ascii_formatd (text, sizeof text, "%.6g", value));
}

static void
append_look (GString *out, const DryPrimitive *item)
{
  if (item->stroke != DRY_INK_NONE)
    g_string_append_printf (out, " %s/%s", ink_names[item->stroke], pen_names[item->pen]);
  if (item->dash != DRY_DASH_SOLID)
    g_string_append_printf (out, " %s", dash_names[item->dash]);
  if (item->fill != DRY_INK_NONE) {
    g_string_append_printf (out, " fill=%s", ink_names[item->fill]);
    if (item->fill_alpha != 1)
      append_number (out, "alpha", item->fill_alpha);
  }
  if (item->hatch != DRY_HATCH_NONE)
    g_string_append_printf (out, " hatch=%s", hatch_names[item->hatch]);
}

static void
append_extras (GString *out, const DryPrimitive *item)
{
  if (item->kind == DRY_PRIMITIVE_CIRCLE) {
    g_string_append (out, " r=");
    append_mm (out, item->radius);
  }
  if (item->kind == DRY_PRIMITIVE_MARK)
    g_string_append_printf (out, " %s", mark_names[item->mark]);
  if (item->kind == DRY_PRIMITIVE_DIMENSION)
    g_string_append_printf (out, " side=%s row=%u", side_names[item->side], item->row);
  if (item->kind == DRY_PRIMITIVE_TEXT) {
    append_number (out, "size", item->size);
    g_string_append_printf (out, " %s%s", anchor_names[item->anchor], item->bold ? " bold" : "");
    if (item->angle != 0)
      append_number (out, "angle", item->angle);
    if (item->room) {
      g_string_append (out, " room=");
      append_mm (out, item->room);
    }
  }
  if (item->text) {
    g_string_append (out, " \"");
    for (const char *c = item->text; *c; c++) {
      if (*c == '"' || *c == '\\')
        g_string_append_c (out, '\\');
      if (*c == '\n')
        g_string_append (out, "\\n");
      else
        g_string_append_c (out, *c);
    }
    g_string_append_c (out, '"');
  }
}

static void
append_item (GString *out, const DryPrimitive *item)
{
  g_string_append_printf (out, "%s %s", layer_names[item->layer], kind_names[item->kind]);
  if (item->shows != DRY_SHOWS_NOTHING) {
    g_string_append_printf (out, " %s", shows_names[item->shows]);
    if (item->object)
      g_string_append_printf (out, "#%u", item->object);
    if (item->index >= 0)
      g_string_append_printf (out, "[%d]", item->index);
  }
  if (item->view >= 0)
    g_string_append_printf (out, " v%d", item->view);
  append_look (out, item);
  append_extras (out, item);
  g_string_append (out, item->closed ? " closed:" : ":");
  for (guint i = 0, ring = 0; i < item->n_points; i++) {
    if (item->ring_ends && ring < item->n_rings && i == item->ring_ends[ring]) {
      g_string_append (out, " |");
      ring++;
    }
    append_point (out, item->points[i]);
  }
  g_string_append_c (out, '\n');
}

char *
dry_scene_to_text (const DryScene *self)
{
  GString *out = g_string_new ("bounds");

  append_point (out, (DryPoint){self->bounds.x0, self->bounds.y0});
  append_point (out, (DryPoint){self->bounds.x1, self->bounds.y1});
  g_string_append_c (out, '\n');
  for (guint i = 0; i < self->n_views; i++) {
    const DryView *view = &self->views[i];
    g_string_append_printf (out, "view %u %s[%d] \"%s\" origin", i, view_names[view->kind],
                            view->face, view->name ? view->name : "");
    append_point (out, view->origin);
    g_string_append (out, " bounds");
    append_point (out, (DryPoint){view->bounds.x0, view->bounds.y0});
    append_point (out, (DryPoint){view->bounds.x1, view->bounds.y1});
    g_string_append_c (out, '\n');
  }
  for (guint i = 0; i < self->n; i++)
    append_item (out, &self->items[i]);
  return g_string_free (out, FALSE);
}
