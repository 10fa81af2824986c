/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Every limit of a project file at the limit, just over and far over: at it a file opens and saves
 * as itself, beyond it the error says what is too much. Knows no window. */
#include "project/file.h"

#include <glib/gstdio.h>
#include <string.h>
#include <unistd.h>

#include "base/json.h"
#include "project/alternate.h"
#include "project/fields.h"
#include "support/fixtures.h"

#define HEAD                                                                                       \
  "{\"format\":\"drybay-project\",\"version\":1,\"next_id\":4000000,\"job\":{\"rule_pack\":\"p\"%" \
  "s},"
#define WALL(id, x, y, rest) "{\"id\":" id ",\"start\":[" x "," y "]" rest "}"

/* What stands in the places of a sample. */
typedef struct {
  char *job, *ceiling, *wall, *room, *rest;
  const char *x;
} Filling;

/* One room of four walls; NULL fillings are left as usual. */
static char *
make_text (const Filling *with)
{
  return g_strdup_printf (
      HEAD "\"rooms\":[{\"id\":1,\"ceiling\":%s,\"wet\":{},\"finish\":{\"system\":\"s\"},"
           "\"walls\":[" WALL ("2", "0", "2000", "%s") "," WALL ("3", "%s", "2000", "") "," WALL (
               "4", "%s", "0", "") "," WALL ("5", "0", "0", "") "]%s}]%s}",
      with->job ? with->job : "", with->ceiling ? with->ceiling : "2400",
      with->wall ? with->wall : "", with->x ? with->x : "3000", with->x ? with->x : "3000",
      with->room ? with->room : "", with->rest ? with->rest : "");
}

static void
assert_opens (const char *what, const char *text, gsize length)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (DryProject) project = dry_project_from_text (text, length, "at", &error), again = NULL;
  g_autofree char *once = NULL, *twice = NULL;
  gsize once_length, twice_length;

  if (project == NULL)
    g_error ("%s: at the limit, refused: %s", what, error->message);
  once = dry_project_to_text (project, &once_length);
  again = dry_project_from_text (once, once_length, "again", &error);
  g_assert_no_error (error);
  twice = dry_project_to_text (again, &twice_length);
  g_assert_cmpmem (once, once_length, twice, twice_length);
}

static void
assert_refused (const char *what, const char *text, gsize length, const char *says)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (DryProject) project = dry_project_from_text (text, length, "over", &error);

  if (project != NULL)
    g_error ("%s: taken", what);
  g_assert_true (error->domain == DRY_ERROR &&
                 (error->code == DRY_ERROR_LIMIT || error->code == DRY_ERROR_SCHEMA));
  if (strstr (error->message, says) == NULL)
    g_error ("%s: “%s” does not say “%s”", what, error->message, says);
}

/* --- counts --- */

static char *
repeat (const char *before, const char *format, guint n, const char *after)
{
  GString *text = g_string_new (before);

  for (guint i = 0; i < n; i++) {
    g_autofree char *number = g_strdup_printf ("%u", i + 10);
    g_auto (GStrv) pieces = g_strsplit (format, "#", -1);
    g_autofree char *one = g_strjoinv (number, pieces);

    g_string_append_printf (text, "%s%s", i > 0 ? "," : "", one);
  }
  g_string_append (text, after);
  return g_string_free (text, FALSE);
}

static void
test_counts (void)
{
  static const struct {
    const char *what;
    gsize place; /* of the filling */
    const char *before, *format, *after;
    guint most;
    const char *says;
  } rows[] = {
#define PLACE_OF(member) G_STRUCT_OFFSET (Filling, member)
      {"parts", PLACE_OF (room), ",\"parts\":[",
       "{\"id\":#,\"kind\":\"valve\",\"wall\":2,\"u\":1,\"z\":1,\"width\":9,\"height\":9}", "]",
       DRY_MAX_PARTS, "at most 2000"},
      {"openings", PLACE_OF (room), ",\"openings\":[",
       "{\"id\":#,\"kind\":\"window\",\"wall\":2,\"u\":1,\"z\":1,\"width\":9,\"height\":9}", "]",
       DRY_MAX_PARTS, "at most 2000"},
      {"added walls", PLACE_OF (room), ",\"added_walls\":[",
       "{\"id\":#,\"start\":[100,100],\"end\":[900,100]}", "]", DRY_MAX_WALLS - 4, "at most 256"},
      {"seams", PLACE_OF (room), ",\"seams\":[",
       "{\"id\":#,\"wall\":2,\"direction\":\"upright\",\"at\":#,\"through\":5}", "]", DRY_MAX_SEAMS,
       "at most 500"},
      {"boards on hand", PLACE_OF (room), ",\"on_hand\":[", "{\"width\":#,\"height\":9}", "]",
       DRY_MAX_SEAMS, "at most 500"},
      {"studs as found", PLACE_OF (wall), ",\"found_studs\":[", "#", "]", DRY_MAX_FOUND_STUDS,
       "at most 1000"},
      {"alternates", PLACE_OF (rest), ",\"alternates\":[", "{\"id\":#,\"name\":\"a\",\"rooms\":[]}",
       "]", DRY_MAX_ALTERNATES, "at most 100"},
      /* The known ones do not count. */
      {"unknown fields", PLACE_OF (room), ",", "\"f#\":0", "", 256, "at most 256"},
  };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++) {
    const guint counts[] = {rows[i].most, rows[i].most + 1, rows[i].most * 20};

    for (guint n = 0; n < G_N_ELEMENTS (counts); n++) {
      Filling with = {0};
      g_autofree char *list = repeat (rows[i].before, rows[i].format, counts[n], rows[i].after);
      g_autofree char *text = NULL;

      G_STRUCT_MEMBER (char *, &with, rows[i].place) = list;
      text = make_text (&with);
      if (n == 0)
        assert_opens (rows[i].what, text, strlen (text));
      else
        assert_refused (rows[i].what, text, strlen (text), rows[i].says);
    }
  }
}

static void
test_rooms (void)
{
  const guint counts[] = {DRY_MAX_ROOMS, DRY_MAX_ROOMS + 1, DRY_MAX_ROOMS * 20};

  for (guint n = 0; n < G_N_ELEMENTS (counts); n++) {
    GString *text = g_string_new (NULL);

    g_string_append_printf (text, HEAD "\"rooms\":[", "");
    for (guint i = 0; i < counts[n]; i++)
      g_string_append_printf (
          text,
          "%s{\"id\":%u,\"ceiling\":2400,\"wet\":{},\"finish\":{\"system\":\"s\"},\"walls\":["
          "{\"id\":%u,\"start\":[0,9]},{\"id\":%u,\"start\":[9,9]},{\"id\":%u,\"start\":[9,0]}]}",
          i > 0 ? "," : "", i * 4 + 1, i * 4 + 2, i * 4 + 3, i * 4 + 4);
    g_string_append (text, "]}");
    if (n == 0)
      assert_opens ("rooms", text->str, text->len);
    else
      assert_refused ("rooms", text->str, text->len, n == 1 ? "at most 2000" : "");
    g_string_free (text, TRUE);
  }
}

/* --- texts --- */

static char *
fill (const char *before, const char *unit, gsize n, const char *after)
{
  GString *text = g_string_new (before);

  for (gsize i = 0; i < n; i++)
    g_string_append (text, unit);
  g_string_append (text, after);
  return g_string_free (text, FALSE);
}

static void
test_texts (void)
{
  /* The same text escaped otherwise has the same length: what can be typed can be saved. */
  static const struct {
    const char *what, *before, *unit;
    gsize most, far;
    const char *says;
  } rows[] = {
      {"a title", ",\"title\":\"", "x", DRY_MAX_TEXT, 1000000, "t"},
      {"a title of quotes", ",\"title\":\"", "\\\"", DRY_MAX_TEXT, 1000000, "t"},
      {"a title of two bytes each", ",\"title\":\"", "é", DRY_MAX_TEXT / 2, 1000000, "t"},
      {"a note", ",\"note\":\"", "x", DRY_MAX_NOTE, 1000000, "too long"},
      {"a note of newlines", ",\"note\":\"", "\\n", DRY_MAX_NOTE, 1000000, "too long"},
      {"a note of escapes", ",\"note\":\"", "\\u0001", DRY_MAX_NOTE, 1000000, "too long"},
      {"a note of pairs", ",\"note\":\"", "\\ud83d\\ude00", DRY_MAX_NOTE / 4, 1000000, "too long"},
      {"a note of emoji", ",\"note\":\"", "😀", DRY_MAX_NOTE / 4, 1000000, "too long"},
  };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++) {
    const gsize lengths[] = {rows[i].most, rows[i].most + 1, rows[i].far};

    for (guint n = 0; n < G_N_ELEMENTS (lengths); n++) {
      g_autofree char *job = fill (rows[i].before, rows[i].unit, lengths[n], "\"");
      g_autofree char *text = make_text (&(Filling){.job = job});

      if (n == 0)
        assert_opens (rows[i].what, text, strlen (text));
      else
        assert_refused (rows[i].what, text, strlen (text), rows[i].says);
    }
  }
}

/* --- numbers --- */

static void
test_numbers (void)
{
  static const struct {
    const char *what;
    gsize place;
    const char *at, *over, *far, *says;
  } rows[] = {
      {"ceiling", PLACE_OF (ceiling), "30000", "30000.000001", "1e300", "rooms[0].ceiling"},
      {"lowest ceiling", PLACE_OF (ceiling), "0.000001", "0", "-1e300", "rooms[0].ceiling"},
      {"corner", PLACE_OF (x), "1000000", "1000000.000001", "1e300", "rooms[0].walls[1].start[0]"},
  };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++) {
    const char *values[] = {rows[i].at, rows[i].over, rows[i].far};

    for (guint n = 0; n < G_N_ELEMENTS (values); n++) {
      Filling with = {0};
      g_autofree char *text = NULL;

      G_STRUCT_MEMBER (const char *, &with, rows[i].place) = values[n];
      text = make_text (&with);
      if (n == 0)
        assert_opens (rows[i].what, text, strlen (text));
      else
        assert_refused (rows[i].what, text, strlen (text), rows[i].says);
    }
  }
}

/* --- depth and size --- */

static void
test_depth (void)
{
  /* An unknown field of a room stands on the third level already. */
  const guint depths[] = {DRY_JSON_MAX_DEPTH - 3, DRY_JSON_MAX_DEPTH - 2, 200000};

  for (guint n = 0; n < G_N_ELEMENTS (depths); n++) {
    g_autofree char *open = fill (",\"own\":", "[", depths[n], "");
    g_autofree char *room = fill (open, "]", depths[n], "");
    g_autofree char *text = make_text (&(Filling){.room = room});

    if (n == 0)
      assert_opens ("depth", text, strlen (text));
    else
      assert_refused ("depth", text, strlen (text), "nested too deeply");
  }
}

static void
test_file_size (void)
{
  g_autofree char *folder = g_dir_make_tmp ("drybay-limits-XXXXXX", NULL);
  g_autofree char *file = g_build_filename (folder, "large.drybay", NULL);
  g_autofree char *text = make_text (&(Filling){0});
  const off_t sizes[] = {DRY_JSON_MAX_BYTES, DRY_JSON_MAX_BYTES + 1,
                         (off_t) 64 * 1024 * 1024 * 1024};

  for (guint n = 0; n < G_N_ELEMENTS (sizes); n++) {
    g_autoptr (GError) error = NULL;
    g_autoptr (DryProject) project = NULL;
    g_autofree char *padded = n < 2 ? g_strnfill ((gsize) sizes[n], ' ') : g_strdup (text);

    memcpy (padded, text, strlen (text));
    g_assert_true (g_file_set_contents (file, padded, n < 2 ? (gssize) sizes[n] : -1, &error));
    /* The largest is a hole: of no weight on the disk, endless for a reader without a cap. */
    if (n == 2 && truncate (file, sizes[n]) != 0)
      continue;
    project = dry_project_load (file, &error);
    g_assert_true ((project != NULL) == (n == 0));
    if (n > 0) {
      g_assert_error (error, DRY_ERROR, DRY_ERROR_LIMIT);
      g_assert_nonnull (strstr (error->message, "larger than 16 MB"));
    }
  }
  g_unlink (file);
  g_rmdir (folder);
}

/* `n` rooms of `n_parts` niches each, told in as few bytes as can be. */
static char *
make_compact (guint n, guint n_parts)
{
  g_autofree char *label = g_strnfill (290, 'x');
  GString *text = g_string_new (NULL);
  guint id = 0;

  g_string_append_printf (text, HEAD "\"rooms\":[", "");
  for (guint i = 0; i < n; i++) {
    g_string_append_printf (text,
                            "%s{\"id\":%u,\"ceiling\":2400,\"wet\":{},\"finish\":{\"system\":\"s\"}"
                            ",\"walls\":[",
                            i > 0 ? "," : "", ++id);
    for (guint k = 0; k < 4; k++)
      g_string_append_printf (text, "%s{\"id\":%u,\"start\":[%s]}", k > 0 ? "," : "", ++id,
                              ((const char *[]){"0,2000", "3000,2000", "3000,0", "0,0"})[k]);
    g_string_append (text, "],\"parts\":[");
    for (guint k = 0; k < n_parts; k++, id++)
      g_string_append_printf (text,
                              "%s{\"id\":%u,\"kind\":\"niche\",\"wall\":%u,\"u\":9,\"z\":9,"
                              "\"width\":9,\"height\":9,\"depth\":9,\"label\":\"%s\"}",
                              k > 0 ? "," : "", id + 1, id - k, label);
    g_string_append (text, "]}");
  }
  g_string_append (text, "]}");
  return g_string_free (text, FALSE);
}

/* What opens can be saved, laid out or, where that would be too large, without spaces; what could
 * not be saved does not open. Sizes on both sides of each border. */
static void
test_growth (void)
{
  g_autofree char *folder = g_dir_make_tmp ("drybay-growth-XXXXXX", NULL);
  g_autofree char *file = g_build_filename (folder, "large.drybay", NULL);
  static const guint parts[] = {60, 86, 94, 96, 98};
  guint n_flat = 0, n_laid_out = 0, n_refused = 0;

  for (guint i = 0; i < G_N_ELEMENTS (parts); i++) {
    g_autofree char *text = make_compact (400, parts[i]);
    gsize length = strlen (text), saved_length;
    g_autoptr (GError) error = NULL;
    g_autoptr (DryProject) project = dry_project_from_text (text, length, "growing", &error),
                           again = NULL;
    g_autofree char *saved = NULL, *twice = NULL;

    if (project == NULL) {
      g_assert_error (error, DRY_ERROR, DRY_ERROR_LIMIT);
      n_refused += g_str_has_prefix (error->message, "it could be opened, but not saved again");
      continue;
    }
    g_assert_true (dry_project_save (project, file, &error));
    g_assert_no_error (error);
    again = dry_project_load (file, &error);
    g_assert_no_error (error);
    saved = dry_project_to_text (project, &saved_length);
    g_assert_cmpuint (saved_length, <=, DRY_JSON_MAX_BYTES);
    twice = dry_project_to_text (again, NULL);
    g_assert_cmpstr (saved, ==, twice);
    if (strchr (saved, '\n') + 1 == saved + saved_length)
      n_flat++;
    else
      n_laid_out++;
  }
  g_assert_cmpuint (n_laid_out, >, 0);
  g_assert_cmpuint (n_flat, >, 0);
  g_assert_cmpuint (n_refused, >, 0);
  g_unlink (file);
  g_rmdir (folder);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/limits/counts", test_counts);
  g_test_add_func ("/limits/rooms", test_rooms);
  g_test_add_func ("/limits/texts", test_texts);
  g_test_add_func ("/limits/numbers", test_numbers);
  g_test_add_func ("/limits/depth", test_depth);
  g_test_add_func ("/limits/file-size", test_file_size);
  g_test_add_func ("/limits/growth", test_growth);
  return g_test_run ();
}
