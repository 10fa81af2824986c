/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Keeps what the program holds of the machine's memory near what it uses. Knows the C library's
 * allocator and nothing of what is kept in it. */
#define G_LOG_DOMAIN "drybay-ui"

#include "ui/heap.h"

#ifdef __GLIBC__
#  include <malloc.h>
#endif

#define HEAPS       16 /* the window's, and one for each thread that is likely to be there at once */
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

#  define OTHERS (HEAPS - 1)

static gpointer in_others[OTHERS]; /* something large in each heap but the first */
static GMutex lock;

typedef struct {
  GMutex lock;
  GCond all_there;
  guint n;
} Meeting;

/* A heap is a thread's own as long as one without a thread is left: nobody goes before all have
 * one. */
static gpointer
take_from_own_heap (gpointer data)
{
  Meeting *meeting = data;
  gpointer taken = malloc (WHOLE);

  g_mutex_lock (&meeting->lock);
  if (++meeting->n == OTHERS)
    g_cond_broadcast (&meeting->all_there);
  while (meeting->n < OTHERS)
    g_cond_wait (&meeting->all_there, &meeting->lock);
  g_mutex_unlock (&meeting->lock);
  return taken;
}

static void
make_others (void)
{
  GThread *threads[OTHERS];
  Meeting meeting = {0};

  g_mutex_init (&meeting.lock);
  g_cond_init (&meeting.all_there);
  for (guint i = 0; i < OTHERS; i++)
    threads[i] = g_thread_new ("heap", take_from_own_heap, &meeting);
  for (guint i = 0; i < OTHERS; i++)
    in_others[i] = g_thread_join (threads[i]);
  g_cond_clear (&meeting.all_there);
  g_mutex_clear (&meeting.lock);
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
  make_others ();
}

/* malloc_trim() leaves the end of every heap but the first. What gives that back is letting go of
 * something large in that heap, whichever thread does it: a part of what lies there for this. */
static void
trim_others (void)
{
  gpointer part;

  g_mutex_lock (&lock);
  mallopt (M_TRIM_THRESHOLD, 0);
  for (guint i = 0; i < OTHERS; i++)
    if (in_others[i] != NULL && (part = realloc (in_others[i], PART)) != NULL)
      in_others[i] = part;
  mallopt (M_TRIM_THRESHOLD, KEPT_AT_END);
  for (guint i = 0; i < OTHERS; i++)
    if (in_others[i] != NULL && (part = realloc (in_others[i], WHOLE)) != NULL)
      in_others[i] = part;
  g_mutex_unlock (&lock);
}

void
dry_heap_trim (void)
{
  trim_others ();
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
