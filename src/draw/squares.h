/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Squares of the device plane, each with a sum over all that was painted in it, in order: a square
 * whose sum stays the same need not be painted again. Knows no scene and no Cairo. */
#pragma once

#include <glib.h>

typedef struct {
  gint column, row; /* of the first square; square (c, r) starts at c * size, r * size */
  guint columns, rows;
  double size;   /* device units */
  guint64 *sums; /* row by row; 0: nothing was painted there */
} DrySquares;

/* Free with dry_squares_free(). */
DrySquares *dry_squares_new (gint column, gint row, guint columns, guint rows,
                             double size) G_GNUC_WARN_UNUSED_RESULT;
void dry_squares_free (DrySquares *self);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (DrySquares, dry_squares_free)
/* 0 for squares without ink and those outside. */
guint64 dry_squares_get (const DrySquares *self, gint column, gint row);
gboolean dry_squares_holds (const DrySquares *self, gint column, gint row, guint columns,
                            guint rows);
/* Adds what `print` stands for to every square the device rectangle touches. */
void dry_squares_note (DrySquares *self, double x0, double y0, double x1, double y1, guint64 print);
/* One more value into a print; order matters. */
guint64 dry_print_mix (guint64 print, guint64 value);
/* A device coordinate, to 1/256 of a unit: what differs less is drawn alike. */
guint64 dry_print_place (guint64 print, double x, double y);
