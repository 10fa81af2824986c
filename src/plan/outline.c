/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Walks the rings of a board and keeps lists of spans.
 * Works on whole nanometres throughout; only distances to sloped edges pass through doubles. */
#include "plan/outline.h"

#include <math.h>

static void
add_ring (GArray *edges, const DryRing *ring, gboolean hole)
{
  /* The board lies on the left of a counter-clockwise outer ring and of a clockwise hole. */
  gboolean forward = (dry_ring_area2 (ring) > 0) != hole;

  for (guint i = 0; i < ring->n_points; i++) {
    guint at = forward ? i : ring->n_points - 1 - i;
    guint next = forward ? (i + 1) % ring->n_points : (2 * ring->n_points - 2 - i) % ring->n_points;
    DryOutlineEdge edge = {ring->points[at], ring->points[next], hole};
    if (edge.from.x != edge.to.x || edge.from.y != edge.to.y)
      g_array_append_val (edges, edge);
  }
}

GArray *
dry_outline_edges (const DryPolygon *shape)
{
  GArray *edges = g_array_new (FALSE, FALSE, sizeof (DryOutlineEdge));

  add_ring (edges, &shape->outer, FALSE);
  for (guint i = 0; i < shape->n_holes; i++)
    add_ring (edges, &shape->holes[i], TRUE);
  return edges;
}

static gboolean
is_on_ring (const DryRing *ring, DryPoint p)
{
  for (guint i = 0; i < ring->n_points; i++) {
    DryPoint a = ring->points[i], b = ring->points[(i + 1) % ring->n_points];
    __int128 cross = (__int128) (b.x - a.x) * (p.y - a.y) - (__int128) (b.y - a.y) * (p.x - a.x);
    if (cross == 0 && p.x >= MIN (a.x, b.x) && p.x <= MAX (a.x, b.x) && p.y >= MIN (a.y, b.y) &&
        p.y <= MAX (a.y, b.y))
      return TRUE;
  }
  return FALSE;
}

gboolean
dry_outline_contains (const DryPolygon *shape, DryPoint p)
{
  if (!dry_ring_contains (&shape->outer, p))
    return FALSE;
  for (guint i = 0; i < shape->n_holes; i++)
    if (dry_ring_contains (&shape->holes[i], p) && !is_on_ring (&shape->holes[i], p))
      return FALSE;
  return TRUE;
}

double
dry_outline_area_m2 (const DryPolygon *shape)
{
  __int128 area2 = dry_ring_area2 (&shape->outer);

  area2 = area2 < 0 ? -area2 : area2;
  for (guint i = 0; i < shape->n_holes; i++) {
    __int128 hole = dry_ring_area2 (&shape->holes[i]);
    area2 -= hole < 0 ? -hole : hole;
  }
  return (double) area2 / 2e18;
}

DryLength
dry_outline_distance (DryPoint p, DryPoint from, DryPoint to)
{
  double dx = (double) (to.x - from.x), dy = (double) (to.y - from.y);
  double px = (double) (p.x - from.x), py = (double) (p.y - from.y);
  double squared = dx * dx + dy * dy;
  double t = squared > 0 ? CLAMP ((px * dx + py * dy) / squared, 0.0, 1.0) : 0;

  return (DryLength) llround (hypot (px - t * dx, py - t * dy));
}

void
dry_spans_remove (GArray *spans, DryLength lo, DryLength hi)
{
  if (lo >= hi)
    return;
  for (guint i = 0; i < spans->len;) {
    DrySpan span = g_array_index (spans, DrySpan, i);
    if (span.hi <= lo || span.lo >= hi) {
      i++;
      continue;
    }
    g_array_remove_index (spans, i);
    if (span.lo <= lo) {
      DrySpan before = {span.lo, lo};
      g_array_insert_val (spans, i, before);
      i++;
    }
    if (span.hi >= hi) {
      DrySpan after = {hi, span.hi};
      g_array_insert_val (spans, i, after);
      i++;
    }
  }
}
