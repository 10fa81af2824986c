/* SPDX-License-Identifier: GPL-3.0-or-later */
/* How many tiles a layout takes: whole ones, those the cuts come from with remainders used again,
 * spares; and the trim and the sealed joints along its edges. Knows layouts, not prices. */
#include "plan/tile-private.h"

#include <math.h>

#include "plan/amounts.h"
#include "plan/cutting.h"

/* For breakage while setting and for later repairs. Common practice, no source. */
#define SPARE 0.05

static const DrySource practice = {"common practice, no source", DRY_CERTAINTY_COMMON_PRACTICE};
static const DrySource reckoned = {"counted on the layout", DRY_CERTAINTY_DERIVED};

/* --- cuts out of tiles --- */

/* As many cuts as this are nested as boards are; small tile has hundreds, nearly all of them strips
 * along one side, which the best fit lays as well. */
#define NESTED_MOST 48

typedef struct {
  DryLength width, height;
} Rest;

static gint
compare_pieces (gconstpointer a, gconstpointer b)
{
  const DryPiece *x = a, *y = b;
  DryLength long_x = MAX (x->width, x->height), long_y = MAX (y->width, y->height);
  DryLength short_x = MIN (x->width, x->height), short_y = MIN (y->width, y->height);

  if (long_x != long_y)
    return long_x > long_y ? -1 : 1;
  return (short_x < short_y) - (short_x > short_y);
}

static void
keep_rest (GArray *rests, DryLength width, DryLength height)
{
  Rest rest = {width, height};

  if (width >= DRY_MM && height >= DRY_MM)
    g_array_append_val (rests, rest);
}

/* Takes the piece off the rest with one or two cuts, and keeps what is left of it. */
static void
cut_from (GArray *rests, guint at, const DryPiece *piece)
{
  Rest rest = g_array_index (rests, Rest, at);
  DryLength beside = rest.width - piece->width - DRY_TILE_KERF;
  DryLength above = rest.height - piece->height - DRY_TILE_KERF;

  g_array_remove_index_fast (rests, at);
  if (beside > above) {
    keep_rest (rests, beside, rest.height);
    keep_rest (rests, piece->width, above);
  } else {
    keep_rest (rests, rest.width, above);
    keep_rest (rests, beside, piece->height);
  }
}

static guint
fit_cuts (const DryTileModule *module, GArray *pieces)
{
  g_autoptr (GArray) rests = g_array_new (FALSE, FALSE, sizeof (Rest));
  guint tiles = 0;

  g_array_sort (pieces, compare_pieces);
  for (guint i = 0; i < pieces->len; i++) {
    const DryPiece *piece = &g_array_index (pieces, DryPiece, i);
    double least = G_MAXDOUBLE;
    gint best = -1;

    for (guint k = 0; k < rests->len; k++) {
      const Rest *rest = &g_array_index (rests, Rest, k);
      double area = (double) rest->width * (double) rest->height;

      if (rest->width >= piece->width && rest->height >= piece->height && area < least) {
        least = area;
        best = (gint) k;
      }
    }
    if (best < 0) {
      tiles++;
      keep_rest (rests, module->width, module->height);
      best = (gint) rests->len - 1;
    }
    cut_from (rests, (guint) best, piece);
  }
  return tiles;
}

/* Cuts lie edge to edge in a tile, as boards do in a sheet; glazed edges and patterns allow no
 * turning. */
static guint
nest_cuts (const DryPlanContext *context, const DryTileModule *module, GArray *pieces)
{
  DryStock stock = {.id = "tile", .width = module->width, .height = module->height, .count = -1};
  const DryCutting *cutting;

  if (pieces->len > NESTED_MOST)
    return fit_cuts (module, pieces);
  if (pieces->len == 0)
    return 0;
  cutting = dry_cutting_compute (context->arena, &stock, 1,
                                 (const DryPiece *) (gconstpointer) pieces->data, pieces->len,
                                 DRY_TILE_KERF, 0);
  return cutting->n_sheets + cutting->n_unplaced;
}

/* Cuts of slanted tiles: two of under half a tile come from one. */
static guint
pair_cuts (const DryTiling *self, __int128 whole2)
{
  guint large = 0, small = 0;

  for (guint f = 0; f < self->n_faces; f++)
    for (guint i = 0; i < self->faces[f].n_pieces; i++) {
      const DryTilePiece *piece = &self->faces[f].pieces[i];

      if (piece->cut == DRY_TILE_WHOLE)
        continue;
      if ((double) piece->area2 < 0.45 * (double) whole2)
        small++;
      else
        large++;
    }
  return large + (small + 1) / 2;
}

/* Herringbone lies both ways, so its cuts may be turned; the others keep the way they lie. */
static guint
count_for_cuts (const DryPlanContext *context, const DryTileModule *module, const DryTiling *self)
{
  gboolean turned = module->pattern == DRY_PATTERN_HERRINGBONE;
  DryTileModule tile = *module;
  g_autoptr (GArray) pieces = NULL;

  if (!dry_tile_is_grid (module->pattern) && !turned)
    return pair_cuts (self, dry_tile_area2 (module));
  if (turned) {
    tile.width = MAX (module->width, module->height);
    tile.height = MIN (module->width, module->height);
  }
  pieces = g_array_new (FALSE, TRUE, sizeof (DryPiece));
  for (guint f = 0; f < self->n_faces; f++)
    for (guint i = 0; i < self->faces[f].n_pieces; i++) {
      const DryTilePiece *cut = &self->faces[f].pieces[i];
      DryLength width = dry_rect_width (cut->bounds), height = dry_rect_height (cut->bounds);
      gboolean turn = turned && height > width;
      DryPiece piece = {
          .name = "cut", .width = turn ? height : width, .height = turn ? width : height};

      if (cut->cut != DRY_TILE_WHOLE)
        g_array_append_val (pieces, piece);
    }
  return turned ? fit_cuts (&tile, pieces) : nest_cuts (context, module, pieces);
}

/* --- edges --- */

/* Open tops and sides, where the tile ends on dry wall and its edge is seen. */
static DryLength
measure_trim (const DryFaces *faces, const DryTiling *self)
{
  DryLength trim = 0;

  for (guint i = 0; i < self->n_faces; i++) {
    const DryFace *face = &faces->items[self->faces[i].face];
    DryRect r = dry_region_bounds (&self->faces[i].region);

    if (face->kind != DRY_FACE_WALL)
      continue;
    trim += face->dry_left ? dry_rect_height (r) : 0;
    trim += face->dry_right ? dry_rect_height (r) : 0;
    trim += face->dry_above ? dry_rect_width (r) : 0;
  }
  return trim;
}

/* Changes of plane and the line along the basin take sealant, not grout (TCNA EJ171). Each corner
 * is told by both its walls. */
static DryLength
measure_movement (const DryFaces *faces, const DryTiling *self)
{
  DryLength twice = 0, basin = 0;

  for (guint i = 0; i < self->n_faces; i++) {
    const DryFace *face = &faces->items[self->faces[i].face];
    DryRect r = dry_region_bounds (&self->faces[i].region);

    if (face->kind != DRY_FACE_WALL)
      continue;
    for (int end = 0; end < 2; end++) {
      const DryFaceEnd *at = end == 0 ? &face->left : &face->right;

      if (at->face >= 0 && at->angle > 0 && at->angle < 180)
        twice += MIN (r.y1, faces->items[at->face].wet_top) - MAX (r.y0, face->deck);
    }
    if (face->at_basin)
      basin += MAX (MIN (r.x1, face->basin_u1) - MAX (r.x0, face->basin_u0), 0);
  }
  return twice / 2 + basin;
}

/* --- counts with their workings --- */

static void
add_count (const DryPlanContext *context, DryTiling *self, const char *name, guint amount,
           DrySource source, const char *formula)
{
  self->counts[self->n_counts++] =
      (DryTileCount){name, amount, dry_working_new (context->arena, source, formula, NULL)};
}

/* What the trade adds for cuts and breakage, by pattern: from memory of the usual advice. */
static double
allowance_of (DryPattern pattern)
{
  switch (pattern) {
  case DRY_PATTERN_OFFSET:
  case DRY_PATTERN_DIAGONAL:
    return 0.15;
  case DRY_PATTERN_HERRINGBONE:
  case DRY_PATTERN_HEXAGON:
    return 0.20;
  case DRY_PATTERN_STRAIGHT:
  case DRY_PATTERN_VERTICAL:
    break;
  }
  return 0.10;
}

static void
add_counts (const DryPlanContext *context, const DryTileModule *module, DryTiling *self)
{
  DryArena *arena = context->arena;
  double each = (double) dry_tile_pitch_u (module) * (double) dry_tile_pitch_z (module) / 1e18;
  double more = allowance_of (module->pattern);
  guint usual;

  if (module->pattern == DRY_PATTERN_HEXAGON)
    each *= sqrt (3) / 2;
  usual = (guint) ceil (self->area * (1 + more) / each - 1e-6);
  add_count (context, self, "Whole tiles", self->n_whole, reckoned,
             dry_arena_printf (arena, "%u tiles lie whole", self->n_whole));
  add_count (context, self, "Tiles for cuts", self->n_for_cuts, reckoned,
             dry_arena_printf (arena, "%u cuts come from %u tiles, remainders used again",
                               self->n_cut, self->n_for_cuts));
  add_count (context, self, "Spares", self->n_spare, practice,
             dry_arena_printf (arena, "5%% of %u, for breakage and repairs: %u",
                               self->n_whole + self->n_for_cuts, self->n_spare));
  add_count (context, self, "Tiles", self->n_tiles, reckoned,
             dry_arena_printf (arena, "%u + %u + %u = %u", self->n_whole, self->n_for_cuts,
                               self->n_spare, self->n_tiles));
  add_count (context, self, "By the usual allowance", usual, practice,
             dry_arena_printf (arena, "%s m2 + %s%%, / %s m2 a tile and its joint = %u",
                               dry_number_text (arena, self->area, 2),
                               dry_number_text (arena, more * 100, 0),
                               dry_number_text (arena, each, 5), usual));
}

static guint
find_box (const DryPlanContext *context)
{
  const DryFinish *finish = &context->room->finish;

  return finish->box > 0 ? (guint) finish->box : 0;
}

void
dry_tile_count (const DryPlanContext *context, const DryFaces *faces, const DryTileModule *module,
                DryTiling *self)
{
  guint box = find_box (context);

  self->n_for_cuts = count_for_cuts (context, module, self);
  self->n_spare = (guint) ceil (SPARE * (self->n_whole + self->n_for_cuts) - 1e-9);
  self->n_tiles = self->n_whole + self->n_for_cuts + self->n_spare;
  self->box = box;
  self->n_boxes = box > 0 ? (self->n_tiles + box - 1) / box : 0;
  self->trim = measure_trim (faces, self);
  self->movement = measure_movement (faces, self);
  add_counts (context, module, self);
}
