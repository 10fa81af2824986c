/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Points, rectangles and regions with whole-nanometre coordinates, and exact measures on them.
 * Overlay of regions is GEOS's work (region.c); this file knows no walls and no drawings. */
#pragma once

#include "base/arena.h"
#include "base/length.h"

/* On a plan: x right, y up (north). On a face: x is u along the wall from its left end, y is z up.
 */
typedef struct {
  DryLength x, y;
} DryPoint;

/* Half-open in spirit, closed in tests; empty when x0 >= x1 or y0 >= y1. */
typedef struct {
  DryLength x0, y0, x1, y1;
} DryRect;

typedef struct {
  DryPoint *points; /* not repeated at the end; outer rings counter-clockwise, holes clockwise */
  guint n_points;
} DryRing;

typedef struct {
  DryRing outer;
  DryRing *holes;
  guint n_holes;
} DryPolygon;

typedef struct {
  DryPolygon *polygons;
  guint n_polygons;
} DryRegion;

static inline DryLength
dry_rect_width (DryRect r)
{
  return r.x1 - r.x0;
}

static inline DryLength
dry_rect_height (DryRect r)
{
  return r.y1 - r.y0;
}

static inline gboolean
dry_rect_is_empty (DryRect r)
{
  return r.x0 >= r.x1 || r.y0 >= r.y1;
}

static inline gboolean
dry_rect_contains (DryRect r, DryPoint p)
{
  return p.x >= r.x0 && p.x <= r.x1 && p.y >= r.y0 && p.y <= r.y1;
}

/* TRUE when the insides overlap; touching edges do not count. */
static inline gboolean
dry_rect_overlaps (DryRect a, DryRect b)
{
  return MAX (a.x0, b.x0) < MIN (a.x1, b.x1) && MAX (a.y0, b.y0) < MIN (a.y1, b.y1);
}

static inline DryRect
dry_rect_intersect (DryRect a, DryRect b)
{
  return (DryRect){MAX (a.x0, b.x0), MAX (a.y0, b.y0), MIN (a.x1, b.x1), MIN (a.y1, b.y1)};
}

static inline DryRect
dry_rect_inflate (DryRect r, DryLength by)
{
  return (DryRect){r.x0 - by, r.y0 - by, r.x1 + by, r.y1 + by};
}

/* Length of a segment, to the nearest nanometre. */
DryLength dry_point_distance (DryPoint a, DryPoint b);

/* Twice the signed area (counter-clockwise positive), exact. Caller keeps within DRY_LENGTH_MAX. */
__int128 dry_ring_area2 (const DryRing *ring);
gboolean dry_ring_is_simple (const DryRing *ring); /* no crossing, touching or zero-length edge */
gboolean dry_ring_contains (const DryRing *ring, DryPoint p); /* boundary counts as inside */
gboolean dry_ring_is_rectilinear (const DryRing *ring);
DryRect dry_ring_bounds (const DryRing *ring);

/* Areas in square metres for people and quantities; the *_area2 twins are exact. */
__int128 dry_region_area2 (const DryRegion *region);
double dry_region_area_m2 (const DryRegion *region);
DryRect dry_region_bounds (const DryRegion *region); /* all zero when empty */
gboolean dry_region_contains (const DryRegion *region, DryPoint p);
gboolean dry_region_is_empty (const DryRegion *region);

DryRegion dry_region_from_rect (DryArena *arena, DryRect rect);
DryRegion dry_region_from_ring (DryArena *arena, const DryPoint *points, guint n_points);
DryRegion dry_region_copy (DryArena *arena, const DryRegion *region);

/* Overlay. Exact for axis-parallel edges; crossings of sloped edges are rounded to the nanometre.
 * Output rings are oriented, start at their lowest-leftmost point and have no collinear points, and
 * polygons are sorted, so equal regions are equal arrays. Pieces under 1 nm2 vanish. Never fails on
 * simple rings; on others the result is the overlay of their repaired shapes. */
DryRegion dry_region_union (DryArena *arena, const DryRegion *a, const DryRegion *b);
DryRegion dry_region_intersection (DryArena *arena, const DryRegion *a, const DryRegion *b);
DryRegion dry_region_difference (DryArena *arena, const DryRegion *a, const DryRegion *b);
/* What any number of regions leave of the first: as one difference after the other, but only the
 * last answer is turned back into whole nanometres. */
DryRegion dry_region_difference_all (DryArena *arena, const DryRegion *region,
                                     const DryRegion *taken, guint n_taken);
DryRegion dry_region_union_rects (DryArena *arena, const DryRect *rects, guint n_rects);
