/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The tub or pan seen from above: rim and well with its sloped back, or falls to the drain.
 * Insets that no catalogue gives are drawn by eye and measure nothing. */
#include <math.h>

#include "draw/drawing-private.h"
#include "plan/basin-outline.h"

/* Points given along the basin's length (x) and across it from its back (y), put on the plan. */
static void
put_on_plan (const DryWall *wall, const DryBasin *basin, DryPoint *points, guint n)
{
  for (guint i = 0; i < n; i++) {
    DryLength s = points[i].x, t = points[i].y;
    points[i] = basin->turned
                    ? dry_wall_point (wall, DRY_SIDE_INSIDE, basin->along + t, basin->away + s)
                    : dry_wall_point (wall, DRY_SIDE_INSIDE, basin->along + s, basin->away + t);
  }
}

static void
draw_round (DrySceneBuilder *b, const DryWall *wall, const DryBasin *basin, DryLook look,
            DryRect rect, DryLength radius)
{
  DryPoint p[4 * DRY_CURVE_POINTS];
  guint n = dry_points_round_rect (p, rect, radius);

  if (dry_rect_is_empty (rect))
    return;
  put_on_plan (wall, basin, p, n);
  dry_scene_builder_path (b, look, p, n, TRUE);
}

static void
draw_line (DrySceneBuilder *b, const DryWall *wall, const DryBasin *basin, DryLook look,
           DryPoint from, DryPoint to)
{
  DryPoint p[2] = {from, to};

  put_on_plan (wall, basin, p, 2);
  dry_scene_builder_line (b, look, p[0], p[1]);
}

static void
draw_drain (DrySceneBuilder *b, const DryWall *wall, const DryBasin *basin, DryPoint at)
{
  DryLook ring = DRY_LOOK_LINE (DRY_INK_BASIN, DRY_PEN_025);
  DryLook grate = DRY_LOOK_LINE (DRY_INK_BASIN, DRY_PEN_018);
  DryLength r = basin->drain_diameter > 0 ? basin->drain_diameter : 3 * DRY_INCH / 2;
  DryPoint centre = at;

  put_on_plan (wall, basin, &centre, 1);
  dry_scene_builder_circle (b, ring, centre, r);
  dry_scene_builder_circle (b, grate, centre, r / 2);
}

gboolean
dry_drawing_tub_slopes (const DryBasin *basin, DryEnd end)
{
  return basin->drain != end;
}

DryPoint
dry_drawing_pan_drain (const DryBasin *basin)
{
  return dry_floor_drain (basin, MIN (basin->length, basin->width) / 4);
}

/* Along the edge its end names, or across the middle, plan/floor.c; how wide and how far from the
 * edge by eye. */
DryRect
dry_drawing_pan_channel (const DryBasin *basin)
{
  DryLength l = basin->length, w = basin->width, edge = MIN (l, w) / 8, wide = MIN (l, w) / 15;

  switch (basin->drain) {
  case DRY_END_LEFT:
    return (DryRect){edge, edge, edge + wide, w - edge};
  case DRY_END_RIGHT:
    return (DryRect){l - edge - wide, edge, l - edge, w - edge};
  case DRY_END_BACK:
    return (DryRect){edge, edge, l - edge, edge + wide};
  default:
    return (DryRect){edge, (w - wide) / 2, l - edge, (w + wide) / 2};
  }
}

static void
draw_tub (DrySceneBuilder *b, const DryWall *wall, const DryBasin *basin)
{
  DryLook rim = {.stroke = DRY_INK_BASIN, .pen = DRY_PEN_035, .fill = DRY_INK_BASIN, .alpha = 0.07};
  DryLook well = {
      .stroke = DRY_INK_BASIN, .pen = DRY_PEN_025, .fill = DRY_INK_BASIN, .alpha = 0.09};
  DryLook bottom = {
      .stroke = DRY_INK_BASIN, .pen = DRY_PEN_018, .fill = DRY_INK_BASIN, .alpha = 0.05};
  DryLength l = basin->length, w = basin->width, unit = MIN (l / 24, w / 12);
  DryRect in = {3 * unit / 2, unit, l - 3 * unit / 2, w - 5 * unit / 4};
  DryLength left = dry_drawing_tub_slopes (basin, DRY_END_LEFT) ? 4 * unit : unit,
            right = dry_drawing_tub_slopes (basin, DRY_END_RIGHT) ? 4 * unit : unit;
  DryRect floor = {in.x0 + left, in.y0 + unit, in.x1 - right, in.y1 - unit};

  draw_round (b, wall, basin, rim, (DryRect){0, 0, l, w}, unit / 2);
  draw_round (b, wall, basin, well, in, 9 * unit / 4);
  draw_round (b, wall, basin, bottom, floor, 2 * unit);
  draw_drain (b, wall, basin, dry_floor_drain (basin, in.x0 + unit + 5 * unit / 3));
}

/* The floor falls to a channel as one plane from each side that is not the channel's own. */
static void
draw_channel (DrySceneBuilder *b, const DryWall *wall, const DryBasin *basin, DryRect floor,
              DryLook fall)
{
  DryRect channel = dry_drawing_pan_channel (basin);
  DryPoint c = dry_rect_centre (channel);
  DryEnd end = basin->drain;

  draw_round (b, wall, basin, DRY_LOOK_LINE (DRY_INK_BASIN, DRY_PEN_025), channel, 0);
  if (end == DRY_END_LEFT)
    draw_line (b, wall, basin, fall, (DryPoint){floor.x1, c.y}, (DryPoint){channel.x1, c.y});
  else if (end == DRY_END_RIGHT)
    draw_line (b, wall, basin, fall, (DryPoint){floor.x0, c.y}, (DryPoint){channel.x0, c.y});
  else
    draw_line (b, wall, basin, fall, (DryPoint){c.x, floor.y1}, (DryPoint){c.x, channel.y1});
  if (end == DRY_END_CENTRE)
    draw_line (b, wall, basin, fall, (DryPoint){c.x, floor.y0}, (DryPoint){c.x, channel.y0});
}

static void
draw_pan (DrySceneBuilder *b, const DryWall *wall, const DryBasin *basin)
{
  DryLook rim = {.stroke = DRY_INK_BASIN, .pen = DRY_PEN_035, .fill = DRY_INK_BASIN, .alpha = 0.07};
  DryLook thin = DRY_LOOK_LINE (DRY_INK_BASIN, DRY_PEN_025);
  DryLook fall = {.stroke = DRY_INK_BASIN, .pen = DRY_PEN_013, .dash = DRY_DASH_CHAIN};
  DryLength l = basin->length, w = basin->width, edge = MIN (MIN (l, w) / 24, 40 * DRY_MM);
  DryLength curb = MIN (w / 8, 9 * DRY_INCH / 2);
  DryRect floor = {edge, edge, l - edge, w - curb};
  DryPoint drain = dry_drawing_pan_drain (basin);
  DryPoint corners[4] = {
      {floor.x0, floor.y0}, {floor.x1, floor.y0}, {floor.x1, floor.y1}, {floor.x0, floor.y1}};

  draw_round (b, wall, basin, rim, (DryRect){0, 0, l, w}, 0);
  draw_round (b, wall, basin, thin, floor, edge / 2);
  draw_line (b, wall, basin, thin, (DryPoint){0, w - curb}, (DryPoint){l, w - curb});
  if (basin->linear_drain) {
    draw_channel (b, wall, basin, floor, fall);
    return;
  }
  for (guint i = 0; i < 4; i++)
    draw_line (b, wall, basin, fall, corners[i], drain);
  draw_drain (b, wall, basin, drain);
}

/* Where the edge from `a` to `b`, moved left by `by`, and the edge from `b` to `c` meet. */
static DryPoint
meet (DryPoint a, DryPoint b, DryPoint c, double by, double next)
{
  double ux = (double) (b.x - a.x), uy = (double) (b.y - a.y), ul = hypot (ux, uy);
  double vx = (double) (c.x - b.x), vy = (double) (c.y - b.y), vl = hypot (vx, vy);
  double cross, px, py, qx, qy, t;

  ux /= ul, uy /= ul, vx /= vl, vy /= vl;
  cross = ux * vy - uy * vx;
  px = (double) b.x - uy * by, py = (double) b.y + ux * by;
  qx = (double) b.x - vy * next, qy = (double) b.y + vx * next;
  if (fabs (cross) < 1e-9)
    return (DryPoint){(DryLength) llround (px), (DryLength) llround (py)};
  t = ((qx - px) * vy - (qy - py) * vx) / cross;
  return (DryPoint){(DryLength) llround (px + t * ux), (DryLength) llround (py + t * uy)};
}

/* The outline drawn in: by `walled` along walls, by `open` along the others. */
static void
draw_in (const DryBasinOutline *outline, DryLength walled, DryLength open, DryPoint points[5])
{
  guint n = outline->n;

  for (guint i = 0; i < n; i++) {
    guint before = (i + n - 1) % n;
    points[i] = meet (outline->points[before], outline->points[i], outline->points[(i + 1) % n],
                      (double) (outline->open[before] ? open : walled),
                      (double) (outline->open[i] ? open : walled));
  }
}

/* A neo-angle pan: curbs along the open edges and the cut, the floor inside them. */
static void
draw_cut_pan (DrySceneBuilder *b, const DryWall *wall, const DryBasin *basin,
              const DryBasinOutline *outline)
{
  DryLook rim = {.stroke = DRY_INK_BASIN, .pen = DRY_PEN_035, .fill = DRY_INK_BASIN, .alpha = 0.07};
  DryLook thin = DRY_LOOK_LINE (DRY_INK_BASIN, DRY_PEN_025);
  DryLook fall = {.stroke = DRY_INK_BASIN, .pen = DRY_PEN_013, .dash = DRY_DASH_CHAIN};
  DryLength least = MIN (basin->length, basin->width);
  DryPoint drain = dry_drawing_pan_drain (basin), at = drain, floor[5];

  draw_in (outline, MIN (least / 24, 40 * DRY_MM), MIN (least / 8, 9 * DRY_INCH / 2), floor);
  put_on_plan (wall, basin, &at, 1);
  dry_scene_builder_path (b, rim, outline->points, outline->n, TRUE);
  dry_scene_builder_path (b, thin, floor, outline->n, TRUE);
  for (guint i = 0; i < outline->n; i++)
    dry_scene_builder_line (b, fall, floor[i], at);
  draw_drain (b, wall, basin, drain);
}

void
dry_draw_plan_basin (DrySceneBuilder *b, const DryPlan *plan)
{
  const DryBasin *basin = &plan->context.room->basin;
  const DryWall *wall = dry_room_get_wall (plan->context.room, basin->wall);
  DryBasinOutline outline;

  if (basin->id == 0)
    return;
  dry_scene_builder_tag (b, DRY_LAYER_BASIN, DRY_SHOWS_BASIN, basin->id, -1);
  if (basin->kind == DRY_BASIN_TUB)
    draw_tub (b, wall, basin);
  else if (dry_basin_outline (plan->context.room, &outline) && outline.cut >= 0)
    draw_cut_pan (b, wall, basin, &outline);
  else
    draw_pan (b, wall, basin);
}
