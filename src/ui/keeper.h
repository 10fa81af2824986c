/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What keeps the work of one session safe: the journal a crash is recovered from, the mark by which
 * a file changed by someone else is noticed, and the versions kept of each saved file. Knows the
 * session's history and files; asks nobody anything. */
#pragma once

#include <gio/gio.h>

#include "project/journal.h"
#include "project/versions.h"

G_BEGIN_DECLS

typedef struct _DryKeeper DryKeeper;

/* Folders for journals and versions; NULL: none are kept, as in tests and without a home. */
DryKeeper *dry_keeper_new (const char *journals, const char *versions);
/* The document was closed as its owner wished: its journal goes. */
void dry_keeper_free (DryKeeper *self);

/* Another document is shown: `path` is its file, just read, or NULL. */
void dry_keeper_begin (DryKeeper *self, const char *path);
/* The same, with a journal taken over from a process that is gone; `saved` is what it last read
 * from or wrote to `path`, NULL when that is not known any more. */
void dry_keeper_resume (DryKeeper *self, DryJournal *journal, const char *path,
                        const DryProject *saved);

/* Before a step: `before` is where the list begins when this is the first one. */
void dry_keeper_prepare (DryKeeper *self, const DryProject *before);
void dry_keeper_push (DryKeeper *self, const DryProject *project, const char *name,
                      const char *merge_key, gboolean merged);
void dry_keeper_undo (DryKeeper *self);
void dry_keeper_redo (DryKeeper *self);
/* Why the journal cannot be written, told once until it works again; NULL otherwise. Free it. */
char *dry_keeper_take_trouble (DryKeeper *self);

/* FALSE with DRY_ERROR_CHANGED when the file at `path` is not as it was read or written here:
 * saving would lose what someone else wrote. */
gboolean dry_keeper_check (DryKeeper *self, const char *path, GError **error);
/* Where the file stands beside what was last read or written. */
typedef enum { DRY_FILE_AS_KNOWN, DRY_FILE_CHANGED, DRY_FILE_GONE } DryFileState;
DryFileState dry_keeper_look (DryKeeper *self);
/* What is in the file now counts as known: the owner has seen it. */
void dry_keeper_accept (DryKeeper *self);
/* The document is now what was read from its file at `mark`. */
void dry_keeper_reloaded (DryKeeper *self, const DryFileMark *mark);
/* `project` has just been saved to `path`. */
void dry_keeper_saved (DryKeeper *self, const DryProject *project, const char *path);
/* The kept versions of the file, newest first. */
GPtrArray *dry_keeper_list_versions (DryKeeper *self, const char *path);

G_END_DECLS
