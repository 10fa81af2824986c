/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The plan of a room: walls, basin, parts, names, elevation marks and dimensions.
 * Puts the pieces in painting order; each piece has a file of its own. */
#include <math.h>

#include "draw/drawing-private.h"

static void
draw_floor (DrySceneBuilder *b, const DryRoom *room)
{
  g_autofree DryPoint *points = g_new (DryPoint, room->n_outline + 1);

  for (guint i = 0; i < room->n_outline; i++)
    points[i] = room->walls[i].start;
  dry_scene_builder_tag (b, DRY_LAYER_ROOM, DRY_SHOWS_ROOM, room->id, -1);
  dry_scene_builder_path (b, (DryLook){.fill = DRY_INK_PAPER, .alpha = 1}, points, room->n_outline,
                          TRUE);
}

/* Outside sides of the room, or the side for a wall at an angle: FALSE. */
static gboolean
find_side (const DryWall *wall, DryToward *side)
{
  double ux, uy, nx, ny;

  dry_wall_axes (wall, DRY_SIDE_INSIDE, &ux, &uy, &nx, &ny);
  if (fabs (ny) > 0.9999)
    *side = ny < 0 ? DRY_TOWARD_UP : DRY_TOWARD_DOWN;
  else if (fabs (nx) > 0.9999)
    *side = nx < 0 ? DRY_TOWARD_RIGHT : DRY_TOWARD_LEFT;
  else
    return FALSE;
  return TRUE;
}

static DryRect
measure_outside (const DryRoom *room)
{
  DryPoint first = dry_drawing_outer_corner (room, 0);
  DryRect r = {first.x, first.y, first.x, first.y};

  for (guint i = 1; i < room->n_outline; i++) {
    DryPoint p = dry_drawing_outer_corner (room, i);
    r = (DryRect){MIN (r.x0, p.x), MIN (r.y0, p.y), MAX (r.x1, p.x), MAX (r.y1, p.y)};
  }
  return r;
}

/* A slanted wall's length stands along it, outside. */
static void
draw_slanted_length (DrySceneBuilder *b, const DryWall *wall)
{
  double ux, uy, nx, ny, angle;
  DryLength length = dry_wall_length (wall);

  dry_wall_axes (wall, DRY_SIDE_INSIDE, &ux, &uy, &nx, &ny);
  angle = atan2 (uy, ux) * 180 / G_PI;
  if (angle > 90 || angle <= -90)
    angle += 180;
  dry_scene_builder_tag (b, DRY_LAYER_DIMENSIONS, DRY_SHOWS_NOTHING, 0, -1);
  dry_scene_builder_text (
      b, dry_wall_point (wall, DRY_SIDE_INSIDE, length / 2, -dry_wall_depth (wall) - 3 * DRY_INCH),
      (DryLettering){.size = 2.2, .angle = angle}, "%s", dry_scene_builder_length (b, length));
}

static guint
add_opening_stops (const DryRoom *room, const DryWall *wall, GArray *stops)
{
  guint n = 0;

  for (guint i = 0; i < room->n_openings; i++)
    if (room->openings[i].wall == wall->id) {
      DryLength u[2] = {room->openings[i].u, room->openings[i].u + room->openings[i].width};
      g_array_append_vals (stops, u, 2);
      n += 2;
    }
  if (room->basin.id && room->basin.wall == wall->id) {
    const DryBasin *basin = &room->basin;
    DryLength u[2] = {basin->along, basin->along + (basin->turned ? basin->width : basin->length)};
    for (guint i = 0; i < 2; i++)
      if (u[i] > DRY_INCH && u[i] < dry_wall_length (wall) - DRY_INCH) {
        g_array_append_val (stops, u[i]);
        n++;
      }
  }
  return n;
}

/* A size is written once: not again on the wall across that starts and ends level with this one. */
static gboolean
is_told_already (const DryRoom *room, const DryWall *wall)
{
  DryPoint a = dry_wall_point (wall, DRY_SIDE_INSIDE, 0, 0);
  DryPoint b = dry_wall_point (wall, DRY_SIDE_INSIDE, dry_wall_length (wall), 0);

  for (guint i = 0; i < room->n_outline && room->walls[i].id != wall->id; i++) {
    const DryWall *other = &room->walls[i];
    DryPoint c = dry_wall_point (other, DRY_SIDE_INSIDE, dry_wall_length (other), 0);
    DryPoint d = dry_wall_point (other, DRY_SIDE_INSIDE, 0, 0);
    if ((a.x == c.x && b.x == d.x && a.x != b.x) || (a.y == c.y && b.y == d.y && a.y != b.y))
      return TRUE;
  }
  return FALSE;
}

static void
draw_wall_dimensions (DrySceneBuilder *b, const DryRoom *room, const DryWall *wall, DryRect outside)
{
  g_autoptr (GArray) stops = g_array_new (FALSE, FALSE, sizeof (DryLength));
  DryLength ends[2] = {0, dry_wall_length (wall)}, base;
  DryToward side;
  guint row = 0;
  gboolean flat;

  if (!find_side (wall, &side)) {
    draw_slanted_length (b, wall);
    return;
  }
  flat = side == DRY_TOWARD_UP || side == DRY_TOWARD_DOWN;
  base = side == DRY_TOWARD_UP     ? outside.y1
         : side == DRY_TOWARD_DOWN ? outside.y0
         : side == DRY_TOWARD_LEFT ? outside.x0
                                   : outside.x1;
  if (add_opening_stops (room, wall, stops) > 0) {
    g_array_append_vals (stops, ends, 2);
    for (guint i = 0; i < stops->len; i++) {
      DryLength *u = &g_array_index (stops, DryLength, i);
      DryPoint p = dry_wall_point (wall, DRY_SIDE_INSIDE, *u, 0);
      *u = flat ? p.x : p.y;
    }
    row = dry_scene_builder_chain (b, (DryLength *) stops->data, stops->len, base, side, 0) + 1;
  }
  if (is_told_already (room, wall))
    return;
  for (guint i = 0; i < 2; i++) {
    DryPoint p = dry_wall_point (wall, DRY_SIDE_INSIDE, ends[i], 0);
    ends[i] = flat ? p.x : p.y;
  }
  dry_scene_builder_chain (b, ends, 2, base, side, row);
}

/* How far the basin stands out into the room, on the side of a neighbouring wall. */
static void
draw_basin_depth (DrySceneBuilder *b, const DryRoom *room, DryRect outside)
{
  DryPoint c[4];
  DryToward side;
  const DryWall *wall = dry_room_get_wall (room, room->basin.wall);
  DryLength stops[2];

  if (!dry_room_basin_corners (room, c) || !find_side (wall, &side))
    return;
  if (side == DRY_TOWARD_UP || side == DRY_TOWARD_DOWN) {
    stops[0] = c[0].y;
    stops[1] = c[1].y;
    dry_scene_builder_chain (b, stops, 2, outside.x0, DRY_TOWARD_LEFT, 0);
  } else {
    stops[0] = c[0].x;
    stops[1] = c[1].x;
    dry_scene_builder_chain (b, stops, 2, outside.y0, DRY_TOWARD_DOWN, 0);
  }
}

void
dry_draw_plan_dimensions (DrySceneBuilder *b, const DryPlan *plan)
{
  const DryRoom *room = plan->context.room;
  DryRect outside = measure_outside (room);

  dry_scene_builder_tag (b, DRY_LAYER_DIMENSIONS, DRY_SHOWS_NOTHING, 0, -1);
  draw_basin_depth (b, room, outside);
  for (guint i = 0; i < room->n_outline; i++)
    draw_wall_dimensions (b, room, &room->walls[i], outside);
  dry_scene_builder_tag (b, DRY_LAYER_DIMENSIONS, DRY_SHOWS_NOTHING, 0, -1);
  for (guint i = room->n_outline; i < room->n_walls; i++) {
    const DryWall *wall = &room->walls[i];
    DryLength length = dry_wall_length (wall);
    DryLettering how = {.size = 2, .ink = DRY_INK_TEXT_FAINT, .room = length};
    double ux, uy, nx, ny;

    dry_wall_axes (wall, DRY_SIDE_OUTSIDE, &ux, &uy, &nx, &ny);
    /* Beside the wall, whatever the letters' width at this zoom. */
    how.anchor = fabs (nx) < 0.7 ? (ny > 0 ? DRY_ANCHOR_ABOVE : DRY_ANCHOR_BELOW)
                 : nx > 0        ? DRY_ANCHOR_LEFT
                                 : DRY_ANCHOR_RIGHT;
    dry_scene_builder_text (b, dry_wall_point (wall, DRY_SIDE_OUTSIDE, length / 2, DRY_INCH), how,
                            "%s", dry_scene_builder_length (b, length));
  }
}

/* Which elevation shows which wall: its letter in a ring, in front of the wall. */
static void
draw_elevation_marks (DrySceneBuilder *b, const DryPlan *plan)
{
  for (guint i = 0; i < plan->faces->n; i++) {
    const DryFace *face = &plan->faces->items[i];
    const DryWall *wall = dry_room_get_wall (plan->context.room, face->wall);
    DryLength u0 = face->at_basin ? face->basin_u0 : face->wet_u0;
    DryLength u1 = face->at_basin ? face->basin_u1 : face->wet_u1;

    if (!wall || face->kind != DRY_FACE_WALL)
      continue;
    dry_scene_builder_tag (b, DRY_LAYER_LABELS, DRY_SHOWS_WALL, wall->id, -1);
    dry_scene_builder_text (
        b,
        dry_wall_point (wall, face->side, u0 + (u1 - u0) / 5,
                        plan->context.build_up.total + 9 * DRY_INCH / 2),
        (DryLettering){.size = 2.2, .bold = TRUE, .framed = TRUE, .ground = TRUE}, "%s",
        face->mark);
  }
}

static void
draw_names (DrySceneBuilder *b, const DryRoom *room)
{
  g_autofree DryPoint *points = g_new (DryPoint, room->n_outline + 1);
  DryRing ring = {points, room->n_outline};
  DryRect bounds;
  DryPoint c[4], at;

  for (guint i = 0; i < room->n_outline; i++)
    points[i] = room->walls[i].start;
  bounds = dry_ring_bounds (&ring);
  at = dry_rect_centre (bounds);
  dry_scene_builder_tag (b, DRY_LAYER_LABELS, DRY_SHOWS_ROOM, room->id, -1);
  /* Below the basin where there is more floor, so that the name does not lie on it. */
  if (dry_room_basin_corners (room, c)) {
    DryLength low = MIN (MIN (c[0].y, c[1].y), MIN (c[2].y, c[3].y));
    DryLength high = MAX (MAX (c[0].y, c[1].y), MAX (c[2].y, c[3].y));
    at.y = low - bounds.y0 >= bounds.y1 - high ? low - (low - bounds.y0) / 4
                                               : high + (bounds.y1 - high) / 4;
  }
  dry_scene_builder_text (b, at,
                          (DryLettering){.size = 3, .bold = TRUE, .room = dry_rect_width (bounds)},
                          "%s", room->name);
}

void
dry_draw_plan (DrySceneBuilder *b, const DryPlan *plan, gboolean turning)
{
  const DryRoom *room = plan->context.room;

  dry_scene_builder_begin_view (b, DRY_VIEW_PLAN, -1, (DryPoint){0, 0}, "Plan");
  draw_floor (b, room);
  dry_draw_plan_basin (b, plan);
  dry_draw_plan_walls (b, plan);
  dry_draw_plan_openings (b, plan);
  dry_draw_plan_parts (b, plan);
  draw_names (b, room);
  draw_elevation_marks (b, plan);
  dry_draw_plan_dimensions (b, plan);
  if (turning)
    dry_draw_turning (b, plan);
  dry_draw_findings (b, plan, NULL);
  dry_scene_builder_end_view (b);
}

DryScene *
dry_drawing_plan (const DryPlan *plan)
{
  DrySceneBuilder b;

  dry_scene_builder_init (&b, plan->context.job);
  dry_draw_plan (&b, plan, FALSE);
  return dry_scene_builder_finish (&b);
}
