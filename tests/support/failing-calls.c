/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The stand-ins of failing-calls.h: each goes straight to the kernel unless it is to fail.
 * They know nothing of who calls them, so a test keeps the time short in which one is set. */
#undef _FORTIFY_SOURCE
#define _GNU_SOURCE

#include "support/failing-calls.h"

#include <errno.h>
#include <fcntl.h>
#include <stdarg.h>
#include <string.h>
#include <sys/file.h>
#include <sys/stat.h>
#include <sys/syscall.h>
#include <unistd.h>

static const char *failing;
static gint failing_nth, failing_error;
static gint n_calls, n_failed; /* atomic: a journal's threads call, too */

void
dry_test_fail (const char *call, gint nth, gint error)
{
  failing = NULL;
  failing_nth = nth;
  failing_error = error;
  g_atomic_int_set (&n_calls, 0);
  g_atomic_int_set (&n_failed, 0);
  g_atomic_pointer_set (&failing, call);
}

gint
dry_test_fail_end (void)
{
  g_atomic_pointer_set (&failing, NULL);
  return g_atomic_int_get (&n_failed);
}

static gboolean
is_chosen (const char *call)
{
  const char *wanted = g_atomic_pointer_get (&failing);
  gint n;

  if (wanted == NULL || strcmp (wanted, call) != 0)
    return FALSE;
  n = g_atomic_int_add (&n_calls, 1) + 1;
  if (failing_nth != 0 && n != failing_nth)
    return FALSE;
  g_atomic_int_inc (&n_failed);
  return TRUE;
}

static gboolean
fails (const char *call)
{
  if (!is_chosen (call))
    return FALSE;
  errno = failing_error;
  return TRUE;
}

/* As always after close(): the descriptor is gone, whatever it says. */
int
close (int fd)
{
  int answer = (int) syscall (SYS_close, fd);

  return fails ("close") ? -1 : answer;
}

int
fchmod (int fd, mode_t mode)
{
  return fails ("fchmod") ? -1 : (int) syscall (SYS_fchmod, fd, mode);
}

int
fchown (int fd, uid_t owner, gid_t group)
{
  return fails ("fchown") ? -1 : (int) syscall (SYS_fchown, fd, owner, group);
}

int
fdatasync (int fd)
{
  return fails ("fdatasync") ? -1 : (int) syscall (SYS_fdatasync, fd);
}

int
flock (int fd, int operation)
{
  return fails ("flock") ? -1 : (int) syscall (SYS_flock, fd, operation);
}

int
fsync (int fd)
{
  return fails ("fsync") ? -1 : (int) syscall (SYS_fsync, fd);
}

int
ftruncate (int fd, off_t length)
{
  return fails ("ftruncate") ? -1 : (int) syscall (SYS_ftruncate, fd, length);
}

int
open (const char *path, int flags, ...)
{
  mode_t mode = 0;
  va_list arguments;

  va_start (arguments, flags);
  if ((flags & O_CREAT) != 0 || (flags & O_TMPFILE) == O_TMPFILE)
    mode = va_arg (arguments, mode_t);
  va_end (arguments);
  return fails ("open") ? -1 : (int) syscall (SYS_openat, AT_FDCWD, path, flags, mode);
}

ssize_t
pwrite (int fd, const void *bytes, size_t length, off_t at)
{
  if (is_chosen ("pwrite")) {
    errno = failing_error;
    if (failing_error != 0)
      return -1;
    length = (length + 1) / 2;
  }
  return syscall (SYS_pwrite64, fd, bytes, length, at);
}

ssize_t
read (int fd, void *bytes, size_t length)
{
  return fails ("read") ? -1 : syscall (SYS_read, fd, bytes, length);
}

ssize_t
write (int fd, const void *bytes, size_t length)
{
  if (is_chosen ("write")) {
    errno = failing_error;
    if (failing_error != 0)
      return -1;
    length = (length + 1) / 2;
  }
  return syscall (SYS_write, fd, bytes, length);
}
