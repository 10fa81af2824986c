/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Edits of the outline: corners, wall lengths, walls moved parallel, a whole new outline.
 * What happens to the things on walls that slide is in edit-places.c. */
#define G_LOG_DOMAIN "drybay-project"

#include <math.h>
#include <string.h>

#include "project/edit-private.h"
#include "project/fields.h"
#include "project/file.h"

/* --- helpers --- */

static gboolean
is_within_limit (DryLength length)
{
  return length >= -DRY_LENGTH_MAX && length <= DRY_LENGTH_MAX;
}

static guint
find_next (const DryRoom *room, guint index)
{
  return (index + 1) % room->n_outline;
}

static guint
find_previous (const DryRoom *room, guint index)
{
  return (index + room->n_outline - 1) % room->n_outline;
}

static gboolean
begin_at_wall (DryEdit *edit, const DryProject *project, DryId room, DryId wall, guint *index,
               GError **error)
{
  if (!dry_edit_begin (edit, project, room, error))
    return FALSE;
  *index = dry_room_find_wall (edit->room, wall);
  if (*index < edit->room->n_walls)
    return TRUE;
  dry_edit_fail (error, DRY_ERROR_REFERENCE, "The room has no wall %u.", wall);
  dry_edit_abandon (edit);
  return FALSE;
}

static DryPoint
add_points (DryPoint a, DryPoint b)
{
  return (DryPoint){a.x + b.x, a.y + b.y};
}

static DryPoint
subtract_points (DryPoint a, DryPoint b)
{
  return (DryPoint){a.x - b.x, a.y - b.y};
}

static __int128
cross_points (DryPoint a, DryPoint b)
{
  return (__int128) a.x * b.y - (__int128) a.y * b.x;
}

/* Half away from zero. */
static __int128
divide_rounded (__int128 a, __int128 b)
{
  __int128 half;

  if (b < 0) {
    a = -a;
    b = -b;
  }
  half = b / 2;
  return a >= 0 ? (a + half) / b : -((-a + half) / b);
}

/* Where the line through `a` along `p` meets the line through `b` along `w`. Points within 1 km
 * keep every product below 2^127. FALSE when parallel or far away. */
static gboolean
intersect_lines (DryPoint a, DryPoint p, DryPoint b, DryPoint w, DryPoint *out)
{
  __int128 along = cross_points (subtract_points (b, a), w), whole = cross_points (p, w), x, y;

  if (whole == 0)
    return FALSE;
  x = a.x + divide_rounded ((__int128) p.x * along, whole);
  y = a.y + divide_rounded ((__int128) p.y * along, whole);
  if (x < -DRY_LENGTH_MAX || x > DRY_LENGTH_MAX || y < -DRY_LENGTH_MAX || y > DRY_LENGTH_MAX)
    return FALSE;
  *out = (DryPoint){(DryLength) x, (DryLength) y};
  return TRUE;
}

/* A new wall like `model`: built the same, but nothing found, measured or named on it. */
static DryWall
make_follower (DryEdit *edit, const DryWall *model)
{
  DryWall wall = *model;

  wall.name = NULL;
  wall.found_studs = NULL;
  wall.n_found_studs = 0;
  wall.plane_error = wall.plumb_error = wall.square_error = wall.width_bow = 0;
  wall.plumbing = FALSE;
  wall.added = FALSE;
  wall.id = dry_edit_take_id (edit);
  return wall;
}

/* --- corners --- */

DryProject *
dry_edit_move_corner (const DryProject *self, DryId room, DryId wall, DryPoint to, GError **error)
{
  DryEdit edit;
  guint index;

  if (!begin_at_wall (&edit, self, room, wall, &index, error))
    return NULL;
  if (!is_within_limit (to.x) || !is_within_limit (to.y)) {
    dry_edit_fail (error, DRY_ERROR_LIMIT, "The corner is more than 1 km away.");
    return dry_edit_abandon (&edit);
  }
  edit.room->walls[index].start = to;
  dry_edit_keep_places (edit.room, dry_project_get_room (self, room));
  return dry_edit_finish (&edit, error);
}

/* Studs found to the right of the cut go to the new wall; regular spacing simply runs on. */
static void
split_studs (DryWall *left, DryWall *right, DryLength u)
{
  guint n_left = 0;

  while (n_left < left->n_found_studs && left->found_studs[n_left] <= u)
    n_left++;
  right->n_found_studs = left->n_found_studs - n_left;
  right->found_studs = NULL;
  if (right->n_found_studs > 0) {
    right->found_studs =
        g_memdup2 (left->found_studs + n_left, sizeof (DryLength) * right->n_found_studs);
    for (guint i = 0; i < right->n_found_studs; i++)
      right->found_studs[i] -= u;
  }
  left->n_found_studs = n_left;
  if (n_left == 0)
    g_clear_pointer (&left->found_studs, g_free);
  right->first_stud = left->first_stud - u;
  if (right->first_stud <= 0) {
    right->first_stud %= right->stud_spacing;
    if (right->first_stud <= 0)
      right->first_stud += right->stud_spacing;
  }
}

/* What has its middle to the right of the cut goes to the new wall. */
static void
split_objects (DryRoom *room, DryId left, DryId right, DryLength u)
{
  DryBasin *basin = &room->basin;

  for (guint i = 0; i < room->n_parts; i++)
    if (room->parts[i].wall == left && room->parts[i].u > u) {
      room->parts[i].wall = right;
      room->parts[i].u -= u;
    }
  for (guint i = 0; i < room->n_seams; i++) {
    DrySeamWish *seam = &room->seams[i];
    DryLength *along = seam->level ? &seam->through : &seam->at;

    if (seam->wall == left && *along > u) {
      seam->wall = right;
      *along -= u;
    }
  }
  for (guint i = 0; i < room->n_openings; i++)
    if (room->openings[i].wall == left && room->openings[i].u + room->openings[i].width / 2 > u) {
      room->openings[i].wall = right;
      room->openings[i].u -= u;
    }
  if (basin->id != 0 && basin->wall == left &&
      basin->along + (basin->turned ? basin->width : basin->length) / 2 > u) {
    basin->wall = right;
    basin->along -= u;
  }
}

DryProject *
dry_edit_insert_corner (const DryProject *self, DryId room, DryId wall, DryLength u, DryId *id_out,
                        GError **error)
{
  DryEdit edit;
  DryWall right;
  guint index;

  if (!begin_at_wall (&edit, self, room, wall, &index, error))
    return NULL;
  if (index >= edit.room->n_outline) {
    dry_edit_fail (error, DRY_ERROR_GEOMETRY, "Wall %u is no part of the outline.", wall);
    return dry_edit_abandon (&edit);
  }
  if (u <= 0 || u >= dry_wall_length (&edit.room->walls[index])) {
    dry_edit_fail (error, DRY_ERROR_GEOMETRY, "The new corner must lie between the wall's ends.");
    return dry_edit_abandon (&edit);
  }
  right = make_follower (&edit, &edit.room->walls[index]);
  right.start = dry_wall_point (&edit.room->walls[index], DRY_SIDE_INSIDE, u, 0);
  /* Both halves are still the wall that was measured; its right corner now is the new wall's. */
  right.plumbing = edit.room->walls[index].plumbing;
  right.plane_error = edit.room->walls[index].plane_error;
  right.plumb_error = edit.room->walls[index].plumb_error;
  right.square_error = edit.room->walls[index].square_error;
  edit.room->walls[index].square_error = 0;
  split_studs (&edit.room->walls[index], &right, u);
  split_objects (edit.room, wall, right.id, u);
  dry_edit_insert_wall (edit.room, index + 1, right);
  if (id_out != NULL)
    *id_out = right.id;
  return dry_edit_finish (&edit, error);
}

static gboolean
is_ahead (DryPoint from, DryPoint to, DryPoint direction)
{
  DryPoint way = subtract_points (to, from);

  return (__int128) way.x * direction.x + (__int128) way.y * direction.y > 0;
}

gboolean
dry_edit_join_neighbours (DryEdit *self, guint index, GError **error)
{
  DryRoom *room = self->room;
  guint next;
  DryPoint before_start, before, after_end, after, meeting;
  gboolean meet;

  if (index >= room->n_outline) {
    dry_edit_remove_wall_at (room, index);
    return TRUE;
  }
  if (room->n_outline <= 3)
    return dry_edit_fail (error, DRY_ERROR_GEOMETRY, "A room keeps at least three walls.");
  next = find_next (room, index);
  before_start = room->walls[find_previous (room, index)].start;
  before = subtract_points (room->walls[index].start, before_start);
  after_end = room->walls[next].end;
  after = subtract_points (after_end, room->walls[next].start);
  /* A cut-off corner becomes whole again; where the neighbours run apart or side by side, the one
   * before simply reaches to where the next begins. */
  meet = intersect_lines (before_start, before, after_end, after, &meeting) &&
         is_ahead (before_start, meeting, before) && is_ahead (meeting, after_end, after);
  if (meet)
    room->walls[next].start = meeting;
  dry_edit_remove_wall_at (room, index);
  return TRUE;
}

/* --- walls --- */

DryProject *
dry_edit_set_wall_length (const DryProject *self, DryId room, DryId wall, DryLength length,
                          GError **error)
{
  DryEdit edit;
  DryWall *at;
  DryPoint shift;
  guint index, next;

  if (!begin_at_wall (&edit, self, room, wall, &index, error))
    return NULL;
  if (length <= 0 || length > DRY_LENGTH_MAX) {
    dry_edit_fail (error, length <= 0 ? DRY_ERROR_GEOMETRY : DRY_ERROR_LIMIT,
                   "A wall must be longer than nothing and at most 1 km.");
    return dry_edit_abandon (&edit);
  }
  at = &edit.room->walls[index];
  shift = subtract_points (dry_wall_point (at, DRY_SIDE_INSIDE, length, 0), at->end);
  if (index >= edit.room->n_outline) {
    at->end = add_points (at->end, shift);
    return dry_edit_finish (&edit, error);
  }
  /* The following wall keeps its direction and length: both its ends shift. */
  next = find_next (edit.room, index);
  edit.room->walls[next].start = add_points (edit.room->walls[next].start, shift);
  next = find_next (edit.room, next);
  edit.room->walls[next].start = add_points (edit.room->walls[next].start, shift);
  dry_edit_keep_places (edit.room, dry_project_get_room (self, room));
  return dry_edit_finish (&edit, error);
}

/* Turns a side wall of an alcove, `way` from its end at the back, so that at `depth` it stands
 * `moved` further along the back wall. Its other end slides along the line of the wall `beyond`. */
static gboolean
slant_side (const DryWall *back, DryPoint from, DryPoint way, const DryWall *beyond,
            DryLength depth, DryLength moved, DryPoint *corner)
{
  double ux, uy, nx, ny, run;

  dry_wall_axes (back, DRY_SIDE_INSIDE, &ux, &uy, &nx, &ny);
  run = (double) moved * ((double) way.x * nx + (double) way.y * ny) / (double) depth;
  way.x += (DryLength) llround (ux * run);
  way.y += (DryLength) llround (uy * run);
  return intersect_lines (from, way, beyond->start, subtract_points (beyond->end, beyond->start),
                          corner);
}

static gboolean
taper_sides (DryRoom *room, guint index, const DryWidths *was, DryLength back, DryLength front)
{
  guint next = find_next (room, index), previous = find_previous (room, index);
  const DryWall *wall = &room->walls[index];
  DryWall *left = &room->walls[previous], *right = &room->walls[next];
  DryWall *after = &room->walls[find_next (room, next)];
  const DryWall *before = &room->walls[find_previous (room, previous)];
  DryLength change = (front - back) - (was->front - was->back), half = change / 2;
  DryPoint end = dry_wall_point (wall, DRY_SIDE_INSIDE, back, 0), left_front, right_front;

  if (!slant_side (wall, wall->start, subtract_points (left->start, left->end), before, was->depth,
                   -half, &left_front) ||
      !slant_side (wall, end, subtract_points (right->end, right->start), after, was->depth,
                   change - half, &right_front))
    return FALSE;
  left->start = left_front;
  right->start = end;
  after->start = right_front;
  return TRUE;
}

DryProject *
dry_edit_set_widths (const DryProject *self, DryId room, DryId wall, DryLength back,
                     DryLength middle, DryLength front, GError **error)
{
  DryEdit edit;
  DryWidths was;
  guint index;

  if (!begin_at_wall (&edit, self, room, wall, &index, error))
    return NULL;
  if (back <= 0 || middle < 0 || front <= 0 || MAX (back, MAX (middle, front)) > DRY_SIZE_MAX) {
    dry_edit_fail (error, DRY_ERROR_LIMIT, "A width must be more than nothing and at most 30 m.");
    return dry_edit_abandon (&edit);
  }
  if (edit.room->n_outline < 4 || !dry_room_get_widths (edit.room, wall, &was) ||
      !taper_sides (edit.room, index, &was, back, front)) {
    dry_edit_fail (error, DRY_ERROR_GEOMETRY,
                   "Three widths need two side walls that run from wall %u into the room.", wall);
    return dry_edit_abandon (&edit);
  }
  edit.room->walls[index].width_bow = middle > 0 ? middle - (back + (front - back) / 2) : 0;
  dry_edit_keep_places (edit.room, dry_project_get_room (self, room));
  return dry_edit_finish (&edit, error);
}

/* Moves one end of a wall: along its neighbour's line or, where the neighbour runs straight on,
 * square to it by a new short wall. Returns how many walls were put in before `index`. */
static guint
move_start (DryEdit *edit, guint index, DryPoint line, DryPoint direction)
{
  DryRoom *room = edit->room;
  const DryWall *before = &room->walls[find_previous (room, index)];
  DryWall jog;

  if (intersect_lines (before->start, subtract_points (room->walls[index].start, before->start),
                       line, direction, &room->walls[index].start))
    return 0;
  jog = make_follower (edit, before);
  jog.start = room->walls[index].start;
  room->walls[index].start = line;
  dry_edit_insert_wall (room, index, jog);
  return 1;
}

static void
move_end (DryEdit *edit, guint index, DryPoint line, DryPoint direction)
{
  DryRoom *room = edit->room;
  DryWall *next = &room->walls[find_next (room, index)];
  DryWall jog;

  if (intersect_lines (next->end, subtract_points (next->end, next->start), line, direction,
                       &next->start))
    return;
  jog = make_follower (edit, &room->walls[index]);
  jog.start = line;
  dry_edit_insert_wall (room, index + 1, jog);
}

DryProject *
dry_edit_move_wall (const DryProject *self, DryId room, DryId wall, DryLength out, GError **error)
{
  DryEdit edit;
  DryPoint start, end, direction;
  const DryWall *old;
  guint index;

  if (!begin_at_wall (&edit, self, room, wall, &index, error))
    return NULL;
  if (!is_within_limit (out)) {
    dry_edit_fail (error, DRY_ERROR_LIMIT, "A wall can be moved by at most 1 km.");
    return dry_edit_abandon (&edit);
  }
  old = &edit.room->walls[index];
  start = dry_wall_point (old, DRY_SIDE_INSIDE, 0, out);
  end = add_points (start, subtract_points (old->end, old->start));
  direction = subtract_points (old->end, old->start);
  if (index >= edit.room->n_outline) {
    edit.room->walls[index].start = start;
    edit.room->walls[index].end = end;
  } else if (out != 0) {
    /* The end first: it reads the neighbour's own end, which the start does not touch. */
    move_end (&edit, index, end, direction);
    move_start (&edit, index, start, direction);
    dry_edit_keep_places (edit.room, dry_project_get_room (self, room));
  }
  return dry_edit_finish (&edit, error);
}

/* --- a whole outline --- */

/* Which old wall each new one is: the same segment, else one with the same start, then the same
 * end, then the next that is left. -1 for walls beyond the old number. */
static void
match_walls (const DryRoom *room, const DryPoint *corners, guint n, gint *match)
{
  g_autofree gboolean *used = g_new0 (gboolean, room->n_outline);

  for (guint i = 0; i < n; i++)
    match[i] = -1;
  for (int round = 0; round < 4; round++)
    for (guint i = 0; i < n; i++) {
      DryPoint end = corners[(i + 1) % n];

      for (guint j = 0; j < room->n_outline && match[i] < 0; j++) {
        const DryWall *wall = &room->walls[j];
        gboolean starts = wall->start.x == corners[i].x && wall->start.y == corners[i].y;
        gboolean ends = wall->end.x == end.x && wall->end.y == end.y;
        const gboolean fits[] = {starts && ends, starts, ends, TRUE};

        if (used[j] || !fits[round])
          continue;
        used[j] = TRUE;
        match[i] = (gint) j;
      }
    }
}

static void
drop_unmatched (DryRoom *room, const gint *match, guint n)
{
  for (guint j = room->n_outline; j > 0; j--) {
    gboolean kept = FALSE;

    for (guint i = 0; i < n; i++)
      kept |= match[i] == (gint) (j - 1);
    if (!kept)
      dry_edit_remove_wall_at (room, j - 1);
  }
}

/* The new outline's walls in order; texts and lists move over from the old ones. */
static void
rebuild_outline (DryEdit *edit, const DryPoint *corners, guint n)
{
  DryRoom *room = edit->room;
  g_autofree gint *match = g_new (gint, n);
  g_autofree DryId *ids = g_new0 (DryId, n);
  guint n_added = room->n_walls - room->n_outline, n_old;
  DryWall *walls;

  match_walls (room, corners, n, match);
  for (guint i = 0; i < n; i++)
    ids[i] = match[i] >= 0 ? room->walls[match[i]].id : 0;
  drop_unmatched (room, match, n);
  n_old = room->n_outline;
  walls = g_new0 (DryWall, n + n_added);
  for (guint i = 0; i < n; i++) {
    if (ids[i] != 0)
      walls[i] = room->walls[dry_room_find_wall (room, ids[i])];
    else
      walls[i] = make_follower (edit, i > 0 ? &walls[i - 1] : &room->walls[0]);
    walls[i].start = corners[i];
  }
  if (n_added > 0)
    memcpy (walls + n, room->walls + n_old, sizeof (DryWall) * n_added);
  g_free (room->walls);
  room->walls = walls;
  room->n_outline = n;
  room->n_walls = n + n_added;
}

DryProject *
dry_edit_set_outline (const DryProject *self, DryId room, const DryPoint *corners, guint n_corners,
                      GError **error)
{
  g_autofree DryPoint *clockwise = NULL;
  DryEdit edit;
  DryRing ring;

  if (n_corners < 3 || n_corners > DRY_MAX_WALLS) {
    dry_edit_fail (error, n_corners < 3 ? DRY_ERROR_GEOMETRY : DRY_ERROR_LIMIT,
                   "An outline has from 3 to %d corners, not %u.", DRY_MAX_WALLS, n_corners);
    return NULL;
  }
  for (guint i = 0; i < n_corners; i++)
    if (!is_within_limit (corners[i].x) || !is_within_limit (corners[i].y)) {
      dry_edit_fail (error, DRY_ERROR_LIMIT, "Corner %u is more than 1 km away.", i + 1);
      return NULL;
    }
  if (!dry_edit_begin (&edit, self, room, error))
    return NULL;
  clockwise = g_memdup2 (corners, sizeof (DryPoint) * n_corners);
  ring = (DryRing){clockwise, n_corners};
  if (dry_ring_area2 (&ring) > 0)
    for (guint i = 1; i < n_corners; i++)
      clockwise[i] = corners[n_corners - i];
  rebuild_outline (&edit, clockwise, n_corners);
  return dry_edit_finish (&edit, error);
}
