/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Chooses one layout a face so that all together are best: can be built, fewest sheets after
 * nesting over all faces, least seam, fewest pieces, cheapest, least waste. Knows layouts by their
 * pieces. */
#define G_LOG_DOMAIN "plan"

#include <math.h>
#include <string.h>

#include "plan/boards-private.h"

/* Work units of one estimate, and how many there are while a person drags. */
#define ESTIMATE_EFFORT 1000
#define MAX_ESTIMATES   150
#define PAIR_WIDTH      6 /* layouts of each of two faces tried together */
/* Layouts with more seams than need be, when more sheets are bought than the area asks for: how
 * many of a face, and how many estimates for them. Live, and when there is time to search. */
#define MORE_LIVE   60
#define MORE_SEARCH 40000 /* at most; what a layout costs in work units: */
#define MORE_UNITS  4000

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
  guint estimates, most_estimates;
  gboolean thrifty;
  guint least_sheets; /* no choice needs fewer: area of all faces over the largest sheet */
  guint *now;         /* layout of each face */
  Score score;
} Chooser;

static const DryLayout *
get_layout (const Chooser *self, guint face, guint index)
{
  return g_ptr_array_index (self->layouts[face], index);
}

/* `thrifty`: a cheaper choice first. It is only sought as a way to one with fewer sheets. */
static gboolean
is_better (const Score *a, const Score *b, gboolean thrifty)
{
  if (a->faults != b->faults)
    return a->faults < b->faults;
  if (a->missing != b->missing)
    return a->missing < b->missing;
  if (a->sheets != b->sheets)
    return a->sheets < b->sheets;
  if (thrifty && a->cost != b->cost)
    return a->cost < b->cost;
  /* A smaller sheet saves little; a seam is laid, filled and banded, and is where walls leak. */
  if (a->effort != b->effort)
    return a->effort < b->effort;
  if (a->pieces != b->pieces)
    return a->pieces < b->pieces;
  if (a->cost != b->cost)
    return a->cost < b->cost;
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
  return self->estimates >= self->most_estimates || g_cancellable_is_cancelled (self->cancellable);
}

static void
try_choice (Chooser *self, const guint *choice)
{
  Score score = judge (self, choice);
  if (self->estimates > 1 && !is_better (&score, &self->score, self->thrifty))
    return;
  memmove (self->now, choice, sizeof (guint) * self->n_faces);
  self->score = score;
}

/* No choice needs fewer sheets: then only seams that are no longer are worth a look. */
static gboolean
is_bought_out (const Chooser *self)
{
  return self->score.missing == 0 && self->score.sheets <= self->least_sheets;
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
      any = any || is_better (&self->score, &before, self->thrifty);
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

/* What no choice can better, so that the search knows when to stop. Joint gaps are never cut, hence
 * the hundredth. */
static void
reckon_least (Chooser *self, DryBoardFace *const *faces)
{
  double area = 0, largest = 0;
  for (guint f = 0; f < self->n_faces; f++)
    area += 0.99 * (double) dry_region_area2 (&faces[f]->face->region) / 2;
  for (guint i = 0; i < self->n_stock; i++) {
    double sheet = (double) self->stock[i].width * (double) self->stock[i].height;
    if (self->stock[i].on_hand)
      area -= self->stock[i].count * sheet;
    else
      largest = MAX (largest, sheet);
  }
  self->least_sheets = area > 0 ? (guint) ceil (area / largest) : 0;
}

static void
improve (Chooser *self)
{
  while (improve_one (self) && !is_spent (self))
    ;
  improve_pairs (self);
  improve_one (self);
}

/* Short seams alone may lead nowhere near the fewest sheets; smaller offcuts do. */
static void
save_sheets (Chooser *self)
{
  if (is_bought_out (self))
    return;
  Score score = self->score;
  g_autofree guint *choice = g_memdup2 (self->now, sizeof (guint) * self->n_faces);
  self->thrifty = TRUE;
  self->most_estimates = self->estimates + MAX_ESTIMATES / 2;
  improve (self);
  self->thrifty = FALSE;
  /* what is better breaks no more rules */
  if (self->score.missing > score.missing || self->score.sheets >= score.sheets) {
    memcpy (self->now, choice, sizeof (guint) * self->n_faces);
    self->score = score;
    return;
  }
  self->most_estimates = self->estimates + MAX_ESTIMATES / 2;
  improve (self);
}

/* More seams than need be, if only that saves a sheet. One face at a time. */
static void
try_more_seams (Chooser *self, DryBoardFace *const *faces, guint more, guint most)
{
  g_autofree guint *choice = g_new (guint, self->n_faces);
  for (guint f = 0; f < self->n_faces && !is_bought_out (self); f++) {
    guint first = self->layouts[f]->len;
    dry_board_list_more_layouts (faces[f], more, most, self->layouts[f]);
    self->most_estimates = self->estimates + most;
    for (guint i = first; i < self->layouts[f]->len && !is_spent (self); i++) {
      guint sheets = self->score.sheets;
      memcpy (choice, self->now, sizeof (guint) * self->n_faces);
      choice[f] = i;
      try_choice (self, choice);
      if (self->score.sheets < sheets && is_bought_out (self))
        break;
    }
  }
}

gboolean
dry_board_choose (DryBoardFace *const *faces, GPtrArray *const *layouts, guint n_faces,
                  DryLength kerf, GCancellable *cancellable, const DryLayout **chosen)
{
  if (n_faces == 0)
    return TRUE;
  gboolean searched = faces[0]->context->effort > 0;
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
      .most_estimates = MAX_ESTIMATES,
      .now = now,
  };
  reckon_least (&self, faces);
  try_styles (&self);
  improve (&self);
  save_sheets (&self);
  if (!is_bought_out (&self) && self.score.missing == 0)
    try_more_seams (&self, faces, searched ? 2 : 1,
                    searched ? (guint) MIN (faces[0]->context->effort / MORE_UNITS, MORE_SEARCH)
                             : MORE_LIVE);
  for (guint f = 0; f < n_faces; f++)
    chosen[f] = get_layout (&self, f, now[f]);
  return !g_cancellable_is_cancelled (cancellable);
}
