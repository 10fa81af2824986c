/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Free floor by taking away what stands on it, and the largest circle by halving squares that could
 * still hold a better centre. A pure function of room, faces and build-up; asks no rule. */
#include "plan/free-floor.h"

#include <math.h>

#include "plan/basin-outline.h"
#include "plan/outline.h"
#include "plan/plan.h"

/* The search leaves out squares that cannot better the best by this much. */
#define EXACT (DRY_INCH / 32)
/* A turning space slopes no more than 1:48, ADA 2010 304.2. */
#define STEEPEST_TURN (1.0 / 48)

typedef struct {
  DryPoint at;
  DryLength half;  /* of the square's side */
  DryLength bound; /* no centre in the square is farther from the edges */
} Square;

static void
lower (const DryRing *ring, DryPoint at, DryLength *least)
{
  for (guint i = 0; i < ring->n_points; i++) {
    DryPoint a = ring->points[i], b = ring->points[(i + 1) % ring->n_points];
    /* An edge whose box is farther off than the least so far needs no root. */
    if (MIN (a.x, b.x) - at.x < *least && at.x - MAX (a.x, b.x) < *least &&
        MIN (a.y, b.y) - at.y < *least && at.y - MAX (a.y, b.y) < *least)
      *least = MIN (*least, dry_outline_distance (at, a, b));
  }
}

/* Distance to the nearest edge, less than nothing outside. */
static DryLength
measure (const DryRegion *floor, DryPoint at)
{
  DryLength least = G_MAXINT64 / 4;

  for (guint i = 0; i < floor->n_polygons; i++) {
    lower (&floor->polygons[i].outer, at, &least);
    for (guint h = 0; h < floor->polygons[i].n_holes; h++)
      lower (&floor->polygons[i].holes[h], at, &least);
  }
  return dry_region_contains (floor, at) ? least : -least;
}

/* --- the largest circle --- */

typedef struct {
  const DryRegion *floor;
  GArray *open; /* Square, a heap with the highest bound first */
  DryPoint best;
  DryLength clear;
} Search;

static void
push (Search *self, Square square)
{
  guint i = self->open->len;

  g_array_append_val (self->open, square);
  while (i > 0) {
    Square *above = &g_array_index (self->open, Square, (i - 1) / 2);
    Square *here = &g_array_index (self->open, Square, i), kept = *above;
    if (above->bound >= here->bound)
      return;
    *above = *here;
    *here = kept;
    i = (i - 1) / 2;
  }
}

static Square
pop (Search *self)
{
  Square *heap = (Square *) self->open->data, first = heap[0];
  guint n = self->open->len - 1, i = 0;

  heap[0] = heap[n];
  g_array_set_size (self->open, n);
  while (2 * i + 1 < n) {
    guint low = 2 * i + 1;
    Square kept = heap[i];
    if (low + 1 < n && heap[low + 1].bound > heap[low].bound)
      low++;
    if (heap[low].bound <= kept.bound)
      break;
    heap[i] = heap[low];
    heap[low] = kept;
    i = low;
  }
  return first;
}

static void
try_place (Search *self, DryPoint at)
{
  DryLength clear = measure (self->floor, at);

  if (clear > self->clear) {
    self->clear = clear;
    self->best = at;
  }
}

/* Level edges below and above a square and upright ones left and right of it that go past it on
 * both sides, the nearest of each: `lo` and `hi` per axis. */
typedef struct {
  DryLength lo[2], hi[2]; /* x, y; far out where there is none */
} Strip;

static void
narrow (Strip *strip, const DryRing *ring, DryPoint at, DryLength half)
{
  for (guint i = 0; i < ring->n_points; i++) {
    DryPoint a = ring->points[i], b = ring->points[(i + 1) % ring->n_points];
    int axis = a.x == b.x ? 0 : 1;
    DryLength here = axis ? at.y : at.x, line = axis ? a.y : a.x;
    DryLength middle = axis ? at.x : at.y;
    DryLength from = axis ? MIN (a.x, b.x) : MIN (a.y, b.y);
    DryLength to = axis ? MAX (a.x, b.x) : MAX (a.y, b.y);
    if ((axis && a.y != b.y) || from > middle - half || to < middle + half)
      continue;
    if (line <= here)
      strip->lo[axis] = MAX (strip->lo[axis], line);
    else
      strip->hi[axis] = MIN (strip->hi[axis], line);
  }
}

static Strip
find_strip (const DryRegion *floor, DryPoint at, DryLength half)
{
  const DryLength far_out = G_MAXINT64 / 8;
  Strip strip = {{-far_out, -far_out}, {far_out, far_out}};

  for (guint i = 0; i < floor->n_polygons; i++) {
    narrow (&strip, &floor->polygons[i].outer, at, half);
    for (guint h = 0; h < floor->polygons[i].n_holes; h++)
      narrow (&strip, &floor->polygons[i].holes[h], at, half);
  }
  return strip;
}

/* Midway between the edges across from each other, where a row of places is as good as another and
 * halving would only come near it. */
static void
settle (Search *self)
{
  DryPoint at = self->best;
  Strip strip = find_strip (self->floor, at, 0);
  DryPoint middle = {(strip.lo[0] + strip.hi[0]) / 2, (strip.lo[1] + strip.hi[1]) / 2};

  try_place (self, (DryPoint){middle.x, at.y});
  try_place (self, (DryPoint){at.x, middle.y});
  try_place (self, middle);
}

static void
try_square (Search *self, DryPoint at, DryLength half)
{
  DryLength clear = measure (self->floor, at), here[2] = {at.x, at.y};
  /* The corner is the square's farthest point; distance changes no faster than the place. */
  Square square = {at, half, clear + (DryLength) ceil ((double) half * G_SQRT2)};
  Strip strip;

  if (clear > self->clear) {
    self->clear = clear;
    self->best = at;
    settle (self);
  }
  if (square.bound <= self->clear + EXACT)
    return;
  /* Wholly between two edges nothing is farther from both than half their distance. */
  strip = find_strip (self->floor, at, half);
  for (int axis = 0; axis < 2; axis++)
    if (strip.lo[axis] <= here[axis] - half && strip.hi[axis] >= here[axis] + half)
      square.bound = MIN (square.bound, (strip.hi[axis] - strip.lo[axis]) / 2);
  if (square.bound > self->clear + EXACT)
    push (self, square);
}

gboolean
dry_free_floor_farthest (const DryRegion *floor, DryPoint *at, DryLength *clear)
{
  g_autoptr (GArray) open = g_array_new (FALSE, FALSE, sizeof (Square));
  Search self = {.floor = floor, .open = open};
  DryRect bounds = dry_region_bounds (floor);
  DryLength half;

  if (dry_region_is_empty (floor) || dry_rect_is_empty (bounds))
    return FALSE;
  half = MAX (dry_rect_width (bounds), dry_rect_height (bounds)) / 2 + 1;
  self.best = (DryPoint){bounds.x0, bounds.y0};
  try_square (&self, (DryPoint){(bounds.x0 + bounds.x1) / 2, (bounds.y0 + bounds.y1) / 2}, half);
  while (open->len > 0) {
    Square square = pop (&self);
    DryLength quarter = square.half / 2 + 1;
    if (square.bound <= self.clear + EXACT)
      break; /* all others are bound lower still */
    for (int k = 0; k < 4; k++)
      try_square (&self,
                  (DryPoint){square.at.x + (k & 1 ? quarter : -quarter),
                             square.at.y + (k & 2 ? quarter : -quarter)},
                  quarter);
  }
  *at = self.best;
  *clear = self.clear;
  return TRUE;
}

/* --- what stands on the floor --- */

/* Gathered first and taken off together: a drag reckons the floor anew at every step. */
static void
add_thing (DryArena *arena, GArray *things, const DryPoint *points, guint n)
{
  DryRegion thing = dry_region_from_ring (arena, points, n);

  g_array_append_val (things, thing);
}

/* A stretch of a face from `u0` to `u1`, standing out from `from` to `to`. */
static void
add_strip (DryArena *arena, GArray *things, const DryWall *wall, DrySide side, DryLength u[2],
           DryLength from, DryLength to)
{
  DryPoint p[4] = {dry_wall_point (wall, side, u[0], from), dry_wall_point (wall, side, u[1], from),
                   dry_wall_point (wall, side, u[1], to), dry_wall_point (wall, side, u[0], to)};

  if (u[1] > u[0] && to > from)
    add_thing (arena, things, p, 4);
}

static void
add_walls (const DryPlanContext *context, const DryFaces *faces, GArray *things)
{
  const DryRoom *room = context->room;

  for (guint i = 0; i < room->n_walls; i++) {
    const DryWall *wall = &room->walls[i];
    DryLength length = dry_wall_length (wall), all[2] = {-wall->lining, length + wall->lining};
    if (!wall->added) {
      add_strip (context->arena, things, wall, DRY_SIDE_INSIDE, (DryLength[2]){0, length}, 0,
                 wall->lining);
    } else {
      DryPoint p[4] = {dry_wall_point (wall, DRY_SIDE_INSIDE, all[0], wall->lining),
                       dry_wall_point (wall, DRY_SIDE_INSIDE, all[1], wall->lining),
                       dry_wall_point (wall, DRY_SIDE_OUTSIDE, all[0], wall->lining),
                       dry_wall_point (wall, DRY_SIDE_OUTSIDE, all[1], wall->lining)};
      add_thing (context->arena, things, p, 4);
    }
  }
  for (guint i = 0; faces && i < faces->n; i++) {
    const DryFace *face = &faces->items[i];
    const DryWall *wall = dry_room_get_wall (room, face->wall);
    DryLength wet[2] = {face->wet_u0, face->wet_u1};
    if (wall && face->kind == DRY_FACE_WALL)
      add_strip (context->arena, things, wall, face->side, wet, 0, context->build_up.total);
  }
}

static gboolean
basin_can_be_rolled_on (const DryBasin *basin)
{
  return dry_basin_is_curbless (basin) && basin->slope <= STEEPEST_TURN + 1e-9;
}

static void
add_basin (const DryPlanContext *context, GArray *things)
{
  DryBasinOutline outline;

  if (!basin_can_be_rolled_on (&context->room->basin) &&
      dry_basin_outline (context->room, &outline))
    add_thing (context->arena, things, outline.points, outline.n);
}

static void
add_parts (const DryPlanContext *context, GArray *things)
{
  const DryRoom *room = context->room;

  for (guint i = 0; i < room->n_parts; i++) {
    const DryPart *part = &room->parts[i];
    const DryWall *wall = dry_room_get_wall (room, part->wall);
    DryLength half = (part->kind == DRY_PART_BENCH ? part->width : part->depth) / 2;
    DryLength u[2] = {part->u - half, part->u + half};
    if (!wall)
      continue;
    if (part->kind == DRY_PART_BENCH && !part->fold_down)
      add_strip (context->arena, things, wall, part->side, u, 0, part->depth);
    if (part->kind == DRY_PART_GLASS && !part->hinged)
      add_strip (context->arena, things, wall, part->side, u, 0, part->width);
  }
}

static DryRegion
reckon_floor (const DryPlanContext *context, const DryFaces *faces)
{
  const DryRoom *room = context->room;
  g_autofree DryPoint *points = g_new (DryPoint, room->n_outline + 1);
  g_autoptr (GArray) things = g_array_new (FALSE, FALSE, sizeof (DryRegion));
  DryRegion floor;

  if (room->n_outline < 3)
    return (DryRegion){0};
  for (guint i = 0; i < room->n_outline; i++)
    points[i] = room->walls[i].start;
  floor = dry_region_from_ring (context->arena, points, room->n_outline);
  add_walls (context, faces, things);
  add_basin (context, things);
  add_parts (context, things);
  return dry_region_difference_all (context->arena, &floor,
                                    (const DryRegion *) (gconstpointer) things->data, things->len);
}

DryFreeFloor
dry_free_floor_reckon (const DryPlanContext *context, const DryFaces *faces, DryLength wanted)
{
  DryFreeFloor self = {.floor = reckon_floor (context, faces), .wanted = wanted};
  DryLength clear = 0;
  g_autofree char *formula = NULL, *area = NULL;
  char figure[G_ASCII_DTOSTR_BUF_SIZE];

  if (dry_free_floor_farthest (&self.floor, &self.centre, &clear))
    self.diameter = 2 * clear;
  self.fits = wanted > 0 && self.diameter >= wanted;
  formula = g_strdup_printf (
      "2 x %s to the nearest edge = %s, %s %s asked for", dry_context_length (context, clear),
      dry_context_length (context, self.diameter), self.fits ? "at least the" : "less than the",
      dry_context_length (context, wanted));
  area = g_strdup_printf (
      "%s m2", g_ascii_formatd (figure, sizeof figure, "%.2f", dry_region_area_m2 (&self.floor)));
  self.working = dry_working_new (
      context->arena,
      (DrySource){"largest circle on the free floor of what is drawn, found within 1/16 in",
                  DRY_CERTAINTY_DERIVED},
      formula, "free floor", area, "not drawn, so not taken off", "toilet, vanity, cabinets", NULL);
  return self;
}
