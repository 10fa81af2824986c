/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Whether a thing is within the pages of what scrolls round it, and bringing it there. Knows what
 * scrolls, nothing of what is shown. */
#pragma once

#include <gtk/gtk.h>

G_BEGIN_DECLS

/* Whether some of the widget is within the page the adjustment, one of the scrolled window's, was
 * moved to. */
gboolean dry_sight_is_in_page (GtkWidget *widget, GtkWidget *scrolled, GtkAdjustment *adjustment);

/* Scrolls what is round the widget until it is seen; FALSE when it was not out of sight. */
gboolean dry_sight_bring (GtkWidget *widget);

/* In every window shown from now on: a key that could open something brings what has the keyboard
 * to sight first, when it was scrolled away, and does no more. GDK 4.8 has no place for a list that
 * hangs on nothing to be seen, nor would a person know what it is about. In a panel that slides
 * away it does nothing. Call it once, before the first window is shown. */
void dry_sight_install (void);

G_END_DECLS
