/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The preferences window: units, fraction and rules of new projects, paper, style.
 * Shows the settings the windows share; knows no document. */
#pragma once

#include <gtk/gtk.h>

G_BEGIN_DECLS

void dry_preferences_present (GtkWindow *parent);

G_END_DECLS
