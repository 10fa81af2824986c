/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The frame every edit of a room runs in: copy the room, change the copy, check it, make a project
 * that shares the other rooms. Knows no particular edit. */
#pragma once

#include "project/edit.h"

typedef struct {
  const DryProject *project;
  DryRoom *room; /* the copy to be changed */
  guint index;   /* of the room; n_rooms when it is added */
  DryId next_id;
  gboolean out_of_ids;
} DryEdit;

/* FALSE with DRY_ERROR_REFERENCE when there is no such room. */
gboolean dry_edit_begin (DryEdit *self, const DryProject *project, DryId room, GError **error);
DryId dry_edit_take_id (DryEdit *self);
/* Checks the changed room and consumes it; NULL with an error when it cannot be. */
DryProject *dry_edit_finish (DryEdit *self, GError **error);
/* Gives the edit up; returns NULL, for `return dry_edit_abandon (...)`. */
DryProject *dry_edit_abandon (DryEdit *self);

gboolean dry_edit_fail (GError **error, gint code, const char *format, ...) G_GNUC_PRINTF (3, 4);

/* Lists of the copied room. The wall is taken with its texts; a removed wall takes along what hangs
 * on it. */
void dry_edit_insert_wall (DryRoom *room, guint index, DryWall wall);
void dry_edit_remove_wall_at (DryRoom *room, guint index);
void dry_edit_remove_basin (DryRoom *room);
guint dry_edit_find_opening (const DryRoom *room, DryId id); /* n_openings when not there */
guint dry_edit_find_part (const DryRoom *room, DryId id);    /* n_parts when not there */
void dry_edit_remove_opening_at (DryRoom *room, guint index);
void dry_edit_remove_part_at (DryRoom *room, guint index);
void dry_edit_remove_seam_at (DryRoom *room, guint index);

/* Takes the wall out; when it was part of the outline its neighbours are lengthened until they
 * meet, or else joined where it began. FALSE when fewer than three walls would be left. */
gboolean dry_edit_join_neighbours (DryEdit *self, guint index, GError **error);

/* After walls were moved: what hangs on them stays where it was in the room, and what serves the
 * basin goes with it. `before` is the room as it was. */
void dry_edit_keep_places (DryRoom *room, const DryRoom *before);
