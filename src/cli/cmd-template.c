/* SPDX-License-Identifier: GPL-3.0-or-later */
/* drybay-cli template: papers at full size, the template of a niche or the story pole of a room, as
 * a PDF tiled over pages. */
#include "base/error.h"
#include "cli/command.h"
#include "cli/paper-option.h"

static char *output, *paper, *date, *for_id;
static gboolean story_pole;

/* The plan of the room that holds the part. */
static const DryPlan *
find_plan (const GPtrArray *plans, guint64 id)
{
  for (guint i = 0; i < plans->len; i++) {
    const DryPlan *plan = plans->pdata[i];

    if (dry_room_get_part (plan->context.room, (DryId) id))
      return plan;
  }
  return NULL;
}

static DryPapers *
make_papers (const GPtrArray *plans, const DryPaperOptions *options, GError **error)
{
  guint64 id = 0;
  const DryPlan *plan;

  if (story_pole)
    return dry_papers_new_story_pole (plans->pdata[0], options, error);
  if (!g_ascii_string_to_unsigned (for_id, 10, 1, G_MAXUINT32, &id, NULL)) {
    g_set_error (error, DRY_ERROR, DRY_ERROR_REFERENCE, "--for: “%s” is no ID of a part", for_id);
    return NULL;
  }
  plan = find_plan (plans, id);
  if (!plan) {
    g_set_error (error, DRY_ERROR, DRY_ERROR_REFERENCE, "--for: there is no part %s", for_id);
    return NULL;
  }
  return dry_papers_new_template (plan, (DryId) id, options, error);
}

static int
run (char **files)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (GPtrArray) plans = NULL;
  g_autoptr (DryPapers) papers = NULL;
  DryPaperOptions options = {.date = date, .decimal = '.'};

  if (!output || (for_id != NULL) == story_pole) {
    g_printerr ("drybay-cli template: say where to with -o OUT.pdf, and what with --for ID or "
                "--pole\n");
    return DRY_EXIT_ERROR;
  }
  if (!dry_cli_choose_paper (paper, &options.paper, &error))
    return dry_cli_fail (error);
  plans = dry_cli_load_plans (files[0], &error);
  papers = plans ? make_papers (plans, &options, &error) : NULL;
  if (!papers || !dry_papers_save (papers, "Full-size papers of a wet area", output, &error))
    return dry_cli_fail (error);
  return DRY_EXIT_OK;
}

static const GOptionEntry ENTRIES[] = {
    {"for", 'f', 0, G_OPTION_ARG_STRING, &for_id, "The niche whose template it is", "ID"},
    {"pole", 's', 0, G_OPTION_ARG_NONE, &story_pole,
     "The heights of the courses of the (first) room", NULL},
    {"output", 'o', 0, G_OPTION_ARG_FILENAME, &output, "Write this PDF", "OUT.pdf"},
    {"paper", 'p', 0, G_OPTION_ARG_STRING, &paper,
     "a4, letter, a3 or tabloid; else as the locale's country", "SIZE"},
    {"date", 'd', 0, G_OPTION_ARG_STRING, &date, "Date to print on the pages; else none",
     "YYYY-MM-DD"},
    {NULL},
};

const DryCommand dry_command_template = {
    .name = "template",
    .arguments = "FILE",
    .summary = "Write a niche's template or the story pole at full size",
    .details = "Pages are tiled with marks to join them by. Print at 100 %, and measure the 100 mm "
               "and 4 in lines on each page before cutting anything by it.",
    .entries = ENTRIES,
    .takes_room = TRUE,
    .takes_catalog = TRUE,
    .n_files = 1,
    .run = run,
};
