/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The frame of one wall face while it is being put up; shared by the files of the framing stage.
 * Not for other stages: they read DryFraming. */
#pragma once

#include "plan/framing.h"

/* Lumber on edge between studs: 2x4, 2x6 and 2x8 are 3-1/2, 5-1/2 and 7-1/4 in high (PS 20). */
#define DRY_FRAME_2X4 (7 * DRY_INCH / 2)
#define DRY_FRAME_2X6 (11 * DRY_INCH / 2)
#define DRY_FRAME_2X8 (29 * DRY_INCH / 4)
/* Wood a board's edge needs on its side of a line to be worth counting on; common practice, no
 * source. */
#define DRY_FRAME_BEARING (DRY_INCH / 2)

typedef struct {
  const DryPlanContext *context;
  const DryFace *face;
  const DryWall *wall;
  DryLength stud;   /* width of a stud on the face */
  DryLength z0, z1; /* between bottom and top plates */
  GArray *uprights; /* DryMember: studs, corners, trimmers */
  GArray *others;   /* DryMember: the rest */
  GArray *roughs;   /* DryRect: openings and niches, kept free */
} DryFrame;

/* Adds a member cut to the face; empty ones are left out. */
void dry_frame_add (DryFrame *self, DryMemberKind kind, DryRect rect, gboolean added, DryId object,
                    const char *reason);
/* The same for an upright; FALSE when another stands in its place. */
gboolean dry_frame_add_upright (DryFrame *self, DryMemberKind kind, DryRect rect, gboolean added,
                                DryId object, const char *reason);
/* Clear stretches between the uprights that stand somewhere in z0..z1, from end to end; DryBay. */
GArray *dry_frame_find_bays (const DryFrame *self, DryLength z0, DryLength z1);

void dry_frame_add_openings (DryFrame *self);
void dry_frame_add_niches (DryFrame *self);
void dry_frame_add_backing (DryFrame *self);
void dry_frame_add_blocking (DryFrame *self);
void dry_frame_add_lining (DryFrame *self);
