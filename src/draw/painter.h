/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Paints a scene with Cairo and Pango: to a window, PDF, SVG or PNG alike.
 * World lengths are scaled; pens, letters and marks keep their paper size. */
#pragma once

#include <cairo.h>

#include "draw/squares.h"
#include "draw/style.h"

typedef struct {
  double scale;    /* device units per nanometre */
  double x, y;     /* device position of the scene's (0,0); scene y is up, device y down */
  double paper_mm; /* device units per paper millimetre: pens, letters, marks, dimension rows */
} DryTransform;

/* `layers` is a bit set; `clip` in scene coordinates limits work (NULL: all). */
void dry_painter_paint (cairo_t *cr, const DryScene *scene, const DryTransform *transform,
                        const DryStyle *style, guint layers, const DryRect *clip);
/* Paints like dry_painter_paint() and notes in `squares` (may be NULL) what was painted where, so
 * that who keeps pictures of them knows which are out of date. Sums hold for one style. */
void dry_painter_paint_squares (cairo_t *cr, const DryScene *scene, const DryTransform *transform,
                                const DryStyle *style, guint layers, const DryRect *clip,
                                DrySquares *squares);
/* Paints only what shows `object` (selection, ghosts), in `ink`, with wider lines. */
void dry_painter_paint_object (cairo_t *cr, const DryScene *scene, const DryTransform *transform,
                               const DryStyle *style, DryId object, DryInk ink);
typedef gboolean (*DryPainterWants) (const DryPrimitive *item, gconstpointer data);
/* Paints only what `wants` says TRUE for, in `ink`, with wider lines; letters never. */
void dry_painter_paint_wanted (cairo_t *cr, const DryScene *scene, const DryTransform *transform,
                               const DryStyle *style, DryInk ink, DryPainterWants wants,
                               gconstpointer data);
/* Letters as they were painted: capitals' height, device units, upright or lying. */
typedef struct {
  const DryPrimitive *item; /* text or dimension */
  double x0, y0, x1, y1;
} DryShownText;
/* Paints, and tells which letters were set and where: DryShownText, free with g_array_unref(). */
GArray *dry_painter_paint_and_tell (cairo_t *cr, const DryScene *scene,
                                    const DryTransform *transform, const DryStyle *style,
                                    guint layers) G_GNUC_WARN_UNUSED_RESULT;
/* The transform that fits the scene with room for dimensions into a device rectangle. */
DryTransform dry_transform_fit (const DryScene *scene, double width, double height,
                                double paper_mm);
void dry_transform_to_device (const DryTransform *self, DryPoint at, double *x, double *y);
DryPoint dry_transform_to_scene (const DryTransform *self, double x, double y);
/* Paper millimetres the drawing needs round its bounds for dimension rows and labels: l, t, r, b.
 */
void dry_scene_margins (const DryScene *scene, guint layers, double margins[4]);
