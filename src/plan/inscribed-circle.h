/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The largest circle beside what stands in a rectangle. Plain geometry; knows no pan and no bench.
 */
#pragma once

#include "base/geometry.h"

/* Beyond these only squares are looked for, which may be smaller. */
#define DRY_INSCRIBED_MOST 8

typedef struct {
  DryRect clear;        /* its lower left corner at 0, 0 */
  const DryRect *taken; /* within it, borrowed; they may overlap */
  guint n_taken;
  gint cut; /* the corner cut off at 45 degrees, counter-clockwise from the upper left; -1 = none */
  DryLength leg; /* of the cut, along each side; less than each side */
} DryInscribed;

/* The diameter, less than a thousandth of a millimetre below the largest; exactly that wherever two
 * parallel edges hold the circle, or two at right angles and the cut. */
DryLength dry_inscribed_circle (const DryInscribed *self);
