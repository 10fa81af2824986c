/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Alternates: what they hold, how a change of the base reaches them, and that files keep them. */
#include <string.h>

#include "project/alternate.h"
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
  g_test_add_func ("/alternate/merge-properties", test_merge_properties);
  return g_test_run ();
}
