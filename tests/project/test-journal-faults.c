/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The journal where calls to the system fail, and journals that are whole but odd: nothing that is
 * wanted is thrown away, and what cannot be read is told. */
#include "project/journal.h"

#include <errno.h>
#include <glib/gstdio.h>
#include <signal.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/resource.h>
#include <unistd.h>
#include <utime.h>

#include "base/error.h"
#include "base/json.h"
#include "project/file.h"
#include "project/journal-private.h"
#include "support/failing-calls.h"
#include "support/fixtures.h"

static char *
make_folder (void)
{
  char *folder = g_dir_make_tmp ("drybay-journal-XXXXXX", NULL);

  g_assert_nonnull (folder);
  return folder;
}

static DryProject *
make_titled (guint n)
{
  g_autoptr (DryProject) base = dry_project_new ();
  DryJob job = *dry_project_get_job (base);
  g_autofree char *title = g_strdup_printf ("Step %02u", n);
  DryProject *titled;

  job.title = title;
  titled = dry_edit_set_job (base, &job, NULL);
  g_assert_nonnull (titled);
  return titled;
}

static void
push_titled (DryJournal *journal, guint n)
{
  g_autoptr (DryProject) project = make_titled (n);

  dry_journal_push (journal, project, "Title", NULL, FALSE);
}

/* "4 3 2|5 6": titles from the current step back, then those to redo; NULL when it is refused. */
static char *
tell_file (const char *file, GError **error)
{
  g_autoptr (DryHistory) history = NULL;
  g_autofree char *path = NULL;
  DryJournal *journal = dry_journal_recover (file, &history, &path, error);
  GString *text;
  guint n_undone = 0;

  if (journal == NULL)
    return NULL;
  dry_journal_abandon (journal);
  text = g_string_new (NULL);
  do {
    const char *title = dry_project_get_job (dry_history_get_current (history))->title;
    g_string_append_printf (text, "%s%d", n_undone++ > 0 ? " " : "", atoi (title + 5));
  } while (dry_history_undo (history));
  for (guint i = 1; i < n_undone; i++)
    dry_history_redo (history);
  g_string_append_c (text, '|');
  for (guint n = 0; dry_history_redo (history); n++) {
    const char *title = dry_project_get_job (dry_history_get_current (history))->title;
    g_string_append_printf (text, "%s%d", n > 0 ? " " : "", atoi (title + 5));
  }
  return g_string_free (text, FALSE);
}

static void
assert_told (const char *file, const char *wanted)
{
  g_autoptr (GError) error = NULL;
  g_autofree char *told = tell_file (file, &error);

  g_assert_no_error (error);
  g_assert_cmpstr (told, ==, wanted);
}

/* --- calls that fail --- */

static void
test_begin (void)
{
  static const struct {
    const char *call;
    gint nth, error;
    gboolean begins;
  } ROWS[] = {
      {"open", 1, EMFILE, FALSE},   {"flock", 0, ENOLCK, FALSE}, {"flock", 1, EWOULDBLOCK, TRUE},
      {"pwrite", 1, ENOSPC, FALSE}, {"pwrite", 1, EINTR, TRUE},  {"pwrite", 0, 0, TRUE},
  };

  for (guint i = 0; i < G_N_ELEMENTS (ROWS); i++) {
    g_autofree char *folder = make_folder ();
    g_autoptr (DryProject) base = make_titled (0);
    g_autoptr (GError) error = NULL;
    g_autofree char *file = NULL;
    DryJournal *journal;

    dry_test_fail (ROWS[i].call, ROWS[i].nth, ROWS[i].error);
    journal = dry_journal_new (folder, base, NULL, &error);
    g_assert_cmpint (dry_test_fail_end (), >, 0);
    g_test_message ("%s: %s", ROWS[i].call, error != NULL ? error->message : "begun");
    g_assert_true ((journal != NULL) == ROWS[i].begins);
    g_assert_cmpuint (dry_test_count_files (folder), ==, ROWS[i].begins ? 1 : 0);
    if (journal != NULL) {
      file = g_strdup (dry_journal_get_file (journal));
      push_titled (journal, 1);
      dry_journal_abandon (journal);
      assert_told (file, "1 0|");
    } else {
      g_assert_error (error, DRY_ERROR, DRY_ERROR_FILE);
      g_assert_nonnull (strstr (error->message, folder));
      g_assert_nonnull (strstr (error->message, g_strerror (ROWS[i].error)));
    }
    dry_test_remove_tree (folder);
  }
}

/* A disk that cannot be asked to keep it is no reason to stop: what the system has, it has. */
static void
test_no_sync (void)
{
  g_autofree char *folder = make_folder (), *file = NULL, *trouble = NULL;
  g_autoptr (DryProject) base = make_titled (0);
  DryJournal *journal = dry_journal_new (folder, base, NULL, NULL);

  file = g_strdup (dry_journal_get_file (journal));
  dry_test_fail ("fdatasync", 0, EIO);
  push_titled (journal, 1);
  dry_journal_flush (journal);
  g_assert_cmpint (dry_test_fail_end (), >, 0);
  trouble = dry_journal_dup_trouble (journal);
  g_assert_null (trouble);
  dry_journal_abandon (journal);
  assert_told (file, "1 0|");
  dry_test_remove_tree (folder);
}

/* Half a record that cannot even be taken back ends nothing: it is written over later. */
static void
test_half_stays (void)
{
  g_autofree char *folder = make_folder (), *file = NULL, *trouble = NULL, *bytes = NULL;
  g_autoptr (DryProject) base = make_titled (0);
  DryJournal *journal = dry_journal_new (folder, base, NULL, NULL);
  struct rlimit old, low;
  gsize length, half;

  file = g_strdup (dry_journal_get_file (journal));
  g_assert_true (g_file_get_contents (file, &bytes, &length, NULL));
  signal (SIGXFSZ, SIG_IGN);
  getrlimit (RLIMIT_FSIZE, &old);
  low = old;
  low.rlim_cur = length + 30;
  g_assert_cmpint (setrlimit (RLIMIT_FSIZE, &low), ==, 0);
  dry_test_fail ("ftruncate", 0, EIO);
  push_titled (journal, 1);
  dry_journal_flush (journal);
  g_assert_cmpint (dry_test_fail_end (), ==, 1);
  setrlimit (RLIMIT_FSIZE, &old);
  trouble = dry_journal_dup_trouble (journal);
  g_assert_cmpstr (trouble, ==, g_strerror (EFBIG));
  g_clear_pointer (&bytes, g_free);
  g_assert_true (g_file_get_contents (file, &bytes, &half, NULL));
  g_assert_cmpuint (half, ==, length + 30);
  push_titled (journal, 2);
  dry_journal_abandon (journal);
  assert_told (file, "2 1 0|");
  dry_test_remove_tree (folder);
}

/* What cannot be read just now is neither listed nor thrown away. */
static void
test_unreadable (void)
{
  static const struct {
    const char *call;
    gint error;
  } ROWS[] = {{"open", EACCES}, {"flock", ENOLCK}, {"read", EIO}};
  g_autofree char *folder = make_folder (), *file = NULL;
  g_autofree char *dir = g_build_filename (folder, "folder.journal", NULL);
  g_autofree char *other = g_build_filename (folder, "other.txt", NULL);
  g_autofree char *gone = g_build_filename (folder, "gone.journal", NULL);
  g_autoptr (DryProject) base = make_titled (0);
  g_autoptr (GPtrArray) left = NULL, nowhere = dry_journal_list (gone);
  DryJournal *journal = dry_journal_new (folder, base, NULL, NULL);

  g_assert_cmpuint (nowhere->len, ==, 0);
  file = g_strdup (dry_journal_get_file (journal));
  push_titled (journal, 1);
  dry_journal_abandon (journal);
  g_assert_cmpint (g_mkdir (dir, 0700), ==, 0);
  g_assert_true (g_file_set_contents (other, "x", 1, NULL));
  for (guint i = 0; i < G_N_ELEMENTS (ROWS); i++) {
    g_autoptr (GPtrArray) none = NULL;
    g_autoptr (GError) error = NULL;
    g_autofree char *told = NULL;

    dry_test_fail (ROWS[i].call, 0, ROWS[i].error);
    none = dry_journal_list (folder);
    told = tell_file (file, &error);
    g_assert_cmpint (dry_test_fail_end (), >, 0);
    g_assert_cmpuint (none->len, ==, 0);
    g_assert_null (told);
    g_assert_nonnull (error);
    g_assert_true (g_file_test (file, G_FILE_TEST_EXISTS));
  }
  left = dry_journal_list (folder);
  g_assert_cmpuint (left->len, ==, 1);
  g_assert_true (g_file_test (dir, G_FILE_TEST_IS_DIR));
  g_assert_true (g_file_test (other, G_FILE_TEST_EXISTS));
  assert_told (file, "1 0|");
  dry_test_remove_tree (folder);
}

/* A torn end that cannot be cut off is no hindrance. */
static void
test_torn_end (void)
{
  g_autofree char *folder = make_folder (), *file = NULL;
  g_autoptr (DryProject) base = make_titled (0);
  g_autoptr (DryHistory) history = NULL;
  g_autofree char *path = NULL;
  DryJournal *journal = dry_journal_new (folder, base, NULL, NULL);
  FILE *torn;

  file = g_strdup (dry_journal_get_file (journal));
  dry_journal_abandon (journal);
  torn = fopen (file, "a");
  fputs ("record 4000 0123456789abcdef\nhalf", torn);
  fclose (torn);
  dry_test_fail ("ftruncate", 0, EIO);
  journal = dry_journal_recover (file, &history, &path, NULL);
  g_assert_cmpint (dry_test_fail_end (), ==, 1);
  g_assert_nonnull (journal);
  push_titled (journal, 1);
  dry_journal_abandon (journal);
  assert_told (file, "1 0|");
  dry_test_remove_tree (folder);
}

/* The latest first; of the same second, by name. */
static void
test_order (void)
{
  static const struct {
    const char *name;
    time_t time;
  } ROWS[] = {{"b", 2000}, {"a", 1000}, {"d", 3000}, {"c", 2000}, {"e", 2000}};
  g_autofree char *folder = make_folder ();
  g_autoptr (GPtrArray) left = NULL;
  GString *order = g_string_new (NULL);
  g_autofree char *found = NULL;

  for (guint i = 0; i < G_N_ELEMENTS (ROWS); i++) {
    g_autofree char *file = g_strdup_printf ("%s/%s.journal", folder, ROWS[i].name);
    g_autoptr (DryProject) base = make_titled (0);
    DryJournal *journal = dry_journal_new (folder, base, NULL, NULL);
    struct utimbuf times = {ROWS[i].time, ROWS[i].time};

    push_titled (journal, 1);
    dry_journal_flush (journal);
    g_assert_cmpint (g_rename (dry_journal_get_file (journal), file), ==, 0);
    dry_journal_abandon (journal);
    g_assert_cmpint (utime (file, &times), ==, 0);
  }
  left = dry_journal_list (folder);
  for (guint i = 0; i < left->len; i++) {
    g_autofree char *name = g_path_get_basename (((DryLeftover *) left->pdata[i])->file);
    g_string_append_c (order, name[0]);
  }
  found = g_string_free (order, FALSE);
  g_assert_cmpstr (found, ==, "dbcea");
  dry_test_remove_tree (folder);
}

/* --- journals made by hand --- */

typedef struct {
  GByteArray *bytes;
  char *text; /* told last */
  gsize length;
} Hand;

static void
hand_tell (Hand *hand, DryRecordKind kind, gboolean merged, char *text, gsize length)
{
  DryRecord record = {.kind = kind, .merged = merged, .name = (char *) "By hand"};

  if (text != NULL) {
    dry_record_compare (&record, hand->text != NULL ? hand->text : "", hand->length, text, length);
    dry_record_write (&record, hand->bytes);
    g_free (hand->text);
    hand->text = text;
    hand->length = length;
  } else {
    dry_record_write (&record, hand->bytes);
  }
}

/* A project's text, with blanks behind it up to `padded` bytes. */
static void
hand_tell_titled (Hand *hand, DryRecordKind kind, gboolean merged, guint n, gsize padded)
{
  g_autoptr (DryProject) project = make_titled (n);
  gsize length;
  g_autofree char *text = dry_project_to_text (project, &length);
  gsize whole = MAX (length, padded);
  char *told = g_malloc (whole + 1);

  memcpy (told, text, length);
  memset (told + length, ' ', whole - length);
  told[whole] = '\0';
  hand_tell (hand, kind, merged, told, whole);
}

static Hand
hand_begin (void)
{
  Hand hand = {.bytes = g_byte_array_new ()};

  g_byte_array_append (hand.bytes, (const guint8 *) DRY_JOURNAL_MAGIC, strlen (DRY_JOURNAL_MAGIC));
  return hand;
}

static char *
hand_write (const Hand *hand, const char *folder)
{
  char *file = g_build_filename (folder, "hand.journal", NULL);

  g_assert_true (
      g_file_set_contents (file, (const char *) hand->bytes->data, hand->bytes->len, NULL));
  return file;
}

static void
hand_clear (Hand *hand)
{
  g_byte_array_unref (hand->bytes);
  g_free (hand->text);
}

static char *
hand_end (Hand *hand, const char *folder)
{
  char *file = hand_write (hand, folder);

  hand_clear (hand);
  return file;
}

/* Letters: b base, s step, m merged step, u undo, r redo, x saved. Steps are titled 1, 2, ... */
static void
test_lists (void)
{
  static const struct {
    const char *records, *told;
  } ROWS[] = {
      {"b", "0|"},       {"buu", "0|"},     {"brr", "0|"},         {"bs", "1 0|"},
      {"bsu", "0|1"},    {"bsur", "1 0|"},  {"bsssuu", "1 0|2 3"}, {"bssus", "3 1 0|"},
      {"bm", "1 0|"},    {"bsm", "2 0|"},   {"bssum", "3 0|"},     {"bxsx", "1 0|"},
      {"bsbss", "1 0|"}, {"bsuum", "2 0|"},
  };

  for (guint i = 0; i < G_N_ELEMENTS (ROWS); i++) {
    g_autofree char *folder = make_folder (), *file = NULL;
    Hand hand = hand_begin ();
    guint n = 0;

    for (const char *p = ROWS[i].records; *p != '\0'; p++)
      if (*p == 'b')
        hand_tell_titled (&hand, DRY_RECORD_BASE, FALSE, 0, 0);
      else if (*p == 's' || *p == 'm')
        hand_tell_titled (&hand, DRY_RECORD_STEP, *p == 'm', ++n, 0);
      else
        hand_tell (&hand,
                   *p == 'u'   ? DRY_RECORD_UNDO
                   : *p == 'r' ? DRY_RECORD_REDO
                               : DRY_RECORD_SAVED,
                   FALSE, NULL, 0);
    file = hand_end (&hand, folder);
    g_test_message ("%s", ROWS[i].records);
    assert_told (file, ROWS[i].told);
    dry_test_remove_tree (folder);
  }
}

/* Whole records that tell nonsense: refused with words, and the file stays for someone wiser. */
static void
test_nonsense (void)
{
  static const struct {
    gsize front, back;
    const char *text, *says;
  } ROWS[] = {
      {99999, 0, "", "record 1 does not fit"},
      {10, 99999, "", "record 1 does not fit"},
      {0, 0, "no project", "journal"},
      {0, 0, "{}", "journal"},
  };

  for (guint i = 0; i < G_N_ELEMENTS (ROWS); i++) {
    g_autofree char *folder = make_folder (), *file = NULL, *told = NULL;
    g_autoptr (GError) error = NULL;
    Hand hand = hand_begin ();
    DryRecord record = {.kind = DRY_RECORD_STEP,
                        .front = ROWS[i].front,
                        .back = ROWS[i].back,
                        .middle = ROWS[i].text,
                        .middle_length = strlen (ROWS[i].text)};

    hand_tell_titled (&hand, DRY_RECORD_BASE, FALSE, 0, 0);
    dry_record_write (&record, hand.bytes);
    file = hand_end (&hand, folder);
    told = tell_file (file, &error);
    g_assert_null (told);
    g_assert_nonnull (strstr (error->message, ROWS[i].says));
    g_assert_true (g_file_test (file, G_FILE_TEST_EXISTS));
    dry_test_remove_tree (folder);
  }
}

/* Bytes that are no records: the head, the sum, the fields. */
static void
test_no_records (void)
{
  static const struct {
    const char *head; /* %u: length, %s: sum */
    const char *fields;
  } ROWS[] = {
      {"record %u %s", "{ \"kind\": \"undo\" }"}, /* the one that is good */
      {"recorb %u %s", "{ \"kind\": \"undo\" }"},
      {"record %u %s 1", "{ \"kind\": \"undo\" }"},
      {"record %u  %s", "{ \"kind\": \"undo\" }"},
      {"record %u 0%s", "{ \"kind\": \"undo\" }"},
      {"record -%u %s", "{ \"kind\": \"undo\" }"},
      {"record 1%u %s", "{ \"kind\": \"undo\" }"},
      {"record %u %s", "{ \"kind\": \"dance\" }"},
      {"record %u %s", "{ \"kind\": 1 }"},
      {"record %u %s", "{ \"kind\": \"step\", \"front\": -1 }"},
      {"record %u %s", "{ \"kind\": \"step\", \"merged\": 1 }"},
      {"record %u %s", "[]"},
      {"record %u %s", "undo"},
  };

  for (guint i = 0; i < G_N_ELEMENTS (ROWS); i++) {
    gsize size = strlen (ROWS[i].fields) + 1, offset = 0;
    g_autofree char *sum =
        g_compute_checksum_for_data (G_CHECKSUM_SHA256, (const guchar *) ROWS[i].fields, size);
    GString *bytes = g_string_new (NULL);
    g_auto (DryRecord) record = {0};
    g_auto (GStrv) parts = g_strsplit (ROWS[i].head, "%", -1);

    sum[16] = '\0';
    g_string_append_printf (bytes, "%s%u%s%s%s\n", parts[0], (guint) size, parts[1] + 1, sum,
                            parts[2] + 1);
    g_string_append_len (bytes, ROWS[i].fields, (gssize) size);
    g_string_append_c (bytes, '\n');
    g_test_message ("%s", bytes->str);
    g_assert_true (dry_record_read (bytes->str, bytes->len, &offset, &record) == (i == 0));
    g_assert_cmpuint (offset, ==, i == 0 ? bytes->len : 0);
    g_string_free (bytes, TRUE);
  }
}

/* Of projects of 16 MB sixteen fit: those round the current step are kept, later ones before
 * earlier ones, and never more than fit. */
static void
test_too_much_text (void)
{
  static const struct {
    guint undone;
    const char *told;
  } ROWS[] = {
      {0, "20 19 18 17 16 15 14 13 12 11 10 9 8 7 6 5|"},
      {12, "8 7 6 5|9 10 11 12 13 14 15 16 17 18 19 20"},
      {18, "2|3 4 5 6 7 8 9 10 11 12 13 14 15 16 17"},
  };
  gsize padded = DRY_JSON_MAX_BYTES - 64;
  g_autofree char *folder = make_folder ();
  Hand hand = hand_begin ();
  guint undone = 0;

  hand_tell_titled (&hand, DRY_RECORD_BASE, FALSE, 0, padded);
  for (guint n = 1; n <= 20; n++)
    hand_tell_titled (&hand, DRY_RECORD_STEP, FALSE, n, padded);
  for (guint i = 0; i < G_N_ELEMENTS (ROWS); i++) {
    g_autofree char *file = NULL;

    for (; undone < ROWS[i].undone; undone++)
      hand_tell (&hand, DRY_RECORD_UNDO, FALSE, NULL, 0);
    file = hand_write (&hand, folder);
    assert_told (file, ROWS[i].told);
  }
  hand_clear (&hand);
  dry_test_remove_tree (folder);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/journal-faults/begin", test_begin);
  g_test_add_func ("/journal-faults/no-sync", test_no_sync);
  g_test_add_func ("/journal-faults/half-stays", test_half_stays);
  g_test_add_func ("/journal-faults/unreadable", test_unreadable);
  g_test_add_func ("/journal-faults/torn-end", test_torn_end);
  g_test_add_func ("/journal-faults/order", test_order);
  g_test_add_func ("/journal-faults/lists", test_lists);
  g_test_add_func ("/journal-faults/nonsense", test_nonsense);
  g_test_add_func ("/journal-faults/no-records", test_no_records);
  g_test_add_func ("/journal-faults/too-much-text", test_too_much_text);
  return g_test_run ();
}
