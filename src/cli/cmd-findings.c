/* SPDX-License-Identifier: GPL-3.0-or-later */
/* drybay-cli findings: what an inspector would write down, as text or JSON.
 * Its exit status lets a script ask whether a design is clean. */
#include <string.h>

#include "cli/command.h"
#include "project/edit.h"

static gboolean as_json;
static char *packs;

static const char DEFERENCE[] =
    "Reminders, not permission: local code, the maker's instructions and licensed practice "
    "decide.\n";

static const char *const SEVERITIES[] = {"stop", "fix", "advice"};
static const char *const HEADINGS[] = {"MUST NOT BE BUILT SO", "BEFORE TILING", "ADVICE"};

static void
append_finding (GString *text, const DryFinding *finding)
{
  const DryRule *rule = finding->rule;

  g_string_append_printf (text, "  %s\n", finding->message);
  if (finding->where && *finding->where)
    g_string_append_printf (text, "    where:  %s\n", finding->where);
  g_string_append_printf (text, "    why:    %s\n", rule->why);
  for (guint i = 0; i < rule->n_remedies; i++)
    g_string_append_printf (text, "    remedy: %s\n", rule->remedies[i].text);
  g_string_append_printf (text, "    source: %s (%s; rule %s of %s)\n", rule->source.text,
                          dry_certainty_to_text (rule->source.certainty), rule->id, rule->pack);
  g_string_append_printf (text, "    asked by: %s\n\n", finding->answered_by);
}

static void
append_room (GString *text, const DryPlan *plan)
{
  const DryFindings *findings = plan->findings;

  g_string_append_printf (text, "%s, %s: %u to stop for, %u to fix, %u to consider\n\n",
                          plan->context.room->name ? plan->context.room->name : "Room",
                          plan->context.rules->name, findings->count[0], findings->count[1],
                          findings->count[2]);
  for (guint i = 0; i < findings->n; i++) {
    const DryFinding *finding = &findings->items[i];

    if (i == 0 || findings->items[i - 1].severity != finding->severity)
      g_string_append_printf (text, "%s\n", HEADINGS[finding->severity]);
    append_finding (text, finding);
  }
}

static void
write_finding (DryJsonWriter *writer, const DryFinding *finding)
{
  const DryRule *rule = finding->rule;

  dry_json_begin_object (writer, NULL);
  dry_json_write_string (writer, "id", finding->id);
  dry_json_write_string (writer, "rule", rule->id);
  dry_json_write_integer (writer, "number", rule->number);
  dry_json_write_string (writer, "severity", SEVERITIES[finding->severity]);
  dry_json_write_string (writer, "message", finding->message);
  dry_json_write_string (writer, "where", finding->where);
  dry_json_write_integer (writer, "object", finding->object);
  dry_json_write_integer (writer, "face", finding->face);
  dry_json_write_string (writer, "measured", finding->measured);
  dry_json_write_string (writer, "required", finding->required);
  dry_json_write_string (writer, "why", rule->why);
  dry_json_begin_array (writer, "remedies");
  for (guint i = 0; i < rule->n_remedies; i++)
    dry_json_write_string (writer, NULL, rule->remedies[i].text);
  dry_json_end_array (writer);
  dry_json_write_string (writer, "source", rule->source.text);
  dry_json_write_string (writer, "certainty", dry_certainty_to_text (rule->source.certainty));
  dry_json_write_string (writer, "pack", rule->pack);
  dry_json_write_string (writer, "answer", dry_answer_to_text (finding->answer));
  dry_json_write_string (writer, "answered_by", finding->answered_by);
  dry_json_begin_array (writer, "edits");
  for (guint i = 0; i < rule->n_remedies; i++)
    if (rule->remedies[i].edit)
      dry_json_write_string (writer, NULL, rule->remedies[i].edit);
  dry_json_end_array (writer);
  dry_json_end_object (writer);
}

static char *
make_json (const GPtrArray *plans, gsize *length)
{
  g_autoptr (DryJsonWriter) writer = dry_json_writer_new ();

  dry_json_begin_object (writer, NULL);
  dry_json_begin_array (writer, "rooms");
  for (guint i = 0; i < plans->len; i++) {
    const DryPlan *plan = plans->pdata[i];

    dry_json_begin_object (writer, NULL);
    dry_json_write_integer (writer, "id", plan->context.room->id);
    dry_json_write_string (writer, "name", plan->context.room->name);
    dry_json_write_string (writer, "rules", plan->context.rules->id);
    dry_json_begin_array (writer, "findings");
    for (guint j = 0; j < plan->findings->n; j++)
      write_finding (writer, &plan->findings->items[j]);
    dry_json_end_array (writer);
    dry_json_end_object (writer);
  }
  dry_json_end_array (writer);
  dry_json_end_object (writer);
  return dry_json_writer_finish (g_steal_pointer (&writer), length);
}

/* A pack is named by its id, or by the file it is in. */
static gboolean
is_path (const char *name)
{
  return strchr (name, G_DIR_SEPARATOR) || g_str_has_suffix (name, ".json");
}

static char **
list_paths (char **names)
{
  GPtrArray *paths = g_ptr_array_new ();

  for (guint i = 0; names[i]; i++)
    if (is_path (names[i]))
      g_ptr_array_add (paths, g_strdup (names[i]));
  g_ptr_array_add (paths, NULL);
  return (char **) g_ptr_array_free (paths, FALSE);
}

static const char *
find_id (const DryCatalog *catalog, const char *name)
{
  g_autofree char *shown = g_filename_display_name (name);

  for (guint i = 0; is_path (name) && i < dry_catalog_get_n_rule_packs (catalog); i++)
    if (g_str_equal (dry_catalog_get_rule_pack_at (catalog, i)->file, shown))
      return dry_catalog_get_rule_pack_at (catalog, i)->id;
  return name;
}

/* The rooms asked for under each pack named, in that order; under the project's own by default. */
static GPtrArray *
load_plans (const char *file, GError **error)
{
  g_auto (GStrv) names = packs ? g_strsplit (packs, ",", -1) : NULL;
  g_auto (GStrv) paths = names ? list_paths (names) : NULL;
  g_autoptr (GPtrArray) plans = NULL;
  g_autoptr (GPtrArray) all = g_ptr_array_new_with_free_func ((GDestroyNotify) dry_plan_unref);

  dry_cli_set_pack_files (paths && paths[0] ? paths : NULL);
  plans = dry_cli_load_plans (file, error);
  for (guint n = 0; plans && names && names[n]; n++)
    for (guint i = 0; i < plans->len; i++) {
      const DryPlan *plan = plans->pdata[i];
      g_autoptr (DryProject) project = NULL;
      DryJob job = *plan->context.job;
      DryPlan *other;

      job.rule_pack = (char *) find_id (plan->context.catalog, names[n]);
      project = dry_edit_set_job (plan->project, &job, error);
      other = project ? dry_plan_new (project, plan->context.room->id, plan->context.catalog, NULL,
                                      error)
                      : NULL;
      if (!other)
        return NULL;
      g_ptr_array_add (all, other);
    }
  dry_cli_set_pack_files (NULL);
  return names && plans ? g_steal_pointer (&all) : g_steal_pointer (&plans);
}

static int
run (char **files)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (GPtrArray) plans = load_plans (files[0], &error);
  g_autoptr (GString) text = g_string_new (NULL);
  guint open = 0;
  int status;

  if (!plans)
    return dry_cli_fail (error);
  for (guint i = 0; i < plans->len; i++) {
    open += ((const DryPlan *) plans->pdata[i])->findings->n;
    append_room (text, plans->pdata[i]);
  }
  g_string_append (text, DEFERENCE);
  if (as_json) {
    gsize length;
    g_autofree char *json = make_json (plans, &length);
    status = dry_cli_print (json, length);
  } else
    status = dry_cli_print (text->str, text->len);
  return status != DRY_EXIT_OK ? status : open ? DRY_EXIT_OPEN : DRY_EXIT_OK;
}

static const GOptionEntry ENTRIES[] = {
    {"json", 'j', 0, G_OPTION_ARG_NONE, &as_json, "Print JSON instead of text", NULL},
    {"rules", 0, 0, G_OPTION_ARG_STRING, &packs,
     "Hold the rooms against these rule packs, by id or by file, instead of the project's own",
     "PACK,PACK…"},
    {NULL},
};

const DryCommand dry_command_findings = {
    .name = "findings",
    .arguments = "FILE",
    .summary = "Print what is wrong or unwise, with place, source and remedy",
    .details = "Exit status: 0 none open, 1 some open, 2 error.",
    .entries = ENTRIES,
    .takes_room = TRUE,
    .takes_catalog = TRUE,
    .n_files = 1,
    .run = run,
};
