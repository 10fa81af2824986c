/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the clipboard carries inside the program: a copy of one part or opening.
 * A plain value; knows no widget. */
#pragma once

#include <glib-object.h>

#include "project/room.h"

G_BEGIN_DECLS

typedef struct {
  DryPart *part; /* or NULL */
  DryOpening *opening;
} DryClip;

#define DRY_TYPE_CLIP (dry_clip_get_type ())
GType dry_clip_get_type (void);

/* NULL when the object is neither part nor opening. */
DryClip *dry_clip_new (const DryRoom *room, DryId object);
DryClip *dry_clip_copy (const DryClip *self);
void dry_clip_free (DryClip *self);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (DryClip, dry_clip_free)

G_END_DECLS
