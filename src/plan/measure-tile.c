/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Measures of the tile as laid on each wall: cuts at its edges, what another start would give, and
 * the stretch between movement joints. Reads the tile stage; knows no limit. */
#include "plan/measure-build.h"

static const char *
side_of_cut (const DryTileFace *tiled)
{
  if (tiled->smallest == tiled->bottom_cut)
    return "the bottom";
  if (tiled->smallest == tiled->top_cut)
    return "the top";
  return tiled->smallest == tiled->left_cut ? "the left end" : "the right end";
}

static void
measure_cuts (DryMeasuring *self, const DryTiling *tiling, const DryTileFace *tiled)
{
  if (tiled->smallest > 0)
    dry_measuring_length (self, "smallest-cut", tiled->smallest, "at %s; a tile is %s x %s",
                          side_of_cut (tiled), dry_measuring_text (self, tiling->width),
                          dry_measuring_text (self, tiling->height));
  dry_measuring_number (self, "smallest-share", tiled->smallest_share * 100, "%",
                        "narrowest cut at an outer edge against the tile's same side");
  dry_measuring_number (self, "best-share", tiled->best_share * 100, "%",
                        "with the best level line and start for a joint of %s",
                        dry_measuring_text (self, tiling->joint));
}

static void
measure_layout (DryMeasuring *self, const DryTiling *tiling, const DryTileFace *tiled)
{
  const DryFace *face = &self->plan->faces->items[tiled->face];

  dry_measuring_begin (self, "layout", face->wall, (gint) face->index,
                       dry_region_bounds (&tiled->region), face->name);
  /* Slanted tile has no edge it could be balanced at. */
  if (tiled->n_upright + tiled->n_level > 0)
    measure_cuts (self, tiling, tiled);
  dry_measuring_length (self, "run", tiled->run, "tiled %s wide, %u movement joint%s marked in it",
                        dry_measuring_text (self, tiled->span), tiled->n_breaks,
                        tiled->n_breaks == 1 ? "" : "s");
  dry_measuring_end (self);
}

void
dry_measure_tile (DryMeasuring *self)
{
  const DryTiling *tiling = self->plan->tiling;

  for (guint i = 0; i < tiling->n_faces; i++)
    if (self->plan->faces->items[tiling->faces[i].face].kind == DRY_FACE_WALL)
      measure_layout (self, tiling, &tiling->faces[i]);
}
