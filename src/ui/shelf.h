/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The shelf: parts to drag onto the board or pick by a click.
 * Shows the session and asks it for edits; keeps no state of the document. */
#pragma once

#include <gtk/gtk.h>

#include "ui/canvas.h"

G_BEGIN_DECLS

GtkWidget *dry_shelf_new (DrySession *session, DryCanvas *canvas);

G_END_DECLS
