/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Random projects with a wall added along one end of the basin, half or full height. Shared by
 * tests of several stages; knows none of them. */
#include "walled.h"

#include "support/fixtures.h"

DryProject *
walled_project (guint32 seed)
{
  DryProject *project = dry_test_random_project (seed);
  const DryRoom *room = dry_project_get_room_at (project, 0);
  DryPoint corners[4]; /* counter-clockwise from the back left */
  DryWall wall = {.added = TRUE,
                  .height = seed % 3 == 0 ? 0 : (36 + (seed % 5) * 6) * DRY_INCH,
                  .thickness = 7 * DRY_INCH / 2,
                  .stud_width = 3 * DRY_INCH / 2,
                  .stud_depth = 7 * DRY_INCH / 2,
                  .stud_spacing = 16 * DRY_INCH,
                  .lining = seed % 2 ? DRY_INCH / 2 : 0};
  DryProject *walled;

  if (!dry_room_basin_corners (room, corners))
    return project;
  /* its inside looks at the basin */
  wall.start = seed % 2 ? corners[3] : corners[1];
  wall.end = seed % 2 ? corners[2] : corners[0];
  walled = dry_edit_set_wall (project, room->id, &wall, NULL, NULL);
  if (!walled)
    return project;
  dry_project_unref (project);
  return walled;
}
