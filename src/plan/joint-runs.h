/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Joins classified joints into the runs in which bands and beads are laid, bottom first.
 * Each run carries the overlaps onto runs laid before it; knows nothing of products. */
#pragma once

#include "plan/joints.h"

/* Fills self->runs and self->n_runs from self->items, in the order of laying. */
void dry_joint_runs_lay (DryJoints *self, const DryPlanContext *context, const DryFaces *faces);

/* How many ends of run `index` lap onto a run laid before it. */
guint dry_joint_runs_count_laps (const DryJoints *self, const DryFaces *faces, guint index);
