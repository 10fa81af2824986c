/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Which things of a drawing a line of the take-off counts, so that a quantity can be shown where it
 * is. Knows no painter and no prices. */
#pragma once

#include "draw/scene.h"

/* TRUE when the line `group`/`id` counts what `item` shows. Lumber is what is to be added; sheets
 * are the boards cut from that sheet. Lines without a place on the drawing (saw blades, seconds)
 * count nothing. */
gboolean dry_counted (const DryPlan *plan, const char *group, const char *id,
                      const DryPrimitive *item);
/* How many primitives of the scene the line counts; 0: there is nothing to show. */
guint dry_counted_in (const DryPlan *plan, const char *group, const char *id,
                      const DryScene *scene);
