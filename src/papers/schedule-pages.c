/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The crew's schedule: a chart of the tasks over the days, then day by day what is done, what is
 * waited for and what must be passed. Dates and hours are the schedule's own. */
#include "papers/client-private.h"

#define ROWS_A_CHART 30

static void
add_charts (DryFlow *flow, const DrySchedule *schedule)
{
  const DryJob *job = flow->plan->context.job;

  for (guint first = 0; first < schedule->n; first += ROWS_A_CHART) {
    g_autoptr (DryScene) scene = dry_drawing_gantt (schedule, job, first, ROWS_A_CHART);
    double width = (double) dry_rect_width (scene->bounds) / (double) DRY_MM;
    double height = (double) dry_rect_height (scene->bounds) / (double) DRY_MM;
    double ratio = MAX (1, MAX (width / flow->width, height / (flow->bottom - flow->top - 20)));
    dry_flow_need (flow, height / ratio + 2);
    dry_page_add_scene (flow->page, scene, flow->left, flow->y, ratio);
    dry_flow_skip (flow, height / ratio + 4);
  }
  dry_flow_text (flow, dry_type_small, 0,
                 "Red: on the critical path. Hatched: hold. Diamond: a moment. Dotted: a wait, "
                 "through nights and weekends. Thin line behind a bar: slack. Grey: not worked.");
}

static char *
write_waits (const DryFlow *flow, const DrySchedule *schedule, const DryTask *task)
{
  GString *out = g_string_new (NULL);

  for (guint i = 0; i < task->n_after; i++) {
    const DryTaskLink *link = &task->after[i];
    g_autofree char *hours = dry_flow_number (flow->papers, (double) link->wait / 60, 1);
    if (link->wait <= 0)
      continue;
    g_string_append_printf (out, "%snot before %s h after “%s”: %s", out->len ? "; " : "", hours,
                            schedule->tasks[link->task].step, link->because);
  }
  return g_string_free (out, out->len == 0);
}

static void
add_task (DryFlow *flow, const DryTable *table, const DrySchedule *schedule,
          const DryPlan *const *plans, const DryTask *task)
{
  DrySchedule *texts = (DrySchedule *) schedule;
  gint from = (gint) (task->start % DRY_MINUTES_A_DAY);
  g_autofree char *clock = g_strdup_printf ("%02d:%02d", from / 60, from % 60);
  g_autofree char *hours = dry_flow_number (flow->papers, task->hours, 1);
  g_autofree char *people = g_strdup_printf ("%s h × %u", hours, task->crew);
  g_autofree char *slack = dry_flow_number (flow->papers, (double) task->slack / 60, 1);
  g_autofree char *foot = write_waits (flow, schedule, task);
  g_autofree char *text =
      schedule->n_rooms > 1
          ? g_strdup_printf ("%s: %s", dry_flow_room_name (plans[task->room]), task->text)
          : g_strdup (task->text);
  g_autofree char *free_hours =
      task->critical ? g_strdup ("critical") : g_strdup_printf ("%s h free", slack);
  const char *cells[] = {clock, text, task->hours > 0 ? people : "",
                         dry_schedule_moment (texts, task->finish),
                         task->kind == DRY_TASK_HOLD ? "HOLD" : free_hours};

  dry_flow_table_row (flow, table, cells, task->kind == DRY_TASK_HOLD, foot, 1);
}

static int
compare_start (gconstpointer a, gconstpointer b)
{
  const DryTask *first = *(const DryTask *const *) a, *second = *(const DryTask *const *) b;

  if (first->start != second->start)
    return first->start < second->start ? -1 : 1;
  return first < second ? -1 : 1;
}

static void
add_days (DryFlow *flow, const DrySchedule *schedule, const DryPlan *const *plans)
{
  static const DryColumn columns[] = {{"From", 0.08, DRY_ALIGN_LEFT},
                                      {"What", 0.50, DRY_ALIGN_LEFT},
                                      {"Work", 0.12, DRY_ALIGN_RIGHT},
                                      {"Done", 0.18, DRY_ALIGN_LEFT},
                                      {"", 0.12, DRY_ALIGN_LEFT}};
  const DryTable table = {columns, G_N_ELEMENTS (columns)};
  g_autoptr (GPtrArray) tasks = g_ptr_array_new ();
  gint64 day = G_MININT64;

  for (guint i = 0; i < schedule->n; i++)
    g_ptr_array_add (tasks, &schedule->tasks[i]);
  g_ptr_array_sort (tasks, compare_start);
  dry_flow_begin (flow, "Day by day");
  dry_flow_table_head (flow, &table);
  for (guint i = 0; i < tasks->len; i++) {
    const DryTask *task = tasks->pdata[i];
    if (task->start / DRY_MINUTES_A_DAY != day)
      dry_flow_table_group (flow, &table, dry_schedule_day ((DrySchedule *) schedule, task->start));
    day = task->start / DRY_MINUTES_A_DAY;
    add_task (flow, &table, schedule, plans, task);
  }
  dry_flow_table_end (flow);
}

gboolean
dry_papers_write_schedule (const DrySchedule *schedule, const DryPlan *const *plans, guint n_plans,
                           const DryPaperOptions *options, const char *path, GError **error)
{
  DryFlow flow;
  DrySchedule *texts = (DrySchedule *) schedule;
  g_autofree char *degrees = NULL, *facts = NULL;

  dry_client_open (&flow, plans[0], options);
  dry_flow_begin (&flow, "Schedule");
  degrees = dry_flow_number (flow.papers, schedule->temperature, 1);
  facts = g_strdup_printf (
      "%u at work; room at %s °C. Tiling can start %s; first shower %s.", schedule->crew, degrees,
      schedule->tile_start >= 0 ? dry_schedule_moment (texts, schedule->tile_start) : "–",
      schedule->shower >= 0 ? dry_schedule_moment (texts, schedule->shower) : "–");
  dry_flow_text (&flow, dry_type_body, 0, facts);
  if (schedule->too_cold)
    dry_flow_text (&flow, dry_type_strong, 0,
                   "Too cold: below 10 °C mortar and membrane do not set. Heat the room first.");
  dry_flow_skip (&flow, 2);
  add_charts (&flow, schedule);
  add_days (&flow, schedule, plans);
  return dry_client_close (&flow, "Schedule of a wet area", path, error);
}
