/* SPDX-License-Identifier: GPL-3.0-or-later */
/* drybay-cli takeoff: what to buy, as a text table, CSV or JSON, one room after the other.
 * Numbers are written with a point in every locale. */
#include "cli/command.h"
#include "papers/papers.h"

#include <string.h>

static gboolean as_csv, as_json;

static char *
format_amount (double amount, const char *format)
{
  char buffer[G_ASCII_DTOSTR_BUF_SIZE];

  return g_strdup (g_ascii_formatd (buffer, sizeof buffer, format, amount));
}

static char *
format_money (gint64 minor)
{
  return g_strdup_printf ("%" G_GINT64_FORMAT ".%02d", minor / 100, (int) (minor % 100));
}

static void
append_table (GString *text, const DryPlan *plan)
{
  const DryTakeoff *takeoff = plan->takeoff;
  g_autofree char *total = format_money (takeoff->cost);

  g_string_append_printf (text, "%s: %s\n\n",
                          plan->context.room->name ? plan->context.room->name : "Room",
                          plan->context.system->name);
  for (guint i = 0; i < takeoff->n; i++) {
    const DryTakeoffLine *line = &takeoff->lines[i];
    g_autofree char *amount = format_amount (line->amount, "%.2f");
    g_autofree char *cost = line->price     ? format_money (line->cost)
                            : line->on_hand ? g_strdup ("on hand")
                                            : g_strdup ("no price");

    if (i == 0 || g_strcmp0 (takeoff->lines[i - 1].group, line->group) != 0)
      g_string_append_printf (text, "%s\n", line->group);
    g_string_append_printf (text, "  %4" G_GINT64_FORMAT " x %-28s %-40s %10s %-3s %10s\n",
                            line->packs, line->pack_name ? line->pack_name : "", line->name, amount,
                            line->unit, cost);
    g_string_append_printf (text, "         = %s\n",
                            line->working.formula ? line->working.formula : "");
  }
  g_string_append_printf (text, "\nSample prices, invented: %s in all", total);
  if (takeoff->n_unpriced)
    g_string_append_printf (text, ", %u line(s) without a price not counted", takeoff->n_unpriced);
  g_string_append (text, "\n\n");
}

static int
print_json (const GPtrArray *plans)
{
  g_autoptr (DryJsonWriter) writer = dry_json_writer_new ();
  g_autofree char *text = NULL;
  gsize length;

  dry_json_begin_object (writer, NULL);
  dry_json_write_string (writer, "prices", "invented samples, minor units");
  dry_json_begin_array (writer, "rooms");
  for (guint i = 0; i < plans->len; i++) {
    const DryPlan *plan = plans->pdata[i];

    dry_json_begin_object (writer, NULL);
    dry_json_write_string (writer, "name", plan->context.room->name);
    dry_json_write_string (writer, "system", plan->context.system->id);
    dry_json_begin_array (writer, "lines");
    for (guint j = 0; j < plan->takeoff->n; j++)
      dry_takeoff_line_write_json (&plan->takeoff->lines[j], writer);
    dry_json_end_array (writer);
    dry_json_write_integer (writer, "cost", plan->takeoff->cost);
    dry_json_write_integer (writer, "unpriced", plan->takeoff->n_unpriced);
    dry_json_end_object (writer);
  }
  dry_json_end_array (writer);
  dry_json_end_object (writer);
  text = dry_json_writer_finish (g_steal_pointer (&writer), &length);
  return dry_cli_print (text, length);
}

static int
run (char **files)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (GPtrArray) plans = NULL;
  g_autoptr (GString) text = g_string_new (NULL);

  if (as_csv && as_json) {
    g_printerr ("drybay-cli takeoff: choose --csv or --json, not both\n");
    return DRY_EXIT_ERROR;
  }
  plans = dry_cli_load_plans (files[0], &error);
  if (!plans)
    return dry_cli_fail (error);
  if (as_json)
    return print_json (plans);
  for (guint i = 0; i < plans->len; i++) {
    const DryPlan *plan = plans->pdata[i];

    if (as_csv) {
      g_autofree char *csv = dry_takeoff_to_csv (plan->takeoff);
      /* one heading row for the whole file */
      const char *body = i == 0 ? csv : strstr (csv, "\r\n") + 2;
      g_string_append (text, body);
    } else
      append_table (text, plan);
  }
  return dry_cli_print (text->str, text->len);
}

static const GOptionEntry ENTRIES[] = {
    {"csv", 'c', 0, G_OPTION_ARG_NONE, &as_csv, "Print comma-separated values for a spreadsheet",
     NULL},
    {"json", 'j', 0, G_OPTION_ARG_NONE, &as_json, "Print JSON, with the working of every line",
     NULL},
    {NULL},
};

const DryCommand dry_command_takeoff = {
    .name = "takeoff",
    .arguments = "FILE",
    .summary = "Print what to buy, rounded up to packs, with workings",
    .details = "Prices are the catalogue's; the shipped ones are invented samples.",
    .entries = ENTRIES,
    .takes_room = TRUE,
    .takes_catalog = TRUE,
    .n_files = 1,
    .run = run,
};
