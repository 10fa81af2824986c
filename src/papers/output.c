/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Whole files or none: what Cairo wrote is replaced on disk in one step, behind any link; devices
 * and pipes are written to, never replaced. The only file of the papers floor that touches the
 * disk. */
#include "papers/output.h"

#include <errno.h>
#include <fcntl.h>
#include <glib/gstdio.h>
#include <unistd.h>

#include "project/file-replace.h"

cairo_status_t
dry_output_collect (void *bytes, const unsigned char *data, unsigned int length)
{
  g_byte_array_append (bytes, data, length);
  return CAIRO_STATUS_SUCCESS;
}

static gboolean
write_into (const char *path, const guint8 *data, gsize length)
{
  int fd = g_open (path, O_WRONLY | O_CLOEXEC, 0);
  gsize done = 0;

  if (fd < 0)
    return FALSE;
  while (done < length) {
    gssize put = write (fd, data + done, length - done);

    if (put < 0 && errno == EINTR)
      continue;
    if (put < 0)
      break;
    done += (gsize) put;
  }
  return close (fd) == 0 && done == length;
}

gboolean
dry_output_write (const char *path, const void *data, gsize length, GError **error)
{
  g_autofree char *behind = NULL;
  GStatBuf now;
  gboolean exists = g_stat (path, &now) == 0;

  if (exists) {
    char *real = realpath (path, NULL);

    behind = g_strdup (real);
    free (real);
    if (!S_ISREG (now.st_mode)) {
      if (write_into (path, data, length))
        return TRUE;
      g_set_error (error, DRY_ERROR, DRY_ERROR_FILE, "%s: %s", path, g_strerror (errno));
      return FALSE;
    }
  }
  return dry_file_replace (behind != NULL ? behind : path, data, length, exists ? &now : NULL,
                           FALSE, error);
}

/* Cairo 1.16 lets some failures of its last step go unsaid (no memory for a font's letters, say)
 * and simply writes no more: only the end of the text tells that all of it is there. */
static gboolean
has_end (const GByteArray *bytes, const char *end)
{
  gsize n = strlen (end), length = bytes->len;

  while (length > 0 && g_ascii_isspace (bytes->data[length - 1]))
    length--;
  return length >= n && memcmp (bytes->data + length - n, end, n) == 0;
}

gboolean
dry_output_close (cairo_t *cr, cairo_surface_t *surface, const GByteArray *bytes, const char *end,
                  const char *path, GError **error)
{
  cairo_status_t status = cairo_status (cr);

  cairo_destroy (cr);
  cairo_surface_finish (surface);
  if (status == CAIRO_STATUS_SUCCESS)
    status = cairo_surface_status (surface);
  cairo_surface_destroy (surface);
  if (status == CAIRO_STATUS_SUCCESS && !has_end (bytes, end))
    status = CAIRO_STATUS_NO_MEMORY;
  if (status == CAIRO_STATUS_SUCCESS)
    return TRUE;
  g_set_error (error, DRY_ERROR, DRY_ERROR_FILE, "%s: drawing failed: %s", path,
               cairo_status_to_string (status));
  return FALSE;
}
