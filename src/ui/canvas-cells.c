/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A changed scene is recorded as a whole, which is cheap; only squares in which something differs
 * are painted from the recording, which is not. GTK draws anew only nodes that are new to it, so
 * a square that stays costs nothing at all. */
#include "ui/canvas-cells.h"

#include <math.h>

#include "ui/screen-style.h"

#define CELL 128

typedef struct {
  guint64 sum; /* of what the picture shows; 0: nothing, and no node */
  GskRenderNode *node;
} Cell;

struct _DryCells {
  /* Where the drawing stands when nothing is panned; squares are counted from its corner. */
  DryTransform frame;
  int scale_factor;
  cairo_surface_t *recording; /* NULL: to be made anew */
  DrySquares *squares;        /* of the recording */
  GHashTable *cells;          /* gint64 column and row -> Cell */
};

static void
cell_free (gpointer data)
{
  Cell *cell = data;

  g_clear_pointer (&cell->node, gsk_render_node_unref);
  g_free (cell);
}

DryCells *
dry_cells_new (void)
{
  DryCells *self = g_new0 (DryCells, 1);

  self->cells = g_hash_table_new_full (g_int64_hash, g_int64_equal, g_free, cell_free);
  return self;
}

void
dry_cells_scene_changed (DryCells *self)
{
  g_clear_pointer (&self->recording, cairo_surface_destroy);
  g_clear_pointer (&self->squares, dry_squares_free);
}

void
dry_cells_style_changed (DryCells *self)
{
  dry_cells_scene_changed (self);
  g_hash_table_remove_all (self->cells);
}

void
dry_cells_free (DryCells *self)
{
  if (self == NULL)
    return;
  dry_cells_scene_changed (self);
  g_hash_table_unref (self->cells);
  g_free (self);
}

/* --- squares --- */

typedef struct {
  gint column, row;
  guint columns, rows;
} Range;

static Range
find_seen (double pan_x, double pan_y, float width, float height)
{
  Range range = {(gint) floor (-pan_x / CELL), (gint) floor (-pan_y / CELL), 0, 0};

  range.columns = (guint) ((gint) floor ((width - pan_x) / CELL) - range.column + 1);
  range.rows = (guint) ((gint) floor ((height - pan_y) / CELL) - range.row + 1);
  return range;
}

static gint64
get_key (gint column, gint row)
{
  return ((gint64) column << 32) ^ (gint64) (guint32) row;
}

static gboolean
is_far (gpointer key, gpointer value, gpointer data)
{
  const DrySquares *kept = data;
  gint64 at = *(gint64 *) key;

  return !dry_squares_holds (kept, (gint) (at >> 32), (gint) (gint32) (at & 0xffffffff), 1, 1);
}

/* What is seen and half as much again on every side, so that panning seldom records. */
static void
record (DryCells *self, const DryScene *scene, guint layers, Range seen)
{
  gint more_x = (gint) seen.columns / 2, more_y = (gint) seen.rows / 2;
  guint columns = seen.columns + 2 * (guint) more_x, rows = seen.rows + 2 * (guint) more_y;
  gint column = seen.column - more_x, row = seen.row - more_y;
  cairo_rectangle_t area = {column * CELL, row * CELL, columns * CELL, rows * CELL};
  DryPoint low = dry_transform_to_scene (&self->frame, area.x, area.y + area.height);
  DryPoint high = dry_transform_to_scene (&self->frame, area.x + area.width, area.y);
  DryRect clip = {low.x, low.y, high.x, high.y};
  cairo_t *cr;

  dry_cells_scene_changed (self);
  self->squares = dry_squares_new (column, row, columns, rows, CELL);
  self->recording = cairo_recording_surface_create (CAIRO_CONTENT_COLOR_ALPHA, &area);
  cr = cairo_create (self->recording);
  dry_painter_paint_squares (cr, scene, &self->frame, dry_screen_style (), layers, &clip,
                             self->squares);
  cairo_destroy (cr);
  g_hash_table_foreach_remove (self->cells, is_far, self->squares);
}

/* One picture of these squares; when everything is new, one of all costs less than many. */
static cairo_surface_t *
paint_range (DryCells *self, Range range)
{
  const DryColour *paper = &dry_screen_style ()->inks[DRY_INK_PAPER];
  cairo_surface_t *image = cairo_image_surface_create (
      CAIRO_FORMAT_RGB24, (int) range.columns * CELL * self->scale_factor,
      (int) range.rows * CELL * self->scale_factor);
  cairo_t *cr;

  cairo_surface_set_device_scale (image, self->scale_factor, self->scale_factor);
  cr = cairo_create (image);
  cairo_set_source_rgb (cr, paper->r, paper->g, paper->b);
  cairo_paint (cr);
  cairo_set_source_surface (cr, self->recording, -range.column * CELL, -range.row * CELL);
  cairo_paint (cr);
  cairo_destroy (cr);
  return image;
}

/* The node's own recording holds the image from here on. */
static GskRenderNode *
make_node (cairo_surface_t *image, Range range, gint column, gint row)
{
  GskRenderNode *node = gsk_cairo_node_new (
      &GRAPHENE_RECT_INIT ((float) (column * CELL), (float) (row * CELL), CELL, CELL));
  cairo_t *cr = gsk_cairo_node_get_draw_context (node);

  cairo_set_source_surface (cr, image, range.column * CELL, range.row * CELL);
  cairo_pattern_set_filter (cairo_get_source (cr), CAIRO_FILTER_NEAREST);
  cairo_rectangle (cr, column * CELL, row * CELL, CELL, CELL);
  cairo_fill (cr);
  cairo_destroy (cr);
  return node;
}

static Cell *
get_cell (DryCells *self, gint column, gint row)
{
  gint64 key = get_key (column, row);
  Cell *cell = g_hash_table_lookup (self->cells, &key);

  if (cell == NULL) {
    cell = g_new0 (Cell, 1);
    g_hash_table_insert (self->cells, g_memdup2 (&key, sizeof key), cell);
  }
  return cell;
}

static gboolean
is_stale (DryCells *self, gint column, gint row)
{
  return get_cell (self, column, row)->sum != dry_squares_get (self->squares, column, row);
}

/* Paints the stale squares of `range`, in one go when most of them are. */
static void
renew (DryCells *self, Range range)
{
  guint n = 0;

  for (guint r = 0; r < range.rows; r++)
    for (guint c = 0; c < range.columns; c++)
      n += is_stale (self, range.column + (gint) c, range.row + (gint) r);
  cairo_surface_t *all =
      n > MAX (8, range.columns * range.rows / 2) ? paint_range (self, range) : NULL;

  for (guint i = 0; n > 0 && i < range.rows * range.columns; i++) {
    Range one = {range.column + (gint) (i % range.columns), range.row + (gint) (i / range.columns),
                 1, 1};
    Cell *cell = get_cell (self, one.column, one.row);
    guint64 sum = dry_squares_get (self->squares, one.column, one.row);
    cairo_surface_t *image;

    if (cell->sum == sum)
      continue;
    g_clear_pointer (&cell->node, gsk_render_node_unref);
    cell->sum = sum;
    if (sum == 0)
      continue;
    image = all != NULL ? cairo_surface_reference (all) : paint_range (self, one);
    cell->node = make_node (image, all != NULL ? range : one, one.column, one.row);
    cairo_surface_destroy (image);
  }
  g_clear_pointer (&all, cairo_surface_destroy);
}

/* Straight from the recording: at every step of a zoom all is new, and pictures of it would be
 * thrown away by the next. */
static void
draw_unkept (DryCells *self, GtkSnapshot *snapshot, double pan_x, double pan_y, float width,
             float height)
{
  cairo_t *cr = gtk_snapshot_append_cairo (snapshot, &GRAPHENE_RECT_INIT (0, 0, width, height));

  cairo_set_source_surface (cr, self->recording, pan_x, pan_y);
  cairo_paint (cr);
  cairo_destroy (cr);
}

static void
draw_kept (DryCells *self, GtkSnapshot *snapshot, double pan_x, double pan_y, Range seen)
{
  renew (self, seen);
  gtk_snapshot_save (snapshot);
  gtk_snapshot_translate (snapshot, &GRAPHENE_POINT_INIT ((float) pan_x, (float) pan_y));
  for (guint r = 0; r < seen.rows; r++)
    for (guint c = 0; c < seen.columns; c++) {
      Cell *cell = get_cell (self, seen.column + (gint) c, seen.row + (gint) r);

      if (cell->node != NULL)
        gtk_snapshot_append_node (snapshot, cell->node);
    }
  gtk_snapshot_restore (snapshot);
}

gboolean
dry_cells_snapshot (DryCells *self, GtkSnapshot *snapshot, const DryScene *scene,
                    const DryTransform *view, double pan_x, double pan_y, guint layers, float width,
                    float height, int scale_factor)
{
  DryTransform frame = *view;
  Range seen = find_seen (pan_x, pan_y, width, height);
  gboolean zoomed;

  frame.x -= pan_x;
  frame.y -= pan_y;
  zoomed = frame.scale != self->frame.scale || frame.paper_mm != self->frame.paper_mm ||
           scale_factor != self->scale_factor;
  if (zoomed)
    dry_cells_style_changed (self);
  if (self->recording == NULL || fabs (frame.x - self->frame.x) > 1e-6 ||
      fabs (frame.y - self->frame.y) > 1e-6 ||
      !dry_squares_holds (self->squares, seen.column, seen.row, seen.columns, seen.rows)) {
    self->frame = frame;
    self->scale_factor = scale_factor;
    record (self, scene, layers, seen);
  }
  if (zoomed)
    draw_unkept (self, snapshot, pan_x, pan_y, width, height);
  else
    draw_kept (self, snapshot, pan_x, pan_y, seen);
  return !zoomed;
}
