/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Being told of a signal of every object of a type, and standing in for a function of its class.
 * Knows none of those that ask for it. */
#pragma once

#include <glib-object.h>

G_BEGIN_DECLS

/* For as long as the program runs: `hook` is called, without data, whenever an object of the type
 * emits the signal. */
void dry_hooks_add (GType type, const char *signal, GSignalEmissionHook hook);

/* For as long as the program runs: the function at `offset` (G_STRUCT_OFFSET) of the type's class
 * is `function`, one a type. Classes derived from it that are in use already keep what they have.
 * A second call does nothing. */
void dry_hooks_replace (GType type, gsize offset, gpointer function);

/* What was there before dry_hooks_replace(), for the one that stands in to call. */
gpointer dry_hooks_get_original (GType type);

G_END_DECLS
