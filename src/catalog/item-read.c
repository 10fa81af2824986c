/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Reads the parts of the shelf: basins, parts on or in walls, openings and tiles.
 * An item is a ready value of the document; where it goes is the user's business. */
#define G_LOG_DOMAIN "drybay-catalog"
#include "catalog/item-read.h"
#include "catalog/read.h"

#define MAX_ITEMS 5000
#define MAX_ROOM  (20000 * DRY_MM)

static const char *const GROUP_WORDS[] = {"basins",         "niches", "fittings",
                                          "seats-and-bars", "glass",  "openings",
                                          "in-the-wall",    "tiles",  NULL};
static const char *const BASIN_WORDS[] = {"tub", "pan", NULL};
static const char *const DRAIN_WORDS[] = {"left", "right", "centre", "back", NULL};
static const char *const OPENING_WORDS[] = {"door", "window", "passage", NULL};

static DryLength
read_size (DryJson object, const char *key)
{
  return dry_json_length (dry_json_get (object, key), DRY_MM / 10, MAX_ROOM);
}

/* Sizes and heights that may be left out, then zero. */
static DryLength
read_size_or_none (DryJson object, const char *key)
{
  return dry_json_length_or (dry_json_opt (object, key), 0, MAX_ROOM, 0);
}

static gboolean
read_flag (DryJson object, const char *key)
{
  return dry_json_boolean_or (dry_json_opt (object, key), FALSE);
}

static void
read_basin (DryBasin *basin, DryJson object, const char *id)
{
  dry_json_only_keys (object, "kind", "length_mm", "width_mm", "height_mm", "flange_mm",
                      "flange_thickness_mm", "drain", "drain_diameter_mm", "drop_in", "recess_mm",
                      NULL);
  basin->item = (char *) id;
  basin->kind = (DryBasinKind) dry_json_choice (dry_json_get (object, "kind"), BASIN_WORDS);
  basin->length = read_size (object, "length_mm");
  basin->width = read_size (object, "width_mm");
  basin->height = dry_json_length (dry_json_get (object, "height_mm"), 0, MAX_ROOM);
  basin->flange = dry_json_length (dry_json_get (object, "flange_mm"), 0, MAX_ROOM);
  basin->flange_thickness = read_size_or_none (object, "flange_thickness_mm");
  basin->drain = (DryEnd) dry_json_choice (dry_json_get (object, "drain"), DRAIN_WORDS);
  basin->drain_diameter = read_size (object, "drain_diameter_mm");
  basin->drop_in = read_flag (object, "drop_in");
  basin->recess = read_size_or_none (object, "recess_mm");
}

static void
check_niche_body (DryJson object, const DryPart *part)
{
  if (part->kind != DRY_PART_NICHE) {
    if (part->body_width || part->body_height || part->flange || part->site_built)
      dry_json_fail (object, DRY_ERROR_SCHEMA,
                     "only a niche has a body, a flange or is built on site");
    return;
  }
  if (part->site_built ? part->body_width || part->body_height : !part->body_width)
    dry_json_fail (object, DRY_ERROR_SCHEMA,
                   "a niche is either “site_built” or has “body_width_mm” and "
                   "“body_height_mm”");
  else if (!part->site_built &&
           (part->body_width < part->width || part->body_height < part->height))
    dry_json_fail (object, DRY_ERROR_SCHEMA, "the body is smaller than the niche's opening");
}

static void
read_part (DryPart *part, DryJson object, const char *id)
{
  DryJson kind = dry_json_get (object, "kind");
  const char *word = dry_json_string (kind);

  dry_json_only_keys (object, "kind", "z_mm", "width_mm", "height_mm", "depth_mm", "hole_mm",
                      "body_width_mm", "body_height_mm", "flange_mm", "site_built", "fold_down",
                      "safety_glass", "hinged", "toward_entry", "pitch", "flow_lpm", "trim_min_mm",
                      "trim_max_mm", NULL);
  if (dry_json_has_failed (object.doc))
    return;
  if (!dry_part_kind_from_text (word, &part->kind))
    dry_json_fail (kind, DRY_ERROR_SCHEMA, "there is no part of the kind “%.64s”", word);
  part->item = (char *) id;
  part->z = dry_json_length (dry_json_get (object, "z_mm"), 0, MAX_ROOM);
  part->width = read_size (object, "width_mm");
  part->height = read_size (object, "height_mm");
  part->depth = read_size_or_none (object, "depth_mm");
  part->hole = read_size_or_none (object, "hole_mm");
  part->body_width = read_size_or_none (object, "body_width_mm");
  part->body_height = read_size_or_none (object, "body_height_mm");
  part->flange = read_size_or_none (object, "flange_mm");
  part->trim_min = read_size_or_none (object, "trim_min_mm");
  part->trim_max = read_size_or_none (object, "trim_max_mm");
  part->site_built = read_flag (object, "site_built");
  part->fold_down = read_flag (object, "fold_down");
  part->safety_glass = read_flag (object, "safety_glass");
  part->hinged = read_flag (object, "hinged");
  part->toward_entry = read_flag (object, "toward_entry");
  part->pitch = dry_json_number_or (dry_json_opt (object, "pitch"), 0, 1, 0);
  part->flow_lpm = dry_json_number_or (dry_json_opt (object, "flow_lpm"), 0, 200, 0);
  if (!dry_json_has_failed (object.doc))
    check_niche_body (object, part);
}

static void
read_opening (DryOpening *opening, DryJson object)
{
  dry_json_only_keys (object, "kind", "z_mm", "width_mm", "height_mm", "safety_glass",
                      "sloped_sill", "wooden_jamb", NULL);
  opening->kind = (DryOpeningKind) dry_json_choice (dry_json_get (object, "kind"), OPENING_WORDS);
  opening->z = read_size_or_none (object, "z_mm");
  opening->width = read_size (object, "width_mm");
  opening->height = read_size (object, "height_mm");
  opening->safety_glass = read_flag (object, "safety_glass");
  opening->sloped_sill = read_flag (object, "sloped_sill");
  opening->wooden_jamb = read_flag (object, "wooden_jamb");
  if (opening->kind != DRY_OPENING_WINDOW && opening->z > 0)
    dry_json_fail (dry_json_opt (object, "z_mm"), DRY_ERROR_SCHEMA, "only a window has a sill");
}

/* A sheet has at least two chips; else it would be a tile. */
static void
read_packing (DryItem *item, DryJson object, DryArena *arena)
{
  DryJson sheet = dry_json_opt (object, "sheet");

  dry_json_only_keys (object, "sheet", "box", "breakage_percent", "source", "certainty", NULL);
  if (dry_json_is_present (sheet)) {
    dry_json_only_keys (sheet, "across", "up", NULL);
    item->sheet_across = (guint) dry_json_integer (dry_json_get (sheet, "across"), 1, 200);
    item->sheet_up = (guint) dry_json_integer (dry_json_get (sheet, "up"), 1, 200);
    if (item->sheet_across * item->sheet_up < 2)
      dry_json_fail (sheet, DRY_ERROR_SCHEMA, "a sheet has at least two chips");
  }
  item->box = (guint) dry_json_integer_or (dry_json_opt (object, "box"), 0, DRY_MAX_COUNT, 0);
  item->breakage = dry_json_number_or (dry_json_opt (object, "breakage_percent"), 0, 100, 0);
  item->packing_source = dry_read_source (object, arena);
}

static void
read_tile (DryItem *item, DryJson object, DryArena *arena)
{
  dry_json_only_keys (object, "width_mm", "height_mm", "thickness_mm", "joint_mm", "mass",
                      "packing", NULL);
  item->tile_width = read_size (object, "width_mm");
  item->tile_height = read_size (object, "height_mm");
  item->tile_thickness =
      dry_json_length (dry_json_get (object, "thickness_mm"), DRY_MM, 100 * DRY_MM);
  item->joint = dry_json_length (dry_json_get (object, "joint_mm"), 0, 50 * DRY_MM);
  item->tile_mass = dry_json_number (dry_json_get (object, "mass"), 0.1, 500);
  if (dry_json_is_present (dry_json_opt (object, "packing")))
    read_packing (item, dry_json_get (object, "packing"), arena);
}

/* Exactly one of the four values says what the item is. */
static void
read_value (DryItem *item, DryJson object, DryArena *arena)
{
  static const char *const KEYS[] = {"basin", "part", "opening", "tile"};
  gint found = -1;

  for (guint i = 0; i < G_N_ELEMENTS (KEYS); i++)
    if (dry_json_is_present (dry_json_opt (object, KEYS[i]))) {
      if (found >= 0)
        dry_json_fail (object, DRY_ERROR_SCHEMA, "has both “%s” and “%s”", KEYS[found], KEYS[i]);
      found = (gint) i;
    }
  if (found < 0) {
    dry_json_fail (object, DRY_ERROR_SCHEMA, "needs one of “basin”, “part”, “opening”, “tile”");
    return;
  }
  item->kind = (DryItemKind) found;
  object = dry_json_get (object, KEYS[found]);
  if (item->kind == DRY_ITEM_BASIN)
    read_basin (&item->basin, object, item->id);
  else if (item->kind == DRY_ITEM_PART)
    read_part (&item->part, object, item->id);
  else if (item->kind == DRY_ITEM_OPENING)
    read_opening (&item->opening, object);
  else
    read_tile (item, object, arena);
}

static DryItem
read_item (DryJson object, DryArena *arena)
{
  DryItem item = {0};

  dry_json_only_keys (object, "id", "name", "group", "source", "certainty", "basin", "part",
                      "opening", "tile", NULL);
  item.id = dry_read_id (dry_json_get (object, "id"), arena);
  item.name = dry_read_text (dry_json_get (object, "name"), arena);
  item.group = GROUP_WORDS[dry_json_choice (dry_json_get (object, "group"), GROUP_WORDS)];
  item.source = dry_read_source (object, arena);
  if (!dry_json_has_failed (object.doc))
    read_value (&item, object, arena);
  return item;
}

GArray *
dry_items_read (DryJson root, DryArena *arena)
{
  GArray *items = g_array_new (FALSE, FALSE, sizeof (DryItem));
  DryJson array;
  guint n;

  if (!dry_read_head (root, "drybay-items"))
    return items;
  dry_json_only_keys (root, "format", "version", "note", "items", NULL);
  dry_json_string_or (dry_json_opt (root, "note"), NULL);
  array = dry_json_get (root, "items");
  n = dry_read_count (array, 0, MAX_ITEMS);
  for (guint i = 0; i < n && !dry_json_has_failed (root.doc); i++) {
    DryItem item = read_item (dry_json_item (array, i), arena);
    g_array_append_val (items, item);
  }
  if (dry_json_has_failed (root.doc))
    g_array_set_size (items, 0);
  return items;
}
