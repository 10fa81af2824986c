/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Waits for the widget to be mapped, for the frame clock to have painted, and then for the main
 * loop to be idle; or for a menu to be opened. Keeps no state besides what hangs on the widget. */
#define G_LOG_DOMAIN "drybay-ui"
#include "ui/later.h"

typedef struct {
  GtkWidget *widget;
  DryLaterFunc func;
  gulong mapped, painted;
  GdkFrameClock *clock;
} Later;

static void
free_later (gpointer data)
{
  Later *later = data;

  /* A surface that goes takes the handlers off its clock. */
  if (later->painted && g_signal_handler_is_connected (later->clock, later->painted))
    g_signal_handler_disconnect (later->clock, later->painted);
  g_clear_object (&later->clock);
  g_free (later);
}

static gboolean
call_cb (gpointer data)
{
  GtkWidget *widget = data;
  Later *later = g_object_get_data (G_OBJECT (widget), "later");
  DryLaterFunc func = later ? later->func : NULL;

  g_object_set_data (G_OBJECT (widget), "later", NULL);
  if (func && !gtk_widget_in_destruction (widget))
    func (widget);
  return G_SOURCE_REMOVE;
}

static void
painted_cb (GdkFrameClock *clock, Later *later)
{
  g_signal_handler_disconnect (clock, later->painted);
  later->painted = 0;
  g_idle_add_full (G_PRIORITY_HIGH_IDLE + 30, call_cb, g_object_ref (later->widget),
                   g_object_unref);
}

static void
await_paint (Later *later)
{
  later->clock = g_object_ref (gtk_widget_get_frame_clock (later->widget));
  later->painted = g_signal_connect (later->clock, "after-paint", G_CALLBACK (painted_cb), later);
  gdk_frame_clock_request_phase (later->clock, GDK_FRAME_CLOCK_PHASE_AFTER_PAINT);
}

static void
mapped_cb (GtkWidget *widget, Later *later)
{
  g_signal_handler_disconnect (widget, later->mapped);
  later->mapped = 0;
  await_paint (later);
}

void
dry_later_after_frame (GtkWidget *widget, DryLaterFunc func)
{
  Later *later = g_object_get_data (G_OBJECT (widget), "later");

  if (later) { /* asked for already; a function may be asked for once more from within itself */
    later->func = func;
    return;
  }
  later = g_new0 (Later, 1);
  later->widget = widget;
  later->func = func;
  g_object_set_data_full (G_OBJECT (widget), "later", later, free_later);
  if (gtk_widget_get_mapped (widget))
    await_paint (later);
  else
    later->mapped = g_signal_connect (widget, "map", G_CALLBACK (mapped_cb), later);
}

static void
open_menu_cb (GtkMenuButton *button, gpointer data)
{
  GMenuModel *model = g_object_get_data (G_OBJECT (button), "later-menu");

  if (gtk_menu_button_get_menu_model (button) != model)
    gtk_menu_button_set_menu_model (button, model);
}

void
dry_later_menu (GtkWidget *button, GMenuModel *model)
{
  g_object_set_data_full (G_OBJECT (button), "later-menu", g_object_ref (model), g_object_unref);
  /* A popover changed while its button opens it would close it again: one that is there is changed
   * now. */
  if (gtk_menu_button_get_menu_model (GTK_MENU_BUTTON (button)) != NULL)
    gtk_menu_button_set_menu_model (GTK_MENU_BUTTON (button), model);
  gtk_menu_button_set_create_popup_func (GTK_MENU_BUTTON (button), open_menu_cb, NULL, NULL);
}
