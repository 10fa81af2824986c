/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What stands on the floor in the room's picture: tub or pan, benches, glass, and people to compare
 * with. Inner shapes of tubs are drawn by eye; outer sizes are the part's own. */
#include "draw/drawing-room.h"

#include <math.h>

#include "plan/basin-outline.h"

/* Where the basin is: its back left corner, the ways along its back and out from it, of length. */
typedef struct {
  DrySpot o;
  double lx, ly, wx, wy;
  double l, w;
} Footprint;

/* Nothing is drawn without a basin: dry_drawing_room_shaped(). */
static void
find_footprint (const DryRoom *room, Footprint *f)
{
  DryPoint c[4];

  dry_room_basin_corners (room, c);
  f->o = (DrySpot){(double) c[0].x, (double) c[0].y, 0};
  f->l = hypot ((double) (c[3].x - c[0].x), (double) (c[3].y - c[0].y));
  f->w = hypot ((double) (c[1].x - c[0].x), (double) (c[1].y - c[0].y));
  f->lx = (double) (c[3].x - c[0].x) / f->l;
  f->ly = (double) (c[3].y - c[0].y) / f->l;
  f->wx = (double) (c[1].x - c[0].x) / f->w;
  f->wy = (double) (c[1].y - c[0].y) / f->w;
}

/* `x` along the back, `y` out from it. */
static DrySpot
spot (const Footprint *f, double x, double y, double z)
{
  return (DrySpot){f->o.x + x * f->lx + y * f->wx, f->o.y + x * f->ly + y * f->wy, z};
}

/* An upright side from (x0, y0) to (x1, y1), when it is turned to the eye: away from `inner`. */
static void
draw_side (DryRoomPicture *self, const Footprint *f, const double a[2], const double b[2],
           double z0, double z1, DryInk ink)
{
  DrySpot from = spot (f, a[0], a[1], z0), to = spot (f, b[0], b[1], z0);
  DrySpot middle = spot (f, f->l / 2, f->w / 2, z0);
  double nx = from.y - to.y, ny = to.x - from.x, length = hypot (nx, ny), away;
  DrySpot side[4] = {from, to, spot (f, b[0], b[1], z1), spot (f, a[0], a[1], z1)};

  if (length <= 0)
    return;
  if ((middle.x - from.x) * nx + (middle.y - from.y) * ny > 0) {
    nx = -nx;
    ny = -ny;
  }
  if (!dry_eye_sees (&self->eye, from, nx, ny))
    return;
  away = fabs (nx * self->eye.dy - ny * self->eye.dx) / length;
  dry_picture_shape (
      self, (DryLook){.fill = ink, .alpha = 1, .stroke = DRY_INK_GROUT, .pen = DRY_PEN_013}, side,
      4);
  dry_picture_shape (self, DRY_SHADOW (0.03 + 0.10 * away), side, 4);
  for (guint i = 1; z1 - z0 > 5 * DRY_INCH && i <= 10; i++) {
    double z = z0 + (z1 - z0) * i * i / 130;
    side[2] = spot (f, b[0], b[1], z);
    side[3] = spot (f, a[0], a[1], z);
    dry_picture_shape (self, DRY_SHADOW (0.010), side, 4);
  }
}

static void
draw_box (DryRoomPicture *self, const Footprint *f, double x0, double y0, double x1, double y1,
          double z0, double z1, DryInk ink)
{
  Footprint own = *f;
  double c[4][2] = {{0, 0}, {x1 - x0, 0}, {x1 - x0, y1 - y0}, {0, y1 - y0}};
  DrySpot top[4];

  own.o = spot (f, x0, y0, 0);
  own.l = x1 - x0;
  own.w = y1 - y0;
  for (guint i = 0; i < 4; i++)
    draw_side (self, &own, c[i], c[(i + 1) % 4], z0, z1, ink);
  for (guint i = 0; i < 4; i++)
    top[i] = spot (&own, c[i][0], c[i][1], z1);
  if (z1 < self->eye.z)
    dry_picture_shape (
        self, (DryLook){.fill = ink, .alpha = 1, .stroke = DRY_INK_GROUT, .pen = DRY_PEN_013}, top,
        4);
}

/* A rectangle with round corners on the level `z`: 4 * DRY_CURVE_POINTS spots. */
static guint
round_spots (const Footprint *f, double x0, double y0, double x1, double y1, double radius,
             double z, DrySpot *out)
{
  DryPoint p[4 * DRY_CURVE_POINTS];
  guint n = dry_points_round_rect (
      p, (DryRect){(DryLength) x0, (DryLength) y0, (DryLength) x1, (DryLength) y1},
      (DryLength) MIN (radius, MIN (x1 - x0, y1 - y0) / 2));

  for (guint i = 0; i < n; i++)
    out[i] = spot (f, (double) p[i].x, (double) p[i].y, z);
  return n;
}

/* --- people --- */

/* Half of a standing figure's outline, from neck to crotch: half width and height as shares of the
 * whole height. Drawn by eye. */
static const double figure[][2] = {
    {0.022, 0.875}, {0.030, 0.845}, {0.085, 0.825}, {0.118, 0.800}, {0.132, 0.740},
    {0.140, 0.640}, {0.146, 0.540}, {0.150, 0.470}, {0.138, 0.432}, {0.122, 0.452},
    {0.116, 0.560}, {0.104, 0.680}, {0.096, 0.600}, {0.100, 0.530}, {0.102, 0.470},
    {0.092, 0.330}, {0.080, 0.270}, {0.080, 0.190}, {0.056, 0.050}, {0.068, 0.012},
    {0.060, 0.000}, {0.020, 0.000}, {0.022, 0.060}, {0.018, 0.250}, {0.008, 0.455}};

/* Cuts every corner: the outline flows. After Chaikin, Computer Graphics and Image Processing 3
 * (1974) 346. */
static guint
round_off (const DrySpot *spots, guint n, DrySpot *out)
{
  for (guint i = 0; i < n; i++) {
    DrySpot a = spots[i], b = spots[(i + 1) % n];

    out[2 * i] = (DrySpot){a.x + (b.x - a.x) / 4, a.y + (b.y - a.y) / 4, a.z + (b.z - a.z) / 4};
    out[2 * i + 1] = (DrySpot){b.x + (a.x - b.x) / 4, b.y + (a.y - b.y) / 4, b.z + (a.z - b.z) / 4};
  }
  return 2 * n;
}

static void
draw_figure (DryRoomPicture *self, DrySpot feet, double height, DryInk ink)
{
  double rx = self->eye.dy, ry = -self->eye.dx; /* to the right, as seen */
  guint half = G_N_ELEMENTS (figure);
  DrySpot body[2 * G_N_ELEMENTS (figure)], head[24];
  DrySpot rounded[4 * G_N_ELEMENTS (figure)], smooth[8 * G_N_ELEMENTS (figure)];
  guint n;
  DryLook look = {.fill = ink, .alpha = 0.48};
  DryPoint above[3];

  for (guint i = 0; i < half; i++)
    for (guint k = 0; k < 2; k++) {
      double x = (k ? 1 : -1) * figure[i][0] * height;
      body[k ? 2 * half - 1 - i : i] =
          (DrySpot){feet.x + x * rx, feet.y + x * ry, feet.z + figure[i][1] * height};
    }
  for (guint i = 0; i < G_N_ELEMENTS (head); i++) {
    double a = 2 * G_PI * i / G_N_ELEMENTS (head), x = 0.043 * height * cos (a);
    head[i] =
        (DrySpot){feet.x + x * rx, feet.y + x * ry, feet.z + height * (0.936 + 0.064 * sin (a))};
  }
  n = round_off (rounded, round_off (body, 2 * half, rounded), smooth);
  dry_picture_shape (self, look, smooth, n);
  dry_picture_shape (self, look, head, G_N_ELEMENTS (head));
  feet.z += height * 1.02;
  if (dry_eye_project (&self->eye, (DrySpot[]){feet, feet, feet}, 3, above))
    dry_scene_builder_text (
        self->b, above[0],
        (DryLettering){.size = 3, .ink = DRY_INK_SHADE, .bold = TRUE, .anchor = DRY_ANCHOR_ABOVE},
        "%s",
        dry_scene_builder_length (self->b, self->b->metric
                                               ? ((DryLength) height + DRY_MM / 2) / DRY_MM * DRY_MM
                                               : (DryLength) height));
}

/* One short and one tall person: 5 ft 2 in and 6 ft 3 in, or 1575 and 1905 mm. */
static void
draw_figures (DryRoomPicture *self, const Footprint *f, double z)
{
  dry_scene_builder_tag (self->b, DRY_LAYER_PARTS, DRY_SHOWS_NOTHING, 0, -1);
  for (guint i = 0; i < 2; i++) {
    double along = (i ? 0.68 : 0.36) * f->l, out = 0.5 * f->w;
    DrySpot feet =
        f->l >= f->w ? spot (f, along, out, z) : spot (f, 0.5 * f->l, (i ? 0.66 : 0.36) * f->w, z);
    draw_figure (self, feet, (i ? 75.0 : 62.0) * DRY_INCH, DRY_INK_SHADE);
  }
}

/* --- tub and pan --- */

static void
draw_tub (DryRoomPicture *self, const Footprint *f, gboolean figures)
{
  const DryBasin *basin = &self->room->basin;
  double h = (double) basin->height, unit = MIN (f->l, f->w) / 12, in = unit * 1.1;
  double floor = MIN (h / 5, 4.0 * DRY_INCH), deep = unit * 1.3;
  DrySpot well[4 * DRY_CURVE_POINTS], bottom[4 * DRY_CURVE_POINTS], rim[4];
  double c[4][2] = {{0, 0}, {f->l, 0}, {f->l, f->w}, {0, f->w}};
  DryPoint mouth[4 * DRY_CURVE_POINTS + 2], window[4 * DRY_CURVE_POINTS + 8];
  guint n, n_window;
  double x0 = in * 1.4, y0 = in, x1 = f->l - in * 1.4, y1 = f->w - in;

  for (guint i = 0; i < 4; i++)
    rim[i] = spot (f, c[i][0], c[i][1], h);
  dry_picture_shape (
      self,
      (DryLook){.fill = DRY_INK_ENAMEL, .alpha = 1, .stroke = DRY_INK_GROUT, .pen = DRY_PEN_013},
      rim, 4);
  n = round_spots (f, x0, y0, x1, y1, unit * 2.6, h, well);
  n_window = dry_eye_project (&self->eye, well, n, mouth);
  n_window = n_window ? dry_eye_clip (mouth, n_window, self->frame, 4, window) : 0;
  dry_picture_shape (self, DRY_MATERIAL (DRY_INK_ENAMEL), well, n);
  dry_picture_shape (self, DRY_SHADOW (0.22), well, n);
  /* From rim to bottom the sides catch more and more light. */
  for (guint i = 1; n_window > 0 && i <= 10; i++) {
    double t = i / 10.0;
    double left = (dry_drawing_tub_slopes (basin, DRY_END_LEFT) ? 3 : 1) * deep * t,
           right = (dry_drawing_tub_slopes (basin, DRY_END_RIGHT) ? 3 : 1) * deep * t;
    n = round_spots (f, x0 + left, y0 + deep * t, x1 - right, y1 - deep * t, unit * (2.6 - 0.6 * t),
                     h + (floor - h) * t, bottom);
    dry_eye_draw_through (&self->eye, self->b,
                          (DryLook){.fill = DRY_INK_ENAMEL, .alpha = i < 10 ? 0.09 : 0.45}, bottom,
                          n, window, n_window);
  }
  if (figures)
    draw_figures (self, f, floor);
  /* What stands before those who stand in it: the near rim and the front. */
  dry_scene_builder_tag (self->b, DRY_LAYER_BASIN, DRY_SHOWS_BASIN, basin->id, -1);
  for (guint i = 0; i < 4; i++)
    draw_side (self, f, c[i], c[(i + 1) % 4], 0, h, DRY_INK_ENAMEL);
  rim[0] = spot (f, 0, y1, h);
  rim[1] = spot (f, f->l, y1, h);
  if (figures)
    dry_picture_shape (self, DRY_MATERIAL (DRY_INK_ENAMEL), rim, 4);
}

/* A point of the basin, x along its length, as it stands in the room: turned, its length runs out
 * from the wall. */
static DrySpot
basin_spot (const Footprint *f, const DryBasin *basin, double x, double y, double z)
{
  return basin->turned ? spot (f, y, x, z) : spot (f, x, y, z);
}

static void
draw_drain (DryRoomPicture *self, const Footprint *f, double z)
{
  const DryBasin *basin = &self->room->basin;
  DryLook look = {.fill = DRY_INK_METAL, .alpha = 0.7};
  DryPoint at = dry_drawing_pan_drain (basin);
  double r = 2.2 * DRY_INCH;
  DrySpot grate[24];

  if (basin->linear_drain) {
    DryRect c = dry_drawing_pan_channel (basin);
    double x0 = (double) c.x0, y0 = (double) c.y0, x1 = (double) c.x1, y1 = (double) c.y1;
    DrySpot strip[4] = {basin_spot (f, basin, x0, y0, z), basin_spot (f, basin, x1, y0, z),
                        basin_spot (f, basin, x1, y1, z), basin_spot (f, basin, x0, y1, z)};
    dry_picture_shape (self, look, strip, 4);
    return;
  }
  for (guint i = 0; i < G_N_ELEMENTS (grate); i++) {
    double a = 2 * G_PI * i / G_N_ELEMENTS (grate);
    grate[i] = basin_spot (f, basin, (double) at.x + r * cos (a), (double) at.y + r * sin (a), z);
  }
  dry_picture_shape (self, look, grate, G_N_ELEMENTS (grate));
}

/* One stretch of curb inside the edge from `a` to `b` of an outline walked clockwise. */
static void
draw_curb (DryRoomPicture *self, DryPoint a, DryPoint b, double wide)
{
  const DryBasin *basin = &self->room->basin;
  double length = (double) dry_point_distance (a, b);
  Footprint f = {.o = {(double) a.x, (double) a.y, 0}};

  if (length <= 0)
    return;
  f.lx = (double) (b.x - a.x) / length;
  f.ly = (double) (b.y - a.y) / length;
  f.wx = f.ly;
  f.wy = -f.lx;
  draw_box (self, &f, 0, 0, length, wide, 0, (double) basin->height,
            basin->site_built ? DRY_INK_GLAZE : DRY_INK_ENAMEL);
}

static void
draw_pan (DryRoomPicture *self, const Footprint *f, gboolean figures)
{
  const DryBasin *basin = &self->room->basin;
  double curb = MIN (4.5 * DRY_INCH, f->w / 6), h = (double) basin->height;
  double z = MIN (h / 3, 1.0 * DRY_INCH);
  DryBasinOutline outline;
  DrySpot floor[5];
  guint n;

  dry_basin_outline (self->room, &outline);
  n = outline.n;
  for (guint i = 0; i < n; i++) {
    DryPoint p = outline.points[(n - i) % n];
    floor[i] = (DrySpot){(double) p.x, (double) p.y, z};
  }
  dry_picture_shape (self,
                     (DryLook){.fill = basin->site_built ? DRY_INK_GLAZE_ALT : DRY_INK_ENAMEL,
                               .alpha = 1,
                               .stroke = DRY_INK_GROUT,
                               .pen = DRY_PEN_013},
                     floor, n);
  dry_picture_shape (self, DRY_SHADOW (0.06), floor, n);
  draw_drain (self, f, z);
  if (figures)
    draw_figures (self, f, z);
  dry_scene_builder_tag (self->b, DRY_LAYER_BASIN, DRY_SHOWS_BASIN, basin->id, -1);
  /* From the back round by the right: curbs in front are painted over those behind. */
  for (guint i = n; h > 1.0 * DRY_INCH && i-- > 0;)
    if (outline.open[i])
      draw_curb (self, outline.points[(i + 1) % n], outline.points[i], curb);
}

void
dry_picture_basin (DryRoomPicture *self, gboolean figures)
{
  const DryBasin *basin = &self->room->basin;
  Footprint f;

  find_footprint (self->room, &f);
  dry_scene_builder_tag (self->b, DRY_LAYER_BASIN, DRY_SHOWS_BASIN, basin->id, -1);
  if (basin->kind == DRY_BASIN_TUB)
    draw_tub (self, &f, figures);
  else
    draw_pan (self, &f, figures);
}

/* --- benches and glass --- */

static void
draw_bench (DryRoomPicture *self, const DryPart *part, const DryWall *wall)
{
  DrySurface s = dry_surface_of (wall, part->side);
  DryRect r = dry_part_rect (part);
  double top = (double) part->height;
  Footprint f = {.o = dry_surface_spot (&s, (double) r.x0, 0, 0),
                 .lx = s.ux,
                 .ly = s.uy,
                 .wx = s.nx,
                 .wy = s.ny,
                 .l = (double) dry_rect_width (r),
                 .w = (double) part->depth};

  dry_scene_builder_tag (self->b, DRY_LAYER_PARTS, DRY_SHOWS_PART, part->id, -1);
  draw_box (self, &f, 0, 0, f.l, f.w,
            part->fold_down ? (double) part->z - MIN (top, (double) part->z) : 0, (double) part->z,
            part->fold_down ? DRY_INK_FLOOR : DRY_INK_GLAZE);
}

void
dry_picture_benches (DryRoomPicture *self)
{
  for (guint i = 0; i < self->room->n_parts; i++) {
    const DryPart *part = &self->room->parts[i];
    const DryWall *wall = dry_room_get_wall (self->room, part->wall);

    if (part->kind == DRY_PART_BENCH)
      draw_bench (self, part, wall);
  }
}

void
dry_picture_glass (DryRoomPicture *self)
{
  for (guint i = 0; i < self->room->n_parts; i++) {
    const DryPart *part = &self->room->parts[i];
    const DryWall *wall = dry_room_get_wall (self->room, part->wall);
    double w = (double) part->width, z0 = (double) part->z, z1 = z0 + (double) part->height;
    DryLook pane = {
        .fill = DRY_INK_GLASS, .alpha = 0.13, .stroke = DRY_INK_GLASS, .pen = DRY_PEN_025};
    DrySurface s;

    if (part->kind != DRY_PART_GLASS)
      continue;
    s = dry_surface_of (wall, part->side);
    dry_scene_builder_tag (self->b, DRY_LAYER_PARTS, DRY_SHOWS_PART, part->id, -1);
#define AT(out, z) dry_surface_spot (&s, (double) part->u, (z), (out))
    dry_picture_shape (self, pane, (DrySpot[]){AT (0, z0), AT (w, z0), AT (w, z1), AT (0, z1)}, 4);
    /* What the light leaves on it. */
    for (guint k = 0; k < 2; k++) {
      double a = w * (k ? 0.52 : 0.24), wide = w * (k ? 0.05 : 0.14), high = z1 - z0;
      dry_picture_shape (self, (DryLook){.fill = DRY_INK_ENAMEL, .alpha = 0.16},
                         (DrySpot[]){AT (a, z0 + 0.06 * high), AT (a + wide, z0 + 0.06 * high),
                                     AT (a + wide + 0.22 * w, z1 - 0.06 * high),
                                     AT (a + 0.22 * w, z1 - 0.06 * high)},
                         4);
    }
    if (part->hinged) {
      double z = (z0 + z1) / 2;
      dry_picture_shape (
          self, DRY_MATERIAL (DRY_INK_METAL),
          (DrySpot[]){AT (w * 0.90, z - 5 * DRY_INCH), AT (w * 0.93, z - 5 * DRY_INCH),
                      AT (w * 0.93, z + 5 * DRY_INCH), AT (w * 0.90, z + 5 * DRY_INCH)},
          4);
    }
#undef AT
  }
}
