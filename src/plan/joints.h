/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Stage 6, joints: every stretch of every board's boundary, classified as exactly one kind of
 * joint, with the system's treatment, the length of band or bead it takes, and the order of laying.
 */
#pragma once

#include "plan/boards.h"

typedef struct {
  DryJointKind kind;
  guint face;
  DryPoint from, to; /* on the face */
  gint board;        /* the board whose edge it is; -1 where the wall is floated without boards */
  gint other_board;  /* seam, corner: the board across, or -1 */
  gint other_face;   /* corner: the face across, or -1 */
  DryId object;      /* niche, opening, basin or fitting it goes round, or 0 */
  DryLength length;
  DryLength gap;    /* open width to be filled */
  gboolean counted; /* FALSE on the second side of a shared joint: drawn, but not bought twice */
} DryJoint;

/* Joints of one kind joined into runs as one lays them. */
typedef struct {
  DryJointKind kind;
  guint face;
  guint order; /* 1 = laid first (bottom band before corner bands before the rest) */
  DryPoint from, to;
  gint other_face;
  DryLength length; /* with overlaps */
} DryRun;

typedef struct {
  DryJoint *items;
  guint n;
  DryRun *runs;
  guint n_runs;
  DryLength total[DRY_N_JOINT_KINDS]; /* counted lengths */
} DryJoints;

const DryJoints *dry_joints_compute (const DryPlanContext *context, const DryFaces *faces,
                                     const DryBoards *boards, GError **error);
