/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Values of the shipped catalogue against the standards and trade texts they claim to come from,
 * and against each other. The source stands beside each expected value. */
#include "scratch.h"

#include <math.h>
#include <string.h>

#define IN(n) ((DryLength) ((n) *25400000.0))

#define SQFT        0.09290304
#define POUND       0.45359237
#define GALLON      3.785411784
#define FILM_NUMBER 1604.17 /* ft2 per US gal per mil: 231 in3/gal / 0.001 in / 144 */

/* Lengths of a system, found by where they stand in it. */
#define FIGURE(member) G_STRUCT_OFFSET (DrySystem, member)

static void
test_lengths (void)
{
  static const struct {
    const char *system;
    gsize figure;
    DryLength expected;
    const char *source; /* must begin so; NULL: common practice, no source */
  } ROWS[] = {
      /* ANSI A108.11 as reported: 8 in on walls, 3/8 to 5/8 in from edges. */
      {"cement-liquid", FIGURE (edge_spacing), IN (8), "ANSI A108.11"},
      {"cement-liquid", FIGURE (field_spacing), IN (8), "ANSI A108.11"},
      {"cement-liquid", FIGURE (edge_distance_min), IN (0.375), "ANSI A108.11"},
      {"cement-sheet", FIGURE (edge_spacing), IN (8), "ANSI A108.11"},
      {"cement-sheet", FIGURE (field_spacing), IN (8), "ANSI A108.11"},
      {"cement-sheet", FIGURE (edge_distance_min), IN (0.375), "ANSI A108.11"},
      /* IRC 2012 R702.3.8: 1/2 in board on ceilings only at 12 in. */
      {"glass-mat-liquid", FIGURE (ceiling_spacing_max), IN (12), "IRC 2012 R702.3.8"},
      /* The trade's habits. */
      {"cement-liquid", FIGURE (edge_distance), IN (1), NULL},
      {"cement-liquid", FIGURE (edge_distance_max), IN (1), NULL},
      {"cement-liquid", FIGURE (basin_gap), IN (1), NULL},
      {"cement-liquid", FIGURE (stud_spacing_max), IN (16), NULL},
      {"cement-sheet", FIGURE (basin_gap), IN (1), NULL},
      {"foam-bands", FIGURE (edge_spacing), IN (12), NULL},
      {"foam-bands", FIGURE (field_spacing), IN (12), NULL},
      {"foam-bands", FIGURE (edge_distance), IN (0.5), NULL},
      {"foam-bands", FIGURE (edge_distance_min), IN (0.375), NULL},
      {"foam-bands", FIGURE (stud_spacing_max), IN (16), NULL},
      {"foam-bands", FIGURE (basin_gap), IN (0.125), NULL},
      {"foam-sealant", FIGURE (edge_spacing), IN (12), NULL},
      {"foam-sealant", FIGURE (stud_spacing_max), IN (16), NULL},
      {"foam-sealant", FIGURE (basin_gap), IN (0.125), NULL},
      {"fibre-cement", FIGURE (edge_distance_min), IN (0.375), NULL},
      {"mortar-bed", FIGURE (edge_spacing), IN (6), NULL},
  };
  g_autoptr (DryCatalog) catalog = scratch_load_shipped ();

  for (guint i = 0; i < G_N_ELEMENTS (ROWS); i++) {
    const DrySystem *system = dry_catalog_get_system (catalog, ROWS[i].system);
    const DryLengthFigure *figure = &G_STRUCT_MEMBER (DryLengthFigure, system, ROWS[i].figure);
    g_test_message ("row %u, %s", i, ROWS[i].system);
    g_assert_cmpint (figure->value, ==, ROWS[i].expected);
    if (ROWS[i].source) {
      g_assert_true (g_str_has_prefix (figure->source.text, ROWS[i].source));
      g_assert_cmpint (figure->source.certainty, ==, DRY_CERTAINTY_SECONDARY);
    } else {
      g_assert_true (g_str_has_prefix (figure->source.text, "common practice, no source"));
      g_assert_cmpint (figure->source.certainty, ==, DRY_CERTAINTY_COMMON_PRACTICE);
    }
  }
}

static void
test_boards (void)
{
  g_autoptr (DryCatalog) catalog = scratch_load_shipped ();
  const DrySystem *cement = dry_catalog_get_system (catalog, "cement-liquid");
  const DrySystem *foam = dry_catalog_get_system (catalog, "foam-bands");

  g_assert_cmpint (cement->basin_datum, ==, DRY_DATUM_DECK);
  g_assert_true (cement->spacers);
  g_assert_cmpint (foam->basin_datum, ==, DRY_DATUM_FLANGE_TOP);
  g_assert_cmpint (foam->washer_diameter, ==, IN (1.25));
  g_assert_cmpint (cement->joint_gap, ==, IN (0.125)); /* ANSI A108.11 as reported: at most 1/8 */
  g_assert_cmpint (foam->joint_gap, ==, 0);
  for (guint i = 0; i < dry_catalog_get_n_systems (catalog); i++) {
    const DrySystem *s = dry_catalog_get_system_at (catalog, i);
    gboolean is_foam = g_str_has_prefix (s->id, "foam");
    const DrySheet *three = dry_system_get_sheet (s, "3x5"),
                   *four = dry_system_get_sheet (s, "4x8");
    /* Only foam boards are watertight by themselves. */
    g_assert_true (s->needs_membrane == !is_foam);
    g_assert_true ((s->washer != NULL) == is_foam);
    g_assert_cmpint (s->thicknesses[0].value, ==, s->n_sheets ? IN (0.5) : IN (0.75));
    if (s->n_sheets == 0)
      continue;
    g_assert_cmpint (three->width, ==, IN (36));
    g_assert_cmpint (three->height, ==, IN (60));
    g_assert_cmpint (four->width, ==, IN (48));
    g_assert_cmpint (four->height, ==, IN (96));
    /* A stud shared by two boards gives each 3/4 in: some allowed distance must fit in it. */
    g_assert_cmpint (s->edge_distance_min.value, <, IN (0.75));
  }
}

/* Pounds a square foot: board, cement 2.4 to 3.2 and foam 0.3 to 0.6 in data sheets, from memory;
 * gypsum board 2.2 for 1/2 in, ASCE 7-05 C3-1. */
static void
test_masses (void)
{
  static const struct {
    const char *system;
    double low, high;
  } ROWS[] = {
      {"cement-liquid", 2.4, 3.2}, {"cement-sheet", 2.4, 3.2}, {"foam-bands", 0.3, 0.6},
      {"foam-sealant", 0.3, 0.6},  {"fibre-cement", 1.9, 2.6}, {"mortar-bed", 9, 11},
  };
  g_autoptr (DryCatalog) catalog = scratch_load_shipped ();
  const DrySystem *glass_mat = dry_catalog_get_system (catalog, "glass-mat-liquid");

  for (guint i = 0; i < G_N_ELEMENTS (ROWS); i++) {
    double psf = dry_catalog_get_system (catalog, ROWS[i].system)->mass.value * SQFT / POUND;
    g_assert_cmpfloat (psf, >=, ROWS[i].low - 1e-6);
    g_assert_cmpfloat (psf, <=, ROWS[i].high + 1e-6);
  }
  g_assert_cmpfloat_with_epsilon (glass_mat->mass.value * SQFT / POUND, 4 * 0.55, 1e-6);
  g_assert_true (g_str_has_prefix (glass_mat->mass.source.text, "ASCE 7-05 C3-1"));
}

static void
test_joints (void)
{
  g_autoptr (DryCatalog) catalog = scratch_load_shipped ();
  const DrySystem *cement = dry_catalog_get_system (catalog, "cement-liquid");
  const DrySystem *bands = dry_catalog_get_system (catalog, "foam-bands");
  const DrySystem *sealant = dry_catalog_get_system (catalog, "foam-sealant");
  static const DryJointKind BANDED[] = {DRY_JOINT_SEAM,  DRY_JOINT_INSIDE_CORNER,
                                        DRY_JOINT_BASIN, DRY_JOINT_OUTSIDE_CORNER,
                                        DRY_JOINT_NICHE, DRY_JOINT_DRYWALL};

  /* TCNA B412-19: 2 in alkali-resistant mesh; corners open, taped, not filled. */
  g_assert_cmpint (cement->treatments[DRY_JOINT_SEAM].kind, ==, DRY_TREAT_MESH);
  g_assert_cmpint (cement->treatments[DRY_JOINT_SEAM].width, ==, IN (2));
  g_assert_cmpstr (cement->treatments[DRY_JOINT_SEAM].source.text, ==, "TCNA B412-19");
  g_assert_cmpint (cement->corner_gap, >, 0);
  g_assert_null (cement->treatments[DRY_JOINT_INSIDE_CORNER].fill);
  g_assert_cmpint (cement->treatments[DRY_JOINT_DRYWALL].kind, ==, DRY_TREAT_FILLER);
  /* Bands 5 in wide with 2 in laps wherever boards meet, round the niche, to the drywall. */
  for (guint i = 0; i < G_N_ELEMENTS (BANDED); i++) {
    const DryTreatment *t = &bands->treatments[BANDED[i]];
    g_assert_cmpint (t->kind, ==, DRY_TREAT_BAND);
    g_assert_cmpint (t->width, ==, IN (5));
    g_assert_cmpint (t->overlap, ==, IN (2));
    g_assert_cmpstr (t->bedding, ==, "mortar-unmodified");
    g_assert_cmpint (sealant->treatments[BANDED[i]].kind, ==, DRY_TREAT_BEAD);
    g_assert_cmpint (sealant->treatments[BANDED[i]].width, ==, IN (0.25));
    g_assert_cmpint (sealant->treatments[BANDED[i]].smear, ==, IN (1));
  }
  g_assert_cmpstr (bands->cover_product, ==, "band-5");
  /* A patch covers its washer by the 1-7/8 in that a 5 in square leaves all round. */
  g_assert_cmpfloat_with_epsilon (bands->cover_per_fastener, 0.127, 1e-9);
  g_assert_cmpfloat_with_epsilon (dry_system_get_wait (sealant, "tile")->hours_min, 2, 1e-12);
  /* ASTM D5957-98 5.3: a membrane cures at least 24 h before a test made to it. */
  g_assert_cmpfloat (dry_system_get_wait (cement, "flood-test")->hours_min, >=, 24);
  g_assert_cmpfloat (dry_system_get_wait (bands, "flood-test")->hours_min, >=, 24);
}

/* Consumption, wet film, dry film and coverage are one fact told four ways. */
static void
test_films (void)
{
  g_autoptr (DryCatalog) catalog = scratch_load_shipped ();
  guint n_liquid = 0;

  for (guint i = 0; i < dry_catalog_get_n_systems (catalog); i++) {
    const DrySystem *s = dry_catalog_get_system_at (catalog, i);
    const DryProduct *membrane = dry_system_get_product (s, s->membrane_product);
    double coverage, solids, mils;
    if (s->membrane != DRY_MEMBRANE_LIQUID)
      continue;
    n_liquid++;
    g_assert_cmpuint (s->coats, ==, 2);
    g_assert_cmpstr (membrane->unit, ==, "L");
    /* 1 L/m2 lies 1 mm thick. */
    g_assert_cmpfloat_with_epsilon (membrane->rate, s->wet_film.value, 1e-6);
    coverage = GALLON / (membrane->rate * s->coats) / SQFT;
    g_assert_cmpfloat (coverage, >=, 50 - 1e-3); /* 50 to 60 ft2/gal in all */
    g_assert_cmpfloat (coverage, <=, 60 + 1e-3);
    /* coverage = 1604 x solids / dry mils (coating references) */
    solids = s->dry_film.value / (s->wet_film.value * s->coats);
    mils = s->dry_film.value / 0.0254;
    g_assert_cmpfloat_with_epsilon (coverage, FILM_NUMBER * solids / mils, 0.01);
    g_assert_cmpfloat (solids, >=, 0.5);
    g_assert_cmpfloat (solids, <=, 0.9);
    g_assert_cmpfloat (mils, >=, 20 - 1e-6); /* 20 to 30 mil dry, data sheets, from memory */
    g_assert_cmpfloat (mils, <=, 30 + 1e-6);
  }
  g_assert_cmpuint (n_liquid, ==, 4);
}

/* ft2 for 50 lb by notch, as printed on how-to pages: 1/4 x 1/4 80-100, 1/4 x 3/8 60-80. */
static void
test_mortars (void)
{
  g_autoptr (DryCatalog) catalog = scratch_load_shipped ();
  static const struct {
    const char *system, *product;
    double low, high;
  } ROWS[] = {
      {"cement-sheet", "mortar-unmodified", 80, 100}, {"foam-bands", "mortar-unmodified", 80, 100},
      {"cement-liquid", "tile-mortar", 60, 80},       {"foam-bands", "tile-mortar", 60, 80},
      {"mortar-bed", "tile-mortar", 60, 80},
  };

  for (guint i = 0; i < G_N_ELEMENTS (ROWS); i++) {
    const DrySystem *system = dry_catalog_get_system (catalog, ROWS[i].system);
    const DryProduct *mortar = dry_system_get_product (system, ROWS[i].product);
    double sqft = 50 * POUND / mortar->rate / SQFT;
    g_assert_cmpfloat (sqft, >=, ROWS[i].low);
    g_assert_cmpfloat (sqft, <=, ROWS[i].high);
    g_assert_cmpfloat_with_epsilon (mortar->pack, 50 * POUND, 1e-5);
  }
  /* 10.1 fl oz are 18.227 in3. */
  g_assert_cmpfloat_with_epsilon (
      dry_system_get_product (dry_catalog_get_system (catalog, "foam-bands"), "sealant")->pack,
      18.227 * 0.016387064, 1e-4);
}

static void
check_part (const DryItem *item)
{
  const DryPart *part = &item->part;

  switch (part->kind) {
  case DRY_PART_NICHE:
    /* A bay at 16 in is 14-1/2 in clear; a body needs 1/4 in more than itself. */
    if (!part->site_built && part->width <= IN (14))
      g_assert_cmpint (part->body_width + IN (0.25), <=, IN (14.5));
    g_assert_cmpint (part->z, ==, IN (48));
    g_assert_cmpfloat (part->pitch, >=, 0.0208); /* 1/4 in per ft */
    break;
  case DRY_PART_VALVE:
    g_assert_cmpint (part->hole, ==, IN (3));
    break;
  case DRY_PART_SPOUT:
    g_assert_cmpint (part->hole, ==, IN (1));
    break;
  case DRY_PART_SHOWER_HEAD:
    g_assert_cmpint (part->hole, ==, IN (1));
    g_assert_cmpfloat (part->flow_lpm, <=, 2.5 * GALLON + 1e-6); /* Energy Policy Act 1992 */
    break;
  case DRY_PART_GRAB_BAR:
    g_assert_cmpint (part->z, >=, IN (33)); /* ADA 609.4 */
    g_assert_cmpint (part->z, <=, IN (36));
    g_assert_cmpint (part->height, >=, IN (1.25)); /* ADA 609.2 */
    g_assert_cmpint (part->height, <=, IN (2));
    g_assert_cmpint (part->depth - part->height, ==, IN (1.5)); /* ADA 609.3 */
    break;
  case DRY_PART_BENCH:
    g_assert_cmpint (part->z, >=, IN (17)); /* ADA 610.3 */
    g_assert_cmpint (part->z, <=, IN (19));
    g_assert_cmpint (part->depth, >=, IN (15)); /* ADA 610.3.1 */
    g_assert_cmpint (part->depth, <=, IN (16));
    break;
  case DRY_PART_GLASS:
    g_assert_true (part->safety_glass); /* IRC 2012 R308.3.1, R308.4.5 */
    break;
  default:
    break;
  }
}

static void
check_basin (const DryItem *item)
{
  const DryBasin *basin = &item->basin;
  gboolean is_flangeless = strstr (item->id, "drop-in") || strstr (item->id, "flangeless");

  g_assert_cmpint (basin->length, >=, basin->width);
  if (basin->kind == DRY_BASIN_TUB) {
    g_assert_cmpint (basin->drain_diameter, ==, IN (1.5));
    g_assert_true (is_flangeless == (basin->flange == 0));
    return;
  }
  g_assert_cmpint (basin->drain_diameter, >=, IN (2)); /* UPC 2012 408.4 */
  if (strstr (item->id, "roll-in")) {
    g_assert_cmpint (basin->length, >=, IN (60)); /* ADA 608.2.2 */
    g_assert_cmpint (basin->width, >=, IN (30));
    g_assert_cmpint (basin->height, <=, IN (0.5)); /* ADA 608.7 */
  } else {
    g_assert_cmpint (basin->height, >=, IN (2)); /* IRC P2709.1: 2 to 9 in above the drain */
    g_assert_cmpint (basin->height, <=, IN (9));
  }
}

static void
test_items (void)
{
  g_autoptr (DryCatalog) catalog = scratch_load_shipped ();

  for (guint i = 0; i < dry_catalog_get_n_items (catalog); i++) {
    const DryItem *item = dry_catalog_get_item_at (catalog, i);
    g_test_message ("%s", item->id);
    if (item->kind == DRY_ITEM_PART)
      check_part (item);
    else if (item->kind == DRY_ITEM_BASIN)
      check_basin (item);
    else if (item->kind == DRY_ITEM_TILE) {
      g_assert_cmpint (item->joint, >=, IN (0.0625)); /* ANSI A108.02-2017 4.3.8 */
      g_assert_cmpint (item->tile_width, >=, item->tile_height);
      g_assert_cmpfloat (item->tile_mass, >, 5);
      g_assert_cmpfloat (item->tile_mass, <, 30);
    }
  }
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/catalog/values/lengths", test_lengths);
  g_test_add_func ("/catalog/values/boards", test_boards);
  g_test_add_func ("/catalog/values/masses", test_masses);
  g_test_add_func ("/catalog/values/joints", test_joints);
  g_test_add_func ("/catalog/values/films", test_films);
  g_test_add_func ("/catalog/values/mortars", test_mortars);
  g_test_add_func ("/catalog/values/items", test_items);
  return g_test_run ();
}
