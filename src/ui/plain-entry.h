/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Fields in which letters and figures are typed. May not know what they are for. */
#pragma once

#include <gtk/gtk.h>

G_BEGIN_DECLS

/* Offers no emoji in the field, by its menu or by Ctrl+period. Those pasted or typed by an input
 * method are taken as any other text. Any editable with a GtkText. */
void dry_plain_entry_set_up (GtkWidget *editable);

G_END_DECLS
