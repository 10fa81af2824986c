/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The basin's outline on the plan, with the corner a neo-angle pan has cut off in the open. Knows
 * walls as lines, no faces and no pens. */
#include "plan/basin-outline.h"

#include <math.h>

#include "plan/outline.h"

/* A basin this near a wall stands against it. */
#define NEAR (3 * DRY_INCH)

static gboolean
is_open (const DryRoom *room, DryPoint a, DryPoint b)
{
  DryPoint middle = {a.x + (b.x - a.x) / 2, a.y + (b.y - a.y) / 2};

  for (guint i = 0; i < room->n_walls; i++) {
    const DryWall *wall = &room->walls[i];
    for (guint side = 0; side < (wall->added ? 2 : 1); side++) {
      DryPoint from = dry_wall_point (wall, (DrySide) side, 0, 0);
      DryPoint to = dry_wall_point (wall, (DrySide) side, dry_wall_length (wall), 0);
      if (dry_outline_distance (middle, from, to) < NEAR)
        return FALSE;
    }
  }
  return TRUE;
}

static DryPoint
go_towards (DryPoint from, DryPoint to, DryLength by)
{
  double length = (double) MAX (dry_point_distance (from, to), 1);

  return (DryPoint){from.x + (DryLength) llround ((double) (to.x - from.x) * (double) by / length),
                    from.y + (DryLength) llround ((double) (to.y - from.y) * (double) by / length)};
}

gboolean
dry_basin_outline (const DryRoom *room, DryBasinOutline *out)
{
  DryLength cut = room->basin.corner_cut;
  DryPoint c[4];
  gboolean open[4];

  *out = (DryBasinOutline){.cut = -1};
  if (!dry_room_basin_corners (room, c))
    return FALSE;
  for (guint i = 0; i < 4; i++)
    open[i] = is_open (room, c[i], c[(i + 1) % 4]);
  for (guint i = 0; i < 4; i++) {
    /* Cut where both edges are in the open: one corner of the two when three edges are. */
    if (room->basin.kind == DRY_BASIN_PAN && cut > 0 &&
        cut < MIN (room->basin.length, room->basin.width) && out->cut < 0 && open[(i + 3) % 4] &&
        open[i]) {
      out->cut = (gint) out->n;
      out->open[out->n] = TRUE;
      out->points[out->n++] = go_towards (c[i], c[(i + 3) % 4], cut);
      out->open[out->n] = open[i];
      out->points[out->n++] = go_towards (c[i], c[(i + 1) % 4], cut);
      continue;
    }
    out->open[out->n] = open[i];
    out->points[out->n++] = c[i];
  }
  return TRUE;
}
