/* SPDX-License-Identifier: GPL-3.0-or-later */
/* drybay-cli plan: every stage's answer of every room as JSON on standard output.
 * The form is the plan's own (plan/plan-json.c); this only wraps the rooms. */
#include "cli/command.h"
#include "plan/cost.h"

/* When it is done and what it costs by the job's own price book and first day; where that cannot be
 * reckoned, why. The plans are whole without it. */
static void
write_job (DryJsonWriter *writer, const GPtrArray *plans)
{
  const DryPlan *const *all = (const DryPlan *const *) plans->pdata;
  const DryPlanContext *context = &all[0]->context;
  const DryPriceBook *book = dry_catalog_get_price_book (context->catalog, context->job->prices);
  g_autoptr (GError) error = NULL;
  g_autoptr (DrySchedule) schedule = dry_schedule_new (all, plans->len, book, NULL, &error);
  g_autoptr (DryCost) cost = NULL;

  if (!schedule) {
    dry_json_write_string (writer, "no_schedule", error->message);
    return;
  }
  dry_schedule_write_json (schedule, writer, "schedule");
  if (!book) {
    dry_json_write_string (writer, "no_cost", "the catalogue lacks the job's price book");
    return;
  }
  cost = dry_cost_new (all, plans->len, schedule, book);
  dry_cost_write_json (cost, writer, "cost");
}

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
  write_job (writer, plans);
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
