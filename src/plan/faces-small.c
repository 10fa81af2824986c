/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The small faces: ceiling over the basin, top, front and ends of built benches, linings of niches
 * built on site. Each is a plain rectangle but for a ceiling under angled walls. */
#include "plan/faces-private.h"

static DryFace *
add_face (const DryPlanContext *context, GArray *faces, DryFaceKind kind, const DryWetSide *side,
          DryId object, const char *name, DryLength length, DryLength height)
{
  DryFace face = {
      .kind = kind,
      .wall = kind == DRY_FACE_CEILING ? 0 : side->wall->id,
      .side = side->side,
      .object = object,
      .name = name,
      .length = length,
      .height = height,
      .wet_top = height,
      .wet_u1 = length,
      .left = {.face = -1},
      .right = {.face = -1, .at = length},
  };

  if (length <= 0 || height <= 0)
    return NULL;
  face.region = dry_region_from_rect (context->arena, (DryRect){0, 0, length, height});
  g_array_append_val (faces, face);
  return &g_array_index (faces, DryFace, faces->len - 1);
}

/* Edges in the order of DryFace: left, top, right, bottom. */
static void
set_edges (DryFace *face, DryJointKind left, DryJointKind top, DryJointKind right,
           DryJointKind bottom)
{
  if (!face)
    return;
  face->edges[0] = left;
  face->edges[1] = top;
  face->edges[2] = right;
  face->edges[3] = bottom;
}

/* The user's own word for the part, else "Niche 2": its number among those of its kind. */
static const char *
name_part (const DryPlanContext *context, const DryPart *part, const char *kind)
{
  guint number = 1;

  if (part->label && *part->label)
    return part->label;
  for (const DryPart *p = context->room->parts; p < part; p++)
    number += p->kind == part->kind;
  return dry_arena_printf (context->arena, "%s %u", kind, number);
}

/* The front and ends stand on the floor, or over the basin on its edge. The top lies on the frame
 * and over the front and the open ends; boards of the wall stand behind it. */
static void
add_bench (const DryPlanContext *context, const DryWetSide *side, const DryBenchBox *box,
           GArray *faces)
{
  const char *name = name_part (context, box->part, "Bench");
  DryLength board = context->build_up.board, inset = board + context->system->corner_gap;
  gboolean over = side->touches && box->u0 < side->b1 && box->u1 > side->b0;
  DryLength bottom = over ? dry_faces_basin_heights (context).board_bottom : 0;
  DryLength width = box->u1 - box->u0, height = box->top - bottom;
  DryJointKind foot = over ? DRY_JOINT_BASIN : DRY_JOINT_FLOOR;
  DryJointKind left = box->open_left ? DRY_JOINT_OUTSIDE_CORNER : DRY_JOINT_INSIDE_CORNER;
  DryJointKind right = box->open_right ? DRY_JOINT_OUTSIDE_CORNER : DRY_JOINT_INSIDE_CORNER;
  DryLength across = width + (box->open_left ? board : -inset) + (box->open_right ? board : -inset);
  DryId id = box->part->id;

  set_edges (add_face (context, faces, DRY_FACE_BENCH, side, id,
                       dry_arena_printf (context->arena, "%s, top", name), across,
                       box->depth + board - inset),
             left, DRY_JOINT_INSIDE_CORNER, right, DRY_JOINT_OUTSIDE_CORNER);
  set_edges (add_face (context, faces, DRY_FACE_BENCH, side, id,
                       dry_arena_printf (context->arena, "%s, front", name), across, height),
             left, DRY_JOINT_OUTSIDE_CORNER, right, foot);
  if (box->open_left)
    set_edges (add_face (context, faces, DRY_FACE_BENCH, side, id,
                         dry_arena_printf (context->arena, "%s, left end", name),
                         box->depth - inset, height),
               DRY_JOINT_INSIDE_CORNER, DRY_JOINT_OUTSIDE_CORNER, DRY_JOINT_OUTSIDE_CORNER, foot);
  if (box->open_right)
    set_edges (add_face (context, faces, DRY_FACE_BENCH, side, id,
                         dry_arena_printf (context->arena, "%s, right end", name),
                         box->depth - inset, height),
               DRY_JOINT_OUTSIDE_CORNER, DRY_JOINT_OUTSIDE_CORNER, DRY_JOINT_INSIDE_CORNER, foot);
}

/* The back goes in first and fills the rough opening; floor and top run across it, the sides stand
 * between them; all four come forward flush with the board of the wall, so their boards are as deep
 * as the finished niche. */
static void
add_niche (const DryPlanContext *context, const DryWetSide *side, const DryPart *part,
           DryRect rough, GArray *faces)
{
  const char *name = name_part (context, part, "Niche");
  DryLength inset = context->build_up.board + context->system->corner_gap;
  DryLength width = dry_rect_width (rough), height = dry_rect_height (rough);
  static const char *const words[] = {"back", "floor", "top", "left side", "right side"};
  const DryLength lengths[] = {width, width, width, part->depth, part->depth};
  const DryLength heights[] = {height, part->depth, part->depth, height - 2 * inset,
                               height - 2 * inset};
  /* Which edge (left, top, right, bottom) is at the front: none, then as each is looked at. */
  const gint fronts[] = {-1, 3, 1, 2, 0};

  if (part->depth <= 0)
    return;
  for (guint i = 0; i < G_N_ELEMENTS (words); i++) {
    DryFace *face = add_face (context, faces, DRY_FACE_NICHE, side, part->id,
                              dry_arena_printf (context->arena, "%s, %s", name, words[i]),
                              lengths[i], heights[i]);

    set_edges (face, DRY_JOINT_INSIDE_CORNER, DRY_JOINT_INSIDE_CORNER, DRY_JOINT_INSIDE_CORNER,
               DRY_JOINT_INSIDE_CORNER);
    if (face && fronts[i] >= 0)
      face->edges[fronts[i]] = DRY_JOINT_NICHE;
  }
}

/* How far the ceiling is wet, out from the back wall. */
static DryLength
measure_ceiling_depth (const DryPlanContext *context, const DryWetSide *sides, guint n_sides,
                       const DryWetSide *back, gboolean *at_wall)
{
  DryPoint corners[4];
  DryLength depth = 0;

  dry_room_basin_corners (context->room, corners); /* there is a back wall, so there is a basin */
  for (guint i = 0; i < 4; i++)
    depth = MAX (depth, dry_faces_see_point (back, corners[i]).y);
  depth += MAX (context->room->wet.past, 0);
  *at_wall = FALSE;
  for (guint i = 0; i < n_sides; i++) {
    DryLength out = dry_faces_see_point (back, sides[i].origin).y;

    if (sides[i].parallel && (sides[i].basin_side + 2) % 4 == back->basin_side &&
        out <= depth + DRY_FACES_TOUCH) {
      depth = out;
      *at_wall = TRUE;
    }
  }
  return depth;
}

static DryJointKind
meet_ceiling (const DryPlanContext *context, const DryWetSide *sides, const DryFace *faces,
              gint face, gboolean dry)
{
  if (dry || face < 0 || sides[face].wet_top < context->room->ceiling)
    return DRY_JOINT_DRYWALL;
  return DRY_JOINT_INSIDE_CORNER;
}

/* Seen from below with the back wall at the bottom of the drawing: u along it, z out from it. */
static void
add_ceiling (const DryPlanContext *context, const DryWetSide *sides, guint n_sides, gint index,
             GArray *faces)
{
  const DryRoom *room = context->room;
  const DryWetSide *back = &sides[index];
  const DryFace wall = g_array_index (faces, DryFace, index);
  gboolean at_front = FALSE;
  DryLength depth = measure_ceiling_depth (context, sides, n_sides, back, &at_front);
  DryFace *face = add_face (context, faces, DRY_FACE_CEILING, back, 0, "Ceiling",
                            back->wet_u1 - back->wet_u0, depth);
  g_autofree DryPoint *outline = g_new (DryPoint, room->n_outline);
  DryRegion inside;
  DryRect bounds;

  if (!face)
    return;
  for (guint i = 0; i < room->n_outline; i++) {
    DryPoint p = dry_faces_see_point (back, room->walls[i].start);

    outline[i] = (DryPoint){p.x - back->wet_u0, p.y};
  }
  inside = dry_region_from_ring (context->arena, outline, room->n_outline);
  face->region = dry_region_intersection (context->arena, &face->region, &inside);
  bounds = dry_region_bounds (&face->region);
  face->length = MAX (bounds.x1, 1);
  face->height = face->wet_top = MAX (bounds.y1, 1);
  face->wet_u1 = face->right.at = face->length;
  set_edges (face, meet_ceiling (context, sides, &wall, wall.left.face, wall.dry_left),
             at_front ? DRY_JOINT_INSIDE_CORNER : DRY_JOINT_DRYWALL,
             meet_ceiling (context, sides, &wall, wall.right.face, wall.dry_right),
             meet_ceiling (context, sides, &wall, index, FALSE));
}

void
dry_faces_add_small (const DryPlanContext *context, const DryWetSide *sides, guint n_sides,
                     gint back, GArray *faces)
{
  const DryRoom *room = context->room;

  if (room->wet.ceiling && back >= 0)
    add_ceiling (context, sides, n_sides, back, faces);
  for (guint i = 0; i < n_sides; i++)
    for (guint j = 0; j < room->n_parts; j++) {
      DryBenchBox box;

      if (dry_faces_bench_box (context, &sides[i], &room->parts[j], &box))
        add_bench (context, &sides[i], &box, faces);
    }
  for (guint i = 0; i < n_sides; i++) {
    const DryFace wall = g_array_index (faces, DryFace, i);

    for (guint j = 0; j < wall.n_cutouts; j++) {
      const DryPart *part = dry_room_get_part (room, wall.cutouts[j].object);

      if (wall.cutouts[j].kind == DRY_CUT_NICHE && dry_faces_is_site_built (part))
        add_niche (context, &sides[i], part, wall.cutouts[j].rough, faces);
    }
  }
}
