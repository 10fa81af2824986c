/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What is done of the order of work, as ticked off on site, and what may be ticked off next:
 * nothing before what it follows, and nothing before that has cured. No clock: the caller says what
 * time it is. */
#pragma once

#include "plan/schedule.h"

/* Minutes since 1970-01-01 (local time) of "2026-12-01T16:30"; FALSE for anything else. */
gboolean dry_moment_parse (const char *text, gint64 *minute);
/* "2026-12-01T16:30"; free with g_free(). */
char *dry_moment_to_text (gint64 minute) G_GNUC_WARN_UNUSED_RESULT;

/* When `step` was done; -1: it is not. `done` is a room's text and may be NULL; words of it that
 * are not understood count for nothing. */
gint64 dry_done_get (const char *done, const char *step);
/* The text with `step` done at `minute`, or with -1 not done. NULL when nothing is; free. */
char *dry_done_set (const char *done, const char *step, gint64 minute) G_GNUC_WARN_UNUSED_RESULT;

typedef enum {
  DRY_TICK_FREE,   /* may be ticked off */
  DRY_TICK_DONE,   /* is */
  DRY_TICK_EARLY,  /* what it follows is not done yet */
  DRY_TICK_CURING, /* that is done, but must wait still */
} DryTickKind;

typedef struct {
  DryTickKind kind;
  const DryTask *first; /* EARLY, CURING: the one it waits for */
  const char *because;  /* CURING: "the coat dries" */
  gint64 until;         /* CURING: when the wait is over; DONE: when it was done */
} DryTick;

/* Whether `task` may be ticked off at the minute `now`. Only what is in its own room counts. */
DryTick dry_done_judge (const DrySchedule *schedule, guint task, const char *done, gint64 now);
