/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What stands before the studs at a valve, drawn as a bar: board, membrane, mortar, tile, with the
 * range its trim takes. Follows the session; edits nothing. */
#pragma once

#include <gtk/gtk.h>

#include "ui/session.h"

G_BEGIN_DECLS

/* The bar for a valve of the room shown. */
GtkWidget *dry_depth_bar_new (DrySession *session, DryId valve);

G_END_DECLS
