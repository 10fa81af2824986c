/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A scene's life: it lives in its own arena, so holding the one holds the other.
 * Immutable once made; knows no zoom and no Cairo. */
#include "draw/scene.h"

DryScene *
dry_scene_ref (const DryScene *self)
{
  dry_arena_ref (self->arena);
  return (DryScene *) self;
}

void
dry_scene_unref (DryScene *self)
{
  if (self)
    dry_arena_unref (self->arena);
}
