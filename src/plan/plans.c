/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A pool of threads that each take the next room. Every room has a place of its own for its answer,
 * so nothing is shared but what never changes. */
#define G_LOG_DOMAIN "drybay-plan"

#include "plan/plans.h"

typedef struct {
  const DryProject *project;
  const DryId *rooms;
  const DryCatalog *catalog;
  guint64 effort;
  GCancellable *cancellable;
  DryPlan **plans; /* one a room */
  GError **errors;
  gint failed; /* atomic: what comes after need not be begun */
} Batch;

/* Numbers travel as pointers, from 1 on: a pool takes no NULL. */
static void
plan_room (gpointer data, gpointer user_data)
{
  guint at = GPOINTER_TO_UINT (data) - 1;
  Batch *batch = user_data;

  if (g_atomic_int_get (&batch->failed))
    return;
  batch->plans[at] = dry_plan_new_searched (batch->project, batch->rooms[at], batch->catalog,
                                            batch->effort, batch->cancellable, &batch->errors[at]);
  if (batch->plans[at] == NULL)
    g_atomic_int_set (&batch->failed, TRUE);
}

static void
run_batch (Batch *batch, guint n)
{
  GThreadPool *pool =
      n > 1 ? g_thread_pool_new (plan_room, batch, (gint) g_get_num_processors (), FALSE, NULL)
            : NULL;

  for (guint i = 0; i < n; i++)
    if (pool == NULL || !g_thread_pool_push (pool, GUINT_TO_POINTER (i + 1), NULL))
      plan_room (GUINT_TO_POINTER (i + 1), batch);
  if (pool != NULL)
    g_thread_pool_free (pool, FALSE, TRUE);
}

GPtrArray *
dry_plans_new (const DryProject *project, const DryId *rooms, guint n_rooms,
               const DryCatalog *catalog, guint64 effort, GCancellable *cancellable, GError **error)
{
  g_autoptr (GPtrArray) answer = g_ptr_array_new_with_free_func ((GDestroyNotify) dry_plan_unref);
  g_autofree DryPlan **plans = g_new0 (DryPlan *, n_rooms);
  g_autofree GError **errors = g_new0 (GError *, n_rooms);
  Batch batch = {project, rooms, catalog, effort, cancellable, plans, errors, FALSE};

  run_batch (&batch, n_rooms);
  for (guint i = 0; i < n_rooms; i++) {
    if (plans[i] != NULL)
      g_ptr_array_add (answer, plans[i]);
    if (errors[i] != NULL && error != NULL && *error == NULL)
      g_propagate_error (error, g_steal_pointer (&errors[i]));
    g_clear_error (&errors[i]);
  }
  return answer->len == n_rooms ? g_steal_pointer (&answer) : NULL;
}
