/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Kept versions: ten, newest first, none twice, one list for one file however it is named; and the
 * mark that tells a file changed by someone else. */
#include "project/versions.h"

#include <glib/gstdio.h>
#include <string.h>
#include <unistd.h>

#include "base/error.h"
#include "support/fixtures.h"

static void
keep (const char *folder, const char *path, guint n, const char *text)
{
  g_autofree char *stamp = g_strdup_printf ("2026-11-25T12-00-%02u", n);
  g_autoptr (GError) error = NULL;

  g_assert_true (dry_versions_keep (folder, path, stamp, text, strlen (text), &error));
  g_assert_no_error (error);
}

static void
test_ten (void)
{
  g_autofree char *folder = g_dir_make_tmp ("drybay-versions-XXXXXX", NULL);
  g_autofree char *path = g_build_filename (folder, "a.drybay", NULL);
  g_autofree char *other = g_build_filename (folder, "b.drybay", NULL);
  g_autofree char *alias = g_build_filename (folder, "link.drybay", NULL);
  g_autofree char *kept = g_build_filename (folder, "kept", NULL);
  g_autoptr (GPtrArray) list = NULL, by_alias = NULL, none = NULL;
  const DryVersion *first;

  g_assert_true (g_file_set_contents (path, "x", 1, NULL));
  g_assert_cmpint (symlink (path, alias), ==, 0);
  for (guint i = 0; i < 14; i++) {
    g_autofree char *text = g_strdup_printf ("text %u", i);

    keep (kept, path, i, text);
  }
  keep (kept, path, 20, "text 13");
  list = dry_versions_list (kept, path);
  g_assert_cmpuint (list->len, ==, DRY_VERSIONS_KEPT);
  first = list->pdata[0];
  g_assert_cmpstr (first->stamp, ==, "2026-11-25T12-00-13");
  for (guint i = 0; i < list->len; i++) {
    const DryVersion *version = list->pdata[i];
    g_autofree char *text = NULL, *want = g_strdup_printf ("text %u", 13 - i);

    g_assert_true (g_file_get_contents (version->file, &text, NULL, NULL));
    g_assert_cmpstr (text, ==, want);
  }
  by_alias = dry_versions_list (kept, alias);
  g_assert_cmpuint (by_alias->len, ==, DRY_VERSIONS_KEPT);
  none = dry_versions_list (kept, other);
  g_assert_cmpuint (none->len, ==, 0);
  dry_test_remove_tree (folder);
}

static void
test_no_room (void)
{
  g_autoptr (GError) error = NULL;

  g_assert_false (dry_versions_keep ("/proc/nowhere", "/a", "now", "x", 1, &error));
  g_assert_error (error, DRY_ERROR, DRY_ERROR_FILE);
}

static void
test_mark (void)
{
  g_autofree char *folder = g_dir_make_tmp ("drybay-versions-XXXXXX", NULL);
  g_autofree char *path = g_build_filename (folder, "a.drybay", NULL);
  g_autoptr (GError) error = NULL;
  DryFileMark none, one, same, two, text;

  g_assert_true (dry_file_mark_take (path, &none, NULL));
  g_assert_false (none.exists);
  g_assert_true (g_file_set_contents (path, "one", 3, NULL));
  g_assert_true (dry_file_mark_take (path, &one, NULL));
  dry_file_mark_of_text ("one", 3, &text);
  /* SHA-256 of "abc": FIPS 180-2, appendix B.1. */
  g_assert_true (dry_file_mark_equal (&one, &text));
  dry_file_mark_of_text ("abc", 3, &two);
  g_assert_cmpstr (two.digest, ==,
                   "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad");
  /* Touched, or written anew with the same bytes: not changed. */
  g_assert_true (g_file_set_contents (path, "one", 3, NULL));
  g_assert_true (dry_file_mark_take (path, &same, NULL));
  g_assert_true (dry_file_mark_equal (&one, &same));
  g_assert_true (g_file_set_contents (path, "two", 3, NULL));
  g_assert_true (dry_file_mark_take (path, &two, NULL));
  g_assert_false (dry_file_mark_equal (&one, &two));
  g_assert_false (dry_file_mark_equal (&none, &two));
  g_unlink (path);
  g_assert_true (dry_file_mark_take (path, &same, NULL));
  g_assert_true (dry_file_mark_equal (&none, &same));
  g_assert_false (dry_file_mark_take (folder, &same, &error));
  g_assert_error (error, DRY_ERROR, DRY_ERROR_FILE);
  dry_test_remove_tree (folder);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/versions/ten", test_ten);
  g_test_add_func ("/versions/no-room", test_no_room);
  g_test_add_func ("/versions/mark", test_mark);
  return g_test_run ();
}
