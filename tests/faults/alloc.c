/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Preloaded into a program: the N-th allocation fails. Counts from the
 * mark of program.c on, or from the start; tells at the end how many there were. Knows nothing of
 * what the program does.
 *
 * DRYBAY_ALLOC=N fails the N-th (0: none); DRYBAY_ALLOC_MARK=1 counts between the marks only;
 * DRYBAY_ALLOC_REPORT names a file for the number of allocations. */
#define _GNU_SOURCE
#include <dlfcn.h>
#include <errno.h>
#include <execinfo.h>
#include <fcntl.h>
#include <signal.h>
#include <stdatomic.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

void *__libc_malloc (size_t size);
void *__libc_calloc (size_t n, size_t size);
void *__libc_realloc (void *old, size_t size);
void *__libc_memalign (size_t alignment, size_t size);

static atomic_int counting;
static atomic_long count;
static long wanted = -1;

static long
read_number (const char *name)
{
  const char *text = getenv (name);
  long number = 0;

  for (; text != NULL && *text >= '0' && *text <= '9'; text++)
    number = number * 10 + (*text - '0');
  return number;
}

/* Which library touched what it did not have: told on standard error, one frame a line. */
static void
tell_where (int number)
{
  void *frames[12];
  int n;

  atomic_store (&counting, 0);
  n = backtrace (frames, 12);
  backtrace_symbols_fd (frames, n, 2);
  signal (number, SIG_DFL);
  raise (number);
}

__attribute__ ((constructor)) static void
begin (void)
{
  void *frame;

  (void) backtrace (&frame, 1); /* it loads a library at its first call */
  signal (SIGSEGV, tell_where);
  wanted = read_number ("DRYBAY_ALLOC");
  atomic_store (&counting, read_number ("DRYBAY_ALLOC_MARK") == 0);
}

__attribute__ ((destructor)) static void
report (void)
{
  const char *name = getenv ("DRYBAY_ALLOC_REPORT");
  char digits[24], *at = digits + sizeof digits;
  long n = atomic_load (&count);
  int fd;

  atomic_store (&counting, 0);
  if (name == NULL || (fd = open (name, O_WRONLY | O_CREAT | O_TRUNC, 0600)) < 0)
    return;
  do
    *--at = (char) ('0' + n % 10);
  while ((n /= 10) > 0);
  if (write (fd, at, (size_t) (digits + sizeof digits - at)) < 0)
    _exit (97);
  close (fd);
}

static int
must_fail (void)
{
  long number;

  if (!atomic_load (&counting))
    return 0;
  number = atomic_fetch_add (&count, 1) + 1;
  if (wanted <= 0 || number != wanted)
    return 0;
  errno = ENOMEM;
  return 1;
}

void *
malloc (size_t size)
{
  return must_fail () ? NULL : __libc_malloc (size);
}

void *
calloc (size_t n, size_t size)
{
  return must_fail () ? NULL : __libc_calloc (n, size);
}

void *
realloc (void *old, size_t size)
{
  return must_fail () ? NULL : __libc_realloc (old, size);
}

int
posix_memalign (void **out, size_t alignment, size_t size)
{
  void *block = must_fail () ? NULL : __libc_memalign (alignment, size);

  if (block == NULL)
    return ENOMEM;
  *out = block;
  return 0;
}

void *
aligned_alloc (size_t alignment, size_t size)
{
  return must_fail () ? NULL : __libc_memalign (alignment, size);
}

/* The marks of program.c. */
int
access (const char *path, int mode)
{
  static int (*real) (const char *, int);

  if (real == NULL)
    *(void **) &real = dlsym (RTLD_NEXT, "access");
  if (read_number ("DRYBAY_ALLOC_MARK") != 0 && strcmp (path, "/drybay-begin") == 0)
    atomic_store (&counting, 1);
  else if (strcmp (path, "/drybay-end") == 0)
    atomic_store (&counting, 0);
  return real (path, mode);
}
