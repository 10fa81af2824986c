/* SPDX-License-Identifier: GPL-3.0-or-later */
/* drybay-cli check: is the file well formed, and does the catalogue hold what it names?
 * Changes nothing; says where and why when something is wrong. */
#include "cli/command.h"
#include "project/file.h"

static int
run (char **files)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (GPtrArray) plans = dry_cli_load_plans (files[0], &error);
  const DryJob *job;
  guint n_parts = 0;

  if (!plans)
    return dry_cli_fail (error);
  for (guint i = 0; i < plans->len; i++)
    n_parts += ((const DryPlan *) plans->pdata[i])->context.room->n_parts;
  job = ((const DryPlan *) plans->pdata[0])->context.job;
  g_print ("%s: well formed, “%s”, %u room(s), %u part(s)\n", files[0], job->title, plans->len,
           n_parts);
  return DRY_EXIT_OK;
}

const DryCommand dry_command_check = {
    .name = "check",
    .arguments = "FILE",
    .summary = "Check that a project file is well formed",
    .takes_room = TRUE,
    .takes_catalog = TRUE,
    .n_files = 1,
    .run = run,
};
