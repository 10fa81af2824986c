/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The window's actions on the selection and on what is seen. Each asks the session or the canvas;
 * none keeps state of its own beyond its toggle. */
#include "ui/window-private.h"

#include <glib/gi18n.h>

#include "ui/actions.h"
#include "ui/inspector.h"
#include "ui/clip.h"
#include "ui/shortcuts.h"

static const struct {
  const char *name;
  DryLayer layer;
} layers[] = {{"layer-studs", DRY_LAYER_STUDS},
              {"layer-boards", DRY_LAYER_BOARDS},
              {"layer-fasteners", DRY_LAYER_FASTENERS},
              {"layer-joints", DRY_LAYER_JOINTS},
              {"layer-coating", DRY_LAYER_COATING},
              {"layer-tile", DRY_LAYER_TILE},
              {"layer-dimensions", DRY_LAYER_DIMENSIONS},
              {"layer-hidden", DRY_LAYER_HIDDEN},
              {"layer-findings", DRY_LAYER_FINDINGS},
              {"layer-water", DRY_LAYER_WATER},
              {"layer-cuts", DRY_LAYER_CUTS},
              {"layer-turning", DRY_LAYER_TURNING}};

static void
set_enabled (DryWindow *self, const char *name, gboolean enabled)
{
  GAction *action = g_action_map_lookup_action (G_ACTION_MAP (self), name);

  if (action != NULL)
    g_simple_action_set_enabled (G_SIMPLE_ACTION (action), enabled);
}

void
dry_window_update_actions (DryWindow *self)
{
  DryHistory *history = dry_session_get_history (self->session);
  const DryRoom *room = dry_session_get_room (self->session);
  DryId object = dry_session_get_selection (self->session);
  const DryWall *wall = room != NULL ? dry_room_get_wall (room, object) : NULL;
  gboolean open = !self->vacant;
  gboolean basin = room != NULL && object != 0 && room->basin.id == object;
  gboolean hung = object != 0 && wall == NULL && !basin;
  static const char *const on_desk[] = {
      "save-as",      "save",          "export-papers",  "trade-sheets", "export-drawing",
      "print",        "zoom-in",       "zoom-out",       "zoom-fit",     "draw-room",
      "room-form",    "add-half-wall", "paste",          "next-face",    "previous-face",
      "add-room",     "find-part",     "duplicate-room", "show-client",  "export-proposal",
      "export-change"};

  for (guint i = 0; i < G_N_ELEMENTS (on_desk); i++)
    set_enabled (self, on_desk[i], open);
  set_enabled (self, "undo", open && dry_history_get_undo_name (history) != NULL);
  set_enabled (self, "redo", open && dry_history_get_redo_name (history) != NULL);
  set_enabled (self, "delete", open && object != 0);
  set_enabled (self, "set-distance", open && object != 0);
  set_enabled (self, "best-places", open && dry_canvas_has_places (self->canvas));
  set_enabled (self, "studs", open && wall != NULL);
  set_enabled (self, "add-stud", open && wall != NULL);
  set_enabled (self, "remove-room",
               open && dry_project_get_n_rooms (dry_session_get_project (self->session)) > 1);
  set_enabled (self, "cut", open && hung);
  set_enabled (self, "copy", open && hung);
  set_enabled (self, "duplicate", open && hung);
  set_enabled (self, "move-to",
               open && object != 0 &&
                   (wall == NULL || dry_session_get_selected_piece (self->session) != NULL));
  set_enabled (self, "turn", open && room != NULL && room->basin.id != 0);
  set_enabled (self, "edit-selection", open);
  set_enabled (self, "zoom-selection", open && object != 0);
  set_enabled (self, "insert-corner", open && wall != NULL && !wall->added);
  dry_window_update_board_actions (self);
  dry_window_hold_actions (self);
}

/* --- editing --- */

/* A step of another room shows that room, from its beginning. */
static void
travel (DryWindow *self, void (*step) (DrySession *session))
{
  DryId room = dry_session_get_room_id (self->session);

  step (self->session);
  if (dry_session_get_room_id (self->session) != room)
    dry_canvas_fit_all (self->canvas);
}

static void
on_undo (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  DryWindow *self = data;

  if (!dry_canvas_cancel (self->canvas))
    travel (self, dry_session_undo);
}

static void
on_redo (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  DryWindow *self = data;

  dry_canvas_cancel (self->canvas);
  travel (self, dry_session_redo);
}

static void
on_delete (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  DryWindow *self = data;

  dry_canvas_cancel (self->canvas);
  dry_act_delete (self->session, dry_session_get_selection (self->session));
}

static void
on_duplicate (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  DryWindow *self = data;

  dry_canvas_cancel (self->canvas);
  dry_act_duplicate (self->session, dry_session_get_selection (self->session));
}

static gboolean
copy_selection (DryWindow *self)
{
  DryId object = dry_session_get_selection (self->session);
  g_autoptr (DryClip) clip = dry_clip_new (dry_session_get_room (self->session), object);
  g_autofree char *name = dry_object_name (self->session, object);
  GdkContentProvider *both[2];
  g_autoptr (GdkContentProvider) provider = NULL;

  if (clip == NULL)
    return FALSE;
  both[0] = gdk_content_provider_new_typed (DRY_TYPE_CLIP, clip);
  both[1] = gdk_content_provider_new_typed (G_TYPE_STRING, name);
  provider = gdk_content_provider_new_union (both, 2);
  gdk_clipboard_set_content (gtk_widget_get_clipboard (GTK_WIDGET (self)), provider);
  return TRUE;
}

static void
on_copy (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  copy_selection (data);
}

static void
on_cut (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  DryWindow *self = data;

  if (copy_selection (self))
    dry_act_delete (self->session, dry_session_get_selection (self->session));
}

static void
on_paste (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  DryWindow *self = data;
  GdkContentProvider *provider =
      gdk_clipboard_get_content (gtk_widget_get_clipboard (GTK_WIDGET (self)));
  g_auto (GValue) value = G_VALUE_INIT;
  const DryClip *clip;

  g_value_init (&value, DRY_TYPE_CLIP);
  if (provider == NULL || !gdk_content_provider_get_value (provider, &value, NULL) ||
      (clip = g_value_get_boxed (&value)) == NULL) {
    dry_window_tell (self, _ ("Nothing to paste: copy a part first"));
    return;
  }
  dry_canvas_cancel (self->canvas);
  if (dry_act_paste (self->session, clip->part, clip->opening))
    dry_canvas_reveal (self->canvas, dry_session_get_selection (self->session));
}

static void
on_move_to (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  DryWindow *self = data;

  dry_canvas_begin_move (self->canvas, dry_session_get_selection (self->session));
}

static void
on_set_distance (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  dry_canvas_begin_distance (DRY_WINDOW (data)->canvas);
}

static void
on_studs (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  DryWindow *self = data;
  DryId wall = dry_session_get_selection (self->session);

  dry_session_set_layer (self->session, DRY_LAYER_STUDS, TRUE);
  dry_session_select_stud (self->session, wall, 0);
  dry_canvas_focus_object (self->canvas, wall);
}

static void
on_add_stud (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  DryWindow *self = data;

  dry_canvas_cancel (self->canvas);
  dry_session_set_layer (self->session, DRY_LAYER_STUDS, TRUE);
  if (dry_act_add_stud (self->session))
    dry_canvas_focus_object (self->canvas, dry_session_get_selection (self->session));
}

static void
on_turn (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  DryWindow *self = data;
  const DryRoom *room = dry_session_get_room (self->session);
  const DryBasin *basin = &room->basin;
  GError *error = NULL;
  DryProject *next;

  next = dry_edit_move_basin (dry_session_get_project (self->session), room->id, basin->wall,
                              basin->along, basin->away, !basin->turned, &error);
  dry_session_apply (self->session, next,
                     basin->kind == DRY_BASIN_TUB ? _ ("Turn tub") : _ ("Turn pan"), NULL, error);
}

static void
on_edit_selection (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  DryWindow *self = data;
  GtkWidget *focus;

  g_settings_set_boolean (self->settings, "inspector", TRUE);
  dry_inspector_catch_up (adw_bin_get_child (self->inspector_place));
  gtk_widget_child_focus (GTK_WIDGET (self->inspector_place), GTK_DIR_TAB_FORWARD);
  /* Into the entry, not only its row. */
  focus = gtk_root_get_focus (GTK_ROOT (self));
  if (focus != NULL && GTK_IS_LIST_BOX_ROW (focus))
    gtk_widget_child_focus (focus, GTK_DIR_TAB_FORWARD);
}

/* --- the view --- */

static void
on_zoom_in (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  dry_canvas_zoom_by (DRY_WINDOW (data)->canvas, 1.25);
}

static void
on_best_places (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  DryWindow *self = data;

  if (!dry_canvas_show_places (self->canvas))
    g_signal_emit_by_name (self->session, "told", _ ("There is no place on the wet walls for this"),
                           NULL);
}

static void
on_zoom_out (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  dry_canvas_zoom_by (DRY_WINDOW (data)->canvas, 0.8);
}

static void
on_zoom_fit (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  dry_canvas_fit_all (DRY_WINDOW (data)->canvas);
}

static void
on_zoom_selection (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  dry_canvas_fit_selection (DRY_WINDOW (data)->canvas);
}

/* The name of the face is said too, for those who do not see it come. */
static void
walk_faces (DryWindow *self, gint step)
{
  const char *name;

  dry_canvas_walk_faces (self->canvas, step);
  name = dry_canvas_facing_name (self->canvas);
  if (name != NULL)
    gtk_accessible_update_property (GTK_ACCESSIBLE (self->canvas),
                                    GTK_ACCESSIBLE_PROPERTY_DESCRIPTION, name, -1);
}

static void
on_next_face (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  walk_faces (data, 1);
}

static void
on_previous_face (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  walk_faces (data, -1);
}

/* The shelf's search comes first in it. */
static void
on_find_part (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  DryWindow *self = data;

  g_settings_set_boolean (self->settings, "shelf", TRUE);
  gtk_widget_child_focus (GTK_WIDGET (self->shelf_place), GTK_DIR_TAB_FORWARD);
}

static void
on_fullscreen (GSimpleAction *action, GVariant *state, gpointer data)
{
  if (g_variant_get_boolean (state))
    gtk_window_fullscreen (GTK_WINDOW (data));
  else
    gtk_window_unfullscreen (GTK_WINDOW (data));
  g_simple_action_set_state (action, state);
}

static void
on_primary_menu (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  gtk_menu_button_popup (GTK_MENU_BUTTON (DRY_WINDOW (data)->menu_button));
}

static void
on_shortcuts (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  dry_shortcuts_present (GTK_WINDOW (data));
}

static void
on_close (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  gtk_window_close (GTK_WINDOW (data));
}

static void
on_layer (GSimpleAction *action, GVariant *state, gpointer data)
{
  DryWindow *self = data;

  for (guint i = 0; i < G_N_ELEMENTS (layers); i++)
    if (g_strcmp0 (layers[i].name, g_action_get_name (G_ACTION (action))) == 0)
      dry_session_set_layer (self->session, layers[i].layer, g_variant_get_boolean (state));
}

void
dry_window_update_layers (DryWindow *self)
{
  guint shown = dry_session_get_layers (self->session);

  for (guint i = 0; i < G_N_ELEMENTS (layers); i++) {
    GAction *action = g_action_map_lookup_action (G_ACTION_MAP (self), layers[i].name);

    g_simple_action_set_state (G_SIMPLE_ACTION (action),
                               g_variant_new_boolean ((shown & 1u << layers[i].layer) != 0));
  }
}

static void
add_layer_actions (DryWindow *self)
{
  for (guint i = 0; i < G_N_ELEMENTS (layers); i++) {
    g_autoptr (GSimpleAction) action =
        g_simple_action_new_stateful (layers[i].name, NULL, g_variant_new_boolean (TRUE));

    g_signal_connect (action, "change-state", G_CALLBACK (on_layer), self);
    g_action_map_add_action (G_ACTION_MAP (self), G_ACTION (action));
  }
  dry_window_update_layers (self);
}

/* Those that change with a setting, whichever window changes it. */
static const char *const SETTINGS[] = {"shelf", "inspector", "ledger"};

static void
add_setting_actions (DryWindow *self)
{
  for (guint i = 0; i < G_N_ELEMENTS (SETTINGS); i++) {
    g_autoptr (GAction) action = g_settings_create_action (self->settings, SETTINGS[i]);

    g_action_map_add_action (G_ACTION_MAP (self), action);
  }
}

void
dry_window_remove_setting_actions (DryWindow *self)
{
  for (guint i = 0; i < G_N_ELEMENTS (SETTINGS); i++)
    g_action_map_remove_action (G_ACTION_MAP (self), SETTINGS[i]);
}

void
dry_window_add_actions (DryWindow *self)
{
  static const GActionEntry entries[] = {
      {.name = "undo", .activate = on_undo},
      {.name = "redo", .activate = on_redo},
      {.name = "delete", .activate = on_delete},
      {.name = "duplicate", .activate = on_duplicate},
      {.name = "copy", .activate = on_copy},
      {.name = "cut", .activate = on_cut},
      {.name = "paste", .activate = on_paste},
      {.name = "move-to", .activate = on_move_to},
      {.name = "set-distance", .activate = on_set_distance},
      {.name = "best-places", .activate = on_best_places},
      {.name = "studs", .activate = on_studs},
      {.name = "add-stud", .activate = on_add_stud},
      {.name = "find-part", .activate = on_find_part},
      {.name = "next-face", .activate = on_next_face},
      {.name = "previous-face", .activate = on_previous_face},
      {.name = "turn", .activate = on_turn},
      {.name = "edit-selection", .activate = on_edit_selection},
      {.name = "zoom-in", .activate = on_zoom_in},
      {.name = "zoom-out", .activate = on_zoom_out},
      {.name = "zoom-fit", .activate = on_zoom_fit},
      {.name = "zoom-selection", .activate = on_zoom_selection},
      {.name = "primary-menu", .activate = on_primary_menu},
      {.name = "shortcuts", .activate = on_shortcuts},
      {.name = "close", .activate = on_close},
      {.name = "fullscreen", .state = "false", .change_state = on_fullscreen},
  };

  g_action_map_add_action_entries (G_ACTION_MAP (self), entries, G_N_ELEMENTS (entries), self);
  dry_window_add_board_actions (self);
  add_layer_actions (self);
  add_setting_actions (self);
}
