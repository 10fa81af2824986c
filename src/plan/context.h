/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What every stage of the plan may read, and the arena it answers into.
 * A stage is a pure function of this and of earlier stages: no clock, files, locale or globals. */
#pragma once

#include <gio/gio.h>

#include "catalog/catalog.h"
#include "project/project.h"

/* Thickness built onto the studs, of the chosen system and tile. */
typedef struct {
  DryLength board, membrane, mortar, tile;
  DryLength total; /* sum: stud face to tile face */
} DryBuildUp;

typedef struct {
  DryArena *arena;
  const DryJob *job;
  const DryRoom *room;
  const DryCatalog *catalog;
  const DrySystem *system;
  const DryRulePack *rules;
  DryBuildUp build_up;
  GCancellable *cancellable; /* or NULL; long loops ask it */
  guint64 effort;            /* work units for fewer sheets (DRY_CUTTING_SECOND); 0 = live */
} DryPlanContext;
