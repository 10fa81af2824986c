/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The window's actions on boards and seams of the selected wall, and on boards on hand.
 * Each asks the session or the canvas; none keeps state. */
#include "ui/window-private.h"

#include <glib/gi18n.h>

#include "ui/pieces.h"

/* The first piece of the wall, seams before boards: a seam is what can be moved. */
static void
on_pieces (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  DryWindow *self = data;
  DryId wall = dry_session_get_selection (self->session);
  g_autoptr (GArray) pieces = dry_pieces_list (dry_session_get_plan (self->session), wall);

  dry_session_set_layer (self->session, DRY_LAYER_BOARDS, TRUE);
  if (pieces->len == 0) {
    dry_window_tell (self, _ ("This wall has no boards"));
    return;
  }
  for (guint i = 0; i <= pieces->len; i++) {
    const DryPieceRef *piece = &g_array_index (pieces, DryPieceRef, i < pieces->len ? i : 0);

    if (i < pieces->len && piece->kind != DRY_PIECE_SEAM)
      continue;
    dry_session_select_piece (self->session, piece);
    break;
  }
  dry_canvas_focus_object (self->canvas, wall);
}

static void
on_seam_left (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  dry_act_step_seam (DRY_WINDOW (data)->session, -1);
}

static void
on_seam_right (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  dry_act_step_seam (DRY_WINDOW (data)->session, 1);
}

static void
on_release_seam (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  DryWindow *self = data;

  dry_canvas_cancel (self->canvas);
  dry_act_release_seam (self->session);
}

static void
on_release_seams (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  DryWindow *self = data;

  dry_canvas_cancel (self->canvas);
  dry_act_release_seams (self->session);
}

/* --- on hand --- */

static void
on_keep_offcut (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  DryWindow *self = data;
  guint sheet, offcut, room;

  g_variant_get (parameter, "(uuu)", &sheet, &offcut, &room);
  dry_act_keep_offcut (self->session, sheet, offcut, room);
}

static void
set_enabled (DryWindow *self, const char *name, gboolean enabled)
{
  GAction *action = g_action_map_lookup_action (G_ACTION_MAP (self), name);

  g_simple_action_set_enabled (G_SIMPLE_ACTION (action), enabled);
}

void
dry_window_update_board_actions (DryWindow *self)
{
  const DryRoom *room = dry_session_get_room (self->session);
  DryId object = dry_session_get_selection (self->session);
  const DryPieceRef *piece = dry_session_get_selected_piece (self->session);
  gboolean open = !self->vacant;
  gboolean wall = room != NULL && dry_room_get_wall (room, object) != NULL;
  gboolean seam = piece != NULL && piece->kind == DRY_PIECE_SEAM;

  set_enabled (self, "pieces", open && wall);
  set_enabled (self, "seam-left", open && seam && !piece->level);
  set_enabled (self, "seam-right", open && seam && !piece->level);
  set_enabled (self, "release-seam", open && seam);
  set_enabled (self, "release-seams", open && wall && room->n_seams > 0);
  set_enabled (self, "keep-offcut", open);
}

void
dry_window_add_board_actions (DryWindow *self)
{
  static const GActionEntry entries[] = {
      {.name = "pieces", .activate = on_pieces},
      {.name = "seam-left", .activate = on_seam_left},
      {.name = "seam-right", .activate = on_seam_right},
      {.name = "release-seam", .activate = on_release_seam},
      {.name = "release-seams", .activate = on_release_seams},
      {.name = "keep-offcut", .activate = on_keep_offcut, .parameter_type = "(uuu)"},
  };

  g_action_map_add_action_entries (G_ACTION_MAP (self), entries, G_N_ELEMENTS (entries), self);
}
