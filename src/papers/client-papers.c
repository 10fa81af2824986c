/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the papers for client, supplier and calendar share: pages gathered and written as one PDF,
 * money with its currency, places to sign. */
#include "papers/client-private.h"
#include "papers/frame.h"
#include "papers/output.h"

DryPapers *
dry_client_open (DryFlow *flow, const DryPlan *plan, const DryPaperOptions *options)
{
  DryPapers *papers = dry_papers_new (NULL, 0, options);

  dry_flow_init (flow, papers, plan);
  return papers;
}

gboolean
dry_client_close (DryFlow *flow, const char *subject, const char *path, GError **error)
{
  g_autoptr (DryPapers) papers = flow->papers;
  const char *title = flow->plan->context.job->title;

  dry_frame_close (papers);
  dry_flow_clear (flow);
  return dry_papers_write_pdf (papers, title, subject, path, error);
}

char *
dry_client_money (const DryPapers *papers, gint64 hundredths, const char *currency)
{
  char mark = papers->decimal == ',' ? ',' : '.', group = mark == ',' ? '.' : ',';
  g_autofree char *digits = g_strdup_printf ("%" G_GINT64_FORMAT, ABS (hundredths) / 100);
  GString *out = g_string_new (hundredths < 0 ? "-" : NULL);
  gsize n = strlen (digits);

  for (gsize i = 0; i < n; i++) {
    if (i > 0 && (n - i) % 3 == 0)
      g_string_append_c (out, group);
    g_string_append_c (out, digits[i]);
  }
  g_string_append_printf (out, "%c%02d", mark, (int) (ABS (hundredths) % 100));
  if (currency)
    g_string_append_printf (out, " %s", currency);
  return g_string_free (out, FALSE);
}

void
dry_client_picture (DryFlow *flow, const DryPlan *plan, double height)
{
  g_autoptr (DryScene) scene = dry_drawing_client (plan);
  double letters = 8, wide, high, ratio;

  if (scene->n == 0 || dry_rect_width (scene->bounds) <= 0)
    return;
  wide = (double) dry_rect_width (scene->bounds) / (double) DRY_MM;
  high = (double) dry_rect_height (scene->bounds) / (double) DRY_MM;
  ratio = MAX (wide / flow->width, high / (height - letters));
  dry_flow_need (flow, high / ratio + letters);
  dry_page_add_scene (flow->page, scene, flow->left + (flow->width - wide / ratio) / 2, flow->y,
                      ratio);
  dry_flow_skip (flow, high / ratio + letters);
}

void
dry_client_fact (DryFlow *flow, const char *label, const char *value)
{
  double indent = 48, height;

  if (!value || !*value)
    return;
  height = dry_page_measure (dry_type_body, value, flow->width - indent);
  dry_flow_need (flow, height + 1);
  dry_page_add_text (flow->page, flow->left, flow->y, indent - 2, dry_type_strong, label);
  dry_flow_text (flow, dry_type_body, indent, value);
  dry_flow_skip (flow, 0.6);
}

void
dry_client_sign (DryFlow *flow, const char *text)
{
  double half = (flow->width - 10) / 2;

  dry_flow_need (flow, 44);
  dry_flow_heading (flow, "Agreed", 40);
  dry_flow_text (flow, dry_type_body, 0, text);
  dry_flow_skip (flow, 16);
  for (guint i = 0; i < 2; i++) {
    double x = flow->left + i * (half + 10);
    dry_page_add_line (flow->page, DRY_INK_LINE, DRY_PEN_025, x, flow->y, half, 0);
    dry_page_add_text (flow->page, x, flow->y + 1, half, dry_type_small,
                       i == 0 ? "Client: name, date, signature" : "Firm: name, date, signature");
  }
  dry_flow_skip (flow, 8);
}

void
dry_client_sample_note (DryFlow *flow, const DryCost *cost)
{
  g_autoptr (GString) text = g_string_new (NULL);

  if (cost->n_samples > 0)
    g_string_append (text, "Prices on this page are invented samples: no quote. ");
  if (cost->n_gaps > 0)
    g_string_append_printf (text, "%u line%s without a price %s not in the sum. ", cost->n_gaps,
                            cost->n_gaps == 1 ? "" : "s", cost->n_gaps == 1 ? "is" : "are");
  if (cost->n_expired > 0)
    g_string_append_printf (text, "%u price%s not valid on the first day of work.", cost->n_expired,
                            cost->n_expired == 1 ? " is" : "s are");
  if (text->len > 0)
    dry_flow_text (flow, dry_type_strong, 0, text->str);
}
