/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Parts a person can drag from the shelf: basins, niches, fittings, benches, glass, tiles.
 * Each is a ready value of the document with a name; read from data/items. Immutable. */
#pragma once

#include "base/working.h"
#include "project/room.h"

typedef enum {
  DRY_ITEM_BASIN,   /* basin holds the value */
  DRY_ITEM_PART,    /* part holds the value (id, wall, u are 0) */
  DRY_ITEM_OPENING, /* opening */
  DRY_ITEM_TILE,    /* tile_width ... */
} DryItemKind;

typedef struct {
  const char *id, *name;
  const char *group; /* shelf group: "basins", "niches", "fittings", "seats-and-bars", "glass",
                        "openings", "in-the-wall", "tiles" */
  DryItemKind kind;
  DryBasin basin;
  DryPart part;
  DryOpening opening;
  DryLength tile_width, tile_height, tile_thickness;
  DryLength joint;
  double tile_mass; /* kg/m2 */
  /* How tile is packed; 0: not known. Chips set on a mesh are sold as sheets: a box then holds
   * sheets. */
  guint sheet_across, sheet_up; /* chips in a row and in a column of a sheet; 0: loose tiles */
  guint box;                    /* tiles or sheets in one */
  double breakage;              /* per cent bought over for breakage and repairs */
  DrySource packing_source;     /* of these; all NULL without any */
  DrySource source;             /* of the sizes */
} DryItem;

/* `now` with this tile instead: its sizes and joint, laid; box, sheet and spares that were set for
 * the tile before are forgotten. The id is borrowed from the item. */
DryFinish dry_item_lay_tile (const DryItem *self, const DryFinish *now);
