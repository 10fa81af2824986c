/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The grips of the selected object: edges and corners to size it by, ends of walls to pull.
 * Says where they are and which one a pointer means; pulling is canvas-hand's business. */
#include "ui/canvas-private.h"

#include <math.h>

static void
add_grip (DryGripPlace *grips, guint *n, guint max, DryHandKind kind, guint grip, gint view,
          DryPoint at)
{
  if (*n < max)
    grips[(*n)++] = (DryGripPlace){kind, grip, view, at};
}

/* Which edges may be pulled: what is made in a factory keeps its size. */
static guint
free_edges (const DryRoom *room, DryId object)
{
  const DryPart *part = dry_room_get_part (room, object);
  const DryOpening *opening = dry_room_get_opening (room, object);

  if (opening != NULL)
    return DRY_GRIP_LEFT | DRY_GRIP_RIGHT | DRY_GRIP_TOP |
           (opening->kind == DRY_OPENING_WINDOW ? DRY_GRIP_BOTTOM : 0);
  if (part == NULL)
    return 0;
  switch (part->kind) {
  case DRY_PART_NICHE:
    return part->body_width > 0 ? 0
                                : DRY_GRIP_LEFT | DRY_GRIP_RIGHT | DRY_GRIP_TOP | DRY_GRIP_BOTTOM;
  case DRY_PART_BENCH:
  case DRY_PART_GRAB_BAR:
    return DRY_GRIP_LEFT | DRY_GRIP_RIGHT;
  case DRY_PART_GLASS:
    return DRY_GRIP_TOP;
  case DRY_PART_PIPE:
  case DRY_PART_VENT:
  case DRY_PART_CABLE:
    return DRY_GRIP_TOP | DRY_GRIP_BOTTOM;
  default:
    return 0;
  }
}

static void
add_edge_grips (const DryShape *shape, guint edges, DryGripPlace *grips, guint *n, guint max)
{
  DryPoint low = shape->points[0], high = shape->points[2];
  DryLength xs[3] = {low.x, low.x + (high.x - low.x) / 2, high.x};
  DryLength ys[3] = {low.y, low.y + (high.y - low.y) / 2, high.y};
  static const guint x_edges[3] = {DRY_GRIP_LEFT, 0, DRY_GRIP_RIGHT};
  static const guint y_edges[3] = {DRY_GRIP_BOTTOM, 0, DRY_GRIP_TOP};

  for (guint i = 0; i < 3; i++)
    for (guint k = 0; k < 3; k++) {
      guint grip = x_edges[i] | y_edges[k];

      if (grip != 0 && (grip & edges) == grip)
        add_grip (grips, n, max, DRY_HAND_SIZE, grip, shape->view, (DryPoint){xs[i], ys[k]});
    }
}

/* Glass and benches are made as wide as the room allows: pulled at their edge on the plan. */
static void
add_out_grip (const DryRoom *room, DryId object, const DryShape *shape, DryGripPlace *grips,
              guint *n, guint max)
{
  const DryPart *part = dry_room_get_part (room, object);
  DryPoint a = shape->points[2], b = shape->points[3];

  if (part != NULL && (part->kind == DRY_PART_GLASS || part->kind == DRY_PART_BENCH))
    add_grip (grips, n, max, DRY_HAND_SIZE, DRY_GRIP_OUT, shape->view,
              (DryPoint){a.x + (b.x - a.x) / 2, a.y + (b.y - a.y) / 2});
}

guint
dry_canvas_grips (DryCanvas *self, DryGripPlace *grips, guint max)
{
  const DryRoom *room = dry_session_get_room (self->session);
  DryId object = dry_session_get_selection (self->session);
  const DryWall *wall = room != NULL ? dry_room_get_wall (room, object) : NULL;
  DryShape shapes[8];
  guint n = 0, n_shapes = dry_canvas_shapes (self, room, object, shapes, 8);
  gint view = dry_canvas_find_view (self, TRUE, 0, DRY_SIDE_INSIDE);

  if (wall != NULL && view >= 0) {
    DryPoint origin = self->scene->views[view].origin;

    add_grip (grips, &n, max, DRY_HAND_CORNER, DRY_GRIP_LEFT, view,
              (DryPoint){wall->start.x + origin.x, wall->start.y + origin.y});
    add_grip (grips, &n, max, DRY_HAND_CORNER, DRY_GRIP_RIGHT, view,
              (DryPoint){wall->end.x + origin.x, wall->end.y + origin.y});
    return n;
  }
  for (guint i = 0; room != NULL && i < n_shapes; i++)
    if (shapes[i].plan)
      add_out_grip (room, object, &shapes[i], grips, &n, max);
    else
      add_edge_grips (&shapes[i], free_edges (room, object), grips, &n, max);
  return n;
}

/* Grips reach 22 px, but the inner half of a small thing stays free for moving it. */
gboolean
dry_canvas_pick_grip (DryCanvas *self, double x, double y, DryGripPlace *grip)
{
  DryGripPlace grips[16];
  guint n = dry_canvas_grips (self, grips, 16);
  DryShape shapes[8];
  guint n_shapes = dry_canvas_shapes (self, dry_session_get_room (self->session),
                                      dry_session_get_selection (self->session), shapes, 8);
  double best = HANDLE_REACH;
  gboolean found = FALSE;

  for (guint i = 0; i < n; i++) {
    double gx, gy, distance;
    gboolean inner = FALSE;

    dry_canvas_to_device (self, grips[i].at, &gx, &gy);
    distance = hypot (x - gx, y - gy);
    for (guint k = 0; k < n_shapes; k++) {
      double x0, y0, x1, y1;

      if (shapes[k].plan || shapes[k].view != grips[i].view)
        continue;
      dry_canvas_to_device (self, shapes[k].points[0], &x0, &y0);
      dry_canvas_to_device (self, shapes[k].points[2], &x1, &y1);
      inner = fabs (x - (x0 + x1) / 2) < fabs (x1 - x0) / 4 &&
              fabs (y - (y0 + y1) / 2) < fabs (y1 - y0) / 4;
    }
    if (inner || distance >= best)
      continue;
    best = distance;
    *grip = grips[i];
    found = TRUE;
  }
  return found;
}

const char *
dry_canvas_grip_cursor (const DryGripPlace *grip)
{
  gboolean side = (grip->grip & (DRY_GRIP_LEFT | DRY_GRIP_RIGHT)) != 0;
  gboolean rising = (grip->grip & (DRY_GRIP_TOP | DRY_GRIP_BOTTOM)) != 0;

  if (grip->kind == DRY_HAND_CORNER || grip->grip == DRY_GRIP_OUT)
    return "move";
  if (side && rising)
    return grip->grip == (DRY_GRIP_LEFT | DRY_GRIP_TOP) ||
                   grip->grip == (DRY_GRIP_RIGHT | DRY_GRIP_BOTTOM)
               ? "nwse-resize"
               : "nesw-resize";
  return side ? "ew-resize" : "ns-resize";
}
