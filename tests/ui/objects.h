/* SPDX-License-Identifier: GPL-3.0-or-later */
/* How many objects of each type there are, for tests of what stays behind. Knows GObject only; it
 * stands before GObject's own functions, so the program has to export its symbols. */
#pragma once

#include <glib.h>

/* Of exactly that type, by its name, made by g_object_new() and its kin and not finalised yet. */
int dry_objects_count (const char *type);
/* All counts as they are now, type names to numbers. Free with g_hash_table_unref(). */
GHashTable *dry_objects_snapshot (void);
/* What there are at least `least` more of than before, as text for a message, or NULL. */
char *dry_objects_grown (GHashTable *before, int least);
