/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Measures of boards and of the seams between them: size, fastening, what carries a seam.
 * Looks at what the stages answered as an inspector would, without trusting how they got there. */
#include "plan/measure-build.h"
#include "plan/outline.h"

/* A fastener may give way to a hole by this much before its row counts as broken. */
#define ROUND_HOLES (3 * DRY_INCH / 2)

/* --- fastening --- */

static DryLength
measure_to_ring (DryPoint p, const DryRing *ring, DryLength least)
{
  for (guint i = 0; i < ring->n_points; i++)
    least = MIN (least,
                 dry_outline_distance (p, ring->points[i], ring->points[(i + 1) % ring->n_points]));
  return least;
}

static DryLength
measure_to_boundary (const DryBoard *board, DryPoint p)
{
  DryLength least = measure_to_ring (p, &board->shape.outer, G_MAXINT64);

  for (guint i = 0; i < board->shape.n_holes; i++)
    least = measure_to_ring (p, &board->shape.holes[i], least);
  return least;
}

static gint
compare_fasteners (gconstpointer a, gconstpointer b)
{
  const DryFastener *first = *(const DryFastener *const *) a;
  const DryFastener *second = *(const DryFastener *const *) b;

  if (first->board != second->board)
    return first->board < second->board ? -1 : 1;
  if (first->member != second->member)
    return first->member < second->member ? -1 : 1;
  if (first->at.y != second->at.y)
    return first->at.y < second->at.y ? -1 : 1;
  return first->at.x < second->at.x ? -1 : first->at.x > second->at.x;
}

static GPtrArray *
sort_fasteners (const DryFasteners *fasteners)
{
  GPtrArray *sorted = g_ptr_array_sized_new (fasteners->n);

  for (guint i = 0; i < fasteners->n; i++)
    g_ptr_array_add (sorted, &fasteners->items[i]);
  g_ptr_array_sort (sorted, compare_fasteners);
  return sorted;
}

/* Holes and openings between two fasteners of a row excuse a longer step. */
static gboolean
passes_hole (const DryFace *face, DryPoint a, DryPoint b)
{
  DryRect way = {MIN (a.x, b.x) - 1, MIN (a.y, b.y) - 1, MAX (a.x, b.x) + 1, MAX (a.y, b.y) + 1};

  for (guint i = 0; i < face->n_cutouts; i++)
    if (dry_rect_overlaps (way, dry_rect_inflate (face->cutouts[i].rough, ROUND_HOLES)))
      return TRUE;
  for (guint i = 0; i < face->n_holes; i++) {
    DryPoint c = face->holes[i].centre;
    DryRect hole = {c.x, c.y, c.x, c.y};
    if (dry_rect_overlaps (way, dry_rect_inflate (hole, face->holes[i].diameter / 2 + ROUND_HOLES)))
      return TRUE;
  }
  return FALSE;
}

/* The next fastener up, of this row or of one so near that both hold the board as one. */
static const DryFastener *
find_next (const DryFastener *const *board, guint n, const DryFastener *from, DryLength reach)
{
  const DryFastener *next = NULL;

  for (guint i = 0; i < n; i++)
    if (board[i]->at.y > from->at.y && ABS (board[i]->at.x - from->at.x) <= reach &&
        (!next || board[i]->at.y < next->at.y))
      next = board[i];
  return next;
}

/* Fasteners of one board on one member. */
typedef struct {
  const DryFastener *const *board;
  guint n_board;
  const DryFastener *const *row;
  guint n;
} DryRow;

/* Widest step up a row; rows all of edge fasteners are told apart. */
static void
measure_row (const DryFace *face, const DryRow *self, DryLength reach, DryLength *edge,
             DryLength *field)
{
  gboolean all_edge = TRUE;

  for (guint i = 0; i < self->n; i++)
    all_edge = all_edge && self->row[i]->edge;
  for (guint i = 0; i + 1 < self->n; i++) {
    const DryFastener *next;

    if (self->row[i + 1]->at.x != self->row[i]->at.x ||
        passes_hole (face, self->row[i]->at, self->row[i + 1]->at))
      continue;
    next = find_next (self->board, self->n_board, self->row[i], reach);
    if (!next)
      continue;
    if (all_edge)
      *edge = MAX (*edge, next->at.y - self->row[i]->at.y);
    else
      *field = MAX (*field, next->at.y - self->row[i]->at.y);
  }
}

static void
measure_fastening (DryMeasuring *self, const DryBoard *board, const GPtrArray *sorted, guint *next)
{
  const DryFace *face = &self->plan->faces->items[board->face];
  const DrySystem *system = self->context->system;
  const DryFastener *const *all = (const DryFastener *const *) sorted->pdata;
  DryLength to_edge = G_MAXINT64, edge = 0, field = 0;
  guint begin = *next, first = *next, n = 0, unheld = 0;

  while (first + n < sorted->len && all[first + n]->board == board->index)
    n++;
  for (; *next < first + n; (*next)++) {
    DryRow row = {all + first, n, all + begin, *next + 1 - begin};

    to_edge = MIN (to_edge, measure_to_boundary (board, all[*next]->at));
    if (*next + 1 < first + n && all[*next + 1]->member == all[begin]->member)
      continue;
    measure_row (face, &row, system->field_spacing.value / 2, &edge, &field);
    begin = *next + 1;
  }
  for (guint i = 0; i < self->plan->fasteners->n_unheld; i++)
    unheld += self->plan->fasteners->unheld[i].board == board->index;
  dry_measuring_number (self, "fasteners", n, "", NULL);
  dry_measuring_number (self, "unheld-edges", unheld, "",
                        "edges over framing with no room for a "
                        "fastener at an allowed distance");
  if (n) {
    dry_measuring_length (self, "fastener-to-edge", to_edge, "least of %u fasteners", n);
    dry_measuring_length (self, "system-edge-distance-min", system->edge_distance_min.value, NULL);
  }
  if (edge > 0 && system->edge_spacing.value > 0) {
    dry_measuring_length (self, "edge-step", edge, "widest step of a row along an edge");
    dry_measuring_length (self, "system-edge-step", system->edge_spacing.value, NULL);
  }
  if (field > 0 && system->field_spacing.value > 0) {
    dry_measuring_length (self, "field-step", field, "widest step of a row in the field");
    dry_measuring_length (self, "system-field-step",
                          MAX (system->field_spacing.value, system->edge_spacing.value), NULL);
  }
}

/* --- boards --- */

static gboolean
fits_sheet (const DryCutting *cutting, const char *mark)
{
  for (guint i = 0; cutting && i < cutting->n_unplaced; i++)
    if (g_strcmp0 (cutting->pieces[cutting->unplaced[i]].name, mark) == 0)
      return FALSE;
  return TRUE;
}

static void
measure_board (DryMeasuring *self, const DryBoard *board, const GPtrArray *sorted, guint *next)
{
  const DryFace *face = &self->plan->faces->items[board->face];
  DryRect region = dry_region_bounds (&face->region);
  DryLength width = dry_rect_width (board->bounds), height = dry_rect_height (board->bounds);
  DryLength least = self->context->system->min_piece;

  dry_measuring_begin (self, "board", 0, (gint) board->face, board->bounds,
                       dry_arena_printf (self->context->arena, "board %s", board->mark));
  dry_measuring_length (self, "width", width, NULL);
  dry_measuring_length (self, "height", height, NULL);
  if (face->kind == DRY_FACE_WALL && dry_rect_width (region) >= least &&
      dry_rect_height (region) >= least) {
    dry_measuring_length (self, "least-side", MIN (width, height), NULL);
    dry_measuring_length (self, "system-least-side", least, NULL);
  }
  dry_measuring_boolean (self, "fits-sheet", fits_sheet (self->plan->boards->cutting, board->mark),
                         "%s x %s", dry_measuring_text (self, width),
                         dry_measuring_text (self, height));
  measure_fastening (self, board, sorted, next);
  dry_measuring_end (self);
}

/* --- seams --- */

/* How much of a level seam lies over no framing at all. */
static DryLength
measure_bare (DryMeasuring *self, const DrySeam *seam)
{
  const DryFraming *framing = self->plan->framing;
  const DryBoards *boards = self->plan->boards;
  DryLength at = MIN (seam->from.x, seam->to.x), end = MAX (seam->from.x, seam->to.x), bare = 0;
  g_autoptr (GArray) spans = g_array_new (FALSE, FALSE, sizeof (DryStanding));

  for (guint i = 0; i < framing->n + boards->n_blocking; i++) {
    const DryMember *member =
        i < framing->n ? &framing->items[i] : &boards->blocking[i - framing->n];
    DryStanding span = {member->rect.x0, member->rect.x1};
    if (member->face == seam->face && member->rect.y0 <= seam->from.y &&
        member->rect.y1 >= seam->from.y)
      g_array_append_val (spans, span);
  }
  while (at < end) {
    DryLength reach = at, next = end;
    for (guint i = 0; i < spans->len; i++) {
      const DryStanding *span = &g_array_index (spans, DryStanding, i);
      if (span->u0 <= at)
        reach = MAX (reach, span->u1);
      else
        next = MIN (next, span->u0);
    }
    if (reach == at) {
      bare += next - at;
      reach = next;
    }
    at = reach;
  }
  return bare;
}

static gboolean
is_carried (DryMeasuring *self, const DrySeam *seam)
{
  const DryMember *member;

  if (!seam->vertical)
    return measure_bare (self, seam) <= DRY_INCH;
  member = seam->member < 0
               ? NULL
               : dry_fasteners_get_member (self->plan->framing, self->plan->boards, seam->member);
  return member && member->rect.x0 < seam->from.x && member->rect.x1 > seam->from.x;
}

static void
measure_niche_corner (DryMeasuring *self, const DrySeam *seam)
{
  const DryFace *face = &self->plan->faces->items[seam->face];
  DryLength least = G_MAXINT64;

  for (guint i = 0; i < face->n_cutouts; i++) {
    DryRect r = face->cutouts[i].rough;
    const DryPoint corners[] = {{r.x0, r.y0}, {r.x1, r.y0}, {r.x1, r.y1}, {r.x0, r.y1}};
    for (guint c = 0; face->cutouts[i].kind == DRY_CUT_NICHE && c < 4; c++)
      least = MIN (least, dry_outline_distance (corners[c], seam->from, seam->to));
  }
  if (least < G_MAXINT64)
    dry_measuring_length (self, "to-niche-corner", least, "shortest way to a corner of a niche");
}

static void
measure_hole_distance (DryMeasuring *self, const DrySeam *seam)
{
  const DryFace *face = &self->plan->faces->items[seam->face];
  DryLength least = G_MAXINT64;

  for (guint i = 0; i < face->n_holes; i++)
    least = MIN (least, dry_outline_distance (face->holes[i].centre, seam->from, seam->to) -
                            face->holes[i].diameter / 2);
  if (least < G_MAXINT64)
    dry_measuring_length (self, "to-hole", least, "shortest way to the edge of a pipe hole");
}

static gboolean
reaches (const DrySeam *seam, DryPoint p, gint dx, gint dy)
{
  DryLength x0 = MIN (seam->from.x, seam->to.x), x1 = MAX (seam->from.x, seam->to.x);
  DryLength y0 = MIN (seam->from.y, seam->to.y), y1 = MAX (seam->from.y, seam->to.y);

  if (p.x < x0 || p.x > x1 || p.y < y0 || p.y > y1)
    return FALSE;
  return (dx < 0 && x0 < p.x) || (dx > 0 && x1 > p.x) || (dy < 0 && y0 < p.y) ||
         (dy > 0 && y1 > p.y);
}

/* Four boards meet where seams leave a point to all four sides. */
static gboolean
is_cross (const DryBoards *boards, guint face, DryPoint p)
{
  static const gint WAYS[4][2] = {{-1, 0}, {1, 0}, {0, -1}, {0, 1}};

  for (guint way = 0; way < 4; way++) {
    gboolean found = FALSE;
    for (guint i = 0; i < boards->n_seams && !found; i++)
      found = boards->seams[i].face == face && boards->seams[i].vertical == (WAYS[way][1] != 0) &&
              reaches (&boards->seams[i], p, WAYS[way][0], WAYS[way][1]);
    if (!found)
      return FALSE;
  }
  return TRUE;
}

static guint
count_crosses (const DryBoards *boards, const DrySeam *seam)
{
  guint n = 0;

  if (!seam->vertical)
    return 0;
  for (guint i = 0; i < boards->n_seams; i++) {
    const DrySeam *level = &boards->seams[i];
    if (level->face == seam->face && !level->vertical)
      n += is_cross (boards, seam->face, (DryPoint){seam->from.x, level->from.y});
  }
  return n;
}

static void
measure_seam (DryMeasuring *self, const DrySeam *seam)
{
  const DrySystem *system = self->context->system;
  DryRect place = {MIN (seam->from.x, seam->to.x), MIN (seam->from.y, seam->to.y),
                   MAX (seam->from.x, seam->to.x), MAX (seam->from.y, seam->to.y)};

  dry_measuring_begin (
      self, seam->wish != 0 ? "wished-seam" : "seam", seam->wish, (gint) seam->face, place,
      dry_arena_printf (self->context->arena, "%s seam at %s", seam->vertical ? "upright" : "level",
                        dry_measuring_text (self, seam->vertical ? seam->from.x : seam->from.y)));
  dry_measuring_boolean (self, "vertical", seam->vertical, NULL);
  dry_measuring_boolean (self, "on-framing", is_carried (self, seam), NULL);
  if (seam->vertical && seam->member >= 0) {
    dry_measuring_length (self, "bearing", seam->bearing, "what each board has on the stud");
    dry_measuring_length (self, "edge-distance", seam->edge_distance,
                          "usual distance of %s, least allowed %s, bearing %s",
                          dry_measuring_text (self, system->edge_distance.value),
                          dry_measuring_text (self, system->edge_distance_min.value),
                          dry_measuring_text (self, seam->bearing));
    dry_measuring_length (self, "system-edge-distance", system->edge_distance.value, NULL);
    dry_measuring_boolean (self, "needs-second-stud", seam->needs_second_stud, NULL);
  }
  dry_measuring_number (self, "crosses", count_crosses (self->plan->boards, seam), "", NULL);
  measure_niche_corner (self, seam);
  measure_hole_distance (self, seam);
  if (seam->wish != 0)
    dry_measure_wished_seam (self, seam);
  dry_measuring_end (self);
}

void
dry_measure_boards (DryMeasuring *self)
{
  const DryBoards *boards = self->plan->boards;
  g_autoptr (GPtrArray) sorted = sort_fasteners (self->plan->fasteners);
  guint next = 0;

  for (guint i = 0; i < boards->n; i++)
    measure_board (self, &boards->items[i], sorted, &next);
  for (guint i = 0; i < boards->n_seams; i++)
    measure_seam (self, &boards->seams[i]);
  dry_measure_wishes (self);
}
