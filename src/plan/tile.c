/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The tile stage: takes the datum of every face (tile-datum.c), lays every tile, and tells what the
 * layout amounts to. Knows no boards and no prices. */
#include "plan/tile-private.h"

#include <math.h>
#include <string.h>

#include "base/error.h"
#include "plan/plan.h"

/* --- the module --- */

/* Courses that go on by k/n of a tile are back after n: the fewest that come within a hundredth. */
static void
step_courses (DryTileModule *module, double offset)
{
  guint n = 2, k;

  while (n < DRY_TILE_SHIFTS_MOST &&
         (round (offset * n) < 1 || fabs (offset * n - round (offset * n)) > 0.01 * n))
    n++;
  k = MAX ((guint) (offset * n + 0.5), 1);
  for (guint i = 0; i < n; i++)
    module->shifts[i] = dry_tile_pitch_u (module) * (i * k % n) / n;
  module->n_shifts = n;
}

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
  if (finish->pattern == DRY_PATTERN_OFFSET && finish->offset > 0 && finish->stepped)
    step_courses (&module, finish->offset);
  else if (finish->pattern == DRY_PATTERN_OFFSET && finish->offset > 0) {
    module.shifts[1] = (DryLength) (finish->offset * (double) dry_tile_pitch_u (&module) + 0.5);
    module.n_shifts = 2;
  }
  return module;
}

/* --- datum of each face --- */

static const DryLength no_shift[] = {0};

static gboolean
is_wall (const DryTileRoom *room, const DryTileFace *tiled)
{
  return room->faces->items[tiled->face].kind == DRY_FACE_WALL;
}

static void
explain_start (const DryTileRoom *room, guint index, DryTileFace *tiled)
{
  const DryWall *wall =
      dry_room_get_wall (room->context->room, room->faces->items[tiled->face].wall);

  tiled->given_u = wall->tile_set;
  tiled->wraps_left = dry_tile_goes_round (room, index, FALSE);
  tiled->wraps_right = dry_tile_goes_round (room, index, TRUE);
  tiled->whole_left = dry_tile_wants_whole (room, index, FALSE);
  tiled->whole_right = dry_tile_wants_whole (room, index, TRUE);
  tiled->why_u = tiled->given_u                            ? "set by you"
                 : tiled->whole_left || tiled->whole_right ? "a whole tile at the open edge"
                 : tiled->wraps_left || tiled->wraps_right ? "courses go on round the corner"
                                                           : "balanced between the ends";
}

static void
set_wall_datum (const DryTileRoom *room, const DryTileChoice *choice, guint index)
{
  DryTileFace *tiled = &room->tiling->faces[index];
  DryRect r = dry_region_bounds (&tiled->region);

  explain_start (room, index, tiled);
  tiled->datum = (DryPoint){choice->starts[index], choice->level};
  if (!dry_tile_is_grid (room->tiling->pattern) && !tiled->given_u) {
    tiled->datum.x = r.x0 + dry_rect_width (r) / 2;
    tiled->why_u = "centered";
  }
  tiled->given_z = room->context->room->finish.level_set;
  tiled->why_z = tiled->given_z  ? "set by you"
                 : choice->whole ? "a whole course above the basin"
                                 : "balanced between bottom and top";
}

/* How the courses between two level edges are shifted: a low face has not each of them. */
static guint
list_shifts (const DryTileModule *module, const DryTileEdge z[2], DryLength level,
             DryLength shifts[DRY_TILE_SHIFTS_MOST])
{
  DryLength pitch = dry_tile_pitch_z (module);
  DryLength course = z[0].at - dry_tile_rest (z[0].at - level, pitch);
  guint n = 0;

  if (course + module->height <= z[0].at) /* only its joint is seen */
    course += pitch;
  for (; course < z[1].at && n < module->n_shifts; course += pitch)
    shifts[n++] = module->shifts[dry_tile_rest ((course - level) / pitch, module->n_shifts)];
  return n;
}

/* Linings, benches, the ceiling: each for itself. */
static void
set_small_datum (const DryTileModule *module, DryTileFace *tiled)
{
  DryTileEdge u[2], z[2];
  DryRect r = dry_region_bounds (&tiled->region);
  DryLength shifts[DRY_TILE_SHIFTS_MOST];

  dry_tile_edges (&tiled->region, FALSE, u);
  dry_tile_edges (&tiled->region, TRUE, z);
  tiled->datum.y = dry_tile_solve_axis (z, 2, no_shift, 1, module->height, module->joint);
  tiled->datum.x =
      dry_tile_is_grid (module->pattern)
          ? dry_tile_solve_axis (u, 2, shifts, list_shifts (module, z, tiled->datum.y, shifts),
                                 module->width, module->joint)
          : r.x0 + dry_rect_width (r) / 2;
  tiled->why_u = tiled->why_z = "balanced";
}

/* Where no joint falls between two edges, one tile reaches from one to the other and has a cut at
 * each: what is left of it is what lies between them. */
static DryLength
clip_cut (DryLength cut, const DryTileEdge edges[2])
{
  return MIN (cut, edges[1].at - edges[0].at);
}

/* The narrowest cut the face could have if nothing were set by the user, as a share. */
static double
find_best_share (const DryTileRoom *room, const DryTileModule *module, const DryTileFace *tiled)
{
  DryTileEdge u[2], z[2];
  DryLength start = 0, level = 0, across, up;

  dry_tile_edges (&tiled->region, FALSE, u);
  dry_tile_edges (&tiled->region, TRUE, z);
  start =
      dry_tile_solve_axis (u, 2, module->shifts, module->n_shifts, module->width, module->joint);
  level =
      dry_tile_solve_axis (room->level, room->n_level, no_shift, 1, module->height, module->joint);
  across = dry_tile_judge_axis (u, 2, module->shifts, module->n_shifts, start, module->width,
                                module->joint)
               .smallest;
  up = dry_tile_judge_axis (room->level, room->n_level, no_shift, 1, level, module->height,
                            module->joint)
           .smallest;
  return MIN ((double) clip_cut (across, u) / (double) module->width,
              (double) clip_cut (up, z) / (double) module->height);
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

  list_lines (&module, r, datum, upright, level);
}

static void
note_cut (DryTileFace *tiled, DryLength cut, DryLength size)
{
  double share = (double) cut / (double) size;

  if (share >= tiled->smallest_share)
    return;
  tiled->smallest_share = share;
  tiled->smallest = cut;
}

/* What a corner is wrapped round leaves is no cut at an edge. */
static void
measure_edges (const DryTileModule *module, const DryFace *face, DryLength room_joint,
               DryTileFace *tiled)
{
  DryTileEdge u[2], z[2];
  DryLength shifts[DRY_TILE_SHIFTS_MOST], *side[] = {&tiled->left_cut, &tiled->right_cut};
  guint n_shifts;

  tiled->smallest_share = 1;
  if (!dry_tile_is_grid (module->pattern))
    return;
  dry_tile_edges (&tiled->region, FALSE, u);
  dry_tile_edges (&tiled->region, TRUE, z);
  if (face->at_basin)
    z[0].at = MAX (z[0].at, face->deck + room_joint);
  n_shifts = list_shifts (module, z, tiled->datum.y, shifts);
  for (guint i = 0; i < 2; i++) {
    DryTileAxis axis = dry_tile_judge_axis (&u[i], 1, shifts, n_shifts, tiled->datum.x,
                                            module->width, module->joint);
    *side[i] = clip_cut (axis.smallest, u);
  }
  tiled->bottom_cut =
      clip_cut (dry_tile_cut_at (z[0], tiled->datum.y, module->height, module->joint), z);
  tiled->top_cut =
      clip_cut (dry_tile_cut_at (z[1], tiled->datum.y, module->height, module->joint), z);
  note_cut (tiled, tiled->bottom_cut, module->height);
  note_cut (tiled, tiled->top_cut, module->height);
  if (!tiled->wraps_left)
    note_cut (tiled, tiled->left_cut, module->width);
  if (!tiled->wraps_right)
    note_cut (tiled, tiled->right_cut, module->width);
}

/* --- movement joints in the field --- */

/* What the rule pack lets tile run without one; 0 = it does not say. */
static DryLength
find_interval (const DryRulePack *rules)
{
  for (guint i = 0; rules && i < rules->n_rules; i++) {
    const DryRule *rule = &rules->rules[i];

    for (guint k = 0; strcmp (rule->subject, "layout") == 0 && k < rule->n_require; k++)
      if (strcmp (rule->require[k].measure, "run") == 0 &&
          rule->require[k].kind == DRY_LIMIT_LENGTH)
        return rule->require[k].length;
  }
  return 0;
}

static DryLength
find_nearest (const DryLength *lines, guint n, DryLength at)
{
  DryLength best = at, off = G_MAXINT64;

  for (guint i = 0; i < n; i++)
    if (ABS (lines[i] - at) < off) {
      off = ABS (lines[i] - at);
      best = lines[i];
    }
  return best;
}

/* Evenly spaced, each on the tile joint nearest to its place. */
static void
place_breaks (const DryPlanContext *context, DryLength interval, DryTileFace *tiled)
{
  DryRect r = dry_region_bounds (&tiled->region);
  DryLength width = dry_rect_width (r), last = r.x0;
  guint n = interval > 0 ? (guint) ((width + interval - 1) / interval) : 1;
  DryTileBreak *breaks;

  tiled->span = tiled->run = width;
  if (n < 2)
    return;
  /* Joints lie up to half a tile off: the stretches must not grow beyond the interval. */
  if (width / n + dry_rect_width (r) / (tiled->n_upright + 1) > interval)
    n++;
  breaks = dry_arena_new_array (context->arena, DryTileBreak, n);
  tiled->run = 0;
  for (guint i = 1; i < n; i++) {
    DryLength at = find_nearest (tiled->upright, tiled->n_upright, r.x0 + width / n * i);

    breaks[tiled->n_breaks++] = (DryTileBreak){{at, r.y0}, {at, r.y1}};
    tiled->run = MAX (tiled->run, at - last);
    last = at;
  }
  tiled->run = MAX (tiled->run, r.x1 - last);
  tiled->breaks = breaks;
}

static void
sum_pieces (DryTileFace *tiled)
{
  __int128 sum2 = 0;

  for (guint i = 0; i < tiled->n_pieces; i++) {
    sum2 += tiled->pieces[i].area2;
    if (tiled->pieces[i].cut == DRY_TILE_WHOLE)
      tiled->n_whole++;
    else
      tiled->n_cut++;
  }
  tiled->area = dry_region_area_m2 (&tiled->region);
  tiled->joint_area = (double) (dry_region_area2 (&tiled->region) - sum2) / 2e18;
}

static void
lay_face (const DryTileRoom *room, const DryTileModule *module, DryTileFace *tiled)
{
  const DryPlanContext *context = room->context;
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
  measure_edges (module, &room->faces->items[tiled->face], context->room->finish.joint, tiled);
  tiled->best_share = is_wall (room, tiled) && dry_tile_is_grid (module->pattern)
                          ? find_best_share (room, module, tiled)
                          : tiled->smallest_share;
  sum_pieces (tiled);
  place_breaks (context, is_wall (room, tiled) ? find_interval (context->rules) : 0, tiled);
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

static void
lay_room (const DryTileRoom *room)
{
  DryTiling *self = room->tiling;
  DryTileChoice choice = {.starts =
                              dry_arena_new_array (room->context->arena, DryLength, self->n_faces)};
  DryTileModule module;

  self->joint = dry_tile_choose (room, &choice);
  module = dry_tile_module (&room->context->room->finish, self->joint);
  self->width = module.width;
  self->height = module.height;
  for (guint i = 0; i < self->n_faces; i++) {
    if (is_wall (room, &self->faces[i]))
      set_wall_datum (room, &choice, i);
    else
      set_small_datum (&module, &self->faces[i]);
    lay_face (room, &module, &self->faces[i]);
  }
  find_smallest (self);
  dry_tile_find_kinds (room->context, self);
  dry_tile_count (room->context, room->faces, &module, self);
}

const DryTiling *
dry_tiling_compute (const DryPlanContext *context, const DryFaces *faces, GError **error)
{
  DryTiling *self = dry_arena_new_array (context->arena, DryTiling, 1);
  const DryFinish *finish = &context->room->finish;
  DryTileRoom room = {context, faces, self, NULL, 0};
  g_autoptr (GArray) edges = NULL;

  self->smallest_face = -1;
  self->smallest_share = 1;
  if (!finish->tiled)
    return self;
  if (g_cancellable_is_cancelled (context->cancellable)) {
    g_set_error_literal (error, DRY_ERROR, DRY_ERROR_CANCELLED, "cancelled");
    return NULL;
  }
  start_faces (context, faces, self);
  self->pattern = finish->pattern;
  if (finish->pattern != DRY_PATTERN_HERRINGBONE) {
    DryTilePacking packing = dry_tile_packing (context, finish);

    self->sheet_across = packing.across;
    self->sheet_up = packing.up;
  }
  self->least_joint = MAX (3 * finish->variation, DRY_TILE_LEAST_JOINT);
  edges = dry_tile_level_edges (&room);
  room.level = (const DryTileEdge *) (gconstpointer) edges->data;
  room.n_level = edges->len;
  lay_room (&room);
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
  guint low = 0, high = n;
  DryLength off = G_MAXINT64;

  while (low < high) {
    guint middle = (low + high) / 2;

    if (lines[middle] < at)
      low = middle + 1;
    else
      high = middle;
  }
  if (low < n)
    off = lines[low] - at;
  if (low > 0)
    off = MIN (off, at - lines[low - 1]);
  return off;
}
