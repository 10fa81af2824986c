/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Sets which joints are counted: of a joint seen from both its sides, one.
 * Private to the joints stage. */
#pragma once

#include "plan/joints.h"

/* `joints`: DryJoint, in board order. */
void dry_joints_count_once (GArray *joints, const DryFaces *faces);
