/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Edits of what the user has to say about boards: seams wished at a place, and sheets and offcuts
 * on hand. Knows nothing of how boards are laid out. */
#define G_LOG_DOMAIN "drybay-project"

#include "project/edit-private.h"
#include "project/fields.h"
#include "project/file.h"

/* --- seams --- */

DryProject *
dry_edit_set_seam (const DryProject *self, DryId room, const DrySeamWish *seam, DryId *id_out,
                   GError **error)
{
  DryEdit edit;
  DrySeamWish *at;

  if (!dry_edit_begin (&edit, self, room, error))
    return NULL;
  if (seam->id == 0) {
    edit.room->seams = g_renew (DrySeamWish, edit.room->seams, edit.room->n_seams + 1);
    at = &edit.room->seams[edit.room->n_seams++];
  } else if (dry_room_get_seam (edit.room, seam->id) != NULL) {
    at = &edit.room->seams[dry_room_get_seam (edit.room, seam->id) - edit.room->seams];
  } else {
    dry_edit_fail (error, DRY_ERROR_REFERENCE, "The room has no wished seam %u to replace.",
                   seam->id);
    return dry_edit_abandon (&edit);
  }
  *at = *seam;
  at->level = seam->level != FALSE;
  if (at->id == 0)
    at->id = dry_edit_take_id (&edit);
  if (id_out != NULL)
    *id_out = at->id;
  return dry_edit_finish (&edit, error);
}

DryProject *
dry_edit_clear_seams (const DryProject *self, DryId room, DryId wall, DrySide side, GError **error)
{
  DryEdit edit;

  if (!dry_edit_begin (&edit, self, room, error))
    return NULL;
  if (dry_room_get_wall (edit.room, wall) == NULL) {
    dry_edit_fail (error, DRY_ERROR_REFERENCE, "The room has no wall %u.", wall);
    return dry_edit_abandon (&edit);
  }
  for (guint i = edit.room->n_seams; i > 0; i--)
    if (edit.room->seams[i - 1].wall == wall && edit.room->seams[i - 1].side == side)
      dry_edit_remove_seam_at (edit.room, i - 1);
  return dry_edit_finish (&edit, error);
}

/* --- on hand --- */

static gboolean
is_same_board (const DryOnHand *a, const DryOnHand *b)
{
  const char *a_system = a->system != NULL ? a->system : "", *a_note = a->note ? a->note : "";
  const char *b_system = b->system != NULL ? b->system : "", *b_note = b->note ? b->note : "";

  return a->width == b->width && a->height == b->height && a->board == b->board &&
         g_str_equal (a_system, b_system) && g_str_equal (a_note, b_note);
}

DryProject *
dry_edit_set_on_hand (const DryProject *self, DryId room, guint index, const DryOnHand *board,
                      GError **error)
{
  DryEdit edit;
  DryOnHand *list;

  if (!dry_edit_begin (&edit, self, room, error))
    return NULL;
  if (index > edit.room->n_on_hand) {
    dry_edit_fail (error, DRY_ERROR_REFERENCE, "There is no board on hand %u to replace.", index);
    return dry_edit_abandon (&edit);
  }
  list = edit.room->on_hand;
  for (guint i = 0; index == edit.room->n_on_hand && i < index; i++)
    if (is_same_board (&list[i], board) && board->count > 0 &&
        list[i].count <= DRY_MAX_COUNT - board->count) {
      list[i].count += board->count;
      return dry_edit_finish (&edit, error);
    }
  if (index == edit.room->n_on_hand) {
    list = edit.room->on_hand = g_renew (DryOnHand, list, index + 1);
    edit.room->n_on_hand++;
  } else {
    dry_fields_clear (&dry_on_hand_fields, &list[index]);
  }
  list[index] = *board;
  dry_fields_own (&dry_on_hand_fields, &list[index]);
  return dry_edit_finish (&edit, error);
}

DryProject *
dry_edit_remove_on_hand (const DryProject *self, DryId room, guint index, GError **error)
{
  DryEdit edit;
  DryRoom *changed;

  if (!dry_edit_begin (&edit, self, room, error))
    return NULL;
  changed = edit.room;
  if (index >= changed->n_on_hand) {
    dry_edit_fail (error, DRY_ERROR_REFERENCE, "There is no board on hand %u to remove.", index);
    return dry_edit_abandon (&edit);
  }
  dry_fields_clear (&dry_on_hand_fields, &changed->on_hand[index]);
  for (guint i = index; i + 1 < changed->n_on_hand; i++)
    changed->on_hand[i] = changed->on_hand[i + 1];
  changed->n_on_hand--;
  return dry_edit_finish (&edit, error);
}
