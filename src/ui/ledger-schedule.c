/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Words for the schedule of the newest plan. Steps and waits are the plan's own texts; dates and
 * numbers are written as the user's locale does. */
#define G_LOG_DOMAIN "drybay-ui"
#include "ui/ledger-schedule.h"

#include <glib/gi18n.h>

#include "plan/done.h"
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

static gint64
tell_now (void)
{
  g_autoptr (GDateTime) now = g_date_time_new_now_local ();
  g_autofree char *text = g_date_time_format (now, "%Y-%m-%dT%H:%M");
  gint64 minute = 0;

  dry_moment_parse (text, &minute);
  return minute;
}

/* "Thu 12/03/2026 14:00" */
static char *
text_moment (gint64 minute)
{
  g_autofree char *clock = text_clock (minute);
  DrySchedule dated = {.dated = TRUE};
  g_autofree char *day = dry_text_day (&dated, minute);

  return g_strdup_printf ("%s %s", day, clock);
}

/* Why the task cannot be ticked off yet; NULL where it can. Free. */
static char *
text_refusal (const DryTick *tick)
{
  g_autofree char *until = tick->kind == DRY_TICK_CURING ? text_moment (tick->until) : NULL;

  if (tick->kind == DRY_TICK_EARLY)
    /* Translators: a step of the order of work */
    return g_strdup_printf (_ ("First: %s"), tick->first->text);
  if (tick->kind == DRY_TICK_CURING)
    /* Translators: date and time, why it waits: "the coat dries" */
    return g_strdup_printf (_ ("Not before %s: %s"), until,
                            tick->because ? tick->because : tick->first->text);
  return NULL;
}

/* What may be ticked off; what may not says why. */
static void
add_tick (DryEntries *entries, const DryTick *tick, DryLedgerEntry *entry)
{
  DryLedgerAct *act = g_new0 (DryLedgerAct, 1);
  char *refusal = text_refusal (tick);

  act->label = tick->kind == DRY_TICK_DONE ? _ ("Not Done After All") : _ ("Done");
  act->refused = refusal != NULL;
  act->note = refusal ? dry_entries_keep (entries, refusal) : NULL;
  entry->acts = (const DryLedgerAct *) (gconstpointer) dry_entries_keep (entries, (char *) act);
  entry->n_acts = 1;
  if (tick->kind == DRY_TICK_DONE)
    entry->value = _ ("done");
}

static void
add_task (DryEntries *entries, const DrySchedule *schedule, const DryTask *task, const char *done,
          gint64 now)
{
  DryTick tick = dry_done_judge (schedule, (guint) (task - schedule->tasks), done, now);
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
  if (tick.kind == DRY_TICK_DONE)
    dry_entries_add_pair (details, _ ("Done"),
                          dry_entries_keep (entries, text_moment (tick.until)));
  if (task->kind != DRY_TASK_MILESTONE)
    add_tick (entries, &tick, &entry);
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
  gint64 now = tell_now ();
  char *note;

  if (plan)
    schedule = dry_schedule_new (
        &plan, 1, dry_catalog_get_price_book (plan->context.catalog, plan->context.job->prices),
        NULL, &error);
  for (guint i = 0; schedule && i < schedule->n; i++)
    add_task (&entries, schedule, &schedule->tasks[i], plan->context.room->done, now);
  note = schedule ? text_note (schedule) : g_strdup (error ? error->message : "");
  dry_entries_end (&entries, list);
  return note;
}

void
dry_ledger_tick_schedule (DrySession *session, guint index)
{
  const DryPlan *plan = dry_session_get_plan (session);
  const DryRoom *room = dry_session_get_room (session);
  g_autoptr (DrySchedule) schedule = NULL;
  GError *error = NULL;
  DryTick tick;

  if (plan && room)
    schedule = dry_schedule_new (
        &plan, 1, dry_catalog_get_price_book (plan->context.catalog, plan->context.job->prices),
        NULL, NULL);
  if (!schedule || index >= schedule->n)
    return;
  tick = dry_done_judge (schedule, index, room->done, tell_now ());
  if (tick.kind == DRY_TICK_DONE || tick.kind == DRY_TICK_FREE) {
    gboolean undo = tick.kind == DRY_TICK_DONE;
    g_autoptr (DryRoom) changed = dry_room_copy (room);
    g_free (changed->done);
    changed->done = dry_done_set (room->done, schedule->tasks[index].step, undo ? -1 : tell_now ());
    dry_session_apply (session,
                       dry_edit_set_room (dry_session_get_project (session), changed, NULL, &error),
                       undo ? _ ("Not Done After All") : _ ("Tick Off"), NULL, error);
  } else {
    g_autofree char *refusal = text_refusal (&tick);
    g_signal_emit_by_name (session, "told", refusal, NULL);
  }
}
