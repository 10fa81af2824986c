/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Bad files: each is refused, quickly, with a code and words that say where and why. */
#include "project/file.h"

#include <glib/gstdio.h>
#include <string.h>

#include "base/json.h"
#include "support/fixtures.h"

static char *
replace_once (const char *text, const char *old, const char *new)
{
  const char *at = strstr (text, old);
  g_autofree char *head = NULL;

  if (at == NULL)
    g_error ("the sample lacks %s", old);
  head = g_strndup (text, (gsize) (at - text));
  return g_strconcat (head, new, at + strlen (old), NULL);
}

static void
assert_refused (const char *text, gsize length, gint code, const char *words)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (DryProject) project = dry_project_from_text (text, length, "bad.drybay", &error);

  if (project != NULL)
    g_error ("taken, although: %s", words);
  g_assert_cmpint (g_str_has_prefix (error->message, "bad.drybay"), ==, TRUE);
  if (error->domain != DRY_ERROR || error->code != code || strstr (error->message, words) == NULL)
    g_error ("got %d \"%s\", wanted %d \"%s\"", error->code, error->message, code, words);
}

static char *
sample_text (gsize *length)
{
  g_autoptr (DryProject) project = dry_test_load ("two-bath-house.drybay");

  return dry_project_to_text (project, length);
}

static void
test_changes (void)
{
  /* Each row changes the first place where `old` stands in two-bath-house.drybay. */
  static const struct {
    const char *old, *new;
    gint code;
    const char *words;
  } rows[] = {
      {"\"drybay-project\"", "\"drawing\"", DRY_ERROR_VERSION, "no Drybay project"},
      {"\"format\": \"drybay-project\",", "", DRY_ERROR_VERSION, "no Drybay project"},
      {"\"version\": 1", "\"version\": 2", DRY_ERROR_VERSION, "newer Drybay"},
      {"\"version\": 1", "\"version\": 0", DRY_ERROR_SCHEMA, "version"},
      {"\"version\": 1", "\"version\": 1.5", DRY_ERROR_SCHEMA, "version"},
      {"\"version\": 1", "\"version\": \"1\"", DRY_ERROR_SCHEMA, "version"},
      {"\"version\": 1,", "\"version\": 1, \"colour\": 3,", DRY_ERROR_SCHEMA, "colour"},
      {"\"version\": 1,", "\"version\": 1, \"version\": 1,", DRY_ERROR_SCHEMA, "version"},
      {"\"next_id\": ", "\"next_id\": 1, \"x\": ", DRY_ERROR_SCHEMA, "x"},
      {"\"title\": ", "\"title\": 5, \"x\": ", DRY_ERROR_SCHEMA, "job"},
      {"\"client\"", "\"Client\"", DRY_ERROR_SCHEMA, "job.Client"},
      {"\"rule_pack\": \"us-residential\"", "\"rule_pack\": \"\"", DRY_ERROR_SCHEMA,
       "job.rule_pack"},
      {"\"rule_pack\": \"us-residential\",", "", DRY_ERROR_SCHEMA, "rule_pack"},
      {"\"denominator\": 16", "\"denominator\": 12", DRY_ERROR_LIMIT, "job.denominator"},
      {"\"units\": \"inches\"", "\"units\": \"cubits\"", DRY_ERROR_SCHEMA, "job.units"},
      {"\"temperature_celsius\": 19", "\"temperature_celsius\": NaN", DRY_ERROR_SYNTAX, ":"},
      {"\"temperature_celsius\": 19", "\"temperature_celsius\": 1e999", DRY_ERROR_SCHEMA,
       "job.temperature_celsius"},
      {"\"temperature_celsius\": 19", "\"temperature_celsius\": 1000", DRY_ERROR_SCHEMA,
       "job.temperature_celsius"},
      {"\"ceiling\": 2438.4", "\"ceiling\": 0", DRY_ERROR_SCHEMA, "rooms[0].ceiling"},
      {"\"ceiling\": 2438.4", "\"ceiling\": \"8 ft\"", DRY_ERROR_SCHEMA, "rooms[0].ceiling"},
      {"\"ceiling\": 2438.4", "\"ceiling\": 1e300", DRY_ERROR_SCHEMA, "rooms[0].ceiling"},
      {"\"ceiling\": 2438.4,", "\"ceiling\": 2438.4, \"ceiling\": 1,", DRY_ERROR_SCHEMA, "ceiling"},
      {"\"ceiling\": 2438.4,", "\"ceiling\": 2438.4, \"joist_spacing\": 1,", DRY_ERROR_GEOMETRY,
       "rooms[0].joist_spacing"},
      {"\"start\": [0, 2438.4]", "\"start\": [0]", DRY_ERROR_SCHEMA, "rooms[0].walls[0].start"},
      {"\"start\": [0, 2438.4]", "\"start\": {}", DRY_ERROR_SCHEMA, "rooms[0].walls[0].start"},
      {"\"start\": [0, 2438.4]", "\"start\": [0, 2e6]", DRY_ERROR_SCHEMA,
       "rooms[0].walls[0].start[1]"},
      {"\"start\": [0, 2438.4]", "\"start\": [0, 0]", DRY_ERROR_GEOMETRY,
       "rooms[0].walls[3].start: the wall has no length"},
      {"\"start\": [0, 2438.4]", "\"start\": [4000, 1000]", DRY_ERROR_GEOMETRY,
       "rooms[0].walls: the outline crosses"},
      {"\"start\": [0, 2438.4]", "\"start\": [2133.6, -100]", DRY_ERROR_GEOMETRY, "rooms[0].walls"},
      {"\"stud_spacing\": 406.4", "\"stud_spacing\": 0.001", DRY_ERROR_SCHEMA,
       "rooms[0].walls[0].stud_spacing"},
      {"\"found_studs\": [228.6, 635", "\"found_studs\": [635, 228.6", DRY_ERROR_GEOMETRY,
       "rooms[0].walls[3].found_studs"},
      {"\"found_studs\": [228.6,", "\"found_studs\": [true,", DRY_ERROR_SCHEMA,
       "rooms[0].walls[3].found_studs[0]"},
      {"\"end\":", "\"End\":", DRY_ERROR_SCHEMA, "rooms[0].added_walls[0].End"},
      {"\"bearing\": true", "\"bearing\": 1", DRY_ERROR_SCHEMA, "rooms[0].walls[0].bearing"},
      {"\"bearing\": true", "\"bearing\": true, \"end\": [0, 0]", DRY_ERROR_SCHEMA,
       "rooms[0].walls[0].end"},
      {"\"kind\": \"window\"", "\"kind\": \"hatch\"", DRY_ERROR_SCHEMA,
       "rooms[0].openings[0].kind"},
      {"\"kind\": \"tub\",", "", DRY_ERROR_SCHEMA, "rooms[0].basin"},
      {"\"drain\": \"left\"", "\"drain\": \"Left\"", DRY_ERROR_SCHEMA, "rooms[0].basin.drain"},
      {"\"system\": \"cement-liquid\"", "\"system\": 3", DRY_ERROR_SCHEMA,
       "rooms[0].finish.system"},
      {"\"offset\": 0.5", "\"offset\": 0.51", DRY_ERROR_SCHEMA, "rooms[0].finish.offset"},
      {"\"tile_width\": 152.4", "\"tile_width\": 1", DRY_ERROR_GEOMETRY,
       "rooms[0].finish.tile_width"},
      {"\"kind\": \"valve\"", "\"kind\": \"valve\", \"side\": \"outside\"", DRY_ERROR_REFERENCE,
       "rooms[0].parts[0].side"},
      {"\"item\": \"valve-mixer\"", "\"shade\": 1", DRY_ERROR_SCHEMA, "rooms[0].parts[0].shade"},
      {"\"item\": \"valve-mixer\"", "\"flow_litres_per_minute\": -1", DRY_ERROR_SCHEMA,
       "rooms[0].parts[0].flow_litres_per_minute"},
      {"\"rooms\": [", "\"rooms\": [5,", DRY_ERROR_SCHEMA, "rooms[0]"},
      {"\"rooms\": [", "\"rooms\": [{},", DRY_ERROR_SCHEMA, "rooms[0]"},
      {"\"wet\": {", "\"wet\": [], \"other\": {", DRY_ERROR_SCHEMA, "rooms[0].wet"},
  };
  g_autofree char *good = sample_text (NULL);

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++) {
    g_autofree char *bad = replace_once (good, rows[i].old, rows[i].new);

    assert_refused (bad, strlen (bad), rows[i].code, rows[i].words);
  }
}

/* Ids: of no wall, used twice in a room, in two rooms, beyond next_id, 0, too large. */
static void
test_ids (void)
{
  g_autoptr (DryProject) project = dry_test_load ("two-bath-house.drybay");
  const DryRoom *room = dry_project_get_room_at (project, 0);
  const DryRoom *other = dry_project_get_room_at (project, 1);
  g_autofree char *good = dry_project_to_text (project, NULL);
  g_autofree char *part =
      g_strdup_printf ("\"id\": %u,\n          \"kind\": \"valve\"", room->parts[0].id);
  const struct {
    char *new;
    gint code;
    const char *words;
  } rows[] = {
      {g_strdup_printf ("\"id\": %u, \"kind\": \"valve\"", room->id), DRY_ERROR_REFERENCE,
       "rooms[0].parts[0].id: id 1 is used twice"},
      {g_strdup_printf ("\"id\": %u, \"kind\": \"valve\"", other->walls[0].id), DRY_ERROR_REFERENCE,
       "rooms[1]: id"},
      {g_strdup ("\"id\": 5000, \"kind\": \"valve\""), DRY_ERROR_REFERENCE, "next_id: must be"},
      {g_strdup ("\"id\": 0, \"kind\": \"valve\""), DRY_ERROR_SCHEMA, "rooms[0].parts[0].id"},
      {g_strdup ("\"id\": 4294967296, \"kind\": \"valve\""), DRY_ERROR_SCHEMA,
       "rooms[0].parts[0].id"},
      {g_strdup ("\"id\": 5.5, \"kind\": \"valve\""), DRY_ERROR_SCHEMA, "rooms[0].parts[0].id"},
  };
  g_autofree char *wall = g_strdup_printf ("\"wall\": %u", room->parts[0].wall);
  g_autofree char *lost = replace_once (strstr (good, "\"parts\""), wall, "\"wall\": 999");
  g_autofree char *head = g_strndup (good, (gsize) (strstr (good, "\"parts\"") - good));
  g_autofree char *bad = g_strconcat (head, lost, NULL);

  assert_refused (bad, strlen (bad), DRY_ERROR_REFERENCE,
                  "rooms[0].parts[0].wall: the room has no wall 999");
  for (guint i = 0; i < G_N_ELEMENTS (rows); i++) {
    g_autofree char *text = replace_once (good, part, rows[i].new);

    assert_refused (text, strlen (text), rows[i].code, rows[i].words);
    g_free (rows[i].new);
  }
}

static void
test_truncated (void)
{
  g_autoptr (DryProject) project = dry_test_load ("alcove-refit.drybay");
  gsize length;
  g_autofree char *text = dry_project_to_text (project, &length);

  /* Without its last newline a file is whole. */
  for (gsize n = 0; n + 1 < length; n++) {
    /* A copy of exactly that size, so that a sanitizer sees a read past the end. */
    g_autofree char *cut = g_memdup2 (text, n);

    assert_refused (cut, n, DRY_ERROR_SYNTAX, "bad.drybay:");
  }
}

/* Any one byte changed: taken or refused, never a crash, and an error always has words. */
static void
test_flipped_bytes (void)
{
  g_autoptr (DryProject) sample = dry_test_load ("alcove-refit.drybay");
  gsize length;
  g_autofree char *text = dry_project_to_text (sample, &length);
  GRand *random = g_rand_new_with_seed (7);

  for (gsize i = 0; i < length; i++) {
    char old = text[i];
    g_autoptr (GError) error = NULL;
    g_autoptr (DryProject) project = NULL;

    text[i] = (char) g_rand_int_range (random, 0, 256);
    project = dry_project_from_text (text, length, "flipped", &error);
    g_assert_true ((project == NULL) == (error != NULL));
    text[i] = old;
  }
  g_rand_free (random);
}

/* --- sizes --- */

static char *
make_walls (guint n)
{
  GString *text = g_string_new ("{\"format\":\"drybay-project\",\"version\":1,\"next_id\":900000,"
                                "\"job\":{\"rule_pack\":\"p\"},\"rooms\":[{\"id\":1,"
                                "\"ceiling\":2400,\"wet\":{},\"finish\":{\"system\":\"s\"},"
                                "\"walls\":[");

  /* A comb along the x axis and back below it, clockwise. */
  for (guint i = 0; i < n; i++)
    g_string_append_printf (text, "%s{\"id\":%u,\"start\":[%u,%u]}", i > 0 ? "," : "", i + 2,
                            i < n - 1 ? i : n, i < n - 1 ? 100 + i % 2 : 0);
  g_string_append (text, "]}]}");
  return g_string_free (text, FALSE);
}

static void
test_many_walls (void)
{
  static const guint counts[] = {257, 20000, 60000, 100000, 400000};

  for (guint i = 0; i < G_N_ELEMENTS (counts); i++) {
    g_autofree char *text = make_walls (counts[i]);

    assert_refused (text, strlen (text), DRY_ERROR_LIMIT, counts[i] < 10000 ? "257 walls" : "");
  }
}

static void
test_most_walls (void)
{
  g_autofree char *text = make_walls (DRY_MAX_WALLS);
  g_autoptr (GError) error = NULL;
  g_autoptr (DryProject) project = dry_project_from_text (text, strlen (text), "most", &error);

  g_assert_no_error (error);
  g_assert_cmpuint (dry_project_get_room_at (project, 0)->n_outline, ==, DRY_MAX_WALLS);
}

static void
test_many_unknown_fields (void)
{
  g_autofree char *good = sample_text (NULL);
  GString *fields = g_string_new ("\"ceiling\": 2438.4,");
  g_autofree char *bad = NULL;

  for (guint i = 0; i < 100000; i++)
    g_string_append_printf (fields, "\"f%u\":0,", i);
  bad = replace_once (good, "\"ceiling\": 2438.4,", fields->str);
  g_string_free (fields, TRUE);
  assert_refused (bad, strlen (bad), DRY_ERROR_LIMIT, "rooms[0]");
}

/* --- whole files --- */

static void
test_no_files (void)
{
  static const struct {
    const char *path;
    gint code;
  } rows[] = {
      {"/nowhere/job.drybay", DRY_ERROR_FILE},
      {"/", DRY_ERROR_FILE},
      {"/dev/null", DRY_ERROR_SYNTAX},
      {"/dev/zero", DRY_ERROR_LIMIT}, /* endless: cut off at the cap */
  };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++) {
    g_autoptr (GError) error = NULL;

    g_assert_null (dry_project_load (rows[i].path, &error));
    g_assert_error (error, DRY_ERROR, rows[i].code);
    g_assert_nonnull (strstr (error->message, rows[i].path));
  }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/file-bad/changes", test_changes);
  g_test_add_func ("/file-bad/ids", test_ids);
  g_test_add_func ("/file-bad/truncated", test_truncated);
  g_test_add_func ("/file-bad/flipped-bytes", test_flipped_bytes);
  g_test_add_func ("/file-bad/many-walls", test_many_walls);
  g_test_add_func ("/file-bad/most-walls", test_most_walls);
  g_test_add_func ("/file-bad/many-unknown-fields", test_many_unknown_fields);
  g_test_add_func ("/file-bad/no-files", test_no_files);
  return g_test_run ();
}
