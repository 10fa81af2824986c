/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Alternates: what they hold, how a change of the base reaches them, and that files keep them. */
#include <string.h>

#include "project/alternate.h"
#include "project/fields.h"
#include "project/file.h"
#include "support/fixtures.h"

static DryProject *
good (DryProject *project, GError **error)
{
  g_assert_no_error (*error);
  g_assert_nonnull (project);
  return project;
}

/* The project with another system in the only room. */
static DryProject *
with_system (const DryProject *project, const char *system)
{
  g_autoptr (GError) error = NULL;
  DryId room = dry_project_get_room_at (project, 0)->id;
  DryFinish finish = dry_project_get_room (project, room)->finish;

  finish.system = (char *) system;
  return good (dry_edit_set_finish (project, room, &finish, &error), &error);
}

static DryProject *
with_tile (const DryProject *project, DryLength width)
{
  g_autoptr (GError) error = NULL;
  DryId room = dry_project_get_room_at (project, 0)->id;
  DryFinish finish = dry_project_get_room (project, room)->finish;

  finish.tile_width = width;
  return good (dry_edit_set_finish (project, room, &finish, &error), &error);
}

/* The furnished alcove with one alternate of another system. */
static DryProject *
make (DryId *alternate)
{
  g_autoptr (DryProject) base = dry_test_furnished_alcove ("cement-liquid");
  g_autoptr (GError) error = NULL;
  g_autoptr (DryProject) added =
      good (dry_edit_add_alternate (base, "Foam", "lighter", alternate, &error), &error);
  g_autoptr (DryProject) same = dry_project_resolve (added, *alternate);
  g_autoptr (DryProject) changed = with_system (same, "foam-bands");

  return good (dry_edit_set_alternate (added, *alternate, changed, &error), &error);
}

static const char *
system_of (const DryProject *project, DryId alternate)
{
  g_autoptr (DryProject) resolved = dry_project_resolve (project, alternate);

  return g_intern_string (dry_project_get_room_at (resolved, 0)->finish.system);
}

static void
test_values (void)
{
  DryId id;
  g_autoptr (DryProject) project = make (&id);
  const DryAlternate *alternate = dry_project_get_alternate (project, id);
  g_autoptr (GError) error = NULL;
  g_autoptr (DryProject) renamed = NULL, removed = NULL;

  g_assert_cmpuint (dry_project_get_n_alternates (project), ==, 1);
  g_assert_cmpstr (dry_alternate_get_name (alternate), ==, "Foam");
  g_assert_cmpuint (dry_alternate_get_n_rooms (alternate), ==, 1);
  g_assert_cmpstr (dry_project_get_room_at (project, 0)->finish.system, ==, "cement-liquid");
  g_assert_cmpstr (system_of (project, id), ==, "foam-bands");
  renamed = good (dry_edit_rename_alternate (project, id, "Lighter", NULL, &error), &error);
  alternate = dry_project_get_alternate (renamed, id);
  g_assert_cmpstr (dry_alternate_get_name (alternate), ==, "Lighter");
  g_assert_null (dry_alternate_get_note (alternate));
  removed = good (dry_edit_remove_alternate (project, id, &error), &error);
  g_assert_cmpuint (dry_project_get_n_alternates (removed), ==, 0);
  g_assert_null (dry_edit_add_alternate (project, " ", NULL, NULL, &error));
  g_assert_error (error, DRY_ERROR, DRY_ERROR_TEXT);
  g_clear_error (&error);
  g_assert_null (dry_edit_remove_alternate (project, id + 1, &error));
  g_assert_error (error, DRY_ERROR, DRY_ERROR_REFERENCE);
  g_assert_null (dry_project_resolve (project, id + 1));
}

/* The base's other fields and objects flow into the alternate; its own stay. */
static void
test_base_changes (void)
{
  DryId id, room, niche;
  g_autoptr (DryProject) project = make (&id);
  g_autoptr (DryProject) tiled = with_tile (project, 150 * DRY_MM);
  g_autoptr (DryProject) mortar = with_system (tiled, "mortar-bed");
  g_autoptr (DryProject) resolved = NULL, gone = NULL, after = NULL;
  g_autoptr (GError) error = NULL;
  guint n;

  resolved = dry_project_resolve (mortar, id);
  g_assert_cmpint (dry_project_get_room_at (resolved, 0)->finish.tile_width, ==, 150 * DRY_MM);
  g_assert_cmpstr (dry_project_get_room_at (resolved, 0)->finish.system, ==, "foam-bands");
  room = dry_project_get_room_at (mortar, 0)->id;
  n = dry_project_get_room_at (mortar, 0)->n_parts;
  niche = dry_project_get_room_at (mortar, 0)->parts[0].id;
  gone = good (dry_edit_remove (mortar, room, niche, &error), &error);
  after = dry_project_resolve (gone, id);
  g_assert_cmpuint (dry_project_get_room_at (after, 0)->n_parts, ==, n - 1);
}

/* What the alternate made of a part stays when the base drops or moves it. */
static void
test_own_parts (void)
{
  DryId id, room, niche;
  g_autoptr (DryProject) project = make (&id);
  g_autoptr (DryProject) resolved = dry_project_resolve (project, id), moved = NULL, set = NULL;
  g_autoptr (DryProject) base = NULL, after = NULL, dropped = NULL, last = NULL;
  g_autoptr (GError) error = NULL;
  DryPart part = dry_project_get_room_at (resolved, 0)->parts[0];

  room = dry_project_get_room_at (project, 0)->id;
  niche = part.id;
  part.z += 100 * DRY_MM;
  moved = good (dry_edit_set_part (resolved, room, &part, NULL, &error), &error);
  set = good (dry_edit_set_alternate (project, id, moved, &error), &error);
  part = dry_project_get_room_at (set, 0)->parts[0];
  part.u += 50 * DRY_MM;
  base = good (dry_edit_set_part (set, room, &part, NULL, &error), &error);
  after = dry_project_resolve (base, id);
  const DryPart *there = dry_room_get_part (dry_project_get_room_at (after, 0), niche);
  g_assert_cmpint (there->u, ==, part.u);                /* the base's move along the wall */
  g_assert_cmpint (there->z, ==, part.z + 100 * DRY_MM); /* the alternate's own height */
  dropped = good (dry_edit_remove (base, room, niche, &error), &error);
  last = dry_project_resolve (dropped, id);
  g_assert_nonnull (dry_room_get_part (dry_project_get_room_at (last, 0), niche));
}

static void
test_choose (void)
{
  DryId id, other;
  g_autoptr (DryProject) one = make (&id);
  g_autoptr (GError) error = NULL;
  g_autoptr (DryProject) two =
      good (dry_edit_add_alternate (one, "As it is", NULL, &other, &error), &error);
  g_autoptr (DryProject) chosen =
      good (dry_edit_choose_alternate (two, id, "Cement board", &error), &error);

  g_assert_cmpstr (dry_project_get_room_at (chosen, 0)->finish.system, ==, "foam-bands");
  g_assert_cmpuint (dry_project_get_n_alternates (chosen), ==, 2);
  g_assert_cmpstr (dry_alternate_get_name (dry_project_get_alternate (chosen, id)), ==,
                   "Cement board");
  g_assert_cmpstr (system_of (chosen, id), ==, "cement-liquid");
  g_assert_cmpstr (system_of (chosen, other), ==, "cement-liquid");
}

/* Every edit keeps the alternates, whatever it is of. */
static void
test_edits_keep_them (void)
{
  DryId id;
  g_autoptr (DryProject) project = make (&id);
  g_autoptr (GError) error = NULL;
  DryJob job = *dry_project_get_job (project);
  g_autoptr (DryRoom) room = dry_room_copy (dry_project_get_room_at (project, 0));
  g_autoptr (DryProject) named = NULL, two = NULL, one = NULL;
  DryId added;

  job.title = (char *) "Another";
  named = good (dry_edit_set_job (project, &job, &error), &error);
  g_assert_cmpuint (dry_project_get_n_alternates (named), ==, 1);
  room->id = 0;
  two = good (dry_edit_set_room (named, room, &added, &error), &error);
  g_assert_cmpuint (dry_project_get_n_alternates (two), ==, 1);
  one = good (dry_edit_remove_room (two, dry_project_get_room_at (two, 0)->id, &error), &error);
  g_assert_cmpuint (dry_project_get_n_alternates (one), ==, 1);
  g_assert_cmpuint (dry_alternate_get_n_rooms (dry_project_get_alternate (one, id)), ==, 0);
}

static void
test_file (void)
{
  DryId id;
  g_autoptr (DryProject) project = make (&id), again = NULL;
  g_autoptr (DryProject) base = dry_test_furnished_alcove ("cement-liquid");
  g_autoptr (GError) error = NULL;
  gsize length;
  g_autofree char *text = dry_project_to_text (project, &length);
  g_autofree char *plain = dry_project_to_text (base, NULL), *back = NULL;

  again = good (dry_project_from_text (text, length, "test", &error), &error);
  back = dry_project_to_text (again, NULL);
  g_assert_cmpstr (text, ==, back);
  g_assert_cmpstr (system_of (again, id), ==, "foam-bands");
  g_assert_nonnull (strstr (text, "\"alternates\""));
  g_assert_null (strstr (plain, "alternates"));
}

static void
expect_refusal (const char *text, const char *from, const char *to, const char *says)
{
  const char *at = g_strrstr (text, from);
  g_autoptr (GString) bad = g_string_new_len (text, at - text);
  g_autoptr (GError) error = NULL;

  g_string_append_printf (bad, "%s%s", to, at + strlen (from));
  g_assert_null (dry_project_from_text (bad->str, bad->len, "test", &error));
  g_assert_nonnull (error);
  if (!strstr (error->message, says) || !strstr (error->message, "alternates[0]"))
    g_error ("“%s” does not say “%s” of alternates[0]", error->message, says);
}

static void
test_bad_files (void)
{
  DryId id;
  g_autoptr (DryProject) project = make (&id);
  g_autofree char *text = dry_project_to_text (project, NULL);

  expect_refusal (text, "\"id\": 1,\n          \"name\"", "\"id\": 2,\n          \"name\"", "");
  expect_refusal (text, "\"name\": \"Foam\"", "\"name\": \"\"", "name");
  expect_refusal (text, "\"note\": \"lighter\"", "\"color\": \"lighter\"", "not a known field");
}

/* Name and note as edits take them. */
static void
test_texts (void)
{
  DryId id;
  g_autoptr (DryProject) project = make (&id);
  g_autofree char *full = g_strnfill (DRY_MAX_TEXT, 'a'),
                  *over = g_strnfill (DRY_MAX_TEXT + 1, 'a');
  const struct {
    const char *name, *note;
    gint code; /* -1: taken */
  } ROWS[] = {
      {NULL, NULL, DRY_ERROR_TEXT},
      {"", NULL, DRY_ERROR_TEXT},
      {" \t\r\n", "x", DRY_ERROR_TEXT},
      {over, NULL, DRY_ERROR_LIMIT},
      {"a", over, DRY_ERROR_LIMIT},
      {"\xff", NULL, DRY_ERROR_TEXT},
      {"a", "\xff", DRY_ERROR_TEXT},
      {full, full, -1},
      {"a", "", -1},
      {" a ", NULL, -1},
  };

  for (guint i = 0; i < G_N_ELEMENTS (ROWS); i++) {
    g_autoptr (GError) error = NULL, again = NULL;
    g_autoptr (DryProject) added =
        dry_edit_add_alternate (project, ROWS[i].name, ROWS[i].note, NULL, &error);
    g_autoptr (DryProject) renamed =
        dry_edit_rename_alternate (project, id, ROWS[i].name, ROWS[i].note, &again);

    g_assert_true ((added != NULL) == (ROWS[i].code == -1));
    g_assert_true ((renamed != NULL) == (ROWS[i].code == -1));
    if (ROWS[i].code != -1) {
      g_assert_error (error, DRY_ERROR, ROWS[i].code);
      g_assert_error (again, DRY_ERROR, ROWS[i].code);
      continue;
    }
    g_assert_cmpstr (dry_alternate_get_name (dry_project_get_alternate (renamed, id)), ==,
                     ROWS[i].name);
    /* No words are no note. */
    g_assert_cmpstr (dry_alternate_get_note (dry_project_get_alternate (renamed, id)), ==,
                     ROWS[i].note && *ROWS[i].note ? ROWS[i].note : NULL);
  }
}

static void
test_refused (void)
{
  DryId id;
  g_autoptr (DryProject) project = make (&id);
  const DryAlternate *alternate = dry_project_get_alternate (project, id);
  DryProject *full = dry_project_ref (project);
  g_autoptr (GError) error = NULL;

  g_assert_null (dry_alternate_get_room_at (alternate, 1));
  g_assert_nonnull (dry_alternate_get_room_at (alternate, 0));
  g_assert_null (dry_project_get_alternate_at (project, 1));
  g_assert_null (dry_project_get_alternate (project, 999));
  g_assert_null (dry_edit_remove_alternate (project, 999, &error));
  g_assert_error (error, DRY_ERROR, DRY_ERROR_REFERENCE);
  g_clear_error (&error);
  g_assert_null (dry_edit_rename_alternate (project, 999, "a", NULL, &error));
  g_assert_error (error, DRY_ERROR, DRY_ERROR_REFERENCE);
  g_clear_error (&error);
  g_assert_null (dry_edit_set_alternate (project, 999, project, &error));
  g_assert_error (error, DRY_ERROR, DRY_ERROR_REFERENCE);
  g_clear_error (&error);
  g_assert_null (dry_edit_choose_alternate (project, 999, "a", &error));
  g_assert_error (error, DRY_ERROR, DRY_ERROR_REFERENCE);
  g_clear_error (&error);
  g_assert_null (dry_edit_choose_alternate (project, id, " ", &error));
  g_assert_error (error, DRY_ERROR, DRY_ERROR_TEXT);
  g_clear_error (&error);
  while (dry_project_get_n_alternates (full) < DRY_MAX_ALTERNATES) {
    DryProject *more = good (dry_edit_add_alternate (full, "Another", NULL, NULL, &error), &error);

    dry_project_unref (full);
    full = more;
  }
  g_assert_null (dry_edit_add_alternate (full, "Another", NULL, NULL, &error));
  g_assert_error (error, DRY_ERROR, DRY_ERROR_LIMIT);
  dry_project_unref (full);
}

/* The variant rooms of a file: of rooms that are there, each once, with no number of another room.
 */
static void
test_bad_variants (void)
{
  DryId id;
  g_autoptr (DryProject) project = make (&id), two = NULL;
  g_autoptr (DryRoom) room = dry_room_copy (dry_project_get_room_at (project, 0));
  g_autoptr (GError) error = NULL;
  g_autofree char *text = NULL, *over = g_strnfill (DRY_MAX_TEXT + 1, 'a');
  g_autofree char *long_name = NULL, *long_note = NULL, *other = NULL, *own = NULL;
  const char *at;
  DryId added;

  room->id = 0;
  two = good (dry_edit_set_room (project, room, &added, &error), &error);
  text = dry_project_to_text (two, NULL);
  long_name = g_strdup_printf ("\"name\": \"%s\"", over);
  long_note = g_strdup_printf ("\"note\": \"%s\"", over);
  expect_refusal (text, "\"name\": \"Foam\"", long_name, "name of at most");
  expect_refusal (text, "\"note\": \"lighter\"", long_note, "name of at most");
  expect_refusal (text, "\"name\": \"Foam\"", "\"name\": 7", "text");
  /* A part of the variant with the number of a part of the other room. */
  other = g_strdup_printf ("\"id\": %u,\n              \"kind\": \"niche\"",
                           dry_project_get_room (two, added)->parts[0].id);
  own = g_strdup_printf ("\"id\": %u,\n              \"kind\": \"niche\"",
                         dry_project_get_room_at (two, 0)->parts[0].id);
  expect_refusal (text, own, other, "object of another room");
  /* The whole list of rooms: none such, the same twice, no room. */
  at = strstr (g_strrstr (text, "\"alternates\""), "\"rooms\": [");
  {
    const char *first = strchr (at, '{'), *last = g_strrstr (text, "}\n      ]");
    g_autofree char *one = g_strndup (first, (gsize) (last + 1 - first));
    g_autofree char *head = g_strndup (text, (gsize) (first - text));
    g_autofree char *twice = g_strconcat (head, one, ", ", one, last + 1, NULL);
    g_autofree char *strange = g_strconcat (head, "7", last + 1, NULL);
    g_autofree char *none = g_strconcat (head, last + 1, NULL);
    g_autofree char *id_of =
        g_strdup_printf ("\"id\": %u,\n          \"name\"", dry_project_get_room_at (two, 0)->id);
    g_autoptr (DryProject) empty = NULL;

    expect_refusal (twice, "", "", "stands twice");
    expect_refusal (strange, "", "", "object was expected");
    expect_refusal (text, id_of, "\"id\": 9999,\n          \"name\"", "no room 9999");
    empty = good (dry_project_from_text (none, strlen (none), "test", &error), &error);
    g_assert_cmpuint (dry_alternate_get_n_rooms (dry_project_get_alternate (empty, id)), ==, 0);
  }
}

/* --- merging --- */

static DryProject *
as_project (const DryProject *like, const DryRoom *room)
{
  g_autoptr (GError) error = NULL;

  return good (dry_edit_set_room (like, room, NULL, &error), &error);
}

/* Merging into what does not differ gives the new base; merging no change changes nothing. */
static void
test_merge_properties (void)
{
  for (guint32 seed = 1; seed <= 60; seed++) {
    g_autoptr (DryProject) a = dry_test_random_project (seed);
    g_autoptr (DryProject) b = with_tile (a, (100 + seed) * DRY_MM);
    g_autoptr (DryProject) variant = with_system (a, "foam-sealant");
    const DryRoom *before = dry_project_get_room_at (a, 0), *after = dry_project_get_room_at (b, 0);
    const DryRoom *other = dry_project_get_room_at (variant, 0);
    g_autoptr (DryRoom) same = dry_room_merge (before, after, before);
    g_autoptr (DryRoom) still = dry_room_merge (before, before, other);
    g_autoptr (DryProject) same_project = as_project (a, same),
                           still_project = as_project (a, still);

    g_assert_true (dry_project_equal (same_project, b));
    g_assert_true (dry_project_equal (still_project, variant));
  }
}

/* What stands for one thing each: the boards on hand and the fields kept. Where the variant is as
 * the base was, it follows; where it is not, it stays. */
static void
test_merge_wholes (void)
{
  g_autoptr (DryProject) project = dry_project_new ();
  const DryRoom *room = dry_project_get_room_at (project, 0);
  g_autoptr (DryRoom) before = dry_room_copy (room), after = dry_room_copy (room);
  g_autoptr (DryRoom) like = dry_room_copy (room), unlike = dry_room_copy (room);
  g_autoptr (DryRoom) fewer = dry_room_copy (room);
  DryRoom *const both[] = {before, like, after, unlike};

  for (guint i = 0; i < G_N_ELEMENTS (both); i++) {
    both[i]->on_hand = g_new0 (DryOnHand, 1);
    both[i]->n_on_hand = 1;
    both[i]->on_hand[0] =
        (DryOnHand){.width = 500 * DRY_MM, .height = 500 * DRY_MM, .count = 1 + (gint) i / 2};
    both[i]->unknown = g_strdup_printf ("{\"later\": %u}", i / 2);
  }
  unlike->on_hand[0].count = 9;
  g_free (unlike->unknown);
  unlike->unknown = g_strdup ("{\"own\": 1}");
  {
    g_autoptr (DryRoom) follows = dry_room_merge (before, after, like);
    g_autoptr (DryRoom) stays = dry_room_merge (before, after, unlike);
    g_autoptr (DryRoom) none = dry_room_merge (before, after, fewer);

    g_assert_cmpint (follows->on_hand[0].count, ==, 2);
    g_assert_cmpstr (follows->unknown, ==, "{\"later\": 1}");
    g_assert_cmpint (stays->on_hand[0].count, ==, 9);
    g_assert_cmpstr (stays->unknown, ==, "{\"own\": 1}");
    g_assert_cmpuint (none->n_on_hand, ==, 0);
    g_assert_null (none->unknown);
  }
  /* A change that would make the variant no room at all is not taken over. */
  g_free (after->unknown);
  after->unknown = g_strdup ("[]");
  g_assert_null (dry_room_merge (before, after, like));
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/alternate/values", test_values);
  g_test_add_func ("/alternate/base-changes", test_base_changes);
  g_test_add_func ("/alternate/own-parts", test_own_parts);
  g_test_add_func ("/alternate/choose", test_choose);
  g_test_add_func ("/alternate/edits-keep-them", test_edits_keep_them);
  g_test_add_func ("/alternate/file", test_file);
  g_test_add_func ("/alternate/bad-files", test_bad_files);
  g_test_add_func ("/alternate/texts", test_texts);
  g_test_add_func ("/alternate/refused", test_refused);
  g_test_add_func ("/alternate/bad-variants", test_bad_variants);
  g_test_add_func ("/alternate/merge-properties", test_merge_properties);
  g_test_add_func ("/alternate/merge-wholes", test_merge_wholes);
  return g_test_run ();
}
