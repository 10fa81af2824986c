/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The tile stage: one joint width and one level line for the room, one datum for each face, then
 * every tile. The user's own datum always stands; what is free is chosen for the cuts it leaves. */
#include "plan/tile-private.h"

#include "base/error.h"
#include "plan/plan.h"

#define JOINTS_TRIED 64

/* --- the module --- */

DryTileModule
dry_tile_module (const DryFinish *finish, DryLength joint)
{
  DryTileModule module = {.pattern = finish->pattern,
                          .width = finish->tile_width,
                          .height = finish->tile_height,
                          .joint = joint,
                          .n_shifts = 1};

  if (finish->pattern == DRY_PATTERN_VERTICAL) {
    module.width = MIN (finish->tile_width, finish->tile_height);
    module.height = MAX (finish->tile_width, finish->tile_height);
  }
  if (finish->pattern == DRY_PATTERN_OFFSET && finish->offset > 0) {
    module.shifts[1] = (DryLength) (finish->offset * (double) dry_tile_pitch_u (&module) + 0.5);
    module.n_shifts = 2;
  }
  return module;
}

/* --- edges --- */

/* The outer edges of the tiled region along one axis: what is cut there is seen. */
static guint
edges_of (const DryRegion *region, gboolean level, DryTileEdge out[2])
{
  DryRect r = dry_region_bounds (region);

  out[0] = (DryTileEdge){level ? r.y0 : r.x0, TRUE};
  out[1] = (DryTileEdge){level ? r.y1 : r.x1, FALSE};
  return 2;
}

static gboolean
is_wall (const DryFaces *faces, const DryTileFace *tiled)
{
  return faces->items[tiled->face].kind == DRY_FACE_WALL;
}

/* Level edges of all walls: one line runs round the room. */
static GArray *
list_level_edges (const DryFaces *faces, const DryTiling *self, DryLength joint)
{
  GArray *edges = g_array_new (FALSE, FALSE, sizeof (DryTileEdge));

  for (guint i = 0; i < self->n_faces; i++) {
    DryTileEdge two[2];

    if (!is_wall (faces, &self->faces[i]))
      continue;
    if (faces->items[self->faces[i].face].at_basin) {
      /* Legs reach below; the course that is seen starts at the basin. */
      edges_of (&self->faces[i].region, TRUE, two);
      two[0].at = MAX (two[0].at, faces->items[self->faces[i].face].deck + joint);
    } else {
      edges_of (&self->faces[i].region, TRUE, two);
    }
    g_array_append_vals (edges, two, 2);
  }
  return edges;
}

/* --- choosing --- */

typedef struct {
  DryLength level;
  DryTileAxis axis; /* of all that is balanced, the worst */
  double share;     /* smallest cut as a share of the tile's side */
  guint n_cut;
} Choice;

static void
weigh (Choice *choice, DryTileAxis axis, DryLength size)
{
  choice->share = MIN (choice->share, (double) axis.smallest / (double) size);
  choice->n_cut += axis.n_cut;
}

static DryLength
first_course (const GArray *edges)
{
  DryLength lowest = DRY_LENGTH_MAX;

  for (guint i = 0; i < edges->len; i++) {
    const DryTileEdge *edge = &g_array_index (edges, DryTileEdge, i);

    if (edge->low)
      lowest = MIN (lowest, edge->at);
  }
  return lowest;
}

/* A whole course above the basin, unless the top then gets less than half a tile. */
static DryLength
choose_level (const DryFinish *finish, const GArray *edges, const DryTileModule *module,
              gboolean *whole)
{
  static const DryLength none[] = {0};
  const DryTileEdge *list = (const DryTileEdge *) (gconstpointer) edges->data;
  DryLength start = first_course (edges);
  DryTileAxis axis;

  *whole = FALSE;
  if (finish->level_set)
    return finish->level;
  axis = dry_tile_judge_axis (list, edges->len, none, 1, start, module->height, module->joint);
  *whole = 2 * axis.smallest >= module->height;
  if (*whole)
    return start;
  return dry_tile_solve_axis (list, edges->len, none, 1, module->height, module->joint);
}

static DryLength
choose_start (const DryTileModule *module, const DryRegion *region)
{
  DryTileEdge two[2];
  guint n = edges_of (region, FALSE, two);

  return dry_tile_solve_axis (two, n, module->shifts, module->n_shifts, module->width,
                              module->joint);
}

static Choice
try_joint (const DryPlanContext *context, const DryFaces *faces, const DryTiling *self,
           const GArray *edges, DryLength joint)
{
  static const DryLength none[] = {0};
  const DryFinish *finish = &context->room->finish;
  DryTileModule module = dry_tile_module (finish, joint);
  Choice choice = {.share = 1};
  gboolean whole;

  choice.level = choose_level (finish, edges, &module, &whole);
  weigh (&choice,
         dry_tile_judge_axis ((const DryTileEdge *) (gconstpointer) edges->data, edges->len, none,
                              1, choice.level, module.height, joint),
         module.height);
  for (guint i = 0; i < self->n_faces; i++) {
    DryTileEdge two[2];

    if (!is_wall (faces, &self->faces[i]))
      continue;
    edges_of (&self->faces[i].region, FALSE, two);
    weigh (&choice,
           dry_tile_judge_axis (two, 2, module.shifts, module.n_shifts,
                                choose_start (&module, &self->faces[i].region), module.width,
                                joint),
           module.width);
  }
  return choice;
}

/* Widths at which some stretch comes out in whole tiles, and the ends of the range. */
static guint
list_joints (const DryFinish *finish, const DryFaces *faces, const DryTiling *self,
             const GArray *edges, DryLength *joints)
{
  DryLength least = MAX (finish->joint_min, DRY_TILE_LEAST_JOINT), most = finish->joint_max;
  guint n = 0;

  joints[n++] = finish->joint;
  joints[n++] = least;
  joints[n++] = most;
  for (guint i = 0; i < self->n_faces && n + 2 < JOINTS_TRIED; i++) {
    DryRect r = dry_region_bounds (&self->faces[i].region);
    const DryLength spans[] = {dry_rect_width (r), r.y1 - first_course (edges)};
    const DryLength sizes[] = {finish->tile_width, finish->tile_height};

    if (!is_wall (faces, &self->faces[i]))
      continue;
    for (guint a = 0; a < 2; a++) {
      gint64 tiles = spans[a] / (sizes[a] + least);

      if (tiles > 1)
        joints[n++] = (spans[a] - tiles * sizes[a]) / (tiles - 1);
    }
  }
  return n;
}

/* The joint within the finish's range that cuts best; the nearer one to what was asked for wins. */
static DryLength
choose_joint (const DryPlanContext *context, const DryFaces *faces, DryTiling *self,
              const GArray *edges)
{
  const DryFinish *finish = &context->room->finish;
  DryLength joints[JOINTS_TRIED], best = finish->joint;
  Choice winner = {0};
  guint n;

  if (finish->joint_max <= finish->joint_min || finish->joint_max <= 0 ||
      !dry_tile_is_grid (finish->pattern))
    return finish->joint;
  n = list_joints (finish, faces, self, edges, joints);
  for (guint i = 0; i < n; i++) {
    Choice choice;
    gboolean better;

    if (joints[i] < MAX (finish->joint_min, DRY_TILE_LEAST_JOINT) || joints[i] > finish->joint_max)
      continue;
    choice = try_joint (context, faces, self, edges, joints[i]);
    better = choice.share > winner.share + 1e-9 ||
             (choice.share > winner.share - 1e-9 &&
              (choice.n_cut < winner.n_cut ||
               (choice.n_cut == winner.n_cut &&
                ABS (joints[i] - finish->joint) < ABS (best - finish->joint))));
    if (better || winner.share == 0) {
      winner = choice;
      best = joints[i];
    }
  }
  if (best != finish->joint)
    self->why_joint = dry_arena_printf (
        context->arena, "%s instead of %s: the narrowest cut is then %d%% of a tile",
        dry_context_length (context, best), dry_context_length (context, finish->joint),
        (int) (winner.share * 100));
  return best;
}

/* --- datum of each face --- */

static void
set_given (const DryPlanContext *context, const DryFace *face, DryTileFace *tiled)
{
  const DryWall *wall =
      face->kind == DRY_FACE_WALL ? dry_room_get_wall (context->room, face->wall) : NULL;

  if (wall == NULL || !wall->tile_set)
    return;
  tiled->datum.x = wall->tile_from;
  tiled->given_u = TRUE;
  tiled->why_u = "set by you";
}

/* Where the neighbour's last tile was cut, its rest begins this face: seen from the corner the
 * courses go on round it. */
static gboolean
wrap_from (const DryFaces *faces, const DryTiling *self, const DryTileModule *module,
           const DryTileFace *from, gboolean to_right, DryTileFace *tiled)
{
  DryTileEdge two[2], here[2];
  DryLength cut;

  edges_of (&from->region, FALSE, two);
  edges_of (&tiled->region, FALSE, here);
  if (to_right) {
    cut = dry_tile_cut_at (two[1], from->datum.x, module->width, module->joint);
    tiled->datum.x = cut == module->width ? here[0].at : here[0].at - cut - DRY_TILE_KERF;
  } else {
    cut = dry_tile_cut_at (two[0], from->datum.x, module->width, module->joint);
    tiled->datum.x =
        here[1].at - (cut == module->width ? module->width : module->width - cut - DRY_TILE_KERF);
  }
  return TRUE;
}

static DryTileFace *
find_tiled (DryTiling *self, gint face)
{
  for (guint i = 0; i < self->n_faces && face >= 0; i++)
    if (self->faces[i].face == (guint) face)
      return &self->faces[i];
  return NULL;
}

/* The widest wall is laid out first, and the others follow it round the corners. */
static void
wrap_courses (const DryFaces *faces, const DryTileModule *module, DryTiling *self)
{
  DryTileFace *widest = NULL;

  for (guint i = 0; i < self->n_faces; i++) {
    DryTileFace *tiled = &self->faces[i];

    if (is_wall (faces, tiled) &&
        (widest == NULL || dry_rect_width (dry_region_bounds (&tiled->region)) >
                               dry_rect_width (dry_region_bounds (&widest->region))))
      widest = tiled;
  }
  for (int way = 0; way < 2 && widest != NULL; way++) {
    DryTileFace *from = widest;
    guint steps = 0;

    while (steps++ < self->n_faces) {
      const DryFaceEnd *end =
          way == 0 ? &faces->items[from->face].right : &faces->items[from->face].left;
      DryTileFace *next = find_tiled (self, end->face);

      if (next == NULL || next == widest || end->angle >= 180 || end->angle <= 0)
        break;
      if (!next->given_u && wrap_from (faces, self, module, from, way == 0, next))
        next->why_u = "goes on round the corner";
      from = next;
    }
  }
}

static void
choose_datums (const DryPlanContext *context, const DryFaces *faces, const DryTileModule *module,
               DryLength level, gboolean whole, DryTiling *self)
{
  const DryFinish *finish = &context->room->finish;

  for (guint i = 0; i < self->n_faces; i++) {
    DryTileFace *tiled = &self->faces[i];
    const DryFace *face = &faces->items[tiled->face];
    DryRect r = dry_region_bounds (&tiled->region);

    if (dry_tile_is_grid (module->pattern)) {
      tiled->datum.x = choose_start (module, &tiled->region);
      tiled->why_u = "balanced between the ends";
    } else {
      tiled->datum.x = r.x0 + dry_rect_width (r) / 2;
      tiled->why_u = "centered";
    }
    set_given (context, face, tiled);
    if (face->kind == DRY_FACE_WALL) {
      tiled->datum.y = level;
      tiled->given_z = finish->level_set;
      tiled->why_z = finish->level_set ? "set by you"
                     : whole           ? "a whole course above the basin"
                                       : "balanced between bottom and top";
    } else {
      static const DryLength none[] = {0};
      DryTileEdge two[2];

      edges_of (&tiled->region, TRUE, two);
      tiled->datum.y = dry_tile_solve_axis (two, 2, none, 1, module->height, module->joint);
      tiled->why_z = "balanced";
    }
  }
  if (finish->wrap && dry_tile_is_grid (module->pattern))
    wrap_courses (faces, module, self);
}

/* --- what a face's layout amounts to --- */

static void
add_line (GArray *lines, DryLength at, DryLength from, DryLength to)
{
  if (at > from && at < to)
    g_array_append_val (lines, at);
}

static gint
compare_lengths (gconstpointer a, gconstpointer b)
{
  DryLength x = *(const DryLength *) a, y = *(const DryLength *) b;

  return (x > y) - (x < y);
}

static void
list_lines (const DryTileModule *module, DryRect r, DryPoint datum, GArray *upright, GArray *level)
{
  DryLength du = dry_tile_pitch_u (module), dz = dry_tile_pitch_z (module);

  if (!dry_tile_is_grid (module->pattern))
    return;
  for (guint s = 0; s < module->n_shifts; s++) {
    DryLength middle = datum.x + module->shifts[s] - module->joint / 2;

    for (DryLength x = r.x0 - dry_tile_rest (r.x0 - middle, du); x < r.x1; x += du)
      add_line (upright, x, r.x0, r.x1);
  }
  g_array_sort (upright, compare_lengths);
  for (DryLength z = r.y0 - dry_tile_rest (r.y0 - (datum.y - module->joint / 2), dz); z < r.y1;
       z += dz)
    add_line (level, z, r.y0, r.y1);
}

void
dry_tile_list_lines (const DryPlanContext *context, const DryFace *face, DryPoint datum,
                     DryLength joint, GArray *upright, GArray *level)
{
  DryTileModule module = dry_tile_module (&context->room->finish, joint);
  DryRect r = {face->wet_u0, face->at_basin ? face->deck : 0, face->wet_u1, face->wet_top};

  if (context->room->finish.tiled && module.width > 0 && module.height > 0)
    list_lines (&module, r, datum, upright, level);
}

static void
measure_edges (const DryTileModule *module, const DryFace *face, DryLength room_joint,
               DryTileFace *tiled)
{
  static const DryLength none[] = {0};
  DryTileEdge u[2], z[2];
  DryTileAxis across, up;
  double share_u, share_z;

  tiled->smallest_share = 1;
  if (!dry_tile_is_grid (module->pattern))
    return;
  edges_of (&tiled->region, FALSE, u);
  edges_of (&tiled->region, TRUE, z);
  if (face->at_basin)
    z[0].at = MAX (z[0].at, face->deck + room_joint);
  across = dry_tile_judge_axis (u, 2, module->shifts, module->n_shifts, tiled->datum.x,
                                module->width, module->joint);
  up = dry_tile_judge_axis (z, 2, none, 1, tiled->datum.y, module->height, module->joint);
  tiled->left_cut = dry_tile_judge_axis (u, 1, module->shifts, module->n_shifts, tiled->datum.x,
                                         module->width, module->joint)
                        .smallest;
  tiled->right_cut = dry_tile_judge_axis (u + 1, 1, module->shifts, module->n_shifts,
                                          tiled->datum.x, module->width, module->joint)
                         .smallest;
  tiled->bottom_cut = dry_tile_cut_at (z[0], tiled->datum.y, module->height, module->joint);
  tiled->top_cut = dry_tile_cut_at (z[1], tiled->datum.y, module->height, module->joint);
  share_u = (double) across.smallest / (double) module->width;
  share_z = (double) up.smallest / (double) module->height;
  tiled->smallest_share = MIN (share_u, share_z);
  tiled->smallest = share_u <= share_z ? across.smallest : up.smallest;
  if (tiled->smallest_share >= 1)
    tiled->smallest = 0;
}

static void
sum_pieces (DryTileFace *tiled)
{
  __int128 sum2 = 0;
  DryRect r = dry_region_bounds (&tiled->region);

  for (guint i = 0; i < tiled->n_pieces; i++) {
    sum2 += tiled->pieces[i].area2;
    if (tiled->pieces[i].cut == DRY_TILE_WHOLE)
      tiled->n_whole++;
    else
      tiled->n_cut++;
  }
  tiled->area = dry_region_area_m2 (&tiled->region);
  tiled->joint_area = (double) (dry_region_area2 (&tiled->region) - sum2) / 2e18;
  tiled->run = MAX (dry_rect_width (r), dry_rect_height (r));
}

static void
lay_face (const DryPlanContext *context, const DryFaces *faces, const DryTileModule *module,
          DryTileFace *tiled)
{
  GArray *pieces = g_array_new (FALSE, TRUE, sizeof (DryTilePiece));
  GArray *upright = g_array_new (FALSE, FALSE, sizeof (DryLength));
  GArray *level = g_array_new (FALSE, FALSE, sizeof (DryLength));

  dry_tile_lay (context->arena, module, &tiled->region, tiled->datum, pieces);
  tiled->n_pieces = pieces->len;
  tiled->pieces = dry_arena_take_array (context->arena, pieces);
  list_lines (module, dry_region_bounds (&tiled->region), tiled->datum, upright, level);
  tiled->n_upright = upright->len;
  tiled->upright = dry_arena_take_array (context->arena, upright);
  tiled->n_level = level->len;
  tiled->level = dry_arena_take_array (context->arena, level);
  measure_edges (module, &faces->items[tiled->face], context->room->finish.joint, tiled);
  sum_pieces (tiled);
}

/* --- the stage --- */

static void
start_faces (const DryPlanContext *context, const DryFaces *faces, DryTiling *self)
{
  self->faces = dry_arena_new_array (context->arena, DryTileFace, faces->n);
  for (guint i = 0; i < faces->n; i++) {
    DryRegion region = dry_tile_region (context, faces, &faces->items[i]);

    if (!dry_region_is_empty (&region))
      self->faces[self->n_faces++] = (DryTileFace){.face = i, .region = region};
  }
}

static void
find_smallest (DryTiling *self)
{
  self->smallest_share = 1;
  self->smallest_face = -1;
  for (guint i = 0; i < self->n_faces; i++) {
    const DryTileFace *tiled = &self->faces[i];

    self->area += tiled->area;
    self->joint_area += tiled->joint_area;
    self->n_whole += tiled->n_whole;
    self->n_cut += tiled->n_cut;
    if (tiled->smallest_share < self->smallest_share) {
      self->smallest_share = tiled->smallest_share;
      self->smallest_face = (gint) i;
    }
  }
}

const DryTiling *
dry_tiling_compute (const DryPlanContext *context, const DryFaces *faces, GError **error)
{
  DryTiling *self = dry_arena_new_array (context->arena, DryTiling, 1);
  const DryFinish *finish = context->room != NULL ? &context->room->finish : NULL;
  g_autoptr (GArray) edges = NULL;
  DryTileModule module;
  DryLength level;
  gboolean whole;

  self->smallest_face = -1;
  self->smallest_share = 1;
  if (finish == NULL || !finish->tiled || finish->tile_width <= 0 || finish->tile_height <= 0)
    return self;
  if (g_cancellable_is_cancelled (context->cancellable)) {
    g_set_error_literal (error, DRY_ERROR, DRY_ERROR_CANCELLED, "cancelled");
    return NULL;
  }
  start_faces (context, faces, self);
  edges = list_level_edges (faces, self, finish->joint);
  self->joint = choose_joint (context, faces, self, edges);
  self->least_joint = MAX (3 * finish->variation, DRY_TILE_LEAST_JOINT);
  module = dry_tile_module (finish, self->joint);
  self->pattern = module.pattern;
  self->width = module.width;
  self->height = module.height;
  level = choose_level (finish, edges, &module, &whole);
  choose_datums (context, faces, &module, level, whole, self);
  for (guint i = 0; i < self->n_faces; i++)
    lay_face (context, faces, &module, &self->faces[i]);
  find_smallest (self);
  dry_tile_count (context, faces, &module, self);
  return self;
}

const DryTileFace *
dry_tiling_get_face (const DryTiling *self, guint face)
{
  for (guint i = 0; i < self->n_faces; i++)
    if (self->faces[i].face == face)
      return &self->faces[i];
  return NULL;
}

DryLength
dry_tile_off_joint (const DryLength *lines, guint n, DryLength at)
{
  DryLength off = G_MAXINT64;

  for (guint i = 0; i < n; i++)
    off = MIN (off, ABS (lines[i] - at));
  return off;
}
