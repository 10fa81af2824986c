/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The worker: one thread that turns the newest project into a plan and its board scene, so that the
 * window never waits, and then searches on for fewer sheets until another project comes.
 * Knows no session and no widget; older requests are dropped or cancelled. */
#pragma once

#include "draw/drawings.h"

G_BEGIN_DECLS

typedef struct _DryWorker DryWorker;

/* One computation's answer. `plan` and `scene` are NULL with `error` set. Borrowed by the callback.
 * After the live plan of a request there may come more of the same serial, each better nested than
 * the one before or known to be closer to the fewest sheets. */
typedef struct {
  const DryProject *project;
  DryId room;
  guint serial;
  DryPlan *plan;
  DryScene *scene;
  const GError *error;
  gboolean searched; /* found by searching on */
} DryReply;

/* Called in the main context of the thread that made the worker. */
typedef void (*DryAnswered) (const DryReply *answer, gpointer data);

DryWorker *dry_worker_new (const DryCatalog *catalog, DryAnswered answered, gpointer data);
/* Cancels, waits for the thread, and lets no answer through any more. */
void dry_worker_free (DryWorker *self);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (DryWorker, dry_worker_free)

/* Asks for the plan of a room; what was waiting before is forgotten. Never blocks on a computation.
 */
void dry_worker_request (DryWorker *self, const DryProject *project, DryId room, guint serial);
/* As dry_worker_request(), with a plan that is there already: only searches on from it. */
void dry_worker_search (DryWorker *self, const DryPlan *plan, guint serial);
/* How long is searched on, in work units, one try after the other; ends with 0. For tests; the
 * worker's own begin with a fifth of a second and end after some ten. `units` is copied. */
void dry_worker_set_efforts (DryWorker *self, const guint64 *units);
/* Forgets what waits and cancels what runs: nobody wants the answer. */
void dry_worker_drop (DryWorker *self);

G_END_DECLS
