/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The window: header bar, shelf, board, inspector and ledger round one session.
 * Arranges widgets and files; what a drawing is or an edit does is known below. */
#pragma once

#include "ui/application.h"
#include "ui/canvas.h"
#include "ui/session.h"

G_BEGIN_DECLS

#define DRY_TYPE_WINDOW (dry_window_get_type ())
G_DECLARE_FINAL_TYPE (DryWindow, dry_window, DRY, WINDOW, AdwApplicationWindow)

GtkWidget *dry_window_new (DryApplication *application);
DrySession *dry_window_get_session (DryWindow *self);
DryCanvas *dry_window_get_canvas (DryWindow *self);
/* Opens a file, or tells why not in a toast. TRUE when opened. */
gboolean dry_window_open_path (DryWindow *self, const char *path);
/* TRUE while the start page is shown: the window has no document yet. */
gboolean dry_window_is_vacant (DryWindow *self);

/* Opens the help page about what has the focus; without a viewer says where the pages are. */
void dry_window_show_help (DryWindow *self);

G_END_DECLS
