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

/* What a file of a newer version of the format says that this one does not know. */
typedef struct {
  gint version;        /* of the file; 0 when it is not newer, and then nothing is left out */
  GPtrArray *left_out; /* of char *, "rooms[0].parts[3].kind: unknown word “mirror”"; NULL = none */
} DryNewer;

void dry_newer_clear (DryNewer *self);
G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (DryNewer, dry_newer_clear)

/* Reads a project from text. `name` appears in errors ("name: rooms[0].walls[2].start: ...").
 * Checks types, ranges, references and the outline; errors as in base/json.h plus REFERENCE,
 * GEOMETRY, VERSION. */
DryProject *dry_project_from_text (const char *text, gsize length, const char *name,
                                   GError **error);
/* The same for showing it: a file of a newer version is read, too, when its "least_reader" (1 when
 * it has none) is not above this version. Unknown fields are left out, unknown words are taken for
 * the default, parts and openings of an unknown kind are missing; `newer` says all of that, and
 * that saving the project over the file would lose it. Clear `newer` afterwards, also on error. */
DryProject *dry_project_from_newer_text (const char *text, gsize length, const char *name,
                                         DryNewer *newer, GError **error);
char *dry_project_to_text (const DryProject *self, gsize *length) G_GNUC_WARN_UNUSED_RESULT;

/* Whole files. Saving writes a new file beside the old, syncs, keeps mode and symlink, and renames.
 */
DryProject *dry_project_load (const char *path, GError **error);
DryProject *dry_project_load_newer (const char *path, DryNewer *newer, GError **error);
gboolean dry_project_save (const DryProject *self, const char *path, GError **error);
