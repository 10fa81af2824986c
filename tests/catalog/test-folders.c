/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A firm's own folder over the shipped one: replaced by id, added to, and the default search for
 * both. */
#include "scratch.h"

#include <glib/gstdio.h>
#include <string.h>

#define OWN_TILE                                                                                   \
  "{\"format\": \"drybay-items\", \"version\": 1, \"items\": [{\"id\": \"tile-12x24\", \"name\": " \
  "\"Ours\", \"group\": \"tiles\", \"source\": \"measured\", \"certainty\": \"published\", "       \
  "\"tile\": {\"width_mm\": 600, \"height_mm\": 300, \"thickness_mm\": 9, \"joint_mm\": 3, "       \
  "\"mass\": 20}}, {\"id\": \"tile-ours\", \"name\": \"New\", \"group\": \"tiles\", \"source\": "  \
  "\"measured\", \"certainty\": \"published\", \"tile\": {\"width_mm\": 100, \"height_mm\": 100, " \
  "\"thickness_mm\": 6, \"joint_mm\": 2, \"mass\": 13}}]}"

static void
test_later_folder_wins (void)
{
  g_autoptr (DryCatalog) shipped = scratch_load_shipped ();
  g_autoptr (Scratch) firm = scratch_new ();
  g_autofree char *foam = scratch_shipped_text ("systems/foam-bands.json", NULL);
  g_autofree char *ours = scratch_replace (foam, "Foam board with bands in mortar", "Our board");
  const char *folders[] = {g_getenv ("DRYBAY_DATA"), firm->path, NULL};
  g_autoptr (GError) error = NULL;
  g_autoptr (DryCatalog) both = NULL;

  scratch_write (firm, "systems", "any-name.json", ours, -1);
  scratch_write (firm, "items", "tiles.json", OWN_TILE, -1);
  both = dry_catalog_load (folders, &error);
  g_assert_no_error (error);
  g_assert_cmpuint (dry_catalog_get_n_systems (both), ==, dry_catalog_get_n_systems (shipped));
  g_assert_cmpuint (dry_catalog_get_n_items (both), ==, dry_catalog_get_n_items (shipped) + 1);
  g_assert_cmpstr (dry_catalog_get_system (both, "foam-bands")->name, ==, "Our board");
  g_assert_true (
      g_str_has_suffix (dry_catalog_get_system (both, "foam-bands")->file, "any-name.json"));
  g_assert_cmpstr (dry_catalog_get_item (both, "tile-12x24")->name, ==, "Ours");
  g_assert_cmpint (dry_catalog_get_item (both, "tile-12x24")->tile_width, ==, 600 * DRY_MM);
  g_assert_nonnull (dry_catalog_get_item (both, "tile-ours"));
  /* Replaced in place, so that lists keep their order. */
  for (guint i = 0; i < dry_catalog_get_n_systems (both); i++)
    g_assert_cmpstr (dry_catalog_get_system_at (both, i)->id, ==,
                     dry_catalog_get_system_at (shipped, i)->id);
}

/* A firm changes the pack others extend: those that extend it follow. */
static void
test_firms_rules (void)
{
  static const char PACK[] = "{\"format\": \"drybay-rules\", \"version\": 1, \"id\": \"%s\", "
                             "\"name\": \"n\", \"jurisdiction\": \"none\", \"edition\": \"t\", "
                             "\"language\": \"en\", \"extends\": %s, \"rules\": [%s]}";
  static const char RULE[] =
      "{\"id\": \"r\", \"topic\": \"t\", \"subject\": \"s\", \"severity\": \"advice\", \"title\": "
      "\"ours\", \"why\": \"w\", \"require\": [{\"measure\": \"m\", \"yes\": true}], \"remedies\": "
      "[{\"text\": \"t\"}], \"source\": \"s\", \"certainty\": \"memory\"}";
  g_autoptr (Scratch) first = scratch_new ();
  g_autoptr (Scratch) firm = scratch_new ();
  g_autofree char *empty = g_strdup_printf (PACK, "base", "null", "");
  g_autofree char *above = g_strdup_printf (PACK, "above", "\"base\"", "");
  g_autofree char *ours = g_strdup_printf (PACK, "base", "null", RULE);
  const char *folders[] = {first->path, firm->path, NULL};
  g_autoptr (GError) error = NULL;
  g_autoptr (DryCatalog) catalog = NULL;

  scratch_write (first, "rules", "1.json", empty, -1);
  scratch_write (first, "rules", "2.json", above, -1);
  scratch_write (firm, "rules", "1.json", ours, -1);
  catalog = dry_catalog_load (folders, &error);
  g_assert_no_error (error);
  g_assert_cmpuint (dry_catalog_get_rule_pack (catalog, "above")->n_rules, ==, 1);
  g_assert_cmpstr (dry_catalog_get_rule_pack (catalog, "above")->rules[0].title, ==, "ours");
}

/* Sub-folders may be missing, other files are left alone, names decide the order. */
static void
test_bare_folder (void)
{
  g_autoptr (Scratch) scratch = scratch_new ();
  g_autoptr (GError) error = NULL;
  g_autoptr (DryCatalog) bare = scratch_load (scratch, &error);
  g_autoptr (DryCatalog) catalog = NULL;

  g_assert_no_error (error);
  g_assert_cmpuint (dry_catalog_get_n_systems (bare) + dry_catalog_get_n_items (bare) +
                        dry_catalog_get_n_rule_packs (bare),
                    ==, 0);
  scratch_write (scratch, "items", "notes.txt", "not JSON", -1);
  scratch_write (scratch, "items", ".hidden.json", "not JSON", -1);
  scratch_write (scratch, "items", "tiles.json~", "not JSON", -1);
  scratch_write (scratch, "items", "tiles.json", OWN_TILE, -1);
  catalog = scratch_load (scratch, &error);
  g_assert_no_error (error);
  g_assert_cmpuint (dry_catalog_get_n_items (catalog), ==, 2);
  g_assert_cmpstr (dry_catalog_get_item_at (catalog, 0)->id, ==, "tile-12x24");
}

/* Runs with a data home of its own, which main() sets. */
static void
test_default (void)
{
  g_autofree char *own =
      g_build_filename (g_get_user_data_dir (), "drybay", "catalog", "items", NULL);
  g_autofree char *path = g_build_filename (own, "own.json", NULL);
  g_autoptr (GError) error = NULL;
  g_autoptr (DryCatalog) before = dry_catalog_load_default (&error);
  g_autoptr (DryCatalog) after = NULL;
  g_autoptr (DryCatalog) broken = NULL;

  g_assert_no_error (error);
  g_assert_nonnull (dry_catalog_get_system (before, "cement-liquid"));
  g_assert_null (dry_catalog_get_item (before, "tile-ours"));

  g_assert_cmpint (g_mkdir_with_parents (own, 0700), ==, 0);
  g_file_set_contents (path, OWN_TILE, -1, &error);
  g_assert_no_error (error);
  after = dry_catalog_load_default (&error);
  g_assert_no_error (error);
  g_assert_nonnull (dry_catalog_get_item (after, "tile-ours"));
  g_assert_cmpstr (dry_catalog_get_item (after, "tile-12x24")->name, ==, "Ours");

  /* A firm's broken file is named, not skipped. */
  g_file_set_contents (path, "{", -1, NULL);
  broken = dry_catalog_load_default (&error);
  g_assert_null (broken);
  g_assert_error (error, DRY_ERROR, DRY_ERROR_SYNTAX);
  g_assert_nonnull (strstr (error->message, "own.json"));
}

int
main (int argc, char *argv[])
{
  g_autoptr (Scratch) home = NULL;

  g_test_init (&argc, &argv, NULL);
  home = scratch_new ();
  g_setenv ("XDG_DATA_HOME", home->path, TRUE); /* before anything asks for it */
  g_test_add_func ("/catalog/folders/later-wins", test_later_folder_wins);
  g_test_add_func ("/catalog/folders/rules", test_firms_rules);
  g_test_add_func ("/catalog/folders/bare", test_bare_folder);
  g_test_add_func ("/catalog/folders/default", test_default);
  return g_test_run ();
}
