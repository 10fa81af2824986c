/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A length typed into the inspector and not confirmed: entered for what it was typed for when
 * something else is selected, and forgotten, without harm, when that goes. Freed memory is
 * overwritten in tests (MALLOC_PERTURB_, set by meson). */
#include <glib/gstdio.h>
#include <string.h>

#include "desk.h"
#include "project/edit.h"
#include "project/file.h"
#include "ui/inspector.h"
#include "ui/length-row.h"
#include "ui/pieces.h"

static void
settle_focus (void)
{
  for (int i = 0; i < 4; i++)
    dry_test_settle ();
}

/* The row with what is typed and the focus in it. */
static GtkWidget *
type_into (GtkWidget *root, const char *title, const char *text)
{
  GtkWidget *row = dry_test_find (root, dry_desk_is_row, title);
  GtkWidget *entry;

  g_assert_true (DRY_IS_LENGTH_ROW (row));
  entry = dry_test_require (row, GTK_TYPE_ENTRY);
  g_assert_true (gtk_widget_grab_focus (entry));
  gtk_editable_set_text (GTK_EDITABLE (entry), text);
  return row;
}

static GtkWidget *
unfold (GtkWidget *root, const char *title)
{
  GtkWidget *row = dry_test_find (root, dry_desk_is_row, title);

  g_assert_true (ADW_IS_EXPANDER_ROW (row));
  adw_expander_row_set_expanded (ADW_EXPANDER_ROW (row), TRUE);
  dry_test_settle ();
  return row;
}

static DryLength
niche_width (DryDesk *desk)
{
  return dry_desk_find_part (desk->session, DRY_PART_NICHE)->width;
}

static GtkWidget *
show_niche (DryDesk *desk)
{
  GtkWidget *inspector = dry_inspector_new (desk->session);

  DRY_TEST_WAIT_FOR (dry_session_get_plan (desk->session) != NULL);
  dry_desk_show (desk, inspector);
  dry_session_select (desk->session, dry_desk_find_part (desk->session, DRY_PART_NICHE)->id);
  dry_inspector_catch_up (inspector);
  return inspector;
}

static void
test_typing_and_selecting (DryDesk *desk, gconstpointer data)
{
  GtkWidget *inspector = show_niche (desk);
  DryLength valve = dry_desk_find_part (desk->session, DRY_PART_VALVE)->width;

  type_into (inspector, "Width", "13 1/2\"");
  dry_session_select (desk->session, dry_desk_find_part (desk->session, DRY_PART_VALVE)->id);
  g_assert_cmpint (niche_width (desk), ==, 27 * DRY_INCH / 2);
  dry_inspector_catch_up (inspector);
  settle_focus ();
  g_assert_cmpint (niche_width (desk), ==, 27 * DRY_INCH / 2);
  g_assert_cmpint (dry_desk_find_part (desk->session, DRY_PART_VALVE)->width, ==, valve);
}

/* Nothing offers emoji, in the menu or by a key; pasted into a name they are taken. */
static void
test_typing_no_emoji (DryDesk *desk, gconstpointer data)
{
  GtkWidget *inspector = show_niche (desk), *row;

  dry_test_assert_no_emoji (type_into (inspector, "Width", "12\""));
  row = dry_test_find (inspector, dry_desk_is_row, "Name");
  g_assert_true (ADW_IS_ENTRY_ROW (row));
  dry_test_assert_no_emoji (row);
  gtk_editable_set_text (GTK_EDITABLE (row), "Niche \360\237\233\201");
  g_assert_cmpstr (gtk_editable_get_text (GTK_EDITABLE (row)), ==, "Niche \360\237\233\201");
}

/* A page pasted by mistake: its first line is taken, and some of that is told to be no length. */
static void
test_typing_pasted_page (DryDesk *desk, gconstpointer data)
{
  GtkWidget *row = type_into (show_niche (desk), "Width", "12\"");
  GtkWidget *text = dry_test_require (row, GTK_TYPE_TEXT);

  g_assert_true (gtk_text_get_truncate_multiline (GTK_TEXT (text)));
  gtk_editable_set_text (GTK_EDITABLE (text),
                         "60Group\tItem\tAmount\tUnit\tPacks\tPack\tSample cost\nSheets\t1/2\n");
  dry_test_settle ();
  g_assert_nonnull (strstr (adw_action_row_get_subtitle (ADW_ACTION_ROW (row)), "Amount"));
  g_assert_null (strpbrk (adw_action_row_get_subtitle (ADW_ACTION_ROW (row)), "\n\t"));
}

/* What cannot be read is not entered, and nothing selected is reached through it. */
static void
test_typing_nonsense (DryDesk *desk, gconstpointer data)
{
  GtkWidget *inspector = show_niche (desk);
  DryLength before = niche_width (desk);

  type_into (inspector, "Width", "wide");
  dry_session_select (desk->session, 0);
  dry_inspector_catch_up (inspector);
  settle_focus ();
  g_assert_cmpint (niche_width (desk), ==, before);
}

static void
test_typing_and_removing (DryDesk *desk, gconstpointer data)
{
  GtkWidget *inspector = show_niche (desk);
  DryId niche = dry_session_get_selection (desk->session);

  type_into (inspector, "Width", "13 1/2\"");
  dry_session_apply (desk->session,
                     dry_edit_remove (dry_session_get_project (desk->session),
                                      dry_session_get_room_id (desk->session), niche, NULL),
                     "Delete", NULL, NULL);
  dry_inspector_catch_up (inspector);
  settle_focus ();
  g_assert_null (dry_room_get_part (dry_session_get_room (desk->session), niche));
}

/* What is seen is what is saved. */
static void
test_typing_and_saving (DryDesk *desk, gconstpointer data)
{
  g_autofree char *folder = g_dir_make_tmp ("drybay-typing-XXXXXX", NULL);
  g_autofree char *path = g_build_filename (folder, "typed.drybay", NULL);
  g_autoptr (GError) error = NULL;
  g_autoptr (DryProject) saved = NULL;
  DryId room = dry_session_get_room_id (desk->session), niche;

  type_into (show_niche (desk), "Width", "13 1/2\"");
  niche = dry_session_get_selection (desk->session);
  g_assert_true (dry_session_save (desk->session, path, &error));
  g_assert_no_error (error);
  saved = dry_project_load (path, &error);
  g_assert_no_error (error);
  g_assert_cmpint (dry_room_get_part (dry_project_get_room (saved, room), niche)->width, ==,
                   27 * DRY_INCH / 2);
  g_assert_true (dry_session_is_saved (desk->session));
  g_remove (path);
  g_rmdir (folder);
}

static void
test_typing_and_closing (DryDesk *desk, gconstpointer data)
{
  type_into (show_niche (desk), "Width", "13 1/2\"");
  adw_application_window_set_content (ADW_APPLICATION_WINDOW (desk->window), NULL);
  settle_focus ();
}

/* A number with more places than its row shows stays as it is when nobody types in it. */
static void
test_typing_elsewhere (DryDesk *desk, gconstpointer data)
{
  GtkWidget *inspector = dry_inspector_new (desk->session);
  DryRoom room = *dry_session_get_room (desk->session);

  room.steam = TRUE;
  room.ceiling_slope = 1 / 6.0;
  dry_session_apply (desk->session,
                     dry_edit_set_room (dry_session_get_project (desk->session), &room, NULL, NULL),
                     "Ceiling", NULL, NULL);
  dry_desk_show (desk, inspector);
  dry_inspector_catch_up (inspector);
  unfold (inspector, "Room");
  g_assert_nonnull (dry_test_find (inspector, dry_desk_is_row, "Slope of the ceiling"));
  dry_session_end_typing (desk->session);
  g_assert_cmpfloat (dry_session_get_room (desk->session)->ceiling_slope, ==, 1 / 6.0);
}

/* Asked for before its first frame, as by F2 right after a start, it shows what is selected. */
static void
test_typing_at_once (DryDesk *desk, gconstpointer data)
{
  GtkWidget *inspector = dry_inspector_new (desk->session);

  adw_application_window_set_content (ADW_APPLICATION_WINDOW (desk->window), inspector);
  g_assert_null (dry_test_find (inspector, dry_desk_is_row, "Room"));
  dry_inspector_catch_up (inspector);
  g_assert_nonnull (dry_test_find (inspector, dry_desk_is_row, "Room"));
}

/* --- boards on hand --- */

static gboolean
is_board_row (GtkWidget *widget, gconstpointer unused)
{
  return ADW_IS_EXPANDER_ROW (widget) &&
         strstr (adw_preferences_row_get_title (ADW_PREFERENCES_ROW (widget)), "×") != NULL;
}

static void
set_boards (DryDesk *desk, guint n)
{
  DryOnHand board = {.width = 24 * DRY_INCH, .height = 36 * DRY_INCH, .count = 1};
  const DryProject *project = dry_session_get_project (desk->session);
  DryId room = dry_session_get_room_id (desk->session);

  dry_session_apply (desk->session,
                     n > 0 ? dry_edit_set_on_hand (project, room, 0, &board, NULL)
                           : dry_edit_remove_on_hand (project, room, 0, NULL),
                     "Boards", NULL, NULL);
}

static void
test_typing_and_removing_board (DryDesk *desk, gconstpointer data)
{
  GtkWidget *inspector = dry_inspector_new (desk->session), *list, *board;

  set_boards (desk, 1);
  dry_desk_show (desk, inspector);
  dry_inspector_catch_up (inspector);
  list = unfold (inspector, "Boards on hand");
  board = dry_test_find (list, is_board_row, NULL);
  g_assert_nonnull (board);
  adw_expander_row_set_expanded (ADW_EXPANDER_ROW (board), TRUE);
  settle_focus ();
  type_into (board, "Width", "30\"");
  set_boards (desk, 0);
  dry_inspector_catch_up (inspector);
  settle_focus ();
  g_assert_cmpuint (dry_session_get_room (desk->session)->n_on_hand, ==, 0);
}

/* --- seams --- */

/* The first piece of the kind on any wall, boards or upright seams. */
static DryPieceRef
find_piece (DryDesk *desk, DryPieceKind kind)
{
  const DryPlan *plan = dry_session_get_plan (desk->session);
  const DryRoom *room = dry_session_get_room (desk->session);

  for (guint i = 0; i < room->n_walls; i++) {
    g_autoptr (GArray) pieces = dry_pieces_list (plan, room->walls[i].id);

    for (guint j = 0; j < pieces->len; j++) {
      const DryPieceRef *piece = &g_array_index (pieces, DryPieceRef, j);

      if (piece->kind == kind && (kind != DRY_PIECE_SEAM || !piece->level))
        return *piece;
    }
  }
  g_assert_not_reached ();
}

/* What was typed for a seam moves that seam, not what is selected after it. */
static void
test_typing_for_a_seam (DryDesk *desk, gconstpointer data)
{
  GtkWidget *inspector = dry_inspector_new (desk->session);
  DryPieceRef seam, board;

  DRY_TEST_WAIT_FOR (dry_session_get_plan (desk->session) != NULL);
  dry_desk_show (desk, inspector);
  seam = find_piece (desk, DRY_PIECE_SEAM);
  board = find_piece (desk, DRY_PIECE_BOARD);
  dry_session_select_piece (desk->session, &seam);
  dry_inspector_catch_up (inspector);
  type_into (inspector, "From the left end", "17\"");
  dry_session_select_piece (desk->session, &board);
  dry_inspector_catch_up (inspector);
  settle_focus ();
  g_assert_cmpuint (dry_session_get_room (desk->session)->n_seams, ==, 1);
  g_assert_cmpint (dry_session_get_room (desk->session)->seams[0].at, ==, 17 * DRY_INCH);
  g_assert_cmpint (dry_session_get_selected_piece (desk->session)->kind, ==, DRY_PIECE_BOARD);
}

int
main (int argc, char *argv[])
{
  if (!dry_desk_begin (&argc, &argv))
    return 99;
  DRY_DESK_ADD ("/ui/typing/and-selecting", test_typing_and_selecting);
  DRY_DESK_ADD ("/ui/typing/no-emoji", test_typing_no_emoji);
  DRY_DESK_ADD ("/ui/typing/pasted-page", test_typing_pasted_page);
  DRY_DESK_ADD ("/ui/typing/nonsense", test_typing_nonsense);
  DRY_DESK_ADD ("/ui/typing/and-removing", test_typing_and_removing);
  DRY_DESK_ADD ("/ui/typing/and-saving", test_typing_and_saving);
  DRY_DESK_ADD ("/ui/typing/and-closing", test_typing_and_closing);
  DRY_DESK_ADD ("/ui/typing/elsewhere", test_typing_elsewhere);
  DRY_DESK_ADD ("/ui/typing/at-once", test_typing_at_once);
  DRY_DESK_ADD ("/ui/typing/and-removing-board", test_typing_and_removing_board);
  DRY_DESK_ADD ("/ui/typing/for-a-seam", test_typing_for_a_seam);
  return dry_desk_run ();
}
