/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Work put off until a panel has been seen, so that the window's first frame waits for none of it.
 * Knows widgets and frames; not what is done. */
#pragma once

#include <gtk/gtk.h>

G_BEGIN_DECLS

typedef void (*DryLaterFunc) (GtkWidget *widget);

/* Calls `func` once, soon after the next frame painted with `widget` mapped, which is the first one
 * for a widget not yet seen; never when the widget goes before that. Asking again before then
 * changes only the function. */
void dry_later_after_frame (GtkWidget *widget, DryLaterFunc func);

/* The menu of a button, whose popover is made when it is first opened. `model` may be given anew;
 * the button holds it. */
void dry_later_menu (GtkWidget *button, GMenuModel *model);

G_END_DECLS
