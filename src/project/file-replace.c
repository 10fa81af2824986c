/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Replaces files atomically and durably, and tidies up after processes killed while they did so.
 * Knows nothing of what is in a file. */
#define G_LOG_DOMAIN "drybay-project"

#include "project/file-replace.h"

#include <errno.h>
#include <fcntl.h>
#include <string.h>
#include <sys/file.h>
#include <sys/stat.h>
#include <unistd.h>

#include "base/error.h"

/* A temporary file is called ".NAME" MARK and as many letters or digits as there are X. */
#define MARK        ".saving-"
#define RANDOM_PART "XXXXXX"
#define MOST_TRIES  16

static gboolean
fail_with_errno (GError **error, const char *path, const char *what)
{
  int saved = errno;
  g_autofree char *name = g_filename_display_name (path);

  g_set_error (error, DRY_ERROR, DRY_ERROR_FILE, "%s: %s: %s", name, what, g_strerror (saved));
  return FALSE;
}

/* --- temporary files --- */

/* A name may already be as long as names may be. */
static char *
make_start (const char *path)
{
  g_autofree char *base = g_path_get_basename (path);

  return g_strdup_printf (".%.100s" MARK, base);
}

/* `start` as make_start() gives it, or NULL for any. */
static gboolean
is_temporary (const char *name, const char *start)
{
  const char *mark = g_strrstr (name, MARK);
  const char *rest;

  if (mark == NULL || name[0] != '.' || (start != NULL && !g_str_has_prefix (name, start)))
    return FALSE;
  rest = mark + strlen (MARK);
  if (start != NULL && rest != name + strlen (start))
    return FALSE;
  for (const char *p = rest; *p != '\0'; p++)
    if (!g_ascii_isalnum (*p))
      return FALSE;
  return strlen (rest) == strlen (RANDOM_PART);
}

/* A lock dies with its process: a file that can be locked belongs to nobody any more. Where there
 * are no locks nothing is deleted. */
static void
delete_if_left (const char *file)
{
  int fd = g_open (file, O_RDWR | O_NOFOLLOW | O_NONBLOCK | O_CLOEXEC, 0);
  GStatBuf now;

  if (fd < 0)
    return;
  if (fstat (fd, &now) == 0 && S_ISREG (now.st_mode) && flock (fd, LOCK_EX | LOCK_NB) == 0)
    g_unlink (file);
  close (fd);
}

static void
delete_leftovers (const char *folder, const char *start)
{
  g_autoptr (GDir) dir = g_dir_open (folder, 0, NULL);
  const char *name;

  while (dir != NULL && (name = g_dir_read_name (dir)) != NULL)
    if (is_temporary (name, start)) {
      g_autofree char *file = g_build_filename (folder, name, NULL);

      delete_if_left (file);
    }
}

/* FALSE when someone tidying up was quicker than the lock. */
static gboolean
lock_own (int fd)
{
  GStatBuf now;

  if (flock (fd, LOCK_EX | LOCK_NB) != 0 && errno == EWOULDBLOCK)
    return FALSE;
  return fstat (fd, &now) != 0 || now.st_nlink > 0;
}

static int
make_temporary (const char *folder, const char *start, int mode, char **temporary)
{
  for (int i = 0; i < MOST_TRIES; i++) {
    g_autofree char *hidden = g_strconcat (start, RANDOM_PART, NULL);
    g_autofree char *name = g_build_filename (folder, hidden, NULL);
    int fd = g_mkstemp_full (name, O_RDWR | O_CLOEXEC, mode);

    if (fd < 0)
      return -1;
    if (lock_own (fd)) {
      *temporary = g_steal_pointer (&name);
      return fd;
    }
    g_unlink (name);
    close (fd);
  }
  errno = EBUSY;
  return -1;
}

/* --- filling and renaming --- */

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

gboolean
dry_file_replace (const char *path, const char *text, gsize length, const GStatBuf *old,
                  gboolean own_folder, GError **error)
{
  g_autofree char *folder = g_path_get_dirname (path);
  g_autofree char *start = make_start (path), *temporary = NULL;
  int fd, holder;
  gboolean done;

  delete_leftovers (folder, own_folder ? NULL : start);
  fd = make_temporary (folder, start, old != NULL || own_folder ? 0600 : 0666, &temporary);
  if (fd < 0)
    return fail_with_errno (error, path, "cannot save: the folder cannot be written");
  /* Holds the lock until the file has its name: it is closed before, to hear of late errors. */
  holder = fcntl (fd, F_DUPFD_CLOEXEC, 0);
  done = fill_temporary (fd, text, length, old) && g_rename (temporary, path) == 0;
  if (!done) {
    fail_with_errno (error, path, "cannot save");
    g_unlink (temporary);
  }
  if (holder >= 0)
    close (holder);
  if (done && !sync_folder (folder))
    return fail_with_errno (error, path, "saved, but the disk did not confirm it");
  return done;
}
