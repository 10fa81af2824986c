/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Fields in which letters and figures are typed. May not know what they are for. */
#pragma once

#include <gtk/gtk.h>

G_BEGIN_DECLS

/* Offers no emoji in the field, by its menu or by Ctrl+period. Those pasted or typed by an input
 * method are taken as any other text. Any editable with a GtkText. */
void dry_plain_entry_set_up (GtkWidget *editable);

/* A number with buttons beside it, from `low` to `high`, which the wheel rolls past: GTK's own
 * takes it for a step as soon as the pointer comes over it, also where one only wanted to see what
 * is further down. Floating. */
GtkWidget *dry_plain_spin_new (double low, double high, double step);

G_END_DECLS
