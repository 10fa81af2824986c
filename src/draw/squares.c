/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The sums of squares: a 64-bit hash each, so that two pictures taken for the same by chance are
 * not to be expected in the life of a program. Knows no scene and no Cairo. */
#include "draw/squares.h"

#include <math.h>

DrySquares *
dry_squares_new (gint column, gint row, guint columns, guint rows, double size)
{
  DrySquares *self = g_new0 (DrySquares, 1);

  *self = (DrySquares){column, row, columns, rows, size, g_new0 (guint64, columns * rows + 1)};
  return self;
}

void
dry_squares_free (DrySquares *self)
{
  if (self == NULL)
    return;
  g_free (self->sums);
  g_free (self);
}

guint64
dry_squares_get (const DrySquares *self, gint column, gint row)
{
  return dry_squares_holds (self, column, row, 1, 1)
             ? self->sums[(guint) (row - self->row) * self->columns +
                          (guint) (column - self->column)]
             : 0;
}

gboolean
dry_squares_holds (const DrySquares *self, gint column, gint row, guint columns, guint rows)
{
  return column >= self->column && row >= self->row &&
         column + (gint) columns <= self->column + (gint) self->columns &&
         row + (gint) rows <= self->row + (gint) self->rows;
}

/* The squares an interval touches, from the first one on; `last` excluded. */
static void
find_range (double from, double to, double size, gint start, guint n, guint *first, guint *last)
{
  double low = floor (from / size) - start, high = floor (to / size) - start + 1;

  *first = (guint) CLAMP (low, 0, (double) n);
  *last = (guint) CLAMP (high, 0, (double) n);
}

void
dry_squares_note (DrySquares *self, double x0, double y0, double x1, double y1, guint64 print)
{
  guint c0, c1, r0, r1;

  find_range (x0, x1, self->size, self->column, self->columns, &c0, &c1);
  find_range (y0, y1, self->size, self->row, self->rows, &r0, &r1);
  for (guint r = r0; r < r1; r++)
    for (guint c = c0; c < c1; c++) {
      guint64 *sum = &self->sums[r * self->columns + c];

      *sum = dry_print_mix (*sum, print) | 1;
    }
}

/* After the finisher of MurmurHash3 (Appleby, public domain), one value at a time. */
guint64
dry_print_mix (guint64 print, guint64 value)
{
  guint64 h = print * G_GUINT64_CONSTANT (0x9e3779b97f4a7c15) + value;

  h ^= h >> 32;
  h *= G_GUINT64_CONSTANT (0xd6e8feb86659fd93);
  h ^= h >> 32;
  return h;
}

guint64
dry_print_place (guint64 print, double x, double y)
{
  gint64 qx = (gint64) floor (x * 256 + 0.5), qy = (gint64) floor (y * 256 + 0.5);

  return dry_print_mix (print, ((guint64) qx << 32) ^ ((guint64) qy & 0xffffffff));
}
