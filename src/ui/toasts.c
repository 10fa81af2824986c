/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Shows what a window has to tell, one toast after the other. Knows nothing of what they say. */
#define G_LOG_DOMAIN "drybay-ui"

#include "ui/toasts.h"

#define GOING 400 /* ms a toast takes to go, and some more */

typedef struct {
  GtkWidget *place; /* owns this */
  GQueue waiting;
  AdwToast *shown; /* or going; NULL = there is none */
  guint going;
} Toasts;

static void
toasts_free (gpointer data)
{
  Toasts *self = data;

  g_clear_handle_id (&self->going, g_source_remove);
  g_queue_clear_full (&self->waiting, g_object_unref);
  g_clear_object (&self->shown);
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

  if (self != NULL && self->shown == toast && self->going == 0)
    /* After the frame in which it goes, however late that comes. */
    self->going = g_timeout_add_full (G_PRIORITY_LOW, GOING, on_gone, self, NULL);
}

static void
show_next (Toasts *self)
{
  if (self->shown != NULL || g_queue_is_empty (&self->waiting))
    return;
  self->shown = g_queue_pop_head (&self->waiting);
  g_signal_connect_object (self->shown, "dismissed", G_CALLBACK (on_dismissed), self->place, 0);
  if (ADW_IS_PREFERENCES_WINDOW (self->place))
    adw_preferences_window_add_toast (ADW_PREFERENCES_WINDOW (self->place),
                                      g_object_ref (self->shown));
  else
    adw_toast_overlay_add_toast (ADW_TOAST_OVERLAY (self->place), g_object_ref (self->shown));
}

void
dry_toasts_show (GtkWidget *place, AdwToast *toast)
{
  Toasts *self = g_object_get_data (G_OBJECT (place), "drybay-toasts");

  if (self == NULL) {
    self = g_new0 (Toasts, 1);
    self->place = place;
    g_queue_init (&self->waiting);
    g_object_set_data_full (G_OBJECT (place), "drybay-toasts", self, toasts_free);
  }
  if (adw_toast_get_priority (toast) == ADW_TOAST_PRIORITY_HIGH)
    g_queue_push_head (&self->waiting, toast);
  else
    g_queue_push_tail (&self->waiting, toast);
  show_next (self);
}
