/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The advisor's view of the tile: the joints on a face as lines a niche's edges may stand on. The
 * layout itself is the tile stage's. */
#include "plan/advisor-private.h"

guint
dry_advice_first_from (const DryLength *values, guint n, DryLength least)
{
  guint lo = 0, hi = n;

  while (lo < hi) {
    guint middle = (lo + hi) / 2;
    if (values[middle] < least)
      lo = middle + 1;
    else
      hi = middle;
  }
  return lo;
}

DryAdviceLines
dry_advice_lines (const DryAdviceSite *site, DryArena *arena, const DryFace *face, DryPoint shift,
                  DryLength joint)
{
  const DryTiling *tiling = site->plan->tiling;
  const DryTileFace *tiled = dry_tiling_get_face (tiling, face->index);
  DryAdviceLines lines = {0};
  GArray *upright, *level;

  if (!tiled)
    return lines;
  if (shift.x == 0 && shift.y == 0 && (joint == 0 || joint == tiling->joint))
    return (DryAdviceLines){tiled->upright, tiled->level, tiled->n_upright, tiled->n_level};
  upright = g_array_new (FALSE, FALSE, sizeof (DryLength));
  level = g_array_new (FALSE, FALSE, sizeof (DryLength));
  dry_tile_list_lines (&site->plan->context, face,
                       (DryPoint){tiled->datum.x + shift.x, tiled->datum.y + shift.y},
                       joint ? joint : tiling->joint, upright, level);
  lines.n_upright = upright->len;
  lines.n_level = level->len;
  lines.upright = dry_arena_take_array (arena, upright);
  lines.level = dry_arena_take_array (arena, level);
  return lines;
}
