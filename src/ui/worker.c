/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The worker thread: a slot for the newest request, a cancellable for the running one.
 * It may not touch anything mutable but this slot; projects, plans and scenes are values. */
#include "ui/worker.h"

/* A computation older than this gives way to a newer request; quicker ones are let finish, since
 * their answer is worth seeing while the pointer moves on. */
#define PATIENCE_US (40 * G_TIME_SPAN_MILLISECOND)

typedef struct {
  const DryProject *project;
  DryId room;
  guint serial;
} Request;

/* Outlives the worker while answers are on their way to the main loop. */
typedef struct {
  gatomicrefcount refs;
  DryAnswered answered; /* NULL once the worker is gone; main thread only */
  gpointer data;
} Mailbox;

struct _DryWorker {
  const DryCatalog *catalog;
  GMainContext *context;
  Mailbox *mailbox;
  GThread *thread;

  GMutex lock; /* guards everything below */
  GCond wake;
  Request waiting; /* project NULL: nothing waits */
  GCancellable *running;
  gint64 started;
  gboolean spared; /* the last computation was cancelled: the next one must finish */
  gboolean quit;
};

typedef struct {
  Mailbox *mailbox;
  DryAnswer answer;
} Letter;

static void
release_mailbox (Mailbox *mailbox)
{
  if (g_atomic_ref_count_dec (&mailbox->refs))
    g_free (mailbox);
}

static void
free_letter (gpointer data)
{
  Letter *letter = data;

  dry_project_unref ((DryProject *) letter->answer.project);
  g_clear_pointer (&letter->answer.plan, dry_plan_unref);
  g_clear_pointer (&letter->answer.scene, dry_scene_unref);
  g_clear_error ((GError **) &letter->answer.error);
  release_mailbox (letter->mailbox);
  g_free (letter);
}

static gboolean
deliver_letter (gpointer data)
{
  Letter *letter = data;

  if (letter->mailbox->answered != NULL)
    letter->mailbox->answered (&letter->answer, letter->mailbox->data);
  return G_SOURCE_REMOVE;
}

static void
post_answer (DryWorker *self, Request *request, DryPlan *plan, DryScene *scene, GError *error)
{
  g_autoptr (GSource) source = g_idle_source_new ();
  Letter *letter = g_new0 (Letter, 1);

  g_atomic_ref_count_inc (&self->mailbox->refs);
  letter->mailbox = self->mailbox;
  letter->answer = (DryAnswer){.project = request->project,
                               .room = request->room,
                               .serial = request->serial,
                               .plan = plan,
                               .scene = scene,
                               .error = error};
  request->project = NULL;
  g_source_set_priority (source, G_PRIORITY_DEFAULT);
  g_source_set_callback (source, deliver_letter, letter, free_letter);
  g_source_attach (source, self->context);
}

static void
compute_request (DryWorker *self, Request *request, GCancellable *cancellable)
{
  GError *error = NULL;
  DryPlan *plan =
      dry_plan_new (request->project, request->room, self->catalog, cancellable, &error);
  DryScene *scene = NULL;

  if (plan != NULL && !g_cancellable_is_cancelled (cancellable))
    scene = dry_drawing_board (plan);
  if (g_error_matches (error, DRY_ERROR, DRY_ERROR_CANCELLED) || (plan != NULL && scene == NULL)) {
    g_clear_error (&error);
    g_clear_pointer (&plan, dry_plan_unref);
    dry_project_unref ((DryProject *) g_steal_pointer (&request->project));
    return;
  }
  post_answer (self, request, plan, scene, error);
}

static gpointer
run_worker (gpointer data)
{
  DryWorker *self = data;

  g_mutex_lock (&self->lock);
  for (;;) {
    Request request;

    while (self->waiting.project == NULL && !self->quit)
      g_cond_wait (&self->wake, &self->lock);
    if (self->quit)
      break;
    request = self->waiting;
    self->waiting = (Request){0};
    g_autoptr (GCancellable) cancellable = g_cancellable_new ();
    self->running = cancellable;
    self->started = g_get_monotonic_time ();
    g_mutex_unlock (&self->lock);

    compute_request (self, &request, cancellable);

    g_mutex_lock (&self->lock);
    self->spared = g_cancellable_is_cancelled (cancellable);
    self->running = NULL;
  }
  g_mutex_unlock (&self->lock);
  return NULL;
}

DryWorker *
dry_worker_new (const DryCatalog *catalog, DryAnswered answered, gpointer data)
{
  DryWorker *self = g_new0 (DryWorker, 1);

  self->catalog = dry_catalog_ref (catalog);
  self->context = g_main_context_ref_thread_default ();
  self->mailbox = g_new0 (Mailbox, 1);
  g_atomic_ref_count_init (&self->mailbox->refs);
  self->mailbox->answered = answered;
  self->mailbox->data = data;
  g_mutex_init (&self->lock);
  g_cond_init (&self->wake);
  self->thread = g_thread_new ("drybay-plan", run_worker, self);
  return self;
}

/* Called with the lock held. */
static void
forget_waiting (DryWorker *self)
{
  if (self->waiting.project != NULL)
    dry_project_unref ((DryProject *) self->waiting.project);
  self->waiting = (Request){0};
}

void
dry_worker_request (DryWorker *self, const DryProject *project, DryId room, guint serial)
{
  g_mutex_lock (&self->lock);
  forget_waiting (self);
  self->waiting = (Request){dry_project_ref (project), room, serial};
  if (self->running != NULL && !self->spared &&
      g_get_monotonic_time () - self->started > PATIENCE_US)
    g_cancellable_cancel (self->running);
  g_cond_signal (&self->wake);
  g_mutex_unlock (&self->lock);
}

void
dry_worker_drop (DryWorker *self)
{
  g_mutex_lock (&self->lock);
  forget_waiting (self);
  if (self->running != NULL)
    g_cancellable_cancel (self->running);
  g_mutex_unlock (&self->lock);
}

void
dry_worker_free (DryWorker *self)
{
  self->mailbox->answered = NULL;
  g_mutex_lock (&self->lock);
  self->quit = TRUE;
  forget_waiting (self);
  if (self->running != NULL)
    g_cancellable_cancel (self->running);
  g_cond_signal (&self->wake);
  g_mutex_unlock (&self->lock);
  g_thread_join (self->thread);

  g_mutex_clear (&self->lock);
  g_cond_clear (&self->wake);
  dry_catalog_unref ((DryCatalog *) self->catalog);
  g_main_context_unref (self->context);
  release_mailbox (self->mailbox);
  g_free (self);
}
