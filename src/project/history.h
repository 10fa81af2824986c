/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Undo and redo: a list of projects with the name of the step that made each one.
 * The only mutable object below the window; knows nothing of files. */
#pragma once

#include "project/project.h"

typedef struct _DryHistory DryHistory;

#define DRY_HISTORY_DEPTH 1000

DryHistory *dry_history_new (const DryProject *first) G_GNUC_WARN_UNUSED_RESULT;
void dry_history_free (DryHistory *self);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (DryHistory, dry_history_free)

const DryProject *dry_history_get_current (const DryHistory *self);
/* Adds a step named for the menu ("Move niche"), dropping what could be redone. A `merge_key` equal
 * to the last step's (not NULL) replaces that step: all nudges of one drag become one undo. TRUE
 * when the step was replaced so. */
gboolean dry_history_push (DryHistory *self, const DryProject *project, const char *name,
                           const char *merge_key);
/* Ends merging, so that the next push with the same key is a step of its own. */
void dry_history_seal (DryHistory *self);
gboolean dry_history_undo (DryHistory *self);
gboolean dry_history_redo (DryHistory *self);
/* What would be undone or redone; NULL when nothing. Borrowed. */
const char *dry_history_get_undo_name (const DryHistory *self);
const char *dry_history_get_redo_name (const DryHistory *self);
/* The state `steps` before the current one (0: the current one itself), and what was done to it
 * next, NULL for the current one; `name` may be NULL. NULL when there is no such state. Borrowed.
 */
const DryProject *dry_history_get_past (const DryHistory *self, guint steps, const char **name);
/* The saved state: TRUE when current is the project last marked. */
void dry_history_mark_saved (DryHistory *self);
/* No state is the saved one any more: the file is gone, or holds what someone else wrote. */
void dry_history_mark_unsaved (DryHistory *self);
gboolean dry_history_is_saved (const DryHistory *self);
/* The state last marked, which the list may have dropped since; NULL before the first mark. */
const DryProject *dry_history_get_saved (const DryHistory *self);
