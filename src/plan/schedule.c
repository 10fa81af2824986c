/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Puts the rooms' tasks on the calendar: who comes when is settled first, one crew after another
 * task, then the network is computed on working time. Knows hours and waits, not what they are of.
 */
#include "plan/schedule-private.h"

#include <string.h>

#include "plan/amounts.h"

/* Without a first day: a Monday long ago. */
#define SOME_MONDAY G_GINT64_CONSTANT (11323) /* 2001-01-01 */

/* --- the crew: one task at a time, the earliest possible first, the most pressing among equals ---
 */

typedef struct {
  DrySchedule *schedule;
  const DryNetworkClock *clock;
  DryTask *tasks;
  guint n;
  guint *open;      /* links not yet done */
  gint64 *ready;    /* earliest by the links done */
  gint64 *pressing; /* latest start of the network without a crew */
  gboolean *done;
  GArray *order;
} Crew;

static gboolean
goes_first (const Crew *self, guint a, guint b, gint64 crew_free)
{
  gint64 at_a = MAX (self->ready[a], crew_free), at_b = MAX (self->ready[b], crew_free);

  if (at_a != at_b)
    return at_a < at_b;
  return self->pressing[a] != self->pressing[b] ? self->pressing[a] < self->pressing[b] : a < b;
}

/* Marks a task done at `finish` and hands that on to what waits for it. */
static void
finish_task (Crew *self, guint at, gint64 finish)
{
  self->done[at] = TRUE;
  g_array_append_val (self->order, at);
  for (guint i = 0; i < self->n; i++)
    for (guint j = 0; j < self->tasks[i].n_after; j++)
      if (self->tasks[i].after[j].task == at) {
        self->open[i]--;
        self->ready[i] = MAX (self->ready[i], finish + self->tasks[i].after[j].wait);
      }
}

/* The next task of `work` kind that can begin soonest; -1 when none can. */
static gint
choose (const Crew *self, gboolean work, gint64 crew_free)
{
  gint best = -1;

  for (guint i = 0; i < self->n; i++)
    if (!self->done[i] && self->open[i] == 0 && (self->tasks[i].kind == DRY_TASK_WORK) == work &&
        (best < 0 || goes_first (self, i, (guint) best, crew_free)))
      best = (gint) i;
  return best;
}

static gint64
end_of (const Crew *self, const DryTask *task, gint64 from)
{
  if (task->standing || task->minutes == 0)
    return from + task->minutes;
  return self->clock->advance (self->clock->data, self->clock->begin (self->clock->data, from),
                               task->minutes);
}

/* The order in which one crew does all work. Holds and milestones take nobody's time. */
static void
settle_crew (Crew *self)
{
  gint64 crew_free = self->schedule->first_day * DRY_MINUTES_A_DAY;
  gint at;

  for (guint i = 0; i < self->n; i++) {
    self->open[i] = self->tasks[i].n_after;
    self->ready[i] = crew_free;
  }
  while (self->order->len < self->n) {
    while ((at = choose (self, FALSE, G_MININT64)) >= 0)
      finish_task (self, (guint) at, end_of (self, &self->tasks[at], self->ready[at]));
    at = choose (self, TRUE, crew_free);
    if (at < 0)
      continue; /* only holds were left */
    crew_free = end_of (self, &self->tasks[at], MAX (self->ready[at], crew_free));
    finish_task (self, (guint) at, crew_free);
  }
}

/* --- network --- */

static const DryNetwork *
compute_network (DrySchedule *self, const DryTask *tasks, guint n, const DryNetworkClock *clock,
                 gboolean longest, GError **error)
{
  DryActivity *activities = dry_arena_new_array (self->arena, DryActivity, n);

  for (guint i = 0; i < n; i++) {
    const DryTask *task = &tasks[i];
    DryLink *links = dry_arena_new_array (self->arena, DryLink, task->n_after);
    for (guint j = 0; j < task->n_after; j++)
      links[j] = (DryLink){tasks[task->after[j].task].id,
                           longest ? task->after[j].longest : task->after[j].wait};
    activities[i] = (DryActivity){task->id, task->minutes, links, task->n_after, task->standing};
  }
  return dry_network_compute (self->arena, activities, n, clock,
                              self->first_day * DRY_MINUTES_A_DAY, error);
}

/* Tasks in the order settled, links told by the new places, and one more link from each piece of
 * work to the crew's next. */
static void
reorder (DrySchedule *self, const DryTask *tasks, const GArray *order)
{
  g_autofree guint *place = g_new (guint, order->len + 1);
  gint last = -1;

  self->n = order->len;
  self->tasks = dry_arena_new_array (self->arena, DryTask, self->n);
  for (guint i = 0; i < self->n; i++)
    place[g_array_index (order, guint, i)] = i;
  for (guint i = 0; i < self->n; i++) {
    DryTask *task = &self->tasks[i];
    DryTaskLink *links;
    *task = tasks[g_array_index (order, guint, i)];
    links = dry_arena_new_array (self->arena, DryTaskLink, task->n_after + 1);
    for (guint j = 0; j < task->n_after; j++) {
      links[j] = task->after[j];
      links[j].task = place[links[j].task];
    }
    task->after = links;
    if (task->kind != DRY_TASK_WORK)
      continue;
    gboolean linked = last < 0;
    for (guint j = 0; j < task->n_after && !linked; j++)
      linked = links[j].task == (guint) last;
    if (!linked)
      links[task->n_after++] = (DryTaskLink){.task = (guint) last, .crew = TRUE};
    last = (gint) i;
  }
}

static void
take_dates (DrySchedule *self, const DryNetwork *network, const DryNetwork *longest)
{
  self->tile_start = self->tile_longest = self->shower = self->shower_longest = -1;
  for (guint i = 0; i < self->n; i++) {
    DryTask *task = &self->tasks[i];
    const DryActivityDates *dates = &network->dates[i];
    task->start = dates->early_start;
    task->finish = dates->early_finish;
    task->late_start = dates->late_start;
    task->late_finish = dates->late_finish;
    task->slack = dates->slack;
    task->critical = dates->critical;
    task->longest_start = longest->dates[i].early_start;
    task->longest_finish = longest->dates[i].early_finish;
    self->hours += task->hours;
    if (g_str_equal (task->step, "tile")) {
      /* the crew sets tile in working hours */
      self->tile_start = MAX (self->tile_start, dry_calendar_begin (self->calendar, task->start));
      self->tile_longest =
          MAX (self->tile_longest, dry_calendar_begin (self->calendar, task->longest_start));
    }
    if (g_str_equal (task->step, "shower")) {
      self->shower = MAX (self->shower, task->start);
      self->shower_longest = MAX (self->shower_longest, task->longest_start);
    }
  }
  if (self->missing)
    self->shower = self->shower_longest = -1;
  self->start = self->n ? self->tasks[0].start : self->first_day * DRY_MINUTES_A_DAY;
  self->finish = network->length;
  self->path = network->path;
  self->n_path = network->n_path;
}

static gboolean
set_first_day (DrySchedule *self, const DryJob *job, const char *start, GError **error)
{
  const char *text = start ? start : job->start;

  self->dated = text != NULL;
  self->first_day = SOME_MONDAY;
  if (!text || dry_date_parse (text, &self->first_day))
    return TRUE;
  g_set_error (error, DRY_ERROR, DRY_ERROR_TEXT,
               "Start: “%s” is no date as 2026-12-01, from 1900 to 9999", text);
  return FALSE;
}

static gboolean
put_on_calendar (DrySchedule *self, GArray *tasks, GError **error)
{
  DryNetworkClock clock = dry_calendar_clock (self->calendar);
  const DryNetwork *network, *longest;
  g_autoptr (GArray) order = g_array_new (FALSE, FALSE, sizeof (guint));
  Crew crew = {.schedule = self,
               .clock = &clock,
               .tasks = (DryTask *) (gpointer) tasks->data,
               .n = tasks->len,
               .order = order};

  network = compute_network (self, crew.tasks, crew.n, &clock, FALSE, error);
  if (!network)
    return FALSE;
  crew.open = dry_arena_new_array (self->arena, guint, crew.n);
  crew.ready = dry_arena_new_array (self->arena, gint64, crew.n);
  crew.pressing = dry_arena_new_array (self->arena, gint64, crew.n);
  crew.done = dry_arena_new_array (self->arena, gboolean, crew.n);
  for (guint i = 0; i < crew.n; i++)
    crew.pressing[i] = network->dates[i].late_start;
  settle_crew (&crew);
  reorder (self, crew.tasks, order);
  network = compute_network (self, self->tasks, self->n, &clock, FALSE, error);
  longest = network ? compute_network (self, self->tasks, self->n, &clock, TRUE, error) : NULL;
  if (!longest)
    return FALSE;
  take_dates (self, network, longest);
  return TRUE;
}

DrySchedule *
dry_schedule_new (const DryPlan *const *plans, guint n_plans, const DryPriceBook *book,
                  const char *start, GError **error)
{
  g_autoptr (DrySchedule) self = g_new0 (DrySchedule, 1);
  g_autoptr (GArray) tasks = g_array_new (FALSE, TRUE, sizeof (DryTask));
  const DryJob *job;

  g_return_val_if_fail (n_plans > 0, NULL);
  job = plans[0]->context.job;
  self->arena = dry_arena_new ();
  self->temperature = job->temperature;
  self->too_cold = job->temperature < DRY_COLDEST;
  self->crew = job->crew > 0 ? (guint) job->crew : 1;
  self->n_rooms = n_plans;
  self->calendar = dry_calendar_new (self->arena, job, error);
  if (!self->calendar || !set_first_day (self, job, start, error))
    return NULL;
  for (guint i = 0; i < n_plans; i++)
    dry_schedule_add_room (&(DryScheduling){self, plans[i], book, i, tasks});
  return put_on_calendar (self, tasks, error) ? g_steal_pointer (&self) : NULL;
}

void
dry_schedule_free (DrySchedule *self)
{
  if (!self)
    return;
  dry_arena_unref (self->arena);
  g_free (self);
}

/* --- texts --- */

static gint64
day_of (gint64 minute)
{
  return minute / DRY_MINUTES_A_DAY;
}

gint64
dry_schedule_count_days (const DrySchedule *self, gint64 minute)
{
  return day_of (minute) - self->first_day + 1;
}

const char *
dry_schedule_day (const DrySchedule *self, gint64 minute)
{
  gint64 day = day_of (minute);
  g_autofree char *date = dry_date_to_text (day);

  if (!self->dated)
    return dry_arena_printf (self->arena, "day %" G_GINT64_FORMAT,
                             dry_schedule_count_days (self, minute));
  return dry_arena_printf (self->arena, "%s %s", dry_weekday_short (dry_date_weekday (day)), date);
}

const char *
dry_schedule_moment (const DrySchedule *self, gint64 minute)
{
  gint of_day = (gint) (minute % DRY_MINUTES_A_DAY);

  return dry_arena_printf (self->arena, "%s%s %02d:%02d", dry_schedule_day (self, minute),
                           self->dated ? "" : ",", of_day / 60, of_day % 60);
}

const DryTask *
dry_schedule_get_task (const DrySchedule *self, const char *id)
{
  for (guint i = 0; i < self->n; i++)
    if (g_str_equal (self->tasks[i].id, id))
      return &self->tasks[i];
  return NULL;
}
