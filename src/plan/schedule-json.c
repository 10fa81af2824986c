/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Writes a schedule as JSON: each task with its dates, slack, waits and workings.
 * Times are "2026-12-01T08:00" local time, or minutes from the first midnight without dates. */
#include "plan/schedule.h"

static const char *const kinds[] = {"work", "hold", "milestone"};

/* Local time without a zone, ISO 8601; hours since the first day's midnight where no day is known.
 */
static void
write_moment (const DrySchedule *self, DryJsonWriter *writer, const char *key, gint64 minute)
{
  gint of_day = (gint) (minute % DRY_MINUTES_A_DAY);
  g_autofree char *date = dry_date_to_text (minute / DRY_MINUTES_A_DAY);
  g_autofree char *text = g_strdup_printf ("%sT%02d:%02d", date, of_day / 60, of_day % 60);

  if (minute < 0)
    dry_json_write_string (writer, key, NULL);
  else if (self->dated)
    dry_json_write_string (writer, key, text);
  else
    dry_json_write_number (writer, key,
                           (double) (minute - self->first_day * DRY_MINUTES_A_DAY) / 60);
}

static void
write_links (const DrySchedule *self, const DryTask *task, DryJsonWriter *writer)
{
  dry_json_begin_array (writer, "after");
  for (guint i = 0; i < task->n_after; i++) {
    const DryTaskLink *link = &task->after[i];
    dry_json_begin_object (writer, NULL);
    dry_json_write_string (writer, "task", self->tasks[link->task].id);
    if (link->crew)
      dry_json_write_boolean (writer, "crew", TRUE);
    if (link->longest > 0) {
      dry_json_write_number (writer, "wait_hours", (double) link->wait / 60);
      dry_json_write_number (writer, "longest_hours", (double) link->longest / 60);
      dry_json_write_string (writer, "because", link->because);
      dry_working_write_json (&link->working, writer, "working");
    }
    dry_json_end_object (writer);
  }
  dry_json_end_array (writer);
}

static void
write_task (const DrySchedule *self, const DryTask *task, DryJsonWriter *writer)
{
  dry_json_begin_object (writer, NULL);
  dry_json_write_string (writer, "id", task->id);
  dry_json_write_integer (writer, "room", task->room + 1);
  dry_json_write_string (writer, "kind", kinds[task->kind]);
  dry_json_write_string (writer, "text", task->text);
  dry_json_write_number (writer, "hours", task->hours);
  dry_json_write_integer (writer, "crew", task->crew);
  write_moment (self, writer, "start", task->start);
  write_moment (self, writer, "finish", task->finish);
  write_moment (self, writer, "late_start", task->late_start);
  write_moment (self, writer, "late_finish", task->late_finish);
  dry_json_write_number (writer, "slack_hours", (double) task->slack / 60);
  dry_json_write_boolean (writer, "critical", task->critical);
  write_moment (self, writer, "longest_start", task->longest_start);
  write_moment (self, writer, "longest_finish", task->longest_finish);
  write_links (self, task, writer);
  if (task->working.formula)
    dry_working_write_json (&task->working, writer, "working");
  dry_json_end_object (writer);
}

static void
write_calendar (const DrySchedule *self, DryJsonWriter *writer)
{
  const DryCalendar *calendar = self->calendar;

  dry_json_begin_object (writer, "calendar");
  dry_json_begin_array_inline (writer, "days");
  for (guint day = 0; day < 7; day++)
    if (calendar->works[day])
      dry_json_write_string (writer, NULL, dry_weekday_short (day));
  dry_json_end_array (writer);
  dry_json_write_number (writer, "from", calendar->from / 60.0);
  dry_json_write_number (writer, "hours", calendar->minutes / 60.0);
  dry_json_write_integer (writer, "holidays", calendar->n_free);
  dry_json_end_object (writer);
}

void
dry_schedule_write_json (const DrySchedule *self, DryJsonWriter *writer, const char *key)
{
  dry_json_begin_object (writer, key);
  dry_json_write_boolean (writer, "dated", self->dated);
  dry_json_write_integer (writer, "crew", self->crew);
  dry_json_write_number (writer, "temperature_celsius", self->temperature);
  dry_json_write_boolean (writer, "too_cold", self->too_cold);
  write_calendar (self, writer);
  dry_json_write_number (writer, "hours", self->hours);
  write_moment (self, writer, "start", self->start);
  write_moment (self, writer, "tiling_can_start", self->tile_start);
  write_moment (self, writer, "tiling_can_start_longest", self->tile_longest);
  write_moment (self, writer, "first_shower", self->shower);
  write_moment (self, writer, "first_shower_longest", self->shower_longest);
  write_moment (self, writer, "finish", self->finish);
  if (self->missing)
    dry_json_write_string (writer, "missing", self->missing);
  dry_json_begin_array_inline (writer, "critical_path");
  for (guint i = 0; i < self->n_path; i++)
    dry_json_write_string (writer, NULL, self->tasks[self->path[i]].id);
  dry_json_end_array (writer);
  dry_json_begin_array (writer, "tasks");
  for (guint i = 0; i < self->n; i++)
    write_task (self, &self->tasks[i], writer);
  dry_json_end_array (writer);
  dry_json_end_object (writer);
}
