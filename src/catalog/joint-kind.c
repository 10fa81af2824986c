/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The words for the kinds of joint, in files and for people.
 * It knows no treatment and no plan. */
#include "catalog/joint-kind.h"

static const struct {
  const char *word, *name;
} KINDS[DRY_N_JOINT_KINDS] = {
    [DRY_JOINT_SEAM] = {"seam", "seam"},
    [DRY_JOINT_INSIDE_CORNER] = {"inside-corner", "inside corner"},
    [DRY_JOINT_OUTSIDE_CORNER] = {"outside-corner", "outside corner"},
    [DRY_JOINT_BASIN] = {"basin", "joint to tub or pan"},
    [DRY_JOINT_DRYWALL] = {"drywall", "joint to drywall"},
    [DRY_JOINT_CEILING] = {"ceiling", "joint to ceiling"},
    [DRY_JOINT_FLOOR] = {"floor", "joint to floor"},
    [DRY_JOINT_NICHE] = {"niche", "edge round a niche"},
    [DRY_JOINT_OPENING] = {"opening", "edge at a window or door"},
    [DRY_JOINT_PENETRATION] = {"penetration", "edge round a pipe or valve"},
    [DRY_JOINT_FREE] = {"free", "free edge"},
};

const char *
dry_joint_kind_to_text (DryJointKind kind)
{
  g_return_val_if_fail ((guint) kind < DRY_N_JOINT_KINDS, "");
  return KINDS[kind].word;
}

gboolean
dry_joint_kind_from_text (const char *text, DryJointKind *out)
{
  for (guint i = 0; i < DRY_N_JOINT_KINDS; i++)
    if (g_str_equal (text, KINDS[i].word)) {
      *out = (DryJointKind) i;
      return TRUE;
    }
  return FALSE;
}

const char *
dry_joint_kind_name (DryJointKind kind)
{
  g_return_val_if_fail ((guint) kind < DRY_N_JOINT_KINDS, "");
  return KINDS[kind].name;
}
