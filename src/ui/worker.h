/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The worker: one thread that turns the newest project into a plan and its board scene, so that the
 * window never waits. Knows no session and no widget; older requests are dropped or cancelled. */
#pragma once

#include "draw/drawings.h"

G_BEGIN_DECLS

typedef struct _DryWorker DryWorker;

/* One computation's answer. `plan` and `scene` are NULL with `error` set. Borrowed by the callback.
 */
typedef struct {
  const DryProject *project;
  DryId room;
  guint serial;
  DryPlan *plan;
  DryScene *scene;
  const GError *error;
} DryAnswer;

/* Called in the main context of the thread that made the worker. */
typedef void (*DryAnswered) (const DryAnswer *answer, gpointer data);

DryWorker *dry_worker_new (const DryCatalog *catalog, DryAnswered answered, gpointer data);
/* Cancels, waits for the thread, and lets no answer through any more. */
void dry_worker_free (DryWorker *self);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (DryWorker, dry_worker_free)

/* Asks for the plan of a room; what was waiting before is forgotten. Never blocks on a computation.
 */
void dry_worker_request (DryWorker *self, const DryProject *project, DryId room, guint serial);
/* Forgets what waits and cancels what runs: nobody wants the answer. */
void dry_worker_drop (DryWorker *self);

G_END_DECLS
