/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the inspector shows of a selected board or seam: sizes, sheet, who chose it, where to move
 * it. Shows the session and asks it for edits. */
#pragma once

#include <adwaita.h>

#include "ui/session.h"

G_BEGIN_DECLS

/* A group of rows that follows the selected piece by itself. */
GtkWidget *dry_piece_panel_new (DrySession *session);

G_END_DECLS
