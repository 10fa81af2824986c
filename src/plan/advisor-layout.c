/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The tile chosen together with the place: joints repeat along an axis, so the best shift of a
 * layout for a niche's two edges is found among few. Lays no tile; the tile stage does. */
#include "plan/advisor-private.h"

#include <math.h>

#define JOINT_STEP (DRY_INCH / 32)

static DryLength
rest (DryLength value, DryLength module)
{
  DryLength r = value % module;

  return r < 0 ? r + module : r;
}

static void
add_ends (DryAdviceAxis *self, DryLength low, DryLength high)
{
  if (self->n_ends < G_N_ELEMENTS (self->low)) {
    self->low[self->n_ends] = low;
    self->high[self->n_ends++] = high;
  }
}

/* Courses are level round the room: moving them moves the cuts of every face. */
static void
find_ends (const DryAdviceSite *site, const DryFace *face, gboolean level, DryAdviceAxis *self)
{
  const DryTiling *tiling = site->plan->tiling;

  for (guint i = 0; i < tiling->n_faces; i++) {
    const DryTileFace *tiled = &tiling->faces[i];
    const DryFace *other = &site->plan->faces->items[tiled->face];
    DryRect r = dry_region_bounds (&tiled->region);
    if (other->kind != DRY_FACE_WALL || (!level && tiled->face != face->index))
      continue;
    if (level)
      add_ends (self, other->at_basin ? MAX (r.y0, other->deck + self->joint) : r.y0, r.y1);
    else
      add_ends (self, r.x0, r.x1);
  }
}

gboolean
dry_advice_axis (const DryAdviceSite *site, const DryFace *face, DryLength joint, gboolean level,
                 DryAdviceAxis *out)
{
  const DryTiling *tiling = site->plan->tiling;
  g_autoptr (DryArena) arena = dry_arena_new ();
  DryAdviceLines lines;
  const DryLength *list;
  guint n;

  *out = (DryAdviceAxis){0};
  if (!dry_tiling_get_face (tiling, face->index))
    return FALSE;
  lines = dry_advice_lines (site, arena, face, (DryPoint){0, 0}, joint);
  list = level ? lines.level : lines.upright;
  n = level ? lines.n_level : lines.n_upright;
  out->joint = joint ? joint : tiling->joint;
  out->size = level ? tiling->height : tiling->width;
  out->pitch = out->size + out->joint;
  out->from = level ? (face->at_basin ? face->deck : 0) : face->wet_u0;
  out->to = level ? face->wet_top : face->wet_u1;
  for (guint i = 0; i < n; i++) {
    DryLength middle = rest (list[i], out->pitch);
    gboolean known = FALSE;
    for (guint k = 0; k < out->n_middle; k++)
      known |= out->middle[k] == middle;
    if (!known && out->n_middle == G_N_ELEMENTS (out->middle))
      return FALSE;
    if (!known)
      out->middle[out->n_middle++] = middle;
  }
  find_ends (site, face, level, out);
  return out->n_middle > 0;
}

/* What is left of a tile at the low and the high end; the whole tile where none is cut. */
static DryLength
cut_low (const DryAdviceAxis *self, DryLength end, DryLength first)
{
  DryLength open = rest (first - end, self->pitch);

  return open <= self->joint ? self->size : open - self->joint;
}

static DryLength
cut_high (const DryAdviceAxis *self, DryLength end, DryLength first)
{
  DryLength open = rest (end - first, self->pitch);

  return open == 0 || open >= self->size ? self->size : open;
}

guint
dry_advice_axis_slivers (const DryAdviceAxis *self, DryLength shift)
{
  guint n = 0;

  for (guint i = 0; i < self->n_ends; i++) {
    gboolean low = FALSE, high = FALSE;
    for (guint k = 0; k < self->n_middle; k++) {
      DryLength first = self->middle[k] + self->joint / 2 + shift;
      low |= 2 * cut_low (self, self->low[i], first) < self->size;
      high |= 2 * cut_high (self, self->high[i], first) < self->size;
    }
    n += low + high;
  }
  return n;
}

static double
sliver_points (const DryAdviceAxis *self, DryLength shift)
{
  guint now = dry_advice_axis_slivers (self, 0), then = dry_advice_axis_slivers (self, shift);

  return then > now ? DRY_POINTS_SLIVER * (then - now) : 0;
}

/* The nearest joint at or before, and at or after; G_MAXINT64 away where the tile ends first. */
static void
find_joints (const DryAdviceAxis *self, DryLength edge, DryLength shift, DryLength *before,
             DryLength *after)
{
  *before = *after = G_MAXINT64;
  for (guint k = 0; k < self->n_middle; k++) {
    DryLength back = rest (edge - self->middle[k] - shift, self->pitch);
    DryLength on = back == 0 ? 0 : self->pitch - back;
    if (edge - back > self->from && edge - back < self->to)
      *before = MIN (*before, back);
    if (edge + on > self->from && edge + on < self->to)
      *after = MIN (*after, on);
  }
}

static double
edge_points (const DryAdviceAxis *self, DryLength edge, DryLength shift, DryLength tolerance,
             gboolean low)
{
  DryLength before, after, off, strip;
  double points;

  find_joints (self, edge, shift, &before, &after);
  off = MIN (before, after);
  if (off == G_MAXINT64 || off <= tolerance)
    return 0;
  points = MIN (DRY_POINTS_EDGE + DRY_POINTS_EDGE_INCH * dry_length_to_inches (off),
                DRY_POINTS_EDGE_MOST);
  strip = low ? before : after;
  return points + (strip < DRY_TILE_SLIVER ? DRY_POINTS_SLIVER : 0);
}

typedef struct {
  const DryAdviceAxis *axis;
  DryLength low, high, tolerance, shift;
  double best;
} Search;

/* Shifts are told the short way round. */
static void
try_shift (Search *self, DryLength shift)
{
  const DryAdviceAxis *axis = self->axis;
  double points;

  shift = rest (shift, axis->pitch);
  if (shift > axis->pitch / 2)
    shift -= axis->pitch;
  points = edge_points (axis, self->low, shift, self->tolerance, TRUE) +
           edge_points (axis, self->high, shift, self->tolerance, FALSE) +
           sliver_points (axis, shift);
  if (points < self->best - 1e-9 ||
      (points < self->best + 1e-9 && ABS (shift) < ABS (self->shift))) {
    self->best = points;
    self->shift = shift;
  }
}

/* Where a cut at an end becomes whole, half or none. */
static guint
list_end_shifts (const DryAdviceAxis *self, DryLength *out, guint most)
{
  guint n = 0;

  for (guint i = 0; i < self->n_ends; i++)
    for (guint k = 0; k < self->n_middle && n + 6 <= most; k++) {
      DryLength first = self->middle[k] + self->joint / 2;
      out[n++] = self->low[i] - first;
      out[n++] = self->low[i] + self->joint - first;
      out[n++] = self->low[i] + self->joint + (self->size + 1) / 2 - first;
      out[n++] = self->high[i] - first;
      out[n++] = self->high[i] - self->size - first;
      out[n++] = self->high[i] - (self->size + 1) / 2 - first;
    }
  return n;
}

#define END_SHIFTS_MOST 384

double
dry_advice_axis_best (const DryAdviceAxis *self, DryLength low, DryLength high, DryLength tolerance,
                      DryLength *shift)
{
  Search search = {self, low, high, tolerance, DRY_LENGTH_MAX, 1e9};
  DryLength ends[END_SHIFTS_MOST];
  guint n = list_end_shifts (self, ends, END_SHIFTS_MOST);

  try_shift (&search, 0);
  for (guint k = 0; k < self->n_middle; k++)
    for (gint step = -1; step <= 1; step++) {
      try_shift (&search, low - self->middle[k] + step * tolerance);
      try_shift (&search, high - self->middle[k] + step * tolerance);
    }
  for (guint k = 0; k < self->n_middle; k++) {
    try_shift (&search, low - self->middle[k] - DRY_TILE_SLIVER);
    try_shift (&search, high - self->middle[k] + DRY_TILE_SLIVER);
  }
  for (guint i = 0; i < n && search.best > 0; i++)
    try_shift (&search, ends[i]);
  *shift = search.shift;
  return search.best;
}

/* An edge on a joint while a cut at an end is just half: both at once, only at these places. */
void
dry_advice_axis_critical (const DryAdviceAxis *self, DryLength low, DryLength high,
                          DryLength tolerance, DryLength most, GArray *out)
{
  DryLength ends[END_SHIFTS_MOST];
  guint n = list_end_shifts (self, ends, END_SHIFTS_MOST);
  g_autoptr (GHashTable) seen = g_hash_table_new_full (g_int64_hash, g_int64_equal, g_free, NULL);

  for (guint i = 0; i < n; i++)
    for (guint k = 0; k < self->n_middle; k++) {
      DryLength phase = rest (self->middle[k] + ends[i], self->pitch);
      if (!g_hash_table_add (seen, g_memdup2 (&phase, sizeof phase)))
        continue;
      for (DryLength line = phase; line < most; line += self->pitch)
        for (gint step = -1; step <= 1; step++) {
          DryLength places[] = {line + step * tolerance - low, line + step * tolerance - high};
          for (guint p = 0; p < 2; p++)
            if (places[p] >= 0 && places[p] <= most)
              g_array_append_val (out, places[p]);
        }
    }
}

double
dry_advice_layout_points (const DryAdviceSite *site, const DryFace *face, DryLength joint,
                          DryPoint shift)
{
  const DryTiling *tiling = site->plan->tiling;
  DryAdviceAxis axis;
  double points = 0;

  if (joint)
    points += DRY_POINTS_JOINT_32 * (double) ABS (joint - tiling->joint) / (double) JOINT_STEP;
  if (shift.x && dry_advice_axis (site, face, joint, FALSE, &axis))
    points += sliver_points (&axis, shift.x);
  if (shift.y && dry_advice_axis (site, face, joint, TRUE, &axis))
    points += sliver_points (&axis, shift.y);
  return points;
}

guint
dry_advice_joints (const DryAdviceSite *site, gboolean free, DryLength joints[16])
{
  const DryTiling *tiling = site->plan->tiling;
  const DryFinish *finish = &site->plan->context.room->finish;
  DryLength low, high;
  guint n = 0;

  if (tiling->n_faces == 0)
    return 0;
  joints[n++] = tiling->joint;
  low = finish->joint_min > 0 ? finish->joint_min : MAX (tiling->least_joint, DRY_TILE_LEAST_JOINT);
  high = finish->joint_max > 0 ? finish->joint_max : tiling->joint + 2 * JOINT_STEP;
  for (DryLength joint = low; free && joint <= high && n < 16; joint += JOINT_STEP)
    if (joint != tiling->joint)
      joints[n++] = joint;
  return n;
}
