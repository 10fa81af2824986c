/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Turns stock and pieces into a nesting problem: swollen by the kerf, sorted, without what fits no
 * sheet. Knows no layout and no search. */
#define G_LOG_DOMAIN "plan"

#include "plan/cutting-private.h"

static gboolean
fits_sheet (const DryNestSheet *sheet, const DryNestItem *item)
{
  if (item->width <= sheet->width && item->height <= sheet->height)
    return TRUE;
  return item->may_turn && item->height <= sheet->width && item->width <= sheet->height;
}

/* Largest first: opening the largest is the way to the fewest. */
static gint
compare_sheets (gconstpointer a, gconstpointer b)
{
  const DryNestSheet *left = a, *right = b;
  if (left->on_hand != right->on_hand)
    return left->on_hand ? -1 : 1;
  double left_area = (double) left->width * (double) left->height;
  double right_area = (double) right->width * (double) right->height;
  if (left_area != right_area)
    return left_area > right_area ? -1 : 1;
  if (left->cost != right->cost)
    return left->cost < right->cost ? -1 : 1;
  return left->stock < right->stock ? -1 : left->stock > right->stock;
}

static void
collect_sheets (DryNestProblem *self, const DryStock *stock, guint n_stock, DryLength kerf)
{
  gboolean priced = TRUE;
  for (guint i = 0; i < n_stock; i++)
    priced = priced && (stock[i].price > 0 || stock[i].on_hand || stock[i].count == 0);

  self->sheets = g_new0 (DryNestSheet, n_stock);
  for (guint i = 0; i < n_stock; i++) {
    if (stock[i].width <= 0 || stock[i].height <= 0 || stock[i].count == 0 ||
        (stock[i].on_hand && stock[i].count < 0))
      continue;
    double area = (double) stock[i].width * (double) stock[i].height;
    self->sheets[self->n_sheets++] = (DryNestSheet){
        .width = stock[i].width + kerf,
        .height = stock[i].height + kerf,
        .cost = stock[i].on_hand ? 0
                : priced         ? (double) stock[i].price
                                 : area,
        .count = stock[i].count,
        .stock = i,
        .on_hand = stock[i].on_hand,
    };
    self->n_on_hand += stock[i].on_hand;
  }
  if (self->n_sheets > 1)
    qsort (self->sheets, self->n_sheets, sizeof (DryNestSheet), compare_sheets);
  for (guint i = 0; i < self->n_sheets; i++) {
    double area = (double) self->sheets[i].width * (double) self->sheets[i].height;
    self->unit_area = MAX (self->unit_area, area);
    if (i >= self->n_on_hand)
      self->cheapest =
          i == self->n_on_hand ? self->sheets[i].cost : MIN (self->cheapest, self->sheets[i].cost);
  }
}

DryNestProblem *
dry_nest_problem_new (const DryStock *stock, guint n_stock, const DryPiece *pieces, guint n_pieces,
                      DryLength kerf, GArray *unplaced)
{
  DryNestProblem *self = g_new0 (DryNestProblem, 1);
  self->kerf = MAX (kerf, 0);
  collect_sheets (self, stock, n_stock, self->kerf);

  self->items = g_new0 (DryNestItem, n_pieces);
  for (guint i = 0; i < n_pieces; i++) {
    DryNestItem item = {
        .width = pieces[i].width + self->kerf,
        .height = pieces[i].height + self->kerf,
        .may_turn = pieces[i].may_turn && pieces[i].width != pieces[i].height,
        .piece = i,
    };
    gboolean fits = FALSE;
    for (guint s = 0; s < self->n_sheets && !fits; s++)
      fits = fits_sheet (&self->sheets[s], &item);
    if (fits && pieces[i].width > 0 && pieces[i].height > 0)
      self->items[self->n_items++] = item;
    else if (unplaced != NULL)
      g_array_append_val (unplaced, i);
  }
  return self;
}

void
dry_nest_problem_free (DryNestProblem *self)
{
  if (self == NULL)
    return;
  g_free (self->items);
  g_free (self->sheets);
  g_free (self);
}
