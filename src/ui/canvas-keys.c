/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The keyboard on the board: arrows move what is selected or in hand, Enter and Escape end things,
 * the Menu key opens the object's menu, Space pans. Tab is canvas-objects' business. */
#include "ui/canvas-private.h"

#include "ui/actions.h"
#include "ui/canvas-advice.h"
#include "ui/canvas-entry.h"
#include "ui/canvas-seam.h"

static DryLength
step_of (DryCanvas *self, gboolean large)
{
  gboolean metric = dry_project_get_job (dry_session_get_project (self->session))->metric;

  if (metric)
    return large ? 10 * DRY_MM : DRY_MM;
  return large ? DRY_INCH : DRY_INCH / 16;
}

static gboolean
arrow_of_key (guint key, gint *dx, gint *dy)
{
  switch (key) {
  case GDK_KEY_Left:
  case GDK_KEY_KP_Left:
    *dx = -1;
    return TRUE;
  case GDK_KEY_Right:
  case GDK_KEY_KP_Right:
    *dx = 1;
    return TRUE;
  case GDK_KEY_Up:
  case GDK_KEY_KP_Up:
    *dy = 1;
    return TRUE;
  case GDK_KEY_Down:
  case GDK_KEY_KP_Down:
    *dy = -1;
    return TRUE;
  default:
    return FALSE;
  }
}

static gboolean
move_by_arrow (DryCanvas *self, gint dx, gint dy, gboolean large)
{
  DryLength step = step_of (self, large);
  DryId object = dry_session_get_selection (self->session);

  if (dry_session_get_selected_stud (self->session) >= 0 && self->hand.kind == DRY_HAND_EMPTY) {
    dry_act_nudge_stud (self->session, dx != 0 ? dx * step : dy * step);
  } else if (dry_session_get_selected_piece (self->session) != NULL &&
             self->hand.kind == DRY_HAND_EMPTY) {
    const DryPieceRef *piece = dry_session_get_selected_piece (self->session);

    /* A seam only moves across itself. */
    if (piece->kind == DRY_PIECE_SEAM && (piece->level ? dy : dx) != 0)
      dry_act_nudge_seam (self->session, (piece->level ? dy : dx) * step);
  } else if (self->hand.sticky) {
    dry_hand_step (self, dx * step, dy * step);
  } else if (object != 0) {
    /* A wall moves out of or into the room only, whichever arrow is used. */
    dry_act_nudge (self->session, object, dx * step, dy * step);
    dry_canvas_reveal (self, object);
  } else {
    self->fitted = FALSE;
    dry_canvas_set_view (self, self->view.scale, self->view.x - dx * 60, self->view.y + dy * 60);
  }
  return GDK_EVENT_STOP;
}

static void
popup_menu_at_selection (DryCanvas *self)
{
  DryShape shapes[8];
  const DryWall *wall = dry_canvas_stud_wall (self);
  gint stud = dry_session_get_selected_stud (self->session);
  const DryPieceRef *piece = dry_session_get_selected_piece (self->session);
  guint n = piece != NULL ? dry_canvas_piece_shapes (self, piece, shapes)
            : wall != NULL && stud >= 0
                ? dry_canvas_stud_shapes (self, wall, stud, shapes)
                : dry_canvas_shapes (self, dry_session_get_room (self->session),
                                     dry_session_get_selection (self->session), shapes, 8);
  double x = gtk_widget_get_width (GTK_WIDGET (self)) / 2.0;
  double y = gtk_widget_get_height (GTK_WIDGET (self)) / 2.0;

  if (n > 0) {
    DryPoint a = shapes[n - 1].points[0], b = shapes[n - 1].points[2];

    dry_canvas_to_device (self, (DryPoint){a.x + (b.x - a.x) / 2, a.y + (b.y - a.y) / 2}, &x, &y);
  }
  dry_canvas_popup_menu (self, x, y);
}

static gboolean
end_by_enter (DryCanvas *self)
{
  DryId object = self->hand.object;

  if (self->hand.sticky) {
    dry_hand_put_down (self);
    dry_canvas_focus_object (self, object);
    return GDK_EVENT_STOP;
  }
  if (self->hand.kind != DRY_HAND_EMPTY)
    return GDK_EVENT_PROPAGATE;
  gtk_widget_activate_action (GTK_WIDGET (self), "win.edit-selection", NULL);
  return GDK_EVENT_STOP;
}

static gboolean
end_by_escape (DryCanvas *self)
{
  if (dry_canvas_cancel (self)) {
    self->press = (DryPress){0};
    return GDK_EVENT_STOP;
  }
  if (dry_session_get_selected_stud (self->session) >= 0 ||
      dry_session_get_selected_piece (self->session) != NULL) { /* back to its wall */
    DryId wall = dry_session_get_selection (self->session);

    dry_session_select (self->session, wall);
    dry_canvas_focus_object (self, wall);
    return GDK_EVENT_STOP;
  }
  if (dry_session_get_selection (self->session) == 0)
    return GDK_EVENT_PROPAGATE;
  dry_session_select (self->session, 0);
  gtk_widget_grab_focus (GTK_WIDGET (self));
  return GDK_EVENT_STOP;
}

static gboolean
on_key (GtkEventControllerKey *controller, guint key, guint code, GdkModifierType state,
        DryCanvas *self)
{
  gboolean shift = (state & GDK_SHIFT_MASK) != 0;
  gint dx = 0, dy = 0;

  if (dry_canvas_has_menu_open (self)) /* the menu's keys pass here on their way */
    return GDK_EVENT_PROPAGATE;
  if ((state & (GDK_CONTROL_MASK | GDK_ALT_MASK | GDK_SUPER_MASK)) != 0)
    return GDK_EVENT_PROPAGATE;
  if (self->hand.kind == DRY_HAND_OUTLINE && dry_outline_key (self, key))
    return GDK_EVENT_STOP;
  if (dry_advice_key (self, key))
    return GDK_EVENT_STOP;
  if (dry_entry_key (self, key, state))
    return GDK_EVENT_STOP;
  if (dry_entry_is_open (self)) /* the rest is its text's */
    return GDK_EVENT_PROPAGATE;
  if (arrow_of_key (key, &dx, &dy))
    return move_by_arrow (self, dx, dy, shift);
  switch (key) {
  case GDK_KEY_Return:
  case GDK_KEY_KP_Enter:
  case GDK_KEY_ISO_Enter:
    return end_by_enter (self);
  case GDK_KEY_Escape:
    return end_by_escape (self);
  case GDK_KEY_Tab:
  case GDK_KEY_ISO_Left_Tab:
    if (!self->hand.sticky)
      return GDK_EVENT_PROPAGATE;
    dry_hand_next_wall (self, key == GDK_KEY_Tab ? 1 : -1);
    return GDK_EVENT_STOP;
  case GDK_KEY_plus:
  case GDK_KEY_equal:
  case GDK_KEY_KP_Add:
    dry_canvas_zoom_by (self, 1.25);
    return GDK_EVENT_STOP;
  case GDK_KEY_minus:
  case GDK_KEY_KP_Subtract:
    dry_canvas_zoom_by (self, 0.8);
    return GDK_EVENT_STOP;
  case GDK_KEY_space:
    self->space = TRUE;
    dry_canvas_update_cursor (self);
    return GDK_EVENT_STOP;
  case GDK_KEY_Menu:
    popup_menu_at_selection (self);
    return GDK_EVENT_STOP;
  case GDK_KEY_F10:
    if (!shift)
      return GDK_EVENT_PROPAGATE;
    popup_menu_at_selection (self);
    return GDK_EVENT_STOP;
  default:
    return GDK_EVENT_PROPAGATE;
  }
}

static void
on_key_up (GtkEventControllerKey *controller, guint key, guint code, GdkModifierType state,
           DryCanvas *self)
{
  if (key != GDK_KEY_space)
    return;
  self->space = FALSE;
  dry_canvas_update_cursor (self);
}

static void
on_focus_left (GtkEventControllerFocus *controller, DryCanvas *self)
{
  self->space = FALSE;
  dry_canvas_redraw (self);
}

void
dry_canvas_add_keys (DryCanvas *self)
{
  GtkEventController *keys = gtk_event_controller_key_new ();
  GtkEventController *focus = gtk_event_controller_focus_new ();

  /* Before the window's Tab and arrow handling. */
  gtk_event_controller_set_propagation_phase (keys, GTK_PHASE_CAPTURE);
  g_signal_connect (keys, "key-pressed", G_CALLBACK (on_key), self);
  g_signal_connect (keys, "key-released", G_CALLBACK (on_key_up), self);
  gtk_widget_add_controller (GTK_WIDGET (self), keys);
  g_signal_connect (focus, "leave", G_CALLBACK (on_focus_left), self);
  g_signal_connect_swapped (focus, "enter", G_CALLBACK (dry_canvas_redraw), self);
  gtk_widget_add_controller (GTK_WIDGET (self), focus);
}
