/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The shortcuts window: every action with its keys, and what the board heeds beside them.
 * Shows the table of actions; keeps nothing. */
#pragma once

#include <gtk/gtk.h>

G_BEGIN_DECLS

void dry_shortcuts_present (GtkWindow *parent);

G_END_DECLS
