/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Builds the rooms of added-wall.h by the document's own edits.
 * Sizes are invented; what must come of them is said in the tests. */
#include "plan/added-wall.h"

static void
make_pan (DryBasin *basin, gpointer data)
{
  basin->kind = DRY_BASIN_PAN;
  basin->length = INCH (48);
  basin->width = INCH (36);
  basin->height = INCH (4);
  basin->drain = DRY_END_CENTRE;
  basin->drain_diameter = INCH (2);
}

DryProject *
added_wall_corner_shower (const char *system)
{
  DryProject *project = rule_room_alcove (system, "us-residential");
  const DryPoint corners[] = {{0, INCH (96)}, {INCH (120), INCH (96)}, {INCH (120), 0}, {0, 0}};
  g_autoptr (GError) error = NULL;
  DryProject *next = dry_edit_set_outline (project, dry_test_room (project), corners, 4, &error);

  return rule_room_set_basin (dry_test_follow (project, next, error), make_pan, NULL);
}

DryProject *
added_wall_close (DryProject *project, double height, DryId *id)
{
  const DryWall wall = {.added = TRUE,
                        .start = {INCH (48), INCH (96)},
                        .end = {INCH (48), INCH (60)},
                        .height = INCH (height),
                        .thickness = INCH (3.5),
                        .stud_width = INCH (1.5),
                        .stud_depth = INCH (3.5),
                        .stud_spacing = INCH (16),
                        .first_stud = INCH (16),
                        .lining = INCH (0.5)};
  g_autoptr (GError) error = NULL;
  DryProject *next = dry_edit_set_wall (project, dry_test_room (project), &wall, id, &error);

  return dry_test_follow (project, next, error);
}

DryProject *
added_wall_set (DryProject *project, const DryWall *wall)
{
  g_autoptr (GError) error = NULL;
  DryProject *next = dry_edit_set_wall (project, dry_test_room (project), wall, NULL, &error);

  return dry_test_follow (project, next, error);
}

DryProject *
added_wall_put_part (DryProject *project, DryId wall, DrySide side, DryPart part)
{
  g_autoptr (GError) error = NULL;
  DryProject *next;

  part.wall = wall;
  part.side = side;
  next = dry_edit_set_part (project, dry_test_room (project), &part, NULL, &error);
  return dry_test_follow (project, next, error);
}

DryProject *
added_wall_put_opening (DryProject *project, DryId wall, DryOpening opening)
{
  g_autoptr (GError) error = NULL;
  DryProject *next;

  opening.wall = wall;
  next = dry_edit_set_opening (project, dry_test_room (project), &opening, NULL, &error);
  return dry_test_follow (project, next, error);
}

DryProject *
added_wall_remove (DryProject *project, DryId object)
{
  g_autoptr (GError) error = NULL;
  DryProject *next = dry_edit_remove (project, dry_test_room (project), object, &error);

  return dry_test_follow (project, next, error);
}

DryId
added_wall_last_part (const DryProject *project)
{
  const DryRoom *room = dry_test_first_room (project);

  g_assert_cmpuint (room->n_parts, >, 0);
  return room->parts[room->n_parts - 1].id;
}
