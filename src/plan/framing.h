/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Stage 2, framing: studs, plates, corner backing, openings framed, niche headers and sills,
 * blocking. Input: faces. Output: members as rectangles on their face, said whether found or to be
 * added. */
#pragma once

#include "plan/faces.h"

typedef enum {
  DRY_MEMBER_STUD,
  DRY_MEMBER_CORNER, /* backing at the end of a wall */
  DRY_MEMBER_PLATE,
  DRY_MEMBER_TRIMMER, /* beside an opening */
  DRY_MEMBER_HEADER,
  DRY_MEMBER_SILL,
  DRY_MEMBER_BLOCKING,
  DRY_MEMBER_CRIPPLE, /* what stays of a cut stud above and below an opening */
  DRY_MEMBER_CLEAT,   /* strip behind the edges of a niche's back */
} DryMemberKind;

typedef struct {
  guint face;
  DryMemberKind kind;
  DryRect rect;
  gboolean added;     /* not there yet: the plan asks for it */
  DryId object;       /* part or opening it serves, or 0 */
  const char *reason; /* for added members: "backs the edge of the wet wall" */
} DryMember;

/* A stretch between two neighbouring uprights. */
typedef struct {
  guint face;
  DryLength u0, u1; /* clear */
} DryBay;

typedef struct {
  DryMember *items;
  guint n;
  DryBay *bays;
  guint n_bays;
} DryFraming;

const DryFraming *dry_framing_compute (const DryPlanContext *context, const DryFaces *faces,
                                       GError **error);

/* Upright members (stud, corner, trimmer) of the face, in u order; how many into `n`. Borrowed. */
const DryMember *const *dry_framing_uprights (const DryPlanContext *context, const DryFraming *self,
                                              guint face, guint *n);
