/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Rows of dimension strings beside a view: who stands where, so that no two overlap.
 * Private to builder and painter; the builder counts rows, only paper gives them a size. */
#pragma once

#include "draw/scene-builder.h"

/* Paper millimetres of dimension rows: the first, then each next, and letters beyond the line. */
#define DRY_ROW_FIRST   8.5
#define DRY_ROW_STEP    6.4
#define DRY_ROW_LETTERS 3.4

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
