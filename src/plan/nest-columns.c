/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A lower bound for long lists: prices of the items such that nothing cut from one sheet is worth
 * more than 1, found by column generation. Whatever the prices, the bound is made sure by an exact
 * knapsack of whole numbers, so rounding can weaken it but never make it wrong. */
#define G_LOG_DOMAIN "plan"

#include <math.h>
#include <string.h>

#include "plan/nest-private.h"

/* Gilmore and Gomory, "Multistage cutting stock problems of two and more dimensions" (1965): the
 * most that can be cut from a rectangle edge to edge, if items may be cut any number of times, and
 * the linear program whose columns are such layouts. Farley, "A note on bounding a class of linear
 * programming problems" (1990): any prices give a bound. */

#define MOST_ITEMS   250
#define GRID         100 /* cells along a side, where lengths have no common measure */
#define MOST_CELLS   128 /* of a common measure */
#define ONE          ((gint32) 1 << 22) /* a price of 1 */
#define MOST_STEPS   4000
#define MOST_AT_ONCE 12 /* layouts taken from one knapsack */
#define TINY         1e-9

typedef struct {
  guint side[2]; /* in cells, rounded down: what fits the sheet still fits */
  gboolean may_turn, counts;
} Cells;

typedef struct {
  guint width, height;
} Field;

typedef struct {
  const DryNestProblem *problem;
  guint n;
  Cells *items;
  Field *fields; /* the sheets */
  guint n_fields;
  guint width, height; /* of all fields together */
  gint32 *price;
  gint32 *worth;  /* [x * (height + 1) + y]: most that can be cut from x by y */
  gint32 *single; /* index of the best item that fits alone, or -1 */
  /* The linear program: as few sheets as cover each item. */
  double *inverse; /* of the basis, n x n */
  double *value;   /* of the basic columns */
  double *cost;    /* of the basic columns: 1, or 0 of a surplus */
  double *dual, *column, *step;
  double *centre; /* the prices of the best bound so far, over what a sheet holds then */
  double best;    /* that bound */
  guint64 work, limit;
  GCancellable *cancellable;
} Columns;

/* --- the knapsack --- */

static inline gint32 *
get_worth (const Columns *self, guint x, guint y)
{
  return &self->worth[(gsize) x * (self->height + 1) + y];
}

static void
place_singles (Columns *self)
{
  gsize n_cells = (gsize) (self->width + 1) * (self->height + 1);
  for (gsize i = 0; i < n_cells; i++)
    self->single[i] = -1;
  for (guint i = 0; i < self->n; i++) {
    const Cells *item = &self->items[i];
    for (guint turned = 0; turned <= (item->may_turn ? 1u : 0u) && item->counts; turned++) {
      guint x = item->side[turned], y = item->side[1 - turned];
      if (x > self->width || y > self->height || self->price[i] <= 0)
        continue;
      gint32 *here = &self->single[(gsize) x * (self->height + 1) + y];
      if (*here < 0 || self->price[i] > self->price[*here])
        *here = (gint32) i;
    }
  }
}

static inline void
take_better (const Columns *self, gint32 *best, gint32 other)
{
  if (other >= 0 && (*best < 0 || self->price[other] > self->price[*best]))
    *best = other;
}

static void
fill_knapsack (Columns *self)
{
  place_singles (self);
  for (guint x = 0; x <= self->width; x++)
    for (guint y = 0; y <= self->height; y++) {
      gint32 *single = &self->single[(gsize) x * (self->height + 1) + y];
      if (x > 0)
        take_better (self, single, *(single - (self->height + 1)));
      if (y > 0)
        take_better (self, single, *(single - 1));
      gint32 most = *single >= 0 ? self->price[*single] : 0;
      const gint32 *up = get_worth (self, x, 0);
      for (guint cut = 1; cut <= y / 2; cut++)
        most = MAX (most, up[cut] + up[y - cut]);
      for (guint cut = 1; cut <= x / 2; cut++)
        most = MAX (most, *get_worth (self, cut, y) + *get_worth (self, x - cut, y));
      *get_worth (self, x, y) = most;
    }
  self->work += (guint64) self->width * self->height * (self->width + self->height) / 64;
}

/* The most any sheet is worth; `best` (may be NULL) gets which. */
static gint32
find_richest (const Columns *self, Field *best)
{
  gint32 most = 0;
  for (guint i = 0; i < self->n_fields; i++) {
    gint32 here = *get_worth (self, self->fields[i].width, self->fields[i].height);
    if (here <= most)
      continue;
    most = here;
    if (best != NULL)
      *best = self->fields[i];
  }
  return most;
}

/* Adds what is cut from the rectangle to `column`. */
static void
read_layout (Columns *self, guint x, guint y)
{
  gint32 most = *get_worth (self, x, y);
  if (most == 0)
    return;
  gint32 single = self->single[(gsize) x * (self->height + 1) + y];
  if (single >= 0 && self->price[single] == most) {
    self->column[single] += 1;
    return;
  }
  for (guint cut = 1; cut <= y / 2; cut++)
    if (*get_worth (self, x, cut) + *get_worth (self, x, y - cut) == most) {
      read_layout (self, x, cut);
      read_layout (self, x, y - cut);
      return;
    }
  for (guint cut = 1; cut <= x / 2; cut++)
    if (*get_worth (self, cut, y) + *get_worth (self, x - cut, y) == most) {
      read_layout (self, cut, y);
      read_layout (self, x - cut, y);
      return;
    }
}

/* --- the linear program --- */

static void
reckon_duals (Columns *self)
{
  guint n = self->n;
  memset (self->dual, 0, sizeof (double) * n);
  for (guint row = 0; row < n; row++)
    if (self->cost[row] != 0)
      for (guint i = 0; i < n; i++)
        self->dual[i] += self->inverse[(gsize) row * n + i];
}

/* Brings `column` into the basis. FALSE when the numbers have gone astray. */
static gboolean
pivot (Columns *self, double cost)
{
  guint n = self->n, out = n;
  double least = 0;
  for (guint row = 0; row < n; row++) {
    double sum = 0;
    for (guint i = 0; i < n; i++)
      if (self->column[i] != 0)
        sum += self->inverse[(gsize) row * n + i] * self->column[i];
    self->step[row] = sum;
    if (sum <= 1e-7)
      continue;
    double ratio = self->value[row] / sum;
    if (out == n || ratio < least - TINY || (ratio < least + TINY && sum > self->step[out])) {
      out = row;
      least = ratio;
    }
  }
  self->work += (guint64) n * n / 16;
  if (out == n)
    return FALSE;
  double *pivot_row = &self->inverse[(gsize) out * n], scale = 1 / self->step[out];
  for (guint i = 0; i < n; i++)
    pivot_row[i] *= scale;
  self->value[out] *= scale;
  self->cost[out] = cost;
  for (guint row = 0; row < n; row++) {
    double factor = self->step[row];
    if (row == out || factor == 0)
      continue;
    double *other = &self->inverse[(gsize) row * n];
    for (guint i = 0; i < n; i++)
      other[i] -= factor * pivot_row[i];
    self->value[row] = MAX (self->value[row] - factor * self->value[out], 0);
  }
  return TRUE;
}

/* A surplus whose item is priced below nothing: the item is covered more than once. */
static gboolean
give_back (Columns *self)
{
  guint worst = self->n;
  for (guint i = 0; i < self->n; i++)
    if (self->dual[i] < -1e-7 && (worst == self->n || self->dual[i] < self->dual[worst]))
      worst = i;
  if (worst == self->n)
    return FALSE;
  memset (self->column, 0, sizeof (double) * self->n);
  self->column[worst] = -1;
  return pivot (self, 0);
}

/* Prices between those of the best bound and the program's own: these leap about, and the bound
 * with them (Wentges, "Weighted Dantzig-Wolfe decomposition", 1997). */
static void
set_prices (Columns *self, double share)
{
  for (guint i = 0; i < self->n; i++) {
    double price = share * self->centre[i] + (1 - share) * MAX (self->dual[i], 0);
    self->price[i] =
        self->items[i].counts ? (gint32) floor (CLAMP (price, 0, 1) * (double) ONE) : 0;
  }
}

static double
sum_values (const Columns *self)
{
  double sum = 0;
  for (guint row = 0; row < self->n; row++)
    sum += self->cost[row] * self->value[row];
  return sum;
}

/* Whole numbers only: all prices together over what a sheet holds at most, rounded up. */
static guint
reckon_bound (Columns *self)
{
  gint64 sum = 0, most = find_richest (self, NULL);
  for (guint i = 0; i < self->n; i++)
    sum += self->price[i];
  if (most <= 0)
    return 0;
  double bound = (double) sum / (double) most;
  if (bound > self->best) {
    self->best = bound;
    for (guint i = 0; i < self->n; i++)
      self->centre[i] = (double) self->price[i] / (double) most;
  }
  return (guint) ((sum + most - 1) / most);
}

static gboolean
is_spent (const Columns *self)
{
  return self->work >= self->limit || g_cancellable_is_cancelled (self->cancellable);
}

/* TRUE when the layout just read would bring the program's value down. */
static gboolean
is_gain (const Columns *self)
{
  double worth = 0;
  for (guint i = 0; i < self->n; i++)
    worth += self->dual[i] * self->column[i];
  return worth > 1 + 1e-7;
}

/* The layout with that first cut, if it gains anything. */
static gboolean
add_layout (Columns *self, Field first, Field second)
{
  memset (self->column, 0, sizeof (double) * self->n);
  read_layout (self, first.width, first.height);
  if (second.width > 0)
    read_layout (self, second.width, second.height);
  if (!is_gain (self) || !pivot (self, 1))
    return FALSE;
  reckon_duals (self);
  return TRUE;
}

/* Of one knapsack the best layout of each first cut, dearest first cuts as they come. */
static guint
add_layouts (Columns *self, Field field)
{
  guint n = add_layout (self, field, (Field){0, 0});
  for (guint cut = 1; cut <= field.width / 2 && n < MOST_AT_ONCE; cut++)
    if (*get_worth (self, cut, field.height) + *get_worth (self, field.width - cut, field.height) >
        ONE)
      n += add_layout (self, (Field){cut, field.height}, (Field){field.width - cut, field.height});
  for (guint cut = 1; cut <= field.height / 2 && n < MOST_AT_ONCE; cut++)
    if (*get_worth (self, field.width, cut) + *get_worth (self, field.width, field.height - cut) >
        ONE)
      n += add_layout (self, (Field){field.width, cut}, (Field){field.width, field.height - cut});
  return n;
}

static guint
generate (Columns *self, guint bound, guint most)
{
  double share = 0.8;
  for (guint i = 0; i < MOST_STEPS && bound < most && !is_spent (self); i++) {
    Field field = {0, 0};
    reckon_duals (self);
    if (give_back (self))
      continue;
    set_prices (self, share);
    fill_knapsack (self);
    bound = MAX (bound, reckon_bound (self));
    /* No prices give more than the program's own value. */
    if (sum_values (self) <= bound + 1e-6)
      break;
    find_richest (self, &field);
    if (add_layouts (self, field) > 0)
      share = 0.8;
    else if (share > 0.01)
      share = share > 0.3 ? share - 0.3 : 0;
    else
      break;
  }
  return MIN (bound, most);
}

/* --- setting up --- */

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

static gboolean
set_fields (Columns *self)
{
  const DryNestProblem *problem = self->problem;
  DryLength longest = 0, common = 0, unit;
  for (guint i = 0; i < problem->n_sheets; i++)
    longest = MAX (longest, MAX (problem->sheets[i].width, problem->sheets[i].height));
  for (guint i = 0; i < problem->n_sheets; i++)
    common =
        find_common (find_common (problem->sheets[i].width, problem->sheets[i].height), common);
  for (guint i = 0; i < self->n; i++)
    common = find_common (find_common (problem->items[i].width, problem->items[i].height), common);
  unit = longest / common <= MOST_CELLS ? common : longest / GRID;
  for (guint i = 0; i < problem->n_sheets; i++) {
    Field field = {(guint) (problem->sheets[i].width / unit),
                   (guint) (problem->sheets[i].height / unit)};
    self->fields[self->n_fields++] = field;
    self->width = MAX (self->width, field.width);
    self->height = MAX (self->height, field.height);
  }
  for (guint i = 0; i < self->n; i++) {
    const DryNestItem *item = &problem->items[i];
    Cells *cells = &self->items[i];
    *cells = (Cells){.side = {(guint) (item->width / unit), (guint) (item->height / unit)},
                     .may_turn = item->may_turn};
    /* What is thinner than a cell would fit any number of times. */
    cells->counts = cells->side[0] > 0 && cells->side[1] > 0;
  }
  return self->width > 0 && self->height > 0;
}

/* Each item on a sheet of its own. */
static void
set_basis (Columns *self)
{
  for (guint i = 0; i < self->n; i++) {
    self->inverse[(gsize) i * self->n + i] = 1;
    self->value[i] = self->cost[i] = 1;
  }
}

/* The sheets of an answer, which bring the program's value down to their number at once. */
static void
add_answer (Columns *self, const DryNestState *best)
{
  for (guint s = 0; s < best->n_open; s++) {
    memset (self->column, 0, sizeof (double) * self->n);
    guint n_on = 0;
    for (guint i = 0; i < self->n; i++) {
      gint node = best->leaf_of[i];
      while (node != DRY_NEST_NONE && best->nodes[node].parent != DRY_NEST_NONE)
        node = best->nodes[node].parent;
      if (node != DRY_NEST_NONE && node == best->roots[s]) {
        self->column[i] = 1;
        n_on++;
      }
    }
    if (n_on > 1)
      pivot (self, 1);
  }
}

guint
dry_nest_bound_columns (const DryNestProblem *problem, guint lower_bound, const DryNestState *best,
                        guint64 effort, GCancellable *cancellable, guint64 *spent)
{
  guint n = problem->n_items, most = dry_nest_state_score (best).sheets;
  *spent = 0;
  /* What is on hand is no column of cost 1. */
  if (n == 0 || n > MOST_ITEMS || problem->n_on_hand > 0 || lower_bound >= most)
    return lower_bound;
  gsize n_cells = (gsize) (MOST_CELLS + 2) * (MOST_CELLS + 2);
  g_autofree Cells *items = g_new0 (Cells, n);
  g_autofree Field *fields = g_new0 (Field, problem->n_sheets);
  g_autofree gint32 *price = g_new0 (gint32, n);
  g_autofree gint32 *worth = g_new0 (gint32, n_cells), *single = g_new0 (gint32, n_cells);
  g_autofree double *inverse = g_new0 (double, (gsize) n *n);
  g_autofree double *values = g_new0 (double, (gsize) 6 * n);
  Columns self = {
      .problem = problem,
      .n = n,
      .items = items,
      .fields = fields,
      .price = price,
      .worth = worth,
      .single = single,
      .inverse = inverse,
      .value = values,
      .cost = values + n,
      .dual = values + (gsize) 2 * n,
      .column = values + (gsize) 3 * n,
      .step = values + (gsize) 4 * n,
      .centre = values + (gsize) 5 * n,
      .limit = effort,
      .cancellable = cancellable,
  };
  guint bound = lower_bound;
  if (set_fields (&self)) {
    set_basis (&self);
    add_answer (&self, best);
    bound = generate (&self, lower_bound, most);
  }
  *spent = self.work;
  return bound;
}
