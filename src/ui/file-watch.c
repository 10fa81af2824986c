/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Two monitors, of the name and of the file behind a link, and one timer that they wind up again
 * and again. What a touch means is the owner's to find out. */
#include "ui/file-watch.h"

#include <glib/gstdio.h>
#include <stdlib.h>
#include <string.h>

typedef struct {
  gboolean exists;
  guint64 device, inode, size;
  gint64 seconds, nanoseconds;
} Look;

struct _DryFileWatch {
  char *path;
  DryFileTouched touched;
  gpointer data;
  GFileMonitor *monitors[2];
  guint timer;
  Look last;
};

static Look
take_look (const char *path)
{
  Look look = {0};
  GStatBuf now;

  if (g_stat (path, &now) != 0)
    return look;
  look.exists = TRUE;
  look.device = now.st_dev;
  look.inode = now.st_ino;
  look.size = (guint64) now.st_size;
  look.seconds = now.st_mtim.tv_sec;
  look.nanoseconds = now.st_mtim.tv_nsec;
  return look;
}

static gboolean
is_same_look (const Look *a, const Look *b)
{
  return a->exists == b->exists && a->device == b->device && a->inode == b->inode &&
         a->size == b->size && a->seconds == b->seconds && a->nanoseconds == b->nanoseconds;
}

static gboolean
on_quiet (gpointer data)
{
  DryFileWatch *self = data;

  self->timer = 0;
  self->last = take_look (self->path);
  self->touched (self->data);
  return G_SOURCE_REMOVE;
}

static void
on_event (GFileMonitor *monitor, GFile *file, GFile *other, GFileMonitorEvent event, gpointer data)
{
  DryFileWatch *self = data;

  if (self->timer != 0)
    g_source_remove (self->timer);
  self->timer = g_timeout_add (DRY_FILE_WATCH_QUIET, on_quiet, self);
}

static GFileMonitor *
start_monitor (DryFileWatch *self, const char *path)
{
  g_autoptr (GFile) file = g_file_new_for_path (path);
  GFileMonitor *monitor = g_file_monitor_file (file, G_FILE_MONITOR_WATCH_MOVES, NULL, NULL);

  if (monitor != NULL)
    g_signal_connect (monitor, "changed", G_CALLBACK (on_event), self);
  return monitor;
}

DryFileWatch *
dry_file_watch_new (const char *path, DryFileTouched touched, gpointer data)
{
  DryFileWatch *self = g_new0 (DryFileWatch, 1);
  char *real = realpath (path, NULL); /* free(), not g_free() */

  self->path = g_strdup (path);
  self->touched = touched;
  self->data = data;
  self->last = take_look (path);
  self->monitors[0] = start_monitor (self, path);
  if (real != NULL && strcmp (real, path) != 0)
    self->monitors[1] = start_monitor (self, real);
  free (real);
  return self;
}

void
dry_file_watch_free (DryFileWatch *self)
{
  if (self == NULL)
    return;
  for (guint i = 0; i < G_N_ELEMENTS (self->monitors); i++)
    if (self->monitors[i] != NULL) {
      g_signal_handlers_disconnect_by_data (self->monitors[i], self);
      g_file_monitor_cancel (self->monitors[i]);
      g_object_unref (self->monitors[i]);
    }
  if (self->timer != 0)
    g_source_remove (self->timer);
  g_free (self->path);
  g_free (self);
}

void
dry_file_watch_look (DryFileWatch *self)
{
  Look now = take_look (self->path);

  if (self->timer != 0 || is_same_look (&now, &self->last))
    return;
  self->last = now;
  self->touched (self->data);
}

const char *
dry_file_watch_get_path (const DryFileWatch *self)
{
  return self->path;
}
