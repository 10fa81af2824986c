/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Pages as plain lists of letters, lines and drawings, laid out once and painted any number of
 * times. Lengths are millimetres from the top left; knows no plan. Private to the papers floor. */
#pragma once

#include <pango/pangocairo.h>

#include "draw/painter.h"
#include "papers/papers.h"

typedef enum { DRY_ALIGN_LEFT, DRY_ALIGN_RIGHT, DRY_ALIGN_CENTRE } DryAlign;

typedef struct {
  double size; /* points */
  gboolean bold;
  DryInk ink;
  DryAlign align;
} DryType;

/* The types used on all papers. */
extern const DryType dry_type_title, dry_type_heading, dry_type_body, dry_type_strong,
    dry_type_small, dry_type_number, dry_type_fine;

typedef enum {
  DRY_PAGE_TEXT,
  DRY_PAGE_LINE,
  DRY_PAGE_FILL,
  DRY_PAGE_SCENE,
  DRY_PAGE_MARK
} DryPageItemKind;

typedef struct {
  DryPageItemKind kind;
  double x, y, width, height; /* LINE: from (x, y) by (width, height) */
  DryType type;
  DryInk ink;
  DryPen pen;
  double alpha;
  char *text;
  DryScene *scene; /* SCENE: held; MARK too */
  DryTransform transform;
  const char *tag; /* structure tag of PDF: "H1", "P", ... */
} DryPageItem;

typedef struct {
  GArray *items;
  char *title, *scale; /* of the sheet; scale may be NULL */
  guint hidden;        /* layers its drawings go without, a bit each */
  const DryPlan *plan;
} DryPage;

DryPage *dry_page_new (const DryPlan *plan, const char *title);
void dry_page_free (DryPage *self);

void dry_page_add_text (DryPage *self, double x, double y, double width, DryType type,
                        const char *text);
void dry_page_add_line (DryPage *self, DryInk ink, DryPen pen, double x, double y, double dx,
                        double dy);
void dry_page_add_fill (DryPage *self, DryInk ink, double alpha, double x, double y, double width,
                        double height);
/* Puts the scene's drawing so that its bounds' top left is at (x, y), at 1:`ratio`. */
void dry_page_add_scene (DryPage *self, DryScene *scene, double x, double y, double ratio);

/* Height of the text set in `width`, mm; `lines` may be NULL. Works without a Cairo context. */
double dry_page_measure (DryType type, const char *text, double width);
/* Width of the text on one line, mm. */
double dry_page_measure_width (DryType type, const char *text);

/* Paints the items; `cr` is in points. `tags`: with structure tags, for PDF only. */
void dry_page_paint (const DryPage *self, cairo_t *cr, gboolean tags);
/* The style all papers are printed in. */
const DryStyle *dry_page_style (void);
