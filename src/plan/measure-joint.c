/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Measures of the kinds of joint the room has: open width, treatment, overlap, tightness.
 * One subject a kind; the stretches themselves are told by the joints stage. */
#include "plan/measure-build.h"

/* These let water behind the board when nothing closes them. */
static gboolean
is_wet (DryJointKind kind)
{
  return kind != DRY_JOINT_CEILING && kind != DRY_JOINT_DRYWALL && kind != DRY_JOINT_FREE;
}

static DryLength
find_gap (const DryJoints *joints, DryJointKind kind, gint *face, DryRect *place)
{
  DryLength gap = -1;

  for (guint i = 0; i < joints->n; i++) {
    const DryJoint *joint = &joints->items[i];
    if (joint->kind != kind || joint->gap <= gap)
      continue;
    gap = joint->gap;
    *face = (gint) joint->face;
    *place = (DryRect){MIN (joint->from.x, joint->to.x), MIN (joint->from.y, joint->to.y),
                       MAX (joint->from.x, joint->to.x), MAX (joint->from.y, joint->to.y)};
  }
  return MAX (0, gap);
}

static void
measure_joint (DryMeasuring *self, DryJointKind kind)
{
  const DrySystem *system = self->context->system;
  const DryTreatment *treatment = &system->treatments[kind];
  gboolean coated = system->membrane != DRY_MEMBRANE_NONE && system->membrane_product;
  DryRect place = {0};
  gint face = -1;
  DryLength gap = find_gap (self->plan->joints, kind, &face, &place);

  if (face < 0)
    return;
  dry_measuring_begin (
      self, "joint", 0, face, place,
      dry_arena_printf (self->context->arena, "joints: %s", dry_joint_kind_name (kind)));
  dry_measuring_boolean (self, "wet", is_wet (kind), NULL);
  dry_measuring_boolean (self, "penetration", kind == DRY_JOINT_PENETRATION, NULL);
  dry_measuring_boolean (self, "at-basin", kind == DRY_JOINT_BASIN, NULL);
  dry_measuring_boolean (self, "in-plane", kind == DRY_JOINT_SEAM, NULL);
  dry_measuring_boolean (self, "at-drywall", kind == DRY_JOINT_DRYWALL, NULL);
  dry_measuring_length (self, "gap", gap, "widest of this kind");
  dry_measuring_boolean (self, "liquid-membrane", system->membrane == DRY_MEMBRANE_LIQUID, NULL);
  dry_measuring_boolean (self, "treated", treatment->kind != DRY_TREAT_NONE, "%s",
                         treatment->name ? treatment->name : "nothing");
  dry_measuring_boolean (self, "tight", treatment->watertight || coated, "%s%s",
                         treatment->name ? treatment->name : "nothing",
                         coated ? ", membrane over it" : "");
  dry_measuring_boolean (self, "band", treatment->kind == DRY_TREAT_BAND, NULL);
  if (treatment->kind == DRY_TREAT_BAND)
    dry_measuring_length (self, "overlap", treatment->overlap, "%s", treatment->name);
  dry_measuring_end (self);
}

void
dry_measure_joints (DryMeasuring *self)
{
  for (guint kind = 0; kind < DRY_N_JOINT_KINDS; kind++)
    measure_joint (self, (DryJointKind) kind);
}
