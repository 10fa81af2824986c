/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Critical path of a network of activities: early and late dates, slack, and the chain that decides
 * the end. Times are whole numbers in the caller's unit; it knows no dates, crews or plans. */
#pragma once

#include "base/arena.h"
#include "base/error.h"

/* No network is larger, no time later; sums then stay far from the ends of gint64. */
#define DRY_MAX_ACTIVITIES 20000
#define DRY_MAX_TIME       (G_GINT64_CONSTANT (1) << 52)

/* What must be finished before, and how long to wait after that. */
typedef struct {
  const char *id;
  gint64 wait;
} DryLink;

typedef struct {
  const char *id;
  gint64 duration;
  const DryLink *after;
  guint n_after;
  gboolean standing; /* goes on day and night, whatever the clock */
} DryActivity;

/* How working time lies on the line of all time, for activities that rest at night. Waits never
 * rest. `begin`: the first moment at or after `at` when work can go on. `advance`: when `work`,
 * more than nothing, begun at a moment of work, is finished. `retreat`: the latest beginning from
 * which it is finished by `at`. */
typedef struct {
  gint64 (*begin) (gconstpointer data, gint64 at);
  gint64 (*advance) (gconstpointer data, gint64 from, gint64 work);
  gint64 (*retreat) (gconstpointer data, gint64 at, gint64 work);
  gconstpointer data;
} DryNetworkClock;

typedef struct {
  gint64 early_start, early_finish;
  gint64 late_start, late_finish; /* without moving the end */
  gint64 slack;                   /* late start less early start; never negative */
  gboolean critical;              /* no slack, or on the path */
  gint driver;                    /* index of the activity whose end set the early start, or -1 */
} DryActivityDates;

typedef struct {
  DryActivityDates *dates; /* in the order of the activities */
  guint n;
  gint64 length; /* the last early finish */
  guint *order;  /* every activity after those it waits for */
  guint *path;   /* one chain, first to last, that decides the length */
  guint n_path;
} DryNetwork;

/* `clock` NULL: work goes on day and night. `start`: nothing begins before; 0 usually. The answer
 * lives in `arena`. Errors: DRY_ERROR_REFERENCE (an id twice, or one that is not there),
 * DRY_ERROR_SCHEMA (a ring of activities that wait for one another; it is named),
 * DRY_ERROR_LIMIT (negative or too great numbers). */
const DryNetwork *dry_network_compute (DryArena *arena, const DryActivity *activities, guint n,
                                       const DryNetworkClock *clock, gint64 start, GError **error);
