/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Keeps what the program holds of the machine's memory near what it uses. Knows the C library's
 * allocator and nothing of what is kept in it. */
#define G_LOG_DOMAIN "drybay-ui"

#include "ui/heap.h"

#ifdef __GLIBC__
#  include <malloc.h>
#endif

#define HEAPS       2
#define ALONE       (1024 * 1024)      /* bytes; what is as large is given back at once */
#define KEPT_AT_END (16 * 1024 * 1024) /* bytes, for the next frame */
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

void
dry_heap_set_up (void)
{
#ifdef __GLIBC__
  mallopt (M_ARENA_MAX, HEAPS);
  /* Left alone, both grow with the largest thing ever let go: pictures of the board then lie among
   * small things, and a heap keeps up to 64 MB at its end. */
  mallopt (M_MMAP_THRESHOLD, ALONE);
  mallopt (M_TRIM_THRESHOLD, KEPT_AT_END);
#endif
}

#ifdef __GLIBC__
/* malloc_trim() does not look at the end of any heap but the first; what does is letting go of
 * something large in it. */
static void
trim_end_of_own_heap (void)
{
  static GMutex lock;

  g_mutex_lock (&lock);
  mallopt (M_TRIM_THRESHOLD, 0);
  void *large = malloc (ALONE / 4);
  __asm__ volatile("" : : "r"(large) : "memory"); /* not to be optimized away */
  free (large);
  mallopt (M_TRIM_THRESHOLD, KEPT_AT_END);
  g_mutex_unlock (&lock);
}
#endif

void
dry_heap_trim (void)
{
#ifdef __GLIBC__
  trim_end_of_own_heap ();
  malloc_trim (0);
#endif
}

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
