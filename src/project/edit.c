/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Edits that set whole values: job, room, basin, wet zone, finish, parts, openings and walls, and
 * removing by id. Places on walls are edit-move.c's, the outline edit-outline.c's. */
#define G_LOG_DOMAIN "drybay-project"

#include "project/edit.h"

#include <string.h>

#include "project/alternate-private.h"
#include "project/edit-private.h"
#include "project/fields.h"
#include "project/file.h"
#include "project/project-private.h"
#include "project/room-check.h"

DryProject *
dry_edit_set_job (const DryProject *self, const DryJob *job, GError **error)
{
  DryProblem problem = {0};
  DryJob owned = *job;
  DryProject *project = NULL;

  dry_fields_own (&dry_job_fields, &owned);
  owned.metric = job->metric != FALSE;
  if (dry_job_check (&owned, &problem))
    project =
        dry_project_assemble (&owned, dry_project_share_boxes (self),
                              dry_project_share_alternates (self), dry_project_get_next_id (self));
  else
    dry_edit_fail (error, (gint) problem.code, "Job: %s.", problem.message);
  dry_problem_clear (&problem);
  dry_fields_clear (&dry_job_fields, &owned);
  return project;
}

/* --- rooms --- */

static gboolean
renumber (DryEdit *edit, GHashTable *map, DryId *id, GError **error)
{
  DryId old = *id;

  *id = dry_edit_take_id (edit);
  if (old != 0 && !g_hash_table_insert (map, GUINT_TO_POINTER (old), GUINT_TO_POINTER (*id)))
    return dry_edit_fail (error, DRY_ERROR_REFERENCE, "Room: id %u is used twice.", old);
  return TRUE;
}

static gboolean
follow (GHashTable *map, DryId *wall, GError **error)
{
  gpointer found = *wall != 0 ? g_hash_table_lookup (map, GUINT_TO_POINTER (*wall)) : NULL;

  if (found == NULL)
    return dry_edit_fail (error, DRY_ERROR_REFERENCE, "Room: there is no wall %u.", *wall);
  *wall = GPOINTER_TO_UINT (found);
  return TRUE;
}

/* Ids in a room that is added are its own affair: all become new, and references follow. */
static gboolean
renumber_room (DryEdit *edit, GError **error)
{
  g_autoptr (GHashTable) walls = g_hash_table_new (NULL, NULL);
  g_autoptr (GHashTable) others = g_hash_table_new (NULL, NULL);
  DryRoom *room = edit->room;

  room->id = dry_edit_take_id (edit);
  for (guint i = 0; i < room->n_walls; i++)
    if (!renumber (edit, walls, &room->walls[i].id, error))
      return FALSE;
  for (guint i = 0; i < room->n_openings; i++)
    if (!renumber (edit, others, &room->openings[i].id, error) ||
        !follow (walls, &room->openings[i].wall, error))
      return FALSE;
  if (room->basin.id != 0 && (!renumber (edit, others, &room->basin.id, error) ||
                              !follow (walls, &room->basin.wall, error)))
    return FALSE;
  for (guint i = 0; i < room->n_parts; i++)
    if (!renumber (edit, others, &room->parts[i].id, error) ||
        !follow (walls, &room->parts[i].wall, error))
      return FALSE;
  for (guint i = 0; i < room->n_seams; i++)
    if (!renumber (edit, others, &room->seams[i].id, error) ||
        !follow (walls, &room->seams[i].wall, error))
      return FALSE;
  return TRUE;
}

static void
add_room_ids (GHashTable *ids, const DryRoom *room)
{
  for (guint i = 0; i < room->n_walls; i++)
    g_hash_table_add (ids, GUINT_TO_POINTER (room->walls[i].id));
  for (guint i = 0; i < room->n_openings; i++)
    g_hash_table_add (ids, GUINT_TO_POINTER (room->openings[i].id));
  for (guint i = 0; i < room->n_parts; i++)
    g_hash_table_add (ids, GUINT_TO_POINTER (room->parts[i].id));
  for (guint i = 0; i < room->n_seams; i++)
    g_hash_table_add (ids, GUINT_TO_POINTER (room->seams[i].id));
  if (room->basin.id != 0)
    g_hash_table_add (ids, GUINT_TO_POINTER (room->basin.id));
}

static gboolean
settle_id (DryEdit *edit, GHashTable *known, DryId *id, GError **error)
{
  if (*id == 0)
    *id = dry_edit_take_id (edit);
  else if (!g_hash_table_contains (known, GUINT_TO_POINTER (*id)))
    return dry_edit_fail (error, DRY_ERROR_REFERENCE, "The room has no object %u to replace.", *id);
  return TRUE;
}

/* In a room that is replaced, an object is one the old room had, or new. */
static gboolean
settle_room_ids (DryEdit *edit, const DryRoom *old, GError **error)
{
  g_autoptr (GHashTable) known = g_hash_table_new (NULL, NULL);
  DryRoom *room = edit->room;

  add_room_ids (known, old);
  for (guint i = 0; i < room->n_walls; i++)
    if (!settle_id (edit, known, &room->walls[i].id, error))
      return FALSE;
  for (guint i = 0; i < room->n_openings; i++)
    if (!settle_id (edit, known, &room->openings[i].id, error))
      return FALSE;
  for (guint i = 0; i < room->n_parts; i++)
    if (!settle_id (edit, known, &room->parts[i].id, error))
      return FALSE;
  for (guint i = 0; i < room->n_seams; i++)
    if (!settle_id (edit, known, &room->seams[i].id, error))
      return FALSE;
  /* A basin without id is no basin. */
  return room->basin.id == 0 || settle_id (edit, known, &room->basin.id, error);
}

DryProject *
dry_edit_set_room (const DryProject *self, const DryRoom *room, DryId *id_out, GError **error)
{
  DryEdit edit = {.project = self,
                  .index = dry_project_get_n_rooms (self),
                  .next_id = dry_project_get_next_id (self)};
  const DryRoom *old = dry_project_get_room (self, room->id);
  DryId id;

  if (room->id != 0 && old == NULL) {
    dry_edit_fail (error, DRY_ERROR_REFERENCE, "The project has no room %u.", room->id);
    return NULL;
  }
  if (room->id == 0 && edit.index >= DRY_MAX_ROOMS) {
    dry_edit_fail (error, DRY_ERROR_LIMIT, "A project may have at most %d rooms.", DRY_MAX_ROOMS);
    return NULL;
  }
  edit.room = dry_room_copy (room);
  if (old != NULL)
    edit.index = dry_project_find_room (self, room->id);
  if (!(old != NULL ? settle_room_ids (&edit, old, error) : renumber_room (&edit, error)))
    return dry_edit_abandon (&edit);
  id = edit.room->id;
  if (id_out != NULL)
    *id_out = id;
  return dry_edit_finish (&edit, error);
}

DryProject *
dry_edit_remove_room (const DryProject *self, DryId room, GError **error)
{
  guint index = dry_project_find_room (self, room);
  GPtrArray *boxes;

  if (index == dry_project_get_n_rooms (self)) {
    dry_edit_fail (error, DRY_ERROR_REFERENCE, "The project has no room %u.", room);
    return NULL;
  }
  if (dry_project_get_n_rooms (self) == 1) {
    dry_edit_fail (error, DRY_ERROR_LIMIT, "A project keeps at least one room.");
    return NULL;
  }
  boxes = dry_project_share_boxes (self);
  g_ptr_array_remove_index (boxes, index);
  return dry_project_assemble (
      dry_project_get_job (self), boxes,
      dry_project_rebase_alternates (self, dry_project_get_room_at (self, index), NULL),
      dry_project_get_next_id (self));
}

/* --- values of a room --- */

DryProject *
dry_edit_set_basin (const DryProject *self, DryId room, const DryBasin *basin, DryId *id_out,
                    GError **error)
{
  DryEdit edit;
  DryId old;

  if (!dry_edit_begin (&edit, self, room, error))
    return NULL;
  old = edit.room->basin.id;
  if (basin->id != 0 && basin->id != old) {
    dry_edit_fail (error, DRY_ERROR_REFERENCE, "The room has no tub or pan %u to replace.",
                   basin->id);
    return dry_edit_abandon (&edit);
  }
  dry_fields_clear (&dry_basin_fields, &edit.room->basin);
  edit.room->basin = *basin;
  dry_fields_own (&dry_basin_fields, &edit.room->basin);
  /* A room has one basin: another one set without an id takes its place under a new id. */
  if (basin->id == 0)
    edit.room->basin.id = dry_edit_take_id (&edit);
  if (id_out != NULL)
    *id_out = edit.room->basin.id;
  return dry_edit_finish (&edit, error);
}

DryProject *
dry_edit_set_wet_zone (const DryProject *self, DryId room, const DryWetZone *wet, GError **error)
{
  DryEdit edit;

  if (!dry_edit_begin (&edit, self, room, error))
    return NULL;
  edit.room->wet = *wet;
  return dry_edit_finish (&edit, error);
}

DryProject *
dry_edit_set_finish (const DryProject *self, DryId room, const DryFinish *finish, GError **error)
{
  DryEdit edit;

  if (!dry_edit_begin (&edit, self, room, error))
    return NULL;
  dry_fields_clear (&dry_finish_fields, &edit.room->finish);
  edit.room->finish = *finish;
  dry_fields_own (&dry_finish_fields, &edit.room->finish);
  return dry_edit_finish (&edit, error);
}

/* --- objects of a room --- */

DryProject *
dry_edit_set_part (const DryProject *self, DryId room, const DryPart *part, DryId *id_out,
                   GError **error)
{
  DryEdit edit;
  DryPart *at;

  if (!dry_edit_begin (&edit, self, room, error))
    return NULL;
  if (part->id == 0) {
    edit.room->parts = g_renew (DryPart, edit.room->parts, edit.room->n_parts + 1);
    at = &edit.room->parts[edit.room->n_parts++];
  } else if (dry_room_get_part (edit.room, part->id) != NULL) {
    at = &edit.room->parts[dry_edit_find_part (edit.room, part->id)];
    dry_fields_clear (&dry_part_fields, at);
  } else {
    dry_edit_fail (error, DRY_ERROR_REFERENCE, "The room has no part %u to replace.", part->id);
    return dry_edit_abandon (&edit);
  }
  *at = *part;
  dry_fields_own (&dry_part_fields, at);
  if (at->id == 0)
    at->id = dry_edit_take_id (&edit);
  if (id_out != NULL)
    *id_out = at->id;
  return dry_edit_finish (&edit, error);
}

DryProject *
dry_edit_set_opening (const DryProject *self, DryId room, const DryOpening *opening, DryId *id_out,
                      GError **error)
{
  DryEdit edit;
  guint index;

  if (!dry_edit_begin (&edit, self, room, error))
    return NULL;
  index = dry_edit_find_opening (edit.room, opening->id);
  if (opening->id != 0 && index == edit.room->n_openings) {
    dry_edit_fail (error, DRY_ERROR_REFERENCE, "The room has no opening %u to replace.",
                   opening->id);
    return dry_edit_abandon (&edit);
  }
  if (opening->id == 0) {
    edit.room->openings = g_renew (DryOpening, edit.room->openings, index + 1);
    edit.room->n_openings++;
  }
  edit.room->openings[index] = *opening;
  if (opening->id == 0)
    edit.room->openings[index].id = dry_edit_take_id (&edit);
  if (id_out != NULL)
    *id_out = edit.room->openings[index].id;
  return dry_edit_finish (&edit, error);
}

static DryWall
copy_wall (const DryWall *wall)
{
  DryWall copy = *wall;

  dry_fields_own (&dry_wall_fields, &copy);
  return copy;
}

static void
replace_wall (DryWall *old, const DryWall *wall)
{
  DryWall copy = copy_wall (wall);

  copy.added = old->added;
  if (!old->added) {
    copy.start = old->start;
    copy.end = old->end;
  }
  dry_fields_clear (&dry_wall_fields, old);
  *old = copy;
}

DryProject *
dry_edit_set_wall (const DryProject *self, DryId room, const DryWall *wall, DryId *id_out,
                   GError **error)
{
  DryEdit edit;
  guint index;

  if (!dry_edit_begin (&edit, self, room, error))
    return NULL;
  index = dry_room_find_wall (edit.room, wall->id);
  if (wall->id == 0 && !wall->added) {
    dry_edit_fail (error, DRY_ERROR_GEOMETRY,
                   "A wall is added to the outline by inserting a corner.");
    return dry_edit_abandon (&edit);
  }
  if (wall->id != 0 && index == edit.room->n_walls) {
    dry_edit_fail (error, DRY_ERROR_REFERENCE, "The room has no wall %u.", wall->id);
    return dry_edit_abandon (&edit);
  }
  if (wall->id != 0) {
    replace_wall (&edit.room->walls[index], wall);
  } else {
    dry_edit_insert_wall (edit.room, index, copy_wall (wall));
    edit.room->walls[index].id = dry_edit_take_id (&edit);
  }
  if (id_out != NULL)
    *id_out = edit.room->walls[index].id;
  return dry_edit_finish (&edit, error);
}
