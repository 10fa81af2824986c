/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Stage 7, coating: areas, coats and film; band, mesh and sealant; mortar under bands and tile.
 * Input: faces, joints, fasteners. Output: amounts in each product's unit, before packs, with
 * workings. */
#pragma once

#include "plan/fasteners.h"
#include "plan/joints.h"

/* The one product id that the code itself knows: what the tile is set in. The take-off reckons it
 * from the tile; the coating leaves it alone. */
#define DRY_TILE_MORTAR_ID "tile-mortar"

typedef struct {
  const DryProduct *product;
  double amount;       /* in product->unit */
  const char *purpose; /* "seams and corners", "two coats on all board" */
  DryWorking working;
} DryAmount;

typedef struct {
  double wet_area;   /* m2 of wet wall, net of openings */
  double board_area; /* m2 of board hung */
  DryAmount *items;
  guint n;
} DryCoating;

const DryCoating *dry_coating_compute (const DryPlanContext *context, const DryFaces *faces,
                                       const DryBoards *boards, const DryFasteners *fasteners,
                                       const DryJoints *joints, GError **error);
