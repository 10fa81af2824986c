/* SPDX-License-Identifier: GPL-3.0-or-later */
/* drybay-cli schedule: when what is done, as a text table, JSON or a calendar file; and the
 * critical path of a bare list of activities. The first day is given: no clock is asked. */
#include <math.h>
#include <string.h>

#include "cli/book-option.h"
#include "cli/command.h"
#include "cli/paper-option.h"
#include "papers/client-papers.h"
#include "papers/ics.h"
#include "papers/output.h"

static gboolean as_network, as_json;
static char *start, *ics, *book_name, *output, *paper;

/* --- a bare list --- */

/* Durations may have decimals, as many as a millionth. */
#define SCALE 1e6

static gint64
read_time (DryJson node, gboolean required)
{
  const double most = (double) (DRY_MAX_TIME / DRY_MAX_ACTIVITIES) / SCALE;

  if (!required && !dry_json_is_present (node))
    return 0;
  return (gint64) round (dry_json_number (node, 0, floor (most)) * SCALE);
}

/* The members of the list; `waits` gets what each asks for after itself. */
static DryActivity *
read_activities (DryJson root, DryArena *arena, gint64 **waits, guint *n)
{
  DryActivity *activities;

  *n = dry_json_array_length (root);
  if (*n > DRY_MAX_ACTIVITIES)
    dry_json_fail (root, DRY_ERROR_LIMIT, "%u activities; at most %d may be", *n,
                   DRY_MAX_ACTIVITIES);
  activities = dry_arena_new_array (arena, DryActivity, *n);
  *waits = dry_arena_new_array (arena, gint64, *n);
  for (guint i = 0; i < *n && !dry_json_has_failed (root.doc); i++) {
    DryJson node = dry_json_item (root, i), after = dry_json_opt (node, "after");
    guint n_after = dry_json_is_present (after) ? dry_json_array_length (after) : 0;
    DryLink *links = dry_arena_new_array (arena, DryLink, n_after);

    dry_json_only_keys (node, "id", "duration", "after", "wait", NULL);
    activities[i].id = dry_json_string (dry_json_get (node, "id"));
    activities[i].duration = read_time (dry_json_get (node, "duration"), TRUE);
    (*waits)[i] = read_time (dry_json_opt (node, "wait"), FALSE);
    for (guint j = 0; j < n_after; j++)
      links[j].id = dry_json_string (dry_json_item (after, j));
    activities[i].after = links;
    activities[i].n_after = n_after;
  }
  return activities;
}

/* What an activity asks to be waited after it is on every link from it. */
static void
set_waits (DryActivity *activities, const gint64 *waits, guint n)
{
  g_autoptr (GHashTable) places = g_hash_table_new (g_str_hash, g_str_equal);

  for (guint i = 0; i < n; i++)
    g_hash_table_insert (places, (gpointer) activities[i].id, GUINT_TO_POINTER (i + 1));
  for (guint i = 0; i < n; i++)
    for (guint j = 0; j < activities[i].n_after; j++) {
      DryLink *link = (DryLink *) &activities[i].after[j];
      guint at = GPOINTER_TO_UINT (g_hash_table_lookup (places, link->id));
      link->wait = at ? waits[at - 1] : 0;
    }
}

static void
write_time (DryJsonWriter *writer, const char *key, gint64 time)
{
  dry_json_write_number (writer, key, (double) time / SCALE);
}

static int
print_network (const DryActivity *activities, const DryNetwork *network)
{
  DryJsonWriter *writer = dry_json_writer_new ();
  g_autofree char *text = NULL;
  gsize length;

  dry_json_begin_object (writer, NULL);
  write_time (writer, "length", network->length);
  dry_json_begin_array_inline (writer, "critical_path");
  for (guint i = 0; i < network->n_path; i++)
    dry_json_write_string (writer, NULL, activities[network->path[i]].id);
  dry_json_end_array (writer);
  dry_json_begin_array (writer, "activities");
  for (guint i = 0; i < network->n; i++) {
    const DryActivityDates *dates = &network->dates[i];
    dry_json_begin_object_inline (writer, NULL);
    dry_json_write_string (writer, "id", activities[i].id);
    write_time (writer, "duration", activities[i].duration);
    write_time (writer, "early_start", dates->early_start);
    write_time (writer, "early_finish", dates->early_finish);
    write_time (writer, "late_start", dates->late_start);
    write_time (writer, "late_finish", dates->late_finish);
    write_time (writer, "slack", dates->slack);
    dry_json_write_boolean (writer, "critical", dates->critical);
    dry_json_end_object (writer);
  }
  dry_json_end_array (writer);
  dry_json_end_object (writer);
  text = dry_json_writer_finish (writer, &length);
  return dry_cli_print (text, length);
}

static int
run_network (const char *path)
{
  g_autofree char *text = NULL, *shown = g_filename_display_name (path);
  g_autoptr (GError) error = NULL;
  g_autoptr (DryJsonDocument) document = NULL;
  g_autoptr (DryArena) arena = dry_arena_new ();
  DryActivity *activities;
  const DryNetwork *network;
  gint64 *waits;
  gsize length;
  guint n;

  if (!g_file_get_contents (path, &text, &length, &error) ||
      !(document = dry_json_document_new (text, length, shown, &error)))
    return dry_cli_fail (error);
  activities = read_activities (dry_json_root (document), arena, &waits, &n);
  if (!dry_json_finish (document, &error))
    return dry_cli_fail (error);
  set_waits (activities, waits, n);
  network = dry_network_compute (arena, activities, n, NULL, 0, &error);
  if (!network) {
    g_prefix_error (&error, "%s: ", shown);
    return dry_cli_fail (error);
  }
  return print_network (activities, network);
}

/* --- a project --- */

static void
append_task (GString *text, const DrySchedule *schedule, const DryTask *task)
{
  char hours[G_ASCII_DTOSTR_BUF_SIZE], slack[G_ASCII_DTOSTR_BUF_SIZE];
  const char *from = dry_schedule_moment (schedule, task->start);
  const char *to = dry_schedule_moment (schedule, task->finish);

  g_ascii_formatd (hours, sizeof hours, "%.1f", task->hours);
  g_ascii_formatd (slack, sizeof slack, "%.1f", (double) task->slack / 60);
  g_string_append_printf (text, "%s %-20s  %-20s %-22s %6s h x%u  slack %6s h%s\n",
                          task->critical ? "*" : " ", from, to, task->id, hours, task->crew, slack,
                          task->kind == DRY_TASK_HOLD ? "  HOLD" : "");
  for (guint i = 0; i < task->n_after; i++)
    if (task->after[i].wait > 0) {
      g_ascii_formatd (hours, sizeof hours, "%.1f", (double) task->after[i].wait / 60);
      g_string_append_printf (text, "      %s h after %s: %s\n", hours,
                              schedule->tasks[task->after[i].task].id, task->after[i].because);
    }
}

static void
append_moment (GString *text, const DrySchedule *schedule, const char *what, gint64 at,
               gint64 longest)
{
  if (at < 0)
    return;
  g_string_append_printf (text, "%-18s %s", what, dry_schedule_moment (schedule, at));
  if (longest > at)
    g_string_append_printf (text, "; if every wait takes its longest, %s",
                            dry_schedule_moment (schedule, longest));
  g_string_append_c (text, '\n');
}

static int
print_table (const DrySchedule *schedule)
{
  g_autoptr (GString) text = g_string_new (NULL);
  char degrees[G_ASCII_DTOSTR_BUF_SIZE];

  g_ascii_formatd (degrees, sizeof degrees, "%.1f", schedule->temperature);
  g_string_append_printf (text, "%u at work, room at %s C. * = on the critical path\n\n",
                          schedule->crew, degrees);
  for (guint i = 0; i < schedule->n; i++)
    append_task (text, schedule, &schedule->tasks[i]);
  g_string_append_c (text, '\n');
  append_moment (text, schedule, "Tiling can start", schedule->tile_start, schedule->tile_longest);
  append_moment (text, schedule, "First shower", schedule->shower, schedule->shower_longest);
  if (schedule->missing)
    g_string_append_printf (text, "First shower not known: %s\n", schedule->missing);
  if (schedule->too_cold)
    g_string_append (text, "Too cold: below 10 C mortar and membrane do not set, and no wait "
                           "holds. Heat the room first.\n");
  return dry_cli_print (text->str, text->len);
}

static int
print_json (const DrySchedule *schedule)
{
  DryJsonWriter *writer = dry_json_writer_new ();
  g_autofree char *text = NULL;
  gsize length;

  dry_schedule_write_json (schedule, writer, NULL);
  text = dry_json_writer_finish (writer, &length);
  return dry_cli_print (text, length);
}

static gboolean
write_files (const DrySchedule *schedule, const GPtrArray *plans, GError **error)
{
  const DryPlan *const *all = (const DryPlan *const *) plans->pdata;
  g_autofree char *text = NULL;

  if (ics) {
    text = dry_schedule_to_ics (schedule, all, error);
    if (!text || !dry_output_write (ics, text, strlen (text), error))
      return FALSE;
  }
  if (output) {
    DryPaperOptions options = {.date = NULL, .decimal = '.'};
    return dry_cli_choose_paper (paper, &options.paper, error) &&
           dry_papers_write_schedule (schedule, all, plans->len, &options, output, error);
  }
  return TRUE;
}

static int
run (char **files)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (GPtrArray) plans = NULL;
  g_autoptr (DryArena) arena = dry_arena_new ();
  g_autoptr (DrySchedule) schedule = NULL;
  const DryPriceBook *book;

  if (as_network)
    return run_network (files[0]);
  plans = dry_cli_load_plans (files[0], &error);
  if (!plans || !(book = dry_cli_choose_book_for (plans, book_name, arena, &error)))
    return dry_cli_fail (error);
  schedule =
      dry_schedule_new ((const DryPlan *const *) plans->pdata, plans->len, book, start, &error);
  if (!schedule || !write_files (schedule, plans, &error))
    return dry_cli_fail (error);
  if (as_json)
    return print_json (schedule);
  return ics || output ? DRY_EXIT_OK : print_table (schedule);
}

static const GOptionEntry ENTRIES[] = {
    {"start", 's', 0, G_OPTION_ARG_STRING, &start, "First day of work, instead of the job's",
     "YYYY-MM-DD"},
    {"json", 'j', 0, G_OPTION_ARG_NONE, &as_json, "Print JSON, with waits and workings", NULL},
    {"ics", 'i', 0, G_OPTION_ARG_FILENAME, &ics, "Write a calendar file", "OUT.ics"},
    {"output", 'o', 0, G_OPTION_ARG_FILENAME, &output, "Write the crew's schedule as a PDF",
     "OUT.pdf"},
    {"paper", 'p', 0, G_OPTION_ARG_STRING, &paper,
     "a4, letter, a3 or tabloid; else as the locale's country", "SIZE"},
    {"book", 'b', 0, G_OPTION_ARG_STRING, &book_name,
     "Take hours of tasks from this price book: an id of the catalogue, or a file", "BOOK"},
    {"network", 'n', 0, G_OPTION_ARG_NONE, &as_network,
     "FILE is a bare list of activities (id, duration, after): print early and late dates, slack "
     "and the critical path as JSON",
     NULL},
    {NULL},
};

const DryCommand dry_command_schedule = {
    .name = "schedule",
    .arguments = "FILE",
    .summary = "Print when what is done: critical path, tiling, first shower",
    .details =
        "Hours come from quantities, waits from the backer system at the room's temperature. "
        "Without a first day, days are counted.",
    .entries = ENTRIES,
    .takes_room = TRUE,
    .takes_catalog = TRUE,
    .n_files = 1,
    .run = run,
};
