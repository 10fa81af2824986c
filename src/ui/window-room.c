/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Actions on rooms and walls: drawing an outline, ready forms to start from, half walls, and which
 * room is shown. Sizes of the ready forms are starting points to be measured over. */
#include "ui/window-private.h"

#include <glib/gi18n.h>

#include "ui/actions.h"
#include "ui/later.h"

static void
on_draw_room (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  dry_canvas_begin_outline (DRY_WINDOW (data)->canvas);
}

/* --- ready forms --- */

typedef struct {
  const char *name;
  DryLength width, depth; /* inside, stud to stud */
  DryBasinKind basin;
  DryLength length; /* of a basin that suits */
  const char *step;
} Form;

static const Form forms[] = {
    {"alcove", 60 * DRY_INCH, 96 * DRY_INCH, DRY_BASIN_TUB, 60 * DRY_INCH,
     N_ ("Start from an alcove")},
    {"corner", 96 * DRY_INCH, 84 * DRY_INCH, DRY_BASIN_TUB, 60 * DRY_INCH,
     N_ ("Start from a corner")},
    {"walk-in", 60 * DRY_INCH, 102 * DRY_INCH, DRY_BASIN_PAN, 60 * DRY_INCH,
     N_ ("Start from a walk-in")},
};

static const DryItem *
find_basin (const DryCatalog *catalog, const Form *form)
{
  const DryItem *best = NULL;

  for (guint i = 0; i < dry_catalog_get_n_items (catalog); i++) {
    const DryItem *item = dry_catalog_get_item_at (catalog, i);

    if (item->kind != DRY_ITEM_BASIN || item->basin.kind != form->basin || item->basin.drop_in ||
        item->basin.length > form->width || item->basin.width > form->depth)
      continue;
    if (best == NULL ||
        ABS (item->basin.length - form->length) < ABS (best->basin.length - form->length))
      best = item;
  }
  return best;
}

/* The wall at the top of the plan. */
static const DryWall *
north_wall (const DryRoom *room)
{
  const DryWall *north = &room->walls[0]; /* an outline has three walls at least */

  for (guint i = 1; i < room->n_outline; i++) {
    const DryWall *wall = &room->walls[i];

    if (wall->start.y + wall->end.y > north->start.y + north->end.y)
      north = wall;
  }
  return north;
}

static DryProject *
build_form (DryWindow *self, const Form *form, GError **error)
{
  const DryProject *project = dry_session_get_project (self->session);
  DryId room_id = dry_session_get_room_id (self->session);
  DryPoint corners[4] = {{0, 0}, {0, form->depth}, {form->width, form->depth}, {form->width, 0}};
  g_autoptr (DryProject) walled = dry_edit_set_outline (project, room_id, corners, 4, error);
  const DryItem *item = find_basin (dry_session_get_catalog (self->session), form);
  const DryRoom *room;
  DryBasin basin;

  if (walled == NULL || item == NULL)
    return g_steal_pointer (&walled);
  room = dry_project_get_room (walled, room_id);
  basin = item->basin;
  basin.id = room->basin.id;
  basin.item = (char *) item->id;
  basin.wall = north_wall (room)->id;
  basin.along = 0;
  basin.away = 0;
  basin.turned = FALSE;
  return dry_edit_set_basin (walled, room_id, &basin, NULL, error);
}

static void
on_room_form (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  DryWindow *self = data;
  const char *name = g_variant_get_string (parameter, NULL);

  for (guint i = 0; i < G_N_ELEMENTS (forms); i++) {
    GError *error = NULL;
    DryProject *next;

    if (g_strcmp0 (forms[i].name, name) != 0)
      continue;
    dry_canvas_cancel (self->canvas);
    next = build_form (self, &forms[i], &error);
    if (dry_session_apply (self->session, next, _ (forms[i].step), NULL, error))
      dry_canvas_fit_all (self->canvas);
  }
}

/* --- walls --- */

static void
on_insert_corner (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  DryWindow *self = data;
  const DryRoom *room = dry_session_get_room (self->session);
  const DryWall *wall = dry_room_get_wall (room, dry_session_get_selection (self->session));
  GError *error = NULL;
  DryId id = 0;
  DryProject *next;

  if (wall == NULL)
    return;
  next = dry_edit_insert_corner (dry_session_get_project (self->session), room->id, wall->id,
                                 dry_wall_length (wall) / 2, &id, &error);
  if (dry_session_apply (self->session, next, _ ("Insert corner"), NULL, error))
    dry_session_select (self->session, id);
}

/* At the open end of the basin, as deep as it: where a half wall usually stands. */
static void
on_add_half_wall (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  DryWindow *self = data;
  const DryRoom *room = dry_session_get_room (self->session);
  const DryBasin *basin = &room->basin;
  const DryWall *back = dry_room_get_wall (room, basin->wall);
  gboolean at_basin = back != NULL;
  DryLength extent, depth, u;
  DryWall wall = {0};
  GError *error = NULL;
  DryProject *next;
  DryId id = 0;

  if (back == NULL)
    back = &room->walls[0];
  extent = basin->turned ? basin->width : basin->length;
  depth = at_basin ? (basin->turned ? basin->length : basin->width) : 36 * DRY_INCH;
  wall = *back;
  wall.id = 0;
  wall.name = NULL;
  wall.added = TRUE;
  wall.height = 42 * DRY_INCH;
  wall.thickness = wall.stud_depth;
  wall.found_studs = NULL;
  wall.n_found_studs = 0;
  wall.bearing = wall.exterior = wall.fire_rated = wall.plumbing = FALSE;
  u = at_basin ? basin->along + extent + wall.stud_depth : dry_wall_length (back) / 2;
  u = CLAMP (u, 0, dry_wall_length (back));
  wall.start = dry_wall_point (back, DRY_SIDE_INSIDE, u, 0);
  wall.end = dry_wall_point (back, DRY_SIDE_INSIDE, u, depth);
  next = dry_edit_set_wall (dry_session_get_project (self->session), room->id, &wall, &id, &error);
  if (dry_session_apply (self->session, next, _ ("Add half wall"), NULL, error))
    dry_session_select (self->session, id);
}

/* --- rooms --- */

static const char *
name_of_room (const DryRoom *room, const char *otherwise)
{
  return room->name != NULL && room->name[0] != '\0' ? room->name : otherwise;
}

static void
add_room (DryWindow *self, const DryRoom *like, char *name, const char *step)
{
  g_autoptr (DryRoom) copy = dry_room_copy (like);
  GError *error = NULL;
  DryProject *next;
  DryId id = 0;

  dry_canvas_cancel (self->canvas);
  copy->id = 0;
  g_free (copy->name);
  copy->name = name;
  next = dry_edit_set_room (dry_session_get_project (self->session), copy, &id, &error);
  if (!dry_session_apply (self->session, next, step, NULL, error))
    return;
  dry_session_set_room_id (self->session, id);
  dry_canvas_fit_all (self->canvas);
}

static void
on_add_room (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  DryWindow *self = data;
  g_autoptr (DryProject) fresh = dry_project_new ();
  guint n = dry_project_get_n_rooms (dry_session_get_project (self->session));

  add_room (self, dry_project_get_room_at (fresh, 0), g_strdup_printf (_ ("Room %u"), n + 1),
            _ ("Add room"));
}

static void
on_duplicate_room (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  DryWindow *self = data;
  const DryRoom *room = dry_session_get_room (self->session);

  if (room != NULL)
    add_room (self, room, g_strdup_printf (_ ("%s, copy"), name_of_room (room, _ ("Room"))),
              _ ("Duplicate room"));
}

static void
on_remove_room (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  DryWindow *self = data;
  const DryRoom *room = dry_session_get_room (self->session);
  g_autofree char *name = room != NULL ? g_strdup (name_of_room (room, _ ("Room"))) : NULL;
  g_autofree char *step = g_strdup_printf (_ ("Remove %s"), name);
  g_autofree char *text = g_strdup_printf (_ ("%s removed"), name);
  GError *error = NULL;
  DryProject *next;

  if (room == NULL)
    return;
  dry_canvas_cancel (self->canvas);
  dry_session_select (self->session, 0);
  next = dry_edit_remove_room (dry_session_get_project (self->session), room->id, &error);
  if (!dry_session_apply (self->session, next, step, NULL, error))
    return;
  dry_canvas_fit_all (self->canvas);
  g_signal_emit_by_name (self->session, "told", text, step);
}

/* --- which room --- */

static void
on_room (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  DryWindow *self = data;

  dry_canvas_cancel (self->canvas);
  dry_session_set_room_id (self->session, g_variant_get_uint32 (parameter));
  dry_canvas_fit_all (self->canvas);
}

static void
append_room_section (DryWindow *self, GMenu *menu)
{
  const DryProject *project = dry_session_get_project (self->session);
  guint n = dry_project_get_n_rooms (project);
  g_autoptr (GMenu) section = g_menu_new ();

  for (guint i = 0; n > 1 && i < MIN (n, 40); i++) {
    const DryRoom *room = dry_project_get_room_at (project, i);
    g_autofree char *numbered = g_strdup_printf (_ ("Room %u"), i + 1);
    const char *name = room->name != NULL && room->name[0] != '\0' ? room->name : numbered;
    /* A user's underscore is no mnemonic. */
    g_auto (GStrv) parts = g_strsplit (name, "_", -1);
    g_autofree char *label = g_strjoinv ("__", parts);
    g_autoptr (GMenuItem) item = g_menu_item_new (label, NULL);

    g_menu_item_set_action_and_target (item, "win.room", "u", room->id);
    g_menu_append_item (section, item);
  }
  if (n > 1)
    g_menu_append_section (menu, _ ("Shown Room"), G_MENU_MODEL (section));
}

static void
append_form_section (GMenu *menu)
{
  g_autoptr (GMenu) section = g_menu_new ();

  dry_actions_append (section, _ ("_Alcove"), "win.room-form::alcove");
  dry_actions_append (section, _ ("_Corner"), "win.room-form::corner");
  dry_actions_append (section, _ ("_Walk-In"), "win.room-form::walk-in");
  g_menu_append_section (menu, _ ("Start From"), G_MENU_MODEL (section));
}

/* The rooms by id and name, as one text: the menu is built anew only when it differs. */
static char *
list_rooms (const DryProject *project)
{
  GString *list = g_string_new (NULL);

  for (guint i = 0; i < dry_project_get_n_rooms (project); i++) {
    const DryRoom *room = dry_project_get_room_at (project, i);

    g_string_append_printf (list, "%u %s\n", room->id, room->name != NULL ? room->name : "");
  }
  return g_string_free (list, FALSE);
}

void
dry_window_update_room_menu (DryWindow *self)
{
  g_autofree char *rooms = list_rooms (dry_session_get_project (self->session));
  GAction *action = g_action_map_lookup_action (G_ACTION_MAP (self), "room");
  g_autoptr (GMenu) menu = NULL;
  g_autoptr (GMenu) walls = NULL;
  g_autoptr (GMenu) kept = g_menu_new ();

  g_simple_action_set_state (G_SIMPLE_ACTION (action),
                             g_variant_new_uint32 (dry_session_get_room_id (self->session)));
  if (g_strcmp0 (rooms, self->rooms) == 0)
    return;
  g_free (self->rooms);
  self->rooms = g_steal_pointer (&rooms);
  menu = g_menu_new ();
  walls = g_menu_new ();
  append_room_section (self, menu);
  dry_actions_append (walls, _ ("_Draw the Outline…"), "win.draw-room");
  dry_actions_append (walls, _ ("_Insert Corner"), "win.insert-corner");
  dry_actions_append (walls, _ ("Add _Half Wall"), "win.add-half-wall");
  dry_actions_append (walls, _ ("Studs _One by One"), "win.studs");
  dry_actions_append (walls, _ ("Add _Stud"), "win.add-stud");
  g_menu_append_section (menu, NULL, G_MENU_MODEL (walls));
  dry_actions_append (kept, _ ("Add _Room"), "win.add-room");
  dry_actions_append (kept, _ ("_Duplicate Room"), "win.duplicate-room");
  dry_actions_append (kept, _ ("R_emove Room"), "win.remove-room");
  append_form_section (menu);
  g_menu_append_section (menu, NULL, G_MENU_MODEL (kept));
  dry_later_menu (self->room_button, G_MENU_MODEL (menu));
}

void
dry_window_add_room_actions (DryWindow *self)
{
  static const GActionEntry entries[] = {
      {.name = "draw-room", .activate = on_draw_room},
      {.name = "room-form", .activate = on_room_form, .parameter_type = "s"},
      {.name = "insert-corner", .activate = on_insert_corner},
      {.name = "add-half-wall", .activate = on_add_half_wall},
      {.name = "add-room", .activate = on_add_room},
      {.name = "duplicate-room", .activate = on_duplicate_room},
      {.name = "remove-room", .activate = on_remove_room},
      {.name = "room", .activate = on_room, .parameter_type = "u", .state = "uint32 0"},
  };

  g_action_map_add_action_entries (G_ACTION_MAP (self), entries, G_N_ELEMENTS (entries), self);
}
