/* SPDX-License-Identifier: GPL-3.0-or-later */
/* One task a comparison: it owns its own references and stops between and within plans when called
 * off. The figures are those the ledger shows, so that choosing gives what was promised. */
#define G_LOG_DOMAIN "drybay-ui"
#include "ui/system-compare.h"

#include "project/edit.h"

typedef struct {
  DryPlan *present;
  DryCatalog *catalog;
} Comparison;

static void
free_comparison (gpointer data)
{
  Comparison *comparison = data;

  dry_plan_unref (comparison->present);
  dry_catalog_unref (comparison->catalog);
  g_free (comparison);
}

DryProject *
dry_system_swap (const DryProject *project, DryId room, const char *system, GError **error)
{
  DryFinish finish = dry_project_get_room (project, room)->finish;

  finish.system = (char *) system;
  finish.board = 0;
  finish.sheet = NULL;
  return dry_edit_set_finish (project, room, &finish, error);
}

static guint
count_sheets (const DryPlan *plan)
{
  return plan->boards->cutting ? plan->boards->cutting->n_sheets : 0;
}

static DrySystemChange
compare_plans (const DryPlan *present, const DryPlan *other)
{
  return (DrySystemChange){
      .known = TRUE,
      .has_sheets = count_sheets (present) > 0 && count_sheets (other) > 0,
      .sheets = (gint) count_sheets (other) - (gint) count_sheets (present),
      .cost = other->takeoff->cost - present->takeoff->cost,
      .hours = other->order->hours_to_tile_max - present->order->hours_to_tile_max,
      .findings = (gint) other->findings->n - (gint) present->findings->n,
  };
}

static void
compare_all (GTask *task, gpointer source, gpointer data, GCancellable *cancellable)
{
  const Comparison *comparison = data;
  const DryPlan *present = comparison->present;
  DryId room = present->context.room->id;
  g_autoptr (GArray) changes = g_array_new (FALSE, TRUE, sizeof (DrySystemChange));

  for (guint i = 0; i < dry_catalog_get_n_systems (comparison->catalog); i++) {
    const char *id = dry_catalog_get_system_at (comparison->catalog, i)->id;
    g_autoptr (DryProject) swapped = dry_system_swap (present->project, room, id, NULL);
    g_autoptr (DryPlan) plan =
        swapped ? dry_plan_new (swapped, room, comparison->catalog, cancellable, NULL) : NULL;
    DrySystemChange change = {0};

    if (g_task_return_error_if_cancelled (task))
      return;
    if (plan)
      change = compare_plans (present, plan);
    g_array_append_val (changes, change);
  }
  g_task_return_pointer (task, g_steal_pointer (&changes), (GDestroyNotify) g_array_unref);
}

void
dry_system_compare_async (const DryPlan *present, const DryCatalog *catalog,
                          GCancellable *cancellable, GAsyncReadyCallback callback, gpointer data)
{
  g_autoptr (GTask) task = g_task_new (NULL, cancellable, callback, data);
  Comparison *comparison = g_new0 (Comparison, 1);

  comparison->present = dry_plan_ref (present);
  comparison->catalog = dry_catalog_ref (catalog);
  g_task_set_task_data (task, comparison, free_comparison);
  g_task_set_priority (task, G_PRIORITY_LOW);
  g_task_run_in_thread (task, compare_all);
}

GArray *
dry_system_compare_finish (GAsyncResult *result, GError **error)
{
  return g_task_propagate_pointer (G_TASK (result), error);
}
