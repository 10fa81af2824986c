/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the catalogue's readers refuse: broken copies of shipped files, each with one thing wrong,
 * must give an error that names file, path and reason. */
#include "scratch.h"

#include <glib/gstdio.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

typedef struct {
  const char *name;
  const char *find, *with;
  int code;
  const char *path;   /* must stand in the message after the file's name */
  const char *reason; /* part of the message */
} Refusal;

static void
check_refusal (const char *part, const char *file, const char *text, const Refusal *row)
{
  g_autoptr (Scratch) scratch = scratch_new ();
  g_autoptr (GError) error = NULL;
  g_autoptr (DryCatalog) catalog = NULL;
  g_autofree char *bad = scratch_replace (text, row->find, row->with);
  g_autofree char *start = NULL;

  scratch_write (scratch, part, file, bad, -1);
  catalog = scratch_load (scratch, &error);
  g_test_message ("%s: %s", row->name, error ? error->message : "accepted");
  g_assert_null (catalog);
  g_assert_error (error, DRY_ERROR, row->code);
  start = g_strdup_printf ("%s/%s/%s:", scratch->path, part, file);
  g_assert_true (g_str_has_prefix (error->message, start));
  g_assert_nonnull (strstr (error->message + strlen (start), row->path));
  g_assert_nonnull (strstr (error->message, row->reason));
}

static const Refusal SYSTEM_ROWS[] = {
    {"wrong type", "\"kerf_mm\": 0", "\"kerf_mm\": \"0\"", DRY_ERROR_SCHEMA, "board.kerf_mm",
     "length in millimetres"},
    {"unknown key", "\"kerf_mm\": 0", "\"kerf_mm\": 0, \"colour\": 1", DRY_ERROR_SCHEMA, "board",
     "colour"},
    {"unknown key at the top", "\"tools\": [", "\"tool\": 1, \"tools\": [", DRY_ERROR_SCHEMA, "",
     "tool"},
    {"key twice", "\"kerf_mm\": 0", "\"kerf_mm\": 0, \"kerf_mm\": 1", DRY_ERROR_SCHEMA, "",
     "kerf_mm"},
    {"key in other case", "\"kerf_mm\": 0", "\"Kerf_mm\": 0", DRY_ERROR_SCHEMA, "board", "erf_mm"},
    {"missing key", "\"datum\": \"flange-top\",", "", DRY_ERROR_SCHEMA, "board.basin", "datum"},
    {"unknown word", "\"datum\": \"flange-top\"", "\"datum\": \"rim\"", DRY_ERROR_SCHEMA,
     "board.basin.datum", ""},
    {"unknown washer", "\"washer\": \"washer-125\"", "\"washer\": \"washer-9\"",
     DRY_ERROR_REFERENCE, "fastening.washer", "washer-9"},
    {"unknown bedding", "\"bedding\": \"mortar-unmodified\"", "\"bedding\": \"mud\"",
     DRY_ERROR_REFERENCE, "treatments.seam.bedding", "mud"},
    {"unknown fill", "\"fill\": \"sealant\"", "\"fill\": \"putty\"", DRY_ERROR_REFERENCE,
     "treatments.basin.fill", "putty"},
    {"product of another use", "\"fastener\": \"screw-158\"", "\"fastener\": \"band-5\"",
     DRY_ERROR_SCHEMA, "fastening.fastener", "band-5"},
    {"newer version", "\"version\": 1", "\"version\": 2", DRY_ERROR_VERSION, "version", "newer"},
    {"another format", "\"drybay-system\"", "\"drybay-items\"", DRY_ERROR_VERSION, "format",
     "drybay-items"},
    {"negative length", "\"min_piece_mm\": 101.6", "\"min_piece_mm\": -101.6", DRY_ERROR_SCHEMA,
     "board.min_piece_mm", ""},
    {"endless number", "\"min_piece_mm\": 101.6", "\"min_piece_mm\": 1e999", DRY_ERROR_SCHEMA, "",
     ""},
    {"unknown joint", "\"free\": {", "\"loose\": {", DRY_ERROR_SCHEMA, "treatments.loose", "loose"},
    {"band without width", "\"width_mm\": 127,", "", DRY_ERROR_SCHEMA, "treatments.seam",
     "width_mm"},
    {"made-up certainty", "\"certainty\": \"memory\"", "\"certainty\": \"sure\"", DRY_ERROR_SCHEMA,
     "certainty", "sure"},
    {"empty source", "\"source\": \"common practice, no source\"", "\"source\": \" \"",
     DRY_ERROR_SCHEMA, "source", "empty"},
    {"product twice", "\"id\": \"washer-125\"", "\"id\": \"screw-158\"", DRY_ERROR_SCHEMA,
     "products[1].id", "screw-158"},
    {"sheet twice", "\"id\": \"4x5\"", "\"id\": \"3x5\"", DRY_ERROR_SCHEMA, "board.sheets[1].id",
     "3x5"},
    {"sheet lying down", "\"width_mm\": 914.4", "\"width_mm\": 1600", DRY_ERROR_SCHEMA,
     "board.sheets[0]", "longer"},
    {"distances crossed", "\"edge_distance_min\": {\"mm\": 9.525",
     "\"edge_distance_min\": {\"mm\": 19.05", DRY_ERROR_SCHEMA, "fastening.edge_distance_min",
     "edge_distance"},
    {"id in capitals", "\"id\": \"foam-bands\"", "\"id\": \"Foam\"", DRY_ERROR_SCHEMA, "id",
     "Foam"},
    {"membrane needed, none there", "\"needed\": false", "\"needed\": true", DRY_ERROR_SCHEMA,
     "membrane.needed", "membrane"},
    {"hours crossed", "\"hours_max\": 24", "\"hours_max\": 23", DRY_ERROR_SCHEMA, "waits[1]",
     "hours_max"},
    {"price that is no whole number", "\"price\": 4200", "\"price\": 42.5", DRY_ERROR_SCHEMA,
     "board.sheets[0].price", ""},
};

static const Refusal ITEM_ROWS[] = {
    {"two values", "\"part\": {", "\"tile\": {}, \"part\": {", DRY_ERROR_SCHEMA, "items[0]",
     "both"},
    {"no value", "\"part\": {", "\"port\": {", DRY_ERROR_SCHEMA, "items[0]", "port"},
    {"unknown group", "\"group\": \"niches\"", "\"group\": \"holes\"", DRY_ERROR_SCHEMA,
     "items[0].group", ""},
    {"unknown kind", "\"kind\": \"niche\"", "\"kind\": \"cave\"", DRY_ERROR_SCHEMA,
     "items[0].part.kind", "cave"},
    {"no body", "\"body_width_mm\": 330.2,", "", DRY_ERROR_SCHEMA, "items[0].part",
     "body_width_mm"},
    {"body too small", "\"body_width_mm\": 330.2", "\"body_width_mm\": 300", DRY_ERROR_SCHEMA,
     "items[0].part", "smaller"},
    {"size nought", "\"width_mm\": 304.8", "\"width_mm\": 0", DRY_ERROR_SCHEMA,
     "items[0].part.width_mm", ""},
    {"niche higher than a house", "\"z_mm\": 1219.2", "\"z_mm\": 1e6", DRY_ERROR_SCHEMA,
     "items[0].part.z_mm", ""},
    {"the same item twice", "\"id\": \"niche-12x12\"", "\"id\": \"niche-12x6\"", DRY_ERROR_SCHEMA,
     "items[1].id", "already"},
    {"items that are no list", "\"items\": [", "\"items\": {}, \"x\": [", DRY_ERROR_SCHEMA, "", ""},
};

static void
test_systems (void)
{
  g_autofree char *text = scratch_shipped_text ("systems/foam-bands.json", NULL);

  for (guint i = 0; i < G_N_ELEMENTS (SYSTEM_ROWS); i++)
    check_refusal ("systems", "foam.json", text, &SYSTEM_ROWS[i]);
}

/* A list that is null is no empty list. */
static void
test_null_list (void)
{
  static const Refusal ROW = {"sheets null",    "\"sheets\": []", "\"sheets\": null",
                              DRY_ERROR_SCHEMA, "board.sheets",   "list"};
  g_autofree char *text = scratch_shipped_text ("systems/mortar-bed.json", NULL);

  check_refusal ("systems", "bed.json", text, &ROW);
}

static void
test_items (void)
{
  g_autofree char *text = scratch_shipped_text ("items/niches.json", NULL);

  for (guint i = 0; i < G_N_ELEMENTS (ITEM_ROWS); i++)
    check_refusal ("items", "niches.json", text, &ITEM_ROWS[i]);
}

static void
check_load_fails (Scratch *scratch, int code, const char *file, const char *reason)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (DryCatalog) catalog = scratch_load (scratch, &error);

  g_assert_null (catalog);
  g_assert_error (error, DRY_ERROR, code);
  g_test_message ("%s", error->message);
  g_assert_nonnull (strstr (error->message, file));
  g_assert_nonnull (strstr (error->message, reason));
}

/* The same id in two files of one folder: the later file is named, and the earlier one with it. */
static void
test_same_id_in_one_folder (void)
{
  static const char *const FILES[][2] = {{"systems", "systems/foam-bands.json"},
                                         {"items", "items/tiles.json"}};

  for (guint i = 0; i < G_N_ELEMENTS (FILES); i++) {
    g_autoptr (Scratch) scratch = scratch_new ();
    g_autofree char *text = scratch_shipped_text (FILES[i][1], NULL);
    scratch_write (scratch, FILES[i][0], "a.json", text, -1);
    scratch_write (scratch, FILES[i][0], "b.json", text, -1);
    check_load_fails (scratch, DRY_ERROR_SCHEMA, "b.json:", "a.json");
  }
}

/* Cut off anywhere, a file is refused and named; nothing crashes. */
static void
test_truncated (void)
{
  gsize length = 0;
  g_autofree char *text = scratch_shipped_text ("systems/cement-liquid.json", &length);

  for (gsize cut = 0; cut < length - 2; cut += 131) {
    g_autoptr (Scratch) scratch = scratch_new ();
    scratch_write (scratch, "systems", "cut.json", text, (gssize) cut);
    check_load_fails (scratch, DRY_ERROR_SYNTAX, "cut.json:", "");
  }
}

/* One byte changed anywhere: either still a catalogue, or an error that names the file. */
static void
test_changed_bytes (void)
{
  static const char BYTES[] = "\"{}[],:0-e\xff\\";
  gsize length = 0;
  g_autofree char *text = scratch_shipped_text ("systems/foam-sealant.json", &length);
  g_autoptr (GRand) random = g_rand_new_with_seed (7);
  guint n_refused = 0;

  for (guint round = 0; round < 300; round++) {
    g_autoptr (Scratch) scratch = scratch_new ();
    g_autoptr (GError) error = NULL;
    g_autoptr (DryCatalog) catalog = NULL;
    gsize at = (gsize) g_rand_int_range (random, 0, (gint) length);
    char kept = text[at];
    text[at] = BYTES[g_rand_int_range (random, 0, sizeof BYTES - 1)];
    scratch_write (scratch, "systems", "bytes.json", text, (gssize) length);
    catalog = scratch_load (scratch, &error);
    text[at] = kept;
    g_assert_true ((catalog == NULL) == (error != NULL));
    if (error) {
      g_assert_nonnull (strstr (error->message, "bytes.json:"));
      n_refused++;
    }
  }
  g_assert_cmpuint (n_refused, >, 100);
}

static void
test_files_that_are_none (void)
{
  g_autoptr (Scratch) missing = scratch_new ();
  g_autoptr (Scratch) pipe = scratch_new ();
  g_autoptr (Scratch) huge = scratch_new ();
  g_autofree char *fifo = g_build_filename (pipe->path, "systems", "pipe.json", NULL);
  g_autofree char *large = g_build_filename (huge->path, "items", "huge.json", NULL);
  g_autofree char *gone = g_build_filename (missing->path, "gone", NULL);
  const char *folders[] = {gone, NULL};
  g_autoptr (GError) error = NULL;

  g_assert_null (dry_catalog_load (folders, &error));
  g_assert_error (error, DRY_ERROR, DRY_ERROR_FILE);
  g_assert_nonnull (strstr (error->message, "gone"));

  scratch_write (pipe, "systems", "readme.txt", "not read", -1);
  g_assert_cmpint (mkfifo (fifo, 0600), ==, 0);
  check_load_fails (pipe, DRY_ERROR_FILE, "pipe.json", "regular");

  scratch_write (huge, "items", "huge.json", "", 0);
  g_assert_cmpint (truncate (large, 17 * 1024 * 1024), ==, 0);
  check_load_fails (huge, DRY_ERROR_LIMIT, "huge.json", "larger");
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/catalog/refusals/systems", test_systems);
  g_test_add_func ("/catalog/refusals/null-list", test_null_list);
  g_test_add_func ("/catalog/refusals/items", test_items);
  g_test_add_func ("/catalog/refusals/same-id", test_same_id_in_one_folder);
  g_test_add_func ("/catalog/refusals/truncated", test_truncated);
  g_test_add_func ("/catalog/refusals/changed-bytes", test_changed_bytes);
  g_test_add_func ("/catalog/refusals/no-files", test_files_that_are_none);
  return g_test_run ();
}
