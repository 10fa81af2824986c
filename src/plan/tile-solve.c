/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Where along one axis the tile starts, so that its cuts at the edges come out best.
 * Knows lengths only: no walls, no patterns beyond the shift of every other course. */
#include "plan/tile-private.h"

DryLength
dry_tile_cut_at (DryTileEdge edge, DryLength datum, DryLength size, DryLength joint)
{
  DryLength phase = dry_tile_rest (edge.at - datum, size + joint);

  /* The edge may fall into a joint: then the tile beside it is whole. */
  if (edge.low)
    return phase < size ? size - phase : size;
  return phase == 0 || phase > size ? size : phase;
}

DryTileAxis
dry_tile_judge_axis (const DryTileEdge *edges, guint n, const DryLength *shifts, guint n_shifts,
                     DryLength datum, DryLength size, DryLength joint)
{
  DryTileAxis axis = {.smallest = size};

  for (guint i = 0; i < n; i++)
    for (guint s = 0; s < n_shifts; s++) {
      DryLength cut = dry_tile_cut_at (edges[i], datum + shifts[s], size, joint);

      axis.smallest = MIN (axis.smallest, cut);
      axis.n_cut += cut < size;
    }
  return axis;
}

gint
dry_tile_compare_axes (DryTileAxis a, DryTileAxis b, DryLength size)
{
  gboolean half_a = 2 * a.smallest >= size, half_b = 2 * b.smallest >= size;

  if (half_a != half_b)
    return half_a ? -1 : 1;
  if (a.smallest != b.smallest)
    return a.smallest > b.smallest ? -1 : 1;
  return (a.n_cut > b.n_cut) - (a.n_cut < b.n_cut);
}

typedef struct {
  const DryTileEdge *edges;
  guint n;
  const DryLength *shifts;
  guint n_shifts;
  DryLength size, joint;
  DryTileAxis best;
  DryLength datum;
  gboolean any;
} Search;

static void
try_datum (Search *self, DryLength datum)
{
  DryTileAxis axis;
  gint order;

  datum = dry_tile_rest (datum, self->size + self->joint);
  axis = dry_tile_judge_axis (self->edges, self->n, self->shifts, self->n_shifts, datum, self->size,
                              self->joint);
  order = self->any ? dry_tile_compare_axes (axis, self->best, self->size) : -1;
  if (order > 0 || (order == 0 && datum >= self->datum))
    return;
  self->best = axis;
  self->datum = datum;
  self->any = TRUE;
}

/* The narrowest cut rises and falls in straight lines as the datum moves: it is greatest where a
 * tile comes out whole at some edge, or where a rising cut meets a falling one. Those are tried. */
DryLength
dry_tile_solve_axis (const DryTileEdge *edges, guint n, const DryLength *shifts, guint n_shifts,
                     DryLength size, DryLength joint)
{
  Search search = {edges, n, shifts, n_shifts, size, joint, .datum = 0};
  DryLength pitch = size + joint;

  if (n == 0)
    return 0;
  for (guint i = 0; i < n; i++)
    for (guint s = 0; s < n_shifts; s++) {
      try_datum (&search, edges[i].at - shifts[s]);
      try_datum (&search, edges[i].at - shifts[s] - size);
      for (guint k = 0; edges[i].low && k < n; k++)
        for (guint r = 0; !edges[k].low && r < n_shifts; r++) {
          DryLength twice = edges[i].at - shifts[s] + edges[k].at - shifts[r] - size;

          try_datum (&search, twice / 2);
          try_datum (&search, (twice + pitch) / 2);
        }
    }
  return search.datum;
}
