/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The pointer on the board: presses, drags, hovering, wheel and pinch.
 * Finds out what is meant and hands it to canvas-hand; edits nothing itself. */
#include "ui/canvas-private.h"

#include <glib/gi18n.h>
#include <math.h>

#include "ui/actions.h"
#include "ui/canvas-seam.h"

#define WHEEL_STEP 1.2

static gboolean
holds_alt (GtkEventController *controller)
{
  return (gtk_event_controller_get_current_event_state (controller) & GDK_ALT_MASK) != 0;
}

/* --- what a press means --- */

static DryHandKind
kind_of_object (DryCanvas *self, DryId object, gboolean plan)
{
  const DryRoom *room = dry_session_get_room (self->session);

  if (room == NULL || object == 0)
    return DRY_HAND_PAN;
  if (dry_room_get_part (room, object) != NULL)
    return DRY_HAND_PART;
  if (dry_room_get_opening (room, object) != NULL)
    return DRY_HAND_OPENING;
  if (dry_room_get_wall (room, object) != NULL)
    return plan ? DRY_HAND_WALL : DRY_HAND_PAN;
  return DRY_HAND_BASIN;
}

/* A stud counts only where its wall is hit, not under a part hanging before it. */
static gint
stud_of_pick (DryCanvas *self, double x, double y, DryId object)
{
  const DryWall *wall = dry_canvas_stud_wall (self);

  return wall != NULL && wall->id == object ? dry_canvas_pick_stud (self, x, y) : -1;
}

static void
note_press (DryCanvas *self, double x, double y)
{
  DryPieceRef piece;
  DryGripPlace grip;
  DryHit hit;
  DryId object;
  gboolean plan;

  self->press = (DryPress){.kind = DRY_HAND_PAN, .stud = -1};
  if (self->space)
    return;
  if (dry_canvas_pick_grip (self, x, y, &grip)) {
    self->press.kind = grip.kind;
    self->press.grip = grip;
    self->press.object = dry_session_get_selection (self->session);
    return;
  }
  object = dry_canvas_pick (self, x, y, &hit);
  self->press.stud = stud_of_pick (self, x, y, object);
  if (hit.shows != DRY_SHOWS_FINDING &&
      dry_canvas_pick_piece (self, x, y, object, self->press.stud >= 0, &piece)) {
    self->press.stud = -1;
    dry_canvas_press_piece (self, &piece);
    return;
  }
  if (self->press.stud >= 0) {
    dry_session_select_stud (self->session, object, self->press.stud);
    dry_canvas_focus_object (self, object);
    self->press.kind = DRY_HAND_STUD;
    self->press.object = object;
    return;
  }
  if (hit.shows == DRY_SHOWS_FINDING && hit.index >= 0) {
    dry_session_select_finding (self->session, hit.index);
    object = dry_session_get_selection (self->session);
  } else {
    dry_session_select (self->session, object);
  }
  dry_canvas_focus_object (self, object);
  plan = hit.view >= 0 && self->scene->views[hit.view].kind == DRY_VIEW_PLAN;
  self->press.kind = kind_of_object (self, object, plan);
  self->press.object = object;
}

static DryPoint
basin_centre (const DryRoom *room)
{
  DryPoint corners[4], centre = {0, 0};

  if (dry_room_basin_corners (room, corners))
    for (guint i = 0; i < 4; i++) {
      centre.x += corners[i].x / 4;
      centre.y += corners[i].y / 4;
    }
  return centre;
}

/* From where in the thing the pointer holds it, so that it does not jump. */
static DryPoint
find_grab (DryCanvas *self, double x, double y)
{
  const DryRoom *room = dry_hand_room (self);
  DryPlace place;
  DryLength u, out;
  DrySide side;
  DryId wall;

  if (!dry_canvas_locate (self, x, y, &place))
    return (DryPoint){0, 0};
  switch (self->hand.kind) {
  case DRY_HAND_PART:
  case DRY_HAND_OPENING:
    if (!place.plan)
      return (DryPoint){place.local.x - self->hand.at.x, place.local.y - self->hand.at.y};
    if (dry_canvas_nearest_wall (room, place.local, FALSE, &wall, &side, &u, &out) &&
        wall == self->hand.wall)
      return (DryPoint){u - self->hand.at.x, 0};
    return (DryPoint){0, 0};
  case DRY_HAND_BASIN: {
    DryPoint centre = basin_centre (room);

    if (!place.plan) { /* on a face: how far along it the pointer was */
      self->hand.face = place.wall;
      self->hand.side = place.side;
      return place.local;
    }

    return (DryPoint){place.local.x - centre.x, place.local.y - centre.y};
  }
  case DRY_HAND_STUD:
    return (DryPoint){dry_canvas_stud_grab (self, x, y), 0};
  case DRY_HAND_SEAM:
    return dry_canvas_seam_grab (self, x, y);
  case DRY_HAND_WALL:
    return place.local;
  case DRY_HAND_CORNER: {
    DryPoint origin = self->scene->views[self->press.grip.view].origin;
    DryPoint at = self->press.grip.at;

    return (DryPoint){place.local.x - (at.x - origin.x), place.local.y - (at.y - origin.y)};
  }
  case DRY_HAND_SIZE: {
    double gx, gy;

    dry_canvas_to_device (self, self->press.grip.at, &gx, &gy);
    return (DryPoint){(DryLength) round (x - gx), (DryLength) round (y - gy)};
  }
  default:
    return (DryPoint){0, 0};
  }
}

static void
take_press (DryCanvas *self, double x, double y)
{
  DryHandKind kind = self->press.kind;
  g_autofree char *object = kind == DRY_HAND_STUD
                                ? g_strdup (_ ("stud"))
                                : dry_object_name (self->session, self->press.object);
  g_autofree char *name =
      g_strdup_printf (kind == DRY_HAND_SIZE ? _ ("Resize %s") : _ ("Move %s"), object);

  self->press.taken = TRUE;
  if (kind == DRY_HAND_SEAM)
    dry_canvas_take_seam (self, &self->press.piece, FALSE);
  else
    dry_hand_take (self, kind, self->press.object, dry_session_get_project (self->session), name);
  self->hand.start_x = x;
  self->hand.start_y = y;
  self->hand.view_x = self->view.x;
  self->hand.view_y = self->view.y;
  self->hand.grip = self->press.grip.grip;
  self->hand.stud = kind == DRY_HAND_STUD ? self->press.stud : -1;
  if (kind != DRY_HAND_PAN)
    self->hand.grab = find_grab (self, x, y);
  dry_canvas_update_cursor (self);
}

/* --- dragging --- */

static void
on_drag_begin (GtkGestureDrag *gesture, double x, double y, DryCanvas *self)
{
  guint button = gtk_gesture_single_get_current_button (GTK_GESTURE_SINGLE (gesture));

  self->pointer_x = x;
  self->pointer_y = y;
  self->press = (DryPress){0};
  if (button == GDK_BUTTON_MIDDLE)
    self->press.kind = DRY_HAND_PAN;
  else if (self->hand.kind == DRY_HAND_EMPTY)
    note_press (self, x, y);
  else
    dry_hand_point (self, x, y, holds_alt (GTK_EVENT_CONTROLLER (gesture)));
}

static void
on_drag_update (GtkGestureDrag *gesture, double dx, double dy, DryCanvas *self)
{
  double x, y;

  gtk_gesture_drag_get_start_point (gesture, &x, &y);
  self->pointer_x = x + dx;
  self->pointer_y = y + dy;
  if (!self->press.taken) {
    if (self->press.kind == DRY_HAND_EMPTY || hypot (dx, dy) < DRAG_THRESHOLD ||
        self->hand.kind != DRY_HAND_EMPTY)
      return;
    take_press (self, x, y);
  }
  if (self->hand.kind == DRY_HAND_PAN) {
    self->fitted = FALSE;
    dry_canvas_set_view (self, self->view.scale, self->hand.view_x + dx, self->hand.view_y + dy);
  } else if (self->hand.kind != DRY_HAND_EMPTY) {
    dry_hand_point (self, x + dx, y + dy, holds_alt (GTK_EVENT_CONTROLLER (gesture)));
  }
}

static void
on_drag_end (GtkGestureDrag *gesture, double dx, double dy, DryCanvas *self)
{
  gboolean taken = self->press.taken;

  self->press = (DryPress){0};
  if (taken) {
    if (self->hand.kind != DRY_HAND_EMPTY)
      dry_hand_put_down (self);
  } else if (self->hand.kind == DRY_HAND_OUTLINE) {
    dry_outline_click (self);
  } else if (self->hand.sticky && hypot (dx, dy) < 2 * DRAG_THRESHOLD) {
    DryId object = self->hand.object;

    dry_hand_put_down (self);
    dry_canvas_focus_object (self, object);
  }
}

static void
on_drag_cancel (GtkGesture *gesture, GdkEventSequence *sequence, DryCanvas *self)
{
  if (self->press.taken)
    dry_hand_drop (self);
  self->press = (DryPress){0};
}

static void
on_click (GtkGestureClick *gesture, int n_press, double x, double y, DryCanvas *self)
{
  if (n_press == 2 && self->hand.kind == DRY_HAND_EMPTY)
    gtk_widget_activate_action (GTK_WIDGET (self), "win.edit-selection", NULL);
}

static void
on_menu_click (GtkGestureClick *gesture, int n_press, double x, double y, DryCanvas *self)
{
  DryPieceRef piece;
  DryHit hit;

  if (dry_canvas_cancel (self))
    return;
  DryId object = dry_canvas_pick (self, x, y, &hit);

  if (dry_canvas_pick_piece (self, x, y, object, FALSE, &piece))
    dry_session_select_piece (self->session, &piece);
  else
    dry_session_select_stud (self->session, object, stud_of_pick (self, x, y, object));
  dry_canvas_focus_object (self, dry_session_get_selection (self->session));
  dry_canvas_popup_menu (self, x, y);
}

/* --- hovering --- */

void
dry_canvas_update_cursor (DryCanvas *self)
{
  const char *name = "default";
  DryGripPlace grip;

  if (self->hand.kind == DRY_HAND_PAN)
    name = "grabbing";
  else if (self->hand.kind == DRY_HAND_OUTLINE)
    name = "crosshair";
  else if (self->hand.kind != DRY_HAND_EMPTY)
    name = self->hand.kind == DRY_HAND_STUD   ? "ew-resize"
           : self->hand.kind == DRY_HAND_SEAM ? dry_canvas_seam_cursor (&self->hand.piece)
           : self->hand.kind == DRY_HAND_SIZE ? dry_canvas_grip_cursor (&self->press.grip)
                                              : "grabbing";
  else if (self->space)
    name = "grab";
  else if (self->pointer_in && dry_canvas_pick_grip (self, self->pointer_x, self->pointer_y, &grip))
    name = dry_canvas_grip_cursor (&grip);
  else if (self->hover_piece.kind != DRY_PIECE_NONE)
    name = dry_canvas_seam_cursor (&self->hover_piece);
  else if (self->hover_stud >= 0)
    name = "ew-resize";
  else if (self->hover != 0)
    name = "pointer";
  gtk_widget_set_cursor_from_name (GTK_WIDGET (self), name);
}

static void
on_motion (GtkEventControllerMotion *controller, double x, double y, DryCanvas *self)
{
  DryPieceRef piece;
  DryHit hit;
  DryId hover = 0;
  gint stud;

  self->pointer_in = TRUE;
  if (x == self->pointer_x && y == self->pointer_y)
    return;
  self->pointer_x = x;
  self->pointer_y = y;
  if (self->hand.sticky) {
    dry_hand_point (self, x, y, holds_alt (GTK_EVENT_CONTROLLER (controller)));
    return;
  }
  if (self->hand.kind != DRY_HAND_EMPTY || self->press.kind != DRY_HAND_EMPTY)
    return;
  hover = dry_canvas_pick (self, x, y, &hit);
  stud = stud_of_pick (self, x, y, hover);
  if (hit.shows == DRY_SHOWS_FINDING ||
      !dry_canvas_pick_piece (self, x, y, hover, stud >= 0, &piece))
    piece = (DryPieceRef){0};
  if (hover != self->hover || stud != self->hover_stud ||
      !dry_piece_equal (&piece, &self->hover_piece)) {
    self->hover = hover;
    self->hover_piece = piece;
    self->hover_stud = stud;
    dry_canvas_redraw (self);
  }
  dry_canvas_update_cursor (self);
}

static void
on_leave (GtkEventControllerMotion *controller, DryCanvas *self)
{
  self->pointer_in = FALSE;
  self->hover = 0;
  self->hover_stud = -1;
  self->hover_piece.kind = DRY_PIECE_NONE;
  dry_canvas_redraw (self);
}

/* --- wheel and pinch --- */

/* A wheel zooms at the pointer; a touch pad's two fingers move the sheet; Control always zooms. */
static gboolean
on_scroll (GtkEventControllerScroll *controller, double dx, double dy, DryCanvas *self)
{
  GtkEventController *base = GTK_EVENT_CONTROLLER (controller);
  GdkModifierType state = gtk_event_controller_get_current_event_state (base);
  gboolean wheel = gtk_event_controller_scroll_get_unit (controller) == GDK_SCROLL_UNIT_WHEEL;

  if ((state & GDK_CONTROL_MASK) != 0 || (wheel && (state & GDK_SHIFT_MASK) == 0 && dx == 0)) {
    dry_canvas_zoom_at (self, pow (WHEEL_STEP, wheel ? -dy : -dy / 20), self->pointer_x,
                        self->pointer_y);
    return GDK_EVENT_STOP;
  }
  if (wheel) {
    dx = (dx != 0 ? dx : dy) * 48;
    dy = 0;
  }
  self->fitted = FALSE;
  dry_canvas_set_view (self, self->view.scale, self->view.x - dx, self->view.y - dy);
  return GDK_EVENT_STOP;
}

static void
on_pinch_begin (GtkGesture *gesture, GdkEventSequence *sequence, DryCanvas *self)
{
  self->pinch_scale = 1;
}

static void
on_pinch (GtkGestureZoom *gesture, double scale, DryCanvas *self)
{
  double x = self->pointer_x, y = self->pointer_y;

  if (gtk_gesture_is_active (GTK_GESTURE (gesture)))
    gtk_gesture_get_bounding_box_center (GTK_GESTURE (gesture), &x, &y);
  dry_canvas_zoom_at (self, scale / self->pinch_scale, x, y);
  self->pinch_scale = scale;
}

/* --- controllers --- */

static void
add_drag (DryCanvas *self, guint button)
{
  GtkGesture *drag = gtk_gesture_drag_new ();

  gtk_gesture_single_set_button (GTK_GESTURE_SINGLE (drag), button);
  g_signal_connect (drag, "drag-begin", G_CALLBACK (on_drag_begin), self);
  g_signal_connect (drag, "drag-update", G_CALLBACK (on_drag_update), self);
  g_signal_connect (drag, "drag-end", G_CALLBACK (on_drag_end), self);
  g_signal_connect (drag, "cancel", G_CALLBACK (on_drag_cancel), self);
  gtk_widget_add_controller (GTK_WIDGET (self), GTK_EVENT_CONTROLLER (drag));
}

void
dry_canvas_add_pointer (DryCanvas *self)
{
  GtkWidget *widget = GTK_WIDGET (self);
  GtkGesture *click = gtk_gesture_click_new ();
  GtkGesture *secondary = gtk_gesture_click_new ();
  GtkGesture *pinch = gtk_gesture_zoom_new ();
  GtkEventController *motion = gtk_event_controller_motion_new ();
  GtkEventController *scroll =
      gtk_event_controller_scroll_new (GTK_EVENT_CONTROLLER_SCROLL_BOTH_AXES);

  add_drag (self, GDK_BUTTON_PRIMARY);
  add_drag (self, GDK_BUTTON_MIDDLE);
  g_signal_connect (click, "pressed", G_CALLBACK (on_click), self);
  gtk_widget_add_controller (widget, GTK_EVENT_CONTROLLER (click));
  gtk_gesture_single_set_button (GTK_GESTURE_SINGLE (secondary), GDK_BUTTON_SECONDARY);
  g_signal_connect (secondary, "pressed", G_CALLBACK (on_menu_click), self);
  gtk_widget_add_controller (widget, GTK_EVENT_CONTROLLER (secondary));
  g_signal_connect (pinch, "begin", G_CALLBACK (on_pinch_begin), self);
  g_signal_connect (pinch, "scale-changed", G_CALLBACK (on_pinch), self);
  gtk_widget_add_controller (widget, GTK_EVENT_CONTROLLER (pinch));
  g_signal_connect (motion, "motion", G_CALLBACK (on_motion), self);
  g_signal_connect (motion, "leave", G_CALLBACK (on_leave), self);
  gtk_widget_add_controller (widget, motion);
  g_signal_connect (scroll, "scroll", G_CALLBACK (on_scroll), self);
  gtk_widget_add_controller (widget, scroll);
}
