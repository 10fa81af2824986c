/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Shows what a window has to tell, one toast after the other. Knows nothing of what they say. */
#define G_LOG_DOMAIN "drybay-ui"

#include "ui/toasts.h"

#define COMING 550 /* ms a toast takes to come at most, and some more */
#define GOING  400 /* ms a toast takes to go, and some more */

typedef struct {
  GtkWidget *place; /* owns this */
  GQueue waiting;
  AdwToast *shown; /* or going; NULL = there is none */
  guint coming;    /* a tick callback of the place */
  gint64 since;    /* frame time in microseconds */
  GArray *held;    /* libadwaita's handlers of its dismissal */
  gboolean asked;  /* to go, while it was coming */
  guint going;
} Toasts;

static void
toasts_free (gpointer data)
{
  Toasts *self = data;

  g_clear_handle_id (&self->going, g_source_remove);
  g_queue_clear_full (&self->waiting, g_object_unref);
  g_clear_object (&self->shown);
  g_array_unref (self->held);
  g_free (self);
}

static void show_next (Toasts *self);

static gboolean
on_gone (gpointer data)
{
  Toasts *self = data;

  self->going = 0;
  g_clear_object (&self->shown);
  show_next (self);
  return G_SOURCE_REMOVE;
}

static void
on_dismissed (AdwToast *toast, GtkWidget *place)
{
  Toasts *self = g_object_get_data (G_OBJECT (place), "drybay-toasts");

  if (self == NULL || self->shown != toast)
    return;
  if (self->coming != 0)
    self->asked = TRUE;
  else if (self->going == 0)
    /* After the frame in which it goes, however late that comes. */
    self->going = g_timeout_add_full (G_PRIORITY_LOW, GOING, on_gone, self, NULL);
}

static gboolean
on_frame (G_GNUC_UNUSED GtkWidget *place, GdkFrameClock *clock, gpointer data)
{
  Toasts *self = data;

  if (gdk_frame_clock_get_frame_time (clock) - self->since < COMING * G_GINT64_CONSTANT (1000))
    return G_SOURCE_CONTINUE;
  self->coming = 0;
  for (guint i = 0; i < self->held->len; i++)
    if (g_signal_handler_is_connected (self->shown, g_array_index (self->held, gulong, i)))
      g_signal_handler_unblock (self->shown, g_array_index (self->held, gulong, i));
  if (self->asked)
    adw_toast_dismiss (self->shown);
  return G_SOURCE_REMOVE;
}

/* libadwaita 1.2 frees what it knows of a toast when that has gone, and uses it once more when it
 * has come: one that is told to go in the frame in which it was shown, or while no frame is
 * painted, has come last. So it is told when it has come, by the frames that move it. */
static void
hold_while_coming (Toasts *self)
{
  GdkFrameClock *clock = gtk_widget_get_frame_clock (self->place);
  gulong id;

  self->asked = FALSE;
  if (clock == NULL)
    return; /* nothing moves where nothing is painted */
  self->since = gdk_frame_clock_get_frame_time (clock);
  g_array_set_size (self->held, 0);
  while ((id = g_signal_handler_find (self->shown, G_SIGNAL_MATCH_ID | G_SIGNAL_MATCH_UNBLOCKED,
                                      g_signal_lookup ("dismissed", ADW_TYPE_TOAST), 0, NULL, NULL,
                                      NULL)) != 0) {
    g_signal_handler_block (self->shown, id);
    g_array_append_val (self->held, id);
  }
  self->coming = gtk_widget_add_tick_callback (self->place, on_frame, self, NULL);
}

static void
show_next (Toasts *self)
{
  if (self->shown != NULL || g_queue_is_empty (&self->waiting))
    return;
  self->shown = g_queue_pop_head (&self->waiting);
  if (ADW_IS_PREFERENCES_WINDOW (self->place))
    adw_preferences_window_add_toast (ADW_PREFERENCES_WINDOW (self->place),
                                      g_object_ref (self->shown));
  else
    adw_toast_overlay_add_toast (ADW_TOAST_OVERLAY (self->place), g_object_ref (self->shown));
  hold_while_coming (self);
  g_signal_connect_object (self->shown, "dismissed", G_CALLBACK (on_dismissed), self->place, 0);
}

void
dry_toasts_show (GtkWidget *place, AdwToast *toast)
{
  Toasts *self = g_object_get_data (G_OBJECT (place), "drybay-toasts");

  if (self == NULL) {
    self = g_new0 (Toasts, 1);
    self->place = place;
    self->held = g_array_new (FALSE, FALSE, sizeof (gulong));
    g_queue_init (&self->waiting);
    g_object_set_data_full (G_OBJECT (place), "drybay-toasts", self, toasts_free);
  }
  if (adw_toast_get_priority (toast) == ADW_TOAST_PRIORITY_HIGH)
    g_queue_push_head (&self->waiting, toast);
  else
    g_queue_push_tail (&self->waiting, toast);
  show_next (self);
}

gboolean
dry_toasts_dismiss (GtkWidget *place, AdwToast *toast)
{
  Toasts *self = g_object_get_data (G_OBJECT (place), "drybay-toasts");

  adw_toast_dismiss (toast);
  return self == NULL || self->shown != toast || self->coming == 0;
}
