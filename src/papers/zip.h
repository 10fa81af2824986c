/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Just enough of ZIP archives for a workbook: files stored or deflated, in memory. Dates are fixed,
 * so the same files give the same bytes. Private to the papers floor. */
#pragma once

#include <gio/gio.h>

typedef struct _DryZipWriter DryZipWriter;

DryZipWriter *dry_zip_writer_new (void) G_GNUC_WARN_UNUSED_RESULT;
void dry_zip_writer_add (DryZipWriter *self, const char *name, const char *text);
GBytes *dry_zip_writer_finish (DryZipWriter *self) G_GNUC_WARN_UNUSED_RESULT; /* frees it */

/* The file of that name in the archive, unpacked and its sum checked; NULL without an error when it
 * is not there. Errors: DRY_ERROR_SYNTAX, DRY_ERROR_LIMIT (more than `most` bytes). */
GBytes *dry_zip_read (gconstpointer data, gsize length, const char *name, gsize most,
                      GError **error) G_GNUC_WARN_UNUSED_RESULT;
