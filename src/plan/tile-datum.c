/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Where the tile of the walls starts: one level line and one joint for the room, a start on every
 * wall, courses carried round corners where wished. Knows edges and cuts, lays no tile. */
#include "plan/tile-private.h"

#include <string.h>

#include "plan/plan.h"

#define CHAIN_MOST   12
#define JOINTS_TRIED 96

static const DryLength no_shift[] = {0};

guint
dry_tile_edges (const DryRegion *region, gboolean level, DryTileEdge out[2])
{
  DryRect r = dry_region_bounds (region);

  out[0] = (DryTileEdge){level ? r.y0 : r.x0, TRUE};
  out[1] = (DryTileEdge){level ? r.y1 : r.x1, FALSE};
  return 2;
}

/* --- level edges --- */

/* Legs reach below; the course that is seen starts at the basin. A tub out of level is drawn at its
 * low point: the course is cut down toward the high one. */
static void
add_level_edges (const DryTileRoom *room, const DryTileFace *tiled, GArray *edges)
{
  const DryFace *face = &room->faces->items[tiled->face];
  DryLength error = room->context->room->basin.rim_error;
  DryTileEdge two[2], high;

  dry_tile_edges (&tiled->region, TRUE, two);
  if (face->at_basin)
    two[0].at = MAX (two[0].at, face->deck + room->context->room->finish.joint);
  g_array_append_vals (edges, two, 2);
  if (!face->at_basin || error == 0)
    return;
  high = (DryTileEdge){two[0].at + error, TRUE};
  g_array_append_val (edges, high);
}

GArray *
dry_tile_level_edges (const DryTileRoom *room)
{
  GArray *edges = g_array_new (FALSE, FALSE, sizeof (DryTileEdge));

  for (guint i = 0; i < room->tiling->n_faces; i++)
    if (room->faces->items[room->tiling->faces[i].face].kind == DRY_FACE_WALL)
      add_level_edges (room, &room->tiling->faces[i], edges);
  return edges;
}

static DryLength
find_first_course (const DryTileRoom *room)
{
  DryLength lowest = DRY_LENGTH_MAX;

  for (guint i = 0; i < room->n_level; i++)
    if (room->level[i].low)
      lowest = MIN (lowest, room->level[i].at);
  return lowest;
}

static DryTileAxis
judge_level (const DryTileRoom *room, const DryTileModule *module, DryLength level)
{
  return dry_tile_judge_axis (room->level, room->n_level, no_shift, 1, level, module->height,
                              module->joint);
}

/* A whole course above the basin, unless something then gets less than half a tile. */
static void
choose_level (const DryTileRoom *room, const DryTileModule *module, DryTileChoice *choice)
{
  const DryFinish *finish = &room->context->room->finish;
  DryLength start = find_first_course (room);

  choice->whole = FALSE;
  if (finish->level_set)
    choice->level = finish->level;
  else if (room->n_level == 0)
    choice->level = 0;
  else if (2 * judge_level (room, module, start).smallest >= module->height) {
    choice->level = start;
    choice->whole = TRUE;
  } else
    choice->level = dry_tile_solve_axis (room->level, room->n_level, no_shift, 1, module->height,
                                         module->joint);
}

/* --- walls that courses go round --- */

typedef struct {
  guint index; /* in tiling->faces */
  DryTileEdge edges[2];
} Link;

typedef struct {
  Link links[CHAIN_MOST];
  guint n;
  gint given;    /* link whose start the user set, or -1 */
  gboolean loop; /* round the whole room */
} Chain;

static gint
find_tiled (const DryTiling *self, gint face)
{
  for (guint i = 0; i < self->n_faces; i++)
    if (self->faces[i].face == (guint) face)
      return (gint) i;
  return -1;
}

/* The wall round the inside corner at that end, both meeting each other; -1 = none. */
static gint
find_neighbour (const DryTileRoom *room, guint index, gboolean right)
{
  guint at = room->tiling->faces[index].face;
  const DryFace *face = &room->faces->items[at], *next;
  const DryFaceEnd *end = right ? &face->right : &face->left;

  if (!dry_tile_meets_inside (end))
    return -1;
  next = &room->faces->items[end->face];
  if (next->kind != DRY_FACE_WALL || (right ? next->left.face : next->right.face) != (gint) at)
    return -1;
  return find_tiled (room->tiling, end->face);
}

static void
add_link (const DryTileRoom *room, Chain *chain, guint index)
{
  const DryTileFace *tiled = &room->tiling->faces[index];
  const DryWall *wall =
      dry_room_get_wall (room->context->room, room->faces->items[tiled->face].wall);
  Link *link = &chain->links[chain->n];

  link->index = index;
  dry_tile_edges (&tiled->region, FALSE, link->edges);
  if (wall->tile_set && chain->given < 0)
    chain->given = (gint) chain->n;
  chain->n++;
}

/* The run of walls that holds `index`, from its left end; `taken` marks them. */
static void
gather_chain (const DryTileRoom *room, guint index, gboolean *taken, Chain *chain)
{
  guint first = index, steps = 0;
  gint next;

  *chain = (Chain){.given = -1};
  if (!room->context->room->finish.wrap) {
    taken[index] = TRUE;
    add_link (room, chain, index);
    return;
  }
  while ((next = find_neighbour (room, first, FALSE)) >= 0 && !taken[next] &&
         (guint) next != index && steps++ < CHAIN_MOST)
    first = (guint) next;
  for (next = (gint) first; next >= 0 && !taken[next] && chain->n < CHAIN_MOST;
       next = find_neighbour (room, (guint) next, TRUE)) {
    taken[next] = TRUE;
    add_link (room, chain, (guint) next);
  }
  chain->loop = next == (gint) first && chain->n > 1;
}

/* What is cut off at the corner, less the saw, begins the next wall. */
static DryLength
carry (const Link *from, const Link *to, DryLength start, const DryTileModule *module,
       gboolean right)
{
  DryLength width = module->width;
  DryLength cut = dry_tile_cut_at (from->edges[right], start, width, module->joint);
  DryLength rest = width - cut - DRY_TILE_KERF;

  if (rest < DRY_MM)
    rest = width;
  return right ? to->edges[0].at - (width - rest) : to->edges[1].at - rest;
}

static void
carry_all (const Chain *chain, const DryTileModule *module, guint from, DryLength start,
           DryLength starts[CHAIN_MOST])
{
  starts[from] = start;
  for (guint i = from + 1; i < chain->n; i++)
    starts[i] = carry (&chain->links[i - 1], &chain->links[i], starts[i - 1], module, TRUE);
  for (guint i = from; i-- > 0;)
    starts[i] = carry (&chain->links[i + 1], &chain->links[i], starts[i + 1], module, FALSE);
}

/* --- the best start of a run --- */

typedef struct {
  DryTileAxis ends; /* where the run stops */
  DryLength inner;  /* narrowest tile at a corner it goes round */
} Worth;

static Worth
judge_chain (const Chain *chain, const DryTileModule *module, const DryLength *starts)
{
  Worth worth = {.ends = {.smallest = module->width}, .inner = module->width};

  for (guint i = 0; i < chain->n; i++)
    for (guint side = 0; side < 2; side++) {
      gboolean end = !chain->loop && (side == 0 ? i == 0 : i + 1 == chain->n);
      DryTileAxis axis =
          dry_tile_judge_axis (&chain->links[i].edges[side], 1, module->shifts, module->n_shifts,
                               starts[i], module->width, module->joint);

      if (end) {
        worth.ends.smallest = MIN (worth.ends.smallest, axis.smallest);
        worth.ends.n_cut += axis.n_cut;
      } else
        worth.inner = MIN (worth.inner, axis.smallest);
    }
  return worth;
}

static gboolean
is_better (Worth a, Worth b, DryLength width)
{
  DryLength enough = MIN (DRY_TILE_SLIVER, width / 4);
  gboolean half_a = 2 * a.ends.smallest >= width, half_b = 2 * b.ends.smallest >= width;
  gboolean fair_a = a.inner >= enough, fair_b = b.inner >= enough;
  gint order;

  if (half_a != half_b)
    return half_a;
  if (!half_a && a.ends.smallest != b.ends.smallest)
    return a.ends.smallest > b.ends.smallest;
  if (fair_a != fair_b)
    return fair_a;
  order = dry_tile_compare_axes (a.ends, b.ends, width);
  return order != 0 ? order < 0 : a.inner > b.inner;
}

typedef struct {
  const Chain *chain;
  const DryTileModule *module;
  Worth best;
  gboolean any;
  DryLength starts[CHAIN_MOST];
} Search;

static void
try_starts (Search *self, const DryLength starts[CHAIN_MOST])
{
  Worth worth = judge_chain (self->chain, self->module, starts);

  if (self->any && !is_better (worth, self->best, self->module->width))
    return;
  self->any = TRUE;
  self->best = worth;
  memcpy (self->starts, starts, sizeof (DryLength) * CHAIN_MOST);
}

static void
try_start (Search *self, DryLength start)
{
  DryLength starts[CHAIN_MOST] = {0};

  carry_all (self->chain, self->module, 0, start, starts);
  try_starts (self, starts);
}

/* As on one wall, with all walls of the run laid end to end, the saw's width between them: what is
 * best there is tried in earnest. */
static void
search_chain (Search *self)
{
  const DryTileModule *module = self->module;
  DryTileEdge edges[2 * CHAIN_MOST];
  DryLength moved = 0, pitch = dry_tile_pitch_u (module);
  guint n = 0;

  for (guint i = 0; i < self->chain->n; i++) {
    const Link *link = &self->chain->links[i];

    if (i > 0)
      moved = edges[n - 1].at + DRY_TILE_KERF - link->edges[0].at;
    for (guint side = 0; side < 2; side++) {
      edges[n] = link->edges[side];
      edges[n++].at += moved;
    }
  }
  for (guint i = 0; i < n; i++)
    for (guint s = 0; s < module->n_shifts; s++) {
      try_start (self, edges[i].at - module->shifts[s]);
      try_start (self, edges[i].at - module->shifts[s] - module->width);
      for (guint k = 0; edges[i].low && k < n; k++)
        for (guint r = 0; !edges[k].low && r < module->n_shifts; r++) {
          DryLength twice =
              edges[i].at - module->shifts[s] + edges[k].at - module->shifts[r] - module->width;

          try_start (self, twice / 2);
          try_start (self, (twice + pitch) / 2);
        }
    }
}

/* A whole tile at an open end of the run; with two such ends the one that leaves the better cuts at
 * the other. */
static gboolean
start_whole (const DryTileRoom *room, Search *search)
{
  const Chain *chain = search->chain;
  guint last = chain->n - 1;
  DryLength starts[CHAIN_MOST] = {0};

  if (chain->loop)
    return FALSE;
  if (dry_tile_wants_whole (room, chain->links[0].index, FALSE))
    try_start (search, chain->links[0].edges[0].at);
  if (dry_tile_wants_whole (room, chain->links[last].index, TRUE)) {
    carry_all (chain, search->module, last, chain->links[last].edges[1].at - search->module->width,
               starts);
    try_starts (search, starts);
  }
  return search->any;
}

static void
choose_starts (const DryTileRoom *room, const DryTileModule *module, const Chain *chain,
               DryTileChoice *choice)
{
  Search search = {.chain = chain, .module = module};
  DryLength *starts = search.starts;
  DryTileEdge *edges = (DryTileEdge *) chain->links[0].edges;
  Worth worth;

  if (chain->given >= 0) {
    const DryTileFace *tiled = &room->tiling->faces[chain->links[chain->given].index];
    DryId wall = room->faces->items[tiled->face].wall;

    carry_all (chain, module, (guint) chain->given,
               dry_room_get_wall (room->context->room, wall)->tile_from, starts);
  } else if (start_whole (room, &search))
    starts = search.starts;
  else if (chain->n == 1)
    starts[0] = dry_tile_solve_axis (edges, 2, module->shifts, module->n_shifts, module->width,
                                     module->joint);
  else
    search_chain (&search);
  worth = judge_chain (chain, module, starts);
  choice->share = MIN (choice->share, (double) worth.ends.smallest / (double) module->width);
  choice->n_cut += worth.ends.n_cut;
  for (guint i = 0; i < chain->n; i++)
    choice->starts[chain->links[i].index] = starts[i];
}

/* --- the room --- */

static void
choose_layout (const DryTileRoom *room, const DryTileModule *module, DryTileChoice *choice)
{
  g_autofree gboolean *taken = g_new0 (gboolean, room->tiling->n_faces);
  DryTileAxis level;

  choice->share = 1;
  choice->n_cut = 0;
  choose_level (room, module, choice);
  level = judge_level (room, module, choice->level);
  choice->share = (double) level.smallest / (double) module->height;
  choice->n_cut = level.n_cut;
  for (guint i = 0; i < room->tiling->n_faces; i++) {
    Chain chain;

    if (taken[i] || room->faces->items[room->tiling->faces[i].face].kind != DRY_FACE_WALL)
      continue;
    gather_chain (room, i, taken, &chain);
    choose_starts (room, module, &chain, choice);
  }
}

/* Widths at which some stretch comes out in whole tiles, steps of 1/64 in, the ends of the range.
 */
static guint
list_joints (const DryTileRoom *room, DryLength least, DryLength most, DryLength *joints)
{
  const DryFinish *finish = &room->context->room->finish;
  DryTileModule module = dry_tile_module (finish, least);
  DryLength step = MAX (DRY_INCH_64, (most - least) / 32);
  guint n = 0;

  joints[n++] = CLAMP (finish->joint, least, most);
  joints[n++] = most;
  for (DryLength joint = least; joint < most; joint += step)
    joints[n++] = joint;
  for (guint i = 0; i < room->tiling->n_faces && n + 2 < JOINTS_TRIED; i++) {
    DryRect r = dry_region_bounds (&room->tiling->faces[i].region);
    const DryLength spans[] = {dry_rect_width (r), r.y1 - find_first_course (room)};
    const DryLength sizes[] = {module.width, module.height};

    if (room->faces->items[room->tiling->faces[i].face].kind != DRY_FACE_WALL)
      continue;
    for (guint a = 0; a < 2; a++) {
      gint64 tiles = (spans[a] + least) / (sizes[a] + least);

      if (tiles > 1)
        joints[n++] = (spans[a] - tiles * sizes[a]) / (tiles - 1);
    }
  }
  return n;
}

static gboolean
is_better_choice (const DryTileChoice *a, DryLength joint_a, const DryTileChoice *b,
                  DryLength joint_b, DryLength asked)
{
  gboolean half_a = a->share >= 0.5, half_b = b->share >= 0.5;

  if (half_a != half_b)
    return half_a;
  if (!half_a && ABS (a->share - b->share) > 1e-9)
    return a->share > b->share;
  if (a->n_cut != b->n_cut)
    return a->n_cut < b->n_cut;
  return ABS (joint_a - asked) < ABS (joint_b - asked);
}

static void
explain_joint (const DryTileRoom *room, DryLength joint, const DryTileChoice *choice)
{
  const DryPlanContext *context = room->context;
  DryLength asked = context->room->finish.joint;
  const char *is = dry_context_length (context, joint), *was = dry_context_length (context, asked);

  if (joint == asked)
    return;
  if (asked < room->tiling->least_joint && joint == room->tiling->least_joint)
    room->tiling->why_joint = dry_arena_printf (
        context->arena,
        "%s instead of %s: three times the variation of the tile's faces, and never under %s", is,
        was, dry_context_length (context, DRY_TILE_LEAST_JOINT));
  else
    room->tiling->why_joint = dry_arena_printf (
        context->arena, "%s instead of %s: the narrowest cut at an edge is then %d%% of a tile", is,
        was, (int) (choice->share * 100));
}

DryLength
dry_tile_choose (const DryTileRoom *room, DryTileChoice *choice)
{
  const DryFinish *finish = &room->context->room->finish;
  DryLength least = MAX (finish->joint_min, room->tiling->least_joint);
  DryLength joints[JOINTS_TRIED], joint = MAX (finish->joint, room->tiling->least_joint);
  /* The mesh of a sheet holds its chips as they are. */
  gboolean free_joint = finish->joint_max > least && finish->joint_max > finish->joint_min &&
                        dry_tile_is_grid (finish->pattern) && room->tiling->sheet_across == 0;
  guint n = free_joint ? list_joints (room, least, finish->joint_max, joints) : 0;
  /* Of the arena as the caller's is: the two change places. */
  DryTileChoice tried = {
      .starts = dry_arena_new_array (room->context->arena, DryLength, room->tiling->n_faces)};
  DryTileModule module = dry_tile_module (finish, n > 0 ? joints[0] : joint);

  joint = module.joint;
  choose_layout (room, &module, choice);
  for (guint i = 1; i < n; i++) {
    if (joints[i] < least || joints[i] > finish->joint_max)
      continue;
    module = dry_tile_module (finish, joints[i]);
    choose_layout (room, &module, &tried);
    if (is_better_choice (&tried, joints[i], choice, joint, finish->joint)) {
      DryTileChoice swap = *choice;

      *choice = tried;
      tried = swap;
      joint = joints[i];
    }
  }
  explain_joint (room, joint, choice);
  return joint;
}

gboolean
dry_tile_wants_whole (const DryTileRoom *room, guint index, gboolean right)
{
  const DryFace *face = &room->faces->items[room->tiling->faces[index].face];
  const DryWall *wall = dry_room_get_wall (room->context->room, face->wall);

  if (!dry_tile_is_grid (room->tiling->pattern) || !(right ? face->dry_right : face->dry_left))
    return FALSE;
  return wall->tile_ends == DRY_TILE_ENDS_WHOLE_OUTER ||
         (wall->tile_ends == DRY_TILE_ENDS_AS_ROOM && room->context->room->finish.whole_outer);
}

gboolean
dry_tile_goes_round (const DryTileRoom *room, guint index, gboolean right)
{
  return room->context->room->finish.wrap && dry_tile_is_grid (room->tiling->pattern) &&
         find_neighbour (room, index, right) >= 0;
}
