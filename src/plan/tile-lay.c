/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Lays a pattern over a region: every tile that touches it, whole or what the region leaves of it.
 * A tile in the clear costs a few comparisons, one at an edge a clip; only odd corners need an
 * overlay. Knows no walls. */
#include "plan/tile-private.h"

#include <math.h>

#define TILES_MOST 60000
/* Less than this is no tile but a wider joint. */
#define LEAST_CUT   DRY_MM
#define POINTS_MOST 24

typedef struct {
  DryPoint a, b; /* the region is on the left */
  DryRect box;
} Side;

typedef struct {
  DryArena *arena;
  const DryRegion *region;
  DryRect bounds;
  const Side *sides;
  guint n_sides;
  __int128 whole2;
  gint32 column, row; /* of the tile being laid */
  GArray *pieces;
} Layer;

/* --- the region's sides --- */

static void
add_ring (GArray *sides, const DryRing *ring)
{
  for (guint i = 0; i < ring->n_points; i++) {
    Side side = {.a = ring->points[i], .b = ring->points[(i + 1) % ring->n_points]};

    side.box = (DryRect){MIN (side.a.x, side.b.x), MIN (side.a.y, side.b.y),
                         MAX (side.a.x, side.b.x), MAX (side.a.y, side.b.y)};
    g_array_append_val (sides, side);
  }
}

static GArray *
list_sides (const DryRegion *region)
{
  GArray *sides = g_array_new (FALSE, FALSE, sizeof (Side));

  for (guint p = 0; p < region->n_polygons; p++) {
    add_ring (sides, &region->polygons[p].outer);
    for (guint h = 0; h < region->polygons[p].n_holes; h++)
      add_ring (sides, &region->polygons[p].holes[h]);
  }
  return sides;
}

/* Positive when p is to the left of the side. */
static __int128
lies_left (const Side *side, DryPoint p)
{
  return (__int128) (side->b.x - side->a.x) * (p.y - side->a.y) -
         (__int128) (side->b.y - side->a.y) * (p.x - side->a.x);
}

/* Whether the side passes through the inside of the box. */
static gboolean
passes (const Side *side, DryRect box)
{
  const DryPoint corners[] = {
      {box.x0, box.y0}, {box.x1, box.y0}, {box.x1, box.y1}, {box.x0, box.y1}};
  gboolean left = FALSE, right = FALSE;

  if (side->box.x1 <= box.x0 || side->box.x0 >= box.x1 || side->box.y1 <= box.y0 ||
      side->box.y0 >= box.y1)
    return FALSE;
  for (guint i = 0; i < G_N_ELEMENTS (corners); i++) {
    __int128 where = lies_left (side, corners[i]);

    left |= where > 0;
    right |= where < 0;
  }
  return left && right;
}

static DryPoint
middle_of (DryRect box)
{
  return (DryPoint){box.x0 + dry_rect_width (box) / 2, box.y0 + dry_rect_height (box) / 2};
}

static gboolean
is_inside (DryRect box, DryPoint p)
{
  return p.x > box.x0 && p.x < box.x1 && p.y > box.y0 && p.y < box.y1;
}

/* --- pieces --- */

static DryRect
bounds_of (const DryPoint *points, guint n)
{
  DryRect box = {points[0].x, points[0].y, points[0].x, points[0].y};

  for (guint i = 1; i < n; i++)
    box = (DryRect){MIN (box.x0, points[i].x), MIN (box.y0, points[i].y), MAX (box.x1, points[i].x),
                    MAX (box.y1, points[i].y)};
  return box;
}

static __int128
area2_of (const DryPoint *points, guint n)
{
  DryRing ring = {(DryPoint *) points, n};

  return dry_ring_area2 (&ring);
}

static void
add_piece (Layer *self, const DryPoint *points, guint n, DryTileCut cut)
{
  DryRect box = bounds_of (points, n);
  __int128 area2 = area2_of (points, n);
  __int128 box2 = (__int128) 2 * dry_rect_width (box) * dry_rect_height (box);
  DryTilePiece piece = {
      .bounds = box, .area2 = area2, .column = self->column, .row = self->row, .kind = -1};

  if (dry_rect_width (box) < LEAST_CUT || dry_rect_height (box) < LEAST_CUT)
    return;
  /* What comes out of an overlay may be a plain rectangle all the same. */
  piece.cut = area2 == self->whole2 ? DRY_TILE_WHOLE : area2 == box2 ? DRY_TILE_CUT : cut;
  if (area2 != box2) {
    piece.points = dry_arena_copy (self->arena, points, sizeof (DryPoint) * n);
    piece.n_points = n;
  }
  g_array_append_val (self->pieces, piece);
}

/* Cuts off what lies right of the side; the count of what is left in `out`. */
static guint
clip (const Side *side, const DryPoint *in, guint n, DryPoint *out)
{
  guint count = 0;

  for (guint i = 0; i < n; i++) {
    DryPoint p = in[i], q = in[(i + 1) % n];
    __int128 at_p = lies_left (side, p), at_q = lies_left (side, q);

    if (at_p >= 0 && count < POINTS_MOST)
      out[count++] = p;
    if (((at_p > 0 && at_q < 0) || (at_p < 0 && at_q > 0)) && count < POINTS_MOST) {
      double share = (double) at_p / ((double) at_p - (double) at_q);

      out[count++] = (DryPoint){p.x + llround (share * (double) (q.x - p.x)),
                                p.y + llround (share * (double) (q.y - p.y))};
    }
  }
  return count;
}

static void
add_overlay (Layer *self, const DryPoint *tile, guint n)
{
  DryRegion one = dry_region_from_ring (self->arena, tile, n);
  DryRegion left = dry_region_intersection (self->arena, &one, self->region);

  for (guint i = 0; i < left.n_polygons; i++) {
    const DryPolygon *polygon = &left.polygons[i];

    /* A hole in a tile is drilled: the tile is bought and cut all the same. */
    add_piece (self, polygon->outer.points, polygon->outer.n_points, DRY_TILE_SHAPED);
    if (polygon->n_holes > 0 && self->pieces->len > 0) {
      DryTilePiece *last = &g_array_index (self->pieces, DryTilePiece, self->pieces->len - 1);

      last->cut = DRY_TILE_SHAPED;
      for (guint h = 0; h < polygon->n_holes; h++)
        last->area2 += dry_ring_area2 (&polygon->holes[h]); /* clockwise: negative */
    }
  }
}

/* A corner of the region within the tile that the tile goes round cannot be cut by lines alone. */
static gboolean
can_clip (const Side *const *through, guint n, DryRect box)
{
  const Side *one = NULL, *two = NULL;
  guint n_corners = 0;

  for (guint i = 0; i < n; i++) {
    if (!is_inside (box, through[i]->b))
      continue;
    n_corners++;
    one = through[i];
    for (guint k = 0; k < n; k++)
      if (through[k]->a.x == one->b.x && through[k]->a.y == one->b.y)
        two = through[k];
  }
  return n_corners == 0 || (n_corners == 1 && n == 2 && two != NULL && lies_left (one, two->b) > 0);
}

static void
cut_tile (Layer *self, const DryPoint *tile, guint n, const Side *const *through, guint n_through)
{
  DryPoint buffers[2][POINTS_MOST];
  const DryPoint *now = tile;
  guint left = n;
  gboolean sloped = FALSE;

  for (guint i = 0; i < n_through && left > 2; i++) {
    DryPoint *next = buffers[i % 2];

    sloped |= through[i]->a.x != through[i]->b.x && through[i]->a.y != through[i]->b.y;
    left = clip (through[i], now, left, next);
    now = next;
  }
  if (left > 2 && area2_of (now, left) > 0)
    add_piece (self, now, left, sloped ? DRY_TILE_SHAPED : DRY_TILE_CUT);
  else if (n_through > 1)
    add_overlay (self, tile, n); /* two strips beside a slot */
}

static void
add_tile (Layer *self, const DryPoint *tile, guint n)
{
  const Side *through[16];
  guint n_through = 0;
  DryRect box = bounds_of (tile, n);

  if (!dry_rect_overlaps (box, self->bounds))
    return;
  for (guint i = 0; i < self->n_sides && n_through < G_N_ELEMENTS (through); i++)
    if (passes (&self->sides[i], box))
      through[n_through++] = &self->sides[i];
  if (n_through == 0) {
    if (dry_region_contains (self->region, middle_of (box)))
      add_piece (self, tile, n, DRY_TILE_WHOLE);
  } else if (n_through < G_N_ELEMENTS (through) && can_clip (through, n_through, box)) {
    cut_tile (self, tile, n, through, n_through);
  } else {
    add_overlay (self, tile, n);
  }
}

static void
add_rect_tile (Layer *self, DryLength x, DryLength y, DryLength width, DryLength height)
{
  const DryPoint tile[] = {{x, y}, {x + width, y}, {x + width, y + height}, {x, y + height}};

  add_tile (self, tile, 4);
}

/* --- patterns --- */

/* The last whole number of modules not beyond `from`. */
static DryLength
start_before (DryLength datum, DryLength from, DryLength module)
{
  return from - dry_tile_rest (from - datum, module);
}

static void
lay_courses (Layer *self, const DryTileModule *module, DryPoint datum)
{
  DryLength du = dry_tile_pitch_u (module), dz = dry_tile_pitch_z (module);
  DryRect r = self->bounds;

  for (DryLength z = start_before (datum.y, r.y0, dz); z < r.y1; z += dz) {
    guint course =
        module->n_shifts > 1 ? (guint) dry_tile_rest ((z - datum.y) / dz, module->n_shifts) : 0;
    DryLength shifted = datum.x + module->shifts[course];

    self->row = (gint32) ((z - datum.y) / dz);
    for (DryLength x = start_before (shifted, r.x0, du); x < r.x1; x += du) {
      self->column = (gint32) ((x - shifted) / du);
      add_rect_tile (self, x, z, module->width, module->height);
    }
  }
}

/* Level tiles as the steps of a stair, upright ones hung at their ends: with their joints the two
 * fill the plane for any proportion, the next stair standing a tile and a step further on. */
static void
lay_herringbone (Layer *self, const DryTileModule *module, DryPoint datum)
{
  DryLength longer = MAX (module->width, module->height);
  DryLength shorter = MIN (module->width, module->height);
  DryLength step = shorter + module->joint, whole = longer + module->joint;
  DryRect r = self->bounds;

  /* Stair n is moved by n (whole + step, step - whole): x - z of its tiles grows by 2 whole. */
  gint64 first = (r.x0 - r.y1 - datum.x + datum.y) / (2 * whole) - 2;
  gint64 last = (r.x1 - r.y0 - datum.x + datum.y) / (2 * whole) + 2;

  for (gint64 n = first; n <= last; n++) {
    DryLength x0 = datum.x + n * (whole + step), z0 = datum.y + n * (step - whole);
    gint64 from = MAX ((r.x0 - x0 - whole - step) / step, (r.y0 - z0 - step) / step) - 1;
    gint64 to = MIN ((r.x1 - x0) / step, (r.y1 - z0 + whole) / step) + 1;

    for (gint64 k = from; k <= to; k++) {
      DryLength x = x0 + k * step, z = z0 + k * step;

      self->column = (gint32) k;
      self->row = (gint32) (2 * n);
      add_rect_tile (self, x, z, longer, shorter);
      self->row++;
      add_rect_tile (self, x + whole, z + step - whole, shorter, longer);
    }
  }
}

static void
lay_diagonal (Layer *self, const DryTileModule *module, DryPoint datum)
{
  double du = (double) dry_tile_pitch_u (module), dz = (double) dry_tile_pitch_z (module);
  double w = (double) module->width, h = (double) module->height, s = M_SQRT1_2;
  DryPoint middle = middle_of (self->bounds);
  double mx = ((double) (middle.x - datum.x) + (double) (middle.y - datum.y)) * s;
  double my = ((double) (middle.y - datum.y) - (double) (middle.x - datum.x)) * s;
  double reach =
      hypot ((double) dry_rect_width (self->bounds), (double) dry_rect_height (self->bounds)) / 2 +
      MAX (du, dz);

  for (gint64 i = (gint64) floor ((mx - reach) / du); (double) i * du <= mx + reach; i++)
    for (gint64 k = (gint64) floor ((my - reach) / dz); (double) k * dz <= my + reach; k++) {
      double u = (double) i * du, v = (double) k * dz;
      const double us[] = {u, u + w, u + w, u};
      const double vs[] = {v, v, v + h, v + h};
      DryPoint tile[4];

      for (guint c = 0; c < 4; c++)
        tile[c] = (DryPoint){datum.x + llround ((us[c] - vs[c]) * s),
                             datum.y + llround ((us[c] + vs[c]) * s)};
      self->column = (gint32) i;
      self->row = (gint32) k;
      self->whole2 = area2_of (tile, 4);
      add_tile (self, tile, 4);
    }
}

static void
lay_hexagons (Layer *self, const DryTileModule *module, DryPoint datum)
{
  DryLength du = dry_tile_pitch_u (module), dz = dry_tile_row (module), half = module->width / 2;
  double side = (double) module->width / sqrt (3);
  DryRect r = self->bounds;
  gint64 first = (r.y0 - datum.y) / dz - 2, last = (r.y1 - datum.y) / dz + 2;

  for (gint64 k = first; k <= last; k++) {
    DryLength z = datum.y + k * dz, shifted = datum.x + (k % 2 != 0 ? du / 2 : 0);

    for (DryLength x = start_before (shifted, r.x0, du) - du; x < r.x1 + du; x += du) {
      DryLength s2 = llround (side / 2), s1 = llround (side);
      const DryPoint tile[] = {{x, z - s1}, {x + half, z - s2}, {x + half, z + s2},
                               {x, z + s1}, {x - half, z + s2}, {x - half, z - s2}};

      self->column = (gint32) ((x - shifted) / du);
      self->row = (gint32) k;
      self->whole2 = area2_of (tile, 6);
      add_tile (self, tile, 6);
    }
  }
}

void
dry_tile_origin (const DryTileModule *module, DryPoint datum, gint32 column, gint32 row, double *x,
                 double *z)
{
  DryLength du = dry_tile_pitch_u (module);

  if (module->pattern == DRY_PATTERN_HEXAGON) {
    *x = (double) (datum.x + (row % 2 != 0 ? du / 2 : 0) + column * du);
    *z = (double) (datum.y + row * dry_tile_row (module));
  } else {
    double u = column * (double) du, v = row * (double) dry_tile_pitch_z (module);

    *x = (double) datum.x + (u - v) * M_SQRT1_2;
    *z = (double) datum.y + (u + v) * M_SQRT1_2;
  }
}

__int128
dry_tile_area2 (const DryTileModule *module)
{
  if (module->pattern == DRY_PATTERN_HEXAGON) {
    double side = (double) module->width / sqrt (3);
    DryLength s2 = llround (side / 2), s1 = llround (side);

    return (__int128) 4 * (module->width / 2) * (s1 + s2);
  }
  return (__int128) 2 * module->width * module->height;
}

gboolean
dry_tile_lay (DryArena *arena, const DryTileModule *module, const DryRegion *region, DryPoint datum,
              GArray *pieces)
{
  g_autoptr (GArray) sides = list_sides (region);
  Layer layer = {.arena = arena,
                 .region = region,
                 .bounds = dry_region_bounds (region),
                 .sides = (const Side *) (gconstpointer) sides->data,
                 .n_sides = sides->len,
                 .whole2 = dry_tile_area2 (module),
                 .pieces = pieces};
  double each = (double) dry_tile_pitch_u (module) * (double) dry_tile_pitch_z (module);

  if (dry_rect_is_empty (layer.bounds) ||
      (double) dry_rect_width (layer.bounds) * (double) dry_rect_height (layer.bounds) / each >
          TILES_MOST)
    return FALSE;
  switch (module->pattern) {
  case DRY_PATTERN_DIAGONAL:
    lay_diagonal (&layer, module, datum);
    break;
  case DRY_PATTERN_HERRINGBONE:
    lay_herringbone (&layer, module, datum);
    break;
  case DRY_PATTERN_HEXAGON:
    lay_hexagons (&layer, module, datum);
    break;
  case DRY_PATTERN_STRAIGHT:
  case DRY_PATTERN_OFFSET:
  case DRY_PATTERN_VERTICAL:
    lay_courses (&layer, module, datum);
    break;
  }
  return TRUE;
}
