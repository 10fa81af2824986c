/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Proof by trying everything: which sets of the largest items one sheet can give at all, and how
 * few such sets hold them all. Leaving the small items out makes the proof weaker, never wrong. */
#define G_LOG_DOMAIN "plan"

#include <stdlib.h>

#include "plan/nest-private.h"

#define MOST_ITEMS   18
#define FIRST_CHECK  6
#define MOST_ON_HAND 8

typedef struct {
  DryLength width, height;
} Box;

typedef struct {
  const DryNestProblem *problem;
  guint items[MOST_ITEMS];
  guint n;       /* items in the proof so far: bits of a set */
  GArray *boxes; /* Box: least boxes, by rising width */
  guint *first;  /* set -> its boxes */
  guint *count;  /* 0: no sheet can give the set */
  double *area, *cost;
  GArray *by_lowest[MOST_ITEMS];    /* guint: possible sets, by the first item in them */
  GArray *scratch;                  /* Box */
  GHashTable *failed;               /* set and number of sheets -> index in costs */
  GArray *failed_cost;              /* double: most money that did not do */
  guint hand[MOST_ON_HAND], n_hand; /* kinds, one for each sheet */
  GArray *hand_parts[MOST_ON_HAND]; /* guint: the sets each can give */
  double largest;
  guint64 work, limit;
  GCancellable *cancellable;
} Prover;

static gboolean
is_spent (const Prover *self)
{
  return self->work >= self->limit || g_cancellable_is_cancelled (self->cancellable);
}

/* --- sets one sheet can give --- */

static gboolean
fits_kind (const DryNestSheet *sheet, Box box)
{
  return box.width <= sheet->width && box.height <= sheet->height;
}

static gboolean
fits_any (const DryNestProblem *problem, Box box)
{
  for (guint i = 0; i < problem->n_sheets; i++)
    if (fits_kind (&problem->sheets[i], box))
      return TRUE;
  return FALSE;
}

static void
offer (Prover *self, Box box)
{
  if (fits_any (self->problem, box))
    g_array_append_val (self->scratch, box);
}

static gint
compare_boxes (gconstpointer a, gconstpointer b)
{
  const Box *left = a, *right = b;
  if (left->width != right->width)
    return left->width < right->width ? -1 : 1;
  return left->height < right->height ? -1 : left->height > right->height;
}

/* Keeps of what was offered the boxes no other lies within. */
static void
store (Prover *self, guint set)
{
  const DryNestProblem *problem = self->problem;
  g_array_sort (self->scratch, compare_boxes);
  self->first[set] = self->boxes->len;
  self->cost[set] = G_MAXDOUBLE;
  DryLength lowest = G_MAXINT64;
  for (guint i = 0; i < self->scratch->len; i++) {
    Box box = g_array_index (self->scratch, Box, i);
    if (box.height >= lowest)
      continue;
    lowest = box.height;
    g_array_append_val (self->boxes, box);
    for (guint k = problem->n_on_hand; k < problem->n_sheets; k++)
      if (fits_kind (&problem->sheets[k], box))
        self->cost[set] = MIN (self->cost[set], problem->sheets[k].cost);
  }
  self->count[set] = self->boxes->len - self->first[set];
  self->work += 4 + self->scratch->len;
  g_array_set_size (self->scratch, 0);
}

static void
join (Prover *self, guint a, guint b)
{
  for (guint i = 0; i < self->count[a]; i++)
    for (guint j = 0; j < self->count[b]; j++) {
      Box left = g_array_index (self->boxes, Box, self->first[a] + i);
      Box right = g_array_index (self->boxes, Box, self->first[b] + j);
      offer (self, (Box){left.width + right.width, MAX (left.height, right.height)});
      offer (self, (Box){MAX (left.width, right.width), left.height + right.height});
    }
  self->work += self->count[a] * self->count[b];
}

static gboolean
may_be_possible (const Prover *self, guint set)
{
  if (self->area[set] > self->largest)
    return FALSE;
  for (guint rest = set; rest != 0; rest &= rest - 1)
    if (self->count[set ^ (rest & (~rest + 1))] == 0)
      return FALSE;
  return TRUE;
}

/* Every way to cut the set from a sheet begins with a cut that parts it in two; the first item
 * stays in the first part, by symmetry. */
static void
find_boxes (Prover *self, guint set)
{
  guint lowest = set & (~set + 1);
  self->area[set] = self->area[set ^ lowest] + self->area[lowest];
  self->count[set] = 0;
  self->work += 1;
  if (!may_be_possible (self, set))
    return;
  for (guint part = (set - 1) & set; part != 0 && !is_spent (self); part = (part - 1) & set)
    if (part & lowest)
      join (self, part, set ^ part);
  store (self, set);
  if (self->count[set] > 0)
    g_array_append_val (self->by_lowest[g_bit_nth_lsf (set, -1)], set);
}

static void
add_item (Prover *self)
{
  const DryNestItem *item = &self->problem->items[self->items[self->n]];
  guint bit = 1u << self->n;
  self->area[bit] = (double) item->width * (double) item->height;
  offer (self, (Box){item->width, item->height});
  if (item->may_turn)
    offer (self, (Box){item->height, item->width});
  store (self, bit);
  g_array_append_val (self->by_lowest[self->n], bit);
  self->n++;
  for (guint set = bit + 1; set < 2 * bit && !is_spent (self); set++)
    find_boxes (self, set);
}

/* --- how few such sets hold all --- */

static gboolean
has_failed (Prover *self, guint set, guint sheets, double money, gboolean note)
{
  gpointer key = GUINT_TO_POINTER (set * 64 + sheets + 1), at;
  if (!g_hash_table_lookup_extended (self->failed, key, NULL, &at)) {
    if (note) {
      g_hash_table_insert (self->failed, key, GUINT_TO_POINTER (self->failed_cost->len));
      g_array_append_val (self->failed_cost, money);
    }
    return FALSE;
  }
  double *most = &g_array_index (self->failed_cost, double, GPOINTER_TO_UINT (at));
  if (note)
    *most = MAX (*most, money);
  return money <= *most;
}

/* Can the set be had from so many sheets costing less than `money`? A prover that is spent says
 * yes, which proves nothing. */
static gboolean
can_buy (Prover *self, guint set, guint sheets, double money)
{
  if (set == 0)
    return money > 0;
  if (is_spent (self))
    return TRUE;
  if (self->area[set] > sheets * self->largest * (1 + 1e-12) ||
      has_failed (self, set, sheets, money, FALSE))
    return FALSE;
  const GArray *parts = self->by_lowest[g_bit_nth_lsf (set, -1)];
  self->work += parts->len;
  for (guint i = parts->len; i-- > 0;) {
    guint part = g_array_index (parts, guint, i);
    if ((part & ~set) == 0 && self->cost[part] < money &&
        can_buy (self, set ^ part, sheets - 1, money - self->cost[part]))
      return TRUE;
  }
  has_failed (self, set, sheets, money, TRUE);
  return FALSE;
}

static gboolean
fits_sheet (const Prover *self, guint set, const DryNestSheet *sheet)
{
  for (guint i = 0; i < self->count[set]; i++)
    if (fits_kind (sheet, g_array_index (self->boxes, Box, self->first[set] + i)))
      return TRUE;
  return FALSE;
}

/* Whatever part of the set is taken from what is on hand, the rest must be bought. */
static gboolean
can_have (Prover *self, guint set, guint hand, guint sheets, double money)
{
  if (hand >= MIN (self->n_hand, MOST_ON_HAND))
    return can_buy (self, set, sheets, money);
  if (can_have (self, set, hand + 1, sheets, money))
    return TRUE;
  const GArray *parts = self->hand_parts[hand];
  self->work += parts->len;
  for (guint i = 0; i < parts->len; i++) {
    guint part = g_array_index (parts, guint, i);
    if (is_spent (self))
      return TRUE;
    if ((part & ~set) == 0 && can_have (self, set ^ part, hand + 1, sheets, money))
      return TRUE;
  }
  return FALSE;
}

/* The sets of all items so far that each sheet on hand can give. */
static void
list_hand_parts (Prover *self)
{
  for (guint hand = 0; hand < self->n_hand; hand++) {
    const DryNestSheet *sheet = &self->problem->sheets[self->hand[hand]];
    g_array_set_size (self->hand_parts[hand], 0);
    for (guint set = 1; set < (1u << self->n); set++)
      if (self->count[set] > 0 && fits_sheet (self, set, sheet))
        g_array_append_val (self->hand_parts[hand], set);
    self->work += (1u << self->n) / 8;
  }
}

/* --- the proof --- */

static gint
compare_areas (gconstpointer a, gconstpointer b, gpointer data)
{
  const DryNestItem *items = data;
  guint i = *(const guint *) a, j = *(const guint *) b;
  double left = (double) items[i].width * (double) items[i].height;
  double right = (double) items[j].width * (double) items[j].height;
  if (left != right)
    return left > right ? -1 : 1;
  return i < j ? -1 : i > j;
}

static guint
choose_items (Prover *self)
{
  guint n = self->problem->n_items;
  g_autofree guint *order = g_new (guint, n);
  for (guint i = 0; i < n; i++)
    order[i] = i;
  g_qsort_with_data (order, (gint) n, sizeof (guint), compare_areas, self->problem->items);
  guint take = MIN (n, MOST_ITEMS);
  for (guint i = 0; i < take; i++)
    self->items[i] = order[i];
  return take;
}

static gboolean
begin (Prover *self, guint n)
{
  const DryNestProblem *problem = self->problem;
  for (guint i = 0; i < problem->n_on_hand; i++)
    for (gint j = 0; j < problem->sheets[i].count; j++) {
      if (self->n_hand == MOST_ON_HAND)
        return FALSE;
      self->hand[self->n_hand++] = i;
    }
  for (guint i = 0; i < problem->n_sheets; i++)
    self->largest =
        MAX (self->largest, (double) problem->sheets[i].width * (double) problem->sheets[i].height);
  for (guint i = 0; i < self->n_hand; i++)
    self->hand_parts[i] = g_array_new (FALSE, FALSE, sizeof (guint));
  self->boxes = g_array_new (FALSE, FALSE, sizeof (Box));
  self->scratch = g_array_new (FALSE, FALSE, sizeof (Box));
  self->failed = g_hash_table_new (NULL, NULL);
  self->failed_cost = g_array_new (FALSE, FALSE, sizeof (double));
  self->first = g_new0 (guint, (gsize) 1 << n);
  self->count = g_new0 (guint, (gsize) 1 << n);
  self->area = g_new0 (double, (gsize) 1 << n);
  self->cost = g_new0 (double, (gsize) 1 << n);
  for (guint i = 0; i < n; i++)
    self->by_lowest[i] = g_array_new (FALSE, FALSE, sizeof (guint));
  return TRUE;
}

static void
end (Prover *self, guint n)
{
  if (self->boxes == NULL)
    return;
  for (guint i = 0; i < self->n_hand; i++)
    g_array_unref (self->hand_parts[i]);
  g_array_unref (self->boxes);
  g_array_unref (self->scratch);
  g_hash_table_unref (self->failed);
  g_array_unref (self->failed_cost);
  g_free (self->first);
  g_free (self->count);
  g_free (self->area);
  g_free (self->cost);
  for (guint i = 0; i < n; i++)
    g_array_unref (self->by_lowest[i]);
}

/* What failed for fewer items fails for more: the notes stay good, since items only come on top. */
static void
check (Prover *self, guint most, double money, DryNestProof *proof)
{
  guint all = (1u << self->n) - 1;
  list_hand_parts (self);
  while (proof->sheets < most && !can_have (self, all, 0, proof->sheets, G_MAXDOUBLE))
    if (!is_spent (self))
      proof->sheets++;
  if (proof->sheets == most && !proof->is_cheapest && !is_spent (self))
    proof->is_cheapest = !can_have (self, all, 0, most, money);
}

DryNestProof
dry_nest_prove (const DryNestProblem *problem, guint lower_bound, guint most, double money,
                guint64 effort, GCancellable *cancellable)
{
  DryNestProof proof = {.sheets = MIN (lower_bound, most)};
  Prover self = {.problem = problem, .limit = effort, .cancellable = cancellable};
  if (problem->n_items == 0 || most > 60)
    return proof;
  guint n = choose_items (&self);
  /* Every set takes a unit at least: no room is made for sets there is no time for. */
  while (n > 1 && G_GUINT64_CONSTANT (1) << (n - 1) > effort)
    n--;
  if (begin (&self, n))
    while (self.n < n && !is_spent (&self) && (proof.sheets < most || !proof.is_cheapest)) {
      add_item (&self);
      if (self.n == n || (self.n >= FIRST_CHECK && self.n % 2 == 0))
        check (&self, most, money, &proof);
    }
  end (&self, n);
  proof.spent = self.work;
  return proof;
}
