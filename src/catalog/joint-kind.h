/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The kinds of edge a board can have: each is treated in the way the backer system says.
 * Shared by the catalogue (treatments) and the plan (joints). */
#pragma once

#include <glib.h>

typedef enum {
  DRY_JOINT_SEAM,           /* board to board in one plane, over a stud or blocking */
  DRY_JOINT_INSIDE_CORNER,  /* change of plane between two boarded faces */
  DRY_JOINT_OUTSIDE_CORNER, /* end of a half wall, edge of a built bench, jamb turned */
  DRY_JOINT_BASIN,          /* board to tub flange or deck, or to the pan */
  DRY_JOINT_DRYWALL,        /* board to the dry wall beside or above it */
  DRY_JOINT_CEILING,
  DRY_JOINT_FLOOR,       /* bottom of the leg, or of a wall outside the basin */
  DRY_JOINT_NICHE,       /* edge of the opening round a niche */
  DRY_JOINT_OPENING,     /* edge at a window or door */
  DRY_JOINT_PENETRATION, /* round a pipe or valve */
  DRY_JOINT_FREE,        /* edge that meets nothing: end of a wall in the open */
  DRY_N_JOINT_KINDS,
} DryJointKind;

/* The word in data files and JSON ("seam", "inside-corner", ...) and the name for people. */
const char *dry_joint_kind_to_text (DryJointKind kind);
gboolean dry_joint_kind_from_text (const char *text, DryJointKind *out);
const char *dry_joint_kind_name (DryJointKind kind);
