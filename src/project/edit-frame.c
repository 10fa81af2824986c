/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Beginning, checking and finishing an edit, and the lists of the room being changed.
 * Knows no particular edit; messages of the check get the room's name put before them. */
#define G_LOG_DOMAIN "drybay-project"

#include <string.h>

#include "project/alternate-private.h"
#include "project/edit-private.h"
#include "project/fields.h"
#include "project/file.h"
#include "project/project-private.h"
#include "project/room-check.h"

gboolean
dry_edit_fail (GError **error, gint code, const char *format, ...)
{
  va_list arguments;
  g_autofree char *message = NULL;

  va_start (arguments, format);
  message = g_strdup_vprintf (format, arguments);
  va_end (arguments);
  g_set_error_literal (error, DRY_ERROR, code, message);
  return FALSE;
}

gboolean
dry_edit_begin (DryEdit *self, const DryProject *project, DryId room, GError **error)
{
  const DryRoom *old = dry_project_get_room (project, room);

  if (old == NULL)
    return dry_edit_fail (error, DRY_ERROR_REFERENCE, "The project has no room %u.", room);
  *self = (DryEdit){
      .project = project,
      .room = dry_room_copy (old),
      .index = dry_project_find_room (project, room),
      .next_id = dry_project_get_next_id (project),
  };
  return TRUE;
}

DryId
dry_edit_take_id (DryEdit *self)
{
  /* The largest number is never given out: next_id must stay greater than every id. */
  if (self->next_id == G_MAXUINT32) {
    self->out_of_ids = TRUE;
    return G_MAXUINT32;
  }
  return self->next_id++;
}

DryProject *
dry_edit_abandon (DryEdit *self)
{
  g_clear_pointer (&self->room, dry_room_free);
  return NULL;
}

/* What the file does not hold for a wall of the outline follows from its neighbours. */
static void
settle_walls (DryRoom *room)
{
  if (room->n_outline > room->n_walls)
    return; /* the check refuses it */
  for (guint i = 0; i < room->n_outline; i++) {
    room->walls[i].added = FALSE;
    room->walls[i].thickness = 0;
    room->walls[i].end = room->walls[(i + 1) % room->n_outline].start;
  }
  for (guint i = room->n_outline; i < room->n_walls; i++)
    room->walls[i].added = TRUE;
}

/* "Bathroom, wall 2: the wall has no length." */
static void
report_problem (const DryRoom *room, const DryProblem *problem, GError **error)
{
  static const char *const names[][2] = {{"walls", "wall"},        {"added_walls", "added wall"},
                                         {"openings", "opening"},  {"parts", "part"},
                                         {"seams", "wished seam"}, {"on_hand", "board on hand"}};
  const char *what = problem->list;
  g_autofree char *number =
      problem->index >= 0 ? g_strdup_printf (" %d", problem->index + 1) : NULL;

  if (number != NULL)
    for (guint i = 0; i < G_N_ELEMENTS (names); i++)
      if (strcmp (what, names[i][0]) == 0)
        what = names[i][1];
  dry_edit_fail (error, (gint) problem->code, "%s%s%s%s: %s.",
                 room->name != NULL && *room->name != '\0' ? room->name : "Room",
                 what != NULL ? ", " : "", what != NULL ? what : "", number != NULL ? number : "",
                 problem->message);
}

DryProject *
dry_edit_finish (DryEdit *self, GError **error)
{
  DryProblem problem = {0};
  GPtrArray *boxes, *alternates;
  DryRoomBox *box;

  settle_walls (self->room);
  if (self->out_of_ids) {
    dry_edit_fail (error, DRY_ERROR_LIMIT, "The project has used up all its object numbers.");
    return dry_edit_abandon (self);
  }
  if (!dry_room_check (self->room, &problem)) {
    report_problem (self->room, &problem, error);
    dry_problem_clear (&problem);
    return dry_edit_abandon (self);
  }
  boxes = dry_project_share_boxes (self->project);
  box = dry_room_box_new (g_steal_pointer (&self->room));
  if (self->index == boxes->len) {
    alternates = dry_project_share_alternates (self->project);
    g_ptr_array_add (boxes, box);
  } else {
    alternates = dry_project_rebase_alternates (
        self->project, dry_project_get_room_at (self->project, self->index), box->room);
    dry_room_box_unref (boxes->pdata[self->index]);
    boxes->pdata[self->index] = box;
  }
  return dry_project_assemble (dry_project_get_job (self->project), boxes, alternates,
                               self->next_id);
}

static void
remove_at (gpointer list, guint *n, gsize size, guint index, const DryFieldSet *set)
{
  guint8 *at = (guint8 *) list + size * index;

  dry_fields_clear (set, at);
  memmove (at, at + size, size * (*n - index - 1));
  (*n)--;
}

void
dry_edit_insert_wall (DryRoom *room, guint index, DryWall wall)
{
  room->walls = g_renew (DryWall, room->walls, room->n_walls + 1);
  memmove (room->walls + index + 1, room->walls + index,
           sizeof (DryWall) * (room->n_walls - index));
  room->walls[index] = wall;
  room->n_walls++;
  if (!wall.added)
    room->n_outline++;
}

void
dry_edit_remove_opening_at (DryRoom *room, guint index)
{
  remove_at (room->openings, &room->n_openings, sizeof (DryOpening), index, &dry_opening_fields);
}

void
dry_edit_remove_part_at (DryRoom *room, guint index)
{
  remove_at (room->parts, &room->n_parts, sizeof (DryPart), index, &dry_part_fields);
}

void
dry_edit_remove_seam_at (DryRoom *room, guint index)
{
  remove_at (room->seams, &room->n_seams, sizeof (DrySeamWish), index, &dry_seam_fields);
}

void
dry_edit_remove_basin (DryRoom *room)
{
  dry_fields_clear (&dry_basin_fields, &room->basin);
  memset (&room->basin, 0, sizeof room->basin);
}

void
dry_edit_remove_wall_at (DryRoom *room, guint index)
{
  DryId id = room->walls[index].id;

  for (guint i = room->n_openings; i > 0; i--)
    if (room->openings[i - 1].wall == id)
      dry_edit_remove_opening_at (room, i - 1);
  for (guint i = room->n_parts; i > 0; i--)
    if (room->parts[i - 1].wall == id)
      dry_edit_remove_part_at (room, i - 1);
  for (guint i = room->n_seams; i > 0; i--)
    if (room->seams[i - 1].wall == id)
      dry_edit_remove_seam_at (room, i - 1);
  if (room->basin.id != 0 && room->basin.wall == id)
    dry_edit_remove_basin (room);
  if (index < room->n_outline)
    room->n_outline--;
  remove_at (room->walls, &room->n_walls, sizeof (DryWall), index, &dry_wall_fields);
}

guint
dry_edit_find_opening (const DryRoom *room, DryId id)
{
  const DryOpening *opening = dry_room_get_opening (room, id);

  return opening != NULL ? (guint) (opening - room->openings) : room->n_openings;
}

guint
dry_edit_find_part (const DryRoom *room, DryId id)
{
  const DryPart *part = dry_room_get_part (room, id);

  return part != NULL ? (guint) (part - room->parts) : room->n_parts;
}
