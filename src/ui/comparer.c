/* SPDX-License-Identifier: GPL-3.0-or-later */
/* One task at a time; a newer question cancels the older one. The thread is given references to
 * immutable values and hands back a comparison that nobody else holds. */
#define G_LOG_DOMAIN "drybay-ui"
#include "ui/comparer.h"

#include <glib/gi18n.h>

#include "ui/heap.h"

struct _DryComparer {
  GObject parent_instance;
  DrySession *session;
  DryComparison *comparison;
  DryComparison *marked; /* may be the same; NULL: none */
  char *error;
  GCancellable *cancellable; /* of the comparison under way */
  guint timer;
};

G_DEFINE_FINAL_TYPE (DryComparer, dry_comparer, G_TYPE_OBJECT)

static guint compared_signal;

typedef struct {
  DryProject *project;
  DryCatalog *catalog;
  DryId room;
} Question;

static void
free_question (gpointer data)
{
  Question *question = data;

  dry_project_unref (question->project);
  dry_catalog_unref (question->catalog);
  g_free (question);
}

static void
compare_thread (GTask *task, gpointer source, gpointer data, GCancellable *cancellable)
{
  Question *question = data;
  const DryPriceBook *book = dry_catalog_get_price_book (
      question->catalog, dry_project_get_job (question->project)->prices);
  DryComparison *comparison = NULL;
  GError *error = NULL;

  if (!book)
    g_set_error (&error, DRY_ERROR, DRY_ERROR_REFERENCE, "%s",
                 _ ("The catalogue lacks the price book of the job"));
  else
    comparison = dry_comparison_new (question->project, question->room, question->catalog, book,
                                     NULL, NULL, 0, cancellable, &error);
  if (comparison)
    g_task_return_pointer (task, comparison, (GDestroyNotify) dry_comparison_free);
  else
    g_task_return_error (task, error);
}

static void
compared_cb (GObject *object, GAsyncResult *result, gpointer data)
{
  DryComparer *self = DRY_COMPARER (object);
  g_autoptr (GError) error = NULL;
  g_autoptr (DryComparison) comparison = g_task_propagate_pointer (G_TASK (result), &error);

  if (g_task_get_cancellable (G_TASK (result)) != self->cancellable || !self->session)
    return; /* a newer one is under way, or nobody waits for it */
  g_clear_object (&self->cancellable);
  if (self->comparison != self->marked)
    dry_comparison_free (self->comparison);
  g_clear_pointer (&self->error, g_free);
  self->comparison = g_steal_pointer (&comparison);
  self->error = error ? g_strdup (error->message) : NULL;
  g_signal_emit (self, compared_signal, 0);
  dry_heap_give_back ();
}

static gboolean
begin_cb (gpointer data)
{
  DryComparer *self = data;
  g_autoptr (GTask) task = NULL;
  Question *question = g_new0 (Question, 1);

  self->timer = 0;
  if (self->cancellable)
    g_cancellable_cancel (self->cancellable);
  g_clear_object (&self->cancellable);
  self->cancellable = g_cancellable_new ();
  question->project = dry_project_ref (dry_session_get_project (self->session));
  question->catalog = dry_catalog_ref (dry_session_get_catalog (self->session));
  question->room = dry_session_get_room_id (self->session);
  task = g_task_new (self, self->cancellable, compared_cb, NULL);
  g_task_set_task_data (task, question, free_question);
  g_task_run_in_thread (task, compare_thread);
  return G_SOURCE_REMOVE;
}

void
dry_comparer_ask (DryComparer *self, guint rest)
{
  if (self->timer)
    g_source_remove (self->timer);
  /* What is under way answers an old question: it would only take a core from whoever drags. */
  if (self->cancellable)
    g_cancellable_cancel (self->cancellable);
  g_clear_object (&self->cancellable);
  self->timer = g_timeout_add (rest, begin_cb, self);
}

void
dry_comparer_stop (DryComparer *self)
{
  if (self->timer)
    g_source_remove (self->timer);
  self->timer = 0;
  if (self->cancellable)
    g_cancellable_cancel (self->cancellable);
  g_clear_object (&self->cancellable);
}

const DryComparison *
dry_comparer_get (DryComparer *self)
{
  return self->comparison;
}

void
dry_comparer_mark (DryComparer *self)
{
  dry_comparer_unmark (self);
  self->marked = self->comparison;
}

void
dry_comparer_unmark (DryComparer *self)
{
  if (self->marked != self->comparison)
    dry_comparison_free (self->marked);
  self->marked = NULL;
}

const DryComparison *
dry_comparer_get_marked (DryComparer *self)
{
  return self->marked;
}

const char *
dry_comparer_get_error (DryComparer *self)
{
  return self->error;
}

const DryOption *
dry_comparison_find (const DryComparison *comparison, DryId id)
{
  for (guint i = 0; comparison && i < comparison->n; i++)
    if (comparison->options[i].id == id)
      return &comparison->options[i];
  return NULL;
}

static void
dry_comparer_dispose (GObject *object)
{
  DryComparer *self = DRY_COMPARER (object);

  dry_comparer_stop (self);
  dry_comparer_unmark (self);
  g_clear_pointer (&self->comparison, dry_comparison_free);
  g_clear_pointer (&self->error, g_free);
  g_clear_object (&self->session);
  G_OBJECT_CLASS (dry_comparer_parent_class)->dispose (object);
}

static void
dry_comparer_class_init (DryComparerClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = dry_comparer_dispose;
  compared_signal = g_signal_new ("compared", DRY_TYPE_COMPARER, G_SIGNAL_RUN_LAST, 0, NULL, NULL,
                                  NULL, G_TYPE_NONE, 0);
}

static void
dry_comparer_init (DryComparer *self)
{
}

DryComparer *
dry_comparer_new (DrySession *session)
{
  DryComparer *self = g_object_new (DRY_TYPE_COMPARER, NULL);

  self->session = g_object_ref (session);
  return self;
}
