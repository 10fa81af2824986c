/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Chooses one layout a face so that all together are best: can be built, fewest sheets after
 * nesting over all faces, cheapest, least seam, fewest pieces, least waste. Knows layouts by their
 * pieces. */
#define G_LOG_DOMAIN "plan"

#include <math.h>
#include <string.h>

#include "plan/boards-private.h"

/* Work units of one estimate, and how many there are while a person drags. */
#define ESTIMATE_EFFORT 700
#define MAX_ESTIMATES   150
#define PAIR_WIDTH      6 /* layouts of each of two faces tried together */

typedef struct {
  guint faults, missing, sheets;
  double cost;
  DryLength effort;
  guint pieces;
  double area;
} Score;

typedef struct {
  GPtrArray *const *layouts;
  guint n_faces;
  const DryStock *stock;
  guint n_stock;
  DryLength kerf;
  GCancellable *cancellable;
  GArray *pieces;
  guint estimates;
  guint least_sheets; /* no choice needs fewer: area of all faces over the largest sheet */
  double least_cost;  /* of that many sheets with so much area */
  guint *now;         /* layout of each face */
  Score score;
} Chooser;

static const DryLayout *
get_layout (const Chooser *self, guint face, guint index)
{
  return g_ptr_array_index (self->layouts[face], index);
}

static gboolean
is_better (const Score *a, const Score *b)
{
  if (a->faults != b->faults)
    return a->faults < b->faults;
  if (a->missing != b->missing)
    return a->missing < b->missing;
  if (a->sheets != b->sheets)
    return a->sheets < b->sheets;
  if (a->cost != b->cost)
    return a->cost < b->cost;
  if (a->effort != b->effort)
    return a->effort < b->effort;
  if (a->pieces != b->pieces)
    return a->pieces < b->pieces;
  return a->area < b->area;
}

static Score
judge (Chooser *self, const guint *choice)
{
  Score score = {0};
  g_array_set_size (self->pieces, 0);
  for (guint f = 0; f < self->n_faces; f++) {
    const DryLayout *layout = get_layout (self, f, choice[f]);
    score.faults += layout->faults;
    score.effort += layout->effort;
    g_array_append_vals (self->pieces, layout->pieces, layout->n_pieces);
  }
  score.pieces = self->pieces->len;
  DryNestEstimate estimate = dry_cutting_estimate (
      self->stock, self->n_stock, (const DryPiece *) self->pieces->data, self->pieces->len,
      self->kerf, self->estimates > 0 ? self->score.sheets : G_MAXUINT, ESTIMATE_EFFORT);
  score.missing = estimate.missing;
  score.sheets = estimate.sheets;
  score.cost = estimate.cost;
  score.area = estimate.sheet_area;
  self->estimates++;
  return score;
}

static gboolean
is_spent (const Chooser *self)
{
  return self->estimates >= MAX_ESTIMATES || g_cancellable_is_cancelled (self->cancellable);
}

static void
try_choice (Chooser *self, const guint *choice)
{
  Score score = judge (self, choice);
  if (self->estimates > 1 && !is_better (&score, &self->score))
    return;
  memmove (self->now, choice, sizeof (guint) * self->n_faces);
  self->score = score;
}

/* Sheets and cost cannot be bettered: then only shorter seams are worth a look. */
static gboolean
is_bought_out (const Chooser *self)
{
  return self->score.missing == 0 && self->score.sheets <= self->least_sheets &&
         self->score.cost <= self->least_cost;
}

/* The first layout of a face is its best; of each style, all faces alike. */
static void
try_styles (Chooser *self)
{
  g_autofree guint *choice = g_new0 (guint, self->n_faces);
  try_choice (self, choice);
  for (guint style = 0; style < 4 * self->n_stock && !is_spent (self); style++) {
    gboolean any = FALSE;
    for (guint f = 0; f < self->n_faces; f++) {
      choice[f] = 0;
      for (guint i = 0; i < self->layouts[f]->len; i++)
        if (get_layout (self, f, i)->style == style) {
          any = any || i > 0;
          choice[f] = i;
          break;
        }
    }
    if (any)
      try_choice (self, choice);
  }
}

static gboolean
improve_one (Chooser *self)
{
  g_autofree guint *choice = g_new (guint, self->n_faces);
  gboolean any = FALSE;
  for (guint f = 0; f < self->n_faces; f++)
    for (guint i = 0; i < self->layouts[f]->len && !is_spent (self); i++) {
      if (i == self->now[f] ||
          (is_bought_out (self) &&
           get_layout (self, f, i)->effort > get_layout (self, f, self->now[f])->effort))
        continue;
      Score before = self->score;
      memcpy (choice, self->now, sizeof (guint) * self->n_faces);
      choice[f] = i;
      try_choice (self, choice);
      any = any || is_better (&self->score, &before);
    }
  return any;
}

/* Two faces at once: often one less seam here pays for one more there. */
static void
improve_pairs (Chooser *self)
{
  g_autofree guint *choice = g_new (guint, self->n_faces);
  for (guint f = 0; f < self->n_faces; f++)
    for (guint g = f + 1; g < self->n_faces; g++) {
      guint n_f = MIN (self->layouts[f]->len, PAIR_WIDTH);
      guint n_g = MIN (self->layouts[g]->len, PAIR_WIDTH);
      for (guint i = 0; i < n_f * n_g && n_f > 1 && n_g > 1; i++) {
        if (is_spent (self))
          return;
        memcpy (choice, self->now, sizeof (guint) * self->n_faces);
        choice[f] = i / n_g;
        choice[g] = i % n_g;
        if (choice[f] == self->now[f] || choice[g] == self->now[g])
          continue;
        DryLength effort =
            get_layout (self, f, choice[f])->effort + get_layout (self, g, choice[g])->effort -
            get_layout (self, f, self->now[f])->effort - get_layout (self, g, self->now[g])->effort;
        if (effort > 0 && is_bought_out (self))
          continue;
        try_choice (self, choice);
      }
    }
}

/* The cheapest `n` sheets of kinds `kind` and on that have at least `area` together. */
static double
reckon_cheapest (const Chooser *self, const double *costs, guint kind, guint n, double area)
{
  if (n == 0)
    return area <= 0 ? 0 : G_MAXDOUBLE;
  if (kind >= self->n_stock)
    return G_MAXDOUBLE;
  const DryStock *stock = &self->stock[kind];
  double sheet = (double) stock->width * (double) stock->height, least = G_MAXDOUBLE;
  for (guint i = 0; i <= n; i++) {
    double rest = reckon_cheapest (self, costs, kind + 1, n - i, area - i * sheet);
    if (rest < G_MAXDOUBLE)
      least = MIN (least, i * costs[kind] + rest);
  }
  return least;
}

/* What no choice can better, so that the search knows when to stop. Joint gaps are never cut, hence
 * the hundredth. */
static void
reckon_least (Chooser *self, DryBoardFace *const *faces)
{
  double area = 0, largest = 0;
  gboolean priced = TRUE;
  g_autofree double *costs = g_new (double, self->n_stock);
  for (guint f = 0; f < self->n_faces; f++)
    area += 0.99 * (double) dry_region_area2 (&faces[f]->face->region) / 2;
  for (guint i = 0; i < self->n_stock; i++) {
    const DryStock *stock = &self->stock[i];
    largest = MAX (largest, (double) stock->width * (double) stock->height);
    priced = priced && stock->price > 0;
  }
  for (guint i = 0; i < self->n_stock; i++)
    costs[i] = priced ? (double) self->stock[i].price
                      : (double) self->stock[i].width * (double) self->stock[i].height;
  self->least_sheets = (guint) ceil (area / largest);
  /* Large jobs of many sizes have too many mixtures; they are searched to the end. */
  if (self->least_sheets <= 12 && self->n_stock <= 4)
    self->least_cost = reckon_cheapest (self, costs, 0, self->least_sheets, area);
}

gboolean
dry_board_choose (DryBoardFace *const *faces, GPtrArray *const *layouts, guint n_faces,
                  DryLength kerf, GCancellable *cancellable, const DryLayout **chosen)
{
  if (n_faces == 0)
    return TRUE;
  g_autoptr (GArray) pieces = g_array_new (FALSE, FALSE, sizeof (DryPiece));
  g_autofree guint *now = g_new0 (guint, n_faces);
  Chooser self = {
      .layouts = layouts,
      .n_faces = n_faces,
      .stock = faces[0]->stock,
      .n_stock = faces[0]->n_stock,
      .kerf = kerf,
      .cancellable = cancellable,
      .pieces = pieces,
      .now = now,
  };
  reckon_least (&self, faces);
  try_styles (&self);
  while (improve_one (&self) && !is_spent (&self))
    ;
  improve_pairs (&self);
  improve_one (&self);
  for (guint f = 0; f < n_faces; f++)
    chosen[f] = get_layout (&self, f, now[f]);
  return !g_cancellable_is_cancelled (cancellable);
}
