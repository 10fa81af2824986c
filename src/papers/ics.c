/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Writes content lines of RFC 5545: folded at 75 octets between characters, text escaped, CRLF.
 * Identifiers are made of the job and the task, so that a later export replaces an earlier one. */
#include "papers/ics.h"
#include "papers/flow.h"

#include <string.h>

#define MAX_OCTETS 75 /* RFC 5545 3.1, without the line break */

/* A content line, folded where it must be and never within a character. */
static void
add_line (GString *out, const char *name, const char *value)
{
  g_autofree char *line = g_strdup_printf ("%s:%s", name, value);
  const char *at = line;
  gsize room = MAX_OCTETS;

  while (strlen (at) > room) {
    const char *cut = at + room;
    while (((guchar) *cut & 0xc0) == 0x80)
      cut--;
    g_string_append_len (out, at, cut - at);
    g_string_append (out, "\r\n ");
    at = cut;
    room = MAX_OCTETS - 1; /* the blank counts */
  }
  g_string_append (out, at);
  g_string_append (out, "\r\n");
}

/* RFC 5545 3.3.11; other control characters may not stand in a text. */
static char *
escape (const char *text)
{
  GString *out = g_string_new (NULL);

  for (; *text; text++)
    if (*text == '\n')
      g_string_append (out, "\\n");
    else if (strchr ("\\;,", *text))
      g_string_append_printf (out, "\\%c", *text);
    else if ((guchar) *text >= 0x20 && *text != 0x7f)
      g_string_append_c (out, *text);
  return g_string_free (out, FALSE);
}

static void
add_text (GString *out, const char *name, const char *text)
{
  g_autofree char *escaped = escape (text);

  add_line (out, name, escaped);
}

static void
add_moment (GString *out, const char *name, gint64 minute)
{
  gint year, month, day, of_day = (gint) (minute % DRY_MINUTES_A_DAY);
  g_autofree char *text = NULL;

  dry_date_split (minute / DRY_MINUTES_A_DAY, &year, &month, &day);
  text = g_strdup_printf ("%04d%02d%02dT%02d%02d00", year, month, day, of_day / 60, of_day % 60);
  add_line (out, name, text);
}

typedef struct {
  GString *out;
  const DrySchedule *schedule;
  const DryPlan *const *plans;
  char *stamp; /* DTSTAMP, UTC by rule; the first day, for there is no clock */
} Writing;

static void
add_identity (const Writing *self, const DryTask *task, guint part)
{
  const DryPlan *plan = self->plans[task->room];
  g_autofree char *what = g_strdup_printf ("%s\n%u\n%s\n%u", plan->context.job->title,
                                           plan->context.room->id, task->step, part);
  g_autofree char *sum = g_compute_checksum_for_string (G_CHECKSUM_SHA256, what, -1);
  g_autofree char *uid = g_strdup_printf ("%.32s@drybay.invalid", sum);

  add_line (self->out, "UID", uid);
  add_line (self->out, "DTSTAMP", self->stamp);
}

/* The first sentence says what it is; the rest is for the description. */
static char *
make_summary (const Writing *self, const DryTask *task)
{
  const char *stop = strchr (task->text, '.');
  gsize n = stop ? (gsize) (stop - task->text) : strlen (task->text);
  gboolean several = self->schedule->n_rooms > 1;

  return g_strdup_printf ("%s%s%s%.*s", task->kind == DRY_TASK_HOLD ? "HOLD: " : "",
                          several ? dry_flow_room_name (self->plans[task->room]) : "",
                          several ? ": " : "", (int) n, task->text);
}

static char *
make_description (const Writing *self, const DryTask *task)
{
  GString *text = g_string_new (task->text);
  char hours[G_ASCII_DTOSTR_BUF_SIZE];

  if (task->hours > 0) {
    g_ascii_formatd (hours, sizeof hours, "%.1f", task->hours);
    g_string_append_printf (text, "\n%s hours of work, %u at it.", hours, task->crew);
  }
  for (guint i = 0; i < task->n_after; i++)
    if (task->after[i].wait > 0) {
      g_ascii_formatd (hours, sizeof hours, "%.1f", (double) task->after[i].wait / 60);
      g_string_append_printf (text, "\nNot before %s h after “%s”: %s.", hours,
                              self->schedule->tasks[task->after[i].task].step,
                              task->after[i].because);
    }
  if (task->critical)
    g_string_append (text, "\nOn the critical path: a delay here delays the end.");
  return g_string_free (text, FALSE);
}

static void
add_event (const Writing *self, const DryTask *task, guint part, gint64 from, gint64 to)
{
  g_autofree char *summary = make_summary (self, task);
  g_autofree char *description = make_description (self, task);

  add_line (self->out, "BEGIN", "VEVENT");
  add_identity (self, task, part);
  add_moment (self->out, "DTSTART", from);
  if (to > from)
    add_moment (self->out, "DTEND", to);
  add_text (self->out, "SUMMARY", summary);
  add_text (self->out, "DESCRIPTION", description);
  add_line (self->out, "TRANSP", task->kind == DRY_TASK_WORK ? "OPAQUE" : "TRANSPARENT");
  add_line (self->out, "END", "VEVENT");
}

/* Work rests at night: an event for each day it is worked at. */
static void
add_task (const Writing *self, const DryTask *task)
{
  const DryCalendar *calendar = self->schedule->calendar;
  gint64 at = task->start;
  guint part = 1;

  if (task->standing || task->kind == DRY_TASK_MILESTONE || task->minutes == 0) {
    add_event (self, task, part, task->start, task->finish);
    return;
  }
  while (at < task->finish) {
    gint64 close = at / DRY_MINUTES_A_DAY * DRY_MINUTES_A_DAY + calendar->from + calendar->minutes;
    gint64 end = MIN (close, task->finish);
    add_event (self, task, part++, at, end);
    at = end < task->finish ? dry_calendar_begin (calendar, end) : end;
  }
}

char *
dry_schedule_to_ics (const DrySchedule *schedule, const DryPlan *const *plans, GError **error)
{
  Writing self = {.schedule = schedule, .plans = plans};
  gint year, month, day;
  char *stamp;

  if (!schedule->dated) {
    g_set_error (error, DRY_ERROR, DRY_ERROR_UNSUPPORTED,
                 "A calendar needs dates, and the job has no first day of work");
    return NULL;
  }
  dry_date_split (schedule->first_day, &year, &month, &day);
  stamp = g_strdup_printf ("%04d%02d%02dT000000Z", year, month, day);
  self.stamp = stamp;
  self.out = g_string_new (NULL);
  add_line (self.out, "BEGIN", "VCALENDAR");
  add_line (self.out, "VERSION", "2.0");
  add_line (self.out, "PRODID", "-//Drybay//Schedule//EN");
  add_line (self.out, "CALSCALE", "GREGORIAN");
  for (guint i = 0; i < schedule->n; i++)
    add_task (&self, &schedule->tasks[i]);
  add_line (self.out, "END", "VCALENDAR");
  g_free (stamp);
  return g_string_free (self.out, FALSE);
}
