/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Saves, keeps a version or starts a journal, once, between two marks a tracer sees: for tests that
 * kill it there or make its calls fail. Knows nothing of who watches. */
#include <glib/gstdio.h>
#include <stdio.h>
#include <string.h>
#include <unistd.h>

#include "project/edit.h"
#include "project/file.h"
#include "project/journal.h"
#include "project/versions.h"

#define STEPS 3

static DryProject *
with_title (const DryProject *project, char *title)
{
  DryJob job = *dry_project_get_job (project);

  job.title = title;
  return dry_edit_set_job (project, &job, NULL);
}

/* What the tracer looks for. */
static void
mark (const char *name)
{
  (void) !access (name, F_OK);
}

static gboolean
keep_version (const char *folder, const DryProject *project, const char *title, GError **error)
{
  gsize length;
  g_autofree char *text = dry_project_to_text (project, &length);

  return dry_versions_keep (folder, "/the/job.drybay", title, text, length, error);
}

static gboolean
write_journal (const char *folder, DryProject *project, GError **error)
{
  DryJournal *journal = dry_journal_new (folder, project, "/the/job.drybay", error);

  if (journal == NULL)
    return FALSE;
  for (int i = 1; i <= STEPS; i++) {
    g_autofree char *title = g_strdup_printf ("Step %d", i);
    g_autoptr (DryProject) next = with_title (project, title);

    dry_journal_push (journal, next, title, NULL, FALSE);
    dry_journal_flush (journal);
    /* Told only when it is certain. */
    g_print ("told %d\n", i);
  }
  {
    g_autofree char *trouble = dry_journal_dup_trouble (journal);

    if (trouble != NULL)
      g_print ("trouble %s\n", trouble);
  }
  dry_journal_abandon (journal);
  return TRUE;
}

/* Prints what would be offered after a crash, one line a journal. */
static gboolean
list_journals (const char *folder)
{
  g_autoptr (GPtrArray) left = dry_journal_list (folder);

  for (guint i = 0; i < left->len; i++) {
    const DryLeftover *one = left->pdata[i];
    g_autoptr (DryHistory) history = NULL;
    g_autofree char *path = NULL;
    g_autoptr (GError) error = NULL;
    DryJournal *journal = dry_journal_recover (one->file, &history, &path, &error);

    if (journal == NULL) {
      g_printerr ("%s\n", error->message);
      return FALSE;
    }
    g_print ("%s\n", dry_project_get_job (dry_history_get_current (history))->title);
    dry_journal_finish (journal);
  }
  return TRUE;
}

int
main (int argc, char **argv)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (DryProject) project = NULL, titled = NULL;
  gboolean done;

  if (argc != 5)
    return 2;
  project = dry_project_load (argv[2], &error);
  if (project == NULL) {
    g_printerr ("%s\n", error->message);
    return 1;
  }
  titled = with_title (project, argv[4]);
  mark ("/drybay-begin");
  if (strcmp (argv[1], "save") == 0)
    done = dry_project_save (titled, argv[3], &error);
  else if (strcmp (argv[1], "version") == 0)
    done = keep_version (argv[3], titled, argv[4], &error);
  else if (strcmp (argv[1], "journal") == 0)
    done = write_journal (argv[3], titled, &error);
  else
    done = list_journals (argv[3]);
  mark ("/drybay-end");
  if (!done && error != NULL)
    g_printerr ("%s\n", error->message);
  return done ? 0 : 1;
}
