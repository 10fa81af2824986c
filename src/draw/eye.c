/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Central projection on an upright plane, clipping against that plane and within convex windows.
 * After Sutherland and Hodgman's clipping, Communications of the ACM 17 (1974) 32. */
#include "draw/eye.h"

#include <math.h>

#define SPOTS_MOST 256

double
dry_eye_depth (const DryEye *self, DrySpot at)
{
  return (at.x - self->x) * self->dx + (at.y - self->y) * self->dy;
}

gboolean
dry_eye_sees (const DryEye *self, DrySpot at, double nx, double ny)
{
  return (self->x - at.x) * nx + (self->y - at.y) * ny > 0;
}

static DryLength
whole (double value)
{
  const double most = (double) DRY_LENGTH_MAX;

  return isfinite (value) ? (DryLength) llround (CLAMP (value, -most, most)) : 0;
}

static DryPoint
place (const DryEye *self, DrySpot at)
{
  double depth = dry_eye_depth (self, at), by = self->cut / depth;
  double right = (at.x - self->x) * self->dy - (at.y - self->y) * self->dx;

  return (DryPoint){whole (right * by), whole (self->z + (at.z - self->z) * by)};
}

guint
dry_eye_project (const DryEye *self, const DrySpot *spots, guint n, DryPoint *out)
{
  guint count = 0;

  for (guint i = 0; i < n; i++) {
    DrySpot a = spots[i], b = spots[(i + 1) % n];
    double da = dry_eye_depth (self, a) - self->cut, db = dry_eye_depth (self, b) - self->cut;

    if (da >= 0)
      out[count++] = place (self, a);
    if ((da >= 0) != (db >= 0)) {
      double t = da / (da - db);
      DrySpot at = {a.x + t * (b.x - a.x), a.y + t * (b.y - a.y), a.z + t * (b.z - a.z)};

      out[count++] = place (self, at);
    }
  }
  return count >= 3 ? count : 0;
}

static double
side_of (DryPoint p, DryPoint a, DryPoint b)
{
  return (double) (b.x - a.x) * (double) (p.y - a.y) - (double) (b.y - a.y) * (double) (p.x - a.x);
}

static double
turning (const DryPoint *ring, guint n)
{
  double area = 0;

  for (guint i = 0; i < n; i++) {
    DryPoint a = ring[i], b = ring[(i + 1) % n];

    area += (double) a.x * (double) b.y - (double) b.x * (double) a.y;
  }
  return area;
}

/* What of `in` lies to the left of a-b, or to the right when `sign` is negative. */
static guint
clip_edge (const DryPoint *in, guint n, DryPoint a, DryPoint b, double sign, DryPoint *out)
{
  guint count = 0;

  for (guint i = 0; i < n; i++) {
    DryPoint p = in[i], q = in[(i + 1) % n];
    double sp = sign * side_of (p, a, b), sq = sign * side_of (q, a, b);

    if (sp >= 0)
      out[count++] = p;
    if ((sp >= 0) != (sq >= 0)) {
      double t = sp / (sp - sq);

      out[count++] = (DryPoint){whole ((double) p.x + t * (double) (q.x - p.x)),
                                whole ((double) p.y + t * (double) (q.y - p.y))};
    }
  }
  return count;
}

guint
dry_eye_clip (const DryPoint *shape, guint n, const DryPoint *window, guint n_window, DryPoint *out)
{
  g_autofree DryPoint *other = g_new (DryPoint, 2 * (n + n_window) + 4);
  g_autofree DryPoint *now = g_new (DryPoint, 2 * (n + n_window) + 4);
  double sign = turning (window, n_window) >= 0 ? 1 : -1;

  for (guint i = 0; i < n; i++)
    now[i] = shape[i];
  for (guint i = 0; i < n_window && n > 0; i++) {
    DryPoint *swap = now;

    n = clip_edge (now, n, window[i], window[(i + 1) % n_window], sign, other);
    now = other;
    other = swap;
  }
  for (guint i = 0; i < n; i++)
    out[i] = now[i];
  return n >= 3 ? n : 0;
}

void
dry_eye_draw_through (const DryEye *self, DrySceneBuilder *b, DryLook look, const DrySpot *spots,
                      guint n, const DryPoint *window, guint n_window)
{
  DryPoint points[SPOTS_MOST + 2], seen[2 * SPOTS_MOST + 2];

  if (n > SPOTS_MOST || n_window > SPOTS_MOST)
    return;
  n = dry_eye_project (self, spots, n, points);
  if (n > 0 && n_window >= 3)
    n = dry_eye_clip (points, n, window, n_window, seen);
  if (n > 0 && n_window >= 3)
    dry_scene_builder_path (b, look, seen, n, TRUE);
}
