/* SPDX-License-Identifier: GPL-3.0-or-later */
/* From a Cairo surface to a whole file: gathered in memory, written at one go, or not at all.
 * Private to the papers floor. */
#pragma once

#include "papers/papers.h"

/* A cairo_write_func_t; the closure is a GByteArray. */
cairo_status_t dry_output_collect (void *bytes, const unsigned char *data, unsigned int length);
/* Ends drawing, frees both, and writes what was gathered. DRY_ERROR_FILE names path and reason. */
gboolean dry_output_finish (cairo_t *cr, cairo_surface_t *surface, GByteArray *bytes,
                            const char *path, GError **error);
gboolean dry_output_write (const char *path, const void *data, gsize length, GError **error);
void dry_papers_set_metadata (cairo_surface_t *surface, const char *title, const char *subject,
                              const char *date);
