/* SPDX-License-Identifier: GPL-3.0-or-later */
/* How good the sheets of a plan are: whether fewer could do, as far as is proven, in one place for
 * window, papers and command line. Knows bounds, not how they were found. */
#pragma once

#include "plan/boards.h"

typedef enum {
  DRY_STANDING_NONE,   /* nothing is cut */
  DRY_STANDING_SHORT,  /* some pieces find no sheet: nothing can be said */
  DRY_STANDING_FEWEST, /* no boards that keep the rules need fewer, wherever their seams fall */
  DRY_STANDING_BOARDS, /* these boards need so many; other seams might do with `over` fewer */
  DRY_STANDING_OPEN,   /* at most `over` more than the fewest there could be */
} DryStandingKind;

typedef struct {
  DryStandingKind kind;
  guint over; /* sheets; 0 when fewest */
} DryStanding;

DryStanding dry_boards_get_standing (const DryBoards *self);
/* "fewest possible", "fewest for these boards; at most 1 fewer with other seams", "at most 2 sheets
 * from the fewest"; "" for nothing. In `arena`. */
const char *dry_standing_to_text (DryStanding self, DryArena *arena);
/* Whether dry_plan_new_searched() with more effort might give other sheets. */
gboolean dry_boards_is_settled (const DryBoards *self);
