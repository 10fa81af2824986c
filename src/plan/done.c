/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Reads and writes the room's list of steps with their moments. A wait counts from when the earlier
 * step was really done, not from when it was planned. */
#include "plan/done.h"

#include <string.h>

gboolean
dry_moment_parse (const char *text, gint64 *minute)
{
  g_autofree char *day_text = text ? g_strndup (text, 10) : NULL;
  gint64 day;
  gint hour, of_hour;

  if (!text || strlen (text) != 16 || text[10] != 'T' || text[13] != ':' ||
      !dry_date_parse (day_text, &day))
    return FALSE;
  for (guint i = 11; i < 16; i++)
    if (i != 13 && !g_ascii_isdigit (text[i]))
      return FALSE;
  hour = (text[11] - '0') * 10 + text[12] - '0';
  of_hour = (text[14] - '0') * 10 + text[15] - '0';
  if (hour > 23 || of_hour > 59)
    return FALSE;
  *minute = day * DRY_MINUTES_A_DAY + hour * 60 + of_hour;
  return TRUE;
}

char *
dry_moment_to_text (gint64 minute)
{
  g_autofree char *day = dry_date_to_text (minute / DRY_MINUTES_A_DAY);
  gint of_day = (gint) (minute % DRY_MINUTES_A_DAY);

  return g_strdup_printf ("%sT%02d:%02d", day, of_day / 60, of_day % 60);
}

/* The word of `step` in the list, or NULL. */
static char *
find_word (char **words, const char *step)
{
  gsize length = strlen (step);

  for (guint i = 0; words[i]; i++)
    if (g_str_has_prefix (words[i], step) && words[i][length] == '=')
      return words[i];
  return NULL;
}

gint64
dry_done_get (const char *done, const char *step)
{
  g_auto (GStrv) words = g_strsplit (done ? done : "", " ", -1);
  char *word = find_word (words, step);
  gint64 minute;

  return word && dry_moment_parse (strchr (word, '=') + 1, &minute) ? minute : -1;
}

char *
dry_done_set (const char *done, const char *step, gint64 minute)
{
  g_auto (GStrv) words = g_strsplit (done ? done : "", " ", -1);
  g_autofree char *moment = minute >= 0 ? dry_moment_to_text (minute) : NULL;
  char *old = find_word (words, step);
  GString *text = g_string_new (NULL);

  for (guint i = 0; words[i]; i++)
    if (*words[i] && words[i] != old)
      g_string_append_printf (text, "%s%s", text->len ? " " : "", words[i]);
  if (moment)
    g_string_append_printf (text, "%s%s=%s", text->len ? " " : "", step, moment);
  if (text->len > 0)
    return g_string_free (text, FALSE);
  g_string_free (text, TRUE);
  return NULL;
}

/* A moment is nothing one does: what comes before it counts instead. */
static gboolean
judge_links (const DrySchedule *schedule, const DryTask *task, const char *done, gint64 now,
             gint64 wait, const char *because, DryTick *tick)
{
  for (guint i = 0; i < task->n_after; i++) {
    const DryTaskLink *link = &task->after[i];
    const DryTask *earlier = &schedule->tasks[link->task];
    gint64 at, whole = wait + link->wait;
    const char *why = link->wait > 0 ? link->because : because;

    if (link->crew || earlier->room != task->room)
      continue;
    if (earlier->kind == DRY_TASK_MILESTONE) {
      if (!judge_links (schedule, earlier, done, now, whole, why, tick))
        return FALSE;
      continue;
    }
    at = dry_done_get (done, earlier->step);
    if (at < 0) {
      *tick = (DryTick){DRY_TICK_EARLY, earlier, NULL, 0};
      return FALSE;
    }
    if (at + whole > now && at + whole > tick->until)
      *tick = (DryTick){DRY_TICK_CURING, earlier, why, at + whole};
  }
  return TRUE;
}

DryTick
dry_done_judge (const DrySchedule *schedule, guint index, const char *done, gint64 now)
{
  const DryTask *task = &schedule->tasks[index];
  DryTick tick = {DRY_TICK_FREE, NULL, NULL, 0};
  gint64 at = dry_done_get (done, task->step);

  if (at >= 0)
    return (DryTick){DRY_TICK_DONE, NULL, NULL, at};
  judge_links (schedule, task, done, now, 0, NULL, &tick);
  return tick;
}
