/* SPDX-License-Identifier: GPL-3.0-or-later */
/* One face seen straight on: wall, framing behind, boards, joints, basin in front, parts, findings.
 * Puts the layers in painting order; the heavier pieces have files of their own. */
#include "draw/drawing-private.h"

static void
draw_ground (DrySceneBuilder *b, const DryFace *face)
{
  DryShows shows = face->wall ? DRY_SHOWS_WALL : DRY_SHOWS_NOTHING;
  DryRect whole = {0, 0, face->length, face->height};
  DryLook dry = {.fill = DRY_INK_DRYWALL, .alpha = 0.07};
  DryLook edge = DRY_LOOK_LINE (DRY_INK_DRYWALL, DRY_PEN_018);

  dry_scene_builder_tag (b, DRY_LAYER_ROOM, shows, face->wall, (gint) face->index);
  dry_scene_builder_rect (b, (DryLook){.fill = DRY_INK_PAPER, .alpha = 1}, whole);
  if (face->kind != DRY_FACE_WALL)
    return;
  dry_scene_builder_tag (b, DRY_LAYER_ROOM, DRY_SHOWS_NOTHING, 0, -1);
  if (face->dry_left && face->wet_u0 > 0) {
    dry_scene_builder_rect (b, dry, (DryRect){0, 0, face->wet_u0, face->height});
    dry_scene_builder_line (b, edge, (DryPoint){face->wet_u0, 0},
                            (DryPoint){face->wet_u0, face->height});
  }
  if (face->dry_right && face->wet_u1 < face->length) {
    dry_scene_builder_rect (b, dry, (DryRect){face->wet_u1, 0, face->length, face->height});
    dry_scene_builder_line (b, edge, (DryPoint){face->wet_u1, 0},
                            (DryPoint){face->wet_u1, face->height});
  }
  if (face->dry_above && face->wet_top < face->height)
    dry_scene_builder_rect (b, dry,
                            (DryRect){face->wet_u0, face->wet_top, face->wet_u1, face->height});
}

static void
draw_members (DrySceneBuilder *b, const DryMember *members, guint n, const DryFace *face,
              gint first)
{
  for (guint i = 0; i < n; i++) {
    const DryMember *m = &members[i];
    DryLook look = {.stroke = DRY_INK_WOOD, .pen = DRY_PEN_018, .dash = DRY_DASH_DASHED};

    if (m->face != face->index)
      continue;
    if (m->added)
      look = (DryLook){.stroke = DRY_INK_WOOD,
                       .pen = DRY_PEN_025,
                       .fill = DRY_INK_WOOD,
                       .alpha = 0.16,
                       .dash = DRY_DASH_DASHED};
    dry_scene_builder_tag (b, DRY_LAYER_STUDS, DRY_SHOWS_MEMBER, m->object, first + (gint) i);
    dry_scene_builder_rect (b, look, m->rect);
    if (m->added) {
      /* One diagonal: the drafting sign for blocking, where a cut timber has two. */
      DryLook thin = DRY_LOOK_LINE (DRY_INK_WOOD, DRY_PEN_013);
      dry_scene_builder_line (b, thin, (DryPoint){m->rect.x0, m->rect.y0},
                              (DryPoint){m->rect.x1, m->rect.y1});
    }
  }
}

static void
draw_outline (DrySceneBuilder *b, const DryFace *face)
{
  DryLook side = DRY_LOOK_LINE (DRY_INK_LINE, DRY_PEN_035);
  DryLook floor = DRY_LOOK_LINE (DRY_INK_LINE, DRY_PEN_070);
  DryRect whole = {0, 0, face->length, face->height};

  dry_scene_builder_tag (b, DRY_LAYER_ROOM, DRY_SHOWS_NOTHING, 0, -1);
  dry_scene_builder_rect (b, side, whole);
  if (face->kind == DRY_FACE_WALL)
    dry_scene_builder_line (b, floor, (DryPoint){0, 0}, (DryPoint){face->length, 0});
}

static void
draw_dry_label (DrySceneBuilder *b, DryLength u0, DryLength u1, DryLength z)
{
  dry_scene_builder_text (b, (DryPoint){u0 + (u1 - u0) / 2, z},
                          (DryLettering){.size = 1.8, .ink = DRY_INK_TEXT_FAINT, .room = u1 - u0},
                          "drywall");
}

/* Mark and name where the drawing has the width for them, else the mark alone: it is set second, at
 * the same place, and so only where the first was not. Linings and benches never have. */
static void
draw_title (DrySceneBuilder *b, const DryFace *face)
{
  gboolean wall = face->kind == DRY_FACE_WALL;
  DryLettering how = {
      .size = wall ? 2.4 : 2, .bold = TRUE, .anchor = DRY_ANCHOR_BELOW, .ground = TRUE};
  DryPoint at = {face->length / 2, 0};

  dry_scene_builder_tag (b, DRY_LAYER_LABELS, face->wall ? DRY_SHOWS_WALL : DRY_SHOWS_NOTHING,
                         face->wall, (gint) face->index);
  if (wall) {
    how.room = face->length;
    dry_scene_builder_text (b, at, how, "%s  %s", face->mark, face->name);
  }
  dry_scene_builder_text (b, at, how, "%s", face->mark);
}

void
dry_draw_elevation (DrySceneBuilder *b, const DryPlan *plan, const DryFace *face, gboolean full)
{
  DryLook wet = {.fill = DRY_INK_WET, .alpha = 0.06};

  draw_ground (b, face);
  dry_scene_builder_tag (b, DRY_LAYER_COATING, DRY_SHOWS_NOTHING, 0, -1);
  for (guint i = 0; i < face->region.n_polygons; i++)
    dry_scene_builder_polygon (b, wet, &face->region.polygons[i]);
  dry_draw_elevation_tile (b, plan, face, full);
  draw_members (b, plan->framing->items, plan->framing->n, face, 0);
  draw_members (b, plan->boards->blocking, plan->boards->n_blocking, face, (gint) plan->framing->n);
  dry_draw_elevation_joints (b, plan, face);
  dry_draw_elevation_boards (b, plan, face, full);
  draw_outline (b, face);
  dry_draw_elevation_openings (b, plan, face);
  dry_draw_elevation_basin (b, plan, face);
  dry_draw_elevation_parts (b, plan, face);
  dry_scene_builder_tag (b, DRY_LAYER_LABELS, DRY_SHOWS_NOTHING, 0, -1);
  if (face->kind == DRY_FACE_WALL && face->dry_left && face->wet_u0 > 6 * DRY_INCH)
    draw_dry_label (b, 0, face->wet_u0, face->height / 2);
  if (face->kind == DRY_FACE_WALL && face->dry_right && face->wet_u1 + 6 * DRY_INCH < face->length)
    draw_dry_label (b, face->wet_u1, face->length, face->height / 2);
  if (!full)
    draw_title (b, face);
  dry_draw_elevation_dimensions (b, plan, face, full);
  dry_draw_findings (b, plan, face);
}
