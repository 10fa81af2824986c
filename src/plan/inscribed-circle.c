/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Halves the interval in which the radius lies. A circle of radius r fits when its centre may be
 * somewhere: no nearer than r to any edge. Where it may be has corners, and those are met edges. */
#include "plan/inscribed-circle.h"

#include <math.h>

/* Doubles tell places below a kilometre to less than this, in nanometres. */
#define EXACT 0.01

typedef struct {
  double x, y;
} Spot;

/* a x + b y = c, (a, b) of length one. */
typedef struct {
  double a, b, c;
} Line;

typedef struct {
  const DryInscribed *shape;
  double r;
  Line cut; /* what is left is where a x + b y is less */
  Line lines[5 + 4 * DRY_INSCRIBED_MOST];
  Spot centres[4 * DRY_INSCRIBED_MOST];
  guint n_lines, n_centres;
} Search;

/* --- exactly --- */

/* What is taken; the last is the square round the corner that is cut off. */
static DryRect
get_taken (const DryInscribed *self, guint i)
{
  DryRect c = self->clear;

  if (i < self->n_taken)
    return self->taken[i];
  if (self->cut == 0 || self->cut == 1)
    c.x1 = self->leg;
  else
    c.x0 = c.x1 - self->leg;
  if (self->cut == 1 || self->cut == 2)
    c.y1 = self->leg;
  else
    c.y0 = c.y1 - self->leg;
  return c;
}

/* The side of the largest square. One that cannot be slid further left or down stands against the
 * clear rectangle or what is taken both ways. */
static DryLength
fit_square (const DryInscribed *self)
{
  guint n = self->n_taken + (self->cut >= 0);
  DryLength best = 0;

  for (guint i = 0; i <= n; i++)
    for (guint j = 0; j <= n; j++) {
      DryLength x = i < n ? get_taken (self, i).x1 : 0, y = j < n ? get_taken (self, j).y1 : 0;
      DryLength side = MIN (self->clear.x1 - x, self->clear.y1 - y);

      for (guint k = 0; k < n; k++) {
        DryRect taken = get_taken (self, k);
        if (taken.x1 > x && taken.y1 > y)
          side = MIN (side, MAX (MAX (taken.x0 - x, taken.y0 - y), 0));
      }
      best = MAX (best, side);
    }
  return best;
}

/* Legs c cut off a W x H rectangle: the circle in the corner across touches the cut where
 * r (2 + sqrt 2) = W + H - c. */
static DryLength
fit_beside_cut (const DryInscribed *self)
{
  DryLength least = MIN (self->clear.x1, self->clear.y1);
  double r = (double) (self->clear.x1 + self->clear.y1 - self->leg) / (2 + G_SQRT2);

  return MAX (0, MIN (least, (DryLength) floor (2 * r)));
}

/* --- where the centre may be --- */

static void
add_line (Search *self, double a, double b, double c)
{
  self->lines[self->n_lines++] = (Line){a, b, c};
}

static Line
find_cut (const DryInscribed *shape)
{
  double w = (double) shape->clear.x1, h = (double) shape->clear.y1, leg = (double) shape->leg;
  double a = shape->cut >= 2 ? G_SQRT2 / 2 : -G_SQRT2 / 2;
  double b = shape->cut == 0 || shape->cut == 3 ? G_SQRT2 / 2 : -G_SQRT2 / 2;
  double corner = (a > 0 ? a * w : 0) + (b > 0 ? b * h : 0);

  return (Line){a, b, corner - leg * G_SQRT2 / 2};
}

static void
place_edges (Search *self, double r)
{
  const DryInscribed *shape = self->shape;

  self->r = r;
  self->n_lines = self->n_centres = 0;
  add_line (self, 1, 0, r);
  add_line (self, 1, 0, (double) shape->clear.x1 - r);
  add_line (self, 0, 1, r);
  add_line (self, 0, 1, (double) shape->clear.y1 - r);
  if (shape->cut >= 0)
    add_line (self, self->cut.a, self->cut.b, self->cut.c - r);
  for (guint i = 0; i < shape->n_taken; i++) {
    double x0 = (double) shape->taken[i].x0, y0 = (double) shape->taken[i].y0;
    double x1 = (double) shape->taken[i].x1, y1 = (double) shape->taken[i].y1;
    const Spot corners[4] = {{x0, y0}, {x1, y0}, {x1, y1}, {x0, y1}};

    add_line (self, 1, 0, x0 - r);
    add_line (self, 1, 0, x1 + r);
    add_line (self, 0, 1, y0 - r);
    add_line (self, 0, 1, y1 + r);
    for (guint k = 0; k < 4; k++)
      self->centres[self->n_centres++] = corners[k];
  }
}

static gboolean
may_stand (const Search *self, Spot p)
{
  const DryInscribed *shape = self->shape;
  double least = self->r - EXACT;

  if (p.x < least || p.y < least || (double) shape->clear.x1 - p.x < least ||
      (double) shape->clear.y1 - p.y < least)
    return FALSE;
  if (shape->cut >= 0 && self->cut.c - (self->cut.a * p.x + self->cut.b * p.y) < least)
    return FALSE;
  for (guint i = 0; i < shape->n_taken; i++) {
    DryRect taken = shape->taken[i];
    double dx = MAX (MAX ((double) taken.x0 - p.x, p.x - (double) taken.x1), 0);
    double dy = MAX (MAX ((double) taken.y0 - p.y, p.y - (double) taken.y1), 0);
    if (hypot (dx, dy) < least)
      return FALSE;
  }
  return TRUE;
}

static gboolean
try_lines (const Search *self, Line first, Line second)
{
  double d = first.a * second.b - second.a * first.b;

  return fabs (d) > 1e-9 && may_stand (self, (Spot){(first.c * second.b - second.c * first.b) / d,
                                                    (first.a * second.c - second.a * first.c) / d});
}

/* Both places `along` a line to either side of its point nearest the centre. */
static gboolean
try_both (const Search *self, Line line, Spot centre, double off, double along)
{
  Spot foot = {centre.x + line.a * off, centre.y + line.b * off};

  return may_stand (self, (Spot){foot.x - line.b * along, foot.y + line.a * along}) ||
         may_stand (self, (Spot){foot.x + line.b * along, foot.y - line.a * along});
}

static gboolean
try_line_and_corner (const Search *self, Line line, Spot centre)
{
  double off = line.c - line.a * centre.x - line.b * centre.y;

  return fabs (off) <= self->r &&
         try_both (self, line, centre, off, sqrt (self->r * self->r - off * off));
}

static gboolean
try_corners (const Search *self, Spot first, Spot second)
{
  double dx = second.x - first.x, dy = second.y - first.y, apart = hypot (dx, dy);
  Line line;

  if (apart <= 0 || apart > 2 * self->r)
    return FALSE;
  line = (Line){dx / apart, dy / apart, 0};
  return try_both (self, line, first, apart / 2, sqrt (self->r * self->r - apart * apart / 4));
}

static gboolean
fits (Search *self, double r)
{
  place_edges (self, r);
  for (guint i = 0; i < self->n_lines; i++) {
    for (guint j = i + 1; j < self->n_lines; j++)
      if (try_lines (self, self->lines[i], self->lines[j]))
        return TRUE;
    for (guint j = 0; j < self->n_centres; j++)
      if (try_line_and_corner (self, self->lines[i], self->centres[j]))
        return TRUE;
  }
  for (guint i = 0; i < self->n_centres; i++)
    for (guint j = i + 1; j < self->n_centres; j++)
      if (try_corners (self, self->centres[i], self->centres[j]))
        return TRUE;
  return FALSE;
}

DryLength
dry_inscribed_circle (const DryInscribed *self)
{
  Search search = {.shape = self, .cut = find_cut (self)};
  DryLength known = fit_square (self);
  double low = (double) known / 2, high = (double) MIN (self->clear.x1, self->clear.y1) / 2;

  if (high <= low)
    return known;
  if (self->n_taken == 0)
    return self->cut < 0 ? known : fit_beside_cut (self);
  if (self->n_taken > DRY_INSCRIBED_MOST)
    return known;
  while (high - low > 100) {
    double middle = (low + high) / 2;

    if (fits (&search, middle))
      low = middle;
    else
      high = middle;
  }
  return MAX (known, (DryLength) floor (2 * low));
}
