/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Parts of a comparison shared by compare.c and compare-words.c. */
#pragma once

#include "plan/compare.h"

/* Steps of the option that come out well or ill by the hand that does them. */
void dry_option_find_skill (DryOption *self, DryArena *arena);
/* Fills in what is different from `base`. */
void dry_option_tell_differences (DryOption *self, const DryOption *base, DryArena *arena);
