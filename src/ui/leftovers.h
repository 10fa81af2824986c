/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Where this person's journals and versions lie, and the rows that offer unsaved work after a
 * crash. Knows files and widgets; taking work over is the window's. */
#pragma once

#include <adwaita.h>

#include "project/journal.h"

G_BEGIN_DECLS

/* Folders of this person's; free them. */
char *dry_leftovers_dup_journals (void);
char *dry_leftovers_dup_versions (void);

/* Fills `group` with a row for each document left unsaved, and shows it when there is one; `rows`
 * holds what it made before. The rows do win.recover and win.forget-leftover. */
void dry_leftovers_fill (AdwPreferencesGroup *group, GPtrArray *rows);
/* The newest journal left over for the document at `path`, or NULL. Free it. */
char *dry_leftovers_find (const char *path);

/* Puts a journal out of sight, so that it can be brought back for a while. */
void dry_leftovers_forget (const char *file);
void dry_leftovers_bring_back (const char *file);
/* Deletes what was forgotten in earlier runs. */
void dry_leftovers_clean (void);

G_END_DECLS
