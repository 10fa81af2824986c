/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Sheets as slicing trees: items enter beside or above any part of a sheet, and leave again.
 * Whatever is done here leaves a layout that a saw can make; knows nothing of which one is wanted.
 */
#define G_LOG_DOMAIN "plan"

#include <string.h>

#include "plan/nest-private.h"

/* --- scale --- */

static DryLength
find_common (DryLength a, DryLength b)
{
  while (b != 0) {
    DryLength rest = a % b;
    a = b;
    b = rest;
  }
  return a;
}

/* The largest unit that measures every side exactly. Where that would not fit 32 bits the items are
 * rounded up and the sheets down: a layout found so is still right, one may be overlooked. */
static DryLength
find_unit (const DryNestProblem *problem)
{
  DryLength unit = 0, longest = 0;
  for (guint i = 0; i < problem->n_items; i++) {
    unit = find_common (find_common (problem->items[i].width, problem->items[i].height), unit);
    longest = MAX (longest, MAX (problem->items[i].width, problem->items[i].height));
  }
  for (guint i = 0; i < problem->n_sheets; i++)
    longest = MAX (longest, MAX (problem->sheets[i].width, problem->sheets[i].height));
  return MAX (MAX (unit, 1), longest / (1 << 29) + 1);
}

DryTrees *
dry_trees_new (const DryNestProblem *problem)
{
  DryTrees *self = g_new0 (DryTrees, 1);
  guint n = problem->n_items;
  DryLength unit = find_unit (problem);
  self->problem = problem;
  self->items = g_new0 (DryTreeItem, n + 1);
  for (guint i = 0; i < n; i++) {
    const DryNestItem *item = &problem->items[i];
    DryTreeItem *mine = &self->items[i];
    mine->side[0] = (gint32) ((item->width + unit - 1) / unit);
    mine->side[1] = (gint32) ((item->height + unit - 1) / unit);
    mine->may_turn = item->may_turn && mine->side[0] != mine->side[1];
    mine->area = (double) mine->side[0] * (double) mine->side[1];
  }
  self->sheet_size = g_malloc0 (sizeof (gint32[2]) * (problem->n_sheets + 1));
  for (guint i = 0; i < problem->n_sheets; i++) {
    self->sheet_size[i][0] = (gint32) (problem->sheets[i].width / unit);
    self->sheet_size[i][1] = (gint32) (problem->sheets[i].height / unit);
  }
  self->tree_of = g_new (gint32, n + 1);
  self->left_out = g_new (guint32, n + 1);
  self->saved_left_out = g_new (guint32, n + 1);
  self->stack = g_new (gint32, 2 * n + 2);
  return self;
}

static void
free_trees (DryTree *trees, guint n)
{
  for (guint i = 0; i < n; i++) {
    g_free (trees[i].nodes);
    g_free (trees[i].saved);
    g_free (trees[i].rooms);
  }
  g_free (trees);
}

void
dry_trees_free (DryTrees *self)
{
  if (self == NULL)
    return;
  free_trees (self->trees, self->max_trees);
  g_free (self->heads);
  g_free (self->items);
  g_free (self->sheet_size);
  g_free (self->tree_of);
  g_free (self->left_out);
  g_free (self->saved_left_out);
  g_free (self->touched);
  g_free (self->stack);
  g_free (self);
}

static void
make_room_for_trees (DryTrees *self, guint n)
{
  if (n <= self->max_trees)
    return;
  self->trees = g_renew (DryTree, self->trees, n);
  memset (self->trees + self->max_trees, 0, sizeof (DryTree) * (n - self->max_trees));
  self->heads = g_renew (DryTreeHead, self->heads, n);
  self->touched = g_renew (guint32, self->touched, n);
  self->max_trees = n;
}

static void
make_room_for_nodes (DryTree *tree, guint n)
{
  if (n <= tree->capacity)
    return;
  tree->capacity = MAX (16, MAX (n, 2 * tree->capacity));
  tree->nodes = g_renew (DryTreeNode, tree->nodes, tree->capacity);
  tree->saved = g_renew (DryTreeNode, tree->saved, tree->capacity);
  tree->rooms = g_renew (DryTreeRooms, tree->rooms, (tree->capacity + 3) / 4);
}

static void
clear_tree (DryTree *tree)
{
  tree->n_nodes = 0;
  tree->root = DRY_TREE_NONE;
  tree->used = 0;
}

static void
set_kind (DryTrees *self, DryTree *tree, guint kind)
{
  tree->kind = kind;
  tree->width = self->sheet_size[kind][0];
  tree->height = self->sheet_size[kind][1];
  tree->area = (double) tree->width * (double) tree->height;
}

static void measure_room (DryTrees *self, DryTree *tree);

void
dry_trees_clear (DryTrees *self, const guint *kinds, guint n)
{
  make_room_for_trees (self, n);
  self->n_trees = n;
  for (guint i = 0; i < n; i++) {
    clear_tree (&self->trees[i]);
    set_kind (self, &self->trees[i], kinds[i]);
    self->trees[i].is_saved = FALSE;
    measure_room (self, &self->trees[i]);
  }
  self->n_left_out = self->problem->n_items;
  for (guint i = 0; i < self->problem->n_items; i++) {
    self->tree_of[i] = DRY_TREE_NONE;
    self->left_out[i] = i;
  }
  dry_trees_keep (self);
}

/* --- keeping and undoing --- */

static void
save_tree (DryTrees *self, guint index)
{
  DryTree *tree = &self->trees[index];
  if (tree->is_saved)
    return;
  tree->is_saved = TRUE;
  tree->n_saved = tree->n_nodes;
  tree->saved_root = tree->root;
  tree->saved_used = tree->used;
  tree->saved_kind = tree->kind;
  if (tree->n_nodes > 0)
    memcpy (tree->saved, tree->nodes, sizeof (DryTreeNode) * tree->n_nodes);
  self->touched[self->n_touched++] = index;
}

void
dry_trees_keep (DryTrees *self)
{
  for (guint i = 0; i < self->n_touched; i++)
    self->trees[self->touched[i]].is_saved = FALSE;
  self->n_touched = 0;
  self->n_saved_left_out = self->n_left_out;
  memcpy (self->saved_left_out, self->left_out, sizeof (guint32) * self->n_left_out);
}

void
dry_trees_undo (DryTrees *self)
{
  for (guint i = 0; i < self->n_touched; i++) {
    guint index = self->touched[i];
    DryTree *tree = &self->trees[index];
    DryTreeNode *nodes = tree->nodes;
    tree->nodes = tree->saved;
    tree->saved = nodes;
    tree->n_nodes = tree->n_saved;
    tree->root = tree->saved_root;
    tree->used = tree->saved_used;
    if (tree->kind != tree->saved_kind)
      set_kind (self, tree, tree->saved_kind);
    tree->is_saved = FALSE;
    for (guint j = 0; j < tree->n_nodes; j++)
      if (tree->nodes[j].item >= 0)
        self->tree_of[tree->nodes[j].item] = (gint32) index;
    measure_room (self, tree);
  }
  self->n_touched = 0;
  self->n_left_out = self->n_saved_left_out;
  memcpy (self->left_out, self->saved_left_out, sizeof (guint32) * self->n_left_out);
  for (guint i = 0; i < self->n_left_out; i++)
    self->tree_of[self->left_out[i]] = DRY_TREE_NONE;
}

/* --- measures --- */

/* Least sizes from the node up to the root. */
static void
measure_least (DryTree *tree, gint32 at)
{
  for (; at != DRY_TREE_NONE; at = tree->nodes[at].parent) {
    DryTreeNode *node = &tree->nodes[at];
    const DryTreeNode *left = &tree->nodes[node->left], *right = &tree->nodes[node->right];
    if (node->upright) {
      node->width = left->width + right->width;
      node->height = MAX (left->height, right->height);
    } else {
      node->width = MAX (left->width, right->width);
      node->height = left->height + right->height;
    }
  }
}

static inline void
note_rooms (DryTree *tree, guint at, gint32 beside, gint32 above, gint32 width, gint32 height)
{
  DryTreeRooms *rooms = &tree->rooms[at / 4];
  rooms->beside[at % 4] = beside;
  rooms->above[at % 4] = above;
  rooms->room_width[at % 4] = width;
  rooms->room_height[at % 4] = height;
}

/* Rooms from the root down. */
static void
measure_room (DryTrees *self, DryTree *tree)
{
  gint32 most_beside = 0, most_above = 0;
  if (tree->root != DRY_TREE_NONE) {
    DryTreeNode *nodes = tree->nodes;
    guint n = 0;
    nodes[tree->root].room_width = tree->width;
    nodes[tree->root].room_height = tree->height;
    self->stack[n++] = tree->root;
    while (n > 0) {
      guint at = (guint) self->stack[--n];
      const DryTreeNode *node = &nodes[at];
      gint32 beside = node->room_width - node->width, above = node->room_height - node->height;
      note_rooms (tree, at, beside, above, node->room_width, node->room_height);
      most_beside = MAX (most_beside, beside);
      most_above = MAX (most_above, above);
      if (node->item >= 0)
        continue;
      DryTreeNode *left = &nodes[node->left], *right = &nodes[node->right];
      if (node->upright) {
        left->room_width = left->width + beside;
        right->room_width = right->width + beside;
        left->room_height = right->room_height = node->room_height;
      } else {
        left->room_width = right->room_width = node->room_width;
        left->room_height = left->height + above;
        right->room_height = right->height + above;
      }
      self->stack[n++] = node->left;
      self->stack[n++] = node->right;
    }
    self->work += tree->n_nodes;
    for (guint i = tree->n_nodes; i % 4 != 0; i++)
      note_rooms (tree, i, -1, -1, -1, -1);
  } else {
    most_beside = tree->width;
    most_above = tree->height;
  }
  tree->most_beside = most_beside;
  tree->most_above = most_above;
  gboolean bare = tree->root == DRY_TREE_NONE;
  self->heads[tree - self->trees] =
      (DryTreeHead){tree->area - tree->used, bare ? -1 : most_beside, bare ? -1 : most_above};
}

/* --- placing --- */

typedef struct {
  gint32 tree, node;
  guint8 upright, turned;
  double score;
} Place;

static inline double
judge (guint measure, gint32 own, gint32 own_other, gint32 room, gint32 room_other, gint32 side,
       gint32 side_other)
{
  /* The item stands `side` along the direction in which it joins, `side_other` across. */
  double gap = room - own, rest = gap - side, across = room_other - side_other;
  double uneven = side_other > own_other ? (double) (side_other - own_other) * own
                                         : (double) (own_other - side_other) * side;
  switch (measure) {
  case 0: /* the smallest room it fits */
    return gap * room_other - (double) side * side_other;
  case 1: /* the least rest on one side */
    return MIN (rest, across) * 1024.0 + MAX (rest, across);
  case 2: /* little shut in between the two */
    return uneven + 0.25 * rest * MAX (own_other, side_other);
  case 3: { /* the rests as large as can be */
    double one = rest * room_other, two = side * across, three = rest * side_other,
           four = gap * across, whole = gap * room_other;
    double first = one * one + two * two, second = three * three + four * four;
    return whole * whole - MAX (first, second);
  }
  default: /* wasted within, then the smallest room */
    return uneven + rest * side_other;
  }
}

static void
try_node (const DryTree *tree, guint index, guint at, gint32 width, gint32 height, guint8 turned,
          const DryTreeTaste *taste, guint64 *random, Place *best)
{
  const DryTreeNode *node = &tree->nodes[at];
  gboolean fits_beside = node->width + width <= node->room_width && height <= node->room_height;
  gboolean fits_above = node->height + height <= node->room_height && width <= node->room_width;
  if (!fits_beside && !fits_above)
    return;
  if (taste->blink > 0 && dry_nest_random (random) < taste->blink)
    return;
  if (fits_beside) {
    double score = judge (taste->measure, node->width, node->height, node->room_width,
                          node->room_height, width, height);
    if (score < best->score)
      *best = (Place){(gint32) index, (gint32) at, TRUE, turned, score};
  }
  if (fits_above) {
    double score = judge (taste->measure, node->height, node->width, node->room_height,
                          node->room_width, height, width);
    if (score < best->score)
      *best = (Place){(gint32) index, (gint32) at, FALSE, turned, score};
  }
}

/* Whether it fits beside or above any of the four. */
static inline gboolean
fits_any (const DryTreeRooms *rooms, gint32 width, gint32 height)
{
  typedef gint64 Two __attribute__ ((vector_size (16)));
  DryFour wide = {width, width, width, width}, high = {height, height, height, height};
  Two fits = (Two) (((rooms->beside >= wide) & (rooms->room_height >= high)) |
                    ((rooms->above >= high) & (rooms->room_width >= wide)));
  return (fits[0] | fits[1]) != 0;
}

static void
try_tree (DryTrees *self, guint index, const DryTreeItem *item, const DryTreeTaste *taste,
          guint64 *random, Place *best)
{
  const DryTree *tree = &self->trees[index];
  for (guint turned = 0; turned <= (item->may_turn ? 1u : 0u); turned++) {
    gint32 width = item->side[turned], height = item->side[1 - turned];
    if (width > tree->most_beside && height > tree->most_above)
      continue;
    for (guint i = 0; i < tree->n_nodes; i += 4) {
      if (!fits_any (&tree->rooms[i / 4], width, height))
        continue;
      for (guint j = i; j < MIN (i + 4, tree->n_nodes); j++)
        try_node (tree, index, j, width, height, (guint8) turned, taste, random, best);
    }
    self->work += tree->n_nodes;
  }
}

static gint32
add_leaf (DryTrees *self, DryTree *tree, guint item, guint8 turned)
{
  const DryTreeItem *it = &self->items[item];
  gint32 leaf = (gint32) tree->n_nodes++;
  tree->nodes[leaf] = (DryTreeNode){
      .width = it->side[turned],
      .height = it->side[1 - turned],
      .left = DRY_TREE_NONE,
      .right = DRY_TREE_NONE,
      .parent = DRY_TREE_NONE,
      .item = (gint32) item,
      .turned = turned,
  };
  return leaf;
}

static void
place_item (DryTrees *self, guint item, const Place *place)
{
  DryTree *tree = &self->trees[place->tree];
  save_tree (self, (guint) place->tree);
  make_room_for_nodes (tree, tree->n_nodes + 2);
  gint32 leaf = add_leaf (self, tree, item, place->turned);
  if (place->node == DRY_TREE_NONE) {
    tree->root = leaf;
  } else {
    gint32 join = (gint32) tree->n_nodes++, parent = tree->nodes[place->node].parent;
    tree->nodes[join] = (DryTreeNode){
        .left = place->node,
        .right = leaf,
        .parent = parent,
        .item = DRY_TREE_NONE,
        .upright = place->upright,
    };
    tree->nodes[leaf].parent = tree->nodes[place->node].parent = join;
    if (parent == DRY_TREE_NONE)
      tree->root = join;
    else if (tree->nodes[parent].left == place->node)
      tree->nodes[parent].left = join;
    else
      tree->nodes[parent].right = join;
    measure_least (tree, join);
  }
  tree->used += self->items[item].area;
  self->tree_of[item] = place->tree;
  measure_room (self, tree);
}

gboolean
dry_trees_insert (DryTrees *self, guint item, const DryTreeTaste *taste, guint64 *random)
{
  const DryTreeItem *it = &self->items[item];
  Place best = {DRY_TREE_NONE, DRY_TREE_NONE, 0, 0, G_MAXDOUBLE};
  gint32 bare = DRY_TREE_NONE;
  self->work += self->n_trees / 2 + 4;
  gint32 least = MIN (it->side[0], it->side[1]);
  for (guint t = 0; t < self->n_trees; t++) {
    const DryTreeHead *head = &self->heads[t];
    if (head->most_beside < 0) {
      const DryTree *tree = &self->trees[t];
      if (bare == DRY_TREE_NONE &&
          ((it->side[0] <= tree->width && it->side[1] <= tree->height) ||
           (it->may_turn && it->side[1] <= tree->width && it->side[0] <= tree->height)))
        bare = (gint32) t;
      continue;
    }
    if (it->area <= head->left && (least <= head->most_beside || least <= head->most_above))
      try_tree (self, t, it, taste, random, &best);
  }
  if (best.tree == DRY_TREE_NONE) {
    if (bare == DRY_TREE_NONE)
      return FALSE;
    const DryTree *tree = &self->trees[bare];
    gboolean stands = it->side[0] <= tree->width && it->side[1] <= tree->height;
    gboolean turns = it->may_turn && it->side[1] <= tree->width && it->side[0] <= tree->height;
    best = (Place){bare, DRY_TREE_NONE, 0, !stands, 0};
    if (stands && turns)
      best.turned = dry_nest_random (random) & 1;
  }
  place_item (self, item, &best);
  return TRUE;
}

/* --- taking out --- */

/* Moves the last node into the hole at `at`. */
static void
close_hole (DryTree *tree, gint32 at)
{
  gint32 last = (gint32) --tree->n_nodes;
  if (at == last)
    return;
  DryTreeNode *node = &tree->nodes[at];
  *node = tree->nodes[last];
  if (tree->root == last)
    tree->root = at;
  if (node->parent != DRY_TREE_NONE) {
    if (tree->nodes[node->parent].left == last)
      tree->nodes[node->parent].left = at;
    else
      tree->nodes[node->parent].right = at;
  }
  if (node->item < 0)
    tree->nodes[node->left].parent = tree->nodes[node->right].parent = at;
}

static void
take_leaf (DryTrees *self, DryTree *tree, gint32 leaf)
{
  guint item = (guint) tree->nodes[leaf].item;
  gint32 join = tree->nodes[leaf].parent;
  tree->used -= self->items[item].area;
  self->tree_of[item] = DRY_TREE_NONE;
  if (join == DRY_TREE_NONE) {
    clear_tree (tree);
    return;
  }
  gint32 other = tree->nodes[join].left == leaf ? tree->nodes[join].right : tree->nodes[join].left;
  gint32 above = tree->nodes[join].parent;
  tree->nodes[other].parent = above;
  if (above == DRY_TREE_NONE)
    tree->root = other;
  else if (tree->nodes[above].left == join)
    tree->nodes[above].left = other;
  else
    tree->nodes[above].right = other;
  measure_least (tree, above);
  /* The higher index first, so that the move does not move the other hole. */
  close_hole (tree, MAX (leaf, join));
  close_hole (tree, MIN (leaf, join));
}

void
dry_trees_take_out (DryTrees *self, guint index, gint32 node, guint32 *out, guint *n_out)
{
  DryTree *tree = &self->trees[index];
  save_tree (self, index);
  guint first = *n_out;
  if (node == tree->root) {
    for (guint i = 0; i < tree->n_nodes; i++)
      if (tree->nodes[i].item >= 0) {
        self->tree_of[tree->nodes[i].item] = DRY_TREE_NONE;
        out[(*n_out)++] = (guint32) tree->nodes[i].item;
      }
    clear_tree (tree);
  } else {
    guint n = 0;
    self->stack[n++] = node;
    while (n > 0) {
      const DryTreeNode *at = &tree->nodes[self->stack[--n]];
      if (at->item >= 0) {
        out[(*n_out)++] = (guint32) at->item;
      } else {
        self->stack[n++] = at->left;
        self->stack[n++] = at->right;
      }
    }
    for (guint i = first; i < *n_out; i++)
      for (guint j = 0; j < tree->n_nodes; j++)
        if (tree->nodes[j].item == (gint32) out[i]) {
          take_leaf (self, tree, (gint32) j);
          break;
        }
  }
  self->work += tree->n_nodes + 4 * (*n_out - first);
  measure_room (self, tree);
}

void
dry_trees_set_kind (DryTrees *self, guint index, guint kind)
{
  DryTree *tree = &self->trees[index];
  g_assert (tree->root == DRY_TREE_NONE);
  save_tree (self, index);
  set_kind (self, tree, kind);
  measure_room (self, tree);
}

void
dry_trees_put (DryTrees *self, guint index, const DryTreeNode *nodes, guint n_nodes, gint32 root)
{
  DryTree *tree = &self->trees[index];
  save_tree (self, index);
  make_room_for_nodes (tree, n_nodes);
  memcpy (tree->nodes, nodes, sizeof (DryTreeNode) * n_nodes);
  tree->n_nodes = n_nodes;
  tree->root = root;
  g_autofree guint *again = g_new (guint, n_nodes);
  guint n_again = 0;
  for (guint i = 0; i < n_nodes; i++) {
    if (nodes[i].item < 0)
      continue;
    tree->used += self->items[nodes[i].item].area;
    if (self->tree_of[nodes[i].item] != DRY_TREE_NONE)
      again[n_again++] = (guint) nodes[i].item;
    else
      self->tree_of[nodes[i].item] = (gint32) index;
  }
  for (guint i = 0; i < n_again; i++)
    for (guint j = 0; j < tree->n_nodes; j++)
      if (tree->nodes[j].item == (gint32) again[i]) {
        gint32 elsewhere = self->tree_of[again[i]];
        take_leaf (self, tree, (gint32) j);
        self->tree_of[again[i]] = elsewhere;
        break;
      }
  measure_room (self, tree);
  guint kept = 0;
  for (guint i = 0; i < self->n_left_out; i++)
    if (self->tree_of[self->left_out[i]] == DRY_TREE_NONE)
      self->left_out[kept++] = self->left_out[i];
  self->n_left_out = kept;
}
