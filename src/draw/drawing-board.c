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

static gboolean
is_wall_view (const DrySceneBuilder *b, const DryPlan *plan, guint view)
{
  gint face = g_array_index (b->views, DryView, view).face;

  return face >= 0 && plan->faces->items[face].kind == DRY_FACE_WALL;
}

/* Ceilings, benches and linings stand in rows to the right of the plan, where there is room. */
static void
place_small_faces (DrySceneBuilder *b, guint from, DryRect plan, DryLength right)
{
  DryLength gap = 11 * DRY_INCH, x0 = plan.x1 + 20 * DRY_INCH, x = x0, top = plan.y1, deepest = 0;

  right = MAX (right, x0 + 60 * DRY_INCH);
  for (guint i = from; i < b->views->len; i++) {
    DryRect v = g_array_index (b->views, DryView, i).bounds;
    /* A lining is narrower than its name. */
    DryLength width = MAX (dry_rect_width (v), 22 * DRY_INCH);
    if (x > x0 && x + width > right) {
      x = x0;
      top -= deepest + gap;
      deepest = 0;
    }
    dry_scene_builder_move_view (b, i, x + (width - dry_rect_width (v)) / 2 - v.x0, top - v.y1);
    deepest = MAX (deepest, dry_rect_height (v));
    x += width + gap / 2;
  }
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
  n_plan = n_walls = b.views->len;
  dry_draw_strip (&b, plan);
  while (n_walls < b.views->len && is_wall_view (&b, plan, n_walls))
    n_walls++;
  if (n_plan == 0 || n_walls == n_plan)
    return dry_scene_builder_finish (&b);
  above = measure_views (&b, 0, n_plan);
  below = measure_views (&b, n_plan, n_walls);
  /* Room for both drawings' dimension rows, which keep their paper size: a fifth of the width is
   * theirs when the board fills a window. */
  gap = MAX (MAX (dry_rect_width (above), dry_rect_width (below)) / 5, 18 * DRY_INCH);
  /* The faces move, the plan keeps the room's own coordinates. */
  dx = dry_rect_centre (above).x - dry_rect_centre (below).x;
  dy = above.y0 - gap - below.y1;
  for (guint i = n_plan; i < n_walls; i++)
    dry_scene_builder_move_view (&b, i, dx, dy);
  place_small_faces (&b, n_walls, above, below.x1 + dx);
  return dry_scene_builder_finish (&b);
}
