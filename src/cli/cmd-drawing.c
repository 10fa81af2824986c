/* SPDX-License-Identifier: GPL-3.0-or-later */
/* drybay-cli drawing: one drawing of one room as SVG, PNG or PDF.
 * The names of drawings are the draw floor's own. */
#include "cli/command.h"
#include "cli/paper-option.h"

static char *output, *paper, *sheet;

static int
run (char **files)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (GPtrArray) plans = NULL;
  DryPaperOptions options = {.decimal = '.'};

  if (!output || !sheet) {
    g_printerr ("drybay-cli drawing: say what and where to with --sheet NAME -o OUT.svg\n");
    return DRY_EXIT_ERROR;
  }
  if (!dry_cli_choose_paper (paper, &options.paper, &error))
    return dry_cli_fail (error);
  plans = dry_cli_load_plans (files[0], &error);
  if (!plans || !dry_papers_write_drawing (plans->pdata[0], sheet, &options, output, &error))
    return dry_cli_fail (error);
  return DRY_EXIT_OK;
}

static const GOptionEntry ENTRIES[] = {
    {"sheet", 's', 0, G_OPTION_ARG_STRING, &sheet,
     "board, plan, strip, water, section, face:A, sheet:1 …", "NAME"},
    {"output", 'o', 0, G_OPTION_ARG_FILENAME, &output, "Write this file; its ending says the form",
     "OUT.svg|.png|.pdf"},
    {"paper", 'p', 0, G_OPTION_ARG_STRING, &paper,
     "a4, letter, a3 or tabloid; else as the locale's country", "SIZE"},
    {NULL},
};

const DryCommand dry_command_drawing = {
    .name = "drawing",
    .arguments = "FILE",
    .summary = "Write one drawing as SVG, PNG or PDF",
    .details = "Draws the first room unless --room names another. An unknown name lists the ones "
               "there are.",
    .entries = ENTRIES,
    .takes_room = TRUE,
    .takes_catalog = TRUE,
    .n_files = 1,
    .run = run,
};
