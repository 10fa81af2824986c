/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Searches on among the layouts of seams where the live choice stopped: each choice nested as
 * carefully as a live plan, the hopeful ones with the goal-driven search. Knows no drawing and no
 * wall, only layouts by their pieces. */
#define G_LOG_DOMAIN "plan"

#include <math.h>
#include <string.h>

#include "plan/nest-layouts.h"

/* What a look at one choice is taken to cost, whatever it took: so the search is the same anywhere.
 */
#define LOOK        G_GUINT64_CONSTANT (60000)
#define GLANCE      G_GUINT64_CONSTANT (2000) /* the bound alone said no */
#define CARE        G_GUINT64_CONSTANT (3000000)
#define MOST_HOPES  16
#define MOST_RANDOM 4096

/* --- no layout needs fewer --- */

/* Upright seams lie on what carries them, at most one on each; on linings anywhere. */
static double
reckon_most_gaps (const DryBoardFace *face)
{
  double width = (double) dry_rect_width (face->bounds);
  double most = width / (double) face->min_piece;
  if (!face->seams_anywhere) {
    guint n = 0;
    for (guint i = 0; i < face->n_carriers; i++)
      n += i == 0 || face->carriers[i].at != face->carriers[i - 1].at;
    most = MIN (most, (double) n);
  }
  return most / width;
}

/* Area of the face as its boards take it at least, each swollen by a kerf. Boards a seam ends are
 * `min_piece` high and wide at least, so a seam's gap, where it is wider than the kerf, takes no
 * more than its share of that from them. */
static double
reckon_board_area (const DryBoardFace *face, DryLength kerf)
{
  double area = (double) dry_region_area2 (&face->face->region) / 2;
  double wider = (double) (face->gap - kerf);
  if (wider <= 0)
    return area;
  if (face->min_piece <= 0)
    return 0; /* nothing is too narrow, so nothing is certain */
  return area / (1 + wider / (double) face->min_piece) / (1 + wider * reckon_most_gaps (face));
}

guint
dry_nest_least_sheets (DryBoardFace *const *faces, guint n_faces, DryLength kerf)
{
  double area = 0, largest = 0;
  for (guint f = 0; f < n_faces; f++)
    area += reckon_board_area (faces[f], kerf);
  for (guint i = 0; n_faces > 0 && i < faces[0]->n_stock; i++) {
    const DryStock *stock = &faces[0]->stock[i];
    double sheet = (double) (stock->width + kerf) * (double) (stock->height + kerf);
    if (stock->on_hand)
      area -= stock->count * sheet;
    else
      largest = MAX (largest, sheet);
  }
  return largest > 0 ? (guint) MAX (0, ceil (area / largest - 1e-6)) : 0;
}

/* --- searching --- */

typedef struct {
  guint faults, missing, sheets;
  DryLength effort;
  guint pieces;
  gint64 cost;
} Worth;

/* A choice whose bound allows fewer sheets than its nesting found. */
typedef struct {
  guint *choice;
  double area;
} Hope;

typedef struct {
  GPtrArray *const *layouts;
  guint n_faces;
  const DryStock *stock;
  guint n_stock;
  DryLength kerf;
  guint least;
  guint64 left;
  GCancellable *cancellable;
  guint64 random;
  guint *now, *trial;
  Worth worth;
  GArray *pieces;
  GHashTable *seen; /* choices looked at, as strings of bytes */
  Hope hopes[MOST_HOPES];
  guint n_hopes;
} Chooser;

static const DryLayout *
get_layout (const Chooser *self, guint face, guint index)
{
  return g_ptr_array_index (self->layouts[face], index);
}

static gboolean
is_over (const Chooser *self)
{
  return self->left == 0 || g_cancellable_is_cancelled (self->cancellable);
}

static void
spend (Chooser *self, guint64 units)
{
  self->left -= MIN (self->left, units);
}

static gboolean
is_better (const Worth *a, const Worth *b)
{
  if (a->faults != b->faults)
    return a->faults < b->faults;
  if (a->missing != b->missing)
    return a->missing < b->missing;
  if (a->sheets != b->sheets)
    return a->sheets < b->sheets;
  if (a->effort != b->effort)
    return a->effort < b->effort;
  if (a->pieces != b->pieces)
    return a->pieces < b->pieces;
  return a->cost >= 0 && b->cost >= 0 && a->cost < b->cost;
}

/* The choice in `trial`, less what only nesting tells; its pieces in `pieces`. */
static Worth
gather (Chooser *self)
{
  Worth worth = {0};
  g_array_set_size (self->pieces, 0);
  for (guint f = 0; f < self->n_faces; f++) {
    const DryLayout *layout = get_layout (self, f, self->trial[f]);
    worth.faults += layout->faults;
    worth.effort += layout->effort;
    g_array_append_vals (self->pieces, layout->pieces, layout->n_pieces);
  }
  worth.pieces = self->pieces->len;
  return worth;
}

static gboolean
is_new (Chooser *self)
{
  GBytes *key = g_bytes_new (self->trial, sizeof (guint) * self->n_faces);
  return g_hash_table_add (self->seen, key);
}

static void
read_cutting (Worth *worth, const DryCutting *cutting)
{
  worth->missing = cutting->n_unplaced;
  worth->sheets = cutting->n_bought;
  worth->cost = cutting->cost;
}

static void
take_trial (Chooser *self, const Worth *worth)
{
  memcpy (self->now, self->trial, sizeof (guint) * self->n_faces);
  self->worth = *worth;
}

/* Keeps the hopes whose pieces have the least area. */
static void
keep_hope (Chooser *self)
{
  double area = 0;
  for (guint i = 0; i < self->pieces->len; i++) {
    const DryPiece *piece = &g_array_index (self->pieces, DryPiece, i);
    area += (double) piece->width * (double) piece->height;
  }
  guint at = self->n_hopes;
  if (at == MOST_HOPES) {
    if (area >= self->hopes[at - 1].area)
      return;
    g_free (self->hopes[--at].choice);
  } else {
    self->n_hopes++;
  }
  for (; at > 0 && self->hopes[at - 1].area > area; at--)
    self->hopes[at] = self->hopes[at - 1];
  self->hopes[at] = (Hope){g_memdup2 (self->trial, sizeof (guint) * self->n_faces), area};
}

/* Looks at the choice in `trial`; TRUE when it became the present one. */
static gboolean
look (Chooser *self)
{
  if (is_over (self) || !is_new (self))
    return FALSE;
  Worth worth = gather (self);
  if (worth.faults > self->worth.faults)
    return FALSE;
  g_autoptr (DryNestProblem) problem =
      dry_nest_problem_new (self->stock, self->n_stock, (const DryPiece *) self->pieces->data,
                            self->pieces->len, self->kerf, NULL);
  worth.missing = self->pieces->len - problem->n_items;
  worth.sheets = dry_nest_lower_bound (problem, DRY_NEST_QUICK);
  spend (self, GLANCE);
  if (!is_better (&worth, &self->worth))
    return FALSE;
  g_autoptr (DryArena) arena = dry_arena_new ();
  const DryCutting *cutting =
      dry_cutting_compute (arena, self->stock, self->n_stock, (const DryPiece *) self->pieces->data,
                           self->pieces->len, self->kerf, 0);
  spend (self, LOOK);
  read_cutting (&worth, cutting);
  if (is_better (&worth, &self->worth)) {
    take_trial (self, &worth);
    return TRUE;
  }
  if (cutting->lower_bound < self->worth.sheets && worth.missing <= self->worth.missing)
    keep_hope (self);
  return FALSE;
}

/* One face after the other; again as long as it helps. */
static void
try_singles (Chooser *self)
{
  gboolean any = TRUE;
  while (any && !is_over (self)) {
    any = FALSE;
    for (guint f = 0; f < self->n_faces; f++)
      for (guint i = 0; i < self->layouts[f]->len; i++) {
        memcpy (self->trial, self->now, sizeof (guint) * self->n_faces);
        self->trial[f] = i;
        any = look (self) || any;
      }
  }
}

static gboolean
try_pairs (Chooser *self)
{
  for (guint f = 0; f < self->n_faces; f++)
    for (guint g = f + 1; g < self->n_faces; g++)
      for (guint i = 0; i < self->layouts[f]->len; i++)
        for (guint j = 0; j < self->layouts[g]->len && !is_over (self); j++) {
          memcpy (self->trial, self->now, sizeof (guint) * self->n_faces);
          self->trial[f] = i;
          self->trial[g] = j;
          if (look (self))
            return TRUE;
        }
  return FALSE;
}

/* Three faces and more at once, drawn at random. */
static gboolean
try_random (Chooser *self)
{
  for (guint n = 0; n < MOST_RANDOM && self->n_faces > 2 && !is_over (self); n++) {
    memcpy (self->trial, self->now, sizeof (guint) * self->n_faces);
    guint many = 3 + dry_nest_random (&self->random) % (self->n_faces - 2);
    for (guint i = 0; i < many; i++) {
      guint f = dry_nest_random (&self->random) % self->n_faces;
      self->trial[f] = dry_nest_random (&self->random) % self->layouts[f]->len;
    }
    if (look (self))
      return TRUE;
  }
  return FALSE;
}

/* The choices one sheet fewer might do for, nested with care. */
static gboolean
try_hopes (Chooser *self)
{
  gboolean any = FALSE;
  for (guint i = 0; i < self->n_hopes && !any && !is_over (self); i++) {
    g_autoptr (DryArena) arena = dry_arena_new ();
    memcpy (self->trial, self->hopes[i].choice, sizeof (guint) * self->n_faces);
    Worth worth = gather (self);
    const DryCutting *cutting = dry_cutting_improve (
        arena, self->stock, self->n_stock, (const DryPiece *) self->pieces->data, self->pieces->len,
        self->kerf, MIN (CARE, self->left), 1, self->cancellable);
    spend (self, CARE);
    read_cutting (&worth, cutting);
    any = is_better (&worth, &self->worth);
    if (any)
      take_trial (self, &worth);
  }
  for (guint i = 0; i < self->n_hopes; i++)
    g_free (self->hopes[i].choice);
  self->n_hopes = 0;
  return any;
}

static void
choose_on (Chooser *self)
{
  gboolean any = TRUE;
  while (any && !is_over (self)) {
    try_singles (self);
    any = try_pairs (self);
    if (!any && self->worth.sheets > self->least)
      any = try_random (self) || try_hopes (self);
  }
  for (guint i = 0; i < self->n_hopes; i++)
    g_free (self->hopes[i].choice);
}

/* Where the live choice stands, nested with care. */
static void
begin (Chooser *self, const DryLayout *const *chosen)
{
  for (guint f = 0; f < self->n_faces; f++)
    for (guint i = 0; i < self->layouts[f]->len; i++)
      if (get_layout (self, f, i) == chosen[f])
        self->trial[f] = i;
  Worth worth = gather (self);
  g_autoptr (DryArena) arena = dry_arena_new ();
  guint64 effort = MIN (CARE, self->left / 4);
  const DryCutting *cutting =
      dry_cutting_improve (arena, self->stock, self->n_stock, (const DryPiece *) self->pieces->data,
                           self->pieces->len, self->kerf, effort, 1, self->cancellable);
  spend (self, cutting->proven ? LOOK : effort);
  read_cutting (&worth, cutting);
  is_new (self);
  take_trial (self, &worth);
}

void
dry_nest_choose_on (DryBoardFace *const *faces, GPtrArray *const *layouts, guint n_faces,
                    DryLength kerf, guint least, guint64 effort, GCancellable *cancellable,
                    const DryLayout **chosen)
{
  if (n_faces == 0 || effort == 0)
    return;
  g_autoptr (GArray) pieces = g_array_new (FALSE, FALSE, sizeof (DryPiece));
  g_autoptr (GHashTable) seen =
      g_hash_table_new_full (g_bytes_hash, g_bytes_equal, (GDestroyNotify) g_bytes_unref, NULL);
  g_autofree guint *now = g_new0 (guint, n_faces), *trial = g_new0 (guint, n_faces);
  Chooser self = {
      .layouts = layouts,
      .n_faces = n_faces,
      .stock = faces[0]->stock,
      .n_stock = faces[0]->n_stock,
      .kerf = kerf,
      .least = least,
      .left = effort,
      .cancellable = cancellable,
      .random = G_GUINT64_CONSTANT (0x9E3779B97F4A7C15),
      .now = now,
      .trial = trial,
      .pieces = pieces,
      .seen = seen,
  };
  begin (&self, chosen);
  choose_on (&self);
  for (guint f = 0; f < n_faces; f++)
    chosen[f] = get_layout (&self, f, now[f]);
}
