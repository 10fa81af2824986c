/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Whole files or none: what Cairo wrote is replaced on disk in one step.
 * The only file of the papers floor that touches the disk. */
#include "papers/output.h"

cairo_status_t
dry_output_collect (void *bytes, const unsigned char *data, unsigned int length)
{
  g_byte_array_append (bytes, data, length);
  return CAIRO_STATUS_SUCCESS;
}

gboolean
dry_output_write (const char *path, const void *data, gsize length, GError **error)
{
  g_autoptr (GError) reason = NULL;

  if (g_file_set_contents_full (path, data, (gssize) length, G_FILE_SET_CONTENTS_CONSISTENT, 0666,
                                &reason))
    return TRUE;
  g_set_error (error, DRY_ERROR, DRY_ERROR_FILE, "%s: %s", path, reason->message);
  return FALSE;
}

gboolean
dry_output_finish (cairo_t *cr, cairo_surface_t *surface, GByteArray *bytes, const char *path,
                   GError **error)
{
  cairo_status_t status = cairo_status (cr);

  cairo_destroy (cr);
  cairo_surface_finish (surface);
  if (status == CAIRO_STATUS_SUCCESS)
    status = cairo_surface_status (surface);
  cairo_surface_destroy (surface);
  if (status != CAIRO_STATUS_SUCCESS) {
    g_set_error (error, DRY_ERROR, DRY_ERROR_FILE, "%s: drawing failed: %s", path,
                 cairo_status_to_string (status));
    return FALSE;
  }
  return dry_output_write (path, bytes->data, bytes->len, error);
}
