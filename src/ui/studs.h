/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The studs of a wall one by one: where they stand, and edits that move, add or take out one. The
 * first such edit turns a regular spacing into studs as found. Knows no widget and no session. */
#pragma once

#include "project/edit.h"

G_BEGIN_DECLS

/* Centers of the studs between the wall's ends, ascending: those found, else those its spacing
 * gives. DryLength; free with g_array_unref(). */
GArray *dry_studs_list (const DryWall *wall) G_GNUC_WARN_UNUSED_RESULT;

/* `index` counts in dry_studs_list(). A stud stays between its neighbors, so it keeps its index.
 * NULL with an error when it cannot be. */
DryProject *dry_studs_move (const DryProject *project, DryId room, DryId wall, guint index,
                            DryLength u, GError **error);
/* In the middle of the bay to the right of `index`, or of the widest bay when `index` is -1. */
DryProject *dry_studs_add (const DryProject *project, DryId room, DryId wall, gint index,
                           guint *added, GError **error);
DryProject *dry_studs_remove (const DryProject *project, DryId room, DryId wall, guint index,
                              GError **error);

G_END_DECLS
