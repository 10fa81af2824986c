/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The schedule as bars over days: work, holds and moments, waits dotted between them, slack as a
 * thin line behind. Drawn at paper size: a millimeter of the scene is one on the page. */
#include "draw/drawing-private.h"

#define LABELS   (62 * DRY_MM)
#define ROW      (6 * DRY_MM)
#define BAR      (34 * DRY_MM / 10)
#define HEAD     (10 * DRY_MM)
#define MAX_DAYS 400 /* drawn; a longer schedule is squeezed */

typedef struct {
  DrySceneBuilder *b;
  const DrySchedule *schedule;
  guint first, n; /* tasks shown */
  gint64 from;    /* minute at the left edge: a midnight */
  gint64 days;
  DryLength width; /* of the days */
} Chart;

static DryLength
x_of (const Chart *self, gint64 minute)
{
  return LABELS + (DryLength) ((double) (minute - self->from) /
                               (double) (self->days * DRY_MINUTES_A_DAY) * (double) self->width);
}

static DryLength
y_of (const Chart *self, guint task)
{
  return -HEAD - (DryLength) (task - self->first) * ROW - ROW / 2;
}

static gboolean
is_shown (const Chart *self, guint task)
{
  return task >= self->first && task < self->first + self->n;
}

/* --- days --- */

static void
draw_day (const Chart *self, gint64 day, DryLength bottom)
{
  gint64 minute = day * DRY_MINUTES_A_DAY;
  DryLength x0 = x_of (self, minute), x1 = x_of (self, minute + DRY_MINUTES_A_DAY);
  DryLook rest = {.fill = DRY_INK_FAINT, .alpha = 0.18};
  gboolean week = dry_date_weekday (day) == 0;
  DryLettering small = {.size = 1.9, .ink = DRY_INK_TEXT_FAINT, .anchor = DRY_ANCHOR_CENTRE};
  gint year, month, of_month;

  if (!dry_calendar_works_on (self->schedule->calendar, day))
    dry_scene_builder_rect (self->b, rest, (DryRect){x0, bottom, x1, -HEAD});
  dry_scene_builder_line (self->b, DRY_LOOK_LINE (DRY_INK_FAINT, week ? DRY_PEN_025 : DRY_PEN_013),
                          (DryPoint){x0, bottom}, (DryPoint){x0, week ? -HEAD / 2 : -HEAD});
  dry_date_split (day, &year, &month, &of_month);
  if (x1 - x0 >= 4 * DRY_MM)
    dry_scene_builder_text (self->b, (DryPoint){(x0 + x1) / 2, -HEAD * 3 / 4}, small, "%d",
                            self->schedule->dated ? of_month
                                                  : (gint) (day - self->schedule->first_day + 1));
  if (!week && day != self->from / DRY_MINUTES_A_DAY)
    return;
  small.anchor = DRY_ANCHOR_LEFT;
  small.size = 2.1;
  if (self->schedule->dated)
    dry_scene_builder_text (self->b, (DryPoint){x0 + DRY_MM / 2, -HEAD / 4}, small,
                            "%04d-%02d-%02d", year, month, of_month);
  else
    dry_scene_builder_text (self->b, (DryPoint){x0 + DRY_MM / 2, -HEAD / 4}, small,
                            "day %" G_GINT64_FORMAT, day - self->schedule->first_day + 1);
}

static void
draw_days (const Chart *self)
{
  gint64 first = self->from / DRY_MINUTES_A_DAY;
  DryLength bottom = -HEAD - (DryLength) self->n * ROW;
  gint64 step = 1 + self->days / MAX_DAYS;

  for (gint64 i = 0; i < self->days; i += step)
    draw_day (self, first + i, bottom);
  dry_scene_builder_rect (self->b, DRY_LOOK_LINE (DRY_INK_LINE, DRY_PEN_025),
                          (DryRect){LABELS, bottom, LABELS + self->width, -HEAD});
}

/* --- tasks --- */

static void
draw_label (const Chart *self, guint index)
{
  const DryTask *task = &self->schedule->tasks[index];
  DryLettering how = {.size = 2.3, .anchor = DRY_ANCHOR_LEFT, .bold = task->critical};
  const char *stop = strchr (task->text, '.');
  g_autofree char *whole =
      stop ? g_strndup (task->text, (gsize) (stop - task->text)) : g_strdup (task->text);
  glong n = g_utf8_strlen (whole, -1);
  g_autofree char *head = g_utf8_substring (whole, 0, MIN (n, 34));

  dry_scene_builder_text (self->b, (DryPoint){0, y_of (self, index)}, how, "%s%s", head,
                          n > 34 ? "…" : "");
}

static void
draw_moment (const Chart *self, const DryTask *task, DryLength y)
{
  DryLength x = x_of (self, task->start), r = BAR / 2;
  DryLook look = {.stroke = DRY_INK_LINE, .pen = DRY_PEN_025, .fill = DRY_INK_LINE, .alpha = 1};

  dry_scene_builder_path (self->b, look,
                          (DryPoint[]){{x - r, y}, {x, y - r}, {x + r, y}, {x, y + r}}, 4, TRUE);
}

static void
draw_bar (const Chart *self, const DryTask *task, DryLength y)
{
  DryLength x0 = x_of (self, task->start), x1 = MAX (x_of (self, task->finish), x0 + DRY_MM / 2);
  DryLook look = {.stroke = task->critical ? DRY_INK_STOP : DRY_INK_BASIN,
                  .pen = DRY_PEN_025,
                  .fill = task->critical ? DRY_INK_STOP : DRY_INK_BASIN,
                  .alpha = task->kind == DRY_TASK_HOLD ? 0.05 : 0.45,
                  .hatch = task->kind == DRY_TASK_HOLD ? DRY_HATCH_DIAGONAL : DRY_HATCH_NONE};

  dry_scene_builder_rect (self->b, look, (DryRect){x0, y - BAR / 2, x1, y + BAR / 2});
  if (task->slack > 0)
    dry_scene_builder_line (self->b, DRY_LOOK_LINE (DRY_INK_FAINT, DRY_PEN_035),
                            (DryPoint){x1, y - BAR / 2},
                            (DryPoint){MAX (x1, x_of (self, task->late_finish)), y - BAR / 2});
}

/* A wait runs from the end of what it is after to where it is over. */
static void
draw_waits (const Chart *self, guint index)
{
  const DryTask *task = &self->schedule->tasks[index];
  DryLook look = {.stroke = DRY_INK_LINE, .pen = DRY_PEN_018, .dash = DRY_DASH_DOTTED};

  for (guint i = 0; i < task->n_after; i++) {
    const DryTaskLink *link = &task->after[i];
    const DryTask *before = &self->schedule->tasks[link->task];
    DryLength y = y_of (self, link->task);
    if (link->wait <= 0 || !is_shown (self, link->task))
      continue;
    dry_scene_builder_line (self->b, look, (DryPoint){x_of (self, before->finish), y},
                            (DryPoint){x_of (self, before->finish + link->wait), y});
    dry_scene_builder_line (
        self->b, look, (DryPoint){x_of (self, before->finish + link->wait), y},
        (DryPoint){x_of (self, before->finish + link->wait), y_of (self, index) + BAR / 2});
  }
}

DryScene *
dry_drawing_gantt (const DrySchedule *schedule, const DryJob *job, guint first, guint n)
{
  DrySceneBuilder b;
  Chart self = {&b, schedule, first,       MIN (n, schedule->n - MIN (first, schedule->n)),
                0,  0,        120 * DRY_MM};
  gint64 last;

  dry_scene_builder_init (&b, job);
  dry_scene_builder_begin_view (&b, DRY_VIEW_SHEET, 0, (DryPoint){0, 0}, "Schedule");
  dry_scene_builder_tag (&b, DRY_LAYER_ROOM, DRY_SHOWS_NOTHING, 0, -1);
  self.from = schedule->first_day * DRY_MINUTES_A_DAY;
  last = MAX (schedule->finish, self.from + 1);
  self.days = (last - self.from + DRY_MINUTES_A_DAY - 1) / DRY_MINUTES_A_DAY;
  /* letters count for nothing in a scene's bounds: the whole sheet does */
  dry_scene_builder_rect (
      &b, (DryLook){0},
      (DryRect){0, -HEAD - (DryLength) self.n * ROW - DRY_MM, LABELS + self.width + DRY_MM, 0});
  draw_days (&self);
  for (guint i = 0; i < self.n; i++) {
    const DryTask *task = &schedule->tasks[first + i];
    dry_scene_builder_tag (&b, DRY_LAYER_LABELS, DRY_SHOWS_NOTHING, 0, (gint) (first + i));
    draw_label (&self, first + i);
    dry_scene_builder_tag (&b, DRY_LAYER_ROOM, DRY_SHOWS_NOTHING, 0, (gint) (first + i));
    draw_waits (&self, first + i);
    if (task->kind == DRY_TASK_MILESTONE)
      draw_moment (&self, task, y_of (&self, first + i));
    else
      draw_bar (&self, task, y_of (&self, first + i));
  }
  dry_scene_builder_end_view (&b);
  return dry_scene_builder_finish (&b);
}
