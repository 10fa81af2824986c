/* SPDX-License-Identifier: GPL-3.0-or-later */
/* How many tiles a layout takes: whole ones, those the cuts come from with remainders used again,
 * spares; and the trim and the sealed joints along its edges. Knows layouts, not prices. */
#include "plan/tile-private.h"

#include <math.h>

#include "plan/amounts.h"
#include "plan/cutting.h"
#include "plan/plan.h"

/* For breakage while setting and for later repairs. Common practice, no source. */
#define SPARE 5.0 /* per cent */

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
cut_from (GArray *rests, guint at, const DryPiece *piece, DryLength kerf)
{
  Rest rest = g_array_index (rests, Rest, at);
  DryLength beside = rest.width - piece->width - kerf;
  DryLength above = rest.height - piece->height - kerf;

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
fit_cuts (DryLength width, DryLength height, DryLength kerf, GArray *pieces)
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
      keep_rest (rests, width, height);
      best = (gint) rests->len - 1;
    }
    cut_from (rests, (guint) best, piece, kerf);
  }
  return tiles;
}

guint
dry_tile_nest_rects (const DryPlanContext *context, DryLength width, DryLength height,
                     GArray *pieces, DryLength kerf)
{
  DryStock stock = {.id = "tile", .width = width, .height = height, .count = -1};
  const DryCutting *cutting;

  if (pieces->len > NESTED_MOST)
    return fit_cuts (width, height, kerf, pieces);
  if (pieces->len == 0)
    return 0;
  cutting =
      dry_cutting_compute (context->arena, &stock, 1,
                           (const DryPiece *) (gconstpointer) pieces->data, pieces->len, kerf, 0);
  return cutting->n_sheets + cutting->n_unplaced;
}

/* Cuts lie edge to edge in a tile, as boards do in a sheet; glazed edges and patterns allow no
 * turning. Herringbone lies both ways, so its cuts may be turned. */
static guint
count_for_cuts (const DryPlanContext *context, const DryTileModule *module, DryTiling *self)
{
  gboolean turned = module->pattern == DRY_PATTERN_HERRINGBONE;
  DryLength longer = MAX (module->width, module->height);
  DryLength shorter = MIN (module->width, module->height);
  g_autoptr (GArray) pieces = NULL;

  if (!dry_tile_is_grid (module->pattern) && !turned)
    return dry_tile_nest_shapes (module, self, &self->least_for_cuts);
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
  return turned
             ? fit_cuts (longer, shorter, DRY_TILE_KERF, pieces)
             : dry_tile_nest_rects (context, module->width, module->height, pieces, DRY_TILE_KERF);
}

/* --- edges --- */

/* The share of courses that end in a cut at an upright edge. */
static double
share_cut (const DryTileModule *module, DryTileEdge edge, DryLength datum)
{
  guint n = 0;

  if (!dry_tile_is_grid (module->pattern))
    return 1;
  for (guint s = 0; s < module->n_shifts; s++)
    n += dry_tile_cut_at (edge, datum + module->shifts[s], module->width, module->joint) <
         module->width;
  return (double) n / module->n_shifts;
}

/* Open tops and sides, where the tile ends on dry wall and its edge is seen: factory edges where
 * whole tiles end there, sawn ones elsewhere. */
static void
measure_trim (const DryFaces *faces, const DryTileModule *module, DryTiling *self)
{
  for (guint i = 0; i < self->n_faces; i++) {
    DryTileFace *tiled = &self->faces[i];
    const DryFace *face = &faces->items[tiled->face];
    DryRect r = dry_region_bounds (&tiled->region);
    double cut = 0;

    if (face->kind != DRY_FACE_WALL)
      continue;
    if (face->dry_left) {
      tiled->trim += dry_rect_height (r);
      cut += share_cut (module, (DryTileEdge){r.x0, TRUE}, tiled->datum.x) *
             (double) dry_rect_height (r);
    }
    if (face->dry_right) {
      tiled->trim += dry_rect_height (r);
      cut += share_cut (module, (DryTileEdge){r.x1, FALSE}, tiled->datum.x) *
             (double) dry_rect_height (r);
    }
    if (face->dry_above) {
      tiled->trim += dry_rect_width (r);
      if (!dry_tile_is_grid (module->pattern) || tiled->top_cut < module->height)
        cut += (double) dry_rect_width (r);
    }
    tiled->trim_cut = (DryLength) cut;
    self->trim += tiled->trim;
    self->trim_cut += tiled->trim_cut;
  }
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

      if (dry_tile_meets_inside (at))
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

double
dry_tile_allowance (DryPattern pattern)
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

static double
area_of (const DryTileModule *module)
{
  return dry_length_to_mm (dry_tile_pitch_u (module)) * dry_length_to_mm (dry_tile_row (module)) /
         1e6;
}

double
dry_tile_area (const DryFinish *finish, DryLength joint)
{
  DryTileModule module = dry_tile_module (finish, joint);

  return area_of (&module);
}

/* What the percentage of the trade would have bought, beside what was counted. */
static void
add_usual (const DryPlanContext *context, DryTiling *self)
{
  DryArena *arena = context->arena;
  double more = dry_tile_allowance (self->pattern);
  guint usual = (guint) ceil (self->area * (1 + more) / self->area_each - 1e-6);

  add_count (context, self, "By the usual allowance", usual, practice,
             dry_arena_printf (arena, "%s m2 + %s%%, / %s m2 a %s = %u",
                               dry_number_text (arena, self->area, 2),
                               dry_number_text (arena, more * 100, 0),
                               dry_number_text (arena, self->area_each, 5),
                               self->sheet_across > 0 ? "sheet" : "tile and its joint", usual));
}

static void
add_boxes (const DryPlanContext *context, DryTiling *self, const DryTilePacking *packing)
{
  guint n = dry_tiling_to_buy (self);

  if (self->box > 0)
    add_count (context, self, "Boxes", self->n_boxes, packing->boxes,
               dry_arena_printf (context->arena, "%u / %u a box = %u whole box%s", n, self->box,
                                 self->n_boxes, self->n_boxes == 1 ? "" : "es"));
}

static void
add_tile_counts (const DryPlanContext *context, DryTiling *self, const DryTilePacking *packing)
{
  DryArena *arena = context->arena;
  const char *least =
      self->least_for_cuts == 0 ? ""
      : self->least_for_cuts == self->n_for_cuts
          ? ", which cannot be bettered"
          : dry_arena_printf (arena, ", and no cutting takes fewer than %u", self->least_for_cuts);

  add_count (context, self, "Whole tiles", self->n_whole, reckoned,
             dry_arena_printf (arena, "%u tiles lie whole", self->n_whole));
  add_count (context, self, "Tiles for cuts", self->n_for_cuts, reckoned,
             dry_arena_printf (arena, "%u cuts come from %u tiles, remainders used again%s",
                               self->n_cut, self->n_for_cuts, least));
  add_count (context, self, "Spares", self->n_spare, packing->source,
             dry_arena_printf (arena, "%s%% of %u, for breakage and repairs: %u",
                               dry_number_text (arena, packing->breakage, 1),
                               self->n_whole + self->n_for_cuts, self->n_spare));
  add_count (context, self, "Tiles", self->n_tiles, reckoned,
             dry_arena_printf (arena, "%u + %u + %u = %u", self->n_whole, self->n_for_cuts,
                               self->n_spare, self->n_tiles));
}

static void
add_sheet_counts (const DryPlanContext *context, const DryTileModule *module, DryTiling *self,
                  const DryTilePacking *packing)
{
  DryArena *arena = context->arena;

  add_count (context, self, "Whole sheets", self->n_whole_sheets, reckoned,
             dry_arena_printf (
                 arena, "%u sheets of %u x %u chips, %s x %s with a joint, hang whole",
                 self->n_whole_sheets, self->sheet_across, self->sheet_up,
                 dry_context_length (context, self->sheet_across * dry_tile_pitch_u (module)),
                 dry_context_length (context, self->sheet_up * dry_tile_row (module))));
  add_count (context, self, "Sheets cut by rows of chips", self->n_part_sheets, reckoned,
             dry_arena_printf (arena,
                               "the blocks at edges and openings come from %u sheets, remainders "
                               "used again; %u chips of them are sawn",
                               self->n_part_sheets, self->n_cut));
  add_count (context, self, "Spares", self->n_spare, packing->source,
             dry_arena_printf (arena, "%s%% of %u, for breakage and repairs: %u",
                               dry_number_text (arena, packing->breakage, 1),
                               self->n_whole_sheets + self->n_part_sheets, self->n_spare));
  add_count (context, self, "Sheets", self->n_sheets, reckoned,
             dry_arena_printf (arena, "%u + %u + %u = %u", self->n_whole_sheets,
                               self->n_part_sheets, self->n_spare, self->n_sheets));
}

/* What the finish says comes before the catalogue, and that before what is usual. */
DryTilePacking
dry_tile_packing (const DryPlanContext *context, const DryFinish *finish)
{
  const DryItem *item = finish->tile && context->catalog
                            ? dry_catalog_get_item (context->catalog, finish->tile)
                            : NULL;
  gboolean own = finish->chips_across > 0 && finish->chips_up > 0;
  DrySource said = {"set by you", DRY_CERTAINTY_DERIVED};
  DryTilePacking out = {.breakage = SPARE, .source = practice, .boxes = said};

  /* Other sizes typed over it: then it is another tile. */
  if (item && (item->kind != DRY_ITEM_TILE || item->tile_width != finish->tile_width ||
               item->tile_height != finish->tile_height))
    item = NULL;
  if (item) {
    out.across = item->sheet_across;
    out.up = item->sheet_up;
    out.box = item->box;
    out.boxes = item->packing_source;
    if (item->breakage > 0) {
      out.breakage = item->breakage;
      out.source = item->packing_source;
    }
  }
  if (own) {
    out.across = (guint) finish->chips_across;
    out.up = (guint) finish->chips_up;
  }
  if (finish->box > 0) {
    out.box = (guint) finish->box;
    out.boxes = said;
  }
  if (finish->breakage > 0) {
    out.breakage = finish->breakage;
    out.source = said;
  }
  return out;
}

static guint
count_spare (guint n, double percent)
{
  return (guint) ceil (percent / 100 * n - 1e-9);
}

void
dry_tile_count (const DryPlanContext *context, const DryFaces *faces, const DryTileModule *module,
                DryTiling *self)
{
  DryTilePacking packing = dry_tile_packing (context, &context->room->finish);
  guint chips = self->sheet_across > 0 ? self->sheet_across * self->sheet_up : 1;
  guint n;

  self->area_each = chips * area_of (module);
  measure_trim (faces, module, self);
  self->movement = measure_movement (faces, self);
  if (self->sheet_across > 0) {
    dry_tile_count_sheets (context, module, self);
    n = self->n_whole_sheets + self->n_part_sheets;
    self->n_spare = count_spare (n, packing.breakage);
    self->n_sheets = n + self->n_spare;
    self->n_tiles = self->n_sheets * chips;
    add_sheet_counts (context, module, self, &packing);
  } else {
    self->n_for_cuts = count_for_cuts (context, module, self);
    self->n_spare = count_spare (self->n_whole + self->n_for_cuts, packing.breakage);
    self->n_tiles = self->n_whole + self->n_for_cuts + self->n_spare;
    add_tile_counts (context, self, &packing);
  }
  self->box = packing.box;
  n = dry_tiling_to_buy (self);
  self->n_boxes = packing.box > 0 ? (n + packing.box - 1) / packing.box : 0;
  add_boxes (context, self, &packing);
  add_usual (context, self);
}
