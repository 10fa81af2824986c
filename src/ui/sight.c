/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Looks up where a thing is in the content that scrolls, whose own places do not change by
 * scrolling. Knows nothing of popovers and panels. */
#include "ui/sight.h"

#include "ui/hooks.h"

static gboolean
find_place (GtkWidget *widget, GtkWidget *scrolled, GtkAdjustment *adjustment, double *from,
            double *to)
{
  GtkWidget *view = gtk_scrolled_window_get_child (GTK_SCROLLED_WINDOW (scrolled));
  GtkWidget *content = GTK_IS_VIEWPORT (view) ? gtk_viewport_get_child (GTK_VIEWPORT (view)) : NULL;
  graphene_rect_t place;

  if (content == NULL || !gtk_widget_compute_bounds (widget, content, &place))
    return FALSE;
  if (adjustment == gtk_scrolled_window_get_vadjustment (GTK_SCROLLED_WINDOW (scrolled))) {
    *from = place.origin.y;
    *to = place.origin.y + place.size.height;
  } else {
    *from = place.origin.x;
    *to = place.origin.x + place.size.width;
  }
  return TRUE;
}

static gboolean
is_seen (GtkAdjustment *adjustment, double from, double to)
{
  double page = gtk_adjustment_get_value (adjustment);

  return to > page && from < page + gtk_adjustment_get_page_size (adjustment);
}

gboolean
dry_sight_is_in_page (GtkWidget *widget, GtkWidget *scrolled, GtkAdjustment *adjustment)
{
  double from, to;

  return find_place (widget, scrolled, adjustment, &from, &to) && is_seen (adjustment, from, to);
}

/* What still rolls on would roll over the place gone to. */
static void
stop_rolling (GtkScrolledWindow *scrolled)
{
  if (gtk_scrolled_window_get_kinetic_scrolling (scrolled)) {
    gtk_scrolled_window_set_kinetic_scrolling (scrolled, FALSE);
    gtk_scrolled_window_set_kinetic_scrolling (scrolled, TRUE);
  }
}

static gboolean
bring_along (GtkWidget *widget, GtkWidget *scrolled, GtkAdjustment *adjustment)
{
  double from, to;

  if (!find_place (widget, scrolled, adjustment, &from, &to) || is_seen (adjustment, from, to))
    return FALSE;
  stop_rolling (GTK_SCROLLED_WINDOW (scrolled));
  gtk_adjustment_clamp_page (adjustment, from, to);
  return TRUE;
}

gboolean
dry_sight_bring (GtkWidget *widget)
{
  gboolean brought = FALSE;

  for (GtkWidget *at = widget; at != NULL && !GTK_IS_NATIVE (at); at = gtk_widget_get_parent (at))
    if (GTK_IS_SCROLLED_WINDOW (at)) {
      GtkScrolledWindow *scrolled = GTK_SCROLLED_WINDOW (at);

      brought |= bring_along (widget, at, gtk_scrolled_window_get_vadjustment (scrolled));
      brought |= bring_along (widget, at, gtk_scrolled_window_get_hadjustment (scrolled));
    }
  return brought;
}

/* --- keys --- */

static gboolean
may_open_something (guint key, GdkModifierType state)
{
  switch (key) {
  case GDK_KEY_space:
  case GDK_KEY_KP_Space:
  case GDK_KEY_Return:
  case GDK_KEY_ISO_Enter:
  case GDK_KEY_KP_Enter:
  case GDK_KEY_Menu:
    return TRUE;
  case GDK_KEY_F10:
    return (state & GDK_SHIFT_MASK) != 0;
  case GDK_KEY_Up:
  case GDK_KEY_Down:
    return (state & GDK_ALT_MASK) != 0;
  default:
    return FALSE;
  }
}

/* A panel that was just closed, on its way out: there is no place for what hangs on things in it.
 */
static gboolean
slides_away (GtkWidget *widget)
{
  for (GtkWidget *at = widget; at != NULL && !GTK_IS_NATIVE (at); at = gtk_widget_get_parent (at))
    if (GTK_IS_REVEALER (at) && !gtk_revealer_get_reveal_child (GTK_REVEALER (at)))
      return TRUE;
  return FALSE;
}

static gboolean
on_key (G_GNUC_UNUSED GtkEventControllerKey *controller, guint key, G_GNUC_UNUSED guint code,
        GdkModifierType state, GtkWidget *window)
{
  GtkWidget *focus = gtk_window_get_focus (GTK_WINDOW (window));

  return focus != NULL && may_open_something (key, state) &&
         (slides_away (focus) || dry_sight_bring (focus));
}

static gboolean
on_map (G_GNUC_UNUSED GSignalInvocationHint *hint, G_GNUC_UNUSED guint n, const GValue *values,
        G_GNUC_UNUSED gpointer nothing)
{
  static const char *const HAS = "drybay-keys-bring-to-sight";
  GtkWidget *window = g_value_get_object (&values[0]);
  GtkEventController *keys;

  if (!GTK_IS_WINDOW (window) || g_object_get_data (G_OBJECT (window), HAS) != NULL)
    return TRUE;
  keys = gtk_event_controller_key_new ();
  gtk_event_controller_set_propagation_phase (keys, GTK_PHASE_CAPTURE);
  g_signal_connect (keys, "key-pressed", G_CALLBACK (on_key), window);
  gtk_widget_add_controller (window, keys);
  g_object_set_data (G_OBJECT (window), HAS, keys);
  return TRUE;
}

void
dry_sight_install (void)
{
  static gsize installed = 0;

  if (g_once_init_enter (&installed)) {
    dry_hooks_add (GTK_TYPE_WIDGET, "map", on_map);
    g_once_init_leave (&installed, 1);
  }
}
