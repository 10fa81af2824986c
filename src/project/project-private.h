/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The inside of a project, for the files of this floor that make new ones: the reader and the
 * edits. Rooms sit in counted boxes, so that projects which differ in one room share the others. */
#pragma once

#include "project/project.h"

typedef struct {
  gatomicrefcount references;
  DryRoom *room;
} DryRoomBox;

/* Takes the room. */
DryRoomBox *dry_room_box_new (DryRoom *room) G_GNUC_WARN_UNUSED_RESULT;
DryRoomBox *dry_room_box_ref (DryRoomBox *self);
void dry_room_box_unref (DryRoomBox *self);

/* A project of already checked values; copies the job, takes `boxes` (of DryRoomBox, its elements
 * with it) and `alternates` (of DryAlternate; NULL for none). */
DryProject *dry_project_assemble (const DryJob *job, GPtrArray *boxes, GPtrArray *alternates,
                                  DryId next_id) G_GNUC_WARN_UNUSED_RESULT;
/* The boxes again, each with a new reference, for the next project. */
GPtrArray *dry_project_share_boxes (const DryProject *self) G_GNUC_WARN_UNUSED_RESULT;
guint dry_project_find_room (const DryProject *self, DryId id); /* n_rooms when not there */
