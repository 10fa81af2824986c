/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The small things painted on top of the board: outlines, guide lines, labels in chips.
 * Each is a node of its own with tight bounds, so that a drag repaints little. */
#pragma once

#include "ui/canvas-private.h"

G_BEGIN_DECLS

/* A place on the widget, in its pixels. */
typedef struct {
  double x, y;
} DrySpot;

typedef enum { DRY_CHIP_QUIET, DRY_CHIP_ACCENT, DRY_CHIP_WARNING } DryChipKind;

GdkRGBA dry_mark_colour (DryColour colour, double alpha);
GdkRGBA dry_mark_accent (DryCanvas *self, float alpha);
DrySpot dry_mark_spot (DryCanvas *self, DryPoint at);
/* `fill` is the opacity of its inside. */
void dry_mark_shape (DryCanvas *self, GtkSnapshot *snapshot, const DryShape *shape, GdkRGBA colour,
                     double pen, float fill);
void dry_mark_line (GtkSnapshot *snapshot, DrySpot from, DrySpot to, GdkRGBA colour, double pen,
                    gboolean dashed);
/* Centred on `at`, kept inside the canvas. */
void dry_mark_chip (DryCanvas *self, GtkSnapshot *snapshot, DrySpot at, const char *text,
                    DryChipKind kind);
/* Where sayings about the thing in hand stand: lines at the foot of the board, beside its tools, so
 * that they cover neither the thing nor its distances. Line 0 is the lowest. */
DrySpot dry_mark_foot (DryCanvas *self, guint line);
void dry_mark_chip_size (DryCanvas *self, const char *text, double *width, double *height);
/* What `draw` adds is one node of the frame. GTK tells what is new in a frame by comparing nodes
 * that lie side by side, gives up when many came or went, and then paints the whole board anew. */
void dry_mark_group (DryCanvas *self, GtkSnapshot *snapshot,
                     void (*draw) (DryCanvas *self, GtkSnapshot *snapshot));
/* canvas-paint-hand.c: what is in hand, with its distances and the reason it snapped. */
void dry_canvas_paint_hand (DryCanvas *self, GtkSnapshot *snapshot);

G_END_DECLS
