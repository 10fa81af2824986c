/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Exact set arithmetic for places: what open rectangles leave of a closed domain. The plane is cut
 * at every coordinate into points and open stretches, so that a fit to the nanometre stays a line.
 */
#include "plan/advisor-private.h"

#include <stdlib.h>
#include <string.h>

/* Element 2i is the coordinate i itself, 2i + 1 the open stretch after it. */
typedef struct {
  DryLength *at;
  guint n;
} Axis;

static int
compare_lengths (const void *a, const void *b)
{
  DryLength x = *(const DryLength *) a, y = *(const DryLength *) b;

  return (x > y) - (x < y);
}

static void
axis_init (Axis *axis, const DryRect *open, guint n_open, DryLength lo, DryLength hi, gboolean is_y)
{
  guint n = 0;

  axis->at = g_new (DryLength, 2 * n_open + 2);
  axis->at[n++] = lo;
  axis->at[n++] = hi;
  for (guint i = 0; i < n_open; i++) {
    DryLength a = is_y ? open[i].y0 : open[i].x0, b = is_y ? open[i].y1 : open[i].x1;
    if (a > lo && a < hi)
      axis->at[n++] = a;
    if (b > lo && b < hi)
      axis->at[n++] = b;
  }
  qsort (axis->at, n, sizeof *axis->at, compare_lengths);
  axis->n = 1;
  for (guint i = 1; i < n; i++)
    if (axis->at[i] != axis->at[axis->n - 1])
      axis->at[axis->n++] = axis->at[i];
}

static guint
axis_find (const Axis *axis, DryLength value)
{
  guint lo = 0, hi = axis->n - 1;

  while (lo < hi) {
    guint middle = (lo + hi) / 2;
    if (axis->at[middle] < value)
      lo = middle + 1;
    else
      hi = middle;
  }
  return lo;
}

/* The elements strictly inside (a, b): first..last, FALSE when none. */
static gboolean
axis_span (const Axis *axis, DryLength a, DryLength b, guint *first, guint *last)
{
  DryLength lo = axis->at[0], hi = axis->at[axis->n - 1];

  if (a >= b || b <= lo || a >= hi)
    return FALSE;
  *first = a < lo ? 0 : 2 * axis_find (axis, a) + 1;
  *last = b > hi ? 2 * (axis->n - 1) : 2 * axis_find (axis, b) - 1;
  return *first <= *last;
}

typedef struct {
  guint first, last, row; /* elements of x; row of y where it began */
} Run;

static void
find_runs (const guint8 *bad, guint n, GArray *runs)
{
  g_array_set_size (runs, 0);
  for (guint i = 0; i < n; i++) {
    Run run = {i, i, 0};
    if (bad[i])
      continue;
    while (i + 1 < n && !bad[i + 1])
      i++;
    run.last = i;
    g_array_append_val (runs, run);
  }
}

static gboolean
has_run (const GArray *runs, Run run, gboolean within)
{
  for (guint i = 0; i < runs->len; i++) {
    Run other = g_array_index (runs, Run, i);
    if (within ? other.first <= run.first && other.last >= run.last
               : other.first == run.first && other.last == run.last)
      return TRUE;
  }
  return FALSE;
}

static void
add_band (GArray *bands, const Axis *x, const Axis *y, Run run, guint row0, guint row1)
{
  DryRect rect = {x->at[run.first / 2], y->at[row0 / 2], x->at[(run.last + 1) / 2],
                  y->at[(row1 + 1) / 2]};

  g_array_append_val (bands, rect);
}

/* Rows of stretches give the bands, equal ones joined upward; a row of points gives what neither
 * neighbour holds. */
static void
write_bands (const guint8 *bad, const Axis *x, const Axis *y, GArray *bands)
{
  guint nx = 2 * x->n - 1, ny = 2 * y->n - 1;
  g_autoptr (GArray) open = g_array_new (FALSE, FALSE, sizeof (Run));
  g_autoptr (GArray) above = g_array_new (FALSE, FALSE, sizeof (Run));
  g_autoptr (GArray) points = g_array_new (FALSE, FALSE, sizeof (Run));

  for (guint j = 0; j < ny; j += 2) {
    g_array_set_size (above, 0);
    if (j + 1 < ny)
      find_runs (bad + (gsize) (j + 1) * nx, nx, above);
    find_runs (bad + (gsize) j * nx, nx, points);
    for (guint i = 0; i < points->len; i++) {
      Run run = g_array_index (points, Run, i);
      if (!has_run (open, run, TRUE) && !has_run (above, run, TRUE))
        add_band (bands, x, y, run, j, j);
    }
    for (guint i = 0; i < open->len; i++) {
      Run run = g_array_index (open, Run, i);
      if (!has_run (above, run, FALSE))
        add_band (bands, x, y, run, run.row, j - 1);
    }
    for (guint i = 0; i < above->len; i++) {
      Run *run = &g_array_index (above, Run, i);
      run->row = j + 1;
      for (guint k = 0; k < open->len; k++) {
        Run old = g_array_index (open, Run, k);
        if (old.first == run->first && old.last == run->last)
          run->row = old.row;
      }
    }
    g_array_set_size (open, 0);
    g_array_append_vals (open, above->data, above->len);
  }
}

const DryRect *
dry_advice_bands (DryArena *arena, const DryRect *open, guint n_open, DryRect domain, guint *n_out)
{
  GArray *bands = g_array_new (FALSE, FALSE, sizeof (DryRect));
  Axis x, y;
  g_autofree guint8 *bad = NULL;
  guint nx, ny;

  *n_out = 0;
  if (domain.x0 > domain.x1 || domain.y0 > domain.y1)
    return dry_arena_take_array (arena, bands);
  axis_init (&x, open, n_open, domain.x0, domain.x1, FALSE);
  axis_init (&y, open, n_open, domain.y0, domain.y1, TRUE);
  nx = 2 * x.n - 1;
  ny = 2 * y.n - 1;
  bad = g_malloc0 ((gsize) nx * ny);
  for (guint i = 0; i < n_open; i++) {
    guint x0, x1, y0, y1;
    if (!axis_span (&x, open[i].x0, open[i].x1, &x0, &x1) ||
        !axis_span (&y, open[i].y0, open[i].y1, &y0, &y1))
      continue;
    for (guint j = y0; j <= y1; j++)
      memset (bad + (gsize) j * nx + x0, 1, x1 - x0 + 1);
  }
  write_bands (bad, &x, &y, bands);
  g_free (x.at);
  g_free (y.at);
  *n_out = bands->len;
  return dry_arena_take_array (arena, bands);
}

gboolean
dry_advice_in_bands (const DryRect *bands, guint n, DryPoint place)
{
  for (guint i = 0; i < n; i++)
    if (dry_rect_contains (bands[i], place))
      return TRUE;
  return FALSE;
}
