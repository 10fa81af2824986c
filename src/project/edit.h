/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Edits: pure functions from a project to a new one, or a GError. They refuse what cannot be
 * (unknown wall, zero length, crossing outline); what is merely unwise goes through and becomes a
 * finding. */
#pragma once

#include "project/project.h"

/* Every function returns a new project (free with dry_project_unref) or NULL with an error:
 * DRY_ERROR_REFERENCE, DRY_ERROR_GEOMETRY, DRY_ERROR_LIMIT. A value passed in is copied.
 * Where a value's id is 0 it is added under a new id, written to `id_out` when not NULL;
 * otherwise the object of that id is replaced whole. */
DryProject *dry_edit_set_job (const DryProject *self, const DryJob *job, GError **error);
DryProject *dry_edit_set_room (const DryProject *self, const DryRoom *room, DryId *id_out,
                               GError **error);
DryProject *dry_edit_remove_room (const DryProject *self, DryId room, GError **error);

DryProject *dry_edit_set_basin (const DryProject *self, DryId room, const DryBasin *basin,
                                DryId *id_out, GError **error);
DryProject *dry_edit_set_wet_zone (const DryProject *self, DryId room, const DryWetZone *wet,
                                   GError **error);
DryProject *dry_edit_set_finish (const DryProject *self, DryId room, const DryFinish *finish,
                                 GError **error);
DryProject *dry_edit_set_part (const DryProject *self, DryId room, const DryPart *part,
                               DryId *id_out, GError **error);
DryProject *dry_edit_set_opening (const DryProject *self, DryId room, const DryOpening *opening,
                                  DryId *id_out, GError **error);
/* A wish for a seam between boards, and one for each face it is given up with `clear`. */
DryProject *dry_edit_set_seam (const DryProject *self, DryId room, const DrySeamWish *seam,
                               DryId *id_out, GError **error);
DryProject *dry_edit_clear_seams (const DryProject *self, DryId room, DryId wall, DrySide side,
                                  GError **error);
/* Boards on hand: the row at `index` is replaced; at their number it is added, to the count of an
 * equal row when there is one. Removing beyond the last is DRY_ERROR_REFERENCE. */
DryProject *dry_edit_set_on_hand (const DryProject *self, DryId room, guint index,
                                  const DryOnHand *board, GError **error);
DryProject *dry_edit_remove_on_hand (const DryProject *self, DryId room, guint index,
                                     GError **error);
/* Replaces a wall's properties, or adds an added wall (id 0, added TRUE). An outline wall's start
 * and end are not changed here: use the outline edits. */
DryProject *dry_edit_set_wall (const DryProject *self, DryId room, const DryWall *wall,
                               DryId *id_out, GError **error);
/* Removes basin, part, opening, wished seam or wall by id. Removing a wall removes what hangs on
 * it; removing an outline wall joins its neighbours (at least three stay). */
DryProject *dry_edit_remove (const DryProject *self, DryId room, DryId object, GError **error);
/* A copy of a part or opening beside the original, at the first free place along its wall. */
DryProject *dry_edit_duplicate (const DryProject *self, DryId room, DryId object, DryId *id_out,
                                GError **error);

/* The outline. New walls take the properties of the wall they were split from or follow. */
DryProject *dry_edit_set_outline (const DryProject *self, DryId room, const DryPoint *corners,
                                  guint n_corners,
                                  GError **error); /* either direction; stored clockwise */
DryProject *dry_edit_move_corner (const DryProject *self, DryId room, DryId wall, DryPoint to,
                                  GError **error); /* the start of `wall` */
DryProject *dry_edit_insert_corner (const DryProject *self, DryId room, DryId wall, DryLength u,
                                    DryId *id_out, GError **error);
/* Makes a wall exactly `length` long by moving its end along it; the following wall shifts
 * parallel, so a rectangle stays a rectangle. */
DryProject *dry_edit_set_wall_length (const DryProject *self, DryId room, DryId wall,
                                      DryLength length, GError **error);
/* Gives the alcove behind `wall` the three widths measured in it, at the depth
 * dry_room_get_widths() tells: the back grows or shrinks at its right end, a change of taper is
 * shared by both side walls, and the walls next to those keep their lines. What `middle` is off
 * straight stays with the wall; 0 = straight between back and front. */
DryProject *dry_edit_set_widths (const DryProject *self, DryId room, DryId wall, DryLength back,
                                 DryLength middle, DryLength front, GError **error);
/* Moves an outline wall parallel to itself, `out` positive into the room. */
DryProject *dry_edit_move_wall (const DryProject *self, DryId room, DryId wall, DryLength out,
                                GError **error);
/* A window or part from another place: moved as drawn on a drag. Keeps it within its wall. */
DryProject *dry_edit_move_part (const DryProject *self, DryId room, DryId part, DryId wall,
                                DrySide side, DryLength u, DryLength z, GError **error);
DryProject *dry_edit_move_basin (const DryProject *self, DryId room, DryId wall, DryLength along,
                                 DryLength away, gboolean turned, GError **error);
