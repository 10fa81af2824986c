/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What must hold in every room and job of a project, however it was made: by reading or by an edit.
 * Refuses only what cannot be; what is merely unwise is for the plan's findings. */
#pragma once

#include "project/fields.h"

gboolean dry_job_check (const DryJob *job, DryProblem *problem);
/* Ranges, ids unique in the room, references to walls, outline simple and clockwise, limits. */
gboolean dry_room_check (const DryRoom *room, DryProblem *problem);
/* What text a room keeps for a newer Drybay: one JSON object, no key of which Drybay itself writes.
 */
gboolean dry_room_key_is_known (const char *key);
