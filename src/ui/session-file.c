/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The session and its file: opening, recovering, saving, earlier versions; and how lengths are
 * shown and typed in this project. Asks nobody anything: that is the window's. */
#include "ui/session-private.h"

#include <glib/gi18n.h>
#include <glib/gstdio.h>
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

static void
forget_newer (DrySession *self)
{
  dry_newer_clear (&self->newer);
  g_clear_pointer (&self->newer_path, g_free);
}

void
dry_session_open_project (DrySession *self, DryProject *project, const char *path)
{
  forget_newer (self);
  dry_keeper_begin (self->keeper, path);
  show_document (self, project, path);
}

gboolean
dry_session_open_path (DrySession *self, const char *path, GError **error)
{
  g_auto (DryNewer) newer = {0};
  DryProject *project = dry_project_load_newer (path, &newer, error);

  if (project == NULL)
    return FALSE;
  if (newer.version == 0) {
    dry_session_open_project (self, project, path);
    return TRUE;
  }
  forget_newer (self);
  self->newer = newer;
  newer = (DryNewer){0};
  self->newer_path = g_strdup (path);
  dry_keeper_begin (self->keeper, NULL);
  show_document (self, project, NULL);
  return TRUE;
}

const DryNewer *
dry_session_get_newer (DrySession *self)
{
  return self->newer.version > 0 ? &self->newer : NULL;
}

const char *
dry_session_get_newer_path (DrySession *self)
{
  return self->newer_path;
}

DryFileState
dry_session_look_at_file (DrySession *self)
{
  DryFileState state = dry_keeper_look (self->keeper);

  if (state == DRY_FILE_GONE && dry_session_is_saved (self)) {
    dry_history_mark_unsaved (self->history);
    g_signal_emit_by_name (self, "file-changed");
  }
  return state;
}

gboolean
dry_session_reload (DrySession *self, GError **error)
{
  DryFileMark mark;
  DryProject *project;

  /* Taken before it is read: what comes in between is then noticed as another change. */
  if (self->path == NULL || !dry_file_mark_take (self->path, &mark, error))
    return FALSE;
  project = dry_project_load (self->path, error);
  if (project == NULL)
    return FALSE;
  dry_session_apply (self, project, _ ("Reload"), NULL, NULL);
  dry_history_mark_saved (self->history);
  dry_keeper_reloaded (self->keeper, &mark);
  g_signal_emit_by_name (self, "file-changed");
  return TRUE;
}

void
dry_session_keep_mine (DrySession *self)
{
  dry_keeper_accept (self->keeper);
  dry_history_mark_unsaved (self->history);
  g_signal_emit_by_name (self, "file-changed");
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
  forget_newer (self);
  dry_session_drop_preview (self);
  dry_history_free (self->history);
  self->history = history;
  dry_keeper_resume (self->keeper, journal, path, dry_history_get_saved (history));
  announce_document (self, path);
  return TRUE;
}

/* By whatever name it is called. */
static gboolean
is_newer_file (DrySession *self, const char *path)
{
  GStatBuf a, b;

  return self->newer_path != NULL && g_stat (self->newer_path, &a) == 0 && g_stat (path, &b) == 0 &&
         a.st_dev == b.st_dev && a.st_ino == b.st_ino;
}

gboolean
dry_session_save_over (DrySession *self, const char *path, GError **error)
{
  const DryProject *project;

  dry_session_end_typing (self);
  project = dry_history_get_current (self->history);
  if (is_newer_file (self, path)) {
    g_set_error (error, DRY_ERROR, DRY_ERROR_VERSION, "%s",
                 _ ("The file is of a newer version: saving over it would lose what is not shown. "
                    "Choose another name."));
    return FALSE;
  }
  if (!dry_project_save (project, path, error))
    return FALSE;
  forget_newer (self);
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
