/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Writes the chosen layout of a face out: exact shapes of the boards with marks and holes, seams
 * with what carries them, blocking and second studs to be set. Chooses nothing. */
#define G_LOG_DOMAIN "plan"

#include <stdlib.h>

#include "plan/boards-private.h"

/* --- boards --- */

static gint
compare_boards (gconstpointer a, gconstpointer b)
{
  const DryRect *left = &((const DryBoard *) a)->bounds, *right = &((const DryBoard *) b)->bounds;
  if (left->y0 != right->y0)
    return left->y0 < right->y0 ? -1 : 1;
  return left->x0 < right->x0 ? -1 : left->x0 > right->x0;
}

static gboolean
polygon_contains (const DryPolygon *polygon, DryPoint p)
{
  if (!dry_ring_contains (&polygon->outer, p))
    return FALSE;
  for (guint h = 0; h < polygon->n_holes; h++)
    if (dry_ring_contains (&polygon->holes[h], p)) {
      /* On the rim of the opening is still in the board. */
      DryRect r = dry_ring_bounds (&polygon->holes[h]);
      if (p.x > r.x0 && p.x < r.x1 && p.y > r.y0 && p.y < r.y1)
        return FALSE;
    }
  return TRUE;
}

static double
reckon_distance2 (DryRect r, DryPoint p)
{
  double x = p.x < r.x0 ? (double) (r.x0 - p.x) : p.x > r.x1 ? (double) (p.x - r.x1) : 0;
  double y = p.y < r.y0 ? (double) (r.y0 - p.y) : p.y > r.y1 ? (double) (p.y - r.y1) : 0;
  return x * x + y * y;
}

/* The board that holds the hole's centre; in the gap between two the nearer one. Holes off the
 * boarded part belong to none. */
static gint
find_board (const DryBoardFace *self, const DryBoard *boards, guint n, const DryHole *hole)
{
  for (guint i = 0; i < n; i++)
    if (polygon_contains (&boards[i].shape, hole->centre))
      return (gint) i;
  gint best = -1;
  double least = 0;
  if (!dry_region_contains (&self->face->region, hole->centre))
    return -1;
  for (guint i = 0; i < n; i++) {
    double away = reckon_distance2 (boards[i].bounds, hole->centre);
    if (best < 0 || away < least) {
      best = (gint) i;
      least = away;
    }
  }
  return best;
}

static void
share_holes (const DryBoardFace *self, DryBoard *boards, guint n)
{
  const DryFace *face = self->face;
  g_autofree gint *owner = g_new (gint, face->n_holes + 1);
  for (guint h = 0; h < face->n_holes; h++)
    owner[h] = find_board (self, boards, n, &face->holes[h]);
  for (guint i = 0; i < n; i++) {
    GArray *holes = g_array_new (FALSE, FALSE, sizeof (DryHole));
    for (guint h = 0; h < face->n_holes; h++)
      if (owner[h] == (gint) i)
        g_array_append_val (holes, face->holes[h]);
    boards[i].n_holes = holes->len;
    boards[i].holes = dry_arena_take_array (self->context->arena, holes);
  }
}

static void
write_boards (DryBoardWriter *self, const DryBoardFace *face, const DryLayout *layout)
{
  DryArena *arena = face->context->arena;
  g_autoptr (GArray) boards = g_array_new (FALSE, TRUE, sizeof (DryBoard));
  for (guint s = 0; s <= layout->across.n; s++)
    for (guint c = 0; c <= layout->strips[s].n; c++) {
      DryRect cell = dry_board_cell (face, layout, s, c);
      if (dry_rect_is_empty (cell))
        continue;
      DryRegion sheet = dry_region_from_rect (arena, cell);
      DryRegion parts = dry_region_intersection (arena, &face->face->region, &sheet);
      for (guint p = 0; p < parts.n_polygons; p++) {
        DryBoard board = {.face = face->face->index,
                          .shape = parts.polygons[p],
                          .bounds = dry_ring_bounds (&parts.polygons[p].outer)};
        g_array_append_val (boards, board);
      }
    }
  g_array_sort (boards, compare_boards);
  share_holes (face, (DryBoard *) boards->data, boards->len);
  for (guint i = 0; i < boards->len; i++) {
    DryBoard *board = &g_array_index (boards, DryBoard, i);
    board->index = self->boards->len;
    board->mark = dry_arena_printf (arena, "%s%u", face->face->mark, i + 1);
    g_array_append_val (self->boards, *board);
  }
}

/* --- blocking --- */

static void
add_member (DryBoardWriter *self, const DryBoardFace *face, DryMemberKind kind, DryRect rect,
            const char *reason)
{
  DryMember member = {
      .face = face->face->index, .kind = kind, .rect = rect, .added = TRUE, .reason = reason};
  if (dry_rect_is_empty (rect))
    return;
  for (guint i = 0; i < self->blocking->len; i++) {
    const DryMember *other = &g_array_index (self->blocking, DryMember, i);
    if (other->face == member.face && other->kind == kind && other->rect.x0 == rect.x0 &&
        other->rect.x1 == rect.x1 && other->rect.y0 <= rect.y0 && other->rect.y1 >= rect.y1)
      return;
  }
  g_array_append_val (self->blocking, member);
}

typedef struct {
  DryLength low, high;
} Span;

static gint
compare_spans (gconstpointer a, gconstpointer b)
{
  const Span *left = a, *right = b;
  return left->low < right->low ? -1 : left->low > right->low;
}

/* What stands or lies behind the level seam already. */
static void
list_backed (const DryBoardFace *face, const DrySeam *seam, GArray *spans)
{
  DryLength z = seam->from.y, need = face->gap_high + seam->edge_distance;
  for (guint i = 0; i < face->framing->n; i++) {
    const DryMember *member = &face->framing->items[i];
    gboolean lies = member->kind == DRY_MEMBER_PLATE || member->kind == DRY_MEMBER_HEADER ||
                    member->kind == DRY_MEMBER_SILL || member->kind == DRY_MEMBER_BLOCKING;
    if (member->face != face->face->index)
      continue;
    if (lies ? (member->rect.y0 > z - need || member->rect.y1 < z + need)
             : (member->rect.y0 >= z || member->rect.y1 <= z))
      continue;
    Span span = {member->rect.x0, member->rect.x1};
    g_array_append_val (spans, span);
  }
  g_array_sort (spans, compare_spans);
}

/* Never across a niche or window: between its trimmers there is nothing to fix blocking to. */
static DryRect
keep_off_cutouts (const DryBoardFace *face, DryRect block, const DrySeam *seam)
{
  for (guint i = 0; i < face->face->n_cutouts; i++) {
    DryRect rough = face->face->cutouts[i].rough;
    if (!dry_rect_overlaps (rough, block))
      continue;
    if (rough.x1 <= seam->from.x)
      block.x0 = MAX (block.x0, rough.x1);
    else if (rough.x0 >= seam->to.x)
      block.x1 = MIN (block.x1, rough.x0);
    else if (rough.y1 <= seam->from.y)
      block.y0 = MAX (block.y0, rough.y1);
    else
      block.y1 = MIN (block.y1, rough.y0);
  }
  return block;
}

static void
block_level_seam (DryBoardWriter *self, const DryBoardFace *face, const DrySeam *seam)
{
  g_autoptr (GArray) spans = g_array_new (FALSE, FALSE, sizeof (Span));
  DryLength z = seam->from.y, at = MIN (seam->from.x, 0);
  if (!face->seams_anywhere)
    list_backed (face, seam, spans);
  Span end = {MAX (seam->to.x, face->face->length), MAX (seam->to.x, face->face->length)};
  g_array_append_val (spans, end);
  for (guint i = 0; i < spans->len; i++) {
    Span span = g_array_index (spans, Span, i);
    DryRect block = {at, z - face->block_half, span.low, z + face->block_half};
    at = MAX (at, span.high);
    if (block.x0 >= block.x1 || block.x1 <= seam->from.x || block.x0 >= seam->to.x)
      continue;
    if (face->seams_anywhere) {
      block.x0 = seam->from.x;
      block.x1 = seam->to.x;
    }
    add_member (self, face, DRY_MEMBER_BLOCKING, keep_off_cutouts (face, block, seam),
                "backs a level seam between the studs");
  }
}

/* --- seams --- */

/* A stud behind the seam; beside the one that stands too near to take it in the middle. `bearing`
 * is what the board with less of them has on both. */
static DryRect
place_stud (const DryBoardFace *face, const DrySeam *seam, DryLength *bearing)
{
  DryLength x = seam->from.x, half = DRY_INCH * 3 / 4;
  DryRect stud = {x - half, seam->from.y, x + half, seam->to.y};
  DryLength low = stud.x0, high = stud.x1;
  for (guint i = 0; i < face->framing->n; i++) {
    const DryMember *member = &face->framing->items[i];
    if (member->face != face->face->index || !dry_rect_overlaps (member->rect, stud) ||
        dry_rect_width (member->rect) > dry_rect_height (member->rect))
      continue;
    DryLength shift = 2 * x > member->rect.x0 + member->rect.x1 ? member->rect.x1 - stud.x0
                                                                : member->rect.x0 - stud.x1;
    stud.x0 += shift;
    stud.x1 += shift;
    low = MIN (stud.x0, member->rect.x0);
    high = MAX (stud.x1, member->rect.x1);
    break;
  }
  *bearing = MAX (MIN (x - low - face->gap_low, high - x - face->gap_high), 0);
  return stud;
}

static void
carry_upright_seam (DryBoardWriter *self, const DryBoardFace *face, DrySeam *seam)
{
  const DryCarrier *carrier = dry_board_find_carrier (face, seam->from.x, seam->from.y, seam->to.y);
  if (carrier != NULL) {
    seam->member = carrier->member;
    seam->bearing = dry_board_bearing_at (carrier, seam->from.x);
    dry_board_fit_distance (face->context->system, seam->bearing, &seam->edge_distance);
    seam->needs_second_stud = carrier->second;
    if (carrier->second)
      add_member (self, face, DRY_MEMBER_STUD, carrier->twin,
                  "second stud, so that both boards of a seam can be fastened");
    return;
  }
  seam->needs_second_stud = TRUE;
  DryRect stud = place_stud (face, seam, &seam->bearing);
  dry_board_fit_distance (face->context->system, seam->bearing, &seam->edge_distance);
  add_member (self, face, DRY_MEMBER_STUD, stud, "carries a seam that has no stud behind it");
}

/* The nearest middle of a stud the seam might be moved to. */
static void
measure_off_stud (const DryBoardFace *face, DrySeam *seam)
{
  DryLength best = G_MAXINT64;
  seam->stud_at = -1;
  for (guint i = 0; i < face->n_carriers; i++) {
    const DryCarrier *carrier = &face->carriers[i];
    DryLength away = ABS (carrier->at - seam->from.x);
    if (carrier->y0 > seam->from.y || carrier->y1 < seam->to.y || away >= best)
      continue;
    best = away;
    seam->stud_at = carrier->at;
    seam->off_stud = away;
    seam->off_allowed = carrier->slack;
  }
}

static void
write_seam (DryBoardWriter *self, const DryBoardFace *face, const DryRawSeam *raw,
            const GArray *all)
{
  DrySeam seam = {.face = face->face->index, .vertical = raw->vertical, .member = -1};
  seam.from = raw->vertical ? (DryPoint){raw->at, raw->low} : (DryPoint){raw->low, raw->at};
  seam.to = raw->vertical ? (DryPoint){raw->at, raw->high} : (DryPoint){raw->high, raw->at};
  const DrySeamWish *wish = dry_board_find_wish (face, raw, all);
  if (wish != NULL)
    seam.wish = wish->id;
  if (wish != NULL && raw->vertical && !face->seams_anywhere)
    measure_off_stud (face, &seam);
  if (face->seams_anywhere || !raw->vertical) {
    seam.bearing = face->block_half - face->gap_high;
    dry_board_fit_distance (face->context->system, seam.bearing, &seam.edge_distance);
  }
  if (!raw->vertical && !dry_board_is_backed (face->face))
    block_level_seam (self, face, &seam);
  else if (raw->vertical && !face->seams_anywhere)
    carry_upright_seam (self, face, &seam);
  else if (raw->vertical && !dry_board_is_backed (face->face))
    add_member (
        self, face, DRY_MEMBER_BLOCKING,
        (DryRect){raw->at - face->block_half, raw->low, raw->at + face->block_half, raw->high},
        "backs a seam");
  g_array_append_val (self->seams, seam);
}

void
dry_board_write (DryBoardWriter *self, const DryBoardFace *face, const DryLayout *layout)
{
  write_boards (self, face, layout);
  g_autoptr (GArray) seams = g_array_new (FALSE, FALSE, sizeof (DryRawSeam));
  dry_board_list_seams (face, layout, seams);
  for (guint i = 0; i < seams->len; i++)
    write_seam (self, face, &g_array_index (seams, DryRawSeam, i), seams);
}
