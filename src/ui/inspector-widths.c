/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The three widths of an alcove as fields of its back wall: read from the room, typed as edits.
 * Knows no widget and no row; the table of fields names these functions. */
#include "ui/inspector-widths.h"

static DryLength
get_width (const DryRoom *room, gconstpointer value, guint which)
{
  DryWidths widths = {0};

  dry_room_get_widths (room, ((const DryWall *) value)->id, &widths);
  return which == 0 ? widths.back : which == 1 ? widths.middle : widths.front;
}

DryLength
dry_get_width_back (const DryRoom *room, gconstpointer value)
{
  return get_width (room, value, 0);
}

DryLength
dry_get_width_middle (const DryRoom *room, gconstpointer value)
{
  return get_width (room, value, 1);
}

DryLength
dry_get_width_front (const DryRoom *room, gconstpointer value)
{
  return get_width (room, value, 2);
}

/* One of three widths is typed, the others stay: the middle too, once it was typed itself. */
static DryProject *
set_width (DrySession *session, const DryWall *wall, guint which, DryLength length, GError **error)
{
  DryWidths widths = {0};

  dry_room_get_widths (dry_session_get_room (session), wall->id, &widths);
  return dry_edit_set_widths (dry_session_get_project (session), dry_session_get_room_id (session),
                              wall->id, which == 0 ? length : widths.back,
                              which == 1 ? length : (wall->width_bow != 0 ? widths.middle : 0),
                              which == 2 ? length : widths.front, error);
}

DryProject *
dry_set_width_back (DrySession *session, gconstpointer value, DryLength length, GError **error)
{
  return set_width (session, value, 0, length, error);
}

DryProject *
dry_set_width_middle (DrySession *session, gconstpointer value, DryLength length, GError **error)
{
  return set_width (session, value, 1, length, error);
}

DryProject *
dry_set_width_front (DrySession *session, gconstpointer value, DryLength length, GError **error)
{
  return set_width (session, value, 2, length, error);
}

gboolean
dry_is_alcove_back (const DryRoom *room, gconstpointer value)
{
  DryWidths widths;

  return dry_room_get_widths (room, ((const DryWall *) value)->id, &widths);
}
