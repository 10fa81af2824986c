/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Mends what the toolkit leaves behind when a menu, a window or what was dragged goes, or may not
 * come: presses that go to what nobody sees, windows and surfaces that are never let go. Knows not
 * what they show. */
#define G_LOG_DOMAIN "drybay-ui"

#include "ui/closing.h"

#include "ui/hooks.h"

/* --- popovers --- */

typedef guint (*ForMatched) (gpointer instance, GSignalMatchType mask, guint signal, GQuark detail,
                             GClosure *closure, gpointer function, gpointer data);

/* The toolkit's own handler of the surface's events is known by its data, the popover. */
static void
for_events_of (GtkWidget *popover, ForMatched act)
{
  GdkSurface *surface = gtk_native_get_surface (GTK_NATIVE (popover));

  if (surface != NULL)
    act (surface, G_SIGNAL_MATCH_ID | G_SIGNAL_MATCH_DATA,
         g_signal_lookup ("event", GDK_TYPE_SURFACE), 0, NULL, NULL, popover);
}

static void
hear (GtkWidget *popover)
{
  g_signal_handlers_disconnect_by_func (popover, (gpointer) hear, NULL);
  for_events_of (popover, g_signal_handlers_unblock_matched);
}

/* Away from a popover that closes, to where it came from. */
static void
hand_focus_back (GtkWidget *popover)
{
  GtkRoot *root = gtk_widget_get_root (popover);
  GtkWidget *focus = root != NULL ? gtk_root_get_focus (root) : NULL;

  if (focus == NULL || (focus != popover && !gtk_widget_is_ancestor (focus, popover)))
    return;
  for (GtkWidget *to = gtk_widget_get_parent (popover); to != NULL; to = gtk_widget_get_parent (to))
    if (gtk_widget_get_visible (to) && gtk_widget_grab_focus (to))
      return;
  gtk_root_set_focus (root, NULL); /* it then looks for the first that can after painting */
}

static gboolean
silence (G_GNUC_UNUSED GSignalInvocationHint *hint, G_GNUC_UNUSED guint n, const GValue *values,
         G_GNUC_UNUSED gpointer nothing)
{
  GtkWidget *popover = g_value_get_object (&values[0]);

  if (!gtk_widget_get_visible (popover))
    hand_focus_back (popover);

  /* Closing may be told while something has shown it anew already, or twice. */
  if (gtk_widget_get_mapped (popover) ||
      g_signal_handler_find (popover, G_SIGNAL_MATCH_FUNC, 0, 0, NULL, (gpointer) hear, NULL) != 0)
    return TRUE;
  for_events_of (popover, g_signal_handlers_block_matched);
  /* A surface made anew has a handler of its own, which is not blocked. */
  g_signal_connect (popover, "map", G_CALLBACK (hear), NULL);
  g_signal_connect (popover, "unrealize", G_CALLBACK (hear), NULL);
  return TRUE;
}

/* --- the focus --- */

static gboolean
is_of_closing_popover (GtkWidget *widget)
{
  GtkWidget *popover = gtk_widget_get_ancestor (widget, GTK_TYPE_POPOVER);

  return popover != NULL && !gtk_widget_get_visible (popover);
}

/* GTK 4.8 remembers what to move the focus away from when it has painted, and forgets to let go of
 * that when it is told so twice before: a panel that hides, then a row in it that is taken away.
 * The panel and all in it was left for good. Without a focus it is told once, and moves it as it
 * would have. */
static gboolean
lose_focus (G_GNUC_UNUSED GSignalInvocationHint *hint, G_GNUC_UNUSED guint n, const GValue *values,
            G_GNUC_UNUSED gpointer nothing)
{
  GtkWidget *unmapped = g_value_get_object (&values[0]);
  GtkRoot *root = gtk_widget_get_root (unmapped);

  /* A window that hides keeps its focus for when it is shown again. */
  if (root != NULL && gtk_root_get_focus (root) == unmapped &&
      gtk_widget_get_mapped (GTK_WIDGET (root)) && !is_of_closing_popover (unmapped))
    gtk_root_set_focus (root, NULL);
  return TRUE;
}

/* --- presses and drops --- */

static gboolean
end_gesture (gpointer gesture)
{
  GtkWidget *widget = gtk_event_controller_get_widget (gesture);

  /* One whose widget has gone keeps nothing any more, and would still tell the widget. The press
   * may be all that keeps the widget, which must not go while its gesture lets go of it. */
  if (widget != NULL) {
    g_object_ref (widget);
    gtk_event_controller_reset (gesture);
    g_object_unref (widget);
  }
  return G_SOURCE_REMOVE;
}

/* One that has seen a press holds what was pressed, be it recognised or not: its own widget,
 * mostly, which then holds itself. A pointer's press has no sequence. */
static gboolean
holds_press (GObject *controller)
{
  g_autoptr (GList) touches = NULL;

  if (!GTK_IS_GESTURE (controller))
    return FALSE;
  touches = gtk_gesture_get_sequences (GTK_GESTURE (controller));
  return touches != NULL || gtk_gesture_get_last_event (GTK_GESTURE (controller), NULL) != NULL;
}

static void
let_go_of_input (GtkWidget *widget)
{
  g_autoptr (GListModel) controllers = gtk_widget_observe_controllers (widget);
  g_autoptr (GObject) controller = NULL;

  for (guint i = 0; (controller = g_list_model_get_item (controllers, i)) != NULL; i++) {
    /* A target of GTK 4.8 holds what was dropped into its window last, and with it where that came
     * from, until the next; it does not let go of it when it goes. */
    if (GTK_IS_DROP_TARGET (controller))
      gtk_drop_target_reject (GTK_DROP_TARGET (controller));
    /* Later, since the widget may be going because of it. */
    if (holds_press (controller))
      g_idle_add_full (G_PRIORITY_DEFAULT, end_gesture, g_object_ref (controller), g_object_unref);
    g_clear_object (&controller);
  }
}

/* Counts that are put right by hand are known to be wrong in this version only. */
static gboolean
is_gtk_48 (void)
{
  return gtk_get_major_version () == 4 && gtk_get_minor_version () == 8;
}

/* --- sections of menus --- */

static void
unref_sections (GMenuModel *menu)
{
  for (int i = 0; i < g_menu_model_get_n_items (menu); i++) {
    g_autoptr (GMenuModel) section = g_menu_model_get_item_link (menu, i, G_MENU_LINK_SECTION);
    g_autoptr (GMenuModel) submenu = g_menu_model_get_item_link (menu, i, G_MENU_LINK_SUBMENU);

    if (section != NULL) {
      unref_sections (section);
      g_object_unref (section);
    }
    if (submenu != NULL)
      unref_sections (submenu);
  }
}

/* A popover takes hold of each section of its menu once too often when it is given it, and does not
 * let go (gtk_menu_tracker_add_items() of GTK 4.8). One let go for it when it is first shown puts
 * that right; sections that come later than that are none of ours. */
static gboolean
let_go_of_sections (G_GNUC_UNUSED GSignalInvocationHint *hint, G_GNUC_UNUSED guint n,
                    const GValue *values, G_GNUC_UNUSED gpointer nothing)
{
  GtkWidget *widget = g_value_get_object (&values[0]);
  GMenuModel *menu = GTK_IS_POPOVER_MENU (widget)
                         ? gtk_popover_menu_get_menu_model (GTK_POPOVER_MENU (widget))
                         : NULL;

  if (menu != NULL && g_object_get_data (G_OBJECT (widget), "let-go-of") != menu) {
    g_object_set_data (G_OBJECT (widget), "let-go-of", menu);
    unref_sections (menu);
  }
  return TRUE;
}

/* --- surfaces --- */

static gboolean
is_of_gtk_48 (GdkSurface *surface, const char *type)
{
  return is_gtk_48 () && surface != NULL && g_str_equal (G_OBJECT_TYPE_NAME (surface), type);
}

/* A renderer of GTK 4.8 takes hold of its surface when it is realized and does not let go of it.
 * Windows and popovers let go once too often themselves, in turn; the picture under the pointer
 * does not, and its surface was left for good. The renderer goes right after this, once told. */
static void
let_go_of_dragged (GtkNative *dragged)
{
  GdkSurface *surface = gtk_native_get_surface (dragged);

  if (is_of_gtk_48 (surface, "GdkX11DragSurface") && gtk_native_get_renderer (dragged) != NULL)
    g_idle_add_once (g_object_unref, surface);
}

/* What is finalized right after this still looks at its parent. */
static void
let_go_of_parent (gpointer parent, G_GNUC_UNUSED GObject *popup)
{
  g_idle_add_once (g_object_unref, parent);
}

/* A popover's surface takes hold of its window's and does not let go of it: whatever that holds,
 * what was last dragged to it among it, was left for good. */
static void
let_go_of_popup (GtkNative *popup)
{
  GdkSurface *surface = gtk_native_get_surface (popup);

  if (is_of_gtk_48 (surface, "GdkX11Popup"))
    g_object_weak_ref (G_OBJECT (surface), let_go_of_parent,
                       gdk_popup_get_parent (GDK_POPUP (surface)));
}

/* --- popovers that were refused --- */

/* The property of a popup of Wayland, which can be told when it is made only and is read anew each
 * time it comes. */
#define AUTOHIDE_OF_GTK_48 2

static void
set_autohide (GdkSurface *popup, gboolean autohide)
{
  g_auto (GValue) value = G_VALUE_INIT;

  g_value_init (&value, G_TYPE_BOOLEAN);
  g_value_set_boolean (&value, autohide);
  G_OBJECT_GET_CLASS (popup)->set_property (
      G_OBJECT (popup), AUTOHIDE_OF_GTK_48, &value,
      g_object_class_find_property (G_OBJECT_GET_CLASS (popup), "autohide"));
}

/* GDK takes the pointer for a popup before the compositor has let it come, and gives it back only
 * with one that came: each press anywhere in the program would go to what nobody sees, for good.
 * Without asking for the pointer it may come; it is gone again before it is painted. */
static void
give_pointer_back (GtkWidget *popover)
{
  GdkSurface *popup = gtk_native_get_surface (GTK_NATIVE (popover));
  const GdkRectangle corner = {0, 0, 1, 1};
  GdkPopupLayout *layout;

  if (!is_of_gtk_48 (popup, "GdkWaylandPopup") || !gdk_popup_get_autohide (GDK_POPUP (popup)))
    return;
  layout = gdk_popup_layout_new (&corner, GDK_GRAVITY_NORTH_WEST, GDK_GRAVITY_NORTH_WEST);
  set_autohide (popup, FALSE);
  if (gdk_popup_present (GDK_POPUP (popup), 1, 1, layout))
    gdk_surface_hide (popup);
  set_autohide (popup, TRUE);
  gdk_popup_layout_unref (layout);
}

static gboolean
close_refused (gpointer popover)
{
  if (!gtk_widget_get_mapped (popover))
    gtk_popover_popdown (popover);
  return G_SOURCE_REMOVE;
}

/* On Wayland one may be refused the pointer, for another popover of the same window or for how long
 * ago it was asked for. It is not mapped and stays counted as shown: asked for again, nothing came.
 */
static gboolean
end_refused (G_GNUC_UNUSED GSignalInvocationHint *hint, G_GNUC_UNUSED guint n, const GValue *values,
             G_GNUC_UNUSED gpointer nothing)
{
  GtkWidget *popover = g_value_get_object (&values[0]);
  GtkWidget *hook = GTK_IS_POPOVER (popover) ? gtk_widget_get_parent (popover) : NULL;

  if (hook == NULL || !gtk_widget_get_mapped (hook) || !gtk_widget_get_visible (popover) ||
      gtk_widget_get_mapped (popover))
    return TRUE;
  give_pointer_back (popover);
  g_idle_add_full (G_PRIORITY_DEFAULT, close_refused, g_object_ref (popover), g_object_unref);
  return TRUE;
}

/* --- scrolled windows --- */

/* A scrolled window of GTK 4.8 listens to the settings from when it is realized, and on the way out
 * takes leave by the name of another function: what listens stayed for good, for what is freed. */
static void
take_leave_of_settings (GtkWidget *scrolled)
{
  g_signal_handlers_disconnect_matched (
      gtk_widget_get_settings (scrolled),
      G_SIGNAL_MATCH_ID | G_SIGNAL_MATCH_DETAIL | G_SIGNAL_MATCH_DATA,
      g_signal_lookup ("notify", GTK_TYPE_SETTINGS),
      g_quark_from_static_string ("gtk-overlay-scrolling"), NULL, NULL, scrolled);
}

/* --- all of these --- */

static gboolean
let_go (G_GNUC_UNUSED GSignalInvocationHint *hint, G_GNUC_UNUSED guint n, const GValue *values,
        G_GNUC_UNUSED gpointer nothing)
{
  GtkWidget *widget = g_value_get_object (&values[0]);

  let_go_of_input (widget);
  if (GTK_IS_SCROLLED_WINDOW (widget))
    take_leave_of_settings (widget);
  if (GTK_IS_DRAG_ICON (widget))
    let_go_of_dragged (GTK_NATIVE (widget));
  else if (GTK_IS_NATIVE (widget))
    let_go_of_popup (GTK_NATIVE (widget));
  return TRUE;
}

void
dry_closing_install (void)
{
  static gsize installed = 0;

  if (g_once_init_enter (&installed)) {
    dry_hooks_add (GTK_TYPE_POPOVER, "closed", silence);
    dry_hooks_add (GTK_TYPE_WIDGET, "show", end_refused);
    if (is_gtk_48 ())
      dry_hooks_add (GTK_TYPE_WIDGET, "map", let_go_of_sections);
    dry_hooks_add (GTK_TYPE_WIDGET, "unmap", lose_focus);
    dry_hooks_add (GTK_TYPE_WIDGET, "unrealize", let_go);
    g_once_init_leave (&installed, 1);
  }
}
