/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Writes the engine's cut trees out as sheets: cuts in order, pieces, offcuts worth keeping. What
 * was cut from the opening of another piece comes onto that one's sheet. Searches nothing. */
#define G_LOG_DOMAIN "plan"

#include "plan/nest-private.h"

/* A sheet, or the opening of a piece, on its way to a DrySheetLayout. */
typedef struct {
  const DryNestState *state;
  guint stock; /* of the caller's list, or beyond it an opening */
  GArray *placements, *cuts, *offcuts;
} Draft;

/* The rectangle as it is on the sheet, without the kerf it was swollen by. */
static DryRect
shrink (const Draft *self, DryRect rect)
{
  DryLength kerf = self->state->problem->kerf;
  return (DryRect){rect.x0, rect.y0, rect.x1 - kerf, rect.y1 - kerf};
}

static void
add_offcut (Draft *self, DryRect rect)
{
  if (dry_rect_width (rect) >= DRY_MIN_OFFCUT && dry_rect_height (rect) >= DRY_MIN_OFFCUT)
    g_array_append_val (self->offcuts, rect);
}

static void
write_leaf (Draft *self, const DryNestNode *node)
{
  DryRect rect = shrink (self, node->rect);
  if (node->item >= 0) {
    DryPlacement placement = {
        .piece = self->state->problem->items[node->item].piece,
        .rect = rect,
        .turned = node->turned != 0,
        .inside = -1,
    };
    g_array_append_val (self->placements, placement);
  } else if (node->item == DRY_NEST_FREE) {
    add_offcut (self, rect);
  }
}

/* Depth of the tree is at most twice the number of pieces on the sheet; a list keeps it off the
 * stack. A part is cut up wholly before the next one is taken from the pile. */
static void
write_tree (Draft *self, gint root)
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
        .inside = -1,
    };
    g_array_append_val (self->cuts, cut);
    Pending second = {node->second, now.depth + 1}, first = {node->first, now.depth + 1};
    g_array_append_val (pile, second);
    g_array_append_val (pile, first);
  }
}

static Draft
write_draft (const DryNestState *state, guint sheet)
{
  Draft draft = {
      .state = state,
      .stock = state->problem->sheets[state->kinds[sheet]].stock,
      .placements = g_array_new (FALSE, FALSE, sizeof (DryPlacement)),
      .cuts = g_array_new (FALSE, FALSE, sizeof (DryCut)),
      .offcuts = g_array_new (FALSE, FALSE, sizeof (DryRect)),
  };
  write_tree (&draft, state->roots[sheet]);
  return draft;
}

static void
clear_draft (gpointer data)
{
  Draft *self = data;
  g_clear_pointer (&self->placements, g_array_unref);
  g_clear_pointer (&self->cuts, g_array_unref);
  g_clear_pointer (&self->offcuts, g_array_unref);
}

/* --- openings --- */

/* A piece lies turned counter-clockwise on its sheet. What is cut from its opening is laid out over
 * the diagonal then: rectangles are none the worse for it. */
typedef struct {
  DryPoint origin;
  gboolean turned;
} Frame;

static Frame
frame_opening (const DryPiece *piece, DryRect opening, const DryPlacement *at)
{
  if (!at->turned)
    return (Frame){{at->rect.x0 + opening.x0, at->rect.y0 + opening.y0}, FALSE};
  return (Frame){{at->rect.x0 + piece->height - opening.y1, at->rect.y0 + opening.x0}, TRUE};
}

static DryRect
move_rect (const Frame *frame, DryRect r)
{
  if (frame->turned)
    r = (DryRect){r.y0, r.x0, r.y1, r.x1};
  return (DryRect){r.x0 + frame->origin.x, r.y0 + frame->origin.y, r.x1 + frame->origin.x,
                   r.y1 + frame->origin.y};
}

static void
move_draft (const Frame *frame, guint piece, const Draft *from, Draft *to)
{
  for (guint i = 0; i < from->placements->len; i++) {
    DryPlacement placement = g_array_index (from->placements, DryPlacement, i);
    placement.rect = move_rect (frame, placement.rect);
    placement.turned = placement.turned != frame->turned;
    placement.inside = placement.inside < 0 ? (gint) piece : placement.inside;
    g_array_append_val (to->placements, placement);
  }
  for (guint i = 0; i < from->cuts->len; i++) {
    DryCut cut = g_array_index (from->cuts, DryCut, i);
    cut.of = move_rect (frame, cut.of);
    cut.at += (cut.vertical != frame->turned) ? frame->origin.x : frame->origin.y;
    cut.vertical = cut.vertical != frame->turned;
    cut.inside = (gint) piece;
    g_array_append_val (to->cuts, cut);
  }
  for (guint i = 0; i < from->offcuts->len; i++) {
    DryRect offcut = move_rect (frame, g_array_index (from->offcuts, DryRect, i));
    g_array_append_val (to->offcuts, offcut);
  }
}

/* What was cut from the openings of the piece comes onto its sheet; an opening nothing was cut from
 * is an offcut. Pieces that come along are looked at in their turn. */
static void
open_piece (const DryCutting *cutting, GArray *drafts, const DryNestOpenings *openings, guint index,
            Draft *to)
{
  DryPlacement at = g_array_index (to->placements, DryPlacement, index);
  const DryPiece *piece = &cutting->pieces[at.piece];
  for (guint i = 0; i < piece->n_openings; i++) {
    Frame frame = frame_opening (piece, piece->openings[i], &at);
    Draft *inner = NULL;
    for (guint d = 0; d < drafts->len && inner == NULL; d++) {
      Draft *draft = &g_array_index (drafts, Draft, d);
      if (draft->stock < cutting->n_stock || draft->placements == NULL)
        continue;
      const DryNestOpening *opening = &openings->items[draft->stock - cutting->n_stock];
      if (opening->piece == at.piece && opening->opening == i)
        inner = draft;
    }
    if (inner != NULL) {
      move_draft (&frame, at.piece, inner, to);
      clear_draft (inner);
    } else {
      DryRect own = {0, 0, dry_rect_width (piece->openings[i]),
                     dry_rect_height (piece->openings[i])};
      add_offcut (to, move_rect (&frame, own));
    }
  }
}

/* --- sheets --- */

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
finish_draft (DryArena *arena, Draft *draft)
{
  g_array_sort (draft->offcuts, compare_offcuts);
  DrySheetLayout layout = {
      .stock = draft->stock,
      .n_placements = draft->placements->len,
      .n_cuts = draft->cuts->len,
      .n_offcuts = draft->offcuts->len,
  };
  layout.placements = dry_arena_take_array (arena, g_steal_pointer (&draft->placements));
  layout.cuts = dry_arena_take_array (arena, g_steal_pointer (&draft->cuts));
  layout.offcuts = dry_arena_take_array (arena, g_steal_pointer (&draft->offcuts));
  return layout;
}

/* Board in the pieces: what is cut away from them is not in them. */
static double
sum_pieces (const DryCutting *cutting, const DrySheetLayout *sheet)
{
  double area = 0;
  for (guint i = 0; i < sheet->n_placements; i++)
    area += (double) dry_rect_width (sheet->placements[i].rect) *
            (double) dry_rect_height (sheet->placements[i].rect);
  for (guint i = 0; i < sheet->n_placements; i++) {
    const DryPiece *piece = &cutting->pieces[sheet->placements[i].piece];
    for (guint k = 0; k < piece->n_openings; k++)
      area -= (double) dry_rect_width (piece->openings[k]) *
              (double) dry_rect_height (piece->openings[k]);
  }
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
compare_layouts (gconstpointer a, gconstpointer b, gpointer data)
{
  const DrySheetLayout *left = a, *right = b;
  const DryCutting *cutting = data;
  if (left->stock != right->stock)
    return left->stock < right->stock ? -1 : 1;
  double left_area = sum_pieces (cutting, left), right_area = sum_pieces (cutting, right);
  if (left_area != right_area)
    return left_area > right_area ? -1 : 1;
  guint left_first = find_first_piece (left), right_first = find_first_piece (right);
  return left_first < right_first ? -1 : left_first > right_first;
}

static void
write_sheets (DryArena *arena, const DryNestState *state, const DryNestOpenings *openings,
              DryCutting *self)
{
  g_autoptr (GArray) drafts = g_array_new (FALSE, TRUE, sizeof (Draft));
  GArray *sheets = g_array_new (FALSE, FALSE, sizeof (DrySheetLayout));
  double used = 0, bought = 0;
  g_array_set_clear_func (drafts, clear_draft);
  for (guint i = 0; i < state->n_open; i++) {
    Draft draft = write_draft (state, i);
    g_array_append_val (drafts, draft);
  }
  for (guint i = 0; i < drafts->len; i++) {
    Draft *draft = &g_array_index (drafts, Draft, i);
    if (draft->stock >= self->n_stock)
      continue;
    for (guint p = 0; p < draft->placements->len; p++)
      open_piece (self, drafts, openings, p, draft);
    DrySheetLayout layout = finish_draft (arena, draft);
    const DryStock *stock = &self->stock[layout.stock];
    used += sum_pieces (self, &layout);
    bought += (double) stock->width * (double) stock->height;
    g_array_append_val (sheets, layout);
  }
  g_array_sort_with_data (sheets, compare_layouts, self);
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

/* Placed on some sheet, or in an opening of a piece that is. */
static void
list_unplaced (const DryCutting *self, GArray *unplaced)
{
  g_autofree gboolean *placed = g_new0 (gboolean, self->n_pieces + 1);
  for (guint i = 0; i < unplaced->len; i++)
    placed[g_array_index (unplaced, guint, i)] = TRUE;
  for (guint s = 0; s < self->n_sheets; s++)
    for (guint i = 0; i < self->sheets[s].n_placements; i++)
      placed[self->sheets[s].placements[i].piece] = TRUE;
  for (guint i = 0; i < self->n_pieces; i++)
    if (!placed[i])
      g_array_append_val (unplaced, i);
  g_array_sort (unplaced, compare_guints);
}

const DryCutting *
dry_nest_write (DryArena *arena, const DryNestState *state, const DryNestOpenings *openings,
                DryCutting *self, GArray *unplaced)
{
  guint too_large = unplaced->len;
  write_sheets (arena, state, openings, self);
  sum_cost (self);
  list_unplaced (self, unplaced);
  self->proven = unplaced->len == too_large && self->n_bought == self->lower_bound;
  self->n_unplaced = unplaced->len;
  self->unplaced = dry_arena_take_array (arena, unplaced);
  return self;
}
