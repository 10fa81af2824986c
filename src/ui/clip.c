/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The clipboard's value as a boxed type, so that GDK can hand it round.
 * Copies deeply: the project it came from may be gone by then. */
#include "ui/clip.h"

G_DEFINE_BOXED_TYPE (DryClip, dry_clip, dry_clip_copy, dry_clip_free)

DryClip *
dry_clip_new (const DryRoom *room, DryId object)
{
  const DryPart *part = dry_room_get_part (room, object);
  const DryOpening *opening = dry_room_get_opening (room, object);
  DryClip borrowed = {(DryPart *) part, (DryOpening *) opening};

  return part != NULL || opening != NULL ? dry_clip_copy (&borrowed) : NULL;
}

DryClip *
dry_clip_copy (const DryClip *self)
{
  DryClip *copy = g_new0 (DryClip, 1);

  if (self->part != NULL)
    copy->part = dry_part_copy (self->part);
  if (self->opening != NULL)
    copy->opening = g_memdup2 (self->opening, sizeof (DryOpening));
  return copy;
}

void
dry_clip_free (DryClip *self)
{
  g_clear_pointer (&self->part, dry_part_free);
  g_free (self->opening);
  g_free (self);
}
