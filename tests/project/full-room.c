/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Makes the room of full-room.h by edits. Checks nothing but that they were possible. */
#include "full-room.h"

DryProject *
full_room_new (void)
{
  g_autoptr (DryProject) old = dry_test_furnished_alcove ("foam-bands");
  DryId room = dry_test_room (old), half_id;
  DryWall half = {.added = TRUE,
                  .start = {IN (30), IN (50)},
                  .end = {IN (30), IN (20)},
                  .stud_width = IN (1.5),
                  .stud_depth = IN (3.5),
                  .stud_spacing = IN (16),
                  .height = IN (42)};
  DryOpening door = {.wall = dry_test_wall (old, 's'), .width = IN (30), .height = IN (80)};
  DrySeamWish seam = {.wall = dry_test_wall (old, 'n'), .at = IN (24), .through = IN (60)};
  DryOnHand board = {.width = IN (20), .height = IN (30), .count = 1};
  g_autoptr (DryProject) one = dry_edit_set_wall (old, room, &half, &half_id, NULL);
  g_autoptr (DryProject) two = dry_edit_set_opening (one, room, &door, NULL, NULL);
  g_autoptr (DryProject) three = dry_edit_set_seam (two, room, &seam, NULL, NULL);
  g_autoptr (DryProject) four = dry_edit_set_seam (three, room, &seam, NULL, NULL);

  g_assert_nonnull (four);
  return dry_edit_set_on_hand (four, room, 0, &board, NULL);
}
