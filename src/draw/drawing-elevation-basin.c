/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What stands before a face: the tub or pan at its true height, windows and doors in the wall.
 * Hidden shapes behind the apron are drawn by eye, dashed. */
#include "draw/drawing-private.h"
#include "plan/basin-outline.h"

/* How the basin stands before a face, seen by somebody who faces it. */
typedef enum {
  DRY_SEEN_FROM_END,  /* its length runs away from the face */
  DRY_SEEN_FORWARDS,  /* its left end at the left */
  DRY_SEEN_BACKWARDS, /* its right end at the left */
} DrySeen;

/* Its length runs along the wall it stands at, or turned, out from there. */
static DrySeen
see_basin (const DryPlan *plan, const DryFace *face)
{
  const DryRoom *room = plan->context.room;
  const DryWall *wall = dry_room_get_wall (room, face->wall);
  DryPoint corners[4], left, right;
  DryLength along;

  if (!dry_room_basin_corners (room, corners))
    return DRY_SEEN_FROM_END;
  left = corners[0];
  right = corners[room->basin.turned ? 1 : 3];
  along = dry_wall_along (wall, face->side, right) - dry_wall_along (wall, face->side, left);
  if ((double) ABS (along) <= (double) dry_point_distance (left, right) * G_SQRT2 / 2)
    return DRY_SEEN_FROM_END;
  return along > 0 ? DRY_SEEN_FORWARDS : DRY_SEEN_BACKWARDS;
}

static void
draw_tub (DrySceneBuilder *b, const DryBasin *basin, DryRect r, DrySeen seen)
{
  DryLook mask = {.fill = DRY_INK_PAPER, .alpha = 0.88};
  DryLook body = {
      .stroke = DRY_INK_BASIN, .pen = DRY_PEN_035, .fill = DRY_INK_BASIN, .alpha = 0.10};
  DryLook rim = {.stroke = DRY_INK_BASIN, .pen = DRY_PEN_025, .fill = DRY_INK_BASIN, .alpha = 0.10};
  DryLook hidden = {.stroke = DRY_INK_BASIN, .pen = DRY_PEN_018, .dash = DRY_DASH_DASHED};
  DryLength w = dry_rect_width (r), h = dry_rect_height (r), lip = MIN (3 * DRY_INCH / 2, h / 4);
  DryLength in = MIN (3 * DRY_INCH, w / 8), steep = in / 2, rest = MIN (w / 6, 9 * DRY_INCH);
  gboolean backwards = seen == DRY_SEEN_BACKWARDS, end_on = seen == DRY_SEEN_FROM_END;
  DryEnd ends[2] = {backwards ? DRY_END_RIGHT : DRY_END_LEFT,
                    backwards ? DRY_END_LEFT : DRY_END_RIGHT};
  DryLength left = !end_on && dry_drawing_tub_slopes (basin, ends[0]) ? rest : steep;
  DryLength right = !end_on && dry_drawing_tub_slopes (basin, ends[1]) ? rest : steep;
  DryPoint well[4] = {{r.x0 + in, r.y1},
                      {r.x0 + in + left, r.y0 + h / 8},
                      {r.x1 - in - right, r.y0 + h / 8},
                      {r.x1 - in, r.y1}};

  dry_scene_builder_rect (b, mask, r);
  dry_scene_builder_rect (b, body, r);
  dry_scene_builder_rect (b, rim, (DryRect){r.x0, r.y1 - lip, r.x1, r.y1});
  dry_scene_builder_path (b, hidden, well, 4, FALSE);
}

static void
draw_pan (DrySceneBuilder *b, DryRect r)
{
  DryLook mask = {.fill = DRY_INK_PAPER, .alpha = 0.88};
  DryLook body = {
      .stroke = DRY_INK_BASIN, .pen = DRY_PEN_035, .fill = DRY_INK_BASIN, .alpha = 0.10};

  dry_scene_builder_rect (b, mask, r);
  dry_scene_builder_rect (b, body, r);
}

/* Where the front of a neo-angle pan turns: its corners before this face. */
static void
draw_turns (DrySceneBuilder *b, const DryPlan *plan, const DryFace *face, DryRect r)
{
  const DryRoom *room = plan->context.room;
  const DryWall *wall = dry_room_get_wall (room, face->wall);
  DryLook edge = DRY_LOOK_LINE (DRY_INK_BASIN, DRY_PEN_025);
  DryBasinOutline outline;

  if (!dry_basin_outline (room, &outline) || outline.cut < 0)
    return;
  for (guint i = 0; i < 2; i++) {
    DryPoint corner = outline.points[((guint) outline.cut + i) % outline.n];
    DryLength u = dry_wall_along (wall, face->side, corner);

    if (u > r.x0 + DRY_INCH && u < r.x1 - DRY_INCH)
      dry_scene_builder_line (b, edge, (DryPoint){u, 0}, (DryPoint){u, room->basin.height});
  }
}

void
dry_draw_elevation_basin (DrySceneBuilder *b, const DryPlan *plan, const DryFace *face)
{
  const DryBasin *basin = &plan->context.room->basin;
  DryRect r = {face->basin_u0, 0, face->basin_u1, face->deck};
  DryLook lip = {.stroke = DRY_INK_BASIN, .pen = DRY_PEN_018, .dash = DRY_DASH_DASHED};

  if (!face->at_basin || face->kind != DRY_FACE_WALL || dry_rect_is_empty (r))
    return;
  dry_scene_builder_tag (b, DRY_LAYER_BASIN, DRY_SHOWS_BASIN, basin->id, -1);
  /* The flange stands behind the board, or the board above it: dashed either way. */
  if (face->flange_top > face->deck)
    dry_scene_builder_rect (b, lip, (DryRect){r.x0, face->deck, r.x1, face->flange_top});
  if (basin->kind == DRY_BASIN_TUB)
    draw_tub (b, basin, r, see_basin (plan, face));
  else {
    draw_pan (b, r);
    draw_turns (b, plan, face, r);
  }
}

static void
draw_window (DrySceneBuilder *b, DryRect r, const DryOpening *o)
{
  DryLook frame = {.stroke = DRY_INK_LINE, .pen = DRY_PEN_035, .fill = DRY_INK_PAPER, .alpha = 1};
  DryLook pane = {
      .stroke = DRY_INK_GLASS, .pen = DRY_PEN_018, .fill = DRY_INK_GLASS, .alpha = 0.14};
  DryLook glint = DRY_LOOK_LINE (DRY_INK_GLASS, DRY_PEN_013);
  DryRect in =
      dry_rect_inflate (r, -MIN (2 * DRY_INCH, MIN (dry_rect_width (r), dry_rect_height (r)) / 5));
  DryLength s = MIN (dry_rect_width (in), dry_rect_height (in)) / 3;
  DryPoint c = dry_rect_centre (in);

  dry_scene_builder_rect (b, frame, r);
  dry_scene_builder_rect (b, pane, in);
  for (int i = -1; i <= 1; i += 2)
    dry_scene_builder_line (b, glint, (DryPoint){c.x - s / 2 + i * s / 4, c.y - s / 2},
                            (DryPoint){c.x + s / 2 + i * s / 4, c.y + s / 2});
  dry_scene_builder_rect (
      b, (DryLook){.stroke = DRY_INK_LINE, .pen = DRY_PEN_025, .fill = DRY_INK_PAPER, .alpha = 1},
      (DryRect){r.x0 - DRY_INCH, r.y0 - 3 * DRY_INCH / 4, r.x1 + DRY_INCH, r.y0});
  if (o->safety_glass)
    dry_scene_builder_text (b, (DryPoint){c.x, in.y0 + 2 * DRY_INCH},
                            (DryLettering){.size = 1.8,
                                           .ink = DRY_INK_TEXT_FAINT,
                                           .anchor = DRY_ANCHOR_ABOVE,
                                           .room = dry_rect_width (in)},
                            "safety glass");
}

static void
draw_door (DrySceneBuilder *b, DryRect r, gboolean leaf)
{
  DryLook frame = {.stroke = DRY_INK_LINE, .pen = DRY_PEN_035, .fill = DRY_INK_PAPER, .alpha = 1};
  DryLook thin = {.stroke = DRY_INK_FAINT, .pen = DRY_PEN_018, .dash = DRY_DASH_DASHED};

  if (!leaf)
    frame.dash = DRY_DASH_DASHED;
  dry_scene_builder_rect (b, frame, r);
  if (!leaf)
    return;
  /* The point of the dashed angle is at the hinges. */
  dry_scene_builder_path (
      b, thin, (DryPoint[]){{r.x1, r.y1}, {r.x0, r.y0 + dry_rect_height (r) / 2}, {r.x1, r.y0}}, 3,
      FALSE);
}

void
dry_draw_elevation_openings (DrySceneBuilder *b, const DryPlan *plan, const DryFace *face)
{
  const DryRoom *room = plan->context.room;

  if (face->kind != DRY_FACE_WALL)
    return;
  for (guint i = 0; i < room->n_openings; i++) {
    const DryOpening *o = &room->openings[i];
    DryLength u = face->side == DRY_SIDE_INSIDE ? o->u : face->length - o->u - o->width;
    DryRect r = {u, o->z, u + o->width, o->z + o->height};

    if (o->wall != face->wall)
      continue;
    dry_scene_builder_tag (b, DRY_LAYER_ROOM, DRY_SHOWS_OPENING, o->id, -1);
    if (o->kind == DRY_OPENING_WINDOW)
      draw_window (b, r, o);
    else
      draw_door (b, r, o->kind == DRY_OPENING_DOOR);
  }
}
