/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Keeps what the program holds of the machine's memory near what it uses. Knows the C library's
 * allocator and nothing of what is kept in it. */
#define G_LOG_DOMAIN "drybay-ui"

#include "ui/heap.h"

#ifdef __GLIBC__
#  include <malloc.h>
#endif

#define HEAPS       2
#define ALONE       (32 * 1024 * 1024) /* bytes; what is as large is given back at once */
#define KEPT_AT_END (64 * 1024 * 1024) /* bytes, of each heap */
#define WHOLE       (256 * 1024)       /* bytes; what is let go at once has to be 64 kB at least */
#define PART        (64 * 1024)
#define LATER       3 /* s in which nobody works, and a closed window's own things are gone */

/* GLib before 2.76 hands out small things from pages of its own, one size to a page, and keeps a
 * page for as long as one thing on it lives. It decides so at its first allocation, which is made
 * while it is loaded; only what stands in this section comes earlier, before a sanitizer is ready
 * too. Later versions ignore it. */
__attribute__ ((no_sanitize ("thread"), no_sanitize ("address"),
                no_sanitize ("undefined"))) static void
use_one_heap (void)
{
  G_GNUC_BEGIN_IGNORE_DEPRECATIONS
  g_slice_set_config (G_SLICE_CONFIG_ALWAYS_MALLOC, TRUE);
  G_GNUC_END_IGNORE_DEPRECATIONS
}

__attribute__ ((section (".preinit_array"),
                used)) static void (*const before_libraries) (void) = use_one_heap;

#ifdef __GLIBC__

static gpointer in_second; /* something large in the second heap */
static GMutex lock;

static gpointer
take_from_own_heap (gpointer data)
{
  return malloc (WHOLE);
}

void
dry_heap_set_up (void)
{
  mallopt (M_ARENA_MAX, HEAPS);
  /* As large as glibc makes them when such things come and go: a picture of the board is as large
   * as the window, and what is given back after each frame has to be cleared by the kernel for the
   * next (18 times the page faults in bench-pixel with 1 MB). Said here, since the second has to be
   * set for a moment below, and glibc then changes neither any more. */
  mallopt (M_MMAP_THRESHOLD, ALONE);
  mallopt (M_TRIM_THRESHOLD, KEPT_AT_END);
  /* The first thread that is made has the second heap. */
  in_second = g_thread_join (g_thread_new ("heap", take_from_own_heap, NULL));
}

/* malloc_trim() leaves the end of every heap but the first. What gives that back is letting go of
 * something large in that heap, whichever thread does it: a part of what lies there for this. */
static void
trim_second_heap (void)
{
  gpointer part;

  g_mutex_lock (&lock);
  mallopt (M_TRIM_THRESHOLD, 0);
  if ((part = realloc (in_second, PART)) != NULL)
    in_second = part;
  mallopt (M_TRIM_THRESHOLD, KEPT_AT_END);
  if ((part = realloc (in_second, WHOLE)) != NULL)
    in_second = part;
  g_mutex_unlock (&lock);
}

void
dry_heap_trim (void)
{
  if (in_second != NULL)
    trim_second_heap ();
  malloc_trim (0);
}

#else

void
dry_heap_set_up (void)
{
}

void
dry_heap_trim (void)
{
}

#endif

static gboolean
give_back (gpointer data)
{
  guint *waiting = data;

  *waiting = 0;
  dry_heap_trim ();
  return G_SOURCE_REMOVE;
}

void
dry_heap_give_back (void)
{
  static guint waiting = 0;

  g_clear_handle_id (&waiting, g_source_remove);
  waiting = g_timeout_add_seconds_full (G_PRIORITY_LOW, LATER, give_back, &waiting, NULL);
}
