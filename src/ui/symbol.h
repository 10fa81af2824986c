/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The program's own symbols, in the color of the text they stand with. GTK takes a file for a
 * symbol only when it comes from an icon theme; these do not, so that no theme is read for them. */
#pragma once

#include <gtk/gtk.h>

G_BEGIN_DECLS

#define DRY_TYPE_SYMBOL (dry_symbol_get_type ())
G_DECLARE_FINAL_TYPE (DrySymbol, dry_symbol, DRY, SYMBOL, GObject)

/* The symbol of that name in the resource, as a GtkSymbolicPaintable of 16 pixels. Read once and
 * shared by all who show it; borrowed. */
GdkPaintable *dry_symbol_get (const char *name);

G_END_DECLS
