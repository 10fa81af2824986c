/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Keeps what the program holds of the machine's memory near what it uses. Knows the C library's
 * allocator and nothing of what is kept in it. */
#define G_LOG_DOMAIN "drybay-ui"

#include "ui/heap.h"

#ifdef __GLIBC__
#  include <malloc.h>
#endif

#define HEAPS 2
#define LATER 3 /* s, until the window's own things are gone too */

void
dry_heap_set_up (void)
{
#ifdef __GLIBC__
  mallopt (M_ARENA_MAX, HEAPS);
#endif
}

static gboolean
give_back (gpointer data)
{
  gboolean *waiting = data;

  *waiting = FALSE;
#ifdef __GLIBC__
  malloc_trim (0);
#endif
  return G_SOURCE_REMOVE;
}

void
dry_heap_give_back (void)
{
  static gboolean waiting = FALSE; /* of the main thread's only */

  if (!waiting)
    g_timeout_add_seconds_full (G_PRIORITY_LOW, LATER, give_back, &waiting, NULL);
  waiting = TRUE;
}
