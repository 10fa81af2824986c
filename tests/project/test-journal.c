/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The journal: whatever is cut off or altered in it, and whenever its process is killed, the undo
 * list comes back as it was after some step, and at most the step under way is lost. */
#include "project/journal.h"

#include <errno.h>
#include <glib/gstdio.h>
#include <signal.h>
#include <string.h>
#include <sys/resource.h>
#include <sys/wait.h>
#include <unistd.h>

#include "base/error.h"
#include "project/file.h"
#include "support/fixtures.h"

/* --- a document that is edited at random --- */

typedef struct {
  DryHistory *history;
  DryJournal *journal;
  GRand *rand;
  guint n;
} Desk;

static DryProject *
edit_at_random (const DryProject *project, GRand *rand, guint n)
{
  const DryRoom *room = dry_project_get_room_at (project, 0);
  DryProject *next = NULL;

  if (room->n_parts > 0 && g_rand_boolean (rand)) {
    const DryPart *part = &room->parts[g_rand_int_range (rand, 0, (gint) room->n_parts)];

    next = dry_edit_move_part (project, room->id, part->id, part->wall, part->side,
                               part->u + g_rand_int_range (rand, 1, 4) * DRY_INCH, part->z, NULL);
  }
  /* A step always changes something, as in the window: which step is the saved one stays clear. */
  if (next == NULL) {
    DryJob job = *dry_project_get_job (project);
    g_autofree char *title = g_strdup_printf ("Step %u", n);

    job.title = title;
    next = dry_edit_set_job (project, &job, NULL);
  }
  return next;
}

static void
take_step (Desk *desk)
{
  gint dice = g_rand_int_range (desk->rand, 0, 10);

  desk->n++;
  if (dice == 0 && dry_history_undo (desk->history)) {
    dry_journal_undo (desk->journal);
  } else if (dice == 1 && dry_history_redo (desk->history)) {
    dry_journal_redo (desk->journal);
  } else if (dice == 2) {
    dry_history_mark_saved (desk->history);
    dry_journal_saved (desk->journal, "/somewhere/a \xff name.drybay");
  } else {
    g_autoptr (DryProject) next =
        edit_at_random (dry_history_get_current (desk->history), desk->rand, desk->n);
    const char *key = dice < 6 ? "nudge" : NULL;
    gboolean merged = dry_history_push (desk->history, next, "Edit", key);

    dry_journal_push (desk->journal, next, "Edit", key, merged);
  }
}

/* The whole list as one text: states, names, where it stands, what is saved. Leaves it as it was.
 */
static char *
describe (DryHistory *history)
{
  GString *text = g_string_new (NULL);
  guint n_redo = 0;

  while (dry_history_redo (history))
    n_redo++;
  g_string_append_printf (text, "%u to redo\n", n_redo);
  do {
    g_autofree char *state = dry_project_to_text (dry_history_get_current (history), NULL);

    g_string_append_printf (text, "%s %d\n%s", dry_history_get_undo_name (history),
                            dry_history_is_saved (history), state);
  } while (dry_history_undo (history));
  while (dry_history_get_redo_name (history) != NULL)
    dry_history_redo (history);
  for (; n_redo > 0; n_redo--)
    dry_history_undo (history);
  return g_string_free (text, FALSE);
}

static void
open_desk (Desk *desk, const char *folder, guint32 seed)
{
  g_autoptr (DryProject) base = dry_test_furnished_alcove ("foam-bands");
  g_autoptr (GError) error = NULL;

  desk->n = 0;
  desk->rand = g_rand_new_with_seed (seed);
  desk->history = dry_history_new (base);
  dry_history_mark_saved (desk->history);
  desk->journal = dry_journal_new (folder, base, NULL, &error);
  g_assert_no_error (error);
}

static void
clear_desk (Desk *desk)
{
  g_rand_free (desk->rand);
  dry_history_free (desk->history);
  dry_journal_finish (desk->journal);
}

static char *
make_folder (void)
{
  char *folder = g_dir_make_tmp ("drybay-journal-XXXXXX", NULL);

  g_assert_nonnull (folder);
  return folder;
}

static char *
describe_file (const char *file)
{
  g_autoptr (DryHistory) history = NULL;
  g_autofree char *path = NULL;
  g_autoptr (GError) error = NULL;
  DryJournal *journal = dry_journal_recover (file, &history, &path, &error);
  char *text;

  if (journal == NULL)
    return NULL;
  text = describe (history);
  dry_journal_abandon (journal);
  return text;
}

/* --- tests --- */

static void
test_comes_back (void)
{
  g_autofree char *folder = make_folder ();

  for (guint32 seed = 0; seed < 30; seed++) {
    Desk desk;
    g_autofree char *before = NULL, *after = NULL, *file = NULL;

    open_desk (&desk, folder, seed);
    for (int i = 0; i < 60; i++)
      take_step (&desk);
    before = describe (desk.history);
    file = g_strdup (dry_journal_get_file (desk.journal));
    dry_journal_abandon (g_steal_pointer (&desk.journal));
    after = describe_file (file);
    g_assert_cmpstr (before, ==, after);
    dry_journal_discard (file);
    clear_desk (&desk);
  }
  dry_test_remove_tree (folder);
}

/* Cut anywhere, the list is as it was after some step, and the later the cut the later the step. */
static void
test_cut_anywhere (void)
{
  g_autofree char *folder = make_folder (), *file = NULL, *bytes = NULL;
  g_autoptr (GPtrArray) states = g_ptr_array_new_with_free_func (g_free);
  g_autofree char *cut = g_build_filename (folder, "cut.journal", NULL);
  gsize length;
  guint reached = 0;
  gboolean begun = FALSE;
  Desk desk;

  open_desk (&desk, folder, 7);
  g_ptr_array_add (states, describe (desk.history));
  for (int i = 0; i < 25; i++) {
    take_step (&desk);
    g_ptr_array_add (states, describe (desk.history));
  }
  file = g_strdup (dry_journal_get_file (desk.journal));
  dry_journal_flush (desk.journal);
  g_assert_true (g_file_get_contents (file, &bytes, &length, NULL));
  for (gsize at = 0; at <= length; at += at + 97 < length ? 97 : 1) {
    g_autofree char *state = NULL;

    g_assert_true (g_file_set_contents (cut, bytes, (gssize) at, NULL));
    state = describe_file (cut);
    if (state == NULL) {
      g_assert_false (begun);
      continue;
    }
    begun = TRUE;
    while (reached < states->len && strcmp (state, states->pdata[reached]) != 0)
      reached++;
    g_assert_cmpuint (reached, <, states->len);
  }
  g_assert_cmpstr (states->pdata[reached], ==, states->pdata[states->len - 1]);
  clear_desk (&desk);
  dry_test_remove_tree (folder);
}

/* One altered byte anywhere: never a crash, never a state that was not. */
static void
test_altered_anywhere (void)
{
  g_autofree char *folder = make_folder (), *bytes = NULL;
  g_autoptr (GHashTable) states = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
  g_autofree char *bad = g_build_filename (folder, "bad.journal", NULL);
  gsize length;
  Desk desk;

  open_desk (&desk, folder, 11);
  g_hash_table_add (states, describe (desk.history));
  for (int i = 0; i < 12; i++) {
    take_step (&desk);
    g_hash_table_add (states, describe (desk.history));
  }
  dry_journal_flush (desk.journal);
  g_assert_true (g_file_get_contents (dry_journal_get_file (desk.journal), &bytes, &length, NULL));
  for (int i = 0; i < 400; i++) {
    gsize at = (gsize) g_rand_int_range (desk.rand, 0, (gint) length);
    char old = bytes[at];
    g_autofree char *state = NULL;

    bytes[at] = (char) (old ^ (1 << g_rand_int_range (desk.rand, 0, 8)));
    g_assert_true (g_file_set_contents (bad, bytes, (gssize) length, NULL));
    bytes[at] = old;
    state = describe_file (bad);
    g_assert_true (state == NULL || g_hash_table_contains (states, state));
  }
  clear_desk (&desk);
  dry_test_remove_tree (folder);
}

static void
test_list (void)
{
  g_autofree char *folder = make_folder (), *file = NULL, *path = NULL;
  g_autofree char *junk = g_build_filename (folder, "junk.journal", NULL);
  g_autoptr (GPtrArray) left = NULL;
  g_autoptr (DryHistory) history = NULL;
  g_autoptr (GError) error = NULL;
  DryJournal *journal;
  DryLeftover *one;
  Desk desk;

  open_desk (&desk, folder, 3);
  g_assert_true (g_file_set_contents (junk, "", 0, NULL));
  file = g_strdup (dry_journal_get_file (desk.journal));
  dry_journal_saved (desk.journal, "/a/b c.drybay");
  dry_journal_push (desk.journal, dry_history_get_current (desk.history), "Move", NULL, FALSE);
  dry_journal_flush (desk.journal);
  /* Held by this desk: in use, not left over; taking it over is refused. */
  left = dry_journal_list (folder);
  g_assert_cmpuint (left->len, ==, 0);
  g_assert_false (g_file_test (junk, G_FILE_TEST_EXISTS));
  g_assert_null (dry_journal_recover (file, &history, &path, &error));
  g_assert_error (error, DRY_ERROR, DRY_ERROR_FILE);
  dry_journal_abandon (g_steal_pointer (&desk.journal));
  g_clear_pointer (&left, g_ptr_array_unref);
  left = dry_journal_list (folder);
  g_assert_cmpuint (left->len, ==, 1);
  one = left->pdata[0];
  g_assert_cmpstr (one->file, ==, file);
  g_assert_cmpstr (one->path, ==, "/a/b c.drybay");
  g_assert_cmpuint (one->n_unsaved, ==, 1);
  /* Taken over, it goes on in the same file; saved, it is of no use to anybody. */
  journal = dry_journal_recover (file, &history, &path, NULL);
  g_assert_nonnull (journal);
  g_assert_cmpstr (path, ==, "/a/b c.drybay");
  g_assert_false (dry_history_is_saved (history));
  dry_journal_saved (journal, path);
  dry_journal_abandon (journal);
  g_clear_pointer (&left, g_ptr_array_unref);
  left = dry_journal_list (folder);
  g_assert_cmpuint (left->len, ==, 0);
  g_assert_false (g_file_test (file, G_FILE_TEST_EXISTS));
  clear_desk (&desk);
  dry_test_remove_tree (folder);
}

/* What a newer version left is nobody's to tidy up here, whatever comes after its first line. */
static void
test_newer (void)
{
  static const char *const heads[] = {"drybay-journal 2\n", "drybay-journal 10\nrecord 1 x\n",
                                      "drybay-journal 1.1\n", "drybay-journal x"};
  g_autofree char *folder = make_folder ();

  for (guint i = 0; i < G_N_ELEMENTS (heads); i++) {
    g_autofree char *file = g_build_filename (folder, "other.journal", NULL);
    g_autofree char *path = NULL, *kept = NULL;
    g_autoptr (DryHistory) history = NULL;
    g_autoptr (GPtrArray) left = NULL;
    g_autoptr (GError) error = NULL;
    const DryLeftover *one;

    g_assert_true (g_file_set_contents (file, heads[i], -1, NULL));
    left = dry_journal_list (folder);
    g_assert_cmpuint (left->len, ==, 1);
    one = left->pdata[0];
    g_assert_true (one->newer);
    g_assert_cmpstr (one->file, ==, file);
    g_assert_null (one->path);
    g_assert_null (dry_journal_recover (file, &history, &path, &error));
    g_assert_error (error, DRY_ERROR, DRY_ERROR_VERSION);
    g_assert_true (g_file_get_contents (file, &kept, NULL, NULL));
    g_assert_cmpstr (kept, ==, heads[i]);
    dry_journal_discard (file);
    g_assert_false (g_file_test (file, G_FILE_TEST_EXISTS));
  }
  dry_test_remove_tree (folder);
}

/* A full disk is told, loses nothing that was there, and is made good when there is room again. */
static void
test_full_disk (void)
{
  g_autofree char *folder = make_folder (), *before = NULL, *after = NULL, *file = NULL;
  g_autofree char *trouble = NULL, *none = NULL;
  struct rlimit old, low;
  gsize length;
  g_autofree char *bytes = NULL;
  Desk desk;

  open_desk (&desk, folder, 5);
  file = g_strdup (dry_journal_get_file (desk.journal));
  g_assert_true (g_file_get_contents (file, &bytes, &length, NULL));
  signal (SIGXFSZ, SIG_IGN);
  getrlimit (RLIMIT_FSIZE, &old);
  low = old;
  low.rlim_cur = length + 20;
  g_assert_cmpint (setrlimit (RLIMIT_FSIZE, &low), ==, 0);
  for (int i = 0; i < 5; i++)
    take_step (&desk);
  dry_journal_flush (desk.journal);
  trouble = dry_journal_dup_trouble (desk.journal);
  g_assert_cmpstr (trouble, ==, g_strerror (EFBIG));
  setrlimit (RLIMIT_FSIZE, &old);
  for (int i = 0; i < 5; i++)
    take_step (&desk);
  dry_journal_flush (desk.journal);
  none = dry_journal_dup_trouble (desk.journal);
  g_assert_null (none);
  before = describe (desk.history);
  dry_journal_abandon (g_steal_pointer (&desk.journal));
  after = describe_file (file);
  g_assert_cmpstr (before, ==, after);
  clear_desk (&desk);
  dry_test_remove_tree (folder);
}

static void
test_no_folder (void)
{
  g_autoptr (DryProject) base = dry_project_new ();
  g_autoptr (GError) error = NULL;

  g_assert_null (dry_journal_new ("/proc/nowhere", base, NULL, &error));
  g_assert_error (error, DRY_ERROR, DRY_ERROR_FILE);
}

/* The child tells after each command that it is done; whatever it told, but for the last one, must
 * come back after it was killed. */
static void
edit_until_killed (const char *folder, guint32 seed, int told)
{
  Desk desk;

  open_desk (&desk, folder, seed);
  for (guint32 n = 0; n < 100000; n++) {
    if (write (told, &n, sizeof n) != sizeof n)
      _exit (1);
    take_step (&desk);
  }
  _exit (0);
}

/* What the same desk is like after `n` steps. Describing it ends merging, so each is made anew. */
static char *
describe_after (guint32 seed, guint32 n)
{
  g_autofree char *folder = make_folder ();
  char *text;
  Desk desk;

  open_desk (&desk, folder, seed);
  for (guint32 i = 0; i < n; i++)
    take_step (&desk);
  text = describe (desk.history);
  clear_desk (&desk);
  dry_test_remove_tree (folder);
  return text;
}

/* `told` steps were finished for certain, one more may have been; one may be lost. */
static void
check_killed (const char *folder, guint32 seed, guint32 told)
{
  g_autoptr (GDir) dir = g_dir_open (folder, 0, NULL);
  const char *name = g_dir_read_name (dir);
  g_autofree char *file = NULL, *state = NULL;
  gboolean found = FALSE;

  if (name != NULL) {
    file = g_build_filename (folder, name, NULL);
    state = describe_file (file);
    g_unlink (file);
  }
  for (guint32 n = told > 0 ? told - 1 : 0; n <= told + 1 && !found; n++) {
    g_autofree char *wanted = describe_after (seed, n);

    found = g_strcmp0 (state, wanted) == 0;
  }
  g_assert_true (found || (state == NULL && told == 0));
}

static void
test_killed (void)
{
  const char *wish = g_getenv ("DRYBAY_KILLS");
  guint n = wish != NULL ? (guint) g_ascii_strtoull (wish, NULL, 10) : 60;
  g_autofree char *folder = make_folder ();
  g_autoptr (GRand) rand = g_rand_new_with_seed (42);

  for (guint32 seed = 0; seed < n; seed++) {
    guint32 told = 0, next;
    int ends[2], status;
    pid_t child;

    g_assert_cmpint (pipe (ends), ==, 0);
    child = fork ();
    if (child == 0) {
      close (ends[0]);
      edit_until_killed (folder, seed, ends[1]);
    }
    close (ends[1]);
    g_usleep ((gulong) g_rand_int_range (rand, 500, 40000));
    kill (child, SIGKILL);
    waitpid (child, &status, 0);
    while (read (ends[0], &next, sizeof next) == sizeof next)
      told = next;
    close (ends[0]);
    check_killed (folder, seed, told);
  }
  dry_test_remove_tree (folder);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/journal/comes-back", test_comes_back);
  g_test_add_func ("/journal/cut-anywhere", test_cut_anywhere);
  g_test_add_func ("/journal/altered-anywhere", test_altered_anywhere);
  g_test_add_func ("/journal/list", test_list);
  g_test_add_func ("/journal/newer", test_newer);
  g_test_add_func ("/journal/full-disk", test_full_disk);
  g_test_add_func ("/journal/no-folder", test_no_folder);
  g_test_add_func ("/journal/killed", test_killed);
  return g_test_run ();
}
