/* SPDX-License-Identifier: GPL-3.0-or-later */
/* drybay-cli papers: the crew's papers as one PDF, or the sheets of single trades.
 * The date printed is given by an option, so that the same file gives the same bytes. */
#include "cli/command.h"
#include "cli/paper-option.h"
#include "papers/trades.h"

static char *output, *paper, *date, *trade;

static gboolean
write_trades (const GPtrArray *plans, guint trades, const DryPaperOptions *options, GError **error)
{
  g_autoptr (DryPapers) papers = dry_papers_new_trades ((const DryPlan *const *) plans->pdata,
                                                        plans->len, trades, options, error);

  return papers && dry_papers_save (papers, "Sheets by trade of a wet area", output, error);
}

static int
run (char **files)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (GPtrArray) plans = NULL;
  DryPaperOptions options = {.date = date, .decimal = '.'};
  guint trades = 0;

  if (!output) {
    g_printerr ("drybay-cli papers: say where to with -o OUT.pdf\n");
    return DRY_EXIT_ERROR;
  }
  if (!dry_cli_choose_paper (paper, &options.paper, &error) ||
      (trade && !dry_trades_from_text (trade, &trades, &error)))
    return dry_cli_fail (error);
  plans = dry_cli_load_plans (files[0], &error);
  if (!plans || !(trades ? write_trades (plans, trades, &options, &error)
                         : dry_papers_write ((const DryPlan *const *) plans->pdata, plans->len,
                                             &options, output, &error)))
    return dry_cli_fail (error);
  return DRY_EXIT_OK;
}

static const GOptionEntry ENTRIES[] = {
    {"output", 'o', 0, G_OPTION_ARG_FILENAME, &output, "Write this PDF", "OUT.pdf"},
    {"paper", 'p', 0, G_OPTION_ARG_STRING, &paper,
     "a4, letter, a3 or tabloid; else as the locale's country", "SIZE"},
    {"trade", 't', 0, G_OPTION_ARG_STRING, &trade,
     "The sheets of framer, plumber, electrician, hanger, waterproofer or setter instead, several "
     "by commas, or all",
     "TRADE"},
    {"date", 'd', 0, G_OPTION_ARG_STRING, &date, "Date to print on the pages; else none",
     "YYYY-MM-DD"},
    {NULL},
};

const DryCommand dry_command_papers = {
    .name = "papers",
    .arguments = "FILE",
    .summary = "Write the crew's papers as a PDF",
    .details = "Summary with cautions, plan, one page a face and a niche, tile cuts, cut sheets, "
               "take-off with workings, "
               "order of work, a sheet for the inspector. With --trade only what a trade needs, "
               "behind a cover with one datum and its heights.",
    .entries = ENTRIES,
    .takes_room = TRUE,
    .takes_catalog = TRUE,
    .n_files = 1,
    .run = run,
};
