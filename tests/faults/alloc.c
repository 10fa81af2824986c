/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Preloaded into a program: the N-th allocation fails. Counts from the
 * mark of program.c on, or from the start; tells at the end how many there were. Knows nothing of
 * what the program does.
 *
 * DRYBAY_ALLOC=N fails the N-th (0: none); DRYBAY_ALLOC_MARK=1 counts between the marks only;
 * DRYBAY_ALLOC_REPORT names a file for the number of allocations and whether one was failed;
 * DRYBAY_ALLOC_DEPTH tells allocations apart by that many callers: the report begins with a line of
 * number and path for the first of each. With DRYBAY_ALLOC_PATH that path fails instead, once, from
 * a little before N on: threads let the numbers of one run be others in the next. For that
 * addresses must be the same in both, as by setarch -R. */
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

#define LEAST_DEPTH 4 /* frames of which an address decides, after this library's own two */
#define MOST_DEPTH  24
#define SLACK       5000 /* allocations by which two runs may differ */
#define MOST_PATHS  (1 << 18)

static atomic_int counting;
static atomic_long count;
static atomic_int failed;
static long wanted = -1;
static uint64_t wanted_path; /* 0 = any */
static int depth;            /* 0 = paths are not told apart */
static int paths_fd = -1;
static _Atomic uint64_t known[MOST_PATHS]; /* hashes of paths, open addressing */
static _Thread_local int looking;

static uint64_t
read_large_number (const char *name)
{
  const char *text = getenv (name);
  uint64_t number = 0;

  for (; text != NULL && *text >= '0' && *text <= '9'; text++)
    number = number * 10 + (uint64_t) (*text - '0');
  return number;
}

static long
read_number (const char *name)
{
  return (long) read_large_number (name);
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
  wanted_path = read_large_number ("DRYBAY_ALLOC_PATH");
  depth = (int) read_number ("DRYBAY_ALLOC_DEPTH");
  if (depth > 0) {
    depth = depth < LEAST_DEPTH ? LEAST_DEPTH : depth > MOST_DEPTH ? MOST_DEPTH : depth;
    paths_fd = open (getenv ("DRYBAY_ALLOC_REPORT"), O_WRONLY | O_CREAT | O_TRUNC | O_APPEND, 0600);
  }
  atomic_store (&counting, read_number ("DRYBAY_ALLOC_MARK") == 0);
}

static char *
put_number (char *at, uint64_t number)
{
  do
    *--at = (char) ('0' + number % 10);
  while ((number /= 10) > 0);
  return at;
}

static void
write_line (int fd, long number, uint64_t second)
{
  char line[64], *end = line + sizeof line, *at = end;

  *--at = '\n';
  at = put_number (at, second);
  *--at = ' ';
  at = put_number (at, (uint64_t) number);
  if (write (fd, at, (size_t) (end - at)) < 0)
    _exit (97);
}

__attribute__ ((destructor)) static void
report (void)
{
  const char *name = getenv ("DRYBAY_ALLOC_REPORT");
  int fd = paths_fd;

  atomic_store (&counting, 0);
  if (name == NULL || (fd < 0 && (fd = open (name, O_WRONLY | O_CREAT | O_TRUNC, 0600)) < 0))
    return;
  write_line (fd, atomic_load (&count), (uint64_t) atomic_load (&failed));
  close (fd);
}

/* FNV-1a of the return addresses. */
static uint64_t
hash_path (void)
{
  void *frames[MOST_DEPTH + 3];
  int n = backtrace (frames, depth + 3);
  uint64_t hash = 14695981039346656037U;

  for (int i = 3; i < n; i++)
    hash = (hash ^ (uint64_t) (uintptr_t) frames[i]) * 1099511628211U;
  return hash | 1;
}

/* A full table counts every path as new. */
static int
is_new (uint64_t hash)
{
  for (unsigned i = 0; i < MOST_PATHS; i++) {
    uint64_t there = 0;

    if (atomic_compare_exchange_strong (&known[(hash + i) % MOST_PATHS], &there, hash))
      return 1;
    if (there == hash)
      return 0;
  }
  return 1;
}

/* Whether the path of this allocation is the one that must fail. */
static int
look_at_path (long number)
{
  int fails = 0;

  if (looking || (wanted_path != 0 && number < wanted - SLACK))
    return 0;
  looking = 1;
  if (wanted_path != 0)
    fails = atomic_load (&failed) == 0 && hash_path () == wanted_path;
  else {
    uint64_t hash = hash_path ();

    if (is_new (hash))
      write_line (paths_fd, number, hash);
  }
  looking = 0;
  return fails;
}

static int
must_fail (void)
{
  long number;
  int fails;

  if (!atomic_load (&counting))
    return 0;
  number = atomic_fetch_add (&count, 1) + 1;
  fails = depth > 0 ? look_at_path (number) : wanted > 0 && number == wanted;
  if (!fails || atomic_exchange (&failed, 1) != 0)
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
