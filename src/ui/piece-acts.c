/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What boards and seams are called, and acts on the selected seam: to move it is to wish it there.
 * Needs nothing but the session. */
#include "ui/pieces.h"

#include <glib/gi18n.h>

#include "ui/actions.h"

/* --- names --- */

char *
dry_piece_name (DrySession *session, const DryPieceRef *self)
{
  const DryBoard *board = dry_piece_get_board (dry_session_get_plan (session), self);
  g_autofree char *at = dry_session_format_length (session, dry_piece_get_at (self));

  if (self->kind == DRY_PIECE_BOARD)
    /* Translators: mark of a board, as in "Board B2" */
    return board != NULL ? g_strdup_printf (_ ("Board %s"), board->mark) : g_strdup (_ ("Board"));
  /* Translators: distance from the wall's left end, or height above the floor */
  return g_strdup_printf (self->level ? _ ("Level seam at %s") : _ ("Upright seam at %s"), at);
}

static const char *
describe_seam (const DryRoom *room, const DryPlan *plan, const DryPieceRef *self)
{
  const DrySeam *seam = dry_piece_get_seam (plan, self);
  const DrySeamWish *wish = dry_piece_get_wish (room, plan, self);

  if (seam == NULL)
    return wish != NULL ? _ ("wished, not laid") : _ ("not there now");
  if (self->level)
    return wish != NULL ? _ ("wished, on blocking") : _ ("planned, on blocking");
  if (seam->member < 0)
    return wish != NULL ? _ ("wished, off the studs") : _ ("planned, off the studs");
  return wish != NULL ? _ ("wished, on a stud") : _ ("planned, on a stud");
}

char *
dry_piece_place (DrySession *session, const DryPieceRef *self)
{
  const DryPlan *plan = dry_session_get_plan (session);
  g_autofree char *wall = dry_object_name (session, self->wall);
  DryRect r;

  if (self->kind == DRY_PIECE_SEAM)
    return g_strdup_printf ("%s, %s", wall,
                            describe_seam (dry_session_get_room (session), plan, self));
  if (!dry_piece_get_rect (plan, dry_session_get_room (session), self, &r))
    return g_strdup (wall);
  g_autofree char *width = dry_session_format_length (session, dry_rect_width (r));
  g_autofree char *height = dry_session_format_length (session, dry_rect_height (r));

  return g_strdup_printf ("%s, %s × %s", wall, width, height);
}

/* --- acts --- */

DryProject *
dry_piece_wish_at (const DryProject *project, const DryRoom *room, const DryPlan *plan,
                   const DryPieceRef *self, DryLength at, DryId *id, GError **error)
{
  const DrySeamWish *old = dry_piece_get_wish (room, plan, self);
  DrySeamWish wish = {.wall = self->wall,
                      .side = self->side,
                      .level = self->level,
                      .through = self->level ? self->at.x : self->at.y};

  if (old != NULL)
    wish = *old;
  wish.at = at;
  return dry_edit_set_seam (project, room->id, &wish, id, error);
}

gboolean
dry_piece_next_place (const DryPlan *plan, const DryPieceRef *self, gint direction, DryLength *at)
{
  const DryFace *face =
      plan != NULL ? dry_faces_get_wall (plan->faces, self->wall, self->side) : NULL;
  const DrySeam *seam = dry_piece_get_seam (plan, self);
  DryLength from = dry_piece_get_at (self), best = -1;

  if (face == NULL || self->level)
    return FALSE;
  g_autoptr (GArray) places = dry_boards_list_seam_places (&plan->context, face, plan->framing,
                                                           seam != NULL ? seam->from.y : self->at.y,
                                                           seam != NULL ? seam->to.y : self->at.y);

  for (guint i = 0; i < places->len; i++) {
    DryLength place = g_array_index (places, DrySeamPlace, i).at;
    DryLength away = (place - from) * direction;

    if (away <= 0 || (best >= 0 && away >= best))
      continue;
    best = away;
    *at = place;
  }
  return best >= 0;
}

static const DryPieceRef *
get_seam_ref (DrySession *session)
{
  const DryPieceRef *ref = dry_session_get_selected_piece (session);

  return ref != NULL && ref->kind == DRY_PIECE_SEAM && dry_session_get_room (session) != NULL
             ? ref
             : NULL;
}

gboolean
dry_act_move_seam (DrySession *session, DryLength at, gboolean merge)
{
  const DryPieceRef *ref = get_seam_ref (session);
  g_autofree char *key = NULL;
  GError *error = NULL;
  DryPieceRef moved;
  DryId id = 0;
  DryProject *next;

  if (ref == NULL)
    return FALSE;
  moved = dry_piece_moved_to (ref, at);
  next = dry_piece_wish_at (dry_session_get_project (session), dry_session_get_room (session),
                            dry_session_get_plan (session), ref, at, &id, &error);
  key = g_strdup_printf ("seam:%u", id);
  if (!dry_session_apply (session, next, _ ("Move seam"), merge ? key : NULL, error))
    return FALSE;
  /* The wish keeps its own point, so that the same seam is meant after it was moved. */
  if (dry_room_get_seam (dry_session_get_room (session), id) != NULL)
    moved = dry_piece_of_wish (dry_room_get_seam (dry_session_get_room (session), id));
  dry_session_follow_piece (session, &moved);
  return TRUE;
}

gboolean
dry_act_nudge_seam (DrySession *session, DryLength by)
{
  const DryPieceRef *ref = get_seam_ref (session);

  return ref != NULL && dry_act_move_seam (session, dry_piece_get_at (ref) + by, TRUE);
}

gboolean
dry_act_step_seam (DrySession *session, gint direction)
{
  const DryPieceRef *ref = get_seam_ref (session);
  DryLength at;

  if (ref == NULL || !dry_piece_next_place (dry_session_get_plan (session), ref, direction, &at)) {
    g_signal_emit_by_name (session, "told", _ ("No stud that way carries a seam"), NULL);
    return FALSE;
  }
  return dry_act_move_seam (session, at, FALSE);
}

gboolean
dry_act_release_seam (DrySession *session)
{
  const DryPieceRef *ref = get_seam_ref (session);
  const DryRoom *room = dry_session_get_room (session);
  const DrySeamWish *wish =
      ref != NULL ? dry_piece_get_wish (room, dry_session_get_plan (session), ref) : NULL;
  GError *error = NULL;
  DryProject *next;

  if (wish == NULL) {
    g_signal_emit_by_name (session, "told", _ ("The plan has chosen this seam already"), NULL);
    return FALSE;
  }
  next = dry_edit_remove (dry_session_get_project (session), room->id, wish->id, &error);
  if (!dry_session_apply (session, next, _ ("Let the plan choose seam"), NULL, error))
    return FALSE;
  g_signal_emit_by_name (session, "told", _ ("The plan chooses this seam again"),
                         _ ("Let the plan choose seam"));
  return TRUE;
}

gboolean
dry_act_release_seams (DrySession *session)
{
  const DryRoom *room = dry_session_get_room (session);
  const DryWall *wall =
      room != NULL ? dry_room_get_wall (room, dry_session_get_selection (session)) : NULL;
  const DryPieceRef *ref = dry_session_get_selected_piece (session);
  DryProject *next;
  GError *error = NULL;

  if (wall == NULL)
    return FALSE;
  next = dry_edit_clear_seams (dry_session_get_project (session), room->id, wall->id,
                               ref != NULL ? ref->side : DRY_SIDE_INSIDE, &error);
  return dry_session_apply (session, next, _ ("Let the plan choose seams"), NULL, error);
}

/* --- offcuts --- */

gboolean
dry_act_keep_offcut (DrySession *session, guint sheet, guint offcut, DryId room)
{
  const DryPlan *plan = dry_session_get_plan (session);
  const DryRoom *from = dry_session_get_room (session);
  const DryProject *project = dry_session_get_project (session);
  const DryRoom *to = dry_project_get_room (project, room);
  const DryCutting *cutting = plan != NULL ? plan->boards->cutting : NULL;
  GError *error = NULL;
  DryOnHand board;
  DryProject *next;

  /* Its own room is where the offcut comes from: it cannot be cut first there. */
  if (cutting == NULL || from == NULL || to == NULL || to == from || sheet >= cutting->n_sheets ||
      offcut >= cutting->sheets[sheet].n_offcuts)
    return FALSE;
  DryRect r = cutting->sheets[sheet].offcuts[offcut];
  g_autofree char *width = dry_session_format_length (session, dry_rect_width (r));
  g_autofree char *height = dry_session_format_length (session, dry_rect_height (r));
  /* Translators: name of a room */
  g_autofree char *note = g_strdup_printf (_ ("offcut of %s"), from->name);
  /* Translators: width, height, name of a room */
  g_autofree char *text =
      g_strdup_printf (_ ("Offcut %s × %s is on hand in %s"), width, height, to->name);

  board = (DryOnHand){.system = from->finish.system,
                      .board = plan->context.build_up.board,
                      .width = dry_rect_width (r),
                      .height = dry_rect_height (r),
                      .count = 1,
                      .note = note};
  next = dry_edit_set_on_hand (project, room, to->n_on_hand, &board, &error);
  if (!dry_session_apply (session, next, _ ("Keep offcut"), NULL, error))
    return FALSE;
  g_signal_emit_by_name (session, "told", text, _ ("Keep offcut"));
  return TRUE;
}

GMenuModel *
dry_offcuts_menu (DrySession *session, guint sheet)
{
  const DryPlan *plan = dry_session_get_plan (session);
  const DryProject *project = dry_session_get_project (session);
  const DryCutting *cutting = plan != NULL ? plan->boards->cutting : NULL;
  GMenu *menu = g_menu_new ();

  for (guint r = 0; r < dry_project_get_n_rooms (project); r++) {
    const DryRoom *room = dry_project_get_room_at (project, r);
    g_autoptr (GMenu) section = g_menu_new ();
    /* Translators: name of a room */
    g_autofree char *title = g_strdup_printf (_ ("On hand in %s"), room->name);

    if (room->id == dry_session_get_room_id (session) || cutting == NULL ||
        sheet >= cutting->n_sheets)
      continue;
    for (guint i = 0; i < cutting->sheets[sheet].n_offcuts; i++) {
      DryRect rect = cutting->sheets[sheet].offcuts[i];
      g_autofree char *width = dry_session_format_length (session, dry_rect_width (rect));
      g_autofree char *height = dry_session_format_length (session, dry_rect_height (rect));
      g_autofree char *label = g_strdup_printf ("%s × %s", width, height);
      g_autoptr (GMenuItem) item = g_menu_item_new (label, NULL);

      g_menu_item_set_action_and_target (item, "win.keep-offcut", "(uuu)", sheet, i, room->id);
      g_menu_append_item (section, item);
    }
    if (g_menu_model_get_n_items (G_MENU_MODEL (section)) > 0)
      g_menu_append_section (menu, title, G_MENU_MODEL (section));
  }
  return G_MENU_MODEL (menu);
}
