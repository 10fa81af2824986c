/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Colours and line widths for each ink and pen: light, dark, high contrast and paper styles.
 * Text has 4.5:1 and lines 3:1 against their ground in every style. */
#pragma once

#include "draw/scene.h"

typedef struct {
  double r, g, b;
} DryColour;

typedef enum {
  DRY_STYLE_PAPER,
  DRY_STYLE_LIGHT,
  DRY_STYLE_DARK,
  DRY_STYLE_CONTRAST,
  DRY_STYLE_CONTRAST_DARK
} DryStyleName;

typedef struct {
  DryColour inks[DRY_N_INKS];
  double pens[7];   /* paper mm */
  const char *font; /* family */
} DryStyle;

const DryStyle *dry_style_get (DryStyleName name);
