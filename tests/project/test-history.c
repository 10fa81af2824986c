/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Undo and redo: names, merging, the saved state, and that any run of edits can be taken back and
 * done again to the same bytes. */
#include "project/history.h"

#include <string.h>

#include "project/file.h"
#include "support/fixtures.h"
#include "support/random-edits.h"

static DryProject *
rename_job (const DryProject *project, const char *title)
{
  DryJob job = *dry_project_get_job (project);
  g_autoptr (GError) error = NULL;
  DryProject *next;

  job.title = (char *) title;
  next = dry_edit_set_job (project, &job, &error);
  g_assert_no_error (error);
  return next;
}

static void
push_title (DryHistory *history, const char *title, const char *key)
{
  g_autoptr (DryProject) next = rename_job (dry_history_get_current (history), title);

  dry_history_push (history, next, title, key);
}

static const char *
current_title (const DryHistory *history)
{
  return dry_project_get_job (dry_history_get_current (history))->title;
}

static void
test_names (void)
{
  g_autoptr (DryProject) first = dry_project_new ();
  g_autoptr (DryHistory) history = dry_history_new (first);

  g_assert_null (dry_history_get_undo_name (history));
  g_assert_false (dry_history_undo (history));
  g_assert_false (dry_history_redo (history));
  push_title (history, "a", NULL);
  push_title (history, "b", NULL);
  g_assert_cmpstr (dry_history_get_undo_name (history), ==, "b");
  g_assert_true (dry_history_undo (history));
  g_assert_cmpstr (dry_history_get_undo_name (history), ==, "a");
  g_assert_cmpstr (dry_history_get_redo_name (history), ==, "b");
  g_assert_cmpstr (current_title (history), ==, "a");
  /* A new step drops what could be redone. */
  push_title (history, "c", NULL);
  g_assert_null (dry_history_get_redo_name (history));
  g_assert_true (dry_history_undo (history) && dry_history_undo (history));
  g_assert_true (dry_history_get_current (history) == first);
}

/* States that can be gone back to, each with what was done to it. */
static void
test_past (void)
{
  g_autoptr (DryProject) first = dry_project_new ();
  g_autoptr (DryHistory) history = dry_history_new (first);
  const char *step = "none";

  g_assert_true (dry_history_get_past (history, 0, &step) == first);
  g_assert_null (step);
  g_assert_null (dry_history_get_past (history, 1, NULL));
  push_title (history, "a", NULL);
  push_title (history, "b", NULL);
  g_assert_true (dry_history_get_past (history, 2, &step) == first);
  g_assert_cmpstr (step, ==, "a");
  g_assert_nonnull (dry_history_get_past (history, 1, &step));
  g_assert_cmpstr (step, ==, "b");
  g_assert_null (dry_history_get_past (history, 3, NULL));
  dry_history_undo (history);
  g_assert_true (dry_history_get_past (history, 1, NULL) == first);
}

static void
test_merging (void)
{
  g_autoptr (DryProject) first = dry_project_new ();
  g_autoptr (DryHistory) history = dry_history_new (first);

  push_title (history, "a", "drag");
  push_title (history, "b", "drag");
  push_title (history, "c", "drag");
  g_assert_true (dry_history_undo (history));
  g_assert_true (dry_history_get_current (history) == first);
  g_assert_true (dry_history_redo (history));
  g_assert_cmpstr (current_title (history), ==, "c");
  /* After undo and redo the same key is a new step; so it is after sealing. */
  push_title (history, "d", "drag");
  dry_history_seal (history);
  push_title (history, "e", "drag");
  push_title (history, "f", "other");
  push_title (history, "g", NULL);
  push_title (history, "h", NULL);
  for (const char *left = "gfedc"; *left != '\0'; left++) {
    g_assert_true (dry_history_undo (history));
    g_assert_cmpint (current_title (history)[0], ==, *left);
  }
}

static void
test_saved_state (void)
{
  g_autoptr (DryProject) first = dry_project_new ();
  g_autoptr (DryHistory) history = dry_history_new (first);

  g_assert_false (dry_history_is_saved (history));
  dry_history_mark_saved (history);
  g_assert_true (dry_history_is_saved (history));
  push_title (history, "a", "drag");
  g_assert_false (dry_history_is_saved (history));
  dry_history_mark_saved (history);
  /* Saved in the middle of a drag: the drag goes on as a new step, the saved one stays. */
  push_title (history, "b", "drag");
  g_assert_false (dry_history_is_saved (history));
  g_assert_true (dry_history_undo (history));
  g_assert_true (dry_history_is_saved (history));
}

static void
test_depth (void)
{
  g_autoptr (DryProject) first = dry_project_new ();
  g_autoptr (DryHistory) history = dry_history_new (first);
  guint n = 0;

  for (guint i = 0; i < DRY_HISTORY_DEPTH + 50; i++)
    dry_history_push (history, first, "step", NULL);
  while (dry_history_undo (history))
    n++;
  g_assert_cmpuint (n, ==, DRY_HISTORY_DEPTH);
}

/* --- random edits --- */

static void
assert_readable (const DryProject *project, const char *text)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (DryProject) read = dry_project_from_text (text, strlen (text), "random", &error);

  g_assert_no_error (error);
  g_assert_true (dry_project_equal (project, read));
}

/* Undo of n random edits gives the first bytes again, redo the last ones, step by step. Whatever
 * the edits let through, the reader takes, too. */
static void
run_sequence (guint32 seed)
{
  GRand *random = g_rand_new_with_seed (seed);
  g_autoptr (DryProject) first =
      seed % 4 == 0 ? dry_test_load ("two-bath-house.drybay") : dry_test_random_project (seed);
  g_autoptr (DryHistory) history = dry_history_new (first);
  g_autoptr (GPtrArray) texts = g_ptr_array_new_with_free_func (g_free);

  g_ptr_array_add (texts, dry_project_to_text (first, NULL));
  for (guint i = 0; i < 40; i++) {
    guint kind;
    g_autoptr (DryProject) next =
        dry_test_edit (random, dry_history_get_current (history), &kind, NULL);

    if (next == NULL)
      continue;
    dry_history_push (history, next, "edit", NULL);
    g_ptr_array_add (texts, dry_project_to_text (next, NULL));
  }
  assert_readable (dry_history_get_current (history), g_ptr_array_index (texts, texts->len - 1));
  for (guint i = texts->len - 1; i > 0; i--) {
    g_autofree char *text = NULL;

    g_assert_true (dry_history_undo (history));
    text = dry_project_to_text (dry_history_get_current (history), NULL);
    g_assert_cmpstr (text, ==, g_ptr_array_index (texts, i - 1));
  }
  g_assert_false (dry_history_undo (history));
  for (guint i = 1; i < texts->len; i++) {
    g_autofree char *text = NULL;

    g_assert_true (dry_history_redo (history));
    text = dry_project_to_text (dry_history_get_current (history), NULL);
    g_assert_cmpstr (text, ==, g_ptr_array_index (texts, i));
  }
  g_rand_free (random);
}

static void
test_random_edits (void)
{
  guint n = g_test_slow () ? 5000 : 400;

  for (guint32 seed = 1; seed <= n; seed++)
    run_sequence (seed);
}

/* What was read back from a journal may be in no file: then no state is the saved one. */
static void
test_unsaved (void)
{
  g_autoptr (DryProject) first = dry_project_new ();
  g_autoptr (DryHistory) history = dry_history_new (first);

  dry_history_mark_saved (history);
  g_assert_true (dry_history_is_saved (history));
  g_assert_true (dry_history_get_saved (history) == first);
  dry_history_mark_unsaved (history);
  g_assert_false (dry_history_is_saved (history));
  g_assert_null (dry_history_get_saved (history));
  dry_history_mark_saved (history);
  g_assert_true (dry_history_is_saved (history));
}

/* Projects are equal by what they hold, and differ where as many bytes say another thing. */
static void
test_equal (void)
{
  g_autoptr (DryProject) one = dry_project_new (), two = dry_project_new ();
  DryJob job = *dry_project_get_job (one);
  g_autoptr (DryProject) a = NULL, b = NULL, longer = NULL;

  g_assert_true (dry_project_equal (one, one));
  g_assert_true (dry_project_equal (one, two));
  job.title = (char *) "Bath A";
  a = dry_edit_set_job (one, &job, NULL);
  job.title = (char *) "Bath B";
  b = dry_edit_set_job (one, &job, NULL);
  job.title = (char *) "Bath BB";
  longer = dry_edit_set_job (one, &job, NULL);
  g_assert_false (dry_project_equal (a, b));
  g_assert_false (dry_project_equal (b, longer));
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/history/names", test_names);
  g_test_add_func ("/history/past", test_past);
  g_test_add_func ("/history/merging", test_merging);
  g_test_add_func ("/history/saved-state", test_saved_state);
  g_test_add_func ("/history/depth", test_depth);
  g_test_add_func ("/history/unsaved", test_unsaved);
  g_test_add_func ("/history/equal", test_equal);
  g_test_add_func ("/history/random-edits", test_random_edits);
  return g_test_run ();
}
