/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the painter's files share: one paint's state and the gate every coordinate passes.
 * Private to the painter; nothing else may include it. */
#pragma once

#include <pango/pangocairo.h>

#include "draw/painter.h"
#include "draw/scene-rows.h"

/* Between figures side by side, and from the line to the figure's foot. */
#define DRY_FIGURE_GAP  1.6
#define DRY_FIGURE_LIFT 0.6

typedef struct {
  double x0, y0, x1, y1;
} DryBox;

/* One dimension at this zoom; "along" runs with its line, "across" away from the drawing. */
typedef struct {
  const DryPrimitive *item;
  gboolean flat;    /* the line runs across the page */
  double a, b;      /* its ends, along; a < b */
  double base[2];   /* where the extension lines start, across */
  double line;      /* where it stands, across */
  double out;       /* +1 or -1: the direction away from the drawing */
  double width;     /* of the figure */
  guint stack, row; /* the rows it belongs to */
  guint place;      /* 0 nearest the drawing */
  gboolean gone;    /* no space for its row */
  gboolean done;    /* the figure has been set */
} DryDimension;

typedef struct {
  cairo_t *cr;
  const DryScene *scene;
  DryTransform transform;
  const DryStyle *style;
  guint layers;
  gboolean has_clip;
  DryRect clip;
  DryBox window; /* device rectangle that can be seen, a little inflated */
  /* Letters. */
  PangoLayout *layout;
  double font_size;
  gboolean font_bold;
  gboolean has_font;
  GArray *boxes;       /* DryBox taken by letters and signs */
  GArray *dimensions;  /* DryDimension */
  GArray *shown;       /* DryShownText, when somebody asked */
  DrySquares *squares; /* likewise */
  /* Stroke being gathered. */
  gboolean open;
  DryInk ink;
  DryPen pen;
  DryDash dash;
  /* One object lit up. */
  DryInk force;
  double widen;
} DryPainter;

/* Device position, finite and within what Cairo can hold. */
void dry_painter_place (const DryPainter *self, DryPoint at, double *x, double *y);
double dry_painter_clamp (double value);
double dry_painter_mm (const DryPainter *self, double mm);
void dry_painter_set_ink (DryPainter *self, DryInk ink, double alpha);
void dry_painter_set_pen (DryPainter *self, DryPen pen, DryDash dash);
/* A device segment cut to the window, so that no dash pattern runs for miles. */
void dry_painter_segment (DryPainter *self, double x0, double y0, double x1, double y1);

/* Fills the current path (kept) with the item's hatch. */
void dry_painter_hatch (DryPainter *self, const DryPrimitive *item);
void dry_painter_mark (DryPainter *self, const DryPrimitive *item);
/* Screws or washers, `n` of one kind and ink one after the other, as one path. */
void dry_painter_heads (DryPainter *self, const DryPrimitive *items, guint n);
/* TRUE when letters drawn there would touch none drawn before; takes the place. */
gboolean dry_painter_take_box (DryPainter *self, DryBox box);
void dry_painter_text (DryPainter *self, const DryPrimitive *item);
/* Shapes `text`; its ink width and the letters' height in device units. */
void dry_painter_shape (DryPainter *self, const char *text, double size_mm, gboolean bold,
                        double *width, double *height);
/* Shows what was shaped last, the letters of `item`, with its centre at (x, y). */
void dry_painter_show (DryPainter *self, const DryPrimitive *item, double x, double y, double width,
                       double height, double angle);
/* Gathers the dimensions and decides which rows there is space for. */
void dry_painter_lay_out_rows (DryPainter *self);
void dry_painter_dimension_lines (DryPainter *self);
void dry_painter_dimension_figures (DryPainter *self);

/* painter-squares.c: each is called beside what paints it, and does nothing unless somebody keeps
 * squares. Device units; `reach` is how far a sign goes from its middle. */
void dry_painter_note_shape (DryPainter *self, const DryPrimitive *item);
void dry_painter_note_sign (DryPainter *self, const DryPrimitive *item, double x, double y,
                            double reach);
void dry_painter_note_letters (DryPainter *self, const DryPrimitive *item, double x, double y,
                               double w, double h, double angle);
void dry_painter_note_line (DryPainter *self, DryInk ink, double x0, double y0, double x1,
                            double y1);
