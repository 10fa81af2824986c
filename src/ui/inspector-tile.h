/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The row that takes a tile from the catalogue, and the finish in a few words.
 * Shows the session and asks it for edits. */
#pragma once

#include <gtk/gtk.h>

#include "ui/session.h"

G_BEGIN_DECLS

GtkWidget *dry_tile_row_new (DrySession *session);
/* "Ceramic tile, 3 x 6 in", "24\" × 12\"" or "No tile yet". Free. */
char *dry_tile_describe (DrySession *session);

G_END_DECLS
