/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Files of other versions: those of every release open and are saved as they were; those of a newer
 * version are shown with what cannot be read named, or refused when they ask for more. */
#include <string.h>

#include "base/error.h"
#include "project/alternate.h"
#include "project/file.h"
#include "support/fixtures.h"

/* Each row changes the first place where `old` stands in a file that says it is of version 2. */
typedef struct {
  const char *old, *new;
  const char *left_out; /* NULL: nothing */
} Row;

static char *
replace_once (const char *text, const char *old, const char *new)
{
  const char *at = strstr (text, old);
  g_autofree char *head = NULL;

  if (at == NULL)
    g_error ("no %s", old);
  head = g_strndup (text, (gsize) (at - text));
  return g_strconcat (head, new, at + strlen (old), NULL);
}

static char *
make_newer (const DryProject *project, const char *version)
{
  g_autofree char *text = dry_project_to_text (project, NULL);
  g_autofree char *line = g_strdup_printf ("\"version\": %s", version);

  return replace_once (text, "\"version\": 1", line);
}

static void
test_left_out (void)
{
  static const Row rows[] = {
      {"\"next_id\"", "\"next_id\"", NULL},
      {"\"next_id\"", "\"phases\": [1, {}], \"next_id\"", "phases: unknown field"},
      {"\"title\"", "\"lender\": \"x\", \"title\"", "job.lender: unknown field"},
      {"\"units\": \"inches\"", "\"units\": \"cubits\"", "job.units: unknown word “cubits”"},
      {"\"ceiling\"", "\"heat\": {\"on\": true}, \"ceiling\"",
       "rooms[0].heat: unknown field, kept"},
      {"\"kind\": \"valve\"", "\"kind\": \"mirror\"",
       "rooms[0].parts[1].kind: unknown word “mirror”"},
      {"\"kind\": \"valve\"", "\"kind\": \"valve\", \"lit\": true",
       "rooms[0].parts[1].lit: unknown field"},
      {"\"system\": \"foam-bands\"", "\"system\": \"foam-bands\", \"gloss\": 3",
       "rooms[0].finish.gloss: unknown field"},
  };
  g_autoptr (DryProject) project = dry_test_furnished_alcove ("foam-bands");
  g_autofree char *base = make_newer (project, "2");

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++) {
    g_autofree char *text = replace_once (base, rows[i].old, rows[i].new);
    g_auto (DryNewer) newer = {0};
    g_autoptr (GError) error = NULL;
    g_autoptr (DryProject) read =
        dry_project_from_newer_text (text, strlen (text), "newer", &newer, &error);

    g_assert_no_error (error);
    g_assert_cmpint (newer.version, ==, 2);
    g_assert_cmpuint (newer.left_out->len, ==, rows[i].left_out != NULL);
    if (rows[i].left_out != NULL)
      g_assert_cmpstr (newer.left_out->pdata[0], ==, rows[i].left_out);
    /* Who does not ask for it is not given half a project. */
    g_assert_null (dry_project_from_text (text, strlen (text), "newer", &error));
    g_assert_error (error, DRY_ERROR, DRY_ERROR_VERSION);
    g_assert_nonnull (strstr (error->message, "in the window only"));
  }
}

/* What is known is there, and what is kept is saved again. */
static void
test_shown (void)
{
  g_autoptr (DryProject) project = dry_test_furnished_alcove ("foam-bands");
  const DryRoom *room = dry_project_get_room_at (project, 0), *seen;
  g_autofree char *base = make_newer (project, "7, \"least_reader\": 1");
  g_autofree char *heated = replace_once (base, "\"ceiling\"", "\"heat\": [1], \"ceiling\"");
  g_autofree char *text = replace_once (heated, "\"kind\": \"valve\"", "\"kind\": \"mirror\"");
  g_auto (DryNewer) newer = {0};
  g_autoptr (GError) error = NULL;
  g_autoptr (DryProject) read =
      dry_project_from_newer_text (text, strlen (text), "newer", &newer, &error);
  g_autofree char *saved = NULL;

  g_assert_no_error (error);
  g_assert_cmpint (newer.version, ==, 7);
  g_assert_cmpuint (newer.left_out->len, ==, 2);
  seen = dry_project_get_room_at (read, 0);
  g_assert_cmpuint (seen->n_parts, ==, room->n_parts - 1);
  g_assert_cmpuint (seen->n_walls, ==, room->n_walls);
  for (guint i = 0; i < seen->n_parts; i++)
    g_assert_nonnull (dry_room_get_part (room, seen->parts[i].id));
  saved = dry_project_to_text (read, NULL);
  g_assert_nonnull (strstr (saved, "\"version\": 1,"));
  g_assert_nonnull (strstr (saved, "\"heat\""));
  g_assert_null (strstr (saved, "least_reader"));
}

static void
test_refused (void)
{
  static const struct {
    const char *version;
    gint code;
    const char *words;
  } rows[] = {
      {"2, \"least_reader\": 2", DRY_ERROR_VERSION, "newer Drybay"},
      {"9, \"least_reader\": 3", DRY_ERROR_VERSION, "up to version 1"},
      {"2, \"least_reader\": 3", DRY_ERROR_SCHEMA, "least_reader"},
      {"2, \"least_reader\": 0", DRY_ERROR_SCHEMA, "least_reader"},
      {"2, \"least_reader\": \"1\"", DRY_ERROR_SCHEMA, "least_reader"},
      {"1, \"least_reader\": 2", DRY_ERROR_SCHEMA, "least_reader"},
      {"3000000000", DRY_ERROR_SCHEMA, "version"},
      /* In a file of this version nothing is left out. */
      {"1, \"least_reader\": 1, \"phases\": []", DRY_ERROR_SCHEMA, "phases"},
  };
  g_autoptr (DryProject) project = dry_test_furnished_alcove ("foam-bands");

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++) {
    g_autofree char *text = make_newer (project, rows[i].version);
    g_auto (DryNewer) newer = {0};
    g_autoptr (GError) error = NULL;

    g_assert_null (dry_project_from_newer_text (text, strlen (text), "newer", &newer, &error));
    g_assert_error (error, DRY_ERROR, rows[i].code);
    g_assert_nonnull (strstr (error->message, rows[i].words));
  }
}

/* Broken is broken, whatever the version. */
static void
test_broken (void)
{
  static const Row rows[] = {
      {"\"ceiling\": 2438.4", "\"ceiling\": 0", NULL},
      {"\"rule_pack\"", "\"pack\"", NULL},
      {"\"rooms\": [", "\"rooms\": 3, \"halls\": [", NULL},
      {"\"kind\": \"valve\"", "\"kind\": 3", NULL},
  };
  g_autoptr (DryProject) project = dry_test_furnished_alcove ("foam-bands");
  g_autofree char *base = make_newer (project, "2");

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++) {
    g_autofree char *text = replace_once (base, rows[i].old, rows[i].new);
    g_auto (DryNewer) newer = {0};
    g_autoptr (GError) error = NULL;

    g_assert_null (dry_project_from_newer_text (text, strlen (text), "newer", &newer, &error));
    g_assert_error (error, DRY_ERROR, DRY_ERROR_SCHEMA);
  }
}

static guint
check_release (const char *folder)
{
  g_autoptr (GDir) dir = g_dir_open (folder, 0, NULL);
  const char *name;
  guint n = 0;

  while ((name = g_dir_read_name (dir)) != NULL) {
    g_autofree char *path = g_build_filename (folder, name, NULL);
    g_autofree char *bytes = NULL, *saved = NULL;
    g_autoptr (GError) error = NULL;
    g_autoptr (DryProject) project = NULL;
    gsize length, saved_length;

    if (!g_str_has_suffix (name, ".drybay"))
      continue;
    g_assert_true (g_file_get_contents (path, &bytes, &length, NULL));
    project = dry_project_load (path, &error);
    g_assert_no_error (error);
    saved = dry_project_to_text (project, &saved_length);
    g_assert_cmpmem (saved, saved_length, bytes, length);
    n++;
  }
  return n;
}

static void
test_releases (void)
{
  g_autofree char *root = g_test_build_filename (G_TEST_DIST, "releases", NULL);
  g_autoptr (GDir) dir = g_dir_open (root, 0, NULL);
  const char *name;
  guint n_releases = 0;

  while ((name = g_dir_read_name (dir)) != NULL) {
    g_autofree char *folder = g_build_filename (root, name, NULL);

    if (!g_file_test (folder, G_FILE_TEST_IS_DIR))
      continue;
    g_assert_cmpuint (check_release (folder), >, 0);
    n_releases++;
  }
  g_assert_cmpuint (n_releases, >=, 1);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/newer/left-out", test_left_out);
  g_test_add_func ("/newer/shown", test_shown);
  g_test_add_func ("/newer/refused", test_refused);
  g_test_add_func ("/newer/broken", test_broken);
  g_test_add_func ("/newer/releases", test_releases);
  return g_test_run ();
}
