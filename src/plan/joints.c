/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Classifies every stretch of every board's boundary as exactly one kind of joint.
 * Looks at what lies just outside the edge; how joints are laid is joint-runs.c's matter. */
#include "plan/joints.h"

#include <math.h>

#include "base/error.h"
#include "plan/joint-count.h"
#include "plan/joint-runs.h"
#include "plan/outline.h"

/* How far an edge may stand from what it meets and still meet it. */
#define REACH (DRY_INCH / 2)

typedef struct {
  const DryPlanContext *context;
  const DryFaces *faces;
  const DryBoards *boards;
  GArray *items; /* DryJoint */
} Sorting;

/* What one stretch meets. */
typedef struct {
  DryJointKind kind;
  gint other_board, other_face;
  DryId object;
  DryLength gap;
} Meeting;

/* The stretch being looked at: its middle, and the way out of the board. */
typedef struct {
  const DryFace *face;
  const DryBoard *board;
  guint board_index;
  DryPoint middle;
  DryLength length;
  int out_x, out_y; /* signs; sloped edges count as the way they mostly face */
} Probe;

static DryPoint
step_out (const Probe *probe, DryLength by)
{
  return (DryPoint){probe->middle.x + probe->out_x * by, probe->middle.y + probe->out_y * by};
}

/* --- what may lie outside an edge --- */

static gboolean
meets_cutout (const Probe *probe, DryLength by, Meeting *meeting)
{
  DryPoint p = step_out (probe, by);

  for (guint i = 0; i < probe->face->n_cutouts; i++) {
    const DryCutout *cutout = &probe->face->cutouts[i];
    if (!dry_rect_contains (cutout->rough, p))
      continue;
    meeting->kind = cutout->kind == DRY_CUT_NICHE ? DRY_JOINT_NICHE : DRY_JOINT_OPENING;
    meeting->object = cutout->object;
    return TRUE;
  }
  return FALSE;
}

static gint
find_board_at (const DryBoards *boards, guint face, DryPoint p, gint except)
{
  for (guint i = 0; i < boards->n; i++)
    if ((gint) i != except && boards->items[i].face == face &&
        dry_rect_contains (boards->items[i].bounds, p) &&
        dry_outline_contains (&boards->items[i].shape, p))
      return (gint) i;
  return -1;
}

static gboolean
meets_board (const Sorting *self, const Probe *probe, Meeting *meeting)
{
  DryLength gap = self->context->system->joint_gap;
  const DryLength steps[] = {1, gap, gap + DRY_MM};

  for (guint i = 0; i < G_N_ELEMENTS (steps); i++) {
    gint other = find_board_at (self->boards, probe->face->index, step_out (probe, steps[i]),
                                (gint) probe->board_index);
    if (other < 0)
      continue;
    meeting->kind = DRY_JOINT_SEAM;
    meeting->other_board = other;
    meeting->gap = gap;
    return TRUE;
  }
  return FALSE;
}

/* Where on the neighbour the corner is: u a little inside its region. */
static DryLength
u_at_corner (const DryFace *neighbour, gboolean its_right)
{
  return its_right ? neighbour->right.at - neighbour->right.inset - REACH
                   : neighbour->left.at + neighbour->left.inset + REACH;
}

/* The end of a wall in the open. A half wall's is turned, like its top, and any added wall's. */
static DryJointKind
meet_open_end (const Sorting *self, const DryFace *face, gboolean dry)
{
  const DryWall *wall = dry_room_get_wall (self->context->room, face->wall);

  if (dry)
    return DRY_JOINT_DRYWALL;
  return face->height < self->context->room->ceiling || (wall && wall->added)
             ? DRY_JOINT_OUTSIDE_CORNER
             : DRY_JOINT_FREE;
}

static gboolean
meets_corner (const Sorting *self, const Probe *probe, Meeting *meeting)
{
  const DryFace *face = probe->face;
  gboolean right = probe->out_x > 0;
  const DryFaceEnd *end = right ? &face->right : &face->left;
  DryLength away = right ? end->at - probe->middle.x : probe->middle.x - end->at;

  /* Above a half wall the board may go past it: then it does not end there. */
  if (face->kind != DRY_FACE_WALL || probe->out_x == 0 || away > end->inset + REACH ||
      away < -REACH)
    return FALSE;
  gboolean dry = right ? face->dry_right : face->dry_left;
  meeting->kind = end->angle <= 0    ? meet_open_end (self, face, dry)
                  : end->angle < 180 ? DRY_JOINT_DRYWALL
                                     : DRY_JOINT_OUTSIDE_CORNER;
  meeting->gap = self->context->system->corner_gap;
  if (end->face < 0)
    return TRUE;
  const DryFace *neighbour = &self->faces->items[end->face];
  DryPoint there = {u_at_corner (neighbour, !right), probe->middle.y};
  if (!dry_region_contains (&neighbour->region, there))
    return TRUE;
  meeting->kind = end->angle < 180 ? DRY_JOINT_INSIDE_CORNER : DRY_JOINT_OUTSIDE_CORNER;
  meeting->other_face = end->face;
  meeting->other_board = find_board_at (self->boards, (guint) end->face, there, -1);
  return TRUE;
}

static gboolean
has_drywall (const Sorting *self, const DryFace *face)
{
  const DryWall *wall = dry_room_get_wall (self->context->room, face->wall);

  return !wall || wall->lining > 0;
}

static gint
find_ceiling (const Sorting *self)
{
  for (guint i = 0; i < self->faces->n; i++)
    if (self->faces->items[i].kind == DRY_FACE_CEILING)
      return (gint) i;
  return -1;
}

static DryId
basin_id (const Sorting *self)
{
  return self->context->room->basin.id;
}

/* Where the box of a built bench covers a face: on its own wall, and beside it where it runs into
 * the corner. A stretch seen from the wall is the bench's own joint. */
static gboolean
covers_with_bench (const Sorting *self, const DryFace *face, const DryPart *part, DryRect *box)
{
  DryLength lo = part->u - part->width / 2, hi = lo + part->width;
  const DryFace *own = dry_faces_get_wall (self->faces, part->wall, part->side);

  if (part->kind != DRY_PART_BENCH || part->fold_down || !own)
    return FALSE;
  *box = (DryRect){lo, 0, hi, part->z};
  if (own == face)
    return TRUE;
  if (own->left.face == (gint) face->index && lo <= own->left.at + REACH)
    *box = (DryRect){face->right.at - part->depth, 0, face->right.at, part->z};
  else if (own->right.face == (gint) face->index && hi >= own->right.at - REACH)
    *box = (DryRect){face->left.at, 0, face->left.at + part->depth, part->z};
  else
    return FALSE;
  return TRUE;
}

static gboolean
meets_bench (const Sorting *self, const Probe *probe, Meeting *meeting)
{
  const DryRoom *room = self->context->room;
  DryRect box;

  for (guint i = 0; i < room->n_parts; i++) {
    if (!covers_with_bench (self, probe->face, &room->parts[i], &box) ||
        !dry_rect_contains (box, step_out (probe, DRY_MM)))
      continue;
    meeting->kind = DRY_JOINT_INSIDE_CORNER;
    meeting->object = room->parts[i].id;
    meeting->gap = self->context->system->corner_gap;
    return TRUE;
  }
  return FALSE;
}

/* The upright edge of a leg beside the apron. */
static gboolean
meets_apron (const Sorting *self, const Probe *probe, Meeting *meeting)
{
  const DryFace *face = probe->face;

  if (!face->at_basin || probe->out_x == 0 ||
      probe->middle.y >= MAX (face->board_bottom, face->flange_top))
    return FALSE;
  if (probe->out_x > 0 ? probe->middle.x > face->basin_u0 : probe->middle.x < face->basin_u1)
    return FALSE;
  meeting->kind = DRY_JOINT_BASIN;
  meeting->object = basin_id (self);
  meeting->gap =
      probe->out_x > 0 ? face->basin_u0 - probe->middle.x : probe->middle.x - face->basin_u1;
  return TRUE;
}

/* The board stands on the top of a half wall that meets this one. */
static gboolean
stands_on_half_wall (const Sorting *self, const DryFace *face, DryLength x)
{
  const DryFaceEnd *ends[] = {&face->left, &face->right};

  for (guint i = 0; i < G_N_ELEMENTS (ends); i++)
    if (ends[i]->face >= 0 && self->faces->items[ends[i]->face].height < face->height &&
        (i ? x > ends[i]->at : x < ends[i]->at))
      return TRUE;
  return FALSE;
}

static void
meet_below (const Sorting *self, const Probe *probe, Meeting *meeting)
{
  const DryFace *face = probe->face;
  DryPoint at = probe->middle;

  if (at.y <= 2 * REACH) {
    meeting->kind = DRY_JOINT_FLOOR;
    meeting->gap = MAX (at.y, 0);
  } else if (face->at_basin && at.x >= face->basin_u0 - REACH && at.x <= face->basin_u1 + REACH &&
             at.y <= MAX (face->board_bottom, face->flange_top) + REACH) {
    meeting->kind = DRY_JOINT_BASIN;
    meeting->object = basin_id (self);
    DryLength datum =
        self->context->system->basin_datum == DRY_DATUM_FLANGE_TOP ? face->flange_top : face->deck;
    meeting->gap = MAX (at.y - datum, 0);
  } else if (stands_on_half_wall (self, face, at.x)) {
    meeting->kind = DRY_JOINT_INSIDE_CORNER;
    meeting->gap = self->context->system->corner_gap;
  } else {
    meeting->kind = has_drywall (self, face) ? DRY_JOINT_DRYWALL : DRY_JOINT_FREE;
  }
}

static void
meet_above (const Sorting *self, const Probe *probe, Meeting *meeting)
{
  const DryFace *face = probe->face;
  DryLength ceiling = self->context->room->ceiling;
  gint over = find_ceiling (self);

  if (probe->middle.y < face->height - 2 * REACH && probe->out_x == 0 && face->dry_above) {
    meeting->kind = has_drywall (self, face) ? DRY_JOINT_DRYWALL : DRY_JOINT_FREE;
  } else if (face->height < ceiling) {
    meeting->kind = DRY_JOINT_OUTSIDE_CORNER; /* top of a half wall */
  } else if (probe->middle.y < face->height - 2 * REACH && !face->dry_above) {
    meeting->kind = DRY_JOINT_FREE;
  } else if (over >= 0) {
    meeting->kind = DRY_JOINT_INSIDE_CORNER;
    meeting->other_face = over;
    meeting->gap = self->context->system->corner_gap;
  } else {
    meeting->kind = DRY_JOINT_CEILING;
    meeting->gap = MAX (face->height - probe->middle.y, 0);
  }
}

/* Ceiling, bench and niche say themselves what their four sides meet. */
static void
meet_side_of_small_face (const Probe *probe, Meeting *meeting)
{
  const DryFace *face = probe->face;
  guint side = probe->out_x < 0 ? 0 : probe->out_y > 0 ? 1 : probe->out_x > 0 ? 2 : 3;

  meeting->kind = face->edges[side];
  meeting->object = face->object;
}

static Meeting
look_outside (const Sorting *self, const Probe *probe)
{
  Meeting meeting = {.kind = DRY_JOINT_FREE, .other_board = -1, .other_face = -1};

  if (meets_cutout (probe, 1, &meeting) || meets_board (self, probe, &meeting) ||
      meets_cutout (probe, REACH, &meeting))
    return meeting;
  if (probe->face->kind != DRY_FACE_WALL) {
    meet_side_of_small_face (probe, &meeting);
    return meeting;
  }
  if (meets_bench (self, probe, &meeting) || meets_apron (self, probe, &meeting) ||
      meets_corner (self, probe, &meeting))
    return meeting;
  /* Where gaps cross there is no board opposite, yet the region goes on: still the seam. */
  if (probe->length <= self->context->system->joint_gap + DRY_MM &&
      dry_region_contains (&probe->face->region, step_out (probe, 1))) {
    meeting.kind = DRY_JOINT_SEAM;
    meeting.gap = self->context->system->joint_gap;
    return meeting;
  }
  if (probe->out_y < 0)
    meet_below (self, probe, &meeting);
  else if (probe->out_y > 0)
    meet_above (self, probe, &meeting);
  else if (has_drywall (self, probe->face)) {
    meeting.kind = DRY_JOINT_DRYWALL;
    meeting.gap = self->context->system->joint_gap;
  }
  return meeting;
}

/* --- splitting an edge where its neighbour changes --- */

static void
add_mark (GArray *marks, const DryOutlineEdge *edge, DryLength coordinate)
{
  gboolean vertical = dry_outline_edge_is_vertical (edge);
  DryLength a = vertical ? edge->from.y : edge->from.x, b = vertical ? edge->to.y : edge->to.x;

  if (coordinate > MIN (a, b) && coordinate < MAX (a, b))
    g_array_append_val (marks, coordinate);
}

static void
add_rect_marks (GArray *marks, const DryOutlineEdge *edge, DryRect rect)
{
  gboolean vertical = dry_outline_edge_is_vertical (edge);

  add_mark (marks, edge, vertical ? rect.y0 : rect.x0);
  add_mark (marks, edge, vertical ? rect.y1 : rect.x1);
}

static void
add_ring_marks (GArray *marks, const DryOutlineEdge *edge, const DryRing *ring)
{
  for (guint i = 0; i < ring->n_points; i++)
    add_mark (marks, edge,
              dry_outline_edge_is_vertical (edge) ? ring->points[i].y : ring->points[i].x);
}

static void
add_region_marks (GArray *marks, const DryOutlineEdge *edge, const DryRegion *region)
{
  for (guint i = 0; i < region->n_polygons; i++) {
    add_ring_marks (marks, edge, &region->polygons[i].outer);
    for (guint j = 0; j < region->polygons[i].n_holes; j++)
      add_ring_marks (marks, edge, &region->polygons[i].holes[j]);
  }
}

static int
compare_lengths (gconstpointer a, gconstpointer b)
{
  DryLength x = *(const DryLength *) a, y = *(const DryLength *) b;

  return x < y ? -1 : x > y;
}

/* Every coordinate along the edge at which its neighbour may change, ascending. */
static GArray *
find_marks (const Sorting *self, const Probe *probe, const DryOutlineEdge *edge)
{
  GArray *marks = g_array_new (FALSE, FALSE, sizeof (DryLength));
  const DryFace *face = probe->face;
  const gint ends[] = {face->left.face, face->right.face};

  for (guint i = 0; i < self->boards->n; i++)
    if (i != probe->board_index && self->boards->items[i].face == face->index)
      add_ring_marks (marks, edge, &self->boards->items[i].shape.outer);
  for (guint i = 0; i < face->n_cutouts; i++)
    add_rect_marks (marks, edge, face->cutouts[i].rough);
  add_region_marks (marks, edge, &face->region);
  if (dry_outline_edge_is_vertical (edge)) {
    for (guint i = 0; i < G_N_ELEMENTS (ends); i++)
      if (ends[i] >= 0)
        add_region_marks (marks, edge, &self->faces->items[ends[i]].region);
    add_mark (marks, edge, MAX (face->board_bottom, face->flange_top));
  } else {
    add_mark (marks, edge, face->basin_u0 - REACH);
    add_mark (marks, edge, face->basin_u1 + REACH);
  }
  g_array_sort (marks, compare_lengths);
  return marks;
}

static DryPoint
point_along (const DryOutlineEdge *edge, DryLength coordinate)
{
  DryPoint a = edge->from, b = edge->to;

  if (a.x == b.x)
    return (DryPoint){a.x, coordinate};
  if (a.y == b.y)
    return (DryPoint){coordinate, a.y};
  return (DryPoint){coordinate,
                    a.y + (DryLength) ((__int128) (b.y - a.y) * (coordinate - a.x) / (b.x - a.x))};
}

static gboolean
is_same_meeting (const DryJoint *joint, const Meeting *meeting)
{
  return joint->kind == meeting->kind && joint->other_board == meeting->other_board &&
         joint->other_face == meeting->other_face && joint->object == meeting->object;
}

static void
add_stretch (Sorting *self, Probe *probe, DryPoint from, DryPoint to, gboolean first)
{
  probe->middle = (DryPoint){from.x + (to.x - from.x) / 2, from.y + (to.y - from.y) / 2};
  probe->length = dry_point_distance (from, to);
  Meeting meeting = look_outside (self, probe);
  DryJoint *last = first ? NULL : &g_array_index (self->items, DryJoint, self->items->len - 1);

  if (last && is_same_meeting (last, &meeting)) {
    last->to = to;
    last->length = dry_point_distance (last->from, to);
    return;
  }
  DryJoint joint = {
      .kind = meeting.kind,
      .face = probe->board->face,
      .from = from,
      .to = to,
      .board = (gint) probe->board_index,
      .other_board = meeting.other_board,
      .other_face = meeting.other_face,
      .object = meeting.object,
      .length = probe->length,
      .gap = meeting.gap,
      .counted = TRUE,
  };
  g_array_append_val (self->items, joint);
}

static void
sort_edge (Sorting *self, Probe *probe, const DryOutlineEdge *edge)
{
  DryLength dx = edge->to.x - edge->from.x, dy = edge->to.y - edge->from.y;
  gboolean backward = dx == 0 ? dy < 0 : dx < 0;
  g_autoptr (GArray) marks = find_marks (self, probe, edge);
  DryPoint from = edge->from;
  gboolean first = TRUE;

  /* out is on the right of the walk: (dy, -dx) */
  probe->out_x = ABS (dy) > ABS (dx) ? (dy > 0 ? 1 : -1) : 0;
  probe->out_y = probe->out_x ? 0 : (dx > 0 ? -1 : 1);
  for (guint i = 0; i <= marks->len; i++) {
    DryPoint to = i == marks->len
                      ? edge->to
                      : point_along (edge, g_array_index (marks, DryLength,
                                                          backward ? marks->len - 1 - i : i));
    if (to.x == from.x && to.y == from.y)
      continue;
    add_stretch (self, probe, from, to, first);
    first = FALSE;
    from = to;
  }
}

/* --- pipes and counting --- */

static void
add_penetrations (Sorting *self, const Probe *probe)
{
  for (guint i = 0; i < probe->board->n_holes; i++) {
    const DryHole *hole = &probe->board->holes[i];
    DryJoint joint = {
        .kind = DRY_JOINT_PENETRATION,
        .face = probe->board->face,
        .from = hole->centre,
        .to = hole->centre,
        .board = (gint) probe->board_index,
        .other_board = -1,
        .other_face = -1,
        .object = hole->object,
        .length = (DryLength) llround (G_PI * (double) hole->diameter),
        .counted = TRUE,
    };
    for (guint j = 0; j < self->items->len; j++) { /* a seam may cross the hole */
      const DryJoint *other = &g_array_index (self->items, DryJoint, j);
      if (other->kind == DRY_JOINT_PENETRATION && other->face == joint.face &&
          other->from.x == joint.from.x && other->from.y == joint.from.y)
        joint.counted = FALSE;
    }
    g_array_append_val (self->items, joint);
  }
}

/* A wall floated in place has no boards; each stretch of its region then counts as one. */
static const DryBoards *
take_regions_as_boards (const DryPlanContext *context, const DryFaces *faces)
{
  DryBoards *self = dry_arena_alloc (context->arena, sizeof *self);
  GArray *items = g_array_new (FALSE, TRUE, sizeof (DryBoard));

  for (guint i = 0; i < faces->n; i++) {
    const DryFace *face = &faces->items[i];
    for (guint j = 0; j < face->region.n_polygons; j++) {
      DryBoard board = {.index = items->len, .face = i, .shape = face->region.polygons[j]};
      board.bounds = dry_ring_bounds (&board.shape.outer);
      if (j == 0) { /* once a face */
        board.holes = face->holes;
        board.n_holes = face->n_holes;
      }
      g_array_append_val (items, board);
    }
  }
  self->n = items->len;
  self->items = dry_arena_take_array (context->arena, items);
  return self;
}

const DryJoints *
dry_joints_compute (const DryPlanContext *context, const DryFaces *faces, const DryBoards *boards,
                    GError **error)
{
  DryJoints *self = dry_arena_alloc (context->arena, sizeof *self);
  gboolean floated = context->system->n_sheets == 0;
  GArray *items = g_array_new (FALSE, FALSE, sizeof (DryJoint));

  if (floated)
    boards = take_regions_as_boards (context, faces);
  Sorting sorting = {context, faces, boards, items};

  for (guint i = 0; i < boards->n; i++) {
    Probe probe = {
        .face = &faces->items[boards->items[i].face], .board = &boards->items[i], .board_index = i};
    g_autoptr (GArray) edges = dry_outline_edges (&boards->items[i].shape);
    for (guint j = 0; j < edges->len; j++)
      sort_edge (&sorting, &probe, &g_array_index (edges, DryOutlineEdge, j));
    add_penetrations (&sorting, &probe);
    if (g_cancellable_is_cancelled (context->cancellable)) {
      g_array_unref (sorting.items);
      g_set_error_literal (error, DRY_ERROR, DRY_ERROR_CANCELLED, "A newer project took its place");
      return NULL;
    }
  }
  dry_joints_count_once (sorting.items, faces);
  self->n = sorting.items->len;
  self->items = dry_arena_take_array (context->arena, sorting.items);
  for (guint i = 0; floated && i < self->n; i++)
    self->items[i].board = self->items[i].other_board = -1;
  for (guint i = 0; i < self->n; i++)
    if (self->items[i].counted)
      self->total[self->items[i].kind] += self->items[i].length;
  dry_joint_runs_lay (self, context, faces);
  return self;
}
