/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The schedule: the order of work of one or more rooms, and what follows it up to the first shower,
 * on a working calendar with one crew. Waits run through nights and weekends; nothing passes a
 * hold. No clock: the first day comes from the job or the caller. */
#pragma once

#include "plan/calendar.h"
#include "plan/plan.h"

typedef enum {
  DRY_TASK_WORK,      /* by the crew, in working hours */
  DRY_TASK_HOLD,      /* an inspection or test: by others or by standing water; no crew */
  DRY_TASK_MILESTONE, /* a moment */
} DryTaskKind;

/* What a task waits for. */
typedef struct {
  guint task;          /* index of the earlier one */
  gint64 wait;         /* minutes after its end, at the room's temperature */
  gint64 longest;      /* the same at the longest the data gives */
  const char *because; /* "the coat dries"; NULL where the next simply follows */
  gboolean crew;       /* only because the crew is busy with it */
  DryWorking working;  /* of the wait */
} DryTaskLink;

typedef struct {
  const char *id;   /* "coat-1"; with several rooms "2/coat-1" */
  const char *step; /* "coat-1" */
  const char *text; /* what to do */
  guint room;       /* index of the plan */
  DryTaskKind kind;
  double hours;      /* hands-on, of all people together */
  guint crew;        /* people at it */
  gint64 minutes;    /* it lasts in working time; a hold of standing water in all time */
  gboolean standing; /* a hold that runs through the night */
  const DryTaskLink *after;
  guint n_after;
  /* Minutes since 1970-01-01; see `dated`. */
  gint64 start, finish, late_start, late_finish, slack;
  gboolean critical;
  gint64 longest_start, longest_finish; /* if every wait takes its longest */
  DryWorking working;
} DryTask;

typedef struct {
  DryArena *arena; /* owned */
  const DryCalendar *calendar;
  gboolean dated; /* FALSE: no first day is known; times count from a Monday, told as "day 3" */
  gint64 first_day;
  DryTask *tasks; /* in the order the crew does them */
  guint n;
  const guint *path; /* of tasks, first to last: what decides the end */
  guint n_path;
  guint n_rooms;
  guint crew;
  double hours;                    /* hands-on in all */
  gint64 start;                    /* of the first task */
  gint64 tile_start, tile_longest; /* last room's; -1 = no tiling */
  gint64 shower, shower_longest;   /* the first in the last room; -1 = not known, see `missing` */
  gint64 finish;
  double temperature;  /* degrees C, of the job */
  gboolean too_cold;   /* below what mortar and membrane stand: the waits say nothing then */
  const char *missing; /* why there is no first shower; NULL */
} DrySchedule;

/* `book` gives hours a task where it does; NULL: the usual ones. `start`: the first day as
 * "2026-12-01", over the job's; NULL: the job's. The plans are all of one project. Errors:
 * DRY_ERROR_TEXT, DRY_ERROR_LIMIT (start or calendar of the job). */
DrySchedule *dry_schedule_new (const DryPlan *const *plans, guint n_plans, const DryPriceBook *book,
                               const char *start, GError **error) G_GNUC_WARN_UNUSED_RESULT;
void dry_schedule_free (DrySchedule *self);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (DrySchedule, dry_schedule_free)

/* "Tue 2026-12-01 08:00", or "day 3, 08:00" without dates; in the schedule's arena. */
const char *dry_schedule_moment (const DrySchedule *self, gint64 minute);
/* "Tue 2026-12-01", or "day 3". */
const char *dry_schedule_day (const DrySchedule *self, gint64 minute);
/* Calendar days from the first day to the one `minute` lies in, both counted. */
gint64 dry_schedule_count_days (const DrySchedule *self, gint64 minute);
/* Whole schedule as one JSON object. */
void dry_schedule_write_json (const DrySchedule *self, DryJsonWriter *writer, const char *key);
/* NULL when there is no such task. */
const DryTask *dry_schedule_get_task (const DrySchedule *self, const char *id);
