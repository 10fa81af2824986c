/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Good files: the same bytes after reading and writing, in any locale, and safe saving. */
#include "project/file.h"

#include <errno.h>
#include <glib/gstdio.h>
#include <locale.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include "project/fields.h"
#include "support/fixtures.h"

static void
round_trip (const char *path)
{
  g_autofree char *before = NULL, *after = NULL;
  g_autoptr (GError) error = NULL;
  g_autoptr (DryProject) project = NULL;
  gsize before_length, after_length;

  g_assert_true (g_file_get_contents (path, &before, &before_length, NULL));
  project = dry_project_load (path, &error);
  g_assert_no_error (error);
  after = dry_project_to_text (project, &after_length);
  g_assert_cmpmem (before, before_length, after, after_length);
}

static guint
round_trip_folder (const char *folder)
{
  g_autoptr (GDir) dir = g_dir_open (folder, 0, NULL);
  const char *name;
  guint n = 0;

  g_assert_nonnull (dir);
  while ((name = g_dir_read_name (dir)) != NULL)
    if (g_str_has_suffix (name, ".drybay")) {
      g_autofree char *path = g_build_filename (folder, name, NULL);

      round_trip (path);
      n++;
    }
  return n;
}

static void
round_trip_all (void)
{
  g_autofree char *demo = g_build_filename (g_getenv ("DRYBAY_DATA"), "demo", NULL);
  g_autofree char *cases = g_test_build_filename (G_TEST_DIST, "cases", NULL);

  g_assert_cmpuint (round_trip_folder (demo), >=, 3);
  g_assert_cmpuint (round_trip_folder (cases), >=, 6);
}

static void
test_round_trip (void)
{
  round_trip_all ();
}

static void
test_other_locale (void)
{
  g_autofree char *old = g_strdup (setlocale (LC_ALL, NULL));

  if (dry_test_use_decimal_comma ())
    round_trip_all ();
  else
    g_test_skip ("no locale with a decimal comma can be had");
  setlocale (LC_ALL, old);
}

/* Numbers that a double or a careless writer would bend. */
static void
test_exact_numbers (void)
{
  static const DryLength lengths[] = {
      1, 999999, 1000001, 396875, 123456789012, DRY_SIZE_MAX, DRY_SIZE_MAX - 1, 1524000001,
  };
  g_autoptr (DryProject) project = dry_project_new ();
  DryFinish finish = dry_project_get_room_at (project, 0)->finish;
  DryWetZone wet = {0};

  for (guint i = 0; i < G_N_ELEMENTS (lengths); i++) {
    g_autoptr (DryProject) one = NULL, two = NULL, read = NULL;
    g_autofree char *text = NULL;
    g_autoptr (GError) error = NULL;
    gsize length;

    wet.past = MIN (lengths[i], DRY_SIZE_MAX);
    finish.offset = 1.0 / (double) (3 + i);
    one = dry_edit_set_wet_zone (project, dry_test_room (project), &wet, &error);
    g_assert_no_error (error);
    two = dry_edit_set_finish (one, dry_test_room (one), &finish, &error);
    g_assert_no_error (error);
    text = dry_project_to_text (two, &length);
    read = dry_project_from_text (text, length, "numbers", &error);
    g_assert_no_error (error);
    g_assert_cmpint (dry_project_get_room_at (read, 0)->wet.past, ==, wet.past);
    g_assert_true (dry_project_get_room_at (read, 0)->finish.offset == finish.offset);
  }
}

/* The bow of an alcove is written when one was measured, and only then. */
static void
test_width_bow (void)
{
  g_autoptr (DryProject) old = dry_project_new ();
  DryId room = dry_test_room (old), north = dry_test_wall (old, 'n');
  g_autoptr (GError) error = NULL;
  g_autoptr (DryProject) bowed = dry_edit_set_widths (old, room, north, 60 * DRY_INCH,
                                                      59 * DRY_INCH + 1, 60 * DRY_INCH, &error);
  g_autoptr (DryProject) read = NULL, straight = NULL;
  g_autofree char *plain = dry_project_to_text (old, NULL), *text = NULL, *again = NULL;

  g_assert_no_error (error);
  g_assert_null (strstr (plain, "width_bow"));
  text = dry_project_to_text (bowed, NULL);
  g_assert_nonnull (strstr (text, "\"width_bow\": -25.399999"));
  read = dry_project_from_text (text, strlen (text), "bowed", &error);
  g_assert_no_error (error);
  g_assert_cmpint (
      dry_room_get_wall (dry_project_get_room_at (read, 0), dry_test_wall (read, 'n'))->width_bow,
      ==, 1 - DRY_INCH);
  straight = dry_edit_set_widths (read, room, north, 60 * DRY_INCH, 0, 60 * DRY_INCH, &error);
  g_assert_no_error (error);
  again = dry_project_to_text (straight, NULL);
  g_assert_cmpstr (again, ==, plain);
}

static char *
replace_once (const char *text, const char *old, const char *new)
{
  const char *at = strstr (text, old);
  g_autofree char *head = NULL;

  g_assert_nonnull (at);
  head = g_strndup (text, (gsize) (at - text));
  return g_strconcat (head, new, at + strlen (old), NULL);
}

/* What a newer Drybay wrote into a room survives reading, an edit and writing. */
static void
test_unknown_room_fields (void)
{
  g_autoptr (DryProject) old = dry_project_new ();
  g_autofree char *plain = dry_project_to_text (old, NULL);
  g_autofree char *text = replace_once (
      plain, "\"name\": \"Bathroom\",",
      "\"name\": \"Bathroom\",\n      \"heat\": {\"loops\": [1, 2.5e-7, \"q\\\"\\u00e9\"], \"on\": "
      "null},\n      \"fan\": true,");
  g_autoptr (GError) error = NULL;
  g_autoptr (DryProject) read = dry_project_from_text (text, strlen (text), "newer", &error);
  g_autoptr (DryProject) edited = NULL, again = NULL;
  g_autofree char *once = NULL, *twice = NULL;

  g_assert_no_error (error);
  edited = dry_edit_move_basin (read, dry_test_room (read), dry_test_wall (read, 'n'), 0, 1, FALSE,
                                &error);
  g_assert_no_error (error);
  once = dry_project_to_text (edited, NULL);
  g_assert_nonnull (strstr (once, "\"fan\": true"));
  g_assert_nonnull (strstr (once, "\"loops\""));
  again = dry_project_from_text (once, strlen (once), "again", &error);
  g_assert_no_error (error);
  twice = dry_project_to_text (again, NULL);
  g_assert_cmpstr (once, ==, twice);
}

/* Files may leave out what is at its default. */
static void
test_sparse_file (void)
{
  const char *text =
      "{\"format\":\"drybay-project\",\"version\":1,\"next_id\":9,"
      "\"job\":{\"rule_pack\":\"common-practice\"},"
      "\"rooms\":[{\"id\":1,\"ceiling\":2400,\"walls\":[{\"id\":2,\"start\":[0,1000]},"
      "{\"id\":3,\"start\":[1000,0]},{\"id\":4,\"start\":[0,0]}],\"wet\":{},"
      "\"finish\":{\"system\":\"foam-bands\"}}]}";
  g_autoptr (GError) error = NULL;
  g_autoptr (DryProject) project = dry_project_from_text (text, strlen (text), "sparse", &error);
  const DryRoom *room;

  g_assert_no_error (error);
  room = dry_project_get_room_at (project, 0);
  g_assert_cmpint (room->walls[0].stud_spacing, ==, 16 * DRY_INCH);
  g_assert_cmpint (room->walls[2].end.y, ==, 1000 * DRY_MM);
  g_assert_cmpstr (room->name, ==, "");
  g_assert_cmpint (dry_project_get_job (project)->denominator, ==, 16);
  g_assert_true (dry_project_get_job (project)->temperature == 21);
}

/* --- the schema and the reader name the same fields --- */

static void
compare_fields (DryJson defs, const char *name, const DryFieldSet *set, guint omit, guint others)
{
  DryJson properties = dry_json_get (dry_json_get (defs, name), "properties");
  guint n = 0;

  for (guint i = 0; i < set->n; i++)
    if (!(set->fields[i].flags & omit)) {
      if (!dry_json_is_present (dry_json_opt (properties, set->fields[i].key)))
        g_error ("the schema's \"%s\" lacks \"%s\"", name, set->fields[i].key);
      n++;
    }
  g_assert_cmpuint (dry_json_member_count (properties), ==, n + others);
}

static void
test_schema_fields (void)
{
  g_autofree char *path =
      g_build_filename (g_getenv ("DRYBAY_DATA"), "schemas", "project.schema.json", NULL);
  g_autofree char *text = NULL;
  g_autoptr (GError) error = NULL;
  g_autoptr (DryJsonDocument) document = NULL;
  gsize length;
  DryJson defs;

  g_assert_true (g_file_get_contents (path, &text, &length, NULL));
  document = dry_json_document_new (text, length, "project.schema.json", &error);
  g_assert_no_error (error);
  defs = dry_json_get (dry_json_root (document), "$defs");
  compare_fields (defs, "job", &dry_job_fields, 0, 0);
  compare_fields (defs, "room", &dry_room_fields, 0, 9);
  compare_fields (defs, "wall", &dry_wall_fields, DRY_FIELD_ADDED_WALL, 0);
  compare_fields (defs, "added_wall", &dry_wall_fields, 0, 0);
  compare_fields (defs, "opening", &dry_opening_fields, 0, 0);
  compare_fields (defs, "basin", &dry_basin_fields, 0, 0);
  compare_fields (defs, "wet", &dry_wet_zone_fields, 0, 0);
  compare_fields (defs, "finish", &dry_finish_fields, 0, 0);
  compare_fields (defs, "part", &dry_part_fields, 0, 0);
  compare_fields (defs, "seam", &dry_seam_fields, 0, 0);
  compare_fields (defs, "on_hand", &dry_on_hand_fields, 0, 0);
  g_assert_true (dry_json_finish (document, NULL));
}

/* --- saving --- */

typedef struct {
  char *folder, *path, *link;
} Place;

static void
make_place (Place *place, gconstpointer data)
{
  place->folder = g_dir_make_tmp ("drybay-XXXXXX", NULL);
  place->path = g_build_filename (place->folder, "job.drybay", NULL);
  place->link = g_build_filename (place->folder, "link.drybay", NULL);
}

static void
drop_place (Place *place, gconstpointer data)
{
  g_chmod (place->folder, 0700);
  g_unlink (place->path);
  g_unlink (place->link);
  g_assert_cmpint (g_rmdir (place->folder), ==, 0);
  g_free (place->folder);
  g_free (place->path);
  g_free (place->link);
}

static void
test_save (Place *place, gconstpointer data)
{
  g_autoptr (DryProject) project = dry_test_load ("two-bath-house.drybay");
  g_autoptr (DryProject) read = NULL;
  g_autoptr (GError) error = NULL;
  GStatBuf info;

  g_assert_true (dry_project_save (project, place->path, &error));
  g_assert_no_error (error);
  g_assert_cmpuint (dry_test_count_files (place->folder), ==, 1);
  g_assert_cmpint (g_chmod (place->path, 0640), ==, 0);
  g_assert_true (dry_project_save (project, place->path, &error));
  g_assert_cmpint (g_stat (place->path, &info), ==, 0);
  g_assert_cmpint (info.st_mode & 07777, ==, 0640);
  g_assert_cmpuint (dry_test_count_files (place->folder), ==, 1);
  read = dry_project_load (place->path, &error);
  g_assert_no_error (error);
  g_assert_true (dry_project_equal (project, read));
}

static void
test_save_link (Place *place, gconstpointer data)
{
  g_autoptr (DryProject) project = dry_project_new ();
  g_autoptr (GError) error = NULL;

  /* A link to a file that is not there yet, then to one that is; the link may be relative. */
  g_assert_cmpint (symlink ("job.drybay", place->link), ==, 0);
  for (int i = 0; i < 2; i++) {
    g_assert_true (dry_project_save (project, place->link, &error));
    g_assert_no_error (error);
    g_assert_true (g_file_test (place->link, G_FILE_TEST_IS_SYMLINK));
    g_assert_true (g_file_test (place->path, G_FILE_TEST_IS_REGULAR));
    g_assert_false (g_file_test (place->path, G_FILE_TEST_IS_SYMLINK));
  }
  g_unlink (place->link);
  g_assert_cmpint (symlink ("link.drybay", place->link), ==, 0);
  g_assert_false (dry_project_save (project, place->link, &error));
  g_assert_error (error, DRY_ERROR, DRY_ERROR_FILE);
}

static void
test_save_refused (Place *place, gconstpointer data)
{
  g_autoptr (DryProject) project = dry_project_new ();
  g_autofree char *nowhere = g_build_filename (place->folder, "no", "job.drybay", NULL);
  g_autofree char *before = NULL, *after = NULL;
  GError *error = NULL;

  g_assert_false (dry_project_save (project, nowhere, &error));
  g_assert_error (error, DRY_ERROR, DRY_ERROR_FILE);
  g_assert_nonnull (strstr (error->message, nowhere));
  g_clear_error (&error);
  g_assert_false (dry_project_save (project, place->folder, &error));
  g_assert_error (error, DRY_ERROR, DRY_ERROR_FILE);
  g_assert_nonnull (strstr (error->message, "not a plain file"));
  g_clear_error (&error);
  /* Root may write anywhere, so become somebody else for a while. */
  if (geteuid () == 0 && (chown (place->folder, 65534, 65534) != 0 || seteuid (65534) != 0)) {
    g_test_skip ("root cannot become somebody else here");
    return;
  }
  g_assert_true (dry_project_save (project, place->path, &error));
  g_assert_true (g_file_get_contents (place->path, &before, NULL, NULL));
  g_chmod (place->folder, 0500);
  g_assert_false (dry_project_save (project, place->path, &error));
  g_assert_error (error, DRY_ERROR, DRY_ERROR_FILE);
  g_assert_nonnull (strstr (error->message, "folder cannot be written"));
  g_clear_error (&error);
  g_chmod (place->folder, 0700);
  g_chmod (place->path, 0400);
  g_assert_false (dry_project_save (project, place->path, &error));
  g_assert_error (error, DRY_ERROR, DRY_ERROR_FILE);
  g_clear_error (&error);
  g_assert_true (g_file_get_contents (place->path, &after, NULL, NULL));
  g_assert_cmpstr (before, ==, after);
  g_assert_cmpuint (dry_test_count_files (place->folder), ==, 1);
  g_assert_cmpint (seteuid (getuid ()), ==, 0);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/file/round-trip", test_round_trip);
  g_test_add_func ("/file/other-locale", test_other_locale);
  g_test_add_func ("/file/exact-numbers", test_exact_numbers);
  g_test_add_func ("/file/width-bow", test_width_bow);
  g_test_add_func ("/file/unknown-room-fields", test_unknown_room_fields);
  g_test_add_func ("/file/sparse-file", test_sparse_file);
  g_test_add_func ("/file/schema-fields", test_schema_fields);
  g_test_add ("/file/save", Place, NULL, make_place, test_save, drop_place);
  g_test_add ("/file/save-link", Place, NULL, make_place, test_save_link, drop_place);
  g_test_add ("/file/save-refused", Place, NULL, make_place, test_save_refused, drop_place);
  return g_test_run ();
}
