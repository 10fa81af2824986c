/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The water's way on the faces: dotted lines down to the basin, a cross where the watertight layer
 * breaks, and a word where all is closed. Draws what the plan found; follows no drop itself. */
#include "draw/drawing-private.h"

#define ARROW (2 * DRY_INCH)

static void
draw_arrow (DrySceneBuilder *b, DryLook look, DryPoint at)
{
  DryPoint tip[3] = {{at.x - ARROW / 2, at.y + ARROW}, at, {at.x + ARROW / 2, at.y + ARROW}};

  dry_scene_builder_path (b, look, tip, 3, FALSE);
}

static void
draw_path (DrySceneBuilder *b, const DryWaterPath *path)
{
  DryInk ink = path->end == DRY_WATER_STOPPED ? DRY_INK_STOP : DRY_INK_BASIN;
  DryLook line = {.stroke = ink, .pen = DRY_PEN_050, .dash = DRY_DASH_DOTTED};
  DryPoint *points = g_new (DryPoint, path->n);

  for (guint i = 0; i < path->n; i++)
    points[i] = path->steps[i].at;
  dry_scene_builder_path (b, line, points, path->n, FALSE);
  draw_arrow (b, DRY_LOOK_LINE (ink, DRY_PEN_050), points[path->n - 1]);
  g_free (points);
}

void
dry_draw_water (DrySceneBuilder *b, const DryPlan *plan, const DryFace *face)
{
  const DryWater *water = plan->water;

  if (!water) /* a plan put together by hand */
    return;
  dry_scene_builder_tag (b, DRY_LAYER_WATER, DRY_SHOWS_NOTHING, 0, -1);
  for (guint i = 0; i < water->n_paths; i++)
    if (water->paths[i].steps[0].face == face->index)
      draw_path (b, &water->paths[i]);
  for (guint i = 0; i < water->n_breaks; i++)
    if (water->breaks[i].face == (gint) face->index)
      dry_scene_builder_mark (b, DRY_MARK_CROSS, DRY_INK_STOP, water->breaks[i].at);
}

/* Breaks of the basin itself, and the word. */
static void
draw_words (DrySceneBuilder *b, const DryPlan *plan)
{
  const DryWater *water = plan->water;
  DryLength z = -24 * DRY_INCH;

  if (!water)
    return;
  dry_scene_builder_tag (b, DRY_LAYER_WATER, DRY_SHOWS_NOTHING, 0, -1);
  /* Letters are of paper size and take no room of their own. */
  dry_scene_builder_rect (b, (DryLook){.fill = DRY_INK_PAPER, .alpha = 1},
                          (DryRect){0, z - 6 * DRY_INCH * (DryLength) (1 + water->n_breaks),
                                    DRY_FOOT, z + 6 * DRY_INCH});
  if (water->closed)
    dry_scene_builder_text (b, (DryPoint){0, z}, (DryLettering){.anchor = DRY_ANCHOR_LEFT},
                            "Closed: every drop reaches the drain");
  for (guint i = 0; i < water->n_breaks; i++) {
    dry_scene_builder_text (b, (DryPoint){0, z},
                            (DryLettering){.ink = DRY_INK_STOP, .anchor = DRY_ANCHOR_LEFT}, "%s",
                            water->breaks[i].text);
    z -= 6 * DRY_INCH;
  }
}

/* Only what the water meets: what stands behind or hangs loose would hide its way. */
static void
keep_what_water_meets (DrySceneBuilder *b)
{
  const guint away = 1u << DRY_LAYER_TILE | 1u << DRY_LAYER_CUTS | 1u << DRY_LAYER_FASTENERS |
                     1u << DRY_LAYER_STUDS | 1u << DRY_LAYER_FINDINGS | 1u << DRY_LAYER_COATING |
                     1u << DRY_LAYER_DIMENSIONS | 1u << DRY_LAYER_HIDDEN | 1u << DRY_LAYER_BOARDS;
  guint kept = 0;

  for (guint i = 0; i < b->items->len; i++) {
    DryPrimitive *item = &g_array_index (b->items, DryPrimitive, i);
    if (!(away & 1u << item->layer))
      g_array_index (b->items, DryPrimitive, kept++) = *item;
  }
  g_array_set_size (b->items, kept);
}

DryScene *
dry_drawing_water (const DryPlan *plan)
{
  DrySceneBuilder b;

  dry_scene_builder_init (&b, plan->context.job);
  for (guint i = 0; i < plan->faces->n; i++) {
    const DryFace *face = &plan->faces->items[i];
    g_autofree char *name = g_strdup_printf ("%s, the water's way", face->name);

    if (face->kind != DRY_FACE_WALL)
      continue;
    dry_scene_builder_begin_view (&b, DRY_VIEW_FACE, (gint) i, (DryPoint){face->strip_x, 0}, name);
    dry_draw_elevation (&b, plan, face, FALSE);
    keep_what_water_meets (&b);
    dry_draw_water (&b, plan, face);
    if (i == 0)
      draw_words (&b, plan);
    dry_scene_builder_end_view (&b);
  }
  return dry_scene_builder_finish (&b);
}
