/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Turning from face to face: plan and faces one after the other, each filling the board. Which one
 * is seen is remembered until the view is moved by hand. */
#include "ui/canvas-private.h"

static gboolean
can_turn_to (const DryView *view)
{
  return view->kind == DRY_VIEW_PLAN || view->kind == DRY_VIEW_FACE;
}

void
dry_canvas_walk_faces (DryCanvas *self, gint step)
{
  gint n = self->scene != NULL ? (gint) self->scene->n_views : 0;
  gint at = self->fitted ? self->facing : -1;

  for (gint i = 0; i < n; i++) {
    at = at < 0 ? (step > 0 ? 0 : n - 1) : (at + step + n) % n;
    if (!can_turn_to (&self->scene->views[at]))
      continue;
    self->facing = at;
    self->fitted = TRUE;
    dry_canvas_fit (self);
    return;
  }
}

void
dry_canvas_turn_to (DryCanvas *self, DryId wall)
{
  gint view = dry_canvas_find_view (self, FALSE, wall, DRY_SIDE_INSIDE);

  if (view < 0)
    return;
  self->facing = view;
  self->fitted = TRUE;
  dry_canvas_fit (self);
}

const char *
dry_canvas_facing_name (DryCanvas *self)
{
  if (!self->fitted || self->facing < 0 || self->scene == NULL ||
      (guint) self->facing >= self->scene->n_views)
    return NULL;
  return self->scene->views[self->facing].name;
}
