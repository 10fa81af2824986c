/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Project files and journals from anywhere: a project that is taken is written and read as the same
 * bytes; a journal gives an undo list or an error. Knows nothing of what is in a room. */
#include "project/file.h"

#include <glib/gstdio.h>
#include <string.h>
#include <unistd.h>

#include "fuzz/entries.h"
#include "project/journal.h"

#define RECORDS "drybay-records\n"
#define MAGIC   "drybay-journal 1\n"

static void
check_again (const DryProject *project)
{
  gsize length, again_length;
  g_autofree char *text = dry_project_to_text (project, &length), *again = NULL;
  g_autoptr (DryProject) read = NULL;
  g_autoptr (GError) error = NULL;

  read = dry_project_from_text (text, length, "again", &error);
  g_assert_no_error (error);
  again = dry_project_to_text (read, &again_length);
  g_assert_cmpmem (text, length, again, again_length);
}

void
fuzz_project (const guint8 *data, gsize size)
{
  g_autofree char *copy = fuzz_copy (data, size);
  g_autoptr (DryProject) project = NULL;
  GError *error = NULL;

  project = dry_project_from_text (copy, size, "fuzz", &error);
  fuzz_one_of (project != NULL, error);
  if (project != NULL)
    check_again (project);
}

/* Chance finds no checksum: bytes that begin with RECORDS are payloads, each ended by 0x1e, and get
 * theirs here. Anything else is a journal as it stands. */
static GByteArray *
make_journal (const guint8 *data, gsize size)
{
  GByteArray *bytes = g_byte_array_new ();
  gsize at = strlen (RECORDS);

  if (size < at || memcmp (data, RECORDS, at) != 0)
    return g_byte_array_append (bytes, data, (guint) size);
  g_byte_array_append (bytes, (const guint8 *) MAGIC, strlen (MAGIC));
  while (at < size) {
    const guint8 *end = memchr (data + at, 0x1e, size - at);
    gsize length = end != NULL ? (gsize) (end - data) - at : size - at;
    g_autofree char *sum = g_compute_checksum_for_data (G_CHECKSUM_SHA256, data + at, length);
    g_autofree char *head = g_strdup_printf ("record %zu %.16s\n", length, sum);

    g_byte_array_append (bytes, (const guint8 *) head, (guint) strlen (head));
    g_byte_array_append (bytes, data + at, (guint) length);
    g_byte_array_append (bytes, (const guint8 *) "\n", 1);
    at += length + 1;
  }
  return bytes;
}

static void
check_list (DryHistory *history)
{
  guint n = 0;

  check_again (dry_history_get_current (history));
  while (n < 50 && dry_history_undo (history))
    n++;
  check_again (dry_history_get_current (history));
  while (n > 0 && dry_history_redo (history))
    n--;
  g_assert_cmpuint (n, ==, 0);
}

void
fuzz_journal (const guint8 *data, gsize size)
{
  g_autoptr (GByteArray) bytes = make_journal (data, size);
  g_autoptr (DryHistory) history = NULL;
  g_autofree char *path = NULL;
  const char *memory = g_file_test ("/dev/shm", G_FILE_TEST_IS_DIR) ? "/dev/shm" : g_get_tmp_dir ();
  g_autofree char *file = g_strdup_printf ("%s/drybay-fuzz-%d.journal", memory, (int) getpid ());
  GError *error = NULL;
  DryJournal *journal;
  FILE *out = g_fopen (file, "wb");

  g_assert_nonnull (out);
  if (bytes->len > 0)
    g_assert_cmpuint (fwrite (bytes->data, 1, bytes->len, out), ==, bytes->len);
  g_assert_cmpint (fclose (out), ==, 0);
  journal = dry_journal_recover (file, &history, &path, &error);
  fuzz_one_of (journal != NULL, error);
  if (journal != NULL) {
    g_assert_nonnull (history);
    check_list (history);
    dry_journal_push (journal, dry_history_get_current (history), "on", NULL, FALSE);
    dry_journal_abandon (journal);
  }
  g_unlink (file);
}
