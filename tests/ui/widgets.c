/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Walks widgets from the first child on, as the accessible tree does.
 * Nothing here fails quietly: what is not found is the test's failure. */
#include "widgets.h"

guint
dry_test_collect (GtkWidget *root, DryTestFits fits, gconstpointer what, GtkWidget **first)
{
  guint n = 0;

  if (fits (root, what)) {
    n = 1;
    if (first != NULL && *first == NULL)
      *first = root;
  }
  for (GtkWidget *child = gtk_widget_get_first_child (root); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    n += dry_test_collect (child, fits, what, first);
  return n;
}

GtkWidget *
dry_test_find (GtkWidget *root, DryTestFits fits, gconstpointer what)
{
  GtkWidget *found = NULL;

  dry_test_collect (root, fits, what, &found);
  return found;
}

gboolean
dry_test_is_type (GtkWidget *widget, gconstpointer what)
{
  return G_TYPE_CHECK_INSTANCE_TYPE (widget, *(const GType *) what);
}

GtkWidget *
dry_test_require (GtkWidget *root, GType type)
{
  GtkWidget *found = dry_test_find (root, dry_test_is_type, &type);

  if (found == NULL)
    g_error ("There is no %s", g_type_name (type));
  return found;
}

GtkWidget *
dry_test_find_toplevel (const char *type, guint *n)
{
  GListModel *windows = gtk_window_get_toplevels ();
  GtkWidget *found = NULL;
  guint many = 0;

  for (guint i = 0; i < g_list_model_get_n_items (windows); i++) {
    g_autoptr (GtkWidget) window = g_list_model_get_item (windows, i);

    if (g_str_equal (G_OBJECT_TYPE_NAME (window), type)) {
      found = window;
      many++;
    }
  }
  if (n != NULL)
    *n = many;
  return found;
}

GtkEventController *
dry_test_controller (GtkWidget *widget, GType type)
{
  g_autoptr (GListModel) controllers = gtk_widget_observe_controllers (widget);

  for (guint i = 0; i < g_list_model_get_n_items (controllers); i++) {
    g_autoptr (GtkEventController) controller = g_list_model_get_item (controllers, i);

    if (G_TYPE_CHECK_INSTANCE_TYPE (controller, type))
      return controller; /* the widget holds it */
  }
  g_error ("%s has no %s", G_OBJECT_TYPE_NAME (widget), g_type_name (type));
}

void
dry_test_assert_no_emoji (GtkWidget *root)
{
  GtkWidget *text = dry_test_require (root, GTK_TYPE_TEXT);

  gtk_widget_activate_action (text, "misc.insert-emoji", NULL);
  g_assert_null (g_object_get_data (G_OBJECT (text), "gtk-emoji-chooser"));
}

gboolean
dry_test_give_up (gpointer what)
{
  g_error ("Waited 30 s for: %s", (const char *) what);
  return G_SOURCE_REMOVE;
}

static gboolean
ring (gpointer data)
{
  *(gboolean *) data = TRUE;
  return G_SOURCE_REMOVE;
}

static void
painted (GdkFrameClock *clock, gpointer data)
{
  *(gboolean *) data = TRUE;
}

/* A frame of each window that is seen, and what waits for it. */
static void
let_paint (void)
{
  g_autoptr (GListModel) windows = g_object_ref (gtk_window_get_toplevels ());

  for (guint i = 0; i < g_list_model_get_n_items (windows); i++) {
    g_autoptr (GtkWidget) window = g_list_model_get_item (windows, i);
    g_autoptr (GdkFrameClock) clock = NULL;
    gboolean done = FALSE, late = FALSE;
    guint limit;
    gulong handler;

    if (!gtk_widget_get_mapped (window))
      continue;
    clock = g_object_ref (gtk_widget_get_frame_clock (window));
    handler = g_signal_connect (clock, "after-paint", G_CALLBACK (painted), &done);
    gdk_frame_clock_request_phase (clock, GDK_FRAME_CLOCK_PHASE_AFTER_PAINT);
    limit = g_timeout_add (5000, ring, &late);
    while (!done && !late && gtk_widget_get_mapped (window))
      g_main_context_iteration (NULL, TRUE);
    if (!late)
      g_source_remove (limit);
    g_clear_signal_handler (&handler, clock);
  }
  for (int i = 0; i < 50 && g_main_context_pending (NULL); i++)
    g_main_context_iteration (NULL, FALSE);
}

void
dry_test_settle (void)
{
  gboolean rung = FALSE;

  let_paint ();
  g_timeout_add (120, ring, &rung);
  while (!rung)
    g_main_context_iteration (NULL, TRUE);
  let_paint (); /* where others have the processor, all of that time may pass without one */
}
