/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The tub or pan as it stands on the plan, for what asks where it ends: the free floor and the
 * drawings. Knows nothing of its height. */
#pragma once

#include "project/room.h"

/* Counter-clockwise seen from above, beginning at the back left, or at the cut where that corner is
 * cut off; in the room's coordinates. */
typedef struct {
  DryPoint points[5];
  gboolean open[5]; /* no wall within 3 in along the edge that begins at the point */
  guint n;
  gint cut; /* edge of the cut; -1 = none */
} DryBasinOutline;

/* The cut of a neo-angle pan is the corner between two open edges, the first when there are more;
 * without one nothing is cut. FALSE when there is no basin or its wall is gone. */
gboolean dry_basin_outline (const DryRoom *room, DryBasinOutline *out);
