/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Waits for the worker and a few quiet frames, then renders the window's own paintable.
 * Changes nothing in the session. */
#include "ui/screenshot.h"

#include <stdlib.h>

#define QUIET_FRAMES 30 /* half a second: revealers and icons have settled */

typedef struct {
  DrySession *session;
  char *path;
  guint quiet;
} Shot;

static void
free_shot (gpointer data)
{
  Shot *shot = data;

  g_object_unref (shot->session);
  g_free (shot->path);
  g_free (shot);
}

/* What was last drawn; nothing may have been queued since, or there is nothing to show. */
static gboolean
write_picture (GtkWidget *widget, const char *path)
{
  g_autoptr (GdkPaintable) paintable = gtk_widget_paintable_new (widget);
  /* With the window's own edge, which its width is without: anything else would shrink it. */
  int width = gdk_paintable_get_intrinsic_width (paintable);
  int height = gdk_paintable_get_intrinsic_height (paintable);
  int scale = gtk_widget_get_scale_factor (widget);
  GtkSnapshot *snapshot = gtk_snapshot_new ();
  g_autoptr (GskRenderNode) node = NULL;
  g_autoptr (GdkTexture) texture = NULL;

  gtk_snapshot_scale (snapshot, (float) scale, (float) scale);
  gdk_paintable_snapshot (paintable, snapshot, width, height);
  node = gtk_snapshot_free_to_node (snapshot);
  if (node == NULL)
    return FALSE;
  texture = gsk_renderer_render_texture (
      gtk_native_get_renderer (gtk_widget_get_native (widget)), node,
      &GRAPHENE_RECT_INIT (0, 0, (float) (width * scale), (float) (height * scale)));
  return gdk_texture_save_to_png (texture, path);
}

static gboolean
on_tick (GtkWidget *widget, GdkFrameClock *clock, gpointer data)
{
  Shot *shot = data;

  shot->quiet = dry_session_is_busy (shot->session) ? 0 : shot->quiet + 1;
  if (shot->quiet < QUIET_FRAMES)
    return G_SOURCE_CONTINUE;
  if (!write_picture (widget, shot->path)) {
    g_printerr ("drybay: %s: cannot be written\n", shot->path);
    exit (EXIT_FAILURE);
  }
  gtk_window_destroy (GTK_WINDOW (widget));
  return G_SOURCE_REMOVE;
}

void
dry_screenshot_take (GtkWindow *window, DrySession *session, const char *path)
{
  Shot *shot = g_new0 (Shot, 1);

  shot->session = g_object_ref (session);
  shot->path = g_strdup (path);
  gtk_widget_add_tick_callback (GTK_WIDGET (window), on_tick, shot, free_shot);
}
