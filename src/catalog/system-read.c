/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Reads a backer system: board, framing, fastening, joints, membrane, products, waits, labour.
 * It checks each value by itself; system-check.c checks them against each other. */
#define G_LOG_DOMAIN "drybay-catalog"
#include "catalog/read.h"
#include "catalog/system-read.h"

#define MAX_LIST  200
#define MAX_SHEET (10000 * DRY_MM)
#define MAX_THIN  (500 * DRY_MM)
#define MAX_GAP   (300 * DRY_MM)
#define MAX_SPACE (3000 * DRY_MM)

static const char *const DATUM_WORDS[] = {"deck", "flange-top", NULL};
static const char *const USE_WORDS[] = {"each", "length", "volume", "area", NULL};
static const char *const MEMBRANE_WORDS[] = {"none", "liquid", "sheet", NULL};

static gint64
read_price (DryJson object)
{
  return dry_json_integer_or (dry_json_opt (object, "price"), 0, DRY_CATALOG_MAX_PRICE, 0);
}

static void
read_sheets (DrySystem *self, DryJson array, DryArena *arena)
{
  guint n = dry_read_count (array, 0, MAX_LIST);
  DrySheet *sheets = dry_arena_new_array (arena, DrySheet, n);

  for (guint i = 0; i < n; i++) {
    DryJson object = dry_json_item (array, i);
    dry_json_only_keys (object, "id", "name", "width_mm", "height_mm", "price", NULL);
    sheets[i].id = dry_read_id (dry_json_get (object, "id"), arena);
    sheets[i].name = dry_read_text (dry_json_get (object, "name"), arena);
    sheets[i].width = dry_json_length (dry_json_get (object, "width_mm"), 50 * DRY_MM, MAX_SHEET);
    sheets[i].height = dry_json_length (dry_json_get (object, "height_mm"), 50 * DRY_MM, MAX_SHEET);
    sheets[i].price = read_price (object);
    if (sheets[i].height < sheets[i].width)
      dry_json_fail (object, DRY_ERROR_SCHEMA, "“height_mm” is the longer side of a sheet");
  }
  self->sheets = sheets;
  self->n_sheets = n;
}

static void
read_thicknesses (DrySystem *self, DryJson array, DryArena *arena)
{
  guint n = dry_read_count (array, 1, MAX_LIST);
  DryLengthFigure *figures = dry_arena_new_array (arena, DryLengthFigure, n);

  for (guint i = 0; i < n; i++)
    figures[i] = dry_read_length_figure (dry_json_item (array, i), DRY_MM, MAX_THIN, arena);
  self->thicknesses = figures;
  self->n_thicknesses = n;
}

static void
read_board (DrySystem *self, DryJson object, DryArena *arena)
{
  DryJson gaps = dry_json_get (object, "gaps");
  DryJson basin = dry_json_get (object, "basin");

  dry_json_only_keys (object, "sheets", "directional", "kerf_mm", "min_piece_mm", "cutting", "gaps",
                      "thicknesses", "mass", "basin", NULL);
  read_sheets (self, dry_json_get (object, "sheets"), arena);
  self->directional = dry_json_boolean_or (dry_json_opt (object, "directional"), FALSE);
  self->kerf = dry_json_length (dry_json_get (object, "kerf_mm"), 0, 25 * DRY_MM);
  self->min_piece = dry_json_length (dry_json_get (object, "min_piece_mm"), 0, MAX_THIN);
  self->cutting = dry_read_text (dry_json_get (object, "cutting"), arena);

  dry_json_only_keys (gaps, "joint_mm", "corner_mm", "source", "certainty", NULL);
  self->joint_gap = dry_json_length (dry_json_get (gaps, "joint_mm"), 0, 50 * DRY_MM);
  self->corner_gap = dry_json_length (dry_json_get (gaps, "corner_mm"), 0, 50 * DRY_MM);
  self->gap_source = dry_read_source (gaps, arena);

  read_thicknesses (self, dry_json_get (object, "thicknesses"), arena);
  self->mass = dry_read_number_figure (dry_json_get (object, "mass"), 0.1, 500, arena);

  dry_json_only_keys (basin, "datum", "gap", "spacers", NULL);
  self->basin_datum = (DryDatum) dry_json_choice (dry_json_get (basin, "datum"), DATUM_WORDS);
  self->basin_gap = dry_read_length_figure (dry_json_get (basin, "gap"), 0, MAX_GAP, arena);
  self->spacers = dry_json_boolean (dry_json_get (basin, "spacers"));
}

static void
read_framing (DrySystem *self, DryJson object, DryArena *arena)
{
  dry_json_only_keys (object, "stud_spacing_max", "ceiling_spacing_max", NULL);
  self->stud_spacing_max =
      dry_read_length_figure (dry_json_get (object, "stud_spacing_max"), DRY_MM, MAX_SPACE, arena);
  self->ceiling_spacing_max = dry_read_length_figure_or_none (
      dry_json_opt (object, "ceiling_spacing_max"), 0, MAX_SPACE, arena);
}

static void
read_cover (DrySystem *self, DryJson object, DryArena *arena)
{
  self->cover_fasteners = dry_json_is_present (object);
  if (!self->cover_fasteners)
    return;
  dry_json_only_keys (object, "name", "product", "per_fastener", NULL);
  self->fastener_cover = dry_read_text (dry_json_get (object, "name"), arena);
  self->cover_product = dry_read_id_or_null (dry_json_opt (object, "product"), arena);
  self->cover_per_fastener = dry_json_number_or (dry_json_opt (object, "per_fastener"), 0, 100, 0);
}

static void
read_fastening (DrySystem *self, DryJson object, DryArena *arena)
{
  dry_json_only_keys (object, "fastener", "washer", "washer_diameter_mm", "edge_spacing",
                      "field_spacing", "edge_distance", "edge_distance_min", "edge_distance_max",
                      "penetration", "cover", NULL);
  self->fastener = dry_read_id (dry_json_get (object, "fastener"), arena);
  self->washer = dry_read_id_or_null (dry_json_opt (object, "washer"), arena);
  self->washer_diameter =
      dry_json_length_or (dry_json_opt (object, "washer_diameter_mm"), 0, MAX_GAP, 0);
  self->edge_spacing =
      dry_read_length_figure (dry_json_get (object, "edge_spacing"), DRY_MM, MAX_SPACE, arena);
  self->field_spacing =
      dry_read_length_figure (dry_json_get (object, "field_spacing"), DRY_MM, MAX_SPACE, arena);
  self->edge_distance =
      dry_read_length_figure (dry_json_get (object, "edge_distance"), 0, MAX_GAP, arena);
  self->edge_distance_min =
      dry_read_length_figure (dry_json_get (object, "edge_distance_min"), 0, MAX_GAP, arena);
  self->edge_distance_max =
      dry_read_length_figure (dry_json_get (object, "edge_distance_max"), 0, MAX_GAP, arena);
  self->penetration =
      dry_read_length_figure (dry_json_get (object, "penetration"), 0, MAX_GAP, arena);
  read_cover (self, dry_json_opt (object, "cover"), arena);
}

static void
read_membrane (DrySystem *self, DryJson object, DryArena *arena)
{
  dry_json_only_keys (object, "kind", "needed", "product", "coats", "dry_film", "wet_film",
                      "overlap_mm", "mortar", NULL);
  self->membrane =
      (DryMembraneKind) dry_json_choice (dry_json_get (object, "kind"), MEMBRANE_WORDS);
  self->needs_membrane = dry_json_boolean (dry_json_get (object, "needed"));
  self->membrane_product = dry_read_id_or_null (dry_json_opt (object, "product"), arena);
  self->coats = (guint) dry_json_integer_or (dry_json_opt (object, "coats"), 0, 10, 0);
  self->dry_film = dry_read_number_figure_or_none (dry_json_opt (object, "dry_film"), 0, 10, arena);
  self->wet_film = dry_read_number_figure_or_none (dry_json_opt (object, "wet_film"), 0, 10, arena);
  self->membrane_overlap = dry_json_length_or (dry_json_opt (object, "overlap_mm"), 0, MAX_THIN, 0);
  self->mortar_product = dry_read_id_or_null (dry_json_opt (object, "mortar"), arena);
}

static void
read_products (DrySystem *self, DryJson array, DryArena *arena)
{
  guint n = dry_read_count (array, 1, MAX_LIST);
  DryProduct *products = dry_arena_new_array (arena, DryProduct, n);

  for (guint i = 0; i < n; i++) {
    DryJson object = dry_json_item (array, i);
    DryProduct *p = &products[i];
    dry_json_only_keys (object, "id", "name", "use", "unit", "rate", "pack", "pack_name", "price",
                        "source", "certainty", NULL);
    p->id = dry_read_id (dry_json_get (object, "id"), arena);
    p->name = dry_read_text (dry_json_get (object, "name"), arena);
    p->use = (DryUse) dry_json_choice (dry_json_get (object, "use"), USE_WORDS);
    p->unit = dry_read_text (dry_json_get (object, "unit"), arena);
    p->rate = dry_json_number_or (dry_json_opt (object, "rate"), 0.0001, 1000, 1);
    p->pack = dry_json_number (dry_json_get (object, "pack"), 0.0001, 1000000);
    p->pack_name = dry_read_text (dry_json_get (object, "pack_name"), arena);
    p->price = read_price (object);
    p->source = dry_read_source (object, arena);
    if (p->use == DRY_USE_AREA && !dry_json_is_present (dry_json_opt (object, "rate")))
      dry_json_fail (object, DRY_ERROR_SCHEMA, "a product used by area needs a “rate”");
    if (p->use != DRY_USE_AREA && (p->rate < 1 || p->rate > 1))
      dry_json_fail (dry_json_opt (object, "rate"), DRY_ERROR_SCHEMA,
                     "only a product used by area has a rate other than 1");
  }
  self->products = products;
  self->n_products = n;
}

static void
read_waits (DrySystem *self, DryJson array, DryArena *arena)
{
  guint n = dry_read_count (array, 0, MAX_LIST);
  DryWait *waits = dry_arena_new_array (arena, DryWait, n);

  for (guint i = 0; i < n; i++) {
    DryJson object = dry_json_item (array, i);
    dry_json_only_keys (object, "id", "name", "hours_min", "hours_max", "source", "certainty",
                        NULL);
    waits[i].id = dry_read_id (dry_json_get (object, "id"), arena);
    waits[i].name = dry_read_text (dry_json_get (object, "name"), arena);
    waits[i].hours_min = dry_json_number (dry_json_get (object, "hours_min"), 0, 10000);
    waits[i].hours_max = dry_json_number (dry_json_get (object, "hours_max"), 0, 10000);
    waits[i].source = dry_read_source (object, arena);
    if (waits[i].hours_max < waits[i].hours_min)
      dry_json_fail (object, DRY_ERROR_SCHEMA, "“hours_max” is less than “hours_min”");
  }
  self->waits = waits;
  self->n_waits = n;
}

static void
read_work (DrySystem *self, DryJson root, DryArena *arena)
{
  DryJson array = dry_json_get (root, "tools");
  DryJson tile = dry_json_get (root, "tile");
  guint n = dry_read_count (array, 0, MAX_LIST);
  const char **tools = dry_arena_new_array (arena, const char *, n);

  for (guint i = 0; i < n; i++)
    tools[i] = dry_read_text (dry_json_item (array, i), arena);
  self->tools = tools;
  self->n_tools = n;
  self->hours = dry_read_number_figure (dry_json_get (root, "hours"), 0, 1000, arena);
  self->sample_cost =
      dry_read_number_figure (dry_json_get (root, "sample_cost"), 0, 10000000, arena);
  dry_json_only_keys (tile, "mortar", "mass_max", NULL);
  self->tile_mortar = dry_read_text (dry_json_get (tile, "mortar"), arena);
  self->tile_mass_max =
      dry_read_number_figure_or_none (dry_json_opt (tile, "mass_max"), 0, 1000, arena);
  self->allows_floor = dry_json_boolean (dry_json_get (root, "allows_floor"));
  self->allows_steam = dry_json_boolean (dry_json_get (root, "allows_steam"));
}

const DrySystem *
dry_system_read (DryJson root, const char *file, DryArena *arena)
{
  DrySystem *self = dry_arena_new_array (arena, DrySystem, 1);

  if (!dry_read_head (root, "drybay-system"))
    return NULL;
  dry_json_only_keys (root, "format", "version", "note", "id", "name", "summary", "for", "against",
                      "board", "framing", "fastening", "treatments", "membrane", "products",
                      "waits", "tools", "hours", "sample_cost", "tile", "allows_floor",
                      "allows_steam", NULL);
  dry_json_string_or (dry_json_opt (root, "note"), NULL);
  self->file = dry_arena_strdup (arena, file);
  self->id = dry_read_id (dry_json_get (root, "id"), arena);
  self->name = dry_read_text (dry_json_get (root, "name"), arena);
  self->summary = dry_read_text (dry_json_get (root, "summary"), arena);
  self->for_it = dry_read_text (dry_json_get (root, "for"), arena);
  self->against_it = dry_read_text (dry_json_get (root, "against"), arena);
  read_board (self, dry_json_get (root, "board"), arena);
  read_framing (self, dry_json_get (root, "framing"), arena);
  read_fastening (self, dry_json_get (root, "fastening"), arena);
  dry_treatments_read (dry_json_get (root, "treatments"), self->treatments, arena);
  read_membrane (self, dry_json_get (root, "membrane"), arena);
  read_products (self, dry_json_get (root, "products"), arena);
  read_waits (self, dry_json_get (root, "waits"), arena);
  read_work (self, root, arena);
  if (!dry_json_has_failed (root.doc))
    dry_system_check (root, self);
  return dry_json_has_failed (root.doc) ? NULL : self;
}
