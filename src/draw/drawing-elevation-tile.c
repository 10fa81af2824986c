/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The tile as it is laid: every tile's outline in one light line, so that cuts show as what they
 * are. Knows the layout of the plan; chooses nothing. */
#include "draw/drawing-private.h"

/* A layout denser than this cannot be told apart on any screen or paper. */
#define PIECES_MOST 30000

typedef struct {
  GArray *points; /* DryPoint */
  GArray *ends;   /* guint */
} Outlines;

static void
add_outline (Outlines *self, const DryTilePiece *piece)
{
  const DryRect *r = &piece->bounds;
  const DryPoint corners[] = {{r->x0, r->y0}, {r->x1, r->y0}, {r->x1, r->y1}, {r->x0, r->y1}};
  guint end;

  if (piece->points != NULL)
    g_array_append_vals (self->points, piece->points, piece->n_points);
  else
    g_array_append_vals (self->points, corners, 4);
  end = self->points->len;
  g_array_append_val (self->ends, end);
}

void
dry_draw_elevation_tile (DrySceneBuilder *b, const DryPlan *plan, const DryFace *face)
{
  const DryTileFace *tiled = dry_tiling_get_face (plan->tiling, face->index);
  DryLook look = DRY_LOOK_LINE (DRY_INK_TILE, DRY_PEN_013);
  Outlines outlines;

  if (tiled == NULL || tiled->n_pieces == 0 || tiled->n_pieces > PIECES_MOST)
    return;
  outlines.points = g_array_sized_new (FALSE, FALSE, sizeof (DryPoint), tiled->n_pieces * 4);
  outlines.ends = g_array_sized_new (FALSE, FALSE, sizeof (guint), tiled->n_pieces);
  for (guint i = 0; i < tiled->n_pieces; i++)
    add_outline (&outlines, &tiled->pieces[i]);
  dry_scene_builder_tag (b, DRY_LAYER_TILE, DRY_SHOWS_NOTHING, 0, -1);
  dry_scene_builder_rings (b, look, (const DryPoint *) outlines.points->data, outlines.points->len,
                           (const guint *) outlines.ends->data, outlines.ends->len, TRUE);
  g_array_unref (outlines.points);
  g_array_unref (outlines.ends);
}
