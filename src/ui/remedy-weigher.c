/* SPDX-License-Identifier: GPL-3.0-or-later */
/* One thread at a time, cancelled as soon as another plan comes. Results are copies, so that they
 * outlive the plan they were weighed for; they are shown until newer ones come. */
#define G_LOG_DOMAIN "drybay-ui"
#include "ui/remedy-weigher.h"

#include <glib/gi18n.h>
#include "plan/remedy-weigh.h"
#include "ui/ledger-pages.h"

/* After the last change: whoever drags or types is not to share the processor with this. */
#define REST_MS 200

struct _DryWeigher {
  DrySession *session;
  void (*weighed) (gpointer data);
  gpointer data;
  GPtrArray *wanted;         /* ids */
  GHashTable *known;         /* id to GPtrArray of DryWeighed */
  GHashTable *fresh;         /* ids weighed for `plan` */
  DryPlan *plan;             /* held, so that no other takes its place */
  GCancellable *cancellable; /* of what runs, or NULL */
  guint rest;
};

typedef struct {
  DryPlan *plan;
  char **ids;
} Task;

static void
free_task (gpointer data)
{
  Task *task = data;

  dry_plan_unref (task->plan);
  g_strfreev (task->ids);
  g_free (task);
}

static void
free_weighed (gpointer data)
{
  DryWeighed *weighed = data;

  g_free (weighed->text);
  g_free (weighed->edit);
  g_free (weighed->cost);
  g_free (weighed);
}

/* --- words --- */

/* Takes the words; says them when there are any of what they count. */
static void
append_words (GString *line, gboolean any, char *words)
{
  if (any)
    g_string_append_printf (line, "%s%s", line->len > 0 ? ", " : "", words);
  g_free (words);
}

/* What there is more of when `sign` is 1, less of when it is -1. */
static char *
list_costs (const DryRemedyWeight *weight, gint sign)
{
  GString *line = g_string_new (NULL);
  gint cut = sign * weight->studs_cut, members = sign * weight->members;
  gint sheets = sign * weight->sheets;
  double wait = sign * weight->days * 24, hours = sign * weight->hours;
  g_autofree char *money = dry_text_money (sign * weight->money);
  g_autofree char *time = dry_text_hours (wait);

  append_words (
      line, cut > 0,
      g_strdup_printf (ngettext ("%d stud cut", "%d studs cut", (gulong) MAX (cut, 0)), cut));
  append_words (line, members > 0,
                g_strdup_printf (ngettext ("%d piece of framing", "%d pieces of framing",
                                           (gulong) MAX (members, 0)),
                                 members));
  append_words (
      line, sheets > 0,
      g_strdup_printf (ngettext ("%d sheet", "%d sheets", (gulong) MAX (sheets, 0)), sheets));
  append_words (line, hours >= 0.05, g_strdup_printf (_ ("%.1f h of work"), hours));
  append_words (line, wait >= 0.5, g_strdup_printf (_ ("%s until tiling"), time));
  append_words (line, sign * weight->money > 0, g_strdup_printf (_ ("%s of material"), money));
  return g_string_free (line, FALSE);
}

static char *
list_findings (const DryRemedyWeight *weight)
{
  GString *line = g_string_new (NULL);
  const gint *found = weight->found;

  append_words (line, found[DRY_SEVERITY_STOP] > 0,
                g_strdup_printf (_ ("%d to stop for"), found[DRY_SEVERITY_STOP]));
  append_words (line, found[DRY_SEVERITY_FIX] > 0,
                g_strdup_printf (_ ("%d to fix"), found[DRY_SEVERITY_FIX]));
  append_words (line, found[DRY_SEVERITY_ADVICE] > 0,
                g_strdup_printf (_ ("%d advice"), found[DRY_SEVERITY_ADVICE]));
  return g_string_free (line, FALSE);
}

/* Takes the sentence. */
static void
append_sentence (GString *text, gboolean applies, char *sentence)
{
  if (applies)
    g_string_append_printf (text, "%s%s", text->len > 0 ? ". " : "", sentence);
  g_free (sentence);
}

static char *
tell_cost (const DryRemedyWeight *weight)
{
  g_autofree char *more = list_costs (weight, 1), *less = list_costs (weight, -1);
  g_autofree char *found = list_findings (weight);
  GString *text = g_string_new (NULL);

  append_sentence (text, more[0] != '\0', g_strdup_printf (_ ("Adds %s"), more));
  append_sentence (text, less[0] != '\0', g_strdup_printf (_ ("Saves %s"), less));
  append_sentence (text, text->len == 0, g_strdup (_ ("Costs nothing")));
  append_sentence (text, !weight->priced, g_strdup (_ ("Some of it has no price")));
  append_sentence (text, found[0] != '\0', g_strdup_printf (_ ("Raises %s"), found));
  append_sentence (text, !weight->mends, g_strdup (_ ("Does not settle it by itself")));
  return g_string_free (text, FALSE);
}

/* --- weighing --- */

static GPtrArray *
copy_weights (const DryRemedyWeights *weights)
{
  GPtrArray *list = g_ptr_array_new_with_free_func (free_weighed);

  for (guint i = 0; i < weights->n; i++) {
    const DryRemedyWeight *from = &weights->items[i];
    DryWeighed *weighed = g_new0 (DryWeighed, 1);

    weighed->text = g_strdup (from->remedy->text);
    weighed->edit = g_strdup (from->remedy->edit);
    weighed->refused = from->refused != NULL;
    if (from->refused)
      weighed->cost = g_strdup (from->refused);
    else if (!from->by_hand)
      weighed->cost = tell_cost (from);
    g_ptr_array_add (list, weighed);
  }
  return list;
}

static const DryFinding *
find_finding (const DryPlan *plan, const char *id)
{
  for (guint i = 0; i < plan->findings->n; i++)
    if (g_str_equal (plan->findings->items[i].id, id))
      return &plan->findings->items[i];
  return NULL;
}

static void
weigh_in_thread (GTask *gtask, gpointer source, gpointer data, GCancellable *cancellable)
{
  Task *task = data;
  GHashTable *found =
      g_hash_table_new_full (g_str_hash, g_str_equal, g_free, (GDestroyNotify) g_ptr_array_unref);

  for (guint i = 0; task->ids[i]; i++) {
    const DryFinding *finding = find_finding (task->plan, task->ids[i]);
    g_autoptr (DryRemedyWeights) weights = NULL;
    GError *error = NULL;

    if (!finding)
      continue;
    weights = dry_remedy_weigh (task->plan, finding, cancellable, &error);
    if (!weights) {
      g_hash_table_unref (found);
      g_task_return_error (gtask, error);
      return;
    }
    g_hash_table_insert (found, g_strdup (task->ids[i]), copy_weights (weights));
  }
  g_task_return_pointer (gtask, found, (GDestroyNotify) g_hash_table_unref);
}

static void
weighed_cb (GObject *source, GAsyncResult *result, gpointer data)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (GHashTable) found = g_task_propagate_pointer (G_TASK (result), &error);
  DryWeigher *self = data;
  GHashTableIter iter;
  gpointer id, list;

  if (g_cancellable_is_cancelled (g_task_get_cancellable (G_TASK (result))))
    return; /* `self` may be gone */
  g_clear_object (&self->cancellable);
  if (!found) {
    g_warning ("Remedies could not be weighed: %s", error->message);
    return;
  }
  g_hash_table_iter_init (&iter, found);
  while (g_hash_table_iter_next (&iter, &id, &list)) {
    g_hash_table_add (self->fresh, g_strdup (id));
    g_hash_table_replace (self->known, g_strdup (id), g_ptr_array_ref (list));
  }
  self->weighed (self->data);
}

static void
stop_weighing (DryWeigher *self)
{
  if (self->cancellable)
    g_cancellable_cancel (self->cancellable);
  g_clear_object (&self->cancellable);
  g_clear_handle_id (&self->rest, g_source_remove);
}

/* The wanted ids that are not known of this plan. NULL-ended; free. */
static char **
list_unknown (DryWeigher *self)
{
  GPtrArray *ids = g_ptr_array_new ();

  for (guint i = 0; i < self->wanted->len; i++)
    if (!g_hash_table_contains (self->fresh, self->wanted->pdata[i]))
      g_ptr_array_add (ids, g_strdup (self->wanted->pdata[i]));
  g_ptr_array_add (ids, NULL);
  return (char **) g_ptr_array_free (ids, FALSE);
}

static gboolean
weigh_cb (gpointer data)
{
  DryWeigher *self = data;
  g_auto (GStrv) ids = list_unknown (self);
  g_autoptr (GTask) gtask = NULL;
  Task *task;

  self->rest = 0;
  if (!ids[0] || self->plan != dry_session_get_plan (self->session) ||
      !dry_session_is_settled (self->session))
    return G_SOURCE_REMOVE;
  self->cancellable = g_cancellable_new ();
  gtask = g_task_new (NULL, self->cancellable, weighed_cb, self);
  task = g_new0 (Task, 1);
  task->plan = dry_plan_ref (self->plan);
  task->ids = g_steal_pointer (&ids);
  g_task_set_task_data (gtask, task, free_task);
  g_task_run_in_thread (gtask, weigh_in_thread);
  return G_SOURCE_REMOVE;
}

/* --- what is looked at --- */

static gboolean
is_unwanted (gpointer id, gpointer list, gpointer data)
{
  const DryWeigher *self = data;

  for (guint i = 0; i < self->wanted->len; i++)
    if (g_str_equal (self->wanted->pdata[i], id))
      return FALSE;
  return TRUE;
}

void
dry_weigher_look_at (DryWeigher *self, const char *const *ids)
{
  const DryPlan *plan = dry_session_get_plan (self->session);
  gboolean other = plan != self->plan;
  g_auto (GStrv) unknown = NULL;

  g_ptr_array_set_size (self->wanted, 0);
  for (guint i = 0; ids[i]; i++)
    g_ptr_array_add (self->wanted, g_strdup (ids[i]));
  g_hash_table_foreach_remove (self->known, is_unwanted, self);
  g_hash_table_foreach_remove (self->fresh, is_unwanted, self);
  if (other) {
    stop_weighing (self);
    g_hash_table_remove_all (self->fresh);
    g_clear_pointer (&self->plan, dry_plan_unref);
    self->plan = plan ? dry_plan_ref (plan) : NULL;
  }
  unknown = list_unknown (self);
  if (!unknown[0] || self->rest)
    return;
  stop_weighing (self); /* what runs knows nothing of the new one */
  self->rest = g_timeout_add (other ? REST_MS : 1, weigh_cb, self);
}

const GPtrArray *
dry_weigher_get (DryWeigher *self, const char *id)
{
  return g_hash_table_lookup (self->known, id);
}

/* --- object --- */

DryWeigher *
dry_weigher_new (DrySession *session, void (*weighed) (gpointer data), gpointer data)
{
  DryWeigher *self = g_new0 (DryWeigher, 1);

  self->session = session;
  self->weighed = weighed;
  self->data = data;
  self->wanted = g_ptr_array_new_with_free_func (g_free);
  self->known =
      g_hash_table_new_full (g_str_hash, g_str_equal, g_free, (GDestroyNotify) g_ptr_array_unref);
  self->fresh = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
  return self;
}

void
dry_weigher_free (DryWeigher *self)
{
  if (!self)
    return;
  stop_weighing (self);
  g_clear_pointer (&self->plan, dry_plan_unref);
  g_ptr_array_unref (self->wanted);
  g_hash_table_unref (self->known);
  g_hash_table_unref (self->fresh);
  g_free (self);
}
