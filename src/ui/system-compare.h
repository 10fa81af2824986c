/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What would change with each other backer system against the present one: sheets, cost, time to
 * tiling, findings. Computed by whole plans in a thread; knows no widget. */
#pragma once

#include <gio/gio.h>

#include "catalog/catalog.h"
#include "plan/plan.h"

G_BEGIN_DECLS

typedef struct {
  gboolean known; /* FALSE: it could not be planned */
  gboolean has_sheets;
  gint sheets;   /* more (or fewer) than now */
  gint64 cost;   /* minor units */
  double hours;  /* until tiling can start, the longer figure */
  gint findings; /* more (or fewer), whatever their severity */
} DrySystemChange;

/* The room's finish with another system. A thickness or sheet wished of one system means nothing in
 * another, so both fall back to that system's own. */
DryProject *dry_system_swap (const DryProject *project, DryId room, const char *system,
                             GError **error) G_GNUC_WARN_UNUSED_RESULT;

/* Plans the room with every system of the catalogue; `present` is its plan as it is. */
void dry_system_compare_async (const DryPlan *present, const DryCatalog *catalog,
                               GCancellable *cancellable, GAsyncReadyCallback callback,
                               gpointer data);
/* One DrySystemChange per system in the catalogue's order; NULL when cancelled. Free with
 * g_array_unref(). */
GArray *dry_system_compare_finish (GAsyncResult *result, GError **error);

G_END_DECLS
