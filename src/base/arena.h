/* SPDX-License-Identifier: GPL-3.0-or-later */
/* An arena: many small allocations that live and die together, as the parts of a plan do.
 * Under AddressSanitizer every allocation is its own block, so overruns are still seen. */
#pragma once

#include <glib.h>

typedef struct _DryArena DryArena;

/* A new arena holding one reference; dry_arena_unref() frees everything in it at the last one.
 * Atomic. */
DryArena *dry_arena_new (void) G_GNUC_WARN_UNUSED_RESULT;
DryArena *dry_arena_ref (DryArena *self);
void dry_arena_unref (DryArena *self);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (DryArena, dry_arena_unref)

/* Zeroed memory, aligned for any type, owned by the arena. Never NULL; size 0 is allowed. */
gpointer dry_arena_alloc (DryArena *self, gsize size);
gpointer dry_arena_copy (DryArena *self, gconstpointer data, gsize size);
char *dry_arena_strdup (DryArena *self, const char *text); /* NULL stays NULL */
char *dry_arena_printf (DryArena *self, const char *format, ...) G_GNUC_PRINTF (2, 3);

/* Copies the elements of a GArray into the arena and frees the GArray. NULL when it was empty. */
gpointer dry_arena_take_array (DryArena *self, GArray *array);

#define dry_arena_new_array(arena, Type, count)                                                    \
  ((Type *) dry_arena_alloc ((arena), sizeof (Type) * (gsize) (count)))
