/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Undo and redo as a list of whole projects, which share the rooms they have in common.
 * Knows nothing of what an edit does, of files and of menus. */
#define G_LOG_DOMAIN "drybay-project"

#include "project/history.h"

typedef struct {
  DryProject *project;
  char *name;
  char *merge_key;
} Step;

struct _DryHistory {
  GPtrArray *steps; /* never empty */
  guint current;
  gboolean sealed;
  DryProject *saved; /* NULL until marked */
};

static void
free_step (gpointer data)
{
  Step *step = data;

  dry_project_unref (step->project);
  g_free (step->name);
  g_free (step->merge_key);
  g_free (step);
}

static Step *
make_step (const DryProject *project, const char *name, const char *merge_key)
{
  Step *step = g_new0 (Step, 1);

  step->project = dry_project_ref (project);
  step->name = g_strdup (name);
  step->merge_key = g_strdup (merge_key);
  return step;
}

DryHistory *
dry_history_new (const DryProject *first)
{
  DryHistory *self = g_new0 (DryHistory, 1);

  self->steps = g_ptr_array_new_with_free_func (free_step);
  g_ptr_array_add (self->steps, make_step (first, NULL, NULL));
  return self;
}

void
dry_history_free (DryHistory *self)
{
  if (self == NULL)
    return;
  g_ptr_array_unref (self->steps);
  dry_project_unref (self->saved);
  g_free (self);
}

const DryProject *
dry_history_get_current (const DryHistory *self)
{
  const Step *step = g_ptr_array_index (self->steps, self->current);

  return step->project;
}

gboolean
dry_history_push (DryHistory *self, const DryProject *project, const char *name,
                  const char *merge_key)
{
  Step *last = g_ptr_array_index (self->steps, self->current);
  Step *step = make_step (project, name, merge_key);
  guint n_redo = self->steps->len - self->current - 1;

  if (n_redo > 0)
    g_ptr_array_remove_range (self->steps, self->current + 1, n_redo);
  /* The first step is where everything began; it has no name and nothing merges into it. */
  if (!self->sealed && self->current > 0 && merge_key != NULL &&
      g_strcmp0 (last->merge_key, merge_key) == 0) {
    free_step (last);
    self->steps->pdata[self->current] = step;
    return TRUE;
  }
  self->sealed = FALSE;
  g_ptr_array_add (self->steps, step);
  if (self->steps->len > DRY_HISTORY_DEPTH + 1)
    g_ptr_array_remove_index (self->steps, 0);
  self->current = self->steps->len - 1;
  return FALSE;
}

void
dry_history_seal (DryHistory *self)
{
  self->sealed = TRUE;
}

gboolean
dry_history_undo (DryHistory *self)
{
  if (self->current == 0)
    return FALSE;
  self->current--;
  self->sealed = TRUE;
  return TRUE;
}

gboolean
dry_history_redo (DryHistory *self)
{
  if (self->current + 1 >= self->steps->len)
    return FALSE;
  self->current++;
  self->sealed = TRUE;
  return TRUE;
}

const char *
dry_history_get_undo_name (const DryHistory *self)
{
  const Step *step = g_ptr_array_index (self->steps, self->current);

  return self->current > 0 ? step->name : NULL;
}

const char *
dry_history_get_redo_name (const DryHistory *self)
{
  const Step *step;

  if (self->current + 1 >= self->steps->len)
    return NULL;
  step = g_ptr_array_index (self->steps, self->current + 1);
  return step->name;
}

const DryProject *
dry_history_get_past (const DryHistory *self, guint steps, const char **name)
{
  const Step *step, *next;

  if (steps > self->current)
    return NULL;
  step = g_ptr_array_index (self->steps, self->current - steps);
  next = steps > 0 ? g_ptr_array_index (self->steps, self->current - steps + 1) : NULL;
  if (name)
    *name = next ? next->name : NULL;
  return step->project;
}

void
dry_history_mark_saved (DryHistory *self)
{
  DryProject *saved = dry_project_ref (dry_history_get_current (self));

  dry_project_unref (self->saved);
  self->saved = saved;
  /* A drag that goes on after saving must not take the saved state out of the list. */
  self->sealed = TRUE;
}

void
dry_history_mark_unsaved (DryHistory *self)
{
  dry_project_unref (self->saved);
  self->saved = NULL;
}

gboolean
dry_history_is_saved (const DryHistory *self)
{
  return dry_history_get_current (self) == self->saved;
}

const DryProject *
dry_history_get_saved (const DryHistory *self)
{
  return self->saved;
}
