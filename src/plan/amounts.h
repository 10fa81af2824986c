/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Arithmetic of materials: films, beads, mortar and grout, packs, board mass, texts of numbers.
 * Plain functions of numbers in metric units; knows nothing of boards, systems or plans. */
#pragma once

#include "base/length.h"
#include "base/working.h"

/* Exact conversions (definitions). */
#define DRY_LITRES_PER_GALLON      3.785411784
#define DRY_LITRES_PER_FLUID_OUNCE (DRY_LITRES_PER_GALLON / 128.0)
#define DRY_M2_PER_FT2             0.09290304
#define DRY_MM_PER_MIL             0.0254
#define DRY_KG_PER_LB              0.45359237

/* --- films: a litre on a square metre stands one millimetre high --- */
/* Litres for one coat of `wet_mm` on `area_m2`. */
double dry_film_volume (double area_m2, double wet_mm);
/* m2 a litre covers at a dry film; `solids` is the share by volume, 0..1. 0 when it has no answer.
 */
double dry_film_coverage (double solids, double dry_mm);
/* Wet film that dries to `dry_mm`; `thinner` is the share added, 0 for none. */
double dry_film_wet (double dry_mm, double solids, double thinner);
/* Dry film left by `mass_kg` of a coating of `density` kg/L on `area_m2`. */
double dry_film_from_mass (double mass_kg, double density, double solids, double area_m2);
/* The same coverage as American data sheets print it: square feet a gallon covers at `mils` wet. */
double dry_film_ft2_per_gallon (double mils);

/* --- beads, in litres --- */
double dry_bead_volume (DryLength width, DryLength depth, double length_m);
double dry_bead_fillet_volume (DryLength leg, double length_m); /* triangular section */
/* Metres of bead a cartridge of `litres` gives. 0 for a bead without section. */
double dry_bead_yield (DryLength width, DryLength depth, double litres);

/* --- grout and mortar --- */
/* Litres of grout per m2: the formula printed on most bags, and the exact one. */
double dry_grout_volume_short (DryLength a, DryLength b, DryLength joint, DryLength depth);
double dry_grout_volume_exact (DryLength a, DryLength b, DryLength joint, DryLength depth);
/* Trowels for tile, by the longer side of the tile. */
typedef struct {
  const char *name;         /* "1/4 x 1/4 in square notch" */
  DryLength notch_depth;    /* held upright, equal notch and tooth leave half of it */
  double ft2_low, ft2_high; /* a 50 lb bag covers */
} DryTrowel;
#define DRY_N_TROWELS 3
const DryTrowel *dry_trowel_at (guint index);
const DryTrowel *dry_trowel_for_tile (DryLength longer_side);
double dry_trowel_mean_thickness_mm (const DryTrowel *trowel);
double dry_trowel_mass (const DryTrowel *trowel); /* kg of dry mortar per m2, middle of the range */

/* --- boards --- */
double dry_mass_from_psf (double psf); /* kg/m2 */
double dry_mass_at_thickness (double mass, DryLength at, DryLength wanted);
/* How many marks divide `length` evenly with none further apart than `spacing`, both ends counted.
 */
guint dry_spacing_count (DryLength length, DryLength spacing);

/* --- packs --- */
/* Whole packs that hold `amount`. A millionth of a pack too much is rounding noise, not a pack. */
gint64 dry_packs_for (double amount, double pack);
/* Straight stock of `stock` length out of which the `n` lengths can be cut, longest first; each
 * length must fit. */
guint dry_stock_lengths (const DryLength *lengths, guint n, DryLength stock);

/* --- numbers as text: '.' always, at most `decimals` places, no trailing zeros --- */
const char *dry_number_text (DryArena *arena, double value, int decimals);
const char *dry_metres_text (DryArena *arena, DryLength length); /* "7.62 m" */
const char *dry_mm_text (DryArena *arena, DryLength length);     /* "3.175 mm" */
