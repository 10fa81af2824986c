/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A file replaced so that at any moment the old one or the new one is there, never a mixture.
 * Knows nothing of what is in it. */
#pragma once

#include <glib.h>
#include <glib/gstdio.h>

/* Writes the bytes to a temporary file beside `path`, syncs it, renames it and syncs the folder.
 * `old` is the state of the file to be replaced, whose mode and owner are kept, or NULL when there
 * is none. `own_folder`: the folder is the program's alone, so the file is for its owner only.
 * Temporary files that a killed process left behind are deleted first: those of the same name, or
 * any in an own folder. The running ones of other processes are locked and stay.
 * Errors: DRY_ERROR_FILE; then the old file is as it was, except when the error says "saved, but".
 */
gboolean dry_file_replace (const char *path, const char *text, gsize length, const GStatBuf *old,
                           gboolean own_folder, GError **error);
