/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Alternates as counted values beside the rooms, the project each stands for, and the edits of
 * them. How a change of the base reaches them is alternate-merge.c's. */
#define G_LOG_DOMAIN "drybay-project"

#include <string.h>

#include "project/alternate-private.h"
#include "project/edit-private.h"
#include "project/fields.h"

DryAlternate *
dry_alternate_new (DryId id, const char *name, const char *note, GPtrArray *boxes)
{
  DryAlternate *self = g_new0 (DryAlternate, 1);

  g_atomic_ref_count_init (&self->references);
  self->id = id;
  self->name = g_strdup (name);
  self->note = note && *note ? g_strdup (note) : NULL;
  self->boxes = boxes;
  return self;
}

DryAlternate *
dry_alternate_ref (DryAlternate *self)
{
  g_atomic_ref_count_inc (&self->references);
  return self;
}

void
dry_alternate_unref (DryAlternate *self)
{
  if (!g_atomic_ref_count_dec (&self->references))
    return;
  g_ptr_array_unref (self->boxes);
  g_free (self->name);
  g_free (self->note);
  g_free (self);
}

static GPtrArray *
new_boxes (void)
{
  return g_ptr_array_new_with_free_func ((GDestroyNotify) dry_room_box_unref);
}

static GPtrArray *
new_list (void)
{
  return g_ptr_array_new_with_free_func ((GDestroyNotify) dry_alternate_unref);
}

GPtrArray *
dry_project_share_alternates (const DryProject *self)
{
  GPtrArray *list = new_list ();

  for (guint i = 0; i < dry_project_get_n_alternates (self); i++)
    g_ptr_array_add (list,
                     dry_alternate_ref ((DryAlternate *) dry_project_get_alternate_at (self, i)));
  return list;
}

const DryAlternate *
dry_project_get_alternate (const DryProject *self, DryId id)
{
  for (guint i = 0; i < dry_project_get_n_alternates (self); i++)
    if (dry_project_get_alternate_at (self, i)->id == id)
      return dry_project_get_alternate_at (self, i);
  return NULL;
}

DryId
dry_alternate_get_id (const DryAlternate *self)
{
  return self->id;
}

const char *
dry_alternate_get_name (const DryAlternate *self)
{
  return self->name;
}

const char *
dry_alternate_get_note (const DryAlternate *self)
{
  return self->note;
}

guint
dry_alternate_get_n_rooms (const DryAlternate *self)
{
  return self->boxes->len;
}

const DryRoom *
dry_alternate_get_room_at (const DryAlternate *self, guint index)
{
  const DryRoomBox *box = index < self->boxes->len ? self->boxes->pdata[index] : NULL;

  return box ? box->room : NULL;
}

/* Puts the alternate's rooms over those of the base. */
static void
lay_over (GPtrArray *boxes, const DryAlternate *alternate)
{
  for (guint i = 0; i < alternate->boxes->len; i++) {
    DryRoomBox *own = alternate->boxes->pdata[i];
    for (guint j = 0; j < boxes->len; j++) {
      DryRoomBox *base = boxes->pdata[j];
      if (base->room->id != own->room->id)
        continue;
      boxes->pdata[j] = dry_room_box_ref (own);
      dry_room_box_unref (base);
    }
  }
}

DryProject *
dry_project_resolve (const DryProject *self, DryId alternate)
{
  const DryAlternate *found = dry_project_get_alternate (self, alternate);
  GPtrArray *boxes;

  if (!found)
    return NULL;
  boxes = dry_project_share_boxes (self);
  lay_over (boxes, found);
  return dry_project_assemble (dry_project_get_job (self), boxes, NULL,
                               dry_project_get_next_id (self));
}

/* --- edits --- */

static gboolean
check_texts (const char *name, const char *note, GError **error)
{
  if (!name || name[strspn (name, " \t\r\n")] == '\0')
    return dry_edit_fail (error, DRY_ERROR_TEXT, "An alternate needs a name.");
  if (strlen (name) > DRY_MAX_TEXT || (note && strlen (note) > DRY_MAX_TEXT))
    return dry_edit_fail (error, DRY_ERROR_LIMIT, "Name or note of the alternate is too long.");
  if (!g_utf8_validate (name, -1, NULL) || (note && !g_utf8_validate (note, -1, NULL)))
    return dry_edit_fail (error, DRY_ERROR_TEXT, "Name or note of the alternate is not UTF-8.");
  return TRUE;
}

static const DryAlternate *
find (const DryProject *self, DryId id, guint *index, GError **error)
{
  for (guint i = 0; i < dry_project_get_n_alternates (self); i++)
    if (dry_project_get_alternate_at (self, i)->id == id) {
      *index = i;
      return dry_project_get_alternate_at (self, i);
    }
  dry_edit_fail (error, DRY_ERROR_REFERENCE, "The project has no alternate %u.", id);
  return NULL;
}

static DryProject *
assemble (const DryProject *self, GPtrArray *alternates, DryId next_id)
{
  return dry_project_assemble (dry_project_get_job (self), dry_project_share_boxes (self),
                               alternates, next_id);
}

DryProject *
dry_edit_add_alternate (const DryProject *self, const char *name, const char *note, DryId *id_out,
                        GError **error)
{
  DryEdit ids = {.next_id = dry_project_get_next_id (self)};
  GPtrArray *list;
  DryId id;

  if (!check_texts (name, note, error))
    return NULL;
  id = dry_edit_take_id (&ids);
  if (ids.out_of_ids) {
    dry_edit_fail (error, DRY_ERROR_LIMIT, "The project has used up all its object numbers.");
    return NULL;
  }
  if (dry_project_get_n_alternates (self) >= DRY_MAX_ALTERNATES) {
    dry_edit_fail (error, DRY_ERROR_LIMIT, "A project may have at most %d alternates.",
                   DRY_MAX_ALTERNATES);
    return NULL;
  }
  list = dry_project_share_alternates (self);
  g_ptr_array_add (list, dry_alternate_new (id, name, note, new_boxes ()));
  if (id_out)
    *id_out = id;
  return assemble (self, list, ids.next_id);
}

static GPtrArray *
share_boxes_of (const DryAlternate *alternate)
{
  GPtrArray *boxes = new_boxes ();

  for (guint i = 0; i < alternate->boxes->len; i++)
    g_ptr_array_add (boxes, dry_room_box_ref (alternate->boxes->pdata[i]));
  return boxes;
}

/* Takes `changed` in the place of the one at `index`. */
static DryProject *
replace (const DryProject *self, guint index, DryAlternate *changed, DryId next_id)
{
  GPtrArray *list = dry_project_share_alternates (self);

  dry_alternate_unref (list->pdata[index]);
  list->pdata[index] = changed;
  return assemble (self, list, next_id);
}

DryProject *
dry_edit_rename_alternate (const DryProject *self, DryId alternate, const char *name,
                           const char *note, GError **error)
{
  guint index;
  const DryAlternate *old = find (self, alternate, &index, error);

  if (!old || !check_texts (name, note, error))
    return NULL;
  return replace (self, index, dry_alternate_new (old->id, name, note, share_boxes_of (old)),
                  dry_project_get_next_id (self));
}

DryProject *
dry_edit_remove_alternate (const DryProject *self, DryId alternate, GError **error)
{
  GPtrArray *list;
  guint index;

  if (!find (self, alternate, &index, error))
    return NULL;
  list = dry_project_share_alternates (self);
  g_ptr_array_remove_index (list, index);
  return assemble (self, list, dry_project_get_next_id (self));
}

/* The rooms of `changed` that are not the very rooms of `base`. */
static GPtrArray *
take_differing (GPtrArray *base, GPtrArray *changed)
{
  GPtrArray *boxes = new_boxes ();

  for (guint i = 0; i < changed->len; i++) {
    DryRoomBox *box = changed->pdata[i];
    for (guint j = 0; j < base->len; j++) {
      const DryRoomBox *other = base->pdata[j];
      if (other->room->id == box->room->id && other != box)
        g_ptr_array_add (boxes, dry_room_box_ref (box));
    }
  }
  return boxes;
}

DryProject *
dry_edit_set_alternate (const DryProject *self, DryId alternate, const DryProject *changed,
                        GError **error)
{
  guint index;
  const DryAlternate *old = find (self, alternate, &index, error);
  g_autoptr (GPtrArray) base = NULL, boxes = NULL;

  if (!old)
    return NULL;
  base = dry_project_share_boxes (self);
  boxes = dry_project_share_boxes (changed);
  return replace (self, index,
                  dry_alternate_new (old->id, old->name, old->note, take_differing (base, boxes)),
                  MAX (dry_project_get_next_id (self), dry_project_get_next_id (changed)));
}

/* The alternate stays what it is when the base becomes `chosen`: it gets rooms of its own wherever
 * its result would differ from that. */
static DryAlternate *
pin (const DryProject *self, const DryAlternate *alternate, GPtrArray *chosen)
{
  g_autoptr (GPtrArray) result = dry_project_share_boxes (self);

  lay_over (result, alternate);
  return dry_alternate_new (alternate->id, alternate->name, alternate->note,
                            take_differing (chosen, result));
}

DryProject *
dry_edit_choose_alternate (const DryProject *self, DryId alternate, const char *former,
                           GError **error)
{
  guint index;
  const DryAlternate *found = find (self, alternate, &index, error);
  GPtrArray *list, *boxes;
  g_autoptr (GPtrArray) before = NULL;

  if (!found || !check_texts (former, NULL, error))
    return NULL;
  before = dry_project_share_boxes (self);
  boxes = dry_project_share_boxes (self);
  lay_over (boxes, found);
  list = new_list ();
  for (guint i = 0; i < dry_project_get_n_alternates (self); i++)
    g_ptr_array_add (list, i == index ? dry_alternate_new (found->id, former, NULL,
                                                           take_differing (boxes, before))
                                      : pin (self, dry_project_get_alternate_at (self, i), boxes));
  return dry_project_assemble (dry_project_get_job (self), boxes, list,
                               dry_project_get_next_id (self));
}

/* --- after the base changed --- */

/* What stands in the variant's place: merged, or as it was where that could not stand. */
static DryRoomBox *
rebase_box (DryRoomBox *box, const DryRoom *before, const DryRoom *after)
{
  DryRoom *merged = dry_room_merge (before, after, box->room);

  return merged ? dry_room_box_new (merged) : dry_room_box_ref (box);
}

GPtrArray *
dry_project_rebase_alternates (const DryProject *self, const DryRoom *before, const DryRoom *after)
{
  GPtrArray *list = dry_project_share_alternates (self);

  for (guint i = 0; i < list->len; i++) {
    DryAlternate *old = list->pdata[i];
    GPtrArray *boxes = new_boxes ();
    gboolean changed = FALSE;
    for (guint j = 0; j < old->boxes->len; j++) {
      DryRoomBox *box = old->boxes->pdata[j];
      if (box->room->id != before->id)
        g_ptr_array_add (boxes, dry_room_box_ref (box));
      else {
        changed = TRUE;
        if (after)
          g_ptr_array_add (boxes, rebase_box (box, before, after));
      }
    }
    if (changed) {
      list->pdata[i] = dry_alternate_new (old->id, old->name, old->note, boxes);
      dry_alternate_unref (old);
    } else
      g_ptr_array_unref (boxes);
  }
  return list;
}
