/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The drawing style that fits the screen as it is now: light or dark, high contrast or not.
 * Knows the person's wish for colors, not what is drawn. */
#pragma once

#include "draw/style.h"

/* Borrowed, constant. */
const DryStyle *dry_screen_style (void);
