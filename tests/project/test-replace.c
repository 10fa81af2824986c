/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Replacing a file when calls to the system fail: the old file or the new one is there whole, the
 * message says why, and nothing is left beside it; and which leftovers are tidied up. */
#include "project/file-replace.h"

#include <errno.h>
#include <fcntl.h>
#include <glib/gstdio.h>
#include <string.h>
#include <sys/file.h>
#include <sys/stat.h>
#include <unistd.h>

#include "base/error.h"
#include "project/file.h"
#include "project/versions.h"
#include "support/failing-calls.h"
#include "support/fixtures.h"

#define OLD "the old text"
#define NEW "the new text, which is longer"

static void
assert_text (const char *file, const char *text)
{
  g_autofree char *found = NULL;

  g_assert_true (g_file_get_contents (file, &found, NULL, NULL));
  g_assert_cmpstr (found, ==, text);
}

typedef struct {
  const char *call;
  gint nth, error;
  const char *says; /* NULL: it goes well all the same */
  gboolean is_new;  /* the new text is there */
} Row;

static void
check_row (const Row *row, gboolean has_old)
{
  g_autofree char *folder = g_dir_make_tmp ("drybay-replace-XXXXXX", NULL);
  g_autofree char *path = g_build_filename (folder, "a.drybay", NULL);
  g_autoptr (GError) error = NULL;
  GStatBuf old, now;
  gboolean done;
  gint n;

  if (has_old) {
    g_assert_true (g_file_set_contents (path, OLD, -1, NULL));
    g_assert_cmpint (g_chmod (path, 0640), ==, 0);
    g_assert_cmpint (g_stat (path, &old), ==, 0);
  }
  dry_test_fail (row->call, row->nth, row->error);
  done = dry_file_replace (path, NEW, strlen (NEW), has_old ? &old : NULL, FALSE, &error);
  n = dry_test_fail_end ();
  g_test_message ("%s %d %s: %s", row->call, row->nth, g_strerror (row->error),
                  error != NULL ? error->message : "done");
  g_assert_cmpint (n, >, 0);
  g_assert_true (done == (row->says == NULL));
  g_assert_true (done == (error == NULL));
  if (error != NULL) {
    g_assert_error (error, DRY_ERROR, DRY_ERROR_FILE);
    g_assert_nonnull (strstr (error->message, path));
    g_assert_nonnull (strstr (error->message, row->says));
    g_assert_nonnull (strstr (error->message, g_strerror (row->error)));
  }
  g_assert_cmpuint (dry_test_count_files (folder), ==, has_old || row->is_new ? 1 : 0);
  if (has_old || row->is_new)
    assert_text (path, row->is_new ? NEW : OLD);
  if (has_old) {
    g_assert_cmpint (g_stat (path, &now), ==, 0);
    g_assert_cmpuint (now.st_mode & 07777, ==, 0640);
  }
  dry_test_remove_tree (folder);
}

static void
test_failing_calls (void)
{
  static const Row ROWS[] = {
      {"open", 1, EACCES, "the folder cannot be written", FALSE},
      {"open", 2, EIO, "saved, but the disk did not confirm it", TRUE},
      {"open", 2, EACCES, NULL, TRUE},       /* may be written, not read */
      {"flock", 1, ENOLCK, NULL, TRUE},      /* a file system without locks */
      {"flock", 1, EWOULDBLOCK, NULL, TRUE}, /* someone tidying up: another name is taken */
      {"write", 1, ENOSPC, "cannot save", FALSE},
      {"write", 1, EINTR, NULL, TRUE},
      {"write", 1, 0, NULL, TRUE},
      {"write", 0, 0, NULL, TRUE},
      {"fsync", 1, EIO, "cannot save", FALSE},
      {"fsync", 2, EIO, "saved, but the disk did not confirm it", TRUE},
      {"fsync", 2, EINVAL, NULL, TRUE}, /* a folder that cannot be synced */
      {"fsync", 2, ENOTSUP, NULL, TRUE},
      {"close", 1, EDQUOT, "cannot save", FALSE},
  };

  for (guint i = 0; i < G_N_ELEMENTS (ROWS); i++) {
    check_row (&ROWS[i], FALSE);
    check_row (&ROWS[i], TRUE);
  }
}

/* Whose it was and what might be done with it. */
static void
test_owner_and_mode (void)
{
  static const Row ROWS[] = {
      {"fchown", 1, EPERM, NULL, TRUE}, /* the group alone is kept */
      {"fchown", 0, EPERM, NULL, TRUE},
      {"fchmod", 1, EPERM, "cannot save", FALSE},
  };

  for (guint i = 0; i < G_N_ELEMENTS (ROWS); i++)
    check_row (&ROWS[i], TRUE);
}

/* A name that is taken away again each time is given up at last, and none of them stays. */
static void
test_no_lock (void)
{
  g_autofree char *folder = g_dir_make_tmp ("drybay-replace-XXXXXX", NULL);
  g_autofree char *path = g_build_filename (folder, "a.drybay", NULL);
  g_autoptr (GError) error = NULL;

  dry_test_fail ("flock", 0, EWOULDBLOCK);
  g_assert_false (dry_file_replace (path, NEW, strlen (NEW), NULL, FALSE, &error));
  g_assert_cmpint (dry_test_fail_end (), ==, 16);
  g_assert_error (error, DRY_ERROR, DRY_ERROR_FILE);
  g_assert_nonnull (strstr (error->message, g_strerror (EBUSY)));
  g_assert_cmpuint (dry_test_count_files (folder), ==, 0);
  dry_test_remove_tree (folder);
}

/* What cannot be replaced by a file, and where no file can be. */
static void
test_bad_places (void)
{
  g_autofree char *folder = g_dir_make_tmp ("drybay-replace-XXXXXX", NULL);
  g_autofree char *taken = g_build_filename (folder, "taken", NULL);
  g_autofree char *inside = g_build_filename (taken, "inside", NULL);
  g_autofree char *deeper = g_build_filename (folder, "none", "a", NULL);
  g_autoptr (GError) error = NULL;

  g_assert_cmpint (g_mkdir_with_parents (inside, 0700), ==, 0);
  g_assert_false (dry_file_replace (taken, NEW, strlen (NEW), NULL, FALSE, &error));
  g_assert_error (error, DRY_ERROR, DRY_ERROR_FILE);
  g_assert_nonnull (strstr (error->message, g_strerror (EISDIR)));
  g_assert_true (g_file_test (inside, G_FILE_TEST_IS_DIR));
  g_assert_cmpuint (dry_test_count_files (folder), ==, 1);
  g_clear_error (&error);
  g_assert_false (dry_file_replace (deeper, NEW, strlen (NEW), NULL, FALSE, &error));
  g_assert_error (error, DRY_ERROR, DRY_ERROR_FILE);
  g_assert_nonnull (strstr (error->message, g_strerror (ENOENT)));
  dry_test_remove_tree (folder);
}

/* --- leftovers --- */

static const struct {
  const char *name;
  gboolean goes, goes_in_own; /* in a folder that holds nothing but such files */
} LEFTOVERS[] = {
    {".a.drybay.saving-AbC123", TRUE, TRUE},
    {".b.drybay.saving-AbC123", FALSE, TRUE},
    {".a.drybay.saving-AbC12", FALSE, FALSE},
    {".a.drybay.saving-AbC1234", FALSE, FALSE},
    {".a.drybay.saving-AbC-23", FALSE, FALSE},
    {".a.drybay.saving-", FALSE, FALSE},
    {".a.drybay.saving", FALSE, FALSE},
    {"a.drybay.saving-AbC123", FALSE, FALSE},
    {".a.drybay.saving-.saving-AbC123", FALSE, TRUE},
};

static void
test_leftovers (void)
{
  for (gint own = 0; own < 2; own++) {
    g_autofree char *folder = g_dir_make_tmp ("drybay-replace-XXXXXX", NULL);
    g_autofree char *path = g_build_filename (folder, "a.drybay", NULL);
    g_autoptr (GError) error = NULL;

    for (guint i = 0; i < G_N_ELEMENTS (LEFTOVERS); i++) {
      g_autofree char *file = g_build_filename (folder, LEFTOVERS[i].name, NULL);
      g_assert_true (g_file_set_contents (file, "half", -1, NULL));
    }
    g_assert_true (dry_file_replace (path, NEW, strlen (NEW), NULL, own, &error));
    g_assert_no_error (error);
    for (guint i = 0; i < G_N_ELEMENTS (LEFTOVERS); i++) {
      g_autofree char *file = g_build_filename (folder, LEFTOVERS[i].name, NULL);
      gboolean goes = own ? LEFTOVERS[i].goes_in_own : LEFTOVERS[i].goes;

      g_test_message ("%s, own %d", LEFTOVERS[i].name, own);
      g_assert_true (g_file_test (file, G_FILE_TEST_EXISTS) == !goes);
    }
    assert_text (path, NEW);
    dry_test_remove_tree (folder);
  }
}

/* One that is being written by someone alive stays, and so does what is no plain file. */
static void
test_leftovers_in_use (void)
{
  g_autofree char *folder = g_dir_make_tmp ("drybay-replace-XXXXXX", NULL);
  g_autofree char *path = g_build_filename (folder, "a.drybay", NULL);
  g_autofree char *held = g_build_filename (folder, ".a.drybay.saving-held01", NULL);
  g_autofree char *link = g_build_filename (folder, ".a.drybay.saving-link01", NULL);
  g_autofree char *pipe = g_build_filename (folder, ".a.drybay.saving-pipe01", NULL);
  g_autofree char *dir = g_build_filename (folder, ".a.drybay.saving-fold01", NULL);
  int fd;

  g_assert_true (g_file_set_contents (held, "half", -1, NULL));
  g_assert_cmpint (symlink ("a.drybay", link), ==, 0);
  g_assert_cmpint (mkfifo (pipe, 0600), ==, 0);
  g_assert_cmpint (g_mkdir (dir, 0700), ==, 0);
  fd = g_open (held, O_RDWR, 0);
  g_assert_cmpint (flock (fd, LOCK_EX), ==, 0);
  g_assert_true (dry_file_replace (path, OLD, strlen (OLD), NULL, FALSE, NULL));
  g_assert_true (g_file_test (held, G_FILE_TEST_EXISTS));
  close (fd);
  g_assert_true (dry_file_replace (path, NEW, strlen (NEW), NULL, FALSE, NULL));
  g_assert_false (g_file_test (held, G_FILE_TEST_EXISTS));
  g_assert_true (g_file_test (link, G_FILE_TEST_IS_SYMLINK));
  g_assert_true (g_file_test (pipe, G_FILE_TEST_EXISTS));
  g_assert_true (g_file_test (dir, G_FILE_TEST_IS_DIR));
  dry_test_remove_tree (folder);
}

/* --- reading and saving projects --- */

static void
test_read_fails (void)
{
  static const struct {
    const char *call;
    gint nth, error;
    gboolean read;
  } ROWS[] = {{"open", 1, EMFILE, FALSE},
              {"read", 1, EINTR, TRUE},
              {"read", 1, EIO, FALSE},
              {"read", 2, EISDIR, FALSE}};
  g_autofree char *folder = g_dir_make_tmp ("drybay-replace-XXXXXX", NULL);
  g_autofree char *path = g_build_filename (folder, "a.drybay", NULL);
  g_autoptr (DryProject) project = dry_test_furnished_alcove ("foam-bands");

  g_assert_true (dry_project_save (project, path, NULL));
  for (guint i = 0; i < G_N_ELEMENTS (ROWS); i++)
    for (guint newer = 0; newer < 2; newer++) {
      DryNewer about = {0};
      g_autoptr (DryProject) got = NULL;
      g_autoptr (GError) error = NULL;

      dry_test_fail (ROWS[i].call, ROWS[i].nth, ROWS[i].error);
      got = newer ? dry_project_load_newer (path, &about, &error) : dry_project_load (path, &error);
      g_assert_cmpint (dry_test_fail_end (), ==, 1);
      g_assert_true ((got != NULL) == ROWS[i].read);
      if (got != NULL) {
        g_assert_true (dry_project_equal (got, project));
      } else {
        g_assert_error (error, DRY_ERROR, DRY_ERROR_FILE);
        g_assert_nonnull (strstr (error->message, path));
        g_assert_nonnull (strstr (error->message, g_strerror (ROWS[i].error)));
      }
      dry_newer_clear (&about);
    }
  dry_test_remove_tree (folder);
}

/* Links that lead round, to a folder, or through a file: refused, and they stay what they are. */
static void
test_links (void)
{
  g_autofree char *folder = g_dir_make_tmp ("drybay-replace-XXXXXX", NULL);
  g_autofree char *round = g_build_filename (folder, "round", NULL);
  g_autofree char *to_folder = g_build_filename (folder, "to-folder", NULL);
  g_autofree char *file = g_build_filename (folder, "a.drybay", NULL);
  g_autofree char *through = g_build_filename (file, "b.drybay", NULL);
  g_autofree char *absolute = g_build_filename (folder, "absolute", NULL);
  g_autoptr (DryProject) project = dry_project_new ();
  const char *bad[] = {round, to_folder, through};
  const int errors[] = {ELOOP, 0, ENOTDIR};

  g_assert_cmpint (symlink ("round", round), ==, 0);
  g_assert_cmpint (symlink (folder, to_folder), ==, 0);
  g_assert_cmpint (symlink (file, absolute), ==, 0);
  g_assert_true (dry_project_save (project, absolute, NULL));
  g_assert_true (g_file_test (absolute, G_FILE_TEST_IS_SYMLINK));
  g_assert_false (g_file_test (file, G_FILE_TEST_IS_SYMLINK));
  for (guint i = 0; i < G_N_ELEMENTS (bad); i++) {
    g_autoptr (GError) error = NULL;

    g_assert_false (dry_project_save (project, bad[i], &error));
    g_assert_error (error, DRY_ERROR, DRY_ERROR_FILE);
    g_assert_nonnull (
        strstr (error->message, errors[i] != 0 ? g_strerror (errors[i]) : "not a plain file"));
  }
  g_assert_cmpuint (dry_test_count_files (folder), ==, 4);
  dry_test_remove_tree (folder);
}

/* What could not be opened again is not written over what can. */
static void
test_too_large (void)
{
  g_autofree char *folder = g_dir_make_tmp ("drybay-replace-XXXXXX", NULL);
  g_autofree char *path = g_build_filename (folder, "a.drybay", NULL);
  g_autoptr (DryProject) project = dry_project_new ();
  g_autoptr (DryRoom) room = dry_room_copy (dry_project_get_room_at (project, 0));
  g_autoptr (GError) error = NULL;

  g_assert_true (g_file_set_contents (path, OLD, -1, NULL));
  room->id = 0;
  room->done = g_strnfill (65000, 'x');
  for (guint i = 0; i < 270; i++) {
    DryProject *more = dry_edit_set_room (project, room, NULL, &error);

    g_assert_no_error (error);
    dry_project_unref (project);
    project = more;
  }
  g_assert_false (dry_project_save (project, path, &error));
  g_assert_error (error, DRY_ERROR, DRY_ERROR_LIMIT);
  assert_text (path, OLD);
  g_assert_cmpuint (dry_test_count_files (folder), ==, 1);
  dry_test_remove_tree (folder);
}

/* --- versions --- */

/* A version that cannot be written is told and takes none of the others away; one that is kept
 * again under its own time stays; what is no version is not listed. */
static void
test_versions (void)
{
  g_autofree char *folder = g_dir_make_tmp ("drybay-replace-XXXXXX", NULL);
  g_autofree char *path = g_build_filename (folder, "a.drybay", NULL);
  g_autofree char *kept = g_build_filename (folder, "kept", NULL);
  g_autoptr (GPtrArray) list = NULL, after = NULL;
  g_autofree char *own = NULL, *strange = NULL;
  g_autoptr (GError) error = NULL;
  const DryVersion *oldest;

  for (guint i = 0; i < DRY_VERSIONS_KEPT; i++) {
    g_autofree char *stamp = g_strdup_printf ("2026-11-25T12-00-%02u", i);

    g_assert_true (dry_versions_keep (kept, path, stamp, stamp, strlen (stamp), &error));
  }
  list = dry_versions_list (kept, path);
  g_assert_cmpuint (list->len, ==, DRY_VERSIONS_KEPT);
  oldest = list->pdata[list->len - 1];
  own = g_path_get_dirname (oldest->file);
  strange = g_build_filename (own, "notes.txt", NULL);
  g_assert_true (g_file_set_contents (strange, "x", 1, NULL));

  dry_test_fail ("write", 1, ENOSPC);
  g_assert_false (dry_versions_keep (kept, path, "2026-11-25T13", "x", 1, &error));
  g_assert_cmpint (dry_test_fail_end (), ==, 1);
  g_assert_error (error, DRY_ERROR, DRY_ERROR_FILE);
  g_clear_error (&error);
  after = dry_versions_list (kept, path);
  g_assert_cmpuint (after->len, ==, DRY_VERSIONS_KEPT);
  g_clear_pointer (&after, g_ptr_array_unref);

  /* The oldest, kept anew with another text. */
  g_assert_true (dry_versions_keep (kept, path, oldest->stamp, "again", 5, &error));
  assert_text (oldest->file, "again");
  after = dry_versions_list (kept, path);
  g_assert_cmpuint (after->len, ==, DRY_VERSIONS_KEPT);
  g_assert_true (g_file_test (strange, G_FILE_TEST_EXISTS));
  dry_test_remove_tree (folder);
}

/* Two of equal length are compared byte by byte, and one that cannot be read is kept anew. */
static void
test_same_version (void)
{
  g_autofree char *folder = g_dir_make_tmp ("drybay-replace-XXXXXX", NULL);
  g_autofree char *path = g_build_filename (folder, "a.drybay", NULL);
  g_autofree char *kept = g_build_filename (folder, "kept", NULL);
  static const struct {
    const char *stamp, *text;
    guint n;
  } ROWS[] = {
      {"1", "abc", 1}, {"2", "abc", 1}, {"3", "abd", 2}, {"4", "abde", 3}, {"5", "abde", 3}};
  g_autoptr (GPtrArray) list = NULL;

  for (guint i = 0; i < G_N_ELEMENTS (ROWS); i++) {
    g_assert_true (
        dry_versions_keep (kept, path, ROWS[i].stamp, ROWS[i].text, strlen (ROWS[i].text), NULL));
    g_clear_pointer (&list, g_ptr_array_unref);
    list = dry_versions_list (kept, path);
    g_assert_cmpuint (list->len, ==, ROWS[i].n);
  }
  dry_test_fail ("open", 1, EIO);
  g_assert_true (dry_versions_keep (kept, path, "6", "abde", 4, NULL));
  g_assert_cmpint (dry_test_fail_end (), ==, 1);
  g_clear_pointer (&list, g_ptr_array_unref);
  list = dry_versions_list (kept, path);
  g_assert_cmpuint (list->len, ==, 4);
  dry_test_remove_tree (folder);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/replace/failing-calls", test_failing_calls);
  g_test_add_func ("/replace/owner-and-mode", test_owner_and_mode);
  g_test_add_func ("/replace/no-lock", test_no_lock);
  g_test_add_func ("/replace/bad-places", test_bad_places);
  g_test_add_func ("/replace/leftovers", test_leftovers);
  g_test_add_func ("/replace/leftovers-in-use", test_leftovers_in_use);
  g_test_add_func ("/replace/read-fails", test_read_fails);
  g_test_add_func ("/replace/links", test_links);
  g_test_add_func ("/replace/too-large", test_too_large);
  g_test_add_func ("/replace/versions", test_versions);
  g_test_add_func ("/replace/same-version", test_same_version);
  return g_test_run ();
}
