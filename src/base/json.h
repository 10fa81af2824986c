/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The only door to cJSON. Reading is strict: UTF-8, whole input used, RFC 8259 grammar, finite
 * numbers, unique keys, exact key case, caps on size, depth and counts; every error says file, line
 * or path, why. */
#pragma once

#include "base/error.h"
#include "base/length.h"

#define DRY_JSON_MAX_BYTES  (16 * 1024 * 1024)
#define DRY_JSON_MAX_DEPTH  32
#define DRY_JSON_MAX_NODES  400000
#define DRY_JSON_MAX_STRING 65536 /* bytes of UTF-8, however escaped */

/* One parsed text. Nodes (DryJson) live as long as the document. */
typedef struct _DryJsonDocument DryJsonDocument;

/* A node with the path that led to it. Passed by value; `doc` reports errors for it. */
typedef struct {
  DryJsonDocument *doc;
  gpointer node;    /* cJSON node, private; NULL means absent */
  const char *path; /* "rooms[0].walls[2].height", owned by the document */
} DryJson;

/* Whether dry_json_document_new() would take the text, as far as grammar and caps go: quick, and
 * nothing is built. */
gboolean dry_json_check (const char *text, gsize length, const char *name, GError **error);
/* Parses `length` bytes; `name` is the file name shown in errors. DRY_ERROR_SYNTAX with
 * "name:line:column: reason", or DRY_ERROR_LIMIT. NULL on error. */
DryJsonDocument *dry_json_document_new (const char *text, gsize length, const char *name,
                                        GError **error) G_GNUC_WARN_UNUSED_RESULT;
void dry_json_document_free (DryJsonDocument *self);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (DryJsonDocument, dry_json_document_free)

DryJson dry_json_root (DryJsonDocument *self);

/* A reader remembers the first problem only: every getter below records it and returns a zero
 * value, so code reads a whole structure straight down and asks once at the end. TRUE when nothing
 * went wrong. */
gboolean dry_json_finish (DryJsonDocument *self, GError **error);
gboolean dry_json_has_failed (DryJsonDocument *self);
/* Records a problem of the caller's own at `at`: "name: path: message". */
void dry_json_fail (DryJson at, DryErrorCode code, const char *format, ...) G_GNUC_PRINTF (3, 4);

/* From here on, what dry_json_leave_out() is asked about is added to `left_out` (of char *,
 * borrowed until the document is freed) instead of being an error: for files of a newer version. */
void dry_json_tolerate (DryJsonDocument *self, GPtrArray *left_out);
/* TRUE when `at` may be left out, which is then noted as "path: message"; FALSE in a document that
 * tolerates nothing: the caller fails. */
gboolean dry_json_leave_out (DryJson at, const char *format, ...) G_GNUC_PRINTF (2, 3);

/* Members. dry_json_get() fails when the key is missing; dry_json_opt() returns an absent node. */
DryJson dry_json_get (DryJson object, const char *key);
DryJson dry_json_opt (DryJson object, const char *key);
gboolean dry_json_is_present (DryJson node); /* there, and not null */
guint dry_json_array_length (DryJson array); /* fails on anything but an array; absent counts 0 */
DryJson dry_json_item (DryJson array, guint index);
/* Members of an object in file order, for maps keyed by name. */
guint dry_json_member_count (DryJson object);
DryJson dry_json_member (DryJson object, guint index, const char **key);
/* Fails on the first key not in the NULL-ended list (strict catalogue files use it), or leaves it
 * out. */
void dry_json_only_keys (DryJson object, const char *first_key, ...) G_GNUC_NULL_TERMINATED;

/* Values. Strings are borrowed from the document. *_or give `fallback` when absent or null. */
const char *dry_json_string (DryJson node); /* "" after a failure */
const char *dry_json_string_or (DryJson node, const char *fallback);
double dry_json_number (DryJson node, double minimum, double maximum);
double dry_json_number_or (DryJson node, double minimum, double maximum, double fallback);
int64_t dry_json_integer (DryJson node, int64_t minimum, int64_t maximum);
int64_t dry_json_integer_or (DryJson node, int64_t minimum, int64_t maximum, int64_t fallback);
gboolean dry_json_boolean (DryJson node);
gboolean dry_json_boolean_or (DryJson node, gboolean fallback);
/* Millimetres in the file. */
DryLength dry_json_length (DryJson node, DryLength minimum, DryLength maximum);
DryLength dry_json_length_or (DryJson node, DryLength minimum, DryLength maximum,
                              DryLength fallback);
/* One of a NULL-ended list of words; its index. A word that is left out counts as the first. */
guint dry_json_choice (DryJson node, const char *const *words);
guint dry_json_choice_or (DryJson node, const char *const *words, guint fallback);

/* The member's raw value printed back compactly, to keep unknown fields on re-save. g_free() it. */
char *dry_json_to_text (DryJson node);

/* --- writing: keys in the order given, two-space indent, '\n' ends, exact numbers, no locale ---
 */
typedef struct _DryJsonWriter DryJsonWriter;
DryJsonWriter *dry_json_writer_new (void) G_GNUC_WARN_UNUSED_RESULT;
/* From here on without spaces and line ends: a third of the size where there is much structure. */
void dry_json_writer_set_flat (DryJsonWriter *self);
char *dry_json_writer_finish (DryJsonWriter *self, gsize *length); /* frees self, hands over text */
void dry_json_writer_free (DryJsonWriter *self);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (DryJsonWriter, dry_json_writer_free)
/* `key` is NULL inside arrays and at the top. Small objects may be kept on one line with *_inline.
 */
void dry_json_begin_object (DryJsonWriter *self, const char *key);
void dry_json_begin_object_inline (DryJsonWriter *self, const char *key);
void dry_json_end_object (DryJsonWriter *self);
void dry_json_begin_array (DryJsonWriter *self, const char *key);
void dry_json_begin_array_inline (DryJsonWriter *self, const char *key);
void dry_json_end_array (DryJsonWriter *self);
void dry_json_write_string (DryJsonWriter *self, const char *key,
                            const char *value); /* NULL: null */
void dry_json_write_integer (DryJsonWriter *self, const char *key, int64_t value);
void dry_json_write_number (DryJsonWriter *self, const char *key,
                            double value); /* shortest exact */
void dry_json_write_boolean (DryJsonWriter *self, const char *key, gboolean value);
void dry_json_write_length (DryJsonWriter *self, const char *key, DryLength value); /* mm */
void dry_json_write_raw (DryJsonWriter *self, const char *key, const char *json); /* kept fields */
