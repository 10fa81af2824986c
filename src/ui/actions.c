/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The table of actions, the names and places of objects, and the acts on one object.
 * No widget is known here; keys are text that the window hands to GTK. */
#include "ui/actions.h"

#include <glib/gi18n.h>

#include "ui/canvas-snap.h"
#include "ui/pieces.h"
#include "ui/studs.h"

static const DryActionInfo actions[] = {
    {"win.new", "<Control>n", N_ ("New project"), "files", DRY_ACTIONS_FILE},
    {"win.open", "<Control>o", N_ ("Open a project"), "files", DRY_ACTIONS_FILE},
    {"win.save", "<Control>s", N_ ("Save"), "files", DRY_ACTIONS_FILE},
    {"win.save-as", "<Control><Shift>s", N_ ("Save under another name"), "files", DRY_ACTIONS_FILE},
    {"win.versions", "<Control>h", N_ ("Earlier versions of the file"), "files", DRY_ACTIONS_FILE},
    {"win.export-papers", "<Control>e", N_ ("Export the crew's papers"), "papers",
     DRY_ACTIONS_FILE},
    {"win.trade-sheets::all", "<Control><Alt>r", N_ ("Export the sheets of all trades"), "papers",
     DRY_ACTIONS_FILE},
    {"win.export-drawing", "<Control><Shift>e", N_ ("Export the drawing"), "papers",
     DRY_ACTIONS_FILE},
    {"win.export-proposal", "<Control><Alt>e", N_ ("Export the client's proposal"), "papers",
     DRY_ACTIONS_FILE},
    {"win.export-change", "<Control><Alt>c", N_ ("Export what changed since the file was saved"),
     "papers", DRY_ACTIONS_FILE},
    {"win.export-template", "<Control><Alt>t", N_ ("Export the niche's template at full size"),
     "papers", DRY_ACTIONS_FILE},
    {"win.export-story-pole", "<Control><Alt>s", N_ ("Export the story pole at full size"),
     "papers", DRY_ACTIONS_FILE},
    {"win.print-template", "<Control><Shift>t", N_ ("Print the niche's template"), "papers",
     DRY_ACTIONS_FILE},
    {"win.print-story-pole", "<Control><Alt>p", N_ ("Print the story pole"), "papers",
     DRY_ACTIONS_FILE},
    {"win.print", "<Control>p", N_ ("Print"), "papers", DRY_ACTIONS_FILE},
    {"win.close", "<Control>w", N_ ("Close the window"), "files", DRY_ACTIONS_FILE},
    {"app.quit", "<Control>q", N_ ("Quit"), "files", DRY_ACTIONS_FILE},

    {"win.undo", "<Control>z", N_ ("Undo"), "edit", DRY_ACTIONS_EDIT},
    {"win.redo", "<Control><Shift>z <Control>y", N_ ("Redo"), "edit", DRY_ACTIONS_EDIT},
    {"win.cut", "<Control>x", N_ ("Cut"), "edit", DRY_ACTIONS_EDIT},
    {"win.copy", "<Control>c", N_ ("Copy"), "edit", DRY_ACTIONS_EDIT},
    {"win.paste", "<Control>v", N_ ("Paste"), "edit", DRY_ACTIONS_EDIT},
    {"win.duplicate", "<Control>d", N_ ("Duplicate"), "edit", DRY_ACTIONS_EDIT},
    {"win.delete", "Delete", N_ ("Delete"), "edit", DRY_ACTIONS_EDIT},
    {"win.move-to", "m", N_ ("Move by clicking the new place"), "edit", DRY_ACTIONS_EDIT},
    {"win.turn", "r", N_ ("Turn the tub or pan"), "edit", DRY_ACTIONS_EDIT},
    {"win.set-distance", "d", N_ ("Type a distance to what is beside it"), "exact-lengths",
     DRY_ACTIONS_EDIT},
    {"win.best-places", "b", N_ ("Show the five best places"), "best-places", DRY_ACTIONS_EDIT},
    {"win.edit-selection", "e", N_ ("Type exact sizes"), "edit", DRY_ACTIONS_EDIT},

    {"win.zoom-in", "<Control>plus <Control>equal <Control>KP_Add", N_ ("Zoom in"), "view",
     DRY_ACTIONS_VIEW},
    {"win.zoom-out", "<Control>minus <Control>KP_Subtract", N_ ("Zoom out"), "view",
     DRY_ACTIONS_VIEW},
    {"win.zoom-fit", "<Control>0 <Control>KP_0 Home", N_ ("Show everything"), "view",
     DRY_ACTIONS_VIEW},
    {"win.zoom-selection", "<Control>period", N_ ("Show the selection"), "view", DRY_ACTIONS_VIEW},
    {"win.next-face", "Page_Down", N_ ("Turn to the next face"), "view", DRY_ACTIONS_VIEW},
    {"win.previous-face", "Page_Up", N_ ("Turn to the face before"), "view", DRY_ACTIONS_VIEW},
    {"win.find-part", "<Control>f", N_ ("Find a part on the shelf"), "placing", DRY_ACTIONS_VIEW},
    {"win.shelf", "F8", N_ ("Shelf of parts"), "view", DRY_ACTIONS_VIEW},
    {"win.inspector", "F9", N_ ("Inspector"), "view", DRY_ACTIONS_VIEW},
    {"win.ledger", "<Control>l", N_ ("Ledger"), "view", DRY_ACTIONS_VIEW},
    {"win.fullscreen", "F11", N_ ("Full screen"), "view", DRY_ACTIONS_VIEW},
    {"win.show-client", "F7", N_ ("Show to the client, and back"), "showing", DRY_ACTIONS_VIEW},

    {"win.layer-studs", "1", N_ ("Studs"), "layers", DRY_ACTIONS_LAYERS},
    {"win.layer-boards", "2", N_ ("Boards"), "layers", DRY_ACTIONS_LAYERS},
    {"win.layer-fasteners", "3", N_ ("Fasteners"), "layers", DRY_ACTIONS_LAYERS},
    {"win.layer-joints", "4", N_ ("Joints and bands"), "layers", DRY_ACTIONS_LAYERS},
    {"win.layer-coating", "5", N_ ("Wet area"), "layers", DRY_ACTIONS_LAYERS},
    {"win.layer-tile", "6", N_ ("Tile"), "layers", DRY_ACTIONS_LAYERS},
    {"win.layer-dimensions", "7", N_ ("Dimensions"), "layers", DRY_ACTIONS_LAYERS},
    {"win.layer-hidden", "8", N_ ("Pipes and cables in the wall"), "layers", DRY_ACTIONS_LAYERS},
    {"win.layer-findings", "9", N_ ("Findings"), "layers", DRY_ACTIONS_LAYERS},
    {"win.layer-cuts", "<Alt>6", N_ ("Numbers of the tile cuts"), "tile", DRY_ACTIONS_LAYERS},
    {"win.layer-water", "0", N_ ("The water's way to the drain"), "water", DRY_ACTIONS_LAYERS},
    {"win.layer-turning", "<Alt>7", N_ ("Room to turn a wheelchair"), "layers", DRY_ACTIONS_LAYERS},

    {"win.draw-room", "<Control>r", N_ ("Draw the room's outline"), "room", DRY_ACTIONS_ROOM},
    {"win.room-form::alcove", "<Control>1", N_ ("Start from an alcove"), "room", DRY_ACTIONS_ROOM},
    {"win.room-form::corner", "<Control>2", N_ ("Start from a corner"), "room", DRY_ACTIONS_ROOM},
    {"win.room-form::walk-in", "<Control>3", N_ ("Start from a walk-in"), "room", DRY_ACTIONS_ROOM},
    {"win.insert-corner", "i", N_ ("Insert a corner in the middle of the wall"), "room",
     DRY_ACTIONS_ROOM},
    {"win.add-half-wall", "h", N_ ("Add a half wall"), "room", DRY_ACTIONS_ROOM},

    {"win.studs", "s", N_ ("Studs of the wall, one by one"), "room", DRY_ACTIONS_ROOM},
    {"win.pieces", "j", N_ ("Boards and seams of the wall, one by one"), "seams", DRY_ACTIONS_ROOM},
    {"win.seam-left", "bracketleft", N_ ("Seam to the next stud on the left"), "seams",
     DRY_ACTIONS_ROOM},
    {"win.seam-right", "bracketright", N_ ("Seam to the next stud on the right"), "seams",
     DRY_ACTIONS_ROOM},
    {"win.release-seam", "p", N_ ("Let the plan choose the seam"), "seams", DRY_ACTIONS_ROOM},
    {"win.release-seams", "<Shift>p", N_ ("Let the plan choose all seams of the wall"), "seams",
     DRY_ACTIONS_ROOM},
    {"win.add-stud", "Insert", N_ ("Add a stud"), "room", DRY_ACTIONS_ROOM},
    {"win.add-room", "<Control><Shift>n", N_ ("Add a room"), "room", DRY_ACTIONS_ROOM},
    {"win.duplicate-room", "<Control><Shift>d", N_ ("Duplicate the room"), "room",
     DRY_ACTIONS_ROOM},
    {"win.remove-room", "<Control><Shift>r", N_ ("Remove the room"), "room", DRY_ACTIONS_ROOM},

    {"win.primary-menu", "F10", N_ ("Main menu"), "index", DRY_ACTIONS_HELP},
    {"app.preferences", "<Control>comma", N_ ("Preferences"), "preferences", DRY_ACTIONS_HELP},
    {"win.shortcuts", "<Control>question", N_ ("Keyboard shortcuts"), "keys", DRY_ACTIONS_HELP},
    {"app.help", "F1", N_ ("Help"), "index", DRY_ACTIONS_HELP},
    {"app.about", "<Shift>F1", N_ ("About Drybay"), "index", DRY_ACTIONS_HELP},
};

const DryActionInfo *
dry_actions_list (guint *n)
{
  *n = G_N_ELEMENTS (actions);
  return actions;
}

gboolean
dry_action_is_local (const DryActionInfo *info)
{
  g_auto (GStrv) accels = NULL;

  if (info->group == DRY_ACTIONS_EDIT || info->group == DRY_ACTIONS_LAYERS)
    return TRUE;
  if (info->accel == NULL)
    return FALSE;
  accels = g_strsplit (info->accel, " ", -1);
  for (guint i = 0; accels[i] != NULL; i++)
    if (accels[i][0] != '<' && !(accels[i][0] == 'F' && g_ascii_isdigit (accels[i][1])))
      return TRUE; /* a plain key, such as Page Down */
  return FALSE;
}

/* The keys bound by the application are shown by GTK; those bound after the focused widget it does
 * not know. */
void
dry_actions_append (GMenu *menu, const char *label, const char *name)
{
  g_autoptr (GMenuItem) item = g_menu_item_new (label, name);

  for (guint i = 0; i < G_N_ELEMENTS (actions); i++) {
    g_auto (GStrv) accels = NULL;

    if (!g_str_equal (actions[i].name, name) || actions[i].accel == NULL ||
        !dry_action_is_local (&actions[i]))
      continue;
    accels = g_strsplit (actions[i].accel, " ", 2);
    g_menu_item_set_attribute (item, "accel", "s", accels[0]);
  }
  g_menu_append_item (menu, item);
}

const char *
dry_action_group_title (DryActionGroup group)
{
  static const char *const titles[DRY_N_ACTION_GROUPS] = {
      N_ ("Files"), N_ ("Editing"), N_ ("View"), N_ ("Layers"), N_ ("Room"), N_ ("General")};

  return titles[group];
}

/* --- names --- */

static char *
name_with_size (DrySession *session, const char *kind, DryLength width, DryLength height)
{
  g_autofree char *w = dry_session_format_length (session, width);
  g_autofree char *h = dry_session_format_length (session, height);

  /* Translators: kind of part, width, height, as in "Niche 12" x 20"" */
  return g_strdup_printf (_ ("%s %s × %s"), kind, w, h);
}

static char *
name_part (DrySession *session, const DryPart *part)
{
  static const char *const kinds[DRY_N_PART_KINDS] = {
      N_ ("Niche"),       N_ ("Mixing valve"), N_ ("Spout"), N_ ("Shower head"),
      N_ ("Hand shower"), N_ ("Grab bar"),     N_ ("Bench"), N_ ("Glass panel"),
      N_ ("Pipe"),        N_ ("Vent"),         N_ ("Cable"),
  };

  if (part->label != NULL)
    return g_strdup (part->label);
  if (part->kind == DRY_PART_NICHE || part->kind == DRY_PART_GLASS)
    return name_with_size (session, _ (kinds[part->kind]), part->width, part->height);
  if (part->kind == DRY_PART_BENCH)
    return name_with_size (session, _ (kinds[part->kind]), part->width, part->depth);
  return g_strdup (_ (kinds[part->kind]));
}

static char *
name_wall (DrySession *session, const DryRoom *room, const DryWall *wall)
{
  const DryPlan *plan = dry_session_get_plan (session);
  const DryFace *face =
      plan != NULL ? dry_faces_get_wall (plan->faces, wall->id, DRY_SIDE_INSIDE) : NULL;

  if (wall->name != NULL)
    return g_strdup (wall->name);
  if (face != NULL && face->name != NULL)
    return g_strdup (face->name);
  if (wall->added)
    return g_strdup (wall->height != 0 && wall->height < room->ceiling ? _ ("Half wall")
                                                                       : _ ("Added wall"));
  return g_strdup_printf (_ ("Wall %u"), dry_room_find_wall (room, wall->id) + 1);
}

char *
dry_object_name (DrySession *session, DryId object)
{
  const DryRoom *room = dry_session_get_room (session);
  const DryPart *part;
  const DryOpening *opening;
  const DryWall *wall;

  if (room == NULL || object == 0)
    return g_strdup ("");
  if ((part = dry_room_get_part (room, object)) != NULL)
    return name_part (session, part);
  if ((opening = dry_room_get_opening (room, object)) != NULL)
    return name_with_size (session,
                           opening->kind == DRY_OPENING_DOOR     ? _ ("Door")
                           : opening->kind == DRY_OPENING_WINDOW ? _ ("Window")
                                                                 : _ ("Passage"),
                           opening->width, opening->height);
  if ((wall = dry_room_get_wall (room, object)) != NULL)
    return name_wall (session, room, wall);
  if (room->basin.id != object)
    return g_strdup ("");
  if (room->basin.label != NULL)
    return g_strdup (room->basin.label);
  return name_with_size (session, room->basin.kind == DRY_BASIN_TUB ? _ ("Tub") : _ ("Shower pan"),
                         room->basin.length, room->basin.width);
}

char *
dry_object_place (DrySession *session, DryId object)
{
  const DryRoom *room = dry_session_get_room (session);
  const DryWall *wall;
  DryId wall_id = 0;
  DryLength u, z;

  if (room == NULL)
    return g_strdup ("");
  if ((wall = dry_room_get_wall (room, object)) != NULL) {
    g_autofree char *length = dry_session_format_length (session, dry_wall_length (wall));
    g_autofree char *height = dry_session_format_length (session, dry_wall_height (room, wall));

    return g_strdup_printf (_ ("%s long, %s high"), length, height);
  }
  if (room->basin.id == object && object != 0) {
    wall_id = room->basin.wall;
    u = room->basin.along;
    z = 0;
  } else {
    DrySide side;
    DryRect rect;

    if (!dry_snap_rect (room, object, &wall_id, &side, &rect))
      return g_strdup ("");
    u = rect.x0;
    z = rect.y0;
  }
  wall = dry_room_get_wall (room, wall_id);
  if (wall == NULL)
    return g_strdup ("");
  g_autofree char *name = name_wall (session, room, wall);
  g_autofree char *left = dry_session_format_length (session, u);
  g_autofree char *bottom = dry_session_format_length (session, z);

  /* Translators: wall's name, distance from its left end, height above the floor */
  return g_strdup_printf (_ ("%s, %s from the left, %s above the floor"), name, left, bottom);
}

/* --- acts --- */

gboolean
dry_act_delete (DrySession *session, DryId object)
{
  g_autofree char *name = dry_object_name (session, object);
  g_autofree char *step = g_strdup_printf (_ ("Delete %s"), name);
  g_autofree char *text = g_strdup_printf (_ ("%s deleted"), name);
  GError *error = NULL;
  DryProject *project;

  if (object == 0)
    return FALSE;
  if (dry_session_get_selected_stud (session) >= 0 && object == dry_session_get_selection (session))
    return dry_act_delete_stud (session);
  if (dry_session_get_selected_piece (session) != NULL &&
      object == dry_session_get_selection (session))
    return dry_act_release_seam (session);
  project = dry_edit_remove (dry_session_get_project (session), dry_session_get_room_id (session),
                             object, &error);
  if (!dry_session_apply (session, project, step, NULL, error))
    return FALSE;
  g_signal_emit_by_name (session, "told", text, step);
  return TRUE;
}

gboolean
dry_act_duplicate (DrySession *session, DryId object)
{
  g_autofree char *name = dry_object_name (session, object);
  g_autofree char *step = g_strdup_printf (_ ("Duplicate %s"), name);
  GError *error = NULL;
  DryId copy = 0;
  DryProject *project;

  if (object == 0)
    return FALSE;
  project = dry_edit_duplicate (dry_session_get_project (session),
                                dry_session_get_room_id (session), object, &copy, &error);
  if (!dry_session_apply (session, project, step, NULL, error))
    return FALSE;
  dry_session_select (session, copy);
  return TRUE;
}

static DryProject *
nudge_wall (const DryProject *project, const DryRoom *room, const DryWall *wall, DryLength out,
            GError **error)
{
  double ux, uy, nx, ny;
  g_autoptr (DryRoom) copy = NULL;
  DryWall *moved;

  if (!wall->added)
    return dry_edit_move_wall (project, room->id, wall->id, out, error);
  copy = dry_room_copy (room);
  moved = &copy->walls[dry_room_find_wall (copy, wall->id)];
  dry_wall_axes (wall, DRY_SIDE_INSIDE, &ux, &uy, &nx, &ny);
  DryPoint by = {(DryLength) (nx * (double) out), (DryLength) (ny * (double) out)};

  moved->start = (DryPoint){moved->start.x + by.x, moved->start.y + by.y};
  moved->end = (DryPoint){moved->end.x + by.x, moved->end.y + by.y};
  return dry_edit_set_wall (project, room->id, moved, NULL, error);
}

gboolean
dry_act_nudge (DrySession *session, DryId object, DryLength du, DryLength dz)
{
  const DryProject *project = dry_session_get_project (session);
  const DryRoom *room = dry_session_get_room (session);
  const DryPart *part = dry_room_get_part (room, object);
  const DryOpening *opening = dry_room_get_opening (room, object);
  const DryWall *wall = dry_room_get_wall (room, object);
  g_autofree char *name = dry_object_name (session, object);
  g_autofree char *step = g_strdup_printf (_ ("Move %s"), name);
  g_autofree char *merge = g_strdup_printf ("nudge:%u", object);
  GError *error = NULL;
  DryProject *next = NULL;

  if (part != NULL) {
    next = dry_edit_move_part (project, room->id, part->id, part->wall, part->side, part->u + du,
                               part->z + dz, &error);
  } else if (opening != NULL) {
    DryOpening moved = *opening;

    moved.u += du;
    moved.z += opening->kind == DRY_OPENING_WINDOW ? dz : 0;
    next = dry_edit_set_opening (project, room->id, &moved, NULL, &error);
  } else if (wall != NULL) {
    next = nudge_wall (project, room, wall, dz, &error);
  } else if (room->basin.id == object && object != 0) {
    next = dry_edit_move_basin (project, room->id, room->basin.wall, room->basin.along + du,
                                MAX (room->basin.away + dz, 0), room->basin.turned, &error);
  } else {
    return FALSE;
  }
  return dry_session_apply (session, next, step, merge, error);
}

DryLength
dry_free_place (const DryRoom *room, const DryWall *wall, const DryPart *part)
{
  DryLength length = dry_wall_length (wall);
  DryPart tried = *part;

  for (DryLength away = 0; away < length; away += DRY_INCH) {
    for (gint sign = 1; sign >= -1; sign -= 2) {
      gboolean clear = TRUE;
      DryRect rect;

      tried.u = part->u + sign * away;
      rect = dry_part_rect (&tried);
      if (rect.x0 < 0 || rect.x1 > length)
        continue;
      for (guint i = 0; i < room->n_parts && clear; i++)
        clear = room->parts[i].wall != wall->id || room->parts[i].side != part->side ||
                !dry_rect_overlaps (rect, dry_part_rect (&room->parts[i]));
      if (clear)
        return tried.u;
    }
  }
  return part->u;
}

gboolean
dry_act_paste (DrySession *session, const DryPart *part, const DryOpening *opening)
{
  const DryProject *project = dry_session_get_project (session);
  const DryRoom *room = dry_session_get_room (session);
  const DryWall *wall = dry_room_get_wall (room, dry_session_get_selection (session));
  GError *error = NULL;
  DryProject *next;
  DryId id = 0;

  if (wall == NULL)
    wall = dry_room_get_wall (room, part != NULL ? part->wall : opening->wall);
  if (wall == NULL)
    wall = dry_room_get_wall (room, room->basin.wall);
  if (wall == NULL)
    wall = &room->walls[0];
  if (part != NULL) {
    DryPart pasted = *part;

    pasted.id = 0;
    pasted.wall = wall->id;
    pasted.side = wall->added ? part->side : DRY_SIDE_INSIDE;
    pasted.u = dry_free_place (room, wall, &pasted);
    next = dry_edit_set_part (project, room->id, &pasted, &id, &error);
  } else {
    DryOpening pasted = *opening;

    pasted.id = 0;
    pasted.wall = wall->id;
    pasted.u = CLAMP (pasted.u, 0, MAX (dry_wall_length (wall) - pasted.width, 0));
    next = dry_edit_set_opening (project, room->id, &pasted, &id, &error);
  }
  if (!dry_session_apply (session, next, _ ("Paste"), NULL, error))
    return FALSE;
  dry_session_select (session, id);
  return TRUE;
}

/* --- studs --- */

char *
dry_stud_name (DrySession *session, DryId wall, gint stud)
{
  return g_strdup_printf (_ ("Stud %d"), stud + 1);
}

char *
dry_stud_place (DrySession *session, DryId id, gint stud)
{
  const DryRoom *room = dry_session_get_room (session);
  const DryWall *wall = room != NULL ? dry_room_get_wall (room, id) : NULL;
  g_autoptr (GArray) studs = wall != NULL ? dry_studs_list (wall) : NULL;
  g_autofree char *name = NULL;
  g_autofree char *left = NULL;

  if (wall == NULL || stud < 0 || stud >= (gint) studs->len)
    return g_strdup ("");
  name = name_wall (session, room, wall);
  left = dry_session_format_length (session, g_array_index (studs, DryLength, stud));
  /* Translators: wall's name, distance of a stud's center from the wall's left end */
  return g_strdup_printf (_ ("%s, %s from the left to its center"), name, left);
}

gboolean
dry_act_nudge_stud (DrySession *session, DryLength du)
{
  const DryRoom *room = dry_session_get_room (session);
  DryId id = dry_session_get_selection (session);
  gint stud = dry_session_get_selected_stud (session);
  const DryWall *wall = room != NULL ? dry_room_get_wall (room, id) : NULL;
  g_autoptr (GArray) studs = wall != NULL ? dry_studs_list (wall) : NULL;
  g_autofree char *merge = g_strdup_printf ("nudge:%u:%d", id, stud);
  GError *error = NULL;
  DryProject *next;

  if (wall == NULL || stud < 0 || stud >= (gint) studs->len)
    return FALSE;
  next = dry_studs_move (dry_session_get_project (session), room->id, id, (guint) stud,
                         g_array_index (studs, DryLength, stud) + du, &error);
  return dry_session_apply (session, next, _ ("Move stud"), merge, error);
}

gboolean
dry_act_delete_stud (DrySession *session)
{
  DryId id = dry_session_get_selection (session);
  gint stud = dry_session_get_selected_stud (session);
  GError *error = NULL;
  DryProject *next;

  if (id == 0 || stud < 0)
    return FALSE;
  next = dry_studs_remove (dry_session_get_project (session), dry_session_get_room_id (session), id,
                           (guint) stud, &error);
  if (!dry_session_apply (session, next, _ ("Delete stud"), NULL, error))
    return FALSE;
  dry_session_select (session, id);
  g_signal_emit_by_name (session, "told", _ ("Stud deleted"), _ ("Delete stud"));
  return TRUE;
}

gboolean
dry_act_add_stud (DrySession *session)
{
  DryId id = dry_session_get_selection (session);
  GError *error = NULL;
  DryProject *next;
  guint added = 0;

  if (id == 0)
    return FALSE;
  next = dry_studs_add (dry_session_get_project (session), dry_session_get_room_id (session), id,
                        dry_session_get_selected_stud (session), &added, &error);
  if (!dry_session_apply (session, next, _ ("Add stud"), NULL, error))
    return FALSE;
  dry_session_select_stud (session, id, (gint) added);
  return TRUE;
}
