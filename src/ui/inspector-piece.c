/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Rows of one board or seam. Built once for each kind, filled whenever the session changes; a row
 * being typed in is left alone. */
#define G_LOG_DOMAIN "drybay-ui"
#include "ui/inspector-piece.h"

#include <glib/gi18n.h>

#include "ui/access.h"
#include "ui/length-row.h"
#include "ui/pieces.h"

typedef struct {
  DrySession *session; /* held */
  DryPieceKind kind;   /* the rows are for */
  gboolean level;
  GtkWidget *group;
  GPtrArray *rows; /* in the group now */
  GtkWidget *at, *size, *chosen, *sheet, *holes, *to_stud;
} Panel;

static void
panel_free (gpointer data)
{
  Panel *self = data;

  g_signal_handlers_disconnect_by_data (self->session, self);
  g_object_unref (self->session);
  g_ptr_array_unref (self->rows);
  g_free (self);
}

/* --- rows --- */

static GtkWidget *
add_row (Panel *self, GtkWidget *row)
{
  adw_preferences_group_add (ADW_PREFERENCES_GROUP (self->group), row);
  g_ptr_array_add (self->rows, row);
  return row;
}

static GtkWidget *
add_fact (Panel *self, const char *title)
{
  GtkWidget *row = adw_action_row_new ();

  adw_preferences_row_set_use_markup (ADW_PREFERENCES_ROW (row), FALSE);
  adw_preferences_row_set_title (ADW_PREFERENCES_ROW (row), title);
  return add_row (self, row);
}

static GtkWidget *
make_button (const char *label, const char *action)
{
  GtkWidget *button = gtk_button_new_with_mnemonic (label);
  g_auto (GStrv) parts = g_strsplit (label, "_", -1);
  g_autofree char *name = g_strjoinv ("", parts);

  gtk_actionable_set_action_name (GTK_ACTIONABLE (button), action);
  gtk_widget_set_valign (button, GTK_ALIGN_CENTER);
  dry_access_set_name (button, name);
  return button;
}

static void
at_entered_cb (DryLengthRow *row, Panel *self)
{
  if (GTK_WIDGET (row) == self->at)
    dry_act_move_seam (self->session, dry_length_row_get_value (row), FALSE);
}

/* While it is still the seam that was typed for. */
static void
typing_ends_cb (Panel *self)
{
  if (self->kind == DRY_PIECE_SEAM && self->at != NULL)
    dry_length_row_confirm (DRY_LENGTH_ROW (self->at));
}

static void
build_seam (Panel *self)
{
  GtkWidget *row;

  self->at = dry_length_row_new (self->level ? _ ("Above the floor") : _ ("From the left end"));
  dry_length_row_set_limits (DRY_LENGTH_ROW (self->at), 0, 30 * 1000 * DRY_MM);
  g_signal_connect (self->at, "entered", G_CALLBACK (at_entered_cb), self);
  add_row (self, self->at);
  self->size = add_fact (self, _ ("Length"));
  self->chosen = add_fact (self, _ ("Chosen by"));
  GtkWidget *release = make_button (_ ("_Let the Plan Choose"), "win.release-seam");
  adw_action_row_add_suffix (ADW_ACTION_ROW (self->chosen), release);
  row = self->to_stud = add_fact (self, _ ("To the next stud"));
  adw_action_row_add_suffix (ADW_ACTION_ROW (row), make_button (_ ("L_eft"), "win.seam-left"));
  adw_action_row_add_suffix (ADW_ACTION_ROW (row), make_button (_ ("_Right"), "win.seam-right"));
  gtk_widget_set_visible (row, !self->level);
  row = add_fact (self, _ ("By clicking the new place"));
  adw_action_row_add_suffix (ADW_ACTION_ROW (row), make_button (_ ("_Move to…"), "win.move-to"));
}

static void
build_board (Panel *self)
{
  self->size = add_fact (self, _ ("Size"));
  self->sheet = add_fact (self, _ ("Cut from"));
  self->holes = add_fact (self, _ ("Pipe holes"));
}

static void
build (Panel *self, const DryPieceRef *piece)
{
  for (guint i = 0; i < self->rows->len; i++)
    adw_preferences_group_remove (ADW_PREFERENCES_GROUP (self->group), self->rows->pdata[i]);
  g_ptr_array_set_size (self->rows, 0);
  self->at = NULL;
  self->kind = piece->kind;
  self->level = piece->level;
  if (piece->kind == DRY_PIECE_SEAM)
    build_seam (self);
  else
    build_board (self);
}

/* --- what they show --- */

static void
fill_seam (Panel *self, const DryPieceRef *piece)
{
  const DryRoom *room = dry_session_get_room (self->session);
  const DryPlan *plan = dry_session_get_plan (self->session);
  const DrySeam *seam = dry_piece_get_seam (plan, piece);
  gboolean wished = dry_piece_get_wish (room, plan, piece) != NULL;
  DryLengthFormat format = dry_session_get_length_format (self->session);
  g_autofree char *length = dry_session_format_length (
      self->session, seam == NULL ? 0 : seam->to.x - seam->from.x + seam->to.y - seam->from.y);

  dry_length_row_set_format (DRY_LENGTH_ROW (self->at), &format,
                             dry_session_get_bare_unit (self->session));
  dry_length_row_set_value (DRY_LENGTH_ROW (self->at), dry_piece_get_at (piece));
  adw_action_row_set_subtitle (ADW_ACTION_ROW (self->size),
                               seam != NULL ? length : _ ("not laid: see the findings"));
  adw_action_row_set_subtitle (ADW_ACTION_ROW (self->chosen),
                               wished ? _ ("You wished it here") : _ ("The plan"));
}

static char *
describe_sheet (Panel *self, const DryPlan *plan, const DryBoard *board)
{
  const DryStock *stock = NULL;
  guint sheet = dry_piece_find_sheet (plan, board, &stock);
  g_autofree char *width = NULL, *height = NULL;

  if (sheet == 0)
    return g_strdup (_ ("No sheet is large enough"));
  width = dry_session_format_length (self->session, stock->width);
  height = dry_session_format_length (self->session, stock->height);
  /* Translators: number of a sheet, its width and height */
  return stock->on_hand ? g_strdup_printf (_ ("Sheet %u, %s × %s, on hand"), sheet, width, height)
                        : g_strdup_printf (_ ("Sheet %u, %s × %s"), sheet, width, height);
}

static void
fill_board (Panel *self, const DryPieceRef *piece)
{
  const DryPlan *plan = dry_session_get_plan (self->session);
  const DryBoard *board = dry_piece_get_board (plan, piece);
  g_autofree char *width = NULL, *height = NULL, *size = NULL, *sheet = NULL, *holes = NULL;

  if (board == NULL)
    return;
  width = dry_session_format_length (self->session, dry_rect_width (board->bounds));
  height = dry_session_format_length (self->session, dry_rect_height (board->bounds));
  size = g_strdup_printf ("%s × %s", width, height);
  sheet = describe_sheet (self, plan, board);
  holes = g_strdup_printf ("%u", board->n_holes);
  adw_action_row_set_subtitle (ADW_ACTION_ROW (self->size), size);
  adw_action_row_set_subtitle (ADW_ACTION_ROW (self->sheet), sheet);
  adw_action_row_set_subtitle (ADW_ACTION_ROW (self->holes), holes);
}

static void
update (Panel *self)
{
  const DryPieceRef *piece = dry_session_get_selected_piece (self->session);

  if (piece == NULL)
    return; /* the inspector takes the panel away */
  if (piece->kind != self->kind || piece->level != self->level)
    build (self, piece);
  if (piece->kind == DRY_PIECE_SEAM)
    fill_seam (self, piece);
  else
    fill_board (self, piece);
}

GtkWidget *
dry_piece_panel_new (DrySession *session)
{
  Panel *self = g_new0 (Panel, 1);

  self->session = g_object_ref (session);
  self->rows = g_ptr_array_new ();
  self->group = adw_preferences_group_new ();
  g_object_set_data_full (G_OBJECT (self->group), "panel", self, panel_free);
  g_signal_connect_swapped (session, "typing-ends", G_CALLBACK (typing_ends_cb), self);
  g_signal_connect_swapped (session, "selection-changed", G_CALLBACK (update), self);
  g_signal_connect_swapped (session, "plan-changed", G_CALLBACK (update), self);
  g_signal_connect_swapped (session, "project-changed", G_CALLBACK (update), self);
  update (self);
  return self->group;
}
