/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The plan of one room: every stage's answer, kept together in one arena, immutable and
 * reference-counted. (project, room, catalogue) in, plan out; the same value gives the same plan in
 * any locale and thread. */
#pragma once

#include "base/json.h"
#include "plan/findings.h"
#include "plan/water.h"

typedef struct _DryPlan DryPlan;

struct _DryPlan {
  DryPlanContext context;    /* cancellable is NULL here */
  const DryProject *project; /* held */
  const DryFaces *faces;
  const DryFraming *framing;
  const DryBoards *boards;
  const DryFasteners *fasteners;
  const DryJoints *joints;
  const DryCoating *coating;
  const DryTiling *tiling;
  const DryFloor *floor;
  const DryTakeoff *takeoff;
  const DryOrder *order;
  const DryWater *water;
  const DryMeasures *measures;
  const DryFindings *findings;
};

/* Errors: DRY_ERROR_REFERENCE (system or rule pack not in the catalogue), DRY_ERROR_CANCELLED. */
DryPlan *dry_plan_new (const DryProject *project, DryId room, const DryCatalog *catalog,
                       GCancellable *cancellable, GError **error) G_GNUC_WARN_UNUSED_RESULT;
/* As dry_plan_new(), but the choice of seams and the nesting are searched on for `effort` work
 * units (see DRY_CUTTING_SECOND), or until nothing can be better. Again a pure function: the effort
 * counts work, not time. 0 is the live plan. Blocks: for a worker or the command line. */
DryPlan *dry_plan_new_searched (const DryProject *project, DryId room, const DryCatalog *catalog,
                                guint64 effort, GCancellable *cancellable,
                                GError **error) G_GNUC_WARN_UNUSED_RESULT;
/* What papers and the command line spend on a room unless told otherwise. */
#define DRY_PLAN_EFFORT DRY_CUTTING_SECOND

DryPlan *dry_plan_ref (const DryPlan *self);
void dry_plan_unref (DryPlan *self);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (DryPlan, dry_plan_unref)

/* The whole plan as one JSON object into `writer` (key may be NULL); for the command line and
 * tests. */
void dry_plan_write_json (const DryPlan *self, DryJsonWriter *writer, const char *key);

/* Thicknesses of `system` under this finish; the finish's own board counts only when it chose that
 * system. */
DryBuildUp dry_build_up_reckon (const DrySystem *system, const DryFinish *finish);

/* A working as one JSON object: formula, inputs, source and certainty. */
void dry_working_write_json (const DryWorking *self, DryJsonWriter *writer, const char *key);

/* A length as the job wants it shown ("61 1/2\"" or "1562 mm"), '.' decimal, in the plan's arena.
 */
const char *dry_context_length (const DryPlanContext *context, DryLength length);
