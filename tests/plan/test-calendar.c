/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Dates against a second calendar, and working time minute by minute against counting. */
#include "plan/calendar.h"

#include <string.h>

static void
test_dates (void)
{
  static const char *const bad[] = {"2026-02-29", "2026-13-01", "2026-00-10", "1899-12-31",
                                    "2026-1-01",  "26-01-01",   "2026-01-32", "",
                                    "2026/01/01", "2026-01-0x", " 2026-01-01"};
  gint64 day;
  GDate first;

  for (guint i = 0; i < G_N_ELEMENTS (bad); i++)
    g_assert_false (dry_date_parse (bad[i], &day));
  g_assert_false (dry_date_parse (NULL, &day));
  g_assert_true (dry_date_parse ("1970-01-01", &day));
  g_assert_cmpint (day, ==, 0);
  g_assert_true (dry_date_parse ("2024-02-29", &day));
  /* every day of two centuries and more, against GLib's calendar */
  g_date_clear (&first, 1);
  g_date_set_dmy (&first, 1, 1, 1900);
  for (guint32 julian = g_date_get_julian (&first); julian < 766000; julian += 1) {
    GDate date;
    gint year, month, of_month;
    g_date_clear (&date, 1);
    g_date_set_julian (&date, julian);
    day = (gint64) julian - 719163; /* 1970-01-01 is day 719163 of GLib's count */
    dry_date_split (day, &year, &month, &of_month);
    g_assert_cmpint (year, ==, g_date_get_year (&date));
    g_assert_cmpint (month, ==, (gint) g_date_get_month (&date));
    g_assert_cmpint (of_month, ==, g_date_get_day (&date));
    g_assert_cmpuint (dry_date_weekday (day), ==, (guint) g_date_get_weekday (&date) - 1);
    if (julian % 97 == 0) {
      g_autofree char *text = dry_date_to_text (day);
      gint64 again;
      g_assert_true (dry_date_parse (text, &again));
      g_assert_cmpint (again, ==, day);
    }
  }
}

static const DryCalendar *
make (DryArena *arena, DryJob job)
{
  g_autoptr (GError) error = NULL;
  const DryCalendar *calendar = dry_calendar_new (arena, &job, &error);

  g_assert_no_error (error);
  return calendar;
}

#define AT(date_day, hour, minute) ((date_day) * (gint64) DRY_MINUTES_A_DAY + (hour) *60 + (minute))

static void
test_week (void)
{
  g_autoptr (DryArena) arena = dry_arena_new ();
  const DryCalendar *calendar = make (arena, (DryJob){.holidays = (char *) "2026-12-25"});
  gint64 thursday;

  g_assert_true (dry_date_parse ("2026-12-24", &thursday));
  g_assert_cmpuint (dry_date_weekday (thursday), ==, 3);
  /* Thursday 15:00 and two hours: an hour that day, Friday is Christmas, so Monday 9:00 */
  g_assert_cmpint (dry_calendar_advance (calendar, AT (thursday, 15, 0), 120), ==,
                   AT (thursday + 4, 9, 0));
  g_assert_cmpint (dry_calendar_retreat (calendar, AT (thursday + 4, 9, 0), 120), ==,
                   AT (thursday, 15, 0));
  /* work that fills the day ends that day, not the next morning */
  g_assert_cmpint (dry_calendar_advance (calendar, AT (thursday, 8, 0), 480), ==,
                   AT (thursday, 16, 0));
  g_assert_cmpint (dry_calendar_begin (calendar, AT (thursday, 16, 0)), ==,
                   AT (thursday + 4, 8, 0));
  g_assert_cmpint (dry_calendar_begin (calendar, AT (thursday, 3, 0)), ==, AT (thursday, 8, 0));
  g_assert_false (dry_calendar_works_on (calendar, thursday + 1));
  g_assert_false (dry_calendar_works_on (calendar, thursday + 2));
}

/* Minute by minute: what a patient person with a clock would find. */
static void
test_against_counting (void)
{
  for (guint32 seed = 1; seed <= 60; seed++) {
    g_autoptr (GRand) random = g_rand_new_with_seed (seed);
    g_autoptr (DryArena) arena = dry_arena_new ();
    const DryCalendar *calendar =
        make (arena, (DryJob){.work_days = (char *) (seed % 2 ? "Mon, Wed Sun" : "saturday"),
                              .holidays = (char *) "2026-12-20/2026-12-27 2027-01-02",
                              .day_start = seed % 5 * 2.5,
                              .day_hours = 1 + seed % 13});
    gint64 from = 20800 * (gint64) DRY_MINUTES_A_DAY + g_rand_int_range (random, 0, 9000), at;
    gint64 work = g_rand_int_range (random, 1, 1500), left = work, start = -1, end;

    for (at = from; left > 0; at++) {
      gint64 minute = at % DRY_MINUTES_A_DAY;
      if (!dry_calendar_works_on (calendar, at / DRY_MINUTES_A_DAY) || minute < calendar->from ||
          minute >= calendar->from + calendar->minutes)
        continue;
      if (start < 0)
        start = at;
      left--;
    }
    g_assert_cmpint (dry_calendar_begin (calendar, from), ==, start);
    end = dry_calendar_advance (calendar, start, work);
    g_assert_cmpint (end, ==, at);
    g_assert_cmpint (dry_calendar_between (calendar, from, end), ==, work);
    /* the latest start that still ends by then */
    at = dry_calendar_retreat (calendar, end, work);
    g_assert_cmpint (at, >=, start);
    g_assert_cmpint (dry_calendar_advance (calendar, at, work), <=, end);
    g_assert_cmpint (dry_calendar_advance (calendar, at + 1, work), >, end);
  }
}

static void
test_refusals (void)
{
  static const struct {
    DryJob job;
    const char *says;
  } cases[] = {
      {{.work_days = (char *) "Mon Tewsday"}, "“Tewsday”"},
      {{.work_days = (char *) ", ,"}, "no day to work"},
      {{.holidays = (char *) "2026-12-25 Easter"}, "“Easter”"},
      {{.holidays = (char *) "2027-01-02/2026-12-25"}, "ends before it begins"},
      {{.holidays = (char *) "1990-01-01/2026-12-25"}, "more than"},
      {{.holidays = (char *) "2026-02-30"}, "“2026-02-30”"},
      {{.day_start = 20, .day_hours = 5}, "midnight"},
  };

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++) {
    g_autoptr (DryArena) arena = dry_arena_new ();
    g_autoptr (GError) error = NULL;
    g_assert_null (dry_calendar_new (arena, &cases[i].job, &error));
    g_assert_nonnull (error);
    if (!strstr (error->message, cases[i].says))
      g_error ("“%s” does not say “%s”", error->message, cases[i].says);
  }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/calendar/dates", test_dates);
  g_test_add_func ("/calendar/week", test_week);
  g_test_add_func ("/calendar/against-counting", test_against_counting);
  g_test_add_func ("/calendar/refusals", test_refusals);
  return g_test_run ();
}
