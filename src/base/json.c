/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Typed, path-aware reading over a cJSON tree that the scanner has already found to be strict JSON.
 * Remembers the first problem, so callers read straight down; knows no file format. */
#define G_LOG_DOMAIN "drybay-base"
#include "base/json.h"
#include "base/arena.h"
#include "base/json-scan.h"

#include <cjson/cJSON.h>
#include <math.h>
#include <string.h>

struct _DryJsonDocument {
  cJSON *root;
  DryArena *paths;
  char *name;
  GError *problem;
  /* Last item handed out of an array: cJSON's arrays are linked lists, so reading in order must not
   * rescan. */
  const cJSON *list;
  cJSON *list_item;
  guint list_index;
  GPtrArray *left_out; /* borrowed; NULL: nothing is tolerated */
};

#define WHOLE_DOUBLE_MAX 9007199254740992.0 /* 2^53 */

static DryJson
make_node (DryJsonDocument *doc, cJSON *node, const char *path)
{
  return (DryJson){doc, node, path};
}

static void
refuse (DryJson at, DryErrorCode code, const char *message)
{
  if (at.doc->problem)
    return;
  at.doc->problem = g_error_new (DRY_ERROR, code, "%s: %s%s%s", at.doc->name, at.path,
                                 *at.path ? ": " : "", message);
}

void
dry_json_fail (DryJson at, DryErrorCode code, const char *format, ...)
{
  g_autofree char *message = NULL;
  va_list arguments;

  va_start (arguments, format);
  message = g_strdup_vprintf (format, arguments);
  va_end (arguments);
  refuse (at, code, message);
}

void
dry_json_tolerate (DryJsonDocument *self, GPtrArray *left_out)
{
  self->left_out = left_out;
}

gboolean
dry_json_leave_out (DryJson at, const char *format, ...)
{
  g_autofree char *message = NULL;
  va_list arguments;

  if (at.doc->left_out == NULL)
    return FALSE;
  va_start (arguments, format);
  message = g_strdup_vprintf (format, arguments);
  va_end (arguments);
  g_ptr_array_add (at.doc->left_out,
                   g_strdup_printf ("%s%s%s", at.path, *at.path ? ": " : "", message));
  return TRUE;
}

static const char *
join_key (DryJson object, const char *key)
{
  if (!*object.path)
    return dry_arena_strdup (object.doc->paths, key);
  return dry_arena_printf (object.doc->paths, "%s.%s", object.path, key);
}

static const char *
join_index (DryJson array, guint index)
{
  return dry_arena_printf (array.doc->paths, "%s[%u]", array.path, index);
}

/* --- the document --- */

static gboolean
check_unique_keys (DryJson node)
{
  cJSON *value = node.node;
  g_autoptr (GHashTable) seen = NULL;
  guint index = 0;

  if (!cJSON_IsObject (value) && !cJSON_IsArray (value))
    return TRUE;
  if (cJSON_IsObject (value))
    seen = g_hash_table_new (g_str_hash, g_str_equal);
  for (cJSON *child = value->child; child; child = child->next, index++) {
    DryJson at;

    if (seen && !g_hash_table_add (seen, child->string)) {
      dry_json_fail (node, DRY_ERROR_SCHEMA, "the name “%s” stands twice", child->string);
      return FALSE;
    }
    if (!cJSON_IsObject (child) && !cJSON_IsArray (child))
      continue;
    at = make_node (node.doc, child,
                    seen ? join_key (node, child->string) : join_index (node, index));
    if (!check_unique_keys (at))
      return FALSE;
  }
  return TRUE;
}

gboolean
dry_json_check (const char *text, gsize length, const char *name, GError **error)
{
  return dry_json_scan (text, length, name, error);
}

DryJsonDocument *
dry_json_document_new (const char *text, gsize length, const char *name, GError **error)
{
  g_autoptr (DryJsonDocument) self = NULL;

  if (!dry_json_scan (text, length, name, error))
    return NULL;
  self = g_new0 (DryJsonDocument, 1);
  self->name = g_strdup (name);
  self->paths = dry_arena_new ();
  self->root = cJSON_ParseWithLength (text, length);
  if (!self->root) {
    g_set_error (error, DRY_ERROR, DRY_ERROR_SYNTAX, "%s: the JSON could not be read", name);
    return NULL;
  }
  if (!check_unique_keys (dry_json_root (self))) {
    g_propagate_error (error, g_steal_pointer (&self->problem));
    return NULL;
  }
  return g_steal_pointer (&self);
}

void
dry_json_document_free (DryJsonDocument *self)
{
  if (!self)
    return;
  cJSON_Delete (self->root);
  g_clear_pointer (&self->paths, dry_arena_unref);
  g_clear_error (&self->problem);
  g_free (self->name);
  g_free (self);
}

DryJson
dry_json_root (DryJsonDocument *self)
{
  return make_node (self, self->root, "");
}

gboolean
dry_json_finish (DryJsonDocument *self, GError **error)
{
  if (!self->problem)
    return TRUE;
  g_propagate_error (error, g_steal_pointer (&self->problem));
  return FALSE;
}

gboolean
dry_json_has_failed (DryJsonDocument *self)
{
  return self->problem != NULL;
}

/* --- members and items --- */

static DryJson
look_up (DryJson object, const char *key, gboolean required)
{
  cJSON *child = NULL;

  if (object.node && !cJSON_IsObject ((cJSON *) object.node))
    refuse (object, DRY_ERROR_SCHEMA, "an object was expected");
  else if (object.node)
    child = cJSON_GetObjectItemCaseSensitive (object.node, key);
  if (!child && required)
    dry_json_fail (object, DRY_ERROR_SCHEMA, "“%s” is missing", key);
  return make_node (object.doc, child, join_key (object, key));
}

DryJson
dry_json_get (DryJson object, const char *key)
{
  return look_up (object, key, TRUE);
}

DryJson
dry_json_opt (DryJson object, const char *key)
{
  return look_up (object, key, FALSE);
}

gboolean
dry_json_is_present (DryJson node)
{
  return node.node && !cJSON_IsNull ((cJSON *) node.node);
}

guint
dry_json_array_length (DryJson array)
{
  if (!dry_json_is_present (array))
    return 0;
  if (!cJSON_IsArray ((cJSON *) array.node)) {
    refuse (array, DRY_ERROR_SCHEMA, "a list was expected");
    return 0;
  }
  return (guint) cJSON_GetArraySize (array.node);
}

static cJSON *
walk_to (DryJsonDocument *doc, cJSON *list, guint index)
{
  if (doc->list != list || !doc->list_item || doc->list_index > index) {
    doc->list = list;
    doc->list_item = list->child;
    doc->list_index = 0;
  }
  while (doc->list_item && doc->list_index < index) {
    doc->list_item = doc->list_item->next;
    doc->list_index++;
  }
  return doc->list_item;
}

DryJson
dry_json_item (DryJson array, guint index)
{
  cJSON *item = array.node ? walk_to (array.doc, array.node, index) : NULL;

  return make_node (array.doc, item, join_index (array, index));
}

guint
dry_json_member_count (DryJson object)
{
  if (!dry_json_is_present (object))
    return 0;
  if (!cJSON_IsObject ((cJSON *) object.node)) {
    refuse (object, DRY_ERROR_SCHEMA, "an object was expected");
    return 0;
  }
  return (guint) cJSON_GetArraySize (object.node);
}

DryJson
dry_json_member (DryJson object, guint index, const char **key)
{
  cJSON *item = object.node ? walk_to (object.doc, object.node, index) : NULL;

  *key = item ? item->string : "";
  return make_node (object.doc, item, join_key (object, *key));
}

void
dry_json_only_keys (DryJson object, const char *first_key, ...)
{
  if (!cJSON_IsObject ((cJSON *) object.node))
    return;
  for (cJSON *child = ((cJSON *) object.node)->child; child; child = child->next) {
    const char *key = first_key;
    va_list arguments;

    va_start (arguments, first_key);
    while (key && !g_str_equal (key, child->string))
      key = va_arg (arguments, const char *);
    va_end (arguments);
    if (!key &&
        !dry_json_leave_out (make_node (object.doc, child, join_key (object, child->string)),
                             "unknown field")) {
      dry_json_fail (object, DRY_ERROR_SCHEMA, "“%s” is not a known field here", child->string);
      return;
    }
  }
}

/* --- values --- */

/* FALSE (and refused) when the node is absent, null or of another type. */
static gboolean
demand (DryJson node, cJSON_bool (*is_type) (const cJSON *), const char *expected)
{
  if (!node.node)
    refuse (node, DRY_ERROR_SCHEMA, "a value is missing");
  else if (!is_type (node.node))
    refuse (node, DRY_ERROR_SCHEMA, expected);
  else
    return TRUE;
  return FALSE;
}

const char *
dry_json_string (DryJson node)
{
  return demand (node, cJSON_IsString, "a text was expected") ? ((cJSON *) node.node)->valuestring
                                                              : "";
}

const char *
dry_json_string_or (DryJson node, const char *fallback)
{
  return dry_json_is_present (node) ? dry_json_string (node) : fallback;
}

double
dry_json_number (DryJson node, double minimum, double maximum)
{
  double value;

  if (!demand (node, cJSON_IsNumber, "a number was expected"))
    return 0;
  value = ((cJSON *) node.node)->valuedouble;
  if (isfinite (value) && value >= minimum && value <= maximum)
    return value;
  {
    char low[G_ASCII_DTOSTR_BUF_SIZE], high[G_ASCII_DTOSTR_BUF_SIZE];
    g_ascii_formatd (low, sizeof low, "%.10g", minimum);
    g_ascii_formatd (high, sizeof high, "%.10g", maximum);
    dry_json_fail (node, DRY_ERROR_SCHEMA, "the number must be between %s and %s", low, high);
  }
  return 0;
}

double
dry_json_number_or (DryJson node, double minimum, double maximum, double fallback)
{
  return dry_json_is_present (node) ? dry_json_number (node, minimum, maximum) : fallback;
}

int64_t
dry_json_integer (DryJson node, int64_t minimum, int64_t maximum)
{
  double value = dry_json_number (node, MAX (-WHOLE_DOUBLE_MAX, (double) minimum),
                                  MIN (WHOLE_DOUBLE_MAX, (double) maximum));

  if (value == trunc (value))
    return (int64_t) value;
  refuse (node, DRY_ERROR_SCHEMA, "a whole number was expected");
  return 0;
}

int64_t
dry_json_integer_or (DryJson node, int64_t minimum, int64_t maximum, int64_t fallback)
{
  return dry_json_is_present (node) ? dry_json_integer (node, minimum, maximum) : fallback;
}

gboolean
dry_json_boolean (DryJson node)
{
  return demand (node, cJSON_IsBool, "true or false was expected") &&
         cJSON_IsTrue ((cJSON *) node.node);
}

gboolean
dry_json_boolean_or (DryJson node, gboolean fallback)
{
  return dry_json_is_present (node) ? dry_json_boolean (node) : fallback;
}

DryLength
dry_json_length (DryJson node, DryLength minimum, DryLength maximum)
{
  DryLength length = 0;
  double mm;

  if (!demand (node, cJSON_IsNumber, "a length in millimetres was expected"))
    return 0;
  mm = ((cJSON *) node.node)->valuedouble;
  if (dry_length_from_mm (mm, &length) && length >= minimum && length <= maximum)
    return length;
  {
    g_autofree char *low = dry_length_to_mm_text (minimum);
    g_autofree char *high = dry_length_to_mm_text (maximum);
    dry_json_fail (node, DRY_ERROR_SCHEMA, "the length must be between %s and %s mm", low, high);
  }
  return 0;
}

DryLength
dry_json_length_or (DryJson node, DryLength minimum, DryLength maximum, DryLength fallback)
{
  return dry_json_is_present (node) ? dry_json_length (node, minimum, maximum) : fallback;
}

guint
dry_json_choice (DryJson node, const char *const *words)
{
  const char *word = dry_json_string (node);
  g_autofree char *all = NULL;

  for (guint i = 0; words[i]; i++)
    if (g_str_equal (words[i], word))
      return i;
  if (!dry_json_has_failed (node.doc) && dry_json_leave_out (node, "unknown word “%s”", word))
    return 0;
  all = g_strjoinv (", ", (char **) words);
  dry_json_fail (node, DRY_ERROR_SCHEMA, "“%s” is none of: %s", word, all);
  return 0;
}

guint
dry_json_choice_or (DryJson node, const char *const *words, guint fallback)
{
  return dry_json_is_present (node) ? dry_json_choice (node, words) : fallback;
}
