/* SPDX-License-Identifier: GPL-3.0-or-later */
/* From world nanometres to a device and back, and the paper a drawing needs round itself.
 * Every number leaving here is finite, whatever scale was asked for. */
#include <math.h>

#include "draw/painter-private.h"

#define DEVICE_MAX  1e6
#define SCALE_LEAST 1e-15
#define SCALE_MOST  1e3

static double
guard_scale (double scale)
{
  if (!isfinite (scale) || scale < SCALE_LEAST)
    return SCALE_LEAST;
  return MIN (scale, SCALE_MOST);
}

static double
guard_finite (double value)
{
  return isfinite (value) ? CLAMP (value, -1e15, 1e15) : 0;
}

double
dry_painter_clamp (double value)
{
  return isfinite (value) ? CLAMP (value, -DEVICE_MAX, DEVICE_MAX) : 0;
}

void
dry_transform_to_device (const DryTransform *self, DryPoint at, double *x, double *y)
{
  double scale = guard_scale (self->scale);

  *x = dry_painter_clamp (guard_finite (self->x) + (double) at.x * scale);
  *y = dry_painter_clamp (guard_finite (self->y) - (double) at.y * scale);
}

static DryLength
round_length (double value)
{
  if (!isfinite (value))
    return 0;
  return (DryLength) CLAMP (round (value), (double) -DRY_LENGTH_MAX, (double) DRY_LENGTH_MAX);
}

DryPoint
dry_transform_to_scene (const DryTransform *self, double x, double y)
{
  double scale = guard_scale (self->scale);

  return (DryPoint){round_length ((guard_finite (x) - guard_finite (self->x)) / scale),
                    round_length ((guard_finite (self->y) - guard_finite (y)) / scale)};
}

/* What letters anchored at the edge of the drawing reach beyond it, mm; widths are estimated with
 * a generous mean since shaping needs a font. */
static void
add_text_margins (const DryScene *scene, const DryPrimitive *item, double m[4])
{
  DryPoint p = item->points[0];
  DryRect b = scene->bounds;
  double height = item->size * 1.9, width = 0;
  double reach[4]; /* from the point: left, up, right, down */
  gboolean upright = fabs (fmod (item->angle, 180)) > 45 && fabs (fmod (item->angle, 180)) < 135;

  if (item->room)
    return; /* hidden where it does not fit */
  width = 0.78 * item->size * (double) g_utf8_strlen (item->text ? item->text : "", -1) +
          (item->pen ? 3 : 1);
  if (upright) {
    double swap = width;
    width = height;
    height = swap;
  }
  reach[0] = item->anchor == DRY_ANCHOR_LEFT         ? 0
             : item->anchor == DRY_ANCHOR_ABOVE_LEFT ? 0
             : item->anchor == DRY_ANCHOR_RIGHT      ? width
                                                     : width / 2;
  reach[2] = width - reach[0];
  reach[1] = item->anchor == DRY_ANCHOR_BELOW        ? 0
             : item->anchor == DRY_ANCHOR_ABOVE      ? height
             : item->anchor == DRY_ANCHOR_ABOVE_LEFT ? height
                                                     : height / 2;
  reach[3] = height - reach[1];
  if (p.x <= b.x0)
    m[0] = MAX (m[0], reach[0]);
  if (p.y >= b.y1)
    m[1] = MAX (m[1], reach[1]);
  if (p.x >= b.x1)
    m[2] = MAX (m[2], reach[2]);
  if (p.y <= b.y0)
    m[3] = MAX (m[3], reach[3]);
}

/* A short dimension at the drawing's edge lets its figure hang over the end. */
static void
add_dimension_margins (const DryScene *scene, const DryPrimitive *item, double m[4])
{
  gboolean flat = item->side == DRY_TOWARD_UP || item->side == DRY_TOWARD_DOWN;
  DryPoint a = item->points[0], b = item->points[1];
  DryRect r = scene->bounds;
  DryLength span = flat ? ABS (b.x - a.x) : ABS (b.y - a.y);
  double out =
      (flat ? 0.5 : 0.75) * item->size * (double) g_utf8_strlen (item->text ? item->text : "", -1) +
      1;

  if (span > MAX (dry_rect_width (r), dry_rect_height (r)) / 12)
    return;
  if (flat && MIN (a.x, b.x) <= r.x0)
    m[0] = MAX (m[0], out);
  if (flat && MAX (a.x, b.x) >= r.x1)
    m[2] = MAX (m[2], out);
  if (!flat && MAX (a.y, b.y) >= r.y1)
    m[1] = MAX (m[1], out);
  if (!flat && MIN (a.y, b.y) <= r.y0)
    m[3] = MAX (m[3], out);
}

void
dry_scene_margins (const DryScene *scene, guint layers, double margins[4])
{
  static const guint edge_of[] = {
      [DRY_TOWARD_LEFT] = 0, [DRY_TOWARD_UP] = 1, [DRY_TOWARD_RIGHT] = 2, [DRY_TOWARD_DOWN] = 3};

  for (guint i = 0; i < 4; i++)
    margins[i] = 2;
  for (guint i = 0; i < scene->n; i++) {
    const DryPrimitive *item = &scene->items[i];
    if (!(layers & (1u << item->layer)))
      continue;
    if (item->kind == DRY_PRIMITIVE_DIMENSION) {
      double need = DRY_ROW_FIRST + DRY_ROW_STEP * MIN (item->row, 40) + DRY_ROW_LETTERS + 1;
      margins[edge_of[item->side & 3]] = MAX (margins[edge_of[item->side & 3]], need);
      add_dimension_margins (scene, item, margins);
    } else if (item->kind == DRY_PRIMITIVE_TEXT)
      add_text_margins (scene, item, margins);
  }
}

DryTransform
dry_transform_fit (const DryScene *scene, double width, double height, double paper_mm)
{
  double m[4], w, h, room_w, room_h, scale;
  DryTransform self = {.paper_mm = isfinite (paper_mm) && paper_mm > 0 ? paper_mm : 1};

  dry_scene_margins (scene, (1u << DRY_N_LAYERS) - 1, m);
  width = guard_finite (width);
  height = guard_finite (height);
  room_w = width - (m[0] + m[2]) * self.paper_mm;
  room_h = height - (m[1] + m[3]) * self.paper_mm;
  w = (double) MAX (dry_rect_width (scene->bounds), DRY_MM);
  h = (double) MAX (dry_rect_height (scene->bounds), DRY_MM);
  /* In a very small window letters go first, the drawing stays. */
  scale = MIN (MAX (room_w, width * 0.2) / w, MAX (room_h, height * 0.2) / h);
  self.scale = guard_scale (scale);
  self.x =
      m[0] * self.paper_mm + (room_w - w * self.scale) / 2 - (double) scene->bounds.x0 * self.scale;
  self.y =
      m[1] * self.paper_mm + (room_h - h * self.scale) / 2 + (double) scene->bounds.y1 * self.scale;
  return self;
}
