/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The ledger's page of the schedule: every task with its day, its hours, what it waits for and how
 * much it may be late. Reckons the schedule of the newest plan anew; keeps nothing. */
#pragma once

#include "plan/schedule.h"
#include "ui/ledger-list.h"
#include "ui/session.h"

G_BEGIN_DECLS

/* Fills the list. What stands above it in a few words: when tiling can start and the first shower,
 * or why there is no schedule. Free. */
char *dry_ledger_fill_schedule (DrySession *session, DryLedgerList *list) G_GNUC_WARN_UNUSED_RESULT;
/* Ticks the task of that row off at this minute, or takes its tick back; where it may not be yet, a
 * toast says why. */
void dry_ledger_tick_schedule (DrySession *session, guint index);
/* A moment of the schedule for people, in the user's locale: a date, or the day's number. Free. */
char *dry_text_day (const DrySchedule *schedule, gint64 minute) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
