/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Finds what a click means: the topmost thing shown near a point, things a person edits first.
 * Works on the scene's own geometry; paper-size marks count with the tolerance given. */
#include "draw/scene.h"

#include <math.h>

/* Higher wins. A person moves basins and parts; a finding's mark lies over the wall it speaks of;
 * boards and members follow from the plan, so they are reached last. */
static int
rank_shows (DryShows shows)
{
  switch (shows) {
  case DRY_SHOWS_PART:
  case DRY_SHOWS_OPENING:
  case DRY_SHOWS_BASIN:
    return 5;
  case DRY_SHOWS_FINDING:
    return 4;
  case DRY_SHOWS_WALL:
    return 3;
  case DRY_SHOWS_MEMBER:
  case DRY_SHOWS_BOARD:
  case DRY_SHOWS_JOINT:
  case DRY_SHOWS_FASTENER:
  case DRY_SHOWS_SHEET:
    return 2;
  case DRY_SHOWS_ROOM:
    return 1;
  default:
    return 0;
  }
}

static double
measure_to_segment (DryPoint p, DryPoint a, DryPoint b)
{
  double dx = (double) (b.x - a.x), dy = (double) (b.y - a.y);
  double px = (double) (p.x - a.x), py = (double) (p.y - a.y);
  double length2 = dx * dx + dy * dy;
  double t = length2 > 0 ? CLAMP ((px * dx + py * dy) / length2, 0, 1) : 0;

  return hypot (px - t * dx, py - t * dy);
}

/* Distance to the outline, and whether `p` is inside by the even-odd rule. */
static double
measure_path (const DryPrimitive *item, DryPoint p, gboolean *inside)
{
  double least = INFINITY;
  guint start = 0, n_rings = item->ring_ends ? item->n_rings : 1;

  *inside = FALSE;
  for (guint r = 0; r < n_rings; r++) {
    guint end = item->ring_ends ? item->ring_ends[r] : item->n_points;
    for (guint i = start; i < end; i++) {
      DryPoint a = item->points[i], b = item->points[i + 1 < end ? i + 1 : start];
      if (i + 1 == end && !item->closed)
        break;
      least = MIN (least, measure_to_segment (p, a, b));
      if ((a.y > p.y) != (b.y > p.y)) {
        double x =
            (double) a.x + (double) (b.x - a.x) * ((double) (p.y - a.y)) / ((double) (b.y - a.y));
        if ((double) p.x < x)
          *inside = !*inside;
      }
    }
    start = end;
  }
  if (!item->closed)
    *inside = FALSE;
  return least;
}

/* 0 when hit squarely, else the distance. */
static double
measure_item (const DryPrimitive *item, DryPoint at)
{
  gboolean inside;
  double distance;

  switch (item->kind) {
  case DRY_PRIMITIVE_PATH:
    distance = measure_path (item, at, &inside);
    if (inside && (item->fill != DRY_INK_NONE || rank_shows (item->shows) >= 2))
      return 0;
    return distance;
  case DRY_PRIMITIVE_CIRCLE:
    distance = hypot ((double) (at.x - item->points[0].x), (double) (at.y - item->points[0].y)) -
               (double) item->radius;
    return MAX (distance, 0);
  case DRY_PRIMITIVE_MARK:
    return hypot ((double) (at.x - item->points[0].x), (double) (at.y - item->points[0].y));
  default: /* letters and dimensions have paper size only */
    return INFINITY;
  }
}

gint
dry_scene_find_view (const DryScene *self, DryPoint at, DryLength reach)
{
  gint best = -1;
  double least = INFINITY;

  for (guint i = 0; i < self->n_views; i++) {
    DryRect b = self->views[i].bounds;
    double dx = (double) MAX (MAX (b.x0 - at.x, at.x - b.x1), 0);
    double dy = (double) MAX (MAX (b.y0 - at.y, at.y - b.y1), 0);
    double distance = hypot (dx, dy);
    if (distance <= (double) reach && distance < least) {
      least = distance;
      best = (gint) i;
    }
  }
  return best;
}

static void
fill_view (const DryScene *self, DryPoint at, gint view, DryHit *hit)
{
  hit->view = view;
  hit->local = at;
  if (view >= 0) {
    DryPoint origin = self->views[view].origin;
    hit->local = (DryPoint){at.x - origin.x, at.y - origin.y};
  }
}

gboolean
dry_scene_pick (const DryScene *self, DryPoint at, DryLength tolerance, guint layers, DryHit *hit)
{
  const DryPrimitive *best = NULL;
  int best_rank = 0;

  tolerance = MAX (tolerance, 0);
  *hit = (DryHit){.index = -1, .view = -1};
  for (guint i = self->n; i > 0; i--) {
    const DryPrimitive *item = &self->items[i - 1];
    int rank = rank_shows (item->shows) * 2;
    double distance;

    /* A square hit beats a near one of the same rank, whichever is on top. */
    if (rank == 0 || rank + 1 <= best_rank || !(layers & (1u << item->layer)))
      continue;
    distance = measure_item (item, at);
    if (distance > (double) tolerance)
      continue;
    rank += distance == 0;
    if (rank > best_rank) {
      best = item;
      best_rank = rank;
    }
  }
  if (!best) {
    fill_view (self, at, dry_scene_find_view (self, at, 0), hit);
    return FALSE;
  }
  hit->shows = best->shows;
  hit->object = best->object;
  hit->index = best->index;
  fill_view (self, at, best->view, hit);
  return TRUE;
}
