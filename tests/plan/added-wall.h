/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Rooms that the compass of rule-room.h does not reach: walls put in, things hung on a wall by its
 * id and side, things taken away. Knows no stage. Every function that takes a project over gives
 * the next one in its place. */
#pragma once

#include "plan/rule-room.h"

/* A room 120 x 96 in with a pan 48 x 36 in (curb 4 in) in its north-west corner, the pan's back on
 * the studs of the north wall, under pack us-residential. */
DryProject *added_wall_corner_shower (const char *system) G_GNUC_WARN_UNUSED_RESULT;
/* The wall that closes that pan's right side: 36 in long, 3-1/2 in thick, its inside looking at the
 * pan. `height` in inches, 0 = to the ceiling. */
DryProject *added_wall_close (DryProject *project, double height,
                              DryId *id) G_GNUC_WARN_UNUSED_RESULT;

DryProject *added_wall_set (DryProject *project, const DryWall *wall) G_GNUC_WARN_UNUSED_RESULT;
DryProject *added_wall_put_part (DryProject *project, DryId wall, DrySide side,
                                 DryPart part) G_GNUC_WARN_UNUSED_RESULT;
DryProject *added_wall_put_opening (DryProject *project, DryId wall,
                                    DryOpening opening) G_GNUC_WARN_UNUSED_RESULT;
DryProject *added_wall_remove (DryProject *project, DryId object) G_GNUC_WARN_UNUSED_RESULT;
/* The id of the first room's part that was put in last. */
DryId added_wall_last_part (const DryProject *project);
