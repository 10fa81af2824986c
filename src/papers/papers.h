/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Papers: what leaves the house as PDF, SVG, PNG and CSV, from a plan and its drawings.
 * No window, no clock: the date printed is given; the same input gives the same bytes. */
#pragma once

#include <cairo.h>

#include "draw/drawings.h"

typedef enum { DRY_PAPER_A4, DRY_PAPER_LETTER, DRY_PAPER_A3, DRY_PAPER_TABLOID } DryPaperSize;

gboolean dry_paper_from_text (const char *text, DryPaperSize *out);
/* The usual size of a locale such as "en_US.UTF-8": Letter in North America and a few others, else
 * A4. */
DryPaperSize dry_paper_for_locale (const char *locale);
void dry_paper_size_mm (DryPaperSize paper, double *width, double *height);

typedef struct {
  DryPaperSize paper;
  const char *date; /* ISO date printed and stored, or NULL for none */
  char decimal;
} DryPaperOptions;

/* The crew's papers of one room: summary with cautions, plan, a page a face, cut sheets, take-off
 * with workings, order of work, a sheet for the inspector. Errors: DRY_ERROR_FILE. */
gboolean dry_papers_write (const DryPlan *const *plans, guint n_plans,
                           const DryPaperOptions *options, const char *path, GError **error);
/* One drawing by name (draw/drawings.h) to .svg, .png or .pdf, by the path's ending. */
gboolean dry_papers_write_drawing (const DryPlan *plan, const char *name,
                                   const DryPaperOptions *options, const char *path,
                                   GError **error);
/* Number of pages and painting one of them, for printing and preview. `cr` is in points, origin top
 * left. */
typedef struct _DryPapers DryPapers;
DryPapers *dry_papers_new (const DryPlan *const *plans, guint n_plans,
                           const DryPaperOptions *options);
void dry_papers_free (DryPapers *self);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (DryPapers, dry_papers_free)
guint dry_papers_get_n_pages (const DryPapers *self);
void dry_papers_paint_page (const DryPapers *self, guint page, cairo_t *cr);

/* The template of a niche, tiled over pages at full size with marks to join them by and lines to
 * check the printer with. Errors: DRY_ERROR_REFERENCE when `part` is no niche of a boarded wall. */
DryPapers *dry_papers_new_template (const DryPlan *plan, DryId part, const DryPaperOptions *options,
                                    GError **error);
/* The story pole: strips at full size with every level joint of the walls and the heights of what
 * hangs there, and their list. Errors: DRY_ERROR_UNSUPPORTED without tile in courses. */
DryPapers *dry_papers_new_story_pole (const DryPlan *plan, const DryPaperOptions *options,
                                      GError **error);
/* Writes them as PDF. Errors: DRY_ERROR_FILE. */
gboolean dry_papers_save (const DryPapers *self, const char *subject, const char *path,
                          GError **error);

/* Take-off as RFC 4180 text (CRLF). Cells that a spreadsheet could take for formulas are defused.
 */
char *dry_takeoff_to_csv (const DryTakeoff *takeoff) G_GNUC_WARN_UNUSED_RESULT;
