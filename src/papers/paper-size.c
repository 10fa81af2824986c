/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Paper sizes and which one a country uses.
 * The larger two are for drawings and lie on their long side. */
#include "papers/papers.h"

static const struct {
  const char *name;
  double width, height; /* mm; Letter and Tabloid 8-1/2 x 11 and 17 x 11 in */
} sizes[] = {
    [DRY_PAPER_A4] = {"a4", 210, 297},
    [DRY_PAPER_LETTER] = {"letter", 215.9, 279.4},
    [DRY_PAPER_A3] = {"a3", 420, 297},
    [DRY_PAPER_TABLOID] = {"tabloid", 431.8, 279.4},
};

/* Countries whose usual paper is Letter; from memory of the locale data's list, to be verified. */
static const char letter_countries[] = "BZ CA CL CO CR GT MX NI PA PH PR SV US VE";

gboolean
dry_paper_from_text (const char *text, DryPaperSize *out)
{
  for (guint i = 0; text && i < G_N_ELEMENTS (sizes); i++)
    if (g_ascii_strcasecmp (text, sizes[i].name) == 0) {
      *out = (DryPaperSize) i;
      return TRUE;
    }
  return FALSE;
}

DryPaperSize
dry_paper_for_locale (const char *locale)
{
  const char *line = locale ? strchr (locale, '_') : NULL;
  char country[3] = {0};

  if (!line || !g_ascii_isalpha (line[1]) || !g_ascii_isalpha (line[2]) ||
      g_ascii_isalpha (line[3]))
    return DRY_PAPER_A4;
  country[0] = g_ascii_toupper (line[1]);
  country[1] = g_ascii_toupper (line[2]);
  return strstr (letter_countries, country) ? DRY_PAPER_LETTER : DRY_PAPER_A4;
}

void
dry_paper_size_mm (DryPaperSize paper, double *width, double *height)
{
  guint i = (guint) paper < G_N_ELEMENTS (sizes) ? paper : DRY_PAPER_A4;

  *width = sizes[i].width;
  *height = sizes[i].height;
}
