/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A niche by itself, as a crew builds it: its framing from the floor up, the boards round its
 * opening, the tile round its edge. Everything is read from the plan; nothing is chosen here. */
#include "draw/drawing-private.h"

#define AROUND (9 * DRY_INCH)

typedef struct {
  DrySceneBuilder *b;
  const DryPlan *plan;
  const DryFace *face;
  const DryCutout *cut;
  DryRect window;
} Detail;

static gboolean
find_cutout (const DryPlan *plan, DryId part, Detail *out)
{
  for (guint i = 0; i < plan->faces->n; i++) {
    const DryFace *face = &plan->faces->items[i];

    for (guint c = 0; face->kind == DRY_FACE_WALL && c < face->n_cutouts; c++)
      if (face->cutouts[c].kind == DRY_CUT_NICHE && face->cutouts[c].object == part) {
        out->face = face;
        out->cut = &face->cutouts[c];
        return TRUE;
      }
  }
  return FALSE;
}

/* --- what of a shape the window shows --- */

static void
draw_clipped (const Detail *self, DryLook look, const DryPoint *points, guint n)
{
  DryArena *arena = self->b->arena;
  DryRegion shape = dry_region_from_ring (arena, points, n);
  DryRegion window = dry_region_from_rect (arena, self->window);
  DryRegion seen = dry_region_intersection (arena, &shape, &window);

  for (guint i = 0; i < seen.n_polygons; i++)
    dry_scene_builder_polygon (self->b, look, &seen.polygons[i]);
}

/* --- framing --- */

static void
draw_members (const Detail *self)
{
  DryLook found = {.stroke = DRY_INK_WOOD, .pen = DRY_PEN_018, .fill = DRY_INK_WOOD, .alpha = 0.06};
  DryLook added = {.stroke = DRY_INK_WOOD, .pen = DRY_PEN_035, .fill = DRY_INK_WOOD, .alpha = 0.22};
  const DryFraming *framing = self->plan->framing;

  dry_scene_builder_tag (self->b, DRY_LAYER_STUDS, DRY_SHOWS_NOTHING, 0, -1);
  for (guint i = 0; i < framing->n; i++) {
    const DryMember *member = &framing->items[i];
    DryRect seen = dry_rect_intersect (member->rect, self->window);

    if (member->face == self->face->index && !dry_rect_is_empty (seen))
      dry_scene_builder_rect (self->b, member->added ? added : found, seen);
  }
}

void
dry_drawing_niche_studs (const DryPlan *plan, const DryFace *face, const DryCutout *cut,
                         DryLength *left, DryLength *right)
{
  const DryRect *rough = &cut->rough;
  DryLength middle = (rough->y0 + rough->y1) / 2;

  *left = 0;
  *right = face->length;
  for (guint i = 0; i < plan->framing->n; i++) {
    const DryMember *member = &plan->framing->items[i];
    gboolean upright = dry_rect_height (member->rect) > dry_rect_width (member->rect);

    if (member->face != face->index || !upright || member->rect.y0 > middle ||
        member->rect.y1 < middle)
      continue;
    if (member->rect.x1 <= rough->x0)
      *left = MAX (*left, member->rect.x1);
    if (member->rect.x0 >= rough->x1)
      *right = MIN (*right, member->rect.x0);
  }
}

static void
draw_opening (const Detail *self, gboolean finish)
{
  DryLook rough = {.stroke = DRY_INK_LINE, .pen = DRY_PEN_070};
  DryLook line = {.stroke = DRY_INK_LINE, .pen = DRY_PEN_025, .dash = DRY_DASH_DASHED};

  dry_scene_builder_tag (self->b, DRY_LAYER_PARTS, DRY_SHOWS_PART, self->cut->object, -1);
  dry_scene_builder_rect (self->b, rough, self->cut->rough);
  if (finish)
    dry_scene_builder_rect (self->b, line, self->cut->finish);
}

static void
dimension_opening (const Detail *self, DryRect opening)
{
  DryRect w = self->window;

  dry_scene_builder_tag (self->b, DRY_LAYER_DIMENSIONS, DRY_SHOWS_NOTHING, 0, -1);
  dry_scene_builder_dimension (self->b, (DryPoint){opening.x0, w.y1}, (DryPoint){opening.x1, w.y1},
                               DRY_TOWARD_UP, 0);
  dry_scene_builder_dimension (self->b, (DryPoint){w.x1, opening.y0}, (DryPoint){w.x1, opening.y1},
                               DRY_TOWARD_RIGHT, 0);
}

static void
draw_framing (Detail *self)
{
  DryLook floor = {.stroke = DRY_INK_LINE, .pen = DRY_PEN_050};
  DryRect rough = self->cut->rough;
  DryLength left, right;

  dry_drawing_niche_studs (self->plan, self->face, self->cut, &left, &right);
  self->window.x0 = MAX (MIN (self->window.x0, left - 3 * DRY_INCH), 0);
  self->window.x1 = MIN (MAX (self->window.x1, right + 3 * DRY_INCH), self->face->length);
  self->window.y0 = 0;
  draw_members (self);
  dry_scene_builder_tag (self->b, DRY_LAYER_ROOM, DRY_SHOWS_NOTHING, 0, -1);
  dry_scene_builder_line (self->b, floor, (DryPoint){self->window.x0, 0},
                          (DryPoint){self->window.x1, 0});
  draw_opening (self, TRUE);
  dry_scene_builder_tag (self->b, DRY_LAYER_DIMENSIONS, DRY_SHOWS_NOTHING, 0, -1);
  dry_scene_builder_dimension (self->b, (DryPoint){rough.x0, self->window.y1},
                               (DryPoint){rough.x1, self->window.y1}, DRY_TOWARD_UP, 0);
  /* A corner out of the picture: its dimension would run off the page; the page says it in words.
   */
  if (self->window.x0 == 0)
    dry_scene_builder_dimension (self->b, (DryPoint){0, self->window.y1},
                                 (DryPoint){rough.x0, self->window.y1}, DRY_TOWARD_UP, 1);
  dry_scene_builder_dimension (self->b, (DryPoint){self->window.x0, 0},
                               (DryPoint){self->window.x0, rough.y0}, DRY_TOWARD_LEFT, 0);
  dry_scene_builder_dimension (self->b, (DryPoint){self->window.x0, rough.y0},
                               (DryPoint){self->window.x0, rough.y1}, DRY_TOWARD_LEFT, 0);
  /* From the studs' faces, where there is more than a gap to be shimmed. */
  if (rough.x0 - left > DRY_INCH)
    dry_scene_builder_dimension (self->b, (DryPoint){left, 0}, (DryPoint){rough.x0, 0},
                                 DRY_TOWARD_DOWN, 0);
  if (right - rough.x1 > DRY_INCH)
    dry_scene_builder_dimension (self->b, (DryPoint){rough.x1, 0}, (DryPoint){right, 0},
                                 DRY_TOWARD_DOWN, 0);
}

/* --- boards --- */

static void
draw_boards (const Detail *self)
{
  DryLook board = {
      .stroke = DRY_INK_BOARD, .pen = DRY_PEN_035, .fill = DRY_INK_BOARD, .alpha = 0.10};

  for (guint i = 0; i < self->plan->boards->n; i++) {
    const DryBoard *it = &self->plan->boards->items[i];
    DryRect seen = dry_rect_intersect (it->bounds, self->window);

    if (it->face != self->face->index || dry_rect_is_empty (seen))
      continue;
    dry_scene_builder_tag (self->b, DRY_LAYER_BOARDS, DRY_SHOWS_BOARD, 0, (gint) i);
    {
      DryRegion whole = {.polygons = (DryPolygon *) &it->shape, .n_polygons = 1};
      DryRegion window = dry_region_from_rect (self->b->arena, self->window);
      DryRegion part = dry_region_intersection (self->b->arena, &whole, &window);
      DryLettering how = {.size = 2.5, .bold = TRUE, .ground = TRUE};

      for (guint p = 0; p < part.n_polygons; p++)
        dry_scene_builder_polygon (self->b, board, &part.polygons[p]);
      /* Its name in its lower left corner within the window, clear of the opening. */
      how.anchor = DRY_ANCHOR_LEFT;
      dry_scene_builder_text (self->b, (DryPoint){seen.x0 + DRY_INCH, seen.y0 + 2 * DRY_INCH}, how,
                              "%s", it->mark);
    }
  }
  draw_opening (self, TRUE);
  dimension_opening (self, self->cut->rough);
}

/* --- tile --- */

static void
draw_tile (const Detail *self)
{
  const DryTileFace *tiled = dry_tiling_get_face (self->plan->tiling, self->face->index);
  DryLook whole = {.stroke = DRY_INK_TILE, .pen = DRY_PEN_018};
  DryLook cut = {.stroke = DRY_INK_TILE, .pen = DRY_PEN_018, .fill = DRY_INK_TILE, .alpha = 0.16};
  DryLook edge = {.stroke = DRY_INK_LINE, .pen = DRY_PEN_050};

  dry_scene_builder_tag (self->b, DRY_LAYER_TILE, DRY_SHOWS_NOTHING, 0, -1);
  for (guint i = 0; tiled && i < tiled->n_pieces; i++) {
    const DryTilePiece *piece = &tiled->pieces[i];
    const DryRect *r = &piece->bounds;
    const DryPoint corners[] = {{r->x0, r->y0}, {r->x1, r->y0}, {r->x1, r->y1}, {r->x0, r->y1}};
    DryRect seen = dry_rect_intersect (*r, self->window);

    if (dry_rect_is_empty (seen))
      continue;
    draw_clipped (self, piece->cut == DRY_TILE_WHOLE ? whole : cut,
                  piece->points ? piece->points : corners, piece->points ? piece->n_points : 4);
    if (piece->cut != DRY_TILE_WHOLE && dry_rect_width (seen) > DRY_INCH &&
        dry_rect_height (seen) > DRY_INCH)
      dry_scene_builder_text (self->b, dry_rect_centre (seen),
                              (DryLettering){.size = 1.6, .ink = DRY_INK_TEXT, .ground = TRUE},
                              "%d", piece->kind + 1);
  }
  dry_scene_builder_tag (self->b, DRY_LAYER_PARTS, DRY_SHOWS_PART, self->cut->object, -1);
  dry_scene_builder_rect (self->b, edge, self->cut->finish);
  dimension_opening (self, self->cut->finish);
}

DryScene *
dry_drawing_niche (const DryPlan *plan, DryId part, DryNicheView view)
{
  static const char *const names[] = {"Framing", "Boards", "Tile"};
  DrySceneBuilder b;
  Detail detail = {.b = &b, .plan = plan};

  dry_scene_builder_init (&b, plan->context.job);
  if (find_cutout (plan, part, &detail)) {
    DryRect reach = {0, 0, detail.face->length, detail.face->height};

    detail.window = dry_rect_intersect (dry_rect_inflate (detail.cut->rough, AROUND), reach);
    dry_scene_builder_begin_view (&b, DRY_VIEW_FACE, (gint) detail.face->index, (DryPoint){0, 0},
                                  names[view]);
    if (view == DRY_NICHE_FRAMING)
      draw_framing (&detail);
    else if (view == DRY_NICHE_BOARDS)
      draw_boards (&detail);
    else
      draw_tile (&detail);
    dry_scene_builder_end_view (&b);
  }
  return dry_scene_builder_finish (&b);
}
