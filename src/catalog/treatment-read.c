/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Reads how a system treats each kind of joint, and what a kind of treatment must state.
 * Whether the products it names exist is checked later, when all are known. */
#define G_LOG_DOMAIN "drybay-catalog"
#include "catalog/read.h"
#include "catalog/system-read.h"

#define MAX_WIDTH (1000 * DRY_MM)

static const char *const KIND_WORDS[] = {"none", "band", "mesh", "bead", "filler", "gasket", NULL};

/* A treatment states what its kind needs, so that no stage meets a band without width. */
static void
check_completeness (DryJson object, const DryTreatment *t)
{
  gboolean laid = t->kind == DRY_TREAT_BAND || t->kind == DRY_TREAT_MESH;

  if (t->kind != DRY_TREAT_NONE && !t->product)
    dry_json_fail (object, DRY_ERROR_SCHEMA, "a treatment other than “none” needs a “product”");
  if (t->kind == DRY_TREAT_NONE && (t->product || t->bedding || t->fill))
    dry_json_fail (object, DRY_ERROR_SCHEMA, "“none” takes no product");
  if (laid && (t->width <= 0 || !t->bedding))
    dry_json_fail (object, DRY_ERROR_SCHEMA, "band and mesh need “width_mm” and “bedding”");
  if (!laid && t->bedding)
    dry_json_fail (object, DRY_ERROR_SCHEMA, "only band and mesh are set in a “bedding”");
  if (t->kind == DRY_TREAT_BEAD && (t->width <= 0 || t->depth <= 0))
    dry_json_fail (object, DRY_ERROR_SCHEMA, "a bead needs “width_mm” and “depth_mm”");
  if (t->kind == DRY_TREAT_FILLER && t->depth <= 0)
    dry_json_fail (object, DRY_ERROR_SCHEMA, "a filler needs “depth_mm”");
  if (t->fill && t->depth <= 0)
    dry_json_fail (object, DRY_ERROR_SCHEMA, "a “fill” needs “depth_mm”, the depth it fills");
}

static DryTreatment
read_treatment (DryJson object, DryArena *arena)
{
  DryTreatment t = {0};

  dry_json_only_keys (object, "kind", "name", "width_mm", "depth_mm", "overlap_mm", "smear_mm",
                      "product", "bedding", "fill", "watertight", "source", "certainty", NULL);
  t.kind = (DryTreatmentKind) dry_json_choice (dry_json_get (object, "kind"), KIND_WORDS);
  t.name = dry_read_text (dry_json_get (object, "name"), arena);
  t.width = dry_json_length_or (dry_json_opt (object, "width_mm"), 0, MAX_WIDTH, 0);
  t.depth = dry_json_length_or (dry_json_opt (object, "depth_mm"), 0, MAX_WIDTH, 0);
  t.overlap = dry_json_length_or (dry_json_opt (object, "overlap_mm"), 0, MAX_WIDTH, 0);
  t.smear = dry_json_length_or (dry_json_opt (object, "smear_mm"), 0, MAX_WIDTH, 0);
  t.product = dry_read_id_or_null (dry_json_opt (object, "product"), arena);
  t.bedding = dry_read_id_or_null (dry_json_opt (object, "bedding"), arena);
  t.fill = dry_read_id_or_null (dry_json_opt (object, "fill"), arena);
  t.watertight = dry_json_boolean (dry_json_get (object, "watertight"));
  t.source = dry_read_source (object, arena);
  if (!dry_json_has_failed (object.doc))
    check_completeness (object, &t);
  return t;
}

void
dry_treatments_read (DryJson object, DryTreatment treatments[DRY_N_JOINT_KINDS], DryArena *arena)
{
  guint n = dry_json_member_count (object);

  for (guint i = 0; i < n && !dry_json_has_failed (object.doc); i++) {
    const char *key = NULL;
    DryJson member = dry_json_member (object, i, &key);
    DryJointKind kind;
    if (!dry_joint_kind_from_text (key, &kind))
      dry_json_fail (member, DRY_ERROR_SCHEMA, "there is no joint of the kind “%.64s”", key);
  }
  for (guint kind = 0; kind < DRY_N_JOINT_KINDS && !dry_json_has_failed (object.doc); kind++) {
    DryJson member = dry_json_get (object, dry_joint_kind_to_text ((DryJointKind) kind));
    treatments[kind] = read_treatment (member, arena);
  }
}
