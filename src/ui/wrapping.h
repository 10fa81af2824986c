/* SPDX-License-Identifier: GPL-3.0-or-later */
/* How labels break their lines, so that no text from a file can bring the toolkit down.
 * Knows labels only. */
#pragma once

#include <gtk/gtk.h>

G_BEGIN_DECLS

/* Pango up to 1.50 aborts when it breaks some texts "at words, else anywhere" to the least width:
 * an "e", an Arabic letter, a space and an accent are enough. From here on each label that is told
 * to break so by a property, as the templates of rows do, breaks at words, or anywhere while it has
 * a word too long for that. White space at its end, which nobody sees, is not shown: with it
 * GTK 4.8 takes some texts to need their whole length in a line, and rows of them overlap. Call it
 * once, before the first label is made. */
void dry_wrapping_install (void);

/* The same for a label made by hand, now and whenever its text changes. */
void dry_wrapping_watch (GtkLabel *label);

/* At most a few lines of a text, an ellipsis at its end when it was longer: a list of rows that are
 * screens tall is of no use, and higher than can be painted. NULL stays NULL. Free it. */
char *dry_wrapping_shorten (const char *text);
/* The same for at most so many letters. */
char *dry_wrapping_cut (const char *text, glong most);

G_END_DECLS
