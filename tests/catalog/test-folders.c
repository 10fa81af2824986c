/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A firm's own folder over the shipped one: replaced by id, added to, and the default search for
 * both. */
#include "scratch.h"

#include "catalog/own-packs.h"

#include <glib/gstdio.h>
#include <string.h>
#include <unistd.h>

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

/* What has an id is found by it, what has none is not, and of price books no id means the first. */
static void
test_lookups (void)
{
  g_autoptr (DryCatalog) shipped = scratch_load_shipped ();
  g_autoptr (Scratch) empty = scratch_new ();
  g_autoptr (DryCatalog) bare = scratch_load (empty, NULL);

  g_assert_null (dry_catalog_get_system (shipped, NULL));
  g_assert_null (dry_catalog_get_system (shipped, "no-such"));
  g_assert_null (dry_catalog_get_item (shipped, NULL));
  g_assert_null (dry_catalog_get_item (shipped, "no-such"));
  g_assert_null (dry_catalog_get_rule_pack (shipped, NULL));
  g_assert_null (dry_catalog_get_price_book (shipped, "no-such"));
  g_assert_null (dry_catalog_get_price_book (bare, NULL));
  g_assert_true (dry_catalog_get_price_book (shipped, NULL) ==
                 dry_catalog_get_price_book_at (shipped, 0));
  for (guint i = 0; i < dry_catalog_get_n_price_books (shipped); i++) {
    const DryPriceBook *book = dry_catalog_get_price_book_at (shipped, i);
    g_assert_true (dry_catalog_get_price_book (shipped, book->id) == book);
  }
  for (guint i = 0; i < dry_catalog_get_n_rule_packs (shipped); i++) {
    const DryRulePack *pack = dry_catalog_get_rule_pack_at (shipped, i);
    g_assert_true (dry_catalog_get_rule_pack (shipped, pack->id) == pack);
    for (guint j = 0; j < pack->n_choices; j++)
      g_assert_true (dry_rule_pack_get_choice (pack, pack->choices[j].id) == &pack->choices[j]);
    g_assert_null (dry_rule_pack_get_choice (pack, "no-such"));
  }
}

/* A system's waits and sheets by their ids. */
static void
test_system_lookups (void)
{
  g_autoptr (DryCatalog) shipped = scratch_load_shipped ();
  const DrySystem *system = dry_catalog_get_system (shipped, "cement-liquid");

  for (guint i = 0; i < system->n_waits; i++)
    g_assert_true (dry_system_get_wait (system, system->waits[i].id) == &system->waits[i]);
  for (guint i = 0; i < system->n_sheets; i++)
    g_assert_true (dry_system_get_sheet (system, system->sheets[i].id) == &system->sheets[i]);
  g_assert_null (dry_system_get_wait (system, NULL));
  g_assert_null (dry_system_get_wait (system, "no-such"));
  g_assert_null (dry_system_get_sheet (system, NULL));
  g_assert_null (dry_system_get_sheet (system, "no-such"));
  g_assert_null (dry_system_get_product (system, NULL));
}

/* A tile off the shelf: its own sizes and joint, where it has one, and nothing of the packing of
 * the tile it takes the place of. */
static void
test_lay_tile (void)
{
  g_autoptr (DryCatalog) shipped = scratch_load_shipped ();
  DryItem tile = *dry_catalog_get_item (shipped, "tile-3x6");
  DryFinish now = {.joint = 5 * DRY_MM, .box = 7, .chips_across = 6, .chips_up = 6, .breakage = 9};
  DryFinish laid = dry_item_lay_tile (&tile, &now);

  g_assert_cmpstr (laid.tile, ==, "tile-3x6");
  g_assert_cmpint (laid.tile_width, ==, 6 * DRY_INCH);
  g_assert_cmpint (laid.tile_height, ==, 3 * DRY_INCH);
  g_assert_cmpint (laid.joint, ==, DRY_INCH / 8);
  g_assert_cmpuint (laid.box + laid.chips_across + laid.chips_up, ==, 0);
  g_assert_cmpfloat (laid.breakage, ==, 0);
  g_assert_true (laid.tiled);
  tile.joint = 0;
  laid = dry_item_lay_tile (&tile, &now);
  g_assert_cmpint (laid.joint, ==, 5 * DRY_MM);
}

/* Where the catalogue cannot be read it is told, with the place: a link to nowhere, a name that is
 * a file where a folder should be, a folder of too many files. In the firm's rules/ it is noted. */
static void
test_unreadable (void)
{
  g_autoptr (Scratch) link = scratch_new ();
  g_autoptr (Scratch) file = scratch_new ();
  g_autoptr (Scratch) many = scratch_new ();
  g_autofree char *gone = g_build_filename (link->path, "items", "gone.json", NULL);
  g_autofree char *rules = g_build_filename (file->path, "rules", NULL);
  const char *folders[] = {g_getenv ("DRYBAY_DATA"), file->path, NULL};
  const char *none[] = {g_getenv ("DRYBAY_DATA"), rules, NULL};
  g_autoptr (GError) error = NULL;
  g_autoptr (DryCatalog) catalog = NULL;

  scratch_write (link, "items", "tiles.json", OWN_TILE, -1);
  g_assert_cmpint (symlink ("/nowhere/at/all", gone), ==, 0);
  g_assert_null (scratch_load (link, &error));
  g_assert_error (error, DRY_ERROR, DRY_ERROR_FILE);
  g_assert_nonnull (strstr (error->message, "gone.json: "));
  g_clear_error (&error);

  g_assert_true (g_file_set_contents (rules, "no folder", -1, NULL));
  g_assert_null (dry_catalog_load (folders, &error));
  g_assert_error (error, DRY_ERROR, DRY_ERROR_FILE);
  g_assert_nonnull (strstr (error->message, rules));
  g_clear_error (&error);
  catalog = dry_catalog_load_tolerant (folders, 1, NULL, &error);
  g_assert_no_error (error);
  g_assert_cmpuint (dry_catalog_get_n_left_out (catalog), ==, 1);
  g_assert_cmpstr (dry_catalog_get_left_out_at (catalog, 0)->file, ==, rules);
  g_assert_nonnull (dry_catalog_get_system (catalog, "foam-bands"));
  /* A file named instead of a folder is read as a pack; no folder at all is an error. */
  g_clear_pointer (&catalog, dry_catalog_unref);
  catalog = dry_catalog_load_tolerant (none, 1, NULL, &error);
  g_assert_no_error (error);
  g_assert_cmpuint (dry_catalog_get_n_left_out (catalog), ==, 1);
  none[1] = gone;
  g_assert_null (dry_catalog_load_tolerant (none, 1, NULL, &error));
  g_assert_error (error, DRY_ERROR, DRY_ERROR_FILE);
  g_clear_error (&error);

  for (guint i = 0; i < 1001; i++) {
    g_autofree char *name = g_strdup_printf ("%u.json", i);
    scratch_write (many, "items", name, "", 0);
  }
  g_assert_null (scratch_load (many, &error));
  g_assert_error (error, DRY_ERROR, DRY_ERROR_FILE);
  g_assert_nonnull (strstr (error->message, "more than 1000"));
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

/* --- bad packs of one's own --- */

#define PACK_OF(id, extends, rules)                                                                \
  "{\"format\": \"drybay-rules\", \"version\": 1, \"id\": \"" id "\", \"name\": \"own " id         \
  "\", \"jurisdiction\": \"none\", \"edition\": \"t\", \"language\": \"en\", "                     \
  "\"extends\": " extends ", \"rules\": [" rules "]}"
#define OFF(id) "{\"id\": \"" id "\", \"off\": true}"

static gboolean
refuse_firm (const DryRulePack *pack, GError **error)
{
  if (!g_str_equal (pack->id, "refused"))
    return TRUE;
  g_set_error (error, DRY_ERROR, DRY_ERROR_REFERENCE, "%s: refused by the check", pack->file);
  return FALSE;
}

/* What is left out of the firm's rules/, in order, with a part of the reason; and what stands. */
static void
test_left_out (void)
{
  static const struct {
    const char *files[4]; /* a.json, b.json, c.json */
    const char *left_out; /* "file reason-part", ";" between */
    const char *stands, *gone;
  } ROWS[] = {
      {{PACK_OF ("firm", "\"canada\"", "")}, "", "firm", "other"},
      {{"{", PACK_OF ("firm", "null", "")}, "a.json 1:2", "firm", "a"},
      {{"[]", "{}", PACK_OF ("firm", "null", "")}, "a.json object;b.json format", "firm", "a"},
      /* no such pack below, and what stands on that */
      {{PACK_OF ("top", "\"firm\"", ""), PACK_OF ("firm", "\"nowhere\"", ""),
        PACK_OF ("good", "null", "")},
       "b.json “nowhere”;a.json “firm”",
       "good",
       "top"},
      {{PACK_OF ("firm", "\"canada\"", OFF ("no-such-rule"))},
       "a.json rules[0].id",
       "canada",
       "firm"},
      {{PACK_OF ("one", "\"two\"", ""), PACK_OF ("two", "\"one\"", ""),
        PACK_OF ("good", "null", "")},
       "b.json circle;a.json “two”",
       "good",
       "one"},
      {{PACK_OF ("firm", "null", ""), PACK_OF ("firm", "null", "")},
       "b.json already",
       "firm",
       "other"},
      {{PACK_OF ("refused", "null", ""), PACK_OF ("firm", "\"refused\"", "")},
       "a.json check;b.json “refused”",
       "canada",
       "firm"},
      /* Over a shipped pack: itself bad, and spoiling the shipped ones above it. */
      {{PACK_OF ("canada", "\"nowhere\"", "")}, "a.json “nowhere”", "canada", "firm"},
      {{PACK_OF ("common-practice", "\"canada\"", "")}, "a.json circle", "canada", "firm"},
  };

  for (guint i = 0; i < G_N_ELEMENTS (ROWS); i++) {
    g_autoptr (Scratch) firm = scratch_new ();
    const char *folders[] = {g_getenv ("DRYBAY_DATA"), firm->path, NULL};
    g_auto (GStrv) told = g_strsplit (ROWS[i].left_out, ";", -1);
    g_autoptr (GError) error = NULL;
    g_autoptr (DryCatalog) catalog = NULL;

    for (guint f = 0; ROWS[i].files[f]; f++) {
      char name[] = {(char) ('a' + f), '.', 'j', 's', 'o', 'n', 0};
      scratch_write (firm, "rules", name, ROWS[i].files[f], -1);
    }
    catalog = dry_catalog_load_tolerant (folders, 1, refuse_firm, &error);
    g_assert_no_error (error);
    for (guint n = 0; n < dry_catalog_get_n_left_out (catalog); n++)
      g_test_message ("row %u: %s: %s", i, dry_catalog_get_left_out_at (catalog, n)->file,
                      dry_catalog_get_left_out_at (catalog, n)->reason);
    g_assert_cmpuint (dry_catalog_get_n_left_out (catalog), ==, g_strv_length (told));
    for (guint n = 0; told[n]; n++) {
      const DryLeftOut *left = dry_catalog_get_left_out_at (catalog, n);
      g_auto (GStrv) parts = g_strsplit (told[n], " ", 2);
      g_assert_true (g_str_has_suffix (left->file, parts[0]));
      g_assert_nonnull (strstr (left->reason, parts[1]));
      g_assert_false (g_str_has_prefix (left->reason, firm->path));
    }
    g_assert_nonnull (dry_catalog_get_rule_pack (catalog, ROWS[i].stands));
    g_assert_null (dry_catalog_get_rule_pack (catalog, ROWS[i].gone));
    g_assert_cmpuint (dry_catalog_get_rule_pack (catalog, "us-accessible")->n_rules, >, 50);
    /* The strict reading, the command line's, takes none of it. */
    if (told[0] && !strstr (ROWS[i].left_out, "check")) {
      g_autoptr (DryCatalog) strict = dry_catalog_load (folders, &error);
      g_assert_null (strict);
      g_assert_nonnull (error);
    }
  }
}

/* Shipped files, and anything of one's own that is no rule pack, are no less an error. */
static void
test_never_left_out (void)
{
  static const struct {
    const char *part;
    guint n_strict;
  } ROWS[] = {{"rules", 2}, {"items", 1}, {"systems", 1}, {"prices", 1}};

  for (guint i = 0; i < G_N_ELEMENTS (ROWS); i++) {
    g_autoptr (Scratch) firm = scratch_new ();
    const char *folders[] = {g_getenv ("DRYBAY_DATA"), firm->path, NULL};
    g_autoptr (GError) error = NULL;
    g_autoptr (DryCatalog) catalog = NULL;

    scratch_write (firm, ROWS[i].part, "bad.json", "{}", -1);
    catalog = dry_catalog_load_tolerant (folders, ROWS[i].n_strict, NULL, &error);
    g_assert_null (catalog);
    g_assert_nonnull (strstr (error->message, "bad.json"));
  }
}

/* --- taking packs in --- */

static DryOwnPackAnswer
add_pack (Scratch *from, const char *text, gboolean replace, char **file, GError **error)
{
  g_autofree char *path = g_build_filename (from->path, "rules", "picked.json", NULL);
  g_autofree char *name = NULL;
  DryOwnPackAnswer answer = DRY_OWN_PACK_ADDED;

  scratch_write (from, "rules", "picked.json", text, -1);
  g_clear_pointer (file, g_free);
  dry_own_packs_add (path, replace, refuse_firm, &answer, &name, file, error);
  return answer;
}

static void
assert_text (const char *path, const char *text)
{
  g_autofree char *found = NULL;

  g_assert_true (g_file_get_contents (path, &found, NULL, NULL));
  g_assert_cmpstr (found, ==, text);
}

static void
test_add_pack (void)
{
  static const char FIRM[] = PACK_OF ("firm", "\"canada\"", "");
  static const char OTHER[] = PACK_OF ("firm", "null", "");
  static const char OUT[] = PACK_OF ("out", "null", "");
  g_autofree char *own = g_build_filename (g_get_user_data_dir (), "drybay", "catalog", NULL);
  Scratch home = {own};
  g_autoptr (Scratch) from = scratch_new ();
  g_autofree char *folder = dry_own_packs_dup_folder ();
  g_autofree char *file = NULL;
  g_autofree char *first = NULL;
  g_autoptr (GError) error = NULL;

  g_assert_false (g_file_test (folder, G_FILE_TEST_EXISTS));
  g_assert_cmpint (add_pack (from, FIRM, FALSE, &file, &error), ==, DRY_OWN_PACK_ADDED);
  g_assert_no_error (error);
  first = g_steal_pointer (&file);
  g_assert_true (g_str_has_prefix (first, folder) && g_str_has_suffix (first, "/firm.json"));
  assert_text (first, FIRM);
  g_assert_cmpint (add_pack (from, FIRM, FALSE, &file, &error), ==, DRY_OWN_PACK_THERE);
  g_assert_cmpint (add_pack (from, OTHER, FALSE, &file, &error), ==, DRY_OWN_PACK_ASKS);
  g_assert_cmpstr (file, ==, first);
  assert_text (first, FIRM);
  g_assert_cmpint (add_pack (from, OTHER, TRUE, &file, &error), ==, DRY_OWN_PACK_ADDED);
  assert_text (first, OTHER);
  g_assert_no_error (error);

  /* A bad file is told and copied nowhere, one that would spoil another too. */
  add_pack (from, "{", FALSE, &file, &error);
  g_assert_error (error, DRY_ERROR, DRY_ERROR_SCHEMA);
  g_assert_nonnull (strstr (error->message, "picked.json: 1:2"));
  g_clear_error (&error);
  add_pack (from, PACK_OF ("refused", "null", ""), FALSE, &file, &error);
  g_assert_nonnull (strstr (error->message, "refused by the check"));
  g_clear_error (&error);
  g_assert_null (file);

  /* One that is bad already stands in nobody's way. */
  scratch_write (&home, "rules", "above.json", PACK_OF ("above", "\"firm\"", OFF ("wall-r")), -1);
  /* Whatever else has the name stays as it is, be it broken. */
  scratch_write (&home, "rules", "out.json", "{ not yet", -1);
  g_assert_cmpint (add_pack (from, OUT, TRUE, &file, &error), ==, DRY_OWN_PACK_ADDED);
  g_assert_no_error (error);
  g_assert_true (g_str_has_suffix (file, "/out-2.json"));
  g_clear_pointer (&first, g_free);
  first = g_build_filename (folder, "out.json", NULL);
  assert_text (first, "{ not yet");
  scratch_free (g_memdup2 (&(Scratch){g_steal_pointer (&own)}, sizeof (Scratch)));
}

/* A pack that others of one's own stand on is not taken when it leaves them without footing. */
static void
test_add_spoils (void)
{
  static const char BASE[] = PACK_OF ("ground", "null", OFF ("x"));
  g_autofree char *own = g_build_filename (g_get_user_data_dir (), "drybay", "catalog", NULL);
  Scratch home = {own};
  g_autoptr (Scratch) from = scratch_new ();
  g_autofree char *file = NULL;
  g_autoptr (GError) error = NULL;

  scratch_write (&home, "rules", "ground.json", PACK_OF ("ground", "null", ""), -1);
  scratch_write (&home, "rules", "above.json", PACK_OF ("above", "\"ground\"", ""), -1);
  add_pack (from, BASE, TRUE, &file, &error);
  g_assert_nonnull (error); /* itself bad */
  g_clear_error (&error);
  add_pack (from, PACK_OF ("ground", "\"above\"", ""), TRUE, &file, &error);
  g_assert_nonnull (strstr (error->message, "circle"));
  g_clear_error (&error);
  scratch_write (&home, "rules", "less.json",
                 PACK_OF ("less", "\"canada\"", OFF ("wet-wall-height")), -1);
  add_pack (from, PACK_OF ("canada", "null", ""), FALSE, &file, &error);
  g_assert_nonnull (strstr (error->message, "less.json could no longer be used"));
  g_assert_nonnull (strstr (error->message, "wet-wall-height"));
  scratch_free (g_memdup2 (&(Scratch){g_steal_pointer (&own)}, sizeof (Scratch)));
}

/* Files that are no packs, and packs without a name: told, and nothing is copied. */
static void
test_add_nothing (void)
{
  static const char *const TEXTS[] = {"[]", "{\"id\": 7}", "{\"id\": \"\"}", "{\"name\": \"x\"}",
                                      ""};
  g_autoptr (Scratch) from = scratch_new ();
  g_autofree char *folder = dry_own_packs_dup_folder ();
  g_autofree char *file = NULL;
  g_autofree char *name = NULL;
  g_autofree char *gone = g_build_filename (from->path, "gone.json", NULL);
  DryOwnPackAnswer answer = DRY_OWN_PACK_ADDED;
  g_autoptr (GError) error = NULL;

  for (guint i = 0; i < G_N_ELEMENTS (TEXTS); i++) {
    add_pack (from, TEXTS[i], TRUE, &file, &error);
    g_assert_nonnull (strstr (error->message, "picked.json"));
    g_assert_null (file);
    g_clear_error (&error);
  }
  g_assert_false (dry_own_packs_add (gone, FALSE, NULL, &answer, &name, &file, &error));
  g_assert_error (error, DRY_ERROR, DRY_ERROR_FILE);
  g_assert_false (g_file_test (folder, G_FILE_TEST_EXISTS));
}

/* Where the folder cannot be, it is told; a pack of the same length as the one there is not the
 * same; and a link to nowhere keeps its name. */
static void
test_add_places (void)
{
  static const char ONE[] = PACK_OF ("firm", "null", ""), TWO[] = PACK_OF ("firm", "null", " ");
  static const char SAME_LENGTH[] = PACK_OF ("firm", " null", "");
  g_autofree char *own = g_build_filename (g_get_user_data_dir (), "drybay", "catalog", NULL);
  g_autofree char *folder = dry_own_packs_dup_folder ();
  g_autofree char *link = g_build_filename (folder, "firm.json", NULL);
  g_autoptr (Scratch) from = scratch_new ();
  g_autofree char *file = NULL;
  g_autoptr (GError) error = NULL;

  g_assert_cmpint (g_mkdir_with_parents (own, 0700), ==, 0);
  g_assert_true (g_file_set_contents (folder, "no folder", -1, NULL));
  add_pack (from, ONE, FALSE, &file, &error);
  g_assert_error (error, DRY_ERROR, DRY_ERROR_FILE);
  g_assert_nonnull (strstr (error->message, folder));
  g_clear_error (&error);
  assert_text (folder, "no folder");
  g_unlink (folder);

  g_assert_cmpint (g_mkdir_with_parents (folder, 0700), ==, 0);
  g_assert_cmpint (symlink ("/nowhere/at/all", link), ==, 0);
  g_assert_cmpint (add_pack (from, ONE, FALSE, &file, &error), ==, DRY_OWN_PACK_ADDED);
  g_assert_no_error (error);
  g_assert_true (g_str_has_suffix (file, "/firm-2.json"));
  g_assert_true (g_file_test (link, G_FILE_TEST_IS_SYMLINK));
  g_assert_cmpint (add_pack (from, TWO, FALSE, &file, &error), ==, DRY_OWN_PACK_ASKS);
  g_assert_cmpint (add_pack (from, TWO, TRUE, &file, &error), ==, DRY_OWN_PACK_ADDED);
  assert_text (file, TWO);
  g_assert_cmpint (add_pack (from, SAME_LENGTH, FALSE, &file, &error), ==, DRY_OWN_PACK_ASKS);
  assert_text (file, TWO);
  g_unlink (link);
  scratch_free (g_memdup2 (&(Scratch){g_steal_pointer (&own)}, sizeof (Scratch)));
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
  g_test_add_func ("/catalog/folders/left-out", test_left_out);
  g_test_add_func ("/catalog/folders/never-left-out", test_never_left_out);
  g_test_add_func ("/catalog/folders/lookups", test_lookups);
  g_test_add_func ("/catalog/folders/system-lookups", test_system_lookups);
  g_test_add_func ("/catalog/folders/lay-tile", test_lay_tile);
  g_test_add_func ("/catalog/folders/unreadable", test_unreadable);
  g_test_add_func ("/catalog/folders/add-nothing", test_add_nothing);
  g_test_add_func ("/catalog/folders/add-pack", test_add_pack);
  g_test_add_func ("/catalog/folders/add-places", test_add_places);
  g_test_add_func ("/catalog/folders/add-spoils", test_add_spoils);
  g_test_add_func ("/catalog/folders/default", test_default);
  return g_test_run ();
}
