/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Contrast of every ink in every style by the formula of WCAG 2.2, success criteria 1.4.3, 1.4.11.
 * Also of letters on the tints that drawings lay under them. */
#include <math.h>

#include "draw/style.h"

static const DryStyleName all[] = {DRY_STYLE_PAPER, DRY_STYLE_LIGHT, DRY_STYLE_DARK,
                                   DRY_STYLE_CONTRAST, DRY_STYLE_CONTRAST_DARK};

static double
linear (double c)
{
  return c <= 0.04045 ? c / 12.92 : pow ((c + 0.055) / 1.055, 2.4);
}

static double
luminance (DryColour c)
{
  return 0.2126 * linear (c.r) + 0.7152 * linear (c.g) + 0.0722 * linear (c.b);
}

static double
contrast (DryColour a, DryColour b)
{
  double x = luminance (a), y = luminance (b);

  return (MAX (x, y) + 0.05) / (MIN (x, y) + 0.05);
}

static DryColour
blend (DryColour over, DryColour under, double alpha)
{
  return (DryColour){alpha * over.r + (1 - alpha) * under.r, alpha * over.g + (1 - alpha) * under.g,
                     alpha * over.b + (1 - alpha) * under.b};
}

static void
test_formula (void)
{
  DryColour white = {1, 1, 1}, black = {0, 0, 0}, grey = {0x76 / 255.0, 0x76 / 255.0, 0x76 / 255.0};

  g_assert_cmpfloat_with_epsilon (contrast (white, black), 21, 1e-9);
  /* #767676 is the usual example of just enough on white, 4.54:1. */
  g_assert_cmpfloat_with_epsilon (contrast (white, grey), 4.54, 0.01);
}

static void
test_contrast (void)
{
  for (guint s = 0; s < G_N_ELEMENTS (all); s++) {
    const DryStyle *style = dry_style_get (all[s]);
    gboolean high = all[s] >= DRY_STYLE_CONTRAST;
    DryColour paper = style->inks[DRY_INK_PAPER];
    for (int ink = DRY_INK_LINE; ink < DRY_INK_FIRST_MATERIAL; ink++) {
      gboolean text = ink == DRY_INK_TEXT || ink == DRY_INK_TEXT_FAINT || ink == DRY_INK_PIPE;
      double want = high ? 7 : text ? 4.5 : 3, got = contrast (style->inks[ink], paper);
      if (ink == DRY_INK_PAPER)
        continue;
      if (got < want)
        g_test_fail_printf ("style %d ink %d has only %.2f:1", all[s], ink, got);
    }
  }
}

/* Signs carry paper-coloured strokes; letters lie on tinted boards, basins and wet walls. */
static void
test_on_tints (void)
{
  static const struct {
    DryInk ink;
    double alpha;
  } tints[] = {{DRY_INK_BOARD, 0.16}, {DRY_INK_BOARD_ALT, 0.16}, {DRY_INK_BASIN, 0.2},
               {DRY_INK_WET, 0.12},   {DRY_INK_DRYWALL, 0.07},   {DRY_INK_GLASS, 0.14},
               {DRY_INK_WALL, 0.14}};

  for (guint s = 0; s < G_N_ELEMENTS (all); s++) {
    const DryStyle *style = dry_style_get (all[s]);
    DryColour paper = style->inks[DRY_INK_PAPER];
    for (guint i = 0; i < G_N_ELEMENTS (tints); i++) {
      DryColour ground = blend (style->inks[tints[i].ink], paper, tints[i].alpha);
      g_assert_cmpfloat (contrast (style->inks[DRY_INK_TEXT], ground), >=, 4.5);
      g_assert_cmpfloat (contrast (style->inks[DRY_INK_LINE], ground), >=, 3);
    }
    for (int ink = DRY_INK_STOP; ink <= DRY_INK_ADVICE; ink++)
      g_assert_cmpfloat (contrast (style->inks[ink], paper), >=, 4.5);
  }
}

/* In the client's picture fittings stand out from tile as a graphical object must, joints can be
 * told from tile, and shadow darkens everything it falls on. */
static void
test_materials (void)
{
  for (guint s = 0; s < G_N_ELEMENTS (all); s++) {
    const DryColour *inks = dry_style_get (all[s])->inks;

    g_assert_cmpfloat (contrast (inks[DRY_INK_METAL], inks[DRY_INK_GLAZE]), >=, 3);
    g_assert_cmpfloat (contrast (inks[DRY_INK_METAL], inks[DRY_INK_ENAMEL]), >=, 3);
    g_assert_cmpfloat (contrast (inks[DRY_INK_GROUT], inks[DRY_INK_GLAZE]), >=,
                       all[s] >= DRY_STYLE_CONTRAST ? 3 : 1.5);
    for (int ink = DRY_INK_FIRST_MATERIAL; ink < DRY_INK_SHADE; ink++)
      g_assert_cmpfloat (luminance (inks[DRY_INK_SHADE]), <=, luminance (inks[ink]));
  }
}

static void
test_pens (void)
{
  for (guint s = 0; s < G_N_ELEMENTS (all); s++) {
    const DryStyle *style = dry_style_get (all[s]);
    g_assert_nonnull (style->font);
    g_assert_cmpfloat (style->pens[DRY_PEN_NONE], ==, 0);
    for (guint i = 1; i < G_N_ELEMENTS (style->pens); i++)
      g_assert_cmpfloat (style->pens[i], >, style->pens[i - 1]);
  }
  /* ISO 128 widths on paper. */
  g_assert_cmpfloat (dry_style_get (DRY_STYLE_PAPER)->pens[DRY_PEN_013], ==, 0.13);
  g_assert_cmpfloat (dry_style_get (DRY_STYLE_PAPER)->pens[DRY_PEN_070], ==, 0.7);
  g_assert_true (dry_style_get ((DryStyleName) 99) == dry_style_get (DRY_STYLE_PAPER));
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/draw/style/formula", test_formula);
  g_test_add_func ("/draw/style/contrast", test_contrast);
  g_test_add_func ("/draw/style/on-tints", test_on_tints);
  g_test_add_func ("/draw/style/materials", test_materials);
  g_test_add_func ("/draw/style/pens", test_pens);
  return g_test_run ();
}
