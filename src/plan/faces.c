/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Stage 1: names, marks and joins the wall sides the wet zone reaches into a strip of faces.
 * Which sides, what is boarded and the small faces are worked out in faces-*.c. */
#include "plan/faces-private.h"

#include <math.h>

/* Who hangs board first: the back wall, then its neighbours, then theirs. */
static gint
rank_of (gint index, gint back)
{
  return ABS (index - back);
}

/* Wall stud faces and board: how far along its own wall the later board stands off the corner. A
 * corner flatter than 150 degrees is mitred: both boards reach it. */
static DryLength
reckon_inset (const DryPlanContext *context, double angle)
{
  DryLength board = context->build_up.board, clear = board + context->system->corner_gap;
  double radians = angle * G_PI / 180, sine = sin (radians), along;

  if (angle >= 150 || angle <= 0)
    return 0;
  if (fabs (angle - 90) < 1e-6)
    return clear;
  along = ((double) clear + MAX (cos (radians), 0) * (double) board) / sine;
  return (DryLength) llround (MIN (along, 4 * (double) clear));
}

/* TRUE when the wet stretches of both sides end in one corner. */
static gboolean
do_meet (const DryWetSide *left, const DryWetSide *right)
{
  DryLength u = dry_faces_near_right (left), v = dry_faces_near_left (right);
  DryPoint a, b;

  if (left->wet_u1 < u || right->wet_u0 > v)
    return FALSE;
  a = dry_wall_point (left->wall, left->side, u, 0);
  b = dry_wall_point (right->wall, right->side, v, 0);
  return dry_point_distance (a, b) <= DRY_FACES_TOUCH;
}

static void
join_faces (const DryPlanContext *context, const DryWetSide *sides, DryFace *faces, guint n,
            gint back)
{
  for (guint i = 0; i < n; i++) {
    guint j = (i + 1) % n;
    double angle;
    DryLength inset;

    if (i == j || !do_meet (&sides[i], &sides[j]))
      continue;
    angle = dry_faces_angle (&sides[i], &sides[j]);
    inset = reckon_inset (context, angle);
    faces[i].right = (DryFaceEnd){.face = (gint) j, .angle = angle, .at = faces[i].right.at};
    faces[j].left = (DryFaceEnd){.face = (gint) i, .angle = angle, .at = faces[j].left.at};
    if (rank_of ((gint) i, back) > rank_of ((gint) j, back))
      faces[i].right.inset = inset;
    else
      faces[j].left.inset = inset;
  }
  for (guint i = 0; i < n; i++) {
    if (faces[i].left.face < 0 && !faces[i].dry_left)
      faces[i].left.angle = dry_faces_end_angle (context, &sides[i], FALSE);
    if (faces[i].right.face < 0 && !faces[i].dry_right)
      faces[i].right.angle = dry_faces_end_angle (context, &sides[i], TRUE);
  }
}

static const char *
name_wall (const DryPlanContext *context, const DryWetSide *sides, guint index, gint back)
{
  const DryWetSide *side = &sides[index];
  guint turn = (side->basin_side + 4 - sides[back].basin_side) % 4;
  const char *name;
  static const char *const words[] = {"Back wall", "Left end wall", "Front wall", "Right end wall"};

  if (side->wall->name && *side->wall->name)
    return side->wall->name;
  if (side->parallel)
    name = words[turn];
  else
    name = side->bearing < 0 ? "Left angled wall" : "Right angled wall";
  return dry_arena_strdup (context->arena, name);
}

/* A second wall of the same name gets a number. */
static void
tell_names_apart (const DryPlanContext *context, DryFace *faces, guint n)
{
  g_autofree const char **first = g_new (const char *, MAX (n, 1));

  for (guint i = 0; i < n; i++) {
    guint same = 1;

    first[i] = faces[i].name;
    for (guint j = 0; j < i; j++)
      same += g_str_equal (first[j], first[i]);
    if (same > 1)
      faces[i].name = dry_arena_printf (context->arena, "%s %u", first[i], same);
  }
}

static const char *
make_mark (const DryPlanContext *context, guint index)
{
  if (index < 26)
    return dry_arena_printf (context->arena, "%c", (int) ('A' + index));
  return dry_arena_printf (context->arena, "%s%c", make_mark (context, index / 26 - 1),
                           (int) ('A' + index % 26));
}

static DryFace
make_wall_face (const DryPlanContext *context, const DryWetSide *side)
{
  DryBasinHeights heights = dry_faces_basin_heights (context);

  return (DryFace){
      .kind = DRY_FACE_WALL,
      .wall = side->wall->id,
      .side = side->side,
      .length = side->length,
      .height = side->height,
      .wet_top = side->wet_top,
      .wet_u0 = side->wet_u0,
      .wet_u1 = side->wet_u1,
      .left = {.face = -1, .at = dry_faces_near_left (side)},
      .right = {.face = -1, .at = dry_faces_near_right (side)},
      .dry_left = side->wet_u0 > side->left.end,
      .dry_right = side->wet_u1 < side->right.end,
      .dry_above = side->wet_top < side->height,
      .at_basin = side->touches,
      .basin_u0 = side->b0,
      .basin_u1 = side->b1,
      .deck = heights.deck,
      .flange_top = heights.flange_top,
      .board_bottom = heights.board_bottom,
      .leg_left = side->leg_left,
      .leg_right = side->leg_right,
  };
}

/* Walls that meet in a corner stand side by side, others a little apart. */
static DryLength
lay_strip (const GArray *sides, GArray *faces)
{
  DryLength x = 0;

  for (guint i = 0; i < faces->len; i++) {
    DryFace *face = &g_array_index (faces, DryFace, i);
    gboolean joined = FALSE;

    face->index = i;
    if (i > 0 && i < sides->len) {
      const DryWetSide *before = &g_array_index (sides, DryWetSide, i - 1);
      const DryWetSide *side = &g_array_index (sides, DryWetSide, i);

      joined = face->left.face == (gint) i - 1 && dry_faces_near_right (before) == before->length &&
               dry_faces_near_left (side) == 0;
    }
    if (i > 0 && !joined)
      x += DRY_FACES_STRIP_GAP;
    face->strip_x = x;
    x += face->length;
  }
  return x;
}

const DryFaces *
dry_faces_compute (const DryPlanContext *context, GError **error)
{
  DryFaces *self = dry_arena_alloc (context->arena, sizeof (DryFaces));
  GArray *faces = g_array_new (FALSE, TRUE, sizeof (DryFace));
  g_autoptr (GArray) found = NULL;
  const DryWetSide *sides;
  gint back = -1;

  if (g_cancellable_is_cancelled (context->cancellable)) {
    g_array_unref (faces);
    g_set_error_literal (error, DRY_ERROR, DRY_ERROR_CANCELLED, "Cancelled");
    return NULL;
  }
  found = dry_faces_find_sides (context, &back);
  sides = (const DryWetSide *) found->data;
  for (guint i = 0; i < found->len; i++) {
    DryFace face = make_wall_face (context, &sides[i]);

    face.name = name_wall (context, sides, i, back);
    g_array_append_val (faces, face);
  }
  join_faces (context, sides, (DryFace *) faces->data, found->len, back);
  tell_names_apart (context, (DryFace *) faces->data, found->len);
  for (guint i = 0; i < found->len; i++)
    dry_faces_build_region (context, sides, (DryFace *) faces->data, i,
                            &g_array_index (faces, DryFace, i));
  dry_faces_add_small (context, sides, found->len, back, faces);
  dry_faces_add_caps (context, sides, found->len, faces);
  self->strip_length = lay_strip (found, faces);
  for (guint i = 0; i < faces->len; i++)
    g_array_index (faces, DryFace, i).mark = make_mark (context, i);
  self->n = faces->len;
  self->items = dry_arena_take_array (context->arena, faces);
  return self;
}

const DryFace *
dry_faces_get_wall (const DryFaces *self, DryId wall, DrySide side)
{
  for (guint i = 0; i < self->n; i++)
    if (self->items[i].kind == DRY_FACE_WALL && self->items[i].wall == wall &&
        self->items[i].side == side)
      return &self->items[i];
  return NULL;
}
