/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Whole files: reading with a cap, and saving so that at any moment the old file or the new one is
 * there, never a mixture. Knows nothing of what is in a project. */
#define G_LOG_DOMAIN "drybay-project"

#include "project/file.h"

#include <errno.h>
#include <fcntl.h>
#include <glib/gstdio.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include "base/json.h"

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

DryProject *
dry_project_load (const char *path, GError **error)
{
  g_autoptr (GByteArray) bytes = g_byte_array_new ();
  g_autofree char *name = g_filename_display_name (path);
  int fd = g_open (path, O_RDONLY | O_CLOEXEC, 0);
  gboolean whole;

  if (fd < 0) {
    fail_with_errno (error, path, "cannot open");
    return NULL;
  }
  whole = read_all (fd, path, bytes, error);
  close (fd);
  return whole ? dry_project_from_text ((const char *) bytes->data, bytes->len, name, error) : NULL;
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

static gboolean
write_all (int fd, const char *text, gsize length)
{
  gsize done = 0;

  while (done < length) {
    gssize put = write (fd, text + done, length - done);

    if (put < 0 && errno == EINTR)
      continue;
    if (put < 0)
      return FALSE;
    done += (gsize) put;
  }
  return TRUE;
}

/* The owner cannot always be kept (only root may give files away); the mode can and must be. */
static gboolean
keep_owner_and_mode (int fd, const GStatBuf *old)
{
  if (fchown (fd, old->st_uid, old->st_gid) != 0 && fchown (fd, (uid_t) -1, old->st_gid) != 0)
    g_debug ("owner and group not kept: %s", g_strerror (errno));
  return fchmod (fd, old->st_mode & 07777) == 0;
}

static gboolean
fill_temporary (int fd, const char *text, gsize length, const GStatBuf *old)
{
  gboolean done = write_all (fd, text, length) && (old == NULL || keep_owner_and_mode (fd, old)) &&
                  fsync (fd) == 0;
  int saved = errno;

  /* After a failed sync the same descriptor must not be trusted again: the caller starts over. */
  if (close (fd) != 0 && done)
    return FALSE;
  if (!done)
    errno = saved;
  return done;
}

/* The new name must reach the disk, too. Some file systems cannot sync a folder: no error. */
static gboolean
sync_folder (const char *folder)
{
  int fd = g_open (folder, O_RDONLY | O_DIRECTORY | O_CLOEXEC, 0);
  gboolean done;

  if (fd < 0)
    return errno == EACCES;
  done = fsync (fd) == 0 || errno == EINVAL || errno == ENOTSUP;
  close (fd);
  return done;
}

static gboolean
replace_file (const char *path, const char *text, gsize length, const GStatBuf *old, GError **error)
{
  g_autofree char *folder = g_path_get_dirname (path);
  g_autofree char *base = g_path_get_basename (path);
  /* A name may already be as long as names may be. */
  g_autofree char *hidden = g_strdup_printf (".%.100s.XXXXXX", base);
  g_autofree char *temporary = g_build_filename (folder, hidden, NULL);
  int fd = g_mkstemp_full (temporary, O_RDWR | O_CLOEXEC, old != NULL ? 0600 : 0666);

  if (fd < 0)
    return fail_with_errno (error, path, "cannot save: the folder cannot be written");
  if (!fill_temporary (fd, text, length, old) || g_rename (temporary, path) != 0) {
    fail_with_errno (error, path, "cannot save");
    g_unlink (temporary);
    return FALSE;
  }
  if (!sync_folder (folder))
    return fail_with_errno (error, path, "saved, but the disk did not confirm it");
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
  return replace_file (target, text, length, exists ? &old : NULL, error);
}
