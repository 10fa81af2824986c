/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Stage 8, take-off: what to buy, amounts summed per product and rounded up to packs, each with its
 * working. Prices are the catalogue's invented samples; a missing price is a gap, never a zero. */
#pragma once

#include "base/json.h"
#include "plan/coating.h"
#include "plan/floor.h"
#include "plan/tile.h"

typedef struct {
  const char *id;    /* product id, sheet id, "on-hand-1", "lumber", "tile" */
  const char *group; /* "sheets", "on-hand", "fasteners", "joints", "membrane", "framing", "tile",
                        "floor" */
  const char *name;
  double amount; /* in unit */
  const char *unit;
  double pack; /* amount in a pack */
  const char *pack_name;
  gint64 packs;     /* rounded up */
  gint64 price;     /* of a pack, minor units; 0 = no price */
  gint64 cost;      /* packs x price; 0 when no price */
  gboolean on_hand; /* the job has it: nothing to buy, no price */
  DryWorking working;
} DryTakeoffLine;

typedef struct {
  DryTakeoffLine *lines;
  guint n;
  gint64 cost; /* sum of the priced lines */
  guint n_unpriced;
  double mass; /* kg of board, or of the mortar bed where the wall is floated */
} DryTakeoff;

/* `tiling` may be NULL or without pieces: tile is then reckoned from the area alone. `floor` may be
 * NULL: none is made on site. */
const DryTakeoff *dry_takeoff_compute (const DryPlanContext *context, const DryFaces *faces,
                                       const DryFraming *framing, const DryBoards *boards,
                                       const DryFasteners *fasteners, const DryJoints *joints,
                                       const DryCoating *coating, const DryTiling *tiling,
                                       const DryFloor *floor, GError **error);

/* A line as one JSON object into an open array. Price and cost are left out where there is none. */
void dry_takeoff_line_write_json (const DryTakeoffLine *self, DryJsonWriter *writer);
