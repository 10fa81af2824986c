/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Faces that are nothing but lists of pieces, each to be laid in one of several ways, for the tests
 * of what chooses among layouts. It knows no wall and no seam. */
#pragma once

#include "plan/boards-private.h"

/* A piece as high as a sheet of 96 in. */
#define FULL(w)                                                                                    \
  {                                                                                                \
    "p", (w) *DRY_INCH, 96 * DRY_INCH, FALSE                                                       \
  }

typedef struct {
  guint faults;
  DryLength effort;
  DryPiece pieces[6]; /* ends with one of no width */
} LayoutWay;

typedef struct {
  DryBoardFace faces[4];
  DryBoardFace *pointers[4];
  GPtrArray *layouts[4];
  const DryLayout *chosen[4];
  guint n;
} LayoutChoice;

/* Adds a face that can be laid in these ways; the first is the live choice. */
void layout_choice_add_face (LayoutChoice *self, const DryStock *stock, guint n_stock,
                             const LayoutWay *ways, guint n_ways);
/* Which way the face is laid now. */
guint layout_choice_get_way (const LayoutChoice *self, guint face);
/* Regions of so many sheets of 48 x 96 in together, for who asks how few there might be. */
void layout_choice_set_area (LayoutChoice *self, double sheets, DryArena *arena);
void layout_choice_clear (LayoutChoice *self);

/* What every chooser gives up for what: of one face and two ways the one that must stay. The face
 * has a region that needs as many sheets as that way. */
void layout_choice_check_ways (void (*choose) (LayoutChoice *choice));
