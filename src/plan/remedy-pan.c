/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Remedies of what is told about a pan made on site, the floor, a half wall and the finish.
 * Most set one fact of the document to what the rule asks for. */
#include "plan/remedy-private.h"

static DryProject *
set_basin (const DryRemedyWork *work, const DryBasin *basin, GError **error)
{
  return dry_edit_set_basin (work->project, work->room->id, basin, NULL, error);
}

static DryProject *
set_finish (const DryRemedyWork *work, const DryFinish *finish, GError **error)
{
  return dry_edit_set_finish (work->project, work->room->id, finish, error);
}

static DryProject *
pitch_curb (const DryRemedyWork *work, GError **error)
{
  DryBasin basin = work->room->basin;

  basin.curb_pitch = 1.0 / 48;
  return set_basin (work, &basin, error);
}

static DryProject *
wrap_curb (const DryRemedyWork *work, GError **error)
{
  DryBasin basin = work->room->basin;

  basin.curb_wrapped = TRUE;
  return set_basin (work, &basin, error);
}

static DryProject *
use_bonding_flange (const DryRemedyWork *work, GError **error)
{
  DryBasin basin = work->room->basin;

  basin.clamping_drain = FALSE;
  return set_basin (work, &basin, error);
}

static DryProject *
slope_liner (const DryRemedyWork *work, GError **error)
{
  DryBasin basin = work->room->basin;

  basin.pre_slope = TRUE;
  return set_basin (work, &basin, error);
}

static DryProject *
open_weeps (const DryRemedyWork *work, GError **error)
{
  DryBasin basin = work->room->basin;

  basin.weeps_open = TRUE;
  return set_basin (work, &basin, error);
}

static DryProject *
turn_liner_up (const DryRemedyWork *work, GError **error)
{
  DryBasin basin = work->room->basin;
  DryLength most = G_MAXINT64;

  dry_remedy_get_bounds (work, "turn-up", &basin.liner_turn_up, &most);
  return set_basin (work, &basin, error);
}

/* To the nearest slope the rule allows. */
static DryProject *
slope_floor (const DryRemedyWork *work, GError **error)
{
  DryBasin basin = work->room->basin;
  double least = 0, most = 100;

  dry_remedy_get_number_bounds (work, "slope", &least, &most);
  basin.slope = CLAMP (basin.slope * 100, least, most) / 100;
  return set_basin (work, &basin, error);
}

static DryProject *
plan_dam (const DryRemedyWork *work, GError **error)
{
  DryBasin basin = work->room->basin;

  basin.dam = TRUE;
  return set_basin (work, &basin, error);
}

static DryProject *
pitch_cap (const DryRemedyWork *work, GError **error)
{
  DryWall wall = *work->wall;

  wall.cap_pitch = 1.0 / 48;
  return dry_edit_set_wall (work->project, work->room->id, &wall, NULL, error);
}

static DryProject *
slope_ceiling (const DryRemedyWork *work, GError **error)
{
  DryRoom room = *work->room;

  room.ceiling_slope = 2.0 / 12;
  return dry_edit_set_room (work->project, &room, NULL, error);
}

static DryProject *
protect_floor (const DryRemedyWork *work, GError **error)
{
  DryRoom room = *work->room;

  room.floor_protected = TRUE;
  return dry_edit_set_room (work->project, &room, NULL, error);
}

static DryProject *
use_system_mortar (const DryRemedyWork *work, GError **error)
{
  DryFinish finish = work->room->finish;

  finish.mortar_kind = DRY_MORTAR_AS_SYSTEM;
  return set_finish (work, &finish, error);
}

static DryProject *
seal_gap (const DryRemedyWork *work, GError **error)
{
  DryFinish finish = work->room->finish;

  finish.gap_mortar = FALSE;
  return set_finish (work, &finish, error);
}

static DryProject *
guard_band (const DryRemedyWork *work, GError **error)
{
  DryFinish finish = work->room->finish;

  finish.cut_guard = TRUE;
  return set_finish (work, &finish, error);
}

const DryRemedyEntry DRY_REMEDIES_OF_PANS[] = {
    {"pan.pitch-curb", DRY_ABOUT_ROOM, pitch_curb},
    {"pan.wrap-curb", DRY_ABOUT_ROOM, wrap_curb},
    {"pan.bonding-flange", DRY_ABOUT_ROOM, use_bonding_flange},
    {"pan.pre-slope", DRY_ABOUT_ROOM, slope_liner},
    {"pan.weeps-open", DRY_ABOUT_ROOM, open_weeps},
    {"pan.turn-up", DRY_ABOUT_ROOM, turn_liner_up},
    {"pan.slope", DRY_ABOUT_ROOM, slope_floor},
    {"pan.plan-dam", DRY_ABOUT_ROOM, plan_dam},
    {"wall.pitch-cap", DRY_ABOUT_WALL, pitch_cap},
    {"room.slope-ceiling", DRY_ABOUT_ROOM, slope_ceiling},
    {"room.protect-floor", DRY_ABOUT_ROOM, protect_floor},
    {"finish.system-mortar", DRY_ABOUT_ROOM, use_system_mortar},
    {"finish.gap-sealant", DRY_ABOUT_ROOM, seal_gap},
    {"finish.cut-guard", DRY_ABOUT_ROOM, guard_band},
};
const guint DRY_N_REMEDIES_OF_PANS = G_N_ELEMENTS (DRY_REMEDIES_OF_PANS);
