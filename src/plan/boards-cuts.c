/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Sets of seam positions across an area: heights of level seams, and uprights for standing ones.
 * Offers the few worth trying; how they go together on a face is for others. */
#define G_LOG_DOMAIN "plan"

#include <string.h>

#include "plan/boards-private.h"

static void
keep_set (const DryBoardFace *self, GArray *positions, GArray *out)
{
  DryCutSet set = {
      .at = dry_arena_copy (self->scratch, positions->data, sizeof (DryLength) * positions->len),
      .n = positions->len,
  };
  for (guint i = 0; i < out->len; i++) {
    const DryCutSet *other = &g_array_index (out, DryCutSet, i);
    gboolean same = other->n == set.n;
    for (guint j = 0; j < set.n && same; j++)
      same = other->at[j] == set.at[j];
    if (same)
      return;
  }
  g_array_append_val (out, set);
}

/* What the area holds, so that sheets are not wasted on the empty part of it. */
static DryRect
shrink_to_board (const DryBoardFace *self, DryRect area)
{
  DryRect all = {0, 0, 0, 0};
  for (guint i = 0; i < self->n_slabs; i++) {
    const DrySlab *slab = &self->slabs[i];
    DryRect r = {slab->x0, MIN (slab->bottom0, slab->bottom1), slab->x1,
                 MAX (slab->top0, slab->top1)};
    r = dry_rect_intersect (r, area);
    if (dry_rect_is_empty (r))
      continue;
    all = dry_rect_is_empty (all) ? r
                                  : (DryRect){MIN (all.x0, r.x0), MIN (all.y0, r.y0),
                                              MAX (all.x1, r.x1), MAX (all.y1, r.y1)};
  }
  return all;
}

/* --- heights --- */

typedef struct {
  const DryBoardFace *face;
  DryRect area;
  DryLength sheet;
} Heights;

static gboolean
is_free_height (const Heights *self, DryLength at)
{
  return dry_board_judge_line (self->face, FALSE, at, self->area.x0, self->area.x1) == 0;
}

/* The nearest height to `wanted` within low..high where a seam breaks no rule; `wanted` when there
 * is none. Rules change only at corners and holes, so only heights beside those are asked. */
static DryLength
find_free_height (const Heights *self, DryLength wanted, DryLength low, DryLength high)
{
  wanted = CLAMP (wanted, low, high);
  if (is_free_height (self, wanted))
    return wanted;
  DryLength best = wanted, best_away = -1;
  const DryBoardFace *face = self->face;
  guint n = 2 * face->n_corners + 2 * face->face->n_holes;
  for (guint i = 0; i < n; i++) {
    gboolean above = i % 2;
    DryLength at;
    if (i / 2 < face->n_corners) {
      at = face->corners[i / 2].at.y + (above ? 2 : -2) * DRY_INCH;
    } else {
      const DryHole *hole = &face->face->holes[i / 2 - face->n_corners];
      DryLength clear = hole->diameter / 2 + MAX (DRY_INCH, face->block_half) + 1;
      at = hole->centre.y + (above ? clear : -clear);
    }
    DryLength away = ABS (at - wanted);
    if (at < low || at > high || (best_away >= 0 && away >= best_away))
      continue;
    if (is_free_height (self, at)) {
      best = at;
      best_away = away;
    }
  }
  return best;
}

/* Full sheets from the bottom up, the last cut to the ceiling. `cuts` may hold a seam below. */
static void
lay_upwards (const Heights *self, DryLength bottom, GArray *cuts)
{
  const DryBoardFace *face = self->face;
  while (self->area.y1 - bottom > self->sheet) {
    DryLength reach = bottom + self->sheet + face->gap_low;
    /* Not so high that what is left would be a sliver. */
    DryLength high = MIN (reach, self->area.y1 - face->min_piece - face->gap_high);
    DryLength low = MIN (bottom + face->min_piece + face->gap_low, high);
    DryLength at = MAX (find_free_height (self, high, low, high), bottom + 1);
    g_array_append_val (cuts, at);
    bottom = at + face->gap_high;
  }
}

static gint
compare_lengths (gconstpointer a, gconstpointer b)
{
  DryLength left = *(const DryLength *) a, right = *(const DryLength *) b;
  return left < right ? -1 : left > right;
}

static void
lay_downwards (const Heights *self, GArray *cuts)
{
  const DryBoardFace *face = self->face;
  DryLength top = self->area.y1;
  while (top - self->area.y0 > self->sheet) {
    DryLength reach = top - self->sheet - face->gap_high;
    DryLength low = MAX (reach, self->area.y0 + face->min_piece + face->gap_low);
    DryLength high = MAX (top - face->min_piece - face->gap_high, low);
    DryLength at = MIN (find_free_height (self, low, low, high), top - 1);
    g_array_append_val (cuts, at);
    top = at - face->gap_low;
  }
  g_array_sort (cuts, compare_lengths);
}

/* All alike, or `up` higher: other heights for a neighbour to be staggered against. */
static void
lay_evenly (const Heights *self, DryLength up, GArray *cuts)
{
  const DryBoardFace *face = self->face;
  DryLength height = dry_rect_height (self->area);
  guint n =
      (guint) ((height + face->gap + self->sheet + face->gap - 1) / (self->sheet + face->gap));
  for (guint i = 1; i < n; i++) {
    DryLength wanted = self->area.y0 + (DryLength) ((__int128) height * i / n) + up;
    DryLength low = MAX (self->area.y0 + (DryLength) (i - 1) * (face->min_piece + face->gap),
                         self->area.y1 - (DryLength) (n - i) * (self->sheet + face->gap)) +
                    face->gap_low;
    DryLength high =
        MIN (self->area.y0 + (DryLength) i * (self->sheet + face->gap) - face->gap_high,
             self->area.y1 - face->min_piece - face->gap_high);
    if (low > high)
      return;
    DryLength at = find_free_height (self, wanted, low, high);
    g_array_append_val (cuts, at);
  }
}

void
dry_board_list_heights (const DryBoardFace *face, DryRect area, DryLength sheet_height,
                        gboolean leg_apart, GArray *out)
{
  Heights self = {face, shrink_to_board (face, area), sheet_height};
  if (dry_rect_is_empty (self.area))
    self.area = area;
  g_autoptr (GArray) cuts = g_array_new (FALSE, FALSE, sizeof (DryLength));
  DryLength bottom = face->face->board_bottom;
  if (leg_apart && bottom > self.area.y0 + face->gap && bottom < self.area.y1) {
    /* The legs end a gap below the boards that stand on the basin's edge. */
    DryLength at = bottom - face->gap_high;
    g_array_append_val (cuts, at);
    lay_upwards (&self, bottom, cuts);
    keep_set (face, cuts, out);
    g_array_set_size (cuts, 0);
  }
  lay_upwards (&self, self.area.y0, cuts);
  keep_set (face, cuts, out);
  if (cuts->len == 0)
    return;
  g_array_set_size (cuts, 0);
  lay_downwards (&self, cuts);
  keep_set (face, cuts, out);
  const DryLength ups[] = {0, 8 * DRY_INCH, -8 * DRY_INCH};
  for (guint i = 0; i < G_N_ELEMENTS (ups); i++) {
    g_array_set_size (cuts, 0);
    lay_evenly (&self, ups[i], cuts);
    keep_set (face, cuts, out);
  }
}

static void
keep_with (const Heights *self, const GArray *cuts, DryLength wanted, GArray *out)
{
  const DryBoardFace *face = self->face;
  DryLength low = self->area.y0 + face->min_piece + face->gap_low;
  DryLength high = self->area.y1 - face->min_piece - face->gap_high;
  if (wanted < low || wanted > high || !is_free_height (self, wanted))
    return;
  for (guint i = 0; i < cuts->len; i++)
    if (ABS (g_array_index (cuts, DryLength, i) - wanted) < face->min_piece + face->gap)
      return;
  g_autoptr (GArray) both = g_array_copy ((GArray *) cuts);
  g_array_append_val (both, wanted);
  g_array_sort (both, compare_lengths);
  keep_set (face, both, out);
}

/* Whole and half sheets from below and above, the middle and the thirds: alone where one seam does,
 * and besides the seams there must be. */
void
dry_board_list_more_heights (const DryBoardFace *face, DryRect area, DryLength sheet_height,
                             guint more, GArray *out)
{
  Heights self = {face, shrink_to_board (face, area), sheet_height};
  if (dry_rect_is_empty (self.area))
    return;
  g_autoptr (GArray) none = g_array_new (FALSE, FALSE, sizeof (DryLength));
  g_autoptr (GArray) cuts = g_array_new (FALSE, FALSE, sizeof (DryLength));
  g_autoptr (GArray) wanted = g_array_new (FALSE, FALSE, sizeof (DryLength));
  DryLength low = self.area.y0, high = self.area.y1;
  lay_upwards (&self, low, cuts);
  for (guint half = 1; half <= 2; half++)
    for (guint i = 0; i < face->n_stock; i++) {
      DryLength sides[] = {face->stock[i].width / half, face->stock[i].height / half};
      for (guint k = 0; k < 2 && !face->stock[i].on_hand; k++) {
        DryLength at[] = {low + sides[k] + face->gap_low, high - sides[k] - face->gap_high};
        g_array_append_vals (wanted, at, 2);
      }
    }
  DryLength parts[] = {low + (high - low) / 2, low + (high - low) / 3, high - (high - low) / 3};
  g_array_append_vals (wanted, parts, G_N_ELEMENTS (parts));
  for (guint i = 0; i < wanted->len; i++) {
    if (cuts->len <= 1)
      keep_with (&self, none, g_array_index (wanted, DryLength, i), out);
    if (cuts->len > 0)
      keep_with (&self, cuts, g_array_index (wanted, DryLength, i), out);
  }
  for (guint i = 0; i < wanted->len && more > 1; i++) {
    g_array_set_size (none, 0);
    g_array_append_val (none, g_array_index (wanted, DryLength, i));
    for (guint k = 0; k < i && is_free_height (&self, g_array_index (none, DryLength, 0)); k++)
      keep_with (&self, none, g_array_index (wanted, DryLength, k), out);
  }
}

/* --- uprights --- */

/* More steps than any bathroom needs; a hall 1 km long must not hang. */
#define MAX_STEPS 600

/* Where a seam breaks no rule, and how far off there it may lie to spare a sheet the saw. */
typedef struct {
  DryLength at, slack;
} Place;

typedef struct {
  const DryBoardFace *face;
  DryRect area;
  DryLength sheet;
  const Place *places; /* ascending */
  guint n_places;
  guint max, steps;
  GArray *cuts, *out;
} Uprights;

static gboolean
is_place (const Uprights *self, DryLength at)
{
  return at - self->area.x0 >= self->face->min_piece + self->face->gap_low &&
         self->area.x1 - at >= self->face->min_piece + self->face->gap_high &&
         dry_board_judge_line (self->face, TRUE, at, self->area.y0, self->area.y1) == 0;
}

/* Where the seam goes that ends the board begun at `left`: behind a whole sheet where that place
 * can carry it, else on the place itself; G_MAXINT64 when a sheet does not reach so far. */
static DryLength
settle (const Uprights *self, const Place *place, DryLength left)
{
  DryLength whole = left + self->sheet + self->face->gap_low;
  if (place->at == whole)
    return whole;
  if (ABS (place->at - whole) <= place->slack && is_place (self, whole))
    return whole;
  return place->at < whole ? place->at : G_MAXINT64;
}

/* The fewest seams that reach the other end from `left`, going as far as each sheet allows;
 * G_MAXUINT when some bay cannot be crossed. */
static guint
count_least (const Uprights *self, DryLength left)
{
  guint n = 0, next = 0;
  while (self->area.x1 - left > self->sheet) {
    DryLength reach = left + self->sheet + self->face->gap_low, best = left;
    while (next < self->n_places && self->places[next].at - self->places[next].slack <= reach) {
      DryLength at = settle (self, &self->places[next], left);
      if (at == G_MAXINT64)
        break;
      if (at - self->face->gap_low - left >= self->face->min_piece)
        best = MAX (best, at);
      next++;
    }
    if (best == left)
      return G_MAXUINT;
    left = best + self->face->gap_high;
    n++;
  }
  return n;
}

static const Place *
find_place (const Uprights *self, DryLength at)
{
  for (guint i = 0; i < self->n_places; i++)
    if (self->places[i].at == at)
      return &self->places[i];
  return NULL; /* moved already */
}

/* Moves the seam in the middle of its place to where the piece beside it is a whole sheet. */
static gboolean
move_seam (const Uprights *self, guint index, DryLength to)
{
  DryLength *at = &g_array_index (self->cuts, DryLength, index);
  const Place *place = find_place (self, *at);
  if (place == NULL || ABS (to - place->at) > place->slack || !is_place (self, to))
    return FALSE;
  *at = to;
  return TRUE;
}

/* The search spares whole sheets from the left; here those at the right end, and between two seams
 * that may each give way by half. Then keeps the set. */
static void
keep_spared (Uprights *self)
{
  guint n = self->cuts->len;
  const DryBoardFace *face = self->face;
  g_autoptr (GArray) found = g_array_copy (self->cuts);
  if (n > 0)
    move_seam (self, n - 1, self->area.x1 - self->sheet - face->gap_high);
  for (guint i = 0; i + 1 < n; i++) {
    DryLength left = g_array_index (self->cuts, DryLength, i);
    DryLength right = g_array_index (self->cuts, DryLength, i + 1);
    DryLength lack = self->sheet + face->gap - (right - left);
    if (lack == 0 || find_place (self, right) == NULL || !move_seam (self, i, left - lack / 2))
      continue;
    if (!move_seam (self, i + 1, right + lack - lack / 2))
      g_array_index (self->cuts, DryLength, i) = left;
  }
  keep_set (self->face, self->cuts, self->out);
  memcpy (self->cuts->data, found->data, sizeof (DryLength) * n);
}

/* All sets of that many seams, the farthest reaching first. */
static void
reach_on (Uprights *self, DryLength left, guint more)
{
  if (self->steps++ > MAX_STEPS || self->out->len >= self->max)
    return;
  if (more == 0) {
    if (self->area.x1 - left <= self->sheet)
      keep_spared (self);
    return;
  }
  for (guint i = self->n_places; i > 0; i--) {
    DryLength at = settle (self, &self->places[i - 1], left);
    if (at == G_MAXINT64)
      continue;
    if (at - self->face->gap_low - left < self->face->min_piece)
      break;
    guint rest = count_least (self, at + self->face->gap_high);
    if (rest > more - 1)
      break; /* nearer places reach no farther */
    g_array_append_val (self->cuts, at);
    reach_on (self, at + self->face->gap_high, more - 1);
    g_array_set_size (self->cuts, self->cuts->len - 1);
  }
}

/* No rule-abiding set: the farthest place there is under each sheet, a stud or not. */
static void
reach_anyhow (Uprights *self)
{
  const DryBoardFace *face = self->face;
  DryLength left = self->area.x0;
  while (self->area.x1 - left > self->sheet) {
    DryLength reach =
        MIN (left + self->sheet + face->gap_low, self->area.x1 - face->min_piece - face->gap_high);
    DryLength at = MAX (reach, left + face->gap_low + 1);
    guint least = G_MAXUINT;
    for (guint i = 0; i < face->n_carriers; i++) {
      DryLength c = face->carriers[i].at;
      if (c > reach || c - face->gap_low - left < face->min_piece)
        continue;
      guint faults = dry_board_judge_line (face, TRUE, c, self->area.y0, self->area.y1);
      if (faults <= least) {
        least = faults;
        at = c;
      }
    }
    if (face->n_carriers == 0 ||
        least > dry_board_judge_line (face, TRUE, reach, self->area.y0, self->area.y1))
      at = MAX (reach, left + face->gap_low + 1);
    g_array_append_val (self->cuts, at);
    left = at + face->gap_high;
  }
  keep_set (face, self->cuts, self->out);
}

static void
add_even_places (const Uprights *self, GArray *places)
{
  DryLength step = self->sheet + self->face->gap, width = dry_rect_width (self->area);
  DryLength n = (width + self->face->gap + step - 1) / step;
  for (DryLength i = 1; i < n && i < MAX_STEPS; i++) {
    const DryLength at[] = {self->area.x0 + i * step - self->face->gap_high,
                            self->area.x1 - i * step + self->face->gap_low,
                            self->area.x0 + width / n * i};
    for (guint j = 0; j < G_N_ELEMENTS (at); j++)
      g_array_append_val (places, at[j]);
  }
  g_array_sort (places, compare_lengths);
}

static void
list_uprights (const DryBoardFace *face, DryRect area, DryLength sheet_width, guint max, guint more,
               GArray *out)
{
  Uprights self = {.face = face,
                   .area = shrink_to_board (face, area),
                   .sheet = sheet_width,
                   .max = out->len + max,
                   .out = out};
  if (dry_rect_is_empty (self.area))
    self.area = area;
  self.cuts = g_array_new (FALSE, FALSE, sizeof (DryLength));
  if (dry_rect_width (self.area) <= sheet_width && more == 0) {
    keep_set (face, self.cuts, out);
    g_array_unref (self.cuts);
    return;
  }
  g_autoptr (GArray) wanted = g_array_new (FALSE, FALSE, sizeof (DryLength));
  g_autoptr (GArray) places = g_array_new (FALSE, FALSE, sizeof (Place));
  for (guint i = 0; i < face->n_carriers; i++)
    g_array_append_val (wanted, face->carriers[i].at);
  if (face->seams_anywhere)
    add_even_places (&self, wanted);
  for (guint i = 0; i < wanted->len; i++) {
    Place place = {g_array_index (wanted, DryLength, i), 0};
    if (!face->seams_anywhere)
      place.slack = face->carriers[i].slack;
    if ((places->len == 0 || g_array_index (places, Place, places->len - 1).at != place.at) &&
        is_place (&self, place.at))
      g_array_append_val (places, place);
  }
  self.places = (const Place *) places->data;
  self.n_places = places->len;
  guint least = count_least (&self, self.area.x0);
  if (least != G_MAXUINT)
    for (guint n = more > 0 ? 1 : 0; n <= more; n++) {
      self.steps = 0;
      reach_on (&self, self.area.x0, least + n);
    }
  if (out->len == self.max - max && more == 0)
    reach_anyhow (&self);
  g_array_unref (self.cuts);
}

void
dry_board_list_uprights (const DryBoardFace *face, DryRect area, DryLength sheet_width, guint max,
                         GArray *out)
{
  list_uprights (face, area, sheet_width, max, 0, out);
}

void
dry_board_list_more_uprights (const DryBoardFace *face, DryRect area, DryLength sheet_width,
                              guint max, guint more, GArray *out)
{
  list_uprights (face, area, sheet_width, max, more, out);
}
