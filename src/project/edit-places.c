/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Where things end up when walls move: what hangs on a wall is measured from the wall's left end,
 * and that end may slide. Things stay where they are in the room; the tub or pan goes with its
 * wall, and what serves it goes with it. */
#define G_LOG_DOMAIN "drybay-project"

#include <math.h>

#include "project/edit-private.h"

/* A fitting within this of the basin belongs to it; common practice, no source. */
#define BASIN_REACH DRY_FOOT

typedef struct {
  const DryRoom *before;
  DryRect basin;           /* with its reach, before; empty without a basin */
  double shift_x, shift_y; /* how far the basin went */
} Places;

static gboolean
has_same_direction (const DryWall *a, const DryWall *b)
{
  __int128 ax = a->end.x - a->start.x, ay = a->end.y - a->start.y;
  __int128 bx = b->end.x - b->start.x, by = b->end.y - b->start.y;

  return ax * by == ay * bx && ax * bx + ay * by > 0;
}

/* How far a point fixed in the room lies from the wall's left end after the move, less before. */
static DryLength
measure_slide (const DryWall *old, const DryWall *new, double dx, double dy)
{
  double ux, uy, nx, ny;

  dry_wall_axes (new, DRY_SIDE_INSIDE, &ux, &uy, &nx, &ny);
  return llround (((double) (old->start.x - new->start.x) + dx) * ux +
                  ((double) (old->start.y - new->start.y) + dy) * uy);
}

static DryLength
find_slide (const Places *places, const DryWall *old, const DryWall *new, DryLength u)
{
  DryPoint at = dry_wall_point (old, DRY_SIDE_INSIDE, u, 0);
  gboolean serves = !dry_rect_is_empty (places->basin) && dry_rect_contains (places->basin, at);

  return measure_slide (old, new, serves ? places->shift_x : 0, serves ? places->shift_y : 0);
}

static void
slide_studs (DryWall *wall, DryLength slide)
{
  for (guint i = 0; i < wall->n_found_studs; i++)
    wall->found_studs[i] += slide;
  wall->first_stud += slide;
  /* A spacing is never nought: fields.c. */
  if (wall->first_stud <= 0 || wall->first_stud > wall->stud_spacing) {
    wall->first_stud %= wall->stud_spacing;
    if (wall->first_stud <= 0)
      wall->first_stud += wall->stud_spacing;
  }
}

/* Studs found where the wall no longer is are gone with it. */
static void
drop_lost_studs (DryWall *wall)
{
  DryLength length = dry_wall_length (wall);
  guint n = 0;

  for (guint i = 0; i < wall->n_found_studs; i++)
    if (wall->found_studs[i] >= 0 && wall->found_studs[i] <= length)
      wall->found_studs[n++] = wall->found_studs[i];
  wall->n_found_studs = n;
  if (n == 0)
    g_clear_pointer (&wall->found_studs, g_free);
}

static void
slide_objects (DryRoom *room, const Places *places, const DryWall *old, const DryWall *new)
{
  for (guint i = 0; i < room->n_parts; i++)
    if (room->parts[i].wall == new->id)
      room->parts[i].u += find_slide (places, old, new, room->parts[i].u);
  for (guint i = 0; i < room->n_seams; i++) {
    DrySeamWish *seam = &room->seams[i];
    if (seam->wall == new->id)
      *(seam->level ? &seam->through : &seam->at) += measure_slide (old, new, 0, 0);
  }
  for (guint i = 0; i < room->n_openings; i++) {
    DryOpening *opening = &room->openings[i];
    if (opening->wall == new->id)
      opening->u = MAX (opening->u + measure_slide (old, new, 0, 0), 0);
  }
}

/* The basin stays put along its wall, unless it stood in the corner: there it stays in the corner.
 */
static void
place_basin (DryRoom *room, Places *places)
{
  const DryWall *old = dry_room_get_wall (places->before, room->basin.wall);
  const DryWall *new = dry_room_get_wall (room, room->basin.wall);
  DryPoint was[4], is[4];

  if (!old || !new || !dry_room_basin_corners (places->before, was))
    return;
  places->basin = dry_rect_inflate (dry_ring_bounds (&(DryRing){was, 4}), BASIN_REACH);
  if (room->basin.along != 0 && has_same_direction (old, new))
    room->basin.along += measure_slide (old, new, 0, 0);
  if (dry_room_basin_corners (room, is)) {
    places->shift_x = (double) (is[0].x - was[0].x);
    places->shift_y = (double) (is[0].y - was[0].y);
  }
}

void
dry_edit_keep_places (DryRoom *room, const DryRoom *before)
{
  Places places = {.before = before};

  /* Outline walls end where the next begins; the edit may not have said so yet. */
  for (guint i = 0; i < room->n_outline; i++)
    room->walls[i].end = room->walls[(i + 1) % room->n_outline].start;
  place_basin (room, &places);
  for (guint i = 0; i < room->n_outline; i++) {
    DryWall *wall = &room->walls[i];
    const DryWall *old = dry_room_get_wall (before, wall->id);

    if (!old || !has_same_direction (old, wall))
      continue;
    slide_studs (wall, measure_slide (old, wall, 0, 0));
    drop_lost_studs (wall);
    slide_objects (room, &places, old, wall);
  }
}
