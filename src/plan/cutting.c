/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Stage 4, cutting: the door to the nesting engine, and the answer written out as sheets, cuts in
 * order and offcuts worth keeping. Knows nothing of walls or of where the pieces go. */
#define G_LOG_DOMAIN "plan"

#include "plan/nest-private.h"

/* Work units, about a millisecond on a small machine of 2020. */
#define LIVE_EFFORT 70000
/* For a proof, when the bounds leave it open whether one sheet less would do. */
#define LIVE_PROOF 30000
/* Smaller ones are swept up: common practice, no source. */
#define MIN_OFFCUT (6 * DRY_INCH)

typedef struct {
  const DryNestState *state;
  GArray *placements, *cuts, *offcuts;
} Writer;

/* The rectangle as it is on the sheet, without the kerf it was swollen by. */
static DryRect
shrink (const Writer *self, DryRect rect)
{
  DryLength kerf = self->state->problem->kerf;
  return (DryRect){rect.x0, rect.y0, rect.x1 - kerf, rect.y1 - kerf};
}

static void
write_leaf (Writer *self, const DryNestNode *node)
{
  DryRect rect = shrink (self, node->rect);
  if (node->item >= 0) {
    DryPlacement placement = {
        .piece = self->state->problem->items[node->item].piece,
        .rect = rect,
        .turned = node->turned != 0,
    };
    g_array_append_val (self->placements, placement);
  } else if (node->item == DRY_NEST_FREE && dry_rect_width (rect) >= MIN_OFFCUT &&
             dry_rect_height (rect) >= MIN_OFFCUT) {
    g_array_append_val (self->offcuts, rect);
  }
}

/* Depth of the tree is at most twice the number of pieces on the sheet; a list keeps it off the
 * stack. A part is cut up wholly before the next one is taken from the pile. */
static void
write_tree (Writer *self, gint root)
{
  typedef struct {
    gint node;
    guint depth;
  } Pending;
  g_autoptr (GArray) pile = g_array_new (FALSE, FALSE, sizeof (Pending));
  Pending top = {root, 0};
  g_array_append_val (pile, top);
  while (pile->len > 0) {
    Pending now = g_array_index (pile, Pending, pile->len - 1);
    g_array_set_size (pile, pile->len - 1);
    const DryNestNode *node = &self->state->nodes[now.node];
    if (node->first == DRY_NEST_NONE) {
      write_leaf (self, node);
      continue;
    }
    DryRect kept = shrink (self, self->state->nodes[node->first].rect);
    DryCut cut = {
        .of = shrink (self, node->rect),
        .vertical = node->vertical != 0,
        .at = node->vertical ? kept.x1 : kept.y1,
        .depth = now.depth,
    };
    g_array_append_val (self->cuts, cut);
    Pending second = {node->second, now.depth + 1}, first = {node->first, now.depth + 1};
    g_array_append_val (pile, second);
    g_array_append_val (pile, first);
  }
}

static gint
compare_offcuts (gconstpointer a, gconstpointer b)
{
  const DryRect *left = a, *right = b;
  __int128 left_area = (__int128) dry_rect_width (*left) * dry_rect_height (*left);
  __int128 right_area = (__int128) dry_rect_width (*right) * dry_rect_height (*right);
  if (left_area != right_area)
    return left_area > right_area ? -1 : 1;
  if (left->y0 != right->y0)
    return left->y0 < right->y0 ? -1 : 1;
  return left->x0 < right->x0 ? -1 : left->x0 > right->x0;
}

static DrySheetLayout
write_sheet (DryArena *arena, const DryNestState *state, guint sheet)
{
  Writer writer = {
      .state = state,
      .placements = g_array_new (FALSE, FALSE, sizeof (DryPlacement)),
      .cuts = g_array_new (FALSE, FALSE, sizeof (DryCut)),
      .offcuts = g_array_new (FALSE, FALSE, sizeof (DryRect)),
  };
  write_tree (&writer, state->roots[sheet]);
  g_array_sort (writer.offcuts, compare_offcuts);
  DrySheetLayout layout = {
      .stock = state->problem->sheets[state->kinds[sheet]].stock,
      .n_placements = writer.placements->len,
      .n_cuts = writer.cuts->len,
      .n_offcuts = writer.offcuts->len,
  };
  layout.placements = dry_arena_take_array (arena, writer.placements);
  layout.cuts = dry_arena_take_array (arena, writer.cuts);
  layout.offcuts = dry_arena_take_array (arena, writer.offcuts);
  return layout;
}

static double
sum_pieces (const DrySheetLayout *sheet)
{
  double area = 0;
  for (guint i = 0; i < sheet->n_placements; i++)
    area += (double) dry_rect_width (sheet->placements[i].rect) *
            (double) dry_rect_height (sheet->placements[i].rect);
  return area;
}

static guint
find_first_piece (const DrySheetLayout *sheet)
{
  guint first = G_MAXUINT;
  for (guint i = 0; i < sheet->n_placements; i++)
    first = MIN (first, sheet->placements[i].piece);
  return first;
}

/* The fullest first, so that the large offcut comes off the last sheet. */
static gint
compare_layouts (gconstpointer a, gconstpointer b)
{
  const DrySheetLayout *left = a, *right = b;
  if (left->stock != right->stock)
    return left->stock < right->stock ? -1 : 1;
  double left_area = sum_pieces (left), right_area = sum_pieces (right);
  if (left_area != right_area)
    return left_area > right_area ? -1 : 1;
  guint left_first = find_first_piece (left), right_first = find_first_piece (right);
  return left_first < right_first ? -1 : left_first > right_first;
}

static void
write_answer (DryArena *arena, const DryNestState *state, DryCutting *self)
{
  GArray *sheets = g_array_new (FALSE, FALSE, sizeof (DrySheetLayout));
  double used = 0, bought = 0;
  for (guint i = 0; i < state->n_open; i++) {
    DrySheetLayout layout = write_sheet (arena, state, i);
    used += sum_pieces (&layout);
    bought += (double) self->stock[layout.stock].width * (double) self->stock[layout.stock].height;
    g_array_append_val (sheets, layout);
  }
  g_array_sort (sheets, compare_layouts);
  self->n_sheets = sheets->len;
  self->sheets = dry_arena_take_array (arena, sheets);
  self->waste = bought > 0 ? CLAMP (1 - used / bought, 0.0, 1.0) : 0;
}

static gint
compare_guints (gconstpointer a, gconstpointer b)
{
  guint left = *(const guint *) a, right = *(const guint *) b;
  return left < right ? -1 : left > right;
}

static DryCutting *
begin_answer (DryArena *arena, const DryStock *stock, guint n_stock, const DryPiece *pieces,
              guint n_pieces)
{
  DryCutting *self = dry_arena_alloc (arena, sizeof (DryCutting));
  self->stock = dry_arena_copy (arena, stock, sizeof (DryStock) * n_stock);
  self->n_stock = n_stock;
  self->pieces = dry_arena_copy (arena, pieces, sizeof (DryPiece) * n_pieces);
  self->n_pieces = n_pieces;
  return self;
}

static void
sum_cost (DryCutting *self)
{
  for (guint i = 0; i < self->n_sheets; i++) {
    const DryStock *stock = &self->stock[self->sheets[i].stock];
    if (stock->on_hand)
      continue;
    self->n_bought++;
    if (stock->price <= 0)
      self->cost = -1;
    else if (self->cost >= 0)
      self->cost += stock->price;
  }
}

/* Takes over `unplaced`. */
static const DryCutting *
finish_answer (DryArena *arena, DryCutting *self, const DryNestState *state, GArray *unplaced)
{
  const DryNestProblem *problem = state->problem;
  write_answer (arena, state, self);
  sum_cost (self);
  gboolean short_of_sheets = FALSE;
  for (guint i = 0; i < problem->n_items; i++)
    if (state->leaf_of[i] == DRY_NEST_NONE) {
      g_array_append_val (unplaced, problem->items[i].piece);
      short_of_sheets = TRUE;
    }
  g_array_sort (unplaced, compare_guints);
  self->proven = !short_of_sheets && self->n_bought == self->lower_bound;
  self->n_unplaced = unplaced->len;
  self->unplaced = dry_arena_take_array (arena, unplaced);
  return self;
}

/* The live answer. Half of the effort first: a proof of it, which needs little on a list from a few
 * walls, spares the other half. */
static void
find_live (const DryNestProblem *problem, guint *lower_bound, DryNestState *state)
{
  *lower_bound = dry_nest_lower_bound (problem, DRY_NEST_LIVE);
  dry_nest_search (problem, *lower_bound, LIVE_EFFORT / 2, TRUE, state);
  DryNestScore score = dry_nest_state_score (state);
  if (score.missing == 0 && score.sheets == *lower_bound)
    return;
  if (score.missing == 0)
    *lower_bound = dry_nest_prove (problem, *lower_bound, score.sheets, 0, LIVE_PROOF, NULL).sheets;
  if (score.missing > 0 || score.sheets > *lower_bound)
    dry_nest_search (problem, *lower_bound, LIVE_EFFORT, TRUE, state);
}

const DryCutting *
dry_cutting_compute (DryArena *arena, const DryStock *stock, guint n_stock, const DryPiece *pieces,
                     guint n_pieces, DryLength kerf, guint effort)
{
  DryCutting *self = begin_answer (arena, stock, n_stock, pieces, n_pieces);
  GArray *unplaced = g_array_new (FALSE, FALSE, sizeof (guint));
  g_autoptr (DryNestProblem) problem =
      dry_nest_problem_new (stock, n_stock, pieces, n_pieces, kerf, unplaced);
  g_autoptr (DryNestState) state = dry_nest_state_new (problem);
  if (effort > 0) {
    self->lower_bound = dry_nest_lower_bound (problem, DRY_NEST_LIVE);
    dry_nest_search (problem, self->lower_bound, effort, TRUE, state);
  } else {
    find_live (problem, &self->lower_bound, state);
  }
  return finish_answer (arena, self, state, unplaced);
}

const DryCutting *
dry_cutting_improve (DryArena *arena, const DryStock *stock, guint n_stock, const DryPiece *pieces,
                     guint n_pieces, DryLength kerf, guint64 effort, guint n_threads,
                     GCancellable *cancellable)
{
  DryCutting *self = begin_answer (arena, stock, n_stock, pieces, n_pieces);
  GArray *unplaced = g_array_new (FALSE, FALSE, sizeof (guint));
  g_autoptr (DryNestProblem) problem =
      dry_nest_problem_new (stock, n_stock, pieces, n_pieces, kerf, unplaced);
  g_autoptr (DryNestState) state = dry_nest_state_new (problem);
  find_live (problem, &self->lower_bound, state);
  if (effort > 0)
    self->lower_bound =
        dry_nest_improve (problem, self->lower_bound, effort, n_threads, cancellable, state);
  return finish_answer (arena, self, state, unplaced);
}

DryNestEstimate
dry_cutting_estimate (const DryStock *stock, guint n_stock, const DryPiece *pieces, guint n_pieces,
                      DryLength kerf, guint most, guint effort)
{
  g_autoptr (DryNestProblem) problem =
      dry_nest_problem_new (stock, n_stock, pieces, n_pieces, kerf, NULL);
  DryNestEstimate estimate = {.missing = n_pieces - problem->n_items,
                              .lower_bound = dry_nest_lower_bound (problem, DRY_NEST_QUICK)};
  estimate.sheets = estimate.lower_bound;
  if (estimate.lower_bound > most)
    return estimate;
  g_autoptr (DryNestState) state = dry_nest_state_new (problem);
  dry_nest_search (problem, estimate.lower_bound, effort, FALSE, state);
  DryNestScore score = dry_nest_state_score (state);
  estimate.missing += score.missing;
  estimate.sheets = score.sheets;
  estimate.cost = score.cost;
  for (guint i = 0; i < state->n_open; i++) {
    const DryStock *sheet = &stock[problem->sheets[state->kinds[i]].stock];
    estimate.sheet_area += (double) sheet->width * (double) sheet->height;
  }
  return estimate;
}
