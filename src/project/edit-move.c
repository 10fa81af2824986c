/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Edits that place things on walls: moving parts, openings and the basin, and copying a part to the
 * next free place. Knows only sizes and places, not whether a place is wise. */
#define G_LOG_DOMAIN "drybay-project"

#include "project/edit-private.h"
#include "project/fields.h"

/* Left between a copy and its neighbour when there is room, so that both can be told apart. */
#define COPY_GAP (2 * DRY_INCH)

/* The shift that brings [low, high] into [0, room]; what is too large is centred (`rest_low`
 * FALSE) or stood on the low end. */
static DryLength
find_shift (DryLength low, DryLength high, DryLength space, gboolean rest_low)
{
  if (high - low > space)
    return (rest_low ? 0 : (space - (high - low)) / 2) - low;
  if (low < 0)
    return -low;
  return high > space ? space - high : 0;
}

/* Places far outside are brought near first, so that no sum below can leave the range. */
static DryLength
clamp_place (DryLength place)
{
  return CLAMP (place, -DRY_LENGTH_MAX, DRY_LENGTH_MAX);
}

static void
put_part (const DryRoom *room, DryPart *part, DryLength u, DryLength z)
{
  const DryWall *wall = dry_room_get_wall (room, part->wall);
  DryRect rect;

  part->u = clamp_place (u);
  part->z = clamp_place (z);
  if (wall == NULL)
    return; /* the check says so */
  rect = dry_part_rect (part);
  part->u += find_shift (rect.x0, rect.x1, dry_wall_length (wall), FALSE);
  if (part->kind == DRY_PART_BENCH && !part->fold_down)
    part->z = CLAMP (part->z, 1, MAX (1, dry_wall_height (room, wall)));
  else
    part->z += find_shift (rect.y0, rect.y1, dry_wall_height (room, wall), TRUE);
}

static void
put_opening (const DryRoom *room, DryOpening *opening, DrySide side, DryLength u, DryLength z)
{
  const DryWall *wall = dry_room_get_wall (room, opening->wall);
  DryLength length;

  opening->u = clamp_place (u);
  opening->z = clamp_place (z);
  if (wall == NULL)
    return;
  length = dry_wall_length (wall);
  /* The same hole seen from behind: openings are kept as seen from the wall's inside. */
  if (side == DRY_SIDE_OUTSIDE)
    opening->u = length - opening->u - opening->width;
  opening->u += find_shift (opening->u, opening->u + opening->width, length, FALSE);
  opening->z +=
      find_shift (opening->z, opening->z + opening->height, dry_wall_height (room, wall), TRUE);
}

DryProject *
dry_edit_move_part (const DryProject *self, DryId room, DryId part, DryId wall, DrySide side,
                    DryLength u, DryLength z, GError **error)
{
  DryEdit edit;
  guint index, opening;

  if (!dry_edit_begin (&edit, self, room, error))
    return NULL;
  index = dry_edit_find_part (edit.room, part);
  opening = dry_edit_find_opening (edit.room, part);
  if (index < edit.room->n_parts) {
    edit.room->parts[index].wall = wall;
    edit.room->parts[index].side = side;
    put_part (edit.room, &edit.room->parts[index], u, z);
  } else if (opening < edit.room->n_openings) {
    edit.room->openings[opening].wall = wall;
    put_opening (edit.room, &edit.room->openings[opening], side, u, z);
  } else {
    dry_edit_fail (error, DRY_ERROR_REFERENCE, "The room has no part or opening %u.", part);
    return dry_edit_abandon (&edit);
  }
  return dry_edit_finish (&edit, error);
}

DryProject *
dry_edit_move_basin (const DryProject *self, DryId room, DryId wall, DryLength along,
                     DryLength away, gboolean turned, GError **error)
{
  DryEdit edit;

  if (!dry_edit_begin (&edit, self, room, error))
    return NULL;
  if (edit.room->basin.id == 0) {
    dry_edit_fail (error, DRY_ERROR_REFERENCE, "The room has no tub or pan to move.");
    return dry_edit_abandon (&edit);
  }
  edit.room->basin.wall = wall;
  edit.room->basin.along = along;
  edit.room->basin.away = away;
  edit.room->basin.turned = turned != FALSE;
  return dry_edit_finish (&edit, error);
}

DryProject *
dry_edit_remove (const DryProject *self, DryId room, DryId object, GError **error)
{
  DryEdit edit;
  const DryRoom *old;

  if (!dry_edit_begin (&edit, self, room, error))
    return NULL;
  old = edit.room;
  if (object != 0 && old->basin.id == object) {
    dry_edit_remove_basin (edit.room);
  } else if (dry_room_get_part (old, object) != NULL) {
    dry_edit_remove_part_at (edit.room, dry_edit_find_part (old, object));
  } else if (dry_room_get_opening (old, object) != NULL) {
    dry_edit_remove_opening_at (edit.room, dry_edit_find_opening (old, object));
  } else if (dry_room_get_seam (old, object) != NULL) {
    dry_edit_remove_seam_at (edit.room, (guint) (dry_room_get_seam (old, object) - old->seams));
  } else if (dry_room_get_wall (old, object) != NULL) {
    if (!dry_edit_join_neighbours (&edit, dry_room_find_wall (old, object), error))
      return dry_edit_abandon (&edit);
  } else {
    dry_edit_fail (error, DRY_ERROR_REFERENCE, "The room has no object %u to remove.", object);
    return dry_edit_abandon (&edit);
  }
  return dry_edit_finish (&edit, error);
}

/* --- copies --- */

static DryRect
find_opening_rect (const DryOpening *opening)
{
  return (DryRect){opening->u, opening->z, opening->u + opening->width,
                   opening->z + opening->height};
}

/* All that stands on one face, openings mirrored when it is seen from behind. */
static GArray *
collect_rects (const DryRoom *room, const DryWall *wall, DrySide side)
{
  GArray *rects = g_array_new (FALSE, FALSE, sizeof (DryRect));
  DryLength length = dry_wall_length (wall);

  for (guint i = 0; i < room->n_parts; i++)
    if (room->parts[i].wall == wall->id && room->parts[i].side == side) {
      DryRect rect = dry_part_rect (&room->parts[i]);

      g_array_append_val (rects, rect);
    }
  for (guint i = 0; i < room->n_openings; i++)
    if (room->openings[i].wall == wall->id) {
      DryRect rect = find_opening_rect (&room->openings[i]);

      if (side == DRY_SIDE_OUTSIDE)
        rect = (DryRect){length - rect.x1, rect.y0, length - rect.x0, rect.y1};
      g_array_append_val (rects, rect);
    }
  return rects;
}

static gboolean
is_free (const GArray *rects, DryRect rect, DryLength length)
{
  if (rect.x0 < 0 || rect.x1 > length)
    return FALSE;
  for (guint i = 0; i < rects->len; i++)
    if (dry_rect_overlaps (rect, g_array_index (rects, DryRect, i)))
      return FALSE;
  return TRUE;
}

/* The free place nearest to the original's right, else to its left: each lies against something
 * that stands there already. FALSE when the wall is full at this height. */
static gboolean
find_free_place (const GArray *rects, DryRect original, DryLength length, DryLength gap,
                 DryLength *x0)
{
  DryLength width = dry_rect_width (original);
  gboolean found = FALSE;

  for (int to_right = 1; to_right >= 0 && !found; to_right--)
    for (guint i = 0; i < rects->len; i++) {
      DryRect other = g_array_index (rects, DryRect, i);
      DryLength at = to_right ? other.x1 + gap : other.x0 - gap - width;
      DryRect rect = {at, original.y0, at + width, original.y1};

      if (to_right ? at < original.x1 : at > original.x0)
        continue;
      if (!is_free (rects, rect, length) ||
          (found && ABS (at - original.x0) >= ABS (*x0 - original.x0)))
        continue;
      *x0 = at;
      found = TRUE;
    }
  return found;
}

/* How far to the side a copy goes. On a full wall it comes to lie beside the original all the same,
 * where the plan reports what it meets. */
static DryLength
find_copy_shift (const DryRoom *room, DryId wall_id, DrySide side, DryRect original)
{
  const DryWall *wall = dry_room_get_wall (room, wall_id);
  DryLength length = dry_wall_length (wall), x0;
  g_autoptr (GArray) rects = collect_rects (room, wall, side);

  if (find_free_place (rects, original, length, COPY_GAP, &x0) ||
      find_free_place (rects, original, length, 0, &x0))
    return x0 - original.x0;
  x0 = original.x1 + dry_rect_width (original) <= length ? original.x1
                                                         : original.x0 - dry_rect_width (original);
  x0 += find_shift (x0, x0 + dry_rect_width (original), length, FALSE);
  return x0 - original.x0;
}

DryProject *
dry_edit_duplicate (const DryProject *self, DryId room, DryId object, DryId *id_out, GError **error)
{
  const DryRoom *old = dry_project_get_room (self, room);
  const DryPart *part = old != NULL ? dry_room_get_part (old, object) : NULL;
  const DryOpening *opening = old != NULL ? dry_room_get_opening (old, object) : NULL;

  if (old == NULL) {
    dry_edit_fail (error, DRY_ERROR_REFERENCE, "The project has no room %u.", room);
  } else if (part != NULL) {
    DryPart copy = *part;

    copy.id = 0;
    copy.u += find_copy_shift (old, part->wall, part->side, dry_part_rect (part));
    return dry_edit_set_part (self, room, &copy, id_out, error);
  } else if (opening != NULL) {
    DryOpening copy = *opening;

    copy.id = 0;
    copy.u += find_copy_shift (old, opening->wall, DRY_SIDE_INSIDE, find_opening_rect (opening));
    return dry_edit_set_opening (self, room, &copy, id_out, error);
  } else {
    dry_edit_fail (error, DRY_ERROR_REFERENCE, "The room has no part or opening %u to copy.",
                   object);
  }
  return NULL;
}
