/* SPDX-License-Identifier: GPL-3.0-or-later */
/* drybay-cli tile: where every wall's tile starts and why, its courses, its cuts and what it takes,
 * as JSON. Lengths are millimetres on the finished face. */
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
  dry_json_begin_array (writer, "rooms");
  for (guint i = 0; i < plans->len; i++) {
    const DryPlan *plan = plans->pdata[i];

    dry_json_begin_object (writer, NULL);
    dry_json_write_string (writer, "name", plan->context.room->name);
    dry_tiling_write_json (plan->tiling, plan->faces, writer);
    dry_json_end_object (writer);
  }
  dry_json_end_array (writer);
  dry_json_end_object (writer);
  text = dry_json_writer_finish (g_steal_pointer (&writer), &length);
  return dry_cli_print (text, length);
}

const DryCommand dry_command_tile = {
    .name = "tile",
    .arguments = "FILE",
    .summary = "Print the tile layout: starts, courses, cuts and counts",
    .details = "A room without tile has no “tile” in the answer.",
    .takes_room = TRUE,
    .takes_catalog = TRUE,
    .n_files = 1,
    .run = run,
};
