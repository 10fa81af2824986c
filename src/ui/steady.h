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

/* The same for the title of an entry row: it moves and fades, at one size when the row is empty and
 * at another when it is not. A row that is not built as expected stays as it is. */
void dry_steady_keep_title (AdwEntryRow *row);

G_END_DECLS
