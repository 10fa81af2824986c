/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Walls, studs, boards and openings of the plan, as cut a little above the valve.
 * Cut edges are the heaviest lines; knows no fittings. */
#include <math.h>

#include "draw/drawing-private.h"

DryPoint
dry_drawing_outer_corner (const DryRoom *room, guint i)
{
  const DryWall *wall = &room->walls[i];
  const DryWall *before = &room->walls[(i + room->n_outline - 1) % room->n_outline];
  double ux, uy, n1x, n1y, n2x, n2y, det, x, y;
  double t1 = (double) dry_wall_depth (before);
  double t2 = (double) dry_wall_depth (wall);

  dry_wall_axes (before, DRY_SIDE_INSIDE, &ux, &uy, &n1x, &n1y);
  dry_wall_axes (wall, DRY_SIDE_INSIDE, &ux, &uy, &n2x, &n2y);
  det = n1x * n2y - n1y * n2x;
  if (fabs (det) > 0.05) {
    /* The point that is t1 behind one wall and t2 behind the other. */
    x = (-t1 * n2y + t2 * n1y) / det;
    y = (-t2 * n1x + t1 * n2x) / det;
    if (hypot (x, y) < 5 * MAX (t1, t2))
      return (DryPoint){wall->start.x + llround (x), wall->start.y + llround (y)};
  }
  return dry_wall_point (wall, DRY_SIDE_INSIDE, 0, -(DryLength) t2);
}

static int
compare_openings (gconstpointer a, gconstpointer b)
{
  const DryOpening *x = *(const DryOpening *const *) a, *y = *(const DryOpening *const *) b;

  return (x->u > y->u) - (x->u < y->u);
}

static GPtrArray *
list_openings (const DryRoom *room, const DryWall *wall)
{
  GPtrArray *list = g_ptr_array_new ();

  for (guint i = 0; i < room->n_openings; i++)
    if (room->openings[i].wall == wall->id)
      g_ptr_array_add (list, &room->openings[i]);
  g_ptr_array_sort (list, compare_openings);
  return list;
}

/* One stretch of wall between openings. The cut edges are drawn where there is air, not at the
 * mitre where two walls meet. */
static void
draw_stretch (DrySceneBuilder *b, const DryRoom *room, guint i, DryLength u0, DryLength u1)
{
  const DryWall *wall = &room->walls[i];
  DryLength length = dry_wall_length (wall), t = dry_wall_depth (wall);
  gboolean low = wall->added && wall->height > 0 && wall->height < 54 * DRY_INCH;
  gboolean open_left = wall->added || u0 > 0, open_right = wall->added || u1 < length;
  DryLook body = {.stroke = DRY_INK_WALL,
                  .fill = DRY_INK_WALL,
                  .alpha = low ? 0.05 : 0.14,
                  .hatch = wall->exterior && !low ? DRY_HATCH_DIAGONAL : DRY_HATCH_NONE};
  DryLook edge = DRY_LOOK_LINE (DRY_INK_WALL, low ? DRY_PEN_025 : DRY_PEN_050);
  DryPoint p[4];

  if (u1 <= u0)
    return;
  p[0] = dry_wall_point (wall, DRY_SIDE_INSIDE, u0, 0);
  p[1] = dry_wall_point (wall, DRY_SIDE_INSIDE, u1, 0);
  p[2] = open_right ? dry_wall_point (wall, DRY_SIDE_INSIDE, u1, -t)
                    : dry_drawing_outer_corner (room, (i + 1) % room->n_outline);
  p[3] = open_left ? dry_wall_point (wall, DRY_SIDE_INSIDE, u0, -t)
                   : dry_drawing_outer_corner (room, i);
  dry_scene_builder_tag (b, DRY_LAYER_ROOM, DRY_SHOWS_WALL, wall->id, (gint) i);
  dry_scene_builder_path (b, body, p, 4, TRUE);
  dry_scene_builder_line (b, edge, p[0], p[1]);
  dry_scene_builder_line (b, edge, p[2], p[3]);
  if (open_left)
    dry_scene_builder_line (b, edge, p[3], p[0]);
  if (open_right)
    dry_scene_builder_line (b, edge, p[1], p[2]);
}

static gboolean
is_in_opening (const GPtrArray *openings, DryLength u)
{
  for (guint i = 0; i < openings->len; i++) {
    const DryOpening *o = openings->pdata[i];
    if (u > o->u && u < o->u + o->width)
      return TRUE;
  }
  return FALSE;
}

static void
draw_stud (DrySceneBuilder *b, const DryWall *wall, DryLength u0, DryLength u1, gboolean added,
           gint index)
{
  DryLength t = wall->stud_depth;
  DryInk ink = wall->steel_studs ? DRY_INK_STEEL : DRY_INK_WOOD;
  DryLook look = {.stroke = ink,
                  .pen = added ? DRY_PEN_035 : DRY_PEN_018,
                  .fill = ink,
                  .alpha = added ? 0.45 : 0.2,
                  .hatch = wall->steel_studs ? DRY_HATCH_NONE : DRY_HATCH_WOOD};
  DryPoint p[4] = {dry_wall_point (wall, DRY_SIDE_INSIDE, u0, 0),
                   dry_wall_point (wall, DRY_SIDE_INSIDE, u1, 0),
                   dry_wall_point (wall, DRY_SIDE_INSIDE, u1, -t),
                   dry_wall_point (wall, DRY_SIDE_INSIDE, u0, -t)};

  dry_scene_builder_tag (b, DRY_LAYER_STUDS, DRY_SHOWS_MEMBER, wall->id, index);
  dry_scene_builder_path (b, look, p, 4, TRUE);
}

/* Studs the plan knows; both faces of an added wall show the same ones, so one face is enough. */
static void
draw_known_studs (DrySceneBuilder *b, const DryPlan *plan, const DryWall *wall, const DryFace *face)
{
  DryLength length = dry_wall_length (wall);

  for (guint i = 0; i < plan->framing->n; i++) {
    const DryMember *member = &plan->framing->items[i];
    DryLength u0 = member->rect.x0, u1 = member->rect.x1;
    if (member->face != face->index ||
        (member->kind != DRY_MEMBER_STUD && member->kind != DRY_MEMBER_CORNER &&
         member->kind != DRY_MEMBER_TRIMMER && member->kind != DRY_MEMBER_CRIPPLE))
      continue;
    if (face->side == DRY_SIDE_OUTSIDE) {
      u0 = length - member->rect.x1;
      u1 = length - member->rect.x0;
    }
    draw_stud (b, wall, u0, u1, member->added, (gint) i);
  }
}

static void
draw_guessed_studs (DrySceneBuilder *b, const DryWall *wall, const GPtrArray *openings)
{
  DryLength length = dry_wall_length (wall), w = wall->stud_width;
  guint n = 0;

  draw_stud (b, wall, 0, MIN (w, length), FALSE, -1);
  draw_stud (b, wall, MAX (length - w, 0), length, FALSE, -1);
  if (wall->n_found_studs > 0) {
    for (guint i = 0; i < wall->n_found_studs; i++)
      if (!is_in_opening (openings, wall->found_studs[i]))
        draw_stud (b, wall, wall->found_studs[i] - w / 2, wall->found_studs[i] + w / 2, FALSE, -1);
    return;
  }
  for (DryLength u = wall->first_stud > 0 ? wall->first_stud : wall->stud_spacing;
       u < length - 3 * w / 2 && n < 500; u += wall->stud_spacing, n++)
    if (!is_in_opening (openings, u))
      draw_stud (b, wall, u - w / 2, u + w / 2, FALSE, -1);
}

static void
draw_layer_on (DrySceneBuilder *b, const DryWall *wall, DrySide side, DryLength u0, DryLength u1,
               DryLength from, DryLength to, DryLook look)
{
  DryPoint p[4] = {dry_wall_point (wall, side, u0, from), dry_wall_point (wall, side, u1, from),
                   dry_wall_point (wall, side, u1, to), dry_wall_point (wall, side, u0, to)};

  if (u1 > u0 && to > from)
    dry_scene_builder_path (b, look, p, 4, TRUE);
}

/* Board and tile on the wet part of a face, drywall beyond. */
static void
draw_build_up (DrySceneBuilder *b, const DryPlan *plan, const DryWall *wall, const DryFace *face)
{
  const DryBuildUp *up = &plan->context.build_up;
  DryLook board = {
      .stroke = DRY_INK_BOARD, .pen = DRY_PEN_018, .fill = DRY_INK_BOARD, .alpha = 0.4};
  DryLook tile = {.stroke = DRY_INK_TILE, .pen = DRY_PEN_018, .fill = DRY_INK_TILE, .alpha = 0.15};
  DryLook dry = {
      .stroke = DRY_INK_DRYWALL, .pen = DRY_PEN_018, .fill = DRY_INK_DRYWALL, .alpha = 0.25};
  DryLength wet0 = MAX (face->wet_u0, face->left.inset);
  DryLength wet1 = MIN (face->wet_u1, face->length - face->right.inset);
  DryLength under = up->board > 0 ? up->board : up->total - up->mortar - up->tile;

  dry_scene_builder_tag (b, DRY_LAYER_BOARDS, DRY_SHOWS_WALL, wall->id, -1);
  draw_layer_on (b, wall, face->side, wet0, wet1, 0, under, board);
  dry_scene_builder_tag (b, DRY_LAYER_TILE, DRY_SHOWS_WALL, wall->id, -1);
  draw_layer_on (b, wall, face->side, wet0, wet1, under, up->total, tile);
  dry_scene_builder_tag (b, DRY_LAYER_ROOM, DRY_SHOWS_WALL, wall->id, -1);
  draw_layer_on (b, wall, face->side, 0, face->wet_u0, 0, wall->lining, dry);
  draw_layer_on (b, wall, face->side, face->wet_u1, face->length, 0, wall->lining, dry);
}

static void
draw_wall (DrySceneBuilder *b, const DryPlan *plan, guint i)
{
  const DryRoom *room = plan->context.room;
  const DryWall *wall = &room->walls[i];
  const DryFace *faces[2] = {dry_faces_get_wall (plan->faces, wall->id, DRY_SIDE_INSIDE),
                             dry_faces_get_wall (plan->faces, wall->id, DRY_SIDE_OUTSIDE)};
  g_autoptr (GPtrArray) openings = list_openings (room, wall);
  DryLength at = 0, length = dry_wall_length (wall);

  for (guint o = 0; o <= openings->len; o++) {
    const DryOpening *opening = o < openings->len ? openings->pdata[o] : NULL;
    draw_stretch (b, room, i, at, opening ? MIN (opening->u, length) : length);
    if (opening)
      at = MAX (at, opening->u + opening->width);
  }
  if (faces[0] || faces[1])
    draw_known_studs (b, plan, wall, faces[0] ? faces[0] : faces[1]);
  else
    draw_guessed_studs (b, wall, openings);
  for (guint side = 0; side < 2; side++)
    if (faces[side])
      draw_build_up (b, plan, wall, faces[side]);
  if (!faces[0] && !wall->added) {
    DryLook dry = {
        .stroke = DRY_INK_DRYWALL, .pen = DRY_PEN_018, .fill = DRY_INK_DRYWALL, .alpha = 0.25};
    dry_scene_builder_tag (b, DRY_LAYER_ROOM, DRY_SHOWS_WALL, wall->id, (gint) i);
    at = 0;
    for (guint o = 0; o <= openings->len; o++) {
      const DryOpening *opening = o < openings->len ? openings->pdata[o] : NULL;
      draw_layer_on (b, wall, DRY_SIDE_INSIDE, at, opening ? opening->u : length, 0, wall->lining,
                     dry);
      if (opening)
        at = MAX (at, opening->u + opening->width);
    }
  }
}

void
dry_draw_plan_walls (DrySceneBuilder *b, const DryPlan *plan)
{
  for (guint i = 0; i < plan->context.room->n_walls; i++)
    draw_wall (b, plan, i);
}

static void
draw_door (DrySceneBuilder *b, const DryWall *wall, const DryOpening *o)
{
  DryLook thin = DRY_LOOK_LINE (DRY_INK_LINE, DRY_PEN_018);
  DryLook leaf = {.stroke = DRY_INK_LINE, .pen = DRY_PEN_035, .fill = DRY_INK_PAPER, .alpha = 1};
  DryLength thick = 35 * DRY_MM;
  DryPoint arc[2 * DRY_CURVE_POINTS];
  DryPoint p[4] = {dry_wall_point (wall, DRY_SIDE_INSIDE, o->u, 0),
                   dry_wall_point (wall, DRY_SIDE_INSIDE, o->u + thick, 0),
                   dry_wall_point (wall, DRY_SIDE_INSIDE, o->u + thick, o->width),
                   dry_wall_point (wall, DRY_SIDE_INSIDE, o->u, o->width)};

  dry_points_arc (arc, (DryPoint){0, 0}, (double) o->width, (double) o->width, 90, 0,
                  2 * DRY_CURVE_POINTS);
  for (guint i = 0; i < 2 * DRY_CURVE_POINTS; i++)
    arc[i] = dry_wall_point (wall, DRY_SIDE_INSIDE, o->u + arc[i].x, arc[i].y);
  dry_scene_builder_path (b, thin, arc, 2 * DRY_CURVE_POINTS, FALSE);
  dry_scene_builder_path (b, leaf, p, 4, TRUE);
}

static void
draw_opening (DrySceneBuilder *b, const DryWall *wall, const DryOpening *o)
{
  DryLength t = dry_wall_depth (wall);
  DryLook field = {.stroke = DRY_INK_LINE, .pen = DRY_PEN_018, .fill = DRY_INK_PAPER, .alpha = 1};
  DryPoint p[4] = {dry_wall_point (wall, DRY_SIDE_INSIDE, o->u, 0),
                   dry_wall_point (wall, DRY_SIDE_INSIDE, o->u + o->width, 0),
                   dry_wall_point (wall, DRY_SIDE_INSIDE, o->u + o->width, -t),
                   dry_wall_point (wall, DRY_SIDE_INSIDE, o->u, -t)};

  dry_scene_builder_tag (b, DRY_LAYER_ROOM, DRY_SHOWS_OPENING, o->id, -1);
  if (o->kind == DRY_OPENING_PASSAGE)
    field.dash = DRY_DASH_DASHED;
  dry_scene_builder_path (b, field, p, 4, TRUE);
  if (o->kind == DRY_OPENING_DOOR)
    draw_door (b, wall, o);
  if (o->kind == DRY_OPENING_WINDOW) {
    DryLook pane = {
        .stroke = DRY_INK_GLASS, .pen = DRY_PEN_035, .fill = DRY_INK_GLASS, .alpha = 0.25};
    draw_layer_on (b, wall, DRY_SIDE_INSIDE, o->u, o->u + o->width, -t / 2 - 10 * DRY_MM,
                   -t / 2 + 10 * DRY_MM, pane);
  }
}

void
dry_draw_plan_openings (DrySceneBuilder *b, const DryPlan *plan)
{
  const DryRoom *room = plan->context.room;

  for (guint i = 0; i < room->n_openings; i++) {
    draw_opening (b, dry_room_get_wall (room, room->openings[i].wall), &room->openings[i]);
  }
}
