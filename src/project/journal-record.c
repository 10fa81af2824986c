/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The bytes of a journal's record: a head line with length and checksum, a line of JSON, a piece of
 * text. Whatever is cut off, altered or longer than it says is no record, so a torn end shows. */
#define G_LOG_DOMAIN "drybay-project"

#include <string.h>

#include "base/json.h"
#include "project/journal-private.h"

#define SUM_LENGTH  16
#define HEAD_LENGTH 64

static const char *const kinds[] = {"base", "step", "undo", "redo", "saved", NULL};

void
dry_record_clear (DryRecord *self)
{
  g_clear_pointer (&self->path, g_free);
  g_clear_pointer (&self->title, g_free);
  g_clear_pointer (&self->name, g_free);
  g_clear_pointer (&self->key, g_free);
}

/* File names may hold any byte; JSON may not. */
static void
write_path (DryJsonWriter *writer, const char *path)
{
  g_autofree char *escaped = NULL;

  if (path == NULL)
    return;
  escaped = g_uri_escape_bytes ((const guint8 *) path, strlen (path), "/");
  dry_json_write_string (writer, "path", escaped);
}

static char *
write_fields (const DryRecord *self, gsize *length)
{
  DryJsonWriter *writer = dry_json_writer_new ();

  dry_json_begin_object_inline (writer, NULL);
  dry_json_write_string (writer, "kind", kinds[self->kind]);
  write_path (writer, self->path);
  if (self->title != NULL)
    dry_json_write_string (writer, "title", self->title);
  if (self->name != NULL)
    dry_json_write_string (writer, "name", self->name);
  if (self->key != NULL)
    dry_json_write_string (writer, "key", self->key);
  if (self->merged)
    dry_json_write_boolean (writer, "merged", TRUE);
  if (self->kind == DRY_RECORD_BASE || self->kind == DRY_RECORD_STEP) {
    dry_json_write_integer (writer, "front", (int64_t) self->front);
    dry_json_write_integer (writer, "back", (int64_t) self->back);
  }
  dry_json_end_object (writer);
  return dry_json_writer_finish (writer, length);
}

static void
sum_up (const char *bytes, gsize length, char out[SUM_LENGTH + 1])
{
  g_autofree char *sum =
      g_compute_checksum_for_data (G_CHECKSUM_SHA256, (const guchar *) bytes, length);

  g_strlcpy (out, sum, SUM_LENGTH + 1);
}

void
dry_record_write (const DryRecord *self, GByteArray *bytes)
{
  gsize fields_length;
  g_autofree char *fields = write_fields (self, &fields_length);
  g_autoptr (GByteArray) payload = g_byte_array_new ();
  char sum[SUM_LENGTH + 1], head[HEAD_LENGTH];

  g_byte_array_append (payload, (const guint8 *) fields, (guint) fields_length);
  g_byte_array_append (payload, (const guint8 *) "", 1);
  if (self->middle_length > 0)
    g_byte_array_append (payload, (const guint8 *) self->middle, (guint) self->middle_length);
  sum_up ((const char *) payload->data, payload->len, sum);
  g_snprintf (head, sizeof head, "record %u %s\n", payload->len, sum);
  g_byte_array_append (bytes, (const guint8 *) head, (guint) strlen (head));
  g_byte_array_append (bytes, payload->data, payload->len);
  g_byte_array_append (bytes, (const guint8 *) "\n", 1);
}

static char *
dup_string (DryJson object, const char *key)
{
  return g_strdup (dry_json_string_or (dry_json_opt (object, key), NULL));
}

static char *
dup_path (DryJson object)
{
  const char *escaped = dry_json_string_or (dry_json_opt (object, "path"), NULL);

  return escaped != NULL ? g_uri_unescape_string (escaped, NULL) : NULL;
}

static gboolean
read_fields (const char *fields, gsize length, DryRecord *out)
{
  g_autoptr (DryJsonDocument) document = dry_json_document_new (fields, length, "journal", NULL);
  DryJson root;

  if (document == NULL)
    return FALSE;
  root = dry_json_root (document);
  out->kind = (DryRecordKind) dry_json_choice (dry_json_get (root, "kind"), kinds);
  out->path = dup_path (root);
  out->title = dup_string (root, "title");
  out->name = dup_string (root, "name");
  out->key = dup_string (root, "key");
  out->merged = dry_json_boolean_or (dry_json_opt (root, "merged"), FALSE);
  out->front = (gsize) dry_json_integer_or (dry_json_opt (root, "front"), 0, DRY_JSON_MAX_BYTES, 0);
  out->back = (gsize) dry_json_integer_or (dry_json_opt (root, "back"), 0, DRY_JSON_MAX_BYTES, 0);
  if (dry_json_finish (document, NULL))
    return TRUE;
  dry_record_clear (out);
  return FALSE;
}

/* The head line: where the payload starts and how long it is. */
static gboolean
read_head (const char *bytes, gsize length, gsize *start, gsize *size, char sum[SUM_LENGTH + 1])
{
  const char *line_end = memchr (bytes, '\n', MIN (length, HEAD_LENGTH));
  g_autofree char *line = NULL;
  g_auto (GStrv) words = NULL;
  guint64 number;

  if (line_end == NULL)
    return FALSE;
  line = g_strndup (bytes, (gsize) (line_end - bytes));
  words = g_strsplit (line, " ", -1);
  if (g_strv_length (words) != 3 || strcmp (words[0], "record") != 0 ||
      strlen (words[2]) != SUM_LENGTH ||
      !g_ascii_string_to_unsigned (words[1], 10, 1, G_MAXUINT32, &number, NULL))
    return FALSE;
  *start = (gsize) (line_end - bytes) + 1;
  *size = (gsize) number;
  g_strlcpy (sum, words[2], SUM_LENGTH + 1);
  return TRUE;
}

gboolean
dry_record_read (const char *bytes, gsize length, gsize *offset, DryRecord *out)
{
  const char *at = bytes + *offset, *payload, *fields_end;
  gsize left = length - *offset, start, size;
  char sum[SUM_LENGTH + 1], found[SUM_LENGTH + 1];

  memset (out, 0, sizeof *out);
  if (left == 0 || !read_head (at, left, &start, &size, sum))
    return FALSE;
  if (size >= left - start || at[start + size] != '\n')
    return FALSE;
  payload = at + start;
  sum_up (payload, size, found);
  fields_end = memchr (payload, '\0', size);
  if (strcmp (sum, found) != 0 || fields_end == NULL ||
      !read_fields (payload, (gsize) (fields_end - payload), out))
    return FALSE;
  out->middle = fields_end + 1;
  out->middle_length = size - (gsize) (fields_end + 1 - payload);
  *offset += start + size + 1;
  return TRUE;
}

void
dry_record_compare (DryRecord *self, const char *before, gsize before_length, const char *after,
                    gsize after_length)
{
  gsize most = MIN (before_length, after_length), front = 0, back = 0;

  while (front < most && before[front] == after[front])
    front++;
  while (back < most - front && before[before_length - 1 - back] == after[after_length - 1 - back])
    back++;
  self->front = front;
  self->back = back;
  self->middle = after + front;
  self->middle_length = after_length - front - back;
}

char *
dry_record_join (const DryRecord *self, const char *before, gsize before_length, gsize *length)
{
  char *text;

  if (self->front > before_length || self->back > before_length - self->front)
    return NULL;
  *length = self->front + self->middle_length + self->back;
  if (*length > DRY_JSON_MAX_BYTES)
    return NULL;
  text = g_malloc (*length + 1);
  memcpy (text, before, self->front);
  memcpy (text + self->front, self->middle, self->middle_length);
  memcpy (text + self->front + self->middle_length, before + before_length - self->back,
          self->back);
  text[*length] = '\0';
  return text;
}
