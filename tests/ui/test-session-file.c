/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The session and a file that others write: noticed, reloaded as a step that can be undone, or kept
 * out; files of a newer version, which are never written to; and the watch that tells of all this.
 */
#include <glib/gstdio.h>
#include <string.h>

#include "base/error.h"
#include "project/file.h"
#include "support/fixtures.h"
#include "ui/file-watch.h"
#include "ui/session.h"

typedef struct {
  char *folder, *path;
  DrySession *session;
} Desk;

static void
write_text (const char *path, const char *text)
{
  g_assert_true (g_file_set_contents (path, text, -1, NULL));
}

static char *
text_of (const char *title)
{
  g_autoptr (DryProject) project = dry_test_alcove ("foam-bands"), named = NULL;
  DryJob job = *dry_project_get_job (project);

  job.title = (char *) title;
  named = dry_edit_set_job (project, &job, NULL);
  return dry_project_to_text (named, NULL);
}

static const char *
get_title (Desk *desk)
{
  return dry_project_get_job (dry_session_get_project (desk->session))->title;
}

static void
open_desk (Desk *desk, const char *text)
{
  g_autoptr (GError) error = NULL;

  desk->folder = g_dir_make_tmp ("drybay-session-XXXXXX", NULL);
  desk->path = g_build_filename (desk->folder, "bath.drybay", NULL);
  write_text (desk->path, text);
  desk->session = dry_session_new (dry_test_catalog ());
  g_assert_true (dry_session_open_path (desk->session, desk->path, &error));
  g_assert_no_error (error);
}

static void
close_desk (Desk *desk)
{
  g_object_unref (desk->session);
  g_unlink (desk->path);
  g_rmdir (desk->folder);
  g_free (desk->path);
  g_free (desk->folder);
}

static void
retitle (Desk *desk, const char *title)
{
  DryJob job = *dry_project_get_job (dry_session_get_project (desk->session));
  GError *error = NULL;

  job.title = (char *) title;
  dry_session_apply (desk->session,
                     dry_edit_set_job (dry_session_get_project (desk->session), &job, &error),
                     "Title", NULL, error);
}

static void
test_reload (void)
{
  g_autofree char *ours = text_of ("ours"), *theirs = text_of ("theirs");
  g_autoptr (GError) error = NULL;
  Desk desk;

  open_desk (&desk, ours);
  g_assert_cmpint (dry_session_look_at_file (desk.session), ==, DRY_FILE_AS_KNOWN);
  retitle (&desk, "mine");
  write_text (desk.path, theirs);
  g_assert_cmpint (dry_session_look_at_file (desk.session), ==, DRY_FILE_CHANGED);
  g_assert_true (dry_session_reload (desk.session, &error));
  g_assert_cmpstr (get_title (&desk), ==, "theirs");
  g_assert_true (dry_session_is_saved (desk.session));
  g_assert_cmpint (dry_session_look_at_file (desk.session), ==, DRY_FILE_AS_KNOWN);
  /* Nothing of mine is lost by it. */
  dry_session_undo (desk.session);
  g_assert_cmpstr (get_title (&desk), ==, "mine");
  g_assert_false (dry_session_is_saved (desk.session));
  g_assert_true (dry_session_save (desk.session, desk.path, &error));
  /* The same again is no step. */
  write_text (desk.path, "{\"format\": 3}");
  g_assert_false (dry_session_reload (desk.session, &error));
  g_assert_nonnull (error);
  g_assert_cmpstr (get_title (&desk), ==, "mine");
  close_desk (&desk);
}

static void
test_keep_mine (void)
{
  g_autofree char *ours = text_of ("ours"), *theirs = text_of ("theirs"), *third = text_of ("3");
  g_autoptr (GError) error = NULL;
  Desk desk;

  open_desk (&desk, ours);
  write_text (desk.path, theirs);
  g_assert_false (dry_session_save (desk.session, desk.path, &error));
  g_assert_error (error, DRY_ERROR, DRY_ERROR_CHANGED);
  g_clear_error (&error);
  dry_session_keep_mine (desk.session);
  g_assert_false (dry_session_is_saved (desk.session));
  g_assert_cmpint (dry_session_look_at_file (desk.session), ==, DRY_FILE_AS_KNOWN);
  /* What was seen may be replaced, what came after it may not. */
  write_text (desk.path, third);
  g_assert_false (dry_session_save (desk.session, desk.path, &error));
  g_clear_error (&error);
  dry_session_keep_mine (desk.session);
  g_assert_true (dry_session_save (desk.session, desk.path, &error));
  g_assert_true (dry_session_is_saved (desk.session));
  close_desk (&desk);
}

static void
test_gone (void)
{
  g_autofree char *ours = text_of ("ours");
  g_autoptr (GError) error = NULL;
  Desk desk;

  open_desk (&desk, ours);
  g_unlink (desk.path);
  g_assert_true (dry_session_is_saved (desk.session));
  g_assert_cmpint (dry_session_look_at_file (desk.session), ==, DRY_FILE_GONE);
  g_assert_false (dry_session_is_saved (desk.session));
  g_assert_false (dry_session_reload (desk.session, &error));
  g_clear_error (&error);
  g_assert_true (dry_session_save (desk.session, desk.path, &error));
  g_assert_cmpint (dry_session_look_at_file (desk.session), ==, DRY_FILE_AS_KNOWN);
  close_desk (&desk);
}

static void
test_newer (void)
{
  g_autofree char *ours = text_of ("ours");
  g_auto (GStrv) parts = g_strsplit (ours, "\"version\": 1,", 2);
  g_autofree char *text = g_strjoinv ("\"version\": 2, \"phases\": [],", parts);
  g_autofree char *link = NULL, *other = NULL, *kept = NULL;
  g_autoptr (GError) error = NULL;
  const DryNewer *newer;
  Desk desk;

  open_desk (&desk, text);
  link = g_build_filename (desk.folder, "link.drybay", NULL);
  other = g_build_filename (desk.folder, "copy.drybay", NULL);
  newer = dry_session_get_newer (desk.session);
  g_assert_nonnull (newer);
  g_assert_cmpuint (newer->left_out->len, ==, 1);
  g_assert_null (dry_session_get_path (desk.session));
  g_assert_cmpstr (dry_session_get_newer_path (desk.session), ==, desk.path);
  g_assert_cmpstr (get_title (&desk), ==, "ours");
  /* Its file is not written to, by no name. */
  g_assert_false (dry_session_save (desk.session, desk.path, &error));
  g_assert_error (error, DRY_ERROR, DRY_ERROR_VERSION);
  g_clear_error (&error);
  g_assert_no_errno (symlink (desk.path, link));
  g_assert_false (dry_session_save_over (desk.session, link, &error));
  g_clear_error (&error);
  g_assert_true (g_file_get_contents (desk.path, &kept, NULL, NULL));
  g_assert_cmpstr (kept, ==, text);
  /* A copy is a file like any other. */
  g_assert_true (dry_session_save (desk.session, other, &error));
  g_assert_null (dry_session_get_newer (desk.session));
  g_assert_cmpstr (dry_session_get_path (desk.session), ==, other);
  g_unlink (link);
  g_unlink (other);
  close_desk (&desk);
}

/* --- the watch --- */

static void
count_cb (gpointer data)
{
  ++*(guint *) data;
}

static gboolean
stop_cb (gpointer data)
{
  *(gboolean *) data = TRUE;
  return G_SOURCE_REMOVE;
}

static void
run_for (guint ms)
{
  gboolean over = FALSE;

  g_timeout_add (ms, stop_cb, &over);
  while (!over)
    g_main_context_iteration (NULL, TRUE);
}

static void
wait_until (const guint *count, guint n)
{
  for (guint i = 0; i < 200 && *count < n; i++)
    run_for (50);
  g_assert_cmpuint (*count, ==, n);
}

static void
test_watch (void)
{
  g_autofree char *ours = text_of ("ours");
  g_autofree char *moved = NULL;
  g_autoptr (DryFileWatch) watch = NULL;
  guint n = 0;
  Desk desk;

  open_desk (&desk, ours);
  moved = g_build_filename (desk.folder, "moved", NULL);
  watch = dry_file_watch_new (desk.path, count_cb, &n);
  dry_file_watch_look (watch);
  g_assert_cmpuint (n, ==, 0);
  /* A burst of writes is told once. */
  for (int i = 0; i < 20; i++) {
    write_text (desk.path, "one");
    run_for (5);
  }
  wait_until (&n, 1);
  run_for (2 * DRY_FILE_WATCH_QUIET);
  g_assert_cmpuint (n, ==, 1);
  g_assert_no_errno (g_rename (desk.path, moved));
  wait_until (&n, 2);
  g_assert_no_errno (g_rename (moved, desk.path));
  wait_until (&n, 3);
  g_unlink (desk.path);
  wait_until (&n, 4);
  dry_file_watch_look (watch);
  g_assert_cmpuint (n, ==, 4);
  close_desk (&desk);
}

/* What the monitor did not tell is found by looking. */
static void
test_look (void)
{
  g_autofree char *folder = g_dir_make_tmp ("drybay-look-XXXXXX", NULL);
  g_autofree char *path = g_build_filename (folder, "a", "b", NULL);
  g_autofree char *parent = g_build_filename (folder, "a", NULL);
  g_autoptr (DryFileWatch) watch = NULL;
  guint n = 0;

  watch = dry_file_watch_new (path, count_cb, &n); /* its folder is not there: nothing to watch */
  dry_file_watch_look (watch);
  g_assert_cmpuint (n, ==, 0);
  g_assert_no_errno (g_mkdir (parent, 0700));
  write_text (path, "x");
  dry_file_watch_look (watch);
  g_assert_cmpuint (n, ==, 1);
  dry_file_watch_look (watch);
  g_assert_cmpuint (n, ==, 1);
  g_unlink (path);
  g_rmdir (parent);
  g_rmdir (folder);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/session-file/reload", test_reload);
  g_test_add_func ("/session-file/keep-mine", test_keep_mine);
  g_test_add_func ("/session-file/gone", test_gone);
  g_test_add_func ("/session-file/newer", test_newer);
  g_test_add_func ("/session-file/watch", test_watch);
  g_test_add_func ("/session-file/look", test_look);
  return g_test_run ();
}
