/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Remedies for seams the user put somewhere: to a stud, or given back to the plan.
 * Each is one edit of the wish. */
#include "plan/remedy-private.h"

static DryProject *
let_plan_choose (const DryRemedyWork *work, GError **error)
{
  return dry_edit_remove (work->project, work->room->id, work->finding->object, error);
}

/* The middle of the nearest stud along which a seam there breaks no rule. */
static DryProject *
move_to_stud (const DryRemedyWork *work, GError **error)
{
  const DryPlan *plan = work->measuring.plan;
  const DryFace *face = dry_faces_get_wall (plan->faces, work->seam->wall, work->seam->side);
  DrySeamWish seam = *work->seam;
  DryLength best = -1;

  if (face != NULL && !seam.level) {
    g_autoptr (GArray) places = dry_boards_list_seam_places (
        &plan->context, face, plan->framing, work->finding->place.y0, work->finding->place.y1);

    for (guint i = 0; i < places->len; i++) {
      const DrySeamPlace *place = &g_array_index (places, DrySeamPlace, i);
      DryLength away = ABS (place->at - work->seam->at);

      if (place->second || (best >= 0 && away >= best))
        continue;
      best = away;
      seam.at = place->at;
    }
  }
  if (best < 0) {
    g_set_error_literal (error, DRY_ERROR, DRY_ERROR_GEOMETRY,
                         "No stud of this face carries a seam there: let the plan choose");
    return NULL;
  }
  return dry_edit_set_seam (work->project, work->room->id, &seam, NULL, error);
}

const DryRemedyEntry DRY_REMEDIES_OF_BOARDS[] = {
    {"seam.let-plan-choose", DRY_ABOUT_SEAM, let_plan_choose},
    {"seam.to-stud", DRY_ABOUT_SEAM, move_to_stud},
};
const guint DRY_N_REMEDIES_OF_BOARDS = G_N_ELEMENTS (DRY_REMEDIES_OF_BOARDS);
