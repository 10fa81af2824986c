/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Take-off lines of a floor made on site: mortar, liner or membrane, its tile with mortar and
 * grout. The tile is not chosen yet: small mosaic is taken, and said; prices are the price book's.
 */
#include "plan/amounts.h"
#include "plan/takeoff-private.h"

/* A bag of 80 lb of sand and cement mixed gives 0.66 ft3; from memory, to be verified. */
#define BAG_LITRES (0.66 * 28.316846592)

/* Tile with its joints that a floor sloped from all sides takes: 2 x 2 in on sheets, 1/4 in thick,
 * 1/8 in joints. Common practice, no source; so are the shares cut away. */
#define CHIP       (2 * DRY_INCH)
#define CHIP_DEPTH (DRY_INCH / 4)
#define CHIP_JOINT (DRY_INCH / 8)
#define TILE_MORE  0.10
#define SHEET_MORE 0.10
#define FT2_SHEET  DRY_M2_PER_FT2

static const DrySource practice = {"common practice, no source", DRY_CERTAINTY_COMMON_PRACTICE};

static void
add_bed (DryTakeoffDraft *self)
{
  const DryFloor *floor = self->floor;
  DryArena *arena = self->context->arena;

  dry_takeoff_add (
      self,
      (DryTakeoffLine){
          .id = "floor-mortar",
          .group = "floor",
          .name = "Dry mix of cement and sand for the floor",
          .amount = floor->volume,
          .unit = "L",
          .pack = BAG_LITRES,
          .pack_name = "bag of 80 lb",
          .working = dry_working_new (
              arena,
              (DrySource){"80 lb give about 0.66 ft3 (18.7 L), from memory", DRY_CERTAINTY_MEMORY},
              dry_arena_printf (arena, "%s; / %s L a bag = %s", floor->volume_working.formula,
                                dry_takeoff_number (self, BAG_LITRES, 1),
                                dry_takeoff_number (self, floor->volume / BAG_LITRES, 2)),
              "floor", floor->area_working.formula, "fall", floor->fall_working.formula,
              "depth at the drain", dry_context_length (self->context, floor->drain_depth),
              "depth along the rim", dry_context_length (self->context, floor->rim_depth),
              "weight in place", floor->mass_working.formula, NULL)});
}

static void
add_sheet (DryTakeoffDraft *self)
{
  const DryFloor *floor = self->floor;
  DryArena *arena = self->context->arena;
  double amount = floor->sheet_area * (1 + SHEET_MORE);

  dry_takeoff_add (
      self,
      (DryTakeoffLine){.id = floor->liner ? "floor-liner" : "floor-membrane",
                       .group = "floor",
                       .name = floor->liner ? "Shower liner, sheet" : "Membrane for the floor",
                       .amount = amount,
                       .unit = "m2",
                       .pack = FT2_SHEET,
                       .pack_name = "ft2",
                       .working = dry_working_new (
                           arena, practice,
                           dry_arena_printf (arena, "%s m2 + %s %% for folds and laps = %s m2",
                                             dry_takeoff_number (self, floor->sheet_area, 2),
                                             dry_takeoff_number (self, SHEET_MORE * 100, 0),
                                             dry_takeoff_number (self, amount, 2)),
                           "area", floor->sheet_working.formula, NULL)});
}

static void
add_floor_tile (DryTakeoffDraft *self)
{
  DryArena *arena = self->context->arena;
  double area = self->floor->area, amount = area * (1 + TILE_MORE);

  dry_takeoff_add (
      self, (DryTakeoffLine){.id = "floor-tile",
                             .group = "floor",
                             .name = "Floor tile, mosaic 2\" x 2\"",
                             .amount = amount,
                             .unit = "m2",
                             .pack = FT2_SHEET,
                             .pack_name = "sheet of 1 ft2",
                             .working = dry_working_new (
                                 arena, practice,
                                 dry_arena_printf (arena, "%s m2 + %s %% = %s m2",
                                                   dry_takeoff_number (self, area, 2),
                                                   dry_takeoff_number (self, TILE_MORE * 100, 0),
                                                   dry_takeoff_number (self, amount, 2)),
                                 "floor", self->floor->area_working.formula, "tile",
                                 "not chosen: small mosaic follows a slope from all sides", NULL)});
}

static void
add_setting (DryTakeoffDraft *self)
{
  DryArena *arena = self->context->arena;
  const DryTrowel *trowel = dry_trowel_for_tile (CHIP);
  double area = self->floor->area, rate = dry_trowel_mass (trowel);

  dry_takeoff_add_tile_mortar (
      self,
      (DryTakeoffLine){.id = "floor-tile-mortar",
                       .group = "floor",
                       .name = "Tile mortar for the floor",
                       .working = dry_working_new (
                           arena,
                           (DrySource){"coverage of a 50 lb bag as how-to pages print it",
                                       DRY_CERTAINTY_SECONDARY},
                           dry_arena_printf (arena, "%s m2 x %s kg/m2 = %s kg",
                                             dry_takeoff_number (self, area, 2),
                                             dry_takeoff_number (self, rate, 2),
                                             dry_takeoff_number (self, area * rate, 1)),
                           "trowel", trowel->name, NULL)},
      area * rate);
}

static void
add_floor_grout (DryTakeoffDraft *self)
{
  DryArena *arena = self->context->arena;
  double litres = dry_grout_volume_short (CHIP, CHIP, CHIP_JOINT, CHIP_DEPTH);
  double mass = self->floor->area * litres * DRY_GROUT_DENSITY;

  dry_takeoff_add_grout (
      self,
      (DryTakeoffLine){.id = "floor-grout",
                       .group = "floor",
                       .name = "Grout for the floor",
                       .working = dry_working_new (
                           arena,
                           (DrySource){"widely printed grout formula; density from memory",
                                       DRY_CERTAINTY_SECONDARY},
                           dry_arena_printf (arena, "%s m2 x %s L/m2 x %s kg/L = %s kg",
                                             dry_takeoff_number (self, self->floor->area, 2),
                                             dry_takeoff_number (self, litres, 3),
                                             dry_takeoff_number (self, DRY_GROUT_DENSITY, 2),
                                             dry_takeoff_number (self, mass, 2)),
                           "tile", "2 x 2 in, 1/4 in thick, 1/8 in joints", NULL)},
      mass);
}

void
dry_takeoff_add_floor (DryTakeoffDraft *self)
{
  if (!self->floor || !self->floor->built)
    return;
  add_bed (self);
  add_sheet (self);
  if (!self->context->room->finish.tiled)
    return;
  add_floor_tile (self);
  add_setting (self);
  add_floor_grout (self);
}
