/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Lets chosen calls to the system fail inside the test's own process. Only for programs that
 * compile failing-calls.c in: its functions stand in front of the C library's. */
#pragma once

#include <glib.h>

/* From now on the `nth` call (from 1; 0: each) of `call` fails with `error` as errno. An error of 0
 * is no failure: write() and pwrite() then take half of what they get. Known are close, fchmod,
 * fchown, fdatasync, flock, fsync, ftruncate, open, pwrite, read and write. Ends what was set
 * before. */
void dry_test_fail (const char *call, gint nth, gint error);

/* Ends it; returns how many calls failed. */
gint dry_test_fail_end (void);
