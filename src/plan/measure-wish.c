/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Measures of seams the user put where they are, and of wishes no seam could fulfil.
 * Looks at what the stages answered, not at how they got there. */
#include "plan/measure-build.h"

#include "plan/boards-private.h"

static DryLength
get_at (const DrySeam *seam)
{
  return seam->vertical ? seam->from.x : seam->from.y;
}

/* --- beside the seam --- */

/* The narrower of the boards along it, across it. */
static DryLength
measure_narrowest (DryMeasuring *self, const DrySeam *seam)
{
  const DryBoards *boards = self->plan->boards;
  DryLength gap = self->context->system->joint_gap, least = G_MAXINT64;

  for (guint i = 0; i < boards->n; i++) {
    DryRect r = boards->items[i].bounds;
    DryLength low = seam->vertical ? r.x0 : r.y0, high = seam->vertical ? r.x1 : r.y1;
    gboolean along = seam->vertical ? r.y0 < seam->to.y && r.y1 > seam->from.y
                                    : r.x0 < seam->to.x && r.x1 > seam->from.x;

    if (boards->items[i].face != seam->face || !along ||
        (ABS (low - get_at (seam)) > gap && ABS (high - get_at (seam)) > gap))
      continue;
    least = MIN (least, high - low);
  }
  return least;
}

/* The least step to a seam that ends at the same line from the other side; -1 when none does. */
static DryLength
measure_stagger (DryMeasuring *self, const DrySeam *seam)
{
  const DryBoards *boards = self->plan->boards;
  DryLength gap = self->context->system->joint_gap, least = -1;

  for (guint i = 0; i < boards->n_seams; i++) {
    const DrySeam *other = &boards->seams[i];
    DryLength step = ABS (get_at (other) - get_at (seam));
    DryLength above = seam->vertical ? other->from.y - seam->to.y : other->from.x - seam->to.x;
    DryLength below = seam->vertical ? seam->from.y - other->to.y : seam->from.x - other->to.x;

    if (other == seam || other->face != seam->face || other->vertical != seam->vertical ||
        (above != gap && below != gap) || (least >= 0 && step >= least))
      continue;
    least = step;
  }
  return least;
}

void
dry_measure_wished_seam (DryMeasuring *self, const DrySeam *seam)
{
  const DryFace *face = &self->plan->faces->items[seam->face];
  const DryWall *wall = dry_room_get_wall (self->context->room, face->wall);
  DryLength narrowest = measure_narrowest (self, seam), stagger = measure_stagger (self, seam);

  if (seam->vertical && seam->stud_at >= 0) {
    dry_measuring_length (self, "off-stud", seam->off_stud, "from the middle of the stud at %s",
                          dry_measuring_text (self, seam->stud_at));
    dry_measuring_length (self, "off-stud-most", seam->off_allowed,
                          "half the stud less the fastener's distance and the wood round it");
    dry_measuring_length (self, "nearest-stud", seam->stud_at, "from the left end of the face");
  }
  if (narrowest < G_MAXINT64) {
    dry_measuring_length (self, "narrowest-board", narrowest, "of the boards along the seam");
    dry_measuring_length (self, "system-least-side", self->context->system->min_piece, NULL);
  }
  if (stagger >= 0) {
    dry_measuring_length (self, "stagger", stagger, "to a seam that ends at the same line");
    dry_measuring_length (self, "stagger-least", dry_board_stagger (wall),
                          "a stud's spacing, 16 in at most, less a stud");
  }
}

/* --- wishes that came to nothing --- */

static void
measure_wish (DryMeasuring *self, const DryWishAnswer *answer)
{
  const DrySeamWish *wish = answer->wish;
  DryPoint p =
      wish->level ? (DryPoint){wish->through, wish->at} : (DryPoint){wish->at, wish->through};

  dry_measuring_begin (self, "wish", wish->id, answer->face, (DryRect){p.x, p.y, p.x, p.y},
                       dry_arena_printf (self->context->arena, "%s seam wished at %s",
                                         wish->level ? "level" : "upright",
                                         dry_measuring_text (self, wish->at)));
  dry_measuring_boolean (self, "on-board", answer->state != DRY_WISH_OFF_BOARD,
                         "whether there is board on both sides of it");
  dry_measuring_boolean (self, "clear-of-wishes", answer->state != DRY_WISH_TOO_NEAR,
                         "whether anything would be left between it and another wished seam");
  dry_measuring_end (self);
}

void
dry_measure_wishes (DryMeasuring *self)
{
  for (guint i = 0; i < self->plan->boards->n_wishes; i++)
    if (self->plan->boards->wishes[i].state != DRY_WISH_OBEYED)
      measure_wish (self, &self->plan->boards->wishes[i]);
}
