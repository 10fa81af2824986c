/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Well filled sheets met with during the search, and the choice of so many of them that together
 * hold every item: a set cover, searched with weights on the items that are hard to cover. */
#define G_LOG_DOMAIN "plan"

#include <string.h>

#include "plan/nest-private.h"

#define MOST_SHEETS  16384 /* power of two */
#define MOST_ON_ONE  16    /* items; fuller sheets are no use, there are too many of them */
#define SLOTS        (4 * MOST_SHEETS)
#define NODES_STRIDE (2 * MOST_ON_ONE - 1)

struct _DryPool {
  guint n_items;
  guint n, next;  /* stored; place of the next, which may be taken by an old one */
  guint64 *names; /* of the items: a set's name is their sum */
  guint64 *set;   /* name of each stored set */
  guint32 *slots; /* name -> stored set + 1 */
  guint16 (*items)[MOST_ON_ONE];
  guint8 *size;
  DryTreeNode (*nodes)[NODES_STRIDE];
  gint32 *root;
  /* of one cover */
  guint32 *of_item, *first_of; /* stored sets by item */
  guint32 *weight;
  guint16 *covered;
  guint32 *chosen, *best, *age;
  guint32 *open; /* items not covered */
};

DryPool *
dry_pool_new (guint n_items)
{
  DryPool *self = g_new0 (DryPool, 1);
  guint64 random = G_GUINT64_CONSTANT (88172645463325252);
  self->n_items = n_items;
  self->names = g_new (guint64, n_items + 1);
  for (guint i = 0; i < n_items; i++)
    self->names[i] = ((guint64) dry_nest_random (&random) << 32) | dry_nest_random (&random);
  self->set = g_new0 (guint64, MOST_SHEETS);
  self->slots = g_new0 (guint32, SLOTS);
  self->items = g_malloc (sizeof *self->items * MOST_SHEETS);
  self->size = g_new (guint8, MOST_SHEETS);
  self->nodes = g_malloc (sizeof *self->nodes * MOST_SHEETS);
  self->root = g_new (gint32, MOST_SHEETS);
  self->of_item = g_new (guint32, MOST_SHEETS * MOST_ON_ONE);
  self->first_of = g_new (guint32, n_items + 2);
  self->weight = g_new (guint32, n_items + 1);
  self->covered = g_new (guint16, n_items + 1);
  self->chosen = g_new (guint32, n_items + 1);
  self->best = g_new (guint32, n_items + 1);
  self->open = g_new (guint32, n_items + 1);
  self->age = g_new (guint32, MOST_SHEETS);
  return self;
}

void
dry_pool_free (DryPool *self)
{
  if (self == NULL)
    return;
  g_free (self->names);
  g_free (self->set);
  g_free (self->slots);
  g_free (self->items);
  g_free (self->size);
  g_free (self->nodes);
  g_free (self->root);
  g_free (self->of_item);
  g_free (self->first_of);
  g_free (self->weight);
  g_free (self->covered);
  g_free (self->chosen);
  g_free (self->best);
  g_free (self->open);
  g_free (self->age);
  g_free (self);
}

/* --- storing --- */

static guint32
find_slot (const DryPool *self, guint64 name)
{
  guint32 slot = (guint32) (name >> 40) % SLOTS;
  while (self->slots[slot] != 0 && self->set[self->slots[slot] - 1] != name)
    slot = (slot + 1) % SLOTS;
  return slot;
}

/* Open addressing: whoever came to stand behind the hole is moved up. */
static void
clear_slot (DryPool *self, guint32 hole)
{
  self->slots[hole] = 0;
  for (guint32 at = (hole + 1) % SLOTS; self->slots[at] != 0; at = (at + 1) % SLOTS) {
    guint32 stored = self->slots[at];
    self->slots[at] = 0;
    self->slots[find_slot (self, self->set[stored - 1])] = stored;
  }
}

void
dry_pool_offer (DryPool *self, const DryTree *tree)
{
  if (tree->n_nodes > NODES_STRIDE)
    return;
  guint64 name = 0;
  for (guint i = 0; i < tree->n_nodes; i++)
    if (tree->nodes[i].item >= 0)
      name += self->names[tree->nodes[i].item];
  guint32 slot = find_slot (self, name);
  if (self->slots[slot] != 0)
    return;
  guint at = self->next;
  self->next = (self->next + 1) % MOST_SHEETS;
  if (self->n == MOST_SHEETS) {
    clear_slot (self, find_slot (self, self->set[at]));
    slot = find_slot (self, name);
  } else {
    self->n++;
  }
  self->slots[slot] = at + 1;
  self->set[at] = name;
  self->root[at] = tree->root;
  self->size[at] = 0;
  memcpy (self->nodes[at], tree->nodes, sizeof (DryTreeNode) * tree->n_nodes);
  for (guint i = 0; i < tree->n_nodes; i++)
    if (tree->nodes[i].item >= 0)
      self->items[at][self->size[at]++] = (guint16) tree->nodes[i].item;
}

/* --- covering --- */

static void
index_items (DryPool *self)
{
  memset (self->first_of, 0, sizeof (guint32) * (self->n_items + 2));
  for (guint s = 0; s < self->n; s++)
    for (guint i = 0; i < self->size[s]; i++)
      self->first_of[self->items[s][i] + 2]++;
  for (guint i = 2; i < self->n_items + 2; i++)
    self->first_of[i] += self->first_of[i - 1];
  for (guint s = 0; s < self->n; s++)
    for (guint i = 0; i < self->size[s]; i++)
      self->of_item[self->first_of[self->items[s][i] + 1]++] = s;
}

static void
cover (DryPool *self, guint set, gint by)
{
  for (guint i = 0; i < self->size[set]; i++)
    self->covered[self->items[set][i]] = (guint16) (self->covered[self->items[set][i]] + by);
}

/* Weight of the items of the set that are covered `times`. */
static guint32
weigh (const DryPool *self, guint set, guint times)
{
  guint32 sum = 0;
  for (guint i = 0; i < self->size[set]; i++)
    if (self->covered[self->items[set][i]] == times)
      sum += self->weight[self->items[set][i]];
  return sum;
}

static guint
list_open (DryPool *self)
{
  guint n = 0;
  for (guint i = 0; i < self->n_items; i++)
    if (self->covered[i] == 0)
      self->open[n++] = i;
  return n;
}

/* The chosen set that would be missed least, but not the one that came last. */
static guint
find_least (const DryPool *self, guint n_chosen, guint32 last)
{
  guint least = n_chosen;
  guint32 loss = 0;
  for (guint i = 0; i < n_chosen; i++) {
    if (self->chosen[i] == last)
      continue;
    guint32 here = weigh (self, self->chosen[i], 1);
    if (least == n_chosen || here < loss ||
        (here == loss && self->age[self->chosen[i]] < self->age[self->chosen[least]])) {
      least = i;
      loss = here;
    }
  }
  return least;
}

static guint32
find_most (const DryPool *self, guint item, guint32 left, guint64 *work)
{
  guint32 most = G_MAXUINT32, gain = 0;
  guint from = self->first_of[item], to = self->first_of[item + 1];
  *work += (to - from) * 2;
  for (guint i = from; i < to; i++) {
    guint32 set = self->of_item[i];
    if (set == left)
      continue;
    guint32 here = weigh (self, set, 0);
    if (most == G_MAXUINT32 || here > gain || (here == gain && self->age[set] < self->age[most])) {
      most = set;
      gain = here;
    }
  }
  return most;
}

static gboolean
begin_cover (DryPool *self, guint n_sheets, guint64 *random, guint64 *work)
{
  index_items (self);
  *work += self->n * 4;
  memset (self->covered, 0, sizeof (guint16) * self->n_items);
  memset (self->age, 0, sizeof (guint32) * self->n);
  for (guint i = 0; i < self->n_items; i++) {
    self->weight[i] = 1;
    if (self->first_of[i + 1] == self->first_of[i])
      return FALSE; /* an item on no stored sheet */
  }
  for (guint s = 0; s < n_sheets; s++) {
    guint n_open = list_open (self);
    guint item = n_open > 0 ? self->open[dry_nest_random (random) % n_open]
                            : dry_nest_random (random) % self->n_items;
    self->chosen[s] = find_most (self, item, G_MAXUINT32, work);
    cover (self, self->chosen[s], 1);
  }
  return TRUE;
}

/* Puts the chosen sheets into the trees; items covered twice stay on the first. */
static void
install (DryPool *self, DryTrees *trees)
{
  guint n_sheets = trees->n_trees;
  g_autofree guint *kinds = g_new (guint, n_sheets + 1);
  for (guint i = 0; i < n_sheets; i++)
    kinds[i] = trees->trees[i].kind;
  dry_trees_clear (trees, kinds, n_sheets);
  for (guint i = 0; i < n_sheets; i++) {
    guint set = self->best[i];
    dry_trees_put (trees, i, self->nodes[set], 2 * self->size[set] - 1, self->root[set]);
  }
  dry_trees_keep (trees);
}

gboolean
dry_pool_cover (DryPool *self, DryTrees *trees, guint64 units, guint64 *random)
{
  guint n_sheets = trees->n_trees, fewest = G_MAXUINT;
  guint64 limit = trees->work + units;
  if (n_sheets < 2 || self->n < n_sheets || !begin_cover (self, n_sheets, random, &trees->work))
    return FALSE;
  guint32 last = G_MAXUINT32;
  for (guint step = 1; trees->work < limit; step++) {
    guint n_open = list_open (self);
    if (n_open < fewest) {
      fewest = n_open;
      memcpy (self->best, self->chosen, sizeof (guint32) * n_sheets);
    }
    if (n_open == 0)
      break;
    guint out = find_least (self, n_sheets, last);
    guint32 left = self->chosen[out];
    cover (self, left, -1);
    self->age[left] = step;
    n_open = list_open (self);
    g_assert (n_open > 0); /* what was taken out leaves its own open */
    guint item = self->open[dry_nest_random (random) % n_open];
    guint32 in = find_most (self, item, left, &trees->work);
    if (in == G_MAXUINT32)
      in = left;
    self->chosen[out] = last = in;
    self->age[in] = step;
    cover (self, in, 1);
    for (guint i = 0; i < n_open; i++)
      self->weight[self->open[i]] += self->covered[self->open[i]] == 0;
    trees->work += 20 + 4 * n_sheets + self->n_items;
  }
  install (self, trees);
  return trees->n_left_out == 0;
}
