/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Dates and the working calendar: which days are worked, from when and how long, and which are
 * holidays. Proleptic Gregorian, local time without zones; no clock, no locale. */
#pragma once

#include "plan/network.h"
#include "project/project.h"

#define DRY_MINUTES_A_DAY 1440

/* Days since 1970-01-01 of "YYYY-MM-DD"; years 1900 to 9999. FALSE for anything else. */
gboolean dry_date_parse (const char *text, gint64 *day);
/* "YYYY-MM-DD"; free with g_free(). */
char *dry_date_to_text (gint64 day) G_GNUC_WARN_UNUSED_RESULT;
void dry_date_split (gint64 day, gint *year, gint *month, gint *of_month);
/* 0 = Monday ... 6 = Sunday. */
guint dry_date_weekday (gint64 day);
/* "Monday" and "Mon", in English. */
const char *dry_weekday_name (guint weekday);
const char *dry_weekday_short (guint weekday);

typedef struct {
  gint64 first, last; /* both free */
} DryFreeDays;

typedef struct {
  gboolean works[7]; /* Monday first */
  gint from;         /* minutes after midnight */
  gint minutes;      /* worked a day */
  const DryFreeDays *free_days;
  guint n_free;
} DryCalendar;

/* The job's calendar: Monday to Friday, 8 h from 8 in the morning, unless it says otherwise.
 * NULL with DRY_ERROR_TEXT or DRY_ERROR_LIMIT that names the word not understood, a day longer
 * than 24 h, or a calendar without a day to work. */
const DryCalendar *dry_calendar_new (DryArena *arena, const DryJob *job, GError **error);
gboolean dry_calendar_works_on (const DryCalendar *self, gint64 day);
/* Times are minutes since 1970-01-01 00:00. See DryNetworkClock. */
gint64 dry_calendar_begin (const DryCalendar *self, gint64 at);
gint64 dry_calendar_advance (const DryCalendar *self, gint64 from, gint64 work);
gint64 dry_calendar_retreat (const DryCalendar *self, gint64 at, gint64 work);
/* Minutes of work between two moments; 0 when `to` is not later. */
gint64 dry_calendar_between (const DryCalendar *self, gint64 from, gint64 to);
DryNetworkClock dry_calendar_clock (const DryCalendar *self);
