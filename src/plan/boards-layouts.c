/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The good layouts of one face: boards lying or standing, of every sheet, seams where the rules
 * allow, rows and columns staggered. Which one is taken depends on the other faces. */
#define G_LOG_DOMAIN "plan"

#include "plan/boards-private.h"

#define MAX_SETS     6  /* positions of standing seams tried in a strip */
#define MAX_COMBINED 6  /* ways to stagger them over the strips */
#define MAX_STEPS    64 /* looked at to find those */
#define MAX_LAYOUTS  24 /* kept of a face */

typedef struct {
  const DryBoardFace *face;
  DryLength width, height; /* of the sheet as hung */
  gboolean leg_apart;
  guint style;
  gboolean rows;
  DryCutSet across;
  GArray **options; /* of each strip: DryCutSet */
  guint *picked;
  guint found, steps;
  guint more; /* seams of a strip beyond what must be */
  guint left; /* more: layouts still to be looked at */
  GPtrArray *layouts;
} Maker;

static gboolean
is_staggered (const Maker *self, guint strip)
{
  if (strip == 0)
    return TRUE;
  const DryCutSet *a =
      &g_array_index (self->options[strip - 1], DryCutSet, self->picked[strip - 1]);
  const DryCutSet *b = &g_array_index (self->options[strip], DryCutSet, self->picked[strip]);
  for (guint i = 0; i < a->n; i++)
    for (guint j = 0; j < b->n; j++)
      if (ABS (a->at[i] - b->at[j]) < self->face->stagger &&
          !(dry_board_is_wished (self->face, self->rows, a->at[i]) &&
            dry_board_is_wished (self->face, self->rows, b->at[j])))
        return FALSE;
  return TRUE;
}

static void
keep_layout (Maker *self)
{
  guint n = self->across.n + 1;
  DryCutSet *strips = dry_arena_new_array (self->face->scratch, DryCutSet, n);
  for (guint i = 0; i < n; i++)
    strips[i] = g_array_index (self->options[i], DryCutSet, self->picked[i]);
  DryLayout *layout = dry_arena_alloc (self->face->scratch, sizeof (DryLayout));
  *layout = (DryLayout){
      .rows = self->rows, .across = self->across, .strips = strips, .style = self->style};
  dry_board_measure (self->face, layout);
  g_ptr_array_add (self->layouts, layout);
  self->found++;
}

/* Goes through the strips like an odometer that steps back where two are not staggered. */
static void
combine_strips (Maker *self)
{
  guint n = self->across.n + 1, strip = 0;
  self->picked[0] = 0;
  while (self->found < MAX_COMBINED && self->steps++ < MAX_STEPS + 4 * n) {
    gboolean over = self->picked[strip] >= self->options[strip]->len;
    if (over && strip == 0)
      return;
    if (over) {
      self->picked[--strip]++;
    } else if (!is_staggered (self, strip)) {
      self->picked[strip]++;
    } else if (strip + 1 < n) {
      self->picked[++strip] = 0;
    } else {
      keep_layout (self);
      self->picked[strip]++;
    }
  }
}

/* Nothing staggers: the first set of every other strip, the last of those between. */
static void
combine_anyhow (Maker *self)
{
  for (guint i = 0; i <= self->across.n; i++)
    self->picked[i] = i % 2 ? self->options[i]->len - 1 : 0;
  keep_layout (self);
}

static gboolean
are_all_staggered (const Maker *self)
{
  for (guint i = 1; i <= self->across.n; i++)
    if (!is_staggered (self, i))
      return FALSE;
  return TRUE;
}

static void
look_at (Maker *self)
{
  if (self->left == 0 || !are_all_staggered (self))
    return;
  self->left--;
  keep_layout (self);
}

/* One strip changed, then any two; the others keep to their first set. */
static void
combine_more (Maker *self)
{
  guint n = self->across.n + 1;
  for (guint i = 0; i < n; i++)
    self->picked[i] = 0;
  look_at (self);
  for (guint i = 0; i < n; i++) {
    for (self->picked[i] = 1; self->picked[i] < self->options[i]->len; self->picked[i]++)
      look_at (self);
    self->picked[i] = 0;
  }
  for (guint i = 0; i < n; i++)
    for (guint k = i + 1; k < n && self->left > 0; k++) {
      for (self->picked[i] = 1; self->picked[i] < self->options[i]->len; self->picked[i]++)
        for (self->picked[k] = 1; self->picked[k] < self->options[k]->len; self->picked[k]++)
          look_at (self);
      self->picked[i] = self->picked[k] = 0;
    }
  self->found = 1;
}

static void
make_across (Maker *self, const DryCutSet *across)
{
  guint n = across->n + 1;
  self->across = *across;
  self->options = g_new0 (GArray *, n);
  self->picked = g_new0 (guint, n);
  self->found = self->steps = 0;
  DryLayout plain = {.rows = self->rows, .across = *across};
  for (guint i = 0; i < n; i++) {
    DryRect strip = dry_board_strip (self->face, &plain, i);
    DryLength low, high;
    dry_board_strip_span (&plain, i, &low, &high);
    self->options[i] = g_array_new (FALSE, FALSE, sizeof (DryCutSet));
    if (self->rows)
      dry_board_list_wished_uprights (self->face, strip, low, high, self->width, MAX_SETS,
                                      self->more, self->options[i]);
    else
      dry_board_list_wished_heights (self->face, strip, low, high, self->height, self->leg_apart,
                                     self->more, self->options[i]);
  }
  if (self->more)
    combine_more (self);
  else
    combine_strips (self);
  if (self->found == 0)
    combine_anyhow (self);
  for (guint i = 0; i < n; i++)
    g_array_unref (self->options[i]);
  g_free (self->options);
  g_free (self->picked);
}

static void
make_layouts (Maker *self)
{
  for (guint rows = 0; rows < 2; rows++) {
    g_autoptr (GArray) sets = g_array_new (FALSE, FALSE, sizeof (DryCutSet));
    self->rows = rows == 0;
    if (self->rows)
      dry_board_list_wished_heights (self->face, self->face->bounds, -DRY_LENGTH_MAX,
                                     DRY_LENGTH_MAX, self->height, self->leg_apart, self->more,
                                     sets);
    else
      dry_board_list_wished_uprights (self->face, self->face->bounds, -DRY_LENGTH_MAX,
                                      DRY_LENGTH_MAX, self->width, MAX_SETS, self->more, sets);
    for (guint i = 0; i < sets->len; i++) {
      /* Every set across gets its share of the looks; what one leaves over goes to the next. */
      guint later = self->left - self->left / (sets->len - i + (rows == 0 ? sets->len : 0));
      self->left -= later;
      make_across (self, &g_array_index (sets, DryCutSet, i));
      self->left += later;
    }
    self->style++;
  }
}

/* --- the best of them --- */

static gint
compare_layouts (gconstpointer a, gconstpointer b)
{
  const DryLayout *left = *(DryLayout *const *) a, *right = *(DryLayout *const *) b;
  if (left->faults != right->faults)
    return left->faults < right->faults ? -1 : 1;
  if (left->effort != right->effort)
    return left->effort < right->effort ? -1 : 1;
  if (left->n_pieces != right->n_pieces)
    return left->n_pieces < right->n_pieces ? -1 : 1;
  return left->style < right->style ? -1 : left->style > right->style;
}

static gboolean
same_pieces (const DryLayout *a, const DryLayout *b)
{
  if (a->n_pieces != b->n_pieces)
    return FALSE;
  for (guint i = 0; i < a->n_pieces; i++) {
    guint balance_a = 0, balance_b = 0;
    for (guint j = 0; j < a->n_pieces; j++) {
      balance_a +=
          a->pieces[j].width == a->pieces[i].width && a->pieces[j].height == a->pieces[i].height;
      balance_b +=
          b->pieces[j].width == a->pieces[i].width && b->pieces[j].height == a->pieces[i].height;
    }
    if (balance_a != balance_b)
      return FALSE;
  }
  return TRUE;
}

/* Only the least faulty are kept, and of those that give equal pieces the first. */
static void
keep_best (GPtrArray *layouts)
{
  g_ptr_array_sort (layouts, compare_layouts);
  const DryLayout *best = g_ptr_array_index (layouts, 0);
  guint kept = 0;
  for (guint i = 0; i < layouts->len && kept < MAX_LAYOUTS; i++) {
    DryLayout *layout = g_ptr_array_index (layouts, i);
    if (layout->faults > best->faults)
      break;
    gboolean seen = FALSE;
    for (guint j = 0; j < kept && !seen; j++)
      seen = same_pieces (layout, g_ptr_array_index (layouts, j));
    if (!seen)
      layouts->pdata[kept++] = layout;
  }
  g_ptr_array_set_size (layouts, (gint) kept);
}

static void
make_for_all_sheets (const DryBoardFace *face, gboolean leg_apart, GPtrArray *layouts)
{
  Maker maker = {.face = face, .leg_apart = leg_apart, .layouts = layouts};
  for (guint i = 0; i < face->n_stock; i++) {
    const DryStock *stock = &face->stock[i];
    if (stock->on_hand) /* seams are laid for what can always be had */
      continue;
    for (guint turned = 0; turned < (face->may_turn ? 2 : 1); turned++) {
      maker.style = 4 * i + 2 * turned;
      maker.width = turned ? stock->height : stock->width;
      maker.height = turned ? stock->width : stock->height;
      make_layouts (&maker);
    }
  }
}

GPtrArray *
dry_board_list_layouts (const DryBoardFace *self)
{
  GPtrArray *layouts = g_ptr_array_new ();
  make_for_all_sheets (self, FALSE, layouts);
  keep_best (layouts);
  const DryLayout *best = g_ptr_array_index (layouts, 0);
  if (best->faults > 0 && (self->face->leg_left || self->face->leg_right)) {
    /* No L shape will do: the legs are boards of their own. */
    make_for_all_sheets (self, TRUE, layouts);
    keep_best (layouts);
  }
  return layouts;
}

void
dry_board_list_more_layouts (const DryBoardFace *self, guint more, guint most, GPtrArray *layouts)
{
  const DryLayout *best = g_ptr_array_index (layouts, 0);
  guint faults = best->faults, n_before = layouts->len, kept = n_before, styles = 0;
  g_autoptr (GPtrArray) found = g_ptr_array_new ();
  Maker maker = {.face = self, .more = more, .layouts = found};
  for (guint i = 0; i < self->n_stock; i++)
    styles += self->stock[i].on_hand ? 0 : self->may_turn ? 2 : 1;
  for (guint i = 0; i < self->n_stock; i++)
    for (guint turned = 0; turned < (self->may_turn ? 2 : 1) && !self->stock[i].on_hand; turned++) {
      maker.left += most / MAX (styles, 1);
      maker.style = 4 * i + 2 * turned;
      maker.width = turned ? self->stock[i].height : self->stock[i].width;
      maker.height = turned ? self->stock[i].width : self->stock[i].height;
      make_layouts (&maker);
    }
  g_ptr_array_sort (found, compare_layouts);
  for (guint i = 0; i < found->len; i++) {
    DryLayout *layout = g_ptr_array_index (found, i);
    gboolean seen = layout->faults > faults;
    /* Equal ones mostly have as much seam: those stand side by side. */
    for (guint k = layouts->len; k > 0 && !seen; k--) {
      const DryLayout *other = g_ptr_array_index (layouts, k - 1);
      seen = same_pieces (layout, other);
      if (k <= layouts->len && other->effort < layout->effort && k <= n_before)
        break;
      if (other->effort < layout->effort && k > n_before)
        k = n_before + 1;
    }
    if (!seen && kept++ < n_before + most)
      g_ptr_array_add (layouts, layout);
  }
}
