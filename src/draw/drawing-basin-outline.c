/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The basin's outline on the plan, with the corner a neo-angle pan has cut off in the open, and the
 * same drawn in by what stands along each edge. Knows walls as lines, no pens. */
#include <math.h>

#include "draw/drawing-private.h"
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
  double length = hypot ((double) (to.x - from.x), (double) (to.y - from.y));

  return (DryPoint){from.x + (DryLength) llround ((double) (to.x - from.x) * (double) by / length),
                    from.y + (DryLength) llround ((double) (to.y - from.y) * (double) by / length)};
}

gboolean
dry_drawing_basin_outline (const DryRoom *room, DryBasinOutline *out)
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

/* Where the edge from `a` to `b`, moved left by `by`, and the edge from `b` to `c` meet. */
static DryPoint
meet (DryPoint a, DryPoint b, DryPoint c, double by, double next)
{
  double ux = (double) (b.x - a.x), uy = (double) (b.y - a.y), ul = hypot (ux, uy);
  double vx = (double) (c.x - b.x), vy = (double) (c.y - b.y), vl = hypot (vx, vy);
  double cross, px, py, qx, qy, t;

  ux /= ul, uy /= ul, vx /= vl, vy /= vl;
  cross = ux * vy - uy * vx;
  px = (double) b.x - uy * by, py = (double) b.y + ux * by;
  qx = (double) b.x - vy * next, qy = (double) b.y + vx * next;
  if (fabs (cross) < 1e-9)
    return (DryPoint){(DryLength) llround (px), (DryLength) llround (py)};
  t = ((qx - px) * vy - (qy - py) * vx) / cross;
  return (DryPoint){(DryLength) llround (px + t * ux), (DryLength) llround (py + t * uy)};
}

void
dry_drawing_basin_inside (const DryBasinOutline *outline, DryLength walled, DryLength open,
                          DryPoint points[5])
{
  guint n = outline->n;

  for (guint i = 0; i < n; i++) {
    guint before = (i + n - 1) % n;
    points[i] = meet (outline->points[before], outline->points[i], outline->points[(i + 1) % n],
                      (double) (outline->open[before] ? open : walled),
                      (double) (outline->open[i] ? open : walled));
  }
}
