/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The shortcuts window: every action with its keys.
 * Shows the session and asks it for edits; keeps no state of the document. */
#pragma once

#include <gtk/gtk.h>

G_BEGIN_DECLS

void dry_shortcuts_present (GtkWindow *parent);

G_END_DECLS
