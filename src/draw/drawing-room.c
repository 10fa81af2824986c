/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The wet area as somebody standing in the room sees it, tiled and finished: for the client. What
 * is far is drawn before what is near; nothing of the workshop is in it. */
#include "draw/drawing-room.h"

#include <math.h>

#define EYE_HEIGHT (57.0 * DRY_INCH) /* of a grown person; by eye */
#define STAND_BACK (58.0 * DRY_INCH) /* from the front of the tub or pan */
#define ASPECT     1.32              /* of the picture */

/* --- surfaces --- */

DrySurface
dry_surface_of (const DryWall *wall, DrySide side)
{
  DrySurface self;
  DryPoint o = dry_wall_point (wall, side, 0, 0);

  dry_wall_axes (wall, side, &self.ux, &self.uy, &self.nx, &self.ny);
  if (side == DRY_SIDE_OUTSIDE) {
    self.ux = -self.ux;
    self.uy = -self.uy;
  }
  self.o = (DrySpot){(double) o.x, (double) o.y, 0};
  return self;
}

DrySpot
dry_surface_spot (const DrySurface *self, double u, double z, double out)
{
  return (DrySpot){self->o.x + u * self->ux + out * self->nx,
                   self->o.y + u * self->uy + out * self->ny, z};
}

gboolean
dry_picture_sees (const DryRoomPicture *self, const DrySurface *surface)
{
  return dry_eye_sees (&self->eye, surface->o, surface->nx, surface->ny);
}

void
dry_picture_shape (DryRoomPicture *self, DryLook look, const DrySpot *spots, guint n)
{
  dry_eye_draw_through (&self->eye, self->b, look, spots, n, self->frame, 4);
}

void
dry_picture_rect (DryRoomPicture *self, DryLook look, const DrySurface *s, DryRect r, double out)
{
  DrySpot corners[4] = {dry_surface_spot (s, (double) r.x0, (double) r.y0, out),
                        dry_surface_spot (s, (double) r.x1, (double) r.y0, out),
                        dry_surface_spot (s, (double) r.x1, (double) r.y1, out),
                        dry_surface_spot (s, (double) r.x0, (double) r.y1, out)};

  dry_picture_shape (self, look, corners, 4);
}

/* --- where one stands --- */

/* Toward the wet walls: what they have in common of the ways they face. An alcove's ends cancel
 * each other, so one looks at its back; a corner is seen from across. */
static void
find_view (const DryPlan *plan, double *dx, double *dy)
{
  const DryRoom *room = plan->context.room;
  const DryWall *back = dry_room_get_wall (room, room->basin.wall);
  double x = 0, y = 0, length, nx, ny, ux, uy;

  for (guint i = 0; i < plan->faces->n; i++) {
    const DryFace *face = &plan->faces->items[i];
    const DryWall *wall = dry_room_get_wall (room, face->wall);
    double wide = (double) (face->wet_u1 - face->wet_u0);
    if (face->kind != DRY_FACE_WALL || !wall || wall->added)
      continue;
    dry_wall_axes (wall, face->side, &ux, &uy, &nx, &ny);
    x -= nx * wide;
    y -= ny * wide;
  }
  length = hypot (x, y);
  if (length < (double) DRY_INCH) {
    dry_wall_axes (back, DRY_SIDE_INSIDE, &ux, &uy, &nx, &ny);
    x = -nx;
    y = -ny;
    length = 1;
  }
  *dx = x / length;
  *dy = y / length;
}

static void
choose_eye (DryRoomPicture *self, const DryPoint corners[4])
{
  DryEye *eye = &self->eye;
  double cx = 0, cy = 0, front = 0, back = 0;

  find_view (self->plan, &eye->dx, &eye->dy);
  for (guint i = 0; i < 4; i++) {
    cx += (double) corners[i].x / 4;
    cy += (double) corners[i].y / 4;
  }
  for (guint i = 0; i < 4; i++) {
    double depth = ((double) corners[i].x - cx) * eye->dx + ((double) corners[i].y - cy) * eye->dy;
    front = MIN (front, depth);
    back = MAX (back, depth);
  }
  /* A step to the left, so that the picture does not look like a drawing of itself. */
  eye->x = cx + (front - STAND_BACK) * eye->dx - eye->dy * 5 * DRY_INCH;
  eye->y = cy + (front - STAND_BACK) * eye->dy + eye->dx * 5 * DRY_INCH;
  eye->z = EYE_HEIGHT;
  eye->cut = 10.0 * DRY_INCH;
}

static void
reach (DryPoint p, DryRect *r)
{
  r->x0 = MIN (r->x0, p.x);
  r->y0 = MIN (r->y0, p.y);
  r->x1 = MAX (r->x1, p.x);
  r->y1 = MAX (r->y1, p.y);
}

/* Round the basin and the wet walls above it, and as wide as the picture's shape asks. */
static void
choose_frame (DryRoomPicture *self, const DryPoint corners[4], double aspect)
{
  DryRect r = {G_MAXINT64, G_MAXINT64, G_MININT64, G_MININT64};
  DryLength wide, high, margin, middle, level;

  for (guint i = 0; i < 4; i++) {
    DrySpot foot = {(double) corners[i].x, (double) corners[i].y, 0};
    DryPoint p[3];
    if (dry_eye_project (&self->eye, (DrySpot[]){foot, foot, foot}, 3, p))
      reach (p[0], &r);
  }
  for (guint i = 0; i < self->plan->faces->n; i++) {
    const DryFace *face = &self->plan->faces->items[i];
    const DryWall *wall = dry_room_get_wall (self->room, face->wall);
    DrySurface s;
    if (face->kind != DRY_FACE_WALL || !wall)
      continue;
    s = dry_surface_of (wall, face->side);
    for (guint k = 0; k < 2; k++) {
      double u = (double) (k ? face->wet_u1 : face->wet_u0);
      DrySpot top = dry_surface_spot (&s, u, (double) face->wet_top, 0);
      DryPoint p[3];
      /* The near end of a long wall may be beside the eye. */
      if (dry_eye_depth (&self->eye, top) > STAND_BACK &&
          dry_eye_project (&self->eye, (DrySpot[]){top, top, top}, 3, p))
        reach (p[0], &r);
    }
  }
  margin = dry_rect_height (r) / 24;
  r.y0 -= margin;
  r.y1 += margin;
  high = dry_rect_height (r);
  wide = MAX ((DryLength) (aspect * (double) high), dry_rect_width (r) + 2 * margin);
  high = (DryLength) ((double) wide / aspect);
  middle = (r.x0 + r.x1) / 2;
  level = (r.y0 + r.y1) / 2;
  r = (DryRect){middle - wide / 2, level - high / 2, middle + wide / 2, level + high / 2};
  self->frame[0] = (DryPoint){r.x0, r.y0};
  self->frame[1] = (DryPoint){r.x1, r.y0};
  self->frame[2] = (DryPoint){r.x1, r.y1};
  self->frame[3] = (DryPoint){r.x0, r.y1};
}

/* --- the room --- */

static void
draw_level (DryRoomPicture *self, DryLook look, double z)
{
  DrySpot spots[64];
  guint n = MIN (self->room->n_outline, G_N_ELEMENTS (spots));

  for (guint i = 0; i < n; i++) {
    DryPoint p = self->room->walls[i].start;
    spots[i] = (DrySpot){(double) p.x, (double) p.y, z};
  }
  dry_picture_shape (self, look, spots, n);
}

/* Soft shadow where the walls stand on the floor and meet the ceiling. */
static void
draw_edges (DryRoomPicture *self, const DryWall *wall)
{
  DrySurface s = dry_surface_of (wall, DRY_SIDE_INSIDE);
  DryLength length = dry_wall_length (wall), height = dry_wall_height (self->room, wall);

  if (!dry_picture_sees (self, &s))
    return;
  for (guint i = 1; i <= 12; i++) {
    DryLength by = (DryLength) (i * i) * DRY_INCH / 11;
    DryLook look = DRY_SHADOW (0.0085);
    dry_picture_rect (self, look, &s, (DryRect){0, 0, by, height}, 0);
    dry_picture_rect (self, look, &s, (DryRect){length - by, 0, length, height}, 0);
    dry_picture_rect (self, look, &s, (DryRect){0, height - by, length, height}, 0);
    dry_picture_shape (self, look,
                       (DrySpot[]){dry_surface_spot (&s, 0, 0, 0),
                                   dry_surface_spot (&s, (double) length, 0, 0),
                                   dry_surface_spot (&s, (double) length, 0, (double) by),
                                   dry_surface_spot (&s, 0, 0, (double) by)},
                       4);
  }
}

static double
distance (const DryRoomPicture *self, const DryWall *wall)
{
  return dry_eye_depth (&self->eye, (DrySpot){(double) (wall->start.x + wall->end.x) / 2,
                                              (double) (wall->start.y + wall->end.y) / 2, 0});
}

/* A wall put into the room: both sides, its ends and its cap. */
static void
draw_added (DryRoomPicture *self, const DryWall *wall)
{
  DrySurface in = dry_surface_of (wall, DRY_SIDE_INSIDE);
  double length = (double) dry_wall_length (wall);
  double height = (double) dry_wall_height (self->room, wall);
  double thick = (double) dry_wall_depth (wall);

  for (guint k = 0; k < 2; k++) {
    double u = k ? length : 0, sign = k ? 1 : -1;
    if (dry_eye_sees (&self->eye, dry_surface_spot (&in, u, 0, 0), sign * in.ux, sign * in.uy)) {
      DrySpot end[4] = {dry_surface_spot (&in, u, 0, 0), dry_surface_spot (&in, u, 0, -thick),
                        dry_surface_spot (&in, u, height, -thick),
                        dry_surface_spot (&in, u, height, 0)};
      dry_picture_shape (self, DRY_MATERIAL (DRY_INK_GLAZE), end, 4);
      dry_picture_shape (self, DRY_SHADOW (0.10), end, 4);
    }
  }
  dry_picture_wall (self, wall, DRY_SIDE_INSIDE);
  dry_picture_wall (self, wall, DRY_SIDE_OUTSIDE);
  if (height < self->eye.z) {
    DrySpot cap[4] = {
        dry_surface_spot (&in, 0, height, 0), dry_surface_spot (&in, length, height, 0),
        dry_surface_spot (&in, length, height, -thick), dry_surface_spot (&in, 0, height, -thick)};
    dry_picture_shape (
        self,
        (DryLook){.fill = DRY_INK_ENAMEL, .alpha = 1, .stroke = DRY_INK_GROUT, .pen = DRY_PEN_013},
        cap, 4);
  }
}

static void
draw_added_walls (DryRoomPicture *self, double basin, gboolean beyond)
{
  const DryRoom *room = self->room;

  for (guint i = room->n_outline; i < room->n_walls; i++)
    if ((distance (self, &room->walls[i]) >= basin) == beyond)
      draw_added (self, &room->walls[i]);
}

static void
draw_room (DryRoomPicture *self, gboolean figures, const DryPoint corners[4])
{
  const DryRoom *room = self->room;
  DrySpot centre = {(double) (corners[0].x + corners[2].x) / 2,
                    (double) (corners[0].y + corners[2].y) / 2, 0};
  double basin = dry_eye_depth (&self->eye, centre);

  dry_scene_builder_tag (self->b, DRY_LAYER_ROOM, DRY_SHOWS_ROOM, 0, -1);
  dry_scene_builder_path (self->b, DRY_MATERIAL (DRY_INK_PAINT), self->frame, 4, TRUE);
  draw_level (self, DRY_MATERIAL (DRY_INK_FLOOR), 0);
  if (room->ceiling > EYE_HEIGHT) {
    draw_level (self, DRY_MATERIAL (DRY_INK_ENAMEL), (double) room->ceiling);
    draw_level (self, DRY_SHADOW (0.05), (double) room->ceiling);
  }
  for (guint i = 0; i < room->n_outline; i++)
    dry_picture_wall (self, &room->walls[i], DRY_SIDE_INSIDE);
  dry_scene_builder_tag (self->b, DRY_LAYER_ROOM, DRY_SHOWS_NOTHING, 0, -1);
  for (guint i = 0; i < room->n_outline; i++)
    draw_edges (self, &room->walls[i]);
  draw_added_walls (self, basin, TRUE);
  dry_picture_benches (self);
  dry_picture_basin (self, figures);
  draw_added_walls (self, basin, FALSE);
  dry_picture_glass (self);
}

DryScene *
dry_drawing_room_shaped (const DryPlan *plan, gboolean figures, double aspect)
{
  DrySceneBuilder b;
  DryPoint corners[4];
  DryRoomPicture picture = {.b = &b, .plan = plan, .room = plan->context.room};

  dry_scene_builder_init (&b, plan->context.job);
  if (plan->faces->n > 0 && dry_room_basin_corners (picture.room, corners)) {
    choose_eye (&picture, corners);
    choose_frame (&picture, corners, CLAMP (aspect, 0.4, 4));
    dry_scene_builder_begin_view (&b, DRY_VIEW_FACE, 0, (DryPoint){0, 0}, picture.room->name);
    draw_room (&picture, figures, corners);
    dry_scene_builder_end_view (&b);
  }
  return dry_scene_builder_finish (&b);
}

DryScene *
dry_drawing_room (const DryPlan *plan, gboolean figures)
{
  return dry_drawing_room_shaped (plan, figures, ASPECT);
}
