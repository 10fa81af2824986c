/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The distance entry: which side it means, how the text is read, where it stands on the board.
 * What a distance is and how it is set is canvas-distance's business. */
#include "ui/canvas-entry.h"

#include <glib/gi18n.h>

#include "ui/actions.h"
#include "ui/canvas-distance.h"
#include "ui/canvas-mark.h"
#include "ui/plain-entry.h"

gboolean
dry_entry_is_open (DryCanvas *self)
{
  return self->entry.box != NULL && gtk_widget_get_visible (self->entry.box);
}

DryNeighbourSide
dry_entry_side (DryCanvas *self)
{
  return self->entry.side;
}

/* --- what it says --- */

static gboolean
read_entry (DryCanvas *self, DryLength *length, GError **error)
{
  const char *text = gtk_editable_get_text (GTK_EDITABLE (self->entry.text));

  return dry_length_parse (text, dry_session_get_bare_unit (self->session), length, error);
}

static void
show_reading (DryCanvas *self)
{
  g_autoptr (GError) error = NULL;
  g_autofree char *reading = NULL;
  DryLength length;

  if (read_entry (self, &length, &error)) {
    g_autofree char *plain = dry_session_format_length (self->session, length);

    reading = g_strdup_printf ("= %s", plain);
    gtk_widget_remove_css_class (self->entry.text, "error");
  } else {
    reading = g_strdup (error->message);
  }
  gtk_label_set_text (GTK_LABEL (self->entry.reading), reading);
  gtk_widget_queue_allocate (GTK_WIDGET (self));
}

static void
show_side (DryCanvas *self)
{
  g_autofree char *name = NULL;
  DryMeasured measured;

  if (!dry_canvas_measure_object (self, &measured))
    return;
  name = dry_canvas_name_side (self, &measured, self->entry.side);
  gtk_label_set_text (GTK_LABEL (self->entry.caption), name);
  gtk_accessible_update_property (GTK_ACCESSIBLE (self->entry.text), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  name, -1);
  gtk_widget_queue_allocate (GTK_WIDGET (self));
  dry_canvas_redraw (self);
}

static void
complain (DryCanvas *self, const char *message)
{
  gtk_label_set_text (GTK_LABEL (self->entry.reading), message);
  gtk_widget_add_css_class (self->entry.text, "error");
  gtk_widget_queue_allocate (GTK_WIDGET (self));
}

/* --- opening and closing --- */

static void
build_entry (DryCanvas *self)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 2);

  self->entry.caption = gtk_label_new (NULL);
  self->entry.text = gtk_entry_new ();
  self->entry.reading = gtk_label_new (NULL);
  gtk_widget_add_css_class (self->entry.caption, "caption");
  gtk_widget_add_css_class (self->entry.reading, "caption");
  gtk_label_set_wrap (GTK_LABEL (self->entry.reading), TRUE);
  gtk_label_set_max_width_chars (GTK_LABEL (self->entry.reading), 26);
  gtk_label_set_max_width_chars (GTK_LABEL (self->entry.caption), 30);
  gtk_label_set_ellipsize (GTK_LABEL (self->entry.caption), PANGO_ELLIPSIZE_END);
  gtk_editable_set_width_chars (GTK_EDITABLE (self->entry.text), 11);
  gtk_editable_set_max_width_chars (GTK_EDITABLE (self->entry.text), 11);
  dry_plain_entry_set_up (self->entry.text);
  g_object_set (self->entry.text, "truncate-multiline", TRUE, NULL);
  gtk_box_append (GTK_BOX (box), self->entry.caption);
  gtk_box_append (GTK_BOX (box), self->entry.text);
  gtk_box_append (GTK_BOX (box), self->entry.reading);
  gtk_widget_set_visible (box, FALSE);
  gtk_widget_set_parent (box, GTK_WIDGET (self));
  g_signal_connect_swapped (self->entry.text, "changed", G_CALLBACK (show_reading), self);
  self->entry.box = box;
}

/* Begins with the nearest neighbor, or where it was left for the same thing. */
static DryNeighbourSide
choose_side (DryCanvas *self, const DryMeasured *measured)
{
  gint best = -1;

  if (self->entry.object == measured->object && self->entry.stud == measured->stud &&
      measured->sides[self->entry.side].known)
    return self->entry.side;
  for (gint i = 0; i < 4; i++) {
    DryLength distance = measured->sides[i].distance;

    if (measured->sides[i].known && distance >= 0 &&
        (best < 0 || distance < measured->sides[best].distance))
      best = i;
  }
  for (gint i = 0; i < 4 && best < 0; i++)
    if (measured->sides[i].known)
      best = i;
  return (DryNeighbourSide) MAX (best, 0);
}

static gboolean
open_entry (DryCanvas *self, gunichar letter)
{
  DryMeasured measured;
  char first[8] = "";

  if (!dry_canvas_measure_object (self, &measured))
    return FALSE;
  if (self->entry.box == NULL)
    build_entry (self);
  self->entry.side = choose_side (self, &measured);
  self->entry.object = measured.object;
  self->entry.stud = measured.stud;
  if (letter != 0)
    g_unichar_to_utf8 (letter, first);
  gtk_widget_remove_css_class (self->entry.text, "error");
  gtk_editable_set_text (GTK_EDITABLE (self->entry.text), first);
  gtk_widget_set_visible (self->entry.box, TRUE);
  show_side (self);
  show_reading (self);
  gtk_entry_grab_focus_without_selecting (GTK_ENTRY (self->entry.text));
  gtk_editable_set_position (GTK_EDITABLE (self->entry.text), -1);
  return TRUE;
}

void
dry_entry_close (DryCanvas *self)
{
  if (!dry_entry_is_open (self))
    return;
  gtk_widget_set_visible (self->entry.box, FALSE);
  if (self->hand.kind == DRY_HAND_EMPTY)
    dry_canvas_focus_object (self, dry_session_get_selection (self->session));
  else
    gtk_widget_grab_focus (GTK_WIDGET (self));
  dry_canvas_redraw (self);
}

/* --- keys --- */

static void
cycle_side (DryCanvas *self, gint step)
{
  static const DryNeighbourSide order[4] = {DRY_TOWARD_SIDE_LEFT, DRY_TOWARD_SIDE_RIGHT,
                                            DRY_TOWARD_SIDE_DOWN, DRY_TOWARD_SIDE_UP};
  DryMeasured measured;

  if (!dry_canvas_measure_object (self, &measured))
    return;
  for (gint i = 0; i < 4; i++) {
    if (order[i] != self->entry.side)
      continue;
    for (gint k = 1; k <= 4; k++) {
      DryNeighbourSide next = order[(i + step * k + 8) % 4];

      if (!measured.sides[next].known)
        continue;
      self->entry.side = next;
      show_side (self);
      return;
    }
  }
}

/* In hand: the thing is put down there. Else it is a step of its own. */
static void
commit_entry (DryCanvas *self)
{
  g_autoptr (GError) error = NULL;
  DryMeasured measured;
  DryLength length;
  DryProject *next;

  if (!read_entry (self, &length, &error)) {
    complain (self, error->message);
    return;
  }
  if (!dry_canvas_measure_object (self, &measured)) {
    dry_entry_close (self);
    return;
  }
  next = dry_canvas_set_distance (self, &measured, self->entry.side, length, &error);
  if (next == NULL) {
    complain (self, error->message);
    return;
  }
  if (self->hand.kind != DRY_HAND_EMPTY) {
    dry_session_preview (self->session, next);
    self->hand.changed = TRUE;
    dry_hand_put_down (self);
  } else {
    g_autofree char *name = dry_object_name (self->session, measured.object);
    g_autofree char *step = measured.kind == DRY_HAND_STUD ? g_strdup (_ ("Move stud"))
                            : measured.kind == DRY_HAND_WALL
                                ? g_strdup_printf (_ ("Set length of %s"), name)
                                : g_strdup_printf (_ ("Move %s"), name);

    dry_session_apply (self->session, next, step, NULL, NULL);
  }
  dry_entry_close (self);
}

static gboolean
is_movable (DryCanvas *self)
{
  switch (self->hand.kind) {
  case DRY_HAND_EMPTY:
    return dry_session_get_selection (self->session) != 0;
  case DRY_HAND_PART:
  case DRY_HAND_OPENING:
  case DRY_HAND_BASIN:
  case DRY_HAND_STUD:
    return TRUE;
  default:
    return FALSE;
  }
}

void
dry_canvas_begin_distance (DryCanvas *self)
{
  if (!dry_entry_is_open (self) && is_movable (self))
    open_entry (self, 0);
}

gboolean
dry_entry_key (DryCanvas *self, guint key, GdkModifierType state)
{
  gunichar letter = gdk_keyval_to_unicode (key);

  if (!dry_entry_is_open (self)) {
    if (!g_unichar_isdigit (letter) || !is_movable (self))
      return FALSE;
    return open_entry (self, letter);
  }
  switch (key) {
  case GDK_KEY_Escape:
    dry_entry_close (self);
    return TRUE;
  case GDK_KEY_Return:
  case GDK_KEY_KP_Enter:
  case GDK_KEY_ISO_Enter:
    commit_entry (self);
    return TRUE;
  case GDK_KEY_Tab:
    cycle_side (self, 1);
    return TRUE;
  case GDK_KEY_ISO_Left_Tab:
    cycle_side (self, -1);
    return TRUE;
  default:
    return FALSE;
  }
}

/* --- on the board --- */

/* Beside the line it sets, never over the thing itself when there is room elsewhere. */
void
dry_entry_allocate (DryCanvas *self)
{
  int width, height, limit_x, limit_y;
  DryMeasured measured;
  double x = self->pointer_x, y = self->pointer_y + 40;

  if (!dry_entry_is_open (self))
    return;
  gtk_widget_measure (self->entry.box, GTK_ORIENTATION_HORIZONTAL, -1, NULL, &width, NULL, NULL);
  gtk_widget_measure (self->entry.box, GTK_ORIENTATION_VERTICAL, width, NULL, &height, NULL, NULL);
  if (dry_canvas_measure_object (self, &measured) && measured.sides[self->entry.side].shown) {
    DrySpot from = dry_mark_spot (self, measured.sides[self->entry.side].from);
    DrySpot to = dry_mark_spot (self, measured.sides[self->entry.side].to);

    x = (from.x + to.x) / 2;
    y = (from.y + to.y) / 2;
    if (self->entry.side == DRY_TOWARD_SIDE_LEFT || self->entry.side == DRY_TOWARD_SIDE_RIGHT)
      y += height / 2.0 + 24;
    else
      x += width / 2.0 + 24;
  }
  limit_x = gtk_widget_get_width (GTK_WIDGET (self)) - width - 14;
  limit_y = gtk_widget_get_height (GTK_WIDGET (self)) - height - 14;
  x = CLAMP (x - width / 2.0, 14, MAX (limit_x, 14));
  y = CLAMP (y - height / 2.0, 14, MAX (limit_y, 14));
  self->entry.area =
      GRAPHENE_RECT_INIT ((float) x - 8, (float) y - 6, (float) width + 16, (float) height + 12);
  gtk_widget_allocate (self->entry.box, width, height, -1,
                       gsk_transform_translate (NULL, &GRAPHENE_POINT_INIT ((float) x, (float) y)));
}

void
dry_entry_snapshot (DryCanvas *self, GtkSnapshot *snapshot)
{
  const DryStyle *style = dry_screen_style ();
  GdkRGBA ground = dry_mark_colour (style->inks[DRY_INK_PAPER], 1);
  GdkRGBA edge = dry_mark_accent (self, 1);
  GskRoundedRect box;

  if (!dry_entry_is_open (self))
    return;
  gsk_rounded_rect_init_from_rect (&box, &self->entry.area, 9);
  gtk_snapshot_append_outset_shadow (snapshot, &box, &(GdkRGBA){0, 0, 0, 0.25f}, 0, 2, 0, 6);
  gtk_snapshot_push_rounded_clip (snapshot, &box);
  gtk_snapshot_append_color (snapshot, &ground, &box.bounds);
  gtk_snapshot_pop (snapshot);
  gtk_snapshot_append_border (snapshot, &box, (float[]){1, 1, 1, 1},
                              (GdkRGBA[]){edge, edge, edge, edge});
  gtk_widget_snapshot_child (GTK_WIDGET (self), self->entry.box, snapshot);
}
