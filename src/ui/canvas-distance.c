/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Measures the thing in hand or selected against its neighbors in the project that is shown, and
 * turns a typed distance into an edit. Knows no pointer and paints nothing. */
#include "ui/canvas-distance.h"

#include <glib/gi18n.h>

#include "ui/actions.h"
#include "ui/studs.h"

static void
put_line (DryMeasured *measured, DryNeighbourSide side, DryLength distance, DryId neighbour,
          DryPoint origin, DryPoint from, DryPoint to)
{
  measured->sides[side] = (DryMeasuredSide){
      .known = TRUE,
      .shown = TRUE,
      .distance = distance,
      .neighbour = neighbour,
      .from = {from.x + origin.x, from.y + origin.y},
      .to = {to.x + origin.x, to.y + origin.y},
  };
}

/* --- things on a wall --- */

static void
measure_on_face (DryMeasured *measured, DryRect r, const DryNeighbours *near, DryPoint o)
{
  DryLength mx = r.x0 + dry_rect_width (r) / 2, my = r.y0 + dry_rect_height (r) / 2;
  const DryLength *d = near->distance;

  put_line (measured, DRY_TOWARD_SIDE_LEFT, d[0], near->object[0], o, (DryPoint){r.x0 - d[0], my},
            (DryPoint){r.x0, my});
  put_line (measured, DRY_TOWARD_SIDE_RIGHT, d[1], near->object[1], o, (DryPoint){r.x1 + d[1], my},
            (DryPoint){r.x1, my});
  put_line (measured, DRY_TOWARD_SIDE_DOWN, d[2], near->object[2], o, (DryPoint){mx, r.y0 - d[2]},
            (DryPoint){mx, r.y0});
  put_line (measured, DRY_TOWARD_SIDE_UP, d[3], near->object[3], o, (DryPoint){mx, r.y1 + d[3]},
            (DryPoint){mx, r.y1});
}

/* A wall that has no face on the strip: along it, on the plan. */
static void
measure_on_plan (DryCanvas *self, DryMeasured *measured, const DryWall *wall, DrySide side,
                 DryRect r, const DryNeighbours *near)
{
  gint view = dry_canvas_find_view (self, TRUE, 0, DRY_SIDE_INSIDE);
  DryLength us[4] = {r.x0 - near->distance[0], r.x0, r.x1, r.x1 + near->distance[1]};
  DryPoint at[4], o = {0, 0};

  if (view >= 0)
    o = self->scene->views[view].origin;
  for (guint i = 0; i < 4; i++)
    at[i] = dry_wall_point (wall, side, us[i], 4 * DRY_INCH);
  put_line (measured, DRY_TOWARD_SIDE_LEFT, near->distance[0], near->object[0], o, at[0], at[1]);
  put_line (measured, DRY_TOWARD_SIDE_RIGHT, near->distance[1], near->object[1], o, at[3], at[2]);
  for (guint i = 2; i < 4; i++)
    measured->sides[i] = (DryMeasuredSide){
        .known = TRUE, .distance = near->distance[i], .neighbour = near->object[i]};
}

static gboolean
measure_hung (DryCanvas *self, DryMeasured *measured, const DryRoom *room)
{
  DrySnapRequest request = {.room = room, .plan = self->plan, .moving = measured->object};
  const DryOpening *opening = dry_room_get_opening (room, measured->object);
  const DryWall *wall;
  DryNeighbours near;
  gint view;

  if (!dry_snap_rect (room, measured->object, &request.wall, &request.side, &request.rect) ||
      (wall = dry_room_get_wall (room, request.wall)) == NULL)
    return FALSE;
  measured->kind = opening != NULL ? DRY_HAND_OPENING : DRY_HAND_PART;
  near = dry_snap_neighbours (&request);
  view = dry_canvas_find_view (self, FALSE, request.wall, request.side);
  if (view >= 0)
    measure_on_face (measured, request.rect, &near, self->scene->views[view].origin);
  else
    measure_on_plan (self, measured, wall, request.side, request.rect, &near);
  if (opening != NULL && opening->kind != DRY_OPENING_WINDOW)
    measured->sides[DRY_TOWARD_SIDE_DOWN].known = measured->sides[DRY_TOWARD_SIDE_UP].known = FALSE;
  return TRUE;
}

/* --- studs, basin, walls --- */

/* From center to center, as studs are laid out. */
static gboolean
measure_stud (DryCanvas *self, DryMeasured *measured, const DryWall *wall, DryLength height)
{
  g_autoptr (GArray) studs = dry_studs_list (wall);
  gint view = dry_canvas_find_view (self, FALSE, wall->id, DRY_SIDE_INSIDE);
  guint i = (guint) measured->stud;
  DryLength u, before, after, z = height / 2;

  if (i >= studs->len)
    return FALSE;
  measured->kind = DRY_HAND_STUD;
  u = g_array_index (studs, DryLength, i);
  before = i > 0 ? g_array_index (studs, DryLength, i - 1) : 0;
  after = i + 1 < studs->len ? g_array_index (studs, DryLength, i + 1) : dry_wall_length (wall);
  if (view >= 0) {
    DryPoint o = self->scene->views[view].origin;

    put_line (measured, DRY_TOWARD_SIDE_LEFT, u - before, 0, o, (DryPoint){before, z},
              (DryPoint){u, z});
    put_line (measured, DRY_TOWARD_SIDE_RIGHT, after - u, 0, o, (DryPoint){after, z},
              (DryPoint){u, z});
  } else if ((view = dry_canvas_find_view (self, TRUE, 0, DRY_SIDE_INSIDE)) >= 0) {
    DryPoint o = self->scene->views[view].origin;
    DryPoint at = dry_wall_point (wall, DRY_SIDE_INSIDE, u, 4 * DRY_INCH);

    put_line (measured, DRY_TOWARD_SIDE_LEFT, u - before, 0, o,
              dry_wall_point (wall, DRY_SIDE_INSIDE, before, 4 * DRY_INCH), at);
    put_line (measured, DRY_TOWARD_SIDE_RIGHT, after - u, 0, o,
              dry_wall_point (wall, DRY_SIDE_INSIDE, after, 4 * DRY_INCH), at);
  }
  return TRUE;
}

/* Along its wall to both ends, and how far it is pulled off it. */
static gboolean
measure_basin (DryCanvas *self, DryMeasured *measured, const DryRoom *room)
{
  const DryBasin *basin = &room->basin;
  const DryWall *wall = dry_room_get_wall (room, basin->wall);
  gint view = dry_canvas_find_view (self, TRUE, 0, DRY_SIDE_INSIDE);
  DryLength extent = basin->turned ? basin->width : basin->length;
  DryLength depth = basin->turned ? basin->length : basin->width;
  DryLength out = basin->away + depth / 2, middle = basin->along + extent / 2;
  DryLength end = basin->along + extent;
  DryPoint o;

  if (wall == NULL || view < 0)
    return FALSE;
  measured->kind = DRY_HAND_BASIN;
  o = self->scene->views[view].origin;
  put_line (measured, DRY_TOWARD_SIDE_LEFT, basin->along, 0, o,
            dry_wall_point (wall, DRY_SIDE_INSIDE, 0, out),
            dry_wall_point (wall, DRY_SIDE_INSIDE, basin->along, out));
  put_line (measured, DRY_TOWARD_SIDE_RIGHT, dry_wall_length (wall) - end, 0, o,
            dry_wall_point (wall, DRY_SIDE_INSIDE, dry_wall_length (wall), out),
            dry_wall_point (wall, DRY_SIDE_INSIDE, end, out));
  put_line (measured, DRY_TOWARD_SIDE_UP, basin->away, 0, o,
            dry_wall_point (wall, DRY_SIDE_INSIDE, middle, 0),
            dry_wall_point (wall, DRY_SIDE_INSIDE, middle, basin->away));
  return TRUE;
}

static gboolean
measure_wall (DryCanvas *self, DryMeasured *measured, const DryWall *wall)
{
  gint view = dry_canvas_find_view (self, TRUE, 0, DRY_SIDE_INSIDE);

  if (view < 0)
    return FALSE;
  measured->kind = DRY_HAND_WALL;
  measured->drawn = FALSE;
  put_line (measured, DRY_TOWARD_SIDE_RIGHT, dry_wall_length (wall), 0,
            self->scene->views[view].origin, dry_wall_point (wall, DRY_SIDE_INSIDE, 0, 0),
            dry_wall_point (wall, DRY_SIDE_INSIDE, dry_wall_length (wall), 0));
  return TRUE;
}

gboolean
dry_canvas_measure_object (DryCanvas *self, DryMeasured *measured)
{
  const DryRoom *room = dry_session_get_room (self->session);
  gboolean held = self->hand.kind != DRY_HAND_EMPTY && self->hand.kind != DRY_HAND_PAN;
  const DryWall *wall;

  *measured = (DryMeasured){
      .object = held ? self->hand.object : dry_session_get_selection (self->session),
      .stud = held ? self->hand.stud : dry_session_get_selected_stud (self->session),
      .drawn = TRUE,
  };
  if (room == NULL || self->scene == NULL || measured->object == 0)
    return FALSE;
  wall = dry_room_get_wall (room, measured->object);
  if (wall != NULL && measured->stud >= 0)
    return measure_stud (self, measured, wall, dry_wall_height (room, wall));
  if (wall != NULL)
    return measure_wall (self, measured, wall);
  if (room->basin.id == measured->object)
    return measure_basin (self, measured, room);
  return measure_hung (self, measured, room);
}

/* --- names --- */

static char *
name_neighbour (DryCanvas *self, const DryMeasured *measured, DryNeighbourSide side)
{
  DryId neighbour = measured->sides[side].neighbour;

  if (neighbour != 0)
    return dry_object_name (self->session, neighbour);
  if (measured->kind == DRY_HAND_STUD)
    return g_strdup (_ ("the next center"));
  if (side == DRY_TOWARD_SIDE_DOWN)
    return g_strdup (_ ("the floor"));
  if (side == DRY_TOWARD_SIDE_UP)
    return g_strdup (_ ("the ceiling"));
  return g_strdup (_ ("the wall’s end"));
}

char *
dry_canvas_name_side (DryCanvas *self, const DryMeasured *measured, DryNeighbourSide side)
{
  g_autofree char *to = name_neighbour (self, measured, side);

  if (measured->kind == DRY_HAND_WALL)
    return g_strdup (_ ("Length of the wall"));
  if (measured->kind == DRY_HAND_BASIN && side == DRY_TOWARD_SIDE_UP)
    return g_strdup (_ ("Back, to the wall"));
  switch (side) {
  case DRY_TOWARD_SIDE_LEFT:
    /* Translators: a distance to the neighbor on this side, as in "Left, to the wall's end" */
    return g_strdup_printf (_ ("Left, to %s"), to);
  case DRY_TOWARD_SIDE_RIGHT:
    return g_strdup_printf (_ ("Right, to %s"), to);
  case DRY_TOWARD_SIDE_DOWN:
    return g_strdup_printf (_ ("Down, to %s"), to);
  default:
    return g_strdup_printf (_ ("Up, to %s"), to);
  }
}

/* --- setting one --- */

static DryProject *
move_hung (const DryProject *project, const DryRoom *room, const DryMeasured *measured,
           DryLength du, DryLength dz, GError **error)
{
  const DryPart *part = dry_room_get_part (room, measured->object);
  const DryOpening *opening = dry_room_get_opening (room, measured->object);
  DryOpening moved;

  if (part != NULL)
    return dry_edit_move_part (project, room->id, part->id, part->wall, part->side, part->u + du,
                               part->z + dz, error);
  moved = *opening;
  moved.u += du;
  moved.z += dz;
  return dry_edit_set_opening (project, room->id, &moved, NULL, error);
}

static DryProject *
move_measured (DryCanvas *self, const DryMeasured *measured, DryLength du, DryLength dz,
               GError **error)
{
  const DryProject *project = dry_session_get_project (self->session);
  const DryRoom *room = dry_session_get_room (self->session);
  const DryWall *wall = dry_room_get_wall (room, measured->object);
  const DryBasin *basin = &room->basin;

  if (measured->kind == DRY_HAND_STUD) {
    g_autoptr (GArray) studs = dry_studs_list (wall);

    return dry_studs_move (project, room->id, wall->id, (guint) measured->stud,
                           g_array_index (studs, DryLength, measured->stud) + du, error);
  }
  if (measured->kind == DRY_HAND_WALL)
    return dry_edit_set_wall_length (project, room->id, wall->id, dry_wall_length (wall) + du,
                                     error);
  if (measured->kind == DRY_HAND_BASIN)
    return dry_edit_move_basin (project, room->id, basin->wall, basin->along + du, basin->away + dz,
                                basin->turned, error);
  return move_hung (project, room, measured, du, dz, error);
}

/* Edits keep things within their walls: what came out must be what was asked for. */
static gboolean
moved_as_wished (DryCanvas *self, const DryProject *next, const DryMeasured *measured, DryLength du,
                 DryLength dz)
{
  const DryRoom *before = dry_session_get_room (self->session);
  const DryRoom *after = dry_project_get_room (next, before->id);
  DryRect old, new;
  DrySide side;
  DryId wall;

  if (measured->kind == DRY_HAND_STUD) {
    g_autoptr (GArray) were = dry_studs_list (dry_room_get_wall (before, measured->object));
    g_autoptr (GArray) are = dry_studs_list (dry_room_get_wall (after, measured->object));
    guint i = (guint) measured->stud;

    return i < are->len &&
           g_array_index (are, DryLength, i) == g_array_index (were, DryLength, i) + du;
  }
  if (measured->kind != DRY_HAND_PART && measured->kind != DRY_HAND_OPENING)
    return TRUE;
  return dry_snap_rect (before, measured->object, &wall, &side, &old) &&
         dry_snap_rect (after, measured->object, &wall, &side, &new) &&
         new.x0 == old.x0 + du &&new.y0 == old.y0 + dz;
}

DryProject *
dry_canvas_set_distance (DryCanvas *self, const DryMeasured *measured, DryNeighbourSide side,
                         DryLength length, GError **error)
{
  DryLength more = length - measured->sides[side].distance;
  gboolean sideways = side == DRY_TOWARD_SIDE_LEFT || side == DRY_TOWARD_SIDE_RIGHT;
  gboolean away = side == DRY_TOWARD_SIDE_LEFT || side == DRY_TOWARD_SIDE_DOWN ||
                  measured->kind == DRY_HAND_BASIN || measured->kind == DRY_HAND_WALL;
  DryLength du, dz;
  DryProject *next;

  if (sideways && measured->kind == DRY_HAND_BASIN)
    away = side == DRY_TOWARD_SIDE_LEFT;
  du = sideways ? (away ? more : -more) : 0;
  dz = sideways ? 0 : (away ? more : -more);
  next = move_measured (self, measured, du, dz, error);
  if (next != NULL && !moved_as_wished (self, next, measured, du, dz)) {
    dry_project_unref (next);
    g_set_error_literal (error, DRY_ERROR, DRY_ERROR_GEOMETRY,
                         _ ("There is no room for that distance"));
    return NULL;
  }
  return next;
}
