/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The tile as it is laid: every tile's outline in one light line, so that cuts show as what they
 * are. Knows the layout of the plan; chooses nothing. */
#include "draw/drawing-private.h"

/* A layout denser than this cannot be told apart on any screen or paper. */
#define PIECES_MOST 30000
/* Narrower cuts have no room for a number. */
#define NUMBERED (5 * DRY_INCH / 4)

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

/* Joints in the field that take sealant. */
static void
draw_breaks (DrySceneBuilder *b, const DryTileFace *tiled)
{
  DryLook look = {.stroke = DRY_INK_TILE, .pen = DRY_PEN_050, .dash = DRY_DASH_DASHED};

  for (guint i = 0; i < tiled->n_breaks; i++)
    dry_scene_builder_line (b, look, tiled->breaks[i].from, tiled->breaks[i].to);
}

static void
write_cut (DrySceneBuilder *b, DryPoint at, DryAnchor anchor, DryLength cut, DryLength whole)
{
  DryLettering how = {.size = 1.8, .ink = DRY_INK_TEXT, .anchor = anchor, .ground = TRUE};

  if (cut > 0 && cut < whole)
    dry_scene_builder_text (b, at, how, "%s", dry_scene_builder_length (b, cut));
}

/* The level line and the upright one the layout starts from, and the narrowest cut at each edge. */
static void
draw_datum (DrySceneBuilder *b, const DryPlan *plan, const DryTileFace *tiled)
{
  const DryTiling *tiling = plan->tiling;
  DryRect r = dry_region_bounds (&tiled->region);
  DryLook look = {.stroke = DRY_INK_TILE, .pen = DRY_PEN_025, .dash = DRY_DASH_CHAIN};
  DryPoint middle = dry_rect_centre (r);
  DryLength u = tiled->datum.x, z = tiled->datum.y;
  DryLength pitch = tiling->width + tiling->joint;
  /* Below the middle, where the boards have their names. */
  DryLength low = MAX (r.y0, z) + dry_rect_height (r) / 8;

  /* Any whole tile's edge is as good: the one nearest the middle is easiest to mark. */
  u += (middle.x - u) / pitch * pitch;
  if (u > r.x0 && u < r.x1)
    dry_scene_builder_line (b, look, (DryPoint){u, r.y0}, (DryPoint){u, r.y1});
  if (z > r.y0 && z < r.y1)
    dry_scene_builder_line (b, look, (DryPoint){r.x0, z}, (DryPoint){r.x1, z});
  write_cut (b, (DryPoint){r.x0, low}, DRY_ANCHOR_LEFT, tiled->left_cut, tiling->width);
  write_cut (b, (DryPoint){r.x1, low}, DRY_ANCHOR_RIGHT, tiled->right_cut, tiling->width);
  write_cut (b, (DryPoint){middle.x, r.y1}, DRY_ANCHOR_BELOW, tiled->top_cut, tiling->height);
  write_cut (b, (DryPoint){middle.x, MAX (r.y0, z)}, DRY_ANCHOR_ABOVE, tiled->bottom_cut,
             tiling->height);
}

/* A number on every cut, as in the list of cuts; strips too narrow for one go without. */
static void
draw_numbers (DrySceneBuilder *b, const DryTileFace *tiled)
{
  DryLettering how = {.size = 1.6, .ink = DRY_INK_TEXT, .ground = TRUE};

  dry_scene_builder_tag (b, DRY_LAYER_CUTS, DRY_SHOWS_NOTHING, 0, -1);
  for (guint i = 0; i < tiled->n_pieces; i++) {
    const DryTilePiece *piece = &tiled->pieces[i];

    how.room = dry_rect_width (piece->bounds);
    if (piece->kind >= 0 && MIN (how.room, dry_rect_height (piece->bounds)) >= NUMBERED)
      dry_scene_builder_text (b, dry_rect_centre (piece->bounds), how, "%d", piece->kind + 1);
  }
}

void
dry_draw_elevation_tile (DrySceneBuilder *b, const DryPlan *plan, const DryFace *face,
                         gboolean full)
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
  draw_breaks (b, tiled);
  if (full && face->kind == DRY_FACE_WALL)
    draw_datum (b, plan, tiled);
  draw_numbers (b, tiled);
  g_array_unref (outlines.points);
  g_array_unref (outlines.ends);
}
