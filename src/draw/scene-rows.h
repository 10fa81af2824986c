/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Rows of dimension strings beside a view: who stands where, so that no two overlap.
 * Private to the builder; knows no paper size, only rows. */
#pragma once

#include "draw/scene-builder.h"

typedef struct {
  DryToward side;
  guint row;
  DryLength base; /* rows with another base line are other rows */
  DryLength from, to;
} DryRowStretch;

DryPrimitive *dry_scene_builder_add (DrySceneBuilder *self, DryPrimitiveKind kind, DryLook look,
                                     const DryPoint *points, guint n);
/* A length as this job writes it, to be freed. */
char *dry_scene_builder_write (DrySceneBuilder *self, DryLength length);
