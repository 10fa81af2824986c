/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A project from text, strictly: whatever is read is whole and valid, or there is an error that
 * says where and why. Only a room keeps fields it does not know; anywhere else they are refused,
 * because dropping them silently would lose work. */
#define G_LOG_DOMAIN "drybay-project"

#include "project/file.h"

#include <string.h>

#include "project/alternate-private.h"
#include "project/fields.h"
#include "project/project-private.h"
#include "project/room-check.h"

/* More unknown fields than any newer version would add are a broken or hostile file. Known ones do
 * not count: saving writes some that were left out. */
#define MAX_UNKNOWN_FIELDS 256

/* In less there are neither too many bytes nor too many values, whatever saving adds. */
#define LARGE (256 * 1024)

static void
read_lengths (const DryField *field, DryJson node, gpointer value)
{
  guint n = dry_json_array_length (node);
  DryLength *lengths;

  if (n > DRY_MAX_FOUND_STUDS) {
    dry_json_fail (node, DRY_ERROR_LIMIT, "%u places; at most %d may be", n, DRY_MAX_FOUND_STUDS);
    return;
  }
  lengths = g_new0 (DryLength, n);
  for (guint i = 0; i < n; i++)
    lengths[i] = dry_json_length (dry_json_item (node, i), (DryLength) field->minimum,
                                  (DryLength) field->maximum);
  G_STRUCT_MEMBER (DryLength *, value, field->offset) = lengths;
  G_STRUCT_MEMBER (guint, value, field->count_offset) = n;
}

static void
read_point (const DryField *field, DryJson node, DryPoint *point)
{
  const DryLength least = (DryLength) field->minimum, most = (DryLength) field->maximum;

  if (dry_json_array_length (node) != 2) {
    dry_json_fail (node, DRY_ERROR_SCHEMA, "a point is [x, y]");
    return;
  }
  point->x = dry_json_length (dry_json_item (node, 0), least, most);
  point->y = dry_json_length (dry_json_item (node, 1), least, most);
}

static void
read_text (const DryField *field, DryJson node, gpointer value)
{
  const char *text = dry_json_string (node);

  if (strlen (text) > (gsize) field->maximum)
    dry_json_fail (node, DRY_ERROR_LIMIT, "longer than %d bytes", (int) field->maximum);
  else if (*text == '\0' && (field->flags & DRY_FIELD_FILLED))
    dry_json_fail (node, DRY_ERROR_SCHEMA, "must not be empty");
  else if (*text != '\0') {
    char **at = G_STRUCT_MEMBER_P (value, field->offset);

    g_free (*at);
    *at = g_strdup (text);
  }
}

static void
read_field (const DryField *field, DryJson node, gpointer value)
{
  gpointer at = G_STRUCT_MEMBER_P (value, field->offset);

  switch (field->type) {
  case DRY_FIELD_ID:
    *(DryId *) at = (DryId) dry_json_integer (node, 1, G_MAXUINT32);
    break;
  case DRY_FIELD_TEXT:
    read_text (field, node, value);
    break;
  case DRY_FIELD_FLAG:
    *(gboolean *) at = dry_json_boolean (node);
    break;
  case DRY_FIELD_CHOICE:
    *(guint *) at = dry_json_choice (node, field->words);
    break;
  case DRY_FIELD_INTEGER:
    *(gint *) at = (gint) dry_json_integer (node, (gint64) field->minimum, (gint64) field->maximum);
    break;
  case DRY_FIELD_NUMBER:
    *(double *) at = dry_json_number (node, field->minimum, field->maximum);
    break;
  case DRY_FIELD_LENGTH:
    *(DryLength *) at =
        dry_json_length (node, (DryLength) field->minimum, (DryLength) field->maximum);
    break;
  case DRY_FIELD_POINT:
    read_point (field, node, at);
    break;
  case DRY_FIELD_LENGTHS:
    read_lengths (field, node, value);
    break;
  }
}

/* Reads into zeroed memory; what is absent gets its default. */
static void
read_known (const DryFieldSet *set, guint omit, DryJson object, gpointer value)
{
  dry_fields_reset (set, value);
  for (guint i = 0; i < set->n && !dry_json_has_failed (object.doc); i++) {
    const DryField *field = &set->fields[i];
    DryJson node;

    if (field->flags & omit)
      continue;
    node = field->flags & DRY_FIELD_REQUIRED ? dry_json_get (object, field->key)
                                             : dry_json_opt (object, field->key);
    if ((field->flags & DRY_FIELD_REQUIRED) || dry_json_is_present (node))
      read_field (field, node, value);
  }
}

static gboolean
is_in_set (const DryFieldSet *set, guint omit, const char *key)
{
  for (guint i = 0; i < set->n; i++)
    if (!(set->fields[i].flags & omit) && strcmp (set->fields[i].key, key) == 0)
      return TRUE;
  return FALSE;
}

static void
refuse_unknown (const DryFieldSet *set, guint omit, DryJson object)
{
  guint n = dry_json_member_count (object);

  for (guint i = 0; i < n; i++) {
    const char *key = NULL;
    DryJson member = dry_json_member (object, i, &key);

    if (is_in_set (set, omit, key) || dry_json_leave_out (member, "unknown field"))
      continue;
    dry_json_fail (member, DRY_ERROR_SCHEMA, "unknown field");
    return;
  }
}

static void
read_object (const DryFieldSet *set, guint omit, DryJson object, gpointer value)
{
  refuse_unknown (set, omit, object);
  read_known (set, omit, object, value);
}

/* A thing of a kind that a newer version brought: shown as anything else it would be a lie. */
static gboolean
is_of_unknown_kind (const DryFieldSet *set, DryJson object)
{
  DryJson kind = dry_json_opt (object, "kind");

  for (guint i = 0; i < set->n && dry_json_is_present (kind); i++)
    if (strcmp (set->fields[i].key, "kind") == 0) {
      const char *word = dry_json_string (kind);

      return !dry_json_has_failed (object.doc) && !g_strv_contains (set->fields[i].words, word) &&
             dry_json_leave_out (kind, "unknown word “%s”", word);
    }
  return FALSE;
}

/* Zeroed elements of `size`, read one by one; `n` counts those begun, so that a failure half way
 * leaves a list that can be freed. */
static gpointer
read_list (DryJson room, const char *key, guint most, const DryFieldSet *set, guint omit,
           gsize size, guint *n)
{
  DryJson list = dry_json_opt (room, key);
  guint count = dry_json_is_present (list) ? dry_json_array_length (list) : 0;
  guint8 *values;

  *n = 0;
  if (count > most) {
    dry_json_fail (list, DRY_ERROR_LIMIT, "%u %s; a room may have at most %u", count, key, most);
    return NULL;
  }
  values = g_malloc0 (size * count);
  for (guint i = 0; i < count && !dry_json_has_failed (room.doc); i++) {
    DryJson item = dry_json_item (list, i);

    if (!is_of_unknown_kind (set, item))
      read_object (set, omit, item, values + size * (*n)++);
  }
  return values;
}

static void
read_walls (DryJson node, DryRoom *room)
{
  guint n_added;
  DryWall *outline, *added;

  outline = read_list (node, "walls", DRY_MAX_WALLS, &dry_wall_fields, DRY_FIELD_ADDED_WALL,
                       sizeof (DryWall), &room->n_outline);
  added = read_list (node, "added_walls", DRY_MAX_WALLS, &dry_wall_fields, 0, sizeof (DryWall),
                     &n_added);
  for (guint i = 0; outline != NULL && i < room->n_outline; i++)
    outline[i].end = outline[(i + 1) % room->n_outline].start;
  for (guint i = 0; added != NULL && i < n_added; i++)
    added[i].added = TRUE;
  room->n_walls = room->n_outline + n_added;
  room->walls = g_renew (DryWall, outline, room->n_walls);
  if (added != NULL && n_added > 0)
    memcpy (room->walls + room->n_outline, added, sizeof (DryWall) * n_added);
  g_free (added);
}

static void
read_unknown (DryJson node, DryRoom *room)
{
  guint n = dry_json_member_count (node), n_unknown = 0;
  g_autoptr (DryJsonWriter) writer = NULL;

  for (guint i = 0; i < n; i++) {
    const char *key = NULL;
    DryJson member = dry_json_member (node, i, &key);
    g_autofree char *text = NULL;

    if (dry_room_key_is_known (key))
      continue;
    dry_json_leave_out (member, "unknown field, kept");
    if (++n_unknown > MAX_UNKNOWN_FIELDS) {
      dry_json_fail (node, DRY_ERROR_LIMIT, "a room may have at most %d fields of other versions",
                     MAX_UNKNOWN_FIELDS);
      return;
    }
    if (writer == NULL) {
      writer = dry_json_writer_new ();
      dry_json_begin_object (writer, NULL);
    }
    text = dry_json_to_text (member);
    dry_json_write_raw (writer, key, text);
  }
  if (writer == NULL)
    return;
  dry_json_end_object (writer);
  room->unknown = dry_json_writer_finish (g_steal_pointer (&writer), NULL);
}

/* Hands a problem of the value to the node it came from. */
static void
report_problem (DryJson node, const DryProblem *problem)
{
  DryJson at = node;

  if (problem->list != NULL)
    at = dry_json_opt (at, problem->list);
  if (problem->index >= 0 && dry_json_is_present (at))
    at = dry_json_item (at, (guint) problem->index);
  if (problem->key != NULL && dry_json_is_present (at)) {
    DryJson member = dry_json_opt (at, problem->key);

    if (dry_json_is_present (member))
      at = member;
  }
  dry_json_fail (dry_json_is_present (at) ? at : node, problem->code, "%s", problem->message);
}

static DryRoom *
read_room (DryJson node)
{
  DryRoom *room = g_new0 (DryRoom, 1);
  DryProblem problem = {0};
  DryJson basin = dry_json_opt (node, "basin");

  read_known (&dry_room_fields, 0, node, room);
  read_unknown (node, room);
  read_walls (node, room);
  room->openings = read_list (node, "openings", DRY_MAX_PARTS, &dry_opening_fields, 0,
                              sizeof (DryOpening), &room->n_openings);
  if (dry_json_is_present (basin))
    read_object (&dry_basin_fields, 0, basin, &room->basin);
  read_object (&dry_wet_zone_fields, 0, dry_json_get (node, "wet"), &room->wet);
  read_object (&dry_finish_fields, 0, dry_json_get (node, "finish"), &room->finish);
  room->parts = read_list (node, "parts", DRY_MAX_PARTS, &dry_part_fields, 0, sizeof (DryPart),
                           &room->n_parts);
  room->seams = read_list (node, "seams", DRY_MAX_SEAMS, &dry_seam_fields, 0, sizeof (DrySeamWish),
                           &room->n_seams);
  room->on_hand = read_list (node, "on_hand", DRY_MAX_SEAMS, &dry_on_hand_fields, 0,
                             sizeof (DryOnHand), &room->n_on_hand);
  if (!dry_json_has_failed (node.doc) && !dry_room_check (room, &problem))
    report_problem (node, &problem);
  dry_problem_clear (&problem);
  return room;
}

static void
claim_id (GHashTable *ids, DryId id, DryJson at)
{
  if (!g_hash_table_add (ids, GUINT_TO_POINTER (id)))
    dry_json_fail (at, DRY_ERROR_REFERENCE, "id %u is used by another object too", id);
}

/* Within a room ids are known to differ; here the rooms are compared with one another. */
static void
claim_room_ids (GHashTable *ids, const DryRoom *room, DryJson node)
{
  claim_id (ids, room->id, node);
  for (guint i = 0; i < room->n_walls; i++)
    claim_id (ids, room->walls[i].id, node);
  for (guint i = 0; i < room->n_openings; i++)
    claim_id (ids, room->openings[i].id, node);
  for (guint i = 0; i < room->n_parts; i++)
    claim_id (ids, room->parts[i].id, node);
  for (guint i = 0; i < room->n_seams; i++)
    claim_id (ids, room->seams[i].id, node);
  if (room->basin.id != 0)
    claim_id (ids, room->basin.id, node);
}

static void
check_next_id (GHashTable *ids, DryJson root, DryId next_id)
{
  GHashTableIter iter;
  gpointer key;

  g_hash_table_iter_init (&iter, ids);
  while (g_hash_table_iter_next (&iter, &key, NULL))
    if (GPOINTER_TO_UINT (key) >= next_id) {
      dry_json_fail (dry_json_get (root, "next_id"), DRY_ERROR_REFERENCE,
                     "must be greater than every id in the file");
      return;
    }
}

static GPtrArray *
read_rooms (DryJson root, GHashTable *ids)
{
  GPtrArray *boxes = g_ptr_array_new_with_free_func ((GDestroyNotify) dry_room_box_unref);
  DryJson rooms = dry_json_get (root, "rooms");
  guint n = dry_json_array_length (rooms);

  if (n == 0)
    dry_json_fail (rooms, DRY_ERROR_SCHEMA, "a project has at least one room");
  else if (n > DRY_MAX_ROOMS)
    dry_json_fail (rooms, DRY_ERROR_LIMIT, "%u rooms; at most %d may be", n, DRY_MAX_ROOMS);
  for (guint i = 0; i < n && !dry_json_has_failed (root.doc); i++) {
    DryJson node = dry_json_item (rooms, i);
    DryRoom *room = read_room (node);

    g_ptr_array_add (boxes, dry_room_box_new (room));
    if (!dry_json_has_failed (root.doc))
      claim_room_ids (ids, room, node);
  }
  return boxes;
}

/* --- alternates: rooms again, with the ids of the base where they are the same things --- */

static const DryRoom *
find_base (const GPtrArray *boxes, DryId id)
{
  for (guint i = 0; i < boxes->len; i++) {
    const DryRoomBox *box = boxes->pdata[i];
    if (box->room->id == id)
      return box->room;
  }
  return NULL;
}

/* An id of a room that stands for another thing in another room of the base would lead astray. */
static void
claim_variant_ids (GHashTable *ids, const DryRoom *room, const DryRoom *base, DryJson node)
{
  g_autoptr (GHashTable) own = g_hash_table_new (NULL, NULL);
  g_autoptr (GHashTable) others = g_hash_table_new (NULL, NULL);
  GHashTableIter iter;
  gpointer key;

  claim_room_ids (own, base, node);
  claim_room_ids (others, room, node);
  g_hash_table_iter_init (&iter, others);
  while (g_hash_table_iter_next (&iter, &key, NULL))
    if (!g_hash_table_contains (own, key) && g_hash_table_contains (ids, key)) {
      dry_json_fail (node, DRY_ERROR_REFERENCE, "id %u is used by an object of another room",
                     GPOINTER_TO_UINT (key));
      return;
    }
}

static GPtrArray *
read_variants (DryJson list, const GPtrArray *bases, GHashTable *ids, GHashTable *seen)
{
  GPtrArray *boxes = g_ptr_array_new_with_free_func ((GDestroyNotify) dry_room_box_unref);
  guint n = dry_json_is_present (list) ? dry_json_array_length (list) : 0;

  for (guint i = 0; i < n && !dry_json_has_failed (list.doc); i++) {
    DryJson node = dry_json_item (list, i);
    DryRoom *room = read_room (node);
    const DryRoom *base = find_base (bases, room->id);

    g_ptr_array_add (boxes, dry_room_box_new (room));
    if (dry_json_has_failed (list.doc))
      break;
    if (base == NULL)
      dry_json_fail (node, DRY_ERROR_REFERENCE, "there is no room %u to differ from", room->id);
    for (guint j = 0; j < i; j++)
      if (((const DryRoomBox *) boxes->pdata[j])->room->id == room->id)
        dry_json_fail (node, DRY_ERROR_REFERENCE, "room %u stands twice", room->id);
    if (!dry_json_has_failed (list.doc))
      claim_variant_ids (ids, room, base, node);
    if (!dry_json_has_failed (list.doc)) {
      g_autoptr (GHashTable) again = g_hash_table_new (NULL, NULL);
      GHashTableIter iter;
      gpointer key;

      claim_room_ids (again, room, node);
      g_hash_table_iter_init (&iter, again);
      while (g_hash_table_iter_next (&iter, &key, NULL))
        g_hash_table_add (seen, key);
    }
  }
  return boxes;
}

static DryAlternate *
read_alternate (DryJson node, const GPtrArray *bases, GHashTable *ids, GHashTable *seen)
{
  DryId id = (DryId) dry_json_integer (dry_json_get (node, "id"), 1, G_MAXUINT32);
  const char *name = dry_json_string (dry_json_get (node, "name"));
  const char *note = dry_json_string_or (dry_json_opt (node, "note"), NULL);

  dry_json_only_keys (node, "id", "name", "note", "rooms", NULL);
  if (!dry_json_has_failed (node.doc) &&
      (*name == '\0' || strlen (name) > DRY_MAX_TEXT || (note && strlen (note) > DRY_MAX_TEXT)))
    dry_json_fail (node, DRY_ERROR_SCHEMA, "an alternate has a name of at most %d bytes",
                   DRY_MAX_TEXT);
  if (!dry_json_has_failed (node.doc))
    claim_id (ids, id, node);
  return dry_alternate_new (id, name, note,
                            read_variants (dry_json_opt (node, "rooms"), bases, ids, seen));
}

/* NULL where the file has none, so that it is saved as it was. Ids met are added to `ids`. */
static GPtrArray *
read_alternates (DryJson root, const GPtrArray *bases, GHashTable *ids)
{
  DryJson list = dry_json_opt (root, "alternates");
  g_autoptr (GHashTable) seen = g_hash_table_new (NULL, NULL);
  guint n = dry_json_is_present (list) ? dry_json_array_length (list) : 0;
  GPtrArray *alternates;
  GHashTableIter iter;
  gpointer key;

  if (n == 0)
    return NULL;
  if (n > DRY_MAX_ALTERNATES)
    dry_json_fail (list, DRY_ERROR_LIMIT, "%u alternates; at most %d may be", n,
                   DRY_MAX_ALTERNATES);
  alternates = g_ptr_array_new_with_free_func ((GDestroyNotify) dry_alternate_unref);
  for (guint i = 0; i < n && !dry_json_has_failed (root.doc); i++)
    g_ptr_array_add (alternates, read_alternate (dry_json_item (list, i), bases, ids, seen));
  g_hash_table_iter_init (&iter, seen);
  while (g_hash_table_iter_next (&iter, &key, NULL))
    g_hash_table_add (ids, key);
  return alternates;
}

static void
read_job (DryJson node, DryJob *job)
{
  DryProblem problem = {0};

  read_object (&dry_job_fields, 0, node, job);
  if (!dry_json_has_failed (node.doc) && !dry_job_check (job, &problem))
    report_problem (node, &problem);
  dry_problem_clear (&problem);
}

/* Before anything else, so that another format or a newer version is called just that. `newer` may
 * be NULL: then a newer version is refused. */
static void
check_format (DryJson root, DryNewer *newer)
{
  DryJson format = dry_json_opt (root, "format");
  int64_t version, least;

  if (dry_json_has_failed (root.doc))
    return;
  if (strcmp (dry_json_string_or (format, ""), DRY_FILE_FORMAT) != 0) {
    dry_json_fail (root, DRY_ERROR_VERSION, "no Drybay project: \"format\" is not \"%s\"",
                   DRY_FILE_FORMAT);
    return;
  }
  version = dry_json_integer (dry_json_get (root, "version"), 1, G_MAXINT32);
  least = dry_json_integer_or (dry_json_opt (root, "least_reader"), 1, MAX (version, 1), 1);
  if (dry_json_has_failed (root.doc) || version <= DRY_FILE_VERSION)
    return;
  if (newer == NULL || least > DRY_FILE_VERSION) {
    dry_json_fail (dry_json_get (root, "version"), DRY_ERROR_VERSION,
                   "version %d was written by a newer Drybay; this one reads up to version %d%s",
                   (int) version, DRY_FILE_VERSION,
                   least > DRY_FILE_VERSION ? "" : ", and shows it in the window only");
    return;
  }
  newer->version = (gint) version;
  newer->left_out = g_ptr_array_new_with_free_func (g_free);
  dry_json_tolerate (root.doc, newer->left_out);
}

/* Saving writes some fields that were left out. A file that opens must be one that can be saved;
 * only large ones can be anywhere near a limit. */
static gboolean
check_fits (const DryProject *project, gsize length, const char *name, GError **error)
{
  g_autofree char *saved = NULL;
  gsize saved_length;

  if (length < LARGE)
    return TRUE;
  saved = dry_project_to_text (project, &saved_length);
  if (dry_json_check (saved, saved_length, name, error))
    return TRUE;
  g_prefix_error (error, "it could be opened, but not saved again: ");
  return FALSE;
}

void
dry_newer_clear (DryNewer *self)
{
  g_clear_pointer (&self->left_out, g_ptr_array_unref);
  self->version = 0;
}

DryProject *
dry_project_from_text (const char *text, gsize length, const char *name, GError **error)
{
  return dry_project_from_newer_text (text, length, name, NULL, error);
}

DryProject *
dry_project_from_newer_text (const char *text, gsize length, const char *name, DryNewer *newer,
                             GError **error)
{
  g_autoptr (DryJsonDocument) document = dry_json_document_new (text, length, name, error);
  GPtrArray *boxes = NULL, *alternates = NULL;
  g_autoptr (GHashTable) ids = g_hash_table_new (NULL, NULL);
  DryProject *project = NULL;
  DryJob job = {0};
  DryId next_id;
  DryJson root;

  if (document == NULL)
    return NULL;
  root = dry_json_root (document);
  check_format (root, newer);
  dry_json_only_keys (root, "format", "version", "least_reader", "next_id", "job", "rooms",
                      "alternates", NULL);
  next_id = (DryId) dry_json_integer (dry_json_get (root, "next_id"), 1, G_MAXUINT32);
  if (!dry_json_has_failed (document))
    read_job (dry_json_get (root, "job"), &job);
  if (!dry_json_has_failed (document))
    boxes = read_rooms (root, ids);
  if (boxes != NULL && !dry_json_has_failed (document))
    alternates = read_alternates (root, boxes, ids);
  if (!dry_json_has_failed (document))
    check_next_id (ids, root, next_id);
  if (dry_json_finish (document, error))
    project = dry_project_assemble (&job, g_steal_pointer (&boxes), g_steal_pointer (&alternates),
                                    next_id);
  g_clear_pointer (&alternates, g_ptr_array_unref);
  g_clear_pointer (&boxes, g_ptr_array_unref);
  dry_fields_clear (&dry_job_fields, &job);
  if (project != NULL && !check_fits (project, length, name, error))
    g_clear_pointer (&project, dry_project_unref);
  return project;
}
