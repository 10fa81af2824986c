/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The preferences window: units, fraction, rule pack, paper, style.
 * Shows the session and asks it for edits; keeps no state of the document. */
#pragma once

#include <gtk/gtk.h>

G_BEGIN_DECLS

void dry_preferences_present (GtkWindow *parent);

G_END_DECLS
