/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Lower bounds on the number of sheets, valid for any layout whether a saw can make it or not:
 * areas under dual feasible functions, and pieces of which no two share a sheet. Knows no layout.
 */
#define G_LOG_DOMAIN "plan"

#include <math.h>

#include "plan/cutting-private.h"

/* Dual feasible functions f: for any lengths that fit side by side in `whole`, the f add up to at
 * most 1. If f and g are two, the f(width) x g(height) of whatever fits one sheet add up to at most
 * 1 (Fekete and Schepers, "New classes of fast lower bounds for bin packing problems", 2001). */
typedef enum { DFF_SAME, DFF_FLOOR, DFF_DROP, DFF_STEP } DffKind;

typedef struct {
  DffKind kind;
  DryLength parameter; /* FLOOR: k; DROP, STEP: a length */
} Dff;

static double
apply_dff (Dff f, DryLength length, DryLength whole)
{
  switch (f.kind) {
  case DFF_FLOOR: {
    __int128 scaled = (__int128) (f.parameter + 1) * length;
    if (scaled % whole == 0)
      break;
    return (double) (gint64) (scaled / whole) / (double) f.parameter;
  }
  case DFF_DROP: /* the small count nothing, the large for all */
    if (length > whole - f.parameter)
      return 1;
    if (length < f.parameter)
      return 0;
    break;
  case DFF_STEP: { /* lengths counted in whole steps */
    double steps = (double) (whole / f.parameter);
    if (2 * length > whole)
      return 1 - (double) ((whole - length) / f.parameter) / steps;
    if (2 * length == whole)
      return 0.5;
    return (double) (length / f.parameter) / steps;
  }
  case DFF_SAME:
    break;
  }
  return (double) length / (double) whole;
}

#define MAX_KINDS     6
#define MAX_DFF_ITEMS 400

/* How many functions are tried in either direction: the live ones cost as much as a short search,
 * the others well under a tenth of a second. */
typedef struct {
  guint functions, sides, floors;
} Depth;

static const Depth LIVE = {18, 6, 4};
static const Depth DEEP = {320, 120, 12};

static gint
compare_lengths (gconstpointer a, gconstpointer b)
{
  DryLength left = *(const DryLength *) a, right = *(const DryLength *) b;
  return left < right ? -1 : left > right;
}

/* A few of the items' own sides, spread over all of them: there the functions jump. */
static guint
sample_sides (const DryNestProblem *problem, DryLength *out, guint max)
{
  guint n = 0;
  g_autofree DryLength *sides = g_new (DryLength, 2 * problem->n_items);
  for (guint i = 0; i < problem->n_items; i++) {
    sides[n++] = problem->items[i].width;
    sides[n++] = problem->items[i].height;
  }
  qsort (sides, n, sizeof (DryLength), compare_lengths);
  guint distinct = 0;
  for (guint i = 0; i < n; i++)
    if (distinct == 0 || sides[distinct - 1] != sides[i])
      sides[distinct++] = sides[i];
  guint take = MIN (distinct, max);
  for (guint i = 0; i < take; i++)
    out[i] = sides[take == 1 ? 0 : (guint64) i * (distinct - 1) / (take - 1)];
  return take;
}

static guint
list_dffs (const DryLength *sides, guint n_sides, DryLength whole, const Depth *depth, Dff *out)
{
  guint n = 0;
  out[n++] = (Dff){DFF_SAME, 0};
  for (guint k = 1; k <= depth->floors; k++)
    out[n++] = (Dff){DFF_FLOOR, k};
  for (guint i = 0; i < n_sides; i++) {
    /* What is left beside a side is as good a threshold as the side. */
    DryLength limits[2] = {sides[i], whole - sides[i] + 1};
    for (guint j = 0; j < 2 && n < depth->functions - 1; j++)
      if (limits[j] > 0 && 2 * limits[j] <= whole)
        out[n++] = (Dff){DFF_DROP, limits[j]};
    if (sides[i] > 0 && 2 * sides[i] <= whole && n < depth->functions)
      out[n++] = (Dff){DFF_STEP, sides[i]};
  }
  return n;
}

static gboolean
do_all_turn (const DryNestProblem *problem)
{
  for (guint i = 0; i < problem->n_items; i++)
    if (!problem->items[i].may_turn && problem->items[i].width != problem->items[i].height)
      return FALSE;
  return TRUE;
}

static gboolean
is_dominated (const DryNestProblem *problem, guint kind, gboolean all_turn)
{
  const DryNestSheet *small = &problem->sheets[kind];
  for (guint i = 0; i < problem->n_sheets; i++) {
    const DryNestSheet *large = &problem->sheets[i];
    gboolean inside = small->width <= large->width && small->height <= large->height;
    if (all_turn)
      inside = inside || (small->width <= large->height && small->height <= large->width);
    gboolean same = (small->width == large->width && small->height == large->height) ||
                    (all_turn && small->width == large->height && small->height == large->width);
    if (i != kind && inside && (!same || i < kind))
      return TRUE;
  }
  return FALSE;
}

/* Sheets that lie inside another count for nothing in a bound on the number. */
static guint
list_largest (const DryNestProblem *problem, DryNestSheet *out, guint max, gboolean *all)
{
  gboolean all_turn = do_all_turn (problem);
  guint n = 0;
  *all = TRUE;
  for (guint i = 0; i < problem->n_sheets; i++) {
    if (is_dominated (problem, i, all_turn))
      continue;
    if (n == max) {
      *all = FALSE;
      break;
    }
    out[n++] = problem->sheets[i];
  }
  return n;
}

/* Values of every function for every item, in the four ways it can stand: width over the sheet's
 * width, and so on. A way that does not fit is +infinity. */
typedef struct {
  double *across[2], *up[2];
  gboolean fits[2];
} ItemTable;

typedef struct {
  const DryNestProblem *problem;
  const DryNestSheet *sheets;
  guint n_kinds;
  gboolean all_turn;    /* every item may */
  guint n_rows;         /* items, then the sheets on hand */
  guint n_across, n_up; /* functions for either direction */
  ItemTable *table;     /* kind by kind */
  double *values;       /* of all rows */
} Tables;

static void
fill_row (const DryNestSheet *sheet, const DryNestItem *item, const Dff *across, const Dff *up,
          const Tables *self, ItemTable *row)
{
  for (guint turned = 0; turned < 2; turned++) {
    DryLength width = turned ? item->height : item->width;
    DryLength height = turned ? item->width : item->height;
    row->fits[turned] =
        (!turned || item->may_turn) && width <= sheet->width && height <= sheet->height;
    if (!row->fits[turned])
      continue;
    for (guint f = 0; f < self->n_across; f++)
      row->across[turned][f] = apply_dff (across[f], width, sheet->width);
    for (guint g = 0; g < self->n_up; g++)
      row->up[turned][g] = apply_dff (up[g], height, sheet->height);
  }
}

/* A sheet on hand is a row like an item of its size. */
static DryNestItem
get_row (const Tables *self, guint row)
{
  if (row < self->problem->n_items)
    return self->problem->items[row];
  const DryNestSheet *sheet = &self->problem->sheets[row - self->problem->n_items];
  return (DryNestItem){sheet->width, sheet->height, self->all_turn, 0};
}

/* The parameters are lengths, so they may differ from sheet to sheet: a weight is the least of all
 * sheets' weights, and any choice of functions per sheet keeps the sum within 1. */
static void
fill_tables (Tables *self, const Depth *depth)
{
  g_autofree DryLength *sides = g_new (DryLength, depth->sides);
  guint n_sides = sample_sides (self->problem, sides, depth->sides);
  g_autofree Dff *across = g_new (Dff, depth->functions * self->n_kinds);
  g_autofree Dff *up = g_new (Dff, depth->functions * self->n_kinds);
  self->n_across = self->n_up = depth->functions;
  for (guint k = 0; k < self->n_kinds; k++) {
    guint n_across =
        list_dffs (sides, n_sides, self->sheets[k].width, depth, &across[k * depth->functions]);
    guint n_up =
        list_dffs (sides, n_sides, self->sheets[k].height, depth, &up[k * depth->functions]);
    self->n_across = MIN (self->n_across, n_across);
    self->n_up = MIN (self->n_up, n_up);
  }
  guint n = self->n_rows;
  gsize each = 2 * ((gsize) self->n_across + self->n_up);
  self->values = g_new (double, each *n * self->n_kinds);
  for (guint k = 0; k < self->n_kinds; k++)
    for (guint i = 0; i < n; i++) {
      ItemTable *row = &self->table[(gsize) k * n + i];
      double *values = self->values + each * ((gsize) k * n + i);
      for (guint turned = 0; turned < 2; turned++) {
        row->across[turned] = values + turned * self->n_across;
        row->up[turned] = values + 2 * self->n_across + turned * self->n_up;
      }
      DryNestItem item = get_row (self, i);
      fill_row (&self->sheets[k], &item, &across[k * depth->functions], &up[k * depth->functions],
                self, row);
    }
}

/* The least of all ways and sheets; +infinity when it fits none. */
static double
weigh_row (const Tables *self, guint row_index, guint f, guint g)
{
  double least = G_MAXDOUBLE;
  for (guint k = 0; k < self->n_kinds; k++) {
    const ItemTable *row = &self->table[(gsize) k * self->n_rows + row_index];
    for (guint turned = 0; turned < 2; turned++)
      if (row->fits[turned])
        least = MIN (least, row->across[turned][f] * row->up[turned][g]);
  }
  return least;
}

/* What the items weigh less what may lie on the sheets on hand: never more than 1 on any, nor more
 * than a piece as large as the sheet itself, since the functions are superadditive. */
static double
sum_weights (const Tables *self, guint f, guint g)
{
  double sum = 0;
  for (guint i = 0; i < self->problem->n_items; i++) {
    double weight = weigh_row (self, i, f, g);
    if (weight < G_MAXDOUBLE)
      sum += weight;
  }
  for (guint i = 0; i < self->problem->n_on_hand; i++)
    sum -= self->problem->sheets[i].count *
           MIN (1.0, weigh_row (self, self->problem->n_items + i, f, g));
  return sum;
}

static guint
bound_by_functions (const DryNestProblem *problem, const DryNestSheet *sheets, guint n_kinds,
                    const Depth *depth)
{
  if (problem->n_items > MAX_DFF_ITEMS)
    return 0;
  guint n_rows = problem->n_items + problem->n_on_hand;
  g_autofree ItemTable *table = g_new0 (ItemTable, (gsize) n_rows * n_kinds);
  Tables self = {.problem = problem,
                 .sheets = sheets,
                 .n_kinds = n_kinds,
                 .all_turn = do_all_turn (problem),
                 .n_rows = n_rows,
                 .table = table};
  fill_tables (&self, depth);
  double most = 0;
  for (guint f = 0; f < self.n_across; f++)
    for (guint g = 0; g < self.n_up; g++) {
      double sum = sum_weights (&self, f, g);
      most = MAX (most, sum);
    }
  g_free (self.values);
  /* Rounding errors of the sum are far below 1e-6; a bound may be weak, never wrong. */
  return (guint) MAX (0, ceil (most - 1e-6));
}

static guint
bound_by_area (const DryNestProblem *problem)
{
  double area = 0;
  for (guint i = 0; i < problem->n_items; i++)
    area += (double) problem->items[i].width * (double) problem->items[i].height;
  for (guint i = 0; i < problem->n_on_hand; i++) {
    const DryNestSheet *sheet = &problem->sheets[i];
    area -= sheet->count * (double) sheet->width * (double) sheet->height;
  }
  return (guint) MAX (0, ceil (area / problem->unit_area - 1e-6));
}

static gboolean
share_a_sheet (const DryNestSheet *sheets, guint n_kinds, const DryNestItem *a,
               const DryNestItem *b)
{
  for (guint k = 0; k < n_kinds; k++)
    for (guint way = 0; way < 4; way++) {
      gboolean turn_a = way & 1, turn_b = way & 2;
      if ((turn_a && !a->may_turn) || (turn_b && !b->may_turn))
        continue;
      DryLength aw = turn_a ? a->height : a->width, ah = turn_a ? a->width : a->height;
      DryLength bw = turn_b ? b->height : b->width, bh = turn_b ? b->width : b->height;
      if (MAX (aw, bw) <= sheets[k].width && MAX (ah, bh) <= sheets[k].height &&
          (aw + bw <= sheets[k].width || ah + bh <= sheets[k].height))
        return TRUE;
    }
  return FALSE;
}

static gboolean
fits_sheet (const DryNestSheet *sheet, const DryNestItem *item)
{
  return (item->width <= sheet->width && item->height <= sheet->height) ||
         (item->may_turn && item->height <= sheet->width && item->width <= sheet->height);
}

typedef struct {
  guint item;
  double area;
} Sized;

static gint
compare_sized (gconstpointer a, gconstpointer b)
{
  const Sized *left = a, *right = b;
  if (left->area != right->area)
    return left->area > right->area ? -1 : 1;
  return left->item < right->item ? -1 : left->item > right->item;
}

/* Pieces no two of which share a sheet, gathered greedily from the largest. */
static guint
bound_by_loners (const DryNestProblem *problem, const DryNestSheet *sheets, guint n_kinds)
{
  guint n = problem->n_items, n_loners = 0;
  if (n > MAX_DFF_ITEMS)
    return 0;
  g_autofree guint *loners = g_new (guint, n);
  g_autofree Sized *sized = g_new (Sized, n);
  for (guint i = 0; i < n; i++)
    sized[i] = (Sized){i, (double) problem->items[i].width * (double) problem->items[i].height};
  qsort (sized, n, sizeof (Sized), compare_sized);
  for (guint i = 0; i < n; i++) {
    const DryNestItem *item = &problem->items[sized[i].item];
    gboolean alone = TRUE;
    for (guint j = 0; j < n_loners && alone; j++)
      alone = !share_a_sheet (sheets, n_kinds, item, &problem->items[loners[j]]);
    if (alone)
      loners[n_loners++] = sized[i].item;
  }
  /* Each sheet on hand takes one at most, if any fits. */
  guint n_taken = 0;
  for (guint i = 0; i < problem->n_on_hand; i++)
    for (guint j = 0; j < n_loners; j++)
      if (fits_sheet (&problem->sheets[i], &problem->items[loners[j]])) {
        n_taken += (guint) problem->sheets[i].count;
        break;
      }
  return n_loners > n_taken ? n_loners - n_taken : 0;
}

guint
dry_nest_lower_bound (const DryNestProblem *problem, DryNestDepth depth)
{
  if (problem->n_items == 0)
    return 0;
  DryNestSheet sheets[MAX_KINDS];
  gboolean all = FALSE;
  guint n_kinds = list_largest (problem, sheets, MAX_KINDS, &all);
  guint bound = bound_by_area (problem);
  if (!all)
    return bound;
  bound = MAX (bound, bound_by_loners (problem, sheets, n_kinds));
  if (depth == DRY_NEST_QUICK)
    return bound;
  guint more =
      bound_by_functions (problem, sheets, n_kinds, depth == DRY_NEST_LIVE ? &LIVE : &DEEP);
  return MAX (bound, more);
}
