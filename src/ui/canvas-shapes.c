/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Where things of the room are drawn on the board: quadrilaterals in the plan and on faces, taken
 * from the room itself so that they are never behind the pointer. Knows no widgets. */
#include "ui/canvas-private.h"

#include <math.h>

#define NEAR_VIEW 64.0 /* px beside a view still meant as in it while something is held */

static const DryFace *
face_of_view (DryCanvas *self, const DryView *view)
{
  if (self->plan == NULL || view->kind != DRY_VIEW_FACE || view->face < 0 ||
      (guint) view->face >= self->plan->faces->n)
    return NULL;
  const DryFace *face = &self->plan->faces->items[view->face];

  return face->kind == DRY_FACE_WALL ? face : NULL;
}

gint
dry_canvas_find_view (DryCanvas *self, gboolean plan, DryId wall, DrySide side)
{
  for (guint i = 0; self->scene != NULL && i < self->scene->n_views; i++) {
    const DryView *view = &self->scene->views[i];
    const DryFace *face = face_of_view (self, view);

    if (plan ? view->kind == DRY_VIEW_PLAN
             : face != NULL && face->wall == wall && face->side == side)
      return (gint) i;
  }
  return -1;
}

gboolean
dry_canvas_locate (DryCanvas *self, double x, double y, DryPlace *place)
{
  DryPoint at = dry_canvas_to_scene (self, x, y);
  DryLength reach = dry_canvas_pixels (self, NEAR_VIEW);
  const DryView *view;
  const DryFace *face;
  gint index;

  if (self->scene == NULL)
    return FALSE;
  index = dry_scene_find_view (self->scene, at, reach);
  if (index < 0)
    return FALSE;
  view = &self->scene->views[index];
  face = face_of_view (self, view);
  if (view->kind != DRY_VIEW_PLAN && face == NULL)
    return FALSE;
  *place = (DryPlace){.view = index,
                      .plan = view->kind == DRY_VIEW_PLAN,
                      .wall = face != NULL ? face->wall : 0,
                      .side = face != NULL ? face->side : DRY_SIDE_INSIDE,
                      .local = {at.x - view->origin.x, at.y - view->origin.y}};
  return TRUE;
}

DryId
dry_canvas_pick (DryCanvas *self, double x, double y, DryHit *hit)
{
  guint layers = dry_session_get_layers (self->session);

  *hit = (DryHit){.view = -1};
  if (self->scene == NULL)
    return 0;
  /* A hidden layer cannot be hit, but walls, basin and parts are always there. */
  layers |= 1u << DRY_LAYER_ROOM | 1u << DRY_LAYER_BASIN | 1u << DRY_LAYER_PARTS;
  if (!dry_scene_pick (self->scene, dry_canvas_to_scene (self, x, y), dry_canvas_pixels (self, 4),
                       layers, hit))
    return 0;
  switch (hit->shows) {
  case DRY_SHOWS_WALL:
  case DRY_SHOWS_BASIN:
  case DRY_SHOWS_PART:
  case DRY_SHOWS_OPENING:
    return hit->object;
  default:
    break;
  }
  /* Boards, studs and screws belong to the wall they are on. */
  if (hit->view >= 0 && hit->shows != DRY_SHOWS_NOTHING && hit->shows != DRY_SHOWS_ROOM) {
    const DryFace *face = face_of_view (self, &self->scene->views[hit->view]);

    return face != NULL ? face->wall : 0;
  }
  return 0;
}

gboolean
dry_canvas_nearest_wall (const DryRoom *room, DryPoint at, gboolean outline_only, DryId *wall_id,
                         DrySide *side, DryLength *u, DryLength *out)
{
  double best = INFINITY;

  for (guint i = 0; i < (outline_only ? room->n_outline : room->n_walls); i++) {
    const DryWall *wall = &room->walls[i];
    double ux, uy, nx, ny, length = (double) dry_wall_length (wall);
    double dx = (double) (at.x - wall->start.x), dy = (double) (at.y - wall->start.y);

    dry_wall_axes (wall, DRY_SIDE_INSIDE, &ux, &uy, &nx, &ny);
    double along = dx * ux + dy * uy, away = dx * nx + dy * ny;
    double beyond = along < 0 ? -along : along > length ? along - length : 0;
    double distance = hypot (beyond, away);

    if (distance >= best)
      continue;
    best = distance;
    *wall_id = wall->id;
    *side = wall->added && away < 0 ? DRY_SIDE_OUTSIDE : DRY_SIDE_INSIDE;
    *u = (DryLength) (*side == DRY_SIDE_OUTSIDE ? length - along : along);
    *out = (DryLength) fabs (away);
  }
  return isfinite (best);
}

/* --- shapes --- */

typedef struct {
  DryCanvas *canvas;
  const DryRoom *room;
  DryShape *shapes;
  guint n, max;
} Shaper;

static DryShape *
begin_shape (Shaper *shaper, gboolean plan, DryId wall, DrySide side)
{
  gint view = dry_canvas_find_view (shaper->canvas, plan, wall, side);
  DryShape *shape;

  if (view < 0 || shaper->n == shaper->max)
    return NULL;
  shape = &shaper->shapes[shaper->n++];
  shape->view = view;
  shape->plan = plan;
  return shape;
}

static void
add_on_face (Shaper *shaper, DryId wall, DrySide side, DryRect rect)
{
  DryShape *shape = begin_shape (shaper, FALSE, wall, side);
  DryPoint origin;

  if (shape == NULL)
    return;
  origin = shaper->canvas->scene->views[shape->view].origin;
  rect = (DryRect){rect.x0 + origin.x, rect.y0 + origin.y, rect.x1 + origin.x, rect.y1 + origin.y};
  shape->points[0] = (DryPoint){rect.x0, rect.y0};
  shape->points[1] = (DryPoint){rect.x1, rect.y0};
  shape->points[2] = (DryPoint){rect.x1, rect.y1};
  shape->points[3] = (DryPoint){rect.x0, rect.y1};
}

/* A slice of the wall from u0 to u1, between two distances out from the stud face. */
static void
add_on_plan (Shaper *shaper, const DryWall *wall, DrySide side, DryLength u0, DryLength u1,
             DryLength out0, DryLength out1)
{
  DryShape *shape = begin_shape (shaper, TRUE, 0, side);
  DryPoint corners[4];

  if (shape == NULL)
    return;
  corners[0] = dry_wall_point (wall, side, u0, out0);
  corners[1] = dry_wall_point (wall, side, u1, out0);
  corners[2] = dry_wall_point (wall, side, u1, out1);
  corners[3] = dry_wall_point (wall, side, u0, out1);
  for (guint i = 0; i < 4; i++) {
    DryPoint origin = shaper->canvas->scene->views[shape->view].origin;

    shape->points[i] = (DryPoint){corners[i].x + origin.x, corners[i].y + origin.y};
  }
}

static DryLength
wall_thickness (const DryWall *wall)
{
  return wall->thickness > 0    ? wall->thickness
         : wall->stud_depth > 0 ? wall->stud_depth
                                : DRY_INCH * 7 / 2;
}

static void
shape_part (Shaper *shaper, const DryPart *part)
{
  const DryWall *wall = dry_room_get_wall (shaper->room, part->wall);
  DryRect rect = dry_part_rect (part);
  DryLength in = 0, out = 0;

  if (wall == NULL)
    return;
  switch (part->kind) {
  case DRY_PART_NICHE:
    in = part->depth > 0 ? part->depth : wall_thickness (wall);
    break;
  case DRY_PART_PIPE:
  case DRY_PART_VENT:
  case DRY_PART_CABLE:
    in = wall_thickness (wall);
    break;
  case DRY_PART_GLASS:
    out = part->width;
    break;
  default:
    out = part->depth > 0 ? part->depth : 2 * DRY_INCH;
    break;
  }
  add_on_plan (shaper, wall, part->side, rect.x0, rect.x1, -in, out);
  add_on_face (shaper, part->wall, part->side, rect);
}

/* Where a face of the newest plan meets the basin. Its place in plan comes last: it says more. */
static void
shape_basin_on_faces (Shaper *shaper)
{
  const DryPlan *plan = shaper->canvas->plan;

  for (guint i = 0; plan != NULL && i < plan->faces->n; i++) {
    const DryFace *face = &plan->faces->items[i];

    if (face->kind == DRY_FACE_WALL && face->at_basin &&
        dry_room_get_wall (shaper->room, face->wall) != NULL)
      add_on_face (shaper, face->wall, face->side,
                   (DryRect){face->basin_u0, 0, face->basin_u1, face->deck});
  }
}

static void
shape_basin (Shaper *shaper)
{
  const DryBasin *basin = &shaper->room->basin;
  const DryWall *wall = dry_room_get_wall (shaper->room, basin->wall);
  DryShape *shape;
  DryPoint corners[4], origin;

  shape_basin_on_faces (shaper);
  shape = begin_shape (shaper, TRUE, 0, DRY_SIDE_INSIDE);

  if (shape == NULL || wall == NULL || !dry_room_basin_corners (shaper->room, corners)) {
    shaper->n = shape != NULL ? shaper->n - 1 : shaper->n;
    return;
  }
  origin = shaper->canvas->scene->views[shape->view].origin;
  for (guint i = 0; i < 4; i++)
    shape->points[i] = (DryPoint){corners[i].x + origin.x, corners[i].y + origin.y};
}

static void
shape_wall (Shaper *shaper, const DryWall *wall)
{
  DryLength length = dry_wall_length (wall), height = dry_wall_height (shaper->room, wall);
  DryLength thickness = wall_thickness (wall);

  add_on_plan (shaper, wall, DRY_SIDE_INSIDE, 0, length, wall->added ? 0 : -thickness,
               wall->added ? -thickness : 0);
  if (wall->added)
    add_on_face (shaper, wall->id, DRY_SIDE_OUTSIDE, (DryRect){0, 0, length, height});
  add_on_face (shaper, wall->id, DRY_SIDE_INSIDE, (DryRect){0, 0, length, height});
}

guint
dry_canvas_shapes (DryCanvas *self, const DryRoom *room, DryId object, DryShape *shapes, guint max)
{
  Shaper shaper = {self, room, shapes, 0, max};
  const DryPart *part;
  const DryWall *wall;
  const DryOpening *opening;

  if (self->scene == NULL || room == NULL || object == 0)
    return 0;
  if ((part = dry_room_get_part (room, object)) != NULL) {
    shape_part (&shaper, part);
  } else if ((wall = dry_room_get_wall (room, object)) != NULL) {
    shape_wall (&shaper, wall);
  } else if ((opening = dry_room_get_opening (room, object)) != NULL) {
    wall = dry_room_get_wall (room, opening->wall);
    if (wall != NULL) {
      add_on_plan (&shaper, wall, DRY_SIDE_INSIDE, opening->u, opening->u + opening->width,
                   -wall_thickness (wall), 0);
      add_on_face (&shaper, wall->id, DRY_SIDE_INSIDE,
                   (DryRect){opening->u, opening->z, opening->u + opening->width,
                             opening->z + opening->height});
    }
  } else if (room->basin.id == object) {
    shape_basin (&shaper);
  }
  return shaper.n;
}
