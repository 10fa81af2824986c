/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The strict door to JSON: what it refuses, where it says the fault is, and that writing keeps
 * every digit. Grammar after RFC 8259. */
#include "base/error.h"
#include "base/json.h"

#include <math.h>
#include <string.h>

static const struct {
  const char *text;
  int code;
  const char *part_of_message;
} REFUSALS[] = {
    {"", DRY_ERROR_SYNTAX, "ends too early"},
    {"{", DRY_ERROR_SYNTAX, "t.json:1:2: the file ends too early"},
    {"[1]garbage", DRY_ERROR_SYNTAX, "t.json:1:4"},
    {"[\n  01]", DRY_ERROR_SYNTAX, "t.json:2:4"},
    {"[1,]", DRY_ERROR_SYNTAX, "t.json:1:4"},
    {"{\"a\":1,}", DRY_ERROR_SYNTAX, "name in quotation marks"},
    {"{a:1}", DRY_ERROR_SYNTAX, "name in quotation marks"},
    {"[1 2]", DRY_ERROR_SYNTAX, "comma or ]"},
    {"[.5]", DRY_ERROR_SYNTAX, "value was expected"},
    {"[+1]", DRY_ERROR_SYNTAX, "value was expected"},
    {"[1.]", DRY_ERROR_SYNTAX, "digit"},
    {"[1e]", DRY_ERROR_SYNTAX, "digit"},
    {"[NaN]", DRY_ERROR_SYNTAX, "value was expected"},
    {"[Infinity]", DRY_ERROR_SYNTAX, "value was expected"},
    {"[tru]", DRY_ERROR_SYNTAX, "value was expected"},
    {"\"\\u0000\"", DRY_ERROR_SYNTAX, "u0000"},
    {"\"\\ud800\"", DRY_ERROR_SYNTAX, "surrogate"},
    {"\"\\udc00\"", DRY_ERROR_SYNTAX, "surrogate"},
    {"\"\\x\"", DRY_ERROR_SYNTAX, "escape"},
    {"\"a\nb\"", DRY_ERROR_SYNTAX, "control character"},
    {"\"\xff\"", DRY_ERROR_SYNTAX, "UTF-8"},
    {"{\"a\":1,\"a\":2}", DRY_ERROR_SCHEMA, "stands twice"},
    {"{\"a\":{\"b\":[1,{\"c\":1,\"\\u0063\":2}]}}", DRY_ERROR_SCHEMA,
     "a.b[1]: the name “c” stands twice"},
    {"/* no */ 1", DRY_ERROR_SYNTAX, "value was expected"},
    {"nul", DRY_ERROR_SYNTAX, "value was expected"},
    {"[nulL]", DRY_ERROR_SYNTAX, "value was expected"},
    {"{\"a\" 1}", DRY_ERROR_SYNTAX, "colon"},
    {"{\"a\":1 \"b\":2}", DRY_ERROR_SYNTAX, "comma or }"},
    {"{\"a\":}", DRY_ERROR_SYNTAX, "value was expected"},
    {"\"\\ud83dx\"", DRY_ERROR_SYNTAX, "surrogate"},
    {"\"\\ud83d\\n\"", DRY_ERROR_SYNTAX, "surrogate"},
    {"\"\\ud83d\\ud83d\"", DRY_ERROR_SYNTAX, "surrogate"},
    {"\"\\ud83d\\ue000\"", DRY_ERROR_SYNTAX, "surrogate"},
    {"\"\\ud83d\\u12g4\"", DRY_ERROR_SYNTAX, "four hexadecimal"},
    {"\"\\u12\"", DRY_ERROR_SYNTAX, "four hexadecimal"},
    {"\"\\ud83d\\", DRY_ERROR_SYNTAX, "surrogate"},
    {"\"\\ud83d", DRY_ERROR_SYNTAX, "ends too early"},
    {"\"open", DRY_ERROR_SYNTAX, "ends too early"},
    {"[1234567890123456789012345678901234567890123456789012345678901]", DRY_ERROR_LIMIT,
     "too many digits"},
    {"[-]", DRY_ERROR_SYNTAX, "digit"},
};

static void
test_refusals (void)
{
  for (guint i = 0; i < G_N_ELEMENTS (REFUSALS); i++) {
    g_autoptr (GError) error = NULL;
    /* A copy of exactly that size, so that a sanitizer sees a read past the end. */
    gsize length = strlen (REFUSALS[i].text);
    g_autofree char *text = g_memdup2 (REFUSALS[i].text, length);
    g_autoptr (DryJsonDocument) doc = dry_json_document_new (text, length, "t.json", &error);

    g_test_message ("%s", error ? error->message : REFUSALS[i].text);
    g_assert_null (doc);
    g_assert_error (error, DRY_ERROR, REFUSALS[i].code);
    g_assert_nonnull (strstr (error->message, REFUSALS[i].part_of_message));
  }
}

static void
test_embedded_nul (void)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (DryJsonDocument) doc = dry_json_document_new ("[1\0]", 4, "t.json", &error);

  g_assert_null (doc);
  g_assert_nonnull (error);
}

static void
check_depth (guint depth, gboolean accepted)
{
  g_autoptr (GString) text = g_string_new (NULL);
  g_autoptr (GError) error = NULL;
  g_autoptr (DryJsonDocument) doc = NULL;

  for (guint i = 0; i < depth; i++)
    g_string_append_c (text, '[');
  for (guint i = 0; i < depth; i++)
    g_string_append_c (text, ']');
  doc = dry_json_document_new (text->str, text->len, "t.json", &error);
  g_assert_cmpint (doc != NULL, ==, accepted);
  if (!accepted)
    g_assert_error (error, DRY_ERROR, DRY_ERROR_LIMIT);
}

static void
test_limits (void)
{
  g_autofree char *big = g_strnfill (DRY_JSON_MAX_BYTES + 1, ' ');
  g_autoptr (GError) error = NULL;

  check_depth (DRY_JSON_MAX_DEPTH, TRUE);
  check_depth (DRY_JSON_MAX_DEPTH + 1, FALSE);
  check_depth (100000, FALSE);
  g_assert_null (dry_json_document_new (big, DRY_JSON_MAX_BYTES + 1, "t.json", &error));
  g_assert_error (error, DRY_ERROR, DRY_ERROR_LIMIT);
}

static void
test_too_many_values (void)
{
  g_autoptr (GString) text = g_string_new ("[0");
  g_autoptr (GError) error = NULL;

  for (guint i = 0; i < DRY_JSON_MAX_NODES; i++)
    g_string_append (text, ",0");
  g_string_append_c (text, ']');
  g_assert_null (dry_json_document_new (text->str, text->len, "t.json", &error));
  g_assert_error (error, DRY_ERROR, DRY_ERROR_LIMIT);
}

#define SAMPLE                                                                                     \
  "{\"name\": \"Bath\", \"walls\": [{\"length\": 1524.5}, {\"length\": \"x\"}], \"Name\": 3}"

static void
test_paths (void)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (DryJsonDocument) doc =
      dry_json_document_new (SAMPLE, strlen (SAMPLE), "t.json", &error);
  DryJson walls;

  g_assert_no_error (error);
  walls = dry_json_get (dry_json_root (doc), "walls");
  g_assert_cmpstr (dry_json_string (dry_json_get (dry_json_root (doc), "name")), ==, "Bath");
  g_assert_cmpint (dry_json_array_length (walls), ==, 2);
  g_assert_cmpint (
      dry_json_length (dry_json_get (dry_json_item (walls, 0), "length"), 0, DRY_LENGTH_MAX), ==,
      1524500000);
  g_assert_false (dry_json_has_failed (doc));
  dry_json_length (dry_json_get (dry_json_item (walls, 1), "length"), 0, DRY_LENGTH_MAX);
  dry_json_get (dry_json_root (doc), "missing"); /* only the first problem counts */
  g_assert_false (dry_json_finish (doc, &error));
  g_assert_cmpstr (error->message, ==,
                   "t.json: walls[1].length: a length in millimetres was expected");
}

static void
test_ranges (void)
{
  static const char *const WORDS[] = {"tub", "pan", NULL};
  const char *text = "{\"n\": 3, \"w\": \"sink\", \"h\": 2.5}";
  DryJson root;
  g_autoptr (DryJsonDocument) doc = dry_json_document_new (text, strlen (text), "t", NULL);
  g_autoptr (GError) error = NULL;

  root = dry_json_root (doc);
  g_assert_cmpint (dry_json_integer (dry_json_get (root, "n"), 0, 3), ==, 3);
  dry_json_integer (dry_json_get (root, "n"), 0, 2);
  g_assert_false (dry_json_finish (doc, &error));
  g_assert_cmpstr (error->message, ==, "t: n: the number must be between 0 and 2");
  g_clear_error (&error);
  dry_json_choice (dry_json_get (root, "w"), WORDS);
  g_assert_false (dry_json_finish (doc, &error));
  g_assert_cmpstr (error->message, ==, "t: w: “sink” is none of: tub, pan");
  g_clear_error (&error);
  dry_json_integer (dry_json_get (root, "h"), 0, 9);
  g_assert_false (dry_json_finish (doc, &error));
  g_clear_error (&error);
  dry_json_only_keys (root, "n", "w", NULL);
  g_assert_false (dry_json_finish (doc, &error));
  g_assert_cmpstr (error->message, ==, "t: “h” is not a known field here");
}

/* Escapes of one, two, three and four bytes of UTF-8 (RFC 3629), and what lies beside them. */
static void
test_escapes (void)
{
  static const struct {
    const char *json, *text;
  } ROWS[] = {
      {"\"\\u007f\"", "\x7f"},
      {"\"\\u00B0\"", "°"},
      {"\"\\ud7ff\"", "\xed\x9f\xbf"},
      {"\"\\ue000\"", "\xee\x80\x80"},
      {"\"\\ud83d\\ude00\"", "\xf0\x9f\x98\x80"},
      {"\"\\uDBFF\\uDFFF\"", "\xf4\x8f\xbf\xbf"},
      {"\t\r\n \"\\\"\\\\\\/\\b\\f\\n\\r\\t\" ", "\"\\/\b\f\n\r\t"},
  };

  for (guint i = 0; i < G_N_ELEMENTS (ROWS); i++) {
    g_autoptr (GError) error = NULL;
    g_autoptr (DryJsonDocument) doc =
        dry_json_document_new (ROWS[i].json, strlen (ROWS[i].json), "t", &error);
    g_autoptr (DryJsonDocument) again = NULL;
    g_autofree char *text = NULL;

    g_assert_no_error (error);
    g_assert_cmpstr (dry_json_string (dry_json_root (doc)), ==, ROWS[i].text);
    text = dry_json_to_text (dry_json_root (doc));
    again = dry_json_document_new (text, strlen (text), "t", &error);
    g_assert_no_error (error);
    g_assert_cmpstr (dry_json_string (dry_json_root (again)), ==, ROWS[i].text);
  }
}

/* The cap of a text counts bytes of UTF-8, however they are written. */
static void
test_escaped_length (void)
{
  static const struct {
    const char *escape;
    guint bytes;
  } ROWS[] = {{"a", 1},       {"\\n", 1},     {"\\u0041", 1},       {"\\u007f", 1},
              {"\\u0080", 2}, {"\\u07ff", 2}, {"\\u0800", 3},       {"\\ud7ff", 3},
              {"\\ue000", 3}, {"\\uffff", 3}, {"\\ud83d\\ude00", 4}};

  for (guint i = 0; i < G_N_ELEMENTS (ROWS); i++)
    for (guint over = 0; over < 2; over++) {
      g_autoptr (GString) text = g_string_new ("\"");
      g_autoptr (GError) error = NULL;
      g_autoptr (DryJsonDocument) doc = NULL;

      for (guint n = 0; n < DRY_JSON_MAX_STRING / ROWS[i].bytes + over; n++)
        g_string_append (text, ROWS[i].escape);
      g_string_append_c (text, '"');
      doc = dry_json_document_new (text->str, text->len, "t", &error);
      g_assert_true ((doc != NULL) == (over == 0));
      if (over > 0)
        g_assert_error (error, DRY_ERROR, DRY_ERROR_LIMIT);
    }
}

/* A list walked forwards, backwards and past its end; nothing there is no node, and no failure. */
static void
test_walks (void)
{
  static const guint ORDER[] = {0, 1, 3, 2, 0, 3, 3, 1};
  const char *text =
      "{\"a\": [10, 11, 12, 13], \"b\": null, \"c\": {\"x\": 1, \"y\": 2}, \"d\": 4}";
  g_autoptr (DryJsonDocument) doc = dry_json_document_new (text, strlen (text), "t", NULL);
  g_autoptr (GError) error = NULL;
  DryJson root = dry_json_root (doc), list = dry_json_get (root, "a"), nothing;
  const char *key = NULL;

  for (guint i = 0; i < G_N_ELEMENTS (ORDER); i++) {
    g_assert_cmpint (dry_json_integer (dry_json_item (list, ORDER[i]), 0, 99), ==, 10 + ORDER[i]);
    dry_json_member (dry_json_get (root, "c"), ORDER[i] % 2, &key);
    g_assert_cmpstr (key, ==, ORDER[i] % 2 ? "y" : "x");
  }
  g_assert_false (dry_json_is_present (dry_json_item (list, 4)));
  g_assert_false (dry_json_is_present (dry_json_member (dry_json_get (root, "c"), 2, &key)));
  g_assert_cmpstr (key, ==, "");
  nothing = dry_json_opt (root, "b");
  g_assert_false (dry_json_is_present (nothing));
  g_assert_false (dry_json_is_present (dry_json_item (dry_json_opt (root, "none"), 0)));
  g_assert_false (dry_json_is_present (dry_json_member (dry_json_opt (root, "none"), 0, &key)));
  g_assert_cmpuint (dry_json_array_length (dry_json_opt (root, "none")), ==, 0);
  g_assert_cmpuint (dry_json_member_count (nothing), ==, 0);
  g_assert_true (dry_json_finish (doc, &error));
  g_assert_cmpuint (dry_json_array_length (dry_json_get (root, "d")), ==, 0);
  g_assert_false (dry_json_finish (doc, &error));
  g_assert_cmpstr (error->message, ==, "t: d: a list was expected");
  g_clear_error (&error);
  g_assert_cmpuint (dry_json_member_count (list), ==, 0);
  g_assert_false (dry_json_finish (doc, &error));
  g_assert_cmpstr (error->message, ==, "t: a: an object was expected");
}

/* What may be left out is noted with its path, or without one at the top. */
static void
test_left_out (void)
{
  const char *text = "{\"a\": {\"b\": 1}}";
  g_autoptr (DryJsonDocument) doc = dry_json_document_new (text, strlen (text), "t", NULL);
  g_autoptr (GPtrArray) left_out = g_ptr_array_new_with_free_func (g_free);
  DryJson root = dry_json_root (doc), b = dry_json_get (dry_json_get (root, "a"), "b");

  g_assert_false (dry_json_leave_out (b, "unknown"));
  dry_json_tolerate (doc, left_out);
  g_assert_true (dry_json_leave_out (b, "unknown %d", 1));
  g_assert_true (dry_json_leave_out (root, "odd"));
  g_assert_cmpuint (left_out->len, ==, 2);
  g_assert_cmpstr (left_out->pdata[0], ==, "a.b: unknown 1");
  g_assert_cmpstr (left_out->pdata[1], ==, "odd");
  g_assert_true (dry_json_finish (doc, NULL));
}

static void
test_numbers_survive (void)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (11);

  for (guint i = 0; i < 5000; i++) {
    union {
      guint64 bits;
      double value;
    } number = {((guint64) g_rand_int (rand) << 32) | g_rand_int (rand)};
    g_autoptr (DryJsonWriter) writer = NULL;
    g_autoptr (DryJsonDocument) doc = NULL;
    g_autofree char *text = NULL;
    gsize length;

    if (number.value != number.value || number.value - number.value != 0)
      continue;
    writer = dry_json_writer_new ();
    dry_json_write_number (writer, NULL, number.value);
    text = dry_json_writer_finish (g_steal_pointer (&writer), &length);
    doc = dry_json_document_new (text, length, "t", NULL);
    g_assert_nonnull (doc);
    g_assert_true (dry_json_number (dry_json_root (doc), -G_MAXDOUBLE, G_MAXDOUBLE) ==
                   number.value);
  }
}

static void
test_writer_form (void)
{
  g_autoptr (DryJsonWriter) writer = dry_json_writer_new ();
  g_autofree char *text = NULL;

  dry_json_begin_object (writer, NULL);
  dry_json_write_string (writer, "name", "1/2\" board\n");
  dry_json_begin_array (writer, "points");
  dry_json_begin_object_inline (writer, NULL);
  dry_json_write_length (writer, "x", 396875);
  dry_json_write_boolean (writer, "ok", TRUE);
  dry_json_end_object (writer);
  dry_json_end_array (writer);
  dry_json_begin_array (writer, "none");
  dry_json_end_array (writer);
  dry_json_write_string (writer, "nil", NULL);
  dry_json_end_object (writer);
  text = dry_json_writer_finish (g_steal_pointer (&writer), NULL);
  g_assert_cmpstr (text, ==,
                   "{\n  \"name\": \"1/2\\\" board\\n\",\n  \"points\": [\n    { \"x\": 0.396875, "
                   "\"ok\": true }\n"
                   "  ],\n  \"none\": [],\n  \"nil\": null\n}\n");
}

/* Everything of the flat form: no space that need not be; and what no JSON number can be. */
static void
test_writer_flat (void)
{
  DryJsonWriter *writer = dry_json_writer_new ();
  g_autofree char *text = NULL;
  gsize length = 0;

  dry_json_writer_set_flat (writer);
  dry_json_begin_object (writer, NULL);
  dry_json_begin_array_inline (writer, "a");
  dry_json_begin_object (writer, NULL);
  dry_json_write_integer (writer, "i", -3);
  dry_json_write_number (writer, "n", -0.0);
  dry_json_end_object (writer);
  dry_json_begin_array (writer, NULL);
  dry_json_write_number (writer, NULL, INFINITY);
  dry_json_write_number (writer, NULL, NAN);
  dry_json_end_array (writer);
  dry_json_end_array (writer);
  dry_json_begin_object_inline (writer, "o");
  dry_json_write_raw (writer, "r", "[1]");
  dry_json_write_string (writer, "s", "\\\t\x01");
  dry_json_end_object (writer);
  dry_json_end_object (writer);
  text = dry_json_writer_finish (writer, &length);
  g_assert_cmpstr (text, ==,
                   "{\"a\":[{\"i\":-3,\"n\":0},[null,null]],\"o\":{\"r\":[1],\"s\":"
                   "\"\\\\\\t\\u0001\"}}\n");
  g_assert_cmpuint (length, ==, strlen (text));
}

/* Lists and objects in one line, nested, empty and not. */
static void
test_writer_inline (void)
{
  DryJsonWriter *writer = dry_json_writer_new ();
  g_autofree char *text = NULL;

  dry_json_begin_array_inline (writer, NULL);
  dry_json_begin_object (writer, NULL);
  dry_json_write_integer (writer, "x", 1);
  dry_json_begin_array (writer, "y");
  dry_json_write_integer (writer, NULL, 2);
  dry_json_write_integer (writer, NULL, 3);
  dry_json_end_array (writer);
  dry_json_end_object (writer);
  dry_json_begin_object (writer, NULL);
  dry_json_end_object (writer);
  dry_json_end_array (writer);
  text = dry_json_writer_finish (writer, NULL);
  g_assert_cmpstr (text, ==, "[{ \"x\": 1, \"y\": [2, 3] }, {}]\n");
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/json/refusals", test_refusals);
  g_test_add_func ("/json/embedded-nul", test_embedded_nul);
  g_test_add_func ("/json/limits", test_limits);
  g_test_add_func ("/json/too-many-values", test_too_many_values);
  g_test_add_func ("/json/paths", test_paths);
  g_test_add_func ("/json/ranges", test_ranges);
  g_test_add_func ("/json/escapes", test_escapes);
  g_test_add_func ("/json/escaped-length", test_escaped_length);
  g_test_add_func ("/json/walks", test_walks);
  g_test_add_func ("/json/left-out", test_left_out);
  g_test_add_func ("/json/numbers-survive", test_numbers_survive);
  g_test_add_func ("/json/writer-form", test_writer_form);
  g_test_add_func ("/json/writer-flat", test_writer_flat);
  g_test_add_func ("/json/writer-inline", test_writer_inline);
  return g_test_run ();
}
