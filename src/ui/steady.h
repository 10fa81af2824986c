/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Letters that keep their size while what they stand on comes or goes. Knows the toolkit's rows and
 * toasts only. */
#pragma once

#include <adwaita.h>

G_BEGIN_DECLS

/* libadwaita shrinks a toast that goes, and the title of an entry row that is typed into, a little
 * with each frame. Each size is a font of its own to Cairo, whose letters are drawn anew and kept,
 * up to 16,384 of them: slow frames, and memory that grows for hours. From here on toasts fade away
 * at their size. Call it once, before the first toast is shown. */
void dry_steady_install (void);

/* A row to type text into, with a button to confirm it, but no chooser of emoji. Its title moves
 * and fades, at one size when the row is empty and at another when it is not; in a libadwaita that
 * builds such rows otherwise it does what it does there. Floating. */
GtkWidget *dry_steady_entry_row_new (const char *title);

G_END_DECLS
