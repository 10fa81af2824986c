/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Sizing what is in hand by a grip: edges on its face, how far it stands out on the plan.
 * Which grip is held and what is done with the result is canvas-hand's business. */
#include "ui/canvas-private.h"

static DryRect
pull_edges (DryCanvas *self, DryRect rect, DryPoint at, gboolean freely)
{
  guint grip = self->hand.grip;
  DryRect line = {at.x, at.y, at.x, at.y};
  DrySnapRequest request = dry_hand_snap_request (self, line, freely);
  DrySnap snap = dry_snap_on_wall (&request);
  DryLength least = DRY_INCH;

  if ((grip & (DRY_GRIP_LEFT | DRY_GRIP_RIGHT)) == 0)
    snap.u_reason = NULL;
  if ((grip & (DRY_GRIP_TOP | DRY_GRIP_BOTTOM)) == 0)
    snap.z_reason = NULL;
  at = (DryPoint){at.x + snap.du, at.y + snap.dz};
  self->hand.snap = snap;
  if (grip & DRY_GRIP_LEFT)
    rect.x0 = MIN (at.x, rect.x1 - least);
  if (grip & DRY_GRIP_RIGHT)
    rect.x1 = MAX (at.x, rect.x0 + least);
  if (grip & DRY_GRIP_BOTTOM)
    rect.y0 = MIN (at.y, rect.y1 - least);
  if (grip & DRY_GRIP_TOP)
    rect.y1 = MAX (at.y, rect.y0 + least);
  return rect;
}

static void
size_to (DryCanvas *self, DryPoint at, gboolean freely)
{
  const DryRoom *room = dry_hand_room (self);
  const DryPart *part = dry_room_get_part (room, self->hand.object);
  const DryOpening *opening = dry_room_get_opening (room, self->hand.object);
  GError *error = NULL;
  DryRect rect;

  if (!dry_snap_rect (room, self->hand.object, &self->hand.wall, &self->hand.side, &rect))
    return;
  rect = pull_edges (self, rect, at, freely);
  self->hand.on_wall = TRUE;
  if (opening != NULL) {
    DryOpening sized = *opening;

    sized.u = rect.x0;
    sized.z = rect.y0;
    sized.width = dry_rect_width (rect);
    sized.height = dry_rect_height (rect);
    dry_hand_show (self, dry_edit_set_opening (self->hand.base, room->id, &sized, NULL, &error),
                   error);
  } else if (part != NULL) {
    DryPart sized = *part;
    DryRect before = dry_part_rect (part);

    if (self->hand.grip & (DRY_GRIP_LEFT | DRY_GRIP_RIGHT)) {
      sized.u = part->u + (rect.x0 + rect.x1 - before.x0 - before.x1) / 2;
      sized.width = part->width + dry_rect_width (rect) - dry_rect_width (before);
    }
    if (self->hand.grip & (DRY_GRIP_TOP | DRY_GRIP_BOTTOM)) {
      sized.z = part->z + rect.y0 - before.y0;
      sized.height = part->height + dry_rect_height (rect) - dry_rect_height (before);
    }
    dry_hand_show (self, dry_edit_set_part (self->hand.base, room->id, &sized, NULL, &error),
                   error);
  }
}

/* On the plan a bench grows out of its wall and glass into the room. */
static void
size_out (DryCanvas *self, double x, double y, gboolean freely)
{
  const DryRoom *room = dry_hand_room (self);
  const DryPart *part = dry_room_get_part (room, self->hand.object);
  const DryWall *wall = part != NULL ? dry_room_get_wall (room, part->wall) : NULL;
  gint view = dry_canvas_find_view (self, TRUE, 0, DRY_SIDE_INSIDE);
  DryPoint at = dry_canvas_to_scene (self, x, y), from;
  DryLength out, grid = dry_snap_grid (dry_project_get_job (self->hand.base)->metric,
                                       dry_canvas_pixels (self, 4));
  double ux, uy, nx, ny;
  GError *error = NULL;
  DryPart sized;

  if (wall == NULL || view < 0)
    return;
  from = dry_wall_point (wall, part->side, 0, 0);
  dry_wall_axes (wall, part->side, &ux, &uy, &nx, &ny);
  at = (DryPoint){at.x - self->scene->views[view].origin.x - from.x,
                  at.y - self->scene->views[view].origin.y - from.y};
  out = (DryLength) ((double) at.x * nx + (double) at.y * ny);
  if (!freely)
    out = (out + grid / 2) / grid * grid;
  out = MAX (out, DRY_INCH);
  sized = *part;
  if (part->kind == DRY_PART_GLASS)
    sized.width = out;
  else
    sized.depth = out;
  self->hand.out = out;
  dry_hand_show (self, dry_edit_set_part (self->hand.base, room->id, &sized, NULL, &error), error);
}

/* Corners on a face the wall in hand is not on are meaningless: sizing stays on its own face. */
void
dry_hand_size (DryCanvas *self, double x, double y, gboolean freely)
{
  DryShape shapes[8];
  guint n = dry_canvas_shapes (self, dry_hand_room (self), self->hand.object, shapes, 8);
  DryPoint at = dry_canvas_to_scene (self, x, y);

  if (self->hand.grip == DRY_GRIP_OUT) {
    size_out (self, x, y, freely);
    return;
  }
  for (guint i = 0; i < n; i++) {
    if (shapes[i].plan)
      continue;
    DryPoint origin = self->scene->views[shapes[i].view].origin;

    size_to (self, (DryPoint){at.x - origin.x, at.y - origin.y}, freely);
    return;
  }
}

/* Where the thing is drawn that `grip` belongs to: on its face, or for DRY_GRIP_OUT on the plan. */
static gboolean
find_sized_shape (DryCanvas *self, DryShape *shape)
{
  DryShape shapes[8];
  guint n =
      dry_canvas_shapes (self, dry_session_get_room (self->session), self->hand.object, shapes, 8);

  for (guint i = 0; i < n; i++)
    if (shapes[i].plan == (self->hand.grip == DRY_GRIP_OUT)) {
      *shape = shapes[i];
      return TRUE;
    }
  return FALSE;
}

char *
dry_hand_size_text (DryCanvas *self, DryPoint *at)
{
  const DryRoom *room = dry_session_get_room (self->session);
  const DryPart *part = room != NULL ? dry_room_get_part (room, self->hand.object) : NULL;
  gboolean across = (self->hand.grip & (DRY_GRIP_LEFT | DRY_GRIP_RIGHT)) != 0;
  gboolean up = (self->hand.grip & (DRY_GRIP_TOP | DRY_GRIP_BOTTOM)) != 0;
  DrySide side;
  DryShape shape;
  DryRect rect;
  DryId wall;

  if (self->hand.kind != DRY_HAND_SIZE || !self->hand.changed || room == NULL ||
      !dry_snap_rect (room, self->hand.object, &wall, &side, &rect) ||
      !find_sized_shape (self, &shape))
    return NULL;
  DryPoint from = shape.points[0], to = shape.points[2];

  if (self->hand.grip == DRY_GRIP_OUT) /* at its free edge */
    from = shape.points[3];
  *at = (DryPoint){from.x + (to.x - from.x) / 2, from.y + (to.y - from.y) / 2};
  if (self->hand.grip == DRY_GRIP_OUT)
    return part == NULL
               ? NULL
               : dry_session_format_length (
                     self->session, part->kind == DRY_PART_GLASS ? part->width : part->depth);
  if (across && up) {
    g_autofree char *width = dry_session_format_length (self->session, dry_rect_width (rect));
    g_autofree char *height = dry_session_format_length (self->session, dry_rect_height (rect));

    return g_strdup_printf ("%s × %s", width, height);
  }
  return dry_session_format_length (self->session,
                                    across ? dry_rect_width (rect) : dry_rect_height (rect));
}
