/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A project as canonical text: the same project gives the same bytes in any locale.
 * Knows the order of the file; names and defaults of fields are fields.c's. */
#define G_LOG_DOMAIN "drybay-project"

#include "project/file.h"

#include <string.h>

#include "project/alternate.h"
#include "project/fields.h"

static gboolean
is_at_default (const DryField *field, gconstpointer value)
{
  gconstpointer at = (const guint8 *) value + field->offset;

  switch (field->type) {
  case DRY_FIELD_ID:
  case DRY_FIELD_POINT:
    return FALSE;
  case DRY_FIELD_TEXT:
    return *(const char *const *) at == NULL;
  case DRY_FIELD_FLAG:
  case DRY_FIELD_CHOICE:
    return *(const guint *) at == 0;
  case DRY_FIELD_INTEGER:
    return *(const gint *) at == (gint) field->fallback;
  case DRY_FIELD_NUMBER:
    return *(const double *) at == field->fallback;
  case DRY_FIELD_LENGTH:
    return *(const DryLength *) at == (DryLength) field->fallback;
  case DRY_FIELD_LENGTHS:
    return *(const guint *) ((const guint8 *) value + field->count_offset) == 0;
  }
  return FALSE;
}

static void
write_lengths (DryJsonWriter *writer, const char *key, const DryLength *lengths, guint n)
{
  dry_json_begin_array_inline (writer, key);
  for (guint i = 0; i < n; i++)
    dry_json_write_length (writer, NULL, lengths[i]);
  dry_json_end_array (writer);
}

static void
write_field (DryJsonWriter *writer, const DryField *field, gconstpointer value)
{
  gconstpointer at = (const guint8 *) value + field->offset;
  const DryPoint *point = at;

  switch (field->type) {
  case DRY_FIELD_ID:
    dry_json_write_integer (writer, field->key, *(const DryId *) at);
    break;
  case DRY_FIELD_TEXT:
    dry_json_write_string (writer, field->key, *(const char *const *) at);
    break;
  case DRY_FIELD_FLAG:
    dry_json_write_boolean (writer, field->key, *(const gboolean *) at);
    break;
  case DRY_FIELD_CHOICE:
    dry_json_write_string (writer, field->key, field->words[*(const guint *) at]);
    break;
  case DRY_FIELD_INTEGER:
    dry_json_write_integer (writer, field->key, *(const gint *) at);
    break;
  case DRY_FIELD_NUMBER:
    /* Adding 0 turns a negative zero into zero. */
    dry_json_write_number (writer, field->key, *(const double *) at + 0.0);
    break;
  case DRY_FIELD_LENGTH:
    dry_json_write_length (writer, field->key, *(const DryLength *) at);
    break;
  case DRY_FIELD_POINT:
    write_lengths (writer, field->key, (const DryLength[]){point->x, point->y}, 2);
    break;
  case DRY_FIELD_LENGTHS:
    write_lengths (writer, field->key, *(const DryLength *const *) at,
                   *(const guint *) ((const guint8 *) value + field->count_offset));
    break;
  }
}

static void
write_fields (DryJsonWriter *writer, const DryFieldSet *set, guint omit, gconstpointer value)
{
  const guint kept = DRY_FIELD_REQUIRED | DRY_FIELD_ALWAYS;

  for (guint i = 0; i < set->n; i++) {
    const DryField *field = &set->fields[i];

    if (!(field->flags & omit) && ((field->flags & kept) || !is_at_default (field, value)))
      write_field (writer, field, value);
  }
}

static void
write_object (DryJsonWriter *writer, const char *key, const DryFieldSet *set, guint omit,
              gconstpointer value)
{
  dry_json_begin_object (writer, key);
  write_fields (writer, set, omit, value);
  dry_json_end_object (writer);
}

/* An empty list is left out. */
static void
write_list (DryJsonWriter *writer, const char *key, const DryFieldSet *set, guint omit,
            gconstpointer list, guint n, gsize size)
{
  if (n == 0)
    return;
  dry_json_begin_array (writer, key);
  for (guint i = 0; i < n; i++)
    write_object (writer, NULL, set, omit, (const guint8 *) list + size * i);
  dry_json_end_array (writer);
}

static void
write_unknown (DryJsonWriter *writer, const char *unknown)
{
  g_autoptr (DryJsonDocument) document = NULL;
  guint n;

  if (unknown == NULL)
    return;
  document = dry_json_document_new (unknown, strlen (unknown), "kept fields", NULL);
  if (document == NULL)
    return; /* cannot be: room-check.c has read it */
  n = dry_json_member_count (dry_json_root (document));
  for (guint i = 0; i < n; i++) {
    const char *key = NULL;
    DryJson member = dry_json_member (dry_json_root (document), i, &key);
    g_autofree char *text = dry_json_to_text (member);

    dry_json_write_raw (writer, key, text);
  }
}

static void
write_room (DryJsonWriter *writer, const DryRoom *room)
{
  guint n_added = room->n_walls - room->n_outline;

  dry_json_begin_object (writer, NULL);
  write_fields (writer, &dry_room_fields, 0, room);
  write_list (writer, "walls", &dry_wall_fields, DRY_FIELD_ADDED_WALL, room->walls, room->n_outline,
              sizeof (DryWall));
  write_list (writer, "added_walls", &dry_wall_fields, 0, room->walls + room->n_outline, n_added,
              sizeof (DryWall));
  write_list (writer, "openings", &dry_opening_fields, 0, room->openings, room->n_openings,
              sizeof (DryOpening));
  if (room->basin.id != 0)
    write_object (writer, "basin", &dry_basin_fields, 0, &room->basin);
  write_object (writer, "wet", &dry_wet_zone_fields, 0, &room->wet);
  write_object (writer, "finish", &dry_finish_fields, 0, &room->finish);
  write_list (writer, "parts", &dry_part_fields, 0, room->parts, room->n_parts, sizeof (DryPart));
  write_list (writer, "seams", &dry_seam_fields, 0, room->seams, room->n_seams,
              sizeof (DrySeamWish));
  write_list (writer, "on_hand", &dry_on_hand_fields, 0, room->on_hand, room->n_on_hand,
              sizeof (DryOnHand));
  write_unknown (writer, room->unknown);
  dry_json_end_object (writer);
}

/* A file without alternates has no such member. */
static void
write_alternates (DryJsonWriter *writer, const DryProject *self)
{
  guint n = dry_project_get_n_alternates (self);

  if (n == 0)
    return;
  dry_json_begin_array (writer, "alternates");
  for (guint i = 0; i < n; i++) {
    const DryAlternate *alternate = dry_project_get_alternate_at (self, i);
    dry_json_begin_object (writer, NULL);
    dry_json_write_integer (writer, "id", dry_alternate_get_id (alternate));
    dry_json_write_string (writer, "name", dry_alternate_get_name (alternate));
    if (dry_alternate_get_note (alternate) != NULL)
      dry_json_write_string (writer, "note", dry_alternate_get_note (alternate));
    dry_json_begin_array (writer, "rooms");
    for (guint j = 0; j < dry_alternate_get_n_rooms (alternate); j++)
      write_room (writer, dry_alternate_get_room_at (alternate, j));
    dry_json_end_array (writer);
    dry_json_end_object (writer);
  }
  dry_json_end_array (writer);
}

static void
write_project (DryJsonWriter *writer, const DryProject *self)
{
  guint n = dry_project_get_n_rooms (self);

  dry_json_begin_object (writer, NULL);
  /* The format comes first, so that a file is known by its first bytes. */
  dry_json_write_string (writer, "format", DRY_FILE_FORMAT);
  dry_json_write_integer (writer, "version", DRY_FILE_VERSION);
  dry_json_write_integer (writer, "next_id", dry_project_get_next_id (self));
  write_object (writer, "job", &dry_job_fields, 0, dry_project_get_job (self));
  dry_json_begin_array (writer, "rooms");
  for (guint i = 0; i < n; i++)
    write_room (writer, dry_project_get_room_at (self, i));
  dry_json_end_array (writer);
  write_alternates (writer, self);
  dry_json_end_object (writer);
}

/* Line ends and spaces are for people; a project that is too large with them goes without, so that
 * what could be opened can be saved. */
char *
dry_project_to_text (const DryProject *self, gsize *length)
{
  DryJsonWriter *writer = dry_json_writer_new ();
  gsize n_bytes;
  char *text;

  write_project (writer, self);
  text = dry_json_writer_finish (writer, &n_bytes);
  if (n_bytes > DRY_JSON_MAX_BYTES) {
    g_free (text);
    writer = dry_json_writer_new ();
    dry_json_writer_set_flat (writer);
    write_project (writer, self);
    text = dry_json_writer_finish (writer, &n_bytes);
  }
  if (length != NULL)
    *length = n_bytes;
  return text;
}
