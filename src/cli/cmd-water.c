/* SPDX-License-Identifier: GPL-3.0-or-later */
/* drybay-cli water: where every drop goes, and where the watertight layer has a break.
 * Prints what the plan found; its exit status tells whether all is closed. */
#include "cli/command.h"

static gboolean as_json;

static const char *const ENDS[] = {"basin", "floor", "stopped"};

static void
write_point (DryJsonWriter *writer, DryPoint at)
{
  dry_json_write_number (writer, "u", dry_length_to_mm (at.x));
  dry_json_write_number (writer, "z", dry_length_to_mm (at.y));
}

static void
write_path (DryJsonWriter *writer, const DryPlan *plan, const DryWaterPath *path)
{
  dry_json_begin_object (writer, NULL);
  dry_json_write_string (writer, "end", ENDS[path->end]);
  dry_json_write_integer (writer, "break", path->stop);
  dry_json_begin_array (writer, "steps");
  for (guint i = 0; i < path->n; i++) {
    dry_json_begin_object (writer, NULL);
    dry_json_write_string (writer, "face", plan->faces->items[path->steps[i].face].mark);
    write_point (writer, path->steps[i].at);
    dry_json_end_object (writer);
  }
  dry_json_end_array (writer);
  dry_json_end_object (writer);
}

static void
write_break (DryJsonWriter *writer, const DryPlan *plan, const DryWaterBreak *it)
{
  dry_json_begin_object (writer, NULL);
  dry_json_write_string (writer, "kind", dry_break_kind_to_text (it->kind));
  dry_json_write_string (writer, "face", it->face >= 0 ? plan->faces->items[it->face].mark : "");
  if (it->face >= 0)
    write_point (writer, it->at);
  dry_json_write_integer (writer, "object", it->object);
  dry_json_write_integer (writer, "places", it->n);
  dry_json_write_string (writer, "text", it->text);
  dry_json_write_string (writer, "rule", it->rule);
  dry_json_end_object (writer);
}

static void
write_room (DryJsonWriter *writer, const DryPlan *plan)
{
  const DryWater *water = plan->water;

  dry_json_begin_object (writer, NULL);
  dry_json_write_integer (writer, "id", plan->context.room->id);
  dry_json_write_string (writer, "name", plan->context.room->name);
  dry_json_write_boolean (writer, "closed", water->closed);
  dry_json_begin_array (writer, "breaks");
  for (guint i = 0; i < water->n_breaks; i++)
    write_break (writer, plan, &water->breaks[i]);
  dry_json_end_array (writer);
  dry_json_begin_array (writer, "paths");
  for (guint i = 0; i < water->n_paths; i++)
    write_path (writer, plan, &water->paths[i]);
  dry_json_end_array (writer);
  dry_json_end_object (writer);
}

static void
append_room (GString *text, const DryPlan *plan)
{
  const DryWater *water = plan->water;
  guint ends[3] = {0};

  for (guint i = 0; i < water->n_paths; i++)
    ends[water->paths[i].end]++;
  g_string_append_printf (text, "%s, %s: %u way%s followed\n", plan->context.room->name,
                          plan->context.system->name, water->n_paths,
                          water->n_paths == 1 ? "" : "s");
  g_string_append_printf (text, "  %u to the basin, %u to the floor beside it, %u stopped\n",
                          ends[DRY_WATER_BASIN], ends[DRY_WATER_FLOOR], ends[DRY_WATER_STOPPED]);
  for (guint i = 0; i < water->n_breaks; i++) {
    const DryWaterBreak *it = &water->breaks[i];
    g_string_append_printf (text, "  break: %s", it->text);
    if (it->face >= 0)
      g_string_append_printf (text, ", at %s from the left, %s up",
                              dry_context_length (&plan->context, it->at.x),
                              dry_context_length (&plan->context, it->at.y));
    if (it->n > 1)
      g_string_append_printf (text, " (%u places)", it->n);
    g_string_append_printf (text, " [%s]\n", it->rule);
  }
  g_string_append (text, water->closed    ? "  closed: every drop reaches the drain, and the "
                                            "watertight layer has no break\n\n"
                         : water->n_paths ? "\n"
                                          : "  no wet walls\n\n");
}

static int
run (char **files)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (GPtrArray) plans = dry_cli_load_plans (files[0], &error);
  g_autoptr (GString) text = g_string_new (NULL);
  guint open = 0;
  int status;

  if (!plans)
    return dry_cli_fail (error);
  for (guint i = 0; i < plans->len; i++) {
    open += ((const DryPlan *) plans->pdata[i])->water->n_breaks;
    append_room (text, plans->pdata[i]);
  }
  if (as_json) {
    g_autoptr (DryJsonWriter) writer = dry_json_writer_new ();
    g_autofree char *json = NULL;
    gsize length;

    dry_json_begin_object (writer, NULL);
    dry_json_begin_array (writer, "rooms");
    for (guint i = 0; i < plans->len; i++)
      write_room (writer, plans->pdata[i]);
    dry_json_end_array (writer);
    dry_json_end_object (writer);
    json = dry_json_writer_finish (g_steal_pointer (&writer), &length);
    status = dry_cli_print (json, length);
  } else
    status = dry_cli_print (text->str, text->len);
  return status != DRY_EXIT_OK ? status : open ? DRY_EXIT_OPEN : DRY_EXIT_OK;
}

static const GOptionEntry ENTRIES[] = {
    {"json", 'j', 0, G_OPTION_ARG_NONE, &as_json, "Print JSON instead of text", NULL},
    {NULL},
};

const DryCommand dry_command_water = {
    .name = "water",
    .arguments = "FILE",
    .summary = "Follow the water to the drain and tell where the watertight layer breaks",
    .details = "Exit status: 0 all closed, 1 some break, 2 error.",
    .entries = ENTRIES,
    .takes_room = TRUE,
    .takes_catalog = TRUE,
    .n_files = 1,
    .run = run,
};
