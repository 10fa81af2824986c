/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The lists of standard scales and the choice among them.
 * Metric ones are those of ISO 5455 and 1:25, common practice; the inch ones are on every
 * architect's scale. */
#include "papers/scale.h"

static const double metric_scales[] = {1, 2, 5, 10, 20, 25, 50, 100, 200, 500, 1000};

static const struct {
  double ratio;
  const char *text;
} inch_scales[] = {
    {1, "full size"},        {2, "6\" = 1'-0\""},    {4, "3\" = 1'-0\""},
    {8, "1 1/2\" = 1'-0\""}, {12, "1\" = 1'-0\""},   {16, "3/4\" = 1'-0\""},
    {24, "1/2\" = 1'-0\""},  {32, "3/8\" = 1'-0\""}, {48, "1/4\" = 1'-0\""},
    {64, "3/16\" = 1'-0\""}, {96, "1/8\" = 1'-0\""}, {192, "1/16\" = 1'-0\""},
};

double
dry_scale_choose (gboolean metric, DryLength width, DryLength height, double room_width,
                  double room_height)
{
  double w = dry_length_to_mm (width) / MAX (room_width, 1);
  double h = dry_length_to_mm (height) / MAX (room_height, 1);
  double need = MAX (w, h), ratio = 1000;
  guint n = metric ? G_N_ELEMENTS (metric_scales) : G_N_ELEMENTS (inch_scales);

  for (guint i = 0; i < n; i++) {
    double scale = metric ? metric_scales[i] : inch_scales[i].ratio;
    if (scale >= need)
      return scale;
  }
  while (ratio < need)
    ratio *= 10;
  return ratio;
}

double
dry_scale_larger (gboolean metric, double ratio)
{
  guint n = metric ? G_N_ELEMENTS (metric_scales) : G_N_ELEMENTS (inch_scales);
  double larger = 0;

  for (guint i = 0; i < n; i++) {
    double scale = metric ? metric_scales[i] : inch_scales[i].ratio;
    if (scale < ratio)
      larger = MAX (larger, scale);
  }
  return larger;
}

char *
dry_scale_to_text (gboolean metric, double ratio)
{
  for (guint i = 0; i < G_N_ELEMENTS (inch_scales) && !metric; i++)
    if (inch_scales[i].ratio == ratio)
      return ratio == 1 ? g_strdup ("full size (1:1)")
                        : g_strdup_printf ("%s (1:%d)", inch_scales[i].text, (int) ratio);
  return g_strdup_printf ("1:%d", (int) ratio);
}
