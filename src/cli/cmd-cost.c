/* SPDX-License-Identifier: GPL-3.0-or-later */
/* drybay-cli cost: what the job costs, with workings, as a text table, JSON, CSV or XLSX, and as
 * the client's proposal and the order list. */
#include <string.h>

#include "cli/book-option.h"
#include "cli/command.h"
#include "cli/paper-option.h"
#include "papers/client-papers.h"
#include "papers/output.h"
#include "papers/sheet-files.h"
#include "plan/cost.h"

static gboolean as_json, as_csv, hide_prices;
static char *book_name, *start, *decimal, *xlsx, *proposal, *order, *paper, *date;

typedef struct {
  GPtrArray *plans;
  const DryPlan *const *all;
  DryArena *arena;
  const DryPriceBook *book;
  DrySchedule *schedule;
  DryCost *cost;
} Job;

static void
append_line (GString *text, const DryCostLine *line, DryArena *arena)
{
  char amount[G_ASCII_DTOSTR_BUF_SIZE];
  g_autofree char *name =
      g_utf8_substring (line->name, 0, MIN (44, g_utf8_strlen (line->name, -1)));

  g_ascii_formatd (amount, sizeof amount, "%.2f", line->amount);
  g_string_append_printf (text, "  %-44s %10s %-4s %12s%s%s\n", name, amount, line->unit,
                          line->priced ? dry_money_text (arena, line->cost) : "no price",
                          line->sample ? " sample" : "", line->expired ? " EXPIRED" : "");
  g_string_append_printf (text, "      = %s\n", line->working.formula);
}

static int
print_table (const Job *job)
{
  const DryCost *cost = job->cost;
  g_autoptr (GString) text = g_string_new (NULL);

  g_string_append_printf (text, "%s, %s%s\n", cost->book->name, cost->book->currency,
                          cost->book->invented ? ": invented samples, no quote" : "");
  for (guint group = 0; group < DRY_N_COST_GROUPS; group++) {
    gboolean any = FALSE;
    for (guint i = 0; i < cost->n; i++)
      if (cost->lines[i].group == group) {
        if (!any)
          g_string_append_printf (text, "\n%s\n", dry_cost_group_to_text (group));
        any = TRUE;
        append_line (text, &cost->lines[i], job->arena);
      }
    if (any)
      g_string_append_printf (text, "  %-60s %12s\n", "sum",
                              dry_money_text (job->arena, cost->sum[group]));
  }
  g_string_append_printf (text, "\nTotal %s %s", dry_money_text (job->arena, cost->total),
                          cost->book->currency);
  if (cost->n_gaps)
    g_string_append_printf (text, ", and %u line%s without a price, not counted", cost->n_gaps,
                            cost->n_gaps == 1 ? "" : "s");
  if (cost->n_expired)
    g_string_append_printf (text, ", %u price%s not valid on the first day of work",
                            cost->n_expired, cost->n_expired == 1 ? "" : "s");
  g_string_append (text, "\n");
  return dry_cli_print (text->str, text->len);
}

static int
print_json (const Job *job)
{
  DryJsonWriter *writer = dry_json_writer_new ();
  g_autofree char *text = NULL;
  gsize length;

  dry_cost_write_json (job->cost, writer, NULL);
  text = dry_json_writer_finish (writer, &length);
  return dry_cli_print (text, length);
}

static gboolean
write_files (const Job *job, GError **error)
{
  DryPaperOptions options = {.date = date,
                             .decimal = g_strcmp0 (decimal, "comma") == 0 ? ',' : '.'};

  if (xlsx) {
    g_autoptr (DryRows) rows = dry_cost_to_rows (job->cost, job->all);
    g_autoptr (GBytes) bytes = dry_rows_to_xlsx (rows, "Cost");
    if (!dry_output_write (xlsx, g_bytes_get_data (bytes, NULL), g_bytes_get_size (bytes), error))
      return FALSE;
  }
  if (!dry_cli_choose_paper (paper, &options.paper, error))
    return FALSE;
  if (proposal && !dry_papers_write_proposal (job->all, job->plans->len, job->cost, job->schedule,
                                              !hide_prices, &options, proposal, error))
    return FALSE;
  return !order ||
         dry_papers_write_order (job->all, job->plans->len, job->cost, &options, order, error);
}

static int
print (const Job *job)
{
  if (as_csv) {
    g_autoptr (DryRows) rows = dry_cost_to_rows (job->cost, job->all);
    g_autofree char *csv = dry_rows_to_csv (rows, g_strcmp0 (decimal, "comma") == 0 ? ',' : '.');
    return dry_cli_print (csv, strlen (csv));
  }
  if (as_json)
    return print_json (job);
  return xlsx || proposal || order ? DRY_EXIT_OK : print_table (job);
}

static gboolean
options_fit (void)
{
  if (as_csv && as_json)
    g_printerr ("drybay-cli cost: choose --csv or --json, not both\n");
  else if (decimal && !g_str_equal (decimal, "comma") && !g_str_equal (decimal, "point"))
    g_printerr ("drybay-cli cost: --decimal is point or comma\n");
  else
    return TRUE;
  return FALSE;
}

static int
run (char **files)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (GPtrArray) plans = NULL;
  g_autoptr (DryArena) arena = dry_arena_new ();
  g_autoptr (DrySchedule) schedule = NULL;
  g_autoptr (DryCost) cost = NULL;
  Job job = {.arena = arena};

  if (!options_fit ())
    return DRY_EXIT_ERROR;
  plans = dry_cli_load_plans (files[0], &error);
  if (!plans || !(job.book = dry_cli_choose_book_for (plans, book_name, arena, &error)))
    return dry_cli_fail (error);
  job.plans = plans;
  job.all = (const DryPlan *const *) plans->pdata;
  schedule = dry_schedule_new (job.all, plans->len, job.book, start, &error);
  if (!schedule)
    return dry_cli_fail (error);
  cost = dry_cost_new (job.all, plans->len, schedule, job.book);
  job.schedule = schedule;
  job.cost = cost;
  return write_files (&job, &error) ? print (&job) : dry_cli_fail (error);
}

static const GOptionEntry ENTRIES[] = {
    {"json", 'j', 0, G_OPTION_ARG_NONE, &as_json, "Print JSON, with the working of every line",
     NULL},
    {"csv", 'c', 0, G_OPTION_ARG_NONE, &as_csv, "Print comma-separated values for a spreadsheet",
     NULL},
    {"decimal", 0, 0, G_OPTION_ARG_STRING, &decimal,
     "point, or comma with cells apart by semicolons", "MARK"},
    {"xlsx", 'x', 0, G_OPTION_ARG_FILENAME, &xlsx, "Write a workbook", "OUT.xlsx"},
    {"proposal", 0, 0, G_OPTION_ARG_FILENAME, &proposal, "Write the proposal for the client",
     "OUT.pdf"},
    {"without-prices", 0, 0, G_OPTION_ARG_NONE, &hide_prices, "No prices on the proposal", NULL},
    {"order", 0, 0, G_OPTION_ARG_FILENAME, &order, "Write the order list by supplier", "OUT.pdf"},
    {"book", 'b', 0, G_OPTION_ARG_STRING, &book_name,
     "Take this price book: an id of the catalogue, or a file", "BOOK"},
    {"start", 's', 0, G_OPTION_ARG_STRING, &start, "First day of work, instead of the job's",
     "YYYY-MM-DD"},
    {"paper", 'p', 0, G_OPTION_ARG_STRING, &paper,
     "a4, letter, a3 or tabloid; else as the locale's country", "SIZE"},
    {"date", 'd', 0, G_OPTION_ARG_STRING, &date, "Date to print on the pages; else none",
     "YYYY-MM-DD"},
    {NULL},
};

const DryCommand dry_command_cost = {
    .name = "cost",
    .arguments = "FILE",
    .summary = "Print what the job costs: material, labor, hire, delivery, disposal, tax",
    .details = "A price that is missing is a gap, not a nought. The shipped price book is an "
               "invented sample.",
    .entries = ENTRIES,
    .takes_room = TRUE,
    .takes_catalog = TRUE,
    .n_files = 1,
    .run = run,
};
