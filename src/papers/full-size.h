/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Pages at full size: a cell of the field in which the world is drawn as large as it is, and what
 * every such page has. Knows no niche and no courses. Private to the papers floor. */
#pragma once

#include "papers/papers-private.h"

#define DRY_FULL_SIZE_FOOT 17.0 /* mm at the bottom of the field, for the check lines */

typedef struct {
  DryPage *page;
  double x, y, width, height; /* mm on the page */
  double u, z;                /* of the world at its lower left, mm */
} DryFullCell;

/* Level or upright lines of the world, cut to the cell. Dashes lie where they lie in the world, so
 * that they meet over the edge of a page. */
void dry_cell_line (const DryFullCell *cell, DryInk ink, DryPen pen, double u0, double z0,
                    double u1, double z1);
void dry_cell_dashed (const DryFullCell *cell, DryInk ink, DryPen pen, double u0, double z0,
                      double u1, double z1);
void dry_cell_rect (const DryFullCell *cell, gboolean dashed, DryInk ink, DryPen pen, DryRect rect);
/* Letters that begin at a point of the world; left away where they do not fit the cell. */
void dry_cell_write (const DryFullCell *cell, double u, double z, DryType type, const char *text);
/* Crosses at the corners of a cell: those of neighbours lie on each other. */
void dry_cell_corners (const DryFullCell *cell);

/* A page with its check lines: 100 mm and 4 in, to be measured before anything is cut. */
void dry_full_size_begin (DryFlow *flow, const char *title);
/* Where the page lies among all, in the foot's right end. */
void dry_full_size_key (DryFlow *flow, guint columns, guint rows, guint column, guint row);
/* The most a cell takes of a page, mm. */
void dry_full_size_field (const DryPapers *papers, double *width, double *height);
