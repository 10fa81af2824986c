/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Room values: copies, look-ups, and where walls, faces and the basin lie on the plan.
 * Knows no catalogue; whether a room makes sense is room-check.c's. */
#define G_LOG_DOMAIN "drybay-project"

#include "project/room.h"

#include <math.h>
#include <string.h>

#include "project/fields.h"

static gpointer
copy_list (gconstpointer list, guint n, gsize size, const DryFieldSet *set)
{
  guint8 *copy = n > 0 ? g_memdup2 (list, size * n) : NULL;

  for (guint i = 0; i < n; i++)
    dry_fields_own (set, copy + size * i);
  return copy;
}

static void
free_list (gpointer list, guint n, gsize size, const DryFieldSet *set)
{
  for (guint i = 0; i < n; i++)
    dry_fields_clear (set, (guint8 *) list + size * i);
  g_free (list);
}

DryRoom *
dry_room_copy (const DryRoom *self)
{
  DryRoom *copy;

  if (self == NULL)
    return NULL;
  copy = g_memdup2 (self, sizeof *self);
  dry_fields_own (&dry_room_fields, copy);
  copy->walls = copy_list (self->walls, self->n_walls, sizeof (DryWall), &dry_wall_fields);
  copy->openings =
      copy_list (self->openings, self->n_openings, sizeof (DryOpening), &dry_opening_fields);
  copy->parts = copy_list (self->parts, self->n_parts, sizeof (DryPart), &dry_part_fields);
  copy->seams = copy_list (self->seams, self->n_seams, sizeof (DrySeamWish), &dry_seam_fields);
  copy->on_hand =
      copy_list (self->on_hand, self->n_on_hand, sizeof (DryOnHand), &dry_on_hand_fields);
  /* A room without a basin has one way to be written, whatever was left in the value. */
  if (copy->basin.id == 0)
    memset (&copy->basin, 0, sizeof copy->basin);
  dry_fields_own (&dry_basin_fields, &copy->basin);
  dry_fields_own (&dry_finish_fields, &copy->finish);
  copy->unknown = g_strdup (self->unknown);
  return copy;
}

void
dry_room_free (DryRoom *self)
{
  if (self == NULL)
    return;
  dry_fields_clear (&dry_room_fields, self);
  free_list (self->walls, self->n_walls, sizeof (DryWall), &dry_wall_fields);
  free_list (self->openings, self->n_openings, sizeof (DryOpening), &dry_opening_fields);
  free_list (self->parts, self->n_parts, sizeof (DryPart), &dry_part_fields);
  free_list (self->seams, self->n_seams, sizeof (DrySeamWish), &dry_seam_fields);
  free_list (self->on_hand, self->n_on_hand, sizeof (DryOnHand), &dry_on_hand_fields);
  dry_fields_clear (&dry_basin_fields, &self->basin);
  dry_fields_clear (&dry_finish_fields, &self->finish);
  g_free (self->unknown);
  g_free (self);
}

guint
dry_room_find_wall (const DryRoom *self, DryId id)
{
  for (guint i = 0; i < self->n_walls; i++)
    if (id != 0 && self->walls[i].id == id)
      return i;
  return self->n_walls;
}

const DryWall *
dry_room_get_wall (const DryRoom *self, DryId id)
{
  guint index = dry_room_find_wall (self, id);

  return index < self->n_walls ? &self->walls[index] : NULL;
}

const DryOpening *
dry_room_get_opening (const DryRoom *self, DryId id)
{
  for (guint i = 0; i < self->n_openings; i++)
    if (id != 0 && self->openings[i].id == id)
      return &self->openings[i];
  return NULL;
}

const DryPart *
dry_room_get_part (const DryRoom *self, DryId id)
{
  for (guint i = 0; i < self->n_parts; i++)
    if (id != 0 && self->parts[i].id == id)
      return &self->parts[i];
  return NULL;
}

char *
dry_room_dup_part_name (const DryRoom *self, const DryPart *part)
{
  guint n = 0, number = 0;

  if (part->label && *part->label)
    return g_strdup (part->label);
  for (guint i = 0; i < self->n_parts; i++) {
    n += self->parts[i].kind == part->kind;
    if (self->parts[i].id == part->id)
      number = n;
  }
  if (n < 2)
    return g_strdup (dry_part_kind_name (part->kind));
  return g_strdup_printf ("%s %u", dry_part_kind_name (part->kind), number);
}

const DrySeamWish *
dry_room_get_seam (const DryRoom *self, DryId id)
{
  for (guint i = 0; i < self->n_seams; i++)
    if (id != 0 && self->seams[i].id == id)
      return &self->seams[i];
  return NULL;
}

DryLength
dry_wall_length (const DryWall *self)
{
  return dry_point_distance (self->start, self->end);
}

DryLength
dry_wall_depth (const DryWall *self)
{
  return self->added && self->thickness > 0 ? self->thickness : self->stud_depth;
}

DryLength
dry_wall_height (const DryRoom *room, const DryWall *self)
{
  return self->height > 0 ? self->height : room->ceiling;
}

void
dry_wall_axes (const DryWall *self, DrySide side, double *ux, double *uy, double *nx, double *ny)
{
  double dx = (double) (self->end.x - self->start.x);
  double dy = (double) (self->end.y - self->start.y);
  double length = sqrt (dx * dx + dy * dy);
  double sign = side == DRY_SIDE_INSIDE ? 1 : -1;

  if (length > 0) {
    dx /= length;
    dy /= length;
  }
  /* The outline runs clockwise, so inside is to the right of the way from start to end. Adding 0
   * keeps a minus from standing before a zero. */
  *ux = dx;
  *uy = dy;
  *nx = sign * dy + 0.0;
  *ny = -sign * dx + 0.0;
}

DryPoint
dry_wall_point (const DryWall *self, DrySide side, DryLength u, DryLength out)
{
  double ux, uy, nx, ny;
  DryPoint origin = self->start;

  dry_wall_axes (self, side, &ux, &uy, &nx, &ny);
  if (side == DRY_SIDE_OUTSIDE) {
    origin = self->end;
    ux = -ux;
    uy = -uy;
    /* Start and end are the studs' inside faces; the other face is a stud's depth behind. */
    out += self->thickness > 0 ? self->thickness : self->stud_depth;
  }
  return (DryPoint){origin.x + (DryLength) llround (ux * (double) u + nx * (double) out),
                    origin.y + (DryLength) llround (uy * (double) u + ny * (double) out)};
}

DryLength
dry_wall_along (const DryWall *self, DrySide side, DryPoint point)
{
  DryPoint left = side == DRY_SIDE_OUTSIDE ? self->end : self->start;
  double ux, uy, nx, ny, along;

  dry_wall_axes (self, side, &ux, &uy, &nx, &ny);
  along = (double) (point.x - left.x) * ux + (double) (point.y - left.y) * uy;
  return (DryLength) llround (side == DRY_SIDE_OUTSIDE ? -along : along);
}

gboolean
dry_basin_is_curbless (const DryBasin *self)
{
  return self->id != 0 && self->kind == DRY_BASIN_PAN && self->height <= DRY_INCH / 2;
}

gboolean
dry_room_basin_corners (const DryRoom *self, DryPoint corners[4])
{
  const DryBasin *basin = &self->basin;
  const DryWall *wall = basin->id != 0 ? dry_room_get_wall (self, basin->wall) : NULL;
  DryLength right, front;

  if (wall == NULL)
    return FALSE;
  right = basin->along + (basin->turned ? basin->width : basin->length);
  front = basin->away + (basin->turned ? basin->length : basin->width);
  corners[0] = dry_wall_point (wall, DRY_SIDE_INSIDE, basin->along, basin->away);
  corners[1] = dry_wall_point (wall, DRY_SIDE_INSIDE, basin->along, front);
  corners[2] = dry_wall_point (wall, DRY_SIDE_INSIDE, right, front);
  corners[3] = dry_wall_point (wall, DRY_SIDE_INSIDE, right, basin->away);
  return TRUE;
}

/* A point of the plan along a wall and out into the room, from the wall's left end. */
static void
project_point (const DryWall *wall, DryPoint point, double *u, double *v)
{
  double ux, uy, nx, ny;
  double x = (double) (point.x - wall->start.x), y = (double) (point.y - wall->start.y);

  dry_wall_axes (wall, DRY_SIDE_INSIDE, &ux, &uy, &nx, &ny);
  *u = x * ux + y * uy;
  *v = x * nx + y * ny;
}

/* The basin counts when it stands against the back or a side of the alcove. */
static double
find_depth (const DryRoom *self, guint index, double shorter)
{
  const guint around[] = {index, (index + 1) % self->n_outline,
                          (index + self->n_outline - 1) % self->n_outline};
  DryPoint corners[4];
  gboolean inside = FALSE;
  double depth = 0, u, v;

  if (!dry_room_basin_corners (self, corners))
    return shorter;
  for (guint i = 0; i < 3; i++)
    inside |= self->walls[around[i]].id == self->basin.wall;
  for (guint i = 0; inside && i < 4; i++) {
    project_point (&self->walls[index], corners[i], &u, &v);
    depth = MAX (depth, v);
  }
  return depth > 0 ? MIN (depth, shorter) : shorter;
}

gboolean
dry_room_get_widths (const DryRoom *self, DryId wall, DryWidths *out)
{
  guint index = dry_room_find_wall (self, wall);
  const DryWall *back, *left, *right;
  double left_u, left_v, right_u, right_v, depth, length;

  if (index >= self->n_outline)
    return FALSE;
  back = &self->walls[index];
  left = &self->walls[(index + self->n_outline - 1) % self->n_outline];
  right = &self->walls[(index + 1) % self->n_outline];
  project_point (back, left->start, &left_u, &left_v);
  project_point (back, right->end, &right_u, &right_v);
  if (left_v < (double) DRY_MM || right_v < (double) DRY_MM)
    return FALSE;
  length = (double) dry_wall_length (back);
  depth = find_depth (self, index, MIN (left_v, right_v));
  out->depth = (DryLength) llround (depth);
  out->back = dry_wall_length (back);
  out->front =
      (DryLength) llround (length + (right_u - length) * depth / right_v - left_u * depth / left_v);
  out->middle = out->back + (out->front - out->back) / 2 + back->width_bow;
  return out->front > 0;
}
