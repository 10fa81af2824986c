/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Exact measures and tests on rings and regions: orientation, area, containment, simplicity.
 * Whole numbers only; overlay of regions is in region.c. */
#include "base/geometry.h"

#include <math.h>
#include <stdlib.h>

DryLength
dry_point_distance (DryPoint a, DryPoint b)
{
  if (a.x == b.x)
    return llabs (a.y - b.y);
  if (a.y == b.y)
    return llabs (a.x - b.x);
  return llround (hypot ((double) (a.x - b.x), (double) (a.y - b.y)));
}

static __int128
cross (DryPoint o, DryPoint a, DryPoint b)
{
  return (__int128) (a.x - o.x) * (b.y - o.y) - (__int128) (a.y - o.y) * (b.x - o.x);
}

static int
sign (__int128 value)
{
  return (value > 0) - (value < 0);
}

static gboolean
is_between (DryPoint a, DryPoint b, DryPoint p)
{
  return MIN (a.x, b.x) <= p.x && p.x <= MAX (a.x, b.x) && MIN (a.y, b.y) <= p.y &&
         p.y <= MAX (a.y, b.y);
}

static gboolean
segments_touch (DryPoint a, DryPoint b, DryPoint c, DryPoint d)
{
  int d1, d2, d3, d4;

  if (MAX (a.x, b.x) < MIN (c.x, d.x) || MAX (c.x, d.x) < MIN (a.x, b.x) ||
      MAX (a.y, b.y) < MIN (c.y, d.y) || MAX (c.y, d.y) < MIN (a.y, b.y))
    return FALSE;
  d1 = sign (cross (a, b, c));
  d2 = sign (cross (a, b, d));
  d3 = sign (cross (c, d, a));
  d4 = sign (cross (c, d, b));
  if (d1 * d2 < 0 && d3 * d4 < 0)
    return TRUE;
  return (d1 == 0 && is_between (a, b, c)) || (d2 == 0 && is_between (a, b, d)) ||
         (d3 == 0 && is_between (c, d, a)) || (d4 == 0 && is_between (c, d, b));
}

__int128
dry_ring_area2 (const DryRing *ring)
{
  __int128 sum = 0;

  for (guint i = 0; i < ring->n_points; i++) {
    DryPoint a = ring->points[i], b = ring->points[(i + 1) % ring->n_points];
    sum += (__int128) a.x * b.y - (__int128) b.x * a.y;
  }
  return sum;
}

/* Neighbouring edges share their corner; they must not fold back on each other. */
static gboolean
folds_back (DryPoint before, DryPoint at, DryPoint after)
{
  __int128 dot = (__int128) (before.x - at.x) * (after.x - at.x) +
                 (__int128) (before.y - at.y) * (after.y - at.y);

  return cross (before, at, after) == 0 && dot > 0;
}

gboolean
dry_ring_is_simple (const DryRing *ring)
{
  guint n = ring->n_points;

  if (n < 3)
    return FALSE;
  for (guint i = 0; i < n; i++) {
    DryPoint a = ring->points[i], b = ring->points[(i + 1) % n];

    if ((a.x == b.x && a.y == b.y) || folds_back (a, b, ring->points[(i + 2) % n]))
      return FALSE;
    for (guint j = i + 2; j < n; j++) {
      if (i == 0 && j == n - 1)
        continue; /* neighbours round the end */
      if (segments_touch (a, b, ring->points[j], ring->points[(j + 1) % n]))
        return FALSE;
    }
  }
  return TRUE;
}

gboolean
dry_ring_contains (const DryRing *ring, DryPoint p)
{
  gboolean inside = FALSE;

  for (guint i = 0; i < ring->n_points; i++) {
    DryPoint a = ring->points[i], b = ring->points[(i + 1) % ring->n_points];
    __int128 side = cross (a, b, p);

    if (side == 0 && is_between (a, b, p))
      return TRUE;
    if ((a.y > p.y) != (b.y > p.y) && (side > 0) == (b.y > a.y))
      inside = !inside;
  }
  return inside;
}

gboolean
dry_ring_is_rectilinear (const DryRing *ring)
{
  for (guint i = 0; i < ring->n_points; i++) {
    DryPoint a = ring->points[i], b = ring->points[(i + 1) % ring->n_points];
    if (a.x != b.x && a.y != b.y)
      return FALSE;
  }
  return TRUE;
}

DryRect
dry_ring_bounds (const DryRing *ring)
{
  DryRect r = {0};

  for (guint i = 0; i < ring->n_points; i++) {
    DryPoint p = ring->points[i];
    if (i == 0)
      r = (DryRect){p.x, p.y, p.x, p.y};
    r = (DryRect){MIN (r.x0, p.x), MIN (r.y0, p.y), MAX (r.x1, p.x), MAX (r.y1, p.y)};
  }
  return r;
}

__int128
dry_region_area2 (const DryRegion *region)
{
  __int128 sum = 0;

  for (guint i = 0; i < region->n_polygons; i++) {
    const DryPolygon *polygon = &region->polygons[i];
    sum += dry_ring_area2 (&polygon->outer);
    for (guint j = 0; j < polygon->n_holes; j++)
      sum += dry_ring_area2 (&polygon->holes[j]);
  }
  return sum;
}

double
dry_region_area_m2 (const DryRegion *region)
{
  return (double) dry_region_area2 (region) / 2e18;
}

DryRect
dry_region_bounds (const DryRegion *region)
{
  DryRect all = {0};

  for (guint i = 0; i < region->n_polygons; i++) {
    DryRect r = dry_ring_bounds (&region->polygons[i].outer);
    if (i == 0)
      all = r;
    all = (DryRect){MIN (all.x0, r.x0), MIN (all.y0, r.y0), MAX (all.x1, r.x1), MAX (all.y1, r.y1)};
  }
  return all;
}

gboolean
dry_region_contains (const DryRegion *region, DryPoint p)
{
  for (guint i = 0; i < region->n_polygons; i++) {
    const DryPolygon *polygon = &region->polygons[i];
    gboolean in_hole = FALSE;

    if (!dry_ring_contains (&polygon->outer, p))
      continue;
    for (guint j = 0; j < polygon->n_holes && !in_hole; j++) {
      const DryRing *hole = &polygon->holes[j];
      in_hole = dry_ring_contains (hole, p);
      for (guint k = 0; in_hole && k < hole->n_points; k++) {
        DryPoint a = hole->points[k], b = hole->points[(k + 1) % hole->n_points];
        if (cross (a, b, p) == 0 && is_between (a, b, p))
          in_hole = FALSE; /* on the hole's edge counts as inside the region */
      }
    }
    if (!in_hole)
      return TRUE;
  }
  return FALSE;
}

gboolean
dry_region_is_empty (const DryRegion *region)
{
  return region->n_polygons == 0;
}
