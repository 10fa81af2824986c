/* SPDX-License-Identifier: GPL-3.0-or-later */
/* One side of one wall in the room's picture: paint, tile with its joints, windows and doors,
 * niches as deep as they are, fittings. Fittings are the elevation's, in the picture's materials.
 */
#include "draw/drawing-room.h"

#include <math.h>

/* --- tile --- */

typedef struct {
  GArray *points; /* DryPoint */
  GArray *ends;   /* guint */
} Rings;

static void
add_ring (DryRoomPicture *self, const DrySurface *s, const DryPoint *points, guint n, Rings *rings)
{
  g_autofree DrySpot *spots = g_new (DrySpot, n);
  g_autofree DryPoint *seen = g_new (DryPoint, 2 * n + 2);
  g_autofree DryPoint *framed = g_new (DryPoint, 4 * n + 16);
  guint count;

  for (guint i = 0; i < n; i++)
    spots[i] = dry_surface_spot (s, (double) points[i].x, (double) points[i].y, 0);
  count = dry_eye_project (&self->eye, spots, n, seen);
  count = count ? dry_eye_clip (seen, count, self->frame, 4, framed) : 0;
  if (count == 0)
    return;
  g_array_append_vals (rings->points, framed, count);
  count = rings->points->len;
  g_array_append_val (rings->ends, count);
}

static void
draw_rings (DryRoomPicture *self, DryLook look, Rings *rings)
{
  if (rings->ends->len > 0)
    dry_scene_builder_rings (self->b, look, (const DryPoint *) rings->points->data,
                             rings->points->len, (const guint *) rings->ends->data,
                             rings->ends->len, TRUE);
  g_array_unref (rings->points);
  g_array_unref (rings->ends);
}

static Rings
begin_rings (void)
{
  return (Rings){g_array_new (FALSE, FALSE, sizeof (DryPoint)),
                 g_array_new (FALSE, FALSE, sizeof (guint))};
}

/* No two tiles of a batch are quite alike. Which are darker must not depend on the run. */
static guint
shade_of (const DryTilePiece *piece)
{
  guint64 h = (guint64) (piece->bounds.x0 / DRY_MM) * 73856093u ^
              (guint64) (piece->bounds.y0 / DRY_MM) * 19349663u;

  h ^= h >> 13;
  return (guint) (h * 2654435761u >> 7) % 5;
}

/* How low the tile comes at its end at `u`. */
static DryLength
find_foot (const DryFace *face, DryLength u)
{
  DryLength foot = face->wet_top;

  for (guint i = 0; i < face->region.n_polygons; i++)
    for (guint k = 0; k < face->region.polygons[i].outer.n_points; k++) {
      DryPoint p = face->region.polygons[i].outer.points[k];
      if (ABS (p.x - u) < DRY_INCH)
        foot = MIN (foot, p.y);
    }
  return foot;
}

/* The trim where the tile ends in the open. */
static void
draw_ends (DryRoomPicture *self, const DrySurface *s, const DryFace *face)
{
  DryLength wide = 3 * DRY_INCH / 8;
  DryRect left = {face->wet_u0, find_foot (face, face->wet_u0), face->wet_u0 + wide, face->wet_top};
  DryRect right = {face->wet_u1 - wide, find_foot (face, face->wet_u1), face->wet_u1,
                   face->wet_top};
  DryRect top = {face->wet_u0, face->wet_top - wide, face->wet_u1, face->wet_top};

  if (face->dry_left)
    dry_picture_rect (self, DRY_MATERIAL (DRY_INK_GROUT), s, left, 0);
  if (face->dry_right)
    dry_picture_rect (self, DRY_MATERIAL (DRY_INK_GROUT), s, right, 0);
  if (face->dry_above)
    dry_picture_rect (self, DRY_MATERIAL (DRY_INK_GROUT), s, top, 0);
}

static void
draw_tile (DryRoomPicture *self, const DrySurface *s, const DryFace *face)
{
  const DryTileFace *tiled = dry_tiling_get_face (self->plan->tiling, face->index);
  const DryRegion *region = tiled ? &tiled->region : &face->region;
  Rings ground = begin_rings (), all = begin_rings (), some = begin_rings (), few = begin_rings ();

  dry_scene_builder_tag (self->b, DRY_LAYER_TILE, DRY_SHOWS_WALL, face->wall, -1);
  for (guint i = 0; i < region->n_polygons; i++)
    add_ring (self, s, region->polygons[i].outer.points, region->polygons[i].outer.n_points,
              &ground);
  for (guint i = 0; tiled && i < tiled->n_pieces; i++) {
    const DryTilePiece *piece = &tiled->pieces[i];
    const DryRect *r = &piece->bounds;
    const DryPoint box[4] = {{r->x0, r->y0}, {r->x1, r->y0}, {r->x1, r->y1}, {r->x0, r->y1}};
    const DryPoint *points = piece->points ? piece->points : box;
    guint n = piece->points ? piece->n_points : 4, shade = shade_of (piece);

    add_ring (self, s, points, n, &all);
    if (shade < 2)
      add_ring (self, s, points, n, shade == 0 ? &some : &few);
  }
  draw_rings (self, DRY_MATERIAL (tiled ? DRY_INK_GROUT : DRY_INK_GLAZE), &ground);
  draw_rings (self, DRY_MATERIAL (DRY_INK_GLAZE), &all);
  draw_rings (self, (DryLook){.fill = DRY_INK_GLAZE_ALT, .alpha = 0.55}, &some);
  draw_rings (self, (DryLook){.fill = DRY_INK_GLAZE_ALT, .alpha = 0.28}, &few);
  draw_ends (self, s, face);
}

/* --- openings --- */

static void
draw_opening (DryRoomPicture *self, const DrySurface *s, const DryOpening *o, DryRect r)
{
  DryRect frame = dry_rect_inflate (r, 5 * DRY_INCH / 2);
  DryRect in = dry_rect_inflate (r, -3 * DRY_INCH / 2);
  DryLook edge = {.fill = DRY_INK_ENAMEL, .alpha = 1, .stroke = DRY_INK_GROUT, .pen = DRY_PEN_018};

  if (o->kind != DRY_OPENING_WINDOW)
    frame.y0 = 0;
  dry_picture_rect (self, edge, s, frame, 0);
  if (o->kind == DRY_OPENING_WINDOW) {
    DryPoint c = dry_rect_centre (r);
    dry_picture_rect (self, (DryLook){.fill = DRY_INK_GLASS, .alpha = 0.22}, s, in, 0);
    dry_picture_rect (self, DRY_MATERIAL (DRY_INK_ENAMEL), s,
                      (DryRect){in.x0, c.y - DRY_INCH / 2, in.x1, c.y + DRY_INCH / 2}, 0);
    return;
  }
  dry_picture_rect (self,
                    o->kind == DRY_OPENING_DOOR
                        ? (DryLook){.stroke = DRY_INK_GROUT, .pen = DRY_PEN_025}
                        : DRY_SHADOW (0.25),
                    s, (DryRect){r.x0, 0, r.x1, r.y1}, 0);
  if (o->kind == DRY_OPENING_DOOR)
    for (guint i = 0; i < 2; i++) {
      DryLength z0 = r.y0 + dry_rect_height (r) * (i ? 52 : 8) / 100;
      DryLength z1 = r.y0 + dry_rect_height (r) * (i ? 93 : 44) / 100;
      DryLength by = dry_rect_width (r) / 6;
      dry_picture_rect (self, DRY_SHADOW (0.05), s, (DryRect){r.x0 + by, z0, r.x1 - by, z1}, 0);
    }
}

static void
draw_openings (DryRoomPicture *self, const DrySurface *s, const DryWall *wall, DrySide side)
{
  DryLength length = dry_wall_length (wall);

  for (guint i = 0; i < self->room->n_openings; i++) {
    const DryOpening *o = &self->room->openings[i];
    DryLength u = side == DRY_SIDE_INSIDE ? o->u : length - o->u - o->width;
    DryRect r = {u, o->z, u + o->width, o->z + o->height};

    if (o->wall != wall->id)
      continue;
    dry_scene_builder_tag (self->b, DRY_LAYER_ROOM, DRY_SHOWS_OPENING, o->id, -1);
    draw_opening (self, s, o, r);
  }
}

/* --- niches --- */

/* The tile on its back, as the plan lays it: the first of the niche's own faces. */
static void
draw_niche_tile (DryRoomPicture *self, const DrySurface *s, const DryPart *part, double depth,
                 const DryPoint *window, guint n_window)
{
  const DryFaces *faces = self->plan->faces;
  const DryTileFace *tiled = NULL;
  DryRect r = dry_part_rect (part), bounds;
  DrySurface back = *s;

  for (guint i = 0; i < faces->n && !tiled; i++)
    if (faces->items[i].kind == DRY_FACE_NICHE && faces->items[i].object == part->id)
      tiled = dry_tiling_get_face (self->plan->tiling, i);
  if (!tiled)
    return;
  /* Its face is the board's; the finished opening lies in the middle of it. */
  bounds = dry_region_bounds (&tiled->region);
  back.o = dry_surface_spot (s, (double) (dry_rect_centre (r).x - dry_rect_centre (bounds).x), 0,
                             -depth);
  back.o.z = 0;
  dry_eye_draw_through (&self->eye, self->b, DRY_MATERIAL (DRY_INK_GROUT),
                        (DrySpot[]){dry_surface_spot (s, (double) r.x0, (double) r.y0, -depth),
                                    dry_surface_spot (s, (double) r.x1, (double) r.y0, -depth),
                                    dry_surface_spot (s, (double) r.x1, (double) r.y1, -depth),
                                    dry_surface_spot (s, (double) r.x0, (double) r.y1, -depth)},
                        4, window, n_window);
  for (guint i = 0; i < tiled->n_pieces; i++) {
    DryRect b = tiled->pieces[i].bounds;
    double up = (double) (dry_rect_centre (r).y - dry_rect_centre (bounds).y);
    double z0 = (double) b.y0 + up, z1 = (double) b.y1 + up;
    dry_eye_draw_through (&self->eye, self->b, DRY_MATERIAL (DRY_INK_GLAZE),
                          (DrySpot[]){dry_surface_spot (&back, (double) b.x0, z0, 0),
                                      dry_surface_spot (&back, (double) b.x1, z0, 0),
                                      dry_surface_spot (&back, (double) b.x1, z1, 0),
                                      dry_surface_spot (&back, (double) b.x0, z1, 0)},
                          4, window, n_window);
  }
}

/* What the edge above keeps the light from. */
static void
draw_niche_shadow (DryRoomPicture *self, const DrySurface *s, DryRect r, double depth,
                   const DryPoint *window, guint n_window)
{
  double high = (double) dry_rect_height (r), wide = (double) dry_rect_width (r);

  for (guint i = 1; i <= 12; i++) {
    double down = high * 0.55 * i / 12, in = wide * 0.30 * i / 12;
    double u0 = (double) r.x0, u1 = (double) r.x1, z0 = (double) r.y0, z1 = (double) r.y1;
    dry_eye_draw_through (&self->eye, self->b, DRY_SHADOW (0.020),
                          (DrySpot[]){dry_surface_spot (s, u0, z1 - down, -depth),
                                      dry_surface_spot (s, u1, z1 - down, -depth),
                                      dry_surface_spot (s, u1, z1, -depth),
                                      dry_surface_spot (s, u0, z1, -depth)},
                          4, window, n_window);
    dry_eye_draw_through (&self->eye, self->b, DRY_SHADOW (0.010),
                          (DrySpot[]){dry_surface_spot (s, u0, z0, -depth),
                                      dry_surface_spot (s, u0 + in, z0, -depth),
                                      dry_surface_spot (s, u0 + in, z1, -depth),
                                      dry_surface_spot (s, u0, z1, -depth)},
                          4, window, n_window);
  }
}

static void
draw_niche (DryRoomPicture *self, const DrySurface *s, const DryPart *part)
{
  double d = (double) part->depth;
  DryRect r = dry_part_rect (part);
  double u0 = (double) r.x0, u1 = (double) r.x1, z0 = (double) r.y0, z1 = (double) r.y1;
  DrySpot mouth[4] = {dry_surface_spot (s, u0, z0, 0), dry_surface_spot (s, u1, z0, 0),
                      dry_surface_spot (s, u1, z1, 0), dry_surface_spot (s, u0, z1, 0)};
  DrySpot back[4] = {dry_surface_spot (s, u0, z0, -d), dry_surface_spot (s, u1, z0, -d),
                     dry_surface_spot (s, u1, z1, -d), dry_surface_spot (s, u0, z1, -d)};
  /* Floor, right cheek, top, left cheek: the light comes from above, before the wall. */
  static const double shades[4] = {0.04, 0.14, 0.30, 0.20};
  DryPoint seen[8], window[16];
  guint n = dry_eye_project (&self->eye, mouth, 4, seen);

  n = n ? dry_eye_clip (seen, n, self->frame, 4, window) : 0;
  if (n == 0)
    return;
  dry_scene_builder_tag (self->b, DRY_LAYER_PARTS, DRY_SHOWS_PART, part->id, -1);
  dry_scene_builder_path (self->b, DRY_MATERIAL (DRY_INK_GLAZE), window, n, TRUE);
  draw_niche_tile (self, s, part, d, window, n);
  dry_eye_draw_through (&self->eye, self->b, DRY_SHADOW (0.05), back, 4, window, n);
  draw_niche_shadow (self, s, r, d, window, n);
  for (guint i = 0; i < 4; i++) {
    guint j = (i + 1) % 4;
    DrySpot cheek[4] = {mouth[i], mouth[j], back[j], back[i]};
    dry_eye_draw_through (&self->eye, self->b, DRY_SHADOW (shades[i]), cheek, 4, window, n);
  }
  dry_scene_builder_path (self->b, DRY_LOOK_LINE (DRY_INK_METAL, DRY_PEN_025), window, n, TRUE);
}

/* --- fittings --- */

/* What the elevations' inks are made of in the picture. */
static DryInk
material (DryInk ink)
{
  switch (ink) {
  case DRY_INK_PAPER:
    return DRY_INK_ENAMEL;
  case DRY_INK_FITTING:
  case DRY_INK_LINE:
  case DRY_INK_FAINT:
    return DRY_INK_METAL;
  default:
    return ink;
  }
}

static void
put_on_wall (DryRoomPicture *self, const DrySurface *s, const DryPrimitive *item)
{
  DryLook look = {.stroke = material (item->stroke),
                  .pen = item->pen,
                  .fill = material (item->fill),
                  .alpha = item->fill == DRY_INK_FITTING ? MIN (item->fill_alpha * 2, 0.92)
                                                         : item->fill_alpha};
  DryPoint arc[33];
  const DryPoint *points = item->points;
  DrySpot spots[64];
  guint n = item->n_points;

  if (item->kind == DRY_PRIMITIVE_CIRCLE) {
    n = dry_points_arc (arc, item->points[0], (double) item->radius, (double) item->radius, 0, 350,
                        G_N_ELEMENTS (arc));
    points = arc;
  } else if (item->kind != DRY_PRIMITIVE_PATH || item->ring_ends || n > G_N_ELEMENTS (spots))
    return;
  if (!item->closed)
    return; /* a hose is too thin to matter at this size */
  for (guint i = 0; i < n; i++)
    spots[i] = dry_surface_spot (s, (double) points[i].x, (double) points[i].y, 0);
  dry_picture_shape (self, look, spots, n);
}

static void
draw_fitting (DryRoomPicture *self, const DrySurface *s, const DryPart *part)
{
  DryRect r = dry_part_rect (part);
  DryLength drop = MIN (dry_rect_height (r), dry_rect_width (r)) / 9;
  DrySceneBuilder flat;
  g_autoptr (DryScene) scene = NULL;
  DryPoint round[4 * DRY_CURVE_POINTS];
  DrySpot shadow[4 * DRY_CURVE_POINTS];
  guint n = dry_points_round_rect (round, r, MIN (dry_rect_width (r), dry_rect_height (r)) / 2);

  dry_scene_builder_init (&flat, self->plan->context.job);
  dry_scene_builder_begin_view (&flat, DRY_VIEW_FACE, 0, (DryPoint){0, 0}, "");
  dry_draw_part (&flat, part, r);
  dry_scene_builder_end_view (&flat);
  scene = dry_scene_builder_finish (&flat);
  dry_scene_builder_tag (self->b, DRY_LAYER_PARTS, DRY_SHOWS_PART, part->id, -1);
  for (guint i = 0; i < n; i++)
    shadow[i] = dry_surface_spot (s, (double) (round[i].x + drop), (double) (round[i].y - drop), 0);
  dry_picture_shape (self, DRY_SHADOW (0.14), shadow, n);
  for (guint i = 0; i < scene->n; i++)
    put_on_wall (self, s, &scene->items[i]);
}

static void
draw_parts (DryRoomPicture *self, const DrySurface *s, const DryWall *wall, DrySide side)
{
  for (guint i = 0; i < self->room->n_parts; i++) {
    const DryPart *part = &self->room->parts[i];

    if (part->wall != wall->id || part->side != side || dry_part_kind_is_hidden (part->kind) ||
        dry_rect_is_empty (dry_part_rect (part)))
      continue;
    if (part->kind == DRY_PART_NICHE)
      draw_niche (self, s, part);
    else if (part->kind != DRY_PART_BENCH && part->kind != DRY_PART_GLASS)
      draw_fitting (self, s, part);
  }
}

void
dry_picture_wall (DryRoomPicture *self, const DryWall *wall, DrySide side)
{
  DrySurface s = dry_surface_of (wall, side), finish = s;
  const DryFace *face = dry_faces_get_wall (self->plan->faces, wall->id, side);
  DryRect whole = {0, 0, dry_wall_length (wall), dry_wall_height (self->room, wall)};
  /* The light comes from the left, behind whoever looks. */
  double away = s.nx * self->eye.dy - s.ny * self->eye.dx;

  if (!dry_picture_sees (self, &s))
    return;
  dry_scene_builder_tag (self->b, DRY_LAYER_ROOM, DRY_SHOWS_WALL, wall->id, -1);
  dry_picture_rect (self, DRY_MATERIAL (DRY_INK_PAINT), &finish, whole, 0);
  /* Tile stands before the studs by all that is under it; so do the corners of the layout. */
  if (face && face->region.n_polygons > 0) {
    finish.o = dry_surface_spot (&s, 0, 0, (double) self->plan->context.build_up.total);
    draw_tile (self, &finish, face);
  }
  draw_openings (self, &finish, wall, side);
  dry_scene_builder_tag (self->b, DRY_LAYER_ROOM, DRY_SHOWS_NOTHING, 0, -1);
  dry_picture_rect (self, DRY_SHADOW (0.01 + 0.05 * fabs (away) + (away > 0 ? 0.05 * away : 0)),
                    &finish, whole, 0);
  draw_parts (self, &finish, wall, side);
}
