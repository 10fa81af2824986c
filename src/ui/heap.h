/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Keeps what the program holds of the machine's memory near what it uses. Knows the C library's
 * allocator and nothing of what is kept in it. */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

/* Where the window's things lie between those of a thread, which come and go by tens of megabytes,
 * what the window keeps ends up scattered over all of that, and holds its pages. Each thread has a
 * heap of its own, therefore, and the window another; more threads at once than that share. glibc
 * would do the same, with more heaps the more processors there are, but keeps in each of them what
 * was once freed there: dry_heap_trim() gives it back.
 *
 * Call it before the first thread is made. Does nothing with another C library. Whoever links this
 * has, without a call, small things of GLib's in the same heap as all others, where the place of
 * one that is let go can be taken by anything. */
void dry_heap_set_up (void);

/* Gives what is free back to the system now: a few milliseconds in which others may have to wait
 * for memory. Any thread. */
void dry_heap_trim (void);

/* Gives what is free back to the system when some seconds have passed without another call: what
 * was computed and let go leaves holes. It takes a few milliseconds. Main thread only. */
void dry_heap_give_back (void);

G_END_DECLS
