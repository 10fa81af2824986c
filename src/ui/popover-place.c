/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Closes a popover when what it hangs on scrolls or slides out of sight, and lets panels wait with
 * what would push it away. Knows popovers and what scrolls and slides, nothing of what they show.
 */
#define G_LOG_DOMAIN "drybay-ui"

#include "ui/popover-place.h"

#include "ui/hooks.h"
#include "ui/sight.h"

static GQueue open_popovers = G_QUEUE_INIT; /* mapped now; borrowed */

static gboolean
close_now (gpointer data)
{
  GtkWidget *popover = data;

  gtk_popover_popdown (GTK_POPOVER (popover));
  return G_SOURCE_REMOVE;
}

/* Before the next layout, which comes at the priority of drawing. */
static void
close_soon (GtkWidget *popover)
{
  g_idle_add_full (G_PRIORITY_DEFAULT, close_now, g_object_ref (popover), g_object_unref);
}

static void
on_scrolled (GtkAdjustment *adjustment, GtkWidget *popover)
{
  GtkWidget *hook = gtk_widget_get_parent (popover), *scrolled = hook;

  if (hook == NULL || !gtk_widget_get_mapped (popover))
    return;
  while ((scrolled = gtk_widget_get_ancestor (scrolled, GTK_TYPE_SCROLLED_WINDOW)) != NULL &&
         gtk_scrolled_window_get_vadjustment (GTK_SCROLLED_WINDOW (scrolled)) != adjustment &&
         gtk_scrolled_window_get_hadjustment (GTK_SCROLLED_WINDOW (scrolled)) != adjustment)
    scrolled = gtk_widget_get_parent (scrolled);
  if (scrolled == NULL || dry_sight_is_in_page (hook, scrolled, adjustment))
    return;
  /* What scrolls by itself is laid out in the same frame, and what hangs on it: out of sight, for
   * which GDK 4.8 has no monitor. Not even its surface may stay until then. */
  gtk_popover_popdown (GTK_POPOVER (popover));
}

static void
on_slid (GtkRevealer *revealer, G_GNUC_UNUSED GParamSpec *spec, GtkWidget *popover)
{
  if (!gtk_revealer_get_reveal_child (revealer) && gtk_widget_get_mapped (popover))
    close_soon (popover);
}

static void
watch (gpointer instance, const char *signal, GCallback handler, GtkWidget *popover)
{
  if (g_signal_handler_find (instance, G_SIGNAL_MATCH_FUNC | G_SIGNAL_MATCH_DATA, 0, 0, NULL,
                             (gpointer) handler, popover) == 0)
    g_signal_connect_object (instance, signal, handler, popover, 0);
}

/* What surrounds the contents of the popover: its shadow and its arrow. */
static gint
measure_frame (GtkWidget *popover, GtkOrientation orientation)
{
  gint whole, contents;

  gtk_widget_measure (popover, orientation, -1, &whole, NULL, NULL, NULL);
  gtk_widget_measure (gtk_widget_get_first_child (popover), orientation, -1, &contents, NULL, NULL,
                      NULL);
  return whole - contents;
}

static gboolean
has_room (GtkWidget *popover, GdkSurface *surface)
{
  return gdk_surface_get_width (surface) >= measure_frame (popover, GTK_ORIENTATION_HORIZONTAL) &&
         gdk_surface_get_height (surface) >= measure_frame (popover, GTK_ORIENTATION_VERTICAL);
}

static gboolean
close_unlaid (gpointer data)
{
  GdkSurface *surface = data;
  GtkWidget *popover = GTK_WIDGET (gtk_native_get_for_surface (surface));

  if (popover == NULL)
    return G_SOURCE_REMOVE;
  g_signal_handlers_unblock_matched (surface, G_SIGNAL_MATCH_DATA, 0, 0, NULL, NULL, popover);
  gtk_popover_popdown (GTK_POPOVER (popover));
  return G_SOURCE_REMOVE;
}

/* GDK 4.8 makes the surface as small as a pixel when what the popover hangs on leaves no room on
 * the screen beside it, and GTK would lay it out just after this with less than nothing for its
 * contents. It is neither laid out nor painted any more, and closed. */
static void
on_resized (GdkSurface *surface, G_GNUC_UNUSED GParamSpec *spec, GtkWidget *popover)
{
  if (!gtk_widget_get_visible (popover) || has_room (popover, surface))
    return;
  g_signal_handlers_block_matched (surface, G_SIGNAL_MATCH_DATA, 0, 0, NULL, NULL, popover);
  g_idle_add_full (G_PRIORITY_DEFAULT, close_unlaid, g_object_ref (surface), g_object_unref);
}

gboolean
dry_popover_place_is_moving (GtkWidget *widget)
{
  if (GTK_IS_REVEALER (widget) && gtk_revealer_get_reveal_child (GTK_REVEALER (widget)) !=
                                      gtk_revealer_get_child_revealed (GTK_REVEALER (widget)))
    return TRUE;
  for (GtkWidget *child = gtk_widget_get_first_child (widget); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    if (gtk_widget_get_mapped (child) && dry_popover_place_is_moving (child))
      return TRUE;
  return FALSE;
}

static gboolean
on_map (G_GNUC_UNUSED GSignalInvocationHint *hint, G_GNUC_UNUSED guint n, const GValue *values,
        G_GNUC_UNUSED gpointer nothing)
{
  GtkWidget *popover = g_value_get_object (&values[0]);

  if (!GTK_IS_POPOVER (popover))
    return TRUE;
  g_queue_push_tail (&open_popovers, popover);
  watch (gtk_native_get_surface (GTK_NATIVE (popover)), "notify::height", G_CALLBACK (on_resized),
         popover);
  for (GtkWidget *at = gtk_widget_get_parent (popover); at != NULL; at = gtk_widget_get_parent (at))
    if (GTK_IS_SCROLLED_WINDOW (at)) {
      GtkScrolledWindow *scrolled = GTK_SCROLLED_WINDOW (at);

      watch (gtk_scrolled_window_get_vadjustment (scrolled), "value-changed",
             G_CALLBACK (on_scrolled), popover);
      watch (gtk_scrolled_window_get_hadjustment (scrolled), "value-changed",
             G_CALLBACK (on_scrolled), popover);
      if (dry_popover_place_is_moving (at))
        close_soon (popover);
    } else if (GTK_IS_REVEALER (at)) {
      watch (at, "notify::reveal-child", G_CALLBACK (on_slid), popover);
      if (!gtk_revealer_get_reveal_child (GTK_REVEALER (at)))
        close_soon (popover);
    }
  return TRUE;
}

/* What it hangs on was hidden under it: it cannot be seen any more, and still takes every key and
 * press of its window. */
static gboolean
on_unmap (G_GNUC_UNUSED GSignalInvocationHint *hint, G_GNUC_UNUSED guint n, const GValue *values,
          G_GNUC_UNUSED gpointer nothing)
{
  GtkWidget *widget = g_value_get_object (&values[0]);

  if (!GTK_IS_POPOVER (widget))
    return TRUE;
  g_queue_remove (&open_popovers, widget);
  if (gtk_widget_get_visible (widget))
    close_soon (widget);
  return TRUE;
}

static void
on_closed (GtkWidget *popover, GtkWidget *panel)
{
  DryLaterFunc then = g_object_get_data (G_OBJECT (panel), "drybay-waits");

  g_signal_handlers_disconnect_by_func (popover, (gpointer) on_closed, panel);
  dry_later_after_frame (panel, then);
}

gboolean
dry_popover_place_wait (GtkWidget *panel, DryLaterFunc then)
{
  for (GList *l = open_popovers.head; l != NULL; l = l->next)
    if (gtk_widget_is_ancestor (l->data, panel)) {
      g_object_set_data (G_OBJECT (panel), "drybay-waits", (gpointer) then);
      watch (l->data, "unmap", G_CALLBACK (on_closed), panel);
      return TRUE;
    }
  return FALSE;
}

void
dry_popover_place_install (void)
{
  static gsize installed = 0;

  if (g_once_init_enter (&installed)) {
    dry_hooks_add (GTK_TYPE_WIDGET, "map", on_map);
    dry_hooks_add (GTK_TYPE_WIDGET, "unmap", on_unmap);
    g_once_init_leave (&installed, 1);
  }
}
