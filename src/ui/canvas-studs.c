/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Studs on the board: while their wall is selected and their layer shown, each can be picked,
 * walked to and dragged. The edits are those of studs.h. */
#include "ui/canvas-private.h"

#include "ui/canvas-mark.h"
#include "ui/studs.h"

#define NEAR_STUD 6.0 /* px beside a stud still meant as it */

/* The wall whose studs can be handled now. */
const DryWall *
dry_canvas_stud_wall (DryCanvas *self)
{
  const DryRoom *room = dry_session_get_room (self->session);
  DryId selection = dry_session_get_selection (self->session);

  if (room == NULL || selection == 0 || self->scene == NULL ||
      (dry_session_get_layers (self->session) & 1u << DRY_LAYER_STUDS) == 0)
    return NULL;
  return dry_room_get_wall (room, selection);
}

guint
dry_canvas_stud_shapes (DryCanvas *self, const DryWall *wall, gint index, DryShape shapes[2])
{
  const DryRoom *room = dry_session_get_room (self->session);
  g_autoptr (GArray) studs = dry_studs_list (wall);
  gint plan = dry_canvas_find_view (self, TRUE, 0, DRY_SIDE_INSIDE);
  gint face = dry_canvas_find_view (self, FALSE, wall->id, DRY_SIDE_INSIDE);
  DryLength u, half = MAX (wall->stud_width, DRY_INCH) / 2;
  DryLength height = dry_wall_height (room, wall);
  guint n = 0;

  if (index < 0 || index >= (gint) studs->len)
    return 0;
  u = g_array_index (studs, DryLength, index);
  if (plan >= 0) {
    DryPoint o = self->scene->views[plan].origin;
    DryLength depth = wall->stud_depth > 0 ? wall->stud_depth : 7 * DRY_INCH / 2;
    DryPoint corners[4] = {dry_wall_point (wall, DRY_SIDE_INSIDE, u - half, -depth),
                           dry_wall_point (wall, DRY_SIDE_INSIDE, u + half, -depth),
                           dry_wall_point (wall, DRY_SIDE_INSIDE, u + half, 0),
                           dry_wall_point (wall, DRY_SIDE_INSIDE, u - half, 0)};

    shapes[n] = (DryShape){.view = plan, .plan = TRUE};
    for (guint i = 0; i < 4; i++)
      shapes[n].points[i] = (DryPoint){corners[i].x + o.x, corners[i].y + o.y};
    n++;
  }
  if (face >= 0) {
    DryPoint o = self->scene->views[face].origin;

    shapes[n] = (DryShape){.view = face,
                           .points = {{o.x + u - half, o.y},
                                      {o.x + u + half, o.y},
                                      {o.x + u + half, o.y + height},
                                      {o.x + u - half, o.y + height}}};
    n++;
  }
  return n;
}

/* u of the wall at a place of the widget, meant on the plan or on the wall's face wherever the
 * pointer strays. */
static DryLength
project_on_wall (DryCanvas *self, const DryWall *wall, double x, double y, gboolean plan)
{
  gint view = dry_canvas_find_view (self, plan, wall->id, DRY_SIDE_INSIDE);
  DryPoint at = dry_canvas_to_scene (self, x, y), o;

  if (view < 0)
    return 0;
  o = self->scene->views[view].origin;
  if (!plan)
    return at.x - o.x;
  return dry_wall_along (wall, DRY_SIDE_INSIDE, (DryPoint){at.x - o.x, at.y - o.y});
}

/* u on the selected wall under the pointer; FALSE when the pointer is elsewhere. */
static gboolean
locate_on_wall (DryCanvas *self, const DryWall *wall, double x, double y, DryLength *u)
{
  double ux, uy, nx, ny;
  DryLength out;
  DryPlace place;

  if (!dry_canvas_locate (self, x, y, &place))
    return FALSE;
  if (!place.plan) {
    *u = place.local.x;
    return place.wall == wall->id && place.side == DRY_SIDE_INSIDE && place.local.y >= 0;
  }
  dry_wall_axes (wall, DRY_SIDE_INSIDE, &ux, &uy, &nx, &ny);
  *u = dry_wall_along (wall, DRY_SIDE_INSIDE, place.local);
  out = (DryLength) ((double) (place.local.x - wall->start.x) * nx +
                     (double) (place.local.y - wall->start.y) * ny);
  return out <= DRY_INCH && out >= -MAX (wall->stud_depth, 4 * DRY_INCH);
}

gint
dry_canvas_pick_stud (DryCanvas *self, double x, double y)
{
  const DryWall *wall = dry_canvas_stud_wall (self);
  g_autoptr (GArray) studs = wall != NULL ? dry_studs_list (wall) : NULL;
  DryLength u, best;
  gint found = -1;

  if (wall == NULL || !locate_on_wall (self, wall, x, y, &u))
    return -1;
  best = MAX (MAX (wall->stud_width, DRY_INCH) / 2, dry_canvas_pixels (self, NEAR_STUD)) + 1;
  for (guint i = 0; i < studs->len; i++) {
    DryLength away = ABS (g_array_index (studs, DryLength, i) - u);

    if (away >= best)
      continue;
    best = away;
    found = (gint) i;
  }
  return found;
}

/* --- in hand --- */

DryProject *
dry_canvas_drag_stud (DryCanvas *self, double x, double y, gboolean freely, GError **error)
{
  const DryRoom *room = dry_hand_room (self);
  const DryWall *wall = dry_room_get_wall (room, self->hand.object);
  DryLength grid =
      dry_snap_grid (dry_project_get_job (self->hand.base)->metric, dry_canvas_pixels (self, 4));
  DryLength u;

  if (wall == NULL)
    return NULL;
  u = project_on_wall (self, wall, x, y, self->hand.on_plan) - self->hand.grab.x;
  if (!freely)
    u = (u + grid / 2) / grid * grid;
  return dry_studs_move (self->hand.base, room->id, wall->id, (guint) self->hand.stud, u, error);
}

DryLength
dry_canvas_stud_grab (DryCanvas *self, double x, double y)
{
  const DryWall *wall = dry_room_get_wall (dry_hand_room (self), self->hand.object);
  g_autoptr (GArray) studs = wall != NULL ? dry_studs_list (wall) : NULL;
  DryPlace place;

  if (wall == NULL || self->hand.stud >= (gint) studs->len)
    return 0;
  self->hand.on_plan = dry_canvas_locate (self, x, y, &place) && place.plan;
  return project_on_wall (self, wall, x, y, self->hand.on_plan) -
         g_array_index (studs, DryLength, self->hand.stud);
}

/* --- painted --- */

void
dry_canvas_paint_studs (DryCanvas *self, GtkSnapshot *snapshot, gboolean focused)
{
  const DryWall *wall = dry_canvas_stud_wall (self);
  gint chosen = dry_session_get_selected_stud (self->session);
  DryShape shapes[2];

  if (wall == NULL)
    return;
  if (self->hover_stud >= 0 && self->hover_stud != chosen && self->hand.kind == DRY_HAND_EMPTY) {
    guint n = dry_canvas_stud_shapes (self, wall, self->hover_stud, shapes);

    for (guint i = 0; i < n; i++)
      dry_mark_shape (self, snapshot, &shapes[i], dry_mark_accent (self, 0.55f), 1.5, 0.15f);
  }
  guint n = dry_canvas_stud_shapes (self, wall, chosen, shapes);

  for (guint i = 0; i < n; i++) {
    if (focused)
      dry_mark_shape (self, snapshot, &shapes[i], dry_mark_accent (self, 0.35f), 7, 0);
    dry_mark_shape (self, snapshot, &shapes[i], dry_mark_accent (self, 1), 2, 0.35f);
  }
}
