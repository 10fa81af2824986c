/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Closes a popover when what it hangs on scrolls or slides out of sight. Knows popovers and what
 * scrolls and slides, nothing of what they show. */
#pragma once

#include <gtk/gtk.h>

G_BEGIN_DECLS

/* A list of choices left open over an entry that is no longer there belongs to nothing a person can
 * see. GDK 4.8 complains when such an entry is beyond the edge of every screen; when the entry is
 * hidden, GTK hides the list and leaves it every key and press of the window. Call it once,
 * before the first popover is shown. */
void dry_popover_place_install (void);

G_END_DECLS
