/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Boards on a face with marks, sizes, holes and fasteners, and the joints between them.
 * Bands are shown at their true width, so that laps and misses can be seen. */
#include <math.h>

#include "draw/drawing-private.h"

DryHatch
dry_drawing_board_hatch (const DrySystem *system)
{
  /* Foam is the only board under a pound a square foot. */
  return system && system->mass.value > 0 && system->mass.value < 5 ? DRY_HATCH_CROSS
                                                                    : DRY_HATCH_DOTS;
}

/* Letters hide where the free field is too small for them, in width or in height. */
static void
label_board (DrySceneBuilder *b, const DryBoard *board, DryLabelPlace place)
{
  DryLength w = dry_rect_width (place.free), h = dry_rect_height (place.free);
  const char *size =
      dry_scene_builder_size (b, dry_rect_width (board->bounds), dry_rect_height (board->bounds));
  DryLettering mark = {.size = 2.5, .bold = TRUE, .ground = TRUE, .anchor = DRY_ANCHOR_ABOVE};
  DryLettering under = {
      .size = 1.9, .ground = TRUE, .anchor = DRY_ANCHOR_BELOW, .room = MIN (w, 2 * h)};

  if (place.form != DRY_LABEL_STACKED) {
    gboolean upright = place.form == DRY_LABEL_UPRIGHT;
    mark.anchor = DRY_ANCHOR_CENTRE;
    mark.angle = upright ? 90 : 0;
    mark.size = 2;
    mark.room = upright ? MIN (h, 6 * w) : MIN (w, 6 * h);
    dry_scene_builder_text (b, place.at, mark, "%s   %s", board->mark, size);
    /* Where the line hides, the mark alone finds its place free. */
    mark.angle = 0;
    mark.room = MIN (w, 3 * h / 2);
    dry_scene_builder_text (b, place.at, mark, "%s", board->mark);
    return;
  }
  mark.room = MIN (w, h * 3 / 5);
  dry_scene_builder_text (b, place.at, mark, "%s", board->mark);
  dry_scene_builder_text (b, place.at, under, "%s", size);
  /* Too low for two lines: the mark alone, in the middle. */
  mark.anchor = DRY_ANCHOR_CENTRE;
  mark.size = 2;
  mark.room = MIN (w, h) * 5 / 4;
  dry_scene_builder_text (b, place.at, mark, "%s", board->mark);
}

static void
draw_board (DrySceneBuilder *b, const DryPlan *plan, const DryFace *face, const DryBoard *board,
            guint turn, gboolean full)
{
  DryInk tint = turn % 2 ? DRY_INK_BOARD_ALT : DRY_INK_BOARD;
  DryLook look = {.stroke = tint, .pen = DRY_PEN_035, .fill = tint, .alpha = 0.13};
  DryLook hole = DRY_LOOK_LINE (DRY_INK_LINE, DRY_PEN_025);

  dry_scene_builder_tag (b, DRY_LAYER_BOARDS, DRY_SHOWS_BOARD, 0, (gint) board->index);
  dry_scene_builder_polygon (b, look, &board->shape);
  for (guint i = 0; i < board->n_holes; i++)
    dry_scene_builder_circle (b, hole, board->holes[i].centre, board->holes[i].diameter / 2);
  dry_scene_builder_tag (b, DRY_LAYER_LABELS, DRY_SHOWS_BOARD, 0, (gint) board->index);
  label_board (b, board, dry_drawing_label_place (plan, face, board, full));
}

static void
draw_hole_notes (DrySceneBuilder *b, const DryFace *face)
{
  for (guint i = 0; i < face->n_holes; i++) {
    const DryHole *hole = &face->holes[i];
    DryLength r = hole->diameter / 2, lead = 2 * DRY_INCH;
    DryPoint from = {hole->centre.x + llround (0.7071 * (double) r),
                     hole->centre.y + llround (0.7071 * (double) r)};
    DryPoint to = {from.x + lead, from.y + lead};

    dry_scene_builder_tag (b, DRY_LAYER_LABELS, DRY_SHOWS_NOTHING, 0, -1);
    dry_scene_builder_line (b, DRY_LOOK_LINE (DRY_INK_DIMENSION, DRY_PEN_013), from, to);
    dry_scene_builder_text (b, to,
                            (DryLettering){.size = 1.8, .anchor = DRY_ANCHOR_LEFT, .ground = TRUE},
                            "ø %s", dry_scene_builder_length (b, hole->diameter));
  }
}

void
dry_draw_elevation_boards (DrySceneBuilder *b, const DryPlan *plan, const DryFace *face,
                           gboolean full)
{
  guint turn = 0;

  for (guint i = 0; i < plan->boards->n; i++)
    if (plan->boards->items[i].face == face->index)
      draw_board (b, plan, face, &plan->boards->items[i], turn++, full);
  for (guint i = 0; i < plan->fasteners->n; i++) {
    const DryFastener *f = &plan->fasteners->items[i];
    if (f->face != face->index)
      continue;
    dry_scene_builder_tag (b, DRY_LAYER_FASTENERS, DRY_SHOWS_FASTENER, 0, (gint) i);
    dry_scene_builder_mark (b, f->washer ? DRY_MARK_WASHER : DRY_MARK_SCREW, DRY_INK_FASTENER,
                            f->at);
  }
  if (full)
    draw_hole_notes (b, face);
}

/* A strip `left` to the left and `right` to the right of the way from a to b. */
static void
draw_strip_along (DrySceneBuilder *b, DryLook look, DryPoint from, DryPoint to, DryLength left,
                  DryLength right)
{
  double dx = (double) (to.x - from.x), dy = (double) (to.y - from.y), l = hypot (dx, dy);
  DryPoint p[4];

  if (l <= 0)
    return;
  for (guint i = 0; i < 4; i++) {
    DryPoint end = i == 0 || i == 3 ? from : to;
    double by = i < 2 ? (double) left : -(double) right;
    p[i] = (DryPoint){end.x + llround (-dy / l * by), end.y + llround (dx / l * by)};
  }
  dry_scene_builder_path (b, look, p, 4, TRUE);
}

/* At a change of plane half the width lies on this face; in a plane, half on each side. */
static gboolean
is_folded (DryJointKind kind)
{
  return kind == DRY_JOINT_INSIDE_CORNER || kind == DRY_JOINT_OUTSIDE_CORNER ||
         kind == DRY_JOINT_CEILING || kind == DRY_JOINT_NICHE || kind == DRY_JOINT_OPENING ||
         kind == DRY_JOINT_BASIN || kind == DRY_JOINT_FLOOR;
}

static void
draw_joint (DrySceneBuilder *b, const DryPlan *plan, const DryJoint *joint, gint index)
{
  const DryTreatment *how = &plan->context.system->treatments[joint->kind];
  const DryBoard *board = joint->board >= 0 && (guint) joint->board < plan->boards->n
                              ? &plan->boards->items[joint->board]
                              : NULL;
  DryLength half = how->width / 2, left = half, right = half;
  DryPoint from = joint->from, to = joint->to;

  if (is_folded (joint->kind) && board) {
    DryPoint c = dry_rect_centre (board->bounds);
    __int128 turn =
        (__int128) (to.x - from.x) * (c.y - from.y) - (__int128) (to.y - from.y) * (c.x - from.x);
    /* Round a hole in the board the board's middle says nothing: inside is left there. */
    gboolean inward =
        joint->kind == DRY_JOINT_NICHE || joint->kind == DRY_JOINT_OPENING ? TRUE : turn > 0;
    left = inward ? half : 0;
    right = inward ? 0 : half;
  }
  dry_scene_builder_tag (b, DRY_LAYER_JOINTS, DRY_SHOWS_JOINT, joint->object, index);
  switch (how->kind) {
  case DRY_TREAT_BAND:
    draw_strip_along (b, (DryLook){.fill = DRY_INK_BAND, .alpha = 0.16}, from, to, left, right);
    break;
  case DRY_TREAT_MESH:
    draw_strip_along (b,
                      (DryLook){.stroke = DRY_INK_BAND,
                                .pen = DRY_PEN_013,
                                .dash = DRY_DASH_DOTTED,
                                .fill = DRY_INK_BAND,
                                .alpha = 0.09},
                      from, to, left, right);
    break;
  case DRY_TREAT_BEAD:
    dry_scene_builder_line (b, DRY_LOOK_LINE (DRY_INK_SEALANT, DRY_PEN_050), from, to);
    break;
  case DRY_TREAT_FILLER:
    dry_scene_builder_line (
        b, (DryLook){.stroke = DRY_INK_DRYWALL, .pen = DRY_PEN_050, .dash = DRY_DASH_DASHED}, from,
        to);
    break;
  default:
    break;
  }
}

static void
draw_collar (DrySceneBuilder *b, const DryPlan *plan, const DryHole *hole)
{
  const DryTreatment *how = &plan->context.system->treatments[DRY_JOINT_PENETRATION];
  DryLength ring = how->width > 0 ? how->width : DRY_INCH;

  dry_scene_builder_tag (b, DRY_LAYER_JOINTS, DRY_SHOWS_JOINT, hole->object, -1);
  if (how->kind == DRY_TREAT_GASKET || how->kind == DRY_TREAT_BAND)
    dry_scene_builder_circle (b, (DryLook){.fill = DRY_INK_BAND, .alpha = 0.16}, hole->centre,
                              hole->diameter / 2 + ring);
  else if (how->kind == DRY_TREAT_BEAD)
    dry_scene_builder_circle (b, DRY_LOOK_LINE (DRY_INK_SEALANT, DRY_PEN_050), hole->centre,
                              hole->diameter / 2);
}

void
dry_draw_elevation_joints (DrySceneBuilder *b, const DryPlan *plan, const DryFace *face)
{
  for (guint i = 0; i < plan->joints->n; i++) {
    const DryJoint *joint = &plan->joints->items[i];
    gboolean corner =
        joint->kind == DRY_JOINT_INSIDE_CORNER || joint->kind == DRY_JOINT_OUTSIDE_CORNER;

    /* The second side of a seam would lie on the first; at a corner it is on another face. */
    if (joint->face == face->index && joint->kind != DRY_JOINT_PENETRATION &&
        (joint->counted || corner))
      draw_joint (b, plan, joint, (gint) i);
  }
  for (guint i = 0; i < face->n_holes; i++)
    draw_collar (b, plan, &face->holes[i]);
}
