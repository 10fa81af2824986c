/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Openings of pieces: the rectangles cut out of them or off their corners, from which smaller
 * pieces can be cut. Knows shapes and sizes, no layout and no wall. */
#define G_LOG_DOMAIN "plan"

#include "plan/cutting-private.h"

/* More corners than any board has; beyond them the finding of rectangles would take its time. */
#define MOST_LINES 24

/* --- rectangles outside a shape --- */

static gint
compare_lengths (gconstpointer a, gconstpointer b)
{
  DryLength left = *(const DryLength *) a, right = *(const DryLength *) b;
  return left < right ? -1 : left > right;
}

static void
keep_distinct (GArray *values)
{
  guint kept = 0;
  g_array_sort (values, compare_lengths);
  for (guint i = 0; i < values->len; i++) {
    DryLength value = g_array_index (values, DryLength, i);
    if (kept == 0 || g_array_index (values, DryLength, kept - 1) != value)
      g_array_index (values, DryLength, kept++) = value;
  }
  g_array_set_size (values, kept);
}

/* Corners, and of slopes the middle: there the largest rectangle under a slope has its corner. */
static void
add_lines (const DryRing *ring, GArray *xs, GArray *ys)
{
  for (guint i = 0; i < ring->n_points; i++) {
    DryPoint a = ring->points[i], b = ring->points[(i + 1) % ring->n_points];
    g_array_append_val (xs, a.x);
    g_array_append_val (ys, a.y);
    if (a.x == b.x || a.y == b.y)
      continue;
    DryPoint middle = {a.x + (b.x - a.x) / 2, a.y + (b.y - a.y) / 2};
    g_array_append_val (xs, middle.x);
    g_array_append_val (ys, middle.y);
  }
}

/* Which side of the line from a to b: > 0 left. */
static __int128
side_of (DryPoint a, DryPoint b, DryPoint p)
{
  return (__int128) (b.x - a.x) * (p.y - a.y) - (__int128) (b.y - a.y) * (p.x - a.x);
}

/* Whether the stretch passes through the inside of the rectangle. */
static gboolean
passes_through (DryPoint a, DryPoint b, const DryRect *r)
{
  if (MAX (a.x, b.x) <= r->x0 || MIN (a.x, b.x) >= r->x1 || MAX (a.y, b.y) <= r->y0 ||
      MIN (a.y, b.y) >= r->y1)
    return FALSE;
  const DryPoint corners[4] = {{r->x0, r->y0}, {r->x1, r->y0}, {r->x1, r->y1}, {r->x0, r->y1}};
  gboolean left = FALSE, right = FALSE;
  for (guint i = 0; i < 4; i++) {
    __int128 side = side_of (a, b, corners[i]);
    left = left || side > 0;
    right = right || side < 0;
  }
  return left && right;
}

static gboolean
ring_meets (const DryRing *ring, const DryRect *r)
{
  for (guint i = 0; i < ring->n_points; i++)
    if (passes_through (ring->points[i], ring->points[(i + 1) % ring->n_points], r))
      return TRUE;
  return FALSE;
}

/* No board in it: no edge passes through, and its middle is off the board. */
static gboolean
is_outside (const DryPolygon *shape, const DryRect *r)
{
  if (ring_meets (&shape->outer, r))
    return FALSE;
  DryPoint middle = {r->x0 + dry_rect_width (*r) / 2, r->y0 + dry_rect_height (*r) / 2};
  gboolean in = dry_ring_contains (&shape->outer, middle);
  for (guint h = 0; h < shape->n_holes; h++) {
    if (ring_meets (&shape->holes[h], r))
      return FALSE;
    if (dry_ring_contains (&shape->holes[h], middle))
      in = FALSE;
  }
  return !in;
}

/* What the blade leaves of it: on the rim of the piece it was cut already. */
static DryRect
less_kerf (DryRect r, const DryRect *bounds, DryLength kerf)
{
  return (DryRect){r.x0 > bounds->x0 ? r.x0 + kerf : r.x0, r.y0 > bounds->y0 ? r.y0 + kerf : r.y0,
                   r.x1 < bounds->x1 ? r.x1 - kerf : r.x1, r.y1 < bounds->y1 ? r.y1 - kerf : r.y1};
}

static gboolean
is_taken (const GArray *out, guint first, const DryRect *r)
{
  for (guint i = first; i < out->len; i++)
    if (dry_rect_overlaps (g_array_index (out, DryRect, i), *r))
      return TRUE;
  return FALSE;
}

static DryRect
find_largest (const DryPolygon *shape, const DryRect *bounds, DryLength kerf, const GArray *xs,
              const GArray *ys, const GArray *out, guint first)
{
  DryRect best = {0};
  double most = 0;
  for (guint i = 0; i < xs->len; i++)
    for (guint j = i + 1; j < xs->len; j++)
      for (guint k = 0; k < ys->len; k++)
        for (guint l = k + 1; l < ys->len; l++) {
          DryRect r = {g_array_index (xs, DryLength, i), g_array_index (ys, DryLength, k),
                       g_array_index (xs, DryLength, j), g_array_index (ys, DryLength, l)};
          DryRect usable = less_kerf (r, bounds, kerf);
          double area = (double) dry_rect_width (usable) * (double) dry_rect_height (usable);
          if (dry_rect_width (usable) < DRY_MIN_OFFCUT ||
              dry_rect_height (usable) < DRY_MIN_OFFCUT || area <= most ||
              is_taken (out, first, &r) || !is_outside (shape, &r))
            continue;
          best = r;
          most = area;
        }
  return best;
}

void
dry_cutting_list_openings (const DryPolygon *shape, DryRect bounds, DryLength kerf, GArray *out)
{
  g_autoptr (GArray) xs = g_array_new (FALSE, FALSE, sizeof (DryLength));
  g_autoptr (GArray) ys = g_array_new (FALSE, FALSE, sizeof (DryLength));
  guint first = out->len;
  if (shape->n_holes == 0 && shape->outer.n_points == 4 &&
      dry_ring_area2 (&shape->outer) ==
          2 * (__int128) dry_rect_width (bounds) * dry_rect_height (bounds))
    return; /* a plain rectangle */
  add_lines (&shape->outer, xs, ys);
  for (guint h = 0; h < shape->n_holes; h++)
    add_lines (&shape->holes[h], xs, ys);
  keep_distinct (xs);
  keep_distinct (ys);
  if (xs->len > MOST_LINES || ys->len > MOST_LINES)
    return;
  for (;;) {
    DryRect r = find_largest (shape, &bounds, kerf, xs, ys, out, first);
    if (dry_rect_is_empty (r))
      break;
    g_array_append_val (out, r);
  }
  for (guint i = first; i < out->len; i++) {
    DryRect *r = &g_array_index (out, DryRect, i);
    *r = less_kerf (*r, &bounds, kerf);
    *r = (DryRect){r->x0 - bounds.x0, r->y0 - bounds.y0, r->x1 - bounds.x0, r->y1 - bounds.y0};
  }
}

/* --- openings as sheets --- */

void
dry_nest_openings_clear (DryNestOpenings *self)
{
  g_clear_pointer (&self->items, g_free);
  self->n = 0;
}

static gboolean
fits (DryLength width, DryLength height, gboolean may_turn, DryLength into_width,
      DryLength into_height)
{
  return (width <= into_width && height <= into_height) ||
         (may_turn && height <= into_width && width <= into_height);
}

/* Only where some other piece fits, and never where it might come to lie turned unasked: in the
 * opening of a piece that turns, all must be free to turn. */
static gboolean
is_useful (const DryPiece *pieces, guint n_pieces, gboolean all_turn, guint piece, DryRect opening)
{
  if (pieces[piece].may_turn && !all_turn)
    return FALSE;
  for (guint i = 0; i < n_pieces; i++)
    if (i != piece && pieces[i].width > 0 && pieces[i].height > 0 &&
        fits (pieces[i].width, pieces[i].height, pieces[i].may_turn, dry_rect_width (opening),
              dry_rect_height (opening)))
      return TRUE;
  return FALSE;
}

static gboolean
fits_some_sheet (const DryStock *stock, guint n_stock, const DryPiece *piece)
{
  for (guint i = 0; i < n_stock; i++)
    if (stock[i].count != 0 &&
        fits (piece->width, piece->height, piece->may_turn, stock[i].width, stock[i].height))
      return TRUE;
  return FALSE;
}

DryNestProblem *
dry_nest_problem_new_opened (const DryStock *stock, guint n_stock, const DryPiece *pieces,
                             guint n_pieces, DryLength kerf, GArray *unplaced,
                             DryNestOpenings *openings)
{
  g_autoptr (GArray) all = g_array_new (FALSE, FALSE, sizeof (DryStock));
  g_autoptr (GArray) found = g_array_new (FALSE, FALSE, sizeof (DryNestOpening));
  gboolean all_turn = TRUE;
  for (guint i = 0; i < n_pieces; i++)
    all_turn = all_turn && (pieces[i].may_turn || pieces[i].width == pieces[i].height);
  if (n_stock > 0)
    g_array_append_vals (all, stock, n_stock);
  for (guint i = 0; i < n_pieces; i++)
    for (guint k = 0; k < pieces[i].n_openings; k++) {
      DryRect r = pieces[i].openings[k];
      if (!is_useful (pieces, n_pieces, all_turn, i, r) ||
          !fits_some_sheet (stock, n_stock, &pieces[i]))
        continue;
      DryStock sheet = {
          .width = dry_rect_width (r), .height = dry_rect_height (r), .count = 1, .on_hand = TRUE};
      DryNestOpening opening = {i, k};
      g_array_append_val (all, sheet);
      g_array_append_val (found, opening);
    }
  openings->n = found->len;
  openings->items = g_memdup2 (found->data, sizeof (DryNestOpening) * found->len);
  return dry_nest_problem_new ((const DryStock *) all->data, all->len, pieces, n_pieces, kerf,
                               unplaced);
}
