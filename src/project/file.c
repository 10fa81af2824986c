/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Whole project files: reading with a cap, and saving to the file behind a link. How a file is
 * replaced safely is file-replace.c's work; what is in a project, the readers'. */
#define G_LOG_DOMAIN "drybay-project"

#include "project/file.h"

#include <errno.h>
#include <fcntl.h>
#include <glib/gstdio.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include "base/json.h"
#include "project/file-replace.h"

#define MAX_LINKS 40

static gboolean
fail_with_errno (GError **error, const char *path, const char *what)
{
  int saved = errno;
  g_autofree char *name = g_filename_display_name (path);

  g_set_error (error, DRY_ERROR, DRY_ERROR_FILE, "%s: %s: %s", name, what, g_strerror (saved));
  return FALSE;
}

static gboolean
fail_with_text (GError **error, DryErrorCode code, const char *path, const char *what)
{
  g_autofree char *name = g_filename_display_name (path);

  g_set_error (error, DRY_ERROR, code, "%s: %s", name, what);
  return FALSE;
}

static gboolean
read_all (int fd, const char *path, GByteArray *bytes, GError **error)
{
  guint8 block[65536];

  while (TRUE) {
    gssize got = read (fd, block, sizeof block);

    if (got < 0 && errno == EINTR)
      continue;
    if (got < 0)
      return fail_with_errno (error, path, "cannot read");
    if (got == 0)
      return TRUE;
    g_byte_array_append (bytes, block, (guint) got);
    if (bytes->len > DRY_JSON_MAX_BYTES)
      return fail_with_text (error, DRY_ERROR_LIMIT, path, "the file is larger than 16 MB");
  }
}

static GByteArray *
read_file (const char *path, GError **error)
{
  g_autoptr (GByteArray) bytes = g_byte_array_new ();
  int fd = g_open (path, O_RDONLY | O_CLOEXEC, 0);
  gboolean whole;

  if (fd < 0) {
    fail_with_errno (error, path, "cannot open");
    return NULL;
  }
  whole = read_all (fd, path, bytes, error);
  close (fd);
  return whole ? g_steal_pointer (&bytes) : NULL;
}

DryProject *
dry_project_load (const char *path, GError **error)
{
  g_autoptr (GByteArray) bytes = read_file (path, error);
  g_autofree char *name = g_filename_display_name (path);

  if (bytes == NULL)
    return NULL;
  return dry_project_from_text ((const char *) bytes->data, bytes->len, name, error);
}

DryProject *
dry_project_load_newer (const char *path, DryNewer *newer, GError **error)
{
  g_autoptr (GByteArray) bytes = read_file (path, error);
  g_autofree char *name = g_filename_display_name (path);

  if (bytes == NULL)
    return NULL;
  return dry_project_from_newer_text ((const char *) bytes->data, bytes->len, name, newer, error);
}

/* The file behind any chain of symbolic links, which need not exist yet. */
static char *
follow_links (const char *path, GError **error)
{
  g_autofree char *at = g_strdup (path);

  for (int i = 0; i < MAX_LINKS; i++) {
    g_autofree char *target = g_file_read_link (at, NULL);
    g_autofree char *folder = NULL;
    char *next;

    if (target == NULL)
      return g_steal_pointer (&at);
    folder = g_path_get_dirname (at);
    next =
        g_path_is_absolute (target) ? g_strdup (target) : g_build_filename (folder, target, NULL);
    g_free (at);
    at = next;
  }
  errno = ELOOP;
  fail_with_errno (error, path, "cannot save");
  return NULL;
}

/* `old` gets the state of the file to be replaced; `exists` whether there is one. */
static gboolean
inspect_old (const char *path, GStatBuf *old, gboolean *exists, GError **error)
{
  *exists = g_stat (path, old) == 0;
  if (!*exists)
    return errno == ENOENT ? TRUE : fail_with_errno (error, path, "cannot save");
  if (!S_ISREG (old->st_mode))
    return fail_with_text (error, DRY_ERROR_FILE, path, "cannot save: not a plain file");
  /* A file marked read-only is not to be replaced, even where its folder would allow it. */
  if (faccessat (AT_FDCWD, path, W_OK, AT_EACCESS) != 0)
    return fail_with_errno (error, path, "cannot save");
  return TRUE;
}

gboolean
dry_project_save (const DryProject *self, const char *path, GError **error)
{
  g_autofree char *target = NULL, *text = NULL;
  g_autoptr (DryProject) again = NULL;
  gboolean exists;
  gsize length;
  GStatBuf old;

  text = dry_project_to_text (self, &length);
  /* A file that could not be opened again is never written over a good one. */
  again = dry_project_from_text (text, length, path, error);
  if (again == NULL)
    return FALSE;
  target = follow_links (path, error);
  if (target == NULL || !inspect_old (target, &old, &exists, error))
    return FALSE;
  return dry_file_replace (target, text, length, exists ? &old : NULL, FALSE, error);
}
