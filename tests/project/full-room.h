/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A room with something of each kind, and small changes that make it wrong, for tests of this
 * floor. Says nothing of what is wrong about them. */
#pragma once

#include "support/fixtures.h"

#define IN(x) ((DryLength) ((x) *25400000.0))

/* The furnished alcove (walls 0 to 3 its outline), a half wall (4), a door in the south wall, two
 * seams on the north wall and a board on hand. Not NULL. */
DryProject *full_room_new (void);

typedef void (*Change) (DryRoom *room);

/* CHANGE (wall_twice, room->walls[1].id = room->walls[0].id) */
#define CHANGE(name, ...)                                                                          \
  static void name (DryRoom *room)                                                                 \
  {                                                                                                \
    __VA_ARGS__;                                                                                   \
  }
