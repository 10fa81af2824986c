/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Writes JSON text in a fixed form: same calls, same bytes, in any locale.
 * Numbers keep every digit they need; cJSON's own printing would round some of them. */
#define G_LOG_DOMAIN "drybay-base"
#include "base/json.h"
#include "base/json-text.h"

#include <cjson/cJSON.h>
#include <math.h>

typedef struct {
  char close;
  gboolean one_line;
  gboolean filled;
} Level;

struct _DryJsonWriter {
  GString *text;
  GArray *levels;
  gboolean flat;
};

void
dry_json_append_string (GString *text, const char *value)
{
  g_string_append_c (text, '"');
  for (const char *p = value; *p; p++) {
    guchar c = (guchar) *p;

    if (c == '"' || c == '\\') {
      g_string_append_c (text, '\\');
      g_string_append_c (text, (char) c);
    } else if (c == '\n')
      g_string_append (text, "\\n");
    else if (c == '\t')
      g_string_append (text, "\\t");
    else if (c < 0x20)
      g_string_append_printf (text, "\\u%04x", c);
    else
      g_string_append_c (text, (char) c);
  }
  g_string_append_c (text, '"');
}

void
dry_json_append_number (GString *text, double value)
{
  static const char *const FORMATS[] = {"%.15g", "%.16g", "%.17g"};
  char buffer[G_ASCII_DTOSTR_BUF_SIZE];

  if (!isfinite (value)) { /* JSON has no such number; callers never pass one on purpose */
    g_string_append (text, "null");
    return;
  }
  for (guint i = 0; i < G_N_ELEMENTS (FORMATS); i++) {
    g_ascii_formatd (buffer, sizeof buffer, FORMATS[i], value == 0 ? 0.0 : value);
    if (g_ascii_strtod (buffer, NULL) == value)
      break;
  }
  g_string_append (text, buffer);
}

static void
append_node (GString *text, const cJSON *node)
{
  gboolean object = cJSON_IsObject (node);

  if (cJSON_IsString (node))
    dry_json_append_string (text, node->valuestring);
  else if (cJSON_IsNumber (node))
    dry_json_append_number (text, node->valuedouble);
  else if (cJSON_IsBool (node))
    g_string_append (text, cJSON_IsTrue (node) ? "true" : "false");
  else if (object || cJSON_IsArray (node)) {
    g_string_append_c (text, object ? '{' : '[');
    for (const cJSON *child = node->child; child; child = child->next) {
      if (child != node->child)
        g_string_append (text, ", ");
      if (object) {
        dry_json_append_string (text, child->string);
        g_string_append (text, ": ");
      }
      append_node (text, child);
    }
    g_string_append_c (text, object ? '}' : ']');
  } else
    g_string_append (text, "null");
}

char *
dry_json_to_text (DryJson node)
{
  GString *text = g_string_new (NULL);

  append_node (text, node.node);
  return g_string_free (text, FALSE);
}

/* --- the writer --- */

DryJsonWriter *
dry_json_writer_new (void)
{
  DryJsonWriter *self = g_new0 (DryJsonWriter, 1);

  self->text = g_string_new (NULL);
  self->levels = g_array_new (FALSE, TRUE, sizeof (Level));
  return self;
}

void
dry_json_writer_set_flat (DryJsonWriter *self)
{
  self->flat = TRUE;
}

void
dry_json_writer_free (DryJsonWriter *self)
{
  if (!self)
    return;
  g_string_free (self->text, TRUE);
  g_array_unref (self->levels);
  g_free (self);
}

char *
dry_json_writer_finish (DryJsonWriter *self, gsize *length)
{
  GString *text = self->text;

  g_warn_if_fail (self->levels->len == 0);
  g_string_append_c (text, '\n');
  if (length)
    *length = text->len;
  self->text = g_string_new (NULL);
  dry_json_writer_free (self);
  return g_string_free (text, FALSE);
}

static Level *
get_level (DryJsonWriter *self)
{
  return self->levels->len ? &g_array_index (self->levels, Level, self->levels->len - 1) : NULL;
}

static void
break_line (DryJsonWriter *self)
{
  if (self->flat)
    return;
  g_string_append_c (self->text, '\n');
  for (guint i = 0; i < self->levels->len; i++)
    g_string_append (self->text, "  ");
}

static void
begin_value (DryJsonWriter *self, const char *key)
{
  Level *level = get_level (self);

  if (level) {
    if (level->filled)
      g_string_append_c (self->text, ',');
    if (!level->one_line)
      break_line (self);
    else if (!self->flat && (level->filled || level->close == '}'))
      g_string_append_c (self->text, ' ');
    level->filled = TRUE;
  }
  if (key) {
    dry_json_append_string (self->text, key);
    g_string_append (self->text, self->flat ? ":" : ": ");
  }
}

static void
begin_container (DryJsonWriter *self, const char *key, char open, char close, gboolean one_line)
{
  const Level *outer = get_level (self);
  Level level = {close, one_line || (outer && outer->one_line), FALSE};

  begin_value (self, key);
  g_string_append_c (self->text, open);
  g_array_append_val (self->levels, level);
}

static void
end_container (DryJsonWriter *self, char close)
{
  Level level;

  g_return_if_fail (self->levels->len > 0);
  level = g_array_index (self->levels, Level, self->levels->len - 1);
  g_return_if_fail (level.close == close);
  g_array_set_size (self->levels, self->levels->len - 1);
  if (level.filled && !level.one_line)
    break_line (self);
  else if (level.filled && close == '}' && !self->flat)
    g_string_append_c (self->text, ' ');
  g_string_append_c (self->text, close);
}

void
dry_json_begin_object (DryJsonWriter *self, const char *key)
{
  begin_container (self, key, '{', '}', FALSE);
}

void
dry_json_begin_object_inline (DryJsonWriter *self, const char *key)
{
  begin_container (self, key, '{', '}', TRUE);
}

void
dry_json_end_object (DryJsonWriter *self)
{
  end_container (self, '}');
}

void
dry_json_begin_array (DryJsonWriter *self, const char *key)
{
  begin_container (self, key, '[', ']', FALSE);
}

void
dry_json_begin_array_inline (DryJsonWriter *self, const char *key)
{
  begin_container (self, key, '[', ']', TRUE);
}

void
dry_json_end_array (DryJsonWriter *self)
{
  end_container (self, ']');
}

void
dry_json_write_string (DryJsonWriter *self, const char *key, const char *value)
{
  begin_value (self, key);
  if (value)
    dry_json_append_string (self->text, value);
  else
    g_string_append (self->text, "null");
}

void
dry_json_write_integer (DryJsonWriter *self, const char *key, int64_t value)
{
  begin_value (self, key);
  g_string_append_printf (self->text, "%" G_GINT64_FORMAT, value);
}

void
dry_json_write_number (DryJsonWriter *self, const char *key, double value)
{
  begin_value (self, key);
  dry_json_append_number (self->text, value);
}

void
dry_json_write_boolean (DryJsonWriter *self, const char *key, gboolean value)
{
  begin_value (self, key);
  g_string_append (self->text, value ? "true" : "false");
}

void
dry_json_write_length (DryJsonWriter *self, const char *key, DryLength value)
{
  g_autofree char *mm = dry_length_to_mm_text (value);

  begin_value (self, key);
  g_string_append (self->text, mm);
}

void
dry_json_write_raw (DryJsonWriter *self, const char *key, const char *json)
{
  begin_value (self, key);
  g_string_append (self->text, json);
}
