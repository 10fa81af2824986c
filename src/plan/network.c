/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Early dates forward, late dates backward, and the chain of drivers back from the end.
 * ES = max over predecessors (EF + wait); LF = min over successors (LS - wait). Knows no units. */
#include "plan/network.h"

#include <string.h>

typedef struct {
  DryArena *arena;
  const DryActivity *activities;
  guint n;
  const DryNetworkClock *clock;
  gint64 start;
  guint **before; /* index of each link's activity */
  DryNetwork *network;
} Computing;

static gboolean
check_activity (const DryActivity *activity, GError **error)
{
  if (activity->duration < 0 || activity->duration > DRY_MAX_TIME / DRY_MAX_ACTIVITIES) {
    g_set_error (error, DRY_ERROR, DRY_ERROR_LIMIT,
                 "Activity “%s”: its duration is negative or too long", activity->id);
    return FALSE;
  }
  for (guint i = 0; i < activity->n_after; i++)
    if (activity->after[i].wait < 0 ||
        activity->after[i].wait > DRY_MAX_TIME / DRY_MAX_ACTIVITIES) {
      g_set_error (error, DRY_ERROR, DRY_ERROR_LIMIT,
                   "Activity “%s”: the wait after “%s” is negative or too long", activity->id,
                   activity->after[i].id);
      return FALSE;
    }
  return TRUE;
}

/* Finds every id named; ids are unique. */
static gboolean
resolve (Computing *self, GError **error)
{
  g_autoptr (GHashTable) places = g_hash_table_new (g_str_hash, g_str_equal);

  for (guint i = 0; i < self->n; i++) {
    const DryActivity *activity = &self->activities[i];

    if (!check_activity (activity, error))
      return FALSE;
    if (!g_hash_table_insert (places, (gpointer) activity->id, GUINT_TO_POINTER (i + 1))) {
      g_set_error (error, DRY_ERROR, DRY_ERROR_REFERENCE, "There are two activities “%s”",
                   activity->id);
      return FALSE;
    }
  }
  self->before = dry_arena_new_array (self->arena, guint *, self->n);
  for (guint i = 0; i < self->n; i++) {
    const DryActivity *activity = &self->activities[i];

    self->before[i] = dry_arena_new_array (self->arena, guint, activity->n_after);
    for (guint j = 0; j < activity->n_after; j++) {
      guint at = GPOINTER_TO_UINT (g_hash_table_lookup (places, activity->after[j].id));
      if (at == 0) {
        g_set_error (error, DRY_ERROR, DRY_ERROR_REFERENCE,
                     "Activity “%s” comes after “%s”, which is not there", activity->id,
                     activity->after[j].id);
        return FALSE;
      }
      self->before[i][j] = at - 1;
    }
  }
  return TRUE;
}

/* Walks backward among those left over until one is met again, and names the ring. */
static void
report_ring (const Computing *self, const gboolean *done, GError **error)
{
  g_autofree guint *seen = g_new0 (guint, self->n);
  g_autoptr (GPtrArray) walk = g_ptr_array_new ();
  g_autoptr (GString) text = g_string_new (NULL);
  guint at = 0, from;

  while (done[at])
    at++;
  while (!seen[at]) {
    guint next = at;

    g_ptr_array_add (walk, (gpointer) self->activities[at].id);
    seen[at] = walk->len;
    for (guint j = 0; j < self->activities[at].n_after; j++)
      if (!done[self->before[at][j]])
        next = self->before[at][j];
    at = next;
  }
  from = seen[at] - 1;
  /* the walk went backward: told forward, and closed */
  g_string_append (text, walk->pdata[from]);
  for (guint i = walk->len; i-- > from;)
    g_string_append_printf (text, " → %s", (const char *) walk->pdata[i]);
  g_set_error (error, DRY_ERROR, DRY_ERROR_SCHEMA,
               "These activities wait for one another in a ring: %s", text->str);
}

/* An order in which each comes after what it waits for: the first ready in the list goes first. */
static gboolean
sort (Computing *self, GError **error)
{
  g_autofree guint *open = g_new0 (guint, self->n);
  g_autofree gboolean *done = g_new0 (gboolean, self->n);
  g_autofree guint *first = g_new (guint, self->n + 1), *next = NULL;
  g_autoptr (GArray) links = g_array_new (FALSE, FALSE, sizeof (guint));
  guint *order = self->network->order, n = 0;

  /* followers of i: a chain through `next`, whose entries are links */
  memset (first, 0xff, sizeof (guint) * self->n);
  for (guint i = 0; i < self->n; i++)
    for (guint j = 0; j < self->activities[i].n_after; j++)
      g_array_append_val (links, i);
  next = g_new (guint, links->len + 1);
  for (guint i = self->n, link = links->len; i-- > 0;)
    for (guint j = self->activities[i].n_after; j-- > 0;) {
      link--;
      next[link] = first[self->before[i][j]];
      first[self->before[i][j]] = link;
      open[i]++;
    }
  for (guint i = 0; i < self->n; i++)
    if (open[i] == 0)
      order[n++] = i;
  for (guint at = 0; at < n; at++) {
    done[order[at]] = TRUE;
    for (guint link = first[order[at]]; link != G_MAXUINT; link = next[link]) {
      guint follower = g_array_index (links, guint, link);
      if (--open[follower] == 0)
        order[n++] = follower;
    }
  }
  if (n < self->n)
    report_ring (self, done, error);
  return n == self->n;
}

/* A milestone happens when it is due, be it night; so does what stands by itself. */
static gboolean
is_by_clock (const Computing *self, const DryActivity *activity)
{
  return self->clock && activity->duration > 0 && !activity->standing;
}

static gint64
begin_work (const Computing *self, const DryActivity *activity, gint64 at)
{
  return is_by_clock (self, activity) ? self->clock->begin (self->clock->data, at) : at;
}

static gint64
finish_work (const Computing *self, const DryActivity *activity, gint64 from)
{
  return is_by_clock (self, activity)
             ? self->clock->advance (self->clock->data, from, activity->duration)
             : from + activity->duration;
}

static gint64
start_for (const Computing *self, const DryActivity *activity, gint64 finish)
{
  return is_by_clock (self, activity)
             ? self->clock->retreat (self->clock->data, finish, activity->duration)
             : finish - activity->duration;
}

static void
go_forward (Computing *self)
{
  DryNetwork *network = self->network;

  network->length = self->start;
  for (guint k = 0; k < self->n; k++) {
    guint i = network->order[k];
    const DryActivity *activity = &self->activities[i];
    DryActivityDates *dates = &network->dates[i];
    gint64 ready = self->start;

    dates->driver = -1;
    for (guint j = 0; j < activity->n_after; j++) {
      gint64 after = network->dates[self->before[i][j]].early_finish + activity->after[j].wait;
      if (after > ready || (after == ready && dates->driver < 0)) {
        ready = after;
        dates->driver = (gint) self->before[i][j];
      }
    }
    dates->early_start = begin_work (self, activity, ready);
    dates->early_finish = finish_work (self, activity, dates->early_start);
    network->length = MAX (network->length, dates->early_finish);
  }
}

static void
go_backward (Computing *self)
{
  DryNetwork *network = self->network;

  for (guint i = 0; i < self->n; i++)
    network->dates[i].late_finish = network->length;
  for (guint k = self->n; k-- > 0;) {
    guint i = network->order[k];
    const DryActivity *activity = &self->activities[i];
    DryActivityDates *dates = &network->dates[i];

    dates->late_start = start_for (self, activity, dates->late_finish);
    for (guint j = 0; j < activity->n_after; j++) {
      DryActivityDates *before = &network->dates[self->before[i][j]];
      before->late_finish = MIN (before->late_finish, dates->late_start - activity->after[j].wait);
    }
    dates->slack = dates->late_start - dates->early_start;
    dates->critical = dates->slack == 0;
  }
}

/* From the last to finish (the first such in the list) back along what each waited for. */
static void
find_path (Computing *self)
{
  DryNetwork *network = self->network;
  GArray *path = g_array_new (FALSE, FALSE, sizeof (guint));
  gint at = -1;

  for (guint i = 0; i < self->n && at < 0; i++)
    if (network->dates[i].early_finish == network->length)
      at = (gint) i;
  for (; at >= 0; at = network->dates[at].driver) {
    guint index = (guint) at;
    g_array_prepend_val (path, index);
    network->dates[at].critical = TRUE;
  }
  network->n_path = path->len;
  network->path = dry_arena_take_array (self->arena, path);
}

const DryNetwork *
dry_network_compute (DryArena *arena, const DryActivity *activities, guint n,
                     const DryNetworkClock *clock, gint64 start, GError **error)
{
  Computing self = {arena, activities, n, clock, start, NULL, NULL};

  if (n > DRY_MAX_ACTIVITIES) {
    g_set_error (error, DRY_ERROR, DRY_ERROR_LIMIT, "%u activities; at most %d may be", n,
                 DRY_MAX_ACTIVITIES);
    return NULL;
  }
  self.network = dry_arena_alloc (arena, sizeof *self.network);
  self.network->n = n;
  self.network->dates = dry_arena_new_array (arena, DryActivityDates, n);
  self.network->order = dry_arena_new_array (arena, guint, n);
  if (!resolve (&self, error) || !sort (&self, error))
    return NULL;
  go_forward (&self);
  go_backward (&self);
  find_path (&self);
  return self.network;
}
