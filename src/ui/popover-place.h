/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Closes a popover when what it hangs on scrolls or slides out of sight, and lets panels wait with
 * what would push it away. Knows popovers and what scrolls and slides, nothing of what they show.
 */
#pragma once

#include "ui/later.h"

G_BEGIN_DECLS

/* A list of choices left open over an entry that is no longer there belongs to nothing a person can
 * see. GDK 4.8 complains when such an entry is beyond the edge of every screen; when the entry is
 * hidden, GTK hides the list and leaves it every key and press of the window. Call it once,
 * before the first popover is shown. */
void dry_popover_place_install (void);

/* TRUE while a popover hangs on something in the panel: rows must not move under an open list, nor
 * can it follow beyond the screen. `then` is called once, soon after it has closed. */
gboolean dry_popover_place_wait (GtkWidget *panel, DryLaterFunc then);

/* Whether something in it is still unfolding or folding up, and moves what is beside it. */
gboolean dry_popover_place_is_moving (GtkWidget *widget);

G_END_DECLS
