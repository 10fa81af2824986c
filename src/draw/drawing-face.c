/* SPDX-License-Identifier: GPL-3.0-or-later */
/* One face alone with every dimension a crew needs to board it.
 * The same elevation as on the strip, dimensioned in full. */
#include "draw/drawing-private.h"

DryScene *
dry_drawing_face (const DryPlan *plan, guint face)
{
  DrySceneBuilder b;

  dry_scene_builder_init (&b, plan->context.job);
  if (face < plan->faces->n) {
    const DryFace *f = &plan->faces->items[face];
    g_autofree char *name = g_strdup_printf ("%s, elevation", f->name);
    dry_scene_builder_begin_view (&b, DRY_VIEW_FACE, (gint) face, (DryPoint){0, 0}, name);
    dry_draw_elevation (&b, plan, f, TRUE);
  }
  return dry_scene_builder_finish (&b);
}
