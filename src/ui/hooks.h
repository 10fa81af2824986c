/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Being told of a signal of every object of a type. Knows none of those that ask for it. */
#pragma once

#include <glib-object.h>

G_BEGIN_DECLS

/* For as long as the program runs: `hook` is called, without data, whenever an object of the type
 * emits the signal. */
void dry_hooks_add (GType type, const char *signal, GSignalEmissionHook hook);

G_END_DECLS
