/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Questions to a scene, for the tests of drawings: how many of what, and which comes first.
 * Knows no drawing; reads what each primitive says it shows. */
#pragma once

#include "draw/scene.h"

/* What a primitive must be to be counted. `object` 0: of any object. */
typedef struct {
  DryLayer layer;
  DryShows shows;
  DryId object;
  DryPrimitiveKind kind;
} DryWanted;

guint dry_scene_count (const DryScene *scene, DryWanted wanted);
/* The `nth` such primitive, from 0; NULL when there are fewer. Borrowed. */
const DryPrimitive *dry_scene_nth (const DryScene *scene, DryWanted wanted, guint nth);
/* Whether these very letters stand somewhere in it. */
gboolean dry_scene_says (const DryScene *scene, const char *text);
/* What a primitive's points span. */
DryRect dry_primitive_bounds (const DryPrimitive *item);
