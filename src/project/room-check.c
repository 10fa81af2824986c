/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Checks that span several fields or objects of a room, used by the reader and by every edit.
 * Knows neither files nor edits: it says what is wrong and where in the value. */
#define G_LOG_DOMAIN "drybay-project"

#include "project/room-check.h"

#include <string.h>

#include "project/file.h"

static const char *const room_lists[] = {"walls",  "added_walls", "openings", "basin",   "wet",
                                         "finish", "parts",       "seams",    "on_hand", NULL};

/* A spacing or module of next to nothing would ask for millions of studs or tiles. */
#define LEAST_JOIST_SPACING (2 * DRY_INCH)
#define LEAST_TILE          (5 * DRY_MM)

gboolean
dry_room_key_is_known (const char *key)
{
  for (guint i = 0; i < dry_room_fields.n; i++)
    if (strcmp (dry_room_fields.fields[i].key, key) == 0)
      return TRUE;
  return g_strv_contains (room_lists, key);
}

static gboolean
place_problem (DryProblem *problem, const char *list, gint index)
{
  problem->list = list;
  problem->index = index;
  return FALSE;
}

static gboolean
place_wall_problem (const DryRoom *room, guint index, DryProblem *problem)
{
  if (index < room->n_outline)
    return place_problem (problem, "walls", (gint) index);
  return place_problem (problem, "added_walls", (gint) (index - room->n_outline));
}

gboolean
dry_job_check (const DryJob *job, DryProblem *problem)
{
  gint d = job->denominator;

  if (!dry_fields_check (&dry_job_fields, 0, job, problem))
    return FALSE;
  if (d == 8 || d == 16 || d == 32 || d == 64)
    return TRUE;
  dry_problem_set (problem, DRY_ERROR_LIMIT, "denominator",
                   "denominator must be 8, 16, 32 or 64, not %d", d);
  return FALSE;
}

static gboolean
check_count (guint n, guint most, const char *list, const char *what, DryProblem *problem)
{
  if (n <= most)
    return TRUE;
  dry_problem_set (problem, DRY_ERROR_LIMIT, NULL, "%u %s; a room may have at most %u", n, what,
                   most);
  return place_problem (problem, list, -1);
}

static gboolean
check_counts (const DryRoom *room, DryProblem *problem)
{
  if (!check_count (room->n_walls, DRY_MAX_WALLS, "walls", "walls", problem) ||
      !check_count (room->n_openings, DRY_MAX_PARTS, "openings", "openings", problem) ||
      !check_count (room->n_parts, DRY_MAX_PARTS, "parts", "parts", problem) ||
      !check_count (room->n_seams, DRY_MAX_SEAMS, "seams", "wished seams", problem) ||
      !check_count (room->n_on_hand, DRY_MAX_SEAMS, "on_hand", "rows of boards on hand", problem))
    return FALSE;
  if (room->n_outline >= 3 && room->n_outline <= room->n_walls)
    return TRUE;
  dry_problem_set (problem, DRY_ERROR_GEOMETRY, NULL,
                   "the outline has %u walls; a room needs at least 3", room->n_outline);
  return place_problem (problem, "walls", -1);
}

static gboolean
claim_id (GHashTable *ids, DryId id, DryProblem *problem)
{
  if (id == 0)
    dry_problem_set (problem, DRY_ERROR_REFERENCE, "id", "id must not be 0");
  else if (!g_hash_table_add (ids, GUINT_TO_POINTER (id)))
    dry_problem_set (problem, DRY_ERROR_REFERENCE, "id", "id %u is used twice", id);
  else
    return TRUE;
  return FALSE;
}

static gboolean
check_ids (const DryRoom *room, DryProblem *problem)
{
  g_autoptr (GHashTable) ids = g_hash_table_new (NULL, NULL);

  if (!claim_id (ids, room->id, problem))
    return FALSE;
  for (guint i = 0; i < room->n_walls; i++)
    if (!claim_id (ids, room->walls[i].id, problem))
      return place_wall_problem (room, i, problem);
  for (guint i = 0; i < room->n_openings; i++)
    if (!claim_id (ids, room->openings[i].id, problem))
      return place_problem (problem, "openings", (gint) i);
  if (room->basin.id != 0 && !claim_id (ids, room->basin.id, problem))
    return place_problem (problem, "basin", -1);
  for (guint i = 0; i < room->n_parts; i++)
    if (!claim_id (ids, room->parts[i].id, problem))
      return place_problem (problem, "parts", (gint) i);
  for (guint i = 0; i < room->n_seams; i++)
    if (!claim_id (ids, room->seams[i].id, problem))
      return place_problem (problem, "seams", (gint) i);
  return TRUE;
}

static gboolean
check_walls (const DryRoom *room, DryProblem *problem)
{
  for (guint i = 0; i < room->n_walls; i++) {
    const DryWall *wall = &room->walls[i];
    gboolean in_outline = i < room->n_outline;

    if (!dry_fields_check (&dry_wall_fields, in_outline ? DRY_FIELD_ADDED_WALL : 0, wall, problem))
      return place_wall_problem (room, i, problem);
    if (wall->start.x == wall->end.x && wall->start.y == wall->end.y) {
      dry_problem_set (problem, DRY_ERROR_GEOMETRY, "start", "the wall has no length");
      return place_wall_problem (room, i, problem);
    }
    if (wall->added == in_outline) {
      dry_problem_set (problem, DRY_ERROR_GEOMETRY, NULL,
                       "walls of the outline come first, added walls after them");
      return place_wall_problem (room, i, problem);
    }
  }
  return TRUE;
}

static gboolean
check_outline (const DryRoom *room, DryProblem *problem)
{
  g_autofree DryPoint *corners = g_new (DryPoint, room->n_outline);
  DryRing ring = {corners, room->n_outline};

  for (guint i = 0; i < room->n_outline; i++)
    corners[i] = room->walls[i].start;
  if (!dry_ring_is_simple (&ring))
    dry_problem_set (problem, DRY_ERROR_GEOMETRY, NULL, "the outline crosses or touches itself");
  else if (dry_ring_area2 (&ring) >= 0)
    dry_problem_set (problem, DRY_ERROR_GEOMETRY, NULL,
                     "the outline must run clockwise seen from above");
  else
    return TRUE;
  return place_problem (problem, "walls", -1);
}

static gboolean
check_wall_reference (const DryRoom *room, DryId wall, DrySide side, DryProblem *problem)
{
  guint index = dry_room_find_wall (room, wall);

  if (index == room->n_walls)
    dry_problem_set (problem, DRY_ERROR_REFERENCE, "wall", "the room has no wall %u", wall);
  else if (side == DRY_SIDE_OUTSIDE && index < room->n_outline)
    dry_problem_set (problem, DRY_ERROR_REFERENCE, "side",
                     "wall %u is part of the outline, which has only an inside", wall);
  else
    return TRUE;
  return FALSE;
}

static gboolean
check_openings (const DryRoom *room, DryProblem *problem)
{
  for (guint i = 0; i < room->n_openings; i++) {
    const DryOpening *opening = &room->openings[i];

    if (!dry_fields_check (&dry_opening_fields, 0, opening, problem) ||
        !check_wall_reference (room, opening->wall, DRY_SIDE_INSIDE, problem))
      return place_problem (problem, "openings", (gint) i);
  }
  return TRUE;
}

static gboolean
check_parts (const DryRoom *room, DryProblem *problem)
{
  for (guint i = 0; i < room->n_parts; i++) {
    const DryPart *part = &room->parts[i];

    if (!dry_fields_check (&dry_part_fields, 0, part, problem) ||
        !check_wall_reference (room, part->wall, part->side, problem))
      return place_problem (problem, "parts", (gint) i);
    /* Without depth these three have no body at all; flat fittings may leave it open. */
    if (part->depth == 0 && (part->kind == DRY_PART_NICHE || part->kind == DRY_PART_BENCH ||
                             part->kind == DRY_PART_GLASS)) {
      dry_problem_set (problem, DRY_ERROR_GEOMETRY, "depth", "depth of a %s must be more than zero",
                       dry_part_kind_name (part->kind));
      return place_problem (problem, "parts", (gint) i);
    }
  }
  return TRUE;
}

static gboolean
check_seams (const DryRoom *room, DryProblem *problem)
{
  for (guint i = 0; i < room->n_seams; i++) {
    const DrySeamWish *seam = &room->seams[i];

    if (!dry_fields_check (&dry_seam_fields, 0, seam, problem) ||
        !check_wall_reference (room, seam->wall, seam->side, problem))
      return place_problem (problem, "seams", (gint) i);
  }
  for (guint i = 0; i < room->n_on_hand; i++)
    if (!dry_fields_check (&dry_on_hand_fields, 0, &room->on_hand[i], problem))
      return place_problem (problem, "on_hand", (gint) i);
  return TRUE;
}

static gboolean
check_basin (const DryRoom *room, DryProblem *problem)
{
  const DryBasin *basin = &room->basin;

  if (basin->id == 0)
    return TRUE;
  if (!dry_fields_check (&dry_basin_fields, 0, basin, problem) ||
      !check_wall_reference (room, basin->wall, DRY_SIDE_INSIDE, problem))
    return place_problem (problem, "basin", -1);
  if (basin->kind == DRY_BASIN_TUB && basin->height == 0) {
    dry_problem_set (problem, DRY_ERROR_GEOMETRY, "height",
                     "height of a tub's rim must be more than zero");
    return place_problem (problem, "basin", -1);
  }
  return TRUE;
}

static gboolean
check_finish (const DryFinish *finish, DryProblem *problem)
{
  const char *key = NULL;

  if (!dry_fields_check (&dry_finish_fields, 0, finish, problem))
    return place_problem (problem, "finish", -1);
  if (finish->tile_width < LEAST_TILE && (finish->tiled || finish->tile_width > 0))
    key = "tile_width";
  else if (finish->tile_height < LEAST_TILE && (finish->tiled || finish->tile_height > 0))
    key = "tile_height";
  if (key == NULL)
    return TRUE;
  dry_problem_set (problem, DRY_ERROR_GEOMETRY, key, "%s must be at least 5 mm", key);
  return place_problem (problem, "finish", -1);
}

static gboolean
check_unknown (const char *unknown, DryProblem *problem)
{
  g_autoptr (DryJsonDocument) document = NULL;
  DryJson root;

  if (unknown == NULL)
    return TRUE;
  document = dry_json_document_new (unknown, strlen (unknown), "kept fields", NULL);
  if (document != NULL) {
    guint n;

    root = dry_json_root (document);
    n = dry_json_member_count (root);
    for (guint i = 0; i < n; i++) {
      const char *key = NULL;

      dry_json_member (root, i, &key);
      if (dry_room_key_is_known (key))
        dry_json_fail (root, DRY_ERROR_SCHEMA, "not a field to keep");
    }
    if (dry_json_finish (document, NULL))
      return TRUE;
  }
  dry_problem_set (problem, DRY_ERROR_SCHEMA, NULL,
                   "the fields kept for a newer version are no JSON object of unknown fields");
  return FALSE;
}

gboolean
dry_room_check (const DryRoom *room, DryProblem *problem)
{
  if (!dry_fields_check (&dry_room_fields, 0, room, problem))
    return FALSE;
  if (room->joist_spacing > 0 && room->joist_spacing < LEAST_JOIST_SPACING) {
    dry_problem_set (problem, DRY_ERROR_GEOMETRY, "joist_spacing",
                     "joist_spacing must be 0 (unknown) or at least 50.8 mm");
    return FALSE;
  }
  if (!dry_fields_check (&dry_wet_zone_fields, 0, &room->wet, problem))
    return place_problem (problem, "wet", -1);
  return check_counts (room, problem) && check_ids (room, problem) && check_walls (room, problem) &&
         check_outline (room, problem) && check_openings (room, problem) &&
         check_basin (room, problem) && check_finish (&room->finish, problem) &&
         check_parts (room, problem) && check_seams (room, problem) &&
         check_unknown (room->unknown, problem);
}
