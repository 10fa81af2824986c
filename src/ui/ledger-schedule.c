/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Words for the schedule of the newest plan. Steps and waits are the plan's own texts; dates and
 * numbers are written as the user's locale does. */
#define G_LOG_DOMAIN "drybay-ui"
#include "ui/ledger-schedule.h"

#include <glib/gi18n.h>

#include "ui/ledger-entries.h"
#include "ui/ledger-pages.h"

char *
dry_text_day (const DrySchedule *schedule, gint64 minute)
{
  gint year, month, day;
  g_autoptr (GDateTime) date = NULL;

  if (!schedule->dated)
    return g_strdup_printf (_ ("Day %d"), (int) dry_schedule_count_days (schedule, minute));
  dry_date_split (minute / DRY_MINUTES_A_DAY, &year, &month, &day);
  date = g_date_time_new_utc (year, month, day, 0, 0, 0);
  return g_date_time_format (date, "%a %x");
}

static char *
text_clock (gint64 minute)
{
  gint of_day = (gint) (minute % DRY_MINUTES_A_DAY);

  return g_strdup_printf ("%02d:%02d", of_day / 60, of_day % 60);
}

/* "08:00 to 10:30", with the day where it ends on another. */
static char *
text_stretch (const DrySchedule *schedule, const DryTask *task)
{
  g_autofree char *from = text_clock (task->start), *to = text_clock (task->finish);
  g_autofree char *day = dry_text_day (schedule, task->finish);

  if (task->start == task->finish)
    return g_steal_pointer (&from);
  if (task->start / DRY_MINUTES_A_DAY == task->finish / DRY_MINUTES_A_DAY)
    return g_strdup_printf (_ ("%s to %s"), from, to);
  return g_strdup_printf (_ ("%s to %s, %s"), from, to, day);
}

static void
add_task (DryEntries *entries, const DrySchedule *schedule, const DryTask *task)
{
  GPtrArray *details = g_ptr_array_new ();
  g_autofree char *slack = dry_text_hours ((double) task->slack / 60);
  DryLedgerEntry entry = {
      .key = task->id,
      .heading = dry_entries_keep (entries, dry_text_day (schedule, task->start)),
      .title = task->text,
      .subtitle = dry_entries_keep (entries, text_stretch (schedule, task)),
      .value = task->kind == DRY_TASK_HOLD ? _ ("hold")
               : task->critical            ? _ ("critical")
                                           : NULL,
  };

  if (task->hours > 0)
    dry_entries_add_pair (details, _ ("Work"),
                          dry_entries_keep (entries, g_strdup_printf (_ ("%.1f h, %u at it"),
                                                                      task->hours, task->crew)));
  for (guint i = 0; i < task->n_after; i++)
    if (task->after[i].wait > 0) {
      g_autofree char *wait = dry_text_hours ((double) task->after[i].wait / 60);
      dry_entries_add_pair (
          details, _ ("Waits"),
          dry_entries_keep (entries, g_strdup_printf ("%s: %s", wait, task->after[i].because)));
    }
  if (task->slack > 0)
    dry_entries_add_pair (details, _ ("May begin later by"),
                          dry_entries_keep (entries, g_steal_pointer (&slack)));
  dry_entries_add_pair (details, _ ("Working"), task->working.formula);
  dry_entries_add_pair (details, _ ("Source"), task->working.source.text);
  entry.details = dry_entries_keep_list (entries, details);
  dry_entries_add (entries, entry);
}

static char *
text_note (const DrySchedule *schedule)
{
  g_autofree char *tile =
      schedule->tile_start >= 0 ? dry_text_day (schedule, schedule->tile_start) : NULL;
  g_autofree char *shower =
      schedule->shower >= 0 ? dry_text_day (schedule, schedule->shower) : NULL;

  if (schedule->too_cold)
    return g_strdup (_ ("Too cold: mortar and membrane do not set, and no wait holds"));
  if (tile && shower)
    return g_strdup_printf (_ ("Tiling can start: %s. First shower: %s"), tile, shower);
  return tile ? g_strdup_printf (_ ("Tiling can start: %s"), tile) : g_strdup ("");
}

char *
dry_ledger_fill_schedule (DrySession *session, DryLedgerList *list)
{
  const DryPlan *plan = dry_session_get_plan (session);
  DryEntries entries = dry_entries_begin ();
  g_autoptr (GError) error = NULL;
  g_autoptr (DrySchedule) schedule = NULL;
  char *note;

  if (plan)
    schedule = dry_schedule_new (
        &plan, 1, dry_catalog_get_price_book (plan->context.catalog, plan->context.job->prices),
        NULL, &error);
  for (guint i = 0; schedule && i < schedule->n; i++)
    add_task (&entries, schedule, &schedule->tasks[i]);
  note = schedule ? text_note (schedule) : g_strdup (error ? error->message : "");
  dry_entries_end (&entries, list);
  return note;
}
