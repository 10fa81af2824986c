/* SPDX-License-Identifier: GPL-3.0-or-later */
/* drybay-cli plan: every stage's answer of every room as JSON on standard output.
 * The form is the plan's own (plan/plan-json.c); this only wraps the rooms. */
#include "cli/command.h"

static int
run (char **files)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (GPtrArray) plans = dry_cli_load_plans (files[0], &error);
  g_autoptr (DryJsonWriter) writer = NULL;
  g_autofree char *text = NULL;
  gsize length;

  if (!plans)
    return dry_cli_fail (error);
  writer = dry_json_writer_new ();
  dry_json_begin_object (writer, NULL);
  dry_json_write_string (writer, "format", "drybay-plan");
  dry_json_write_integer (writer, "version", 1);
  dry_json_begin_array (writer, "rooms");
  for (guint i = 0; i < plans->len; i++)
    dry_plan_write_json (plans->pdata[i], writer, NULL);
  dry_json_end_array (writer);
  dry_json_end_object (writer);
  text = dry_json_writer_finish (g_steal_pointer (&writer), &length);
  return dry_cli_print (text, length);
}

const DryCommand dry_command_plan = {
    .name = "plan",
    .arguments = "FILE",
    .summary = "Print the whole plan as JSON",
    .takes_room = TRUE,
    .takes_catalog = TRUE,
    .n_files = 1,
    .run = run,
};
