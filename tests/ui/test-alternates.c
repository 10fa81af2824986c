/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The ledger's pages of schedule and alternates on a virtual screen: what they show of a session,
 * and that adding, choosing, removing and undoing do what they say. */
#include <adwaita.h>
#include <string.h>

#include "project/alternate.h"
#include "support/fixtures.h"
#include "ui/application.h"
#include "ui/keep-alternate.h"
#include "ui/ledger-list.h"
#include "ui/ledger.h"
#include "widgets.h"

static DryApplication *application;

typedef struct {
  DrySession *session;
  GtkWidget *window, *ledger;
} Desk;

static gboolean
has_page (GtkWidget *widget, gconstpointer name)
{
  return GTK_IS_STACK (widget) && gtk_stack_get_child_by_name (GTK_STACK (widget), name) != NULL;
}

static gboolean
is_row (GtkWidget *widget, gconstpointer title)
{
  return ADW_IS_EXPANDER_ROW (widget) && gtk_widget_get_mapped (widget) &&
         strstr (adw_preferences_row_get_title (ADW_PREFERENCES_ROW (widget)), title) != NULL;
}

static gboolean
is_button (GtkWidget *widget, gconstpointer label)
{
  return GTK_IS_BUTTON (widget) &&
         g_strcmp0 (gtk_button_get_label (GTK_BUTTON (widget)), label) == 0;
}

static gboolean
is_menu_button (GtkWidget *widget, gconstpointer label)
{
  return GTK_IS_MENU_BUTTON (widget) &&
         g_strcmp0 (gtk_menu_button_get_label (GTK_MENU_BUTTON (widget)), label) == 0;
}

static gboolean
can_add (GtkWidget *widget, gconstpointer unused)
{
  return g_str_equal (G_OBJECT_TYPE_NAME (widget), "DryLedgerAlternates");
}

static void
open_page (Desk *desk, const char *name)
{
  GtkWidget *pages;

  g_object_set (desk->ledger, "open", TRUE, NULL);
  pages = dry_test_find (desk->ledger, has_page, name);
  g_assert_nonnull (pages);
  gtk_stack_set_visible_child_name (GTK_STACK (pages), name);
  dry_test_settle ();
}

static void
set_up (Desk *desk, gconstpointer data)
{
  desk->session = dry_session_new (dry_test_catalog ());
  dry_session_open_project (desk->session, dry_test_furnished_alcove ("foam-bands"), NULL);
  desk->window = adw_application_window_new (GTK_APPLICATION (application));
  desk->ledger = dry_ledger_new (desk->session);
  gtk_window_set_default_size (GTK_WINDOW (desk->window), 900, 700);
  DRY_TEST_WAIT_FOR (dry_session_get_plan (desk->session) != NULL);
  adw_application_window_set_content (ADW_APPLICATION_WINDOW (desk->window), desk->ledger);
  gtk_window_present (GTK_WINDOW (desk->window));
  DRY_TEST_WAIT_FOR (gtk_widget_get_mapped (desk->ledger));
}

static void
tear_down (Desk *desk, gconstpointer data)
{
  gtk_window_destroy (GTK_WINDOW (desk->window));
  dry_test_settle ();
  dry_test_settle (); /* a comparison under way holds its widget until it is done */
  g_assert_finalize_object (desk->session);
}

static GtkWidget *
wait_for_row (Desk *desk, const char *title)
{
  DRY_TEST_WAIT_FOR (dry_test_find (desk->ledger, is_row, title) != NULL);
  return dry_test_find (desk->ledger, is_row, title);
}

static void
press (Desk *desk, const char *title, const char *label)
{
  GtkWidget *row = wait_for_row (desk, title), *button;

  adw_expander_row_set_expanded (ADW_EXPANDER_ROW (row), TRUE);
  dry_test_settle ();
  button = dry_test_find (row, is_button, label);
  g_assert_nonnull (button);
  g_signal_emit_by_name (button, "clicked");
}

static void
test_schedule (Desk *desk, gconstpointer data)
{
  open_page (desk, "schedule");
  g_assert_nonnull (wait_for_row (desk, "Cut and hang the"));
  g_assert_nonnull (wait_for_row (desk, "First shower."));
}

static guint
count_alternates (Desk *desk)
{
  return dry_project_get_n_alternates (dry_session_get_project (desk->session));
}

static const char *
system_shown (Desk *desk)
{
  return dry_session_get_room (desk->session)->finish.system;
}

static void
test_alternates (Desk *desk, gconstpointer data)
{
  const char *name = dry_catalog_get_system (dry_test_catalog (), "cement-liquid")->name;
  GtkWidget *page;

  open_page (desk, "alternates");
  page = dry_test_find (desk->ledger, can_add, NULL);
  g_assert_nonnull (page);
  g_assert_true (gtk_widget_activate_action (page, "alternate.add", "s", "cement-liquid"));
  g_assert_cmpuint (count_alternates (desk), ==, 1);
  g_assert_cmpstr (system_shown (desk), ==, "foam-bands");
  g_assert_cmpstr (dry_history_get_undo_name (dry_session_get_history (desk->session)), ==,
                   "Add Alternate");
  press (desk, name, "Choose");
  g_assert_cmpstr (system_shown (desk), ==, "cement-liquid");
  g_assert_nonnull (wait_for_row (desk, "As it was before"));
  dry_session_undo (desk->session);
  g_assert_cmpstr (system_shown (desk), ==, "foam-bands");
  press (desk, name, "Remove");
  g_assert_cmpuint (count_alternates (desk), ==, 0);
  DRY_TEST_WAIT_FOR (dry_test_find (desk->ledger, is_row, name) == NULL);
  g_assert_nonnull (wait_for_row (desk, "As planned"));
}

static void
move_niche (Desk *desk)
{
  const DryRoom *room = dry_session_get_room (desk->session);
  const DryPart *niche = NULL;

  for (guint i = 0; i < room->n_parts; i++)
    if (room->parts[i].kind == DRY_PART_NICHE)
      niche = &room->parts[i];
  g_assert_nonnull (niche);
  dry_session_apply (desk->session,
                     dry_edit_move_part (dry_session_get_project (desk->session), room->id,
                                         niche->id, niche->wall, niche->side,
                                         niche->u + 4 * DRY_INCH, niche->z, NULL),
                     "Move niche", NULL, NULL);
}

static DryLength
niche_at (const DryProject *project)
{
  const DryRoom *room = dry_project_get_room_at (project, 0);

  for (guint i = 0; i < room->n_parts; i++)
    if (room->parts[i].kind == DRY_PART_NICHE)
      return room->parts[i].u;
  return -1;
}

/* What was changed is kept beside the plan, which is back as it was; one undo takes both back. */
static void
test_keep (Desk *desk, gconstpointer data)
{
  DryLength was = niche_at (dry_session_get_project (desk->session));
  GtkWidget *button, *popover, *keep;
  g_autoptr (DryProject) kept = NULL;
  const DryAlternate *alternate;

  open_page (desk, "alternates");
  button = dry_test_find (desk->ledger, is_menu_button, "Keep as Alternate");
  g_assert_nonnull (button);
  g_assert_false (gtk_widget_get_sensitive (button)); /* nothing was changed yet */
  move_niche (desk);
  dry_test_settle ();
  g_assert_true (gtk_widget_get_sensitive (button));
  gtk_menu_button_popup (GTK_MENU_BUTTON (button));
  dry_test_settle ();
  popover = GTK_WIDGET (gtk_menu_button_get_popover (GTK_MENU_BUTTON (button)));
  keep = dry_test_find (popover, is_button, "_Keep");
  g_assert_nonnull (keep);
  g_signal_emit_by_name (keep, "clicked");
  g_assert_cmpuint (count_alternates (desk), ==, 1);
  g_assert_cmpint (niche_at (dry_session_get_project (desk->session)), ==, was);
  alternate = dry_project_get_alternate_at (dry_session_get_project (desk->session), 0);
  g_assert_cmpstr (dry_alternate_get_name (alternate), ==, "Alternate 1");
  kept = dry_project_resolve (dry_session_get_project (desk->session),
                              dry_alternate_get_id (alternate));
  g_assert_cmpint (niche_at (kept), ==, was + 4 * DRY_INCH);
  g_assert_nonnull (wait_for_row (desk, "Alternate 1"));
  dry_session_undo (desk->session);
  g_assert_cmpuint (count_alternates (desk), ==, 0);
  g_assert_cmpint (niche_at (dry_session_get_project (desk->session)), ==, was + 4 * DRY_INCH);
}

/* Nothing to keep where no room differs. */
static void
test_keep_nothing (Desk *desk, gconstpointer data)
{
  const DryProject *project = dry_session_get_project (desk->session);
  g_autoptr (GError) error = NULL;

  g_assert_null (dry_keep_as_alternate (project, project, "Same", &error));
  g_assert_error (error, DRY_ERROR, DRY_ERROR_TEXT);
}

/* The name asked for in a dialog becomes the alternate's. */
static void
test_rename (Desk *desk, gconstpointer data)
{
  const char *name = dry_catalog_get_system (dry_test_catalog (), "cement-liquid")->name;
  GtkWidget *dialog, *entry;

  open_page (desk, "alternates");
  gtk_widget_activate_action (dry_test_find (desk->ledger, can_add, NULL), "alternate.add", "s",
                              "cement-liquid");
  press (desk, name, "Rename…");
  dry_test_settle ();
  dialog = dry_test_find_toplevel ("AdwMessageDialog", NULL);
  g_assert_nonnull (dialog);
  entry = adw_message_dialog_get_extra_child (ADW_MESSAGE_DIALOG (dialog));
  g_assert_cmpstr (gtk_editable_get_text (GTK_EDITABLE (entry)), ==, name);
  gtk_editable_set_text (GTK_EDITABLE (entry), "With coats");
  adw_message_dialog_response (ADW_MESSAGE_DIALOG (dialog), "rename");
  g_assert_nonnull (wait_for_row (desk, "With coats"));
  g_assert_cmpstr (dry_history_get_undo_name (dry_session_get_history (desk->session)), ==,
                   "Rename Alternate");
}

/* A comparison under way when the window goes is of no harm. */
static void
test_leaves_in_time (Desk *desk, gconstpointer data)
{
  open_page (desk, "alternates");
  gtk_widget_activate_action (dry_test_find (desk->ledger, can_add, NULL), "alternate.add", "s",
                              "mortar-bed");
}

#define ADD(name, test) g_test_add ("/ui/alternates/" name, Desk, NULL, set_up, test, tear_down)

int
main (int argc, char **argv)
{
  int result;

  g_test_init (&argc, &argv, NULL);
  application = dry_application_new ();
  g_application_set_flags (G_APPLICATION (application), G_APPLICATION_NON_UNIQUE);
  if (!g_application_register (G_APPLICATION (application), NULL, NULL))
    return 99;
  ADD ("schedule", test_schedule);
  ADD ("add-choose-remove", test_alternates);
  ADD ("keep", test_keep);
  ADD ("keep-nothing", test_keep_nothing);
  ADD ("rename", test_rename);
  ADD ("leaves-in-time", test_leaves_in_time);
  result = g_test_run ();
  g_object_unref (application);
  return result;
}
