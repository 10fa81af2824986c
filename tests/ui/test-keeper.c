/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A session keeps work safe: what a crash leaves comes back with its undo list, a file changed by
 * someone else is not written over unasked, and saved versions can be had again. */
#include <glib/gstdio.h>
#include <string.h>

#include "base/error.h"
#include "project/file.h"
#include "support/fixtures.h"
#include "ui/keeper.h"
#include "ui/session.h"

typedef struct {
  char *folder, *journals, *versions, *path;
} Home;

static void
open_home (Home *home)
{
  home->folder = g_dir_make_tmp ("drybay-keeping-XXXXXX", NULL);
  home->journals = g_build_filename (home->folder, "journals", NULL);
  home->versions = g_build_filename (home->folder, "versions", NULL);
  home->path = g_build_filename (home->folder, "bath.drybay", NULL);
}

static void
clear_home (Home *home)
{
  dry_test_remove_tree (home->folder);
  g_free (home->folder);
  g_free (home->journals);
  g_free (home->versions);
  g_free (home->path);
}

static DrySession *
open_session (const Home *home)
{
  DrySession *session = dry_session_new (dry_test_catalog ());

  dry_session_keep_in (session, home->journals, home->versions);
  dry_session_open_project (session, dry_test_furnished_alcove ("foam-bands"), NULL);
  return session;
}

static void
rename_job (DrySession *session, const char *title)
{
  const DryProject *project = dry_session_get_project (session);
  DryJob job = *dry_project_get_job (project);

  job.title = (char *) title;
  g_assert_true (
      dry_session_apply (session, dry_edit_set_job (project, &job, NULL), "Rename", NULL, NULL));
}

static const char *
title_of (DrySession *session)
{
  return dry_project_get_job (dry_session_get_project (session))->title;
}

/* A second session in the same process stands for the next start: the journal's lock goes with the
 * file descriptor, so the first one's is copied away as it lies on the disk. */
static char *
copy_journal (const Home *home, const char *name)
{
  g_autoptr (GDir) dir = g_dir_open (home->journals, 0, NULL);
  const char *found = dir != NULL ? g_dir_read_name (dir) : NULL;
  g_autofree char *from = NULL, *bytes = NULL;
  char *to = g_build_filename (home->folder, name, NULL);
  gsize length;

  g_assert_nonnull (found);
  from = g_build_filename (home->journals, found, NULL);
  g_assert_true (g_file_get_contents (from, &bytes, &length, NULL));
  g_assert_true (g_file_set_contents (to, bytes, (gssize) length, NULL));
  return to;
}

static gboolean
has_journal (const Home *home)
{
  g_autoptr (GDir) dir = g_dir_open (home->journals, 0, NULL);

  return dir != NULL && g_dir_read_name (dir) != NULL;
}

static void
test_recover (void)
{
  g_autoptr (GError) error = NULL;
  g_autofree char *left = NULL;
  DrySession *session, *next;
  Home home;

  open_home (&home);
  session = open_session (&home);
  /* Looking at a document leaves nothing behind. */
  g_assert_false (has_journal (&home));
  rename_job (session, "One");
  g_assert_true (dry_session_save (session, home.path, &error));
  rename_job (session, "Two");
  rename_job (session, "Three");
  dry_session_undo (session);
  g_usleep (100000);
  left = copy_journal (&home, "left.journal");
  next = dry_session_new (dry_test_catalog ());
  dry_session_keep_in (next, home.journals, home.versions);
  g_assert_true (dry_session_recover (next, left, &error));
  g_assert_no_error (error);
  g_assert_cmpstr (title_of (next), ==, "Two");
  g_assert_cmpstr (dry_session_get_path (next), ==, home.path);
  g_assert_false (dry_session_is_saved (next));
  dry_session_redo (next);
  g_assert_cmpstr (title_of (next), ==, "Three");
  dry_session_undo (next);
  dry_session_undo (next);
  g_assert_true (dry_session_is_saved (next));
  /* The file is as the gone process wrote it: saving asks nothing. */
  dry_session_redo (next);
  g_assert_true (dry_session_save (next, home.path, &error));
  g_assert_no_error (error);
  /* Closed as wished, both journals are gone. */
  g_object_unref (next);
  g_assert_false (g_file_test (left, G_FILE_TEST_EXISTS));
  g_object_unref (session);
  g_assert_false (has_journal (&home));
  clear_home (&home);
}

static void
test_recover_changed (void)
{
  g_autoptr (GError) error = NULL;
  g_autofree char *left = NULL;
  DrySession *session, *next;
  Home home;

  open_home (&home);
  session = open_session (&home);
  rename_job (session, "One");
  g_assert_true (dry_session_save (session, home.path, &error));
  rename_job (session, "Two");
  g_usleep (100000);
  left = copy_journal (&home, "left.journal");
  g_assert_true (g_file_set_contents (home.path, "{}", 2, NULL));
  next = dry_session_new (dry_test_catalog ());
  g_assert_true (dry_session_recover (next, left, NULL));
  g_assert_false (dry_session_save (next, home.path, &error));
  g_assert_error (error, DRY_ERROR, DRY_ERROR_CHANGED);
  g_object_unref (next);
  g_object_unref (session);
  clear_home (&home);
}

static void
test_changed (void)
{
  g_autoptr (GError) error = NULL;
  g_autofree char *text = NULL, *other = NULL;
  DrySession *session;
  Home home;

  open_home (&home);
  session = open_session (&home);
  rename_job (session, "Mine");
  g_assert_true (dry_session_save (session, home.path, &error));
  rename_job (session, "Mine, later");
  g_assert_true (g_file_set_contents (home.path, "theirs", 6, NULL));
  g_assert_false (dry_session_save (session, home.path, &error));
  g_assert_error (error, DRY_ERROR, DRY_ERROR_CHANGED);
  g_clear_error (&error);
  g_assert_false (dry_session_is_saved (session));
  g_assert_true (g_file_get_contents (home.path, &text, NULL, NULL));
  g_assert_cmpstr (text, ==, "theirs");
  /* Elsewhere it may be saved at once; here only when told to. */
  g_assert_true (dry_session_save_over (session, home.path, &error));
  g_assert_true (dry_session_is_saved (session));
  rename_job (session, "Mine, last");
  g_assert_true (dry_session_save (session, home.path, &error));
  /* A file that is gone is simply written again. */
  g_unlink (home.path);
  rename_job (session, "Mine, again");
  g_assert_true (dry_session_save (session, home.path, &error));
  g_assert_no_error (error);
  other = g_build_filename (home.folder, "other.drybay", NULL);
  g_assert_true (dry_session_save (session, other, &error));
  g_object_unref (session);
  clear_home (&home);
}

static void
test_versions (void)
{
  g_autoptr (GPtrArray) list = NULL, none = NULL;
  DrySession *session;
  Home home;

  open_home (&home);
  session = open_session (&home);
  none = dry_session_list_versions (session);
  g_assert_cmpuint (none->len, ==, 0);
  /* However soon one follows the other. */
  rename_job (session, "Half");
  g_assert_true (dry_session_save (session, home.path, NULL));
  rename_job (session, "One");
  g_assert_true (dry_session_save (session, home.path, NULL));
  g_assert_true (dry_session_save (session, home.path, NULL));
  list = dry_session_list_versions (session);
  g_assert_cmpuint (list->len, ==, 2);
  {
    const DryVersion *version = list->pdata[0];
    g_autoptr (DryProject) project = dry_project_load (version->file, NULL);

    g_assert_nonnull (project);
    g_assert_cmpstr (dry_project_get_job (project)->title, ==, "One");
  }
  g_object_unref (session);
  clear_home (&home);
}

static void
count_told (DrySession *session, const char *text, const char *undo, guint *n)
{
  g_assert_nonnull (strstr (text, "crash"));
  (*n)++;
}

/* Without a place for the journal work goes on, and it is told once. */
static void
test_no_place (void)
{
  DrySession *session = dry_session_new (dry_test_catalog ());
  guint n = 0;

  dry_session_keep_in (session, "/proc/nowhere", NULL);
  dry_session_open_project (session, dry_test_furnished_alcove ("foam-bands"), NULL);
  g_signal_connect (session, "told", G_CALLBACK (count_told), &n);
  rename_job (session, "One");
  rename_job (session, "Two");
  g_assert_cmpuint (n, ==, 1);
  g_object_unref (session);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/keeping/recover", test_recover);
  g_test_add_func ("/keeping/recover-changed", test_recover_changed);
  g_test_add_func ("/keeping/changed", test_changed);
  g_test_add_func ("/keeping/versions", test_versions);
  g_test_add_func ("/keeping/no-place", test_no_place);
  return g_test_run ();
}
