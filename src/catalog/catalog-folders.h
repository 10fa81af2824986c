/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The catalogue's only touch with disk and environment: which folders, which files, their bytes.
 * It does not know what is in them. */
#pragma once

#include <glib.h>

/* The firm's own folder, XDG data home/drybay/catalog, there or not. Free with g_free(). */
char *dry_catalog_dup_own_folder (void) G_GNUC_WARN_UNUSED_RESULT;
/* Full names of the *.json files in folder/part, in byte order of their names; none when the part
 * is missing. DRY_ERROR_FILE when `folder` itself is no folder or cannot be listed. */
GPtrArray *dry_catalog_list_files (const char *folder, const char *part,
                                   GError **error) G_GNUC_WARN_UNUSED_RESULT;
/* The bytes of a file, within the size any JSON text may have. g_free() them. */
char *dry_catalog_read_file (const char *path, gsize *length,
                             GError **error) G_GNUC_WARN_UNUSED_RESULT;
