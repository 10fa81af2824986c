/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The sheets and offcuts on hand, as a foldable row of the inspector: sizes, how many, a note, what
 * system they are of. Shows the session and asks it for edits. */
#pragma once

#include <adwaita.h>

#include "ui/session.h"

G_BEGIN_DECLS

GtkWidget *dry_on_hand_row_new (DrySession *session);

G_END_DECLS
