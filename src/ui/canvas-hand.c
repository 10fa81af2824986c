/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the pointer holds and where it would be put: every motion is a pure edit of the project the
 * thing was taken from, shown as a preview; putting it down makes it one step to undo. */
#include "ui/canvas-private.h"

#include <glib/gi18n.h>
#include <math.h>

#include "ui/actions.h"
#include "ui/canvas-advice.h"
#include "ui/canvas-entry.h"
#include "ui/canvas-seam.h"

#define SNAP_PIXELS 9.0
#define GRID_PIXELS 4.0

const DryRoom *
dry_hand_room (DryCanvas *self)
{
  if (self->hand.base == NULL)
    return NULL;
  return dry_project_get_room (self->hand.base, dry_session_get_room_id (self->session));
}

static void
clear_hand (DryCanvas *self)
{
  DryHand *hand = &self->hand;

  dry_advice_end (self);
  if (hand->base != NULL)
    dry_project_unref ((DryProject *) hand->base);
  g_free (hand->name);
  g_free (hand->refusal);
  if (hand->corners != NULL)
    g_array_unref (hand->corners);
  if (hand->typed != NULL)
    g_string_free (hand->typed, TRUE);
  g_clear_pointer (&hand->before, dry_plan_unref);
  *hand = (DryHand){.stud = -1};
}

void
dry_hand_take (DryCanvas *self, DryHandKind kind, DryId object, const DryProject *base,
               const char *name)
{
  const DryRoom *room;
  const DryPart *part;
  const DryOpening *opening;

  clear_hand (self);
  self->hand.kind = kind;
  self->hand.object = object;
  self->hand.base = dry_project_ref (base);
  self->hand.name = g_strdup (name);
  if (self->plan != NULL)
    self->hand.before = dry_plan_ref (self->plan);
  room = dry_hand_room (self);
  if (room == NULL)
    return;
  /* The arrow keys go on from where the thing is. */
  dry_advice_begin (self);
  if ((part = dry_room_get_part (room, object)) != NULL) {
    self->hand.at = (DryPoint){part->u, part->z};
    self->hand.wall = part->wall;
    self->hand.side = part->side;
  } else if ((opening = dry_room_get_opening (room, object)) != NULL) {
    self->hand.at = (DryPoint){opening->u, opening->z};
    self->hand.wall = opening->wall;
  } else if (room->basin.id == object) {
    self->hand.at = (DryPoint){room->basin.along, room->basin.away};
    self->hand.wall = room->basin.wall;
  }
}

void
dry_hand_drop (DryCanvas *self)
{
  gboolean held = self->hand.kind != DRY_HAND_EMPTY && self->hand.kind != DRY_HAND_PAN;

  clear_hand (self);
  dry_entry_close (self);
  if (!held)
    return;
  dry_session_preview (self->session, NULL);
  dry_canvas_sync_objects (self);
  dry_canvas_update_cursor (self);
  dry_canvas_redraw (self);
}

gboolean
dry_canvas_cancel (DryCanvas *self)
{
  gboolean held = self->hand.kind != DRY_HAND_EMPTY;

  dry_hand_drop (self);
  return held;
}

/* --- showing what a motion gives --- */

static void
refuse (DryCanvas *self, const char *reason)
{
  g_free (self->hand.refusal);
  self->hand.refusal = g_strdup (reason);
}

/* Takes an edit's result: the refused ones leave the last good preview and say why. */
void
dry_hand_show (DryCanvas *self, DryProject *project, GError *error)
{
  if (project == NULL) {
    refuse (self, error != NULL ? error->message : NULL);
    g_clear_error (&error);
  } else {
    refuse (self, NULL);
    self->hand.changed = TRUE;
    dry_session_preview (self->session, project);
    const DryRoom *room = dry_session_get_room (self->session);

    if (room != NULL && self->hand.on_wall)
      self->hand.on_wall = dry_snap_rect (room, self->hand.object, &self->hand.wall,
                                          &self->hand.side, &self->hand.rect);
  }
  dry_canvas_redraw (self);
}

DrySnapRequest
dry_hand_snap_request (DryCanvas *self, DryRect rect, gboolean freely)
{
  gboolean metric = dry_project_get_job (self->hand.base)->metric;

  return (DrySnapRequest){
      .room = dry_hand_room (self),
      .plan = self->plan,
      .wall = self->hand.wall,
      .side = self->hand.side,
      .moving = self->hand.object,
      .rect = rect,
      .reach = freely ? 0 : dry_canvas_pixels (self, SNAP_PIXELS),
      .grid = freely ? 0 : dry_snap_grid (metric, dry_canvas_pixels (self, GRID_PIXELS)),
  };
}

/* Where on which wall the pointer is. In plan the height stays as it was. */
static gboolean
point_on_wall (DryCanvas *self, const DryPlace *place, DryPoint *at)
{
  if (!place->plan) {
    self->hand.wall = place->wall;
    self->hand.side = place->side;
    *at = (DryPoint){place->local.x - self->hand.grab.x, place->local.y - self->hand.grab.y};
    return TRUE;
  }
  DryLength u, out;

  if (!dry_canvas_nearest_wall (dry_hand_room (self), place->local, FALSE, &self->hand.wall,
                                &self->hand.side, &u, &out))
    return FALSE;
  *at = (DryPoint){u - self->hand.grab.x, self->hand.at.y};
  return TRUE;
}

static void
move_part_to (DryCanvas *self, DryPoint at, gboolean lock_z, gboolean freely)
{
  const DryRoom *room = dry_hand_room (self);
  const DryPart *original = dry_room_get_part (room, self->hand.object);
  DrySnapRequest request;
  GError *error = NULL;
  DryPart part;

  if (original == NULL)
    return;
  part = *original;
  part.u = at.x;
  part.z = at.y;
  request = dry_hand_snap_request (self, dry_part_rect (&part), freely);
  request.lock_z = lock_z;
  self->hand.snap = dry_snap_on_wall (&request);
  dry_advice_attract (self, at, lock_z, request.reach, &self->hand.snap);
  self->hand.on_wall = TRUE;
  dry_hand_show (self,
                 dry_edit_move_part (self->hand.base, room->id, part.id, self->hand.wall,
                                     self->hand.side, at.x + self->hand.snap.du,
                                     at.y + self->hand.snap.dz, &error),
                 error);
  dry_advice_follow (self);
}

static void
move_opening_to (DryCanvas *self, DryPoint at, gboolean lock_z, gboolean freely)
{
  const DryRoom *room = dry_hand_room (self);
  const DryOpening *original = dry_room_get_opening (room, self->hand.object);
  const DryWall *wall = dry_room_get_wall (room, self->hand.wall);
  DrySnapRequest request;
  GError *error = NULL;
  DryOpening opening;

  if (original == NULL || wall == NULL)
    return;
  opening = *original;
  opening.wall = wall->id;
  if (opening.kind != DRY_OPENING_WINDOW) {
    at.y = 0;
    lock_z = TRUE;
  }
  request = dry_hand_snap_request (
      self, (DryRect){at.x, at.y, at.x + opening.width, at.y + opening.height}, freely);
  request.lock_z = lock_z;
  self->hand.snap = dry_snap_on_wall (&request);
  self->hand.on_wall = TRUE;
  opening.u = CLAMP (at.x + self->hand.snap.du, 0, MAX (dry_wall_length (wall) - opening.width, 0));
  opening.z =
      CLAMP (at.y + self->hand.snap.dz, 0, MAX (dry_wall_height (room, wall) - opening.height, 0));
  dry_hand_show (self, dry_edit_set_opening (self->hand.base, room->id, &opening, NULL, &error),
                 error);
}

/* Stays with the wall it is at until it is clearly pulled off it. */
static gboolean
keep_wall (DryCanvas *self, const DryRoom *room, DryPoint centre, DryLength half_depth,
           DryLength *u, DryLength *out)
{
  const DryWall *wall = dry_room_get_wall (room, self->hand.wall);
  double ux, uy, nx, ny;

  if (wall == NULL || wall->added)
    return FALSE;
  dry_wall_axes (wall, DRY_SIDE_INSIDE, &ux, &uy, &nx, &ny);
  double dx = (double) (centre.x - wall->start.x), dy = (double) (centre.y - wall->start.y);

  *u = dry_wall_along (wall, DRY_SIDE_INSIDE, centre);
  *out = (DryLength) (dx * nx + dy * ny);
  return *u >= 0 && *u <= dry_wall_length (wall) && *out >= 0 && *out < half_depth + 6 * DRY_INCH;
}

/* A basin stands against the wall it is nearest to; within a hand's breadth it is pushed home. */
static void
move_basin_to (DryCanvas *self, DryPoint centre, gboolean freely)
{
  const DryRoom *room = dry_hand_room (self);
  const DryBasin *basin = &room->basin;
  DryLength extent = basin->turned ? basin->width : basin->length;
  DryLength depth = basin->turned ? basin->length : basin->width;
  DryLength u, out, along, away;
  GError *error = NULL;
  DrySide side;
  DryId wall = self->hand.wall;

  if (!keep_wall (self, room, centre, depth / 2, &u, &out) &&
      !dry_canvas_nearest_wall (room, centre, TRUE, &wall, &side, &u, &out))
    return;
  along = u - extent / 2;
  away = MAX (out - depth / 2, 0);
  if (!freely && away < MAX (4 * DRY_INCH, dry_canvas_pixels (self, 2 * SNAP_PIXELS)))
    away = 0;
  self->hand.snap = dry_snap_along (
      room, wall, along, along + extent, freely ? 0 : dry_canvas_pixels (self, SNAP_PIXELS),
      freely ? 0
             : dry_snap_grid (dry_project_get_job (self->hand.base)->metric,
                              dry_canvas_pixels (self, GRID_PIXELS)));
  self->hand.reason = self->hand.snap.u_reason;
  self->hand.wall = wall;
  self->hand.at = (DryPoint){along, away};
  dry_hand_show (self,
                 dry_edit_move_basin (self->hand.base, room->id, wall, along + self->hand.snap.du,
                                      away, basin->turned, &error),
                 error);
}

/* On an unrolled face it follows the pointer along that wall only, by as much as the pointer went:
 * which faces there are, and where, changes meanwhile. */
static void
move_basin_on_face (DryCanvas *self, double pixels, gboolean freely)
{
  const DryRoom *room = dry_hand_room (self);
  const DryWall *wall = dry_room_get_wall (room, self->hand.face);
  DryPoint corners[4], centre = {0, 0};
  double ux, uy, nx, ny;
  DryLength by = dry_canvas_pixels (self, pixels);

  if (wall == NULL || !dry_room_basin_corners (room, corners))
    return;
  dry_wall_axes (wall, self->hand.side, &ux, &uy, &nx, &ny);
  for (guint i = 0; i < 4; i++) {
    centre.x += corners[i].x / 4;
    centre.y += corners[i].y / 4;
  }
  centre.x += (DryLength) (ux * (double) by);
  centre.y += (DryLength) (uy * (double) by);
  self->hand.wall = room->basin.wall;
  move_basin_to (self, centre, freely);
}

static DryLength
to_grid (DryCanvas *self, double value, gboolean freely)
{
  DryLength grid = dry_snap_grid (dry_project_get_job (self->hand.base)->metric,
                                  dry_canvas_pixels (self, GRID_PIXELS));

  return freely ? (DryLength) value : (DryLength) (round (value / (double) grid)) * grid;
}

static void
move_wall_by (DryCanvas *self, DryPoint at, gboolean freely)
{
  const DryRoom *room = dry_hand_room (self);
  const DryWall *wall = dry_room_get_wall (room, self->hand.object);
  double ux, uy, nx, ny;
  GError *error = NULL;
  DryLength out;

  if (wall == NULL)
    return;
  dry_wall_axes (wall, DRY_SIDE_INSIDE, &ux, &uy, &nx, &ny);
  out = to_grid (
      self, (double) (at.x - self->hand.grab.x) * nx + (double) (at.y - self->hand.grab.y) * ny,
      freely);
  self->hand.at = (DryPoint){out, 0};
  if (!wall->added) {
    dry_hand_show (self, dry_edit_move_wall (self->hand.base, room->id, wall->id, out, &error),
                   error);
    return;
  }
  DryWall moved = *wall;

  moved.start = (DryPoint){wall->start.x + (DryLength) (nx * (double) out),
                           wall->start.y + (DryLength) (ny * (double) out)};
  moved.end = (DryPoint){wall->end.x + (DryLength) (nx * (double) out),
                         wall->end.y + (DryLength) (ny * (double) out)};
  dry_hand_show (self, dry_edit_set_wall (self->hand.base, room->id, &moved, NULL, &error), error);
}

/* A corner keeps square with the corners beside it when it comes near. */
static void
move_corner_to (DryCanvas *self, DryPoint at, gboolean freely)
{
  const DryRoom *room = dry_hand_room (self);
  guint index = dry_room_find_wall (room, self->hand.object);
  DryLength reach = freely ? 0 : dry_canvas_pixels (self, SNAP_PIXELS);
  GError *error = NULL;
  DryPoint to = {to_grid (self, (double) at.x, freely), to_grid (self, (double) at.y, freely)};

  if (index >= room->n_walls)
    return;
  self->hand.reason = NULL;
  for (guint i = 0; i < room->n_walls; i++) {
    const DryWall *other = &room->walls[i];
    gboolean own = other->id == self->hand.object && self->hand.grip == DRY_GRIP_LEFT;

    if (own)
      continue;
    if (ABS (other->start.x - at.x) < reach) {
      to.x = other->start.x;
      self->hand.reason = N_ ("In line with a corner");
    }
    if (ABS (other->start.y - at.y) < reach) {
      to.y = other->start.y;
      self->hand.reason = N_ ("In line with a corner");
    }
  }
  self->hand.at = to;
  if (!room->walls[index].added) {
    guint corner =
        self->hand.grip == DRY_GRIP_LEFT ? index : (index + 1) % MAX (room->n_outline, 1);

    dry_hand_show (
        self, dry_edit_move_corner (self->hand.base, room->id, room->walls[corner].id, to, &error),
        error);
    return;
  }
  DryWall pulled = room->walls[index];

  if (self->hand.grip == DRY_GRIP_LEFT)
    pulled.start = to;
  else
    pulled.end = to;
  dry_hand_show (self, dry_edit_set_wall (self->hand.base, room->id, &pulled, NULL, &error), error);
}

/* --- pointing --- */

/* In plan things are pulled in plan coordinates wherever the pointer strays. */
static gboolean
plan_point (DryCanvas *self, double x, double y, DryPoint *at)
{
  gint view = dry_canvas_find_view (self, TRUE, 0, DRY_SIDE_INSIDE);

  if (view < 0)
    return FALSE;
  *at = dry_canvas_to_scene (self, x, y);
  at->x -= self->scene->views[view].origin.x;
  at->y -= self->scene->views[view].origin.y;
  return TRUE;
}

void
dry_hand_point (DryCanvas *self, double x, double y, gboolean freely)
{
  DryPlace place;
  DryPoint at;

  if (dry_entry_is_open (self)) /* its distance is being typed: the pointer waits */
    return;
  switch (self->hand.kind) {
  case DRY_HAND_PART:
  case DRY_HAND_OPENING:
    if (!dry_canvas_locate (self, x, y, &place) || !point_on_wall (self, &place, &at))
      return;
    if (!place.plan)
      self->hand.at = at;
    if (self->hand.kind == DRY_HAND_PART)
      move_part_to (self, at, place.plan, freely);
    else
      move_opening_to (self, at, place.plan, freely);
    return;
  case DRY_HAND_BASIN:
    if (self->hand.face != 0)
      move_basin_on_face (self, x - self->hand.start_x, freely);
    else if (dry_canvas_locate (self, x, y, &place) && place.plan)
      move_basin_to (
          self, (DryPoint){place.local.x - self->hand.grab.x, place.local.y - self->hand.grab.y},
          freely);
    return;
  case DRY_HAND_STUD: {
    GError *error = NULL;
    DryProject *moved = dry_canvas_drag_stud (self, x, y, freely, &error);

    dry_hand_show (self, moved, error);
    return;
  }
  case DRY_HAND_SEAM:
    dry_canvas_drag_seam (self, x, y, freely);
    return;
  case DRY_HAND_WALL:
    if (plan_point (self, x, y, &at))
      move_wall_by (self, at, freely);
    return;
  case DRY_HAND_CORNER:
    if (plan_point (self, x, y, &at))
      move_corner_to (self, (DryPoint){at.x - self->hand.grab.x, at.y - self->hand.grab.y}, freely);
    return;
  case DRY_HAND_SIZE:
    dry_hand_size (self, x - (double) self->hand.grab.x, y - (double) self->hand.grab.y, freely);
    return;
  case DRY_HAND_OUTLINE:
    dry_outline_point (self, x, y, freely);
    return;
  case DRY_HAND_EMPTY:
  case DRY_HAND_PAN:
    return;
  }
}

void
dry_hand_step (DryCanvas *self, DryLength dx, DryLength dy)
{
  GError *error = NULL;
  const DryRoom *room = dry_hand_room (self);

  self->hand.at = (DryPoint){self->hand.at.x + dx, self->hand.at.y + dy};
  switch (self->hand.kind) {
  case DRY_HAND_PART:
    move_part_to (self, self->hand.at, FALSE, TRUE);
    break;
  case DRY_HAND_OPENING:
    move_opening_to (self, self->hand.at, FALSE, TRUE);
    break;
  case DRY_HAND_BASIN:
    self->hand.at.y = MAX (self->hand.at.y, 0);
    dry_hand_show (self,
                   dry_edit_move_basin (self->hand.base, room->id, self->hand.wall, self->hand.at.x,
                                        self->hand.at.y, room->basin.turned, &error),
                   error);
    break;
  case DRY_HAND_SEAM:
    dry_canvas_step_seam (self, dx, dy);
    break;
  default:
    break;
  }
}

/* The keyboard's way to another wall: the middle of the next one round. */
void
dry_hand_next_wall (DryCanvas *self, gint direction)
{
  const DryRoom *room = dry_hand_room (self);
  gint n = room != NULL ? (gint) room->n_walls : 0;
  gint at = n > 0 ? (gint) dry_room_find_wall (room, self->hand.wall) : 0;
  const DryWall *wall;

  if (n == 0 || (self->hand.kind != DRY_HAND_PART && self->hand.kind != DRY_HAND_OPENING &&
                 self->hand.kind != DRY_HAND_BASIN))
    return;
  at = (at + direction + n) % n;
  wall = &room->walls[at];
  if (self->hand.kind == DRY_HAND_BASIN && wall->added)
    wall = &room->walls[0];
  self->hand.wall = wall->id;
  self->hand.side = DRY_SIDE_INSIDE;
  self->hand.at.x = self->hand.kind == DRY_HAND_BASIN ? 0 : dry_wall_length (wall) / 2;
  dry_hand_step (self, 0, 0);
}

void
dry_hand_put_down (DryCanvas *self)
{
  const DryProject *shown = dry_session_get_project (self->session);
  g_autofree char *name = g_steal_pointer (&self->hand.name);
  gboolean changed = self->hand.changed;
  DryId object = self->hand.object;
  gint stud = self->hand.stud;
  DryPieceRef piece = self->hand.piece_now;
  DryProject *result = NULL;

  if (self->hand.kind == DRY_HAND_EMPTY)
    return;
  if (self->hand.kind == DRY_HAND_PAN) { /* looking elsewhere changes neither work nor selection */
    clear_hand (self);
    dry_canvas_update_cursor (self);
    return;
  }
  if (changed)
    result = dry_project_ref (shown);
  clear_hand (self);
  if (result != NULL)
    dry_session_apply (self->session, result, name, NULL, NULL);
  else
    dry_session_preview (self->session, NULL);
  if (piece.kind != DRY_PIECE_NONE)
    dry_session_select_piece (self->session, &piece);
  else if (stud >= 0)
    dry_session_select_stud (self->session, object, stud);
  else
    dry_session_select (self->session, object);
  dry_canvas_sync_objects (self);
  dry_canvas_update_cursor (self);
  dry_canvas_redraw (self);
}
