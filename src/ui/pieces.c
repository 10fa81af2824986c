/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Boards and seams of a wall, one by one: finds them in the plan by a point on them, because which
 * there are and what they are called changes with every plan. */
#include "ui/pieces.h"

/* --- which there are --- */

static DryPieceRef
ref_board (const DryFace *face, const DryBoard *board)
{
  const DryRing *ring = &board->shape.outer;
  DryRect r = board->bounds;
  DryPoint middle = {r.x0 + (r.x1 - r.x0) / 2, r.y0 + (r.y1 - r.y0) / 2};
  DryPieceRef ref = {.kind = DRY_PIECE_BOARD, .wall = face->wall, .side = face->side, .at = middle};
  gboolean inside = dry_ring_contains (ring, middle);

  for (guint i = 0; i < board->shape.n_holes; i++)
    inside = inside && !dry_ring_contains (&board->shape.holes[i], middle);
  /* Round an opening or a step: a point just inside its first corner's neighborhood. */
  for (guint i = 0; i < 16 && !inside; i++) {
    DryPoint p = {r.x0 + (r.x1 - r.x0) * (1 + i % 4 * 2) / 8,
                  r.y0 + (r.y1 - r.y0) * (1 + i / 4 * 2) / 8};

    inside = dry_ring_contains (ring, p);
    for (guint h = 0; h < board->shape.n_holes; h++)
      inside = inside && !dry_ring_contains (&board->shape.holes[h], p);
    if (inside)
      ref.at = p;
  }
  return ref;
}

static DryPieceRef
ref_seam (const DryFace *face, const DrySeam *seam)
{
  return (DryPieceRef){.kind = DRY_PIECE_SEAM,
                       .wall = face->wall,
                       .side = face->side,
                       .level = !seam->vertical,
                       .at = {seam->from.x + (seam->to.x - seam->from.x) / 2,
                              seam->from.y + (seam->to.y - seam->from.y) / 2}};
}

static gint
compare_refs (gconstpointer a, gconstpointer b)
{
  const DryPieceRef *left = a, *right = b;
  const gint64 keys[][2] = {{left->side, right->side},
                            {left->kind, right->kind},
                            {left->at.x, right->at.x},
                            {left->at.y, right->at.y}};

  for (guint i = 0; i < G_N_ELEMENTS (keys); i++)
    if (keys[i][0] != keys[i][1])
      return keys[i][0] < keys[i][1] ? -1 : 1;
  return 0;
}

static const DryFace *
wall_face (const DryPlan *plan, guint index, DryId wall)
{
  const DryFace *face = &plan->faces->items[index];

  return face->kind == DRY_FACE_WALL && face->wall == wall ? face : NULL;
}

GArray *
dry_pieces_list (const DryPlan *plan, DryId wall)
{
  GArray *list = g_array_new (FALSE, FALSE, sizeof (DryPieceRef));
  const DryFace *face;

  for (guint i = 0; plan != NULL && i < plan->boards->n; i++)
    if ((face = wall_face (plan, plan->boards->items[i].face, wall)) != NULL) {
      DryPieceRef ref = ref_board (face, &plan->boards->items[i]);
      g_array_append_val (list, ref);
    }
  for (guint i = 0; plan != NULL && i < plan->boards->n_seams; i++)
    if ((face = wall_face (plan, plan->boards->seams[i].face, wall)) != NULL) {
      DryPieceRef ref = ref_seam (face, &plan->boards->seams[i]);
      g_array_append_val (list, ref);
    }
  g_array_sort (list, compare_refs);
  return list;
}

gboolean
dry_piece_equal (const DryPieceRef *a, const DryPieceRef *b)
{
  return a->kind == b->kind && a->wall == b->wall && a->side == b->side && a->level == b->level &&
         a->at.x == b->at.x && a->at.y == b->at.y;
}

/* --- what is there --- */

static const DryFace *
face_of (const DryPlan *plan, const DryPieceRef *self)
{
  return plan != NULL ? dry_faces_get_wall (plan->faces, self->wall, self->side) : NULL;
}

const DryBoard *
dry_piece_get_board (const DryPlan *plan, const DryPieceRef *self)
{
  const DryFace *face = face_of (plan, self);

  for (guint i = 0; face != NULL && self->kind == DRY_PIECE_BOARD && i < plan->boards->n; i++) {
    const DryBoard *board = &plan->boards->items[i];

    if (board->face == face->index && dry_ring_contains (&board->shape.outer, self->at))
      return board;
  }
  return NULL;
}

const DrySeam *
dry_piece_get_seam (const DryPlan *plan, const DryPieceRef *self)
{
  const DryFace *face = face_of (plan, self);
  DryLength gap = plan != NULL ? plan->context.system->joint_gap : 0;

  for (guint i = 0; face != NULL && self->kind == DRY_PIECE_SEAM && i < plan->boards->n_seams;
       i++) {
    const DrySeam *seam = &plan->boards->seams[i];

    if (seam->face == face->index && seam->vertical != self->level &&
        self->at.x >= seam->from.x - (self->level ? gap : 0) &&
        self->at.x <= seam->to.x + (self->level ? gap : 0) &&
        self->at.y >= seam->from.y - (self->level ? 0 : gap) &&
        self->at.y <= seam->to.y + (self->level ? 0 : gap))
      return seam;
  }
  return NULL;
}

gboolean
dry_piece_meant_same (const DryPlan *plan, const DryPieceRef *a, const DryPieceRef *b)
{
  if (dry_piece_equal (a, b))
    return TRUE;
  if (a->kind != b->kind || a->wall != b->wall || a->side != b->side || a->level != b->level)
    return FALSE;
  if (a->kind == DRY_PIECE_BOARD)
    return dry_piece_get_board (plan, a) != NULL &&
           dry_piece_get_board (plan, a) == dry_piece_get_board (plan, b);
  return dry_piece_get_seam (plan, a) != NULL &&
         dry_piece_get_seam (plan, a) == dry_piece_get_seam (plan, b);
}

DryLength
dry_piece_get_at (const DryPieceRef *self)
{
  return self->level ? self->at.y : self->at.x;
}

static DryLength
get_through (const DryPieceRef *self)
{
  return self->level ? self->at.x : self->at.y;
}

DryPieceRef
dry_piece_moved_to (const DryPieceRef *self, DryLength at)
{
  DryPieceRef moved = *self;

  *(self->level ? &moved.at.y : &moved.at.x) = at;
  return moved;
}

DryPieceRef
dry_piece_of_wish (const DrySeamWish *wish)
{
  return (DryPieceRef){.kind = DRY_PIECE_SEAM,
                       .wall = wish->wall,
                       .side = wish->side,
                       .level = wish->level,
                       .at = wish->level ? (DryPoint){wish->through, wish->at}
                                         : (DryPoint){wish->at, wish->through}};
}

const DrySeamWish *
dry_piece_get_wish (const DryRoom *room, const DryPlan *plan, const DryPieceRef *self)
{
  const DrySeam *seam = dry_piece_get_seam (plan, self);
  const DrySeamWish *wish =
      seam != NULL && room != NULL ? dry_room_get_seam (room, seam->wish) : NULL;

  if (wish != NULL && wish->at == dry_piece_get_at (self))
    return wish;
  for (guint i = 0; room != NULL && self->kind == DRY_PIECE_SEAM && i < room->n_seams; i++) {
    wish = &room->seams[i];
    if (wish->wall == self->wall && wish->side == self->side && wish->level == self->level &&
        wish->at == dry_piece_get_at (self) && wish->through == get_through (self))
      return wish;
  }
  return NULL;
}

gboolean
dry_piece_get_rect (const DryPlan *plan, const DryRoom *room, const DryPieceRef *self,
                    DryRect *rect)
{
  const DryBoard *board = dry_piece_get_board (plan, self);
  const DrySeam *seam = dry_piece_get_seam (plan, self);

  if (board != NULL)
    *rect = board->bounds;
  else if (seam != NULL)
    *rect = (DryRect){seam->from.x, seam->from.y, seam->to.x, seam->to.y};
  else if (dry_piece_get_wish (room, plan, self) != NULL)
    *rect = (DryRect){self->at.x - (self->level ? 6 * DRY_INCH : 0),
                      self->at.y - (self->level ? 0 : 6 * DRY_INCH),
                      self->at.x + (self->level ? 6 * DRY_INCH : 0),
                      self->at.y + (self->level ? 0 : 6 * DRY_INCH)};
  else
    return FALSE;
  return TRUE;
}

guint
dry_piece_find_sheet (const DryPlan *plan, const DryBoard *board, const DryStock **stock)
{
  const DryCutting *cutting = plan->boards->cutting;
  guint sheet = dry_cutting_find_sheet (cutting, board->mark);

  if (sheet > 0)
    *stock = &cutting->stock[cutting->sheets[sheet - 1].stock];
  return sheet;
}
