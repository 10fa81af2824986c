/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Boards on hand, one foldable row each in a foldable row. Built anew when their number changes,
 * else filled; what is being typed is left alone. */
#define G_LOG_DOMAIN "drybay-ui"
#include "ui/inspector-on-hand.h"

#include <glib/gi18n.h>

#include "project/file.h"
#include "ui/access.h"
#include "ui/length-row.h"
#include "ui/plain-entry.h"
#include "ui/steady.h"

typedef struct {
  DrySession *session; /* held */
  GtkWidget *expander;
  GPtrArray *boards; /* Board */
  GtkWidget *add;    /* row with the button; last */
  gboolean built;
  gboolean filling;
  gboolean unfold_last;
} List;

typedef struct {
  List *list;
  guint index;
  gboolean gone; /* its row was taken away, and may still lose the focus */
  GtkWidget *row, *width, *height, *count, *note, *only;
} Board; /* the row's */

static void
list_free (gpointer data)
{
  List *self = data;

  g_signal_handlers_disconnect_by_data (self->session, self);
  g_object_unref (self->session);
  g_ptr_array_unref (self->boards);
  g_free (self);
}

/* --- from row to session --- */

static gboolean
begin_edit (Board *self, DryOnHand *board)
{
  const DryRoom *room = self->gone ? NULL : dry_session_get_room (self->list->session);

  if (room == NULL || self->list->filling || self->index >= room->n_on_hand)
    return FALSE;
  *board = room->on_hand[self->index];
  return TRUE;
}

static void
take (Board *self, const DryOnHand *board)
{
  DrySession *session = self->list->session;
  GError *error = NULL;
  DryProject *next =
      dry_edit_set_on_hand (dry_session_get_project (session), dry_session_get_room_id (session),
                            self->index, board, &error);

  dry_session_apply (session, next, _ ("Change board on hand"), NULL, error);
}

static void
size_entered_cb (DryLengthRow *row, Board *self)
{
  DryOnHand board;

  if (!begin_edit (self, &board))
    return;
  *(GTK_WIDGET (row) == self->width ? &board.width : &board.height) =
      dry_length_row_get_value (row);
  take (self, &board);
}

static void
count_changed_cb (GtkSpinButton *spin, Board *self)
{
  DryOnHand board;

  if (!begin_edit (self, &board) || board.count == gtk_spin_button_get_value_as_int (spin))
    return;
  board.count = gtk_spin_button_get_value_as_int (spin);
  take (self, &board);
}

static void
note_applied_cb (AdwEntryRow *row, Board *self)
{
  DryOnHand board;

  if (!begin_edit (self, &board))
    return;
  board.note = (char *) gtk_editable_get_text (GTK_EDITABLE (row));
  take (self, &board);
}

static void
only_changed_cb (GtkSwitch *toggle, GParamSpec *pspec, Board *self)
{
  const DryRoom *room;
  DryOnHand board;

  if (!begin_edit (self, &board) || (board.system != NULL) == gtk_switch_get_active (toggle))
    return;
  room = dry_session_get_room (self->list->session);
  board.system = gtk_switch_get_active (toggle) ? room->finish.system : NULL;
  take (self, &board);
}

static void
remove_cb (GtkButton *button, Board *self)
{
  DrySession *session = self->list->session;
  GError *error = NULL;
  DryProject *next = dry_edit_remove_on_hand (
      dry_session_get_project (session), dry_session_get_room_id (session), self->index, &error);

  if (dry_session_apply (session, next, _ ("Remove board on hand"), NULL, error))
    g_signal_emit_by_name (session, "told", _ ("Board on hand removed"),
                           _ ("Remove board on hand"));
}

static void
add_cb (GtkButton *button, List *self)
{
  const DryRoom *room = dry_session_get_room (self->session);
  gboolean metric = dry_project_get_job (dry_session_get_project (self->session))->metric;
  DryOnHand board = {.width = metric ? 600 * DRY_MM : 24 * DRY_INCH,
                     .height = metric ? 900 * DRY_MM : 36 * DRY_INCH,
                     .count = 1};
  GError *error = NULL;
  DryProject *next;

  if (room == NULL)
    return;
  board.system = room->finish.system;
  next = dry_edit_set_on_hand (dry_session_get_project (self->session), room->id, room->n_on_hand,
                               &board, &error);
  self->unfold_last = TRUE;
  dry_session_apply (self->session, next, _ ("Add board on hand"), NULL, error);
}

/* --- rows --- */

static GtkWidget *
add_size (Board *self, const char *title)
{
  GtkWidget *row = dry_length_row_new (title);

  dry_length_row_set_limits (DRY_LENGTH_ROW (row), DRY_MM, 30 * 1000 * DRY_MM);
  g_signal_connect (row, "entered", G_CALLBACK (size_entered_cb), self);
  adw_expander_row_add_row (ADW_EXPANDER_ROW (self->row), row);
  return row;
}

static GtkWidget *
add_control (Board *self, const char *title, GtkWidget *control)
{
  GtkWidget *row = adw_action_row_new ();

  adw_preferences_row_set_title (ADW_PREFERENCES_ROW (row), title);
  gtk_widget_set_valign (control, GTK_ALIGN_CENTER);
  adw_action_row_add_suffix (ADW_ACTION_ROW (row), control);
  adw_action_row_set_activatable_widget (ADW_ACTION_ROW (row), control);
  dry_access_set_name (control, title);
  adw_expander_row_add_row (ADW_EXPANDER_ROW (self->row), row);
  return control;
}

static void
add_board (List *list, guint index)
{
  Board *self = g_new0 (Board, 1);
  GtkWidget *button = gtk_button_new_from_icon_name ("user-trash-symbolic");

  self->list = list;
  self->index = index;
  self->row = adw_expander_row_new ();
  g_object_set_data_full (G_OBJECT (self->row), "board", self, g_free);
  adw_preferences_row_set_use_markup (ADW_PREFERENCES_ROW (self->row), FALSE);
  self->width = add_size (self, _ ("Width"));
  self->height = add_size (self, _ ("Height"));
  self->count = add_control (self, _ ("Number"), dry_plain_spin_new (1, DRY_MAX_COUNT, 1));
  g_signal_connect (self->count, "value-changed", G_CALLBACK (count_changed_cb), self);
  self->only = add_control (self, _ ("For this system only"), gtk_switch_new ());
  g_signal_connect (self->only, "notify::active", G_CALLBACK (only_changed_cb), self);
  self->note = dry_steady_entry_row_new (_ ("Note"));
  g_signal_connect (self->note, "apply", G_CALLBACK (note_applied_cb), self);
  adw_expander_row_add_row (ADW_EXPANDER_ROW (self->row), self->note);
  gtk_widget_set_valign (button, GTK_ALIGN_CENTER);
  gtk_widget_add_css_class (button, "flat");
  gtk_widget_set_tooltip_text (button, _ ("Remove board on hand"));
  dry_access_set_name (button, _ ("Remove board on hand"));
  g_signal_connect (button, "clicked", G_CALLBACK (remove_cb), self);
  adw_expander_row_add_action (ADW_EXPANDER_ROW (self->row), button);
  adw_expander_row_add_row (ADW_EXPANDER_ROW (list->expander), self->row);
  g_ptr_array_add (list->boards, self);
}

static void
add_button_row (List *self)
{
  GtkWidget *button = gtk_button_new_with_mnemonic (_ ("_Add"));

  self->add = adw_action_row_new ();
  adw_preferences_row_set_title (ADW_PREFERENCES_ROW (self->add), _ ("Another board or offcut"));
  gtk_widget_set_valign (button, GTK_ALIGN_CENTER);
  dry_access_set_name (button, _ ("Add board on hand"));
  adw_action_row_add_suffix (ADW_ACTION_ROW (self->add), button);
  g_signal_connect (button, "clicked", G_CALLBACK (add_cb), self);
  adw_expander_row_add_row (ADW_EXPANDER_ROW (self->expander), self->add);
}

static void
build (List *self, guint n)
{
  for (guint i = 0; i < self->boards->len; i++) {
    Board *board = self->boards->pdata[i];

    board->gone = TRUE;
    adw_expander_row_remove (ADW_EXPANDER_ROW (self->expander), board->row);
  }
  if (self->add != NULL)
    adw_expander_row_remove (ADW_EXPANDER_ROW (self->expander), self->add);
  g_ptr_array_set_size (self->boards, 0);
  for (guint i = 0; i < n; i++)
    add_board (self, i);
  add_button_row (self);
  self->built = TRUE;
}

/* Before another room is shown. */
static void
typing_ends_cb (List *self)
{
  g_autoptr (GPtrArray) boards = g_ptr_array_copy (self->boards, NULL, NULL);

  for (guint i = 0; i < boards->len; i++) {
    Board *board = boards->pdata[i];

    dry_length_row_confirm (DRY_LENGTH_ROW (board->width));
    dry_length_row_confirm (DRY_LENGTH_ROW (board->height));
  }
}

/* --- from session to row --- */

static void
fill_board (Board *self, const DryOnHand *board)
{
  DrySession *session = self->list->session;
  DryLengthFormat format = dry_session_get_length_format (session);
  g_autofree char *width = dry_session_format_length (session, board->width);
  g_autofree char *height = dry_session_format_length (session, board->height);
  g_autofree char *title = g_strdup_printf ("%d × %s × %s", board->count, width, height);
  const char *text = board->note != NULL ? board->note : "";

  adw_preferences_row_set_title (ADW_PREFERENCES_ROW (self->row), title);
  adw_expander_row_set_subtitle (ADW_EXPANDER_ROW (self->row), text);
  dry_access_name_expander_row (ADW_EXPANDER_ROW (self->row));
  for (guint i = 0; i < 2; i++) {
    DryLengthRow *row = DRY_LENGTH_ROW (i == 0 ? self->width : self->height);

    dry_length_row_set_format (row, &format, dry_session_get_bare_unit (session));
    dry_length_row_set_value (row, i == 0 ? board->width : board->height);
  }
  gtk_spin_button_set_value (GTK_SPIN_BUTTON (self->count), board->count);
  gtk_switch_set_active (GTK_SWITCH (self->only), board->system != NULL);
  if ((gtk_widget_get_state_flags (self->note) & GTK_STATE_FLAG_FOCUS_WITHIN) == 0 &&
      !g_str_equal (gtk_editable_get_text (GTK_EDITABLE (self->note)), text))
    gtk_editable_set_text (GTK_EDITABLE (self->note), text);
}

static char *
describe (const DryRoom *room)
{
  guint n = 0;

  for (guint i = 0; i < room->n_on_hand; i++)
    n += (guint) room->on_hand[i].count;
  return n == 0 ? g_strdup (_ ("None: all sheets are bought"))
                : g_strdup_printf (ngettext ("%u board, cut first", "%u boards, cut first", n), n);
}

static void
update (List *self)
{
  const DryRoom *room = dry_session_get_room (self->session);
  g_autofree char *text = room != NULL ? describe (room) : NULL;

  if (room == NULL || self->filling)
    return;
  self->filling = TRUE;
  adw_expander_row_set_subtitle (ADW_EXPANDER_ROW (self->expander), text);
  if (!self->built || self->boards->len != room->n_on_hand)
    build (self, room->n_on_hand);
  for (guint i = 0; i < self->boards->len; i++)
    fill_board (self->boards->pdata[i], &room->on_hand[i]);
  if (self->unfold_last && self->boards->len > 0)
    adw_expander_row_set_expanded (
        ADW_EXPANDER_ROW (((Board *) self->boards->pdata[self->boards->len - 1])->row), TRUE);
  self->unfold_last = FALSE;
  self->filling = FALSE;
}

GtkWidget *
dry_on_hand_row_new (DrySession *session)
{
  List *self = g_new0 (List, 1);

  self->session = g_object_ref (session);
  self->boards = g_ptr_array_new ();
  self->expander = adw_expander_row_new ();
  adw_preferences_row_set_use_markup (ADW_PREFERENCES_ROW (self->expander), FALSE);
  adw_preferences_row_set_title (ADW_PREFERENCES_ROW (self->expander), _ ("Boards on hand"));
  dry_access_name_expander_row (ADW_EXPANDER_ROW (self->expander));
  g_object_set_data_full (G_OBJECT (self->expander), "list", self, list_free);
  g_signal_connect_swapped (session, "typing-ends", G_CALLBACK (typing_ends_cb), self);
  g_signal_connect_swapped (session, "document-changed", G_CALLBACK (update), self);
  g_signal_connect_swapped (session, "view-changed", G_CALLBACK (update), self);
  update (self);
  return self->expander;
}
