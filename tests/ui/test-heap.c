/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What is let go is free for others at once, though its neighbours live on. Reads the C library's
 * own count of what is in use; knows nothing of the window. */
#include <glib.h>
#include <malloc.h>

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

int
main (int argc, char *argv[])
{
  dry_heap_set_up ();
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/heap/small-things", test_small_things);
  return g_test_run ();
}
