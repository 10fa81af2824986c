/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Lists studs as the framing stage sets them out, so that turning a spacing into studs as found
 * moves none of them. What stands at openings and ends is the plan's and not listed here. */
#include "ui/studs.h"

#include "base/error.h"

/* As the framing stage: walls drawn without a spacing; common practice, no source. */
#define USUAL_SPACING (16 * DRY_INCH)
#define USUAL_STUD    (3 * DRY_INCH / 2)

static DryLength
stud_width (const DryWall *wall)
{
  return wall->stud_width > 0 ? wall->stud_width : USUAL_STUD;
}

GArray *
dry_studs_list (const DryWall *wall)
{
  GArray *studs = g_array_new (FALSE, FALSE, sizeof (DryLength));
  DryLength t = stud_width (wall), length = dry_wall_length (wall);
  DryLength spacing = MAX (wall->stud_spacing > 0 ? wall->stud_spacing : USUAL_SPACING, t);

  if (wall->n_found_studs > 0) {
    g_array_append_vals (studs, wall->found_studs, wall->n_found_studs);
    return studs;
  }
  for (DryLength u = wall->first_stud > 0 ? wall->first_stud : spacing; u < length; u += spacing)
    /* One that is mostly the end stud is the end stud. */
    if (u - t / 2 >= t - t / 4 && u + t / 2 <= length - t + t / 4)
      g_array_append_val (studs, u);
  return studs;
}

static DryProject *
set_studs (const DryProject *project, DryId room_id, const DryWall *wall, GArray *studs,
           GError **error)
{
  DryWall changed = *wall;

  changed.found_studs = (DryLength *) (gpointer) studs->data;
  changed.n_found_studs = studs->len;
  return dry_edit_set_wall (project, room_id, &changed, NULL, error);
}

static const DryWall *
find_wall (const DryProject *project, DryId room_id, DryId id, GError **error)
{
  const DryRoom *room = dry_project_get_room (project, room_id);
  const DryWall *wall = room != NULL ? dry_room_get_wall (room, id) : NULL;

  if (wall == NULL)
    g_set_error_literal (error, DRY_ERROR, DRY_ERROR_REFERENCE, "This wall is gone.");
  return wall;
}

static gboolean
has_index (GArray *studs, guint index, GError **error)
{
  if (index < studs->len)
    return TRUE;
  g_set_error_literal (error, DRY_ERROR, DRY_ERROR_REFERENCE, "This stud is gone.");
  return FALSE;
}

DryProject *
dry_studs_move (const DryProject *project, DryId room, DryId id, guint index, DryLength u,
                GError **error)
{
  const DryWall *wall = find_wall (project, room, id, error);
  g_autoptr (GArray) studs = wall != NULL ? dry_studs_list (wall) : NULL;
  DryLength low, high, t;

  if (wall == NULL || !has_index (studs, index, error))
    return NULL;
  t = stud_width (wall);
  low = index > 0 ? g_array_index (studs, DryLength, index - 1) + t : t / 2;
  high = index + 1 < studs->len ? g_array_index (studs, DryLength, index + 1) - t
                                : dry_wall_length (wall) - t / 2;
  if (high < low)
    return dry_project_ref (project);
  g_array_index (studs, DryLength, index) = CLAMP (u, low, high);
  return set_studs (project, room, wall, studs, error);
}

DryProject *
dry_studs_add (const DryProject *project, DryId room, DryId id, gint index, guint *added,
               GError **error)
{
  const DryWall *wall = find_wall (project, room, id, error);
  g_autoptr (GArray) studs = wall != NULL ? dry_studs_list (wall) : NULL;
  DryLength widest = 0, u = 0;
  guint at = 0;

  if (wall == NULL)
    return NULL;
  for (guint i = 0; i <= studs->len; i++) {
    DryLength left = i > 0 ? g_array_index (studs, DryLength, i - 1) : 0;
    DryLength right = i < studs->len ? g_array_index (studs, DryLength, i) : dry_wall_length (wall);

    if (index >= 0 ? (gint) i != index + 1 : right - left <= widest)
      continue;
    widest = right - left;
    at = i;
    u = left + (right - left) / 2;
  }
  if (widest < 2 * stud_width (wall)) {
    g_set_error_literal (error, DRY_ERROR, DRY_ERROR_GEOMETRY,
                         "There is no room for another stud between these two.");
    return NULL;
  }
  g_array_insert_val (studs, at, u);
  *added = at;
  return set_studs (project, room, wall, studs, error);
}

DryProject *
dry_studs_remove (const DryProject *project, DryId room, DryId id, guint index, GError **error)
{
  const DryWall *wall = find_wall (project, room, id, error);
  g_autoptr (GArray) studs = wall != NULL ? dry_studs_list (wall) : NULL;

  if (wall == NULL || !has_index (studs, index, error))
    return NULL;
  if (studs->len == 1) { /* none found would mean: spaced evenly */
    g_set_error_literal (error, DRY_ERROR, DRY_ERROR_LIMIT,
                         "The last stud stays: a wall without any found is spaced evenly.");
    return NULL;
  }
  g_array_remove_index (studs, index);
  return set_studs (project, room, wall, studs, error);
}
