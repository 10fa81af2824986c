/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Faces, framing, boards and a backer system set up by hand in inches, for the stages after the
 * boards: what they must give can then be worked out on paper. Values are invented. */
#pragma once

#include "plan/plan.h"

typedef struct {
  DryArena *arena;
  DryRoom room;
  DryWall wall;
  DryJob job;
  DrySystem system;
  DryProduct products[12];
  DryWait waits[4];
  DrySheet sheet;
  DryLengthFigure thickness;
  DryPlanContext context;
  DryFace face_items[6];
  DryFaces faces;
  DryMember member_items[64];
  DryFraming framing;
  DryBoard board_items[16];
  DryMember blocking_items[16];
  DryBoards boards;
  const DryFasteners *fasteners;
  const DryJoints *joints;
  const DryCoating *coating;
  const DryTakeoff *takeoff;
  const DryOrder *order;
} Rig;

/* Exact for sixteenths and the like. */
#define IN(x) ((DryLength) ((x) *25400000.0))

/* A system of 1/2 in board: screws 8 in apart along edges and in the field, 1/2 in from edges
 * (3/8 to 1 in allowed), joints 1/8 in; bands 4 in wide with 2 in overlaps at seams, corners,
 * niches and the basin, sealant 1/4 x 1/4 in at pipes, filler to drywall, liquid membrane in two
 * coats. */
void rig_set_up (Rig *self);
void rig_tear_down (Rig *self);
/* A wall face with its region, boarded all over unless cut; corners free until said. */
DryFace *rig_add_face (Rig *self, double length, double height);
/* Joins the right end of `left` to the left end of `right` at an inside corner. */
void rig_join (Rig *self, guint left, guint right, double inset_of_right);
DryMember *rig_add_member (Rig *self, guint face, DryMemberKind kind, double x0, double y0,
                           double x1, double y1);
void rig_add_studs (Rig *self, guint face, double first, double spacing, guint n);
DryBoard *rig_add_board (Rig *self, guint face, double x0, double y0, double x1, double y1);
/* Takes a rectangle out of every board of the face and out of its region. */
void rig_cut (Rig *self, guint face, DryCutoutKind kind, DryId object, double x0, double y0,
              double x1, double y1);
void rig_drill (Rig *self, guint board, double x, double y, double diameter);
void rig_compute (Rig *self); /* all stages after the boards */

/* The projects made from the first `n` seeds, planned with the shipped catalogue; calls `check` for
 * each. */
typedef void (*RigCheck) (const DryPlan *plan, guint32 seed);
void rig_for_random_plans (guint n, RigCheck check);
/* The same with a wall added at the basin. */
void rig_for_walled_plans (guint n, RigCheck check);
