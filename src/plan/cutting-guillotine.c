/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Cut trees: sheets cut in two, edge to edge, again and again; items enter and leave as leaves.
 * Whatever is done here leaves a layout that a saw can make; knows nothing of which one is wanted.
 */
#define G_LOG_DOMAIN "plan"

#include <string.h>

#include "plan/cutting-private.h"

/* Two cuts an item at most, two nodes a cut, and a root a sheet. Taking items out may leave cuts
 * behind that part nothing from something; beyond the room for those an insertion is refused. */
#define NODES_PER_ITEM 5

static guint
reckon_capacity (guint n_items)
{
  return 3 * NODES_PER_ITEM * n_items + 32;
}

DryNestState *
dry_nest_state_new (const DryNestProblem *problem)
{
  DryNestState *self = g_new0 (DryNestState, 1);
  self->problem = problem;
  self->capacity = reckon_capacity (problem->n_items);
  self->nodes = g_new (DryNestNode, self->capacity);
  self->free_leaves = g_new (gint, self->capacity);
  self->roots = g_new (gint, problem->n_items + 1);
  self->kinds = g_new (guint, problem->n_items + 1);
  self->opened = g_new (guint, problem->n_sheets + 1);
  self->leaf_of = g_new (gint, problem->n_items + 1);
  dry_nest_state_clear (self);
  return self;
}

void
dry_nest_state_free (DryNestState *self)
{
  if (self == NULL)
    return;
  g_free (self->nodes);
  g_free (self->free_leaves);
  g_free (self->roots);
  g_free (self->kinds);
  g_free (self->opened);
  g_free (self->leaf_of);
  g_free (self);
}

void
dry_nest_state_clear (DryNestState *self)
{
  self->n_nodes = self->n_used = self->n_free = self->n_open = 0;
  self->spare = DRY_NEST_NONE;
  for (guint i = 0; i < self->problem->n_sheets; i++)
    self->opened[i] = 0;
  for (guint i = 0; i < self->problem->n_items; i++)
    self->leaf_of[i] = DRY_NEST_NONE;
}

void
dry_nest_state_copy (DryNestState *self, const DryNestState *from)
{
  self->n_nodes = from->n_nodes;
  self->n_used = from->n_used;
  self->n_free = from->n_free;
  self->n_open = from->n_open;
  self->spare = from->spare;
  memcpy (self->nodes, from->nodes, sizeof (DryNestNode) * from->n_nodes);
  memcpy (self->free_leaves, from->free_leaves, sizeof (gint) * from->n_free);
  memcpy (self->roots, from->roots, sizeof (gint) * from->n_open);
  memcpy (self->kinds, from->kinds, sizeof (guint) * from->n_open);
  memcpy (self->opened, from->opened, sizeof (guint) * from->problem->n_sheets);
  memcpy (self->leaf_of, from->leaf_of, sizeof (gint) * from->problem->n_items);
}

/* xorshift64*: the same numbers on every machine. */
guint32
dry_nest_random (guint64 *state)
{
  guint64 x = *state;
  x ^= x >> 12;
  x ^= x << 25;
  x ^= x >> 27;
  *state = x;
  return (guint32) ((x * G_GUINT64_CONSTANT (2685821657736338717)) >> 32);
}

/* --- nodes --- */

static void
list_free (DryNestState *self, gint node)
{
  self->nodes[node].free_at = (gint) self->n_free;
  self->free_leaves[self->n_free++] = node;
}

static void
unlist_free (DryNestState *self, gint node)
{
  gint at = self->nodes[node].free_at;
  gint last = self->free_leaves[--self->n_free];
  self->free_leaves[at] = last;
  self->nodes[last].free_at = at;
  self->nodes[node].free_at = DRY_NEST_NONE;
}

static gint
add_node (DryNestState *self, DryRect rect, gint parent)
{
  gint node = self->spare;
  if (node != DRY_NEST_NONE)
    self->spare = self->nodes[node].parent;
  else
    node = (gint) self->n_nodes++;
  g_assert ((guint) node < self->capacity);
  self->n_used++;
  gboolean dust =
      dry_rect_width (rect) <= self->problem->kerf || dry_rect_height (rect) <= self->problem->kerf;
  self->nodes[node] = (DryNestNode){
      .rect = rect,
      .parent = parent,
      .first = DRY_NEST_NONE,
      .second = DRY_NEST_NONE,
      .item = dust ? DRY_NEST_DUST : DRY_NEST_FREE,
      .free_at = DRY_NEST_NONE,
  };
  if (!dust)
    list_free (self, node);
  return node;
}

static void
drop_node (DryNestState *self, gint node)
{
  if (self->nodes[node].free_at != DRY_NEST_NONE)
    unlist_free (self, node);
  self->nodes[node].parent = self->spare;
  self->spare = node;
  self->n_used--;
}

static gint
open_sheet (DryNestState *self, guint kind)
{
  const DryNestSheet *sheet = &self->problem->sheets[kind];
  gint root = add_node (self, (DryRect){0, 0, sheet->width, sheet->height}, DRY_NEST_NONE);
  self->roots[self->n_open] = root;
  self->kinds[self->n_open++] = kind;
  self->opened[kind]++;
  return root;
}

/* Cuts the free leaf at `at`; returns the part left of or below the cut. */
static gint
cut_leaf (DryNestState *self, gint leaf, gboolean vertical, DryLength at)
{
  unlist_free (self, leaf);
  DryRect low = self->nodes[leaf].rect, high = low;
  if (vertical)
    low.x1 = high.x0 = at;
  else
    low.y1 = high.y0 = at;
  gint first = add_node (self, low, leaf);
  gint second = add_node (self, high, leaf);
  self->nodes[leaf].vertical = vertical;
  self->nodes[leaf].first = first;
  self->nodes[leaf].second = second;
  return first;
}

gint
dry_nest_state_open (DryNestState *self, guint kind)
{
  return open_sheet (self, kind);
}

gint
dry_nest_state_cut (DryNestState *self, gint leaf, gboolean vertical, DryLength at)
{
  return cut_leaf (self, leaf, vertical, at);
}

void
dry_nest_state_seat (DryNestState *self, gint leaf, guint item, gboolean turned)
{
  unlist_free (self, leaf);
  self->nodes[leaf].item = (gint) item;
  self->nodes[leaf].turned = turned != 0;
  self->leaf_of[item] = leaf;
}

/* --- placing --- */

static gboolean
cuts_upright_first (DryNestSplit split, DryLength leaf_width, DryLength leaf_height,
                    DryLength width, DryLength height)
{
  DryLength beside = leaf_width - width, above = leaf_height - height;
  double upright = MAX ((double) beside * (double) leaf_height, (double) width * (double) above);
  double lying = MAX ((double) beside * (double) height, (double) leaf_width * (double) above);
  switch (split) {
  case DRY_SPLIT_SHORT:
    return beside > above;
  case DRY_SPLIT_LONG:
    return beside <= above;
  case DRY_SPLIT_BIG:
    return upright > lying;
  case DRY_SPLIT_EVEN:
    return upright < lying;
  case DRY_SPLIT_COLUMNS:
    return TRUE;
  case DRY_SPLIT_ROWS:
  case DRY_N_SPLITS:
    break;
  }
  return FALSE;
}

static void
place_item (DryNestState *self, gint leaf, guint item, gboolean turned, DryNestSplit split)
{
  const DryNestItem *it = &self->problem->items[item];
  DryLength width = turned ? it->height : it->width, height = turned ? it->width : it->height;
  DryRect rect = self->nodes[leaf].rect;
  gboolean upright_first =
      cuts_upright_first (split, dry_rect_width (rect), dry_rect_height (rect), width, height);
  for (guint pass = 0; pass < 2; pass++) {
    gboolean vertical = (pass == 0) == upright_first;
    if (vertical && width < dry_rect_width (rect))
      leaf = cut_leaf (self, leaf, TRUE, rect.x0 + width);
    else if (!vertical && height < dry_rect_height (rect))
      leaf = cut_leaf (self, leaf, FALSE, rect.y0 + height);
    rect = self->nodes[leaf].rect;
  }
  dry_nest_state_seat (self, leaf, item, turned);
}

static double
judge_fit (DryNestFit fit, const DryRect *leaf, DryLength width, DryLength height)
{
  DryLength beside = dry_rect_width (*leaf) - width, above = dry_rect_height (*leaf) - height;
  switch (fit) {
  case DRY_FIT_SHORT:
    return (double) MIN (beside, above);
  case DRY_FIT_LONG:
    return (double) MAX (beside, above);
  case DRY_FIT_LOW:
    return (double) leaf->y0 + (double) height;
  case DRY_FIT_AREA:
  case DRY_N_FITS:
    break;
  }
  return (double) dry_rect_width (*leaf) * (double) dry_rect_height (*leaf) -
         (double) width * (double) height;
}

/* Which ways up to try: bit 0 as it is, bit 1 turned. A stand that fits no sheet is no use. */
static guint
list_ways (const DryNestState *self, const DryNestItem *item, DryNestStand stand)
{
  if (!item->may_turn)
    return 1;
  if (stand == DRY_STAND_ANY)
    return 3;
  gboolean lies = item->width > item->height;
  guint way = lies == (stand == DRY_STAND_LYING) ? 1 : 2;
  DryLength width = way == 1 ? item->width : item->height;
  DryLength height = way == 1 ? item->height : item->width;
  for (guint i = 0; i < self->problem->n_sheets; i++)
    if (width <= self->problem->sheets[i].width && height <= self->problem->sheets[i].height)
      return way;
  return 3;
}

typedef struct {
  gint leaf;
  gboolean turned;
  double score;
} Seat;

static void
try_leaf (const DryNestState *self, gint leaf, const DryNestItem *item, guint ways, DryNestFit fit,
          Seat *best)
{
  const DryRect *rect = &self->nodes[leaf].rect;
  DryLength room_x = dry_rect_width (*rect), room_y = dry_rect_height (*rect);
  for (guint turned = 0; turned < 2; turned++) {
    DryLength width = turned ? item->height : item->width;
    DryLength height = turned ? item->width : item->height;
    if (!(ways & (1u << turned)) || width > room_x || height > room_y)
      continue;
    double score = judge_fit (fit, rect, width, height);
    if (best->leaf == DRY_NEST_NONE || score < best->score)
      *best = (Seat){leaf, turned, score};
  }
}

static gint
choose_new_sheet (const DryNestState *self, const DryNestItem *item, guint ways, guint preferred)
{
  const DryNestProblem *problem = self->problem;
  /* What is on hand comes first in the list; then the one preferred. */
  for (guint i = 0; i <= problem->n_sheets; i++) {
    guint kind = i < problem->n_on_hand ? i : i == problem->n_on_hand ? preferred : i - 1;
    if (kind >= problem->n_sheets)
      continue;
    const DryNestSheet *sheet = &problem->sheets[kind];
    if (sheet->count >= 0 && self->opened[kind] >= (guint) sheet->count)
      continue;
    if (((ways & 1) && item->width <= sheet->width && item->height <= sheet->height) ||
        ((ways & 2) && item->height <= sheet->width && item->width <= sheet->height))
      return (gint) kind;
  }
  return DRY_NEST_NONE;
}

gboolean
dry_nest_state_insert (DryNestState *self, guint item, const DryNestRules *rules, guint64 *random,
                       guint *work)
{
  const DryNestItem *it = &self->problem->items[item];
  if (self->n_used + NODES_PER_ITEM > self->capacity)
    return FALSE;
  guint ways = list_ways (self, it, rules->stand);
  Seat best = {DRY_NEST_NONE, FALSE, 0};
  for (guint i = 0; i < self->n_free; i++) {
    if (rules->blink > 0 && dry_nest_random (random) % rules->blink == 0)
      continue;
    try_leaf (self, self->free_leaves[i], it, ways, rules->fit, &best);
  }
  *work += self->n_free + 4;
  if (best.leaf == DRY_NEST_NONE) {
    gint kind = choose_new_sheet (self, it, ways, rules->kind);
    if (kind == DRY_NEST_NONE)
      kind = choose_new_sheet (self, it, it->may_turn ? 3 : 1, rules->kind);
    if (kind == DRY_NEST_NONE)
      return FALSE;
    gint root = open_sheet (self, (guint) kind);
    try_leaf (self, root, it, ways, rules->fit, &best);
    if (best.leaf == DRY_NEST_NONE)
      try_leaf (self, root, it, it->may_turn ? 3 : 1, rules->fit, &best);
  }
  place_item (self, best.leaf, item, best.turned, rules->split);
  return TRUE;
}

/* --- taking out --- */

static gboolean
is_bare (const DryNestNode *node)
{
  return node->first == DRY_NEST_NONE && node->item < 0;
}

void
dry_nest_state_remove (DryNestState *self, guint item)
{
  gint leaf = self->leaf_of[item];
  if (leaf == DRY_NEST_NONE)
    return;
  self->leaf_of[item] = DRY_NEST_NONE;
  self->nodes[leaf].item = DRY_NEST_FREE;
  list_free (self, leaf);
  /* A cut between two bare parts was not needed: heal it. */
  for (gint at = self->nodes[leaf].parent; at != DRY_NEST_NONE; at = self->nodes[at].parent) {
    DryNestNode *node = &self->nodes[at];
    if (!is_bare (&self->nodes[node->first]) || !is_bare (&self->nodes[node->second]))
      break;
    drop_node (self, node->first);
    drop_node (self, node->second);
    node->first = node->second = DRY_NEST_NONE;
    node->item = DRY_NEST_FREE;
    list_free (self, at);
  }
}

void
dry_nest_state_drop_empty (DryNestState *self)
{
  guint kept = 0;
  for (guint i = 0; i < self->n_open; i++) {
    if (is_bare (&self->nodes[self->roots[i]])) {
      self->opened[self->kinds[i]]--;
      drop_node (self, self->roots[i]);
      continue;
    }
    self->roots[kept] = self->roots[i];
    self->kinds[kept++] = self->kinds[i];
  }
  self->n_open = kept;
}

/* --- judging --- */

DryNestScore
dry_nest_state_score (const DryNestState *self)
{
  DryNestScore score = {0};
  for (guint i = 0; i < self->problem->n_items; i++)
    score.missing += self->leaf_of[i] == DRY_NEST_NONE;
  for (guint i = 0; i < self->n_open; i++) {
    const DryNestSheet *sheet = &self->problem->sheets[self->kinds[i]];
    score.sheets += !sheet->on_hand;
    score.cost += sheet->cost;
  }
  for (guint i = 0; i < self->n_free; i++) {
    const DryRect *rect = &self->nodes[self->free_leaves[i]].rect;
    double share = (double) dry_rect_width (*rect) * (double) dry_rect_height (*rect) /
                   self->problem->unit_area;
    score.tidiness += share * share;
  }
  return score;
}

gboolean
dry_nest_score_is_better (const DryNestScore *a, const DryNestScore *b)
{
  if (a->missing != b->missing)
    return a->missing < b->missing;
  if (a->sheets != b->sheets)
    return a->sheets < b->sheets;
  if (a->cost != b->cost)
    return a->cost < b->cost;
  return a->tidiness > b->tidiness + 1e-12;
}
