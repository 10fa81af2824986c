/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Drawing a room: corners clicked on the plan, lengths typed as one goes, closed at the first
 * corner. Keeps the corners until they make an outline; knows no file. */
#include "ui/canvas-private.h"

#include <glib/gi18n.h>
#include <math.h>

#define CLOSE_PIXELS 14.0

static DryPoint
last_corner (DryCanvas *self)
{
  GArray *corners = self->hand.corners;

  return g_array_index (corners, DryPoint, corners->len - 1);
}

void
dry_canvas_begin_outline (DryCanvas *self)
{
  gint view;

  dry_hand_drop (self);
  dry_session_select (self->session, 0);
  dry_hand_take (self, DRY_HAND_OUTLINE, 0, dry_session_get_project (self->session),
                 _ ("Draw room"));
  self->hand.sticky = TRUE;
  self->hand.corners = g_array_new (FALSE, FALSE, sizeof (DryPoint));
  self->hand.typed = g_string_new (NULL);
  view = dry_canvas_find_view (self, TRUE, 0, DRY_SIDE_INSIDE);
  if (view >= 0) {
    DryRect bounds = self->scene->views[view].bounds;
    DryPoint origin = self->scene->views[view].origin;

    /* Where the keyboard begins. */
    self->hand.next = (DryPoint){bounds.x0 - origin.x, bounds.y0 - origin.y};
  }
  gtk_widget_grab_focus (GTK_WIDGET (self));
  dry_canvas_update_cursor (self);
  dry_canvas_redraw (self);
}

static DryLength
round_length (DryCanvas *self, double value)
{
  DryLength grid =
      dry_snap_grid (dry_project_get_job (self->hand.base)->metric, dry_canvas_pixels (self, 4));

  return (DryLength) round (value / (double) grid) * grid;
}

/* The direction keeps to multiples of 15 degrees from the last corner, the length to the grid;
 * lines up with the first corner where it can. */
static DryPoint
constrain (DryCanvas *self, DryPoint at)
{
  DryPoint from = last_corner (self);
  DryPoint first = g_array_index (self->hand.corners, DryPoint, 0);
  double dx = (double) (at.x - from.x), dy = (double) (at.y - from.y);
  double step = G_PI / 12;
  double angle = round (atan2 (dy, dx) / step) * step;
  DryLength length = round_length (self, fabs (dx * cos (angle) + dy * sin (angle)));
  DryLength reach = dry_canvas_pixels (self, 9);
  DryPoint to = {from.x + (DryLength) llround (cos (angle) * (double) length),
                 from.y + (DryLength) llround (sin (angle) * (double) length)};

  if (self->hand.corners->len > 1 && ABS (to.x - first.x) < reach && fabs (cos (angle)) > 0.9)
    to.x = first.x;
  if (self->hand.corners->len > 1 && ABS (to.y - first.y) < reach && fabs (sin (angle)) > 0.9)
    to.y = first.y;
  return to;
}

static gboolean
is_closing (DryCanvas *self, DryPoint at)
{
  DryPoint first;

  if (self->hand.corners->len < 3)
    return FALSE;
  first = g_array_index (self->hand.corners, DryPoint, 0);
  return dry_point_distance (first, at) < dry_canvas_pixels (self, CLOSE_PIXELS);
}

void
dry_outline_point (DryCanvas *self, double x, double y, gboolean freely)
{
  gint view = dry_canvas_find_view (self, TRUE, 0, DRY_SIDE_INSIDE);
  DryPoint at = dry_canvas_to_scene (self, x, y);

  if (view < 0)
    return;
  at.x -= self->scene->views[view].origin.x;
  at.y -= self->scene->views[view].origin.y;
  if (is_closing (self, at))
    at = g_array_index (self->hand.corners, DryPoint, 0);
  else if (self->hand.corners->len == 0)
    at = (DryPoint){round_length (self, (double) at.x), round_length (self, (double) at.y)};
  else if (!freely)
    at = constrain (self, at);
  self->hand.next = at;
  dry_canvas_redraw (self);
}

static void
finish_outline (DryCanvas *self)
{
  GError *error = NULL;
  g_autofree char *name = g_strdup (self->hand.name);
  DryProject *project = dry_edit_set_outline (
      self->hand.base, dry_session_get_room_id (self->session),
      (const DryPoint *) (gpointer) self->hand.corners->data, self->hand.corners->len, &error);

  dry_hand_drop (self);
  if (dry_session_apply (self->session, project, name, NULL, error))
    self->fitted = TRUE;
}

/* The typed length, if any, replaces the pointer's. FALSE when it was not understood. */
static gboolean
use_typed (DryCanvas *self)
{
  g_autoptr (GError) error = NULL;
  DryPoint from;
  DryLength length;
  double dx, dy, size;

  if (self->hand.typed->len == 0)
    return TRUE;
  if (self->hand.corners->len == 0)
    return TRUE;
  if (!dry_length_parse (self->hand.typed->str, dry_session_get_bare_unit (self->session), &length,
                         &error)) {
    g_free (self->hand.refusal);
    self->hand.refusal = g_strdup (error->message);
    return FALSE;
  }
  from = last_corner (self);
  dx = (double) (self->hand.next.x - from.x);
  dy = (double) (self->hand.next.y - from.y);
  size = hypot (dx, dy);
  if (size <= 0) {
    dx = size = 1;
    dy = 0;
  }
  self->hand.next = (DryPoint){from.x + (DryLength) llround (dx / size * (double) length),
                               from.y + (DryLength) llround (dy / size * (double) length)};
  return TRUE;
}

void
dry_outline_click (DryCanvas *self)
{
  DryPoint at;

  if (!use_typed (self)) {
    dry_canvas_redraw (self);
    return;
  }
  g_clear_pointer (&self->hand.refusal, g_free);
  at = self->hand.next;
  g_string_truncate (self->hand.typed, 0);
  if (is_closing (self, at)) {
    finish_outline (self);
    return;
  }
  if (self->hand.corners->len > 0 && dry_point_distance (last_corner (self), at) < DRY_INCH)
    return;
  g_array_append_val (self->hand.corners, at);
  dry_canvas_redraw (self);
}

/* With keys alone: arrows choose the direction, a typed length and Enter draw the wall. */
static gboolean
turn_by_arrow (DryCanvas *self, guint key)
{
  static const struct {
    guint key;
    gint dx, dy;
  } arrows[] = {
      {GDK_KEY_Left, -1, 0}, {GDK_KEY_Right, 1, 0}, {GDK_KEY_Up, 0, 1}, {GDK_KEY_Down, 0, -1}};

  for (guint i = 0; i < G_N_ELEMENTS (arrows); i++) {
    if (key != arrows[i].key)
      continue;
    DryPoint from = self->hand.corners->len > 0 ? last_corner (self) : self->hand.next;
    DryLength away = self->hand.corners->len > 0 ? 12 * DRY_INCH : DRY_INCH;

    self->hand.next = (DryPoint){from.x + arrows[i].dx * away, from.y + arrows[i].dy * away};
    dry_canvas_redraw (self);
    return TRUE;
  }
  return FALSE;
}

gboolean
dry_outline_key (DryCanvas *self, guint key)
{
  gunichar letter = gdk_keyval_to_unicode (key);
  GString *typed = self->hand.typed;

  if (turn_by_arrow (self, key))
    return TRUE;
  if (key == GDK_KEY_Return || key == GDK_KEY_KP_Enter) {
    dry_outline_click (self);
    return TRUE;
  }
  if (key == GDK_KEY_BackSpace) {
    if (typed->len > 0)
      g_string_truncate (
          typed,
          (gsize) (g_utf8_find_prev_char (typed->str, typed->str + typed->len) - typed->str));
    else if (self->hand.corners->len > 0)
      g_array_set_size (self->hand.corners, self->hand.corners->len - 1);
    dry_canvas_redraw (self);
    return TRUE;
  }
  if (key == GDK_KEY_c && typed->len == 0 && self->hand.corners->len >= 3) {
    finish_outline (self);
    return TRUE;
  }
  if (letter == 0 || typed->len > 24 ||
      (!g_unichar_isdigit (letter) && g_utf8_strchr (" '\"./,-fintmc½¼¾", -1, letter) == NULL))
    return FALSE;
  g_string_append_unichar (typed, letter);
  dry_canvas_redraw (self);
  return TRUE;
}
