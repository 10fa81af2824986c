/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Watches one file from outside: says when it may have been changed, moved or deleted, once things
 * are quiet again. Knows nothing of what is in it, nor who changed it. */
#pragma once

#include <gio/gio.h>

G_BEGIN_DECLS

typedef struct _DryFileWatch DryFileWatch;

/* Called in the main context; the file may well be as it was. */
typedef void (*DryFileTouched) (gpointer data);

/* Programs write in several goes: so long nothing must have happened, in milliseconds. */
#define DRY_FILE_WATCH_QUIET 400

/* Never NULL; where a file cannot be watched, dry_file_watch_look() still notices. */
DryFileWatch *dry_file_watch_new (const char *path, DryFileTouched touched,
                                  gpointer data) G_GNUC_WARN_UNUSED_RESULT;
void dry_file_watch_free (DryFileWatch *self);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (DryFileWatch, dry_file_watch_free)

/* Looks whether the file is another than at the last look: on network folders nobody tells what
 * others do. Cheap enough for whenever a window comes to the front. */
void dry_file_watch_look (DryFileWatch *self);
const char *dry_file_watch_get_path (const DryFileWatch *self);

G_END_DECLS
