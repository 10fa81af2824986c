/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Mends what the toolkit leaves behind when a menu, a window or what was dragged goes: presses that
 * go to what is closed, windows and surfaces that are never let go. Knows not what they show. */
#pragma once

#include <gtk/gtk.h>

G_BEGIN_DECLS

/* GTK 4.8 may make up a motion for the surface of a popover after it was hidden. The popover is
 * then taken for what is pointed at, once more after each frame in which the window is laid out,
 * and a press on the window goes to it and is lost. From here on nothing is delivered to a popover
 * between its closing and its next showing.
 *
 * What goes while a button is held on it, a window by Escape, say, or a row whose menu was asked
 * for, keeps the press in a gesture of its own, which keeps it, or part of what it shows, for good.
 * Such gestures are ended from here on.
 *
 * A menu that was shown kept its sections for good, one reference too many each; given back here.
 *
 * What was dragged kept its surface for good, a popover its window's, and a window what was last
 * dropped into it. They let go of it from here on, and scrolled windows of the settings, which told
 * those that had gone.
 *
 * What is hidden with the focus in it loses the focus at once, not after the next frame: hidden and
 * taken away before that, it was left for good.
 *
 * Call it once, before the first window is made. */
void dry_closing_install (void);

G_END_DECLS
