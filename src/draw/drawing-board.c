/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The window's board: the plan above, the strip of faces below it, on one sheet, middle on middle.
 * Adds nothing of its own but where the two stand, and names for the small faces. */
#include "draw/drawing-private.h"
#include "draw/scene-rows.h"

/* Paper millimetres of a small window's canvas, for which the sheet is composed. Dimension rows
 * keep their paper size, so the space for them can only be right for one; larger canvases have more
 * of it, and on smaller ones rows give way to one another. */
#define CANVAS_WIDTH  180.0
#define CANVAS_HEIGHT 164.0
#define TITLE_HEIGHT  5.0

static void
extend_rect (DryRect *r, const DryRect *other)
{
  r->x0 = MIN (r->x0, other->x0);
  r->y0 = MIN (r->y0, other->y0);
  r->x1 = MAX (r->x1, other->x1);
  r->y1 = MAX (r->y1, other->y1);
}

static DryRect
measure_views (const DrySceneBuilder *b, guint from, guint to)
{
  DryRect r = g_array_index (b->views, DryView, from).bounds;

  for (guint i = from + 1; i < to; i++)
    extend_rect (&r, &g_array_index (b->views, DryView, i).bounds);
  return r;
}

static gboolean
is_wall_view (const DrySceneBuilder *b, const DryPlan *plan, guint view)
{
  gint face = g_array_index (b->views, DryView, view).face;

  return face >= 0 && plan->faces->items[face].kind == DRY_FACE_WALL;
}

/* Paper the rows of views `from` to `to` take on one side. */
static double
measure_rows (const DrySceneBuilder *b, guint from, guint to, DryToward side)
{
  double most = 2;

  for (guint i = 0; i < b->items->len; i++) {
    const DryPrimitive *item = &g_array_index (b->items, DryPrimitive, i);
    if (item->kind == DRY_PRIMITIVE_DIMENSION && item->side == side && item->view >= (gint) from &&
        item->view < (gint) to)
      most = MAX (most, DRY_ROW_FIRST + DRY_ROW_STEP * item->row + DRY_ROW_LETTERS + 1);
  }
  return most;
}

/* The space between plan and strip, so that the rows of both find room side by side when the board
 * fills the canvas it is composed for. */
static DryLength
choose_gap (const DrySceneBuilder *b, guint n_plan, guint n_walls, DryRect above, DryRect below)
{
  double rows = measure_rows (b, 0, n_plan, DRY_TOWARD_DOWN) +
                measure_rows (b, n_plan, n_walls, DRY_TOWARD_UP) - 1;
  double high = CANVAS_HEIGHT - rows - measure_rows (b, 0, n_plan, DRY_TOWARD_UP) -
                MAX (measure_rows (b, n_plan, n_walls, DRY_TOWARD_DOWN), TITLE_HEIGHT);
  double wide = CANVAS_WIDTH - measure_rows (b, n_plan, n_walls, DRY_TOWARD_LEFT) -
                measure_rows (b, n_plan, n_walls, DRY_TOWARD_RIGHT);
  double by_height =
      (double) (dry_rect_height (above) + dry_rect_height (below)) / MAX (high, CANVAS_HEIGHT / 4);
  double by_width = (double) dry_rect_width (below) / MAX (wide, CANVAS_WIDTH / 4);

  return (DryLength) (rows * MAX (by_height, by_width));
}

/* What all faces of one thing are, told once above them. */
static void
name_small_faces (DrySceneBuilder *b, const DryFace *face, DryPoint at)
{
  const char *what = face->kind == DRY_FACE_NICHE   ? "Niche lining"
                     : face->kind == DRY_FACE_BENCH ? "Bench"
                     : face->kind == DRY_FACE_CAP   ? "Added wall"
                                                    : "Ceiling";

  dry_scene_builder_tag (b, DRY_LAYER_LABELS, DRY_SHOWS_NOTHING, 0, -1);
  dry_scene_builder_text (
      b, at, (DryLettering){.size = 2, .ink = DRY_INK_TEXT_FAINT, .anchor = DRY_ANCHOR_ABOVE_LEFT},
      "%s", what);
}

/* Ceilings, benches and linings stand in rows to the right of the plan, those of one thing
 * together under its name. They are known by their marks; the papers show them large. */
static void
place_small_faces (DrySceneBuilder *b, const DryPlan *plan, guint from, DryRect beside,
                   DryLength right)
{
  /* Letters keep their paper size: lines of them need this much where the board fills a window. */
  const DryLength line = 8 * DRY_INCH, least = 10 * DRY_INCH;
  DryLength x0 = beside.x1 + 34 * DRY_INCH, x = x0, top = beside.y1, deepest = 0;
  DryId object = 0;

  right = MAX (right, x0 + 44 * DRY_INCH);
  for (guint i = from; i < b->views->len; i++) {
    DryView *view = &g_array_index (b->views, DryView, i);
    const DryFace *face = &plan->faces->items[view->face];
    DryRect v = view->bounds;
    DryLength width = MAX (dry_rect_width (v), least);
    gboolean first = i == from || face->object != object;

    if (x > x0 && (first || x + width > right)) {
      x = x0;
      top -= deepest + line;
      deepest = 0;
    }
    if (first) {
      b->view = (gint) i;
      b->origin = (DryPoint){0, 0};
      /* Moves with the view to just above its left corner. */
      name_small_faces (b, face, (DryPoint){v.x0 - (width - dry_rect_width (v)) / 2, v.y1});
      b->view = -1;
      top -= line;
    }
    object = face->object;
    dry_scene_builder_move_view (b, i, x + (width - dry_rect_width (v)) / 2 - v.x0, top - v.y1);
    deepest = MAX (deepest, dry_rect_height (v));
    x += width + 5 * DRY_INCH;
  }
}

DryScene *
dry_drawing_board (const DryPlan *plan)
{
  DrySceneBuilder b;
  DryRect above, below;
  DryLength dx, dy;
  guint n_plan, n_walls;

  dry_scene_builder_init (&b, plan->context.job);
  dry_draw_plan (&b, plan, TRUE);
  n_plan = n_walls = b.views->len;
  dry_draw_strip (&b, plan, TRUE);
  while (n_walls < b.views->len && is_wall_view (&b, plan, n_walls))
    n_walls++;
  if (n_plan == 0 || n_walls == n_plan)
    return dry_scene_builder_finish (&b);
  above = measure_views (&b, 0, n_plan);
  below = measure_views (&b, n_plan, n_walls);
  /* The faces move, the plan keeps the room's own coordinates. */
  dx = dry_rect_centre (above).x - dry_rect_centre (below).x;
  dy = above.y0 - choose_gap (&b, n_plan, n_walls, above, below) - below.y1;
  for (guint i = n_plan; i < n_walls; i++)
    dry_scene_builder_move_view (&b, i, dx, dy);
  place_small_faces (&b, plan, n_walls, above, below.x1 + dx);
  return dry_scene_builder_finish (&b);
}
