/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Parts seen straight on, drawn so that one knows a valve from a spout at a glance.
 * Outer sizes are the part's own, what is inside them is drawn by eye. */
#include "draw/drawing-private.h"

#define SOLID(a)                                                                                   \
  ((DryLook){.stroke = DRY_INK_FITTING, .pen = DRY_PEN_025, .fill = DRY_INK_FITTING, .alpha = (a)})
#define PAPER_MASK ((DryLook){.fill = DRY_INK_PAPER, .alpha = 0.92})
#define THIN(ink)  DRY_LOOK_LINE ((ink), DRY_PEN_018)

static void
draw_round (DrySceneBuilder *b, DryLook look, DryRect r, DryLength radius)
{
  DryPoint p[4 * DRY_CURVE_POINTS];

  dry_scene_builder_path (b, look, p, dry_points_round_rect (p, r, radius), TRUE);
}

static void
draw_niche (DrySceneBuilder *b, const DryPart *part, DryRect r)
{
  DryLook opening = {
      .stroke = DRY_INK_FITTING, .pen = DRY_PEN_050, .fill = DRY_INK_PAPER, .alpha = 1};
  DryLook shade = {.fill = DRY_INK_FITTING, .alpha = 0.20};
  DryLook light = {.fill = DRY_INK_FITTING, .alpha = 0.08};
  DryLook edge = THIN (DRY_INK_FITTING);
  DryLength d = MIN (MIN (dry_rect_width (r), dry_rect_height (r)) / 7, 3 * DRY_INCH / 2);
  DryRect in = {r.x0 + d, r.y0 + d / 2, r.x1 - d / 2, r.y1 - d};

  if (part->flange > 0)
    dry_scene_builder_rect (b, THIN (DRY_INK_FITTING), dry_rect_inflate (r, part->flange));
  dry_scene_builder_rect (b, opening, r);
  /* The light comes from the upper left: top and left cheeks lie in shadow, the shelf is lit. */
  dry_scene_builder_path (
      b, shade,
      (DryPoint[]){
          {r.x0, r.y1}, {r.x1, r.y1}, {in.x1, in.y1}, {in.x0, in.y1}, {in.x0, in.y0}, {r.x0, r.y0}},
      6, TRUE);
  dry_scene_builder_path (
      b, light, (DryPoint[]){{r.x0, r.y0}, {r.x1, r.y0}, {in.x1, in.y0}, {in.x0, in.y0}}, 4, TRUE);
  dry_scene_builder_rect (b, edge, in);
  dry_scene_builder_line (b, edge, (DryPoint){r.x0, r.y0}, (DryPoint){in.x0, in.y0});
  dry_scene_builder_line (b, edge, (DryPoint){r.x1, r.y0}, (DryPoint){in.x1, in.y0});
}

static void
draw_valve (DrySceneBuilder *b, DryRect r)
{
  DryPoint c = dry_rect_centre (r);
  DryLength radius = MIN (dry_rect_width (r), dry_rect_height (r)) / 2, hub = radius * 3 / 10;
  DryLength w = MAX (radius / 7, DRY_MM);

  dry_scene_builder_circle (b, PAPER_MASK, c, radius);
  dry_scene_builder_circle (b, SOLID (0.12), c, radius);
  dry_scene_builder_circle (b, THIN (DRY_INK_FITTING), c, radius * 7 / 8);
  /* The lever points down: shut. */
  draw_round (b, SOLID (0.45), (DryRect){c.x - w, c.y - radius * 7 / 10, c.x + w, c.y}, w);
  dry_scene_builder_circle (b, SOLID (0.35), c, hub);
}

static void
draw_spout (DrySceneBuilder *b, DryRect r)
{
  DryLength w = dry_rect_width (r), h = dry_rect_height (r);

  draw_round (b, PAPER_MASK, r, MIN (w, h) / 3);
  draw_round (b, SOLID (0.18), r, MIN (w, h) / 3);
  dry_scene_builder_circle (b, SOLID (0.35), (DryPoint){r.x0 + w / 2, r.y1 - MIN (w, h) / 2},
                            MIN (w, h) / 5);
  dry_scene_builder_line (b, THIN (DRY_INK_FITTING), (DryPoint){r.x0 + w / 5, r.y0 + h / 5},
                          (DryPoint){r.x1 - w / 5, r.y0 + h / 5});
}

static void
draw_head (DrySceneBuilder *b, const DryPart *part, DryRect r)
{
  DryPoint c = dry_rect_centre (r), nozzle[8];
  DryLength radius = MAX (MIN (dry_rect_width (r), dry_rect_height (r)) / 2, DRY_INCH);
  DryLength arm = 9 * DRY_MM;
  DryPoint outlet = {part->u, r.y1 + radius / 3};

  /* The arm leaves the wall above and hides behind the head. */
  dry_scene_builder_rect (b, SOLID (0.2), (DryRect){c.x - arm, c.y, c.x + arm, outlet.y});
  dry_scene_builder_circle (b, SOLID (0.2), outlet, radius / 4);
  dry_scene_builder_circle (b, PAPER_MASK, c, radius);
  dry_scene_builder_circle (b, SOLID (0.15), c, radius);
  dry_scene_builder_circle (b, THIN (DRY_INK_FITTING), c, radius * 4 / 5);
  dry_points_arc (nozzle, c, (double) radius * 0.55, (double) radius * 0.55, 0, 315, 8);
  for (guint i = 0; i < 8; i++)
    dry_scene_builder_circle (b, (DryLook){.fill = DRY_INK_FITTING, .alpha = 0.6}, nozzle[i],
                              radius / 14);
  dry_scene_builder_circle (b, (DryLook){.fill = DRY_INK_FITTING, .alpha = 0.6}, c, radius / 14);
}

static void
draw_hand_shower (DrySceneBuilder *b, DryRect r)
{
  DryLength w = MAX (dry_rect_width (r), DRY_INCH), h = dry_rect_height (r),
            rail = MIN (w / 8, 10 * DRY_MM);
  DryLength x = r.x0 + w / 2, top = r.y1 - h / 6;
  DryPoint hose[2 * DRY_CURVE_POINTS];

  dry_scene_builder_rect (b, SOLID (0.3), (DryRect){x - rail, r.y0, x + rail, r.y1});
  for (guint i = 0; i < 2; i++) {
    DryLength z = i == 0 ? r.y0 : r.y1 - 3 * rail;
    dry_scene_builder_rect (b, SOLID (0.4), (DryRect){x - 2 * rail, z, x + 2 * rail, z + 3 * rail});
  }
  /* Hose in a bow from the handle to the outlet below. */
  dry_points_arc (hose, (DryPoint){x, r.y0 + h / 3}, (double) w * 0.6, (double) (top - r.y0) * 0.55,
                  70, -90, 2 * DRY_CURVE_POINTS);
  dry_scene_builder_path (b, THIN (DRY_INK_FITTING), hose, 2 * DRY_CURVE_POINTS, FALSE);
  draw_round (b, SOLID (0.3), (DryRect){x - w / 8, top - h / 8, x + w / 8, top + h / 20}, w / 8);
  dry_scene_builder_circle (b, PAPER_MASK, (DryPoint){x, top + h / 20}, w / 3);
  dry_scene_builder_circle (b, SOLID (0.2), (DryPoint){x, top + h / 20}, w / 3);
}

static void
draw_bar (DrySceneBuilder *b, DryRect r)
{
  DryLength w = dry_rect_width (r), h = dry_rect_height (r), thick = MIN (w, h);
  DryLength plate = thick, half = thick / 2;
  DryPoint ends[2];

  ends[0] = (DryPoint){r.x0 + half, r.y0 + half};
  ends[1] = w >= h ? (DryPoint){r.x1 - half, r.y0 + half} : (DryPoint){r.x0 + half, r.y1 - half};
  for (guint i = 0; i < 2; i++) {
    dry_scene_builder_circle (b, PAPER_MASK, ends[i], plate);
    dry_scene_builder_circle (b, SOLID (0.12), ends[i], plate);
  }
  draw_round (b, PAPER_MASK, r, half);
  draw_round (b, SOLID (0.35), r, half);
}

static void
draw_bench (DrySceneBuilder *b, const DryPart *part, DryRect r)
{
  DryLook body = {.stroke = DRY_INK_FITTING,
                  .pen = DRY_PEN_025,
                  .fill = DRY_INK_FITTING,
                  .alpha = 0.06,
                  .dash = DRY_DASH_SOLID};
  DryLength top = MIN (part->height, dry_rect_height (r));

  dry_scene_builder_rect (b, PAPER_MASK, r);
  if (!part->fold_down)
    dry_scene_builder_rect (b, body, r);
  dry_scene_builder_rect (b, SOLID (0.25), (DryRect){r.x0, r.y1 - top, r.x1, r.y1});
  if (part->fold_down)
    for (guint i = 0; i < 2; i++) {
      DryLength x = i == 0 ? r.x0 + dry_rect_width (r) / 6 : r.x1 - dry_rect_width (r) / 6;
      dry_scene_builder_path (b, SOLID (0.2),
                              (DryPoint[]){{x - DRY_INCH / 2, r.y1 - top},
                                           {x + DRY_INCH / 2, r.y1 - top},
                                           {x, r.y1 - top - 4 * DRY_INCH}},
                              3, TRUE);
    }
}

static void
draw_glass (DrySceneBuilder *b, const DryPart *part, DryRect r)
{
  DryLook edge = {
      .stroke = DRY_INK_GLASS, .pen = DRY_PEN_035, .fill = DRY_INK_GLASS, .alpha = 0.35};
  DryPoint c = dry_rect_centre (r);

  /* Its own wall sees a pane edge on; a sliver too thin to grasp gets a wider field to click. */
  if (dry_rect_width (r) < DRY_INCH / 2)
    r = (DryRect){c.x - DRY_INCH / 4, r.y0, c.x + DRY_INCH / 4, r.y1};
  dry_scene_builder_rect (b, edge, r);
  dry_scene_builder_text (b, (DryPoint){r.x1, c.y},
                          (DryLettering){.size = 1.8,
                                         .ink = DRY_INK_TEXT_FAINT,
                                         .angle = 90,
                                         .anchor = DRY_ANCHOR_LEFT,
                                         .room = dry_rect_height (r)},
                          "glass %s", dry_scene_builder_length (b, part->width));
}

static void
draw_hidden (DrySceneBuilder *b, const DryPart *part, DryRect r)
{
  DryLook look = {.stroke = DRY_INK_PIPE,
                  .pen = DRY_PEN_035,
                  .dash = DRY_DASH_DASHED,
                  .fill = DRY_INK_PIPE,
                  .alpha = 0.08};
  DryLook axis = {.stroke = DRY_INK_PIPE, .pen = DRY_PEN_018, .dash = DRY_DASH_CHAIN};
  DryPoint c = dry_rect_centre (r);
  gboolean upright = dry_rect_height (r) >= dry_rect_width (r);

  dry_scene_builder_rect (b, look, r);
  if (upright)
    dry_scene_builder_line (b, axis, (DryPoint){c.x, r.y0}, (DryPoint){c.x, r.y1});
  else
    dry_scene_builder_line (b, axis, (DryPoint){r.x0, c.y}, (DryPoint){r.x1, c.y});
  dry_scene_builder_text (b, c,
                          (DryLettering){.size = 1.8,
                                         .ink = DRY_INK_PIPE,
                                         .ground = TRUE,
                                         .angle = upright ? 90 : 0,
                                         .room = MAX (dry_rect_height (r), dry_rect_width (r))},
                          "%s", part->label ? part->label : dry_part_kind_name (part->kind));
}

static void
draw_label (DrySceneBuilder *b, const DryPart *part, DryRect r)
{
  DryPoint c = dry_rect_centre (r);
  DryLettering under = {.size = 1.8,
                        .ink = DRY_INK_TEXT_FAINT,
                        .anchor = DRY_ANCHOR_BELOW,
                        .room = MAX (3 * dry_rect_width (r), 10 * DRY_INCH),
                        .ground = TRUE};

  dry_scene_builder_tag (b, DRY_LAYER_LABELS, DRY_SHOWS_PART, part->id, -1);
  if (part->kind == DRY_PART_NICHE) {
    dry_scene_builder_text (b, c, (DryLettering){.size = 1.9, .room = dry_rect_width (r)}, "%s",
                            dry_scene_builder_size (b, part->width, part->height));
    return;
  }
  if (part->kind == DRY_PART_GLASS || dry_part_kind_is_hidden (part->kind))
    return;
  dry_scene_builder_text (b, (DryPoint){c.x, r.y0}, under, "%s",
                          part->label ? part->label : dry_part_kind_name (part->kind));
}

void
dry_draw_part (DrySceneBuilder *b, const DryPart *part, DryRect r)
{
  switch (part->kind) {
  case DRY_PART_NICHE:
    draw_niche (b, part, r);
    break;
  case DRY_PART_VALVE:
    draw_valve (b, r);
    break;
  case DRY_PART_SPOUT:
    draw_spout (b, r);
    break;
  case DRY_PART_SHOWER_HEAD:
    draw_head (b, part, r);
    break;
  case DRY_PART_HAND_SHOWER:
    draw_hand_shower (b, r);
    break;
  case DRY_PART_GRAB_BAR:
    draw_bar (b, r);
    break;
  case DRY_PART_BENCH:
    draw_bench (b, part, r);
    break;
  case DRY_PART_GLASS:
    draw_glass (b, part, r);
    break;
  default:
    draw_hidden (b, part, r);
  }
}

void
dry_draw_elevation_parts (DrySceneBuilder *b, const DryPlan *plan, const DryFace *face)
{
  const DryRoom *room = plan->context.room;

  if (face->kind != DRY_FACE_WALL)
    return;
  for (guint i = 0; i < face->n_cutouts; i++) {
    const DryCutout *cut = &face->cutouts[i];
    if (cut->kind != DRY_CUT_NICHE)
      continue;
    dry_scene_builder_tag (b, DRY_LAYER_BOARDS, DRY_SHOWS_PART, cut->object, -1);
    dry_scene_builder_rect (
        b, (DryLook){.stroke = DRY_INK_LINE, .pen = DRY_PEN_018, .dash = DRY_DASH_DASHED},
        cut->rough);
  }
  for (guint i = 0; i < room->n_parts; i++) {
    const DryPart *part = &room->parts[i];
    gboolean hidden = dry_part_kind_is_hidden (part->kind);
    DryRect r = dry_part_rect (part);

    if (part->wall != face->wall || part->side != face->side || dry_rect_is_empty (r))
      continue;
    dry_scene_builder_tag (b, hidden ? DRY_LAYER_HIDDEN : DRY_LAYER_PARTS, DRY_SHOWS_PART, part->id,
                           (gint) i);
    dry_draw_part (b, part, r);
    draw_label (b, part, r);
  }
}
