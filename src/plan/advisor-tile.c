/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The advisor's view of the tile: the joints on a face as lines a niche's edges may stand on. The
 * layout itself is the tile stage's. */
#include "plan/advisor-private.h"

DryLength
dry_advice_off_line (const DryLength *lines, guint n, DryLength at)
{
  guint lo = 0, hi = n;
  DryLength off = G_MAXINT64;

  while (lo < hi) {
    guint middle = (lo + hi) / 2;
    if (lines[middle] < at)
      lo = middle + 1;
    else
      hi = middle;
  }
  if (lo < n)
    off = lines[lo] - at;
  if (lo > 0)
    off = MIN (off, at - lines[lo - 1]);
  return off;
}

DryAdviceLines
dry_advice_lines (const DryAdviceSite *site, DryArena *arena, const DryFace *face, DryPoint datum,
                  DryLength joint)
{
  return (DryAdviceLines){0};
}
