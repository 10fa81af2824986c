/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Writes slicing trees out as cut trees with exact places, so that what is left on a sheet lies
 * together. Knows nothing of how the trees came about. */
#define G_LOG_DOMAIN "plan"

#include "plan/nest-private.h"

typedef struct {
  DryLength width, height;
} Extent;

typedef struct {
  const DryTrees *trees;
  const DryTree *tree;
  DryNestState *state;
  Extent *extents; /* exact least size of each node of the tree */
} Writer;

/* Children may stand behind their parent in the list, so sizes are found by going down first. */
static void
measure (Writer *self, gint32 at)
{
  const DryTreeNode *node = &self->tree->nodes[at];
  if (node->item >= 0) {
    const DryNestItem *item = &self->trees->problem->items[node->item];
    self->extents[at] =
        node->turned ? (Extent){item->height, item->width} : (Extent){item->width, item->height};
    return;
  }
  measure (self, node->left);
  measure (self, node->right);
  Extent left = self->extents[node->left], right = self->extents[node->right];
  self->extents[at] = node->upright
                          ? (Extent){left.width + right.width, MAX (left.height, right.height)}
                          : (Extent){MAX (left.width, right.width), left.height + right.height};
}

/* Cuts the leaf down to the size; what comes off first is cut all along, the larger of the two. */
static gint
trim (Writer *self, gint leaf, Extent size)
{
  DryRect rect = self->state->nodes[leaf].rect;
  DryLength beside = dry_rect_width (rect) - size.width;
  DryLength above = dry_rect_height (rect) - size.height;
  gboolean beside_first = (double) beside * (double) dry_rect_height (rect) >
                          (double) above * (double) dry_rect_width (rect);
  for (guint pass = 0; pass < 2; pass++) {
    if ((pass == 0) == beside_first) {
      if (beside > 0)
        leaf = dry_nest_state_cut (self->state, leaf, TRUE, rect.x0 + size.width);
    } else if (above > 0) {
      leaf = dry_nest_state_cut (self->state, leaf, FALSE, rect.y0 + size.height);
    }
  }
  return leaf;
}

/* The slack stays with the last part of a row, where it is cut off in one piece. */
static void
write_node (Writer *self, gint32 at, gint leaf)
{
  const DryTreeNode *node = &self->tree->nodes[at];
  leaf = trim (self, leaf, self->extents[at]);
  if (node->item >= 0) {
    dry_nest_state_seat (self->state, leaf, (guint) node->item, node->turned);
    return;
  }
  DryRect rect = self->state->nodes[leaf].rect;
  Extent left = self->extents[node->left];
  gint first = dry_nest_state_cut (self->state, leaf, node->upright,
                                   node->upright ? rect.x0 + left.width : rect.y0 + left.height);
  gint second = self->state->nodes[leaf].second;
  write_node (self, node->left, first);
  write_node (self, node->right, second);
}

void
dry_trees_write (const DryTrees *self, DryNestState *state)
{
  g_autofree Extent *extents = g_new (Extent, 2 * self->problem->n_items + 1);
  dry_nest_state_clear (state);
  for (guint i = 0; i < self->n_trees; i++) {
    const DryTree *tree = &self->trees[i];
    if (tree->root == DRY_TREE_NONE)
      continue;
    Writer writer = {self, tree, state, extents};
    measure (&writer, tree->root);
    write_node (&writer, tree->root, dry_nest_state_open (state, tree->kind));
  }
}
