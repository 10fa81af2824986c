/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The shipped catalogue loads, every figure has an honest source, and what other floors name is
 * there. Whether single values are right is test-values.c's question. */
#include "scratch.h"

#include <string.h>

static const char *const SYSTEMS[] = {"cement-liquid", "cement-sheet",     "foam-bands",
                                      "foam-sealant",  "glass-mat-liquid", "fibre-cement",
                                      "mortar-bed"};

static void
test_systems_are_there (void)
{
  g_autoptr (DryCatalog) catalog = scratch_load_shipped ();

  g_assert_cmpuint (dry_catalog_get_n_systems (catalog), ==, G_N_ELEMENTS (SYSTEMS));
  for (guint i = 0; i < G_N_ELEMENTS (SYSTEMS); i++) {
    const DrySystem *system = dry_catalog_get_system (catalog, SYSTEMS[i]);
    g_assert_nonnull (system);
    g_assert_cmpstr (system->id, ==, SYSTEMS[i]);
    g_assert_true (g_str_has_suffix (system->file, ".json"));
  }
  g_assert_null (dry_catalog_get_system (catalog, "no-such-system"));
  g_assert_null (dry_catalog_get_system (catalog, NULL));
}

/* The word for the certainty and the words of the source must not contradict each other. */
static void
check_source (const char *system, const char *what, DrySource source)
{
  gboolean says_practice, says_memory, says_invented;

  if (!source.text || !source.text[0])
    g_error ("%s: %s has no source", system, what);
  says_practice = strstr (source.text, "common practice") != NULL;
  says_memory = strstr (source.text, "memory") != NULL;
  says_invented = strstr (source.text, "invented") != NULL;
  switch (source.certainty) {
  case DRY_CERTAINTY_PUBLISHED:
  case DRY_CERTAINTY_SECONDARY:
    if (says_practice || says_memory || says_invented)
      g_error ("%s: %s claims to be published: %s", system, what, source.text);
    break;
  case DRY_CERTAINTY_INVENTED:
    if (!says_invented)
      g_error ("%s: %s is invented and does not say so: %s", system, what, source.text);
    break;
  default:
    break;
  }
}

static void
check_length (const char *system, const char *what, DryLengthFigure figure)
{
  check_source (system, what, figure.source);
  g_assert_cmpint (figure.value, >=, 0);
}

static void
test_figures_have_sources (void)
{
  g_autoptr (DryCatalog) catalog = scratch_load_shipped ();

  for (guint i = 0; i < dry_catalog_get_n_systems (catalog); i++) {
    const DrySystem *s = dry_catalog_get_system_at (catalog, i);
    check_source (s->id, "gap", s->gap_source);
    for (guint t = 0; t < s->n_thicknesses; t++)
      check_length (s->id, "thickness", s->thicknesses[t]);
    check_source (s->id, "mass", s->mass.source);
    check_length (s->id, "stud spacing", s->stud_spacing_max);
    check_length (s->id, "ceiling spacing", s->ceiling_spacing_max);
    check_length (s->id, "edge spacing", s->edge_spacing);
    check_length (s->id, "field spacing", s->field_spacing);
    check_length (s->id, "edge distance", s->edge_distance);
    check_length (s->id, "least edge distance", s->edge_distance_min);
    check_length (s->id, "most edge distance", s->edge_distance_max);
    check_length (s->id, "penetration", s->penetration);
    check_length (s->id, "gap at the basin", s->basin_gap);
    for (guint kind = 0; kind < DRY_N_JOINT_KINDS; kind++)
      check_source (s->id, dry_joint_kind_to_text ((DryJointKind) kind),
                    s->treatments[kind].source);
    for (guint p = 0; p < s->n_products; p++)
      check_source (s->id, s->products[p].id, s->products[p].source);
    for (guint w = 0; w < s->n_waits; w++)
      check_source (s->id, s->waits[w].id, s->waits[w].source);
    check_source (s->id, "hours", s->hours.source);
    check_source (s->id, "sample cost", s->sample_cost.source);
    g_assert_cmpint (s->sample_cost.source.certainty, ==, DRY_CERTAINTY_INVENTED);
    if (s->membrane == DRY_MEMBRANE_LIQUID) {
      check_source (s->id, "dry film", s->dry_film.source);
      check_source (s->id, "wet film", s->wet_film.source);
    }
  }
  for (guint i = 0; i < dry_catalog_get_n_items (catalog); i++) {
    const DryItem *item = dry_catalog_get_item_at (catalog, i);
    check_source (item->id, item->name, item->source);
  }
}

static void
test_systems_are_complete (void)
{
  g_autoptr (DryCatalog) catalog = scratch_load_shipped ();
  static const char *const WAITS[] = {"tile", "flood-test", "grout", "shower"};

  for (guint i = 0; i < dry_catalog_get_n_systems (catalog); i++) {
    const DrySystem *s = dry_catalog_get_system_at (catalog, i);
    gboolean is_bed = g_str_equal (s->id, "mortar-bed");
    g_assert_true (is_bed == (s->n_sheets == 0));
    for (guint w = 0; w < G_N_ELEMENTS (WAITS); w++)
      g_assert_nonnull (dry_system_get_wait (s, WAITS[w]));
    g_assert_true ((s->membrane == DRY_MEMBRANE_LIQUID) ==
                   (dry_system_get_wait (s, "recoat") != NULL));
    g_assert_nonnull (dry_system_get_product (s, s->fastener));
    g_assert_nonnull (dry_system_get_product (s, "tile-mortar"));
    g_assert_cmpuint (s->n_tools, >, 0);
    g_assert_cmpfloat (s->hours.value, >, 0);
    g_assert_cmpfloat (s->sample_cost.value, >, 0);
    for (guint sheet = 0; sheet < s->n_sheets; sheet++) {
      g_assert_cmpint (s->sheets[sheet].price, >, 0);
      g_assert_true (dry_system_get_sheet (s, s->sheets[sheet].id) == &s->sheets[sheet]);
    }
    /* Without a membrane the joints alone must keep water out wherever two boards meet. */
    if (s->membrane == DRY_MEMBRANE_NONE) {
      static const DryJointKind WET[] = {DRY_JOINT_SEAM,  DRY_JOINT_INSIDE_CORNER,
                                         DRY_JOINT_BASIN, DRY_JOINT_OUTSIDE_CORNER,
                                         DRY_JOINT_NICHE, DRY_JOINT_PENETRATION};
      g_assert_true (s->cover_fasteners);
      g_assert_cmpfloat (s->cover_per_fastener, >, 0);
      for (guint k = 0; k < G_N_ELEMENTS (WET); k++)
        g_assert_true (s->treatments[WET[k]].watertight);
    }
  }
}

static void
test_items_named_elsewhere (void)
{
  static const struct {
    const char *id, *group;
    DryItemKind kind;
  } NAMED[] = {
      {"tub-60x30", "basins", DRY_ITEM_BASIN},
      {"pan-60x36", "basins", DRY_ITEM_BASIN},
      {"niche-12x20", "niches", DRY_ITEM_PART},
      {"valve-mixer", "fittings", DRY_ITEM_PART},
      {"spout-tub", "fittings", DRY_ITEM_PART},
      {"head-shower", "fittings", DRY_ITEM_PART},
      {"hand-shower", "fittings", DRY_ITEM_PART},
      {"bar-24", "seats-and-bars", DRY_ITEM_PART},
      {"bench-built-48", "seats-and-bars", DRY_ITEM_PART},
      {"glass-panel-30", "glass", DRY_ITEM_PART},
      {"window-30x36", "openings", DRY_ITEM_OPENING},
      {"pipe-2", "in-the-wall", DRY_ITEM_PART},
      {"vent-3", "in-the-wall", DRY_ITEM_PART},
      {"tile-12x24", "tiles", DRY_ITEM_TILE},
  };
  g_autoptr (DryCatalog) catalog = scratch_load_shipped ();

  for (guint i = 0; i < G_N_ELEMENTS (NAMED); i++) {
    const DryItem *item = dry_catalog_get_item (catalog, NAMED[i].id);
    g_assert_nonnull (item);
    g_assert_cmpint (item->kind, ==, NAMED[i].kind);
    g_assert_cmpstr (item->group, ==, NAMED[i].group);
    if (item->kind == DRY_ITEM_BASIN)
      g_assert_cmpstr (item->basin.item, ==, item->id);
    if (item->kind == DRY_ITEM_PART) {
      g_assert_cmpstr (item->part.item, ==, item->id);
      g_assert_cmpuint (item->part.id, ==, 0);
      g_assert_cmpuint (item->part.wall, ==, 0);
    }
  }
}

static void
test_joint_words (void)
{
  for (guint i = 0; i < DRY_N_JOINT_KINDS; i++) {
    DryJointKind back = DRY_N_JOINT_KINDS;
    g_assert_true (dry_joint_kind_from_text (dry_joint_kind_to_text ((DryJointKind) i), &back));
    g_assert_cmpint (back, ==, i);
    g_assert_cmpint (strlen (dry_joint_kind_name ((DryJointKind) i)), >, 0);
  }
  g_assert_false (dry_joint_kind_from_text ("Seam", &(DryJointKind){DRY_JOINT_SEAM}));
}

/* The same files give the same catalogue, in the same order. */
static void
test_order_is_stable (void)
{
  g_autoptr (DryCatalog) one = scratch_load_shipped ();
  g_autoptr (DryCatalog) two = scratch_load_shipped ();
  g_autoptr (DryCatalog) again = dry_catalog_ref (one);

  g_assert_true (again == one);
  for (guint i = 0; i < dry_catalog_get_n_systems (one); i++)
    g_assert_cmpstr (dry_catalog_get_system_at (one, i)->id, ==,
                     dry_catalog_get_system_at (two, i)->id);
  for (guint i = 0; i < dry_catalog_get_n_items (one); i++)
    g_assert_cmpstr (dry_catalog_get_item_at (one, i)->id, ==,
                     dry_catalog_get_item_at (two, i)->id);
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/catalog/shipped/systems", test_systems_are_there);
  g_test_add_func ("/catalog/shipped/sources", test_figures_have_sources);
  g_test_add_func ("/catalog/shipped/complete", test_systems_are_complete);
  g_test_add_func ("/catalog/shipped/items", test_items_named_elsewhere);
  g_test_add_func ("/catalog/shipped/joint-words", test_joint_words);
  g_test_add_func ("/catalog/shipped/order", test_order_is_stable);
  return g_test_run ();
}
