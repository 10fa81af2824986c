/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The last versions of a saved file, kept in a folder of their own, and the mark by which a file
 * changed by someone else is noticed. Knows files, not what is in a project; the clock is the
 * caller's. */
#pragma once

#include "project/project.h"

#define DRY_VERSIONS_KEPT 10

/* What a file held when it was last read or written here. */
typedef struct {
  gboolean exists;
  char digest[65]; /* SHA-256 of its bytes, in hex */
} DryFileMark;

/* Errors: DRY_ERROR_FILE when the file is there but cannot be read. */
gboolean dry_file_mark_take (const char *path, DryFileMark *mark, GError **error);
/* The mark a file with these bytes has. */
void dry_file_mark_of_text (const char *text, gsize length, DryFileMark *mark);
gboolean dry_file_mark_equal (const DryFileMark *a, const DryFileMark *b);

/* Keeps `text`, just written to `path`, as its newest version in `folder` (made when missing) under
 * `stamp`, a time that sorts as text ("2026-11-25T12-50-15"); the eleventh oldest goes. The same
 * bytes as the version before are not kept twice. Errors: DRY_ERROR_FILE. */
gboolean dry_versions_keep (const char *folder, const char *path, const char *stamp,
                            const char *text, gsize length, GError **error);

typedef struct {
  char *stamp;
  char *file;
} DryVersion;

void dry_version_free (DryVersion *self);

/* The kept versions of the file at `path`, newest first. Never NULL. */
GPtrArray *dry_versions_list (const char *folder, const char *path) G_GNUC_WARN_UNUSED_RESULT;
