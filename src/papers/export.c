/* SPDX-License-Identifier: GPL-3.0-or-later */
/* One drawing as SVG, PNG or PDF at the largest standard scale that fits the paper.
 * SVG and PNG are cut to the drawing, PDF is a whole sheet with frame and title block. */
#include <cairo-svg.h>
#include <math.h>

#include "papers/frame.h"
#include "papers/output.h"
#include "papers/papers-private.h"
#include "papers/scale.h"

#define MM_TO_POINTS    (72.0 / 25.4)
#define PNG_DOTS_PER_MM (200 / 25.4)
#define PNG_MOST        8000

typedef struct {
  double ratio, width, height; /* mm on paper */
  double margins[4];
} Sheet;

static Sheet
measure_sheet (const DryPlan *plan, const DryScene *scene, DryPaperSize paper)
{
  double w, h;
  Sheet self;

  dry_paper_size_mm (paper, &w, &h);
  dry_scene_margins (scene, DRY_LAYERS_ALL, self.margins);
  for (guint i = 0; i < 4; i++)
    self.margins[i] += 3;
  self.ratio = dry_scale_choose (
      plan->context.job->metric, dry_rect_width (scene->bounds), dry_rect_height (scene->bounds),
      w - self.margins[0] - self.margins[2], h - self.margins[1] - self.margins[3]);
  self.width = dry_length_to_mm (dry_rect_width (scene->bounds)) / self.ratio + self.margins[0] +
               self.margins[2];
  self.height = dry_length_to_mm (dry_rect_height (scene->bounds)) / self.ratio + self.margins[1] +
                self.margins[3];
  return self;
}

/* Paints paper and drawing; `per_mm` are device units a paper millimetre. */
static void
paint_sheet (const Sheet *self, const DryScene *scene, cairo_t *cr, double per_mm)
{
  double scale = per_mm / (self->ratio * (double) DRY_MM);
  DryTransform transform = {.scale = scale,
                            .x = self->margins[0] * per_mm - (double) scene->bounds.x0 * scale,
                            .y = self->margins[1] * per_mm + (double) scene->bounds.y1 * scale,
                            .paper_mm = per_mm};
  const DryColour *paper = &dry_page_style ()->inks[DRY_INK_PAPER];

  cairo_set_source_rgb (cr, paper->r, paper->g, paper->b);
  cairo_paint (cr);
  /* Room to turn is for those who ask on the screen. */
  dry_painter_paint (cr, scene, &transform, dry_page_style (),
                     DRY_LAYERS_ALL & ~(1u << DRY_LAYER_TURNING), NULL);
}

/* Cairo numbers SVG groups from a counter of the whole process; numbered anew here, the same
 * drawing gives the same text. */
static GString *
number_anew (const GByteArray *svg)
{
  static const char WORD[] = "surface";
  g_autoptr (GHashTable) seen = g_hash_table_new (NULL, NULL);
  GString *out = g_string_sized_new (svg->len);
  const char *at = (const char *) svg->data, *end = at + svg->len, *word;

  while ((word = g_strstr_len (at, end - at, WORD)) != NULL) {
    const char *digits = word + strlen (WORD), *after = digits;
    gsize number = 0;

    for (; after < end && g_ascii_isdigit (*after); after++)
      number = number * 10 + (gsize) g_ascii_digit_value (*after);
    g_string_append_len (out, at, digits - at);
    if (after > digits) {
      gpointer anew = g_hash_table_lookup (seen, GSIZE_TO_POINTER (number));

      if (anew == NULL) {
        anew = GUINT_TO_POINTER (g_hash_table_size (seen) + 1);
        g_hash_table_insert (seen, GSIZE_TO_POINTER (number), anew);
      }
      g_string_append_printf (out, "%u", GPOINTER_TO_UINT (anew));
    }
    at = after;
  }
  g_string_append_len (out, at, end - at);
  return out;
}

static gboolean
write_svg (const Sheet *self, const DryScene *scene, const char *path, GError **error)
{
  g_autoptr (GByteArray) bytes = g_byte_array_new ();
  g_autoptr (GString) text = NULL;
  cairo_surface_t *surface = cairo_svg_surface_create_for_stream (
      dry_output_collect, bytes, self->width * MM_TO_POINTS, self->height * MM_TO_POINTS);
  cairo_t *cr = cairo_create (surface);

  paint_sheet (self, scene, cr, MM_TO_POINTS);
  if (!dry_output_close (cr, surface, bytes, "</svg>", path, error))
    return FALSE;
  text = number_anew (bytes);
  return dry_output_write (path, text->str, text->len, error);
}

static gboolean
write_png (const Sheet *self, const DryScene *scene, const char *path, GError **error)
{
  double dots = PNG_DOTS_PER_MM;
  g_autoptr (GByteArray) bytes = g_byte_array_new ();
  cairo_surface_t *surface;
  cairo_status_t status;
  cairo_t *cr;

  dots = MIN (dots, PNG_MOST / MAX (self->width, self->height));
  surface = cairo_image_surface_create (CAIRO_FORMAT_RGB24, (int) ceil (self->width * dots),
                                        (int) ceil (self->height * dots));
  cr = cairo_create (surface);
  paint_sheet (self, scene, cr, dots);
  status = cairo_status (cr);
  cairo_destroy (cr);
  if (status == CAIRO_STATUS_SUCCESS)
    status = cairo_surface_write_to_png_stream (surface, dry_output_collect, bytes);
  cairo_surface_destroy (surface);
  if (status != CAIRO_STATUS_SUCCESS) {
    g_set_error (error, DRY_ERROR, DRY_ERROR_FILE, "%s: drawing failed: %s", path,
                 cairo_status_to_string (status));
    return FALSE;
  }
  return dry_output_write (path, bytes->data, bytes->len, error);
}

static char *
name_sheet (const DryPlan *plan, const char *name)
{
  if (g_str_has_prefix (name, "face:"))
    for (guint i = 0; i < plan->faces->n; i++)
      if (g_ascii_strcasecmp (plan->faces->items[i].mark, name + 5) == 0)
        return g_strdup_printf ("Face %s – %s", plan->faces->items[i].mark,
                                plan->faces->items[i].name);
  if (g_str_has_prefix (name, "sheet:"))
    return g_strdup_printf ("Cut sheet %s", name + 6);
  if (g_str_equal (name, "board"))
    return g_strdup ("Plan and faces");
  if (g_str_equal (name, "strip"))
    return g_strdup ("Faces");
  return g_strdup_printf ("%c%s", g_ascii_toupper (name[0]), name + 1);
}

static gboolean
write_pdf (const DryPlan *plan, DryScene *scene, const char *name, const DryPaperOptions *options,
           const char *path, GError **error)
{
  g_autoptr (DryPapers) papers = dry_papers_new (NULL, 0, options);
  g_autofree char *title = name_sheet (plan, name);
  DryFlow flow;

  dry_flow_init (&flow, papers, plan);
  dry_flow_begin (&flow, title);
  flow.page->scale = dry_scale_to_text (
      plan->context.job->metric, dry_papers_place_scene (&flow, scene, flow.left, flow.y,
                                                         flow.width, dry_flow_left_over (&flow)));
  dry_flow_clear (&flow);
  dry_frame_close (papers);
  return dry_papers_write_pdf (papers, plan->context.job->title, title, path, error);
}

static gboolean
has_ending (const char *path, const char *ending)
{
  gsize n = strlen (path), e = strlen (ending);

  return n >= e && g_ascii_strcasecmp (path + n - e, ending) == 0;
}

gboolean
dry_papers_write_drawing (const DryPlan *plan, const char *name, const DryPaperOptions *options,
                          const char *path, GError **error)
{
  g_autoptr (DryScene) scene = NULL;
  Sheet sheet;

  if (!has_ending (path, ".svg") && !has_ending (path, ".png") && !has_ending (path, ".pdf")) {
    g_set_error (error, DRY_ERROR, DRY_ERROR_UNSUPPORTED,
                 "“%s” ends in none of .svg, .png, .pdf, so its form is not known", path);
    return FALSE;
  }
  scene = dry_drawing_by_name (plan, name, error);
  if (!scene)
    return FALSE;
  sheet = measure_sheet (plan, scene, options->paper);
  if (has_ending (path, ".svg"))
    return write_svg (&sheet, scene, path, error);
  if (has_ending (path, ".png"))
    return write_png (&sheet, scene, path, error);
  return write_pdf (plan, scene, name, options, path, error);
}
