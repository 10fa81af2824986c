/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Taking a new part in hand: by a click on the shelf, by the keyboard, or by a drag from the shelf
 * onto the board. Decides where a thing would sensibly stand before anyone points. */
#include "ui/canvas-seam.h"

#include <glib/gi18n.h>

#include "ui/actions.h"
#include "ui/item-drag.h"

static const DryWall *
longest_wall (const DryRoom *room)
{
  const DryWall *longest = NULL;

  for (guint i = 0; i < room->n_outline; i++)
    if (longest == NULL || dry_wall_length (&room->walls[i]) > dry_wall_length (longest))
      longest = &room->walls[i];
  return longest;
}

/* The wall at the end of the basin where its drain is; else the one it stands against. */
static const DryWall *
drain_wall (const DryRoom *room)
{
  const DryWall *back = dry_room_get_wall (room, room->basin.wall);
  guint at;

  for (guint i = 0; i < room->n_outline; i++)
    if (room->walls[i].plumbing)
      return &room->walls[i];
  if (back == NULL || back->added || room->basin.drain == DRY_END_CENTRE ||
      room->basin.drain == DRY_END_BACK)
    return back;
  at = dry_room_find_wall (room, back->id);
  if (room->basin.drain == DRY_END_RIGHT)
    return &room->walls[(at + 1) % room->n_outline];
  return &room->walls[(at + room->n_outline - 1) % room->n_outline];
}

static gboolean
is_plumbing (DryPartKind kind)
{
  return kind == DRY_PART_VALVE || kind == DRY_PART_SPOUT || kind == DRY_PART_SHOWER_HEAD ||
         kind == DRY_PART_HAND_SHOWER || kind == DRY_PART_PIPE;
}

/* The wall the user looks at: the selected one, or that of the selected thing. */
static const DryWall *
wall_of_selection (DryCanvas *self, const DryRoom *room)
{
  DryId selection = dry_session_get_selection (self->session);
  const DryWall *wall = dry_room_get_wall (room, selection);
  DryId id = 0;
  DrySide side;
  DryRect rect;

  if (wall != NULL)
    return wall;
  if (selection != 0 && dry_snap_rect (room, selection, &id, &side, &rect))
    return dry_room_get_wall (room, id);
  return NULL;
}

/* Middle of the basin as seen on a wall it reaches along; else the middle of the wall. */
static DryLength
middle_on_wall (const DryRoom *room, const DryWall *wall)
{
  DryPoint corners[4];
  DryLength u = 0;

  if (!dry_room_basin_corners (room, corners))
    return dry_wall_length (wall) / 2;
  for (guint i = 0; i < 4; i++)
    u += dry_wall_along (wall, DRY_SIDE_INSIDE, corners[i]);
  return CLAMP (u / 4, 0, dry_wall_length (wall));
}

static DryProject *
add_part (DryCanvas *self, const DryItem *item, DryId *id, GError **error)
{
  const DryRoom *room = dry_session_get_room (self->session);
  const DryWall *wall = NULL;
  DryPart part = item->part;

  if (is_plumbing (part.kind))
    wall = drain_wall (room);
  if (wall == NULL)
    wall = wall_of_selection (self, room);
  if (wall == NULL)
    wall = dry_room_get_wall (room, room->basin.wall);
  if (wall == NULL)
    wall = longest_wall (room);
  part.id = 0;
  part.item = (char *) item->id;
  part.wall = wall->id;
  part.side = DRY_SIDE_INSIDE;
  part.u = middle_on_wall (room, wall);
  part.u = dry_free_place (room, wall, &part);
  return dry_edit_set_part (dry_session_get_project (self->session), room->id, &part, id, error);
}

static DryProject *
add_opening (DryCanvas *self, const DryItem *item, DryId *id, GError **error)
{
  const DryRoom *room = dry_session_get_room (self->session);
  const DryWall *wall = wall_of_selection (self, room);
  DryOpening opening = item->opening;

  /* A door goes opposite the basin unless a wall was chosen. */
  if (wall == NULL && room->basin.id != 0 && room->n_outline > 2) {
    guint at = dry_room_find_wall (room, room->basin.wall);

    if (at < room->n_outline)
      wall = &room->walls[opening.kind == DRY_OPENING_WINDOW ? at : (at + 2) % room->n_outline];
  }
  if (wall == NULL)
    wall = longest_wall (room);
  opening.id = 0;
  opening.wall = wall->id;
  opening.u = MAX ((dry_wall_length (wall) - opening.width) / 2, 0);
  return dry_edit_set_opening (dry_session_get_project (self->session), room->id, &opening, id,
                               error);
}

static DryProject *
add_basin (DryCanvas *self, const DryItem *item, DryId *id, GError **error)
{
  const DryRoom *room = dry_session_get_room (self->session);
  const DryWall *wall = dry_room_get_wall (room, room->basin.wall);
  DryBasin basin = item->basin;

  basin.id = room->basin.id;
  basin.item = (char *) item->id;
  basin.turned = wall != NULL && room->basin.turned;
  /* A wall just as long as the basin is its alcove. */
  for (guint i = 0; i < room->n_outline && wall == NULL; i++)
    if (ABS (dry_wall_length (&room->walls[i]) - basin.length) <= DRY_INCH / 2)
      wall = &room->walls[i];
  if (wall == NULL)
    wall = longest_wall (room);
  basin.wall = wall->id;
  basin.along = room->basin.wall == wall->id ? room->basin.along : 0;
  basin.away = 0;
  return dry_edit_set_basin (dry_session_get_project (self->session), room->id, &basin, id, error);
}

static void
lay_tile (DryCanvas *self, const DryItem *item)
{
  const DryRoom *room = dry_session_get_room (self->session);
  DryFinish finish = dry_item_lay_tile (item, &room->finish);
  g_autofree char *step = g_strdup_printf (_ ("Tile with %s"), item->name);
  GError *error = NULL;
  DryProject *project =
      dry_edit_set_finish (dry_session_get_project (self->session), room->id, &finish, &error);

  dry_session_apply (self->session, project, step, NULL, error);
}

static gboolean
take_item (DryCanvas *self, const char *item_id, gboolean dropping)
{
  const DryItem *item = dry_catalog_get_item (dry_session_get_catalog (self->session), item_id);
  DryHandKind kind = DRY_HAND_PART;
  g_autoptr (GError) error = NULL;
  g_autofree char *step = NULL;
  DryProject *base = NULL;
  DryId id = 0;

  dry_hand_drop (self);
  if (item == NULL || dry_session_get_room (self->session) == NULL)
    return FALSE;
  switch (item->kind) {
  case DRY_ITEM_TILE:
    if (!dropping)
      lay_tile (self, item);
    return dropping;
  case DRY_ITEM_BASIN:
    kind = DRY_HAND_BASIN;
    base = add_basin (self, item, &id, &error);
    break;
  case DRY_ITEM_OPENING:
    kind = DRY_HAND_OPENING;
    base = add_opening (self, item, &id, &error);
    break;
  case DRY_ITEM_PART:
    base = add_part (self, item, &id, &error);
    break;
  }
  if (base == NULL) {
    g_signal_emit_by_name (self->session, "told", error->message, NULL);
    return FALSE;
  }
  step = g_strdup_printf (_ ("Add %s"), item->name);
  dry_hand_take (self, kind, id, base, step);
  self->hand.sticky = TRUE;
  self->hand.adding = TRUE;
  self->hand.dropping = dropping;
  self->hand.changed = TRUE;
  dry_session_preview (self->session, base);
  dry_session_select (self->session, id);
  dry_canvas_redraw (self);
  return TRUE;
}

void
dry_canvas_begin_place (DryCanvas *self, const char *item)
{
  if (take_item (self, item, FALSE)) {
    gtk_widget_grab_focus (GTK_WIDGET (self));
    dry_canvas_update_cursor (self);
  }
}

void
dry_canvas_begin_move (DryCanvas *self, DryId object)
{
  const DryRoom *room = dry_session_get_room (self->session);
  g_autofree char *name = dry_object_name (self->session, object);
  g_autofree char *step = g_strdup_printf (_ ("Move %s"), name);
  DryHandKind kind = DRY_HAND_BASIN;

  dry_hand_drop (self);
  if (room == NULL || object == 0 || dry_canvas_begin_move_seam (self))
    return;
  if (dry_room_get_part (room, object) != NULL)
    kind = DRY_HAND_PART;
  else if (dry_room_get_opening (room, object) != NULL)
    kind = DRY_HAND_OPENING;
  else if (room->basin.id != object)
    return;
  dry_hand_take (self, kind, object, dry_session_get_project (self->session), step);
  self->hand.sticky = TRUE;
  gtk_widget_grab_focus (GTK_WIDGET (self));
  dry_canvas_update_cursor (self);
  dry_canvas_redraw (self);
}

/* --- from the shelf by drag and drop --- */

static GdkDragAction
on_drop_motion (GtkDropTarget *target, double x, double y, DryCanvas *self)
{
  const char *item = dry_item_drag_get (gtk_drop_target_get_value (target));

  self->pointer_x = x;
  self->pointer_y = y;
  self->pointer_in = TRUE;
  if (item == NULL)
    return GDK_ACTION_COPY; /* not read yet */
  if (!self->hand.dropping)
    take_item (self, item, TRUE);
  if (self->hand.dropping)
    dry_hand_point (self, x, y, FALSE);
  return GDK_ACTION_COPY;
}

static void
on_drop_leave (GtkDropTarget *target, DryCanvas *self)
{
  self->pointer_in = FALSE;
  if (self->hand.dropping)
    dry_hand_drop (self);
}

static gboolean
on_drop (GtkDropTarget *target, const GValue *value, double x, double y, DryCanvas *self)
{
  const char *id = dry_item_drag_get (value);
  const DryItem *item =
      id != NULL ? dry_catalog_get_item (dry_session_get_catalog (self->session), id) : NULL;

  if (item == NULL)
    return FALSE;
  if (item->kind == DRY_ITEM_TILE) {
    lay_tile (self, item);
    return TRUE;
  }
  if (!self->hand.dropping && !take_item (self, id, TRUE))
    return FALSE;
  dry_hand_point (self, x, y, FALSE);
  dry_hand_put_down (self);
  gtk_widget_grab_focus (GTK_WIDGET (self));
  dry_canvas_focus_object (self, dry_session_get_selection (self->session));
  return TRUE;
}

void
dry_canvas_add_drop (DryCanvas *self)
{
  GtkDropTarget *target = gtk_drop_target_new (DRY_TYPE_ITEM_DRAG, GDK_ACTION_COPY);

  gtk_drop_target_set_preload (target, TRUE);
  g_signal_connect (target, "motion", G_CALLBACK (on_drop_motion), self);
  g_signal_connect (target, "enter", G_CALLBACK (on_drop_motion), self);
  g_signal_connect (target, "leave", G_CALLBACK (on_drop_leave), self);
  g_signal_connect (target, "drop", G_CALLBACK (on_drop), self);
  gtk_widget_add_controller (GTK_WIDGET (self), GTK_EVENT_CONTROLLER (target));
}
