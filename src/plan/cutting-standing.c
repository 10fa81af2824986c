/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Puts the two bounds of a plan, for its boards and for any boards, into one saying. Knows nothing
 * of how either was found. */
#include "plan/cutting-standing.h"

DryStanding
dry_boards_get_standing (const DryBoards *self)
{
  const DryCutting *cutting = self->cutting;
  if (cutting->n_sheets + cutting->n_unplaced == 0)
    return (DryStanding){DRY_STANDING_NONE, 0};
  if (cutting->n_unplaced > 0)
    return (DryStanding){DRY_STANDING_SHORT, 0};
  /* The bound for any boards holds for these too. */
  guint over = cutting->n_bought - MIN (self->least_sheets, cutting->n_bought);
  if (over == 0)
    return (DryStanding){DRY_STANDING_FEWEST, 0};
  return (DryStanding){cutting->proven ? DRY_STANDING_BOARDS : DRY_STANDING_OPEN, over};
}

const char *
dry_standing_to_text (DryStanding self, DryArena *arena)
{
  switch (self.kind) {
  case DRY_STANDING_FEWEST:
    return "fewest possible";
  case DRY_STANDING_BOARDS:
    return dry_arena_printf (arena, "fewest for these boards; at most %u fewer with other seams",
                             self.over);
  case DRY_STANDING_OPEN:
    return dry_arena_printf (arena, "at most %u sheet%s from the fewest", self.over,
                             self.over == 1 ? "" : "s");
  case DRY_STANDING_SHORT:
    return "not all pieces find a sheet";
  case DRY_STANDING_NONE:
    break;
  }
  return "";
}

/* Money comes after seams, so a plan with the fewest sheets may still turn cheaper: only where all
 * sheets cost the same nothing is left to search. */
gboolean
dry_boards_is_settled (const DryBoards *self)
{
  DryStanding standing = dry_boards_get_standing (self);
  return standing.kind == DRY_STANDING_NONE || standing.kind == DRY_STANDING_FEWEST;
}
