/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The journal of one open document: every step, undo and redo since it was opened, written beside
 * the work so that a crash takes at most the command under way. Knows files and history; where its
 * folder is, and what a person is asked after a crash, is the window's. */
#pragma once

#include "project/history.h"

typedef struct _DryJournal DryJournal;

/* What recovering keeps of the undo list, in bytes of project text; older steps fall away. */
#define DRY_JOURNAL_TEXT_MOST (256u * 1024u * 1024u)

/* Starts a journal in `folder` (made when missing, readable by its owner only) for a document whose
 * undo list is to begin at `base`; `path` is its file or NULL. The journal is locked as long as its
 * process lives. Errors: DRY_ERROR_FILE. */
DryJournal *dry_journal_new (const char *folder, const DryProject *base, const char *path,
                             GError **error) G_GNUC_WARN_UNUSED_RESULT;

/* Each of these hands one record to the journal's thread and returns; when the one before is not
 * yet with the system, they wait for it first, so never more than one is at stake. A record that
 * cannot be written is kept back and tried again before the next: see dry_journal_get_trouble(). */
void dry_journal_push (DryJournal *self, const DryProject *project, const char *name,
                       const char *merge_key, gboolean merged);
void dry_journal_undo (DryJournal *self);
void dry_journal_redo (DryJournal *self);
void dry_journal_saved (DryJournal *self, const char *path);

/* Waits until all records are with the system, and on the disk where the disk says so. */
void dry_journal_flush (DryJournal *self);
/* Why the latest record is not written, or NULL when all is well. Free it. */
char *dry_journal_dup_trouble (DryJournal *self);
const char *dry_journal_get_file (const DryJournal *self);

/* Ends the journal and deletes its file: the document was closed as its owner wished. */
void dry_journal_finish (DryJournal *self);
/* Ends the thread but leaves the file, as a crash would; for tests and for a sudden end of the
 * user's login. */
void dry_journal_abandon (DryJournal *self);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (DryJournal, dry_journal_finish)

/* One document that was open in a process that is gone. */
typedef struct {
  char *file;       /* the journal */
  char *path;       /* of the document, or NULL: it was never saved */
  char *title;      /* of the job when it was opened */
  guint n_unsaved;  /* records since it was last saved */
  gint64 last_time; /* of the last record, seconds since 1970 */
  gboolean newer;   /* written by a newer version: nothing but the time is known of it here */
} DryLeftover;

void dry_leftover_free (DryLeftover *self);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (DryLeftover, dry_leftover_free)

/* The journals in `folder` that no process holds and that have unsaved work, newest first. Those
 * without any, and files that are no journals at all but bear the name, are deleted; those of a
 * newer version are listed and left alone. Never NULL. */
GPtrArray *dry_journal_list (const char *folder) G_GNUC_WARN_UNUSED_RESULT;

/* Takes a leftover journal over: `history` gets the undo list as it was, `path` (free it) the
 * document's file or NULL, and the journal goes on in the same file. A torn end is cut off; only
 * the records in front of it count. Errors: DRY_ERROR_FILE (in use, unreadable), DRY_ERROR_VERSION
 * (of a newer version), DRY_ERROR_SYNTAX (not even the base is whole); the file stays as it is. */
DryJournal *dry_journal_recover (const char *file, DryHistory **history, char **path,
                                 GError **error) G_GNUC_WARN_UNUSED_RESULT;
/* Deletes a leftover journal that nobody wants. */
void dry_journal_discard (const char *file);
