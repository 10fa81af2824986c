/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Stage 5, fasteners: every screw as a point on framing, at legal distance from its board's edges
 * and holes. Input: boards and framing. Spacing and edge distance are the system's. */
#pragma once

#include "plan/boards.h"

typedef struct {
  guint face;
  guint board;
  DryPoint at;
  gint member;   /* index in framing; members added by boards follow on: framing n + index */
  gboolean edge; /* on the board's edge row, else in the field */
  gboolean washer;
} DryFastener;

/* A board edge over framing that no legal fastener can hold. */
typedef struct {
  guint board;
  DryPoint from, to;
  DryLength bearing;
} DryUnheldEdge;

typedef struct {
  DryFastener *items;
  guint n;
  DryUnheldEdge *unheld;
  guint n_unheld;
} DryFasteners;

const DryFasteners *dry_fasteners_compute (const DryPlanContext *context, const DryFaces *faces,
                                           const DryFraming *framing, const DryBoards *boards,
                                           GError **error);
/* The member an index of DryFastener.member means. */
const DryMember *dry_fasteners_get_member (const DryFraming *framing, const DryBoards *boards,
                                           gint member);
