/* SPDX-License-Identifier: GPL-3.0-or-later */
/* From a Cairo surface to a whole file: gathered in memory, written at one go, or not at all.
 * Private to the papers floor. */
#pragma once

#include "papers/papers.h"

/* A cairo_write_func_t; the closure is a GByteArray. */
cairo_status_t dry_output_collect (void *bytes, const unsigned char *data, unsigned int length);
/* Ends drawing and frees both. What was gathered must end in `end`, white space aside: a library
 * that ran out of memory may stop half way and say nothing. DRY_ERROR_FILE names path and reason.
 */
gboolean dry_output_close (cairo_t *cr, cairo_surface_t *surface, const GByteArray *bytes,
                           const char *end, const char *path, GError **error);
/* The pages as one PDF, with an outline where rooms are planned; `title` and `subject` go into its
 * data. DRY_ERROR_FILE names path and reason. */
gboolean dry_papers_write_pdf (const DryPapers *self, const char *title, const char *subject,
                               const char *path, GError **error);
gboolean dry_output_write (const char *path, const void *data, gsize length, GError **error);
