/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The window's board: the plan above, the strip of faces below it, on one sheet, middle on middle.
 * Adds nothing of its own but where the two stand. */
#include "draw/drawing-private.h"

static DryRect
measure_views (const DrySceneBuilder *b, guint from, guint to)
{
  DryRect r = {0, 0, 0, 0};

  for (guint i = from; i < to; i++) {
    DryRect v = g_array_index (b->views, DryView, i).bounds;
    r = i == from
            ? v
            : (DryRect){MIN (r.x0, v.x0), MIN (r.y0, v.y0), MAX (r.x1, v.x1), MAX (r.y1, v.y1)};
  }
  return r;
}

DryScene *
dry_drawing_board (const DryPlan *plan)
{
  DrySceneBuilder b;
  DryRect above, below;
  DryLength gap, dx, dy;
  guint n_plan, n_walls;

  dry_scene_builder_init (&b, plan->context.job);
  dry_draw_plan (&b, plan);
  n_plan = b.views->len;
  dry_draw_strip (&b, plan);
  if (n_plan == 0 || b.views->len == n_plan)
    return dry_scene_builder_finish (&b);
  above = measure_views (&b, 0, n_plan);
  below = measure_views (&b, n_plan, b.views->len);
  /* Room for both drawings' dimension rows, which keep their paper size: a fifth of the width is
   * theirs when the board fills a window. */
  gap = MAX (MAX (dry_rect_width (above), dry_rect_width (below)) / 5, 18 * DRY_INCH);
  /* The faces move, the plan keeps the room's own coordinates. */
  n_walls = n_plan;
  while (n_walls < b.views->len &&
         plan->faces->items[g_array_index (b.views, DryView, n_walls).face].kind == DRY_FACE_WALL)
    n_walls++;
  /* Walls stand under the plan; ceilings, benches and linings trail to the right. */
  dx = dry_rect_centre (above).x -
       dry_rect_centre (n_walls > n_plan ? measure_views (&b, n_plan, n_walls) : below).x;
  dy = above.y0 - gap - below.y1;
  for (guint i = n_plan; i < b.views->len; i++)
    dry_scene_builder_move_view (&b, i, dx, dy);
  return dry_scene_builder_finish (&b);
}
