/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Seams where the user wants them: which can be obeyed, and sets of seam positions laid out between
 * them as between the edges of the face. Judges no rule: a wish is obeyed whatever it breaks. */
#define G_LOG_DOMAIN "plan"

#include <string.h>

#include "plan/boards-private.h"

/* Less board than this beside a seam is none. Common practice, no source. */
#define LEAST_BOARD DRY_MM

/* --- which can be obeyed --- */

static DryPoint
point_beside (const DrySeamWish *wish, DryLength away)
{
  return wish->level ? (DryPoint){wish->through, wish->at + away}
                     : (DryPoint){wish->at + away, wish->through};
}

static gboolean
has_board_beside (const DryBoardFace *self, const DrySeamWish *wish)
{
  const DryRegion *region = &self->face->region;
  g_autoptr (GArray) stretches = g_array_new (FALSE, FALSE, sizeof (DryLength));
  gboolean on = FALSE;

  if (!dry_region_contains (region, point_beside (wish, -self->gap_low - LEAST_BOARD)) ||
      !dry_region_contains (region, point_beside (wish, self->gap_high + LEAST_BOARD)))
    return FALSE;
  dry_board_list_stretches (self, !wish->level, wish->at, -DRY_LENGTH_MAX, DRY_LENGTH_MAX,
                            stretches);
  for (guint i = 0; i + 1 < stretches->len; i += 2)
    on = on || (g_array_index (stretches, DryLength, i) <= wish->through &&
                g_array_index (stretches, DryLength, i + 1) >= wish->through);
  return on;
}

void
dry_board_find_wishes (DryBoardFace *self, GArray *answers)
{
  GArray *found = g_array_new (FALSE, FALSE, sizeof (DrySeamWish *));

  for (guint i = 0; i < answers->len; i++) {
    DryWishAnswer *answer = &g_array_index (answers, DryWishAnswer, i);

    if (self->face->kind != DRY_FACE_WALL || answer->wish->wall != self->face->wall ||
        answer->wish->side != self->face->side)
      continue;
    answer->face = (gint) self->face->index;
    if (has_board_beside (self, answer->wish)) {
      answer->state = DRY_WISH_OBEYED;
      g_array_append_val (found, answer->wish);
    }
  }
  self->n_wishes = found->len;
  self->wishes = dry_arena_take_array (self->scratch, found);
}

gboolean
dry_board_is_wished (const DryBoardFace *self, gboolean vertical, DryLength at)
{
  for (guint i = 0; i < self->n_wishes; i++)
    if (self->wishes[i]->level != vertical && self->wishes[i]->at == at)
      return TRUE;
  return FALSE;
}

static gboolean
fulfils (const DryBoardFace *self, const DryRawSeam *seam, const DrySeamWish *wish)
{
  return wish->level != seam->vertical && wish->at == seam->at &&
         wish->through >= seam->low - self->gap && wish->through <= seam->high + self->gap;
}

gboolean
dry_board_is_seam_of (const DryBoardFace *self, const DrySeam *seam, const DrySeamWish *wish)
{
  DryRawSeam raw = {.vertical = seam->vertical,
                    .at = seam->vertical ? seam->from.x : seam->from.y,
                    .low = seam->vertical ? seam->from.y : seam->from.x,
                    .high = seam->vertical ? seam->to.y : seam->to.x};

  return seam->face == self->face->index && fulfils (self, &raw, wish);
}

const DrySeamWish *
dry_board_find_wish (const DryBoardFace *self, const DryRawSeam *seam, const GArray *all)
{
  for (guint i = 0; i < self->n_wishes; i++) {
    const DrySeamWish *wish = self->wishes[i];
    if (wish->level == seam->vertical || wish->at != seam->at)
      continue;
    for (guint k = 0; k < all->len; k++) {
      const DryRawSeam *other = &g_array_index (all, DryRawSeam, k);
      if (other->across == seam->across && other->strip == seam->strip &&
          fulfils (self, other, wish))
        return wish;
    }
  }
  return NULL;
}

guint
dry_board_count_refused (const DryBoardFace *self, GArray *seams)
{
  guint refused = 0;

  for (guint i = 0; i < self->n_wishes; i++) {
    gboolean found = FALSE;

    for (guint k = 0; k < seams->len && !found; k++)
      found = fulfils (self, &g_array_index (seams, DryRawSeam, k), self->wishes[i]);
    refused += !found;
  }
  return refused;
}

/* --- laying out between them --- */

static gint
compare_lengths (gconstpointer a, gconstpointer b)
{
  DryLength left = *(const DryLength *) a, right = *(const DryLength *) b;
  return left < right ? -1 : left > right;
}

/* Lines that must be cut in the area, ascending; of two that would leave nothing between them the
 * first. */
static GArray *
list_lines (const DryBoardFace *self, gboolean vertical, DryLength from, DryLength to,
            DryLength low, DryLength high)
{
  GArray *lines = g_array_new (FALSE, FALSE, sizeof (DryLength));

  for (guint i = 0; i < self->n_wishes; i++) {
    const DrySeamWish *wish = self->wishes[i];
    gboolean free = wish->level != vertical && wish->through >= low && wish->through < high &&
                    wish->at - self->gap_low > from && wish->at + self->gap_high < to;

    for (guint k = 0; k < lines->len && free; k++)
      free = ABS (g_array_index (lines, DryLength, k) - wish->at) >= self->gap + LEAST_BOARD;
    if (free)
      g_array_append_val (lines, wish->at);
  }
  g_array_sort (lines, compare_lengths);
  return lines;
}

typedef struct {
  const DryBoardFace *face;
  gboolean vertical;
  GArray *lines;
  GArray **options; /* of each stretch between lines: DryCutSet */
  GArray *out;
} Between;

static void
keep_combination (const Between *self, const guint *picked)
{
  g_autoptr (GArray) cuts = g_array_new (FALSE, FALSE, sizeof (DryLength));

  for (guint i = 0; i <= self->lines->len; i++) {
    if (self->options[i]->len > 0) {
      const DryCutSet *set = &g_array_index (self->options[i], DryCutSet, picked[i]);
      if (set->n > 0)
        g_array_append_vals (cuts, set->at, set->n);
    }
    if (i < self->lines->len)
      g_array_append_val (cuts, g_array_index (self->lines, DryLength, i));
  }
  DryCutSet set = {
      .at = dry_arena_copy (self->face->scratch, cuts->data, sizeof (DryLength) * cuts->len),
      .n = cuts->len,
  };
  for (guint i = 0; i < self->out->len; i++) {
    const DryCutSet *other = &g_array_index (self->out, DryCutSet, i);
    if (other->n == set.n && memcmp (other->at, set.at, sizeof (DryLength) * set.n) == 0)
      return;
  }
  g_array_append_val (self->out, set);
}

/* The first of every stretch together, each of the others with the firsts, and the n-th of all. */
static void
combine (const Between *self)
{
  guint n = self->lines->len + 1, most = 0;
  g_autofree guint *picked = g_new0 (guint, n);

  keep_combination (self, picked);
  for (guint i = 0; i < n; i++) {
    most = MAX (most, self->options[i]->len);
    for (guint k = 1; k < self->options[i]->len; k++) {
      picked[i] = k;
      keep_combination (self, picked);
    }
    picked[i] = 0;
  }
  for (guint k = 1; k < most && n > 1; k++) {
    for (guint i = 0; i < n; i++)
      picked[i] = MIN (k, MAX (self->options[i]->len, 1) - 1);
    keep_combination (self, picked);
  }
}

/* The part of the area between two lines, less the gaps. */
static DryRect
part_of_area (const Between *self, DryRect area, guint index)
{
  const DryBoardFace *face = self->face;

  if (index > 0) {
    DryLength low = g_array_index (self->lines, DryLength, index - 1) + face->gap_high;
    *(self->vertical ? &area.x0 : &area.y0) = low;
  }
  if (index < self->lines->len) {
    DryLength high = g_array_index (self->lines, DryLength, index) - face->gap_low;
    *(self->vertical ? &area.x1 : &area.y1) = high;
  }
  return area;
}

static void
begin (Between *self, DryRect area, DryLength low, DryLength high)
{
  self->lines = self->vertical ? list_lines (self->face, TRUE, area.x0, area.x1, low, high)
                               : list_lines (self->face, FALSE, area.y0, area.y1, low, high);
  self->options = g_new0 (GArray *, self->lines->len + 1);
  for (guint i = 0; i <= self->lines->len; i++)
    self->options[i] = g_array_new (FALSE, FALSE, sizeof (DryCutSet));
}

static void
finish (Between *self)
{
  combine (self);
  for (guint i = 0; i <= self->lines->len; i++)
    g_array_unref (self->options[i]);
  g_free (self->options);
  g_array_unref (self->lines);
}

void
dry_board_list_wished_heights (const DryBoardFace *face, DryRect area, DryLength low,
                               DryLength high, DryLength sheet_height, gboolean leg_apart,
                               guint more, GArray *out)
{
  Between self = {.face = face, .vertical = FALSE, .out = out};

  if (face->n_wishes == 0) {
    dry_board_list_heights (face, area, sheet_height, leg_apart, out);
    if (more)
      dry_board_list_more_heights (face, area, sheet_height, more, out);
    return;
  }
  begin (&self, area, low, high);
  for (guint i = 0; i <= self.lines->len; i++) {
    DryRect part = part_of_area (&self, area, i);
    dry_board_list_heights (face, part, sheet_height, leg_apart, self.options[i]);
    if (more)
      dry_board_list_more_heights (face, part, sheet_height, more, self.options[i]);
  }
  finish (&self);
}

void
dry_board_list_wished_uprights (const DryBoardFace *face, DryRect area, DryLength low,
                                DryLength high, DryLength sheet_width, guint max, guint more,
                                GArray *out)
{
  Between self = {.face = face, .vertical = TRUE, .out = out};

  if (face->n_wishes == 0) {
    dry_board_list_uprights (face, area, sheet_width, max, out);
    if (more)
      dry_board_list_more_uprights (face, area, sheet_width, 4 * max, more, out);
    return;
  }
  begin (&self, area, low, high);
  for (guint i = 0; i <= self.lines->len; i++) {
    DryRect part = part_of_area (&self, area, i);
    dry_board_list_uprights (face, part, sheet_width, max, self.options[i]);
    if (more)
      dry_board_list_more_uprights (face, part, sheet_width, 4 * max, more, self.options[i]);
  }
  finish (&self);
}
