/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The file format of a project (.drybay, JSON, millimetres) and safe reading and writing of files.
 * Same project, same bytes, in any locale; unknown fields of a room survive a re-save. */
#pragma once

#include "project/project.h"

#define DRY_FILE_FORMAT  "drybay-project"
#define DRY_FILE_VERSION 1

#define DRY_MAX_ROOMS 2000
#define DRY_MAX_WALLS 256  /* a room */
#define DRY_MAX_PARTS 2000 /* a room */
#define DRY_MAX_SEAMS 500  /* wished in a room, and rows of boards on hand */

/* Reads a project from text. `name` appears in errors ("name: rooms[0].walls[2].start: ...").
 * Checks types, ranges, references and the outline; errors as in base/json.h plus REFERENCE,
 * GEOMETRY, VERSION. */
DryProject *dry_project_from_text (const char *text, gsize length, const char *name,
                                   GError **error);
char *dry_project_to_text (const DryProject *self, gsize *length) G_GNUC_WARN_UNUSED_RESULT;

/* Whole files. Saving writes a new file beside the old, syncs, keeps mode and symlink, and renames.
 */
DryProject *dry_project_load (const char *path, GError **error);
gboolean dry_project_save (const DryProject *self, const char *path, GError **error);
