/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The keeper starts a journal at the first step, so that looking at a file writes nothing; and it
 * never stands in the way of saving: what it cannot keep it only tells. */
#include "ui/keeper.h"

#include <string.h>

#include "base/error.h"
#include "project/file.h"

struct _DryKeeper {
  char *journals, *versions;
  char *path; /* the file the mark is of, or NULL */
  DryFileMark mark;
  DryJournal *journal;
  char *trouble;
  gboolean told;
};

DryKeeper *
dry_keeper_new (const char *journals, const char *versions)
{
  DryKeeper *self = g_new0 (DryKeeper, 1);

  self->journals = g_strdup (journals);
  self->versions = g_strdup (versions);
  return self;
}

void
dry_keeper_free (DryKeeper *self)
{
  if (self == NULL)
    return;
  dry_journal_finish (self->journal);
  g_free (self->journals);
  g_free (self->versions);
  g_free (self->path);
  g_free (self->trouble);
  g_free (self);
}

static void
set_trouble (DryKeeper *self, char *trouble)
{
  if (trouble == NULL)
    self->told = FALSE;
  g_free (self->trouble);
  self->trouble = trouble;
}

static void
mark_file (DryKeeper *self, const char *path)
{
  char *copy = g_strdup (path);

  g_free (self->path);
  self->path = copy;
  memset (&self->mark, 0, sizeof self->mark);
  if (copy != NULL)
    dry_file_mark_take (copy, &self->mark, NULL);
}

void
dry_keeper_begin (DryKeeper *self, const char *path)
{
  g_clear_pointer (&self->journal, dry_journal_finish);
  set_trouble (self, NULL);
  mark_file (self, path);
}

/* The file may have been changed while nobody was looking: its mark is of what the gone process
 * knew. Where that is not known, or was laid out otherwise than here, saving asks first. */
void
dry_keeper_resume (DryKeeper *self, DryJournal *journal, const char *path, const DryProject *saved)
{
  dry_keeper_begin (self, path);
  self->journal = journal;
  memset (&self->mark, 0, sizeof self->mark);
  if (saved != NULL) {
    gsize length;
    g_autofree char *text = dry_project_to_text (saved, &length);

    dry_file_mark_of_text (text, length, &self->mark);
  }
}

void
dry_keeper_prepare (DryKeeper *self, const DryProject *before)
{
  g_autoptr (GError) error = NULL;

  if (self->journal != NULL || self->journals == NULL)
    return;
  self->journal = dry_journal_new (self->journals, before, self->path, &error);
  if (self->journal == NULL)
    set_trouble (self, g_strdup (error->message));
}

/* The journal tells how its records before this one fared. */
static void
ask_journal (DryKeeper *self)
{
  if (self->journal != NULL)
    set_trouble (self, dry_journal_dup_trouble (self->journal));
}

void
dry_keeper_push (DryKeeper *self, const DryProject *project, const char *name,
                 const char *merge_key, gboolean merged)
{
  if (self->journal != NULL)
    dry_journal_push (self->journal, project, name, merge_key, merged);
  ask_journal (self);
}

void
dry_keeper_undo (DryKeeper *self)
{
  if (self->journal != NULL)
    dry_journal_undo (self->journal);
  ask_journal (self);
}

void
dry_keeper_redo (DryKeeper *self)
{
  if (self->journal != NULL)
    dry_journal_redo (self->journal);
  ask_journal (self);
}

char *
dry_keeper_take_trouble (DryKeeper *self)
{
  if (self->trouble == NULL || self->told)
    return NULL;
  self->told = TRUE;
  return g_strdup (self->trouble);
}

gboolean
dry_keeper_check (DryKeeper *self, const char *path, GError **error)
{
  g_autofree char *name = g_filename_display_basename (path);
  DryFileMark now;

  if (self->path == NULL || strcmp (path, self->path) != 0)
    return TRUE;
  if (!dry_file_mark_take (path, &now, error))
    return FALSE;
  /* A file that was deleted or moved away holds nothing that saving could lose. */
  if (!now.exists || dry_file_mark_equal (&now, &self->mark))
    return TRUE;
  g_set_error (error, DRY_ERROR, DRY_ERROR_CHANGED, "%s was changed by another program", name);
  return FALSE;
}

DryFileState
dry_keeper_look (DryKeeper *self)
{
  DryFileMark now;

  /* After a recovery it may not be known what the file held. */
  if (self->path == NULL || !self->mark.exists)
    return DRY_FILE_AS_KNOWN;
  if (!dry_file_mark_take (self->path, &now, NULL) || !now.exists)
    return DRY_FILE_GONE;
  return dry_file_mark_equal (&now, &self->mark) ? DRY_FILE_AS_KNOWN : DRY_FILE_CHANGED;
}

void
dry_keeper_accept (DryKeeper *self)
{
  DryFileMark now;

  if (self->path != NULL && dry_file_mark_take (self->path, &now, NULL))
    self->mark = now;
}

void
dry_keeper_reloaded (DryKeeper *self, const DryFileMark *mark)
{
  self->mark = *mark;
  if (self->journal != NULL)
    dry_journal_saved (self->journal, self->path);
}

void
dry_keeper_saved (DryKeeper *self, const DryProject *project, const char *path)
{
  gsize length;
  g_autofree char *text = dry_project_to_text (project, &length);
  g_autoptr (GDateTime) now = g_date_time_new_now_utc ();
  g_autofree char *stamp = g_date_time_format (now, "%Y-%m-%dT%H-%M-%S-%f");
  g_autoptr (GError) error = NULL;

  mark_file (self, path);
  /* Of what was written, not of what may have been put there since. */
  dry_file_mark_of_text (text, length, &self->mark);
  if (self->journal != NULL)
    dry_journal_saved (self->journal, path);
  if (self->versions != NULL &&
      !dry_versions_keep (self->versions, path, stamp, text, length, &error))
    set_trouble (self, g_strdup (error->message));
}

GPtrArray *
dry_keeper_list_versions (DryKeeper *self, const char *path)
{
  if (self->versions == NULL || path == NULL)
    return g_ptr_array_new ();
  return dry_versions_list (self->versions, path);
}
