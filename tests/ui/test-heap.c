/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What is let go is free for others at once, though its neighbours live on. Reads the C library's
 * own count of what is in use; knows nothing of the window. */
#include <glib.h>
#include <malloc.h>
#include <string.h>
#include <unistd.h>

#include "ui/heap.h"

#define THINGS 20000
#define SIZE   64
#define STAYS  32 /* one of so many: at least one on each page */

static void
test_small_things (void)
{
  g_autofree gpointer *things = g_new0 (gpointer, THINGS);
  gsize before = mallinfo2 ().uordblks;
  gsize full, left;

  for (guint i = 0; i < THINGS; i++)
    things[i] = g_slice_alloc (SIZE);
  full = mallinfo2 ().uordblks - before;
  g_assert_cmpuint (full, >=, THINGS * SIZE);
  for (guint i = 0; i < THINGS; i++)
    if (i % STAYS != 0)
      g_slice_free1 (SIZE, things[i]);
  dry_heap_trim ();
  left = mallinfo2 ().uordblks - before;
  g_test_message ("%zu bytes with all, %zu with one of %d", full, left, STAYS);
  g_assert_cmpuint (left, <, full / 8);
  for (guint i = 0; i < THINGS; i += STAYS)
    g_slice_free1 (SIZE, things[i]);
}

#define MANY  160
#define LARGE (64 * 1024)

static gsize
read_resident (void)
{
  g_autofree char *text = NULL;
  g_auto (GStrv) fields = NULL;

  g_assert_true (g_file_get_contents ("/proc/self/statm", &text, NULL, NULL));
  fields = g_strsplit (text, " ", 3);
  return g_ascii_strtoull (fields[1], NULL, 10) * (gsize) sysconf (_SC_PAGESIZE);
}

/* As the worker does: much is held for a while, then nothing. */
static gpointer
hold_much (gpointer data)
{
  gpointer held[MANY];

  for (guint i = 0; i < MANY; i++)
    held[i] = memset (g_malloc (LARGE), 1, LARGE);
  for (guint i = 0; i < MANY; i++)
    g_free (held[MANY - 1 - i]);
  return NULL;
}

/* A heap that is not the first one gives back its end too, whichever thread asks for it. */
static void
test_end_of_heap (void)
{
  gsize before;

  dry_heap_trim ();
  before = read_resident ();
  for (guint i = 0; i < 3; i++) {
    gsize kept, after;

    g_thread_join (g_thread_new ("holder", hold_much, NULL));
    kept = read_resident ();
    dry_heap_trim ();
    after = read_resident ();
    g_test_message ("%zu kB before, %zu when all is let go, %zu after", before / 1024, kept / 1024,
                    after / 1024);
    g_assert_cmpuint (kept, >, before + MANY * LARGE * 8 / 10); /* for the next time */
    g_assert_cmpuint (after, <, before + MANY * LARGE / 10);
  }
}

/* --- threads --- */

#define THREADS 8

typedef struct {
  GMutex lock;
  GCond all_there;
  guint n;
} Meeting;

static gpointer
take_one (gpointer data)
{
  Meeting *meeting = data;
  gpointer taken = g_malloc (SIZE * 100);

  g_mutex_lock (&meeting->lock);
  meeting->n++;
  g_cond_broadcast (&meeting->all_there);
  while (meeting->n < THREADS)
    g_cond_wait (&meeting->all_there, &meeting->lock);
  g_mutex_unlock (&meeting->lock);
  return taken;
}

/* What threads take, as many as two windows have, lies nowhere between the window's things. */
static void
test_threads (void)
{
  static char at_start; /* the first heap follows the program's own data */
  GThread *threads[THREADS];

  for (guint round = 0; round < 3; round++) {
    Meeting meeting = {0};

    g_mutex_init (&meeting.lock);
    g_cond_init (&meeting.all_there);
    for (guint i = 0; i < THREADS; i++)
      threads[i] = g_thread_new ("taker", take_one, &meeting);
    for (guint i = 0; i < THREADS; i++) {
      g_autofree char *taken = g_thread_join (threads[i]);

      g_assert_false (taken > &at_start && taken < (char *) sbrk (0));
    }
    g_cond_clear (&meeting.all_there);
    g_mutex_clear (&meeting.lock);
  }
}

int
main (int argc, char *argv[])
{
  dry_heap_set_up ();
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/heap/small-things", test_small_things);
  g_test_add_func ("/heap/end-of-heap", test_end_of_heap);
  g_test_add_func ("/heap/threads", test_threads);
  return g_test_run ();
}
