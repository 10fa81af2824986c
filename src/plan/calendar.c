/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Whole days by arithmetic, and working minutes laid on them.
 * A working day is one stretch; breaks within it are not hands-on hours and stand in no quantity.
 */
#include "plan/calendar.h"

#include <string.h>

#define USUAL_FROM    (8 * 60)
#define USUAL_MINUTES (8 * 60)
#define MAX_FREE_DAYS 3660 /* in all, ten years: a search for the next day then ends soon */

/* --- dates --- */

/* Days of the civil calendar by years that begin in March, so that leap days come last. */
static gint64
day_of (gint year, gint month, gint of_month)
{
  gint64 y = year - (month <= 2), era = (y >= 0 ? y : y - 399) / 400, year_of_era = y - era * 400;
  gint64 day_of_year = (153 * (month + (month > 2 ? -3 : 9)) + 2) / 5 + of_month - 1;
  gint64 day_of_era = year_of_era * 365 + year_of_era / 4 - year_of_era / 100 + day_of_year;

  return era * 146097 + day_of_era - 719468;
}

void
dry_date_split (gint64 day, gint *year, gint *month, gint *of_month)
{
  gint64 shifted = day + 719468, era = (shifted >= 0 ? shifted : shifted - 146096) / 146097;
  gint64 day_of_era = shifted - era * 146097;
  gint64 year_of_era =
      (day_of_era - day_of_era / 1460 + day_of_era / 36524 - day_of_era / 146096) / 365;
  gint64 day_of_year = day_of_era - (365 * year_of_era + year_of_era / 4 - year_of_era / 100);
  gint64 from_march = (5 * day_of_year + 2) / 153;

  *of_month = (gint) (day_of_year - (153 * from_march + 2) / 5 + 1);
  *month = (gint) (from_march < 10 ? from_march + 3 : from_march - 9);
  *year = (gint) (year_of_era + era * 400 + (*month <= 2));
}

static gint
read_digits (const char *text, guint n)
{
  gint value = 0;

  for (guint i = 0; i < n; i++) {
    if (!g_ascii_isdigit (text[i]))
      return -1;
    value = value * 10 + text[i] - '0';
  }
  return value;
}

gboolean
dry_date_parse (const char *text, gint64 *day)
{
  gint year, month, of_month, y, m, d;

  if (!text || strlen (text) != 10 || text[4] != '-' || text[7] != '-')
    return FALSE;
  year = read_digits (text, 4);
  month = read_digits (text + 5, 2);
  of_month = read_digits (text + 8, 2);
  if (year < 1900 || month < 1 || month > 12 || of_month < 1 || of_month > 31)
    return FALSE;
  *day = day_of (year, month, of_month);
  dry_date_split (*day, &y, &m, &d); /* 30 February comes back as something else */
  return y == year && m == month && d == of_month;
}

char *
dry_date_to_text (gint64 day)
{
  gint year, month, of_month;

  dry_date_split (day, &year, &month, &of_month);
  return g_strdup_printf ("%04d-%02d-%02d", year, month, of_month);
}

guint
dry_date_weekday (gint64 day)
{
  return (guint) (((day + 3) % 7 + 7) % 7); /* 1970-01-01 was a Thursday */
}

static const char *const weekdays[] = {"Monday", "Tuesday",  "Wednesday", "Thursday",
                                       "Friday", "Saturday", "Sunday"};
static const char *const short_weekdays[] = {"Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun"};

const char *
dry_weekday_name (guint weekday)
{
  return weekdays[weekday % 7];
}

const char *
dry_weekday_short (guint weekday)
{
  return short_weekdays[weekday % 7];
}

/* --- reading the job's calendar --- */

static gboolean
read_days (DryCalendar *self, const char *text, GError **error)
{
  g_auto (GStrv) words = g_strsplit_set (text, " ,", -1);
  gboolean any = FALSE;

  for (guint i = 0; words[i]; i++) {
    gboolean known = *words[i] == '\0';
    for (guint day = 0; day < 7; day++)
      if (g_ascii_strcasecmp (words[i], short_weekdays[day]) == 0 ||
          g_ascii_strcasecmp (words[i], weekdays[day]) == 0)
        self->works[day] = any = known = TRUE;
    if (!known) {
      g_set_error (error, DRY_ERROR, DRY_ERROR_TEXT,
                   "Working days: “%s” is none of Mon, Tue, Wed, Thu, Fri, Sat, Sun", words[i]);
      return FALSE;
    }
  }
  if (!any)
    g_set_error (error, DRY_ERROR, DRY_ERROR_LIMIT, "Working days: there is no day to work");
  return any;
}

static gboolean
read_free_days (const char *word, DryFreeDays *out, GError **error)
{
  const char *slash = strchr (word, '/');
  g_autofree char *first = slash ? g_strndup (word, (gsize) (slash - word)) : g_strdup (word);

  if (!dry_date_parse (first, &out->first) ||
      !dry_date_parse (slash ? slash + 1 : word, &out->last)) {
    g_set_error (error, DRY_ERROR, DRY_ERROR_TEXT,
                 "Holidays: “%s” is no date as 2026-12-25 nor a stretch as 2026-12-24/2027-01-02",
                 word);
    return FALSE;
  }
  if (out->last < out->first) {
    g_set_error (error, DRY_ERROR, DRY_ERROR_TEXT, "Holidays: “%s” ends before it begins", word);
    return FALSE;
  }
  return TRUE;
}

static gboolean
read_holidays (DryCalendar *self, DryArena *arena, const char *text, GError **error)
{
  g_auto (GStrv) words = g_strsplit_set (text, " ,", -1);
  GArray *all = g_array_new (FALSE, FALSE, sizeof (DryFreeDays));
  gboolean good = TRUE;
  gint64 sum = 0;

  for (guint i = 0; words[i] && good; i++) {
    DryFreeDays days;
    if (*words[i] == '\0')
      continue;
    good = read_free_days (words[i], &days, error);
    if (!good)
      break;
    sum += days.last - days.first + 1;
    if (sum > MAX_FREE_DAYS) {
      g_set_error (error, DRY_ERROR, DRY_ERROR_LIMIT, "Holidays: more than %d days in all",
                   MAX_FREE_DAYS);
      good = FALSE;
    }
    g_array_append_val (all, days);
  }
  self->n_free = all->len;
  self->free_days = dry_arena_take_array (arena, all);
  return good;
}

const DryCalendar *
dry_calendar_new (DryArena *arena, const DryJob *job, GError **error)
{
  DryCalendar *self = dry_arena_alloc (arena, sizeof *self);

  self->from = job->day_start > 0 ? (gint) (job->day_start * 60 + 0.5) : USUAL_FROM;
  self->minutes = job->day_hours > 0 ? (gint) (job->day_hours * 60 + 0.5) : USUAL_MINUTES;
  if (self->minutes < 1 || self->from + self->minutes > DRY_MINUTES_A_DAY) {
    g_set_error (error, DRY_ERROR, DRY_ERROR_LIMIT, "The working day does not end before midnight");
    return NULL;
  }
  if (!read_days (self, job->work_days ? job->work_days : "Mon Tue Wed Thu Fri", error) ||
      !read_holidays (self, arena, job->holidays ? job->holidays : "", error))
    return NULL;
  return self;
}

/* --- working time --- */

gboolean
dry_calendar_works_on (const DryCalendar *self, gint64 day)
{
  if (!self->works[dry_date_weekday (day)])
    return FALSE;
  for (guint i = 0; i < self->n_free; i++)
    if (day >= self->free_days[i].first && day <= self->free_days[i].last)
      return FALSE;
  return TRUE;
}

static gint64
day_at (gint64 minute)
{
  return minute >= 0 ? minute / DRY_MINUTES_A_DAY
                     : -((DRY_MINUTES_A_DAY - 1 - minute) / DRY_MINUTES_A_DAY);
}

gint64
dry_calendar_begin (const DryCalendar *self, gint64 at)
{
  gint64 day = day_at (at), open = day * DRY_MINUTES_A_DAY + self->from;

  if (dry_calendar_works_on (self, day) && at < open + self->minutes)
    return MAX (at, open);
  do
    day++;
  while (!dry_calendar_works_on (self, day));
  return day * DRY_MINUTES_A_DAY + self->from;
}

gint64
dry_calendar_advance (const DryCalendar *self, gint64 from, gint64 work)
{
  gint64 at = dry_calendar_begin (self, from);

  while (work > 0) {
    gint64 close = day_at (at) * DRY_MINUTES_A_DAY + self->from + self->minutes;
    gint64 done = MIN (work, close - at);
    at += done;
    work -= done;
    if (work > 0)
      at = dry_calendar_begin (self, at);
  }
  return at;
}

/* The last moment at or before `at` up to which work can have gone on. */
static gint64
end_before (const DryCalendar *self, gint64 at)
{
  gint64 day = day_at (at), open = day * DRY_MINUTES_A_DAY + self->from;

  if (dry_calendar_works_on (self, day) && at > open)
    return MIN (at, open + self->minutes);
  do
    day--;
  while (!dry_calendar_works_on (self, day));
  return day * DRY_MINUTES_A_DAY + self->from + self->minutes;
}

gint64
dry_calendar_retreat (const DryCalendar *self, gint64 at, gint64 work)
{
  while (work > 0) {
    gint64 end = end_before (self, at), day = day_at (end - 1);
    gint64 done = MIN (work, end - (day * DRY_MINUTES_A_DAY + self->from));
    at = end - done;
    work -= done;
  }
  return at;
}

gint64
dry_calendar_between (const DryCalendar *self, gint64 from, gint64 to)
{
  gint64 minutes = 0;

  for (gint64 day = day_at (from); day <= day_at (to) && to > from; day++) {
    gint64 open = day * DRY_MINUTES_A_DAY + self->from;
    if (dry_calendar_works_on (self, day))
      minutes += MAX (0, MIN (to, open + self->minutes) - MAX (from, open));
  }
  return minutes;
}

static gint64
clock_begin (gconstpointer data, gint64 at)
{
  return dry_calendar_begin (data, at);
}

static gint64
clock_advance (gconstpointer data, gint64 from, gint64 work)
{
  return dry_calendar_advance (data, from, work);
}

static gint64
clock_retreat (gconstpointer data, gint64 at, gint64 work)
{
  return dry_calendar_retreat (data, at, work);
}

DryNetworkClock
dry_calendar_clock (const DryCalendar *self)
{
  return (DryNetworkClock){clock_begin, clock_advance, clock_retreat, self};
}
