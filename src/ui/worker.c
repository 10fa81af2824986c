/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The worker thread: a slot for the newest request, a cancellable for the running one.
 * It may not touch anything mutable but this slot; projects, plans and scenes are values. */
#define _GNU_SOURCE /* SCHED_BATCH */
#include "ui/worker.h"

#ifdef __linux__
#  include <pthread.h>
#  include <sched.h>
#endif

#include "plan/cutting-standing.h"
#include "ui/heap.h"

/* A computation older than this gives way to a newer request; quicker ones are let finish, since
 * their answer is worth seeing while the pointer moves on. */
#define PATIENCE_US (40 * G_TIME_SPAN_MILLISECOND)

/* While a thing is dragged one request follows the other: no search begins between them. */
#define PAUSE_US (150 * G_TIME_SPAN_MILLISECOND)
#define IDLE_US  (3 * G_TIME_SPAN_SECOND)

/* Each try begins anew from the project, so that its plan depends on nothing but its effort. */
#define MOST_TRIES 8
static const guint64 EFFORTS[MOST_TRIES] = {DRY_CUTTING_SECOND / 5, DRY_CUTTING_SECOND,
                                            10 * DRY_CUTTING_SECOND, 0};

/* An answer comes after the frame that shows what the hand did: painting the new drawing takes
 * longer than that frame may. The toolkit redraws at G_PRIORITY_HIGH_IDLE + 20. */
#define AFTER_REDRAW (G_PRIORITY_HIGH_IDLE + 25)

typedef struct {
  const DryProject *project;
  DryId room;
  guint serial;
  DryPlan *plan; /* there already, to search on from; else NULL */
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
  gboolean searching; /* what runs is a search: gives way at once */
  guint64 efforts[MOST_TRIES];
  gint64 started;
  gboolean spared; /* the last computation was cancelled: the next one must finish */
  gboolean quit;
};

typedef struct {
  Mailbox *mailbox;
  DryReply answer;
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
clear_request (Request *request)
{
  if (request->project != NULL)
    dry_project_unref ((DryProject *) request->project);
  g_clear_pointer (&request->plan, dry_plan_unref);
  *request = (Request){0};
}

/* Takes over plan, scene and error. */
static void
post_answer (DryWorker *self, const Request *request, DryPlan *plan, DryScene *scene, GError *error,
             gboolean searched)
{
  g_autoptr (GSource) source = g_idle_source_new ();
  Letter *letter = g_new0 (Letter, 1);

  g_atomic_ref_count_inc (&self->mailbox->refs);
  letter->mailbox = self->mailbox;
  letter->answer = (DryReply){.project = dry_project_ref (request->project),
                              .room = request->room,
                              .serial = request->serial,
                              .plan = plan,
                              .scene = scene,
                              .error = error,
                              .searched = searched};
  g_source_set_priority (source, AFTER_REDRAW);
  g_source_set_callback (source, deliver_letter, letter, free_letter);
  g_source_attach (source, self->context);
}

/* The plan of the request: it stays in the request, to be searched on from. */
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
    return;
  }
  request->plan = plan != NULL ? dry_plan_ref (plan) : NULL;
  post_answer (self, request, plan, scene, error, FALSE);
}

/* --- searching on --- */

/* Fewer sheets, or less money, or a saying that is nearer to "fewest". */
static gboolean
is_better (const DryPlan *plan, const DryPlan *than)
{
  const DryCutting *a = plan->boards->cutting, *b = than->boards->cutting;
  DryStanding here = dry_boards_get_standing (plan->boards);
  DryStanding there = dry_boards_get_standing (than->boards);

  if (a->n_unplaced != b->n_unplaced)
    return a->n_unplaced < b->n_unplaced;
  if (a->n_bought != b->n_bought)
    return a->n_bought < b->n_bought;
  return here.kind < there.kind || plan->takeoff->cost < than->takeoff->cost;
}

static gboolean
is_over (const DryPlan *plan)
{
  return plan->boards->cutting == NULL || dry_boards_is_settled (plan->boards);
}

static void
search_on (DryWorker *self, Request *request, const guint64 *efforts, GCancellable *cancellable)
{
  for (guint i = 0; efforts[i] > 0 && !is_over (request->plan); i++) {
    g_autoptr (DryPlan) plan = dry_plan_new_searched (request->project, request->room,
                                                      self->catalog, efforts[i], cancellable, NULL);
    g_autoptr (DryScene) scene = NULL;

    if (plan == NULL)
      return;
    if (!is_better (plan, request->plan))
      continue;
    scene = dry_drawing_board (plan);
    if (g_cancellable_is_cancelled (cancellable))
      return;
    dry_plan_unref (request->plan);
    request->plan = dry_plan_ref (plan);
    post_answer (self, request, g_steal_pointer (&plan), g_steal_pointer (&scene), NULL, TRUE);
  }
}

/* Called with the lock held. FALSE once there is something else to do. */
static gboolean
has_peace (DryWorker *self)
{
  gint64 until = g_get_monotonic_time () + PAUSE_US;

  while (self->waiting.project == NULL && !self->quit &&
         !g_cancellable_is_cancelled (self->running))
    if (!g_cond_wait_until (&self->wake, &self->lock, until))
      return TRUE;
  return FALSE;
}

/* Called with the lock held, which it lets go of meanwhile. */
static void
serve_request (DryWorker *self, Request *request)
{
  g_autoptr (GCancellable) cancellable = g_cancellable_new ();
  guint64 efforts[MOST_TRIES];

  memcpy (efforts, self->efforts, sizeof efforts);
  self->running = cancellable;
  self->searching = request->plan != NULL;
  self->started = g_get_monotonic_time ();
  if (!self->searching) {
    g_mutex_unlock (&self->lock);
    compute_request (self, request, cancellable);
    g_mutex_lock (&self->lock);
    self->spared = g_cancellable_is_cancelled (cancellable);
  }
  if (request->plan != NULL && !is_over (request->plan) && has_peace (self)) {
    self->searching = TRUE;
    g_mutex_unlock (&self->lock);
    search_on (self, request, efforts, cancellable);
    g_mutex_lock (&self->lock);
  }
  self->searching = FALSE;
  self->running = NULL;
}

/* A request is put while the window's thread is about to draw. Waked as an equal, this thread would
 * be put on that one's processor and take it away for as long as a plan lasts; as a batch it has
 * what nobody else wants at that moment, and loses nothing where a processor is free. */
static void
let_window_go_first (void)
{
#ifdef __linux__
  const struct sched_param none = {0};

  pthread_setschedparam (pthread_self (), SCHED_BATCH, &none); /* refused: as before */
#endif
}

/* Called with the lock held. Plans that were tried and let go leave holes in the heap: they are
 * given back when nobody has asked for anything for some seconds. */
static void
wait_for_request (DryWorker *self)
{
  gint64 until = g_get_monotonic_time () + IDLE_US;

  while (self->waiting.project == NULL && !self->quit)
    if (until == 0)
      g_cond_wait (&self->wake, &self->lock);
    else if (!g_cond_wait_until (&self->wake, &self->lock, until)) {
      until = 0;
      g_mutex_unlock (&self->lock);
      dry_heap_trim ();
      g_mutex_lock (&self->lock);
    }
}

static gpointer
run_worker (gpointer data)
{
  DryWorker *self = data;

  let_window_go_first ();
  g_mutex_lock (&self->lock);
  for (;;) {
    Request request;

    wait_for_request (self);
    if (self->quit)
      break;
    request = self->waiting;
    self->waiting = (Request){0};
    serve_request (self, &request);
    clear_request (&request);
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
  memcpy (self->efforts, EFFORTS, sizeof EFFORTS);
  g_mutex_init (&self->lock);
  g_cond_init (&self->wake);
  self->thread = g_thread_new ("drybay-plan", run_worker, self);
  return self;
}

/* Takes over what the request holds. */
static void
put_request (DryWorker *self, Request request)
{
  g_mutex_lock (&self->lock);
  clear_request (&self->waiting);
  self->waiting = request;
  if (self->running != NULL &&
      (self->searching || (!self->spared && g_get_monotonic_time () - self->started > PATIENCE_US)))
    g_cancellable_cancel (self->running);
  g_cond_signal (&self->wake);
  g_mutex_unlock (&self->lock);
}

void
dry_worker_request (DryWorker *self, const DryProject *project, DryId room, guint serial)
{
  put_request (self, (Request){dry_project_ref (project), room, serial, NULL});
}

void
dry_worker_search (DryWorker *self, const DryPlan *plan, guint serial)
{
  put_request (self, (Request){dry_project_ref (plan->project), plan->context.room->id, serial,
                               dry_plan_ref (plan)});
}

void
dry_worker_set_efforts (DryWorker *self, const guint64 *units)
{
  guint n = 0;

  g_mutex_lock (&self->lock);
  while (n + 1 < MOST_TRIES && units[n] > 0) {
    self->efforts[n] = units[n];
    n++;
  }
  self->efforts[n] = 0;
  g_mutex_unlock (&self->lock);
}

void
dry_worker_drop (DryWorker *self)
{
  g_mutex_lock (&self->lock);
  clear_request (&self->waiting);
  if (self->running != NULL)
    g_cancellable_cancel (self->running);
  g_cond_signal (&self->wake);
  g_mutex_unlock (&self->lock);
}

void
dry_worker_free (DryWorker *self)
{
  self->mailbox->answered = NULL;
  g_mutex_lock (&self->lock);
  self->quit = TRUE;
  clear_request (&self->waiting);
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
