/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the catalogue's readers refuse: broken copies of shipped files, each with one thing wrong,
 * must give an error that names file, path and reason. */
#include "scratch.h"

#include "catalog/read.h"

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

/* What the parts of a system say about each other. */
static const Refusal CHECK_ROWS[] = {
    {"band without product", "\"free\": {\"kind\": \"none\",",
     "\"free\": {\"kind\": \"band\", \"width_mm\": 9, \"bedding\": \"mortar-unmodified\",",
     DRY_ERROR_SCHEMA, "treatments.free", "needs a “product”"},
    {"none with a product", "\"free\": {\"kind\": \"none\",",
     "\"free\": {\"kind\": \"none\", \"product\": \"sealant\",", DRY_ERROR_SCHEMA,
     "treatments.free", "takes no product"},
    {"none with a bedding", "\"free\": {\"kind\": \"none\",",
     "\"free\": {\"kind\": \"none\", \"bedding\": \"mortar-unmodified\",", DRY_ERROR_SCHEMA,
     "treatments.free", "takes no product"},
    {"none with a fill", "\"free\": {\"kind\": \"none\",",
     "\"free\": {\"kind\": \"none\", \"fill\": \"sealant\", \"depth_mm\": 9,", DRY_ERROR_SCHEMA,
     "treatments.free", "takes no product"},
    {"mesh without bedding", "\"free\": {\"kind\": \"none\",",
     "\"free\": {\"kind\": \"mesh\", \"width_mm\": 9, \"product\": \"band-5\",", DRY_ERROR_SCHEMA,
     "treatments.free", "“bedding”"},
    {"bead in a bedding", "\"free\": {\"kind\": \"none\",",
     "\"free\": {\"kind\": \"bead\", \"width_mm\": 9, \"depth_mm\": 9, \"product\": \"sealant\", "
     "\"bedding\": \"mortar-unmodified\",",
     DRY_ERROR_SCHEMA, "treatments.free", "only band and mesh"},
    {"bead without depth", "\"free\": {\"kind\": \"none\",",
     "\"free\": {\"kind\": \"bead\", \"width_mm\": 9, \"product\": \"sealant\",", DRY_ERROR_SCHEMA,
     "treatments.free", "a bead needs"},
    {"bead without width", "\"free\": {\"kind\": \"none\",",
     "\"free\": {\"kind\": \"bead\", \"depth_mm\": 9, \"product\": \"sealant\",", DRY_ERROR_SCHEMA,
     "treatments.free", "a bead needs"},
    {"filler without depth", "\"free\": {\"kind\": \"none\",",
     "\"free\": {\"kind\": \"filler\", \"product\": \"filler-strip\",", DRY_ERROR_SCHEMA,
     "treatments.free", "a filler needs"},
    {"fill without depth", "\"free\": {\"kind\": \"none\",",
     "\"free\": {\"kind\": \"gasket\", \"product\": \"gasket-pipe\", \"fill\": \"sealant\",",
     DRY_ERROR_SCHEMA, "treatments.free", "the depth it fills"},
    {"fill by area", "\"free\": {\"kind\": \"none\",",
     "\"free\": {\"kind\": \"gasket\", \"product\": \"gasket-pipe\", \"depth_mm\": 9, \"fill\": "
     "\"mortar-unmodified\",",
     DRY_ERROR_SCHEMA, "treatments.free.fill", "needs “length” or “volume”"},
    {"filler by volume", "\"free\": {\"kind\": \"none\",",
     "\"free\": {\"kind\": \"filler\", \"product\": \"sealant\", \"depth_mm\": 9,",
     DRY_ERROR_SCHEMA, "treatments.free.product", "used by “volume”; this needs “length”"},
    {"kind that is no word", "\"kind\": \"band\"", "\"kind\": 3", DRY_ERROR_SCHEMA,
     "treatments.seam.kind", "text"},
    {"washer without diameter", "\"washer_diameter_mm\": 31.75,", "", DRY_ERROR_SCHEMA, "fastening",
     "washer_diameter_mm"},
    {"greatest distance too small", "\"edge_distance_max\": {\"mm\": 25.4",
     "\"edge_distance_max\": {\"mm\": 12", DRY_ERROR_SCHEMA, "fastening.edge_distance_max",
     "less than"},
    {"cover of nothing", "\"product\": \"band-5\", \"per_fastener\"", "\"per_fastener\"",
     DRY_ERROR_SCHEMA, "fastening.cover", "per_fastener"},
    {"cover of an unknown product", "\"product\": \"band-5\", \"per_fastener\"",
     "\"product\": \"band-9\", \"per_fastener\"", DRY_ERROR_REFERENCE, "fastening.cover.product",
     "band-9"},
    {"none with a membrane", "{\"kind\": \"none\", \"needed\": false}",
     "{\"needed\": false, \"kind\": \"none\", \"product\": \"mortar-unmodified\"}",
     DRY_ERROR_SCHEMA, "membrane", "takes no product"},
    {"none with a mortar", "{\"kind\": \"none\", \"needed\": false}",
     "{\"needed\": false, \"kind\": \"none\", \"mortar\": \"mortar-unmodified\"}", DRY_ERROR_SCHEMA,
     "membrane", "takes no product"},
    {"none in coats", "{\"kind\": \"none\", \"needed\": false}",
     "{\"needed\": false, \"kind\": \"none\", \"coats\": 1}", DRY_ERROR_SCHEMA, "membrane",
     "takes no product"},
    {"membrane of nothing", "{\"kind\": \"none\", \"needed\": false}",
     "{\"needed\": false, \"kind\": \"sheet\", \"mortar\": \"mortar-unmodified\"}",
     DRY_ERROR_SCHEMA, "membrane", "needs a “product”"},
    {"sheet without mortar", "{\"kind\": \"none\", \"needed\": false}",
     "{\"needed\": false, \"kind\": \"sheet\", \"product\": \"mortar-unmodified\"}",
     DRY_ERROR_SCHEMA, "membrane", "its “mortar”"},
    {"membrane by volume", "{\"kind\": \"none\", \"needed\": false}",
     "{\"needed\": false, \"kind\": \"sheet\", \"product\": \"sealant\", \"mortar\": "
     "\"mortar-unmodified\"}",
     DRY_ERROR_SCHEMA, "membrane.product", "used by “volume”"},
    {"liquid without coats", "{\"kind\": \"none\", \"needed\": false}",
     "{\"needed\": false, \"kind\": \"liquid\", \"product\": \"mortar-unmodified\", \"wet_film\": "
     "{\"value\": 0.4, \"source\": \"s\", \"certainty\": \"memory\"}, \"dry_film\": {\"value\": "
     "0.3, \"source\": \"s\", \"certainty\": \"memory\"}}",
     DRY_ERROR_SCHEMA, "membrane", "needs “coats”"},
    {"liquid without wet film", "{\"kind\": \"none\", \"needed\": false}",
     "{\"needed\": false, \"kind\": \"liquid\", \"product\": \"mortar-unmodified\", \"coats\": 2, "
     "\"dry_film\": {\"value\": 0.3, \"source\": \"s\", \"certainty\": \"memory\"}}",
     DRY_ERROR_SCHEMA, "membrane", "needs “coats”"},
    {"liquid without dry film", "{\"kind\": \"none\", \"needed\": false}",
     "{\"needed\": false, \"kind\": \"liquid\", \"product\": \"mortar-unmodified\", \"coats\": 2, "
     "\"wet_film\": {\"value\": 0.4, \"source\": \"s\", \"certainty\": \"memory\"}}",
     DRY_ERROR_SCHEMA, "membrane", "needs “coats”"},
    {"dry film of more than all coats", "{\"kind\": \"none\", \"needed\": false}",
     "{\"needed\": false, \"kind\": \"liquid\", \"product\": \"mortar-unmodified\", \"coats\": 2, "
     "\"wet_film\": {\"value\": 0.4, \"source\": \"s\", \"certainty\": \"memory\"}, \"dry_film\": "
     "{\"value\": 0.81, \"source\": \"s\", \"certainty\": \"memory\"}}",
     DRY_ERROR_SCHEMA, "membrane.dry_film", "thicker"},
    {"rate of a piece", "\"use\": \"each\",", "\"use\": \"each\", \"rate\": 2,", DRY_ERROR_SCHEMA,
     "products[0].rate", "only a product used by area"},
    {"rate below one", "\"use\": \"each\",", "\"use\": \"each\", \"rate\": 0.5,", DRY_ERROR_SCHEMA,
     "products[0].rate", "only a product used by area"},
    {"area without rate", "\"use\": \"each\",", "\"use\": \"area\",", DRY_ERROR_SCHEMA,
     "products[0]", "needs a “rate”"},
    {"id with two marks", "\"id\": \"foam-bands\"", "\"id\": \"foam--bands\"", DRY_ERROR_SCHEMA,
     "id", "no id"},
    {"id that ends with a mark", "\"id\": \"foam-bands\"", "\"id\": \"foam-\"", DRY_ERROR_SCHEMA,
     "id", "no id"},
    {"id of nothing", "\"id\": \"foam-bands\"", "\"id\": \"\"", DRY_ERROR_SCHEMA, "id", "no id"},
    {"an id is no number", "\"id\": \"foam-bands\"", "\"id\": 7", DRY_ERROR_SCHEMA, "id", "text"},
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
  for (guint i = 0; i < G_N_ELEMENTS (CHECK_ROWS); i++)
    check_refusal ("systems", "foam.json", text, &CHECK_ROWS[i]);
}

/* What stands just inside what is refused. */
static void
test_accepted (void)
{
  static const struct {
    const char *find, *with;
  } ROWS[] = {
      {"\"free\": {\"kind\": \"none\",",
       "\"free\": {\"kind\": \"gasket\", \"product\": \"gasket-pipe\", \"fill\": \"sealant\", "
       "\"depth_mm\": 9,"},
      {"\"free\": {\"kind\": \"none\",",
       "\"free\": {\"kind\": \"filler\", \"product\": \"filler-strip\", \"depth_mm\": 9, \"fill\": "
       "\"filler-strip\","},
      {"\"washer\": \"washer-125\",\n    \"washer_diameter_mm\": 31.75,", ""},
      {",\n    \"cover\": {\"name\": \"band patch\", \"product\": \"band-5\", \"per_fastener\": "
       "0.127}",
       ""},
      {"\"edge_distance_max\": {\"mm\": 25.4", "\"edge_distance_max\": {\"mm\": 12.7"},
      {"\"edge_distance_min\": {\"mm\": 9.525", "\"edge_distance_min\": {\"mm\": 12.7"},
      {"{\"kind\": \"none\", \"needed\": false}",
       "{\"kind\": \"liquid\", \"needed\": true, \"product\": \"mortar-unmodified\", \"coats\": 2, "
       "\"wet_film\": {\"value\": 0.4, \"source\": \"s\", \"certainty\": \"memory\"}, "
       "\"dry_film\": "
       "{\"value\": 0.8, \"source\": \"s\", \"certainty\": \"memory\"}}"},
      {"\"use\": \"each\",", "\"use\": \"each\", \"rate\": 1,"},
      {"\"width_mm\": 914.4", "\"width_mm\": 1524"},
  };
  g_autofree char *text = scratch_shipped_text ("systems/foam-bands.json", NULL);

  for (guint i = 0; i < G_N_ELEMENTS (ROWS); i++) {
    g_autoptr (Scratch) scratch = scratch_new ();
    g_autofree char *good = scratch_replace (text, ROWS[i].find, ROWS[i].with);
    g_autoptr (GError) error = NULL;
    g_autoptr (DryCatalog) catalog = NULL;

    scratch_write (scratch, "systems", "foam.json", good, -1);
    catalog = scratch_load (scratch, &error);
    g_assert_no_error (error);
    g_assert_nonnull (dry_catalog_get_system (catalog, "foam-bands"));
  }
}

/* Ids, texts and lists at their limits (catalog/read.h), and one beyond. */
static void
test_limits (void)
{
  static const struct {
    const char *find, *format;
    guint most;
    int code;
    const char *path, *reason;
  } ROWS[] = {
      {"\"id\": \"foam-bands\"", "\"id\": \"%s\"", DRY_CATALOG_MAX_ID, DRY_ERROR_SCHEMA, "id",
       "no id"},
      {"\"cutting\": \"knife\"", "\"cutting\": \"%s\"", DRY_CATALOG_MAX_TEXT, DRY_ERROR_LIMIT,
       "board.cutting", "longer"},
  };
  g_autofree char *text = scratch_shipped_text ("systems/foam-bands.json", NULL);

  for (guint i = 0; i < G_N_ELEMENTS (ROWS); i++)
    for (guint over = 0; over < 2; over++) {
      g_autofree char *fill = g_strnfill (ROWS[i].most + over, 'a');
      g_auto (GStrv) parts = g_strsplit (ROWS[i].format, "%s", 2);
      g_autofree char *with = g_strjoin (fill, parts[0], parts[1], NULL);
      Refusal row = {"limit", ROWS[i].find, with, ROWS[i].code, ROWS[i].path, ROWS[i].reason};

      if (over > 0) {
        check_refusal ("systems", "foam.json", text, &row);
      } else {
        g_autoptr (Scratch) scratch = scratch_new ();
        g_autofree char *good = scratch_replace (text, row.find, row.with);
        g_autoptr (GError) error = NULL;
        g_autoptr (DryCatalog) catalog = NULL;

        scratch_write (scratch, "systems", "foam.json", good, -1);
        catalog = scratch_load (scratch, &error);
        g_assert_no_error (error);
      }
    }
}

static void
test_too_many (void)
{
  GString *tools = g_string_new ("\"tools\": [");
  g_autofree char *text = scratch_shipped_text ("systems/foam-bands.json", NULL);
  g_autofree char *with = NULL;
  Refusal row = {"tools without end", "\"tools\": [", NULL, DRY_ERROR_LIMIT, "tools", "more than"};

  for (guint i = 0; i < 5000; i++)
    g_string_append (tools, "\"rasp\", ");
  with = g_string_free (tools, FALSE);
  row.with = with;
  check_refusal ("systems", "foam.json", text, &row);
}

/* One item made of the value alone: refused with the words, or taken where there are none. */
static void
test_item_values (void)
{
#define PART(kind, more)                                                                           \
  "\"part\": {\"kind\": \"" kind "\", \"z_mm\": 900, \"width_mm\": 300, \"height_mm\": 200" more "}"
#define OPENING(kind, z)                                                                           \
  "\"opening\": {\"kind\": \"" kind "\", \"z_mm\": " z ", \"width_mm\": 700, \"height_mm\": 2000}"
#define TILE(sheet)                                                                                \
  "\"tile\": {\"width_mm\": 50, \"height_mm\": 50, \"thickness_mm\": 6, \"joint_mm\": 2, "         \
  "\"mass\": 12, "                                                                                 \
  "\"packing\": {" sheet "\"source\": \"s\", \"certainty\": \"memory\"}}"
  static const struct {
    const char *value, *path, *reason;
  } ROWS[] = {
      {PART ("niche", ", \"site_built\": true"), NULL, NULL},
      {PART ("niche", ", \"site_built\": true, \"body_width_mm\": 300"), "part", "either"},
      {PART ("niche", ", \"site_built\": true, \"body_height_mm\": 300"), "part", "either"},
      {PART ("niche", ", \"body_width_mm\": 300, \"body_height_mm\": 200"), NULL, NULL},
      {PART ("niche", ", \"body_width_mm\": 299, \"body_height_mm\": 200"), "part", "smaller"},
      {PART ("niche", ", \"body_width_mm\": 300, \"body_height_mm\": 199"), "part", "smaller"},
      {PART ("niche", ", \"body_width_mm\": 300"), "part", "smaller"},
      {PART ("valve", ""), NULL, NULL},
      {PART ("valve", ", \"body_width_mm\": 300"), "part", "only a niche"},
      {PART ("valve", ", \"body_height_mm\": 300"), "part", "only a niche"},
      {PART ("valve", ", \"flange_mm\": 30"), "part", "only a niche"},
      {PART ("valve", ", \"site_built\": true"), "part", "only a niche"},
      {PART ("valve", ", \"colour\": 1"), "part", "colour"},
      {OPENING ("window", "900"), NULL, NULL},
      {OPENING ("door", "0"), NULL, NULL},
      {OPENING ("door", "900"), "opening.z_mm", "only a window"},
      {OPENING ("passage", "1"), "opening.z_mm", "only a window"},
      {TILE ("\"sheet\": {\"across\": 1, \"up\": 2}, "), NULL, NULL},
      {TILE ("\"sheet\": {\"across\": 1, \"up\": 1}, "), "tile.packing.sheet", "two chips"},
      {TILE (""), NULL, NULL},
      {"\"tile\": null", "", "needs one of"},
  };

  for (guint i = 0; i < G_N_ELEMENTS (ROWS); i++) {
    g_autoptr (Scratch) scratch = scratch_new ();
    g_autoptr (GError) error = NULL;
    g_autoptr (DryCatalog) catalog = NULL;
    g_autofree char *text = g_strdup_printf (
        "{\"format\": \"drybay-items\", \"version\": 1, \"items\": [{\"id\": \"a\", \"name\": "
        "\"A\", "
        "\"group\": \"niches\", \"source\": \"s\", \"certainty\": \"memory\", %s}]}",
        ROWS[i].value);
    g_autofree char *where =
        g_strdup_printf ("items[0]%s%s:", ROWS[i].path && *ROWS[i].path ? "." : "",
                         ROWS[i].path ? ROWS[i].path : "");

    scratch_write (scratch, "items", "a.json", text, -1);
    catalog = scratch_load (scratch, &error);
    g_test_message ("row %u: %s", i, error ? error->message : "taken");
    g_assert_true ((error == NULL) == (ROWS[i].reason == NULL));
    g_assert_true ((catalog == NULL) == (error != NULL));
    if (error) {
      g_assert_nonnull (strstr (error->message, where));
      g_assert_nonnull (strstr (error->message, ROWS[i].reason));
    }
  }
#undef PART
#undef OPENING
#undef TILE
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
  g_test_add_func ("/catalog/refusals/accepted", test_accepted);
  g_test_add_func ("/catalog/refusals/limits", test_limits);
  g_test_add_func ("/catalog/refusals/too-many", test_too_many);
  g_test_add_func ("/catalog/refusals/item-values", test_item_values);
  g_test_add_func ("/catalog/refusals/null-list", test_null_list);
  g_test_add_func ("/catalog/refusals/items", test_items);
  g_test_add_func ("/catalog/refusals/same-id", test_same_id_in_one_folder);
  g_test_add_func ("/catalog/refusals/truncated", test_truncated);
  g_test_add_func ("/catalog/refusals/changed-bytes", test_changed_bytes);
  g_test_add_func ("/catalog/refusals/no-files", test_files_that_are_none);
  return g_test_run ();
}
