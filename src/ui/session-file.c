/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The session and its file: opening, recovering, saving, earlier versions; and how lengths are
 * shown and typed in this project. Asks nobody anything: that is the window's. */
#include "ui/session-private.h"

#include <langinfo.h>

#include "project/file.h"

static void
set_path (DrySession *self, const char *path)
{
  char *copy = g_strdup (path);

  g_free (self->path);
  self->path = copy;
}

/* The history has been exchanged for another document's. */
static void
announce_document (DrySession *self, const char *path)
{
  set_path (self, path);
  self->room = 0;
  self->selection = 0;
  self->stud = -1;
  self->piece.kind = DRY_PIECE_NONE;
  self->finding = -1;
  dry_session_announce (self);
  g_signal_emit_by_name (self, "selection-changed");
  g_signal_emit_by_name (self, "view-changed");
  g_signal_emit_by_name (self, "file-changed");
}

static void
show_document (DrySession *self, DryProject *project, const char *path)
{
  dry_session_drop_preview (self);
  g_clear_pointer (&self->history, dry_history_free);
  self->history = dry_history_new (project);
  dry_history_mark_saved (self->history);
  dry_project_unref (project);
  announce_document (self, path);
}

void
dry_session_open_project (DrySession *self, DryProject *project, const char *path)
{
  dry_keeper_begin (self->keeper, path);
  show_document (self, project, path);
}

gboolean
dry_session_open_path (DrySession *self, const char *path, GError **error)
{
  DryProject *project = dry_project_load (path, error);

  if (project == NULL)
    return FALSE;
  dry_session_open_project (self, project, path);
  return TRUE;
}

void
dry_session_keep_in (DrySession *self, const char *journals, const char *versions)
{
  dry_keeper_free (self->keeper);
  self->keeper = dry_keeper_new (journals, versions);
}

gboolean
dry_session_recover (DrySession *self, const char *file, GError **error)
{
  g_autofree char *path = NULL;
  DryHistory *history = NULL;
  DryJournal *journal = dry_journal_recover (file, &history, &path, error);

  if (journal == NULL)
    return FALSE;
  dry_session_drop_preview (self);
  dry_history_free (self->history);
  self->history = history;
  dry_keeper_resume (self->keeper, journal, path, dry_history_get_saved (history));
  announce_document (self, path);
  return TRUE;
}

gboolean
dry_session_save_over (DrySession *self, const char *path, GError **error)
{
  const DryProject *project = dry_history_get_current (self->history);

  if (!dry_project_save (project, path, error))
    return FALSE;
  dry_history_mark_saved (self->history);
  dry_history_seal (self->history);
  dry_keeper_saved (self->keeper, project, path);
  set_path (self, path);
  g_signal_emit_by_name (self, "file-changed");
  dry_session_tell_trouble (self);
  return TRUE;
}

gboolean
dry_session_save (DrySession *self, const char *path, GError **error)
{
  return dry_keeper_check (self->keeper, path, error) && dry_session_save_over (self, path, error);
}

GPtrArray *
dry_session_list_versions (DrySession *self)
{
  return dry_keeper_list_versions (self->keeper, self->path);
}

const char *
dry_session_get_path (DrySession *self)
{
  return self->path;
}

gboolean
dry_session_is_saved (DrySession *self)
{
  return dry_history_is_saved (self->history);
}

/* --- lengths --- */

DryLengthFormat
dry_session_get_length_format (DrySession *self)
{
  const DryJob *job = dry_project_get_job (dry_session_get_project (self));

  const char *radix = nl_langinfo (RADIXCHAR);

  return (DryLengthFormat){.style = job->metric ? DRY_LENGTH_MM : DRY_LENGTH_INCHES,
                           .denominator = job->denominator > 0 ? job->denominator : 16,
                           .decimal = radix[0] == ',' ? ',' : '.'};
}

DryUnit
dry_session_get_bare_unit (DrySession *self)
{
  return dry_project_get_job (dry_session_get_project (self))->metric ? DRY_UNIT_MM : DRY_UNIT_INCH;
}

char *
dry_session_format_length (DrySession *self, DryLength length)
{
  DryLengthFormat format = dry_session_get_length_format (self);

  return dry_length_format (length, &format);
}
