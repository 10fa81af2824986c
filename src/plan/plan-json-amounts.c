/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The second half of the plan's JSON: fasteners and joints, quantities with their workings,
 * measures and findings. */
#include "plan/plan-json-private.h"

static const char *const severities[] = {"stop", "fix", "advice"};

static void
write_fasteners (DryJsonWriter *writer, const DryFasteners *fasteners)
{
  dry_json_begin_array (writer, "fasteners");
  for (guint i = 0; i < fasteners->n; i++) {
    const DryFastener *it = &fasteners->items[i];
    dry_json_begin_object_inline (writer, NULL);
    dry_json_write_integer (writer, "face", it->face);
    dry_json_write_integer (writer, "board", it->board);
    dry_plan_json_point (writer, "at", it->at);
    dry_json_write_integer (writer, "member", it->member);
    dry_json_write_boolean (writer, "edge", it->edge);
    dry_json_write_boolean (writer, "washer", it->washer);
    dry_json_end_object (writer);
  }
  dry_json_end_array (writer);
  dry_json_begin_array (writer, "unheld_edges");
  for (guint i = 0; i < fasteners->n_unheld; i++) {
    dry_json_begin_object_inline (writer, NULL);
    dry_json_write_integer (writer, "board", fasteners->unheld[i].board);
    dry_plan_json_point (writer, "from", fasteners->unheld[i].from);
    dry_plan_json_point (writer, "to", fasteners->unheld[i].to);
    dry_json_write_length (writer, "bearing", fasteners->unheld[i].bearing);
    dry_json_end_object (writer);
  }
  dry_json_end_array (writer);
}

static void
write_joint (DryJsonWriter *writer, const DryJoint *joint)
{
  dry_json_begin_object_inline (writer, NULL);
  dry_json_write_string (writer, "kind", dry_joint_kind_to_text (joint->kind));
  dry_json_write_integer (writer, "face", joint->face);
  dry_plan_json_point (writer, "from", joint->from);
  dry_plan_json_point (writer, "to", joint->to);
  dry_json_write_integer (writer, "board", joint->board);
  dry_json_write_integer (writer, "other_board", joint->other_board);
  dry_json_write_integer (writer, "other_face", joint->other_face);
  dry_json_write_integer (writer, "object", joint->object);
  dry_json_write_length (writer, "length", joint->length);
  dry_json_write_length (writer, "gap", joint->gap);
  dry_json_write_boolean (writer, "counted", joint->counted);
  dry_json_end_object (writer);
}

static void
write_joints (DryJsonWriter *writer, const DryJoints *joints)
{
  dry_json_begin_array (writer, "joints");
  for (guint i = 0; i < joints->n; i++)
    write_joint (writer, &joints->items[i]);
  dry_json_end_array (writer);
  dry_json_begin_object (writer, "joint_totals");
  for (guint i = 0; i < DRY_N_JOINT_KINDS; i++)
    if (joints->total[i])
      dry_json_write_length (writer, dry_joint_kind_to_text (i), joints->total[i]);
  dry_json_end_object (writer);
  dry_json_begin_array (writer, "runs");
  for (guint i = 0; i < joints->n_runs; i++) {
    const DryRun *run = &joints->runs[i];
    dry_json_begin_object_inline (writer, NULL);
    dry_json_write_integer (writer, "order", run->order);
    dry_json_write_string (writer, "kind", dry_joint_kind_to_text (run->kind));
    dry_json_write_integer (writer, "face", run->face);
    dry_json_write_integer (writer, "other_face", run->other_face);
    dry_plan_json_point (writer, "from", run->from);
    dry_plan_json_point (writer, "to", run->to);
    dry_json_write_length (writer, "length", run->length);
    dry_json_end_object (writer);
  }
  dry_json_end_array (writer);
}

void
dry_plan_json_holding (DryJsonWriter *writer, const DryPlan *self)
{
  write_fasteners (writer, self->fasteners);
  write_joints (writer, self->joints);
}

static void
write_amounts (DryJsonWriter *writer, const DryCoating *coating)
{
  dry_json_write_number (writer, "wet_area_m2", coating->wet_area);
  dry_json_write_number (writer, "board_area_m2", coating->board_area);
  dry_json_begin_array (writer, "amounts");
  for (guint i = 0; i < coating->n; i++) {
    const DryAmount *it = &coating->items[i];
    dry_json_begin_object (writer, NULL);
    dry_json_write_string (writer, "product", it->product->id);
    dry_json_write_string (writer, "purpose", it->purpose);
    dry_json_write_number (writer, "amount", it->amount);
    dry_json_write_string (writer, "unit", it->product->unit);
    dry_working_write_json (&it->working, writer, "working");
    dry_json_end_object (writer);
  }
  dry_json_end_array (writer);
}

void
dry_takeoff_line_write_json (const DryTakeoffLine *self, DryJsonWriter *writer)
{
  dry_json_begin_object (writer, NULL);
  dry_json_write_string (writer, "id", self->id);
  dry_json_write_string (writer, "group", self->group);
  dry_json_write_string (writer, "name", self->name);
  dry_json_write_number (writer, "amount", self->amount);
  dry_json_write_string (writer, "unit", self->unit);
  dry_json_write_number (writer, "pack", self->pack);
  dry_json_write_string (writer, "pack_name", self->pack_name);
  dry_json_write_integer (writer, "packs", self->packs);
  if (self->price) {
    dry_json_write_integer (writer, "price", self->price);
    dry_json_write_integer (writer, "cost", self->cost);
  }
  if (self->on_hand)
    dry_json_write_boolean (writer, "on_hand", TRUE);
  dry_working_write_json (&self->working, writer, "working");
  dry_json_end_object (writer);
}

static void
write_order (DryJsonWriter *writer, const DryOrder *order)
{
  dry_json_begin_object (writer, "order");
  dry_json_write_number (writer, "hours", order->hours);
  dry_json_write_number (writer, "hours_to_tile_min", order->hours_to_tile_min);
  dry_json_write_number (writer, "hours_to_tile_max", order->hours_to_tile_max);
  dry_json_begin_array (writer, "steps");
  for (guint i = 0; i < order->n; i++) {
    const DryStep *step = &order->items[i];
    dry_json_begin_object (writer, NULL);
    dry_json_write_string (writer, "id", step->id);
    dry_json_write_string (writer, "text", step->text);
    dry_json_write_number (writer, "hours", step->hours);
    dry_json_write_number (writer, "wait_min", step->wait_min);
    dry_json_write_number (writer, "wait_max", step->wait_max);
    dry_json_write_boolean (writer, "hold", step->hold);
    dry_working_write_json (&step->working, writer, "working");
    dry_json_end_object (writer);
  }
  dry_json_end_array (writer);
  dry_json_end_object (writer);
}

static void
write_floor (DryJsonWriter *writer, const DryFloor *floor)
{
  if (!floor->built)
    return;
  dry_json_begin_object (writer, "floor");
  dry_json_write_boolean (writer, "liner", floor->liner);
  dry_json_write_number (writer, "slope", floor->slope);
  dry_json_write_length (writer, "run", floor->run);
  dry_json_write_length (writer, "fall", floor->fall);
  dry_json_write_length (writer, "drain_depth", floor->drain_depth);
  dry_json_write_length (writer, "rim_depth", floor->rim_depth);
  dry_json_write_number (writer, "area_m2", floor->area);
  dry_json_write_number (writer, "volume_l", floor->volume);
  dry_json_write_number (writer, "mass_kg", floor->mass);
  dry_json_write_number (writer, "sheet_m2", floor->sheet_area);
  dry_working_write_json (&floor->fall_working, writer, "fall_working");
  dry_working_write_json (&floor->volume_working, writer, "volume_working");
  dry_working_write_json (&floor->mass_working, writer, "mass_working");
  dry_working_write_json (&floor->sheet_working, writer, "sheet_working");
  dry_json_end_object (writer);
}

void
dry_plan_json_quantities (DryJsonWriter *writer, const DryPlan *self)
{
  const DryTakeoff *takeoff = self->takeoff;

  write_amounts (writer, self->coating);
  write_floor (writer, self->floor);
  dry_json_begin_object (writer, "takeoff");
  dry_json_write_integer (writer, "cost", takeoff->cost);
  dry_json_write_integer (writer, "n_unpriced", takeoff->n_unpriced);
  dry_json_write_number (writer, "mass_kg", takeoff->mass);
  dry_json_begin_array (writer, "lines");
  for (guint i = 0; i < takeoff->n; i++)
    dry_takeoff_line_write_json (&takeoff->lines[i], writer);
  dry_json_end_array (writer);
  dry_json_end_object (writer);
  write_order (writer, self->order);
}

static void
write_measure (DryJsonWriter *writer, const DryMeasure *measure)
{
  switch (measure->kind) {
  case DRY_MEASURE_LENGTH:
    dry_json_write_length (writer, measure->name, measure->length);
    break;
  case DRY_MEASURE_NUMBER:
    dry_json_write_number (writer, measure->name, measure->number);
    break;
  case DRY_MEASURE_BOOLEAN:
    dry_json_write_boolean (writer, measure->name, measure->number != 0);
    break;
  }
}

static void
write_subject (DryJsonWriter *writer, const DrySubject *subject)
{
  dry_json_begin_object (writer, NULL);
  dry_json_write_string (writer, "kind", subject->kind);
  dry_json_write_integer (writer, "object", subject->object);
  dry_json_write_integer (writer, "face", subject->face);
  dry_plan_json_rect (writer, "place", subject->place);
  dry_json_write_string (writer, "name", subject->name);
  dry_json_begin_object (writer, "measures");
  for (guint i = 0; i < subject->n_measures; i++)
    write_measure (writer, &subject->measures[i]);
  dry_json_end_object (writer);
  dry_json_end_object (writer);
}

static void
write_finding (DryJsonWriter *writer, const DryFinding *finding)
{
  dry_json_begin_object (writer, NULL);
  dry_json_write_string (writer, "id", finding->id);
  dry_json_write_string (writer, "rule", finding->rule->id);
  dry_json_write_integer (writer, "number", finding->rule->number);
  dry_json_write_string (writer, "severity", severities[finding->severity]);
  dry_json_write_string (writer, "title", finding->rule->title);
  dry_json_write_string (writer, "message", finding->message);
  dry_json_write_string (writer, "where", finding->where);
  dry_json_write_integer (writer, "object", finding->object);
  dry_json_write_integer (writer, "face", finding->face);
  dry_plan_json_rect (writer, "place", finding->place);
  dry_json_write_string (writer, "measured", finding->measured);
  dry_json_write_string (writer, "required", finding->required);
  dry_json_write_string (writer, "why", finding->rule->why);
  dry_json_begin_array (writer, "remedies");
  for (guint i = 0; i < finding->rule->n_remedies; i++)
    dry_json_write_string (writer, NULL, finding->rule->remedies[i].text);
  dry_json_end_array (writer);
  dry_working_write_json (&finding->working, writer, "working");
  dry_json_end_object (writer);
}

void
dry_plan_json_judgement (DryJsonWriter *writer, const DryPlan *self)
{
  dry_json_begin_array (writer, "subjects");
  for (guint i = 0; i < self->measures->n; i++)
    write_subject (writer, &self->measures->items[i]);
  dry_json_end_array (writer);
  dry_json_begin_array (writer, "findings");
  for (guint i = 0; i < self->findings->n; i++)
    write_finding (writer, &self->findings->items[i]);
  dry_json_end_array (writer);
}
