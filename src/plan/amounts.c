/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The arithmetic behind every quantity: films, beads, mortar and grout, packs.
 * Kept apart so that each formula can be checked against the published figure it comes from. */
#include "plan/amounts.h"

#include <math.h>

#include "base/decimals.h"

double
dry_film_volume (double area_m2, double wet_mm)
{
  return area_m2 * wet_mm;
}

double
dry_film_coverage (double solids, double dry_mm)
{
  return dry_mm > 0 ? solids / dry_mm : 0;
}

double
dry_film_wet (double dry_mm, double solids, double thinner)
{
  return solids > 0 ? dry_mm / solids * (1 + thinner) : 0;
}

double
dry_film_from_mass (double mass_kg, double density, double solids, double area_m2)
{
  return density > 0 && area_m2 > 0 ? mass_kg / density * solids / area_m2 : 0;
}

double
dry_film_ft2_per_gallon (double mils)
{
  return mils > 0
             ? dry_film_coverage (1, mils * DRY_MM_PER_MIL) * DRY_LITRES_PER_GALLON / DRY_M2_PER_FT2
             : 0;
}

double
dry_bead_volume (DryLength width, DryLength depth, double length_m)
{
  /* mm x mm x m is a thousandth of a litre */
  return dry_length_to_mm (width) * dry_length_to_mm (depth) * length_m / 1000;
}

double
dry_bead_fillet_volume (DryLength leg, double length_m)
{
  return dry_bead_volume (leg, leg, length_m) / 2;
}

double
dry_bead_yield (DryLength width, DryLength depth, double litres)
{
  double each = dry_bead_volume (width, depth, 1);

  return each > 0 ? litres / each : 0;
}

double
dry_grout_volume_short (DryLength a, DryLength b, DryLength joint, DryLength depth)
{
  if (a <= 0 || b <= 0)
    return 0;
  return (double) (a + b) / ((double) a * (double) b) * (double) joint * dry_length_to_mm (depth);
}

double
dry_grout_volume_exact (DryLength a, DryLength b, DryLength joint, DryLength depth)
{
  if (a <= 0 || b <= 0)
    return 0;
  double share = 1 - (double) a * (double) b / ((double) (a + joint) * (double) (b + joint));

  return share * dry_length_to_mm (depth);
}

/* Coverage of a 50 lb bag as generic how-to pages print it (secondary source); which trowel goes
 * with which tile is common practice, no source. */
static const DryTrowel trowels[DRY_N_TROWELS] = {
    {"1/4 x 1/4 in square notch", DRY_INCH / 4, 80, 100},
    {"1/4 x 3/8 in square notch", DRY_INCH * 3 / 8, 60, 80},
    {"1/2 x 1/2 in square notch", DRY_INCH / 2, 40, 50},
};

const DryTrowel *
dry_trowel_at (guint index)
{
  return index < DRY_N_TROWELS ? &trowels[index] : NULL;
}

const DryTrowel *
dry_trowel_for_tile (DryLength longer_side)
{
  if (longer_side <= 8 * DRY_INCH)
    return &trowels[0];
  return longer_side < 15 * DRY_INCH ? &trowels[1] : &trowels[2];
}

double
dry_trowel_mean_thickness_mm (const DryTrowel *trowel)
{
  return dry_length_to_mm (trowel->notch_depth) / 2;
}

double
dry_trowel_mass (const DryTrowel *trowel)
{
  double ft2 = (trowel->ft2_low + trowel->ft2_high) / 2;

  return 50 * DRY_KG_PER_LB / (ft2 * DRY_M2_PER_FT2);
}

double
dry_mass_from_psf (double psf)
{
  return psf * DRY_KG_PER_LB / DRY_M2_PER_FT2;
}

double
dry_mass_at_thickness (double mass, DryLength at, DryLength wanted)
{
  return at > 0 && wanted > 0 ? mass * (double) wanted / (double) at : mass;
}

guint
dry_spacing_count (DryLength length, DryLength spacing)
{
  if (length <= 0 || spacing <= 0)
    return 1;
  return (guint) ((length + spacing - 1) / spacing) + 1;
}

gint64
dry_packs_for (double amount, double pack)
{
  if (!(amount > 0) || !(pack > 0))
    return 0;
  double packs = amount / pack, whole = floor (packs);

  return (gint64) (packs - whole <= 1e-6 && whole > 0 ? whole : ceil (packs));
}

guint
dry_stock_lengths (const DryLength *lengths, guint n, DryLength stock)
{
  g_autofree DryLength *sorted = g_memdup2 (lengths, sizeof (DryLength) * n);
  g_autofree DryLength *left = g_new0 (DryLength, n + 1);
  guint used = 0;

  for (guint i = 1; i < n; i++) /* longest first; short lists, so by insertion */
    for (guint j = i; j > 0 && sorted[j] > sorted[j - 1]; j--) {
      DryLength swap = sorted[j];
      sorted[j] = sorted[j - 1];
      sorted[j - 1] = swap;
    }
  for (guint i = 0; i < n; i++) {
    guint at = 0;
    while (at < used && left[at] < sorted[i])
      at++;
    if (at == used)
      left[used++] = stock;
    left[at] -= sorted[i];
  }
  return used;
}

const char *
dry_number_text (DryArena *arena, double value, int decimals)
{
  g_autofree char *text = dry_decimals_format (value, (guint) CLAMP (decimals, 0, 9), '.');

  return dry_arena_strdup (arena, text);
}

const char *
dry_metres_text (DryArena *arena, DryLength length)
{
  return dry_arena_printf (arena, "%s m",
                           dry_number_text (arena, dry_length_to_mm (length) / 1000, 3));
}

const char *
dry_mm_text (DryArena *arena, DryLength length)
{
  return dry_arena_printf (arena, "%s mm", dry_number_text (arena, dry_length_to_mm (length), 3));
}
