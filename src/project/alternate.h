/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Alternates: other ways the same project might be built, kept beside it under a name. An alternate
 * holds only the rooms in which it differs; what the base changes elsewhere it takes over. Knows no
 * catalogue and computes nothing. */
#pragma once

#include "project/project.h"

#define DRY_MAX_ALTERNATES 100

typedef struct _DryAlternate DryAlternate;

guint dry_project_get_n_alternates (const DryProject *self);
/* Borrowed; the index counts from 0. */
const DryAlternate *dry_project_get_alternate_at (const DryProject *self, guint index);
const DryAlternate *dry_project_get_alternate (const DryProject *self, DryId id); /* NULL */
DryId dry_alternate_get_id (const DryAlternate *self);
const char *dry_alternate_get_name (const DryAlternate *self); /* never NULL */
const char *dry_alternate_get_note (const DryAlternate *self); /* NULL */
guint dry_alternate_get_n_rooms (const DryAlternate *self);    /* in which it differs */
const DryRoom *dry_alternate_get_room_at (const DryAlternate *self, guint index);

/* The project as it would be built that way, without alternates of its own; rooms in which it does
 * not differ are shared. NULL when there is no such alternate. */
DryProject *dry_project_resolve (const DryProject *self, DryId alternate) G_GNUC_WARN_UNUSED_RESULT;

/* --- edits; see project/edit.h. In brackets the step's name for undo. --- */

/* [Add alternate] One that as yet differs in nothing. Names need not differ, but cannot be empty.
 */
DryProject *dry_edit_add_alternate (const DryProject *self, const char *name, const char *note,
                                    DryId *id_out, GError **error);
/* [Rename alternate] */
DryProject *dry_edit_rename_alternate (const DryProject *self, DryId alternate, const char *name,
                                       const char *note, GError **error);
/* [Remove alternate] */
DryProject *dry_edit_remove_alternate (const DryProject *self, DryId alternate, GError **error);
/* [as the edit of the room is named] `changed` is what dry_project_resolve() gave, after edits: its
 * rooms become the alternate's. Rooms that were added, removed or are the base's own are not taken.
 */
DryProject *dry_edit_set_alternate (const DryProject *self, DryId alternate,
                                    const DryProject *changed, GError **error);
/* [Choose alternate] The alternate becomes the project, and what was the project becomes an
 * alternate named `former`. The others stay what they are. */
DryProject *dry_edit_choose_alternate (const DryProject *self, DryId alternate, const char *former,
                                       GError **error);

/* --- for the files of this floor --- */

/* The room `variant` after the base changed from `before` to `after`: what it had in common with
 * `before` it has in common with `after`. NULL when that cannot stand. */
DryRoom *dry_room_merge (const DryRoom *before, const DryRoom *after,
                         const DryRoom *variant) G_GNUC_WARN_UNUSED_RESULT;
