/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Rooms with one thing wrong, as few edits as it takes from the plain alcove or a pan.
 * What is said of them is in test-remedies.c. */
#include "plan/remedy-rooms.h"

#include <string.h>

static void
change_job_pack (DryJob *job, gpointer data)
{
  job->rule_pack = (char *) "us-residential";
}

static void
change_pack_to (DryJob *job, gpointer data)
{
  job->rule_pack = data;
}

static DryProject *
start (const char *system)
{
  return rule_room_set_job (dry_test_alcove (system), change_job_pack, NULL);
}

static DryPart
make_niche (double u, double z, double width)
{
  return (DryPart){.kind = DRY_PART_NICHE,
                   .u = INCH (u),
                   .z = INCH (z),
                   .width = INCH (width),
                   .height = INCH (14),
                   .depth = INCH (3),
                   .site_built = TRUE,
                   .pitch = 0.021};
}

static DryPart
make_ready_niche (double u)
{
  DryPart part = make_niche (u, 48, 12);

  part.site_built = FALSE;
  part.body_width = INCH (14);
  part.body_height = INCH (16);
  part.flange = INCH (1);
  return part;
}

static DryPart
make_fitting (DryPartKind kind, double u, double z, double hole)
{
  return (DryPart){.kind = kind,
                   .u = INCH (u),
                   .z = INCH (z),
                   .width = INCH (hole + 1),
                   .height = INCH (hole + 1),
                   .hole = INCH (hole),
                   .flow_lpm = 6.8};
}

static DryPart
make_bench (double z, double depth)
{
  return (DryPart){.kind = DRY_PART_BENCH,
                   .u = INCH (20),
                   .z = INCH (z),
                   .width = INCH (20),
                   .height = INCH (2),
                   .depth = INCH (depth),
                   .pitch = 0.021};
}

static DryPart
make_glass (double width)
{
  return (DryPart){.kind = DRY_PART_GLASS,
                   .u = INCH (40),
                   .z = INCH (5),
                   .width = INCH (width),
                   .height = INCH (70),
                   .depth = INCH (0.375),
                   .hinged = TRUE};
}

static DryProject *
room_bar (void)
{
  DryPart bar = make_fitting (DRY_PART_GRAB_BAR, 30, 40, 0);

  bar.width = INCH (24);
  bar.height = INCH (1.25);
  return rule_room_add_part (start ("foam-bands"), 'n', bar);
}

static void
change_length (DryBasin *basin, gpointer data)
{
  basin->length = *(DryLength *) data;
}

static DryProject *
room_long_tub (void)
{
  DryLength length = INCH (60.75);

  return rule_room_set_basin (start ("foam-bands"), change_length, &length);
}

static DryProject *
room_short_tub (void)
{
  DryLength length = INCH (59);

  return rule_room_set_basin (start ("foam-bands"), change_length, &length);
}

static void
change_flange (DryBasin *basin, gpointer data)
{
  basin->flange_thickness = INCH (0.125);
}

static DryProject *
room_proud_flange (void)
{
  return rule_room_set_basin (start ("foam-bands"), change_flange, NULL);
}

static void
change_no_flange (DryBasin *basin, gpointer data)
{
  basin->flange = 0;
}

static DryProject *
room_no_flange (void)
{
  DryProject *project = rule_room_set_basin (start ("foam-bands"), change_no_flange, NULL);

  return rule_room_add_part (project, 'e', make_fitting (DRY_PART_SHOWER_HEAD, 8, 76, 1));
}

static DryProject *
room_bench (double z, double depth)
{
  return rule_room_add_part (rule_room_shower (INCH (40), INCH (40)), 'n', make_bench (z, depth));
}

static DryProject *
room_low_bench (void)
{
  return room_bench (14, 15);
}

static DryProject *
room_deep_bench (void)
{
  return room_bench (18, 20);
}

static void
change_lining (DryWall *wall, gpointer data)
{
  wall->lining = INCH (0.625);
}

static DryProject *
room_thick_lining (void)
{
  return rule_room_set_wall (start ("glass-mat-liquid"), 'e', change_lining, NULL);
}

static DryProject *
room_valve_on_stud (void)
{
  return rule_room_add_part (start ("foam-bands"), 'e', make_fitting (DRY_PART_VALVE, 22, 40, 3));
}

static DryProject *
room_high_valve (void)
{
  DryProject *project =
      rule_room_add_part (start ("foam-bands"), 'e', make_fitting (DRY_PART_SHOWER_HEAD, 8, 76, 1));

  return rule_room_add_part (project, 'e', make_fitting (DRY_PART_VALVE, 8, 52, 3));
}

static DryProject *
room_high_tub_valve (void)
{
  return rule_room_add_part (start ("foam-bands"), 'e', make_fitting (DRY_PART_VALVE, 8, 40, 3));
}

static DryProject *
room_narrow_door (void)
{
  return rule_room_add_part (rule_room_shower (INCH (40), INCH (40)), 'e', make_glass (20));
}

static DryProject *
room_entry_head (void)
{
  DryPart head = make_fitting (DRY_PART_SHOWER_HEAD, 8, 76, 1);

  head.toward_entry = TRUE;
  return rule_room_add_part (start ("foam-bands"), 'e', head);
}

static DryProject *
room_niche_over_bench (void)
{
  DryPart bench = make_bench (18, 15);

  bench.fold_down = TRUE;
  return rule_room_add_part (
      rule_room_add_part (rule_room_shower (INCH (48), INCH (48)), 'n', bench), 'n',
      make_niche (24, 45, 10));
}

static DryProject *
room_high_niche (void)
{
  return rule_room_add_part (start ("foam-bands"), 'n', make_niche (24, 66, 12));
}

static DryProject *
room_low_clear_niche (void)
{
  DryPart niche = make_niche (24, 48, 12);

  niche.height = INCH (6);
  return rule_room_add_part (start ("foam-bands"), 'n', niche);
}

static DryProject *
room_deep_niche (void)
{
  DryPart niche = make_niche (24, 48, 12);

  niche.depth = INCH (4);
  return rule_room_add_part (start ("foam-bands"), 'n', niche);
}

static DryProject *
room_flat_niche (void)
{
  DryPart niche = make_niche (24, 48, 12);

  niche.pitch = 0;
  return rule_room_add_part (start ("foam-bands"), 'n', niche);
}

static DryProject *
room_niche_on_stud (void)
{
  return rule_room_add_part (start ("foam-bands"), 'n', make_niche (32, 48, 12));
}

static DryProject *
room_ready_niche_on_stud (void)
{
  return rule_room_add_part (start ("foam-bands"), 'n', make_ready_niche (30));
}

static void
change_bearing (DryWall *wall, gpointer data)
{
  wall->bearing = TRUE;
}

static DryProject *
room_bearing_niche (void)
{
  return rule_room_set_wall (room_niche_on_stud (), 'n', change_bearing, NULL);
}

static DryProject *
room_vent_bay (void)
{
  DryPart vent = {.kind = DRY_PART_VENT,
                  .u = INCH (22),
                  .width = INCH (3),
                  .height = INCH (96),
                  .depth = INCH (3)};

  return rule_room_add_part (
      rule_room_add_part (start ("foam-bands"), 'n', make_niche (24, 48, 12)), 'n', vent);
}

static DryProject *
room_window (void)
{
  DryOpening window = {.kind = DRY_OPENING_WINDOW,
                       .u = INCH (20),
                       .z = INCH (44),
                       .width = INCH (24),
                       .height = INCH (30),
                       .wooden_jamb = TRUE};

  return rule_room_add_opening (start ("foam-bands"), 'n', window);
}

static DryProject *
room_low_spout (void)
{
  return rule_room_add_part (start ("foam-bands"), 'e', make_fitting (DRY_PART_SPOUT, 8, 17, 1));
}

static void
change_half_bond (DryFinish *finish, gpointer data)
{
  finish->tiled = TRUE;
  finish->tile = NULL;
  finish->tile_width = INCH (24);
  finish->tile_height = INCH (12);
  finish->tile_thickness = INCH (0.3125);
  finish->joint = INCH (0.03125);
  finish->pattern = DRY_PATTERN_OFFSET;
  finish->offset = 0.5;
}

static DryProject *
room_half_bond (void)
{
  return rule_room_set_finish (start ("foam-bands"), change_half_bond, NULL);
}

static void
change_straight (DryFinish *finish, gpointer data)
{
  finish->tiled = TRUE;
  finish->pattern = DRY_PATTERN_STRAIGHT;
  finish->tile_width = INCH (24);
  finish->tile_height = INCH (12);
}

static void
change_start (DryWall *wall, gpointer data)
{
  wall->tile_set = TRUE;
  wall->tile_from = INCH (4);
}

static DryProject *
room_narrow_cut (void)
{
  return rule_room_set_wall (rule_room_set_finish (start ("foam-bands"), change_straight, NULL),
                             'n', change_start, NULL);
}

static void
change_small (DryFinish *finish, gpointer data)
{
  change_straight (finish, data);
  finish->tile_width = INCH (6);
  finish->tile_height = INCH (3);
}

/* Courses of 3-1/8 in: a niche 14 in high ends somewhere in one. */
static DryProject *
room_niche_off_joints (void)
{
  return rule_room_add_part (rule_room_set_finish (start ("foam-bands"), change_small, NULL), 'n',
                             make_niche (24, 48, 12));
}

static void
change_tolerance (DryFinish *finish, gpointer data)
{
  finish->niche_tolerance = INCH (0.5);
}

static DryProject *
room_niche_near_joints (void)
{
  return rule_room_set_finish (room_niche_off_joints (), change_tolerance, NULL);
}

static void
change_spacing (DryWall *wall, gpointer data)
{
  wall->stud_spacing = INCH (24);
  wall->first_stud = INCH (24);
}

static DryProject *
room_wide_studs (void)
{
  return rule_room_set_wall (start ("foam-bands"), 'n', change_spacing, NULL);
}

static void
change_found (DryWall *wall, gpointer data)
{
  static DryLength studs[] = {INCH (17.9), INCH (36.5), INCH (45)};

  wall->found_studs = studs;
  wall->n_found_studs = G_N_ELEMENTS (studs);
}

static DryProject *
room_found_studs (void)
{
  return rule_room_set_wall (start ("foam-bands"), 'n', change_found, NULL);
}

static DryProject *
room_no_leg (void)
{
  return rule_room_set_wet (start ("foam-bands"), (DryWetZone){.past = INCH (2)});
}

static DryProject *
room_short_past (void)
{
  return rule_room_set_wet (start ("foam-bands"), (DryWetZone){.past = INCH (1), .leg = TRUE});
}

static void
change_joists (DryRoom *room, gpointer data)
{
  room->joist_spacing = INCH (24);
}

static DryProject *
room_tiled_ceiling (void)
{
  DryWetZone wet = {.past = INCH (2), .leg = TRUE, .ceiling = TRUE};

  return rule_room_set_room (rule_room_set_wet (start ("fibre-cement"), wet), change_joists, NULL);
}

static DryProject *
room_low_wet (void)
{
  DryProject *project =
      rule_room_add_part (start ("foam-bands"), 'e', make_fitting (DRY_PART_SHOWER_HEAD, 8, 78, 1));

  return rule_room_set_wet (project,
                            (DryWetZone){.height = INCH (70), .past = INCH (2), .leg = TRUE});
}

static DryProject *
wish_upright_seam (double u, double z)
{
  g_autoptr (DryProject) project = start ("cement-liquid");
  DrySeamWish seam = {.wall = dry_test_wall (project, 'n'), .at = INCH (u), .through = INCH (z)};

  return dry_edit_set_seam (project, dry_test_room (project), &seam, NULL, NULL);
}

static DryProject *
room_seam_off_stud (void)
{
  return wish_upright_seam (37, 60);
}

static DryProject *
room_seam_off_board (void)
{
  return wish_upright_seam (37, 5);
}

/* Rooms told in words: pan or tub, pack, fields. */
static DryProject *
room_told (gboolean pan, const char *pack, const char *words)
{
  DryProject *project = pan ? rule_room_shower (INCH (40), INCH (40)) : start ("foam-bands");

  project = rule_room_set_job (project, change_pack_to, (gpointer) pack);
  return rule_room_set_fields (project, words);
}

#define TOLD(name, pan, pack, words)                                                               \
  static DryProject *name (void)                                                                   \
  {                                                                                                \
    return room_told (pan, pack, words);                                                           \
  }

TOLD (room_odd_board, FALSE, "us-residential", "finish.board=0.7in")
TOLD (room_high_curb, TRUE, "us-residential", "basin.height=10in")
TOLD (room_low_curb, TRUE, "us-residential", "basin.height=1.5in")
TOLD (room_outside, FALSE, "us-residential",
      "wall.n.exterior=1 wall.n.air_barrier=0 wall.n.vapour_barrier=1")
TOLD (room_level_curb, TRUE, "us-residential", "basin.site_built=1")
TOLD (room_flat_liner, TRUE, "us-residential",
      "basin.site_built=1 basin.liner=1 basin.liner_turn_up=1in")
TOLD (room_clamped, TRUE, "us-residential", "basin.site_built=1 basin.clamping_drain=1")
TOLD (room_flat_floor, TRUE, "australia", "basin.floor_slope=0.01")
TOLD (room_steep_floor, TRUE, "us-residential", "basin.floor_slope=0.05")
TOLD (room_no_dam, TRUE, "us-residential", "basin.height=0.5in")
TOLD (room_half_wall, FALSE, "us-residential", "wall.e.height=60in")
TOLD (room_steam, FALSE, "us-residential", "room.steam=1")
TOLD (room_wrong_mortar, FALSE, "us-residential", "finish.tiled=1 finish.mortar_kind=2")
TOLD (room_mortar_gap, FALSE, "us-residential", "finish.basin_gap_mortar=1")
TOLD (room_few_tiles, FALSE, "us-residential", "finish.tiled=1 finish.tiles_ordered=7")
TOLD (room_few_slanted_tiles, FALSE, "us-residential",
      "finish.tiled=1 finish.pattern=3 finish.tiles_ordered=7 finish.tiles_in_box=11")
TOLD (room_hasty, FALSE, "us-residential",
      "finish.tiled=1 finish.tile_width=6in finish.tile_height=6in finish.grouted_after_hours=5 "
      "finish.showered_after_hours=5")
TOLD (room_hasty_large, FALSE, "us-residential",
      "finish.tiled=1 finish.tile_width=12in finish.tile_height=24in finish.grouted_after_hours=5")
TOLD (room_unguarded, FALSE, "germany", "")

static DryProject *
room_screwed_glass (void)
{
  DryPart glass = make_glass (24);

  glass.screwed_down = TRUE;
  return rule_room_add_part (rule_room_shower (INCH (40), INCH (40)), 'e', glass);
}

DryProject *
remedy_room_refusing (void)
{
  return rule_room_add_part (start ("foam-bands"), 'n', make_niche (30, 48, 30));
}

const RemedyCase REMEDY_CASES[] = {
    {"tile.order-enough", "tile-order-straight", room_few_tiles},
    {"tile.order-enough", "tile-order-short", room_few_tiles},
    {"tile.order-enough", "tile-order-diagonal", room_few_slanted_tiles},
    {"order.wait-for-grout", "grout-early", room_hasty},
    {"order.wait-for-grout", "grout-early-large", room_hasty_large},
    {"order.wait-for-grout", "grout-early-system", room_hasty},
    {"order.wait-for-water", "shower-early", room_hasty},
    {"order.wait-for-water", "shower-early-system", room_hasty},
    {"finish.cut-guard", "cut-guard", room_unguarded},
    {"finish.gap-sealant", "gap-mortar-band", room_mortar_gap},
    {"finish.system-mortar", "mortar-kind", room_wrong_mortar},
    {"glass.bond-channel", "track-screwed", room_screwed_glass},
    {"pan.bonding-flange", "clamping-drain", room_clamped},
    {"pan.pitch-curb", "curb-pitch", room_level_curb},
    {"pan.plan-dam", "curbless-dam", room_no_dam},
    {"pan.pre-slope", "pre-slope", room_flat_liner},
    {"pan.slope", "floor-slope-low", room_flat_floor},
    {"pan.slope", "floor-slope-high", room_steep_floor},
    {"pan.turn-up", "liner-turn-up", room_flat_liner},
    {"pan.weeps-open", "weeps-open", room_flat_liner},
    {"pan.wrap-curb", "curb-wrap", room_level_curb},
    {"room.protect-floor", "curbless-floor", room_no_dam},
    {"room.slope-ceiling", "steam-ceiling", room_steam},
    {"wall.pitch-cap", "cap-pitch", room_half_wall},
    {"bar.to-height", "grab-bar-height", room_bar},
    {"basin.close-walls", "opening-too-wide", room_short_tub},
    {"basin.fur-flange", "flange-proud", room_proud_flange},
    {"basin.no-shower", "no-flange", room_no_flange},
    {"basin.open-walls", "opening-too-small", room_long_tub},
    {"bench.fold-down", "bench-crowds", room_low_bench},
    {"bench.to-depth", "bench-depth", room_deep_bench},
    {"bench.to-height", "bench-height", room_low_bench},
    {"finish.flush-board", "lining-step", room_thick_lining},
    {"finish.usual-board", "board-thickness", room_odd_board},
    {"fitting.off-stud", "valve-on-stud", room_valve_on_stud},
    {"glass.door-width", "shower-door-width", room_narrow_door},
    {"glass.safety-glass", "glass-not-safety", room_narrow_door},
    {"head.turn-away", "head-aims-at-entry", room_entry_head},
    {"niche.above-bench", "niche-over-bench", room_niche_over_bench},
    {"niche.raise-into-reach", "niche-height", room_high_niche},
    {"niche.taller", "niche-clear-height", room_low_clear_niche},
    {"niche.to-cavity", "niche-too-deep", room_deep_niche},
    {"niche.to-clear-bay", "niche-cuts-stud", room_niche_on_stud},
    {"niche.to-clear-bay", "niche-misses-bay", room_ready_niche_on_stud},
    {"niche.to-clear-bay", "niche-cuts-bearing-stud", room_bearing_niche},
    {"niche.to-clear-bay", "hidden-in-niche-bay", room_vent_bay},
    {"niche.to-joints", "niche-off-joint", room_niche_off_joints},
    {"niche.to-joints", "niche-off-joint-set", room_niche_near_joints},
    {"opening.line-jamb", "window-wooden", room_window},
    {"opening.safety-glass", "window-not-safety", room_window},
    {"opening.slope-sill", "window-sill-flat", room_window},
    {"pan.curb", "curb-high", room_high_curb},
    {"pan.curb", "curb-low", room_low_curb},
    {"part.pitch", "niche-floor-pitch", room_flat_niche},
    {"seam.let-plan-choose", "wish-off-stud", room_seam_off_stud},
    {"seam.let-plan-choose", "wish-off-board", room_seam_off_board},
    {"seam.to-stud", "wish-off-stud", room_seam_off_stud},
    {"spout.raise", "spout-height", room_low_spout},
    {"tile.free-start", "cut-half", room_narrow_cut},
    {"tile.joint-eighth", "joint-least", room_half_bond},
    {"tile.joint-eighth", "joint-running-bond", room_half_bond},
    {"tile.offset-third", "offset-pattern", room_half_bond},
    {"valve.to-reach", "valve-height", room_high_valve},
    {"valve.to-reach", "tub-valve-height", room_high_tub_valve},
    {"wall.air-barrier", "air-barrier", room_outside},
    {"wall.closer-studs", "stud-spacing", room_wide_studs},
    {"wall.closer-studs", "stud-spacing", room_found_studs},
    {"wall.remove-vapour-barrier", "two-barriers", room_outside},
    {"wet.leg", "no-leg", room_no_leg},
    {"wet.no-ceiling", "ceiling-framing", room_tiled_ceiling},
    {"wet.past-2in", "wet-past", room_short_past},
    {"wet.to-ceiling", "head-above-wet-wall", room_low_wet},
    {"wet.to-height", "wet-wall-height", room_low_wet},
};
const guint REMEDY_N_CASES = G_N_ELEMENTS (REMEDY_CASES);
