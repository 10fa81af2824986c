/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Shows what a window has to tell, one toast after the other. Knows nothing of what they say. */
#pragma once

#include <adwaita.h>

G_BEGIN_DECLS

/* libadwaita 1.2 frees a toast that goes away before it has quite come in, and then goes on moving
 * it in: memory is overwritten. So it is when one toast takes the place of another, for it comes in
 * slower than it goes, and when one is dismissed, by Escape say, in the frame that shows it or
 * while no frame is painted. Toasts shown by this wait until the one before is gone, and go when
 * they have come.
 *
 * `place` is an AdwToastOverlay or an AdwPreferencesWindow; takes the reference to `toast`. One of
 * high priority is the next to be shown. */
void dry_toasts_show (GtkWidget *place, AdwToast *toast);

/* Dismisses the toast shown in the place; FALSE when it is still coming and goes when it has come.
 */
gboolean dry_toasts_dismiss (GtkWidget *place, AdwToast *toast);

G_END_DECLS
