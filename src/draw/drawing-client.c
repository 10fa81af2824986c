/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The wet walls as a client sees them: tile, tub or pan, niches, fittings, glass, windows. Nothing
 * of what is behind the tile, no marks and no dimensions. */
#include "draw/drawing-private.h"

#define BETWEEN (8 * DRY_INCH)

static void
draw_face (DrySceneBuilder *b, const DryPlan *plan, const DryFace *face)
{
  DryLook outline = DRY_LOOK_LINE (DRY_INK_LINE, DRY_PEN_035);
  DryLook wall = {.fill = DRY_INK_WET, .alpha = 0.06};
  DryLook faint = DRY_LOOK_LINE (DRY_INK_FAINT, DRY_PEN_018);

  dry_scene_builder_tag (b, DRY_LAYER_ROOM, DRY_SHOWS_WALL, face->wall, -1);
  dry_scene_builder_rect (b, faint, (DryRect){0, 0, face->length, face->height});
  for (guint i = 0; i < face->region.n_polygons; i++)
    dry_scene_builder_polygon (b, wall, &face->region.polygons[i]);
  dry_draw_elevation_tile (b, plan, face, FALSE);
  dry_draw_elevation_basin (b, plan, face);
  dry_draw_elevation_openings (b, plan, face);
  dry_draw_elevation_parts (b, plan, face);
  dry_scene_builder_tag (b, DRY_LAYER_ROOM, DRY_SHOWS_WALL, face->wall, -1);
  dry_scene_builder_line (b, outline, (DryPoint){0, 0}, (DryPoint){face->length, 0});
}

static gboolean
is_shown (const DryFace *face)
{
  return face->kind == DRY_FACE_WALL && face->region.n_polygons > 0;
}

/* What the elevations draw of the workshop besides: hidden pipes, dimensions, findings. */
static void
leave_out_workshop (DryScene *scene, gboolean numbers)
{
  const guint seen = 1u << DRY_LAYER_ROOM | 1u << DRY_LAYER_BASIN | 1u << DRY_LAYER_TILE |
                     1u << DRY_LAYER_PARTS | 1u << DRY_LAYER_LABELS |
                     (numbers ? 1u << DRY_LAYER_CUTS : 0);
  guint n = 0;

  for (guint i = 0; i < scene->n; i++)
    if (seen & 1u << scene->items[i].layer) {
      scene->items[n] = scene->items[i];
      /* Here they are what is to be read, not a layer that may be off. */
      if (scene->items[n].layer == DRY_LAYER_CUTS)
        scene->items[n].layer = DRY_LAYER_LABELS;
      n++;
    }
  scene->n = n;
}

static DryScene *
draw_walls (const DryPlan *plan, gint only, gboolean numbers)
{
  DrySceneBuilder b;
  DryLength x = 0;
  DryScene *scene;

  dry_scene_builder_init (&b, plan->context.job);
  for (guint i = 0; i < plan->faces->n; i++) {
    const DryFace *face = &plan->faces->items[i];
    if (!is_shown (face) || (only >= 0 && only != (gint) i))
      continue;
    dry_scene_builder_begin_view (&b, DRY_VIEW_FACE, (gint) i, (DryPoint){x, 0}, face->name);
    draw_face (&b, plan, face);
    dry_scene_builder_tag (&b, DRY_LAYER_LABELS, DRY_SHOWS_NOTHING, 0, -1);
    dry_scene_builder_text (&b, (DryPoint){face->length / 2, -5 * DRY_INCH},
                            (DryLettering){.size = 2.5, .anchor = DRY_ANCHOR_CENTRE}, "%s",
                            face->name);
    dry_scene_builder_end_view (&b);
    x += face->length + BETWEEN;
  }
  scene = dry_scene_builder_finish (&b);
  leave_out_workshop (scene, numbers);
  return scene;
}

DryScene *
dry_drawing_client (const DryPlan *plan)
{
  return draw_walls (plan, -1, FALSE);
}

DryScene *
dry_drawing_tile (const DryPlan *plan, guint face)
{
  return draw_walls (plan, (gint) face, TRUE);
}
