/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Overlay of regions by GEOS, and the way to and from its coordinates.
 * Nanometre coordinates below 1 km are whole doubles, so axis-parallel overlay stays exact. */
#define G_LOG_DOMAIN "drybay-base"
#include "base/geometry.h"

#include <geos_c.h>
#include <math.h>
#include <string.h>

static void
ignore_message (const char *message, void *data)
{
  g_debug ("GEOS: %s", message);
}

/* GEOS answers NULL when it gets no memory. Going on would be a wall with less board than it needs:
 * the program ends, as GLib would. */
static gpointer
need (gconstpointer made)
{
  if (made == NULL)
    g_error ("no memory for a region");
  return (gpointer) made;
}

static GEOSContextHandle_t
open_geos (void)
{
  GEOSContextHandle_t geos = need (GEOS_init_r ());

  GEOSContext_setNoticeMessageHandler_r (geos, ignore_message, NULL);
  GEOSContext_setErrorMessageHandler_r (geos, ignore_message, NULL);
  return geos;
}

static GEOSGeometry *
make_ring (GEOSContextHandle_t geos, const DryRing *ring)
{
  GEOSCoordSequence *seq = need (GEOSCoordSeq_create_r (geos, ring->n_points + 1, 2));

  for (guint i = 0; i <= ring->n_points; i++) {
    DryPoint p = ring->points[i % ring->n_points];
    GEOSCoordSeq_setXY_r (geos, seq, i, (double) p.x, (double) p.y);
  }
  return need (GEOSGeom_createLinearRing_r (geos, seq));
}

static GEOSGeometry *
make_polygon (GEOSContextHandle_t geos, const DryPolygon *polygon)
{
  GEOSGeometry **holes = g_new (GEOSGeometry *, polygon->n_holes + 1);
  GEOSGeometry *result;

  for (guint i = 0; i < polygon->n_holes; i++)
    holes[i] = make_ring (geos, &polygon->holes[i]);
  result =
      GEOSGeom_createPolygon_r (geos, make_ring (geos, &polygon->outer), holes, polygon->n_holes);
  g_free (holes);
  return need (result);
}

/* The polygons in it, borrowed; shapes that touch leave points and lines, too, which have no area.
 */
static void
collect_areas (GEOSContextHandle_t geos, const GEOSGeometry *geometry, GPtrArray *areas)
{
  int type = GEOSGeomTypeId_r (geos, geometry);

  if (type == GEOS_POLYGON && !GEOSisEmpty_r (geos, geometry))
    g_ptr_array_add (areas, (gpointer) geometry);
  else if (type == GEOS_MULTIPOLYGON || type == GEOS_GEOMETRYCOLLECTION)
    for (int i = 0; i < GEOSGetNumGeometries_r (geos, geometry); i++)
      collect_areas (geos, GEOSGetGeometryN_r (geos, geometry, i), areas);
}

/* A copy of those polygons that are wanted; NULL: all. */
static GEOSGeometry *
copy_areas (GEOSContextHandle_t geos, const GEOSGeometry *geometry,
            gboolean (*wanted) (GEOSContextHandle_t, const GEOSGeometry *))
{
  g_autoptr (GPtrArray) areas = g_ptr_array_new ();
  guint n = 0;

  collect_areas (geos, geometry, areas);
  for (guint i = 0; i < areas->len; i++)
    if (wanted == NULL || wanted (geos, areas->pdata[i]))
      areas->pdata[n++] = need (GEOSGeom_clone_r (geos, areas->pdata[i]));
  return need (
      GEOSGeom_createCollection_r (geos, GEOS_MULTIPOLYGON, (GEOSGeometry **) areas->pdata, n));
}

/* GEOS refuses to lay anything over areas with lines beside them. Takes the geometry over. */
static GEOSGeometry *
keep_areas (GEOSContextHandle_t geos, GEOSGeometry *geometry)
{
  int type = GEOSGeomTypeId_r (geos, geometry);
  GEOSGeometry *areas;

  if (type == GEOS_POLYGON || type == GEOS_MULTIPOLYGON)
    return geometry;
  areas = copy_areas (geos, geometry, NULL);
  GEOSGeom_destroy_r (geos, geometry);
  return areas;
}

static GEOSGeometry *
repair (GEOSContextHandle_t geos, GEOSGeometry *geometry)
{
  GEOSGeometry *valid;

  if (GEOSisValid_r (geos, need (geometry)) == 1)
    return geometry;
  valid = need (GEOSMakeValid_r (geos, geometry));
  GEOSGeom_destroy_r (geos, geometry);
  return keep_areas (geos, valid);
}

static GEOSGeometry *
make_region (GEOSContextHandle_t geos, const DryRegion *region)
{
  GEOSGeometry **polygons = g_new (GEOSGeometry *, region->n_polygons + 1);
  GEOSGeometry *result;

  for (guint i = 0; i < region->n_polygons; i++)
    polygons[i] = make_polygon (geos, &region->polygons[i]);
  if (region->n_polygons == 1)
    result = polygons[0];
  else
    result = GEOSGeom_createCollection_r (geos, GEOS_MULTIPOLYGON, polygons, region->n_polygons);
  g_free (polygons);
  return repair (geos, result);
}

/* --- back to whole nanometres --- */

static gboolean
is_collinear (DryPoint a, DryPoint b, DryPoint c)
{
  return (__int128) (b.x - a.x) * (c.y - a.y) == (__int128) (b.y - a.y) * (c.x - a.x);
}

static guint
drop_needless_points (DryPoint *p, guint n)
{
  gboolean again = TRUE;

  while (again && n >= 3) {
    again = FALSE;
    for (guint i = 0; i < n; i++)
      if (is_collinear (p[(i + n - 1) % n], p[i], p[(i + 1) % n])) {
        memmove (p + i, p + i + 1, (n - i - 1) * sizeof *p);
        n--;
        again = TRUE;
        break;
      }
  }
  return n;
}

static int
compare_points (DryPoint a, DryPoint b)
{
  if (a.y != b.y)
    return a.y < b.y ? -1 : 1;
  return (a.x > b.x) - (a.x < b.x);
}

static void
orient_ring (DryRing *ring, gboolean counter_clockwise)
{
  guint n = ring->n_points, first = 0;
  DryPoint *turned;

  if ((dry_ring_area2 (ring) > 0) != counter_clockwise)
    for (guint i = 0; i < n / 2; i++) {
      DryPoint swap = ring->points[i];
      ring->points[i] = ring->points[n - 1 - i];
      ring->points[n - 1 - i] = swap;
    }
  for (guint i = 1; i < n; i++)
    if (compare_points (ring->points[i], ring->points[first]) < 0)
      first = i;
  turned = g_new (DryPoint, n);
  for (guint i = 0; i < n; i++)
    turned[i] = ring->points[(first + i) % n];
  memcpy (ring->points, turned, n * sizeof *turned);
  g_free (turned);
}

static gboolean
read_ring (GEOSContextHandle_t geos, DryArena *arena, const GEOSGeometry *line, gboolean outer,
           DryRing *ring)
{
  const GEOSCoordSequence *seq = need (GEOSGeom_getCoordSeq_r (geos, need (line)));
  unsigned int n = 0;

  GEOSCoordSeq_getSize_r (geos, seq, &n);
  if (n < 4)
    return FALSE;
  ring->n_points = n - 1;
  ring->points = dry_arena_new_array (arena, DryPoint, ring->n_points);
  for (guint i = 0; i < ring->n_points; i++) {
    double x, y;
    GEOSCoordSeq_getXY_r (geos, seq, i, &x, &y);
    ring->points[i] = (DryPoint){llround (x), llround (y)};
  }
  ring->n_points = drop_needless_points (ring->points, ring->n_points);
  if (ring->n_points < 3 || dry_ring_area2 (ring) == 0)
    return FALSE;
  orient_ring (ring, outer);
  return TRUE;
}

static int
compare_rings (gconstpointer a, gconstpointer b)
{
  return compare_points (((const DryRing *) a)->points[0], ((const DryRing *) b)->points[0]);
}

static int
compare_polygons (gconstpointer a, gconstpointer b)
{
  const DryRing *ra = &((const DryPolygon *) a)->outer, *rb = &((const DryPolygon *) b)->outer;

  return compare_points (ra->points[0], rb->points[0]);
}

static void
read_polygon (GEOSContextHandle_t geos, DryArena *arena, const GEOSGeometry *geometry,
              GArray *polygons)
{
  DryPolygon polygon = {0};
  GArray *holes;
  int n_holes;

  if (!read_ring (geos, arena, GEOSGetExteriorRing_r (geos, geometry), TRUE, &polygon.outer))
    return;
  holes = g_array_new (FALSE, FALSE, sizeof (DryRing));
  n_holes = GEOSGetNumInteriorRings_r (geos, geometry);
  for (int i = 0; i < n_holes; i++) {
    DryRing ring = {0};
    if (read_ring (geos, arena, GEOSGetInteriorRingN_r (geos, geometry, i), FALSE, &ring))
      g_array_append_val (holes, ring);
  }
  g_array_sort (holes, compare_rings);
  polygon.n_holes = holes->len;
  polygon.holes = dry_arena_take_array (arena, holes);
  g_array_append_val (polygons, polygon);
}

static DryRegion
read_region (GEOSContextHandle_t geos, DryArena *arena, GEOSGeometry *geometry)
{
  GArray *polygons = g_array_new (FALSE, FALSE, sizeof (DryPolygon));
  g_autoptr (GPtrArray) areas = g_ptr_array_new ();
  DryRegion region;

  collect_areas (geos, geometry, areas);
  for (guint i = 0; i < areas->len; i++)
    read_polygon (geos, arena, areas->pdata[i], polygons);
  g_array_sort (polygons, compare_polygons);
  region.n_polygons = polygons->len;
  region.polygons = dry_arena_take_array (arena, polygons);
  return region;
}

typedef GEOSGeometry *(*Overlay) (GEOSContextHandle_t, const GEOSGeometry *, const GEOSGeometry *);
typedef GEOSGeometry *(*SnappedOverlay) (GEOSContextHandle_t, const GEOSGeometry *,
                                         const GEOSGeometry *, double);

/* Whether it is as thick as whole nanometres can tell. */
static gboolean
is_thick (GEOSContextHandle_t geos, const GEOSGeometry *polygon)
{
  const GEOSGeometry *ring = need (GEOSGetExteriorRing_r (geos, polygon));
  GEOSGeometry *shell =
      need (GEOSGeom_createPolygon_r (geos, need (GEOSGeom_clone_r (geos, ring)), NULL, 0));
  double area = 0, length = 0;

  GEOSArea_r (geos, shell, &area);
  GEOSLength_r (geos, shell, &length);
  GEOSGeom_destroy_r (geos, shell);
  return 2 * area > length;
}

/* Of slanted edges that nearly touch an operation may leave slivers, one of which may have got the
 * hole of a neighbor, outside of which it lies: the next operation refuses that. They are left out
 * then; if that is not enough, corners are held to whole nanometres, at worst to the thousandth of
 * a millimetre. */
static GEOSGeometry *
lay_over_repaired (GEOSContextHandle_t geos, const GEOSGeometry *a, const GEOSGeometry *b,
                   Overlay operation, SnappedOverlay snapped)
{
  GEOSGeometry *sound_a = repair (geos, copy_areas (geos, a, is_thick));
  GEOSGeometry *sound_b = repair (geos, copy_areas (geos, b, is_thick));
  GEOSGeometry *answer = operation (geos, sound_a, sound_b);

  for (double grid = 1; answer == NULL && grid <= 1000; grid *= 10)
    answer = snapped (geos, sound_a, sound_b, grid);
  GEOSGeom_destroy_r (geos, sound_a);
  GEOSGeom_destroy_r (geos, sound_b);
  return need (answer);
}

static GEOSGeometry *
lay_over (GEOSContextHandle_t geos, const GEOSGeometry *a, const GEOSGeometry *b, Overlay operation,
          SnappedOverlay snapped)
{
  GEOSGeometry *answer = operation (geos, a, b);

  return keep_areas (geos,
                     answer != NULL ? answer : lay_over_repaired (geos, a, b, operation, snapped));
}

static DryRegion
overlay (DryArena *arena, const DryRegion *a, const DryRegion *b, Overlay operation,
         SnappedOverlay snapped)
{
  GEOSContextHandle_t geos = open_geos ();
  GEOSGeometry *ga = make_region (geos, a), *gb = make_region (geos, b);
  GEOSGeometry *answer = lay_over (geos, ga, gb, operation, snapped);
  DryRegion region = read_region (geos, arena, answer);

  GEOSGeom_destroy_r (geos, ga);
  GEOSGeom_destroy_r (geos, gb);
  GEOSGeom_destroy_r (geos, answer);
  GEOS_finish_r (geos);
  return region;
}

DryRegion
dry_region_union (DryArena *arena, const DryRegion *a, const DryRegion *b)
{
  return overlay (arena, a, b, GEOSUnion_r, GEOSUnionPrec_r);
}

DryRegion
dry_region_intersection (DryArena *arena, const DryRegion *a, const DryRegion *b)
{
  if (dry_region_is_empty (a) || dry_region_is_empty (b))
    return (DryRegion){0};
  return overlay (arena, a, b, GEOSIntersection_r, GEOSIntersectionPrec_r);
}

DryRegion
dry_region_difference (DryArena *arena, const DryRegion *a, const DryRegion *b)
{
  if (dry_region_is_empty (a))
    return (DryRegion){0};
  return overlay (arena, a, b, GEOSDifference_r, GEOSDifferencePrec_r);
}

DryRegion
dry_region_difference_all (DryArena *arena, const DryRegion *region, const DryRegion *taken,
                           guint n_taken)
{
  GEOSContextHandle_t geos = open_geos ();
  GEOSGeometry *left = make_region (geos, region);
  DryRegion answer;

  for (guint i = 0; i < n_taken; i++) {
    GEOSGeometry *thing = make_region (geos, &taken[i]);
    GEOSGeometry *rest = lay_over (geos, left, thing, GEOSDifference_r, GEOSDifferencePrec_r);

    GEOSGeom_destroy_r (geos, thing);
    GEOSGeom_destroy_r (geos, left);
    left = rest;
  }
  answer = read_region (geos, arena, left);
  GEOSGeom_destroy_r (geos, left);
  GEOS_finish_r (geos);
  return answer;
}

DryRegion
dry_region_union_rects (DryArena *arena, const DryRect *rects, guint n_rects)
{
  GEOSContextHandle_t geos = open_geos ();
  GEOSGeometry **polygons = g_new (GEOSGeometry *, n_rects + 1);
  guint n = 0;
  GEOSGeometry *collection, *answer;
  DryRegion region;

  for (guint i = 0; i < n_rects; i++) {
    DryRect r = rects[i];
    if (!dry_rect_is_empty (r))
      polygons[n++] = need (GEOSGeom_createRectangle_r (geos, (double) r.x0, (double) r.y0,
                                                        (double) r.x1, (double) r.y1));
  }
  collection = need (GEOSGeom_createCollection_r (geos, GEOS_MULTIPOLYGON, polygons, n));
  answer = need (GEOSUnaryUnion_r (geos, collection));
  region = read_region (geos, arena, answer);
  GEOSGeom_destroy_r (geos, answer);
  GEOSGeom_destroy_r (geos, collection);
  GEOS_finish_r (geos);
  g_free (polygons);
  return region;
}

/* --- simple makers --- */

DryRegion
dry_region_from_ring (DryArena *arena, const DryPoint *points, guint n_points)
{
  DryRegion region = {0};
  DryRing ring = {dry_arena_copy (arena, points, n_points * sizeof *points), n_points};

  ring.n_points = drop_needless_points (ring.points, ring.n_points);
  if (ring.n_points < 3 || dry_ring_area2 (&ring) == 0)
    return region;
  orient_ring (&ring, TRUE);
  region.polygons = dry_arena_new_array (arena, DryPolygon, 1);
  region.polygons[0].outer = ring;
  region.n_polygons = 1;
  return region;
}

DryRegion
dry_region_from_rect (DryArena *arena, DryRect r)
{
  DryPoint points[4] = {{r.x0, r.y0}, {r.x1, r.y0}, {r.x1, r.y1}, {r.x0, r.y1}};

  if (dry_rect_is_empty (r))
    return (DryRegion){0};
  return dry_region_from_ring (arena, points, 4);
}

DryRegion
dry_region_copy (DryArena *arena, const DryRegion *region)
{
  DryRegion copy = {dry_arena_new_array (arena, DryPolygon, region->n_polygons),
                    region->n_polygons};

  for (guint i = 0; i < region->n_polygons; i++) {
    const DryPolygon *from = &region->polygons[i];
    DryPolygon *to = &copy.polygons[i];

    to->outer.n_points = from->outer.n_points;
    to->outer.points =
        dry_arena_copy (arena, from->outer.points, from->outer.n_points * sizeof (DryPoint));
    to->n_holes = from->n_holes;
    to->holes = dry_arena_new_array (arena, DryRing, from->n_holes);
    for (guint j = 0; j < from->n_holes; j++) {
      const DryRing *hole = &from->holes[j];
      to->holes[j].n_points = hole->n_points;
      to->holes[j].points =
          dry_arena_copy (arena, hole->points, hole->n_points * sizeof (DryPoint));
    }
  }
  return copy;
}
