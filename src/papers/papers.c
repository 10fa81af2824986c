/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Puts the chapters together and writes them as PDF.
 * The date in the file is the one given, or a fixed one, so the same input gives the same bytes. */
#include <cairo-pdf.h>

#include "papers/frame.h"
#include "papers/output.h"
#include "papers/papers-private.h"

#define MM_TO_POINTS (72.0 / 25.4)

static void
unref_plan (gpointer plan)
{
  dry_plan_unref (plan);
}

static void
free_page (gpointer page)
{
  dry_page_free (page);
}

static void
add_room (DryPapers *self, const DryPlan *plan)
{
  DryFlow flow;

  dry_flow_init (&flow, self, plan);
  dry_papers_add_summary (&flow);
  dry_papers_add_plan (&flow);
  dry_papers_add_faces (&flow);
  dry_papers_add_niches (&flow);
  dry_papers_add_tile_cuts (&flow);
  dry_papers_add_water (&flow);
  dry_papers_add_cut_sheets (&flow);
  dry_papers_add_takeoff (&flow);
  dry_papers_add_order (&flow);
  dry_papers_add_inspection (&flow);
  dry_flow_clear (&flow);
}

DryPapers *
dry_papers_new_empty (const DryPlan *const *plans, guint n_plans, const DryPaperOptions *options)
{
  DryPapers *self = g_new0 (DryPapers, 1);

  self->paper = options->paper;
  self->decimal = options->decimal;
  self->date = g_strdup (options->date);
  dry_paper_size_mm (self->paper, &self->width, &self->height);
  self->pages = g_ptr_array_new_with_free_func (free_page);
  self->plans = g_ptr_array_new_with_free_func (unref_plan);
  for (guint i = 0; i < n_plans; i++)
    g_ptr_array_add (self->plans, dry_plan_ref (plans[i]));
  return self;
}

DryPapers *
dry_papers_new (const DryPlan *const *plans, guint n_plans, const DryPaperOptions *options)
{
  DryPapers *self = dry_papers_new_empty (plans, n_plans, options);

  for (guint i = 0; i < n_plans; i++)
    add_room (self, plans[i]);
  dry_frame_close (self);
  return self;
}

void
dry_papers_free (DryPapers *self)
{
  if (!self)
    return;
  g_ptr_array_unref (self->pages);
  g_ptr_array_unref (self->plans);
  g_free (self->date);
  g_free (self);
}

guint
dry_papers_get_n_pages (const DryPapers *self)
{
  return self->pages->len;
}

void
dry_papers_paint_page (const DryPapers *self, guint page, cairo_t *cr)
{
  if (page < self->pages->len)
    dry_page_paint (self->pages->pdata[page], cr, FALSE);
}

static gboolean
is_iso_date (const char *date)
{
  gint month = 0, day = 0;

  if (!date || strlen (date) != 10 || date[4] != '-' || date[7] != '-')
    return FALSE;
  for (guint i = 0; i < 10; i++)
    if (i != 4 && i != 7 && !g_ascii_isdigit (date[i]))
      return FALSE;
  month = (date[5] - '0') * 10 + date[6] - '0';
  day = (date[8] - '0') * 10 + date[9] - '0';
  return month >= 1 && month <= 12 && day >= 1 && day <= 31;
}

static void
set_metadata (cairo_surface_t *surface, const char *title, const char *subject, const char *date)
{
  /* Cairo puts in the clock's time unless told another. */
  g_autofree char *created =
      g_strdup_printf ("%sT00:00:00Z", is_iso_date (date) ? date : "2000-01-01");

  cairo_pdf_surface_set_metadata (surface, CAIRO_PDF_METADATA_TITLE, title);
  cairo_pdf_surface_set_metadata (surface, CAIRO_PDF_METADATA_AUTHOR, "Drybay");
  cairo_pdf_surface_set_metadata (surface, CAIRO_PDF_METADATA_SUBJECT, subject);
  cairo_pdf_surface_set_metadata (surface, CAIRO_PDF_METADATA_CREATOR, "Drybay");
  cairo_pdf_surface_set_metadata (surface, CAIRO_PDF_METADATA_CREATE_DATE, created);
  cairo_pdf_surface_set_metadata (surface, CAIRO_PDF_METADATA_MOD_DATE, created);
}

/* The outline a reader shows beside the pages: one entry where a sheet begins. */
static void
add_outline (cairo_surface_t *surface, const DryPapers *self)
{
  const DryPlan *room = NULL;
  const char *last = NULL;
  int parent = CAIRO_PDF_OUTLINE_ROOT;

  for (guint i = 0; i < self->pages->len; i++) {
    const DryPage *page = self->pages->pdata[i];
    g_autofree char *link = g_strdup_printf ("page=%u", i + 1);
    if (page->plan != room && self->plans->len > 1) {
      parent = cairo_pdf_surface_add_outline (surface, CAIRO_PDF_OUTLINE_ROOT,
                                              dry_flow_room_name (page->plan), link,
                                              CAIRO_PDF_OUTLINE_FLAG_OPEN);
      last = NULL;
    }
    room = page->plan;
    if (g_strcmp0 (page->title, last) != 0)
      cairo_pdf_surface_add_outline (surface, parent, page->title, link, 0);
    last = page->title;
  }
}

gboolean
dry_papers_write_pdf (const DryPapers *self, const char *title, const char *subject,
                      const char *path, GError **error)
{
  g_autoptr (GByteArray) bytes = g_byte_array_new ();
  cairo_surface_t *surface = cairo_pdf_surface_create_for_stream (
      dry_output_collect, bytes, self->width * MM_TO_POINTS, self->height * MM_TO_POINTS);
  cairo_t *cr = cairo_create (surface);

  set_metadata (surface, title, subject, self->date);
  for (guint i = 0; i < self->pages->len; i++) {
    dry_page_paint (self->pages->pdata[i], cr, TRUE);
    cairo_show_page (cr);
  }
  if (self->plans->len > 0)
    add_outline (surface, self);
  return dry_output_close (cr, surface, bytes, "%%EOF", path, error) &&
         dry_output_write (path, bytes->data, bytes->len, error);
}

gboolean
dry_papers_save (const DryPapers *self, const char *subject, const char *path, GError **error)
{
  const DryPlan *first = self->plans->pdata[0];

  return dry_papers_write_pdf (self, first->context.job->title, subject, path, error);
}

gboolean
dry_papers_write (const DryPlan *const *plans, guint n_plans, const DryPaperOptions *options,
                  const char *path, GError **error)
{
  g_autoptr (DryPapers) self = NULL;

  if (n_plans == 0) {
    g_set_error (error, DRY_ERROR, DRY_ERROR_UNSUPPORTED, "There is no room to write papers of");
    return FALSE;
  }
  self = dry_papers_new (plans, n_plans, options);
  return dry_papers_save (self, "Papers of a wet area", path, error);
}
