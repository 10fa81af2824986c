/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Ready rooms built by the same edits people use, and the shipped catalogue.
 * Sizes are invented and ordinary; what must come of them is checked in the tests. */
#include "support/fixtures.h"

#include <glib/gstdio.h>
#include <string.h>

#include "base/error.h"
#include "project/file.h"

const DryCatalog *
dry_test_catalog (void)
{
  static gsize catalog;

  if (g_once_init_enter (&catalog)) {
    const char *const folders[] = {DRY_TEST_DATA, NULL};
    g_autoptr (GError) error = NULL;
    DryCatalog *loaded = dry_catalog_load (folders, &error);

    g_assert_no_error (error);
    g_once_init_leave (&catalog, GPOINTER_TO_SIZE (loaded));
  }
  return GSIZE_TO_POINTER (catalog);
}

DryProject *
dry_test_load (const char *name)
{
  g_autofree char *case_path = g_build_filename (DRY_TEST_CASES, name, NULL);
  g_autofree char *demo_path = g_build_filename (DRY_TEST_DATA, "demo", name, NULL);
  g_autoptr (GError) error = NULL;
  gboolean is_case = g_file_test (case_path, G_FILE_TEST_EXISTS);
  DryProject *project = dry_project_load (is_case ? case_path : demo_path, &error);

  g_assert_no_error (error);
  return project;
}

DryId
dry_test_room (const DryProject *project)
{
  return dry_project_get_room_at (project, 0)->id;
}

DryId *
dry_test_rooms (const DryProject *project)
{
  guint n = dry_project_get_n_rooms (project);
  DryId *rooms = g_new (DryId, n + 1);

  for (guint i = 0; i < n; i++)
    rooms[i] = dry_project_get_room_at (project, i)->id;
  return rooms;
}

DryId
dry_test_wall (const DryProject *project, char compass)
{
  const char *order = "nesw";
  const char *at = strchr (order, compass);

  g_assert_true (at != NULL && compass != '\0');
  return dry_project_get_room_at (project, 0)->walls[at - order].id;
}

/* Hands over the next project in place of the one before. */
DryProject *
dry_test_follow (DryProject *old, DryProject *next, GError *error)
{
  g_assert_no_error (error);
  g_assert_nonnull (next);
  dry_project_unref (old);
  return next;
}

DryProject *
dry_test_alcove (const char *system)
{
  DryProject *project = dry_project_new ();
  DryFinish finish = dry_project_get_room_at (project, 0)->finish;
  g_autoptr (GError) error = NULL;
  DryProject *next;

  finish.system = (char *) system;
  next = dry_edit_set_finish (project, dry_test_room (project), &finish, &error);
  return dry_test_follow (project, next, error);
}

static DryProject *
put_part (DryProject *project, char compass, DryPart part)
{
  g_autoptr (GError) error = NULL;
  DryProject *next;

  part.wall = dry_test_wall (project, compass);
  next = dry_edit_set_part (project, dry_test_room (project), &part, NULL, &error);
  return dry_test_follow (project, next, error);
}

DryProject *
dry_test_furnished_alcove (const char *system)
{
  DryProject *project = dry_test_alcove (system);

  /* In the second bay: studs stand at 16 and 32 in. */
  project = put_part (project, 'n',
                      (DryPart){.kind = DRY_PART_NICHE,
                                .u = 24 * DRY_INCH,
                                .z = 48 * DRY_INCH,
                                .width = 12 * DRY_INCH,
                                .height = 20 * DRY_INCH,
                                .depth = 3 * DRY_INCH,
                                .site_built = TRUE,
                                .pitch = 0.020833});
  project = put_part (project, 'e',
                      (DryPart){.kind = DRY_PART_VALVE,
                                .u = 15 * DRY_INCH,
                                .z = 40 * DRY_INCH,
                                .width = 7 * DRY_INCH,
                                .height = 7 * DRY_INCH,
                                .hole = 3 * DRY_INCH});
  project = put_part (project, 'e',
                      (DryPart){.kind = DRY_PART_SPOUT,
                                .u = 15 * DRY_INCH,
                                .z = 21 * DRY_INCH,
                                .width = 5 * DRY_INCH / 2,
                                .height = 5 * DRY_INCH / 2,
                                .depth = 6 * DRY_INCH,
                                .hole = DRY_INCH});
  return put_part (project, 'e',
                   (DryPart){.kind = DRY_PART_SHOWER_HEAD,
                             .u = 15 * DRY_INCH,
                             .z = 80 * DRY_INCH,
                             .width = 5 * DRY_INCH / 2,
                             .height = 5 * DRY_INCH / 2,
                             .depth = 6 * DRY_INCH,
                             .hole = DRY_INCH,
                             .flow_lpm = 6.8});
}

const DryPart *
dry_test_niche (const DryRoom *room)
{
  for (guint i = 0; i < room->n_parts; i++)
    if (room->parts[i].kind == DRY_PART_NICHE)
      return &room->parts[i];
  g_assert_not_reached ();
}

const DryRoom *
dry_test_first_room (const DryProject *project)
{
  return dry_project_get_room_at (project, 0);
}

void
dry_test_refused (DryProject *project, GError **error, gint code, const char *part)
{
  g_assert_null (project);
  g_assert_error (*error, DRY_ERROR, code);
  if (strstr ((*error)->message, part) == NULL)
    g_error ("\"%s\" lacks \"%s\"", (*error)->message, part);
  g_clear_error (error);
}

void
dry_test_remove_tree (const char *folder)
{
  g_autoptr (GDir) dir = g_dir_open (folder, 0, NULL);
  const char *name;

  while (dir != NULL && (name = g_dir_read_name (dir)) != NULL) {
    g_autofree char *file = g_build_filename (folder, name, NULL);

    if (g_file_test (file, G_FILE_TEST_IS_DIR) && !g_file_test (file, G_FILE_TEST_IS_SYMLINK))
      dry_test_remove_tree (file);
    else
      g_unlink (file);
  }
  g_rmdir (folder);
}

guint
dry_test_count_files (const char *folder)
{
  g_autoptr (GDir) dir = g_dir_open (folder, 0, NULL);
  guint n = 0;

  while (dir != NULL && g_dir_read_name (dir) != NULL)
    n++;
  return n;
}

guint32
dry_test_number (const char *variable, guint32 otherwise)
{
  const char *text = g_getenv (variable);

  return text != NULL ? (guint32) g_ascii_strtoull (text, NULL, 10) : otherwise;
}
