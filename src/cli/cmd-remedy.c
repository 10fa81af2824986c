/* SPDX-License-Identifier: GPL-3.0-or-later */
/* drybay-cli remedy: weighs the remedies of one finding, or applies one and writes the new project.
 * The finding is named by the id that “findings --json” prints. */
#include <string.h>

#include "cli/command.h"
#include "plan/remedy-weigh.h"
#include "project/file.h"

static char *output, *edit;

static const DryFinding *
find_finding (const GPtrArray *plans, const char *id, const DryPlan **plan)
{
  for (guint i = 0; i < plans->len; i++) {
    *plan = plans->pdata[i];
    for (guint j = 0; j < (*plan)->findings->n; j++)
      if (strcmp ((*plan)->findings->items[j].id, id) == 0)
        return &(*plan)->findings->items[j];
  }
  return NULL;
}

static int
print_weights (const DryRemedyWeights *weights, const DryFinding *finding)
{
  g_autoptr (GString) text = g_string_new (NULL);

  g_string_append_printf (text, "%s\n%s\n\n", finding->where, finding->message);
  for (guint i = 0; i < weights->n; i++) {
    const DryRemedyWeight *it = &weights->items[i];
    g_string_append_printf (text, "%u. %s%s%s\n   %s\n", i + 1, it->remedy->text,
                            it->remedy->edit ? "  --edit " : "",
                            it->remedy->edit ? it->remedy->edit : "", it->text);
    if (it->project && !it->mends)
      g_string_append (text, "   does not mend it by itself\n");
  }
  return dry_cli_print (text->str, text->len);
}

static int
run_on (const GPtrArray *plans, const char *id, GError **error)
{
  const DryPlan *plan = NULL;
  const DryFinding *finding = find_finding (plans, id, &plan);
  g_autoptr (DryRemedyWeights) weights = NULL;

  if (!finding) {
    g_set_error (error, DRY_ERROR, DRY_ERROR_REFERENCE, "There is no finding “%s” in this plan",
                 id);
    return DRY_EXIT_ERROR;
  }
  weights = dry_remedy_weigh (plan, finding, NULL, error);
  if (!weights)
    return DRY_EXIT_ERROR;
  if (!output)
    return print_weights (weights, finding);
  for (guint i = 0; i < weights->n; i++) {
    const DryRemedyWeight *it = &weights->items[i];
    if (edit ? g_strcmp0 (it->remedy->edit, edit) != 0 : it->project == NULL)
      continue;
    if (it->project)
      return dry_project_save (it->project, output, error) ? DRY_EXIT_OK : DRY_EXIT_ERROR;
    g_set_error (error, DRY_ERROR, DRY_ERROR_GEOMETRY, "%s: %s", it->remedy->text, it->text);
    return DRY_EXIT_ERROR;
  }
  g_set_error (error, DRY_ERROR, DRY_ERROR_UNSUPPORTED,
               edit ? "“%s” has no remedy “%s”" : "“%s” has to be remedied by hand", id, edit);
  return DRY_EXIT_ERROR;
}

static int
run (char **files)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (GPtrArray) plans = dry_cli_load_plans (files[0], &error);
  int status = plans ? run_on (plans, files[1], &error) : DRY_EXIT_ERROR;

  return error ? dry_cli_fail (error) : status;
}

static const GOptionEntry ENTRIES[] = {
    {"output", 'o', 0, G_OPTION_ARG_FILENAME, &output,
     "Apply the best remedy that can be applied and write the project there", "OUT.drybay"},
    {"edit", 'e', 0, G_OPTION_ARG_STRING, &edit, "Apply this remedy instead of the best", "NAME"},
    {NULL},
};

const DryCommand dry_command_remedy = {
    .name = "remedy",
    .arguments = "FILE FINDING",
    .summary = "Weigh the remedies of a finding, or apply one and write the new project",
    .details = "FINDING is an id that “findings --json” prints. Prices are the catalogue's; the "
               "shipped ones are\ninvented samples.",
    .entries = ENTRIES,
    .takes_room = TRUE,
    .takes_catalog = TRUE,
    .n_files = 2,
    .run = run,
};
