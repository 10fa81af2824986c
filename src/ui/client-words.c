/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Texts of design come from plan/compare.h; money and days are written anew as the user's locale
 * does, from the same figures. */
#define G_LOG_DOMAIN "drybay-ui"
#include "ui/client-words.h"

#include <glib/gi18n.h>

#include "ui/ledger-pages.h"

static char *
text_long_day (const DrySchedule *schedule, gint64 minute)
{
  gint year, month, day;
  g_autoptr (GDateTime) date = NULL;

  if (!schedule->dated)
    return g_strdup_printf (_ ("on day %d"), (int) dry_schedule_count_days (schedule, minute));
  dry_date_split (minute / DRY_MINUTES_A_DAY, &year, &month, &day);
  date = g_date_time_new_utc (year, month, day, 0, 0, 0);
  /* Translators: a date as it is said, "Tuesday 8 Dec": strftime letters */
  return g_date_time_format (date, _ ("%A %-d %b"));
}

char *
dry_client_ready (const DryOption *option)
{
  const DrySchedule *schedule = option->schedule;
  g_autofree char *day = NULL;

  if (schedule->too_cold)
    return g_strdup (_ ("Too cold to set tile: no day can be told"));
  if (schedule->shower < 0)
    return g_strdup (_ ("The day of the first shower is not known yet"));
  day = text_long_day (schedule, schedule->shower);
  /* Translators: followed by a date or "on day 14" */
  return g_strdup_printf (_ ("First shower %s"), day);
}

char *
dry_client_price (const DryOption *option)
{
  g_autofree char *money = dry_text_money (option->cost->total);
  const char *currency = option->cost->book->currency;

  if (option->cost->n_gaps > 0)
    /* Translators: sum, currency */
    return g_strdup_printf (_ ("%s %s and what has no price yet"), money, currency);
  return g_strdup_printf ("%s %s", money, currency);
}

const char *
dry_client_system (const DryOption *option)
{
  return option->plans[0]->context.system->name;
}

/* "labor 175.50 more, material 93.10 less". What a firm lays on top is nobody's business but its
 * own: it counts as labor here, and the parts still make the whole. NULL when nothing differs. */
static char *
tell_parts (const DryOption *now, const DryOption *was)
{
  g_autoptr (GString) text = g_string_new (NULL);

  for (guint i = 0; i < DRY_N_COST_GROUPS; i++) {
    gint64 by = now->cost->sum[i] - was->cost->sum[i];
    g_autofree char *money = NULL;

    if (i == DRY_COST_MARKUP)
      continue;
    if (i == DRY_COST_LABOR)
      by += now->cost->sum[DRY_COST_MARKUP] - was->cost->sum[DRY_COST_MARKUP];
    if (by == 0)
      continue;
    money = dry_text_money (ABS (by));
    if (text->len > 0)
      g_string_append (text, ", ");
    g_string_append_printf (text, by > 0 ? _ ("%s %s more") : _ ("%s %s less"),
                            _ (dry_cost_group_to_text (i)), money);
  }
  return text->len > 0 ? g_strdup (text->str) : NULL;
}

/* "118.00 more", and what it is made of when that was asked for. */
static void
add_money (GPtrArray *lines, const DryOption *now, const DryOption *was, gboolean why)
{
  gint64 by = now->cost->total - was->cost->total;
  g_autofree char *money = dry_text_money (ABS (by));
  g_autofree char *text = g_strdup_printf (by > 0 ? _ ("%s %s more") : _ ("%s %s less"), money,
                                           now->cost->book->currency);
  g_autofree char *parts = why ? tell_parts (now, was) : NULL;

  if (parts != NULL)
    g_ptr_array_add (lines, g_strdup_printf ("%s: %s", text, parts));
  else
    g_ptr_array_add (lines, g_steal_pointer (&text));
}

static void
add_days (GPtrArray *lines, const DryOption *now, const DryOption *was)
{
  gint64 by = now->schedule->shower / DRY_MINUTES_A_DAY - was->schedule->shower / DRY_MINUTES_A_DAY;
  guint n = (guint) ABS (by);

  if (now->schedule->shower < 0 || was->schedule->shower < 0 || by == 0)
    return;
  g_ptr_array_add (
      lines,
      by > 0 ? g_strdup_printf (ngettext ("Ready %u day later", "Ready %u days later", n), n)
             : g_strdup_printf (ngettext ("Ready %u day sooner", "Ready %u days sooner", n), n));
}

/* "without the niche" becomes "Without the niche". */
static char *
begin_large (const char *text)
{
  gunichar first = g_unichar_toupper (g_utf8_get_char (text));
  char letter[8] = {0};

  g_unichar_to_utf8 (first, letter);
  return g_strconcat (letter, g_utf8_next_char (text), NULL);
}

GPtrArray *
dry_client_differences (const DryOption *now, const DryOption *was, gboolean prices, gboolean why)
{
  GPtrArray *lines = g_ptr_array_new_with_free_func (g_free);
  DryArena *arena = dry_arena_new ();
  g_autoptr (GArray) list = dry_option_list_differences (now, was, arena);
  gboolean money = FALSE;

  for (guint i = 0; i < list->len; i++) {
    const DryDifference *difference = &g_array_index (list, DryDifference, i);
    if (difference->about == DRY_ABOUT_DESIGN && *difference->text)
      g_ptr_array_add (lines, begin_large (difference->text));
    else if (difference->about == DRY_ABOUT_MONEY && prices && !money &&
             now->cost->total != was->cost->total) {
      add_money (lines, now, was, why);
      money = TRUE;
    }
  }
  add_days (lines, now, was);
  dry_arena_unref (arena);
  return lines;
}
