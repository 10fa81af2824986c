/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Getters and setters of an alcove's three widths, in the form a field asks for them.
 * Builds no widget. */
#pragma once

#include "ui/session.h"

G_BEGIN_DECLS

/* `value` is a DryWall of the room: whether it is the back of an alcove, so has three widths. */
gboolean dry_is_alcove_back (const DryRoom *room, gconstpointer value);

/* Between stud faces; 0 when the wall is no back of an alcove. */
DryLength dry_get_width_back (const DryRoom *room, gconstpointer value);
DryLength dry_get_width_middle (const DryRoom *room, gconstpointer value);
DryLength dry_get_width_front (const DryRoom *room, gconstpointer value);

/* A new project with that width changed and the other two as they were; NULL with `error`. */
DryProject *dry_set_width_back (DrySession *session, gconstpointer value, DryLength length,
                                GError **error) G_GNUC_WARN_UNUSED_RESULT;
DryProject *dry_set_width_middle (DrySession *session, gconstpointer value, DryLength length,
                                  GError **error) G_GNUC_WARN_UNUSED_RESULT;
DryProject *dry_set_width_front (DrySession *session, gconstpointer value, DryLength length,
                                 GError **error) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
