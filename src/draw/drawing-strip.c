/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The strip: all faces unrolled side by side as a person turning clockwise sees them.
 * Each face is a view of its own; its floor is at y = 0. */
#include "draw/drawing-private.h"

void
dry_draw_strip (DrySceneBuilder *b, const DryPlan *plan, gboolean water)
{
  for (guint i = 0; i < plan->faces->n; i++) {
    const DryFace *face = &plan->faces->items[i];
    g_autofree char *name = g_strdup_printf ("%s, elevation", face->name);

    dry_scene_builder_begin_view (b, DRY_VIEW_FACE, (gint) i, (DryPoint){face->strip_x, 0}, name);
    dry_draw_elevation (b, plan, face, FALSE);
    if (water && face->kind == DRY_FACE_WALL)
      dry_draw_water (b, plan, face);
    dry_scene_builder_end_view (b);
  }
}

DryScene *
dry_drawing_strip (const DryPlan *plan)
{
  DrySceneBuilder b;

  dry_scene_builder_init (&b, plan->context.job);
  dry_draw_strip (&b, plan, FALSE);
  return dry_scene_builder_finish (&b);
}
