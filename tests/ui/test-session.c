/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The session and its worker without a display: what is shown when, undo, previews, files.
 * Waits on the main loop, never on the clock alone. */
#include <glib/gstdio.h>

#include "project/file.h"
#include "support/fixtures.h"
#include "ui/actions.h"
#include "ui/session.h"

typedef struct {
  DrySession *session;
  guint projects, documents, plans, selections, files, told;
  char *text;
} Desk;

static void
count (DrySession *session, guint *counter)
{
  (*counter)++;
}

static void
on_told (DrySession *session, const char *text, const char *undo, Desk *desk)
{
  desk->told++;
  g_free (desk->text);
  desk->text = g_strdup (text);
}

static void
count_signal (DrySession *session, gpointer data)
{
  count (session, data);
}

static void
desk_set_up (Desk *desk, gconstpointer data)
{
  desk->session = dry_session_new (dry_test_catalog ());
  g_signal_connect (desk->session, "project-changed", G_CALLBACK (count_signal), &desk->projects);
  g_signal_connect (desk->session, "document-changed", G_CALLBACK (count_signal), &desk->documents);
  g_signal_connect (desk->session, "plan-changed", G_CALLBACK (count_signal), &desk->plans);
  g_signal_connect (desk->session, "selection-changed", G_CALLBACK (count_signal),
                    &desk->selections);
  g_signal_connect (desk->session, "file-changed", G_CALLBACK (count_signal), &desk->files);
  g_signal_connect (desk->session, "told", G_CALLBACK (on_told), desk);
}

static void
desk_tear_down (Desk *desk, gconstpointer data)
{
  g_assert_finalize_object (desk->session);
  g_free (desk->text);
}

static gboolean
give_up (gpointer data)
{
  g_error ("The worker did not answer in 30 s");
  return G_SOURCE_REMOVE;
}

static void
wait_for_plan (Desk *desk)
{
  guint alarm = g_timeout_add_seconds (30, give_up, NULL);

  while (dry_session_is_busy (desk->session))
    g_main_context_iteration (NULL, TRUE);
  g_source_remove (alarm);
}

static void
open_furnished (Desk *desk)
{
  dry_session_open_project (desk->session, dry_test_furnished_alcove ("foam-bands"), NULL);
  wait_for_plan (desk);
}

static const DryPart *
find_niche (Desk *desk)
{
  return dry_test_niche (dry_session_get_room (desk->session));
}

static DryProject *
move_niche (Desk *desk, DryLength du)
{
  const DryPart *niche = find_niche (desk);
  const DryProject *project = dry_history_get_current (dry_session_get_history (desk->session));
  GError *error = NULL;
  DryProject *moved =
      dry_edit_move_part (project, dry_session_get_room_id (desk->session), niche->id, niche->wall,
                          niche->side, niche->u + du, niche->z, &error);

  g_assert_no_error (error);
  return moved;
}

static void
test_new_session_plans (Desk *desk, gconstpointer data)
{
  wait_for_plan (desk);
  g_assert_nonnull (dry_session_get_plan (desk->session));
  g_assert_nonnull (dry_session_get_scene (desk->session));
  g_assert_true (dry_session_is_saved (desk->session));
  g_assert_null (dry_session_get_path (desk->session));
}

static void
test_preview_leaves_no_step (Desk *desk, gconstpointer data)
{
  const DryProject *before;
  DryLength u;

  open_furnished (desk);
  before = dry_session_get_project (desk->session);
  u = find_niche (desk)->u;
  dry_session_preview (desk->session, move_niche (desk, DRY_INCH));
  g_assert_true (dry_session_get_project (desk->session) != before);
  g_assert_cmpint (find_niche (desk)->u, ==, u + DRY_INCH);
  dry_session_preview (desk->session, NULL);
  g_assert_true (dry_session_get_project (desk->session) == before);
  /* The plan of the last step is remembered: no waiting after a cancelled drag. */
  g_assert_false (dry_session_is_busy (desk->session));
  g_assert_true (dry_session_get_plan (desk->session)->project == before);
  g_assert_null (dry_history_get_undo_name (dry_session_get_history (desk->session)));
}

/* What need not move with the hand is told when it rests, and not before. */
static void
test_preview_is_no_document (Desk *desk, gconstpointer data)
{
  guint shown, at_rest;

  open_furnished (desk);
  shown = desk->projects;
  at_rest = desk->documents;
  g_assert_cmpuint (at_rest, >, 0);
  for (guint i = 0; i < 3; i++)
    dry_session_preview (desk->session, move_niche (desk, DRY_INCH));
  g_assert_cmpuint (desk->projects, ==, shown + 3);
  g_assert_cmpuint (desk->documents, ==, at_rest);
  dry_session_apply (desk->session, move_niche (desk, DRY_INCH), "Move", NULL, NULL);
  g_assert_cmpuint (desk->documents, ==, at_rest + 1);
  dry_session_preview (desk->session, move_niche (desk, DRY_INCH));
  dry_session_preview (desk->session, NULL);
  g_assert_cmpuint (desk->documents, ==, at_rest + 2);
}

static void
test_apply_keeps_preview_plan (Desk *desk, gconstpointer data)
{
  open_furnished (desk);
  dry_session_preview (desk->session, move_niche (desk, DRY_INCH));
  wait_for_plan (desk);
  find_niche (desk);
  DryProject *again = dry_project_ref (dry_session_get_project (desk->session));

  g_assert_true (dry_session_apply (desk->session, again, "Move niche", NULL, NULL));
  g_assert_false (dry_session_is_busy (desk->session));
  g_assert_cmpstr (dry_history_get_undo_name (dry_session_get_history (desk->session)), ==,
                   "Move niche");
  g_assert_false (dry_session_is_saved (desk->session));
}

static void
test_newest_plan_wins (Desk *desk, gconstpointer data)
{
  open_furnished (desk);
  for (gint i = 1; i <= 40; i++)
    dry_session_preview (desk->session, move_niche (desk, DRY_INCH / 8));
  wait_for_plan (desk);
  g_assert_true (dry_session_get_plan (desk->session)->project ==
                 dry_session_get_project (desk->session));
}

/* However fast previews follow each other, answers keep coming in between. */
static void
test_previews_do_not_starve (Desk *desk, gconstpointer data)
{
  gint64 end;
  guint before;

  open_furnished (desk);
  before = desk->plans;
  end = g_get_monotonic_time () + 2 * G_TIME_SPAN_SECOND;
  for (gint i = 0; g_get_monotonic_time () < end && desk->plans < before + 3; i++) {
    dry_session_preview (desk->session, move_niche (desk, i % 2 ? DRY_INCH / 16 : -DRY_INCH / 16));
    g_usleep (2000);
    while (g_main_context_iteration (NULL, FALSE))
      ;
  }
  g_assert_cmpuint (desk->plans, >=, before + 3);
}

static void
test_undo_is_instant (Desk *desk, gconstpointer data)
{
  const DryPlan *first;

  open_furnished (desk);
  first = dry_session_get_plan (desk->session);
  dry_session_apply (desk->session, move_niche (desk, DRY_INCH), "Move niche", NULL, NULL);
  wait_for_plan (desk);
  g_assert_true (dry_session_get_plan (desk->session) != first);
  dry_session_undo (desk->session);
  g_assert_false (dry_session_is_busy (desk->session));
  g_assert_true (dry_session_get_plan (desk->session) == first);
  dry_session_redo (desk->session);
  g_assert_false (dry_session_is_busy (desk->session));
}

static void
test_error_is_told (Desk *desk, gconstpointer data)
{
  GError *error = g_error_new (DRY_ERROR, DRY_ERROR_GEOMETRY, "too wide");

  g_assert_false (dry_session_apply (desk->session, NULL, "Widen", NULL, error));
  g_assert_cmpuint (desk->told, ==, 1);
  g_assert_cmpstr (desk->text, ==, "too wide");
}

static void
test_equal_is_no_step (Desk *desk, gconstpointer data)
{
  open_furnished (desk);
  g_assert_false (dry_session_apply (desk->session, move_niche (desk, 0), "Move", NULL, NULL));
  g_assert_null (dry_history_get_undo_name (dry_session_get_history (desk->session)));
  g_assert_true (dry_session_is_saved (desk->session));
}

static void
test_selection_follows_project (Desk *desk, gconstpointer data)
{
  DryId niche;

  open_furnished (desk);
  niche = find_niche (desk)->id;
  dry_session_select (desk->session, niche);
  g_assert_cmpuint (dry_session_get_selection (desk->session), ==, niche);
  g_assert_true (dry_act_delete (desk->session, niche));
  g_assert_cmpuint (dry_session_get_selection (desk->session), ==, 0);
  dry_session_select (desk->session, niche);
  g_assert_cmpuint (dry_session_get_selection (desk->session), ==, 0);
  dry_session_undo (desk->session);
  dry_session_select (desk->session, niche);
  g_assert_cmpuint (dry_session_get_selection (desk->session), ==, niche);
}

static void
test_nudges_merge (Desk *desk, gconstpointer data)
{
  DryLength u;
  DryId niche;

  open_furnished (desk);
  u = find_niche (desk)->u;
  niche = find_niche (desk)->id;
  dry_session_select (desk->session, niche);
  for (gint i = 0; i < 5; i++)
    g_assert_true (dry_act_nudge (desk->session, niche, DRY_INCH / 16, 0));
  g_assert_cmpint (find_niche (desk)->u, ==, u + 5 * DRY_INCH / 16);
  dry_session_undo (desk->session);
  g_assert_cmpint (find_niche (desk)->u, ==, u);
}

static void
test_copies_do_not_overlap (Desk *desk, gconstpointer data)
{
  DryPart *copy;
  const DryRoom *room;

  open_furnished (desk);
  copy = dry_part_copy (find_niche (desk));
  for (gint i = 0; i < 3; i++) {
    dry_session_select (desk->session, 0);
    g_assert_true (dry_act_paste (desk->session, copy, NULL));
    room = dry_session_get_room (desk->session);
    g_assert_nonnull (dry_room_get_part (room, dry_session_get_selection (desk->session)));
  }
  dry_part_free (copy);
  room = dry_session_get_room (desk->session);
  /* 60 in hold the first and a copy on each side, side by side; what no longer fits may overlap. */
  g_assert_false (dry_rect_overlaps (dry_part_rect (&room->parts[room->n_parts - 3]),
                                     dry_part_rect (find_niche (desk))));
}

static void
test_save_and_reopen (Desk *desk, gconstpointer data)
{
  g_autofree char *folder = g_dir_make_tmp ("drybay-session-XXXXXX", NULL);
  g_autofree char *path = g_build_filename (folder, "a.drybay", NULL);
  g_autoptr (GError) error = NULL;
  gsize n1, n2;
  g_autofree char *before = NULL;
  g_autofree char *after = NULL;

  open_furnished (desk);
  dry_session_apply (desk->session, move_niche (desk, DRY_INCH), "Move", NULL, NULL);
  g_assert_false (dry_session_is_saved (desk->session));
  g_assert_true (dry_session_save (desk->session, path, &error));
  g_assert_no_error (error);
  g_assert_true (dry_session_is_saved (desk->session));
  g_assert_cmpstr (dry_session_get_path (desk->session), ==, path);
  before = dry_project_to_text (dry_session_get_project (desk->session), &n1);
  dry_session_undo (desk->session);
  g_assert_false (dry_session_is_saved (desk->session));
  g_assert_true (dry_session_open_path (desk->session, path, &error));
  after = dry_project_to_text (dry_session_get_project (desk->session), &n2);
  g_assert_cmpmem (before, n1, after, n2);
  g_assert_false (dry_session_open_path (desk->session, "/nowhere/x.drybay", &error));
  g_assert_nonnull (error);
  g_unlink (path);
  g_rmdir (folder);
}

static void
test_rooms_switch (Desk *desk, gconstpointer data)
{
  g_autoptr (DryProject) two = NULL;
  g_autoptr (DryProject) one = dry_test_furnished_alcove ("foam-bands");
  g_autoptr (DryRoom) copy = dry_room_copy (dry_project_get_room_at (one, 0));
  g_autoptr (GError) error = NULL;
  DryId second = 0;

  copy->id = 0;
  two = dry_edit_set_room (one, copy, &second, &error);
  g_assert_no_error (error);
  dry_session_open_project (desk->session, g_steal_pointer (&two), NULL);
  wait_for_plan (desk);
  dry_session_set_room_id (desk->session, second);
  wait_for_plan (desk);
  g_assert_cmpuint (dry_session_get_plan (desk->session)->context.room->id, ==, second);
  dry_session_set_room_id (desk->session, 999999);
  g_assert_cmpuint (dry_session_get_room_id (desk->session), ==, second);
}

/* A step is undone where it can be seen: in the room it changed. */
static void
test_travel_shows_its_room (Desk *desk, gconstpointer data)
{
  g_autoptr (DryProject) one = dry_test_furnished_alcove ("foam-bands");
  g_autoptr (DryRoom) copy = dry_room_copy (dry_project_get_room_at (one, 0));
  DryId first = dry_project_get_room_at (one, 0)->id, second = 0;
  g_autoptr (GError) error = NULL;
  DryProject *next;

  dry_session_open_project (desk->session, g_steal_pointer (&one), NULL);
  copy->id = 0;
  next = dry_edit_set_room (dry_session_get_project (desk->session), copy, &second, &error);
  g_assert_no_error (error);
  g_assert_true (dry_session_apply (desk->session, next, "Add room", NULL, NULL));
  dry_session_set_room_id (desk->session, second);
  dry_session_select (desk->session, find_niche (desk)->id);
  next = dry_edit_remove_room (dry_session_get_project (desk->session), second, &error);
  g_assert_no_error (error);
  g_assert_true (dry_session_apply (desk->session, next, "Remove room", NULL, NULL));
  g_assert_cmpuint (dry_session_get_room_id (desk->session), ==, first);

  dry_session_undo (desk->session);
  g_assert_cmpuint (dry_session_get_room_id (desk->session), ==, second);
  g_assert_cmpuint (dry_session_get_selection (desk->session), ==, 0);
  wait_for_plan (desk);
  g_assert_cmpuint (dry_session_get_plan (desk->session)->context.room->id, ==, second);
  dry_session_redo (desk->session);
  g_assert_cmpuint (dry_session_get_room_id (desk->session), ==, first);
  dry_session_undo (desk->session);
  dry_session_undo (desk->session); /* the adding itself: only the first is left */
  g_assert_cmpuint (dry_session_get_room_id (desk->session), ==, first);
  dry_session_redo (desk->session);
  g_assert_cmpuint (dry_session_get_room_id (desk->session), ==, second);

  /* A step in the room that is not shown takes one there; one in the shown room stays. */
  g_assert_true (
      dry_session_apply (desk->session, move_niche (desk, DRY_INCH), "Move", NULL, NULL));
  dry_session_set_room_id (desk->session, first);
  dry_session_undo (desk->session);
  g_assert_cmpuint (dry_session_get_room_id (desk->session), ==, second);
  dry_session_redo (desk->session);
  g_assert_cmpuint (dry_session_get_room_id (desk->session), ==, second);
  wait_for_plan (desk);
}

static void
test_objects_have_names (Desk *desk, gconstpointer data)
{
  const DryRoom *room;

  open_furnished (desk);
  room = dry_session_get_room (desk->session);
  for (guint i = 0; i < room->n_parts + room->n_walls + 1; i++) {
    DryId id = i < room->n_parts                   ? room->parts[i].id
               : i < room->n_parts + room->n_walls ? room->walls[i - room->n_parts].id
                                                   : room->basin.id;
    g_autofree char *name = dry_object_name (desk->session, id);
    g_autofree char *place = dry_object_place (desk->session, id);

    g_assert_cmpstr (name, !=, "");
    g_assert_cmpstr (place, !=, "");
  }
}

static void
test_session_ends_while_busy (void)
{
  for (gint i = 0; i < 20; i++) {
    DrySession *session = dry_session_new (dry_test_catalog ());

    dry_session_open_project (session, dry_test_furnished_alcove ("cement-liquid"), NULL);
    if (i % 2) { /* with something in hand that the worker was not yet told of */
      const DryProject *project = dry_session_get_project (session);
      const DryRoom *room = dry_session_get_room (session);
      const DryPart *niche = dry_test_niche (room);

      dry_session_preview (session,
                           dry_edit_move_part (project, room->id, niche->id, niche->wall,
                                               niche->side, niche->u + DRY_INCH, niche->z, NULL));
      g_assert_true (dry_session_is_busy (session));
    }
    g_assert_finalize_object (session);
  }
}

#define ADD(name, function)                                                                        \
  g_test_add ("/session/" name, Desk, NULL, desk_set_up, function, desk_tear_down)

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  ADD ("new-session-plans", test_new_session_plans);
  ADD ("preview-leaves-no-step", test_preview_leaves_no_step);
  ADD ("preview-is-no-document", test_preview_is_no_document);
  ADD ("apply-keeps-preview-plan", test_apply_keeps_preview_plan);
  ADD ("newest-plan-wins", test_newest_plan_wins);
  ADD ("previews-do-not-starve", test_previews_do_not_starve);
  ADD ("undo-is-instant", test_undo_is_instant);
  ADD ("error-is-told", test_error_is_told);
  ADD ("equal-is-no-step", test_equal_is_no_step);
  ADD ("selection-follows-project", test_selection_follows_project);
  ADD ("nudges-merge", test_nudges_merge);
  ADD ("copies-do-not-overlap", test_copies_do_not_overlap);
  ADD ("save-and-reopen", test_save_and_reopen);
  ADD ("rooms-switch", test_rooms_switch);
  ADD ("travel-shows-its-room", test_travel_shows_its_room);
  ADD ("objects-have-names", test_objects_have_names);
  g_test_add_func ("/session/ends-while-busy", test_session_ends_while_busy);
  return g_test_run ();
}
