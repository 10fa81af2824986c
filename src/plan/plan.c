/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Runs the stages in order for one room and keeps their answers together.
 * Knows the order of the stages and nothing of what they do. */
#include "plan/plan.h"

static gboolean
set_context (DryPlanContext *context, const DryProject *project, DryId room_id,
             const DryCatalog *catalog, GCancellable *cancellable, GError **error)
{
  const DryRoom *room = dry_project_get_room (project, room_id);
  if (!room) {
    g_set_error (error, DRY_ERROR, DRY_ERROR_REFERENCE, "There is no room %u in this project",
                 room_id);
    return FALSE;
  }
  context->job = dry_project_get_job (project);
  context->room = room;
  context->system = dry_catalog_get_system (catalog, room->finish.system);
  if (!context->system) {
    g_set_error (error, DRY_ERROR, DRY_ERROR_REFERENCE, "The catalogue holds no backer system “%s”",
                 room->finish.system);
    return FALSE;
  }
  context->rules = dry_catalog_get_rule_pack (catalog, context->job->rule_pack);
  if (!context->rules) {
    g_set_error (error, DRY_ERROR, DRY_ERROR_REFERENCE, "The catalogue holds no rule pack “%s”",
                 context->job->rule_pack);
    return FALSE;
  }
  context->rules = dry_rule_pack_apply (context->rules, context->job->choices, context->arena);
  context->cancellable = cancellable;
  return TRUE;
}

DryBuildUp
dry_build_up_reckon (const DrySystem *system, const DryFinish *finish)
{
  DryBuildUp build_up = {
      .board = finish->board && g_strcmp0 (finish->system, system->id) == 0 ? finish->board
               : system->n_thicknesses ? system->thicknesses[0].value
                                       : 0,
      .membrane = (DryLength) (system->dry_film.value * (double) DRY_MM + 0.5),
      .mortar = finish->tiled ? finish->mortar : 0,
      .tile = finish->tiled ? finish->tile_thickness : 0,
  };

  build_up.total = build_up.board + build_up.membrane + build_up.mortar + build_up.tile;
  return build_up;
}

static gboolean
run_stages (DryPlan *self, GError **error)
{
  const DryPlanContext *context = &self->context;

  return (self->faces = dry_faces_compute (context, error)) &&
         (self->framing = dry_framing_compute (context, self->faces, error)) &&
         (self->boards = dry_boards_compute (context, self->faces, self->framing, error)) &&
         (self->fasteners =
              dry_fasteners_compute (context, self->faces, self->framing, self->boards, error)) &&
         (self->joints = dry_joints_compute (context, self->faces, self->boards, error)) &&
         (self->coating = dry_coating_compute (context, self->faces, self->boards, self->fasteners,
                                               self->joints, error)) &&
         (self->tiling = dry_tiling_compute (context, self->faces, error)) &&
         (self->floor = dry_floor_compute (context, error)) &&
         (self->takeoff = dry_takeoff_compute (context, self->faces, self->framing, self->boards,
                                               self->fasteners, self->joints, self->coating,
                                               self->tiling, self->floor, error)) &&
         (self->order = dry_order_compute (context, self->faces, self->framing, self->boards,
                                           self->joints, self->coating, self->floor, error)) &&
         (self->water = dry_water_compute (context, self->faces, self->boards, self->fasteners,
                                           self->joints, self->coating, error)) &&
         (self->measures = dry_measures_compute (context, self, error)) &&
         (self->findings = dry_findings_compute (context, self->measures, error));
}

DryPlan *
dry_plan_new (const DryProject *project, DryId room, const DryCatalog *catalog,
              GCancellable *cancellable, GError **error)
{
  return dry_plan_new_searched (project, room, catalog, 0, cancellable, error);
}

DryPlan *
dry_plan_new_searched (const DryProject *project, DryId room, const DryCatalog *catalog,
                       guint64 effort, GCancellable *cancellable, GError **error)
{
  g_autoptr (DryPlan) self = g_atomic_rc_box_new0 (DryPlan);

  self->project = dry_project_ref (project);
  self->context.arena = dry_arena_new ();
  self->context.effort = effort;
  self->context.catalog = dry_catalog_ref (catalog);
  if (!set_context (&self->context, project, room, catalog, cancellable, error))
    return NULL;
  self->context.build_up = dry_build_up_reckon (self->context.system, &self->context.room->finish);
  if (!run_stages (self, error))
    return NULL;
  self->context.cancellable = NULL;
  return g_steal_pointer (&self);
}

DryPlan *
dry_plan_ref (const DryPlan *self)
{
  return g_atomic_rc_box_acquire ((DryPlan *) self);
}

static void
plan_clear (gpointer data)
{
  DryPlan *self = data;

  dry_project_unref ((DryProject *) self->project);
  dry_arena_unref (self->context.arena);
  dry_catalog_unref ((DryCatalog *) self->context.catalog);
}

void
dry_plan_unref (DryPlan *self)
{
  g_atomic_rc_box_release_full (self, plan_clear);
}

const char *
dry_context_length (const DryPlanContext *context, DryLength length)
{
  const DryJob *job = context->job;
  DryLengthFormat format = {
      .style = job->metric ? DRY_LENGTH_MM : DRY_LENGTH_INCHES,
      .denominator = job->denominator ? job->denominator : 16,
      .decimal = '.',
  };
  g_autofree char *text = dry_length_format (length, &format);

  return dry_arena_strdup (context->arena, text);
}
