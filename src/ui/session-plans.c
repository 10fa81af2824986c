/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The plan a session shows, and those of its latest steps, so that undo and a cancelled drag show
 * at once. Asks nobody for a plan and tells nobody of one. */
#include "ui/session-private.h"

void
dry_session_remember_plan (DrySession *self)
{
  if (self->plan == NULL || self->plan->project != dry_history_get_current (self->history))
    return;
  guint slot = self->next_slot;
  for (guint i = 0; i < N_REMEMBERED; i++) {
    const DryPlan *plan = self->remembered[i].plan;
    if (plan == self->plan)
      return;
    /* The same, less well nested. */
    if (plan != NULL && plan->project == self->plan->project &&
        plan->context.room->id == self->plan->context.room->id)
      slot = i;
  }
  g_clear_pointer (&self->remembered[slot].plan, dry_plan_unref);
  g_clear_pointer (&self->remembered[slot].scene, dry_scene_unref);
  self->remembered[slot].plan = dry_plan_ref (self->plan);
  self->remembered[slot].scene = dry_scene_ref (self->scene);
  if (slot == self->next_slot)
    self->next_slot = (self->next_slot + 1) % N_REMEMBERED;
}

void
dry_session_show_plan (DrySession *self, DryPlan *plan, DryScene *scene)
{
  if (plan != self->plan) {
    g_clear_pointer (&self->plan, dry_plan_unref);
    g_clear_pointer (&self->scene, dry_scene_unref);
    self->plan = dry_plan_ref (plan);
    self->scene = dry_scene_ref (scene);
  }
  g_clear_pointer (&self->plan_error, g_free);
  dry_session_remember_plan (self);
}

gboolean
dry_session_recall_plan (DrySession *self, const DryProject *project)
{
  for (guint i = 0; i < N_REMEMBERED; i++) {
    DryPlan *plan = self->remembered[i].plan;

    if (plan != NULL && plan->project == project && plan->context.room->id == self->room) {
      dry_session_show_plan (self, plan, self->remembered[i].scene);
      return TRUE;
    }
  }
  return FALSE;
}
