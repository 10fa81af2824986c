/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Quick geometry of one region: slices it upright at its corners, so that hundreds of layouts can
 * be measured while a person drags. Exact for axis-parallel edges; knows no rules and no framing.
 */
#define G_LOG_DOMAIN "plan"

#include <stdlib.h>

#include "plan/boards-private.h"

typedef struct {
  DryLength y0, y1; /* where the edge meets the slice's two ends */
} Crossing;

static gint
compare_lengths (gconstpointer a, gconstpointer b)
{
  DryLength left = *(const DryLength *) a, right = *(const DryLength *) b;
  return left < right ? -1 : left > right;
}

static gint
compare_crossings (gconstpointer a, gconstpointer b)
{
  const Crossing *left = a, *right = b;
  DryLength left_sum = left->y0 + left->y1, right_sum = right->y0 + right->y1;
  return left_sum < right_sum ? -1 : left_sum > right_sum;
}

static DryLength
interpolate (DryLength x, DryLength xa, DryLength ya, DryLength xb, DryLength yb)
{
  if (ya == yb || x == xa)
    return ya;
  if (x == xb)
    return yb;
  __int128 rise = (__int128) (yb - ya) * (x - xa);
  return ya + (DryLength) (rise / (xb - xa));
}

static void
add_ring_points (const DryRing *ring, GArray *xs)
{
  for (guint i = 0; i < ring->n_points; i++)
    g_array_append_val (xs, ring->points[i].x);
}

static void
add_ring_crossings (const DryRing *ring, DryLength x0, DryLength x1, GArray *crossings)
{
  for (guint i = 0; i < ring->n_points; i++) {
    DryPoint a = ring->points[i], b = ring->points[(i + 1) % ring->n_points];
    if (a.x > b.x) {
      DryPoint swap = a;
      a = b;
      b = swap;
    }
    if (a.x == b.x || a.x > x0 || b.x < x1)
      continue;
    Crossing crossing = {interpolate (x0, a.x, a.y, b.x, b.y),
                         interpolate (x1, a.x, a.y, b.x, b.y)};
    g_array_append_val (crossings, crossing);
  }
}

static void
slice_polygon (const DryPolygon *polygon, GArray *slabs)
{
  g_autoptr (GArray) xs = g_array_new (FALSE, FALSE, sizeof (DryLength));
  g_autoptr (GArray) crossings = g_array_new (FALSE, FALSE, sizeof (Crossing));
  add_ring_points (&polygon->outer, xs);
  for (guint h = 0; h < polygon->n_holes; h++)
    add_ring_points (&polygon->holes[h], xs);
  g_array_sort (xs, compare_lengths);
  for (guint i = 0; i + 1 < xs->len; i++) {
    DryLength x0 = g_array_index (xs, DryLength, i), x1 = g_array_index (xs, DryLength, i + 1);
    if (x0 == x1)
      continue;
    g_array_set_size (crossings, 0);
    add_ring_crossings (&polygon->outer, x0, x1, crossings);
    for (guint h = 0; h < polygon->n_holes; h++)
      add_ring_crossings (&polygon->holes[h], x0, x1, crossings);
    g_array_sort (crossings, compare_crossings);
    for (guint c = 0; c + 1 < crossings->len; c += 2) {
      Crossing low = g_array_index (crossings, Crossing, c);
      Crossing high = g_array_index (crossings, Crossing, c + 1);
      DrySlab slab = {x0, x1, low.y0, low.y1, high.y0, high.y1};
      g_array_append_val (slabs, slab);
    }
  }
}

static gint
compare_slabs (gconstpointer a, gconstpointer b)
{
  const DrySlab *left = a, *right = b;
  if (left->x0 != right->x0)
    return left->x0 < right->x0 ? -1 : 1;
  return left->bottom0 < right->bottom0 ? -1 : left->bottom0 > right->bottom0;
}

void
dry_board_slice (DryBoardFace *self)
{
  GArray *slabs = g_array_new (FALSE, FALSE, sizeof (DrySlab));
  const DryRegion *region = &self->face->region;
  for (guint i = 0; i < region->n_polygons; i++)
    slice_polygon (&region->polygons[i], slabs);
  g_array_sort (slabs, compare_slabs);
  self->n_slabs = slabs->len;
  self->slabs = dry_arena_take_array (self->scratch, slabs);
  self->bounds = dry_region_bounds (region);
}

/* --- lines --- */

static void
add_stretch (GArray *out, guint first, DryLength low, DryLength high)
{
  if (low >= high)
    return;
  if (out->len >= first + 2 && g_array_index (out, DryLength, out->len - 1) == low) {
    g_array_index (out, DryLength, out->len - 1) = high;
    return;
  }
  g_array_append_val (out, low);
  g_array_append_val (out, high);
}

/* Where the slab has board on both sides of a level line. */
static void
stretch_in_slab (const DrySlab *slab, DryLength y, DryLength *low, DryLength *high)
{
  *low = slab->x0;
  *high = slab->x1;
  const DryLength ends[2][2] = {{slab->bottom0 - y, slab->bottom1 - y},
                                {y - slab->top0, y - slab->top1}};
  /* Wanted: both differences below zero. They change along a straight line. */
  for (guint i = 0; i < 2; i++) {
    DryLength at0 = ends[i][0], at1 = ends[i][1];
    if (at0 >= 0 && at1 >= 0) {
      *high = *low;
      return;
    }
    if (at0 < 0 && at1 < 0)
      continue;
    DryLength zero = slab->x0 + (DryLength) ((__int128) (slab->x1 - slab->x0) * at0 / (at0 - at1));
    if (at0 >= 0)
      *low = MAX (*low, zero);
    else
      *high = MIN (*high, zero);
  }
}

static void
list_level (const DryBoardFace *self, DryLength y, DryLength from, DryLength to, GArray *out)
{
  guint first = out->len;
  for (guint i = 0; i < self->n_slabs; i++) {
    DryLength low, high;
    stretch_in_slab (&self->slabs[i], y, &low, &high);
    add_stretch (out, first, MAX (low, from), MIN (high, to));
  }
}

static void
list_upright (const DryBoardFace *self, DryLength x, DryLength from, DryLength to, GArray *out)
{
  guint first = out->len;
  for (guint i = 0; i < self->n_slabs; i++) {
    const DrySlab *left = &self->slabs[i];
    if (!(left->x0 < x && x <= left->x1))
      continue;
    DryLength low = interpolate (x, left->x0, left->bottom0, left->x1, left->bottom1);
    DryLength high = interpolate (x, left->x0, left->top0, left->x1, left->top1);
    for (guint j = 0; j < self->n_slabs; j++) {
      const DrySlab *right = &self->slabs[j];
      if (!(right->x0 <= x && x < right->x1))
        continue;
      DryLength bottom = interpolate (x, right->x0, right->bottom0, right->x1, right->bottom1);
      DryLength top = interpolate (x, right->x0, right->top0, right->x1, right->top1);
      add_stretch (out, first, MAX (MAX (low, bottom), from), MIN (MIN (high, top), to));
    }
  }
}

void
dry_board_list_stretches (const DryBoardFace *self, gboolean vertical, DryLength at, DryLength low,
                          DryLength high, GArray *out)
{
  if (vertical)
    list_upright (self, at, low, high, out);
  else
    list_level (self, at, low, high, out);
}

/* --- parts of a cell --- */

typedef struct {
  DryRect rect; /* bounds of the slab inside the cell */
  DryLength bottom0, bottom1, top0, top1;
  guint part;
} Slice;

static gboolean
slice_slab (const DrySlab *slab, const DryRect *cell, Slice *out)
{
  DryLength x0 = MAX (slab->x0, cell->x0), x1 = MIN (slab->x1, cell->x1);
  if (x0 >= x1)
    return FALSE;
  out->bottom0 = MAX (interpolate (x0, slab->x0, slab->bottom0, slab->x1, slab->bottom1), cell->y0);
  out->bottom1 = MAX (interpolate (x1, slab->x0, slab->bottom0, slab->x1, slab->bottom1), cell->y0);
  out->top0 = MIN (interpolate (x0, slab->x0, slab->top0, slab->x1, slab->top1), cell->y1);
  out->top1 = MIN (interpolate (x1, slab->x0, slab->top0, slab->x1, slab->top1), cell->y1);
  out->rect = (DryRect){x0, MIN (out->bottom0, out->bottom1), x1, MAX (out->top0, out->top1)};
  return out->rect.y0 < out->rect.y1;
}

static gboolean
do_touch (const Slice *left, const Slice *right)
{
  return left->rect.x1 == right->rect.x0 &&
         MAX (left->bottom1, right->bottom0) < MIN (left->top1, right->top0);
}

void
dry_board_list_parts (const DryBoardFace *self, DryRect cell, GArray *out)
{
  g_autofree Slice *slices = g_new (Slice, self->n_slabs + 1);
  guint n = 0;
  for (guint i = 0; i < self->n_slabs; i++) {
    if (!slice_slab (&self->slabs[i], &cell, &slices[n]))
      continue;
    slices[n].part = n;
    n++;
  }
  /* Few slices: joining by repeated renaming is quick enough. */
  for (guint i = 0; i < n; i++)
    for (guint j = i + 1; j < n && slices[j].rect.x0 <= slices[i].rect.x1; j++) {
      if (slices[i].part == slices[j].part || !do_touch (&slices[i], &slices[j]))
        continue;
      guint old = MAX (slices[i].part, slices[j].part), part = MIN (slices[i].part, slices[j].part);
      for (guint k = 0; k < n; k++)
        if (slices[k].part == old)
          slices[k].part = part;
    }
  for (guint part = 0; part < n; part++) {
    DryRect bounds = {0, 0, 0, 0};
    for (guint i = 0; i < n; i++) {
      if (slices[i].part != part)
        continue;
      const DryRect *r = &slices[i].rect;
      bounds = dry_rect_is_empty (bounds)
                   ? *r
                   : (DryRect){MIN (bounds.x0, r->x0), MIN (bounds.y0, r->y0),
                               MAX (bounds.x1, r->x1), MAX (bounds.y1, r->y1)};
    }
    if (!dry_rect_is_empty (bounds))
      g_array_append_val (out, bounds);
  }
}
