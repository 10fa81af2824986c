/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The tile pattern as a light grid of joint centres, cut to the region of the face.
 * Centred on the face so that both end cuts are alike and as wide as can be; a picture, no order.
 */
#include <math.h>

#include "draw/drawing-private.h"

#define SEGMENTS_MOST  6000
#define CROSSINGS_MOST 64

typedef struct {
  GArray *points; /* DryPoint, two a segment */
  GArray *ends;   /* guint */
  const DryRegion *region;
} Grid;

static void
cross_ring (const DryRing *ring, DryPoint a, DryPoint b, double *t, guint *n)
{
  double dx = (double) (b.x - a.x), dy = (double) (b.y - a.y);

  for (guint i = 0; i < ring->n_points && *n < CROSSINGS_MOST; i++) {
    DryPoint p = ring->points[i], q = ring->points[(i + 1) % ring->n_points];
    /* Side of the line through a and b; the half-open test counts a corner once. */
    double sp = dx * (double) (p.y - a.y) - dy * (double) (p.x - a.x);
    double sq = dx * (double) (q.y - a.y) - dy * (double) (q.x - a.x);
    double s, x, y;
    if ((sp > 0) == (sq > 0))
      continue;
    s = sp / (sp - sq);
    x = (double) p.x + s * (double) (q.x - p.x) - (double) a.x;
    y = (double) p.y + s * (double) (q.y - p.y) - (double) a.y;
    t[(*n)++] = (x * dx + y * dy) / (dx * dx + dy * dy);
  }
}

static int
compare_doubles (gconstpointer a, gconstpointer b)
{
  double x = *(const double *) a, y = *(const double *) b;

  return (x > y) - (x < y);
}

/* Adds what of the segment lies in the region. */
static void
add_clipped (Grid *grid, DryPoint a, DryPoint b)
{
  double t[CROSSINGS_MOST];
  guint n = 0;

  if ((a.x == b.x && a.y == b.y) || grid->ends->len >= SEGMENTS_MOST)
    return;
  for (guint i = 0; i < grid->region->n_polygons; i++) {
    const DryPolygon *polygon = &grid->region->polygons[i];
    cross_ring (&polygon->outer, a, b, t, &n);
    for (guint h = 0; h < polygon->n_holes; h++)
      cross_ring (&polygon->holes[h], a, b, t, &n);
  }
  qsort (t, n, sizeof *t, compare_doubles);
  for (guint i = 0; i + 1 < n; i += 2) {
    double t0 = MAX (t[i], 0), t1 = MIN (t[i + 1], 1);
    double dx = (double) (b.x - a.x), dy = (double) (b.y - a.y);
    DryPoint p[2] = {{a.x + llround (t0 * dx), a.y + llround (t0 * dy)},
                     {a.x + llround (t1 * dx), a.y + llround (t1 * dy)}};
    guint end;
    if (t1 - t0 < 1e-9)
      continue;
    g_array_append_vals (grid->points, p, 2);
    end = grid->points->len;
    g_array_append_val (grid->ends, end);
  }
}

/* First joint from the left: with a joint or a tile in the middle, whichever leaves wider ends. */
static DryLength
find_first (DryLength from, DryLength to, DryLength module)
{
  DryLength width = to - from;
  DryLength joint_mid = (width / 2) % module;
  DryLength tile_mid = ((width - module) / 2) % module;

  if (tile_mid < 0)
    tile_mid += module;
  if (joint_mid == 0)
    joint_mid = module;
  if (tile_mid == 0)
    tile_mid = module;
  return from + MAX (joint_mid, tile_mid);
}

static void
add_rows (Grid *grid, DryRect r, DryLength w, DryLength h, double offset)
{
  DryLength first = find_first (r.x0, r.x1, w);
  guint row = 0;

  for (DryLength z = r.y0; z < r.y1; z += h, row++) {
    DryLength top = MIN (z + h, r.y1);
    DryLength shift = (DryLength) (offset * (double) w * (row % 2));
    add_clipped (grid, (DryPoint){r.x0 - DRY_MM, z}, (DryPoint){r.x1 + DRY_MM, z});
    for (DryLength x = first - w + shift; x < r.x1; x += w)
      if (x > r.x0)
        add_clipped (grid, (DryPoint){x, z}, (DryPoint){x, top});
  }
}

static void
add_diagonals (Grid *grid, DryRect r, DryLength w, DryLength h)
{
  DryPoint c = dry_rect_centre (r);
  double reach = hypot ((double) dry_rect_width (r), (double) dry_rect_height (r)) / 2;
  double s = M_SQRT1_2;

  for (int way = 0; way < 2; way++) {
    double step = (double) (way == 0 ? w : h);
    double dx = s, dy = way == 0 ? s : -s;
    for (double k = -floor (reach / step); k * step <= reach; k++) {
      double x = (double) c.x - dy * k * step, y = (double) c.y + dx * k * step;
      add_clipped (grid, (DryPoint){llround (x - dx * reach), llround (y - dy * reach)},
                   (DryPoint){llround (x + dx * reach), llround (y + dy * reach)});
    }
  }
}

void
dry_draw_elevation_tile (DrySceneBuilder *b, const DryPlan *plan, const DryFace *face)
{
  const DryFinish *finish = &plan->context.room->finish;
  DryLook look = DRY_LOOK_LINE (DRY_INK_TILE, DRY_PEN_013);
  DryLength w = finish->tile_width + finish->joint, h = finish->tile_height + finish->joint;
  DryRect r = dry_region_bounds (&face->region);
  Grid grid = {.region = &face->region};

  if (!finish->tiled || w < 10 * DRY_MM || h < 10 * DRY_MM || dry_rect_is_empty (r))
    return;
  /* A grid too dense to be told apart is no picture. */
  if ((double) dry_rect_width (r) / (double) w * ((double) dry_rect_height (r) / (double) h) >
      SEGMENTS_MOST / 2)
    return;
  grid.points = g_array_new (FALSE, FALSE, sizeof (DryPoint));
  grid.ends = g_array_new (FALSE, FALSE, sizeof (guint));
  if (finish->pattern == DRY_PATTERN_DIAGONAL)
    add_diagonals (&grid, r, w, h);
  else if (finish->pattern == DRY_PATTERN_VERTICAL)
    add_rows (&grid, r, MIN (w, h), MAX (w, h), 0);
  else
    add_rows (&grid, r, w, h,
              finish->pattern == DRY_PATTERN_OFFSET ? CLAMP (finish->offset, 0, 0.5) : 0);
  dry_scene_builder_tag (b, DRY_LAYER_TILE, DRY_SHOWS_NOTHING, 0, -1);
  dry_scene_builder_rings (b, look, (const DryPoint *) grid.points->data, grid.points->len,
                           (const guint *) grid.ends->data, grid.ends->len, FALSE);
  g_array_unref (grid.points);
  g_array_unref (grid.ends);
}
